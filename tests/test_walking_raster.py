"""Walkways against an independent reference: the same definition on a fine raster.

The reference knows no polygons. Floor is a raster of 5 mm squares, distances come
from scipy's exact Euclidean distance transform, connection from its labelling. The
raster is off by at most one square's diagonal a side, so the two are held together
within 20 mm of width: what the raster reaches on a path 20 mm wider must be reached
by `arrange.walking`, and what that reaches the raster must reach 20 mm narrower.
"""

import random
from dataclasses import dataclass

import numpy as np
import pytest
from scipy import ndimage
from shapely import box
from shapely.geometry import Polygon

from arrange.geometry.walking import Floor, Goal, Walk

CELL = 5  # mm
BAND = 20  # mm of width
UP_TO = 1 / 2  # path widths from the middle of the disc to a place that it is up to
DIAGONAL = 2**0.5 / 2  # and to the farthest floor in a corner that it cannot fill


@dataclass(frozen=True)
class Case:
    """A room, its corner cut off at ``x + y > cut``, bodies, a door's floor, places to reach."""

    width: int
    length: int
    cut: int
    bodies: tuple[tuple[int, int, int, int], ...]
    door: tuple[int, int, int, int]
    places: tuple[tuple[int, int, int, int], ...]
    way: int


def overlap(a, b):
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def random_case(seed):
    """Bodies whose gaps are often just wide enough, or just not."""
    rng = random.Random(seed)  # noqa: S311
    way = rng.choice([450, 600, 600, 750, 900])
    width, length = rng.randrange(2500, 3801, CELL), rng.randrange(2500, 3801, CELL)
    cut = width + length - rng.choice([0, 0, 600, 1200])
    door = (200, 0, 1000, 800)
    bodies = []
    for _ in range(rng.randint(5, 9)):
        body = _body(rng, width, length, way, bodies)
        if not overlap(body, door):
            bodies.append(body)
    places = []
    for _ in range(200):
        w, h = rng.randrange(150, 1201, CELL), rng.randrange(150, 1201, CELL)
        x, y = rng.randrange(0, width - w + 1, CELL), rng.randrange(0, length - h + 1, CELL)
        place = (x, y, x + w, y + h)
        if x + w + y + h <= cut and not any(overlap(place, b) for b in bodies):
            places.append(place)
    return Case(width, length, cut, tuple(bodies), door, tuple(places[:8]), way)


def _body(rng, width, length, way, bodies):
    """A body about a path's width from another one or a wall, within the room."""
    w, h = rng.randrange(200, 1601, CELL), rng.randrange(200, 1601, CELL)
    gap = way + rng.randrange(-60, 61, CELL)
    x0, y0, x1, y1 = rng.choice([*bodies, (width, length, 0, 0)])
    x = rng.choice([x1 + gap, x0 - gap - w, rng.randrange(0, width - w + 1, CELL)])
    y = rng.choice([y1 + gap, y0 - gap - h, rng.randrange(0, length - h + 1, CELL)])
    x, y = min(max(x, 0), width - w), min(max(y, 0), length - h)
    return (x, y, x + w, y + h)


def ours(case):
    """What `arrange.walking` says of each place."""
    corner = case.cut - case.length, case.cut - case.width
    room = box(0, 0, case.width, case.length)
    if case.cut < case.width + case.length:
        room = Polygon([(0, 0), (0, case.length), (corner[0], case.length),
                        (case.width, corner[1]), (case.width, 0)])  # fmt: skip
    floor = Floor(room, [], case.way, [box(*case.door)])
    walk = Walk(floor, [box(*b) for b in case.bodies])
    return [
        walk.reaches(Goal("place", "", (box(*p),), min(p[2] - p[0], p[3] - p[1])))
        for p in case.places
    ]


class Raster:
    """The free floor as squares, with a rim of blocked ones all round."""

    def __init__(self, case):
        self.case = case
        shape = (case.length // CELL + 2, case.width // CELL + 2)
        self.free = np.zeros(shape, bool)
        self.free[1:-1, 1:-1] = True
        rows, columns = np.indices(shape)
        self.free &= (rows + columns - 1) * CELL <= case.cut
        for body in case.bodies:
            self.free[self.window(body)] = False

    @staticmethod
    def window(rectangle):
        """The squares of a rectangle."""
        x0, y0, x1, y1 = (v // CELL + 1 for v in rectangle)
        return slice(y0, y1), slice(x0, x1)

    def mask(self, rectangle):
        """A raster that is true in a rectangle."""
        mask = np.zeros_like(self.free)
        mask[self.window(rectangle)] = True
        return mask

    @staticmethod
    def middles(free, width):
        """Where the middle of a disc can be; a square's middle is half a square from its edge."""
        return ndimage.distance_transform_edt(free) * CELL - CELL / 2 >= width / 2

    def round_about(self, rectangle, far):
        """The squares whose middles are at most so far from a rectangle, across and up."""
        x0, y0, x1, y1 = rectangle
        rows, columns = np.indices(self.free.shape)
        x, y = (columns - 0.5) * CELL, (rows - 0.5) * CELL
        return (x >= x0 - far) & (x <= x1 + far) & (y >= y0 - far) & (y <= y1 + far)

    def steps_into(self, area, place, way, slack):
        """Whether a walk in ``area`` can step into a place, by the definition in words."""
        # A wider path must come nearer and has less floor to go on over, to be sure.
        if not (self.round_about(place, UP_TO * self.case.way - slack) & area).any():
            return False
        short = min(place[2] - place[0], place[3] - place[1])
        narrow = min(way, short + slack)
        inner = self.middles(self.mask(place), min(narrow, short))
        if not inner.any():  # a raster may have no square left in the middle of a narrow place
            inner = self.middles(self.mask(place), short - 2 * CELL)
        if (inner & area).any():
            return True
        near = ndimage.distance_transform_edt(~area) * CELL <= DIAGONAL * self.case.way - slack
        floor = (self.free & near) | self.mask(place)
        labels, _ = ndimage.label(self.middles(floor, min(narrow, short - CELL)), np.ones((3, 3)))
        both = set(labels[area & (labels > 0)]) & set(labels[inner & (labels > 0)])
        return bool(both)

    def reached(self, slack):
        """What a path wider by ``slack`` mm reaches."""
        way = self.case.way + slack
        labels, count = ndimage.label(self.middles(self.free, way), np.ones((3, 3)))
        areas = [labels == k for k in range(1, count + 1)]
        entered = [a for a in areas if self.steps_into(a, self.case.door, way, slack)]
        return [any(self.steps_into(a, p, way, slack) for a in entered) for p in self.case.places]


def compare(seeds):
    """Count places reached and not reached, after holding both sides together."""
    counts = {True: 0, False: 0}
    for seed in seeds:
        case = random_case(seed)
        said, raster = ours(case), Raster(case)
        wider, narrower = raster.reached(BAND), raster.reached(-BAND)
        for place, mine, surely, maybe in zip(case.places, said, wider, narrower, strict=True):
            assert mine or not surely, f"seed {seed}: {place} is reached on a wider path"
            assert maybe or not mine, f"seed {seed}: {place} is not reached on a narrower path"
            counts[mine] += 1
    return counts


def test_walks_agree_with_a_raster():
    """10 random rooms; both answers come up often, or the rooms would show nothing."""
    counts = compare(range(10))
    assert min(counts.values()) >= 6


@pytest.mark.long
def test_walks_agree_with_a_raster_in_many_rooms():
    """500 random rooms."""
    assert min(compare(range(10, 510)).values()) >= 400
