"""A dining table in the middle of its place: under its light, or on a middle line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from shapely import box

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, PENDANT, Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import room_shape
from arrange.geometry.spots import fixture_spot, middle2
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import use_of

NEAR, ON = 300, 100  # mm off its light or a middle line; common practice, no source
STEPS = (NEAR, NEAR, ON)  # well enough is two thirds; the rest is not worth a fault elsewhere
HOOKED = 400  # mm over which a lamp's cable can be hooked; common practice, no source
SHARE = 20  # per cent of the room's sides, off its middle; common practice, no source
SQUARISH = 110  # per cent of the shorter side up to which there is no long one
TALK = 2  # easy chairs, or more, make a place to sit besides; one is spare, common practice
SEATS = 2  # so many or fewer sit at a wall as well
Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Goal:
    """Twice where the middle may come, across and up the plan, and how the piece may look."""

    at: str
    words: str
    x: Span
    y: Span
    looks: tuple[Facing, ...] = FACINGS

    def missed(self, placed: Placed) -> int:
        """Twice how far the middle is off, the larger of the two ways; 0 within."""
        twice = zip(middle2(placed), (self.x, self.y), strict=True)
        return int(max(0, *(max(low - at, at - high) for at, (low, high) in twice)))

    def met(self, placed: Placed) -> bool:
        """Whether a piece stands so."""
        return not self.missed(placed) and placed.facing in self.looks


class TablePlaced(Rule):
    """A dining table for more than two has its middle where one expects it.

    Under a ceiling light within 10 cm (all points) or 30 (two thirds), in a room for eating
    alone and in one with two lights or more. Without a light, in a room for eating alone: at
    the middle of the largest upright rectangle of the room with its long side along the longer
    one, within 10 cm both ways or within a fifth of its sides.
    Where there is a sofa, a bed or a pair of easy chairs besides, no one rectangle is the
    table's: there it is enough that it is on a middle line of a rectangle as large as the
    outline lets it be, within 10 or 30 cm. One easy chair makes no such room. Nothing is
    asked of a table with a bench, of one that needs a wall, or in one room for all. That chairs can
    be pulled out is a must. Common practice, no source.
    """

    id = "table-placed"
    title = "The dining table in the middle of its place"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a table."""
        return [
            Claim(self.id, (piece.name,), self.weight, STEPS)
            for piece in scenario.pieces
            if use_of(scenario) != "one room for all" and _is_asked(scenario, piece)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Its middle is at one of the goals of each level."""
        table = model.place(claim.subjects[0])
        x2, y2 = middle2(table)
        levels = [model.literal(f"{table.name} within {step}") for step in claim.steps]
        for level, goals in zip(levels[1:], _goals(model.scenario, table.piece), strict=True):
            met = []
            for goal in goals:
                here = model.literal()
                model.when(here, x2 >= goal.x[0], x2 <= goal.x[1], y2 >= goal.y[0], y2 <= goal.y[1])
                if goal.looks != FACINGS:
                    model.one_of([model.faces(table.name, f) for f in goal.looks], when=[here])
                met.append(here)
            model.one_of(met, when=[level])
        return [levels[1], *levels[1:]]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far its middle is off, and off what."""
        table = scene.find(claim.subjects[0])
        goals = _goals(scene.scenario, table.piece)
        met = sum(any(goal.met(table) for goal in some) for some in goals)
        level = met + 1 if met else 0
        nearest = min(goals[-1], key=lambda goal: goal.missed(table))
        name, wanted = the(table.name, first=True), scene.length(claim.steps[-1])
        missed = nearest.missed(table)
        if not missed:
            lies = "is" if met == len(goals) else "stands crosswise"
            text = f"{lies} {nearest.at} {nearest.words}"
            return Measure(level, f"{name} {text}", "in place", wanted)
        off = missed // 2 + claim.steps[-1]
        text = f"The middle of {the(table.name)} is {scene.length(off)} from {nearest.words}"
        hook = _lights(scene.scenario) and claim.steps[-1] < off <= HOOKED
        return Measure(
            level,
            f"{text}; a ceiling hook can bring the lamp over it" if hook else text,
            scene.length(off),
            wanted,
        )


def _is_asked(scenario: Scenario, piece: Piece) -> bool:
    if not piece.is_a("dine") or piece.needs_wall or piece.anchor is not None:
        return False
    seats = [p for p in scenario.pieces if p.anchor == piece.name and p.is_a("seat")]
    few = 0 < len(seats) <= SEATS or (not seats and max(piece.width, piece.depth) < 1000)
    return not few and not any(seat.is_a("bench") for seat in seats)


def _for_eating_alone(scenario: Scenario) -> bool:
    if any(p.roles & {"sofa", "bed"} for p in scenario.pieces):
        return False
    return sum(p.is_a("lounge") for p in scenario.pieces) < TALK


def _lights(scenario: Scenario) -> list[tuple[str, int, int]]:
    """Ceiling lights a table may go by, with twice their middles."""
    hung = [f for f in scenario.room.fixtures if f.wall is None]
    points = [f for f in hung if "light point" in f.kind.lower() or f.kind == PENDANT]
    if len(points) < 2 and not _for_eating_alone(scenario):
        return []
    spots = [fixture_spot(scenario.room, f) for f in points]
    return [(s.name, *middle2(s)) for s in spots]


def _goals(scenario: Scenario, table: Piece) -> list[list[Goal]]:
    """Where the table's middle may be, well enough and right."""
    lights = _lights(scenario)
    if lights:
        return [
            [Goal("under", the(name), _about(x, step), _about(y, step)) for name, x, y in lights]
            for step in (NEAR, ON)
        ]
    rectangles = _rectangles(scenario.room)
    if _for_eating_alone(scenario):
        return _middle(rectangles[0], table)
    return [[goal for rect in rectangles for goal in _lines(rect, step)] for step in (NEAR, ON)]


def _about(twice: int, off: int) -> Span:
    return twice - 2 * off, twice + 2 * off


def _middle(rect: tuple[int, int, int, int], table: Piece) -> list[list[Goal]]:
    x0, y0, x1, y1 = rect
    words, wide, high = "the middle of the room", x1 - x0, y1 - y0
    fifths = [max(side * SHARE // 100, ON) for side in (wide, high)]
    looks = FACINGS
    if not _squarish(wide, high) and not _squarish(table.width, table.depth):
        lying: tuple[Facing, Facing] = ("down", "up")
        standing: tuple[Facing, Facing] = ("left", "right")
        looks = lying if (wide > high) == (table.width > table.depth) else standing
    return [
        [Goal("in", words, _about(x0 + x1, across), _about(y0 + y1, up), looks)]
        for across, up in (fifths, (ON, ON))
    ]


def _squarish(one: int, two: int) -> bool:
    return 100 * max(one, two) <= SQUARISH * min(one, two)


def _lines(rect: tuple[int, int, int, int], step: int) -> list[Goal]:
    x0, y0, x1, y1 = rect
    words = "a middle line of its part of the room"
    return [
        Goal("on", words, _about(x0 + x1, step), (2 * y0, 2 * y1)),
        Goal("on", words, (2 * x0, 2 * x1), _about(y0 + y1, step)),
    ]


@lru_cache(256)
def _rectangles(room: Room) -> tuple[tuple[int, int, int, int], ...]:
    """The upright rectangles between corners that no other one holds, the largest first."""
    shape = room_shape(room).buffer(1, join_style="mitre")
    xs, ys = (sorted({corner[axis] for corner in room.corners}) for axis in (0, 1))
    inside = [
        (a, c, b, d)
        for a, b in combinations(xs, 2)
        for c, d in combinations(ys, 2)
        if shape.covers(box(a, c, b, d))
    ]
    whole = [r for r in inside if not any(_holds(other, r) for other in inside)]
    return tuple(sorted(whole, key=lambda r: -(r[2] - r[0]) * (r[3] - r[1])))


def _holds(one: tuple[int, int, int, int], two: tuple[int, int, int, int]) -> bool:
    within = one[0] <= two[0] and one[1] <= two[1] and one[2] >= two[2] and one[3] >= two[3]
    return within and one != two
