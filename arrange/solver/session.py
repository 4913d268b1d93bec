"""One run: the best, the next different ones, every family; what was proven and when.

What was found has a last touch (`arrange/solver/finishing.py`). Its score in the model, every
piece pinned, must be the judge's score (`Replay`); what the walkway says, the judge alone
decides. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace
from threading import Lock
from typing import Literal as Choice

from arrange.budget import (
    BEST_OF_FAMILY,
    CONFIRMING,
    CONFIRMING_BUILDS,
    FIRST_KEPT,
    FIRST_SHARE,
    JUDGING,
    LISTING,
    REPLAY,
    TOUCH,
    TOUCHING,
    Budget,
)
from arrange.data.arrangement import Arrangement
from arrange.data.result import (
    FULL,
    NOTHING,
    Families,
    Family,
    Listener,
    Outcome,
    Progress,
    Suggestion,
    Verdict,
    parted,
)
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.solver.engine import solve
from arrange.solver.feasibility import surely_impossible
from arrange.solver.finishing import Found, tidied
from arrange.solver.model import Model
from arrange.solver.question import Best, Key, exclude, growth, key_of, named, set_apart
from arrange.solver.search import Search

# Deterministic seconds for each further one in a room of ten pieces; see ``growth``.
PATIENCE = 2.0
FINISHING = 2  # suggestions finished at a time, while the next one is looked for

REPLAY_WORK = 1.0  # deterministic seconds; a model in which every piece is pinned takes 0.0001


@dataclass(frozen=True)
class Finished:
    """A suggestion, and whether the model agreed with its score in the time."""

    suggestion: Suggestion
    confirmed: bool


class Session:
    """Asks one scenario's questions one after another, within one time limit."""

    def __init__(
        self,
        scenario: Scenario,
        seconds: float,
        seed: int,
        listener: Listener | None,
        stop: Callable[[], bool] = lambda: False,
        keep: Callable[[int], float] = lambda _: 0.0,
    ) -> None:
        self.scenario = scenario
        self.budget = Budget(seconds, stop)
        self._keep = keep  # s, for what will be done with so many arrangements
        self.listener = listener
        self.first_seconds: float | None = None
        self.outcome: Outcome = "nothing found"
        self.bound = FULL
        self.exhausted = False
        self.notes: tuple[str, ...] = ()
        self._shown: list[Arrangement] = []
        self._best_of: dict[Key, Best] = {}  # of the families shown
        self._stage, self._rank, self._families = "looking for the best", 1, 0
        self._highest, self._after = (0, NOTHING), 0.0  # rank and score; when it was found
        self.search = Search(scenario, self.budget, seed, self._heard)
        self._replay = Replay(scenario)
        self._finishing = Budget()

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

        The first may take most of the time, and all of it while nothing is found; the
        others are given up, unproven, after an amount of work that depends on the scenario
        alone. Each is finished while the next one is looked for.
        """
        with ThreadPoolExecutor(FINISHING) as pool:
            try:
                waiting = self._searched(top, pool)
                finished = [each.result() for each in waiting]
            except BaseException:
                self.budget.stop()
                self._finishing.stop()
                raise
        if finished and not finished[0].confirmed:
            self.outcome, self.bound = "found", FULL
        ranked = best_first([each.suggestion for each in finished])
        unsure = {each.suggestion.arrangement for each in finished if not each.confirmed}
        return tuple(self._unconfirmed(s) if s.arrangement in unsure else s for s in ranked)

    def _searched(self, top: int, pool: ThreadPoolExecutor) -> list[Future[Finished]]:
        """Every arrangement found, being finished."""
        waiting: list[Future[Finished]] = []
        _ = self.search.open_model  # built first: how long that takes is what is kept back
        bound = FULL
        last: Best | None = None
        for rank in range(1, top + 1):
            self._rank = rank
            began = self.budget.elapsed
            first = rank == 1
            if not first and self._left <= self._kept_back:
                break
            self.search.budget = self._budget(FIRST_SHARE if first and top > 1 else 1.0)
            last = best = self.search.best(
                excluded=self._shown,
                bound=bound,
                patience=math.inf if first else self._patience,
                start=last,
            )
            if first:
                self._conclude(best)
            if best.arrangement is None:
                self.exhausted = best.closed
                break
            # Tidied first: the next ones are to differ from what is shown.
            touched = self._tidied(best, best.arrangement)
            best.arrangement, best.score = touched.arrangement, touched.verdict.standing
            seconds = self.budget.elapsed - began
            waiting.append(pool.submit(self._finish, rank, best, best.arrangement, seconds))
            self._shown.append(best.arrangement)
            self._best_of.setdefault(key_of(self.scenario, best.arrangement), best)
            bound = best.bound
            self._stage = "looking for the next different one"
        return waiting

    @property
    def _left(self) -> float:
        """Seconds left to search in: without those for what is done with all that is found."""
        kept = self._keep(len(self._shown) + 1)
        if self.first_seconds is None:
            kept = min(kept, FIRST_KEPT * self.budget.seconds)
        return max(0.0, self.budget.left - kept)

    def _budget(self, share: float) -> Budget:
        """All the time but what is kept back; once something is found, this share of it."""
        left = self._left
        part = self.budget.portion(max(share * left - self._kept_back, left / 2))

        def enough() -> bool:
            # How much is to be kept for later may be known only by and by.
            over = self.first_seconds is not None and part.over
            return over or self.budget.stopped or self._left <= min(self._kept_back, left / 2)

        return Budget(left, enough)

    def _tidied(self, best: Best, arrangement: Arrangement) -> Found:
        """A tidier one, no less unlike those before; a moment is there for it in any case."""
        most = TOUCHING * self.budget.seconds
        self.search.budget = self._finishing.portion(max(min(self._left - JUDGING, most), TOUCH))
        return last_touch(self.search, arrangement, self._shown, at_a_price=not best.proven)

    def _finish(self, rank: int, best: Best, arrangement: Arrangement, seconds: float) -> Finished:
        """Judged, and put back into the model."""
        arrangement = self.scenario.listed(arrangement)
        verdict, confirmed = self._replay.confirmed(arrangement, self._finishing.portion(REPLAY))
        suggestion = Suggestion(rank, arrangement, verdict, best.proven, best.bound, seconds)
        return Finished(suggestion, confirmed)

    def _unconfirmed(self, suggestion: Suggestion) -> Suggestion:
        """Without any claim that rests on the model, and with a note that says so."""
        self.notes += (
            f"arrangement {suggestion.rank}: its score is the judge's alone; the model was not "
            "done with the same in the time, so nothing about it counts as proven",
        )
        return replace(suggestion, proven=False, bound=FULL)

    @property
    def _kept_back(self) -> float:
        """Seconds to keep for what follows a search."""
        builds = CONFIRMING_BUILDS if self.first_seconds is not None else CONFIRMING_BUILDS / 2
        return max(CONFIRMING, builds * self.search.build_seconds)

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
        keys, complete = self._ways_to_stand(self.budget.portion(LISTING * self._left))
        undecided = 0
        for count, key in enumerate(keys):
            kept = self._keep(len(self._shown))
            seconds = self.budget.allow(BEST_OF_FAMILY, parts=len(keys) - count, keep=kept)
            self.search.budget = self.budget.portion(seconds)
            best = self.search.best(held=key, patience=self._patience)
            shown = self._best_of.get(key, best)
            best = shown if shown.score > best.score else best
            if best.arrangement is not None:
                name = named(self.scenario, key)
                faults, points = parted(best.score)
                arrangement = self.scenario.listed(best.arrangement)
                listed.append(Family(name, points, best.proven, arrangement, faults))
            elif not best.closed:
                undecided += 1
            self._families = len(listed)
        listed.sort(key=lambda family: (family.faults, -family.score, family.key))
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
        now = self.budget.elapsed
        if (self._rank, best.score) > self._highest:
            self._highest, self._after = (self._rank, best.score), now
        if self.listener is not None:
            self.listener(
                Progress(
                    self._stage,
                    self._rank,
                    best.score,
                    best.bound,
                    now,
                    self._families,
                    self._after,
                )
            )


def last_touch(
    search: Search, arrangement: Arrangement, shown: Sequence[Arrangement], *, at_a_price: bool
) -> Found:
    """What a search found, where a tape finds it, and no less unlike those shown before."""
    # The search's own model: it does not know in which order the pieces were given.
    model = search.open_model.copy()
    set_apart(model, shown)
    return tidied(
        model,
        arrangement,
        search.budget,
        search.seed,
        blocked=search.blocked,
        at_a_price=at_a_price,
    )


def best_first(found: Sequence[Suggestion]) -> tuple[Suggestion, ...]:
    """In the order of their scores: what was not proven may have been overtaken.

    The bound of an arrangement is that of the last question that left out none but
    arrangements ranked above it.
    """
    order = sorted(range(len(found)), key=lambda i: -found[i].verdict.standing)
    ranked: list[Suggestion] = []
    for rank, index in enumerate(order, start=1):
        above = set(order[: rank - 1])
        question = next(k for k in range(len(found)) if k not in above)
        bound = max(found[question].bound, found[index].verdict.standing)
        proven = found[index].verdict.standing >= bound
        ranked.append(replace(found[index], rank=rank, bound=bound, proven=proven))
    return tuple(ranked)


class Replay:
    """The model's own opinion of finished arrangements, to hold against the judge's.

    One model serves them all; it may be asked from several threads.
    """

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self._model: Model | None = None
        self._building = Lock()

    def score(
        self, arrangement: Arrangement, budget: Budget, work: float = REPLAY_WORK
    ) -> int | Choice["broken", "not decided"]:
        """The highest standing that the model gives with every piece held where it stands.

        "broken" if the model finds that a must is. The walkway is not part of this model.
        """
        model = self._pinned(arrangement)
        answer = solve(model, budget, work=work)
        if answer.status == "none":
            return "broken"
        return answer.points if answer.status == "best" else "not decided"

    def confirmed(self, arrangement: Arrangement, budget: Budget) -> tuple[Verdict, bool]:
        """The judge's verdict, and whether the model was found to give the same score.

        DisagreementError if it gives another, or finds a must broken. False if that was
        not decided within ``budget``: such a score is the judge's word alone.
        """
        verdict = judge(self.scenario, arrangement)
        score = self.score(arrangement, budget)
        if score not in (verdict.standing, "not decided"):
            raise DisagreementError(
                f"model {score}, judge {verdict.standing}: please report this scenario"
            )
        return verdict, score != "not decided"

    @property
    def model(self) -> Model:
        """The model without walkways, with the pieces as in the file; not to be added to."""
        with self._building:
            if self._model is None:
                self._model = Model(self.scenario, canonical=False)
                self._model.finish()
        return self._model

    def _pinned(self, arrangement: Arrangement) -> Model:
        model = self.model.copy()
        model.pin(arrangement)
        return model
