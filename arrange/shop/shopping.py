"""Fills the list to shop with: the plan, and the largest size of each piece that is to get.

One time limit for all. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.need import Choice, Needs
from arrange.data.piece import Piece
from arrange.data.result import FULL, Result, Suggestion
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension, Largest
from arrange.errors import Fault, ScenarioError
from arrange.judge import judge
from arrange.shop.finishing import finishing
from arrange.shop.listing import (
    Limit,
    ShoppingList,
    apart_in,
    best_of_its_place,
    entries,
    need_of,
)
from arrange.shop.looks_right import looks_right_up_to
from arrange.suggesting import suggest
from arrange.whatif.largest import largest
from arrange.whatif.why import why

SEARCH = 0.5  # of the time, for the arrangement; the rest is for the largest sizes
LOOKS = 0.4  # of the time for a size, at most, to see up to which the plan still looks right
MOST_LOOKS = 2.0  # s
ASKED = 2  # sides of each piece: its width and its depth
WAYS_OUT = 2  # told where what was bought fits nowhere
DEFAULT_SECONDS = 40.0


def shop(
    scenario: Scenario,
    *,
    bought: Sequence[str] = (),
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> ShoppingList:
    """The list for the best arrangement of ``scenario`` that is found.

    Parameters
    ----------
    scenario
        As ``read`` returns it; prices, delivery and ``owned`` are those of its pieces.
    bought
        The pieces that were bought just now: if nothing works with them, the list is empty and
        says what clashes with them and what would have to give.
    seconds
        For everything: half for the arrangement, the rest for the largest sizes, which are
        left open where it runs out.
    seed
        As for ``suggest``.
    say, stop
        Told now and then what is being looked at; asked often whether to stop.
    """
    budget = Budget(seconds, stop)
    result = suggest(scenario, top=1, seconds=seconds * SEARCH, seed=seed, stop=stop)
    if result.outcome == "impossible" and bought and not budget.over:
        say("looking for what clashes with what was bought")
        answer = why(scenario, most=WAYS_OUT, seconds=budget.left, seed=seed, stop=stop)
        return ShoppingList(result, (), (), why=answer)
    return listed(result, budget, seed=seed, say=say)


def planned(
    scenario: Scenario,
    arrangement: Arrangement,
    budget: Budget,
    *,
    choice: Choice | None = None,
    needs: Needs | None = None,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
) -> ShoppingList:
    """The list for an arrangement that was found before, judged again.

    ScenarioError if it does not work as the scenario is now.
    """
    verdict = judge(scenario, arrangement)
    if not verdict.works:
        fault = Fault(
            "",
            verdict.breaches[0].sentence,
            "a plan that works is needed",
            "run arrange suggest or choose again",
        )
        raise ScenarioError(scenario.source_file, (fault,))
    one = Suggestion(1, arrangement, verdict, proven=False, bound=FULL)
    result = Result(scenario, "found", (one,), FULL, 0.0, None, seed)
    return listed(result, budget, choice=choice, needs=needs, seed=seed, say=say)


def listed(
    result: Result,
    budget: Budget,
    *,
    choice: Choice | None = None,
    needs: Needs | None = None,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
) -> ShoppingList:
    """The list for the first arrangement of ``result``; an empty one if it has none.

    ``choice`` is that of its pieces, where what to have was chosen: sums are then those of its
    account, and ``needs`` say what each piece is for. What is left of the ``budget`` goes into
    the largest sizes.
    """
    if not result.suggestions:
        return ShoppingList(result, (), ())
    scenario, best = result.scenario, result.suggestions[0].arrangement
    limits = _Limits(scenario, best, budget, seed, say)
    verdict = result.suggestions[0].verdict

    def why_it(piece: Piece) -> str:
        chosen_for = need_of(needs, choice, piece) if needs and choice else ""
        return chosen_for or best_of_its_place(verdict, piece)

    rows = entries(scenario, best, limits.of, choice, why_it)
    apart = () if choice is None else apart_in(choice, scenario)
    return ShoppingList(result, rows, finishing(scenario, best), apart)


class _Limits:
    """The largest sizes of pieces that are still to get, alike ones asked once."""

    def __init__(
        self,
        scenario: Scenario,
        arrangement: Arrangement,
        budget: Budget,
        seed: int,
        say: Callable[[str], None],
    ) -> None:
        self.scenario, self.budget, self.seed, self.say = scenario, budget, seed, say
        self.arrangement = arrangement
        self._known: dict[tuple[Piece, Dimension], Limit] = {}
        self._waiting = ASKED * len({p.alike for p in scenario.pieces if not p.owned})

    def of(self, piece: Piece, side: Dimension) -> Limit:
        """How large it may be; nothing is asked of what is owned."""
        if piece.owned:
            return Limit(None)
        key = (piece.alike, side)
        if key not in self._known:
            self.say(f"how large {piece.name} may be")
            self._known[key] = self._ask(piece, side)
            self._waiting -= 1
        return self._known[key]

    def _ask(self, piece: Piece, side: Dimension) -> Limit:
        seconds = self.budget.left / max(1, self._waiting)
        if seconds <= 0 or self.budget.stopped:
            return Limit(None)
        watch = Budget(seconds)
        looks = looks_right_up_to(
            *(self.scenario, self.arrangement, piece, side),
            self.budget.portion(min(LOOKS * seconds, MOST_LOOKS)),
        )
        found: Largest = largest(
            self.scenario,
            piece.name,
            side,
            seconds=max(watch.left, LOOKS * seconds),
            seed=self.seed,
            stop=lambda: self.budget.stopped,
        )
        if found.size is None:
            return Limit(None)
        sure = found.answer == "exact"
        looks = None if looks is None else min(looks, found.size)
        return Limit(found.size, sure, usual=not sure and found.undecided is None, looks=looks)
