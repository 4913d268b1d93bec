"""Why nothing works and what would have to give: the whole answer, within one time limit."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

from arrange.budget import COUNTING, SEARCHING, SOON, SUM_SOON, Budget
from arrange.data.conflict import Conflicts
from arrange.data.repair import Why
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.conflict import MOST, conflicts
from arrange.whatif.lacking import arithmetic

DEFAULT_SECONDS = 60.0


def why(
    scenario: Scenario,
    *,
    most: int = MOST,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    untouchable: Collection[str] = (),
    listener: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Why:
    """Why nothing works, with the arithmetic, and the cheapest changes that would help.

    Parameters
    ----------
    scenario
        As ``read`` returns it. If it works, the answer says so and shows it.
    most
        How many sets, and how many proposals of changes, at most; 1 or more.
    seconds
        Time limit for everything, kept within a second.
    seed
        Same scenario, same seed: same answer, unless the time ran out.
    untouchable
        Names of pieces, doors, windows, fixtures, or "walkway", that no proposal may
        change.
    listener
        Told in words what is being looked at.
    stop
        Asked often; once it says yes the answer is what is known so far.

    Raises
    ------
    ValueError
        If ``most`` is below 1 or ``seconds`` is not above 0.
    DisagreementError
        If two solver configurations, or the solver and the judge, do not agree: our bug.
    """
    if most < 1:
        raise ValueError(f"most is {most}; ask for 1 or more")
    if not seconds > 0:
        raise ValueError(f"seconds is {seconds}; allow more than 0")
    from arrange.whatif.repair import cheapest_repairs  # noqa: PLC0415

    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, seed)
    oracle.budget = budget.until(SEARCHING)
    listener("looking for what clashes")
    found = conflicts(scenario, oracle, most)
    if found.answer != "works" and not (found.sets or found.room):
        oracle.budget = budget  # better one set late than none
        found = conflicts(scenario, oracle, most)
    oracle.budget = budget.until(COUNTING)
    listener("counting what lacks")
    found = with_arithmetic(found, oracle)
    oracle.budget = budget
    repairs = None
    if found.sets:
        listener("looking for what would have to give")
        repairs = cheapest_repairs(scenario, oracle, found.sets, untouchable=untouchable, most=most)
    return Why(found, repairs, seed, tuple(untouchable), budget.stopped)


def with_why(result: Result, seconds: float, stop: Callable[[], bool]) -> Result:
    """An impossible result with one set that clashes, if one is found soon.

    ``seconds`` is what is left of the time; no more than 5 of them are taken for the set,
    and up to 30 for its sum, which is the one that ``why`` gives.
    """
    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, result.seed, stop)
    oracle.budget = budget.portion(SOON)
    if oracle.left <= 0:
        return result
    found = conflicts(result.scenario, oracle, 1)
    oracle.budget = budget.portion(SUM_SOON)
    found = with_arithmetic(found, oracle)
    return replace(result, why=found.sets[0]) if found.sets else result


def with_arithmetic(found: Conflicts, oracle: FeasibilityOracle) -> Conflicts:
    """The sets with what lacks in figures, as far as the time goes."""
    scenario = found.scenario
    sets = tuple(
        replace(conflict, arithmetic=arithmetic(scenario, conflict, oracle))
        for conflict in found.sets
    )
    return replace(found, sets=sets)
