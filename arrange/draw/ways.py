"""The way through the room as it is drawn: from the door to all that must be reached.

The judge's answer is an area, everywhere someone can walk. On a plan that would
tint most of the floor and show nothing, so one tree of short ways through that
area is drawn instead. Lengths in mm.
"""

from __future__ import annotations

import heapq
import math

import numpy as np
import numpy.typing as npt
import shapely
from shapely import union_all
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.geometry.goals import empty_floor, goals, walk_of
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import opening_span
from arrange.geometry.walking import STEP_AWAY, Walk, short_side

CELL = 60.0  # mm
TIGHT = 240.0  # mm: nearer than this to the edge of the walkable area a step costs more
NARROW = 4.0  # what a step costs more where less than the walkway is free
LEAST_STEP = 300  # mm: nobody steps through less
SOFT = 90.0  # mm
RIBBON = 200.0  # mm: as wide as a walkway, many ways would flood the floor
STRAIGHT = 110.0  # mm a drawn way may cut off the corners of its cells
Cell = tuple[int, int]
NEIGHBOURS = [(i, j) for i in (-1, 0, 1) for j in (-1, 0, 1) if i or j]


def ways(scenario: Scenario, arrangement: Arrangement) -> BaseGeometry:
    """Ribbons from the main door to every goal, as one shape.

    Empty if the room has no door, or if nobody gets in. A goal that cannot be
    reached has no ribbon.
    """
    scene = Scene(scenario, arrangement)
    walk = walk_of(scene)
    door = scenario.room.main_door
    if door is None or not walk.from_door:
        return Point()
    zones = _zones(scene, union_all(walk.from_door))
    area = _walkable(scene, walk, zones)
    (ax, ay), (bx, by) = opening_span(scenario.room, door)
    entry = Point((ax + bx) / 2, (ay + by) / 2)
    field = Field(area, union_all(walk.from_door), entry)
    lines = [field.way_to(area, zone.centroid) for zone in zones]
    ribbons = [rounded(LineString([entry, *line])).buffer(RIBBON / 2) for line in lines if line]
    # Closing the sharp corners between two ways leaves one calm shape.
    return union_all(ribbons).buffer(SOFT).buffer(-SOFT).intersection(walk.floor)


def rounded(line: LineString) -> LineString:
    """``line`` without the steps of the cells, its bends cut twice to round them."""
    points = np.asarray(line.simplify(STRAIGHT).coords)
    for _ in range(2):
        if len(points) > 2:
            near, far = points[:-1], points[1:]
            cut = np.stack((near * 0.75 + far * 0.25, near * 0.25 + far * 0.75), axis=1)
            points = np.vstack((points[:1], cut.reshape(-1, 2), points[-1:]))
    return LineString(points)


def _walkable(scene: Scene, walk: Walk, zones: list[Polygon]) -> BaseGeometry:
    """Where the middle of a way may be: the last step into a narrow place is as wide as that."""
    narrowest = min([walk.empty.width, *(short_side(zone) for zone in zones)])
    width = max(round(narrowest), LEAST_STEP)
    wide = union_all(walk.from_door)
    near = union_all([zone.buffer(STEP_AWAY * walk.empty.width) for zone in zones])
    steps = [
        part.intersection(near)
        for part in walk_of(scene, empty_floor(scene.scenario, width)).middles
    ]
    return union_all([wide, *steps])


def _zones(scene: Scene, area: BaseGeometry) -> list[Polygon]:
    """The nearest zone of each goal."""
    found: list[Polygon] = []
    for goal in goals(scene):
        near = sorted(goal.zones, key=lambda zone: float(zone.distance(area)))
        found += near[:1]
    return found


class Field:
    """How far each cell of the walkable area is from the door, and the step toward it.

    Cells outside the ``wide`` part, where less than the walkway's width is free,
    are entered only for the last step.
    """

    def __init__(self, area: BaseGeometry, wide: BaseGeometry, entry: Point) -> None:
        x0, y0, x1, y1 = area.bounds
        columns, rows = int((x1 - x0) / CELL) + 2, int((y1 - y0) / CELL) + 2
        self.corner = (x0, y0)
        xs, ys = np.meshgrid(
            x0 + np.arange(columns) * CELL, y0 + np.arange(rows) * CELL, indexing="ij"
        )
        points = shapely.points(xs, ys)
        shapely.prepare(area)
        self.inside: npt.NDArray[np.bool_] = shapely.intersects(area.buffer(CELL / 3), points)
        spare = shapely.distance(area.boundary, points)
        self.costs = 1.0 + np.clip(1.0 - spare / TIGHT, 0.0, 1.0)
        self.costs += NARROW * ~shapely.intersects(wide.buffer(CELL / 3), points)
        self.before: dict[Cell, Cell | None] = {}
        self._spread(self._nearest(entry))

    def _nearest(self, point: Point) -> Cell:
        """The inside cell nearest to a point."""
        i, j = np.nonzero(self.inside)
        x, y = point.x, point.y
        off = (self.corner[0] + i * CELL - x) ** 2 + (self.corner[1] + j * CELL - y) ** 2
        k = int(np.argmin(off))
        return int(i[k]), int(j[k])

    def _spread(self, start: Cell) -> None:
        far: dict[Cell, float] = {start: 0.0}
        self.before[start] = None
        queue: list[tuple[float, Cell]] = [(0.0, start)]
        while queue:
            cost, cell = heapq.heappop(queue)
            if cost > far[cell]:
                continue
            for di, dj in NEIGHBOURS:
                to = (cell[0] + di, cell[1] + dj)
                if not (0 <= to[0] < self.inside.shape[0] and 0 <= to[1] < self.inside.shape[1]):
                    continue
                if not self.inside[to]:
                    continue
                further = cost + math.hypot(di, dj) * float(self.costs[to])
                if further < far.get(to, math.inf):
                    far[to], self.before[to] = further, cell
                    heapq.heappush(queue, (further, to))

    def way_to(self, area: BaseGeometry, goal: Point) -> list[tuple[float, float]]:
        """Points from the door to the cell nearest ``goal``; empty if it is cut off."""
        cell: Cell | None = self._nearest(nearest_points(area, goal)[0])
        if cell not in self.before:
            return []
        way = []
        while cell is not None:
            way.append((self.corner[0] + cell[0] * CELL, self.corner[1] + cell[1] * CELL))
            cell = self.before[cell]
        return way[::-1]
