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
from collections.abc import Sequence
from concurrent.futures import FIRST_EXCEPTION, ThreadPoolExecutor, wait

from arrange.data.scenario import Scenario
from arrange.solver.bounding import Bounding
from arrange.solver.improving import Improving
from arrange.solver.question import Best, Key, Question, Shared

# Deterministic seconds of the first step for a room of ten pieces; see ``growth``.
FIRST_STEP = 0.25
# The improving side works so much of what the bounding side last worked: what one
# waits for the other is lost.
IMPROVING = 0.4


def growth(scenario: Scenario) -> float:
    """How much more work a room takes than one of ten pieces: the square of their number."""
    return (len(scenario.pieces) / 10) ** 2


class Search(Shared):
    """All questions about one scenario."""

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
