"""The table that a terminal shows of a comparison, 100 columns at most."""

from __future__ import annotations

import textwrap
from pathlib import Path

from arrange.cli.common import WIDEST, wrapped
from arrange.data.comparison import LETTERS, Comparison
from arrange.whatif.compare import (
    NOT_ASKED,
    by_difference,
    cell_words,
    cost_words,
    gap_words,
    rest_words,
    row_label,
    score_words,
    state_words,
)

CELL = 13  # letters of a column; two are for the mark and the space before it
SHOWN = 15  # rows of reasons in the table; all are in compare.csv


def words(comparison: Comparison, folder: Path, files: tuple[str, ...]) -> str:
    """The options with their letters, the rows in which they differ, where the files are."""
    lines: list[str] = []
    if comparison.interrupted:
        lines += ["Stopped when you asked: what was not searched by then is missing.", ""]
    for letter, option in zip(LETTERS, comparison.options, strict=False):
        unit = option.scenario.unit
        lines.append(wrapped(f"{letter}  {option.asked}: {option.scenario.title}", "", "   "))
        lines.append(wrapped(state_words(option), "   "))
        lines += [wrapped(note, "   ") for note in option.notes]
        if option.arrangement is None:
            continue
        lines.append(wrapped(f"still to buy: {cost_words(option)}", "   "))
        lines.append(wrapped(f"tightest gap: {gap_words(option)}", "   "))
        lines += [wrapped(s.sentence(unit), "   spare: ", "     ") for s in option.spare[:1]]
    lines += ["", *_table(comparison)]
    if comparison.remark:
        lines += ["", wrapped(comparison.remark)]
    where = f"Picture: {folder / files[0]}; for a spreadsheet {files[1]}" if files else ""
    return "\n".join([*lines, "", wrapped(where)] if where else lines)


def _table(comparison: Comparison) -> list[str]:
    options, one_scale = comparison.options, comparison.one_scale
    label = min(46, WIDEST - CELL * len(options))
    lines = _row(label, "", list(LETTERS[: len(options)]), ())
    lines += _row(label, "Score, of 100", [score_words(o) for o in options], comparison.best)
    rows, alike, alone = by_difference(comparison.rows)
    for row in rows[:SHOWN]:
        cells = [cell_words(r, one_scale=one_scale).replace(" of ", "/") for r in row.reasons]
        lines += _row(label, row_label(row), cells, row.best)
    lines.append(wrapped("> is the better one in its row, by the share of the points."))
    if any(r is None for row in rows[:SHOWN] for r in row.reasons):
        lines.append(
            wrapped(f"{NOT_ASKED} is not asked of that option, or there is no arrangement.")
        )
    rest = rest_words(max(0, len(rows) - SHOWN), alike, alone)
    return [*lines, wrapped(rest)] if rest else lines


def _row(label: int, name: str, cells: list[str], best: tuple[int, ...]) -> list[str]:
    """One row; a long name goes on below it."""
    first, *more = textwrap.wrap(name, label - 1) or [""]
    marked = (f"{'>' if i in best else ' '}{cell}" for i, cell in enumerate(cells))
    line = f"{first:<{label}}" + "".join(f"{cell:>{CELL}}" for cell in marked)
    return [line.rstrip(), *(f"  {part}" for part in more)]
