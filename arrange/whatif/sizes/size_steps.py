"""One piece in every whole centimetre, or inch, of one dimension."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from arrange.changing import changed
from arrange.data.change import Resize
from arrange.data.largest import Dimension
from arrange.data.scenario import Scenario, Unit
from arrange.scenario.lengths import parse
from arrange.scenario.pieces import SIZES
from arrange.whatif.sizes.shrinking import relaxed


def in_steps(mm: int, unit: Unit) -> int:
    """The greatest number of whole centimetres (inches) that is not more than ``mm``."""
    steps = mm * 10 // 254 + 1 if unit == "in" else mm // 10
    while in_mm(steps, unit) > mm:
        steps -= 1
    return steps


def in_mm(steps: int, unit: Unit) -> int:
    """So many centimetres (inches) in whole mm."""
    return parse(steps, "in" if unit == "in" else "cm")


@dataclass
class Sizes:
    """The scenario with the piece in every size, counted in whole steps."""

    scenario: Scenario
    piece: str
    dimension: Dimension
    _made: dict[int, Scenario] = field(default_factory=dict)

    def __post_init__(self) -> None:
        held = tuple(p for p in self.scenario.held if p.piece != self.piece)
        self.scenario = replace(self.scenario, today=(), held=held)

    def mm(self, steps: int) -> int:
        """A number of steps in mm."""
        return in_mm(steps, self.scenario.unit)

    def at(self, steps: int) -> Scenario:
        """The scenario with the piece in that size."""
        if steps not in self._made:
            mm, dimension = self.mm(steps), self.dimension
            resize = Resize(
                self.piece,
                width=mm if dimension == "width" else None,
                depth=mm if dimension == "depth" else None,
                height=mm if dimension == "height" else None,
            )
            self._made[steps] = changed(self.scenario, [resize])
        return self._made[steps]

    def eased(self, steps: int, *, walkway: bool) -> Scenario | None:
        """As ``relaxed``, in that size."""
        return relaxed(self.at(steps), self.piece, self.dimension, walkway=walkway)

    @property
    def now(self) -> int:
        """The size the piece has, rounded down."""
        own: int = getattr(self.scenario.piece(self.piece), self.dimension)
        return in_steps(own, self.scenario.unit)

    @property
    def span(self) -> tuple[int, int]:
        """The least and the greatest size that can be thought of in this room."""
        unit, room = self.scenario.unit, self.scenario.room
        piece = self.scenario.piece(self.piece)
        x0, y0, x1, y1 = room.bounds
        most = max(x1 - x0, y1 - y0)
        if any(wall.facing is None for wall in room.walls):
            most = math.ceil(math.hypot(x1 - x0, y1 - y0))
        if self.dimension == "height":
            most = room.ceiling - piece.bottom
        least = max(SIZES[0], piece.least_side(self.dimension))
        low = in_steps(least - 1, unit) + 1
        return low, max(low, in_steps(most, unit))
