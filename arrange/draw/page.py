"""A sheet of paper to write on, measured in mm from its upper left corner."""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from arrange.draw.measure import extent, font, width_of, wrapped
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.words import retold

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
