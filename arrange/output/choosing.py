"""A choice as a record for ``choice.json`` and as a table for a spreadsheet.

Every sum can be added up again from its lines, and every value from the points of its reasons.
"""

from __future__ import annotations

import csv
import io
from decimal import Decimal

from arrange.data.choosing import Choosing, Pick
from arrange.data.need import Post
from arrange.data.result import FAULT, NOTHING
from arrange.output.fields import FORMAT, Data, in_points, versions
from arrange.output.records import as_data
from arrange.output.spreadsheets import safe
from arrange.words.choosing import account_rows, advice, answer_words, post_words

COLUMNS = ("choice", "what", "piece", "each", "count", "sum")


def choice_data(found: Choosing, files: tuple[str, ...] = ()) -> Data:
    """Everything about a choice but its times; ``files`` are the names written with it."""
    tally, purse = found.tally, found.money
    return {
        "format": FORMAT,
        "title": found.whole.title,
        "outcome": found.outcome,
        "sentence": answer_words(found),
        "advice": advice(found),
        "interrupted": found.interrupted,
        "one_scale": found.one_scale,
        "currency": purse.currency,
        "budget": _sum(purse.budget),
        "comes_in": _sum(purse.comes_in),
        "set_aside": _sum(purse.kept),
        "to_spend": _sum(found.spendable),
        "further": _sum(found.further),
        "cheapest": _sum(found.cheapest),
        "points_of_a_fault": FAULT / 10,
        "ways_to_choose": {
            "within_the_budget": tally.choices,
            "no_better_proven": tally.surpassed,
            "impossible_proven": tally.impossible,
            "not_decided": tally.open,
        },
        "needs": [
            {
                "name": need.name,
                "must": need.lack is None,
                "takes_off": in_points(need.lack),
                "counts": need.counted[0] if need.counted is not None else None,
                "at_least": need.counted[1] if need.counted is not None else None,
                "met_by": [one.name for one in found.needs.meeting(need.name)],
                "enough_together": [[one.name for one in way] for way in found.needs.ways(need)],
            }
            for need in found.needs.needs
        ],
        "feel": list(found.needs.feel),
        "feel_takes_off": in_points(found.needs.feel_lack),
        "candidates": [
            {
                "name": one.name,
                "meets": list(one.needs),
                "pieces": list(one.pieces),
                "owned": one.owned,
                "tags": sorted(one.tags),
                "cost": _sum(one.cost),
            }
            for one in found.needs.candidates
        ],
        "unit": found.whole.unit,
        "versions": versions(),
        "scenario_file": found.whole.source_file or None,
        "files": list(files),
        "choices": [_pick(one) for one in found.picks],
        "curve_complete": found.complete,
        "curve": [_pick(one, plan=False) for one in found.curve],
    }


def _pick(pick: Pick, *, plan: bool = True) -> Data:
    found: Data = {
        "candidates": list(pick.choice.candidates),
        "without": list(pick.choice.lacking),
        "unanswered": list(pick.choice.unanswered),
        "cost": _sum(pick.choice.cost),
        "account": [_post(post) for post in pick.choice.account],
        "plan_points": in_points(pick.verdict.score),
        "faults": pick.verdict.faults,
        "takes_off": in_points(pick.choice.lack),
        "value": in_points(pick.value),
        "value_at_most": None if pick.bound == NOTHING else in_points(pick.bound),
        "proven": pick.proven,
        "arranged_otherwise": pick.elsewhere,
    }
    if plan:
        found["plan"] = as_data(pick.result)
    return found


def _post(post: Post) -> Data:
    return {
        "what": post.item,
        "piece": post.piece,
        "each": _sum(post.each),
        "count": post.count,
        "sum": _sum(post.total),
    }


def _sum(amount: Decimal | None) -> float | None:
    """Money by its digits: a float of so few writes the same."""
    return None if amount is None else float(amount)


def account_table(found: Choosing) -> str:
    """The account of every choice shown, a line a sum; lines end as spreadsheets expect."""
    out = io.StringIO()
    rows = csv.writer(out)
    rows.writerow(COLUMNS)
    for name, pick in account_rows(found):
        for post in pick.choice.account:
            cells = (name, post_words(post), post.piece, post.each, post.count, post.total)
            rows.writerow([safe(cell) for cell in cells])
        rows.writerow([name, "together", "", "", "", pick.choice.cost])
    return out.getvalue()
