"""Puts a tied piece that was measured by hand exactly in its place. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece, Slot
from arrange.data.room import Room
from arrange.geometry import facing_of, footprint, frame, slot_place, turn_facing

Stood = tuple[Piece, Placement]


def in_slot(piece: Piece, host: Stood, slot: Slot, room: Room) -> Placement:
    """Where ``slot`` beside ``host`` puts the piece; along a slanted wall if the host is."""
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


def snapped(
    one: Stood, host: Stood, room: Room, slots: Sequence[int], near: int, *, turned: bool
) -> tuple[int, Placement] | None:
    """The nearest of these slots and the place there; None if none is within ``near`` mm.

    With ``turned`` only slots in which the piece faces as it was said count. How
    near: the farthest that any corner of its footprint has to move.
    """
    piece, placement = one
    body = footprint(piece, placement, room)
    best: tuple[float, int, Placement] | None = None
    for index in slots:
        there = in_slot(piece, host, piece.slots[index], room)
        if turned and facing_of(there, room) != facing_of(placement, room):
            continue
        far = float(body.hausdorff_distance(footprint(piece, there, room)))
        if far < near + 0.5 and (best is None or far < best[0]):
            best = far, index, there
    return None if best is None else best[1:]
