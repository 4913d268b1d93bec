"""Measured lines: dimensions with ticks, tight gaps, the scale bar, the way in. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from shapely.geometry import Polygon, box

from arrange.data.lengths import length, measured
from arrange.data.result import Gap
from arrange.data.room import Room, Vector
from arrange.data.scenario import Unit
from arrange.draw.board import ABOVE, Board
from arrange.draw.labels import Wanted, direction, write_beside
from arrange.geometry.shapes import opening_span


def draw_line_with_ticks(
    board: Board, points: Sequence[Vector], colour: str, z: float = 8.0, gid: str = ""
) -> None:
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
    board.lines([line, *ticks], board.style.dimension_width, colour, z, gid=gid)


def draw_gaps(board: Board, gaps: Iterable[Gap], unit: Unit) -> None:
    """The tightest gaps, each with its length beside it."""
    style = board.style
    kept = [g for g in gaps if math.dist(g.start, g.end) > 1]
    for gap in kept:
        gid = f"gap:{'|'.join(gap.between)}"
        draw_line_with_ticks(board, [gap.start, gap.end], style.accent, ABOVE, gid)
    for gap in kept:
        label = measured(gap.length, unit)
        wanted = Wanted(
            (label,), (style.dimension_size, style.dimension_size - 1), style.accent, bold=True
        )
        write_beside(board, gap.start, gap.end, wanted)


def draw_overall(board: Board, room: Room, unit: Unit, body: Polygon) -> None:
    """The room's greatest width below and height at the left, outside ``body``."""
    style = board.style
    x0, y0, x1, y1 = room.bounds
    below = body.bounds[1] - board.mm(17)
    beside = body.bounds[0] - board.mm(17)
    for start, end, size in (
        ((x1, below), (x0, below), x1 - x0),
        ((beside, y0), (beside, y1), y1 - y0),
    ):
        draw_line_with_ticks(board, [start, end], style.line, gid="overall")
        wanted = Wanted((length(size, unit),), (style.dimension_size,), style.text)
        write_beside(board, start, end, wanted, "overall:text")


def draw_scale_bar(board: Board, corner: Vector, unit: Unit, note: str = "") -> None:
    """One metre (three feet in inches) in two halves, its left end at ``corner``."""
    style = board.style
    whole, label = (914.4, "3 ft") if unit == "in" else (1000.0, "1 m")
    h = board.mm(2.6)
    x, y = corner
    for start, end, fill in ((0, whole / 2, style.cut), (whole / 2, whole, style.paper)):
        half = box(x + start, y, x + end, y + h)
        board.fill(half, fill, 8.0, "scale bar", edge=style.cut, width=0.6)
    text = f"{label}   {note}" if note else label
    w, _ = board.size(text, style.note_size)
    at = (x + whole + board.mm(3) + w / 2, y + h / 2)
    board.text(at, text, style.note_size, colour=style.quiet, gid="scale")


def draw_way_in(board: Board, room: Room) -> None:
    """A small arrow outside the door people come in by, pointing into the room."""
    door = room.main_door
    if door is None:
        return
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
    board.fill(arrow, board.style.accent, 8.0, gid="way in")
