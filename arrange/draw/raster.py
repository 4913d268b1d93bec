"""What is already drawn where: a coarse picture of the plan that finds free places.

Text is placed on a raster of cells less than a point wide. A running sum over the
raster tells for every place at once whether a text box there would touch ink.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry.base import BaseGeometry

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
