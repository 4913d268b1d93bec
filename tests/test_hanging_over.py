"""A clearance that may have no depth, under a piece that hangs out farther than its host."""

import pytest
from plain_rooms import LEFT, SLANTED, TOP, levels, on_wall, piece, room, scenario
from replayed import model_score
from small_rooms import BAY, aslant

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Clearance
from arrange.judge import judge


def sideboard(least, comfortable, **more):
    """400 deep, with floor before it up to head height."""
    front = Clearance("front", ("front",), least, comfortable, "to open it", walk=False)
    return piece("sideboard", 1000, 400, 700, clearances=(front,), **more)


def cupboard():
    """Hangs above the sideboard and reaches 200 farther out; lower than a head."""
    return piece("cupboard", 1000, 600, 600, bottom=1400)


@pytest.mark.parametrize(
    ("least", "comfortable", "works"),
    [
        pytest.param(0, 0, True, id="no floor needed at all"),
        pytest.param(0, 600, True, id="floor wished for only"),
        pytest.param(1, 600, False, id="1 mm needed, and the cupboard hangs over it"),
    ],
)
def test_a_strip_without_depth_takes_no_space(least, comfortable, works):
    """A box without size inside another once made the model call this impossible."""
    the_room = room()
    case = scenario(the_room, sideboard(least, comfortable), cupboard(), only="balance")
    places = [on_wall(the_room, p, TOP, 1000) for p in case.pieces]
    arrangement = Arrangement(tuple(places))
    assert judge(case, arrangement).works is works
    assert (model_score(case, arrangement) is not None) is works


@pytest.mark.parametrize(
    ("offset", "level"),
    [
        pytest.param(1000, 0, id="right under it: no step"),
        pytest.param(1999, 0, id="under 1 mm of it"),
        pytest.param(2000, 3, id="beside it: every step"),
    ],
)
def test_the_steps_count_from_the_first_mm(offset, level):
    """The cupboard is at 1000 to 2000 on the top wall, the sideboard 1000 wide."""
    the_room = room()
    case = scenario(the_room, sideboard(0, 600), cupboard(), only="comfortable-clearance")
    places = [on_wall(the_room, case.pieces[0], TOP, offset)]
    places.append(on_wall(the_room, case.pieces[1], TOP, 1000))
    assert levels(case, "comfortable-clearance", *places) == [level]


@pytest.mark.parametrize(
    ("sides", "offset", "level"),
    [
        pytest.param(("left",), 0, 0, id="its left in the corner"),
        pytest.param(("left",), 3000, 3, id="its right in the other corner"),
        pytest.param(("left", "right"), 0, 3, id="either side will do"),
    ],
)
def test_one_of_several_sides_without_depth(sides, offset, level):
    """Choices of a side are there too where no strip is."""
    side = Clearance("side", sides, 0, 300, "to reach it", walk=False)
    shelf = piece("shelf", 1000, 400, 700, clearances=(side,))
    the_room = room()
    case = scenario(the_room, shelf, only="comfortable-clearance")
    place = on_wall(the_room, shelf, LEFT, offset)
    assert levels(case, "comfortable-clearance", place) == [level]


@pytest.mark.parametrize("corners", [SLANTED, BAY])
def test_aslant_too(corners):
    """On a wall at 45 degrees: the cupboard over the sideboard, flush at its left end."""
    the_room = room(corners)
    index = next(i for i, wall in enumerate(the_room.walls) if wall.facing is None)
    case = scenario(the_room, sideboard(0, 600), cupboard(), only="balance")
    arrangement = Arrangement((aslant("sideboard", index, 300), aslant("cupboard", index, 300)))
    assert judge(case, arrangement).works
    assert model_score(case, arrangement) is not None
