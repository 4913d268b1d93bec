"""The list to shop with: what is there, what to look out for second-hand, make over, buy new.

Of what is still to get it says the largest size with which the room still works, since
second-hand pieces come in the sizes they come in. Money is decimal throughout. Lengths in mm.
``words`` is the list for a terminal.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from pathlib import Path

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import listed, measured, money
from arrange.data.piece import Piece
from arrange.data.result import Result
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import Dimension
from arrange.shop.finishing import Item
from arrange.words.places import stands_words
from arrange.words.reasons import wrapped
from arrange.words.suggest import outcome_words

# In the order of shopping: what is there costs nothing, and what is found decides the rest.
GROUPS = {
    "have": "What you have",
    "second-hand": "To look out for second-hand",
    "make over": "To make over",
    "new": "To buy new",
}
REST = "To finish the room"
NOT_YET = "Paint is decided last: when the pieces are there."
CAUTION = (
    "Amounts are for planning. Have wiring, fixings in walls and anything over a way out "
    "judged by somebody licensed to; local codes decide."
)


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


def words(found: ShoppingList, folder: Path, files: tuple[str, ...]) -> str:
    """The whole list for the terminal."""
    lines = [found.scenario.title, "", wrapped(outcome_words(found.result))]
    for group, entries in groupby(found.entries, key=lambda e: e.group):
        lines += ["", GROUPS[group]]
        lines += [wrapped(entry_words(found, entry), "- ", "  ") for entry in entries]
    if found.entries:
        lines += ["", *(wrapped(line) for line in money_lines(found)), "", f"{REST}. {NOT_YET}"]
        lines += [wrapped(item_words(item), "- ", "  ") for item in found.items]
        lines += ["", wrapped(CAUTION)]
    if files:
        lines += ["", f"Written: {', '.join(str(folder / name) for name in files)}"]
    return "\n".join(lines)


def entry_words(found: ShoppingList, entry: Entry) -> str:
    """One piece: its size, where it stands, how large it may be, what it costs."""
    unit, piece = found.scenario.unit, entry.piece
    size = f"{measured(piece.width, unit)} x {measured(piece.depth, unit)}"
    told = f"{piece.name}, {size}, {entry.where}"
    if entry.group == "have":
        return told
    if limit := limit_words(entry, unit):
        told += f"; {limit}"
    return f"{told}; {price_words(found, entry)}; {sum_words(found, entry.total)} so far"


def limit_words(entry: Entry, unit: Unit) -> str:
    """How large the piece may be at most, "" where nothing is known."""
    sides = ((entry.width, "wide", "width"), (entry.depth, "deep", "depth"))
    known = [f"{_up_to(limit, unit)} {how}" for limit, how, _ in sides if _is_told(limit)]
    usual = [name for limit, _, name in sides if limit.usual]
    told = [f"works up to {listed(known, 'or')}"] if known else []
    told += [f"any usual {listed(usual, 'or')} works"] if usual else []
    return ", ".join(told)


def _is_told(limit: Limit) -> bool:
    return limit.mm is not None and not limit.usual


def _up_to(limit: Limit, unit: Unit) -> str:
    told = measured(limit.mm or 0, unit, "down")
    return told if limit.sure else f"at least {told}"


def price_words(found: ShoppingList, entry: Entry) -> str:
    """What it costs, delivery included."""
    if entry.cost is None:
        return "no price yet"
    brought = entry.piece.delivery
    return f"{sum_words(found, entry.cost)}{' with delivery' if brought else ''}"


def sum_words(found: ShoppingList, amount: Decimal) -> str:
    """A sum with the currency as the person writes it."""
    return f"{found.scenario.money.currency} {money(amount)}".strip()


def money_lines(found: ShoppingList) -> list[str]:
    """The total, what is set aside, what is left or lacks, and what has no price."""
    told = [f"Together {sum_words(found, found.total)}."]
    purse, left = found.scenario.money, found.left
    if purse.budget is not None and left is not None:
        whole, kept = sum_words(found, purse.budget), sum_words(found, purse.kept)
        rest = sum_words(found, abs(left))
        over = f"{rest} are left" if left >= 0 else f"{rest} too much"
        told.append(f"Of {whole}, {kept} set aside for the unexpected: {over}.")
    if found.unpriced:
        told.append(f"Without a price: {listed(list(found.unpriced))}.")
    return told


def item_words(item: Item) -> str:
    """One thing to finish the room with."""
    return f"{item.thing}: {item.amount} ({item.how})"
