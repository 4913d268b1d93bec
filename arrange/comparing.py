"""Two to six options side by side: the flow of a comparison in one place.

names -> scenarios, today's arrangements, earlier results -> judged or searched -> rows

Whatever is named is read first, so that every fault is told before anything is searched.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from arrange.budget import LEAST_OPTION, Budget
from arrange.data.comparison import Comparison, Option, State, Unjudged
from arrange.data.result import Listener
from arrange.data.scenario import Scenario
from arrange.errors import Fault, ScenarioError
from arrange.judge import judge
from arrange.output.reading import ReadArrangement, read_result
from arrange.scenario.read import read
from arrange.whatif.compare import judged, searched, side_by_side
from arrange.whatif.today import assess_today

FEWEST, MOST = 2, 6
TODAY = ":today"
EARLIER = re.compile(r"(?P<file>.+?)(#(?P<rank>[0-9]{1,9}))?")
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
    parts = EARLIER.fullmatch(name)
    file = parts["file"] if parts else name
    folder = os.path.isdir(file)  # noqa: PTH112  that of a path fails where a name is too long
    if folder or Path(file).suffix.lower() == ".json":
        path = Path(file) / "result.json" if folder else Path(file)
        rank = int(parts["rank"] or 1) if parts else 1
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
    return side_by_side(found, interrupted=stop())


def _wanted(asked: Asked) -> Scenario:
    if asked.scenario is None:
        raise ValueError(f"{asked.name} has nothing to search")
    return asked.scenario
