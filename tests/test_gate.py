"""What a result file may hold: checked key by key before anything is built or drawn."""

import json
from pathlib import Path

import pytest
from mutated import standing_result

from arrange.comparing import gathered
from arrange.errors import ScenarioError
from arrange.output.gate import MOST_BYTES
from arrange.output.reading import read_result

pytestmark = pytest.mark.fast

ONE = ("arrangements", 0)
PIECE = (*ONE, "pieces", 0)
HEAD = "not what arrange suggest writes; a result.json that arrange suggest wrote is needed; run it"
FAR = 10**11


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """A result that can be read, as data: a desk, its chair and a bookcase."""
    return json.loads(standing_result(tmp_path_factory.mktemp("sound")))


def put(data, *edits):
    """A copy with values put at places."""
    copy = json.loads(json.dumps(data))
    for where, value in edits:
        at_last = copy
        for step in where[:-1]:
            at_last = at_last[step]
        at_last[where[-1]] = value
    return copy


def refused(data, path):
    """The lines after the first, without the name of the file."""
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(ScenarioError) as caught:
        read_result(path, 1)
    head, *lines = str(caught.value).splitlines()
    assert head.startswith(f"{path}: {HEAD}")
    assert all(line.isprintable() for line in lines)
    return [line.removeprefix(f"{path}: ") for line in lines]


def gap(end):
    return [{"between": ["a", "b"], "length": 5, "ends": [[0, 0], end]}]


@pytest.mark.parametrize(
    ("where", "value", "line"),
    [
        (("room", "outline", 2), [FAR, 0], "room.outline[3][1]: 100000000000 given; a number from"),
        (("room", "outline"), [[0, 0], [9, 9]], "room.outline: 2 given; 3 to 40 are read"),
        (("room", "outline"), [], "room.outline: 0 given; 3 to 40 are read"),
        (("room", "outline", 2), [0, 0], "room.outline: "),
        (("room", "walls", 1, "right_end"), [0, 3000], "room.walls[2]: "),
        (("room", "walls", 1, "name"), "A", "room.walls[2].name: 'A' given twice"),
        (("room", "doors", 0, "from_left"), 10**9, "room.doors[1].from_left: 1000000000 given"),
        (("room", "doors", 0, "from_left"), 3500, "room.doors[1].from_left: it ends 4300 mm along"),
        (("room", "doors", 0, "wall"), "Q", "room.doors[1].wall: the wall 'Q' is not known"),
        (("room", "fixtures", 0, "polygon"), [[0, 0], [1, 1]], "room.fixtures[1].polygon: 2 corn"),
        (("title",), "a\u001b[2Jb\u202ec", "title: 'a\\x1b[2Jb\\u202ec' given; only letters"),
        (("title",), "w" * 301, "title: 301 characters; at most 300 are read"),
        (("unit",), "furlong", 'unit: \'furlong\' given; "mm", "cm", "m" or "in" is needed'),
        (("at_most",), 100.1, "at_most: 100.1 given; a number from 0 to 100 is needed"),
        ((*ONE, "score"), 1e6, "arrangements[1].score: 1000000.0 given; a number from 0 to 100"),
        ((*ONE, "score"), float("nan"), "arrangements[1].score: nan given; a number from 0 to 100"),
        ((*ONE, "rank"), 51, "arrangements[1].rank: 51 given; a number from 1 to 50 is needed"),
        ((*ONE, "pieces"), [], "arrangements[1].pieces: 0 given; 1 to 60 are read"),
        ((*ONE, "walkway", "width"), 10**9, "arrangements[1].walkway.width: 1000000000 given"),
        ((*ONE, "reasons"), [{}] * 2001, "arrangements[1].reasons: 2001 given; 0 to 2000 are read"),
        ((*ONE, "tightest_gaps"), gap([FAR, 0]), "arrangements[1].tightest_gaps[1].ends[2][1]: "),
        ((*PIECE, "width"), 10**9, "arrangements[1].pieces[1].width: 1000000000 given"),
        ((*PIECE, "width"), True, "arrangements[1].pieces[1].width: True given"),
        ((*PIECE, "top"), 0, "arrangements[1].pieces[1].top: 0 given; more than its bottom, 0, is"),
        ((*PIECE, "name"), "desk chair", "arrangements[1].pieces[2].name: 'desk chair' given twi"),
        (
            (*PIECE, "goes_with"),
            "desk chair",
            "arrangements[1].pieces[1].goes_with: 'desk' is tied",
        ),
        (
            (*PIECE, "goes_with"),
            "nobody",
            "arrangements[1].pieces[1].goes_with: the piece 'nobody'",
        ),
        (
            (*PIECE, "placement", "x"),
            FAR,
            "arrangements[1].pieces[1].placement.x: 100000000000 giv",
        ),
        (
            (*PIECE, "placement", "x"),
            4101,
            "arrangements[1].pieces[1].placement.x: 4101 given; 0 to",
        ),
        (
            (*PIECE, "placement", "slanted"),
            True,
            "arrangements[1].pieces[1].placement.from_left: n",
        ),
        ((*PIECE, "placement", "facing"), "north", "arrangements[1].pieces[1].placement.facing: '"),
    ],
)
def test_a_result_with_one_wrong_value_names_it(sound, tmp_path, where, value, line):
    """The key stands first, then what was given and what is needed."""
    lines = refused(put(sound, (where, value)), tmp_path / "result.json")
    assert lines[0].startswith(line)


def test_every_wrong_value_is_named_at_once(sound, tmp_path):
    """Three edits, three lines."""
    data = put(sound, (("title",), 5), (("room", "ceiling"), "high"), ((*PIECE, "depth"), -1))
    lines = refused(data, tmp_path / "result.json")
    assert [line.split(": ")[0] for line in lines] == [
        "title",
        "room.ceiling",
        "arrangements[1].pieces[1].depth",
    ]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b" " * (MOST_BYTES + 1), "over 16 MB"),
        (b"[" * 100_000, "not JSON"),
        (b'{"format": 1}', "not what arrange suggest writes"),
        (b'{"format": "\\u001b", "arrangements": []}', "format '\\\\x1b'"),
        (b'{"format": 1, "arrangements": [' + b"{}," * 50 + b"{}]}", "51 arrangements"),
        (b"\xff\xfe", "not JSON"),
    ],
)
def test_what_is_no_result_at_all_is_refused(tmp_path, content, message):
    path = tmp_path / "result.json"
    path.write_bytes(content)
    with pytest.raises(ScenarioError, match=message):
        read_result(path, 1)


def test_a_device_without_an_end_is_no_result():
    device = Path("/dev/zero")
    if not device.exists():
        pytest.skip("there is none on this machine")
    with pytest.raises(ScenarioError, match="this is not a file but a folder, a device"):
        read_result(device, 1)


def test_the_name_of_the_scenario_may_be_longer_than_any_file(sound, tmp_path):
    """It is looked for, not found, and that is all."""
    path = tmp_path / "result.json"
    path.write_text(json.dumps(put(sound, (("scenario_file",), "x" * 1000 + ".toml"))))
    scenario, unjudged = read_result(path, 1).again()
    assert scenario is None
    assert unjudged.why == "missing"


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("x" * 3000, "cannot be read"),
        ("x" * 3000 + ".json", "cannot be read"),
        ("a.json#" + "9" * 5000, "not found|cannot be read"),
        ("a.json#999999999", "not found"),
    ],
)
def test_a_name_longer_than_any_file_is_refused(name, message):
    """As an option of compare it is looked for, and cannot be."""
    with pytest.raises(ScenarioError, match=message):
        gathered([name, name])
