"""The sheet of one suggestion: plan, score, reasons, room to spare, cautions."""

from __future__ import annotations

from matplotlib.figure import Figure
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.result import Gap, Suggestion
from arrange.data.scenario import Scenario
from arrange.draw.clear_floor import LEGEND, clear_square
from arrange.draw.measure import wrapped
from arrange.draw.metres import evenly, sentences
from arrange.draw.page import MARGIN, Box, Page, fitting_size, line_height, text_width
from arrange.draw.plan import (
    FULL_MARGINS,
    Marks,
    PlanOptions,
    draw_plan,
    largest_scale,
    make_board,
    printed_scale,
)
from arrange.draw.reasons import draw_cautions, draw_reasons, fitting, standing
from arrange.draw.spare import draw_spares, spare_height
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.ways import ways
from arrange.rules.clear_floor import ClearFloor
from arrange.whatif.spare.sparing import spares
from arrange.words import measured, points

COLUMN = 92.0  # width in mm of the column at the right
GUTTER = 6.0


def plan_sheet(
    scenario: Scenario,
    suggestion: Suggestion,
    total: int,
    cautions: tuple[str, ...] = (),
    *,
    walkway: BaseGeometry | None = None,
    style: Style = STYLE,
) -> Figure:
    """One suggestion on a landscape sheet (297 x 210 mm).

    The plan is at a usual printed scale. ``walkway`` is the floor of the way
    through the room; it is worked out if not given. ``total`` is how many suggestions
    there are. Every caution is printed; the plan gives way to them. The points
    of the reasons shown and of the line that sums up the rest add up to the
    score.
    """
    return evenly(
        scenario.unit,
        sentences([suggestion]),
        lambda: _draw(scenario, suggestion, total, cautions, walkway, style),
    )


def _draw(
    scenario: Scenario,
    suggestion: Suggestion,
    total: int,
    cautions: tuple[str, ...],
    walkway: BaseGeometry | None,
    style: Style,
) -> Figure:
    page = Page(style)
    foot = draw_cautions(page, cautions, MARGIN, page.width - 2 * MARGIN)
    right = page.width - MARGIN - COLUMN
    place = Box(MARGIN, MARGIN, right - GUTTER - MARGIN, foot - 5 - MARGIN)
    gaps = suggestion.verdict.gaps
    clear = _counted(scenario, suggestion)
    draw_to_scale(page, scenario, suggestion.arrangement, gaps, place, walkway=walkway, clear=clear)
    top = _heading(page, scenario, suggestion, total, right)
    left_over = spares(scenario, suggestion.arrangement)
    below = foot - 3 - spare_height(left_over, scenario.unit, COLUMN)
    chosen = fitting(suggestion.verdict.reasons, COLUMN, below - top)
    draw_reasons(page, chosen, Box(right, top, COLUMN, below - top))
    draw_spares(page, left_over, scenario.unit, Box(right, below, COLUMN, foot - 3 - below))
    return page.figure


def _counted(scenario: Scenario, suggestion: Suggestion) -> Polygon | None:
    """The clear floor where a reason speaks of it."""
    told = any(reason.rule == ClearFloor.id for reason in suggestion.verdict.reasons)
    return clear_square(scenario, suggestion.arrangement) if told else None


def draw_to_scale(
    page: Page,
    scenario: Scenario,
    arrangement: Arrangement,
    gaps: tuple[Gap, ...],
    place: Box,
    *,
    walkway: BaseGeometry | None = None,
    over: Marks | None = None,
    clear: Polygon | None = None,
    legend: str = "",
) -> None:
    """The plan at a usual printed scale in ``place``, with its key below it.

    ``over`` draws marks on the pieces, ``legend`` says what they mean. ``clear`` is outlined.
    """
    style = page.style
    width, height = place.width / MM_PER_POINT, place.height / MM_PER_POINT
    ratio = printed_scale(largest_scale(scenario.room, width, height, FULL_MARGINS, style.wall))
    board = make_board(page.axes(place), scenario.room, style, FULL_MARGINS, ratio)
    note = f"1:{ratio} printed on A4"
    way = ways(scenario, arrangement) if walkway is None else walkway
    options = PlanOptions(gaps, walkway=way, note=note, over=over, clear=clear)
    drawn = draw_plan(board, scenario, arrangement, options)
    key = (
        "Hatched: kept free to use a piece. Shaded band: a way in to everything, at least "
        f"{measured(scenario.walkway, scenario.unit)} wide (the band is only its line)."
    )
    if clear is not None:
        key += f" {LEGEND}"
    if legend:
        key += f" {legend}"
    if drawn.unnamed:
        key += f" Not named for want of room: {', '.join(drawn.unnamed)}."
    for i, line in enumerate(wrapped(key, style.note_size, width)):
        page.write(
            place.left,
            place.top + place.height + 0.5 + i * line_height(style.note_size),
            line,
            style.note_size,
            colour=style.quiet,
        )


def _heading(
    page: Page, scenario: Scenario, suggestion: Suggestion, total: int, left: float
) -> float:
    """Title, rank, score and how far it is proven; returns the top of what follows."""
    style = page.style
    size = fitting_size(scenario.title, 14.0, 10.0, COLUMN, bold=True)
    top = page.paragraph(left, MARGIN, COLUMN, scenario.title, size, bold=True, gid="title")
    rank = f"Arrangement {suggestion.rank} of {total}"
    top = page.paragraph(left, top + 0.5, COLUMN, rank, 9.0, colour=style.quiet, gid="rank")
    score = points(suggestion.verdict.score)
    baseline = top + 13.5
    page.write(left, baseline, score, 34.0, bold=True, colour=style.accent, gid="score")
    beside = left + text_width(score, 34.0, bold=True) + 3
    page.write(beside, baseline, "of 100 points", 9.0, colour=style.quiet)
    bar = Box(left, baseline + 3.2, COLUMN, 2.2)
    page.bar(bar, style.paper, style.fine, 0.5)
    share = min(1.0, max(0.0, suggestion.verdict.score / 1000))
    page.bar(Box(bar.left, bar.top, COLUMN * share, bar.height), style.accent)
    top = page.paragraph(
        left, bar.top + 4.0, COLUMN, standing(suggestion), 7.5, colour=style.text, gid="standing"
    )
    return top + line_height(5.0)
