"""``arrange compare``: two to six options side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import (
    Watch,
    format_option,
    json_option,
    out_option,
    seed_option,
    stopped_by_ctrl_c,
    time_option,
)

if TYPE_CHECKING:
    from arrange.data.comparison import Comparison
    from arrange.output.files import Maker

DATA, TABLE, FOLDER = "compare.json", "compare.csv", "compare-plans"


@click.command(epilog="Example: arrange compare bedroom.toml:today bedroom.toml bigger-bed.toml")
@click.argument("options", metavar="OPTION OPTION...", nargs=-1)
@out_option
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

    An OPTION is a scenario file, whose best arrangement is searched; FILE:today, where things
    stand today; or the result.json of an earlier run, or its folder, with #2 for its second
    arrangement. Writes one sheet with all plans at one scale (compare), every number (compare.json,
    see scenarios/RESULT.md) and a table for a spreadsheet (compare.csv), to compare-plans unless
    --out names another folder.
    """
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.output.records import as_text, compare_data  # noqa: PLC0415
    from arrange.whatif.compare import compare as search  # noqa: PLC0415
    from arrange.whatif.compare import gathered  # noqa: PLC0415

    asked = gathered(options)
    folder = None if as_json and out is None else Folder(out or Path(FOLDER))
    files: tuple[str, ...] = ()
    with stopped_by_ctrl_c() as stop, Watch("looking at the options") as watch:
        found = search(asked, seconds=seconds, seed=seed, listener=watch, stop=stop.is_set)
        if folder is not None:
            watch.say("drawing the plans")
            files = (f"compare.{suffix}", TABLE)
            folder.write(_makers(found, files))
    if as_json:
        click.echo(as_text(compare_data(found, files)), nl=False)
    else:
        from arrange.words.compare import words  # noqa: PLC0415

        click.echo(words(found, folder.path if folder else Path(), files))
    ctx.exit(exit_code(found))


def exit_code(comparison: Comparison) -> int:
    """0 if at least one option works, 3 if all are proven impossible, else 4."""
    if comparison.works:
        return 0
    return 3 if all(o.state == "impossible" for o in comparison.options) else 4


def _makers(comparison: Comparison, files: tuple[str, ...]) -> list[tuple[str, Maker]]:
    """The sheet, the table and, last of all, ``compare.json``."""
    from arrange.draw import save  # noqa: PLC0415
    from arrange.draw.comparison import comparison_sheet  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        as_text,
        compare_csv,
        compare_data,
    )

    sheet = comparison_sheet(comparison)
    table, data = compare_csv(comparison), as_text(compare_data(comparison, files))
    return [
        (files[0], lambda path: save(sheet, path)),
        (TABLE, lambda path: path.write_bytes(table.encode("utf-8-sig"))),
        (DATA, lambda path: path.write_bytes(data.encode())),
    ]
