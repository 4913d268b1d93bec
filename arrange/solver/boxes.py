"""Convex shapes of the model: fixed or movable, upright or along a slanted wall.

A box lives in a frame (an origin and two unit vectors). In the plan's own frame
its sides are upright and CP-SAT's two-dimensional no-overlap applies; a box in
the frame of a slanted wall is kept apart from others by a separating line. So is a hull,
the body of a piece that is no rectangle; the largest box inside it helps no-overlap along.

What does not move is cut into convex parts, and bars stretches of a wall; both are
remembered, for questions about one room are asked by the hundred.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise

from ortools.sat.python import cp_model
from shapely import box
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Vector, Wall
from arrange.geometry.outlines import Outline
from arrange.geometry.shapes import DEPTH, NOTHING

# Slanted directions become whole-number coefficients. With 2**22 the rounding
# moves a line by less than 0.005 mm across a 20 m room.
SCALE = 1 << 22
# So much may be shared, times SCALE, that what lies flush along a slant is not taken for an
# overlap. With the rounding it is no more than the judge forgives.
FORGIVEN = round(SCALE * DEPTH / 2)
# The library's own aliases also take numpy numbers, which we never hand it.
Expr = cp_model.LinearExpr | int
CACHED = 1 << 15  # figures of fixed shapes remembered: many scenarios are of the same room
FAR = 1_000_000  # half mm; more than any room and what lies in it
Literal = cp_model.BoolVarT  # a yes-or-no variable or its opposite


@dataclass(frozen=True, slots=True)
class Axes:
    """Origin and directions of a frame; ``PLAN`` is the plan itself."""

    origin: Vector = (0.0, 0.0)
    first: Vector = (1.0, 0.0)
    second: Vector = (0.0, 1.0)

    @classmethod
    def of_wall(cls, wall: Wall) -> Axes:
        """Along the wall from its left end, and into the room."""
        return cls(wall.start, wall.along, wall.inward)


PLAN = Axes()


@dataclass(eq=False)
class Box:
    """A rectangle from (a0, b0) to (a1, b1) in ``axes``, there when all ``when`` hold.

    ``sizes`` are its two sizes where those are simpler expressions than the
    difference of its ends; the intervals of no-overlap want them so.
    """

    a0: Expr
    b0: Expr
    a1: Expr
    b1: Expr
    axes: Axes = PLAN
    when: tuple[Literal, ...] = ()
    sizes: tuple[Expr, Expr] | None = None
    _intervals: tuple[cp_model.IntervalVar, cp_model.IntervalVar] | None = None

    def interval(self, cp: cp_model.CpModel, axis: int) -> cp_model.IntervalVar:
        """The x (0) or y (1) interval of an upright box, made once."""
        if self._intervals is None:
            present = None if not self.when else all_of(cp, self.when)
            made = []
            for start, end, k in ((self.a0, self.a1, 0), (self.b0, self.b1, 1)):
                size = self.sizes[k] if self.sizes is not None else end - start
                made.append(
                    cp.new_interval_var(start, size, end, "")
                    if present is None
                    else cp.new_optional_interval_var(start, size, end, present, "")
                )
            self._intervals = (made[0], made[1])
        return self._intervals[axis]

    def reach(self, direction: Vector) -> Expr:
        """How far the box reaches in ``direction``, times SCALE (a linear expression)."""
        total: Expr = round(SCALE * _dot(direction, self.axes.origin))
        for unit, low, high in (
            (self.axes.first, self.a0, self.a1),
            (self.axes.second, self.b0, self.b1),
        ):
            slope = round(SCALE * _dot(direction, unit))
            if slope:
                total = total + slope * (high if slope > 0 else low)
        return total


@dataclass(eq=False)
class Hull:
    """A convex body that does not turn, in a box of ``axes``, there when all ``when`` hold.

    ``corners`` count from the low corner (a0, b0) of the box. The same in a mirror either
    way, as every outline is. ``name`` is that of its piece.
    """

    name: str
    a0: Expr
    b0: Expr
    corners: Outline
    axes: Axes = PLAN
    when: tuple[Literal, ...] = ()

    @property
    def size(self) -> tuple[int, int]:
        """The two sizes of its box."""
        return _size(self.corners)

    def reach(self, direction: Vector) -> Expr:
        """How far it reaches in ``direction``, times SCALE (a linear expression)."""
        along = _dot(direction, self.axes.first), _dot(direction, self.axes.second)
        far = max(_dot(along, corner) for corner in self.corners)
        total: Expr = round(SCALE * (_dot(direction, self.axes.origin) + far))
        for slope, start in zip(along, (self.a0, self.b0), strict=True):
            if round(SCALE * slope):
                total = total + round(SCALE * slope) * start
        return total

    @cached_property
    def inner(self) -> Box:
        """The largest box of whole mm inside it that has its middle."""
        (low_a, low_b), (across, up) = inscribed(self.corners), self.size
        sizes = across - 2 * low_a, up - 2 * low_b
        a0, b0 = self.a0 + low_a, self.b0 + low_b
        return Box(a0, b0, a0 + sizes[0], b0 + sizes[1], self.axes, self.when, sizes)


def _size(corners: Outline) -> tuple[int, int]:
    return round(max(a for a, _ in corners)), round(max(b for _, b in corners))


@lru_cache(CACHED)
def quarter(corners: Outline) -> tuple[tuple[float, float, float], ...]:
    """Unit normals (u, v) of its sides that point to no lower end, and how far it reaches there.

    Counted from its middle. By its mirrors those of all sides follow.
    """
    across, up = _size(corners)
    normals: dict[tuple[float, float], tuple[float, float]] = {}
    for (a, b), (c, d) in pairwise([*corners, corners[0]]):
        length = math.hypot(c - a, d - b)
        u, v = abs(d - b) / length, abs(c - a) / length
        if min(u, v) < NOTHING:
            u, v = round(u) + 0.0, round(v) + 0.0
        normals.setdefault((round(u, 9), round(v, 9)), (u, v))
    return tuple(
        (u, v, max(u * (a - across / 2) + v * (b - up / 2) for a, b in corners))
        for _, (u, v) in sorted(normals.items())
    )


@lru_cache(CACHED)
def inscribed(corners: Outline) -> tuple[int, int]:
    """How far the largest inscribed box begins from the lower ends, across and up."""
    across, up = _size(corners)

    def half_up(half: float) -> float:
        return min((far - u * half) / v for u, v, far in quarter(corners) if v > NOTHING)

    halves = [across / 2 - low for low in range((across + 1) // 2)]
    best = max(halves, key=lambda half: half * half_up(half))
    return round(across / 2 - best), math.ceil(up / 2 - half_up(best) - NOTHING)


@dataclass(frozen=True)
class FixedShape:
    """A convex shape that does not move, with whole-mm bounds if it is upright."""

    shape: Polygon
    upright: tuple[int, int, int, int] | None

    def reach(self, direction: Vector) -> int:
        """How far the shape reaches in ``direction``, times SCALE."""
        points = list(self.shape.exterior.coords)
        return round(SCALE * max(_dot(direction, (p[0], p[1])) for p in points))


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1]


def directions(thing: Box | Hull | FixedShape) -> list[Vector]:
    """Unit normals of the sides of a convex thing; of a fixed shape those that point into it.

    What lies outside a convex shape is parted from it by a line along one of
    its sides, or along one of its own: seen from outside, the shape is ahead.
    """
    if isinstance(thing, Box):
        (ax, ay), (bx, by) = thing.axes.first, thing.axes.second
        return [(ax, ay), (-ax, -ay), (bx, by), (-bx, -by)]
    if isinstance(thing, Hull):
        (ax, ay), (bx, by) = thing.axes.first, thing.axes.second
        return [
            (ax * one * u + bx * two * v, ay * one * u + by * two * v)
            for u, v, _ in quarter(thing.corners)
            for one, two in ((1, 1), (-1, 1), (-1, -1), (1, -1))
        ]
    points = list(thing.shape.normalize().exterior.coords)  # clockwise
    normals: list[Vector] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        if length > 0:
            normals.append(((y1 - y0) / length, -(x1 - x0) / length))
    return normals


def keep_apart(
    cp: cp_model.CpModel,
    box: Box | Hull,
    other: Box | Hull | FixedShape,
    when: Sequence[Literal] = (),
) -> None:
    """The two may touch but not overlap: one side of one of them separates them."""
    for one, two in ((box, other), (other, box)):
        if isinstance(one, Hull) and _folds(one, two):
            _keep_folded(cp, one, two, when)
            return
    seen: set[tuple[int, int]] = set()
    choices: list[Literal] = []
    present = [*box.when, *when, *(() if isinstance(other, FixedShape) else other.when)]
    for direction in [*directions(box), *directions(other)]:
        key = (round(direction[0] * 1e6), round(direction[1] * 1e6))
        if key in seen:
            continue
        seen.add(key)
        backward = (-direction[0], -direction[1])
        choice = cp.new_bool_var("")
        shared = box.reach(direction) + other.reach(backward)
        cp.add(shared <= FORGIVEN).only_enforce_if(choice)
        choices.append(choice)
    cp.add_bool_or([*choices, *[p.negated() for p in present]])


def _folds(one: Box | Hull | FixedShape, two: Box | Hull | FixedShape) -> bool:
    """Whether one is a hull and the other a hull or box along the same axes."""
    if isinstance(one, FixedShape | Box):
        return False
    if isinstance(two, FixedShape):
        return one.axes is PLAN and two.upright is not None
    return one.axes == two.axes


def _keep_folded(
    cp: cp_model.CpModel, hull: Hull, other: Box | Hull | FixedShape, when: Sequence[Literal]
) -> None:
    """Apart, where the four mirrors of a side are one choice.

    Gaps count in half mm from the middle of the hull to the nearer end of a box, or to the
    middle of another hull; negative where a box reaches over the middle.
    """
    if isinstance(other, FixedShape):
        other = Box(*(other.upright or (0, 0, 0, 0)))
    gaps = (
        _gap(cp, 2 * hull.a0 + hull.size[0], *_inner_ends(other, 0)),
        _gap(cp, 2 * hull.b0 + hull.size[1], *_inner_ends(other, 1)),
    )
    sides = {(u, v): far for u, v, far in quarter(hull.corners)}
    sides |= {(u, v): _far(hull, u, v) for u, v in ((1.0, 0.0), (0.0, 1.0))}
    if isinstance(other, Hull):
        both = {*sides, *((u, v) for u, v, _ in quarter(other.corners))}
        sides = {(u, v): _far(hull, u, v) + _far(other, u, v) for u, v in sorted(both)}
    choices: list[Literal] = []
    for (u, v), far in sides.items():
        choice = cp.new_bool_var("")
        away = round(SCALE * u) * gaps[0] + round(SCALE * v) * gaps[1]
        cp.add(away >= round(2 * SCALE * far) - 2 * FORGIVEN).only_enforce_if(choice)
        choices.append(choice)
    cp.add_bool_or([*choices, *[p.negated() for p in (*hull.when, *other.when, *when)]])


def _inner_ends(thing: Box | Hull, axis: int) -> tuple[Expr, Expr]:
    """Both ends of a box, or the middle of a hull, along an axis in half mm."""
    if isinstance(thing, Hull):
        middle = 2 * (thing.a0, thing.b0)[axis] + thing.size[axis]
        return middle, middle
    return 2 * (thing.a0, thing.b0)[axis], 2 * (thing.a1, thing.b1)[axis]


def _gap(cp: cp_model.CpModel, middle: Expr, low: Expr, high: Expr) -> cp_model.IntVar:
    """No more than how far it is from ``middle`` up to ``low``, or down to ``high``."""
    gap, up = cp.new_int_var(-FAR, FAR, ""), cp.new_bool_var("")
    cp.add(gap <= low - middle).only_enforce_if(up)
    cp.add(gap <= middle - high).only_enforce_if(up.negated())
    return gap


def _far(hull: Hull, u: float, v: float) -> float:
    """How far a hull reaches that way from its middle."""
    half = hull.size[0] / 2, hull.size[1] / 2
    return max(u * (a - half[0]) + v * (b - half[1]) for a, b in hull.corners)


def in_no_overlap(body: Box | Hull) -> Box | None:
    """What no-overlap may be told of a body: all of it, or a box inside; None if it lies aslant."""
    if body.axes is not PLAN:
        return None
    return body if isinstance(body, Box) else body.inner


def all_of(cp: cp_model.CpModel, literals: Sequence[Literal]) -> Literal:
    """A literal that is true exactly when all of them are."""
    if len(literals) == 1:
        return literals[0]
    one = cp.new_bool_var("")
    cp.add_bool_and(literals).only_enforce_if(one)
    cp.add_bool_or([one, *[x.negated() for x in literals]])
    return one


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


@lru_cache(CACHED)
def along_wall(shape: Polygon, wall: Wall) -> Polygon:
    """The shape in the wall's own frame: x along the wall, y into the room."""
    (ax, ay), (nx, ny) = wall.along, wall.inward
    ox, oy = wall.start
    return affine_transform(shape, [ax, ay, nx, ny, -(ax * ox + ay * oy), -(nx * ox + ny * oy)])


def free_offsets(
    span: tuple[int, int],
    strip: tuple[int, int, int, int],
    wall: Wall,
    obstacles: Sequence[Polygon],
) -> cp_model.Domain:
    """Offsets t at which a strip slid along a wall meets no obstacle.

    ``strip`` is (a0, b0, a1, b1) at offset 0 in the wall's frame; t runs over whole mm of
    ``span``. Exact for obstacles of any shape, because each connected part of an obstacle
    within the strip's depth blocks one interval of offsets.
    """
    blocked = [list(ends) for o in obstacles for ends in _blocked(o, wall, strip)]
    whole = cp_model.Domain(*span) if span[0] <= span[1] else cp_model.Domain.from_intervals([])
    free = cp_model.Domain.from_intervals(blocked).complement()
    return whole.intersection_with(free)


@lru_cache(CACHED)
def _blocked(
    obstacle: Polygon, wall: Wall, strip: tuple[int, int, int, int]
) -> tuple[tuple[int, int], ...]:
    """The first and the last whole offset of each stretch at which the strip meets it."""
    a0, b0, a1, b1 = strip
    obstacle = along_wall(obstacle, wall)
    x0, y0, x1, y1 = obstacle.bounds
    if y1 <= b0 + EDGE or y0 >= b1 - EDGE:
        return ()
    band = box(x0 - 1, b0, x1 + 1, b1)
    blocked: list[tuple[int, int]] = []
    for part in _polygons(obstacle.intersection(band), NOTHING):
        low, _, high, _ = part.bounds
        first = math.floor(low - a1 + EDGE) + 1
        last = math.ceil(high - a0 - EDGE) - 1
        if first <= last:
            blocked.append((first, last))
    return tuple(blocked)
