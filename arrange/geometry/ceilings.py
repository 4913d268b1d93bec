"""The ceiling: how high it is over a point, what floor is low, and how large walls and ceiling are.

A ceiling is level, or slopes from straight walls; where slopes meet, the lower one counts.
Dormers lift a part of one slope; beams hang under all. Lengths in mm, areas in mm2.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, pairwise

from shapely import union_all
from shapely.geometry import LineString, Point, Polygon, box

from arrange.data.lengths import the
from arrange.data.room import Beam, Dormer, Fixture, Room, Slope, Wall
from arrange.geometry.shapes import room_shape, shares_floor
from arrange.geometry.stairs import below_open, underside_over

FAR = 1_000_000  # mm; beyond any room
Bounds = tuple[int, int, int, int]  # least x, least y, greatest x, greatest y
Span = tuple[int, int]


SLOPE = "the sloping ceiling"  # what a gap ends at


@dataclass(frozen=True, slots=True)
class Low:
    """An upright rectangle of floor over which the ceiling is too low, and what makes it so."""

    shape: Polygon
    name: str


def low_floor(room: Room, height: int) -> tuple[Polygon, ...]:
    """The floor over which the ceiling is lower than ``height``, as upright rectangles.

    They may overlap. No point inside that floor is on the edge of all of them.
    """
    return tuple(low.shape for low in low_parts(room, height))


@lru_cache(4096)
def low_parts(room: Room, height: int) -> tuple[Low, ...]:
    """The same, with what is over each: a slope, a beam or stairs."""
    slopes = [Low(box(*under), SLOPE) for under in _under_slopes(room, height)]
    beams = [Low(box(*b), the(beam.name)) for beam in room.beams for b in _beam(room, beam, height)]
    stairs = [Low(box(*under), the(f.name)) for f, under in _below_stairs(room, height)]
    return (*slopes, *beams, *stairs)


def _below_stairs(room: Room, height: int) -> list[tuple[Fixture, Bounds]]:
    """The floor below open stairs that are lower than that there."""
    parts = [(f, below_open(f, height)) for f in room.open_stairs]
    return [(f, on_plan(room.walls[f.wall or 0], *part)) for f, part in parts if part is not None]


@lru_cache(4096)
def not_walked(room: Room, headroom: int) -> tuple[Polygon, ...]:
    """The floor where nobody walks who takes that headroom; a narrow beam is ducked under."""
    strips = [*_under_slopes(room, headroom)]
    for beam in room.beams:
        strips += _beam(room, beam, beam.walked_under(headroom))
    strips += [under for _, under in _below_stairs(room, headroom)]
    return tuple(box(*strip) for strip in strips)


@lru_cache(4096)
def under_slopes(room: Room, height: int) -> tuple[Polygon, ...]:
    """The floor over which a slope is lower than ``height``; beams take none away."""
    return tuple(box(*strip) for strip in _under_slopes(room, height))


def _under_slopes(room: Room, height: int) -> list[Bounds]:
    """For each slope the largest rectangles of floor over which it is lower, but in dormers."""
    found: list[Bounds] = []
    for slope in room.slopes:
        wall, depth = room.walls[slope.wall], slope.low(height, room.ceiling)
        if depth:
            lifted = [
                _seen_from(wall, d.box) for d in dormers_of(room, slope) if d.height >= height
            ]
            found += [on_plan(wall, *rect) for rect in _largest(*_reach(room, wall), depth, lifted)]
    return found


def dormers_of(room: Room, slope: Slope) -> list[Dormer]:
    """The dormers in one slope."""
    return [dormer for dormer in room.dormers if dormer.wall == slope.wall]


def _reach(room: Room, wall: Wall) -> tuple[Span, int]:
    """From where to where the room goes along a straight wall, and how far behind its line."""
    along = [round(wall.coordinate(x, y)) for x, y in room.corners]
    return (min(along), max(along)), min(round(wall.off(x, y)) for x, y in room.corners)


def _seen_from(wall: Wall, on: Bounds) -> tuple[Span, Span]:
    """A rectangle on the plan along a straight wall and off it; ``on_plan`` the other way."""
    ends = [(on[0], on[1]), (on[2], on[3])]
    along = sorted(round(wall.coordinate(*end)) for end in ends)
    off = sorted(round(wall.off(*end)) for end in ends)
    return (along[0], along[1]), (off[0], off[1])


def _largest(
    whole: Span, behind: int, depth: int, lifted: Sequence[tuple[Span, Span]]
) -> list[tuple[Span, Span]]:
    """The largest rectangles of a strip without the parts that begin at some distance.

    >>> _largest((0, 9), 0, 5, [((3, 6), (2, 8))])
    [((0, 9), (0, 2)), ((0, 3), (0, 5)), ((6, 9), (0, 5))]
    """
    cuts = sorted({*whole, *(end for along, _ in lifted for end in along)})
    deep = [
        min([depth, *(off[0] for along, off in lifted if along[0] <= a and b <= along[1])])
        for a, b in pairwise(cuts)
    ]
    found: list[tuple[Span, Span]] = []
    for level in sorted({d for d in deep if d > behind}):
        for is_deep, run in groupby(range(len(deep)), key=lambda k: deep[k] >= level):
            parts = list(run)
            if is_deep:
                found.append(((cuts[parts[0]], cuts[parts[-1] + 1]), (behind, level)))
    return found


def _beam(room: Room, beam: Beam, height: int) -> list[Bounds]:
    """Where a beam is lower than that: all of it, or as far as the ceiling above it slopes."""
    if not beam.drop or height + beam.drop > room.ceiling:
        return [beam.box] if beam.drop or beam.height < height else []
    strips = _under_slopes(room, height + beam.drop)
    return [both for strip in strips if (both := _shared(beam.box, strip)) is not None]


def _shared(one: Bounds, two: Bounds) -> Bounds | None:
    x0, y0 = max(one[0], two[0]), max(one[1], two[1])
    x1, y1 = min(one[2], two[2]), min(one[3], two[3])
    return (x0, y0, x1, y1) if x0 < x1 and y0 < y1 else None


def on_plan(wall: Wall, along: Span, off: Span) -> Bounds:
    """The rectangle between two places along a straight wall, from so far to so far off it."""
    (x0, y0), (x1, y1) = wall.point(along[0], off[0]), wall.point(along[1], off[1])
    xs, ys = sorted((round(x0), round(x1))), sorted((round(y0), round(y1)))
    return xs[0], ys[0], xs[1], ys[1]


def ceiling_over(room: Room, x: float, y: float) -> float:
    """How high the ceiling is over a point of the floor, in mm.

    On the very edge of a beam or a dormer as high as on the higher side.
    """
    high = float(room.ceiling)
    for slope in room.slopes:
        above = slope.above(room.walls[slope.wall].off(x, y), room.ceiling)
        lifted = [d.height for d in dormers_of(room, slope) if box(*d.box).covers(Point(x, y))]
        high = min(high, max([above, *lifted]))
    for beam in room.beams:
        x0, y0, x1, y1 = beam.box
        if x0 < x < x1 and y0 < y < y1:
            high = min(high, beam.height or high - beam.drop)
    under = [underside_over(room, f, x, y) for f in room.open_stairs]
    return min([high, *(mm for mm in under if mm is not None)])


def lowest_over(room: Room, floor: Polygon, *, walking: bool = False) -> int:
    """The greatest whole height in mm that the ceiling has all over some floor.

    With ``walking`` a beam that is ducked under counts as high as it would have to be.
    """
    low, high = 0, room.ceiling
    while low < high:
        middle = (low + high + 1) // 2
        under = not_walked(room, middle) if walking else low_floor(room, middle)
        if any(shares_floor(floor, shape) for shape in under):
            high = middle - 1
        else:
            low = middle
    return low


def area_under(room: Room, height: int) -> float:
    """The floor over which the ceiling is at least ``height`` mm high, in mm2.

    A beam takes no floor away: common practice, no source.
    """
    return float(room_shape(room).difference(union_all(under_slopes(room, height))).area)


def wall_face(room: Room, wall: Wall) -> float:
    """The area of one wall from the floor to the ceiling, openings and all.

    Where the ceiling slopes along it, the part above the slope is no wall.
    """
    face = box(0, 0, wall.length, room.ceiling)
    for slope in room.slopes:
        parts = [_in_dormer(dormer, wall) for dormer in dormers_of(room, slope)]
        face = face.intersection(union_all([_under(room, slope, wall), *parts]))
    return float(face.area)


def _in_dormer(dormer: Dormer, wall: Wall) -> Polygon:
    """What of a wall is as high as a dormer: how far along it, and how high above the floor."""
    inside = LineString([wall.start, wall.end]).intersection(box(*dormer.box))
    if inside.length == 0:
        return Polygon()
    along = [wall.coordinate(x, y) for x, y in inside.coords]
    return box(min(along), 0, max(along), dormer.height)


def dormer_walls(room: Room) -> float:
    """The upright sides of dormers above the slope, and fronts that stand in from the wall."""
    total = 0.0
    for slope in room.slopes:
        wall = room.walls[slope.wall]
        ends, behind = _reach(room, wall)
        for dormer in dormers_of(room, slope):
            along, (front, _) = _seen_from(wall, dormer.box)
            front = max(front, 0)
            lifted = dormer.height - slope.above(front, room.ceiling)
            sides = sum(end not in ends for end in along)
            total += sides * lifted * lifted / _rise(room, slope) / 2
            if front > max(behind, 0):
                total += lifted * (along[1] - along[0])
    return total


def _under(room: Room, slope: Slope, wall: Wall) -> Polygon:
    """What of a wall is below a slope: how far along it, and how high above the floor."""
    foot = room.walls[slope.wall]
    begins, ends = foot.off(*wall.start), foot.off(*wall.end)
    alongs = [0.0, wall.length]
    if min(begins, ends) < slope.until < max(begins, ends):
        alongs.insert(1, wall.length * (slope.until - begins) / (ends - begins))
    heights = [slope.above(max(foot.off(*wall.point(a)), 0), room.ceiling) for a in alongs]
    top = list(zip(alongs, heights, strict=True))
    return Polygon([(0.0, 0.0), *top, (wall.length, 0.0)])


def ceiling_area(room: Room) -> float:
    """The area of the ceiling, sloping parts along their slope.

    A slope that rises by ``s`` mm a mm has sqrt(1 + s2) times the area of the floor below it;
    a dormer has a level ceiling.
    """
    floor = room_shape(room)
    more = 0.0
    for slope in room.slopes:
        wall = room.walls[slope.wall]
        below = box(*on_plan(wall, _reach(room, wall)[0], (0, slope.until))).intersection(floor)
        below = below.difference(union_all([box(*d.box) for d in dormers_of(room, slope)]))
        for other in room.slopes:
            if other != slope:
                below = below.intersection(_lower(room, slope, other))
        more += below.area * (math.hypot(1, _rise(room, slope)) - 1)
    return float(floor.area + more)


def _rise(room: Room, slope: Slope) -> float:
    """How many mm it rises a mm."""
    return (room.ceiling - slope.height) / slope.until


def _lower(room: Room, slope: Slope, other: Slope) -> Polygon:
    """The half of the plan where a slope is lower than another one, both going on as they begin."""

    def plane(one: Slope) -> tuple[float, float, float]:
        wall, rise = room.walls[one.wall], _rise(room, one)
        (nx, ny), (x, y) = wall.inward, wall.start
        return rise * nx, rise * ny, one.height - rise * (x * nx + y * ny)

    (ax, ay, a), (bx, by, b) = plane(slope), plane(other)
    dx, dy, more = bx - ax, by - ay, b - a  # by how much the other is higher at (0, 0), and on
    steep = math.hypot(dx, dy)
    dx, dy, off = dx / steep, dy / steep, -more / steep
    near = [(dx * off - dy * side, dy * off + dx * side) for side in (-FAR, FAR)]
    far = [(x + dx * FAR, y + dy * FAR) for x, y in reversed(near)]
    return Polygon([*near, *far])
