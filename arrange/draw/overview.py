"""What sets one arrangement apart from another, in plain words.

All suggestions side by side at one scale.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.figure import Figure

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import points
from arrange.data.result import Reason, Suggestion
from arrange.data.scenario import Scenario
from arrange.draw.plan import (
    BARE_MARGINS,
    PlanOptions,
    draw_plan,
    drawn_extent,
    largest_scale,
    make_board,
    printed_scale,
)
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.text import (
    MARGIN,
    Box,
    Page,
    evenly,
    fitting_size,
    foldings,
    line_height,
    sentences,
    text_height,
    text_width,
)
from arrange.words.reasons import choose

_TOWARD = {"up": "up the plan", "down": "down the plan", "left": "left", "right": "right"}


def place_words(scenario: Scenario, placement: Placement) -> tuple[str, str]:
    """Where a piece stands and which way it faces, for the reader of the plan.

    A piece on a wall faces away from it, so that its second word is empty.
    """
    if placement.wall is not None:
        wall = scenario.room.walls[placement.wall]
        return wall.part_of or wall.name, "" if placement.facing is None else placement.facing
    return "", placement.facing or ""


def differences(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """One phrase for each major piece that stands on another wall or faces another way.

    Two alike pieces that changed places are no difference. Moves of a few
    centimetres do not count.
    """
    phrases: list[str] = []
    majors = [p for p in scenario.pieces if p.major]
    for model in dict.fromkeys(p.model for p in majors):
        names = [p.name for p in majors if p.model == model]
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
            _phrase(name, now, was) for (name, now), was in zip(moved, left_over, strict=True)
        ]
    return tuple(phrases)


def _phrase(name: str, now: tuple[str, str], was: tuple[str, str]) -> str:
    if now[0] != was[0]:
        return f"{name}: {_wall(now[0])}, in the first {_wall(was[0])}"
    turned = f"{name}: faces {_TOWARD.get(now[1], 'across')}"
    return f"{turned}, in the first {_TOWARD.get(was[1], 'across')}"


def _wall(name: str) -> str:
    return f"at {name}" if name else "free in the room"


GAP = 7.0
HEAD = 9.0  # height in mm of the line with rank and score
SIZE = 6.5
BESIDE = 50.0  # width in mm of text that stands beside its plan
LEAST_WIDTH = 43.0  # mm, for the line with rank and score
MOST = 12  # more would be too small to compare


@dataclass(frozen=True, slots=True)
class Layout:
    """How the cells lie: columns, rows, cell size in mm, text beside the plan or below."""

    columns: int
    rows: int
    width: float
    height: float
    text: float
    beside: bool

    @property
    def plan(self) -> tuple[float, float]:
        """Width and height in mm left for the plan."""
        if self.beside:
            return self.width - BESIDE - 3, self.height - HEAD
        return self.width, self.height - HEAD - self.text


@dataclass(frozen=True, slots=True)
class Line:
    """One paragraph under a plan: a mark before it, the text, loud or quiet."""

    mark: str
    text: str


def overview_sheet(
    scenario: Scenario, suggestions: Sequence[Suggestion], *, style: Style = STYLE
) -> Figure:
    """The suggestions on one landscape sheet, all plans at the same scale.

    Each has its score, its two best and two worst reasons and what sets it
    apart from the first. Only the first twelve are drawn; the rest are counted.
    """
    return evenly(
        scenario.unit,
        sentences(suggestions[:MOST]),
        lambda: _draw(scenario, suggestions, style),
    )


def _draw(scenario: Scenario, suggestions: Sequence[Suggestion], style: Style) -> Figure:
    page = Page(style)
    shown = list(suggestions[:MOST])
    if not shown:
        write_title(page, scenario.title, page.width - 2 * MARGIN)
        page.write(MARGIN, MARGIN + 14, "No arrangement to show.", 9.0, colour=style.quiet)
        return page.figure
    lines = [_lines(scenario, shown[0], s) for s in shown]
    layout = best_layout(scenario, lines, style)
    width, height = (side / MM_PER_POINT for side in layout.plan)
    exact = largest_scale(scenario.room, width, height, BARE_MARGINS, style.wall)
    ratio = printed_scale(exact)
    note = f"{_count(len(suggestions))} at 1:{ratio} printed on A4"
    if len(suggestions) > MOST:
        note += f"; the first {MOST} are shown"
    write_title(page, scenario.title, page.width - 2 * MARGIN - text_width(note, 7.5) - 6)
    page.write(page.width - MARGIN, MARGIN + 5, note, 7.5, colour=style.quiet, align="right")
    for i, suggestion in enumerate(shown):
        row, column = divmod(i, layout.columns)
        cell = Box(
            MARGIN + column * (layout.width + GAP),
            MARGIN + 11 + row * (layout.height + GAP),
            layout.width,
            layout.height,
        )
        _draw_cell(page, scenario, suggestion, lines[i], cell, layout, ratio)
    return page.figure


def _count(n: int) -> str:
    return "1 arrangement, drawn" if n == 1 else f"{n} arrangements, all drawn"


def write_title(page: Page, title: str, width: float) -> float:
    """The title in ``width`` mm: on one line, smaller if need be, else on two even ones.

    Returns the top in mm of what comes after it.
    """
    size = fitting_size(title, 14.0, 10.0, width, bold=True)
    if text_width(title, size, bold=True) <= width:
        page.write(MARGIN, MARGIN + 5, title, size, bold=True, gid="title")
        return MARGIN + 7.0
    while size > 4 and text_height(title, size, width, bold=True) > 2.5 * line_height(size):
        size -= 0.5
    even = foldings(title, 2)[-1].split("\n")
    fits = all(text_width(line, size, bold=True) <= width for line in even)
    top = MARGIN
    for line in even if fits else [title]:
        top = page.paragraph(MARGIN, top, width, line, size, bold=True, gid="title")
    return top


def _lines(scenario: Scenario, first: Suggestion, one: Suggestion) -> list[Line]:
    lines = []
    if one is not first:
        apart = differences(scenario, first.arrangement, one.arrangement)
        lines += [Line("", phrase) for phrase in apart]
        if not apart:
            lines.append(Line("", "The large pieces stand as in the first."))
    chosen = choose(one.verdict.reasons, 4)
    lines += [Line("+", _short(r)) for r in chosen.won[:2]]
    # A plain hyphen would be read as a dash before the sentence.
    lines += [Line("\N{MINUS SIGN}", _short(r)) for r in chosen.lost[:2]]
    return lines


def _short(reason: Reason) -> str:
    return f"{reason.sentence} ({points(reason.won)} of {points(reason.possible)})"


def lines_height(lines: list[Line], width: float) -> float:
    """Height in mm of the paragraphs of one cell."""
    return sum(text_height(line.text, SIZE, width - 3.5) + 0.6 for line in lines) + 1.5


def best_layout(
    scenario: Scenario, lines: list[list[Line]], style: Style, head: float = 11.0
) -> Layout:
    """The cells that let the plans be largest, with room for every line of text.

    ``head`` is the height in mm taken from the sheet for what is not in a cell.
    """
    count = len(lines)
    best, scale = None, -math.inf
    for columns in range(1, count + 1):
        rows = math.ceil(count / columns)
        width = (297.0 - 2 * MARGIN - (columns - 1) * GAP) / columns
        height = (210.0 - 2 * MARGIN - head - (rows - 1) * GAP) / rows
        for beside in (True, False):
            text = max(lines_height(t, BESIDE if beside else width) for t in lines)
            layout = Layout(columns, rows, width, height, text, beside)
            wide, high = layout.plan
            if width < LEAST_WIDTH or wide < 20 or high < 15 or text > height - HEAD:
                continue
            found = largest_scale(
                scenario.room, wide / MM_PER_POINT, high / MM_PER_POINT, BARE_MARGINS, style.wall
            )
            if found > scale:
                best, scale = layout, found
    # Text that fits nowhere is cut by the sheet's edge rather than hiding a plan.
    return best or Layout(count, 1, (297.0 - 2 * MARGIN) / count - GAP, 175.0, 60.0, beside=False)


def plan_height(scenario: Scenario, style: Style, ratio: int) -> float:
    """Height in mm of a plan with its margins, so that its text follows close below."""
    _, low, _, high = drawn_extent(scenario.room, style.wall).bounds
    return float(high - low) / ratio + (BARE_MARGINS[1] + BARE_MARGINS[3]) * MM_PER_POINT


def _draw_cell(
    page: Page,
    scenario: Scenario,
    suggestion: Suggestion,
    lines: list[Line],
    cell: Box,
    layout: Layout,
    ratio: int,
) -> None:
    style = page.style
    baseline = cell.top + 5.0
    rank = f"{suggestion.rank}"
    page.write(cell.left, baseline, rank, 12.0, bold=True)
    after = cell.left + text_width(rank, 12.0, bold=True) + 3
    score = points(suggestion.verdict.score)
    page.write(after, baseline, score, 12.0, bold=True, colour=style.accent)
    after += text_width(score, 12.0, bold=True) + 1.5
    proof = "proven" if suggestion.proven else "not proven"
    page.write(after, baseline, f"of 100, {proof}", 7.0, colour=style.quiet)
    page.rule(cell.left, cell.top + 7.0, cell.width)
    wide, high = layout.plan
    if not layout.beside:
        high = min(high, plan_height(scenario, style, ratio))
    axes = page.axes(Box(cell.left, cell.top + HEAD, wide, high))
    board = make_board(axes, scenario.room, style, BARE_MARGINS, ratio)
    draw_plan(board, scenario, suggestion.arrangement, PlanOptions(clearances=False, small=True))
    left, top, width = cell.left, cell.top + HEAD + high + 1, cell.width
    if layout.beside:
        left, top, width = cell.left + wide + 3, cell.top + HEAD + 1, BESIDE
    draw_lines(page, lines, left, top, width)


def draw_lines(page: Page, lines: list[Line], left: float, top: float, width: float) -> None:
    """The paragraphs of one cell, ``width`` mm wide."""
    style = page.style
    for line in lines:
        if line.mark:
            page.write(left, top + line_height(SIZE) * 0.75, line.mark, SIZE, bold=True)
        indent = 3.5 if line.mark else 0.0
        top = page.paragraph(
            left + indent,
            top,
            width - 3.5,
            line.text,
            SIZE,
            colour=style.text if line.mark else style.accent,
        )
        top += 0.6
