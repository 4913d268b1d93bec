"""A finished arrangement as exact shapes, with the measurements that rules ask for.

Imports no solver: this is what the judge looks at. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely import box, union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import measured
from arrange.data.piece import Clearance, Piece, Side
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import (
    clearance_zone,
    facing_of,
    fixture_shape,
    footprint,
    leaves,
    room_shape,
    shares_floor,
    whole_bounds,
)

DEEPEST = 3000  # mm; deeper floor is not measured
HEAD = 2000  # mm; what hangs above this height is not in anyone's way


@dataclass(frozen=True)
class Placed:
    """A piece where it stands: its body, whole-mm bounds and nearest quarter turn."""

    piece: Piece
    placement: Placement
    body: Polygon
    facing: Facing
    x0: int
    y0: int
    x1: int
    y1: int

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.piece.name


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
        return Placed(piece, placement, body, facing, *whole_bounds(body))

    def find(self, name: str) -> Placed:
        """The placed piece called ``name``."""
        return self._by_name[name]

    def length(self, mm: int) -> str:
        """A length in the scenario's unit."""
        return measured(mm, self.scenario.unit)

    def wall_stretch(self, placed: Placed) -> tuple[int, int, int] | None:
        """The wall at a piece's back, and where it starts and ends along it in whole mm.

        None where it has no wall at its back, though it should: as it stands today.
        """
        index = placed.placement.wall
        if index is None:
            return None
        wall = self.scenario.room.walls[index]
        (ax, ay), (ox, oy) = wall.along, wall.start
        reach = [(x - ox) * ax + (y - oy) * ay for x, y in placed.body.exterior.coords]
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
        return bodies

    def free_sides(self, placed: Placed, clearance: Clearance, depth: int) -> tuple[Side, ...]:
        """The sides on which the strip of that depth is floor and free."""
        obstacles = self.zone_obstacles(placed.piece, clearance)
        return tuple(
            side
            for side in clearance.sides
            if self._is_free(self.zone(placed, clearance, side, depth), obstacles)
        )

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
        return max(self.side_depth(placed, clearance, side) for side in clearance.sides)

    def side_depth(self, placed: Placed, clearance: Clearance, side: Side) -> int:
        """The greatest whole-mm depth up to 3 m that is free on one side."""
        obstacles = self.zone_obstacles(placed.piece, clearance)
        low, high = 0, DEEPEST
        while low < high:
            middle = (low + high + 1) // 2
            if self._is_free(self.zone(placed, clearance, side, middle), obstacles):
                low = middle
            else:
                high = middle - 1
        return low

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

    def square_fits(self, side: int) -> bool:
        """Whether an upright square of that side fits on the free floor.

        The lower left corner must avoid every obstacle grown by the square; an
        exact test, because obstacles are cut into convex parts.
        """
        x0, y0, x1, y1 = self.scenario.room.bounds
        if side > x1 - x0 or side > y1 - y0:
            return False
        corners = box(x0, y0, x1 - side, y1 - side)
        blocked = [grow_down_left(p, side - 0.02) for p in self._blocking]
        left = corners.buffer(0.01).difference(union_all(blocked))
        return not left.is_empty

    @cached_property
    def _blocking(self) -> list[Polygon]:
        from shapely import constrained_delaunay_triangles  # noqa: PLC0415

        x0, y0, x1, y1 = self.scenario.room.bounds
        outside = box(x0 - 10, y0 - 10, x1 + 10, y1 + 10).difference(self.room)
        shapes = [outside, *[s for s, low in self.solid_fixtures if low < HEAD]]
        parts = [t for s in shapes for t in constrained_delaunay_triangles(s).geoms]
        return [*parts, *[p.body for p in self.standing]]


def grow_down_left(shape: Polygon, side: float) -> Polygon:
    """All lower left corners at which a square of that side would meet a convex shape."""
    points = [(x, y) for x, y in shape.exterior.coords]
    moved = [(x - dx, y - dy) for x, y in points for dx in (0, side) for dy in (0, side)]
    from shapely.geometry import MultiPoint  # noqa: PLC0415

    return MultiPoint(moved).convex_hull
