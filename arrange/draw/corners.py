"""The corners of the room by number, and the lines between them to tape. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from shapely import unary_union
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Room, Vector
from arrange.draw.board import Board
from arrange.draw.finding import Wanted, write_nearby
from arrange.draw.fixtures import has_body
from arrange.geometry import fixture_shape, room_shape

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
