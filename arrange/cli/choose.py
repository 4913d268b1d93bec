"""``arrange choose``: what to have and where it goes, for the money there is."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal, InvalidOperation
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.bought import Purchase, bought_options, check_bought, purchase_in_open
from arrange.cli.common import (
    EXIT,
    MARK,
    STDIN,
    Delivery,
    count_option,
    format_option,
    json_option,
    open_from,
    out_option,
    seed_option,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.figure import Figure

    from arrange.cli.common import Names

    Maker = Callable[[Names], str]
    from arrange.data.choosing import Choosing, Pick
    from arrange.data.repair import Why
    from arrange.scenario.needs import OpenScenario

TABLE, DATA = "choice.csv", "choice.json"
FURTHER, MOST_FURTHER = "100", 100_000
LEAST_WHY = 5.0  # s, to say why nothing works with what was bought
ROOM_BY_ITSELF = (
    "What you bought fits by itself, but nothing that meets the other needs fits beside it."
)


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
@count_option("--top", 3, 12, "How many suggestions to draw at most, up to 12.")
@click.option(
    "--further",
    type=str,
    default=FURTHER,
    callback=_further,
    show_default=True,
    metavar="SUM",
    help="Also say what this much more money would buy.",
)
@click.option("--no-curve", "curve", flag_value=False, default=True, help="Only the best choice.")
@bought_options
@out_option()
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
    """Choose what FILE leaves open: what to have, and where it goes.

    FILE is a scenario with [[need]] tables (scenarios/README.md): each need is met by one of
    several pieces that you own, could buy, or make over. Finds the choice with the best plan for
    your budget, and says what less and more money buys. Further suggestions are other choices,
    and the best choice arranged differently. Writes a sheet for each choice
    (choice-1, ...), one with what each sum buys (sums), the account of each for a spreadsheet
    (choice.csv), a file of each choice by itself, for all other commands (choice-1.toml, ...), and
    every number (choice.json). Ctrl-C ends the search and shows the best so far.

    With --bought the purchase is recorded in a copy of FILE (--in-place: in FILE itself), and the
    rest is chosen again around it.
    """
    check_bought(file, bought, new_file, in_place=in_place)
    come = purchase_in_open(file, bought, new_file, in_place=in_place) if bought else None
    found_file = open_from(file) if come is None else come.after
    from arrange.output.choosing import account_table, choice_data  # noqa: PLC0415
    from arrange.whatif.choosing import choose as search  # noqa: PLC0415
    from arrange.words.choosing import words  # noqa: PLC0415

    to = Delivery(file if come is None else come.file, out, suffix, as_json=as_json)
    to.look()
    if come is not None:
        come.write()
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
        clash = None
        if come is not None and found.outcome == "impossible":
            watch.say("looking for what clashes with what was bought")
            left = max(seconds - found.seconds, LEAST_WHY)
            clash = _clash(found_file, left, seed, watch.stop)
        watch.say("drawing the plans")
        texts = [(TABLE, lambda _: f"{MARK}{account_table(found)}")] if found.picks else []
        texts += _as_rooms(found_file, found, file if come is None else come.file)

        def record(names: Names) -> dict[str, object]:
            return {**choice_data(found, names), **_bought_data(come, clash)}

        files = to.write(sheets(found), *texts, (DATA, lambda names: record(names[:-1])))
    to.tell(
        lambda: record(files[:-1]),
        lambda: "\n\n".join(
            [*_bought_words(come, clash), words(found, to.path, files)],
        ),
    )
    ctx.exit(EXIT[found.outcome])


def _as_rooms(file: OpenScenario, found: Choosing, source: str) -> list[tuple[str, Maker]]:
    """A file for each choice shown, as any room has, so that all else can be asked of it."""
    from arrange.scenario.limits import text_of  # noqa: PLC0415

    if source == STDIN:
        return []
    made: list[tuple[str, Maker]] = []
    for number, one in enumerate(found.picks, start=1):
        text = None if one.elsewhere else file.text(one.choice.candidates, text_of(source))
        if text is not None:
            made.append((f"choice-{number}.toml", partial(_given, text)))
    return made


def _given(text: str, _: Names) -> str:
    return text


def _clash(file: OpenScenario, seconds: float, seed: int, stop: Callable[[], bool]) -> Why:
    """Why what was bought finds no room, with what is there in any case and nothing else."""
    from arrange.whatif.why import why  # noqa: PLC0415

    bought = [one.name for one in file.needs.candidates if one.bought]
    return why(file.scenario(bought), most=1, seconds=seconds, seed=seed, stop=stop)


def _bought_words(come: Purchase[OpenScenario] | None, clash: Why | None) -> list[str]:
    """What was recorded, and why nothing works with it."""
    if come is None:
        return []
    from arrange.shop.listing import recorded_words  # noqa: PLC0415
    from arrange.words.reasons import wrapped  # noqa: PLC0415
    from arrange.words.why import words as why_words  # noqa: PLC0415

    told = [wrapped(recorded_words(come.after.whole, come.names, come.file))]
    if clash is not None and clash.conflicts.answer == "works":
        told.append(wrapped(ROOM_BY_ITSELF))
    elif clash is not None:
        told.append("\n".join(why_words(clash, Path(), ()).split("\n")[2:]))
    return told


def _bought_data(come: Purchase[OpenScenario] | None, clash: Why | None) -> dict[str, object]:
    if come is None:
        return {}
    from arrange.output.records import why_data  # noqa: PLC0415

    told = None if clash is None else why_data(clash)
    return {"bought": list(come.names), "recorded": come.file, "why": told}


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
