"""What is known so far, as the tables of the file that it becomes, and the room they make.

What was said is read as a file is read, so that nothing can be answered here that the
file would refuse.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from arrange.begin.writing import Mm, Tables, written
from arrange.data.room import Room, Wall
from arrange.data.scenario import Scenario, Unit
from arrange.errors import Fault, ScenarioError
from arrange.scenario.faults import Faults
from arrange.scenario.openings import check_overlaps, read_doors, read_fixtures, read_windows
from arrange.scenario.outline import Leg, headings, walls, whole
from arrange.scenario.read import read_text
from arrange.scenario.room import Walls, cut_breasts, read_room
from arrange.scenario.table import Table

FULL_TURN = 360


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
        """The tables under one heading; an empty list, to be added to, where there are none."""
        rows: list[dict[str, Any]] = self.tables.setdefault(key, [])
        return rows

    @property
    def text(self) -> str:
        """The file as it would be written now."""
        return written(self.tables)

    def look(self) -> Seen:
        """The room as it is known, read as the file would be."""
        return _seen(self.text, self.unit)

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
    room = Room(corners, found.walls, ceiling, doors, windows, fixed)
    return Seen(found, room, tuple(faults.found))


@lru_cache(maxsize=KEPT)
def _faults(text: str) -> tuple[Fault, ...]:
    try:
        read_text(text, "room")
    except ScenarioError as error:
        return error.faults
    return ()


def plain(fault: Fault) -> str:
    """A fault as one sentence, without the place in the file, which nobody has seen yet."""
    given = fault.given[:1].upper() + fault.given[1:]
    return f"{given}: {fault.allowed}."


def mm(value: int) -> Mm:
    """A length for the tables."""
    return Mm(value)
