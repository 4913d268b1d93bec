"""Wishes about what stands at a wall, in a corner or beside something larger.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up. Limits: common practice, no source.
"""

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    TOP,
    at,
    door,
    levels,
    on_wall,
    piece,
    room,
    says,
    scenario,
    window,
)

from arrange.data.piece import Clearance

BED = piece("bed", 1000, 2000, 500, roles={"bed", "sleep"})
DOUBLE = piece("wide bed", 1500, 2000, 500, roles={"bed", "sleep", "for two"})
DESK = piece("desk", 1400, 700, 740, stands="free", roles={"desk", "work"})
SECOND = piece("second desk", 1400, 700, 740, stands="free", roles={"desk", "work"})
SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})


# Its head on the left wall it looks right: its long sides are y and y + 1000. The room is
# 4000 high, so that at y = 2900 the upper wall is 100 off.
@pytest.mark.parametrize(
    ("y", "level"),
    [
        pytest.param(0, 1, id="in the corner"),
        pytest.param(100, 1, id="100 off the lower wall"),
        pytest.param(101, 0, id="101 off"),
        pytest.param(1500, 0, id="in the middle"),
        pytest.param(2899, 0, id="101 off the upper wall"),
        pytest.param(2900, 1, id="100 off the upper wall"),
    ],
)
def test_a_bed_for_one_has_a_long_side_at_a_wall(y, level):
    """Within 10 cm; the wall at its head does not count."""
    plan = room()
    s = scenario(plan, BED, only="at-the-wall")
    # From the left end of the left wall, seen from inside, one goes up the plan.
    assert levels(s, "at-the-wall", on_wall(plan, BED, LEFT, y)) == [level]


# A wall of 1200 beside a bed of 2000, whose half is 1000: an L with its step at y = 3000.
@pytest.mark.parametrize(
    ("x", "level"),
    [
        pytest.param(200, 1, id="1000 of it along the step's wall"),
        pytest.param(199, 0, id="999"),
    ],
)
def test_half_the_side_is_at_the_wall(x, level):
    """The lower side is along nothing, the upper one along the wall from x 1200 on."""
    corners = ((0, 0), (0, 4000), (1200, 4000), (1200, 3000), (5000, 3000), (5000, 0))
    free = piece("bed", 1000, 2000, 500, stands="free", roles={"bed", "sleep"})
    s = scenario(room(corners), free, only="at-the-wall")
    assert levels(s, "at-the-wall", at(free, x, 2000, "right")) == [level]


def test_beds_that_are_free_to_stand_in_the_room():
    """For two, of a pair in a bedroom, or where a helper goes round: nothing is asked."""
    plan, twin = room(), piece("twin", 1000, 2000, 500, roles={"bed", "sleep"})
    assert levels(scenario(plan, DOUBLE), "at-the-wall", on_wall(plan, DOUBLE, LEFT, 0)) == []
    pair = [on_wall(plan, BED, LEFT, 500), on_wall(plan, twin, LEFT, 2500)]
    assert levels(scenario(plan, BED, twin, use="bedroom"), "at-the-wall", *pair) == []
    s = scenario(plan, BED, twin, use="child's room")
    assert levels(s, "at-the-wall", *pair) == [0]
    wide = scenario(plan, BED, walkway=900)
    assert levels(wide, "at-the-wall", on_wall(plan, BED, LEFT, 500)) == []


# Its front looks down; its back is at y + 700 and the upper wall at 4000.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1000, 3300, 2, id="back at the wall"),
        pytest.param(1000, 3200, 2, id="back 100 off"),
        pytest.param(1000, 3199, 0, id="back 101 off"),
        pytest.param(0, 1000, 1, id="an end at the wall: it juts into the room"),
        pytest.param(100, 1000, 1, id="an end 100 off"),
        pytest.param(101, 1000, 0, id="an end 101 off"),
        pytest.param(1000, 0, 0, id="its front at the wall"),
    ],
)
def test_a_desk_has_its_back_at_a_wall(x, y, level):
    """Half for an end; nothing in the middle of the room."""
    s = scenario(room(), DESK, only="at-the-wall", use="bedroom")
    assert levels(s, "at-the-wall", at(DESK, x, y)) == [level]


@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1000, 2450, "up", 2, id="back to back, 150 apart"),
        pytest.param(1000, 2451, "up", 0, id="151 apart"),
        pytest.param(2300, 2300, "up", 2, id="half behind the sofa: 3000 - 2300 = 700"),
        pytest.param(2301, 2300, "up", 0, id="less than half behind it"),
        pytest.param(1000, 2300, "down", 0, id="its front at the sofa's back"),
    ],
)
def test_a_desk_behind_a_sofa(x, y, facing, level):
    """The sofa looks down, its back at 1400 + 900 = 2300, from x 1000 to 3000."""
    s = scenario(room(), DESK, SOFA, only="at-the-wall")
    assert levels(s, "at-the-wall", at(DESK, x, y, facing), at(SOFA, 1000, 1400)) == [level]


def test_desks_back_to_back():
    """In the middle neither counts; with an end at the wall both have all."""
    s = scenario(room(), DESK, SECOND, only="at-the-wall", use="bedroom")
    for x, level in ((0, 4), (1000, 2)):
        places = at(DESK, x, 1000, "down"), at(SECOND, x, 1700, "up")
        assert levels(s, "at-the-wall", *places) == [level]
    paired = at(DESK, 0, 1000, "down"), at(SECOND, 0, 1700, "up")
    assert says(s, "at-the-wall", paired, "stand against the wall or back to back")


# The door's middle is at (4400, 0). The desk looks up, so that one sits at its upper side,
# looking down: its front is at y + 700, its middle at x + 700.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1700, 1300, 1, id="2000 aside, 2000 ahead"),
        pytest.param(1699, 1300, 0, id="2001 aside"),
        pytest.param(600, 0, 1, id="its back at the wall"),
    ],
)
def test_in_an_office_a_desk_may_look_at_the_door(x, y, level):
    """Within 45 degrees; elsewhere it stands in the middle of the room for that."""
    s = scenario(room(doors=[door()]), DESK, only="at-the-wall", use="office")
    assert levels(s, "at-the-wall", at(DESK, x, y, "up")) == [level]
    if y:
        s = scenario(room(doors=[door()]), DESK, only="at-the-wall", use="bedroom")
        assert levels(s, "at-the-wall", at(DESK, x, y, "up")) == [0]


def test_what_is_not_at_the_wall_is_named():
    """The first thing that is wrong."""
    s, plan = scenario(room(), BED), room()
    assert says(s, "at-the-wall", [on_wall(plan, BED, LEFT, 500)], "bed")
    s = scenario(room(), DESK, use="bedroom")
    assert says(s, "at-the-wall", [at(DESK, 0, 1000)], "desk", "juts")
    assert says(s, "at-the-wall", [at(DESK, 1000, 1000)], "desk", "middle")


PLANT = piece("plant", 400, 400, 1200, roles={"plant"})
LAMP = piece("lamp", 400, 400, 1600, stands="free", roles={"light"})


# On the upper wall from its left end on: the plant begins at the offset.
@pytest.mark.parametrize(
    ("offset", "level"),
    [
        pytest.param(0, 1, id="in the corner"),
        pytest.param(300, 1, id="300 from the corner"),
        pytest.param(301, 0, id="301 from it"),
        pytest.param(799, 0, id="301 from the window at 1500"),
        pytest.param(800, 1, id="300 from it"),
        pytest.param(3000, 1, id="300 past it: 2700"),
        pytest.param(3001, 0, id="301 past it"),
    ],
)
def test_a_plant_in_a_corner_or_at_a_window(offset, level):
    """Within 30 cm."""
    plan = room(windows=[window()])
    s = scenario(plan, PLANT, only="tucked")
    assert levels(s, "tucked", on_wall(plan, PLANT, TOP, offset)) == [level]


# The chest stands on the lower wall from x 2000 to 3000 and looks up; its front is at 500.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3300, 0, 1, id="300 beside it"),
        pytest.param(3301, 0, 0, id="301 beside it"),
        pytest.param(3000, 300, 1, id="its middle level with the front"),
        pytest.param(3000, 301, 0, id="before the front"),
        pytest.param(2200, 500, 0, id="straight before it"),
    ],
)
def test_a_plant_beside_something_larger(x, y, level):
    """Beside it and not before it."""
    plan = room()
    free = piece("plant", 400, 400, 1200, stands="free", roles={"plant"})
    chest = piece("chest", 1000, 500, 800, stands="free", roles={"store"}, clearances=USED)
    s = scenario(plan, free, chest, only="tucked")
    assert levels(s, "tucked", at(free, x, y), at(chest, 2000, 0, "up")) == [level]


USED = (Clearance("front", ("front",), 0, 0, ""),)


def test_no_plant_beside_a_bed_or_another_plant():
    """A lamp beside the bed is well placed, a plant is not, and two plants are no company."""
    plan = room()
    lamp, plant = at(LAMP, 1500, 2100), at(PLANT, 1500, 2100)
    free = piece("plant", 400, 400, 1200, stands="free", roles={"plant"})
    for thing, place, level in ((LAMP, lamp, 1), (free, plant, 0)):
        s = scenario(plan, thing, BED, only="tucked")
        assert levels(s, "tucked", place, on_wall(plan, BED, LEFT, 1000)) == [level]
    other = piece("other plant", 400, 400, 1200, stands="free", roles={"plant"})
    s = scenario(plan, free, other, only="tucked")
    assert levels(s, "tucked", at(free, 2000, 2000), at(other, 2400, 2000)) == [0]
    assert says(s, "tucked", [at(free, 2000, 2000), at(other, 2400, 2000)], "plant", "itself")


def test_no_lamp_at_a_window():
    """A window is a place for a plant, not for a lamp."""
    plan = room(windows=[window()])
    s = scenario(plan, LAMP, only="tucked")
    assert levels(s, "tucked", at(LAMP, 1500, 3300)) == [0]


def test_what_has_its_own_floor_or_is_large_is_not_small():
    """Chests, seats, tables and what is more than 70 cm wide."""
    big = piece("big plant", 701, 400, 1200, roles={"plant"})
    seat = piece("stool", 400, 400, 450, roles={"seat"}, stands="free")
    plan = room()
    s = scenario(plan, big, seat, only="tucked")
    assert levels(s, "tucked", on_wall(plan, big, BOTTOM, 500), at(seat, 2000, 2000)) == []
