"""The variables of a piece: on a wall, in or across a corner, free, or in another's slot."""

from __future__ import annotations

from collections.abc import Iterator

from ortools.sat.python import cp_model

from arrange.data.piece import Piece
from arrange.data.room import FACING_VECTOR, FACINGS, Facing
from arrange.geometry.across import across_corner, can_cross, ways_across
from arrange.geometry.outlines import Outline, alike, lying, outline, rectangles
from arrange.geometry.shapes import (
    clearance_zone,
    extent,
    footprint,
    nearest_facing,
    shares_floor,
    slot_place,
    strip_corners,
    turn_facing,
    turns,
)
from arrange.geometry.spots import across, along, wall_spot
from arrange.solver.boxes import PLAN, SCALE, Axes, Box, Hull, Literal, all_of, free_offsets
from arrange.solver.floor import FloorConstraints
from arrange.solver.places import Place, Stance

FREE = 40  # mm; a piece that may stand at a wall or free is free from so far off on


def stand(
    cp: cp_model.CpModel,
    ground: FloorConstraints,
    piece: Piece,
    *,
    told_apart: bool = True,
    clearly_free: bool = True,
) -> Place:
    """The place of a piece that is tied to no other.

    Without ``told_apart`` a free piece has only the turns that look different. With
    ``clearly_free`` one that may stand either way is free only where no wall is behind it.
    """
    corners = corners_to_cross(ground, piece)
    slanted = bool(corners) or _may_lean(ground, piece)
    place = blank_place(cp, ground, piece, slanted=slanted)
    if not piece.needs_wall and piece.stands != "across":
        for facing in FACINGS if told_apart or piece.backs else turns(piece):
            literal = cp.new_bool_var(f"{piece.name} faces {facing}")
            place.stances.append(Stance(literal, facing))
            if piece.backs and clearly_free:
                _off_its_walls(cp, ground, place, place.stances[-1])
    if piece.backs:
        for wall in range(len(ground.room.walls)):
            _stand_on_wall(cp, ground, place, wall)
        place.fixed_done = piece.needs_wall and bool(rectangles(piece)) and not corners
    for corner in corners:
        _stand_across(cp, ground, place, corner)
    link_stances(cp, ground, place)
    return place


def corners_to_cross(ground: FloorConstraints, piece: Piece) -> list[int]:
    """The corners across which the piece can stand, going by what never moves."""
    if not piece.crosses:
        return []
    room, found = ground.room, []
    for corner in range(len(room.walls)):
        if not can_cross(room, piece, corner):
            continue
        there = across_corner(piece, corner)
        meets = [(footprint(piece, there, room), ground.off_limits(piece))]
        for clearance in piece.clearances:
            if len(clearance.sides) == 1 and clearance.least > 0:
                zone = clearance_zone(
                    piece, there, room, clearance, clearance.sides[0], clearance.least
                )
                meets.append((zone, ground.not_usable(clearance.height, clearance.headroom)))
        if not any(shares_floor(shape, other) for shape, others in meets for other in others):
            found.append(corner)
    return found


def _stand_across(
    cp: cp_model.CpModel, ground: FloorConstraints, place: Place, corner: int
) -> None:
    """Two stances a corner in one box, alike but for the way it counts as looking."""
    line, piece, half = ground.room.across(corner), place.piece, place.piece.into_corner
    if line is None:
        raise ValueError(f"nothing stands across corner {corner}")
    there = cp.new_bool_var(f"{piece.name} across {line.name}")
    for looks in ways_across(line):
        literal = cp.new_bool_var(f"{piece.name} across {line.name}, {looks}")
        stance = Stance(literal, looks, slanted=True, corner=corner, looks=looks, there=there)
        place.stances.append(stance)
    cp.add(sum(s.literal for s in place.stances[-2:]) == there)
    body = -half, half, piece.width - half, half + piece.depth
    place.boxes.append(Box(*body, Axes.of_wall(line), (there,)))


def _off_its_walls(
    cp: cp_model.CpModel, ground: FloorConstraints, place: Place, stance: Stance
) -> None:
    """Free is clearly free: as near to a wall behind it as that, it stands at the wall."""
    back, (low, high) = along(place, stance.facing)[0], across(place, stance.facing)
    for wall in ground.room.walls:
        if wall.facing != stance.facing:
            continue
        spot = wall_spot(wall)
        line, ends = along(spot, stance.facing)[1], across(spot, stance.facing)
        ways = [cp.new_bool_var("") for _ in range(3)]
        cp.add(back >= line + FREE).only_enforce_if(ways[0])
        cp.add(high <= ends[0]).only_enforce_if(ways[1])
        cp.add(low >= ends[1]).only_enforce_if(ways[2])
        cp.add_bool_or([*ways, stance.literal.negated()])


def _may_lean(ground: FloorConstraints, piece: Piece) -> bool:
    return piece.backs and any(w.facing is None for w in ground.room.walls)


def blank_place(
    cp: cp_model.CpModel, ground: FloorConstraints, piece: Piece, *, slanted: bool
) -> Place:
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


def _stand_on_wall(
    cp: cp_model.CpModel, ground: FloorConstraints, place: Place, index: int
) -> None:
    wall, piece = ground.room.walls[index], place.piece
    offsets = wall_offsets(ground, piece, index)
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


def wall_offsets(ground: FloorConstraints, piece: Piece, index: int) -> cp_model.Domain:
    """Where the piece can stand along a wall, going by what never moves.

    Offsets of its left end from the wall's, in whole mm; only the two ends of the wall
    for a corner piece. Empty where it cannot stand on that wall at all.
    """
    wall = ground.room.walls[index]
    span = (0, wall.room_for(piece.width))
    offsets = free_offsets(span, (0, 0, piece.width, piece.depth), wall, [])
    for strip in rectangles(piece):  # what has none is kept off later
        offsets = offsets.intersection_with(
            free_offsets(span, strip, wall, ground.off_limits(piece))
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
            taken = ground.not_usable(clearance.height, clearance.headroom)
            offsets = offsets.intersection_with(free_offsets(span, strip, wall, taken))
    if piece.stands == "corner":
        ends = {"left": 0, "right": max(span[1], 0)}
        at = [ends[hand] for hand in piece.in_corners]
        offsets = offsets.intersection_with(cp_model.Domain.from_values(at))
    return offsets


def link_stances(cp: cp_model.CpModel, ground: FloorConstraints, place: Place) -> None:
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
    if place.piece.shape == "L":
        place.parts = [
            part
            for strip in rectangles(place.piece)
            for part in (*_upright_part(cp, place, strip), *_slanted_parts(place, strip))
        ]
    elif not place.piece.fills_its_box:
        place.parts = [*_upright_hulls(cp, place), *_slanted_hulls(place)]
    ground.add_body(place)


def _upright_part(
    cp: cp_model.CpModel, place: Place, strip: tuple[int, int, int, int]
) -> Iterator[Box]:
    """One rectangle of the body where it stands upright; it goes round with the facing."""
    box = next((b for b in place.boxes if b.axes is PLAN), None)
    if box is None:
        return
    a, b = strip[2] - strip[0], strip[3] - strip[1]
    low_x, low_y, high_x, high_y = place.bounds
    x0, x1 = (cp.new_int_var(low_x, high_x, "") for _ in range(2))
    y0, y1 = (cp.new_int_var(low_y, high_y, "") for _ in range(2))
    sizes = tuple(cp.new_int_var(min(a, b), max(a, b), "") for _ in range(2))
    for facing in sorted({s.facing for s in place.stances if not s.slanted}):
        so = place.upright_facings[facing]
        dx, dy = facing_offset(place.piece, facing, strip)
        wide, high = (a, b) if facing in ("down", "up") else (b, a)
        cp.add(x0 == place.x0 + dx).only_enforce_if(so)
        cp.add(y0 == place.y0 + dy).only_enforce_if(so)
        cp.add(x1 == place.x0 + dx + wide).only_enforce_if(so)
        cp.add(y1 == place.y0 + dy + high).only_enforce_if(so)
    yield Box(x0, y0, x1, y1, PLAN, box.when, (sizes[0], sizes[1]))


def _slanted_parts(place: Place, strip: tuple[int, int, int, int]) -> Iterator[Box]:
    """The same rectangle in each box along a slanted wall."""
    for box in place.boxes:
        if box.axes is not PLAN:
            quarter = next(s.quarter for s in place.stances if s.boxed is box.when[0])
            a0, b0, a1, b1 = turned_strip(place.piece, strip, quarter) if quarter else strip
            yield Box(box.a0 + a0, box.b0 + b0, box.a0 + a1, box.b0 + b1, box.axes, box.when)


def _upright_hulls(cp: cp_model.CpModel, place: Place) -> Iterator[Hull]:
    """The body in an upright box: one for each way it can lie, which for a round one is one."""
    box = next((b for b in place.boxes if b.axes is PLAN), None)
    if box is None:
        return
    corners = outline(place.piece)
    ways: dict[Outline, list[Facing]] = {}
    for facing in sorted({s.facing for s in place.stances if not s.slanted}):
        so = lying(corners, across=facing in ("down", "up"))
        same = next((way for way in ways if alike(way, so)), so)
        ways.setdefault(same, []).append(facing)
    for way, facings in ways.items():
        literals = [place.upright_facings[facing] for facing in facings]
        when = box.when if len(ways) == 1 else (either(cp, literals),)
        yield Hull(place.name, place.x0, place.y0, way, PLAN, when)


def _slanted_hulls(place: Place) -> Iterator[Hull]:
    """The body in each box along a slanted wall."""
    for box in place.boxes:
        if box.axes is not PLAN:
            quarter = next(s.quarter for s in place.stances if s.boxed is box.when[0])
            corners = lying(outline(place.piece), across=quarter % 2 == 0)
            yield Hull(place.name, box.a0, box.b0, corners, box.axes, box.when)


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


def tie(cp: cp_model.CpModel, ground: FloorConstraints, piece: Piece, host: Place) -> Place:
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
    place.fixed_done = host.fixed_done and not host.slots and piece.fills_its_box
    link_stances(cp, ground, place)
    return place


def _both(cp: cp_model.CpModel, one: Literal, two: Literal, choices: int) -> Literal:
    return one if choices == 1 else all_of(cp, (one, two))


def _tie_on_walls(
    cp: cp_model.CpModel, ground: FloorConstraints, place: Place, host: Place, index: int
) -> None:
    """Fixed obstacles limit the host's offset; slanted hosts carry the piece in their frame."""
    piece, chosen = place.piece, place.slots[index]
    a0, b0, a1, b1, _ = slot_place(host.piece, piece, piece.slots[index])
    strip = (a0, b0, a1, b1)
    for stance in host.stances:
        if stance.slanted:
            _carry(cp, place, host, stance, index)
        if stance.wall is None or stance.wall not in host.offsets or not piece.fills_its_box:
            continue
        wall = ground.room.walls[stance.wall]
        span = (0, wall.room_for(host.piece.width))
        free = free_offsets(span, strip, wall, ground.off_limits(piece))
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
    # Across a corner the host has two stances in one box, and what is tied to it so too.
    twin = next((s for s in place.stances if s.slot == index and _alike(s.host, stance)), None)
    there = None if twin is None else twin.there
    if twin is None and stance.there is not None:
        there = _both(cp, stance.there, place.slots[index], len(place.slots))
    total = (stance.quarter + quarter) % 4
    place.stances.append(
        Stance(
            both,
            facing,
            slanted=True,
            quarter=total,
            slot=index,
            host=stance,
            corner=stance.corner,
            looks=stance.looks,
            there=there,
        )
    )
    if twin is not None:
        return
    place.boxes.append(
        Box(
            *(body.a0 + a0, body.b0 + b0, body.a0 + a1, body.b0 + b1),
            body.axes,
            (both if there is None else there,),
        )
    )


def _alike(one: Stance | None, two: Stance) -> bool:
    """Whether two stances share a box."""
    return one is not None and one.there is not None and one.there is two.there
