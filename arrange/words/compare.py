"""A comparison in words, for the sheet and for the table that a terminal shows."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from arrange.data.comparison import LETTERS, Comparison, Option, Row
from arrange.data.lengths import is_nought, listed, measured, money, points, the
from arrange.data.result import PARTS, Reason, Verdict
from arrange.words.reasons import WIDEST, not_avoided, wrapped
from arrange.words.suggest import spare_words

NOT_ASKED = "\N{EN DASH}"


def state_words(option: Option) -> str:
    """What kind of option it is and how sure its score is."""
    if option.state == "impossible":
        return "it does not fit, and that is proven"
    if option.state == "nothing found":
        return "nothing was found in the time, which proves nothing"
    if option.origin == "today":
        if not option.broken:
            return "as it stands today"
        more = len(option.broken) - 1
        rest = f", and {more} more" if more else ""
        return f"as it stands today, it does not work: {option.broken[0]}{rest}"
    sure = "the best there is; we checked"
    more_points = max(0, (option.at_most or 0) - (option.score or 0))
    if option.state == "found":
        sure = (
            f"the best found in the time; another could score up to {points(more_points)} points "
            "more"
        )
    elif more_points:
        sure = "the best that differs from the plans before it; we checked"
    said = {"judged again": "an earlier result, checked again", "read": "an earlier result"}
    return "; ".join(filter(None, (said.get(option.origin, ""), sure)))


def score_words(option: Option) -> str:
    """The score, or a dash where there is no arrangement."""
    return NOT_ASKED if option.score is None else points(option.score)


def cost_words(option: Option) -> str:
    """What is still to buy, as far as prices are given."""
    if option.origin == "read":
        return "not in the file"
    total, missing = option.cost.total, len(option.cost.unpriced)
    if total is None:
        return "no prices given"
    price = money(total)
    if missing:
        return f"{price}, and {missing} without a price"
    return price


def gap_words(option: Option) -> str:
    """The tightest gap of its plan."""
    if not option.gaps:
        return NOT_ASKED
    gap = option.gaps[0]
    wide = measured(gap.length, option.scenario.unit, "down")
    wide = "nothing" if is_nought(wide) else wide
    return f"{wide} between {the(gap.between[0])} and {the(gap.between[1])}"


def fault_cells(options: Sequence[Option]) -> list[str]:
    """What each did not avoid, in sentences; no cells where none has anything."""
    told = [". ".join(not_avoided(option.reasons)) for option in options]
    return [one or "nothing" for one in told] if any(told) else []


Sums = tuple[int, int]  # tenths won, tenths possible


def part_rows(comparison: Comparison) -> list[tuple[str, list[Sums | None], tuple[int, ...]]]:
    """Each part of the score: its name, what each option won of what, and who won most.

    The best go by the share won, as in the rows of reasons; none where all are alike.
    """
    sums = [Verdict((), option.reasons, 0).parts for option in comparison.options]
    rows = []
    for part, name in PARTS.items():
        there = [own.get(part) for own in sums]
        shares = {i: Fraction(*pair) for i, pair in enumerate(there) if pair}
        alike = len(set(shares.values())) < 2
        best = () if alike else tuple(i for i in shares if shares[i] == max(shares.values()))
        if shares:
            rows.append((name, there, best))
    return rows


def sums_words(sums: Sums | None) -> str:
    """What was won of what; a dash where nothing can be."""
    return NOT_ASKED if sums is None else f"{points(sums[0])} of {points(sums[1])}"


def row_label(row: Row) -> str:
    """The rule, what it speaks of, and which part of it where there are several.

    A part that names all that it speaks of says enough by itself.
    """
    if row.part and row.subjects and all(name in row.part for name in row.subjects):
        return f"{row.part[:1].upper()}{row.part[1:]}"
    about = listed(row.subjects)
    label = f"{row.title}: {about}" if about else row.title
    return f"{label}, {row.part}" if row.part else label


def cell_words(reason: Reason | None, *, one_scale: bool) -> str:
    """The points won; with what they are out of where the scales differ."""
    if reason is None:
        return NOT_ASKED
    won = points(reason.won)
    return won if one_scale else f"{won} of {points(reason.possible)}"


def by_difference(rows: Sequence[Row]) -> tuple[list[Row], int, int]:
    """The rows in which options differ, the widest first; how many are alike, or asked of one."""

    def spread(row: Row) -> float:
        found = [r for r in row.reasons if r is not None]
        shares = [r.won / r.possible for r in found if r.possible] or [0.0]
        return (max(shares) - min(shares)) * max(r.possible for r in found)

    alone = [row for row in rows if sum(r is not None for r in row.reasons) == 1]
    differ = sorted((row for row in rows if row.best), key=lambda row: -spread(row))
    alike = len(rows) - len(differ) - len(alone)
    return differ, alike, len(alone)


def rest_words(more: int, alike: int, alone: int) -> str:
    """The rows that are not shown, counted; empty if there are none."""
    counted = (
        (more, "more row differs", "more rows differ"),
        (alike, "row does not differ", "rows do not differ"),
        (alone, "row is about one option only", "rows are about one option only"),
    )
    parts = [f"{n} {one if n == 1 else several}" for n, one, several in counted if n]
    return f"{listed(parts)}: see compare.csv." if parts else ""


def notes_words(option: Option) -> tuple[str, ...]:
    """What did not count and what was not judged, each in a sentence without its end."""
    found = []
    if option.left_out:
        found.append(f"the file does not say where these stand today: {listed(option.left_out)}")
    if option.unjudged is not None:
        file = option.unjudged.file
        why = {
            "unnamed": "the file does not say which scenario it was made from",
            "unreadable": f"{file} can no longer be read",
            "changed": f"{file} has changed since",
            "missing": f"{file} is not there",
        }[option.unjudged.why]
        found.append(f"shown as it was, not checked again: {why}")
    return tuple(found)


def remark_words(comparison: Comparison) -> str:
    """What to know about the scores, in one sentence; empty if they simply compare."""
    if comparison.one_scale:
        return ""
    return (
        "The options ask for different things, so 100 points do not mean the same for each: "
        "compare "
        "them row by row, not by their scores."
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
        lines += [wrapped(note, "   ") for note in notes_words(option)]
        if option.arrangement is None:
            continue
        lines += [
            wrapped(f"not so good: {one}", "   ! ", "     ") for one in not_avoided(option.reasons)
        ]
        lines.append(wrapped(f"still to buy: {cost_words(option)}", "   "))
        lines.append(wrapped(f"tightest gap: {gap_words(option)}", "   "))
        lines += [wrapped(spare_words(s, unit), "   spare: ", "     ") for s in option.spare[:1]]
    lines += ["", *_table(comparison)]
    if remark := remark_words(comparison):
        lines += ["", wrapped(remark)]
    where = f"Picture: {folder / files[0]}; for a spreadsheet {files[1]}" if files else ""
    return "\n".join([*lines, "", wrapped(where)] if where else lines)


def _table(comparison: Comparison) -> list[str]:
    options, one_scale = comparison.options, comparison.one_scale
    label = min(46, WIDEST - CELL * len(options))
    lines = _row(label, "", list(LETTERS[: len(options)]), ())
    lines += _row(label, "Score, of 100", [score_words(o) for o in options], comparison.best)
    if any(option.faults for option in options):
        lines += _row(label, "Not so good", [str(o.faults) for o in options], ())
    for name, sums, best in part_rows(comparison):
        lines += _row(label, name, [sums_words(s).replace(" of ", "/") for s in sums], best)
    rows, alike, alone = by_difference(comparison.rows)
    for row in rows[:SHOWN]:
        cells = [cell_words(r, one_scale=one_scale).replace(" of ", "/") for r in row.reasons]
        lines += _row(label, row_label(row), cells, row.best)
    lines.append(wrapped("> marks the best in each row, by its share of the points."))
    if any(r is None for row in rows[:SHOWN] for r in row.reasons):
        lines.append(wrapped(f"{NOT_ASKED} means: not asked of that option, or there is no plan."))
    rest = rest_words(max(0, len(rows) - SHOWN), alike, alone)
    return [*lines, wrapped(rest)] if rest else lines


def _row(label: int, name: str, cells: list[str], best: tuple[int, ...]) -> list[str]:
    """One row; a long name goes on below it."""
    first, *more = textwrap.wrap(name, label - 1) or [""]
    marked = (f"{'>' if i in best else ' '}{cell}" for i, cell in enumerate(cells))
    line = f"{first:<{label}}" + "".join(f"{cell:>{CELL}}" for cell in marked)
    return [line.rstrip(), *(f"  {part}" for part in more)]
