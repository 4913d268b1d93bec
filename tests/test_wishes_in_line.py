"""Wishes about how things sit: on axes, like with like, in their places.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    SLANTED,
    TOP,
    at,
    door,
    levels,
    on_wall,
    piece,
    room,
    says,
    scenario,
    sentences,
    window,
)

from arrange.data.piece import Slot
from arrange.data.room import Fixture
from arrange.rules import RULES

SOFA = piece("sofa", 2000, 900, 850, roles={"seat", "sofa"})
FREE = replace(SOFA, stands="free")
SCREEN = piece("screen", 1400, 400, 500, roles={"screen"})
WARDROBE = piece("wardrobe", 1000, 600, 2000, roles={"store", "tall"})
DOUBLE = piece("bed", 1500, 2000, 500, roles={"sleep", "bed", "for two"})
SINGLE = piece("bed", 900, 2000, 500, roles={"sleep", "bed"})


# The left wall is 4000 long: the middle of 2000 starts at 1000. The window is in the top
# wall (5000) from 600 to 1800, middle 1200; the stretch beside it from 1800 to 5000.
@pytest.mark.parametrize(
    ("wall", "offset", "level"),
    [
        pytest.param(LEFT, 989, 0, id="11 short of the middle"),
        pytest.param(LEFT, 990, 3, id="10 short"),
        pytest.param(LEFT, 1010, 3, id="10 past"),
        pytest.param(LEFT, 1011, 0, id="11 past"),
        pytest.param(LEFT, 0, 2, id="in the corner"),
        pytest.param(LEFT, 10, 2, id="10 off the corner"),
        pytest.param(LEFT, 11, 0, id="11 off the corner"),
        pytest.param(LEFT, 2000, 2, id="in the other corner"),
        pytest.param(TOP, 190, 3, id="10 short of the window's middle: 200"),
        pytest.param(TOP, 189, 0, id="11 short of it"),
        pytest.param(TOP, 1500, 3, id="in the middle of the top wall: (5000 - 2000) / 2"),
        pytest.param(TOP, 2400, 3, id="in the middle of the free stretch: 1800 + 3200 / 2 - 1000"),
        pytest.param(TOP, 600, 2, id="flush with the window's left edge"),
        pytest.param(TOP, 1800, 2, id="beside the window, flush with its edge"),
        pytest.param(TOP, 2800, 0, id="nowhere"),
    ],
)
def test_on_an_axis_of_the_wall(wall, offset, level):
    """The middle of the wall, of its window or of the stretch beside it; flush is less."""
    plan = room(windows=[window(TOP, 600)])
    s = scenario(plan, SOFA, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SOFA, wall, offset)) == [level]


def test_on_the_axis_of_two_windows():
    """From 600 to 1200 and from 3000 to 3600: their middle is 2100, so 2000 start at 1100."""
    pair = [window(TOP, 600, 600, name="one"), window(TOP, 3000, 600, name="two")]
    plan = room(windows=pair)
    s = scenario(plan, SOFA, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SOFA, TOP, 1100)) == [3]
    assert levels(s, "on-axis", on_wall(plan, SOFA, TOP, 1140)) == [0]


@pytest.mark.parametrize(("offset", "level"), [(200, 0), (201, 3), (220, 3), (221, 0)])
def test_on_the_axis_of_a_slanted_wall(offset, level):
    """1414 long, its middle 707; a width of 993 is centred at 210.5, so from 201 to 220."""
    small = piece("sofa", 993, 100, 850, roles={"seat", "sofa"})
    plan = room(SLANTED)
    s = scenario(plan, small, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, small, 2, offset)) == [level]


# The sofa on the left wall looks right; it starts at y 1000 (the middle of the wall): y 1000
# to 3000, middle 2000. The right wall runs down: the screen's middle is at 4000 - offset - 700.
@pytest.mark.parametrize(
    ("sofa", "screen", "expected"),
    [
        pytest.param(1000, 1300, [3, 3], id="both in the middle"),
        pytest.param(500, 1800, [3, 3], id="on each other's axis: 1500 and 4000 - 2500"),
        pytest.param(500, 1790, [3, 3], id="10 off it"),
        pytest.param(500, 1789, [0, 0], id="11 off it"),
        pytest.param(1000, 1500, [2, 0], id="only on its wall's axis, not the screen's"),
        pytest.param(0, 1300, [2, 2], id="in the corner, and on the wall's axis"),
        # The screen from y 0 to 1400, the sofa from 1200 or 1201 to 3200 or 3201.
        pytest.param(1200, 2600, [0, 2], id="opposite by 200"),
        pytest.param(1201, 2600, [0, 2], id="no longer opposite"),
        pytest.param(2000, 2600, [2, 2], id="in two corners, not opposite"),
    ],
)
def test_what_it_looks_at_comes_first(sofa, screen, expected):
    """On the axis of the screen, else on that of the wall."""
    plan = room()
    s = scenario(plan, SOFA, SCREEN, only="on-axis")
    places = on_wall(plan, SOFA, LEFT, sofa), on_wall(plan, SCREEN, RIGHT, screen)
    assert levels(s, "on-axis", *places) == expected


def test_a_piece_opposite_nothing_has_the_axis_of_its_wall():
    """The sofa in the middle of a long wall, with the screen beyond its end."""
    plan = room(((0, 0), (0, 8000), (5000, 8000), (5000, 0)))
    s = scenario(plan, SOFA, SCREEN, only="on-axis")
    # Sofa at y 3000 to 5000; the screen from 8000 - 1400 - offset: 4800, then 4801.
    for offset, level in ((1800, 2), (1799, 3)):
        places = on_wall(plan, SOFA, LEFT, 3000), on_wall(plan, SCREEN, RIGHT, offset)
        assert levels(s, "on-axis", *places)[0] == level


def test_a_free_sofa_has_the_axis_of_what_it_looks_at():
    """Facing up at x 1500 to 3500, the screen at the top wall; back to it there is no axis."""
    plan = room()
    s = scenario(plan, FREE, SCREEN, only="on-axis")
    screen = on_wall(plan, SCREEN, TOP, 1800)
    assert levels(s, "on-axis", at(FREE, 1500, 500, "up"), screen) == [3, 3]
    assert levels(s, "on-axis", at(FREE, 1450, 500, "up"), screen) == [0, 2]
    assert levels(s, "on-axis", at(FREE, 1500, 500, "down"), screen) == [0, 3]


def test_a_fire_comes_before_the_screen():
    """A fireplace on the right wall, y 1500 to 2500; the sofa's middle at 2000 or 1700."""
    corners = ((4700, 1500), (4700, 2500), (5000, 2500), (5000, 1500))
    hearth = Fixture("fireplace", "fireplace", corners, RIGHT, 1500, 1000, 300, 0, 1100)
    s = scenario(room(fixtures=[hearth]), FREE, SCREEN, only="on-axis")
    screen = on_wall(s.room, SCREEN, RIGHT, 2600)  # y 0 to 1400, middle 700
    assert levels(s, "on-axis", at(FREE, 500, 1000, "right"), screen) == [3, 2]
    assert levels(s, "on-axis", at(FREE, 500, 1020, "right"), screen) == [0, 2]
    # On the axis of the screen (700), not opposite the fire: y -300 is out of the room, so
    # a screen from 100 to 1500, its middle 800, and a sofa of 1600 from 0 to 1600.
    short = replace(FREE, width=1600)
    s = scenario(s.room, short, SCREEN, only="on-axis")
    screen = on_wall(s.room, SCREEN, RIGHT, 2500)
    assert levels(s, "on-axis", at(short, 500, 0, "right"), screen) == [3, 3]


def test_a_chimney_breast_is_faced_like_a_fire():
    """A breast from x 2000 to 3000 in the top wall; the sofa on the bottom wall."""
    jutting = ((2000, 4000), (2000, 3700), (3000, 3700), (3000, 4000))
    plan = room(((0, 0), (0, 4000), *jutting, (5000, 4000), (5000, 0)))
    s = scenario(plan, SOFA, only="on-axis")
    bottom = len(plan.walls) - 1
    assert levels(s, "on-axis", on_wall(plan, SOFA, bottom, 1500)) == [3]
    assert levels(s, "on-axis", on_wall(plan, SOFA, bottom, 1400)) == [0]
    places = (on_wall(plan, SOFA, bottom, 1400),)
    assert says(s, "on-axis", places, "sofa", "100 mm off the middle")


def test_flush_with_a_neighbour_on_the_same_wall():
    """The wardrobe from 0 to 1000 on the left wall, the bed up to 10 after it."""
    plan = room()
    s = scenario(plan, DOUBLE, WARDROBE, only="on-axis")
    beside = on_wall(plan, WARDROBE, LEFT, 0)
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, LEFT, 1010), beside) == [2]
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, LEFT, 1011), beside) == [0]
    # On the top wall from 600, its side along the wardrobe's front, which is no neighbour.
    corner = on_wall(plan, WARDROBE, LEFT, 3000)
    assert levels(s, "on-axis", on_wall(plan, DOUBLE, TOP, 605), corner) == [0]
    near = on_wall(plan, DOUBLE, LEFT, 1010), beside
    assert says(s, "on-axis", near, "bed", "beside", "wardrobe")


@pytest.mark.parametrize(("offset", "level"), [(0, 1), (1550, 1), (300, 0)])
def test_a_bed_for_one_is_as_good_in_a_corner(offset, level):
    """One level: on the axis or flush."""
    plan = room()
    s = scenario(plan, SINGLE, only="on-axis")
    assert levels(s, "on-axis", on_wall(plan, SINGLE, LEFT, offset)) == [level]


def test_a_sideboard_has_the_axis_of_the_table_before_it():
    """The table's middle at y 1500; the sideboard 1600 wide starts 700 up the left wall."""
    board = piece("board", 1600, 450, 800, kind="sideboard", roles={"store"})
    table = piece("table", 1400, 800, 740, stands="free", roles={"dine", "table"})
    plan = room()
    s = scenario(plan, board, table, only="on-axis")
    spot = at(table, 2000, 1100)
    assert levels(s, "on-axis", on_wall(plan, board, LEFT, 700), spot) == [3]
    assert levels(s, "on-axis", on_wall(plan, board, LEFT, 1200), spot) == [2]


def test_on_axis_says_how_far_off():
    """The nearest axis of the wall and the distance to it."""
    plan = room(windows=[window(TOP, 600)], doors=[door(BOTTOM)])
    s = scenario(plan, SOFA)
    assert sentences(s, "on-axis", on_wall(plan, SOFA, TOP, 300)) == [
        "The sofa is 100 mm off the middle of the window"
    ]
    # What earns a part only says what is lacking.
    assert sentences(s, "on-axis", on_wall(plan, SOFA, TOP, 0)) == [
        "The sofa is in the corner, not centred on the window"
    ]


SHELVES = [
    piece(f"shelf {i}", wide, 300, 2000, kind="shelf", roles={"store"})
    for i, wide in ((1, 800), (2, 600))
]


# The left wall runs up. Shelf 1 is 800 wide, shelf 2 600: with shelf 1 from 1000, shelf 2 comes
# at 1800 or at 400; the middles of a pair 4000 apart in sum mirror the middle of the wall.
@pytest.mark.parametrize(
    ("first", "second", "level"),
    [
        pytest.param(1000, 1800, 1, id="touching"),
        pytest.param(1000, 1810, 1, id="10 apart"),
        pytest.param(1000, 1811, 0, id="11 apart"),
        pytest.param(1000, 400, 1, id="touching on the other side"),
        pytest.param(1000, 390, 1, id="10 apart there"),
        pytest.param(1000, 389, 0, id="11 apart there"),
        # Middles 700 and 3300: 1300 off the middle of the wall, which is at 2000.
        pytest.param(300, 3000, 1, id="equally far from the middle of the wall"),
        pytest.param(300, 3020, 1, id="20 less equal"),
        pytest.param(300, 3021, 0, id="21 less equal"),
    ],
)
def test_like_pieces_on_one_wall(first, second, level):
    """Side by side within 10, or mirrored within 20."""
    plan = room()
    s = scenario(plan, *SHELVES, only="like-with-like")
    places = [on_wall(plan, p, LEFT, o) for p, o in zip(SHELVES, (first, second), strict=True)]
    assert levels(s, "like-with-like", *places) == [level]


@pytest.mark.parametrize(
    ("bed", "first", "level"),
    [
        # The bed from 2000 to 3500, its middle 2750; shelf 2 from 4000 to 4600, middle 4300.
        pytest.param(2000, 800, 1, id="middles 1550 to the left and the right"),
        pytest.param(2000, 821, 0, id="21 nearer"),
        pytest.param(2000, 820, 1, id="20 nearer"),
        pytest.param(1900, 800, 0, id="the bed has moved"),
    ],
)
def test_like_pieces_left_and_right_of_a_bed(bed, first, level):
    """On the top wall, 5000 long."""
    plan = room()
    s = scenario(plan, *SHELVES, DOUBLE, only="like-with-like")
    places = [on_wall(plan, p, TOP, o) for p, o in zip(SHELVES, (first, 4000), strict=True)]
    assert levels(s, "like-with-like", *places, on_wall(plan, DOUBLE, TOP, bed)) == [level]


def test_like_pieces_face_to_face():
    """Chairs turned to each other 1000 to the left and right of a sofa's middle."""
    chairs = [
        piece(f"chair {i}", 800, 800, 900, kind="chair", stands="free", roles={"seat", "lounge"})
        for i in (1, 2)
    ]
    s = scenario(room(), FREE, *chairs, only="like-with-like")
    sofa = at(FREE, 1000, 0, "up")
    for x, y, facing, level in (
        (2700, 1500, "left", 1),
        (2700, 1520, "left", 1),
        (2700, 1521, "left", 0),
        (2721, 1500, "left", 0),
        (2700, 1500, "right", 0),
        (2700, 1500, "up", 0),
    ):
        places = at(chairs[0], 500, 1500, "right"), at(chairs[1], x, y, facing), sofa
        assert levels(s, "like-with-like", *places) == [level], (x, y, facing)
    # Next to one another, both facing down: in line within 10, 10 apart at most.
    for x, y, level in ((1310, 1500, 1), (1311, 1500, 0), (1310, 1510, 1), (1310, 1511, 0)):
        places = at(chairs[0], 500, 1500, "down"), at(chairs[1], x, y, "down"), sofa
        assert levels(s, "like-with-like", *places) == [level], (x, y)


def test_each_of_three_has_a_mate():
    """Two touch; the third stands by itself, or touches them."""
    plan = room()
    three = [replace(SHELVES[0], name=f"shelf {i}") for i in (1, 2, 3)]
    s = scenario(plan, *three, only="like-with-like")
    for offset, level in ((1600, 1), (2500, 0)):
        places = [on_wall(plan, p, LEFT, o) for p, o in zip(three, (0, 800, offset), strict=True)]
        assert levels(s, "like-with-like", *places) == [level]
    assert says(s, "like-with-like", places, "Shelf 3", "neither stands beside", "nor")


def test_what_is_not_of_one_height_is_no_set():
    """Nor are chairs at a table, or plants."""
    low = replace(SHELVES[1], height=900)
    plants = [piece(f"plant {i}", 400, 400, 1200, kind="plant", roles={"plant"}) for i in (1, 2)]
    plan = room()
    s = scenario(plan, SHELVES[0], low, *plants, only="like-with-like")
    offsets = zip((SHELVES[0], low, *plants), (0, 1000, 2000, 3000), strict=True)
    assert levels(s, "like-with-like", *[on_wall(plan, p, LEFT, o) for p, o in offsets]) == []


TABLE = piece("table", 1800, 900, 740, stands="free", roles={"dine", "table"})


def light(x, y, name="light"):
    """A point of the ceiling, 20 across."""
    corners = ((x - 10, y - 10), (x - 10, y + 10), (x + 10, y + 10), (x + 10, y - 10))
    return Fixture(name, "light point", corners, None, bottom=2400, top=2500, solid=False)


# The plain room's middle is (2500, 2000), and so the table's corner (1600, 1550) in it. A fifth
# of its sides is 1000 across and 800 up.
@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1600, 1550, "down", 3, id="in the middle"),
        pytest.param(1700, 1450, "down", 3, id="100 off both ways"),
        pytest.param(1701, 1550, "down", 2, id="101 off across"),
        pytest.param(1600, 1651, "down", 2, id="101 off up"),
        pytest.param(2600, 1550, "down", 2, id="a fifth off across"),
        pytest.param(2601, 1550, "down", 0, id="more across"),
        pytest.param(1600, 2351, "down", 0, id="more up"),
        pytest.param(2050, 1100, "left", 0, id="in the middle, but across the room"),
    ],
)
def test_a_table_in_the_middle_of_a_dining_room(x, y, facing, level):
    """A room for eating alone, without a light."""
    s = scenario(room(), TABLE, only="table-placed")
    assert levels(s, "table-placed", at(TABLE, x, y, facing)) == [level]


@pytest.mark.parametrize("stands", ["free", "anywhere"])
def test_a_table_that_need_not_stand_at_a_wall_is_asked(stands):
    """In the middle and 101 off; of one that needs a wall nothing is asked."""
    table = replace(TABLE, stands=stands)
    s = scenario(room(), table, only="table-placed")
    assert levels(s, "table-placed", at(table, 1600, 1550)) == [3]
    assert levels(s, "table-placed", at(table, 1701, 1550)) == [2]
    bound = replace(TABLE, stands="wall")
    s = scenario(room(), bound, only="table-placed")
    assert levels(s, "table-placed", on_wall(s.room, bound, TOP, 0)) == []


@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        (600, 1050, 3),
        (700, 1050, 3),
        (701, 1050, 2),
        (900, 750, 2),
        (901, 1050, 0),
        (1600, 1550, 0),
        # Under the second light, at (3500, 3000).
        (2600, 2550, 3),
    ],
)
def test_a_table_under_a_light(x, y, level):
    """The lights at (1500, 1500) and (3500, 3000); its corner 900 and 450 before one's middle."""
    plan = room(fixtures=[light(1500, 1500), light(3500, 3000, "lamp")])
    s = scenario(plan, TABLE, only="table-placed")
    assert levels(s, "table-placed", at(TABLE, x, y, "down")) == [level]


def test_a_light_is_the_tables_own_where_there_are_two():
    """With a sofa in the room and one light, the table goes by a middle line."""
    one = scenario(room(fixtures=[light(1500, 1500)]), TABLE, SOFA, only="table-placed")
    sofa = on_wall(one.room, SOFA, TOP, 1500)
    under, in_line = at(TABLE, 600, 1050, "down"), at(TABLE, 1600, 1050, "down")
    assert levels(one, "table-placed", under, sofa) == [0]
    assert levels(one, "table-placed", in_line, sofa) == [3]
    two = scenario(
        room(fixtures=[light(1500, 1500), light(3500, 3000, "lamp")]),
        *(TABLE, SOFA),
        only="table-placed",
    )
    assert levels(two, "table-placed", under, sofa) == [3]
    assert levels(two, "table-placed", in_line, sofa) == [0]
    places = at(TABLE, 950, 1050, "down"), sofa
    assert says(two, "table-placed", places, "350 mm from the light", "hook")


def test_one_easy_chair_does_not_take_the_light_from_the_table():
    """A spare chair in a room for eating; with a second one people sit there as well."""
    plan = room(fixtures=[light(1500, 1500)])
    easy = {"stands": "free", "roles": {"seat", "lounge"}}
    chair, second = piece("armchair", 850, 900, 900, **easy), piece("other", 850, 900, 900, **easy)
    under, in_line = at(TABLE, 600, 1050, "down"), at(TABLE, 1600, 1050, "down")
    aside = at(chair, 4000, 100, "up"), at(second, 4000, 3000, "down")
    one = scenario(plan, TABLE, chair, only="table-placed")
    assert levels(one, "table-placed", under, aside[0]) == [3]
    assert levels(one, "table-placed", in_line, aside[0]) == [0]
    two = scenario(plan, TABLE, chair, second, only="table-placed")
    assert levels(two, "table-placed", in_line, *aside) == [3]


# The rug is 2400 by 1600, the bed 1500 wide and 2000 long with its head on the top wall: y 2000 to
# 4000. 30 % of 1600 are 480, of 2400 720: the rug below y 1520, or past an end of the bed.
@pytest.mark.parametrize(
    ("bed_x", "x", "y", "level"),
    [
        pytest.param(1000, 500, 1520, 1, id="480 of it before the foot"),
        pytest.param(1000, 500, 1521, 0, id="479"),
        pytest.param(1000, 1000, 2200, 1, id="900 of it beside the bed"),
        pytest.param(1000, 820, 2200, 1, id="720 beside the bed"),
        pytest.param(1000, 819, 2200, 0, id="719"),
        pytest.param(1000, 550, 2200, 0, id="450 on either side"),
    ],
)
def test_a_rug_is_not_lost_under_a_bed(bed_x, x, y, level):
    """One strip of 30 %, from edge to edge; in a room without a bed nothing is asked."""
    bed = piece("bed", 1500, 2000, 500, roles={"bed", "for two"}, stands="free")
    s = scenario(room(), bed, RUG, only="rug-placed")
    places = at(bed, bed_x, 2000, "down"), at(RUG, x, y)
    assert levels(s, "rug-placed", *places) == [level]
    if not level:
        assert says(s, "rug-placed", places, "rug", "hardly shows")
    assert levels(scenario(room(), RUG, only="rug-placed"), "rug-placed", places[1]) == []


def test_a_table_on_a_middle_line_of_a_part_of_the_room():
    """An L: 3000 x 6000 upright and 6000 x 3000 lying, with a sofa besides.

    The middle line of the upright part is x 1500, that of the lying one y 1500.
    """
    plan = room(((0, 0), (0, 6000), (3000, 6000), (3000, 3000), (6000, 3000), (6000, 0)))
    s = scenario(plan, TABLE, SOFA, only="table-placed")
    sofa = on_wall(plan, SOFA, BOTTOM + 2, 3500)  # the bottom wall, at x 500 to 2500
    for x, y, level in (
        (600, 4500, 3),
        (701, 4500, 2),
        (901, 4500, 0),
        (4000, 1050, 3),
        (4000, 1250, 2),
        (4000, 1600, 0),
    ):
        assert levels(s, "table-placed", at(TABLE, x, y, "down"), sofa) == [level], (x, y)


def test_what_table_is_asked():
    """Not one for two, one with a bench or one in a room for all."""
    seats = [
        piece(f"seat {i}", 450, 500, anchor="table", slots=(slot,), roles={"seat", "dining seat"})
        for i, slot in enumerate((Slot("front", gap=20), Slot("back", gap=20)))
    ]
    bench = replace(seats[0], roles=frozenset({"seat", "bench", "dining seat"}))
    third = replace(seats[0], name="seat 3", slots=(Slot("left", gap=20),))
    rule = next(r for r in RULES if r.id == "table-placed")

    def asked(*pieces):
        return len(rule.claims(scenario(room(), *pieces)))

    assert asked(TABLE) == asked(TABLE, *seats, third) == 1
    assert asked(TABLE, *seats) == asked(TABLE, *seats[1:], third, bench) == 0
    assert asked(TABLE, SOFA, DOUBLE) == 0
    assert asked(replace(TABLE, stands="wall")) == 0


RUG = piece("rug", 2400, 1600, 15, stands="free", flat=True, roles={"rug"})
DESK = piece("desk", 1200, 600, 740, stands="free", roles={"desk"})


# The sofa faces up at x 1500 to 3500 and y 0 to 900, its middle at x 2500. The rug, 2400 across
# and 1600 up, begins at y 900 - 250 and at x 2500 - 1200.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1300, 650, 2, id="250 of the seat on it, in the middle"),
        pytest.param(1300, 800, 2, id="100 of it"),
        pytest.param(1300, 801, 1, id="99 of it"),
        pytest.param(1300, 500, 2, id="400 of it"),
        pytest.param(1300, 499, 1, id="401 of it"),
        pytest.param(1400, 650, 2, id="100 off the middle"),
        pytest.param(1401, 650, 1, id="101 off the middle"),
        pytest.param(0, 2000, 0, id="elsewhere"),
    ],
)
def test_the_rug_of_a_seat(x, y, level):
    """Its edge under the front of the seat, its middle straight before it."""
    s = scenario(room(), FREE, RUG, only="rug-placed")
    assert levels(s, "rug-placed", at(FREE, 1500, 0, "up"), at(RUG, x, y)) == [level]


# The sofa is an L of 2400 by 1700 that faces up at x 1000 to 3400 and y 0 to 1700, its back part
# 950 deep. The rug, 2400 across, lies straight before it.
@pytest.mark.parametrize(
    ("y", "level"),
    [
        pytest.param(700, 2, id="250 of the back part on it, as the usual place has it"),
        pytest.param(850, 2, id="100 of it"),
        pytest.param(851, 1, id="99 of it"),
        pytest.param(550, 2, id="400 of it"),
        pytest.param(549, 1, id="401 of it"),
        pytest.param(1450, 1, id="250 of the arm, and nothing of the back part"),
    ],
)
def test_the_rug_of_a_corner_sofa(y, level):
    """What counts is the part along the back, not the end of the arm."""
    ell = {"shape": "L", "arm_width": 950, "back_depth": 950, "roles": {"seat", "sofa"}}
    sofa = piece("sofa", 2400, 1700, 850, stands="free", **ell)
    s = scenario(room(), sofa, RUG, only="rug-placed")
    assert levels(s, "rug-placed", at(sofa, 1000, 0, "up"), at(RUG, 1000, y)) == [level]


# The rug lies at x 0 to 2400 and y 0 to 1600.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1200, 1000, 1, id="all legs on it"),
        pytest.param(1201, 1000, 0, id="an edge off it"),
        pytest.param(2399, 0, 0, id="a leg on it"),
        pytest.param(2400, 0, 1, id="off it"),
        pytest.param(0, 1600, 1, id="off it, up"),
    ],
)
def test_a_table_stands_on_a_rug_or_off_it(x, y, level):
    """With all its legs or with none."""
    s = scenario(room(), DESK, RUG, only="rug-placed")
    assert levels(s, "rug-placed", at(DESK, x, y), at(RUG, 0, 0)) == [level]


@pytest.mark.parametrize(("y", "level"), [(800, 1), (799, 0)])
def test_a_rug_lies_out_of_the_leaf(y, level):
    """The door, 800 wide, opens in from the bottom wall at x 4000 to 4800."""
    s = scenario(room(doors=[door()]), RUG, only="rug-placed")
    assert levels(s, "rug-placed", at(RUG, 2600, y)) == [level]
    out = scenario(room(doors=[door(opens="out")]), RUG, only="rug-placed")
    assert levels(out, "rug-placed", at(RUG, 2600, y)) == []


@pytest.mark.parametrize("use", ["play", "exercise"])
@pytest.mark.parametrize(("y", "level"), [(800, 1), (799, 0)])
def test_of_a_mat_only_the_doors_are_asked(use, y, level):
    """The leaf sweeps y 0 to 800; a rug would be asked to lie under the sofa, too."""
    mat = replace(RUG, roles=frozenset({"rug", use}))
    s = scenario(room(doors=[door()]), mat, FREE, only="rug-placed")
    assert levels(s, "rug-placed", at(mat, 2600, y), at(FREE, 0, 2500, "up")) == [level]


@pytest.mark.parametrize(
    ("x", "y", "facing", "level"),
    [
        pytest.param(1000, 200, "down", 1, id="all of it on the rug"),
        pytest.param(2000, 200, "down", 0, id="one end on it: to 3000, the rug to 2400"),
        pytest.param(2400, 200, "down", 1, id="off it"),
    ],
)
def test_something_tall_stands_on_a_rug_or_off_it(x, y, facing, level):
    """A wardrobe rocks with one end on a rug, which lies at x 0 to 2400, y 0 to 1600."""
    tall = piece("wardrobe", 1000, 600, 2000, stands="anywhere", roles={"store"})
    s = scenario(room(), tall, RUG, only="rug-placed")
    assert levels(s, "rug-placed", at(tall, x, y, facing), at(RUG, 0, 0)) == [level]


@pytest.mark.parametrize(("y", "level"), [(800, 1), (799, 0)])
def test_a_mat_to_play_on_lies_out_of_the_leaf(y, level):
    """A child plays there: nobody opens the door, 800 wide, on it."""
    mat = replace(RUG, name="mat", roles=frozenset({"rug", "play"}))
    s = scenario(room(doors=[door()]), mat, only="rug-placed")
    assert levels(s, "rug-placed", at(mat, 2600, y)) == [level]
    assert says(s, "rug-placed", [at(mat, 2600, 0)], "mat", "the door swings over")


def test_a_rug_too_small_for_its_table_is_no_fault():
    """It reaches 300 past the ends of the table; the desk is off it."""
    under = replace(RUG, anchor="table", slots=(Slot("under", gap=-350),))
    s = scenario(room(), TABLE, under, DESK, only="rug-placed")
    places = at(TABLE, 600, 1000), at(DESK, 3600, 3000), at(under, 300, 650)
    assert levels(s, "rug-placed", *places) == [1]
    assert says(s, "rug-placed", places, "rug", "too small", "600 mm past the table")
    wrong = at(TABLE, 600, 1000), at(DESK, 2500, 1000), at(under, 300, 650)
    assert says(s, "rug-placed", wrong, "rug", "some legs of the desk")


def test_a_mat_to_play_on_is_no_rug():
    """Nor has a second free rug a seat to lie before."""
    mat = replace(RUG, name="mat", roles=frozenset({"rug", "play"}))
    s = scenario(room(), FREE, mat)
    assert levels(s, "rug-placed", at(FREE, 1500, 0, "up"), at(mat, 1300, 2000)) == []
    small = replace(RUG, name="small rug", width=1000)
    s = scenario(room(), FREE, RUG, small, only="rug-placed")
    places = at(FREE, 1500, 0, "up"), at(RUG, 1300, 650), at(small, 0, 3000 - 600)
    assert levels(s, "rug-placed", *places) == [2]
