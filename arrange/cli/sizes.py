"""The part of ``arrange swap`` that tries sizes: a ladder of them, or the exact largest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypedDict

import click

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
    watching,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.sizes import Ladder, Largest
    from arrange.output.fields import Data
    from arrange.whatif.asking import Asked

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
    seconds: float
    seed: int

    @property
    def empty(self) -> bool:
        """Whether nothing was asked of sizes."""
        return self.tried is None and self.largest_of is None

    def limits(self, watch: Watch) -> Limits:
        """Time, seed, and whom to tell and to ask."""
        return Limits(seconds=self.seconds, seed=self.seed, say=watch.say, stop=watch.stop)


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
            help="Whose mattresses. [default: us for a file in inches, else eu]",
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
    from arrange.output.records import LADDER, ladder_data  # noqa: PLC0415
    from arrange.whatif.asking import sizes_asked  # noqa: PLC0415
    from arrange.whatif.ladder import ladder  # noqa: PLC0415
    from arrange.words.sizes import words_of_ladder  # noqa: PLC0415

    scenario = asked.after
    piece, table = sizes_asked(trial.tried or "", trial.region, scenario)

    def record(names: Names) -> Data:
        return _with_changes(ladder_data(found, names), asked)

    to.look()
    with watching("trying sizes") as watch:
        found = ladder(scenario, piece, table, **trial.limits(watch))
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
    from arrange.output.records import LARGEST, largest_data  # noqa: PLC0415
    from arrange.whatif.asking import dimension_asked  # noqa: PLC0415
    from arrange.whatif.largest import largest  # noqa: PLC0415
    from arrange.words.sizes import words_of_largest  # noqa: PLC0415

    scenario = asked.after
    piece, dimension = dimension_asked(trial.largest_of or "", scenario)

    def record(names: Names) -> Data:
        return _with_changes(largest_data(found, scenario, names), asked)

    to.look()
    with watching("the largest size") as watch:
        found = largest(scenario, piece, dimension, **trial.limits(watch))
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
