"""Names of pieces, fixtures and walls, written where they can be read."""

from __future__ import annotations

import math

from matplotlib.artist import Artist

from arrange.data.room import Room
from arrange.draw.board import Board, upright
from arrange.draw.finding import (
    Wanted,
    find_inside,
    sizes_between,
    write_nearby,
)
from arrange.draw.pieces import Drawn


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
