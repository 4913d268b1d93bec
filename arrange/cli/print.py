"""``arrange print``: a plan to scale on paper, with the pieces to cut out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import STDIN, Delivery, out_option, plan_from, say, scenario_from

if TYPE_CHECKING:
    from arrange.data.arrangement import Arrangement
    from arrange.data.scenario import Scenario

# "1/2 in = 1 ft" is 1:24.
RATIOS = {"1:20": 20, "1:24": 24, "1/2in=1ft": 24, "1/2in": 24, "1:25": 25, "1:50": 50}
PAPERS = ("A4", "A3", "Letter")


def _ratio(_: click.Context, __: click.Parameter, value: str | None) -> int | None:
    """What a scale reduces by; other scales are refused."""
    if value is None:
        return None
    found = RATIOS.get("".join(value.lower().split()))
    if found is None:
        raise click.BadParameter(
            f"{value} is not one of the scales; write 1:20, 1:24, 1:25 or 1:50 "
            "(1:24 is 1/2 in = 1 ft)"
        )
    return found


@click.command("print", epilog="Example: arrange print bedroom-plans --scale 1:20 --paper A3")
@click.argument("plan", metavar="PLAN")
@click.option(
    "--scale",
    "ratio",
    type=str,
    callback=_ratio,
    metavar="1:N",
    help='1:20, 1:24 ("1/2 in = 1 ft"), 1:25 or 1:50. [default: the largest at which the room '
    "fits on one sheet]",
)
@click.option(
    "--paper",
    type=click.Choice(PAPERS, case_sensitive=False),
    help="What is in the printer. [default: A4, or Letter for a room in inches]",
)
@out_option("<name of FILE>-plans, or the folder of PLAN")
def print_plan(plan: str, ratio: int | None, paper: str | None, out: Path | None) -> None:
    """Put a PLAN on paper, to scale, with the pieces to cut out.

    PLAN is a folder that arrange suggest wrote, with #2 for its second arrangement, or a version
    that arrange move kept (version.json). A scenario will do as well: then there is no plan yet,
    but the empty room and the pieces, to try one by hand. Writes print.pdf: how to print, with
    bars to measure; the empty room; the plan with its dimensions; every piece with the floor it
    needs. What is larger than a sheet goes on several, with marks for cutting and gluing.
    """
    scenario, arrangement, rank, folder = _asked(plan)
    from arrange.draw.page import save_booklet  # noqa: PLC0415
    from arrange.draw.printing import PaperError, laid_out, printed_pages, usual_scale  # noqa: PLC0415
    from arrange.draw.tiles import PAPERS as SHEETS  # noqa: PLC0415

    sheet = SHEETS[paper or ("Letter" if scenario.unit == "in" else "A4")]
    chosen = ratio or usual_scale(scenario, sheet)
    try:
        printed = laid_out(scenario, arrangement, chosen, sheet, rank)
    except PaperError as error:
        raise click.UsageError(f"{error}; try --scale 1:50 or --paper A3") from None
    to = Delivery(plan, out or folder, "pdf")
    to.look()
    name = f"print-{rank}.pdf" if rank > 1 else "print.pdf"
    (file,) = to.put([(name, lambda path: save_booklet(printed_pages(printed), path))])
    pages = f"{printed.pages} pages of {sheet.name} at 1:{chosen}"
    say(f"{to.path / file}: {pages}.\nPrint it at 100% and measure the bars on the first page.")


def _asked(plan: str) -> tuple[Scenario, Arrangement | None, int, Path | None]:
    """The scenario, the arrangement if there is one, its number, and the folder it is in."""
    if plan == STDIN or plan.lower().endswith(".toml"):
        return scenario_from(plan), None, 1, None
    scenario, arrangement, path, rank = plan_from(plan)
    return scenario, arrangement, rank, path.parent
