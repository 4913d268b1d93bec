"""Truth tables of the musts: just inside, at and just beyond each limit, by both faces."""

import pytest
from small_rooms import (
    BAY,
    BREAST,
    A,
    B,
    D,
    aslant,
    at,
    both_say,
    clearance,
    free,
    judged,
    on_wall,
    only,
    piece,
    room,
    scenario,
    tied,
)

from arrange.data.arrangement import Arrangement
from arrange.data.person import Person
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture, Window
from arrange.data.scenario import RuleSetting
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.output.rooms import walkway
from arrange.rules.heat import Heat
from arrange.rules.walkway import Walkway

CHEST = piece("chest", 800, 400)


# -- bodies apart -----------------------------------------------------------
@pytest.mark.parametrize(
    ("roles", "bottom", "ok"),
    [
        pytest.param(("rug",), 0, True, id="a rug lies under the chest"),
        pytest.param(("rug", "play"), 0, False, id="nothing stands on a mat to play on"),
        pytest.param(("rug", "play"), 1499, False, id="nor hangs low over it"),
        pytest.param(("rug", "play"), 1500, True, id="a shelf hangs above a child"),
    ],
)
def test_what_may_be_above_a_rug(roles, bottom, ok):
    """A mat of 900 x 600 under a chest on wall D."""
    mat = free("mat", 900, 600, 10, roles=roles, flat=True)
    chest = piece("chest", 800, 400, bottom=bottom)
    case = only(scenario(room(), mat, chest))
    both_say(case, [at("mat", "down", 0, 0), on_wall(chest, room(), D, 0)], "bodies-apart", ok)


# -- backs on walls --------------------------------------------------------
@pytest.mark.parametrize(
    ("placement", "ok"),
    [
        # On A (faces down) the back is at the top: 3000 - 400 = 2600.
        pytest.param(at("chest", "down", 1000, 2600, A), True, id="back on the wall"),
        pytest.param(at("chest", "down", 1000, 2599, A), False, id="1 mm off the wall"),
        pytest.param(at("chest", "down", 0, 2600, A), True, id="flush with the wall's left end"),
        pytest.param(at("chest", "down", 3200, 2600, A), True, id="flush with its right end"),
        pytest.param(at("chest", "up", 1000, 2600, A), False, id="front on the wall"),
        pytest.param(at("chest", "down", 1000, 2600, B), False, id="on another wall than said"),
        pytest.param(at("chest", "down", 1000, 2600), False, id="on no wall"),
        pytest.param(at("chest", "left", 3600, 1000, B), True, id="right wall: x = 4000 - 400"),
    ],
)
def test_a_wall_piece_has_its_back_on_a_wall(placement, ok):
    """A chest 800 x 400 in the plain room."""
    both_say(only(scenario(room(), CHEST)), [placement], "backs-on-walls", ok)


@pytest.mark.parametrize(
    ("x", "ok"),
    [(700, True), (699, True), (701, False)],
)
def test_the_whole_back_lies_within_one_stretch_of_wall(x, ok):
    """Left of the breast the wall is 1500 long: 700 + 800 just fits.

    At 701 the body also enters the breast, so only the rule itself is asked.
    """
    case = only(scenario(room(BREAST), CHEST))
    placement = at("chest", "down", x, 2600, 1)
    broken = judged(case, placement)
    assert ("backs-on-walls" in broken) is not ok
    if ok:
        both_say(case, [placement], "backs-on-walls", True)


def test_a_wall_piece_goes_with_the_angle_of_a_slanted_wall():
    """Straight against the 45 degree wall is right; turned to its side is not."""
    case = only(scenario(room(BAY), CHEST))
    both_say(case, [aslant("chest", 1, 300)], "backs-on-walls", True)
    both_say(case, [aslant("chest", 1, 300, inward=1)], "backs-on-walls", False)
    both_say(case, [aslant("chest", 1, 300, quarter=1)], "backs-on-walls", False)


@pytest.mark.parametrize(
    ("wall", "offset", "ok"),
    [
        # Walls of the breast room: 0 left, 1 top left, 2 and 4 its cheeks, 3 its face, 5, 6, 7.
        pytest.param(0, 0, True, id="inner corner at the left end"),
        pytest.param(0, 1, False, id="1 mm out of the corner"),
        pytest.param(0, 2200, True, id="inner corner at the right end: 3000 - 800"),
        pytest.param(0, 2199, False, id="1 mm short of it"),
        pytest.param(1, 0, True, id="inner corner of the alcove"),
        pytest.param(1, 700, True, id="where the breast comes forward: an inner corner too"),
        pytest.param(3, 0, False, id="free edge of the breast"),
        pytest.param(3, 200, False, id="its other free edge: 1000 - 800"),
    ],
)
def test_a_corner_piece_stands_where_two_walls_meet(wall, offset, ok):
    """A corner cupboard 800 x 400; edges that stick out are no corners."""
    shape, cupboard = room(BREAST), piece("cupboard", 800, 400, stands="corner")
    placement = on_wall(cupboard, shape, wall, offset)
    both_say(only(scenario(shape, cupboard)), [placement], "backs-on-walls", ok)


def test_a_corner_piece_as_wide_as_its_wall_stands_needs_a_real_corner():
    """Two free edges make no corner, even for a piece as wide as the breast's face.

    In the alcove, 1500 wide, both ends are corners and the piece touches both.
    """
    shape = room(BREAST)
    wide, alcove = (piece("cupboard", w, 300, stands="corner") for w in (1000, 1500))
    case = only(scenario(shape, wide))
    both_say(case, [on_wall(wide, shape, 3, 0)], "backs-on-walls", False)
    both_say(only(scenario(shape, alcove)), [on_wall(alcove, shape, 1, 0)], "", True)


def test_free_and_tied_pieces_need_no_wall():
    """A chair in the middle of the floor, and a stool tied beside the chest."""
    case = only(
        scenario(room(), free("chair"), CHEST, tied("stool", "chest", Slot("front", gap=50)))
    )
    places = [at("chair", "up", 2000, 300), at("chest", "down", 0, 2600, A)]
    # In front of the chest, centred: x = (800 - 400) / 2, y = 2600 - 50 - 400.
    both_say(case, [*places, at("stool", "down", 200, 2150)], "backs-on-walls", True)


# -- in their place --------------------------------------------------------
@pytest.mark.parametrize(
    ("placement", "ok"),
    [
        # Sofa 2000 x 900 on A: x 1000..3000, y 2100..3000, facing down. Facing its front,
        # your left hand is toward smaller x.
        pytest.param(at("table", "down", 550, 2600), True, id="left slot: 1000 - 50 - 400"),
        pytest.param(at("table", "down", 3050, 2600), True, id="right slot: 3000 + 50"),
        pytest.param(at("table", "down", 549, 2600), False, id="1 mm too far"),
        pytest.param(at("table", "down", 550, 2599), False, id="1 mm forward"),
        pytest.param(at("table", "up", 550, 2600), False, id="turned round"),
        pytest.param(at("table", "down", 1800, 300), False, id="elsewhere"),
    ],
)
def test_a_tied_piece_stands_exactly_in_a_place(placement, ok):
    """A table tied to the left or right of a sofa, 50 mm off, flush with its back."""
    sofa = piece("sofa", 2000, 900)
    table = tied("table", "sofa", Slot("left", 0, 50), Slot("right", 0, 50))
    case = only(scenario(room(), sofa, table))
    both_say(case, [at("sofa", "down", 1000, 2100, A), placement], "in-their-place", ok)


def test_a_tied_piece_goes_with_a_slanted_host():
    """Beside a chest at 300 along the slanted wall the place starts at 300 + 500 + 50."""
    case = only(
        scenario(
            room(BAY),
            piece("chest", 500, 400),
            tied("stool", "chest", Slot("right", 0, 50), size=300),
        )
    )
    chest = aslant("chest", 1, 300)
    both_say(case, [chest, aslant("stool", 1, 850)], "in-their-place", True)
    both_say(case, [chest, aslant("stool", 1, 851)], "in-their-place", False)


def test_two_pieces_do_not_share_a_place():
    """Two alike stools in one place: named as that, beside the bodies that meet."""
    slots = (Slot("left", 0, 50), Slot("right", 0, 50))
    stools = [tied(f"stool {i}", "sofa", *slots, model="stool") for i in (1, 2)]
    case = only(scenario(room(), piece("sofa", 2000, 900), *stools))
    sofa = at("sofa", "down", 1000, 2100, A)
    left = [at(f"stool {i}", "down", 550, 2600) for i in (1, 2)]
    assert judged(case, sofa, *left) == {"bodies-apart", "in-their-place"}
    both_say(case, [sofa, left[0], at("stool 2", "down", 3050, 2600)], "in-their-place", True)


# -- heat --------------------------------------------------------------------
STOVE = Fixture(
    "stove", "stove", ((1500, 2500), (1500, 3000), (2000, 3000), (2000, 2500)),
    wall=A, offset=1500, width=500, depth=500, top=1200, keep=914, burns=True,
)  # fmt: skip


@pytest.mark.parametrize(
    ("x", "y", "burns", "ok"),
    [
        # The stove fills x 1500..2000, y 2500..3000; what burns stays outside
        # x 586..2914 or below y 1586.
        pytest.param(2914, 2600, True, True, id="beside it at 914"),
        pytest.param(2913, 2600, True, False, id="beside it at 913"),
        pytest.param(1500, 1186, True, True, id="in front at 914: 2500 - 914 - 400"),
        pytest.param(1500, 1187, True, False, id="in front at 913"),
        pytest.param(2913, 1187, True, False, id="off its corner: the corners are square"),
        pytest.param(2000, 2600, False, True, id="what does not burn may touch its side"),
        pytest.param(1500, 1950, False, True, id="and leaves 150 in front: 2500 - 150 - 400"),
        pytest.param(1500, 1951, False, False, id="but not 149"),
    ],
)
def test_what_burns_keeps_off_a_stove(x, y, burns, ok):
    """A seat 600 x 400 that burns, or does not, about a stove on the top wall."""
    case = only(scenario(room(fixtures=(STOVE,)), free("seat", burns=burns)))
    both_say(case, [at("seat", "down", x, y)], "heat", ok)


@pytest.mark.parametrize(
    ("x", "y", "ok"),
    [
        # The breast is at x 1500..2500, its face at y 2600. The fire in it, x 1750..2250, keeps
        # 836..3164 and y 1686..2600 free; the alcoves behind its face begin at y 2600.
        pytest.param(2500, 2600, True, id="in an alcove, behind the face"),
        pytest.param(900, 2600, True, id="in the other"),
        pytest.param(2500, 2599, False, id="1 mm before the face"),
        pytest.param(3164, 2200, True, id="beside it at 914"),
        pytest.param(3163, 2200, False, id="beside it at 913"),
        pytest.param(1700, 1286, True, id="in front at 914: 2600 - 914 - 400"),
        pytest.param(1700, 1287, False, id="in front at 913"),
    ],
)
def test_a_fire_set_into_its_wall_heats_what_is_before_it(x, y, ok):
    """A seat 600 x 400 that burns, about a fire without depth in the face of a breast."""
    breast = ((1500, 3000), (1500, 2600), (2500, 2600), (2500, 3000))
    corners = ((0, 0), (0, 3000), *breast, (4000, 3000), (4000, 0))
    fire = Fixture("fire", "fireplace", (), 3, 250, 500, 0, 0, 1100, keep=914, burns=True)
    case = only(scenario(room(corners, fixtures=(fire,)), free("seat", burns=True)))
    both_say(case, [at("seat", "down", x, y)], "heat", ok)


@pytest.mark.parametrize(("y", "ok"), [(1186, True), (1187, False)])
def test_a_rug_burns_too(y, ok):
    """It keeps the 914 mm as a seat does: 2500 - 914 - 400 = 1186."""
    rug = free("rug", height=15, roles=("rug",), flat=True, burns=True)
    case = only(scenario(room(fixtures=(STOVE,)), rug))
    both_say(case, [at("rug", "down", 1500, y)], "heat", ok)


def test_a_heater_aslant_keeps_its_distance_along_its_own_sides():
    """A square turned by 45 degrees, corners 500 from its middle (2000, 1500), keep 200.

    Its side toward the lower left lies 500 / sqrt 2 = 353.6 from the middle, grown to
    553.6: that line crosses y = 1500 at x = 2000 - 553.6 * sqrt 2 = 1217.2. A seat whose
    corner is at (x, 1500) meets it from x = 1218 on.
    """
    corners = ((1500, 1500), (2000, 2000), (2500, 1500), (2000, 1000))
    stove = Fixture("stove", "stove", corners, top=1200, keep=200, burns=True)
    case = only(scenario(room(fixtures=(stove,)), free("seat", burns=True)))
    both_say(case, [at("seat", "down", 617, 1500)], "heat", True)
    both_say(case, [at("seat", "down", 620, 1500)], "heat", False)


def test_a_free_standing_heater_without_a_distance_gets_the_published_one():
    """914 mm on all sides, and the person's own value instead where one is set."""
    stove = Fixture("stove", "stove", ((0, 0), (0, 500), (500, 500), (500, 0)), burns=True)
    seat = free("seat", burns=True)
    case = only(scenario(room(fixtures=(stove,)), seat))
    assert Heat().regions(case)[0].shape.bounds == (-914, -914, 1414, 1414)
    own = only(scenario(room(fixtures=(stove,)), seat, settings=(RuleSetting("heat", least=100),)))
    # The lesser distance also bounds what other pieces leave.
    assert [r.shape.bounds[2] for r in Heat().regions(own)] == [600, 600]
    both_say(own, [at("seat", "down", 600, 0)], "heat", True)
    both_say(own, [at("seat", "down", 599, 0)], "heat", False)


# -- headroom ----------------------------------------------------------------
@pytest.mark.parametrize(("ceiling", "ok"), [(2212, True), (2211, True), (2210, False)])
def test_a_bunk_bed_has_headroom(ceiling, ok):
    """Top of the upper mattress at 1500, 711 above it: a ceiling of 2211 just does."""
    bunk = piece("bunk", 1000, 2000, 1500, headroom=711)
    case = only(scenario(room(ceiling=ceiling), bunk))
    both_say(case, [at("bunk", "down", 0, 1000, A)], "headroom", ok)


# -- windows -----------------------------------------------------------------
def _with_window(**more):
    return room(windows=(Window("window", A, 1000, 1200, sill=1100, head=2200, **more),))


@pytest.mark.parametrize(
    ("y", "height", "ok"),
    [
        pytest.param(2001, 451, False, id="599 before the window, above seat height"),
        pytest.param(2000, 451, True, id="600 before it"),
        pytest.param(2001, 450, True, id="seat height: can be stepped on"),
    ],
)
def test_the_floor_before_an_escape_window_stays_clear(y, height, ok):
    """The floor is 1200 wide and as deep as the walkway, 600: down to y = 2400."""
    case = only(scenario(_with_window(escape=True), free("chest", height=height)))
    both_say(case, [at("chest", "down", 1000, y)], "escape-window", ok)


def test_an_ordinary_window_asks_nothing_of_low_pieces():
    """The same chest in the same place, where the window is no way out."""
    case = only(scenario(_with_window(), free("chest")))
    both_say(case, [at("chest", "down", 1000, 2600)], "escape-window", True)


@pytest.mark.parametrize(
    ("x", "y", "ok"),
    [
        pytest.param(2200, 2300, True, id="beside the window, which ends at 2200"),
        pytest.param(2199, 2300, False, id="1 mm before it"),
        pytest.param(1000, 2000, True, id="300 off: 3000 - 300 - 700"),
        pytest.param(1000, 2001, False, id="299 off"),
    ],
)
def test_a_cot_stands_away_from_windows(x, y, ok):
    """A cot 1260 x 700, 950 high: lower than the sill, yet not before a window."""
    cot = free("cot", 1260, 700, 950, roles=("cot", "sleep"))
    both_say(only(scenario(_with_window(), cot)), [at("cot", "down", x, y)], "cot-window", ok)


def test_a_bed_may_stand_under_a_window():
    """Only cots are kept off; a bed lower than the sill is a matter of wishes."""
    bed = free("bed", 900, 700, 500, roles=("sleep", "bed"))
    both_say(only(scenario(_with_window(), bed)), [at("bed", "down", 1000, 2300)], "", True)


# -- walkway -----------------------------------------------------------------
def test_the_walkway_names_what_cannot_be_reached():
    """A chest behind a wall of pieces: one breach, in the person's unit and words."""
    chest = piece("chest", 800, 400, clearances=(clearance(500),))
    screen = free("screen", 200, 3000)
    shape = room(doors=(Door("door", D, 200, 800),))
    case = scenario(shape, chest, screen)
    # The screen stands from bottom to top between the door (left) and the chest (right).
    places = (at("chest", "left", 3600, 1000, B), at("screen", "down", 1500, 0))
    arrangement = Arrangement(places)
    breaches = [b for b in judge(case, arrangement).breaches if b.rule == "walkway"]
    assert [b.subjects for b in breaches] == [("chest",)]
    assert breaches[0].sentence.startswith("The chest cannot be reached by a walkway 60 cm wide")


def test_the_walkway_width_names_its_source():
    """One for all rooms; and the record says where the width is the person's own."""
    assert Walkway.source == "walk-main-range"
    shape = room(doors=(Door("door", D, 200, 800),))
    for own in (False, True):
        case = scenario(shape, CHEST, walkway_overridden=own)
        scene = Scene(case, Arrangement((at("chest", "left", 3600, 1000, B),)))
        assert walkway(scene)["overridden"] is own


# -- who lives here ----------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "y", "more", "ok"),
    [
        pytest.param(1000, 2300, {}, True, id="300 off the window: 3000 - 300 - 400"),
        pytest.param(1000, 2301, {}, False, id="299 off"),
        pytest.param(2200, 2600, {}, True, id="beside the window, which ends at 2200"),
        pytest.param(2199, 2600, {}, False, id="1 mm before it"),
        pytest.param(1000, 2600, {"height": 149}, True, id="too low to help a climb"),
        pytest.param(1000, 2600, {"height": 150}, False, id="a step"),
        pytest.param(1000, 2600, {"height": 1000}, False, id="as high as a child climbs"),
        pytest.param(1000, 2600, {"height": 1001}, True, id="higher, and below the sill"),
        pytest.param(1000, 2600, {"bottom": 1}, True, id="it hangs"),
        pytest.param(1000, 2600, {"flat": True}, True, id="a rug"),
    ],
)
def test_nothing_to_climb_on_stands_at_a_window_where_a_child_climbs(x, y, more, ok):
    """A chest 600 x 400, 800 high; 300 mm are common practice, as before a cot."""
    child = Person("Mo", age=4, climbs=True)
    case = only(scenario(_with_window(), free("chest", **more), people=(child,)))
    both_say(case, [at("chest", "down", x, y)], "climbing", ok)


def test_where_nobody_climbs_low_pieces_may_stand_at_a_window():
    """The same chest before the same window, with a child who does not climb, and switched off."""
    still = scenario(_with_window(), free("chest"), people=(Person("Mo", age=4),))
    off = (RuleSetting("climbing", off=True),)
    told = scenario(
        _with_window(), free("chest"), people=(Person("Mo", climbs=True),), settings=off
    )
    for case in (still, told):
        both_say(only(case), [at("chest", "down", 1000, 2600)], "climbing", True)


# The larger sides are those of `din-turn-wc` and `din-turn` (DIN 18040-2): 150 and 120 cm.
@pytest.mark.parametrize(
    ("aids", "y", "ok"),
    [
        pytest.param(("wheelchair",), 1501, True, id="1501 left below the block"),
        pytest.param(("wheelchair",), 1500, True, id="150 cm"),
        pytest.param(("wheelchair",), 1499, False, id="1 mm less"),
        pytest.param(("walking frame",), 1200, True, id="120 cm for a walking frame"),
        pytest.param(("walking frame",), 1199, False, id="1 mm less than that"),
        pytest.param(("walking frame", "wheelchair"), 1499, False, id="the stricter of two"),
        pytest.param(("stick", "crutches"), 100, True, id="no square is asked for these"),
    ],
)
def test_there_is_room_to_turn(aids, y, ok):
    """A block as wide as the room, from y up: below it the floor is 4000 by y."""
    people = tuple(Person(aid, uses=aid) for aid in aids)
    block = free("block", 4000, 3000 - y)
    case = only(scenario(room(), block, people=people))
    both_say(case, [at("block", "down", 0, y)], "turning-space", ok)


@pytest.mark.parametrize(("y", "ok"), [(2900, True), (2899, False)])
def test_no_door_opens_into_the_floor_to_turn(y, ok):
    """A leaf of 1400 in the middle of 4000 leaves 1300 on either side, and y - 1400 behind it."""
    door = Door("door", 2, 1300, 1400, "in")
    block = free("block", 4000, 100)
    case = only(scenario(room(doors=(door,)), block, people=(Person("Ada", uses="wheelchair"),)))
    both_say(case, [at("block", "down", 0, y)], "turning-space", ok)


@pytest.mark.parametrize(
    ("climbs", "height", "ok"),
    [(True, 1100, True), (True, 1101, False), (False, 1200, True), (False, 1201, False)],
)
def test_where_a_child_climbs_nothing_is_higher_than_the_sill(climbs, height, ok):
    """A sill at 1100; elsewhere 10 cm more may stand there."""
    child = Person("Mo", climbs=climbs)
    case = only(scenario(_with_window(), free("chest", height=height, roles=()), people=(child,)))
    both_say(case, [at("chest", "down", 1000, 2600)], "windows-clear", ok)
