"""The page to shop with: the plan, and beside it everything to get. Lengths on paper in mm."""

from __future__ import annotations

from itertools import groupby

from matplotlib.figure import Figure

from arrange.draw.page import MARGIN, Bit, Box, Page, text_height
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import draw_to_scale
from arrange.draw.style import STYLE, Style
from arrange.shop.listing import GROUPS, ShoppingList
from arrange.shop.telling import (
    CAUTION,
    REST,
    entry_words,
    item_words,
    money_lines,
)

PLAN = 118.0  # width of the plan
GUTTER = 7.0
SIZES = (7.5, 7.0, 6.5, 6.0, 5.5)
BOX = 4.0  # indent of a line, behind its box to tick
AIR = 0.9
MONEY = "What it comes to"


def shopping_sheet(found: ShoppingList, *, style: Style = STYLE) -> Figure:
    """The list on one landscape sheet (297 x 210 mm), with boxes to tick."""
    page = Page(style)
    top = page.head(found.scenario.title, "Shopping list") + 3.0
    best = found.result.suggestions[0].arrangement
    place = Box(MARGIN, top, PLAN, page.height - MARGIN - top - 12)
    draw_to_scale(page, found.scenario, best, place, PlanOptions(clearances=False), "")
    left = MARGIN + PLAN + GUTTER
    width = (page.width - MARGIN - left - GUTTER) / 2
    groups = _groups(found)
    high = page.height - MARGIN - top - 4
    size = next((s for s in SIZES if _height(groups, s, width) <= 2 * high - 12), SIZES[-1])
    columns = iter((left, left + width + GUTTER))
    x, y = next(columns), top
    for title, rows in groups:
        if y + text_height(title, size + 1, width, bold=True) + 6 > page.height - MARGIN:
            x, y = next(columns, x), top
        y = page.paragraph(x, y, width, title, size + 1, bold=True, gid="group") + AIR
        for row in rows:
            if y + text_height(row, size, width - BOX) > page.height - MARGIN:
                x, y = next(columns, x), top
            if title == MONEY:
                y = page.paragraph(x, y, width, row, size, gid="money") + AIR
            else:
                mark = Bit("\N{WHITE SQUARE}", size, style.quiet)
                y = page.item(x, y, width, mark, row, size, indent=BOX, gid="entry") + AIR
        y += 2.0
    page.paragraph(x, y, width, CAUTION, size, colour=style.quiet, gid="caution")
    return page.figure


def _groups(found: ShoppingList) -> list[tuple[str, list[str]]]:
    groups = [
        (GROUPS[group], [entry_words(found, entry) for entry in entries])
        for group, entries in groupby(found.entries, key=lambda e: e.group)
    ]
    groups.append((MONEY, money_lines(found)))
    groups.append((REST, [item_words(item) for item in found.items]))
    return groups


def _height(groups: list[tuple[str, list[str]]], size: float, width: float) -> float:
    rows = [row for _, group in groups for row in group]
    heads = len(groups) * (size * 0.6 + 3)
    rows.append(CAUTION)
    return heads + sum(text_height(row, size, width - BOX) + AIR for row in rows)
