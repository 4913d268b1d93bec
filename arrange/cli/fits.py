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
# s of the processor, at most: to begin; to end a question that is under way, say its words and end
BEFORE, AFTER = 0.3, 0.3
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
    them, what would it push aside, is there a proof against it? What is not decided in two seconds
    is "not known yet". Nothing is written.
    """
    clock = Clock()
    _, data, scenario = tables_from(file)
    from arrange.output.kept import read_kept  # noqa: PLC0415
    from arrange.whatif.asking import Request, pieces_asked, understood  # noqa: PLC0415
    from arrange.whatif.fits import fits as ask  # noqa: PLC0415
    from arrange.words.fits import words  # noqa: PLC0415

    to = Delivery(file, folder, "", as_json=as_json)
    asked = understood(Request(sizes=(size,)), scenario, data)
    names = pieces_asked(size, scenario)
    files = read_kept(to.path, scenario, names)
    left = clock.left(seconds)
    with stopped_by_ctrl_c() as stopped:
        found = ask(
            scenario,
            asked.after,
            names,
            files.kept,
            seconds=left,
            seed=seed,
            stop=stopped.is_set,
        )
    decides = f"arrange swap {shlex.quote(file)} {shlex.quote(size)}"

    def record() -> dict[str, object]:
        from arrange.output.sizes import fits_data  # noqa: PLC0415

        return fits_data(found, files.stale, files.unread)

    to.tell(record, lambda: words(found, decides, files.stale, files.unread))
    ctx.exit(EXIT[found.answer])


class Clock:
    """What is left of the time for an answer, on a machine that may have other work, too.

    Nobody tells the program how long it took to begin; but how much of the processor that took is
    known, and so is how much longer than the processor's share everything takes since.
    """

    def __init__(self) -> None:
        self._began, self._used = time.monotonic(), time.process_time()
        self._before = min(self._used, BEFORE)  # called by another program it is older than that

    def left(self, seconds: float) -> float:
        """Of so many seconds for the whole answer, at least ``LEAST``."""
        took = time.monotonic() - self._began
        used = time.process_time() - self._used
        slower = max(1.0, took / used) if used > 0 else 1.0
        return max(LEAST, seconds - took - slower * (self._before + AFTER))
