"""From a scenario to a result: the flow of the whole program in one place.

scenario -> model -> search -> arrangement -> judge -> score and reasons -> result
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from arrange.budget import refuse_no_time
from arrange.data.arrangement import Arrangement
from arrange.data.lengths import listed, the
from arrange.data.result import Listener, Result
from arrange.data.scenario import Scenario
from arrange.judge import breaches
from arrange.scoring import FEEL, words_without_effect

DEFAULT_TOP = 5
DEFAULT_SECONDS = 60.0


def suggest(
    scenario: Scenario,
    *,
    top: int = DEFAULT_TOP,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    families: bool = False,
    listener: Listener | None = None,
    stop: Callable[[], bool] = lambda: False,
    keep: Callable[[int], float] = lambda _: 0.0,
) -> Result:
    """The best different arrangements of a scenario, each judged and scored.

    Parameters
    ----------
    scenario
        As ``read`` returns it.
    top
        How many different arrangements at most, 1 or more. Each is the best of
        those that differ from all before it: of the three largest pieces a bed, sofa, table
        or desk on another wall, turned, or a quarter of the room's length away, or storage
        half the room away.
    seconds
        Time limit for the search, kept within a second.
    seed
        Same scenario, same seed: same result, unless the time ran out.
    families
        Also count every way the major pieces can stand, with the best of each.
    listener
        Called with ``Progress`` now and then, from the searching threads.
    stop
        Asked often, from the searching threads; once it says yes the search ends
        with the best so far, marked as interrupted.
    keep
        Asked often: seconds of the limit to leave for what is still to be done with so
        many arrangements, such as drawing them.

    Raises
    ------
    ValueError
        If ``top`` is below 1 or ``seconds`` is not above 0.
    DisagreementError
        If the solver and the judge do not agree: our bug.
    """
    if top < 1:
        raise ValueError(f"top is {top}; ask for 1 or more")
    refuse_no_time(seconds)
    # The solver takes a while to import and is not needed to read a scenario.
    from arrange.solver.feasibility import FeasibilityOracle, with_ties_that_fit  # noqa: PLC0415
    from arrange.solver.session import Session  # noqa: PLC0415

    session = Session(scenario, seconds, seed, listener, stop, keep)
    found = session.different(top)
    apart: tuple[str, ...] = ()
    if session.outcome == "impossible" and scenario.usual_ties:
        oracle = FeasibilityOracle(seconds - session.seconds, seed, stop)
        fitting = with_ties_that_fit(scenario, oracle)
        if fitting != scenario and oracle.left > 0:
            apart = tuple(n for n in scenario.usual_ties if fitting.piece(n).anchor is None)
            scenario = fitting
            session = Session(scenario, oracle.left, seed, listener, stop, keep)
            found = session.different(top)
    listed = session.families() if families and found else None
    notes = (
        (_wrong_with_the_room(scenario) if session.outcome == "impossible" else ())
        + session.notes
        + tuple(f"there is no room for {the(name)} where it usually stands" for name in apart)
        + _at_no_table(scenario, apart)
        + _fewer(len(found), top, exhausted=session.exhausted)
        + _without_effect(scenario)
    )
    return Result(
        scenario,
        session.outcome,
        found,
        session.bound,
        session.seconds,
        session.first_seconds,
        seed,
        session.interrupted,
        listed,
        notes,
    )


def _at_no_table(scenario: Scenario, apart: Sequence[str]) -> tuple[str, ...]:
    """Chairs for which no place is left, where there is a table to sit at."""
    if not any(p.is_a("dine") for p in scenario.pieces):
        return ()
    chairs = [p for p in scenario.pieces if p.is_a("dining seat") and p.anchor is None]
    left = [the(p.name) for p in chairs if p.name not in apart]
    does = "does" if len(left) == 1 else "do"
    return (f"{listed(left)} {does} not stand at a table",) if left else ()


def _without_effect(scenario: Scenario) -> tuple[str, ...]:
    """The words for the feel that change nothing here."""
    known = ", ".join(sorted(FEEL))
    return tuple(
        f'"{word}" has no effect on the floor plan; these words have: {known}'
        for word in words_without_effect(scenario)
    )


def _wrong_with_the_room(scenario: Scenario) -> tuple[str, ...]:
    """What is impossible about the room whatever stands in it."""
    empty = breaches(scenario.unfurnished, Arrangement(()))
    return tuple(f"even without any furniture: {breach.sentence}" for breach in empty)


def _fewer(found: int, top: int, *, exhausted: bool) -> tuple[str, ...]:
    """Why there are fewer arrangements than asked for; nothing if there are not."""
    if not 0 < found < top:
        return ()
    if exhausted:
        is_are = "is" if found == 1 else "are"
        return (
            f"we looked for {top} plans and there {is_are} {found}: any other is much like what "
            "is shown",
        )
    return (f"we looked for {top} plans and found {found} in the time: --time allows more",)
