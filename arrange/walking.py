"""Where someone can walk: exact answers on finished shapes. Lengths in mm.

A path of width w is a disc of that diameter moved over free floor. The free
floor is eroded by half the width; what stays connected to a door is where the
middle of the disc can go.

A place (the clearance of a piece, a door's floor, the floor at a window) is
*reached* when someone on such a path can step into it: within a step of the
place, the path goes on as wide as the place itself, if that is narrower.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

# Half a mm is forgiven on each side, so that a path as wide as its gap exists;
# arcs are drawn with 16 chords a quarter, which is good to 0.2 mm at 30 cm.
FORGIVEN = 0.5
CHORDS = 16
STEP_AWAY = 1.5  # a step into a place starts at most this many path widths away


@dataclass(frozen=True)
class Goal:
    """Something that must be reached: any one of its ``zones`` will do.

    ``clearance`` names the clearance of the piece ``name``; empty for openings.
    """

    name: str
    purpose: str
    zones: tuple[Polygon, ...]
    clearance: str = ""


class Walk:
    """Everywhere a path of one width can go in a furnished room."""

    def __init__(
        self,
        room: Polygon,
        obstacles: Sequence[BaseGeometry],
        width: int,
        doors: Sequence[Polygon],
    ) -> None:
        self.room = room
        self.obstacles = obstacles
        self.width = width
        self.doors = doors

    @cached_property
    def floor(self) -> BaseGeometry:
        """The floor that nothing stands on."""
        return self.room.difference(union_all(list(self.obstacles)))

    @cached_property
    def middles(self) -> list[BaseGeometry]:
        """Connected areas where the middle of the path can be."""
        return shrink(self.room, self.obstacles, self.width)

    @cached_property
    def from_door(self) -> list[BaseGeometry]:
        """The areas of ``middles`` that people coming in by the main door can reach."""
        if not self.doors:
            return self.middles
        return [m for m in self.middles if self._steps_into(m, self.doors[0])]

    def reaches(self, goal: Goal) -> bool:
        """Whether one zone of the goal can be stepped into from the main door."""
        return any(self._steps_into(m, z) for z in goal.zones for m in self.from_door)

    def region(self) -> BaseGeometry:
        """All floor that the path from the main door sweeps over."""
        r = self.width / 2 - FORGIVEN
        return union_all([m.buffer(r, quad_segs=CHORDS) for m in self.from_door])

    def _steps_into(self, middle: BaseGeometry, zone: Polygon) -> bool:
        near = zone.buffer(STEP_AWAY * self.width, quad_segs=4)
        if not near.intersects(middle):
            return False
        pass_width = min(self.width, short_side(zone))
        floor = self.floor.union(zone).intersection(near)
        inner = zone.buffer(-(pass_width / 2 - FORGIVEN), join_style="mitre")
        around = floor.buffer(-(pass_width / 2 - FORGIVEN), quad_segs=CHORDS)
        return any(p.intersects(inner) and p.intersects(middle) for p in polygons(around))


def shrink(room: Polygon, obstacles: Iterable[BaseGeometry], width: float) -> list[BaseGeometry]:
    """Connected areas of the free floor where a disc of that diameter has its middle."""
    r = width / 2 - FORGIVEN
    grown = union_all([o.buffer(r, quad_segs=CHORDS) for o in obstacles])
    return polygons(room.buffer(-r, join_style="mitre").difference(grown))


def polygons(shape: BaseGeometry) -> list[BaseGeometry]:
    """The parts of a shape that have area."""
    return [p for p in getattr(shape, "geoms", [shape]) if p.area > 0]


def short_side(zone: Polygon) -> float:
    """The shorter side of a rectangle at any angle."""
    (ax, ay), (bx, by), (cx, cy) = list(zone.exterior.coords)[:3]
    return min(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5, ((cx - bx) ** 2 + (cy - by) ** 2) ** 0.5)
