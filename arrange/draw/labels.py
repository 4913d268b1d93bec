"""The board a plan is drawn on: axes true to scale that remember what is drawn where.

Finds places for text: inside a shape, or nearby with a thin leader. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Vector
from arrange.draw.raster import Bounds, Numbers, Raster
from arrange.draw.style import Style
from arrange.draw.text import LINE_SPACING, extent, foldings, font

Polyline = Sequence[Vector]


class Board:
    """Draws on ``ax`` in room mm and marks three rasters as it goes.

    ``ink`` holds lines and text, ``texts`` text alone, ``solid`` what a name
    must not lie on (walls and pieces), ``owner`` the number of the piece on top
    (0 = none). ``scale`` is points on paper for one mm of the room.
    """

    def __init__(self, ax: Axes, view: Bounds, scale: float, style: Style) -> None:
        self.ax, self.view, self.scale, self.style = ax, view, scale, style
        cell = 0.75 / scale
        self.ink = Raster(view, cell)
        self.texts = Raster(view, cell)
        self.solid = Raster(view, cell)
        self.soft = Raster(view, cell)
        self.owner = Raster(view, cell)
        self.boxes: list[Polygon] = []

    def mm(self, points: float) -> float:
        """Millimetres of the room that take ``points`` on paper."""
        return points / self.scale

    def fill(
        self,
        shape: BaseGeometry,
        colour: str,
        z: float,
        gid: str = "",
        **how: Any,  # noqa: ANN401  matplotlib checks them
    ) -> PathPatch:
        """A filled shape without an outline unless ``edgecolor`` is given."""
        options: dict[str, Any] = {"edgecolor": "none", "linewidth": 0.0, **how}
        patch = PathPatch(path_of(shape), facecolor=colour, zorder=z, **options)
        if gid:
            patch.set_gid(gid)
        self.ax.add_artist(patch)  # not add_patch: the limits are set, nobody needs its extent
        return patch

    def lines(
        self,
        runs: Iterable[Polyline],
        width: float,
        colour: str,
        z: float,
        *,
        dash: tuple[float, ...] = (),
        ink: bool = True,
        gid: str = "",
    ) -> LineCollection:
        """Polylines in one stroke width (points)."""
        kept = [list(run) for run in runs]
        drawn = LineCollection(
            kept,
            linewidths=width,
            colors=colour,
            zorder=z,
            capstyle="butt" if dash else "round",
            joinstyle="miter",
            linestyles=[(0.0, tuple(d / width for d in dash))] if dash else "solid",
        )
        if gid:
            drawn.set_gid(gid)
        self.ax.add_collection(drawn, autolim=False)
        if ink:
            for run in kept:
                self.ink.add_line(run)
        return drawn

    def size(self, text: str, points: float, bold: bool = False, pad: float = 1.2) -> Vector:
        """Width and height in mm of a text with ``pad`` points of air round it."""
        width, height = extent(text, points, bold)
        return self.mm(width + 2 * pad), self.mm(height + 2 * pad)

    def corners(self, centre: Vector, size: Vector, angle: float = 0.0) -> Polygon:
        """A text box of ``size`` mm turned by ``angle`` degrees about its middle."""
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        w, h = size[0] / 2, size[1] / 2
        offsets = ((-w, -h), (w, -h), (w, h), (-w, h))
        return Polygon([(centre[0] + x * c - y * s, centre[1] + x * s + y * c) for x, y in offsets])

    def samples(self, centre: Vector, size: Vector, angle: float) -> Numbers:
        """Points spread over a text box, less than a cell apart."""
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        step = self.ink.cell * 0.8
        us = np.linspace(-size[0] / 2, size[0] / 2, int(size[0] / step) + 2)
        vs = np.linspace(-size[1] / 2, size[1] / 2, int(size[1] / step) + 2)
        u, v = (a.ravel() for a in np.meshgrid(us, vs))
        return np.column_stack((centre[0] + u * c - v * s, centre[1] + u * s + v * c))

    def free(self, centre: Vector, size: Vector, angle: float = 0.0) -> bool:
        """Whether a text box there touches no ink and stays in the view."""
        points = self.samples(centre, size, angle)
        return self.ink.inside(points) and not self.ink.under(points).any()

    def text(
        self,
        centre: Vector,
        text: str,
        points: float,
        *,
        colour: str = "",
        angle: float = 0.0,
        bold: bool = False,
        gid: str = "",
        pad: float = 1.2,
    ) -> Text:
        """Write ``text`` with its middle at ``centre`` and mark its place as taken."""
        drawn = self.ax.text(
            centre[0],
            centre[1],
            text,
            fontproperties=font(points, bold),
            color=colour or self.style.text,
            rotation=angle,
            ha="center",
            va="center",
            linespacing=LINE_SPACING,
            multialignment="center",
            zorder=20,
            parse_math=False,
        )
        if gid:
            drawn.set_gid(gid)
        box = self.corners(centre, self.size(text, points, bold, pad), angle)
        self.boxes.append(box)
        for raster in (self.ink, self.texts, self.solid):
            raster.add_shape(box)
        return drawn


def path_of(shape: BaseGeometry) -> Path:
    """A matplotlib path of the polygons in ``shape``, holes included."""
    vertices: list[Vector] = []
    codes: list[Any] = []
    for polygon in polygons(shape):
        for ring in (polygon.exterior, *polygon.interiors):
            points = list(ring.coords)
            vertices += points
            codes += [Path.MOVETO, *[Path.LINETO] * (len(points) - 2), Path.CLOSEPOLY]
    return Path(vertices or np.zeros((0, 2)), codes or None)


def polygons(shape: BaseGeometry) -> list[Polygon]:
    """The polygons in ``shape``; lines and points are dropped."""
    if shape.is_empty:
        return []
    if isinstance(shape, Polygon):
        return [shape]
    return [p for part in getattr(shape, "geoms", ()) for p in polygons(part)]


def upright(angle: float) -> float:
    """``angle`` in degrees turned so that text along it reads from below or the right."""
    turned = (angle + 90) % 180 - 90
    return 90.0 if math.isclose(turned, -90, abs_tol=1e-6) else turned


TRIED = 250  # free places looked at for a label with a leader
LONG = 75.0  # points: a name beside its piece is folded rather than longer
TURNED = 1.6  # what reading sideways costs, in points of text size
NEAR = 0.12  # how far from its best spot a name may go, in sides of a square as large
FOLDED = 0.45  # what each further line costs, in points of text size

# Where a leader may leave a text box, in shares of its size from its middle.
EDGE = np.array(
    [(x, y) for x in (-0.25, 0.0, 0.25) for y in (-0.5, 0.5)] + [(-0.5, 0.0), (0.5, 0.0)]
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text to place: other wordings in order of liking, sizes in points from the largest."""

    texts: tuple[str, ...]
    sizes: tuple[float, ...]
    colour: str
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """A place found: what is written there, how large, at which angle."""

    centre: Vector
    text: str
    size: float
    angle: float


def sizes_between(largest: float, least: float) -> tuple[float, ...]:
    """Text sizes half a point apart, largest first."""
    steps = round((largest - least) * 2)
    return tuple(largest - i / 2 for i in range(steps + 1))


def find_inside(
    board: Board, shape: Polygon, owner: int, spot: Vector, tilt: float, wanted: Wanted
) -> Place | None:
    """A place for the text wholly inside the visible part of a piece, or None.

    Level text is preferred to turned text, large to small, few lines to many.
    ``tilt`` is the angle in degrees of the piece's width on the plan.
    """
    level = tilt % 90 < 0.5 or tilt % 90 > 89.5
    angles = (0.0, 90.0) if level else (upright(tilt), upright(tilt + 90))
    for text in wanted.texts:
        trials = [
            (largest_first + TURNED * (i > 0) + FOLDED * folded.count("\n"), size, folded, angle)
            for size in wanted.sizes
            for largest_first in [wanted.sizes[0] - size]
            for folded in foldings(text)
            for i, angle in enumerate(angles)
        ]
        trials.sort(key=lambda t: (t[0], -t[1]))
        find = _upright_place if level else _tilted_place
        for near in (NEAR * math.sqrt(shape.area), math.inf):
            for _, size, folded, angle in trials:
                box = board.size(folded, size, wanted.bold)
                centre = find(board, shape, owner, spot, box, angle)
                if centre is not None and math.dist(centre, spot) <= near:
                    return Place(centre, folded, size, angle)
    return None


def _upright_place(
    board: Board, shape: Polygon, owner: int, spot: Vector, box: Vector, angle: float
) -> Vector | None:
    w, h = box if angle == 0 else (box[1], box[0])
    x0, y0, x1, y1 = shape.bounds
    if w > x1 - x0 or h > y1 - y0:
        return None
    raster = board.ink
    low = raster.indices(np.array([[x0, y0], [x1, y1]]))
    r0, c0 = int(low[0][0]), int(low[1][0])
    window = (slice(r0, int(low[0][1]) + 1), slice(c0, int(low[1][1]) + 1))
    sums, columns, rows = raster.boxes(w, h, window)
    if not sums.size:
        return None
    middle = board.owner.marks[window][rows // 2 :, columns // 2 :]
    middle = middle[: sums.shape[0], : sums.shape[1]]
    good = (sums < 0.5) & (np.round(middle) == owner)
    if not good.any():
        return None
    found_rows, found_columns = np.nonzero(good)
    xs = raster.bounds[0] + (found_columns + c0 + columns / 2) * raster.cell
    ys = raster.bounds[1] + (found_rows + r0 + rows / 2) * raster.cell
    best = int(np.argmin((xs - spot[0]) ** 2 + (ys - spot[1]) ** 2))
    return float(xs[best]), float(ys[best])


def _tilted_place(
    board: Board, shape: Polygon, owner: int, spot: Vector, box: Vector, angle: float
) -> Vector | None:
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    reach = math.sqrt(shape.area) / 2
    shifts = [i / 6 * reach for i in (0, 1, -1, 2, -2, 3, -3, 4, -4)]
    for u, v in sorted(((u, v) for u in shifts for v in shifts), key=lambda p: math.hypot(*p)):
        at = (spot[0] + u * c - v * s, spot[1] + u * s + v * c)
        if not shape.contains(board.corners(at, box, angle)):
            continue
        points = board.samples(at, box, angle)
        if not board.ink.under(points).any() and (board.owner.under(points) == owner).all():
            return at
    return None


def write_nearby(
    board: Board, target: BaseGeometry, wanted: Wanted, gid: str = "", tip: str = "dot"
) -> list[Artist]:
    """Write as near ``target`` as there is room, with a leader to it.

    Places on walls, pieces, lines and other text are refused; the door's swing
    and the walkway are avoided where another place is as good. Where there is
    no free place at all, nothing is written and the list is empty.
    """
    for text in wanted.texts:
        for size in (wanted.sizes[0], wanted.sizes[-1]):
            for folded in _compact(text, size):
                found = _free_place(board, target, folded, size, wanted.bold)
                if found is not None:
                    return _write_with_leader(board, found, folded, size, wanted, gid, tip)
    return []


def _compact(text: str, size: float) -> list[str]:
    """Ways to write a name beside its piece: short lines before long ones."""
    return sorted(foldings(text, 3), key=lambda folded: extent(folded, size)[0] > LONG)


def _free_place(
    board: Board, target: BaseGeometry, text: str, size: float, bold: bool
) -> tuple[Vector, Vector, Vector] | None:
    """Middle of the text, and both ends of its leader (at the text, at the target)."""
    box = board.size(text, size, bold, pad=2.2)
    ink, w, h = board.ink.boxes(*box)
    if not ink.size:
        return None
    free = (ink < 0.5) & (board.solid.boxes(*box)[0] < 0.5)
    rows, columns = np.nonzero(free)
    if not rows.size:
        return None
    cell = board.ink.cell
    xs = board.view[0] + (columns + w / 2) * cell
    ys = board.view[1] + (rows + h / 2) * cell
    soft = board.soft.boxes(*box)[0][rows, columns] / (w * h)
    middle = target.centroid
    off = np.hypot(
        np.maximum(np.abs(xs - middle.x) - box[0] / 2, 0),
        np.maximum(np.abs(ys - middle.y) - box[1] / 2, 0),
    )
    costs = off + board.mm(30) * soft
    order = np.argsort(costs, kind="stable")
    # Near places closely, far ones thinly, for the leader that has a text in its way.
    steps = np.unique(np.geomspace(1, len(order), TRIED).astype(np.int64)) - 1
    picks = order[np.union1d(steps, np.arange(0, min(len(order), 30 * TRIED), 60))]
    aims, edge = _aims(target), board.size(text, size, bold, pad=0.6)
    best, least = None, math.inf
    for i in picks:
        if costs[i] >= least:
            break
        at = (float(xs[i]), float(ys[i]))
        ends = _leader(at, edge, aims)
        cost = float(costs[i]) + _crossings(board, *ends)
        if cost < least:
            best, least = (at, *ends), cost
    return best


def _aims(target: BaseGeometry) -> Numbers:
    """Points of the target that a leader may end at: well inside it, not at its ends."""
    if target.area:
        smaller = target.buffer(-math.sqrt(target.area) * 0.25)
        ring = (
            target.centroid if smaller.is_empty else smaller.segmentize(math.sqrt(target.area) / 4)
        )
        return np.asarray(shapely.get_coordinates(ring))
    if target.length:
        shares = np.linspace(0.2, 0.8, 13)
        return np.asarray(shapely.get_coordinates(target.interpolate(shares, normalized=True)))
    return np.asarray(shapely.get_coordinates(target))


def _leader(centre: Vector, box: Vector, aims: Numbers) -> tuple[Vector, Vector]:
    """The shortest line from the edge of a text box to one of ``aims``."""
    starts = np.asarray(centre) + EDGE * np.asarray(box)
    off = ((starts[:, None, :] - aims[None, :, :]) ** 2).sum(axis=2)
    i, j = np.unravel_index(int(np.argmin(off)), off.shape)
    (ax, ay), (bx, by) = starts[i], aims[j]
    return (float(ax), float(ay)), (float(bx), float(by))


def _crossings(board: Board, start: Vector, end: Vector) -> float:
    """What a leader costs by the lines it crosses; text in its way forbids it."""
    steps = max(2, int(math.dist(start, end) / board.ink.cell) + 1)
    points = np.linspace(start, end, steps)
    if board.texts.under(points).any():
        return math.inf
    return float(np.count_nonzero(board.ink.under(points))) * board.mm(3)


def _write_with_leader(
    board: Board,
    found: tuple[Vector, Vector, Vector],
    text: str,
    size: float,
    wanted: Wanted,
    gid: str,
    tip: str,
) -> list[Artist]:
    at, near, far = found
    drawn: list[Artist] = [
        board.text(at, text, size, colour=wanted.colour, bold=wanted.bold, gid=gid)
    ]
    line = LineString([near, far])
    if line.length > board.mm(1.5):
        drawn.append(board.lines([[near, far]], 0.4, board.style.quiet, 18.0, gid=f"leader:{gid}"))
        board.texts.add_line([near, far])
    if tip == "dot":
        dot = Point(far).buffer(board.mm(1.0), quad_segs=4)
        drawn.append(board.fill(dot, board.style.quiet, 18.1))
        board.ink.add_shape(dot)
    return drawn
