"""The walls measured so far, before they make a room: the picture between two questions."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from arrange.data.lengths import measured
from arrange.data.room import Wall
from arrange.data.scenario import Unit
from arrange.draw.page import MARGIN, Page
from arrange.draw.style import STYLE, Style
from arrange.draw.text import font

AROUND = 22.0  # mm of paper round the walls: their names stand there
BESIDE = 6.0  # mm of paper from a wall to the middle of its name
HEADED = 9.0  # points
NAMED = 10.0  # points


def walked_sheet(title: str, walls: Sequence[Wall], unit: Unit, *, style: Style = STYLE) -> Figure:
    """One sheet with each wall, its name and its length outside of it, as large as it can be.

    The walls run on from one to the next and need not lead back to where they began.

    Raises
    ------
    ValueError
        If there are no walls.
    """
    if not walls:
        raise ValueError("no wall is measured yet")
    page = Page(style)
    top = page.head(title, width=page.inner) + 4
    page.write(MARGIN, top, "The walls so far", HEADED, colour=style.quiet)
    place = page.below(top + 3)
    xs = [point[0] for wall in walls for point in (wall.start, wall.end)]
    ys = [point[1] for wall in walls for point in (wall.start, wall.end)]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    # mm of the room in one of paper
    scale = max(wide / (place.width - 2 * AROUND), high / (place.height - 2 * AROUND))
    left = place.left + (place.width - wide / scale) / 2
    foot = place.top + (place.height + high / scale) / 2

    def on_paper(point: tuple[float, float]) -> tuple[float, float]:
        return left + (point[0] - min(xs)) / scale, foot - (point[1] - min(ys)) / scale

    for wall in walls:
        ends = [on_paper(wall.start), on_paper(wall.end)]
        page.ax.plot(
            *zip(*ends, strict=True),
            color=style.cut,
            linewidth=4.0,
            solid_capstyle="projecting",
            gid=f"walked:{wall.name}",
        )
        x, y = wall.inward
        side = "center" if abs(x) < abs(y) else "right" if x > 0 else "left"
        page.ax.text(
            *on_paper(wall.point(wall.length / 2, -BESIDE * scale)),
            f"{wall.name}  {measured(round(wall.length), unit)}",
            fontproperties=font(NAMED, bold=True),
            color=style.text,
            ha=side,
            va="center",
            gid=f"wall:{wall.name}",
        )
    return page.figure
