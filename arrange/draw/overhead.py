"""What is overhead: the floor under a low ceiling, lines of equal height, beams. Lengths in mm.

The floor where nobody can stand up is tinted. Where a ceiling slopes, a dashed line runs
wherever it is as high as one of two figures; dormers and beams are drawn dashed, as what hangs over
a plan is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial
from itertools import pairwise

from shapely import line_merge, union_all
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from arrange.data.lengths import measured, the
from arrange.data.piece import STANDING
from arrange.data.room import BOXED, Beam, Dormer, Fixture, Room, Vector
from arrange.data.scenario import Unit
from arrange.draw.board import Board, upright
from arrange.draw.labels import Spot, Wanted, direction, write_first
from arrange.geometry.ceilings import low_floor, under_slopes
from arrange.geometry.shapes import fixture_shape, room_shape

HEIGHTS, HEIGHTS_IN = (1500, 2000), (1524, 2134)  # mm; 5 ft and 7 ft where inches are measured
NOWHERE = Polygon()
TINTED = "Tinted: too low to stand up straight."
ALONG = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75)


def low_lines(room: Room, unit: Unit) -> list[tuple[LineString, int]]:
    """Where the sloping ceiling is as high as each figure, with that height in mm."""
    inner = room_shape(room).buffer(-1)
    # At the sides of a dormer the ceiling jumps: no line of one height runs there.
    inner = inner.difference(union_all([box(*d.box).exterior.buffer(1) for d in room.dormers]))
    found: list[tuple[LineString, int]] = []
    for height in HEIGHTS_IN if unit == "in" else HEIGHTS:
        low = under_slopes(room, height)
        if low:
            edge = union_all(low).boundary.intersection(inner)
            merged = line_merge(edge) if hasattr(edge, "geoms") else edge
            found += [(p, height) for p in getattr(merged, "geoms", [merged]) if p.length > 0]
    return found


def draw_overhead(board: Board, room: Room, unit: Unit) -> None:
    """The floor where nobody can stand up tinted, lines of equal height, dormers and beams."""
    low = union_all(low_floor(room, STANDING)).intersection(room_shape(room))
    if not low.is_empty:
        board.fill(low, board.style.low, 0.5, gid="slope")
    for gid, lines, dash in (
        ("slope:lines", [line for line, _ in low_lines(room, unit)], (5.0, 3.0)),
        ("dormer:lines", [e for d in room.dormers for e in _edges(room, d)], (9.0, 3.0)),
        ("beam:lines", [e for b in room.beams for e in _edges(room, b)], (9.0, 3.0)),
    ):
        if runs := [list(line.coords) for line in lines]:
            board.lines(runs, 0.5, board.style.fine, 0.7, dash=dash, ink=False, gid=gid)


def _edges(room: Room, one: Beam | Dormer) -> list[LineString]:
    """The edges of a beam or a dormer in the room, the longest first; not along a wall."""
    edge = box(*one.box).exterior.intersection(room_shape(room).buffer(-1))
    parts = [pairwise(line.coords) for line in getattr(edge, "geoms", [edge])]
    lines = [LineString(ends) for part in parts for ends in part]
    return sorted(lines, key=lambda line: (-line.length, *line.bounds))


def name_overhead(board: Board, room: Room, unit: Unit, taken: BaseGeometry = NOWHERE) -> None:
    """How high all of it is, beside its lines, off what is taken, if there is room."""
    lines = low_lines(room, unit)
    told: list[tuple[str, list[LineString], tuple[str, ...]]] = []
    for line, mm in lines:
        high = f"{measured(mm, unit)} high"
        told.append(("slope:text", [line], (f"ceiling {high}", high)))
    for gid, things in (("dormer:text", room.dormers), ("beam:text", room.beams)):
        for one in things:
            words = height_words(one, unit)
            told.append((gid, _edges(room, one), (f"{one.name}, {words}", words)))
    for stairs in (f for f in room.fixtures if f.underside or f.kind == BOXED):
        ring = list(fixture_shape(stairs).exterior.coords)
        edges = [LineString(ends) for ends in pairwise(ring)]
        told.append(("stairs:text", edges, stairs_words(stairs, unit)))
    drawn = union_all([line for _, edges, _ in told for line in edges])
    for gid, edges, texts in told:
        # Off every line if there is room for that, else off its own alone.
        any(
            write_first(
                board,
                partial(_along, board, edges, off),
                Wanted((text,), (board.style.note_size,), board.style.quiet),
                gid,
            )
            for text in texts
            for off in (taken.union(drawn), taken)
        )


def stairs_words(stairs: Fixture, unit: Unit) -> tuple[str, ...]:
    """How high boxed stairs are, or what is below open ones; a longer and a shorter wording.

    >>> stairs_words(Fixture("box", "boxed stairs", (), top=1100, low_top=300), "cm")
    ('box, 30 cm to 110 cm high', '30 cm to 110 cm high')
    """
    if stairs.underside:
        high = measured(stairs.underside, unit, "down")
        return (f"below {the(stairs.name)}, up to {high} high",)
    heights = [measured(mm, unit) for mm in (stairs.low_top, stairs.top) if mm]
    high = f"{' to '.join(heights)} high"
    return f"{stairs.name}, {high}", high


def height_words(one: Beam | Dormer, unit: Unit) -> str:
    """How low a beam hangs, or how high a dormer is.

    >>> height_words(Beam("beam", 0, (0, 0, 4000, 200), 2100), "cm")
    '210 cm high'
    """
    if isinstance(one, Beam) and one.drop:
        return f"{measured(one.drop, unit)} below the ceiling"
    return f"{measured(one.height, unit, 'down')} high"


def _along(
    board: Board, lines: Sequence[LineString], taken: BaseGeometry, text: Vector
) -> Iterator[Spot]:
    """Spots on both sides of each straight part of some lines, longest part first."""
    parts = sorted(
        (ends for line in lines for ends in pairwise(line.coords)), key=lambda e: -math.dist(*e)
    )
    for start, end in parts:
        (ux, uy), angle = direction(start, end)
        off = text[1] / 2 + board.mm(1.3)
        for share in ALONG:
            x, y = (a + (b - a) * share for a, b in zip(start, end, strict=True))
            for side in (off, -off):
                at = (x - uy * side, y + ux * side)
                if board.corners(at, text, upright(angle)).disjoint(taken):
                    yield at, upright(angle)
