"""Standing across a corner: at 45 degrees, the ends of the back touching both walls. Lengths in mm.

Only where two straight walls meet at a right angle that opens into the room, and only as far
back as the walls let it: so there is one place in each corner, and all else is as along a
slanted wall (``Room.across`` is the line it goes by).
"""

from __future__ import annotations

import math

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece
from arrange.data.room import FACING_VECTOR, FACINGS, Facing, Room, Wall
from arrange.geometry.shapes import DEPTH, turn_facing


def across_corner(piece: Piece, corner: int, looks: Facing | None = None) -> Placement:
    """The piece across a corner of the room: the ends of its back touch the two walls.

    One of an odd width stands half a mm off, so that its place is in whole mm.
    """
    half = piece.into_corner
    return Placement(piece.name, None, offset=-half, inward=half, corner=corner, looks=looks)


def can_cross(room: Room, piece: Piece, corner: int) -> bool:
    """Whether a corner is square, and both of its walls reach as far as the piece would."""
    reach = math.sqrt(0.5) * piece.width - DEPTH
    return room.across(corner) is not None and min(w.length for w in room.meeting(corner)) >= reach


def corner_between(room: Room, names: tuple[str, str]) -> int | None:
    """The corner where two walls so called meet, in either order; None where they do not.

    A wall in parts goes by the name of the whole as well; large or small letters are alike.
    """
    one, two = (name.casefold() for name in names)
    for corner in range(len(room.walls)):
        left, right = (
            {wall.name.casefold(), (wall.part_of or wall.name).casefold()}
            for wall in room.meeting(corner)
        )
        if (one in left and two in right) or (two in left and one in right):
            return corner
    return None


def ways_across(line: Wall) -> tuple[Facing, Facing]:
    """The two ways halfway between which a line across a corner looks, clockwise."""
    nx, ny = line.inward
    one, two = (f for f in FACINGS if nx * FACING_VECTOR[f][0] + ny * FACING_VECTOR[f][1] > 0)
    return (one, two) if turn_facing(one, 1) == two else (two, one)
