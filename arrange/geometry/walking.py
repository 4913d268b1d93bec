"""Where someone can walk, and what the walkway must reach: exact answers. Lengths in mm.

A path of width w is a disc of that diameter moved over free floor. The free
floor is eroded by half the width; what stays connected to a door is where the
middle of the disc can go.

A place (the clearance of a piece, a door's floor, the floor at a window) is *reached*
when the disc comes up to it, and someone can go on into it from there on a path as
wide as the place itself, if that is narrower. Up to the place the path keeps its
width: what is narrow on the floor of the room is too narrow, whatever lies behind.
Two things bend this as much as corners need. A disc does not fill a corner, so the
floor up to a corner's diagonal from the disc's middle may be walked on as well; and
the disc is up to a place also where only its corner would touch, were it a square.

Under a sloping ceiling or a low beam nobody walks where nobody can stand up; a narrow beam
that is high enough is ducked under. What can be used bent, or on
one's knees, is reached by one more step, taken stooping under the headroom of who sits.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from typing import Any, TypeVar

import numpy as np
from shapely import get_coordinates, union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import SEATED, STANDING, Clearance, Piece
from arrange.data.room import A_STEP, Door, Fixture, Room, Window
from arrange.data.scenario import Scenario
from arrange.geometry.ceilings import not_walked
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import (
    door_floor,
    fixture_keep,
    fixture_shape,
    room_shape,
    shares_floor,
    strip_span,
    wall_strip,
)

# Half a mm is forgiven on each side, so that a path as wide as its gap exists;
# arcs are drawn with 16 chords a quarter, which is good to 0.2 mm at 30 cm.
FORGIVEN = 0.5
CHORDS = 16
REMEMBERED = 5000  # shapes kept at a time
# From the middle of a square as wide as the path to its corner, in path widths.
DIAGONAL = math.sqrt(0.5)

Found = TypeVar("Found")


@dataclass(frozen=True)
class Goal:
    """Something that must be reached: any one of its ``zones`` will do.

    ``narrow`` is the narrower side of the place in mm: the path goes on into it as
    wide as that, or as the walkway if that is less. ``clearance`` names the
    clearance of the piece ``name``; empty for openings. ``stoop`` is how far off the disc
    may be, in mm, where the rest is gone stooping.
    """

    name: str
    purpose: str
    zones: tuple[Polygon, ...]
    narrow: int
    clearance: str = ""
    stoop: int = 0


class Floor:
    """A room without its pieces, prepared for walks of one width.

    ``fixed`` is where nobody walks in the empty room, ``doors`` the floors of the doors, the main
    one's first, as ``wall_strip`` draws them. ``bent`` is the floor to stoop on too.
    """

    def __init__(
        self,
        room: Polygon,
        fixed: Sequence[BaseGeometry],
        width: int,
        doors: Sequence[Polygon],
        bent: BaseGeometry | None = None,
    ) -> None:
        self.width = width
        self.doors = doors
        self.fixed = tuple(fixed)
        self.room = room.difference(union_all(list(fixed))) if fixed else room
        self.bent = self.room if bent is None else bent
        self.radius = width / 2 - FORGIVEN
        grown = [f.buffer(self.radius, quad_segs=CHORDS) for f in fixed]
        inner = room.buffer(-self.radius, join_style="mitre")
        self.middles = inner.difference(union_all(grown)) if grown else inner
        self._known: dict[Hashable, Any] = {}

    def remembered(self, key: Hashable, make: Callable[[], Found]) -> Found:
        """What ``make`` makes, made once for each key."""
        found: Found | None = self._known.get(key)
        if found is None:
            found = make()
            if len(self._known) > REMEMBERED:
                self._known.clear()  # another thread may be reading: hence no second look
            self._known[key] = found
        return found

    def grow(self, body: Polygon) -> BaseGeometry:
        """A body with half a path's width round it; remembered."""
        make = partial(body.buffer, self.radius, quad_segs=CHORDS)
        return self.remembered(("grown", body), make)

    def inside(self, zone: Polygon, pass_width: int) -> BaseGeometry:
        """Where the middle of a path of that width can be inside a zone; remembered."""
        inset = pass_width / 2 - FORGIVEN
        make = partial(zone.buffer, -inset, join_style="mitre")
        return self.remembered(("inside", zone, pass_width), make)

    def straight_into(self, zone: Polygon, pass_width: int) -> BaseGeometry:
        """From where in a zone that path needs but one straight step to be inside; remembered.

        What of its disc is off the zone grows only smaller on that step, and so keeps within the
        disc as it was. Not so from beside a corner, where it leaves two sides at once.
        """
        inset = pass_width / 2 - FORGIVEN
        make = partial(_without_corners, zone, inset)
        return self.remembered(("straight into", zone, pass_width), make)

    def up_to(self, zone: Polygon, stoop: int = 0) -> BaseGeometry:
        """Where the middle of the disc is when it is up to a zone; remembered."""
        far = self.width / 2 + FORGIVEN + stoop
        make = partial(zone.buffer, far, join_style="mitre")
        return self.remembered(("up to", zone, stoop), make)

    def ways_in(
        self,
        zone: Polygon,
        pass_width: int,
        bodies: Sequence[Polygon],
        middle: BaseGeometry,
        stoop: int = 0,
    ) -> list[BaseGeometry]:
        """Where the middle of a narrower path from the disc's into a zone can be.

        It keeps to the zone, and to floor that the disc sweeps or cannot fill, or that is
        gone stooping.
        """
        reach = DIAGONAL * self.width + 2 * FORGIVEN + stoop
        near = zone.buffer(reach + self.width / 2, join_style="mitre")
        local = middle.intersection(near)
        whole = self.bent if stoop else self.room
        floor = whole.difference(union_all([b for b in bodies if b.intersects(near)]))
        floor = floor.intersection(local.buffer(reach, quad_segs=CHORDS)).union(zone)
        around = floor.buffer(-(pass_width / 2 - FORGIVEN), quad_segs=CHORDS)
        inner = self.inside(zone, pass_width)
        return [p for p in polygons(around) if p.intersects(inner) and p.intersects(local)]


class Walk:
    """Everywhere a path of one width can go among ``bodies`` on a prepared floor."""

    def __init__(self, empty: Floor, bodies: Sequence[Polygon]) -> None:
        self.empty = empty
        self.bodies = bodies

    @cached_property
    def floor(self) -> BaseGeometry:
        """The floor that nothing stands on."""
        return self.empty.room.difference(union_all(list(self.bodies)))

    @cached_property
    def middles(self) -> list[BaseGeometry]:
        """Connected areas where the middle of the path can be."""
        grown = union_all([self.empty.grow(b) for b in self.bodies])
        return polygons(self.empty.middles.difference(grown))

    @cached_property
    def from_door(self) -> list[BaseGeometry]:
        """The areas of ``middles`` that people coming in by the first door can reach."""
        if not self.empty.doors:
            return self.middles
        door = self.empty.doors[0]
        places = door_places(door, self.empty.width, [*self.bodies, *self.empty.fixed])
        narrow = round(short_side(door))
        return [m for m in self.middles if any(self._steps_into(m, z, narrow) for z in places)]

    def reaches(self, goal: Goal) -> bool:
        """Whether one zone of the goal can be stepped into from the first door."""
        places = [(m, z) for z in goal.zones for m in self.from_door]
        return any(self._steps_into(m, z, goal.narrow, goal.stoop) for m, z in places)

    def swept(self) -> list[BaseGeometry]:
        """The floor that the path from the first door sweeps over, by where its middle can be.

        Two of them may overlap where the path turns from one into the other nowhere but in
        the door.
        """
        r = self.empty.radius
        return [m.buffer(r, quad_segs=CHORDS) for m in self.from_door]

    def _steps_into(self, middle: BaseGeometry, zone: Polygon, narrow: int, stoop: int = 0) -> bool:
        """Whether the disc comes up to a zone, and a path as wide as that goes on into it.

        That path needs no looking for where a straight step leads in from the middle.
        """
        if not middle.intersects(self.empty.up_to(zone, stoop)):
            return False
        narrow = min(self.empty.width, narrow)
        if middle.intersects(self.empty.straight_into(zone, narrow)):
            return True
        return bool(self.empty.ways_in(zone, narrow, self.bodies, middle, stoop))


def polygons(shape: BaseGeometry) -> list[BaseGeometry]:
    """The parts of a shape that have area."""
    return [p for p in getattr(shape, "geoms", [shape]) if p.area > 0]


def _without_corners(zone: Polygon, inset: float) -> BaseGeometry:
    """A rectangle at any angle without a square at each corner, ``inset`` wide.

    Nothing of one that is too narrow for that.
    """
    if 2 * inset > short_side(zone):
        return Polygon()
    a, b, c, d = (np.array(corner) for corner in list(zone.exterior.coords)[:4])
    along = (b - a) * (inset / math.dist(a, b))
    across = (d - a) * (inset / math.dist(a, d))
    low = Polygon([a + along, b - along, c - along, d + along])
    wide = Polygon([a + across, b + across, c - across, d - across])
    return low.union(wide)


def short_side(zone: Polygon) -> float:
    """The shorter side of a rectangle at any angle."""
    (ax, ay), (bx, by), (cx, cy) = list(zone.exterior.coords)[:3]
    return min(math.hypot(bx - ax, by - ay), math.hypot(cx - bx, cy - by))


STOOP = A_STEP  # mm that somebody goes stooping: one step; common practice, no source
WINDOW_DEPTH = 450  # mm of floor at a window that must open; common practice, no source
BESIDE = 450  # mm beside such a window from where it is opened as well; the same
OVER = 900  # mm; people reach over what is no higher; the same


def empty_floor(scenario: Scenario, width: int | None = None) -> Floor:
    """The empty room, prepared for walks at the walkway's width unless told another."""
    doors = list(scenario.room.doors)
    main = scenario.room.main_door
    doors.sort(key=lambda d: d is not main)
    floors = [door_floor(scenario.room, d, scenario.walkway) for d in doors]
    room = room_shape(scenario.room)
    fixed, low = (in_the_way(scenario.room, headroom) for headroom in (STANDING, SEATED))
    bent = None if scenario.room.is_level else room.difference(union_all(low))
    return Floor(room, fixed, width or scenario.walkway, floors, bent)


def walk_of(scene: Scene, empty: Floor | None = None) -> Walk:
    """The walk of a furnished room, on a floor prepared before or here."""
    return Walk(empty or empty_floor(scene.scenario), [p.body for p in scene.standing])


def goals(scene: Scene) -> list[Goal]:
    """Everything a walkway must reach: clearances, other doors, windows that must open.

    Nothing if the rule is switched off.
    """
    found: list[Goal] = []
    if not scene.scenario.walks:
        return found
    for placed in scene.placed:
        for c in placed.piece.clearances:
            if must_reach(c):
                sides = scene.free_sides(placed, c, c.least)
                zones = tuple(scene.zone(placed, c, side, c.least) for side in sides)
                narrow = clearance_width(placed.piece, c)
                stoop = stooping(scene.scenario.room, c)
                found.append(Goal(placed.name, c.purpose, zones, narrow, c.name, stoop))
    scenario = scene.scenario
    main = scenario.room.main_door
    standing = [(p.piece, p.body) for p in scene.standing]
    for opening in openings_to_reach(scenario):
        zones = opening_zones(scenario, opening, standing)
        purpose = "to use it" if isinstance(opening, Fixture) else "to open it"
        if isinstance(opening, Door):
            purpose = "to come in by" if opening is main else "to go through"
        narrow = opening_width(scenario, opening)
        found.append(Goal(opening.name, purpose, zones, narrow))
    return found


def must_reach(clearance: Clearance) -> bool:
    """Whether a walkway must reach a clearance."""
    return clearance.walk and clearance.least > 0


def stooping(room: Room, clearance: Clearance) -> int:
    """How far off the way a clearance may be, in mm, where the last step is taken stooping."""
    return 0 if room.is_level or clearance.headroom >= STANDING else STOOP


def clearance_width(piece: Piece, clearance: Clearance) -> int:
    """The narrower side of the strip of least depth (the narrowest of several sides)."""
    skips = clearance.skip_start, clearance.skip_end
    spans = [strip_span(piece, side, *skips) for side in clearance.sides]
    return min(clearance.least, *(end - start for start, end in spans))


Reached = Door | Window | Fixture


def opening_width(scenario: Scenario, opening: Reached) -> int:
    """The narrower side of the floor asked for at a door, window, closet or stairs."""
    if isinstance(opening, Fixture):
        wide = opening.width if opening.steps == "front" else opening.depth
        return min(wide, opening.keep, scenario.walkway)
    if isinstance(opening, Door):
        return min(opening.width, scenario.walkway)
    return min(WINDOW_DEPTH, window_need(opening, scenario.walkway))


def openings_to_reach(scenario: Scenario) -> list[Reached]:
    """Every door but the main one, windows that must open or let people out, closets, stairs.

    French windows are among the doors. The main door too where something may stand on its
    floor: a wide passage, or one with something built in before it. The way may not even
    begin there.
    """
    room = scenario.room
    windows = [w for w in room.windows if w.french is None and (w.must_open or w.escape)]
    doors = [d for d in room.all_doors if d is not room.main_door or _obstructed(scenario, d)]
    return [*doors, *windows, *(f for f in room.fixtures if f.is_walked_to)]


def _obstructed(scenario: Scenario, door: Door) -> bool:
    if door.is_wide:
        return True
    floor = door_floor(scenario.room, door, scenario.walkway)
    return any(shares_floor(floor, body) for body in in_the_way(scenario.room))


def window_need(window: Window, walkway: int) -> int:
    """The width of free floor asked for at a window that must open."""
    return min(window.width, walkway)


def window_span(room: Room, window: Window) -> tuple[int, int]:
    """From where along its wall a window is reached, in mm from the wall's left end.

    A little from beside it too, unless people must get out by it.
    """
    start, end = window.offset, window.offset + window.width
    if window.escape:
        return start, end
    return max(0, start - BESIDE), min(int(room.walls[window.wall].length), end + BESIDE)


def opening_zones(
    scenario: Scenario, opening: Reached, standing: Sequence[tuple[Piece, Polygon]]
) -> tuple[Polygon, ...]:
    """Free floor of a door or fixture, or stretches of it; any stretch along a window.

    A radiator under the window does not count, nor does a low piece unless people must get
    out there: they reach over it, from no farther than the floor asked for is deep.
    """
    room, walkway = scenario.room, scenario.walkway
    if isinstance(opening, Door | Fixture):
        taken = [*(body for _, body in standing), *in_the_way(room)]
        if isinstance(opening, Door):
            floor = door_floor(room, opening, walkway)
        else:
            floor = fixture_keep(room, opening)
        return door_places(floor, walkway, taken)
    start, end = window_span(room, opening)
    strip = wall_strip(room.walls[opening.wall], start, end - start, WINDOW_DEPTH)
    bodies = [body for piece, body in standing if opening.escape or piece.top > OVER]
    return _free_stretches(strip, window_need(opening, walkway), bodies)


def in_the_way(room: Room, headroom: int = STANDING) -> list[Polygon]:
    """Where nobody walks: through or under fixtures, or where the ceiling is lower than that."""
    bodies = [fixture_shape(f) for f in room.obstructions if f.bottom < HEAD]
    return [*bodies, *not_walked(room, headroom)]


def door_places(floor: Polygon, width: int, taken: Sequence[BaseGeometry]) -> tuple[Polygon, ...]:
    """Where people step through a door, given the floor inside it.

    All of that floor if nothing stands on it. Else each stretch of the opening through
    which a path of that ``width``, or as wide as the door, gets past what stands there.
    """
    if not any(shares_floor(floor, body) for body in taken):
        return (floor,)
    corners = list(floor.exterior.coords)[:4]
    need = min(width, round(math.dist(corners[0], corners[1])))
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    part = min(1.0, need / math.dist(corners[1], corners[2]))
    strip = Polygon(
        [
            (ax, ay),
            (bx, by),
            (bx + part * (cx - bx), by + part * (cy - by)),
            (ax + part * (dx - ax), ay + part * (dy - ay)),
        ]
    )
    return _free_stretches(strip, need, taken)


def _free_stretches(
    strip: Polygon, need: int, taken: Sequence[BaseGeometry]
) -> tuple[Polygon, ...]:
    """The parts of a strip along a wall, ``need`` or more wide, that nothing stands on.

    The strip begins at its wall's left end, as ``wall_strip`` draws it.
    """
    (ax, ay), (bx, by), _, (dx, dy) = list(strip.exterior.coords)[:4]
    wide = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / wide, (by - ay) / wide
    blocked: list[tuple[float, float]] = []
    for body in taken:
        if shares_floor(strip, body):
            for part in polygons(strip.intersection(body)):  # an L may come in twice
                along = [(x - ax) * ux + (y - ay) * uy for x, y in get_coordinates(part)]
                blocked.append((min(along), max(along)))
    zones: list[Polygon] = []
    at = 0.0
    for low, high in [*sorted(blocked), (wide, wide)]:
        if low - at >= need - 1e-3:
            left, right = (ax + at * ux, ay + at * uy), (ax + low * ux, ay + low * uy)
            back = [(x + dx - ax, y + dy - ay) for x, y in (right, left)]
            zones.append(Polygon([left, right, *back]))
        at = max(at, high)
    return tuple(zones)
