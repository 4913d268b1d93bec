"""Where a tape finds a piece. The plain room is 5 m by 4 m; limits are our own judgement.

The chest is 1025 mm wide, so that from x on it is x mm off the left wall and 3975 - x off the
right one: never whole steps of both.
"""

from dataclasses import replace

import pytest
from plain_rooms import SLANTED, at, on_wall, piece, room, scenario, window

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.geometry.scene import Scene
from arrange.geometry.tape import Loose, is_step, loose, steps

pytestmark = pytest.mark.fast

CHEST = piece("chest", 1025, 500)
FOUND = ()


def narrow(gap):
    """The two things wrong with the chest where its gap is narrow: the place, and the gap."""
    return Loose("chest", 0, gap), Loose("chest", 0, gap, narrow=True)


def loose_at(x, y=0, *others, the_room=None, thing=CHEST, unit="cm"):
    """What is loose about the chest with its back to the lower wall, beside other pieces."""
    pieces = [thing, *[other for other, _ in others]]
    case = replace(scenario(the_room or room(), *pieces), unit=unit)
    placements = (at(thing, x, y, "up"), *[placement for _, placement in others])
    return tuple(one for one in loose(Scene(case, Arrangement(placements))) if one.piece == "chest")


ALONE = [
    pytest.param(0, FOUND, id="in the corner"),
    pytest.param(1, FOUND, id="1 mm off it: touching"),
    pytest.param(2, narrow(2), id="2 mm off it"),
    pytest.param(39, narrow(39), id="39 mm off it: neither closed nor open"),
    pytest.param(40, (Loose("chest", 0, 40),), id="40 mm: open, but no whole step"),
    pytest.param(48, (Loose("chest", 0, 48),), id="2 mm less than a step"),
    pytest.param(49, FOUND, id="1 mm less than a step"),
    pytest.param(250, FOUND, id="five steps"),
    pytest.param(251, FOUND, id="1 mm more than five"),
    pytest.param(252, (Loose("chest", 0, 252),), id="2 mm more than five"),
    pytest.param(3725, FOUND, id="3975 - 3725 = 250: five steps from the other wall"),
    pytest.param(1982, (Loose("chest", 0, 1982),), id="1982 and 1993: 11 mm more"),
    pytest.param(1983, FOUND, id="1983 and 1992: equal within 1 cm"),
    pytest.param(1992, FOUND, id="1992 and 1983"),
    pytest.param(1993, (Loose("chest", 0, 1982),), id="1993 and 1982"),
]


@pytest.mark.parametrize(("x", "expected"), ALONE)
def test_off_the_walls(x, expected):
    """Touching, whole steps of one wall, or between them."""
    assert loose_at(x) == expected


@pytest.mark.parametrize(("y", "expected"), [(100, 0), (102, 1), (30, 1), (1750, 0), (1745, 0)])
def test_off_the_wall_behind_and_before(y, expected):
    """500 deep in a room of 4000.

    At 1750 it is in the middle; at 1745 the gaps are 1745 and 1755, no whole steps, but equal
    within 1 cm; at 30 the place is no step either, and the gap behind is narrow.
    """
    found = loose_at(250, y)
    assert len([one for one in found if not one.narrow]) == expected
    assert [one.gap for one in found if one.narrow] == ([30] if y == 30 else [])


CASE = piece("case", 800, 300)
NEIGHBOURS = [
    pytest.param(1467, FOUND, id="touching: 667 + 800"),
    pytest.param(1470, narrow(3), id="3 mm beside it"),
    pytest.param(1617, FOUND, id="three steps off: 1467 + 150"),
    pytest.param(1620, (Loose("chest", 0, 153),), id="153 off"),
    pytest.param(2716, FOUND, id="1249 = 25 steps less 1 mm"),
    pytest.param(2720, FOUND, id="1253 from it and 1255 from the wall: centred"),
]


@pytest.mark.parametrize(("x", "expected"), NEIGHBOURS)
def test_off_a_neighbour(x, expected):
    """The case stands 667 off the left wall, at the same wall as the chest."""
    assert loose_at(x, 0, (CASE, at(CASE, 667, 0, "up"))) == expected


def test_what_stands_elsewhere_is_no_neighbour():
    """A case across the room, 153 away as seen from above, is not opposite a side."""
    assert loose_at(1620, 0, (CASE, at(CASE, 667, 3700, "down"))) == (Loose("chest", 0, 1620),)


@pytest.mark.parametrize(("off", "found"), [(0, True), (10, True), (11, False)])
def test_in_line_with_a_window(off, found):
    """The window's middle is at x = 1500 + 600 = 2100; the chest of 1004 begins 502 before."""
    thing = piece("chest", 1004, 500)
    lit = room(windows=(window(),))
    assert loose_at(2100 - 502 + off, thing=thing, the_room=lit) == (
        FOUND if found else (Loose("chest", 0, 1598 + off),)
    )


@pytest.mark.parametrize(("roles", "found"), [(("sofa",), True), (("store",), False)])
def test_in_line_with_what_the_room_turns_on(roles, found):
    """Opposite, with its middle at 1711 + 400 = 2111 as that of the chest of 1004 at 1609."""
    other = piece("other", 800, 300, roles=roles)
    beside = (other, at(other, 1711, 3000))
    thing = piece("chest", 1004, 500)
    assert bool(loose_at(1609, 0, beside, thing=thing)) is not found


@pytest.mark.parametrize(("x", "found"), [(203, True), (102, True), (250, False), (100, False)])
def test_two_inches_where_the_file_is_in_inches(x, found):
    """4 in are 101.6 mm, 8 in are 203.2 mm."""
    assert bool(loose_at(x, unit="in")) is not found


@pytest.mark.parametrize(
    "more",
    [
        pytest.param({"flat": True, "height": 15}, id="a rug"),
        pytest.param({"bottom": 1500, "height": 300}, id="what hangs"),
        pytest.param(
            {"anchor": "case", "slots": (Slot("left"),), "roles": {"dining seat"}},
            id="a chair at its table",
        ),
    ],
)
def test_what_is_not_looked_for_with_a_tape(more):
    """12 mm off the wall, and nothing is said of it."""
    thing = piece("chest", 1025, 500, **more)
    assert loose_at(12, 0, (CASE, at(CASE, 2500, 3700, "down")), thing=thing) == ()
    assert loose_at(12) == narrow(12)


@pytest.mark.parametrize(("x", "gaps"), [(1, []), (2, [2]), (39, [39]), (40, []), (233, [])])
def test_what_is_tied_is_asked_for_narrow_gaps_to_walls_alone(x, gaps):
    """Its place is that by its host; but 1 cm off a wall is neither closed nor open."""
    thing = piece("chest", 1025, 500, anchor="case", slots=(Slot("left"),))
    found = loose_at(x, 0, (CASE, at(CASE, 2500, 3700, "down")), thing=thing)
    assert found == tuple(Loose("chest", 0, gap, narrow=True) for gap in gaps)


def test_what_is_tied_to_it_is_no_neighbour():
    """A chair 20 mm before a desk belongs to it: no gap to be closed."""
    chair = piece("chair", 450, 450, anchor="chest", slots=(Slot("right", gap=20),))
    assert loose_at(250, 0, (chair, at(chair, 1295, 0))) == ()
    loner = piece("chair", 450, 450)
    assert loose_at(250, 0, (loner, at(loner, 1295, 0))) == (Loose("chest", 0, 20, narrow=True),)


def test_along_a_slanted_wall_nothing_is_measured():
    """The wall gives the place there, and the judge of both faces is a straight tape."""
    slanted = room(SLANTED)
    thing = piece("chest", 1003, 300)
    case = scenario(slanted, thing)
    assert loose(Scene(case, Arrangement((on_wall(slanted, thing, 2, 107),)))) == ()


def test_steps_are_what_counts_as_one():
    """The list that the model picks from and the question asked of a length agree."""
    for unit in ("cm", "in"):
        assert all(is_step(length, unit) for length in steps(unit, 12_000))
        assert len(steps(unit, 12_000)) == (241 if unit == "cm" else 237)  # 12000 / 50.8 = 236.2
