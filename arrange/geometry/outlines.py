"""The outline of a piece from above: a rectangle, round, oval, rounded, or an L of two boxes.

A curve is drawn with straight chords just outside it, so that what keeps off the outline
keeps off the curve. Judge, pictures, ``result.json`` and the model share these corners.
Lengths in mm: ``a`` from the left of the piece, ``b`` from its back.
"""

from __future__ import annotations

import math
from functools import lru_cache

from arrange.data.piece import Piece, Shape, Side
from arrange.data.room import Vector

CURVE = 0.2  # mm that an outline reaches at most beyond its curve
SAME = 1e-6  # mm

Box = tuple[int, int, int, int]  # from (a0, b0) to (a1, b1)
Outline = tuple[Vector, ...]  # the corners round from the right to the front


def outline(piece: Piece) -> Outline:
    """The corners of its outline; its bounds are 0, 0, its width and its depth."""
    if piece.shape == "L":
        return _ell(piece)
    return _outline(piece.shape, piece.width, piece.depth, piece.corner)


def rectangles(piece: Piece) -> tuple[Box, ...]:
    """The rectangles it is made of, which touch; none where it is made of none."""
    w, d, arm, back = piece.width, piece.depth, piece.arm_width, piece.back_depth
    if piece.shape == "L":
        side = (0, arm) if piece.arm_side == "left" else (w - arm, w)
        return (0, 0, w, back), (side[0], back, side[1], d)
    return ((0, 0, w, d),) if piece.fills_its_box else ()


def edge(piece: Piece, side: Side) -> tuple[int, int, int]:
    """Where a side is used from: how far off its frame's axis, where it starts and ends.

    An L is used from within: its front is before the part along its back, and the side away
    from the arm is before the arm.
    """
    w, d, arm, back = piece.width, piece.depth, piece.arm_width, piece.back_depth
    if piece.shape == "L":
        left = piece.arm_side == "left"
        if side == "front":
            return (back, arm, w) if left else (back, 0, w - arm)
        if side == ("right" if left else "left"):
            return (arm if left else w - arm), back, d
    far = {"front": d, "back": 0, "left": 0, "right": w}[side]
    return far, 0, w if side in ("front", "back") else d


def _ell(piece: Piece) -> Outline:
    (_, _, w, back), (low, _, high, d) = rectangles(piece)
    if low == 0:
        return (0, 0), (w, 0), (w, back), (high, back), (high, d), (0, d)
    return (0, 0), (w, 0), (w, d), (low, d), (low, back), (0, back)


@lru_cache(1024)
def _outline(shape: Shape, width: int, depth: int, corner: int) -> Outline:
    half = width / 2, depth / 2
    reach = half if shape in ("round", "oval") else (min(corner, *half), min(corner, *half))
    run = _run(shape, *reach)
    sides = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    corners = [
        (half[0] + way_a * (half[0] - a), half[1] + way_b * (half[1] - b))
        for way_a, way_b in sides
        for a, b in (run if way_a == way_b else run[::-1])
    ]
    return tuple(dict.fromkeys(corners))  # where the runs of two corners meet


def _run(shape: Shape, a: float, b: float) -> list[Vector]:
    """One corner that reaches ``a`` and ``b`` along two sides, as distances off these sides."""
    if shape == "rectangle":
        return [(0.0, 0.0)]
    if shape == "cut corners":
        return [(0.0, b), (a, 0.0)]
    count = chords(max(a, b))
    step = math.pi / 2 / count
    far = 1 / math.cos(step / 2)
    turns = [(k + 0.5) * step for k in range(count)]
    return [(a - a * far * math.cos(t), b - b * far * math.sin(t)) for t in turns]


def chords(radius: float) -> int:
    """How many chords a quarter of a circle takes.

    >>> chords(250), chords(500), chords(900)
    (20, 28, 38)
    """
    return max(1, math.ceil(math.pi / 4 / math.acos(radius / (radius + CURVE))))


def lying(corners: Outline, *, across: bool) -> Outline:
    """The corners on the plan, from the lower left of what they lie in.

    ``across`` if the width runs across the plan; else it runs up. Every outline looks the
    same in a mirror, so there is no third way.
    """
    return corners if across else tuple((b, a) for a, b in corners)


def alike(one: Outline, two: Outline) -> bool:
    """Whether they are the same but for rounding."""
    return len(one) == len(two) and all(
        math.dist(a, b) < SAME for a, b in zip(sorted(one), sorted(two), strict=True)
    )
