"""Least squares: the corners that fit everything measured best, and what disagrees.

Each measurement says what it should be, given the corners, and how far off it may be. The
corners are those with the least sum of (what is left over / standard deviation) squared. A
measurement that the others contradict is found by its standardised residual (Baarda's data
snooping, from memory). Lengths in mm; bearings and turns in degrees, clockwise; y up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Kind = Literal["length", "bearing", "turn", "square"]

# Two-sided 0.01 %: of a thousand rooms with ten lengths each, one is doubted without cause.
CRITICAL = 3.89
# A measurement of which the others check less than this share cannot be told to be wrong.
CHECKED = 0.02
STEPS = 20
STILL = 1e-7  # mm


@dataclass(frozen=True, slots=True)
class Measurement:
    """One thing measured, with ``sd``, its standard deviation in the unit of ``value``.

    ``at`` are corners by number: from and to for a ``length`` or ``bearing`` (clockwise
    from up the plan); before, at and after the corner for a ``turn``, right positive; for
    ``square`` two corners, whose middle is measured from, and the two ends of the wall
    that is measured to at right angles, inwards positive.
    """

    name: str
    kind: Kind
    at: tuple[int, ...]
    value: float
    sd: float


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Corners that fit best, and how well each measurement agrees with the others.

    ``points`` (n, 2) are in mm. ``off`` is adjusted less measured, ``share`` the part of
    each measurement that the others check, 0 to 1, and ``test`` the standardised residual;
    all (m,). ``spread`` (2n, 2n) is the covariance of the points, in mm squared.
    """

    points: Floats
    off: Floats
    share: Floats
    test: Floats
    spread: Floats

    @property
    def worst(self) -> float:
        """The greatest standardised residual; 0 where nothing is checked."""
        return float(np.abs(self.test).max(initial=0.0))

    @property
    def fits(self) -> bool:
        """Whether no measurement contradicts the others."""
        return self.worst <= CRITICAL

    def slip(self, index: int) -> float:
        """By how much measurement ``index`` is out, if it alone is: measured less true."""
        return float(-self.off[index] / self.share[index])

    def error(self) -> float:
        """In mm: 95 times of 100 every corner is within this of where it is.

        Measured from the first corner, with the first wall running as drawn. It is the 99 %
        radius of the worst corner (chi squared 9.21, from memory), since all must be within.
        """
        corners = range(0, len(self.spread), 2)
        largest = [np.linalg.eigvalsh(self.spread[i : i + 2, i : i + 2])[-1] for i in corners]
        return math.sqrt(9.21 * max(0.0, *map(float, largest)))


def adjust(measurements: Sequence[Measurement], start: Floats, held: Sequence[int]) -> Adjustment:
    """The corners that fit ``measurements`` best, from ``start`` (n, 2) on, in mm.

    ``held`` are coordinates that stay as they are (2i is x of corner i, 2i + 1 its y): as
    many as it takes to hold the room in its place. What no measurement fixes stays near
    ``start``.
    """
    points = np.array(start, dtype=float)
    free = [i for i in range(points.size) if i not in set(held)]
    weight = np.array([1 / m.sd for m in measurements])
    for _ in range(STEPS):
        rows, off = _rows(measurements, points)
        step = np.linalg.lstsq(rows[:, free] * weight[:, None], -off * weight, rcond=1e-13)[0]
        points.reshape(-1)[free] += step
        if np.abs(step).max(initial=0.0) < STILL:
            break
    rows, off = _rows(measurements, points)
    design = rows[:, free] * weight[:, None]
    inverse = np.linalg.pinv(design)
    share = 1 - np.einsum("ij,ji->i", design, inverse)
    checked = share > CHECKED
    test = np.where(checked, off * weight / np.sqrt(np.where(checked, share, 1.0)), 0.0)
    spread = np.zeros((points.size, points.size))
    spread[np.ix_(free, free)] = inverse @ inverse.T
    return Adjustment(points, off, share, test, spread)


def value_on(points: Floats, measurement: Measurement) -> float:
    """What would be measured on the plan with these corners, in the measurement's unit."""
    return _MEASURES[measurement.kind](points, measurement.at)[0]


def turned(degrees: float) -> float:
    """The same turn between -180 and 180 degrees."""
    return (degrees + 180) % 360 - 180


def _rows(measurements: Sequence[Measurement], points: Floats) -> tuple[Floats, Floats]:
    """How each measurement changes with each coordinate, and adjusted less measured."""
    rows = np.zeros((len(measurements), points.size))
    off = np.zeros(len(measurements))
    for i, m in enumerate(measurements):
        value, changes = _MEASURES[m.kind](points, m.at)
        miss = value - m.value
        off[i] = miss if m.kind in ("length", "square") else turned(miss)
        for corner, (x, y) in changes:
            rows[i, 2 * corner] += x
            rows[i, 2 * corner + 1] += y
    return rows, off


Changes = list[tuple[int, tuple[float, float]]]


def _length(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    a, b = at
    dx, dy = map(float, points[b] - points[a])
    long = math.hypot(dx, dy) or 1.0
    x, y = dx / long, dy / long
    return long, [(a, (-x, -y)), (b, (x, y))]


def _bearing(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    a, b = at
    dx, dy = map(float, points[b] - points[a])
    square = (dx * dx + dy * dy) or 1.0
    x, y = math.degrees(dy / square), math.degrees(-dx / square)
    return math.degrees(math.atan2(dx, dy)), [(a, (-x, -y)), (b, (x, y))]


def _turn(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    before, corner, after = at
    came, came_by = _bearing(points, (before, corner))
    goes, goes_by = _bearing(points, (corner, after))
    return goes - came, [*goes_by, *((i, (-x, -y)) for i, (x, y) in came_by)]


def _square(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    p, q, a, b = at
    (ax, ay), (bx, by) = points[a], points[b]
    mx, my = (points[p] + points[q]) / 2
    ex, ey = float(bx - ax), float(by - ay)
    long = math.hypot(ex, ey) or 1.0
    across = float(ey * (mx - ax) - ex * (my - ay)) / long
    ux, uy = ex / long, ey / long
    half = (uy / 2, -ux / 2)
    # By the wall's own ends: the line turns about the foot of the measured distance.
    at_b = float((mx - ax) * ux + (my - ay) * uy) / long
    far, near = (-uy * at_b, ux * at_b), (-uy * (1 - at_b), ux * (1 - at_b))
    return across, [(p, half), (q, half), (a, near), (b, far)]


_MEASURES = {"length": _length, "bearing": _bearing, "turn": _turn, "square": _square}
