"""Truth tables of the person's own wishes, as musts and as wishes, by both faces.

The piece is a chair 600 x 400 (lying: 600 across, 400 up) unless told otherwise;
"box" is a box 500 x 500 that stands at x 2000..2500, y 1000..1500.
"""

from dataclasses import replace

import pytest
from replayed import confirm
from small_rooms import (
    BAY,
    BREAST,
    PLAIN,
    A,
    D,
    aslant,
    at,
    both_say,
    free,
    on_wall,
    only,
    piece,
    room,
    scenario,
    tied,
    wish,
)

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture, Window
from arrange.judge import judge
from arrange.rules import RULES
from arrange.rules.wished import place_words

BOX = at("box", "down", 2000, 1000)
OWN = {
    "near": "near",
    "away from": "away-from",
    "facing": "facing",
    "against": "against",
    "not against": "not-against",
    "in view of": "in-view-of",
    "beside": "beside",
    "aligned": "aligned",
}


def with_box(*wishes, chair=None):
    return scenario(room(), chair or free("chair"), free("box", 500, 500), wishes=wishes)


def answers(case, placements, ok):
    """As a must the wish is kept or broken by both faces; as a wish it earns all or not all."""
    (asked,) = case.wishes
    rule = OWN[asked.relation]
    both_say(only(replace(case, wishes=(replace(asked, must=True),)), rule), placements, rule, ok)
    earning = only(case, rule)
    arrangement = Arrangement(tuple(placements))
    (reason,) = judge(earning, arrangement).reasons
    confirm(earning, arrangement)
    assert (reason.won == reason.possible) is ok
    return reason


# -- near and away from ------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "y", "gap", "won"),
    [
        # The chair ends 600 right of x; the gap to the box at 2000 is 2000 - 600 - x.
        pytest.param(401, 1000, 999, 1000, id="999 to its left"),
        pytest.param(400, 1000, 1000, 1000, id="at the distance"),
        pytest.param(399, 1000, 1001, 500, id="1 mm too far: half the points"),
        pytest.param(2000, 2500, 1000, 1000, id="1000 above its top at 1500"),
        pytest.param(2000, 2501, 1001, 500, id="1001 above it"),
        # The larger of the two gaps counts: 600 across, 1000 up.
        pytest.param(800, 2500, 1000, 1000, id="corner to corner, 600 and 1000"),
        pytest.param(0, 2500, 1400, 500, id="corner to corner, 1400 and 1000"),
        pytest.param(3300, 1000, 800, 1000, id="on its right"),
    ],
)
def test_near_means_within_the_larger_of_two_gaps(x, y, gap, won):
    """Within 1000 (usual) the whole wish, within 1500 half of it."""
    case = with_box(wish("near", "chair", "box"))
    reason = answers(case, [at("chair", "down", x, y), BOX], won == 1000)
    assert reason.won == won
    assert reason.measured == f"{-(-gap // 10)} cm"  # no nearer than it is


@pytest.mark.parametrize(
    ("y", "won"), [(1065, 1000), (1066, 1000), (1067, 500), (1599, 500), (1600, 0)]
)
def test_near_earns_half_up_to_half_as_far_again(y, won):
    """Within 1066 of a door at y = 0 (so y is the gap): half up to 1066 * 3 // 2 = 1599."""
    shape = room(doors=(Door("door", 2, 200, 800),))
    asked = wish("near", "chair", "door", 1066)
    case = scenario(shape, free("chair"), wishes=[asked])
    assert answers(case, [at("chair", "down", 3000, y)], won == 1000).won == won


@pytest.mark.parametrize(("x", "ok"), [(1400, True), (1399, False)])
def test_near_at_no_distance_means_touching(x, ok):
    """Right edge at 2000 touches the box; 1 mm less does not, and half of nothing is nothing."""
    case = with_box(wish("near", "chair", "box", 0))
    assert answers(case, [at("chair", "down", x, 1000), BOX], ok).won == (1000 if ok else 0)


@pytest.mark.parametrize(
    ("x", "y", "won"),
    [
        pytest.param(0, 1000, 500, id="1400 away: two thirds, 1000, are kept"),
        pytest.param(400, 1000, 500, id="1000 away"),
        pytest.param(401, 1000, 0, id="999 away"),
    ],
)
def test_away_from_a_piece(x, y, won):
    """The usual 1500, with half the points from 1000 on."""
    case = with_box(wish("away from", "chair", "box"))
    assert answers(case, [at("chair", "down", x, y), BOX], False).won == won


@pytest.mark.parametrize(
    ("y", "ok"),
    [(1499, False), (1500, True), (1501, True)],
)
def test_away_from_a_door(y, ok):
    """A door on the bottom wall at y = 0, straight below the chair."""
    shape = room(doors=(Door("door", 2, 200, 800, opens="out"),))
    case = scenario(shape, free("chair"), wishes=[wish("away from", "chair", "door", 1500)])
    answers(case, [at("chair", "down", 3000, y)], ok)


def test_away_from_nothing_at_all_holds_even_above_it():
    """At a distance of 0 a shelf may hang right over the box."""
    shelf = free("shelf", bottom=1400, height=300)
    asked = wish("away from", "shelf", "box", 0)
    case = scenario(room(), shelf, free("box", 500, 500), wishes=[asked])
    answers(case, [at("shelf", "down", 2000, 1000), BOX], True)


def test_near_a_socket_on_a_slanted_wall():
    """A socket 100 to 180 along the 45 degree wall from (0, 2000): its bounds are whole mm.

    x 100 / sqrt 2 = 70.7 .. 127.3, so 70..128; y 2070..2128. A chair at x = 1128 is 1000 off.
    """
    socket = Fixture("socket", "socket", (), 1, 100, 80, solid=False)
    asked = wish("near", "chair", "socket")
    case = scenario(room(BAY, fixtures=(socket,)), free("chair"), wishes=[asked])
    answers(case, [at("chair", "down", 1128, 2000)], True)
    answers(case, [at("chair", "down", 1129, 2000)], False)


def test_a_slanted_piece_is_measured_by_its_upright_bounds():
    """A chest 800 x 400 at 200 along the slanted wall, and a box below it.

    Its corners lie at (141.4, 2141.4), (707.1, 2707.1) and those moved by 400 inward,
    (282.8, -282.8): it reaches down to 2141.4 - 282.8 + 0 = 1858.6, whole mm 1858.
    """
    asked = wish("near", "chest", "box", 300)
    case = scenario(room(BAY), piece("chest", 800, 400), free("box", 500, 500), wishes=[asked])
    answers(case, [aslant("chest", 1, 200), at("box", "down", 0, 1058)], True)
    answers(case, [aslant("chest", 1, 200), at("box", "down", 0, 1057)], False)


# -- several meant by one name ------------------------------------------------
def test_near_one_of_alike_pieces_is_enough_but_away_means_all():
    """Box 1 is 100 off, box 2 is 2000 off."""
    boxes = [free(f"box {i}", 500, 500, model="box") for i in (1, 2)]
    places = [at("chair", "down", 0, 0), at("box 1", "down", 700, 0), at("box 2", "down", 2600, 0)]
    near = scenario(room(), free("chair"), *boxes, wishes=[wish("near", "chair", "box", 150)])
    answers(near, places, True)
    answers(replace(near, wishes=(wish("away from", "chair", "box", 1000),)), places, False)
    answers(replace(near, wishes=(wish("away from", "chair", "box 2", 1000),)), places, True)


def test_a_piece_is_not_near_itself_by_the_name_of_its_model():
    """Chair 1 near "chair" means the other chairs; alone in the room there is none."""
    chairs = [free(f"chair {i}", model="chair") for i in (1, 2)]
    asked = wish("near", "chair 1", "chair", 500)
    both = scenario(room(), *chairs, wishes=[asked])
    answers(both, [at("chair 1", "down", 0, 0), at("chair 2", "down", 1100, 0)], True)
    answers(both, [at("chair 1", "down", 0, 0), at("chair 2", "down", 1101, 0)], False)
    answers(scenario(room(), chairs[0], wishes=[asked]), [at("chair 1", "down", 0, 0)], False)


def _named_breast():
    shape = room(BREAST)
    whole = {1, 2, 3, 4, 5}
    names = ["window wall" if i in whole else w.name for i, w in enumerate(shape.walls)]
    walls = [replace(w, part_of=name) for w, name in zip(shape.walls, names, strict=True)]
    return replace(shape, walls=tuple(walls))


def test_a_wall_in_several_parts_is_met_by_any_of_them():
    """The top wall in five parts: the chest stands in the right alcove."""
    shape, chest = _named_breast(), piece("chest", 800, 400)
    case = scenario(shape, chest, wishes=[wish("against", "chest", "window wall")])
    alcove = [on_wall(chest, shape, 5, 100)]
    answers(case, alcove, True)
    answers(case, [on_wall(chest, shape, 0, 100)], False)
    answers(replace(case, wishes=(wish("not against", "chest", "window wall"),)), alcove, False)
    answers(replace(case, wishes=(wish("against", "chest", "F"),)), alcove, True)


# -- facing and in view --------------------------------------------------------
@pytest.mark.parametrize(
    ("facing", "x", "y", "ok"),
    [
        # Facing down its front is its bottom edge; the box's top is at y = 1500.
        pytest.param("down", 2000, 1500, True, id="straight ahead, touching"),
        pytest.param("down", 1400, 2000, False, id="its width ends where the box begins"),
        pytest.param("down", 1401, 2000, True, id="1 mm of the box within its width"),
        pytest.param("down", 2499, 2000, True, id="1 mm on the other side"),
        pytest.param("down", 2500, 2000, False, id="past it"),
        pytest.param("up", 2000, 2000, False, id="looking away"),
        pytest.param("up", 2000, 600, True, id="from below: its front at 1000"),
        pytest.param("left", 2600, 1000, True, id="from the right"),
        pytest.param("right", 1000, 1000, True, id="from the left"),
        pytest.param("right", 2600, 1000, False, id="from the right, looking away"),
    ],
)
def test_facing_means_straight_ahead(facing, x, y, ok):
    """A chair that has the box before it, within its own width."""
    case = with_box(wish("facing", "chair", "box"))
    answers(case, [at("chair", facing, x, y), BOX], ok)


def test_facing_a_window_in_a_wall():
    """A window 1000..2200 on the top wall: the chair below it looks up, not down."""
    shape = room(windows=(Window("window", A, 1000, 1200),))
    case = scenario(shape, free("chair"), wishes=[wish("facing", "chair", "window")])
    answers(case, [at("chair", "up", 1500, 500)], True)
    answers(case, [at("chair", "down", 1500, 500)], False)
    answers(case, [at("chair", "up", 2200, 500)], False)


def test_a_bare_table_faces_both_ways():
    """Nothing tells its front from its back: two turns of four, each looking both ways."""
    table = free("chair", roles=())
    case = with_box(wish("facing", "chair", "box"), chair=table)
    answers(case, [at("chair", "down", 2000, 300), BOX], True)
    answers(case, [at("chair", "down", 2000, 2000), BOX], True)
    answers(case, [at("chair", "left", 2000, 2000), BOX], False)


@pytest.mark.parametrize(
    ("facing", "y", "ok"),
    [
        # The box's middle is at y = 1250, the chair's at y + 200.
        pytest.param("down", 1051, True, id="its middle 1 mm behind the chair's"),
        pytest.param("down", 1050, False, id="level with it"),
        pytest.param("up", 1050, False, id="level with it, looking up"),
        pytest.param("up", 1049, True, id="1 mm ahead, looking up"),
    ],
)
def test_in_view_means_ahead_of_the_middle(facing, y, ok):
    """The chair stands far to the left of the box: only ahead and behind count."""
    case = with_box(wish("in view of", "chair", "box"))
    answers(case, [at("chair", facing, 0, y), BOX], ok)


def test_a_bed_has_the_door_at_its_side_in_view():
    """A bed 2000 long with its head on the left wall; doors along the bottom wall.

    From its middle at x = 1000 a door whose middle is at 1001 is in view, at 1000 not.
    """
    bed = piece("bed", 900, 2000, roles=("bed", "sleep"))
    for offset, ok in ((2600, False), (2598, True)):
        # Bottom wall from right to left: x = 4000 - offset - 800 .. 4000 - offset.
        shape = room(doors=(Door("door", 2, offset, 800, opens="out"),))
        case = scenario(shape, bed, wishes=[wish("in view of", "bed", "door")])
        answers(case, [on_wall(bed, shape, D, 2000)], ok)


# -- beside and aligned -----------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "y", "ok"),
    [
        pytest.param(1100, 1000, True, id="300 to the left: 2000 - 300 - 600"),
        pytest.param(1099, 1000, False, id="301 to the left"),
        pytest.param(1100, 1499, True, id="level by 1 mm"),
        pytest.param(1100, 1500, False, id="corner to corner"),
        pytest.param(2000, 1800, True, id="300 above"),
    ],
)
def test_beside_means_close_and_level(x, y, ok):
    """Within the usual 300 of the box, not diagonally off its corner."""
    answers(with_box(wish("beside", "chair", "box")), [at("chair", "down", x, y), BOX], ok)


@pytest.mark.parametrize(
    ("facing", "x", "y", "ok"),
    [
        # Middles: box (2250, 1250); a chair facing down has (x + 300, y + 200).
        pytest.param("down", 1970, 300, True, id="middle at 2270"),
        pytest.param("down", 1971, 300, False, id="middle at 2271"),
        pytest.param("down", 1930, 300, True, id="middle at 2230"),
        pytest.param("down", 1929, 300, False, id="middle at 2229"),
        pytest.param("down", 100, 1070, True, id="middle at y 1270"),
        pytest.param("down", 100, 1071, False, id="middle at y 1271"),
        # Both face down: fronts at y = 1000, backs at 1500.
        pytest.param("down", 100, 980, True, id="fronts flush within 20"),
        pytest.param("down", 100, 979, False, id="fronts 21 apart"),
        pytest.param("down", 100, 1120, True, id="backs flush: top at 1520"),
        pytest.param("down", 100, 1121, False, id="backs 21 apart"),
        pytest.param("up", 100, 980, False, id="turned round its edge does not count"),
    ],
)
def test_aligned_means_middles_or_flush_fronts(facing, x, y, ok):
    """Within 20 mm of the box, which faces down."""
    answers(with_box(wish("aligned", "chair", "box")), [at("chair", facing, x, y), BOX], ok)


def test_aligned_with_a_window_means_its_middle():
    """The window 1000..2200 has its middle at 1600: a chair 600 wide at 1300."""
    shape = room(windows=(Window("window", A, 1000, 1200),))
    case = scenario(shape, free("chair"), wishes=[wish("aligned", "chair", "window")])
    for x, ok in ((1280, True), (1279, False), (1320, True), (1321, False)):
        answers(case, [at("chair", "down", x, 1000)], ok)


# -- against a wall -------------------------------------------------------------------
def test_against_means_the_back_of_a_wall_piece():
    """A chest in the corner of A and D has its back on only one of them."""
    shape, chest = room(PLAIN), piece("chest", 800, 400)
    back_on_a = [on_wall(chest, shape, A, 0)]
    for wall, ok in (("A", True), ("D", False)):
        case = scenario(shape, chest, wishes=[wish("against", "chest", wall)])
        answers(case, back_on_a, ok)
        answers(replace(case, wishes=(wish("not against", "chest", wall),)), back_on_a, not ok)


@pytest.mark.parametrize(
    ("facing", "x", "y", "ok"),
    [
        pytest.param("down", 1000, 2600, True, id="back on A"),
        pytest.param("up", 1000, 2600, True, id="front on A"),
        pytest.param("left", 1000, 2400, True, id="side on A: 3000 - 600"),
        pytest.param("down", 1000, 2599, False, id="1 mm off A"),
        pytest.param("down", 0, 1000, False, id="on D instead"),
    ],
)
def test_against_means_any_side_of_a_free_piece(facing, x, y, ok):
    """A chair that stands free touches the top wall."""
    case = scenario(room(), free("chair"), wishes=[wish("against", "chair", "A")])
    answers(case, [at("chair", facing, x, y)], ok)
    case = replace(case, wishes=(wish("not against", "chair", "A"),))
    answers(case, [at("chair", facing, x, y)], not ok)


def test_a_tied_piece_is_against_the_wall_it_touches():
    """The table beside the sofa touches A with its back, the one in front does not."""
    for slot, ok in ((Slot("left", 0, 50), True), (Slot("front", 500, 400), False)):
        pieces = [piece("sofa", 2000, 900), tied("table", "sofa", slot)]
        case = scenario(room(), *pieces, wishes=[wish("against", "table", "A")])
        spot = at("table", "down", 550, 2600) if ok else at("table", "down", 1800, 1300)
        answers(case, [at("sofa", "down", 1000, 2100, A), spot], ok)


def test_against_a_slanted_wall():
    """By its back a wall piece can be; a free piece never is."""
    asked = wish("against", "chest", "B")
    case = scenario(room(BAY), piece("chest", 800, 400), free("chair"), wishes=[asked])
    places = [aslant("chest", 1, 100), at("chair", "down", 2000, 500)]
    answers(case, places, True)
    answers(replace(case, wishes=(wish("against", "chair", "B"),)), places, False)
    answers(replace(case, wishes=(wish("not against", "chair", "B"),)), places, True)


# -- weights and words ------------------------------------------------------------------
def test_wishes_share_the_points_by_their_own_weight():
    """Weights 1 and 3: 250 and 750 of 1000 tenths; the first is kept, the second not."""
    wishes = [
        wish("near", "chair", "box", 3000, weight=1),
        wish("facing", "chair", "box", weight=3),
    ]
    case = only(with_box(*wishes), "near", "facing")
    arrangement = Arrangement((at("chair", "up", 2000, 2000), BOX))
    confirm(case, arrangement)
    assert [(r.won, r.possible) for r in judge(case, arrangement).reasons] == [(250, 250), (0, 750)]


def test_a_broken_wish_is_told_with_its_measure():
    """The sentence names piece, place, what is and what was wished, in the person's unit."""
    asked = wish("near", "chair", "box", 1000, must=True)
    case = only(with_box(asked), "near")
    arrangement = Arrangement((at("chair", "down", 350, 1000), BOX))
    (breach,) = judge(case, arrangement).breaches
    assert breach.sentence == "The chair is 105 cm from the box; you asked for 100 cm or less"


def test_every_relation_has_its_rule():
    """Eight relations, eight rules, all in the registry."""
    assert set(OWN.values()) <= {rule.id for rule in RULES}
    related = {getattr(rule, "relation", None) for rule in RULES} - {None}
    assert related == set(OWN)


def test_a_short_name_is_a_wall_only_where_a_wall_is_called_so():
    """A television called "tv" is no wall; wall A is one."""
    tv = free("tv", 500, 500)
    case = only(
        scenario(room(), free("chair"), tv, wishes=(wish("facing", "chair", "tv"),)), "facing"
    )
    places = at("chair", "right", 500, 1000), at("tv", "down", 2000, 1000)
    (reason,) = judge(case, Arrangement(places)).reasons
    assert reason.sentence == "The chair faces the tv"
    assert place_words(case.room, "A") == "wall A"
