"""Wishes about beds: solid wall, the door in view, tables on both sides.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree.
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
    scenario,
    sentences,
    window,
)

from arrange.data.lengths import the
from arrange.data.piece import Clearance, Slot
from arrange.data.room import Fixture
from arrange.rules.bed_sees_door import BedSeesDoor
from arrange.rules.cot_harm import CotHarm
from arrange.rules.in_reach import InReach
from arrange.scoring import shares

BED = piece("bed", 1500, 2000, 500, roles={"sleep", "bed", "for two"})


# The window of the top wall runs from 1500 to 2700; the bed is 1500 wide.
@pytest.mark.parametrize(
    ("wall", "offset", "level"),
    [
        pytest.param(TOP, 0, 2, id="ends where the window starts: 0 + 1500 = 1500"),
        pytest.param(TOP, 1, 1, id="1 mm under it"),
        pytest.param(TOP, 375, 1, id="its middle half, x 750 to 1500, ends where it starts"),
        pytest.param(TOP, 376, 0, id="1 mm of its middle half under it"),
        pytest.param(TOP, 1400, 0, id="right under it"),
        pytest.param(TOP, 2324, 0, id="its middle half starts 1 mm before it ends"),
        pytest.param(TOP, 2325, 1, id="its middle half starts where it ends"),
        pytest.param(TOP, 2699, 1, id="starts 1 mm before it ends"),
        pytest.param(TOP, 2700, 2, id="starts where it ends"),
        pytest.param(LEFT, 1500, 2, id="on a wall without a window"),
    ],
)
def test_bedhead_on_solid_wall(wall, offset, level):
    """Half the points where a quarter at one side at most is under the window."""
    plan = room(windows=[window()])
    s = scenario(plan, BED, only="bedhead-wall")
    assert levels(s, "bedhead-wall", on_wall(plan, BED, wall, offset)) == [level]


@pytest.mark.parametrize(
    ("offset", "level"), [(0, 0), (149, 0), (150, 1), (399, 1), (400, 2), (414, 2)]
)
def test_bedhead_on_a_slanted_wall(offset, level):
    """The window takes the first 400 of the slanted wall; the bed is 1000 wide of 1414.

    Its middle half starts 250 from its end: at 400 for an offset of 150.
    """
    plan = room(SLANTED, windows=[window(2, 0, 400)])
    bed = replace(BED, width=1000)
    s = scenario(plan, bed, only="bedhead-wall")
    assert levels(s, "bedhead-wall", on_wall(plan, bed, 2, offset)) == [level]


def test_bedhead_says_which_window():
    """The sentence names the window over the bed."""
    plan = room(windows=[window(name="street window")])
    s = scenario(plan, BED)
    assert sentences(s, "bedhead-wall", on_wall(plan, BED, TOP, 1400)) == [
        "The head of the bed is under the street window"
    ]
    assert sentences(s, "bedhead-wall", on_wall(plan, BED, TOP, 100)) == [
        "The head of the bed is partly under the street window, with its middle against a solid "
        "wall"
    ]


def test_bedhead_claims_need_a_window_and_a_head():
    """No window, or a daybed: nothing to earn."""
    daybed = piece("daybed", 2000, 950, roles={"sleep", "bed", "seat"})
    assert levels(scenario(room(), BED), "bedhead-wall", on_wall(room(), BED, TOP, 0)) == []
    plan = room(windows=[window()])
    s = scenario(plan, daybed)
    assert levels(s, "bedhead-wall", on_wall(plan, daybed, TOP, 0)) == []


# The door's opening is on the bottom wall, from the right end 200 to 1000: x from
# 4000 to 4800 on the plan, in the middle 4400. Its hinges are on its left seen from
# inside, at x 4800, where no bed has room: three levels. The room's middle (2500, 2000)
# is 2000 up from the door's, 1900 across: the middle of the bed is to be 2000 off.
@pytest.mark.parametrize(
    ("wall", "offset", "level"),
    [
        pytest.param(TOP, 0, 3, id="x 0 to 1500, door ahead and aside, middle 3000 up"),
        pytest.param(TOP, 2500, 3, id="x 2500 to 4000 touches the line of the opening"),
        pytest.param(TOP, 2501, 1, id="1 mm in line with the opening"),
        pytest.param(TOP, 3500, 1, id="x 3500 to 5000 straight in from the door"),
        pytest.param(LEFT, 0, 3, id="looks right, x 0 to 2000: its middle 3400 across"),
        pytest.param(LEFT, 2500, 3, id="looks right from the far corner"),
        pytest.param(RIGHT, 0, 1, id="looks left, x 3000 to 5000 across the doorway"),
        pytest.param(BOTTOM, 3500, 0, id="head on the door's own wall"),
    ],
)
def test_bed_sees_the_door(wall, offset, level):
    """Ahead of the pillow, out of the doorway, far off: a level each."""
    plan = room(doors=[door()])
    s = scenario(plan, BED, only="bed-sees-door")
    assert levels(s, "bed-sees-door", on_wall(plan, BED, wall, offset)) == [level]


# Bed on the left wall looking right, its head at x = 0: the door's middle must be
# 500 or more from there. With 800 of width that is an opening from 100: its left
# edge is at 5000 - offset - 800, so offset 4100 gives x 100 to 900, middle 500. The
# bed, x 0 to 2000, stands in line with it.
@pytest.mark.parametrize(("offset", "level"), [(4099, 1), (4100, 1), (4101, 0), (4102, 0)])
def test_bed_sees_a_door_500_ahead_of_its_head(offset, level):
    """At exactly 500 the door counts as seen, just below it does not."""
    plan = room(doors=[door(BOTTOM, offset, 800)])
    s = scenario(plan, BED, only="bed-sees-door")
    assert levels(s, "bed-sees-door", on_wall(plan, BED, LEFT, 2000)) == [level]


# The bed is on the top wall, x 0 to 1500, the middle of its pillow at (750, 3750); that of the
# door at (4400, 0). Along (1, 1) the two are at 4500 and 4400: a wardrobe of 1000 by 600 is above
# the line with its lower left corner at 4500 there, and below it with that at 2800, the upper
# right one at 4400.
@pytest.mark.parametrize(
    ("x", "y", "high", "level"),
    [
        pytest.param(2500, 2000, 2000, 3, id="above the line"),
        pytest.param(2499, 2000, 2000, 0, id="1 mm in it"),
        pytest.param(1800, 1000, 2000, 3, id="below the line"),
        pytest.param(1801, 1000, 2000, 0, id="1 mm in it from below"),
        pytest.param(2200, 1600, 1100, 0, id="in the middle of it, 1100 high"),
        pytest.param(2200, 1600, 1099, 3, id="lower"),
    ],
)
def test_something_tall_hides_a_door_from_the_pillow(x, y, high, level):
    """Nothing else about the bed is wrong."""
    plan = room(doors=[door()])
    tall = piece("wardrobe", 1000, 600, high, stands="free", roles={"store"})
    s = scenario(plan, BED, tall, only="bed-sees-door")
    places = on_wall(plan, BED, TOP, 0), at(tall, x, y)
    assert levels(s, "bed-sees-door", *places) == [level]
    if not level:
        assert sentences(s, "bed-sees-door", *places) == [
            "The wardrobe hides the door from the bed"
        ]


# A door in the middle of the bottom wall, x 2100 to 2900: the room's middle is 2000 up
# from its, 0 across. A free bed looking left is 2000 by 1500 on the plan.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3000, 1250, 4, id="middle 2000 up and on the right, where the hinges are"),
        pytest.param(3000, 1249, 2, id="1 mm nearer"),
        pytest.param(2899, 2000, 1, id="1 mm in line"),
    ],
)
def test_a_bed_far_off_and_screened_by_the_leaf(x, y, level):
    """Hinged on its left seen from inside: at x 2900, so the leaf screens what is right of it."""
    plan = room(doors=[door(BOTTOM, 2100, 800)])
    bed = replace(BED, stands="free")
    s = scenario(plan, bed, only="bed-sees-door")
    assert levels(s, "bed-sees-door", at(bed, x, y, "left")) == [level]


@pytest.mark.parametrize("more", [{"leaves": 2}, {"opens": "folding in"}, {"opens": "passage"}])
def test_no_leaf_screens_the_bed_of_two_or_folded_or_none(more):
    """Where a leaf of the same door would, all there is are three levels."""
    plan = room(doors=[door(BOTTOM, 2100, 800, **more)])
    bed = replace(BED, stands="free")
    s = scenario(plan, bed, only="bed-sees-door")
    assert levels(s, "bed-sees-door", at(bed, 3000, 1250, "left")) == [3]


def test_the_other_side_of_the_leaf_is_one_level_less():
    """X 100 to 2100 looking right; a door that opens out screens nothing, so three are all."""
    bed = replace(BED, stands="free")
    for way, level in (("in", [3]), ("out", [3])):
        s = scenario(room(doors=[door(BOTTOM, 2100, 800, opens=way)]), bed, only="bed-sees-door")
        assert levels(s, "bed-sees-door", at(bed, 100, 1500, "right")) == level
        (claim,) = BedSeesDoor().claims(s)
        assert len(claim.steps) == (4 if way == "in" else 3)


def test_bed_sees_door_says_so():
    """Plain words for each level."""
    plan = room(doors=[door(name="hall door")])
    s = scenario(plan, BED)
    assert sentences(s, "bed-sees-door", on_wall(plan, BED, TOP, 3500)) == [
        "The bed stands in line with the hall door"
    ]
    assert sentences(s, "bed-sees-door", on_wall(plan, BED, TOP, 0)) == [
        "The bed has the hall door in view from the far half of the room"
    ]
    plan, bed = room(doors=[door(BOTTOM, 2100, 800)]), replace(BED, stands="free")
    assert sentences(scenario(plan, bed), "bed-sees-door", at(bed, 0, 2500, "right")) == [
        "The bed has the door in view from the far half of the room, but the open door does not "
        "screen it"
    ]


def tables(*sides, second=400):
    """Two bedside tables tied to the bed, with places on the sides given."""
    slots = tuple(Slot(side, along=0, gap=30) for side in sides)
    more = {"anchor": "bed", "slots": slots, "roles": {"bedside"}, "kind": "bedside"}
    return piece("table 1", 400, 400, **more), piece("table 2", second, 400, **more)


def test_two_alike_tables_on_both_sides():
    """Bed at x 1000 to 2500 on the top wall: tables at x 570 and 2530 (gap 30)."""
    plan, (one, two) = room(), tables("left", "right")
    s = scenario(plan, BED, one, two, only="bedside-pair")
    bed = on_wall(plan, BED, TOP, 1000)
    left, right = (replace(bed, wall=None, y=3600, x=x) for x in (570, 2530))
    spots = [replace(left, piece="table 1"), replace(right, piece="table 2")]
    assert levels(s, "bedside-pair", bed, *spots) == [2]
    swapped = [replace(right, piece="table 1"), replace(left, piece="table 2")]
    assert levels(s, "bedside-pair", bed, *swapped) == [2]


def test_tables_that_do_not_match_earn_half():
    """One is 400 wide, the other 401: at x 1000 - 30 - 400 = 570, and 2530."""
    plan, (one, two) = room(), tables("left", "right", second=401)
    s = scenario(plan, BED, one, two, only="bedside-pair")
    bed = on_wall(plan, BED, TOP, 1000)
    spots = [replace(bed, piece=n, wall=None, x=x, y=3600) for n, x in (("table 1", 570),)]
    spots.append(replace(bed, piece="table 2", wall=None, x=2530, y=3600))
    assert levels(s, "bedside-pair", bed, *spots) == [1]


def test_both_tables_on_one_side_earn_nothing():
    """The second stands 30 + 400 beyond the first on the right: x 2530 and 2960."""
    plan, (one, two) = room(), tables("left", "right")
    far = (*one.slots, Slot("right", along=0, gap=460))
    s = scenario(plan, BED, replace(one, slots=far), replace(two, slots=far), only="bedside-pair")
    bed = on_wall(plan, BED, TOP, 1000)
    spots = [
        replace(bed, piece=n, wall=None, x=x, y=3600)
        for n, x in (("table 1", 2530), ("table 2", 2960))
    ]
    assert levels(s, "bedside-pair", bed, *spots) == [0]


def test_a_pair_on_a_slanted_wall():
    """The tables follow the bed on a wall aslant (500 wide, of 1414)."""
    plan = room(SLANTED)
    bed = replace(BED, width=500)
    slots = tuple(Slot(side, along=0, gap=30) for side in ("left", "right"))
    more = {"anchor": "bed", "slots": slots, "roles": {"bedside"}, "kind": "bedside"}
    one, two = (piece(n, 300, 300, **more) for n in ("table 1", "table 2"))
    s = scenario(plan, bed, one, two, only="bedside-pair")
    place = on_wall(plan, bed, 2, 450)
    left, right = (replace(place, piece=n.name, offset=o) for n, o in ((one, 120), (two, 980)))
    assert levels(s, "bedside-pair", place, left, right) == [2]


SHELF = piece("shelf", 600, 250, 300, roles={"store", "hangs"}, bottom=1400)


# The bed stands on the left wall, its pillows at x 0 to 500, y 1000 to 2500; the shelf is 600
# long on the left wall and 250 deep, or on the top wall of 4000 where the pillows end at y 2500.
@pytest.mark.parametrize(
    ("y", "level"),
    [
        pytest.param(2500, 1, id="beside the pillow"),
        pytest.param(2499, 0, id="1 mm over it"),
        pytest.param(1500, 0, id="in the middle over the head"),
        pytest.param(401, 0, id="1 mm over its other end"),
        pytest.param(400, 1, id="beside it there"),
    ],
)
def test_no_shelf_over_the_pillow(y, level):
    """Judge and model agree; each bed counts once."""
    plan = room()
    s = scenario(plan, BED, SHELF, only="over-the-pillow")
    places = on_wall(plan, BED, LEFT, 1000), on_wall(plan, SHELF, LEFT, y)
    assert levels(s, "over-the-pillow", *places) == [level]


def test_what_is_over_the_pillow_is_told_and_nothing_else_counts():
    """Over the foot is fine, and so is what stands; two beds are counted by themselves."""
    plan = room()
    low = replace(SHELF, name="chest", bottom=0)
    assert not shares(scenario(plan, BED, low, only="over-the-pillow"))
    s = scenario(plan, BED, SHELF, only="over-the-pillow")
    over = on_wall(plan, BED, LEFT, 1000), on_wall(plan, SHELF, LEFT, 1200)
    (told,) = sentences(s, "over-the-pillow", *over)
    assert told == "The shelf hangs over the pillow of the bed"
    other = replace(BED, name="other bed", width=900)
    two = scenario(plan, BED, other, SHELF, only="over-the-pillow")
    assert levels(two, "over-the-pillow", *over, on_wall(plan, other, RIGHT, 0)) == [1]


TABLE = piece("table", 400, 400, 500, roles={"bedside", "store"}, stands="free")


# The bed stands on the left wall, its pillows at x 0 to 500, y 1000 to 2500.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(0, 2800, 1, id="300 beside the pillow"),
        pytest.param(0, 2801, 0, id="1 mm farther"),
        pytest.param(800, 2500, 1, id="300 from the pillow down the bed"),
        pytest.param(801, 2500, 0, id="1 mm farther down"),
    ],
)
def test_a_loose_bedside_table_in_reach_of_the_pillow(x, y, level):
    """The table is 400 square; the left wall counts from the bottom."""
    plan = room()
    s = scenario(plan, BED, TABLE, only="in-reach")
    places = on_wall(plan, BED, LEFT, 1000), at(TABLE, x, y)
    assert levels(s, "in-reach", *places) == [level]
    (share,) = (share for share in shares(s) if share.claim.rule == "in-reach")
    assert share.claim.faults(level) == 1 - level


def test_a_bedside_table_at_a_slanted_bed():
    """Its bounds are x 2904 to 4672, y 1914 to 3682, its nearest turn is down: y 3182 on."""
    plan, bed = room(SLANTED), replace(BED, width=500)
    s = scenario(plan, bed, TABLE, only="in-reach")
    place = on_wall(plan, bed, 2, 450)
    assert levels(s, "in-reach", place, at(TABLE, 2400, 2481)) == [0]
    assert levels(s, "in-reach", place, at(TABLE, 2400, 2482)) == [1]


@pytest.mark.parametrize(("y", "level"), [(700, 1), (699, 0)])
def test_small_storage_has_floor_before_it(y, level):
    """A basket on the bottom wall looks up, its front at y 400; a chest begins 300 farther."""
    plan = room()
    basket = piece("basket", 400, 400, 600, roles={"store"})
    chest = piece("chest", 400, 400, stands="free")
    s = scenario(plan, basket, chest, only="in-reach")
    places = on_wall(plan, basket, BOTTOM, 1000), at(chest, 3700, y)
    assert levels(s, "in-reach", *places) == [level]


def test_in_reach_asks_no_more_than_the_musts_leave_open():
    """A table tied to its bed, and a chest with floor of its own."""
    tied = replace(TABLE, anchor="bed", slots=(Slot("left", along=0, gap=30),))
    chest = piece(
        "chest", roles={"store"}, clearances=(Clearance("use", ("front",), 450, 600, ""),)
    )
    assert InReach().claims(scenario(room(), BED, tied, chest)) == []


COT = piece("cot", 1200, 600, 950, roles={"cot", "sleep", "child"})
TOP_LIGHT = window(TOP, 0, 1000)


def cot_levels(plan, *placed, about):
    """The level of the one claim about that sort of harm, by both faces."""
    things, places = zip(*placed, strict=True)
    s = scenario(plan, *things, only="cot-harm")
    sorts = [c.about[0] for c in CotHarm().claims(s)]
    return levels(s, "cot-harm", *places)[sorts.index(about)]


# The cot is 1200 along the left wall (x 0 to 600), from y 1000 on: its top at y 2200. The
# window in the top wall is at x 0 to 1000.
@pytest.mark.parametrize(("offset", "level"), [(1900, 1), (1901, 0), (2500, 0)])
def test_a_cot_is_900_from_a_window(offset, level):
    """Its upper end is at y offset + 1200; the window at y 4000."""
    plan = room(windows=[TOP_LIGHT])
    assert cot_levels(plan, (COT, on_wall(plan, COT, LEFT, offset)), about="window") == level


@pytest.mark.parametrize(
    ("thing", "about", "far"),
    [
        pytest.param(
            piece("lamp", 300, 300, 1600, stands="free", roles={"light"}), "cord", 900, id="cord"
        ),
        pytest.param(piece("shelf", 800, 250, 300, bottom=1400), "above", 300, id="shelf"),
        pytest.param(piece("table", 900, 500, 1000), "foothold", 450, id="a high top"),
        pytest.param(piece("box", 900, 500, 150), "foothold", 450, id="a low top"),
    ],
)
def test_how_far_a_piece_is_to_be_from_a_cot(thing, about, far):
    """On the left wall, above the cot that ends at y 1200: enough, and 1 mm too near."""
    plan, thing = room(), replace(thing, stands="free")
    cot = COT, on_wall(plan, COT, LEFT, 0)
    for y, level in ((1200 + far, 1), (1199 + far, 0)):
        assert cot_levels(plan, cot, (thing, at(thing, 0, y)), about=about) == level


def test_a_cot_off_its_wall_has_a_gap():
    """One that may stand anywhere and stands in the middle of the floor: both faces say so."""
    cot = replace(COT, stands="anywhere")
    assert cot_levels(room(), (cot, at(cot, 1000, 1000)), about="wall") == 0


@pytest.mark.parametrize("height", [140, 1010])
def test_what_is_no_foothold(height):
    """A top at 140 or 1010 mm: nothing to earn or to lose."""
    thing = piece("thing", 900, 500, height)
    s = scenario(room(), COT, thing)
    assert [c.about for c in CotHarm().claims(s)] == [("wall",)]


def test_a_cot_is_900_from_a_radiator():
    """The radiator is on the left wall, y 3000 to 3800, 100 deep; the cot ends 1200 on."""
    body = ((0, 3000), (0, 3800), (100, 3800), (100, 3000))
    heater = Fixture("radiator", "radiator", body, LEFT, 3000, 800, 100, 150, 750)
    plan = room(fixtures=[heater])
    for offset, level in ((900, 1), (901, 0)):
        assert cot_levels(plan, (COT, on_wall(plan, COT, LEFT, offset)), about="heat") == level


# The left wall is 4000 long, with a corner at both ends: the last start is 2800.
@pytest.mark.parametrize(
    ("offset", "level"),
    [(0, 1), (20, 1), (21, 0), (299, 0), (300, 1), (2500, 1), (2501, 0), (2779, 0), (2780, 1)],
)
def test_a_gap_beside_a_cot_that_catches_a_child(offset, level):
    """Within 20 of a corner, or 300 and more off it."""
    plan = room()
    assert cot_levels(plan, (COT, on_wall(plan, COT, LEFT, offset)), about="wall") == level


def test_harm_to_a_child_is_of_first_rank_even_where_the_cot_is_held():
    """It protects somebody, so no wish of the person excuses it."""
    plan = room(windows=[TOP_LIGHT])
    place = on_wall(plan, COT, LEFT, 2000)
    s = scenario(plan, COT, held=(place,))
    near = next(x.claim for x in shares(s) if x.claim.about == ("window",))
    assert (near.faults(0), near.faults(1)) == (1, 0)
    assert (
        sentences(s, "cot-harm", place)[0]
        == "The cot is 800 mm from the window; it should be 900 mm or more"
    )


def test_sentences_take_an_article_where_people_say_one():
    """Numbered pieces and what belongs to someone go without."""
    assert [the(n, first=True) for n in ("bed", "bed 2", "Ada's bed", "our bed")] == [
        "The bed",
        "Bed 2",
        "Ada's bed",
        "Our bed",
    ]


# A bed 1500 x 2000 in the plain room, 5000 x 4000; its right side at 300 and 600. Looking
# down, its left as one faces it is the plan's left. A box shuts the foot of that side off.
SIDES = tuple(
    Clearance(f"{s} side", (s,), 0, 600, "to get in", usual=300, skip_start=500)
    for s in ("left", "right")
)
SHARED = replace(BED, stands="free", clearances=SIDES)
CHEST = piece("chest", 700, 700, 800, stands="free")


@pytest.mark.parametrize(
    ("x", "y", "facing", "chest", "wanted"),
    [
        pytest.param(600, 2000, "down", (4000, 0), [2, 2], id="open on both sides"),
        pytest.param(600, 399, "down", (4000, 3000), [0, 2], id="399 past the foot; 2900 beside"),
        pytest.param(600, 400, "down", (4000, 3000), [2, 2], id="400 past the foot"),
        pytest.param(599, 400, "down", (4000, 3000), [1, 2], id="599 wide"),
        pytest.param(800, 0, "down", (4000, 3000), [2, 2], id="no foot, 800 beside"),
        pytest.param(799, 0, "down", (4000, 3000), [0, 2], id="no foot, 799 beside"),
        pytest.param(700, 1500, "down", (0, 800), [0, 2], id="a chest from x 0 to 700"),
        pytest.param(700, 1800, "down", (0, 700), [2, 2], id="the chest ends 400 before the foot"),
        pytest.param(700, 0, "up", (0, 1900), [2, 0], id="turned: left is right"),
        pytest.param(0, 600, "right", (2100, 0), [0, 2], id="looks right: left is below"),
        pytest.param(3000, 600, "left", (2200, 0), [2, 0], id="looks left: left is above"),
    ],
)
def test_a_side_that_nobody_gets_into_earns_nothing(x, y, facing, chest, wanted):
    """600 wide it earns both levels, where it goes on 400 past the foot or is 800 deep."""
    s = scenario(room(), SHARED, CHEST, only="comfortable-clearance")
    places = at(SHARED, x, y, facing), at(CHEST, *chest)
    assert levels(s, "comfortable-clearance", *places) == wanted


@pytest.mark.parametrize("offset", [0, 300, 600, 900, 1314])
def test_the_way_into_the_side_of_a_bed_along_a_slanted_wall(offset):
    """By the bounding box and the nearest turn, where both faces agree."""
    wide = ((0, 0), (0, 4000), (4000, 4000), (6000, 2000), (6000, 0))
    bed = replace(SHARED, stands="wall")
    s = scenario(room(wide), bed, CHEST, only="comfortable-clearance")
    places = on_wall(s.room, bed, 2, offset), at(CHEST, 300, 300)
    assert len(levels(s, "comfortable-clearance", *places)) == 2


def test_the_side_that_nobody_gets_into_is_told():
    """The chest stands at the foot of one side."""
    s = scenario(room(), SHARED, CHEST, only="comfortable-clearance")
    left, right = sentences(
        s, "comfortable-clearance", at(SHARED, 700, 1500, "down"), at(CHEST, 0, 800)
    )
    assert "nobody can get in past its foot" in left
    assert "nobody" not in right
