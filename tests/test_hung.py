"""Pendant lights and ceiling fans: what fits under, who sits and walks there, how they are read.

The lamp of most rooms here is 400 x 400 round its hook at (2000, 1500): x 1800 to 2200, y 1300
to 1700. The fan is 1000 across round the same hook.
"""

import math
from dataclasses import replace

import pytest
from small_rooms import A, B, C, at, both_say, clearance, free, on_wall, only, piece, room, scenario

from arrange.data.arrangement import Arrangement
from arrange.data.room import Door, Fixture
from arrange.data.scenario import RuleSetting
from arrange.errors import ScenarioError
from arrange.geometry.scene import Scene
from arrange.geometry.walking import goals, walk_of
from arrange.judge import judge
from arrange.scenario.read import read_text

fast = pytest.mark.fast


def lamp(bottom=1500, x=2000, y=1500):
    corners = ((x - 200, y - 200), (x - 200, y + 200), (x + 200, y + 200), (x + 200, y - 200))
    sizes = {"width": 400, "depth": 400, "bottom": bottom, "top": 2500}
    return Fixture("lamp", "pendant light", corners, **sizes)


def fan(bottom=2200, cut=292):
    a, b, c, d = (1500, 2500, 1000, 2000)
    corners = (
        (a, c + cut), (a, d - cut), (a + cut, d), (b - cut, d),
        (b, d - cut), (b, c + cut), (b - cut, c), (a + cut, c),
    )  # fmt: skip
    return Fixture("fan", "ceiling fan", corners, bottom=bottom, top=2500)


def with_lamp(*args, **more):
    return room(fixtures=(lamp(*args),), **more)


# -- bodies and clearances ---------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "height", "ok"),
    [
        pytest.param(1700, 1500, True, id="just as high as where it ends"),
        pytest.param(1700, 1501, False, id="1 mm higher"),
        pytest.param(1200, 1501, True, id="beside it, touching"),
        pytest.param(1201, 1501, False, id="1 mm under it"),
    ],
)
def test_what_is_low_enough_stands_under_a_lamp(x, height, ok):
    """A box 600 wide."""
    case = only(scenario(with_lamp(), free("box", height=height, roles=())))
    both_say(case, [at("box", "down", x, 1300)], "fixtures-free", ok)


@pytest.mark.parametrize(
    ("y", "bottom", "ok"),
    [
        pytest.param(1701, 1999, True, id="the floor before it ends 1 mm off the lamp"),
        pytest.param(1700, 1999, True, id="and just at it"),
        pytest.param(1699, 1999, False, id="1 mm under it: nobody stands there"),
        pytest.param(1699, 2000, True, id="but from 2 m on"),
    ],
)
def test_nobody_uses_a_piece_from_under_a_low_lamp(y, bottom, ok):
    """A chest on A whose front is at y = 2600 keeps 2600 - y free, below 2 m."""
    chest = piece("chest", clearances=(clearance(2600 - y),))
    case = only(scenario(with_lamp(bottom), chest))
    both_say(case, [at("chest", "down", 1700, 2600, A)], "least-clearance", ok)


@fast
@pytest.mark.parametrize(("bottom", "reached"), [(1999, False), (2000, True)])
def test_nobody_walks_under_a_low_lamp(bottom, reached):
    """Two walls leave 500 between them, under the lamp; the way is 500 wide."""
    shape = with_lamp(bottom, doors=(Door("door", C, 200, 800),))
    chest = piece("chest", clearances=(clearance(500),))
    left, right = free("left", 1750, 300), free("right", 1750, 300)
    places = (
        on_wall(chest, shape, A, 1000),
        at("left", "down", 0, 1300),
        at("right", "down", 2250, 1300),
    )
    case = scenario(shape, chest, left, right, walkway=500)
    scene = Scene(case, Arrangement(places))
    walk = walk_of(scene)
    assert [walk.reaches(goal) for goal in goals(scene)] == [reached]


BED = piece("bed", 900, 2000, 500, stands="free", headroom=965, roles=("sleep", "bed"))


@pytest.mark.parametrize(
    ("y", "bottom", "ok"),
    [
        # The head is at y + 1700; it keeps 200 off the lamp, which ends at 1300 and at 1700.
        pytest.param(200, 1464, True, id="well past it: at 1900"),
        pytest.param(199, 1464, False, id="1 mm nearer"),
        pytest.param(0, 1464, False, id="just at its edge"),
        pytest.param(0, 1465, True, id="high enough to sit up under it"),
    ],
)
def test_who_sits_up_in_bed_keeps_off_a_lamp(y, bottom, ok):
    """500 + 965 = 1465."""
    case = only(scenario(with_lamp(bottom), BED))
    both_say(case, [at("bed", "down", 1550, y)], "headroom", ok)


@pytest.mark.parametrize(("x", "ok"), [(950, True), (951, False), (2149, False), (2150, True)])
def test_and_beside_it_as_well(x, ok):
    """The head is 450 from the bed's side: at x = 1400, 200 off the lamp at 1600; and at 2600."""
    lamp_at = with_lamp(1464, 1800)
    case = only(scenario(lamp_at, BED))
    # The lamp at 1800 +- 200; with 200 more 1400 to 2200: so x + 450 is up to 1400, or from 2200.
    both_say(case, [at("bed", "down", x if x < 1500 else x - 400, 0)], "headroom", ok)


@fast
def test_a_lamp_over_the_feet_of_a_bed_is_nobodys_harm():
    case = only(scenario(with_lamp(1000), BED))
    assert not judge(case, Arrangement((at("bed", "down", 1550, 1000),))).breaches


@fast
def test_the_words_say_how_much_is_above():
    """1464 less 500."""
    case = only(scenario(with_lamp(1464), BED))
    (breach,) = judge(case, Arrangement((at("bed", "down", 1550, 0),))).breaches
    assert breach.sentence == "The bed has 96 cm above it; it needs 97 cm"


@pytest.mark.parametrize(("x", "level"), [(1330, 3), (1430, 3), (1431, 2), (1630, 2), (1631, 0)])
def test_a_dining_table_stands_under_its_pendant(x, level):
    """1340 wide: its middle is x + 670, the hook at 2000; 100 off is right, 300 well enough."""
    from plain_rooms import levels  # noqa: PLC0415  loads the solver

    table = free("table", 1340, 800, 740, roles=("dine", "table"))
    case = scenario(with_lamp(), table, use="dining room")
    assert levels(case, "table-placed", at("table", "down", x, 1100)) == [level]


# -- fans --------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("x", "height", "roles", "ok"),
    [
        # The blades end at x = 1500; 457 off them is 1043. The box is 600 wide.
        pytest.param(443, 2201, (), True, id="457 off, however high"),
        pytest.param(444, 2201, (), False, id="456 off, and 1 mm higher than the blades"),
        pytest.param(444, 2200, (), True, id="no higher than the blades"),
        pytest.param(1700, 2200, (), True, id="right under them"),
        pytest.param(443, 1500, ("bunk",), True, id="a high bed 457 off"),
        pytest.param(444, 1500, ("bunk",), False, id="a high bed nearer"),
    ],
)
def test_what_reaches_up_keeps_off_the_blades(x, height, roles, ok):
    """`fan-wall`: 457 mm from the blades to a wall; `fan-bunk`: no bunk under a fan."""
    case = only(scenario(room(fixtures=(fan(),)), free("box", height=height, roles=roles)))
    both_say(case, [at("box", "down", x, 1300)], "fan-clear", ok)


@fast
def test_the_distance_may_be_set_and_the_rule_switched_off():
    box = free("box", height=2201, roles=())
    case = only(scenario(room(fixtures=(fan(),)), box))
    placed = Arrangement((at("box", "down", 800, 1300),))
    assert [b.rule for b in judge(case, placed).breaches] == ["fan-clear"]
    for setting in (RuleSetting("fan-clear", least=100), RuleSetting("fan-clear", off=True)):
        own = replace(case, settings=(*case.settings, setting))
        assert not judge(own, placed).breaches


@fast
@pytest.mark.parametrize(("bottom", "said"), [(2133, True), (2134, False)])
def test_a_caution_where_the_blades_are_low(bottom, said):
    """`fan-floor`: 2134 mm above the floor."""
    from arrange.words.cautions import cautions  # noqa: PLC0415

    told = cautions(scenario(room(fixtures=(fan(bottom),)), free("box")))
    assert any("above the floor, where 214 cm is usual" in line for line in told) is said


@fast
@pytest.mark.parametrize(("depth", "said"), [(2456, True), (2457, False)])
def test_a_caution_where_the_blades_are_near_a_wall(depth, said):
    """The blades reach up to y = 2000; `fan-wall` asks for 457 to the wall."""
    from arrange.words.cautions import cautions  # noqa: PLC0415

    shape = room(((0, depth), (4000, depth), (4000, 0), (0, 0)), fixtures=(fan(),))
    told = cautions(scenario(shape, free("box")))
    assert any("from the wall, where 46 cm is usual" in line for line in told) is said


@pytest.mark.parametrize("seed", range(4))
def test_model_and_judge_agree_under_lamps_and_fans(seed):
    """Random rooms with a lamp and a fan in them, wherever that is."""
    from agreement import agree, random_scenario, thrown  # noqa: PLC0415  loads the solver

    level = random_scenario(seed)
    x0, y0, x1, y1 = level.room.bounds
    hung = (lamp((1100, 1500)[seed % 2], (x0 + x1) // 2, (y0 + y1) // 2), fan(1700))
    shape = replace(level.room, fixtures=(*level.room.fixtures, *hung))
    sat = tuple(replace(p, headroom=400) if p.is_a("seat") else p for p in level.pieces)
    case = replace(level, room=shape, pieces=sat)
    assert agree(case, thrown(case, seed))


# -- the reader --------------------------------------------------------------------
FILE = """
unit = "cm"
[room]
size = [400, 300]
ceiling = 250
[[door]]
wall = "B"
from_left = 20
width = 80
[[fixture]]
{more}
[[piece]]
kind = "sofa"
"""
PENDANT = 'kind = "pendant light"\nname = "lamp"\n'


@fast
@pytest.mark.parametrize(
    "more",
    [
        pytest.param(PENDANT + "at = [200, 150]", id="by its hook"),
        pytest.param(PENDANT + 'wall = "A"\nfrom_left = 200\noff_wall = 150', id="from a wall"),
        pytest.param(PENDANT + "at = [200, 150]\nbottom = 150\nheight = 100", id="all said"),
    ],
)
def test_a_pendant_light_is_read(more):
    assert read_text(FILE.format(more=more)).room.hung == (lamp(),)


@fast
def test_a_pendant_reaches_up_to_the_ceiling_unless_it_is_said():
    """From 200 to the 250 of the ceiling; what sits under it has headroom to keep."""
    found = read_text(FILE.format(more=PENDANT + "at = [200, 150]\nbottom = 200"))
    assert [(f.bottom, f.top) for f in found.room.hung] == [(2000, 2500)]
    assert [p.headroom for p in found.pieces] == [550]


@fast
def test_a_fan_has_eight_sides_round_its_sweep():
    """Each touches the circle: 1000 / (2 + sqrt 2) = 292.9 is cut off its corners, rounded down."""
    (found,) = read_text(
        FILE.format(more='kind = "ceiling fan"\nname = "fan"\nat = [200, 150]\nwidth = 100')
    ).room.hung
    assert found.corners == fan().corners
    assert (found.bottom, found.top) == (2200, 2500)
    assert int(1000 / (2 + math.sqrt(2))) == 292


@fast
@pytest.mark.parametrize(
    ("more", "where", "given"),
    [
        (PENDANT, "from_left", "not given"),
        (PENDANT + "at = 3", "at", "3 given"),
        (PENDANT + 'wall = "A"\nfrom_left = 401\noff_wall = 10', "from_left", "401 cm along"),
        (PENDANT + "at = [200, 150]\nbottom = 251", "height", "its top is"),
        ('kind = "ceiling fan"\nat = [200, 150]\ndepth = 40', "depth", "the key 'depth'"),
        (PENDANT + 'at = [200, 150]\nsteps = "left"', "steps", 'kind = "pendant light" is given'),
    ],
)
def test_what_makes_no_lamp_is_refused(more, where, given):
    with pytest.raises(ScenarioError) as caught:
        read_text(FILE.format(more=more))
    fault = caught.value.faults[0]
    assert fault.where.endswith(where)
    assert given in fault.given


# -- what is drawn and written -----------------------------------------------------
@fast
def test_what_hangs_is_drawn_dashed_over_what_stands():
    from arrange.draw.plan import plot_plan  # noqa: PLC0415  matplotlib

    table = free("table", 1400, 800, 740)
    placed = Arrangement((at("table", "down", 1300, 1100),))
    shape = room(fixtures=(lamp(), replace(fan(), name="other")))
    plan = plot_plan(scenario(shape, table, unit="cm"), placed)
    (ring,) = plan.of("fixture:lamp")
    (run,) = ring.get_segments()
    assert [round(v) for v in (run[:, 0].min(), run[:, 0].max())] == [1800, 2200]
    assert ring.get_zorder() > max(a.get_zorder() for a in plan.of("piece:table"))
    (blades,) = plan.of("fixture:other:hook")
    # From the middle half the sweep along each blade: 500 / sqrt 2 = 354.
    assert round(blades.get_segments()[0][:, 0].max()) == 2354


def test_what_is_written_holds_when_checked_without_the_program():
    """A chest under the lamp fails; what the search finds does not."""
    from recheck import faults, on_kept_floor  # noqa: PLC0415

    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver

    tall = piece("tall", 1000, 600, 2300, clearances=(clearance(500),))
    shape = room(doors=(Door("door", B, 1900, 800),), fixtures=(lamp(), fan()))
    data = as_data(suggest(scenario(shape, tall, BED), top=1, seconds=20))
    (plan,) = data["arrangements"]
    assert not faults(data)
    high = next(p for p in plan["pieces"] if p["name"] == "tall")
    high["footprint"] = [[1500, 1000], [1500, 1600], [2500, 1600], [2500, 1000]]
    assert set(on_kept_floor(data, plan)) == {"tall"}


@fast
def test_no_line_of_room_to_spare_leads_from_a_lamp_to_itself():
    """A table under a low lamp has floor to use on all sides, which ends at the lamp: no news."""
    from arrange.whatif.slack import spares  # noqa: PLC0415

    sides = ("front", "back", "left", "right")
    floor = tuple(clearance(500, sides=(side,), name=side) for side in sides)
    table = free("table", 1340, 800, 740, roles=("table",), clearances=floor)
    chest = piece("chest", clearances=(clearance(500),))
    shape = with_lamp(doors=(Door("door", C, 200, 800),))
    places = (at("table", "down", 1330, 1100), on_wall(chest, shape, A, 100))
    found = spares(scenario(shape, table, chest), Arrangement(places))
    assert found
    assert [spare.between for spare in found if len(set(spare.between)) == 1] == []


@fast
@pytest.mark.parametrize(("x", "over"), [(1330, True), (100, False)])
def test_what_a_finished_room_takes_over_the_table(x, over):
    """A bulb where a lamp hangs over it, by `pendant-table`: 1500 less 740 is 76 cm."""
    from arrange.shop.finishing import finishing  # noqa: PLC0415

    table = free("table", 1340, 800, 740, roles=("dine", "table"))
    case = scenario(with_lamp(), table, unit="cm")
    listed = finishing(case, Arrangement((at("table", "down", x, 1100),)))
    (item,) = [one for one in listed if one.source == "pendant-table"]
    assert item.thing == ("a bulb for the lamp" if over else "a lamp over the table")
    assert ("it hangs 76 cm above that" in item.how) is over
