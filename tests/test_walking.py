"""Where a path of the set width can go, on rooms made by hand: judged by exact shapes.

The main door is in the left wall, 800 wide from y = 200 to 1000, and the chest
to be reached on the right wall. The walkway is 600 wide unless told otherwise.
"""

from dataclasses import replace

import pytest
from shapely import box as shapely_box
from small_rooms import (
    A,
    B,
    C,
    D,
    at,
    clearance,
    free,
    on_wall,
    piece,
    room,
    scenario,
    tied,
)

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture, Window
from arrange.data.scenario import RuleSetting
from arrange.geometry.walking import Floor
from arrange.judge import breaches, judge

pytestmark = pytest.mark.fast

DOOR = Door("door", D, 200, 800, opens="out")
CHEST = piece("chest", 800, 400, clearances=(clearance(500),))
AT_CHEST = at("chest", "left", 3600, 1000, B)


def unreached(case, *placements):
    """What the judge says cannot be reached."""
    verdict = judge(case, Arrangement(placements))
    return [b.subjects[0] for b in verdict.breaches if b.rule == "walkway"]


def furnished(*pieces, walkway=600, **more):
    return scenario(room(doors=(DOOR, *more.pop("doors", ())), **more), *pieces, walkway=walkway)


# -- straight gaps ----------------------------------------------------------------
@pytest.mark.parametrize(
    ("gap", "walkway", "passes"),
    [(601, 600, True), (600, 600, True), (598, 600, False), (900, 900, True), (898, 900, False)],
)
def test_a_gap_as_wide_as_the_walkway_lets_people_through(gap, walkway, passes):
    """A screen from the bottom wall up leaves the gap below the top wall, at y = 3000."""
    screen = free("screen", 200, 3000 - gap)
    case = furnished(CHEST, screen, walkway=walkway)
    found = unreached(case, AT_CHEST, at("screen", "down", 1800, 0))
    assert found == ([] if passes else ["chest"])


@pytest.mark.parametrize(("gap", "passes"), [(600, True), (598, False)])
def test_a_gap_between_two_pieces_counts_as_one_to_the_wall(gap, passes):
    """Two screens, one from below up to 1000, one from above down to 1000 + gap."""
    low, high = free("low", 200, 1000), free("high", 200, 2000 - gap)
    places = (at("low", "down", 1800, 0), at("high", "down", 1800, 1000 + gap))
    assert unreached(furnished(CHEST, low, high), AT_CHEST, *places) == (
        [] if passes else ["chest"]
    )


# -- diagonal gaps -------------------------------------------------------------------
@pytest.mark.parametrize(
    ("across", "passes"),
    [
        pytest.param(360, True, id="360 and 480 across corners make 600"),
        pytest.param(356, False, id="356 and 480 make 597.6"),
        pytest.param(364, True, id="364 and 480 make 602.4"),
    ],
)
def test_a_diagonal_gap_is_measured_between_the_two_corners(across, passes):
    """One block's corner at (1500, 1200), the other's at (1500 + across, 1680).

    Left to right leads over the first block and under the second, between the corners.
    """
    low, high = free("low", 400, 1200), free("high", 300, 1320)
    places = (at("low", "down", 1100, 0), at("high", "down", 1500 + across, 1680))
    assert unreached(furnished(CHEST, low, high), AT_CHEST, *places) == (
        [] if passes else ["chest"]
    )


@pytest.mark.parametrize(("high", "passes"), [(500, True), (506, False), (560, False)])
def test_two_pieces_just_past_the_floor_of_the_door_are_too_close_for_who_comes_in(high, passes):
    """A lamp to (350, 1010) and a desk from (900, high): 550 and 510 make 750.1, and 504 746.

    The door's floor, to (750, 1000), touches neither. A disc of 750 beyond the two has its
    middle over that floor, but no such disc comes in between them.
    """
    lamp, desk = free("lamp", 350, 350), free("desk", 700, high)
    places = (at("lamp", "down", 0, 1010), at("desk", "down", 900, 0))
    found = unreached(furnished(CHEST, lamp, desk, walkway=750), AT_CHEST, *places)
    assert found == ([] if passes else ["chest"])


# -- places narrower than the path ------------------------------------------------------
@pytest.mark.parametrize(
    ("depth", "reached"),
    [
        # The disc of 600 rests on the mouth's corners, 400 apart: its middle stays
        # sqrt(300^2 - 200^2) = 223.6 above. It comes up to the place, 500 deep, if that
        # middle is at most 300 away: depth - 500 + 223.6 is at most 300, depth 576.
        pytest.param(500, True, id="no deeper than the place itself"),
        pytest.param(575, True, id="as far as the disc reaches into the mouth"),
        pytest.param(579, False, id="farther than that"),
    ],
)
def test_a_place_narrower_than_the_path_is_stepped_into(depth, reached):
    """A cupboard 400 wide at the bottom wall, between two blocks that reach `depth` further."""
    narrow = piece("narrow", 400, 400, clearances=(clearance(500),))
    blocks = [free(f"block {i}", 600, 400 + depth) for i in (1, 2)]
    places = (
        at("narrow", "up", 2400, 0, C),
        at("block 1", "down", 1800, 0),
        at("block 2", "down", 2800, 0),
    )
    assert unreached(furnished(narrow, *blocks), *places) == ([] if reached else ["narrow"])


def test_one_side_of_several_is_enough():
    """A bed reached from its left only: its right side lies along the wall."""
    bed = piece("bed", 900, 2000, clearances=(clearance(560, sides=("left", "right")),))
    case = furnished(bed)
    # On A facing down in the right corner: x 3100..4000, its left (facing it) toward x 2540.
    assert unreached(case, at("bed", "down", 3100, 1000, A)) == []


# -- doors and windows ---------------------------------------------------------------------
@pytest.mark.parametrize(("gap", "reached"), [(600, True), (598, False)])
def test_the_second_door_is_reached_from_the_main_one(gap, reached):
    """A screen divides the room between the doors but for a gap at the top."""
    second = Door("back door", B, 1000, 800, opens="out")
    screen = free("screen", 200, 3000 - gap)
    case = furnished(screen, doors=(second,))
    found = unreached(case, at("screen", "down", 1800, 0))
    assert found == ([] if reached else ["back door"])


def test_the_door_marked_as_main_is_where_people_come_in():
    """With the right door as the main one, what lies left of the screen is cut off."""
    main = Door("main door", B, 1000, 800, opens="out", main=True)
    case = furnished(CHEST, free("screen", 200, 3000), doors=(main,))
    placed = (at("chest", "left", 3600, 300, B), at("screen", "down", 1800, 0))
    # The chest, right of it, is reached; the other door is not.
    assert unreached(case, *placed) == ["door"]


@pytest.mark.parametrize(
    ("x", "reached"),
    [
        pytest.param(1600, True, id="600 of the window free on its left"),
        pytest.param(1599, False, id="599 free"),
        pytest.param(400, True, id="600 free on its right: 400 + 1200 to 2200"),
        pytest.param(1000, False, id="all behind the bed"),
    ],
)
def test_a_window_to_get_out_by_is_reached_past_the_bed(x, reached):
    """A bed 1200 wide along the top wall, the window 1000..2200 behind it."""
    window = Window("window", A, 1000, 1200, escape=True)
    case = furnished(free("bed", 1200, 2000, 500), windows=(window,))
    found = unreached(case, at("bed", "down", x, 1000))
    assert found == ([] if reached else ["window"])


@pytest.mark.parametrize(
    ("x", "reached"),
    [
        pytest.param(850, True, id="600 free from 2050 to 2650"),
        pytest.param(851, False, id="599 on its right"),
        pytest.param(1149, False, id="599 on its left"),
        pytest.param(1150, True, id="600 free from 550 to 1150"),
    ],
)
def test_a_window_that_must_open_is_reached_from_beside_it_too(x, reached):
    """A cupboard 1200 wide, the window 1000..2200 behind it, and 450 more to each side."""
    window = Window("window", A, 1000, 1200, must_open=True)
    case = furnished(free("cupboard", 1200, 2000, 2000), windows=(window,))
    found = unreached(case, at("cupboard", "down", x, 1000))
    assert found == ([] if reached else ["window"])


def test_beside_a_window_ends_with_its_wall():
    """The window 0..600 reaches 1050 from the corner: 600 past a cupboard of 450, not 451."""
    window = Window("window", A, 0, 600, must_open=True)
    for wide, found in ((450, []), (451, ["window"])):
        case = furnished(free("cupboard", wide, 2000, 2000), windows=(window,))
        assert unreached(case, at("cupboard", "down", 0, 1000)) == found


@pytest.mark.parametrize(
    ("depth", "height", "escape", "reached"),
    [
        pytest.param(450, 900, False, True, id="45 cm deep and 90 cm high"),
        pytest.param(452, 900, False, False, id="deeper, by more than is forgiven"),
        pytest.param(450, 901, False, False, id="higher"),
        pytest.param(450, 900, True, False, id="nobody gets out over it"),
    ],
)
def test_a_window_that_must_open_is_reached_over_a_low_case(depth, height, escape, reached):
    """The case takes the whole of the top wall."""
    window = Window("window", A, 1000, 1200, must_open=True, escape=escape)
    case = furnished(free("case", 4000, depth, height), windows=(window,))
    found = unreached(case, at("case", "down", 0, 3000 - depth))
    assert found == ([] if reached else ["window"])


@pytest.mark.parametrize(
    ("end", "reached"),
    [
        pytest.param(3200, True, id="600 of the opening are left"),
        pytest.param(3201, False, id="599"),
    ],
)
@pytest.mark.parametrize("built_in", [True, False])
def test_a_door_is_reached_past_free_floor_only(end, reached, built_in):
    """A door 800 wide at x = 3000 to 3800 of the top wall; something reaches from 2500 to end."""
    second = Door("back door", A, 3000, 800, opens="out")
    if built_in:
        corners = ((2500, 2800), (2500, 2900), (end, 2900), (end, 2800))
        column = Fixture("column", "column", corners, top=2500)
        case = furnished(CHEST, doors=(second,), fixtures=(column,))
        found = unreached(case, AT_CHEST)
    else:
        post = free("post", end - 2500, 100)
        off = (RuleSetting("door-floor", off=True),)
        case = replace(furnished(CHEST, post, doors=(second,)), settings=off)
        found = unreached(case, AT_CHEST, at("post", "down", 2500, 2800))
    assert found == ([] if reached else ["back door"])


@pytest.mark.parametrize(
    ("y0", "y1", "passes"),
    [
        pytest.param(0, 1400, True, id="600 of the passage are left, y 1400 to 2000"),
        pytest.param(0, 1401, False, id="599"),
        pytest.param(1100, 2000, True, id="600 are left below"),
        pytest.param(1099, 2000, False, id="599 below"),
    ],
)
@pytest.mark.parametrize("main", [True, False])
def test_a_wide_passage_keeps_a_way_clear(y0, y1, passes, main):
    """A passage 1500 wide, y = 500 to 2000 of the left wall, and a post 300 inside it.

    The other door is in the bottom wall. Where the passage is the way in nothing at all is
    reached when it is blocked; else it alone is not.
    """
    passage = Door("passage", D, 500, 1500, opens="passage", main=main)
    doors = (passage, Door("door", C, 500, 800, opens="out", main=not main))
    case = scenario(room(doors=doors), CHEST, free("post", 200, y1 - y0), walkway=600)
    lost = ["chest", "passage", "door"] if main else ["passage"]
    found = unreached(case, AT_CHEST, at("post", "down", 300, y0))
    assert found == ([] if passes else lost)


def behind_screens(gap, **more):
    """What is not reached where two screens part the room from side to side but for a gap."""
    case = furnished(free("low", 2000, 200), free("high", 2000 - gap, 200), **more)
    return unreached(case, at("low", "down", 0, 1500), at("high", "down", 2000 + gap, 1500))


@pytest.mark.parametrize(("gap", "reached"), [(600, True), (598, False)])
def test_a_french_window_is_walked_to(gap, reached):
    """The balcony lies beyond the screens."""
    french = Door("balcony", A, 1000, 1200, leaves=2)
    balcony = Window("balcony", A, 1000, 1200, 0, 2100, french=french)
    assert behind_screens(gap, windows=(balcony,)) == ([] if reached else ["balcony"])


@pytest.mark.parametrize(("gap", "reached"), [(600, True), (598, False)])
@pytest.mark.parametrize("kind", ["closet", "stairs", "built-in cupboard"])
def test_people_get_to_closets_and_stairs(kind, gap, reached):
    """Behind the screens. A cupboard is left to the person, and so is what keeps no floor."""
    corners = ((1000, 2500), (1000, 3000), (2200, 3000), (2200, 2500))
    built = Fixture(kind, kind, corners, A, 1000, 1200, 500, top=2500, keep=600)
    found = behind_screens(gap, fixtures=(built,))
    assert found == ([] if reached or kind == "built-in cupboard" else [kind])
    assert behind_screens(gap, fixtures=(replace(built, keep=0),)) == []


@pytest.mark.parametrize(("gap", "reached"), [(600, True), (598, False)])
@pytest.mark.parametrize("steps", ["front", "left", "right"])
def test_stairs_are_walked_to_where_they_begin(steps, gap, reached):
    """Stairs x 1500 to 2500, y 2000 to 3000, and a screen from the right of them downwards.

    The screen, x 2500 to 2700, parts the right of the room but for a gap at the bottom. Only
    stairs that begin on the right are behind it: from x 2700 the floor before them is meant,
    so that the screen stands below y 2000.
    """
    corners = ((1500, 2000), (1500, 3000), (2500, 3000), (2500, 2000))
    stairs = Fixture("stairs", "stairs", corners, A, 1500, 1000, 1000, top=2500, keep=600)
    case = furnished(free("screen", 200, 2000 - gap), fixtures=(replace(stairs, steps=steps),))
    found = unreached(case, at("screen", "down", 2500, gap))
    assert found == ([] if reached or steps != "right" else ["stairs"])


@pytest.mark.parametrize(("wide", "comes_in"), [(200, True), (201, False)])
def test_people_come_in_past_free_floor_only(wide, comes_in):
    """The main door is 800 wide, the walkway 600; a column takes the rest of its opening."""
    corners = ((300, 200), (300, 200 + wide), (500, 200 + wide), (500, 200))
    column = Fixture("column", "column", corners, top=2500)
    case = furnished(CHEST, fixtures=(column,))
    assert unreached(case, AT_CHEST) == ([] if comes_in else ["chest", "door"])
    said = [b.sentence for b in breaches(case.unfurnished, Arrangement(()))]
    assert said == (
        [] if comes_in else ["Nobody can come in by the door: no walkway 60 cm wide begins there"]
    )


def test_an_ordinary_window_need_not_be_reached():
    """The same bed before a window that nobody has to open."""
    case = furnished(free("bed", 1200, 2000, 500), windows=(Window("window", A, 1000, 1200),))
    assert unreached(case, at("bed", "down", 1000, 1000)) == []


def test_a_radiator_below_the_window_is_reached_over():
    """The radiator takes the whole floor at the wall; the window still opens."""
    window = Window("window", A, 1000, 1200, must_open=True)
    corners = ((1000, 3000), (2200, 3000), (2200, 2900), (1000, 2900))
    radiator = Fixture("radiator", "radiator", corners, A, 1000, 1200, 100, 150, 750)
    case = furnished(free("chair"), windows=(window,), fixtures=(radiator,))
    assert unreached(case, at("chair", "down", 3000, 0)) == []


# -- what is in the way ------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("more", "passes"),
    [
        pytest.param({}, False, id="a block"),
        pytest.param({"flat": True, "height": 10}, True, id="a rug"),
        pytest.param({"bottom": 2000, "height": 300}, True, id="hung at 2 m"),
        pytest.param({"bottom": 1999, "height": 300}, False, id="hung 1 mm lower"),
    ],
)
def test_rugs_and_what_hangs_high_are_in_nobodys_way(more, passes):
    """A thing across the whole room between the door and the chest."""
    bar = free("bar", 200, 3000, **more)
    found = unreached(furnished(CHEST, bar), AT_CHEST, at("bar", "down", 1800, 0))
    assert found == ([] if passes else ["chest"])


def test_a_built_in_column_is_in_the_way_as_well():
    """A column from the bottom wall up to 598 below the top."""
    corners = ((1800, 0), (1800, 2402), (2000, 2402), (2000, 0))
    column = Fixture("column", "column", corners, top=2500)
    assert unreached(furnished(CHEST, fixtures=(column,)), AT_CHEST) == ["chest"]


def test_the_chair_at_a_desk_does_not_keep_people_from_it():
    """The chair stands in the desk's own clearance; the desk is reached all the same."""
    desk = piece("desk", 1200, 600, clearances=(clearance(760),))
    chair = tied("chair", "desk", Slot("front", 500, 50, "opposite"))
    shape = room(doors=(DOOR,))
    case = scenario(shape, desk, chair)
    # Desk on A at x 1400..2600, front at y = 2400; chair 400 square centred at x 1800.
    places = (on_wall(desk, shape, A, 1400), at("chair", "up", 1800, 1950))
    assert unreached(case, *places) == []


def test_without_a_door_all_free_floor_counts_as_reached():
    """Nobody said where people come in."""
    assert unreached(scenario(room(), CHEST), AT_CHEST) == []


@pytest.mark.parametrize("narrow", [(300, 600), (600, 300)])
def test_what_is_remembered_of_one_width_is_not_taken_for_another(narrow):
    """Each width has its own insets, and none is mistaken for what lies round about."""
    zone = shapely_box(0, 0, 700, 700)
    shared = Floor(shapely_box(0, 0, 4000, 3000), [], 600, [])
    for width in narrow:
        fresh = Floor(shapely_box(0, 0, 4000, 3000), [], 600, [])
        assert shared.inside(zone, width) == fresh.inside(zone, width)
        assert shared.up_to(zone) == fresh.up_to(zone)


# -- the last step -------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("gap", "thick", "passes"),
    [
        pytest.param(770, 300, False, id="the door is 75 wide, the gap behind it 77 for 30 cm"),
        pytest.param(898, 1000, False, id="2 mm too narrow, and too long to lean through"),
        pytest.param(900, 1000, True, id="as wide as asked"),
    ],
)
def test_what_lies_behind_a_narrow_door_must_be_as_wide_as_the_walkway(gap, thick, passes):
    """A door 75 wide in wall D and a walkway of 90, 90 cm of floor, then two blocks.

    Where the disc of 900 leans into the gap of 770 its middle stays
    sqrt(450^2 - 385^2) = 233 behind it, 533 from the door's floor: more than 450.
    """
    door = Door("door", D, 1000, 750, opens="sliding")
    low, high = 1375 - gap // 2, 1375 + gap // 2
    blocks = [free("low", thick, low), free("high", thick, 3000 - high)]
    case = scenario(room(doors=(door,)), CHEST, *blocks, walkway=900)
    places = (at("low", "down", 920, 0), at("high", "down", 920, high))
    assert unreached(case, AT_CHEST, *places) == ([] if passes else ["chest"])


@pytest.mark.parametrize(
    ("narrow", "reached"),
    [pytest.param(500, True, id="no disc fills"), pytest.param(200, True, id="however narrow")],
)
def test_a_place_off_the_dead_end_of_a_way_is_turned_into(narrow, reached):
    """A way of 600 along the bottom wall ends at wall B; the place goes up from its corner.

    A disc does not fill that corner, but nothing stands in it.
    """
    shelf = piece("shelf", narrow, 300, clearances=(clearance(900),))
    block = free("block", 4000 - narrow, 900)
    door = Door("door", D, 0, 600, opens="out")
    case = scenario(room(doors=(door,)), shelf, block, walkway=600)
    places = (at("shelf", "down", 4000 - narrow, 1500, None), at("block", "down", 0, 600))
    assert unreached(case, *places) == ([] if reached else ["shelf"])


@pytest.mark.parametrize(("gap", "reached"), [(600, True), (500, False)])
def test_a_place_behind_a_thin_screen_is_reached_round_its_end(gap, reached):
    """The way runs along a screen 20 thick, the strip of 500 lies behind it: near, but not up to.

    Round the end of the screen at wall D the way must be as wide as everywhere.
    """
    shelf = piece("shelf", 1000, 300, clearances=(clearance(500),))
    door = Door("door", D, 2000, 800, opens="out")
    screen = free("screen", 4000 - gap, 20)
    case = scenario(room(doors=(door,)), shelf, screen, walkway=600)
    places = (at("shelf", "up", gap, 0, C), at("screen", "down", gap, 800))
    assert unreached(case, *places) == ([] if reached else ["shelf"])
