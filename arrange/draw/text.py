"""How much room a text takes on paper, and how to break it into lines.

Sizes, widths and heights are in points here; ``page`` has the same in mm.
"""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import repeat

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.ft2font import FT2Font, Kerning, LoadFlags

from arrange.draw.style import FONT

LINE_SPACING = 1.12
SPACE = 0.42  # about how wide a space is with the air of its neighbours, in text sizes
UNITS = {"mm", "cm", "m", "in", "ft"}
HALF = re.compile(r"\d+/\d+")
BOX = 11.5  # points at ten: what is drawn in place of a letter that the font lacks
_FINE = 4  # measure on a raster four times finer than a point


@lru_cache(maxsize=32)
def font(size: float, bold: bool = False) -> FontProperties:
    """Our font at ``size`` points."""
    return FontProperties(family=FONT, size=size, weight="bold" if bold else "normal")


@lru_cache(maxsize=2)
def _face(bold: bool) -> FT2Font:
    """Our letters at ten points, to be measured one at a time.

    A face of our own: matplotlib's changes its size with whatever it draws.
    """
    face = FT2Font(findfont(font(10.0, bold)))
    face.set_size(10.0, 72 * _FINE)
    return face


@lru_cache(maxsize=8192)
def _advance(before: str, letter: str, bold: bool) -> float:
    """How far ``letter`` carries on a line of ten points, after the letter ``before`` it.

    A line is the sum of these, which come again and again. To have it laid out whole takes
    a millisecond, and a sheet asks for a thousand.
    """
    face = _face(bold)
    index = face.get_char_index
    if not index(ord(letter)):
        return BOX
    glyph = face.load_char(ord(letter), flags=LoadFlags.NO_HINTING)
    kerning = 0
    if before:
        kerning = face.get_kerning(index(ord(before)), index(ord(letter)), Kerning.UNFITTED)
    return (glyph.linearHoriAdvance / 65536 + kerning / 64) / _FINE


@lru_cache(maxsize=16384)
def _line_at_ten(line: str, bold: bool) -> float:
    return sum(map(_advance, ("", *line), line, repeat(bold)))


@lru_cache(maxsize=2)
def _first_and_next(bold: bool) -> tuple[float, float]:
    """What a line of ten points takes in height: the first one, and each below it."""
    figure = Figure(dpi=72 * _FINE)
    renderer = FigureCanvasAgg(figure).get_renderer()  # type: ignore[no-untyped-call]
    heights = []
    for lines in ("lp", "lp\nlp"):
        text = figure.text(
            0, 0, lines, parse_math=False, linespacing=LINE_SPACING, fontproperties=font(10.0, bold)
        )
        heights.append(text.get_window_extent(renderer).height / _FINE)
    return heights[0], heights[1] - heights[0]


def extent(text: str, size: float, bold: bool = False) -> tuple[float, float]:
    """Width and height in points of ``text``; lines are parted by newlines."""
    if not text:
        return 0.0, 0.0
    lines = text.split("\n")
    first, each = _first_and_next(bold)
    height = first + each * (len(lines) - 1)
    return max(_line_at_ten(line, bold) for line in lines) * size / 10, height * size / 10


def width_of(text: str, size: float, bold: bool = False) -> float:
    """Width in points of one line."""
    return _line_at_ten(text, bold) * size / 10


def wrapped(text: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """``text`` in lines no wider than ``width`` points.

    A single word wider than that is broken where it must be, so nothing ever
    runs off the sheet.
    """
    return _wrapped(text, size, width, bold)


@lru_cache(maxsize=4096)
def _wrapped(text: str, size: float, width: float, bold: bool) -> tuple[str, ...]:
    parts = [part for word in text.split() for part in _pieces(word, size, width, bold)]
    lines: list[str] = []
    while parts:
        count = _fitting(parts, size, width, bold)
        while 1 < count < len(parts) and _belongs(*parts[count - 1 : count + 2]):
            count -= 1
        lines.append(" ".join(parts[:count]))
        del parts[:count]
    return tuple(lines)


def _belongs(before: str, word: str, after: str = "") -> bool:
    """Whether a word is never begun a line with: a unit, a half, a letter or number after a name.

    >>> _belongs("100", "cm;"), _belongs("wall", "A", "and"), _belongs("bookcase", "2")
    (True, True, True)
    >>> _belongs("15", "1/2", "in"), _belongs("take", "1/2", "in")
    (True, False)
    >>> _belongs("least", "15", "cm"), _belongs("is", "a", "clear")
    (False, False)
    """
    bare = word.rstrip(",;:.)")
    if bare in UNITS or HALF.fullmatch(bare):
        return before[-1:].isdigit()
    letter = len(bare) == 1 and bare.isupper()
    number = bare.isdigit() and len(bare) <= 2 and after.rstrip(",;:.)") not in UNITS
    return (letter or number) and before[-1:].isalpha()


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


def as_sentence(text: str) -> str:
    """``text`` with a capital first and a full stop last.

    >>> as_sentence("the bed turns")
    'The bed turns.'
    """
    return f"{text[:1].upper()}{text[1:]}."
