"""Where someone can walk, and what the walkway must reach: exact answers. Lengths in mm.

A path of width w is a disc of that diameter moved over free floor. The free
floor is eroded by half the width; what stays connected to a door is where the
middle of the disc can go.

A place (the clearance of a piece, a door's floor, the floor at a window) is
*reached* when someone on such a path can step into it: within a step of the
place, the path goes on as wide as the place itself, if that is narrower.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from typing import Any, TypeVar

from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import Clearance, Piece
from arrange.data.room import Door, Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import door_floor, fixture_shape, room_shape, shares_floor, wall_strip

# Half a mm is forgiven on each side, so that a path as wide as its gap exists;
# arcs are drawn with 16 chords a quarter, which is good to 0.2 mm at 30 cm.
FORGIVEN = 0.5
CHORDS = 16
REMEMBERED = 5000  # shapes kept at a time
# A step into a place starts with the middle of the path at most this many path
# widths away from it: enough to turn in from a path that runs past its corner.
STEP_AWAY = 0.75

Found = TypeVar("Found")


@dataclass(frozen=True)
class Goal:
    """Something that must be reached: any one of its ``zones`` will do.

    ``narrow`` is the narrower side of the place in mm: the path goes on into it as
    wide as that, or as the walkway if that is less. ``clearance`` names the
    clearance of the piece ``name``; empty for openings.
    """

    name: str
    purpose: str
    zones: tuple[Polygon, ...]
    narrow: int
    clearance: str = ""


class Floor:
    """A room without its pieces, prepared for walks of one width."""

    def __init__(
        self,
        room: Polygon,
        fixed: Sequence[BaseGeometry],
        width: int,
        doors: Sequence[Polygon],
    ) -> None:
        self.width = width
        self.doors = doors
        self.room = room.difference(union_all(list(fixed))) if fixed else room
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

    def ways_in(
        self, zone: Polygon, pass_width: int, bodies: Sequence[Polygon]
    ) -> list[BaseGeometry]:
        """Where it can be round about as well, among bodies, without leaving; remembered."""
        reach = STEP_AWAY * self.width + pass_width / 2
        near = self.remembered(("near", zone, reach), partial(zone.buffer, reach, quad_segs=4))
        taken = tuple(b for b in bodies if b.intersects(near))

        def made() -> list[BaseGeometry]:
            floor = self.room.intersection(near).difference(union_all(taken)).union(zone)
            around = floor.buffer(-(pass_width / 2 - FORGIVEN), quad_segs=CHORDS)
            inner = self.inside(zone, pass_width)
            return [p for p in polygons(around) if p.intersects(inner)]

        return self.remembered(("ways in", zone, pass_width, taken), made)


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
        return [
            m
            for m in self.middles
            if self._steps_into(m, self.empty.doors[0], round(short_side(self.empty.doors[0])))
        ]

    def reaches(self, goal: Goal) -> bool:
        """Whether one zone of the goal can be stepped into from the first door."""
        return any(self._steps_into(m, z, goal.narrow) for z in goal.zones for m in self.from_door)

    def region(self) -> BaseGeometry:
        """All floor that the path from the first door sweeps over."""
        r = self.empty.radius
        return union_all([m.buffer(r, quad_segs=CHORDS) for m in self.from_door])

    def _steps_into(self, middle: BaseGeometry, zone: Polygon, narrow: int) -> bool:
        if middle.distance(zone) > STEP_AWAY * self.empty.width:
            return False
        pass_width = min(self.empty.width, narrow)
        if middle.intersects(self.empty.inside(zone, pass_width)):
            return True
        ways = self.empty.ways_in(zone, pass_width, self.bodies)
        return any(way.intersects(middle) for way in ways)


def polygons(shape: BaseGeometry) -> list[BaseGeometry]:
    """The parts of a shape that have area."""
    return [p for p in getattr(shape, "geoms", [shape]) if p.area > 0]


def short_side(zone: Polygon) -> float:
    """The shorter side of a rectangle at any angle."""
    (ax, ay), (bx, by), (cx, cy) = list(zone.exterior.coords)[:3]
    return min(math.hypot(bx - ax, by - ay), math.hypot(cx - bx, cy - by))


WINDOW_DEPTH = 450  # mm of floor at a window that must open; common practice, no source


def empty_floor(scenario: Scenario, width: int | None = None) -> Floor:
    """The empty room, prepared for walks at the walkway's width unless told another."""
    doors = list(scenario.room.doors)
    main = scenario.room.main_door
    doors.sort(key=lambda d: d is not main)
    floors = [door_floor(scenario.room, d, scenario.walkway) for d in doors]
    fixed = [fixture_shape(f) for f in scenario.room.obstructions if f.bottom < HEAD]
    return Floor(room_shape(scenario.room), fixed, width or scenario.walkway, floors)


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
                found.append(Goal(placed.name, c.purpose, zones, narrow, c.name))
    scenario = scene.scenario
    bodies = [p.body for p in scene.standing]
    for opening in openings_to_reach(scenario):
        zones = opening_zones(scenario, opening, bodies)
        purpose = "to go through" if isinstance(opening, Door) else "to open it"
        narrow = opening_width(scenario, opening)
        found.append(Goal(opening.name, purpose, zones, narrow))
    return found


def must_reach(clearance: Clearance) -> bool:
    """Whether a walkway must reach a clearance."""
    return clearance.walk and clearance.least > 0


def clearance_width(piece: Piece, clearance: Clearance) -> int:
    """The narrower side of the strip of least depth (the narrowest of several sides)."""
    lengths = [
        (piece.width if side in ("front", "back") else piece.depth)
        - clearance.skip_start
        - clearance.skip_end
        for side in clearance.sides
    ]
    return min(clearance.least, *lengths)


def opening_width(scenario: Scenario, opening: Door | Window) -> int:
    """The narrower side of the floor asked for at a door or window."""
    if isinstance(opening, Door):
        return min(opening.width, scenario.walkway)
    return min(WINDOW_DEPTH, window_need(opening, scenario.walkway))


def openings_to_reach(scenario: Scenario) -> list[Door | Window]:
    """Every door but the main one, and the windows that must open or let people out."""
    room = scenario.room
    windows = [w for w in room.windows if w.must_open or w.escape]
    return [*(d for d in room.doors if d is not room.main_door), *windows]


def window_need(window: Window, walkway: int) -> int:
    """The width of free floor asked for at a window that must open."""
    return min(window.width, walkway)


def opening_zones(
    scenario: Scenario, opening: Door | Window, bodies: Sequence[Polygon]
) -> tuple[Polygon, ...]:
    """A door's floor; or every stretch along a window that no body takes.

    A radiator under the window does not count: people reach over it.
    """
    room = scenario.room
    if isinstance(opening, Door):
        return (door_floor(room, opening, scenario.walkway),)
    wall = room.walls[opening.wall]
    need = window_need(opening, scenario.walkway)
    strip = wall_strip(wall, opening.offset, opening.width, WINDOW_DEPTH)
    blocked: list[tuple[float, float]] = []
    for body in bodies:
        if shares_floor(strip, body):
            part = strip.intersection(body)
            along = [wall.coordinate(x, y) for x, y in part.exterior.coords]
            blocked.append((min(along), max(along)))
    end = float(opening.offset + opening.width)
    zones: list[Polygon] = []
    at = float(opening.offset)
    for low, high in [*sorted(blocked), (end, end)]:
        if low - at >= need - 1e-3:
            zones.append(wall_strip(wall, at, low - at, WINDOW_DEPTH))
        at = max(at, high)
    return tuple(zones)
