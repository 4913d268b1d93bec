"""What a seat has before it and at its back.

Every row is judged from shapes and asked of the model: ``levels`` fails if the two
disagree. WIDE is 8000 across and 6000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    SLANTED,
    at,
    door,
    levels,
    on_wall,
    piece,
    room,
    scenario,
    sentences,
)

from arrange.scoring import shares

SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("chair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
SHELF = piece("shelf", 800, 300, 1100, stands="free", roles={"store"})
TABLE = piece("table", 1200, 400, 800, stands="free", roles={"table"})
OUTLINE = ((0, 0), (0, 6000), (8000, 6000), (8000, 0))
WIDE = room(OUTLINE)
DOOR = room(OUTLINE, doors=[door(BOTTOM, 3600, 800)])  # x 3600 to 4400, its leaf 800


# Sofa facing up at (3000, y): the middle 60 % of its front are x 3400 to 4600.
@pytest.mark.parametrize(
    ("thing", "y", "x", "above", "level"),
    [
        pytest.param(SHELF, 4200, 0, 0, 1, id="900 to the wall"),
        pytest.param(SHELF, 4201, 0, 0, 0, id="899 to the wall"),
        pytest.param(SHELF, 0, 3600, 1800, 1, id="900 to a shelf"),
        pytest.param(SHELF, 0, 3600, 1799, 0, id="899 to a shelf"),
        pytest.param(SHELF, 0, 2600, 1000, 1, id="a shelf that ends where the middle begins"),
        pytest.param(SHELF, 0, 2601, 1000, 0, id="1 mm before the middle"),
        pytest.param(SHELF, 0, 4600, 1000, 1, id="on the other side"),
        pytest.param(SHELF, 0, 4599, 1000, 0, id="1 mm before the middle there"),
        pytest.param(replace(SHELF, height=1099), 0, 3600, 1000, 1, id="a low shelf"),
        pytest.param(replace(SHELF, bottom=1200), 0, 3600, 1000, 1, id="a shelf that hangs"),
    ],
)
def test_outlook(thing, y, x, above, level):
    """900 free of walls and tall pieces before the middle of the front."""
    s = scenario(WIDE, SOFA, thing, only="seat-outlook")
    places = at(SOFA, 3000, y, "up"), at(thing, x, above)
    assert levels(s, "seat-outlook", *places) == [level]


@pytest.mark.parametrize(
    ("facing", "x", "y", "level"),
    [
        ("left", 900, 3000, 1),
        ("left", 899, 3000, 0),
        ("right", 6300, 3000, 1),
        ("right", 6301, 3000, 0),
        ("down", 3000, 900, 1),
        ("down", 3000, 899, 0),
    ],
)
def test_outlook_every_way(facing, x, y, level):
    """A chair of 800 by 800, 900 from the wall before it or a little less."""
    s = scenario(WIDE, CHAIR, only="seat-outlook")
    assert levels(s, "seat-outlook", at(CHAIR, x, y, facing)) == [level]


def test_outlooks_are_counted_and_the_first_that_is_wrong_is_named():
    """Of three seats one looks at the wall; neither a stool nor a hall bench counts."""
    two = replace(CHAIR, name="chair 2")
    bench = piece("bench", 1200, 400, 450, stands="free", roles={"seat", "bench"})
    hall = replace(bench, name="hall bench", roles=frozenset({"seat", "bench", "entrance"}))
    stool = piece("stool", 400, 400, 450, stands="free", roles={"seat"})
    s = scenario(WIDE, CHAIR, two, bench, hall, stool, only="seat-outlook")
    places = [at(CHAIR, 0, 0, "left"), at(two, 3000, 0, "up"), at(bench, 5000, 0, "up")]
    places += [at(hall, 0, 5600, "up"), at(stool, 7600, 5600, "up")]
    assert levels(s, "seat-outlook", *places) == [2]
    (said,) = sentences(s, "seat-outlook", *places)
    assert said == "The chair faces the wall less than 900 mm away"
    (share,) = shares(s)
    # Each further fault costs half of the one before: 1, 3 and 7 of 7 parts.
    assert share.points == (142, 428, 1000)


def test_outlook_from_a_slanted_wall():
    """Along a slanted wall the upright box before the seat's bounding box counts."""
    plan = room(SLANTED)
    chair = replace(CHAIR, stands="wall")
    s = scenario(plan, chair, SHELF, only="seat-outlook")
    free = on_wall(plan, chair, 2, 300), at(SHELF, 0, 0, "up")
    assert levels(s, "seat-outlook", *free) == [1]


# The door's middle is at (4000, 0), its floor 800 deep: a back is near up to 1700. The
# chair facing up at (3600, y) has its back at y, right before the door.
@pytest.mark.parametrize(
    ("facing", "x", "y", "level"),
    [
        pytest.param("up", 3600, 1700, 1, id="1700 off"),
        pytest.param("up", 3600, 1699, 0, id="1699 off"),
        pytest.param("up", 5099, 1499, 0, id="45 degrees aside: 1499 and 1499"),
        pytest.param("up", 5100, 1499, 1, id="a little more aside"),
        pytest.param("up", 2101, 1499, 0, id="45 degrees to the left"),
        pytest.param("up", 2100, 1499, 1, id="a little more to the left"),
        pytest.param("down", 3600, 900, 1, id="the door ahead"),
        pytest.param("left", 3600, 900, 1, id="the door aside"),
    ],
)
def test_back_to_the_door(facing, x, y, level):
    """Within 45 degrees behind the back and nearer than 1700."""
    s = scenario(DOOR, CHAIR, only="seat-outlook")
    out, back = levels(s, "seat-outlook", at(CHAIR, x, y, facing))
    assert (out, back) == (int(not (facing == "down" and y < 900)), level)


@pytest.mark.parametrize("more", [{"leaves": 2}, {"opens": "folding in"}], ids=str)
@pytest.mark.parametrize(("y", "level"), [(1500, 1), (1499, 0)])
def test_leaves_that_come_less_far_bring_the_door_nearer(more, y, level):
    """They come 400 in; the walkway's 600 and 900 more make 1500."""
    plan = room(OUTLINE, doors=[door(BOTTOM, 3600, 800, **more)])
    s = scenario(plan, CHAIR, only="seat-outlook")
    assert levels(s, "seat-outlook", at(CHAIR, 3600, y, "up"))[1] == level


@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3400, 1000, 1, id="right behind the back"),
        pytest.param(3400, 850, 1, id="150 behind it"),
        pytest.param(3400, 849, 0, id="151 behind it"),
        pytest.param(4000, 1000, 1, id="from the middle of the back on"),
        pytest.param(4001, 1000, 0, id="beside the middle"),
    ],
)
def test_a_table_behind_the_back_mends_it(x, y, level):
    """The chair's back at y 1400, the table 400 deep: right behind from y 850 to 1000."""
    s = scenario(DOOR, CHAIR, TABLE, only="seat-outlook")
    places = at(CHAIR, 3600, 1400, "up"), at(TABLE, x, y)
    assert levels(s, "seat-outlook", *places) == [1, level]


# The door's floor is 800 deep, and 600 beside its opening are x 3000 to 5000.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(2200, 0, "right", 1, id="600 to the left of it"),
        pytest.param(2201, 0, "right", 0, id="599 to the left"),
        pytest.param(5000, 0, "left", 1, id="600 to the right"),
        pytest.param(4999, 0, "left", 0, id="599 to the right"),
        pytest.param(4400, 799, "left", 0, id="in reach of who comes in"),
        pytest.param(4400, 800, "left", 1, id="beyond the door's floor"),
    ],
)
def test_right_beside_the_door(x, y, facing, level):
    """Nearer than 600 to the opening, in the depth of the floor that the door needs."""
    s = scenario(DOOR, CHAIR, only="seat-outlook")
    place = at(CHAIR, x, y, facing)
    assert levels(s, "seat-outlook", place) == [1, level]
    assert level or sentences(s, "seat-outlook", place)[1] == (
        "The chair stands right beside the door"
    )


def test_a_wall_at_its_back_does_not_mend_a_seat_beside_the_door():
    """599 or 600 from its opening at x 4400, its back on the door's wall."""
    chair = replace(CHAIR, stands="anywhere")
    s = scenario(DOOR, chair, only="seat-outlook")
    for x, level in ((5000, 1), (4999, 0)):
        assert levels(s, "seat-outlook", on_wall(DOOR, chair, 3, 8000 - x - 800)) == [1, level]


def test_back_to_the_door_is_said():
    """And not asked of a seat that has a wall at its back."""
    s = scenario(DOOR, CHAIR, only="seat-outlook")
    said = sentences(s, "seat-outlook", at(CHAIR, 3600, 1500, "up"))
    assert said == [
        "The chair looks out freely",
        "The chair has its back to the door, 1500 mm behind it",
    ]
    chair = replace(CHAIR, stands="wall")
    s = scenario(DOOR, chair, only="seat-outlook")
    assert levels(s, "seat-outlook", on_wall(DOOR, chair, LEFT, 2000)) == [1]


# A corner is cut out below the wall y 1200, index 3; the door's middle is at (2500, 0). The
# chair facing up with its left end at x 3000 has the door 1200 behind it and 900 aside.
CUT_OUT = ((0, 0), (0, 6000), (8000, 6000), (8000, 1200), (3000, 1200), (3000, 0))
BEHIND = room(CUT_OUT, doors=[door(5, 100, 800)])


def test_a_seat_that_may_stand_anywhere_is_asked_of_its_back_too():
    """Away from walls as one that stands free; with a wall at its back nobody is behind it."""
    chair = replace(CHAIR, stands="anywhere")
    s = scenario(DOOR, chair, only="seat-outlook")
    assert levels(s, "seat-outlook", at(chair, 3600, 1500, "up")) == [1, 0]
    assert levels(s, "seat-outlook", at(chair, 3600, 1700, "up")) == [1, 1]
    s = scenario(BEHIND, chair, only="seat-outlook")
    assert levels(s, "seat-outlook", at(chair, 3000, 1300, "up")) == [1, 0]
    assert levels(s, "seat-outlook", on_wall(BEHIND, chair, 3, 4200)) == [1, 1]
