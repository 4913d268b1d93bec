"""What the commands share, so that each is: parse, call, write, print.

Reading a file or stdin, options, what becomes of an answer (``Delivery``), and the line on
stderr that tells how far the work is (``Watch``), with Ctrl-C to end it.
"""

from __future__ import annotations

import math
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Any

import click

from arrange.budget import Budget
from arrange.data.arrangement import FINDINGS, Finding
from arrange.errors import printable

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.arrangement import Arrangement
    from arrange.data.need import Choice
    from arrange.data.result import Progress
    from arrange.data.scenario import Scenario
    from arrange.output.files import Folder, Maker
    from arrange.output.reading import ReadChoice
    from arrange.scenario.needs import OpenScenario

Command = Callable[..., None]
Decorator = Callable[[Command], Command]
Names = tuple[str, ...]
Text = str | Mapping[str, object]
STDIN = "-"
MARK = "\ufeff"  # by which a spreadsheet knows a table as UTF-8
DAY = 86_400  # s
LEAST = 0.01  # of the time is for the work itself, however long reading has taken
MOST_KEPT = 0.25  # of the time, for drawing by the command itself
FOUND, OUR_BUG, BAD_INPUT, IMPOSSIBLE, NOTHING_FOUND = range(5)
# The exit code by what an answer is called.
EXIT = {
    word: {
        Finding.ARRANGEMENT: FOUND,
        Finding.PROOF: IMPOSSIBLE,
        Finding.NOTHING: NOTHING_FOUND,
    }[finding]
    for word, finding in FINDINGS.items()
}


def plan_from(plan: str) -> tuple[Scenario, Arrangement, Path, int]:
    """The scenario and the arrangement that PLAN names, its file and its number there.

    ScenarioError if it cannot be judged.
    """
    from arrange.errors import Fault, ScenarioError  # noqa: PLC0415
    from arrange.output.reading import read_result, result_named  # noqa: PLC0415

    path, rank = result_named(plan)
    earlier = read_result(path, rank)
    scenario, _ = earlier.again()
    if scenario is None:
        made = earlier.made_from or "its scenario file"
        fault = Fault(
            "",
            f"{made} is not here or beside the plan, or has been changed since",
            "copy it beside the plan, or run arrange suggest again",
        )
        raise ScenarioError(str(path), (fault,))
    return scenario, earlier.suggestion.arrangement, path, rank


@dataclass(frozen=True)
class Plan:
    """A plan that was named: of a suggestion, a version, or a choice.

    ``choice`` is what was chosen, of all that the file leaves open; None for other plans.
    """

    scenario: Scenario
    arrangement: Arrangement
    path: Path
    rank: int
    choice: Choice | None = None
    chosen_from: OpenScenario | None = None

    @property
    def words(self) -> str:
        """What to call it: its number, its folder, its file."""
        where = "/".join(self.path.parts[-2:])
        return f"{'choice' if self.choice else 'plan'} {self.rank} of {where}"


def any_plan(word: str) -> Plan:
    """The plan that PLAN names: as ``plan_from``, or a choice.json. ScenarioError as there."""
    from arrange.output.reading import CHOICE, read_choice, result_named  # noqa: PLC0415

    path, rank = result_named(word)
    if path.name.startswith(Path(CHOICE).stem):
        found: ReadChoice = read_choice(path, rank)
        arrangement = found.scenario.listed(found.earlier.suggestion.arrangement)
        return Plan(found.scenario, arrangement, path, rank, found.choice, found.open)
    return Plan(*plan_from(word))


def piece_named(scenario: Scenario, word: str) -> str:
    """The name of the piece meant; UsageError if there is none."""
    from arrange.data.lengths import nearest  # noqa: PLC0415

    names = [p.name for p in scenario.pieces]
    found = next((n for n in names if n.casefold() == word.casefold()), None)
    if found is None:
        like = nearest(word, names)
        meant = f"; did you mean {like!r}?" if like else f"; there are {', '.join(names)}"
        raise click.UsageError(f"there is no piece called {word!r}{meant}")
    return found


def out_option(usual: str = "<name of FILE>-plans") -> Decorator:
    """``--out``: where the files go; ``usual`` says where without it."""
    option: Decorator = click.option(
        "--out",
        type=str,
        callback=named_path,
        metavar="DIR",
        help=f"Folder to write to; made if needed. [default: {usual}]",
    )
    return option


def named_path(_: click.Context, param: click.Parameter, value: str | None) -> Path | None:
    """A path that was given; an empty one would be the working folder."""
    if value is not None and not value.strip():
        example = "bedroom-plans" if param.name == "out" else "bedroom-2.toml"
        raise click.BadParameter(f"no name was given; write for instance {param.opts[0]} {example}")
    return None if value is None else Path(value)


def format_option(command: Command) -> Command:
    """``--format``: how pictures are written."""
    option: Decorator = click.option(
        "--format",
        "suffix",
        type=click.Choice(["png", "svg", "pdf"]),
        default="png",
        show_default=True,
        help="How the pictures are written.",
    )
    return option(command)


def seed_option(command: Command) -> Command:
    """``--seed``: which of many equal searches."""
    option: Decorator = click.option(
        "--seed",
        type=str,
        default="0",
        callback=whole(0, 2**31 - 100),
        show_default=True,
        metavar="N",
        help="Same seed, same answer, unless the time runs out.",
    )
    return option(command)


def json_option(file: str, instead: str = "summary") -> Decorator:
    """``--json``: print what ``file`` would hold, instead of the words."""
    option: Decorator = click.option(
        "--json",
        "as_json",
        is_flag=True,
        help=f"Print {file} instead of the {instead}. Files are then written only "
        "where --out names a folder.",
    )
    return option


def count_option(flag: str, usual: int, most: int, words: str) -> Decorator:
    """A whole number from 1 to ``most``: how many of something to show."""
    option: Decorator = click.option(
        flag,
        type=str,
        default=str(usual),
        callback=whole(1, most),
        show_default=True,
        metavar="N",
        help=words,
    )
    return option


def time_option(seconds: float, words: str) -> Decorator:
    """``--time``: how long to work at most."""
    option: Decorator = click.option(
        "--time",
        "seconds",
        type=str,
        default=f"{seconds:g}",
        show_default=True,
        metavar="SECONDS",
        callback=_seconds,
        help=words,
    )
    return option


def _seconds(_: click.Context, __: click.Parameter, value: str) -> float:
    """Above 0, up to a day; refused in plain words."""
    try:
        number = float(value)
    except ValueError:
        number = math.nan
    if math.isnan(number):
        raise click.BadParameter(f"{value} is not a number of seconds; write --time 90")
    if not 0 < number <= DAY:
        raise click.BadParameter(f"{value} is out of range; more than 0, up to {DAY} is allowed")
    return number


def whole(low: int, high: int) -> Callable[[click.Context, click.Parameter, str], int]:
    """A callback for a whole number from ``low`` to ``high``; refused in plain words."""

    def checked(_: click.Context, __: click.Parameter, value: str) -> int:
        try:
            number = int(value)
        except ValueError:
            told = f"{value} is not a whole number; {low} to {high} is allowed"
            raise click.BadParameter(told) from None
        if not low <= number <= high:
            raise click.BadParameter(f"{value} is out of range; {low} to {high} is allowed")
        return number

    return checked


def scenario_from(file: str) -> Scenario:
    """The scenario in ``file``, or on stdin for ``-``. ScenarioError as ``read``."""
    import arrange  # noqa: PLC0415

    return arrange.read(file) if file != STDIN else arrange.read_text(*_stdin())


def open_from(file: str) -> OpenScenario:
    """The open scenario in ``file``, or on stdin for ``-``. ScenarioError as ``read_open``."""
    from arrange.scenario.needs import read_open, read_open_text  # noqa: PLC0415

    return read_open(file) if file != STDIN else read_open_text(*_stdin())


def tables_from(file: str) -> tuple[str, dict[str, Any], Scenario]:
    """The text of ``file``, or of stdin for ``-``, its tables and the scenario in it."""
    from arrange.scenario.read import parsed, read_data  # noqa: PLC0415

    text, name = text_from(file)
    data = parsed(text, name)
    return text, data, read_data(data, name)


def text_from(file: str) -> tuple[str, str]:
    """The text of ``file``, or of stdin for ``-``, and what to call it. ScenarioError."""
    from arrange.scenario.limits import text_of  # noqa: PLC0415

    return _stdin() if file == STDIN else (text_of(file), file)


def _stdin() -> tuple[str, str]:
    from arrange.errors import Fault, ScenarioError  # noqa: PLC0415
    from arrange.scenario.limits import text_in  # noqa: PLC0415

    name = "standard input"
    with suppress(OSError):
        if sys.stdin is not None:  # it may have been closed before we began
            return text_in(sys.stdin.buffer, name), name
    pipe = "give the name of a file, or arrange suggest - < bedroom.toml"
    raise ScenarioError(name, (Fault("", "nothing can be read from it", pipe),))


def say(text: str, *, ending: str = "\n") -> None:
    """Print an answer. OutputError if it cannot be printed: what was written stays.

    A reader that has gone (``| head -1``) is another matter: see the entry.
    """
    from arrange.errors import OutputError  # noqa: PLC0415

    try:
        # Names of folders are said as they were typed, but for what a terminal obeys.
        click.echo("\n".join(map(printable, text.split("\n"))) + ending, nl=False)
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(unprintable(error)) from error


def unprintable(error: OSError) -> str:
    """What to say where stdout takes no more."""
    return (
        f"standard output: the answer cannot be printed ({error.strerror or error}); "
        "print it somewhere else. Files that were written stay"
    )


class Delivery:
    """What becomes of an answer: files in a folder, and words or JSON on stdout.

    The folder is ``out``, else one in the working folder named after ``file``. With
    ``as_json`` files are written only where ``out`` names a folder.
    """

    def __init__(self, file: str, out: Path | None, suffix: str, *, as_json: bool = False) -> None:
        stem = "room" if file == STDIN else Path(file).stem
        self.path = out or Path(f"{stem}-plans")
        self.suffix, self.as_json = suffix, as_json
        self.folder: Folder | None = None
        self.writes = out is not None or not as_json
        self._loading: float | None = None  # s

    def look(self) -> None:
        """Before the work begins: whether the folder can be written to. OutputError if not."""
        from arrange.output.files import Folder  # noqa: PLC0415

        self.folder = Folder(self.path) if self.writes else None

    def load(self) -> None:
        """Load what drawing needs, if anything is drawn; to be timed, before all that draws."""
        if self.writes and self._loading is None:
            from arrange.draw.painters import load  # noqa: PLC0415

            watch = Budget()
            load()
            self._loading = watch.elapsed

    def time(self, clock: Budget, plans: int) -> float:
        """Seconds of the clock to work in: without those for drawing so many plans.

        How long loading took tells how quick this machine is.
        """
        from arrange.draw.pace import PLAN_OF_LOADING  # noqa: PLC0415

        self.load()
        kept = plans * PLAN_OF_LOADING * (self._loading or 0.0)
        kept = min(kept, MOST_KEPT * clock.seconds)
        return max(clock.left - kept, LEAST * clock.seconds)

    def write(
        self,
        sheets: Mapping[str, Callable[[], Figure]],
        *texts: tuple[str, Callable[[Names], Text]],
    ) -> Names:
        """Draw and write all, the texts last; returns the names, none where nothing is written.

        A text is made from the names up to its own. Names are not the usual ones where
        something would be lost; that is told on stderr.
        """
        if self.folder is None:
            return ()
        from arrange.draw import save  # noqa: PLC0415

        makers: list[tuple[str, Maker]] = [
            (f"{stem}.{self.suffix}", partial(save, draw())) for stem, draw in sheets.items()
        ]
        return self.put(makers, *texts)

    def put(
        self, makers: Sequence[tuple[str, Maker]], *texts: tuple[str, Callable[[Names], Text]]
    ) -> Names:
        """As ``write``, with what makes each file."""
        if self.folder is None:
            return ()
        written = self.folder.write(makers, texts)
        for sentence in written.told:
            with suppress(OSError):
                click.echo(printable(sentence), err=True)
        return written.names

    def tell(self, record: Callable[[], Mapping[str, object]], words: Callable[[], str]) -> None:
        """Print the record as JSON, or the words."""
        if self.as_json:
            from arrange.output.fields import as_text  # noqa: PLC0415

            say(as_text(record()), ending="")
        else:
            say(words())


EVERY = 0.25  # s
BACK = "\r\x1b[K"  # to the start of the line, and clear it


@contextmanager
def stopped_by_ctrl_c() -> Iterator[threading.Event]:
    """An event that the first Ctrl-C sets; a second one ends the program at once."""
    asked = threading.Event()
    if threading.current_thread() is not threading.main_thread():
        yield asked
        return

    def heard(*_: object) -> None:
        asked.set()
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, heard)
    try:
        yield asked
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def watching(stage: str) -> Iterator[Watch]:
    """The line that tells how far the work is, with its ``stop`` for Ctrl-C."""
    with stopped_by_ctrl_c() as asked, Watch(stage, asked.is_set) as watch:
        yield watch


class Watch:
    """A line that is rewritten while the ``with`` block runs; silent without a terminal."""

    def __init__(self, stage: str, stop: Callable[[], bool] = lambda: False) -> None:
        self.stop = stop
        self._text = stage
        self._budget = Budget()
        self._over = threading.Event()
        self._thread: threading.Thread | None = None

    def __call__(self, progress: Progress) -> None:
        """Take in the latest; called from the searching threads."""
        self._text = line(progress)

    def say(self, text: str) -> None:
        """Another stage, in words."""
        self._text = text

    def __enter__(self) -> Watch:
        if sys.stderr.isatty():
            self._thread = threading.Thread(target=self._show, daemon=True)
            self._thread.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._over.set()
        if self._thread is not None:
            self._thread.join()
            sys.stderr.write(BACK)
            sys.stderr.flush()

    def _show(self) -> None:
        while not self._over.wait(EVERY):
            seconds = self._budget.elapsed
            # A line that wraps could not be rewritten.
            told = f"{self._text}, {seconds:.0f} s"[: _columns() - 1]
            sys.stderr.write(BACK + told)
            sys.stderr.flush()


def _columns() -> int:
    try:
        return os.get_terminal_size(sys.stderr.fileno()).columns or 80
    except (OSError, ValueError):
        return 80


def line(progress: Progress) -> str:
    """The stage, the points so far and how many there can be, in words.

    >>> from arrange.data.result import Progress
    >>> line(Progress("looking for the best", 1, 710, 815, 2.0, after=0.4))
    'a plan with 71 points after 0.4 s, 81.5 at most'
    """
    from arrange.data.result import FULL, NOTHING, parted  # noqa: PLC0415  --help loads no data

    stage = progress.stage
    if progress.families:
        stage = f"{stage}, {progress.families} so far"
    elif progress.rank > 1:
        stage = f"{stage} (number {progress.rank})"
    if progress.score == NOTHING:
        return f"{stage}: nothing so far"
    (faults, points), (fewest, most) = parted(progress.score), parted(progress.bound)
    at_most = f"{(most if fewest == faults else FULL) / 10:g} at most"
    if progress.families:
        return f"{stage}: {points / 10:g} points so far, {at_most}"
    which = "a plan" if progress.rank == 1 else f"number {progress.rank}: a plan"
    return f"{which} with {points / 10:g} points after {progress.after:.1f} s, {at_most}"
