"""The part of ``arrange swap`` that tries sizes: a ladder of them, or the exact largest."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import Command, Decorator, folder_for, stopped_by_ctrl_c, wrapped
from arrange.cli.watching import Watch

if TYPE_CHECKING:
    from arrange.data.ladder import Ladder, Rung
    from arrange.data.largest import Largest
    from arrange.data.scenario import Scenario

EXIT = {"exact": 0, "at least": 0, "impossible": 3, "not decided": 4}
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
    from arrange.output import Folder  # noqa: PLC0415
    from arrange.results import as_text  # noqa: PLC0415
    from arrange.results.ladder import LADDER, ladder_data  # noqa: PLC0415
    from arrange.whatif.sizes.ladder import ladder  # noqa: PLC0415
    from arrange.whatif.sizes.sizes_asked import sizes_asked  # noqa: PLC0415

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
    from arrange.output import Folder, Maker  # noqa: PLC0415
    from arrange.results import as_text  # noqa: PLC0415
    from arrange.results.ladder import LARGEST, largest_data  # noqa: PLC0415
    from arrange.whatif.sizes.largest import largest  # noqa: PLC0415
    from arrange.whatif.sizes.size_words import largest_words  # noqa: PLC0415
    from arrange.whatif.sizes.sizes_asked import dimension_asked  # noqa: PLC0415

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
    return EXIT[found.answer]


def _say_largest(found: Largest, scenario: Scenario, sentence: str) -> None:
    from arrange.words import length  # noqa: PLC0415

    own: int = getattr(scenario.piece(found.piece), found.dimension)
    click.echo(f"{scenario.title}\n\n{wrapped(sentence)}")
    click.echo(wrapped(f"In your file it is {length(own, scenario.unit)}; all else may move."))


def _folder(trial: Trial) -> object:
    """The folder to write to, looked at before the work; None where only JSON is printed."""
    from arrange.output import Folder  # noqa: PLC0415

    if trial.as_json and trial.out is None:
        return None
    return Folder(folder_for(trial.file, trial.out))


def _path(folder: object) -> Path:
    path: Path = getattr(folder, "path", Path())
    return path


def _ladder_text(found: Ladder, trial: Trial) -> str:
    from arrange.whatif.sizes.size_words import ladder_words, meaning, scale_words  # noqa: PLC0415
    from arrange.whatif.sizes.sizes_asked import region_words  # noqa: PLC0415

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
    from arrange.whatif.sizes.size_words import COMFORTABLE, WORKS, outside  # noqa: PLC0415

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
    from arrange.words import points  # noqa: PLC0415

    if rung.score is None:
        return "-"
    return points(rung.score) if rung.proven else f"{points(rung.score)} or more"
