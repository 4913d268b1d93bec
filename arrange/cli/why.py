"""``arrange why``: why nothing works, and what would have to give."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.budget import Budget
from arrange.cli.common import (
    EXIT,
    Delivery,
    count_option,
    format_option,
    json_option,
    out_option,
    scenario_from,
    seed_option,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.data.repair import Why
    from arrange.data.scenario import Scenario


@click.command(epilog="Example: arrange why bedroom.toml --keep-as-is bed --keep-as-is walkway")
@click.argument("file", metavar="FILE")
@count_option("--most", 3, 9, "How many clashes, and how many ways out, at most.")
@click.option(
    "--keep-as-is",
    "untouchable",
    multiple=True,
    metavar="NAME",
    help="A piece, door, window, fixture or the walkway that no way out may change. "
    "May be given several times.",
)
@out_option()
@time_option(60.0, "How long to search at most.")
@seed_option
@format_option
@json_option("why.json")
@click.pass_context
def why(
    ctx: click.Context,
    file: str,
    most: int,
    untouchable: tuple[str, ...],
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """Say why nothing works in FILE, and what would have to give.

    Lists the smallest sets it finds of things you cannot all have, each with a sum that you can
    check with the tape: without any one of them there is an arrangement. Then the smallest
    changes that make it work. Writes a picture of each set (clash-1, ...), the ways out side by
    side (ways-out) and every number (why.json, see scenarios/RESULT.md). FILE is never changed.
    """
    clock = Budget(seconds)
    scenario = scenario_from(file)
    check_names(scenario, untouchable)
    from arrange.output.records import why_data  # noqa: PLC0415
    from arrange.whatif.why import why as explain  # noqa: PLC0415
    from arrange.words.why import words  # noqa: PLC0415

    to = Delivery(file, out, suffix, as_json=as_json)
    to.look()
    with watching("reading the room") as watch:
        answer = explain(
            scenario,
            most=most,
            seconds=to.time(clock, 2 * most),
            seed=seed,
            untouchable=untouchable,
            listener=watch.say,
            stop=watch.stop,
        )
        watch.say("drawing")
        files = () if answer.conflicts.answer == "works" else written(answer, to)
    to.tell(lambda: why_data(answer, files), lambda: words(answer, to.path, files))
    ctx.exit(EXIT[answer.conflicts.answer])


def check_names(scenario: Scenario, names: tuple[str, ...]) -> None:
    """UsageError with what is known, if a name is none of the scenario's."""
    room = scenario.room
    known = [n for p in scenario.pieces for n in (p.name, p.model)]
    known += [d.name for d in room.doors] + [w.name for w in room.windows]
    known += [f.name for f in room.fixtures]
    known = [*dict.fromkeys(known), "walkway"]
    for name in names:
        if name not in known:
            raise click.BadParameter(
                f"{name} is not in the file; there are {', '.join(known)}",
                param_hint="'--keep-as-is'",
            )


def written(answer: Why, to: Delivery) -> tuple[str, ...]:
    """A picture of each set that can be drawn, the ways out, and ``why.json``, last of all."""
    if to.folder is None:
        return ()
    from arrange.draw.why import (  # noqa: PLC0415
        conflict_sheet,
        drawable,
        repair_sheet,
    )
    from arrange.output.records import WHY, why_data  # noqa: PLC0415

    found = answer.conflicts
    sheets: dict[str, Callable[[], Figure]] = {
        f"clash-{i}": partial(conflict_sheet, found.scenario, conflict, i, len(found.sets))
        for i, conflict in enumerate(found.sets, start=1)
        if drawable(conflict)
    }
    repairs = answer.repairs
    if repairs is not None and repairs.repairs:
        sheets["ways-out"] = partial(repair_sheet, repairs)
    return to.write(sheets, (WHY, lambda names: why_data(answer, names)))
