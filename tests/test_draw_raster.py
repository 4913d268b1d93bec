"""What lies where on a plan, and where lines of text end, against slower ways to find out."""

import matplotlib as mpl
import numpy as np
import pytest
import shapely
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from shapely.geometry import MultiPolygon, Point, Polygon, box

from arrange.draw.board import Raster
from arrange.draw.page import SETTINGS
from arrange.draw.text import LINE_SPACING, extent, font, width_of, wrapped

pytestmark = pytest.mark.fast

VIEW, CELL = (-130.0, -70.0, 900.0, 640.0), 7.3
RING = Point(400, 300).buffer(200).difference(Point(420, 310).buffer(90))
SHAPES = {
    "box": box(10, 20, 300, 250),
    "a room's outside": box(*VIEW).difference(Polygon([(0, 0), (700, 0), (500, 400), (0, 500)])),
    "ring": RING,
    "apart": MultiPolygon([box(0, 0, 100, 100), Point(500, 300).buffer(80)]),
    "half outside": Polygon([(-900, -900), (300, 200), (-40, 500)]),
}


@pytest.mark.parametrize("name", SHAPES)
def test_cells_in_a_shape_are_those_whose_middle_lies_in_it(name):
    """Asked of shapely cell by cell."""
    raster = Raster(VIEW, CELL)
    raster.add_shape(SHAPES[name])
    xs = VIEW[0] + (np.arange(raster.nx) + 0.5) * CELL
    ys = VIEW[1] + (np.arange(raster.ny) + 0.5) * CELL
    wanted = shapely.contains_xy(SHAPES[name], *np.meshgrid(xs, ys))
    assert wanted.any()
    assert not wanted.all()
    np.testing.assert_array_equal(raster.marks == 1.0, wanted)


def test_nothing_is_marked_by_a_shape_without_floor():
    raster = Raster(VIEW, CELL)
    for shape in (Polygon(), shapely.LineString([(0, 0), (300, 300)]), Point(5, 5)):
        raster.add_shape(shape)
    assert not raster.marks.any()


def test_sums_under_boxes_are_alike_for_the_whole_and_for_a_window():
    """A window sees the places that lie wholly inside it."""
    raster = Raster(VIEW, CELL)
    raster.add_shape(RING)
    raster.add_line([(0, 0), (600, 500)])
    whole, w, h = raster.boxes(60, 25)
    window = (slice(20, 70), slice(30, 90))
    part, *size = raster.boxes(60, 25, window)
    assert size == [w, h]
    np.testing.assert_array_equal(part, whole[20 : 70 - h + 1, 30 : 90 - w + 1])
    assert part[5, 7] == raster.marks[25 : 25 + h, 37 : 37 + w].sum()


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("size", [7.0, 14.5])
def test_letters_summed_up_are_as_wide_and_high_as_the_library_lays_them_out(size, bold):
    """Within a hundredth of the width and a pixel; "ff" may be drawn as one narrower letter."""
    figure = Figure(dpi=600)
    renderer = FigureCanvasAgg(figure).get_renderer()
    for told in (
        "The bed (140 x 200 cm)",
        "AVATAR, To: 1½ ft \N{EN DASH} “sill”",
        "Écran\nà gauche\nillwm",
    ):
        with mpl.rc_context(SETTINGS):
            laid = figure.text(
                0,
                0,
                told,
                fontproperties=font(size, bold),
                linespacing=LINE_SPACING,
                parse_math=False,
            ).get_window_extent(renderer)
        width, height = extent(told, size, bold)
        points = 72 / figure.dpi
        assert width == pytest.approx(laid.width * points, rel=0.01, abs=points)
        assert height == pytest.approx(laid.height * points, rel=0.01, abs=points)


@pytest.mark.slow
def test_lines_end_where_measuring_word_by_word_would_end_them():
    """Every line measured after every word, as nobody has the time to; none of them a unit."""
    said = "Bed at least (sixty) from the wall, illi WAVY-mw window “sill” To. some: end"
    chance = np.random.default_rng(7)
    for _ in range(60):
        text = " ".join(chance.choice(said.split(), size=chance.integers(1, 25)))
        size = float(chance.choice([5.5, 7.0, 14.0]))
        width = size * chance.uniform(7, 40)
        lines = [""]
        for word in text.split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and width_of(longer, size) > width:
                lines.append(word)
            else:
                lines[-1] = longer
        assert list(wrapped(text, size, width)) == lines


def test_sums_at_some_places_are_those_of_all_places():
    """A box of 50 by 30 mm at every seventh place of the view."""
    raster = Raster(VIEW, CELL)
    raster.add_shape(RING)
    everywhere, _, _ = raster.boxes(50, 30)
    rows, columns = (found[::7] for found in np.nonzero(everywhere))
    assert len(rows) > 100
    np.testing.assert_array_equal(raster.boxes_at(50, 30, rows, columns), everywhere[rows, columns])
