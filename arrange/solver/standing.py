"""Builds the variables of a piece that stands on a wall, in a corner or free."""

from __future__ import annotations

from ortools.sat.python import cp_model

from arrange.data.piece import Piece
from arrange.data.room import FACING_VECTOR, FACINGS, Facing
from arrange.geometry import extent, nearest_facing, strip_corners, turns
from arrange.solver.boxes import PLAN, SCALE, Axes, Box, Literal
from arrange.solver.floor import Ground
from arrange.solver.obstacles import free_offsets
from arrange.solver.places import Place, Stance


def stand(cp: cp_model.CpModel, ground: Ground, piece: Piece, *, told_apart: bool = True) -> Place:
    """The place of a piece that is tied to no other.

    Without ``told_apart`` a free piece has only the turns that look different.
    """
    place = blank_place(cp, ground, piece, slanted=_may_lean(ground, piece))
    if piece.stands == "free":
        for facing in FACINGS if told_apart else turns(piece):
            literal = cp.new_bool_var(f"{piece.name} faces {facing}")
            place.stances.append(Stance(literal, facing))
    else:
        for wall in range(len(ground.room.walls)):
            _stand_on_wall(cp, ground, place, wall)
        place.fixed_done = True
    settle(cp, ground, place)
    return place


def _may_lean(ground: Ground, piece: Piece) -> bool:
    return piece.stands != "free" and any(w.facing is None for w in ground.room.walls)


def blank_place(cp: cp_model.CpModel, ground: Ground, piece: Piece, *, slanted: bool) -> Place:
    """Coordinates without any stance yet; four free ones if it may lie aslant."""
    low_x, low_y, high_x, high_y = ground.room.bounds
    name = piece.name
    x0 = cp.new_int_var(low_x, high_x, f"{name} x0")
    y0 = cp.new_int_var(low_y, high_y, f"{name} y0")
    lies = cp.new_bool_var(f"{name} lies across")
    x1 = cp.new_int_var(low_x, high_x, f"{name} x1")
    y1 = cp.new_int_var(low_y, high_y, f"{name} y1")
    if not slanted:
        turn = piece.width - piece.depth
        cp.add(x1 == x0 + piece.depth + turn * lies)
        cp.add(y1 == y0 + piece.width - turn * lies)
    return Place(piece, x0, y0, x1, y1, lies, ground.room.bounds, slanted=slanted)


def _stand_on_wall(cp: cp_model.CpModel, ground: Ground, place: Place, index: int) -> None:
    wall, piece = ground.room.walls[index], place.piece
    offsets = _wall_offsets(ground, piece, index)
    if offsets.is_empty():
        return
    literal = cp.new_bool_var(f"{piece.name} on {wall.name}")
    offset = cp.new_int_var_from_domain(offsets, f"{piece.name} along {wall.name}")
    place.offsets[index] = offset
    place.walls[index] = literal
    facing = wall.facing
    if facing is None:
        place.stances.append(Stance(literal, nearest_facing(wall), index, slanted=True))
        place.boxes.append(
            Box(offset, 0, offset + piece.width, piece.depth, Axes.of_wall(wall), (literal,))
        )
        return
    place.stances.append(Stance(literal, facing, index))
    (sx, sy), (wx, wy) = extent(piece, facing), wall.start
    if facing == "down":
        fixed, sliding = place.y0 == wy - sy, place.x0 == wx + offset
    elif facing == "up":
        fixed, sliding = place.y0 == wy, place.x0 == wx - offset - sx
    elif facing == "left":
        fixed, sliding = place.x0 == wx - sx, place.y0 == wy - offset - sy
    else:
        fixed, sliding = place.x0 == wx, place.y0 == wy + offset
    cp.add(fixed).only_enforce_if(literal)
    cp.add(sliding).only_enforce_if(literal)


def _wall_offsets(ground: Ground, piece: Piece, index: int) -> cp_model.Domain:
    """Where the piece can stand along a wall, going by what never moves."""
    wall = ground.room.walls[index]
    span = (0, int(wall.length + 1e-6) - piece.width)
    offsets = free_offsets(
        span, (0, 0, piece.width, piece.depth), ground.body_obstacles(piece, index)
    )
    for clearance in piece.clearances:
        if len(clearance.sides) == 1 and clearance.least > 0:
            strip = strip_corners(
                piece,
                clearance.sides[0],
                clearance.least,
                clearance.skip_start,
                clearance.skip_end,
            )
            offsets = offsets.intersection_with(
                free_offsets(span, strip, ground.use_obstacles(clearance.height, index))
            )
    if piece.stands == "corner":
        offsets = offsets.intersection_with(cp_model.Domain.from_values([0, max(span[1], 0)]))
    return offsets


def settle(cp: cp_model.CpModel, ground: Ground, place: Place) -> None:
    """Exactly one stance holds; facings, upright box and bounding box follow from it."""
    cp.add_exactly_one(s.literal for s in place.stances)
    for facing in FACINGS:
        here = [s.literal for s in place.stances if s.facing == facing]
        place.facings[facing] = either(cp, here, f"{place.name} looks {facing}")
        level = [s.literal for s in place.stances if s.facing == facing and not s.slanted]
        place.upright_facings[facing] = (
            place.facings[facing] if level == here else either(cp, level, "")
        )
    upright = [s for s in place.stances if not s.slanted]
    across = [s.literal for s in upright if s.facing in ("down", "up")]
    leaning = [s.literal for s in place.stances if s.slanted]
    cp.add(sum(across) == place.lies) if not leaning else cp.add(sum(across) <= place.lies)
    if upright:
        when = () if not leaning else (either(cp, [s.literal for s in upright], ""),)
        turn = place.piece.width - place.piece.depth
        sizes = (place.piece.depth + turn * place.lies, place.piece.width - turn * place.lies)
        place.boxes.insert(0, Box(place.x0, place.y0, place.x1, place.y1, PLAN, when, sizes))
    if place.slanted:
        _bound_upright(cp, place, upright)
        for box in place.boxes:
            if box.axes is not PLAN:
                _bound_slanted(cp, place, box)
    ground.add_body(place)


def either(cp: cp_model.CpModel, literals: list[Literal], name: str = "") -> Literal:
    """A literal that is true exactly when one of the exclusive ``literals`` is."""
    if len(literals) == 1:
        return literals[0]
    if not literals:
        return cp.new_constant(0)
    one = cp.new_bool_var(name)
    cp.add(sum(literals) == one)
    return one


def _bound_upright(cp: cp_model.CpModel, place: Place, upright: list[Stance]) -> None:
    for stance in upright:
        sx, sy = extent(place.piece, stance.facing)
        cp.add(place.x1 == place.x0 + sx).only_enforce_if(stance.literal)
        cp.add(place.y1 == place.y0 + sy).only_enforce_if(stance.literal)


def _bound_slanted(cp: cp_model.CpModel, place: Place, box: Box) -> None:
    """Whole-mm bounds: rounded outward, forgiving 0.001 mm as the judge does."""
    forgive = SCALE // 1000
    for low, direction in ((place.x0, (-1.0, 0.0)), (place.y0, (0.0, -1.0))):
        least = -box.reach(direction) + forgive
        cp.add(SCALE * low <= least).only_enforce_if(*box.when)
        cp.add(SCALE * low >= least - SCALE + 1).only_enforce_if(*box.when)
    for high, direction in ((place.x1, (1.0, 0.0)), (place.y1, (0.0, 1.0))):
        most = box.reach(direction) - forgive
        cp.add(SCALE * high >= most).only_enforce_if(*box.when)
        cp.add(SCALE * high <= most + SCALE - 1).only_enforce_if(*box.when)


def facing_offset(host: Piece, facing: Facing, local: tuple[int, int, int, int]) -> tuple[int, int]:
    """Lower left corner of a box in the host's frame, from the host's lower left corner."""
    ahead = FACING_VECTOR[facing]
    across = (-ahead[1], ahead[0])
    sx, sy = extent(host, facing)
    ox = sx if across[0] + ahead[0] < 0 else 0
    oy = sy if across[1] + ahead[1] < 0 else 0
    corners = [
        (ox + a * across[0] + b * ahead[0], oy + a * across[1] + b * ahead[1])
        for a in (local[0], local[2])
        for b in (local[1], local[3])
    ]
    return min(c[0] for c in corners), min(c[1] for c in corners)


def turned_strip(
    piece: Piece, strip: tuple[int, int, int, int], quarter: int
) -> tuple[int, int, int, int]:
    """A strip of a turned piece, in a wall's directions from the low corner of its box."""
    facing: Facing = FACINGS[quarter]
    x, y = facing_offset(piece, facing, strip)
    a, b = strip[2] - strip[0], strip[3] - strip[1]
    sx, sy = (a, b) if quarter % 2 == 0 else (b, a)
    depth = piece.depth if quarter % 2 == 0 else piece.width
    # The wall's frame looks into the room where the plan's y looks up: flip it.
    return x, depth - y - sy, x + sx, depth - y
