"""Asks for best arrangements one after another within one time limit."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from arrange.data.scenario import Scenario
from arrange.data.settled import Settling
from arrange.data.swap import Answer, Plan
from arrange.progress import Listener
from arrange.suggesting import suggest

DEFAULT_SECONDS = 60.0
LEAST = 0.05  # s; not worth asking
ANSWERS: dict[str, Settling] = {"impossible": "impossible", "nothing found": "not decided"}


@dataclass
class Run:
    """Asks for best arrangements within one time limit."""

    seconds: float
    seed: int
    listener: Listener | None
    stop: Callable[[], bool]
    start: float = field(default_factory=time.monotonic)

    @property
    def elapsed(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self.start

    def best(self, scenario: Scenario, share: float = 1.0) -> Answer:
        """The best arrangement in a share of the time left."""
        left = (self.seconds - self.elapsed) * share
        if left < LEAST or self.stop():
            return Answer("not decided")
        found = suggest(
            scenario, top=1, seconds=left, seed=self.seed, listener=self.listener, stop=self.stop
        )
        if not found.suggestions:
            return Answer(ANSWERS[found.outcome])
        one = found.suggestions[0]
        return Answer("works", Plan(scenario, one.arrangement, one.verdict, found.bound))


def better(one: Answer, other: Answer, scenario: Scenario) -> Answer:
    """Of two answers the better; the first knows the bound, as it holds less."""
    if other.plan is None or (one.plan is not None and one.plan.score >= other.plan.score):
        return one
    bound = one.plan.bound if one.plan is not None else 1000
    return Answer("works", replace(other.plan, scenario=scenario, bound=bound))
