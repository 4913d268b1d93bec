"""The files that ``arrange swap`` writes.

The part of ``arrange swap`` that tries sizes: a ladder of them, or the exact largest.

``arrange swap``: does it still work with other pieces, and what gets better or worse.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import (
    Command,
    Decorator,
    Watch,
    folder_for,
    format_option,
    json_option,
    out_option,
    seed_option,
    stopped_by_ctrl_c,
    tables_from,
    time_option,
    wrapped,
)
from arrange.data.swap import Swap
from arrange.output.files import Folder, Maker

if TYPE_CHECKING:
    from arrange.data.scenario import Scenario
    from arrange.data.sizes import Ladder, Largest, Rung


def write_files(swap: Swap, folder: Folder, suffix: str) -> tuple[str, ...]:
    """The picture before and after if there is one, and ``swap.json``, last of all."""
    from arrange.draw import save  # noqa: PLC0415
    from arrange.draw.swap import before_after_sheet  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        SWAP,
        as_text,
        swap_data,
    )

    makers: list[tuple[str, Maker]] = []
    if any(a.works for r in (swap.free, swap.held) for a in (r.before, r.after)):
        sheet = before_after_sheet(swap)
        makers.append((f"before-after.{suffix}", lambda path: save(sheet, path)))
    names = (*(name for name, _ in makers), SWAP)
    data = as_text(swap_data(swap, names)).encode()
    folder.write([*makers, (SWAP, lambda path: path.write_bytes(data))])
    return names


SIZES_EXIT = {"exact": 0, "at least": 0, "impossible": 3, "not decided": 4}
REGIONS = ["eu", "uk", "us", "au"]


@dataclass(frozen=True, slots=True)
class Trial:
    """What was asked of sizes on the command line, and how to answer."""

    tried: str | None
    region: str | None
    largest_of: str | None
    seconds: float
    seed: int
    file: str
    out: Path | None
    suffix: str
    as_json: bool

    @property
    def empty(self) -> bool:
        """Whether nothing was asked of sizes."""
        return self.tried is None and self.largest_of is None


def size_options(command: Command) -> Command:
    """``--sizes``, ``--region`` and ``--largest``."""
    options: list[Decorator] = [
        click.option(
            "--sizes",
            "tried",
            metavar="PIECE[=FROM..TO/STEP]",
            help="Try the standard sizes of a piece, or a range of widths.",
        ),
        click.option(
            "--region",
            type=click.Choice(REGIONS),
            help="Whose mattresses. [default: us for a file in inches, else eu]",
        ),
        click.option(
            "--largest",
            "largest_of",
            metavar="PIECE=width|depth|height",
            help="The exact largest size that works.",
        ),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def try_sizes(scenario: Scenario, trial: Trial) -> int:
    """Answer, write the files, print; returns the exit code. ScenarioError as the asking."""
    if trial.tried is not None and trial.largest_of is not None:
        raise click.UsageError("--sizes or --largest, one at a time")
    return _ladder(scenario, trial) if trial.tried is not None else _largest(scenario, trial)


def _ladder(scenario: Scenario, trial: Trial) -> int:
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        LADDER,
        as_text,
        ladder_data,
    )
    from arrange.whatif.asking import sizes_asked  # noqa: PLC0415
    from arrange.whatif.ladder import ladder  # noqa: PLC0415

    piece, table = sizes_asked(trial.tried or "", trial.region, scenario)
    folder = _folder(trial)
    with stopped_by_ctrl_c() as stop, Watch("trying sizes") as watch:
        found = ladder(
            scenario,
            piece,
            table,
            seconds=trial.seconds,
            seed=trial.seed,
            say=watch.say,
            stop=stop.is_set,
        )
        names = (f"ladder.{trial.suffix}", LADDER)
        if isinstance(folder, Folder):
            from arrange.draw import save  # noqa: PLC0415
            from arrange.draw.ladder import ladder_sheet  # noqa: PLC0415

            watch.say("drawing")
            sheet, data = ladder_sheet(found), as_text(ladder_data(found, names)).encode()
            folder.write(
                [
                    (names[0], lambda path: save(sheet, path)),
                    (names[1], lambda path: path.write_bytes(data)),
                ]
            )
    if trial.as_json:
        written = names if isinstance(folder, Folder) else ()
        click.echo(as_text(ladder_data(found, written)), nl=False)
    else:
        click.echo(_ladder_text(found, trial))
        click.echo(f"\nPicture: {_path(folder) / names[0]}; every number in {names[1]}")
    if found.largest is not None:
        return 0
    return 4 if found.undecided else 3


def _largest(scenario: Scenario, trial: Trial) -> int:
    from arrange.output.files import Folder  # noqa: PLC0415
    from arrange.output.records import (  # noqa: PLC0415
        LARGEST,
        as_text,
        largest_data,
    )
    from arrange.whatif.asking import dimension_asked  # noqa: PLC0415
    from arrange.whatif.largest import largest  # noqa: PLC0415
    from arrange.words.sizes import largest_words  # noqa: PLC0415

    piece, dimension = dimension_asked(trial.largest_of or "", scenario)
    folder = _folder(trial)
    with stopped_by_ctrl_c() as stop, Watch("the largest size") as watch:
        found = largest(
            scenario,
            piece,
            dimension,
            seconds=trial.seconds,
            seed=trial.seed,
            say=watch.say,
            stop=stop.is_set,
        )
        makers: list[tuple[str, Maker]] = []
        if isinstance(folder, Folder) and found.arrangement is not None:
            from arrange.draw import save  # noqa: PLC0415
            from arrange.draw.ladder import largest_sheet  # noqa: PLC0415

            watch.say("drawing")
            sheet = largest_sheet(found)
            makers.append((f"largest.{trial.suffix}", lambda path: save(sheet, path)))
        names = (*(name for name, _ in makers), LARGEST)
        if isinstance(folder, Folder):
            data = as_text(largest_data(found, scenario, names)).encode()
            folder.write([*makers, (LARGEST, lambda path: path.write_bytes(data))])
    if trial.as_json:
        written = names if isinstance(folder, Folder) else ()
        click.echo(as_text(largest_data(found, scenario, written)), nl=False)
    else:
        _say_largest(found, scenario, largest_words(found, scenario))
        shown = f"Picture: {_path(folder) / names[0]}; every number in " if makers else "Written: "
        click.echo(f"\n{shown}{names[-1] if makers else _path(folder) / names[-1]}")
    return SIZES_EXIT[found.answer]


def _say_largest(found: Largest, scenario: Scenario, sentence: str) -> None:
    from arrange.data.lengths import length  # noqa: PLC0415

    own: int = getattr(scenario.piece(found.piece), found.dimension)
    click.echo(f"{scenario.title}\n\n{wrapped(sentence)}")
    click.echo(wrapped(f"In your file it is {length(own, scenario.unit)}; all else may move."))


def _folder(trial: Trial) -> object:
    """The folder to write to, looked at before the work; None where only JSON is printed."""
    from arrange.output.files import Folder  # noqa: PLC0415

    if trial.as_json and trial.out is None:
        return None
    return Folder(folder_for(trial.file, trial.out))


def _path(folder: object) -> Path:
    path: Path = getattr(folder, "path", Path())
    return path


def _ladder_text(found: Ladder, trial: Trial) -> str:
    from arrange.whatif.asking import region_words  # noqa: PLC0415
    from arrange.words.sizes import ladder_words, meaning, scale_words  # noqa: PLC0415

    parts = [found.scenario.title, "", *map(wrapped, ladder_words(found)), ""]
    parts += _table(found)
    parts += ["", wrapped(f"{meaning(found)}.")]
    if scales := scale_words(found):
        parts.append(wrapped(f"Note: {scales}."))
    if "mattress sizes" in found.table.title:
        parts.append(wrapped(f"Note: {region_words(trial.region, found.scenario)}."))
    parts += [wrapped(f"Note: {note}.") for note in found.table.notes]
    return "\n".join(parts)


def _table(found: Ladder) -> list[str]:
    """One line a size: what it is outside, whether it works, comfortably, its best score."""
    from arrange.words.sizes import COMFORTABLE, WORKS, outside  # noqa: PLC0415

    head = ("size", "outside", "works", "comfortably", "best score", "others comfortable")
    rows = [head]
    for rung in found.rungs:
        scored = rung.verdict is not None
        others = f"{rung.others[0]} of {rung.others[1]}" if scored else "-"
        rows.append(
            (
                rung.size.label,
                outside(rung, found.scenario.unit),
                WORKS[rung.works],
                "-" if rung.works == "impossible" else COMFORTABLE[rung.comfortable],
                _score(rung),
                others,
            )
        )
    widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def _score(rung: Rung) -> str:
    from arrange.data.lengths import points  # noqa: PLC0415

    if rung.score is None:
        return "-"
    return points(rung.score) if rung.proven else f"{points(rung.score)} or more"


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
    from arrange.whatif.asking import Request, understood  # noqa: PLC0415
    from arrange.whatif.swap import swap as search  # noqa: PLC0415

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
        from arrange.scenario.editing import NewFile  # noqa: PLC0415

        written = NewFile(new_file, text, asked.tables, asked.after)
    from arrange.output.files import Folder  # noqa: PLC0415

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
        from arrange.output.records import as_text, swap_data  # noqa: PLC0415

        click.echo(as_text(swap_data(answer, files)), nl=False)
    else:
        from arrange.words.swap import words  # noqa: PLC0415

        click.echo(words(answer, folder.path if folder else Path(), files))
        if new_file is not None:
            click.echo(f"The changed scenario: {new_file}")
    ctx.exit(EXIT[answer.answer])
