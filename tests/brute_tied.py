"""Where a tied piece stands on the grid, from the words of `Slot` alone."""

from __future__ import annotations

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece, Slot
from arrange.data.room import Facing

# Where a side lies when the piece faces down the plan, and clockwise from there.
AROUND = ("front", "left", "back", "right")
VECTORS = ((0, -1), (-1, 0), (0, 1), (1, 0))
FACES: tuple[Facing, ...] = ("down", "left", "up", "right")
Cells = tuple[int, int, int, int]


def tied_place(piece: Piece, slot: Slot, host: Cells, turn: int, step: int) -> Placement:
    """The placement of a piece in a slot of a host at ``host`` turned ``turn`` quarters."""
    side = (AROUND.index(slot.side) + turn) % 4
    own = {"same": turn, "opposite": turn + 2, "away": side, "toward": side + 2}[slot.facing] % 4
    long, deep = piece.width // step, piece.depth // step
    size = (long, deep) if own % 2 == 0 else (deep, long)
    out = VECTORS[side]
    begin = VECTORS[(AROUND.index("back" if slot.side in ("left", "right") else "left") + turn) % 4]
    at = [0, 0]
    for axis in (0, 1):
        low, high = host[axis], host[axis + 2]
        if out[axis]:
            gap = slot.gap // step
            at[axis] = high + gap if out[axis] > 0 else low - gap - size[axis]
        else:
            spare = high - low - size[axis]
            on = spare * slot.along // 1000 + slot.shift // step
            at[axis] = low + on if begin[axis] < 0 else high - on - size[axis]
    return Placement(piece.name, FACES[own], at[0] * step, at[1] * step)
