"""Marks on a plan for what gives: pieces, strips, doors, fixtures. Lengths in mm.

What would have to give: the plans of the proposals side by side at one scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from matplotlib.artist import Artist
from matplotlib.figure import Figure
from shapely.geometry import LineString, Polygon

from arrange.data.change import GiveUpFixture, GiveUpOpening, LowerClearance, Rehang
from arrange.data.lengths import measured, points
from arrange.data.repair import Repair, Repairs
from arrange.data.room import Vector
from arrange.data.scenario import Scenario
from arrange.draw.labels import Board
from arrange.draw.overview import GAP, write_title
from arrange.draw.plan import (
    BARE_MARGINS,
    Marks,
    PlanOptions,
    draw_plan,
    drawn_extent,
    largest_scale,
    leaf_and_arc,
    make_board,
    printed_scale,
)
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.draw.text import MARGIN, Box, Page, even_metres, line_height, text_height, text_width
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, wall_strip

THICK = 2.2  # points
OUTLINED = ("smaller", "move", "untie", "turn", "wish")  # what gives is the piece itself
DASH = (4.0, 2.4)
UNDER, ABOVE = 2.0, 15.0  # below all pieces; over all pieces, under all text
TINT = "#cfe3ea"
DEEP = 150  # mm of floor marked before an opening that is given up


def marks_of(repair: Repair) -> Marks:
    """Draws a thick line round each piece that gives, and along what else does.

    A strip that came down is tinted with a dashed edge; one given up altogether is a
    dashed line along its side. What is left out is not there to be marked.
    """

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        shapes = {d.piece.name: d.shape for d in placed}
        scene = Scene(repair.scenario, repair.suggestion.arrangement)
        drawn: list[Artist] = []
        for one in repair.gives:
            for change in one.changes:
                if isinstance(change, LowerClearance):
                    drawn += _strip(board, scene, change)
                elif isinstance(change, Rehang):
                    drawn += _door(board, repair.scenario, change.door)
                elif isinstance(change, GiveUpFixture):
                    drawn += _fixture(board, repair.scenario, change.fixture)
                elif isinstance(change, GiveUpOpening):
                    drawn += _window(board, repair.scenario, change.window)
            if (
                one.key[0] in ("smaller", "move", "untie", "turn", "wish")
                and one.names[0] in shapes
            ):
                drawn.append(_round(board, shapes[one.names[0]], one.names[0]))
        return drawn

    return draw


def _round(board: Board, shape: Polygon, name: str, dash: Sequence[float] = ()) -> Artist:
    style: Style = board.style
    ring: list[Vector] = list(shape.exterior.coords)
    gid = f"gives:{name}"
    return board.lines([ring], THICK, style.accent, ABOVE, dash=tuple(dash), gid=gid)


def _strip(board: Board, scene: Scene, change: LowerClearance) -> list[Artist]:
    placed = scene.find(change.piece)
    own = next(c for c in placed.piece.clearances if c.name == change.clearance)
    gid = f"gives:{change.piece}"
    if change.to == 0:
        # A strip of no depth is the side itself, less what it leaves out.
        side = scene.zone(placed, own, own.sides[0], 1).intersection(placed.body.buffer(0.5))
        ends = side.minimum_rotated_rectangle.exterior.coords
        edges = [LineString(pair) for pair in pairwise(ends)]
        line = list(max(edges, key=lambda e: e.length).coords)
        return [board.lines([line], 2 * THICK, board.style.accent, ABOVE, dash=DASH, gid=gid)]
    sides = scene.free_sides(placed, own, change.to) or own.sides
    zone = scene.zone(placed, own, sides[0], change.to)
    edge = _round(board, zone, change.piece, DASH)
    return [board.fill(zone, TINT, UNDER, gid=f"strip:{change.piece}"), edge]


def _door(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    room = scenario.room
    door = next(d for d in room.doors if d.name == name)
    leaf, arc = leaf_and_arc(room.walls[door.wall], door, board.style.wall)
    swing = board.lines([arc], THICK, board.style.accent, ABOVE, dash=DASH, gid=f"gives:{name}")
    return [_round(board, leaf, name), swing]


def _fixture(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    fixture = next(f for f in scenario.room.fixtures if f.name == name)
    shape = fixture_shape(fixture)
    if shape.is_empty and fixture.wall is not None:
        wall = scenario.room.walls[fixture.wall]
        shape = wall_strip(wall, fixture.offset, max(fixture.width, DEEP), DEEP)
    return [] if shape.is_empty else [_round(board, shape, name)]


def _window(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    room = scenario.room
    window = next(w for w in room.windows if w.name == name)
    strip = wall_strip(room.walls[window.wall], window.offset, window.width, DEEP)
    return [_round(board, strip, name, DASH)]


HEAD = 9.0  # height in mm of the line with number and score
LARGEST, SMALLEST = 8.0, 5.0  # points, of the changes; notes are one less
TEXT = 0.45  # of a cell's height at most, where a smaller text can help
MOST = 4  # more would be too small to compare
KEY = 6.5
BESIDE = 55.0  # width in mm of text that stands beside its plan
LEAST = 25.0  # mm each way, for a plan


@dataclass(frozen=True, slots=True)
class _Layout:
    """Columns, cell size in mm, size of the text in points, text beside the plan or above."""

    columns: int
    width: float
    height: float
    text: float
    size: float
    beside: bool

    def plan(self) -> Box:
        """The place of the plan in a cell at the corner of the page."""
        if self.beside:
            return Box(BESIDE + 3, HEAD, self.width - BESIDE - 3, self.height - HEAD)
        return Box(0, HEAD + self.text, self.width, self.height - HEAD - self.text)


@even_metres
def repair_sheet(repairs: Repairs, *, style: Style = STYLE) -> Figure:
    """The proposals on one landscape sheet (297 x 210 mm), all plans at the same scale.

    Each has its changes in words with its plan, and the score of the best arrangement
    found; what gives is marked on the plan. The first four are drawn. ValueError if
    there is no proposal.
    """
    shown = repairs.repairs[:MOST]
    if not shown:
        raise ValueError("no proposal: there is nothing to draw")
    page = Page(style)
    top, foot = MARGIN + 11, page.height - MARGIN - 2 * line_height(KEY)
    layouts = _layouts(shown, page.width - 2 * MARGIN, foot - top)
    layout = max(layouts, key=lambda one: _scale(shown, one.plan(), style))
    ratio = printed_scale(_scale(shown, layout.plan(), style))
    note = f"1:{ratio} printed on A4"
    room = page.width - 2 * MARGIN - text_width(note, 7.5) - 6
    write_title(page, f"{repairs.scenario.title}: what would have to give", room)
    page.write(page.width - MARGIN, MARGIN + 5, note, 7.5, colour=style.quiet, align="right")
    for number, repair in enumerate(shown):
        row, column = divmod(number, layout.columns)
        left = MARGIN + column * (layout.width + GAP)
        cell = Box(left, top + row * (layout.height + GAP), layout.width, layout.height)
        _draw_text(page, number + 1, repair, cell, layout)
        plan = layout.plan()
        place = Box(left + plan.left, cell.top + plan.top, plan.width, plan.height)
        _draw(page, repair, place, ratio)
    _draw_key(page, repairs)
    return page.figure


def _scale(shown: Sequence[Repair], plan: Box, style: Style) -> float:
    """Points for one mm at which every plan fits; a door may open outwards in one of them."""
    width, height = plan.width / MM_PER_POINT, plan.height / MM_PER_POINT
    rooms = [p.scenario.room for p in shown]
    return min(largest_scale(r, width, height, BARE_MARGINS, style.wall) for r in rooms)


def _layouts(shown: Sequence[Repair], width: float, height: float) -> list[_Layout]:
    """Every way to set the cells: so many columns, the text above its plan or beside it."""
    found = []
    for columns in range(1, len(shown) + 1):
        rows = -(-len(shown) // columns)
        wide = (width - (columns - 1) * GAP) / columns
        high = (height - (rows - 1) * GAP) / rows
        for beside in (False, True):
            column = BESIDE if beside else wide
            size = _size(shown, column, high - HEAD if beside else (high - HEAD) * TEXT)
            text = max(_height(p, column, size) for p in shown)
            if text < high - HEAD - LEAST and (not beside or wide > BESIDE + LEAST):
                found.append(_Layout(columns, wide, high, text, size, beside))
    # Text that fits nowhere is cut by the sheet's edge rather than hiding a plan.
    return found or [_Layout(len(shown), width / len(shown) - GAP, height, 60.0, SMALLEST, False)]


def _size(shown: Sequence[Repair], width: float, most: float) -> float:
    """The largest text that leaves the plans their room, in half points."""
    size = LARGEST
    while size > SMALLEST and max(_height(p, width, size) for p in shown) > most:
        size -= 0.5
    return size


def _paragraphs(repair: Repair, size: float) -> list[tuple[str, float, bool]]:
    """Every change in bold, its note below it: text, size, boldness."""
    found = []
    for one in repair.gives:
        found.append((_capital(one.words), size, True))
        if one.note:
            found.append((_capital(one.note), size - 1, False))
    return found


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _height(repair: Repair, width: float, size: float) -> float:
    parts = _paragraphs(repair, size)
    return sum(text_height(t, s, width, bold) + 0.8 for t, s, bold in parts) + 1.0


def _draw_text(page: Page, number: int, repair: Repair, box: Box, layout: _Layout) -> None:
    style, baseline = page.style, box.top + 5.0
    page.write(box.left, baseline, f"{number}", 12.0, bold=True)
    after = box.left + text_width(f"{number}", 12.0, bold=True) + 3
    score = points(repair.suggestion.verdict.score)
    page.write(after, baseline, score, 12.0, bold=True, colour=style.accent)
    after += text_width(score, 12.0, bold=True) + 1.5
    page.write(after, baseline, f"of 100; costs {repair.cost}", 7.0, colour=style.quiet)
    page.rule(box.left, box.top + 7.0, box.width)
    top = box.top + HEAD
    width = BESIDE if layout.beside else box.width
    for text, points_high, bold in _paragraphs(repair, layout.size):
        colour = style.accent if bold else style.quiet
        top = page.paragraph(
            box.left, top, width, text, points_high, colour=colour, bold=bold, gid="change"
        )
        top += 0.8


def _draw(page: Page, repair: Repair, place: Box, ratio: int) -> None:
    style, room = page.style, repair.scenario.room
    _, low, _, high = drawn_extent(room, style.wall).bounds
    tall = (high - low) / ratio + (BARE_MARGINS[1] + BARE_MARGINS[3]) * MM_PER_POINT
    axes = page.axes(Box(place.left, place.top, place.width, min(place.height, tall)))
    board = make_board(axes, room, style, BARE_MARGINS, ratio)
    options = PlanOptions(small=True, over=marks_of(repair))
    draw_plan(board, repair.scenario, repair.suggestion.arrangement, options)


def _draw_key(page: Page, repairs: Repairs) -> None:
    unit = repairs.scenario.unit
    key = (
        "Thick line: what gives; dashed: a strip of floor that came down, or is given up. Hatched: "
        f"floor kept free to use a piece. Walkway {measured(repairs.scenario.walkway, unit)} "
        "unless said otherwise. Costs say what is dearer than what: our own judgement, unless "
        "your file has others."
    )
    top = page.height - MARGIN - 2 * line_height(KEY) + 1.5
    width = page.width - 2 * MARGIN
    page.paragraph(MARGIN, top, width, key, KEY, colour=page.style.quiet, gid="key")
