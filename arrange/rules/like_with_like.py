"""Pieces of one kind side by side or mirrored, not scattered."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from arrange.data.lengths import listed, the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import (
    Bounded,
    across,
    along,
    fixture_spot,
    gap,
    opening_spot,
    wall_spot,
)
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, hearth

CLOSE = 10  # mm between two side by side; common practice, no source
EVEN = 20  # mm by which two may be unequally far from an axis; common practice, no source
# Seats round a table or at a desk have their places, tables at a bed a rule of their own;
# plants are put where there is light.
NOT_ASKED = {"dining seat", "work seat", "bench", "bedside", "footstool", "plant", "light"}
AXES = {"for two", "sofa", "screen", "dine"}  # what two can stand to the left and right of
# The ways in which two can look at an axis that runs the way the key looks.
MIRRORED: dict[Facing, dict[Facing, Facing]] = {
    "up": {"up": "up", "down": "down", "left": "right", "right": "left"},
    "right": {"right": "right", "left": "left", "up": "down", "down": "up"},
}


class LikeWithLike(Rule):
    """Each of several pieces of one kind and height has another of them as its mate.

    The two stand side by side within 1 cm, on one wall or with their backs in line, or they mirror
    each other: equally far (within 2 cm) from the middle of a bed for two, sofa, screen or
    dining table, of a wall, window or fire, and level with one another. What is tied
    to one piece is mirrored on that piece. Bedside tables have a rule of their own; seats at tables
    and desks, lamps and plants are where they are used. Common practice, no source.
    """

    id = "like-with-like"
    title = "Like with like"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each set."""
        return [
            Claim(self.id, tuple(p.name for p in pieces), self.weight) for pieces in _sets(scenario)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each is a mate of one of the others."""
        level = model.literal(f"{claim.subjects[0]} and the like together")
        mates: dict[str, list[L]] = {name: [] for name in claim.subjects}
        for one, two in combinations(claim.subjects, 2):
            found = [_side_by_side(model, one, two), *_mirrored(model, one, two)]
            for name in (one, two):
                mates[name] += found
        for found in mates.values():
            model.one_of(found, when=[level])
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """Those without a mate."""
        pairs = list(combinations(claim.subjects, 2))
        mates = {p: how for p in pairs if (how := _mates(scene, *p)) is not None}
        alone = [n for n in claim.subjects if not any(n in pair for pair in mates)]
        if alone:
            others = listed([the(n) for n in claim.subjects if n != alone[0]], "or")
            name = the(alone[0], first=True)
            them = "it" if len(claim.subjects) == 2 else "them"
            text = f"{name} neither stands beside {others} nor mirrors {them}"
            return Measure(0, text, "apart", "side by side or mirrored")
        (one, two), how = next(iter(mates.items()))
        return Measure(1, f"{the(one, first=True)} and {the(two)} {how}", "together", "together")


def _sets(scenario: Scenario) -> Iterable[list[Piece]]:
    """Two or more of one kind and height that are tied to the same piece, or to none."""
    found: dict[tuple[str, int, str | None], list[Piece]] = {}
    for piece in sorted(scenario.pieces, key=canonical):
        if not piece.flat and not piece.roles & NOT_ASKED:
            found.setdefault((piece.kind, piece.height, piece.anchor), []).append(piece)
    return (pieces for pieces in found.values() if len(pieces) > 1)


# -- side by side --------------------------------------------------------
def _at_walls(scenario: Scenario, *names: str) -> bool:
    return all(scenario.piece(name).backs for name in names)


def _side_by_side(model: Verbs[L], one: str, two: str) -> L:
    close = model.literal(f"{one} and {two} side by side")
    if _at_walls(model.scenario, one, two):
        a, b = (model.scenario.piece(name).width for name in (one, two))
        ranges = [(-a - CLOSE, -a), (b, b + CLOSE)]
        model.backed(close, one)
        for wall in model.wall_choices(one):
            there, its = model.on_wall(one, wall), model.on_wall(two, wall)
            if there is not None:
                model.one_of([] if its is None else [its], when=[close, there])
            model.starts_from(close, one, two, wall, ranges)
        return close
    first, second = model.place(one), model.place(two)
    model.near(close, first, second, CLOSE)
    for facing in FACINGS:
        looks = model.faces(one, facing)
        model.one_of([model.faces(two, facing)], when=[close, looks])
        off = along(first, facing)[0] - along(second, facing)[0]
        model.when([close, looks], off <= CLOSE, off >= -CLOSE)
    return close


def _beside(scene: Scene, one: Placed, two: Placed) -> bool:
    if _at_walls(scene.scenario, one.name, two.name):
        first, second = scene.wall_stretch(one), scene.wall_stretch(two)
        if first is None or second is None or first[0] != second[0]:
            return False
        off = first[1] - second[1]
        return -CLOSE <= off + one.piece.width <= 0 or 0 <= off - two.piece.width <= CLOSE
    level = abs(along(one, one.facing)[0] - along(two, one.facing)[0]) <= CLOSE
    return level and one.facing == two.facing and gap(one, two) <= CLOSE


# -- mirrored ------------------------------------------------------------
def _mirrored(model: Verbs[L], one: str, two: str) -> Iterable[L]:
    """Literals: the two mirror each other on an axis up the plan, or across it."""
    scenario = model.scenario
    for way, turned in MIRRORED.items():
        pair = model.literal(f"{one} and {two} mirrored")
        first, second = model.place(one), model.place(two)
        for facing, other in turned.items():
            model.one_of([model.faces(two, other)], when=[pair, model.faces(one, facing)])
        level = sum(along(first, way)) - sum(along(second, way))
        model.when(pair, level <= 2 * EVEN, level >= -2 * EVEN)
        middles = sum(across(first, way)) + sum(across(second, way))
        on: list[L] = []
        fixed = [sum(across(spot, way)) for _, spot in _fixed(scenario, one, way)]
        if fixed:
            still = model.literal()
            model.among(still, middles, [(2 * at - 2 * EVEN, 2 * at + 2 * EVEN) for at in fixed])
            on.append(still)
        for name in _movable(scenario, one, two):
            its = model.literal()
            off = middles - 2 * sum(across(model.place(name), way))
            model.when(its, off <= 2 * EVEN, off >= -2 * EVEN)
            model.one_of([model.faces(name, f) for f in (way, OPPOSITE[way])], when=[its])
            on.append(its)
        model.one_of(on, when=[pair])
        yield pair


def _mates(scene: Scene, one: str, two: str) -> str | None:
    """How the two belong together, in words; None if they do not."""
    first, second = scene.find(one), scene.find(two)
    if _beside(scene, first, second):
        return "stand side by side"
    for way, turned in MIRRORED.items():
        level = abs(sum(along(first, way)) - sum(along(second, way))) <= 2 * EVEN
        if turned[first.facing] != second.facing or not level:
            continue
        middles = sum(across(first, way)) + sum(across(second, way))
        things: list[tuple[str, Bounded]] = [
            *((the(n), scene.find(n)) for n in _movable(scene.scenario, one, two)),
            *_fixed(scene.scenario, one, way),
        ]
        for words, thing in things:
            looks = not isinstance(thing, Placed) or thing.facing in (way, OPPOSITE[way])
            if looks and abs(middles - 2 * sum(across(thing, way))) <= 2 * EVEN:
                return f"mirror each other about {words}"
    return None


def _fixed(scenario: Scenario, name: str, way: Facing) -> list[tuple[str, Bounded]]:
    """What stays where it is and has its axis that way: fire, windows and walls."""
    room = scenario.room
    if scenario.piece(name).anchor is not None:
        return []
    fire = hearth(scenario)
    found: list[tuple[int | None, str, Bounded]] = []
    if fire is not None:
        found.append((fire.wall, the(fire.name), fixture_spot(room, fire)))
    found += [(w.wall, the(w.name), opening_spot(room, w)) for w in room.windows]
    found += [(i, "the middle of a wall", wall_spot(w)) for i, w in enumerate(room.walls)]
    looks = (way, OPPOSITE[way])
    return [
        (words, spot)
        for wall, words, spot in found
        if wall is None or room.walls[wall].facing in looks
    ]


def _movable(scenario: Scenario, one: str, two: str) -> list[str]:
    """The pieces that the two can stand to the left and right of."""
    host = scenario.piece(one).anchor
    if host is not None:
        return [host]
    found = [p for p in scenario.pieces if p.roles & AXES and p.name not in (one, two)]
    return [p.name for p in found]
