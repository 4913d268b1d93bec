"""Beams: what fits under, who can sit and walk there, how they are read, drawn and written.

The beam of most rooms here runs across the plain room at y = 1800 to 2000, 1000 off wall A.
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
)

from arrange.data.arrangement import Arrangement
from arrange.data.piece import SEATED, STANDING
from arrange.data.room import Beam, Door, Slope
from arrange.errors import ScenarioError
from arrange.geometry.ceilings import (
    area_under,
    ceiling_over,
    low_floor,
    lowest_over,
    not_walked,
)
from arrange.geometry.scene import Scene, tightest_gaps
from arrange.geometry.shapes import wall_strip
from arrange.geometry.walking import goals, walk_of
from arrange.scenario.read import read_text

fast = pytest.mark.fast
ACROSS = (0, 1800, 4000, 2000)
LEVEL = Beam("beam", A, ACROSS, 1700)
UNDER_BEAM = room(beams=(LEVEL,))
# The slope from D is 1000 + x high, up to 2500 at x = 1500; the beam hangs 100 below it.
AT_D = Slope(D, 1000, 1500)
SLOPING = room(slopes=(AT_D,), beams=(Beam("rafter", A, ACROSS, 0, 100),))


# -- shapes ------------------------------------------------------------------
@fast
def test_the_ceiling_is_lower_under_a_beam_and_nowhere_else():
    """At its very edge nothing is under it yet; where it slopes it keeps its drop."""
    assert [ceiling_over(UNDER_BEAM, 2000, y) for y in (1800, 1801, 1999, 2000)] == [
        2500, 1700, 1700, 2500,
    ]  # fmt: skip
    assert [ceiling_over(SLOPING, x, 1900) for x in (500, 1500, 3000)] == [1400, 2400, 2400]
    assert ceiling_over(SLOPING, 500, 100) == 1500


@fast
def test_low_floor_is_the_beam_where_it_is_lower():
    """Level: all or nothing. Along the slope: 1400 is had at x = 500 under it, at 400 beside."""
    assert [s.bounds for s in low_floor(UNDER_BEAM, 1701)] == [ACROSS]
    assert low_floor(UNDER_BEAM, 1700) == ()
    slope, beam = low_floor(SLOPING, 1400)
    assert slope.bounds == (0, 0, 400, 3000)
    assert beam.bounds == (0, 1800, 500, 2000)
    # 2400 is what it leaves at the full height.
    assert [s.bounds for s in low_floor(SLOPING, 2400)][1] == (0, 1800, 1500, 2000)
    assert [s.bounds for s in low_floor(SLOPING, 2401)][1] == ACROSS


@fast
@pytest.mark.parametrize(
    ("beam", "walked"),
    [
        pytest.param(replace(LEVEL, height=1800), True, id="1800: ducked under"),
        pytest.param(replace(LEVEL, height=1799), False, id="1 mm lower"),
        pytest.param(Beam("b", A, (0, 1400, 4000, 2000), 1800), True, id="a step wide, 600"),
        pytest.param(Beam("b", A, (0, 1399, 4000, 2000), 1800), False, id="1 mm wider"),
        pytest.param(Beam("b", A, (0, 1399, 4000, 2000), 1900), True, id="wide, with headroom"),
        pytest.param(Beam("b", A, (0, 1399, 4000, 2000), 1899), False, id="1 mm lower there"),
    ],
)
def test_a_narrow_beam_is_ducked_under(beam, walked):
    """`stair-uk-head`: 1800 at the side of stairs to a loft; a step of 600, common practice."""
    assert (not_walked(room(beams=(beam,)), STANDING) == ()) is walked


@fast
def test_the_lowest_of_a_stretch_of_floor():
    """Before wall B, 0 to 800 along from the top: y 2200 to 3000; the beam begins at 1000."""
    wall = UNDER_BEAM.walls[B]
    assert lowest_over(UNDER_BEAM, wall_strip(wall, 0, 1000, 800)) == 2500
    assert lowest_over(UNDER_BEAM, wall_strip(wall, 0, 1001, 800)) == 1700
    low = room(beams=(replace(LEVEL, height=1850),))
    assert lowest_over(low, wall_strip(wall, 0, 1001, 800), walking=True) == 2500


@fast
def test_a_beam_takes_no_floor_away():
    """All 12 m2 of the room count, whatever hangs over them: common practice, no source."""
    assert area_under(UNDER_BEAM, 2134) == 12e6


# -- both faces ----------------------------------------------------------------
@pytest.mark.parametrize(
    ("y", "height", "ok"),
    [
        pytest.param(1700, 1700, True, id="just under it"),
        pytest.param(1700, 1701, False, id="1 mm too high"),
        pytest.param(2000, 1701, True, id="beside it, touching"),
        pytest.param(1999, 1701, False, id="1 mm under it"),
        pytest.param(1400, 1701, True, id="on its other side"),
        pytest.param(1401, 1701, False, id="1 mm under it there"),
    ],
)
def test_a_piece_stands_where_it_fits_under(y, height, ok):
    """400 deep, so from y to y + 400; the beam is from 1800 to 2000."""
    case = only(scenario(UNDER_BEAM, free("box", height=height, roles=())))
    both_say(case, [at("box", "down", 1000, y)], "inside-room", ok)


@pytest.mark.parametrize(("x", "ok"), [(799, False), (800, True)])
def test_a_piece_fits_under_a_beam_along_the_slope(x, ok):
    """1700 under 1000 + x - 100 from x = 800 on; beside the beam from 700 on."""
    case = only(scenario(SLOPING, free("box", height=1700, roles=())))
    both_say(case, [at("box", "down", x, 1700)], "inside-room", ok)
    both_say(case, [at("box", "down", 700, 1000)], "inside-room", True)


@pytest.mark.parametrize(
    ("height", "headroom", "ok"),
    [
        pytest.param(1900, STANDING, True, id="who stands has 1900"),
        pytest.param(1899, STANDING, False, id="1 mm less"),
        pytest.param(1400, SEATED, True, id="who sits has 1400"),
        pytest.param(1399, SEATED, False, id="1 mm less there"),
    ],
)
def test_the_floor_to_use_a_piece_has_headroom(height, headroom, ok):
    """A box on A, 500 deep, with 600 before it: y from 1900, under the beam. Nobody ducks there."""
    shape = room(beams=(replace(LEVEL, height=height),))
    use = (clearance(600, headroom=headroom),)
    case = only(scenario(shape, piece("box", 600, 500, 900, clearances=use)))
    both_say(case, [at("box", "down", 1000, 2500, A)], "least-clearance", ok)


BED = piece("bed", 900, 2000, 500, stands="free", headroom=965, roles=("sleep", "bed"))


@pytest.mark.parametrize(
    ("facing", "y", "ok"),
    [
        # Facing down the head is 300 below the top of the bed: y + 2000 - 300.
        pytest.param("down", 100, True, id="the head just before the beam, at 1800"),
        pytest.param("down", 101, False, id="1 mm under it"),
        pytest.param("down", 299, False, id="still under it, at 1999"),
        pytest.param("down", 300, True, id="past it, at 2000"),
        pytest.param("left", 1350, True, id="lying along it: the middle of 900 at 1800"),
        pytest.param("left", 1351, False, id="and 1 mm under it"),
        pytest.param("left", 1550, True, id="past it"),
        pytest.param("up", 900, True, id="only the feet under it"),
    ],
)
def test_who_sits_up_in_bed_has_headroom(facing, y, ok):
    """500 + 965 = 1465 is needed; the beam is at 1464."""
    case = only(scenario(room(beams=(replace(LEVEL, height=1464),)), BED))
    both_say(case, [at("bed", facing, 1500, y)], "headroom", ok)
    high = only(scenario(room(beams=(replace(LEVEL, height=1465),)), BED))
    both_say(high, [at("bed", facing, 1500, y)], "headroom", True)


@pytest.mark.parametrize(("t", "ok"), [(223, True), (224, False), (505, False), (506, True)])
def test_who_sits_at_a_slanted_wall_has_headroom_too(t, ok):
    """A seat of 600 on wall 1 of the bay: its sitter is at y = 2000 + (t + 300 - 200) / sqrt 2.

    2228.4 at t = 223, 2229.1 at 224; 2427.8 at 505, 2428.5 at 506.
    """
    shape = room(BAY, beams=(Beam("beam", 2, (0, 2229, 4000, 2428), 1399),))
    case = only(scenario(shape, piece("seat", headroom=600, roles=("seat",))))
    both_say(case, [aslant("seat", 1, t)], "headroom", ok)


def test_a_short_beam_is_passed_on_any_side():
    """A seat 400 square and 800 high needs 600 more; the beam covers 1000 x 200 in the room."""
    shape = room(beams=(Beam("beam", A, (1500, 1800, 2500, 2000), 1399),))
    seat = free("seat", 400, 400, 800, headroom=600)
    case = only(scenario(shape, seat))
    # Its sitter is in the middle, 200 from its back: 200 and 200 from its corner.
    for x, y, ok in [
        (1300, 1650, True), (1301, 1650, False), (2299, 1650, False), (2300, 1650, True),
        (1800, 1600, True), (1800, 1601, False), (1800, 1799, False), (1800, 1800, True),
    ]:  # fmt: skip
        both_say(case, [at("seat", "down", x, y)], "headroom", ok)


# -- ways ------------------------------------------------------------------------
CHEST = piece("chest", 600, 400, 800, clearances=(clearance(600, headroom=STANDING),))


@fast
@pytest.mark.parametrize(("height", "reached"), [(1800, True), (1799, False)])
def test_a_beam_across_the_room_is_walked_under_or_not(height, reached):
    """The door is on C, the chest on A: the beam lies between them."""
    shape = room(beams=(replace(LEVEL, height=height),), doors=(Door("door", C, 200, 800),))
    case = scenario(shape, CHEST)
    scene = Scene(case, Arrangement((on_wall(CHEST, shape, A, 1000),)))
    walk = walk_of(scene)
    assert [walk.reaches(goal) for goal in goals(scene)] == [reached]


def test_the_search_finds_the_way_under_a_beam_and_proves_where_there_is_none():
    """The door is on C; what is tall fits only past the beam."""
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    def ask(height):
        doors = (Door("door", C, 200, 800, "out"),)
        # From C to the beam the ceiling is at 1900: one walks there, and tall things do not fit.
        low = Beam("low", C, (0, 0, 4000, 1800), 1900)
        shape = room(beams=(replace(LEVEL, height=height), low), doors=doors)
        tall = piece("tall", 1000, 500, 2100, clearances=(clearance(500),), roles=("store",))
        found = suggest(scenario(shape, tall), top=1, seconds=20)
        places = [s.arrangement.of("tall") for s in found.suggestions]
        return found.outcome, [place.y >= 2000 for place in places]

    assert ask(1800) == ("proven", [True])
    assert ask(1799) == ("impossible", [])


@fast
def test_a_gap_ends_at_the_beam():
    """500 from the box to the beam, where somebody is to stand."""
    use = (clearance(400, headroom=STANDING),)
    case = scenario(UNDER_BEAM, piece("box", 600, 500, 900, clearances=use))
    scene = Scene(case, Arrangement((at("box", "down", 1000, 2500, A),)))
    (gap,) = tightest_gaps(scene)
    assert (gap.between, gap.length) == (("box", "the beam"), 500)


@pytest.mark.parametrize("seed", range(6))
def test_model_and_judge_agree_under_beams(seed):
    """Random rooms, a beam across and another along the slope if there can be one."""
    from agreement import agree, random_scenario, thrown  # noqa: PLC0415  loads the solver

    level = random_scenario(seed)
    x0, y0, x1, y1 = level.room.bounds
    middle = (y0 + y1) // 2
    beams = (
        Beam("beam", 0, (x0, middle - 100, x1, middle + 100), (1200, 1750, 1850)[seed % 3]),
        Beam("short", 0, (x0 + 900, y0, x0 + 1100, middle), 1300),
    )
    sat = tuple(replace(p, headroom=400) if p.is_a("seat") else p for p in level.pieces)
    case = replace(level, room=replace(level.room, beams=beams), pieces=sat)
    assert agree(case, thrown(case, seed))


# -- the reader -----------------------------------------------------------------
FILE = """
unit = "cm"
[room]
size = [400, 300]
ceiling = 250
{more}
[[door]]
wall = "B"
from_left = 210
width = 80
[[piece]]
kind = "sofa"
"""
BEAM = '[[room.beam]]\nwall = "A"\noff_wall = 100\nwidth = 20\n'
SLOPED = '[[room.slope]]\nwall = "D"\nheight = 100\nuntil = 150\n'


@fast
@pytest.mark.parametrize(
    ("more", "beams"),
    [
        pytest.param(BEAM + "height = 170", (LEVEL,), id="right across"),
        pytest.param(BEAM + "drop = 80", (LEVEL,), id="below a level ceiling"),
        pytest.param(
            SLOPED + BEAM + "drop = 10", (Beam("beam", A, ACROSS, 0, 100),), id="along the slope"
        ),
        pytest.param(
            '[[room.beam]]\nname = "duct"\nwall = "B"\nwidth = 30\nheight = 210\n'
            "from_left = 50\nlength = 100",
            (Beam("duct", B, (3700, 1500, 4000, 2500), 2100),),
            id="a part of it, at the wall",
        ),
        pytest.param(
            '[[room.beam]]\nwall = "B"\nwidth = 30\nheight = 210\nfrom_left = 50',
            (Beam("beam", B, (3700, 0, 4000, 2500), 2100),),
            id="from there to the end of the wall",
        ),
        pytest.param(
            BEAM + "height = 170\n" + BEAM.replace("100", "150") + "height = 180",
            (
                replace(LEVEL, name="beam 1"),
                Beam("beam 2", A, (0, 1300, 4000, 1500), 1800),
            ),
            id="two",
        ),
    ],
)
def test_a_beam_is_read(more, beams):
    assert read_text(FILE.format(more=more)).room.beams == beams


@fast
@pytest.mark.parametrize(
    ("more", "where", "given"),
    [
        (BEAM, "height", "neither height nor drop"),
        (BEAM + "height = 170\ndrop = 10", "height", "height and drop given"),
        (BEAM + "height = 250", "height", "250 cm given"),
        (BEAM + "drop = 260", "drop", "260 cm given"),
        (BEAM.replace('"A"', '"E"') + "height = 170", "wall", "the wall 'E'"),
        (BEAM.replace('wall = "A"\n', "") + "height = 170", "wall", "no wall given"),
        (BEAM.replace("100", "281") + "height = 170", "off_wall", "301 cm in from wall A"),
        (BEAM + "height = 170\nfrom_left = 300\nlength = 101", "from_left", "401 cm along"),
        (BEAM.replace("width = 20\n", "") + "height = 170", "width", "not given"),
        (BEAM + "height = 170\nhigh = 3", "high", "the key 'high' is not known"),
        # The leaf of the door in B comes 80 in, from y = 100 to 900 mm.
        (BEAM.replace("100", "200") + "height = 190", "door", "door is 200 cm high"),
    ],
)
def test_what_makes_no_beam_is_refused(more, where, given):
    with pytest.raises(ScenarioError) as caught:
        read_text(FILE.format(more=more))
    (fault,) = caught.value.faults
    assert fault.where.endswith(where)
    assert given in fault.given


@fast
def test_a_beam_runs_along_straight_walls():
    corners = "corners = [[0, 0], [0, 200], [100, 300], [400, 300], [400, 0]]"
    text = FILE.format(more=BEAM.replace('"A"', '"B"') + "height = 210")
    text = text.replace("size = [400, 300]", corners).replace(
        '"B"\nfrom_left = 210', '"E"\nfrom_left = 10'
    )
    with pytest.raises(ScenarioError, match="a beam runs along a wall straight across"):
        read_text(text)


# -- what is drawn, said and written ---------------------------------------------
@fast
def test_the_plan_shows_the_beam_dashed_and_how_high_it_is():
    """Its two long edges across the room, its name and height beside one; tinted under 190."""
    from arrange.draw.plan import plot_plan  # noqa: PLC0415  matplotlib

    box = free("box", height=800)
    placed = Arrangement((at("box", "down", 2500, 500),))
    plan = plot_plan(scenario(UNDER_BEAM, box, unit="cm"), placed)
    (lines,) = plan.of("beam:lines")
    assert [sorted({y for _, y in run}) for run in lines.get_segments()] == [[1800], [2000]]
    assert [text.get_text() for text in plan.of("beam:text")] == ["beam, 170 cm high"]
    (tint,) = plan.of("slope")
    assert tint.get_path().get_extents().bounds == (0, 1800, 4000, 200)
    high = plot_plan(scenario(room(beams=(replace(LEVEL, height=1900),)), box, unit="cm"), placed)
    assert not high.of("slope")
    assert high.of("beam:lines")


@fast
def test_the_survey_sheet_says_where_the_beam_is():
    from arrange.draw.survey import survey_sheet  # noqa: PLC0415  matplotlib

    figure = survey_sheet(scenario(UNDER_BEAM, free("box"), unit="cm"))
    written = {text.get_text() for text in figure.findobj() if hasattr(text, "get_text")}
    assert "Beam, 100 cm from A, 20 cm wide" in written
    assert "170 cm high" in written


@fast
@pytest.mark.parametrize(("height", "said"), [(1999, True), (2000, False)])
def test_a_caution_where_heads_are_knocked(height, said):
    from arrange.words.cautions import cautions  # noqa: PLC0415

    shape = room(beams=(replace(LEVEL, height=height),))
    told = [c for c in cautions(scenario(shape, free("box"))) if "Mind your head" in c]
    assert bool(told) is said


@fast
def test_beams_are_written_and_read_back():
    """And numbers that make no beam are refused by their keys."""
    from arrange.output.fields import About  # noqa: PLC0415
    from arrange.output.gate import ROOM as GATE  # noqa: PLC0415
    from arrange.output.rooms import ROOM, read_room  # noqa: PLC0415
    from arrange.scenario.faults import Faults  # noqa: PLC0415

    data = ROOM.write(SLOPING, About(scenario(SLOPING)))
    assert [{**b, "polygon": sorted(b["polygon"])} for b in data["beams"]] == [
        {
            "name": "rafter",
            "wall": "A",
            "polygon": [[0, 1800], [0, 2000], [4000, 1800], [4000, 2000]],
            "height": 0,
            "drop": 100,
        }
    ]
    assert read_room(data).beams == SLOPING.beams
    faults = Faults("file")
    bad = {**data["beams"][0], "height": -1, "polygon": [[0, 0]]}
    GATE({**data, "beams": [bad]}, "room", faults)
    assert [f.where for f in faults.found] == ["room.beams[1].polygon", "room.beams[1].height"]


def test_what_is_written_holds_when_checked_without_the_program():
    """A bed under a low beam, a cupboard beside it; and moved, it fails."""
    from recheck import faults, under_slopes  # noqa: PLC0415

    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    tall = piece("tall", 1000, 600, 2000, clearances=(clearance(500),))
    shape = room(
        doors=(Door("door", B, 2100, 800),),
        slopes=(AT_D,),
        beams=(replace(LEVEL, height=1850), Beam("rafter", D, (900, 0, 1000, 3000), 0, 150)),
    )
    data = as_data(suggest(scenario(shape, tall, replace(BED, stands="wall")), top=1, seconds=20))
    (plan,) = data["arrangements"]
    assert not faults(data)
    high = next(p for p in plan["pieces"] if p["name"] == "tall")
    high["footprint"] = [[2000, 1700], [2000, 2300], [3000, 2300], [3000, 1700]]
    assert set(under_slopes(data, plan)) == {"tall"}
