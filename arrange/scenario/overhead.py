"""Reads what is overhead: ``[[room.slope]]`` and ``[[room.beam]]``. Lengths in mm."""

from __future__ import annotations

from arrange.data.lengths import length
from arrange.data.room import Beam, Wall
from arrange.geometry.ceilings import on_plan
from arrange.scenario.table import LONGEST_MM, Table
from arrange.scenario.walls import Walls

HIGHEST = 8000  # a ceiling
UNTIL = (50, LONGEST_MM)
BEAM_WIDTHS, BEAM_LENGTHS = (20, LONGEST_MM), (100, LONGEST_MM)
DROPS = (10, 3000)
STRAIGHT = "straight across or up the plan"


def read_overhead(room: Table, walls: Walls | None, ceiling: int) -> None:
    """Note the slopes and the beams of ``[room]`` in ``walls``; faults if there are none."""
    for table in room.tables("slope"):
        _add_slope(walls, table, ceiling)
    tables = room.tables("beam")
    for i, table in enumerate(tables, 1):
        name = "beam" if len(tables) == 1 else f"beam {i}"
        _add_beam(walls, table, table.text("name", name), ceiling)


def _add_slope(walls_: Walls | None, table: Table, ceiling: int) -> None:
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
        elif _can_slope(walls_, wall, table, until):
            walls_.sloped.append((wall, height, until))


def _can_slope(walls_: Walls, wall: Wall, table: Table, until: int) -> bool:
    """Whether a slope can begin at a wall: straight, the outermost, and not past another slope."""
    unit, given = table.unit, f"wall {wall.name} given"
    offs = [wall.off(*w.start) for w in walls_.walls]
    if wall.facing is None:
        table.fault("wall", given, f"a ceiling slopes from a wall {STRAIGHT}")
    elif min(offs) < 0:
        allowed = "no part of the room, such as a bay, may lie behind the line of that wall"
        table.fault("wall", given, allowed, "a dormer cannot be said yet")
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


def _past(walls_: Walls, wall: Wall, until: int) -> tuple[Wall, int] | None:
    """The opposite slope that one would go past, and how far it may go; None if it does not."""
    for other, _, far in walls_.sloped:
        left = round(wall.off(*other.start)) - far
        if other.inward == (-wall.inward[0], -wall.inward[1]) and until > left:
            return other, left
    return None


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
                given = f"it ends {length(ends[1], table.unit)} along wall {wall.name}"
                allowed = f"the wall is {length(round(wall.length), table.unit)} long"
                table.fault("from_left", given, allowed, "leave both out for a beam right across")
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
