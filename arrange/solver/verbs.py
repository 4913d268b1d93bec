"""Verbs of the model that wishes speak: near, along a wall, off some floor.

Each is one way: whenever the literal is true, what it stands for holds.
"""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model
from shapely.geometry import Polygon

from arrange.solver.boxes import SCALE, Literal, directions
from arrange.solver.floor import Ground
from arrange.solver.obstacles import fixed
from arrange.spots import Bounded

# 0.01 mm may be shared, so that what lies flush along a slant is not taken for
# an overlap; the judge forgives the same.
FORGIVEN = SCALE // 100


class Verbs:
    """More verbs of ``Model``."""

    cp: cp_model.CpModel
    ground: Ground

    def always(self) -> Literal:
        """A literal that is true."""
        return self.cp.new_constant(1)

    def never(self) -> Literal:
        """A literal that is false."""
        return self.cp.new_constant(0)

    def near(self, literal: Literal, one: Bounded, two: Bounded, distance: int) -> None:
        """The gap across and the gap up the plan are at most ``distance`` mm."""
        for gap in (two.x0 - one.x1, one.x0 - two.x1, two.y0 - one.y1, one.y0 - two.y1):
            self.cp.add(gap <= distance).only_enforce_if(literal)

    def near_one(
        self, literal: Literal, one: Bounded, others: Sequence[Bounded], distance: int
    ) -> None:
        """``near`` to one of the others at least."""
        if len(others) == 1:
            self.near(literal, one, others[0], distance)
            return
        choices = [self.cp.new_bool_var("") for _ in others]
        for choice, other in zip(choices, others, strict=True):
            self.near(choice, one, other, distance)
        self.cp.add_bool_or([*choices, literal.negated()])

    def levels_near(
        self, one: Bounded, others: Sequence[Bounded], steps: Sequence[int]
    ) -> list[Literal]:
        """A literal a step: ``near_one`` within that many mm."""
        levels: list[Literal] = [self.cp.new_bool_var("") for _ in steps]
        for level, distance in zip(levels, steps, strict=True):
            self.near_one(level, one, others, distance)
        return levels

    def starts_in(
        self, literal: Literal, name: str, wall: int, ranges: Sequence[tuple[int, int]]
    ) -> None:
        """If its back is on that wall, its left end comes in one of the ranges (mm along)."""
        place = self.ground.places[name]
        if wall not in place.offsets:
            return
        when = [literal, place.walls[wall]]
        domain = cp_model.Domain.from_intervals([[a, b] for a, b in ranges if a <= b])
        if domain.is_empty():
            self.cp.add_bool_or([x.negated() for x in when])
            return
        self.cp.add_linear_expression_in_domain(place.offsets[wall], domain).only_enforce_if(*when)

    def wall_choices(self, name: str) -> tuple[int, ...]:
        """The walls a piece can have its back on."""
        return tuple(self.ground.places[name].offsets)

    def off_floor(self, literal: Literal, name: str, convex: Polygon) -> None:
        """The body of a piece shares no floor with a convex shape; touching is allowed."""
        shape = fixed(convex)
        for box in self.ground.places[name].boxes:
            choices: list[Literal] = []
            for direction in {_rounded(d) for d in [*directions(box), *directions(shape)]}:
                choice = self.cp.new_bool_var("")
                back = (-direction[0], -direction[1])
                shared = box.reach(direction) + shape.reach(back)
                self.cp.add(shared <= FORGIVEN).only_enforce_if(choice)
                choices.append(choice)
            self.cp.add_bool_or([*choices, *[w.negated() for w in (literal, *box.when)]])


def _rounded(direction: tuple[float, float]) -> tuple[float, float]:
    """Directions that differ by rounding alone become one."""
    return round(direction[0], 9) + 0.0, round(direction[1], 9) + 0.0
