"""The pictures of a result, drawn several at once in processes of their own.

For the command line alone. Every picture is one call that can be pickled, and nothing
heavy is loaded before one is drawn. Each process is a new Python that is told over a pipe
what to draw. It loads what drawing needs while the search begins, and tells how long that
took (`arrange/draw/pace.py`); where it can, one process loads and forks the others, as
loading takes as long as a plan. The ready-made pools
of processes were tried: they run the calling script once more, hear the terminal's Ctrl-C,
and wait for ever if stopped at a bad moment. These here end when the pipe does, however
the program ended.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from itertools import chain
from pathlib import Path
from queue import SimpleQueue
from types import TracebackType
from typing import IO, TYPE_CHECKING, TypeVar

from arrange.budget import Budget
from arrange.draw.pace import alone, kept_back

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.result import Result, Suggestion
    from arrange.data.scenario import Scenario

T = TypeVar("T")
Job = Callable[[Path], object]
BOOKLET = "booklet"


def pictures(result: Result, suffix: str) -> list[tuple[str, Job]]:
    """A name and a job for every picture: plans, placing sheets, the overview of several last.

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
    overview = (f"overview.{suffix}", partial(draw_overview, scenario, result.suggestions))
    return [*plans, *places, *([overview] if total > 1 else [])]


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
    if total > 1:
        yield overview_sheet(scenario, suggestions)
    for suggestion in suggestions:
        yield _plan(scenario, suggestion, total)
        yield placing_sheet(scenario, suggestion, total)


def load() -> None:
    """Load what drawing needs."""
    from arrange.draw import grid, setting_out, sheet, survey  # noqa: F401, PLC0415
    from arrange.words import cautions  # noqa: F401, PLC0415


def timed_load() -> float:
    """Load what drawing needs; the seconds that takes when nobody else is about."""
    wall, cpu = time.monotonic(), time.process_time()
    load()
    return alone(time.monotonic() - wall, time.process_time() - cpu)


MOST = 2  # processes; more would gain little for half a dozen pictures
FORKS = sys.platform == "linux"  # elsewhere a fork may come without what the system had loaded
START = (
    "import sys; sys.path[:] = {path!r}; from arrange.draw.painters import serve; serve({forks})"
)


class Painters:
    """Two processes that draw, or none: then ``maker`` hands every job back as it is.

    There are none for ``pictures`` up to two, on one core, or where processes
    cannot be started. Use it in a ``with`` block; afterwards nothing runs any more.
    """

    def __init__(self, pictures: int, most: int = MOST) -> None:
        self._all: list[Painter] = []
        self._free: SimpleQueue[Painter] = SimpleQueue()
        if pictures > 2 and cores() > 1:
            # A limit on processes or memory: drawing here only takes longer.
            with suppress(OSError):
                self._all = started(min(most, cores()))
        for painter in self._all:
            self._free.put(painter)
        self._threads = ThreadPoolExecutor(max(1, len(self._all)))
        self._clock = Budget()
        self._loading: float | None = None  # s

    def keeping(self, scenario: Scenario) -> Callable[[int], float]:
        """What to keep back of a time limit, as a function of how many arrangements are drawn.

        In seconds, as far as is known by then (see `arrange/draw/pace.py`). Without
        processes what drawing needs is loaded at once.
        """
        if self._all:
            self._threads.submit(self._learn)
        else:
            self._loading = timed_load()

        def kept(arrangements: int) -> float:
            # Not loaded yet: it takes at least as long as it took until now.
            seconds = self._clock.elapsed if self._loading is None else self._loading
            return kept_back(arrangements, len(scenario.pieces), seconds, len(self._all))

        return kept

    def _learn(self) -> None:
        with suppress(BrokenExecutor):  # the sheets will be drawn here
            self._loading = self._have(loading_took)

    def _have(self, task: Callable[[], T]) -> T:
        """Have a task done by the process that is free first."""
        painter = self._free.get()
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
    """One process that draws, told what through the pipe ``into``; it answers through ``back``."""

    def __init__(self, process: subprocess.Popen[bytes], into: IO[bytes], back: IO[bytes]) -> None:
        self._process, self._into, self._back = process, into, back

    def work(self, task: Callable[[], T]) -> T:
        """Have ``task`` done: what it returned. Raises what it raised.

        BrokenExecutor if the process is gone.
        """
        try:
            pickle.dump(task, self._into)
            self._into.flush()
            answer: tuple[Exception | None, T] = pickle.load(self._back)  # noqa: S301  written by ourselves
        except Exception as gone:  # whatever half an answer may lead to
            raise BrokenExecutor("a process that draws has ended") from gone
        error, value = answer
        if error is not None:
            raise error
        return value

    def end(self) -> None:
        """End the process and those it forked, whatever they are doing."""
        if FORKS:
            with suppress(ProcessLookupError):
                os.killpg(self._process.pid, signal.SIGKILL)
        else:
            self._process.kill()
        self._process.wait()
        for pipe in (self._into, self._back):
            with suppress(OSError):
                pipe.close()


def started(count: int) -> list[Painter]:
    """So many painters, the others forked by the first where that can be. OSError if none can."""
    if not FORKS:
        return [_painter(_process()) for _ in range(count)]
    forks = [(*os.pipe(), *os.pipe()) for _ in range(count - 1)]
    theirs = [(tasks, answer) for tasks, _, _, answer in forks]
    try:
        process = _process(theirs)
    except OSError:
        for end in chain.from_iterable(forks):
            os.close(end)
        raise
    for end in chain.from_iterable(theirs):
        os.close(end)
    others = (
        Painter(process, os.fdopen(into, "wb"), os.fdopen(back, "rb")) for _, into, back, _ in forks
    )
    return [_painter(process), *others]


def _process(forks: Sequence[tuple[int, int]] = ()) -> subprocess.Popen[bytes]:
    """A new Python that serves, with the ends of the pipes that its forks will use."""
    return subprocess.Popen(  # noqa: S603  ourselves
        [sys.executable, "-c", START.format(path=sys.path, forks=[*forks])],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        pass_fds=[*chain.from_iterable(forks)],
        # What Ctrl-C means is for this process to decide.
        start_new_session=True,
    )


def _painter(process: subprocess.Popen[bytes]) -> Painter:
    assert process.stdin is not None and process.stdout is not None  # noqa: S101, PT018  as asked for
    return Painter(process, process.stdin, process.stdout)


def cores() -> int:
    """How many cores this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1


_took = 0.0  # s, see ``loading_took``


def loading_took() -> float:
    """The seconds that loading took the process that is asked, if it draws for another one."""
    return _took


def serve(forks: Sequence[tuple[int, int]]) -> None:
    """What the new process does: load, fork, then one job after another until the pipe ends.

    ``forks`` are the ends of the pipes for each fork: its jobs, its answers.
    """
    global _took  # noqa: PLW0603  told by a job, which is a plain function
    _took = timed_load()
    jobs, answers = os.dup(sys.stdin.fileno()), os.dup(sys.stdout.fileno())
    null = os.open(os.devnull, os.O_RDWR)
    for stream in (sys.stdin, sys.stdout):  # a stray print must not be an answer
        os.dup2(null, stream.fileno())
    for i, ends in enumerate(forks):
        forked = os.fork() == 0
        # A pipe ends when nobody holds its other end: each process has its own alone.
        for end in (jobs, answers, *chain.from_iterable(forks[i + 1 :])) if forked else ends:
            os.close(end)
        if forked:
            jobs, answers = ends
            break
    with (
        suppress(EOFError, BrokenPipeError),
        os.fdopen(jobs, "rb") as tasks,
        os.fdopen(answers, "wb") as back,
    ):
        while True:
            task = pickle.load(tasks)  # noqa: S301  written by ourselves
            error: Exception | None = None
            value: object = None
            try:
                value = task()
            except Exception as raised:  # for the caller to judge
                raised.add_note(f"in a process that draws:\n{traceback.format_exc()}")
                error = raised
            pickle.dump((error, value), back)
            back.flush()
