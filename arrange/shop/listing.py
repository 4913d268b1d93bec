"""The list to shop with: what is there, what to look out for second-hand, make over, buy new.

Of what is still to get it says the largest size with which the room still works, since
second-hand pieces come in the sizes they come in. Money is decimal throughout. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from arrange.budget import Budget
from arrange.data.piece import Piece
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension, Largest
from arrange.shop.finishing import Item, finishing
from arrange.suggesting import suggest
from arrange.whatif.largest import largest
from arrange.words.suggest import stands_words

# In the order of shopping: what is there costs nothing, and what is found decides the rest.
GROUPS = {
    "have": "What you have",
    "second-hand": "To look out for second-hand",
    "make over": "To make over",
    "new": "To buy new",
}
SEARCH = 0.5  # of the time, for the arrangement; the rest is for the largest sizes
SIDES: tuple[Dimension, ...] = ("width", "depth")
DEFAULT_SECONDS = 40.0


@dataclass(frozen=True, slots=True)
class Limit:
    """The largest width or depth in mm that works, all else as it is; ``sure`` if proven.

    ``usual`` says that nothing larger is sold. None where it was not found out in the time.
    """

    mm: int | None
    sure: bool = False
    usual: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """One piece of the list. ``total`` is what all to get so far comes to."""

    group: str
    piece: Piece
    where: str
    width: Limit
    depth: Limit
    cost: Decimal | None
    total: Decimal


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """Everything to get for the best arrangement of ``result``; empty if there is none."""

    result: Result
    entries: tuple[Entry, ...]
    items: tuple[Item, ...]

    @property
    def scenario(self) -> Scenario:
        """The scenario that the list is for."""
        return self.result.scenario

    @property
    def total(self) -> Decimal:
        """What all to get comes to, as far as prices are given."""
        return self.entries[-1].total if self.entries else Decimal(0)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What is to get and has no price."""
        return tuple(e.piece.name for e in self.entries if e.group != "have" and e.cost is None)

    @property
    def left(self) -> Decimal | None:
        """What is left of the budget, less what is set aside; None without a budget."""
        money = self.scenario.money
        return None if money.budget is None else money.budget - money.kept - self.total


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
    entries: list[Entry] = []
    total = Decimal(0)
    limits = _Limits(scenario, budget, seed, say)
    for group, piece in in_order(scenario):
        cost = Decimal(0) if group == "have" else cost_of(piece)
        total += cost or Decimal(0)
        where = stands_words(scenario, best.of(piece.name))
        wide, deep = (limits.of(piece, side) for side in SIDES)
        entries.append(Entry(group, piece, where, wide, deep, cost, total))
    return ShoppingList(result, tuple(entries), finishing(scenario, best))


def in_order(scenario: Scenario) -> list[tuple[str, Piece]]:
    """Every piece with its group, in the order of shopping, large pieces first."""
    grouped = [("have" if p.owned else p.buy, p) for p in scenario.pieces]
    places = list(GROUPS)
    return sorted(grouped, key=lambda g: (places.index(g[0]), -g[1].width * g[1].depth, g[1].name))


def cost_of(piece: Piece) -> Decimal | None:
    """Price and delivery of a piece that is to be got; None without a price."""
    return None if piece.price is None else piece.price + (piece.delivery or Decimal(0))


class _Limits:
    """The largest sizes of pieces that are still to get, alike ones asked once."""

    def __init__(
        self, scenario: Scenario, budget: Budget, seed: int, say: Callable[[str], None]
    ) -> None:
        self.scenario, self.budget, self.seed, self.say = scenario, budget, seed, say
        self._known: dict[tuple[Piece, Dimension], Limit] = {}
        self._waiting = len(SIDES) * len({p.alike for p in scenario.pieces if not p.owned})

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
