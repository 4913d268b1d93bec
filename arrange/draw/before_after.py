"""The best plans before and after a swap, side by side at one scale, what moved marked."""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.figure import Figure

from arrange.data.swap import Answer, Moved, Plan, Reading, Swap
from arrange.draw.metres import even_metres
from arrange.draw.moves import marks_after, marks_before, traced
from arrange.draw.overview import (
    GAP,
    HEAD,
    Layout,
    Line,
    best_layout,
    draw_lines,
    plan_height,
    write_title,
)
from arrange.draw.page import MARGIN, Box, Page, text_height, text_width
from arrange.draw.plan import (
    BARE_MARGINS,
    Marks,
    PlanOptions,
    draw_plan,
    largest_scale,
    make_board,
    printed_scale,
)
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.whatif.swap.difference_words import (
    better,
    compared_briefly,
    moves_briefly,
    worse,
)
from arrange.whatif.swap.swap_words import (
    SCALE,
    WHY,
    headline,
    held_result,
)
from arrange.words import listed, points

ANSWER = 10.0  # points: the answer in a line
NAME = 8.5
KEY = 6.5
MOST = 3  # reasons of each sort; the rest is in swap.json
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Cell:
    """One plan of the sheet with its heading, its marks and the text that goes with it."""

    heading: str
    plan: Plan
    marks: Marks
    lines: list[Line]


@even_metres
def before_after_sheet(swap: Swap, *, style: Style = STYLE) -> Figure:
    """One landscape sheet (297 x 210 mm): before, and after in each reading that works.

    ValueError if no arrangement at all was found.
    """
    page = Page(style)
    cells = _cells(swap)
    if not cells:
        raise ValueError("no arrangement was found before or after: there is nothing to draw")
    width = page.width - 2 * MARGIN
    told = _told(swap)
    head = 9.0 + sum(
        text_height(t, ANSWER if i == 0 else KEY + 1, width) for i, t in enumerate(told)
    )
    layout = best_layout(swap.before, [c.lines for c in cells], style, head + 9.0)
    wide, high = (side / MM_PER_POINT for side in layout.plan)
    exact = largest_scale(swap.before.room, wide, high, BARE_MARGINS, style.wall)
    ratio = printed_scale(exact)
    note = f"1:{ratio} printed on A4"
    write_title(page, f"{swap.before.title}: before and after", width - text_width(note, 7.5) - 6)
    page.write(page.width - MARGIN, MARGIN + 5, note, 7.5, colour=style.quiet, align="right")
    top = MARGIN + 7.5
    for i, text in enumerate(told):
        first = i == 0
        size, colour = (ANSWER, style.accent) if first else (KEY + 1, style.text)
        gid = "answer" if first else ""
        top = page.paragraph(MARGIN, top, width, text, size, colour=colour, bold=first, gid=gid)
    for i, cell in enumerate(cells):
        row, column = divmod(i, layout.columns)
        left = MARGIN + column * (layout.width + GAP)
        box = Box(left, top + 2 + row * (layout.height + GAP), layout.width, layout.height)
        _draw_cell(page, swap, cell, box, layout, ratio)
    if swap.free.moved or swap.held.moved:
        _draw_key(page, swap)
    return page.figure


def _told(swap: Swap) -> list[str]:
    """The answer, and what no plan shows: readings that do not work, another scale."""
    told = [headline(swap)]
    if not swap.free.after.works:
        more = f" {WHY}" if swap.answer == "impossible" else ""
        told.append(f"Only what was before is drawn.{more}")
    elif not swap.held.after.works:
        told.append(f"If nothing else moves: {held_result(swap)}.")
    if not swap.same_scale and swap.free.after.works:
        told.append(SCALE)
    return told


def _cells(swap: Swap) -> list[Cell]:
    """Before and after of the first reading, then of the second; no plan twice."""
    free, held = swap.free, swap.held
    cells: list[Cell] = []
    apart = not _same(free.before, held.before) and held.after.works
    gone = (*free.moved, *(() if apart else held.moved))
    if free.before.plan is not None:
        cells.append(_before("Best before", free.before.plan, gone))
    if _same(free.after, held.after) and not apart:
        return cells + _after("After: all else can stay", free)
    cells += _after("After: all may move", free)
    if apart and held.before.plan is not None:
        cells.append(_before(_now(swap), held.before.plan, held.moved))
    cells += _after("After: nothing else moves", held)
    return cells


def _now(swap: Swap) -> str:
    if swap.start != "today":
        return "Best before"
    return "Today" if len(swap.before.today) == len(swap.before.pieces) else "Today, rest added"


def _same(one: Answer, other: Answer) -> bool:
    return (one.plan and one.plan.arrangement) == (other.plan and other.plan.arrangement)


def _before(heading: str, plan: Plan, moved: tuple[Moved, ...]) -> Cell:
    gone = [m.piece for m in moved if m.move == "gone"]
    lines = [Line("", f"Left out: {listed(list(dict.fromkeys(gone)))}.")] if gone else []
    return Cell(heading, plan, marks_before(moved), lines)


def _after(heading: str, reading: Reading) -> list[Cell]:
    if reading.after.plan is None:
        return []
    lines = [Line("", text) for text in moves_briefly(reading.moved)]
    for mark, chosen in (("+", better(reading)), (MINUS, worse(reading))):
        lines += [Line(mark, compared_briefly(c)) for c in chosen[:MOST]]
    before = reading.before.plan
    if before is None:
        return [Cell(heading, reading.after.plan, lambda *_: [], lines)]
    if not reading.moved:
        lines.insert(0, Line("", "Nothing moved."))
    return [Cell(heading, reading.after.plan, marks_after(before, reading.moved), lines)]


def _draw_cell(page: Page, swap: Swap, cell: Cell, box: Box, layout: Layout, ratio: int) -> None:
    style, baseline = page.style, box.top + 5.0
    page.write(box.left, baseline, cell.heading, NAME, bold=True, gid="heading")
    after = box.left + text_width(cell.heading, NAME, bold=True) + 3
    score = points(cell.plan.score)
    page.write(after, baseline, score, 11.0, bold=True, colour=style.accent)
    after += text_width(score, 11.0, bold=True) + 1.5
    proof = "proven" if cell.plan.proven else "not proven"
    if after + text_width(proof, 6.5) <= box.left + box.width:
        page.write(after, baseline, proof, 6.5, colour=style.quiet)
    page.rule(box.left, box.top + 7.0, box.width)
    wide, high = layout.plan
    if not layout.beside:
        high = min(high, plan_height(swap.before, style, ratio))
    axes = page.axes(Box(box.left, box.top + HEAD, wide, high))
    board = make_board(axes, swap.before.room, style, BARE_MARGINS, ratio)
    options = PlanOptions(clearances=False, small=True, over=cell.marks)
    draw_plan(board, cell.plan.scenario, cell.plan.arrangement, options)
    left, top, width = box.left, box.top + HEAD + high + 1, box.width
    if layout.beside:
        left, top, width = box.left + wide + 3, box.top + HEAD + 1, box.width - wide - 3
    draw_lines(page, cell.lines, left, top, width)


def _draw_key(page: Page, swap: Swap) -> None:
    """What the marks mean, at the foot, each with a small sample of it."""
    style = page.style
    was = "where it was"
    for reading in (swap.free, swap.held):
        stood = [m for m in reading.moved if m.was and m.move != "gone"]
        if reading.before.plan and len(traced(reading.before.plan, reading.moved)) < len(stood):
            was = "where a large piece was"
    y = page.height - MARGIN + 2.0
    left = MARGIN
    for sample, text in (
        ("thick", "moved"),
        ("double", "changed or new"),
        ("dashed", was),
        ("crossed", "left out"),
    ):
        _sample(page, sample, left, y)
        page.write(left + 8.5, y + 2.6, text, KEY, colour=style.quiet)
        left += 8.5 + text_width(text, KEY) + 6
    page.write(left, y + 2.6, "Moves under 3 cm are not marked.", KEY, colour=style.quiet)


def _sample(page: Page, sample: str, left: float, top: float) -> None:
    style = page.style
    xs, ys = (left, left + 6.5, left + 6.5, left, left), (top, top, top + 3.4, top + 3.4, top)
    dashed = sample == "dashed"
    width = 2.0 if sample in ("thick", "double") else 1.0
    page.ax.plot(
        xs, ys,
        color=style.loss if dashed else style.edge,
        linewidth=width,
        linestyle=(0, (3.2, 2.2)) if dashed else "solid",
    )  # fmt: skip
    if sample == "double":
        page.bar(Box(left + 1.0, top + 1.0, 4.5, 1.4), "none", style.edge, 0.95)
    if sample == "crossed":
        page.ax.plot([left, left + 6.5], [top, top + 3.4], color=style.edge, linewidth=0.9)
        page.ax.plot([left, left + 6.5], [top + 3.4, top], color=style.edge, linewidth=0.9)
