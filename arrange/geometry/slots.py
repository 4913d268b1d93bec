"""Places beside another piece: where a slot puts what is tied, and which slot it stands in.

Lengths in mm. Beside a piece at a slanted wall, what is tied is placed along that wall.
"""

from __future__ import annotations

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece, Slot
from arrange.data.room import Room
from arrange.geometry.shapes import frame, slot_place, turn_facing

Stood = tuple[Piece, Placement]  # a piece and where it stands


def in_slot(piece: Piece, host: Stood, slot: Slot, room: Room) -> Placement:
    """Where ``slot`` beside ``host`` puts the piece, to the nearest whole mm."""
    anchor, stands = host
    a0, b0, a1, b1, quarter = slot_place(anchor, piece, slot)
    corners = list(frame(anchor, stands, room).rectangle(a0, b0, a1, b1).exterior.coords)
    if stands.facing is not None:
        low = round(min(x for x, _ in corners)), round(min(y for _, y in corners))
        return Placement(piece.name, turn_facing(stands.facing, quarter), *low)
    wall = room.walls[stands.wall or 0]
    (nx, ny), (sx, sy) = wall.inward, wall.start
    along = min(wall.coordinate(x, y) for x, y in corners)
    off = min((x - sx) * nx + (y - sy) * ny for x, y in corners)
    turned = (stands.quarter + quarter) % 4
    return Placement(
        piece.name, None, wall=stands.wall, offset=round(along), inward=round(off), quarter=turned
    )


def slot_number(one: Stood, host: Stood, room: Room) -> int | None:
    """Which of its slots a piece stands in, the first of equals; None if it is in none."""
    piece, placement = one
    for number, slot in enumerate(piece.slots):
        if _spot(in_slot(piece, host, slot, room)) == _spot(placement):
            return number
    return None


def _spot(placement: Placement) -> tuple[object, ...]:
    """The place whatever wall is behind: what is tied need not know of one."""
    if placement.facing is not None:
        return placement.facing, placement.x, placement.y
    return placement.wall, placement.offset, placement.inward, placement.quarter
