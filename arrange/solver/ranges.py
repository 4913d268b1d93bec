"""How far one piece may move while it surely still blocks what it blocks. Lengths in mm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from shapely import box as shapely_box
from shapely.geometry import Polygon

from arrange.data.piece import Clearance, Side
from arrange.data.room import Facing
from arrange.geometry import strip_corners
from arrange.scene import Placed
from arrange.solver.standing import facing_offset

FIRST_STEP = 64  # mm
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
        return shapely_box(
            self.low[0] + box[0],
            self.low[1] + box[1],
            self.high[0] + box[2],
            self.high[1] + box[3],
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


@dataclass
class Stretch:
    """One end of one range being moved toward ``limit``.

    Steps are doubled until one fails and halved from then on: what failed once fails for
    good, since other ends only move outwards.
    """

    range: Range
    axis: int
    up: bool
    limit: int
    at_once: bool = False
    step: int = FIRST_STEP
    failed: bool = False

    def on(self, still_holds: Callable[[], bool]) -> bool:
        """One step further, if the test still holds then; whether it is worth going on."""
        ends = self.range.high if self.up else self.range.low
        here = ends[self.axis]
        left = abs(self.limit - here)
        step = left if self.at_once else min(self.step, left)
        ends[self.axis] = here + step if self.up else here - step
        held = step > 0 and still_holds()
        if not held:
            ends[self.axis] = here
        if ends[self.axis] == self.limit:
            (self.range.open_high if self.up else self.range.open_low)[self.axis] = True
            return False
        self.failed = self.failed or not held
        self.step = step // 2 if self.failed else 2 * step
        return self.step > 0 and not self.at_once


def _rectangle(x0: int, y0: int, x1: int, y1: int) -> Polygon | None:
    if x0 >= x1 or y0 >= y1:
        return None
    return shapely_box(x0, y0, x1, y1)
