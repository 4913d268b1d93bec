"""What a stranger's scenario file may hold: counted first, refused in one clear message."""

import io
from pathlib import Path

import pytest

from arrange.errors import MOST_TOLD, Fault, ScenarioError
from arrange.scenario.limits import MOST, MOST_BYTES, text_in
from arrange.scenario.read import read, read_text

pytestmark = pytest.mark.fast

FAULTS = Path(__file__).parent / "faults"
ROOM = """unit = "cm"
[room]
size = [800, 700]
[[door]]
wall = "C"
from_left = 20
width = 80
"""
BED = '[[piece]]\nname = "bed"\nkind = "double bed"\n'


def told(text):
    """The lines that a file is refused with."""
    with pytest.raises(ScenarioError) as caught:
        read_text(text, "room.toml")
    return str(caught.value).splitlines()


@pytest.mark.parametrize(
    ("file", "message"),
    [
        ("piece-is-a-number", "piece[1]: 3 given; keys with values are needed here"),
        ("door-is-a-number", "door: 3 given; tables headed [[door]] are needed"),
        ("one-empty-wall", "room.wall: 1 wall given; at least three walls make a room"),
        (
            "deeply-dotted-key",
            "line 1: a key with more than 16 dots; a key is one or two words",
        ),
        (
            "deeply-dotted-piece",
            "piece[1].clearance.a.a.a.a.a.a: tables in tables, more than 8 deep; a scenario has "
            "no more than five; check the dots in keys",
        ),
        (
            "invisible-key",
            "\\x1b[2Jna\\u202eme: the key '\\x1b[2Jna\\u202eme' is not known; known: ",
        ),
        (
            "number-of-20000-digits",
            "fixture[1].kind: a huge number; no number in a room is that large; check it",
        ),
    ],
)
def test_a_file_that_once_broke_gets_one_message(file, message):
    """One line with the key and what is allowed; nothing that a terminal would obey."""
    path = FAULTS / f"{file}.toml"
    with pytest.raises(ScenarioError) as caught:
        read(path)
    assert str(caught.value).startswith(f"{path}: {message}")
    assert str(caught.value).isprintable()


ROWS = {
    "door": '[[door]]\nname = "d{0}"\nwall = "A"\nfrom_left = {1}\nwidth = 40\n',
    "window": '[[window]]\nname = "w{0}"\nwall = "B"\nfrom_left = {2}\nwidth = 20\n',
    "fixture": '[[fixture]]\nkind = "socket"\nwall = "B"\nfrom_left = {0}\n',
    "wish": '[[wish]]\npiece = "bed"\nnear = "door"\n',
    "piece": '[[piece]]\nname = "p{0}"\nkind = "stool"\n',
}


@pytest.mark.parametrize(("key", "first"), [(k, k in ("door", "piece")) for k in ROWS])
def test_as_many_as_the_limit_are_read_and_one_more_is_not(key, first):
    """The bed and the one door of the room count as well."""
    few = MOST[key] - first
    rows = [ROWS[key].format(i, 45 * i, 22 * i) for i in range(few + 1)]
    main = ROOM.replace("[[door]]\n", '[[door]]\nname = "door"\n')
    case = read_text(main + BED + "".join(rows[:few]))
    counts = {
        "door": len(case.room.doors),
        "window": len(case.room.windows),
        "fixture": len(case.room.fixtures),
        "wish": len(case.wishes),
        "piece": len(case.pieces),
    }
    assert counts[key] == MOST[key]
    (line,) = told(main + BED + "".join(rows))
    wanted = f"room.toml: {key}: {MOST[key] + 1} given; at most {MOST[key]} are read"
    assert line.startswith(wanted)


def test_pieces_are_counted_before_they_are_made():
    """Sixty entries of 24: 1440 pieces."""
    rows = [f'[[piece]]\nname = "p{i}"\nkind = "stool"\ncount = 24\n' for i in range(60)]
    assert told(ROOM + "".join(rows)) == [
        "room.toml: piece: 1440 pieces in all; at most 60 can be placed"
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (f'title = "{"x" * 1001}"\n', "title: 1001 characters; at most 1000 are read"),
        (f'title = "{"x" * 81}"\n', "title: 81 characters; at most 80 are allowed"),
        (f'feel = ["{"x" * 41}"]\n', "feel[1]: 41 characters; at most 40 are allowed"),
        (
            'feel = ["calm\\u202e"]\n',
            "feel[1]: 'calm\\u202e' given; only letters and signs that can be seen are allowed; "
            "the part shown with a \\ is invisible; delete it",
        ),
        (
            'title = "my\\u001b[2J room"\n',
            "title: 'my\\x1b[2J room' given; only letters and signs that can be seen are allowed; "
            "the part shown with a \\ is invisible; delete it",
        ),
        (
            'title = "my\u3164room"\n',
            "title: 'my\\u3164room' given; only letters and signs that can be seen are allowed; "
            "the part shown with a \\ is invisible; delete it",
        ),
        ("x" * 61 + " = 1\n", "the key 'xxxxxxxx"),
        ("".join(f"k{i} = 1\n" for i in range(61)), "65 keys given; no table has more than 60"),
        (f"costs.untouchable = [{'1,' * 121}]\n", "costs.untouchable: 121 given; at most 120"),
    ],
)
def test_what_is_too_long_or_cannot_be_seen_is_refused(text, message):
    """One line each, with everything shown as its escape."""
    (line,) = told(text + ROOM + BED)
    assert line.startswith(f"room.toml: {message}")
    assert line.isprintable()


def test_a_hard_space_from_a_web_page_is_a_space():
    """It cannot be told from one on the screen."""
    assert read_text('title = "My\u00a0room"\n' + ROOM + BED).title == "My room"


def test_thirty_faults_are_told_and_the_others_counted():
    """120 wishes with two unknown words each: 240 faults, 30 of them told."""
    wishes = [f'[[wish]]\npiece = "bad {i}"\nnear = "moon"\n' for i in range(120)]
    lines = told(ROOM + BED + "".join(wishes))
    assert len(lines) == MOST_TOLD + 1
    assert lines[0].startswith("room.toml: wish[1].piece: the piece 'bad 0' is not known")
    assert lines[-1] == "room.toml: and 210 more"


def test_every_fault_is_carried_though_thirty_are_told():
    """A program can have them all."""
    faults = tuple(Fault(f"k{i}", "a", "b") for i in range(244))
    error = ScenarioError("room.toml", faults)
    assert len(error.faults) == 244
    assert str(error).splitlines()[-1] == "room.toml: and 214 more"


@pytest.mark.parametrize("over", [0, 1])
def test_a_stream_is_read_no_further_than_the_limit(over):
    """One byte more than the limit is enough to know that it is too long."""
    stream = io.BytesIO(b"#" * (10 * MOST_BYTES if over else MOST_BYTES))
    if over:
        with pytest.raises(ScenarioError, match="standard input: over 200 kB; a scenario is a"):
            text_in(stream, "standard input")
        assert stream.tell() == MOST_BYTES + 1
    else:
        assert len(text_in(stream, "standard input")) == MOST_BYTES


def test_a_device_without_an_end_is_refused():
    """It says that it has no bytes, and gives as many as are asked for."""
    device = Path("/dev/zero")
    if not device.exists():
        pytest.skip("there is none on this machine")
    with pytest.raises(ScenarioError, match="/dev/zero: this is not a file but a device"):
        read(device)


def test_a_room_wider_than_sixty_metres_is_refused():
    """Along the top 30 + 30 + 30 m, each 1 m further up: 90 m across."""
    turns = [(30, "left"), (1, "right"), (30, "left"), (1, "right"), (30, "right")]
    legs = "".join(
        f'[[room.wall]]\nlength = "{long} m"\nturn = "{turn}"\n'
        for long, turn in [*turns, (30, "right")]
    )
    text = ROOM.replace("[room]\nsize = [800, 700]\n", f"{legs}[[room.wall]]\n")
    wanted = "room.wall: the room is 9000 cm across; no room is more than 6000 cm across"
    assert any(wanted in line for line in told(text + BED))
