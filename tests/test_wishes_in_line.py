"""Wishes about how things sit: on axes, without gutters, like with like.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    SLANTED,
    TOP,
    at,
    door,
    levels,
    on_wall,
    piece,
    room,
    says,
    scenario,
    sentences,
    window,
)

from arrange.data.room import Fixture

SOFA = piece("sofa", 2000, 900, 850, roles={"seat", "sofa"})
FREE = replace(SOFA, stands="free")
SCREEN = piece("screen", 1400, 400, 500, roles={"screen"})
WARDROBE = piece("wardrobe", 1000, 600, 2000, roles={"store", "tall"})
DOUBLE = piece("bed", 1500, 2000, 500, roles={"sleep", "bed", "for two"})
SINGLE = piece("bed", 900, 2000, 500, roles={"sleep", "bed"})


# The left wall is 4000 long: the middle of 2000 starts at 1000. The window is in the top
# wall (5000) from 600 to 1800, middle 1200; the stretch beside it from 1800 to 5000.
@pytest.mark.parametrize(
    ("wall", "offset", "level"),
    [
        pytest.param(LEFT, 989, 0, id="11 short of the middle"),
        pytest.param(LEFT, 990, 3, id="10 short"),
        pytest.param(LEFT, 1010, 3, id="10 past"),
        pytest.param(LEFT, 1011, 0, id="11 past"),
        pytest.param(LEFT, 0, 2, id="in the corner"),
        pytest.param(LEFT, 10, 2, id="10 off the corner"),
        pytest.param(LEFT, 11, 0, id="11 off the corner"),
        pytest.param(LEFT, 2000, 2, id="in the other corner"),
        pytest.param(TOP, 190, 3, id="10 short of the window's middle: 200"),
        pytest.param(TOP, 189, 0, id="11 short of it"),
        pytest.param(TOP, 1500, 3, id="in the middle of the top wall: (5000 - 2000) / 2"),
        pytest.param(TOP, 2400, 3, id="in the middle of the free stretch: 1800 + 3200 / 2 - 1000"),
        pytest.param(TOP, 600, 2, id="flush with the window's left edge"),
        pytest.param(TOP, 1800, 2, id="beside the window, flush with its edge"),
        pytest.param(TOP, 2800, 0, id="nowhere"),
    ],
)
def test_on_an_axis_of_the_wall(wall, offset, level):
    """The middle of the wall, of its window or of the stretch beside it; flush is less."""
    plan = room(windows=[window(TOP, 600)])
    s = scenario(plan, SOFA, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SOFA, wall, offset)) == [level]


def test_on_the_axis_of_two_windows():
    """From 600 to 1200 and from 3000 to 3600: their middle is 2100, so 2000 start at 1100."""
    pair = [window(TOP, 600, 600, name="one"), window(TOP, 3000, 600, name="two")]
    plan = room(windows=pair)
    s = scenario(plan, SOFA, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SOFA, TOP, 1100)) == [3]
    assert levels(s, "on-axis", on_wall(plan, SOFA, TOP, 1140)) == [0]


@pytest.mark.parametrize(("offset", "level"), [(200, 0), (201, 3), (220, 3), (221, 0)])
def test_on_the_axis_of_a_slanted_wall(offset, level):
    """1414 long, its middle 707; a width of 993 is centred at 210.5, so from 201 to 220."""
    small = piece("sofa", 993, 100, 850, roles={"seat", "sofa"})
    plan = room(SLANTED)
    s = scenario(plan, small, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, small, 2, offset)) == [level]


# The sofa on the left wall looks right; it starts at y 1000 (the middle of the wall): y 1000
# to 3000, middle 2000. The right wall runs down: the screen's middle is at 4000 - offset - 700.
@pytest.mark.parametrize(
    ("sofa", "screen", "expected"),
    [
        pytest.param(1000, 1300, [3, 3], id="both in the middle"),
        pytest.param(500, 1800, [3, 3], id="on each other's axis: 1500 and 4000 - 2500"),
        pytest.param(500, 1790, [3, 3], id="10 off it"),
        pytest.param(500, 1789, [0, 0], id="11 off it"),
        pytest.param(1000, 1500, [2, 0], id="only on its wall's axis, not the screen's"),
        pytest.param(0, 1300, [2, 2], id="in the corner, and on the wall's axis"),
        # The screen from y 0 to 1400, the sofa from 1200 or 1201 to 3200 or 3201.
        pytest.param(1200, 2600, [0, 2], id="opposite by 200"),
        pytest.param(1201, 2600, [0, 2], id="no longer opposite"),
        pytest.param(2000, 2600, [2, 2], id="in two corners, not opposite"),
    ],
)
def test_what_it_looks_at_comes_first(sofa, screen, expected):
    """On the axis of the screen, else on that of the wall."""
    plan = room()
    s = scenario(plan, SOFA, SCREEN, only="on-axis")
    places = on_wall(plan, SOFA, LEFT, sofa), on_wall(plan, SCREEN, RIGHT, screen)
    assert levels(s, "on-axis", *places) == expected


def test_a_piece_opposite_nothing_has_the_axis_of_its_wall():
    """The sofa in the middle of a long wall, with the screen beyond its end."""
    plan = room(((0, 0), (0, 8000), (5000, 8000), (5000, 0)))
    s = scenario(plan, SOFA, SCREEN, only="on-axis")
    # Sofa at y 3000 to 5000; the screen from 8000 - 1400 - offset: 4800, then 4801.
    for offset, level in ((1800, 2), (1799, 3)):
        places = on_wall(plan, SOFA, LEFT, 3000), on_wall(plan, SCREEN, RIGHT, offset)
        assert levels(s, "on-axis", *places)[0] == level


def test_a_free_sofa_has_the_axis_of_what_it_looks_at():
    """Facing up at x 1500 to 3500, the screen at the top wall; back to it there is no axis."""
    plan = room()
    s = scenario(plan, FREE, SCREEN, only="on-axis")
    screen = on_wall(plan, SCREEN, TOP, 1800)
    assert levels(s, "on-axis", at(FREE, 1500, 500, "up"), screen) == [3, 3]
    assert levels(s, "on-axis", at(FREE, 1450, 500, "up"), screen) == [0, 2]
    assert levels(s, "on-axis", at(FREE, 1500, 500, "down"), screen) == [0, 3]


def test_a_fire_comes_before_the_screen():
    """A fireplace on the right wall, y 1500 to 2500; the sofa's middle at 2000 or 1700."""
    corners = ((4700, 1500), (4700, 2500), (5000, 2500), (5000, 1500))
    hearth = Fixture("fireplace", "fireplace", corners, RIGHT, 1500, 1000, 300, 0, 1100)
    s = scenario(room(fixtures=[hearth]), FREE, SCREEN, only="on-axis")
    screen = on_wall(s.room, SCREEN, RIGHT, 2600)  # y 0 to 1400, middle 700
    assert levels(s, "on-axis", at(FREE, 500, 1000, "right"), screen) == [3, 2]
    assert levels(s, "on-axis", at(FREE, 500, 1020, "right"), screen) == [0, 2]
    # On the axis of the screen (700), not opposite the fire: y -300 is out of the room, so
    # a screen from 100 to 1500, its middle 800, and a sofa of 1600 from 0 to 1600.
    short = replace(FREE, width=1600)
    s = scenario(s.room, short, SCREEN, only="on-axis")
    screen = on_wall(s.room, SCREEN, RIGHT, 2500)
    assert levels(s, "on-axis", at(short, 500, 0, "right"), screen) == [3, 3]


def test_a_chimney_breast_is_faced_like_a_fire():
    """A breast from x 2000 to 3000 in the top wall; the sofa on the bottom wall."""
    jutting = ((2000, 4000), (2000, 3700), (3000, 3700), (3000, 4000))
    plan = room(((0, 0), (0, 4000), *jutting, (5000, 4000), (5000, 0)))
    s = scenario(plan, SOFA, only="on-axis")
    bottom = len(plan.walls) - 1
    assert levels(s, "on-axis", on_wall(plan, SOFA, bottom, 1500)) == [3]
    assert levels(s, "on-axis", on_wall(plan, SOFA, bottom, 1400)) == [0]
    places = (on_wall(plan, SOFA, bottom, 1400),)
    assert says(s, "on-axis", places, "sofa", "100 mm off the middle")


def test_flush_with_a_neighbour_on_the_same_wall():
    """The wardrobe from 0 to 1000 on the left wall, the bed up to 10 after it."""
    plan = room()
    s = scenario(plan, DOUBLE, WARDROBE, only="on-axis")
    beside = on_wall(plan, WARDROBE, LEFT, 0)
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, LEFT, 1010), beside) == [2]
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, LEFT, 1011), beside) == [0]
    # On the top wall from 600, its side along the wardrobe's front, which is no neighbour.
    corner = on_wall(plan, WARDROBE, LEFT, 3000)
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, TOP, 605), corner) == [0]
    near = on_wall(plan, DOUBLE, LEFT, 1010), beside
    assert says(s, "on-axis", near, "bed", "beside", "wardrobe")


@pytest.mark.parametrize(("offset", "level"), [(0, 1), (1550, 1), (300, 0)])
def test_a_bed_for_one_is_as_good_in_a_corner(offset, level):
    """One level: on the axis or flush."""
    plan = room()
    s = scenario(plan, SINGLE, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SINGLE, LEFT, offset)) == [level]


def test_a_sideboard_has_the_axis_of_the_table_before_it():
    """The table's middle at y 1500; the sideboard 1600 wide starts 700 up the left wall."""
    board = piece("board", 1600, 450, 800, kind="sideboard", roles={"store"})
    table = piece("table", 1400, 800, 740, stands="free", roles={"dine", "table"})
    plan = room()
    s = scenario(plan, board, table, only="on-axis")
    spot = at(table, 2000, 1100)
    assert levels(s, "on-axis", on_wall(plan, board, LEFT, 700), spot) == [3]
    assert levels(s, "on-axis", on_wall(plan, board, LEFT, 1200), spot) == [2]


def test_on_axis_says_how_far_off():
    """The nearest axis of the wall and the distance to it."""
    plan = room(windows=[window(TOP, 600)], doors=[door(BOTTOM)])
    s = scenario(plan, SOFA)
    assert sentences(s, "on-axis", on_wall(plan, SOFA, TOP, 300)) == [
        "The sofa is 100 mm off the middle of the window"
    ]
