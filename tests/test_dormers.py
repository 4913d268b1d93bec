"""Dormers: the floor they lift, what stands and sits there, how they are read, drawn and written.

The slope of most rooms here rises from wall A (the top, y = 3000) from 1000 to the ceiling at
2500 over 1500: at y it is 4000 - y high. The dormer is 1400 wide, from x = 1000 to 2400, and
2000 high inside: the slope is as high 1000 off A, at y = 2000.
"""

from dataclasses import replace

import pytest
from small_rooms import (
    A,
    B,
    C,
    D,
    at,
    both_say,
    clearance,
    free,
    only,
    piece,
    room,
    scenario,
)

from arrange.data.arrangement import Arrangement
from arrange.data.piece import SEATED, STANDING
from arrange.data.room import Beam, Door, Dormer, Slope, Window
from arrange.errors import ScenarioError
from arrange.geometry.ceilings import (
    area_under,
    ceiling_area,
    ceiling_over,
    dormer_walls,
    low_floor,
    lowest_over,
    wall_face,
)
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import wall_strip
from arrange.geometry.walking import goals, walk_of
from arrange.scenario.read import read_text

fast = pytest.mark.fast
AT_A = Slope(A, 1000, 1500)
DORMER = Dormer("dormer", A, (1000, 2000, 2400, 3000), 2000, 1000)
ATTIC = room(slopes=(AT_A,), dormers=(DORMER,))
# Its front stands 400 in from the wall.
SET_BACK = room(slopes=(AT_A,), dormers=(replace(DORMER, box=(1000, 2000, 2400, 2600)),))


# -- shapes and areas ------------------------------------------------------------
@fast
def test_a_dormer_lifts_the_slope_and_nothing_beyond():
    heights = [ceiling_over(ATTIC, x, 2800) for x in (999, 1000, 1700, 2400, 2401)]
    assert heights == [1200, 2000, 2000, 2000, 1200]
    assert [ceiling_over(ATTIC, 1700, y) for y in (2000, 1800, 1500, 0)] == [2000, 2200, 2500, 2500]
    assert [ceiling_over(SET_BACK, 1700, y) for y in (2700, 2600, 2599)] == [1300, 2000, 2000]


@fast
def test_low_floor_goes_round_a_dormer():
    """1400 is had 400 off A; 2000 is had in the dormer, 2001 nowhere within 1001 of A."""
    assert [s.bounds for s in low_floor(ATTIC, 1400)] == [
        (0, 2600, 1000, 3000), (2400, 2600, 4000, 3000),
    ]  # fmt: skip
    assert [s.bounds for s in low_floor(ATTIC, 2000)] == [
        (0, 2000, 1000, 3000), (2400, 2000, 4000, 3000),
    ]  # fmt: skip
    assert [s.bounds for s in low_floor(ATTIC, 2001)] == [(0, 1999, 4000, 3000)]
    # Set back by 400: all along A that much, and beside the dormer more.
    assert [s.bounds for s in low_floor(SET_BACK, 1900)] == [
        (0, 2600, 4000, 3000), (0, 2100, 1000, 3000), (2400, 2100, 4000, 3000),
    ]  # fmt: skip


@fast
def test_another_slope_goes_on_through_a_dormer():
    """From D, 1000 + x high: at x = 1500 it has 2500, at 1200 only 2200; 1900 at 900."""
    both = replace(ATTIC, slopes=(AT_A, Slope(D, 1000, 1500)))
    assert ceiling_over(both, 1000, 2800) == 2000
    assert (0, 0, 900, 3000) in [s.bounds for s in low_floor(both, 1900)]


@fast
def test_a_beam_along_the_slope_is_lifted_with_it():
    """100 below the ceiling at x = 1600 to 1800, in the dormer: 1900 is had, 1901 not to y = 2000.

    Below the slope beyond it: 2100 at y = 1900.
    """
    beam = Beam("rafter", D, (1600, 0, 1800, 3000), 0, 100)
    shape = replace(ATTIC, beams=(beam,))
    assert ceiling_over(shape, 1700, 2900) == 1900
    assert (1600, 2000, 1800, 3000) not in [s.bounds for s in low_floor(shape, 1900)]
    assert (1600, 1999, 1800, 3000) in [s.bounds for s in low_floor(shape, 1901)]


@fast
def test_area_counts_by_headroom_as_published():
    """`ndss-headroom` from 1500: 4 x 3 less 0.5 x (4 - 1.4) = 10.70 m2; without dormer 10.00."""
    assert area_under(ATTIC, 1500) / 1e6 == pytest.approx(10.7)
    assert area_under(replace(ATTIC, dormers=()), 1500) / 1e6 == pytest.approx(10)
    assert area_under(SET_BACK, 1500) / 1e6 == pytest.approx(10 + 0.1 * 1.4)


@fast
def test_walls_and_ceiling_to_paint():
    """By hand, in m2. A: 4 x 1 and the front 1.4 x 1 above. B, D: 3 x 2.5 less 1.5 x 1.5 / 2.

    The sides above the slope: two triangles 1 high and 1 long. The slope lies over 6 m2 less
    1.4 x 1 of floor and is sqrt 2 as large.
    """
    faces = [wall_face(ATTIC, wall) / 1e6 for wall in ATTIC.walls]
    assert faces == pytest.approx([5.4, 6.375, 10, 6.375])
    assert dormer_walls(ATTIC) / 1e6 == pytest.approx(1.0)
    assert ceiling_area(ATTIC) / 1e6 == pytest.approx(12 + 4.6 * (2**0.5 - 1))
    # Set back by 400 it is 600 high at its front, 1.4 wide; its sides are 0.6 x 0.6 / 2 each.
    assert next(wall_face(SET_BACK, w) / 1e6 for w in SET_BACK.walls) == pytest.approx(4)
    assert dormer_walls(SET_BACK) / 1e6 == pytest.approx(0.36 + 0.84)
    # In the corner one side is the wall itself: D is 1 x 1 / 2 larger, one triangle is left.
    corner = replace(ATTIC, dormers=(replace(DORMER, box=(0, 2000, 1400, 3000)),))
    assert wall_face(corner, corner.walls[D]) / 1e6 == pytest.approx(6.875)
    assert dormer_walls(corner) / 1e6 == pytest.approx(0.5)


# -- both faces --------------------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "y", "height", "ok"),
    [
        pytest.param(1000, 2600, 2000, True, id="as high as the dormer, at its edge"),
        pytest.param(999, 2600, 2000, False, id="1 mm beside it"),
        pytest.param(1800, 2600, 2000, True, id="at its other edge"),
        pytest.param(1801, 2600, 2000, False, id="and 1 mm beside that"),
        pytest.param(1200, 2600, 2001, False, id="1 mm too high"),
        pytest.param(1200, 1599, 2001, True, id="off it, under the slope at 2001"),
        pytest.param(1200, 1600, 2001, False, id="1 mm nearer"),
    ],
)
def test_a_piece_stands_where_it_fits_under(x, y, height, ok):
    """A box of 600 x 400."""
    case = only(scenario(ATTIC, free("box", height=height, roles=())))
    both_say(case, [at("box", "down", x, y)], "inside-room", ok)


@pytest.mark.parametrize(("y", "ok"), [(2200, True), (2201, False)])
def test_before_a_front_that_is_set_back_the_slope_goes_on(y, ok):
    """Its front is at y = 2600; a box 400 deep and 1700 high."""
    case = only(scenario(SET_BACK, free("box", height=1700, roles=())))
    both_say(case, [at("box", "down", 1200, y)], "inside-room", ok)


@pytest.mark.parametrize(
    ("x", "headroom", "ok"),
    [
        pytest.param(1000, STANDING, True, id="who stands is in the dormer"),
        pytest.param(999, STANDING, False, id="1 mm out of it"),
        pytest.param(999, SEATED, False, id="who sits as well: 1000 to 1400 beside it"),
    ],
)
def test_the_floor_to_use_a_piece_has_headroom(x, headroom, ok):
    """A low box of 600 x 400 at A, with 300 before it: y from 2300, where the slope is 1700."""
    use = (clearance(300, headroom=headroom),)
    case = only(scenario(ATTIC, piece("box", 600, 200, 900, clearances=use)))
    both_say(case, [at("box", "down", x, 2800, A)], "least-clearance", ok)


BED = piece("bed", 900, 2000, 500, headroom=965, roles=("sleep", "bed"))


@pytest.mark.parametrize(
    ("facing", "x", "y", "ok"),
    [
        # 500 + 965 = 1465 is had 465 off A. Head at A: 300 from it, the middle of 900.
        pytest.param("down", 550, 1000, True, id="the head just in the dormer"),
        pytest.param("down", 549, 1000, False, id="1 mm beside it"),
        pytest.param("down", 1950, 1000, True, id="at its other side"),
        pytest.param("down", 1951, 1000, False, id="1 mm beside that"),
        pytest.param("down", 100, 835, True, id="far from it, 465 off the wall"),
        pytest.param("down", 100, 836, False, id="1 mm nearer the wall"),
        # Along A the middle is 450 off it; who sits is 300 from the left end of the bed.
        pytest.param("right", 700, 2100, True, id="along the wall, sitting in the dormer"),
        pytest.param("right", 699, 2100, False, id="1 mm out"),
    ],
)
def test_who_sits_up_in_bed_has_headroom(facing, x, y, ok):
    case = only(scenario(ATTIC, replace(BED, stands="free")))
    both_say(case, [at("bed", facing, x, y)], "headroom", ok)


# -- ways ------------------------------------------------------------------------
@fast
@pytest.mark.parametrize(("wide", "reached"), [(500, True), (498, False)])
def test_the_window_of_a_dormer_is_walked_up_to(wide, reached):
    """On a walkway of 500, 1900 high in the dormer; 1 mm is forgiven."""
    dormer = replace(DORMER, box=(1000, 2000, 1000 + wide, 3000))
    window = Window("window", A, 1000, wide, must_open=True)
    shape = room(
        slopes=(AT_A,), dormers=(dormer,), windows=(window,), doors=(Door("door", C, 200, 800),)
    )
    scene = Scene(scenario(shape, walkway=500), Arrangement(()))
    walk = walk_of(scene)
    assert [walk.reaches(goal) for goal in goals(scene)] == [reached]


def test_the_search_finds_the_dormer_and_proves_where_it_is_too_narrow():
    """A cupboard 1900 high and 600 deep on A fits in the dormer alone."""
    from arrange.data.scenario import Wish  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    def ask(width):
        shape = replace(ATTIC, doors=(Door("door", C, 200, 800),))
        tall = piece("tall", width, 600, 1900, clearances=(clearance(500),), roles=("store",))
        wish = Wish("against", "tall", "A", None, True, 4)
        found = suggest(scenario(shape, tall, wishes=(wish,)), top=1, seconds=20)
        return found.outcome, [s.arrangement.of("tall").x for s in found.suggestions]

    assert ask(1400) == ("proven", [1000])
    assert ask(1401) == ("impossible", [])


@pytest.mark.parametrize("seed", range(6))
def test_model_and_judge_agree_under_dormers(seed):
    """Random rooms with a slope from the wall at the bottom, and a dormer in it."""
    from agreement import agree, random_scenario, thrown  # noqa: PLC0415  loads the solver

    level = random_scenario(seed)
    (foot,) = (
        i
        for i, wall in enumerate(level.room.walls)
        if wall.facing == "up" and all(wall.off(*c) >= 0 for c in level.room.corners)
    )
    x0, y0, x1, _ = level.room.bounds
    middle = (x0 + x1) // 2
    slope = Slope(foot, 1100, 1800)
    start = y0 + 300 * (seed % 2)
    end = y0 + slope.low(1900, level.room.ceiling)
    dormer = Dormer("dormer", foot, (middle - 700, start, middle + 700, end), 1900)
    sat = tuple(replace(p, headroom=400) if p.is_a("seat") else p for p in level.pieces)
    shape = replace(level.room, slopes=(slope,), dormers=(dormer,))
    case = replace(level, room=shape, pieces=sat)
    assert agree(case, thrown(case, seed))


# -- the reader -----------------------------------------------------------------
FILE = """
unit = "cm"
[room]
size = [400, 300]
ceiling = 250
[[room.slope]]
wall = "A"
height = 100
until = 150
{more}
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "sofa"
"""
GIVEN = '[[room.dormer]]\nwall = "A"\nfrom_left = 100\nwidth = 140\n'
BAY = '[[room.bay]]\nwall = "A"\nfrom_left = 110\nwidth = 120\ndepth = 60\n'


@fast
@pytest.mark.parametrize(
    ("more", "dormers"),
    [
        pytest.param(GIVEN + "height = 200", (DORMER,), id="at the wall"),
        pytest.param(
            GIVEN + "height = 200\noff_wall = 40",
            (replace(DORMER, box=(1000, 2000, 2400, 2600)),),
            id="set back",
        ),
        pytest.param(
            GIVEN, (Dormer("dormer", A, (1000, 1500, 2400, 3000), 2500, 1000),), id="to the ceiling"
        ),
        pytest.param(
            GIVEN + "height = 200\n" + GIVEN.replace("100", "240") + "height = 200",
            (
                replace(DORMER, name="dormer 1"),
                Dormer("dormer 2", A, (2400, 2000, 3800, 3000), 2000, 2400),
            ),
            id="two that touch",
        ),
    ],
)
def test_a_dormer_is_read(more, dormers):
    assert read_text(FILE.format(more=more)).room.dormers == dormers


@fast
def test_a_bay_may_lie_behind_the_slope_in_a_dormer():
    """60 deep, and the slope goes on beside it; all its floor is under the dormer's ceiling."""
    found = read_text(FILE.format(more=BAY + GIVEN + "height = 200")).room
    assert found.dormers[0].box == (1000, 2000, 2400, 3600)
    assert [s.bounds for s in low_floor(found, 2000)] == [
        (0, 2000, 1000, 3600), (2400, 2000, 4000, 3600),
    ]  # fmt: skip
    assert ceiling_over(found, 1700, 3500) == 2000
    front = next(w for w in found.walls if w.name == "bay")
    assert lowest_over(found, wall_strip(front, 0, 1200, 450)) == 2000
    # The front, as high as the dormer; the sides of the bay too.
    faces = {wall.name: wall_face(found, wall) / 1e6 for wall in found.walls}
    assert faces["bay"] == pytest.approx(1.2 * 2)
    assert faces["bay left"] == pytest.approx(0.6 * 2)


@fast
@pytest.mark.parametrize(("more", "allowed"), [("height = 200", True), ("height = 189", False)])
def test_a_window_in_a_dormer_may_be_a_way_out(more, allowed):
    """Who comes up to it stands: 190."""
    window = '\n[[window]]\nwall = "A"\nfrom_left = 110\nwidth = 120\nhead = 180\nescape = true'
    text = FILE.format(more=GIVEN + more + window)
    if allowed:
        assert read_text(text).room.windows[0].escape
    else:
        with pytest.raises(ScenarioError, match="is to be reached under a low ceiling"):
            read_text(text)


@fast
@pytest.mark.parametrize(
    ("more", "where", "said"),
    [
        (GIVEN.replace('"A"', '"B"'), "wall", "wall B given"),
        (GIVEN.replace('"A"', '"E"'), "wall", "the wall 'E'"),
        (GIVEN.replace("140", "301"), "from_left", "401 cm along wall A"),
        (GIVEN + "height = 251", "height", "251 cm given"),
        (GIVEN + "height = 100", "height", "100 cm given"),
        (GIVEN + "height = 140\noff_wall = 40", "height", "140 cm given"),
        (GIVEN + "off_wall = 150", "off_wall", "150 cm given"),
        (GIVEN + GIVEN.replace("100", "239"), "from_left", '"dormer 2" and "dormer 1" overlap'),
        (GIVEN.replace("width = 140\n", ""), "width", "not given"),
        (BAY, "wall", "wall A given"),
    ],
)
def test_what_makes_no_dormer_is_refused(more, where, said):
    with pytest.raises(ScenarioError) as caught:
        read_text(FILE.format(more=more))
    (fault,) = caught.value.faults
    assert fault.where.endswith(where)
    assert said in fault.given


# -- what is drawn and written ---------------------------------------------------
@fast
def test_the_plan_shows_the_dormer_and_how_high_it_is():
    from arrange.draw.plan import plot_plan  # noqa: PLC0415  matplotlib

    box = free("box", height=800)
    placed = Arrangement((at("box", "down", 2500, 500),))
    plan = plot_plan(scenario(ATTIC, box, unit="cm"), placed)
    (lines,) = plan.of("dormer:lines")
    ends = {tuple(sorted({round(x) for x, _ in run})) for run in lines.get_segments()}
    assert ends == {(1000,), (1000, 2400), (2400,)}
    assert [text.get_text() for text in plan.of("dormer:text")] == ["dormer, 200 cm high"]
    # At 200 and 150 of height, off A 1000 and 500; no line up the sides of the dormer.
    (lines,) = plan.of("slope:lines")
    assert {tuple({round(y) for _, y in run}) for run in lines.get_segments()} == {(2000,), (2500,)}


@fast
def test_the_survey_sheet_says_where_the_dormer_is():
    from arrange.draw.survey import survey_sheet  # noqa: PLC0415  matplotlib

    figure = survey_sheet(scenario(ATTIC, free("box"), unit="cm"))
    written = {text.get_text() for text in figure.findobj() if hasattr(text, "get_text")}
    assert "Dormer, 100 cm from the left of A, 140 cm wide" in written


@fast
def test_dormers_are_written_and_read_back():
    """And numbers that make none are refused by their keys."""
    from arrange.output.fields import About  # noqa: PLC0415
    from arrange.output.gate import ROOM as GATE  # noqa: PLC0415
    from arrange.output.rooms import ROOM, read_room  # noqa: PLC0415
    from arrange.scenario.faults import Faults  # noqa: PLC0415

    data = ROOM.write(ATTIC, About(scenario(ATTIC)))
    (row,) = data["dormers"]
    assert sorted(row["polygon"]) == [[1000, 2000], [1000, 3000], [2400, 2000], [2400, 3000]]
    assert (row["wall"], row["from_left"], row["height"]) == ("A", 1000, 2000)
    assert read_room(data).dormers == ATTIC.dormers
    faults = Faults("file")
    GATE({**data, "dormers": [{**row, "height": -1}]}, "room", faults)
    assert [f.where for f in faults.found] == ["room.dormers[1].height"]


def test_what_is_written_holds_when_checked_without_the_program():
    """What is tall goes into the dormer; and moved, it fails."""
    from recheck import faults, under_slopes  # noqa: PLC0415

    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    tall = piece("tall", 1000, 600, 1900, clearances=(clearance(500),))
    shape = replace(ATTIC, doors=(Door("door", B, 1900, 800),))
    data = as_data(suggest(scenario(shape, tall, BED), top=1, seconds=20))
    (plan,) = data["arrangements"]
    assert not faults(data)
    high = next(p for p in plan["pieces"] if p["name"] == "tall")
    for x, found in ((1000, set()), (990, {"tall"})):
        high["footprint"] = [[x, 2400], [x, 3000], [x + 1000, 3000], [x + 1000, 2400]]
        assert set(under_slopes(data, plan)) == found
