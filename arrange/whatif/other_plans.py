"""Further plans of one choice: each the best of those in which the main pieces stand differently.

What *differently* is says `arrange/different.py`; how sure each is says its bound, as of the
further plans of one room.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from arrange.budget import REPLAY, Budget
from arrange.data.choosing import Pick
from arrange.data.need import Choice
from arrange.data.result import FULL, Result, Suggestion
from arrange.data.scenario import Scenario
from arrange.solver.question import Best, growth
from arrange.solver.search import Search
from arrange.solver.session import PATIENCE, Replay, best_first, last_touch


def other_plans(search: Search, first: Best, count: int) -> list[Best]:
    """Up to ``count`` further ones, in the order in which they were looked for.

    ``first`` is the best of the search's scenario, in its last touch. Each is the best of those
    different from all before it, or the best found of them: a search is given up after an amount
    of work that depends on the scenario alone.
    """
    if first.arrangement is None:
        raise ValueError("nothing to differ from")
    shown, found, last = [first.arrangement], [], first
    for _ in range(count):
        best = search.best(
            excluded=shown,
            bound=last.bound,
            patience=PATIENCE * growth(search.scenario),
            start=last,
        )
        if best.arrangement is None or search.budget.over:
            break
        touched = last_touch(search, best.arrangement, shown, at_a_price=not best.proven)
        best.arrangement, best.score = touched.arrangement, touched.verdict.standing
        shown.append(best.arrangement)
        found.append(best)
        last = best
    return found


def shown_plans(
    scenario: Scenario, choice: Choice, first: Suggestion, found: Sequence[Best], seed: int
) -> list[Pick]:
    """The further ones as they are shown, best first: judged, and put back into the model."""
    replay, seconds = Replay(scenario), first.seconds
    plans = [first]
    for best in found:
        if best.arrangement is None:
            raise ValueError("nothing was found")
        arrangement = scenario.listed(best.arrangement)
        verdict, confirmed = replay.confirmed(arrangement, Budget(REPLAY))
        bound = best.bound if confirmed else FULL
        proven = best.proven and confirmed
        plans.append(Suggestion(len(plans) + 1, arrangement, verdict, proven, bound, seconds))
    told: list[Pick] = []
    for one in best_first(plans)[1:]:
        # As a plan of that room by itself it is one that was found: another one is better.
        plan = replace(one, rank=1, proven=False, bound=first.bound)
        result = Result(scenario, "found", (plan,), first.bound, seconds, None, seed)
        value = one.verdict.standing - choice.lack
        told.append(Pick(choice, result, value, one.bound - choice.lack, elsewhere=True))
    return told
