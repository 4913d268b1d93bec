"""The command line: what it prints and what it writes."""

import json
import os
import re
import signal
import subprocess
import sys
import time

import pytest
from command_line import BUSY, ROOM, SLAB, names, process, run

import arrange


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty working folder with room.toml in it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(ROOM)
    return tmp_path


# ------------------------------------------------------------------------------------ a whole run


def test_suggest_writes_the_plans_and_tells_where_they_are(folder):
    """Summary on stdout, nothing on stderr where nobody watches, exit code 0."""
    done = process("suggest", "room.toml", "--top", "2", cwd=folder)
    assert done.returncode == 0
    assert done.stderr == ""
    assert done.stdout.startswith("Box room\n\nThis is the best there is; we checked.\n")
    assert "\nFor reasons, room to spare and every caution: --all.\n" in done.stdout
    assert "Pictures: room-plans/overview.png first, then plan-1.png and plan-2.png" in done.stdout
    plans = folder / "room-plans"
    assert names(plans) == [
        "overview.png",
        "place-1.png",
        "place-2.png",
        "plan-1.png",
        "plan-2.png",
        "result.json",
        "run.json",
    ]
    assert (plans / "plan-1.png").read_bytes().startswith(b"\x89PNG")
    data = json.loads((plans / "result.json").read_text())
    assert data["files"] == [
        "plan-1.png",
        "plan-2.png",
        "place-1.png",
        "place-2.png",
        "overview.png",
    ]
    assert f"\n1. {data['score']} of 100 points: the desk " in done.stdout


def test_the_first_screen_is_short_and_all_is_told_on_request(folder):
    """With the parts, their points those of the file."""
    args = ("suggest", "room.toml", "--top", "1", "--out", "plans")
    short, full = run(*args).stdout, run(*args, "--all").stdout
    (best,) = json.loads((folder / "plans" / "result.json").read_text())["arrangements"]
    assert best["parts"]
    for part in best["parts"]:
        (row,) = [line for line in full.splitlines() if line.strip().startswith(part["called"])]
        assert row.endswith(f"{part['won']} of {part['possible']}")
        assert part["called"] not in short
    assert ("Room to spare:" in full) is any(line["spare"] <= 300 for line in best["spare"])
    assert "Room to spare:" not in short
    assert "Take care" in short
    assert len(short.splitlines()) < len(full.splitlines())


@pytest.mark.parametrize("suffix", ["svg", "pdf"])
def test_two_runs_write_the_same_bytes(folder, suffix):
    """All files but run.json, which holds the times."""
    for out in ("one", "two"):
        done = run("suggest", "room.toml", "--top", "1", "--out", out, "--format", suffix)
        assert done.exit_code == 0, done.output
    assert names(folder / "one") == [
        f"place-1.{suffix}",
        f"plan-1.{suffix}",
        "result.json",
        "run.json",
    ]
    for name in names(folder / "one"):
        if name != "run.json":
            assert (folder / "one" / name).read_bytes() == (folder / "two" / name).read_bytes()


def test_a_shorter_run_removes_its_own_stale_plans_only(folder):
    """Two plans, then one: the other goes, the overview, too; the person's notes stay."""
    run("suggest", "room.toml", "--top", "2", "--out", "plans", "--format", "svg")
    (folder / "plans" / "notes.txt").write_text("mine")
    assert "plan-2.svg" in names(folder / "plans")
    run("suggest", "room.toml", "--top", "1", "--out", "plans", "--format", "svg")
    assert names(folder / "plans") == [
        "notes.txt",
        "place-1.svg",
        "plan-1.svg",
        "result.json",
        "run.json",
    ]


def test_a_booklet_takes_the_place_of_the_pictures(folder):
    """One set of files: the earlier pictures go, and come back with the next run of that kind."""
    run("suggest", "room.toml", "--top", "1", "--out", "plans", "--format", "svg")
    pictures = [name for name in names(folder / "plans") if name.endswith(".svg")]
    done = run("suggest", "room.toml", "--top", "1", "--out", "plans", "--format", "booklet")
    assert "plans/booklet.pdf" in done.stdout
    assert names(folder / "plans") == ["booklet.pdf", "result.json", "run.json"]
    run("suggest", "room.toml", "--top", "1", "--out", "plans", "--format", "svg")
    assert names(folder / "plans") == sorted([*pictures, "result.json", "run.json"])


@pytest.mark.parametrize(
    ("more", "args", "code"),
    [(SLAB, (), 3), ("", ("--time", "0.001"), 4)],
    ids=["impossible", "out of time"],
)
def test_a_run_that_finds_nothing_leaves_the_plans_of_an_earlier_one(folder, more, args, code):
    """Its own answer stands beside them, and what is printed says where."""
    run("suggest", "room.toml", "--top", "1", "--format", "svg")
    plans = folder / "room-plans"
    before = {p.name: p.read_bytes() for p in plans.iterdir()}
    (folder / "room.toml").write_text(ROOM + more)
    done = run("suggest", "room.toml", *args)
    assert done.exit_code == code
    assert done.stderr == (
        "room-plans/result.json is from a run that found more, so it stays as it is, with its "
        "pictures; this answer is in result-none.json.\n"
    )
    assert done.stdout.endswith("Written: room-plans/result-none.json\n")
    assert {name: (plans / name).read_bytes() for name in before} == before
    assert names(plans) == sorted([*before, "result-none.json", "run-none.json"])


def test_compare_finishes_what_a_killed_run_left_before_it_reads(folder):
    """The record was to be moved last, and the run was killed just before."""
    run("suggest", "room.toml", "--top", "1", "--format", "svg", "--out", "plans")
    plans = folder / "plans"
    new = plans / ".arrange-abcd1234" / "new"
    new.mkdir(parents=True)
    (plans / "result.json").rename(new / "result.json")
    journal = {"files": ["plan-1.svg", "result.json"], "stale": [], "before": []}
    (new.parent / "journal.json").write_text(json.dumps(journal))
    done = run("compare", "plans", "plans/result.json", "--json")
    assert done.exit_code == 0, done.output
    assert names(plans) == [
        "place-1.svg",
        "plan-1.svg",
        "result.json",
        "run.json",
    ]


def test_json_is_the_result_and_nothing_else(folder):
    """No folder is written unless one is named; the text is that of result.json."""
    one_piece = ROOM.replace('[[piece]]\nkind = "desk"\nwidth = 110\n', "")
    (folder / "room.toml").write_text(one_piece)
    done = run("suggest", "room.toml", "--top", "1", "--json", "--families")
    data = json.loads(done.stdout)
    assert names(folder) == ["room.toml"]
    assert data["outcome"] == "proven"
    assert data["families"]["complete"]
    assert data["families"]["count"] == len(data["families"]["families"]) > 1
    best = data["families"]["families"][0]
    assert best["score"] == data["score"]


def test_json_with_a_folder_prints_what_it_writes(folder):
    """The same bytes on stdout and in result.json."""
    args = ("suggest", "room.toml", "--top", "1", "--json", "--out", "plans", "--format", "svg")
    assert run(*args).stdout == (folder / "plans" / "result.json").read_text()


def test_a_scenario_can_come_from_stdin(folder):
    """The folder is called room-plans then."""
    done = run("suggest", "-", "--top", "1", "--json", input=ROOM)
    assert json.loads(done.stdout)["title"] == "Box room"
    done = run("check", "-", input=ROOM)
    assert done.exit_code == 0
    assert (folder / "room-plans" / "survey.png").exists()


# ------------------------------------------------------------------------------------------ stop


def interrupted(folder, seconds):
    """A long search, stopped by Ctrl-C after that many seconds."""
    (folder / "busy.toml").write_text(BUSY)
    command = [sys.executable, "-c", "from arrange.cli import main; main()", "suggest"]
    started = subprocess.Popen(
        [*command, "busy.toml", "--top", "50", "--format", "svg", "--time", "600"],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    time.sleep(seconds)
    started.send_signal(signal.SIGINT)
    out, err = started.communicate(timeout=120)
    return started.returncode, out, err


def test_ctrl_c_shows_the_best_so_far(folder):
    """Written and shown, said to be stopped; exit code 0, or 4 if nothing was found yet."""
    code, out, err = interrupted(folder, 4)
    assert err == ""
    assert "Stopped when you asked. " in out
    data = json.loads((folder / "busy-plans" / "result.json").read_text())
    assert data["interrupted"]
    assert code == (0 if data["arrangements"] else 4)
    assert (folder / "busy-plans" / "plan-1.svg").exists() is bool(data["arrangements"])


# ------------------------------------------------------------------------------------------ check


def test_check_draws_the_room_and_is_0_where_all_is_fine(folder):
    """The picture, and what was found of each piece."""
    done = process("check", "room.toml", cwd=folder)
    assert done.returncode == 0
    assert done.stderr == ""
    assert "The file is in order, and each piece by itself fits in the empty room." in done.stdout
    assert names(folder / "room-plans") == ["check.json", "survey.png"]


def test_check_is_3_and_names_the_piece_that_cannot_fit(folder):
    """Proven, with its size."""
    (folder / "room.toml").write_text(ROOM + SLAB)
    done = run("check", "room.toml", "--format", "svg")
    assert done.exit_code == 3
    assert "Does not fit, whatever you do (proven):\n- The slab (300 x 255 x 50 cm)" in done.stdout
    assert names(folder / "room-plans") == ["check.json", "survey.svg"]
    record = json.loads((folder / "room-plans" / "check.json").read_text())
    assert record["fine"] is False
    answers = {one["piece"]: one["answer"] for one in record["pieces"]}
    assert [piece for piece, answer in answers.items() if answer != "fits"] == ["slab"]
    assert answers["slab"] == "cannot fit"


def test_the_survey_of_another_file_stays(folder):
    """The second file gets names of its own; the first one's survey is as it was."""
    (folder / "other.toml").write_text(ROOM.replace("300, 260", "310, 260"))
    run("check", "room.toml", "--out", "plans")
    before = (folder / "plans" / "survey.png").read_bytes()
    done = run("check", "other.toml", "--out", "plans")
    assert done.exit_code == 0
    assert "check.json answers another question and stays as it is" in done.stderr
    assert names(folder / "plans") == ["check-2.json", "check.json", "survey-2.png", "survey.png"]
    assert (folder / "plans" / "survey.png").read_bytes() == before
    run("check", "room.toml", "--out", "plans")
    assert len(names(folder / "plans")) == 4


@pytest.mark.usefixtures("folder")
def test_check_is_4_where_the_time_was_too_short():
    """Not decided is neither fine nor impossible."""
    done = run("check", "room.toml", "--format", "svg", "--time", "0.000001")
    assert done.exit_code == 4
    assert "may fit or not: the time ran out" in done.stdout
    assert "Does not fit" not in done.stdout


# ------------------------------------------------------------------------------------- help, start


@pytest.mark.parametrize("command", ["suggest", "check"])
def test_every_help_text_has_an_example(command):
    """And the version is the package's."""
    assert f"Example: arrange {command} bedroom.toml" in run(command, "--help").stdout
    assert run("--version").stdout.split()[-1] == arrange.__version__


def test_help_loads_nothing_heavy():
    """No solver, no shapes, no pictures: these take a second together."""
    code = (
        "import sys; from arrange.cli import main; main(['suggest', '--help'], "
        "standalone_mode=False); "
        "print([m for m in ('ortools', 'shapely', 'numpy', 'matplotlib') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.endswith("[]\n")


def test_the_solver_is_loaded_without_pandas_and_works_with_it_later():
    """What CP-SAT offers for pandas is there for a caller who uses it."""
    code = (
        "import sys, arrange.solver.engine; assert 'pandas' not in sys.modules; "
        "import pandas; from ortools.sat.python.cp_model import CpModel; "
        "print(len(CpModel().new_bool_var_series('x', pandas.Index(['a', 'b']))))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "2\n"


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="needs a terminal of its own")
def test_progress_is_one_rewritten_line_for_those_who_watch(folder):
    """On a terminal the line tells points and seconds, and is gone at the end."""
    (folder / "busy.toml").write_text(BUSY)
    ours, theirs = os.openpty()
    command = [sys.executable, "-c", "from arrange.cli import main; main()", "suggest"]
    running = subprocess.Popen(
        [*command, "busy.toml", "--json", "--top", "50", "--time", "600"],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=theirs,
        text=True,
    )
    os.close(theirs)
    told = ""
    with os.fdopen(ours, "rb", buffering=0) as screen:
        while not re.search(
            r"a plan with [\d.]+ points after [\d.]+ s, [\d.]+ at most, \d+ s", told
        ):
            told += screen.read(1000).decode()
        running.send_signal(signal.SIGINT)
        answer, _ = running.communicate(timeout=120)
        told += screen.read(1_000_000).decode()
    assert running.returncode == 0
    assert json.loads(answer)["title"] == "Box room"
    assert "\n" not in told
    assert told.endswith("\r\x1b[K")
