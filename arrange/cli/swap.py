"""``arrange swap``: does it still work with other pieces, and what gets better or worse.

Or one piece is tried in many sizes: a ladder of them, or the exact largest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

import click

from arrange.budget import Budget
from arrange.cli.common import (
    EXIT,
    FOUND,
    IMPOSSIBLE,
    NOTHING_FOUND,
    Command,
    Decorator,
    Delivery,
    Names,
    Watch,
    format_option,
    json_option,
    named_path,
    out_option,
    say,
    seed_option,
    tables_from,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.scenario import Scenario
    from arrange.data.sizes import Ladder, Largest
    from arrange.data.swap import Swap
    from arrange.output.fields import Data
    from arrange.whatif.asking import Asked, Request


READINGS = 3  # plans: before, and after in two readings
REGIONS = ["eu", "uk", "us", "au"]


class Limits(TypedDict):
    """What a search for sizes is given beside the question."""

    seconds: float
    seed: int
    say: Callable[[str], None]
    stop: Callable[[], bool]


@dataclass(frozen=True, slots=True)
class Trial:
    """What was asked of sizes on the command line."""

    tried: str | None
    region: str | None
    largest_of: str | None
    clock: Budget
    seed: int

    @property
    def empty(self) -> bool:
        """Whether nothing was asked of sizes."""
        return self.tried is None and self.largest_of is None

    def limits(self, watch: Watch, to: Delivery) -> Limits:
        """Time, seed, and whom to tell and to ask."""
        return Limits(
            seconds=to.time(self.clock, 1), seed=self.seed, say=watch.say, stop=watch.stop
        )


def size_options(command: Command) -> Command:
    """``--sizes``, ``--region`` and ``--largest``."""
    options: list[Decorator] = [
        click.option(
            "--sizes",
            "tried",
            metavar="PIECE[=FROM..TO/STEP]",
            help="Try the standard sizes of a piece, or a range of widths.",
        ),
        click.option(
            "--region",
            type=click.Choice(REGIONS),
            help="Whose mattress sizes to use. [default: us for a file in inches, else eu]",
        ),
        click.option(
            "--largest",
            "largest_of",
            metavar="PIECE=width|depth|height",
            help="The exact largest size that works.",
        ),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def repeated(option: str, metavar: str, text: str) -> Decorator:
    """An option that may be given several times; the parameter is its plain name."""
    name = option.removeprefix("--")
    parameter = {"kind": "other_kinds", "price": "prices"}.get(name, name)
    made: Decorator = click.option(option, parameter, multiple=True, metavar=metavar, help=text)
    return made


class Once(click.Command):
    """A command that refuses an option given twice where only the last would count."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """As ever, after a look at what is there twice."""
        _, _, order = self.make_parser(ctx).parse_args(args=list(args))
        for param in self.params:
            one = isinstance(param, click.Option) and not (param.multiple or param.is_flag)
            if one and order.count(param) > 1:
                raise click.UsageError(f"{param.opts[0]} is given twice; give it once", ctx)
        return super().parse_args(ctx, args)


@click.command(
    cls=Once,
    epilog="Example: arrange swap bedroom.toml bed=180x210 --without rug --keep wardrobe",
)
@click.argument("file", metavar="FILE")
@click.argument("sizes", metavar="[PIECE=WIDTHxDEPTH[xHEIGHT]]...", nargs=-1)
@repeated("--kind", "PIECE=KIND", "Another kind of piece in its place, in the usual size.")
@repeated("--price", "PIECE=PRICE", "What it would cost.")
@repeated("--without", "PIECE", "Leave a piece out.")
@repeated("--add", "KIND[=WIDTHxDEPTH]", "One more piece.")
@repeated("--keep", "PIECE", "Stays where it stands now.")
@size_options
@click.option(
    "--write",
    "new_file",
    type=str,
    callback=named_path,
    metavar="NEWFILE",
    help="Write the changed scenario as a new file.",
)
@out_option()
@time_option(60.0, "How long to search at most.")
@seed_option
@format_option
@json_option("swap.json")
@click.pass_context
def swap(
    ctx: click.Context,
    file: str,
    sizes: tuple[str, ...],
    other_kinds: tuple[str, ...],
    prices: tuple[str, ...],
    without: tuple[str, ...],
    add: tuple[str, ...],
    keep: tuple[str, ...],
    tried: str | None,
    region: str | None,
    largest_of: str | None,
    new_file: Path | None,
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """Find out whether FILE still works with other pieces.

    Lengths count in the file's unit or carry their own: bed=180x210, "bed=4 ft 11 in x 6 ft 8 in".
    A name shared by several pieces means all of them. Two answers are given: if everything
    else may move, and if nothing else moves. Writes the plans before and after side by side
    (before-after) and every number (swap.json, see scenarios/RESULT.md). FILE is never changed.

    With --sizes or --largest, which come after all other changes, one piece is tried in many
    sizes instead (ladder, largest).
    """
    from arrange.output.records import SWAP, swap_data  # noqa: PLC0415
    from arrange.scenario.editing import NewFile  # noqa: PLC0415
    from arrange.whatif.asking import Request, understood  # noqa: PLC0415
    from arrange.whatif.swap import swap as search  # noqa: PLC0415
    from arrange.words.swap import words  # noqa: PLC0415

    clock = Budget(seconds)
    text, data, scenario = tables_from(file)
    request = Request(sizes, other_kinds, prices, without, add, keep)
    check_given_once(request, scenario)
    trial = Trial(tried, region, largest_of, clock, seed)
    to = Delivery(file, out, suffix, as_json=as_json)
    if request.empty and trial.empty:
        raise click.UsageError("nothing to swap: say for instance bed=180x210 or --without rug")
    asked = understood(request, scenario, data)
    if not trial.empty:
        if keep or new_file is not None:
            raise click.UsageError("--keep and --write do not go with --sizes or --largest")
        ctx.exit(try_sizes(asked, trial, to))
    written = None if new_file is None else NewFile(new_file, text, asked.tables, asked.after)
    to.look()
    with watching("before and after") as watch:
        answer = search(
            scenario,
            asked.changes,
            keep=asked.keep,
            seconds=to.time(clock, READINGS),
            seed=seed,
            listener=watch,
            stop=watch.stop,
        )
        watch.say("drawing the plans")
        files = to.write(sheets(answer), (SWAP, lambda names: swap_data(answer, names)))
        if written is not None:
            written.write()
    to.tell(lambda: swap_data(answer, files), lambda: words(answer, to.path, files))
    if new_file is not None and not as_json:
        say(f"The changed scenario: {new_file}")
    ctx.exit(EXIT[answer.answer])


def check_given_once(request: Request, scenario: Scenario) -> None:
    """UsageError if a piece is given two sizes, kinds or prices: one of them is a slip."""
    from arrange.scenario.faults import Faults  # noqa: PLC0415
    from arrange.whatif.asking import pieces_called  # noqa: PLC0415

    for words, option, what in (
        (request.sizes, "", "sizes"),
        (request.kinds, "--kind ", "kinds"),
        (request.prices, "--price ", "prices"),
    ):
        given: dict[str, str] = {}
        for word in words:
            name = " ".join(word.rpartition("=")[0].split())
            # Names that are not known are told of later; those of new pieces stand for themselves.
            for piece in pieces_called(name, "", scenario, Faults("")) or [name.casefold()]:
                if piece in given:
                    raise click.UsageError(
                        f"two {what} are given for {piece}: {option}{given[piece]} and "
                        f"{option}{word}; give one"
                    )
                given[piece] = word


def sheets(swap: Swap) -> dict[str, Callable[[], Figure]]:
    """The picture before and after, if there is one."""
    if not any(a.works for r in (swap.free, swap.held) for a in (r.before, r.after)):
        return {}

    def sheet() -> Figure:
        from arrange.draw.swap import before_after_sheet  # noqa: PLC0415

        return before_after_sheet(swap)

    return {"before-after": sheet}


def try_sizes(asked: Asked, trial: Trial, to: Delivery) -> int:
    """Answer, write the files, print; returns the exit code. ScenarioError as the asking."""
    if trial.tried is not None and trial.largest_of is not None:
        raise click.UsageError("--sizes or --largest, one at a time")
    return (_ladder if trial.tried is not None else _largest)(asked, trial, to)


def _with_changes(data: Data, asked: Asked) -> Data:
    """The record, with the changes that were made before: they are part of the question."""
    from arrange.output.fields import About, plain  # noqa: PLC0415

    return {**data, "changes": plain(asked.changes, About(asked.after))}


def _ladder(asked: Asked, trial: Trial, to: Delivery) -> int:
    from arrange.output.sizes import LADDER, ladder_data  # noqa: PLC0415
    from arrange.whatif.asking import sizes_asked  # noqa: PLC0415
    from arrange.whatif.ladder import ladder  # noqa: PLC0415
    from arrange.words.sizes import words_of_ladder  # noqa: PLC0415

    scenario = asked.after
    piece, table = sizes_asked(trial.tried or "", trial.region, scenario)

    def record(names: Names) -> Data:
        return _with_changes(ladder_data(found, names), asked)

    to.look()
    with watching("trying sizes") as watch:
        found = ladder(scenario, piece, table, **trial.limits(watch, to))
        watch.say("drawing")
        sheets = {"ladder": lambda: _ladder_sheet(found)}
        files = to.write(sheets, (LADDER, record))
    to.tell(
        lambda: record(files),
        lambda: words_of_ladder(found, trial.region, to.path, files),
    )
    if found.largest is not None:
        return FOUND
    return NOTHING_FOUND if found.undecided else IMPOSSIBLE


def _ladder_sheet(found: Ladder) -> Figure:
    from arrange.draw.ladder import ladder_sheet  # noqa: PLC0415

    return ladder_sheet(found)


def _largest(asked: Asked, trial: Trial, to: Delivery) -> int:
    from arrange.output.sizes import LARGEST, largest_data  # noqa: PLC0415
    from arrange.whatif.asking import dimension_asked  # noqa: PLC0415
    from arrange.whatif.largest import largest  # noqa: PLC0415
    from arrange.words.sizes import words_of_largest  # noqa: PLC0415

    scenario = asked.after
    piece, dimension = dimension_asked(trial.largest_of or "", scenario)

    def record(names: Names) -> Data:
        return _with_changes(largest_data(found, scenario, names), asked)

    to.look()
    with watching("the largest size") as watch:
        found = largest(scenario, piece, dimension, **trial.limits(watch, to))
        watch.say("drawing")
        sheets: dict[str, Callable[[], Figure]] = {}
        if found.arrangement is not None:
            sheets["largest"] = lambda: _largest_sheet(found)
        files = to.write(sheets, (LARGEST, record))
    to.tell(
        lambda: record(files),
        lambda: words_of_largest(found, scenario, to.path, files),
    )
    return EXIT[found.answer]


def _largest_sheet(found: Largest) -> Figure:
    from arrange.draw.ladder import largest_sheet  # noqa: PLC0415

    return largest_sheet(found)
