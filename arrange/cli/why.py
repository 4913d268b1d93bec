"""``arrange why``: why nothing works, and what would have to give."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import (
    Watch,
    folder_for,
    format_option,
    json_option,
    out_option,
    scenario_from,
    seed_option,
    stopped_by_ctrl_c,
    time_option,
    whole,
)

if TYPE_CHECKING:
    from arrange.data.repair import Why
    from arrange.data.scenario import Scenario
    from arrange.output.files import Folder

EXIT = {"works": 0, "impossible": 3, "not decided": 4}


@click.command(epilog="Example: arrange why bedroom.toml --keep-as-is bed --keep-as-is walkway")
@click.argument("file", metavar="FILE")
@click.option(
    "--most",
    type=str,
    default="3",
    callback=whole(1, 9),
    show_default=True,
    metavar="N",
    help="How many clashes, and how many ways out, at most.",
)
@click.option(
    "--keep-as-is",
    "untouchable",
    multiple=True,
    metavar="NAME",
    help="A piece, door, window or fixture that no way out may touch, or walkway. "
    "May be given several times.",
)
@out_option
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

    Lists the smallest sets of things that cannot all hold that it finds, each with the sum that a
    tape can check: without any one of them an arrangement exists. Then the cheapest different
    changes that make it work. Writes a picture of each set (clash-1, ...), the ways out side by
    side (ways-out) and every number (why.json, see scenarios/RESULT.md). FILE is never changed.
    """
    scenario = scenario_from(file)
    check_names(scenario, untouchable)
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.whatif.why import why as explain  # noqa: PLC0415

    folder = None if as_json and out is None else Folder(folder_for(file, out))
    with stopped_by_ctrl_c() as asked, Watch("reading the room") as watch:
        answer = explain(
            scenario,
            most=most,
            seconds=seconds,
            seed=seed,
            untouchable=untouchable,
            listener=watch.say,
            stop=asked.is_set,
        )
        watch.say("drawing")
        works = answer.conflicts.answer == "works"
        files = () if folder is None or works else write_files(answer, folder, suffix)
    if as_json:
        from arrange.output.records import as_text, why_data  # noqa: PLC0415

        click.echo(as_text(why_data(answer, files)), nl=False)
    else:
        from arrange.words.why import words  # noqa: PLC0415

        click.echo(words(answer, folder.path if folder else Path(), files))
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
                f"{name} is not in the scenario; known are: {', '.join(known)}",
                param_hint="'--keep-as-is'",
            )


def write_files(answer: Why, folder: Folder, suffix: str) -> tuple[str, ...]:
    """A picture of each set that can be drawn, the ways out, and ``why.json``, last of all."""
    from functools import partial  # noqa: PLC0415

    from arrange.draw import save  # noqa: PLC0415
    from arrange.draw.conflict import conflict_sheet, drawable  # noqa: PLC0415
    from arrange.draw.repair import repair_sheet  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        WHY,
        as_text,
        why_data,
    )

    found = answer.conflicts
    sheets = [
        (f"clash-{i}.{suffix}", conflict_sheet(found.scenario, conflict, i, len(found.sets)))
        for i, conflict in enumerate(found.sets, start=1)
        if drawable(conflict)
    ]
    if answer.repairs is not None and answer.repairs.repairs:
        sheets.append((f"ways-out.{suffix}", repair_sheet(answer.repairs)))
    names = (*(name for name, _ in sheets), WHY)
    data = as_text(why_data(answer, names)).encode()
    makers = [(name, partial(save, sheet)) for name, sheet in sheets]
    folder.write([*makers, (WHY, lambda path: path.write_bytes(data))])
    return names
