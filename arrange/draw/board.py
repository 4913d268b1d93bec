"""The board a plan is drawn on: axes true to scale that remember what is drawn where.

A ``Raster`` is a coarse picture of the plan in cells less than a point wide. A running
sum over it tells for every place at once whether a text box there would touch ink. The
``Board`` draws fills, lines and text and marks its rasters as it goes, so that whatever
comes later finds the places that are still free. Lengths in mm of the room.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Vector
from arrange.draw.style import Style
from arrange.draw.text import LINE_SPACING, extent, font

Polyline = Sequence[Vector]
PLAN = "plan"  # by which the axes of a plan are known
ABOVE = 15.0  # z of marks: over all pieces, under all text

Flags = npt.NDArray[np.bool_]
Numbers = npt.NDArray[np.float64]
Bounds = tuple[float, float, float, float]
Window = tuple[slice, slice]


class Raster:
    """Marks over the view ``bounds`` (room mm), in cells of ``cell`` mm."""

    def __init__(self, bounds: Bounds, cell: float) -> None:
        self.bounds, self.cell = bounds, cell
        self.nx = max(1, int(np.ceil((bounds[2] - bounds[0]) / cell)))
        self.ny = max(1, int(np.ceil((bounds[3] - bounds[1]) / cell)))
        self.marks: Numbers = np.zeros((self.ny, self.nx))
        self._sums: Numbers | None = None

    def indices(self, points: Numbers) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]:
        """Row and column of each point; those outside the view come to its edge."""
        columns = np.floor((points[:, 0] - self.bounds[0]) / self.cell).astype(np.int64)
        rows = np.floor((points[:, 1] - self.bounds[1]) / self.cell).astype(np.int64)
        return np.clip(rows, 0, self.ny - 1), np.clip(columns, 0, self.nx - 1)

    def add_line(self, points: Sequence[tuple[float, float]], amount: float = 1.0) -> None:
        """Mark every cell a polyline runs through."""
        corners = np.asarray(points, dtype=float)
        runs = []
        for start, end in pairwise(corners):
            steps = max(2, int(np.ceil(np.hypot(*(end - start)) / self.cell * 2.5)) + 1)
            runs.append(np.linspace(start, end, steps))
        if runs:
            self.marks[self.indices(np.vstack(runs))] = amount
            self._sums = None

    def add_shape(self, shape: BaseGeometry, amount: float = 1.0) -> None:
        """Mark every cell whose middle lies in ``shape``."""
        window, inside = self.window(shape)
        if inside.size:
            self.marks[window][inside] = amount
            self._sums = None

    def window(self, shape: BaseGeometry) -> tuple[Window, Flags]:
        """The cells round ``shape`` as slices, and which of them lie in it."""
        if shape.is_empty:
            return (slice(0, 0), slice(0, 0)), np.zeros((0, 0), dtype=bool)
        x0, y0, x1, y1 = shape.bounds
        rows, columns = self.indices(np.array([[x0, y0], [x1, y1]]))
        window = (slice(rows[0], rows[1] + 1), slice(columns[0], columns[1] + 1))
        return window, self._filled(shape, window)

    def _filled(self, shape: BaseGeometry, window: Window) -> Flags:
        """Which cells of ``window`` have their middle in ``shape``: an odd number of edges before.

        A row at a time, many times faster than to ask for every cell by itself.
        """
        rings = shapely.get_rings(shapely.get_parts(shape))
        starts = [shapely.get_coordinates(ring)[:-1] for ring in rings]
        ends = [shapely.get_coordinates(ring)[1:] for ring in rings]
        rows, columns = window[0].stop - window[0].start, window[1].stop - window[1].start
        if not rings.size:
            return np.zeros((rows, columns), dtype=bool)
        (ax, ay), (bx, by) = np.vstack(starts).T, np.vstack(ends).T
        ys = self.bounds[1] + (np.arange(window[0].start, window[0].stop) + 0.5) * self.cell
        edge, row = np.nonzero((ay[:, None] <= ys) != (by[:, None] <= ys))
        share = (ys[row] - ay[edge]) / (by[edge] - ay[edge])
        xs = ax[edge] + share * (bx[edge] - ax[edge])
        first = np.ceil((xs - self.bounds[0]) / self.cell - 0.5).astype(np.int64)
        first = np.clip(first - window[1].start, 0, columns)
        turns = np.zeros((rows, columns + 1), dtype=np.int16)
        np.add.at(turns, (row, first), 1)
        return np.asarray(turns[:, :-1].cumsum(axis=1, dtype=np.int16) & 1, dtype=bool)

    def boxes(
        self, width: float, height: float, window: Window | None = None
    ) -> tuple[Numbers, int, int]:
        """Sum of the marks under a box at every place, or in the ``window`` alone.

        Returns the sums by lower left cell, and the box's size in cells (columns,
        rows). Empty if the box is larger than the view.
        """
        w = int(np.ceil(width / self.cell))
        h = int(np.ceil(height / self.cell))
        if window is not None:
            s = _running(self.marks[window])
        else:
            if self._sums is None:
                self._sums = _running(self.marks)
            s = self._sums
        if w >= s.shape[1] or h >= s.shape[0]:
            return np.zeros((0, 0)), w, h
        return s[h:, w:] - s[:-h, w:] - s[h:, :-w] + s[:-h, :-w], w, h

    def boxes_at(
        self,
        width: float,
        height: float,
        rows: npt.NDArray[np.int64],
        columns: npt.NDArray[np.int64],
    ) -> Numbers:
        """Sum of the marks under a box with its lower left cell in each row and column."""
        w = int(np.ceil(width / self.cell))
        h = int(np.ceil(height / self.cell))
        if self._sums is None:
            self._sums = _running(self.marks)
        s = self._sums.ravel()
        below = rows * self._sums.shape[1] + columns
        above = below + h * self._sums.shape[1]
        return np.asarray(s[above + w] - s[below + w] - s[above] + s[below])

    def under(self, points: Numbers) -> Numbers:
        """The marks under each of ``points``."""
        return np.asarray(self.marks[self.indices(points)])

    def inside(self, points: Numbers) -> bool:
        """Whether all ``points`` lie in the view."""
        x0, y0, x1, y1 = self.bounds
        return bool(
            (points[:, 0] >= x0).all()
            and (points[:, 0] <= x1).all()
            and (points[:, 1] >= y0).all()
            and (points[:, 1] <= y1).all()
        )


def _running(marks: Numbers) -> Numbers:
    """Sums of all marks below and left, with a border of noughts."""
    sums = np.zeros((marks.shape[0] + 1, marks.shape[1] + 1))
    np.cumsum(marks, axis=0, out=sums[1:, 1:])
    np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
    return sums


class Board:
    """Draws on ``ax`` in room mm and marks three rasters as it goes.

    ``ink`` holds lines and text, ``texts`` text alone, ``solid`` what a name
    must not lie on (walls and pieces), ``owner`` the number of the piece on top
    (0 = none). ``scale`` is points on paper for one mm of the room.
    """

    def __init__(self, ax: Axes, view: Bounds, scale: float, style: Style) -> None:
        self.ax, self.view, self.scale, self.style = ax, view, scale, style
        ax.set_gid(PLAN)
        cell = 0.75 / scale
        self.ink = Raster(view, cell)
        self.texts = Raster(view, cell)
        self.solid = Raster(view, cell)
        self.soft = Raster(view, cell)
        self.owner = Raster(view, cell)
        self.boxes: list[Polygon] = []  # round every text
        self.artists: list[Artist] = []  # all that was drawn, in order

    def mm(self, points: float) -> float:
        """Millimetres of the room that take ``points`` on paper."""
        return points / self.scale

    def fill(
        self,
        shape: BaseGeometry,
        colour: str,
        z: float,
        gid: str = "",
        *,
        edge: str = "none",
        width: float = 0.0,
        alpha: float | None = None,
    ) -> PathPatch:
        """A filled shape without an outline unless ``edge`` and ``width`` (points) are given."""
        path = path_of(shape)
        patch = PathPatch(path, fc=colour, ec=edge, linewidth=width, alpha=alpha, zorder=z, gid=gid)
        self.ax.add_artist(patch)  # not add_patch: the limits are set, nobody needs its extent
        self.artists.append(patch)
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
            gid=gid,
        )
        self.ax.add_collection(drawn, autolim=False)
        self.artists.append(drawn)
        for run in kept if ink else ():
            self.ink.add_line(run)
        return drawn

    def outline(
        self,
        shape: Polygon,
        width: float,
        colour: str,
        z: float,
        *,
        dash: tuple[float, ...] = (),
        ink: bool = True,
        gid: str = "",
    ) -> None:
        """The outer ring of ``shape`` in one stroke width (points)."""
        ring = list(shape.exterior.coords)
        self.lines([ring], width, colour, z, dash=dash, ink=ink, gid=gid)

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
    ) -> None:
        """Write ``text`` with its middle at ``centre`` and mark its place as taken."""
        drawn = self.ax.text(
            *centre,
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
            gid=gid,
        )
        self.artists.append(drawn)
        box = self.corners(centre, self.size(text, points, bold, pad), angle)
        self.boxes.append(box)
        for raster in (self.ink, self.texts, self.solid):
            raster.add_shape(box)


def path_of(shape: BaseGeometry) -> Path:
    """A matplotlib path of the polygons in ``shape``, holes included."""
    vertices: list[Vector] = []
    codes: list[np.uint8] = []
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
