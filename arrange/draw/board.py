"""The board a plan is drawn on: axes true to scale that remember what is drawn where."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Vector
from arrange.draw.measure import LINE_SPACING, extent, font
from arrange.draw.raster import Bounds, Numbers, Raster
from arrange.draw.style import Style

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
