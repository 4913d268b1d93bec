"""What to have and where it goes, as one decision: the best choice, proven.

Every choice within the budget is a scenario of its own (`arrange/scenario/needs.py`). Its
*value* is the standing of its best arrangement less what its unmet needs take off. Nobody
needs to know the value of each: a choice is *closed* once it is proven that it has none above
what another one has for as little money (`arrange/whatif/choices.py` keeps count). So of each
choice one question is asked of the model without walkways, *is there anything better than
that?*, and most say no in no time. Where there is something better, the search goes on from it.

Where a usual tie (a chair to its desk) has no room the choice is not taken: a tie gives way in
what was decided, not for something that need not be had.

Three things close choices without a question: the budget; what unmet needs take off; and a
*nogood*, a few candidates that find no arrangement by themselves, whatever else is chosen.
Nothing is inferred from sizes: a smaller piece may earn less.

Questions are cut by the solver's own count of work and asked in rounds of two, so that the same
file gives the same answer as long as the time does not run out.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from arrange.budget import REPLAY, TOUCH, Budget
from arrange.data.choosing import Choosing, Pick
from arrange.data.piece import Piece
from arrange.data.result import FULL, NOTHING, Outcome, Result, Suggestion
from arrange.data.scenario import Scenario, Wish
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.scenario.needs import OpenScenario
from arrange.solver.cuts import Cut, Memory
from arrange.solver.engine import Preparing, solve
from arrange.solver.feasibility import FeasibilityOracle
from arrange.solver.question import Best, growth, never_refused
from arrange.solver.search import Search
from arrange.solver.session import Replay, last_touch
from arrange.whatif.choices import Case, Choices
from arrange.whatif.other_plans import other_plans, shown_plans
from arrange.whatif.requirements import dropping_eases

DEFAULT_SECONDS = 60.0
DEFAULT_FURTHER = Decimal(100)
DEFAULT_TOP = 3
# Deterministic work of the first question about a choice in a room of ten pieces (``growth``);
# each further one may take so many times as much.
QUESTION, LONGER = 0.1, 3
LONGEST, LEAST_GROWTH = 20, 0.05  # times it grows; and what is taken for an empty room
WORKS = 0.05  # of asking whether anything fits at all
TRIED, RARELY = 8, 8  # not asked any more if of the first few fewer than one in so many is not
LEAST_WORK = 0.01  # counted for any question: copying takes time too
POLISH = 0.3  # work of proving, while what was found is made better
SIDES = 2  # questions at a time
EFFORTS = 2  # questions without walkways before the whole search is called in
SHRINK = 0.05  # of the time left, for making one nogood small
LONGEST_SHRINK = 1.0  # s for one question of it
RESERVED = 0.1  # of the time, at most, for the last touch of what is shown


@dataclass(frozen=True)
class Said:
    """What one question brought. ``closed``: nothing surpasses what it was asked to surpass."""

    closed: bool
    best: Best | None = None
    cuts: tuple[Cut, ...] = ()
    impossible: bool = False


@dataclass(frozen=True)
class Nogood:
    """Pieces that find no arrangement, tied as they are."""

    names: frozenset[str]
    pieces: frozenset[Piece]
    wishes: frozenset[Wish]

    def holds_in(self, scenario: Scenario) -> bool:
        """Whether all of them are there with all that was asked of them, and the rest only asks.

        What is left out besides them must take demands away and nothing else: the rules say so.
        """
        there = {piece.unpriced: piece.name for piece in scenario.pieces}
        if not (self.pieces <= there.keys() and self.wishes <= set(scenario.wishes)):
            return False
        rest = frozenset(name for piece, name in there.items() if piece not in self.pieces)
        return not rest or dropping_eases(scenario, rest)


def choose(
    file: OpenScenario,
    *,
    top: int = DEFAULT_TOP,
    further: Decimal = DEFAULT_FURTHER,
    curve: bool = True,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Choosing:
    """The best choice of ``file`` that the budget allows, with its plan; and what money buys.

    Parameters
    ----------
    file
        As ``read_open`` returns it.
    top
        How many choices are shown; those after the first are the best found of the others.
    further, curve
        The curve goes up to so much more than may be spent; or there is none.
    seconds
        For everything. The best choice comes first, then the curve.
    seed, stop
        As for ``suggest``.
    say
        Told now and then what is being looked at.

    Raises
    ------
    ScenarioError
        If the file leaves too many ways to choose (``MOST_CHOICES``).
    ValueError
        If ``top`` is below 1, ``further`` below 0 or ``seconds`` not above 0.
    DisagreementError
        If the solver and the judge do not agree: our bug.
    """
    if top < 1 or further < 0 or not seconds > 0:
        raise ValueError("top is 1 or more, further not below 0, seconds above 0")
    return Chooser(file, Budget(seconds, stop), seed, say, further).answer(top, curve=curve)


class Chooser:
    """One answer being looked for."""

    def __init__(
        self,
        file: OpenScenario,
        budget: Budget,
        seed: int,
        say: Callable[[str], None],
        further: Decimal,
    ) -> None:
        self.file, self.whole, self.seed, self.say = file, budget, seed, say
        self.budget = Budget(budget.seconds * (1 - RESERVED), lambda: budget.stopped)
        self.choices = Choices(file, further)
        self.nogoods: list[Nogood] = []
        self.asked = 0
        self._finds = 0
        self._elsewhere: list[Best] = []
        self._tight = True
        self.first_seconds: float | None = None
        self._memory = Memory()
        self._oracle = FeasibilityOracle(math.inf, seed, lambda: self.budget.over)

    def answer(self, top: int, *, curve: bool) -> Choosing:
        """The whole search, then the last touch of what is shown."""
        with ThreadPoolExecutor(SIDES) as pool:
            try:
                self._look(pool, self.choices.within, for_less=False)
                self._look_elsewhere(top - 1)
                if curve:
                    self._look(pool, self.choices.every, for_less=True)
            except BaseException:
                self.budget.stop()
                raise
        return self._said(top, curve=curve)

    # The loop.

    def _look(self, pool: ThreadPoolExecutor, cases: Sequence[Case], *, for_less: bool) -> None:
        """Ask about one choice after another until all are closed or the time is up."""
        waiting: deque[tuple[Case, int]] = deque()
        known = self._finds
        while not self.budget.over:
            ruled_out = sum(c.works is False for c in self.choices.every)
            self._tight = self.asked < TRIED or ruled_out * RARELY >= self.asked
            if not waiting or known != self._finds:  # what is found raises marks
                known = self._finds
                waiting = deque(self._in_order(cases, for_less=for_less))
            self._tell(cases, sum(case.high > mark for case, mark in waiting))
            turn = self._next(waiting)
            if not turn and not self.choices.still_open(cases, for_less=for_less):
                return
            if not turn:
                continue
            if turn[0][0].efforts >= EFFORTS:
                waiting.extendleft(reversed(turn[1:]))
                self._search(*turn[0])
                continue
            said = [pool.submit(self._ask, *each) for each in turn]
            for (case, mark), each in zip(turn, said, strict=True):
                self._learn(case, mark, each.result())

    def _in_order(self, cases: Sequence[Case], *, for_less: bool) -> list[tuple[Case, int]]:
        """The choices still open with what they must surpass, the next ones to ask about first.

        Those least looked into first. For the best: what is most like the best so far; for
        the curve: the cheapest, as what they have the dearer ones must surpass.
        """
        best = self.choices.best
        near = set(best.choice.candidates) if best is not None else set()

        def promise(each: tuple[Case, int]) -> tuple[object, ...]:
            case = each[0]
            other = len(near.symmetric_difference(case.choice.candidates))
            cost = case.choice.cost if for_less else 0
            return case.efforts, cost, -case.high, other, case.area, case.choice.candidates

        return sorted(self.choices.still_open(cases, for_less=for_less), key=promise)

    def _next(self, waiting: deque[tuple[Case, int]]) -> list[tuple[Case, int]]:
        """The next choices to ask about, taken from those waiting; none if there are none."""
        turn: list[tuple[Case, int]] = []
        while waiting and len(turn) < SIDES:
            case, mark = waiting.popleft()
            if case.high > mark and not self._ruled_out(case):
                self._scenario(case)
                turn.append((case, mark))
        return turn

    def _ruled_out(self, case: Case) -> bool:
        """Whether a nogood closes it."""
        if case.works is None and any(
            nogood.names <= set(case.choice.candidates) and nogood.holds_in(self._scenario(case))
            for nogood in self.nogoods
        ):
            case.rule_out()
        return case.works is False

    def _scenario(self, case: Case) -> Scenario:
        if case.scenario is None:
            case.scenario = self.file.scenario(case.choice.candidates)
        return case.scenario

    def _made(self, scenario: Scenario) -> Search:
        search = Search(scenario, self.budget, self.seed)
        search.keep(self._memory.cuts_for(search.scenario))
        return search

    # One question about one choice.

    def _ask(self, case: Case, mark: int) -> Said:
        """Whether anything of this choice has a higher value than ``mark``.

        That it has none says nothing of a choice whose usual ties may have to give way, as
        long as it is not known to work with them.
        """
        search = self._made(self._scenario(case))
        known = len(search.cuts)
        work = QUESTION * _growth(search.scenario) * LONGER ** min(case.efforts, LONGEST)
        beat = case.standing(mark) if mark > NOTHING else NOTHING
        status, found = self._attempt(
            search, beat, work, "simplified" if case.efforts else "at once"
        )
        closed = status == "none"
        never = closed and case.works is None and (beat == NOTHING or self._never(search))
        return Said(closed, found, tuple(search.cuts[known:]), impossible=never)

    def _never(self, search: Search) -> bool:
        """Whether nothing at all fits, walkways left out; False where that is not asked.

        It is closed in any case: this is for the nogoods, and worth it only in tight rooms.
        """
        if not self._tight:
            return False
        answer = solve(
            search.open_model.copy(), self.budget, seed=self.seed, work=WORKS, goal="any"
        )
        return answer.status == "none"

    def _attempt(
        self, search: Search, beat: int, work: float, preparing: Preparing
    ) -> tuple[Literal["none", "some", "unknown"], Best | None]:
        """Any arrangement that stands higher than ``beat``, by the model without walkways.

        To be prepared for at once where it is most likely a quick no.
        """
        left = work
        while left > 0 and not self.budget.over:
            model = search.open_model.copy()
            if beat > NOTHING:
                model.must(model.points > beat)
            answer = solve(
                model,
                self.budget,
                seed=self.seed,
                work=left,
                goal="any",
                preparing=preparing,
            )
            left -= max(answer.work, LEAST_WORK)
            if answer.status == "none":
                return "none", None
            if answer.arrangement is None:
                break
            verdict = judge(search.scenario, answer.arrangement, gaps=False)
            if verdict.works:
                found = Best(answer.arrangement, verdict.standing, values=answer.values)
                return "some", found
            never_refused(verdict.breaches)
            if self.choices.best is None:
                break  # a first plan is asked for outright, with walkways
            cuts = search.blocked(Scene(search.scenario, answer.arrangement))
            if not cuts:
                break
            search.keep(cuts)
        return "unknown", None

    def _learn(self, case: Case, mark: int, said: Said) -> None:
        """Take in what a question brought; go on from what surpasses the mark."""
        self.asked += 1
        case.efforts += 1
        self._memory.learn(self._scenario(case).in_canonical_order, said.cuts)
        if said.best is not None:
            self._found(case, said.best)
        if said.impossible:
            self._without(case)
        elif said.closed:
            case.high = min(case.high, max(mark, case.low))
        elif said.best is not None or self.choices.best is None:
            self._search(case, max(mark, case.low))

    def _search(self, case: Case, mark: int) -> None:
        """The whole search for something better than ``mark``, for a while."""
        search = self._made(self._scenario(case))
        already = len(search.cuts)
        known: Best | None = None
        if case.best is not None and case.low >= mark:
            known = case.best
        elif mark > NOTHING:
            known = Best(score=case.standing(mark))
        longer = LONGER ** min(max(0, case.efforts - EFFORTS), LONGEST)
        best = search.best(
            bound=case.standing(case.high),
            patience=POLISH * _growth(search.scenario) * longer,
            known=known,
        )
        self.asked += 1
        case.efforts += 1
        self._memory.learn(search.scenario, search.cuts[already:])
        if best.arrangement is not None:
            self._found(case, best)
            case.high = min(case.high, max(best.bound - case.choice.lack, case.low))
        elif best.closed and mark == NOTHING:
            self._without(case)
        elif best.closed:
            case.high = min(case.high, mark)
        else:
            case.high = min(case.high, max(best.bound - case.choice.lack, mark))

    def _found(self, case: Case, best: Best) -> None:
        value = best.score - case.choice.lack
        case.works = True
        if value > case.low:
            case.low, case.best = value, best
            self._finds += 1
        if self.first_seconds is None:
            self.first_seconds = self.budget.elapsed

    # What does not work at all.

    def _without(self, case: Case) -> None:
        """A choice without an arrangement: ruled out, and all that have what is to blame."""
        if self._oracle.decide(self._scenario(case), sure=True).answer != "impossible":
            return  # not decided: it is asked again, for longer
        case.rule_out()
        budget = self.budget.share(SHRINK)
        core = list(case.choice.candidates)
        for name in case.choice.candidates:
            fewer = [one for one in core if one != name]
            if not budget.over and self._barred(fewer, budget.left):
                core = fewer
        self._bar(core)

    def _barred(self, names: Sequence[str], seconds: float) -> bool:
        """Whether these candidates alone, with what is there in any case, are impossible."""
        scenario = self.file.scenario(names)
        answer = self._oracle.decide(scenario, seconds=min(seconds, LONGEST_SHRINK), sure=True)
        return answer.answer == "impossible"

    def _bar(self, names: Sequence[str]) -> None:
        scenario = self.file.scenario(names)
        musts = frozenset(wish for wish in scenario.wishes if wish.must)
        pieces = frozenset(piece.unpriced for piece in scenario.pieces)
        self.nogoods.append(Nogood(frozenset(names), pieces, musts))

    # The best choice, arranged otherwise.

    def _look_elsewhere(self, count: int) -> None:
        """Further plans of the best choice, once it is proven, for up to ``count`` shown after it.

        Half of them: the others are other choices, as far as any were found.
        """
        best, choices = self.choices.best, self.choices
        if best is None or not count or self.budget.over or choices.outcome != "proven":
            return
        self.say("looking for other plans of the best choice")
        self._touch(best, self.budget)
        first = Best(best.arrangement, best.standing(best.low), best.standing(best.high))
        others = len(choices.shown(top=count + 1)) - 1
        wanted = max(1, count // 2, count - others)
        self._elsewhere = other_plans(self._made(self._scenario(best)), first, wanted)

    def _picks(self, shown: Sequence[Pick], room: int) -> tuple[Pick, ...]:
        """The best, and up to ``room`` other choices and other plans of the best, best first.

        As many of the one as of the other, if there are; of one alone that which is worth more.
        """
        if not shown or not self._elsewhere:
            return tuple(shown)
        first, others = shown[0], shown[1:]
        found = shown_plans(
            first.scenario, first.choice, first.suggestion, self._elsewhere, self.seed
        )
        plans = found[: max(room // 2, room - len(others))]
        if room == 1 and others:
            plans = [one for one in found if one.value > others[0].value][:1]
        rest = [*others[: room - len(plans)], *plans]
        return (first, *sorted(rest, key=lambda one: -one.value))

    # What is said.

    def _tell(self, cases: Sequence[Case], open_: int) -> None:
        best = self.choices.best
        told = f"{len(cases) - open_} of {len(cases)} ways to choose settled"
        self.say(f"{told}, best so far {best.low / 10:g} points" if best else told)

    def _said(self, top: int, *, curve: bool) -> Choosing:
        """The answer as far as it goes, what is shown of it with its last touch."""
        choices = self.choices
        finishing = Budget(max(self.whole.seconds - self.whole.elapsed, TOUCH))
        for case in choices.shown(top):
            self._touch(case, finishing)
        points = choices.curve() if curve else []
        shown = choices.shown(top)
        made: dict[int, Pick] = {}
        for case in (*shown, *points):
            made[id(case)] = made.get(id(case)) or self._pick(case)
        return Choosing(
            self.file.needs,
            self.file.whole,
            choices.outcome,
            self._picks([made[id(case)] for case in shown], top - 1),
            tuple(made[id(case)] for case in points),
            bool(points) and not choices.still_open(choices.every, for_less=True),
            choices.tally(self.asked),
            choices.further,
            self.whole.elapsed,
            self.first_seconds,
            self.seed,
            interrupted=self.whole.stopped,
            one_scale=choices.one_scale,
            cheapest=choices.cheapest,
        )

    def _touch(self, case: Case, budget: Budget) -> None:
        """Its pieces where a tape finds them, as far as no point is lost; each plan once."""
        if case.touched is case.best:
            return
        search = Search(self._scenario(case), budget, self.seed)
        arrangement = case.arrangement
        touched = last_touch(search, arrangement, (), at_a_price=False)
        self._found(case, Best(touched.arrangement, touched.verdict.standing))
        if touched.verdict.standing - case.choice.lack == case.low:
            case.best = case.touched = Best(touched.arrangement, touched.verdict.standing)

    def _pick(self, case: Case) -> Pick:
        """Judged, and put back into the model: without its word nothing counts as proven."""
        scenario = self._scenario(case)
        arrangement = scenario.listed(case.arrangement)
        verdict, confirmed = Replay(scenario).confirmed(arrangement, Budget(REPLAY))
        if not confirmed:
            case.high = FULL - case.choice.lack
        proven = case.high <= case.low
        bound = case.standing(case.high)
        outcome: Outcome = "proven" if proven else "found"
        seconds = self.whole.elapsed
        one = Suggestion(1, arrangement, verdict, proven, bound, seconds)
        result = Result(scenario, outcome, (one,), bound, seconds, None, self.seed)
        return Pick(case.choice, result, case.low, case.high)


def _growth(scenario: Scenario) -> float:
    return max(growth(scenario), LEAST_GROWTH)
