"""The side of the search that proves: what no arrangement can reach."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.arrangement import Arrangement
from arrange.data.result import NOTHING
from arrange.solver.engine import Answer, solve
from arrange.solver.model import Model
from arrange.solver.question import Question

DIVE = 6  # rounds of one dive
DIVE_WORK = 0.1  # deterministic seconds for one of them
CUT_WORK = 0.02  # deterministic seconds counted for making a cut
LEAST_WORK = 0.02  # deterministic seconds counted for any question: copying takes time too
GROWTH = 2  # how much longer to ask when a question was not decided


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
        self._limit = work
        self.used = work
        self._started = NOTHING
        self._blamed: frozenset[str] = frozenset()

    def step(self) -> None:
        """Ask once, for as long as the last questions have shown to be needed."""
        question, best = self._question, self._question.best
        model = self._open.copy()
        # The best itself is let in, so that the solver has something to start from.
        model.must(model.points >= best.score, model.points <= best.bound)
        search = question.search
        hint = best.values if best.score > self._started else self._last
        self._started = best.score
        answer = solve(model, search.budget, seed=search.seed, work=self._limit, hint=hint)
        self.used = max(answer.work, LEAST_WORK)
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
        if not cuts and question.hand_in("bounding", answer) >= question.proven_bound:
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
            asked.must(asked.points > question.best.score)
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
