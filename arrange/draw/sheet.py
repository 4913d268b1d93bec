"""Which reasons a sheet shows, and how: best first, worst first, the rest added up.

The sheet of one suggestion: plan, score, reasons, room to spare, cautions.
"""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import measured, points
from arrange.data.result import Gap, Reason, Suggestion
from arrange.data.scenario import Scenario
from arrange.draw.dimensions import draw_spares, spare_height
from arrange.draw.plan import (
    FULL_MARGINS,
    LEGEND,
    Marks,
    PlanOptions,
    clear_square,
    draw_plan,
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
    line_height,
    sentences,
    text_height,
    text_width,
    wrapped,
)
from arrange.draw.ways import ways
from arrange.rules.clear_floor import ClearFloor
from arrange.whatif.slack import spares
from arrange.words.reasons import Chosen, choose

SIZE = 7.0
LIMIT_CODES = (
    "These are the usual cautions, not an approval: local codes and licensed practice decide."
)
BAR = 17.0  # width in mm of the bar of the weightiest reason
AIR = 1.3


def fitting(reasons: Sequence[Reason], width: float, height: float) -> Chosen:
    """As many reasons as fit a column ``width`` x ``height`` mm."""
    for most in range(len(reasons), 0, -1):
        chosen = choose(reasons, most)
        if column_height(chosen, width) <= height:
            return chosen
    return choose(reasons, 0)


def column_height(chosen: Chosen, width: float) -> float:
    """Height in mm of the reasons as ``draw_reasons`` writes them."""
    rows = [
        text_height(r.sentence, SIZE, width - BAR - 4) + line_height(SIZE - 1) + AIR
        for r in (*chosen.won, *chosen.lost)
    ]
    heads = (bool(chosen.won) + bool(chosen.lost)) * (line_height(SIZE + 1) + 3.0)
    rest = text_height(rest_line(chosen.rest), SIZE, width) + 2.0 if chosen.rest else 0.0
    return sum(rows) + heads + rest


def rest_line(rest: Sequence[Reason], file: str = "result.json") -> str:
    """The reasons not shown, added up in one line that says where they are."""
    won, possible = sum(r.won for r in rest), sum(r.possible for r in rest)
    return f"and {len(rest)} more, {points(won)} of {points(possible)} points: see {file}"


def draw_reasons(page: Page, chosen: Chosen, box: Box, file: str = "result.json") -> float:
    """Both groups and the rest line; returns the top of what comes after."""
    top = box.top
    weightiest = max([r.possible for r in (*chosen.won, *chosen.lost)], default=1) or 1
    for title, group in (("Earned most", chosen.won), ("Lost most", chosen.lost)):
        if not group:
            continue
        page.paragraph(box.left, top, box.width, title, SIZE + 1, bold=True)
        top += line_height(SIZE + 1) + 1.0
        for reason in group:
            top = _draw_reason(page, reason, box.left, top, box.width, weightiest)
        top += 2.0
    if chosen.rest:
        top = page.paragraph(
            box.left,
            top,
            box.width,
            rest_line(chosen.rest, file),
            SIZE,
            colour=page.style.quiet,
            gid="rest",
        )
    return top


def _draw_reason(
    page: Page, reason: Reason, left: float, top: float, width: float, weightiest: int
) -> float:
    style = page.style
    full = BAR * reason.possible / weightiest
    won = full * reason.won / reason.possible if reason.possible else 0.0
    y, h = top + 0.5, 2.0
    page.bar(Box(left, y, full, h), style.paper, style.fine, 0.5)
    if won > 0:
        page.bar(Box(left, y, min(won, full), h), style.accent)
    start = left + BAR + 4
    below = page.paragraph(start, top, width - BAR - 4, reason.sentence, SIZE)
    worth = f"{points(reason.won)} of {points(reason.possible)}"
    if reason.overridden:
        worth += ", with your own value"
    return page.paragraph(start, below, width, worth, SIZE - 1, colour=style.quiet) + AIR


def standing(suggestion: Suggestion) -> str:
    """How far the arrangement is proven, in one plain line."""
    if suggestion.proven:
        if suggestion.rank == 1:
            return "Proven best: no arrangement scores more."
        return "Proven best of all that differ from those before it."
    more = max(0, suggestion.bound - suggestion.verdict.score)
    return f"Found, not proven best: another could score at most {points(more)} more."


def draw_cautions(page: Page, cautions: Sequence[str], left: float, width: float) -> float:
    """All cautions at the foot in two columns; returns the top of the foot in mm."""
    size = 6.5 if len(cautions) <= 8 else 5.8
    texts = [*cautions, LIMIT_CODES]
    column = (width - 8) / 2
    heights = [text_height(t, size, column - 3) + 0.7 for t in texts]
    split = min(range(len(texts) + 1), key=lambda i: (max(sum(heights[:i]), sum(heights[i:])), -i))
    height = max(sum(heights[:split]), sum(heights[split:]))
    top = page.height - 9.0 - height
    page.rule(left, top - 6.0, width)
    page.write(left, top - 1.6, "Take care", size + 0.5, bold=True)
    for start, column_texts in ((left, texts[:split]), (left + column + 8, texts[split:])):
        y = top
        for text in column_texts:
            page.write(start, y + size * 0.98 * 0.3528, "–", size, colour=page.style.quiet)  # noqa: RUF001
            y = page.paragraph(start + 3, y, column - 3, text, size, colour=page.style.text) + 0.7
    return top - 6.0


def heading_width(text: str, size: float) -> float:
    """Width in mm of a bold heading."""
    return text_width(text, size, bold=True)


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
