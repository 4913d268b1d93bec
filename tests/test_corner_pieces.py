"""Pieces that are an L, such as a corner sofa, by both faces: worked by hand at their limits.

The sofa is 2000 x 1600, its back part 800 deep, its arm 700 wide and on the left. Flush with
the left end of wall A it takes (0, 2200) to (2000, 3000) and (0, 1400) to (700, 2200): what is
before both parts begins at (700, 2200) and goes right and down the plan.
"""

from dataclasses import replace
from itertools import product

import plain_rooms
import pytest
from small_rooms import (
    BAY,
    A,
    allowed,
    aslant,
    at,
    both_say,
    clearance,
    free,
    judged,
    on_wall,
    only,
    piece,
    room,
    scenario,
    tied,
)

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.data.room import FACINGS
from arrange.geometry.scene import Scene, tightest_gaps
from arrange.solver.cuts import Range
from arrange.solver.feasibility import decide
from arrange.solver.model import Model

ELL = {"shape": "L", "arm_width": 700, "back_depth": 800}
SOFA = piece("sofa", 2000, 1600, roles=("seat",), **ELL)
STOOL = free("stool", 400, 400, 450)
IN_PLACE = on_wall(SOFA, room(), A, 0)


@pytest.mark.parametrize(
    ("x", "y", "ok"),
    [
        pytest.param(700, 1800, True, id="up to both parts"),
        pytest.param(699, 1800, False, id="1 mm into the arm"),
        pytest.param(700, 1801, False, id="1 mm into the back part"),
        pytest.param(300, 1000, True, id="before the end of the arm"),
        pytest.param(300, 1001, False, id="1 mm into that end"),
    ],
)
def test_what_stands_before_both_parts(x, y, ok):
    """A stool of 400 within the box of the sofa."""
    case = only(scenario(room(), SOFA, STOOL))
    both_say(case, [IN_PLACE, at("stool", "down", x, y)], "bodies-apart", ok)


def around(across, up):
    """A room 2000 x 1600, but for so much of its lower right corner."""
    return room(
        (
            *((0, 0), (0, 1600), (2000, 1600)),
            *((2000, up), (2000 - across, up), (2000 - across, 0)),
        )
    )


@pytest.mark.parametrize(
    ("across", "up", "side", "works"),
    [
        pytest.param(1300, 800, "left", True, id="filled to the millimetre"),
        pytest.param(1301, 800, "left", False, id="1 mm too narrow for the arm"),
        pytest.param(1300, 801, "left", False, id="1 mm too low for the back part"),
        pytest.param(1300, 800, "right", False, id="the arm on the other side"),
    ],
)
def test_an_l_fills_a_room_that_is_one(across, up, side, works):
    """Turned half round its arm comes where the corner is missing."""
    case = only(scenario(around(across, up), replace(SOFA, arm_side=side)))
    assert decide(case, Budget(60)).answer == ("works" if works else "impossible")


@pytest.mark.parametrize(
    ("sides", "x", "y", "ok"),
    [
        # Before the back part: (700, 1900) to (2000, 2200).
        pytest.param(("front",), 700, 1500, True, id="the feet before the back part are free"),
        pytest.param(("front",), 700, 1501, False, id="1 mm into them"),
        pytest.param(("front",), 300, 1000, True, id="nobody sits at the end of the arm"),
        # Before the arm: (700, 1400) to (1000, 2200).
        pytest.param(("right",), 1000, 1400, True, id="the feet before the arm are free"),
        pytest.param(("right",), 999, 1400, False, id="1 mm into those"),
    ],
)
def test_both_parts_keep_the_floor_before_them(sides, x, y, ok):
    """300 for feet; where the arm is on the left who sits there looks right."""
    sofa = replace(SOFA, clearances=(clearance(300, sides=sides),))
    case = only(scenario(room(), sofa, STOOL))
    both_say(case, [IN_PLACE, at("stool", "down", x, y)], "least-clearance", ok)


@pytest.mark.parametrize(("x", "ok"), [(1150, True), (1149, False)])
def test_a_table_is_centred_before_the_back_part(x, ok):
    """700 + (1300 - 400) / 2 = 1150 across, 2200 - 300 - 400 = 1500 up."""
    table = tied("table", "sofa", Slot("front", gap=300))
    case = only(scenario(room(), SOFA, table))
    both_say(case, [IN_PLACE, at("table", "down", x, 1500)], "in-their-place", ok)


@pytest.mark.parametrize(
    ("side", "offset", "ok"),
    [("left", 0, True), ("left", 2000, False), ("right", 2000, True), ("right", 0, False)],
)
def test_in_a_corner_the_arm_is_at_the_other_wall(side, offset, ok):
    """Wall A is 4000 long: its ends are at 0 and at 4000 - 2000."""
    sofa = replace(SOFA, stands="corner", arm_side=side)
    case = only(scenario(room(), sofa))
    both_say(case, [on_wall(sofa, room(), A, offset)], "backs-on-walls", ok)


@pytest.mark.parametrize("facing", FACINGS)
@pytest.mark.parametrize("side", ["left", "right"])
def test_the_model_has_both_parts_where_the_judge_has(facing, side):
    """A stool goes over a grid of places: both faces allow the same ones, some and not all."""
    sofa = free("sofa", 1000, 800, shape="L", arm_width=300, back_depth=350, arm_side=side)
    case = only(scenario(room(), sofa, STOOL))
    found = set()
    for x, y in product((700, 1000, 1250, 1400, 1900), (650, 1000, 1300, 1500)):
        places = [at("sofa", facing, 1000, 1000), at("stool", "down", x, y)]
        ok = not judged(case, *places)
        assert allowed(case, *places) is ok, (x, y)
        found.add(ok)
    assert found == {True, False}


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_model_has_both_parts_along_a_slanted_wall_too(side):
    """The same for a sofa in the bay, whose wall 1 is 1414 long."""
    sofa = piece("sofa", 1000, 800, shape="L", arm_width=300, back_depth=350, arm_side=side)
    case = only(scenario(room(BAY), sofa, STOOL))
    found = set()
    for x, y in product((300, 700, 1000, 1200, 1500), (1100, 1400, 1700, 2100)):
        places = [aslant("sofa", 1, 200), at("stool", "down", x, y)]
        ok = not judged(case, *places)
        assert allowed(case, *places) is ok, (x, y)
        found.add(ok)
    assert found == {True, False}


@pytest.mark.parametrize(
    ("facing", "x", "ok"),
    [
        # The wall is y = x + 2000, its box (x, 1500) to (x + 1000, 2900). Looking up its back
        # part ends at 2500, and the arm begins at x + 500, where the wall is at x + 2500.
        pytest.param("down", 900, True, id="its back part is highest: 2900 - 2000"),
        pytest.param("down", 899, False, id="1 mm into the wall"),
        pytest.param("up", 500, True, id="its arm is on the far side: 2500 - 2000"),
        pytest.param("up", 499, False, id="1 mm into the wall, too"),
    ],
)
def test_nothing_but_a_slanted_wall_is_near(facing, x, ok):
    """1000 x 1400 in the bay, the arm 500 wide on its left: looking up that is the right."""
    sofa = free("sofa", 1000, 1400, shape="L", arm_width=500, back_depth=1000, arm_side="left")
    low = 1500
    case = only(scenario(room(BAY), sofa))
    both_say(case, [at("sofa", facing, x, low)], "inside-room", ok)


def test_what_an_l_covers_wherever_it_stands_is_a_part_of_it_there():
    """A cut rests on it."""
    placed = Scene(only(scenario(room(), SOFA)), Arrangement((IN_PLACE,))).find("sofa")
    ranging = Range.at(placed)
    assert ranging.core().symmetric_difference(placed.body).area < 1
    ranging.low, ranging.high = [0, 1300], [250, 1400]
    core = ranging.core()
    # The back part keeps 2000 - 250 by 800 - 100, the arm 700 - 250 by 800 - 100.
    assert core.area == pytest.approx(1750 * 700 + 450 * 700)
    case = only(scenario(room(), replace(SOFA, stands="free")))
    for x, y in product((0, 100, 250), (1300, 1351, 1400)):
        body = Scene(case, Arrangement((at("sofa", "down", x, y),))).find("sofa").body
        assert body.buffer(1e-6).covers(core)


def test_an_l_is_the_same_no_other_way_round():
    """A cut that holds either way round leaves a rectangle two turns, an L one."""
    for one, others in ((replace(SOFA, shape="rectangle"), 2), (SOFA, 3)):
        case = only(scenario(room(), replace(one, stands="free")))
        place = Model(case, canonical=False).place("sofa")
        there = at("sofa", "down", 100, 100)
        assert len(place.turned_otherwise(there, any_way_round=True)) == others


def seen_from_the_sofa(side="left"):
    """The sofa in a room 5 m by 4 m, its back part up to 3200, a coffee table and a screen."""
    sofa = piece("sofa", 2000, 1600, roles=("seat", "sofa"), arm_side=side, **ELL)
    table = free("table", 600, 600, 420, roles=("table", "coffee"))
    screen = piece("tv unit", 1400, 400, 500, roles=("screen",), screen=1092)
    return sofa, table, screen


@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1000, 2200, 2, id="40 cm before the back part"),
        pytest.param(1000, 2140, 2, id="46 cm: the most"),
        pytest.param(1000, 2139, 1, id="1 mm more"),
        pytest.param(1000, 2250, 2, id="35 cm: the least"),
        pytest.param(1000, 2251, 1, id="1 mm less"),
        pytest.param(1701, 2200, 1, id="its middle 1 mm past the end of the seats"),
    ],
)
def test_a_coffee_table_stands_before_the_part_along_the_back(x, y, level):
    """The seats run from 700 to 2000 across and end at 3200; the table is 600 deep."""
    sofa, table, _ = seen_from_the_sofa()
    shape = plain_rooms.room()
    case = plain_rooms.scenario(shape, sofa, table, only="cup-in-reach")
    places = [plain_rooms.on_wall(shape, sofa, plain_rooms.TOP, 0), at("table", "down", x, y)]
    assert plain_rooms.levels(case, "cup-in-reach", *places) == [level]


@pytest.mark.parametrize(
    ("side", "across", "middle", "level"),
    [
        # The middle of the seats is (700 + 2000) / 2 = 1350, in a mirror (0 + 1300) / 2 = 650.
        pytest.param("left", 0, 1350, 1, id="280 cm off, 240 would be ideal"),
        pytest.param("right", 1000, 1650, 1, id="the same in a mirror"),
        # 45 degrees off at 2800: up to 2800 aside.
        pytest.param("left", 0, 4150, 1, id="45 degrees"),
        pytest.param("left", 0, 4151, 0, id="1 mm more"),
    ],
)
def test_who_sits_along_the_back_looks_at_the_screen(side, across, middle, level):
    """From 3200 to the front of the screen's unit at 400; 43 in is good up to 284 cm."""
    sofa, _, screen = seen_from_the_sofa(side)
    shape = plain_rooms.room()
    case = plain_rooms.scenario(shape, sofa, screen, only="view")
    places = [
        plain_rooms.on_wall(shape, sofa, plain_rooms.TOP, across),
        plain_rooms.on_wall(shape, screen, plain_rooms.BOTTOM, 5000 - middle - 700),
    ]
    assert plain_rooms.levels(case, "view", *places) == [level]
    assert plain_rooms.says(case, "view", places, "2800 mm") or not level


@pytest.mark.parametrize(
    ("side", "across", "wall", "offset", "level"),
    [
        # The arm is 700 wide and begins at 3200: its middle is (3200 + 2400) / 2 = 2800, that of
        # the screen on the right wall 4000 - offset - 700. Its front is at 1500 + 700.
        pytest.param("left", 1500, "RIGHT", 500, 2, id="straight ahead, 240 cm"),
        pytest.param("left", 1497, "RIGHT", 500, 1, id="240.3 cm: ideal is up to 240.2"),
        pytest.param("left", 1500, "RIGHT", 1884, 2, id="1384 aside: tan 30 of 2400 is 1385"),
        pytest.param("left", 1500, "RIGHT", 1886, 1, id="1386 aside"),
        pytest.param("right", 1500, "LEFT", 1900, 2, id="the same in a mirror"),
        pytest.param("left", 1500, "LEFT", 1900, 0, id="behind the arm"),
    ],
)
def test_who_sits_on_the_arm_looks_at_the_screen(side, across, wall, offset, level):
    """The sofa looks down the plan, its arm across it, from 4600 or 400 to the screen."""
    sofa, _, screen = seen_from_the_sofa(side)
    shape = plain_rooms.room()
    case = plain_rooms.scenario(shape, sofa, screen, only="view")
    places = [
        plain_rooms.on_wall(shape, sofa, plain_rooms.TOP, across),
        plain_rooms.on_wall(shape, screen, getattr(plain_rooms, wall), offset),
    ]
    assert plain_rooms.levels(case, "view", *places) == [level]
    assert plain_rooms.says(case, "view", places, "arm of the sofa") is (level > 0)


def test_a_gap_is_drawn_from_where_an_l_is_used():
    """The floor before the back part begins at y 2200, the box of the sofa at 1400."""
    sofa = replace(SOFA, clearances=(clearance(300),))
    case = only(scenario(room(), sofa, free("chest", 400, 400, 800)))
    places = (IN_PLACE, at("chest", "down", 1200, 1000))
    (gap,) = tightest_gaps(Scene(case, Arrangement(places)))
    assert (gap.start[1], gap.end[1], gap.length) == (2200, 1400, 800)
    assert gap.start[0] == gap.end[0]
