"""Wishes about coming in: what stands behind the door, and what is seen first.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The plain room is 5000 across and 4000 up; its door is in the bottom wall,
x 4000 to 4800, with the hinges at x 4800.
"""

from dataclasses import replace

import pytest
from plain_rooms import RIGHT, SLANTED, TOP, at, door, levels, on_wall, piece, room, scenario
from plain_rooms import sentences as said

from arrange.data.piece import Clearance
from arrange.scoring import shares

USE = (Clearance("use", ("front",), 100, 100, "to use it"),)
CHEST = piece("chest", 1000, 150, clearances=USE)


# Thrown right back the leaf takes x 4800 to 5600, y 0 to 800. The right wall runs down from
# y 4000: at offset 3000 the chest is at y 0 to 1000, its front at x 4850.
@pytest.mark.parametrize(
    ("offset", "level"),
    [
        pytest.param(3000, 0, id="800 of 1000 behind the leaf"),
        pytest.param(2501, 0, id="y from 499: 301 of 1000"),
        pytest.param(2500, 1, id="y from 500: 300 of 1000 is still well"),
    ],
)
def test_a_front_between_the_leaf_and_the_wall(offset, level):
    """More than 30 % of it is too much."""
    plan = room(doors=[door()])
    s = scenario(plan, CHEST, only="behind-door")
    assert levels(s, "behind-door", on_wall(plan, CHEST, RIGHT, offset)) == [level]


# Somebody stands 400 before the front; the leaf swings over y 0 to 800.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(4000, 1199, 0, id="399 before the front"),
        pytest.param(4000, 1200, 1, id="400 before the front"),
        pytest.param(3301, 900, 0, id="301 of 1000 before the door"),
        pytest.param(3300, 900, 1, id="300 of 1000"),
    ],
)
def test_standing_in_the_swing(x, y, level):
    """A chest that looks down at the door."""
    chest = replace(CHEST, stands="free", roles=frozenset({"store"}))
    s = scenario(room(doors=[door()]), chest, only="behind-door")
    assert levels(s, "behind-door", at(chest, x, y, "down")) == [level]
    assert levels(s, "behind-door", at(chest, x, y, "up")) == [1]


# Two leaves of 400: thrown back they take x 4800 to 5200 and 3600 to 4000, y 0 to 400. One
# that folds is not thrown back, but comes 400 into the room, where somebody would stand.
@pytest.mark.parametrize(
    ("more", "offset", "level"),
    [
        pytest.param({"leaves": 2}, 3000, 0, id="400 of 1000 behind the right leaf"),
        pytest.param({"leaves": 2}, 2901, 0, id="301"),
        pytest.param({"leaves": 2}, 2900, 1, id="300 are still well"),
        pytest.param({"opens": "folding in"}, 2901, 0, id="folds: 301 beside it"),
        pytest.param({"opens": "folding in"}, 2900, 1, id="folds: 300"),
    ],
)
def test_a_front_behind_leaves_as_built(more, offset, level):
    """The chest on the right wall, as above."""
    plan = room(doors=[door(**more)])
    s = scenario(plan, CHEST, only="behind-door")
    assert levels(s, "behind-door", on_wall(plan, CHEST, RIGHT, offset)) == [level]


@pytest.mark.parametrize(
    ("opens", "found"),
    [("in", [0]), ("folding in", [1]), ("folding out", []), ("passage", [])],
)
def test_a_leaf_that_folds_is_not_thrown_back(opens, found):
    """A small chest beside the opening, x 4800 to 5000, looks up the plan into the room."""
    chest = replace(CHEST, width=200, stands="free", roles=frozenset({"store"}))
    s = scenario(room(doors=[door(opens=opens)]), chest, only="behind-door")
    assert levels(s, "behind-door", at(chest, 4800, 0, "up")) == found


# A leaf of 800 that folds comes 400 into the room, two leaves as far; 400 to stand.
@pytest.mark.parametrize(("y", "level"), [(799, 0), (800, 1)])
@pytest.mark.parametrize("more", [{"opens": "folding in"}, {"leaves": 2}], ids=str)
def test_standing_where_leaves_as_built_open(more, y, level):
    """A chest that looks down at the door."""
    chest = replace(CHEST, stands="free", roles=frozenset({"store"}))
    s = scenario(room(doors=[door(**more)]), chest, only="behind-door", walkway=300)
    assert levels(s, "behind-door", at(chest, 4000, y, "down")) == [level]


def test_behind_the_door_names_them_and_counts_them():
    """Two chests, one of them on the wall behind the leaf."""
    plan = room(doors=[door()])
    two = replace(CHEST, name="trunk")
    places = on_wall(plan, CHEST, RIGHT, 3000), on_wall(plan, two, RIGHT, 0)
    s = scenario(plan, CHEST, two, only="behind-door")
    assert levels(s, "behind-door", *places) == [1]
    assert said(s, "behind-door", *places) == ["The door opens in front of the chest"]
    clear = on_wall(plan, CHEST, RIGHT, 1000), places[1]
    assert levels(s, "behind-door", *clear) == [2]
    assert said(s, "behind-door", *clear) == ["Nothing that you open or use is behind an open door"]


def test_a_front_the_leaf_meets_on_a_slanted_wall():
    """The slanted wall runs from (4000, 4000) to (5000, 3000); the door is in the right one.

    Hinged at its left end, y 2700, the leaf thrown back takes x 4200 to 5000, y 2700 to
    3500. A chest 500 wide at the middle of the slanted wall looks down: its bounds are
    x 4217 to 4677, y 3217 to 3677 all of its front behind the leaf. At offset 0
    its front is at y 3540, beyond it.
    """
    plan = room(SLANTED, doors=[door(3, 300, 800)])
    chest = replace(CHEST, width=500)
    s = scenario(plan, chest, only="behind-door")
    assert levels(s, "behind-door", on_wall(plan, chest, 2, 457)) == [0]
    assert levels(s, "behind-door", on_wall(plan, chest, 2, 0)) == [1]


def test_what_is_shallow_counts_for_less():
    """A mirror 120 deep besides the chest: a claim of its own, with a third of the weight."""
    plan, mirror = room(doors=[door()]), replace(CHEST, name="mirror", depth=120)
    s = scenario(plan, CHEST, mirror, only="behind-door")
    places = on_wall(plan, CHEST, TOP, 0), on_wall(plan, mirror, RIGHT, 3000)
    assert levels(s, "behind-door", *places) == [1, 0]
    assert [share.possible for share in shares(s)] == [750, 250]
    deeper = replace(mirror, depth=121)
    s = scenario(plan, CHEST, deeper, only="behind-door")
    places = places[0], on_wall(plan, deeper, RIGHT, 3000)
    assert levels(s, "behind-door", *places) == [1]


def test_what_has_no_front_may_stand_behind_the_door():
    """A plant, and a door that opens out: nothing to earn."""
    inward, outward = room(doors=[door()]), room(doors=[door(opens="out")])
    for plan, thing in ((inward, piece("plant", 400, 400)), (outward, CHEST)):
        s = scenario(plan, thing, only="behind-door")
        assert levels(s, "behind-door", on_wall(plan, thing, TOP, 0)) == []


# The doorway's middle is at x 4400. At depth y the view is 0.57735 y to either side: a
# cupboard 500 x 500 that begins at y 1499 in line with it is in the near view, up to 1500.
@pytest.mark.parametrize(
    ("x", "y", "height", "level"),
    [
        pytest.param(4000, 1499, 1100, 0, id="tall and near, its front to the door"),
        pytest.param(4000, 1500, 1100, 1, id="farther in, its front to the door"),
        pytest.param(4000, 1000, 1099, None, id="low: nothing to earn"),
        # Its upper right corner (x + 500, 1500) meets the view's edge at 4400 - 866.03.
        pytest.param(3033, 1000, 1100, 1, id="beside the view: 3533 of 3533.97"),
        pytest.param(3034, 1000, 1100, 0, id="1 mm into it"),
    ],
)
def test_something_tall_near_the_door(x, y, height, level):
    """A cupboard that looks down, at the door."""
    thing = piece("cupboard", 500, 500, height, stands="free", roles={"store"})
    s = scenario(room(doors=[door()]), thing, only="first-look")
    wanted = [] if level is None else [level]
    assert levels(s, "first-look", at(thing, x, y, "down")) == wanted


@pytest.mark.parametrize(
    ("role", "height", "facing", "y", "level"),
    [
        pytest.param("tall", 2000, "left", 2499, 0, id="the side of a wardrobe"),
        pytest.param("tall", 2000, "left", 2500, 1, id="beyond what is seen first"),
        pytest.param("tall", 2000, "up", 2499, 0, id="its back"),
        pytest.param("tall", 2000, "down", 2499, 1, id="its front"),
        pytest.param("sofa", 850, "up", 1500, 0, id="the back of a sofa"),
        pytest.param("sofa", 850, "left", 1500, 1, id="a sofa from its side"),
        pytest.param("desk", 740, "up", 1500, 0, id="the cables of a desk"),
        pytest.param("desk", 740, "down", 1500, 1, id="a desk from where one sits"),
    ],
)
def test_sides_and_backs_seen_from_the_door(role, height, facing, y, level):
    """A piece 800 x 800 in line with the doorway."""
    thing = piece("thing", 800, 800, height, stands="free", roles={role, "seat", "store"})
    s = scenario(room(doors=[door()]), thing, only="first-look")
    assert levels(s, "first-look", at(thing, 4000, y, facing)) == [level]


@pytest.mark.parametrize(
    ("depth", "stands", "level"),
    [
        pytest.param(120, "wall", None, id="a mirror at the wall: nothing to earn"),
        pytest.param(121, "wall", 0, id="1 mm deeper"),
        pytest.param(120, "free", 0, id="as thin, but free: a screen"),
    ],
)
def test_what_is_thin_at_a_wall_shows_no_side(depth, stands, level):
    """On the right wall, y 1200 to 1700: the view is 693 wide each way at y 1200."""
    plan = room(doors=[door()])
    thing = piece("mirror", 500, depth, 1700, stands=stands, roles={"mirror"})
    s = scenario(plan, thing, only="first-look")
    place = on_wall(plan, thing, RIGHT, 2300)
    if stands == "free":
        place = at(thing, 5000 - depth, 1200, "left")
    assert levels(s, "first-look", place) == ([] if level is None else [level])


def test_first_look_names_what_is_seen():
    """One of two pieces; lamps and plants hide nothing."""
    sofa = piece("sofa", 800, 800, 850, stands="free", roles={"sofa", "seat"})
    case = piece("bookcase", 800, 300, 2000, stands="free", roles={"store"})
    lamp = piece("lamp", 300, 300, 1600, stands="free", roles={"light"})
    s = scenario(room(doors=[door()]), sofa, case, lamp, only="first-look")
    places = at(sofa, 4000, 1000, "up"), at(case, 0, 3000), at(lamp, 3500, 900)
    assert levels(s, "first-look", *places) == [1]
    assert said(s, "first-look", *places) == [
        "The sofa is what you see first as you come in by the door, and not at its best"
    ]
    away = at(sofa, 0, 0, "up"), *places[1:]
    assert said(s, "first-look", *away) == [
        "Nothing shows its side or back as you come in by the door"
    ]


def test_first_look_by_a_slanted_door():
    """Straight in from the slanted wall, 400 to 1100 along it: a chest on the diagonal blocks."""
    plan = room(SLANTED, doors=[door(2, 400, 700, opens="out")])
    tall = piece("tall", 300, 300, 2000, stands="free")
    s = scenario(plan, tall, only="first-look")
    # The opening's middle (4530, 3470); 1000 straight in is (3823, 2763), in the view.
    assert levels(s, "first-look", at(tall, 3673, 2613)) == [0]
    assert levels(s, "first-look", at(tall, 1000, 1000)) == [1]
