"""Wishes about seats and what they look at.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    at,
    levels,
    on_wall,
    piece,
    room,
    says,
    scenario,
    sentences,
    window,
)

from arrange.data.piece import Slot
from arrange.data.room import Fixture

SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("chair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
COUCH = replace(CHAIR, name="couch", roles=frozenset({"seat", "sofa"}))
SCREEN = piece("screen", 1400, 400, 500, stands="free", roles={"screen"})
WIDE = room(((0, 0), (0, 6000), (8000, 6000), (8000, 0)))


# Sofa at (0, 0) facing up: x 0 to 2000, y 0 to 900. The chair stands at (2000 + gap, 0).
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(4439, 0, 0, id="2439 across"),
        pytest.param(4438, 0, 1, id="2438 across"),
        pytest.param(3830, 0, 1, id="1830 across"),
        pytest.param(3829, 0, 2, id="1829 across"),
        pytest.param(3829, 2730, 1, id="1829 across, 1830 up"),
        pytest.param(2000, 0, 2, id="touching"),
    ],
)
def test_talking_distance(x, y, level):
    """2438 mm earn one level, 1829 both."""
    s = scenario(WIDE, SOFA, CHAIR, only="talking-distance")
    assert levels(s, "talking-distance", at(SOFA, 0, 0, "up"), at(CHAIR, x, y)) == [level]


def test_talking_is_for_seats_that_are_free_to_talk():
    """Not for a desk chair, a bench, a seat tied to the sofa or the sofa itself."""
    tied = piece("tied", 800, 800, anchor="sofa", slots=(Slot("right", gap=10),), roles={"seat"})
    work = piece("work chair", 500, 500, stands="free", roles={"seat", "work seat"})
    bench = piece("bench", 900, 400, stands="free", roles={"seat", "bench"})
    s = scenario(WIDE, SOFA, tied, work, bench)
    places = at(SOFA, 0, 0, "up"), at(work, 3000, 0), at(bench, 3000, 3000)
    # Facing up, the sofa's right end (seen from its front) is at the smaller x: the chair
    # ends 10 before it, at x 810 - 10 - 800 = 0, its middle along the sofa's: y 50.
    moved = at(SOFA, 810, 0, "up")
    assert levels(s, "talking-distance", moved, at(tied, 0, 50, "up"), *places[1:]) == []


# Sofa facing up at x 0 to 2000, y 0 to 900; its middle is (1000, 450).
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(600, 2500, "down", 1, id="face to face"),
        pytest.param(3000, 2000, "left", 1, id="at right angles, turned in"),
        pytest.param(3000, 2000, "right", 0, id="at right angles, turned out"),
        pytest.param(3000, 0, "up", 0, id="side by side"),
        pytest.param(600, 2500, "up", 0, id="one behind the other"),
        pytest.param(3000, 0, "down", 1, id="opposite ways, each beside the other's back line"),
        # Facing right from x, its back is at x: the sofa's middle is at 1000.
        pytest.param(1000, 2000, "right", 1, id="its back just at the sofa's middle"),
        pytest.param(1001, 2000, "right", 0, id="the sofa's middle 1 mm behind it"),
    ],
)
def test_seats_turned(x, y, facing, level):
    """Face to face or at right angles, nobody behind the other's back."""
    s = scenario(WIDE, SOFA, CHAIR, only="seats-turned")
    assert levels(s, "seats-turned", at(SOFA, 0, 0, "up"), at(CHAIR, x, y, facing)) == [level]


def test_seats_back_to_back_are_not_turned():
    """The chair's middle at y 3300 + 400 is behind the sofa that faces down from y 2400."""
    s = scenario(WIDE, SOFA, CHAIR, only="seats-turned")
    assert levels(s, "seats-turned", at(SOFA, 0, 2400, "down"), at(CHAIR, 0, 3300, "up")) == [0]
    places = at(SOFA, 0, 2400, "down"), at(CHAIR, 0, 3300, "up")
    assert says(s, "seats-turned", places, "chair", "turned away", "sofa")


# Sofa facing up at x 0 to 2000, front at y 900, middle (1000, 450). Screen facing down,
# 1400 wide, front at its lower edge y; straight ahead at x 300 (300 + 700 = 1000).
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(300, 900 + 1523, "down", 0, id="1523: too near"),
        pytest.param(300, 900 + 1524, "down", 3, id="1524"),
        pytest.param(300, 900 + 2500, "down", 3, id="2500"),
        pytest.param(300, 900 + 2501, "down", 2, id="2501"),
        pytest.param(300, 900 + 3000, "down", 2, id="3000"),
        pytest.param(300, 900 + 3001, "down", 1, id="3001"),
        pytest.param(300, 900 + 3500, "down", 1, id="3500"),
        pytest.param(300, 900 + 3501, "down", 0, id="3501"),
        pytest.param(300, 900 + 2000, "up", 0, id="its back to the sofa"),
        pytest.param(300, 900 + 2000, "left", 0, id="at right angles"),
        # From the sofa's middle to the screen's front 450 + 1550 = 2000: 0.577 of it is
        # 1154, the whole 2000.
        pytest.param(300 + 1154, 900 + 1550, "down", 3, id="30 degrees off"),
        pytest.param(300 + 1155, 900 + 1550, "down", 1, id="just over 30"),
        pytest.param(300 + 2000, 900 + 1550, "down", 1, id="45 degrees off"),
        pytest.param(300 + 2001, 900 + 1550, "down", 0, id="just over 45"),
    ],
)
def test_screen_view(x, y, facing, level):
    """Distance in the band, angle in the cone, face to face."""
    s = scenario(WIDE, SOFA, SCREEN, only="screen-view")
    assert levels(s, "screen-view", at(SOFA, 0, 0, "up"), at(SCREEN, x, y, facing)) == [level]


@pytest.mark.parametrize(
    ("sofa", "screen"),
    [
        pytest.param((LEFT, 1000), (RIGHT, 2300), id="across the room"),
        pytest.param((RIGHT, 2000), (LEFT, 2300), id="the other way"),
    ],
)
def test_screen_view_across_the_room(sofa, screen):
    """On facing walls of a room 4500 across: 4500 - 900 - 400 = 3200 between the fronts.

    From the seat's middle to the screen 3200 + 450 = 3650; 0.577 of it is 2106. The
    left wall runs up the plan, the right one down, so the screen's middle lies at
    y 6000 - 2300 - 700 = 3000 on the right and 2300 + 700 = 3000 on the left; the
    sofa's at 1000 + 1000 = 2000 and 6000 - 2000 - 1000 = 3000.
    """
    plan = room(((0, 0), (0, 6000), (4500, 6000), (4500, 0)))
    seat = piece("sofa", 2000, 900, 850, roles={"seat", "sofa"})
    tv = piece("screen", 1400, 400, 500, roles={"screen"})
    s = scenario(plan, seat, tv, only="screen-view")
    places = on_wall(plan, seat, *sofa), on_wall(plan, tv, *screen)
    assert levels(s, "screen-view", *places) == [1]


def test_screen_view_says_how_far_and_how_skew():
    """The distance between the fronts, and the angle where it is lost."""
    s = scenario(WIDE, SOFA, SCREEN)
    places = at(SOFA, 0, 0, "up"), at(SCREEN, 300 + 1155, 900 + 1550)
    assert sentences(s, "screen-view", *places) == [
        "The sofa is 1550 mm from the screen, more than 30 degrees off its axis"
    ]


# Window of the top wall x 1500 to 2700, middle (2100, 4000). Couch facing up at (x, 0):
# middle (x + 400, 400), 3600 ahead; 0.577 * 3600 = 2077.
@pytest.mark.parametrize(
    ("x", "facing", "level"),
    [
        pytest.param(1700, "up", 2, id="straight ahead"),
        pytest.param(1700 + 2077, "up", 2, id="30 degrees aside"),
        pytest.param(1700 + 2078, "up", 1, id="just over 30"),
        pytest.param(1700, "down", 0, id="turned away"),
        pytest.param(1700, "left", 0, id="turned aside"),
    ],
)
def test_focal_window(x, facing, level):
    """The largest window, where there is neither hearth nor screen."""
    plan = room(windows=[window(), window(BOTTOM, 0, 1000, name="small window")])
    s = scenario(plan, COUCH, only="focal-point")
    assert levels(s, "focal-point", at(COUCH, x, 0, facing)) == [level]


def test_focal_hearth_comes_before_window_and_screen():
    """A fireplace at x 4700 to 5000, y 1500 to 2500, middle (4850, 2000)."""
    corners = ((4700, 1500), (4700, 2500), (5000, 2500), (5000, 1500))
    hearth = Fixture("fireplace", "fireplace", corners, RIGHT, 1500, 1000, 300, 0, 1100)
    plan = room(windows=[window()], fixtures=[hearth])
    s = scenario(plan, COUCH, SCREEN, only="focal-point")
    screen = at(SCREEN, 0, 3600)
    assert levels(s, "focal-point", at(COUCH, 1000, 1600, "right"), screen) == [2]
    assert levels(s, "focal-point", at(COUCH, 1000, 1600, "up"), screen) == [0]
    # Middle (4400, 400): 450 aside to the right, 1600 ahead (up): 15.7 degrees.
    assert levels(s, "focal-point", at(COUCH, 4000, 0, "up"), screen) == [2]
    places = at(COUCH, 1000, 1600, "up"), screen
    assert says(s, "focal-point", places, "couch", "not", "fireplace")


def test_focal_point_is_the_screen_where_there_is_one():
    """Another rule speaks of screens: no claim here."""
    s = scenario(room(windows=[window(TOP)]), COUCH, SCREEN)
    assert levels(s, "focal-point", at(COUCH, 0, 0, "up"), at(SCREEN, 0, 3600)) == []


def test_focal_point_is_for_people_together():
    """Nothing for one easy chair; for two of them there is."""
    plan = room(windows=[window()])
    other = replace(CHAIR, name="chair 2")
    assert levels(scenario(plan, CHAIR), "focal-point", at(CHAIR, 0, 0, "up")) == []
    s = scenario(plan, CHAIR, other)
    # Middle (2100, 400) is straight below the window's.
    places = at(CHAIR, 1700, 0, "up"), at(other, 0, 0, "up")
    assert levels(s, "focal-point", *places) == [2]
