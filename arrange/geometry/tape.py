"""Whether somebody with a tape finds the place of a piece.

They find it where along each direction of the plan one of these is true: a side *touches* a
wall or a neighbour; it is a whole number of steps off one (5 cm, or 2 inches); the piece is
*centred*, both gaps equal within 1 cm; or its middle is *in line* within 1 cm with that of a
window or of what a room turns on (sofa, bed, table, desk, screen). A gap from 0 to 4 cm beside
or behind a piece is neither closed nor open: nobody means it. Common practice, no source.

What is tied to another piece has its place by that one, and is only looked at for a gap of
that kind to a wall; rugs, what hangs and what lies along a slanted wall are not measured.
Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from shapely import box
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import MOVED_SEATS, Piece
from arrange.data.room import FACING_VECTOR
from arrange.data.scenario import Unit
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.shapes import opening_span
from arrange.geometry.spots import middle2

Axis = Literal[0, 1]  # across the plan, up the plan
AXES: tuple[Axis, Axis] = (0, 1)
Gaps = tuple[float, float]  # mm; on the lower side of a piece, and on the upper
STEP, STEP_IN_INCHES = 50.0, 50.8
CLOSED = 40  # mm; a gap is at least so wide, or none at all
EVEN = 10  # mm by which two gaps may differ, and two middles
LIKE_WHOLE = 1  # mm; nobody tapes anything finer
MIDDLES = frozenset({"sofa", "bed", "dine", "desk", "screen"})
FAR = 30_000  # mm; farther than any wall


@dataclass(frozen=True, slots=True)
class Loose:
    """A piece whose place no tape finds along an axis, or with a ``narrow`` gap there."""

    piece: str
    axis: Axis
    gap: int
    narrow: bool = False


def steps(unit: Unit, most: int) -> list[int]:
    """The lengths up to ``most`` that are whole steps on somebody's tape, to the nearest mm.

    >>> steps("cm", 150), steps("in", 160)
    ([0, 50, 100, 150], [0, 51, 102, 152])
    """
    step = _step(unit)
    return [round(step * k) for k in range(int(most / step) + 1)]


def is_step(length: float, unit: Unit) -> bool:
    """Whether a length is a whole number of steps, within 1 mm.

    >>> is_step(249, "cm"), is_step(248, "cm"), is_step(102, "in")
    (True, False, True)
    """
    step = _step(unit)
    return min(length % step, -length % step) <= LIKE_WHOLE


def _step(unit: Unit) -> float:
    """A whole step on somebody's tape, in mm."""
    return STEP_IN_INCHES if unit == "in" else STEP


def is_measured(piece: Piece) -> bool:
    """Whether its place is looked for with a tape at all: it stands, and is tied to nothing."""
    return piece.anchor is None and not piece.flat and piece.bottom == 0


def measured(scene: Scene) -> list[Placed]:
    """What is looked for with a tape, upright on the plan."""
    return [p for p in scene.placed if is_measured(p.piece) and p.placement.facing is not None]


def tied(scene: Scene) -> list[Placed]:
    """What stands tied to another piece, upright on the plan, but for chairs that are moved."""
    return [
        p
        for p in scene.placed
        if p.piece.anchor is not None
        and p.placement.facing is not None
        and not (p.piece.flat or p.piece.bottom or p.piece.roles & MOVED_SEATS)
    ]


def marks_middle(piece: Piece) -> bool:
    """Whether others can be in line with its middle."""
    return bool(piece.roles & MIDDLES)


def window_middles(scene: Scene, axis: Axis) -> list[float]:
    """Where the middles of the windows are along an axis."""
    room = scene.scenario.room
    spans = [opening_span(room, window) for window in room.windows]
    return [(start[axis] + end[axis]) / 2 for start, end in spans]


def bodies_about(scene: Scene, placed: Placed) -> list[BaseGeometry]:
    """What it can stand beside: fixtures and pieces, without what is tied to it."""
    found: list[BaseGeometry] = [
        other.body
        for other in scene.standing
        if other is not placed and other.piece.anchor != placed.name
    ]
    return found + [shape for shape, low in scene.solid_fixtures if low < HEAD]


def gaps(scene: Scene, placed: Placed, axis: Axis, bodies: Iterable[BaseGeometry]) -> Gaps:
    """How far it is straight from its two sides to the next wall or body, the lower side first."""
    low, high = (placed.x0, placed.y0), (placed.x1, placed.y1)
    ahead, behind = [FAR + 0.0], [FAR + 0.0]
    start, end = list(low), list(high)
    start[axis], end[axis] = low[axis] - FAR, high[axis] + FAR
    start[1 - axis] += LIKE_WHOLE
    end[1 - axis] -= LIKE_WHOLE
    strip = box(*start, *end)
    for shape in (strip.difference(scene.room), *(strip.intersection(b) for b in bodies)):
        for part in getattr(shape, "geoms", [shape]):
            if part.is_empty:
                continue
            first, last = part.bounds[axis], part.bounds[axis + 2]
            if last <= (low[axis] + high[axis]) / 2:
                behind.append(low[axis] - last)
            if first >= (low[axis] + high[axis]) / 2:
                ahead.append(first - high[axis])
    return min(behind), min(ahead)


def _in_line(scene: Scene, placed: Placed, axis: Axis) -> bool:
    def middle(one: Placed) -> float:
        return float(middle2(one)[axis] / 2)

    marks = [middle(p) for p in scene.placed if p is not placed and marks_middle(p.piece)]
    marks += window_middles(scene, axis)
    return any(abs(mark - middle(placed)) <= EVEN for mark in marks)


def _is_taped(scene: Scene, placed: Placed, axis: Axis, free: Gaps) -> bool:
    """Whether a tape finds its place along an axis; ``free`` are its gaps there."""
    walls = gaps(scene, placed, axis, ())
    if any(is_step(gap, scene.scenario.unit) for gap in (*free, *walls)):
        return True
    if any(abs(one - two) <= EVEN for one, two in (free, walls)):
        return True
    return _in_line(scene, placed, axis)


def _narrow_gaps(placed: Placed, free: Sequence[Gaps]) -> Sequence[Loose]:
    """The gaps beside and behind it that are neither closed nor open."""
    found: list[Loose] = []
    dx, dy = FACING_VECTOR[placed.facing]
    for axis in AXES:
        before = -1 if not (dx, dy)[axis] else (dx, dy)[axis] > 0
        for side, gap in enumerate(free[axis]):
            if side != before and LIKE_WHOLE < gap < CLOSED:
                found.append(Loose(placed.name, axis, round(gap), narrow=True))
    return found


def loose(scene: Scene) -> tuple[Loose, ...]:
    """Every place that no tape finds, and every narrow gap."""
    found: list[Loose] = []
    for placed in measured(scene):
        bodies = bodies_about(scene, placed)
        free = [gaps(scene, placed, axis, bodies) for axis in AXES]
        found += [
            Loose(placed.name, axis, round(min(free[axis])))
            for axis in AXES
            if not _is_taped(scene, placed, axis, free[axis])
        ]
        found += _narrow_gaps(placed, free)
    for placed in tied(scene):
        found += _narrow_gaps(placed, [gaps(scene, placed, axis, ()) for axis in AXES])
    return tuple(found)
