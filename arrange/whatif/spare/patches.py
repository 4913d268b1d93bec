"""A finished arrangement as upright patches of floor that slide with their pieces. Lengths in mm.

A patch is the body of a piece, the strip of a clearance, or floor that does not move. Pieces
tied to others slide with them: they have one *node*. Node 0 is all that stays.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from shapely import box, constrained_delaunay_triangles
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import Clearance, Side
from arrange.geometry import fixture_shape, whole_bounds
from arrange.rules import active_rules
from arrange.rules.base import Region
from arrange.scene import Placed, Scene

Axis = Literal[0, 1]  # across the plan, up the plan
Bounds = tuple[int, int, int, int]
Use = tuple[str, str, Side]  # a piece, a clearance of it, a side
OUTSIDE = "the wall"
END = "the end of "  # a wall that a piece must not stand beyond
FRAME = 10_000  # mm of outside round the room


@dataclass(frozen=True, slots=True)
class Patch:
    """Upright floor: its bounds, the node it slides with, what it is called.

    ``body`` are the bounds of the piece itself, ``use`` names the piece, clearance and
    side of a strip.
    """

    bounds: Bounds
    node: int
    name: str
    body: Bounds
    use: Use | None = None

    def beyond(self, axis: Axis, *, high: bool) -> int:
        """How far a strip reaches beyond its piece at one end; 0 for a body."""
        i = axis + 2 * high
        return max(0, (self.bounds[i] - self.body[i]) * (1 if high else -1))


@dataclass(frozen=True)
class Strip:
    """The floor of a clearance on one side; ``free`` says whether nothing is on it now."""

    patch: Patch
    owner: Placed
    clearance: Clearance
    free: bool


def fixed(shape: BaseGeometry, name: str) -> list[Patch]:
    """Floor that stays, as upright patches; what is slanted is taken larger than it is."""
    found: list[Patch] = []
    for part in getattr(shape, "geoms", [shape]):
        if not isinstance(part, Polygon) or part.area < 1:
            continue
        x0, y0, x1, y1 = part.bounds
        upright = part.area > (x1 - x0) * (y1 - y0) - 1
        shapes = [part] if upright else constrained_delaunay_triangles(part).geoms
        found += [Patch(whole_bounds(s), 0, name, whole_bounds(s)) for s in shapes]
    return found


def outside(scene: Scene) -> list[Patch]:
    """What is not room, cut at every corner and joined along each row."""
    corners = scene.scenario.room.corners
    x0, y0, x1, y1 = scene.scenario.room.bounds
    xs = sorted({x0 - FRAME, x1 + FRAME, *(x for x, _ in corners)})
    ys = sorted({y0 - FRAME, y1 + FRAME, *(y for _, y in corners)})
    found: list[Patch] = []
    for low, high in pairwise(ys):
        row: list[Bounds] = []
        for left, right in pairwise(xs):
            if box(left, low, right, high).difference(scene.room).area < 1:
                continue
            if row and row[-1][2] == left:
                row[-1] = (row[-1][0], low, right, high)
            else:
                row.append((left, low, right, high))
        found += [Patch(b, 0, OUTSIDE, b) for b in row]
    return found


def regions(scene: Scene) -> Iterator[tuple[Region, str]]:
    """Floor that pieces must stay off, with the name of what it belongs to."""
    room = scene.scenario.room
    names = [d.name for d in room.doors] + [w.name for w in room.windows]
    names += [f.name for f in room.fixtures]
    for rule in active_rules(scene.scenario):
        for region in rule.regions(scene.scenario):
            known = [n for n in names if n in region.why]
            name = max(known, key=len) if known else rule.title
            if rule.id == "door-floor":
                name = f"the floor of {name}"
            yield region, name


def strips(scene: Scene, nodes: dict[str, int]) -> Iterator[Strip]:
    """The least floor of every clearance on every side where it could be."""
    for placed in scene.placed:
        for clearance in placed.piece.clearances:
            if clearance.least <= 0 or placed.placement.facing is None:
                continue
            free = clearance.sides
            if len(free) > 1:
                free = scene.free_sides(placed, clearance, clearance.least)
            for side in clearance.sides:
                zone = scene.zone(placed, clearance, side, clearance.least)
                use = (placed.name, clearance.name, side)
                own = whole_bounds(placed.body)
                patch = Patch(whole_bounds(zone), nodes[placed.name], placed.name, own, use)
                yield Strip(patch, placed, clearance, side in free)


def minded(strip: Strip, other: Placed) -> bool:
    """Whether a piece must keep off the strip, as the judge says."""
    piece = other.piece
    own = strip.owner.name in (piece.name, piece.anchor)
    return not own and not piece.flat and piece.bottom < strip.clearance.height


def solid(scene: Scene, clearance: Clearance) -> list[Patch]:
    """The bodies of fixtures that a clearance may not reach into."""
    return [
        patch
        for f in scene.scenario.room.fixtures
        if f.solid and len(f.corners) >= 3 and f.bottom < clearance.height
        for patch in fixed(fixture_shape(f), f.name)
    ]
