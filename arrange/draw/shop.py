"""The page to shop with: the plan, and beside it everything to get. Lengths on paper in mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from matplotlib.figure import Figure

from arrange.draw.page import (
    MARGIN,
    Bit,
    Box,
    Page,
    Shown,
    largest_size,
    shortened,
    text_height,
)
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import draw_to_scale
from arrange.draw.style import LEAST, STYLE, Style
from arrange.shop.listing import (
    CAUTION,
    NOT_YET,
    REST,
    ShoppingList,
    grouped_words,
    item_words,
    money_lines,
)

PLAN = 118.0  # width of the plan
GUTTER = 7.0
SIZES = (9.0, 8.5, 8.0, 7.5, LEAST)
BOX = 4.0  # indent of a line, behind its box to tick
AIR, BETWEEN = 0.9, 2.0  # after a line, and more after a group
BELOW = {"caution": -6.0}  # the last words may go into the margin
COLUMNS = 2
MONEY = "What it comes to"


@dataclass(frozen=True, slots=True)
class Line:
    """A paragraph of the list: a head, something to tick, a sum, a count of the rest."""

    gid: str
    text: str
    size: float
    after: float = AIR

    def height(self, width: float) -> float:
        """Without the air after it."""
        head = self.gid == "group"
        return text_height(self.text, self.size, width - self.indent, bold=head)

    def needs(self, width: float) -> float:
        """From its top to the foot of the column at least."""
        return self.height(width) + BELOW.get(self.gid, 0.0)

    @property
    def indent(self) -> float:
        """What a box to tick takes of its width."""
        return BOX if self.gid == "entry" else 0.0


def shopping_sheet(found: ShoppingList, *, style: Style = STYLE) -> Figure:
    """The list on one landscape sheet (297 x 210 mm), with boxes to tick.

    Where it is too long even in the smallest text, its longest groups give way, and what
    they leave out is counted: all of it is in the table.
    """
    page = Page(style)
    top = page.head(found.scenario.title, "Shopping list") + 3.0
    best = found.result.suggestions[0].arrangement
    place = Box(MARGIN, top, PLAN, page.height - MARGIN - top - 12)
    draw_to_scale(page, found.scenario, best, place, PlanOptions(clearances=False), "", lines=4)
    left = MARGIN + PLAN + GUTTER
    width = (page.width - MARGIN - left - GUTTER) / COLUMNS
    column = Box(left, top, width, page.height - MARGIN - top)
    for x, y, line in _placed(_told(found, column), column):
        _draw(page, line, x, y, width)
    return page.figure


def _told(found: ShoppingList, column: Box) -> list[Line]:
    """The lines in the largest text in which all fit, or as many as fit in the smallest."""
    groups = _groups(found)

    def set_in(shown: Iterable[Shown], size: float) -> list[Line]:
        return list(_lines(zip(groups, shown, strict=True), size))

    whole = [(rows, "") for rows in groups.values()]
    size = largest_size(SIZES, lambda s: _fit(set_in(whole, s), column))
    rows = list(groups.values())
    return set_in(shortened(rows, lambda shown: _fit(set_in(shown, size), column)), size)


def _groups(found: ShoppingList) -> dict[str, list[str]]:
    groups = dict(grouped_words(found))
    groups[MONEY] = money_lines(found)
    groups[REST] = [item_words(item) for item in found.items]
    return groups


def _lines(groups: Iterable[tuple[str, Shown]], size: float) -> Iterator[Line]:
    for head, (rows, rest) in groups:
        gid = "money" if head == MONEY else "entry"
        lines = [Line("group", head, size + 1), *(Line(gid, row, size) for row in rows)]
        lines += [Line("more", rest, size)] if rest else []
        yield from lines[:-1]
        yield replace(lines[-1], after=AIR + BETWEEN)
    yield Line("caution", f"{NOT_YET} {CAUTION}", size)


def _placed(lines: Iterable[Line], column: Box) -> Iterator[tuple[float, float, Line]]:
    """Left and top of each line: below the one before it, or where the next column begins."""
    left, top, rows = column.left, column.top, list(lines)
    for line, after in zip_longest(rows, rows[1:]):
        needed = line.needs(column.width)
        if line.gid == "group" and after is not None:  # no head without its first row
            needed += line.after + after.needs(column.width)
        if top + needed > column.foot and top > column.top:
            left, top = left + column.width + GUTTER, column.top
        yield left, top, line
        top += line.height(column.width) + line.after


def _fit(lines: Sequence[Line], column: Box) -> bool:
    """Whether all lines are in the columns of the sheet, none below their foot."""
    beyond = column.left + COLUMNS * (column.width + GUTTER)
    return all(
        left < beyond - 1 and top + line.needs(column.width) <= column.foot
        for left, top, line in _placed(lines, column)
    )


def _draw(page: Page, line: Line, left: float, top: float, width: float) -> None:
    if line.gid == "entry":
        mark = Bit("\N{WHITE SQUARE}", line.size, page.style.quiet)
        page.item(left, top, width, mark, line.text, line.size, indent=line.indent, gid="entry")
        return
    colour = page.style.quiet if line.gid == "caution" else ""
    bold = line.gid == "group"
    page.paragraph(left, top, width, line.text, line.size, bold=bold, colour=colour, gid=line.gid)
