"""A finished arrangement as exact shapes, with the measurements that rules ask for.

Imports no solver: this is what the judge looks at. Among the measurements are the gaps
with the least to spare, for the plan's dimension lines. Lengths in mm.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely import LineString, box, convex_hull, get_coordinates, multipoints, union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import Rounding, is_nought, measured
from arrange.data.piece import STANDING, Clearance, Piece, Side
from arrange.data.result import Gap
from arrange.data.room import Facing, Vector
from arrange.data.scenario import Scenario
from arrange.geometry.ceilings import low_floor, low_parts
from arrange.geometry.outlines import edge
from arrange.geometry.shapes import (
    NOTHING,
    Frame,
    box_of,
    clearance_zone,
    convex_parts,
    facing_of,
    fixture_shape,
    footprint,
    frame,
    leaves,
    room_shape,
    shares_floor,
    whole_bounds,
)

DEEPEST = 3000  # mm; deeper floor is not measured
HEAD = 2000  # mm; what hangs above this height is not in anyone's way


@dataclass(frozen=True)
class Placed:
    """A piece where it stands: its body, its nearest quarter turn, whole-mm bounds of its box.

    ``parts`` are convex, and make up the body.
    """

    piece: Piece
    placement: Placement
    body: Polygon
    facing: Facing
    x0: int
    y0: int
    x1: int
    y1: int
    parts: tuple[Polygon, ...]

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.piece.name

    def span(self, axis: int) -> tuple[int, int]:
        """From where to where its box reaches across the plan (0) or up the plan (1)."""
        return (self.y0, self.y1) if axis else (self.x0, self.x1)


class Scene:
    """An arrangement of a scenario, measured."""

    def __init__(self, scenario: Scenario, arrangement: Arrangement) -> None:
        self.scenario = scenario
        self.arrangement = arrangement
        self.room = room_shape(scenario.room)
        self.placed = tuple(self._place(p) for p in scenario.pieces)
        self._by_name = {p.name: p for p in self.placed}

    def _place(self, piece: Piece) -> Placed:
        placement = self.arrangement.of(piece.name)
        body = footprint(piece, placement, self.scenario.room)
        facing = facing_of(placement, self.scenario.room)
        box, parts = body, [body]
        if not piece.fills_its_box:
            box = box_of(piece, placement, self.scenario.room)
            parts = convex_parts(piece, placement, self.scenario.room)
        return Placed(piece, placement, body, facing, *whole_bounds(box), tuple(parts))

    def find(self, name: str) -> Placed:
        """The placed piece called ``name``."""
        return self._by_name[name]

    def length(self, mm: int, rounded: Rounding = "near") -> str:
        """A length as a person says it, in the scenario's unit."""
        return measured(mm, self.scenario.unit, rounded)

    def how_far(self, mm: int, none: str = "right beside", rounded: Rounding = "near") -> str:
        """A gap before what it leads to: "45 cm from", or ``none`` where there is none to speak of.

        Nobody says "0 cm from": what is nearer than half the smallest length that is said
        is right beside, or right at.
        """
        told = self.length(mm, rounded)
        return none if is_nought(told) else f"{told} from"

    def wall_stretch(self, placed: Placed) -> tuple[int, int, int] | None:
        """The wall at a piece's back, and where it starts and ends along it in whole mm.

        None where it has no wall at its back, though it should: as it stands today.
        """
        index = placed.placement.wall
        if index is None:
            return None
        wall = self.scenario.room.walls[index]
        reach = [wall.coordinate(x, y) for x, y in placed.body.exterior.coords]
        return index, round(min(reach)), round(max(reach))

    @staticmethod
    def stands_on(placed: Placed, floor: Polygon) -> bool:
        """Whether a piece stands on some convex floor; 0.01 mm over its edge is forgiven."""
        return bool(floor.buffer(-0.01, join_style="mitre").intersects(placed.body))

    @staticmethod
    def overlap(one: Polygon, two: BaseGeometry) -> bool:
        """Whether two shapes share floor; touching does not count."""
        return shares_floor(one, two)

    @cached_property
    def solid_fixtures(self) -> tuple[tuple[BaseGeometry, int], ...]:
        """Bodies of fixtures with the height of their underside."""
        return tuple((fixture_shape(f), f.bottom) for f in self.scenario.room.obstructions)

    @cached_property
    def solid_named(self) -> tuple[str, ...]:
        """The names of ``solid_fixtures``, in the same order."""
        return tuple(f.name for f in self.scenario.room.obstructions)

    def zone_obstacles(self, owner: Piece, clearance: Clearance) -> list[BaseGeometry]:
        """What a clearance of ``owner`` may not share floor with, inside the room."""
        bodies: list[BaseGeometry] = [s for s, low in self.solid_fixtures if low < clearance.height]
        bodies += [p.body for p in self.placed if clearance.minds(owner, p.piece)]
        return [*bodies, *low_floor(self.scenario.room, clearance.headroom)]

    def free_sides(self, placed: Placed, clearance: Clearance, depth: int) -> tuple[Side, ...]:
        """The sides on which the strip of that depth is floor and free."""
        obstacles = self.zone_obstacles(placed.piece, clearance)
        return tuple(
            side
            for side in clearance.sides
            if self._is_free(self.zone(placed, clearance, side, depth), obstacles)
        )

    def strip_free(self, placed: Placed, clearance: Clearance) -> bool:
        """Whether the strip of a clearance is floor and free to its comfortable depth."""
        return bool(self.free_sides(placed, clearance, clearance.comfortable))

    def zone(self, placed: Placed, clearance: Clearance, side: Side, depth: int) -> Polygon:
        """The strip of a clearance on one side."""
        room = self.scenario.room
        return clearance_zone(placed.piece, placed.placement, room, clearance, side, depth)

    def _is_free(self, zone: Polygon, obstacles: Sequence[BaseGeometry]) -> bool:
        if leaves(zone, self.room):
            return False
        return not any(shares_floor(zone, o) for o in obstacles)

    def free_depth(self, placed: Placed, clearance: Clearance) -> int:
        """The greatest whole-mm depth up to 3 m that one of the sides gives."""
        return self.best_side(placed, clearance)[0]

    def best_side(self, placed: Placed, clearance: Clearance) -> tuple[int, Side]:
        """As ``free_depth``, with the side that gives it."""
        depths = [(self.side_depth(placed, clearance, side), side) for side in clearance.sides]
        return max(depths, key=lambda pair: pair[0])

    def ends_under_ceiling(self, placed: Placed, clearance: Clearance) -> bool:
        """Whether nothing that stands ends the free floor on the best side, but a low ceiling."""
        low = {part.name for part in low_parts(self.scenario.room, clearance.headroom)}
        depth, side = self.best_side(placed, clearance)
        return bool(low) and _met(self, placed, clearance, side, depth)[0] in low

    def side_depth(self, placed: Placed, clearance: Clearance, side: Side) -> int:
        """The greatest whole-mm depth up to 3 m that is free on one side."""
        whole = self.zone(placed, clearance, side, DEEPEST)
        every = self.zone_obstacles(placed.piece, clearance)
        obstacles = [obstacle for obstacle in every if whole.intersects(obstacle)]

        def taken(depth: int) -> bool:
            return not self._is_free(self.zone(placed, clearance, side, depth), obstacles)

        low, high = 0, DEEPEST
        # Nearly always it ends at the first thing met: that is looked at before anything else.
        met = [whole.intersection(obstacle) for obstacle in obstacles]
        met = [part for part in (*met, whole.difference(self.room)) if part.area > NOTHING]
        start = self.zone(placed, clearance, side, 0)
        guess = max(1, int(min((part.distance(start) for part in met), default=DEEPEST)))
        if taken(guess):
            high = guess - 1
        else:
            low = guess
            high = guess if guess < DEEPEST and taken(guess + 1) else DEEPEST
        return low + bisect_left(range(low + 1, high + 1), True, key=taken)

    @cached_property
    def standing(self) -> tuple[Placed, ...]:
        """Pieces that stand in the way of someone walking."""
        return tuple(p for p in self.placed if not p.piece.flat and p.piece.bottom < HEAD)

    @cached_property
    def floor(self) -> BaseGeometry:
        """The floor that nothing stands on."""
        taken = [p.body for p in self.standing]
        taken += [s for s, low in self.solid_fixtures if low < HEAD]
        return self.room.difference(union_all(taken))

    def square_fits(self, side: int, off: Sequence[Polygon] = ()) -> bool:
        """Whether an upright square of that side fits on the free floor and ``off`` some.

        The lower left corner must avoid every obstacle grown by the square; an
        exact test, because obstacles are cut into convex parts.
        """
        x0, y0, x1, y1 = self.scenario.room.bounds
        if side > x1 - x0 or side > y1 - y0:
            return False
        return not self.square_corners(side, off).is_empty

    def square_corners(self, side: int, off: Sequence[Polygon] = ()) -> BaseGeometry:
        """The lower left corners at which such a square fits. To touch is not to meet."""
        x0, y0, x1, y1 = self.scenario.room.bounds
        corners = box(x0, y0, x1 - side, y1 - side)
        blocked = [grow_down_left(p, side - 0.02) for p in [*self._blocking, *off]]
        return corners.buffer(0.01).difference(union_all(blocked))

    @cached_property
    def _blocking(self) -> list[Polygon]:
        from shapely import constrained_delaunay_triangles  # noqa: PLC0415

        x0, y0, x1, y1 = self.scenario.room.bounds
        outside = box(x0 - 10, y0 - 10, x1 + 10, y1 + 10).difference(self.room)
        shapes = [outside, *[s for s, low in self.solid_fixtures if low < HEAD]]
        shapes += low_floor(self.scenario.room, STANDING)
        parts = [t for s in shapes for t in constrained_delaunay_triangles(s).geoms]
        return [*parts, *[part for p in self.standing for part in p.parts]]


def grow_down_left(shape: Polygon, side: float) -> Polygon:
    """All lower left corners at which a square of that side would meet a convex shape."""
    to_corners = np.array([(0, 0), (0, side), (side, 0), (side, side)])
    moved = get_coordinates(shape.exterior)[:, None] - to_corners
    return convex_hull(multipoints(moved.reshape(-1, 2)))


SHOWN = 3
SLIVER = 2  # mm that the strip is drawn out to see what it meets
MOST = 1500  # a gap wider than this is not tight
SLIM = 50  # mm; where no more of a side is met, nobody but for a tight fit asks how far it is
ROOMY = 300  # mm more than the least


def tightest_gaps(scene: Scene) -> tuple[Gap, ...]:
    """Up to three clearances with the least to spare beyond their least depth.

    Each gap runs straight from the side of the piece to what it faces, where the two
    are opposite one another and beside the piece's own chair if possible. Of two
    gaps between the same two things only the tighter one is kept. None runs to what meets
    a sliver of the side, unless that is tight.
    """
    found: list[tuple[int, Gap]] = []
    for placed in scene.placed:
        for clearance in placed.piece.clearances:
            if clearance.least > 0:
                depth, side = scene.best_side(placed, clearance)
                if depth <= MOST:
                    gap = _gap(scene, placed, clearance, side, depth)
                    if gap is not None:
                        found.append((depth - clearance.least, gap))
    found.sort(key=lambda pair: (pair[0], pair[1].length, pair[1].between))
    kept: list[Gap] = []
    for _, gap in found:
        if all(set(gap.between) != set(k.between) for k in kept):
            kept.append(gap)
    return tuple(kept[:SHOWN])


def _gap(scene: Scene, placed: Placed, clearance: Clearance, side: Side, depth: int) -> Gap | None:
    name, meeting = _met(scene, placed, clearance, side, depth)
    own = frame(placed.piece, placed.placement, scene.scenario.room)
    low, high = _met_along(own, side, meeting)
    if high - low < SLIM and depth - clearance.least > ROOMY:
        return None
    # In the middle of what is met, then toward its ends.
    places = [low + (high - low) * share for share in (0.5, 0.25, 0.75, 0.1, 0.9)]
    lines = [_line(own, placed.piece, side, depth, at) for at in places]
    # Beside the piece's own chair rather than through it, where there is room.
    clear = [line for line in lines if not _crosses(scene, placed, line)]
    start, end = (clear or lines)[0]
    return Gap(start, end, depth, (placed.name, name))


def _met_along(own: Frame, side: Side, meeting: BaseGeometry) -> tuple[float, float]:
    """From where to where along the side something is met."""
    along = own.across if side in ("front", "back") else own.ahead
    points = [
        (x - own.origin[0]) * along[0] + (y - own.origin[1]) * along[1]
        for x, y in get_coordinates(meeting)  # a corner or an edge may be all they share
    ]
    return min(points), max(points)


def _line(own: Frame, piece: Piece, side: Side, depth: int, at: float) -> tuple[Vector, Vector]:
    start = edge(piece, side)[0]
    end = start + depth if side in ("front", "right") else start - depth
    if side in ("front", "back"):
        return own.at(at, start), own.at(at, end)
    return own.at(start, at), own.at(end, at)


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
    for low in low_parts(scene.scenario.room, clearance.headroom):
        if shares_floor(zone, low.shape):
            return low.name, zone.intersection(low.shape)
    beyond = zone.difference(scene.room)
    return "the wall", zone if beyond.is_empty else beyond
