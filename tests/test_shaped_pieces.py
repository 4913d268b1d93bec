"""Pieces that are no rectangles, by both faces: worked by hand at their limits, and at random.

A circle of radius r in the corner of a square leaves (1 - 1/sqrt 2) r of the diagonal's way
along each wall: 146.4 mm at r = 500.
"""

from dataclasses import replace
from itertools import product

import pytest
from agreement import agree, random_scenario, shaped, thrown
from replayed import model_score
from small_rooms import (
    BAY,
    D,
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
    wish,
)

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.data.room import Fixture
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.solver.cuts import Cut, Hold, Learnt, Range
from arrange.solver.feasibility import decide
from arrange.whatif.requirements import relaxed, shrinks

ROUND = free("table", 1000, 1000, 740, roles=("dine",), shape="round")
POUF = free("pouf", 500, 500, 400, shape="round")
CHEST = piece("chest", 800, 400)


def closet(column):
    """A room 1 m square with a column that big in its lower left corner."""
    corners = ((0, 0), (0, column), (column, column), (column, 0))
    box = Fixture("column", "column", corners, top=2500)
    return room(((0, 1000), (1000, 1000), (1000, 0), (0, 0)), fixtures=(box,))


def notched(column):
    """The same with the column as a part of the walls."""
    return room(
        (
            *((0, column), (0, 1000), (1000, 1000)),
            *((1000, 0), (column, 0), (column, column)),
        )
    )


@pytest.mark.parametrize("shape", [closet, notched])
@pytest.mark.parametrize(("column", "works"), [(146, True), (147, False)])
def test_a_round_table_goes_where_a_column_cuts_the_corner(shape, column, works):
    """From (146, 146) to the middle (500, 500): 354 sqrt 2 = 500.6; from 147: 499.2."""
    case = only(scenario(shape(column), ROUND))
    found = decide(case, Budget(60))
    assert found.answer == ("works" if works else "impossible")
    square = only(scenario(shape(column), replace(ROUND, shape="rectangle")))
    assert decide(square, Budget(60)).answer == "impossible"


@pytest.mark.parametrize(("aside", "ok"), [(531, True), (530, False)])
def test_two_round_pieces_by_the_distance_of_their_middles(aside, ok):
    """Radii 500 + 250 = 750; aside sqrt 2 is 750.95 and 749.53."""
    case = only(scenario(room(), ROUND, POUF))
    places = [at("table", "down", 1000, 1000), at("pouf", "down", 1250 + aside, 1250 + aside)]
    both_say(case, places, "bodies-apart", ok)


@pytest.mark.parametrize(("aside", "ok"), [(354, True), (353, False)])
def test_a_corner_comes_up_to_a_circle(aside, ok):
    """The chest's corner is aside sqrt 2 from the middle: 500.63 and 499.22, of 500."""
    case = only(scenario(room(), ROUND, replace(CHEST, stands="free")))
    places = [at("table", "down", 1000, 1000), at("chest", "down", 1500 + aside, 1500 + aside)]
    both_say(case, places, "bodies-apart", ok)


@pytest.mark.parametrize(
    ("facing", "low", "corner", "ok"),
    [
        # Across, 640 aside of the middle: 500 sqrt(1 - (640 / 800)^2) = 300 up.
        pytest.param("down", (1000, 1000), (2440, 1801), True, id="across, beyond the curve"),
        pytest.param("down", (1000, 1000), (2440, 1799), False, id="across, inside it"),
        # Up the plan, 300 aside: 800 sqrt(1 - (300 / 500)^2) = 640 up.
        pytest.param("left", (1300, 700), (2100, 2141), True, id="up, beyond the curve"),
        pytest.param("left", (1300, 700), (2100, 2139), False, id="up, inside it"),
    ],
)
def test_an_oval_table_lies_as_it_is_turned(facing, low, corner, ok):
    """1600 x 1000, its middle at (1800, 1500) either way; the corner of a chest comes up to it."""
    oval = free("table", 1600, 1000, 740, roles=("dine",), shape="oval")
    case = only(scenario(room(), oval, replace(CHEST, stands="free")))
    both_say(case, [at("table", facing, *low), at("chest", "down", *corner)], "bodies-apart", ok)


@pytest.mark.parametrize(("up", "ok"), [(1292, True), (1293, False)])
def test_a_circle_comes_up_to_a_slanted_wall(up, ok):
    """The wall y = x + 2000; from (500, up + 500) it is (2000 - up) / sqrt 2: 500.6, 499.9."""
    case = only(scenario(room(BAY), ROUND))
    places = [at("table", "down", 0, up)]
    both_say(case, places, "inside-room", ok)


@pytest.mark.parametrize(("up", "ok"), [(1700, True), (1699, False)])
def test_cut_corners_leave_the_corner_free(up, ok):
    """From (1800, 1800) to (2000, 1600), where x + y = 3600: the chest's corner at (1900, up)."""
    table = free("table", 1000, 800, 740, roles=("dine",), shape="cut corners", corner=200)
    case = only(scenario(room(), table, replace(CHEST, stands="free")))
    places = [at("table", "down", 1000, 1000), at("chest", "down", 1900, up)]
    both_say(case, places, "bodies-apart", ok)


@pytest.mark.parametrize(("aside", "ok"), [(354, True), (353, False)])
def test_floor_to_use_a_piece_comes_up_to_a_circle_too(aside, ok):
    """The corner of the chest's strip, 600 deep, where above was the chest's own."""
    chest = replace(CHEST, stands="free", clearances=(clearance(600),))
    case = only(scenario(room(), ROUND, chest))
    low = 1500 - aside - 800, 1500 + aside + 600
    places = [at("table", "down", 1000, 1000), at("chest", "down", *low)]
    both_say(case, places, "least-clearance", ok)


@pytest.mark.parametrize(("offset", "ok"), [(207, True), (206, False)])
def test_rounded_corners_at_a_wall_come_up_to_a_column(offset, ok):
    """On wall D the middle of the front corner is (300, offset + 300), the column's (512, 294).

    212 aside and 213 or 212 up it is 300.5 or 299.8 away, of 300.
    """
    column = Fixture("column", "column", ((512, 0), (512, 294), (700, 294), (700, 0)), top=2500)
    chest = replace(CHEST, depth=600, shape="rounded corners", corner=300)
    shape = room(fixtures=(column,))
    both_say(only(scenario(shape, chest)), [on_wall(chest, shape, D, offset)], "fixtures-free", ok)


def test_a_round_table_in_its_place_before_a_sofa_aslant():
    """Tied to what stands along a slanted wall it goes along, and stays off what is upright."""
    sofa = piece("sofa", 900, 600)
    slots = (Slot("front", gap=300),)
    low = free("low table", 500, 500, 400, roles=("table",), shape="round")
    low = replace(low, anchor="sofa", slots=slots)
    case = only(scenario(room(BAY), sofa, low))
    # Along the wall 200 + (900 - 500) / 2 = 400, off it 600 + 300 = 900.
    places = [aslant("sofa", 1, 200), aslant("low table", 1, 400, inward=900)]
    assert judged(case, *places) == set()
    assert allowed(case, *places)
    moved = [places[0], aslant("low table", 1, 401, inward=900)]
    both_say(case, moved, "in-their-place", False)


@pytest.mark.parametrize("shape", ["oval", "cut corners", "rounded corners"])
def test_what_a_body_covers_wherever_it_stands_is_a_part_of_it_there(shape):
    """A cut rests on it: within its range, and at its ends, the body covers its core."""
    table = free("table", 1000, 700, 740, roles=("dine",), shape=shape, corner=150)
    case = only(scenario(room(), table))
    placed = Scene(case, Arrangement((at("table", "down", 1000, 1000),))).find("table")
    ranging = Range.at(placed)
    assert ranging.core().symmetric_difference(placed.body).area < 1
    ranging.low, ranging.high = [950, 1000], [1200, 1130]
    core = ranging.core()
    assert core.area > 400 * 400
    for x, y in product((950, 1000, 1111, 1200), (1000, 1063, 1130)):
        body = Scene(case, Arrangement((at("table", "down", x, y),))).find("table").body
        assert body.buffer(1e-6).covers(core)
    ranging.high = [2500, 1000]
    assert ranging.core() is None


def test_a_larger_round_piece_does_not_cover_what_a_smaller_one_did():
    """From one lower left corner: so what was learnt of the smaller holds for it alone."""
    case = only(scenario(room(), ROUND))
    larger = only(scenario(room(), replace(ROUND, width=1200, depth=1200)))
    hold = Hold(at("table", "down", 1000, 1000), True, (900, 900), (1100, 1100))
    for shape, lent in (("round", False), ("rectangle", True)):
        then, now = (
            replace(c, pieces=(replace(c.pieces[0], shape=shape),)) for c in (case, larger)
        )
        assert Learnt(Cut((hold,)), then.pieces).holds_in(now) is lent
        assert Learnt(Cut((hold,)), then.pieces).holds_in(then)


@pytest.mark.parametrize(("shape", "sure"), [("rectangle", True), ("round", False)])
def test_smaller_is_not_sure_to_work_where_a_larger_round_piece_does(shape, sure):
    """Halving over sizes is for what stays within the larger one."""
    case = only(scenario(room(), replace(ROUND, shape=shape)))
    assert shrinks(case, "table", "width") is sure
    assert shrinks(case, "table", "height")
    assert (relaxed(case, "table", "depth") is not None) is sure


@pytest.mark.parametrize("x", [1500, 1520, 1540, 1560, 1580, 1600])
def test_how_far_a_round_piece_aslant_is_both_measure_from_its_box(x):
    """Its box of 700 x 700 reaches 700 sqrt 2 across, its circle 700: one bound for both."""
    drum = piece("drum", 700, 700, shape="round")
    stool = free("stool", 400, 400, 450)
    asked = (wish("near", "stool", "drum", 300),)
    case = only(scenario(room(BAY), drum, stool, wishes=asked), "near")
    # On wall 1 from (0, 2000): its box runs from 283 to 1273 across.
    places = Arrangement((aslant("drum", 1, 400), at("stool", "down", x, 1000)))
    assert judge(case, places).works
    assert model_score(case, places) == judge(case, places).standing


def check(seed):
    """Both faces agree on a random room with such pieces thrown about."""
    case = shaped(random_scenario(seed), seed)
    assert agree(case, thrown(case, seed))


@pytest.mark.parametrize("seed", [2, 3, 4, 5, 8, 4001])
def test_model_and_judge_agree_where_pieces_are_no_rectangles(seed):
    """Rooms of all outlines with round, oval, cut and rounded pieces thrown about."""
    check(seed)


@pytest.mark.long
def test_model_and_judge_agree_on_many_such_rooms():
    """The same, two hundred times."""
    for seed in range(3000, 3200):
        check(seed)
