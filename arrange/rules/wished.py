"""What the rules for the person's own wishes have in common. Lengths in mm.

A wish that must hold is built and judged as a must; any other earns points by its own
weight. A place is a piece, a door, a window, a fixture or a wall. Some names mean several:
a wall broken by a chimney breast, alike pieces. Distances are the larger of the gap across
and the gap up the plan between two upright bounding boxes. Openings are boxes without
depth on their wall, walls the bounding boxes of their two ends: exact for straight walls,
roomy for slanted. A piece is against a wall by its back, or by any side if it has none.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from arrange.data.change import Loosen, changed
from arrange.data.conflict import Requirement
from arrange.data.lengths import Rounding, measured, the
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.room import FACINGS, Door, Facing, Room, Window
from arrange.data.scenario import Relation, Scenario, Wish
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import turn_facing, turns
from arrange.geometry.spots import (
    Bounded,
    Coordinate,
    across,
    along,
    fixture_spot,
    gap,
    opening_spot,
    wall_spot,
)
from arrange.rules.protocol import Condition, L, Verbs
from arrange.rules.requirement import WISHES, Relaxing, RequirementKind
from arrange.rules.rule import Claim, Measure, Rule

LETTERED = re.compile(r"wall .{1,2}")
# What a wall is called that stands forward, and what it leaves of another.
PART = re.compile(r"(?P<whole>.+) (?P<side>(?:left|right)(?: side)?)")
SAID = {"aligned": "in line with", "in view of": "with a view of"}
MUST: dict[Relation, str] = {
    "near": "stands near",
    "away from": "stays away from",
    "facing": "faces",
    "against": "stands against",
    "not against": "does not stand against",
    "in view of": "has a view of",
    "beside": "stands beside",
    "aligned": "stands in line with",
}


class OwnWish(Rule):
    """One relation that the person can wish for. Subclasses say when it holds."""

    relation: Relation
    usual = 0  # mm, where the person names no distance
    source = "yours"
    kinds = (RequirementKind("wish", WISHES, dispensable=6),)

    def distance(self, wish: Wish) -> int:
        """The distance in mm that is wished: the person's own, or the usual one."""
        return self.usual if wish.distance is None else wish.distance

    def steps(self, wish: Wish) -> tuple[int, ...]:
        """What each level asks for, easiest first; the last is the whole wish."""
        del wish
        return (0,)

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """Make the wish hold, up to that step, whenever the literal is true."""
        raise NotImplementedError(self.id)

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """Whether the wish holds, up to that step, on a finished arrangement."""
        raise NotImplementedError(self.id)

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """What is said of it, of its ``place``, where all to say is whether it holds."""
        raise NotImplementedError(self.id)

    def describe(self, scene: Scene, wish: Wish) -> Measure:
        """The sentence and the words for what is and what was wished; level 0."""
        held = self.held(scene, wish, self.steps(wish)[-1])
        place = place_words(scene.scenario.room, wish.place)
        return Measure(0, self.sentence(wish, place, held=held), "yes" if held else "no", "yes")

    def build(self, model: Verbs[L]) -> None:
        """Every wish of this relation that must hold."""
        for wish in model.scenario.wishes:
            if wish.relation == self.relation and wish.must:
                self.hold(model, model.always(), wish, self.steps(wish)[-1])

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each wish that must hold and does not."""
        for wish in scene.scenario.wishes:
            if wish.relation != self.relation or not wish.must:
                continue
            if not self.held(scene, wish, self.steps(wish)[-1]):
                yield Breach(self.id, (wish.piece,), self.describe(scene, wish).sentence)

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each wish that earns points; ``about`` is its number."""
        return [
            Claim(self.id, (w.piece,), w.weight, self.steps(w), (i,), self.source)
            for i, w in enumerate(scenario.wishes)
            if w.relation == self.relation and not w.must
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """A literal a step."""
        wish = model.scenario.wishes[claim.about[0]]
        levels = [model.literal(f"{wish.piece} {wish.relation} {s}") for s in claim.steps]
        for level, step in zip(levels, claim.steps, strict=True):
            self.hold(model, level, wish, step)
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many steps hold, and the words."""
        wish, level = scene.scenario.wishes[claim.about[0]], 0
        while level < len(claim.steps) and self.held(scene, wish, claim.steps[level]):
            level += 1
        describe = self.describe(scene, wish)
        return Measure(level, describe.sentence, describe.measured, describe.wanted)

    # -- what can be asked of those that must hold -------------------------
    @property
    def binding(self) -> bool:
        """Some wishes of the person's must hold."""
        return True

    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every wish of this relation that must hold; ``part`` is its number."""
        return [Requirement("wish", w.piece, f"{i}") for i, w in self._musts(scenario)]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """The piece, and the pieces that its place means."""
        wish = scenario.wishes[int(requirement.part)]
        names = {wish.piece} | meant(scenario, wish)
        return frozenset(Requirement("piece", name) for name in names)

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A must that is not kept is a mere wish; nor is one that would mean fewer pieces.

        A name of several alike pieces means fewer once they differ: such a wish would ask
        for more than before.
        """
        after = changed(scenario, ())
        loose = [
            i
            for i, w in self._musts(whole)
            if Requirement("wish", w.piece, f"{i}") not in kept
            or meant(whole, w) != meant(after, w)
        ]
        wishes = tuple(
            replace(w, must=False) if i in loose else w for i, w in enumerate(scenario.wishes)
        )
        return replace(scenario, wishes=wishes)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """What the person said."""
        del among
        wish = scenario.wishes[int(requirement.part)]
        place = place_words(scenario.room, wish.place)
        said = f"{the(wish.piece)} {MUST[wish.relation]} {place}"
        if wish.distance is None:
            return f"{said}, as you said"
        ends = "or more" if wish.relation == "away from" else "or less"
        return f"{said} ({measured(wish.distance, scenario.unit)} {ends}), as you said"

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """Each must that becomes a mere wish, but for those that keep somebody safe."""
        scenario = ask.scenario
        for number, wish in self._musts(scenario):
            about = {wish.piece, wish.place}
            if about & ask.spared or self.for_safety(scenario, wish):
                continue
            touched = [p.name for p in scenario.pieces if {p.name, p.model} & about]
            yield from ask.relaxation(
                "wish",
                (Loosen(number),),
                _loosened(scenario, wish),
                ("wish", wish.piece, f"{number}"),
                frozenset(touched),
                monotone=True,
                note="it stays a wish",
            )

    def for_safety(self, scenario: Scenario, wish: Wish) -> bool:
        """Whether the wish keeps somebody safe, so that it is never loosened."""
        del scenario, wish
        return False

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """A height always; else if every must of this relation lasts."""
        return dimension == "height" or all(self._lasts(piece, w) for _, w in self._musts(scenario))

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario:
        """Without the musts that may not last."""
        del dimension
        gone = {i for i, w in self._musts(scenario) if not self._lasts(piece, w)}
        wishes = tuple(
            replace(w, must=False) if i in gone else w for i, w in enumerate(scenario.wishes)
        )
        return replace(scenario, wishes=wishes)

    def lasts_for(self, piece: Piece, wish: Wish) -> bool:
        """Whether a must that names the piece holds for a smaller one in its place."""
        del piece, wish
        return False

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Unless a place means several alike pieces: fewer can be harder to be near to."""
        shared = {scenario.piece(name).model for name in names} - names
        return not any(w.place in shared for _, w in self._musts(scenario))

    def _musts(self, scenario: Scenario) -> list[tuple[int, Wish]]:
        wishes = enumerate(scenario.wishes)
        return [(i, w) for i, w in wishes if w.must and w.relation == self.relation]

    def _lasts(self, piece: Piece, wish: Wish) -> bool:
        named = {wish.piece, wish.place} & {piece.name, piece.model}
        return not named or self.lasts_for(piece, wish)


def meant(scenario: Scenario, wish: Wish) -> frozenset[str]:
    """The pieces that the place of a wish means; none if it is no piece."""
    exact = {p.name for p in scenario.pieces if p.name == wish.place}
    alike = {p.name for p in scenario.pieces if p.model == wish.place}
    return frozenset((exact or alike) - {wish.piece})


def protects(scenario: Scenario, wish: Wish) -> bool:
    """Whether a wish to keep off keeps a cot off something, or anything off what burns."""
    burns = any(f.burns and f.name == wish.place for f in scenario.room.fixtures)
    cot = any(p.is_a("cot") and wish.piece in (p.name, p.model) for p in scenario.pieces)
    return burns or cot


def _loosened(scenario: Scenario, wish: Wish) -> str:
    walls = {n for w in scenario.room.walls for n in (w.name, w.part_of) if n}
    place = f"wall {wish.place}" if wish.place in walls else the(wish.place)
    if wish.relation == "not against":
        return f"{the(wish.piece)} may stand against {place} after all"
    return f"{the(wish.piece)} need not stand {SAID.get(wish.relation, wish.relation)} {place}"


def walls_called(room: Room, name: str) -> list[int]:
    """Every wall of that name, or that is a part of the wall of that name."""
    return [i for i, wall in enumerate(room.walls) if name in (wall.name, wall.part_of)]


def boxes(source: Verbs[L] | Scene, wish: Wish) -> list[Bounded]:
    """Everything that the wish's place means, other than the piece itself.

    Fixed boxes; and pieces as variables of a model or as they stand in a scene.
    """
    scenario, name = source.scenario, wish.place
    room, where = scenario.room, _where(source)
    openings: list[Door | Window] = [*room.doors, *room.windows]
    found: list[Bounded] = [opening_spot(room, o) for o in openings if o.name == name]
    found += [fixture_spot(room, f) for f in room.fixtures if f.name == name]
    found += [wall_spot(room.walls[i]) for i in walls_called(room, name)]
    exact = [p.name for p in scenario.pieces if p.name == name]
    alike = [p.name for p in scenario.pieces if p.model == name]
    found += [where(p) for p in exact or alike if p != wish.piece]
    return found


def told_gap(scene: Scene, wish: Wish, asked: int, told: tuple[Rounding, str, str]) -> Measure:
    """How far a piece is from the nearest of what is meant; level 0.

    ``asked`` is the distance in mm, and ``told`` how the gap is rounded, whether what is asked
    is that "or less", and what there is nothing else to do with.
    """
    rounded, which, what = told
    gaps = [gap(scene.find(wish.piece), box) for box in boxes(scene, wish)]
    if not gaps:
        return Measure(0, f"There is no other {wish.place} for {the(wish.piece)} to {what}")
    away, wanted = scene.length(min(gaps), rounded), scene.length(asked)
    place = place_words(scene.scenario.room, wish.place)
    who, far = the(wish.piece, first=True), how_far(scene, wish, min(gaps), rounded)
    sentence = f"{who} is {far} {place}; you asked for {wanted} or {which}"
    return Measure(0, sentence, away, wanted)


def _where(source: Verbs[L] | Scene) -> Any:  # noqa: ANN401
    return source.find if isinstance(source, Scene) else source.place


def looks(piece: Piece, facing: Facing) -> tuple[Facing, ...]:
    """The ways a piece looks when turned to ``facing``.

    A piece that stands free and is alike from front and back (a bare table)
    looks both ways; one alike from all sides looks every way.
    """
    if piece.backs or piece.anchor is not None:
        return (facing,)
    different = len(turns(piece))
    if different == 1:
        return FACINGS
    return (facing, turn_facing(facing, 2)) if different == 2 else (facing,)


def _lines(
    room: Room, wall: int, thing: Bounded
) -> tuple[Coordinate, Coordinate, tuple[Coordinate, Coordinate], Coordinate]:
    """The wall's line, the thing's nearest line, and both their ends along the wall."""
    facing: Facing | None = room.walls[wall].facing
    if facing is None:
        raise ValueError("a slanted wall has no line that upright boxes touch")
    spot = wall_spot(room.walls[wall])
    near, own = along(spot, facing)[0], along(thing, facing)[0]
    return near, own, across(spot, facing), across(thing, facing)


def touch(room: Room, wall: int, thing: Bounded) -> tuple[Condition, ...]:
    """What all must hold for a box to touch a straight wall from inside."""
    line, own, (low, high), (start, end) = _lines(room, wall, thing)
    return own == line, low + 1 <= end, start + 1 <= high


def clear_of(room: Room, wall: int, thing: Bounded) -> tuple[Condition, ...]:
    """Of which one must hold for a box not to touch it."""
    line, own, (low, high), (start, end) = _lines(room, wall, thing)
    return own >= line + 1, own <= line - 1, end <= low, start >= high


def against_wall(scene: Scene, name: str, wall: int) -> bool:
    """Whether a placed piece stands against a wall: by its back, or by any side."""
    placed = scene.find(name)
    if placed.piece.backs:
        return placed.placement.wall == wall
    room = scene.scenario.room
    return room.walls[wall].facing is not None and all(touch(room, wall, placed))


def how_far(scene: Scene, wish: Wish, mm: int, rounded: Rounding) -> str:
    """A gap before the place of a wish: "45 cm from", "right beside" a piece, "right at" a wall."""
    none = "right beside" if meant(scene.scenario, wish) else "right at"
    return scene.how_far(mm, none, rounded)


def place_words(room: Room, name: str) -> str:
    """What a wish names, as a sentence says it: "wall A", "the window", "sofa 1"."""
    return the_wall(name) if len(name) <= 2 and walls_called(room, name) else the(name)


def the_wall(name: str) -> str:
    """A wall's own name with its article; a side of what stands out is told as one.

    >>> the_wall("west wall"), the_wall("chimney breast left side"), the_wall("A right")
    ('the west wall', 'the left side of the chimney breast', 'the right part of wall A')
    """
    part = PART.fullmatch(name)
    if part:
        side = part["side"] if part["side"].endswith("side") else f"{part['side']} part"
        return f"the {side} of {the_wall(part['whole'])}"
    if len(name) <= 2:
        return f"wall {name}"
    return name if LETTERED.fullmatch(name) else the(name)
