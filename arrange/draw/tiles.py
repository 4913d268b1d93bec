"""Paper for drawings to scale: what of it is drawn on, and how sheets are joined to a larger one.

Each sheet shows a window on the drawing, with crop marks at its corners. The windows of
neighbours overlap by a strip that the one is glued onto. Lengths in mm of paper.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.transforms import Bbox, TransformedBbox

from arrange.draw.page import Bit, Box, Page, fitting_size, text_width
from arrange.draw.style import Style

OVERLAP = 10.0
SIDE, HEAD, FOOT = 13.0, 24.0, 14.0  # round the window
MARK, OFF = 5.0, 1.5  # length of a crop mark, and how far it stays off the window
TITLE, NOTE = 11.0, 8.0  # points
MAP = 14.0  # the small map of the sheets is no wider
Drawing = Callable[[Axes], object]


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet that printers take."""

    name: str
    short: float
    long: float

    def size(self, landscape: bool) -> tuple[float, float]:
        """Width and height."""
        return (self.long, self.short) if landscape else (self.short, self.long)


# ISO 216; Letter is 8 1/2 x 11 in.
PAPERS = {
    "A4": Paper("A4", 210.0, 297.0),
    "A3": Paper("A3", 297.0, 420.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}


@dataclass(frozen=True, slots=True)
class Tiling:
    """So many columns and rows of sheets for a drawing of ``width`` x ``height``."""

    paper: Paper
    landscape: bool
    columns: int
    rows: int
    width: float
    height: float

    @property
    def page(self) -> tuple[float, float]:
        """Width and height of a sheet."""
        return self.paper.size(self.landscape)

    @property
    def window(self) -> Box:
        """What of a sheet is drawn on."""
        return window_of(self.paper, self.landscape)

    @property
    def sheets(self) -> int:
        """How many there are."""
        return self.columns * self.rows

    def board(self, row: int, column: int) -> Box:
        """Where the whole drawing lies about the sheet in that place, both counted from 0."""
        window = self.window
        left = window.left - column * (window.width - OVERLAP)
        top = window.top - row * (window.height - OVERLAP)
        return Box(left, top, self.width, self.height)

    def place_words(self, row: int, column: int) -> str:
        """Which of the sheets it is.

        >>> Tiling(PAPERS["A4"], True, 3, 2, 500.0, 300.0).place_words(0, 1)
        'row 1 of 2, column 2 of 3'
        """
        rows = [f"row {row + 1} of {self.rows}"] if self.rows > 1 else []
        columns = [f"column {column + 1} of {self.columns}"] if self.columns > 1 else []
        return ", ".join(rows + columns)


def window_of(paper: Paper, landscape: bool) -> Box:
    """What of a sheet is drawn on."""
    width, height = paper.size(landscape)
    return Box(SIDE, HEAD, width - 2 * SIDE, height - HEAD - FOOT)


def tiled(paper: Paper, width: float, height: float) -> Tiling:
    """The fewest sheets that a drawing of that size fits on; as it lies where both ways do alike.

    Where one sheet is enough for the width or the height, the drawing gets all of it.
    """
    found = []
    for landscape in (width >= height, width < height):
        window = window_of(paper, landscape)
        columns, rows = _sheets(width, window.width), _sheets(height, window.height)
        wide = width if columns > 1 else window.width
        high = height if rows > 1 else window.height
        found.append(Tiling(paper, landscape, columns, rows, wide, high))
    return min(found, key=lambda tiling: tiling.sheets)


def _sheets(length: float, window: float) -> int:
    """How many windows it takes with their overlaps."""
    return max(1, math.ceil((length - OVERLAP) / (window - OVERLAP) - 1e-9))


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands above every sheet of a drawing; ``first`` is its first page of ``pages``.

    ``what`` is drawn, of the room called ``title``.
    """

    title: str
    what: str
    note: str
    first: int
    pages: int


def sheets(tiling: Tiling, heading: Heading, draw: Drawing, style: Style) -> Iterator[Figure]:
    """One drawing sheet by sheet, row by row: ``draw`` is given axes that hold all of it.

    It is drawn once, and moved on under the window. So every sheet is the same figure,
    and is to be saved before the next one is asked for.
    """
    page = Page(style, *tiling.page)
    axes = page.axes(tiling.board(0, 0))
    draw(axes)
    _clip(axes, page, tiling.window)
    page.ax.set_zorder(1)
    for number in range(tiling.sheets):
        row, column = divmod(number, tiling.columns)
        _move(axes, page, tiling.board(row, column))
        _wipe(page)
        _head(page, tiling, row, column, heading)
        _crop_marks(page, tiling.window)
        _glue(page, tiling, row, column)
        yield page.figure


def _move(axes: Axes, page: Page, box: Box) -> None:
    bottom = 1 - (box.top + box.height) / page.height
    wide, high = box.width / page.width, box.height / page.height
    axes.set_position((box.left / page.width, bottom, wide, high))


def _clip(axes: Axes, page: Page, window: Box) -> None:
    """Let nothing be seen outside the window, wherever the axes are."""
    bottom = 1 - (window.top + window.height) / page.height
    part = Bbox.from_bounds(
        window.left / page.width, bottom, window.width / page.width, window.height / page.height
    )
    seen = TransformedBbox(part, page.figure.transFigure)
    for artist in (*axes.patches, *axes.collections, *axes.lines, *axes.texts):
        artist.set_clip_path(None)
        artist.set_clip_box(seen)
        artist.set_clip_on(True)


def _wipe(page: Page) -> None:
    for artist in (*page.ax.patches, *page.ax.lines, *page.ax.texts):
        artist.remove()


def _head(page: Page, tiling: Tiling, row: int, column: int, heading: Heading) -> None:
    """What is drawn, at which scale, and which sheet of it this is."""
    left, right, quiet = SIDE, page.width - SIDE, page.style.quiet
    number = heading.first + row * tiling.columns + column
    count = f"page {number} of {heading.pages}"
    page.write(right, 11.0, count, NOTE, colour=quiet, align="right", gid="page")
    right -= text_width(count, NOTE) + 4.0
    room = right - left - MAP - 4.0
    title = f"{heading.title}: {heading.what}"
    if text_width(title, NOTE, bold=True) > room:
        title = f"{heading.what[:1].upper()}{heading.what[1:]}"  # the first page has the rest
    size = fitting_size(title, TITLE, NOTE, room, bold=True)
    page.write(left, 11.0, title, size, bold=True, gid="title")
    told = Bit(heading.note, NOTE, quiet, gid="note")
    if tiling.sheets == 1:
        page.row(left, 16.0, told)
        return
    place = Bit(tiling.place_words(row, column), NOTE, bold=True, gid="place")
    page.row(left, 16.0, place, told)
    _map(page, tiling, row, column, right)


def _map(page: Page, tiling: Tiling, row: int, column: int, right: float) -> None:
    """All sheets as small boxes that end at ``right``, this one filled."""
    width, height = tiling.page
    wide = min(MAP / tiling.columns, 9.0 / tiling.rows * width / height)
    high = wide * height / width
    left, style = right - wide * tiling.columns, page.style
    for other in range(tiling.sheets):
        at = divmod(other, tiling.columns)
        box = Box(left + at[1] * wide, 7.0 + at[0] * high, wide, high)
        page.bar(box, style.cut if at == (row, column) else style.paper, style.cut, 0.5)


def _crop_marks(page: Page, window: Box) -> None:
    for x, out_x in ((window.left, -1), (window.left + window.width, 1)):
        for y, out_y in ((window.top, -1), (window.top + window.height, 1)):
            _stroke(page, (x + out_x * OFF, x + out_x * (OFF + MARK)), (y, y))
            _stroke(page, (x, x), (y + out_y * OFF, y + out_y * (OFF + MARK)))


def _stroke(page: Page, xs: tuple[float, float], ys: tuple[float, float]) -> None:
    page.ax.plot(xs, ys, color=page.style.edge, linewidth=0.5, solid_capstyle="butt", gid="crop")


def _glue(page: Page, tiling: Tiling, row: int, column: int) -> None:
    """A dashed line where the edge of the next sheet comes to lie, and what to do there."""
    window, style = tiling.window, page.style
    right, foot = window.left + window.width, window.top + window.height

    def dashed(xs: tuple[float, float], ys: tuple[float, float]) -> None:
        page.ax.plot(xs, ys, color=style.accent, linewidth=0.6, dashes=(5, 4), gid="glue")

    if column + 1 < tiling.columns:
        dashed((right - OVERLAP, right - OVERLAP), (window.top, foot))
        told = f"glue column {column + 2} onto this strip, its cut edge on the dashed line"
        _tell(page, right + 5.5, window.top + window.height / 2, told, 90.0)
    if row + 1 < tiling.rows:
        dashed((window.left, right), (foot - OVERLAP, foot - OVERLAP))
        told = f"glue row {row + 2} onto this strip, its cut edge on the dashed line"
        _tell(page, window.left + window.width / 2, foot + 5.0, told, 0.0)


def _tell(page: Page, x: float, y: float, text: str, angle: float) -> None:
    colour = page.style.accent
    page.write(x, y, text, NOTE, colour=colour, align="center", gid="glue:text", angle=angle)
