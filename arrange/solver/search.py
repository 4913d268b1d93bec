"""Searching for the best arrangement, and proving that there is none better.

At once, then better. A first plan is asked for outright, with walkways as a few rectangles: any
arrangement will do (`Outright`), or any without faults of first rank (`Clearing`), each on a core
of its own. Then two sides work on one question, and what one learns in a round the other uses in
the next:

* *bounding* works on the open model, which leaves walkways out, so that nothing it
  rules out can be walkable either. When the judge finds a goal out of reach in what
  it finds, cuts rule out all that is blocked alike;
* *improving* works on the guided model, which has the rectangles, so that what it finds is
  walkable. It betters the best a part at a time and asks for the most points, by turns.

The best is proven when nothing better is left on the bounding side. Turns are
measured in CP-SAT's deterministic work, so the same seed gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import FIRST_EXCEPTION, Executor, ThreadPoolExecutor, wait
from functools import partial
from typing import TypeVar

from arrange.data.arrangement import Arrangement
from arrange.data.result import FULL, NOTHING, parted
from arrange.solver.engine import Answer, solve
from arrange.solver.improving import Improving
from arrange.solver.model import Model
from arrange.solver.outright import Clearing, Outright
from arrange.solver.question import SIDES, Best, Key, Question, Shared, growth

T = TypeVar("T")

# What is called work is counted in CP-SAT's deterministic seconds.
TOGETHER = 2  # passes of asking outright on both cores; after them one core is for bounding

# The bounding side
FIRST_STEP = 0.08  # work of the first step in a room of ten pieces; see ``growth``
DIVE = 6  # rounds of one dive
DIVE_WORK = 0.1  # work of one of them
CUT_WORK = 0.02  # work counted for making a cut
LEAST_WORK = 0.02  # work counted for any question: copying takes time too
GROWTH = 2  # how much longer to ask when a question was not decided

# So much of what the bounding side last worked the improving side works: what one waits for the
# other is lost.
IMPROVING = 0.4


class Search(Shared):
    """All questions about one scenario."""

    def best(
        self,
        excluded: Sequence[Arrangement] = (),
        held: Key | None = None,
        bound: int = FULL,
        patience: float = math.inf,
        start: Best | None = None,
        demanded: Mapping[str, int] | None = None,
        known: Best | None = None,
    ) -> Best:
        """The best arrangement unlike the excluded ones (or within the held family).

        ``bound`` is what is known already of how much it can score. The search gives
        up on a proof once it has spent ``patience`` in deterministic work. ``start``
        is the best of another question, to set out from. ``demanded`` are levels that
        claims, by their keys, have to reach, as if they were musts. ``known`` is the best of
        this question so far, to go on from; or a score alone, without an arrangement: then only
        what surpasses it is looked for, and closed without an arrangement says that nothing does.
        """
        known = known or Best()
        best = Best(known.arrangement, known.score, bound, values=known.values)
        question = Question(self, best, excluded, held, start, demanded)
        outright, clearing = Outright(question), Clearing(question)
        improving = Improving(question, outright, clearing)
        fresh = not excluded and held is None
        with ThreadPoolExecutor(len(SIDES)) as pool:
            if fresh:
                self._first(question, outright, clearing, pool)
                self._clear(question, clearing, improving, pool)
            bounding = Bounding(question, FIRST_STEP * growth(self.scenario))
            spent = 0.0
            while not best.proven and not self.budget.over and spent < patience:
                work = max(improving.turn, IMPROVING * bounding.used)
                self._both(pool, partial(improving.step, work), partial(bounding.step, work))
                spent += bounding.used
                question.merge_step()
        if self.budget.over:
            question.lose_nothing()
        return best

    def _first(
        self, question: Question, outright: Outright, clearing: Clearing, pool: Executor
    ) -> None:
        """Look for a first arrangement, any or one without faults, for a few passes."""
        best = question.best
        while best.arrangement is None and outright.passes <= TOGETHER and not question.over:
            self._or_faultless(question, clearing, partial(outright.step, SIDES[0]), pool)

    def _clear(
        self, question: Question, clearing: Clearing, improving: Improving, pool: Executor
    ) -> None:
        """Look for one without faults, for a few passes; meanwhile better what there is."""
        while clearing.passes <= TOGETHER and not question.over:
            faults = parted(question.best.score)[0]
            if question.best.arrangement is None or not clearing.hopeful(faults):
                return
            self._or_faultless(question, clearing, improving.by_parts, pool)

    def _or_faultless(
        self,
        question: Question,
        clearing: Clearing,
        other: Callable[[Callable[[], bool]], object],
        pool: Executor,
    ) -> None:
        """One core does the other thing, the other asks for fewer faults of first rank.

        Once that has something, what the one has counts for nothing: so nobody waits for it,
        and the answer is the same each time.
        """
        one, faultless = SIDES
        until = partial(question.found, faultless)
        self._both(pool, partial(other, until), partial(clearing.step, faultless))
        if question.found(faultless):
            question.drop(one)
        question.merge_step()

    def _both(self, pool: Executor, *sides: Callable[[], T]) -> list[T]:
        """What the sides bring, each worked out on a core of its own."""
        running = [pool.submit(side) for side in sides]
        try:
            done, _ = wait(running, return_when=FIRST_EXCEPTION)
            for side in done:
                side.result()
            return [side.result() for side in running]
        except BaseException:
            self.budget.stop()  # the other side must not go on by itself
            raise


class Bounding:
    """Asks the open model for the most points, again and again.

    An answer lowers the bound. If it can be walked it is the best there is; if not,
    cuts take it and all that is blocked alike away, and a *dive* asks on with the
    pieces to blame held on their walls until that way to stand is settled.
    """

    def __init__(self, question: Question, work: float) -> None:
        self._question = question
        self._open = question.model(question.search.open_model)
        self._last: Sequence[int] = question.start.values if question.start is not None else ()
        self._limit = max(work, LEAST_WORK)
        self.used = work
        self._started = NOTHING
        self._from_above = True  # every other question; then to simplify it first costs more
        self._blamed: frozenset[str] = frozenset()

    def step(self, work: float) -> None:
        """Ask until so much work is done, or there is nothing left to ask."""
        self.used = 0.0
        while self.used < work and not self._question.over:
            self._ask()

    def _ask(self) -> None:
        """Ask once, for as long as the last questions have shown to be needed."""
        question, best = self._question, self._question.seen("bounding")
        model = self._open.copy()
        # The best itself is let in, so that the solver has something to start from.
        model.must(model.points >= best.score, model.points <= question.proven_bound)
        search = question.search
        hint = best.values if best.score > self._started else self._last
        self._started = best.score
        answer = solve(
            model,
            search.budget,
            seed=search.seed,
            work=self._limit,
            from_above=self._from_above,
            hint=hint,
            preparing="at once" if self._from_above else "simplified",
        )
        self._from_above = not self._from_above
        self.used += max(answer.work, LEAST_WORK)
        if answer.status == "none" or (answer.status == "best" and answer.points == best.score):
            question.lower(best.score)
            question.close()
            return
        if answer.status == "some" and answer.points <= best.score:
            question.lower(answer.bound)
            self._limit *= GROWTH
            return
        question.lower(answer.bound)
        if answer.status != "best":
            self._limit *= GROWTH
        if answer.arrangement is not None:
            self._last, self._blamed = answer.values, frozenset()
            if not self._walk(answer, self._open):
                self._dive(answer.arrangement)

    def _walk(self, answer: Answer, *models: Model) -> bool:
        """Hand in what can be walked; teach the models from what cannot."""
        question = self._question
        if answer.arrangement is None:
            raise ValueError("an answer without an arrangement cannot be walked")
        cuts = question.cuts_for("bounding", answer.arrangement)
        self.used += CUT_WORK * len(cuts)
        for cut in cuts:
            self._blamed |= cut.pieces
            for model in models:
                cut.add_to(model)
        if cuts:
            question.come_near(answer)
        elif question.hand_in("bounding", answer) >= question.proven_bound:
            question.close()
        return not cuts

    def _dive(self, arrangement: Arrangement) -> None:
        """Settle the way in which the pieces to blame stand here, if that is quick."""
        question, last = self._question, self._last
        model = self._open.copy()
        held: set[str] = set()
        for _ in range(DIVE):
            for name in sorted(self._blamed - held):
                model.hold_stance(arrangement.of(name))
            held |= self._blamed
            asked = model.copy()
            asked.must(asked.points > question.seen("bounding").score)
            search = question.search
            answer = solve(asked, search.budget, seed=search.seed, work=DIVE_WORK, hint=last)
            self.used += max(answer.work, LEAST_WORK)
            if answer.arrangement is None:
                if answer.status == "none":
                    self._open.forbid_stances([arrangement.of(name) for name in sorted(held)])
                return
            if answer.points < question.proven_bound:
                return
            last, arrangement = answer.values, answer.arrangement
            if self._walk(answer, model, self._open):
                return
