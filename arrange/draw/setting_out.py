"""The placing sheet: one plan with the two lengths of each piece, and the list to carry in by.

Lengths on paper in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from matplotlib.figure import Figure

from arrange.data.result import Gap, Suggestion
from arrange.data.scenario import Scenario
from arrange.draw.page import MARGIN, Bit, Page, Shown, largest_size, shortened, text_height
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import COLUMN, beside_column, column_left, draw_title, draw_to_scale
from arrange.draw.style import LEAST, STYLE, Style
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import frame
from arrange.whatif.setting_out import SetDown, Taped, setting_out
from arrange.words.suggest import CHECK, ORDER, check_lines, set_down_words

KEY = (
    "Each length runs from a wall to the nearest side of a piece. The list has those of the "
    "small pieces."
)
SIZES = (7.5, LEAST)  # points, of the list
HEADS = 14.0  # mm for the two heads of the list
INDENT = 6.0
AIR = 1.0
OFF_WALL = 45  # mm; a line to the end of a back that touches the wall is drawn so far off it
LARGE = 300_000  # mm2 of floor: smaller pieces have their lengths in the list alone


def placing_sheet(
    scenario: Scenario, suggestion: Suggestion, total: int, *, style: Style = STYLE
) -> Figure:
    """Where each piece of one suggestion goes, to carry into the room (297 x 210 mm)."""
    page, arrangement = Page(style), suggestion.arrangement
    told = setting_out(scenario, arrangement)
    options = PlanOptions(measures(Scene(scenario, arrangement), told), clearances=False)
    place = beside_column(page, page.height)
    draw_to_scale(page, scenario, arrangement, place, options, KEY, lines=2)
    left = column_left(page)
    rank = f"Where it goes: arrangement {suggestion.rank} of {total}"
    top = draw_title(page, scenario.title, rank, "rank", left) + 3.0
    rows = [f"{one.piece}: {set_down_words(one, scenario.unit)}" for one in told]
    _draw_list(page, check_lines(scenario, suggestion), rows, left, top)
    return page.figure


def _draw_list(
    page: Page, checks: Sequence[str], rows: Sequence[str], left: float, top: float
) -> None:
    """What to check, and where each piece goes; in smaller text where it is long, then cut."""
    height = page.height - MARGIN - top - HEADS
    size = largest_size(SIZES, lambda s: _height([*checks, *rows], s) <= height)
    shown = shortened([checks, rows], lambda told: _height(_flat(told), size) <= height)
    (checks, more_checks), (rows, more_rows) = shown
    if checks or more_checks:
        top = page.paragraph(left, top, COLUMN, CHECK, size + 1, bold=True) + AIR
        dash = Bit("\N{EN DASH}", size, page.style.quiet)
        for line in checks:
            top = page.item(left, top, COLUMN, dash, line, size, gid="check") + AIR
        top = _draw_more(page, left, top, more_checks, size) + 2.0
    top = page.paragraph(left, top, COLUMN, ORDER, size + 1, bold=True) + AIR
    for number, row in enumerate(rows, 1):
        mark = Bit(str(number), size, page.style.accent, bold=True)
        top = page.item(left, top, COLUMN, mark, row, size, indent=INDENT, gid="set down") + AIR
    _draw_more(page, left, top, more_rows, size)


def _draw_more(page: Page, left: float, top: float, told: str, size: float) -> float:
    """How many rows there was no room for, if any; returns the top of what follows."""
    if not told:
        return top
    return page.paragraph(left + INDENT, top, COLUMN - INDENT, told, size, gid="more") + AIR


def _flat(shown: Iterable[Shown]) -> list[str]:
    return [row for rows, rest in shown for row in (*rows, rest) if row]


def _height(rows: Iterable[str], size: float) -> float:
    return sum(text_height(row, size, COLUMN - INDENT) + AIR for row in rows)


def measures(scene: Scene, told: Sequence[SetDown]) -> tuple[Gap, ...]:
    """The lengths to dimension on a plan."""
    return tuple(gap for one in told for gap in _measures(scene, one))


def _measures(scene: Scene, one: SetDown) -> Iterator[Gap]:
    """The lengths of a large piece as lines on the plan; none where it touches its wall."""
    placed = scene.find(one.piece)
    if placed.piece.width * placed.piece.depth < LARGE:
        return
    if one.corner:
        yield from _to_corner(scene, placed)
    if placed.placement.facing is None:
        return
    for axis, taped in enumerate((one.across, one.up)):
        if taped.length > 0:
            yield _line(scene, placed, taped, axis)


def _to_corner(scene: Scene, placed: Placed) -> Iterator[Gap]:
    """From the corner that a piece stands across to the ends of its back, close to the walls."""
    room, corner = scene.scenario.room, placed.placement.corner or 0
    left, right = room.walls[corner - 1], room.walls[corner]
    own, wide = frame(placed.piece, placed.placement, room), placed.piece.width
    for wall, at, end in ((left, left.length, 0), (right, 0.0, wide)):
        there = wall.coordinate(*own.at(end, 0))
        line = wall.point(at, OFF_WALL), wall.point(there, OFF_WALL)
        yield Gap(*line, round(abs(there - at)), (wall.name, placed.name))


def _line(scene: Scene, placed: Placed, taped: Taped, axis: int) -> Gap:
    """From the wall to the middle of the piece's side, or of the part opposite the wall."""
    wall = next(w for w in scene.scenario.room.walls if w.name == taped.wall)
    other = 1 - axis
    spans = placed.span(0), placed.span(1)
    ends = sorted((wall.start[other], wall.end[other]))
    low, high = max(spans[other][0], ends[0]), min(spans[other][1], ends[1])
    level = (low + high) / 2 if low < high else sum(spans[other]) / 2
    at, near = float(wall.start[axis]), spans[axis][wall.start[axis] > spans[axis][0]]
    start, end = ((at, level), (float(near), level))
    if axis:
        start, end = (level, at), (level, float(near))
    return Gap(start, end, taped.length, (taped.wall, placed.name))
