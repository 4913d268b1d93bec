"""The last touch: what was found is made tidier, judged, and put back into the model.

The search leaves a piece anywhere within its leeway. People put things into corners or
measure whole centimetres, so of all arrangements that score as much with every piece on
its wall, one with many such places is taken. Its score in the model, every piece pinned,
must be the judge's score; what the walkway says, the judge alone decides. Lengths in mm.
"""

from __future__ import annotations

from threading import Lock
from typing import Literal as Choice

from arrange.budget import REPLAY, Budget
from arrange.data.arrangement import Arrangement
from arrange.data.result import Verdict
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.solver.boxes import Expr, Literal
from arrange.solver.engine import Answer, solve
from arrange.solver.model import Model
from arrange.solver.places import Place

WHOLE = 10  # mm; tapes are read in whole centimetres
WORK = 0.15  # deterministic seconds; without an answer the arrangement stays as it is
CORNER, ROUND = 3, 1  # what a piece in a corner and a whole centimetre count
REPLAY_WORK = 1.0  # deterministic seconds; a model in which every piece is pinned takes 0.0001


def tidied(
    model: Model, arrangement: Arrangement, score: int, budget: Budget, seed: int = 0
) -> Arrangement:
    """A tidier arrangement of the same stances and score, if there is one at hand.

    ``model`` is one with walkways, and is used up. What the judge does not give as much
    is not taken.
    """
    answer = tidy(model, arrangement, score, budget, seed)
    if answer.arrangement is None:
        return arrangement
    verdict = judge(model.scenario, answer.arrangement, gaps=False)
    return answer.arrangement if verdict.works and verdict.standing == score else arrangement


def tidy(model: Model, arrangement: Arrangement, score: int, budget: Budget, seed: int) -> Answer:
    """Ask for a tidier arrangement with every stance held and at least ``score`` points.

    ``model`` is used up. The answer may hold no arrangement.
    """
    for placement in arrangement.placements:
        model.hold_stance(placement)
    model.must(model.points >= score)
    worth: list[tuple[Literal, int]] = []
    for piece in model.scenario.pieces:
        if piece.anchor is None:
            worth += _places(model, model.place(piece.name))
    model.cp.maximize(sum(weight * literal for literal, weight in worth))
    return solve(model, budget, seed=seed, work=WORK, goal="any")


def _places(model: Model, place: Place) -> list[tuple[Literal, int]]:
    """What is tidy about where one untied piece stands."""
    if not place.offsets:
        x0, y0, _, _ = place.bounds
        return [(_whole(model, place.x0 - x0), ROUND), (_whole(model, place.y0 - y0), ROUND)]
    worth: list[tuple[Literal, int]] = []
    for wall, offset in place.offsets.items():
        last = int(model.scenario.room.walls[wall].length + 1e-6) - place.piece.width
        first, end = model.literal(), model.literal()
        model.when(first, offset == 0)
        model.when(end, offset == last)
        model.implies(first, place.walls[wall])
        model.implies(end, place.walls[wall], first.negated())
        worth += [(first, CORNER), (end, CORNER), (_whole(model, offset), ROUND)]
    return worth


def _whole(model: Model, length: Expr) -> Literal:
    """Whether a length is whole centimetres."""
    literal = model.literal()
    count = model.number(0, 10_000)
    model.when(literal, length == WHOLE * count)
    return literal


class Replay:
    """The model's own opinion of finished arrangements, to hold against the judge's.

    One model serves them all; it may be asked from several threads.
    """

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self._model: Model | None = None
        self._building = Lock()

    def score(
        self, arrangement: Arrangement, budget: Budget, work: float = REPLAY_WORK
    ) -> int | Choice["broken", "not decided"]:
        """The highest standing that the model gives with every piece held where it stands.

        "broken" if the model finds that a must is. The walkway is not part of this model.
        """
        model = self._pinned(arrangement)
        answer = solve(model, budget, work=work)
        if answer.status == "none":
            return "broken"
        return answer.points if answer.status == "best" else "not decided"

    def confirmed(self, arrangement: Arrangement, budget: Budget) -> tuple[Verdict, bool]:
        """The judge's verdict, and whether the model was found to give the same score.

        DisagreementError if it gives another, or finds a must broken. False if that was
        not decided within ``budget``: such a score is the judge's word alone.
        """
        verdict = judge(self.scenario, arrangement)
        score = self.score(arrangement, budget)
        if score not in (verdict.standing, "not decided"):
            raise DisagreementError(
                f"model {score}, judge {verdict.standing}: please report this scenario"
            )
        return verdict, score != "not decided"

    def _pinned(self, arrangement: Arrangement) -> Model:
        with self._building:
            if self._model is None:
                self._model = Model(self.scenario, alike_in_order=False)
                self._model.finish()
        model = self._model.copy()
        model.pin(arrangement)
        return model


def model_score(scenario: Scenario, arrangement: Arrangement) -> int | None:
    """``Replay.score`` of one arrangement; None if a must is broken.

    TimeoutError if that is not decided.
    """
    score = Replay(scenario).score(arrangement, Budget(REPLAY))
    if score == "not decided":
        raise TimeoutError("the model gives no score in the time")
    return None if score == "broken" else score


def confirm(scenario: Scenario, arrangement: Arrangement) -> Verdict:
    """``Replay.confirmed`` of one arrangement. TimeoutError if that is not decided."""
    verdict, confirmed = Replay(scenario).confirmed(arrangement, Budget(REPLAY))
    if not confirmed:
        raise TimeoutError("the model gives no score in the time")
    return verdict
