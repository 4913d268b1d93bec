"""The ladder of sizes: one piece in one size after another, everything else as it is.

A size **works** if some arrangement keeps every must. It works **comfortably** if some
arrangement does so with every clearance of this piece itself as deep as is comfortable,
not only at its least: floor, and free, and reached by the walkway like that. The
neighbours of the piece may be down to their least; how many of their clearances are
comfortable too, in the best arrangement found, is told beside.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from arrange.budget import LENT, LENT_ONE, WORKING, WORKING_TIMES
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.change import Exchange, LetMove, changed
from arrange.data.people import as_another
from arrange.data.piece import comfort
from arrange.data.result import FULL, NOTHING, Verdict
from arrange.data.scenario import Scenario
from arrange.data.sizes import Ladder, Rung, Size, SizeTable
from arrange.judge import breaches, judge
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.scoring import scale_of, with_use
from arrange.solver.feasibility import FeasibilityOracle
from arrange.suggesting import suggest
from arrange.whatif.swap import holding

DEFAULT_SECONDS = 120.0


class _Best(NamedTuple):
    """The best arrangement found in one size, the judge's verdict, a standing that none exceeds.

    The bound is ``NOTHING`` where the search for the best proved that nothing works.
    """

    arrangement: Arrangement | None
    verdict: Verdict | None
    bound: int


def ladder(
    scenario: Scenario,
    piece: str,
    table: SizeTable,
    *,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Ladder:
    """Every size of ``table`` tried for ``piece``.

    Parameters
    ----------
    scenario
        As ``read`` returns it. Where the piece stands today is forgotten.
    piece
        Its name; KeyError if there is none.
    table
        As ``standard_sizes`` or ``range_of_sizes`` make it.
    seconds
        For all sizes together. Whether they work comes first, then the best score of
        each that does; what the time leaves out is "not decided" or not proven best.
    seed, stop
        As for ``suggest``.
    say
        Told now and then what is being looked at.

    Each size is asked by itself: that a smaller one works proves nothing here.
    """
    scenario.piece(piece)
    scenario = with_use(scenario)
    oracle = FeasibilityOracle(seconds, seed, stop)
    rungs = _Climb(scenario, piece, table.sizes, oracle, say).rungs()
    return Ladder(scenario, piece, table, rungs, oracle.budget.stopped)


def in_size(scenario: Scenario, piece: str, size: Size) -> Scenario:
    """The scenario with the piece in that size, free to move. KeyError if there is none."""
    new = size.piece
    if new.kind != scenario.piece(piece).kind:
        new = as_another(new, scenario.people)
    return changed(scenario, [LetMove(piece), Exchange(piece, new)])


def made_comfortable(scenario: Scenario, piece: str) -> Scenario:
    """The scenario in which the comfortable clearances of ``piece`` are musts."""
    own = scenario.setting(ComfortableClearance.id).comfortable
    old = scenario.piece(piece)
    clearances = tuple(
        # What nobody walks to at its least is not walked to when it is deeper.
        replace(c, least=max(c.least, comfort(c, own)), walk=c.walk and c.least > 0)
        for c in old.clearances
    )
    # The tied and the held stay as they are: the size is the same.
    return changed(scenario, [Exchange(piece, replace(old, clearances=clearances))])


class _Climb:
    """One ladder being asked for, within one time limit."""

    def __init__(
        self,
        scenario: Scenario,
        piece: str,
        sizes: Sequence[Size],
        oracle: FeasibilityOracle,
        say: Callable[[str], None],
    ) -> None:
        self.piece, self.sizes, self.oracle, self.say = piece, sizes, oracle, say
        self.budget = oracle.budget
        self.cases = [in_size(scenario, piece, size) for size in sizes]

    def rungs(self) -> tuple[Rung, ...]:
        """What works first, on every size; then the scores of those that do."""
        questions = 2 * len(self.sizes)
        works: list[Feasibility] = []
        comfortable: list[Feasibility] = []
        for i, case in enumerate(self.cases):
            self._tell(f"does {self.sizes[i].label} work", i)
            works.append(self._decided(case, questions - 2 * i))
            comfortable.append(
                self._decided(made_comfortable(case, self.piece), questions - 2 * i - 1)
                if works[-1].answer != "impossible"
                else works[-1]
            )
            if comfortable[-1].works and not works[-1].works:
                works[-1] = comfortable[-1]  # what is comfortable works
        bests = self._bests(works, comfortable)
        scales = _scales(self.cases)
        found = zip(self.sizes, self.cases, works, comfortable, bests, scales, strict=True)
        return tuple(self._rung(*each) for each in found)

    def _decided(self, case: Scenario, questions: int) -> Feasibility:
        """An answer, in this question's share of the time for what works."""
        share = self.budget.left * WORKING / questions
        return self.oracle.decide(case, seconds=WORKING_TIMES * share, sure=True)

    def _bests(self, works: list[Feasibility], comfortable: list[Feasibility]) -> list[_Best]:
        waiting = [w.answer != "impossible" for w in works]
        bests, lending = [], self.budget.left * LENT
        for i, case in enumerate(self.cases):
            if not waiting[i]:
                bests.append(_Best(None, None, 0))
                continue
            self._tell(f"the best with {self.sizes[i].label}", i)
            known = [s.arrangement for s in (works[i], comfortable[i]) if s.arrangement]
            seconds = (self.budget.left - lending) / sum(waiting[i:])
            bests.append(self._best(case, known, seconds))
            if bests[-1].bound == NOTHING:
                works[i] = comfortable[i] = Feasibility("impossible")
        self._lend(bests)
        return bests

    def _lend(self, bests: list[_Best]) -> None:
        """Where time was short, what a neighbouring size has, with this one in its place."""
        open_ = [
            i for i, b in enumerate(bests) if b.bound > (b.verdict.standing if b.verdict else 0)
        ]
        for count, i in enumerate(reversed(open_)):  # what holds a larger one holds it, mostly
            self._tell(f"{self.sizes[i].label} among the others", i)
            for j in (i + 1, i - 1):
                lender = bests[j].arrangement if 0 <= j < len(bests) else None
                seconds = self.budget.allow(LENT_ONE, parts=len(open_) - count)
                if lender is not None and self.budget.left > LENT_ONE.least:
                    bests[i] = self._in_place(i, bests[i], lender, seconds)

    def _in_place(self, i: int, best: _Best, lender: Arrangement, seconds: float) -> _Best:
        """The best, or better with all others but what goes with the piece as the lender has."""
        case = self.cases[i]
        loose = {self.piece, *case.followers([self.piece])}
        held = [p for p in lender.placements if p.piece not in loose]
        found = self._best(holding(case, held), (), seconds).arrangement
        if found is None:
            return best
        verdict = judge(case, found)
        if best.verdict is not None and best.verdict.standing >= verdict.standing:
            return best
        return best._replace(arrangement=found, verdict=verdict)

    def _best(self, case: Scenario, known: Sequence[Arrangement], seconds: float) -> _Best:
        """The best in the time, or of what is known already if that is better."""
        choices, bound = [(a, judge(case, a)) for a in known], FULL
        if seconds > 0:
            stop, seed = (lambda: self.budget.stopped), self.oracle.seed
            result = suggest(case, top=1, seconds=seconds, seed=seed, stop=stop)
            choices = [(s.arrangement, s.verdict) for s in result.suggestions] + choices
            if result.outcome == "impossible":
                return _Best(None, None, NOTHING)
            bound = result.bound if result.suggestions else FULL
        if not choices:
            return _Best(None, None, bound)
        arrangement, verdict = max(choices, key=lambda choice: choice[1].standing)
        return _Best(arrangement, verdict, bound)

    def _rung(
        self,
        size: Size,
        case: Scenario,
        works: Feasibility,
        comfortable: Feasibility,
        best: _Best,
        scale: int,
    ) -> Rung:
        if best.verdict is None or best.arrangement is None:
            return Rung(size, works.answer, comfortable.answer, scale=scale)
        own = [r for r in best.verdict.reasons if r.rule == ComfortableClearance.id]
        others = [r.won == r.possible for r in own if r.subjects != (self.piece,)]
        answer = comfortable.answer
        if answer == "not decided" and _comfortable(case, self.piece, best.arrangement):
            answer = "works"
        return Rung(
            size,
            "works",
            answer,
            best.arrangement,
            best.verdict,
            best.bound,
            (sum(others), len(others)),
            scale,
        )

    def _tell(self, stage: str, done: int) -> None:
        self.say(f"{stage}, {done + 1} of {len(self.sizes)}")


def _scales(cases: Sequence[Scenario]) -> list[int]:
    """A number for each way in which the hundred points are shared out."""
    scales = [scale_of(case) for case in cases]
    return [scales.index(scale) for scale in scales]


def _comfortable(case: Scenario, piece: str, arrangement: Arrangement) -> bool:
    return not breaches(made_comfortable(case, piece), arrangement)
