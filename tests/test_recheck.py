"""The checks made from the written data alone can fail, and do where they should."""

from math import sqrt

import pytest
from recheck import ROUNDING, narrowness
from shapely import union_all
from shapely.geometry import LineString, Point, Polygon, box

pytestmark = pytest.mark.fast

WIDTH = 750  # mm


def two_rooms(neck, length):
    """Two squares of 2 m joined by a corridor ``neck`` wide and ``length`` long."""
    left, right = box(0, 0, 2000, 2000), box(2000 + length, 0, 4000 + length, 2000)
    joined = union_all([left, right, box(1999, 500, 2001 + length, 500 + neck)])
    radius = WIDTH / 2 - 1
    rounded = joined.buffer(-radius, quad_segs=64).buffer(radius, quad_segs=64)
    return union_all([rounded, box(1500, 500, 2500 + length, 500 + neck)])


@pytest.mark.parametrize("length", [1, 50, 1000])
@pytest.mark.parametrize(
    ("neck", "said"), [(WIDTH, []), (WIDTH - 1, []), (WIDTH - 3, ["too narrow"])]
)
def test_a_neck_is_as_wide_as_the_way_to_a_millimetre_each_side(neck, length, said):
    """1 mm is forgiven on each side, 1.5 mm is not, however short the neck is."""
    assert narrowness(two_rooms(neck, length), WIDTH) == said


def test_between_two_points_middles_are_torn_apart_by_much_where_little_lacks():
    """By hand: a disc of 374 between points 747.8 apart: 2 x sqrt(374^2 - 373.9^2) = 17.3 mm."""
    radius = WIDTH / 2 - 1
    gap = 2 * radius - 0.2
    apart = 2 * sqrt(radius**2 - (gap / 2) ** 2)
    assert apart == pytest.approx(17.3, abs=0.05)
    assert apart > 100 * ROUNDING
    posts = [Point(0, -gap / 2).buffer(1), Point(0, gap / 2).buffer(1)]
    whole = box(-2000, -2000, 2000, 2000)
    floor = whole.difference(union_all([posts[0], posts[1], box(-1, gap / 2, 1, 2000)]))
    floor = floor.difference(box(-1, -2000, 1, -gap / 2))
    assert narrowness(floor, WIDTH)[0] == "too narrow"


# A rounded corner as it was written of a room of the campaign, to 0.1 mm.
CORNER = [
    (518.5, 867.3), (681.7, 770.2), (712.4, 749.8), (740.9, 726.5), (767.0, 700.6),
    (790.4, 672.2), (810.9, 641.6), (828.4, 609.2), (842.5, 575.2), (853.3, 540.0),
    (860.5, 503.9), (864.2, 467.3), (864.2, 430.5), (860.7, 393.8), (853.5, 357.7),
    (842.9, 322.5), (828.8, 288.5), (811.5, 256.0), (791.0, 225.4), (767.7, 196.9),
    (741.6, 170.9), (740.4, 169.8), (740.0, 160.8), (740.0, 28.0), (70.0, 28.0),
    (70.0, 868.0), (517.2, 868.0),
]  # fmt: skip


def test_a_crumb_of_rounding_tears_nothing_apart():
    """The rounded corner leaves a crumb of 0.0001 square millimetres beside the middles."""
    middles = Polygon(CORNER).buffer(-(WIDTH / 2 - 1), quad_segs=64)
    assert len(middles.geoms) == 2
    assert min(part.area for part in middles.geoms) < 1e-3
    assert "too narrow" not in narrowness(Polygon(CORNER), WIDTH)


def test_a_dead_end_that_no_disc_enters_is_no_way():
    """It cuts nothing in two, but the region claims floor that the disc never covers."""
    floor = Point(0, 0).buffer(WIDTH, quad_segs=64)
    spike = LineString([(0, 0), (WIDTH + 300, 0)]).buffer(50)
    assert narrowness(union_all([floor, spike]), WIDTH) == ["no disc gets everywhere"]


def test_a_part_with_no_room_for_the_disc_is_too_narrow():
    """A strip of half the width."""
    assert narrowness(Polygon(box(0, 0, 3000, WIDTH / 2)), WIDTH) == ["too narrow"]
