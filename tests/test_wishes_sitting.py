"""Wishes about seats and who sits beside them.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import at, levels, piece, room, says, scenario

from arrange.data.piece import Slot

SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("chair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
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
        pytest.param(3000, 2000, "left", 2, id="at right angles, turned in"),
        pytest.param(3000, 2000, "right", 0, id="at right angles, turned out"),
        pytest.param(3000, 0, "up", 0, id="side by side"),
        pytest.param(600, 2500, "up", 0, id="one behind the other"),
        pytest.param(3000, 0, "down", 1, id="opposite ways, each beside the other's back line"),
        # Facing right from x, its back is at x: the sofa's middle is at 1000.
        pytest.param(1000, 2000, "right", 2, id="its back just at the sofa's middle"),
        pytest.param(1001, 2000, "right", 0, id="the sofa's middle 1 mm behind it"),
    ],
)
def test_seats_turned(x, y, facing, level):
    """Face to face or at right angles, nobody behind the other's back."""
    s = scenario(WIDE, SOFA, CHAIR, only="seats-turned")
    assert levels(s, "seats-turned", at(SOFA, 0, 0, "up"), at(CHAIR, x, y, facing)) == [level]


def test_a_chair_to_read_in_stands_by_itself():
    """With an armchair there it is left out; as the only other seat it is asked."""
    reader = replace(CHAIR, name="reader", roles=CHAIR.roles | {"read"})
    sofa, chair = at(SOFA, 0, 0, "up"), at(CHAIR, 3000, 2000, "left")
    alone = scenario(WIDE, SOFA, reader, only="seats-turned")
    assert levels(alone, "seats-turned", sofa, at(reader, 3000, 0, "up")) == [0]
    s = scenario(WIDE, SOFA, CHAIR, reader, only="seats-turned")
    assert levels(s, "seats-turned", sofa, chair, at(reader, 3000, 0, "up")) == [2]


def test_seats_back_to_back_are_not_turned():
    """The chair's middle at y 3300 + 400 is behind the sofa that faces down from y 2400."""
    s = scenario(WIDE, SOFA, CHAIR, only="seats-turned")
    assert levels(s, "seats-turned", at(SOFA, 0, 2400, "down"), at(CHAIR, 0, 3300, "up")) == [0]
    places = at(SOFA, 0, 2400, "down"), at(CHAIR, 0, 3300, "up")
    assert says(s, "seats-turned", places, "chair", "turned away", "sofa")
