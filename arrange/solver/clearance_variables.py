"""The variables of a clearance: a strip of floor that moves with its piece."""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model

from arrange.data.piece import Clearance, Side
from arrange.data.room import Facing
from arrange.geometry.shapes import strip_corners
from arrange.solver.boxes import PLAN, Box, Expr, Literal, all_of, free_offsets
from arrange.solver.floor import FloorConstraints
from arrange.solver.piece_variables import facing_offset, turned_strip
from arrange.solver.places import Place, Stance, Zone


def add_zone(
    cp: cp_model.CpModel,
    ground: FloorConstraints,
    place: Place,
    clearance: Clearance,
    steps: Sequence[int] = (),
) -> Zone:
    """The strip that ``clearance`` needs: its least depth, or as deep as one of the steps (mm)."""
    label = f"{place.name} {clearance.name}"
    levels = [cp.new_bool_var(f"{label} {s}") for s in steps]
    depth: Expr = clearance.least
    before = clearance.least
    for level, step in zip(levels, steps, strict=True):
        depth = depth + (step - before) * level
        before = step
    for harder, easier in zip(levels[1:], levels, strict=False):
        cp.add_implication(harder, easier)
    zone = Zone(place, clearance, tuple(steps), levels, depth)
    if len(clearance.sides) > 1:
        zone.choices = {s: cp.new_bool_var(f"{label} {s}") for s in clearance.sides}
        cp.add_exactly_one(zone.choices.values())
    _add_boxes(cp, zone)
    zone.static_done = place.fixed_done and not place.slots
    if zone.static_done:
        _limit_offsets(cp, ground, zone)
    ground.zones.append(zone)
    return zone


def _add_boxes(cp: cp_model.CpModel, zone: Zone) -> None:
    """The strip for every stance.

    A strip that may be without depth is there from its first step on only: for the
    solver a box without size, inside another, takes space.
    """
    there: tuple[Literal, ...] = () if zone.clearance.least else tuple(zone.levels[:1])
    if not zone.clearance.least and not there:
        return
    if (upright := upright_strip(cp, zone, zone.depth)) is not None:
        upright.when += there
        zone.boxes.append(upright)
    boxed: list[Literal] = []
    for stance in zone.place.stances:
        if stance.slanted and not any(stance.boxed is one for one in boxed):
            boxed.append(stance.boxed)
            _slanted_boxes(zone, stance, there)


def _sides(zone: Zone) -> list[tuple[Side, Literal | None]]:
    if zone.choices:
        return list(zone.choices.items())
    return [(zone.clearance.sides[0], None)]


def upright_strip(cp: cp_model.CpModel, zone: Zone, depth: Expr) -> Box | None:
    """A strip of that depth whose ends follow the facing and the side.

    Absent for slanted stances; None if the piece has no others.
    """
    place = zone.place
    facings = sorted({s.facing for s in place.stances if not s.slanted})
    if not facings:
        return None
    low_x, low_y, high_x, high_y = place.bounds
    x0, x1 = (cp.new_int_var(low_x, high_x, "") for _ in range(2))
    y0, y1 = (cp.new_int_var(low_y, high_y, "") for _ in range(2))
    for facing in facings:
        for side, choice in _sides(zone):
            when = [place.upright_facings[facing], *([choice] if choice is not None else [])]
            (left, right), (low, high) = _strip_ends(zone, facing, side, depth)
            cp.add(x0 == place.x0 + left).only_enforce_if(*when)
            cp.add(x1 == place.x0 + right).only_enforce_if(*when)
            cp.add(y0 == place.y0 + low).only_enforce_if(*when)
            cp.add(y1 == place.y0 + high).only_enforce_if(*when)
    sizes = (cp.new_int_var(0, high_x - low_x, ""), cp.new_int_var(0, high_y - low_y, ""))
    leaning = any(s.slanted for s in place.stances)
    upright = next(b for b in place.boxes if b.axes is PLAN).when if leaning else ()
    return Box(x0, y0, x1, y1, PLAN, upright, sizes)


def _strip_ends(
    zone: Zone, facing: Facing, side: Side, depth: Expr
) -> tuple[tuple[Expr, Expr], tuple[Expr, Expr]]:
    """Ends of the strip along x and y, from the lower left corner of the body.

    The strip of depth 1 tells which end moves as the depth grows.
    """
    piece, c = zone.place.piece, zone.clearance
    flat = strip_corners(piece, side, 0, c.skip_start, c.skip_end)
    deep = strip_corners(piece, side, 1000, c.skip_start, c.skip_end)
    low0, high0 = _ends(zone, facing, flat)
    low1, high1 = _ends(zone, facing, deep)
    result: list[tuple[Expr, Expr]] = []
    for axis in (0, 1):
        low: Expr = low0[axis]
        high: Expr = high0[axis]
        if low1[axis] != low0[axis]:
            low = low - depth
        if high1[axis] != high0[axis]:
            high = high + depth
        result.append((low, high))
    return result[0], result[1]


def _ends(
    zone: Zone, facing: Facing, strip: tuple[int, int, int, int]
) -> tuple[tuple[int, int], tuple[int, int]]:
    low = facing_offset(zone.place.piece, facing, strip)
    a, b = strip[2] - strip[0], strip[3] - strip[1]
    size = (a, b) if facing in ("down", "up") else (b, a)
    return low, (low[0] + size[0], low[1] + size[1])


def _slanted_boxes(zone: Zone, stance: Stance, there: tuple[Literal, ...]) -> None:
    """One box a side in the slanted wall's frame, there with its stance and choice too."""
    body = zone.place.box_of(stance)
    c = zone.clearance
    for side, choice in _sides(zone):
        flat = strip_corners(zone.piece, side, 0, c.skip_start, c.skip_end)
        deep = strip_corners(zone.piece, side, 1000, c.skip_start, c.skip_end)
        when = (stance.boxed, *([choice] if choice is not None else []), *there)
        if stance.quarter:
            flat, deep = (turned_strip(zone.piece, s, stance.quarter) for s in (flat, deep))
        a0, b0, a1, b1 = (
            v if v == w else (v - zone.depth if k < 2 else v + zone.depth)
            for k, (v, w) in enumerate(zip(flat, deep, strict=True))
        )
        zone.boxes.append(
            Box(body.a0 + a0, body.b0 + b0, body.a0 + a1, body.b0 + b1, body.axes, when)
        )


def _limit_offsets(cp: cp_model.CpModel, ground: FloorConstraints, zone: Zone) -> None:
    """Walls and columns limit how far along a wall a piece has its depth of floor."""
    place, c = zone.place, zone.clearance
    for stance in place.stances:
        wall = stance.wall
        if wall is None:
            continue
        line, obstacles = ground.room.walls[wall], ground.not_usable(c.height, c.headroom)
        span = (0, line.room_for(place.piece.width))
        for side, choice in _sides(zone):
            ladder: list[tuple[int, Literal | None]] = list(
                zip(zone.steps, zone.levels, strict=True)
            )
            for depth, level in [(c.least, None), *ladder]:
                if depth == 0:
                    continue
                strip = strip_corners(place.piece, side, depth, c.skip_start, c.skip_end)
                free = free_offsets(span, strip, line, obstacles)
                when = [stance.literal]
                when += [x for x in (choice, level) if x is not None]
                if free.is_empty():
                    cp.add_bool_or([x.negated() for x in when])
                else:
                    together = all_of(cp, when) if len(when) > 1 else when[0]
                    cp.add_linear_expression_in_domain(place.offsets[wall], free).only_enforce_if(
                        together
                    )
