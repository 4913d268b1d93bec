"""An arrangement asked for outright: any will do, or any with fewer faults of first rank.

To ask for one is quicker than to come to it by ever more points, but how long it takes is a
matter of luck: most tries take 0.05, some 2, and no number of walkway rectangles is best
everywhere. So in short turns that grow by the pass, with ever new seeds. For a first one every
other pass is *at once*: without making the model simpler first, which takes half of a short
turn and helps in some rooms, in others not. What is called work is counted in CP-SAT's
deterministic seconds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.arrangement import Arrangement
from arrange.data.result import FAULT, FULL, parted
from arrange.data.scenario import Scenario
from arrange.solver.engine import Answer, solve
from arrange.solver.model import Model
from arrange.solver.question import SIDES, Question, Side

OUTRIGHT = (3, 2, 4, 5)  # walkway rectangles for a first arrangement, in turn
# In rooms of up to so many pieces a first pass has the first two of these alone: making the model
# simpler is quick there, and then little work is enough in most of them.
FEW_PIECES, FEW_TURN = 12, 0.04
TURN, GROWTH = 0.12, 1.6  # work of a turn in the next pass, and by how much it grows by the pass
PINNED = 0.05  # work of asking what an arrangement earns; most take 0.001
CLEARED_BY = (3, 5, 4, 2)  # and for one with fewer faults
CLEARING = 0.35  # work of a turn of that in the first pass; twice as much in each further one


@dataclass(frozen=True)
class Try:
    """One turn: how many rectangles (0: without walkways), its seed, work and hint."""

    rectangles: int
    seed: int
    work: float
    hint: Sequence[int]
    at_once: bool


class Outright:
    """A first arrangement, asked for outright: any will do.

    The tries go round the numbers of rectangles with ever new seeds. From the third pass on
    one turn is for an arrangement without walkways: it may be walkable all the same, it shows
    what cannot be walked, and every other pass sets out from it.
    """

    def __init__(self, question: Question) -> None:
        self._question = question
        self._open = question.model(question.search.open_model)
        self._waiting: list[int] = []
        self._hopeless: set[int] = set()  # with so many there is no arrangement at all
        self._near: Sequence[int] = ()  # values of the last one without walkways
        self._tries = 0
        # What the first pass would be is left out in larger rooms.
        self.passes = 0 if len(question.search.scenario.pieces) <= FEW_PIECES else 1

    def pair(self) -> list[Try]:
        """The next two tries; one if no more is left of the pass."""
        return [self.take(), *([self.take()] if self._left() else [])]

    def take(self) -> Try:
        """The next try."""
        if not self._left():
            self.passes += 1
            counts = OUTRIGHT[: len(SIDES)] if self.passes == 1 else OUTRIGHT
            hopeful = [each for each in counts if each not in self._hopeless]
            self._waiting = [*([0] if self.passes > 2 or not hopeful else []), *hopeful]
        rectangles = self._left()[0]
        self._waiting = self._left()[1:]
        at_once = self.passes % 2 == 0
        work = TURN * GROWTH ** (self.passes - 2) if self.passes > 1 else FEW_TURN
        seed = self._question.search.seed + self._tries
        self._tries += 1
        return Try(rectangles, seed, work, () if at_once or not rectangles else self._near, at_once)

    def _left(self) -> list[int]:
        # Without walkways it is asked again: that there is no arrangement is for others to say.
        return [each for each in self._waiting if not each or each not in self._hopeless]

    def ask(self, side: Side, attempt: Try) -> Answer:
        """One try; what it finds is handed in, and what cannot be walked is learnt from."""
        question, search = self._question, self._question.search
        count = attempt.rectangles
        model = question.model(search.guided_with(count)) if count else self._open.copy()
        answer = solve(
            model,
            search.budget,
            seed=attempt.seed,
            work=attempt.work,
            goal="any",
            hint=attempt.hint,
            presolve=not attempt.at_once,
            until=lambda: question.over or (side != SIDES[0] and question.found(SIDES[0])),
        )
        if answer.arrangement is None:
            return answer
        cuts = [] if count else question.cuts_for(side, answer.arrangement)
        for cut in cuts:
            cut.add_to(self._open)
        if not cuts and question.hand_in(side, answer) >= 0:
            tell_points(question, side, model, answer.arrangement)
        return answer

    def learn(self, tries: Sequence[Try], answers: Sequence[Answer]) -> bool:
        """Remember what the tries brought; whether there is no arrangement at all."""
        impossible = False
        for attempt, answer in zip(tries, answers, strict=True):
            if answer.status == "none":
                self._hopeless.add(attempt.rectangles)
                impossible = impossible or not attempt.rectangles
            elif not attempt.rectangles and answer.arrangement is not None:
                self._near = answer.values
        return impossible


@dataclass(frozen=True)
class Clear:
    """One turn of asking for fewer faults: with what, its seed and work."""

    rectangles: int
    at_walls: bool
    seed: int
    work: float


class Clearing:
    """Fewer faults of first rank, asked for outright: any arrangement with so few will do.

    The turns go round the numbers of rectangles, with all pieces at walls and without. What
    surely has nothing is not asked again; where no way is left, one fault more is let in.
    """

    def __init__(self, question: Question) -> None:
        self._question = question
        places = places_to_try(question.search.scenario)
        self._ways = [(count, at_walls) for count in CLEARED_BY for at_walls in places]
        self._hopeless: set[tuple[int, bool]] = set()
        self._waiting: list[tuple[int, bool]] = []
        self._faults = 0  # so many are to be had at least, as far as these ways go
        self._tries = 0
        self.passes = 0

    def hopeful(self, faults: int) -> bool:
        """Whether fewer than so many may be had."""
        return self._faults < faults

    def step(self, side: Side) -> Answer:
        """Ask on until a turn has taken its time or has found something, or none is of use."""
        answer = Answer("unknown", FULL)
        while self.hopeful(parted(self._question.seen(side).score)[0]):
            turn = self._take()
            answer = self._ask(side, turn)
            if answer.status != "none" or self._question.over:
                break
            self._rule_out(turn)
        return answer

    def _take(self) -> Clear:
        self._waiting = [way for way in self._waiting if way not in self._hopeless]
        if not self._waiting:
            self._waiting = [way for way in self._ways if way not in self._hopeless]
            self.passes += 1
        self._tries += 1
        seed = self._question.search.seed + self._tries
        return Clear(*self._waiting.pop(0), seed, CLEARING * 2 ** (self.passes - 1))

    def _ask(self, side: Side, turn: Clear) -> Answer:
        question, search = self._question, self._question.search
        model = question.model(search.guided_with(turn.rectangles))
        if turn.at_walls:
            model.keep_to_walls()
        model.must(model.points >= -FAULT * self._faults)
        answer = solve(
            model,
            search.budget,
            seed=turn.seed,
            work=turn.work,
            goal="any",
            until=lambda: question.over,
        )
        if answer.arrangement is not None and question.hand_in(side, answer) >= 0:
            tell_points(question, side, model, answer.arrangement)
        return answer

    def _rule_out(self, turn: Clear) -> None:
        """There is nothing in that way with as few faults as were asked for."""
        self._hopeless.add((turn.rectangles, turn.at_walls))
        if len(self._hopeless) == len(self._ways):
            self._hopeless.clear()
            self._faults += 1


def places_to_try(scenario: Scenario) -> tuple[bool, ...]:
    """Whether to keep pieces at walls: first so, which is less to search, if any can be free."""
    either = any(p.backs and not p.needs_wall for p in scenario.pieces)
    return (True, False) if either else (False,)


def tell_points(question: Question, side: Side, model: Model, arrangement: Arrangement) -> None:
    """Which wishes it fulfils: asked for any, the solver leaves most of them unsaid."""
    search = question.search
    model.pin(arrangement)
    answer = solve(model, search.budget, seed=search.seed, work=PINNED)
    if answer.arrangement is not None:
        question.restate(side, answer.values)
