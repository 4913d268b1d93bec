"""``arrange today``: the room as it stands now, judged, scored and drawn."""

from __future__ import annotations

from pathlib import Path

import click

from arrange.cli.common import Delivery, format_option, json_option, out_option, scenario_from


@click.command(epilog="Example: arrange today bedroom.toml")
@click.argument("file", metavar="FILE")
@out_option()
@format_option
@json_option("today.json")
def today(file: str, out: Path | None, suffix: str, as_json: bool) -> None:
    """Judge and draw the room of FILE as it stands now.

    Says what does not work today, if anything, and what earns and loses points. The pieces need
    stands_now in the file (scenarios/README.md); those without it are left out. This is a report:
    the exit code is 0 whatever it finds. Writes a sheet (today) and every number (today.json).
    """
    scenario = scenario_from(file)
    from arrange.draw.sheet import today_sheet  # noqa: PLC0415
    from arrange.output.records import TODAY, today_data  # noqa: PLC0415
    from arrange.whatif.today import assess_today  # noqa: PLC0415
    from arrange.words.swap import words_of_today  # noqa: PLC0415

    to = Delivery(file, out, suffix, as_json=as_json)
    to.look()
    assessed = assess_today(scenario)
    sheets = {"today": lambda: today_sheet(assessed)}
    files = to.write(sheets, (TODAY, lambda names: today_data(assessed, names)))
    to.tell(lambda: today_data(assessed, files), lambda: words_of_today(assessed, to.path, files))
