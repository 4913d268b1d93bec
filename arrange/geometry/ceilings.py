"""The ceiling: how high it is over a point, what floor is low, and how large walls and ceiling are.

A ceiling is level, or slopes from straight walls; where slopes meet, the lower one counts.
Lengths in mm, areas in mm2.
"""

from __future__ import annotations

import math
from functools import lru_cache

from shapely import union_all
from shapely.geometry import Polygon, box

from arrange.data.room import Room, Slope, Wall
from arrange.geometry.shapes import room_shape, wall_strip

FAR = 1_000_000  # mm; beyond any room


@lru_cache(4096)
def low_floor(room: Room, height: int) -> tuple[Polygon, ...]:
    """The floor over which a sloping ceiling is lower than ``height``, a strip a slope."""
    found: list[Polygon] = []
    for slope in room.slopes:
        wall, depth = room.walls[slope.wall], slope.low(height, room.ceiling)
        along = [round(wall.coordinate(x, y)) for x, y in room.corners]
        if depth:
            found.append(wall_strip(wall, min(along), max(along) - min(along), depth))
    return tuple(found)


def ceiling_over(room: Room, x: float, y: float) -> float:
    """How high the ceiling is over a point of the floor, in mm."""
    heights = [s.above(room.walls[s.wall].off(x, y), room.ceiling) for s in room.slopes]
    return min(heights, default=float(room.ceiling))


def area_under(room: Room, height: int) -> float:
    """The floor over which the ceiling is at least ``height`` mm high, in mm2."""
    return float(room_shape(room).difference(union_all(low_floor(room, height))).area)


def wall_face(room: Room, wall: Wall) -> float:
    """The area of one wall from the floor to the ceiling, openings and all.

    Where the ceiling slopes along it, the part above the slope is no wall.
    """
    face = box(0, 0, wall.length, room.ceiling)
    for slope in room.slopes:
        face = face.intersection(_under(room, slope, wall))
    return float(face.area)


def _under(room: Room, slope: Slope, wall: Wall) -> Polygon:
    """What of a wall is below a slope: how far along it, and how high above the floor."""
    foot = room.walls[slope.wall]
    begins, ends = foot.off(*wall.start), foot.off(*wall.end)
    alongs = [0.0, wall.length]
    if min(begins, ends) < slope.until < max(begins, ends):
        alongs.insert(1, wall.length * (slope.until - begins) / (ends - begins))
    heights = [slope.above(foot.off(*wall.point(along)), room.ceiling) for along in alongs]
    top = list(zip(alongs, heights, strict=True))
    return Polygon([(0.0, 0.0), *top, (wall.length, 0.0)])


def ceiling_area(room: Room) -> float:
    """The area of the ceiling, sloping parts along their slope.

    A slope that rises by ``s`` mm a mm has sqrt(1 + s2) times the area of the floor below it.
    """
    floor = room_shape(room)
    more = 0.0
    for slope, strip in zip(room.slopes, low_floor(room, room.ceiling), strict=True):
        below = strip.intersection(floor)
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
