"""A bed larger than its mattress: how it is read, measured, drawn, changed and written.

What counts from the head of a bed counts from that of its mattress. The bed of the wishes is
1500 x 2000 with 100 of headboard, and with 100 of rails: the mattress is 1400 wide.
"""

from dataclasses import replace

import pytest
from plain_rooms import BOTTOM, LEFT, at, door, levels, on_wall, piece, room, scenario
from shapely.geometry import Polygon, box
from small_rooms import both_say, only
from small_rooms import room as small_room
from small_rooms import scenario as small_scenario

from arrange.begin.special import special_of
from arrange.data.arrangement import Arrangement
from arrange.data.kinds import kinds
from arrange.data.person import Person
from arrange.data.room import Beam
from arrange.data.sizes import change_to, smaller_sizes, standard_sizes
from arrange.draw.symbols import symbol
from arrange.errors import ScenarioError
from arrange.output.fields import About
from arrange.output.rooms import PLACED
from arrange.scenario.editing import Put, edited
from arrange.scenario.read import read_text
from arrange.words.cautions import cautions

fast = pytest.mark.fast
BED = piece("bed", 1500, 2000, 500, roles={"sleep", "bed", "for two"}, headboard=100, rails=100)
FREE = replace(BED, stands="free")


def bed_in_file(lines, kind="double bed"):
    door = '[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\n'
    text = f'[room]\nsize = [400, 400]\n{door}[[piece]]\nkind = "{kind}"\nname = "bed"\n{lines}\n'
    return read_text(text).piece("bed")


# -- read ------------------------------------------------------------------------
@fast
@pytest.mark.parametrize(
    ("lines", "rims"),
    [
        pytest.param("", (0, 0, 0), id="as large as the bed"),
        # 20 of length and 10 of width are left: 5 on each side, 5 at the foot, 15 at the head.
        pytest.param("mattress = [140, 200]", (150, 50, 100), id="the foot as a side"),
        pytest.param("mattress = [140, 200]\nheadboard = 12", (120, 80, 100), id="both said"),
        pytest.param('headboard = "12 cm"', (120, 0, 0), id="a headboard alone"),
        pytest.param("mattress = [140, 217]", (0, 30, 100), id="less left than a side takes"),
        pytest.param("mattress = [150, 220]", (0, 0, 0), id="nothing left"),
        pytest.param("mattress = [75, 110]", (725, 375, 750), id="half of it both ways"),
        pytest.param("headboard = 109.9", (1099, 0, 0), id="just less than half of it"),
    ],
)
def test_a_frame_is_what_the_mattress_leaves(lines, rims):
    """A bed of 150 x 220."""
    bed = bed_in_file(f"width = 150\ndepth = 220\n{lines}")
    assert (bed.headboard, bed.footboard, bed.rails) == rims
    assert bed.mattress == (1500 - rims[2], 2200 - rims[0] - rims[1])


@fast
@pytest.mark.parametrize(
    ("lines", "kind", "said"),
    [
        ("mattress = [150.1, 200]", "double bed", "mattress of 150.1 cm by 200 cm; the bed is"),
        ("mattress = [140, 220.1]", "double bed", "width and depth are those of the whole bed"),
        ("mattress = [140, 209]\nheadboard = 12", "double bed", "12 cm of headboard left out"),
        ("mattress = [200, 140]", "double bed", "its width comes first"),
        ("mattress = [74.9, 200]", "double bed", "check both measurements"),
        ("mattress = [14, 20]", "double bed", "14 cm by 20 cm"),
        ('mattress = "140 x 200 cm"', "double bed", r"\[width, length\], such as \[140, 200\]"),
        ("mattress = [140]", "double bed", "two lengths are needed"),
        ("headboard = 110", "double bed", "a headboard 110 cm thick on a bed 220 cm long"),
        ("mattress = [90, 200]", "daybed", "mattress is for a bed with straight sides"),
        ("headboard = 10", "cot", "headboard is for a bed with straight sides"),
        ("headboard = 10", "desk", "headboard is for a bed with straight sides"),
        ('shape = "oval"\nheadboard = 10', "double bed", "is for a bed with straight sides"),
    ],
)
def test_what_cannot_be_is_told_once(lines, kind, said):
    """One message for each."""
    size = "width = 150\ndepth = 220\n" if kind == "double bed" else ""
    with pytest.raises(ScenarioError, match=said) as caught:
        bed_in_file(size + lines, kind)
    assert len(caught.value.faults) == 1


@fast
def test_a_slip_of_the_bed_itself_is_told_alone():
    """A width in mm: the mattress has nothing to be measured by."""
    with pytest.raises(ScenarioError, match="width") as caught:
        bed_in_file("width = 1500\ndepth = 220\nmattress = [140, 200]")
    assert len(caught.value.faults) == 1


# -- measured from ---------------------------------------------------------------
# As in the wishes about beds: on the left wall, the middle of the door 600 from it, 500 from
# the head of the mattress; its left edge is at 5000 - offset - 800.
@pytest.mark.parametrize(("offset", "level"), [(3999, 1), (4000, 1), (4001, 0)])
def test_a_door_is_seen_500_ahead_of_the_mattress(offset, level):
    """The bed lies in line with it."""
    plan = room(doors=[door(BOTTOM, offset, 800)])
    s = scenario(plan, BED, only="bed-sees-door")
    assert levels(s, "bed-sees-door", on_wall(plan, BED, LEFT, 2000)) == [level]


# Looking right at (0, 1000): the pillow is x 100 to 600, y 1050 to 2450, the bed up to y 2500.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(900, 2500, 1, id="300 ahead of the pillow"),
        pytest.param(901, 2500, 0, id="1 mm more"),
        pytest.param(100, 2750, 1, id="300 aside of the pillow, 250 of the bed"),
        pytest.param(100, 2751, 0, id="and 1 mm more"),
    ],
)
def test_a_loose_bedside_table_is_in_reach_of_the_pillow(x, y, level):
    """A table of 400 x 400."""
    table = piece("table", 400, 400, 500, stands="free", roles={"bedside"})
    s = scenario(room(), FREE, table, only="in-reach")
    assert levels(s, "in-reach", at(FREE, 0, 1000, "right"), at(table, x, y)) == [level]


@pytest.mark.parametrize(("x", "level"), [(450, 1), (451, 0)])
def test_a_lamp_is_not_farther_down_than_the_pillow(x, level):
    """A lamp of 300: its middle at x + 150, the end of the pillow at 600."""
    lamp = piece("lamp", 300, 300, 1500, stands="free", roles={"light"})
    s = scenario(room(), FREE, lamp, only="lamp-at-seat")
    assert levels(s, "lamp-at-seat", at(FREE, 0, 1000, "right"), at(lamp, x, 2500)) == [level]


# Looking up at (0, 0): the pillow ends at (750, 600). The middle of the screen's front, which
# looks down, is at (x + 700, 2500): 1900 ahead, so as much aside is 45 degrees.
@pytest.mark.parametrize(("x", "level"), [(1950, 1), (1951, 0)])
def test_a_screen_is_seen_from_the_pillow(x, level):
    """As from the bed of another test without a headboard, 100 nearer."""
    screen = piece("screen", 1400, 400, 500, stands="free", roles={"screen"})
    s = scenario(room(), FREE, screen, only="view", use="bedroom")
    assert levels(s, "view", at(FREE, 0, 0, "up"), at(screen, x, 2500)) == [level]


# The beam covers y 1800 to 2000, at 1464; who sits up in a bed 500 high needs 1465.
def under_the_beam(bed, facing, y, ok):
    plan = small_room(beams=(Beam("beam", 0, (0, 1800, 4000, 2000), 1464),))
    bed = replace(bed, stands="free", headroom=965)
    both_say(only(small_scenario(plan, bed)), [at(bed, 1500, y, facing)], "headroom", ok)


@pytest.mark.parametrize(("y", "ok"), [(200, True), (201, False), (399, False), (400, True)])
def test_who_sits_up_sits_before_the_headboard(y, ok):
    """Facing down the head is 100 + 300 below the top of the bed: y + 2000 - 400."""
    under_the_beam(replace(BED, width=900, rails=0), "down", y, ok)


@pytest.mark.parametrize(
    ("rails", "y", "ok"),
    [
        # On 1200 two people sit at 50 + 300 and 50 + 900 from its left, the top: y + 950, y + 350.
        pytest.param(100, 850, True, id="of two the upper just before the beam"),
        pytest.param(100, 851, False, id="1 mm under it"),
        pytest.param(100, 1250, True, id="one on either side"),
        # On 1199 one sits in the middle, 50 + 599 from there: y + 651.
        pytest.param(101, 1149, True, id="one just before it"),
        pytest.param(101, 1150, False, id="1 mm under it"),
        pytest.param(101, 1250, False, id="one right under it"),
    ],
)
def test_as_many_sit_up_as_the_mattress_is_wide_for(rails, y, ok):
    """A bed 1300 wide along the beam, facing left."""
    under_the_beam(replace(BED, width=1300, rails=rails), "left", y, ok)


@fast
@pytest.mark.parametrize(
    ("depth", "headboard", "said"),
    [
        (2050, 0, ""),
        (2150, 100, ""),
        (2149, 100, "Al needs a mattress 205 cm long: that of the bed is shorter."),
        (2049, 0, "Al needs a mattress 205 cm long: the bed is shorter than that."),
    ],
)
def test_the_mattress_must_be_long_enough(depth, headboard, said):
    """185 cm and the 20 cm of EN 1334."""
    al = Person("Al", height=1850, sleeps_here=True)
    bed = replace(BED, depth=depth, headboard=headboard, rails=0)
    case = replace(scenario(room(), bed, people=(al,)), unit="cm")
    told = str(cautions(case, full=True))
    assert (said or "Al needs a mattress") in told if said else "Al needs" not in told


# -- drawn -----------------------------------------------------------------------
@fast
@pytest.mark.parametrize(("width", "pillows"), [(1399, 1), (1400, 2)])
def test_the_pillows_lie_on_the_mattress(width, pillows):
    """1300 and 1299 of mattress; the headboard is a line across, the foot is free of it."""
    bed = replace(BED, width=width, kind="double bed", footboard=50)
    strokes = symbol(bed).strokes
    mattress = box(50, 100, width - 50, 1950)
    rings = [Polygon(s) for s in strokes if len(s) > 20]
    inside = [ring for ring in rings if ring.area < mattress.area / 2]
    assert [(0, 100), (width, 100)] in strokes
    assert max(r.area for r in rings) == pytest.approx(mattress.area, rel=0.01)
    assert len(inside) == pillows
    assert all(mattress.covers(ring) and ring.bounds[3] < 600 for ring in inside)
    plain = replace(bed, headboard=0, footboard=0, rails=0)
    assert len(symbol(plain).strokes) == len(strokes) - 2 - (pillows - 2)


# -- in other sizes --------------------------------------------------------------
@fast
def test_standard_sizes_have_the_frame_of_the_bed():
    """A mattress of 900 x 2000 in the same frame: 1000 and 2000 + 100."""
    bed = replace(BED, kind="double bed")
    sizes = {s.label: (s.piece.width, s.piece.depth) for s in standard_sizes(bed, "eu").sizes}
    assert (1000, 2100) in sizes.values()
    plain = replace(bed, headboard=0, rails=0)
    assert (950, 2050) in [
        (s.piece.width, s.piece.depth) for s in standard_sizes(plain, "eu").sizes
    ]
    assert all(change_to(s, bed).piece == "bed" for s in smaller_sizes(bed, "cm"))


@fast
@pytest.mark.parametrize(("side", "least"), [("width", 101), ("depth", 101), ("height", 0)])
def test_no_bed_is_tried_without_any_mattress(side, least):
    """1 mm more than the frame; the height has no part in it."""
    assert BED.least_side(side) == least


@fast
@pytest.mark.parametrize(
    ("keys", "left"),
    [
        ({"width": 160, "depth": 215}, {"headboard"}),
        ({"owned": True}, {"mattress", "headboard"}),
        ({"kind": "desk"}, set()),
        ({"width": 160, "mattress": [150, 200]}, {"mattress", "headboard"}),
    ],
)
def test_a_bed_of_another_size_has_another_mattress(keys, left):
    """What no longer holds of a piece is taken out of its file."""
    row = {"kind": "double bed", "name": "bed", "mattress": [140, 200], "headboard": 10}
    tables = edited({"piece": [row]}, [Put("bed", tuple(keys.items()))])
    assert {"mattress", "headboard"} & set(tables.pieces[0][0]) == left


# -- written and asked for -------------------------------------------------------
@fast
def test_result_json_says_so_and_is_as_ever_without():
    """Three keys, each where it is not 0."""
    for bed, keys in ((BED, {"headboard": 100, "rails": 100}), (FREE.untied, {})):
        one = bed if keys else replace(bed, headboard=0, rails=0)
        stands = Arrangement((at(one, 0, 0),))
        record = PLACED.write(one, About(scenario(room(), one), stands))
        assert {k: record[k] for k in ("headboard", "footboard", "rails") if k in record} == keys


@fast
@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("the mattress is 140 x 200", {"mattress": [1400, 2000]}),
        ("1.4 x 2 m mattress", {"mattress": [1400, 2000]}),
        ("mattress of 140 by 200 cm", {"mattress": [1400, 2000]}),
        ("headboard 12", {"headboard": 120}),
        ("it has a 10 cm headboard", {"headboard": 100}),
        ("the headboard is 15 cm thick", {"headboard": 150}),
    ],
)
def test_a_person_says_it_of_a_bed_when_asked(words, row):
    """In answer to what is special about it."""
    assert special_of(words, "cm", kinds()["double bed"]) == row
    with pytest.raises(ValueError, match="That goes only for a bed"):
        special_of(words, "cm", kinds()["daybed"])


@fast
@pytest.mark.parametrize("words", ["mattress 140", "mattress 14 x 20", "mattress and headboard 9"])
def test_half_of_it_is_asked_for_again(words):
    """Both sides of the mattress; one thing at a time."""
    with pytest.raises(ValueError, match=r"mattress|at least 30 cm"):
        special_of(words, "cm", kinds()["double bed"])
