"""The side of the search that improves: a few pieces move, the others hold."""

from __future__ import annotations

import random

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.solver.engine import Answer, Goal, solve
from arrange.solver.model import Model
from arrange.solver.question import Question

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
