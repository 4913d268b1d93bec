"""What the walkway must reach in a furnished room. Imports no solver; lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

from arrange.data.piece import Clearance, Piece
from arrange.data.room import Door, Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import door_floor, fixture_shape, room_shape, shares_floor, wall_strip
from arrange.geometry.walking import Floor, Goal, Walk

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
