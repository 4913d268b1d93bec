"""``arrange choose``: what to have and where it goes, for the money there is."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal, InvalidOperation
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.bought import bought_options, check_bought, recorded_in_open
from arrange.cli.common import (
    EXIT,
    MARK,
    Delivery,
    format_option,
    json_option,
    open_from,
    out_option,
    seed_option,
    time_option,
    watching,
    whole,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.figure import Figure

    from arrange.data.choosing import Choosing, Pick

TABLE, DATA = "choice.csv", "choice.json"
MOST_FURTHER = 100_000


def _further(_: click.Context, __: click.Parameter, value: str) -> Decimal:
    """A sum from 0 on; refused in plain words."""
    try:
        amount = Decimal(value)
    except InvalidOperation:
        raise click.BadParameter(f"{value} is not a sum; write --further 100") from None
    if not (amount.is_finite() and 0 <= amount <= MOST_FURTHER):
        raise click.BadParameter(f"{value} is out of range; 0 to {MOST_FURTHER} is allowed")
    return amount


@click.command(epilog="Example: arrange choose workroom.toml --further 150")
@click.argument("file", metavar="FILE")
@click.option(
    "--top",
    type=str,
    default="3",
    callback=whole(1, 12),
    show_default=True,
    metavar="N",
    help="How many choices to draw at most, up to 12.",
)
@click.option(
    "--further",
    type=str,
    default="100",
    callback=_further,
    show_default=True,
    metavar="SUM",
    help="Say also what so much more money would buy.",
)
@click.option("--no-curve", "curve", flag_value=False, default=True, help="Only the best choice.")
@bought_options
@out_option
@time_option(60.0, "How long to search at most.")
@seed_option
@format_option
@json_option("choice.json", "answer")
@click.pass_context
def choose(
    ctx: click.Context,
    file: str,
    top: int,
    further: Decimal,
    curve: bool,
    bought: tuple[str, ...],
    new_file: Path | None,
    in_place: bool,
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """Choose what to have, of what FILE leaves open, together with where it goes.

    FILE is a scenario with [[need]] tables (scenarios/README.md): each need is met by one of
    several pieces that you own, could buy, or make over. Finds the choice with the best plan for
    your budget, and says what less and more money buys. Writes a sheet for each choice
    (choice-1, ...), one with what each sum buys (sums), the account of each for a spreadsheet
    (choice.csv), and every number (choice.json). Ctrl-C ends the search and shows the best so far.

    With --bought the purchase is recorded in a copy of FILE (--in-place: in FILE itself), and the
    rest is chosen again around it.
    """
    check_bought(file, bought, new_file, in_place=in_place)
    names: tuple[str, ...] = ()
    if bought:
        found_file, names = recorded_in_open(file, bought, new_file, in_place=in_place)
        file = found_file.source_file
    else:
        found_file = open_from(file)
    from arrange.output.choosing import account_table, choice_data  # noqa: PLC0415
    from arrange.shop.listing import recorded_words  # noqa: PLC0415
    from arrange.whatif.choosing import choose as search  # noqa: PLC0415
    from arrange.words.choosing import words  # noqa: PLC0415
    from arrange.words.reasons import wrapped  # noqa: PLC0415

    to = Delivery(file, out, suffix, as_json=as_json)
    to.look()
    with watching("counting the ways to choose") as watch:
        found = search(
            found_file,
            top=top,
            further=further,
            curve=curve,
            seconds=seconds,
            seed=seed,
            say=watch.say,
            stop=watch.stop,
        )
        watch.say("drawing the plans")
        texts = [(TABLE, lambda _: f"{MARK}{account_table(found)}")] if found.picks else []
        files = to.write(
            sheets(found), *texts, (DATA, lambda names: choice_data(found, names[:-1]))
        )

    def told() -> str:
        if not bought:
            return words(found, to.path, files)
        head = wrapped(recorded_words(found.whole, names, file))
        return f"{head}\n\n{words(found, to.path, files)}"

    to.tell(lambda: choice_data(found, files[:-1]), told)
    ctx.exit(EXIT[found.outcome])


def sheets(found: Choosing) -> dict[str, Callable[[], Figure]]:
    """A sheet for each choice: its plan, its points, its cautions; and the curve."""
    made: dict[str, Callable[[], Figure]] = {
        f"choice-{i}": partial(_sheet, found, i, one) for i, one in enumerate(found.picks, start=1)
    }
    if found.curve:
        made["sums"] = partial(_curve, found)
    return made


def _sheet(found: Choosing, number: int, pick: Pick) -> Figure:
    from arrange.draw import plan_sheet  # noqa: PLC0415
    from arrange.words.cautions import cautions  # noqa: PLC0415
    from arrange.words.choosing import sheet_words  # noqa: PLC0415

    title = f"{pick.scenario.title}, choice {number}"
    scenario = replace(pick.scenario, title=title)
    care = cautions(scenario, pick.suggestion.arrangement)
    told = sheet_words(found, pick)
    return plan_sheet(scenario, pick.suggestion, 1, care, file=DATA, told=told)


def _curve(found: Choosing) -> Figure:
    from arrange.draw.choosing import sums_sheet  # noqa: PLC0415

    return sums_sheet(found)
