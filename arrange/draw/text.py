"""How much room a text takes on paper, in points, and how to break it into lines.

A sheet of paper to write on, measured in mm from its upper left corner.

One sheet, one way to write metres: with three decimals if any of them needs it.

The written column of the survey sheet: messages, facts of the room, list of pieces.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache, wraps
from typing import ParamSpec

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from arrange.data.lengths import length, metres_to_the_millimetre, retold
from arrange.data.piece import Piece
from arrange.data.result import Suggestion
from arrange.data.scenario import Scenario, Unit
from arrange.draw.style import FONT, MM_PER_POINT, STYLE, Style
from arrange.geometry.shapes import room_shape

LINE_SPACING = 1.12
SPACE = 0.42  # about how wide a space is with the air of its neighbours, in text sizes
_FINE = 4  # measure on a raster four times finer than a point


@lru_cache(maxsize=1)
def _ruler() -> tuple[Text, FigureCanvasAgg]:
    figure = Figure(dpi=72 * _FINE)
    canvas = FigureCanvasAgg(figure)
    text = figure.text(0, 0, "", parse_math=False, linespacing=LINE_SPACING)
    return text, canvas


@lru_cache(maxsize=32)
def font(size: float, bold: bool = False) -> FontProperties:
    """Our font at ``size`` points."""
    return FontProperties(family=FONT, size=size, weight="bold" if bold else "normal")


@lru_cache(maxsize=16384)
def _at_ten(text: str, bold: bool) -> tuple[float, float]:
    ruler, canvas = _ruler()
    ruler.set_fontproperties(font(10.0, bold))
    ruler.set_text(text)
    hinting = mpl.rcParams["text.hinting"]
    try:
        # Not rc_context: it copies every setting, which takes longer than to measure.
        mpl.rcParams["text.hinting"] = "none"
        with warnings.catch_warnings():
            warnings.filterwarnings("ignore", message=".*[Gg]lyph")
            # matplotlib leaves this one function without types.
            box = ruler.get_window_extent(canvas.get_renderer())  # type: ignore[no-untyped-call]
    finally:
        mpl.rcParams["text.hinting"] = hinting
    return float(box.width) / _FINE, float(box.height) / _FINE


def extent(text: str, size: float, bold: bool = False) -> tuple[float, float]:
    """Width and height in points of ``text``; lines are parted by newlines."""
    if not text:
        return 0.0, 0.0
    width, height = _at_ten(retold(text), bold)
    return width * size / 10, height * size / 10


def width_of(text: str, size: float, bold: bool = False) -> float:
    """Width in points of one line."""
    return extent(text, size, bold)[0]


def wrapped(text: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """``text`` in lines no wider than ``width`` points.

    A single word wider than that is broken where it must be, so nothing ever
    runs off the sheet.
    """
    return _wrapped(retold(text), size, width, bold)


@lru_cache(maxsize=4096)
def _wrapped(text: str, size: float, width: float, bold: bool) -> tuple[str, ...]:
    parts = [part for word in text.split() for part in _pieces(word, size, width, bold)]
    lines: list[str] = []
    while parts:
        count = _fitting(parts, size, width, bold)
        lines.append(" ".join(parts[:count]))
        del parts[:count]
    return tuple(lines)


def _fitting(parts: list[str], size: float, width: float, bold: bool) -> int:
    """How many of ``parts`` go on one line, at least one.

    The widths of the words, which come again and again, tell about where the
    line ends; only there the line itself is measured.
    """

    def fits(count: int) -> bool:
        return width_of(" ".join(parts[:count]), size, bold) <= width

    count, about = 1, width_of(parts[0], size, bold)
    while count < len(parts):
        about += width_of(parts[count], size, bold) + SPACE * size
        if about > width:
            break
        count += 1
    while count > 1 and not fits(count):
        count -= 1
    while count < len(parts) and fits(count + 1):
        count += 1
    return count


def _pieces(word: str, size: float, width: float, bold: bool) -> list[str]:
    parts = []
    while len(word) > 1 and width_of(word, size, bold) > width:
        cut = len(word) - 1
        while cut > 1 and width_of(word[:cut], size, bold) > width:
            cut -= 1
        parts.append(word[:cut])
        word = word[cut:]
    return [*parts, word]


@lru_cache(maxsize=2048)
def foldings(text: str, most: int = 4) -> tuple[str, ...]:
    """The evenest ways to write ``text`` in one, two, ... up to ``most`` lines.

    A text that comes with its own line breaks keeps them.
    """
    if "\n" in text:
        return (text,)
    words = text.split()
    found: list[str] = []
    for count in range(1, min(len(words), most) + 1):
        folded = "\n".join(_evenest(words, count))
        if folded not in found:
            found.append(folded)
    return tuple(found)


def _evenest(words: list[str], count: int) -> list[str]:
    """``words`` in at most ``count`` lines, the longest line as short as can be."""
    spans = {
        width_of(" ".join(words[i:j]), 10.0)
        for i in range(len(words))
        for j in range(i + 1, min(len(words), i + 12) + 1)
    }
    spans.add(width_of(" ".join(words), 10.0))
    for width in sorted(spans):
        lines = _greedy(words, width)
        if len(lines) <= count:
            return lines
    return [" ".join(words)]


def _greedy(words: list[str], width: float) -> list[str]:
    lines = [words[0]]
    for word in words[1:]:
        longer = f"{lines[-1]} {word}"
        if width_of(longer, 10.0) > width + 1e-6:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


WIDTH, HEIGHT, MARGIN = 297.0, 210.0, 12.0
LEADING = 1.32  # line to line, in text sizes


@dataclass(frozen=True, slots=True)
class Box:
    """A place on the page: left, top, width, height in mm; top counts downward."""

    left: float
    top: float
    width: float
    height: float


class Page:
    """One landscape sheet, its figure, and a pen that writes text in mm."""

    def __init__(self, style: Style = STYLE, width: float = WIDTH, height: float = HEIGHT) -> None:
        self.style, self.width, self.height = style, width, height
        self.figure = Figure(figsize=(width / 25.4, height / 25.4), dpi=150, facecolor="white")
        FigureCanvasAgg(self.figure)
        self.ax = self.figure.add_axes((0.0, 0.0, 1.0, 1.0))
        self.ax.set_xlim(0, width)
        self.ax.set_ylim(height, 0)
        self.ax.set_axis_off()

    def axes(self, box: Box) -> Axes:
        """New axes that fill ``box``."""
        return self.figure.add_axes(
            (
                box.left / self.width,
                1 - (box.top + box.height) / self.height,
                box.width / self.width,
                box.height / self.height,
            )
        )

    def write(
        self,
        left: float,
        baseline: float,
        text: str,
        size: float,
        *,
        colour: str = "",
        bold: bool = False,
        align: str = "left",
        gid: str = "",
    ) -> None:
        """One line of text, its left end (or middle, or right end) on the baseline."""
        drawn = self.ax.text(
            left,
            baseline,
            retold(text),
            fontproperties=font(size, bold),
            color=colour or self.style.text,
            ha=align,
            va="baseline",
            parse_math=False,
        )
        if gid:
            drawn.set_gid(gid)

    def paragraph(
        self,
        left: float,
        top: float,
        width: float,
        text: str,
        size: float,
        *,
        colour: str = "",
        bold: bool = False,
        gid: str = "",
    ) -> float:
        """Text broken to ``width`` mm; returns the top of what comes after it."""
        for line in wrapped(text, size, width / MM_PER_POINT, bold):
            self.write(left, top + ascent(size), line, size, colour=colour, bold=bold, gid=gid)
            top += line_height(size)
        return top

    def bar(self, box: Box, colour: str, edge: str = "none", width: float = 0.0) -> None:
        """A plain rectangle."""
        self.ax.add_patch(
            Rectangle(
                (box.left, box.top),
                box.width,
                box.height,
                facecolor=colour,
                edgecolor=edge,
                linewidth=width,
            )
        )

    def rule(self, left: float, top: float, width: float) -> None:
        """A thin line across."""
        self.ax.plot(
            [left, left + width],
            [top, top],
            color=self.style.hatch,
            linewidth=0.6,
            solid_capstyle="butt",
        )


def line_height(size: float) -> float:
    """Height in mm that one line of text takes."""
    return size * LEADING * MM_PER_POINT


def ascent(size: float) -> float:
    """From the top of a line to its baseline, in mm."""
    return size * 0.98 * MM_PER_POINT


def text_height(text: str, size: float, width: float, bold: bool = False) -> float:
    """Height in mm of a paragraph ``width`` mm wide."""
    return len(wrapped(text, size, width / MM_PER_POINT, bold)) * line_height(size)


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Width in mm of one line."""
    return width_of(text, size, bold) * MM_PER_POINT


def fitting_size(text: str, largest: float, least: float, width: float, bold: bool) -> float:
    """The largest size at which one line fits ``width`` mm, but never below ``least``."""
    size = largest
    while size > least and extent(text, size, bold)[0] * MM_PER_POINT > width:
        size -= 0.5
    return size


P = ParamSpec("P")
TO_THE_MILLIMETRE = re.compile(r"\d\.\d{3} m\b")


def evenly(unit: Unit, known: Iterable[str], draw: Callable[[], Figure]) -> Figure:
    """The sheet that ``draw`` makes, its metres all with two or all with three decimals.

    ``known`` are sentences that may stand on it: one with three decimals decides.
    Otherwise the sheet itself does, and is drawn again if it must be.
    """
    if unit != "m":
        return draw()
    if not _exact(known):
        figure = draw()
        texts = (artist.get_text() for artist in figure.findobj(Text) if isinstance(artist, Text))
        if not _exact(texts):
            return figure
    with metres_to_the_millimetre():
        return draw()


def even_metres(sheet: Callable[P, Figure]) -> Callable[P, Figure]:
    """A sheet drawn as ``evenly`` does, where nothing is known before it is drawn."""

    @wraps(sheet)
    def drawn(*args: P.args, **kwargs: P.kwargs) -> Figure:
        return evenly("m", (), lambda: sheet(*args, **kwargs))

    return drawn


def _exact(texts: Iterable[str]) -> bool:
    return any(TO_THE_MILLIMETRE.search(" ".join(text.split())) for text in texts)


def sentences(suggestions: Iterable[Suggestion]) -> list[str]:
    """The sentences of all reasons."""
    return [reason.sentence for one in suggestions for reason in one.verdict.reasons]


COLUMN = 92.0
SIZE = 7.0
SQUARE_FOOT = 304.8**2  # mm2
USUAL = "* usual for its kind, not in the file: measure it"


def draw_messages(page: Page, messages: Sequence[str], left: float, top: float) -> float:
    """What cannot fit whatever happens, beside a bold stroke; returns the top of what follows."""
    if not messages:
        return top
    style, start, inner = page.style, top, COLUMN - 5
    top = page.paragraph(
        left + 5, top, inner, "Cannot fit whatever happens", 9.0, colour=style.loss, bold=True
    )
    for message in messages:
        top = page.paragraph(left + 5, top + 0.8, inner, message, SIZE, gid="message")
    page.bar(Box(left, start + 0.5, 1.4, top - start), style.loss)
    return top + 5


def area_words(square_mm: float, unit: Unit) -> str:
    """A floor area in m2, or square feet where the person measures in inches.

    >>> area_words(13_940_000, "cm"), area_words(9_290_304, "in")
    ('13.94 m²', '100.0 sq ft')
    """
    if unit == "in":
        return f"{square_mm / SQUARE_FOOT:.1f} sq ft"
    return f"{square_mm / 1e6:.2f} m²"


def draw_room_facts(
    page: Page,
    scenario: Scenario,
    diagonals: Sequence[tuple[int, int, float]],
    left: float,
    top: float,
) -> float:
    """Floor, ceiling, and the lines between corners to check with the tape."""
    unit = scenario.unit
    top = page.paragraph(left, top, COLUMN, "Check with the tape", 9.0, bold=True) + 0.8
    rows = [
        ("Floor", area_words(room_shape(scenario.room).area, unit)),
        ("Ceiling above the floor", length(scenario.room.ceiling, unit)),
        *((f"Corner {a} to corner {b}", length(round(mm), unit)) for a, b, mm in diagonals),
    ]
    for label, value in rows:
        top = _row(page, left, top, label, value, SIZE)
    return top + 4


def _row(page: Page, left: float, top: float, label: str, value: str, size: float) -> float:
    style = page.style
    room = COLUMN - text_width(value, size) - 4
    after = page.paragraph(left, top, room, label, size)
    page.write(left + COLUMN, top + ascent(size), value, size, colour=style.quiet, align="right")
    return after + 0.9


def size_words(piece: Piece, unit: Unit) -> str:
    """Width, depth and height, how high it hangs, and a star where that is not measured."""
    text = " x ".join(length(v, unit) for v in (piece.width, piece.depth, piece.height))
    text = f"{text}, {length(piece.bottom, unit)} up" if piece.bottom else text
    return f"{text} *" if piece.assumed else text


def draw_pieces_list(
    page: Page, scenario: Scenario, left: float, top: float, bottom: float
) -> None:
    """Every piece with its size; smaller text where there are many, the rest counted."""
    unit, pieces = scenario.unit, scenario.pieces
    if not pieces:
        return
    top = page.paragraph(left, top, COLUMN, "Pieces", 9.0, bold=True)
    told = "width x depth x height" + (f"; {USUAL}" if any(p.assumed for p in pieces) else "")
    top = page.paragraph(left, top, COLUMN, told, 6.0, colour=page.style.quiet)
    top += 0.8
    size = next((s for s in (7.0, 6.5, 6.0, 5.5) if _height(pieces, unit, s) <= bottom - top), 5.5)
    for i, piece in enumerate(pieces):
        if top + 2 * line_height(size) > bottom and i < len(pieces) - 1:
            page.paragraph(left, top, COLUMN, f"and {len(pieces) - i} more", size)
            return
        top = _row(page, left, top, piece.name, size_words(piece, unit), size)


def _height(pieces: Sequence[Piece], unit: Unit, size: float) -> float:
    return sum(
        text_height(p.name, size, COLUMN - text_width(size_words(p, unit), size) - 4) + 0.9
        for p in pieces
    )
