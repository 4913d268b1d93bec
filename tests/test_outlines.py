"""Outlines of pieces that are no rectangles: against the curve itself, and by hand. No solver."""

import math

import pytest
from plain_rooms import at, piece, room
from shapely.geometry import LineString, Point, Polygon

from arrange.geometry.outlines import CURVE, outline
from arrange.geometry.shapes import footprint, whole_bounds

pytestmark = pytest.mark.fast
SHAPES = ("round", "oval", "cut corners", "rounded corners")


@pytest.mark.parametrize("across", [90, 351, 1000, 1800])
def test_a_round_outline_lies_just_outside_its_circle(across):
    """Every corner and the middle of every chord, from the middle: r to r + 0.2 mm."""
    corners = outline(piece(width=across, depth=across, shape="round"))
    radius = across / 2
    chords = zip(corners, [*corners[1:], corners[0]], strict=True)
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in chords]
    far = [math.dist(point, (radius, radius)) for point in (*corners, *middles)]
    assert min(far) >= radius - 1e-9
    assert max(far) <= radius + CURVE + 1e-9


def test_an_oval_outline_lies_just_outside_its_ellipse():
    """An ellipse 1800 x 1000: no point of it is outside, none farther than 0.2 mm inside."""
    corners = Polygon(outline(piece(width=1800, depth=1000, shape="oval")))
    turns = [math.tau * k / 999 for k in range(999)]
    for a, b in ((900 + 900 * math.cos(t), 500 + 500 * math.sin(t)) for t in turns):
        assert corners.buffer(1e-6).covers(Point(a, b))
        assert corners.exterior.distance(Point(a, b)) <= CURVE


def test_the_area_of_what_is_cut_off():
    """Four triangles of 200 x 200 / 2 off a table 1400 x 800: 1.12 - 0.08 = 1.04 m2."""
    cut = Polygon(outline(piece(width=1400, depth=800, shape="cut corners", corner=200)))
    assert cut.area == pytest.approx(1_040_000)


def test_the_area_that_rounding_leaves():
    """A square less its circle is (4 - pi) r2: 34336 mm2 at r = 200; chords give back a little."""
    rounded = Polygon(outline(piece(width=1400, depth=800, shape="rounded corners", corner=200)))
    exact = 1400 * 800 - (4 - math.pi) * 200**2
    assert exact <= rounded.area <= exact + CURVE * math.tau * 200


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("facing", ["down", "left", "up", "right"])
def test_the_body_fills_its_width_and_depth_whatever_way_it_faces(shape, facing):
    """Whole mm, and the same in a mirror both ways."""
    one = piece(width=701, depth=440, shape=shape, corner=77)
    body = footprint(one, at(one, 100, 200, facing), room())
    across, up = (701, 440) if facing in ("down", "up") else (440, 701)
    assert whole_bounds(body) == (100, 200, 100 + across, 200 + up)
    assert body.is_valid
    assert body.convex_hull.area == pytest.approx(body.area)
    mirrored = Polygon([(200 + across - x, y) for x, y in body.exterior.coords])
    assert mirrored.symmetric_difference(body).area < 1e-3


def test_corners_that_meet_leave_an_octagon_or_a_diamond():
    """Corners of half a side: a square on its tip."""
    diamond = outline(piece(width=600, depth=600, shape="cut corners", corner=300))
    assert sorted(diamond) == [(0, 300), (300, 0), (300, 600), (600, 300)]
    assert len(outline(piece(width=600, depth=600, shape="cut corners", corner=100))) == 8


def test_corners_that_would_overlap_end_at_half_a_side():
    """As a piece shrinks its corners may come to meet."""
    oval = outline(piece(width=600, depth=300, shape="rounded corners", corner=900))
    assert min(b for _, b in oval) == pytest.approx(0, abs=1e-9)
    assert max(b for _, b in oval) == pytest.approx(300)
    straight = LineString([(150, 0), (450, 0)])
    assert Polygon(oval).exterior.buffer(1e-6).covers(straight)
