"""The exit codes of the command line, and the message that goes with each."""

import json
import subprocess
import sys

import pytest
from command_line import ROOM, SLAB, names, process, run

from arrange.errors import DisagreementError

pytestmark = pytest.mark.fast


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty working folder with room.toml in it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(ROOM)
    return tmp_path


@pytest.mark.solver
def test_proven_impossible_is_3(folder):
    """Said as proven; result.json is written, pictures are not."""
    (folder / "room.toml").write_text(ROOM + SLAB)
    done = process("suggest", "room.toml", cwd=folder)
    assert done.returncode == 3
    assert "It does not fit, and that is proven: " in done.stdout
    assert names(folder / "room-plans") == ["result.json", "run.json"]


@pytest.mark.solver
def test_nothing_found_in_the_time_is_4_and_is_not_called_impossible(folder):
    """A thousandth of a second is not enough to find or to prove anything."""
    done = process("suggest", "room.toml", "--time", "0.001", cwd=folder)
    assert done.returncode == 4
    assert (
        "Nothing was found in the time allowed. That does not mean that nothing works"
        in done.stdout
    )
    assert "mpossible" not in done.stdout
    assert json.loads((folder / "room-plans" / "result.json").read_text())["outcome"] == (
        "nothing found"
    )


@pytest.mark.slow
def test_bad_input_is_2_with_every_fault_and_no_traceback(folder):
    """Two slips, two lines, each with file and place; nothing is written."""
    text = ROOM.replace('kind = "desk"', 'kind = "dessk"').replace("width = 75", "width = -75")
    (folder / "room.toml").write_text(text)
    for command in ("suggest", "check"):
        done = process(command, "room.toml", cwd=folder)
        assert done.returncode == 2
        assert done.stdout == ""
        lines = done.stderr.splitlines()
        assert len(lines) == 2
        assert all(line.startswith("room.toml: ") for line in lines)
        assert "desk" in done.stderr
    assert names(folder) == ["room.toml"]


@pytest.mark.solver
@pytest.mark.parametrize(
    ("args", "message"),
    [
        (("suggest", "missing.toml"), "missing.toml: not found"),
        (("suggest", "."), ".: this is a folder; name a scenario file (.toml) in it\n"),
        (("suggest",), "Missing argument 'FILE'"),
        (("suggest", "room.toml", "--top", "0"), "0 is out of range; 1 to 50 is allowed"),
        (("suggest", "room.toml", "--top", "2.5"), "2.5 is not a whole number"),
        (("suggest", "room.toml", "--time", "0"), "0 is out of range; more than 0"),
        (("suggest", "room.toml", "--time", "-3"), "-3 is out of range; more than 0"),
        (("suggest", "room.toml", "--time", "soon"), "soon is not a number of seconds"),
        (("suggest", "room.toml", "--time", "nan"), "nan is not a number of seconds"),
        (("suggest", "room.toml", "--format", "bmp"), "'bmp' is not one of"),
        (("sugest", "room.toml"), "No such command 'sugest'"),
        (("suggest", "room.toml", "--out", "room.toml"), "room.toml is a file"),
        (("check", "room.toml", "--out", "room.toml/plans"), "room.toml is a file"),
    ],
)
def test_bad_usage_is_2_and_says_what_is_wrong(folder, args, message):
    """Found before any work; nothing is written."""
    done = run(*args)
    assert done.exit_code == 2
    assert message in done.stderr
    assert done.stdout == ""
    assert names(folder) == ["room.toml"]


def test_stdin_that_is_no_text_is_bad_input():
    """Bytes of a picture, for example."""
    done = run("suggest", "-", input=b"\x89PNG\xff\xfe")
    assert done.exit_code == 2
    assert "standard input: not UTF-8 text" in done.stderr


@pytest.mark.parametrize("error", [DisagreementError("the judge refuses"), KeyError("bed")])
def test_our_bug_is_1_in_one_line_without_a_traceback(folder, monkeypatch, error):
    """It asks for a report; --debug shows the traceback instead."""

    def fails(*_, **__):
        raise error

    monkeypatch.setattr("arrange.suggesting.suggest", fails)
    done = run("suggest", "room.toml")
    assert done.exit_code == 1
    assert done.stderr.startswith("arrange: this is our bug, not yours: ")
    assert len(done.stderr.splitlines()) == 1
    assert "Please report" in done.stderr
    assert names(folder) == ["room.toml"]
    assert isinstance(run("--debug", "suggest", "room.toml").exception, type(error))


def test_the_package_runs_as_a_module():
    """As ``python -m arrange``, where the script is not on the path."""
    command = [sys.executable, "-m", "arrange", "--version"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.startswith("arrange ")
