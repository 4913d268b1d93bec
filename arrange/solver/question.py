"""One question of the search, and the place where its two sides meet."""

from __future__ import annotations

import logging
from collections.abc import Sequence
from typing import Literal

from arrange.data.arrangement import Arrangement
from arrange.errors import DisagreementError
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.solver.cuts import Cut
from arrange.solver.engine import Answer
from arrange.solver.families import Key, exclude, hold_to
from arrange.solver.model import Model
from arrange.solver.shared import Best, Shared

log = logging.getLogger(__name__)

Side = Literal["improving", "bounding"]
SIDES: tuple[Side, ...] = ("improving", "bounding")
WALKWAY = "walkway"  # the one must that the models do not settle by themselves


class Question:
    """What both sides share: the models of the question, the best, what was found.

    ``start`` is the best of another question, to set out from.

    During a step each side reads ``best`` as it was when the step began, and hands
    in what it finds; ``merge_step`` takes it all in, in an order that is always the same.
    """

    def __init__(
        self,
        search: Shared,
        best: Best,
        excluded: Sequence[Key],
        held: Key | None,
        start: Best | None = None,
    ) -> None:
        self.search = search
        self.best = best
        self.start = start
        self.closed = False
        self._excluded = excluded
        self._held = held
        self._found: dict[Side, list[Best]] = {side: [] for side in SIDES}
        self._cuts: dict[Side, list[Cut]] = {side: [] for side in SIDES}
        self._bound = best.bound

    @property
    def over(self) -> bool:
        """Whether there is nothing left to do: the time is up, or the question closed."""
        return self.closed or self.search.budget.over

    @property
    def proven_bound(self) -> int:
        """What the bounding side has proven, within its step too."""
        return self._bound

    def model(self, base: Model) -> Model:
        """A copy of a model for this question alone."""
        model = base.copy()
        exclude(model, self._excluded)
        if self._held is not None:
            hold_to(model, self._held)
        model.must(model.points <= self.best.bound)
        return model

    def hand_in(self, side: Side, answer: Answer) -> int:
        """Offer an arrangement; returns its score, or -1 if it cannot be walked after all.

        Heard of at once, kept at the settling.
        """
        if answer.arrangement is None:
            return -1
        verdict = judge(self.search.scenario, answer.arrangement, gaps=False)
        refused = [b.sentence for b in verdict.breaches if b.rule != WALKWAY]
        if refused:
            raise DisagreementError(
                "the judge refuses what the model allows: " + "; ".join(refused)
            )
        if not verdict.works:
            return -1
        found = Best(answer.arrangement, verdict.score, self._bound, values=answer.values)
        self._found[side].append(found)
        if verdict.score > self.best.score:
            self.search.heard(found)
        return verdict.score

    def newest(self, side: Side) -> Best | None:
        """The best that one side handed in during this step."""
        return max(self._found[side], key=lambda found: found.score, default=None)

    def cuts_for(self, side: Side, arrangement: Arrangement) -> list[Cut]:
        """Cuts for what is out of reach; none if everything can be walked to."""
        scene = Scene(self.search.scenario, arrangement)
        cuts = self.search.cuts_for(scene, self.search.unreached(scene))
        self._cuts[side] += cuts
        return cuts

    def lower(self, bound: int) -> None:
        """Nothing scores more than ``bound``; said by the bounding side alone."""
        self._bound = min(self._bound, bound)

    def close(self) -> None:
        """Nothing better than what the bounding side has is left; ends both steps.

        What the improving side brings in this step is dropped: whether it was in time
        would depend on the machine.
        """
        self.closed = True

    def merge_step(self) -> None:
        """Take in what the step brought."""
        best = self.best
        for side in SIDES:
            if not (self.closed and side == "improving"):
                for found in self._found[side]:
                    if found.score > best.score:
                        best.arrangement, best.score = found.arrangement, found.score
                        best.values = found.values
                self.search.keep(self._cuts[side])
            self._found[side].clear()
            self._cuts[side].clear()
        best.bound = max(self._bound, best.score)
        best.closed = self.closed
        log.debug("score %s bound %s cuts %s", best.score, best.bound, len(self.search.cuts))
        self.search.heard(best)
