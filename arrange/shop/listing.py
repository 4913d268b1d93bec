"""The list to shop with: what is there, what to look out for second-hand, make over, buy new.

Of what is still to get it says the largest size with which the room still works, since
second-hand pieces come in the sizes they come in. Money is decimal throughout. Lengths in mm.
``words`` is the list for a terminal.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import groupby
from pathlib import Path

from arrange.data.arrangement import Arrangement
from arrange.data.choosing import spendable
from arrange.data.lengths import listed, measured, money, sized
from arrange.data.need import Choice, Item, Needs, Post
from arrange.data.piece import Piece
from arrange.data.repair import Why
from arrange.data.result import Result, Verdict
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import Dimension
from arrange.shop.finishing import Item as Finish
from arrange.words.choosing import quoted
from arrange.words.places import stands_words
from arrange.words.reasons import wrapped
from arrange.words.suggest import outcome_words
from arrange.words.why import words as why_words

# In the order of shopping: what is there costs nothing, and what is found decides the rest.
GROUPS = {
    "have": "What you have",
    "bought": "What you have bought",
    "second-hand": "To look out for second-hand",
    "make over": "To make over",
    "new": "To buy new",
}
THERE = ("have", "bought")
APART = "What else counts"
REST = "To finish the room"
WITH: dict[Item, str] = {
    "delivery": "delivery",
    "materials": "materials",
    "hours": "your own hours",
}
NOT_YET = "Paint is decided last: when the pieces are there."
CAUTION = (
    "Amounts are for planning. Have wiring, fixings in walls and anything over a way out "
    "checked by somebody licensed to do it; local codes decide."
)


@dataclass(frozen=True, slots=True)
class Limit:
    """The largest width or depth in mm that works, all else as it is; ``sure`` if proven.

    ``usual`` says that nothing larger is sold. ``looks`` is the largest with which this plan
    still looks right, the piece in its place. None where it was not found out in the time.
    """

    mm: int | None
    sure: bool = False
    usual: bool = False
    looks: int | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """One piece of the list. ``posts`` are what it costs, line by line, and ``cost`` their sum.

    ``total`` is what all so far comes to, with what is paid by now; ``cost`` is None where no
    price is known. ``why`` is what it is for, or the best thing about where it stands.
    """

    group: str
    piece: Piece
    where: str
    width: Limit
    depth: Limit
    cost: Decimal | None
    total: Decimal
    posts: tuple[Post, ...] = ()
    why: str = ""

    def sum_of(self, item: Item) -> Decimal | None:
        """What its lines of one sort come to; None where there is none."""
        found = [post for post in self.posts if post.item == item]
        return _sum(found) if found else None


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """Everything to get for the best arrangement of ``result``; empty if there is none.

    ``apart`` are lines about no piece of the plan, those of what is sold below 0. ``plan`` names
    the plan that the list is for, where none was searched for. ``bought`` are the pieces that
    were recorded as bought just now, ``recorded`` the file that says so; ``why`` is what clashes
    with them, where nothing works any more.
    """

    result: Result
    entries: tuple[Entry, ...]
    items: tuple[Finish, ...]
    apart: tuple[Post, ...] = ()
    plan: str = ""
    bought: tuple[str, ...] = ()
    recorded: str = ""
    why: Why | None = None

    @property
    def scenario(self) -> Scenario:
        """The scenario that the list is for."""
        return self.result.scenario

    @property
    def total(self) -> Decimal:
        """What all to get comes to, as far as prices are given, less what is sold."""
        costs = sum((entry.cost or Decimal(0) for entry in self.entries), Decimal(0))
        return costs + _sum(self.apart)

    @property
    def there(self) -> tuple[Entry, ...]:
        """What is there already, some of it bought by now."""
        return tuple(e for e in self.entries if e.group in THERE)

    @property
    def to_get(self) -> tuple[Entry, ...]:
        """What is still to get or to make over."""
        return tuple(e for e in self.entries if e.group not in THERE)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What is to get and has no price."""
        return tuple(e.piece.name for e in self.entries if e.cost is None)

    @property
    def left(self) -> Decimal | None:
        """What is left of the budget, less what is set aside; None without a budget."""
        spend = spendable(self.scenario.money)
        return None if spend is None else spend - self.total


def in_order(
    scenario: Scenario, choice: Choice | None = None
) -> list[tuple[str, Piece, tuple[Post, ...] | None]]:
    """Every piece with its group and its lines, in the order of shopping, large pieces first."""
    rows = []
    for piece in scenario.pieces:
        posts = posts_of(piece) if choice is None else _posts_in(choice, piece)
        rows.append((_group_of(piece, posts), piece, posts))
    places = list(GROUPS)
    return sorted(rows, key=lambda r: (places.index(r[0]), -r[1].width * r[1].depth, r[1].name))


def _group_of(piece: Piece, posts: tuple[Post, ...] | None) -> str:
    """Which part of the list a piece is in; what is there and takes work is made over."""
    if piece.paid is not None:
        return "bought"
    return "have" if piece.owned and not posts else piece.buy


def posts_of(piece: Piece) -> tuple[Post, ...] | None:
    """What a piece costs, line by line, or was paid for; None without a price."""
    if piece.owned:
        return () if piece.paid is None else (Post("paid", piece.model, piece.paid),)
    if piece.price is None:
        return None
    price = Post("price", piece.model, piece.price)
    if not piece.delivery:
        return (price,)
    return price, Post("delivery", piece.model, piece.delivery)


def entries(
    scenario: Scenario,
    arrangement: Arrangement,
    limit: Callable[[Piece, Dimension], Limit],
    choice: Choice | None = None,
    why: Callable[[Piece], str] = lambda _: "",
) -> tuple[Entry, ...]:
    """Every piece in the order of shopping, with what all so far comes to.

    ``limit`` says how large a piece may be along a side, ``why`` why it is there. The lines of a
    ``choice`` stand in place of the prices of the pieces: they tell materials and hours, too. What
    is sold counts before anything is bought.
    """
    found: list[Entry] = []
    total = Decimal(0)
    apart = Decimal(0) if choice is None else _sum(apart_in(choice, scenario))
    for group, piece, posts in in_order(scenario, choice):
        if group not in THERE and apart:
            total, apart = total + apart, Decimal(0)
        cost = None if posts is None else _sum(posts)
        total += cost or Decimal(0)
        where = stands_words(scenario, arrangement.of(piece.name))
        wide, deep = limit(piece, "width"), limit(piece, "depth")
        found.append(Entry(group, piece, where, wide, deep, cost, total, posts or (), why(piece)))
    return tuple(found)


def _posts_in(choice: Choice, piece: Piece) -> tuple[Post, ...]:
    """The lines of one piece; those of several alike are of each."""
    own = (post for post in choice.account if post.piece == piece.model and post.item != "sale")
    return tuple(replace(post, count=1) for post in own)


def _sum(posts: Sequence[Post]) -> Decimal:
    return sum((post.total for post in posts), Decimal(0))


def best_of_its_place(verdict: Verdict, piece: Piece) -> str:
    """What earns most of all that the judge says of a piece, of what it mostly has; or ""."""
    own = [
        reason
        for reason in verdict.reasons
        if piece.name.casefold() in reason.sentence.casefold()
        and reason.subjects[:1] == (piece.name,)
        and reason.won > reason.lost
    ]
    best = max(own, key=lambda reason: reason.won, default=None)
    return "" if best is None else f"why there: {best.sentence[:1].lower()}{best.sentence[1:]}"


def need_of(needs: Needs, choice: Choice, piece: Piece) -> str:
    """What a piece was chosen for; "" for what is there in any case."""
    for name in choice.candidates:
        candidate = needs.candidate(name)
        if piece.name in candidate.pieces:
            return f"for {quoted(candidate.needs)}"
    return ""


def apart_in(choice: Choice, scenario: Scenario) -> tuple[Post, ...]:
    """The lines about no piece of the plan: what is sold, what was paid for and not chosen."""
    there = {piece.model for piece in scenario.pieces}
    return tuple(p for p in choice.account if p.item == "sale" or p.piece not in there)


def words(found: ShoppingList, folder: Path, files: tuple[str, ...]) -> str:
    """The whole list for the terminal."""
    lines = [found.scenario.title, "", *(wrapped(line) for line in head_lines(found))]
    if found.why is not None:
        told = why_words(found.why, folder, ()).split("\n")
        lines += told[1:]  # its title stands above
    for head, rows in grouped_words(found):
        lines += ["", head, *(wrapped(row, "- ", "  ") for row in rows)]
    if found.entries:
        lines += ["", *(wrapped(line) for line in money_lines(found)), "", f"{REST}. {NOT_YET}"]
        lines += [wrapped(item_words(item), "- ", "  ") for item in found.items]
        lines += ["", wrapped(CAUTION)]
    if files:
        lines += ["", f"Written: {', '.join(str(folder / name) for name in files)}"]
    return "\n".join(lines)


def head_lines(found: ShoppingList) -> list[str]:
    """What was recorded, and what the list is for: a plan that was named, or the best found."""
    lines = []
    if found.recorded:
        lines.append(recorded_words(found.scenario, found.bought, found.recorded))
    if found.plan:
        lines.append(f"For {found.plan}.")
    elif found.why is not None:
        lines.append(f"With {'it' if len(found.bought) == 1 else 'them'} as bought:")
    else:
        lines.append(outcome_words(found.result))
    return lines


def recorded_words(scenario: Scenario, bought: Sequence[str], file: str) -> str:
    """What was bought just now, with its size and what was paid, and where that is written."""
    told = []
    for name in bought:
        piece, unit = scenario.piece(name), scenario.unit
        size = sized((piece.width, piece.depth), unit)
        paid = f"{scenario.money.currency} {money(piece.paid or Decimal(0))}".strip()
        told.append(f"{name}, {size}, for {paid}")
    return f"Recorded in {file} as bought: {listed(told)}."


def grouped_words(found: ShoppingList) -> list[tuple[str, list[str]]]:
    """Every part of the list with its lines: what is there, what is sold, what is to get."""
    first, last = (
        [
            (GROUPS[group], [entry_words(found, entry) for entry in rows])
            for group, rows in groupby(part, key=lambda e: e.group)
        ]
        for part in (found.there, found.to_get)
    )
    apart = [apart_words(found, post) for post in found.apart]
    return [*first, *([(APART, apart)] if apart else []), *last]


def apart_words(found: ShoppingList, post: Post) -> str:
    """One line about what is not in the plan."""
    if post.item == "sale":
        return f"sell the {post.piece}: you get {sum_words(found, -post.total)} back"
    return f"the {post.piece}, bought and not in this plan: paid {sum_words(found, post.total)}"


def entry_words(found: ShoppingList, entry: Entry) -> str:
    """One piece: its size, where it stands, how large it may be, what it costs."""
    unit, piece = found.scenario.unit, entry.piece
    size = sized((piece.width, piece.depth), unit)
    if entry.group == "have" and not entry.posts:
        return f"{piece.name}, {size}, {entry.where}"
    told = f"{piece.name}, {size}: {price_words(found, entry)}"
    told += f" ({so_far_words(found, entry.total)}). {entry.where[:1].upper()}{entry.where[1:]}"
    told += f"; {entry.why}." if entry.why else "."
    limit = limit_words(entry, unit)
    return f"{told} {limit[:1].upper()}{limit[1:]}." if limit else told


def so_far_words(found: ShoppingList, total: Decimal) -> str:
    """What all so far comes to, against what may be spent, if that is known."""
    spend = spendable(found.scenario.money)
    if spend is None:
        return f"{sum_words(found, total)} so far"
    told = f"{sum_words(found, total)} of {sum_words(found, spend)} so far"
    return f"{told}, {sum_words(found, total - spend)} too much" if total > spend else told


def limit_words(entry: Entry, unit: Unit) -> str:
    """How large the piece may be at most, "" where nothing is known."""
    sides = ((entry.width, "wide", "width"), (entry.depth, "deep", "depth"))
    known = [f"{_up_to(limit, unit)} {how}" for limit, how, _ in sides if _is_told(limit)]
    usual = [name for limit, _, name in sides if limit.usual]
    told = [f"works up to {listed(known, 'or')}"] if known else []
    told += [f"any usual {listed(usual, 'or')} works"] if usual else []
    looks = [
        f"{measured(limit.looks, unit, 'down')} {how}"
        for limit, how, _ in sides
        if limit.looks is not None
    ]
    same = all(limit.looks == limit.mm and limit.sure for limit, _, _ in sides)
    if looks and same:
        return ", ".join(told).replace("works up to", "works and looks right up to")
    told += [f"looks right here up to {listed(looks, 'or')}"] if looks else []
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
    if all(post.item == "paid" for post in entry.posts):
        return f"paid {sum_words(found, entry.cost)}"
    also = [WITH[post.item] for post in entry.posts if post.item in WITH]
    with_ = f" with {listed(also)}" if also else ""
    return f"{sum_words(found, entry.cost)}{with_}"


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
        over = f"{rest} is left" if left >= 0 else f"{rest} too much"
        if purse.comes_in:
            whole += f" and {sum_words(found, purse.comes_in)} from what is sold"
        told.append(f"Of {whole}, {kept} set aside for the unexpected: {over}.")
    if found.unpriced:
        told.append(f"Without a price: {listed(list(found.unpriced))}.")
    return told


def item_words(item: Finish) -> str:
    """One thing to finish the room with."""
    return f"{item.thing}: {item.amount} ({item.how})"
