"""Searching for the best arrangement, and proving that there is none better.

Two models answer the same question, and what one learns the other uses:

* the *open* model leaves walkways out: its optimum bounds every arrangement. When
  the judge finds a goal out of reach there, *cuts* rule out all that is blocked alike;
* the *guided* model has walkways as a few rectangles: what it finds is walkable. It
  is asked first for an arrangement that stands as the open one does (a *repair*),
  and in turns with the open model for any arrangement at all.

The best is proven when the open model has nothing better left. Turns are measured
in CP-SAT's deterministic work, so the same seed gives the same answer.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.goals import empty_floor, goals, walk_of
from arrange.judge import judge
from arrange.scene import Scene
from arrange.solver.cuts import Cut, Cutter
from arrange.solver.engine import Answer, Clock, solve
from arrange.solver.families import Key, exclude, hold_to
from arrange.solver.model import Model
from arrange.solver.walkways import add_walkways
from arrange.walking import Goal

log = logging.getLogger(__name__)

FIRST_TURN = 0.1  # deterministic seconds; each further turn is half as long again
GROWTH = 1.5
REPAIR = 0.05  # deterministic seconds for one repair
RECTANGLES = (5, 8)  # how many the guided model may use; more if fewer give nothing


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

    def __post_init__(self) -> None:
        self._cutter = Cutter(self.scenario)
        self._empty = empty_floor(self.scenario)

    def best(
        self,
        excluded: Sequence[Key] = (),
        held: Key | None = None,
        bound: int = 1000,
    ) -> Best:
        """The best arrangement outside the excluded families (or within the held one)."""
        return _Question(self, excluded, held, Best(bound=bound)).run()

    def unreached(self, scene: Scene) -> list[Goal]:
        """The goals that no walkway reaches."""
        walk = walk_of(scene, self._empty)
        return [g for g in goals(scene) if not walk.reaches(g)]

    def learn(self, scene: Scene, missed: Sequence[Goal]) -> list[Cut]:
        """New cuts from goals out of reach, one for each set of pieces to blame."""
        new: list[Cut] = []
        for goal in missed:
            cut = self._cutter.cut(scene, goal, self.seed + len(self.cuts))
            if cut not in self.cuts:
                self.cuts.append(cut)
                new.append(cut)
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
        self.rectangles = RECTANGLES[0]
        self.open = self._model(0)
        for cut in search.cuts:
            cut.add_to(self.open)
        self.guided: Model = self._model(self.rectangles)
        self.repairer: Model = self._model(self.rectangles)
        self.guided_done = False

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
                opened = pool.submit(self._open_turn, floor, turn)
                self._settle(guided.result(), opened.result())
                turn *= GROWTH
        return self.best

    def _guided_turn(self, floor: int, work: float) -> Answer | None:
        if self.guided_done:
            return None
        self.guided.must(self.guided.points >= floor)
        return solve(
            self.guided, self.search.clock, seed=self.search.seed, work=work, heard=self._heard
        )

    def _open_turn(self, floor: int, work: float) -> Answer:
        """Solve the open model; repair or cut off what cannot be walked; again."""
        search, done = self.search, 0.0
        self.open.must(self.open.points >= floor)
        bound = self.best.bound
        while True:
            answer = solve(self.open, search.clock, seed=search.seed, work=work - done)
            bound = min(bound, answer.bound)
            done += max(answer.work, 1e-3)
            if answer.arrangement is None:
                return Answer(answer.status, bound)
            scene = Scene(search.scenario, answer.arrangement)
            missed = search.unreached(scene)
            if not missed:
                return Answer(answer.status, bound, answer.arrangement, answer.points)
            repaired = self._repair(answer.arrangement, floor, bound)
            for cut in search.learn(scene, missed):
                cut.add_to(self.open)
            if repaired.arrangement is not None:
                return Answer("some", bound, repaired.arrangement, repaired.points)
            if done >= work or search.clock.left <= 0:
                return Answer("unknown", bound)

    def _repair(self, arrangement: Arrangement, floor: int, bound: int) -> Answer:
        """The best walkable arrangement with every piece standing and turned as here."""
        model = self.repairer
        kept = model.copy()
        for placement in arrangement.placements:
            kept.hold_stance(placement)
        kept.must(kept.points >= floor, kept.points <= bound)
        return solve(kept, self.search.clock, seed=self.search.seed, work=REPAIR)

    def _settle(self, guided: Answer | None, opened: Answer) -> None:
        """Take in what both turns found, in a fixed order."""
        best = self.best
        if guided is not None:
            if guided.arrangement is not None:
                self._take(guided.arrangement)
            if guided.status in ("best", "none"):
                self._more_rectangles(found=best.arrangement is not None)
        if opened.arrangement is not None:
            self._take(opened.arrangement)
        if opened.status == "none":
            best.bound = best.score
            best.closed = True
        else:
            best.bound = max(min(best.bound, opened.bound), best.score)
        log.debug("score %s bound %s cuts %s", best.score, best.bound, len(self.search.cuts))
        self.search.heard(best)

    def _more_rectangles(self, *, found: bool) -> None:
        """Nothing more with this many rectangles: stop, or try more if there was nothing."""
        more = [k for k in RECTANGLES if k > self.rectangles]
        if found or not more:
            self.guided_done = True
            return
        self.rectangles = more[0]
        self.guided = self._model(self.rectangles)
        self.repairer = self._model(self.rectangles)

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
