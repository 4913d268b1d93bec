"""Places beside another piece: where a slot puts what is tied, and which slot it stands in."""

from dataclasses import replace

import pytest
from small_rooms import BAY, A, aslant, at, on_wall, only, piece, room, scenario, tied

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Slot
from arrange.geometry.shapes import in_slot, slot_number, slot_place
from arrange.judge import breaches
from arrange.scenario.read import read_text
from arrange.whatif.slack import spares
from arrange.words.suggest import line_words

pytestmark = pytest.mark.fast

SLANTED, BOTTOM = 1, 5  # walls of the bay, 1414 long at 45 degrees and 4000 long
FRONT = Slot("front", gap=50, facing="toward")
DESK = piece("desk", 800, 500)


def test_before_a_desk_on_the_top_wall_a_chair_looks_up_at_it():
    # The desk from x 1000 to 1800 and y 2500 to 3000: 50 off, 400 deep, middle at 1400.
    shape, chair = room(), tied("chair", "desk", FRONT)
    host = DESK, on_wall(DESK, shape, A, 1000)
    assert in_slot(chair, host, FRONT, shape) == at("chair", "up", 1200, 2050)


def test_at_a_slanted_wall_the_place_follows_the_wall():
    # Along it from 300 + 800 / 2 - 400 / 2 = 500, off it 500 + 50, turned by half a turn.
    shape, chair = room(BAY), tied("chair", "desk", FRONT)
    host = DESK, aslant("desk", SLANTED, 300)
    found = in_slot(chair, host, FRONT, shape)
    assert found == aslant("chair", SLANTED, 500, inward=550, quarter=2)


@pytest.mark.parametrize(("moved", "number"), [(0, 1), (1, None), (-1, None)])
def test_a_slot_is_known_by_its_place_to_the_millimetre(moved, number):
    for shape, stands in ((room(), at("desk", "down", 1000, 2500)), (room(BAY), None)):
        chair = tied("chair", "desk", Slot("left"), FRONT)
        host = DESK, stands or aslant("desk", SLANTED, 300)
        there = in_slot(chair, host, FRONT, shape)
        there = replace(there, x=there.x + moved, offset=there.offset + moved)
        assert slot_number((chair, there), host, shape) == number


def test_the_root_of_a_piece_is_what_it_is_tied_to_in_the_end():
    cup = tied("cup", "tray")
    case = scenario(room(), DESK, tied("tray", "desk"), cup)
    assert [case.root(name) for name in ("desk", "tray", "cup")] == ["desk"] * 3
    with pytest.raises(KeyError):
        case.root("saucer")


def test_room_to_spare_is_found_where_something_is_tied_at_a_slanted_wall():
    # Along the bottom wall 4000 - 1500 - 1400 - 1030 = 70; before, nothing was sure here.
    shape = room(BAY)
    row = [piece("bed", 1500, 600), piece("wardrobe", 1400, 600), piece("chest", 1030, 600)]
    table, stool = piece("table", 400, 300), tied("stool", "table", FRONT, size=300)
    case = only(scenario(shape, *row, table, stool))
    places = [on_wall(p, shape, BOTTOM, x) for p, x in zip(row, (0, 1500, 2970), strict=True)]
    host = aslant("table", SLANTED, 400)
    placed = Arrangement((*places, host, in_slot(stool, (table, host), FRONT, shape)))
    assert breaches(case, placed) == ()
    across = next(s for s in spares(case, placed) if s.direction == "across")
    assert across.mm == 70
    assert line_words(across, "cm") == (
        "Between wall A and wall E, past the chest, the wardrobe and the bed"
    )


@pytest.mark.parametrize(
    ("wide", "starts"),
    [
        # The part along the back is free from 950 to 2400: 1450 wide. In its middle:
        (800, 950 + 325),
        (950, 950 + 250),
        # 1000 wide there are 225 left before the arm, and legs there need 250.
        (1000, 1200),
        (1300, 1200),  # past the end at 2400
    ],
)
@pytest.mark.parametrize("arm", ["left", "right"])
def test_a_table_before_a_corner_sofa_leaves_the_legs_at_its_arm_their_floor(arm, wide, starts):
    """Else the arm could never be reached, and the sofa would have no place for its table."""
    text = (
        '[room]\nsize = [520, 460]\n[[door]]\nwall = "D"\nfrom_left = 300\nwidth = 90\n'
        '[[piece]]\nkind = "corner sofa"\nwidth = 240\ndepth = 180\n'
        f'arm_side = "{arm}"\n[[piece]]\nkind = "coffee table"\nwidth = {wide / 10}\n'
    )
    sofa, table = read_text(text).pieces
    a0, b0, a1, _, _ = slot_place(sofa, table, table.slots[0])
    assert (a0, b0) == (starts if arm == "left" else 2400 - starts - wide, 950 + 450)
    assert a1 - a0 == wide
