"""Measured lines: dimensions with ticks, tight gaps, the scale bar, the way in. Lengths in mm.

The short block on a sheet that says how much room there is to spare.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from matplotlib.artist import Artist
from shapely.geometry import LineString, Polygon

from arrange.data.lengths import length, measured
from arrange.data.result import Gap
from arrange.data.room import Room, Vector
from arrange.data.scenario import Unit
from arrange.data.spare import FINEST, Spare
from arrange.draw.labels import Board, Wanted, upright, write_nearby
from arrange.draw.text import Box, Page, ascent, line_height, text_height
from arrange.geometry.shapes import opening_span
from arrange.words.slack import spare_words


def direction(start: Vector, end: Vector) -> tuple[Vector, float]:
    """Unit vector and angle in degrees from ``start`` to ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    n = math.hypot(dx, dy) or 1.0
    return (dx / n, dy / n), math.degrees(math.atan2(dy, dx))


def draw_line_with_ticks(
    board: Board, points: Sequence[Vector], colour: str, z: float = 8.0, gid: str = ""
) -> Artist:
    """A dimension line through ``points`` with a slanting tick at each."""
    (ux, uy), _ = direction(points[0], points[-1])
    r = board.mm(2.2)
    slant = ((ux - uy) * r * 0.7071, (uy + ux) * r * 0.7071)
    ticks = [[(x - slant[0], y - slant[1]), (x + slant[0], y + slant[1])] for x, y in points]
    past = board.mm(2.0)
    first, last = points[0], points[-1]
    line = [
        (first[0] - ux * past, first[1] - uy * past),
        (last[0] + ux * past, last[1] + uy * past),
    ]
    board.solid.add_line(line)
    return board.lines([line, *ticks], board.style.dimension_width, colour, z, gid=gid)


def draw_gaps(board: Board, gaps: Iterable[Gap], unit: Unit) -> list[Artist]:
    """The tightest gaps, each with its length beside it."""
    style = board.style
    drawn: list[Artist] = []
    kept = [g for g in gaps if math.dist(g.start, g.end) > 1]
    for gap in kept:
        gid = f"gap:{'|'.join(gap.between)}"
        line = draw_line_with_ticks(board, [gap.start, gap.end], style.accent, 15.0, gid)
        drawn.append(line)
    for gap in kept:
        label = measured(gap.length, unit)
        wanted = Wanted(
            (label,), (style.dimension_size, style.dimension_size - 1), style.accent, bold=True
        )
        drawn += write_beside(board, gap.start, gap.end, wanted)
    return drawn


def write_beside(
    board: Board, start: Vector, end: Vector, wanted: Wanted, gid: str = "", tip: str = ""
) -> list[Artist]:
    """Write along a line, on either side of it; else nearby with a leader."""
    (ux, uy), angle = direction(start, end)
    along = upright(angle)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    span = math.dist(start, end)
    for size in wanted.sizes:
        w, h = box = board.size(wanted.texts[0], size, wanted.bold)
        for turn, reach in ((along, h), (0.0, abs(uy) * w + abs(ux) * h)):
            for slide in (0.0, 0.2, -0.2, 0.35, -0.35):
                for side in (1, -1):
                    off = side * (reach / 2 + board.mm(1.3))
                    at = (
                        middle[0] - uy * off + ux * span * slide,
                        middle[1] + ux * off + uy * span * slide,
                    )
                    if board.free(at, box, turn):
                        return [
                            board.text(
                                at,
                                wanted.texts[0],
                                size,
                                colour=wanted.colour,
                                angle=turn,
                                bold=wanted.bold,
                                gid=gid,
                            )
                        ]
    return write_nearby(board, LineString([start, end]), wanted, gid, tip)


def draw_overall(board: Board, room: Room, unit: Unit, body: Polygon) -> list[Artist]:
    """The room's greatest width below and height at the left, outside ``body``."""
    style = board.style
    x0, y0, x1, y1 = room.bounds
    below = body.bounds[1] - board.mm(17)
    beside = body.bounds[0] - board.mm(17)
    drawn: list[Artist] = []
    for start, end, size in (
        ((x1, below), (x0, below), x1 - x0),
        ((beside, y0), (beside, y1), y1 - y0),
    ):
        drawn.append(draw_line_with_ticks(board, [start, end], style.line, gid="overall"))
        wanted = Wanted((length(size, unit),), (style.dimension_size,), style.text)
        drawn += write_beside(board, start, end, wanted, "overall:text")
    return drawn


def draw_scale_bar(board: Board, corner: Vector, unit: Unit, note: str = "") -> list[Artist]:
    """One metre (three feet in inches) in two halves, its left end at ``corner``."""
    style = board.style
    whole, label = (914.4, "3 ft") if unit == "in" else (1000.0, "1 m")
    h = board.mm(2.6)
    x, y = corner
    halves = [
        Polygon([(x + a, y), (x + b, y), (x + b, y + h), (x + a, y + h)])
        for a, b in ((0, whole / 2), (whole / 2, whole))
    ]
    fills = (style.cut, style.paper)
    drawn: list[Artist] = [
        board.fill(half, fill, 8.0, "scale bar", edgecolor=style.cut, linewidth=0.6)
        for half, fill in zip(halves, fills, strict=True)
    ]
    text = f"{label}   {note}" if note else label
    w, _ = board.size(text, style.note_size)
    at = (x + whole + board.mm(3) + w / 2, y + h / 2)
    drawn.append(board.text(at, text, style.note_size, colour=style.quiet, gid="scale"))
    return drawn


def draw_way_in(board: Board, room: Room) -> list[Artist]:
    """A small arrow outside the door people come in by, pointing into the room."""
    door = room.main_door
    if door is None:
        return []
    (ax, ay), (bx, by) = opening_span(room, door)
    nx, ny = room.walls[door.wall].inward
    ux, uy = room.walls[door.wall].along
    middle = ((ax + bx) / 2, (ay + by) / 2)
    tip = board.style.wall + board.mm(2.5)
    base, half = tip + board.mm(6), board.mm(3.2)

    def at(along: float, out: float) -> Vector:
        return middle[0] + ux * along - nx * out, middle[1] + uy * along - ny * out

    arrow = Polygon([at(0, tip), at(half, base), at(-half, base)])
    board.ink.add_shape(arrow)
    board.solid.add_shape(arrow)
    return [board.fill(arrow, board.style.accent, 8.0, gid="way in")]


SIZE = 6.5
MARK = 3.5  # mm for the sign before a line with less than a centimetre
TITLE = "Room to spare"


def spare_height(spares: Sequence[Spare], unit: Unit, width: float) -> float:
    """Height in mm of the block; 0 if there is nothing to tell."""
    if not spares:
        return 0.0
    rows = (text_height(spare_words(s, unit), SIZE, width - MARK) + 0.6 for s in spares)
    return line_height(SIZE + 1) + 1.0 + sum(rows) + 2.0


def draw_spares(page: Page, spares: Sequence[Spare], unit: Unit, box: Box) -> None:
    """One line each, the tightest first; an exclamation mark where a centimetre matters."""
    if not spares:
        return
    top = page.paragraph(box.left, box.top, box.width, TITLE, SIZE + 1, bold=True) + 1.0
    for spare in spares:
        if spare.mm < FINEST:
            page.write(box.left + 0.8, top + ascent(SIZE), "!", SIZE, bold=True)
        else:
            page.write(box.left, top + ascent(SIZE), "\N{EN DASH}", SIZE, colour=page.style.quiet)
        text = spare_words(spare, unit)
        top = page.paragraph(box.left + MARK, top, box.width - MARK, text, SIZE, gid="spare") + 0.6
