"""Seeded rooms measured with a tape: corners within the stated error, planted mistakes found.

Rectangles, rooms out of square, L-shapes and bays, every length read as a hand reads it.
"""

from __future__ import annotations

import math

import click
import numpy as np

from arrange.scenario.adjusting import Measurement, value_on
from arrange.scenario.outline import Leg, OutlineError, letter
from arrange.scenario.survey import Check, survey
from benchmarks.report import circumstances, conclude

Corners = list[tuple[float, float]]
ENOUGH = 0.95  # of the rooms


def taped_room(rng: np.random.Generator) -> Corners:
    """Corners of a room in mm, the first at the origin and the first wall to the right."""
    wide, long = rng.integers(2200, 6500), rng.integers(2200, 6500)
    corners = [(0, long), (wide, long), (wide, 0), (0, 0)]
    shape = rng.choice(["rectangle", "askew", "L", "bay"])
    if shape == "askew":
        corners = [(x + rng.integers(-120, 120), y + rng.integers(-120, 120)) for x, y in corners]
    if shape == "L":
        x, y = rng.integers(800, wide - 800), rng.integers(800, long - 800)
        corners = [*corners[:2], (wide, y), (x, y), (x, 0), (0, 0)]
    if shape == "bay":
        start = rng.integers(400, wide // 3)
        across = rng.integers(1200, max(1201, wide - start - 300))
        deep, side = rng.integers(300, 700), round(across * rng.uniform(0.1, 0.3))
        bay = [(start, long), (start + side, long + deep)]
        bay += [(start + across - side, long + deep), (start + across, long)]
        corners = [corners[0], *bay, *corners[1:]]
    first = math.atan2(corners[1][1] - corners[0][1], corners[1][0] - corners[0][0])
    cos, sin = math.cos(first), math.sin(first)
    ox, oy = corners[0]
    return [((x - ox) * cos + (y - oy) * sin, (y - oy) * cos - (x - ox) * sin) for x, y in corners]


def taped(
    rng: np.random.Generator, corners: Corners, wrong: tuple[int, int] | None = None
) -> tuple[list[Leg], list[Check], list[str]]:
    """Every wall, every diagonal, and four lengths straight across, each as a hand reads it.

    ``wrong`` adds to the length of that number.
    """
    count = len(corners)

    def read(length: float) -> int:
        by = wrong[1] if wrong and len(lengths) == wrong[0] else 0
        lengths.append(
            max(1, round(length + rng.normal(0, max(1, 2 * (length / 1000) ** 0.5)) + by))
        )
        return lengths[-1]

    lengths: list[int] = []
    at = [math.degrees(math.atan2(b[0] - a[0], b[1] - a[1])) for a, b in _sides(corners)]
    turns = [(at[(i + 1) % count] - at[i] + 180) % 360 - 180 for i in range(count)]
    said = [math.copysign(90, t) if abs(abs(t) - 90) < 6 else round(t) for t in turns]
    legs = [
        Leg(letter(i), read(math.dist(*side)), said[i]) for i, side in enumerate(_sides(corners))
    ]
    pairs = [(i, j) for i in range(count) for j in range(i + 2, count) if (i, j) != (0, count - 1)]
    checks = [
        Check(f"diagonal {letter(i)}-{letter(j)}", i, j, read(math.dist(corners[i], corners[j])))
        for i, j in [pairs[k] for k in rng.permutation(len(pairs))[: 2 * count]]
    ]
    if count == 4:
        points = np.array(corners)
        for i, wall in ((0, True), (1, True), (0, False), (1, False)):
            first = (i, i + 1) if wall else (i, i)
            across = Measurement("", "square", (*first, i + 2, (i + 3) % 4), 0.0, 1.0)
            name = f"from {'wall ' * wall}{letter(i)} to wall {letter(i + 2)}"
            checks.append(Check(name, i, i + 2, read(value_on(points, across)), 0.0, wall, True))
    names = [f"wall {leg.name}" for leg in legs] + [one.name for one in checks]
    return legs, checks, names


def _sides(corners: Corners) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))


def surveyed(seed: int, wrong: bool) -> bool:
    """One seeded room: whether it came out right, or with ``wrong`` its one mistake was named."""
    rng = np.random.default_rng(seed)
    corners = taped_room(rng)
    count = len(taped(np.random.default_rng(seed), corners)[2])
    by = int(rng.choice([-1, 1]) * rng.integers(80, 400))
    mistake = (int(rng.integers(count)), by) if wrong else None
    legs, checks, names = taped(np.random.default_rng(seed), corners, mistake)
    try:
        found, told = survey(legs, closing=False, checks=checks, unit="cm")
    except OutlineError:
        return False
    if mistake:
        return [d.name for d in told.doubts] == [names[mistake[0]]]
    left, low = (min(p[axis] for p in corners) for axis in (0, 1))
    moved = [(x - left, y - low) for x, y in corners]
    off = np.array(found) - np.array(moved)
    off -= off[0]  # corner A is where the plan begins
    return bool(np.hypot(off[:, 0], off[:, 1]).max() <= told.error + 1)


@click.command()
@click.option("--rooms", default=1000, help="How many rooms, once without and once with a mistake.")
@click.option("--write", is_flag=True, help="Put the numbers into benchmarks/RESULTS.md.")
def main(rooms: int, *, write: bool) -> None:
    """Survey every room twice: well measured, and with one length 8 to 40 cm out."""
    began = circumstances(f"seeds 0 to {rooms - 1}")
    inside, named = (sum(surveyed(seed, wrong) for seed in range(rooms)) for wrong in (False, True))
    lines = [
        began,
        "",
        f"- rooms with every corner within the stated error: {inside} of {rooms}",
        f"- rooms whose one mistake was named, and nothing else: {named} of {rooms}",
    ]
    conclude("The tape survey", lines, write=write, faulty=min(inside, named) < ENOUGH * rooms)


if __name__ == "__main__":
    main()
