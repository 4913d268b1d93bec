"""What is looked at: the screen or fire in view, and nothing in the line to it.

Every row is judged from shapes and asked of the model: ``levels`` fails if the two
disagree. The plain room is 5000 across and 4000 up, WIDE 8000 across and 6000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import LEFT, RIGHT, at, levels, on_wall, piece, room, scenario, sentences

from arrange.data.room import Fixture
from arrange.scoring import shares

SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("chair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
SCREEN = piece("screen", 1400, 400, 500, stands="free", roles={"screen"})
SIZED = replace(SCREEN, screen=1000)
BED = piece("bed", 1400, 2000, 500, stands="free", roles={"sleep", "bed"})
WIDE = room(((0, 0), (0, 6000), (8000, 6000), (8000, 0)))


# Sofa facing up at x 0 to 2000, the middle of its front at (1000, 900). Screen facing
# down, 1400 wide, the middle of its front at (x + 700, y): straight ahead at x 300.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(300, 900 + 1249, "down", 0, id="1249: too near"),
        pytest.param(300, 900 + 1250, "down", 1, id="1250"),
        pytest.param(300, 900 + 1523, "down", 1, id="1523"),
        pytest.param(300, 900 + 1524, "down", 2, id="1524"),
        pytest.param(300, 900 + 3000, "down", 2, id="3000"),
        pytest.param(300, 900 + 3001, "down", 1, id="3001"),
        pytest.param(300, 900 + 3500, "down", 1, id="3500"),
        pytest.param(300, 900 + 3501, "down", 0, id="3501"),
        pytest.param(300, 900 + 2000, "up", 0, id="its back to the sofa"),
        pytest.param(300, 900 + 2000, "left", 0, id="at right angles"),
        # 0.577 * 2000 = 1154.
        pytest.param(300 + 1154, 900 + 2000, "down", 2, id="30 degrees off"),
        pytest.param(300 + 1155, 900 + 2000, "down", 1, id="just over 30"),
        pytest.param(300 + 2000, 900 + 2000, "down", 1, id="45 degrees off"),
        pytest.param(300 + 2001, 900 + 2000, "down", 0, id="just over 45"),
    ],
)
def test_screen(x, y, facing, level):
    """Face to face, distance in the band, angle in the cone."""
    s = scenario(WIDE, SOFA, SCREEN, only="view")
    assert levels(s, "view", at(SOFA, 0, 0, "up"), at(SCREEN, x, y, facing)) == [level]


# A diagonal of 1000: best from 1200 to 2200, else from 1000 to 3500 (2600 is less).
@pytest.mark.parametrize(
    ("distance", "level"),
    [(999, 0), (1000, 1), (1199, 1), (1200, 2), (2200, 2), (2201, 1), (3500, 1), (3501, 0)],
)
def test_screen_by_its_diagonal(distance, level):
    """The larger the screen the farther off it is watched from."""
    s = scenario(WIDE, SOFA, SIZED, only="view")
    assert levels(s, "view", at(SOFA, 0, 0, "up"), at(SIZED, 300, 900 + distance)) == [level]


def test_large_screen_may_be_farther_off():
    """A diagonal of 1500: 26 * 150 = 3900 at most."""
    large = replace(SCREEN, screen=1500)
    s = scenario(WIDE, SOFA, large, only="view")
    for distance, level in ((3900, 1), (3901, 0)):
        assert levels(s, "view", at(SOFA, 0, 0, "up"), at(large, 300, 900 + distance)) == [level]


@pytest.mark.parametrize(
    ("sofa", "screen"),
    [
        pytest.param((LEFT, 1000), (RIGHT, 2300), id="across the room"),
        pytest.param((RIGHT, 2000), (LEFT, 2300), id="the other way"),
    ],
)
def test_screen_across_the_room(sofa, screen):
    """On facing walls of a room 4500 across: 4500 - 900 - 400 = 3200 between the fronts.

    The left wall runs up the plan, the right one down, so the screen's middle lies at
    y 6000 - 2300 - 700 = 3000 on the right and 2300 + 700 = 3000 on the left; the
    sofa's at 1000 + 1000 = 2000 and 6000 - 2000 - 1000 = 3000; 0.577 * 3200 = 1846.
    """
    plan = room(((0, 0), (0, 6000), (4500, 6000), (4500, 0)))
    seat = piece("sofa", 2000, 900, 850, roles={"seat", "sofa"})
    tv = piece("screen", 1400, 400, 500, roles={"screen"})
    s = scenario(plan, seat, tv, only="view")
    assert levels(s, "view", on_wall(plan, seat, *sofa), on_wall(plan, tv, *screen)) == [1]


def test_of_two_alike_sofas_either_will_do():
    """The second sees the screen; a miss is a fault of first rank."""
    other = replace(SOFA, name="sofa 2")
    s = scenario(WIDE, SOFA, other, SCREEN, only="view")
    away, ahead = at(SOFA, 5000, 0, "right"), at(other, 0, 0, "up")
    assert levels(s, "view", away, ahead, at(SCREEN, 300, 2900)) == [2]
    assert levels(s, "view", away, ahead, at(SCREEN, 300, 2900, "up")) == [0]
    assert [share.claim.faults(0) for share in shares(s) if share.claim.rule == "view"] == [1]


def test_view_says_how_far_and_why_not_better():
    """The distance between the fronts, and the angle where it is lost."""
    s = scenario(WIDE, SOFA, SCREEN)
    for x, y, text in (
        (1455, 2900, "2000 mm from the screen, which is more than 30 degrees off to the side"),
        (300, 4000, "3100 mm from the screen, which is too far"),
        (300, 2200, "1300 mm from the screen, which is too close"),
        (300, 2900, "2000 mm from the screen and faces it"),
    ):
        places = at(SOFA, 0, 0, "up"), at(SCREEN, x, y)
        assert sentences(s, "view", *places) == [f"The sofa is {text}"]


# A fireplace at x 4700 to 5000, y 1500 to 2500, its front's middle at (4700, 2000).
CORNERS = ((4700, 1500), (4700, 2500), (5000, 2500), (5000, 1500))
HEARTH = Fixture("fireplace", "fireplace", CORNERS, RIGHT, 1500, 1000, 300, 0, 1100)
COUCH = replace(CHAIR, name="couch", roles=frozenset({"seat", "sofa"}))


# Couch facing right at (x, y): the middle of its front at (x + 800, y + 400).
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1000, 1600, "right", 2, id="straight ahead, 2900 off"),
        pytest.param(900, 1600, "right", 2, id="3000 off"),
        pytest.param(899, 1600, "right", 1, id="3001 off"),
        pytest.param(1000, 1600, "up", 0, id="turned aside"),
        pytest.param(1000, 1600, "left", 0, id="turned away"),
        # 0.577 * 2000 = 1154.
        pytest.param(1900, 1600 + 1154, "right", 2, id="30 degrees off"),
        pytest.param(1900, 1600 + 1155, "right", 1, id="just over 30"),
        # Facing up, its front's middle at (3700, 1000): 1000 ahead, 1000 aside.
        pytest.param(3300, 200, "up", 1, id="45 degrees off, seen from the side"),
        pytest.param(3301, 200, "up", 1, id="a little less"),
        # At (4170, 1082): 530 aside, 918 ahead; seen from the fire 1.732 * 530 = 917.96.
        pytest.param(3770, 282, "up", 0, id="just over 60 degrees off the fire's axis"),
        pytest.param(3770, 283, "up", 1, id="60 degrees off the fire's axis"),
    ],
)
def test_fire(x, y, facing, level):
    """The fire ahead, from the front or from the side."""
    s = scenario(room(fixtures=[HEARTH]), COUCH, only="view")
    assert levels(s, "view", at(COUCH, x, y, facing)) == [level]


@pytest.mark.parametrize(("x", "level"), [(1200, 2), (1199, 1), (900, 1)])
def test_a_fire_set_into_its_wall_is_looked_at_too(x, level):
    """Without depth its front is the wall, at x 5000: 3000 from a couch at 1200."""
    s = scenario(room(fixtures=[replace(HEARTH, corners=(), depth=0)]), COUCH, only="view")
    assert levels(s, "view", at(COUCH, x, 1600, "right")) == [level]


def test_fire_is_for_people_together():
    """Nothing for one easy chair; for two of them there is."""
    plan = room(fixtures=[HEARTH])
    assert levels(scenario(plan, CHAIR), "view", at(CHAIR, 0, 0, "up")) == []
    s = scenario(plan, CHAIR, replace(CHAIR, name="chair 2"), only="view")
    places = at(CHAIR, 1000, 1600, "right"), at(replace(CHAIR, name="chair 2"), 0, 0, "up")
    assert levels(s, "view", *places) == [2]


# The sofa at (1700, 1550), 900 x 900 with its front's middle at (2600, 2000) facing right.
SEAT = replace(SOFA, width=900)


@pytest.mark.parametrize(
    ("seat", "screen", "level"),
    [
        pytest.param((1700, 1550, "right"), (2300, 3600, "down"), 0, id="fire ahead, screen aside"),
        # The screen's front at x 4600, its middle at y 3300: 2000 ahead, 1300 aside.
        pytest.param((1700, 1550, "right"), (4600, 2600, "left"), 2, id="fire ahead, screen seen"),
        # The middle of the seat's front at (3150, 1900), the screen's at (3150, 3600): 1700
        # ahead. The fire is 100 ahead and 1550 aside.
        pytest.param((2700, 1000, "up"), (2450, 3600, "down"), 1, id="screen ahead, fire aside"),
        # At (3150, 950): 2650 to the screen; the fire 1050 ahead and 1550 aside.
        pytest.param((2700, 50, "up"), (2450, 3600, "down"), 2, id="screen ahead, fire seen"),
        pytest.param((1700, 1550, "left"), (2300, 3600, "down"), 0, id="neither"),
    ],
)
def test_fire_and_screen(seat, screen, level):
    """One ahead, the other within 60 degrees; a fire out of view costs half."""
    s = scenario(room(fixtures=[HEARTH]), SEAT, SCREEN, only="view")
    assert levels(s, "view", at(SEAT, *seat), at(SCREEN, *screen)) == [level]


# Bed facing up at (0, 0): its pillow at (700, 500). Screen facing down, the middle of its
# front at (x + 700, y).
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(0, 3000, "down", 1, id="straight ahead"),
        pytest.param(2500, 3000, "down", 1, id="45 degrees aside"),
        pytest.param(2501, 3000, "down", 0, id="just over 45"),
        pytest.param(0, 3000, "up", 0, id="turned away"),
        # Facing left: the middle of its front at (x, y + 700).
        pytest.param(2700, 1800, "left", 1, id="at the side, 45 degrees off both"),
        pytest.param(2700, 1799, "left", 0, id="too far to the side"),
        # 1000 aside, 1732 ahead.
        pytest.param(1700, 1532, "left", 1, id="60 degrees off its own axis"),
        pytest.param(1700, 1533, "left", 0, id="just over 60"),
    ],
)
def test_screen_from_the_bed(x, y, facing, level):
    """In a bedroom the screen is for the bed, chair or not."""
    s = scenario(WIDE, BED, SCREEN, CHAIR, only="view")
    places = at(BED, 0, 0, "up"), at(SCREEN, x, y, facing), at(CHAIR, 7000, 0)
    assert levels(s, "view", *places) == [level]


def test_neither_screen_nor_fire():
    """A room for talk: nothing to earn."""
    assert levels(scenario(room(), SOFA), "view", at(SOFA, 0, 0, "up")) == []


# Sofa facing up, the middle of its front at (1000, 900); screen facing down, the middle of
# its front at (1000, 3000). The middle 60 % of the sofa is x 400 to 1600, 80 % of the
# screen x 440 to 1560.
LAMP = piece("lamp", 300, 300, 1500, stands="free")
POST = piece("post", 100, 100, 601, stands="free")
SHELF = piece("shelf", 800, 300, 2000, stands="free")


@pytest.mark.parametrize(
    ("thing", "x", "y", "level"),
    [
        pytest.param(LAMP, 960, 1500, 0, id="520 left of it, 300 right of it"),
        pytest.param(LAMP, 1040, 1500, 1, id="600 left of it: 440 to 1040"),
        pytest.param(LAMP, 1039, 1500, 0, id="599 left of it"),
        pytest.param(LAMP, 660, 1500, 1, id="600 right of it: 960 to 1560"),
        pytest.param(LAMP, 661, 1500, 0, id="599 right of it"),
        pytest.param(LAMP, 850, 900, 0, id="right before the seat"),
        pytest.param(LAMP, 850, 2700, 0, id="right before the screen"),
        pytest.param(LAMP, 2000, 600, 1, id="beside the seat"),
        pytest.param(POST, 950, 2000, 0, id="601 high"),
        pytest.param(replace(POST, height=600), 950, 2000, 1, id="600 high"),
        pytest.param(replace(POST, bottom=1199), 950, 2000, 0, id="hangs at 1199"),
        pytest.param(replace(POST, bottom=1200), 950, 2000, 1, id="hangs at 1200"),
    ],
)
def test_line(thing, x, y, level):
    """A strip 600 wide is free beside what stands there, or it is low or hangs."""
    s = scenario(WIDE, SOFA, SCREEN, SHELF, thing, only="view-line")
    places = at(SOFA, 0, 0, "up"), at(SCREEN, 300, 3000), at(SHELF, 7000, 5000), at(thing, x, y)
    assert levels(s, "view-line", *places) == [level]


# The screen's middle at (2400, 3000): its 80 % begin at 2400 - 560 = 1840, the sofa's 60 %
# end at 1600, so the box round both middles counts: x 700 to 2700, y 900 to 3000.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(400, 2000, 1, id="left of the box"),
        pytest.param(401, 2000, 0, id="1 mm in it"),
        pytest.param(2700, 2000, 1, id="right of it"),
        pytest.param(2699, 2000, 0, id="1 mm in it on the right"),
        pytest.param(2000, 600, 1, id="beside the sofa, just not before it"),
    ],
)
def test_line_to_what_is_aside(x, y, level):
    """No straight strip lies before both: the box from middle to middle is free."""
    s = scenario(WIDE, SOFA, SCREEN, LAMP, only="view-line")
    places = at(SOFA, 0, 0, "up"), at(SCREEN, 1700, 3000), at(LAMP, x, y)
    assert levels(s, "view-line", *places) == [level]


@pytest.mark.parametrize(("facing", "y"), [("up", 3000), ("left", 3000)])
def test_no_line_where_they_do_not_look_at_each_other(facing, y):
    """A fault of first rank, in words of its own."""
    s = scenario(WIDE, SOFA, SCREEN, LAMP, only="view-line")
    places = at(SOFA, 0, 0, "up"), at(SCREEN, 300, y, facing), at(LAMP, 7000, 0)
    assert levels(s, "view-line", *places) == [0]
    (said,) = sentences(s, "view-line", *places)
    assert said == "The sofa cannot look straight at the screen"
    assert [share.claim.faults(0) for share in shares(s)] == [1]


@pytest.mark.parametrize(
    ("x", "said"),
    [
        (1039, "The lamp stands between the sofa and the screen"),
        (1040, "The sofa has a clear view of the screen"),
    ],
)
def test_line_says_what_stands_in_it(x, said):
    """The first thing in the box from middle to middle."""
    s = scenario(WIDE, SOFA, SCREEN, LAMP)
    places = at(SOFA, 0, 0, "up"), at(SCREEN, 300, 3000), at(LAMP, x, 1500)
    assert sentences(s, "view-line", *places) == [said]


@pytest.mark.parametrize(("x", "level"), [(3260, 1), (3261, 0)])
def test_line_past_a_corner(x, level):
    """Two halves of a room, open to each other up to x 4000.

    The sofa's middle 60 % begin at x 3400, the screen's 80 % at x + 140: from 3400 the
    strip of 600 ends at the corner.
    """
    left, right = ((0, 0), (0, 6000)), ((8000, 6000), (8000, 3500))
    plan = room((*left, *right, (4000, 3500), (4000, 2500), (8000, 2500), (8000, 0)))
    s = scenario(plan, SOFA, SCREEN, only="view-line")
    assert levels(s, "view-line", at(SOFA, 3000, 0, "up"), at(SCREEN, x, 4000)) == [level]


@pytest.mark.parametrize(("y", "level"), [(1430, 1), (1431, 0), (2269, 0), (2270, 1)])
def test_line_to_a_fire(y, level):
    """A narrow sofa at the fire: 60 % of its front are 540, y 1730 to 2270."""
    s = scenario(room(fixtures=[HEARTH]), SEAT, LAMP, only="view-line")
    places = at(SEAT, 1700, 1550, "right"), at(LAMP, 3400, y)
    assert levels(s, "view-line", *places) == [level]


def test_no_line_from_a_bed():
    """In a bedroom the screen is for the bed, and little stands before its foot."""
    s = scenario(WIDE, BED, SCREEN, CHAIR, LAMP)
    places = at(BED, 0, 0, "up"), at(SCREEN, 0, 4000), at(CHAIR, 5000, 0), at(LAMP, 600, 3000)
    assert levels(s, "view-line", *places) == []
