"""The gaps with the least to spare, for the plan's dimension lines. Lengths in mm."""

from __future__ import annotations

from arrange.data.piece import Clearance, Side
from arrange.data.result import Gap
from arrange.geometry import frame, shares_floor, strip_corners
from arrange.scene import Placed, Scene

SHOWN = 3
MOST = 1500  # a gap wider than this is not tight


def tightest_gaps(scene: Scene) -> tuple[Gap, ...]:
    """Up to three clearances with the least to spare beyond their least depth.

    Each gap runs from the middle of the piece's side to what it faces. Of two
    gaps between the same two things only the tighter one is kept.
    """
    found: list[tuple[int, Gap]] = []
    for placed in scene.placed:
        for clearance in placed.piece.clearances:
            if clearance.least > 0:
                depth, side = _best_side(scene, placed, clearance)
                if depth <= MOST:
                    gap = _gap(scene, placed, clearance, side, depth)
                    found.append((depth - clearance.least, gap))
    found.sort(key=lambda pair: (pair[0], pair[1].length, pair[1].between))
    kept: list[Gap] = []
    for _, gap in found:
        if all(set(gap.between) != set(k.between) for k in kept):
            kept.append(gap)
    return tuple(kept[:SHOWN])


def _best_side(scene: Scene, placed: Placed, clearance: Clearance) -> tuple[int, Side]:
    depths = [(scene.side_depth(placed, clearance, side), side) for side in clearance.sides]
    return max(depths, key=lambda pair: pair[0])


def _gap(scene: Scene, placed: Placed, clearance: Clearance, side: Side, depth: int) -> Gap:
    piece = placed.piece
    own = frame(piece, placed.placement, scene.scenario.room)
    a0, b0, a1, b1 = strip_corners(piece, side, depth, clearance.skip_start, clearance.skip_end)
    middle_a, middle_b = (a0 + a1) / 2, (b0 + b1) / 2
    if side in ("front", "back"):
        ends = (
            own.at(middle_a, b0 if side == "front" else b1),
            own.at(middle_a, b1 if side == "front" else b0),
        )
    else:
        ends = (
            own.at(a0 if side == "right" else a1, middle_b),
            own.at(a1 if side == "right" else a0, middle_b),
        )
    return Gap(ends[0], ends[1], depth, (piece.name, _met(scene, placed, clearance, side, depth)))


def _met(scene: Scene, placed: Placed, clearance: Clearance, side: Side, depth: int) -> str:
    """The name of what ends the gap: a piece, a fixture or the wall."""
    zone = scene.zone(placed, clearance, side, depth + 2)
    for other in scene.placed:
        piece = other.piece
        own = placed.name in (piece.name, piece.anchor)
        minded = not own and not piece.flat and piece.bottom < clearance.height
        if minded and shares_floor(zone, other.body):
            return piece.name
    for fixture, (shape, _) in zip(scene.solid_named, scene.solid_fixtures, strict=True):
        if shares_floor(zone, shape):
            return fixture
    return "the wall"
