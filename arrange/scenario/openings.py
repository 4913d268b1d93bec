"""Reads what the walls hold: ``[[door]]``, ``[[window]]`` and ``[[fixture]]``. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from arrange.data.lengths import length, measured
from arrange.data.piece import STANDING
from arrange.data.room import Door, Fixture, Point, Room, Window
from arrange.geometry.shapes import ceiling_over, wall_strip
from arrange.geometry.walking import WINDOW_DEPTH
from arrange.scenario.faults import shown
from arrange.scenario.room import BREAST, Walls
from arrange.scenario.table import Table

DOOR_WIDTHS = (300, 5000)
DOOR_HEIGHT = 2000
SILL, HEAD = 900, 2100
OPENS: tuple[Literal["in", "out", "sliding"], ...] = ("in", "out", "sliding")
HINGES: tuple[Literal["left", "right"], ...] = ("left", "right")


def default_name(word: str, index: int, tables: list[Table]) -> str:
    """What the thing is called if the person gave no name; ``index`` counts from 1."""
    return word if len(tables) == 1 else f"{word} {index}"


def read_doors(top: Table, walls: Walls | None, ceiling: int) -> tuple[Door, ...]:
    """Every door that could be read; the others are faults."""
    tables = top.tables("door")
    if top.raw("door") in (None, []):
        hint = "give each door its wall, from_left and width; an open passage is a door as well"
        top.fault("door", "no door given", "at least one [[door]] is needed", hint)
    found = [_door(t, default_name("door", i, tables), walls) for i, t in enumerate(tables, 1)]
    doors = tuple(d for d in found if d is not None)
    for table, door in zip(tables, found, strict=True):
        if door and door.height > ceiling:
            _too_high(table, "height", door.height, ceiling)
    if sum(d.main for d in doors) > 1:
        names = ", ".join(d.name for d in doors if d.main)
        top.fault("door", f"more than one main door ({names})", "one door is the main one")
    return doors


def _door(table: Table, name: str, walls: Walls | None) -> Door | None:
    name = table.text("name", name)
    width = table.needed_mm("width", *DOOR_WIDTHS)
    offset = table.needed_mm("from_left", 0)
    opens = table.choice("opens", OPENS, "in")
    hinge = table.choice("hinge", HINGES, "left")
    height = table.mm("height", DOOR_HEIGHT, 1500, 4000)
    main = table.flag("main")
    place = _place(table, walls, offset, width)
    if place is None or width is None:
        return None
    return Door(name, place[0], place[1], width, opens, hinge, height, main)


def read_windows(top: Table, walls: Walls | None, ceiling: int) -> tuple[Window, ...]:
    """Every window that could be read; the others are faults."""
    tables = top.tables("window")
    found = [
        _window(t, default_name("window", i, tables), walls, ceiling)
        for i, t in enumerate(tables, 1)
    ]
    return tuple(w for w in found if w is not None)


def _window(table: Table, name: str, walls: Walls | None, ceiling: int) -> Window | None:
    name = table.text("name", name)
    width = table.needed_mm("width", 200, 10_000)
    offset = table.needed_mm("from_left", 0)
    sill = table.mm("sill", SILL, 0, 4000)
    head = table.mm("head", max(min(HEAD, ceiling), sill + 300), 1, 8000)
    if head <= sill:
        given = f"{length(head, table.unit)} is not above the sill at {length(sill, table.unit)}"
        table.fault("head", given, "the head is the window's top, measured from the floor")
    elif head > ceiling:
        _too_high(table, "head", head, ceiling)
    must_open, escape = table.flag("must_open"), table.flag("escape")
    place = _place(table, walls, offset, width)
    if place is None or width is None:
        return None
    return Window(name, place[0], place[1], width, sill, head, must_open, escape)


def _place(
    table: Table, walls: Walls | None, offset: int | None, width: int | None
) -> tuple[int, int] | None:
    place = None
    if walls is not None and offset is not None and width is not None:
        place = walls.place(table, offset, width)
    else:
        table.text("wall")
    table.finish()
    return place


def _too_high(table: Table, key: str, height: int, ceiling: int) -> None:
    shown, top = length(height, table.unit), length(ceiling, table.unit)
    table.fault(key, f"{shown} above the floor", f"the ceiling is at {top}")


def check_overlaps(top: Table, doors: tuple[Door, ...], windows: tuple[Window, ...]) -> None:
    """Note every two openings that share a piece of wall; touching is allowed."""
    openings: tuple[Door | Window, ...] = (*doors, *windows)
    for a, b in combinations(openings, 2):
        aside = a.offset + a.width <= b.offset or b.offset + b.width <= a.offset
        (a_low, a_high), (b_low, b_high) = _heights(a), _heights(b)
        if a.wall == b.wall and not aside and a_low < b_high and b_low < a_high:
            key = "door" if isinstance(a, Door) else "window"
            given = f'"{a.name}" and "{b.name}" overlap'
            hint = "check from_left and width of both"
            top.fault(key, given, "two openings cannot share a piece of wall", hint)


def check_under_slopes(top: Table, room: Room) -> None:
    """Note every door that meets a sloping ceiling, and windows it keeps people from reaching."""
    for door in room.doors:
        depth = door.width if door.opens == "in" else 1
        low = _lowest(room, door, depth)
        if low < door.height:
            given = f"{door.name} is {length(door.height, top.unit)} high"
            allowed = f"over it and its leaf the ceiling comes down to {measured(low, top.unit)}"
            top.fault("door", given, allowed, "check its wall, its place and the way it opens")
    for window in room.windows:
        if (window.must_open or window.escape) and _lowest(room, window, WINDOW_DEPTH) < STANDING:
            given = f"{window.name} is to be reached under a sloping ceiling"
            allowed = "leave out must_open and escape: a window in a slope cannot be judged yet"
            top.fault("window", given, allowed)


def _lowest(room: Room, opening: Door | Window, depth: int) -> int:
    """The height of the ceiling where it is lowest before an opening."""
    strip = wall_strip(room.walls[opening.wall], opening.offset, opening.width, depth)
    return int(min(ceiling_over(room, x, y) for x, y in strip.exterior.coords) + 1e-6)


def _heights(opening: Door | Window) -> tuple[int, int]:
    if isinstance(opening, Door):
        return 0, opening.height
    return opening.sill, opening.head


FAR = 10**7  # farther than any coordinate


@dataclass(frozen=True, slots=True)
class FixtureKind:
    """Usual values of one kind of fixture; ``top`` 0 means up to the ceiling."""

    width: int
    depth: int
    bottom: int = 0
    top: int = 0
    keep: int = 0
    keep_below: int = 2000
    solid: bool = True
    burns: bool = False
    source: str = ""


# Sizes are common practice; what is kept free has its source beside it.
FIXTURES: dict[str, FixtureKind] = {
    "radiator": FixtureKind(1000, 100, 150, 750, 100, 900, source="radiator-gap"),
    "heater": FixtureKind(600, 150, 0, 700, 914, burns=True, source="heater-gap"),
    "stove": FixtureKind(500, 500, 0, 1200, 914, burns=True, source="heater-gap"),
    "fireplace": FixtureKind(1000, 300, 0, 1100, 914, burns=True, source="heater-gap"),
    "built-in cupboard": FixtureKind(1000, 600, keep=600, source="cupboard-front"),
    "column": FixtureKind(300, 300),
    "boxed pipe": FixtureKind(250, 250),
    "socket": FixtureKind(80, 0, 250, 350, solid=False),
    "light switch": FixtureKind(80, 0, 1000, 1150, solid=False),
    "light point": FixtureKind(80, 0, 1800, 1900, solid=False),
}


def read_fixtures(
    top: Table, tables: list[Table], walls: Walls | None, ceiling: int
) -> tuple[Fixture, ...]:
    """Every fixture that could be read; chimney breasts are already part of the walls."""
    kinds = [str(t.raw("kind")).strip().casefold() for t in tables]
    found = []
    for i, table in enumerate(tables):
        alike = [t for t, kind in zip(tables, kinds, strict=True) if kind == kinds[i]]
        name = default_name(kinds[i], kinds[: i + 1].count(kinds[i]), alike)
        found.append(_fixture(table, name, walls, ceiling))
    _ = top.has("fixture")
    return tuple(f for f in found if f is not None)


def _fixture(table: Table, name: str, walls: Walls | None, ceiling: int) -> Fixture | None:
    kind = table.text("kind").casefold()
    name = table.text("name", name)
    usual = FIXTURES.get(kind)
    if usual is None:
        if kind == BREAST or (not kind and table.has("kind")):  # noted elsewhere
            return None
        if not kind:
            table.fault("kind", "no kind given", f"known: {', '.join([*FIXTURES, BREAST])}")
        else:
            known = [*FIXTURES, BREAST]
            table.faults.unknown(table.at("kind"), kind, known, "the fixture kind")
        return None
    width = table.mm("width", usual.width, 10)
    depth = table.mm("depth", usual.depth, 0, 5000)
    bottom = table.mm("bottom", usual.bottom, 0, 5000)
    height = table.mm("height", (usual.top or ceiling) - usual.bottom, 1, 8000)
    keep = table.mm("keep_free", usual.keep, 0, 3000)
    source = "yours" if table.has("keep_free") else usual.source
    if bottom + height > ceiling:
        shown, limit = length(bottom + height, table.unit), length(ceiling, table.unit)
        table.fault("height", f"its top is {shown} above the floor", f"the ceiling is at {limit}")
    spot = _spot(table, walls, width, depth)
    table.finish()
    if spot is None:
        return None
    corners, wall, offset = spot
    return Fixture(
        name=name,
        kind=kind,
        corners=corners,
        wall=wall,
        offset=offset,
        width=width,
        depth=depth,
        bottom=bottom,
        top=bottom + height,
        keep=keep if wall is not None or usual.burns or table.has("keep_free") else 0,
        keep_below=max(usual.keep_below, bottom + height) if keep else usual.keep_below,
        solid=usual.solid,
        burns=usual.burns,
        source=source,
    )


def _spot(
    table: Table, walls: Walls | None, width: int, depth: int
) -> tuple[tuple[Point, ...], int | None, int] | None:
    """Its corners (clockwise), and its wall and offset if it stands on one."""
    at = table.raw("at")
    if at is not None:
        return _free_spot(table, at, width, depth)
    offset = table.needed_mm("from_left", 0)
    off_wall = table.mm("off_wall", 0, 0)
    if walls is None or offset is None:
        table.text("wall")
        return None
    place = walls.place(table, offset, width)
    if place is None:
        return None
    index, along = place
    wall = walls.walls[index]
    box = [(along, 0), (along, depth), (along + width, depth), (along + width, 0)]
    reach = [wall.point(a, b + off_wall) for a, b in box]
    # Along the wall and back is anticlockwise seen from above; turned round here.
    corners = tuple((round(x), round(y)) for x, y in reversed(reach)) if depth else ()
    return (corners, None, 0) if off_wall else (corners, index, along)


def _free_spot(
    table: Table, at: object, width: int, depth: int
) -> tuple[tuple[Point, ...], None, int] | None:
    if not isinstance(at, list) or len(at) != 2:
        wanted = "its lower left corner [x, y] on the plan is needed"
        table.fault("at", f"{shown(at)} given", wanted)
        return None
    x, y = (table.as_mm(v, "at", FAR, -30_000, 30_000) for v in at)
    if FAR in (x, y):
        return None
    corners = ((x, y), (x, y + depth), (x + width, y + depth), (x + width, y))
    # A ceiling light has no body on the floor, only a point.
    return (corners if depth else ((x, y),)), None, 0
