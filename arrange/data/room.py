"""The empty room: outline, walls, doors, windows and fixtures. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Point = tuple[int, int]
Vector = tuple[float, float]

# Inward normals of the four straight walls of a rectangular room, met clockwise
# from the top wall: a piece backed on the top wall faces down the plan.
Facing = Literal["down", "left", "up", "right"]
FACINGS: tuple[Facing, ...] = ("down", "left", "up", "right")
FACING_VECTOR: dict[Facing, Point] = {
    "down": (0, -1),
    "left": (-1, 0),
    "up": (0, 1),
    "right": (1, 0),
}


@dataclass(frozen=True, slots=True)
class Wall:
    """One straight wall, from its left end to its right end as seen from inside.

    ``part_of`` is the name the person gave; a wall broken by a chimney breast
    becomes several walls with the same ``part_of``.
    """

    name: str
    start: Point
    end: Point
    part_of: str = ""

    @property
    def length(self) -> float:
        """Length in mm; a whole number unless the wall is slanted."""
        return math.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def along(self) -> Vector:
        """Unit vector from the left end to the right end."""
        n = self.length
        return (self.end[0] - self.start[0]) / n, (self.end[1] - self.start[1]) / n

    @property
    def inward(self) -> Vector:
        """Unit normal that points into the room."""
        ax, ay = self.along
        return ay, -ax

    @property
    def facing(self) -> Facing | None:
        """The quarter turn of a piece backed on this wall; None if slanted."""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if dy == 0:
            return "down" if dx > 0 else "up"
        if dx == 0:
            return "left" if dy < 0 else "right"
        return None

    def coordinate(self, x: float, y: float) -> float:
        """How far along the wall from its left end the point (x, y) lies, in mm."""
        ax, ay = self.along
        return (x - self.start[0]) * ax + (y - self.start[1]) * ay

    def off(self, x: float, y: float) -> float:
        """How far into the room from the wall's line the point (x, y) lies, in mm."""
        nx, ny = self.inward
        return (x - self.start[0]) * nx + (y - self.start[1]) * ny

    def point(self, along: float, inward: float = 0.0) -> Vector:
        """The point ``along`` mm from the left end and ``inward`` mm off the wall."""
        (ax, ay), (nx, ny) = self.along, self.inward
        return (
            self.start[0] + ax * along + nx * inward,
            self.start[1] + ay * along + ny * inward,
        )


@dataclass(frozen=True, slots=True)
class Door:
    """A door in a wall. ``offset`` and ``width`` give the clear opening in mm."""

    name: str
    wall: int
    offset: int
    width: int
    opens: Literal["in", "out", "sliding"] = "in"
    hinge: Literal["left", "right"] = "left"
    height: int = 2000
    main: bool = False


@dataclass(frozen=True, slots=True)
class Window:
    """A window in a wall; ``sill`` and ``head`` are heights above the floor in mm."""

    name: str
    wall: int
    offset: int
    width: int
    sill: int = 900
    head: int = 2100
    must_open: bool = False
    escape: bool = False


@dataclass(frozen=True, slots=True)
class Fixture:
    """Something built in. ``corners`` is its outline in mm, clockwise.

    ``wall``, ``offset``, ``width`` and ``depth`` place it on a wall; ``wall`` is
    None for one that stands free. A socket or light point has no body (depth 0).
    ``keep`` is the floor in mm kept free in front of it and ``keep_below`` the
    height up to which that floor is kept free. ``solid`` says that nothing can
    stand in it; ``burns`` that it is a heat source that can set things alight.
    """

    name: str
    kind: str
    corners: tuple[Point, ...]
    wall: int | None = None
    offset: int = 0
    width: int = 0
    depth: int = 0
    bottom: int = 0
    top: int = 0
    keep: int = 0
    keep_below: int = 2000
    solid: bool = True
    burns: bool = False
    source: str = ""

    @property
    def obstructs(self) -> bool:
        """Whether nothing can stand in it: it is solid, and takes floor."""
        return self.solid and len(self.corners) >= 3


@dataclass(frozen=True, slots=True)
class Slope:
    """A sloping ceiling, which rises from a straight wall into the room.

    It is ``height`` mm above the floor at the line of its wall, which no floor lies behind,
    and as high as the ceiling from ``until`` mm off that line on, measured level. It runs
    across the whole room, as a roof does. Where slopes meet, the lower one counts; two that
    reach the ceiling in one line meet in a ridge.
    """

    wall: int
    height: int
    until: int

    def low(self, height: int, ceiling: int) -> int:
        """How far off the wall it is lower than ``height``, in mm rounded up.

        >>> Slope(0, 1000, 1400).low(1600, 2400), Slope(0, 1000, 1400).low(1601, 2400)
        (600, 602)
        """
        if height <= self.height:
            return 0
        return -(-(min(height, ceiling) - self.height) * self.until // (ceiling - self.height))

    def above(self, off: float, ceiling: int) -> float:
        """How high it is ``off`` mm off the wall.

        >>> Slope(0, 1000, 1400).above(700, 2400), Slope(0, 1000, 1400).above(2000, 2400)
        (1700.0, 2400.0)
        """
        return self.height + (ceiling - self.height) * min(1.0, off / self.until)


@dataclass(frozen=True, slots=True)
class Room:
    """The room as measured. ``corners`` run clockwise; wall i goes from corner i to i+1.

    ``ceiling`` is its height where it does not slope.
    """

    corners: tuple[Point, ...]
    walls: tuple[Wall, ...]
    ceiling: int
    doors: tuple[Door, ...] = ()
    windows: tuple[Window, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    slopes: tuple[Slope, ...] = ()

    @property
    def bounds(self) -> tuple[int, int, int, int]:
        """Least x, least y, greatest x, greatest y in mm."""
        xs, ys = [p[0] for p in self.corners], [p[1] for p in self.corners]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def obstructions(self) -> tuple[Fixture, ...]:
        """The fixtures whose bodies take floor, at whatever height."""
        return tuple(f for f in self.fixtures if f.obstructs)

    @property
    def main_door(self) -> Door | None:
        """The door people come in by: the one marked, else the first."""
        return next((d for d in self.doors if d.main), self.doors[0] if self.doors else None)
