"""The sheet of the room as it stands today: plan, what does not work, score, reasons."""

from __future__ import annotations

from matplotlib.artist import Artist
from matplotlib.figure import Figure

from arrange.cautions import LAST, cautions
from arrange.data.swap import Today
from arrange.draw.board import Board
from arrange.draw.metres import even_metres
from arrange.draw.moves import outlined
from arrange.draw.page import MARGIN, Box, Page, fitting_size, line_height, text_width
from arrange.draw.pieces import Drawn
from arrange.draw.reasons import draw_cautions, draw_reasons, fitting
from arrange.draw.sheet import COLUMN, GUTTER, draw_to_scale
from arrange.draw.style import STYLE, Style
from arrange.whatif.swap.swap_words import today_remarks
from arrange.words import points

SIZE = 7.5


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
    top = _heading(page, today, right)
    chosen = fitting(today.verdict.reasons, COLUMN, foot - 3 - top)
    draw_reasons(page, chosen, Box(right, top, COLUMN, foot - 3 - top), "today.json")
    return page.figure


def _heading(page: Page, today: Today, left: float) -> float:
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
        top = page.paragraph(left, baseline + 3.5, COLUMN, head, SIZE + 0.5, gid="works")
    for told in today_remarks(today):
        top = page.paragraph(left, top + 1, COLUMN, told, SIZE, colour=style.quiet, gid="remark")
    return top + line_height(5.0)


def _broken(page: Page, today: Today, left: float, top: float) -> float:
    """What does not work, and only then what the rest scores: no score makes up for it."""
    style = page.style
    head = "Does not work today"
    top = page.paragraph(left, top, COLUMN, head, 16.0, bold=True, colour=style.loss, gid="works")
    top += 1.5
    for breach in today.verdict.breaches:
        mark = top + line_height(SIZE) * 0.75
        page.write(left, mark, "!", SIZE, bold=True, colour=style.loss)
        top = page.paragraph(left + 3.5, top, COLUMN - 3.5, breach.sentence, SIZE, gid="broken")
    rest = f"For the rest it has {points(today.verdict.score)} of 100 points."
    return page.paragraph(left, top + 1, COLUMN, rest, SIZE, colour=style.quiet, gid="score")
