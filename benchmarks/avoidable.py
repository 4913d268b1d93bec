"""Whether a fault could have been avoided: a plan without it is asked for, as a must.

What the counter finds in a best plan (`benchmarks/taste_counter.py`) is held against the
rules that speak of it. Of these the claims about the same pieces that the plan does not fully
earn are demanded, at their highest level and then at lower ones. The search says that there
is no such plan, or finds one in which the counter is asked whether the fault has gone, or ends
with neither. Where the rules see nothing wrong there is nothing to demand: rule and counter
mean different things then, which is told apart from all of that.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.result import Result, Suggestion, parted
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.output.records import as_data
from arrange.rules import RULES
from arrange.scoring import Share, shares
from benchmarks.taste_counter import Fault, count, counted
from benchmarks.taste_measures import TITLES

# The rules that speak of what the counter counts under a number.
SPOKEN_OF: dict[int, tuple[str, ...]] = {
    1: ("view",),
    2: ("view-line", "past-not-through"),
    3: ("behind-door",),
    4: ("gutter",),
    5: ("in-reach",),
    6: ("on-axis",),
    7: ("table-placed",),
    8: ("rug-placed",),
    9: ("lamp-at-seat",),
    10: ("like-with-like",),
    11: ("seat-outlook", "seats-turned", "groups-close", "talking-distance"),
    12: ("daylight", "screen-glare"),
    13: ("cot-harm",),
    16: ("past-not-through",),
    17: ("cup-in-reach",),
    18: ("groups-close",),
    19: ("bed-sees-door", "bedhead-wall"),
    20: ("talking-distance", "seats-turned"),
    21: ("first-look",),
    22: ("dressing",),
    23: ("serving",),
    24: ("zones", "serving"),
    25: ("arriving", "care", "desk-outlook", "used-together"),
}
How = Literal["impossible", "found", "not found in time", "no rule sees it"]


@dataclass(frozen=True)
class Avoided:
    """What came of asking for a plan without a fault: its points in tenths, and its faults."""

    fault: Fault
    how: How
    score: int | None = None
    faults: int = 0

    @property
    def line(self) -> str:
        """It in words."""
        said = f"{self.fault.number:2} {TITLES[self.fault.number]}: {', '.join(self.fault.pieces)}"
        if self.score is None:
            return f"{said}: {self.how}"
        return f"{said}: found at {self.score / 10:.1f} points with {self.faults} faults"


def avoided(result: Result, fault: Fault, seconds: float) -> Avoided:
    """What the search says of a plan without this fault of the best one."""
    # Its rooms are read by fast tests too, which load no solver.
    from arrange.solver.search import Search  # noqa: PLC0415

    scenario, best = result.scenario, result.suggestions[0].arrangement
    how: How = "no rule sees it"
    budget = Budget(seconds)
    for demanded in _demands(scenario, best, fault):
        search = Search(scenario, budget, result.seed)
        found = search.best(demanded=demanded, patience=seconds)
        if found.arrangement is not None:
            again = _counted(result, scenario.listed(found.arrangement))
            if not any(f.number == fault.number and f.pieces == fault.pieces for f in again):
                return Avoided(fault, "found", parted(found.score)[1], len(again))
        elif not found.closed:
            return Avoided(fault, "not found in time")
        how = "impossible"
    return Avoided(fault, how)


def _counted(result: Result, arrangement: Arrangement) -> list[Fault]:
    verdict = judge(result.scenario, arrangement)
    alone = Suggestion(1, arrangement, verdict, proven=False, bound=result.bound)
    return counted(count(as_data(replace(result, suggestions=(alone,)))))


def _demands(scenario: Scenario, best: Arrangement, fault: Fault) -> Iterator[dict[str, int]]:
    """What to demand of the claims that the best plan does not fully earn, the most first."""
    missed = {
        share.claim.key: (level, len(share.claim.steps))
        for share in shares(scenario.in_canonical_order)
        if share.claim.rule in SPOKEN_OF.get(fault.number, ())
        and (not share.claim.subjects or set(share.claim.subjects) & set(fault.pieces))
        and (level := _level(scenario, best, share)) < len(share.claim.steps)
    }
    for less in range(max((most - level for level, most in missed.values()), default=0)):
        yield {key: max(level + 1, most - less) for key, (level, most) in missed.items()}


def _level(scenario: Scenario, best: Arrangement, share: Share) -> int:
    rule = next(rule for rule in RULES if rule.id == share.claim.rule)
    return rule.measure(Scene(scenario, best), share.claim).level
