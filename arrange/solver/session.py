"""Last touch: the same points, on the same walls, but in tidier places.

The search leaves a piece anywhere within its leeway. People put things into
corners or measure whole centimetres, so of all arrangements that score as much
with every piece on its wall, one with many such places is taken. Lengths in mm.

The model's own opinion of a finished arrangement, to hold against the judge's.

One run: the best, the next different ones, every family; what was proven and when.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from ortools.sat.python import cp_model

from arrange.budget import (
    BEST_OF_FAMILY,
    CONFIRMING,
    CONFIRMING_BUILDS,
    FIRST_SHARE,
    LISTING,
    Budget,
)
from arrange.data.arrangement import Arrangement
from arrange.data.result import Families, Family, Outcome, Suggestion, Verdict
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.progress import Listener, Progress
from arrange.solver.boxes import Expr, Literal
from arrange.solver.engine import Answer, solve
from arrange.solver.families import Key, exclude, key_of, named
from arrange.solver.feasibility import surely_impossible
from arrange.solver.model import Model
from arrange.solver.places import Place
from arrange.solver.question import Best
from arrange.solver.search import Search, growth

WHOLE = 10  # mm; tapes are read in whole centimetres
WORK = 0.15  # deterministic seconds; without an answer the arrangement stays as it is
CORNER, ROUND = 3, 1  # what a piece in a corner and a whole centimetre count


def tidy(model: Model, arrangement: Arrangement, score: int, budget: Budget, seed: int) -> Answer:
    """Ask for a tidier arrangement with every stance held and at least ``score`` points.

    ``model`` is used up. The answer may hold no arrangement.
    """
    for placement in arrangement.placements:
        model.hold_stance(placement)
    model.must(model.points >= score)
    worth: list[tuple[Literal, int]] = []
    for piece in model.scenario.pieces:
        if piece.anchor is None:
            worth += _places(model, model.place(piece.name))
    model.cp.maximize(sum(weight * literal for literal, weight in worth))
    return solve(model, budget, seed=seed, work=WORK, goal="any")


def _places(model: Model, place: Place) -> list[tuple[Literal, int]]:
    """What is tidy about where one untied piece stands."""
    if not place.offsets:
        x0, y0, _, _ = place.bounds
        return [(_whole(model, place.x0 - x0), ROUND), (_whole(model, place.y0 - y0), ROUND)]
    worth: list[tuple[Literal, int]] = []
    for wall, offset in place.offsets.items():
        last = int(model.scenario.room.walls[wall].length + 1e-6) - place.piece.width
        first, end = model.literal(), model.literal()
        model.when(first, offset == 0)
        model.when(end, offset == last)
        model.implies(first, place.walls[wall])
        model.implies(end, place.walls[wall], first.negated())
        worth += [(first, CORNER), (end, CORNER), (_whole(model, offset), ROUND)]
    return worth


def _whole(model: Model, length: Expr) -> Literal:
    """Whether a length is whole centimetres."""
    literal = model.literal()
    count = model.number(0, 10_000)
    model.when(literal, length == WHOLE * count)
    return literal


def model_score(scenario: Scenario, arrangement: Arrangement) -> int | None:
    """The most points the model gives when every piece is held where it stands.

    In tenths of a point; None if the model finds that a must is broken. The
    walkway is not part of this model: the judge alone decides on it.
    """
    model = Model(scenario, alike_in_order=False)
    model.finish()
    model.pin(arrangement)
    model.cp.maximize(model.points)
    solver = cp_model.CpSolver()
    # Otherwise CP-SAT takes Ctrl-C over, and leaves it without a handler.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    status = solver.solve(model.cp)
    if status == cp_model.INFEASIBLE:
        return None
    if status != cp_model.OPTIMAL:
        raise DisagreementError(f"the model gives no score: {solver.status_name(status)}")
    return int(solver.value(model.points))


def confirm(scenario: Scenario, arrangement: Arrangement) -> Verdict:
    """The judge's verdict; DisagreementError unless the model's score equals its score."""
    verdict = judge(scenario, arrangement)
    score = model_score(scenario, arrangement)
    if score != verdict.score:
        raise DisagreementError(
            f"model {score}, judge {verdict.score}: please report this scenario"
        )
    return verdict


# Deterministic seconds for each further one in a room of ten pieces; see ``growth``.
PATIENCE = 2.0


class Session:
    """Asks one scenario's questions one after another, within one time limit."""

    def __init__(
        self,
        scenario: Scenario,
        seconds: float,
        seed: int,
        listener: Listener | None,
        stop: Callable[[], bool] = lambda: False,
    ) -> None:
        self.scenario = scenario
        self.budget = Budget(seconds, stop)
        self.listener = listener
        self.first_seconds: float | None = None
        self.outcome: Outcome = "nothing found"
        self.bound = 1000
        self.exhausted = False
        self._shown: dict[Key, Best] = {}
        self._stage, self._rank, self._families = "looking for the best", 1, 0
        self.search = Search(scenario, self.budget, seed, self._heard)

    @property
    def seconds(self) -> float:
        """Seconds since the run began."""
        return self.budget.elapsed

    @property
    def interrupted(self) -> bool:
        """Whether someone asked to stop."""
        return self.budget.stopped

    def different(self, top: int) -> tuple[Suggestion, ...]:
        """The best arrangement, then the best of those different from all before.

        The first may take most of the time; the others are given up, unproven,
        after an amount of work that depends on the scenario alone.
        """
        found: list[Suggestion] = []
        keys: list[Key] = []
        _ = self.search.open_model  # built first: how long that takes is what is kept back
        bound = 1000
        last: Best | None = None
        for rank in range(1, top + 1):
            self._rank = rank
            began = self.budget.elapsed
            first = rank == 1
            share = FIRST_SHARE if first and top > 1 else 1.0
            left = self.budget.left
            self.search.budget = self.budget.portion(max(share * left - self._kept_back, left / 2))
            patience = math.inf if first else self._patience
            best = self.search.best(
                excluded=keys,
                bound=bound,
                patience=patience,
                start=last,
            )
            last = best
            if first:
                self._conclude(best)
            if best.arrangement is None:
                self.exhausted = best.closed
                break
            arrangement = self._tidied(best.arrangement, best.score)
            verdict = confirm(self.scenario, arrangement)
            seconds = self.budget.elapsed - began
            found.append(Suggestion(rank, arrangement, verdict, best.proven, best.bound, seconds))
            keys.append(key_of(self.scenario, best.arrangement))
            self._shown[keys[-1]] = best
            bound = best.bound
            self._stage = "looking for the next different one"
        return best_first(found)

    def _tidied(self, arrangement: Arrangement, score: int) -> Arrangement:
        """A tidier arrangement of the same family and score, if there is one at hand."""
        if self.budget.left < self._kept_back:
            return arrangement
        model = self.search.guided_model.copy()
        answer = tidy(model, arrangement, score, self.budget, self.search.seed)
        if answer.arrangement is None:
            return arrangement
        verdict = judge(self.scenario, answer.arrangement)
        return answer.arrangement if verdict.works and verdict.score == score else arrangement

    @property
    def _kept_back(self) -> float:
        """Seconds to keep for what follows a search."""
        return max(CONFIRMING, CONFIRMING_BUILDS * self.search.build_seconds)

    @property
    def _patience(self) -> float:
        return PATIENCE * growth(self.scenario)

    def _conclude(self, best: Best) -> None:
        """Name the outcome; "impossible" only if a second configuration agrees."""
        self.bound = best.bound
        if best.arrangement is not None:
            self.outcome = "proven" if best.proven else "found"
        elif best.closed:
            self.search.budget = self.budget
            self.outcome = "impossible" if surely_impossible(self.search) else self.outcome

    def families(self) -> Families:
        """Every way the major pieces can stand, best first, while the time lasts.

        Listing them takes a part of the time; the rest goes into the best of each.
        """
        self._stage = "counting every way"
        listed: list[Family] = []
        keys, complete = self._ways_to_stand(self.budget.share(LISTING))
        undecided = 0
        for count, key in enumerate(keys):
            seconds = self.budget.allow(BEST_OF_FAMILY, parts=len(keys) - count)
            self.search.budget = self.budget.portion(seconds)
            best = self.search.best(held=key, patience=self._patience)
            shown = self._shown.get(key, best)
            best = shown if shown.score > best.score else best
            if best.arrangement is not None:
                name = named(self.scenario, key)
                listed.append(Family(name, best.score, best.proven, best.arrangement))
            elif not best.closed:
                undecided += 1
            self._families = len(listed)
        listed.sort(key=lambda family: (-family.score, family.key))
        return Families(tuple(listed), complete and not undecided, undecided)

    def _ways_to_stand(self, budget: Budget) -> tuple[list[Key], bool]:
        """The families of the model without walkways, and whether there are no others."""
        model = self.search.open_model.copy()
        keys: list[Key] = []
        while not budget.over:
            answer = solve(model, budget, seed=self.search.seed, goal="any")
            if answer.arrangement is None:
                return keys, answer.status == "none"
            keys.append(key_of(self.scenario, answer.arrangement))
            exclude(model, keys[-1:])
        return keys, False

    def _heard(self, best: Best) -> None:
        if best.arrangement is not None and self.first_seconds is None:
            self.first_seconds = self.budget.elapsed
        if self.listener is not None:
            self.listener(
                Progress(
                    self._stage,
                    self._rank,
                    best.score,
                    best.bound,
                    self.budget.elapsed,
                    self._families,
                )
            )


def best_first(found: list[Suggestion]) -> tuple[Suggestion, ...]:
    """In the order of their scores: what was not proven may have been overtaken.

    The bound of an arrangement is that of the last question that left out none but
    arrangements ranked above it.
    """
    order = sorted(range(len(found)), key=lambda i: -found[i].verdict.score)
    ranked: list[Suggestion] = []
    for rank, index in enumerate(order, start=1):
        above = set(order[: rank - 1])
        question = next(k for k in range(len(found)) if k not in above)
        bound = max(found[question].bound, found[index].verdict.score)
        proven = found[index].verdict.score >= bound
        ranked.append(replace(found[index], rank=rank, bound=bound, proven=proven))
    return tuple(ranked)
