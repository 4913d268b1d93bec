"""The placing sheet: one plan with the two lengths of each piece, and the list to carry in by.

Lengths on paper in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from matplotlib.figure import Figure
from shapely.geometry import LineString, Point, Polygon

from arrange.data.result import Gap, Suggestion
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.draw.openings import LEAF, drawn_leaves
from arrange.draw.page import MARGIN, Bit, Page, Shown, largest_size, shortened, text_height
from arrange.draw.plan import PlanOptions
from arrange.draw.sheet import COLUMN, beside_column, column_left, draw_title, draw_to_scale
from arrange.draw.style import LEAST, STYLE, Style
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import frame
from arrange.whatif.setting_out import SetDown, Taped, crossed, setting_out, tape_lines
from arrange.words.suggest import CHECK, check_lines, order_words, set_down_rows

KEY = (
    "Each length runs from a wall, or from what stands already, to the nearest side of a piece. "
    "The list has those of the small pieces. Left and right as you face the piece."
)
SIZES = (7.5, LEAST)  # points, of the list
HEADS = 14.0  # mm for the two heads of the list
INDENT = 6.0
AIR = 1.0
OFF_WALL = 45  # mm; a line to the end of a back that touches the wall is drawn so far off it
CLOSE = 150  # mm; lengths side by side any closer are read as one
LARGE = 300_000  # mm2 of floor: smaller pieces have their lengths in the list alone


def placing_sheet(
    scenario: Scenario, suggestion: Suggestion, total: int, *, style: Style = STYLE
) -> Figure:
    """Where each piece of one suggestion goes, to carry into the room (297 x 210 mm)."""
    page, arrangement = Page(style), suggestion.arrangement
    told = setting_out(scenario, arrangement)
    options = PlanOptions(measures(Scene(scenario, arrangement), told), "near", clearances=False)
    place = beside_column(page, page.height - MARGIN + 2)  # the key has two lines
    draw_to_scale(page, scenario, arrangement, place, options, KEY, lines=2)
    left = column_left(page)
    rank = f"Where it goes: arrangement {suggestion.rank} of {total}"
    top = draw_title(page, scenario.title, rank, "rank", left) + 3.0
    rows = set_down_rows(scenario, arrangement)
    _draw_list(page, check_lines(scenario, suggestion), rows, left, top)
    return page.figure


def _draw_list(
    page: Page, checks: Sequence[str], rows: Sequence[str], left: float, top: float
) -> None:
    """What to check, and where each piece goes; in smaller text where it is long, then cut."""
    height = page.height - MARGIN - top - HEADS
    size = largest_size(SIZES, lambda s: _height([*checks, *rows], s) <= height)
    shown = shortened([checks, rows], lambda told: _height(_flat(told), size) <= height)
    head = order_words(bool(checks))
    (checks, more_checks), (rows, more_rows) = shown
    if checks or more_checks:
        top = page.paragraph(left, top, COLUMN, CHECK, size + 1, bold=True) + AIR
        dash = Bit("\N{EN DASH}", size, page.style.quiet)
        for line in checks:
            top = page.item(left, top, COLUMN, dash, line, size, gid="check") + AIR
        top = _draw_more(page, left, top, more_checks, size) + 2.0
    top = page.paragraph(left, top, COLUMN, head, size + 1, bold=True) + AIR
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
    """The lengths to dimension on a plan, past as little as may be, and never along one another."""
    drawn: list[Gap] = []
    there: list[Placed] = []
    for one in told:
        placed = scene.find(one.piece)
        if placed.piece.width * placed.piece.depth >= LARGE:
            drawn += _of_piece(scene, placed, one, there, drawn)
        there.append(placed)
    return tuple(drawn)


def _of_piece(
    scene: Scene, placed: Placed, told: SetDown, there: Sequence[Placed], drawn: Sequence[Gap]
) -> list[Gap]:
    """Those of one piece, beside what is ``drawn`` already."""
    found = [*(_to_corner(scene, placed) if told.corner else ())]
    if placed.placement.facing is None:
        return found
    for axis, taped in enumerate((told.across, told.up)):
        if taped.length <= 0:
            continue
        whose = taped.neighbour or taped.wall, placed.name
        lines = [Gap(*line, taped.length, whose) for line in tape_lines(scene, placed, taped, axis)]
        # A round one is met in its middle alone.
        lines = [line for line in lines if _meets(placed, line)] or lines[:1]
        near = [*drawn, *found]
        found.append(min(lines, key=lambda gap: _cost(scene, gap, axis, taped, there, near)))
    return found


def _to_corner(scene: Scene, placed: Placed) -> Iterator[Gap]:
    """From the corner that a piece stands across to the ends of its back, close to the walls."""
    room, corner = scene.scenario.room, placed.placement.corner or 0
    left, right = room.meeting(corner)
    own, wide = frame(placed.piece, placed.placement, room), placed.piece.width
    for wall, at, end in ((left, left.length, 0), (right, 0.0, wide)):
        there = wall.coordinate(*own.at(end, 0))
        line = wall.point(at, OFF_WALL), wall.point(there, OFF_WALL)
        yield Gap(*line, round(abs(there - at)), (wall.name, placed.name))


def _meets(placed: Placed, gap: Gap) -> bool:
    return bool(placed.body.distance(Point(gap.end)) < 1)


def _cost(
    scene: Scene,
    gap: Gap,
    axis: int,
    taped: Taped,
    there: Sequence[Placed],
    drawn: Sequence[Gap],
) -> tuple[bool, int, int]:
    """Whether no tape can be held there; lengths close along it; how much it is drawn across."""
    line, own = LineString([gap.start, gap.end]), gap.between
    close = sum(
        LineString([one.start, one.end]).distance(line) < CLOSE
        for one in drawn
        if one.start[1 - axis] == one.end[1 - axis]
    )
    panels = _open_leaves(scene.scenario.room)
    bodies = [p.body for p in scene.placed if p.name not in own and not p.piece.flat]
    across = sum(shape.intersection(line).length > 1 for shape in (*bodies, *panels))
    return crossed(scene, (gap.start, gap.end), axis, there, taped), close, across


@lru_cache(maxsize=16)
def _open_leaves(room: Room) -> tuple[Polygon, ...]:
    """The leaves of all doors as they are drawn open, with a little air."""
    leaves = (leaf for d in room.all_doors for leaf in drawn_leaves(room.walls[d.wall], d, 0))
    return tuple(panel.buffer(LEAF) for leaf in leaves for panel in leaf.panels)
