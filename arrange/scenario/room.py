"""Reads ``[room]``: its outline in one of three ways, and its ceiling. Lengths in mm.

A person measures along the whole wall, also where a chimney breast breaks it: places on
the bare wall are found on the finished one.
"""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import length
from arrange.data.room import Point, Wall
from arrange.data.scenario import Unit
from arrange.scenario.faults import shown
from arrange.scenario.outline import (
    WIDEST,
    Leg,
    OutlineError,
    check,
    cut_breast,
    letter,
    rectangle,
    walk,
    walls,
)
from arrange.scenario.table import Table

BREAST = "chimney breast"
CEILING = 2400
CEILINGS = (1500, 8000)
WALL_LENGTHS = (50, 30_000)
WAYS = "give one of: size = [width, length], corners = [[x, y], ...], or [[room.wall]] tables"


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
    found = _outline(room)
    room.finish()
    return (Walls(found) if found else None), ceiling


def _outline(room: Table) -> tuple[Wall, ...]:
    given = [key for key in ("size", "corners", "wall") if room.has(key)]
    if len(given) != 1:
        what = "no outline given" if not given else f"{' and '.join(given)} given"
        room.faults.add(room.where, what, WAYS)
        return ()
    key = given[0]
    names: tuple[str, ...] = ()
    before = len(room.faults)
    try:
        if key == "wall":
            corners, names = _walked(room)
        else:
            corners = _sized(room) if key == "size" else _listed(room)
        if not corners or len(room.faults) > before:
            return ()
        check(corners)
        _check_width(corners, room.unit)
    except OutlineError as error:
        if len(room.faults) > before:  # what follows from a slip is no news
            return ()
        room.fault(key, error.given, error.allowed, error.hint)
        return ()
    return walls(corners, names)


def _check_width(corners: Sequence[Point], unit: Unit) -> None:
    across = max(max(axis) - min(axis) for axis in zip(*corners, strict=True))
    if across > WIDEST:
        limit = f"no room is more than {length(WIDEST, unit)} across"
        raise OutlineError(f"the room is {length(across, unit)} across", limit, "check the unit")


def _sized(room: Table) -> tuple[Point, ...]:
    value = room.raw("size")
    if not isinstance(value, list) or len(value) != 2:
        room.fault("size", f"{shown(value)} given", "two lengths are needed: [width, length]")
        return ()
    sides = [room.as_mm(v, "size", 0, 500, WALL_LENGTHS[1]) for v in value]
    return rectangle(sides[0], sides[1]) if all(sides) else ()


def _listed(room: Table) -> tuple[Point, ...]:
    value = room.raw("corners")
    if not isinstance(value, list):
        room.fault("corners", f"{shown(value)} given", "a list of corners [[x, y], ...] is needed")
        return ()
    high = WALL_LENGTHS[1]
    points: list[Point] = []
    for i, pair in enumerate(value, 1):
        if not isinstance(pair, list) or len(pair) != 2:
            room.fault(f"corners[{i}]", f"{shown(pair)} given", "a corner is a pair [x, y]")
            return ()
        x, y = (room.as_mm(v, f"corners[{i}]", 10**9, -high, high) for v in pair)
        points.append((x, y))
    return () if any(10**9 in p for p in points) else tuple(points)


def _walked(room: Table) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    legs: list[Leg] = []
    tables = room.tables("wall")
    closing = False
    for i, table in enumerate(tables):
        name = table.text("name", letter(i))
        turn = _turn(table)
        last = i == len(tables) - 1
        if last and not table.has("length"):
            closing = True
            table.finish()
            if len(legs) < 2:
                return _too_few(room, len(tables))
            names = (*(leg.name for leg in legs), name)
            return _steady(room, legs, closing), names
        mm = table.needed_mm("length", *WALL_LENGTHS)
        table.finish()
        legs.append(Leg(name, mm or 0, turn))
    if len(legs) < 2:
        return _too_few(room, len(tables))
    if any(not leg.length for leg in legs):
        return (), ()
    closing = not _returns(legs)
    return _steady(room, legs, closing), tuple(leg.name for leg in legs)


def _too_few(room: Table, count: int) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    if count:  # what is no list of walls is noted already
        given = f"{count} wall{'s' if count > 1 else ''} given"
        room.fault("wall", given, "at least three walls make a room")
    return (), ()


def _returns(legs: list[Leg]) -> bool:
    """Whether the turns make one full turn: then the last wall is in the list."""
    return abs(sum(leg.turn for leg in legs) - 360) < 1


def _steady(room: Table, legs: list[Leg], closing: bool) -> tuple[Point, ...]:
    if any(not leg.length for leg in legs):
        return ()
    names = [leg.name.casefold() for leg in legs]
    for name in sorted({n for n in names if names.count(n) > 1}):
        room.fault("wall", f"two walls are called {name!r}", "every wall needs its own name")
    return walk(legs, closing, room.unit)


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
    width = table.needed_mm("width", 100)
    depth = table.needed_mm("depth", 20, 3000)
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


class Walls:
    """The walls as the person named them and as they are once breasts are cut out."""

    def __init__(self, measured: Sequence[Wall]) -> None:
        self.measured = {wall.name: wall for wall in measured}
        self.walls: tuple[Wall, ...] = tuple(measured)

    @property
    def names(self) -> list[str]:
        """Every name that a wall goes by."""
        return list(dict.fromkeys([*self.measured, *(w.name for w in self.walls)]))

    def find(self, name: str) -> Wall | None:
        """The wall called ``name``, as measured; None if there is none."""
        for wall in [*self.measured.values(), *self.walls]:
            if wall.name.casefold() == name.casefold():
                return wall
        return None

    def place(self, table: Table, offset: int, width: int) -> tuple[int, int] | None:
        """Index and offset on the finished wall of what ``table`` puts on its ``wall``.

        None, with a fault, if there is no such wall, or if it reaches over the
        wall's end or over a part that stands forward.
        """
        name = table.text("wall")
        wall = self.find(name) if name else None
        if wall is None:
            if name:
                table.faults.unknown(table.at("wall"), name, self.names, "the wall")
            elif not table.has("wall"):
                table.fault("wall", "no wall given", f"name one of: {', '.join(self.names)}")
            return None
        whole = round(wall.length)
        if offset + width > whole:
            _too_long(table, wall, offset, width)
            return None
        ax, ay = wall.along
        for index, part in enumerate(self.walls):
            if part.facing != wall.facing or part.part_of != wall.part_of:
                continue
            start = round(
                (part.start[0] - wall.start[0]) * ax + (part.start[1] - wall.start[1]) * ay
            )
            if start <= offset and offset + width <= start + round(part.length):
                return index, offset - start
        table.fault(
            "from_left",
            f"it reaches across a part of wall {wall.name} that stands forward",
            "it must lie on one flat stretch of wall",
            "measure both from the left end of the whole wall",
        )
        return None


def _too_long(table: Table, wall: Wall, offset: int, width: int) -> None:
    ends, long = length(offset + width, table.unit), length(round(wall.length), table.unit)
    hint = "from_left is measured from the wall's left end, as you face it from inside"
    given = f"it ends {ends} along wall {wall.name}"
    table.fault("from_left", given, f"the wall is {long} long", hint)
