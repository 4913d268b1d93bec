"""One plan and its column: the sheet of a suggestion, and of the room as it stands today.

At the left the plan at a usual printed scale with its key below it; at the right title,
score, what was not avoided, the parts, reasons, what is tight and room to spare; the
cautions at the foot. The sheets of a conflict and of a
largest size are composed of the same parts. Lengths in mm of paper unless said otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from matplotlib.figure import Figure
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import measured, points
from arrange.data.piece import STANDING
from arrange.data.result import PARTS, Reason, Spare, Suggestion, Verdict
from arrange.data.scenario import Scenario, Unit
from arrange.data.swap import Today
from arrange.draw.board import ABOVE, Board
from arrange.draw.floor import LEGEND, clear_square, ways
from arrange.draw.overhead import TINTED
from arrange.draw.page import (
    MARGIN,
    Bit,
    Box,
    Page,
    and_more,
    ascent,
    line_height,
    text_height,
)
from arrange.draw.plan import (
    FULL_MARGINS,
    PlanArtists,
    PlanOptions,
    draw_plan,
    on_paper,
    printed_board,
)
from arrange.draw.style import LEAST, MM_PER_POINT, STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.draw.text import wrapped
from arrange.geometry.ceilings import low_floor
from arrange.rules.clear_floor import ClearFloor
from arrange.whatif.slack import spares
from arrange.words.cautions import LAST, cautions
from arrange.words.reasons import (
    AS_IT_STANDS,
    Chosen,
    choose,
    not_avoided,
    not_avoided_head,
    rest_line,
    standing,
)
from arrange.words.suggest import is_urgent, spare_words, worth_telling
from arrange.words.swap import today_remarks
from arrange.words.tight import TITLE, tight_lines, tighter_than_usual

COLUMN = 92.0  # width of the column at the right
GUTTER = 6.0
SIZE = LEAST
LIMIT_CODES = (
    "These are the usual cautions, not an approval: local codes and licensed practice decide."
)
BAR = 17.0  # width of the bar of the weightiest reason
REASON_BAR = 2.8  # mm that it takes above its points
MOST_FOOT = 66.0  # mm of cautions; a room of our own never has so many
MORE_CAUTIONS = "{}: arrange suggest --all tells them."
FAULTS = 5  # told on a sheet; the rest is counted
LEAST_REASONS = 9.0  # mm that stay for the reasons, or for the line that sums them up
PART_NAME, PART_BAR = 36.0, 36.0  # widths: of a part's name, of the bar of the largest part
AIR = 1.3
SPARE_SIZE, SPARE_INDENT = LEAST, 3.5
REMARK = 7.5
KEY_LINES = 2  # below a plan, above what follows
THICK = 2.0  # points: round a piece about which something does not work
HATCHED = "Hatched: floor you need to use a piece, with little to spare."
SOFT_LINE = "Soft line: the way in, at least {} wide."


def plan_sheet(
    scenario: Scenario,
    suggestion: Suggestion,
    total: int,
    cautions: tuple[str, ...] = (),
    *,
    walkway: BaseGeometry | None = None,
    file: str = "result.json",
    told: tuple[str, str] | None = None,
    style: Style = STYLE,
) -> Figure:
    """One suggestion on a landscape sheet (297 x 210 mm).

    The plan is at a usual printed scale. ``walkway`` is the floor of the way
    through the room; it is worked out if not given. ``total`` is how many suggestions
    there are. Every caution is printed; the plan gives way to them. The points
    of the reasons shown and of the line that sums up the rest add up to the
    score; that line names ``file``, which has every number. ``told`` is what to say below
    the title and below the score where the suggestion is not one of ``total``.
    """
    page, arrangement = Page(style), suggestion.arrangement
    foot = draw_cautions(page, cautions)
    clear, key = None, usual_key(scenario)
    if any(reason.rule == ClearFloor.id for reason in suggestion.verdict.reasons):
        clear = clear_square(scenario, arrangement)
        key += f" {LEGEND}" if clear is not None else ""
    way = ways(scenario, arrangement) if walkway is None else walkway
    options = PlanOptions(suggestion.verdict.gaps, walkway=way, clear=clear)
    draw_to_scale(page, scenario, arrangement, beside_column(page, foot), options, key)
    left = column_left(page)
    told = told or (f"Arrangement {suggestion.rank} of {total}", standing(suggestion))
    top = _suggestion_heading(page, scenario, suggestion, told, left)
    below = draw_foot_of_column(page, scenario, arrangement, Box(left, top, COLUMN, foot - 3 - top))
    draw_reasons(page, suggestion.verdict.reasons, Box(left, top, COLUMN, below - top), file)
    return page.figure


def _suggestion_heading(
    page: Page, scenario: Scenario, suggestion: Suggestion, told: tuple[str, str], left: float
) -> float:
    """Title, rank, score, how far it is proven, what was not avoided, the parts.

    Returns the top of what follows.
    """
    verdict = suggestion.verdict
    top = draw_title(page, scenario.title, told[0], "rank", left)
    baseline = draw_score(page, verdict.score, left, top)
    top = page.paragraph(
        left,
        baseline + 2.2,
        COLUMN,
        told[1],
        REMARK,
        colour=page.style.text,
        gid="standing",
    )
    top = draw_faults(page, not_avoided_head(suggestion), verdict.reasons, left, top + 1.5)
    return draw_parts(page, verdict, left, top + 2.0) + 2.5


def draw_faults(page: Page, head: str, reasons: Sequence[Reason], left: float, top: float) -> float:
    """What a good plan never has and this one does, under ``head``; returns what follows."""
    sentences, loss = not_avoided(reasons), page.style.loss
    if not sentences:
        return top
    top = page.paragraph(left, top, COLUMN, head, REMARK, bold=True, colour=loss, gid="faults")
    mark = Bit("!", REMARK, loss, bold=True)
    for sentence in sentences[:FAULTS]:
        top = page.item(left, top, COLUMN, mark, sentence, REMARK, gid="fault")
    if len(sentences) > FAULTS:
        rest = and_more(len(sentences) - FAULTS)
        top = page.paragraph(left + 3.5, top, COLUMN - 3.5, rest, REMARK, gid="fault")
    return top


def draw_parts(page: Page, verdict: Verdict, left: float, top: float) -> float:
    """A row for each part of the score, the bars at one scale; returns the top of what follows."""
    style, parts = page.style, verdict.parts
    most = max((possible for _, possible in parts.values()), default=1)
    for part, (won, possible) in parts.items():
        baseline, bar = top + ascent(SIZE), PART_BAR * possible / most
        page.write(left, baseline, PARTS[part], SIZE, gid="part")
        start = left + PART_NAME
        page.bar(Box(start, top + 0.5, bar, 2.2), style.paper, style.fine, 0.5)
        if won > 0:
            page.bar(Box(start, top + 0.5, min(1.0, won / possible) * bar, 2.2), style.accent)
        told = f"{points(won)} of {points(possible)}"
        page.write(
            left + COLUMN, baseline, told, SIZE, colour=style.quiet, align="right", gid="won"
        )
        top += line_height(SIZE) + 0.9
    return top


def draw_foot_of_column(
    page: Page, scenario: Scenario, arrangement: Arrangement, column: Box
) -> float:
    """What is tighter than usual and the room to spare, at the foot; returns their top.

    Where the column is full the room to spare gives way: it is all in the file.
    """
    unit, foot = scenario.unit, column.top + column.height
    tight = tight_lines(tighter_than_usual(scenario, arrangement), unit)
    room = column.height - tight_height(tight, column.width) - LEAST_REASONS
    left_over = worth_telling(spares(scenario, arrangement))
    while left_over and spare_height(left_over, unit, column.width) > room:
        left_over = left_over[:-1]
    below = foot - spare_height(left_over, unit, column.width)
    draw_spares(page, left_over, unit, Box(column.left, below, column.width, foot - below))
    top = below - tight_height(tight, column.width)
    draw_tight(page, tight, Box(column.left, top, column.width, below - top))
    return top


def today_sheet(today: Today, *, style: Style = STYLE) -> Figure:
    """The room as it stands on a landscape sheet (297 x 210 mm), like that of a suggestion.

    Every broken must is written out, and the pieces it is about have a thick outline.
    """
    page, scenario, arrangement = Page(style), today.scenario, today.arrangement
    foot = draw_cautions(page, cautions(scenario, arrangement))
    broken = {name for b in today.verdict.breaches for name in b.subjects}

    def over(board: Board, placed: list[Drawn]) -> None:
        for one in placed:
            if one.piece.name in broken:
                board.outline(one.shape, THICK, style.edge, ABOVE, gid=f"moved:{one.piece.name}")

    key = usual_key(scenario)
    key += " Thick outline: something about this piece does not work." if broken else ""
    options = PlanOptions(today.verdict.gaps, walkway=ways(scenario, arrangement), over=over)
    draw_to_scale(page, scenario, arrangement, beside_column(page, foot), options, key)
    left = column_left(page)
    top = _today_heading(page, today, left)
    tight = tight_lines(tighter_than_usual(scenario, arrangement), scenario.unit)
    high = tight_height(tight, COLUMN)
    draw_tight(page, tight, Box(left, foot - 3 - high, COLUMN, high))
    reasons = Box(left, top, COLUMN, foot - 3 - high - top)
    draw_reasons(page, today.verdict.reasons, reasons, "today.json")
    return page.figure


def _today_heading(page: Page, today: Today, left: float) -> float:
    """Title, score, and plainly what does not work; returns the top of what follows."""
    quiet = page.style.quiet
    top = draw_title(page, today.scenario.title, "As it stands today", "today", left)
    if today.verdict.breaches:
        top = _broken(page, today, left, top + 3)
    else:
        top = draw_score(page, today.verdict.score, left, top) + 3.5
        head = "Everything essential works."
        top = page.paragraph(left, top, COLUMN, head, REMARK + 0.5, gid="works")
    for told in today_remarks(today):
        top = page.paragraph(left, top + 1, COLUMN, told, REMARK, colour=quiet, gid="remark")
    top = draw_faults(page, AS_IT_STANDS, today.verdict.reasons, left, top + 1.5)
    return draw_parts(page, today.verdict, left, top + 2.0) + 2.5


def _broken(page: Page, today: Today, left: float, top: float) -> float:
    """What does not work, and only then what the rest scores: no score makes up for it."""
    style = page.style
    head = "Does not work today"
    top = page.paragraph(left, top, COLUMN, head, 16.0, bold=True, colour=style.loss, gid="works")
    top += 1.5
    mark = Bit("!", REMARK, style.loss, bold=True)
    for breach in today.verdict.breaches:
        top = page.item(left, top, COLUMN, mark, breach.sentence, REMARK, gid="broken")
    rest = f"Otherwise it has {points(today.verdict.score)} of 100 points."
    return page.paragraph(left, top + 1, COLUMN, rest, REMARK, colour=style.quiet, gid="score")


def column_left(page: Page) -> float:
    """Where the column at the right begins."""
    return page.width - MARGIN - COLUMN


def beside_column(page: Page, foot: float) -> Box:
    """The place of the plan: all but the column, with air for its key above ``foot``."""
    return Box(MARGIN, MARGIN, column_left(page) - GUTTER - MARGIN, foot - 5 - MARGIN)


def draw_to_scale(
    page: Page,
    scenario: Scenario,
    arrangement: Arrangement,
    place: Box,
    options: PlanOptions,
    key: str,
    *,
    lines: int = KEY_LINES,
) -> None:
    """The plan at a usual printed scale in ``place``; below it ``key`` and what has no name.

    Of that as much is named as ``lines`` have room for; the rest is counted.
    """
    style = page.style
    board, ratio = printed_board(page.axes(place), scenario.room, style, FULL_MARGINS)
    drawn = draw_plan(board, scenario, arrangement, replace(options, note=on_paper(ratio)))
    key = _of_what_is_drawn(key, drawn)
    size, top, wide = style.note_size, place.foot + 0.5, place.width / MM_PER_POINT
    texts = (key + unnamed_words(drawn.unnamed, n) for n in range(len(drawn.unnamed), -1, -1))
    every = [wrapped(text, size, wide) for text in texts]
    rows = next((e for e in every if len(e) <= lines), every[-1])
    top -= 0.8 if len(rows) == KEY_LINES else 0.0  # the last row keeps off the rule below
    for i, line in enumerate(rows):
        page.write(place.left, top + i * line_height(size), line, size, colour=style.quiet)


def _of_what_is_drawn(key: str, drawn: PlanArtists) -> str:
    """The key without the sentence on hatching where nothing is hatched."""
    return key if drawn.of("clearances") else " ".join(key.replace(HATCHED, "").split())


def unnamed_words(unnamed: Sequence[str], told: int) -> str:
    """Which pieces have no name on the plan: the first ``told`` of them, and how many more.

    >>> unnamed_words(("lamp", "stool"), 2), unnamed_words(("lamp", "stool"), 1)
    (' No room on the plan to name: lamp, stool.', ' No room on the plan to name: lamp and 1 more.')
    >>> unnamed_words(("lamp", "stool"), 0), unnamed_words((), 0)
    (' No room on the plan to name: 2 pieces.', '')
    """
    if not unnamed:
        return ""
    words = " ".join(filter(None, (", ".join(unnamed[:told]), and_more(len(unnamed) - told))))
    if not told:
        words = "1 piece" if len(unnamed) == 1 else f"{len(unnamed)} pieces"
    return f" No room on the plan to name: {words}."


def usual_key(scenario: Scenario) -> str:
    """What hatching, line and tint mean on a plan."""
    return " ".join(key_words(scenario, walks=True))


def key_words(scenario: Scenario, *, walks: bool) -> tuple[str, ...]:
    """A sentence each for hatching and tint, and for the line where one ``walks`` on the plan."""
    way = SOFT_LINE.format(measured(scenario.walkway, scenario.unit))
    return (
        HATCHED,
        *([way] if walks else []),
        *([TINTED] if low_floor(scenario.room, STANDING) else []),
    )


def draw_title(page: Page, title: str, told: str, gid: str, left: float) -> float:
    """The title, and quietly what is drawn of it; returns the top of what follows."""
    top = page.title(title, left, MARGIN, COLUMN) + 0.5
    return page.paragraph(left, top, COLUMN, told, 9.0, colour=page.style.quiet, gid=gid)


def draw_score(page: Page, score: int, left: float, top: float) -> float:
    """The score in large figures; returns their baseline."""
    style, baseline = page.style, top + 13.5
    large = Bit(points(score), 34.0, style.accent, bold=True, gid="score")
    page.row(left, baseline, large, Bit("of 100 points", 9.0, style.quiet))
    return baseline


def draw_reasons(
    page: Page, reasons: Sequence[Reason], box: Box, file: str = "result.json"
) -> None:
    """As many reasons as fit ``box``, best and worst, the rest in a line that names ``file``."""
    chosen, top = fitting(reasons, box.width, box.height), box.top
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
        told, quiet = rest_line(chosen.rest, file), page.style.quiet
        page.paragraph(box.left, top, box.width, told, SIZE, colour=quiet, gid="rest")


def fitting(reasons: Sequence[Reason], width: float, height: float) -> Chosen:
    """As many reasons as fit a column ``width`` x ``height``."""
    for most in range(len(reasons), 0, -1):
        chosen = choose(reasons, most)
        if _column_height(chosen, width) <= height:
            return chosen
    return choose(reasons, 0)


def _column_height(chosen: Chosen, width: float) -> float:
    """Height of the reasons as ``draw_reasons`` writes them."""
    rows = [_reason_height(r, width) + AIR for r in (*chosen.won, *chosen.lost)]
    heads = (bool(chosen.won) + bool(chosen.lost)) * (line_height(SIZE + 1) + 3.0)
    rest = text_height(rest_line(chosen.rest), SIZE, width) + 2.0 if chosen.rest else 0.0
    return sum(rows) + heads + rest


def _told(reason: Reason) -> str:
    return f"{reason.sentence} (with your own value)" if reason.overridden else reason.sentence


def _reason_height(reason: Reason, width: float) -> float:
    """The sentence, or the bar with its points below."""
    beside = text_height(_told(reason), SIZE, width - BAR - 4)
    return max(beside, REASON_BAR + line_height(SIZE))


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
    worth = f"{points(reason.won)} of {points(reason.possible)}"
    page.paragraph(left, top + REASON_BAR, width, worth, SIZE, colour=style.quiet)
    page.paragraph(left + BAR + 4, top, width - BAR - 4, _told(reason), SIZE)
    return top + _reason_height(reason, width) + AIR


def spare_height(spares: Sequence[Spare], unit: Unit, width: float) -> float:
    """Height of the block that says how much room there is to spare; 0 if there is none."""
    if not spares:
        return 0.0
    size, inner = SPARE_SIZE, width - SPARE_INDENT
    rows = (text_height(spare_words(s, unit), size, inner) + 0.6 for s in spares)
    return line_height(size + 1) + 1.0 + sum(rows) + 2.0


def draw_spares(page: Page, spares: Sequence[Spare], unit: Unit, box: Box) -> None:
    """One line each, the tightest first; an exclamation mark at what is to be measured again."""
    if not spares:
        return
    size, title = SPARE_SIZE, "Room to spare"
    top = page.paragraph(box.left, box.top, box.width, title, size + 1, bold=True) + 1.0
    for spare in spares:
        # The exclamation mark is narrower than the dash.
        mark, off = Bit("\N{EN DASH}", size, page.style.quiet), 0.0
        if is_urgent(spare, unit):
            mark, off = Bit("!", size, bold=True), 0.8
        text, indent = spare_words(spare, unit), SPARE_INDENT - off
        top = page.item(
            box.left + off, top, box.width - off, mark, text, size, indent=indent, gid="spare"
        )
        top += 0.6


def tight_height(lines: Sequence[str], width: float) -> float:
    """Height of the block that says where a plan is tighter than usual; 0 if it is nowhere."""
    if not lines:
        return 0.0
    rows = (text_height(one, SPARE_SIZE, width - SPARE_INDENT) + 0.6 for one in lines)
    return line_height(SPARE_SIZE + 1) + 1.0 + sum(rows) + 2.0


def draw_tight(page: Page, lines: Sequence[str], box: Box) -> None:
    """Where the plan is tighter than usual, a line each."""
    if not lines:
        return
    size = SPARE_SIZE
    top = page.paragraph(box.left, box.top, box.width, TITLE, size + 1, bold=True) + 1.0
    mark = Bit("\N{EN DASH}", size, page.style.quiet)
    for one in lines:
        indent = SPARE_INDENT
        top = page.item(box.left, top, box.width, mark, one, size, indent=indent, gid="tight") + 0.6


def draw_cautions(page: Page, cautions: Sequence[str]) -> float:
    """All cautions at the foot in two columns; returns the top of the foot.

    What no sheet has room for is counted. The last, general one is there in short, whether
    it is given or not.
    """
    left, width = MARGIN, page.inner
    column, size = (width - 8) / 2, LEAST
    every = [c for c in cautions if c != LAST]
    for shown in range(len(every), -1, -1):
        more = len(every) - shown
        rest = [MORE_CAUTIONS.format(and_more(more))] if more else []
        texts = [*every[:shown], *rest, LIMIT_CODES]
        heights = [text_height(t, size, column - 3) + 0.7 for t in texts]
        split = min(
            range(len(texts) + 1), key=lambda i: (max(sum(heights[:i]), sum(heights[i:])), -i)
        )
        height = max(sum(heights[:split]), sum(heights[split:]))
        if height <= MOST_FOOT:
            break
    top = page.height - 9.0 - height
    page.rule(left, top - 6.0, width)
    page.write(left, top - 1.6, "Take care", size + 0.5, bold=True)
    mark = Bit("\N{EN DASH}", size, page.style.quiet)
    for start, column_texts in ((left, texts[:split]), (left + column + 8, texts[split:])):
        y = top
        for text in column_texts:
            y = page.item(start, y, column, mark, text, size, indent=3, colour=page.style.text)
            y += 0.7
    return top - 6.0
