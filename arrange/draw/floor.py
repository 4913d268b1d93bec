"""The free floor: clearances as light hatching, walkways as a soft band. Lengths in mm."""

from __future__ import annotations

import math

import numpy as np
import shapely
from matplotlib.artist import Artist
from shapely import unary_union
from shapely.geometry import MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Clearance
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.draw.board import Board
from arrange.draw.pieces import Drawn
from arrange.geometry import clearance_zone, room_shape, wall_strip


def clearance_floor(
    scenario: Scenario, arrangement: Arrangement, placed: list[Drawn]
) -> BaseGeometry:
    """The floor that the pieces need at least, inside the room and beside the pieces."""
    floor = room_shape(scenario.room)
    bodies = {d.piece.name: d for d in placed if not d.piece.flat and not d.symbol.outline_dashed}
    zones = []
    for drawn in placed:
        others = unary_union([d.shape for n, d in bodies.items() if n != drawn.piece.name])
        for clearance in drawn.piece.clearances:
            zone = _free_side(scenario, arrangement, drawn, clearance, floor, others)
            if zone is not None:
                zones.append(zone)
    taken = unary_union([d.shape for d in bodies.values()])
    return unary_union(zones).intersection(floor).difference(taken)


def _free_side(
    scenario: Scenario,
    arrangement: Arrangement,
    drawn: Drawn,
    clearance: Clearance,
    floor: Polygon,
    others: BaseGeometry,
) -> Polygon | None:
    """The strip on the side that is freest; the first named of equals."""
    if clearance.least <= 0 or not clearance.sides:
        return None
    placement = arrangement.of(drawn.piece.name)
    zones = [
        clearance_zone(drawn.piece, placement, scenario.room, clearance, side, clearance.least)
        for side in clearance.sides
    ]
    taken = [z.difference(floor).area + z.intersection(others).area for z in zones]
    return zones[int(np.argmin([round(t) for t in taken]))]


def draw_hatching(board: Board, zone: BaseGeometry) -> list[Artist]:
    """Light slanting lines over ``zone``, left out under every text already written.

    Spaced evenly on paper across the whole plan, so that neighbouring zones
    read as one floor.
    """
    clear = zone.difference(unary_union(board.boxes)) if board.boxes else zone
    if clear.is_empty:
        return []
    x0, y0, x1, y1 = clear.bounds
    step = board.mm(board.style.hatch_step) * math.sqrt(2)
    starts = np.arange(math.floor((x0 - y1) / step), math.ceil((x1 - y0) / step) + 1) * step
    slanted = MultiLineString([[(c + y0, y0), (c + y1, y1)] for c in starts])
    cut = shapely.intersection(slanted, clear)
    runs = [list(part.coords) for part in shapely.get_parts(cut) if part.geom_type == "LineString"]
    style = board.style
    return [board.lines(runs, style.hatch_width, style.hatch, 3.5, ink=False, gid="clearances")]


def draw_walkway(board: Board, room: Room, walkway: BaseGeometry, width: int) -> list[Artist]:
    """The way through the room as one soft band; a line is drawn ``width`` mm wide.

    It ends in the doorways, never outside.
    """
    band = walkway if walkway.area else walkway.buffer(width / 2)
    thickness = board.style.wall
    sills = [
        wall_strip(room.walls[d.wall], d.offset, d.width, 1, start=-thickness) for d in room.doors
    ]
    soft = board.mm(5.0)
    eased = band.buffer(-soft * 0.5).buffer(soft).buffer(-soft * 0.5)
    shape = (band if eased.is_empty else eased).intersection(
        unary_union([room_shape(room), *sills])
    )
    if shape.is_empty:
        return []
    board.soft.add_shape(shape, 0.5)
    return [board.fill(shape, board.style.walkway, 1.0, gid="walkway")]
