"""Wishes about the room as a whole: together, centred, balanced, open, with power.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    TOP,
    at,
    door,
    levels,
    piece,
    room,
    says,
    scenario,
    socket,
    window,
)

from arrange.data.piece import Slot
from arrange.data.room import Fixture
from arrange.rules import RULES

SHELF = piece("shelf", 800, 300, 2000, stands="free", goes_with=("desk",))
DESK = piece("desk", 1400, 700, 740, stands="free", goes_with=("shelf",))


# The desk lies at (0, 0), 1400 x 700; the shelf's gap across is x - 1400.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1400 + 600, 0, 3, id="600 apart"),
        pytest.param(1400 + 601, 0, 2, id="601"),
        pytest.param(1400 + 1500, 0, 2, id="1500"),
        pytest.param(1400 + 1501, 0, 1, id="1501"),
        pytest.param(1400 + 2500, 0, 1, id="2500"),
        pytest.param(1400 + 2501, 0, 0, id="2501"),
        pytest.param(0, 700 + 601, 2, id="601 up"),
    ],
)
def test_used_together(x, y, level):
    """One claim for the pair, though both name each other."""
    s = scenario(room(), DESK, SHELF, only="used-together")
    assert levels(s, "used-together", at(DESK, 0, 0), at(SHELF, x, y)) == [level]


@pytest.mark.parametrize(("x", "level"), [(0, 1), (3500, 1), (4000, 1), (4001, 0)])
def test_books_are_fetched_from_four_metres(x, level):
    """One level up to 4000, a third of the weight of another pair."""
    books, chest = replace(SHELF, roles=frozenset({"books"})), replace(SHELF, name="chest")
    wide = room(((0, 0), (0, 4000), (9000, 4000), (9000, 0)))
    s = scenario(wide, DESK, books, only="used-together")
    assert levels(s, "used-together", at(DESK, 0, 0), at(books, 1400 + x, 0)) == [level]
    rule = next(r for r in RULES if r.id == "used-together")
    (light,), (heavy,) = (rule.claims(scenario(wide, DESK, p)) for p in (books, chest))
    assert 3 * light.weight == heavy.weight


def test_used_together_takes_the_nearest():
    """One desk and two alike shelves, the second 100 away."""
    shelves = [piece(f"shelf {i}", 800, 300, 2000, stands="free", kind="shelf") for i in (1, 2)]
    s = scenario(room(), DESK, *shelves, only="used-together")
    places = at(DESK, 0, 0), at(shelves[0], 4000, 3500), at(shelves[1], 1500, 0)
    assert levels(s, "used-together", *places) == [3]
    assert says(s, "used-together", places, "desk", "100 mm", "shelf 2")


def test_used_together_asks_each_of_two_alike_pieces():
    """Two shelves, each larger than the desk: a claim each, with the same points."""
    shelves = [
        piece(f"shelf {i}", 3500, 300, 2000, stands="free", kind="shelf", goes_with=("desk",))
        for i in (1, 2)
    ]
    s = scenario(room(), *shelves, DESK, only="used-together")
    places = at(shelves[0], 0, 3700), at(shelves[1], 1500, 0), at(DESK, 0, 0)
    assert levels(s, "used-together", *places) == [0, 3]


def test_used_together_is_not_for_what_is_tied_or_watched():
    """A tied stool and a screen with its sofa have nothing to earn."""
    stool = piece("stool", 400, 400, anchor="desk", slots=(Slot("front", gap=50),))
    desk = piece("desk", 1400, 700, stands="free", goes_with=("stool",))
    sofa = piece("sofa", 2000, 900, stands="free", roles={"seat"}, goes_with=("screen",))
    screen = piece("screen", 1000, 400, stands="free", roles={"screen"})
    s = scenario(room(), desk, stool, sofa, screen)
    # The stool in front of the desk, which faces down: (1400 - 400) / 2, 1000 - 50 - 400.
    places = at(desk, 0, 1000), at(stool, 500, 550), at(sofa, 2500, 0), at(screen, 2500, 3000)
    assert levels(s, "used-together", *places) == []


@pytest.mark.parametrize(
    ("one", "two", "left"),
    [
        pytest.param({"seat", "sofa"}, {"table", "coffee"}, 0, id="cup in reach"),
        pytest.param({"light"}, {"seat", "lounge"}, 0, id="lamp at seat"),
        pytest.param({"seat", "sofa"}, {"seat", "lounge"}, 0, id="talking distance"),
        pytest.param({"bedside"}, {"bed", "sleep"}, 0, id="in reach"),
        pytest.param({"store"}, {"dine", "table"}, 0, id="serving"),
        pytest.param({"store", "books"}, {"seat", "lounge"}, 1, id="books and a chair"),
        pytest.param({"store", "books"}, {"desk", "table"}, 1, id="books and a desk"),
    ],
)
def test_used_together_leaves_to_other_rules_what_they_say(one, two, left):
    """A pair that another rule measures has nothing to earn here, whichever names the other."""
    a, b = piece("a", roles=one, stands="free"), piece("b", roles=two, stands="free")
    rule = next(r for r in RULES if r.id == "used-together")
    for x, y in ((replace(a, goes_with=("b",)), b), (a, replace(b, goes_with=("a",)))):
        assert len(rule.claims(scenario(room(), x, y))) == left


# Two alike chests of 1000 x 1000 x 1000: 100 units each. The room's middle is (2500, 2000);
# its sides 5000 across and 4000 up. One at x 0 (middle 500), the other at x b (middle
# b + 500): the middle of both is (b + 1000) / 2, off by (b - 4000) / 2.
@pytest.mark.parametrize(
    ("b", "level"),
    [
        pytest.param(4000, 2, id="even"),
        pytest.param(2500, 2, id="750 off: 15 % of 5000"),
        pytest.param(2499, 1, id="just more"),
        pytest.param(1500, 1, id="1250 off: 25 %"),
        pytest.param(1499, 0, id="just more than 25 %"),
    ],
)
def test_balance_across(b, level):
    """The middle of all bulk against the middle of the room."""
    one, two = (piece(n, 1000, 1000, 1000, stands="free") for n in ("one", "two"))
    s = scenario(room(), one, two, only="balance")
    assert levels(s, "balance", at(one, 0, 1500), at(two, b, 1500)) == [level]


def test_balance_up_the_plan_and_by_bulk():
    """200 units against 100: middle of bulk at (2 * 1000 + 3500) / 3 = 1833, 167 low: 4 %."""
    one = piece("one", 1000, 1000, 2000, stands="free")
    two = piece("two", 1000, 1000, 1000, stands="free")
    s = scenario(room(), one, two, only="balance")
    assert levels(s, "balance", at(one, 2000, 500), at(two, 2000, 3000)) == [2]
    # Swapped, (2 * 3500 + 1000) / 3 = 2667 is 667 high: 17 % of 4000.
    assert levels(s, "balance", at(one, 2000, 3000), at(two, 2000, 500)) == [1]
    places = at(one, 2000, 3000), at(two, 2000, 500)
    assert says(s, "balance", places, "667 mm", "top of the plan")


def test_a_bed_in_the_corner_of_a_narrow_room_is_balanced_by_a_wardrobe():
    """The bed's 140 units lie 450 left of the middle of 2700, the wardrobe's 60 lie 350 right.

    (140 * 450 - 60 * 350) / 200 = 210 off, 8 % of 2700; up the plan 1000 up and 1925 down,
    (140 * 1000 - 60 * 1925) / 200 = 123 off, 3 % of 4000.
    """
    bed = piece("bed", 1800, 2000, 389, stands="free")  # 1.4004 m3
    wardrobe = piece("wardrobe", 2000, 150, 2000, stands="free")  # 0.6 m3
    narrow = room(((0, 0), (0, 4000), (2700, 4000), (2700, 0)))
    s = scenario(narrow, bed, wardrobe, only="balance")
    assert levels(s, "balance", at(bed, 0, 2000), at(wardrobe, 700, 0)) == [2]


# A room 4000 across and 3000 up holds squares of 1200, 1500, 1800, 2100, 2400: five levels.
# The door is in the bottom wall, x 1600 to 2400, its leaf 800; a chest 1000 deep along the top.
@pytest.mark.parametrize(
    ("opens", "deep", "level"),
    [
        pytest.param("out", 600, 5, id="2400 below the chest, at the door too"),
        pytest.param("sliding", 600, 5, id="nothing swings"),
        pytest.param("in", 600, 2, id="1600 above the leaf or beside it"),
        pytest.param("in", 400, 3, id="1800 above the leaf"),
        pytest.param("in", 401, 2, id="1799 above the leaf"),
        pytest.param("out", 401, 5, id="2599 below the chest"),
    ],
)
def test_no_door_opens_into_the_clear_floor(opens, deep, level):
    """The square before a door that opens in is not clear floor; touching it is allowed."""
    low = ((0, 0), (0, 3000), (4000, 3000), (4000, 0))
    chest = piece("chest", 4000, deep, 900, stands="free")
    plan = room(low, doors=[door(BOTTOM, 1600, 800, opens=opens)])
    s = scenario(plan, chest, only="clear-floor")
    assert levels(s, "clear-floor", at(chest, 0, 3000 - deep)) == [level]


@pytest.mark.parametrize(("far", "level"), [(497, 3), (498, 2)])
def test_no_door_in_a_slanted_wall_opens_into_the_clear_floor(far, level):
    """A cut corner from (0, 1500) to (1500, 3000), its door 600 wide so far along it.

    A square of 1800 above the chest, x 1200 to 3000, is off the wall. The inner far corner of
    the leaf's floor is at x = (far + 600 + 600) * sqrt(0.5): 1199.96 and 1200.7.
    """
    cut = ((0, 0), (0, 1500), (1500, 3000), (3000, 3000), (3000, 0))
    s = scenario(
        room(cut, doors=[door(1, far, 600)]),
        piece("chest", 3000, 500, 900, stands="free"),
        only="clear-floor",
    )
    assert levels(s, "clear-floor", at(s.pieces[0], 0, 0)) == [level]


LAMP = piece("lamp", 350, 350, 1600, stands="free", roles={"light"})


# A socket of 80 in the bottom wall at its left end: x 4920 to 5000, y 0.
@pytest.mark.parametrize(
    ("x", "level"),
    [
        pytest.param(4920 - 1500 - 350, 2, id="1500 away"),
        pytest.param(4920 - 1501 - 350, 1, id="1501 away"),
        pytest.param(4920 - 3000 - 350, 1, id="3000 away"),
        pytest.param(4920 - 3001 - 350, 0, id="3001 away"),
    ],
)
def test_socket_near_a_lamp(x, level):
    """A cord of 1.5 m earns both levels, an extension of 3 m one."""
    s = scenario(room(fixtures=[socket(BOTTOM, 0)]), LAMP, only="sockets-near")
    assert levels(s, "sockets-near", at(LAMP, x, 0)) == [level]


def test_the_nearest_of_two_sockets_counts():
    """The other one is right at the lamp."""
    sockets = [socket(BOTTOM, 0), socket(LEFT, 0, name="left socket")]
    s = scenario(room(fixtures=sockets), LAMP, only="sockets-near")
    assert levels(s, "sockets-near", at(LAMP, 0, 0)) == [2]
    assert says(s, "sockets-near", [at(LAMP, 0, 0)], "lamp", "right at", "left socket")


# Doors opposite each other: bottom x 4000 to 4800 and top 4000 to 4800. The strip is 600
# wide about x 4400: 4100 to 4700.
@pytest.mark.parametrize(
    ("x", "level"),
    [
        pytest.param(3600, 1, id="ends where the strip begins: 3600 + 500"),
        pytest.param(3601, 0, id="1 mm in the way"),
    ],
)
def test_straight_way_between_doors(x, level):
    """Half way between the doors, a chest 500 x 500."""
    plan = room(doors=[door(), door(TOP, 4000, 800, name="garden door")])
    chest = piece("chest", 500, 500, stands="free")
    s = scenario(plan, chest, only="straight-way")
    assert levels(s, "straight-way", at(chest, x, 1800)) == [level]


def test_straight_way_aslant_to_the_window():
    """From (4400, 0) to (2100, 4000): the middle (3250, 2000) is on it, corners far off not."""
    plan = room(doors=[door()], windows=[window()])
    chest = piece("chest", 200, 200, 1000, stands="free")
    s = scenario(plan, chest, only="straight-way")
    assert levels(s, "straight-way", at(chest, 3150, 1900)) == [0]
    # The strip's edge is 300 off the line; its direction is (-2300, 4000) / 4614, so at
    # y = 2000 it reaches 300 * 4614 / 4000 = 346 across: x 2904 to 3596. A chest right of
    # it meets it with its lower left corner (x, y): free from x = 3597 at y = 2000.
    assert levels(s, "straight-way", at(chest, 3596, 2000)) == [0]
    assert levels(s, "straight-way", at(chest, 3597, 2000)) == [1]
    assert says(s, "straight-way", [at(chest, 3150, 1900)], "chest", "door", "window")


@pytest.mark.parametrize(
    ("height", "level"),
    [
        pytest.param(900, 1, id="as high as the sill"),
        pytest.param(901, 0, id="1 mm higher"),
    ],
)
def test_the_look_to_a_window_goes_over_what_is_low(height, level):
    """On the line of the test above; in the way to another door it would be."""
    chest = piece("chest", 200, 200, height, stands="free")
    sill = {"sill": 900}
    s = scenario(room(doors=[door()], windows=[window(**sill)]), chest, only="straight-way")
    assert levels(s, "straight-way", at(chest, 3150, 1900)) == [level]
    garden = door(TOP, 4000, 800, name="garden door")
    french = window(TOP, 4000, 800, name="garden door", sill=0, french=garden)
    for plan in (room(doors=[door(), garden]), room(doors=[door()], windows=[french])):
        s = scenario(plan, chest, only="straight-way")
        assert levels(s, "straight-way", at(chest, 4300, 1900)) == [0]


@pytest.mark.parametrize(
    ("wall", "offset", "claims"),
    [
        pytest.param(LEFT, 100, 1, id="to (0, 500): 4428"),
        pytest.param(LEFT, 1974, 1, id="to (0, 2374): 4999.6"),
        pytest.param(LEFT, 1975, 0, id="to (0, 2375): 5000.1"),
        pytest.param(TOP, 0, 1, id="to (400, 4000) in the opposite wall: 5657"),
    ],
)
def test_a_straight_way_slantwise_ends_at_five_metres(wall, offset, claims):
    """The main door is in the bottom wall, x 4000 to 4800, its middle at 4400."""
    plan = room(doors=[door(), door(wall, offset, 800, name="far door")])
    chest = piece("chest", 200, 200, stands="free")
    s = scenario(plan, chest, only="straight-way")
    assert len(levels(s, "straight-way", at(chest, 1500, 3000))) == claims


def test_straight_way_needs_a_line_through_the_room():
    """Round the corner of an L, along one wall, or through a column: nothing to earn."""
    chest = piece("chest", 200, 200, stands="free")
    ell = ((0, 0), (0, 4000), (1500, 4000), (1500, 1500), (5000, 1500), (5000, 0))
    around = room(ell, doors=[door(5, 100, 800), door(1, 300, 800, name="far door")])
    same = room(doors=[door()], windows=[window(BOTTOM, 3000)])
    box = ((4000, 1500), (4000, 2000), (4800, 2000), (4800, 1500))
    column = Fixture("column", "column", box, top=2500)
    through = room(doors=[door(), door(TOP, 4000, name="far door")], fixtures=[column])
    for plan in (around, same, through):
        s = scenario(plan, chest)
        assert levels(s, "straight-way", at(chest, 0, 0)) == []


def test_rugs_and_high_shelves_are_in_no_ones_way():
    """Both lie on the strip; neither counts."""
    plan = room(doors=[door(BOTTOM), door(TOP, 4000, 800, name="garden door")])
    rug = piece("rug", 1000, 1000, 15, stands="free", flat=True)
    shelf = piece("shelf", 500, 300, 300, bottom=2100, stands="free")
    s = scenario(plan, rug, shelf, only="straight-way")
    assert levels(s, "straight-way", at(rug, 3900, 1500), at(shelf, 4200, 1500)) == [1]
