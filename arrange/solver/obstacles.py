"""What does not move, cut into convex parts, and where a piece can slide along a wall."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ortools.sat.python import cp_model
from shapely import box
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Wall
from arrange.geometry import DEPTH, NOTHING
from arrange.solver.boxes import FixedShape

EDGE = DEPTH  # mm forgiven where a slant gives lengths that are not whole, as the judge does


def convex_parts(shape: BaseGeometry) -> list[FixedShape]:
    """A shape with straight sides as convex parts that do not overlap.

    Cut into slabs at every corner, lying or standing, whichever gives fewer.
    """
    polygons = _polygons(shape)
    xs = sorted({c[0] for p in polygons for ring in _rings(p) for c in ring})
    ys = sorted({c[1] for p in polygons for ring in _rings(p) for c in ring})
    if not xs:
        return []
    standing = [box(a, ys[0], b, ys[-1]) for a, b in pairwise(xs)]
    lying = [box(xs[0], a, xs[-1], b) for a, b in pairwise(ys)]
    cuts = [
        [part for slab in slabs for part in _polygons(shape.intersection(slab))]
        for slabs in (standing, lying)
    ]
    return [fixed(part) for part in min(cuts, key=len)]


def _rings(polygon: Polygon) -> list[Sequence[tuple[float, ...]]]:
    return [list(polygon.exterior.coords), *[list(r.coords) for r in polygon.interiors]]


def fixed(shape: Polygon) -> FixedShape:
    """A convex polygon as an obstacle; upright rectangles are recognised."""
    x0, y0, x1, y1 = shape.bounds
    upright = None
    if abs(shape.area - (x1 - x0) * (y1 - y0)) < 1 and all(
        abs(v - round(v)) < EDGE for v in (x0, y0, x1, y1)
    ):
        upright = (round(x0), round(y0), round(x1), round(y1))
    return FixedShape(shape, upright)


def _polygons(shape: BaseGeometry, least: float = 1) -> list[Polygon]:
    parts = getattr(shape, "geoms", [shape])
    return [p for p in parts if isinstance(p, Polygon) and p.area > least]


def along_wall(shape: Polygon, wall: Wall) -> Polygon:
    """The shape in the wall's own frame: x along the wall, y into the room."""
    (ax, ay), (nx, ny) = wall.along, wall.inward
    ox, oy = wall.start
    return affine_transform(shape, [ax, ay, nx, ny, -(ax * ox + ay * oy), -(nx * ox + ny * oy)])


def free_offsets(
    span: tuple[int, int],
    strip: tuple[int, int, int, int],
    obstacles: Sequence[Polygon],
) -> cp_model.Domain:
    """Offsets t at which a strip slid along a wall meets no obstacle.

    ``strip`` is (a0, b0, a1, b1) at offset 0 and ``obstacles`` are shapes in the
    wall's frame; t runs over whole mm of ``span``. Exact for obstacles of any
    shape, because each connected part of an obstacle within the strip's depth
    blocks one interval of offsets.
    """
    a0, b0, a1, b1 = strip
    blocked: list[list[int]] = []
    for obstacle in obstacles:
        x0, y0, x1, y1 = obstacle.bounds
        if y1 <= b0 + EDGE or y0 >= b1 - EDGE:
            continue
        band = box(x0 - 1, b0, x1 + 1, b1)
        for part in _polygons(obstacle.intersection(band), NOTHING):
            low, _, high, _ = part.bounds
            first = math.floor(low - a1 + EDGE) + 1
            last = math.ceil(high - a0 - EDGE) - 1
            if first <= last:
                blocked.append([first, last])
    whole = cp_model.Domain(*span) if span[0] <= span[1] else cp_model.Domain.from_intervals([])
    free = cp_model.Domain.from_intervals(blocked).complement()
    return whole.intersection_with(free)
