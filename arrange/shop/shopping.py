"""Fills the list to shop with: the best arrangement, and the largest size of each piece to get.

One time limit for all. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable

from arrange.budget import Budget
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension, Largest
from arrange.shop.finishing import finishing
from arrange.shop.listing import Limit, ShoppingList, entries
from arrange.suggesting import suggest
from arrange.whatif.largest import largest

SEARCH = 0.5  # of the time, for the arrangement; the rest is for the largest sizes
ASKED = 2  # sides of each piece: its width and its depth
DEFAULT_SECONDS = 40.0


def shop(
    scenario: Scenario,
    *,
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
    if not result.suggestions:
        return ShoppingList(result, (), ())
    best = result.suggestions[0].arrangement
    limits = _Limits(scenario, budget, seed, say)
    return ShoppingList(result, entries(scenario, best, limits.of), finishing(scenario, best))


class _Limits:
    """The largest sizes of pieces that are still to get, alike ones asked once."""

    def __init__(
        self, scenario: Scenario, budget: Budget, seed: int, say: Callable[[str], None]
    ) -> None:
        self.scenario, self.budget, self.seed, self.say = scenario, budget, seed, say
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
        found: Largest = largest(
            self.scenario,
            piece.name,
            side,
            seconds=seconds,
            seed=self.seed,
            stop=lambda: self.budget.stopped,
        )
        if found.size is None:
            return Limit(None)
        sure = found.answer == "exact"
        return Limit(found.size, sure, usual=not sure and found.undecided is None)
