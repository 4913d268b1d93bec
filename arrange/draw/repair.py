"""What would have to give: the plans of the proposals side by side, what gives marked.

Marks on a plan for what gives: pieces, strips of floor, doors, windows, fixtures.
Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from matplotlib.figure import Figure
from shapely.geometry import Polygon

from arrange.data.change import GiveUpFixture, GiveUpOpening, LowerClearance, Rehang
from arrange.data.lengths import measured, points
from arrange.data.repair import Repair, Repairs
from arrange.data.room import Room
from arrange.draw.board import ABOVE, Board
from arrange.draw.grid import Cell, Paragraph, Setting, draw_grid
from arrange.draw.page import MARGIN, Bit, Page, even_metres, line_height
from arrange.draw.plan import Marks, PlanOptions, leaf_and_arc
from arrange.draw.style import STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.draw.text import as_sentence
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, wall_strip

THICK = 2.2  # points
OUTLINED = ("smaller", "move", "untie", "turn", "wish")  # what gives is the piece itself
DASH = (4.0, 2.4)
UNDER = 2.0  # z below all pieces
TINT = "#cfe3ea"
DEEP = 150  # mm of floor marked before an opening that is given up
MOST = 4  # more would be too small to compare
# Changes are read before their plan, and as large as leaves the plans their room.
SETTING = Setting((8.0, 7.5, 7.0, 6.5, 6.0, 5.5, 5.0), beside=55.0, first=True)
KEY = 6.5


@even_metres
def repair_sheet(repairs: Repairs, *, style: Style = STYLE) -> Figure:
    """The proposals on one landscape sheet (297 x 210 mm), all plans at the same scale.

    Each has its changes in words with its plan, and the score of the best arrangement
    found; what gives is marked on the plan. The first four are drawn. ValueError if
    there is no proposal.
    """
    cells = [_cell(n, one, style) for n, one in enumerate(repairs.repairs[:MOST], start=1)]
    if not cells:
        raise ValueError("no proposal: there is nothing to draw")
    page = Page(style)
    title = f"{repairs.scenario.title}: what would have to give"
    foot = 2 * line_height(KEY)
    draw_grid(page, title, cells, page.below(MARGIN + 11, foot), setting=SETTING)
    _draw_key(page, repairs)
    return page.figure


def _cell(number: int, repair: Repair, style: Style) -> Cell:
    return Cell(
        Bit(f"{number}", 12.0, bold=True),
        Bit(points(repair.suggestion.verdict.score), 12.0, style.accent, bold=True, gap=1.5),
        Bit(f"of 100; costs {repair.cost}", 7.0, style.quiet),
        repair.scenario,
        repair.suggestion.arrangement,
        PlanOptions(small=True, over=marks_of(repair)),
        list(_paragraphs(repair, style)),
    )


def _paragraphs(repair: Repair, style: Style) -> Iterator[Paragraph]:
    """Every change in bold, its note below it."""
    for one in repair.gives:
        yield Paragraph(as_sentence(one.words), colour=style.accent, bold=True, gid="change")
        if one.note:
            yield Paragraph(as_sentence(one.note), colour=style.quiet, smaller=1.0, gid="change")


def _draw_key(page: Page, repairs: Repairs) -> None:
    unit = repairs.scenario.unit
    key = (
        "Thick line: what gives; dashed: a strip of floor that came down, or is given up. Hatched: "
        f"floor kept free to use a piece. Walkway {measured(repairs.scenario.walkway, unit)} "
        "unless said otherwise. Costs say what is dearer than what: our own judgement, unless "
        "your file has others."
    )
    top = page.height - MARGIN - 2 * line_height(KEY) + 1.5
    page.paragraph(MARGIN, top, page.inner, key, KEY, colour=page.style.quiet, gid="key")


def marks_of(repair: Repair) -> Marks:
    """Draws a thick line round each piece that gives, and along what else does.

    A strip that came down is tinted with a dashed edge; one given up altogether is a
    dashed line along its side. What is left out is not there to be marked.
    """

    def draw(board: Board, placed: list[Drawn]) -> None:
        shapes = {d.piece.name: d.shape for d in placed}
        scenario = repair.scenario
        scene = Scene(scenario, repair.suggestion.arrangement)
        for one in repair.gives:
            for change in one.changes:
                if isinstance(change, LowerClearance):
                    _strip(board, scene, change)
                elif isinstance(change, Rehang):
                    _door(board, scenario.room, change.door)
                elif isinstance(change, GiveUpFixture):
                    _fixture(board, scenario.room, change.fixture)
                elif isinstance(change, GiveUpOpening):
                    _window(board, scenario.room, change.window)
            if one.key[0] in OUTLINED and one.names[0] in shapes:
                _round(board, shapes[one.names[0]], one.names[0])

    return draw


def _round(board: Board, shape: Polygon, name: str, dash: tuple[float, ...] = ()) -> None:
    board.outline(shape, THICK, board.style.accent, ABOVE, dash=dash, gid=f"gives:{name}")


def _strip(board: Board, scene: Scene, change: LowerClearance) -> None:
    placed, name = scene.find(change.piece), change.piece
    own = next(c for c in placed.piece.clearances if c.name == change.clearance)
    if change.to == 0:
        # A strip of no depth is the side itself, less what it leaves out.
        side = scene.zone(placed, own, own.sides[0], 1).intersection(placed.body.buffer(0.5))
        ends = pairwise(side.minimum_rotated_rectangle.exterior.coords)
        line = max(ends, key=lambda pair: math.dist(*pair))
        colour = board.style.accent
        board.lines([line], 2 * THICK, colour, ABOVE, dash=DASH, gid=f"gives:{name}")
        return
    sides = scene.free_sides(placed, own, change.to) or own.sides
    zone = scene.zone(placed, own, sides[0], change.to)
    board.fill(zone, TINT, UNDER, gid=f"strip:{name}")
    _round(board, zone, name, DASH)


def _door(board: Board, room: Room, name: str) -> None:
    door = next(d for d in room.doors if d.name == name)
    leaf, arc = leaf_and_arc(room.walls[door.wall], door, board.style.wall)
    board.lines([arc], THICK, board.style.accent, ABOVE, dash=DASH, gid=f"gives:{name}")
    _round(board, leaf, name)


def _fixture(board: Board, room: Room, name: str) -> None:
    fixture = next(f for f in room.fixtures if f.name == name)
    shape = fixture_shape(fixture)
    if shape.is_empty and fixture.wall is not None:
        wall = room.walls[fixture.wall]
        shape = wall_strip(wall, fixture.offset, max(fixture.width, DEEP), DEEP)
    if not shape.is_empty:
        _round(board, shape, name)


def _window(board: Board, room: Room, name: str) -> None:
    window = next(w for w in room.windows if w.name == name)
    strip = wall_strip(room.walls[window.wall], window.offset, window.width, DEEP)
    _round(board, strip, name, DASH)
