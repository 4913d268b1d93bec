"""A comparison as data: ``compare.json`` and ``compare.csv``. Lengths in mm, points 0 to 100."""

from __future__ import annotations

import csv
import io
from typing import Any

from arrange.data.compared import LETTERS, Comparison, Option, Row
from arrange.results import FORMAT, points, reason_data, versions
from arrange.results.pieces import gap_data, placement_data
from arrange.results.spare import spare_data


def compare_data(comparison: Comparison, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a comparison; ``files`` are the names of what was written beside it."""
    return {
        "format": FORMAT,
        "works": comparison.works,
        "one_scale": comparison.one_scale,
        "remark": comparison.remark,
        "best": [LETTERS[i] for i in comparison.best],
        "interrupted": comparison.interrupted,
        "versions": versions(),
        "files": list(files),
        "options": [_option(LETTERS[i], o) for i, o in enumerate(comparison.options)],
        "rows": [_row(row) for row in comparison.rows],
    }


def _option(letter: str, option: Option) -> dict[str, Any]:
    scenario = option.scenario
    placed = option.arrangement.placements if option.arrangement else ()
    return {
        "option": letter,
        "asked": option.asked,
        "title": scenario.title,
        "unit": scenario.unit,
        "origin": option.origin,
        "state": option.state,
        "works": option.works,
        "score": None if option.score is None else points(option.score),
        "at_most": None if option.at_most is None else points(option.at_most),
        "broken": list(option.broken),
        "notes": list(option.notes),
        "to_buy": option.cost.total,
        "without_price": list(option.cost.unpriced),
        "tightest_gaps": [gap_data(g) for g in option.gaps],
        "spare": [spare_data(s, scenario.unit) for s in option.spare],
        "placements": [{"piece": p.piece, **placement_data(scenario.room, p)} for p in placed],
    }


def _row(row: Row) -> dict[str, Any]:
    return {
        "rule": row.rule,
        "title": row.title,
        "subjects": list(row.subjects),
        "part": row.part,
        "best": [LETTERS[i] for i in row.best],
        "reasons": [None if r is None else reason_data(r) for r in row.reasons],
    }


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
    write("score", "", 100, *(_points(o.score) for o in options))
    write("at most", "", 100, *(_points(o.at_most) for o in options))
    write("to buy", "", "", *("" if o.cost.total is None else o.cost.total for o in options))
    write("pieces to buy without a price", "", "", *(len(o.cost.unpriced) for o in options))
    for number in range(max((len(o.spare) for o in options), default=0)):
        told = [o.spare[number] if number < len(o.spare) else None for o in options]
        write("room to spare, mm", f"line {number + 1}", "", *(s.mm if s else "" for s in told))
        write("", "where", "", *(s.line if s else "" for s in told))
    for row in comparison.rows:
        possible = {r.possible for r in row.reasons if r is not None}
        same = points(possible.pop()) if len(possible) == 1 else "differs"
        won = ("" if r is None else points(r.won) for r in row.reasons)
        about = ", ".join(filter(None, (*row.subjects, row.part)))
        write(row.title, about, same, *won)
    return out.getvalue()


def _points(tenths: int | None) -> float | str:
    return "" if tenths is None else points(tenths)


def _safe(cell: object) -> object:
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@") else cell
