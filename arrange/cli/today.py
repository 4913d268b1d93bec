"""``arrange today``: the room as it stands now, judged, scored and drawn."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import (
    folder_for,
    format_option,
    json_option,
    out_option,
    scenario_from,
    wrapped,
)

if TYPE_CHECKING:
    from arrange.data.swap import Today


@click.command(epilog="Example: arrange today bedroom.toml")
@click.argument("file", metavar="FILE")
@out_option
@format_option
@json_option("today.json")
def today(file: str, out: Path | None, suffix: str, as_json: bool) -> None:
    """Judge and draw the room of FILE as it stands now.

    Says what does not work today, if anything, and what earns and loses points. The pieces need
    stands_now in the file (scenarios/README.md); those without it are left out. This is a report:
    the exit code is 0 whatever it finds. Writes a sheet (today) and every number (today.json).
    """
    scenario = scenario_from(file)
    from arrange.draw import save  # noqa: PLC0415
    from arrange.draw.sheet import today_sheet  # noqa: PLC0415
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        TODAY,
        as_text,
        today_data,
    )
    from arrange.whatif.today import assess_today  # noqa: PLC0415

    folder = None if as_json and out is None else Folder(folder_for(file, out))
    assessed = assess_today(scenario)
    names: tuple[str, ...] = ()
    if folder is not None:
        names = (f"today.{suffix}", TODAY)
        sheet = today_sheet(assessed)
        data = as_text(today_data(assessed, names)).encode()
        folder.write(
            [
                (names[0], lambda path: save(sheet, path)),
                (names[1], lambda path: path.write_bytes(data)),
            ]
        )
    if as_json:
        click.echo(as_text(today_data(assessed, names)), nl=False)
        return
    click.echo(words(assessed))
    if folder is not None:
        click.echo(f"\nPicture: {folder.path / names[0]}; every number in {TODAY}")


def words(assessed: Today) -> str:
    """What is broken, the score, the best and worst reasons, what was left out."""
    from arrange.data.lengths import points  # noqa: PLC0415
    from arrange.words.swap import today_words  # noqa: PLC0415

    lines = [f"{assessed.scenario.title}, as it stands today", "", wrapped(today_words(assessed))]
    lines += [wrapped(b.sentence, "   ! ", "     ") for b in assessed.verdict.breaches]
    from arrange.words.reasons import choose  # noqa: PLC0415

    chosen = choose(assessed.verdict.reasons, 6)
    for mark, reasons in (("+", chosen.won[:3]), ("-", chosen.lost[:3])):
        for one in reasons:
            told = f"{one.sentence} ({points(one.won)} of {points(one.possible)})"
            lines.append(wrapped(told, f"   {mark} ", "     "))
    return "\n".join(lines)
