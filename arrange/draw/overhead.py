"""What is overhead: the floor under a low ceiling, lines of equal height, beams. Lengths in mm.

The floor where nobody can stand up is tinted. Where a ceiling slopes, a dashed line runs
wherever it is as high as one of two figures; a beam is drawn dashed, as what hangs over a plan is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from shapely import line_merge, union_all
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from arrange.data.lengths import measured
from arrange.data.piece import STANDING
from arrange.data.room import Beam, Room, Vector
from arrange.data.scenario import Unit
from arrange.draw.board import Board, upright
from arrange.draw.labels import Spot, Wanted, direction, write_first
from arrange.geometry.ceilings import low_floor, under_slopes
from arrange.geometry.shapes import room_shape

HEIGHTS, HEIGHTS_IN = (1500, 2000), (1524, 2134)  # mm; 5 ft and 7 ft where inches are measured
NOWHERE = Polygon()
TINTED = "Tinted: too low to stand up straight."
ALONG = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75)


def low_lines(room: Room, unit: Unit) -> list[tuple[LineString, int]]:
    """Where the sloping ceiling is as high as each figure, with that height in mm."""
    inner = room_shape(room).buffer(-1)
    found: list[tuple[LineString, int]] = []
    for height in HEIGHTS_IN if unit == "in" else HEIGHTS:
        low = under_slopes(room, height)
        if low:
            edge = union_all(low).boundary.intersection(inner)
            merged = line_merge(edge) if hasattr(edge, "geoms") else edge
            found += [(p, height) for p in getattr(merged, "geoms", [merged]) if p.length > 0]
    return found


def draw_overhead(board: Board, room: Room, unit: Unit) -> None:
    """The floor where nobody can stand up tinted, the lines of equal height, and beams."""
    low = union_all(low_floor(room, STANDING)).intersection(room_shape(room))
    if not low.is_empty:
        board.fill(low, board.style.low, 0.5, gid="slope")
    runs = [list(line.coords) for line, _ in low_lines(room, unit)]
    if runs:
        board.lines(runs, 0.5, board.style.fine, 0.7, dash=(5.0, 3.0), ink=False, gid="slope:lines")
    if runs := [list(edge.coords) for edges in _edges(room).values() for edge in edges]:
        board.lines(runs, 0.6, board.style.fine, 0.7, dash=(9.0, 3.0), ink=False, gid="beam:lines")


def _edges(room: Room) -> dict[Beam, list[LineString]]:
    """The edges of each beam in the room; not where it ends at a wall."""
    inner, found = room_shape(room).buffer(-1), {}
    for beam in room.beams:
        edge = box(*beam.box).exterior.intersection(inner)
        merged = line_merge(edge) if hasattr(edge, "geoms") else edge
        found[beam] = [p for p in getattr(merged, "geoms", [merged]) if p.length > 0]
    return found


def name_overhead(board: Board, room: Room, unit: Unit, taken: BaseGeometry = NOWHERE) -> None:
    """How high slopes and beams are, beside their lines, off what is taken, if there is room."""
    style = board.style
    for line, height in low_lines(room, unit):
        high = measured(height, unit)
        wanted = Wanted((f"ceiling {high} high", f"{high} high"), (style.note_size,), style.quiet)
        spots = partial(_along, board, line, taken)
        write_first(board, spots, wanted, "slope:text")
    for beam, edges in _edges(room).items():
        told = beam_words(beam, unit)
        wanted = Wanted((f"{beam.name}, {told}", told), (style.note_size,), style.quiet)
        if edges:
            longest = max(edges, key=lambda edge: edge.length)
            write_first(board, partial(_along, board, longest, taken), wanted, "beam:text")


def beam_words(beam: Beam, unit: Unit) -> str:
    """How low a beam hangs.

    >>> beam_words(Beam("beam", 0, (0, 0, 4000, 200), 2100), "cm")
    '210 cm high'
    """
    if beam.drop:
        return f"{measured(beam.drop, unit)} below the slope"
    return f"{measured(beam.height, unit, 'down')} high"


def _along(board: Board, line: LineString, taken: BaseGeometry, text: Vector) -> Iterator[Spot]:
    """Spots on both sides of each straight part of a line, longest part first."""
    parts = sorted(pairwise(line.coords), key=lambda ends: -math.dist(*ends))
    for start, end in parts:
        (ux, uy), angle = direction(start, end)
        off = text[1] / 2 + board.mm(1.3)
        for share in ALONG:
            x, y = (a + (b - a) * share for a, b in zip(start, end, strict=True))
            for side in (off, -off):
                at = (x - uy * side, y + ux * side)
                if board.corners(at, text, upright(angle)).disjoint(taken):
                    yield at, upright(angle)
