"""The pictures of a result, drawn several at once in processes of their own.

For the command line alone. Every picture is one call that can be pickled, and nothing
heavy is loaded before one is drawn. Each process is a new Python that is told over a pipe
what to draw. While the search still runs it draws a trial sheet: so it loads what drawing
needs, and tells how long it takes (`arrange/draw/pace.py`). The ready-made pools
of processes were tried: they run the calling script once more, hear the terminal's Ctrl-C,
and wait for ever if stopped at a bad moment. These here end when the pipe does, however
the program ended.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, ThreadPoolExecutor, wait
from contextlib import suppress
from functools import partial
from pathlib import Path
from queue import SimpleQueue
from types import TracebackType
from typing import TYPE_CHECKING, TypeVar

from arrange.budget import Budget
from arrange.draw.pace import LOADING, alone, kept_back

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.result import Result, Suggestion
    from arrange.data.scenario import Scenario

T = TypeVar("T")
Job = Callable[[Path], object]
BOOKLET = "booklet"


def pictures(result: Result, suffix: str) -> list[tuple[str, Job]]:
    """A name and a job for every picture: plans, placing sheets, the overview last.

    For ``booklet`` there is one job, for all of them in one file. A job writes its picture
    to the path it is given. It can be pickled.
    """
    if not result.suggestions:
        return []
    scenario, total = result.scenario, len(result.suggestions)
    if suffix == BOOKLET:
        return [(f"{BOOKLET}.pdf", partial(draw_booklet, scenario, result.suggestions))]
    plans: list[tuple[str, Job]] = [
        (f"plan-{i}.{suffix}", partial(draw_plan, scenario, suggestion, total))
        for i, suggestion in enumerate(result.suggestions, start=1)
    ]
    places: list[tuple[str, Job]] = [
        (f"place-{i}.{suffix}", partial(draw_placing, scenario, suggestion, total))
        for i, suggestion in enumerate(result.suggestions, start=1)
    ]
    return [
        *plans,
        *places,
        (f"overview.{suffix}", partial(draw_overview, scenario, result.suggestions)),
    ]


def draw_plan(scenario: Scenario, suggestion: Suggestion, total: int, path: Path) -> None:
    """One suggestion's sheet, with its cautions, to ``path``."""
    from arrange.draw import save  # noqa: PLC0415

    save(_plan(scenario, suggestion, total), path)


def _plan(scenario: Scenario, suggestion: Suggestion, total: int) -> Figure:
    from arrange.draw import plan_sheet  # noqa: PLC0415
    from arrange.words.cautions import cautions  # noqa: PLC0415

    return plan_sheet(scenario, suggestion, total, cautions(scenario, suggestion.arrangement))


def draw_placing(scenario: Scenario, suggestion: Suggestion, total: int, path: Path) -> None:
    """Where each piece of a suggestion goes, to ``path``."""
    from arrange.draw import placing_sheet, save  # noqa: PLC0415

    save(placing_sheet(scenario, suggestion, total), path)


def draw_overview(scenario: Scenario, suggestions: tuple[Suggestion, ...], path: Path) -> None:
    """All suggestions side by side, to ``path``."""
    from arrange.draw import overview_sheet, save  # noqa: PLC0415

    save(overview_sheet(scenario, suggestions), path)


def draw_booklet(scenario: Scenario, suggestions: tuple[Suggestion, ...], path: Path) -> None:
    """One PDF to ``path``: the overview, then each plan and where its pieces go."""
    from arrange.draw.page import save_booklet  # noqa: PLC0415

    save_booklet(_in_reading_order(scenario, suggestions), path)


def _in_reading_order(scenario: Scenario, suggestions: tuple[Suggestion, ...]) -> Iterator[Figure]:
    from arrange.draw import overview_sheet, placing_sheet  # noqa: PLC0415

    total = len(suggestions)
    yield overview_sheet(scenario, suggestions)
    for suggestion in suggestions:
        yield _plan(scenario, suggestion, total)
        yield placing_sheet(scenario, suggestion, total)


def load() -> None:
    """Load what drawing needs."""
    from arrange.draw import grid, setting_out, sheet, survey  # noqa: F401, PLC0415
    from arrange.words import cautions  # noqa: F401, PLC0415


def draw_trial(scenario: Scenario, suffix: str) -> float:
    """Draw the sheet of the empty room, for nobody.

    Returns the seconds that it takes when the search is over.
    """
    from arrange.draw import save, survey_sheet  # noqa: PLC0415

    kind = "pdf" if suffix == BOOKLET else suffix
    wall, cpu = time.monotonic(), time.process_time()
    with tempfile.TemporaryDirectory() as folder:
        save(survey_sheet(scenario.unfurnished), Path(folder) / f"trial.{kind}")
    return alone(time.monotonic() - wall, time.process_time() - cpu)


MOST = 2  # processes; more would gain little for half a dozen pictures
START = "import sys; sys.path[:] = {path!r}; from arrange.draw.painters import serve; serve()"


class Painters:
    """Two processes that draw, or none: then ``maker`` hands every job back as it is.

    There are none for ``pictures`` up to two, on one core, or where processes
    cannot be started. Use it in a ``with`` block; afterwards nothing runs any more.
    """

    def __init__(self, pictures: int, most: int = MOST) -> None:
        count = min(most, cores())
        self._all: list[Painter] = []
        self._free: SimpleQueue[Painter] = SimpleQueue()
        if pictures > 2 and cores() > 1:
            # A limit on processes or memory: drawing here only takes longer.
            with suppress(OSError):
                for _ in range(count):
                    self._all.append(Painter())
                    self._free.put(self._all[-1])
        self._threads = ThreadPoolExecutor(max(1, len(self._all)))
        self._loading = Budget()
        self._trial: float | None = None
        # One after the other, or the search had no core to begin with.
        self._loaded = self._threads.submit(self._have, load) if self._all else None

    def keeping(self, scenario: Scenario, suffix: str) -> Callable[[int], float]:
        """Begin with a trial sheet; returns what to keep back of a time limit.

        The function returned gives the seconds that drawing so many arrangements will
        take here, as far as that is known by then (see `arrange/draw/pace.py`). Without
        processes the trial is drawn at once.
        """
        trial = partial(draw_trial, scenario, suffix)
        if self._all:
            self._threads.submit(self._try, trial)
        else:
            self._trial = 0.0
            with suppress(Exception):  # the real sheets will tell
                load()
                self._trial = trial()

        def kept(arrangements: int) -> float:
            # Not done with the trial: it takes at least as long as it took until now.
            seconds = self._loading.elapsed / LOADING if self._trial is None else self._trial
            return kept_back(arrangements, len(scenario.pieces), seconds, len(self._all))

        return kept

    def _try(self, trial: Callable[[], float]) -> None:
        """Learn from one how long a sheet takes, and let the others load meanwhile."""
        others = [self._free.get() for _ in self._all[1:]]
        if self._loaded is not None:
            wait([self._loaded])
        for painter in others:
            self._threads.submit(self._give, painter, load)
        try:
            self._trial = self._have(trial)
        except Exception:  # the real sheets will tell
            self._trial = 0.0

    def _have(self, task: Callable[[], T]) -> T:
        """Have a task done by the process that is free first."""
        return self._give(self._free.get(), task)

    def _give(self, painter: Painter, task: Callable[[], T]) -> T:
        try:
            return painter.work(task)
        finally:
            self._free.put(painter)

    def maker(self, job: Job) -> Job:
        """What makes the file of ``job``: it begins and returns a future, or draws at once.

        The future raises what the job raised, BrokenExecutor if the process is gone.
        ``job`` and its errors must be such as can be pickled.
        """
        if not self._all:
            return job
        return lambda path: self._threads.submit(self._have, partial(job, path.absolute()))

    def __enter__(self) -> Painters:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        # Nobody waits for their work any more; some may still be loading.
        for painter in self._all:
            painter.end()
        self._threads.shutdown(cancel_futures=True)


class Painter:
    """One process that draws. OSError if it cannot be started."""

    def __init__(self) -> None:
        self._process = subprocess.Popen(  # noqa: S603  ourselves
            [sys.executable, "-c", START.format(path=sys.path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            # What Ctrl-C means is for this process to decide.
            start_new_session=True,
        )

    def work(self, task: Callable[[], T]) -> T:
        """Have ``task`` done: what it returned. Raises what it raised.

        BrokenExecutor if the process is gone.
        """
        into, back = self._process.stdin, self._process.stdout
        assert into is not None and back is not None  # noqa: S101, PT018  pipes, as asked for
        try:
            pickle.dump(task, into)
            into.flush()
            answer: tuple[Exception | None, T] = pickle.load(back)  # noqa: S301  written by ourselves
        except Exception as gone:  # whatever half an answer may lead to
            raise BrokenExecutor("a process that draws has ended") from gone
        error, value = answer
        if error is not None:
            raise error
        return value

    def end(self) -> None:
        """End the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()


def cores() -> int:
    """How many cores this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1


def serve() -> None:
    """What the new process does: load, then one job after another until the pipe ends."""
    back = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # a stray print must not be an answer

    with suppress(EOFError, BrokenPipeError):
        while True:
            task = pickle.load(sys.stdin.buffer)  # noqa: S301  written by ourselves
            error: Exception | None = None
            value: object = None
            try:
                value = task()
            except Exception as raised:  # for the caller to judge
                raised.add_note(f"in a process that draws:\n{traceback.format_exc()}")
                error = raised
            pickle.dump((error, value), back)
            back.flush()
