"""The empty room: outline, walls, doors, windows and fixtures; and what was made of the tape.

Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal, get_args

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

    def room_for(self, width: int) -> int:
        """How far from its left end what is so wide can begin at most; below 0 if it is too wide.

        >>> Wall("A", (0, 0), (3000, 0)).room_for(900)
        2100
        """
        return int(self.length + 1e-6) - width

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


Opens = Literal[
    "in", "out", "folding in", "folding out", "sliding", "sliding on the wall", "passage"
]
OPENS: tuple[Opens, ...] = get_args(Opens)
WIDE = 1200  # mm; a passage wider than that keeps a way clear, not its width. Common practice


@dataclass(frozen=True, slots=True)
class Door:
    """A door in a wall. ``offset`` and ``width`` give the clear opening in mm.

    A sliding door goes into its wall, or hangs on the other side of it, unless it is
    "sliding on the wall": then it takes the wall beside the opening. ``hinge`` is the side
    it slides to; of ``leaves`` 2 each has half of the opening and goes to its own side.
    ``stable`` is for leaves in two halves, one above the other. A passage has no leaf.
    """

    name: str
    wall: int
    offset: int
    width: int
    opens: Opens = "in"
    hinge: Literal["left", "right"] = "left"
    height: int = 2000
    main: bool = False
    leaves: int = 1
    stable: bool = False

    @property
    def leaf(self) -> int:
        """Width of one leaf in mm, rounded up; 0 for a passage."""
        return 0 if self.opens == "passage" else -(-self.width // self.leaves)

    @property
    def sides(self) -> tuple[Literal["left", "right"], ...]:
        """Where its leaves hang or go; none for a passage."""
        if self.opens == "passage":
            return ()
        return ("left", "right") if self.leaves > 1 else (self.hinge,)

    @property
    def folds(self) -> bool:
        """Whether each leaf is two panels that fold to one side."""
        return self.opens in ("folding in", "folding out")

    @property
    def opens_in(self) -> bool:
        """Whether its leaves come into the room as they open."""
        return self.opens in ("in", "folding in")

    @property
    def reach(self) -> int:
        """How far its leaves come off the wall as they open, to whichever side; mm."""
        if self.folds:
            return -(-self.leaf // 2)
        return self.leaf if self.opens in ("in", "out") else 0

    def floor_depth(self, walkway: int) -> int:
        """How deep the floor inside it is that it needs: its leaves', or the walkway's; mm."""
        return max(walkway, self.reach) if self.opens_in else walkway

    def beside(self, side: Literal["left", "right"]) -> int:
        """Where along the wall the stretch as wide as a leaf begins, on that side of it; mm."""
        return self.offset - self.leaf if side == "left" else self.offset + self.width

    @property
    def is_wide(self) -> bool:
        """Whether it is a passage so wide that a way through it is enough."""
        return self.opens == "passage" and self.width > WIDE

    @property
    def takes_room(self) -> bool:
        """Whether it could be hung so that its leaves take less of this room."""
        return self.opens_in or self.opens == "sliding on the wall"

    def outwards(self) -> Door:
        """The same door hung so that its leaves stay out of the room."""
        outward: dict[Opens, Opens] = {
            "in": "out",
            "folding in": "folding out",
            "sliding on the wall": "sliding",
        }
        return replace(self, opens=outward.get(self.opens, self.opens))


@dataclass(frozen=True, slots=True)
class Window:
    """A window in a wall; ``sill`` and ``head`` are heights above the floor in mm.

    ``french`` is the door that a French window is, onto a balcony. One that ``tilts`` comes
    into the room at its top. ``curtains`` is the width in mm of the wall on each side over
    which they hang when they are drawn back.
    """

    name: str
    wall: int
    offset: int
    width: int
    sill: int = 900
    head: int = 2100
    must_open: bool = False
    escape: bool = False
    french: Door | None = None
    tilts: bool = False
    curtains: int = 0


PENDANT, FAN, BOXED = "pendant light", "ceiling fan", "boxed stairs"


@dataclass(frozen=True, slots=True)
class Fixture:
    """Something built in. ``corners`` is its outline in mm, clockwise.

    ``wall``, ``offset``, ``width`` and ``depth`` place it on a wall; ``wall`` is
    None for one that stands free. A socket or light point has no body (depth 0).
    ``keep`` is the floor in mm kept free in front of it and ``keep_below`` the
    height up to which that floor is kept free. ``solid`` says that nothing can
    stand in it; ``burns`` that it is a heat source that can set things alight.

    A closet has ``doors``, in so many ``leaves`` (0 of what has none). The steps of stairs
    begin at their ``steps`` side as seen from inside, facing the wall; the other sides are
    ``guarded`` or not. Stairs that are open below rise from there: at the other end their
    ``underside`` is so high in mm. Boxed stairs are ``top`` high, and slope down to ``low_top``
    at their ``low_end``; 0 if they are level. ``seat_before`` lets a low open seat stand before
    a radiator.
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
    doors: Literal["hinged", "folding", "sliding"] = "hinged"
    leaves: int = 0
    steps: Literal["front", "left", "right"] = "front"
    guarded: bool = True
    seat_before: bool = False
    underside: int = 0
    low_top: int = 0
    low_end: Literal["left", "right", "front", "back"] = "left"

    @property
    def is_walked_to(self) -> bool:
        """Whether people must get to the floor before it: a closet, stairs."""
        return self.keep > 0 and self.wall is not None and self.kind in ("closet", "stairs")

    @property
    def is_lid(self) -> bool:
        """Whether it is a hatch in the floor: people walk on it, nothing stands there."""
        return self.kind == "hatch"

    @property
    def hangs(self) -> bool:
        """Whether it hangs from the ceiling: a pendant light or a fan."""
        return self.kind in (PENDANT, FAN)

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
        (600, 601)
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
class Dormer:
    """A part of a slope that is lifted, as a rule for a window in an upright front.

    ``wall`` is that of its slope. Over ``box`` (least x and y, greatest x and y, in mm) the
    ceiling is no lower than ``height`` mm: from its front to where the slope is as high. A
    front above the wall has all floor behind the line of that wall within the box. ``offset``
    is from the left end of that wall, as it was measured.
    """

    name: str
    wall: int
    box: tuple[int, int, int, int]
    height: int
    offset: int = 0


DUCKED = 1800  # mm; as low as headroom may be at the side of stairs to a loft (`stair-uk-head`)
A_STEP = 600  # mm; a beam no wider is ducked under. Common practice, no source


@dataclass(frozen=True, slots=True)
class Beam:
    """A strip of the ceiling that is lower than the rest, along a straight wall.

    ``box`` is what it covers on the plan: least x and y, greatest x and y, in mm. Its underside
    is level, ``height`` mm above the floor; or ``drop`` mm below the ceiling, sloping with it,
    with a height of 0. ``wall`` is the one it was measured from.
    """

    name: str
    wall: int
    box: tuple[int, int, int, int]
    height: int = 0
    drop: int = 0

    @property
    def width(self) -> int:
        """The shorter side of what it covers, in mm."""
        x0, y0, x1, y1 = self.box
        return min(x1 - x0, y1 - y0)

    def walked_under(self, headroom: int) -> int:
        """The headroom that walking takes there: a step is taken with the head ducked.

        >>> Beam("beam", 0, (0, 0, 4000, 600), 1850).walked_under(1900)
        1800
        """
        return min(headroom, DUCKED) if self.width <= A_STEP else headroom


@dataclass(frozen=True, slots=True)
class Room:
    """The room as measured. ``corners`` run clockwise; wall i goes from corner i to i+1.

    ``ceiling`` is its height where it does not slope, away from beams.
    """

    corners: tuple[Point, ...]
    walls: tuple[Wall, ...]
    ceiling: int
    doors: tuple[Door, ...] = ()
    windows: tuple[Window, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    slopes: tuple[Slope, ...] = ()
    beams: tuple[Beam, ...] = ()
    dormers: tuple[Dormer, ...] = ()

    @property
    def is_level(self) -> bool:
        """Whether the ceiling is as high everywhere."""
        return not (self.slopes or self.beams or self.open_stairs)

    @property
    def open_stairs(self) -> tuple[Fixture, ...]:
        """The stairs with room below them."""
        return tuple(f for f in self.fixtures if f.underside)

    def meeting(self, corner: int) -> tuple[Wall, Wall]:
        """The two walls of a corner of the outline, the left one first as seen from inside."""
        return self.walls[corner - 1], self.walls[corner]

    def across(self, corner: int) -> Wall | None:
        """A line through a corner at 45 degrees to its two walls, for what stands across it.

        As a wall that would cut the corner off faces: ``start`` is the corner itself. None
        unless two straight walls meet there at a right angle that opens into the room.

        >>> square = ((0, 0), (0, 3000), (4000, 3000), (4000, 0))
        >>> walls = tuple(Wall("ABCD"[i], square[i], square[(i + 1) % 4]) for i in range(4))
        >>> Room(square, walls, 2400).across(0).inward
        (0.7071067811865475, 0.7071067811865475)
        """
        if not 0 <= corner < len(self.walls):
            return None
        left, right = self.meeting(corner)
        if left.facing is None or right.facing is None or right.along != left.inward:
            return None
        (x, y), (ax, ay), (bx, by) = right.start, left.along, right.along
        end = x + round(1000 * (ax + bx)), y + round(1000 * (ay + by))
        return Wall(f"{left.name}/{right.name}", right.start, end)

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
    def hung(self) -> tuple[Fixture, ...]:
        """The fixtures that hang from the ceiling."""
        return tuple(f for f in self.fixtures if f.hangs)

    @property
    def all_doors(self) -> tuple[Door, ...]:
        """The doors, and the French windows as the doors they are."""
        return (*self.doors, *(w.french for w in self.windows if w.french is not None))

    def with_doors(self, made: Callable[[Door], Door]) -> Room:
        """The same room with each of all doors as ``made`` makes it."""
        windows = tuple(
            w if w.french is None else replace(w, french=made(w.french)) for w in self.windows
        )
        return replace(self, doors=tuple(made(d) for d in self.doors), windows=windows)

    @property
    def main_door(self) -> Door | None:
        """The door people come in by: the one marked, else the first."""
        return next((d for d in self.doors if d.main), self.doors[0] if self.doors else None)


@dataclass(frozen=True, slots=True)
class Taped:
    """One measured length: as it was ``given`` and as it was ``taken`` for the plan."""

    name: str
    given: int
    taken: int


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measured length that the others contradict.

    ``likely`` is what the others make of it. ``misread`` is the number that may have been
    meant (3.24 for 3.42), 0 if none is like it. ``left_out`` says that the plan was drawn
    without this length, since the others are enough.
    """

    name: str
    given: int
    likely: int
    misread: int = 0
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class TwoReadings:
    """A room drawn out of square that may as well be square with one length wrong.

    ``misread`` are the lengths each of which alone would explain it; without any it would
    take several. A length taped between the corners of each pair in ``measure``, by the names
    of the walls that begin there, tells which.
    """

    misread: tuple[Doubt, ...]
    measure: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Survey:
    """A room measured with more lengths than it takes, adjusted.

    ``perimeter`` is the sum of the walls as given and ``short`` by how much the walk round
    them misses its beginning, None where the last wall was left out and may run anywhere.
    ``error`` is how far a corner may be off, 95 % of the time. ``askew`` are corners that are
    not square, each with its angle in tenths of a degree as seen from inside. Without checks
    (diagonals and the like) ``checks`` is 0. ``readings`` is there where the room may be
    another than the one drawn.
    """

    perimeter: int
    short: int | None
    lengths: tuple[Taped, ...]
    doubts: tuple[Doubt, ...] = ()
    askew: tuple[tuple[str, int], ...] = ()
    checks: int = 0
    error: int = 0
    readings: TwoReadings | None = None

    @property
    def most(self) -> int:
        """The most by which a length that was used is changed."""
        out = {doubt.name for doubt in self.doubts if doubt.left_out}
        return max((abs(t.taken - t.given) for t in self.lengths if t.name not in out), default=0)
