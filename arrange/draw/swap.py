"""Marks for what is no longer as it was: thick outlines, dashed ghosts, arrows. Lengths in mm.

The best plans before and after a swap, side by side at one scale, what moved marked.

The sheet of the room as it stands today: plan, what does not work, score, reasons.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.artist import Artist
from matplotlib.figure import Figure
from matplotlib.patches import FancyArrowPatch
from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge

from arrange.data.lengths import listed, points
from arrange.data.swap import Answer, Moved, Plan, Reading, Swap, Today
from arrange.draw.labels import Board, polygons
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
from arrange.draw.plan import (
    BARE_MARGINS,
    Marks,
    PlanOptions,
    draw_plan,
    largest_scale,
    make_board,
    printed_scale,
)
from arrange.draw.sheet import COLUMN, GUTTER, draw_cautions, draw_reasons, draw_to_scale, fitting
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.draw.text import (
    MARGIN,
    Box,
    Page,
    even_metres,
    fitting_size,
    line_height,
    text_height,
    text_width,
)
from arrange.geometry.shapes import footprint
from arrange.words.cautions import LAST, cautions
from arrange.words.swap import (
    SCALE,
    WHY,
    better,
    compared_briefly,
    headline,
    held_result,
    moves_briefly,
    today_remarks,
    worse,
)

THICK, INSET = 2.0, 3.0  # points: the outline, and the second line inside it
DASH = (3.2, 2.2)
FAR = 350  # mm; a shorter way needs no arrow
CROWD = 4  # more moved pieces than these: old places of the large ones alone
ABOVE = 15.0  # over all pieces, under all text


def marks_after(before: Plan, moved: Sequence[Moved]) -> Marks:
    """Marks for the plan after: moved pieces thick, changed ones double, old places dashed.

    Where many moved, only the large ones show where they were: ``traced`` says which.
    """
    shown = traced(before, moved)

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        shapes = {d.piece.name: d.shape for d in placed}
        over = {d.piece.name: _on_top(d, placed) for d in placed}
        drawn: list[Artist] = []
        for one in moved:
            old = _old(before, one.was) if one in shown else None
            if old is not None:
                drawn += _ghost(board, old, one.was)
            new = shapes.get(one.piece) if one.move != "gone" else None
            if new is not None:
                double = one.move in ("changed", "new")
                drawn += outlined(board, new, one.piece, double=double, under=over[one.piece])
            if old is not None and new is not None and one.far >= FAR:
                drawn.append(_arrow(board, old, new, one.piece))
        return drawn

    return draw


def traced(before: Plan, moved: Sequence[Moved]) -> tuple[Moved, ...]:
    """The moves whose old places are drawn."""
    there = tuple(m for m in moved if m.was and m.move not in ("new", "gone"))
    if len(there) <= CROWD:
        return there
    return tuple(m for m in there if before.scenario.piece(m.was).major)


def marks_before(moved: Sequence[Moved]) -> Marks:
    """Marks for the plan before: a cross through what is left out."""
    gone = {one.piece for one in moved if one.move == "gone"}

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        crosses = [_cross(d.shape) for d in placed if d.piece.name in gone]
        runs = [run for cross in crosses for run in cross]
        style = board.style
        if not runs:
            return []
        return [board.lines(runs, style.outline_width, style.edge, ABOVE, gid="gone")]

    return draw


def outlined(
    board: Board,
    shape: Polygon,
    name: str,
    *,
    double: bool = False,
    under: BaseGeometry | None = None,
) -> list[Artist]:
    """A thick outline, with a second line inside it for what is not the same piece.

    ``under`` is what lies on it and hides it there.
    """
    style = board.style
    hidden = Polygon() if under is None else under
    rings = [(shape, THICK, f"moved:{name}")]
    if double:
        inner = shape.buffer(-board.mm(INSET), join_style="mitre")
        rings += [(p, style.outline_width, f"changed:{name}") for p in polygons(inner)]
    return [
        board.lines(_runs(ring.exterior.difference(hidden)), width, style.edge, ABOVE, gid=gid)
        for ring, width, gid in rings
    ]


def _on_top(drawn: Drawn, placed: Sequence[Drawn]) -> BaseGeometry:
    """What lies on a rug or mat; nothing for other pieces."""
    if not drawn.piece.flat:
        return Polygon()
    return union_all([d.shape for d in placed if not d.piece.flat])


def _runs(lines: BaseGeometry) -> list[list[tuple[float, float]]]:
    """The lines of a shape as runs of points, joined where they meet."""
    if lines.is_empty:
        return []
    whole = linemerge(lines) if lines.geom_type.startswith("Multi") else lines
    return [list(part.coords) for part in getattr(whole, "geoms", [whole])]


def _old(before: Plan, name: str) -> Polygon | None:
    if not name:
        return None
    piece = before.scenario.piece(name)
    return footprint(piece, before.arrangement.of(name), before.scenario.room)


def _ghost(board: Board, shape: Polygon, name: str) -> list[Artist]:
    ring = list(shape.exterior.coords)
    style = board.style
    return [
        board.lines([ring], 2.2, style.paper, ABOVE - 0.4, ink=False),
        board.lines([ring], 1.0, style.loss, ABOVE - 0.3, dash=DASH, gid=f"was:{name}"),
    ]


def _arrow(board: Board, old: Polygon, new: Polygon, name: str) -> Artist:
    start, end = old.centroid, new.centroid
    style = board.style
    board.ink.add_line([(start.x, start.y), (end.x, end.y)])
    arrow = FancyArrowPatch(
        (start.x, start.y),
        (end.x, end.y),
        arrowstyle="-|>",
        mutation_scale=7.0,
        linewidth=1.0,
        color=style.loss,
        shrinkA=0.0,
        shrinkB=0.0,
        zorder=ABOVE - 0.2,
    )
    arrow.set_gid(f"way:{name}")
    board.ax.add_artist(arrow)
    return arrow


def _cross(shape: Polygon) -> list[list[tuple[float, float]]]:
    a, b, c, d = list(shape.exterior.coords)[:4]
    return [[a, c], [b, d]]


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


TODAY_SIZE = 7.5


@even_metres
def today_sheet(today: Today, *, style: Style = STYLE) -> Figure:
    """The room as it stands on a landscape sheet (297 x 210 mm), like that of a suggestion.

    Every broken must is written out, and the pieces it is about have a thick outline.
    """
    page = Page(style)
    told = tuple(c for c in cautions(today.scenario, today.arrangement) if c != LAST)
    foot = draw_cautions(page, told, MARGIN, page.width - 2 * MARGIN)
    right = page.width - MARGIN - COLUMN
    broken = {name for b in today.verdict.breaches for name in b.subjects}

    def over(board: Board, placed: list[Drawn]) -> list[Artist]:
        marked = [d for d in placed if d.piece.name in broken]
        return [a for d in marked for a in outlined(board, d.shape, d.piece.name)]

    draw_to_scale(
        page,
        today.scenario,
        today.arrangement,
        today.verdict.gaps,
        Box(MARGIN, MARGIN, right - GUTTER - MARGIN, foot - 5 - MARGIN),
        over=over,
        legend="Thick outline: something about this piece does not work." if broken else "",
    )
    top = _today_heading(page, today, right)
    chosen = fitting(today.verdict.reasons, COLUMN, foot - 3 - top)
    draw_reasons(page, chosen, Box(right, top, COLUMN, foot - 3 - top), "today.json")
    return page.figure


def _today_heading(page: Page, today: Today, left: float) -> float:
    """Title, score, and plainly what does not work; returns the top of what follows."""
    style, title = page.style, today.scenario.title
    size = fitting_size(title, 14.0, 10.0, COLUMN, bold=True)
    top = page.paragraph(left, MARGIN, COLUMN, title, size, bold=True, gid="title")
    told = "As it stands today"
    top = page.paragraph(left, top + 0.5, COLUMN, told, 9.0, colour=style.quiet, gid="today")
    breaches = today.verdict.breaches
    if breaches:
        top = _broken(page, today, left, top + 3)
    else:
        score, baseline = points(today.verdict.score), top + 13.5
        page.write(left, baseline, score, 34.0, bold=True, colour=style.accent, gid="score")
        beside = left + text_width(score, 34.0, bold=True) + 3
        page.write(beside, baseline, "of 100 points", 9.0, colour=style.quiet)
        head = "Everything that must hold does hold."
        top = page.paragraph(left, baseline + 3.5, COLUMN, head, TODAY_SIZE + 0.5, gid="works")
    for told in today_remarks(today):
        top = page.paragraph(
            left, top + 1, COLUMN, told, TODAY_SIZE, colour=style.quiet, gid="remark"
        )
    return top + line_height(5.0)


def _broken(page: Page, today: Today, left: float, top: float) -> float:
    """What does not work, and only then what the rest scores: no score makes up for it."""
    style = page.style
    head = "Does not work today"
    top = page.paragraph(left, top, COLUMN, head, 16.0, bold=True, colour=style.loss, gid="works")
    top += 1.5
    for breach in today.verdict.breaches:
        mark = top + line_height(TODAY_SIZE) * 0.75
        page.write(left, mark, "!", TODAY_SIZE, bold=True, colour=style.loss)
        top = page.paragraph(
            left + 3.5, top, COLUMN - 3.5, breach.sentence, TODAY_SIZE, gid="broken"
        )
    rest = f"For the rest it has {points(today.verdict.score)} of 100 points."
    return page.paragraph(left, top + 1, COLUMN, rest, TODAY_SIZE, colour=style.quiet, gid="score")
