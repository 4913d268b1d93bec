r"""The room in characters, for any terminal: walls, doors, windows and their names.

Walls are ``-``, ``|`` and slants of ``/`` or ``\``, corners ``+``, a door ``:`` (open floor),
a window ``=``, what is built in ``#``. A letter is about twice as tall as wide.
"""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import listed, measured
from arrange.data.room import Door, Fixture, Room, Vector, Wall, Window
from arrange.data.scenario import Unit

WIDE, HIGH = 44, 16  # characters of the largest drawing
STRAIGHT = 8  # a wall leans no more than one in so many and is drawn straight
TALL = 2.0  # how much taller than wide a character is
SHORT = 2  # letters of a wall that the person has not named
APART = 2  # characters between two names, or they would be read as one
LEGEND = 76  # characters of a line below the drawing
DOOR, WINDOW, FIXTURE, CORNER = ":", "=", "#", "+"


class Sheet:
    """Characters on a grid, placed by where they are in the room, in mm."""

    def __init__(self, points: Sequence[Vector]) -> None:
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        self.left, self.top = min(xs), max(ys)
        across, up = max(max(xs) - self.left, 1), max(self.top - min(ys), 1)
        # mm a column; a row is TALL times as much
        self.scale = max(across / (WIDE - 1), up / (HIGH - 1) / TALL)
        self.columns = round(across / self.scale) + 1
        self.rows = round(up / self.scale / TALL) + 1
        self.cells = [[" "] * self.columns for _ in range(self.rows)]

    def at(self, point: Vector) -> tuple[int, int]:
        """Column and row of a point."""
        column = round((point[0] - self.left) / self.scale)
        row = round((self.top - point[1]) / self.scale / TALL)
        return min(max(column, 0), self.columns - 1), min(max(row, 0), self.rows - 1)

    def line(self, start: Vector, end: Vector, sign: str) -> None:
        """The same character from one point to the other; corners stay."""
        (x, y), (u, v) = self.at(start), self.at(end)
        steps = max(abs(u - x), abs(v - y), 1)
        for i in range(steps + 1):
            row, column = round(y + (v - y) * i / steps), round(x + (u - x) * i / steps)
            if self.cells[row][column] != CORNER:
                self.cells[row][column] = sign

    def write(self, text: str, column: int, row: int) -> bool:
        """A text where nothing is yet; whether there was room."""
        if not (0 <= row < self.rows and column >= 0 and column + len(text) <= self.columns):
            return False
        if any(c != " " for c in self.cells[row][column : column + len(text)]):
            return False
        line, end = self.cells[row], column + len(text)
        next_to = line[max(0, column - 1) : column] + line[end : end + 1]
        near = line[max(0, column - APART) : column] + line[end : end + APART]
        if any(c in (CORNER, FIXTURE) for c in next_to) or any(c.isalnum() for c in near):
            return False
        self.cells[row][column : column + len(text)] = text
        return True

    @property
    def lines(self) -> list[str]:
        """The drawing."""
        return ["".join(row).rstrip() for row in self.cells]


def sketch(walls: Sequence[Wall], unit: Unit, room: Room | None = None) -> str:
    """The walls, and what is in those of ``room``, with every length below."""
    if not walls:
        return ""
    sheet = Sheet([p for wall in walls for p in (wall.start, wall.end)])
    for wall in walls:
        sheet.line(wall.start, wall.end, _stroke(wall))
    for wall in walls:
        for point in (wall.start, wall.end):
            column, row = sheet.at(point)
            sheet.cells[row][column] = CORNER
    if room is not None:
        _furnish(sheet, room)
    _name_walls(sheet, walls)
    openings = _openings(room) if room is not None else ()
    unnamed = [one for one in openings if room and not _name_opening(sheet, room, one)]
    drawing = [f"    {line}".rstrip() for line in sheet.lines]
    there = room is not None and (room.doors or room.windows or room.fixtures)
    signs = f"    {DOOR * 4} door   {WINDOW * 4} window   {FIXTURE * 4} built in"
    told = legend(walls, unit)
    if room is not None and unnamed:
        told += _wrapped([f"{one.name} in {_in_words(room.walls[one.wall])}" for one in unnamed])
    if room is not None and room.slopes:
        lower = [
            f"down to {measured(slope.height, unit)} at {_in_words(room.walls[slope.wall])}"
            for slope in room.slopes
        ]
        told.append(f"    ceiling {measured(room.ceiling, unit)}, {listed(lower)}")
    told += [signs] if there else []
    return "\n".join([*drawing, *told])


def _name(wall: Wall) -> str:
    """What the person calls a wall, also of a part of it."""
    return wall.part_of or wall.name


def _in_words(wall: Wall) -> str:
    """How a sentence calls a wall: "wall C", "bay left"."""
    name = _name(wall)
    return f"wall {name}" if len(name) <= SHORT else name


def _openings(room: Room) -> tuple[Door | Window, ...]:
    return (*room.windows, *room.doors)


def _furnish(sheet: Sheet, room: Room) -> None:
    for fixture in room.fixtures:
        _draw_fixture(sheet, room, fixture)
    for opening in _openings(room):
        _draw_opening(sheet, room, opening)


def legend(walls: Sequence[Wall], unit: Unit) -> list[str]:
    """The length of every wall, as many a line as there is room for."""
    return _wrapped([f"{wall.name} {measured(round(wall.length), unit)}" for wall in walls])


def _wrapped(told: Sequence[str]) -> list[str]:
    """These with commas between them, as many a line as there is room for."""
    lines, line = [], ""
    for one in told:
        joined = f"{line}, {one}" if line else one
        if len(joined) > LEGEND:
            lines.append(f"{line},")
            joined = one
        line = joined
    return [f"    {one}" for one in [*lines, line]]


def _stroke(wall: Wall) -> str:
    dx, dy = wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]
    if abs(dy) * STRAIGHT <= abs(dx):
        return "-"
    if abs(dx) * STRAIGHT <= abs(dy):
        return "|"
    return "/" if dx * dy > 0 else "\\"


def _draw_opening(sheet: Sheet, room: Room, opening: Door | Window) -> None:
    wall = room.walls[opening.wall]
    sign = DOOR if isinstance(opening, Door) else WINDOW
    # Half a character less at each end, so that the wall is seen on both sides.
    inset = min(sheet.scale / 2, opening.width / 2)
    start = wall.point(opening.offset + inset)
    end = wall.point(opening.offset + opening.width - inset)
    sheet.line(start, end, sign)


def _draw_fixture(sheet: Sheet, room: Room, fixture: Fixture) -> None:
    if not fixture.obstructs:
        return
    if fixture.wall is not None and fixture.depth < sheet.scale:
        _draw_flat(sheet, room.walls[fixture.wall], fixture)
        return
    xs, ys = [p[0] for p in fixture.corners], [p[1] for p in fixture.corners]
    (left, top), (right, low) = sheet.at((min(xs), max(ys))), sheet.at((max(xs), min(ys)))
    for row in range(top, low + 1):
        for column in range(left, right + 1):
            if sheet.cells[row][column] == " ":
                sheet.cells[row][column] = FIXTURE


def _draw_flat(sheet: Sheet, wall: Wall, fixture: Fixture) -> None:
    """What is flatter than a character is wide, such as a radiator: a line beside its wall."""
    off = sheet.scale * (TALL if abs(wall.inward[1]) > abs(wall.inward[0]) else 1)
    inset = min(sheet.scale / 2, fixture.width / 2)
    start = wall.point(fixture.offset + inset, off)
    end = wall.point(fixture.offset + fixture.width - inset, off)
    sheet.line(start, end, FIXTURE)


def _inside(sheet: Sheet, wall: Wall, along: float, text: str) -> list[tuple[int, int]]:
    """Where a text about a place on a wall could begin, the best first."""
    column, row = sheet.at(wall.point(along))
    nx, ny = wall.inward
    if abs(nx) > abs(ny):
        start = column + 2 if nx > 0 else column - 1 - len(text)
        return [(start, row), (start, row + 1), (start, row - 1)]
    inner = row + 1 if ny < 0 else row - 1
    middle = column - len(text) // 2
    shifts = (0, -2, 2, -4, 4, -6, 6, -8, 8, -10, 10)
    return [(middle + s, inner) for s in shifts] + [(middle + s, 2 * inner - row) for s in shifts]


def _name_walls(sheet: Sheet, walls: Sequence[Wall]) -> None:
    """The names that the person knows, each at the longest part of its wall."""
    longest: dict[str, Wall] = {}
    for wall in walls:
        name = _name(wall)
        if name not in longest or longest[name].length < wall.length:
            longest[name] = wall
    for name, wall in longest.items():
        if wall.facing is None and len(name) > SHORT:
            continue  # beside a slant a long name would seem to belong to another wall
        quarters = (wall.length * part / 4 for part in (2, 3, 1))
        places = (place for at in quarters for place in _inside(sheet, wall, at, name)[:3])
        _ = any(sheet.write(name, *place) for place in places)


def _name_opening(sheet: Sheet, room: Room, opening: Door | Window) -> bool:
    """Its name beside it; whether there was room for that."""
    wall = room.walls[opening.wall]
    if wall.facing is None and isinstance(opening, Window):
        return False  # beside a slant its name would seem to belong to another wall
    middle = opening.offset + opening.width / 2
    places = _inside(sheet, wall, middle, opening.name)
    return any(sheet.write(opening.name, *place) for place in places)
