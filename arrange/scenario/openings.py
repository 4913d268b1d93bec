"""Reads ``[[door]]`` and ``[[window]]``. Lengths in mm."""

from __future__ import annotations

from itertools import combinations
from typing import Literal

from arrange.data.room import Door, Window
from arrange.scenario.table import Table
from arrange.scenario.walls import Walls
from arrange.words import length

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
    if not tables and not top.raw("door"):
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


def _heights(opening: Door | Window) -> tuple[int, int]:
    if isinstance(opening, Door):
        return 0, opening.height
    return opening.sill, opening.head
