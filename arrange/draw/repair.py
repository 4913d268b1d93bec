"""What would have to give: the plans of the proposals side by side, what gives marked.

Marks on a plan for what gives: pieces, strips of floor, doors, windows, fixtures.
Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from matplotlib.artist import Artist
from matplotlib.figure import Figure
from shapely.geometry import LineString, Polygon

from arrange.data.change import GiveUpFixture, GiveUpOpening, LowerClearance, Rehang
from arrange.data.lengths import measured, points
from arrange.data.repair import Repair, Repairs
from arrange.data.scenario import Scenario
from arrange.draw.board import ABOVE, Board
from arrange.draw.grid import Cell, Paragraph, Setting, best_layout, common_ratio, draw_cells
from arrange.draw.page import MARGIN, Bit, Box, Page, even_metres, line_height
from arrange.draw.plan import Marks, PlanOptions, leaf_and_arc, on_paper
from arrange.draw.style import STYLE, Style
from arrange.draw.symbols import Drawn
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
    top, foot = MARGIN + 11, page.height - MARGIN - 2 * line_height(KEY)
    place = Box(MARGIN, top, page.width - 2 * MARGIN, foot - top)
    layout = best_layout(cells, place, SETTING, style)
    ratio = common_ratio(cells, layout, style)
    page.head(f"{repairs.scenario.title}: what would have to give", on_paper(ratio))
    draw_cells(page, cells, layout, ratio)
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
        yield Paragraph(_capital(one.words), colour=style.accent, bold=True, gid="change")
        if one.note:
            yield Paragraph(_capital(one.note), colour=style.quiet, smaller=1.0, gid="change")


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


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
            if one.key[0] in OUTLINED and one.names[0] in shapes:
                drawn.append(_round(board, shapes[one.names[0]], one.names[0]))
        return drawn

    return draw


def _round(board: Board, shape: Polygon, name: str, dash: tuple[float, ...] = ()) -> Artist:
    return board.outline(shape, THICK, board.style.accent, ABOVE, dash=dash, gid=f"gives:{name}")


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
