"""Whether a scenario works at all: an arrangement, or the proof that there is none.

Only musts count, so that most answers take one solve. The same cuts and proofs
as in the search for the best are used where walkways make it hard.
"""

from __future__ import annotations

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.data.settled import Settled
from arrange.errors import DisagreementError
from arrange.judge import breaches
from arrange.musts import musts_only
from arrange.scene import Scene
from arrange.solver.engine import Clock, solve
from arrange.solver.learnt import Memory
from arrange.solver.model import Model
from arrange.solver.question import WALKWAY
from arrange.solver.search import Search
from arrange.solver.walkways import add_walkways

QUICK = 0.5  # deterministic seconds for each of the first few questions
ROUNDS = 200  # of asking the open model before the whole search is called in
# Walkway rectangles of the guided models that are asked outright once the open model's
# answer cannot be walked: in tight rooms few of them find in 0.2 s what cuts take 10 s for.
RECTANGLES = (3, 5)


def settle(
    scenario: Scenario,
    clock: Clock,
    *,
    seed: int = 0,
    sure: bool = True,
    memory: Memory | None = None,
) -> Settled:
    """Whether any arrangement of ``scenario`` keeps every must.

    ``sure`` has "impossible" confirmed by a second solver configuration; without
    its agreement in the time left the answer is "not decided". The arrangement of
    "works" has passed the judge. ``memory`` lends cuts of earlier questions, and
    takes in those of this one.
    """
    search = Search(musts_only(scenario), clock, seed)
    if memory is None:
        return _settled(search, sure=sure)
    search.keep(memory.cuts_for(search.scenario))
    answer = _settled(search, sure=sure)
    memory.learn(search.scenario, search.cuts)
    return answer


def _settled(search: Search, *, sure: bool) -> Settled:
    found, impossible = _quickly(search)
    if found is None and not impossible:
        best = search.best()
        found, impossible = best.arrangement, best.closed
    if found is not None:
        return Settled("works", found)
    if impossible and (not sure or surely_impossible(search)):
        return Settled("impossible")
    return Settled("not decided")


def _quickly(search: Search) -> tuple[Arrangement | None, bool]:
    """An arrangement, or whether it is impossible, if the open model says so soon."""
    guided = False
    for _ in range(ROUNDS):
        model = search.open_model.copy()
        answer = solve(model, search.clock, seed=search.seed, work=QUICK, goal="any")
        if answer.arrangement is None:
            return None, answer.status == "none"
        broken = breaches(search.scenario, answer.arrangement)
        if not broken:
            return answer.arrangement, False
        refused = [b.sentence for b in broken if b.rule != WALKWAY]
        if refused:
            raise DisagreementError(
                "the judge refuses what the model allows: " + "; ".join(refused)
            )
        if not guided and (found := _guided(search)) is not None:
            return found, False
        guided = True
        scene = Scene(search.scenario, answer.arrangement)
        search.keep(search.cuts_for(scene, search.unreached(scene)))
    return None, False


def _guided(search: Search) -> Arrangement | None:
    """An arrangement with walkways of a few rectangles, if there is one soon."""
    for count in RECTANGLES:
        model = Model(search.scenario)
        add_walkways(model, count)
        model.finish()
        answer = solve(model, search.clock, seed=search.seed, work=QUICK, goal="any")
        found = answer.arrangement
        if found is not None and not breaches(search.scenario, found):
            return found
    return None


def surely_impossible(search: Search) -> bool:
    """Ask again without presolve, with another seed and a linear relaxation.

    True if that finds nothing walkable either; False if it is not decided in the
    time. DisagreementError if it finds an arrangement that works.
    """
    model = Model(search.scenario, alike_in_order=False)
    model.finish()
    twins = _twins(search.scenario)
    cuts = list(search.cuts)
    while True:
        for cut in cuts:
            # Found with alike pieces in one order; here they may stand in any.
            for each in cut.for_twins(twins):
                each.add_to(model)
        answer = solve(model, search.clock, seed=search.seed, goal="any", second_opinion=True)
        if answer.arrangement is None:
            return answer.status == "none"
        if not breaches(search.scenario, answer.arrangement):
            raise DisagreementError("two solver configurations disagree on whether this works")
        scene = Scene(search.scenario, answer.arrangement)
        cuts = search.cuts_for(scene, search.unreached(scene))
        if not cuts:
            return False


def _twins(scenario: Scenario) -> dict[str, list[str]]:
    """For each piece the names of all that are alike, its own among them."""
    alike: dict[str, list[str]] = {}
    for piece in scenario.pieces:
        alike.setdefault(piece.model, []).append(piece.name)
    return {piece.name: alike[piece.model] for piece in scenario.pieces}
