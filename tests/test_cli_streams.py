"""What becomes of a run where something cannot be printed, read or named."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from command_line import ROOM, names, run

from arrange.cli.common import line
from arrange.data.result import NOTHING, Progress

pytestmark = pytest.mark.fast

COMMAND = f"'{sys.executable}' -c 'from arrange.cli import main; main()'"
PLACED = 'kind = "bookcase"\nowned = true\nstands_now = { wall = "A", from_left = 0 }\n'
STANDING = ROOM.replace('kind = "bookcase"\n', PLACED)
FULL = "standard output: the answer cannot be printed (No space left on device)"
needs_full = pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a full device")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty working folder with room.toml in it, a bookcase that stands today."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(STANDING)
    return tmp_path


def shell(line, **more):
    """A line for the shell, where ARRANGE is the command; returns its code and texts."""
    done = subprocess.run(
        ["bash", "-c", line.replace("ARRANGE", COMMAND)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        **more,
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.slow
@needs_full
@pytest.mark.parametrize("args", ["today room.toml", "today room.toml --json", "--help"])
@pytest.mark.usefixtures("folder")
def test_a_full_disk_behind_stdout_is_one_message_and_2(args):
    code, _, err = shell(f"ARRANGE {args} > /dev/full")
    assert code == 2
    assert err.startswith(FULL)
    assert len(err.splitlines()) == 1


@pytest.mark.slow
@needs_full
def test_files_are_there_also_where_the_answer_cannot_be_printed(folder):
    shell("ARRANGE today room.toml > /dev/full")
    assert names(folder / "room-plans") == ["today.json", "today.png"]


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """What a run prints with all streams open, and the bytes of its files."""
    folder = tmp_path_factory.mktemp("whole")
    (folder / "room.toml").write_text(STANDING)
    code, out, _ = shell("ARRANGE today room.toml --out whole", cwd=folder)
    assert code == 0
    return out, {path.name: path.read_bytes() for path in (folder / "whole").iterdir()}


@pytest.mark.slow
@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&- >&- 2>&-"])
def test_closed_streams_change_nothing_else(folder, whole, closed):
    """The code is as ever, nothing is said, and the files are whole: no stray print in them."""
    said, files = whole
    code, out, err = shell(f"ARRANGE today room.toml --out out {closed}")
    assert (code, err) == (0, "")
    assert out == ("" if ">&-" in closed.split("2>&-")[0] else said.replace("whole", "out"))
    assert {path.name: path.read_bytes() for path in (folder / "out").iterdir()} == files


@pytest.mark.slow
@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("args", ["today room.toml", "today room.toml --json", "--help"])
def test_a_reader_that_has_gone_ends_it_quietly_as_a_shell_expects(args):
    """As ``| head -1`` does; 141 is what a shell tells of a program that SIGPIPE ended."""
    line = f"(sleep 0.1; ARRANGE {args}; echo $? >&2) | true"
    _, _, err = shell(line)
    assert err == "141\n"


@pytest.mark.slow
@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("args", ["today missing.toml", "todday room.toml"])
def test_messages_that_nobody_reads_leave_the_code_as_it_is(args):
    assert shell(f"ARRANGE {args} 2>&-")[0] == 2
    _, _, err = shell(f"(ARRANGE {args} 2>&3; echo $? >&2) 3>&1 | true")
    assert err == "2\n"


@pytest.mark.slow
@pytest.mark.usefixtures("folder")
def test_a_closed_stdin_is_bad_input():
    code, out, err = shell("ARRANGE check - <&-")
    assert (code, out) == (2, "")
    assert err == (
        "standard input: nothing can be read from it; give the name of a file, or "
        "arrange suggest - < bedroom.toml\n"
    )


@pytest.mark.slow
def test_the_persons_own_choice_of_windows_for_pictures_does_not_matter(folder):
    """Another program's setting, right or wrong: we open no window."""
    for backend in ("nonsense", "tkagg"):
        code, _, err = shell("ARRANGE today room.toml", env={**os.environ, "MPLBACKEND": backend})
        assert (code, err) == (0, "")
    assert names(folder / "room-plans") == ["today.json", "today.png"]


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("name", ["x" * 5000, "x" * 5000 + ".toml"])
def test_a_very_long_name_of_an_option_is_bad_input(name):
    done = run("compare", "room.toml", name)
    assert done.exit_code == 2
    assert "xxx...: cannot be read (File name too long)" in done.stderr
    assert len(done.stderr) < 400


def test_a_very_long_word_of_an_option_is_told_shortened(folder):  # noqa: ARG001  a room
    done = run("swap", "room.toml", "--kind", f"{'x' * 5000}=sofa")
    assert done.exit_code == 2
    assert "xxx...: the piece" in done.stderr
    assert len(done.stderr) < 800


def test_a_very_long_name_for_the_folder_is_bad_input(folder):
    done = run("today", "room.toml", "--out", "x" * 5000)
    assert done.exit_code == 2
    assert "xxx...: nothing can be written there (File name too long); name another" in done.stderr
    assert len(done.stderr) < 600
    assert names(folder) == ["room.toml"]


@pytest.mark.parametrize("command", ["suggest", "check", "today", "why", "swap", "compare"])
@pytest.mark.parametrize("empty", ["", "  "])
def test_an_empty_name_for_the_folder_is_refused(folder, command, empty):
    """It would be the working folder."""
    done = run(command, "room.toml", "--out", empty)
    assert done.exit_code == 2
    assert "'--out': no name was given; write for instance --out bedroom-plans" in done.stderr
    assert names(folder) == ["room.toml"]


def test_an_empty_name_for_the_new_file_is_refused(folder):
    done = run("swap", "room.toml", "desk=100x60", "--write", "")
    assert done.exit_code == 2
    assert "'--write': no name was given; write for instance --write bedroom-2.toml" in done.stderr
    assert names(folder) == ["room.toml"]


@pytest.mark.slow
def test_more_than_a_scenario_can_hold_is_refused_from_a_stream_as_well(folder):
    """No more than the limit is read, so an endless stream ends in a message."""
    code, _, err = shell("ARRANGE check - < /dev/zero")
    assert code == 2
    assert err == ("standard input: over 200 kB; a scenario is a short text file; is it one?\n")
    assert names(folder) == ["room.toml"]


@pytest.mark.parametrize(
    ("progress", "told"),
    [
        (Progress("looking", 1, NOTHING, 1000, 0.2), "looking: nothing so far"),
        (Progress("looking", 2, NOTHING, 1000, 0.2), "looking (number 2): nothing so far"),
        (
            Progress("looking", 1, 710, 815, 3.0, after=0.44),
            "a plan with 71 points after 0.4 s, 81.5 at most",
        ),
        (
            Progress("looking", 2, 605, 800, 9.0, after=7.0),
            "number 2: a plan with 60.5 points after 7.0 s, 80 at most",
        ),
        (
            Progress("counting", 5, 500, 900, 9.0, 3),
            "counting, 3 so far: 50 points so far, 90 at most",
        ),
    ],
)
def test_who_watches_is_told_of_the_plan_and_when_it_came(progress, told):
    """Points as tenths, seconds from the start; the bound beside them."""
    assert line(progress) == told
