"""The tables for a spreadsheet: options side by side, and the list to shop with.

Commas between, points as decimals, lines ended by CR LF as spreadsheets expect. Texts that a
spreadsheet would take for a formula get an apostrophe before them.
"""

from __future__ import annotations

import csv
import io
from decimal import Decimal

from arrange.data.choosing import spendable
from arrange.data.comparison import LETTERS, Comparison
from arrange.data.need import Item, Post
from arrange.output.fields import in_points
from arrange.shop.listing import APART, GROUPS, REST, Entry, ShoppingList
from arrange.words.suggest import line_words


def compare_csv(comparison: Comparison) -> str:
    """The comparison: one row a reason, one column an option.

    What an option is not asked is left empty.
    """
    out = io.StringIO()
    rows = csv.writer(out)
    options = comparison.options

    def write(*cells: object) -> None:
        rows.writerow([safe(c) for c in cells])

    write("what", "about", "of points", *LETTERS[: len(options)])
    write("option", "", "", *(o.asked for o in options))
    write("title", "", "", *(o.scenario.title for o in options))
    write("state", "", "", *(o.state for o in options))
    write("from", "", "", *(o.origin for o in options))
    write("score", "", 100, *(in_points(o.score) for o in options))
    write("faults of first rank", "", "", *(o.faults for o in options))
    write("at most", "", 100, *(in_points(o.at_most) for o in options))
    write("to buy", "", "", *(o.cost.total for o in options))
    write("pieces to buy without a price", "", "", *(len(o.cost.unpriced) for o in options))
    for number in range(max((len(o.spare) for o in options), default=0)):
        spare = [next(iter(o.spare[number:]), None) for o in options]
        where = [
            "" if s is None else line_words(s, o.scenario.unit)
            for s, o in zip(spare, options, strict=True)
        ]
        write("room to spare, mm", f"line {number + 1}", "", *(s and s.mm for s in spare))
        write("", "where", "", *where)
    for row in comparison.rows:
        possible = {r.possible for r in row.reasons if r is not None}
        same = in_points(possible.pop()) if len(possible) == 1 else "differs"
        won = (r and in_points(r.won) for r in row.reasons)
        about = ", ".join(filter(None, (*row.subjects, row.part)))
        write(row.title, about, same, *won)
    return out.getvalue()


FORMULA = tuple("=+-@\uff1d\uff0b\uff0d\uff20")  # some read the wide ones as well
SUMS: tuple[Item, ...] = ("price", "delivery", "materials", "hours", "paid")
COLUMNS = (
    *("list", "thing", "amount", "width mm", "depth mm", "height mm"),
    *("widest that works mm", "deepest that works mm"),
    *("widest that looks right mm", "deepest that looks right mm"),
    *("price", "delivery", "materials", "own hours", "paid"),
    *("total", "left to spend", "where", "why"),
)


def shop_csv(found: ShoppingList) -> str:
    """The list to shop with: one row a thing. A total is the sum of all sums down to its row."""
    out = io.StringIO()
    rows = csv.writer(out)
    rows.writerow(COLUMNS)
    for entry in found.there:
        rows.writerow(_entry_cells(found, entry))
    total = found.there[-1].total if found.there else Decimal(0)
    for post in found.apart:
        total += post.total
        sums = (post.total if item == _column(post) else "" for item in SUMS)
        cells = (APART, post.piece, post.count, *[""] * 7, *sums, total, _left(found, total))
        rows.writerow([safe(cell) for cell in cells])
    for entry in found.to_get:
        rows.writerow(_entry_cells(found, entry))
    for item in found.items:
        rows.writerow([safe(c) for c in (REST, item.thing, item.amount, *[""] * 14, item.how)])
    return out.getvalue()


def _entry_cells(found: ShoppingList, entry: Entry) -> list[object]:
    piece = entry.piece
    have = entry.group == "have"
    cells = (
        *(GROUPS[entry.group], piece.name, "1", piece.width, piece.depth, piece.height),
        *(entry.width.mm, entry.depth.mm, entry.width.looks, entry.depth.looks),
        *(entry.sum_of(item) for item in SUMS),
        *(("", "") if have else (entry.total, _left(found, entry.total))),
        *(entry.where, entry.why),
    )
    return [safe(cell) for cell in cells]


def _left(found: ShoppingList, total: Decimal) -> Decimal | None:
    """What is left of what may be spent; below 0 where it is too much; None without a budget."""
    spend = spendable(found.scenario.money)
    return None if spend is None else spend - total


def _column(post: Post) -> Item:
    """Where a sum stands that is about no piece of the plan: what a sale brings is a price."""
    return "price" if post.item == "sale" else post.item


def safe(cell: object) -> object:
    """A cell that no spreadsheet takes for a formula."""
    if cell is None:
        return ""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA) else cell
