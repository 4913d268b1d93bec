"""Scenario files: what they mean, and every fault in them at once."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from arrange.data.kinds import kinds
from arrange.errors import ScenarioError
from arrange.rules import all_regions
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.scenario.read import read, read_text

pytestmark = pytest.mark.fast

SCENARIOS = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))

# A room of 4 m by 3 m with a door at the right end of its bottom wall C.
ROOM = """
unit = "cm"
[room]
size = [400, 300]
[[door]]
wall = "C"
from_left = 20
width = 80
"""
BED = '\n[[piece]]\nname = "bed"\nkind = "double bed"\n'
DESK = '\n[[piece]]\nkind = "desk"\n'
SOFA = '\n[[piece]]\nkind = "sofa"\n'


def faults(text):
    """The faults of ``text``, one line each."""
    with pytest.raises(ScenarioError) as caught:
        read_text(text, "room.toml")
    return str(caught.value).splitlines()


def only_fault(text):
    found = faults(text)
    assert len(found) == 1, found
    return found[0]


# ---------------------------------------------------------------- meaning


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda p: p.stem)
def test_every_example_reads_and_states_its_outcome(path):
    """Each example room is read without a fault and says what to expect."""
    scenario = read(path)
    assert scenario.expected in ("found", "impossible")
    assert scenario.source_file == str(path)
    assert len(scenario.pieces) >= 4


def test_the_examples_cover_the_ways_of_measuring():
    """Inches, a walk round the walls, a breast, slanted walls, a wide walkway, a failure."""
    rooms = {p.stem: read(p) for p in SCENARIOS}
    assert len(rooms["small-double-bedroom"].pieces) == 10
    assert len(rooms["living-dining"].pieces) >= 18
    assert rooms["study-bedroom"].unit == "in"
    assert rooms["bay-room"].walkway == 900
    assert any(w.facing is None for w in rooms["bay-room"].room.walls)
    assert [w.name for w in rooms["one-room-flat"].room.walls][-1] == "west wall"
    assert "A left" in [w.name for w in rooms["childrens-room"].room.walls]
    assert rooms["too-much"].expected == "impossible"


def test_the_smallest_file_has_sensible_defaults():
    """A ceiling of 2.4 m, a walkway of 60 cm that is ours, and no expectation."""
    scenario = read_text(ROOM + BED, "my-room.toml")
    assert scenario.title == "my room"
    assert scenario.room.ceiling == 2400
    assert (scenario.walkway, scenario.walkway_overridden) == (500, False)
    assert scenario.expected is None
    assert scenario.room.main_door.name == "door"


def test_offsets_run_from_the_left_end_as_seen_from_inside():
    """Wall C runs from the right to the left on the plan: 20 cm from x = 4000."""
    room = read_text(ROOM + BED).room
    door = room.doors[0]
    assert room.walls[door.wall].point(door.offset) == (3800, 0)


def test_count_makes_alike_pieces_with_names_of_their_own():
    """Two bedside tables share a model and stand either side of the bed."""
    text = ROOM + BED + '[[piece]]\nkind = "bedside table"\ncount = 2\n'
    one, two = read_text(text).pieces[1:]
    assert (one.name, two.name) == ("bedside table 1", "bedside table 2")
    assert one.model == two.model == "bedside table"
    assert one.anchor == two.anchor == "bed"
    assert [s.side for s in one.slots] == ["left", "right"]


def test_a_tie_takes_no_more_than_its_anchor_has_places_for():
    """A desk takes one chair; the second one stands free."""
    text = ROOM + DESK + '[[piece]]\nkind = "desk chair"\ncount = 2\n'
    assert [p.anchor for p in read_text(text).pieces[1:]] == ["desk", None]


def test_alike_anchors_take_turns():
    """Two sofas and two coffee tables: one each."""
    text = ROOM + '[[piece]]\nkind = "sofa"\ncount = 2\n[[piece]]\nkind = "coffee table"\ncount = 2'
    assert [p.anchor for p in read_text(text).pieces[2:]] == ["sofa 1", "sofa 2"]


@pytest.mark.parametrize("line", ["free = true", 'stands = "wall"'])
def test_a_piece_can_be_untied(line):
    """Asked to stand free or at a wall, a coffee table leaves its sofa."""
    text = ROOM + SOFA + f'[[piece]]\nkind = "coffee table"\n{line}'
    assert read_text(text).pieces[1].anchor is None


def test_a_piece_can_be_tied_to_another_by_name():
    """A plant has no places of its own: it stands at either side."""
    text = ROOM + SOFA + '[[piece]]\nkind = "plant"\nwith = "Sofa"'
    plant = read_text(text).pieces[1]
    assert plant.anchor == "sofa"
    assert [(s.side, s.gap) for s in plant.slots] == [("left", 50), ("right", 50)]


def test_a_rug_is_centred_under_a_table_of_any_size():
    """Table 80 cm deep, rug 200 cm: it begins (800 - 2000) / 2 = -600 mm from the back."""
    text = (
        ROOM + '[[piece]]\nkind = "dining table"\ndepth = 80\n[[piece]]\nkind = "rug"\ndepth = 200'
    )
    rug = read_text(text).pieces[1]
    assert [(s.side, s.gap) for s in rug.slots] == [("under", -600)]


def test_a_clearance_of_ones_own_is_marked_as_such():
    """Least 1 m in front of this desk: comfortable follows, the source is the person."""
    clearance = read_text(ROOM + DESK + "clearance.front = { least = 100 }").pieces[0].clearances[0]
    assert (clearance.name, clearance.least, clearance.comfortable) == ("chair", 1000, 1000)
    assert clearance.overridden
    assert clearance.status == clearance.source == "yours"


def depths(text):
    """The first clearance: its least and comfortable depth with the sources shown."""
    scenario = read_text(ROOM + text)
    (claim,) = ComfortableClearance().claims(scenario)
    clearance = scenario.pieces[0].clearances[0]
    return clearance.least, clearance.source, claim.steps[-1], claim.source, claim.overridden


def test_only_the_depth_that_was_given_is_shown_as_the_persons_own():
    """A wardrobe has 500 and 914 mm, the latter of a published source."""
    wardrobe = '[[piece]]\nkind = "wardrobe"\n'
    usual = depths(wardrobe)
    assert usual == (500, "", 914, "bedroom-storage-front", False)
    own_least = depths(wardrobe + "clearance.front = { least = 70 }")
    assert own_least == (700, "yours", 914, "bedroom-storage-front", False)
    own_comfort = depths(wardrobe + "clearance.front = { comfortable = 100 }")
    assert own_comfort == (500, "", 1000, "yours", True)
    neither = depths(wardrobe + 'clearance.front = { purpose = "to dress" }')
    assert neither == usual


def test_a_depth_for_the_whole_room_goes_over_all_but_ones_own():
    """Least 70 cm here and comfortable 95 cm in the room: the wardrobe earns up to 95 cm."""
    room_wide = '[[rule]]\nrule = "comfortable-clearance"\ncomfortable = 95\n'
    wardrobe = '[[piece]]\nkind = "wardrobe"\nclearance.front = '
    assert depths(f"{wardrobe}{{ least = 70 }}\n{room_wide}")[2] == 950
    both = f"{wardrobe}{{ least = 70, comfortable = 100 }}\n{room_wide}"
    assert depths(both)[2] == 1000


def test_a_side_of_its_own_beats_a_side_among_others():
    """`left` of a double bed is its left side, not the side of getting in."""
    text = ROOM + BED + "clearance.left = { least = 40, comfortable = 60 }"
    changed = [c.name for c in read_text(text).pieces[0].clearances if c.overridden]
    assert changed == ["left side"]


def test_a_clearance_can_be_added_and_dropped():
    """A plant wants its front free; a TV unit gives its front up."""
    plant = ROOM + '[[piece]]\nkind = "plant"\nclearance.front = { least = 30 }'
    unit = ROOM + '[[piece]]\nkind = "tv unit"\nclearance.front = false'
    assert [c.least for c in read_text(plant).pieces[0].clearances] == [300]
    assert read_text(unit).pieces[0].clearances == ()


def test_things_on_a_broken_wall_are_measured_straight_through():
    """A breast 150 to 250 cm on wall A; a window from 270 cm lies 20 cm into A right."""
    text = (
        ROOM
        + BED
        + '[[fixture]]\nkind = "chimney breast"\nwall = "A"\n'
        + "from_left = 150\nwidth = 100\ndepth = 30\n"
        + '[[window]]\nwall = "A"\nfrom_left = 270\nwidth = 100\n'
        + '[[wish]]\npiece = "bed"\nnot_against = "A"\nmust = true'
    )
    scenario = read_text(text)
    window = scenario.room.windows[0]
    wall = scenario.room.walls[window.wall]
    assert (wall.name, wall.part_of, window.offset) == ("A right", "A", 200)
    assert scenario.wishes[0].place == "A"


def test_a_fixture_keeps_its_floor_free():
    """A radiator 10 cm, a built-in cupboard its doors 60 cm, a stove 91.4 cm of what burns."""
    kinds = {"radiator": 100, "built-in cupboard": 600, "stove": 914}
    for kind, keep in kinds.items():
        text = ROOM + BED + f'[[fixture]]\nkind = "{kind}"\nwall = "D"\nfrom_left = 10\n'
        fixture = read_text(text).room.fixtures[0]
        assert (fixture.keep, fixture.burns) == (keep, kind == "stove")


@pytest.mark.parametrize(
    ("kind", "keep_free", "keep"),
    [
        pytest.param("heater", "", 914, id="a heater: 91.4 cm of what burns"),
        pytest.param("heater", "keep_free = 50", 500, id="the person's own 50 cm"),
        pytest.param("heater", "keep_free = 0", 0, id="the person's own nothing"),
        pytest.param("column", "", 0, id="a column: nothing"),
        pytest.param("column", "keep_free = 20", 200, id="a column with 20 cm round it"),
    ],
)
def test_a_fixture_that_stands_free_keeps_its_floor_free_too(kind, keep_free, keep):
    """Without a wall the person's own value once was lost."""
    text = ROOM + BED + f'[[fixture]]\nkind = "{kind}"\nat = [100, 100]\n{keep_free}\n'
    scenario = read_text(text)
    assert scenario.room.fixtures[0].keep == keep
    # The kept floor goes `keep` beyond the body on all sides.
    grown = {round(r.shape.bounds[0]) for r in all_regions(scenario) if not r.blocks_use}
    assert (1000 - keep in grown) == (keep > 0)


@pytest.mark.parametrize("place", ["at = [100, 100]", 'wall = "D"\nfrom_left = 10\noff_wall = 5'])
def test_only_a_fire_in_a_wall_has_no_depth(place):
    """It has its place there; off the wall it would be nothing, and keep nothing free."""
    text = ROOM + BED + f'[[fixture]]\nkind = "fireplace"\ndepth = 0\n{place}\n'
    assert "only what is set into its wall has none" in str(faults(text))
    in_wall = text.replace(place, 'wall = "D"\nfrom_left = 10')
    assert read_text(in_wall).room.fixtures[0].depth == 0


def test_a_fixture_runs_clockwise_from_its_wall():
    """Wall D is x = 0 going up; 100 mm deep from 500 to 1500."""
    text = ROOM + BED + '[[fixture]]\nkind = "radiator"\nwall = "D"\nfrom_left = 50\n'
    corners = read_text(text).room.fixtures[0].corners
    area = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    assert set(corners) == {(0, 500), (100, 500), (100, 1500), (0, 1500)}
    assert area < 0


def test_a_wish_about_alike_pieces_is_about_each():
    """Both bedside tables are asked for; `window` is the only window there is."""
    text = (
        ROOM
        + '[[window]]\nname = "bay"\nwall = "A"\nfrom_left = 20\nwidth = 100\n'
        + '[[piece]]\nkind = "plant"\ncount = 2\n'
        + '[[wish]]\npiece = "plant"\nnear = "window"\nwithin = "1 m"\nweight = 2'
    )
    wishes = read_text(text).wishes
    assert [(w.piece, w.relation, w.place, w.distance, w.weight) for w in wishes] == [
        ("plant 1", "near", "bay", 1000, 2),
        ("plant 2", "near", "bay", 1000, 2),
    ]


def test_a_screen_is_given_by_its_diagonal():
    """50 in are 1270 mm; a TV unit with no word about it carries one of 43 in."""
    text = ROOM + '[[piece]]\nkind = "tv unit"\n'
    assert read_text(text + 'screen = "50 in"').pieces[0].screen == 1270
    assert read_text(text).pieces[0].screen == 1092


def test_a_column_stands_off_its_wall_or_at_a_point():
    """20 cm off wall D, or with its lower left corner at a point of the plan."""
    column = ROOM + BED + '[[fixture]]\nkind = "column"\nwidth = 30\ndepth = 40\n'
    off = read_text(column + 'wall = "D"\nfrom_left = 100\noff_wall = 20').room.fixtures[0]
    at = read_text(column + "at = [150, 90]").room.fixtures[0]
    # Wall D is x = 0 going up: the depth runs along x, the width along y.
    assert set(off.corners) == {(200, 1000), (600, 1000), (600, 1300), (200, 1300)}
    assert set(at.corners) == {(1500, 900), (1800, 900), (1800, 1300), (1500, 1300)}
    assert off.wall is at.wall is None
    assert off.solid
    assert off.top == 2400


def test_the_main_door_is_the_one_marked():
    """Two doors, the second one marked; two marked ones are a fault."""
    text = ROOM + '[[door]]\nname = "hall"\nwall = "D"\nfrom_left = 20\nwidth = 80\nmain = true\n'
    assert read_text(text + BED).room.main_door.name == "hall"
    both = text.replace("width = 80\n", "width = 80\nmain = true\n", 1)
    assert "more than one main door" in only_fault(both + BED)


def test_an_unknown_feel_word_is_kept():
    """It is reported later as having no effect; it is no fault."""
    assert read_text('feel = ["Calm", "zesty"]' + ROOM + BED).feel == ("calm", "zesty")


# ---------------------------------------------------------------- faults

ONE_FAULT = [
    pytest.param("walkway = 5" + ROOM + BED, r"walkway: 5 cm given; 30 cm to 150 cm", id="walkway"),
    pytest.param("colour = 1" + ROOM + BED, r"colour: the key 'colour' is not known", id="key"),
    pytest.param(
        'feel = ["a", "b", "c", "d"]' + ROOM + BED, "feel: 4 words given; at most 3", id="feel"
    ),
    pytest.param(ROOM, r"piece: no pieces given; at least one \[\[piece\]\]", id="no pieces"),
    pytest.param(
        ROOM.replace("[[door]]", "[[window]]").replace('"C"', '"A"') + BED,
        r"door: no door given; at least one \[\[door\]\] is needed; give each door its wall",
        id="no door",
    ),
    pytest.param(ROOM.replace('"C"', '"X"') + BED, r"door\[1\]\.wall: the wall 'X'", id="wall"),
    pytest.param(
        ROOM + BED + 'with = "bed"\n',
        r'piece\[1\]\.with: "bed" is the piece itself; name the piece that it goes with',
        id="tied to itself",
    ),
    pytest.param(
        ROOM.replace("= 80", "= 390") + BED,
        r"door\[1\]\.from_left: it ends 410 cm along wall C; the wall is 400 cm long",
        id="opening beyond its wall",
    ),
    pytest.param(
        ROOM + BED + '[[window]]\nwall = "C"\nfrom_left = 90\nwidth = 100\n',
        r'"door" and "window" overlap; two openings cannot share',
        id="openings overlap",
    ),
    pytest.param(
        ROOM.replace("size = [400, 300]", "corners = [[0,0],[400,300],[400,0],[0,300]]") + BED,
        r"room\.corners: wall A and wall C cross or touch; walls meet at corners only",
        id="self-crossing outline",
    ),
    pytest.param(
        ROOM.replace("size = [400, 300]", "size = [400, 300]\ncorners = [[0,0]]") + BED,
        "size and corners given; give one of",
        id="two outlines",
    ),
    pytest.param(ROOM.replace("300]", "-300]") + BED, r"room\.size: -300 cm given", id="negative"),
    pytest.param(
        ROOM.replace("from_left = 20", "from_left = 4100") + BED,
        r'write "4100 mm" if that is meant',
        id="millimetres in a file of centimetres",
    ),
    pytest.param(
        ROOM.replace("= 20", '= "20 cm"').replace("= 80", "= 80.0e300") + BED,
        r"door\[1\]\.width: 8e\+301 given; far too big for a length",
        id="a length of 300 digits",
    ),
    pytest.param(
        ROOM + BED.replace('"double bed"', '"singel bed"'),
        r"the nearest of \d+: single bed, [^,;]+, [^,;]+; did you mean 'single bed'\?",
        id="a kind with a slip",
    ),
    pytest.param(
        ROOM + BED.replace('"double bed"', '"sofabedd"'),
        rf"the nearest of {len(kinds())}: sofabed, (?!.*sofa bed)[^,;]+, [^,;]+;",
        id="a kind under the nearest of its names, and not again under another",
    ),
    pytest.param(
        ROOM.replace("[400, 300]", "[4, 300]") + BED,
        r'write "4 m" if that is meant',
        id="metres in a file of centimetres",
    ),
    pytest.param(
        ROOM + BED + "depth = 2\n", r"did you mean 200 cm\?", id="a bed of 2 cm is one of 2 m"
    ),
    pytest.param(ROOM + BED + 'width = "1450 cm"', r"did you mean 145 cm\?", id="mm taken for cm"),
    pytest.param(
        ROOM + BED + "width = 60\ndepth = 80\n", r"were they inches\?", id="inches taken for cm"
    ),
    pytest.param(ROOM + BED + "width = 0\n", r"piece\[1\]\.width: 0 cm given", id="zero"),
    pytest.param(ROOM + BED + 'width = "wide"\n', "'wide' is not understood", id="no length"),
    pytest.param(
        ROOM + '[[piece]]\nkind = "wardrob"', r"did you mean 'wardrobe'\?", id="unknown kind"
    ),
    pytest.param(ROOM + BED + "widht = 3", r"did you mean 'width'\?", id="misspelt key"),
    pytest.param(ROOM + BED + BED, '"bed" is the name of 2 things', id="a name given twice"),
    pytest.param(
        ROOM + '[[piece]]\nkind = "sofa"\nwidth = 410',
        r'"sofa" is 410 cm by 95 cm; the whole room is 300 cm by 400 cm',
        id="longer than the room",
    ),
    pytest.param(
        ROOM + '[[piece]]\nkind = "wardrobe"\nheight = 240.1',
        r'the top of "wardrobe" is 240.1 cm above the floor; the ceiling is at 240 cm',
        id="taller than the room",
    ),
    pytest.param(
        ROOM + '[[piece]]\nkind = "other piece"\nwidth = 50\ndepth = 50',
        r"piece\[1\]\.height: not given; a length is needed",
        id="an unusual piece without its size",
    ),
    pytest.param(
        ROOM + BED + '[[piece]]\nkind = "plant"\nwith = "bedd"',
        r"piece\[2\]\.with: the piece 'bedd' is not known.*did you mean 'bed'\?",
        id="tied to an unknown piece",
    ),
    pytest.param(
        ROOM
        + '[[piece]]\nkind = "plant"\nwith = "pet bed"\n'
        + '[[piece]]\nkind = "pet bed"\nwith = "plant"',
        "ties must not run in a circle",
        id="tied in a circle",
    ),
    pytest.param(
        ROOM + BED + '[[wish]]\npiece = "bad"\nnear = "door"',
        r"wish\[1\]\.piece: the piece 'bad' is not known; known: bed; did you mean 'bed'\?",
        id="a wish for an unknown piece",
    ),
    pytest.param(
        ROOM + BED + '[[wish]]\npiece = "bed"\nnear = "doors"',
        r"wish\[1\]\.near: the place 'doors' is not known.*did you mean 'door'\?",
        id="a wish for an unknown place",
    ),
    pytest.param(
        ROOM + BED + '[[wish]]\npiece = "bed"\nagainst = "door"',
        r"the place 'door' is not known; known: A, B, C, D",
        id="only walls can be stood against",
    ),
    pytest.param(
        ROOM + BED + '[[wish]]\npiece = "bed"',
        r"wish\[1\]: it does not say what you wish for",
        id="an empty wish",
    ),
    pytest.param(
        ROOM + BED + '[[wish]]\npiece = "bed"\nfacing = "door"\nwithin = 5',
        "within: given without near or beside",
        id="a distance without a use",
    ),
    pytest.param(
        ROOM + DESK + "clearance.front = { least = 90, comfortable = 89.9 }",
        "89.9 cm is below the least; at least 90 cm is needed",
        id="comfortable below least",
    ),
    pytest.param(
        ROOM + DESK + "clearance.frnt = { least = 90 }",
        r"did you mean 'front'\?",
        id="unknown clearance",
    ),
    pytest.param(ROOM + BED + "owned = 1", "true or false is needed", id="a flag"),
    pytest.param(ROOM + BED + "count = 0", "a whole number from 1 to 24", id="a count"),
    pytest.param(ROOM + BED + 'price = "9"', "a number of 0 or more is needed", id="a price"),
    pytest.param(
        ROOM + BED + 'stands = "up"',
        '"wall", "corner", "free", "anywhere" or "across" is needed',
        id="choice",
    ),
    pytest.param(ROOM + '[piece]\nkind = "bed"', r"write \[\[piece\]\]", id="single brackets"),
]


@pytest.mark.parametrize(("text", "message"), ONE_FAULT)
def test_one_slip_is_one_fault(text, message):
    """Each slip is named once, with what is allowed or meant, and nothing follows from it."""
    with pytest.raises(ScenarioError, match=message):
        read_text(text, "room.toml")
    assert only_fault(text).startswith("room.toml: ")


def test_every_fault_is_found_at_once():
    """A misspelt key, a door off its wall, an unknown kind, a bad wish, a window: six lines."""
    text = ROOM.replace("= 20", "= 390") + BED + "hight = 3\n"
    text += '[[piece]]\nkind = "dexk"\n[[wish]]\npiece = "bed"\nnear = "moon"\n'
    text += '[[window]]\nwall = "Z"\nwidth = "wide"\nfrom_left = 10\n'
    found = faults(text)
    assert [line.split(": ")[1] for line in found] == [
        "door[1].from_left",
        "window[1].width",
        "window[1].wall",
        "piece[1].hight",
        "piece[2].kind",
        "wish[1].near",
    ]


@pytest.mark.parametrize(
    ("unit", "number", "meant"),
    [
        pytest.param("m", "100", "100 cm", id="1 m rather than 10 cm"),
        pytest.param("m", "900", "900 mm", id="90 cm rather than 9 m"),
        pytest.param("in", "1500", "1500 mm", id="1.5 m rather than 15 m"),
        pytest.param("mm", "40000", None, id="too long in every unit"),
    ],
)
def test_the_unit_that_may_be_meant_is_the_likelier_one(unit, number, meant):
    """The one that makes a length nearest to what people measure; no metres as inches."""
    text = ROOM.replace('"cm"', f'"{unit}"').replace("[400, 300]", '["4 m", "3 m"]')
    text = text.replace("= 80", '= "80 cm"').replace("from_left = 20", f"from_left = {number}")
    fault = only_fault(text + BED)
    hint = f'numbers count in {unit} here; write "{meant}" if that is meant'
    assert (hint in fault) is (meant is not None)


def test_what_follows_from_a_fault_is_no_fault():
    """A wish that names a piece that could not be read is not blamed for it."""
    text = ROOM + BED + '[[piece]]\nkind = "dexk"\nname = "my desk"\n'
    assert "dexk" in only_fault(text + '[[wish]]\npiece = "my desk"\nnear = "door"')


@pytest.mark.parametrize(
    ("walls", "known"),
    [
        pytest.param("size = [400]", "A, B, C, D", id="four of a size"),
        pytest.param(
            "corners = [[0, 0], [400, 300], [400, 0], [0, 300]]", "A, B, C, D", id="corners"
        ),
        pytest.param(
            '[[room.wall]]\nname = "A"\nlength = 400\n[[room.wall]]\nlength = 300\n'
            'turn = "sideways"\n[[room.wall]]\nlength = 400\n[[room.bay]]\nname = "nook"',
            "A, B, C, D, nook",
            id="walked",
        ),
    ],
)
def test_walls_that_make_no_room_hide_no_name_of_a_wall_that_is_not_there(walls, known):
    """Neither what is on it nor a wish; what names a written one follows from the fault."""
    text = ROOM.replace("size = [400, 300]", walls) + BED + '[[wish]]\npiece = "bed"\nagainst = '
    assert only_fault(text + '"B"').startswith("room.toml: room.")
    told = [line.removeprefix("room.toml: ") for line in faults(text.replace('"C"', '"Z"') + '"Q"')]
    assert told[1:] == [
        f"door[1].wall: the wall 'Z' is not known; known: {known}",
        f"wish[1].against: the place 'Q' is not known; known: {known}",
    ]
    if "nook" in known:  # the left one of its three walls
        assert "room.wall" in only_fault(text.replace('"C"', '"nook left"') + '"nook right"')


@pytest.mark.parametrize(
    ("offset", "fits"),
    [pytest.param(320, True, id="up to the end"), pytest.param(320.1, False, id="1 mm beyond")],
)
def test_a_door_may_reach_the_end_of_its_wall(offset, fits):
    """The wall is 400 cm long and the door 80 cm wide."""
    text = ROOM.replace("from_left = 20", f"from_left = {offset}") + BED
    if fits:
        assert read_text(text).room.doors[0].offset == 3200
    else:
        assert "the wall is 400 cm long" in only_fault(text)


@pytest.mark.parametrize(
    ("lines", "opens", "leaf", "reach"),
    [
        pytest.param("", "in", 800, 800, id="one leaf"),
        pytest.param("leaves = 2", "in", 400, 400, id="double"),
        pytest.param('opens = "out"\nstable = true', "out", 800, 800, id="stable"),
        pytest.param('opens = "Folding in"', "folding in", 800, 400, id="folding"),
        pytest.param('opens = "folding out"\nleaves = 2', "folding out", 400, 200, id="both"),
        pytest.param('opens = "sliding"', "sliding", 800, 0, id="into the wall"),
        pytest.param('opens = "passage"', "passage", 0, 0, id="no leaf"),
    ],
)
def test_doors_as_built(lines, opens, leaf, reach):
    """Of a door 80 cm wide: the width of a leaf, and how far it comes off the wall."""
    door = read_text(ROOM + lines + BED).room.doors[0]
    assert (door.opens, door.leaf, door.reach) == (opens, leaf, reach)
    assert door.stable == ("stable" in lines)


# The door is 20 cm from the left end of a wall of 400 cm: 300 cm are left on its right.
@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        pytest.param('hinge = "right"', "", id="there is wall"),
        pytest.param(
            'hinge = "left"',
            "door[1].opens: 20 cm of wall C at its left; its leaf needs 80 cm to slide on;"
            ' a door that goes into the wall, or hangs on its other side, is "sliding"',
            id="there is none",
        ),
        pytest.param("leaves = 2", "20 cm of wall C at its left; its leaf needs 40 cm", id="two"),
    ],
)
def test_a_leaf_on_the_wall_needs_wall_to_slide_on(lines, wrong):
    """To the side that hinge names, or to both."""
    text = f'{ROOM}opens = "sliding on the wall"\n{lines}{BED}'
    if wrong:
        assert wrong in only_fault(text)
    else:
        assert read_text(text).room.doors[0].opens == "sliding on the wall"


@pytest.mark.parametrize(
    ("offset", "fits"), [(80, True), (79.9, False), (240, True), (240.1, False)]
)
def test_a_leaf_slides_as_far_as_the_wall_goes(offset, fits):
    """Of 400 cm, a leaf of 80 cm to the left at 80 cm, to the right at 240 = 400 - 80 - 80."""
    side = "left" if offset < 100 else "right"
    text = ROOM.replace("from_left = 20", f"from_left = {offset}")
    text += f'opens = "sliding on the wall"\nhinge = "{side}"\n{BED}'
    if fits:
        assert read_text(text).room.doors[0].hinge == side
    else:
        assert "its leaf needs 80 cm to slide on" in only_fault(text)


WINDOW = '\n[[window]]\nwall = "A"\nfrom_left = 100\n'


@pytest.mark.parametrize(
    ("lines", "opens", "leaves"),
    [
        pytest.param("width = 99", "in", 1, id="narrow: one leaf"),
        pytest.param("width = 100", "in", 2, id="wide: two"),
        pytest.param("width = 200\nleaves = 1\nopens = 'sliding'", "sliding", 1, id="as told"),
    ],
)
def test_a_french_window_is_a_door_of_glass(lines, opens, leaves):
    """Its sill is the floor; it is walked to as a door is, and not said to open twice."""
    room = read_text(f"{ROOM}{WINDOW}{lines}\nfrench = true\nmust_open = true{BED}").room
    (window,) = room.windows
    (_, french) = room.all_doors
    assert window.french is french
    assert (window.sill, window.must_open) == (0, False)
    assert (french.opens, french.leaves, french.name) == (opens, leaves, "window")
    assert (french.wall, french.offset, french.width) == (window.wall, 1000, window.width)


def test_a_window_that_tilts_must_be_reached():
    """By hand, to tilt it; curtains take what is said."""
    more = "width = 90\ntilts = true\ncurtains = 20"
    (window,) = read_text(f"{ROOM}{WINDOW}{more}{BED}").room.windows
    assert (window.tilts, window.must_open, window.curtains) == (True, True, 200)
    (plain,) = read_text(f"{ROOM}{WINDOW}width = 90{BED}").room.windows
    assert (plain.tilts, plain.must_open, plain.curtains, plain.french) == (False, False, 0, None)


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        pytest.param(
            'opens = "in"',
            "window[1].opens: french = true is not given; only a French window has it; tilts = true"
            " is for a window that comes into the room at its top",
            id="a window that opens",
        ),
        pytest.param(
            "french = true\ntilts = true",
            "window[1].tilts: french = true is given as well; a French window is a door",
            id="both",
        ),
        pytest.param(
            "french = true\nsill = 21", "21 cm given; 0 cm to 20 cm is allowed", id="sill"
        ),
        pytest.param("curtains = 61", "61 cm given; 0 cm to 60 cm is allowed", id="curtains"),
        pytest.param("french = true\nopens = 'passage'", "'passage' given", id="no leaf"),
        pytest.param(
            'french = true\nopens = "sliding on the wall"\nleaves = 1\nhinge = "right"',
            "window[1].opens: 149 cm of wall A at its right; its leaf needs 151 cm to slide on",
            id="no wall to slide on",
        ),
    ],
)
def test_what_no_window_can_be(lines, wrong):
    """One fault; the window is 151 cm wide, 149 cm from the end of its wall."""
    assert wrong in only_fault(f"{ROOM}{WINDOW}width = 151\n{lines}{BED}")


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        pytest.param(
            'opens = "passage"\nleaves = 2',
            'door[1].leaves: opens = "passage" is given as well; a passage has no leaf;'
            " leave leaves out",
            id="leaves of a passage",
        ),
        pytest.param(
            'opens = "passage"\nhinge = "left"\nstable = true',
            "leave hinge and stable out",
            id="hinges of a passage",
        ),
        pytest.param(
            'leaves = 2\nhinge = "left"',
            "door[1].hinge: leaves = 2 is given as well; one leaf goes to each side",
            id="hinge of two leaves",
        ),
        pytest.param(
            'opens = "folding in"\nstable = true',
            'door[1].stable: opens = "folding in" is given as well; a stable door opens "in" or',
            id="a stable door that folds",
        ),
        pytest.param("leaves = 3", "a whole number from 1 to 2 is needed", id="three leaves"),
        pytest.param(
            'opens = "folding"',
            'door[1].opens: \'folding\' given; "in", "out", "folding in", "folding out"',
            id="which way",
        ),
    ],
)
def test_what_no_door_can_be(lines, wrong):
    """One fault for what contradicts itself."""
    assert wrong in only_fault(f"{ROOM}{lines}{BED}")


FIXTURE = '\n[[fixture]]\nwall = "A"\nfrom_left = 100\n'


@pytest.mark.parametrize(
    ("lines", "leaves", "keep"),
    [
        pytest.param("width = 120", 2, 600, id="a leaf for each 60 cm"),
        pytest.param("width = 121", 3, 600, id="and for what is begun"),
        pytest.param("width = 140\nleaves = 2", 2, 700, id="leaves of 70 cm"),
        pytest.param("width = 140\nleaves = 1\ndoors = 'folding'", 1, 700, id="panels of 70 cm"),
        pytest.param("width = 140\nleaves = 2\ndoors = 'sliding'", 2, 600, id="no leaf comes out"),
        pytest.param("width = 140\nleaves = 2\nkeep_free = 50", 2, 500, id="as told"),
    ],
)
def test_the_floor_before_a_closet_goes_by_its_leaves(lines, leaves, keep):
    """60 cm to stand and open, or as far as a leaf comes out."""
    (closet,) = read_text(f'{ROOM}{FIXTURE}kind = "closet"\n{lines}{BED}').room.fixtures
    assert (closet.leaves, closet.keep, closet.depth) == (leaves, keep, 600)
    assert closet.is_walked_to


def test_stairs_hatches_and_seats_before_radiators_are_read():
    """Landing 36 in = 914 mm as `stair-us-landing` has it; guarded unless told."""
    text = ROOM + FIXTURE + 'kind = "stairs"\nsteps = "left"\nguarded = false\n'
    text += '[[fixture]]\nkind = "hatch"\nat = [250, 20]\n'
    text += '[[fixture]]\nkind = "radiator"\nwall = "D"\nfrom_left = 20\nseat_before = true\n'
    stairs, hatch, radiator = read_text(text + BED).room.fixtures
    assert (stairs.steps, stairs.guarded, stairs.keep) == ("left", False, 914)
    assert stairs.is_walked_to
    assert (hatch.is_lid, hatch.obstructs, hatch.keep) == (True, False, 0)
    assert radiator.seat_before
    (plain,) = read_text(f'{ROOM}{FIXTURE}kind = "stairs"{BED}').room.fixtures
    assert (plain.steps, plain.guarded) == ("front", True)


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        pytest.param(
            'kind = "column"\nleaves = 2',
            'fixture[1].leaves: kind = "column" is given; only a closet has it',
            id="leaves of a column",
        ),
        pytest.param(
            'kind = "stairs"\noff_wall = 20',
            "fixture[1].off_wall: it stands off the wall; a closet and stairs have a wall at",
            id="stairs off the wall",
        ),
        pytest.param('kind = "closet"\nleaves = 0', "from 1 to 12 is needed", id="no leaves"),
        pytest.param('kind = "stairs"\nsteps = "up"', "'up' given", id="which way is up"),
    ],
)
def test_what_no_fixture_can_be(lines, wrong):
    """One fault each."""
    assert wrong in only_fault(f"{ROOM}{FIXTURE}{lines}{BED}")


def test_rules_are_checked_against_the_rules_there_are():
    """A rule can be switched off; one that does not exist cannot."""
    text = ROOM + BED + '[[rule]]\nrule = "walkway"\noff = true\n'
    assert read_text(text).setting("walkway").off
    assert "the rule 'no-such-rule'" in only_fault(text + '[[rule]]\nrule = "no-such-rule"')


# ---------------------------------------------------------------- files


@pytest.mark.parametrize(
    ("content", "message"),
    [
        pytest.param(b"\xff\xfe\x00", "not UTF-8 text", id="not text"),
        pytest.param(b"# " + b"x" * 1_000_000, "mine.toml: over 200 kB", id="huge"),
        pytest.param(b"a = " + b"9" * 5000, "far too many digits", id="digits"),
        pytest.param(b"unit = cm", "line 1: .*; the file must be TOML", id="not TOML"),
        pytest.param(b"a = 1\nb = = 2", "line 2: ", id="the line is named"),
        pytest.param(b"a = 1\na = 2", "the same key or heading once more", id="a key twice"),
        pytest.param(b"[room]\n[room]", "line 2: the same key or heading", id="a table twice"),
        pytest.param(b"a = [" + b"[" * 5000, "TOML|nested too deeply", id="nested"),
        pytest.param(b"", r"room: no room given", id="empty"),
        pytest.param(b'room = 3\npiece = "x"', r"piece: 'x' given", id="wrong shapes"),
    ],
)
def test_a_file_that_cannot_be_used_says_why(tmp_path, content, message):
    """No content ends in anything but a ScenarioError that names the file."""
    path = tmp_path / "mine.toml"
    path.write_bytes(content)
    with pytest.raises(ScenarioError, match=message) as caught:
        read(path)
    assert caught.value.file == str(path)


def test_a_missing_file_and_a_folder_are_refused(tmp_path):
    """Both are named, and neither is a traceback."""
    with pytest.raises(ScenarioError, match="not found"):
        read(tmp_path / "none.toml")
    with pytest.raises(ScenarioError) as caught:
        read(tmp_path)
    expected = f"{tmp_path}: this is a folder; name a scenario file (.toml) in it"
    assert str(caught.value) == expected


def test_a_byte_order_mark_is_no_fault(tmp_path):
    """Some editors put one in front."""
    path = tmp_path / "mine.toml"
    path.write_text(ROOM + BED, encoding="utf-8-sig")
    assert read(path).pieces[0].name == "bed"


JUNK = [
    "0",
    "-1",
    "1e300",
    "nan",
    "true",
    '""',
    '"x"',
    "[]",
    "[1, 2]",
    "{}",
    "{ a = 1 }",
    "2026-01-01",
]
JUNK += ['"12 ft"', "99999999999999999999", '"1/0 in"', '"\\u0007"', "[[1, 2], [3]]", '["left"]']


@pytest.mark.slow
@given(st.sampled_from(SCENARIOS), st.integers(0, 10_000), st.sampled_from([*JUNK, None]))
def test_no_slip_ends_in_a_traceback(path, at, junk):
    """Any one value of an example replaced by junk, or its line left out: read or refused."""
    lines = path.read_text(encoding="utf-8").splitlines()
    spots = [i for i, line in enumerate(lines) if "=" in line and not line.startswith("#")]
    spot = spots[at % len(spots)]
    key = lines[spot].split("=")[0]
    lines[spot] = "" if junk is None else f"{key}= {junk}"
    said = ["read"]
    try:
        read_text("\n".join(lines), "room.toml")
    except ScenarioError as error:
        said = [text for fault in error.faults for text in (fault.given, fault.allowed)]
    assert said
    assert all(said)


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("drinks cabinet", "drinks"),
        ("chest of linen", "chest"),
        ("twelve chars", "twelve chars"),
        ("twelve chars more", "twelve chars"),
        ("harp", "harp"),
        ("Aquariumstand by the door", "other piece"),
    ],
)
def test_labels_are_cut_at_whole_words(name, short):
    """At most twelve letters; where the first word alone is longer, the kind is named."""
    lines = f'[[piece]]\nname = "{name}"\nkind = "other piece"\n'
    (piece,) = read_text(f"{ROOM}{lines}width = 60\ndepth = 40\nheight = 80\n").pieces
    assert piece.short == short


def test_a_bed_too_short_for_the_strip_beside_it_is_refused():
    """The strip leaves out the 50 cm at the head; only its right side is left to it here."""
    sides = 'clearance.left = false\nclearance."getting in" = false\n'
    fault = only_fault(ROOM + BED + "width = 150\ndepth = 50\n" + sides)
    assert "depth" in fault
    assert "too short to be reached from the side" in fault


def test_a_size_that_nobody_gave_is_marked_as_assumed():
    """Width and depth count; two pieces of one size are alike whoever gave it."""
    scenario = read_text(ROOM + BED + "width = 150\n" + DESK)
    assert scenario.piece("bed").assumed
    assert scenario.piece("desk").assumed
    whole = read_text(ROOM + BED + "width = 145\ndepth = 205\n").piece("bed")
    assert not whole.assumed
    assert whole == read_text(ROOM + BED).piece("bed")


def test_what_else_is_wrong_with_a_piece_of_unknown_kind_is_told_with_it():
    """Everything that does not hang on its kind, and nothing that does."""
    piece = '[[piece]]\nkind = "wardrobbe"\nwidht = 120\ncount = "two"\nheight = "x"\n'
    with pytest.raises(ScenarioError) as caught:
        read_text(ROOM + piece + "clearance.doors = { least = 80 }\n" + BED)
    wheres = [fault.where for fault in caught.value.faults]
    assert sorted(wheres) == sorted(f"piece[1].{k}" for k in ("kind", "widht", "count", "height"))


def test_an_unknown_unit_hides_no_slip_that_is_one_in_every_unit():
    """Told at once: the unit, the kind, the key; no length, which nobody can judge now."""
    piece = '[[piece]]\nkind = "wardrobbe"\n[[piece]]\nkind = "desk"\nwidth = 9000\ncolour = 1\n'
    with pytest.raises(ScenarioError) as caught:
        read_text(ROOM.replace('"cm"', '"yards"') + piece)
    wheres = [fault.where for fault in caught.value.faults]
    assert wheres == ["unit", "piece[1].kind", "piece[2].colour"]


def test_an_unknown_unit_in_a_file_without_other_slips_is_all_that_is_told():
    with pytest.raises(ScenarioError) as caught:
        read_text(ROOM.replace('"cm"', '"yards"') + BED)
    assert [fault.where for fault in caught.value.faults] == ["unit"]


def test_a_room_with_an_escape_window_keeps_the_usual_way():
    """What protects somebody stays at the usual 60 cm, where nobody says another width."""
    window = '[[window]]\nwall = "B"\nfrom_left = 50\nwidth = 100\nsill = 80\nescape = true\n'
    assert read_text(ROOM + window + BED).walkway == 600
    assert read_text("walkway = 70\n" + ROOM + window + BED).walkway == 700


@pytest.mark.parametrize(
    ("piece", "size", "shape"),
    [
        ('kind = "round table"', (1000, 1000, 0), "round"),
        ('kind = "round table"\nwidth = 120', (1200, 1200, 0), "round"),
        ('kind = "round table"\ndepth = 90', (900, 900, 0), "round"),
        ('kind = "oval table"\nwidth = 160', (1600, 1000, 0), "oval"),
        ('kind = "desk"\nshape = "rounded corners"\ncorner = 15', (1400, 700, 150), "rounded"),
        ('kind = "desk"\nshape = "cut corners"\ncorner = 35', (1400, 700, 350), "cut"),
        ('kind = "sofa"', (2100, 950, 0), "rectangle"),
        ('kind = "corner sofa"', (2500, 2000, 0), "L"),
    ],
)
def test_the_shape_of_a_piece(piece, size, shape):
    """What is round takes one length; corners up to half a side."""
    (one,) = read_text(f"{ROOM}[[piece]]\n{piece}\n").pieces
    assert (one.width, one.depth, one.corner) == size
    assert one.shape.startswith(shape)


@pytest.mark.parametrize(
    ("piece", "message"),
    [
        ('shape = "round"', "what is round is as wide as it is deep"),
        ('shape = "rounded corners"', "piece[1].corner: not given"),
        ('shape = "rounded corners"\ncorner = 36', "at most half a side, 35 cm"),
        ("corner = 5", 'not "rectangle"'),
        ('shape = "circle"', "piece[1].shape: 'circle' given"),
    ],
)
def test_a_slip_in_a_shape_is_told(piece, message):
    """A desk 140 x 70."""
    assert message in only_fault(f'{ROOM}[[piece]]\nkind = "desk"\n{piece}\n')


def test_the_arm_of_an_l_and_the_floor_before_it_change_sides_together():
    """A corner sofa 250 x 200 with parts of 95 has feet before both."""
    left, right = (
        read_text(f'{ROOM}[[piece]]\nkind = "corner sofa"\narm_side = "{side}"\n').pieces[0]
        for side in ("left", "right")
    )
    for sofa, side, looks in ((left, "left", "right"), (right, "right", "left")):
        assert (sofa.arm_side, sofa.arm_width, sofa.back_depth) == (side, 950, 950)
        assert [c.sides for c in sofa.clearances] == [("front",), (looks,)]


@pytest.mark.parametrize(
    ("piece", "message"),
    [
        ('kind = "corner sofa"\narm_width = 250', "less than the whole width"),
        ('kind = "corner sofa"\nback_depth = 210', "less than the whole depth"),
        ('kind = "wardrobe"\nshape = "L"\narm_width = 60', "back_depth: not given"),
        ('kind = "wardrobe"\narm_width = 60', 'is for shape = "L"'),
        ('kind = "corner sofa"\narm_side = "front"', '"left" or "right"'),
    ],
)
def test_a_slip_in_an_l_is_told(piece, message):
    """Its parts are smaller than it, and both are needed where none is usual."""
    assert message in only_fault(f"{ROOM}[[piece]]\n{piece}\n")
