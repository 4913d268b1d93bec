"""Boxed stairs, over which things hang, and open ones, below which low things stand.

Both are 2000 along wall A of the plain room from its left end, and 900 deep: x 0 to 2000, y from
2100 up. The box is 1200 high at the right and slopes down to 200 at the left: 200 + x / 2. The
open stairs begin at the left as well: their underside is x high, up to 2000.
"""

from dataclasses import replace

import pytest
from small_rooms import (
    A,
    B,
    C,
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
from arrange.data.room import Door, Fixture
from arrange.errors import ScenarioError
from arrange.geometry.ceilings import ceiling_over, low_floor, not_walked
from arrange.geometry.scene import Scene
from arrange.geometry.stairs import higher_than
from arrange.geometry.walking import goals, walk_of
from arrange.scenario.read import read_text

fast = pytest.mark.fast
CORNERS = ((0, 3000), (2000, 3000), (2000, 2100), (0, 2100))
LEVEL = Fixture("box", "boxed stairs", CORNERS, A, 0, 2000, 900, 0, 1200)
SLOPING = replace(LEVEL, low_top=200)
OPEN = Fixture(
    "stairs", "stairs", CORNERS, A, 0, 2000, 900, 0, 2500,
    solid=False, steps="left", underside=2000,
)  # fmt: skip


# -- boxed ---------------------------------------------------------------------
@fast
def test_the_higher_part_of_a_box_goes_by_its_low_end():
    """700 is had from the middle on: x = 1000, or y = 2550 from the other ends."""
    parts = {
        end: higher_than(room(), replace(SLOPING, low_end=end), 700).bounds
        for end in ("left", "right", "front", "back")
    }
    assert parts == {
        "left": (1000, 2100, 2000, 3000),
        "right": (0, 2100, 1000, 3000),
        "front": (0, 2550, 2000, 3000),
        "back": (0, 2100, 2000, 2550),
    }
    assert higher_than(room(), SLOPING, 1200).is_empty
    assert higher_than(room(), SLOPING, 100).bounds == (0, 2100, 2000, 3000)
    # 201 is had 2 from the end, 200 at the end itself: what begins at 201 keeps off from 2 on.
    assert higher_than(room(), SLOPING, 201).bounds[0] == 2


@pytest.mark.parametrize(
    ("fixture", "x", "bottom", "ok"),
    [
        pytest.param(LEVEL, 0, 1200, True, id="over it"),
        pytest.param(LEVEL, 0, 1199, False, id="1 mm too low"),
        pytest.param(LEVEL, 2000, 0, True, id="beside it, on the floor"),
        pytest.param(LEVEL, 1999, 0, False, id="1 mm into it"),
        # 600 wide: its right end at x + 600 is over 200 + (x + 600) / 2.
        pytest.param(SLOPING, 0, 500, True, id="at the low end, 500 at x = 600"),
        pytest.param(SLOPING, 0, 499, False, id="1 mm too low there"),
        pytest.param(SLOPING, 400, 700, True, id="700 at x = 1000"),
        pytest.param(SLOPING, 401, 700, False, id="1 mm farther up"),
        pytest.param(SLOPING, 1400, 1200, True, id="over its higher end"),
        pytest.param(SLOPING, 1400, 1199, False, id="1 mm too low there"),
    ],
)
def test_what_begins_high_enough_hangs_over_a_box(fixture, x, bottom, ok):
    """A shelf 600 wide and 300 deep on A."""
    shelf = piece("shelf", 600, 300, 300, bottom=bottom)
    case = only(scenario(room(fixtures=(fixture,)), shelf))
    both_say(case, [at("shelf", "down", x, 2700, A)], "fixtures-free", ok)


@pytest.mark.parametrize(("y", "ok"), [(1700, True), (1701, False)])
def test_nothing_stands_in_a_box_however_low_it_is(y, ok):
    """A box of 400 depth before the low end, 100 high."""
    case = only(scenario(room(fixtures=(SLOPING,)), free("low", height=100, roles=())))
    both_say(case, [at("low", "down", 0, y)], "fixtures-free", ok)


# -- open below ------------------------------------------------------------------
@fast
def test_the_floor_below_open_stairs_is_low_from_where_they_begin():
    """Rounded up: 1401 is had 1401 from their end; all of it is lower than 2001."""
    shape = room(fixtures=(OPEN,))
    assert [s.bounds for s in low_floor(shape, 1400)] == [(0, 2100, 1400, 3000)]
    assert [s.bounds for s in low_floor(shape, 2001)] == [(0, 2100, 2000, 3000)]
    assert [s.bounds for s in not_walked(shape, STANDING)] == [(0, 2100, 1900, 3000)]
    right = room(fixtures=(replace(OPEN, steps="right"),))
    assert [s.bounds for s in low_floor(right, 1400)] == [(600, 2100, 2000, 3000)]
    # From the front: 900 deep for 2000 of height, 1400 at 630.
    front = room(fixtures=(replace(OPEN, steps="front"),))
    assert [s.bounds for s in low_floor(front, 1400)] == [(0, 2100, 2000, 2730)]
    assert [ceiling_over(shape, x, 2500) for x in (500, 1999, 2000)] == [500, 1999, 2500]
    assert ceiling_over(shape, 500, 2100) == 2500
    assert ceiling_over(front, 500, 2550) == 1000


@pytest.mark.parametrize(
    ("x", "height", "ok"),
    [
        pytest.param(800, 800, True, id="just under them"),
        pytest.param(799, 800, False, id="1 mm too near to where they begin"),
        pytest.param(1400, 1401, False, id="1 mm too high"),
        pytest.param(2000, 2400, True, id="beside them, however high"),
    ],
)
def test_what_is_low_enough_stands_below_open_stairs(x, height, ok):
    """A chest 600 wide and 400 deep on A."""
    case = only(scenario(room(fixtures=(OPEN,)), piece("chest", height=height)))
    both_say(case, [at("chest", "down", x, 2600, A)], "inside-room", ok)


@pytest.mark.parametrize(
    ("x", "headroom", "ok"),
    [
        pytest.param(1400, SEATED, True, id="who kneels has 1400"),
        pytest.param(1399, SEATED, False, id="1 mm less"),
        pytest.param(1900, STANDING, True, id="who stands has 1900"),
        pytest.param(1899, STANDING, False, id="1 mm less there"),
    ],
)
def test_the_floor_to_use_it_has_headroom_there(x, headroom, ok):
    """500 deep: 500 of it before a chest on A is below the stairs."""
    use = (clearance(500, headroom=headroom),)
    case = only(scenario(room(fixtures=(OPEN,)), piece("chest", height=600, clearances=use)))
    both_say(case, [at("chest", "down", x, 2600, A)], "least-clearance", ok)


@fast
@pytest.mark.parametrize(("underside", "reached"), [(2534, True), (2500, False)])
def test_nobody_walks_where_open_stairs_are_low(underside, reached):
    """From the door in A the only way is below the upper end, past a screen from x = 2000 on.

    1900 is had 1900 * 2000 / underside from the low end: at 1500 of 2534, with 500 left to walk,
    at 1520 of 2500.
    """
    doors = (Door("door", A, 2200, 800),)
    shape = room(fixtures=(replace(OPEN, underside=underside),), doors=doors)
    chest = piece("chest", clearances=(clearance(500),))
    screen = free("screen", 2000, 100, 2400)
    places = (on_wall(chest, shape, C, 1000), at("screen", "down", 2000, 2000))
    case = scenario(shape, chest, screen, walkway=500)
    scene = Scene(case, Arrangement(places))
    walk = walk_of(scene)
    assert [walk.reaches(goal) for goal in goals(scene)] == [reached]


# -- the reader ------------------------------------------------------------------
FILE = """
unit = "cm"
[room]
{room}
ceiling = 250
[[door]]
wall = "C"
from_left = 20
width = 80
[[fixture]]
{more}
[[piece]]
kind = "sofa"
"""
SIZE = "size = [400, 300]"
AT = 'wall = "A"\nfrom_left = 0\nwidth = 200\ndepth = 90\n'


def given(more, shape=SIZE):
    return read_text(FILE.format(more=more, room=shape)).room


@fast
def test_boxed_and_open_stairs_are_read():
    boxed = 'kind = "boxed stairs"\nname = "box"\nheight = 120\n' + AT
    corners = (*CORNERS[1:], CORNERS[0])
    assert given(boxed).fixtures == (replace(LEVEL, corners=corners),)
    sloping = given(boxed + 'low_height = 20\nlow_end = "left"')
    assert sloping.fixtures == (replace(SLOPING, corners=corners),)
    assert sloping.is_level
    stairs = given('kind = "stairs"\nsteps = "left"\nunderside = 200\n' + AT)
    (found,) = stairs.fixtures
    assert (found.solid, found.underside, found.corners) == (False, 2000, corners)
    assert not stairs.is_level


@fast
@pytest.mark.parametrize(
    ("more", "where", "said"),
    [
        ('kind = "boxed stairs"\nlow_height = 100\n', "low_height", "100 cm given"),
        ('kind = "boxed stairs"\nlow_end = "left"\n', "low_height", "not given"),
        ('kind = "boxed stairs"\nlow_end = "top"\n', "low_end", "'top' given"),
        ('kind = "stairs"\nlow_height = 50\n', "low_height", 'kind = "stairs" is given'),
        ('kind = "boxed stairs"\nunderside = 90\n', "underside", 'kind = "boxed stairs" is given'),
        ('kind = "boxed stairs"\noff_wall = 20\n', "off_wall", "it stands off the wall"),
    ],
)
def test_what_makes_no_stairs_is_refused(more, where, said):
    with pytest.raises(ScenarioError) as caught:
        given(more + AT)
    fault = caught.value.faults[0]
    assert fault.where.endswith(where)
    assert said in fault.given


@fast
def test_open_stairs_are_at_straight_walls():
    corners = "corners = [[0, 0], [0, 200], [100, 300], [400, 300], [400, 0]]"
    more = 'kind = "stairs"\nunderside = 200\nwall = "B"\nfrom_left = 0\nwidth = 100\ndepth = 60'
    text = FILE.format(more=more, room=corners).replace('"C"', '"E"')
    with pytest.raises(ScenarioError, match="open stairs are at a wall straight across"):
        read_text(text)


# -- what is drawn and written ---------------------------------------------------
@fast
def test_the_plan_shows_what_is_below_open_stairs():
    """Their outline dashed, what is too low tinted, and how high they are at most."""
    from arrange.draw.plan import plot_plan  # noqa: PLC0415  matplotlib

    chest = piece("chest", height=800)
    placed = Arrangement((at("chest", "down", 1000, 2600, A),))
    plan = plot_plan(scenario(room(fixtures=(OPEN,)), chest, unit="cm"), placed)
    (tint,) = plan.of("slope")
    assert tint.get_path().get_extents().bounds == (0, 2100, 1900, 900)
    written = [text.get_text() for text in plan.of("stairs:text")]
    assert written == ["below the stairs, up to 200 cm high"]


@fast
def test_they_are_written_and_read_back():
    from arrange.output.fields import About  # noqa: PLC0415
    from arrange.output.rooms import ROOM, read_room  # noqa: PLC0415

    for one, keys in ((SLOPING, {"low_top": 200}), (OPEN, {"underside": 2000, "steps": "left"})):
        shape = room(fixtures=(one,))
        data = ROOM.write(shape, About(scenario(shape)))
        (row,) = data["fixtures"]
        assert keys.items() <= row.items()
        (back,) = read_room(data).fixtures
        assert (back.low_top, back.underside, back.wall) == (one.low_top, one.underside, A)
        assert (back.offset, back.width, back.depth) == (0, 2000, 900)


def test_what_is_written_holds_when_checked_without_the_program():
    """Low things below the open stairs; and what is moved there fails."""
    from recheck import faults, under_slopes  # noqa: PLC0415

    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    tall = piece("tall", 1000, 600, 1500, clearances=(clearance(500),))
    low = piece("low", 1200, 300, 600, clearances=(clearance(300, headroom=1000),))
    shape = room(doors=(Door("door", B, 1900, 800),), fixtures=(OPEN,))
    data = as_data(suggest(scenario(shape, tall, low), top=1, seconds=20))
    (plan,) = data["arrangements"]
    assert not faults(data)
    high = next(p for p in plan["pieces"] if p["name"] == "tall")
    for x, found in ((1500, set()), (1499, {"tall"})):
        high["footprint"] = [[x, 2400], [x, 3000], [x + 1000, 3000], [x + 1000, 2400]]
        assert set(under_slopes(data, plan)) == found


@pytest.mark.parametrize("seed", range(4))
def test_model_and_judge_agree_at_stairs(seed):
    """Random rooms with open stairs along the wall at the bottom, or a box in the room's corner."""
    from agreement import agree, random_scenario, thrown  # noqa: PLC0415  loads the solver

    level = random_scenario(seed)
    foot = next(
        i
        for i, wall in enumerate(level.room.walls)
        if wall.facing == "up" and all(wall.off(*c) >= 0 for c in level.room.corners)
    )
    wall = level.room.walls[foot]
    ends = [wall.point(a, b) for a, b in ((0, 0), (1500, 0), (1500, 800), (0, 800))]
    corners = tuple((round(x), round(y)) for x, y in reversed(ends))
    one = OPEN if seed % 2 else SLOPING
    fixture = replace(one, corners=corners, wall=foot, width=1500, depth=800)
    hung = tuple(replace(p, headroom=400) if p.is_a("seat") else p for p in level.pieces)
    shape = replace(level.room, fixtures=(*level.room.fixtures, fixture))
    case = replace(level, room=shape, pieces=hung)
    assert agree(case, thrown(case, seed))
