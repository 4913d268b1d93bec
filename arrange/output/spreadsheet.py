"""A comparison for a spreadsheet: ``compare.csv``."""

from __future__ import annotations

import csv
import io

from arrange.data.comparison import LETTERS, Comparison
from arrange.output.fields import in_points
from arrange.words.slack import line_words


def compare_csv(comparison: Comparison) -> str:
    """The comparison for a spreadsheet: one row a reason, one column an option.

    Commas between, points as decimals, lines ended by CR LF as spreadsheets expect.
    What an option is not asked is left empty. Texts that a spreadsheet would take for
    a formula get an apostrophe before them.
    """
    out = io.StringIO()
    table = csv.writer(out)
    options = comparison.options

    def write(*cells: object) -> None:
        table.writerow([_safe(c) for c in cells])

    write("what", "about", "of points", *LETTERS[: len(options)])
    write("option", "", "", *(o.asked for o in options))
    write("title", "", "", *(o.scenario.title for o in options))
    write("state", "", "", *(o.state for o in options))
    write("from", "", "", *(o.origin for o in options))
    write("score", "", 100, *(in_points(o.score) for o in options))
    write("at most", "", 100, *(in_points(o.at_most) for o in options))
    write("to buy", "", "", *(o.cost.total for o in options))
    write("pieces to buy without a price", "", "", *(len(o.cost.unpriced) for o in options))
    for number in range(max((len(o.spare) for o in options), default=0)):
        spare = [next(iter(o.spare[number:]), None) for o in options]
        where = [
            "" if s is None else line_words(s, o.scenario.unit)
            for s, o in zip(spare, options, strict=True)
        ]
        write("room to spare, mm", f"line {number + 1}", "", *(s and s.mm for s in spare))
        write("", "where", "", *where)
    for row in comparison.rows:
        possible = {r.possible for r in row.reasons if r is not None}
        same = in_points(possible.pop()) if len(possible) == 1 else "differs"
        won = (r and in_points(r.won) for r in row.reasons)
        about = ", ".join(filter(None, (*row.subjects, row.part)))
        write(row.title, about, same, *won)
    return out.getvalue()


def _safe(cell: object) -> object:
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@") else cell
