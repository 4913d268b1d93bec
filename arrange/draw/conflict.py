"""The sheet that shows why nothing works: the closest arrangement, what lacks, the sum."""

from __future__ import annotations

from dataclasses import replace

from matplotlib.figure import Figure
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.conflict import Arithmetic, Conflict, Requirement, Section
from arrange.data.lengths import length
from arrange.data.room import Vector
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import ABOVE, Board, polygons
from arrange.draw.dimensions import draw_line_with_ticks
from arrange.draw.floor import ways
from arrange.draw.labels import Wanted, write_beside
from arrange.draw.page import MARGIN, Bit, Page, even_metres
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import COLUMN, beside_column, column_left, draw_to_scale
from arrange.draw.style import STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.geometry.scene import Scene
from arrange.rules.requirement import NEVER, Quantity
from arrange.whatif.lacking import with_length
from arrange.whatif.requirements import declared, describe, keep_only, kind_of, quantities
from arrange.words.why import proof

SIZE = 8.0
NUMBER = 6.0  # mm for the number before a line
THICK = 1.6
DASH = (3.2, 2.2)


@even_metres
def conflict_sheet(
    scenario: Scenario, conflict: Conflict, number: int = 1, total: int = 1, *, style: Style = STYLE
) -> Figure:
    """One clash on a landscape sheet (297 x 210 mm); it is set ``number`` of ``total``.

    The plan shows the closest arrangement: what lacks most is drawn as asked for, with
    what it runs into hatched closely. Without an arithmetic that has an arrangement, the
    one that exists without the last member is shown. ValueError if there is none at all.
    """
    page = Page(style)
    _draw_plan(page, scenario, conflict)
    _draw_words(page, scenario, conflict, number, total, column_left(page))
    return page.figure


def drawable(conflict: Conflict) -> bool:
    """Whether there is an arrangement to draw."""
    near = conflict.arithmetic is not None and conflict.arithmetic.arrangement is not None
    return near or bool(conflict.without)


def _shown(
    scenario: Scenario, conflict: Conflict
) -> tuple[Scenario, Arrangement, Requirement | None]:
    """What to draw, and which member is not there in it."""
    figures = conflict.arithmetic
    quantity = _quantity(scenario, figures)
    if figures is not None and figures.arrangement is not None and quantity is not None:
        near = with_length(keep_only(scenario, conflict.requirements), quantity, figures.most)
        return replace(near, room=scenario.room), figures.arrangement, None
    if not conflict.without:
        raise ValueError("nothing was found that could be drawn")
    # A set without one of its rules says more than one without a piece.
    rules = declared(scenario)
    last = next(
        (
            w
            for w in reversed(conflict.without)
            if kind_of(rules[w.requirement], w.requirement).dispensable < NEVER
        ),
        conflict.without[-1],
    )
    rest = keep_only(scenario, [m for m in conflict.requirements if m != last.requirement])
    return replace(rest, room=scenario.room), last.arrangement, last.requirement


def _draw_plan(page: Page, scenario: Scenario, conflict: Conflict) -> None:
    shown, arrangement, missing = _shown(scenario, conflict)
    figures = conflict.arithmetic
    quantity = _quantity(scenario, figures)

    def over(board: Board, _: list[Drawn]) -> None:
        if figures is not None and figures.arrangement is not None:
            _draw_marks(board, shown, figures, quantity)

    options = PlanOptions(walkway=ways(shown, arrangement) if shown.walks else None, over=over)
    place = beside_column(page, page.height - MARGIN - 5)
    key = _key(scenario, quantity, missing, walks=shown.walks)
    draw_to_scale(page, shown, arrangement, place, options, key)


def _key(
    scenario: Scenario, quantity: Quantity | None, missing: Requirement | None, *, walks: bool
) -> str:
    """What the plan shows, in words."""
    if missing is not None:
        said = f"Only what is listed, and without this: {describe(scenario, missing)}."
    else:
        said = "The closest arrangement of what is listed."
        if quantity is not None and quantity.outline is not None:
            said += " Dashed: as asked for. Closely hatched: what lacks."
    said += " Lightly hatched: kept free to use a piece."
    return f"{said} Shaded band: a way in." if walks else said


def _quantity(scenario: Scenario, figures: Arithmetic | None) -> Quantity | None:
    """What the figures say the most of."""
    if figures is None or figures.requirement is None:
        return None
    asked = quantities(scenario, [figures.requirement])
    return next(q for q in asked if q.side == figures.side)


def _draw_marks(
    board: Board, shown: Scenario, figures: Arithmetic, quantity: Quantity | None
) -> None:
    """What lacks, as asked for, and the line that makes the sum."""
    asked, there = _outlines(shown, figures, quantity)
    style = board.style
    if asked is not None:
        _draw_lack(board, asked.difference(there.buffer(1, join_style="mitre")))
        board.outline(asked, THICK + 1.2, style.paper, ABOVE - 0.2, ink=False)
        board.outline(asked, THICK, style.loss, ABOVE - 0.1, dash=DASH, gid="asked")
    if figures.section is not None:
        _draw_section(board, figures.section, shown.unit)


def _outlines(
    shown: Scenario, figures: Arithmetic, quantity: Quantity | None
) -> tuple[Polygon | None, BaseGeometry]:
    """What is lacking as asked for, and as much of it as there is."""
    if quantity is None or quantity.outline is None or figures.arrangement is None:
        return None, Polygon()
    scene = Scene(shown, figures.arrangement)
    return quantity.outline(scene, figures.asked), quantity.outline(scene, figures.most)


def _draw_lack(board: Board, shape: BaseGeometry) -> None:
    """Close upright and level lines: told from clearances without colour."""
    style = board.style
    for part in polygons(shape):
        pale = board.fill(part, style.paper, ABOVE - 0.4, gid="lack", alpha=0.55)
        x0, y0, x1, y1 = part.bounds
        step = board.mm(2.6)
        runs = [
            [(x0 + i * step, y0), (x0 + i * step, y1)] for i in range(int((x1 - x0) / step) + 1)
        ]
        runs += [
            [(x0, y0 + i * step), (x1, y0 + i * step)] for i in range(int((y1 - y0) / step) + 1)
        ]
        lines = board.lines(runs, 0.5, style.loss, ABOVE - 0.3, ink=False)
        lines.set_clip_path(pale)
        board.ink.add_shape(part)


def _draw_section(board: Board, section: Section, unit: Unit) -> None:
    """The line from wall to wall with a tick and a length for every stretch."""
    style = board.style
    across = abs(section.end[0] - section.start[0]) > abs(section.end[1] - section.start[1])

    def at(along: int) -> Vector:
        return (along, section.start[1]) if across else (section.start[0], along)

    ends = [section.crossed[0].start, *(part.end for part in section.crossed)]
    points = [at(v) for v in ends]
    board.lines([[points[0], points[-1]]], 3.0, style.paper, ABOVE - 0.1, ink=False)
    draw_line_with_ticks(board, points, style.accent, ABOVE + 0.5, "section")
    for part in section.crossed:
        size = length(part.end - part.start, unit)
        lacks = part.asked != part.end - part.start
        text = f"{size} of {length(part.asked, unit)}" if lacks else size
        sizes = (style.dimension_size + 1, style.dimension_size)
        colour = style.loss if lacks else style.accent
        wanted = Wanted((text,), sizes, colour, bold=True)
        write_beside(board, at(part.start), at(part.end), wanted, "section:text")


def _draw_words(
    page: Page, scenario: Scenario, conflict: Conflict, number: int, total: int, left: float
) -> None:
    """Title, the numbered list, the sum, and what is proven."""
    style = page.style
    top = page.title(scenario.title, left, MARGIN, COLUMN) + 1.5
    which = f" ({number} of {total})" if total > 1 else ""
    head = f"These cannot all hold{which}"
    top = page.paragraph(left, top, COLUMN, head, 10.0, bold=True, colour=style.loss) + 1.5
    for i, requirement in enumerate(conflict.requirements, start=1):
        mark = Bit(f"{i}", SIZE, style.accent, bold=True)
        text = describe(scenario, requirement, conflict.requirements)
        top = page.item(left, top, COLUMN, mark, text, SIZE, indent=NUMBER, gid="member") + 1.0
    top += 2.0
    page.rule(left, top, COLUMN)
    top += 3.0
    if conflict.arithmetic is not None:
        figures = conflict.arithmetic
        if figures.sum:
            top = page.paragraph(left, top, COLUMN, figures.sum, SIZE + 1, bold=True, gid="sum")
            top += 1.5
        top = page.paragraph(left, top, COLUMN, figures.sentence, SIZE, gid="most") + 3.0
    page.paragraph(left, top, COLUMN, proof(conflict), SIZE - 1, colour=style.quiet, gid="proof")
