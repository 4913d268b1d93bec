"""What the texts for a terminal share: wrapping, the rows of reasons, where the files are."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from arrange.data.result import Reason
from arrange.words.reasons import reason_words

WIDEST = 100


def wrapped(text: str, first: str = "", rest: str | None = None) -> str:
    """Text wrapped to the terminal, 100 letters at most."""
    columns = shutil.get_terminal_size((WIDEST, 24)).columns if sys.stdout.isatty() else WIDEST
    indent = first if rest is None else rest
    return click.wrap_text(text, max(40, min(columns, WIDEST)), first, indent)


def reason_rows(won: Sequence[Reason], lost: Sequence[Reason]) -> list[str]:
    """A row for each reason, marked with + or -."""
    marked = [("+", one) for one in won] + [("-", one) for one in lost]
    return [wrapped(reason_words(one), f"   {mark} ", "     ") for mark, one in marked]


def where_words(folder: Path, files: Sequence[str]) -> list[str]:
    """The first picture and, last of the files, the one with every number; none without files."""
    if not files:
        return []
    *pictures, record = files
    if not pictures:
        return ["", f"Written: {folder / record}"]
    return ["", f"Picture: {folder / pictures[0]}; every number in {record}"]
