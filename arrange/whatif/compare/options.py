"""What is asked to be compared, and what each of it comes to."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from arrange.data.arrangement import Arrangement
from arrange.data.compared import Cost, Option, Origin, State
from arrange.data.result import Verdict
from arrange.data.scenario import Scenario
from arrange.errors import Fault, ScenarioError
from arrange.judge import judge
from arrange.progress import Listener
from arrange.results.reading import ReadArrangement, read_result
from arrange.suggesting import suggest
from arrange.whatif.spare.sparing import spares

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
    from arrange.whatif.swap.standing import assess_today  # noqa: PLC0415

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
