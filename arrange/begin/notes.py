"""What is known so far, as the tables of the file that it becomes, and the room they make.

What was said is read as a file is read, so that nothing can be answered here that the
file would refuse. The file is TOML with a comment wherever a reader would ask. Lengths are held
as ``Mm`` and written in the person's own unit: what is read back is what was said, to the
millimetre.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from typing import Any

from arrange.data.lengths import length
from arrange.data.room import Room, Wall
from arrange.data.scenario import Scenario, Unit
from arrange.errors import Fault, ScenarioError
from arrange.scenario.faults import Faults
from arrange.scenario.needs import read_open_text
from arrange.scenario.openings import (
    check_overlaps,
    check_under_slopes,
    read_doors,
    read_fixtures,
    read_windows,
)
from arrange.scenario.outline import Leg, headings, walls, whole
from arrange.scenario.read import read_text
from arrange.scenario.room import cut_breasts, read_room
from arrange.scenario.table import Table
from arrange.scenario.walls import Walls

Tables = dict[str, Any]
NOTE = "#"  # the key of a comment that goes above a table
FULL_TURN = 360


class Mm(int):
    """A length in whole mm, to be written in the unit of the file."""


UNITS = {
    "cm": "centimetres",
    "m": "metres",
    "mm": "millimetres",
    "in": "inches",
}
HEADINGS = {
    "door": "Doors and open passages. from_left is measured as you face the wall from inside.",
    "window": "Windows. sill and head are heights above the floor.",
    "fixture": "What is built in.",
    "person": "Who lives or stays here, as far as the plan depends on it.",
    "need": "What must be possible. Pieces with meets are ways to have it; arrange choose picks.",
    "piece": "The furniture. Sizes that are left out are the usual ones of the kind.",
    "wish": "What you wish for. A wish with must = true may never be broken.",
    "textile": "Curtains, cushions and the like, for their colours.",
    "paint": "Paint to hold against the rest.",
}
OF_THE_ROOM = {
    "check": "Lengths straight across, to find slips of the tape.",
    "bay": "Bays that are built out of a wall.",
    "slope": (
        "Where the ceiling slopes: its height at the wall, and how far from it the slope ends."
    ),
    "dormer": "Dormers, which lift a part of a slope.",
    "beam": "Beams, and other strips where the ceiling is lower.",
}
MONEY = "Your budget; arrange shop adds up against it."
COSTS = "What stays as it is, even if not everything fits."
GENERAL = ("title", "unit", "use", "feel", "keep_to", "walkway")
WALLED = ("unit", "room", "door", "window", "fixture")  # all that the room is read from


def written(tables: Mapping[str, Any]) -> str:
    """The text of a scenario file."""
    unit: Unit = tables.get("unit", "cm")
    return "\n".join(_lines(tables, unit)) + "\n"


def _lines(tables: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    yield f"# {_one_line(tables.get('title', 'A room'))}, as told to arrange begin."
    yield f"# Numbers are {UNITS[unit]}; a length in quotation marks carries its own unit."
    yield "# Change what you like. Every key is explained in scenarios/README.md."
    yield ""
    for key in GENERAL:
        if key in tables:
            yield _pair(key, tables[key], unit)
    if "room" in tables:
        yield from _room(tables["room"], unit)
    for key, heading in HEADINGS.items():
        if tables.get(key):
            yield from ("", f"# {heading}")
            for i, row in enumerate(tables[key]):
                yield from _table(f"[[{key}]]", row, unit, gap=i > 0)
    for key, heading in (("money", MONEY), ("costs", COSTS)):
        if tables.get(key):
            yield from ("", f"# {heading}")
            yield from _table(f"[{key}]", tables[key], unit, gap=False)


def _room(room: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    yield ""
    if "size" in room:
        yield "# Wall A is at the top of the plan, B at the right, C at the bottom, D at the left."
    else:
        yield "# The walls in their order, clockwise from A, which is at the top of the plan."
    told = {key: value for key, value in room.items() if value != []}
    yield from _table("[room]", told, unit, gap=False)
    for key in ("wall", "check", "bay", "slope", "dormer", "beam"):
        if room.get(key) and key in OF_THE_ROOM:
            yield from ("", f"# {OF_THE_ROOM[key]}")
        for i, row in enumerate(room.get(key, ())):
            yield from _table(f"[[room.{key}]]", row, unit, gap=i > 0 or key not in OF_THE_ROOM)


def _table(head: str, row: Mapping[str, Any], unit: Unit, *, gap: bool) -> Iterator[str]:
    if gap:
        yield ""
    if row.get(NOTE):
        yield f"# {_one_line(row[NOTE])}"
    yield head
    for key, value in row.items():
        if (key != NOTE and not _are_tables(value)) or key == "stands_now":
            yield _pair(key, value, unit)


def _are_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)


def _pair(key: str, value: object, unit: Unit) -> str:
    return f"{key} = {_value(value, unit)}"


def _value(value: object, unit: Unit) -> str:
    if isinstance(value, Mm):
        return _length(value, unit)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | Decimal):
        return str(value)
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, Mapping):
        inside = ", ".join(_pair(key, one, unit) for key, one in value.items())
        return f"{{ {inside} }}"
    if isinstance(value, Sequence):
        return f"[{', '.join(_value(one, unit) for one in value)}]"
    raise TypeError(f"{value!r} has no place in a scenario file")


def _length(mm: int, unit: Unit) -> str:
    """A bare number where that is exact and short; feet and inches as a text."""
    if unit == "in":
        return _text(length(mm, "in"))
    return length(mm, unit).removesuffix(f" {unit}")


def _text(text: str) -> str:
    # JSON escapes what TOML escapes, and in the same way, for all that can be seen.
    return json.dumps(text, ensure_ascii=False)


def _one_line(text: str) -> str:
    return " ".join(text.split())


@dataclass
class Notes:
    """The answers so far. ``legs`` are walls walked along that do not make a room yet."""

    tables: Tables = field(default_factory=dict)
    legs: list[Leg] = field(default_factory=list)

    @property
    def unit(self) -> Unit:
        """The unit of the tape."""
        unit: Unit = self.tables.get("unit", "cm")
        return unit

    @property
    def title(self) -> str:
        """What the room is called."""
        return str(self.tables.get("title", "my room"))

    def rows(self, key: str) -> list[dict[str, Any]]:
        """The tables under one heading, as ``door`` or ``room.beam``; an empty list if none are."""
        head, _, rest = key.rpartition(".")
        tables = self.tables[head] if head else self.tables
        rows: list[dict[str, Any]] = tables.setdefault(rest, [])
        return rows

    @property
    def text(self) -> str:
        """The file as it would be written now."""
        return written(self.tables)

    def look(self) -> Seen:
        """The room as it is known, read as the file would be."""
        known = {key: self.tables[key] for key in WALLED if key in self.tables}
        return _seen(written(known), self.unit)

    def scenario(self) -> Scenario | None:
        """The empty room, to be drawn; None while it is none."""
        seen = self.look()
        if seen.walls is None or seen.room is None:
            return None
        return Scenario(
            title=self.title,
            room=seen.room,
            pieces=(),
            unit=self.unit,
            survey=seen.walls.survey,
            source_file=self.title,
        )

    def faults(self) -> tuple[Fault, ...]:
        """What the reader of files says of all that is known so far."""
        return _faults(self.text)

    def walked(self) -> tuple[Wall, ...]:
        """The walls of a room that is not closed yet, as they run."""
        if not self.legs:
            return ()
        _, steps = headings(self.legs, closing=False)
        points = [(0.0, 0.0)]
        for x, y in steps:
            points.append((points[-1][0] + x, points[-1][1] + y))
        named = [leg.name for leg in self.legs]
        return walls(whole(points), named)[: len(self.legs)]


@dataclass(frozen=True, slots=True)
class Seen:
    """What the reader made of the room: its walls, the room, and what it would refuse."""

    walls: Walls | None
    room: Room | None
    faults: tuple[Fault, ...]

    @property
    def wall_names(self) -> Sequence[str]:
        """Every name that a wall goes by."""
        return self.walls.names if self.walls else ()


# Going back gives all answers but one again: what they make has been read before.
KEPT = 512


@lru_cache(maxsize=KEPT)
def _seen(text: str, unit: Unit) -> Seen:
    faults = Faults("room")
    top = Table(tomllib.loads(text), "", faults, unit)
    if not top.has("room"):
        return Seen(None, None, ())
    found, ceiling = read_room(top)
    fixtures = top.tables("fixture")
    if found is not None:
        fixtures = cut_breasts(found, fixtures)
    doors = read_doors(top, found, ceiling) if top.has("door") else ()
    windows = read_windows(top, found, ceiling)
    fixed = read_fixtures(top, fixtures, found, ceiling)
    check_overlaps(top, doors, windows)
    if found is None:
        return Seen(None, None, tuple(faults.found))
    corners = tuple(wall.start for wall in found.walls)
    over = found.slopes, found.beams, found.dormers
    room = Room(corners, found.walls, ceiling, doors, windows, fixed, *over)
    check_under_slopes(top, room)
    return Seen(found, room, tuple(faults.found))


@lru_cache(maxsize=KEPT)
def _faults(text: str) -> tuple[Fault, ...]:
    try:
        read_told(text, "room")
    except ScenarioError as error:
        return error.faults
    return ()


def read_told(text: str, name: str) -> Scenario:
    """The scenario of the file; with every candidate at once where something is not decided.

    ScenarioError as ``read_text``.
    """
    if tomllib.loads(text).get("need"):
        return read_open_text(text, name).whole
    return read_text(text, name)


def plain(fault: Fault) -> str:
    """A fault as one sentence, without the place in the file, which nobody has seen yet."""
    given = fault.given[:1].upper() + fault.given[1:]
    return f"{given}: {fault.allowed}."


def mm(value: int) -> Mm:
    """A length for the tables."""
    return Mm(value)
