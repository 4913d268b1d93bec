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
import random
from collections.abc import Sequence
from concurrent.futures import FIRST_EXCEPTION, ThreadPoolExecutor, wait

from arrange.data.arrangement import Arrangement
from arrange.data.result import FULL, NOTHING
from arrange.data.scenario import Scenario
from arrange.solver.engine import Answer, Goal, solve
from arrange.solver.model import Model
from arrange.solver.question import Best, Key, Question, Shared

# Deterministic seconds of the first step for a room of ten pieces; see ``growth``.
FIRST_STEP = 0.25
# The improving side works so much of what the bounding side last worked: what one
# waits for the other is lost.
IMPROVING = 0.4

# The bounding side
DIVE = 6  # rounds of one dive
DIVE_WORK = 0.1  # deterministic seconds for one of them
CUT_WORK = 0.02  # deterministic seconds counted for making a cut
LEAST_WORK = 0.02  # deterministic seconds counted for any question: copying takes time too
GROWTH = 2  # how much longer to ask when a question was not decided

# The improving side
SHARE = 0.05  # deterministic seconds for one attempt
FIRST = 0.5  # deterministic seconds for one try to find a first arrangement
# A first arrangement is asked for outright, with a few walkway rectangles: no number of them
# is best everywhere, and how long it takes is a matter of luck. So in short turns over the
# numbers and seeds; each pass doubles the deterministic seconds of a turn.
OUTRIGHT = (2, 3, 4, 5)
TURN = 0.05
REACH = 0.2  # deterministic seconds for asking outright, at first
LEAST_STEP = 0.06  # deterministic seconds of a step at least
LEAST_TRY = 0.02  # deterministic seconds counted for any attempt: copying costs time too
FREED = (0.3, 0.45, 0.6, 0.8)  # shares of the groups that may move, in turn


def growth(scenario: Scenario) -> float:
    """How much more work a room takes than one of ten pieces: the square of their number."""
    return (len(scenario.pieces) / 10) ** 2


class Search(Shared):
    """All questions about one scenario."""

    def best(
        self,
        excluded: Sequence[Key] = (),
        held: Key | None = None,
        bound: int = FULL,
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


class Improving:
    """Finds a first arrangement, then looks for better ones in the ways that worked.

    In each step, as long as there is work left: as many points as the bound allows,
    asked outright when the bound is new; then attempts in which most pieces of the
    best arrangement hold and a few move.
    """

    def __init__(self, question: Question) -> None:
        self._question = question
        search = question.search
        self._open = question.model(search.open_model)
        self._guided = question.model(search.guided_model)
        self._random = random.Random(search.seed)  # noqa: S311
        self._groups = _groups(search.scenario)
        self._tries = 0
        self._waiting: list[int] = []  # rectangles still to be asked for in this pass
        self._hopeless: set[int] = set()  # with so many there is no arrangement at all
        self._turn = TURN / 2
        self._reached_for = 1001
        self._reach = REACH

    def step(self, work: float) -> None:
        """Go on from the best of the step's beginning until the work is done."""
        best = self._question.best
        now, score, left = best.arrangement, best.score, max(work, LEAST_STEP)
        while left > 0 and not self._over():
            answer = self._attempt(now, score)
            left -= max(answer.work, LEAST_TRY)
            newest = self._question.newest("improving")
            if newest is not None and newest.score > score:
                now, score = newest.arrangement, newest.score
            if score >= best.bound:
                return

    def _attempt(self, now: Arrangement | None, score: int) -> Answer:
        bound = self._question.best.bound
        if now is None:
            start = self._question.start
            if start is not None and start.arrangement is not None and self._tries % 3:
                return self._move_some(start.arrangement, score)
            return self._outright() if start is None else self._first()
        if bound < self._reached_for:
            return self._reach_for(bound)
        return self._move_some(now, score)

    def _over(self) -> bool:
        return self._question.over

    def _ask(self, model: Model, work: float, goal: Goal = "most points") -> Answer:
        search = self._question.search
        seed = search.seed + self._tries
        answer = solve(model, search.budget, seed=seed, work=work, goal=goal, until=self._over)
        self._tries += 1
        return answer

    def _outright(self) -> Answer:
        """Any arrangement with so many walkway rectangles; before each pass one without any."""
        if not self._waiting:
            self._waiting = [count for count in OUTRIGHT if count not in self._hopeless]
            self._turn *= 2
            return self._first()
        count = self._waiting.pop(0)
        model = self._question.model(self._question.search.guided_with(count))
        answer = self._handed_in(self._ask(model, self._turn, "any"))
        if answer.status == "none":
            self._hopeless.add(count)
        return answer

    def _first(self) -> Answer:
        """Any arrangement without walkways; repaired if it cannot be walked, and learnt from."""
        question = self._question
        answer = self._ask(self._open.copy(), FIRST, "any")
        if answer.arrangement is not None:
            cuts = question.cuts_for("improving", answer.arrangement)
            for cut in cuts:
                cut.add_to(self._open)
            if cuts:
                self._repair(answer.arrangement)
            else:
                question.hand_in("improving", answer)
        return answer

    def _repair(self, arrangement: Arrangement) -> Answer:
        """A walkable one with every piece on the same wall and turned the same way."""
        model = self._guided.copy()
        for placement in arrangement.placements:
            model.hold_stance(placement)
        return self._handed_in(self._ask(model, SHARE, "any"))

    def _reach_for(self, points: int) -> Answer:
        """As many points as the bound allows; longer each time it stays undecided."""
        model = self._guided.copy()
        model.must(model.points >= points)
        answer = self._handed_in(self._ask(model, self._reach, "any"))
        if answer.status == "unknown":
            self._reach *= 2
        self._reached_for = points
        return answer

    def _move_some(self, now: Arrangement, score: int) -> Answer:
        model = self._guided.copy()
        model.must(model.points > score)
        self._hold_most(model, now)
        return self._handed_in(self._ask(model, SHARE))

    def _handed_in(self, answer: Answer) -> Answer:
        if answer.arrangement is not None:
            self._question.hand_in("improving", answer)
        return answer

    def _hold_most(self, model: Model, now: Arrangement) -> None:
        """Hold all groups but some neighbours of one drawn at random."""
        share = FREED[self._tries % len(FREED)]
        count = max(2, round(share * len(self._groups)))
        names = list(self._groups)
        if not names:  # a room without pieces: there is nothing to hold
            return
        middle = self._random.choice(names)
        names.sort(key=lambda n: (_apart(now, middle, n) * self._random.uniform(0.3, 1.0), n))
        freed = {piece for name in names[:count] for piece in self._groups[name]}
        for placement in now.placements:
            if placement.piece not in freed:
                model.place(placement.piece).pin(model.cp, placement)


def _groups(scenario: Scenario) -> dict[str, list[str]]:
    """Each untied piece with all that is tied to it, however remotely."""
    anchors = {p.name: p.anchor for p in scenario.pieces}
    groups: dict[str, list[str]] = {}
    for piece in scenario.pieces:
        top = piece.name
        while (host := anchors[top]) is not None:
            top = host
        groups.setdefault(top, []).append(piece.name)
    return groups


def _apart(now: Arrangement, one: str, two: str) -> float:
    a, b = now.of(one), now.of(two)
    return float(abs(a.x - b.x) + abs(a.y - b.y))
