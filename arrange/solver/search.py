"""Searching for the best arrangement, and proving that there is none better.

Two searches take turns on the same question, and what one learns the other uses:

* the *guided* model has walkways as a few rectangles; what it finds is walkable;
* the *open* model leaves walkways out; its optimum bounds every arrangement. When
  the judge finds a goal out of reach there, cuts rule out all that is blocked alike.

The best is proven when the open model has nothing better left. Turns are measured
in CP-SAT's deterministic work, so the same seed gives the same answer.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.goals import goals, walk_of
from arrange.judge import judge
from arrange.scene import Scene
from arrange.solver.cuts import Cut, Cutter
from arrange.solver.engine import Answer, Clock, solve
from arrange.solver.families import Key, exclude, hold_to
from arrange.solver.model import Model
from arrange.solver.walkways import add_walkways
from arrange.walking import Goal

log = logging.getLogger(__name__)

FIRST_TURN = 0.5  # deterministic seconds; each further turn is twice as long
RECTANGLES = (4, 6, 8)  # how many the guided model may use, when fewer give nothing
CUTS_EACH = 3  # cuts for one goal out of reach, each from another order of widening


@dataclass
class Best:
    """The best so far of one question. ``bound`` is proven: nothing scores more."""

    arrangement: Arrangement | None = None
    score: int = -1
    bound: int = 1000
    closed: bool = False

    @property
    def proven(self) -> bool:
        """Whether nothing better is left (or nothing at all)."""
        return self.closed or (self.arrangement is not None and self.score >= self.bound)


Heard = Callable[[Best], None]


@dataclass
class Search:
    """All questions about one scenario; cuts carry over from one to the next."""

    scenario: Scenario
    clock: Clock
    seed: int = 0
    heard: Heard = lambda _: None
    cuts: list[Cut] = field(default_factory=list)
    rectangles: int = RECTANGLES[0]

    def __post_init__(self) -> None:
        self._cutter = Cutter(self.scenario)

    def best(
        self, excluded: Sequence[Key] = (), held: Key | None = None, bound: int = 1000
    ) -> Best:
        """The best arrangement outside the excluded families (or within the held one)."""
        question = _Question(self, excluded, held, Best(bound=bound))
        return question.run()

    def unreached(self, scene: Scene) -> list[Goal]:
        """The goals that no walkway reaches."""
        walk = walk_of(scene)
        return [g for g in goals(scene) if not walk.reaches(g)]

    def learn(self, scene: Scene, missed: Iterable[Goal]) -> list[Cut]:
        """New cuts from goals out of reach."""
        made = [
            self._cutter.cut(scene, goal, self.seed + k) for goal in missed for k in range(CUTS_EACH)
        ]
        new = [c for c in dict.fromkeys(made) if c not in self.cuts]
        self.cuts += new
        return new


class _Question:
    """One search for a best arrangement, in turns."""

    def __init__(
        self, search: Search, excluded: Sequence[Key], held: Key | None, best: Best
    ) -> None:
        self.search = search
        self.excluded = excluded
        self.held = held
        self.best = best
        self.open = self._model(0)
        for cut in search.cuts:
            cut.add_to(self.open)
        self.guided: Model | None = self._model(search.rectangles)

    def _model(self, rectangles: int) -> Model:
        model = Model(self.search.scenario)
        exclude(model, self.excluded)
        if self.held is not None:
            hold_to(model, self.held)
        if rectangles:
            add_walkways(model, rectangles)
        model.finish()
        model.must(model.points <= self.best.bound)
        return model

    def run(self) -> Best:
        """Take turns until the best is proven or the clock runs out."""
        turn = FIRST_TURN
        with ThreadPoolExecutor(2) as pool:
            while not self.best.proven and self.search.clock.left > 0:
                floor = self.best.score + 1
                guided = pool.submit(self._guided_turn, floor, turn)
                bound = pool.submit(self._open_turn, floor, turn)
                self._settle(guided.result(), bound.result())
                turn *= 2
        return self.best

    def _guided_turn(self, floor: int, work: float) -> Answer | None:
        model, search = self.guided, self.search
        if model is None:
            return None
        model.must(model.points >= floor)
        return solve(
            model, search.clock, seed=search.seed, work=work, heard=self._heard
        )

    def _open_turn(self, floor: int, work: float) -> Answer:
        """Solve the open model; cut off what cannot be walked; again until work is done."""
        search, done = self.search, 0.0
        self.open.must(self.open.points >= floor)
        bound = self.best.bound
        while True:
            answer = solve(self.open, search.clock, seed=search.seed, work=work - done)
            bound = min(bound, answer.bound)
            done += max(answer.work, 1e-3)
            if answer.arrangement is None:
                return answer
            scene = Scene(search.scenario, answer.arrangement)
            missed = search.unreached(scene)
            if not missed:
                return answer
            for cut in search.learn(scene, missed):
                cut.add_to(self.open)
            if done >= work or search.clock.left <= 0:
                return Answer("unknown", bound)

    def _settle(self, guided: Answer | None, bound: Answer) -> None:
        """Take in what both turns found, in a fixed order."""
        best = self.best
        if guided is not None:
            if guided.arrangement is not None:
                self._take(guided.arrangement)
            if guided.status in ("best", "none"):
                self._guided_done(found=best.arrangement is not None)
        if bound.arrangement is not None:
            self._take(bound.arrangement)
        if bound.status == "none":
            best.bound = min(best.bound, max(best.score, -1))
            best.closed = True
        else:
            best.bound = max(min(best.bound, bound.bound), best.score)
        log.debug("score %s bound %s cuts %s", best.score, best.bound, len(self.search.cuts))
        self.search.heard(best)

    def _guided_done(self, *, found: bool) -> None:
        """Nothing more with this many rectangles: stop, or try more if there was nothing."""
        more = [k for k in RECTANGLES if k > self.search.rectangles]
        self.guided = None
        if not found and more:
            self.search.rectangles = more[0]
            self.guided = self._model(more[0])

    def _heard(self, arrangement: Arrangement, points: int) -> None:
        if points > self.best.score:
            self._take(arrangement)
            self.search.heard(self.best)

    def _take(self, arrangement: Arrangement) -> None:
        """Keep an arrangement if the judge passes it and scores it higher."""
        verdict = judge(self.search.scenario, arrangement)
        others = [b for b in verdict.breaches if b.rule != "walkway"]
        if others:
            raise DisagreementError(
                "the judge refuses what the model allows: "
                + "; ".join(b.sentence for b in others)
            )
        if verdict.works and verdict.score > self.best.score:
            self.best.arrangement = arrangement
            self.best.score = verdict.score
