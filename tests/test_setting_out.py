"""Setting out: two lengths a piece put it back where it stood, and it can be carried there."""

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from shapely.geometry import LineString

from arrange.data.arrangement import Arrangement, Placement
from arrange.draw.setting_out import measures
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import room_shape
from arrange.scenario.read import read, read_text
from arrange.whatif.setting_out import SIDES_AT, setting_out
from arrange.words.suggest import set_down_rows, set_down_words

pytestmark = pytest.mark.fast

DRAWN = sorted((Path(__file__).parent / "drawn").glob("*.toml"))


def drawn(path):
    scenario = read(path)
    return scenario, Arrangement(tuple(scenario.today))


def put_back(scenario, piece, one, facing, there):
    """The bounds of a piece on the plan, from its two lengths and its turn alone.

    ``there`` are the bounds of what was put back before it.
    """
    walls = {wall.name: wall for wall in scenario.room.walls}
    spans = []
    for axis, taped in enumerate((one.across, one.up)):
        if taped.neighbour:
            assert not taped.wall
            # The side that is told looks at the neighbour: the piece lies the other way.
            inward = 1 if SIDES_AT[facing].index(taped.side) == axis else -1
            at = there[taped.neighbour][axis + 2 * (inward > 0)]
        else:
            wall = walls[taped.wall]
            at = wall.start[axis]
            # From the left end a length runs along the wall, else square off it.
            inward = round((wall.along if taped.end == "left" else wall.inward)[axis])
        wide = (piece.width, piece.depth)
        own = "left right" if taped.side in ("left", "right") else "front back"
        long = wide[0] if own == "left right" else wide[1]
        near = at + inward * taped.length
        spans.append(sorted((near, near + inward * long)))
    (x0, x1), (y0, y1) = spans
    return x0, y0, x1, y1


@pytest.mark.parametrize("path", DRAWN, ids=lambda p: p.stem)
def test_two_lengths_put_every_piece_back(path):
    """Each hand-drawn example: to the millimetre, as the lengths are told in full."""
    scenario, arrangement = drawn(path)
    scene = Scene(scenario, arrangement)
    told = setting_out(scenario, arrangement)
    assert sorted(one.piece for one in told) == sorted(p.name for p in scenario.pieces)
    there = {}
    for one in told:
        placed = scene.find(one.piece)
        if placed.placement.facing is None:
            wall = scenario.room.walls[placed.placement.wall]
            along = [wall.coordinate(x, y) for x, y in placed.body.exterior.coords]
            ends = {"left": min(along), "right": wall.length - max(along)}
            assert one.across.length == pytest.approx(ends[one.across.end], abs=1)
            assert one.up.length == pytest.approx(placed.placement.inward, abs=1)
            continue
        back = put_back(scenario, placed.piece, one, placed.facing, there)
        assert back == (placed.x0, placed.y0, placed.x1, placed.y1)
        there[one.piece] = back


NARROW = """
[room]
size = [300, 400]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "wardrobe"
width = 150
depth = 60
stands_now = { across = 150, up = 340, facing = "down" }
[[piece]]
kind = "bookcase"
width = 40
depth = 40
stands_now = { across = 260, up = 290, facing = "left" }
[[piece]]
kind = "single bed"
width = 100
depth = 200
stands_now = { across = 0, up = 140, facing = "right" }
[[piece]]
kind = "other piece"
name = "crate"
width = 99
depth = 60
height = 210
stands_now = { across = 201, up = 170, facing = "up" }
[[piece]]
kind = "rug"
width = 100
depth = 60
stands_now = { across = 100, up = 20, facing = "up" }
[[piece]]
kind = "wall shelf"
stands_now = { across = 0, up = 375, facing = "down" }
"""


def test_what_stands_behind_goes_in_first():
    """Bed and crate leave no way past (200 + 99 of 300 cm): wardrobe and bookcase go before one.

    The rug lies under what is carried over it, and the shelf hangs when all stands.
    """
    scenario = read_text(NARROW)
    told = setting_out(scenario, Arrangement(tuple(scenario.today)))
    names = [one.piece for one in told]
    assert (names[0], names[-1]) == ("rug", "wall shelf")
    last = max(names.index("single bed"), names.index("crate"))
    assert max(names.index("wardrobe"), names.index("bookcase")) < last
    assert all(one.carried for one in told)


def test_what_cannot_be_carried_is_said():
    """Two columns leave 40 cm: a bed is 50 thin, a bookcase of 30 goes through."""
    columns = "".join(
        f'[[fixture]]\nkind = "column"\nat = [{x}, 110]\nwidth = 130\ndepth = 60\n'
        for x in (0, 170)
    )
    text = NARROW.split("[[piece]]", maxsplit=1)[0] + columns
    text += '[[piece]]\nkind = "single bed"\nstands_now = { wall = "A", from_left = 0 }\n'
    text += '[[piece]]\nkind = "bookcase"\nstands_now = { wall = "A", from_left = 120 }\n'
    scenario = read_text(text)
    told = {o.piece: o for o in setting_out(scenario, Arrangement(tuple(scenario.today)))}
    assert not told["single bed"].carried
    assert "lift it over" in set_down_words(told["single bed"], "cm")
    assert told["bookcase"].carried


def test_a_turn_is_told_where_no_wall_tells_it():
    """A piece in the room says where its front looks; at a wall its back says so.

    A crate or a rug has no front: nobody asks which of its sides is the back.
    """
    chair = '[[piece]]\nkind = "armchair"\nstands_now = { across = 180, up = 20, facing = "up" }\n'
    scenario = read_text(NARROW + chair)
    told = {o.piece: o for o in setting_out(scenario, Arrangement(tuple(scenario.today)))}
    assert set_down_words(told["wardrobe"], "cm") == (
        "back against wall A, right side against wall B"
    )
    assert set_down_words(told["armchair"], "cm").endswith("facing wall A")
    assert set_down_words(told["crate"], "cm") == (
        # Behind it is the wardrobe, and wall C is 170 cm off.
        "against wall B, 60 cm from the bookcase, long side along the bookcase"
    )
    assert "facing" not in set_down_words(told["rug"], "cm")


def test_what_is_pushed_in_under_a_slope_need_not_be_lifted():
    """The roof comes down to 80 cm above the bed, where nobody stands up; the floor is bare."""
    text = NARROW.split("[[piece]]", maxsplit=1)[0]
    text += '[[room.slope]]\nwall = "A"\nheight = 80\nuntil = 200\n'
    text += '[[piece]]\nkind = "single bed"\nstands_now = { wall = "A", from_left = 0 }\n'
    scenario = read_text(text)
    (bed,) = setting_out(scenario, Arrangement(tuple(scenario.today)))
    assert bed.carried


def test_no_two_lengths_run_along_one_another():
    """Three pieces one behind the other before a wall: each length ends elsewhere on its side."""
    text = """
[room]
size = [400, 500]
[[door]]
wall = "C"
from_left = 10
width = 80
"""
    for name, up in (("armchair", 120), ("sofa", 230), ("cot", 340)):
        text += f'[[piece]]\nkind = "{name}"\nwidth = 150\ndepth = 80\n'
        text += f'stands_now = {{ across = 120, up = {up}, facing = "up" }}\n'
    scenario = read_text(text)
    scene = Scene(scenario, Arrangement(tuple(scenario.today)))
    found = measures(scene, setting_out(scenario, scene.arrangement))
    up = [LineString([gap.start, gap.end]) for gap in found if gap.start[0] == gap.end[0]]
    assert sorted(line.length for line in up) == [800, 1200, 1900]  # the sofa: 500 - 230 - 80 cm
    assert min(a.distance(b) for a, b in combinations(up, 2)) >= 150


def test_no_length_lies_on_an_open_door():
    """The leaf is hung 30 cm from the right wall, where the middle of the cupboard's side is."""
    text = """
[room]
size = [400, 500]
[[door]]
wall = "C"
from_left = 30
width = 80
hinge = "left"
[[piece]]
kind = "chest of drawers"
width = 80
depth = 60
stands_now = { wall = "B", from_left = 300 }
"""
    scenario = read_text(text)
    scene = Scene(scenario, Arrangement(tuple(scenario.today)))
    (gap,) = measures(scene, setting_out(scenario, scene.arrangement))
    assert (gap.length, gap.start[0]) == (1200, gap.end[0])
    assert abs(gap.start[0] - (4000 - 300)) >= 75


AT_A_TABLE = """
[room]
size = [400, 500]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "dining table for two"
name = "table"
stands_now = { across = 150, up = 300, facing = "down" }
[[piece]]
kind = "dining chair"
count = 2
"""
AT_BOTH_SIDES = [Placement(f"dining chair {i + 1}", "up", 1650, (2480, 3770)[i]) for i in (0, 1)]


def test_chairs_at_a_table_are_told_together():
    """Nobody puts a tape to a chair that is pushed about all day."""
    scenario = read_text(AT_A_TABLE)
    rows = set_down_rows(scenario, Arrangement((*scenario.today, *AT_BOTH_SIDES)))
    assert rows[-1] == "dining chairs 1 and 2: at the table, as on the plan"
    assert [row.split(":")[0] for row in rows] == ["table", "dining chairs 1 and 2"]


def test_in_a_bay_a_length_is_taken_along_its_own_wall():
    """The bay is 140 wide, the seat 130 and 5 cm off each corner; no tape goes through a wall."""
    scenario = read(Path("scenarios/bay-room.toml"))
    wall = next(i for i, w in enumerate(scenario.room.walls) if w.name == "D")
    seat, along = scenario.piece("window seat"), scenario.room.walls[wall]
    x, y = along.point(50)
    one = Placement(seat.name, "down", x, y - seat.depth, wall)
    scene = Scene(replace(scenario, pieces=(seat,)), Arrangement((one,)))
    (told,) = setting_out(scene.scenario, scene.arrangement)
    assert set_down_words(told, "cm") == (
        "back against wall D, left side 5 cm from the left end of wall D"
    )
    (line,) = measures(scene, (told,))
    assert room_shape(scenario.room).contains(LineString([line.start, line.end]))
    assert LineString([line.start, line.end]).length == 50


IN_A_ROW = """
[room]
size = [400, 300]
[[door]]
wall = "C"
from_left = 310
width = 80
[[fixture]]
kind = "stove"
at = [350, 120]
width = 50
depth = 50
"""


@pytest.mark.parametrize(
    ("pieces", "words"),
    [
        # To the right the wardrobe is in the way, to the left the bed.
        (
            [("single bed", 0, 200, 200), ("wardrobe", 270, 240, 100), ("bookcase", 210, 270, 60)],
            "right side against the wardrobe",
        ),
        # 133 cm to the right through the wardrobe, 207 to the left: nobody tapes that for 3.
        (
            [("wardrobe", 270, 240, 130), ("bookcase", 207, 270, 60)],
            "right side 3 cm from the wardrobe",
        ),
        # 160 cm to the right through the wardrobe, 90 to it, 180 to the left.
        (
            [("wardrobe", 330, 240, 70), ("bookcase", 180, 270, 60)],
            "left side 180 cm from wall D",
        ),
        # The stove is opposite 50 of the 110 cm of the table: the tape goes past it.
        ([("coffee table", 200, 80, 100)], "100 cm from wall B"),
    ],
)
def test_no_tape_goes_through_what_stands(pieces, words):
    """The wall behind what was set down before is no place to measure from."""
    text = IN_A_ROW
    for kind, across, up, width in pieces:
        deep = {"single bed": 100, "wardrobe": 60, "bookcase": 30, "coffee table": 110}[kind]
        text += f'[[piece]]\nkind = "{kind}"\nwidth = {width}\ndepth = {deep}\n'
        text += f'stands_now = {{ across = {across}, up = {up}, facing = "down" }}\n'
    scenario = read_text(text)
    scene = Scene(scenario, Arrangement(tuple(scenario.today)))
    told = setting_out(scenario, scene.arrangement)
    assert words in set_down_words(told[-1], "cm")
    # The lengths that are drawn cross nothing that was there before.
    stove, there = scene.solid_fixtures[0][0], []
    for one in told:
        mine = [gap for gap in measures(scene, told) if gap.between[1] == one.piece]
        for line in (LineString([gap.start, gap.end]) for gap in mine):
            assert all(line.intersection(body).length < 1 for body in (stove, *there))
        there.append(scene.find(one.piece).body)


ALCOVES = """
[room]
size = [410, 580]
[[door]]
wall = "C"
from_left = 20
width = 80
[[fixture]]
kind = "chimney breast"
wall = "D"
from_left = 165
width = 140
depth = 35
[[piece]]
kind = "sofa"
width = 210
depth = 95
stands_now = { across = 200, up = 0, facing = "left" }
"""


def test_what_most_of_the_front_looks_at_is_told():
    """165 of the 210 cm of the sofa are opposite the alcove, 45 the breast, which is nearer."""
    scenario = read_text(ALCOVES)
    (row,) = set_down_rows(scenario, Arrangement(tuple(scenario.today)))
    assert row.endswith("back 115 cm from wall B, facing wall D")


def test_no_length_is_taken_from_a_chair_at_a_table():
    """The lamp is 3 cm from a chair and 5 from the bookcase, which is at the wall."""
    more = """[[piece]]
kind = "bookcase"
width = 300
depth = 30
stands_now = { across = 50, up = 470, facing = "down" }
[[piece]]
kind = "floor lamp"
width = 35
depth = 35
stands_now = { across = 170, up = 430, facing = "down" }
"""
    scenario = read_text(AT_A_TABLE + more)
    told = setting_out(scenario, Arrangement((*scenario.today, *AT_BOTH_SIDES)))
    assert [one.up.neighbour for one in told if one.piece == "floor lamp"] == ["bookcase"]
