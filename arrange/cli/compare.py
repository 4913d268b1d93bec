"""``arrange compare``: two to six options side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.budget import Budget
from arrange.cli.common import (
    FOUND,
    IMPOSSIBLE,
    MARK,
    NOTHING_FOUND,
    Delivery,
    format_option,
    json_option,
    out_option,
    seed_option,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.comparison import Comparison

DATA, TABLE = "compare.json", "compare.csv"


@click.command(epilog="Example: arrange compare bedroom.toml:today bedroom.toml bigger-bed.toml")
@click.argument("options", metavar="OPTION OPTION...", nargs=-1)
@out_option("compare-plans")
@time_option(120.0, "How long to search at most, for all options together.")
@seed_option
@format_option
@json_option("compare.json", "table")
@click.pass_context
def compare(
    ctx: click.Context,
    options: tuple[str, ...],
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """Put two to six options side by side.

    An OPTION is a scenario file, whose best arrangement is searched for; FILE:today, where
    things stand today; or the result.json of an earlier run, or its folder, with #2 for its second
    arrangement. Writes one sheet with all plans at one scale (compare), every number (compare.json,
    see scenarios/RESULT.md) and a table for a spreadsheet (compare.csv).
    """
    clock = Budget(seconds)
    from arrange.comparing import compare as search  # noqa: PLC0415
    from arrange.comparing import gathered  # noqa: PLC0415
    from arrange.output.records import compare_data  # noqa: PLC0415
    from arrange.output.spreadsheets import compare_csv  # noqa: PLC0415
    from arrange.words.compare import words  # noqa: PLC0415

    asked = gathered(options)
    to = Delivery("compare", out, suffix, as_json=as_json)
    to.look()
    with watching("looking at the options") as watch:
        found = search(
            asked,
            seconds=to.time(clock, len(options)),
            seed=seed,
            listener=watch,
            stop=watch.stop,
        )
        watch.say("drawing the plans")
        files = to.write(
            {"compare": lambda: sheet(found)},
            (TABLE, lambda _: f"{MARK}{compare_csv(found)}"),
            (DATA, lambda names: compare_data(found, names[:-1])),
        )[:-1]
    to.tell(lambda: compare_data(found, files), lambda: words(found, to.path, files))
    ctx.exit(exit_code(found))


def sheet(comparison: Comparison) -> Figure:
    """All plans at one scale."""
    from arrange.draw.comparison import comparison_sheet  # noqa: PLC0415

    return comparison_sheet(comparison)


def exit_code(comparison: Comparison) -> int:
    """0 if at least one option works, 3 if all are proven impossible, else 4."""
    if comparison.works:
        return FOUND
    none = all(o.state == "impossible" for o in comparison.options)
    return IMPOSSIBLE if none else NOTHING_FOUND
