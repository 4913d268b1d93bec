"""What all questions about one scenario share: its models, and the cuts found so far."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.geometry.goals import empty_floor, goals, walk_of
from arrange.geometry.scene import Scene
from arrange.geometry.walking import Goal
from arrange.scoring import FULL
from arrange.solver.cuts import Cut, Cutter
from arrange.solver.model import Model
from arrange.solver.walkways import add_walkways

CAUSES = 2  # how many sets of pieces to blame are looked into at a time
RECTANGLES = 5  # how many the guided model may use


@dataclass
class Best:
    """The best so far of one question. ``bound`` is proven: nothing scores more.

    ``values`` are those of the variables that all models share, to start from.
    """

    arrangement: Arrangement | None = None
    score: int = -1
    bound: int = FULL
    closed: bool = False
    values: Sequence[int] = ()

    @property
    def proven(self) -> bool:
        """Whether nothing better is left (or nothing at all)."""
        return self.closed or (self.arrangement is not None and self.score >= self.bound)


@dataclass
class Shared:
    """One scenario's models and cuts, the time and the seed; they carry over between questions."""

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
