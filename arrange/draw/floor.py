"""The free floor: what pieces need in front of them, the way through, the largest clear square.

Clearances are light hatching, where they have little to spare: all of them would cover the
plan and hide those that matter. The judge's walkway is an area, everywhere someone can
walk: on a plan that would tint most of the floor and show nothing, so one tree of short
ways through it, from the door to all that must be reached, is drawn as a thin soft line. The
clear floor that the score counts has marks at its corners. Lengths in mm.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator
from functools import partial

import numpy as np
import numpy.typing as npt
import shapely
from shapely import unary_union, union_all
from shapely.geometry import LineString, MultiLineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import measured
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Room, Vector
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import Board, polygons
from arrange.draw.labels import Spot, Wanted, write_first
from arrange.draw.symbols import Drawn
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import (
    clearance_zone,
    leaf_floors,
    opening_span,
    room_shape,
    wall_strip,
)
from arrange.geometry.walking import DIAGONAL, Walk, empty_floor, goals, short_side, walk_of
from arrange.rules.clear_floor import ClearFloor

LEGEND = "Corner marks: clear floor."
TIGHT_BY = 200  # mm; floor with so much to spare is not tight
INSET = 2.5  # points
MARK = 0.13  # of the side: the marks at the corners of the clear floor
ALONG = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75)  # for its name

# Of the ways through the room, in mm.
CELL = 60.0
TIGHT = 240.0  # nearer than this to the edge of the walkable area a step costs more
NARROW = 4.0  # what a step costs more where less than the walkway is free
LEAST_STEP = 300  # nobody steps through less
RIBBON = 34.0  # as wide as a walkway, many ways would flood the floor
JOIN = 200.0  # so near to a way that is drawn already another one runs on along it
STUB = 150.0  # a shorter branch tells nothing
STRAIGHT = 110.0  # a drawn way may cut off the corners of its cells
Cell = tuple[int, int]
NEIGHBOURS = [(i, j) for i in (-1, 0, 1) for j in (-1, 0, 1) if i or j]


def clearance_floor(
    scenario: Scenario, arrangement: Arrangement, placed: list[Drawn]
) -> BaseGeometry:
    """The floor that pieces need at least and have little more of, beside them in the room."""
    floor = room_shape(scenario.room)
    scene = Scene(scenario, arrangement)
    bodies = {d.piece.name: d for d in placed if not d.piece.flat and not d.symbol.outline_dashed}
    zones = []
    for drawn in placed:
        others = unary_union([d.shape for n, d in bodies.items() if n != drawn.piece.name])
        for clearance in drawn.piece.clearances:
            if _has_to_spare(scene, drawn.piece, clearance):
                continue
            zone = _free_side(scenario, arrangement, drawn, clearance, floor, others)
            if zone is not None:
                zones.append(zone)
    taken = unary_union([d.shape for d in bodies.values()])
    return unary_union(zones).intersection(floor).difference(taken)


def _has_to_spare(scene: Scene, piece: Piece, clearance: Clearance) -> bool:
    """Whether there is more floor than it takes, so that nobody needs to look at it."""
    if clearance.least <= 0 or not clearance.sides:
        return False
    depth, _ = scene.best_side(scene.find(piece.name), clearance)
    return depth >= clearance.least + TIGHT_BY


def _free_side(
    scenario: Scenario,
    arrangement: Arrangement,
    drawn: Drawn,
    clearance: Clearance,
    floor: Polygon,
    others: BaseGeometry,
) -> Polygon | None:
    """The strip on the side that is freest; the first named of equals."""
    if clearance.least <= 0 or not clearance.sides:
        return None
    placement = arrangement.of(drawn.piece.name)
    zones = [
        clearance_zone(drawn.piece, placement, scenario.room, clearance, side, clearance.least)
        for side in clearance.sides
    ]
    taken = [z.difference(floor).area + z.intersection(others).area for z in zones]
    return zones[int(np.argmin([round(t) for t in taken]))]


def draw_hatching(board: Board, zone: BaseGeometry) -> None:
    """Light slanting lines over ``zone``, left out under every text already written.

    Spaced evenly on paper across the whole plan, so that neighbouring zones
    read as one floor.
    """
    clear = zone.difference(unary_union(board.boxes)) if board.boxes else zone
    if clear.is_empty:
        return
    x0, y0, x1, y1 = clear.bounds
    step = board.mm(board.style.hatch_step) * math.sqrt(2)
    starts = np.arange(math.floor((x0 - y1) / step), math.ceil((x1 - y0) / step) + 1) * step
    slanted = MultiLineString([[(c + y0, y0), (c + y1, y1)] for c in starts])
    cut = shapely.intersection(slanted, clear)
    runs = [list(part.coords) for part in shapely.get_parts(cut) if part.geom_type == "LineString"]
    style = board.style
    board.lines(runs, style.hatch_width, style.hatch, 3.5, ink=False, gid="clearances")


def draw_walkway(board: Board, room: Room, walkway: BaseGeometry, width: int) -> None:
    """The way through the room as one soft band; a line is drawn ``width`` mm wide.

    It ends in the doorways, never outside.
    """
    band = walkway if walkway.area else walkway.buffer(width / 2)
    thickness = board.style.wall
    sills = [
        wall_strip(room.walls[d.wall], d.offset, d.width, 1, start=-thickness) for d in room.doors
    ]
    soft = board.mm(1.0)
    eased = band.buffer(-soft * 0.5).buffer(soft).buffer(-soft * 0.5)
    shape = (band if eased.is_empty else eased).intersection(
        unary_union([room_shape(room), *sills])
    )
    if not shape.is_empty:
        board.soft.add_shape(shape, 0.5)
        board.fill(shape, board.style.walkway, 1.0, gid="walkway")


def clear_square(scenario: Scenario, arrangement: Arrangement) -> Polygon | None:
    """The largest square that the rule counts, in the middle of where it can lie.

    None if the rule is off, or if not even its least square fits.
    """
    scene = Scene(scenario, arrangement)
    steps = [side for claim in ClearFloor().claims(scenario) for side in claim.steps]
    off = leaf_floors(scenario.room)
    fitting = [side for side in steps if scene.square_fits(side, off)]
    if not fitting:
        return None
    side = max(fitting)
    x, y = _corner(scene.square_corners(side, off))
    return box(x, y, x + side, y + side)


def _corner(left: BaseGeometry) -> tuple[float, float]:
    """One of the corners at which the square fits: well within the largest choice of them."""
    largest = max(polygons(left), key=lambda p: (round(p.area), -p.bounds[0], -p.bounds[1]))
    middle = largest.centroid
    point = middle if largest.contains(middle) else largest.representative_point()
    return point.x, point.y


def draw_clear_square(board: Board, square: Polygon) -> None:
    """Faint marks just inside its corners, off the edges of pieces; names keep clear of them."""
    x0, y0, x1, y1 = square.buffer(-board.mm(INSET), join_style="mitre").bounds
    arm = MARK * (x1 - x0)
    marks = [
        [(x + dx, y), (x, y), (x, y + dy)]
        for x, dx in ((x0, arm), (x1, -arm))
        for y, dy in ((y0, arm), (y1, -arm))
    ]
    board.lines(marks, 0.7, board.style.fine, 3.8, gid="clear floor")


def name_clear_square(board: Board, square: Polygon, unit: Unit) -> None:
    """What it is and how large, just inside an edge of it; nothing where there is no room."""
    x0, _, x1, _ = square.bounds
    side, style = measured(round(x1 - x0), unit, "down"), board.style
    texts = (f"clear floor {side} x {side}", "clear floor")
    wanted = Wanted(texts, (style.note_size,), style.quiet)
    write_first(board, partial(_edges, square, board.mm(1.0)), wanted, "clear floor:text")


def _edges(square: Polygon, air: float, text: Vector) -> Iterator[Spot]:
    """Spots along the edges, ``air`` mm inside; level ones first. None if the text is longer."""
    x0, y0, x1, y1 = square.bounds
    off = text[1] / 2 + air
    shares = ALONG if text[0] < x1 - x0 else ()
    for share in shares:
        x = x0 + (x1 - x0) * share
        yield (x, y1 - off), 0.0
        yield (x, y0 + off), 0.0
    for share in shares:
        y = y0 + (y1 - y0) * share
        yield (x0 + off, y), 90.0
        yield (x1 - off, y), 90.0


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
    found = [field.way_to(area, zone.centroid) for zone in zones]
    paths = [LineString([entry, *cells]) for cells in found if cells]
    return union_all([line.buffer(RIBBON / 2) for line in one_tree(paths)]).intersection(walk.floor)


def one_tree(paths: list[LineString]) -> list[LineString]:
    """The ways as one tree of lines: the longest whole, of each other one what leaves the rest.

    Two ways side by side would be read as two ways, or as a stain where they meet.
    """
    kept: list[LineString] = []
    for path in sorted(paths, key=lambda one: -round(one.length)):
        points = [Point(at) for at in path.coords]
        after = max((i for i, at in enumerate(points) if _near(at, kept)), default=None)
        if after is None:
            kept.append(rounded(path))
            continue
        line = min(kept, key=points[after].distance)
        foot = line.interpolate(max(line.project(points[after]) - JOIN, 0.0))
        branch = points[after + 1 :]
        if branch and points[-1].distance(line) > STUB:
            kept.append(rounded(LineString([foot, *branch])))
    return kept


def _near(point: Point, lines: list[LineString]) -> bool:
    return any(point.distance(line) <= JOIN for line in lines)


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
    near = union_all([zone.buffer(DIAGONAL * walk.empty.width) for zone in zones])
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
