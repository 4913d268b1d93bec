"""A grid of plans: several plans on one sheet, all at one scale, each with its words.

Every cell has a line with its title and score, its plan, and paragraphs. The paragraphs
stand below the plan or beside it, in as many columns and rows as let the plans be largest.
Lengths in mm of paper unless said otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from matplotlib.axes import Axes

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import points
from arrange.data.result import Part, Verdict
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.draw.page import (
    MARGIN,
    Bit,
    Box,
    Page,
    and_more,
    ascent,
    largest_size,
    line_height,
    text_height,
    text_width,
)
from arrange.draw.plan import (
    BARE_MARGINS,
    PlanOptions,
    draw_plan,
    drawn_extent,
    largest_scale,
    make_board,
    on_paper,
    printed_scale,
)
from arrange.draw.style import LEAST, MM_PER_POINT, Style
from arrange.words.reasons import not_avoided

GAP = 6.0  # between cells
HEAD = 9.0  # height of the line with title and score
SIZE = LEAST  # points, of the paragraphs
INDENT = 3.5  # mm, for the mark before a paragraph in text of that size
LEAST_WIDTH = 43.0  # of a cell, for the line with title and score
LEAST_PLAN = 20.0, 15.0  # width and height
TEXT = 0.45  # of a cell's height at most, where a smaller text can help
PART_AIR, PART_ROW, PART_HIGH = 3.0, 2.4, 1.4  # mm: behind a part, below its name, of its bar
FAULTS = 2  # told with a small plan; the rest is counted
SHORT: dict[Part, str] = {
    "works": "Works",
    "together": "Together",
    "sits": "Sits well",
    "opens": "Opens up",
    "asked": "Asked for",
}


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Some words with a plan; or, in place of words, the ``parts`` of a score, each with a bar."""

    text: str = ""
    mark: str = ""
    colour: str = ""
    bold: bool = False
    gid: str = ""
    parts: tuple[tuple[str, int, int], ...] = ()
    brief: bool = False  # the parts without their points


@dataclass(frozen=True, slots=True)
class Cell:
    """One plan: a title and its score in a line, a note behind them, and paragraphs.

    The note is left out where it would run into the next cell.
    """

    title: Bit
    score: Bit
    note: Bit
    scenario: Scenario
    arrangement: Arrangement
    options: PlanOptions
    paragraphs: Sequence[Paragraph] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """How paragraphs are set: text sizes and widths beside a plan to choose from, what comes first.

    ``first``: the paragraphs are above the plan or at its left, not below or at its right.
    """

    sizes: tuple[float, ...] = (SIZE,)
    beside: tuple[float, ...] = (50.0,)
    first: bool = False


SETTING = Setting()


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the cells are in ``place``: so many columns, a cell's size, its text's size in points.

    ``text`` is the height of the longest text; ``beside`` its width beside the plan,
    0 where it is below or above.
    """

    place: Box
    columns: int
    width: float
    height: float
    text: float
    size: float
    beside: float
    first: bool

    def cell(self, number: int) -> Box:
        """The place of a cell on the page, counted from 0 row by row."""
        row, column = divmod(number, self.columns)
        left = self.place.left + column * (self.width + GAP)
        top = self.place.top + row * (self.height + GAP)
        return Box(left, top, self.width, self.height)

    @property
    def plan(self) -> Box:
        """The place of the plan in a cell, from the cell's corner."""
        if self.beside:
            left = self.beside + 3 if self.first else 0.0
            return Box(left, HEAD, self.width - self.beside - 3, self.height - HEAD)
        top = HEAD + self.text if self.first else HEAD
        return Box(0.0, top, self.width, self.height - HEAD - self.text)

    def words(self, tall: float) -> Box:
        """The place of the paragraphs in a cell with a plan ``tall`` high."""
        plan, width = self.plan, self.beside or self.width
        if self.first:
            return Box(0.0, HEAD, width, self.text)
        if self.beside:
            return Box(plan.width + 3, HEAD + 1, width, self.text)
        return Box(0.0, HEAD + tall + 1, width, self.text)


def draw_grid(
    page: Page,
    title: str,
    cells: Sequence[Cell],
    place: Box,
    *,
    setting: Setting = SETTING,
    note: Callable[[int], str] = on_paper,
) -> str:
    """All cells in ``place``, under the title and a note that tells the one scale of the plans.

    Returns what the numbers on the plans mean, for their key; "" if there are none.
    """
    cells = _with_room(cells, place, setting)
    layout = best_layout(cells, place, setting, page.style)
    ratio = printed_scale(_scale(cells, layout, page.style))
    page.head(title, note(ratio))
    layout = _in_the_middle(cells, layout, ratio, page.style)
    numbers: dict[str, str] = {}
    for place_of, cell in enumerate(cells):
        # A plan by itself has room for every name.
        options = replace(cell.options, numbers=numbers if len(cells) > 1 else None)
        _draw_cell(page, replace(cell, options=options), layout.cell(place_of), layout, ratio)
    return numbers_words(numbers)


def numbers_words(numbers: Mapping[str, str]) -> str:
    """What each number on the plans stands for.

    >>> numbers_words({"floor lamp": "1", "plant": "2"})
    '1 floor lamp, 2 plant'
    """
    return ", ".join(f"{number} {name}" for name, number in numbers.items())


def best_layout(cells: Sequence[Cell], place: Box, setting: Setting, style: Style) -> Layout:
    """The layout that lets the plans be largest, with room for every line of text."""
    # Text that fits nowhere is cut by the sheet's edge rather than hiding a plan.
    narrow, size = place.width / len(cells) - GAP, setting.sizes[-1]
    squeezed = Layout(place, len(cells), narrow, place.height, 60.0, size, 0.0, setting.first)
    layouts = _layouts(cells, place, setting)

    def worth(one: Layout) -> tuple[int, float, float, float]:
        scale = _scale(cells, one, style)
        return -printed_scale(scale), one.size, one.beside, scale

    return max(layouts, key=worth, default=squeezed)


def _in_the_middle(cells: Sequence[Cell], layout: Layout, ratio: int, style: Style) -> Layout:
    """The layout with what a single row leaves free in part above it, not all at the foot."""
    if layout.beside or layout.columns < len(cells):
        return layout
    tall = max(plan_height(cell.scenario.room, ratio, style) for cell in cells)
    free = max(layout.height - HEAD - tall - layout.text - 1, 0.0)
    place = replace(layout.place, top=layout.place.top + free / 3)
    return replace(layout, place=place, height=layout.height - free / 3)


def largest_ratio(cells: Sequence[Cell], place: Box, setting: Setting, style: Style) -> int | None:
    """The one scale of all plans, as one to so many; None if there is no room for the words."""
    if next(_layouts(cells, place, setting), None) is None:
        return None
    return printed_scale(_scale(cells, best_layout(cells, place, setting, style), style))


def _with_room(cells: Sequence[Cell], place: Box, setting: Setting) -> Sequence[Cell]:
    """The cells with so many of their paragraphs that there is room for all; the rest is counted.

    The cell with the longest text gives way first, from its end.
    """
    kept = [len(cell.paragraphs) for cell in cells]

    def shown() -> list[Cell]:
        return [_first_of(cell, n) for cell, n in zip(cells, kept, strict=True)]

    while any(kept) and next(_layouts(shown(), place, setting), None) is None:
        tall = [_longest([cell], setting.beside[0], setting.sizes[-1]) for cell in shown()]
        kept[max(range(len(kept)), key=lambda i: (kept[i] > 0, tall[i]))] -= 1
    return shown()


def _first_of(cell: Cell, count: int) -> Cell:
    """A cell with its first paragraphs alone, and how many there are besides."""
    more = and_more(len(cell.paragraphs) - count)
    return replace(cell, paragraphs=[*cell.paragraphs[:count], Paragraph(more)]) if more else cell


def _scale(cells: Sequence[Cell], layout: Layout, style: Style) -> float:
    rooms = [cell.scenario.room for cell in cells]
    return common_scale(rooms, layout.plan.width, layout.plan.height, style)


def _layouts(cells: Sequence[Cell], place: Box, setting: Setting) -> Iterator[Layout]:
    """Every way to set the cells that has room for all."""
    for columns in range(1, len(cells) + 1):
        rows = math.ceil(len(cells) / columns)
        width = (place.width - (columns - 1) * GAP) / columns
        height = (place.height - (rows - 1) * GAP) / rows
        for beside, size in product((*setting.beside, 0.0), setting.sizes):
            column = beside or width
            most = (height - HEAD) * (1.0 if beside else TEXT)
            if size > _size(cells, column, most, setting) or _too_wide(cells, column, size):
                continue
            text = _longest(cells, column, size)
            layout = Layout(place, columns, width, height, text, size, beside, setting.first)
            wide, high = layout.plan.width, layout.plan.height
            fits = wide >= LEAST_PLAN[0] and high >= LEAST_PLAN[1] and text <= height - HEAD
            if width >= LEAST_WIDTH and fits:
                yield layout


def _too_wide(cells: Sequence[Cell], width: float, size: float) -> bool:
    """Whether a part of a score would run out of its column."""
    return any(_part_width(one, size) - PART_AIR > width for c in cells for one in c.paragraphs)


def _size(cells: Sequence[Cell], width: float, most: float, setting: Setting) -> float:
    """Of the texts, so that the longest is at most so high."""
    return largest_size(setting.sizes, lambda s: _longest(cells, width, s) <= most)


def _longest(cells: Sequence[Cell], width: float, size: float) -> float:
    """Height of the longest text of a cell."""
    return max(_text_height(cell.paragraphs, width, size) for cell in cells)


def _text_height(paragraphs: Iterable[Paragraph], width: float, size: float) -> float:
    heights = (
        _parts_height(p, width, size)
        if p.parts
        else text_height(p.text, size, width - _indent(size) * bool(p.mark), p.bold)
        for p in paragraphs
    )
    return sum(height + 0.6 for height in heights) + 1.5


def _indent(size: float) -> float:
    """For the mark before a paragraph."""
    return INDENT * size / SIZE


def _told(one: Paragraph) -> list[str]:
    """The words of each part."""
    if one.brief:
        return [name for name, _, _ in one.parts]
    return [f"{name} {points(won)} of {points(possible)}" for name, won, possible in one.parts]


def _part_width(one: Paragraph, size: float) -> float:
    """Of the longest of its parts, with the air behind it; 0 if it has none."""
    return max((text_width(told, size) + PART_AIR for told in _told(one)), default=0.0)


def _abreast(one: Paragraph, width: float, size: float) -> int:
    """How many parts stand side by side in text of ``size`` points."""
    return max(1, min(len(one.parts), int(width / _part_width(one, size))))


def _parts_height(one: Paragraph, width: float, size: float) -> float:
    rows = math.ceil(len(one.parts) / _abreast(one, width, size))
    return rows * (line_height(size) + PART_ROW)


def _draw_parts(
    page: Page, one: Paragraph, left: float, top: float, width: float, size: float
) -> float:
    """The parts side by side: name and points, and below them a bar, all at one scale."""
    style, abreast = page.style, _abreast(one, width, size)
    step = width / abreast
    most = max(possible for _, _, possible in one.parts)
    for number, (told, (_, won, possible)) in enumerate(zip(_told(one), one.parts, strict=True)):
        row, column = divmod(number, abreast)
        x, y = left + column * step, top + row * (line_height(size) + PART_ROW)
        page.write(x, y + ascent(size), told, size, colour=style.quiet, gid="part")
        full = (step - 2.0) * possible / most
        bar = Box(x, y + line_height(size), full, PART_HIGH)
        page.bar(bar, style.paper, style.fine, 0.4)
        page.bar(Box(x, bar.top, min(full, full * won / possible), PART_HIGH), style.accent)
    return top + _parts_height(one, width, size)


def score_paragraphs(
    verdict: Verdict, head: str, style: Style, *, brief: bool = False
) -> list[Paragraph]:
    """What was not avoided, under ``head`` said once, and the parts of the score."""
    faults = not_avoided(verdict.reasons)
    found = [Paragraph(head, colour=style.loss, bold=True, gid="faults")] if faults else []
    found += [Paragraph(one, "!", gid="fault") for one in faults[:FAULTS]]
    if len(faults) > FAULTS:
        found.append(Paragraph(and_more(len(faults) - FAULTS), gid="fault"))
    parts = tuple((SHORT[part], *sums) for part, sums in verdict.parts.items())
    return [*found, *([Paragraph(parts=parts, brief=brief)] if parts else [])]


def common_scale(rooms: Iterable[Room], width: float, height: float, style: Style) -> float:
    """Points on paper for one mm of the room, at which each room fits ``width`` x ``height``.

    Rooms may differ: a door may open outwards in one of them.
    """
    wide, high = width / MM_PER_POINT, height / MM_PER_POINT
    return min(largest_scale(room, wide, high, BARE_MARGINS, style.wall) for room in rooms)


def plan_height(room: Room, ratio: int, style: Style) -> float:
    """Height of a plan with its margins, so that its text follows close below."""
    _, low, _, high = drawn_extent(room, style.wall).bounds
    return float(high - low) / ratio + (BARE_MARGINS[1] + BARE_MARGINS[3]) * MM_PER_POINT


def _draw_cell(page: Page, cell: Cell, place: Box, layout: Layout, ratio: int) -> None:
    baseline = place.top + 5.0
    after = page.row(place.left, baseline, cell.title, cell.score)
    if after + text_width(cell.note.text, cell.note.size) <= place.left + place.width:
        page.row(after, baseline, cell.note)
    page.rule(place.left, place.top + 7.0, place.width)
    plan = layout.plan
    tall = plan.height
    if layout.first or not layout.beside:
        tall = min(tall, plan_height(cell.scenario.room, ratio, page.style))
    spot = Box(place.left + plan.left, place.top + plan.top, plan.width, tall)
    draw_small(page, cell.scenario, cell.arrangement, cell.options, spot, ratio)
    words = layout.words(tall)
    left, top = place.left + words.left, place.top + words.top
    for one in cell.paragraphs:
        top = _draw_paragraph(page, one, left, top, words.width, layout.size)


def draw_small(
    page: Page,
    scenario: Scenario,
    arrangement: Arrangement,
    options: PlanOptions,
    place: Box,
    ratio: int,
) -> Axes:
    """A plan with bare margins at 1:``ratio`` in the middle of ``place``; returns its axes."""
    board = make_board(page.axes(place), scenario.room, page.style, BARE_MARGINS, ratio)
    draw_plan(board, scenario, arrangement, options)
    return board.ax


def _draw_paragraph(
    page: Page, one: Paragraph, left: float, top: float, width: float, size: float
) -> float:
    if one.parts:
        return 0.6 + _draw_parts(page, one, left, top, width, size)
    if one.mark:
        mark = Bit(one.mark, size, bold=True)
        told, colour = one.text, one.colour
        return (
            page.item(left, top, width, mark, told, size, indent=_indent(size), colour=colour) + 0.6
        )
    return 0.6 + page.paragraph(
        left, top, width, one.text, size, colour=one.colour, bold=one.bold, gid=one.gid
    )


def draw_numbers(page: Page, key: str) -> None:
    """What the numbers on the plans mean, in a line at the foot."""
    if key:
        foot, told = page.height - MARGIN, f"On the plans: {key}."
        page.write(MARGIN, foot, told, SIZE, colour=page.style.quiet, gid="numbers")
