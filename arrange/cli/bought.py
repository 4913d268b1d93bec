"""``--bought``: what was bought is written into a copy of the file, or into the file itself."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.cli.common import STDIN, Command, Decorator, named_path, tables_from, text_from

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from arrange.data.scenario import Scenario
    from arrange.scenario.editing import Edited
    from arrange.scenario.needs import OpenScenario


def bought_options(command: Command) -> Command:
    """``--bought``, and where it is recorded: ``--write`` or ``--in-place``."""
    options: list[Decorator] = [
        click.option(
            "--bought",
            multiple=True,
            metavar="PIECE[=WIDTHxDEPTH[xHEIGHT]],SUM",
            help="You have it now, in this size, for this sum; may be given several times.",
        ),
        click.option(
            "--write",
            "new_file",
            type=str,
            callback=named_path,
            metavar="NEWFILE",
            help="The copy in which --bought is recorded. [default: <name of FILE>-bought.toml]",
        ),
        click.option("--in-place", is_flag=True, help="Record it in FILE itself, not in a copy."),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def check_bought(
    file: str, bought: tuple[str, ...], new_file: Path | None, *, in_place: bool
) -> None:
    """UsageError for options that do not go together."""
    if not bought and (new_file is not None or in_place):
        raise click.UsageError("--write and --in-place say where to record what was --bought")
    if in_place and new_file is not None:
        raise click.UsageError("--in-place or --write, one of the two")
    if bought and file == STDIN and new_file is None:
        raise click.UsageError("what is piped in has no name: say where to record it with --write")


def recorded(
    file: str, bought: tuple[str, ...], new_file: Path | None, *, in_place: bool
) -> tuple[Scenario, tuple[str, ...]]:
    """Write down what was bought; the scenario that says so, and the names of the pieces.

    ScenarioError and OutputError before anything is written.
    """
    from arrange.scenario.read import read_text  # noqa: PLC0415
    from arrange.whatif.asking import Request, understood  # noqa: PLC0415

    text, data, before = tables_from(file)
    asked = understood(Request(bought=bought), before, data)
    target = _written(file, text, asked.tables, asked.after, read_text, new_file, in_place=in_place)
    return replace(asked.after, source_file=target), _come(before, asked.after)


def recorded_in_open(
    file: str, bought: tuple[str, ...], new_file: Path | None, *, in_place: bool
) -> tuple[OpenScenario, tuple[str, ...]]:
    """The same for a file that leaves open what to have: what was bought is chosen from now on."""
    from arrange.scenario.needs import read_open, read_open_data, read_open_text  # noqa: PLC0415
    from arrange.scenario.read import parsed  # noqa: PLC0415
    from arrange.whatif.asking import bought_in  # noqa: PLC0415

    text, name = text_from(file)
    data = parsed(text, name)
    before = read_open_data(data, name)
    tables = bought_in(bought, before.whole, data)
    after = read_open_data(tables.data(), name)
    target = _written(file, text, tables, after, read_open_text, new_file, in_place=in_place)
    return read_open(target), _come(before.whole, after.whole)


def _come(before: Scenario, after: Scenario) -> tuple[str, ...]:
    there = {piece.name for piece in before.pieces if piece.owned}
    return tuple(p.name for p in after.pieces if p.owned and p.name not in there)


def _written(
    file: str,
    text: str,
    tables: Edited,
    after: Any,  # noqa: ANN401  what ``reads`` returns
    reads: Callable[[str, str], object],
    new_file: Path | None,
    *,
    in_place: bool,
) -> str:
    """The file in which it is recorded by now."""
    from arrange.scenario.editing import NewFile  # noqa: PLC0415
    from arrange.scenario.recording import InPlace, free_copy  # noqa: PLC0415

    record = (
        InPlace(Path(file), text, tables, after, reads)
        if in_place
        else NewFile(new_file or free_copy(Path(file)), text, tables, after, reads)
    )
    record.write()
    return str(record.target)
