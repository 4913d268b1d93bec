"""How much room a text takes on paper, in points, and how to break it into lines."""

from __future__ import annotations

import warnings
from functools import lru_cache

import matplotlib as mpl
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.text import Text

from arrange.draw.style import FONT

LINE_SPACING = 1.12
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
    with mpl.rc_context({"text.hinting": "none"}), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=".*[Gg]lyph")
        # matplotlib leaves this one function without types.
        box = ruler.get_window_extent(canvas.get_renderer())  # type: ignore[no-untyped-call]
    return float(box.width) / _FINE, float(box.height) / _FINE


def extent(text: str, size: float, bold: bool = False) -> tuple[float, float]:
    """Width and height in points of ``text``; lines are parted by newlines."""
    if not text:
        return 0.0, 0.0
    width, height = _at_ten(text, bold)
    return width * size / 10, height * size / 10


def width_of(text: str, size: float, bold: bool = False) -> float:
    """Width in points of one line."""
    return extent(text, size, bold)[0]


def wrapped(text: str, size: float, width: float, bold: bool = False) -> list[str]:
    """``text`` in lines no wider than ``width`` points.

    A single word wider than that is broken where it must be, so nothing ever
    runs off the sheet.
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        for part in _pieces(word, size, width, bold):
            longer = f"{line} {part}" if line else part
            if line and width_of(longer, size, bold) > width:
                lines.append(line)
                line = part
            else:
                line = longer
    return [*lines, line] if line else lines


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
