"""``arrange swap``: does it still work with other pieces, and what gets better or worse."""

from __future__ import annotations

from pathlib import Path

import click

from arrange.cli.common import (
    Decorator,
    folder_for,
    format_option,
    json_option,
    out_option,
    seed_option,
    stopped_by_ctrl_c,
    tables_from,
    time_option,
)
from arrange.cli.sizes import Trial, size_options, try_sizes
from arrange.cli.watching import Watch

EXIT = {"works": 0, "impossible": 3, "not decided": 4}


def repeated(option: str, metavar: str, text: str) -> Decorator:
    """An option that may be given several times; the parameter is its plain name."""
    name = option.removeprefix("--")
    parameter = {"kind": "other_kinds", "price": "prices"}.get(name, name)
    made: Decorator = click.option(option, parameter, multiple=True, metavar=metavar, help=text)
    return made


@click.command(
    epilog="Example: arrange swap bedroom.toml bed=180x210 --without rug --keep wardrobe"
)
@click.argument("file", metavar="FILE")
@click.argument("sizes", metavar="[PIECE=WIDTHxDEPTH[xHEIGHT]]...", nargs=-1)
@repeated("--kind", "PIECE=KIND", "Another kind of piece in its place, in the usual size.")
@repeated("--price", "PIECE=PRICE", "What it would cost.")
@repeated("--without", "PIECE", "Leave a piece out.")
@repeated("--add", "KIND[=WIDTHxDEPTH]", "One piece more.")
@repeated("--keep", "PIECE", "Stays where it stands now.")
@size_options
@click.option(
    "--write",
    "new_file",
    type=click.Path(path_type=Path),
    metavar="NEWFILE",
    help="Write the changed scenario as a new file.",
)
@out_option
@time_option(60.0, "How long to search at most.")
@seed_option
@format_option
@json_option("swap.json")
@click.pass_context
def swap(
    ctx: click.Context,
    file: str,
    sizes: tuple[str, ...],
    other_kinds: tuple[str, ...],
    prices: tuple[str, ...],
    without: tuple[str, ...],
    add: tuple[str, ...],
    keep: tuple[str, ...],
    tried: str | None,
    region: str | None,
    largest_of: str | None,
    new_file: Path | None,
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """Find out whether FILE still works with other pieces.

    Lengths count in the file's unit or carry their own: bed=180x210, "bed=4 ft 11 in x 6 ft 8 in".
    A name given to several alike pieces means all of them. Two answers are given: if everything
    else may move, and if nothing else moves. Writes the plans before and after side by side
    (before-after) and every number (swap.json, see scenarios/RESULT.md). FILE is never changed.

    With --sizes or --largest, which come after all other changes, one piece is tried in many
    sizes instead (ladder, largest).
    """
    from arrange.whatif.swap.asked import Request, understood  # noqa: PLC0415
    from arrange.whatif.swap.swapping import swap as search  # noqa: PLC0415

    text, data, scenario = tables_from(file)
    request = Request(sizes, other_kinds, prices, without, add, keep)
    trial = Trial(tried, region, largest_of, seconds, seed, file, out, suffix, as_json)
    if request.empty and trial.empty:
        raise click.UsageError("nothing to swap: say for instance bed=180x210 or --without rug")
    asked = understood(request, scenario, data)
    if not trial.empty:
        if keep or new_file is not None:
            raise click.UsageError("--keep and --write do not go with --sizes or --largest")
        ctx.exit(try_sizes(asked.after, trial))
    written = None
    if new_file is not None:
        from arrange.scenario.rewriting import NewFile  # noqa: PLC0415

        written = NewFile(new_file, text, asked.tables, asked.after)
    from arrange.cli.swap_files import write_files  # noqa: PLC0415
    from arrange.output import Folder  # noqa: PLC0415

    folder = None if as_json and out is None else Folder(folder_for(file, out))
    with stopped_by_ctrl_c() as stop, Watch("before and after") as watch:
        answer = search(
            scenario,
            asked.changes,
            keep=asked.keep,
            seconds=seconds,
            seed=seed,
            listener=watch,
            stop=stop.is_set,
        )
        watch.say("drawing the plans")
        files = write_files(answer, folder, suffix) if folder is not None else ()
        if written is not None:
            written.write()
    if as_json:
        from arrange.results import as_text  # noqa: PLC0415
        from arrange.results.swap import swap_data  # noqa: PLC0415

        click.echo(as_text(swap_data(answer, files)), nl=False)
    else:
        from arrange.cli.swap_words import words  # noqa: PLC0415

        click.echo(words(answer, folder.path if folder else Path(), files))
        if new_file is not None:
            click.echo(f"The changed scenario: {new_file}")
    ctx.exit(EXIT[answer.answer])
