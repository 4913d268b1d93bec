"""The walls by the names a person gave them, and what is placed along them. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from arrange.data.lengths import length
from arrange.data.room import Beam, Dormer, Slope, Survey, Wall
from arrange.scenario.table import Table


class Walls:
    """The walls as the person named them and as they are once breasts are cut out."""

    def __init__(self, measured: Sequence[Wall], survey: Survey | None = None) -> None:
        self.survey = survey
        self.measured = {wall.name: wall for wall in measured}
        self.walls: tuple[Wall, ...] = tuple(measured)
        self.sloped: list[tuple[Wall, int, int]] = []
        self.beamed: list[tuple[Wall, Beam]] = []
        self.lifted: list[tuple[Wall, Dormer, tuple[int, int]]] = []

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

    def unknown(self, table: Table, name: str) -> None:
        """Note that ``table`` is on no wall there is."""
        if name:
            table.faults.unknown(table.at("wall"), name, self.names, "the wall")
        elif not table.has("wall"):
            table.fault("wall", "no wall given", f"name one of: {', '.join(self.names)}")

    def in_line(self, wall: Wall) -> int:
        """The first part of the finished walls that stands in the line of a straight one."""
        return next(
            i
            for i, one in enumerate(self.walls)
            if one.facing == wall.facing and abs(wall.off(*one.start)) < 1
        )

    @property
    def slopes(self) -> tuple[Slope, ...]:
        """The slopes, each at the first part of its finished wall that stands in its line."""
        return tuple(Slope(self.in_line(wall), *more) for wall, *more in self.sloped)

    @property
    def beams(self) -> tuple[Beam, ...]:
        """The beams, each with the first part of its finished wall."""
        return tuple(replace(beam, wall=self.in_line(wall)) for wall, beam in self.beamed)

    @property
    def dormers(self) -> tuple[Dormer, ...]:
        """The dormers, each with the wall of its slope."""
        return tuple(replace(one, wall=self.in_line(wall)) for wall, one, _ in self.lifted)

    def place(self, table: Table, offset: int, width: int) -> tuple[int, int] | None:
        """Index and offset on the finished wall of what ``table`` puts on its ``wall``.

        None, with a fault, if there is no such wall, or if it reaches over the
        wall's end or over a part that stands forward.
        """
        name = table.text("wall")
        wall = self.find(name) if name else None
        if wall is None:
            self.unknown(table, name)
            return None
        whole = round(wall.length)
        if offset + width > whole:
            _too_long(table, wall, offset, width)
            return None
        for index, part in enumerate(self.walls):
            if part.facing != wall.facing or part.part_of != wall.part_of:
                continue
            start = round(wall.coordinate(*part.start))
            if start <= offset and offset + width <= start + round(part.length):
                return index, offset - start
        table.fault(
            "from_left",
            f"it reaches across a part of wall {wall.name} that stands forward or back",
            "it must lie on one flat stretch of wall",
            "measure both from the left end of the whole wall",
        )
        return None


def _too_long(table: Table, wall: Wall, offset: int, width: int) -> None:
    ends, long = length(offset + width, table.unit), length(round(wall.length), table.unit)
    hint = "from_left is measured from the wall's left end, as you face it from inside"
    given = f"it ends {ends} along wall {wall.name}"
    table.fault("from_left", given, f"the wall is {long} long", hint)
