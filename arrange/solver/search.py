"""Searching for the best arrangement, and proving that there is none better.

At once, then better. A first plan is asked for outright (`Outright`): any arrangement will
do, with walkways as a few rectangles. If it has faults of first rank, one without is asked
for in the same way (`Clearing`). Then two sides work on one question, each on a core
of its own, and what one learns in a round the other uses in the next:

* *bounding* works on the open model, which leaves walkways out, so that nothing it
  rules out can be walkable either. When the judge finds a goal out of reach in what
  it finds, cuts rule out all that is blocked alike;
* *improving* works on the guided model, which has the rectangles, so that what it finds is
  walkable. It asks for the most points, and when that is not decided in its turn, it betters
  the best a part at a time.

The best is proven when nothing better is left on the bounding side. Turns are
measured in CP-SAT's deterministic work, so the same seed gives the same answer.
"""

from __future__ import annotations

import math
import random
from collections import deque
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import FIRST_EXCEPTION, Executor, ThreadPoolExecutor, wait
from dataclasses import replace
from functools import partial
from typing import TypeVar

from arrange.data.arrangement import Arrangement
from arrange.data.result import FULL, NOTHING, parted
from arrange.data.scenario import Scenario
from arrange.solver.engine import Answer, Goal, solve
from arrange.solver.model import Model
from arrange.solver.outright import PINNED, Clearing, Outright, narrowed, ways_to_try
from arrange.solver.question import SIDES, Best, Key, Question, Shared, Way, majors

T = TypeVar("T")

# What is called work is counted in CP-SAT's deterministic seconds.
TOGETHER = 3  # passes on both cores; after them one core is for bounding

# The bounding side
FIRST_STEP = 0.08  # work of the first step in a room of ten pieces; see ``growth``
DIVE = 6  # rounds of one dive
DIVE_WORK = 0.1  # work of one of them
CUT_WORK = 0.02  # work counted for making a cut
LEAST_WORK = 0.02  # work counted for any question: copying takes time too
GROWTH = 2  # how much longer to ask when a question was not decided

# The improving side
# It works so much of what the bounding side last worked: what one waits for the other is lost.
IMPROVING = 0.4
MAXIMISING = 0.1  # work of the first turn in a room of up to ten pieces
# Bettering the best a part at a time: its turn is as long, and counts for so many times as much,
# since the solver does not count the work of making each part smaller.
PART_COST = 3
SLOWER = 1.5  # so many times as much after a turn that brought nothing
# Rectangles, in turns: few are quicker, more allow more. When there is nothing better with
# any of these, one more after the other.
RECTANGLES, MOST = (3, 4), 6
APPROACH = 0.2  # work of coming near to something that cannot be walked
SHARE = 0.1  # work of one attempt to move some
REACH = 0.1  # work of asking for what the bound allows; and of all work so much at most:
REACHING = 0.1
LEAST_TRY = 0.02  # work counted for any attempt: copying costs time too
FREED = (0.3, 0.45, 0.6, 0.8)  # shares of the groups that may move, in turn


def growth(scenario: Scenario) -> float:
    """How much more work a room takes than one of ten pieces: the square of their number."""
    return (len(scenario.pieces) / 10) ** 2


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
        with ThreadPoolExecutor(len(SIDES)) as pool:
            if not excluded and held is None:
                self._first(question, outright, pool)
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

    def _first(self, question: Question, outright: Outright, pool: Executor) -> None:
        """Look for a first arrangement on both cores, for a few passes.

        What the first of two tries finds counts, whenever the second found something: so
        the answer is the same each time, and nobody waits for the second.
        """
        while question.best.arrangement is None and not question.over:
            tries = outright.pair()
            if outright.passes > TOGETHER:
                return
            asked = (partial(outright.ask, *each) for each in zip(SIDES, tries, strict=False))
            answers = self._both(pool, *asked)
            if question.found(SIDES[0]):
                question.drop(SIDES[1])
            elif outright.learn(tries, answers):
                question.lower(question.best.score)
                question.close()
            question.merge_step()

    def _clear(
        self, question: Question, clearing: Clearing, improving: Improving, pool: Executor
    ) -> None:
        """Look for one without faults of first rank, for one pass.

        One core asks for it outright, the other betters the first arrangement. Once the one
        has something, what the other has counts for nothing: so nobody waits for it, and the
        answer is the same each time.
        """
        while clearing.passes <= 1 and not question.over:
            faults = parted(question.best.score)[0]
            if question.best.arrangement is None or not clearing.hopeful(faults):
                return
            outright, parts = SIDES[1], SIDES[0]
            until = partial(question.found, outright)
            self._both(pool, partial(improving.in_passing, until), partial(clearing.step, outright))
            if question.found(outright):
                question.drop(parts)
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
        self._from_above = True  # every other question
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


class Improving:
    """Better arrangements than the best so far, with walkways of a few rectangles.

    In each step, as long as there is work left: as many points as the bound allows, asked
    outright when the bound is new; fewer faults of first rank, every other time; the most
    points, in turns that grow; and after each of these the best bettered a part at a time,
    for as long as that brings something.
    """

    def __init__(self, question: Question, outright: Outright, clearing: Clearing) -> None:
        self._question = question
        self._outright = outright
        self._clearing = clearing
        search = question.search
        self._random = random.Random(search.seed)  # noqa: S311
        self._groups = _groups(search.scenario)
        self._tries = 0
        # Those to be used now come first.
        self._ways = deque(ways_to_try(question, RECTANGLES))
        # Work of the next time that the most points are asked for.
        self.turn = MAXIMISING * max(1.0, len(search.scenario.pieces) / 10)
        self._done = False  # nothing better with as many rectangles as there may be
        self._in_vain = FULL  # the standing that a part at a time does not better: at first unasked
        self._tried: Answer | None = None  # the last that others came near with
        self._reached_for = FULL + 1
        self._cleared = False  # whether fewer faults were the last thing asked for
        self._reaching = REACHING  # work that may go into asking for what the bound allows

    def step(self, work: float) -> None:
        """Go on from the best of the step's beginning until the work is done."""
        left = work
        while left > 0 and not self._question.over:
            best = self._question.seen("improving")
            if self._done or best.score >= self._question.best.bound:
                return
            used = max(self._attempt(best).work, LEAST_TRY)
            left -= used
            self._reaching += REACHING * used

    def in_passing(self, until: Callable[[], bool]) -> None:
        """Better the best a part at a time for a turn, or ``until`` the other side has one."""
        tries = self._tries
        self._better_parts(self._question.seen("improving"), until)
        self._in_vain = FULL
        self._tries = tries + MOST  # however far it came

    def _attempt(self, best: Best) -> Answer:
        near = self._question.near
        if near is not None and near is not self._tried:
            self._tried = near
            return self._approach(near)
        return self._first(best) if best.arrangement is None else self._better(best)

    def _better(self, best: Best) -> Answer:
        """Fewer faults or more points than the best has."""
        bound = self._question.best.bound
        if bound < self._reached_for and self._reaching > 0:
            return self._reach_for(bound)
        faults = parted(best.score)[0]
        if faults > parted(bound)[0] and not self._cleared and self._clearing.hopeful(faults):
            self._cleared = True
            return self._clearing.step("improving")
        self._cleared = False
        return self._better_parts(best) if best.score > self._in_vain else self._maximise(best)

    def _ask(
        self,
        model: Model,
        work: float,
        goal: Goal = "most points",
        hint: Sequence[int] = (),
        *,
        by_parts: bool = False,
        until: Callable[[], bool] = lambda: False,
    ) -> Answer:
        """The answer, handed in if it holds an arrangement."""
        search = self._question.search
        answer = solve(
            model,
            search.budget,
            seed=search.seed + self._tries,
            work=work,
            goal=goal,
            hint=hint,
            by_parts=by_parts,
            until=lambda: self._question.over or until(),
        )
        self._tries += 1
        if answer.arrangement is not None:
            self._question.hand_in("improving", answer)
        return answer

    def _first(self, best: Best) -> Answer:
        """Any arrangement: near the one of another question, or in a turn of asking outright."""
        start = self._question.start
        if start is not None and start.arrangement is not None and self._tries % 3:
            return self._move_some(start.arrangement, best.score)
        attempt = self._outright.take()
        answer = self._outright.ask("improving", attempt)
        self._outright.learn([attempt], [answer])
        self._tries += 1
        return answer

    def _guided(self) -> Model:
        """With pieces wherever they may be."""
        return narrowed(self._question, replace(self._ways[0], at_walls=False))

    def _reach_for(self, points: int) -> Answer:
        """As many points as the bound allows."""
        model = self._guided()
        model.must(model.points >= points)
        answer = self._ask(model, REACH, "any")
        self._reaching -= answer.work
        self._reached_for = points
        return answer

    def _maximise(self, best: Best) -> Answer:
        """The most points, setting out from the best; longer each time it brings nothing.

        No score is asked for: told to find more, the solver finds less in the same time.
        """
        way = self._ways[0]
        hint = self._whole(best, replace(way, at_walls=False)) or best.values
        answer = self._ask(narrowed(self._question, way), self.turn, hint=hint)
        if answer.status in ("best", "none"):
            self._ways.popleft()
            self._ways = self._ways or deque([Way(max(way.rectangles, *RECTANGLES) + 1)])
            self._done = self._ways[0].rectangles > MOST
            return answer
        self._in_vain = NOTHING
        if self._question.seen("improving").score <= best.score:
            self.turn *= SLOWER
            self._ways.rotate(-1)
        return answer

    def _better_parts(self, best: Best, until: Callable[[], bool] = lambda: False) -> Answer:
        """Better than the best, most of which is held, with as few rectangles as it takes."""
        answer = Answer("unknown", FULL)
        shapes = self._question.search.shapes
        for way in (Way(n, boxed) for boxed in shapes for n in range(min(RECTANGLES), MOST + 1)):
            whole = self._whole(best, way)
            if whole:
                model = narrowed(self._question, way)
                answer = self._ask(model, self.turn, hint=whole, by_parts=True, until=until)
                break
        if self._question.seen("improving").score <= best.score:
            self._in_vain = best.score
        return replace(answer, work=PART_COST * answer.work)

    def _whole(self, best: Best, way: Way) -> Sequence[int]:
        """A value for every variable, the rectangles too: else the solver may not get back there.

        None if it cannot stand or be walked in that way.
        """
        if best.arrangement is None:
            return ()
        model = narrowed(self._question, way)
        model.pin(best.arrangement)
        return self._ask(model, PINNED).whole

    def _approach(self, near: Answer) -> Answer:
        """The most points with the pieces on their walls and turned as where it is not walkable.

        With all of them, or else with the large ones alone.
        """
        if near.arrangement is None:
            raise ValueError("nothing to come near to")
        answer = Answer("unknown", FULL)
        everything = self._question.search.scenario.pieces
        for pieces in (everything, majors(self._question.search.scenario)):
            model = self._guided()
            for piece in pieces:
                model.hold_stance(near.arrangement.of(piece.name))
            answer = self._ask(model, APPROACH, hint=near.values)
            if answer.arrangement is not None:
                break
        return answer

    def _move_some(self, now: Arrangement, score: int) -> Answer:
        model = self._guided()
        model.must(model.points > score)
        self._hold_most(model, now)
        return self._ask(model, SHARE)

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
                model.stay(placement)


def _groups(scenario: Scenario) -> dict[str, list[str]]:
    """Each untied piece with all that is tied to it, however remotely."""
    groups: dict[str, list[str]] = {}
    for piece in scenario.pieces:
        groups.setdefault(scenario.root(piece.name), []).append(piece.name)
    return groups


def _apart(now: Arrangement, one: str, two: str) -> float:
    a, b = now.of(one), now.of(two)
    return float(abs(a.x - b.x) + abs(a.y - b.y))
