"""Reads what is overhead: slopes, dormers and beams of ``[room]``. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from arrange.data.lengths import length
from arrange.data.room import Beam, Dormer, Slope, Wall
from arrange.geometry.ceilings import on_plan
from arrange.scenario.table import LONGEST_MM, Table
from arrange.scenario.walls import Walls

HIGHEST = 8000  # a ceiling
UNTIL = (50, LONGEST_MM)
DORMER_WIDTHS = (300, LONGEST_MM)
BEAM_WIDTHS, BEAM_LENGTHS = (20, LONGEST_MM), (100, LONGEST_MM)
DROPS = (10, 3000)
STRAIGHT = "straight across or up the plan"


@dataclass(frozen=True)
class Lifted:
    """A ``[[room.dormer]]`` as it is written: where along its wall, how far in, how high."""

    table: Table
    name: str
    wall: Wall
    along: tuple[int, int]
    off: int
    height: int

    def covers(self, wall: Wall, x: int, y: int) -> bool:
        """Whether a point behind the line of a wall is in the dormer."""
        at = wall.coordinate(x, y)
        return self.wall == wall and self.off == 0 and self.along[0] <= at <= self.along[1]


def read_overhead(room: Table, walls: Walls | None, ceiling: int) -> None:
    """Note slopes, dormers and beams of ``[room]`` in ``walls``; faults if there are none."""
    tables = room.tables("dormer")
    lifted = [_lifted(walls, t, _name(t, "dormer", i, tables), ceiling) for i, t in _rows(tables)]
    dormers = [dormer for dormer in lifted if dormer is not None]
    for table in room.tables("slope"):
        _add_slope(walls, table, ceiling, dormers)
    if walls is not None:
        for dormer in dormers:
            _add_dormer(walls, dormer, ceiling)
    tables = room.tables("beam")
    for i, table in _rows(tables):
        _add_beam(walls, table, _name(table, "beam", i, tables), ceiling)


def _rows(tables: list[Table]) -> Iterator[tuple[int, Table]]:
    return enumerate(tables, 1)


def _name(table: Table, word: str, index: int, tables: list[Table]) -> str:
    return table.text("name", word if len(tables) == 1 else f"{word} {index}")


def _add_slope(walls_: Walls | None, table: Table, ceiling: int, dormers: Sequence[Lifted]) -> None:
    """Note one ``[[room.slope]]``: where the ceiling begins at its wall, and where it ends."""
    height = table.needed_mm("height", 0, HIGHEST)
    until = table.needed_mm("until", *UNTIL)
    name = table.text("wall")
    wall = walls_.find(name) if walls_ and name else None
    table.finish()
    if walls_ is None:
        return
    if wall is None:
        walls_.unknown(table, name)
    elif height is not None and until is not None:
        if height >= ceiling:
            given = f"{length(height, table.unit)} at the wall"
            rises = f"it rises to the ceiling, which is at {length(ceiling, table.unit)}"
            table.fault("height", given, rises, "measure at the wall, from the floor up")
        elif _can_slope(walls_, wall, table, until, dormers):
            walls_.sloped.append((wall, height, until))


def _can_slope(
    walls_: Walls, wall: Wall, table: Table, until: int, dormers: Sequence[Lifted]
) -> bool:
    """Whether a slope can begin at a wall: straight, the outermost, and not past another slope."""
    unit, given = table.unit, f"wall {wall.name} given"
    offs = [wall.off(*w.start) for w in walls_.walls]
    if wall.facing is None:
        table.fault("wall", given, f"a ceiling slopes from a wall {STRAIGHT}")
    elif not _lies_before(walls_, wall, dormers):
        allowed = "no part of the room, such as a bay, may lie behind the line of that wall"
        hint = "if the bay is in a dormer, give a [[room.dormer]] at least as wide"
        table.fault("wall", given, allowed, hint)
    elif until > max(offs):
        allowed = f"the room goes {length(round(max(offs)), unit)} in from wall {wall.name}"
        hint = "as ceiling give the height where the slope ends"
        table.fault("until", f"{length(until, unit)} given", allowed, hint)
    elif any(wall.facing == other.facing for other, _, _ in walls_.sloped):
        table.fault("wall", given, "there is a slope from that side already")
    elif (over := _past(walls_, wall, until)) is not None:
        other, room_for = over
        allowed = f"at most {length(room_for, unit)}: there the slope from wall {other.name} begins"
        table.fault("until", f"{length(until, unit)} given", allowed, "a ridge is where both end")
    else:
        return True
    return False


def _lies_before(walls_: Walls, wall: Wall, dormers: Sequence[Lifted]) -> bool:
    """Whether no floor lies behind the line of a wall but in dormers."""
    behind = [w.start for w in walls_.walls if wall.off(*w.start) < 0]
    at_line = any(w.facing == wall.facing and abs(wall.off(*w.start)) < 1 for w in walls_.walls)
    return at_line and all(any(d.covers(wall, x, y) for d in dormers) for x, y in behind)


def _past(walls_: Walls, wall: Wall, until: int) -> tuple[Wall, int] | None:
    """The opposite slope that one would go past, and how far it may go; None if it does not."""
    for other, _, far in walls_.sloped:
        left = round(wall.off(*other.start)) - far
        if other.inward == (-wall.inward[0], -wall.inward[1]) and until > left:
            return other, left
    return None


def _lifted(walls_: Walls | None, table: Table, name: str, ceiling: int) -> Lifted | None:
    """One ``[[room.dormer]]`` as it is written; None, with faults, if it is none."""
    wall_name = table.text("wall")
    start = table.needed_mm("from_left", 0)
    width = table.needed_mm("width", *DORMER_WIDTHS)
    height = table.mm("height", ceiling, 1, HIGHEST)
    off = table.mm("off_wall", 0, 0)
    wall = walls_.find(wall_name) if walls_ and wall_name else None
    table.finish()
    if walls_ is None:
        return None
    if wall is None:
        walls_.unknown(table, wall_name)
    elif start is not None and width is not None:
        if start + width <= round(wall.length):
            return Lifted(table, name, wall, (start, start + width), off, height)
        _too_long(table, wall, start + width)
    return None


def _add_dormer(walls_: Walls, dormer: Lifted, ceiling: int) -> None:
    """Note a dormer if it lifts a part of a slope, and shares none with another one."""
    table, unit, wall = dormer.table, dormer.table.unit, dormer.wall
    given = f"{length(dormer.height, unit)} given"
    slope = next((Slope(0, *more) for one, *more in walls_.sloped if one == wall), None)
    others = [d for w, d, along in walls_.lifted if w == wall and _overlap(along, dormer.along)]
    if slope is None:
        hint = "give the [[room.slope]] it is in"
        told = f"wall {wall.name} given"
        table.fault("wall", told, "no ceiling slopes from that wall", hint)
    elif dormer.off >= slope.until:
        told = f"{length(dormer.off, unit)} given"
        table.fault("off_wall", told, f"the slope ends {length(slope.until, unit)} off the wall")
    elif dormer.height > ceiling:
        table.fault("height", given, f"the ceiling is at {length(ceiling, unit)}")
    elif dormer.height <= (low := slope.above(dormer.off, ceiling)):
        allowed = f"the slope is {length(round(low), unit)} high there; a dormer is higher"
        table.fault("height", given, allowed, "give the lowest part of its ceiling")
    elif others:
        told = f'"{dormer.name}" and "{others[0].name}" overlap'
        table.fault("from_left", told, "two dormers cannot share a part of the slope")
    else:
        behind = min(round(wall.off(*one.start)) for one in walls_.walls)
        off = dormer.off or min(behind, 0), slope.low(dormer.height, ceiling)
        found = Dormer(
            dormer.name, 0, on_plan(wall, dormer.along, off), dormer.height, dormer.along[0]
        )
        walls_.lifted.append((wall, found, dormer.along))


def _overlap(one: tuple[int, int], two: tuple[int, int]) -> bool:
    return one[0] < two[1] and two[0] < one[1]


def _too_long(table: Table, wall: Wall, end: int) -> None:
    given = f"it ends {length(end, table.unit)} along wall {wall.name}"
    table.fault("from_left", given, f"the wall is {length(round(wall.length), table.unit)} long")


def _add_beam(walls_: Walls | None, table: Table, name: str, ceiling: int) -> None:
    """Note one ``[[room.beam]]``: along which wall, how far off it, how wide, how low."""
    wall_name = table.text("wall")
    off = table.mm("off_wall", 0, 0)
    width = table.needed_mm("width", *BEAM_WIDTHS)
    low = _underside(table, ceiling)
    start = table.mm("from_left", 0, 0)
    long = table.needed_mm("length", *BEAM_LENGTHS) if table.has("length") else None
    wall = walls_.find(wall_name) if walls_ and wall_name else None
    table.finish()
    if walls_ is None:
        return
    if wall is None:
        walls_.unknown(table, wall_name)
    elif width is not None and low is not None and _can_hang(walls_, wall, table, off + width):
        along = [round(wall.coordinate(*one.start)) for one in walls_.walls]
        ends = min(along), max(along)
        if table.has("from_left") or long is not None:
            ends = start, start + long if long is not None else round(wall.length)
            if not 0 <= ends[0] < ends[1] <= round(wall.length):
                _too_long(table, wall, ends[1])
                return
        height, drop = low
        if drop and not walls_.sloped:
            height, drop = ceiling - drop, 0
        on = on_plan(wall, ends, (off, off + width))
        walls_.beamed.append((wall, Beam(name, 0, on, height, drop)))


def _underside(table: Table, ceiling: int) -> tuple[int, int] | None:
    """The height of a beam's underside, or how far it hangs below the ceiling; the other is 0."""
    given = [key for key in ("height", "drop") if table.has(key)]
    if len(given) != 1:
        what = "neither height nor drop given" if not given else "height and drop given"
        allowed = "height is from the floor up to its underside, drop from the ceiling down to it"
        table.fault("height", what, allowed, "give one of them: drop for a beam along the slope")
        return None
    mm = table.needed_mm(given[0], *((1, HIGHEST) if given == ["height"] else DROPS))
    if mm is None:
        return None
    if mm >= ceiling:
        told = f"{length(mm, table.unit)} given"
        table.fault(given[0], told, f"the ceiling is at {length(ceiling, table.unit)}")
        return None
    return (mm, 0) if given == ["height"] else (0, mm)


def _can_hang(walls_: Walls, wall: Wall, table: Table, until: int) -> bool:
    """Whether a beam can run along a wall, up to so far off it."""
    inside = max(round(wall.off(*one.start)) for one in walls_.walls)
    if wall.facing is None:
        table.fault("wall", f"wall {wall.name} given", f"a beam runs along a wall {STRAIGHT}")
    elif until > inside:
        given = f"it reaches {length(until, table.unit)} in from wall {wall.name}"
        table.fault("off_wall", given, f"the room goes {length(inside, table.unit)} in from there")
    else:
        return True
    return False
