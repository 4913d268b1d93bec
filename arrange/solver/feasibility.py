"""Whether a scenario works at all: an arrangement, or the proof that there is none.

Only musts count, so that most answers take one solve of the open model. If what that finds
cannot be walked, models with a few walkway rectangles are asked outright, then cuts are
made, and only then is the whole search called in. "Impossible" has a second opinion: the
same cuts in another configuration of the solver. The *oracle* answers for one scenario
after another and remembers what it answered, and which cuts hold in other scenarios.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import InitVar, dataclass, field, replace

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.geometry.scene import Scene
from arrange.judge import breaches
from arrange.scoring import musts_only
from arrange.solver.cuts import Memory
from arrange.solver.engine import solve
from arrange.solver.model import Model
from arrange.solver.question import never_refused
from arrange.solver.search import Search
from arrange.solver.walkways import add_walkways

QUICK = 0.5  # deterministic seconds for each of the first few questions
ROUNDS = 200  # of asking the open model before the whole search is called in
# Walkway rectangles of the guided models that are asked outright once the open model's
# answer cannot be walked: in tight rooms few of them find in 0.2 s what cuts take 10 s for.
RECTANGLES = (3, 5)
# Where alike pieces could stand in more orders than five can, the second opinion keeps to
# one order too: its cuts would be as many, and its search so many times as long.
MOST_ORDERS = math.factorial(5)


def decide(
    scenario: Scenario,
    budget: Budget,
    *,
    seed: int = 0,
    sure: bool = True,
    memory: Memory | None = None,
) -> Feasibility:
    """Whether any arrangement of ``scenario`` keeps every must.

    ``sure`` has "impossible" confirmed by a second solver configuration; without
    its agreement in the time left the answer is "not decided". The arrangement of
    "works" has passed the judge. ``memory`` lends cuts of earlier questions, and
    takes in those of this one.
    """
    search = Search(musts_only(scenario), budget, seed)
    if memory is None:
        return _decided(scenario, search, sure=sure)
    search.keep(memory.cuts_for(search.scenario))
    answer = _decided(scenario, search, sure=sure)
    memory.learn(search.scenario, search.cuts)
    return answer


def with_ties_that_fit(scenario: Scenario, oracle: FeasibilityOracle) -> Scenario:
    """An impossible scenario without those usual ties for which there is no room.

    Only a tie that somebody asked for may make a room impossible. Each tie left out is one
    that does not fit beside those kept, as far as that is decided in the time; the largest
    pieces keep theirs first. As given if nothing works with none either.
    """
    usual = scenario.in_canonical_order.usual_ties
    apart = list(usual)
    if not oracle.decide(scenario.apart(apart)).works:
        return scenario
    for name in usual:
        fewer = [one for one in apart if one != name]
        if oracle.decide(scenario.apart(fewer), seconds=oracle.left / 2).works:
            apart = fewer
    return scenario.apart(apart)


def _decided(scenario: Scenario, search: Search, *, sure: bool) -> Feasibility:
    found, impossible = _quickly(search)
    if found is None and not impossible:
        best = search.best()
        found, impossible = best.arrangement, best.closed
    if found is not None:
        return Feasibility("works", scenario.listed(found))
    if impossible and (not sure or surely_impossible(search)):
        return Feasibility("impossible")
    return Feasibility("not decided")


def _quickly(search: Search) -> tuple[Arrangement | None, bool]:
    """An arrangement, or whether it is impossible, if the open model says so soon."""
    guided = False
    for _ in range(ROUNDS):
        model = search.open_model.copy()
        answer = solve(model, search.budget, seed=search.seed, work=QUICK, goal="any")
        if answer.arrangement is None:
            return None, answer.status == "none"
        broken = breaches(search.scenario, answer.arrangement)
        if not broken:
            return answer.arrangement, False
        never_refused(broken)
        if not guided and (found := _guided(search)) is not None:
            return found, False
        guided = True
        scene = Scene(search.scenario, answer.arrangement)
        search.keep(search.blocked(scene))
    return None, False


def _guided(search: Search) -> Arrangement | None:
    """An arrangement with walkways of a few rectangles, if there is one soon."""
    for count in RECTANGLES:
        model = Model(search.scenario)
        add_walkways(model, count)
        model.finish()
        answer = solve(model, search.budget, seed=search.seed, work=QUICK, goal="any")
        found = answer.arrangement
        if found is not None and not breaches(search.scenario, found):
            return found
    return None


def surely_impossible(search: Search) -> bool:
    """Ask again without presolve, with another seed and a linear relaxation.

    True if that finds nothing walkable either; False if it is not decided in the
    time. DisagreementError if it finds an arrangement that works.
    """
    twins = _twins(search.scenario)
    in_order = _orders(twins) > MOST_ORDERS
    model = Model(search.scenario, canonical=in_order)
    model.finish()
    cuts = list(search.cuts)
    while True:
        for cut in cuts:
            # Found with alike pieces in one order; they may stand in any where none is kept.
            for each in [cut] if in_order else cut.for_twins(twins):
                each.add_to(model)
        answer = solve(model, search.budget, seed=search.seed, goal="any", second_opinion=True)
        if answer.arrangement is None:
            return answer.status == "none"
        if not breaches(search.scenario, answer.arrangement):
            raise DisagreementError("two solver configurations disagree on whether this works")
        scene = Scene(search.scenario, answer.arrangement)
        cuts = search.blocked(scene)
        if not cuts:
            return False


def _twins(scenario: Scenario) -> dict[str, list[str]]:
    """For each piece the names of all that are alike, its own among them."""
    groups = [[piece.name for piece in group] for group in scenario.alike_groups()]
    return {name: group for group in groups for name in group}


def _orders(twins: Mapping[str, Sequence[str]]) -> int:
    """In how many orders alike pieces could stand in the same places."""
    groups = {tuple(names) for names in twins.values()}
    return math.prod(math.factorial(len(names)) for names in groups)


@dataclass
class FeasibilityOracle:
    """Settles one scenario after another within one budget.

    Wishes, prices, titles and the like make no difference, so that scenarios that
    differ in these alone are settled once. What was learnt about paths is used again
    in other scenarios of the same room. ``budget`` may be exchanged for another, so that
    parts of an answer have parts of its time.
    """

    seconds: InitVar[float]
    seed: int = 0
    stop: InitVar[Callable[[], bool]] = lambda: False
    asked: int = 0
    budget: Budget = field(init=False)
    _memory: Memory = field(init=False, default_factory=Memory)
    _known: dict[tuple[Scenario, bool], Feasibility] = field(init=False, default_factory=dict)

    def __post_init__(self, seconds: float, stop: Callable[[], bool]) -> None:
        self.budget = Budget(seconds, stop)

    @property
    def left(self) -> float:
        """Seconds left; 0 once someone asked to stop."""
        return self.budget.left

    def decide(
        self, scenario: Scenario, *, seconds: float = math.inf, sure: bool = False
    ) -> Feasibility:
        """Whether any arrangement keeps every must; "not decided" if time runs out.

        ``seconds`` limits this one question. ``sure`` has "impossible" confirmed by a
        second solver configuration.
        """
        plain = _plain(scenario)
        known = self._known.get((plain, True)) or self._known.get((plain, sure))
        if known is not None:
            return known
        budget = self.budget.portion(seconds)
        if budget.over:
            return Feasibility("not decided")
        self.asked += 1
        answer = decide(scenario, budget, seed=self.seed, sure=sure, memory=self._memory)
        if answer.answer != "not decided":
            self._known[plain, sure or answer.works] = answer
        return answer


def _plain(scenario: Scenario) -> Scenario:
    """What the answer depends on."""
    pieces = tuple(p.unpriced for p in scenario.pieces)
    return replace(musts_only(scenario), pieces=pieces, title="", today=(), expected=None)
