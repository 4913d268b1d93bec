"""A plan to scale on the paper a person has, as one file to print.

The first page says how, with a bar to measure. Then come the empty room, the plan with its
dimensions, and the pieces to cut out, all at one scale. Lengths in mm of paper.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from arrange.data.arrangement import Arrangement
from arrange.data.room import Room
from arrange.data.scenario import Scenario, Unit
from arrange.draw.cutouts import CutOuts, cut_outs, draw_cut_outs
from arrange.draw.page import Bit, Box, Page, ascent
from arrange.draw.plan import (
    FULL_MARGINS,
    Margins,
    PlanOptions,
    draw_plan,
    drawn_extent,
    make_board,
)
from arrange.draw.setting_out import measures
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.survey import MARGINS, draw_measured
from arrange.draw.tiles import NOTE, SIDE, Drawing, Heading, Paper, Tiling, sheets, tiled
from arrange.errors import ArrangeError
from arrange.geometry.scene import Scene
from arrange.whatif.setting_out import setting_out

SCALES = ((20, 25), (24,))  # in metres, and in feet and inches; the next one is the smallest
SMALLEST = 50
BOTH = (MARGINS, FULL_MARGINS)  # round the empty room, and round the plan
BAR = 100.0  # to check the printer by
MOST = 1_000_000.0  # mm2 of one drawing, as large as A0
SIZE = 10.0  # points
NUMBER = 8.0  # indent
Sketch = Callable[[Page, float, float], float]  # left and top, in mm; returns its foot


class PaperError(ArrangeError, ValueError):
    """A drawing to scale would take more paper than anybody glues together."""


@dataclass(frozen=True, slots=True)
class Print:
    """What is printed, laid out on sheets.

    ``arrangement`` is None where there is no plan yet, else number ``rank`` of its run.
    """

    scenario: Scenario
    arrangement: Arrangement | None
    rank: int
    ratio: int
    paper: Paper
    room: Tiling
    plan: Tiling
    cuts: tuple[CutOuts, ...]

    @property
    def parts(self) -> tuple[tuple[str, int], ...]:
        """What comes after the first page, and how many pages of it."""
        plans = [("the plan with its dimensions", self.plan.sheets)] if self.arrangement else []
        pieces = sum(one.tiling.sheets for one in self.cuts)
        cuts = [("the pieces to cut out", pieces)] if pieces else []
        return (("the empty room", self.room.sheets), *plans, *cuts)

    @property
    def pages(self) -> int:
        """How many in all."""
        return 1 + sum(count for _, count in self.parts)

    @property
    def joined(self) -> bool:
        """Whether sheets are to be glued together."""
        tilings = [self.room, self.plan, *(one.tiling for one in self.cuts)]
        return any(tiling.sheets > 1 for tiling in tilings)

    @property
    def note(self) -> str:
        """The scale and the paper.

        A scale of half an inch to the foot is told as such, too.
        """
        return f"{scale_words(self.ratio)} on {self.paper.name}, printed at 100%"


def scale_words(ratio: int) -> str:
    """A scale as it is called.

    >>> scale_words(50), scale_words(24)
    ('1:50', '1:24 (1/2 in = 1 ft)')
    """
    return f"1:{ratio} (1/2 in = 1 ft)" if ratio == 24 else f"1:{ratio}"


def usual_scale(scenario: Scenario, paper: Paper) -> int:
    """The largest scale at which the room is on one sheet, else the smallest there is."""
    for ratio in SCALES[scenario.unit == "in"]:
        drawn = (tiled(paper, *_needed(scenario.room, ratio, margins)) for margins in BOTH)
        if all(tiling.sheets == 1 for tiling in drawn):
            return ratio
    return SMALLEST


def laid_out(
    scenario: Scenario,
    arrangement: Arrangement | None,
    ratio: int,
    paper: Paper,
    rank: int = 1,
) -> Print:
    """Everything on as few sheets as will do.

    Raises
    ------
    PaperError
        If the room takes more than a square metre of paper.
    """
    room, plan = (tiled(paper, *_needed(scenario.room, ratio, margins)) for margins in BOTH)
    wide, high = room.width, room.height
    if wide * high > MOST:
        size = f"{wide / 1000:.1f} x {high / 1000:.1f} m"
        raise PaperError(f"at 1:{ratio} this room takes {room.sheets} sheets, {size} of paper")
    return Print(
        scenario, arrangement, rank, ratio, paper, room, plan, cut_outs(scenario, ratio, paper)
    )


def _needed(room: Room, ratio: int, margins: Margins, style: Style = STYLE) -> tuple[float, float]:
    """Width and height of a drawing of the room with its margins."""
    x0, y0, x1, y1 = drawn_extent(room, style.wall).bounds
    left, below, right, above = margins
    return (
        float(x1 - x0) / ratio + (left + right) * MM_PER_POINT,
        float(y1 - y0) / ratio + (below + above) * MM_PER_POINT,
    )


def printed_pages(printed: Print, *, style: Style = STYLE) -> Iterator[Figure]:
    """Every page; each is to be saved before the next one is asked for (see ``sheets``)."""
    yield _how_to(printed, style)
    first = 2
    for tiling, what, draw in _drawings(printed, style):
        heading = Heading(printed.scenario.title, what, printed.note, first, printed.pages)
        yield from sheets(tiling, heading, draw, style)
        first += tiling.sheets


def _drawings(printed: Print, style: Style) -> Iterator[tuple[Tiling, str, Drawing]]:
    yield printed.room, "the empty room", partial(_draw_room, printed, style)
    if printed.arrangement is not None:
        draw = partial(_draw_arranged, printed, printed.arrangement, style)
        which = f", arrangement {printed.rank}" if printed.rank > 1 else ""
        yield printed.plan, f"the plan{which}", draw
    for number, sheet in enumerate(printed.cuts, 1):
        which = f", sheet {number} of {len(printed.cuts)}" if len(printed.cuts) > 1 else ""
        draw_all = partial(_draw_pieces, printed, sheet, style)
        yield sheet.tiling, f"the pieces to cut out{which}", draw_all


def _draw_room(printed: Print, style: Style, ax: Axes) -> None:
    scenario = printed.scenario
    board = make_board(ax, scenario.room, style, MARGINS, printed.ratio)
    note = scale_words(printed.ratio)
    draw_measured(board, scenario.room, scenario.unit, note, numbered=False)


def _draw_arranged(printed: Print, arrangement: Arrangement, style: Style, ax: Axes) -> None:
    scenario = printed.scenario
    board = make_board(ax, scenario.room, style, FULL_MARGINS, printed.ratio)
    gaps = measures(Scene(scenario, arrangement), setting_out(scenario, arrangement))
    options = PlanOptions(gaps, "near", clearances=False, note=scale_words(printed.ratio))
    draw_plan(board, scenario, arrangement, options)


def _draw_pieces(printed: Print, sheet: CutOuts, style: Style, ax: Axes) -> None:
    draw_cut_outs(ax, printed.scenario, sheet, printed.ratio, style)


def _how_to(printed: Print, style: Style) -> Figure:
    """What is in the file, how it is printed, and the bars that tell whether it came out right."""
    page = Page(style, *printed.paper.size(landscape=True))
    width = page.width - 2 * SIDE
    scale = scale_words(printed.ratio)
    top = page.title(f"{printed.scenario.title} on paper, {scale}", SIDE, SIDE, width) + 1.5
    for line in (_length_words(printed.ratio, printed.scenario.unit), _contents(printed)):
        top = page.paragraph(SIDE, top, width, line, SIZE, colour=style.quiet, gid="contents") + 0.8
    top += 4.5
    upright = page.width - SIDE - 22.0
    foot = page.height - SIDE - 4.0
    _bar(page, (upright, foot - BAR), (upright, foot))
    for number, (step, text, sketch) in enumerate(_steps(printed), 1):
        left, room = SIDE + NUMBER, upright - SIDE - NUMBER - 16.0
        page.row(SIDE, top + ascent(SIZE + 1), Bit(str(number), SIZE + 1, style.accent, bold=True))
        top = page.paragraph(left, top, room, step, SIZE + 1, bold=True, gid="step") + 0.8
        top = page.paragraph(left, top, room, text, SIZE, gid="step:text") + 1.0
        top = sketch(page, left, top + 2.0) + 5.0
    return page.figure


def _contents(printed: Print) -> str:
    """Which pages hold what."""
    first, told = 2, []
    for what, count in printed.parts:
        last = first + count - 1
        which = (
            f"pages {first} {'to' if count > 2 else 'and'} {last}" if count > 1 else f"page {first}"
        )
        told.append(f"{what} ({which})")
        first = last + 1
    listed = f"{', '.join(told[:-1])} and {told[-1]}" if len(told) > 1 else told[0]
    return f"In this file: {listed}."


def _length_words(ratio: int, unit: Unit) -> str:
    """What a length on paper is in the room.

    >>> _length_words(25, "cm"), _length_words(24, "in")
    ('1 cm on paper is 25 cm in the room.', 'Half an inch on paper is a foot in the room.')
    """
    if ratio == 24:
        return "Half an inch on paper is a foot in the room."
    word = "in" if unit == "in" else "cm"
    return f"1 {word} on paper is {ratio} {word} in the room."


def _steps(printed: Print) -> Iterator[tuple[str, str, Sketch]]:
    """What to do, how, and what to draw below it."""
    yield (
        f"Print on {printed.paper.name}, at 100%",
        'Printers call this "actual size" or "no scaling". Never "fit to page": everything would '
        "come out too small.",
        _nothing,
    )
    yield (
        "Measure both bars on this page",
        "Each must be 100 mm long (3 15/16 in). If not, the printer has changed the size: set it "
        "to 100% and print again.",
        _level_bar,
    )
    if printed.joined:
        yield (
            "Join the sheets that belong together",
            "Cut off the left margin of each sheet from column 2 on, and the upper margin from "
            "row 2 on, from corner mark to corner mark. Lay the cut edge on the dashed line of "
            "the sheet before it, and glue.",
            _joining,
        )
    if printed.cuts:
        yield (
            "Cut out the pieces and push them about on the empty room",
            "The black triangle is the middle of a piece's front. Where a name stands beneath "
            "a small piece, write it on the back before you cut.",
            _cutting,
        )


def _nothing(_: Page, __: float, top: float) -> float:
    return top - 2.0


def _level_bar(page: Page, left: float, top: float) -> float:
    _bar(page, (left, top + 4.0), (left + BAR, top + 4.0))
    return top + 11.0


def _joining(page: Page, left: float, top: float) -> float:
    """Two sheets side by side: what is cut off the second, and where it goes on the first."""
    style, wide, high, edge = page.style, 34.0, 23.0, 3.0
    second = left + wide + 16.0
    for start, told in ((left, "column 1"), (second, "column 2")):
        page.bar(Box(start, top, wide, high), style.paper, style.fine, 0.6)
        middle = start + wide / 2
        page.write(middle, top + high / 2 + 1, told, NOTE, colour=style.quiet, align="center")
    page.bar(Box(second, top, edge, high), style.hatch, style.fine, 0.6)
    strip = left + wide - edge - 5.0
    page.ax.plot((strip, strip), (top, top + high), color=style.accent, lw=0.8, dashes=(5, 4))
    onto, off = (strip, top + 5.0), (second + edge, top + 5.0)
    arrow = {"arrowstyle": "->", "color": style.accent, "lw": 0.9, "shrinkA": 0, "shrinkB": 0}
    page.ax.annotate("", xy=onto, xytext=off, arrowprops=arrow)
    told = "grey: cut off; arrow: where the cut edge goes"
    page.write(second + wide + 6.0, top + high / 2 + 1, told, NOTE, colour=style.quiet)
    return top + high


def _cutting(page: Page, left: float, top: float) -> float:
    """A piece with the floor it needs, and what cutting along either line gives."""
    style, wide, deep, free = page.style, 34.0, 13.0, 8.0
    page.bar(Box(left, top, wide, deep), style.tints["sit"], style.edge, 1.0)
    foot, middle = top + deep, left + wide / 2
    corners = [(middle - 1.6, foot - 2.4), (middle + 1.6, foot - 2.4), (middle, foot)]
    page.ax.add_patch(Polygon(corners, fc=style.edge, ec="none"))
    page.write(middle, top + 6.5, "armchair", NOTE, align="center")
    around = [(left, foot), (left, foot + free), (left + wide, foot + free), (left + wide, foot)]
    page.ax.plot(*zip(*around, strict=True), color=style.accent, lw=0.8, dashes=(5, 3))
    for down, told in (
        (deep / 2, "solid line: the piece by itself"),
        (deep + free / 2, "dashed line: floor it needs to be used; leave it on, or keep it free"),
    ):
        y = top + down
        page.ax.plot((left + wide, left + wide + 5.0), (y, y), color=style.quiet, lw=0.5)
        page.write(left + wide + 6.0, y + 1.0, told, NOTE, colour=style.quiet)
    return foot + free


def _bar(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A line of 100 mm with a stroke at every centimetre, longer ones at its ends."""
    (x0, y0), (x1, y1) = start, end
    across = x1 > x0
    ink = page.style.edge
    page.ax.plot((x0, x1), (y0, y1), color=ink, linewidth=0.8, solid_capstyle="butt", gid="bar")
    for i in range(11):
        long = 3.0 if i in (0, 10) else 1.5
        x, y = x0 + (x1 - x0) * i / 10, y0 + (y1 - y0) * i / 10
        xs, ys = ((x, x), (y - long, y + long)) if across else ((x - long, x + long), (y, y))
        page.ax.plot(xs, ys, color=ink, linewidth=0.5, solid_capstyle="butt", gid="bar:tick")
    told, middle = "100 mm", ((x0 + x1) / 2, (y0 + y1) / 2)
    if across:
        page.write(middle[0], y0 + 6.5, told, SIZE - 1, align="center", gid="bar:text")
    else:
        page.write(x0 + 7.0, middle[1], told, SIZE - 1, align="center", gid="bar:text", angle=90.0)
