"""The counter of what a decorator never draws, on records made by hand. Lengths here in cm.

Each number has a record with the fault and one without; what is drawn in them says why. The
room is 500 by 400 with its door at the lower right and a window in the middle of the top wall.
"""

import ast
from functools import cache
from pathlib import Path

import pytest

import arrange
from arrange.data.arrangement import Arrangement
from arrange.output.fields import About
from arrange.output.records import today_data
from arrange.output.rooms import PLACED
from arrange.whatif.today import assess_today
from benchmarks import taste_counter as counter
from benchmarks.taste_counter import count, counted, tally
from benchmarks.taste_measures import MEASURES, TITLES

pytestmark = pytest.mark.fast

SIZES = {
    "sofa": (210, 95, 85),
    "corner sofa": (240, 170, 85),
    "armchair": (85, 90, 90),
    "coffee table": (100, 50, 42),
    "side table": (45, 45, 55),
    "tv unit": (140, 40, 50),
    "floor lamp": (35, 35, 160),
    "plant": (40, 40, 120),
    "rug": (200, 140, 1.5),
    "single bed": (95, 205, 50),
    "double bed": (150, 205, 50),
    "bedside table": (40, 40, 50),
    "wardrobe": (100, 60, 200),
    "chest of drawers": (80, 45, 90),
    "bookcase": (80, 30, 200),
    "sideboard": (160, 45, 80),
    "wall shelf": (80, 25, 170),
    "desk": (140, 70, 74),
    "dining table for two": (75, 75, 74),
    "dining table for four": (135, 80, 74),
    "dining chair": (45, 50, 90),
    "cot": (126, 68, 95),
    "changing table": (85, 55, 95),
    "shoe cabinet": (80, 30, 100),
    "hall bench": (100, 40, 45),
    "hall mirror": (50, 10, 170),
}
DOOR = {"name": "door", "wall": "C", "from_left": 20, "width": 80, "main": True}
DOOR_IN = {"name": "door", "wall": "C", "from_left": 60, "width": 80, "main": True}
KITCHEN = {"name": "kitchen door", "wall": "A", "from_left": 400, "width": 80, "opens": "out"}
WINDOW = {"name": "window", "wall": "A", "from_left": 200, "width": 100}


def mm(one):
    """A record in mm from one in cm."""
    lengths = ("from_left", "width", "depth", "bottom", "top")
    return {k: round(10 * v) if k in lengths else v for k, v in one.items()}


def put(kind, x, y, facing="up", name=None, *, width=None, depth=None, bottom=0, **more):
    """A piece with the lower left corner of its footprint at (x, y)."""
    wide, deep, top = SIZES[kind]
    width, depth = width or wide, depth or deep
    across, up = (width, depth) if facing in ("up", "down") else (depth, width)
    ring = [(x, y), (x, y + up), (x + across, y + up), (x + across, y)]
    return {
        **mm({"kind": kind, "width": width, "depth": depth, "bottom": bottom, "top": top}),
        "name": name or kind,
        "flat": kind == "rug",
        "placement": {"wall": None, "facing": facing, "slanted": False},
        "footprint": [[10 * a, 10 * b] for a, b in ring],
        **more,
    }


def light(x, y):
    """A light point."""
    return {
        **{"name": "light", "kind": "light point", "wall": None, "at": [10 * x, 10 * y]},
        **{"polygon": [], "bottom": 2500, "top": 2600, "solid": False},
    }


def record(*plans, size=(500, 400), doors=(DOOR,), windows=(WINDOW,), fixtures=(), wishes=()):
    """A result with these plans, each a list of pieces; one with ``plans`` of pieces alone."""
    wide, high = (10 * s for s in size)
    corners = [[0, high], [wide, high], [wide, 0], [0, 0]]
    ends = [*corners[1:], corners[0]]
    walls = [
        {"name": name, "left_end": left, "right_end": right}
        for name, left, right in zip("ABCD", corners, ends, strict=True)
    ]
    every = plans if plans and isinstance(plans[0], list) else [list(plans)]
    return {
        "unit": "cm",
        "wishes": list(wishes),
        "room": {
            "outline": corners,
            "walls": walls,
            "doors": [mm(d) for d in doors],
            "windows": [mm(w) for w in windows],
            "fixtures": list(fixtures),
        },
        "arrangements": [{"rank": i, "pieces": one} for i, one in enumerate(every, 1)],
    }


SOFA = put("sofa", 100, 0)
SCREEN = put("tv unit", 135, 360, "down")
CASE = put("bookcase", 0, 370, "down", "case 1")
CORNER = put("sofa", 0, 0)
# An L at x 100 to 340, its back part up to y 95, its arm from x 245 up to y 170.
RING = [(100, 0), (100, 95), (245, 95), (245, 170), (340, 170), (340, 0)]
ELL = {**put("corner sofa", 100, 0), "footprint": [[10 * x, 10 * y] for x, y in RING]}
TWO = "dining table for two"
ARM = put("armchair", 0, 0, "right", "arm 1")
OTHER = put("armchair", 410, 0, "left", "arm 2")
BIG = put("rug", 140, 90, width=320, depth=220)
SLEEP = (put("double bed", 0, 200, "right"), put("wardrobe", 0, 0))
FLAT = (put("double bed", 0, 250, "right"), put("sofa", 0, 0), put("armchair", 250, 150, "left"))
NEAR_BOARD = put("dining table for four", 110, 200), put("dining chair", 155, 282, "down")
OFF_BOARD = put("dining table for four", 110, 80), put("dining chair", 155, 162, "down")
CASES = {
    # The screen is 60 degrees off the sofa's facing; opposite it, 265 cm away.
    "1": (record(SOFA, put("tv unit", 0, 130, "right")), record(SOFA, SCREEN)),
    # From the bed the screen is behind the pillow; or ahead.
    "1 bed": (
        record(put("single bed", 0, 195, "down"), put("tv unit", 200, 360, "down")),
        record(put("single bed", 0, 195, "down"), put("tv unit", 0, 0, "up")),
    ),
    # A plant of 120 cm stands between sofa and screen; or in a corner.
    "2": (
        record(SOFA, SCREEN, put("plant", 190, 200)),
        record(SOFA, SCREEN, put("plant", 0, 360)),
    ),
    # The leaf hangs 60 cm from wall B, where the chest has its front; or 200 cm further up.
    "3": (
        record(put("chest of drawers", 455, 0, "left"), doors=[{**DOOR, "from_left": 60}]),
        record(put("chest of drawers", 455, 200, "left"), doors=[{**DOOR, "from_left": 60}]),
    ),
    # 20 cm between bed and wall; or none.
    "4": (record(put("single bed", 20, 195, "down")), record(put("single bed", 0, 195, "down"))),
    # 25 cm behind the sofa; or 60.
    "4 back": (record(put("sofa", 100, 25)), record(put("sofa", 100, 60))),
    # 15 cm between the wardrobe and what stands before it; or nothing there.
    "5": (
        record(put("wardrobe", 0, 150, "right"), put("sofa", 75, 100, "right")),
        record(put("wardrobe", 0, 150, "right")),
    ),
    # The table stands 55 cm from the pillow; or at it.
    "5 bedside": (
        record(put("double bed", 175, 195, "down"), put("bedside table", 380, 360, "down")),
        record(put("double bed", 175, 195, "down"), put("bedside table", 325, 360, "down")),
    ),
    # The bed's middle is 5 cm off that of wall and window; or on it.
    "6": (record(put("double bed", 170, 195, "down")), record(put("double bed", 175, 195, "down"))),
    # 117 cm off the light; or under it.
    "7": (
        record(put("dining table for four", 300, 160), fixtures=[light(250, 200)]),
        record(put("dining table for four", 182.5, 160), fixtures=[light(250, 200)]),
    ),
    # 30 cm to pull the chair out, its own depth; or 190. The table stands at the window for two.
    "7 chair": (
        record(put(TWO, 200, 52), put("dining chair", 215, 0)),
        record(put(TWO, 200, 162), put("dining chair", 215, 110)),
    ),
    # Who sits on an L has the screen 51 degrees aside; or ahead.
    "1 corner": (
        record(ELL, put("tv unit", 360, 260, "left")),
        record(ELL, put("tv unit", 100, 360, "down")),
    ),
    # The sofa's front is at the rug's edge; or 20 cm on it.
    "8": (record(SOFA, put("rug", 105, 95)), record(SOFA, put("rug", 105, 75))),
    # The front of its back part is 75 cm on the rug; or 20.
    "8 corner": (record(ELL, put("rug", 120, 20)), record(ELL, put("rug", 120, 75))),
    # The lamp stands in the far corner; or 15 cm beside the sofa.
    "9": (record(SOFA, put("floor lamp", 0, 365)), record(SOFA, put("floor lamp", 50, 0))),
    # Two lamps at one armchair, none at the other; or one each.
    "9 two": (
        record(ARM, OTHER, put("floor lamp", 0, 85), put("floor lamp", 50, 150, name="lamp 2")),
        record(ARM, OTHER, put("floor lamp", 0, 85), put("floor lamp", 465, 90, name="lamp 2")),
    ),
    # Before the sofa; or beside it.
    "9 before": (record(SOFA, put("floor lamp", 190, 100)), record(SOFA, put("floor lamp", 50, 0))),
    # A rug of 320 x 220 reaches 40 beyond the table on one side; or 70 and more all round.
    "8 table": (
        record(put("dining table for four", 180, 160), BIG),
        record(put("dining table for four", 182.5, 160), put("rug", 90, 90, width=320, depth=220)),
    ),
    # One case on each of two walls; or side by side.
    "10": (
        record(CASE, put("bookcase", 0, 100, "right", "case 2")),
        record(CASE, put("bookcase", 80, 370, "down", "case 2")),
    ),
    # 55 cm before a wall; or 305.
    "11": (record(put("sofa", 100, 250)), record(SOFA)),
    # 320 cm from the window; or 10, with the light from the side.
    "12": (record(put("desk", 0, 0)), record(put("desk", 50, 330, "down"))),
    # The screen straight before the window; or beside it.
    "12 screen": (record(put("tv unit", 180, 120)), record(put("tv unit", 0, 360, "down"))),
    # Under the window; or 332 cm from it.
    "13": (record(put("cot", 200, 332, "down")), record(put("cot", 0, 0))),
    # A changing table 10 cm from it; or 60.
    "13 step": (
        record(put("cot", 0, 0), put("changing table", 136, 0)),
        record(put("cot", 0, 0), put("changing table", 186, 0)),
    ),
    # A shelf over it; or over nothing.
    "13 shelf": (
        record(put("cot", 0, 0), put("wall shelf", 0, 0, bottom=140)),
        record(put("cot", 0, 0), put("wall shelf", 200, 0, bottom=140)),
    ),
    # 123.4 cm from the corner; or 125.
    "14": (record(put("wardrobe", 123.4, 340, "down")), record(put("wardrobe", 125, 340, "down"))),
    # The same bed 20 cm further; or on another wall.
    "15": (
        record([put("double bed", 0, 195, "down")], [put("double bed", 20, 195, "down")]),
        record([put("double bed", 0, 195, "down")], [put("double bed", 0, 150, "right")]),
    ),
    # The way along x = 440 runs between sofa and armchair; or the armchair is on the sofa's side.
    "16": (
        record(
            put("sofa", 200, 100, "right"), put("armchair", 500, 160, "left"),
            size=(600, 400), doors=({**DOOR, "from_left": 120}, KITCHEN),
        ),
        record(
            put("sofa", 100, 100, "right"), put("armchair", 210, 310, "down"),
            size=(600, 400), doors=({**DOOR, "from_left": 120}, KITCHEN),
        ),
    ),
    # The side table is in the far corner; or beside the sofa.
    "17": (
        record(SOFA, put("side table", 455, 355)),
        record(SOFA, put("side table", 50, 0)),
    ),
    # 20 cm from sofa to coffee table; or 40.
    "17 coffee": (
        record(SOFA, put("coffee table", 155, 115)),
        record(SOFA, put("coffee table", 155, 135)),
    ),
    # 20 cm from the back part of an L to the coffee table; or 40, and 25 from its arm.
    "17 corner": (
        record(ELL, put("coffee table", 120, 115)),
        record(ELL, put("coffee table", 120, 135)),
    ),
    # 150 cm inside the group, 35 to the table; or 50 and 235.
    "18": (
        record(CORNER, put("armchair", 360, 0, "left"), put(TWO, 360, 120)),
        record(CORNER, put("armchair", 260, 0, "left"), put(TWO, 350, 320)),
    ),
    # The head is under the window; or the bed lies along wall D and sees the door.
    "19": (record(put("double bed", 175, 195, "down")), record(put("double bed", 0, 200, "right"))),
    # Straight before the door; a wardrobe hides the door; in the nearer half.
    "19 straight": (
        record(put("single bed", 400, 195, "down"), windows=()),
        record(put("single bed", 0, 195, "down"), windows=()),
    ),
    "19 hidden": (
        record(put("single bed", 0, 195, "down"), put("wardrobe", 150, 180, "down")),
        record(put("single bed", 0, 195, "down"), put("wardrobe", 250, 340, "down")),
    ),
    "19 near": (
        record(put("single bed", 0, 0, "right"), windows=(), doors=[{**DOOR, "from_left": 380}]),
        record(put("single bed", 0, 0, "right"), windows=()),
    ),
    # Both look the same way; or at right angles.
    "20": (
        record(CORNER, put("armchair", 220, 0)),
        record(CORNER, put("armchair", 230, 110, "left")),
    ),
    # The wardrobe shows its side; or its front.
    "21": (record(put("wardrobe", 440, 150, "left")), record(put("wardrobe", 390, 340, "down"))),
    # 440 cm from wardrobe to chest; or beside it.
    "22": (
        record(*SLEEP, put("chest of drawers", 455, 320, "left")),
        record(*SLEEP, put("chest of drawers", 110, 0)),
    ),
    # 23 cm from chair to drawers; or 143.
    "23": (
        record(put("sideboard", 100, 355, "down"), *NEAR_BOARD),
        record(put("sideboard", 100, 355, "down"), *OFF_BOARD),
    ),
    # 330 cm from the kitchen door; or 140.
    "23 door": (
        record(put("dining table for four", 0, 0), doors=[DOOR, KITCHEN]),
        record(put("dining table for four", 200, 200), doors=[DOOR, KITCHEN]),
    ),
    # The table stands between sofa and armchair; or beyond them.
    "24": (
        record(*FLAT, put(TWO, 230, 40)),
        record(*FLAT, put(TWO, 400, 250)),
    ),
    # The bed is nearer to the door than the table.
    "24 bed": (
        record(put("double bed", 295, 150, "left"), CORNER, put(TWO, 0, 320)),
        record(put("double bed", 0, 250, "right"), CORNER, put(TWO, 400, 250)),
    ),
    # A hall 130 wide with a cabinet 50 deep inside the door; or beyond the first 120 cm.
    "25 hall": (
        record(put("shoe cabinet", 0, 20, "right", depth=50), size=(130, 400), windows=()),
        record(put("shoe cabinet", 0, 130, "right"), size=(130, 400), windows=()),
    ),
    # 309 cm from chair to cot; or 140, with both cot and door before it.
    "25 nursery": (
        record(put("cot", 0, 0), put("armchair", 410, 190, "left")),
        record(put("cot", 0, 0), put("armchair", 180, 200, "down")),
    ),
    # 220 cm from desk to books; or 20.
    "25 office": (
        record(put("desk", 50, 330, "down"), put("bookcase", 410, 370, "down")),
        record(put("desk", 50, 330, "down"), put("bookcase", 210, 370, "down")),
    ),
}  # fmt: skip


def numbers(data):
    """The numbers of what counts."""
    return {f.number for f in counted(count(data))}


@cache
def found(case):
    """What is counted in both records of a case."""
    return [count(data) for data in CASES[case]]


@pytest.mark.parametrize("case", CASES)
def test_a_fault_is_counted_and_its_absence_is_not(case):
    """As drawn above."""
    faulty, sound = ({f.number for f in counted(faults)} for faults in found(case))
    number = int(case.split()[0])
    assert number in faulty
    assert number not in sound


def mirrored(data):
    """The same in a mirror: left is right."""
    room = data["room"]
    wide = max(x for x, _ in room["outline"])

    def flip(points):
        return [[wide - x, y] for x, y in points]

    length = {"A": wide, "C": wide, "B": room["outline"][0][1], "D": room["outline"][0][1]}

    def moved(one):
        hinge = {"left": "right", "right": "left"}[one.get("hinge", "left")]
        at = length[one["wall"]] - one["from_left"] - one["width"]
        return {**one, "from_left": at, "hinge": hinge}

    def turned(piece):
        way = piece["placement"]["facing"]
        way = {"left": "right", "right": "left"}.get(way, way)
        place = {**piece["placement"], "facing": way}
        return {**piece, "placement": place, "footprint": flip(piece["footprint"])}

    walls = [
        {**w, "left_end": flip([w["right_end"]])[0], "right_end": flip([w["left_end"]])[0]}
        for w in room["walls"]
    ]
    changed = {
        "outline": flip(room["outline"]),
        "walls": walls,
        "doors": [moved(d) for d in room["doors"]],
        "windows": [moved(w) for w in room["windows"]],
        "fixtures": [{**f, "at": flip([f["at"]])[0]} for f in room["fixtures"]],
    }
    plans = [{**a, "pieces": list(map(turned, a["pieces"]))} for a in data["arrangements"]]
    return {**data, "room": changed, "arrangements": plans}


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_in_a_mirror_the_same_is_counted(case):
    """Each fault of each case, with its pieces; only what is called left is called right."""
    for data, faults in zip(CASES[case], found(case), strict=True):
        seen = [(f.number, f.rank, f.plan, f.pieces) for f in faults]
        assert sorted(
            (f.number, f.rank, f.plan, f.pieces) for f in count(mirrored(data))
        ) == sorted(seen)


def test_the_counter_takes_nothing_of_the_program():
    """Its three files import neither the package nor what imports it."""
    folder = Path(counter.__file__).parent
    for name in ("taste_counter", "taste_measures", "taste_plan"):
        for node in ast.walk(ast.parse((folder / f"{name}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                assert not any(one.name.startswith("arrange") for one in node.names)
            elif isinstance(node, ast.ImportFrom):
                assert not (node.module or "").startswith("arrange")
                own = (node.module or "").startswith("benchmarks")
                assert not own or (node.module or "").startswith("benchmarks.taste_")


def test_every_number_has_a_case():
    """From 1 to 25."""
    assert {int(case.split()[0]) for case in CASES} == set(range(1, 26)) == set(TITLES)
    assert set(MEASURES) == set(TITLES) - {15}


def test_a_fault_says_where_and_by_how_much():
    """Named by number, rank, plan, pieces and a figure."""
    (fault,) = [f for f in count(CASES["6"][0]) if f.number == 6]
    assert (fault.rank, fault.plan, fault.pieces) == ("C", 1, ("double bed",))
    assert fault.text == "5 cm off the middle of window"


def test_a_gutter_filled_by_something_small_or_alike_on_both_sides_is_none():
    """Something 20 wide fills it, a rug does not; 20 on both sides are an alcove."""
    bed = put("single bed", 20, 195, "down")
    assert 4 not in numbers(record(bed, put("plant", 0, 200, width=20, depth=180)))
    assert 4 in numbers(record(bed, put("plant", 0, 200, width=20, depth=60)))
    assert 4 in numbers(record(bed, put("rug", 0, 250)))
    assert 4 not in numbers(record(bed, size=(135, 400), windows=(), doors=()))


def test_a_chair_to_read_in_stands_by_itself_where_there_are_others():
    """Turned away from the sofa it counts only as the one other seat."""
    away = put("armchair", 400, 100, "up", "reader") | {"kind": "reading chair"}
    assert 20 in numbers(record(CORNER, away, doors=()))
    talks = put("armchair", 230, 150, "left")
    assert not {11, 20} & numbers(record(CORNER, away, talks, doors=()))


def test_a_seat_is_measured_from_seat_to_seat():
    """244 from the sofa's end, 392 from its middle; then 245."""
    for x, there in ((454, False), (455, True)):
        seat = put("armchair", x, 20, "left")
        told = [f.text for f in count(record(CORNER, seat, size=(700, 400))) if f.number == 20]
        assert (told == ["245 cm from sofa, 244 at most wanted"]) == there


def test_one_of_two_shoe_cabinets_is_by_the_seat():
    """60 from the bench the nearer one, then 61."""
    for y, there in ((190, False), (191, True)):
        plan = [put("hall bench", 0, 30, "right"), put("shoe cabinet", 0, y, "right")]
        plan += [put("shoe cabinet", 140, 320, "down", "another")]
        assert (
            25 in numbers(record(*plan, size=(220, 400), windows=(), doors=(DOOR_IN,)))
        ) == there


def test_two_that_miss_one_another_count_once():
    """The screen 5 cm off the sofa's middle, both far off the middle of the room."""
    data = record(put("sofa", 50, 0), put("tv unit", 90, 360, "down"), windows=())
    assert [f.pieces for f in count(data) if f.number == 6] == [("sofa",)]


def test_a_seat_without_a_table_counts_where_one_is_left_over():
    """A chair far from the sofa: the one table is at the sofa; or there are two there."""
    near, chair = put("side table", 50, 0), put("armchair", 415, 310, "left")
    assert 17 not in numbers(record(SOFA, near, chair))
    assert 17 in numbers(record(SOFA, near, chair, put("side table", 315, 0, name="another")))
    assert 17 not in numbers(record(chair, put("single bed", 0, 0)))


def test_what_was_asked_or_held_is_told_and_not_counted():
    """A wish for the wall under the window, or a place kept; a cot counts all the same."""
    wish = {"relation": "against", "piece": "double bed", "place": "A"}
    bed = put("double bed", 175, 195, "down")
    data = record(bed, wishes=[wish])
    assert 19 not in numbers(data)
    assert [f.excused for f in count(data) if f.number == 19] == ["asked for: against A"]
    assert 19 not in numbers(record({**bed, "stays": True}))
    under = put("cot", 200, 332, "down", stays=True)
    assert 13 in numbers(record(under, wishes=[{**wish, "piece": "cot"}]))


def test_a_wish_for_several_is_for_each():
    """They are called by the name they share and a number."""
    wish = {"relation": "near", "piece": "case", "place": "door"}
    cases = [CASE, put("bookcase", 0, 100, "right", "case 2")]
    assert 10 in numbers(record(*cases))
    assert 10 not in numbers(record(*cases, wishes=[wish]))


def test_a_lane_takes_the_shortest_way_round():
    """The way from door to door goes round a sofa and so not through it and its armchair."""
    data = record(
        put("sofa", 380, 150, "right"), put("side table", 325, 150),
        doors=(DOOR, KITCHEN), windows=(),
    )  # fmt: skip
    assert 16 not in numbers(data)


def test_the_table_counts_rooms_and_faults():
    """Two rooms, one with a cot under a window: rank A."""
    rooms = [counted(count(one)) for one in CASES["13"]]
    told = tally(rooms)
    assert told[-1] == "2 rooms, 1 with a fault of rank A"
    assert [row.split("|")[4].strip() for row in told if row.startswith("| 13 ")] == ["1"]


ROOM = """
unit = "cm"
[room]
size = [400, 300]
[[door]]
wall = "C"
from_left = 20
width = 80
[[fixture]]
kind = "light point"
at = [200, 150]
width = 1
depth = 0
[[fixture]]
kind = "socket"
wall = "A"
from_left = 100
width = 20
[[piece]]
kind = "tv unit"
screen = "50 in"
stands_now = { wall = "A", from_left = 5 }
stays = true
[[piece]]
kind = "sofa"
stands_now = { wall = "B", from_left = 70 }
[[wish]]
piece = "sofa"
facing = "tv unit"
"""


def test_what_the_counter_reads_is_in_the_file():
    """50 in are 1270 mm; the sockets' middle is 110 cm along the top wall."""
    scenario = arrange.read_text(ROOM)
    about = About(scenario, Arrangement(scenario.today))
    screen, sofa = (PLACED.write(piece, about) for piece in scenario.pieces)
    assert (screen["screen"], screen["stays"]) == (1270, True)
    assert (sofa["screen"], sofa["stays"]) == (0, False)
    data = today_data(assess_today(scenario))
    assert [f["at"] for f in data["room"]["fixtures"]] == [[2000, 1500], [1100, 3000]]
    assert [(w["relation"], w["piece"]) for w in data["wishes"]] == [("facing", "sofa")]
    assert {(f.number, f.excused) for f in count(data)} >= {(1, "asked for: facing tv unit")}
