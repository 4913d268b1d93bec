"""A sheet of paper: its pen, and saving it.

Places on the page are in mm from its upper left corner, text sizes in points.
"""

from __future__ import annotations

import os
import tempfile
import warnings
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from arrange.draw.layers import layered, marked
from arrange.draw.style import FONT, LEAST, MM_PER_POINT, STYLE, Style
from arrange.draw.text import extent, foldings, font, width_of, wrapped

WIDTH, HEIGHT, MARGIN = 297.0, 210.0, 12.0
LEADING = 1.32  # line to line, in text sizes
NOTE = 7.5  # points: the scale at the upper right


@dataclass(frozen=True, slots=True)
class Box:
    """A place on the page: left, top, width, height in mm; top counts downward."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.width

    @property
    def foot(self) -> float:
        """Its lower edge."""
        return self.top + self.height


@dataclass(frozen=True, slots=True)
class Bit:
    """A few words in one hand, part of a line; ``gap`` is the air in mm after them."""

    text: str
    size: float
    colour: str = ""
    bold: bool = False
    gap: float = 3.0
    gid: str = ""

    @property
    def width(self) -> float:
        """In mm, with the air after it."""
        return text_width(self.text, self.size, self.bold) + self.gap


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

    @property
    def inner(self) -> float:
        """The width between the margins."""
        return self.width - 2 * MARGIN

    def below(self, top: float, foot: float = 0.0) -> Box:
        """All between the margins from ``top`` down, less ``foot``."""
        return Box(MARGIN, top, self.inner, self.height - MARGIN - foot - top)

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
        angle: float = 0.0,
    ) -> None:
        """One line of text, its left end (or middle, or right end) on the baseline.

        It is turned by ``angle`` degrees about that point.
        """
        self.ax.text(
            left,
            baseline,
            text,
            fontproperties=font(size, bold),
            color=colour or self.style.text,
            ha=align,
            va="baseline",
            rotation=angle,
            rotation_mode="anchor",
            parse_math=False,
            gid=gid,
        )

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

    def row(self, left: float, baseline: float, *bits: Bit) -> float:
        """One line of differing hands; returns where it ends, in mm from the left."""
        for bit in bits:
            self.write(
                left,
                baseline,
                bit.text,
                bit.size,
                colour=bit.colour,
                bold=bit.bold,
                gid=bit.gid,
            )
            left += bit.width
        return left

    def item(
        self,
        left: float,
        top: float,
        width: float,
        mark: Bit,
        text: str,
        size: float,
        *,
        indent: float = 3.5,
        colour: str = "",
        gid: str = "",
    ) -> float:
        """A paragraph with a mark before it; returns the top of what comes after it.

        ``width`` takes in the ``indent``, all in mm.
        """
        self.row(left, top + ascent(size), mark)
        return self.paragraph(
            left + indent, top, width - indent, text, size, colour=colour, gid=gid
        )

    def title(self, title: str, left: float, top: float, width: float) -> float:
        """The title at the head of a column, smaller where it is long; returns its foot."""
        size = fitting_size(title, 14.0, 10.0, width, bold=True)
        return self.paragraph(left, top, width, title, size, bold=True, gid="title")

    def head(self, title: str, note: str = "", width: float = 0.0) -> float:
        """The title at the upper left, ``note`` at the right; returns the top of what follows.

        The title is on one line, smaller if need be, else on two even ones. It has
        ``width`` mm, the whole page by default, less what the note takes.
        """
        width = width or self.inner
        if note:
            right, quiet = self.width - MARGIN, self.style.quiet
            self.write(right, MARGIN + 5, note, NOTE, colour=quiet, align="right")
            width -= text_width(note, NOTE) + 6
        size = fitting_size(title, 14.0, 10.0, width, bold=True)
        if text_width(title, size, bold=True) <= width:
            self.write(MARGIN, MARGIN + 5, title, size, bold=True, gid="title")
            return MARGIN + 7.0
        while size > LEAST and text_height(title, size, width, bold=True) > 2.5 * line_height(size):
            size -= 0.5
        even = foldings(title, 2)[-1].split("\n")
        fits = all(text_width(line, size, bold=True) <= width for line in even)
        top = MARGIN
        for line in even if fits else [title]:
            top = self.paragraph(MARGIN, top, width, line, size, bold=True, gid="title")
        return top

    def bar(self, box: Box, colour: str, edge: str = "none", width: float = 0.0) -> None:
        """A plain rectangle."""
        corner = (box.left, box.top)
        self.ax.add_patch(
            Rectangle(corner, box.width, box.height, fc=colour, ec=edge, linewidth=width)
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


def largest_size(sizes: Sequence[float], fits: Callable[[float], bool]) -> float:
    """The first of ``sizes`` (points, largest first) at which all fits, else the smallest."""
    return next((size for size in sizes if fits(size)), sizes[-1])


# The rows of a list that are told, and a last one that counts the others.
Shown = tuple[Sequence[str], str]


def shortened(
    lists: Sequence[Sequence[str]], fits: Callable[[Sequence[Shown]], bool]
) -> list[Shown]:
    """As many rows of the lists as fit together; the longest list gives way first."""
    kept = [len(rows) for rows in lists]

    def shown() -> list[Shown]:
        return [(rows[:n], and_more(len(rows) - n)) for rows, n in zip(lists, kept, strict=True)]

    while any(kept) and not fits(shown()):
        kept[max(range(len(kept)), key=lambda i: (kept[i], i))] -= 1
    return shown()


def and_more(count: int) -> str:
    """What stands for so many that there is no room for; "" for none.

    >>> and_more(3), and_more(0)
    ('and 3 more', '')
    """
    return f"and {count} more" if count else ""


DPI = 150
# Everything that would make two files of the same picture differ is left out.
METADATA: dict[str, dict[str, Any]] = {
    ".png": {"Software": None},
    ".svg": {"Date": None, "Creator": None},
    ".pdf": {"CreationDate": None, "Creator": None, "Producer": None},
}
SETTINGS: Any = {
    "font.family": [FONT],
    "svg.hashsalt": "arrange",
    "svg.fonttype": "path",
    "pdf.fonttype": 3,
    "pdf.compression": 6,
    "savefig.bbox": None,
    "path.simplify": False,
    "text.usetex": False,
    # Letters keep the widths they were measured with, at every resolution.
    "text.hinting": "none",
}


def save(figure: Figure, path: str | Path) -> Path:
    """Write ``figure`` to ``path``; its suffix says whether PNG, SVG or PDF.

    The file appears whole or not at all: it is written beside its place under
    another name first. An SVG has its plans in layers. Raises ValueError for any other suffix.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in METADATA:
        known = ", ".join(METADATA)
        raise ValueError(
            f"{target.name}: pictures are written as {known}, not {suffix or 'nothing'}"
        )
    drawing = suffix == ".svg"
    with _whole(target) as name, _as_ever(), marked(figure) if drawing else nullcontext():
        figure.savefig(
            name, format=suffix[1:], dpi=DPI, metadata=METADATA[suffix], facecolor="white"
        )
        if drawing:
            layered(name)
    return target


def save_booklet(figures: Iterable[Figure], path: str | Path) -> Path:
    """Write all figures to one PDF, a page each as large as its figure.

    A figure is written before the next one is asked for.
    """
    from matplotlib.backends.backend_pdf import PdfPages  # noqa: PLC0415  slow to load

    target = Path(path)
    with (
        _whole(target) as name,
        _as_ever(),
        PdfPages(name, metadata=METADATA[".pdf"]) as pages,
    ):
        for figure in figures:
            figure.savefig(pages, format="pdf", facecolor="white")
    return target


@contextmanager
def _as_ever() -> Iterator[None]:
    """The same picture whatever the person has set for others."""
    with mpl.rc_context(SETTINGS), warnings.catch_warnings():
        # A letter our font lacks is drawn as a box; the person cannot mend that.
        warnings.filterwarnings("ignore", message=".*[Gg]lyph")
        yield


@contextmanager
def _whole(target: Path) -> Iterator[Path]:
    """A name beside ``target`` to write to; only what ends well gets its place."""
    handle, made = tempfile.mkstemp(
        dir=target.parent, prefix=f".{target.stem}-", suffix=target.suffix
    )
    os.close(handle)
    name = Path(made)
    try:
        yield name
        _allow_reading(name)
        name.replace(target)
    finally:
        name.unlink(missing_ok=True)


def _allow_reading(path: Path) -> None:
    """Give a temporary file the rights any new file would have."""
    mask = os.umask(0)
    os.umask(mask)
    path.chmod(0o666 & ~mask)
