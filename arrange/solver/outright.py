"""An arrangement asked for outright: any will do, or any with fewer faults of first rank.

To ask for one is quicker than to come to it by ever more points, but how long it takes is a
matter of luck, and no number of walkway rectangles is best everywhere. So in short turns that
grow by the pass, with ever new seeds, and prepared for in another way each pass. What is called
work is counted in CP-SAT's deterministic seconds.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from arrange.data.arrangement import Arrangement
from arrange.data.result import FAULT, FULL, parted
from arrange.solver.engine import Answer, Preparing, solve
from arrange.solver.model import Model
from arrange.solver.question import Question, Side, Way

OUTRIGHT = (2, 3, 5, 4)  # walkway rectangles for a first arrangement, in turn
PREPARING: tuple[Preparing, ...] = ("related", "at once", "simplified")  # pass by pass
TURN = 0.01  # work of a turn in the first pass, for each piece
GROWTH = 1.6  # so many times as much in each further pass
BOXED_PASSES = 2  # with what is round as its box alone, as long as there is anything so
WALK_UNSEEN = Way(0)
PINNED = 0.05  # work of asking what an arrangement earns; most take 0.001
CLEARED_BY = (3, 5, 2, 4)  # and for one with fewer faults


@dataclass(frozen=True)
class Try:
    """One turn: in which way (0 rectangles: without walkways), its seed, work and the like."""

    way: Way
    seed: int
    work: float
    preparing: Preparing
    hint: Sequence[int] = ()


class Outright:
    """A first arrangement, asked for outright: any will do.

    The tries go round the numbers of rectangles with ever new seeds. From the third pass on
    one turn is for an arrangement without walkways: it may be walkable all the same, it shows
    what cannot be walked, and every third pass sets out from it. Until then what is round is
    its box.
    """

    def __init__(self, question: Question) -> None:
        self._question = question
        self._open = question.model(question.search.open_model)
        self._waiting: list[Way] = []
        self._hopeless: set[Way] = set()  # so there is no arrangement at all
        self._shapes = question.search.shapes
        self._near: Sequence[int] = ()  # values of the last one without walkways
        self._tries = 0
        self.passes = 0

    def _take(self) -> Try:
        """The next try."""
        if not self._left():
            self.passes += 1
            late = self.passes > BOXED_PASSES
            hopeful = self._hopeful(self._shapes if late else self._shapes[:1])
            hopeful = hopeful or self._hopeful(self._shapes)
            self._waiting = [*([WALK_UNSEEN] if late or not hopeful else []), *hopeful]
        way = self._left()[0]
        self._waiting = self._left()[1:]
        preparing = PREPARING[(self.passes - 1) % len(PREPARING)]
        seed = self._question.search.seed + self._tries
        self._tries += 1
        hint = self._near if preparing == "simplified" and way.rectangles else ()
        return Try(way, seed, _work(self._question, self.passes), preparing, hint)

    def _hopeful(self, shapes: Sequence[bool]) -> list[Way]:
        ways = (Way(count, boxed=boxed) for boxed in shapes for count in OUTRIGHT)
        return [way for way in ways if way not in self._hopeless]

    def _left(self) -> list[Way]:
        # Without walkways it is asked again: that there is no arrangement is for others to say.
        return [w for w in self._waiting if not w.rectangles or w not in self._hopeless]

    def step(self, side: Side, until: Callable[[], bool] = lambda: False) -> Answer:
        """Ask on until a try has taken its time or has found something, or there is nothing.

        Or ``until`` it is of no use. Closes the question if there is no arrangement at all.
        """
        work = 0.0
        while True:
            attempt = self._take()
            answer = self._ask(side, attempt, until)
            work += answer.work
            if answer.status != "none" or self._question.over:
                return replace(answer, work=work)
            self._hopeless.add(attempt.way)
            if not attempt.way.rectangles:
                self._question.lower(self._question.best.score)
                self._question.close()
                return replace(answer, work=work)

    def _ask(self, side: Side, attempt: Try, until: Callable[[], bool]) -> Answer:
        """One try; what it finds is handed in, and what cannot be walked is learnt from."""
        question, count = self._question, attempt.way.rectangles
        model = narrowed(question, attempt.way) if count else self._open.copy()
        answer = _asked(question, model, attempt, until)
        if answer.arrangement is None:
            return answer
        cuts = []
        if not count:
            self._near = answer.values
            cuts = question.cuts_for(side, answer.arrangement)
        for cut in cuts:
            cut.add_to(self._open)
        if not cuts and question.hand_in(side, answer) >= 0:
            tell_points(question, side, model, answer.arrangement)
        return answer


class Clearing:
    """Fewer faults of first rank, asked for outright: any arrangement with so few will do.

    The turns go round the numbers of rectangles, from the second pass on with all pieces at
    walls, too, what is round as its box and as it is. What surely has nothing is not asked
    again; where no way is left, one fault more is let in, in another step.
    """

    def __init__(self, question: Question) -> None:
        self._question = question
        self._ways = ways_to_try(question, CLEARED_BY)
        self._hopeless: set[Way] = set()
        self._waiting: list[Way] = []
        self._faults = 0  # so many are to be had at least, as far as these ways go
        self._tries = 0
        self.passes = 0

    def hopeful(self, faults: int) -> bool:
        """Whether fewer than so many may be had."""
        return self._faults < faults

    def step(self, side: Side) -> Answer:
        """Ask on until a turn has taken its time or has found something, or none is of use."""
        answer, faults = Answer("unknown", FULL), self._faults
        most = parted(self._question.seen(side).score)[0]
        while self._faults == faults and self.hopeful(most):
            turn = self._take()
            answer = self._ask(side, turn)
            if answer.status != "none" or self._question.over:
                break
            self._rule_out(turn)
        return answer

    def _take(self) -> Try:
        self._waiting = [way for way in self._waiting if way not in self._hopeless]
        if not self._waiting:
            self.passes += 1
            ways = [way for way in self._ways if way not in self._hopeless]
            self._waiting = [w for w in ways if self.passes > 1 or not w.at_walls]
        self._tries += 1
        seed = self._question.search.seed + self._tries
        preparing: Preparing = "related" if self.passes % 2 else "simplified"
        work = _work(self._question, self.passes)
        return Try(self._waiting.pop(0), seed, work, preparing)

    def _ask(self, side: Side, turn: Try) -> Answer:
        question = self._question
        model = narrowed(question, turn.way)
        model.must(model.points >= -FAULT * self._faults)
        answer = _asked(question, model, turn)
        if answer.arrangement is not None and question.hand_in(side, answer) >= 0:
            tell_points(question, side, model, answer.arrangement)
        return answer

    def _rule_out(self, turn: Try) -> None:
        """There is nothing in that way with as few faults as were asked for."""
        self._hopeless |= {turn.way, replace(turn.way, at_walls=True)}
        if self._hopeless.issuperset(self._ways):
            self._hopeless.clear()
            self._faults += 1


def _asked(
    question: Question, model: Model, attempt: Try, until: Callable[[], bool] = lambda: False
) -> Answer:
    """Any arrangement of the model, or ``until`` it is of no use."""
    return solve(
        model,
        question.search.budget,
        seed=attempt.seed,
        work=attempt.work,
        goal="any",
        hint=attempt.hint,
        preparing=attempt.preparing,
        until=lambda: question.over or until(),
    )


def _work(question: Question, passes: int) -> float:
    """Of a turn in that pass."""
    return TURN * max(1, len(question.search.scenario.pieces)) * GROWTH ** (passes - 1)


def ways_to_try(question: Question, counts: Sequence[int]) -> list[Way]:
    """With so many rectangles, the narrowest first.

    What is round as its box and as it is, if anything is; pieces at walls alone and wherever
    they may be, if any can be free.
    """
    pieces = question.search.scenario.pieces
    places = (True, False) if any(p.backs and not p.needs_wall for p in pieces) else (False,)
    shapes = question.search.shapes
    return [Way(c, boxed, at_walls) for boxed in shapes for c in counts for at_walls in places]


def narrowed(question: Question, way: Way) -> Model:
    """The guided model of the question, narrowed in that way."""
    model = question.model(question.search.guided_with(way.rectangles, boxed=way.boxed))
    if way.at_walls:
        model.keep_to_walls()
    return model


def tell_points(question: Question, side: Side, model: Model, arrangement: Arrangement) -> None:
    """Which wishes it fulfils: asked for any, the solver leaves most of them unsaid."""
    search = question.search
    model.pin(arrangement)
    answer = solve(model, search.budget, seed=search.seed, work=PINNED)
    if answer.arrangement is not None:
        question.restate(side, answer.values)
