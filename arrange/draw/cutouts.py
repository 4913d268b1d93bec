"""The pieces at the scale of the plan, to cut out and push about on the empty room.

Each lies with its front down the sheet, and beside it dashed the floor it needs to be used.
Lengths in mm of the room unless said otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from matplotlib.axes import Axes
from shapely import unary_union
from shapely.geometry import Polygon

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import measured
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Room, Vector
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import ABOVE, Board
from arrange.draw.labels import Spot, Wanted, find_inside, sizes_between, write_first
from arrange.draw.page import line_height, text_width
from arrange.draw.style import MM_PER_POINT, Style
from arrange.draw.symbols import Drawn, draw_pieces
from arrange.draw.text import wrapped
from arrange.draw.tiles import Paper, Tiling, tiled
from arrange.geometry.outlines import edge
from arrange.geometry.shapes import clearance_zone, footprint, has_front

AIR = 5.0  # mm of paper between two pieces
MARK = 2.4  # mm of paper: height of the mark at a front
NAME = 7.0  # points
LOW, NAMED = 12.0, 45.0  # mm of paper: a piece too low for its name; width of one beneath it
DASH = (4.0, 2.5)


@dataclass(frozen=True, slots=True)
class CutOuts:
    """One sheet, or several joined for one large piece: which pieces, and where."""

    tiling: Tiling
    places: tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class _Item:
    """A piece with its clearances, and room for its name beneath; sizes in mm of paper.

    Piece and clearances lie ``inset`` from the left.
    """

    placement: Placement
    width: float
    height: float
    inset: float = 0.0


def cut_outs(scenario: Scenario, ratio: int, paper: Paper) -> tuple[CutOuts, ...]:
    """All pieces, high ones first, in rows on as many sheets as it takes."""
    one_sheet = tiled(paper, 2.0, 1.0)
    inner = one_sheet.width - 2 * AIR, one_sheet.height - 2 * AIR
    items = [_lying(piece, scenario.room, ratio, inner) for piece in scenario.pieces]
    large = [one for one in items if one.width > inner[0] or one.height > inner[1]]
    fitting = [one for one in items if one not in large]
    fitting.sort(key=lambda one: (-one.height, -one.width, one.placement.piece))
    found = [
        CutOuts(one_sheet, tuple(_put(one, scenario, ratio, one_sheet, at) for one, at in sheet))
        for sheet in _packed(fitting, one_sheet)
    ]
    for one in large:
        tiling = tiled(paper, one.width + 2 * AIR, one.height + 2 * AIR)
        found.append(CutOuts(tiling, (_put(one, scenario, ratio, tiling, (AIR, AIR)),)))
    return tuple(found)


def _lying(piece: Piece, room: Room, ratio: int, inner: tuple[float, float]) -> _Item:
    """Its front down the sheet, or to the right where only so it fits."""
    down, right = (
        _sized(Placement(piece.name, facing), piece, room, ratio) for facing in ("down", "right")
    )
    fits = [one for one in (down, right) if one.width <= inner[0] and one.height <= inner[1]]
    return fits[0] if fits else down


def _sized(placement: Placement, piece: Piece, room: Room, ratio: int) -> _Item:
    x0, y0, x1, y1 = _all_of(piece, placement, room).bounds
    wide, high = (x1 - x0) / ratio, (y1 - y0) / ratio
    left, low, right, top = footprint(piece, placement, room).bounds
    room_for_it = (right - left) / ratio > text_width(piece.name, NAME) + 4
    if room_for_it and (top - low) / ratio > LOW:
        return _Item(placement, wide, high)
    lines = _beneath(piece.name)
    width = max(wide, *(text_width(line, NAME) + 2 for line in lines))
    return _Item(placement, width, high + len(lines) * line_height(NAME) + 2, (width - wide) / 2)


def _beneath(name: str) -> tuple[str, ...]:
    """The lines of a name that is written beneath its piece."""
    return wrapped(name, NAME, NAMED / MM_PER_POINT)


@dataclass(slots=True)
class _Row:
    """A row of pieces on a sheet: where it begins, how high it is, how far it is filled."""

    sheet: int
    top: float
    height: float
    filled: float = AIR


def _packed(items: Sequence[_Item], tiling: Tiling) -> list[list[tuple[_Item, Vector]]]:
    """The pieces of each sheet with their upper left corners, in mm of paper.

    Each goes into the first row that has room for it. Rows are as high as their first
    piece, so the items come high ones first.
    """
    rows: list[_Row] = []
    found: list[list[tuple[_Item, Vector]]] = []
    for one in items:
        row = next((r for r in rows if r.filled + one.width <= tiling.width - AIR), None)
        if row is None:
            row = _next_row(rows, one.height, tiling.height)
            rows.append(row)
            found += [[] for _ in range(row.sheet + 1 - len(found))]
        found[row.sheet].append((one, (row.filled, row.top)))
        row.filled += one.width + AIR
    return found


def _next_row(rows: Sequence[_Row], height: float, page: float) -> _Row:
    """Below the rows of the first sheet that has room for it, else on a new sheet."""
    feet: dict[int, float] = {}
    for row in rows:
        feet[row.sheet] = row.top + row.height + AIR
    for sheet, foot in feet.items():
        if foot + height <= page - AIR:
            return _Row(sheet, foot, height)
    return _Row(len(feet), AIR, height)


def _put(
    one: _Item, scenario: Scenario, ratio: int, tiling: Tiling, at: tuple[float, float]
) -> Placement:
    """Its place on the sheet; ``at`` is its upper left corner in mm of paper."""
    piece = scenario.piece(one.placement.piece)
    x0, _, _, y1 = _all_of(piece, one.placement, scenario.room).bounds
    x = round((at[0] + one.inset) * ratio - x0)
    y = round((tiling.height - at[1]) * ratio - y1)
    return Placement(piece.name, one.placement.facing, x, y)


def _all_of(piece: Piece, placement: Placement, room: Room) -> Polygon:
    zones = [zone for _, zone in _zones(piece, placement, room)]
    return unary_union([footprint(piece, placement, room), *zones])


def _zones(piece: Piece, placement: Placement, room: Room) -> list[tuple[Clearance, Polygon]]:
    """The floor it needs at least, on every side that would do."""
    return [
        (clearance, clearance_zone(piece, placement, room, clearance, side, clearance.least))
        for clearance in piece.clearances
        if clearance.least > 0
        for side in clearance.sides
    ]


def draw_cut_outs(ax: Axes, scenario: Scenario, sheet: CutOuts, ratio: int, style: Style) -> None:
    """The pieces of a sheet on ``ax``, each with its name."""
    view = (0.0, 0.0, sheet.tiling.width * ratio, sheet.tiling.height * ratio)
    ax.set_xlim(view[0], view[2])
    ax.set_ylim(view[1], view[3])
    ax.set_axis_off()
    board = Board(ax, view, 1 / (ratio * MM_PER_POINT), style)
    arrangement = Arrangement(sheet.places)
    placed = draw_pieces(board, scenario, arrangement)
    zones = {
        one.number: _zones(one.piece, arrangement.of(one.piece.name), scenario.room)
        for one in placed
    }
    for one in placed:
        gid = f"cut:{one.piece.name}"
        board.outline(one.shape, style.outline_width, style.edge, ABOVE, gid=gid)
        _mark_front(board, one, MARK * ratio)
        for _, zone in zones[one.number]:
            board.outline(zone, 0.7, style.accent, ABOVE - 1, dash=DASH, gid="clearance")
    for one in placed:
        _name(board, one, [zone for _, zone in zones[one.number]])
        for clearance, zone in zones[one.number]:
            _tell(board, zone, _words(clearance, scenario.unit))


def _name(board: Board, one: Drawn, zones: Sequence[Polygon]) -> None:
    """The name of a piece: in it where it fits, else beneath it and the floor it needs.

    Never in short: once cut out, three chairs would be one like the other.
    """
    style, name, gid = board.style, one.piece.name, f"name:{one.piece.name}"
    wanted = Wanted((name,), sizes_between(style.name_size, NAME), style.text)
    place = find_inside(board, one.shape, one.number, one.spot, 0.0, wanted)
    if place is not None:
        board.text(place.centre, place.text, place.size, angle=place.angle, gid=gid, pad=0.8)
        return
    text = "\n".join(_beneath(name))
    left, _, right, _ = one.shape.bounds
    _, low, _, _ = unary_union([one.shape, *zones]).bounds
    _, high = board.size(text, NAME)
    board.text(((left + right) / 2, low - high / 2 - board.mm(1.5)), text, NAME, gid=gid)


def _mark_front(board: Board, one: Drawn, size: float) -> None:
    """A small triangle inside the middle of its front, pointing out; a rug or a plant has none."""
    if one.piece.flat or not has_front(one.piece):
        return
    depth, start, end = edge(one.piece, "front")
    high, middle = min(size, depth * 0.3, (end - start) * 0.3), (start + end) / 2
    corners = ((middle - high * 0.7, depth - high), (middle + high * 0.7, depth - high))
    shape = Polygon([one.frame.at(*at) for at in (*corners, (middle, depth))])
    board.fill(shape, board.style.edge, ABOVE + 1, f"front:{one.piece.name}")
    board.ink.add_shape(shape)


def _words(clearance: Clearance, unit: Unit) -> tuple[str, ...]:
    """How deep the strip is, and whether another one would do as well."""
    deep, sides = measured(clearance.least, unit), set(clearance.sides)
    if sides in ({"left", "right"}, {"front", "back"}):
        return f"{deep} free here or on the other side", f"{deep}, or other side", deep
    if len(sides) > 1:
        return f"{deep} free on one of these sides", f"{deep}, one side", deep
    return f"{deep} free", deep


def _tell(board: Board, zone: Polygon, texts: tuple[str, ...]) -> None:
    """Inside the strip, along it; nothing where there is no room."""
    style = board.style
    wanted = Wanted(texts, (NAME,), style.accent)
    write_first(board, partial(_within, zone), wanted, "clearance:text")


def _within(zone: Polygon, text: Vector) -> Iterator[Spot]:
    x0, y0, x1, y1 = zone.bounds
    wide, high = x1 - x0, y1 - y0
    for angle, (w, h) in ((0.0, text), (90.0, (text[1], text[0]))):
        if w >= wide or h >= high:
            continue
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            along = wide >= high
            x = x0 + (max(w / 2, min(wide - w / 2, wide * share)) if along else wide / 2)
            y = y0 + (max(h / 2, min(high - h / 2, high * share)) if not along else high / 2)
            yield (x, y), angle
