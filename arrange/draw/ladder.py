"""The chart of a ladder of sizes: score over size, beside the plan of the largest that works."""

from __future__ import annotations

from itertools import pairwise

from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import points
from arrange.data.result import Gap
from arrange.data.scenario import Scenario
from arrange.data.sizes import Ladder, Largest, Rung
from arrange.draw.floor import ways
from arrange.draw.page import (
    MARGIN,
    Box,
    Page,
    ascent,
    line_height,
    text_height,
    text_width,
)
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import draw_to_scale, usual_key
from arrange.draw.style import LEAST, MM_PER_POINT, STYLE, Style
from arrange.draw.text import as_sentence, wrapped
from arrange.judge import judge
from arrange.whatif.ladder import in_size
from arrange.words.sizes import ladder_words, largest_words, meaning, outside, scale_words

PLAN = 112.0  # width in mm of the plan beside the chart
GUTTER = 10.0
TEXT, SMALL = 8.5, LEAST
GRID = (0, 250, 500, 750, 1000)  # tenths of a point
WIDEST = 15.0  # mm; a bar is no wider
LONGEST_LABEL = 30.0  # mm that upright names of sizes may take
HATCH = "////"
UNSCORED = (
    "The plan shows one way that works, which need not be the best with that size: arrange swap "
    "finds the best."
)


def ladder_sheet(ladder: Ladder, *, style: Style = STYLE) -> Figure:
    """The whole answer on a landscape sheet (297 x 210 mm).

    Works comfortably, works, impossible and not decided differ by shape and shade. A score
    that is not proven best has a plus behind it. The plan is that of the largest that
    works, if one is known.
    """
    page = Page(style)
    best = ladder.largest
    title = f"{ladder.scenario.title}: {ladder.piece} in {ladder.table.title}"
    top = _answer(page, title, " ".join(ladder_words(ladder)))
    foot = _notes(page, ladder, page.inner)
    shown = best is not None and best.arrangement is not None
    width = page.inner - PLAN - GUTTER if shown else page.inner
    _chart(page, ladder, Box(MARGIN, top + 5, width, foot - top - 8))
    if best is not None and shown:
        _plan(page, ladder, best, Box(page.width - MARGIN - PLAN, top + 5, PLAN, foot - top - 12))
    return page.figure


def largest_sheet(found: Largest, *, style: Style = STYLE) -> Figure:
    """The plan that shows the largest size, under the answer. ValueError if there is none."""
    scenario, arrangement = found.scenario, found.arrangement
    if scenario is None or arrangement is None:
        raise ValueError("no arrangement was found")
    page = Page(style)
    top = _answer(page, scenario.title, f"{largest_words(found, scenario)} {UNSCORED}")
    gaps = judge(scenario, arrangement).gaps
    _draw_plan(page, scenario, arrangement, gaps, page.below(top + 4))
    return page.figure


def _answer(page: Page, title: str, words: str) -> float:
    """Title and answer across the page; returns the top of what follows."""
    top = page.title(title, MARGIN, MARGIN, page.inner) + 1.5
    return page.paragraph(MARGIN, top, page.inner, words, TEXT, gid="answer")


def _notes(page: Page, ladder: Ladder, wide: float) -> float:
    """Definitions and assumptions at the foot; returns where they begin."""
    told = (meaning(ladder), scale_words(ladder), *ladder.table.notes)
    texts = [as_sentence(text) for text in told if text]
    height = sum(text_height(text, SMALL, wide) for text in texts)
    top = start = page.height - MARGIN - height
    for text in texts:
        top = page.paragraph(MARGIN, top, wide, text, SMALL, colour=page.style.quiet, gid="note")
    return start


def _plan(page: Page, ladder: Ladder, rung: Rung, place: Box) -> None:
    if rung.arrangement is None or rung.verdict is None:
        return
    scenario = in_size(ladder.scenario, ladder.piece, rung.size)
    size = outside(rung, scenario.unit)
    said = size if rung.size.label in size else f"{rung.size.label}, {size} in all"
    score = points(rung.verdict.score)
    above = ladder.rungs[ladder.rungs.index(rung) + 1 :]
    known = any(r.works == "not decided" for r in above)
    first = "The largest known to work" if known else "The largest that works"
    words = f"{first}: {said}. {score} of 100 points"
    words += "." if rung.proven else " so far; there may be a better plan."
    top = page.paragraph(place.left, place.top, place.width, words, TEXT, bold=True, gid="shown")
    room = Box(place.left, top + 3, place.width, place.height - (top - place.top) - 3)
    _draw_plan(page, scenario, rung.arrangement, rung.verdict.gaps, room)


def _draw_plan(
    page: Page, scenario: Scenario, arrangement: Arrangement, gaps: tuple[Gap, ...], place: Box
) -> None:
    options = PlanOptions(gaps, walkway=ways(scenario, arrangement))
    draw_to_scale(page, scenario, arrangement, place, options, usual_key(scenario))


def _chart(page: Page, ladder: Ladder, place: Box) -> None:
    """Bars over the sizes, names below them, and below those what the shapes mean."""
    slot = (place.width - 10) / len(ladder.rungs)
    upright = any(text_width(_longest(r), SMALL) > slot - 1 for r in ladder.rungs)
    below = _label_height(ladder, slot, upright)
    bars = Box(place.left + 10, place.top + 6, place.width - 10, place.height - below - 20)
    page.write(place.left, place.top + 2, "Best score, points of 100", SMALL, gid="axis")
    for tenths in GRID:
        y = _height(bars, tenths)
        page.rule(bars.left, y, bars.width)
        text = str(tenths // 10)
        page.write(bars.left - 1.5, y + 0.8, text, SMALL, align="right", colour=page.style.quiet)
    for i, rung in enumerate(ladder.rungs):
        middle = bars.left + (i + 0.5) * slot
        _bar(page, rung, bars, middle, min(WIDEST, slot * 0.62))
        _label(page, rung, middle, bars.top + bars.height + 2, slot, upright)
    _fall(page, ladder, bars, slot)
    for i, (one, two) in enumerate(pairwise(ladder.rungs)):
        if one.scale != two.scale:
            _divide(page, bars, bars.left + (i + 1) * slot)
    _legend(page, ladder, place.left, place.top + place.height - 7, place.width)


def _divide(page: Page, bars: Box, x: float) -> None:
    """A broken line between sizes whose scores are on two scales."""
    ends = [bars.top, bars.top + bars.height + 2]
    page.ax.plot([x, x], ends, color=page.style.fine, linewidth=0.8, linestyle="--", gid="scale")


def _height(bars: Box, tenths: int) -> float:
    return bars.top + bars.height * (1 - tenths / 1000)


def _bar(page: Page, rung: Rung, bars: Box, middle: float, width: float) -> None:
    base, style = bars.top + bars.height, page.style
    if rung.score is None:
        _sign(page, _told(rung), middle, base - 4)
        return
    top = _height(bars, rung.score)
    _swatch(page, _sort(rung), Box(middle - width / 2, top, width, base - top))
    text = points(rung.score) + ("" if rung.proven else "+")
    # Bars take about two thirds of their slots; scores that would touch stand on end.
    if text_width(text, LEAST, bold=True) <= width * 1.5:
        page.write(middle, top - 1.2, text, LEAST, align="center", bold=True, gid="score")
    else:
        x = middle + ascent(LEAST) / 2 - 0.3
        page.write(x, top - 1.2, text, LEAST, bold=True, angle=90.0, gid="score")
    if rung.comfortable == "not decided":
        page.ax.plot(
            [middle], [base - 3.2], marker="o", markersize=13.0, color=style.paper, zorder=4
        )
        page.write(middle, base - 2, "?", 10.0, align="center", bold=True, colour=style.edge)
        page.ax.texts[-1].set_zorder(5)


def _sort(rung: Rung) -> str:
    return "comfortable" if rung.comfortable == "works" else "works"


def _swatch(page: Page, sort: str, box: Box) -> None:
    """A dark bar with a dot for what is comfortable, a pale hatched one for what works."""
    style = page.style
    dark = sort == "comfortable"
    page.ax.add_patch(
        Rectangle(
            (box.left, box.top),
            box.width,
            box.height,
            facecolor=style.accent if dark else style.paper,
            edgecolor=style.edge if dark else style.line,
            hatch="" if dark else HATCH,
            linewidth=0.8,
            gid=f"bar {sort}",
            zorder=3,
        )
    )
    if dark:
        page.ax.plot(
            [box.left + box.width / 2],
            [box.top + box.height - min(3.0, box.height / 2)],
            marker="o",
            markersize=min(5.0, box.height),
            color=style.paper,
            linestyle="none",
            zorder=4,
        )


def _sign(page: Page, sort: str, x: float, y: float) -> None:
    """A cross for impossible, a question mark for not decided."""
    if sort == "impossible":
        marker = {"marker": "x", "markersize": 9.0, "markeredgewidth": 2.2}
        page.ax.plot([x], [y], color=page.style.edge, linestyle="none", gid=sort, **marker)  # type: ignore[arg-type]
    else:
        page.write(x, y + 1.8, "?", 14.0, align="center", bold=True, gid=sort)


def _longest(rung: Rung) -> str:
    return max(rung.size.label.split(), key=len)


def _label_height(ladder: Ladder, slot: float, upright: bool) -> float:
    if upright:
        longest = max(text_width(r.size.label, SMALL) for r in ladder.rungs)
        return min(LONGEST_LABEL, longest)
    return max(
        len(wrapped(r.size.label, SMALL, (slot - 1) / MM_PER_POINT)) for r in ladder.rungs
    ) * line_height(SMALL)


def _label(page: Page, rung: Rung, middle: float, top: float, slot: float, upright: bool) -> None:
    """The name of the size, below its bar; on end where the slots are narrow."""
    if upright:
        x = middle + ascent(SMALL) / 2 - 0.3
        page.write(x, top, rung.size.label, SMALL, align="right", gid="size", angle=90.0)
        return
    for line in wrapped(rung.size.label, SMALL, (slot - 1) / MM_PER_POINT):
        top += line_height(SMALL)
        page.write(middle, top - 1, line, SMALL, align="center", gid="size")


def _fall(page: Page, ladder: Ladder, bars: Box, slot: float) -> None:
    """An arrow from the one score down to the other, where the loss is biggest."""
    fall = ladder.fall
    if fall is None:
        return
    at = [ladder.rungs.index(r) for r in (fall.before, fall.after)]
    x = bars.left + (at[1] + 0.5) * slot
    high, low = (_height(bars, r.score or 0) for r in (fall.before, fall.after))
    start = bars.left + (at[0] + 0.5) * slot + min(WIDEST, slot * 0.62) / 2
    page.ax.plot([start, x], [high, high], color=page.style.loss, linewidth=0.8, linestyle=":")
    said = f"-{points(fall.loss)}" if fall.sure else f"-{points(fall.loss)} or more"
    page.write(x, min(high, low - 4.2) - 1, said, 7.0, align="center", colour=page.style.loss)


def _told(rung: Rung) -> str:
    """By what a size is shown: a bar or a sign."""
    if rung.score is not None:
        return _sort(rung)
    return "impossible" if rung.works == "impossible" else "not decided"


def _legend(page: Page, ladder: Ladder, left: float, top: float, wide: float) -> None:
    entries = [
        ("comfortable", "works comfortably"),
        ("works", "works"),
        ("impossible", "impossible (proven)"),
        ("not decided", "not decided in the time"),
    ]
    there = {_told(rung) for rung in ladder.rungs}
    there |= {"not decided" for rung in ladder.rungs if rung.comfortable == "not decided"}
    x = left
    for sort, text in [one for one in entries if one[0] in there]:
        if sort in ("comfortable", "works"):
            _swatch(page, sort, Box(x, top, 5, 4))
        else:
            _sign(page, sort, x + 2.5, top + 2)
        page.write(x + 7, top + 3, text, SMALL)
        x += 11 + text_width(text, SMALL)
        if x > left + wide:
            break
    unsure = any(rung.score is not None and not rung.proven for rung in ladder.rungs)
    told = "+ after a score: there may be a better plan." if unsure else ""
    if len({r.scale for r in ladder.rungs}) > 1:
        told += " Broken line: scores on either side cannot be compared."
    page.write(left, top + 7, told.strip(), SMALL, colour=page.style.quiet)
