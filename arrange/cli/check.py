"""``arrange check``: is the file right, is the room as measured, does each piece fit alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import (
    Watch,
    folder_for,
    format_option,
    out_option,
    scenario_from,
    stopped_by_ctrl_c,
    time_option,
    wrapped,
)

if TYPE_CHECKING:
    from arrange.whatif.check import Checked


@click.command(epilog="Example: arrange check bedroom.toml --out bedroom-plans")
@click.argument("file", metavar="FILE")
@out_option
@time_option(30.0, "How long to look at the pieces at most.")
@format_option
@click.pass_context
def check(ctx: click.Context, file: str, out: Path | None, seconds: float, suffix: str) -> None:
    """Check FILE and draw the empty room as measured.

    FILE is a scenario (scenarios/README.md); - reads it from stdin. Every slip in it is listed.
    The picture (survey) has every dimension, to compare with the tape. Each piece is tried alone
    in the empty room with the floor it needs; one that finds no place there can never fit.
    """
    scenario = scenario_from(file)
    from arrange.draw import save, survey_sheet  # noqa: PLC0415
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.whatif.check import check as look  # noqa: PLC0415

    folder = Folder(folder_for(file, out))
    name = f"survey.{suffix}"
    with stopped_by_ctrl_c() as asked, Watch("trying each piece alone"):
        checked = look(scenario, seconds=seconds, stop=asked.is_set)
        sheet = survey_sheet(scenario, checked.impossible)
        folder.write([(name, lambda path: save(sheet, path))])
    click.echo(words(checked))
    click.echo(f"\nPicture: {folder.path / name}")
    ctx.exit(exit_code(checked))


def exit_code(checked: Checked) -> int:
    """3 if something is proven not to fit, 4 if something was not decided, else 0."""
    if checked.impossible:
        return 3
    return 0 if checked.fine else 4


def words(checked: Checked) -> str:
    """What was found, in sentences."""
    from arrange.data.lengths import listed  # noqa: PLC0415

    lines = [checked.scenario.title, ""]
    if checked.fine:
        fine = (
            "The file is in order, and each piece by itself fits in the empty room. Whether all of "
            "them fit together, arrange suggest finds out."
        )
        lines.append(wrapped(fine))
    if checked.impossible:
        lines.append("Cannot fit whatever happens, proven:")
        lines += [wrapped(sentence, "- ", "  ") for sentence in checked.impossible]
    rest = [f.sentence for f in checked.findings if f.answer not in ("fits", "cannot fit")]
    if any(rest):
        lines += ["", "Not tried, or not decided:"]
        lines += [wrapped(sentence, "- ", "  ") for sentence in rest if sentence]
    assumed = [p.name for p in checked.scenario.pieces if p.assumed]
    if assumed:
        told = (
            "Width and depth are not both in the file, so the usual ones of the kind are taken for"
        )
        lines += ["", wrapped(f"{told}: {listed(assumed)}. Measure them.")]
    return "\n".join(lines)
