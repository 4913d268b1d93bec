"""Stairs that slope: what of a boxed one is how high, and what floor there is below open ones.

The heights of both change evenly from one end to the other. Lengths in mm.
"""

from __future__ import annotations

from shapely.geometry import Polygon

from arrange.data.room import Fixture, Room
from arrange.geometry.shapes import wall_strip

Span = tuple[int, int]


def higher_than(room: Room, box: Fixture, height: int) -> Polygon:
    """The part of boxed stairs that is higher than that, to the mm before; empty if none is."""
    if height >= box.top or box.wall is None:
        return Polygon()
    low = box.low_top or box.top
    run = _run(box, box.low_end)
    begins = 0 if height < low else (height - low) * run // (box.top - low)
    along, off = _from_end(box, box.low_end, (begins, run))
    return wall_strip(room.walls[box.wall], along[0], along[1] - along[0], off[1], off[0])


def below_open(stairs: Fixture, height: int) -> tuple[Span, Span] | None:
    """The floor below open stairs over which they are lower than that, rounded up.

    From where to where along their wall, and off it; None if they are solid, or no height.

    >>> below_open(Fixture("", "stairs", (), 0, 500, 2500, 900, steps="left", underside=2000), 800)
    ((500, 1500), (0, 900))
    """
    if not stairs.underside or height <= 0:
        return None
    run = _run(stairs, stairs.steps)
    deep = min(run, -(-height * run // stairs.underside))
    return _from_end(stairs, stairs.steps, (0, deep))


def underside_over(room: Room, stairs: Fixture, x: float, y: float) -> float | None:
    """How high open stairs are over a point below them, None beside or on their edge."""
    if not stairs.underside or stairs.wall is None:
        return None
    wall, run = room.walls[stairs.wall], _run(stairs, stairs.steps)
    along, off = wall.coordinate(x, y) - stairs.offset, wall.off(x, y)
    if not (0 < along < stairs.width and 0 < off < stairs.depth):
        return None
    gone = {"left": along, "right": stairs.width - along, "front": stairs.depth - off}
    return stairs.underside * gone[stairs.steps] / run


def _run(fixture: Fixture, end: str) -> int:
    """How far it is from its low end to the other."""
    return fixture.width if end in ("left", "right") else fixture.depth


def _from_end(fixture: Fixture, end: str, part: Span) -> tuple[Span, Span]:
    """A part that is so far from one end: where along the wall, and how far off it."""
    start, width, depth = fixture.offset, fixture.width, fixture.depth
    whole, off = (start, start + width), (0, depth)
    if end == "left":
        return (start + part[0], start + part[1]), off
    if end == "right":
        return (start + width - part[1], start + width - part[0]), off
    return whole, (depth - part[1], depth - part[0]) if end == "front" else part
