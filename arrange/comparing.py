"""Two to six options side by side: the flow of a comparison in one place.

names -> scenarios, today's arrangements, earlier results -> judged or searched -> rows

Whatever is named is read first, so that every fault is told before anything is searched.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from arrange.budget import LEAST_OPTION, Budget, refuse_no_time
from arrange.data.arrangement import Arrangement
from arrange.data.comparison import Comparison, Cost, Option, Origin, Row, State, Unjudged
from arrange.data.result import Key, Listener, Reason, Verdict, keyed
from arrange.data.scenario import Scenario
from arrange.errors import Fault, ScenarioError
from arrange.judge import judge
from arrange.output.reading import ReadArrangement, read_result, result_named
from arrange.rules import RULES
from arrange.scenario.read import read
from arrange.scoring import scale_of
from arrange.suggesting import suggest
from arrange.whatif.slack import spares
from arrange.whatif.today import assess_today

FEWEST, MOST = 2, 6
TODAY = ":today"
WHAT = "name a scenario file, FILE:today, or a result.json with #2 for its second arrangement"


@dataclass(frozen=True)
class Asked:
    """One option: finished, or a scenario whose best arrangement is to be searched."""

    name: str
    scenario: Scenario | None = None
    option: Option | None = None


def gathered(options: Sequence[str | Path | Scenario | Asked]) -> list[Asked]:
    """Everything read, and what needs no search judged. ScenarioError with every fault.

    What was gathered before is taken as it is.
    """
    faults: list[Fault] = []
    if not FEWEST <= len(options) <= MOST:
        given = "1 option" if len(options) == 1 else f"{len(options)} options"
        faults.append(Fault("", given, f"{FEWEST} to {MOST} can be compared; {WHAT}"))
    found: list[Asked] = []
    for option in options:
        try:
            found.append(_understood(option))
        except ScenarioError as error:
            where = error.file or str(option)
            faults += [
                replace(f, where=": ".join(filter(None, (where, f.where)))) for f in error.faults
            ]
    if faults:
        raise ScenarioError("compare", tuple(dict.fromkeys(faults)))
    return found


def _understood(option: str | Path | Scenario | Asked) -> Asked:
    if isinstance(option, Asked):
        return option
    if isinstance(option, Scenario):
        return Asked(option.title, option)
    name = str(option)
    if name.endswith(TODAY):
        return Asked(name, option=_today(name, read(name.removesuffix(TODAY))))
    path, rank = result_named(name)
    if path.suffix.lower() == ".json":
        return Asked(name, option=_earlier(name, read_result(path, rank)))
    return Asked(name, read(name))


def _today(name: str, scenario: Scenario) -> Option:
    try:
        today = assess_today(scenario)
    except ScenarioError as error:
        raise ScenarioError(name.removesuffix(TODAY), error.faults) from None
    state: State = "works" if today.verdict.works else "broken"
    option = judged(name, today.scenario, today.arrangement, today.verdict, "today", state)
    return replace(option, left_out=today.left_out)


def _earlier(name: str, earlier: ReadArrangement) -> Option:
    """An earlier arrangement judged again, or as the file has it where that cannot be done."""
    one = earlier.suggestion
    state: State = "proven" if one.proven else "found"
    scenario, unjudged = earlier.again()
    if scenario is not None:
        verdict = judge(scenario, one.arrangement)
        if verdict.works and verdict.standing == one.verdict.standing:
            option = judged(name, scenario, one.arrangement, verdict, "judged again", state)
            return replace(option, at_most=earlier.at_most)
        unjudged = Unjudged("changed", scenario.source_file)
    return Option(
        name,
        earlier.scenario,
        "read",
        state,
        one.arrangement,
        one.verdict.score,
        earlier.at_most,
        one.verdict.reasons,
        gaps=one.verdict.gaps,
        spare=earlier.spare,
        scale=(earlier.file,),
        unjudged=unjudged,
    )


DEFAULT_SECONDS = 120.0


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
    refuse_no_time(seconds)
    asked = gathered(options)
    budget = Budget(seconds, stop)
    waiting = len({a.scenario for a in asked if a.scenario is not None})
    known: dict[Scenario, Option] = {}
    found: list[Option] = []
    for one in asked:
        if one.option is not None:
            found.append(one.option)
            continue
        scenario = _wanted(one)
        if scenario not in known:
            share = max(LEAST_OPTION, budget.left / waiting)
            known[scenario] = searched(one.name, scenario, share, seed, listener, stop)
            waiting -= 1
        found.append(replace(known[scenario], asked=one.name))
    return side_by_side(found, interrupted=stop())


def _wanted(asked: Asked) -> Scenario:
    if asked.scenario is None:
        raise ValueError(f"{asked.name} has nothing to search")
    return asked.scenario


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
    return Cost(sum(given, Decimal(0)), unpriced)


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
