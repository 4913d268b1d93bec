"""Pieces tied to another one by a short list of places."""

from __future__ import annotations

from ortools.sat.python import cp_model

from arrange.data.piece import Piece
from arrange.data.room import Facing
from arrange.geometry import slot_place, turn_facing
from arrange.solver.boxes import Box, Literal, all_of
from arrange.solver.floor import Ground
from arrange.solver.obstacles import free_offsets
from arrange.solver.places import Place, Stance
from arrange.solver.standing import blank_place, facing_offset, settle, turned_strip


def tie(cp: cp_model.CpModel, ground: Ground, piece: Piece, host: Place) -> Place:
    """The place of a piece that stands in one of its slots about ``host``."""
    place = blank_place(cp, ground, piece, slanted=any(s.slanted for s in host.stances))
    slots: list[Literal] = [
        cp.new_bool_var(f"{piece.name} slot {i}") for i in range(len(piece.slots))
    ]
    cp.add_exactly_one(slots)
    place.slots = slots
    for index, chosen in enumerate(slots):
        local = slot_place(host.piece, piece, piece.slots[index])
        for facing in sorted({s.facing for s in host.stances if not s.slanted}):
            both = _both(cp, host.upright_facings[facing], chosen, len(slots))
            dx, dy = facing_offset(host.piece, facing, local[:4])
            cp.add(place.x0 == host.x0 + dx).only_enforce_if(both)
            cp.add(place.y0 == host.y0 + dy).only_enforce_if(both)
            place.stances.append(
                Stance(both, turn_facing(facing, local[4]), slot=index, host=host.stances[0])
            )
        _tie_on_walls(cp, ground, place, host, index)
    # What is tied to something tied has no wall of its own to be limited along.
    place.fixed_done = host.fixed_done and not host.slots
    settle(cp, ground, place)
    return place


def _both(cp: cp_model.CpModel, one: Literal, two: Literal, choices: int) -> Literal:
    return one if choices == 1 else all_of(cp, (one, two))


def _tie_on_walls(
    cp: cp_model.CpModel, ground: Ground, place: Place, host: Place, index: int
) -> None:
    """Fixed obstacles limit the host's offset; slanted hosts carry the piece in their frame."""
    piece, chosen = place.piece, place.slots[index]
    a0, b0, a1, b1, _ = slot_place(host.piece, piece, piece.slots[index])
    strip = (a0, b0, a1, b1)
    for stance in host.stances:
        if stance.slanted:
            _carry(cp, place, host, stance, index)
        if stance.wall is None or stance.wall not in host.offsets:
            continue
        span = (0, int(ground.room.walls[stance.wall].length + 1e-6) - host.piece.width)
        free = free_offsets(span, strip, ground.body_obstacles(piece, stance.wall))
        both = _both(cp, stance.literal, chosen, len(place.slots))
        if free.is_empty():
            cp.add_bool_or([both.negated()])
        else:
            cp.add_linear_expression_in_domain(host.offsets[stance.wall], free).only_enforce_if(
                both
            )


def _carry(cp: cp_model.CpModel, place: Place, host: Place, stance: Stance, index: int) -> None:
    """A slanted stance of the piece in the wall's frame of its host, however it is turned."""
    piece = place.piece
    *corners, quarter = slot_place(host.piece, piece, piece.slots[index])
    strip = (corners[0], corners[1], corners[2], corners[3])
    a0, b0, a1, b1 = turned_strip(host.piece, strip, stance.quarter) if stance.quarter else strip
    body = host.box_of(stance)
    both = _both(cp, stance.literal, place.slots[index], len(place.slots))
    facing: Facing = turn_facing(stance.facing, quarter)
    total = (stance.quarter + quarter) % 4
    place.stances.append(
        Stance(both, facing, None, slanted=True, quarter=total, slot=index, host=stance)
    )
    place.boxes.append(
        Box(body.a0 + a0, body.b0 + b0, body.a0 + a1, body.b0 + b1, body.axes, (both,))
    )
