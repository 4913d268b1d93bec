"""The empty room as measured, with every dimension, beside the list of pieces."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from matplotlib.figure import Figure
from shapely.geometry import LineString

from arrange.data.lengths import length
from arrange.data.room import Door, Room, Wall, Window
from arrange.data.scenario import Scenario, Unit
from arrange.draw.dimensions import (
    draw_line_with_ticks,
    draw_scale_bar,
    draw_way_in,
    write_beside,
)
from arrange.draw.labels import Board, Wanted, write_nearby
from arrange.draw.names import corner_to_corner, draw_notes, number_corners
from arrange.draw.overview import write_title
from arrange.draw.plan import draw_shell, drawn_extent, largest_scale, make_board, printed_scale
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.symbols import draw_fixture, draw_point, has_body
from arrange.draw.text import (
    COLUMN,
    MARGIN,
    Box,
    Page,
    draw_messages,
    draw_pieces_list,
    draw_room_facts,
    evenly,
)

MARGINS = (48.0, 66.0, 48.0, 48.0)
# Distances of dimension lines in points: outside from the outer face, inside from the inner.
NEAR_TIER, FAR_TIER, INNER_TIER = 11.0, 27.0, 15.0


def survey_sheet(
    scenario: Scenario, messages: Sequence[str] = (), *, style: Style = STYLE
) -> Figure:
    """The empty room with every measure, so that a slip of the tape is seen at once.

    ``messages`` say what cannot fit whatever happens; they head the list of
    pieces.
    """
    return evenly(scenario.unit, messages, lambda: _draw(scenario, messages, style))


def _draw(scenario: Scenario, messages: Sequence[str], style: Style) -> Figure:
    page = Page(style)
    right = page.width - MARGIN - COLUMN
    wide = right - 6 - MARGIN
    top = write_title(page, scenario.title, wide) + 4
    page.write(MARGIN, top, "The room as measured", 9.0, colour=style.quiet)
    place = Box(MARGIN, top + 3, wide, page.height - MARGIN - top - 3)
    _draw_room(page, scenario, place)
    top = draw_messages(page, messages, right, MARGIN)
    diagonals = corner_to_corner(scenario.room)
    top = draw_room_facts(page, scenario, diagonals, right, top)
    draw_pieces_list(page, scenario, right, top, page.height - MARGIN)
    return page.figure


def _draw_room(page: Page, scenario: Scenario, place: Box) -> None:
    room, unit, style = scenario.room, scenario.unit, page.style
    width, height = place.width / MM_PER_POINT, place.height / MM_PER_POINT
    ratio = printed_scale(largest_scale(room, width, height, MARGINS, style.wall))
    board = make_board(page.axes(place), room, style, MARGINS, ratio)
    draw_shell(board, room)
    draw_way_in(board, room)
    for fixture in room.fixtures:
        if has_body(fixture):
            draw_fixture(board, fixture)
        else:
            draw_point(board, room, fixture)
    body = drawn_extent(room, style.wall)
    corner = (body.bounds[0], body.bounds[1] - board.mm(58))
    draw_scale_bar(board, corner, unit, f"1:{ratio} printed on A4")
    _dimension_walls(board, room, unit)
    draw_notes(board, room, unit)


def _dimension_walls(board: Board, room: Room, unit: Unit) -> None:
    """Every wall's length with its name, and nearer to it the chain of its openings.

    All lines come before the corners' numbers, and these before all texts, so that
    no text takes the place of a line or of a number.
    """
    every: tuple[Door | Window, ...] = (*room.doors, *room.windows)
    measured: list[tuple[Wall, list[float], float | None, float | None]] = []
    for i, wall in enumerate(room.walls):
        openings = [o for o in every if o.wall == i]
        swings = [o.width for o in room.doors if o.wall == i and o.opens == "out"]
        beyond = max(swings, default=0) * board.scale + NEAR_TIER
        ends = sorted({0.0, wall.length, *(e for o in openings for e in _span(o))})
        if openings:
            chain = _line(board, wall, ends, (NEAR_TIER, -INNER_TIER, beyond))
            tiers: tuple[float, ...] = (FAR_TIER, beyond, beyond + 16, -INNER_TIER, -2 * INNER_TIER)
        else:
            chain, tiers = None, (NEAR_TIER, -INNER_TIER)
        whole = _line(board, wall, [0.0, wall.length], tiers)
        measured.append((wall, ends, chain, whole))
    number_corners(board, room)
    for wall, ends, chain, whole in measured:
        for start, end in pairwise(ends) if len(ends) > 2 else ():
            _write_on(board, wall, start, end, chain, length(round(end - start), unit))
        name = f"{wall.name}  {length(round(wall.length), unit)}"
        _write_on(board, wall, 0.0, wall.length, whole, name, bold=True)


def _span(opening: Door | Window) -> tuple[float, float]:
    return float(opening.offset), float(opening.offset + opening.width)


def _line(board: Board, wall: Wall, ends: Sequence[float], tiers: Sequence[float]) -> float | None:
    """Draw a dimension line at the first free distance; returns its inward offset in mm."""
    for tier in tiers:
        off = -(board.style.wall + board.mm(tier)) if tier > 0 else -board.mm(tier)
        points = [wall.point(e, off) for e in ends]
        inset = min(board.mm(2), wall.length / 4)
        probe = LineString([wall.point(ends[0] + inset, off), wall.point(ends[-1] - inset, off)])
        samples = np.array(
            [probe.interpolate(s, normalized=True).coords[0] for s in np.linspace(0, 1, 200)]
        )
        if not board.ink.under(samples).any() and board.ink.inside(samples):
            draw_line_with_ticks(board, points, board.style.line, gid=f"dimension:{wall.name}")
            return off
    return None


def _write_on(
    board: Board,
    wall: Wall,
    start: float,
    end: float,
    off: float | None,
    text: str,
    *,
    bold: bool = False,
) -> None:
    style = board.style
    wanted = Wanted((text,), (style.dimension_size, 6.0), style.text, bold)
    gid = f"wall:{wall.name}" if bold else f"measure:{wall.name}"
    if off is None:
        target = LineString([wall.point(start), wall.point(end)])
        write_nearby(board, target, wanted, gid, tip="")
        return
    write_beside(board, wall.point(start, off), wall.point(end, off), wanted, gid)
