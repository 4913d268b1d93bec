"""The sheet of the empty room as measured, to be checked with the tape.

At the left the room with every dimension, a note for each opening and fixture, and its
corners by number; at the right what cannot fit whatever happens, the lines between
corners to tape, and the list of pieces. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from copy import copy
from itertools import combinations, pairwise

import numpy as np
from matplotlib.figure import Figure
from shapely import box, unary_union
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from arrange.data.lengths import area, is_nought, measured, sized
from arrange.data.piece import Piece
from arrange.data.room import BOXED, FAN, Beam, Door, Dormer, Fixture, Room, Vector, Wall, Window
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import Board
from arrange.draw.labels import Wanted, write_beside, write_nearby
from arrange.draw.openings import draw_built_in
from arrange.draw.overhead import draw_overhead, height_words, low_lines, name_overhead
from arrange.draw.page import (
    MARGIN,
    Box,
    Page,
    and_more,
    ascent,
    line_height,
    text_width,
)
from arrange.draw.plan import (
    draw_line_with_ticks,
    draw_scale_bar,
    draw_shell,
    draw_way_in,
    drawn_extent,
    on_paper,
    printed_board,
)
from arrange.draw.sheet import COLUMN, GUTTER, column_left
from arrange.draw.style import LEAST, STYLE, Style
from arrange.draw.symbols import draw_fixture, draw_point, has_body, shown_at
from arrange.geometry.shapes import fixture_shape, opening_span, room_shape

MARGINS = (48.0, 66.0, 48.0, 48.0)
# Distances of dimension lines in points: outside from the outer face, inside from the inner.
NEAR_TIER, FAR_TIER, INNER_TIER = 11.0, 27.0, 15.0

# The numbers of corners.
NUMBER = LEAST
INSIDE = (10.4, 13.0, 16.0)  # points from the corner into the room, in order of liking
OUTSIDE = (7.0, 10.0, 14.0, 18.0)  # points from the outer face of the wall
TURNS = (0, 20, -20, 40, -40, 60, -60, 80, -80)  # degrees off the straight way in or out
OWN = 0.75  # a number lies this much nearer to its own corner than to any other
UNDER = 500  # what hangs higher lets the tape pass below

# The column at the right.
SIZE = LEAST
USUAL = "* typical size, not in your file: measure it"


def survey_sheet(
    scenario: Scenario,
    messages: Sequence[str] = (),
    taped: Sequence[str] = (),
    *,
    style: Style = STYLE,
) -> Figure:
    """The empty room with every measure, so that a slip of the tape is seen at once.

    ``messages`` say what cannot fit whatever happens; they head the list of
    pieces. ``taped`` says what was made of the tape.
    """
    page = Page(style)
    left = column_left(page)
    wide = left - GUTTER - MARGIN
    top = page.head(scenario.title, width=wide) + 4
    page.write(MARGIN, top, "The room as measured", 9.0, colour=style.quiet)
    place = Box(MARGIN, top + 3, wide, page.height - MARGIN - top - 3)
    _draw_room(page, scenario, place)
    top = draw_messages(page, messages, left, MARGIN)
    top = draw_room_facts(page, scenario, corner_to_corner(scenario.room), left, top)
    for sentence in taped:
        top = page.paragraph(left, top, COLUMN, sentence, SIZE, gid="taped") + 0.9
    top += 3.0 if taped else 0.0
    draw_pieces_list(page, scenario, left, top, page.height - MARGIN)
    return page.figure


def _draw_room(page: Page, scenario: Scenario, place: Box) -> None:
    room, unit, style = scenario.room, scenario.unit, page.style
    board, ratio = printed_board(page.axes(place), room, style, MARGINS)
    draw_measured(board, room, unit, on_paper(ratio), numbered=True)
    draw_notes(board, room, unit)
    name_overhead(board, room, unit)


def draw_measured(board: Board, room: Room, unit: Unit, note: str, *, numbered: bool) -> None:
    """The empty room with the length of every wall, its scale bar and ``note``.

    ``numbered`` gives the corners their numbers.
    """
    draw_shell(board, room)
    draw_overhead(board, room, unit)
    draw_way_in(board, room)
    for fixture in room.fixtures:
        if has_body(fixture):
            draw_fixture(board, fixture)
        else:
            draw_point(board, room, fixture)
        draw_built_in(board, room, fixture)
    body = drawn_extent(room, board.style.wall)
    corner = (body.bounds[0], body.bounds[1] - board.mm(58))
    draw_scale_bar(board, corner, unit, note)
    _dimension_walls(board, room, unit, numbered=numbered)


def _dimension_walls(board: Board, room: Room, unit: Unit, *, numbered: bool) -> None:
    """Every wall's length with its name, and nearer to it the chain of its openings.

    All lines come before the corners' numbers, and these before all texts, so that
    no text takes the place of a line or of a number.
    """
    every: tuple[Door | Window, ...] = (*room.doors, *room.windows)
    walls: list[tuple[Wall, list[float], float | None, float | None]] = []
    for i, wall in enumerate(room.walls):
        openings = [o for o in every if o.wall == i]
        swings = [d.reach for d in room.all_doors if d.wall == i and not d.opens_in]
        beyond = max(swings, default=0) * board.scale + NEAR_TIER
        ends = sorted({0.0, wall.length, *(e for o in openings for e in _span(o))})
        if openings:
            chain = _line(board, wall, ends, (NEAR_TIER, -INNER_TIER, beyond))
            tiers: tuple[float, ...] = (FAR_TIER, beyond, beyond + 16, -INNER_TIER, -2 * INNER_TIER)
        else:
            chain, tiers = None, (NEAR_TIER, -INNER_TIER)
        whole = _line(board, wall, [0.0, wall.length], tiers)
        walls.append((wall, ends, chain, whole))
    if numbered:
        number_corners(board, room)
    for wall, ends, chain, whole in walls:
        for start, end in pairwise(ends) if len(ends) > 2 else ():
            _write_on(board, wall, start, end, chain, measured(round(end - start), unit))
        name = f"{wall.name}  {measured(round(wall.length), unit)}"
        _write_on(board, wall, 0.0, wall.length, whole, name, bold=True)


def _span(opening: Door | Window) -> tuple[float, float]:
    return float(opening.offset), float(opening.offset + opening.width)


def _line(board: Board, wall: Wall, ends: Sequence[float], tiers: Sequence[float]) -> float | None:
    """Draw a dimension line at the first free distance; returns its inward offset in mm."""
    for tier in tiers:
        off = -(board.style.wall + board.mm(tier)) if tier > 0 else -board.mm(tier)
        points = [wall.point(e, off) for e in ends]
        inset = min(board.mm(2), wall.length / 4)
        probe = LineString([wall.point(ends[0] + inset, off), wall.point(ends[-1] - inset, off)])
        samples = np.array(
            [probe.interpolate(s, normalized=True).coords[0] for s in np.linspace(0, 1, 200)]
        )
        if not board.ink.under(samples).any() and board.ink.inside(samples):
            draw_line_with_ticks(board, points, board.style.line, gid=f"dimension:{wall.name}")
            return off
    return None


def _write_on(
    board: Board,
    wall: Wall,
    start: float,
    end: float,
    off: float | None,
    text: str,
    *,
    bold: bool = False,
) -> None:
    style = board.style
    wanted = Wanted((text,), (style.dimension_size,), style.text, bold)
    gid = f"wall:{wall.name}" if bold else f"measure:{wall.name}"
    if off is None:
        target = LineString([wall.point(start), wall.point(end)])
        write_nearby(board, target, wanted, gid, tip="")
        return
    write_beside(board, wall.point(start, off), wall.point(end, off), wanted, gid)


def draw_notes(board: Board, room: Room, unit: Unit) -> None:
    """One note for each opening and fixture; doors last, which leave most places to be told from.

    A radiator under a window shares the window's note: two leaders to the same
    stretch of wall would cross.
    """
    style = board.style
    shared: list[Fixture] = []
    for window in room.windows:
        under = [f for f in room.fixtures if has_body(f) and f not in shared and _meets(f, window)]
        shared += under
        lines = [window.name, *_window_lines(window, unit)]
        lines += [f"{f.name} below: {_fixture_words(f, unit)}" for f in under]
        target = LineString(opening_span(room, window))
        _write_inside(board, room, unit, target, lines, style.accent, f"note:{window.name}")
    for fixture in room.fixtures:
        target_shape = shown_at(room, fixture)
        if fixture in shared or target_shape is None:
            continue
        lines = [line for line in (fixture.name, _fixture_words(fixture, unit)) if line]
        _write_inside(board, room, unit, target_shape, lines, style.quiet, f"note:{fixture.name}")
    for door in room.doors:
        lines = [door.name, f"{measured(door.height, unit)} high, {_swing_words(door)}"]
        target = LineString(opening_span(room, door))
        _write_inside(board, room, unit, target, lines, style.accent, f"note:{door.name}")


def _write_inside(
    board: Board,
    room: Room,
    unit: Unit,
    target: BaseGeometry,
    lines: list[str],
    colour: str,
    gid: str,
) -> None:
    """Write in the room, folded at the commas if need be, so that dimensions have the outside.

    Off the lines of a sloping ceiling if there is room for that; only where the room itself
    has no place does the note go out.
    """
    text = "\n".join(lines)
    wanted = Wanted((text, text.replace(", ", ",\n")), (board.style.note_size,), colour)
    everywhere, outside = board.solid, box(*board.view).difference(room_shape(room))
    low = [line for line, _ in low_lines(room, unit)]

    def off(lines: Sequence[LineString]) -> bool:
        board.solid = copy(everywhere)
        board.solid.marks = everywhere.marks.copy()
        board.solid.add_shape(outside)
        for line in lines:
            board.solid.add_line(list(line.coords))
        return write_nearby(board, target, wanted, gid)

    written = off(low) or (bool(low) and off(()))
    board.solid = everywhere
    if not written:
        write_nearby(board, target, wanted, gid)


def _meets(fixture: Fixture, window: Window) -> bool:
    return (
        fixture.wall == window.wall
        and fixture.offset < window.offset + window.width
        and window.offset < fixture.offset + fixture.width
    )


def _window_lines(window: Window, unit: Unit) -> list[str]:
    lines = [f"sill {measured(window.sill, unit)}, head {measured(window.head, unit)}"]
    said = {
        "tilts": window.tilts,
        "must open": window.must_open,
        "way of escape": window.escape,
        f"curtains {measured(window.curtains, unit)} at each side": window.curtains > 0,
    }
    words = [word for word, on in said.items() if on]
    if window.french is not None:
        words.insert(0, f"French window, {_swing_words(window.french)}")
    return [*lines, ", ".join(words)] if words else lines


def _swing_words(door: Door) -> str:
    """How it opens, and to which side.

    >>> _swing_words(Door("door", 0, 0, 800, "folding in"))
    'folds in, hung left'
    """
    if door.opens == "passage":
        return "open passage"
    double, one = door.leaves == 2, door.hinge
    if not door.reach:
        where = " on the wall" if door.opens == "sliding on the wall" else ""
        return f"{'two leaves slide' if double else 'slides'}{where} to " + (
            "both sides" if double else f"the {one}"
        )
    way = "in" if door.opens_in else "out"
    if door.folds:
        return f"two leaves fold {way}" if double else f"folds {way}, hung {one}"
    told = f"two leaves open {way}" if double else f"opens {way}, hinged {one}"
    return f"stable door, {told}" if door.stable else told


def _fixture_words(fixture: Fixture, unit: Unit) -> str:
    words = _size_words(fixture, unit)
    if fixture.wall is not None:
        far = measured(fixture.offset, unit)
        words.append("at the left end" if is_nought(far) else f"{far} from the left")
    if fixture.leaves:
        leaves = "leaf" if fixture.leaves == 1 else "leaves"
        words.append(f"{fixture.leaves} {fixture.doors} {leaves}")
    if fixture.kind == "stairs":
        where = "in front" if fixture.steps == "front" else f"on the {fixture.steps}"
        words.append(f"steps begin {where}")
    if fixture.underside:
        high = measured(fixture.underside, unit, "down")
        words.append(f"open below, up to {high} at the other end")
    if fixture.kind == BOXED:
        words.append(f"{measured(fixture.top, unit)} high")
    if fixture.low_top:
        end = fixture.low_end
        where = f"at the {end}" if end in ("front", "back") else f"on the {end}"
        words.append(f"{measured(fixture.low_top, unit)} {where}")
    if not fixture.guarded:
        words.append("no railing")
    if (fixture.hangs or not has_body(fixture)) and fixture.bottom:
        words.append(f"{measured(fixture.bottom, unit)} up")
    return ", ".join(words)


def _size_words(fixture: Fixture, unit: Unit) -> list[str]:
    """How large it is on the floor; of a fire set into its wall how wide. Nothing of a point."""
    if not has_body(fixture):
        return [f"{measured(fixture.width, unit)} wide"] if fixture.burns else []
    bounds = fixture_shape(fixture).bounds
    across = fixture.width or round(bounds[2] - bounds[0])
    deep = fixture.depth or round(bounds[3] - bounds[1])
    round_fan = fixture.kind == FAN
    return [f"{measured(across, unit)} across" if round_fan else sized((across, deep), unit)]


def number_corners(board: Board, room: Room) -> None:
    """Write the number of every corner: in the room, else outside the wall, else on a leader.

    None is left out, as the list of lines to tape goes by these numbers.
    """
    for i, corner in enumerate(room.corners):
        text, gid = str(i + 1), f"corner:{i + 1}"
        at = _place(board, room, i, board.size(text, NUMBER))
        if at is not None:
            board.text(at, text, NUMBER, colour=board.style.quiet, gid=gid)
            continue
        wanted = Wanted((text,), (NUMBER,), board.style.quiet)
        if not write_nearby(board, Point(corner), wanted, gid, tip=""):
            board.text(_places(board, room, i)[0], text, NUMBER, colour=board.style.quiet, gid=gid)


def _place(board: Board, room: Room, i: int, size: Vector) -> Vector | None:
    """The best free place for the number of corner ``i``, on the floor or off the walls."""
    corner = room.corners[i]
    others = [c for c in room.corners if c != corner]
    for at in _places(board, room, i):
        near = math.dist(at, corner)
        if any(near > OWN * math.dist(at, other) for other in others):
            continue
        if board.free(at, size) and not board.solid.under(board.samples(at, size, 0.0)).any():
            return at
    return None


def _places(board: Board, room: Room, i: int) -> list[Vector]:
    """Places to try for the number of corner ``i``, best first."""
    floor, corner = room_shape(room), room.corners[i]
    before, after = room.walls[i - 1], room.walls[i]
    dx, dy = before.inward[0] + after.inward[0], before.inward[1] + after.inward[1]
    inward = math.degrees(math.atan2(dy, dx))
    thick = board.style.wall * 2 / max(math.hypot(dx, dy), 0.5)
    inner = [board.mm(p) for p in INSIDE]
    outer = [thick + board.mm(p) for p in OUTSIDE]
    return [
        *(at for at in _round(corner, inward, inner) if floor.contains(Point(at))),
        *(at for at in _round(corner, inward + 180, outer) if not floor.contains(Point(at))),
    ]


def _round(corner: Vector, angle: float, reaches: Sequence[float]) -> Iterator[Vector]:
    for reach in reaches:
        for turn in TURNS:
            a = math.radians(angle + turn)
            yield corner[0] + reach * math.cos(a), corner[1] + reach * math.sin(a)


def corner_to_corner(room: Room, most: int = 4) -> list[tuple[int, int, float]]:
    """The longest straight lines between corners that can be taped: numbers and mm.

    Not through what is built in from the floor up, nor from a corner that such
    a thing fills.
    """
    floor, filled = room_shape(room).buffer(0.5), _filled(room)
    n = len(room.corners)
    found = []
    for i, j in combinations(range(n), 2):
        line = LineString([room.corners[i], room.corners[j]])
        if (j - i) % n in {1, n - 1} or not floor.covers(line):
            continue
        if not line.intersects(filled):
            found.append((i + 1, j + 1, float(line.length)))
    return sorted(found, key=lambda f: -f[2])[:most]


def _filled(room: Room) -> BaseGeometry:
    """The floor under solid fixtures, a millimetre wider for corners that they just reach."""
    return unary_union(
        [
            fixture_shape(f).buffer(1, join_style="mitre")
            for f in room.fixtures
            if f.solid and has_body(f) and f.bottom < UNDER
        ]
    )


def draw_messages(page: Page, messages: Sequence[str], left: float, top: float) -> float:
    """What cannot fit whatever happens, beside a bold stroke; returns the top of what follows."""
    if not messages:
        return top
    style, start, inner = page.style, top, COLUMN - 5
    top = page.paragraph(
        left + 5, top, inner, "Does not fit, whatever you do", 9.0, colour=style.loss, bold=True
    )
    for message in messages:
        top = page.paragraph(left + 5, top + 0.8, inner, message, SIZE, gid="message")
    page.bar(Box(left, start + 0.5, 1.4, top - start), style.loss)
    return top + 5


def draw_room_facts(
    page: Page,
    scenario: Scenario,
    diagonals: Sequence[tuple[int, int, float]],
    left: float,
    top: float,
) -> float:
    """Floor, ceiling, and the lines between corners to check with the tape."""
    unit = scenario.unit
    room = scenario.room
    walls, slopes = room.walls, room.slopes
    over: list[Beam | Dormer] = [*room.dormers, *room.beams]
    top = page.paragraph(left, top, COLUMN, "Check with the tape", 9.0, bold=True) + 0.8
    rows = [
        ("Floor", area(room_shape(scenario.room).area, unit)),
        ("Ceiling above the floor", measured(scenario.room.ceiling, unit)),
        *(
            (f"Ceiling at {walls[s.wall].part_of or walls[s.wall].name}", measured(s.height, unit))
            for s in slopes
        ),
        *((_overhead_place(room, one, unit), height_words(one, unit)) for one in over),
        *((f"Corner {a} to corner {b}", measured(round(mm), unit)) for a, b, mm in diagonals),
    ]
    for label, value in rows:
        top = _row(page, left, top, label, value, SIZE)
    return top + 4


def _overhead_place(room: Room, one: Beam | Dormer, unit: Unit) -> str:
    """Which beam or dormer, where it begins and how wide it is, as it was taped."""
    wall, (x0, y0, x1, y1) = room.walls[one.wall], one.box
    name, beside = one.name[:1].upper() + one.name[1:], wall.part_of or wall.name
    across = isinstance(one, Beam)
    away = [(wall.off if across else wall.coordinate)(*end) for end in ((x0, y0), (x1, y1))]
    begins = round(min(away)) if isinstance(one, Beam) else one.offset
    begins_at = f"{measured(begins, unit)} from {beside if across else f'the left of {beside}'}"
    return f"{name}, {begins_at}, {measured(round(abs(away[1] - away[0])), unit)} wide"


def _row(page: Page, left: float, top: float, label: str, value: str, size: float) -> float:
    style = page.style
    room = COLUMN - text_width(value, size) - 4
    after = page.paragraph(left, top, room, label, size)
    page.write(left + COLUMN, top + ascent(size), value, size, colour=style.quiet, align="right")
    return after + 0.9


def size_words(piece: Piece, unit: Unit) -> str:
    """Width, depth and height, how high it hangs, and a star where that is not measured."""
    text = sized((piece.width, piece.depth, piece.height), unit)
    text = f"{text}, {measured(piece.bottom, unit)} up" if piece.bottom else text
    return f"{text} *" if piece.assumed else text


def draw_pieces_list(
    page: Page, scenario: Scenario, left: float, top: float, bottom: float
) -> None:
    """Every piece with its size; what has no room is counted."""
    unit, pieces = scenario.unit, scenario.pieces
    if not pieces:
        return
    top = page.paragraph(left, top, COLUMN, "Pieces", 9.0, bold=True)
    told = "width x depth x height" + (f"; {USUAL}" if any(p.assumed for p in pieces) else "")
    top = page.paragraph(left, top, COLUMN, told, SIZE, colour=page.style.quiet)
    top += 0.8
    for i, piece in enumerate(pieces):
        if top + 2 * line_height(SIZE) > bottom and i < len(pieces) - 1:
            page.paragraph(left, top, COLUMN, and_more(len(pieces) - i), SIZE)
            return
        top = _row(page, left, top, piece.name, size_words(piece, unit), SIZE)
