"""Room to sit up in bed, and to sit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, short_by, summed, the
from arrange.data.people import sitting_up
from arrange.data.piece import Piece
from arrange.data.result import Breach
from arrange.data.room import Facing, Fixture, Point, Room, Vector, Wall
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.across import across_corner
from arrange.geometry.ceilings import Bounds, ceiling_over, low_floor
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, frame, whole_bounds
from arrange.geometry.spots import Bounded, Coordinate
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import PIECES, RequirementKind
from arrange.rules.rule import KeepsOff

OFF_BACK = 300  # mm from the back of a seat or the head of a mattress to who sits there
FOR_TWO = 1200  # mm; on what is as wide two people sit; both are common practice, no source
HEAD_ROOM = 200  # mm round a lamp or a fan that a head keeps clear; common practice, no source
NEAR = 1e-6  # mm of rounding


class Headroom(KeepsOff):
    """Above its top a piece keeps the headroom it asks for, below the ceiling.

    For bunk and loft beds 711 mm from the top of the upper mattress
    (`bunk-ceiling`, common practice: 711 to 914 mm). Under a level ceiling it depends on the
    room and the piece alone: where it fails, no arrangement works. Where a ceiling is not
    level, or a lamp or fan hangs from it, it is kept where somebody sits, a little before the
    back, in beds before the headboard: on seats, and in beds, where people sit up 965 mm high
    (`hf-sitting`). Who says how tall they are may need more, in a bunk or loft bed too
    (`hf-sitting-share`). What is tied to another piece has that one's floor instead.
    """

    id = "headroom"
    title = "Headroom"
    kind = "must"
    takes = ("least",)
    source = "bunk-ceiling"
    kinds = (RequirementKind("headroom", PIECES, 2, dispensable=5),)

    def build(self, model: Verbs[L]) -> None:
        """No arrangement at all if a piece lacks its headroom; else who sits is off what is low."""
        scenario = model.scenario
        if any(True for _ in lacking(scenario)):
            model.must(False)
        for piece in scenario.pieces:
            for low in _too_low(scenario, piece):
                _keep_off(model, piece, low)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each piece with too little above it."""
        found = [*lacking(scene.scenario), *_under_low(scene)]
        for name, gap, need in found:
            whose = _for_whom(scene.scenario, scene.scenario.piece(name))
            yield Breach(
                self.id,
                (name,),
                f"{the(name, first=True)} has {scene.length(gap, 'down')} above it; "
                f"it needs {scene.length(need)}{whose}",
            )

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every piece that asks for headroom."""
        off = scenario.setting(self.id).off
        return [Requirement("headroom", p.name) for p in scenario.pieces if p.headroom and not off]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """It says nothing without its piece."""
        del scenario
        return frozenset({Requirement("piece", requirement.name)})

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """What is not kept asks for none."""
        del whole
        pieces = tuple(
            p if Requirement("headroom", p.name) in kept else replace(p, headroom=0)
            for p in scenario.pieces
        )
        return replace(scenario, pieces=pieces)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How much, above what."""
        del among
        piece = scenario.piece(requirement.name)
        need, whose = _need(scenario, piece), _for_whom(scenario, piece)
        return f"{measured(need, scenario.unit)} of headroom above {the(requirement.name)}{whose}"

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Unless it moves who sits there, under a ceiling that is not level or a lamp."""
        room = scenario.room
        level = room.is_level and not room.hung
        return dimension == "height" or level or not piece.headroom

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario:
        """Without the headroom of the piece."""
        del dimension
        pieces = (replace(p, headroom=0) if p.name == piece.name else p for p in scenario.pieces)
        return replace(scenario, pieces=tuple(pieces))

    def plain_sum(self, scenario: Scenario) -> str:
        """The sum of heights of the first piece that lacks headroom."""
        unit, ceiling = scenario.unit, scenario.room.ceiling
        for name, _, need in lacking(scenario):
            top = scenario.piece(name).top
            high, above = summed([top, need], unit)
            return (
                f"{the(name, first=True)} {high} high + {above} of headroom = "
                f"{measured(top + need, unit)}; the ceiling is at "
                f"{measured(ceiling, unit, 'down')}, {short_by(top + need, ceiling, unit)} too low."
            )
        return ""


def lacking(scenario: Scenario) -> Iterable[tuple[str, int, int]]:
    """Each piece that lacks headroom wherever it stands, with what it has and needs (mm)."""
    for piece in scenario.pieces:
        gap, need = scenario.room.ceiling - piece.top, _need(scenario, piece)
        if piece.headroom and gap < need:
            yield piece.name, gap, need


def _need(scenario: Scenario, piece: Piece) -> int:
    """The person's own headroom for beds, else the piece's."""
    least = scenario.setting(Headroom.id).least
    return piece.headroom if least is None or piece.is_a("seat") else least


def _for_whom(scenario: Scenario, piece: Piece) -> str:
    """For whom it is, where it is as much as somebody needs who sleeps there; else nothing."""
    need = sitting_up(piece, scenario.people)
    return f", for {need.whose}" if need and need.least == _need(scenario, piece) else ""


# -- where a ceiling is not level --------------------------------------------
def _sitters(piece: Piece) -> list[Point]:
    """Where people sit: one in the middle, two in the halves of a wide piece; mm in its frame."""
    wide, long = piece.mattress
    back = piece.headboard + min(OFF_BACK, long // 2)
    shares = (1, 3) if wide >= FOR_TWO else (2,)
    return [(piece.rails // 2 + wide * share // 4, back) for share in shares]


def _too_low(scenario: Scenario, piece: Piece) -> tuple[Bounds, ...]:
    """The rectangles within which nobody can sit on the piece."""
    if not piece.headroom or piece.anchor is not None:
        return ()
    high = piece.top + _need(scenario, piece)
    low = [whole_bounds(shape) for shape in low_floor(scenario.room, high)]
    return (*low, *(_round(f) for f in scenario.room.hung if f.bottom < high))


def _round(hung: Fixture) -> Bounds:
    """What a pendant or fan covers, with as much on all sides as a head takes."""
    x0, y0, x1, y1 = whole_bounds(fixture_shape(hung))
    return x0 - HEAD_ROOM, y0 - HEAD_ROOM, x1 + HEAD_ROOM, y1 + HEAD_ROOM


def _above(room: Room, head: Vector) -> float:
    """How high all that is over somebody who sits is above the floor, in mm."""
    hung = [f.bottom for f in room.hung if _within(head, _round(f))]
    return min([ceiling_over(room, *head), *hung])


def _under_low(scene: Scene) -> Iterable[tuple[str, int, int]]:
    """Each piece on which somebody sits too low, with the headroom it has and needs (mm)."""
    room = scene.scenario.room
    for placed in scene.placed:
        piece = placed.piece
        low = _too_low(scene.scenario, piece)
        if not low:
            continue
        own = frame(piece, placed.placement, room)
        heads = [own.at(a, b) for a, b in _sitters(piece)]
        if any(_within(head, bounds) for bounds in low for head in heads):
            gap = min(_above(room, head) for head in heads) - piece.top
            yield piece.name, int(gap), _need(scene.scenario, piece)


def _within(head: Vector, low: Bounds) -> bool:
    """Whether somebody sits in a rectangle; on its edge nobody does."""
    (x, y), (x0, y0, x1, y1) = head, low
    return x0 + NEAR < x < x1 - NEAR and y0 + NEAR < y < y1 - NEAR


def _keep_off(model: Verbs[L], piece: Piece, low: Bounds) -> None:
    """Nobody who sits on the piece is within a rectangle, whichever way it stands."""
    place, room = model.place(piece.name), model.scenario.room
    walls = [w for w in model.wall_choices(piece.name) if room.walls[w].facing is None]
    aslant = {w: on for w in walls if (on := model.on_wall(piece.name, w)) is not None}
    for wall, on in aslant.items():
        model.starts_in(on, piece.name, wall, _fitting(room.walls[wall], piece, low))
    across = model.corner_choices(piece.name)
    for corner, stands in across.items():
        own = frame(piece, across_corner(piece, corner), room)
        if any(_within(own.at(a, b), low) for a, b in _sitters(piece)):
            model.forbid(stands)
    for facing, faces in place.facings.items():
        upright = model.literal()
        model.one_of([upright, *aslant.values(), *across.values()], when=[faces])
        for a, b in _sitters(piece):
            _beside(model, upright, _head(place, facing, a, b), low)


def _beside(model: Verbs[L], literal: L, head: tuple[Coordinate, Coordinate], low: Bounds) -> None:
    """If true, a head is at one of the sides of a rectangle that the room goes on beyond."""
    (x, y), (x0, y0, x1, y1) = head, low
    left, down, right, up = model.scenario.room.bounds
    sides = [
        condition
        for condition, goes_on in (
            (x <= x0, left < x0), (x >= x1, x1 < right), (y <= y0, down < y0), (y >= y1, y1 < up)
        )
        if goes_on
    ]  # fmt: skip
    if len(sides) == 1:
        model.when(literal, *sides)
        return
    chosen = [model.literal() for _ in sides]
    for side, condition in zip(chosen, sides, strict=True):
        model.when(side, condition)
    model.one_of(chosen, when=[literal])


def _fitting(wall: Wall, piece: Piece, low: Bounds) -> list[tuple[int, int]]:
    """From where to where along a slanted wall its left end may come, stretch by stretch."""
    found: list[tuple[int, int]] = []
    for t in range(int(wall.length) + 1):
        if any(_within(wall.point(t + a, b), low) for a, b in _sitters(piece)):
            continue
        if found and found[-1][1] == t - 1:
            found[-1] = found[-1][0], t
        else:
            found.append((t, t))
    return found


def _head(place: Bounded, facing: Facing, a: int, b: int) -> tuple[Coordinate, Coordinate]:
    """A place on a piece, from its left and its back, on the plan."""
    if facing == "down":
        return place.x0 + a, place.y1 - b
    if facing == "up":
        return place.x1 - a, place.y0 + b
    if facing == "left":
        return place.x1 - b, place.y1 - a
    return place.x0 + b, place.y0 + a
