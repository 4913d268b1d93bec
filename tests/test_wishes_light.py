"""Wishes about windows and sockets: daylight, glare.

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
    levels,
    on_wall,
    piece,
    room,
    scenario,
    sentences,
    window,
)

DESK = piece("desk", 1400, 700, 740, stands="free", roles={"desk", "work"})


# The window is a line at y = 4000 from x 1500 to 2700. A desk of 1400 by 700 facing down at y
# has its middle at y + 350: 4000 - 350 - y = 3650 - y up; across, it is at x + 700.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1500, 1649, 0, id="2001 away"),
        pytest.param(1500, 1650, 1, id="2000 away"),
        pytest.param(1500, 2649, 1, id="1001 away"),
        pytest.param(1500, 2650, 2, id="1000 away"),
        pytest.param(3000, 3300, 2, id="1000 across: 3700 - 2700"),
        pytest.param(3000, 2649, 1, id="the larger of 1000 across and 1001 up"),
    ],
)
def test_daylight_on_a_desk(x, y, level):
    """2 m earns one level, 1 m both; the larger of the two gaps counts."""
    s = scenario(room(windows=[window()]), DESK, only="daylight")
    assert levels(s, "daylight", at(DESK, x, y))[0] == level


def test_daylight_counts_the_nearest_window():
    """At the far end of the room from one window, right at the other."""
    plan = room(windows=[window(), window(BOTTOM, 0, 1000, name="low window")])
    s = scenario(plan, DESK, only="daylight")
    assert levels(s, "daylight", at(DESK, 3600, 100))[0] == 2
    assert sentences(s, "daylight", at(DESK, 3600, 100))[0] == (
        "The middle of the desk is 450 mm from the low window"
    )


def test_of_what_is_too_far_from_daylight_it_is_said_what_is_better():
    """4000 - 350 - 1649 = 2001 from the window; beside it, 2001 to the side."""
    s = scenario(room(windows=[window()]), DESK, only="daylight")
    assert sentences(s, "daylight", at(DESK, 1500, 1649))[0] == (
        "The middle of the desk is 2001 mm from the window; 1000 mm or less is better"
    )
    assert sentences(s, "daylight", at(DESK, 1750, 599, "left"))[1] == (
        "The desk has the window 2001 mm to one side of it; 2000 mm or less is better"
    )


def test_daylight_from_a_slanted_window():
    """The whole slanted wall spans x 4000 to 5000, y 3000 to 4000: 3000 - 350 - 1650 = 1000."""
    s = scenario(room(SLANTED, windows=[window(2, 0, 1414)]), DESK, only="daylight")
    assert levels(s, "daylight", at(DESK, 3600, 1650))[0] == 2
    assert levels(s, "daylight", at(DESK, 3600, 1648))[0] == 1


def test_daylight_needs_a_window_and_someone_to_use_it():
    """No window, or nothing but a chest: nothing to earn."""
    assert levels(scenario(room(), DESK), "daylight", at(DESK, 0, 0)) == []
    chest = piece("chest", stands="free")
    s = scenario(room(windows=[window()]), chest)
    assert levels(s, "daylight", at(chest, 0, 0)) == []


# The window's middle is at (2100, 4000). A desk looking left or right is 700 across and
# 1400 up; one that looks up or down is 1400 across.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1750, 2000, "left", 1, id="beside it, right at the window's middle"),
        pytest.param(1750, 599, "left", 0, id="2001 away"),
        pytest.param(1750, 600, "left", 1, id="2000 away"),
        # Its middle at (x + 350, 2700) is 1300 below: the window's end, x 2700, as far behind.
        pytest.param(3650, 2000, "right", 1, id="the window's end 1300 behind"),
        pytest.param(3651, 2000, "right", 0, id="1301 behind"),
        pytest.param(1400, 3000, "up", 0, id="right before it"),
        # Its middle at (x + 700, 2950) is 1050 below, the window's middle 1050 aside.
        pytest.param(2450, 2600, "down", 1, id="behind and as much aside"),
        pytest.param(2449, 2600, "down", 0, id="1 mm less aside"),
    ],
)
def test_light_from_the_side(x, y, facing, level):
    """Within 2 m, and between 45 and 135 degrees off the way one looks."""
    s = scenario(room(windows=[window()]), DESK, only="daylight")
    assert levels(s, "daylight", at(DESK, x, y, facing))[1] == level


def test_light_from_the_side_says_which_window():
    """At a side, or not."""
    s = scenario(room(windows=[window()]), DESK)
    assert sentences(s, "daylight", at(DESK, 1750, 2000, "left"))[1] == (
        "The desk has the window 600 mm to one side of it"
    )
    assert sentences(s, "daylight", at(DESK, 1400, 3000, "up"))[1] == (
        "The desk has no window to one side of it"
    )


# Window of the top wall: x 1500 to 2700. The desk is 1400 x 700, its middle at (x + 700,
# y + 350): at y 2650 that is 1000 from the window, and the cone reaches 577 aside.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1400, 2650, "up", 0, id="looks at the window"),
        pytest.param(1400, 2650, "down", 0, id="window at its back"),
        pytest.param(223, 2650, "up", 1, id="middle at 923: 577 before the window"),
        pytest.param(224, 2650, "up", 0, id="1 mm in line"),
        pytest.param(2577, 2650, "down", 1, id="middle at 3277: 577 after it"),
        pytest.param(2576, 2650, "down", 0, id="1 mm in line on that side"),
        pytest.param(1400, 650, "up", 1, id="3000 away"),
        pytest.param(1400, 651, "up", 0, id="2999 away"),
        pytest.param(1500, 500, "left", 2, id="at right angles, in line or not"),
        pytest.param(4000, 500, "right", 2, id="at right angles, far aside"),
    ],
)
def test_glare_with_windows_on_one_wall(x, y, facing, level):
    """In line 0, aside or far 1, at right angles 2."""
    s = scenario(room(windows=[window()]), DESK, only="screen-glare")
    assert levels(s, "screen-glare", at(DESK, x, y, facing)) == [level]


@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(3600, 2650, "up", 1, id="clear of the top window, its level is the last"),
        pytest.param(1500, 2650, "up", 0, id="in line with the top window"),
        # Facing left the desk is 700 across x and 1400 up, its middle 1000 from the left
        # window, y 0 to 1000: clear from 1577 on.
        pytest.param(650, 877, "left", 1, id="577 above the left window"),
        pytest.param(650, 876, "left", 0, id="1 mm in line with the left window"),
    ],
)
def test_glare_with_windows_on_two_sides(x, y, facing, level):
    """Right angles to both are impossible, so clear of both is all there is."""
    plan = room(windows=[window(), window(LEFT, 0, 1000, name="left window")])
    s = scenario(plan, DESK, only="screen-glare")
    assert levels(s, "screen-glare", at(DESK, x, y, facing)) == [level]


def test_glare_names_the_window_and_the_side():
    """Facing up the window is in front; facing down behind."""
    s = scenario(room(windows=[window()]), DESK)
    assert sentences(s, "screen-glare", at(DESK, 1500, 2500, "up")) == [
        "The desk has the window straight in front of it"
    ]
    assert sentences(s, "screen-glare", at(DESK, 1500, 2500, "down")) == [
        "The desk has the window straight behind it"
    ]
    for facing, told in (("up", "faces"), ("down", "has its back to")):
        assert sentences(s, "screen-glare", at(DESK, 3500, 2500, facing)) == [
            f"The desk {told} a wall with a window; at right angles to it is better"
        ]


@pytest.mark.parametrize(
    ("roles", "use", "claims"),
    [
        pytest.param({"desk", "work"}, "bedroom", 1, id="a desk"),
        pytest.param({"desk", "work", "child"}, "bedroom", 0, id="a child's desk"),
        pytest.param({"desk", "work"}, "child's room", 0, id="a desk in a child's room"),
        pytest.param({"screen"}, "child's room", 1, id="a screen there"),
    ],
)
def test_a_childs_desk_needs_no_screen(roles, use, claims):
    """There people draw and read; television is watched anywhere."""
    thing = replace(DESK, roles=frozenset(roles))
    s = scenario(room(windows=[window()]), thing, only="screen-glare", use=use)
    assert len(levels(s, "screen-glare", at(thing, 1500, 500, "left"))) == claims


def test_glare_on_a_slanted_wall_goes_by_the_nearest_turn():
    """A screen on the slanted wall looks left or down; the right window is at its side or not."""
    screen = piece("screen", 600, 300, roles={"screen"})
    plan = room(SLANTED, windows=[window(RIGHT + 1, 0, 1000)])
    s = scenario(plan, screen, only="screen-glare")
    place = on_wall(plan, screen, 2, 300)
    # Its nearest turn is down (the first of two as near); the window of the right wall
    # makes people look left: at right angles.
    assert levels(s, "screen-glare", place) == [2]
    other = room(SLANTED, windows=[window(TOP, 3000, 1000)])
    s = scenario(other, screen, only="screen-glare")
    # Now the window at x 3000 to 4000 is behind; the screen spans x 4212 - 212 = 4000 on.
    assert levels(s, "screen-glare", place) == [1]
