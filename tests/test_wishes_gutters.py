"""Gaps too narrow to use: at the ends of large pieces, behind seats and desks, at corner sofas.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
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

from arrange.data.piece import Slot
from arrange.data.scenario import RuleSetting

SOFA = piece("sofa", 2000, 900, 850, roles={"seat", "sofa"})
FREE = replace(SOFA, stands="free")
WARDROBE = piece("wardrobe", 1000, 600, 2000, roles={"store", "tall"})
SINGLE = piece("bed", 900, 2000, 500, roles={"sleep", "bed"})


# The left wall is 4000 long, with a corner at both ends: the last start is 3000.
@pytest.mark.parametrize(
    ("offset", "level"),
    [(0, 1), (39, 1), (40, 0), (299, 0), (300, 1), (2700, 1), (2701, 0), (2960, 0), (2961, 1)],
)
def test_a_gutter_beside_a_wall(offset, level):
    """Nearer than 40 to a corner, or 300 and more off it."""
    plan = room()
    s = scenario(plan, WARDROBE, only="gutter")
    assert levels(s, "gutter", on_wall(plan, WARDROBE, LEFT, offset)) == [level]


def test_a_gap_that_no_square_corner_closes_is_no_gutter():
    """At its right end the top wall meets the slanted one: 100 off is fine there."""
    plan = room(SLANTED)
    s = scenario(plan, WARDROBE, only="gutter")
    assert levels(s, "gutter", on_wall(plan, WARDROBE, TOP, 4000 - 1000 - 100)) == [1]
    assert levels(s, "gutter", on_wall(plan, WARDROBE, TOP, 100)) == [0]
    assert levels(s, "gutter", on_wall(plan, WARDROBE, 2, 100)) == [1]


# The end wall is 1300 across: a wardrobe of 1000 leaves 300 in all.
@pytest.mark.parametrize(("offset", "level"), [(0, 1), (139, 0), (140, 1), (160, 1), (161, 0)])
def test_equal_gaps_in_an_alcove_are_no_gutters(offset, level):
    """140 and 160 differ by 20; with 0 the other gap is 300."""
    plan = room(((0, 0), (0, 4000), (1300, 4000), (1300, 0)))
    s = scenario(plan, WARDROBE, only="gutter")
    assert levels(s, "gutter", on_wall(plan, WARDROBE, TOP, offset)) == [level]


@pytest.mark.parametrize(
    ("start", "gap", "level"),
    [
        pytest.param(599, 250, 1, id="a window begins within the depth of 600"),
        pytest.param(599, 251, 0, id="251"),
        pytest.param(600, 250, 0, id="the window begins past it"),
    ],
)
def test_a_curtain_may_hang_in_a_gap(start, gap, level):
    """The top wall's left corner is the right end of the left wall, 4000 long."""
    plan = room(windows=[window(LEFT, 4000 - start - 1200)])
    s = scenario(plan, WARDROBE, only="gutter", settings=[RuleSetting("windows-clear", off=True)])
    assert levels(s, "gutter", on_wall(plan, WARDROBE, TOP, gap)) == [level]


@pytest.mark.parametrize(
    ("deep", "high", "offset", "expected"),
    [
        pytest.param(300, 800, 2039, [2], id="39 apart"),
        pytest.param(300, 800, 2040, [1], id="40 apart, half as deep as the wardrobe"),
        pytest.param(300, 800, 2299, [1], id="299 apart"),
        pytest.param(300, 800, 2300, [2], id="300 apart"),
        pytest.param(299, 800, 2100, [2], id="less than half as deep"),
        pytest.param(300, 700, 2100, [2], id="700 high"),
        pytest.param(300, 1100, 2100, [0], id="tall itself: a gutter for both"),
    ],
)
def test_a_gutter_between_two_pieces(deep, high, offset, expected):
    """The wardrobe starts at 1000 and ends at 2000; the other piece comes after it.

    A second wardrobe in the far corner has none.
    """
    other = piece("chest", 800, deep, high, roles={"store"})
    far = replace(WARDROBE, name="far")
    plan = room(((0, 0), (0, 5000), (5000, 5000), (5000, 0)))
    s = scenario(plan, WARDROBE, other, far, only="gutter")
    places = on_wall(plan, WARDROBE, LEFT, 1000), on_wall(plan, other, LEFT, offset)
    more = expected[0] + (1 if high >= 1100 else 0)
    assert levels(s, "gutter", *places, on_wall(plan, far, RIGHT, 0)) == [more]


def test_what_stands_beyond_the_wall_behind_a_sofa_is_no_gutter():
    """A wall 200 thick between them, as wide as a gutter: at either face is at a wall."""
    thin = ((3000, 4000), (3000, 1500), (3200, 1500), (3200, 4000))
    plan = room(((0, 0), (0, 4000), *thin, (6000, 4000), (6000, 0)))
    sofa = replace(SOFA, stands="anywhere")
    s = scenario(plan, sofa, replace(WARDROBE, width=1800), only="gutter")
    wide = s.piece("wardrobe")
    assert levels(s, "gutter", on_wall(plan, sofa, 2, 0), on_wall(plan, wide, 4, 700)) == [2]


# Free on the floor, facing down: its back is up, its ends left and right.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1000, 4000 - 900 - 39, "down", 1, id="39 behind it"),
        pytest.param(1000, 4000 - 900 - 40, "down", 0, id="40 behind it"),
        pytest.param(1000, 4000 - 900 - 749, "down", 0, id="749"),
        pytest.param(1000, 4000 - 900 - 750, "down", 1, id="750"),
        pytest.param(1000, 4000 - 900 - 200, "up", 1, id="200 before it is another matter"),
        pytest.param(39, 1000, "down", 1, id="39 at its end"),
        pytest.param(40, 1000, "down", 0, id="40 at its end"),
        pytest.param(299, 1000, "up", 0, id="299 at its other end"),
        pytest.param(300, 1000, "up", 1, id="300"),
    ],
)
def test_a_gutter_round_a_sofa_that_stands_free(x, y, facing, level):
    """From 40 on: behind it to 750, at its ends to 300."""
    s = scenario(room(), FREE, only="gutter")
    assert levels(s, "gutter", at(FREE, x, y, facing)) == [level]


@pytest.mark.parametrize(("gap", "level"), [(110, 1), (111, 0), (439, 0), (440, 1)])
def test_a_gutter_behind_an_easy_chair_is_narrower(gap, level):
    """From 110 to 440: designers stand most of them off the wall, half of them by 47 cm."""
    chair = piece("chair", 800, 900, 900, roles={"seat", "lounge"}, stands="free")
    s = scenario(room(), chair, only="gutter")
    assert levels(s, "gutter", at(chair, 1000, 4000 - 900 - gap, "down")) == [level]


# The chair faces down, its back at y 2000; the case of 500 by 800 above it begins at x 1400.
@pytest.mark.parametrize(
    ("high", "x", "gap", "level"),
    [
        pytest.param(701, 1000, 110, 1, id="110 behind it"),
        pytest.param(701, 1000, 111, 0, id="111"),
        pytest.param(701, 1000, 749, 0, id="749"),
        pytest.param(701, 1000, 750, 1, id="750"),
        pytest.param(700, 1000, 200, 1, id="no higher than the back"),
        pytest.param(701, 800, 200, 0, id="along 200"),
        pytest.param(701, 799, 200, 1, id="along 199"),
    ],
)
def test_a_gutter_between_an_easy_chair_and_what_is_behind(high, x, gap, level):
    """It is used from there. The chair of 800 reaches from x on, the case begins at 1400."""
    chair = piece("chair", 800, 900, 900, roles={"seat", "lounge"}, stands="free")
    case = piece("case", 800, 500, high, stands="free", roles={"table"})
    s = scenario(room(), chair, case, only="gutter")
    places = at(chair, x, 1100, "down"), at(case, 1400, 2000 + gap, "down")
    assert levels(s, "gutter", *places) == [level]
    told = sentences(s, "gutter", *places)
    assert level or told == [
        f"The chair leaves {gap} mm between its back and the case, too narrow to use"
    ]


@pytest.mark.parametrize(("gap", "level"), [(110, 1), (111, 0), (439, 0), (440, 1)])
def test_behind_an_easy_chair_another_seat_is_as_a_wall(gap, level):
    """Nobody gets at anything there: they stand back to back, the one looks up, the other down."""
    one, two = (
        piece(name, 800, 900, 900, roles={"seat", "lounge"}, stands="free") for name in ("a", "b")
    )
    s = scenario(room(), one, two, only="gutter")
    places = at(one, 1000, 700, "down"), at(two, 1000, 1600 + gap, "up")
    assert levels(s, "gutter", *places) == [2 * level]


@pytest.mark.parametrize(
    ("thing", "gap", "level"),
    [
        pytest.param(SINGLE, 110, 1, id="a bed 110 behind it"),
        pytest.param(SINGLE, 111, 0, id="111"),
        pytest.param(SINGLE, 749, 0, id="749"),
        pytest.param(SINGLE, 750, 1, id="750"),
        pytest.param(WARDROBE, 749, 0, id="a wardrobe 749 behind it"),
        pytest.param(replace(WARDROBE, height=700), 200, 1, id="something low"),
    ],
)
def test_a_gutter_between_the_back_of_a_desk_and_what_is_behind(thing, gap, level):
    """The desk looks down, its back at y 2000; what is behind it stands clear of every wall."""
    desk = piece("desk", 1200, 600, 740, stands="free", roles={"desk"})
    thing = replace(thing, stands="free")
    s = scenario(room(((0, 0), (0, 6000), (5000, 6000), (5000, 0))), desk, thing, only="gutter")
    places = at(desk, 1000, 1400, "down"), at(thing, 1000, 2000 + gap, "up")
    assert levels(s, "gutter", *places) == [level + thing.is_a("bed")]


def test_who_comes_to_see_somebody_sits_at_the_back_of_a_desk():
    """An easy chair 300 off it, looking at it: no gutter."""
    desk = piece("desk", 1200, 600, 740, stands="free", roles={"desk"})
    chair = piece("chair", 800, 900, 900, roles={"seat", "lounge"}, stands="free")
    s = scenario(room(), desk, chair, only="gutter")
    assert levels(s, "gutter", at(desk, 1000, 1000, "down"), at(chair, 1200, 1900, "down")) == [2]


# A corner sofa of 2400 by 1800 that looks down; its arm is at the left, and who sits there looks
# right. The other end is an end.
CORNER = replace(
    FREE, name="corner", width=2400, depth=1800, shape="L", arm_width=900, back_depth=900
)


@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(39, 1000, 1, id="39 behind the arm"),
        pytest.param(40, 1000, 0, id="40 behind the arm"),
        pytest.param(749, 1000, 0, id="749 behind the arm"),
        pytest.param(750, 1000, 1, id="750 behind the arm"),
        pytest.param(5000 - 2400 - 300, 1000, 1, id="300 at the other end"),
        pytest.param(5000 - 2400 - 299, 1000, 0, id="299 at the other end"),
        pytest.param(1000, 4000 - 1800 - 749, 0, id="749 behind the back"),
    ],
)
def test_a_corner_sofa_has_two_backs(x, y, level):
    """Both with a way behind them, or at the wall; the words say back of both."""
    s = scenario(room(), CORNER, only="gutter")
    assert levels(s, "gutter", at(CORNER, x, y, "down")) == [level]
    (said,) = sentences(s, "gutter", at(CORNER, 40, 1000, "down"))
    assert "40 mm between its back and a wall" in said


@pytest.mark.parametrize(
    ("hand", "offset", "level"),
    [
        ("left", 749, 0),
        ("left", 750, 1),
        ("left", 5000 - 2400 - 300, 1),
        ("right", 300, 1),
        ("right", 5000 - 2400 - 749, 0),
        ("right", 5000 - 2400 - 750, 1),
    ],
)
def test_at_a_wall_a_corner_sofa_has_a_back_at_the_end_of_its_arm(hand, offset, level):
    """The top wall is 5000 long, and corners close it at both ends."""
    plan, sofa = room(), replace(CORNER, stands="anywhere", arm_side=hand)
    s = scenario(plan, sofa, only="gutter")
    assert levels(s, "gutter", on_wall(plan, sofa, TOP, offset)) == [level]


@pytest.mark.parametrize(("gap", "level"), [(110, 1), (111, 0), (749, 0), (750, 1)])
def test_what_is_behind_the_arm_of_a_corner_sofa_is_behind_its_back(gap, level):
    """A case of 1000 to the left of it, along more than half of its 1800."""
    case = piece("case", 500, 1000, 800, stands="free", roles={"table"})
    s = scenario(room(), CORNER, case, only="gutter")
    places = at(CORNER, 2000, 1000, "down"), at(case, 1500 - gap, 1200, "down")
    assert levels(s, "gutter", *places) == [level]


@pytest.mark.parametrize(("y", "level"), [(4000 - 900 - 110, 1), (4000 - 900 - 111, 0)])
def test_an_easy_chair_tied_to_a_sofa_has_a_gutter_behind_it_too(y, level):
    """It looks down at the sofa, its back 110 or 111 from the top wall."""
    slot = Slot("front", gap=1000, facing="toward")
    sofa = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
    chair = piece("chair", 800, 900, 900, anchor="sofa", slots=(slot,), roles={"seat", "lounge"})
    s = scenario(room(), sofa, chair, only="gutter")
    places = at(sofa, 1000, y - 1900, "up"), at(chair, 1600, y, "down")
    assert levels(s, "gutter", *places) == [1 + level]


def test_chairs_at_a_table_close_no_gap():
    """They are moved, as lamps and plants are; the same thing as a case does."""
    chair = piece("chair", 800, 900, 900, roles={"seat", "lounge"}, stands="free")
    moved = {"seat", "dining seat"}, {"light"}, {"plant"}
    for roles, level in (*((roles, 1) for roles in moved), ({"store"}, 0)):
        other = piece("other", 800, 500, 900, stands="free", roles=roles)
        s = scenario(room(), chair, other, only="gutter")
        places = at(chair, 1000, 1100, "down"), at(other, 1000, 2200, "down")
        assert levels(s, "gutter", *places) == [level]


def test_a_wall_past_the_end_of_a_sofa_closes_nothing():
    """An L: the wall from (3000, 2000) on, 200 behind the sofa along 200 or 199 of 2000."""
    plan = room(((0, 0), (0, 4000), (3000, 4000), (3000, 2000), (6000, 2000), (6000, 0)))
    s = scenario(plan, FREE, only="gutter")
    assert levels(s, "gutter", at(FREE, 1200, 2000 - 900 - 200, "down")) == [0]
    assert levels(s, "gutter", at(FREE, 1199, 2000 - 900 - 200, "down")) == [1]


# A breast 1200 wide and 350 deep stands out of the left wall, from y 1000 to 2200.
BREAST = ((0, 0), (0, 1000), (350, 1000), (350, 2200), (0, 2200), (0, 5000), (6000, 5000))


@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(350, 600, 1, id="at the breast, wider than it"),
        pytest.param(460, 600, 1, id="110 off it"),
        pytest.param(461, 600, 0, id="111 off it"),
        pytest.param(350, 0, 1, id="with the last 1000 of 2000 at it"),
        pytest.param(351, 1201, 0, id="with 999 at it"),
        pytest.param(750, 600, 0, id="750 off the wall, 400 off the breast"),
        pytest.param(1099, 600, 0, id="749 off the breast"),
        pytest.param(1100, 600, 1, id="750 off the breast"),
        pytest.param(750, 2001, 1, id="750 off the wall, past the breast but for 199"),
    ],
)
def test_a_sofa_before_a_chimney_breast_is_at_it_or_leaves_a_way(x, y, level):
    """Otherwise the rest behind it is a dead pocket."""
    s = scenario(room((*BREAST, (6000, 0))), FREE, only="gutter")
    assert levels(s, "gutter", at(FREE, x, y, "right")) == [level]


def test_gutter_says_where_and_asks_large_pieces_alone():
    """A stool and a low chest have nothing to earn."""
    plan = room()
    stool = piece("stool", 400, 400, roles={"seat"})
    chest = piece("chest", 800, 400, 800, roles={"store"})
    s = scenario(plan, WARDROBE, stool, chest)
    places = on_wall(plan, WARDROBE, LEFT, 125), on_wall(plan, stool, LEFT, 2000)
    low = on_wall(plan, chest, RIGHT, 100)
    told = ["The wardrobe leaves 125 mm between it and the wall beside it, too narrow to use"]
    assert sentences(s, "gutter", *places, low) == told
    assert levels(scenario(plan, stool, chest), "gutter", places[1], low) == []
