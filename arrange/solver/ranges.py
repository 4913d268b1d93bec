"""How far one piece may move while it surely still blocks what it blocks. Lengths in mm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from shapely.geometry import Polygon

from arrange.data.piece import Clearance, Side
from arrange.data.room import Facing
from arrange.geometry import strip_corners
from arrange.scene import Placed
from arrange.solver.standing import facing_offset

SLACK = 2  # mm; a slanted body is known by whole-mm bounds, so its core is a bit smaller


@dataclass
class Range:
    """Where the lower left corner of one piece may be while it stays turned as it is."""

    placed: Placed
    low: list[int]
    high: list[int]
    open_low: list[bool]
    open_high: list[bool]

    @classmethod
    def at(cls, placed: Placed) -> Range:
        """No freedom at all."""
        here = [placed.x0, placed.y0]
        return cls(placed, here[:], here[:], [False, False], [False, False])

    def core(self) -> Polygon | None:
        """The floor its body covers wherever in the range it stands."""
        if self.placed.placement.facing is None:
            return self.placed.body.buffer(-SLACK, join_style="mitre")
        w, h = self.placed.x1 - self.placed.x0, self.placed.y1 - self.placed.y0
        return _rectangle(self.high[0], self.high[1], self.low[0] + w, self.low[1] + h)

    def swept(self, box: tuple[int, int, int, int]) -> Polygon:
        """All floor that a box moving with the piece can cover."""
        return Polygon(
            [
                (self.low[0] + box[0], self.low[1] + box[1]),
                (self.high[0] + box[2], self.low[1] + box[1]),
                (self.high[0] + box[2], self.high[1] + box[3]),
                (self.low[0] + box[0], self.high[1] + box[3]),
            ]
        )

    def always(self, box: tuple[int, int, int, int]) -> Polygon | None:
        """The floor that a box moving with the piece covers wherever it stands."""
        return _rectangle(
            self.high[0] + box[0],
            self.high[1] + box[1],
            self.low[0] + box[2],
            self.low[1] + box[3],
        )


def moving_box(
    placed: Placed, clearance: Clearance, side: Side, facing: Facing
) -> tuple[int, int, int, int]:
    """A least strip relative to the lower left corner of its piece."""
    strip = strip_corners(
        placed.piece,
        side,
        clearance.least,
        clearance.skip_start,
        clearance.skip_end,
    )
    x, y = facing_offset(placed.piece, facing, strip)
    a, b = strip[2] - strip[0], strip[3] - strip[1]
    w, h = (a, b) if facing in ("down", "up") else (b, a)
    return x, y, x + w, y + h


def stretch(
    ends: list[int], axis: int, limit: int, fine: int, still_holds: Callable[[], bool]
) -> None:
    """Move one end toward ``limit`` as far as the test holds, to within ``fine``."""
    start = ends[axis]
    ends[axis] = limit
    if still_holds():
        return
    step = 1 if limit > start else -1
    low, high = 0, abs(limit - start)
    while high - low > fine:
        middle = (low + high) // 2
        ends[axis] = start + step * middle
        if still_holds():
            low = middle
        else:
            high = middle
    ends[axis] = start + step * low


def _rectangle(x0: int, y0: int, x1: int, y1: int) -> Polygon | None:
    if x0 >= x1 or y0 >= y1:
        return None
    return Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
