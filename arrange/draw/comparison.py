"""Two to six options on one sheet: plans at one scale, scores, reasons in rows."""

from __future__ import annotations

from dataclasses import dataclass, replace

from matplotlib.figure import Figure

from arrange.data.arrangement import Arrangement
from arrange.data.comparison import LETTERS, Comparison, Option, Row
from arrange.draw.grid import common_scale, draw_small, numbers_words, plan_height
from arrange.draw.page import (
    MARGIN,
    Bit,
    Box,
    Page,
    ascent,
    line_height,
    text_height,
)
from arrange.draw.plan import PlanOptions, on_paper, printed_scale
from arrange.draw.style import LEAST, STYLE, Style
from arrange.draw.text import as_sentence, font
from arrange.words.compare import (
    NOT_ASKED,
    by_difference,
    cell_words,
    cost_words,
    fault_cells,
    gap_words,
    notes_words,
    part_rows,
    remark_words,
    rest_words,
    row_label,
    score_words,
    state_words,
    sums_words,
)
from arrange.words.suggest import spare_words

GUTTER = 5.0
# Points: the largest that leaves the plans as large; A3 may be printed on A4, at seven tenths.
SIZES = {"A4": (8.5, 8.0, 7.5, LEAST), "A3": (11.0, 10.0, 9.0, 8.0, LEAST)}
AIR = 0.9
BAR_FROM, BAR_HIGH = 24.0, 1.9  # mm: from the left of a column, of the bar of a part
SHORT = 24  # letters of a measured value that still go beside its points
PLANS = 0.52  # of what is left below the heads, at most
BEST = "\N{BLACK RIGHT-POINTING SMALL TRIANGLE}"
PAPERS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0)}
MANY = 4  # options from which on the sheet is A3
ROOMY = 60.0  # mm of a column from which on gaps are dimensioned on its plan


@dataclass(frozen=True, slots=True)
class Columns:
    """Where the columns are: mm from the left, their widths; and the size of their text."""

    label: float
    width: float
    size: float

    @property
    def bar(self) -> float:
        """From the left of a column to the bar of a part: points stand before it."""
        return BAR_FROM * self.size / LEAST

    def left(self, number: int) -> float:
        """Where the column of an option begins."""
        return MARGIN + self.label + GUTTER + number * (self.width + GUTTER)


def comparison_sheet(comparison: Comparison, *, style: Style = STYLE) -> Figure:
    """The options side by side, landscape A4, A3 from four options on.

    All plans are at the same printed scale. The better one of a row is bold with a
    triangle before it. Rows in which the options differ come first; those for which
    there is no room, and those alike in all, are counted.
    """
    options = comparison.options
    paper, label = ("A3", 58.0) if len(options) >= MANY else ("A4", 46.0)
    width, height = PAPERS[paper]
    page = Page(style, width, height)
    free = (page.inner - label - len(options) * GUTTER) / len(options)
    table = _lines(comparison)

    def tried(size: float) -> tuple[Columns, float, int, list[Box], bool]:
        """The plans with text of a size, and whether all of the table fits below them."""
        columns = Columns(label, free, size)
        top = _heads(Page(style, width, height), comparison, columns, MARGIN)
        left, tall = height - MARGIN - top, _table_height(columns, table)
        ratio, cells = _plans(options, columns, top, max(left * PLANS, left - tall - 10), style)
        foot = max(cell.foot for cell in cells) + 3 + tall + 2 * line_height(size)
        return columns, top, ratio, cells, foot <= height - MARGIN

    least = tried(LEAST)
    larger = (tried(size) for size in SIZES[paper])
    columns, top, ratio, cells, _ = next(
        (one for one in larger if one[-1] and one[2] <= least[2]), least
    )
    size = columns.size
    _heads(page, comparison, columns, MARGIN)
    numbers: dict[str, str] = {}
    for option, cell in zip(options, cells, strict=True):
        _draw_plan(page, option, cell, ratio, numbers)
    note = f"All plans at {on_paper(ratio, paper)}. {BEST} marks the best in each row."
    below = page.paragraph(MARGIN, top + 1, label, note, size, colour=style.quiet)
    if numbers:
        told = f"On the plans: {numbers_words(numbers)}."
        below = page.paragraph(MARGIN, below + 2, label, told, size, colour=style.quiet)
    page.paragraph(
        MARGIN, below + 2, label, remark_words(comparison), size, colour=style.loss, bold=True
    )
    _table(page, comparison, columns, table, max(c.top + c.height for c in cells) + 3)
    return page.figure


def _heads(page: Page, comparison: Comparison, columns: Columns, top: float) -> float:
    style = page.style
    page.write(MARGIN, top + 5, "Options side by side", 11.0, bold=True, gid="title")
    bottom = top
    for i, option in enumerate(comparison.options):
        left, best = columns.left(i), i in comparison.best
        score = f"{BEST}{score_words(option)}" if best else score_words(option)
        # No score makes up for what does not work.
        size, colour = (14.0, style.accent) if option.works else (9.0, style.quiet)
        bits = [
            Bit(LETTERS[i], 14.0, bold=True),
            Bit(score, size, colour, bold=best, gap=1.5, gid="score"),
        ]
        if option.score is not None:
            rest = "of 100" if option.works else "of 100 for the rest"
            bits.append(Bit(rest, 7.0, style.quiet))
        page.row(left, top + 5, *bits)
        page.rule(left, top + 7, columns.width)
        title, size = option.scenario.title, columns.size + 0.5
        at = page.paragraph(left, top + 8, columns.width, title, size, bold=True)
        at = page.paragraph(left, at, columns.width, option.asked, columns.size, colour=style.quiet)
        colour = style.text if option.works else style.loss
        at = page.paragraph(
            left, at, columns.width, as_sentence(state_words(option)), columns.size, colour=colour
        )
        for note in notes_words(option):
            at = page.paragraph(
                left, at, columns.width, as_sentence(note), columns.size, colour=style.quiet
            )
        bottom = max(bottom, at)
    return bottom + 1.5


def _plans(
    options: tuple[Option, ...], columns: Columns, top: float, most: float, style: Style
) -> tuple[int, list[Box]]:
    """The one scale of all plans, as one to so many, and their places, each above its column."""
    rooms = [o.scenario.room for o in options]
    ratio = printed_scale(common_scale(rooms, columns.width, most - 2, style))
    tall = max(plan_height(room, ratio, style) for room in rooms)
    cells = [Box(columns.left(i), top, columns.width, tall) for i in range(len(options))]
    return ratio, cells


def _draw_plan(page: Page, option: Option, box: Box, ratio: int, numbers: dict[str, str]) -> None:
    scenario, arrangement = option.scenario, option.arrangement
    if arrangement is None:
        # The empty room, so that its size can be compared all the same.
        scenario, arrangement = replace(scenario, pieces=(), wishes=()), Arrangement(())
    gaps = option.gaps if box.width >= ROOMY else ()
    options = PlanOptions(gaps, clearances=False, small=True, numbers=numbers)
    ax = draw_small(page, scenario, arrangement, options, box, ratio)
    if option.arrangement is None:
        word = "Impossible" if option.state == "impossible" else "Nothing found"
        x0, y0, x1, y1 = scenario.room.bounds
        ax.text(
            (x0 + x1) / 2,
            (y0 + y1) / 2,
            word,
            fontproperties=font(9.0, True),
            color=page.style.loss,
            ha="center",
            gid="no-arrangement",
        )


@dataclass(frozen=True, slots=True)
class Line:
    """One row of the table, as it is written; ``bars`` are dark and whole shares of a bar."""

    label: str
    cells: tuple[str, ...]
    best: tuple[int, ...] = ()
    bars: tuple[tuple[float, float], ...] = ()


def _lines(comparison: Comparison) -> list[Line]:
    """All that the table could show."""
    options = comparison.options
    faults = fault_cells(options)
    lines = [
        *([Line("Not so good", tuple(faults))] if faults else []),
        *_part_lines(comparison),
        Line("Still to buy", tuple(cost_words(o) for o in options)),
        Line("Tightest gap", tuple(gap_words(o) for o in options)),
        Line("Least room to spare", tuple(_spare_words(o) for o in options)),
    ]
    for row in by_difference(comparison.rows)[0]:
        cells = _with_measured(row, one_scale=comparison.one_scale)
        lines.append(Line(row_label(row), cells, row.best))
    return lines


def _part_lines(comparison: Comparison) -> list[Line]:
    """The parts of the scores, their bars all at one scale."""
    rows = part_rows(comparison)
    most = max((pair[1] for _, sums, _ in rows for pair in sums if pair), default=1)
    return [
        Line(
            name,
            tuple(sums_words(pair) for pair in sums),
            best,
            tuple((pair[0] / most, pair[1] / most) if pair else (0.0, 0.0) for pair in sums),
        )
        for name, sums, best in rows
    ]


def _table_height(columns: Columns, lines: list[Line]) -> float:
    return sum(_line_height(columns, line) for line in lines)


def _table(
    page: Page, comparison: Comparison, columns: Columns, lines: list[Line], top: float
) -> None:
    quiet, (_, alike, alone) = page.style.quiet, by_difference(comparison.rows)
    last = page.height - MARGIN - line_height(columns.size) - 1
    more = 0
    for number, line in enumerate(lines):
        if top + _line_height(columns, line) > last:
            more = len(lines) - number
            break
        top = _draw_line(page, columns, top, line)
    rest = rest_words(more, alike, alone)
    if any(reason is None for row in comparison.rows for reason in row.reasons):
        rest = f"{NOT_ASKED} means: not asked of this option, or there is no plan. {rest}"
    page.paragraph(MARGIN, top + 0.5, page.inner, rest, columns.size, colour=quiet)


def _spare_words(option: Option) -> str:
    if not option.spare:
        return "\N{EN DASH}"
    return spare_words(option.spare[0], option.scenario.unit)


def _with_measured(row: Row, *, one_scale: bool) -> tuple[str, ...]:
    """Points with what was measured, where that is short."""
    told = []
    for reason in row.reasons:
        cell = cell_words(reason, one_scale=one_scale)
        measured = reason.measured if reason is not None else ""
        told.append(f"{cell} ({measured})" if 0 < len(measured) < SHORT else cell)
    return tuple(told)


def _line_height(columns: Columns, line: Line) -> float:
    heights = [text_height(c, columns.size, columns.width - 3, bold=True) for c in line.cells]
    return max(text_height(line.label, columns.size, columns.label), *heights) + AIR


def _draw_line(page: Page, columns: Columns, top: float, line: Line) -> float:
    """One row of the table; returns the top of the next."""
    page.rule(MARGIN, top - AIR / 2, page.inner)
    page.paragraph(MARGIN, top, columns.label, line.label, columns.size)
    for i, cell in enumerate(line.cells):
        left, bold = columns.left(i), i in line.best
        if bold:
            page.write(left, top + ascent(columns.size), BEST, columns.size + 1)
        page.paragraph(left + 3, top, columns.width - 3, cell, columns.size, bold=bold, gid="cell")
        won, possible = line.bars[i] if line.bars else (0.0, 0.0)
        if possible:
            start, wide = left + columns.bar, columns.width - columns.bar
            high = BAR_HIGH * columns.size / LEAST
            whole = Box(start, top + 0.56 * ascent(columns.size) - high / 2, wide * possible, high)
            page.bar(whole, page.style.paper, page.style.fine, 0.4)
            page.bar(Box(start, whole.top, wide * won, high), page.style.accent)
    return top + _line_height(columns, line)
