"""The words of a comparison, for the sheet and the terminal alike."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.compared import Option, Row
from arrange.data.result import Reason
from arrange.words import listed, measured, points

NOT_ASKED = "\N{EN DASH}"


def state_words(option: Option) -> str:
    """What kind of option it is and how sure its score is."""
    if option.state == "impossible":
        return "impossible, proven: nothing works"
    if option.state == "nothing found":
        return "nothing found in the time, which proves nothing"
    if option.origin == "today":
        if not option.broken:
            return "as it stands today"
        more = len(option.broken) - 1
        rest = f", and {more} more" if more else ""
        return f"as it stands today, does not work: {option.broken[0]}{rest}"
    sure = "proven best"
    more_points = max(0, (option.at_most or 0) - (option.score or 0))
    if option.state == "found":
        sure = f"not proven best: at most {points(more_points)} more"
    elif more_points:
        sure = "proven best of those unlike the ones before it"
    said = {"judged again": "an earlier result, judged again", "read": "an earlier result"}
    return "; ".join(filter(None, (said.get(option.origin, ""), sure)))


def score_words(option: Option) -> str:
    """The score, or a dash where there is no arrangement."""
    return "\N{EN DASH}" if option.score is None else points(option.score)


def cost_words(option: Option) -> str:
    """What is still to buy, as far as prices are given."""
    if option.origin == "read":
        return "not in the file"
    total, missing = option.cost.total, len(option.cost.unpriced)
    if total is None:
        return "no prices given"
    price = f"{total:g}" if total == int(total) else f"{total:.2f}"
    if missing:
        return f"{price}, not all given ({missing} without)"
    return price


def gap_words(option: Option) -> str:
    """The tightest gap of its plan."""
    if not option.gaps:
        return "\N{EN DASH}"
    gap = option.gaps[0]
    return f"{gap.between[0]} to {gap.between[1]}: {measured(gap.length, option.scenario.unit)}"


def row_label(row: Row) -> str:
    """The rule, what it speaks of, and which part of it where there are several."""
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
        (alike, "row is alike wherever asked", "rows are alike wherever asked"),
        (alone, "row is asked of one option only", "rows are asked of one option only"),
    )
    parts = [f"{n} {one if n == 1 else several}" for n, one, several in counted if n]
    return f"{listed(parts)}: see compare.csv." if parts else ""
