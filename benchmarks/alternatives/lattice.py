"""A plain CP-SAT model with the walkway in it: one model, one solve, default settings.

The walkway as an engineer would write it first. Someone stands on a square as wide as
the path; squares lie on a lattice ``STEP`` mm fine, from wall to wall. A square is free
if no body overlaps it. It is reached if it touches the door's floor, or if a free
neighbour is reached that is one level lower. Everything that must be reached chooses a
row and a column whose square is reached and touches it, as wide as the path goes in.

Bodies, clearances and points are those of `plain.plainer_model`, so that the score is the
same. Eight workers, CP-SAT's defaults. Every solution on the way is judged, and one that
the judge refuses does not count: a step from one square into a clearance is the judge's
to measure, and what stands aslant is known here by its upright bounds only.

What was tried, 60 s each on a busy machine, so roughly: the best score of the double
bedroom, the study bedroom and the children's room, and when it came. Lattice of 10 cm:
82.9 at 21 s, 86.8 at 26 s, nothing. 15 cm: 79.9 at 21 s, 86.8 at 5 s, 93.1 at 12 s. 20 cm:
82.9 at 29 s, 86.8 at 11 s, 93.1 at 22 s, all three ended. 25 cm: 74.8, 84.9, 93.1, all within
10 s. Those on whole centimetres; 20 cm on whole mm: 83.1 at 10 s, 86.8 at 5 s, 93.1 at 18 s,
which is what is kept. Levels are the only form that was tried, not flows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ortools.sat.python import cp_model
from shapely import box as upright_box
from shapely.geometry import Polygon

from arrange.data.room import Door, Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD
from arrange.geometry.shapes import door_floor, fixture_keep
from arrange.geometry.walking import (
    clearance_width,
    empty_floor,
    must_reach,
    opening_width,
    openings_to_reach,
)
from arrange.solver.boxes import Box, Expr, Literal
from arrange.solver.clearance_variables import upright_strip as moving_strip
from arrange.solver.model import Model
from arrange.solver.places import Zone
from arrange.solver.walkways import window_node
from benchmarks.alternatives.plain import Heard, plainer_model, solver_for
from benchmarks.alternatives.recorder import Recorder, Timeline

STEP = 200  # mm
Node = tuple[int, int]
Cells = tuple[Expr, Expr, Expr, Expr]


def plain_with_walkways(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of one solve of the plain model with walkways in it."""
    recorder = Recorder(scenario, seconds)
    model = plainer_model(scenario)
    if scenario.walks and scenario.room.main_door is not None:
        Lattice(model, STEP).build()
    model.finish()
    model.cp.maximize(model.points)
    if recorder.left > 0:
        solver_for(recorder, seed).solve(model.cp, Heard(model, recorder))
    return recorder.timeline


@dataclass
class Square:
    """One place to stand: whether it is free and reached, and after how many steps."""

    free: Literal
    reached: Literal
    level: cp_model.IntVar


class Lattice:
    """All places to stand in one room, and what is asked of them."""

    def __init__(self, model: Model, step: int) -> None:
        self.model = model
        scenario = model.scenario
        self.width = scenario.walkway
        x0, y0, x1, y1 = scenario.room.bounds
        self.columns = _lines(x0, x1, self.width, step)
        self.rows = _lines(y0, y1, self.width, step)
        floor = empty_floor(scenario).room.buffer(0.5, join_style="mitre")
        self.most = 2 * (len(self.columns) + len(self.rows))
        self.squares: dict[Node, Square] = {}
        for i, x in enumerate(self.columns):
            for j, y in enumerate(self.rows):
                if floor.contains(upright_box(x, y, x + self.width, y + self.width)):
                    self.squares[i, j] = Square(
                        model.literal(), model.literal(), model.number(0, self.most)
                    )

    def build(self) -> None:
        """Free squares, reached squares, and everything that must be reached."""
        self._free()
        self._reach()
        scenario = self.model.scenario
        for zone in self.model.ground.zones:
            if must_reach(zone.clearance) and zone.boxes:
                narrow = clearance_width(zone.piece, zone.clearance)
                self._touch(self._strip(zone), min(self.width, narrow))
        for opening in openings_to_reach(scenario):
            narrow = opening_width(scenario, opening)
            if isinstance(opening, Door):
                self._touch(_bounds(door_floor(scenario.room, opening, self.width)), narrow)
            elif isinstance(opening, Fixture):
                self._touch(_bounds(fixture_keep(scenario.room, opening)), narrow)
            elif (node := window_node(self.model, opening)) is not None:
                self._touch(_ends(node.box), narrow)

    def _free(self) -> None:
        """A free square is left of, right of, below or above every body."""
        for place in self.model.ground.places.values():
            if place.piece.flat or place.piece.bottom >= HEAD:
                continue
            sides = [
                [self._when(high <= line) for line in lines]
                for high, lines in ((place.x1, self.columns), (place.y1, self.rows))
            ]
            others = [
                [self._when(low >= line + self.width) for line in lines]
                for low, lines in ((place.x0, self.columns), (place.y0, self.rows))
            ]
            for (i, j), square in self.squares.items():
                off = [sides[0][i], others[0][i], sides[1][j], others[1][j]]
                self.model.one_of(off, when=[square.free])

    def _when(self, constraint: cp_model.BoundedLinearExpression | bool) -> Literal:
        literal = self.model.literal()
        self.model.when(literal, constraint)
        return literal

    def _reach(self) -> None:
        model = self.model
        main = model.scenario.room.main_door
        if main is None:
            raise ValueError("no door to come in by")
        door = _bounds(door_floor(model.scenario.room, main, self.width))
        narrow = opening_width(model.scenario, main)
        for node, square in self.squares.items():
            model.implies(square.reached, square.free)
            if self._at(node, door, narrow):
                continue
            before: list[Literal] = []
            for near in self._around(node):
                other = self.squares[near]
                before.append(model.literal())
                model.implies(before[-1], other.reached)
                model.when(before[-1], square.level >= other.level + 1)
            model.one_of(before, when=[square.reached])

    def _around(self, node: Node) -> Iterator[Node]:
        i, j = node
        for near in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)):
            if near in self.squares:
                yield near

    def _at(self, node: Node, floor: tuple[int, int, int, int], narrow: int) -> bool:
        """Whether a square touches a fixed rectangle, ``narrow`` wide one way."""
        x, y = self.columns[node[0]], self.rows[node[1]]
        wide = min(x + self.width, floor[2]) - max(x, floor[0])
        high = min(y + self.width, floor[3]) - max(y, floor[1])
        return min(wide, high) >= 0 and max(wide, high) >= narrow

    def _touch(self, floor: Cells, narrow: int) -> None:
        """Some reached square touches a rectangle that may move, ``narrow`` wide one way."""
        model, w = self.model, self.width
        x, y = self._choice(self.columns), self._choice(self.rows)
        for i, column in enumerate(x):
            for j, row in enumerate(y):
                square = self.squares.get((i, j))
                if square is None:
                    model.forbid(column, row)
                else:
                    model.one_of([square.reached], when=[column, row])
        left = sum(at * chosen for at, chosen in zip(self.columns, x, strict=True))
        below = sum(at * chosen for at, chosen in zip(self.rows, y, strict=True))
        x0, y0, x1, y1 = floor
        across, along = model.literal(), model.literal()
        model.one_of([across, along])
        for start, low, high, wide in ((left, x0, x1, across), (below, y0, y1, along)):
            model.must(low <= start + w, high >= start)
            model.when(wide, low + narrow <= start + w, high >= start + narrow)

    def _choice(self, lines: list[int]) -> list[Literal]:
        chosen = [self.model.literal() for _ in lines]
        self.model.cp.add_exactly_one(chosen)
        return chosen

    def _strip(self, zone: Zone) -> Cells:
        """The least strip; the piece's bounds and as much all round where it stands aslant."""
        model, place, least = self.model, zone.place, zone.clearance.least
        strip = moving_strip(model.cp, zone, least)
        round_it = (place.x0 - least, place.y0 - least, place.x1 + least, place.y1 + least)
        if strip is None:
            return round_it
        for stance in place.stances:
            if stance.slanted:
                model.when(
                    stance.literal, *(a == b for a, b in zip(_ends(strip), round_it, strict=True))
                )
        return _ends(strip)


def _lines(low: int, high: int, width: int, step: int) -> list[int]:
    """Where squares begin, from wall to wall."""
    last = high - width
    return sorted({*range(low, last + 1, step), *([last] if last >= low else [])})


def _ends(box: Box) -> Cells:
    return box.a0, box.b0, box.a1, box.b1


def _bounds(shape: Polygon) -> tuple[int, int, int, int]:
    x0, y0, x1, y1 = (round(v) for v in shape.bounds)
    return x0, y0, x1, y1
