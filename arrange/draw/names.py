"""Names of pieces, fixtures and walls, written where they can be read.

Notes on the survey: what was measured of each opening and fixture. Lengths in mm.

The corners of the room by number, and the lines between them to tape. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from copy import copy
from itertools import combinations

from matplotlib.artist import Artist
from shapely import box, unary_union
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from arrange.data.lengths import length
from arrange.data.room import Door, Fixture, Room, Vector, Window
from arrange.data.scenario import Unit
from arrange.draw.labels import Board, Wanted, find_inside, sizes_between, upright, write_nearby
from arrange.draw.symbols import Drawn, anchor_point, has_body
from arrange.geometry.shapes import fixture_shape, opening_span, room_shape


def draw_names(
    board: Board, placed: list[Drawn], *, only_inside: bool = False
) -> tuple[list[Artist], tuple[str, ...]]:
    """The name of every piece: inside it where it fits, else beside it with a leader.

    The large pieces come first, so that a small neighbour's name never takes
    their place. Returns also the names for which there was no room anywhere.
    ``only_inside`` leaves out all names that need a leader except those of
    major pieces.
    """
    style = board.style
    drawn: list[Artist] = []
    outside: list[Drawn] = []
    sizes = sizes_between(style.name_size, style.least_name_size)
    for one in sorted(placed, key=lambda d: (-d.shape.area, d.number)):
        tilt = math.degrees(math.atan2(one.frame.across[1], one.frame.across[0]))
        wanted = Wanted(_wordings(one), sizes, style.text)
        place = find_inside(board, one.shape, one.number, one.spot, tilt, wanted)
        if place is None:
            outside.append(one)
            continue
        gid = f"name:{one.piece.name}"
        drawn.append(
            board.text(place.centre, place.text, place.size, angle=place.angle, gid=gid, pad=0.8)
        )
    missing: list[str] = []
    for one in outside:
        if only_inside and not one.piece.major:
            continue
        wanted = Wanted(_wordings(one), (style.name_size - 1.5, style.least_name_size), style.text)
        written = write_nearby(board, one.shape, wanted, f"name:{one.piece.name}")
        drawn += written
        if not written:
            missing.append(one.piece.name)
    return drawn, tuple(missing)


def _wordings(one: Drawn) -> tuple[str, ...]:
    name, short = one.piece.name, one.piece.short
    return (name, short) if short and short != name else (name,)


def draw_wall_names(board: Board, room: Room) -> list[Artist]:
    """Each wall's own name outside it, quietly, on the longest stretch that bears it.

    A wall without room outside goes without its name: inside, it would be in the way.
    """
    longest: dict[str, int] = {}
    for i, wall in enumerate(room.walls):
        name = wall.part_of or wall.name
        if name and (name not in longest or wall.length > room.walls[longest[name]].length):
            longest[name] = i
    drawn: list[Artist] = []
    style = board.style
    for name, i in longest.items():
        wall = room.walls[i]
        angle = upright(math.degrees(math.atan2(wall.along[1], wall.along[0])))
        box = board.size(name, style.note_size)
        off = -(style.wall + board.mm(2) + box[1] / 2)
        spots = [wall.length * s for s in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)]
        at = next(
            (p for p in (wall.point(s, off) for s in spots) if board.free(p, box, angle)), None
        )
        if at is not None:
            drawn.append(
                board.text(
                    at, name, style.note_size, colour=style.quiet, angle=angle, gid=f"wall:{name}"
                )
            )
    return drawn


def draw_notes(board: Board, room: Room, unit: Unit) -> None:
    """One note for each opening and fixture.

    A radiator under a window shares the window's note: two leaders to the same
    stretch of wall would cross.
    """
    style = board.style
    shared: list[Fixture] = []
    for window in room.windows:
        under = [f for f in room.fixtures if has_body(f) and f not in shared and _meets(f, window)]
        shared += under
        lines = [window.name, *_window_lines(window, unit)]
        lines += [f"{f.name} below: {_fixture_words(f, unit)}" for f in under]
        target = LineString(opening_span(room, window))
        _write_inside(board, room, target, lines, style.accent, f"note:{window.name}")
    for door in room.doors:
        lines = [door.name, f"{length(door.height, unit)} high, {_swing_words(door)}"]
        target = LineString(opening_span(room, door))
        _write_inside(board, room, target, lines, style.accent, f"note:{door.name}")
    for fixture in room.fixtures:
        target_shape = _target(room, fixture)
        if fixture in shared or target_shape is None:
            continue
        lines = [line for line in (fixture.name, _fixture_words(fixture, unit)) if line]
        _write_inside(board, room, target_shape, lines, style.quiet, f"note:{fixture.name}")


def _write_inside(
    board: Board, room: Room, target: BaseGeometry, lines: list[str], colour: str, gid: str
) -> None:
    """Write in the room, folded at the commas if need be, so that dimensions have the outside.

    Only where the room itself has no place does the note go out.
    """
    text = "\n".join(lines)
    wanted = Wanted((text, text.replace(", ", ",\n")), (board.style.note_size, 5.5), colour)
    everywhere = board.solid
    board.solid = copy(everywhere)
    board.solid.marks = everywhere.marks.copy()
    board.solid.add_shape(box(*board.view).difference(room_shape(room)))
    written = write_nearby(board, target, wanted, gid)
    board.solid = everywhere
    if not written:
        write_nearby(board, target, wanted, gid)


def _meets(fixture: Fixture, window: Window) -> bool:
    return (
        fixture.wall == window.wall
        and fixture.offset < window.offset + window.width
        and window.offset < fixture.offset + fixture.width
    )


def _target(room: Room, fixture: Fixture) -> BaseGeometry | None:
    if has_body(fixture):
        return fixture_shape(fixture)
    point = anchor_point(room, fixture)
    return Point(point) if point else None


def _window_lines(window: Window, unit: Unit) -> list[str]:
    lines = [f"sill {length(window.sill, unit)}, head {length(window.head, unit)}"]
    words = [
        w for w, on in (("must open", window.must_open), ("way of escape", window.escape)) if on
    ]
    return [*lines, ", ".join(words)] if words else lines


def _swing_words(door: Door) -> str:
    if door.opens == "sliding":
        return f"slides to the {door.hinge}"
    return f"opens {door.opens}, hinged {door.hinge}"


def _fixture_words(fixture: Fixture, unit: Unit) -> str:
    words = []
    if has_body(fixture):
        bounds = fixture_shape(fixture).bounds
        across = fixture.width or round(bounds[2] - bounds[0])
        deep = fixture.depth or round(bounds[3] - bounds[1])
        words.append(f"{length(across, unit)} x {length(deep, unit)}")
    if fixture.wall is not None:
        words.append(f"{length(fixture.offset, unit)} from the left")
    if not has_body(fixture) and fixture.bottom:
        words.append(f"{length(fixture.bottom, unit)} up")
    return ", ".join(words)


SIZE = 6.0
INSIDE = (10.4, 13.0, 16.0)  # points from the corner into the room, in order of liking
OUTSIDE = (7.0, 10.0, 14.0, 18.0)  # points from the outer face of the wall
TURNS = (0, 20, -20, 40, -40, 60, -60, 80, -80)  # degrees off the straight way in or out
OWN = 0.75  # a number lies this much nearer to its own corner than to any other
UNDER = 500  # what hangs higher lets the tape pass below


def number_corners(board: Board, room: Room) -> None:
    """Write the number of every corner: in the room, else outside the wall, else on a leader.

    None is left out, as the list of lines to tape goes by these numbers.
    """
    for i, corner in enumerate(room.corners):
        text, gid = str(i + 1), f"corner:{i + 1}"
        at = _place(board, room, i, board.size(text, SIZE))
        if at is not None:
            board.text(at, text, SIZE, colour=board.style.quiet, gid=gid)
            continue
        wanted = Wanted((text,), (SIZE, SIZE - 1), board.style.quiet)
        if not write_nearby(board, Point(corner), wanted, gid, tip=""):
            board.text(_places(board, room, i)[0], text, SIZE, colour=board.style.quiet, gid=gid)


def _place(board: Board, room: Room, i: int, size: Vector) -> Vector | None:
    """The best free place for the number of corner ``i``, on the floor or off the walls."""
    corner = room.corners[i]
    others = [c for c in room.corners if c != corner]
    for at in _places(board, room, i):
        near = math.dist(at, corner)
        if any(near > OWN * math.dist(at, other) for other in others):
            continue
        if board.free(at, size) and not board.solid.under(board.samples(at, size, 0.0)).any():
            return at
    return None


def _places(board: Board, room: Room, i: int) -> list[Vector]:
    """Places to try for the number of corner ``i``, best first."""
    floor, corner = room_shape(room), room.corners[i]
    before, after = room.walls[i - 1], room.walls[i]
    dx, dy = before.inward[0] + after.inward[0], before.inward[1] + after.inward[1]
    inward = math.degrees(math.atan2(dy, dx))
    thick = board.style.wall * 2 / max(math.hypot(dx, dy), 0.5)
    inner = [board.mm(p) for p in INSIDE]
    outer = [thick + board.mm(p) for p in OUTSIDE]
    return [
        *(at for at in _round(corner, inward, inner) if floor.contains(Point(at))),
        *(at for at in _round(corner, inward + 180, outer) if not floor.contains(Point(at))),
    ]


def _round(corner: Vector, angle: float, reaches: Sequence[float]) -> Iterator[Vector]:
    for reach in reaches:
        for turn in TURNS:
            a = math.radians(angle + turn)
            yield corner[0] + reach * math.cos(a), corner[1] + reach * math.sin(a)


def corner_to_corner(room: Room, most: int = 4) -> list[tuple[int, int, float]]:
    """The longest straight lines between corners that can be taped: numbers and mm.

    Not through what is built in from the floor up, nor from a corner that such
    a thing fills.
    """
    floor, filled = room_shape(room).buffer(0.5), _filled(room)
    n = len(room.corners)
    found = []
    for i, j in combinations(range(n), 2):
        line = LineString([room.corners[i], room.corners[j]])
        if (j - i) % n in {1, n - 1} or not floor.covers(line):
            continue
        if not line.intersects(filled):
            found.append((i + 1, j + 1, float(line.length)))
    return sorted(found, key=lambda f: -f[2])[:most]


def _filled(room: Room) -> BaseGeometry:
    """The floor under solid fixtures, a millimetre wider for corners that they just reach."""
    return unary_union(
        [
            fixture_shape(f).buffer(1, join_style="mitre")
            for f in room.fixtures
            if f.solid and has_body(f) and f.bottom < UNDER
        ]
    )
