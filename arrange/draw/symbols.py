"""Plain symbols for pieces, drawn from what each piece is.

A symbol is strokes in the piece's own frame: ``a`` mm from its left, ``b`` mm
from its back. Names go to ``spot``. Everything scales with the piece, so a
small one stays simple.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from arrange.data.piece import Piece
from arrange.data.room import Vector
from arrange.draw.board import Polyline

OVERHEAD = 1000  # an underside this far above the floor is drawn as hanging over it, mm


@dataclass(frozen=True, slots=True)
class Symbol:
    """Strokes inside the outline, the tint, and where a name reads best."""

    tint: str
    strokes: tuple[Polyline, ...] = ()
    dashed: tuple[Polyline, ...] = ()
    spot: Vector | None = None
    outline_dashed: bool = False


def box_run(a0: float, b0: float, a1: float, b1: float) -> Polyline:
    """A closed rectangle."""
    return [(a0, b0), (a1, b0), (a1, b1), (a0, b1), (a0, b0)]


def round_run(a0: float, b0: float, a1: float, b1: float, radius: float) -> Polyline:
    """A closed rectangle with rounded corners."""
    r = max(0.0, min(radius, (a1 - a0) / 2, (b1 - b0) / 2))
    middles = ((a1 - r, b1 - r, 0), (a0 + r, b1 - r, 1), (a0 + r, b0 + r, 2), (a1 - r, b0 + r, 3))
    points = [
        (
            ca + r * math.cos(math.pi / 2 * (q + i / 6)),
            cb + r * math.sin(math.pi / 2 * (q + i / 6)),
        )
        for ca, cb, q in middles
        for i in range(7)
    ]
    return [*points, points[0]]


def circle_run(a: float, b: float, radius: float) -> Polyline:
    """A closed circle."""
    turns = [math.tau * i / 40 for i in range(41)]
    return [(a + radius * math.cos(t), b + radius * math.sin(t)) for t in turns]


def _bed(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    rim, head = min(60.0, w * 0.05), min(420.0, d * 0.22)
    pillow_back = min(70.0, d * 0.04)
    count = 2 if w >= 1300 else 1
    each = (w - rim * (count + 1)) / count
    pillows = [
        round_run(
            rim + i * (each + rim), pillow_back, rim + i * (each + rim) + each, head, w * 0.04
        )
        for i in range(count)
    ]
    turn, band = head + d * 0.04, head + d * 0.12
    cover: list[Polyline] = [[(0, turn), (w, turn)], [(0, band), (w, band)]]
    return Symbol("rest", (*pillows, *cover), spot=(w / 2, (band + d) / 2))


def _cot(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    rim = min(40.0, min(w, d) * 0.08)
    long_a = w >= d
    span = w if long_a else d
    near, far, end = rim * 2, span * 0.22, (d if long_a else w) - rim * 2
    run = round_run(near, near, far, end, 40) if long_a else round_run(near, near, end, far, 40)
    return Symbol("rest", (box_run(rim, rim, w - rim, d - rim), run))


def _sofa(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    back, arm = min(220.0, d * 0.24), min(160.0, w * 0.14)
    strokes: list[Polyline] = [
        [(arm, d), (arm, back), (w - arm, back), (w - arm, d)],
    ]
    seats = max(1, round((w - 2 * arm) / 700))
    for i in range(1, seats):
        a = arm + (w - 2 * arm) * i / seats
        strokes.append([(a, back), (a, back + (d - back) * 0.22)])
        strokes.append([(a, d - (d - back) * 0.1), (a, d)])
    return Symbol("sit", tuple(strokes), spot=(w / 2, (back + d) / 2))


def _chair(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    back = min(70.0, d * 0.15)
    return Symbol("sit", (box_run(0, 0, w, back),), spot=(w / 2, (back + d) / 2))


def _stool(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    rim = min(w, d) * 0.06
    return Symbol("sit", (round_run(rim, rim, w - rim, d - rim, min(w, d) * 0.2),))


def _wardrobe(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    rail = d * 0.3
    ends: list[Polyline] = [
        [(a, rail - d * 0.05), (a, rail + d * 0.05)] for a in (w * 0.04, w * 0.96)
    ]
    front: Polyline = [(0, d - min(30.0, d * 0.06)), (w, d - min(30.0, d * 0.06))]
    line: Polyline = [(w * 0.04, rail), (w * 0.96, rail)]
    return Symbol("store", (line, *ends, front), spot=(w / 2, d * 0.64))


def _chest(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    front = min(35.0, d * 0.1)
    return Symbol("store", ([(0, d - front), (w, d - front)],), spot=(w / 2, (d - front) / 2))


def _open_shelves(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    back = min(35.0, d * 0.12)
    return Symbol("store", ([(0, back), (w, back)],), spot=(w / 2, (d + back) / 2))


def _table(piece: Piece) -> Symbol:
    return Symbol("table", (), spot=(piece.width / 2, piece.depth / 2))


def _desk(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    back = min(50.0, d * 0.09)
    return Symbol("table", ([(0, back), (w, back)],), spot=(w / 2, (d + back) / 2))


def _screen(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    b = d * 0.3
    panel = box_run(w * 0.1, b, w * 0.9, b + min(60.0, d * 0.12))
    return Symbol("store", (panel,), spot=(w / 2, d * 0.7))


def _lamp(piece: Piece) -> Symbol:
    w, d, r = piece.width, piece.depth, min(piece.width, piece.depth) / 2
    return Symbol("other", (circle_run(w / 2, d / 2, r * 0.94), circle_run(w / 2, d / 2, r * 0.22)))


def _plant(piece: Piece) -> Symbol:
    w, d, r = piece.width, piece.depth, min(piece.width, piece.depth) / 2
    turns = [math.tau * i / 72 for i in range(73)]
    leaf = [
        (
            w / 2 + r * (0.84 + 0.1 * math.cos(9 * t)) * math.cos(t),
            d / 2 + r * (0.84 + 0.1 * math.cos(9 * t)) * math.sin(t),
        )
        for t in turns
    ]
    return Symbol("green", (leaf, circle_run(w / 2, d / 2, r * 0.3)))


def _rug(piece: Piece) -> Symbol:
    w, d = piece.width, piece.depth
    rim = min(90.0, min(w, d) * 0.07)
    return Symbol("rug", dashed=(box_run(rim, rim, w - rim, d - rim),), spot=(w / 2, d * 0.85))


def _plain(piece: Piece) -> Symbol:
    return Symbol("other", spot=(piece.width / 2, piece.depth / 2))


Drawer = Callable[[Piece], Symbol]

# First match wins: words looked for in the kind, then the role looked for.
BY_WORD: tuple[tuple[tuple[str, ...], Drawer], ...] = (
    (("rug", "carpet", "mat"), _rug),
    (("screen", "tv", "television", "media"), _screen),
    (("cot", "crib"), _cot),
    (("bedside", "nightstand", "chest", "drawer", "sideboard", "dresser", "cabinet"), _chest),
    (("sofa", "couch", "armchair", "loveseat", "daybed"), _sofa),
    (("stool", "ottoman", "pouf", "bench"), _stool),
    (("chair",), _chair),
    (("wardrobe",), _wardrobe),
    (("shelf", "shelves", "shelving", "bookcase"), _open_shelves),
    (("desk",), _desk),
    (("table",), _table),
    (("lamp",), _lamp),
    (("plant",), _plant),
    (("bed",), _bed),
)
BY_ROLE: tuple[tuple[str, Drawer], ...] = (
    ("rug", _rug),
    ("sleep", _bed),
    ("desk", _desk),
    ("dine", _table),
    ("screen", _screen),
    ("seat", _chair),
    ("light", _lamp),
    ("plant", _plant),
    ("store", _chest),
)


def _drawer(piece: Piece) -> Drawer:
    if piece.is_a("lounge"):
        return _sofa
    words = piece.kind.lower().replace("-", " ").replace("_", " ").split()
    for names, drawer in BY_WORD:
        if any(name in words or f"{name}s" in words for name in names):
            return drawer
    return next((drawer for role, drawer in BY_ROLE if piece.is_a(role)), _plain)


def symbol(piece: Piece) -> Symbol:
    """The symbol of ``piece``; one that hangs overhead is a dashed outline only."""
    if piece.bottom >= OVERHEAD:
        return Symbol("", outline_dashed=True)
    return _drawer(piece)(piece)
