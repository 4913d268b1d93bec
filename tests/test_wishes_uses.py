"""Wishes that a room's use brings: dressing, arriving, caring, serving, working.

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
    on_wall,
    piece,
    room,
    scenario,
    sentences,
    window,
)

from arrange.scoring import shares

MIRROR = piece("mirror", 500, 100, 1700, roles={"mirror", "dress"})
WARDROBE = piece("wardrobe", 1000, 600, 2000, stands="free", roles={"store", "clothes", "tall"})
BLOCK = piece("block", 500, 500, stands="free")


def dressing(plan, *placed):
    """The level of the mirror's claim in a bedroom."""
    things, places = zip(*placed, strict=True)
    return levels(scenario(plan, *things, only="dressing", use="bedroom"), "dressing", *places)


# The mirror on the left wall is at x 0 to 100, y 1000 to 1500, and looks right.
@pytest.mark.parametrize(
    ("wardrobe", "block", "window_at", "level"),
    [
        pytest.param(2600, 1000, 100, 3, id="clothes 2500 away, 900 free, light ahead"),
        pytest.param(2601, 1000, 100, 0, id="clothes 2501 away"),
        pytest.param(2600, 999, 100, 1, id="899 to stand on"),
        # Somebody stands at x 1000: the middle of the window no farther than that.
        pytest.param(2600, 1000, 500, 3, id="the window's middle at 1000"),
        pytest.param(2600, 1000, 501, 2, id="at 1001: behind"),
    ],
)
def test_dressing(wardrobe, block, window_at, level):
    """Wardrobe, a block before the mirror and a window 1000 wide in the top wall."""
    plan = room(windows=[window(TOP, window_at, 1000)])
    placed = [(MIRROR, on_wall(plan, MIRROR, LEFT, 1000))]
    placed += [(WARDROBE, at(WARDROBE, wardrobe, 2000)), (BLOCK, at(BLOCK, block, 1200))]
    assert dressing(plan, *placed) == [level]


@pytest.mark.parametrize(("x", "level"), [(3500, 3), (3501, 0)])
def test_clothes_are_near_each_other(x, level):
    """The wardrobe ends at x 1000, a chest begins 2500 from it; the mirror is between them."""
    plan = room(((0, 0), (0, 4000), (6000, 4000), (6000, 0)), windows=[window(TOP, 100, 1000)])
    chest = piece("chest", 800, 450, 900, stands="free", roles={"store", "clothes"})
    mirror = replace(MIRROR, stands="free")
    placed = [(mirror, at(mirror, 1500, 1000, "right")), (WARDROBE, at(WARDROBE, 0, 2000))]
    assert dressing(plan, *placed, (chest, at(chest, x, 2000))) == [level]


def test_dressing_without_a_window_and_elsewhere():
    """Two levels then; and nothing to earn without clothes, or in an office."""
    plan = room()
    placed = (MIRROR, on_wall(plan, MIRROR, LEFT, 0)), (WARDROBE, at(WARDROBE, 1500, 3000))
    assert dressing(plan, *placed) == [2]
    assert dressing(plan, placed[0]) == []
    s = scenario(plan, MIRROR, WARDROBE, use="office")
    assert levels(s, "dressing", placed[0][1], placed[1][1]) == []
    told = scenario(plan, MIRROR, WARDROBE, use="bedroom")
    assert sentences(told, "dressing", placed[0][1], placed[1][1]) == [
        "The mirror is near the clothes, with room to stand in front of it"
    ]


SHOES = piece("shoe cabinet", 800, 300, 1000, roles={"store", "entrance"}, stands="free")
BENCH = piece("bench", 1000, 400, 450, roles={"seat", "bench"}, stands="free")


# The doorway is at x 4000 to 4800: 900 in its middle are x 3950 to 4850.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3451, 900, 0, id="1 mm on the floor to arrive on"),
        pytest.param(3450, 900, 1, id="beside it"),
        pytest.param(4000, 1199, 0, id="1199 in"),
        pytest.param(4000, 1200, 1, id="1200 in"),
    ],
)
def test_floor_to_arrive_on(x, y, level):
    """A block of 500 at the door of a hall; of first rank."""
    s = scenario(room(doors=[door()]), BLOCK, only="arriving", use="hall")
    assert levels(s, "arriving", at(BLOCK, x, y)) == [level]
    (share,) = shares(s)
    assert share.claim.faults(level) == 1 - level


# A passage x 2500 to 4500: its middle is 3500, and 900 there are x 3050 to 3950.
@pytest.mark.parametrize(
    ("opens", "x", "level"),
    [
        pytest.param("passage", 3951, 1, id="beside the floor in the middle of the passage"),
        pytest.param("passage", 3949, 0, id="1 mm on it"),
        pytest.param("sliding", 3951, 0, id="before another door as wide as it is"),
    ],
)
def test_floor_to_arrive_on_in_a_wide_passage(opens, x, level):
    """As wide as to arrive takes, not as the passage is."""
    plan = room(doors=[door(BOTTOM, 500, 2000, opens=opens)])
    s = scenario(plan, BLOCK, only="arriving", use="hall")
    assert levels(s, "arriving", at(BLOCK, x, 900)) == [level]


def test_floor_to_arrive_on_in_a_corner():
    """A door 800 wide, 20 from the corner: the floor is x 4100 to 5000, not beyond the wall."""
    s = scenario(room(doors=[door(BOTTOM, 20)]), BLOCK, only="arriving", use="hall")
    assert levels(s, "arriving", at(BLOCK, 3600, 900)) == [1]
    assert levels(s, "arriving", at(BLOCK, 3601, 900)) == [0]


@pytest.mark.parametrize(
    ("shoes", "bench", "level"),
    [
        pytest.param((1700, 0), (1700, 900), [1, 1, 1], id="shoes 1500 from the door, bench 600"),
        pytest.param((1699, 0), (1700, 900), [1, 0, 1], id="shoes 1501 from the door"),
        pytest.param((1700, 0), (1700, 901), [1, 1, 0], id="bench 601 from the shoes"),
    ],
)
def test_where_to_put_things_down_and_sit(shoes, bench, level):
    """The cabinet is 800 by 300; the bench is beyond it, up the plan."""
    s = scenario(room(doors=[door()]), SHOES, BENCH, only="arriving", use="hall")
    assert levels(s, "arriving", at(SHOES, *shoes), at(BENCH, *bench)) == level


COT = piece("cot", 1200, 600, 950, roles={"cot", "sleep", "child"})
CHANGING = piece("changing table", 900, 500, 950, stands="free", roles={"store", "child"})
CHAIR = piece("rocker", 700, 700, 1000, stands="free", roles={"seat", "lounge"})


# The cot is on the top wall, x 0 to 1200, y 3400 to 4000; the door's middle is at (4400, 0).
@pytest.mark.parametrize(
    ("changing", "chair", "facing", "level"),
    [
        pytest.param((3700, 3000), (2000, 2000), "left", 1, id="2500 from the cot, door behind"),
        pytest.param((3701, 3000), (2000, 2000), "left", 0, id="2501 from the cot"),
        pytest.param((2000, 3400), (2000, 2000), "left", 1, id="the door is behind"),
        pytest.param((2000, 3400), (2000, 2000), "up", 1, id="the door is behind, looking up"),
        pytest.param((2000, 3400), (0, 2000), "right", 2, id="both ahead"),
        pytest.param((2000, 3400), (0, 200), "right", 2, id="the chair 2500 from both"),
        pytest.param((2000, 3400), (0, 199), "right", 0, id="the chair 2501 from both"),
    ],
)
def test_care(changing, chair, facing, level):
    """Three within 2.5 m, and the chair sees cot and door."""
    plan = room(doors=[door()])
    s = scenario(plan, COT, CHANGING, CHAIR, only="care", use="nursery")
    places = on_wall(plan, COT, TOP, 0), at(CHANGING, *changing), at(CHAIR, *chair, facing)
    assert levels(s, "care", *places) == [level]


DESK = piece("desk", 1400, 700, 740, stands="free", roles={"desk", "work"})
CASE = piece("bookcase", 800, 300, 2000, stands="free", roles={"store", "books"})


# The door's middle is at (4400, 0). A desk that looks down, at x 2000 to 3400, has one who
# sits at (2700, y): 1700 aside. Up to 1700 behind is more aside than behind.
@pytest.mark.parametrize(
    ("y", "facing", "case", "level"),
    [
        pytest.param(1700, "down", 2000, 2, id="45 degrees behind"),
        pytest.param(1701, "down", 2000, 0, id="just less aside"),
        pytest.param(1701, "up", 2000, 2, id="the door ahead"),
    ],
)
def test_no_door_behind_a_desk(y, facing, case, level):
    """The bookcase is near, above the desk on the plan."""
    s = scenario(room(doors=[door()]), DESK, CASE, only="desk-outlook", use="office")
    places = at(DESK, 2000, y, facing), at(CASE, case, 3600)
    assert levels(s, "desk-outlook", *places) == [level]


@pytest.mark.parametrize(("x", "level"), [(2900, 2), (2901, 1)])
def test_storage_at_hand(x, level):
    """The desk is at x 0 to 1400, looking left: 1500 from there, then 1 mm more."""
    desk = replace(DESK, width=700, depth=1400)
    s = scenario(room(doors=[door()]), desk, CASE, only="desk-outlook", use="office")
    assert levels(s, "desk-outlook", at(desk, 0, 3000, "left"), at(CASE, x, 3000)) == [level]


TABLE = piece("table", 1400, 900, 740, stands="free", roles={"dine", "table"})
BOARD = piece("sideboard", 1500, 450, 850, roles={"store"}, goes_with=("table",))


SEAT = piece("chair", 450, 450, 900, stands="free", roles={"seat", "dining seat"})


# The kitchen door is in the bottom wall, x 4000 to 4800.
@pytest.mark.parametrize(("y", "near"), [(3000, 1), (3001, 0)])
def test_a_table_far_from_the_kitchen(y, near):
    """Up to 3000 from the door; the sideboard is nearer. In one room for all it ranks first."""
    plan = room(doors=[door(name="kitchen door")])
    for use, wanted, faults in (
        ("dining room", [1 + near], [0]),
        ("one room for all", [near, 1], [1 - near, 0]),
    ):
        s = scenario(plan, TABLE, BOARD, only="serving", use=use)
        places = at(TABLE, 1000, y), on_wall(plan, BOARD, BOTTOM, 1200)
        found = levels(s, "serving", *places)
        assert found == wanted
        ranked = [c.claim.faults(level) for c, level in zip(shares(s), found, strict=True)]
        assert ranked == faults


def test_the_first_fault_of_serving_costs_most():
    """Table, sideboard and drawers: of 7 parts the first fault costs 4, the next 2."""
    plan = room(doors=[door(name="kitchen door")])
    s = scenario(plan, TABLE, BOARD, SEAT, only="serving", use="dining room")
    (share,) = shares(s)
    lost = [share.points[-1] - points for points in (0, *share.points)]
    assert [round(7 * one / share.points[-1]) for one in lost] == [7, 6, 4, 0]


# The sideboard on the bottom wall is at x 1800 to 3300, its front at y 450: 1067 farther is
# y 1517. The chair is 450 by 450.
@pytest.mark.parametrize(
    ("chair", "level"),
    [
        pytest.param((2500, 1517), 1, id="1067 from the drawers"),
        pytest.param((2500, 1516), 0, id="1 mm nearer"),
        pytest.param((1350, 500), 1, id="to the left of them"),
        pytest.param((1351, 500), 0, id="1 mm before them"),
        pytest.param((3300, 500), 1, id="to the right of them"),
        pytest.param((3299, 500), 0, id="1 mm before them at that end"),
        pytest.param((3350, 0), 1, id="beside the sideboard"),
    ],
)
def test_drawers_open_while_people_sit(chair, level):
    """With a kitchen door or without; a table's bare end does not count."""
    for name, way in (("kitchen door", 2), ("hall door", 0)):
        plan = room(doors=[door(name=name)])
        s = scenario(plan, TABLE, BOARD, SEAT, only="serving", use="dining room")
        places = at(TABLE, 1000, 1000), on_wall(plan, BOARD, BOTTOM, 1700), at(SEAT, *chair)
        assert levels(s, "serving", *places) == [way + level]


@pytest.mark.parametrize(("offset", "level"), [(4000, 2), (4001, 1)])
def test_a_sideboard_far_from_the_kitchen(offset, level):
    """The door is at x 4000; the sideboard ends at x 5000 - offset, 3000 off at 1000."""
    plan = room(doors=[door(name="kitchen door")])
    board = replace(BOARD, width=900)
    s = scenario(plan, TABLE, board, only="serving", use="dining room")
    places = at(TABLE, 2000, 2000), on_wall(plan, board, BOTTOM, offset)
    assert levels(s, "serving", *places) == [level]


def test_serving_needs_a_kitchen_door():
    """A hall door leads to no kitchen; without a sideboard the table alone counts."""
    for name, level in (("hall door", []), ("door to the kitchen", [1])):
        s = scenario(room(doors=[door(name=name)]), TABLE, only="serving", use="dining room")
        assert levels(s, "serving", at(TABLE, 2000, 2000)) == level
