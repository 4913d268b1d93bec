"""Names as they are typed may hold what a terminal obeys: none of it comes out again."""

import os

import pytest
from command_line import ROOM, run

pytestmark = pytest.mark.fast

BAD = "\x1b[2Jx\u202ey"  # clears the screen; turns the direction of writing
PLACED = 'kind = "bookcase"\nowned = true\nstands_now = { wall = "A", from_left = 0 }\n'
COMMANDS = [
    pytest.param(["today", f"{BAD}.toml"], id="a file that is not there"),
    pytest.param(["today", "room.toml", f"--{BAD}"], id="an option"),
    pytest.param(["today", "room.toml", "--format", BAD], id="a choice"),
    pytest.param([BAD, "room.toml"], id="a command"),
    pytest.param([f"--{BAD}"], id="an option before the command"),
    pytest.param(["today", "room.toml", BAD], id="an argument too many"),
    pytest.param(["today", "room.toml", "--out", f"room.toml/{BAD}"], id="a folder in a file"),
    pytest.param(["suggest", "room.toml", "--time", BAD], id="a time"),
    pytest.param(["suggest", "room.toml", "--seed", BAD], id="a seed"),
    pytest.param(["swap", "room.toml", f"{BAD}=desk"], id="a piece"),
    pytest.param(["compare", f"{BAD}.toml", "room.toml"], id="an option of a comparison"),
    pytest.param(["why", "room.toml", "--keep-as-is", BAD], id="what is kept"),
]


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(ROOM)
    return tmp_path


@pytest.mark.parametrize("args", COMMANDS)
def test_nothing_that_a_terminal_obeys_comes_out_of_a_message(args):
    """The message names it with escapes, and it is a message, not our bug."""
    done = run(*args)
    assert done.exit_code == 2
    said = done.stdout + done.stderr
    assert "\x1b" not in said
    assert "\u202e" not in said
    assert r"\x1b[2Jx\u202ey" in said.replace(r"\\", "\\")


def test_a_folder_is_named_in_the_answer_without_what_a_terminal_obeys(folder):
    """It is written to as it was typed, and said with escapes."""
    (folder / "room.toml").write_text(ROOM.replace('kind = "bookcase"\n', PLACED))
    done = run("today", "room.toml", "--out", BAD)
    assert done.exit_code == 0
    assert (folder / BAD / "today.png").exists()
    assert "\x1b" not in done.stdout
    assert r"\x1b[2Jx\u202ey/today.png" in done.stdout


def test_a_pipe_by_name_is_refused_and_not_waited_for(folder):
    """Nobody writes into it: a reader would wait for ever."""
    os.mkfifo(folder / "pipe.toml")
    done = run("today", "pipe.toml")
    assert done.exit_code == 2
    assert "pipe.toml: this is not a file but a device or a pipe" in done.stderr
    os.mkfifo(folder / "result.json")
    done = run("compare", "result.json#1", "room.toml")
    assert done.exit_code == 2
    assert "not a file but a folder, a device or a pipe" in done.stderr
