"""One arrangement drawn as a plan, true to scale, on the axes given. Lengths in mm.

From the floor up: the shell (cut walls, doors with their swing, windows), what is built
in, the free floor, the pieces, marks on them, measures, and names. Measured lines have ticks:
dimensions, tight gaps; beside them stand the scale bar and the arrow at the way in.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from shapely import unary_union
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import Rounding, is_nought, measured
from arrange.data.result import Gap
from arrange.data.room import Door, Room, Vector, Window
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import ABOVE, Board
from arrange.draw.floor import (
    clearance_floor,
    draw_clear_square,
    draw_hatching,
    draw_walkway,
    name_clear_square,
)
from arrange.draw.labels import (
    Wanted,
    direction,
    draw_names,
    draw_wall_names,
    name_built_in,
    write_beside,
)
from arrange.draw.openings import draw_built_in, draw_door, draw_window, drawn_leaves
from arrange.draw.overhead import draw_overhead, name_overhead
from arrange.draw.style import MM_PER_POINT, STYLE, Style
from arrange.draw.symbols import Drawn, draw_fixture, draw_pieces, draw_point, has_body, shown_at
from arrange.geometry.shapes import (
    opening_span,
    room_shape,
    wall_strip,
)


def wall_body(room: Room, thickness: int) -> BaseGeometry:
    """The walls as cut: outside the outline, ``thickness`` mm, openings left out."""
    openings: tuple[Door | Window, ...] = (*room.doors, *room.windows)
    holes = [
        wall_strip(room.walls[o.wall], o.offset, o.width, 1, start=-thickness * 1.6)
        for o in openings
    ]
    return outer_face(room, thickness).difference(unary_union([room_shape(room), *holes]))


def outer_face(room: Room, thickness: int) -> Polygon:
    """All within the outer face of the walls, floor and openings with it."""
    return room_shape(room).buffer(thickness, join_style="mitre", mitre_limit=3.0)


def draw_shell(board: Board, room: Room) -> None:
    """Floor, walls, doors and windows."""
    style = board.style
    floor = room_shape(room)
    body = wall_body(room, style.wall)
    board.fill(floor, style.floor, 0.0, gid="floor")
    board.fill(body, style.cut, 6.0, gid="walls", edge=style.edge, width=style.cut_width)
    walls = outer_face(room, style.wall).difference(floor)
    board.solid.add_shape(walls)
    board.ink.add_shape(walls)
    for window in room.windows:
        draw_window(board, room, window)
    for door in room.doors:
        draw_door(board, room, door)


# Paper kept round the walls, in points: left, below, right, above.
Margins = tuple[float, float, float, float]
FULL_MARGINS = (36.0, 42.0, 20.0, 18.0)
BARE_MARGINS = (9.5, 9.5, 9.5, 9.5)
Marks = Callable[[Board, list[Drawn]], None]
# Scales of printed plans, as one to so many: fine steps keep the plan large.
SCALES = (*range(5, 100, 5), *range(100, 501, 10))


@dataclass(frozen=True, slots=True)
class PlanOptions:
    """What a plan shows beside walls, openings, fixtures and pieces.

    ``over`` draws marks on the pieces before anything is named, so that names keep
    clear of what it adds to the board's ink. ``clear`` is the clear floor to outline.
    ``rounded`` says how the gaps are: ``near`` to place something by. With
    ``numbers`` a small piece without room for its name goes by a number of theirs.
    """

    gaps: tuple[Gap, ...] = ()
    rounded: Rounding = "down"
    clearances: bool = True
    walkway: BaseGeometry | None = None
    small: bool = False
    note: str = ""
    over: Marks | None = None
    clear: Polygon | None = None
    numbers: dict[str, str] | None = None


@dataclass(frozen=True, slots=True)
class PlanArtists:
    """What was drawn. ``unnamed`` lists the pieces whose name found no place."""

    axes: Axes
    artists: tuple[Artist, ...]
    unnamed: tuple[str, ...] = ()

    def of(self, gid: str) -> list[Artist]:
        """The artists marked ``gid``, such as ``piece:Desk`` or ``name:Desk``."""
        return [a for a in self.artists if a.get_gid() == gid]


def plot_plan(
    scenario: Scenario,
    arrangement: Arrangement,
    ax: Axes | None = None,
    *,
    gaps: Sequence[Gap] = (),
    clearances: bool = True,
    walkway: BaseGeometry | None = None,
    style: Style = STYLE,
) -> PlanArtists:
    """Draw ``arrangement`` to scale and return what was drawn.

    Parameters
    ----------
    scenario, arrangement
        The room with its pieces, and where they stand.
    ax
        Axes to draw on; they are filled and keep their place on the figure.
        None makes a new figure of 200 x 170 mm.
    gaps
        Gaps to dimension, ends in mm of the plan.
    clearances
        Whether to hatch the floor that the pieces need at least.
    walkway
        The floor of the way through the room, or its middle line; mm.
    style
        Colours, line widths, text sizes.
    """
    if ax is None:
        figure = Figure(figsize=(200 / 25.4, 170 / 25.4), dpi=150)
        FigureCanvasAgg(figure)
        ax = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    board = make_board(ax, scenario.room, style, FULL_MARGINS)
    return draw_plan(
        board,
        scenario,
        arrangement,
        PlanOptions(tuple(gaps), clearances=clearances, walkway=walkway),
    )


def drawn_extent(room: Room, thickness: int) -> Polygon:
    """The box round the walls and the doors that swing outward; mm."""
    swings = [
        shape
        for d in room.all_doors
        if d.reach and not d.opens_in
        for leaf in drawn_leaves(room.walls[d.wall], d, thickness)
        for shape in (*leaf.panels, *map(LineString, leaf.way))
    ]
    return box(*unary_union([outer_face(room, thickness), *swings]).bounds)


def axes_size(ax: Axes) -> tuple[float, float]:
    """Width and height of the axes on paper, in points."""
    figure = ax.get_figure(root=True)
    if figure is None:
        raise ValueError("the axes belong to no figure")
    bounds = ax.get_position(original=True)
    inches = figure.get_size_inches()
    return float(bounds.width * inches[0] * 72), float(bounds.height * inches[1] * 72)


def largest_scale(room: Room, width: float, height: float, margins: Margins, wall: int) -> float:
    """Points on paper for one mm of the room, so that all fits ``width`` x ``height`` points."""
    x0, y0, x1, y1 = drawn_extent(room, wall).bounds
    left, below, right, above = margins
    scale: float = min(
        max(width - left - right, 20.0) / (x1 - x0), max(height - below - above, 20.0) / (y1 - y0)
    )
    return scale


def printed_scale(scale: float) -> int:
    """The next smaller usual scale, as one to so many."""
    exact = 1 / (scale * MM_PER_POINT)
    return next((s for s in SCALES if s >= exact - 1e-9), math.ceil(exact / 100) * 100)


def make_board(
    ax: Axes,
    room: Room,
    style: Style,
    margins: Margins,
    ratio: int | None = None,
) -> Board:
    """Set the axes true to scale round the room; ``ratio`` 50 means 1:50."""
    width, height = axes_size(ax)
    scale = (
        1 / (ratio * MM_PER_POINT)
        if ratio
        else largest_scale(room, width, height, margins, style.wall)
    )
    x0, y0, x1, y1 = drawn_extent(room, style.wall).bounds
    left, below, right, above = margins
    cx = (x0 + x1) / 2 + (right - left) / 2 / scale
    cy = (y0 + y1) / 2 + (above - below) / 2 / scale
    dx, dy = width / scale / 2, height / scale / 2
    view = (cx - dx, cy - dy, cx + dx, cy + dy)
    ax.set_xlim(view[0], view[2])
    ax.set_ylim(view[1], view[3])
    ax.set_aspect("equal", adjustable="box")
    ax.set_axis_off()
    return Board(ax, view, scale, style)


def printed_board(ax: Axes, room: Room, style: Style, margins: Margins) -> tuple[Board, int]:
    """A board at the largest usual printed scale that fits, and that scale."""
    ratio = printed_scale(largest_scale(room, *axes_size(ax), margins, style.wall))
    return make_board(ax, room, style, margins, ratio), ratio


def on_paper(ratio: int, paper: str = "A4") -> str:
    """The scale as the sheets tell it.

    >>> on_paper(50)
    '1:50 printed on A4'
    """
    return f"1:{ratio} printed on {paper}"


def draw_plan(
    board: Board, scenario: Scenario, arrangement: Arrangement, options: PlanOptions
) -> PlanArtists:
    """Everything on the plan, from the floor up; text before the hatching under it."""
    room, unit = scenario.room, scenario.unit
    bodies = [fixture for fixture in room.fixtures if has_body(fixture)]
    draw_shell(board, room)
    draw_overhead(board, room, unit)
    for fixture in bodies:
        draw_fixture(board, fixture)
        draw_built_in(board, room, fixture)
    if options.walkway is not None:
        draw_walkway(board, room, options.walkway, scenario.walkway)
    placed = draw_pieces(board, scenario, arrangement)
    draw_way_in(board, room)
    if options.over is not None:
        options.over(board, placed)
    for fixture in room.fixtures:
        if fixture not in bodies:
            draw_point(board, room, fixture)
            draw_built_in(board, room, fixture)
    if options.clear is not None:
        draw_clear_square(board, options.clear)
    zone = clearance_floor(scenario, arrangement, placed) if options.clearances else Polygon()
    board.soft.add_shape(zone, 0.7)
    if not options.small:
        body = drawn_extent(room, board.style.wall)
        draw_overall(board, room, unit, body)
        corner = (body.bounds[0] + board.style.wall, body.bounds[1] - board.mm(37))
        draw_scale_bar(board, corner, unit, options.note)
    draw_gaps(board, options.gaps, unit, options.rounded)
    # A name outside the walls is found later than one on the floor beside the piece.
    board.soft.add_shape(box(*board.view).difference(room_shape(room)), 0.9)
    if not options.small:
        draw_wall_names(board, room)
        name_overhead(board, room, unit, unary_union([drawn.shape for drawn in placed]))
    unnamed = draw_names(board, placed, options.numbers)
    built_in = ((fixture.name, shown_at(room, fixture)) for fixture in room.fixtures)
    name_built_in(board, [(n, at) for n, at in built_in if at is not None], options.numbers)
    if options.clear is not None:
        name_clear_square(board, options.clear, unit)
    draw_hatching(board, zone)
    return PlanArtists(board.ax, tuple(board.artists), unnamed)


def draw_line_with_ticks(
    board: Board, points: Sequence[Vector], colour: str, z: float = 8.0, gid: str = ""
) -> None:
    """A dimension line through ``points`` with a slanting tick at each."""
    (ux, uy), _ = direction(points[0], points[-1])
    r = board.mm(2.2)
    slant = ((ux - uy) * r * 0.7071, (uy + ux) * r * 0.7071)
    ticks = [[(x - slant[0], y - slant[1]), (x + slant[0], y + slant[1])] for x, y in points]
    past = board.mm(2.0)
    first, last = points[0], points[-1]
    line = [
        (first[0] - ux * past, first[1] - uy * past),
        (last[0] + ux * past, last[1] + uy * past),
    ]
    board.solid.add_line(line)
    board.lines([line, *ticks], board.style.dimension_width, colour, z, gid=gid)


def draw_gaps(board: Board, gaps: Iterable[Gap], unit: Unit, rounded: Rounding) -> None:
    """The tightest gaps, each with its length beside it; nobody measures one of nought."""
    style = board.style
    told = [(gap, measured(gap.length, unit, rounded)) for gap in gaps]
    kept = [(g, t) for g, t in told if math.dist(g.start, g.end) > 1 and not is_nought(t)]
    for gap, _ in kept:
        gid = f"gap:{'|'.join(gap.between)}"
        draw_line_with_ticks(board, [gap.start, gap.end], style.accent, ABOVE, gid)
    for gap, label in kept:
        wanted = Wanted((label,), (style.dimension_size,), style.accent, bold=True)
        write_beside(board, gap.start, gap.end, wanted)


def draw_overall(board: Board, room: Room, unit: Unit, body: Polygon) -> None:
    """The room's greatest width below and height at the left, outside ``body``."""
    style = board.style
    x0, y0, x1, y1 = room.bounds
    below = body.bounds[1] - board.mm(17)
    beside = body.bounds[0] - board.mm(17)
    for start, end, size in (
        ((x1, below), (x0, below), x1 - x0),
        ((beside, y0), (beside, y1), y1 - y0),
    ):
        draw_line_with_ticks(board, [start, end], style.line, gid="overall")
        wanted = Wanted((measured(size, unit),), (style.dimension_size,), style.text)
        write_beside(board, start, end, wanted, "overall:text")


def draw_scale_bar(board: Board, corner: Vector, unit: Unit, note: str = "") -> None:
    """One metre (three feet in inches) in two halves, its left end at ``corner``."""
    style = board.style
    whole, label = (914.4, "3 ft") if unit == "in" else (1000.0, "1 m")
    h = board.mm(2.6)
    x, y = corner
    for start, end, fill in ((0, whole / 2, style.cut), (whole / 2, whole, style.paper)):
        half = box(x + start, y, x + end, y + h)
        board.fill(half, fill, 8.0, "scale bar", edge=style.cut, width=0.6)
    text = f"{label}   {note}" if note else label
    w, _ = board.size(text, style.note_size)
    at = (x + whole + board.mm(3) + w / 2, y + h / 2)
    board.text(at, text, style.note_size, colour=style.quiet, gid="scale")


def draw_way_in(board: Board, room: Room) -> None:
    """A small arrow outside the door people come in by, pointing into the room."""
    door = room.main_door
    if door is None:
        return
    (ax, ay), (bx, by) = opening_span(room, door)
    nx, ny = room.walls[door.wall].inward
    ux, uy = room.walls[door.wall].along
    middle = ((ax + bx) / 2, (ay + by) / 2)
    tip = board.style.wall + board.mm(2.5)
    base, half = tip + board.mm(6), board.mm(3.2)

    def at(along: float, out: float) -> Vector:
        return middle[0] + ux * along - nx * out, middle[1] + uy * along - ny * out

    arrow = Polygon([at(0, tip), at(half, base), at(-half, base)])
    board.ink.add_shape(arrow)
    board.solid.add_shape(arrow)
    board.fill(arrow, board.style.accent, 8.0, gid="way in")
