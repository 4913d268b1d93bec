"""Alike pieces where nothing can be walked: "impossible" has to survive its second opinion."""

from dataclasses import replace

from small_rooms import clearance, piece, room, scenario
from tiny_rooms import OFF

from arrange.data.room import Door
from arrange.suggesting import suggest

SQUARE = ((0, 0), (0, 1200), (1200, 1200), (1200, 0))


def twins_in_the_way(second_model):
    """Two boxes 600 square in a room 1200 square, on a walkway of 900.

    By hand: the middle of a path 900 wide is at least 449.5 off every wall, so within a
    square of 301 about the middle of the room, at most 213 from it. A box of 600 with its
    back on any wall touches the middle of the room, and would have to be 449.5 away from
    the path's. So nobody can walk anywhere, even past one of them.
    """
    shape = room(SQUARE, doors=(Door("door", 1, 0, 600, "out"),))
    one = piece("twin 0", 600, 600, model="twin", clearances=(clearance(300),))
    two = replace(one, name="twin 1", model=second_model)
    return scenario(shape, one, two, walkway=900, settings=OFF)


def test_two_models_are_impossible():
    """The same two pieces told apart."""
    assert suggest(twins_in_the_way("other"), top=1, seconds=60).outcome == "impossible"


def test_two_of_a_model_are_impossible():
    """Swapping the two changes nothing; the answer must not either."""
    assert suggest(twins_in_the_way("twin"), top=1, seconds=60).outcome == "impossible"
