"""The clear floor on the plan is the one that the score counts."""

from dataclasses import replace

import draw_rooms as rooms
import pytest
from matplotlib.text import Text
from shapely.geometry import MultiPoint, Point

from arrange.data.result import Reason
from arrange.draw import plan_sheet
from arrange.draw.floor import LEGEND, clear_square
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import room_shape
from arrange.rules.clear_floor import SQUARES, ClearFloor

pytestmark = pytest.mark.fast


@pytest.mark.parametrize("make", [rooms.bedroom, rooms.l_shape, rooms.slanted])
def test_the_square_is_as_large_as_the_rule_measures_and_really_free(make):
    scenario, arrangement, _ = make()
    scene = Scene(scenario, arrangement)
    (claim,) = ClearFloor().claims(scenario)
    level = ClearFloor().measure(scene, claim).level
    assert level > 0
    square = clear_square(scenario, arrangement)
    x0, y0, x1, y1 = square.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((claim.steps[level - 1],) * 2)
    inner = square.buffer(-0.05)
    assert room_shape(scenario.room).contains(inner)
    assert not any(placed.body.intersects(inner) for placed in scene.standing)


def test_no_square_where_not_even_the_least_fits():
    """The corridor is narrower than the least square of the rule."""
    shape = rooms.room([(0, 0), (0, 4000), (SQUARES[0] - 1, 4000), (SQUARES[0] - 1, 0)])
    scenario, arrangement, _ = rooms.made("Corridor", shape, [])
    assert clear_square(scenario, arrangement) is None


def sheet(rule):
    scenario, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement)
    reason = Reason(rule, (), "A reason", "", "", 10, 20, rooms.SOURCE)
    figure = plan_sheet(scenario, replace(one, verdict=replace(one.verdict, reasons=(reason,))), 1)
    told = " ".join(t.get_text() for t in figure.findobj(Text))
    return figure, told, clear_square(scenario, arrangement)


@pytest.mark.slow
def test_it_is_outlined_where_a_reason_speaks_of_it_and_only_there():
    figure, told, square = sheet("clear-floor")
    (outline,) = figure.findobj(lambda a: a.get_gid() == "clear floor")
    marks = outline.get_paths()
    assert len(marks) == 4
    # Just inside, so that the edge of a piece does not hide them: 2.5 points, 31 mm at 1:35.
    corners = MultiPoint([path.vertices[1] for path in marks])
    assert len(corners.geoms) == 4
    assert square.contains(corners)
    for corner in square.exterior.coords:
        assert 0 < Point(corner).distance(corners) < 2**0.5 * 31
    every = [point for path in marks for point in path.vertices]
    assert square.contains(MultiPoint(every))
    assert LEGEND in told
    (label,) = figure.findobj(lambda a: a.get_gid() == "clear floor:text")
    assert square.contains(Point(label.get_position()))
    side = f"{round(square.bounds[2] - square.bounds[0]) // 10} cm"
    assert label.get_text() in (f"clear floor {side} x {side}", "clear floor")
    figure, told, _ = sheet("balance")
    assert figure.findobj(lambda a: a.get_gid() == "clear floor") == []
    assert LEGEND not in told
