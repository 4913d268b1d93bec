"""The gaps with the least to spare, for the plan's dimension lines. Lengths in mm."""

from __future__ import annotations

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import Clearance, Piece, Side
from arrange.data.result import Gap
from arrange.data.room import Vector
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import Frame, frame, shares_floor

SHOWN = 3
SLIVER = 2  # mm that the strip is drawn out to see what it meets
MOST = 1500  # a gap wider than this is not tight


def tightest_gaps(scene: Scene) -> tuple[Gap, ...]:
    """Up to three clearances with the least to spare beyond their least depth.

    Each gap runs straight from the side of the piece to what it faces, where the two
    are opposite one another and beside the piece's own chair if possible. Of two
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
    name, meeting = _met(scene, placed, clearance, side, depth)
    own = frame(placed.piece, placed.placement, scene.scenario.room)
    lines = [_line(own, placed.piece, side, depth, at) for at in _places(own, side, meeting)]
    # Beside the piece's own chair rather than through it, where there is room.
    clear = [line for line in lines if not _crosses(scene, placed, line)]
    start, end = (clear or lines)[0]
    return Gap(start, end, depth, (placed.name, name))


def _places(own: Frame, side: Side, meeting: BaseGeometry) -> list[float]:
    """Where along the side to measure: the middle of what is met, then toward its ends."""
    along = own.across if side in ("front", "back") else own.ahead
    points = [
        (x - own.origin[0]) * along[0] + (y - own.origin[1]) * along[1]
        for part in getattr(meeting, "geoms", [meeting])
        for x, y in part.exterior.coords
    ]
    low, high = min(points), max(points)
    return [low + (high - low) * share for share in (0.5, 0.25, 0.75, 0.1, 0.9)]


def _line(own: Frame, piece: Piece, side: Side, depth: int, at: float) -> tuple[Vector, Vector]:
    if side == "front":
        return own.at(at, piece.depth), own.at(at, piece.depth + depth)
    if side == "back":
        return own.at(at, 0), own.at(at, -depth)
    if side == "left":
        return own.at(0, at), own.at(-depth, at)
    return own.at(piece.width, at), own.at(piece.width + depth, at)


def _crosses(scene: Scene, placed: Placed, line: tuple[Vector, Vector]) -> bool:
    """Whether a line runs through a standing piece that belongs to this one."""
    shape = LineString(line)
    return any(
        other.piece.anchor == placed.name and shape.crosses(other.body) for other in scene.standing
    )


def _met(
    scene: Scene, placed: Placed, clearance: Clearance, side: Side, depth: int
) -> tuple[str, BaseGeometry]:
    """What ends the gap (a piece, a fixture or the wall), and the sliver where they meet."""
    zone = scene.zone(placed, clearance, side, depth + SLIVER)
    for other in scene.placed:
        if clearance.minds(placed.piece, other.piece) and shares_floor(zone, other.body):
            return other.name, zone.intersection(other.body)
    for fixture, (shape, _) in zip(scene.solid_named, scene.solid_fixtures, strict=True):
        if shares_floor(zone, shape):
            return fixture, zone.intersection(shape)
    beyond = zone.difference(scene.room)
    return "the wall", zone if beyond.is_empty else beyond
