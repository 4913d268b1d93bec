"""Searching for the best arrangement, and proving that there is none better.

Two sides take turns on one question, and what one learns the other uses:

* *bounding* works on the open model, which leaves walkways out, so that nothing it
  rules out can be walkable either. When the judge finds a goal out of reach in what
  it finds, cuts rule out all that is blocked alike;
* *improving* works on the guided model, which has walkways as a few rectangles, so
  that what it finds is walkable. It moves a few pieces at a time.

The best is proven when nothing better is left on the bounding side. Turns are
measured in CP-SAT's deterministic work, so the same seed gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_EXCEPTION, ThreadPoolExecutor, wait
from dataclasses import dataclass, field
from functools import cached_property

from arrange.budget import Budget
from arrange.data.scenario import Scenario
from arrange.geometry.goals import empty_floor, goals, walk_of
from arrange.geometry.scene import Scene
from arrange.geometry.walking import Goal
from arrange.solver.bounding import Bounding
from arrange.solver.cuts import Cut, Cutter
from arrange.solver.families import Key
from arrange.solver.improving import Improving
from arrange.solver.model import Model
from arrange.solver.question import Best, Question
from arrange.solver.walkways import add_walkways

# Deterministic seconds of the first step for a room of ten pieces; see ``growth``.
FIRST_STEP = 0.25
# The improving side works so much of what the bounding side last worked: what one
# waits for the other is lost.
IMPROVING = 0.4
CAUSES = 2  # how many sets of pieces to blame are looked into at a time
RECTANGLES = 5  # how many the guided model may use


def growth(scenario: Scenario) -> float:
    """How much more work a room takes than one of ten pieces: the square of their number."""
    return (len(scenario.pieces) / 10) ** 2


@dataclass
class Search:
    """All questions about one scenario; models and cuts carry over between them."""

    scenario: Scenario
    budget: Budget
    seed: int = 0
    heard: Callable[[Best], None] = lambda _: None
    cuts: list[Cut] = field(default_factory=list)
    build_seconds: float = 0.0  # what building a model took on this machine

    def __post_init__(self) -> None:
        self._cutter = Cutter(self.scenario, lambda: self.budget.over)
        self._empty = empty_floor(self.scenario)

    @cached_property
    def open_model(self) -> Model:
        """The model without walkways; every cut found so far is in it."""
        watch = Budget()
        model = Model(self.scenario)
        model.finish()
        self.build_seconds = watch.elapsed
        return model

    @cached_property
    def guided_model(self) -> Model:
        """The model with walkways as rectangles."""
        model = Model(self.scenario)
        add_walkways(model, RECTANGLES)
        model.finish()
        return model

    def best(
        self,
        excluded: Sequence[Key] = (),
        held: Key | None = None,
        bound: int = 1000,
        patience: float = math.inf,
        start: Best | None = None,
    ) -> Best:
        """The best arrangement outside the excluded families (or within the held one).

        ``bound`` is what is known already of how much it can score. The search gives
        up on a proof once it has spent ``patience`` in deterministic work. ``start``
        is the best of another question, to set out from.
        """
        best = Best(bound=bound)
        question = Question(self, best, excluded, held, start)
        spent = 0.0
        work = FIRST_STEP * growth(self.scenario)
        bounding, improving = Bounding(question, work), Improving(question)
        with ThreadPoolExecutor(2) as pool:
            while not best.proven and not self.budget.over and spent < patience:
                sides = [
                    pool.submit(improving.step, IMPROVING * bounding.used),
                    pool.submit(bounding.step),
                ]
                try:
                    wait(sides, return_when=FIRST_EXCEPTION)
                    for side in sides:
                        if side.done():
                            side.result()
                except BaseException:
                    self.budget.stop()  # the other side must not go on by itself
                    raise
                spent += bounding.used
                question.merge_step()
        return best

    def unreached(self, scene: Scene) -> list[Goal]:
        """The goals that no walkway reaches."""
        walk = walk_of(scene, self._empty)
        return [g for g in goals(scene) if not walk.reaches(g)]

    def cuts_for(self, scene: Scene, missed: Sequence[Goal]) -> list[Cut]:
        """Cuts for the first few causes why goals are out of reach."""
        made: list[Cut] = []
        for goal in missed:
            if self.budget.over:
                break
            cut = self._cutter.cut(scene, goal, self.seed)
            if not any(known.pieces <= cut.pieces for known in made):
                made.append(cut)
            if len(made) == CAUSES:
                break
        return made

    def keep(self, cuts: Sequence[Cut]) -> None:
        """Put cuts into the model that later questions start from."""
        for cut in cuts:
            if cut not in self.cuts:
                self.cuts.append(cut)
                cut.add_to(self.open_model)
