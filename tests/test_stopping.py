"""Whatever is raised while it searches comes out at once, and nothing goes on by itself."""

import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from arrange.budget import Budget
from arrange.scenario.read import read
from arrange.solver import engine
from arrange.solver.model import Model
from arrange.solver.search import Search
from arrange.suggesting import suggest

FLAT = Path(__file__).parent.parent / "scenarios" / "one-room-flat.toml"  # half a minute
PROMPT = 10.0  # s; a solve ends within a tenth, making a cut takes a little longer


class Raised(Exception):  # noqa: N818  it is no error of ours
    """What somebody's own function raises."""


def after(seconds):
    """A ``stop`` that says no, and raises from some time on."""
    start = time.monotonic()

    def stop():
        if time.monotonic() - start > seconds:
            raise Raised
        return False

    return stop


def ends_promptly(run, seconds):
    """It raises soon after so many seconds, and leaves no thread behind."""
    before, start = set(threading.enumerate()), time.monotonic()
    with pytest.raises(Raised):
        run()
    assert time.monotonic() - start < seconds + PROMPT
    assert set(threading.enumerate()) <= before


@pytest.mark.parametrize("seconds", [0.0, 1.5, 4.0])
def test_a_stop_that_raises_ends_both_sides(seconds):
    """Before anything was built, while the first is looked for, and later."""
    case = read(FLAT)
    ends_promptly(lambda: suggest(case, seconds=300, stop=after(seconds)), seconds + 1)


def test_a_listener_that_raises_ends_both_sides():
    """It is called by the side that found something, while the other is at work."""

    def heard(_):
        raise Raised

    case = read(FLAT)
    ends_promptly(lambda: suggest(case, seconds=300, listener=heard), 60)


@pytest.mark.parametrize("side", ["Bounding", "Improving"])
def test_when_one_side_raises_the_other_ends(side, monkeypatch):
    """The other one would go on for as long as its step takes: here, for minutes."""

    def broken(*_):
        time.sleep(1.0)  # so that the other has begun
        raise Raised

    monkeypatch.setattr(f"arrange.solver.search.{side}.step", broken)
    monkeypatch.setattr("arrange.solver.search.FIRST_STEP", 1000.0)
    search = Search(read(FLAT), Budget(300))
    assert search.guided_with() is not search.open_model  # both built beforehand
    ends_promptly(search.best, 1.0)


def test_a_solve_whose_condition_raises_is_stopped():
    """The thread it runs in is gone when the error comes out."""
    model = Model(read(FLAT))
    model.finish()

    def until():
        raise Raised

    ends_promptly(lambda: engine.solve(model, Budget(300), until=until), 1.0)


def test_ctrl_c_without_a_handler_ends_the_search(tmp_path):
    """As a library: KeyboardInterrupt comes out of ``suggest``, and the program ends."""
    program = tmp_path / "program.py"
    program.write_text(
        "import signal, sys, threading\n"
        "import arrange\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # ignored in the background
        "case = arrange.read(sys.argv[1])\n"
        "before = threading.active_count()\n"
        "try:\n"
        "    arrange.suggest(case, seconds=300, listener=lambda _: print('begun', flush=True))\n"
        "except KeyboardInterrupt:\n"
        "    print('interrupted', threading.active_count() - before, flush=True)\n"
    )
    path = os.pathsep.join([str(FLAT.parent.parent), os.environ.get("PYTHONPATH", "")])
    with subprocess.Popen(
        [sys.executable, str(program), str(FLAT)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": path},
    ) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == "begun\n"
        running.send_signal(signal.SIGINT)
        start = time.monotonic()
        told = running.stdout.read().splitlines()
        assert running.wait(PROMPT) == 0
        assert time.monotonic() - start < PROMPT
    assert told[-1] == "interrupted 0"


def test_ctrl_c_while_a_library_is_loaded_is_heard_right_after(tmp_path):
    """Cut short, a library would say that it failed to load, and that looked like our bug."""
    (tmp_path / "slow.py").write_text(
        "import signal, time\nsignal.raise_signal(signal.SIGINT)\ntime.sleep(0.2)\n"
        "print('loaded')\n"
    )
    (tmp_path / "run.py").write_text(
        "import signal, time, click\nfrom arrange.cli import Entry\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # ignored in the background
        "@click.group(cls=Entry)\ndef main(): pass\n"
        "@main.command()\ndef go():\n    import slow\n    time.sleep(60)\n    print('slept')\n"
        "main()\n"
    )
    top = str(Path(__file__).parent.parent)
    run = subprocess.run(
        [sys.executable, tmp_path / "run.py", "go"],
        env={**os.environ, "PYTHONPATH": top},
        capture_output=True,
        text=True,
        check=False,
        timeout=PROMPT,
    )
    assert run.returncode == 4
    assert run.stdout == "loaded\n"
    assert run.stderr == "Stopped before anything was written.\n"
