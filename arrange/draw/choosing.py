"""What money buys on one sheet: points over sums, and what each step is. Lengths on paper in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from math import floor

from matplotlib.figure import Figure

from arrange.data.choosing import Choosing, Pick
from arrange.data.lengths import money, points
from arrange.draw.page import MARGIN, Box, Page, ascent, largest_size, text_height, text_width
from arrange.draw.style import LEAST, STYLE, Style
from arrange.words.choosing import advice, answer_words, rest_words, step_words, sum_words

TEXT, SMALL = 8.5, LEAST
SIZES = (9.0, 8.0, LEAST)
LIST, GUTTER, AIR = 118.0, 10.0, 1.2
STEP = 50  # tenths between two lines across the chart
SPREAD = 100  # tenths that the chart is high at least
SPACE = (13.0, 7.0)  # left of the axis and below it
MOST_MARKS = 5
BESIDE = ((-2.4, -1.6), (1.6, 3.6), (-2.4, 4.6), (1.6, -2.2), (-5.0, -3.6), (3.6, 6.0))


def sums_sheet(found: Choosing, *, style: Style = STYLE) -> Figure:
    """The curve on a landscape sheet (297 x 210 mm): a dot for each choice, numbered as listed.

    ValueError if there is no curve.
    """
    if not found.curve:
        raise ValueError("no choice was found, so there is no curve")
    page = Page(style)
    top = page.title(f"{found.whole.title}: what each sum buys", MARGIN, MARGIN, page.inner) + 1.5
    top = page.paragraph(MARGIN, top, page.inner, answer_words(found), TEXT, gid="answer") + 4
    _chart(page, found, Box(MARGIN, top, page.inner - LIST - GUTTER, page.height - MARGIN - top))
    left = page.width - MARGIN - LIST
    _list(page, found, Box(left, top, LIST, page.height - MARGIN - top))
    return page.figure


class Scales:
    """Where a sum and points are in the chart."""

    def __init__(self, found: Choosing, place: Box) -> None:
        sums = [float(one.choice.cost) for one in found.curve]
        if found.spendable is not None:
            sums.append(float(found.spendable))
        values = [one.points for one in found.curve]
        self.low = min(floor(min(values) / STEP), (max(values) - SPREAD) // STEP) * STEP
        self.high = -(-max(values) // STEP) * STEP
        self.least, most = min(sums), max(sums)
        self.span = max(most - self.least, 1.0) * 1.08
        self.least -= self.span * 0.04
        self.box = Box(
            place.left + SPACE[0], place.top + 6, place.width - SPACE[0], place.height - 14
        )

    def x(self, amount: Decimal) -> float:
        """Of a sum."""
        return self.box.left + self.box.width * (float(amount) - self.least) / self.span

    def y(self, tenths: int) -> float:
        """Of points."""
        part = (tenths - self.low) / (self.high - self.low)
        return self.box.top + self.box.height * (1 - part)


def _chart(page: Page, found: Choosing, place: Box) -> None:
    """Steps from the cheapest on: each sum buys what the last dot at or before it has."""
    scales, style = Scales(found, place), page.style
    box = scales.box
    page.write(place.left, place.top + 2, "Points", SMALL, gid="axis")
    for tenths in range(scales.low, scales.high + 1, STEP):
        y = scales.y(tenths)
        page.rule(box.left, y, box.width)
        text = points(tenths).removesuffix(".0")
        page.write(box.left - 1.5, y + 0.8, text, SMALL, align="right", colour=style.quiet)
    at = [(scales.x(one.choice.cost), scales.y(one.points)) for one in found.curve]
    xs, ys = _stairs(at, box.left + box.width)
    page.ax.plot(xs, ys, color=style.accent, linewidth=1.2, gid="curve")
    taken: list[Box] = []
    if found.spendable is not None:
        taken += _limit(page, found, scales)
    for amount in _marks(scales.least, scales.least + scales.span):
        x = scales.x(amount)
        page.ax.plot([x, x], [box.foot, box.foot + 1], color=style.fine, linewidth=0.7)
        page.write(x, box.foot + 4, money(amount), SMALL, align="center", colour=style.quiet)
    told = "What it costs" + (f", {found.money.currency}" if found.money.currency else "")
    page.write(box.right, box.foot + 8, told, SMALL, align="right", gid="axis")
    for number, (one, (x, y)) in enumerate(zip(found.curve, at, strict=True), start=1):
        chosen = found.best is not None and one.choice == found.best.choice
        face = style.accent if chosen else style.paper
        page.ax.plot(
            [x], [y], "o", markersize=5, markerfacecolor=face, markeredgecolor=style.accent,
            gid="choice",
        )  # fmt: skip
        _number(page, str(number), x, y, taken)


def _stairs(at: Sequence[tuple[float, float]], end: float) -> tuple[list[float], list[float]]:
    xs, ys = [at[0][0]], [at[0][1]]
    for x, y in at[1:]:
        xs += [x, x]
        ys += [ys[-1], y]
    return [*xs, end], [*ys, ys[-1]]


def _limit(page: Page, found: Choosing, scales: Scales) -> list[Box]:
    """A broken line at what may be spent; where it and its words are."""
    box, x = scales.box, scales.x(found.spendable or Decimal(0))
    ends = [box.top, box.foot]
    page.ax.plot([x, x], ends, color=page.style.fine, linewidth=0.9, linestyle="--", gid="budget")
    text = f"you have {sum_words(found, found.spendable)}"
    page.write(x - 1, box.top - 1.5, text, SMALL, align="right", colour=page.style.quiet)
    wide, high = text_width(text, SMALL), 2.6
    words = Box(x - 1 - wide, box.top - 1.5 - high, wide, high)
    return [Box(x - 0.4, box.top, 0.8, box.height), words]


def _marks(low: float, high: float) -> list[Decimal]:
    """Up to six round sums between two: steps of 1, 2 or 5 and zeros.

    >>> [int(mark) for mark in _marks(70, 230)]
    [100, 150, 200]
    """
    step = next(
        size * 10**power
        for power in range(9)
        for size in (1, 2, 5)
        if (high - low) / (size * 10**power) < MOST_MARKS
    )
    first = -(-low // step) * step
    return [Decimal(int(first + i * step)) for i in range(int((high - first) // step) + 1)]


def _number(page: Page, text: str, x: float, y: float, taken: list[Box]) -> None:
    """The number of a dot beside it, where no other number is if that can be."""
    wide, high = text_width(text, SMALL), 2.6
    places = [Box(x + dx - wide * (dx < 0), y + dy - high, wide, high) for dx, dy in BESIDE]
    place = next((p for p in places if not any(_meet(p, other) for other in taken)), places[0])
    taken.append(place)
    page.write(place.left, place.foot, text, SMALL, gid="number")


def _meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.foot
        and other.top < one.foot
    )


def _list(page: Page, found: Choosing, place: Box) -> None:
    """What each dot is, in the largest text in which all fit; the rest is counted."""
    rows, told = list(_rows(found)), advice(found)

    def height(count: int, size: float) -> float:
        return sum(text_height(text, size, place.width - 6) + AIR for _, text in rows[:count])

    def left(size: float) -> float:
        return place.height - 3 - sum(text_height(text, size, place.width) + AIR for text in told)

    size = largest_size(SIZES, lambda s: height(len(rows), s) <= left(s))
    count, room = len(rows), left(size)
    while count and height(count, size) > room - (6 if count < len(rows) else 0):
        count -= 1
    top = place.top
    for number, text in rows[:count]:
        y, quiet = top + ascent(size), page.style.quiet
        page.write(place.left + 4, y, number, size, align="right", colour=quiet)
        top = page.paragraph(place.left + 6, top, place.width - 6, text, size, gid="step") + AIR
    if count < len(rows):
        words = rest_words(len(rows) - count)
        top = page.paragraph(place.left + 6, top, place.width - 6, words, size, gid="rest") + AIR
    top += 3
    for text in told:
        top = page.paragraph(place.left, top, place.width, text, size, gid="advice") + AIR


def _rows(found: Choosing) -> Iterator[tuple[str, str]]:
    before: Pick | None = None
    for number, one in enumerate(found.curve, start=1):
        yield str(number), step_words(found, before, one)
        before = one
