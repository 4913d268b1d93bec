"""Options side by side: each searched, judged or read, their reasons in rows."""

from __future__ import annotations

import re
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from arrange.data.compared import Comparison, Option, Row
from arrange.data.result import Key, Reason, keyed
from arrange.data.scenario import Scenario
from arrange.progress import Listener
from arrange.rules import RULES
from arrange.whatif.compare.options import Asked, gathered, searched

DEFAULT_SECONDS = 120.0
LEAST = 0.1  # s for an option whose turn comes after the time is up
SIDE = re.compile(r"on the \w+ side \(as you face it\) ")


def compare(
    options: Sequence[str | Path | Scenario | Asked],
    *,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    listener: Listener | None = None,
    stop: Callable[[], bool] = lambda: False,
) -> Comparison:
    """Two to six options side by side.

    Parameters
    ----------
    options
        Scenarios as ``read`` returns them, or names of files: a scenario file, of
        which the best arrangement is searched; ``FILE:today``, where things stand
        today; an earlier ``result.json`` (or its folder), with ``#2`` for its
        second arrangement. An arrangement from a result is judged again if its
        scenario file is still there, else shown as read.
    seconds
        For all searches together; each has an equal share of what is left.
    seed, listener, stop
        As for ``suggest``.

    Raises
    ------
    ScenarioError
        With everything that is wrong with any of the options: too few or too many, a
        file that is missing or no result, nothing that stands anywhere today.
    ValueError
        If ``seconds`` is not above 0.
    DisagreementError
        If the solver and the judge do not agree: our bug.
    """
    if not seconds > 0:
        raise ValueError(f"seconds is {seconds}; allow more than 0")
    asked = gathered(options)
    end = time.monotonic() + seconds
    waiting = len({a.scenario for a in asked if a.scenario is not None})
    known: dict[Scenario, Option] = {}
    found: list[Option] = []
    for one in asked:
        if one.option is not None:
            found.append(one.option)
            continue
        scenario = _wanted(one)
        if scenario not in known:
            share = max(LEAST, (end - time.monotonic()) / waiting)
            known[scenario] = searched(one.name, scenario, share, seed, listener, stop)
            waiting -= 1
        found.append(replace(known[scenario], asked=one.name))
    return side_by_side(found, interrupted=stop())


def _wanted(asked: Asked) -> Scenario:
    if asked.scenario is None:
        raise ValueError(f"{asked.name} has nothing to search")
    return asked.scenario


def side_by_side(options: Sequence[Option], *, interrupted: bool = False) -> Comparison:
    """The comparison of finished options."""
    scales = {_scale(o) for o in options if o.score is not None}
    scores = [o.score for o in options if o.works and o.score is not None]
    one_scale = len(scales) <= 1
    best: tuple[int, ...] = ()
    if one_scale and len(set(scores)) > 1:
        best = tuple(i for i, o in enumerate(options) if o.works and o.score == max(scores))
    return Comparison(tuple(options), _rows(options), one_scale, best, interrupted)


def _scale(option: Option) -> tuple[tuple[str, tuple[str, ...], int], ...]:
    """What the hundred points of an option are shared out among."""
    return tuple(sorted((r.rule, r.subjects, r.possible) for r in option.reasons))


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
