"""What is asked to be compared, and what each of it comes to.

The words of a comparison, for the sheet and the terminal alike.

Options side by side: each searched, judged or read, their reasons in rows.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from arrange.budget import LEAST_OPTION, Budget
from arrange.data.arrangement import Arrangement
from arrange.data.comparison import Comparison, Cost, Option, Origin, Row, State
from arrange.data.lengths import listed, measured, points
from arrange.data.result import Key, Reason, Verdict, keyed
from arrange.data.scenario import Scenario
from arrange.errors import Fault, ScenarioError
from arrange.judge import judge
from arrange.output.reading import ReadArrangement, read_result
from arrange.progress import Listener
from arrange.rules import RULES
from arrange.suggesting import suggest
from arrange.whatif.slack import spares

FEWEST, MOST = 2, 6
TODAY = ":today"
EARLIER = re.compile(r"(?P<file>.+?)(#(?P<rank>[0-9]+))?")
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
    from arrange.scenario.read import read  # noqa: PLC0415

    name = str(option)
    if name.endswith(TODAY):
        return Asked(name, option=_today(name, read(name.removesuffix(TODAY))))
    parts = EARLIER.fullmatch(name)
    file = parts["file"] if parts else name
    folder = Path(file).is_dir()
    if folder or Path(file).suffix.lower() == ".json":
        path = Path(file) / "result.json" if folder else Path(file)
        rank = int(parts["rank"] or 1) if parts else 1
        return Asked(name, option=_earlier(name, read_result(path, rank)))
    return Asked(name, read(name))


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
    return replace(option, at_most=result.bound)


def _today(name: str, scenario: Scenario) -> Option:
    from arrange.whatif.today import assess_today  # noqa: PLC0415

    try:
        today = assess_today(scenario)
    except ScenarioError as error:
        raise ScenarioError(name.removesuffix(TODAY), error.faults) from None
    state: State = "works" if today.verdict.works else "broken"
    option = judged(name, today.scenario, today.arrangement, today.verdict, "today", state)
    if today.left_out:
        note = f"nobody said where these stand today: {', '.join(today.left_out)}"
        option = replace(option, notes=(note,))
    return option


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
    )


def _earlier(name: str, read: ReadArrangement) -> Option:
    """An earlier arrangement judged again, or as the file has it where that cannot be done."""
    state: State = "proven" if read.proven else "found"
    scenario, note = read.again()
    if scenario is not None:
        verdict = judge(scenario, read.arrangement)
        if verdict.works and verdict.score == read.score:
            option = judged(name, scenario, read.arrangement, verdict, "judged again", state)
            return replace(option, at_most=read.at_most)
        note = f"{scenario.source_file} has changed since"
    return Option(
        name,
        read.scenario,
        "read",
        state,
        read.arrangement,
        read.score,
        read.at_most,
        read.reasons,
        (),
        read.gaps,
        read.spare,
        Cost(),
        (f"as read, not judged again: {note}",),
    )


def cost(scenario: Scenario) -> Cost:
    """The prices of what is not owned yet."""
    buying = [p for p in scenario.pieces if not p.owned]
    given = [p.price for p in buying if p.price is not None]
    unpriced = tuple(p.name for p in buying if p.price is None)
    if not given and unpriced:
        return Cost(None, unpriced)
    return Cost(float(sum(given)), unpriced)


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


DEFAULT_SECONDS = 120.0
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
    return side_by_side(found, interrupted=budget.stopped)


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
