"""Sloping ceilings: what fits under, what can be used there, where one walks, what counts.

The slope of most rooms here rises from wall D (x = 0) from 1000 to the ceiling at 2500 over
1500: a millimetre up for each across, so that the ceiling is 1000 + x high at x.
"""

from dataclasses import replace

import pytest
from small_rooms import (
    BAY,
    A,
    B,
    C,
    D,
    aslant,
    at,
    both_say,
    clearance,
    free,
    on_wall,
    only,
    piece,
    room,
    scenario,
    tied,
)

from arrange.data.arrangement import Arrangement
from arrange.data.piece import SEATED, STANDING, Slot
from arrange.data.room import Door, Slope
from arrange.data.scenario import RuleSetting
from arrange.errors import ScenarioError
from arrange.geometry.ceilings import area_under, ceiling_area, ceiling_over, low_floor, wall_face
from arrange.geometry.scene import Scene
from arrange.geometry.walking import goals, walk_of
from arrange.judge import judge
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.scenario.read import read_text
from arrange.whatif.requirements import declared, keep_only
from arrange.words.check import area_words

fast = pytest.mark.fast
AT_D = Slope(D, 1000, 1500)
ATTIC = room(slopes=(AT_D,))


# -- shapes and areas ------------------------------------------------------
@fast
def test_the_ceiling_rises_from_its_wall_and_the_lower_of_two_counts():
    """Up from D by 1 a mm; up from A (y = 3000) from 2000 by 1/2 a mm over 1000."""
    both = room(slopes=(AT_D, Slope(A, 2000, 1000)))
    assert [ceiling_over(ATTIC, x, 0) for x in (0, 700, 1500, 4000)] == [1000, 1700, 2500, 2500]
    assert ceiling_over(both, 3000, 2600) == 2200  # 2000 + 400 / 2
    assert ceiling_over(both, 700, 2600) == 1700
    assert ceiling_over(room(), 0, 0) == 2500


@fast
def test_floor_that_is_too_low_is_rounded_up():
    """1250 is reached 250 off D; from 1001 over 1499.5 it would be a part of a mm."""
    assert [s.bounds for s in low_floor(ATTIC, 1250)] == [(0, 0, 250, 3000)]
    assert low_floor(ATTIC, 1000) == ()
    # (1500 - 1000) * 1000 / 1500 = 333.3
    steep = room(slopes=(Slope(D, 1000, 1000),))
    assert [s.bounds[2] for s in low_floor(steep, 1500)] == [334]


@fast
def test_area_counts_by_headroom_as_published():
    """`ndss-headroom` from 1500 mm, `irc-ceiling` from 1524, half of it from 2134; by hand.

    A room of 5 x 4 m, slopes of 1200 mm from 1000 to 2200 on both short sides, 1 a mm: 500,
    524 and 1134 mm off each. 4 * (5 - 1.0) = 16.00; 4 * (5 - 1.048) = 15.81; and
    4 * (5 - 2.268) = 10.93, more than half of 15.81.
    """
    corners = ((0, 4000), (5000, 4000), (5000, 0), (0, 0))
    slopes = (Slope(D, 1000, 1200), Slope(B, 1000, 1200))
    attic = room(corners, ceiling=2200, slopes=slopes)
    areas = [round(area_under(attic, h) / 1e6, 3) for h in (0, 1500, 1524, 2134)]
    assert areas == [20.0, 16.0, 15.808, 10.928]
    first, second = area_words(scenario(attic, unit="cm"))
    assert "Of 20.00 m² of floor, the space standard of England counts 16.00 m²" in first
    assert second.startswith("The US residential code counts 15.81 m²")
    # With 2000 mm off each at 2134 only 4 * (5 - 4) = 4 are so high: twice 4 count.
    low = (replace(slopes[0], until=2117), replace(slopes[1], until=2117))
    words = area_words(scenario(replace(attic, slopes=low), unit="cm"))
    # 1134 * 2117 / 1200 = 2000.6, rounded up to 2001: 4 * (5 - 4.002) = 3.99, twice is 7.98.
    assert words[1].startswith("The US residential code counts 7.98 m²")
    assert area_words(scenario(room())) == ()


@fast
@pytest.mark.parametrize(
    ("slopes", "walls", "ceiling"),
    [
        ((), (10, 7.5, 10, 7.5), 12),
        # A and C less a triangle of 1.5 x 1.5; 1.5 x 3 of floor under a slope of 1 in 1.
        ((AT_D,), (8.875, 7.5, 8.875, 3), 7.5 + 4.5 * 2**0.5),
        # A is as low as its own slope all along; 4.5 + 6 - 2.25 of floor under the two.
        ((AT_D, Slope(A, 1000, 1500)), (4, 6.375, 8.875, 3), 3.75 + 8.25 * 2**0.5),
        # They meet where 1 + x = 2 + v / 2, so at x = 1 m at A and 1.5 m where both end, 1 m off
        # A: under D's 2 x 1.5 and 1 x 1.25, under A's, 1 in 2, 1 x 2.75. Along A the ceiling is
        # at 2 m but for a triangle of 1 x 1 at D; B loses 1 x 0.5 / 2; of D nothing is left out.
        (
            (AT_D, Slope(A, 2000, 1000)),
            (7.5, 7.25, 8.875, 3),
            5 + 4.25 * 2**0.5 + 2.75 * 1.25**0.5,
        ),
    ],
)
def test_walls_end_where_the_ceiling_slopes_and_slopes_are_longer_than_their_floor(
    slopes, walls, ceiling
):
    """A room of 4 x 3 m, 2.5 m high; by hand, in m2."""
    attic = room(slopes=slopes)
    assert [wall_face(attic, w) / 1e6 for w in attic.walls] == pytest.approx(walls)
    assert ceiling_area(attic) / 1e6 == pytest.approx(ceiling)


# -- bodies ------------------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "height", "ok"),
    [
        pytest.param(0, 1000, True, id="as high as the wall"),
        pytest.param(0, 1001, False, id="1 mm higher"),
        pytest.param(1, 1001, True, id="1 mm off it"),
        pytest.param(799, 1800, False, id="1 mm short of where the ceiling is at 1800"),
        pytest.param(800, 1800, True, id="just there"),
        pytest.param(1500, 2500, True, id="as high as the room"),
        pytest.param(1499, 2500, False, id="and 1 mm too near"),
    ],
)
def test_a_piece_stands_where_it_fits_under(x, height, ok):
    case = only(scenario(ATTIC, free("box", height=height, roles=())))
    both_say(case, [at("box", "down", x, 500)], "inside-room", ok)


@pytest.mark.parametrize(("x", "ok"), [(199, False), (200, True)])
def test_what_hangs_goes_by_its_top(x, ok):
    """A shelf from 900 to 1200."""
    case = only(scenario(ATTIC, piece("shelf", 600, 300, 300, bottom=900)))
    both_say(case, [at("shelf", "down", x, 2700, A)], "inside-room", ok)


@pytest.mark.parametrize(("t", "ok"), [(282, False), (283, True)])
def test_a_piece_on_a_slanted_wall_fits_under_too(t, ok):
    """Wall 1 of the bay runs from (0, 2000) at 45 degrees; its back left corner is nearest to A.

    A slope from the top wall (2), 1000 to 2500 over 1500: 1200 needs y up to 2800. A box
    with its back from t to t + 800 along the wall reaches up to y = 2000 + (t + 800) / sqrt 2;
    that grows with t. From the bottom wall (5): its front corner at the left end comes down
    to y = 2000 + (t - 400) / sqrt 2 = 1916.6 at t = 282, 1917.3 at 283: so a ceiling that is
    high enough from 1917 on takes the second alone.
    """
    # 1200 = 1000 + 200, over until / 1500: 200 * until / 1500 = 1917 for until 14377.5.
    shape = room(BAY, slopes=(Slope(5, 1000, 14377),))
    assert [s.bounds[3] for s in low_floor(shape, 1200)] == [1917]
    case = only(scenario(shape, piece("chest", 800, 400, 1200)))
    both_say(case, [aslant("chest", 1, t)], "inside-room", ok)


# -- floor to use it ---------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "headroom", "ok"),
    [
        pytest.param(900, STANDING, True, id="who stands has 1900 from x = 900 on"),
        pytest.param(899, STANDING, False, id="1 mm less"),
        pytest.param(400, SEATED, True, id="who sits has 1400 from x = 400 on"),
        pytest.param(399, SEATED, False, id="1 mm less there"),
    ],
)
def test_the_floor_to_use_a_piece_has_headroom(x, headroom, ok):
    """Beside a box 900 high, its strip as wide as it is."""
    use = (clearance(500, headroom=headroom),)
    case = only(scenario(ATTIC, free("box", height=900, roles=("store",), clearances=use)))
    both_say(case, [at("box", "down", x, 1500)], "least-clearance", ok)


@pytest.mark.parametrize("depth", [600, 599])
def test_a_deeper_strip_meets_the_slope(depth):
    """A box facing D with its front at x = 1500: who stands has 600, from 900 on."""
    use = (clearance(depth, headroom=STANDING),)
    case = only(scenario(ATTIC, free("box", height=900, roles=("store",), clearances=use)))
    both_say(case, [at("box", "left", 1500, 1000)], "least-clearance", True)
    both_say(case, [at("box", "left", 1499, 1000)], "least-clearance", depth < 600)


@fast
def test_what_the_ceiling_takes_is_said():
    """At x = 1000, facing D: who stands has 100, down to x = 900, though all that floor is bare."""
    use = (clearance(0, 600, headroom=STANDING),)
    case = only(scenario(ATTIC, free("box", height=900, roles=("store",), clearances=use)))
    rule = ComfortableClearance()
    (claim,) = rule.claims(case)
    for x, words in ((1000, "too low beyond"), (900, "too low there"), (1600, "")):
        scene = Scene(case, Arrangement((at("box", "left", x, 1000),)))
        said = rule.measure(scene, claim).sentence
        assert ("the ceiling is" in said) == bool(words)
        assert words in said


# -- sitting -------------------------------------------------------------------
BED = piece("bed", 900, 2000, 500, headroom=965, roles=("sleep", "bed"))


@pytest.mark.parametrize(
    ("facing", "x", "ok"),
    [
        # 500 + 965 = 1465 from x = 465 on.
        pytest.param("down", 15, True, id="along the slope: half of 900 off its edge"),
        pytest.param("down", 14, False, id="1 mm nearer"),
        pytest.param("up", 15, True, id="the other way round"),
        pytest.param("up", 14, False, id="and 1 mm nearer"),
        pytest.param("right", 165, True, id="head to the slope: 300 from its back"),
        pytest.param("right", 164, False, id="1 mm nearer there"),
        pytest.param("left", 0, True, id="feet to the slope"),
    ],
)
def test_who_sits_up_in_bed_has_headroom(facing, x, ok):
    case = only(scenario(ATTIC, replace(BED, stands="free")))
    both_say(case, [at("bed", facing, x, 500)], "headroom", ok)


@pytest.mark.parametrize(("x", "ok"), [(115, True), (114, False)])
def test_two_sit_on_what_is_wide(x, ok):
    """A bed of 1400: the one sits 350 from its edge, the other 1050."""
    case = only(scenario(ATTIC, replace(BED, width=1400, stands="free")))
    both_say(case, [at("bed", "down", x, 500)], "headroom", ok)


@pytest.mark.parametrize(("t", "ok"), [(0, False), (1, True)])
def test_who_sits_at_a_slanted_wall_has_headroom_too(t, ok):
    """A seat of 600 on wall 1 of the bay: its sitter is 300 along and 200 (half its depth) off.

    At t = 0 that is at y = 2000 + (300 - 200) / sqrt 2 = 2070.7, at t = 1 at 2071.4.
    """
    # 800 + 600 = 1400 = 1000 + 400: 400 * until / 1500 = 2070.93, rounded up to 2071.
    shape = room(BAY, slopes=(Slope(5, 1000, 7766),))
    assert [s.bounds[3] for s in low_floor(shape, 1400)] == [2071]
    case = only(scenario(shape, piece("seat", headroom=600, roles=("seat",))))
    both_say(case, [aslant("seat", 1, t)], "headroom", ok)


def test_what_is_tied_has_the_floor_of_the_other():
    """A stool beside a chest asks for no headroom of its own."""
    stool = tied("stool", "chest", Slot("left", along=0, gap=50), headroom=1000)
    case = only(scenario(ATTIC, piece("chest", 600, 400), stool))
    both_say(case, [at("chest", "down", 450, 2600, A), at("stool", "down", 0, 2600)], "", True)


@fast
def test_without_its_headroom_nothing_is_asked_of_a_bed():
    """The requirement can be taken away, and the words say how much there is and is needed."""
    asked = only(scenario(ATTIC, replace(BED, stands="free")))
    arrangement = Arrangement((at("bed", "down", 14, 500),))
    (breach,) = judge(asked, arrangement).breaches
    assert breach.sentence == "The bed has 96 cm above it; it needs 97 cm"
    rest = [r for r in declared(asked) if r.kind != "headroom"]
    assert not judge(keep_only(asked, set(rest)), arrangement).breaches
    own = replace(asked, settings=(*asked.settings, RuleSetting("headroom", least=964)))
    assert not judge(own, arrangement).breaches


# -- ways ------------------------------------------------------------------------
CHEST = piece("chest", 600, 400, 800, clearances=(clearance(400, headroom=SEATED),))


def _reached(shape, *placements, pieces):
    case = scenario(shape, *pieces)
    scene = Scene(case, Arrangement(placements))
    walk = walk_of(scene)
    return {goal.name: walk.reaches(goal) for goal in goals(scene)}


def with_door(until):
    return room(doors=(Door("door", B, 200, 800),), slopes=(Slope(D, 1000, until),))


@fast
@pytest.mark.parametrize(
    ("until", "reached"),
    [
        # 1900 is had 900 * until / 1500 off D, and the strip ends 800 off it: 600 more are
        # gone stooping, up to 1400 off, with 1 mm forgiven: until 2333 is 1399.8, 2338 1402.8.
        pytest.param(1333, True, id="the way comes up to it"),
        pytest.param(2333, True, id="the last step stooping"),
        pytest.param(2338, False, id="farther than a step"),
    ],
)
def test_what_is_used_bent_is_reached_stooping(until, reached):
    """A chest on D with 400 before it: its strip has 1400 at 400 * until / 1500 off D."""
    pieces = (replace(CHEST, clearances=(clearance(400, headroom=1100),)),)
    place = on_wall(CHEST, with_door(until), D, 1000)
    found = _reached(with_door(until), place, pieces=pieces)
    # Under 1400 nobody stoops, but the strip itself may be lower where it says so.
    assert found == {"chest": reached}


@fast
def test_nobody_walks_where_nobody_stands_up():
    """A strip 600 wide between x = 0 and the way: as wide as ever, and 300 mm too low.

    Between D and a wall of cupboards at x = 800 to 1400 a path 600 wide leads on in a level
    room; under a slope of 1 a mm it is 1000 to 1800 high.
    """
    door = (Door("door", A, 100, 600, "out"),)
    block = free("block", 400, 1500, 900)
    far = piece("far", 600, 400, 900, clearances=(clearance(400),))
    places = (at("block", "down", 800, 1500), at("far", "up", 2000, 0, C))
    beyond = free("screen", 2800, 100, 900)
    places = (*places, at("screen", "down", 1200, 1500))
    level = room(doors=door)
    assert _reached(level, *places, pieces=(block, far, beyond)) == {"far": True}
    sloped = room(doors=door, slopes=(AT_D,))
    found = _reached(sloped, *places, pieces=(block, far, beyond))
    assert found["far"] is False


# -- the search --------------------------------------------------------------------
def test_the_search_keeps_off_the_slope_and_finds_the_way():
    """A wardrobe 1900 high goes where it fits, and what comes out satisfies the judge."""
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    tall = piece("wardrobe", 1000, 600, 1900, clearances=(clearance(600),), roles=("store",))
    shape = room(doors=(Door("door", B, 200, 800),), slopes=(AT_D, Slope(C, 800, 1200)))
    found = suggest(scenario(shape, tall, CHEST), top=1, seconds=20)
    assert found.outcome == "proven"
    (best,) = found.suggestions
    assert not best.verdict.breaches
    # 1900 from x = 900 on, and from 1100 * 1200 / 1700 = 777 mm off C on.
    body = Scene(scenario(shape, tall, CHEST), best.arrangement).find("wardrobe")
    assert body.x0 >= 900
    assert body.y0 >= 777


def test_what_fits_nowhere_is_proven_to():
    """2000 mm high and 600 deep under a ridge that leaves 599: impossible; one less will do.

    From 1000 to 2500 on both sides, 1 a mm: 2000 is had 1000 off each; the room is 2599 deep.
    """
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    def ask(deep):
        corners = ((0, deep), (4000, deep), (4000, 0), (0, 0))
        ridge = (Slope(A, 1000, 1500), Slope(C, 1000, 1500))
        shape = room(corners, doors=(Door("door", B, deep // 2 - 400, 800),), slopes=ridge)
        tall = free("tall", 600, 600, 2000, roles=())
        return suggest(scenario(shape, tall), top=1, seconds=20).outcome

    assert ask(2599) == "impossible"
    assert ask(2600) == "proven"


@pytest.mark.parametrize("seed", range(8))
def test_model_and_judge_agree_under_slopes(seed):
    """Random rooms with a slope from the wall at the bottom and, some, from the left."""
    from agreement import agree, random_scenario, thrown  # noqa: PLC0415  loads the solver

    level = random_scenario(seed)
    walls = level.room.walls
    slopes = [
        Slope(i, 1100, 1800)
        for i, wall in enumerate(walls)
        if wall.facing in (("up", "right") if seed % 2 else ("up",))
        and all(wall.off(*corner) >= 0 for corner in level.room.corners)
    ]
    assert slopes
    sat = tuple(replace(p, headroom=400) if p.is_a("seat") else p for p in level.pieces)
    case = replace(level, room=replace(level.room, slopes=tuple(slopes)), pieces=sat)
    assert agree(case, thrown(case, seed))


# -- the reader -----------------------------------------------------------------
FILE = """
unit = "cm"
[room]
size = [400, 300]
ceiling = 250
[[room.slope]]
wall = "D"
height = 100
until = 150
{more}
[[door]]
wall = "B"
from_left = 20
width = 80
[[piece]]
kind = "sofa"
[[piece]]
kind = "bed"
[[piece]]
kind = "low bookcase"
[[piece]]
kind = "wardrobe"
"""


@fast
def test_a_slope_is_read_and_who_sits_under_it_is_known():
    """A sofa 85 high leaves 55 to 140; above a bed it is 96.5; low shelves are used bent."""
    found = read_text(FILE.format(more=""))
    assert found.room.slopes == (AT_D,)
    assert [p.headroom for p in found.pieces] == [550, 965, 0, 0]
    use = {p.name: {c.headroom for c in p.clearances} for p in found.pieces}
    assert use == {
        "sofa": {SEATED}, "bed": {SEATED}, "low bookcase": {SEATED}, "wardrobe": {STANDING},
    }  # fmt: skip


@fast
def test_a_level_room_asks_for_no_headroom_to_sit():
    slope, bay = "height = 100\nuntil = 150\n{more}", "width = 100\ndepth = 50"
    level = read_text(FILE.replace("room.slope", "room.bay").replace(slope, bay))
    assert [p.headroom for p in level.pieces] == [0, 0, 0, 0]


@fast
@pytest.mark.parametrize(
    ("more", "where", "said"),
    [
        ('[[room.slope]]\nwall = "A"\nheight = 250\nuntil = 100', "height", "250 cm at the wall"),
        ('[[room.slope]]\nwall = "A"\nheight = 100\nuntil = 301', "until", "301 cm given"),
        ('[[room.slope]]\nwall = "D"\nheight = 120\nuntil = 90', "wall", "wall D given"),
        ('[[room.slope]]\nwall = "B"\nheight = 120\nuntil = 251', "until", "251 cm given"),
        ('[[room.slope]]\nwall = "E"\nheight = 120\nuntil = 90', "wall", "the wall 'E'"),
        ('[[room.slope]]\nheight = 120\nuntil = 90', "wall", "no wall given"),
        (
            '[[room.bay]]\nwall = "A"\nwidth = 100\ndepth = 50\n'
            '[[room.slope]]\nwall = "A"\nheight = 120\nuntil = 90',
            "wall",
            "wall A given",
        ),
        ('[[room.slope]]\nwall = "B"\nheight = 180\nuntil = 90', "door", "door is 200 cm high"),
        (
            '[[window]]\nwall = "D"\nfrom_left = 20\nwidth = 80\nfrench = true\nhead = 200',
            "window",
            "window is 200 cm high",
        ),
        (
            '[[window]]\nwall = "D"\nfrom_left = 20\nwidth = 80\nmust_open = true',
            "window",
            "window is to be reached under a low ceiling",
        ),
    ],
)  # fmt: skip
def test_what_makes_no_slope_is_refused(more, where, said):
    with pytest.raises(ScenarioError) as caught:
        read_text(FILE.format(more=more))
    (fault,) = caught.value.faults
    assert fault.where.endswith(where)
    assert said in fault.given


@fast
def test_a_ridge_is_where_two_slopes_end():
    """150 from D and 250 from B are the 400 of the room."""
    more = '[[room.slope]]\nwall = "B"\nheight = 220\nuntil = 250'
    assert read_text(FILE.format(more=more)).room.slopes == (AT_D, Slope(B, 2200, 2500))


@fast
def test_a_chimney_breast_leaves_the_slope_on_its_wall():
    """Wall D is cut in three by the breast; the slope stays in the line of the first."""
    breast = (
        '[[fixture]]\nkind = "chimney breast"\nwall = "D"\nfrom_left = 100\nwidth = 100\ndepth = 30'
    )
    found = read_text(FILE.format(more=breast)).room
    (slope,) = found.slopes
    assert found.walls[slope.wall].part_of == "D"
    assert [s.bounds for s in low_floor(found, 1250)] == [(0, 0, 250, 3000)]


# -- what is drawn and written ---------------------------------------------------
@fast
def test_the_plan_shows_where_nobody_stands_up():
    """The floor up to x = 900 tinted, lines at 500 and 1000 with their heights beside them."""
    from arrange.draw.plan import plot_plan  # noqa: PLC0415  matplotlib

    box = free("box", height=800)
    placed = Arrangement((at("box", "down", 2500, 1000),))
    plan = plot_plan(scenario(ATTIC, box, unit="cm"), placed)
    (tint,) = plan.of("slope")
    assert tint.get_path().get_extents().bounds == (0, 0, 900, 3000)
    (lines,) = plan.of("slope:lines")
    assert [sorted({x for x, _ in run}) for run in lines.get_segments()] == [[500], [1000]]
    written = {text.get_text() for text in plan.of("slope:text")}
    assert written == {"ceiling 150 cm high", "ceiling 200 cm high"}
    level = plot_plan(scenario(room(), box, unit="cm"), placed)
    assert not [a for gid in ("slope", "slope:lines", "slope:text") for a in level.of(gid)]


@fast
def test_slopes_are_written_and_read_back():
    """And numbers that make no slope are refused by their keys."""
    from arrange.output.fields import About  # noqa: PLC0415
    from arrange.output.gate import ROOM as GATE  # noqa: PLC0415
    from arrange.output.rooms import ROOM, read_room  # noqa: PLC0415
    from arrange.scenario.faults import Faults  # noqa: PLC0415

    data = ROOM.write(ATTIC, About(scenario(ATTIC)))
    assert data["slopes"] == [{"wall": "D", "height": 1000, "until": 1500}]
    assert read_room(data).slopes == (AT_D,)
    faults = Faults("file")
    GATE({**data, "slopes": [{"wall": "D", "height": -1, "until": 0}]}, "room", faults)
    assert [f.where for f in faults.found] == ["room.slopes[1].height", "room.slopes[1].until"]


def test_what_is_written_holds_when_checked_without_the_program():
    """An attic with low shelves in the eaves, which are reached stooping; and moved, it fails."""
    from recheck import faults, under_slopes  # noqa: PLC0415

    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    shelf = piece("shelf", 1000, 300, 900, clearances=(clearance(350, headroom=SEATED),))
    tall = piece("tall", 1000, 600, 2000, clearances=(clearance(500),))
    shape = room(doors=(Door("door", B, 1100, 800),), slopes=(Slope(A, 1100, 1400), AT_D))
    data = as_data(suggest(scenario(shape, shelf, tall, BED), top=1, seconds=20))
    (plan,) = data["arrangements"]
    assert not faults(data)
    high = next(p for p in plan["pieces"] if p["name"] == "tall")
    high["footprint"] = [[0, 0], [0, 600], [1000, 600], [1000, 0]]
    assert set(under_slopes(data, plan)) == {"tall"}


@fast
@pytest.mark.parametrize("dimension", ["width", "depth", "height"])
def test_smaller_is_sure_to_do_only_where_that_is_so(dimension):
    """Less deep, a bed's sitter or a strip may come under the slope; lower is always as good."""
    from arrange.rules import RULES  # noqa: PLC0415

    bed = replace(BED, clearances=(clearance(400, sides=("front", "left")),))
    for shape in (room(), ATTIC):
        case = scenario(shape, bed)
        sure = {r.id: r.monotone(case, bed, dimension) for r in RULES if r.binding}
        asked = ("headroom", "least-clearance")
        expected = not shape.slopes or dimension == "height"
        assert [sure[rule] for rule in asked] == [expected, expected]
        if shape.slopes:
            assert sure["walkway"] is expected
        assert sure["inside-room"]


@fast
@pytest.mark.parametrize(
    ("wide", "hung", "fits"),
    [
        pytest.param(160, 'opens = "in"', False, id="160 deep"),
        pytest.param(160, 'opens = "in"\nleaves = 2', True, id="two leaves of 80"),
        pytest.param(160, 'opens = "folding in"', True, id="folded to 80"),
        pytest.param(290, 'opens = "folding in"', False, id="folded to 145"),
    ],
)
def test_a_leaf_needs_its_own_depth_under_a_slope(wide, hung, fits):
    """From 1 m at D to 2.5 m at 3.9 m off it: 2 m high 2.6 m off D, 1.4 m before the door in B."""
    text = FILE.format(more="").replace("until = 150", "until = 390")
    text = text.replace("from_left = 20\nwidth = 80", f"from_left = 5\nwidth = {wide}\n{hung}")
    if fits:
        assert read_text(text).room.doors[0].height == 2000
    else:
        with pytest.raises(ScenarioError, match="its leaf the ceiling comes down"):
            read_text(text)
