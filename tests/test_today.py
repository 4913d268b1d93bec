"""Where things stand today: read from the file, put exactly, judged. Lengths in the file in cm."""

from dataclasses import replace
from pathlib import Path

import pytest
from file_rooms import room_file

import arrange

pytestmark = pytest.mark.fast

SCENARIOS = Path(__file__).parent.parent / "scenarios"

ROOM = room_file(400, 300)
CHEST = ROOM + '[[piece]]\nkind = "chest of drawers"\nwidth = 80\ndepth = 50\n'
BED = ROOM + '[[piece]]\nname = "bed"\nkind = "double bed"\nwidth = 150\ndepth = 200\n'
TABLES = '[[piece]]\nkind = "bedside table"\ncount = 2\nwidth = 40\ndepth = 40\n'
SLANT = """
[room]
corners = [[0, 0], [0, 200], [100, 300], [400, 300], [400, 0]]
[[door]]
wall = "E"
from_left = 20
width = 80
"""


def places(text):
    return {p.piece: p for p in arrange.read_text(text).today}


def where(text, name):
    """Facing, lower left corner and wall of one piece."""
    p = places(text)[name]
    return p.facing, p.x, p.y, p.wall


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        pytest.param('wall = "A", from_left = 40', ("down", 400, 2500, 0), id="top"),
        pytest.param('wall = "B", from_left = 40', ("left", 3500, 1800, 1), id="right"),
        pytest.param('wall = "C", from_left = 40', ("up", 2800, 0, 2), id="bottom"),
        pytest.param('wall = "D", from_left = 40', ("right", 0, 400, 3), id="left"),
        pytest.param('wall = "A", from_left = 321', ("down", 3200, 2500, 0), id="1 cm too far"),
        pytest.param('across = 40, up = 250, facing = "down"', ("down", 400, 2500, 0), id="plan"),
        pytest.param(
            'across = 40, up = 248, facing = "down"', ("down", 400, 2500, 0), id="2 cm off its wall"
        ),
        pytest.param(
            'across = 351, up = 40, facing = "left"', ("left", 3500, 400, 1), id="1 cm into it"
        ),
        pytest.param(
            'across = 40, up = 200, facing = "down"', ("down", 400, 2000, None), id="far off it"
        ),
    ],
)
def test_a_place_by_its_wall_or_on_the_plan(given, expected):
    """By hand: the room is 4000 by 3000 mm, the chest 800 wide and 500 deep."""
    assert where(f"{CHEST}stands_now = {{ {given} }}", "chest of drawers") == expected


@pytest.mark.parametrize(
    ("left", "corner"), [(60, (640, 2600)), (54, (640, 2600)), (75, (750, 2600))]
)
def test_a_bedside_table_is_put_in_its_place_within_ten_centimetres(left, corner):
    """The bed begins 104 cm from the left, and the table, 40 wide, touches it."""
    text = (
        f'{BED}stands_now = {{ wall = "A", from_left = 104 }}\n'
        f'{TABLES}stands_now = [{{ wall = "A", from_left = {left} }}]'
    )
    assert places(text)["bedside table 1"].x == corner[0]
    assert places(text)["bedside table 1"].y == corner[1]
    assert "bedside table 2" not in places(text)


def test_two_tables_take_two_places():
    """Both measured near the left one: the second stays where it was measured."""
    text = (
        f'{BED}stands_now = {{ wall = "A", from_left = 104 }}\n'
        f'{TABLES}stands_now = [{{ wall = "A", from_left = 58 }}, {{ wall = "A", from_left = 62 }}]'
    )
    assert [places(text)[f"bedside table {i}"].x for i in (1, 2)] == [640, 620]


def test_along_a_slanted_wall():
    """Wall B runs at 45 degrees: the chest lies along it."""
    text = f'{SLANT}[[piece]]\nkind = "chest of drawers"\nwidth = 80\ndepth = 30\n'
    p = places(f'{text}stands_now = {{ wall = "B", from_left = 30 }}')["chest of drawers"]
    assert (p.facing, p.wall, p.offset, p.inward) == (None, 1, 300, 0)


FAULTS = {
    "nothing": ("{}", "stands_now", "say where"),
    "both": ('{ wall = "A", from_left = 1, across = 2 }', "stands_now", "one of the two"),
    "no facing": ("{ across = 1, up = 2 }", "stands_now.facing", "not given"),
    "no up": ('{ across = 1, facing = "up" }', "stands_now.up", "not given"),
    "wrong wall": ('{ wall = "Z", from_left = 1 }', "stands_now.wall", "not known"),
    "over the end": ('{ wall = "A", from_left = 330 }', "stands_now.from_left", "410 cm"),
    "out of the room": (
        '{ across = 330, up = 2, facing = "up" }', "stands_now.across", "the room ends at 400 cm",
    ),
    "odd key": ('{ wall = "A", from_left = 1, x = 2 }', "stands_now.x", "not known"),
    "two for one": (
        '[{ wall = "A", from_left = 1 }, { wall = "A", from_left = 99 }]', "stands_now", "2 places",
    ),
    "a word": ('"there"', "stands_now", "keys with values"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_a_wrong_place_is_refused_in_its_place(name):
    """The key, what was given and what is allowed."""
    given, where_, said = FAULTS[name]
    with pytest.raises(arrange.ScenarioError) as caught:
        arrange.read_text(f"{CHEST}stands_now = {given}")
    assert [f.where for f in caught.value.faults] == [f"piece[1].{where_}"]
    assert said in str(caught.value)


def test_every_fault_is_told_at_once():
    """Two pieces, three slips: a length does not hide the wall."""
    text = (
        f'{CHEST}stands_now = {{ wall = "Z", from_left = "far" }}\n'
        '[[piece]]\nkind = "stool"\nstays = true\n'
    )
    with pytest.raises(arrange.ScenarioError) as caught:
        arrange.read_text(text)
    assert [f.where for f in caught.value.faults] == [
        "piece[1].stands_now.from_left",
        "piece[1].stands_now.wall",
        "piece[2].stays",
    ]


def test_what_stays_is_held():
    """And only that."""
    text = f'{CHEST}stands_now = {{ wall = "A", from_left = 40 }}\nstays = true\n'
    held = arrange.read_text(text).held
    assert [(p.piece, p.x) for p in held] == [("chest of drawers", 400)]
    assert arrange.read_text(text.replace("stays = true", "stays = false")).held == ()


@pytest.mark.parametrize(
    "text",
    [
        f'{CHEST}stands_now = {{ across = 40, up = 200, facing = "down" }}\nstays = true\n',
        f'{BED}stands_now = {{ wall = "A", from_left = 104 }}\n'
        f'{TABLES}stays = true\nstands_now = [{{ wall = "A", from_left = 10 }}, '
        '{ wall = "A", from_left = 300 }]',
        f'{BED}{TABLES}stays = true\nstands_now = [{{ wall = "A", from_left = 10 }}]',
    ],
    ids=["no wall behind it", "far from the bed", "one place for two"],
)
def test_what_could_never_stay_there_is_refused(text):
    """No arrangement could hold it: said at once and not as an impossible room."""
    with pytest.raises(arrange.ScenarioError):
        arrange.read_text(text)


BAY_BED = f"""{SLANT}
[[piece]]
name = "bed"
kind = "single bed"
width = 60
depth = 150
free = true
stands_now = {{ wall = "B", from_left = 60 }}
[[piece]]
kind = "bedside table"
with = "bed"
width = 30
depth = 30
"""


@pytest.mark.parametrize(("left", "offset"), [(30, 300), (23, 300), (39, 300), (2, 20)])
def test_what_is_tied_along_a_slanted_wall_is_put_in_its_place(left, offset):
    """The bed lies 600 to 1200 along it; the table, 300 wide, touches it."""
    text = f'{BAY_BED}stands_now = {{ wall = "B", from_left = {left} }}\n'
    p = places(text)["bedside table"]
    assert (p.facing, p.wall, p.offset, p.inward, p.quarter) == (None, 1, offset, 0, 0)


@pytest.mark.solver
def test_the_example_stands_as_it_says():
    """What stands today works by itself, and leaves room for what is to be bought."""
    from arrange.solver.feasibility import FeasibilityOracle  # noqa: PLC0415  for this test alone

    scenario = arrange.read(SCENARIOS / "study-bedroom.toml")
    today = arrange.assess_today(scenario)
    assert today.verdict.works
    assert today.left_out == ("bedside table", "wall shelf")
    kept = replace(scenario, held=scenario.today)
    settled = FeasibilityOracle(60).decide(kept)
    assert settled.works
    for placement in scenario.today:
        assert settled.arrangement.of(placement.piece) == placement


@pytest.mark.solver
def test_every_place_that_stays_is_kept_by_every_suggestion():
    """The chest stands in the middle of wall B, where nothing else draws it."""
    text = f'{CHEST}stands_now = {{ wall = "B", from_left = 110 }}\nstays = true\n'
    scenario = arrange.read_text(text + '[[piece]]\nkind = "armchair"\n')
    result = arrange.suggest(scenario, top=2, seconds=20)
    assert result.suggestions
    for suggestion in result.suggestions:
        assert suggestion.arrangement.of("chest of drawers") == scenario.held[0]
        assert suggestion.verdict.works
