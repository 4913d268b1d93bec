"""The best plans before and after a swap, side by side at one scale, what moved marked.

Marks on a plan for what is no longer as it was: thick outlines, dashed ghosts of old
places, arrows from these to the new ones. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from matplotlib.figure import Figure
from matplotlib.patches import FancyArrowPatch
from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge

from arrange.data.lengths import listed, measured, points
from arrange.data.scenario import Unit
from arrange.data.swap import STILL, Answer, Moved, Plan, Reading, Swap
from arrange.draw.board import ABOVE, Board, polygons
from arrange.draw.grid import (
    Cell,
    Paragraph,
    Setting,
    draw_grid,
    draw_numbers,
    score_paragraphs,
)
from arrange.draw.page import MARGIN, Bit, Box, Page, text_width
from arrange.draw.plan import Marks, PlanOptions
from arrange.draw.style import LEAST, STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.geometry.shapes import footprint
from arrange.words.reasons import AVOIDABLE, faults_head
from arrange.words.swap import (
    SCALE,
    WHY,
    better,
    compared_briefly,
    headline,
    held_result,
    moves_briefly,
    worse,
)

THICK, INSET = 2.0, 3.0  # points: the outline, and the second line inside it
DASH = (3.2, 2.2)
FAR = 350  # mm; a shorter way needs no arrow
CROWD = 4  # more moved pieces than these: old places of the large ones alone
ANSWER = 10.0  # points: the answer in a line
NAME = 8.5
KEY = LEAST
SETTING = Setting((10.5, 9.0, 8.0, LEAST), (36.0, 42.0, 50.0, 60.0))
MOST = 3  # reasons of each sort; the rest is in swap.json
MINUS = "\N{MINUS SIGN}"


def before_after_sheet(swap: Swap, *, style: Style = STYLE) -> Figure:
    """One landscape sheet (297 x 210 mm): before, and after in each reading that works.

    ValueError if no arrangement at all was found.
    """
    page = Page(style)
    cells = _cells(swap, style)
    if not cells:
        raise ValueError("no arrangement was found before or after: there is nothing to draw")
    told = _told(swap)
    width, top, answer = page.inner, MARGIN + 7.5, told[0]
    top = page.paragraph(
        MARGIN, top, width, answer, ANSWER, colour=style.accent, bold=True, gid="answer"
    )
    for text in told[1:]:
        top = page.paragraph(MARGIN, top, width, text, KEY + 1)
    title, place = f"{swap.before.title}: before and after", page.below(top + 2, 9.5)
    draw_numbers(page, draw_grid(page, title, cells, place, setting=SETTING))
    _draw_key(page, (swap.free, swap.held), swap.before.unit)
    return page.figure


def moved_sheet(answer: str, reading: Reading, *, style: Style = STYLE) -> Figure:
    """One landscape sheet: a plan, and beside it the same with a piece moved.

    ValueError if one of them is not there.
    """
    before = reading.before.plan
    if before is None or reading.after.plan is None:
        raise ValueError("there is nothing to draw")
    page = Page(style)
    top = page.paragraph(
        MARGIN,
        MARGIN + 7.5,
        page.inner,
        answer,
        ANSWER,
        colour=style.accent,
        bold=True,
        gid="answer",
    )
    cells = [_before("Before", before, reading.moved, AVOIDABLE, style)]
    cells += _after("After", reading, style, free=False)
    title, place = f"{before.scenario.title}: before and after", page.below(top + 2, 9.5)
    draw_numbers(page, draw_grid(page, title, cells, place, setting=SETTING))
    _draw_key(page, (reading,), before.scenario.unit)
    return page.figure


def _told(swap: Swap) -> list[str]:
    """The answer, and what no plan shows: readings that do not work, another scale."""
    told = [headline(swap)]
    if not swap.free.after.works:
        more = f" {WHY}" if swap.answer == "impossible" else ""
        told.append(f"Only the room as it was before is drawn.{more}")
    elif not swap.held.after.works:
        told.append(f"If nothing else moves: {held_result(swap)}.")
    if not swap.same_scale and swap.free.after.works:
        told.append(SCALE)
    return told


def _cells(swap: Swap, style: Style) -> list[Cell]:
    """Before and after of the first reading, then of the second; no plan twice."""
    free, held = swap.free, swap.held
    cells: list[Cell] = []
    apart = not _same(free.before, held.before) and held.after.works
    gone = (*free.moved, *(() if apart else held.moved))
    if free.before.plan is not None:
        head = faults_head(free.before.plan.bound, free.before.plan.verdict)
        cells.append(_before("Best before", free.before.plan, gone, head, style))
    if _same(free.after, held.after) and not apart:
        towed = any(moved.move == "moved" for moved in free.moved)
        rest = "only what goes with it moves" if towed else "everything else can stay"
        return cells + _after(f"After: {rest}", free, style)
    cells += _after("After: everything may move", free, style)
    if apart and held.before.plan is not None:
        cells.append(_before(_now(swap), held.before.plan, held.moved, AVOIDABLE, style))
    cells += _after("After: nothing else moves", held, style, free=False)
    return cells


def _now(swap: Swap) -> str:
    if swap.start != "today":
        return "Best before"
    return "Today" if len(swap.before.today) == len(swap.before.pieces) else "Today, rest added"


def _same(one: Answer, other: Answer) -> bool:
    return (one.plan and one.plan.arrangement) == (other.plan and other.plan.arrangement)


def _before(heading: str, plan: Plan, moved: tuple[Moved, ...], head: str, style: Style) -> Cell:
    gone = list(dict.fromkeys(m.piece for m in moved if m.move == "gone"))
    left_out = [Paragraph(f"Left out: {listed(gone)}.", colour=style.accent)] if gone else []
    told = [*left_out, *score_paragraphs(plan.verdict, head, style)]
    return _cell(heading, plan, marks_before(moved), told, style)


def _after(heading: str, reading: Reading, style: Style, *, free: bool = True) -> list[Cell]:
    before, after = reading.before.plan, reading.after.plan
    if after is None:
        return []
    moves = list(moves_briefly(reading.moved))
    if before is not None and not reading.moved:
        moves.insert(0, "Nothing moved.")
    paragraphs = [Paragraph(text, colour=style.accent) for text in moves]
    head = faults_head(after.bound, after.verdict) if free else AVOIDABLE
    paragraphs += score_paragraphs(after.verdict, head, style)
    for mark, chosen in (("+", better(reading)), (MINUS, worse(reading))):
        paragraphs += [Paragraph(compared_briefly(c), mark) for c in chosen[:MOST]]
    marks = None if before is None else marks_after(before, reading.moved)
    return [_cell(heading, after, marks, paragraphs, style)]


def _cell(
    heading: str, plan: Plan, marks: Marks | None, paragraphs: list[Paragraph], style: Style
) -> Cell:
    return Cell(
        Bit(heading, NAME, bold=True, gid="heading"),
        Bit(points(plan.score), 11.0, style.accent, bold=True, gap=1.5),
        Bit("proven" if plan.proven else "not proven", KEY, style.quiet),
        plan.scenario,
        plan.arrangement,
        PlanOptions(clearances=False, small=True, over=marks),
        paragraphs,
    )


def _draw_key(page: Page, readings: Sequence[Reading], unit: Unit) -> None:
    """What the marks on the plans mean, at the foot, each with a small sample of it."""
    moves = {m.move for reading in readings for m in reading.moved}
    if not moves:
        return
    style = page.style
    was, there = "where it was", False
    for reading in readings:
        stood = [m for m in reading.moved if m.was and m.move != "gone"]
        there = there or bool(stood)
        if reading.before.plan and len(traced(reading.before.plan, reading.moved)) < len(stood):
            was = "where a large piece was"
    small = measured(STILL, unit, "down")
    y = page.height - MARGIN - 7.5
    left = MARGIN
    for sample, text, shown in (
        ("thick", "moved", bool(moves - {"changed", "new", "gone"})),
        ("double", "changed or new", bool(moves & {"changed", "new"})),
        ("dashed", was, there),
        ("crossed", "left out", "gone" in moves),
    ):
        if not shown:
            continue
        _sample(page, sample, left, y)
        page.write(left + 8.5, y + 2.6, text, KEY, colour=style.quiet)
        left += 8.5 + text_width(text, KEY) + 6
    page.write(left, y + 2.6, f"Moves under {small} are not marked.", KEY, colour=style.quiet)


def _sample(page: Page, sample: str, left: float, top: float) -> None:
    style = page.style
    xs, ys = (left, left + 6.5, left + 6.5, left, left), (top, top, top + 3.4, top + 3.4, top)
    dashed = sample == "dashed"
    page.ax.plot(
        xs,
        ys,
        color=style.loss if dashed else style.edge,
        linewidth=THICK if sample in ("thick", "double") else 1.0,
        linestyle=(0, DASH) if dashed else "solid",
    )
    if sample == "double":
        page.bar(Box(left + 1.0, top + 1.0, 4.5, 1.4), "none", style.edge, 0.95)
    if sample == "crossed":
        page.ax.plot([left, left + 6.5], [top, top + 3.4], color=style.edge, linewidth=0.9)
        page.ax.plot([left, left + 6.5], [top + 3.4, top], color=style.edge, linewidth=0.9)


def marks_after(before: Plan, moved: Sequence[Moved]) -> Marks:
    """Marks for the plan after: moved pieces thick, changed ones double, old places dashed.

    Where many moved, only the large ones show where they were: ``traced`` says which.
    """
    shown = traced(before, moved)

    def draw(board: Board, placed: list[Drawn]) -> None:
        there = {d.piece.name: d for d in placed}
        for one in moved:
            old = _old(before, one.was) if one in shown else None
            if old is not None:
                _ghost(board, old, one.was)
            new = there.get(one.piece) if one.move != "gone" else None
            if new is not None:
                _outline(board, new, placed, double=one.move in ("changed", "new"))
            if old is not None and new is not None and one.far >= FAR:
                _arrow(board, old, new.shape, one.piece)

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

    def draw(board: Board, placed: list[Drawn]) -> None:
        style = board.style
        crosses = [_cross(d.shape) for d in placed if d.piece.name in gone]
        if crosses:
            runs = list(chain.from_iterable(crosses))
            board.lines(runs, style.outline_width, style.edge, ABOVE, gid="gone")

    return draw


def _outline(board: Board, one: Drawn, placed: Sequence[Drawn], *, double: bool) -> None:
    """A thick outline, with a second line inside it for what is not the same piece.

    What lies on a rug or mat hides it there.
    """
    style, name, hidden = board.style, one.piece.name, Polygon()
    if one.piece.flat:
        hidden = union_all([d.shape for d in placed if not d.piece.flat])
    rings = [(one.shape, THICK, f"moved:{name}")]
    if double:
        inner = one.shape.buffer(-board.mm(INSET), join_style="mitre")
        rings += [(p, style.outline_width, f"changed:{name}") for p in polygons(inner)]
    for ring, width, gid in rings:
        board.lines(_runs(ring.exterior.difference(hidden)), width, style.edge, ABOVE, gid=gid)


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


def _ghost(board: Board, shape: Polygon, name: str) -> None:
    style = board.style
    board.outline(shape, 2.2, style.paper, ABOVE - 0.4, ink=False)
    board.outline(shape, 1.0, style.loss, ABOVE - 0.3, dash=DASH, gid=f"was:{name}")


def _arrow(board: Board, old: Polygon, new: Polygon, name: str) -> None:
    start, end = old.centroid.coords[0], new.centroid.coords[0]
    board.ink.add_line([start, end])
    arrow = FancyArrowPatch(
        start,
        end,
        arrowstyle="-|>",
        mutation_scale=7.0,
        linewidth=1.0,
        color=board.style.loss,
        shrinkA=0.0,
        shrinkB=0.0,
        zorder=ABOVE - 0.2,
        gid=f"way:{name}",
    )
    board.ax.add_artist(arrow)
    board.artists.append(arrow)


def _cross(shape: Polygon) -> list[list[tuple[float, float]]]:
    a, b, c, d = list(shape.exterior.coords)[:4]
    return [[a, c], [b, d]]
