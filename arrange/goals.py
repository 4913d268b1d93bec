"""What the walkway must reach in a furnished room. Imports no solver; lengths in mm."""

from __future__ import annotations

from shapely import union_all

from arrange.data.room import Window
from arrange.geometry import door_floor, wall_strip
from arrange.scene import HEAD, Scene
from arrange.walking import Goal, Walk

WINDOW_DEPTH = 450  # mm of floor at a window that must open; common practice, no source


def walk_of(scene: Scene, width: int | None = None) -> Walk:
    """The walk of a furnished room, at the scenario's walkway width unless told."""
    scenario = scene.scenario
    doors = list(scenario.room.doors)
    main = scenario.room.main_door
    doors.sort(key=lambda d: d is not main)
    floors = [door_floor(scenario.room, d, scenario.walkway) for d in doors]
    obstacles = [p.body for p in scene.standing]
    obstacles += [s for s, low in scene.solid_fixtures if low < HEAD]
    return Walk(scene.room, obstacles, width or scenario.walkway, floors)


def goals(scene: Scene) -> list[Goal]:
    """Everything a walkway must reach: clearances, other doors, windows that must open."""
    found: list[Goal] = []
    for placed in scene.placed:
        for c in placed.piece.clearances:
            if c.walk and c.least > 0:
                sides = scene.free_sides(placed, c, c.least)
                zones = tuple(scene.zone(placed, c, side, c.least) for side in sides)
                found.append(Goal(placed.name, c.purpose, zones))
    room, main = scene.scenario.room, scene.scenario.room.main_door
    for door in room.doors:
        if door is not main:
            zone = door_floor(room, door, scene.scenario.walkway)
            found.append(Goal(door.name, "to go through", (zone,)))
    for window in room.windows:
        if window.must_open or window.escape:
            found.append(_window_goal(scene, window))
    return found


def window_need(window: Window, walkway: int) -> int:
    """The width of free floor asked for at a window that must open."""
    return min(window.width, walkway)


def _window_goal(scene: Scene, window: Window) -> Goal:
    """Every stretch along the window that is wide enough and free of pieces.

    A radiator under the window does not count: people reach over it.
    """
    room = scene.scenario.room
    wall = room.walls[window.wall]
    taken = [p.body for p in scene.standing]
    need = window_need(window, scene.scenario.walkway)
    start, end = window.offset, window.offset + window.width
    strip = wall_strip(wall, start, window.width, WINDOW_DEPTH)
    cover = union_all([strip.intersection(t) for t in taken])
    blocked = []
    for part in getattr(cover, "geoms", [cover]):
        if part.area > scene.shared_area:
            along = [
                (x - wall.start[0]) * wall.along[0] + (y - wall.start[1]) * wall.along[1]
                for x, y in part.exterior.coords
            ]
            blocked.append((min(along), max(along)))
    zones = []
    at = float(start)
    for low, high in [*sorted(blocked), (float(end), float(end))]:
        if low - at >= need - 1e-3:
            zones.append(wall_strip(wall, at, low - at, WINDOW_DEPTH))
        at = max(at, high)
    return Goal(window.name, "to open it", tuple(zones))
