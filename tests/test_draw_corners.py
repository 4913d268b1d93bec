"""Corner numbers on the survey sheet and the lines between them that are to be taped."""

import math
from dataclasses import replace
from pathlib import Path

import draw_rooms as rooms
import pytest
from matplotlib.text import Text
from shapely.geometry import Polygon, box

from arrange.data.room import Fixture
from arrange.draw import survey_sheet
from arrange.draw.survey import corner_to_corner
from arrange.geometry.shapes import room_shape
from arrange.scenario.read import read, read_text

pytestmark = pytest.mark.fast

EXAMPLES = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))
OWN = [rooms.bedroom, rooms.narrow, rooms.l_shape, rooms.slanted]


def block(x, y, width, depth, **more):
    corners = ((x, y), (x, y + depth), (x + width, y + depth), (x + width, y))
    return Fixture("box", "boxed pipe", corners, None, 0, width, depth, **more)


def numbers(scenario):
    """The texts of the corner numbers by number, each with its axes."""
    found = survey_sheet(scenario).findobj(lambda a: (a.get_gid() or "").startswith("corner:"))
    assert all(isinstance(t, Text) for t in found)
    assert all(t.get_gid() == f"corner:{t.get_text()}" for t in found)
    return {int(t.get_text()): t for t in found}


def check_numbers(scenario):
    """Every corner has its number, nearest to its own corner, and clear of what is built in."""
    room = scenario.room
    found = numbers(scenario)
    assert sorted(found) == list(range(1, len(room.corners) + 1))
    for number, text in found.items():
        at = text.get_position()
        near = sorted(room.corners, key=lambda c: math.dist(c, at))
        assert near[0] == room.corners[number - 1]
        renderer = text.figure.canvas.get_renderer()
        extent = text.get_window_extent(renderer).transformed(text.axes.transData.inverted())
        drawn = box(*extent.get_points().ravel())
        for fixture in room.fixtures:
            assert len(fixture.corners) < 3 or not drawn.intersects(Polygon(fixture.corners))
        floor = room_shape(room)
        assert floor.contains(drawn) or not floor.intersects(drawn)


@pytest.mark.slow
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_every_corner_of_the_examples_is_numbered(path):
    """Door leaves, boxed pipes, bays and chimney breasts take no number away."""
    check_numbers(read(path))


@pytest.mark.slow
@pytest.mark.parametrize("make", OWN, ids=lambda m: m.__name__)
def test_every_corner_of_awkward_rooms_is_numbered(make):
    """The same holds in narrow, bent and slanted rooms."""
    check_numbers(make()[0])


@pytest.mark.slow
def test_corners_filled_by_cupboards_are_numbered_outside():
    """A row of cupboards along a whole wall sends both its numbers off the walls."""
    scenario = rooms.bedroom()[0]
    room = replace(scenario.room, fixtures=(block(0, 2800, 4100, 600),))
    case = replace(scenario, room=room)
    check_numbers(case)
    floor = room_shape(room)
    inside = {n for n, t in numbers(case).items() if floor.contains(box(*t.get_position() * 2))}
    assert inside == {1, 4}


@pytest.mark.parametrize(
    ("fixture", "pairs"),
    [
        pytest.param(block(0, 3150, 250, 250), {(1, 3)}, id="corner filled"),
        pytest.param(block(1900, 1500, 300, 400), set(), id="column in the middle"),
        pytest.param(block(0, 1500, 200, 300), {(1, 3), (2, 4)}, id="beside both lines"),
        pytest.param(block(0, 3150, 250, 250, bottom=1500), {(1, 3), (2, 4)}, id="hangs high"),
        pytest.param(block(0, 3150, 250, 250, solid=False), {(1, 3), (2, 4)}, id="not solid"),
    ],
)
def test_only_lines_that_a_tape_can_take_are_listed(fixture, pairs):
    """The room is 4100 x 3400 mm; its diagonals cross in the middle."""
    room = replace(rooms.bedroom()[0].room, fixtures=(fixture,))
    assert {(a, b) for a, b, _ in corner_to_corner(room)} == pairs


def test_a_note_keeps_off_the_line_of_a_sloping_ceiling():
    """The line 15 cm before the wall, where the ceiling is 150 cm high, is where it would be."""
    text = """
[room]
size = [680, 480]
[[room.slope]]
wall = "C"
height = 140
until = 150
[[door]]
wall = "A"
from_left = 560
width = 80
[[window]]
name = "roof window"
wall = "C"
from_left = 150
width = 80
[[piece]]
kind = "plant"
"""
    scenario = read_text(text)
    figure = survey_sheet(scenario)
    renderer = figure.canvas.get_renderer()
    (note,) = (t for t in figure.findobj(Text) if t.get_gid() == "note:roof window")
    (_, low), (_, high) = note.axes.transData.inverted().transform(
        note.get_window_extent(renderer).get_points()
    )
    assert not low < 150 < high
