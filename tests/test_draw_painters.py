"""Pictures drawn in processes of their own: same bytes, same errors, nothing left behind."""

import os
import signal
import subprocess
import sys
import time
from concurrent.futures import BrokenExecutor

import draw_rooms as rooms
import pytest
from click.testing import CliRunner

from arrange import read_text
from arrange.cli import main
from arrange.data.result import Result
from arrange.draw import painters as module
from arrange.draw.painters import Painters, pictures
from arrange.errors import OutputError
from arrange.output.files import Folder

pytestmark = pytest.mark.skipif(module.cores() < 2, reason="needs two cores")

ROOM = """
title = "Box room"
[room]
size = ["3 m", "2.6 m"]
ceiling = "2.4 m"
[[door]]
wall = "A"
from_left = "20 cm"
width = "80 cm"
[[piece]]
kind = "chest of drawers"
"""


def result(count=2):
    """A result with ``count`` sheets of one room."""
    scenario, arrangement, gaps = rooms.bedroom()
    told = tuple(rooms.suggestion(arrangement, gaps, rank=i + 1) for i in range(count))
    return Result(scenario, "proven", told, 900, 1.0, 0.5, 0)


# Jobs are sent to the other processes by name, so they stand here and not in a test.
def full(path):
    path.write_bytes(b"half")
    raise OSError(28, "No space left on device")


def slow(path):
    time.sleep(0.5)
    path.write_bytes(b"late")


def die(_):
    os._exit(9)


class UnspeakableError(Exception):
    """One that cannot be pickled."""

    def __reduce__(self):
        raise TypeError("not to be sent")


def unspeakable(_):
    raise UnspeakableError


# In place of the time that loading took.
def half_a_second():
    return 0.5


def for_ever():
    time.sleep(600)


def process_id(path):
    path.write_text(str(os.getpid()))


def ended(ids, signalled):
    """Whether nothing of these numbers is left after a while (they are nobody else's by then)."""

    def gone(one):
        try:
            signalled(one, 0)
        except ProcessLookupError:
            return True
        return False

    end = time.monotonic() + 60
    while not all(map(gone, ids)) and time.monotonic() < end:
        time.sleep(0.05)
    return all(map(gone, ids))


@pytest.mark.parametrize("suffix", ["png", "svg", "pdf"])
def test_another_process_draws_the_same_bytes(tmp_path, suffix):
    jobs = pictures(result(), suffix)
    assert [name for name, _ in jobs] == [
        *(f"plan-{i}.{suffix}" for i in (1, 2)),
        *(f"place-{i}.{suffix}" for i in (1, 2)),
        f"overview.{suffix}",
    ]
    Folder(tmp_path / "here").write(jobs)
    with Painters(4) as painters:
        Folder(tmp_path / "there").write([(name, painters.maker(job)) for name, job in jobs])
    for name, _ in jobs:
        assert (tmp_path / "here" / name).read_bytes() == (tmp_path / "there" / name).read_bytes()


def test_the_work_is_really_done_elsewhere_and_the_processes_end(tmp_path):
    with Painters(4) as painters:
        names = [f"{i}.txt" for i in range(6)]
        Folder(tmp_path / "ids").write([(n, painters.maker(process_id)) for n in names])
    ids = {int((tmp_path / "ids" / n).read_text()) for n in names}
    assert os.getpid() not in ids
    assert ended(ids, os.kill)


def test_an_error_elsewhere_reaches_the_caller_and_leaves_nothing(tmp_path):
    """A slow picture that is still being drawn is waited for, or it would be left behind."""
    folder = Folder(tmp_path / "deep" / "plans")
    with Painters(4) as painters, pytest.raises(OutputError, match="No space left"):
        folder.write([("1", painters.maker(full)), ("2", painters.maker(slow))])
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("pictures_wanted", [0, 1, 2])
def test_a_picture_or_two_are_drawn_at_once(pictures_wanted):
    with Painters(pictures_wanted) as painters:
        assert painters.maker(slow) is slow


def test_one_core_or_no_processes_allowed_means_drawing_here(monkeypatch):
    def refused(*_, **__):
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(module.subprocess, "Popen", refused)
    with Painters(4) as painters:
        assert painters.maker(slow) is slow
    monkeypatch.undo()
    monkeypatch.setattr(module, "cores", lambda: 1)
    with Painters(4) as painters:
        assert painters.maker(slow) is slow


def test_an_error_that_cannot_be_sent_is_not_taken_for_success(tmp_path):
    """The process has nothing to say and ends."""
    with Painters(4) as painters:
        made = painters.maker(unspeakable)(tmp_path / "a.png")
        with pytest.raises(BrokenExecutor):
            made.result()


def test_an_unguarded_script_is_not_run_once_more(tmp_path):
    """Nor is a module in the working folder taken for one of ours."""
    (tmp_path / "matplotlib.py").write_text("raise SystemExit")
    script = tmp_path / "here.py"
    script.write_text(
        "print('once')\n"
        "import os\n"
        "from pathlib import Path\n"
        "from arrange.draw.painters import Painters\n"
        "with Painters(4) as painters:\n"
        "    painters.maker(os.mkdir)(Path('made')).result()\n"
    )
    (tmp_path / "elsewhere").mkdir()
    script.rename(tmp_path / "elsewhere" / "here.py")
    ran = subprocess.run(
        [sys.executable, "elsewhere/here.py"], cwd=tmp_path, capture_output=True, check=True
    )
    assert ran.stdout == b"once\n"
    assert ran.stderr == b""
    assert (tmp_path / "made").is_dir()


def test_pictures_are_drawn_here_when_the_processes_die(monkeypatch, tmp_path):
    asked, honest = [], Painters.maker

    def dying(self, _):
        asked.append(self)
        return honest(self, die)

    monkeypatch.setattr(Painters, "maker", dying)
    (tmp_path / "room.toml").write_text(ROOM)
    ran = CliRunner().invoke(main, ["suggest", str(tmp_path / "room.toml"),
                                    "--out", str(tmp_path / "out")])  # fmt: skip
    assert ran.exit_code == 0, ran.output
    assert asked
    names = {p.name for p in (tmp_path / "out").iterdir()}
    assert {"plan-1.png", "place-1.png", "result.json"} <= names


WAITING = """
import signal, sys, time
from pathlib import Path
from arrange.draw.painters import Painters
# A shell that runs the tests in the background has Ctrl-C ignored, and that is inherited.
signal.signal(signal.SIGINT, signal.default_int_handler)
with Painters(4) as painters:
    print(*{p._process.pid for p in painters._all}, flush=True)
    if sys.argv[1] == "ready":
        painters.maker(Path.touch)(Path(sys.argv[2])).result()
    print("ready", flush=True)
    time.sleep(600)
"""


@pytest.mark.skipif(os.name != "posix", reason="signals as on POSIX")
@pytest.mark.parametrize("when", ["loading", "ready"])
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_stopping_the_command_leaves_no_process(tmp_path, how, when):
    """Ctrl-C goes to the whole group, as from a terminal, the other signals to one alone."""
    running = subprocess.Popen(
        [sys.executable, "-c", WAITING, when, str(tmp_path / "touched")],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
        text=True,
    )
    ids = [int(i) for i in running.stdout.readline().split()]
    assert len(ids) == (1 if module.FORKS else 2)
    assert running.stdout.readline() == "ready\n"
    for group in ids:
        os.killpg(group, 0)
    (os.killpg if how == signal.SIGINT else os.kill)(running.pid, how)
    _, told = running.communicate(timeout=60)
    assert ended(ids, os.killpg)
    assert told.count("Traceback") == (1 if how == signal.SIGINT else 0), told


@pytest.mark.parametrize("count", [0, 4])
def test_what_drawing_will_take_is_known_from_loading(count, monkeypatch):
    """It took half a second, and there are ten pieces.

    A plan takes 0.4 + 0.7 = 1.1 of it, a placing sheet 0.25 + 0.4 = 0.65, the overview of two
    0.15 + 2 * 0.27 = 0.69. One of each by one painter: 1.75; by two: 1.1. Two by one painter:
    4.19; by two: 1.1 + 0.65 + 0.69 = 2.44. Some take longer, so 0.6 more. Two at once are slower
    by a quarter, and 0.5 s after the limit are not kept back.
    """
    monkeypatch.setattr(module, "loading_took", half_a_second)
    monkeypatch.setattr(module, "timed_load", half_a_second)
    scenario = read_text(f"{ROOM}count = 10\n")
    one, two = (1.175, 2.395) if count == 0 else (1.25 * 0.85, 1.25 * 1.52)
    wanted = [0, pytest.approx(one - 0.5), pytest.approx(two - 0.5)]
    with Painters(count) as painters:
        keep = painters.keeping(scenario)
        for _ in range(600):  # the processes load first
            if [keep(n) for n in range(3)] == wanted:
                break
            time.sleep(0.1)
        assert [keep(n) for n in range(3)] == wanted


def test_until_all_is_loaded_it_counts_as_long_as_it_has_taken(monkeypatch):
    """A machine so busy that it cannot even load will not draw any sooner.

    After 2 s loading takes 2 at least. In a room with one piece a plan is 0.47 of that, or
    0.6 more, and all a quarter longer beside a placing sheet.
    """
    now = [100.0]
    monkeypatch.setattr("arrange.budget.time.monotonic", lambda: now[0])
    monkeypatch.setattr(module, "loading_took", for_ever)
    with Painters(4) as painters:
        keep = painters.keeping(read_text(ROOM))
        assert keep(1) == 0
        now[0] = 102.0
        assert keep(1) == pytest.approx(2 * 1.07 * 1.25 - 0.5)
