"""The board: the plan, the words, the pieces with their pictures, the swatches. In mm on paper."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from arrange.draw.page import (
    MARGIN,
    Box,
    Page,
    and_more,
    ascent,
    line_height,
    shortened,
    text_height,
    text_width,
)
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import draw_to_scale
from arrange.draw.style import LEAST, MM_PER_POINT, STYLE, Style
from arrange.draw.text import wrapped
from arrange.scenario.photo import pixels
from arrange.shop.board import NO_WORDS, Board, answers, groups, remarks, short_words
from arrange.shop.colours import Seen

PLAN, GUTTER = 128.0, 8.0
WORDS = (26.0, 11.0)  # points of the words for the room: the largest, the least
HEAD, TEXT = 8.5, LEAST
MOST_ANSWERS = 3  # lines that say what answers the words
PICTURES = 8  # at most; the rest is counted
ACROSS = 4  # pictures in a row
PICTURE, AIR = 25.0, 3.0  # height of a picture with its name below, and air round it
CHIPS = ((34.0, 20.0), (30.0, 16.0), (26.0, 13.0), (19.0, 10.5), (12.0, 8.0))  # largest first
CHIP_AIR = 1.5  # below a swatch
COLUMNS = 2


def board_sheet(found: Board, *, style: Style = STYLE) -> Figure:
    """The board on one landscape sheet (297 x 210 mm).

    Swatches and pictures that there is no room for are counted. ScenarioError for a picture
    that cannot be read.
    """
    page = Page(style)
    top = page.head(found.scenario.title, f"Board, {found.plan}") + 2.0
    top = _words(page, found, top) + 4.0
    place = Box(MARGIN, top, PLAN, page.height - MARGIN - top - 12)
    options = PlanOptions(clearances=False)
    draw_to_scale(page, found.scenario, found.arrangement, place, options, "", lines=4)
    left = MARGIN + PLAN + GUTTER
    right = Box(left, top, page.width - MARGIN - left, page.height - MARGIN - top)
    below = _pictures(page, found, right)
    foot = _remarks(page, found, right)
    _swatches(page, found, Box(left, below, right.width, foot - below))
    return page.figure


def _words(page: Page, found: Board, top: float) -> float:
    """The words for how the room should feel, as large as they fit on one line."""
    if not found.feel:
        return page.paragraph(
            MARGIN, top, page.inner, NO_WORDS, TEXT, colour=page.style.quiet, gid="feel"
        )
    text = "   \N{MIDDLE DOT}   ".join(found.feel)
    size, least = WORDS
    while size > least and text_width(text, size) > page.inner:
        size -= 0.5
    top = page.paragraph(MARGIN, top, page.inner, text, size, colour=page.style.accent, gid="feel")
    told = " · ".join(answers(found))
    if not told:
        return top
    lines = wrapped(told, TEXT, page.inner / MM_PER_POINT)
    shown = [*lines[: MOST_ANSWERS - 1], "..."] if len(lines) > MOST_ANSWERS else lines
    for line in shown:
        top = page.paragraph(MARGIN, top, page.inner, line, TEXT, gid="answers")
    return top


def _pictures(page: Page, found: Board, place: Box) -> float:
    """The pieces with a picture, in rows; returns the top of what follows."""
    if not found.pictures:
        return place.top
    shown = found.pictures[:PICTURES]
    wide = (place.width - (ACROSS - 1) * AIR) / ACROSS
    for i, (name, file) in enumerate(shown):
        row, column = divmod(i, ACROSS)
        left, top = place.left + column * (wide + AIR), place.top + row * (PICTURE + AIR)
        high = PICTURE - line_height(TEXT)
        _picture(page, file, Box(left, top, wide, high))
        label = _cut(name, wide)
        page.write(left, top + high + ascent(TEXT) + 0.6, label, TEXT, gid="picture name")
    rows = -(-len(shown) // ACROSS)
    below = place.top + rows * (PICTURE + AIR) + 1
    more = and_more(len(found.pictures) - len(shown))
    if more:
        below = page.paragraph(place.left, below, place.width, more, TEXT, gid="more")
    return below + 2


def _cut(text: str, width: float) -> str:
    """As much of a name as fits on one line."""
    while text and text_width(text, TEXT) > width:
        text = f"{text.rstrip('.')[:-1].rstrip()}..." if len(text) > 4 else ""
    return text


def _picture(page: Page, file: str, place: Box) -> None:
    """A photo as large as it fits, its sides in proportion, at the upper left."""
    image = pixels(file)
    high, wide = image.shape[:2]
    scale = min(place.width / wide, place.height / high)
    box = Box(place.left, place.top, wide * scale, high * scale)
    ax = page.axes(box)
    ax.imshow(image, aspect="auto", interpolation="antialiased")
    ax.set_axis_off()
    ax.set_gid("picture")


def _remarks(page: Page, found: Board, place: Box) -> float:
    """What is to be said of the whole, at the foot; returns its top."""
    texts = remarks(found)
    top = place.foot - sum(text_height(text, TEXT, place.width) + 1 for text in texts)
    below = top
    for text in texts:
        colour = page.style.quiet
        below = page.paragraph(
            place.left, below, place.width, text, TEXT, colour=colour, gid="remark"
        )
        below += 1
    return top - 2


def _swatches(page: Page, found: Board, place: Box) -> None:
    """Every swatch under its head, in two columns; those without room are counted."""
    every = groups(found)
    names = [[one.swatch.name for one in seen] for _, seen in every]
    whole = [(kept, "") for kept in names]
    chip = next((one for one in CHIPS if _placed(whole, place, one[1]) is not None), CHIPS[-1])
    shown = shortened(names, lambda kept: _placed(kept, place, chip[1]) is not None)
    spots = _placed(shown, place, chip[1]) or []
    at = iter(spots)
    for (head, seen), (kept, more) in zip(every, shown, strict=True):
        left, top, _ = next(at)
        page.paragraph(left, top, place.width, head, HEAD, bold=True, gid="group")
        for one in seen[: len(kept)]:
            left, top, goes_on = next(at)
            if goes_on:
                page.paragraph(left, place.top, place.width, head, HEAD, bold=True, gid="goes on")
            _swatch(page, found, one, Box(left, top, _column(place), chip[1]), chip[0])
        if more:
            left, top, _ = next(at)
            told = f"{more}: see the list"
            page.paragraph(left, top, _column(place), told, TEXT, gid="more")


def _column(place: Box) -> float:
    return (place.width - GUTTER * (COLUMNS - 1)) / COLUMNS


def _placed(
    shown: Sequence[tuple[Sequence[str], str]], place: Box, high: float
) -> list[tuple[float, float, bool]] | None:
    """Left and top of each head, swatch and count, column by column; None if there is no room.

    And whether its group goes on there below its head once more. Swatches are ``high`` mm. A
    head is never the last of its column.
    """
    spots: list[tuple[float, float, bool]] = []
    left, top, column = place.left, place.top, 0
    head, count = line_height(HEAD) + 1.2, line_height(TEXT) + 1
    for rows, more in shown:
        heights = [head, *(high + CHIP_AIR for _ in rows), *([count] if more else [])]
        for i, tall in enumerate(heights):
            needs = tall + (heights[1] if i == 0 and len(heights) > 1 else 0)
            goes_on = i > 0 and top + needs > place.foot
            if top + needs > place.foot:
                left, column = left + _column(place) + GUTTER, column + 1
                top = place.top + (head if goes_on else 0.0)
                if column == COLUMNS or top + needs > place.foot:
                    return None
            spots.append((left, top, goes_on))
            top += tall
        top += 1.5
    return spots


def _swatch(page: Page, found: Board, one: Seen, place: Box, wide: float) -> None:
    """The chip, the name, and how it sits with the lead."""
    page.bar(Box(place.left, place.top, wide, place.height), one.hex, page.style.edge, 0.5)
    left, width = place.left + wide + 2.5, place.width - wide - 2.5
    page.write(left, place.top + ascent(TEXT), _cut(one.swatch.name, width), TEXT, gid="swatch")
    high = line_height(TEXT)
    lines = list(wrapped(short_words(found, one), TEXT, width / MM_PER_POINT))
    most = max(int(place.height / high) - 1, 1)
    if len(lines) > most:
        lines[most - 1 :] = [_cut(" ".join(lines[most - 1 :]), width)]
    for number, line in enumerate(lines, 1):
        y = place.top + number * high + ascent(TEXT)
        page.write(left, y, line, TEXT, colour=page.style.quiet, gid="sits")
