"""Better arrangements, by the guided model: what it finds can be walked.

By turns, it betters the best a part at a time, most of it held and the rest asked anew, and asks
for the most points.
"""

from __future__ import annotations

import random
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import replace

from arrange.data.arrangement import Arrangement
from arrange.data.result import FAULT, FULL, NOTHING, parted
from arrange.data.scenario import Scenario
from arrange.solver.engine import Answer, Goal, Preparing, solve
from arrange.solver.model import Model
from arrange.solver.outright import PINNED, Clearing, Outright, narrowed, ways_to_try
from arrange.solver.question import SIDES, Best, Question, Way, growth, majors

SIDE = SIDES[0]  # of the two, the one that all here is handed in by

# What is called work is counted in CP-SAT's deterministic seconds.
MAXIMISING = 0.3  # work of the first turn in a room of ten pieces; see ``growth``
SLOWER = 2  # so many times as much after a turn that brought nothing
# Of a turn of bettering the best a part at a time, for each piece. It counts for so many times as
# much, since the solver does not count the work of making each part smaller.
PART = 0.006
PART_COST = 3
# Rectangles, in turns: few are quicker, more allow more. When there is nothing better with
# any of these, one more after the other.
RECTANGLES, MOST = (3, 4), 6
APPROACH = 0.2  # work of coming near to something that cannot be walked
SHARE = 0.1  # work of one attempt to move some
REACH = 0.1  # work of asking for what the bound allows; and of all work so much at most:
REACHING = 0.1
LEAST_TRY = 0.02  # work counted for any attempt: copying costs time too
FREED = (0.3, 0.45, 0.6, 0.8)  # shares of the groups that may move, in turn


class Improving:
    """Better arrangements than the best so far, with walkways of a few rectangles.

    In each step, as long as there is work left: as many points as the bound allows, asked
    outright when the bound is new; fewer faults of first rank, every other time; the best
    bettered a part at a time, unless that brought nothing the last time; and the most points,
    in turns that grow. The last two by turns.
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
        self.turn = MAXIMISING * max(1.0, growth(search.scenario))
        self._part = PART * max(10, len(search.scenario.pieces))
        self._done = False  # nothing better with as many rectangles as there may be
        self._in_vain = NOTHING  # the standing that a part at a time does not better
        self._parted = False  # whether that was the last thing tried
        self._tried: Answer | None = None  # the last that others came near with
        self._reached_for = FULL  # that everything can be had is seldom so
        self._cleared = False  # whether fewer faults were the last thing asked for
        self._reaching = REACHING  # work that may go into asking for what the bound allows

    def step(self, work: float) -> None:
        """Go on from the best of the step's beginning until the work is done."""
        left = work
        while left > 0 and not self._question.over:
            best = self._question.seen(SIDE)
            if self._done or best.score >= self._question.best.bound:
                return
            used = max(self._attempt(best).work, LEAST_TRY)
            left -= used
            self._reaching += REACHING * used

    def by_parts(self, until: Callable[[], bool] = lambda: False) -> None:
        """Better the best a part at a time for a turn, or ``until`` the other side has one."""
        tries = self._tries
        self._better_parts(self._question.seen(SIDE), until)
        self._in_vain = NOTHING
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
            return self._clearing.step(SIDE)
        self._cleared = False
        self._parted = best.score > self._in_vain and not self._parted
        return self._better_parts(best) if self._parted else self._maximise(best)

    def _ask(
        self,
        model: Model,
        work: float,
        goal: Goal = "most points",
        hint: Sequence[int] = (),
        *,
        by_parts: bool = False,
        until: Callable[[], bool] = lambda: False,
        preparing: Preparing = "simplified",
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
            preparing=preparing,
        )
        self._tries += 1
        if answer.arrangement is not None:
            self._question.hand_in(SIDE, answer)
        return answer

    def _first(self, best: Best) -> Answer:
        """Any arrangement: near the one of another question, or in a turn of asking outright."""
        start = self._question.start
        if start is not None and start.arrangement is not None and self._tries % 3:
            return self._move_some(start.arrangement, best.score)
        self._tries += 1
        return self._outright.step(SIDE)

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

        No score is asked for: told to find more, the solver finds less in the same time. But
        at walls alone no more faults than there are: that there are more is soon known.
        """
        way = self._ways[0]
        hint = self._whole(best, replace(way, at_walls=False)) or best.values
        model = narrowed(self._question, way)
        if way.at_walls:
            model.must(model.points >= -FAULT * parted(best.score)[0])
        answer = self._ask(model, self.turn, hint=hint)
        if answer.status in ("best", "none"):
            self._ways.popleft()
            self._ways = self._ways or deque([Way(max(way.rectangles, *RECTANGLES) + 1)])
            self._done = self._ways[0].rectangles > MOST
            return answer
        self._in_vain = NOTHING
        if self._question.seen(SIDE).score <= best.score:
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
                answer = self._ask(
                    model, self._part, hint=whole, by_parts=True, until=until, preparing="related"
                )
                break
        if self._question.seen(SIDE).score <= best.score:
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
