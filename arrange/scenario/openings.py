"""Reads what the walls hold: ``[[door]]``, ``[[window]]`` and ``[[fixture]]``. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal, TypedDict

from shapely.geometry import Polygon

from arrange.data.lengths import length, listed, measured
from arrange.data.piece import STANDING
from arrange.data.room import BOXED, FAN, OPENS, PENDANT, Door, Fixture, Point, Room, Window
from arrange.geometry.ceilings import lowest_over
from arrange.geometry.shapes import wall_strip
from arrange.geometry.walking import WINDOW_DEPTH
from arrange.scenario.faults import BREAST, shown
from arrange.scenario.table import LONGEST_MM, Table
from arrange.scenario.walls import Walls

DOOR_WIDTHS = (300, 5000)
DOOR_HEIGHT = 2000
DOOR_HEIGHTS = (1500, 4000)
WINDOW_WIDTHS = (200, 10_000)
SILL, HEAD = 900, 2100
STEP = 200  # mm; over a higher sill nobody walks out. Common practice, no source
TWO_LEAVES = 1000  # mm; a French window as wide as that has two. Common practice, no source
CURTAINS = 600  # mm on each side that curtains may take
SLOPING = "under a low ceiling"
FRENCH_OPENS = tuple(way for way in OPENS if way != "passage")
HINGES: tuple[Literal["left", "right"], ...] = ("left", "right")


def default_name(word: str, index: int, tables: list[Table]) -> str:
    """What the thing is called if the person gave no name; ``index`` counts from 1."""
    return word if len(tables) == 1 else f"{word} {index}"


def read_doors(top: Table, walls: Walls | None, ceiling: int) -> tuple[Door, ...]:
    """Every door that could be read; the others are faults."""
    tables = top.tables("door")
    if top.raw("door") in (None, []):
        hint = "give each door its wall, from_left and width; an open passage counts as a door"
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
    height = table.mm("height", DOOR_HEIGHT, *DOOR_HEIGHTS)
    main = table.flag("main")
    leaves, stable = table.whole("leaves", 1, 1, 2), table.flag("stable")
    place = _place(table, walls, offset, width)
    if place is None or width is None:
        return None
    door = Door(name, place[0], place[1], width, opens, hinge, height, main, leaves, stable)
    _check_leaves(table, door, walls)
    return door


def _check_leaves(table: Table, door: Door, walls: Walls | None) -> None:
    """What is said of leaves that are not there, or have nowhere to go."""
    said = [key for key in ("leaves", "hinge", "stable") if table.has(key)]
    if door.opens == "passage" and said:
        given = 'opens = "passage" is given as well'
        table.fault(said[0], given, f"a passage has no leaf; leave {listed(said)} out")
    elif door.leaves == 2 and "hinge" in said:
        table.fault("hinge", "leaves = 2 is given as well", "one leaf goes to each side")
    if door.stable and door.opens not in ("in", "out", "passage"):
        given = f'opens = "{door.opens}" is given as well'
        table.fault("stable", given, 'a stable door opens "in" or "out"')
    if door.opens != "sliding on the wall" or walls is None:
        return
    wall = walls.walls[door.wall]
    spare = {"left": door.offset, "right": int(wall.length - door.offset - door.width)}
    for side in door.sides:
        if spare[side] < door.leaf:
            there = f"{length(spare[side], table.unit)} of wall {wall.name} at its {side}"
            needed = f"its leaf needs {length(door.leaf, table.unit)} to slide on"
            hint = 'a door that goes into the wall, or hangs on its other side, is "sliding"'
            table.fault("opens", there, needed, hint)


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
    width = table.needed_mm("width", *WINDOW_WIDTHS)
    offset = table.needed_mm("from_left", 0)
    french = table.flag("french")
    sill = table.mm("sill", 0 if french else SILL, 0, STEP if french else 4000)
    head = table.mm("head", max(min(HEAD, ceiling), sill + 300), 1, 8000)
    if head <= sill:
        given = f"{length(head, table.unit)} is not above the sill at {length(sill, table.unit)}"
        table.fault("head", given, "the head is the window's top, measured from the floor")
    elif head > ceiling:
        _too_high(table, "head", head, ceiling)
    must_open, escape = table.flag("must_open"), table.flag("escape")
    tilts, curtains = table.flag("tilts"), table.mm("curtains", 0, 0, CURTAINS)
    said = [key for key in ("opens", "hinge", "leaves") if table.has(key)]
    if said and not french:
        hint = "tilts = true is for a window that comes into the room at its top"
        table.fault(said[0], "french = true is not given", "only a French window has it", hint)
    hung = _french(table, name, width or 0) if french else None
    if french and tilts:
        table.fault("tilts", "french = true is given as well", "a French window is a door")
    place = _place(table, walls, offset, width)
    if place is None or width is None:
        return None
    if hung is not None:
        hung = replace(hung, wall=place[0], offset=place[1], width=width)
        _check_leaves(table, hung, walls)
    must_open = (must_open or tilts) and not french
    there = (name, place[0], place[1], width, sill, head)
    return Window(*there, must_open, escape, hung, tilts, curtains)


def _french(table: Table, name: str, width: int) -> Door:
    """A French window as a door, with two leaves if it is wide; not yet on its wall."""
    opens = table.choice("opens", FRENCH_OPENS, "in")
    hinge = table.choice("hinge", HINGES, "left")
    leaves = table.whole("leaves", 2 if width >= TWO_LEAVES else 1, 1, 2)
    return Door(name, 0, 0, 0, opens, hinge, leaves=leaves)


def _place(
    table: Table, walls: Walls | None, offset: int | None, width: int | None
) -> tuple[int, int] | None:
    place = None
    if walls is not None and offset is not None and width is not None:
        place = walls.place(table, offset, width)
    elif (name := table.text("wall")) and walls is not None and walls.find(name) is None:
        walls.unknown(table, name)
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
    """Note every door that meets a low ceiling, and windows it keeps people from reaching."""
    for door in room.all_doors:
        low = lowest_over(room, _before(room, door, door.reach if door.opens_in else 1))
        if low < door.height:
            key = "door" if door in room.doors else "window"
            given = f"{door.name} is {length(door.height, top.unit)} high"
            allowed = f"over it and its leaf the ceiling comes down to {measured(low, top.unit)}"
            top.fault(key, given, allowed, "check its wall, its place and the way it opens")
    for window in room.windows:
        before = _before(room, window, WINDOW_DEPTH)
        reached = window.must_open or window.escape
        if reached and lowest_over(room, before, walking=True) < STANDING:
            given = f"{window.name} is to be reached {SLOPING}"
            allowed = "leave out must_open and escape: a window in a slope cannot be judged"
            top.fault("window", given, allowed)


def _before(room: Room, opening: Door | Window, depth: int) -> Polygon:
    """The floor before an opening, so deep."""
    return wall_strip(room.walls[opening.wall], opening.offset, opening.width, depth)


def _heights(opening: Door | Window) -> tuple[int, int]:
    if isinstance(opening, Door):
        return 0, opening.height
    return opening.sill, opening.head


FAR = 10**7  # farther than any coordinate


@dataclass(frozen=True, slots=True)
class FixtureKind:
    """Usual values of one kind of fixture.

    ``top`` 0 means up to the ceiling; a ``bottom`` below 0 so much below it.
    """

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
    "closet": FixtureKind(1200, 600, keep=600, source="cupboard-front"),
    "stairs": FixtureKind(900, 2500, keep=914, source="stair-us-landing"),
    BOXED: FixtureKind(2000, 900, top=1000),
    "hatch": FixtureKind(700, 700, 0, 20, solid=False),
    "column": FixtureKind(300, 300),
    "boxed pipe": FixtureKind(250, 250),
    # As low as over a table of 740 mm (`pendant-table`); a fan on a short rod, common practice.
    PENDANT: FixtureKind(400, 400, 1500),
    FAN: FixtureKind(1200, 1200, -300),
    "socket": FixtureKind(80, 0, 250, 350, solid=False),
    "light switch": FixtureKind(80, 0, 1000, 1150, solid=False),
    "light point": FixtureKind(80, 0, 1800, 1900, solid=False),
}


CLOSET_LEAF = 600  # mm; a closet has a leaf for each, begun or whole. Common practice
CLOSET_DOORS: tuple[Literal["hinged", "folding", "sliding"], ...] = ("hinged", "folding", "sliding")
STEPS: tuple[Literal["front", "left", "right"], ...] = ("front", "left", "right")
LOW_ENDS: tuple[Literal["left", "right", "front", "back"], ...] = ("left", "right", "front", "back")
UNDERSIDES = (300, 8000)
ON_WALL = ("closet", "stairs", BOXED)
OF_KIND = {
    "doors": "closet",
    "leaves": "closet",
    "steps": "stairs",
    "guarded": "stairs",
    "underside": "stairs",
    "low_height": BOXED,
    "low_end": BOXED,
    "seat_before": "radiator",
}


class BuiltIn(TypedDict, total=False):
    """What only a closet, stairs or a radiator has, as fields of a Fixture."""

    doors: Literal["hinged", "folding", "sliding"]
    leaves: int
    steps: Literal["front", "left", "right"]
    guarded: bool
    underside: int
    low_top: int
    low_end: Literal["left", "right", "front", "back"]
    seat_before: bool


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
        _no_such_kind(table, kind)
        return None
    width = table.mm("width", usual.width, 10)
    # A fan is as deep as it is wide: its sweep.
    depth = width if kind == FAN else table.mm("depth", usual.depth, 0, 5000)
    usually = usual.bottom if usual.bottom >= 0 else max(0, ceiling + usual.bottom)
    bottom = table.mm("bottom", usually, 0, 5000)
    below = usually if usual.top else bottom
    height = table.mm("height", max(1, (usual.top or ceiling) - below), 1, 8000)
    built = _as_built(table, kind, width)
    keep = table.mm("keep_free", max(usual.keep, _leaf_depth(built, width)), 0, 3000)
    source = "yours" if table.has("keep_free") else usual.source
    if bottom + height > ceiling:
        shown, limit = length(bottom + height, table.unit), length(ceiling, table.unit)
        table.fault("height", f"its top is {shown} above the floor", f"the ceiling is at {limit}")
    hook = kind in (PENDANT, FAN)
    spot = _hung(table, walls, kind, width, depth) if hook else _spot(table, walls, width, depth)
    table.finish()
    if spot is None:
        return None
    corners, wall, offset = spot
    if kind in ON_WALL and wall is None:
        table.fault(
            "at" if table.has("at") else "off_wall",
            "it stands off the wall",
            "a closet and stairs have a wall at the back",
        )
    if usual.burns and not depth and wall is None:
        table.fault("depth", "0 given", "only what is set into its wall has none")
    _check_slope(table, built, bottom + height, walls, wall)
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
        solid=usual.solid and not built.get("underside"),
        burns=usual.burns,
        source=source,
        **built,
    )


def _no_such_kind(table: Table, kind: str) -> None:
    """Note it, unless it is noted elsewhere."""
    known = [*FIXTURES, BREAST]
    if kind and kind != BREAST:
        table.faults.unknown(table.at("kind"), kind, known, "the fixture kind")
    elif not table.has("kind"):
        table.fault("kind", "no kind given", f"known: {', '.join(known)}")


def _as_built(table: Table, kind: str, width: int) -> BuiltIn:
    """What only one kind of fixture has; a fault for what another kind has."""
    built: BuiltIn = {}
    for key, only in OF_KIND.items():
        if table.has(key) and kind != only:
            table.fault(key, f'kind = "{kind}" is given', f"only a {only} has it")
    if kind == "closet":
        built["doors"] = table.choice("doors", CLOSET_DOORS, "hinged")
        built["leaves"] = table.whole("leaves", -(-width // CLOSET_LEAF), 1, 12)
    elif kind == "stairs":
        built["steps"] = table.choice("steps", STEPS, "front")
        built["guarded"] = not table.has("guarded") or table.flag("guarded")
        built["underside"] = table.mm("underside", 0, *UNDERSIDES)
    elif kind == BOXED:
        built["low_top"] = table.mm("low_height", 0, 1, UNDERSIDES[1])
        built["low_end"] = table.choice("low_end", LOW_ENDS, "left")
    elif kind == "radiator":
        built["seat_before"] = table.flag("seat_before")
    return built


def _check_slope(
    table: Table, built: BuiltIn, top: int, walls: Walls | None, wall: int | None
) -> None:
    """Boxed stairs are lower at their low end; open ones are at a straight wall."""
    if built.get("low_top", 0) >= top:
        given = f"{length(built['low_top'], table.unit)} given"
        table.fault("low_height", given, f"it is {length(top, table.unit)} high at the other end")
    said = [key for key in ("low_height", "low_end") if table.has(key)]
    if said == ["low_end"]:
        table.fault("low_height", "not given", "low_end says at which end it is that high")
    if built.get("underside") and walls and wall is not None and not walls.walls[wall].facing:
        given = f"wall {walls.walls[wall].name} given"
        table.fault("underside", given, "open stairs are at a wall straight across or up the plan")


def _leaf_depth(built: BuiltIn, width: int) -> int:
    """How far the leaves of a closet come out as they open, in mm; half as far if they fold."""
    leaf = -(-width // built["leaves"]) if built.get("leaves") else 0
    return {"hinged": leaf, "folding": -(-leaf // 2)}.get(built.get("doors", ""), 0)


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


def _hung(
    table: Table, walls: Walls | None, kind: str, width: int, depth: int
) -> tuple[tuple[Point, ...], None, int] | None:
    """What hangs about its hook: a lamp as a rectangle, a fan as eight sides round its sweep."""
    if table.raw("at") is not None:
        found = _free_spot(table, table.raw("at"), 0, 0)
        middle = found[0][0] if found else None
    else:
        along, off = table.needed_mm("from_left", 0), table.needed_mm("off_wall", 0)
        place = walls.place(table, along, 0) if walls and along is not None else None
        table.text("wall")
        middle = None
        if walls and place and off is not None:
            x, y = walls.walls[place[0]].point(place[1], off)
            middle = round(x), round(y)
    if middle is None:
        return None
    x0, y0 = middle[0] - width // 2, middle[1] - depth // 2
    x1, y1 = x0 + width, y0 + depth
    cut = int(width / (2 + math.sqrt(2))) if kind == FAN else 0
    ring = [
        (x0, y0 + cut), (x0, y1 - cut), (x0 + cut, y1), (x1 - cut, y1),
        (x1, y1 - cut), (x1, y0 + cut), (x1 - cut, y0), (x0 + cut, y0),
    ]  # fmt: skip
    return tuple(dict.fromkeys(ring)), None, 0


def _free_spot(
    table: Table, at: object, width: int, depth: int
) -> tuple[tuple[Point, ...], None, int] | None:
    if not isinstance(at, list) or len(at) != 2:
        wanted = "its lower left corner [x, y] on the plan is needed"
        table.fault("at", f"{shown(at)} given", wanted)
        return None
    x, y = (table.as_mm(v, "at", FAR, -LONGEST_MM, LONGEST_MM) for v in at)
    if FAR in (x, y):
        return None
    corners = ((x, y), (x, y + depth), (x + width, y + depth), (x + width, y))
    # A ceiling light has no body on the floor, only a point.
    return (corners if depth else ((x, y),)), None, 0
