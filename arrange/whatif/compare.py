"""Options side by side: what each comes to, and their reasons in rows."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from arrange.data.arrangement import Arrangement
from arrange.data.comparison import Comparison, Cost, Option, Origin, Row, State
from arrange.data.result import Key, Listener, Reason, Verdict, keyed
from arrange.data.scenario import Scenario
from arrange.rules import RULES
from arrange.scoring import scale_of
from arrange.suggesting import suggest
from arrange.whatif.slack import spares

SIDE = re.compile(r"on the \w+ side \(as you face it\) ")


def searched(
    name: str,
    scenario: Scenario,
    seconds: float,
    seed: int,
    listener: Listener | None,
    stop: Callable[[], bool],
) -> Option:
    """The best arrangement of a scenario, or why there is none."""
    result = suggest(scenario, top=1, seconds=seconds, seed=seed, listener=listener, stop=stop)
    if not result.suggestions:
        return Option(name, scenario, "searched", result.outcome, cost=cost(scenario))
    best = result.suggestions[0]
    option = judged(name, scenario, best.arrangement, best.verdict, "searched", result.outcome)
    return replace(option, at_most=best.most)


def judged(
    name: str,
    scenario: Scenario,
    arrangement: Arrangement,
    verdict: Verdict,
    origin: Origin,
    state: State,
) -> Option:
    """An option whose arrangement the judge has looked at."""
    return Option(
        name,
        scenario,
        origin,
        state,
        arrangement,
        verdict.score,
        None,
        verdict.reasons,
        tuple(dict.fromkeys(b.sentence for b in verdict.breaches)),
        verdict.gaps,
        spares(scenario, arrangement) if verdict.works else (),
        cost(scenario),
        scale=scale_of(scenario),
    )


def cost(scenario: Scenario) -> Cost:
    """The prices of what is not owned yet."""
    buying = [p for p in scenario.pieces if not p.owned]
    given = [p.price for p in buying if p.price is not None]
    unpriced = tuple(p.name for p in buying if p.price is None)
    if not given and unpriced:
        return Cost(None, unpriced)
    return Cost(float(sum(given)), unpriced)


def side_by_side(options: Sequence[Option], *, interrupted: bool = False) -> Comparison:
    """The comparison of finished options."""
    scales = {o.scale for o in options if o.score is not None}
    found = {
        i: (-o.faults, o.score) for i, o in enumerate(options) if o.works and o.score is not None
    }
    one_scale = len(scales) <= 1
    best: tuple[int, ...] = ()
    if one_scale and len(set(found.values())) > 1:
        best = tuple(i for i in found if found[i] == max(found.values()))
    return Comparison(tuple(options), _rows(options), one_scale, best, interrupted)


def _rows(options: Sequence[Option]) -> tuple[Row, ...]:
    """Every rule and subject once, in the order of the rules."""
    tables = [keyed(option.reasons) for option in options]
    keys: dict[Key, None] = {}
    for table in tables:
        keys.update(dict.fromkeys(table))
    order = {rule.id: i for i, rule in enumerate(RULES)}
    titles = {rule.id: rule.title for rule in RULES}
    rows = []
    for key in sorted(keys, key=lambda k: order.get(k[0], len(order))):
        rule, subjects, _ = key
        reasons = tuple(table.get(key) for table in tables)
        several = (rule, subjects, 1) in keys
        part = _part(next(r for r in reasons if r is not None)) if several else ""
        # What breaks a must earns its points by that, so it is better in nothing.
        fair = [r if o.works else None for r, o in zip(reasons, options, strict=True)]
        rows.append(Row(rule, subjects, titles.get(rule, rule), reasons, _best(fair), part))
    return tuple(rows)


def _part(reason: Reason) -> str:
    """What the sentence says after the measured value, whichever side of the piece it is."""
    _, _, after = reason.sentence.partition(reason.measured)
    return SIDE.sub("", after).strip(" .,:")


def _best(reasons: Sequence[Reason | None]) -> tuple[int, ...]:
    """Those with the highest share of the points; none if all have the same.

    Points won are rounded down to tenths, so that a share is known within one tenth:
    what that alone makes differ is alike.
    """
    asked = {i: r for i, r in enumerate(reasons) if r is not None and r.possible}
    low = {i: Fraction(r.won, r.possible) for i, r in asked.items()}
    high = {i: Fraction(r.won + (r.won < r.possible), r.possible) for i, r in asked.items()}
    most = max(low.values(), default=Fraction(0))
    best = tuple(i for i in low if low[i] == most or high[i] > most)
    return best if len(best) < len(low) else ()
