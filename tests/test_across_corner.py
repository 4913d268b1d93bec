"""Pieces across a corner at 45 degrees, by both faces: worked by hand at their limits.

The armchair is 900 x 850. Across the corner of walls D and A, the one at (0, 3000), its back
runs from (0, 2363.6) to (636.4, 3000): 900 / sqrt 2 = 636.40 from the corner along both walls.
It is 850 deep, 850 / sqrt 2 = 601.04 across the plan and down it, so that its front runs from
(601.04, 1762.56) to (1237.44, 2398.96), on the line y = x + 1161.52.
"""

import math
from dataclasses import replace

import pytest
from agreement import best_score
from metamorphic import mirrored, turned
from recheck import astray_across
from shapely import box
from shapely.affinity import rotate
from small_rooms import (
    BAY,
    BREAST,
    A,
    allowed,
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

from arrange import ScenarioError, read_text
from arrange.budget import Budget
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture
from arrange.different import differ
from arrange.geometry.across import across_corner, can_cross, ways_across
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import footprint
from arrange.judge import at_its_best, judge
from arrange.output.fields import About
from arrange.output.rooms import PLACEMENT
from arrange.solver.feasibility import decide
from arrange.whatif.move import MoveError, move
from arrange.whatif.requirements import shrinks
from arrange.whatif.setting_out import setting_out
from arrange.words.places import stands_words
from arrange.words.suggest import set_down_words

CORNERS = range(4)  # of the plain room: D and A, A and B, B and C, C and D
CHAIR = free("armchair", 900, 850, 900, roles=("seat", "lounge"), across_corner=True)
STOOL = free("stool", 400, 400, 450)
THERE = across_corner(CHAIR, 0)


def test_the_ends_of_the_back_lie_636_mm_from_the_corner():
    """And the middle of the front is 450 + 850 = 1300 off it, on the way into the room."""
    placed = Scene(scenario(room(), CHAIR), Arrangement((THERE,))).placed[0]
    back = [(0.0, 2363.604), (636.396, 3000.0)]
    front = [(1237.437, 2398.959), (601.041, 1762.563)]
    corners = list(placed.body.exterior.coords)[:-1]
    assert corners == [pytest.approx(point, abs=1e-3) for point in (*back, *front)]
    assert (placed.x0, placed.y0, placed.x1, placed.y1) == (0, 1762, 1238, 3000)
    middle = (front[0][0] + front[1][0]) / 2, (front[0][1] + front[1][1]) / 2
    assert math.dist(middle, (0, 3000)) == pytest.approx(1300, abs=1e-3)


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("width", [900, 901])
def test_it_is_what_another_library_turns_by_45_degrees(corner, width):
    """Drawn facing down, its back half its width below the corner, and turned about that.

    One of an odd width is half a mm off the middle: 451 to the left of the corner for 901.
    """
    shape, one = room(), replace(CHAIR, width=width)
    x, y = shape.corners[corner]
    off = -(-width // 2)
    upright = box(x - off, y - off - 850, x - off + width, y - off)
    turned = rotate(upright, 45 - 90 * corner, origin=(x, y))
    body = footprint(one, across_corner(one, corner), shape)
    assert body.symmetric_difference(turned).area < 1e-3
    assert body.difference(box(0, 0, 4000, 3000)).area < 1e-6


@pytest.mark.parametrize(
    ("x", "top", "ok"),
    [
        pytest.param(900, 2061, True, id="1 mm off the front"),
        pytest.param(900, 2062, False, id="0.3 mm into it"),
        pytest.param(1238, 3000, True, id="beside the farthest corner"),
        pytest.param(1236, 2500, False, id="1 mm into that corner"),
    ],
)
def test_what_stands_before_it(x, top, ok):
    """Y = 900 + 1161.52 = 2061.52 on the line of its front; the box round it has no say."""
    case = only(scenario(room(), CHAIR, STOOL))
    both_say(case, [THERE, at("stool", "down", x, top - 400)], "bodies-apart", ok)


@pytest.mark.parametrize(("top", "ok"), [(1409, True), (1410, False)])
def test_the_floor_before_it_is_turned_with_it(top, ok):
    """500 deep: 500 / sqrt 2 = 353.55 on from the front, so its lowest corner is at 1409.01."""
    chair = replace(CHAIR, clearances=(clearance(500),))
    case = only(scenario(room(), chair, STOOL))
    both_say(case, [THERE, at("stool", "down", 900, top - 400)], "least-clearance", ok)


@pytest.mark.parametrize(("offset", "ok"), [(737, True), (736, False)])
def test_what_is_built_in_beside_it(offset, ok):
    """100 mm off wall A it reaches 636.40 + 100 = 736.40 along it."""
    corners = [(offset, 2900), (offset, 3000), (offset + 500, 3000), (offset + 500, 2900)]
    pipe = Fixture("box", "boxed pipes", tuple(corners), A, offset, 500, 100, top=2500)
    case = only(scenario(room(fixtures=(pipe,)), CHAIR))
    both_say(case, [THERE], "fixtures-free", ok)


@pytest.mark.parametrize(("offset", "ok"), [(1238, True), (1237, False)])
def test_a_door_beside_it(offset, ok):
    """Its floor is 700 deep, and the front reaches 1237.44 along wall A, 601.04 off it."""
    shape = room(doors=(Door("door", A, offset, 800, opens="out"),))
    case = only(scenario(shape, CHAIR, walkway=700))
    both_say(case, [THERE], "door-floor", ok)


@pytest.mark.parametrize(
    ("shape", "width", "fitting"),
    [
        pytest.param(room(), 900, [0, 1, 2, 3], id="all four of a rectangle"),
        pytest.param(room(), 4242, [0, 1, 2, 3], id="as wide as the shorter wall is long"),
        pytest.param(room(), 4243, [], id="1 mm wider"),
        pytest.param(room(BAY), 900, [0, 5], id="not where a wall is slanted"),
        pytest.param(room(BREAST), 424, [0, 1, 2, 5, 6, 7], id="a niche 300 deep"),
        pytest.param(room(BREAST), 425, [0, 1, 6, 7], id="too wide for it"),
    ],
)
def test_the_corners_it_can_stand_across(shape, width, fitting):
    """4242 / sqrt 2 = 2999.5, 424 / sqrt 2 = 299.8, 425 / sqrt 2 = 300.5.

    The breast has corners 3 and 4, which stand out; 2 and 5 are at its feet.
    """
    one = replace(CHAIR, width=width)
    assert [i for i in range(len(shape.walls)) if can_cross(shape, one, i)] == fitting


@pytest.mark.parametrize(
    ("one", "there", "rules"),
    [
        pytest.param(CHAIR, THERE, set(), id="as it may"),
        pytest.param(CHAIR, replace(THERE, inward=500), {"backs-on-walls"}, id="50 mm out"),
        pytest.param(
            replace(CHAIR, across_corner=False), THERE, {"backs-on-walls"}, id="not said to"
        ),
        pytest.param(
            replace(CHAIR, stands="across"),
            at("armchair", "down", 1000, 1000),
            {"backs-on-walls"},
            id="only across, and free",
        ),
        pytest.param(
            replace(CHAIR, stands="wall"),
            at("armchair", "down", 1000, 1000),
            {"backs-on-walls"},
            id="at a wall or across, and free",
        ),
        pytest.param(replace(CHAIR, stands="wall"), THERE, set(), id="at a wall or across"),
    ],
)
def test_who_may_stand_across_a_corner(one, there, rules):
    """The judge and the model say the same of each."""
    case = only(scenario(room(), one))
    assert judged(case, there) == rules
    assert allowed(case, there) is (not rules)


@pytest.mark.parametrize(("top", "answer"), [(561, "works"), (562, "impossible")])
def test_what_the_exact_shape_allows_is_found_and_else_impossible(top, answer):
    """1700 x 1700, a chest held at x 700 to 1100: all but one corner are taken by it.

    From the corner (0, 1700) the front lies on y = x + 1700 - 1300 sqrt 2 = x - 138.48, which is
    561.52 at x = 700. The box round the chair, down to 462.56, meets the chest in both.
    """
    shape = room(((0, 0), (0, 1700), (1700, 1700), (1700, 0)))
    chest = free("chest", 400, 400, 800, roles=("store",))
    held = (at("chest", "down", 700, top - 400),)
    case = only(scenario(shape, replace(CHAIR, stands="across"), chest, held=held))
    found = decide(case, Budget(20))
    assert found.answer == answer
    assert found.arrangement is None or found.arrangement.of("armchair").corner == 1


def test_what_goes_with_it_is_turned_with_it():
    """A footstool before it, 400 square and 100 off: its near side is 450 + 850 + 100 off."""
    stool = tied("stool", "armchair", Slot("front", gap=100))
    chair = replace(CHAIR, stands="across")
    case = only(scenario(room(), chair, stool))
    there = Placement("stool", None, offset=-200, inward=1400, corner=0)
    both_say(case, [THERE, there], "in-their-place", True)
    both_say(case, [THERE, replace(there, inward=1401)], "in-their-place", False)
    told = setting_out(case, Arrangement((THERE, there)))
    assert [set_down_words(one, "cm") for one in told][1].startswith("turned at 45 degrees, ")


def test_it_counts_as_looking_the_better_way():
    """Facing the sofa on wall C from the corner of D and A, it looks down the plan."""
    sofa = piece("sofa", 1800, 900, roles=("seat", "sofa"))
    chair = replace(CHAIR, goes_with=("sofa",))
    case = scenario(room(), chair, sofa)
    line = case.room.across(0)
    assert set(ways_across(line)) == {"down", "right"}
    placed = Arrangement((THERE, on_wall(sofa, case.room, 2, 1500)))
    best = at_its_best(case, placed)
    scores = {
        way: judge(case, Arrangement((replace(THERE, looks=way), *placed.placements[1:]))).score
        for way in ways_across(line)
    }
    assert judge(case, best).score == max(scores.values())
    assert best == placed
    assert not differ(case, best, placed)


def test_a_mirrored_or_turned_room_is_as_good():
    """Its best counts the chair as looking one of two ways: in the mirror, the other one."""
    sofa = piece("sofa", 1500, 800, roles=("seat", "sofa"))
    chair = replace(CHAIR, stands="across", goes_with=("sofa",))
    opening = Door("door", 2, 300, 800)
    case = only(scenario(room(doors=(opening,)), chair, sofa), "seats-turned", "talking-distance")
    best = best_score(case, canonical=True)
    assert best > 0
    assert best_score(mirrored(case), canonical=True) == best
    assert best_score(turned(case), canonical=True) == best


def test_it_is_written_and_read_back():
    """With the walls of its corner and the way it counts as looking."""
    case = scenario(room(), CHAIR)
    there = replace(THERE, looks="right", quarter=0)
    about = About(case)
    data = PLACEMENT.write(there, about)
    assert data["corner"] == ["D", "A"]
    assert (data["wall"], data["facing"], data["slanted"]) == (None, "right", True)
    assert (data["from_left"], data["off_wall"]) == (-450, 450)
    back = PLACEMENT.read(data, about)
    assert (back, back.looks) == (there, "right")
    assert "corner" not in PLACEMENT.write(at("armchair", "up", 0, 0), about)


@pytest.mark.parametrize("change", [{"facing": "left"}, {"corner": ["B", "C"]}])
def test_a_way_that_it_cannot_look_there_is_refused(change):
    """Across the corner of D and A it looks down or right, across that of B and C up or left."""
    about = About(scenario(room(), CHAIR))
    with pytest.raises(ValueError, match="across the corner"):
        PLACEMENT.read({**PLACEMENT.write(THERE, about), **change}, about)


@pytest.mark.parametrize(("pushed", "astray"), [(0, []), (5, ["armchair"])])
def test_the_check_from_the_page_alone_notices_one_that_is_pushed(pushed, astray):
    """5 mm off along the wall, when it should be within 1."""
    case = scenario(room(), CHAIR)
    body = Scene(case, Arrangement((THERE,))).placed[0].body
    walls = [
        {"name": w.name, "left_end": list(w.start), "right_end": list(w.end)}
        for w in case.room.walls
    ]
    one = {"name": "armchair", "width": 900, "depth": 850, "goes_with": None}
    one["footprint"] = [(x + pushed, y) for x, y in body.exterior.coords]
    one["placement"] = PLACEMENT.write(THERE, About(case))
    assert astray_across({"room": {"walls": walls}}, {"pieces": [one]}) == astray


def test_how_its_place_is_told():
    """By the corner's walls, and by how far its back's ends are along them: 63.6 cm."""
    case = scenario(room(), CHAIR)
    (one,) = setting_out(case, Arrangement((THERE,)))
    assert {one.across.length, one.up.length} == {636}
    words = "across the corner between wall D and wall A, the ends of its back 64 cm from it"
    assert set_down_words(one, "cm") == f"{words} along both walls"
    told = stands_words(case, THERE)
    assert told.startswith("across the corner between ")
    assert "(D)" in told
    assert "(A)" in told


def test_a_narrower_one_is_not_sure_to_fit_where_a_wider_one_does():
    """It stands deeper in the corner, where a pipe may be; a shallower one is a part of it."""
    case = scenario(room(), CHAIR)
    assert not shrinks(case, "armchair", "width")
    assert shrinks(case, "armchair", "depth")
    plain = scenario(room(), replace(CHAIR, across_corner=False))
    assert shrinks(plain, "armchair", "width")


def test_it_is_moved_into_a_corner_and_not_slid_about_there():
    """In either order of the walls; what cannot be says why."""
    case = only(scenario(room(), CHAIR))
    free_ = Arrangement((at("armchair", "down", 1500, 1000),))
    found = move(case, free_, "armchair", "across the corner of wall A and D")
    assert found.works
    assert found.arrangement.of("armchair") == THERE
    with pytest.raises(MoveError, match="stands across a corner"):
        move(case, found.arrangement, "armchair", "20 cm left")
    with pytest.raises(MoveError, match="do not meet in a corner"):
        move(case, free_, "armchair", "across the corner of A and C")
    bare = only(scenario(room(), replace(CHAIR, across_corner=False)))
    with pytest.raises(MoveError, match="is not said to stand across a corner"):
        move(bare, free_, "armchair", "across the corner of A and D")


ROOM = """
unit = "cm"
[room]
size = [400, 300]
ceiling = 250
[[door]]
wall = "C"
from_left = 50
width = 80
[[piece]]
kind = "armchair"
width = 90
depth = 85
"""


@pytest.mark.parametrize("pair", ['["A", "D"]', '["d", "a"]'])
def test_where_it_stands_today_is_read(pair):
    """In either order of the walls."""
    text = f"across_corner = true\nstays = true\nstands_now = {{ across_corner = {pair} }}"
    case = read_text(ROOM + text)
    (there,) = case.held
    corner = case.room.walls.index(next(w for w in case.room.walls if w.name == "A"))
    assert (there.facing, there.corner, there.inward) == (None, corner, 450)
    assert case.piece("armchair").crosses


SLIPS = [
    ('stands_now = { across_corner = ["A", "D"] }', "add across_corner = true"),
    ('across_corner = true\nstands_now = { across_corner = ["A", "C"] }', "do not meet"),
    ('across_corner = true\nstands_now = { across_corner = "A" }', "the two walls of a corner"),
    (
        'across_corner = true\nstands_now = { across_corner = ["A", "D"], wall = "A", '
        "from_left = 3 }",
        "a wall and a corner given; give only one of the two",
    ),
    ('across_corner = true\nwith = "armchair"', "across a corner, and with"),
    (
        'across_corner = true\nshape = "L"\narm_width = 40\nback_depth = 40',
        "is an L, and cannot stand across a corner",
    ),
    (
        'stands = "across"\nstays = true\nstands_now = { across = 100, up = 100, facing = "up" }',
        "is not across a corner there",
    ),
]


@pytest.mark.parametrize(("more", "message"), SLIPS, ids=[message[:20] for _, message in SLIPS])
def test_what_cannot_be_is_told(more, message):
    """One message, with what to write instead."""
    with pytest.raises(ScenarioError, match=message) as caught:
        read_text(ROOM + more)
    assert len(caught.value.faults) == 1
