"""``arrange fits``: would this piece do? An answer at once, from what earlier runs kept."""

from __future__ import annotations

import shlex
import time
from pathlib import Path

import click

from arrange.cli.common import (
    EXIT,
    Delivery,
    named_path,
    seed_option,
    stopped_by_ctrl_c,
    tables_from,
    time_option,
)

SECONDS = 2.0
AROUND = 0.3  # s that the program takes to begin, to say its words, and to end
LEAST = 0.01  # s


@click.command(epilog="Example: arrange fits bedroom.toml bed=180x210")
@click.argument("file", metavar="FILE")
@click.argument("size", metavar="PIECE=WIDTHxDEPTH[xHEIGHT]")
@click.option(
    "--plans",
    "folder",
    type=str,
    callback=named_path,
    metavar="DIR",
    help="Folder with what earlier runs kept. [default: <name of FILE>-plans]",
)
@time_option(SECONDS, "How long the whole answer may take.")
@seed_option
@click.option("--json", "as_json", is_flag=True, help="Print the answer as data, not in words.")
@click.pass_context
def fits(
    ctx: click.Context,
    file: str,
    size: str,
    folder: Path | None,
    seconds: float,
    seed: int,
    as_json: bool,
) -> None:
    """Hear at once whether a piece of another size still works in FILE.

    For the shop: bed=180x210, or "bed=4 ft 11 in x 6 ft 8 in". It starts from the plans and the
    proofs that arrange suggest, shop and swap --largest kept: does the piece stand in one of
    them, what would it push aside, is a proof against it? What is not decided in two seconds is
    "not known yet". Nothing is written.
    """
    began = time.monotonic()
    _, data, scenario = tables_from(file)
    from arrange.output.kept import read_kept  # noqa: PLC0415
    from arrange.whatif.asking import Request, pieces_asked, understood  # noqa: PLC0415
    from arrange.whatif.fits import fits as ask  # noqa: PLC0415
    from arrange.words.fits import words  # noqa: PLC0415

    to = Delivery(file, folder, "", as_json=as_json)
    asked = understood(Request(sizes=(size,)), scenario, data)
    names = pieces_asked(size, scenario)
    files = read_kept(to.path, scenario, names)
    left = seconds - (time.monotonic() - began) - AROUND
    with stopped_by_ctrl_c() as stopped:
        found = ask(
            scenario,
            asked.after,
            names,
            files.kept,
            seconds=max(left, LEAST),
            seed=seed,
            stop=stopped.is_set,
        )
    decides = f"arrange swap {shlex.quote(file)} {shlex.quote(size)}"

    def record() -> dict[str, object]:
        from arrange.output.sizes import fits_data  # noqa: PLC0415

        return fits_data(found, files.stale, files.unread)

    to.tell(record, lambda: words(found, decides, files.stale, files.unread))
    ctx.exit(EXIT[found.answer])
