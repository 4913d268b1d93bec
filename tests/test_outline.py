"""Outlines: corners, a walk round the walls, and what is cut out of them."""

import numpy as np
import pytest

from arrange.errors import ScenarioError
from arrange.scenario.outline import (
    Leg,
    OutlineError,
    check,
    cut_breast,
    letter,
    rectangle,
    walls,
)
from arrange.scenario.read import read_text
from arrange.scenario.survey import survey

pytestmark = pytest.mark.fast


def walk(legs, closing, unit="mm"):
    """The corners alone, without any check length."""
    return survey(legs, closing, (), unit)[0]


# The top wall runs right, the next one down: clockwise with y up.
BOX = ((0, 3000), (4000, 3000), (4000, 0), (0, 0))


def legs(*pairs):
    return [Leg(letter(i), length, turn) for i, (length, turn) in enumerate(pairs)]


def test_a_rectangle_starts_with_its_top_wall():
    """Facing each wall from inside, it starts on the left."""
    assert rectangle(4000, 3000) == BOX
    assert [w.facing for w in walls(BOX)] == ["down", "left", "up", "right"]
    assert [w.name for w in walls(BOX)] == ["A", "B", "C", "D"]


def test_walls_can_have_names_of_their_own():
    """Names given come first, letters fill the rest."""
    assert [w.name for w in walls(BOX, ("street", "yard"))] == ["street", "yard", "C", "D"]


def test_letters_go_on_after_z():
    """The 27th wall is A2."""
    assert [letter(0), letter(25), letter(26)] == ["A", "Z", "A2"]


def test_a_walk_round_four_walls_gives_the_rectangle():
    """Right turns only, the last wall given or left out."""
    four = legs((4000, 90), (3000, 90), (4000, 90), (3000, 90))
    assert walk(four, closing=False) == BOX
    assert walk(four[:3], closing=True) == BOX


def test_a_left_turn_goes_round_a_corner_that_stands_out():
    """An L: 4 m right, 3 m down, 2 m back, left down 1 m, 2 m back, 4 m up."""
    six = legs((4000, 90), (3000, 90), (2000, -90), (1000, 90), (2000, 90), (4000, 90))
    assert walk(six, closing=False) == (
        (0, 4000),
        (4000, 4000),
        (4000, 1000),
        (2000, 1000),
        (2000, 0),
        (0, 0),
    )


def test_a_turn_in_degrees_makes_a_slanted_wall():
    """1414 mm at 45 degrees go 1000 right and 1000 down: 1414 / sqrt(2) = 999.8."""
    corners = walk(legs((3000, 45), (1414, 45), (2000, 90), (4000, 90)), closing=True)
    assert corners == ((0, 3000), (3000, 3000), (4000, 2000), (4000, 0), (0, 0))
    assert [w.facing for w in walls(corners)] == ["down", None, "left", "up", "right"]


def test_a_slip_of_the_tape_is_spread_over_the_walls():
    """4000 out and 4010 back: both become 4005, and right angles stay right."""
    corners = walk(legs((4000, 90), (3000, 90), (4010, 90), (3000, 90)), closing=False)
    assert corners == ((0, 3000), (4005, 3000), (4005, 0), (0, 0))


BOX_50 = ((0, 3000), (4025, 3000), (4025, 0), (0, 0))
LEANING = ((25, 3000), (4026, 3000), (4051, 0), (0, 0))


@pytest.mark.parametrize(
    ("back", "closes"),
    [
        # A and C disagree alike, so the slip may be the whole of either one.
        pytest.param(4050, BOX_50, id="50 mm are spread and asked about"),
        # 51 mm more below: the sides lean out by half of it each.
        pytest.param(4051, LEANING, id="51 mm are no slip: the corners are off"),
        # 800 mm over 3000: sides that lean by 7.6 degrees each look square to nobody.
        pytest.param(4800, None, id="80 cm are no corner that is off"),
    ],
)
def test_a_bigger_gap_is_drawn_out_of_square_and_a_huge_one_refused(back, closes):
    """What neither a tape nor a room out of square explains is wrong, and the gap is named."""
    four = legs((4000, 90), (3000, 90), (back, 90), (3000, 90))
    if closes is not None:
        assert np.array(walk(four, closing=False)) == pytest.approx(np.array(closes), abs=1)
        return
    with pytest.raises(OutlineError, match="the walls end 800 mm from where they began"):
        walk(four, closing=False)
    with pytest.raises(OutlineError, match="the walls end 80 cm from where they began"):
        walk(four, closing=False, unit="cm")


BAY_TAPED = [(3000, 45), (1417, 45), (2004, 90), (3996, 90), (3003, 90)]


@pytest.mark.parametrize("left_out", [False, True])
def test_a_slip_is_spread_round_a_bay_and_the_angles_stay(left_out):
    """A bay cut off at 45 degrees, every wall up to 4 mm out, the last one given or left out.

    1417 mm at 45 degrees are 1002 each way: 4002 across and 3006 down against 3996 and 3003.
    """
    walked = legs(*(BAY_TAPED[:4] if left_out else BAY_TAPED))
    corners = walk(walked, closing=left_out)
    room = walls(corners)
    assert [w.facing for w in room] == ["down", None, "left", "up", "right"]
    slant = room[1].end[0] - room[1].start[0], room[1].start[1] - room[1].end[1]
    assert abs(slant[0] - slant[1]) <= 1  # whole mm: 45 degrees
    assert all(abs(w.length - taped) <= 5 for w, (taped, _) in zip(room, BAY_TAPED, strict=True))


def test_what_a_slip_is_spread_by_is_least_squares():
    """4000 out, 4010 back: 5 each. With walls of 1000 and 3000 out, 4008 back: 1, 3 and 4."""
    five = legs((1000, 1), (3000, 89), (3000, 90), (4008, 90), (3000, 90))
    straight = [
        Leg(leg.name, leg.length, turn) for leg, turn in zip(five, (0, 90, 90, 90, 90), strict=True)
    ]
    corners = walk(straight, closing=False)
    assert [round(w.length) for w in walls(corners)] == [1001, 3003, 3000, 4004, 3000]


@pytest.mark.parametrize(("over", "closes"), [(30, True), (60, True), (900, False)])
def test_a_slip_in_a_room_with_a_slant_is_spread_or_refused_as_well(over, closes):
    """Five walls, the fourth too long. 1414 at 45 degrees are 999.8 each way."""
    five = legs((3000, 45), (1414, 45), (2000, 90), (4000 + over, 90), (3000, 90))
    if closes:
        assert len(walk(five, closing=False)) == 5
    else:
        with pytest.raises(OutlineError, match="the walls end 900 mm from where they began"):
            walk(five, closing=False)


def test_the_closing_wall_is_straightened_if_nearly_straight():
    """The last wall would run 10 mm aside over 3000 mm: the slip goes to A and C."""
    corners = walk(legs((4000, 90), (3000, 90), (4010, 90)), closing=True)
    assert walls(corners)[3].facing == "right"
    assert corners == ((0, 3000), (4005, 3000), (4005, 0), (0, 0))


SLIPS = """
[[room.wall]]
length = "abc"
[[room.wall]]
length = 300
[[room.wall]]
length = 300
[[door]]
wall = "A"
from_left = 20
width = 80
[[window]]
name = "bay"
wall = "B"
from_left = 20
width = 80
[[piece]]
kind = "wardrob"
[[piece]]
kind = "plant"
{wish}
[[rule]]
rule = "daylite"
"""


@pytest.mark.parametrize(
    ("place", "at_fault"),
    [
        ("bayy", True),
        ("bay", False),
        ("door", False),
        ("C", False),
        ("south wall", True),
    ],
)
def test_a_slip_in_a_wall_hides_no_other(place, at_fault):
    """Nor does it make a fault of what is named in the file, or of a wall there will be."""
    wish = f'[[wish]]\npiece = "plant"\nnear = "{place}"'
    with pytest.raises(ScenarioError) as refused:
        read_text(SLIPS.format(wish=wish))
    where = [fault.where for fault in refused.value.faults]
    assert {"room.wall[1].length", "piece[1].kind", "rule[1].rule"} <= set(where)
    assert ("wish[1].near" in where) is at_fault
    hints = [f.hint for f in refused.value.faults if f.where == "wish[1].near"]
    assert place != "bayy" or hints == ["did you mean 'bay'?"]


@pytest.mark.parametrize(
    ("corners", "message"),
    [
        pytest.param(((0, 0), (1, 1)), "2 corners given", id="two corners"),
        pytest.param(
            ((0, 0), (0, 10), (10, 10), (0, 0)),
            "corner 4 is the same point as corner 1",
            id="twice",
        ),
        pytest.param(((0, 0), (10, 10), (10, 0), (0, 10)), "wall A and wall C cross", id="bow tie"),
        pytest.param(
            ((0, 0), (0, 10), (0, 4), (10, 4)), "wall A and wall B cross", id="a wall doubling back"
        ),
        pytest.param(
            # Wall D comes down onto wall F, which runs along y = 0.
            ((0, 0), (0, 10), (4, 10), (4, 4), (5, 0), (8, 4), (10, 0)),
            "cross or touch",
            id="a corner touching another wall",
        ),
        pytest.param(tuple(reversed(BOX)), "run anticlockwise", id="anticlockwise"),
        pytest.param(tuple((i, i * i) for i in range(41)), "41 corners", id="too many"),
    ],
)
def test_what_is_no_room_is_refused(corners, message):
    """Each fault of an outline is named."""
    with pytest.raises(OutlineError, match=message):
        check(corners)


def test_corners_on_a_straight_line_are_allowed():
    """A corner in the middle of a wall breaks it in two; that is no fault."""
    check(((0, 3000), (2000, 3000), (4000, 3000), (4000, 0), (0, 0)))


def test_a_breast_in_the_middle_leaves_two_alcoves():
    """Wall A, 4000 long, with a breast 1500 to 2500, 350 deep."""
    cut = cut_breast(walls(BOX), 0, "breast", 1500, 1000, 350)
    assert [w.name for w in cut] == [
        "A left",
        "breast left side",
        "breast",
        "breast right side",
        "A right",
        "B",
        "C",
        "D",
    ]
    assert [w.part_of for w in cut[:5]] == [
        "A",
        "breast left side",
        "breast",
        "breast right side",
        "A",
    ]
    assert [w.start for w in cut[:5]] == [
        (0, 3000),
        (1500, 3000),
        (1500, 2650),
        (2500, 2650),
        (2500, 3000),
    ]
    assert [w.facing for w in cut[:5]] == ["down", "left", "down", "right", "down"]
    assert all(a.end == b.start for a, b in zip(cut, [*cut[1:], cut[0]], strict=True))


@pytest.mark.parametrize("index", range(4))
@pytest.mark.parametrize("at", ["left", "right", "whole"])
def test_a_breast_in_a_corner_takes_the_wall_there(index, at):
    """The neighbouring wall becomes shorter by the depth; the outline stays closed."""
    before = walls(BOX)
    long = int(before[index].length)
    offset, width = {"left": (0, 1000), "right": (long - 1000, 1000), "whole": (0, long)}[at]
    cut = cut_breast(before, index, "breast", offset, width, 350)
    lengths = {w.name: w.length for w in cut}
    assert all(a.end == b.start for a, b in zip(cut, [*cut[1:], cut[0]], strict=True))
    check([w.start for w in cut])
    previous, following = before[index - 1], before[(index + 1) % 4]
    assert lengths["breast"] == width
    assert lengths[previous.name] == previous.length - (350 if at != "right" else 0)
    assert lengths[following.name] == following.length - (350 if at != "left" else 0)
