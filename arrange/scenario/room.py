"""Reads ``[room]``: its outline in one of four ways, and its ceiling. Lengths in mm.

A person measures along the whole wall, also where a chimney breast breaks it: places on
the bare wall are found on the finished one.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from arrange.data.lengths import length
from arrange.data.room import Point, Survey, Wall
from arrange.data.scenario import Unit
from arrange.scenario.faults import BREAST, shown
from arrange.scenario.outline import (
    WIDEST,
    Leg,
    OutlineError,
    add_bay,
    bay_parts,
    check,
    cut_breast,
    letter,
    rectangle,
    walls,
)
from arrange.scenario.overhead import read_overhead
from arrange.scenario.table import LONGEST_MM, Table
from arrange.scenario.walls import Walls

if TYPE_CHECKING:
    from arrange.scenario.survey import Check

CEILING = 2400
CEILINGS = (1500, 8000)
WALL_LENGTHS = (50, LONGEST_MM)
BREAST_WIDTHS, BREAST_DEPTHS = (100, LONGEST_MM), (20, 3000)
BAY_WIDTHS, BAY_DEPTHS = (300, LONGEST_MM), (50, 3000)
LEAST_FRONT = 100  # of a bay
WAYS = (
    "give one of: size = [width, length], corners = [[x, y], ...], outline = an outline in an open "
    "standard, or [[room.wall]] tables"
)


def read_room(top: Table) -> tuple[Walls | None, int]:
    """The walls and the ceiling height in mm; no walls, with faults, if they make no room."""
    value = top.raw("room")
    if value is None:
        top.fault("room", "no room given", f"a table headed [room] is needed; {WAYS}")
        return None, CEILING
    room = top.table(value, top.at("room"))
    if room is None:
        return None, CEILING
    before = len(top.faults)
    ceiling = room.mm("ceiling", CEILING, *CEILINGS)
    if len(top.faults) > before:  # nothing is too tall for a ceiling not known
        ceiling = CEILINGS[1]
    found, taped = _outline(room)
    walls_ = Walls(found, taped) if found else None
    for bay in room.tables("bay"):
        if walls_ is not None:
            _add_bay(walls_, bay)
    read_overhead(room, walls_, ceiling)
    room.finish()
    return walls_, ceiling


def _outline(room: Table) -> tuple[tuple[Wall, ...], Survey | None]:
    given = [key for key in ("size", "corners", "outline", "wall") if room.has(key)]
    if len(given) != 1:
        what = "no outline given" if not given else f"{' and '.join(given)} given"
        room.faults.add(room.where, what, WAYS)
        return (), None
    key = given[0]
    before = len(room.faults)
    try:
        corners, names, taped = READERS[key](room)
        if not corners or len(room.faults) > before:
            return (), None
        check(corners)
        _check_width(corners, room.unit)
    except OutlineError as error:
        if len(room.faults) == before:  # what follows from a slip is no news
            room.fault(key, error.given, error.allowed, error.hint)
        return (), None
    return walls(corners, names), taped


Outline = tuple[tuple[Point, ...], tuple[str, ...], Survey | None]
NO_ROOM: Outline = ((), (), None)


def _check_width(corners: Sequence[Point], unit: Unit) -> None:
    across = max(max(axis) - min(axis) for axis in zip(*corners, strict=True))
    if across > WIDEST:
        limit = f"no room is more than {length(WIDEST, unit)} across"
        raise OutlineError(f"the room is {length(across, unit)} across", limit, "check the unit")


def _sized(room: Table) -> Outline:
    value = room.raw("size")
    if not isinstance(value, list) or len(value) != 2:
        room.fault("size", f"{shown(value)} given", "two lengths are needed: [width, length]")
        return NO_ROOM
    wide, long = (room.as_mm(v, "size", 0, 500, WALL_LENGTHS[1]) for v in value)
    if not (wide and long):
        return NO_ROOM
    if not room.has("check"):
        return rectangle(wide, long), (), None
    legs = [Leg(letter(i), side, 90.0) for i, side in enumerate((wide, long, wide, long))]
    return _steady(room, legs, [leg.name for leg in legs])


def _listed(room: Table) -> Outline:
    value = room.raw("corners")
    if room.has("check"):
        hint = "give the walls as [[room.wall]] tables, and the checks find the corners"
        room.fault("check", "given with corners", "corners leave nothing to check", hint)
    if not isinstance(value, list):
        room.fault("corners", f"{shown(value)} given", "a list of corners [[x, y], ...] is needed")
        return NO_ROOM
    high = WALL_LENGTHS[1]
    points: list[Point] = []
    for i, pair in enumerate(value, 1):
        if not isinstance(pair, list) or len(pair) != 2:
            room.fault(f"corners[{i}]", f"{shown(pair)} given", "a corner is a pair [x, y]")
            return NO_ROOM
        x, y = (room.as_mm(v, f"corners[{i}]", 10**9, -high, high) for v in pair)
        points.append((x, y))
    return NO_ROOM if any(10**9 in p for p in points) else (tuple(points), (), None)


def _drawn(room: Table) -> Outline:
    from arrange.scenario.drawn import read_drawn  # noqa: PLC0415  it may need shapely

    return *read_drawn(room), None


def _walked(room: Table) -> Outline:
    tables = room.tables("wall")
    legs: list[Leg] = []
    names: list[str] = []
    open_end = square = False
    for i, table in enumerate(tables):
        names.append(table.text("name", letter(i)))
        turn, square = _turn(table), table.flag("square")
        sd = table.mm("within", 0) / 2
        open_end = i == len(tables) - 1 and not table.has("length")
        if not open_end:
            mm = table.needed_mm("length", *WALL_LENGTHS)
            legs.append(Leg(names[-1], mm or 0, turn, sd, square))
        table.finish()
    if len(legs) < 2:
        return _too_few(room, len(tables))
    if not open_end and not _returns(legs):
        names.append(letter(len(names)))
    return _steady(room, legs, names, square=open_end and square)


def _too_few(room: Table, count: int) -> Outline:
    if count:  # what is no list of walls is noted already
        given = f"{count} wall{'s' if count > 1 else ''} given"
        room.fault("wall", given, "at least three walls make a room")
    return NO_ROOM


def _returns(legs: list[Leg]) -> bool:
    """Whether the turns make one full turn: then the last wall is in the list."""
    return abs(sum(leg.turn for leg in legs) - 360) < 1


def _steady(room: Table, legs: list[Leg], names: list[str], *, square: bool = False) -> Outline:
    """The room walked along ``legs``; ``names`` has one more where the last wall was left out.

    ``square`` says that the corner at the end of that one was measured square.
    """
    folded = [name.casefold() for name in names]
    for name in sorted({n for n in folded if folded.count(n) > 1}):
        room.fault("wall", f"two walls are called {name!r}", "every wall needs its own name")
    checks = [_check_length(table, names) for table in room.tables("check")]
    if any(not leg.length for leg in legs) or None in checks:
        return NO_ROOM
    from arrange.scenario.survey import survey  # noqa: PLC0415  numpy, for walked rooms alone

    good = [check for check in checks if check is not None]
    last = Leg(names[-1], 0, 90.0, square=square)
    corners, taped = survey(legs, len(names) > len(legs), good, room.unit, last)
    return corners, tuple(names), taped


def _check_length(table: Table, names: Sequence[str]) -> Check | None:
    """One ``[[room.check]]``: from corner to corner, or square to a wall; None if faulty."""
    from arrange.scenario.survey import Check  # noqa: PLC0415  numpy, for walked rooms alone

    ends = [_end(table, key, names) for key in ("from", "to")]
    mm = table.needed_mm("length", *WALL_LENGTHS)
    sd = table.mm("within", 0) / 2
    table.finish()
    (start, from_wall), (end, to_wall) = ends
    if start is None or end is None or mm is None:
        return None
    if start == end:
        table.fault("to", "the same as from", "name another corner or wall")
        return None
    told = [f"wall {names[i]}" if wall else names[i] for i, wall in ends if i is not None]
    name = f"from {told[0]} to {told[1]}" if from_wall or to_wall else f"diagonal {'-'.join(told)}"
    if from_wall and not to_wall:
        start, end, from_wall, to_wall = end, start, False, True
    return Check(name, start, end, mm, sd, from_wall, to_wall)


def _end(table: Table, key: str, names: Sequence[str]) -> tuple[int | None, bool]:
    """Which corner or wall ``key`` names, by number, and whether it is a wall."""
    word = table.text(key)
    folded = [name.casefold() for name in names]
    asked = word.casefold().removeprefix("corner ")
    wall = asked.startswith("wall ") and asked not in folded
    asked = asked.removeprefix("wall ") if wall else asked
    if asked in folded:
        return folded.index(asked), wall
    if word:
        table.faults.unknown(table.at(key), word, names, "the corner or wall")
    elif not table.has(key):
        allowed = 'name a corner by the wall that begins there, such as "B", or a wall: "wall B"'
        table.fault(key, "not given", allowed)
    return None, wall


def _turn(table: Table) -> float:
    """The turn at the end of a wall, in degrees, right positive; ``right`` if not given."""
    value = table.raw("turn")
    if value is None:
        return 90.0
    degrees: float | None = None
    if isinstance(value, int | float) and not isinstance(value, bool):
        degrees = float(value)
    elif isinstance(value, str):
        words = value.casefold().replace("degrees", "").split()
        sign = {"right": 1.0, "left": -1.0}.get(words[0]) if words else None
        try:
            amount = float(words[1]) if len(words) == 2 else 90.0
        except ValueError:
            amount = 999.0
        degrees = None if sign is None or len(words) > 2 else sign * amount
    if degrees is None or not 1 <= abs(degrees) <= 175:
        allowed = 'write "right", "left", or with degrees such as "right 45"'
        table.fault("turn", f"{shown(value)} given", allowed)
        return 90.0
    return degrees


READERS = {"wall": _walked, "size": _sized, "corners": _listed, "outline": _drawn}


def cut_breasts(walls_: Walls, fixtures: list[Table]) -> list[Table]:
    """Cut the chimney breasts among ``fixtures`` out of the room; the others come back."""
    rest: list[Table] = []
    for table in fixtures:
        kind = table.raw("kind")
        if isinstance(kind, str) and kind.strip().casefold() == BREAST:
            _cut(walls_, table)
        else:
            rest.append(table)
    return rest


def _cut(walls_: Walls, table: Table) -> None:
    table.text("kind")
    name = table.text("name", BREAST)
    offset = table.mm("from_left", 0, 0)
    width = table.needed_mm("width", *BREAST_WIDTHS)
    depth = table.needed_mm("depth", *BREAST_DEPTHS)
    table.has("wall")
    table.finish()
    if width is None or depth is None:
        return
    if walls_.find(name):
        table.fault("name", f"a wall is already called {name!r}", "choose another name")
        return
    place = walls_.place(table, offset, width)
    if place is None:
        return
    cut = cut_breast(walls_.walls, place[0], name, place[1], width, depth)
    try:
        check([wall.start for wall in cut])
    except OutlineError as error:
        shown = length(depth, table.unit)
        table.fault("depth", f"{shown} given; {error.given}", "it must leave a room round it")
        return
    walls_.walls = cut


def _add_bay(walls_: Walls, table: Table) -> None:
    """Build one ``[[room.bay]]`` out of its wall."""
    name = table.text("name", "bay")
    offset = table.mm("from_left", 0, 0)
    width = table.needed_mm("width", *BAY_WIDTHS)
    depth = table.needed_mm("depth", *BAY_DEPTHS)
    front = table.mm("front", width or 0, LEAST_FRONT)
    table.has("wall")
    table.finish()
    if width is None or depth is None:
        return
    if front > width:
        given = f"{length(front, table.unit)} given"
        table.fault("front", given, f"it is at most the bay's width, {length(width, table.unit)}")
        return
    taken = {w.casefold() for w in walls_.names}
    if taken & {part.casefold() for part in bay_parts(name)}:
        table.fault("name", f"a wall is already called {name!r}", "choose another name")
        return
    place = walls_.place(table, offset, width)
    if place is None:
        return
    grown = add_bay(walls_.walls, place[0], name, place[1], width, depth, front)
    try:
        check([wall.start for wall in grown])
    except OutlineError as error:
        table.fault("depth", f"{length(depth, table.unit)} given; {error.given}", "measure again")
        return
    walls_.walls = grown
