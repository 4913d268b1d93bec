"""The sheets of why nothing works: what lacks in a conflict, and the ways out side by side.

The first shows the closest arrangement with what lacks and the sum; the second the plans
of the repairs at one scale, what gives marked. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from matplotlib.figure import Figure
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.change import GiveUpFixture, GiveUpOpening, LowerClearance, Rehang
from arrange.data.conflict import Arithmetic, Conflict, Requirement, Section
from arrange.data.lengths import measured, points
from arrange.data.repair import Repair, Repairs
from arrange.data.room import Room, Vector
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import ABOVE, Board, polygons
from arrange.draw.floor import ways
from arrange.draw.grid import Cell, Paragraph, Setting, draw_grid
from arrange.draw.labels import Wanted, write_beside
from arrange.draw.openings import drawn_leaves
from arrange.draw.page import MARGIN, Bit, Page, line_height
from arrange.draw.plan import Marks, PlanOptions, draw_line_with_ticks
from arrange.draw.sheet import COLUMN, beside_column, column_left, draw_to_scale, key_words
from arrange.draw.style import LEAST, STYLE, Style
from arrange.draw.symbols import Drawn
from arrange.draw.text import as_sentence
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, wall_strip
from arrange.rules.requirement import NEVER, Quantity
from arrange.whatif.lacking import with_length
from arrange.whatif.requirements import declared, describe, keep_only, kind_of, quantities
from arrange.words.why import proof

SIZE = 8.0
NUMBER = 6.0  # mm for the number before a line
THICK = 1.6
DASH = (3.2, 2.2)


def conflict_sheet(
    scenario: Scenario, conflict: Conflict, number: int = 1, total: int = 1, *, style: Style = STYLE
) -> Figure:
    """One conflict on a landscape sheet (297 x 210 mm); it is set ``number`` of ``total``.

    The plan shows the closest arrangement: what lacks most is drawn as asked for, with
    what it runs into hatched closely. Without an arithmetic that has an arrangement, the
    one that exists without the last requirement is shown. ValueError if there is none at all.
    """
    page = Page(style)
    _draw_plan(page, scenario, conflict)
    _draw_words(page, scenario, conflict, number, total, column_left(page))
    return page.figure


def drawable(conflict: Conflict) -> bool:
    """Whether there is an arrangement to draw."""
    near = conflict.arithmetic is not None and conflict.arithmetic.arrangement is not None
    return near or bool(conflict.without)


def _shown(
    scenario: Scenario, conflict: Conflict
) -> tuple[Scenario, Arrangement, Requirement | None]:
    """What to draw, and which requirement is not there in it."""
    figures = conflict.arithmetic
    quantity = _quantity(scenario, figures)
    if figures is not None and figures.arrangement is not None and quantity is not None:
        near = with_length(keep_only(scenario, conflict.requirements), quantity, figures.most)
        return replace(near, room=scenario.room), figures.arrangement, None
    if not conflict.without:
        raise ValueError("nothing was found that could be drawn")
    # A set without one of its rules says more than one without a piece.
    rules = declared(scenario)
    last = next(
        (
            w
            for w in reversed(conflict.without)
            if kind_of(rules[w.requirement], w.requirement).dispensable < NEVER
        ),
        conflict.without[-1],
    )
    rest = keep_only(scenario, [r for r in conflict.requirements if r != last.requirement])
    return replace(rest, room=scenario.room), last.arrangement, last.requirement


def _draw_plan(page: Page, scenario: Scenario, conflict: Conflict) -> None:
    shown, arrangement, missing = _shown(scenario, conflict)
    figures = conflict.arithmetic
    quantity = _quantity(scenario, figures)

    def over(board: Board, _: list[Drawn]) -> None:
        if figures is not None and figures.arrangement is not None:
            _draw_marks(board, shown, figures, quantity)

    options = PlanOptions(walkway=ways(shown, arrangement) if shown.walks else None, over=over)
    place = beside_column(page, page.height - MARGIN - 5)
    key = " ".join((_key(scenario, quantity, missing), *key_words(shown, walks=shown.walks)))
    draw_to_scale(page, shown, arrangement, place, options, key, lines=5)


def _key(scenario: Scenario, quantity: Quantity | None, missing: Requirement | None) -> str:
    """What is there of all that was asked for, and how what lacks is shown."""
    if missing is not None:
        return f"What is listed, all but this: {describe(scenario, missing)}."
    said = "The closest we can get with what is listed."
    if quantity is not None and quantity.outline is not None:
        said += " Dashed: as asked for. Closely hatched: what is missing."
    return said


def _quantity(scenario: Scenario, figures: Arithmetic | None) -> Quantity | None:
    """What the figures say the most of."""
    if figures is None or figures.requirement is None:
        return None
    asked = quantities(scenario, [figures.requirement])
    return next(q for q in asked if q.side == figures.side)


def _draw_marks(
    board: Board, shown: Scenario, figures: Arithmetic, quantity: Quantity | None
) -> None:
    """What lacks, as asked for, and the line that makes the sum."""
    asked, there = _outlines(shown, figures, quantity)
    style = board.style
    if asked is not None:
        _draw_lack(board, asked.difference(there.buffer(1, join_style="mitre")))
        board.outline(asked, THICK + 1.2, style.paper, ABOVE - 0.2, ink=False)
        board.outline(asked, THICK, style.loss, ABOVE - 0.1, dash=DASH, gid="asked")
    if figures.section is not None:
        _draw_section(board, figures.section, shown.unit)


def _outlines(
    shown: Scenario, figures: Arithmetic, quantity: Quantity | None
) -> tuple[Polygon | None, BaseGeometry]:
    """What is lacking as asked for, and as much of it as there is."""
    if quantity is None or quantity.outline is None or figures.arrangement is None:
        return None, Polygon()
    scene = Scene(shown, figures.arrangement)
    return quantity.outline(scene, figures.asked), quantity.outline(scene, figures.most)


def _draw_lack(board: Board, shape: BaseGeometry) -> None:
    """Close upright and level lines: told from clearances without colour."""
    style = board.style
    for part in polygons(shape):
        pale = board.fill(part, style.paper, ABOVE - 0.4, gid="lack", alpha=0.55)
        x0, y0, x1, y1 = part.bounds
        step = board.mm(2.6)
        runs = [
            [(x0 + i * step, y0), (x0 + i * step, y1)] for i in range(int((x1 - x0) / step) + 1)
        ]
        runs += [
            [(x0, y0 + i * step), (x1, y0 + i * step)] for i in range(int((y1 - y0) / step) + 1)
        ]
        lines = board.lines(runs, 0.5, style.loss, ABOVE - 0.3, ink=False)
        lines.set_clip_path(pale)
        board.ink.add_shape(part)


def _draw_section(board: Board, section: Section, unit: Unit) -> None:
    """The line from wall to wall with a tick and a length for every stretch."""
    style = board.style
    across = abs(section.end[0] - section.start[0]) > abs(section.end[1] - section.start[1])

    def at(along: int) -> Vector:
        return (along, section.start[1]) if across else (section.start[0], along)

    ends = [section.crossed[0].start, *(part.end for part in section.crossed)]
    points = [at(v) for v in ends]
    board.lines([[points[0], points[-1]]], 3.0, style.paper, ABOVE - 0.1, ink=False)
    draw_line_with_ticks(board, points, style.accent, ABOVE + 0.5, "section")
    for part in section.crossed:
        lacks = part.asked != part.end - part.start
        size = measured(part.end - part.start, unit, "down" if lacks else "near")
        text = f"{size} of {measured(part.asked, unit)}" if lacks else size
        sizes = (style.dimension_size + 1, style.dimension_size)
        colour = style.loss if lacks else style.accent
        wanted = Wanted((text,), sizes, colour, bold=True)
        write_beside(board, at(part.start), at(part.end), wanted, "section:text")


def _draw_words(
    page: Page, scenario: Scenario, conflict: Conflict, number: int, total: int, left: float
) -> None:
    """Title, the numbered list, the sum, and what is proven."""
    style = page.style
    top = page.title(scenario.title, left, MARGIN, COLUMN) + 1.5
    which = f" ({number} of {total})" if total > 1 else ""
    head = f"You cannot have all of these{which}"
    top = page.paragraph(left, top, COLUMN, head, 10.0, bold=True, colour=style.loss) + 1.5
    for i, requirement in enumerate(conflict.requirements, start=1):
        mark = Bit(f"{i}", SIZE, style.accent, bold=True)
        text = describe(scenario, requirement, conflict.requirements)
        top = page.item(left, top, COLUMN, mark, text, SIZE, indent=NUMBER, gid="member") + 1.0
    top += 2.0
    page.rule(left, top, COLUMN)
    top += 3.0
    if conflict.arithmetic is not None:
        figures = conflict.arithmetic
        if figures.sum:
            top = page.paragraph(left, top, COLUMN, figures.sum, SIZE + 1, bold=True, gid="sum")
            top += 1.5
        top = page.paragraph(left, top, COLUMN, figures.sentence, SIZE, gid="most") + 3.0
    page.paragraph(left, top, COLUMN, proof(conflict), SIZE - 1, colour=style.quiet, gid="proof")


GIVING = 2.2  # points
OUTLINED = ("smaller", "move", "untie", "turn", "wish")  # what gives is the piece itself
GIVEN_UP = (4.0, 2.4)
UNDER = 2.0  # z below all pieces
DEEP = 150  # mm of floor marked before an opening that is given up
MOST = 4  # more would be too small to compare
# Changes are read before their plan, and as large as leaves the plans their room.
SETTING = Setting((8.0, 7.5, LEAST), beside=(55.0, 45.0), first=True)
KEY = LEAST


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
    title = f"{repairs.scenario.title}: what would help"
    foot = 2 * line_height(KEY)
    numbers = draw_grid(page, title, cells, page.below(MARGIN + 11, foot), setting=SETTING)
    _draw_key(page, repairs, numbers)
    return page.figure


def _cell(number: int, repair: Repair, style: Style) -> Cell:
    return Cell(
        Bit(f"{number}", 12.0, bold=True),
        Bit(points(repair.suggestion.verdict.score), 12.0, style.accent, bold=True, gap=1.5),
        Bit(f"of 100; effort {repair.cost}", 7.0, style.quiet),
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
            note = as_sentence(one.note) + (f" [{one.source}]" if one.source else "")
            yield Paragraph(note, colour=style.quiet, gid="change")


def _draw_key(page: Page, repairs: Repairs, numbers: str) -> None:
    unit = repairs.scenario.unit
    key = (
        "Thick line: what changes; dashed: floor that is narrower, or given up. "
        f"{' '.join(key_words(repairs.scenario, walks=False))} "
        f"Walkway {measured(repairs.scenario.walkway, unit)} unless said otherwise. "
        "The more a change takes, the higher its effort: our own judgement, unless your file says "
        "otherwise."
    )
    key = f"{numbers}. {key}" if numbers else key
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
    board.outline(shape, GIVING, board.style.accent, ABOVE, dash=dash, gid=f"gives:{name}")


def _strip(board: Board, scene: Scene, change: LowerClearance) -> None:
    placed, name = scene.find(change.piece), change.piece
    own = next(c for c in placed.piece.clearances if c.name == change.clearance)
    if change.to == 0:
        # A strip of no depth is the side itself, less what it leaves out.
        side = scene.zone(placed, own, own.sides[0], 1).intersection(placed.body.buffer(0.5))
        ends = pairwise(side.minimum_rotated_rectangle.exterior.coords)
        line = max(ends, key=lambda pair: math.dist(*pair))
        colour = board.style.accent
        board.lines([line], 2 * GIVING, colour, ABOVE, dash=GIVEN_UP, gid=f"gives:{name}")
        return
    sides = scene.free_sides(placed, own, change.to) or own.sides
    zone = scene.zone(placed, own, sides[0], change.to)
    board.fill(zone, board.style.given, UNDER, gid=f"strip:{name}")
    _round(board, zone, name, GIVEN_UP)


def _door(board: Board, room: Room, name: str) -> None:
    door = next(d for d in room.all_doors if d.name == name)
    for leaf in drawn_leaves(room.walls[door.wall], door, board.style.wall):
        gid = f"gives:{name}"
        board.lines(leaf.way, GIVING, board.style.accent, ABOVE, dash=GIVEN_UP, gid=gid)
        for panel in leaf.panels:
            _round(board, panel, name)


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
    _round(board, strip, name, GIVEN_UP)
