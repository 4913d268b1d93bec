"""The list to shop with as words for a terminal."""

from __future__ import annotations

from decimal import Decimal
from itertools import groupby
from pathlib import Path

from arrange.data.lengths import listed, measured, money
from arrange.data.scenario import Unit
from arrange.shop.finishing import Item
from arrange.shop.listing import GROUPS, Entry, Limit, ShoppingList
from arrange.words.reasons import wrapped
from arrange.words.suggest import outcome_words

REST = "To finish the room"
NOT_YET = "Paint is decided last: when the pieces are there."
CAUTION = (
    "Amounts are for planning. Have wiring, fixings in walls and anything over a way out "
    "judged by somebody licensed to; local codes decide."
)


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
