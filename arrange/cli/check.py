"""``arrange check``: is the file right, is the room as measured, does each piece fit alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.budget import Budget
from arrange.cli.common import (
    FOUND,
    IMPOSSIBLE,
    NOTHING_FOUND,
    Delivery,
    format_option,
    out_option,
    say,
    scenario_from,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from arrange.data.result import Checked


@click.command(epilog="Example: arrange check bedroom.toml --out bedroom-plans")
@click.argument("file", metavar="FILE")
@out_option()
@time_option(30.0, "How long to look at the pieces at most.")
@format_option
@click.pass_context
def check(ctx: click.Context, file: str, out: Path | None, seconds: float, suffix: str) -> None:
    """Check FILE and draw the empty room as measured.

    FILE is a scenario (scenarios/README.md); - reads it from stdin. Every slip in it is listed.
    The picture (survey) has every dimension, to compare with the tape. Each piece is tried alone
    in the empty room with the floor it needs; one that has nowhere to stand there can never fit.
    What was found out about each is in check.json, too.
    """
    clock = Budget(seconds)
    scenario = scenario_from(file)
    to = Delivery(file, out, suffix)
    to.look()
    to.load()
    from arrange.draw import survey_sheet  # noqa: PLC0415
    from arrange.output.records import CHECK, check_data  # noqa: PLC0415
    from arrange.whatif.check import check as look  # noqa: PLC0415
    from arrange.words.check import impossible_words, room_words, words  # noqa: PLC0415

    with watching("trying each piece alone") as watch:
        checked = look(scenario, seconds=to.time(clock, 1), stop=watch.stop)
        sheets = {
            "survey": lambda: survey_sheet(
                scenario, impossible_words(checked), room_words(scenario)
            )
        }
        files = to.write(sheets, (CHECK, lambda names: check_data(checked, names)))
    say(f"{words(checked)}\n\nPicture: {to.path / files[0]}")
    ctx.exit(exit_code(checked))


def exit_code(checked: Checked) -> int:
    """3 if something is proven not to fit, 4 if something was not decided, else 0."""
    if checked.impossible:
        return IMPOSSIBLE
    return FOUND if checked.fine else NOTHING_FOUND
