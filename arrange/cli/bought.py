"""``--bought``: what was bought is written into a copy of the file, or into the file itself."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Generic, TypeVar

import click

from arrange.cli.common import STDIN, Command, Decorator, named_path, tables_from, text_from

if TYPE_CHECKING:
    from collections.abc import Callable

    from arrange.data.scenario import Scenario
    from arrange.scenario.editing import Edited, NewFile
    from arrange.scenario.needs import OpenScenario
    from arrange.scenario.recording import InPlace

Read = TypeVar("Read")  # a scenario, or one that leaves open what to have


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
        raise click.UsageError("give only one of --in-place and --write")
    if bought and file == STDIN and new_file is None:
        raise click.UsageError("what is piped in has no name: say where to record it with --write")


@dataclass(frozen=True)
class Purchase(Generic[Read]):
    """What was bought, understood and ready to be written: ``names`` of pieces, the ``file``.

    ``after`` is what the file says then.
    """

    after: Read
    names: tuple[str, ...]
    file: str
    record: NewFile | InPlace

    def write(self) -> None:
        """Write it down. OutputError if that cannot be done: nothing is lost then."""
        self.record.write()


def purchase(
    file: str, bought: tuple[str, ...], new_file: Path | None, *, in_place: bool
) -> Purchase[Scenario]:
    """What was bought for a scenario. ScenarioError and OutputError as long as all is as it was."""
    from arrange.scenario.read import read_data, read_text  # noqa: PLC0415
    from arrange.whatif.asking import Request, understood  # noqa: PLC0415

    text, data, before = tables_from(file)
    asked = understood(Request(bought=bought), before, data)
    record = _record(file, text, asked.tables, asked.after, read_text, new_file, in_place=in_place)
    after = read_data(asked.tables.data(), str(record.target))
    return Purchase(after, _come(before, after), str(record.target), record)


def purchase_in_open(
    file: str, bought: tuple[str, ...], new_file: Path | None, *, in_place: bool
) -> Purchase[OpenScenario]:
    """The same for a file that leaves open what to have: what was bought is chosen from now on."""
    from arrange.scenario.needs import read_open_data, read_open_text  # noqa: PLC0415
    from arrange.scenario.read import parsed  # noqa: PLC0415
    from arrange.whatif.asking import bought_in  # noqa: PLC0415

    text, name = text_from(file)
    data = parsed(text, name)
    before = read_open_data(data, name)
    tables = bought_in(bought, before.whole, data)
    again = read_open_data(tables.data(), name)
    record = _record(file, text, tables, again, read_open_text, new_file, in_place=in_place)
    after = read_open_data(tables.data(), str(record.target))
    return Purchase(after, _come(before.whole, after.whole), str(record.target), record)


def _come(before: Scenario, after: Scenario) -> tuple[str, ...]:
    there = {piece.name for piece in before.pieces if piece.owned}
    return tuple(p.name for p in after.pieces if p.owned and p.name not in there)


def _record(
    file: str,
    text: str,
    tables: Edited,
    after: Scenario | OpenScenario,
    reads: Callable[[str, str], object],
    new_file: Path | None,
    *,
    in_place: bool,
) -> NewFile | InPlace:
    from arrange.scenario.editing import NewFile  # noqa: PLC0415
    from arrange.scenario.recording import InPlace, free_copy  # noqa: PLC0415

    if in_place:
        return InPlace(Path(file), text, tables, after, reads)
    return NewFile(new_file or free_copy(Path(file)), text, tables, after, reads)
