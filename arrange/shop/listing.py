"""The list to shop with: what is there, what to look out for second-hand, make over, buy new.

Of what is still to get it says the largest size with which the room still works, since
second-hand pieces come in the sizes they come in. Money is decimal throughout. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.shop.finishing import Item
from arrange.words.places import stands_words

# In the order of shopping: what is there costs nothing, and what is found decides the rest.
GROUPS = {
    "have": "What you have",
    "second-hand": "To look out for second-hand",
    "make over": "To make over",
    "new": "To buy new",
}


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


def in_order(scenario: Scenario) -> list[tuple[str, Piece]]:
    """Every piece with its group, in the order of shopping, large pieces first."""
    grouped = [("have" if p.owned else p.buy, p) for p in scenario.pieces]
    places = list(GROUPS)
    return sorted(grouped, key=lambda g: (places.index(g[0]), -g[1].width * g[1].depth, g[1].name))


def cost_of(piece: Piece) -> Decimal | None:
    """Price and delivery of a piece that is to be got; None without a price."""
    return None if piece.price is None else piece.price + (piece.delivery or Decimal(0))


def entries(
    scenario: Scenario, arrangement: Arrangement, limit: Callable[[Piece, Dimension], Limit]
) -> tuple[Entry, ...]:
    """Every piece in the order of shopping, with what all to get comes to so far.

    ``limit`` says how large a piece may be along a side.
    """
    found: list[Entry] = []
    total = Decimal(0)
    for group, piece in in_order(scenario):
        cost = Decimal(0) if group == "have" else cost_of(piece)
        total += cost or Decimal(0)
        where = stands_words(scenario, arrangement.of(piece.name))
        wide, deep = limit(piece, "width"), limit(piece, "depth")
        found.append(Entry(group, piece, where, wide, deep, cost, total))
    return tuple(found)
