"""A grid of plans: several plans on one sheet, all at one scale, each with its words.

Every cell has a line with its title and score, its plan, and paragraphs. The paragraphs
stand below the plan or beside it, in as many columns and rows as let the plans be largest.
The overview of all suggestions is such a grid, with what sets each apart from the first.
Lengths in mm of paper unless said otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import points, the
from arrange.data.result import Part, Suggestion, Verdict
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.different import leading, length2
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
from arrange.draw.style import LEAST, MM_PER_POINT, STYLE, Style
from arrange.geometry.scene import Scene
from arrange.geometry.spots import middle2
from arrange.words.places import TURNED, stands_words, wall_called
from arrange.words.reasons import choose, not_avoided, not_avoided_head, reason_words

GAP = 7.0  # between cells
HEAD = 9.0  # height of the line with title and score
SIZE = LEAST  # points, of the paragraphs
INDENT = 3.5  # for the mark before a paragraph
LEAST_WIDTH = 43.0  # of a cell, for the line with title and score
LEAST_PLAN = 20.0, 15.0  # width and height
TEXT = 0.45  # of a cell's height at most, where a smaller text can help
PART_WIDTH, PART_ROW, PART_HIGH = 32.0, 2.4, 1.4  # mm: of a part, below its name, of its bar
FAULTS = 2  # told with a small plan; the rest is counted
SHORT: dict[Part, str] = {
    "works": "Works",
    "together": "Together",
    "sits": "Sits well",
    "opens": "Opens up",
    "asked": "Asked for",
}
MOST = 12  # suggestions; more would be too small to compare


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Some words with a plan; or, in place of words, the ``parts`` of a score, each with a bar."""

    text: str = ""
    mark: str = ""
    colour: str = ""
    bold: bool = False
    gid: str = ""
    parts: tuple[tuple[str, int, int], ...] = ()


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
    """How paragraphs are set: text sizes to choose from, width beside a plan, what comes first.

    ``first``: the paragraphs are above the plan or at its left, not below or at its right.
    """

    sizes: tuple[float, ...] = (SIZE,)
    beside: float = 50.0
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
) -> None:
    """All cells in ``place``, under the title and a note that tells the one scale of the plans."""
    cells = _with_room(cells, place, setting)
    layout = best_layout(cells, place, setting, page.style)
    ratio = printed_scale(_scale(cells, layout, page.style))
    page.head(title, note(ratio))
    for number, cell in enumerate(cells):
        _draw_cell(page, cell, layout.cell(number), layout, ratio)


def best_layout(cells: Sequence[Cell], place: Box, setting: Setting, style: Style) -> Layout:
    """The layout that lets the plans be largest, with room for every line of text."""
    # Text that fits nowhere is cut by the sheet's edge rather than hiding a plan.
    narrow, size = place.width / len(cells) - GAP, setting.sizes[-1]
    squeezed = Layout(place, len(cells), narrow, place.height, 60.0, size, 0.0, setting.first)
    layouts = _layouts(cells, place, setting)
    return max(layouts, key=lambda one: _scale(cells, one, style), default=squeezed)


def _with_room(cells: Sequence[Cell], place: Box, setting: Setting) -> Sequence[Cell]:
    """The cells with so many of their paragraphs that there is room for all; the rest is counted.

    The cell with the longest text gives way first, from its end.
    """
    kept = [len(cell.paragraphs) for cell in cells]

    def shown() -> list[Cell]:
        return [_first_of(cell, n) for cell, n in zip(cells, kept, strict=True)]

    while any(kept) and next(_layouts(shown(), place, setting), None) is None:
        tall = [_longest([cell], setting.beside, setting.sizes[-1]) for cell in shown()]
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
        for beside in (setting.beside, 0.0):
            column = beside or width
            most = (height - HEAD) * (1.0 if beside else TEXT)
            size = _size(cells, column, most, setting)
            text = _longest(cells, column, size)
            layout = Layout(place, columns, width, height, text, size, beside, setting.first)
            wide, high = layout.plan.width, layout.plan.height
            fits = wide >= LEAST_PLAN[0] and high >= LEAST_PLAN[1] and text <= height - HEAD
            if width >= LEAST_WIDTH and fits:
                yield layout


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
        else text_height(p.text, size, width - INDENT * bool(p.mark), p.bold)
        for p in paragraphs
    )
    return sum(height + 0.6 for height in heights) + 1.5


def _abreast(one: Paragraph, width: float) -> int:
    """How many parts stand side by side."""
    return max(1, min(len(one.parts), int(width / PART_WIDTH)))


def _parts_height(one: Paragraph, width: float, size: float) -> float:
    rows = math.ceil(len(one.parts) / _abreast(one, width))
    return rows * (line_height(size) + PART_ROW)


def _draw_parts(
    page: Page, one: Paragraph, left: float, top: float, width: float, size: float
) -> float:
    """The parts side by side: name and points, and below them a bar, all at one scale."""
    style, abreast = page.style, _abreast(one, width)
    step = width / abreast
    most = max(possible for _, _, possible in one.parts)
    for number, (name, won, possible) in enumerate(one.parts):
        row, column = divmod(number, abreast)
        x, y = left + column * step, top + row * (line_height(size) + PART_ROW)
        told = f"{name} {points(won)} of {points(possible)}"
        page.write(x, y + ascent(size), told, size, colour=style.quiet, gid="part")
        full = (step - 2.0) * possible / most
        bar = Box(x, y + line_height(size), full, PART_HIGH)
        page.bar(bar, style.paper, style.fine, 0.4)
        page.bar(Box(x, bar.top, min(full, full * won / possible), PART_HIGH), style.accent)
    return top + _parts_height(one, width, size)


def score_paragraphs(verdict: Verdict, head: str, style: Style) -> list[Paragraph]:
    """What was not avoided, under ``head`` said once, and the parts of the score."""
    faults = not_avoided(verdict.reasons)
    found = [Paragraph(head, colour=style.loss, bold=True, gid="faults")] if faults else []
    found += [Paragraph(one, "!", gid="fault") for one in faults[:FAULTS]]
    if len(faults) > FAULTS:
        found.append(Paragraph(and_more(len(faults) - FAULTS), gid="fault"))
    parts = tuple((SHORT[part], *sums) for part, sums in verdict.parts.items())
    return [*found, *([Paragraph(parts=parts)] if parts else [])]


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
        return page.item(left, top, width, mark, told, size, indent=INDENT, colour=colour) + 0.6
    return 0.6 + page.paragraph(
        left, top, width, one.text, size, colour=one.colour, bold=one.bold, gid=one.gid
    )


def place_words(scenario: Scenario, placement: Placement) -> tuple[str, str]:
    """Where a piece stands and which way it faces, for the reader of the plan.

    A piece on a wall or across a corner faces away from it: then the second word is empty.
    """
    if placement.corner is not None:
        return stands_words(scenario, placement), ""
    if placement.wall is not None:
        wall = scenario.room.walls[placement.wall]
        return wall.part_of or wall.name, "" if placement.facing is None else placement.facing
    return "", placement.facing or ""


def differences(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """One phrase for each major piece that stands on another wall or faces another way.

    Two alike pieces that changed places are no difference. Of moves along a wall or over the
    floor only those count that make it another plan.
    """
    phrases: list[str] = []
    majors = [p for p in scenario.pieces if p.major]
    for alike in dict.fromkeys(p.alike for p in majors):
        names = [p.name for p in majors if p.alike == alike]
        before = [place_words(scenario, first.of(n)) for n in names]
        left_over = list(before)
        moved: list[tuple[str, tuple[str, str]]] = []
        for name in names:
            now = place_words(scenario, other.of(name))
            if now in left_over:
                left_over.remove(now)
            else:
                moved.append((name, now))
        phrases += [
            _phrase(scenario.room, name, now, was)
            for (name, now), was in zip(moved, left_over, strict=True)
        ]
    return tuple(phrases) or _moved(scenario, first, other)


def _moved(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """One phrase for each large piece that stands as before, but far from there."""
    was, now = Scene(scenario, first), Scene(scenario, other)
    phrases = []
    for piece in (piece for alike in leading(scenario) for piece in alike):
        (a, b), (c, d) = (middle2(one.find(piece.name)) for one in (was, now))
        if (far := max(abs(a - c), abs(b - d))) > length2(scenario):
            away = now.length(far // 2)
            phrases.append(f"{the(piece.name, first=True)} is {away} from where it is in plan 1")
    return tuple(phrases)


def _phrase(room: Room, name: str, now: tuple[str, str], was: tuple[str, str]) -> str:
    who = the(name, first=True)
    if now[0] != was[0]:
        return f"{who} is {_wall(room, now[0])}; in plan 1 {_wall(room, was[0])}"
    there, here = (TURNED.get(facing, "a corner") for facing in (now[1], was[1]))
    return f"{who} faces {there}; in plan 1 {here}"


def _wall(room: Room, name: str) -> str:
    if name.startswith("across "):
        return name
    return f"against {wall_called(room, name)}" if name else "free in the room"


def overview_sheet(
    scenario: Scenario, suggestions: Sequence[Suggestion], *, style: Style = STYLE
) -> Figure:
    """The suggestions on one landscape sheet, all plans at the same scale.

    Each has its score, its best and its worst reason and what sets it apart from the
    first; the plans are what is to be seen. Only the first twelve are drawn; the rest are counted.
    """
    shown = suggestions[:MOST]

    page = Page(style)
    if not shown:
        page.head(scenario.title)
        page.write(MARGIN, MARGIN + 14, "There is no plan to show.", 9.0, colour=style.quiet)
        return page.figure
    cells = [_cell(scenario, shown[0], one, style) for one in shown]
    more = f"; the first {MOST} are shown" if len(suggestions) > MOST else ""
    draw_grid(
        page,
        scenario.title,
        cells,
        page.below(MARGIN + 11),
        note=lambda ratio: f"{_count(len(suggestions))} at {on_paper(ratio)}{more}",
    )
    return page.figure


def _count(n: int) -> str:
    return "1 plan, drawn" if n == 1 else f"{n} plans, all drawn"


def _cell(scenario: Scenario, first: Suggestion, one: Suggestion, style: Style) -> Cell:
    """One suggestion: what sets it apart, then what it won and lost most with."""
    apart: tuple[str, ...] = ()
    if one is not first:
        apart = differences(scenario, first.arrangement, one.arrangement)
        apart = apart or ("The large pieces stand as in plan 1.",)
    chosen = choose(one.verdict.reasons, 2)
    return Cell(
        Bit(f"{one.rank}", 12.0, bold=True),
        Bit(points(one.verdict.score), 12.0, style.accent, bold=True, gap=1.5),
        Bit(f"of 100, {'proven' if one.proven else 'not proven'}", 7.0, style.quiet),
        scenario,
        one.arrangement,
        PlanOptions(clearances=False, small=True),
        [
            *(Paragraph(phrase, colour=style.accent) for phrase in apart),
            *score_paragraphs(one.verdict, not_avoided_head(one), style),
            *(Paragraph(reason_words(r), "+") for r in chosen.won[:2]),
            # A plain hyphen would be read as a dash before the sentence.
            *(Paragraph(reason_words(r), "\N{MINUS SIGN}") for r in chosen.lost[:2]),
        ],
    )
