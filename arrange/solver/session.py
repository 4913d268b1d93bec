"""One run: the best, the next different ones, every family; what was proven and when."""

from __future__ import annotations

from collections.abc import Callable

from arrange.data.result import Families, Family, Outcome, Suggestion
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.progress import Listener, Progress
from arrange.solver.engine import Clock, solve
from arrange.solver.families import Key, key_of, named
from arrange.solver.model import Model
from arrange.solver.question import Best
from arrange.solver.replay import confirm
from arrange.solver.search import Search


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
        self.clock = Clock(seconds, stop)
        self.listener = listener
        self.first_seconds: float | None = None
        self.outcome: Outcome = "nothing found"
        self.bound = 1000
        self._stage, self._rank, self._families = "looking for the best", 1, 0
        self.search = Search(scenario, self.clock, seed, self._heard)

    @property
    def seconds(self) -> float:
        """Seconds since the run began."""
        return self.clock.elapsed

    @property
    def interrupted(self) -> bool:
        """Whether someone asked to stop."""
        return self.clock.stopped

    def different(self, top: int) -> tuple[Suggestion, ...]:
        """The best arrangement, then the best of those different from all before."""
        found: list[Suggestion] = []
        keys: list[Key] = []
        bound = 1000
        for rank in range(1, top + 1):
            self._rank = rank
            began = self.clock.elapsed
            best = self.search.best(excluded=keys, bound=bound)
            if rank == 1:
                self._conclude(best)
            if best.arrangement is None:
                break
            confirm(self.scenario, best.arrangement)
            verdict = judge(self.scenario, best.arrangement)
            found.append(
                Suggestion(
                    rank,
                    best.arrangement,
                    verdict,
                    best.proven,
                    best.bound,
                    self.clock.elapsed - began,
                )
            )
            keys.append(key_of(self.scenario, best.arrangement))
            bound = best.bound
            self._stage = "looking for the next different one"
        return tuple(found)

    def _conclude(self, best: Best) -> None:
        """Name the outcome; "impossible" only if a second configuration agrees."""
        self.bound = best.bound
        if best.arrangement is not None:
            self.outcome = "proven" if best.proven else "found"
        elif best.closed and self._surely_impossible():
            self.outcome = "impossible"

    def _surely_impossible(self) -> bool:
        """Ask again without presolve, with another seed and a linear relaxation."""
        model = Model(self.scenario, alike_in_order=False)
        model.finish()
        for cut in self.search.cuts:
            cut.add_to(model)
        answer = solve(model, self.clock, seed=self.search.seed, goal="any", second_opinion=True)
        if answer.arrangement is not None:
            raise DisagreementError("two solver configurations disagree on whether this works")
        return answer.status == "none"

    def families(self) -> Families:
        """Every way the major pieces can stand, best first, while the time lasts."""
        self._stage = "counting every way"
        keys: list[Key] = []
        listed: list[Family] = []
        bound, complete = 1000, False
        while self.clock.left > 0:
            best = self.search.best(excluded=keys, bound=bound)
            if best.arrangement is None:
                complete = best.closed
                break
            key = key_of(self.scenario, best.arrangement)
            keys.append(key)
            bound = best.bound
            listed.append(
                Family(named(self.scenario, key), best.score, best.proven, best.arrangement)
            )
            self._families = len(listed)
        return Families(tuple(listed), complete)

    def _heard(self, best: Best) -> None:
        if best.arrangement is not None and self.first_seconds is None:
            self.first_seconds = self.clock.elapsed
        if self.listener is not None:
            self.listener(
                Progress(
                    self._stage,
                    self._rank,
                    best.score,
                    best.bound,
                    self.clock.elapsed,
                    self._families,
                )
            )
