"""Plain symbols for pieces and for what is built in, and both drawn in their places.

A piece's symbol is strokes in its own frame: ``a`` mm from its left, ``b`` mm from its
back. Its name goes to ``spot``. Everything scales with the piece, so a small one stays
simple. Fixtures are drawn from the words in their kind. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from shapely.geometry import LineString, Point, Polygon

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import BOXED, FAN, Fixture, Room, Vector
from arrange.data.scenario import Scenario
from arrange.draw.board import Board, Polyline
from arrange.geometry.outlines import outline
from arrange.geometry.shapes import Frame, fixture_shape, footprint, frame

OVERHEAD = 1000  # an underside this far above the floor is drawn as hanging over it, mm


@dataclass(frozen=True, slots=True)
class Symbol:
    """Strokes inside the outline, the tint, and where a name reads best."""

    tint: str
    strokes: tuple[Polyline, ...] = ()
    dashed: tuple[Polyline, ...] = ()
    spot: Vector | None = None
    outline_dashed: bool = False


def box_run(a0: float, b0: float, a1: float, b1: float) -> Polyline:
    """A closed rectangle."""
    return [(a0, b0), (a1, b0), (a1, b1), (a0, b1), (a0, b0)]


def round_run(a0: float, b0: float, a1: float, b1: float, radius: float) -> Polyline:
    """A closed rectangle with rounded corners."""
    r = max(0.0, min(radius, (a1 - a0) / 2, (b1 - b0) / 2))
    middles = ((a1 - r, b1 - r, 0), (a0 + r, b1 - r, 1), (a0 + r, b0 + r, 2), (a1 - r, b0 + r, 3))
    turns = [(ca, cb, math.pi / 2 * (q + i / 6)) for ca, cb, q in middles for i in range(7)]
    points = [(ca + r * math.cos(turn), cb + r * math.sin(turn)) for ca, cb, turn in turns]
    return [*points, points[0]]


def circle_run(a: float, b: float, radius: float, steps: int = 40) -> Polyline:
    """A closed circle."""
    return oval_run(a, b, radius, radius, steps)


def oval_run(a: float, b: float, across: float, ahead: float, steps: int = 40) -> Polyline:
    """A closed oval about a point, reaching so far to its sides and to its front."""
    turns = [math.tau * i / steps for i in range(steps + 1)]
    return [(a + across * math.cos(t), b + ahead * math.sin(t)) for t in turns]


def _bed(w: int, d: int) -> Symbol:
    rim, head, back = min(60.0, w * 0.05), min(420.0, d * 0.22), min(70.0, d * 0.04)
    count = 2 if w >= 1300 else 1
    each = (w - rim * (count + 1)) / count
    lefts = [rim + i * (each + rim) for i in range(count)]
    pillows = [round_run(a, back, a + each, head, w * 0.04) for a in lefts]
    turn, band = head + d * 0.04, head + d * 0.12
    cover: list[Polyline] = [[(0, turn), (w, turn)], [(0, band), (w, band)]]
    return Symbol("rest", (*pillows, *cover), spot=(w / 2, (band + d) / 2))


def _framed_bed(piece: Piece) -> Symbol:
    """The headboard across its head, and the mattress with the pillows within the frame."""
    (wide, long), left, head = piece.mattress, piece.rails / 2, float(piece.headboard)
    plain = _bed(wide, long)
    inside = [[(left + a, head + b) for a, b in run] for run in plain.strokes]
    runs: list[Polyline] = [[(0, head), (piece.width, head)]] if head else []
    if piece.rails or piece.footboard:
        runs.append(round_run(left, head, left + wide, head + long, min(60.0, wide * 0.05)))
    a, b = plain.spot or (wide / 2, long / 2)
    return Symbol("rest", (*runs, *inside), spot=(left + a, head + b))


def _cot(w: int, d: int) -> Symbol:
    rim = min(40.0, min(w, d) * 0.08)
    long_a = w >= d
    span = w if long_a else d
    near, far, end = rim * 2, span * 0.22, (d if long_a else w) - rim * 2
    run = round_run(near, near, far, end, 40) if long_a else round_run(near, near, end, far, 40)
    return Symbol("rest", (box_run(rim, rim, w - rim, d - rim), run))


def _sofa(w: int, d: int) -> Symbol:
    back, arm = min(220.0, d * 0.24), min(160.0, w * 0.14)
    strokes: list[Polyline] = [[(arm, d), (arm, back), (w - arm, back), (w - arm, d)]]
    seats = max(1, round((w - 2 * arm) / 700))
    for i in range(1, seats):
        a = arm + (w - 2 * arm) * i / seats
        strokes.append([(a, back), (a, back + (d - back) * 0.22)])
        strokes.append([(a, d - (d - back) * 0.1), (a, d)])
    return Symbol("sit", tuple(strokes), spot=(w / 2, (back + d) / 2))


def _corner_sofa(piece: Piece) -> Symbol:
    """Its back along both outer sides, an end at each part, and seats that look out of both."""
    w, d, wide, deep = piece.width, piece.depth, piece.arm_width, piece.back_depth
    back, end = min(220.0, 0.24 * min(wide, deep)), min(160.0, 0.14 * w)
    runs: list[Polyline] = [
        [(w - end, deep), (w - end, back), (back, back), (back, d - end), (wide, d - end)],
        [(wide, back), (wide, deep), (back, deep)],
    ]
    runs += [[(a, back), (a, deep)] for a in _between_seats(wide, w - end)]
    runs += [[(back, b), (wide, b)] for b in _between_seats(deep, d - end)]
    spot = (wide + w - end) / 2, (back + deep) / 2
    if piece.arm_side == "right":
        runs = [[(w - a, b) for a, b in run] for run in runs]
        spot = w - spot[0], spot[1]
    return Symbol("sit", tuple(runs), spot=spot)


def _between_seats(start: float, end: float) -> list[float]:
    """Where one seat ends and the next begins, about 70 cm apart."""
    count = max(1, round((end - start) / 700))
    return [start + (end - start) * i / count for i in range(1, count)]


def _chair(w: int, d: int) -> Symbol:
    back = min(70.0, d * 0.15)
    return Symbol("sit", (box_run(0, 0, w, back),), spot=(w / 2, (back + d) / 2))


def _stool(w: int, d: int) -> Symbol:
    rim = min(w, d) * 0.06
    return Symbol("sit", (round_run(rim, rim, w - rim, d - rim, min(w, d) * 0.2),))


def _pouf(w: int, d: int) -> Symbol:
    rings = (oval_run(w / 2, d / 2, share * w / 2, share * d / 2) for share in (0.86, 0.1))
    return Symbol("sit", tuple(rings), spot=(w / 2, d * 0.7))


def _bean_bag(w: int, d: int) -> Symbol:
    dent = oval_run(w / 2, d * 0.6, w * 0.33, d * 0.3)
    return Symbol("sit", (dent,), spot=(w / 2, d * 0.6))


def _wardrobe(w: int, d: int) -> Symbol:
    rail = d * 0.3
    ends: list[Polyline] = [
        [(a, rail - d * 0.05), (a, rail + d * 0.05)] for a in (w * 0.04, w * 0.96)
    ]
    front: Polyline = [(0, d - min(30.0, d * 0.06)), (w, d - min(30.0, d * 0.06))]
    line: Polyline = [(w * 0.04, rail), (w * 0.96, rail)]
    return Symbol("store", (line, *ends, front), spot=(w / 2, d * 0.64))


def _chest(w: int, d: int) -> Symbol:
    front = min(35.0, d * 0.1)
    return Symbol("store", ([(0, d - front), (w, d - front)],), spot=(w / 2, (d - front) / 2))


def _open_shelves(w: int, d: int) -> Symbol:
    back = min(35.0, d * 0.12)
    return Symbol("store", ([(0, back), (w, back)],), spot=(w / 2, (d + back) / 2))


def _table(w: int, d: int) -> Symbol:
    return Symbol("table", spot=(w / 2, d / 2))


def _desk(w: int, d: int) -> Symbol:
    back = min(50.0, d * 0.09)
    return Symbol("table", ([(0, back), (w, back)],), spot=(w / 2, (d + back) / 2))


def _screen(w: int, d: int) -> Symbol:
    b = d * 0.3
    panel = box_run(w * 0.1, b, w * 0.9, b + min(60.0, d * 0.12))
    return Symbol("store", (panel,), spot=(w / 2, d * 0.7))


def _lamp(w: int, d: int) -> Symbol:
    r = min(w, d) / 2
    return Symbol("other", (circle_run(w / 2, d / 2, r * 0.94), circle_run(w / 2, d / 2, r * 0.22)))


def _plant(w: int, d: int) -> Symbol:
    r = min(w, d) / 2
    turns = [math.tau * i / 72 for i in range(73)]
    reaches = [r * (0.84 + 0.1 * math.cos(9 * t)) for t in turns]
    leaf = [
        (w / 2 + reach * math.cos(t), d / 2 + reach * math.sin(t))
        for t, reach in zip(turns, reaches, strict=True)
    ]
    return Symbol("green", (leaf, circle_run(w / 2, d / 2, r * 0.3)))


def _rug(w: int, d: int) -> Symbol:
    rim = min(90.0, min(w, d) * 0.07)
    return Symbol("rug", dashed=(box_run(rim, rim, w - rim, d - rim),), spot=(w / 2, d * 0.85))


def _panels(w: int, d: int) -> Symbol:
    at = ((0.0, 0.06), (0.25, 0.36), (0.5, 0.06), (0.75, 0.36), (1.0, 0.06))
    return Symbol("other", ([(w * a, d * b) for a, b in at],), spot=(w / 2, d * 0.68))


def _piano(w: int, d: int) -> Symbol:
    keys: list[Polyline] = [[(w * i / 14, d * 0.76), (w * i / 14, d)] for i in range(1, 14)]
    return Symbol("other", ([(0, d * 0.76), (w, d * 0.76)], *keys), spot=(w / 2, d * 0.38))


def _plain(w: int, d: int) -> Symbol:
    return Symbol("other", spot=(w / 2, d / 2))


Drawer = Callable[[int, int], Symbol]  # width and depth of the piece, mm

# First match wins: words looked for in the kind, then the role looked for.
BY_WORD: tuple[tuple[tuple[str, ...], Drawer], ...] = (
    (("rug", "carpet", "mat"), _rug),
    (("screen", "tv", "television", "media"), _screen),
    (("cot", "crib"), _cot),
    (("bedside", "nightstand", "chest", "drawer", "sideboard", "dresser", "cabinet"), _chest),
    (("sofa", "couch", "armchair", "loveseat", "daybed"), _sofa),
    (("pouf",), _pouf),
    (("bean",), _bean_bag),
    (("stool", "ottoman", "bench"), _stool),
    (("chair",), _chair),
    (("wardrobe",), _wardrobe),
    (("shelf", "shelves", "shelving", "bookcase"), _open_shelves),
    (("desk",), _desk),
    (("table",), _table),
    (("lamp",), _lamp),
    (("plant",), _plant),
    (("piano",), _piano),
    (("bed",), _bed),
)
BY_ROLE: tuple[tuple[str, Drawer], ...] = (
    ("rug", _rug),
    ("sleep", _bed),
    ("desk", _desk),
    ("dine", _table),
    ("screen", _screen),
    ("seat", _chair),
    ("light", _lamp),
    ("plant", _plant),
    ("store", _chest),
)


def _drawer(piece: Piece) -> Drawer:
    words = piece.kind.lower().replace("-", " ").replace("_", " ").split()
    if piece.is_a("lounge") and "bean" not in words:
        return _sofa
    if piece.is_a("divider"):
        return _panels
    for names, drawer in BY_WORD:
        if any(name in words or f"{name}s" in words for name in names):
            return drawer
    return next((drawer for role, drawer in BY_ROLE if piece.is_a(role)), _plain)


def symbol(piece: Piece) -> Symbol:
    """The symbol of ``piece``; one that hangs overhead is a dashed outline only."""
    if piece.bottom >= OVERHEAD:
        return Symbol("", outline_dashed=True)
    drawer = _drawer(piece)
    if piece.shape == "L" and drawer is _sofa:
        return _corner_sofa(piece)
    framed = piece.framed and drawer is _bed
    whole = _framed_bed(piece) if framed else drawer(piece.width, piece.depth)
    if piece.fills_its_box:
        return whole
    if piece.shape == "L":
        whole = replace(whole, spot=(piece.width / 2, piece.back_depth * 0.6))
    inside = Polygon(outline(piece))
    return replace(
        whole,
        strokes=tuple(part for run in whole.strokes for part in _within(inside, run)),
        dashed=tuple(part for run in whole.dashed for part in _within(inside, run)),
    )


def _within(shape: Polygon, run: Polyline) -> list[Polyline]:
    """The parts of a stroke that lie inside the outline."""
    part = shape.intersection(LineString(run))
    return [list(p.coords) for p in getattr(part, "geoms", [part]) if p.length > 0]


@dataclass(frozen=True, slots=True)
class Drawn:
    """One piece on the board: its shape, its frame and its number in the owner raster."""

    piece: Piece
    shape: Polygon
    frame: Frame
    symbol: Symbol
    number: int

    @property
    def spot(self) -> Vector:
        """Where its name reads best."""
        a, b = self.symbol.spot or (self.piece.width / 2, self.piece.depth / 2)
        return self.frame.at(a, b)


def drawing_order(scenario: Scenario, arrangement: Arrangement) -> list[tuple[Piece, Placement]]:
    """From the floor up: rugs, what stands, what hangs; alike heights in file order."""
    pairs = [(scenario.piece(p.piece), p) for p in arrangement.placements]
    return sorted(pairs, key=lambda pair: (not pair[0].flat, pair[0].bottom, pair[0].top))


def draw_pieces(board: Board, scenario: Scenario, arrangement: Arrangement) -> list[Drawn]:
    """Every piece of the arrangement; returns them in drawing order."""
    placed: list[Drawn] = []
    for number, (piece, placement) in enumerate(drawing_order(scenario, arrangement), start=1):
        drawn = Drawn(
            piece,
            footprint(piece, placement, scenario.room),
            frame(piece, placement, scenario.room),
            symbol(piece),
            number,
        )
        draw_piece(board, drawn)
        placed.append(drawn)
    return placed


def draw_piece(board: Board, drawn: Drawn) -> None:
    """Tint, outline and strokes of one piece; what it hides counts no longer as ink."""
    style, mark = board.style, drawn.symbol
    flat, overhead = drawn.piece.flat, mark.outline_dashed
    z = 3.0 if flat else 10.0 + drawn.number * 0.02
    gid, part = f"piece:{drawn.piece.name}", f"part:{drawn.piece.name}"
    board.owner.add_shape(drawn.shape, drawn.number)
    if not overhead:
        tint = style.tints.get(mark.tint, style.tints["other"])
        board.fill(drawn.shape, tint, 0.5 if flat else z, part)
        board.ink.add_shape(drawn.shape, 0.0)
    if not flat:
        board.solid.add_shape(drawn.shape)
    dash = (5.0, 2.5) if overhead else (2.0, 1.6) if flat else ()
    width = style.outline_width * (0.75 if dash else 1.0)
    board.outline(drawn.shape, width, style.line, z + 0.01, dash=dash, gid=gid)
    inner = style.symbol_width
    if mark.strokes:
        runs = [_on_plan(drawn.frame, s) for s in mark.strokes]
        board.lines(runs, inner, style.line, z + 0.005, gid=part)
    if mark.dashed:
        runs = [_on_plan(drawn.frame, s) for s in mark.dashed]
        board.lines(runs, inner, style.fine, z + 0.005, dash=(0.6, 1.6), gid=part)


def _on_plan(placed: Frame, stroke: Polyline) -> Polyline:
    return [placed.at(a, b) for a, b in stroke]


LAMP_OFF_WALL = 90  # middle of a wall lamp as drawn, mm
HEATERS = ("radiator", "heater", "convector")
FIRES = ("stove", "fire", "burner", "hearth")
LID = (3.0, 2.0)  # dashes, in points, of a hatch: people walk over it
SHOWN_OTHERWISE = ("closet", "stairs", BOXED)  # by their leaves and steps, or by a name
MASONRY = ("column", "pillar", "chimney", "pipe", "duct", "boxed", "shaft", "pier")


def is_like(kind: str, words: tuple[str, ...]) -> bool:
    """Whether a kind's name contains one of ``words``."""
    return any(word in kind.lower() for word in words)


def has_body(fixture: Fixture) -> bool:
    """Whether the fixture takes floor; a socket or light point does not."""
    return bool(fixture_shape(fixture).area >= 1)


def shown_at(room: Room, fixture: Fixture) -> Polygon | Point | None:
    """Where it is on the plan, as floor or as a point; None if the person did not say."""
    if has_body(fixture):
        return fixture_shape(fixture)
    point = anchor_point(room, fixture)
    return Point(point) if point else None


def draw_fixture(board: Board, fixture: Fixture) -> None:
    """A fixture with a body, by its nature; an unknown kind gets a crossed outline."""
    shape = fixture_shape(fixture)
    style, gid = board.style, f"fixture:{fixture.name}"
    if fixture.is_lid:
        ring = list(shape.exterior.coords)
        board.lines([ring, ring[0:3:2], ring[1:4:2]], 0.5, style.line, 2.5, dash=LID, gid=gid)
        return
    if fixture.underside:
        ring = list(shape.exterior.coords)
        board.lines([ring], 0.5, style.line, 5.5, dash=LID, gid=gid)
        return
    if fixture.hangs:
        _draw_hung(board, fixture, gid)
        return
    masonry = is_like(fixture.kind, MASONRY) and fixture.kind != BOXED
    fill = style.cut if masonry else style.paper
    board.fill(shape, fill, 5.5, gid, edge=style.edge, width=0.8)
    ring = list(shape.exterior.coords)
    if is_like(fixture.kind, HEATERS):
        board.lines(_bars(shape, board.mm(3.0)), 0.5, style.line, 5.6)
    elif is_like(fixture.kind, FIRES):
        board.lines(_flame(shape), 0.6, style.line, 5.6)
    elif not masonry and fixture.kind not in SHOWN_OTHERWISE:
        board.lines([ring[0:3:2], ring[1:4:2]], 0.4, style.fine, 5.6, ink=False)
    board.ink.add_line(ring)
    board.solid.add_shape(shape)
    if masonry or is_like(fixture.kind, HEATERS):
        board.ink.add_shape(shape)


def _draw_hung(board: Board, fixture: Fixture, gid: str) -> None:
    """What hangs, over all that stands: its outline dashed, and a cross where it hangs from.

    A fan and a lamp as wide as it is deep are round; a fan shows its blades.
    """
    x0, y0, x1, y1 = fixture_shape(fixture).bounds
    x, y, r = (x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / 2
    is_round = abs((x1 - x0) - (y1 - y0)) <= 1
    outline = circle_run(x, y, r, 48) if is_round else list(fixture_shape(fixture).exterior.coords)
    arm = (r if fixture.kind == FAN else min(board.mm(2.6), r)) * math.sqrt(0.5)
    cross: list[Polyline] = [
        [(x - arm, y - arm), (x + arm, y + arm)],
        [(x - arm, y + arm), (x + arm, y - arm)],
    ]
    board.lines([outline], 0.5, board.style.fine, 16.0, dash=LID, gid=gid)
    board.lines(cross, 0.5, board.style.fine, 16.0, gid=f"{gid}:hook")


def _long_sides(shape: Polygon) -> tuple[Polyline, Polyline]:
    ring = list(shape.exterior.coords)[:4]
    if math.dist(ring[0], ring[1]) >= math.dist(ring[1], ring[2]):
        return (ring[0], ring[1]), (ring[3], ring[2])
    return (ring[1], ring[2]), (ring[0], ring[3])


def _between(run: Polyline, share: float) -> Vector:
    (ax, ay), (bx, by) = run
    return ax + (bx - ax) * share, ay + (by - ay) * share


def _bars(shape: Polygon, step: float) -> list[Polyline]:
    """Bars across the length of a radiator, ``step`` mm apart."""
    one, other = _long_sides(shape)
    count = max(2, round(math.dist(*one) / step))
    return [(_between(one, i / count), _between(other, i / count)) for i in range(1, count)]


def _flame(shape: Polygon) -> list[Polyline]:
    """A ring in the middle of a stove or fireplace."""
    return [circle_run(shape.centroid.x, shape.centroid.y, math.sqrt(shape.area) * 0.22, 24)]


def anchor_point(room: Room, fixture: Fixture) -> Vector | None:
    """Where a fixture without a body is on the plan."""
    if fixture.wall is not None:
        inward = LAMP_OFF_WALL if "light point" in fixture.kind.lower() else 0
        return room.walls[fixture.wall].point(fixture.offset + fixture.width / 2, inward)
    if fixture.corners:
        return fixture.corners[0][0], fixture.corners[0][1]
    return None


def draw_point(board: Board, room: Room, fixture: Fixture) -> None:
    """A socket or light point; nothing if the person did not say where."""
    point = anchor_point(room, fixture)
    if point is None:
        return
    gid = f"fixture:{fixture.name}"
    if "light point" in fixture.kind.lower():
        _cross_in_circle(board, point, gid)
    elif fixture.wall is None:
        board.fill(Point(point).buffer(board.mm(2.0)), board.style.fine, 9.0, gid)
    else:
        _on_wall(board, room, fixture, gid)


def _cross_in_circle(board: Board, point: Vector, gid: str) -> None:
    (x, y), r = point, board.mm(4.2)
    d = r * math.sqrt(0.5)
    cross: list[Polyline] = [[(x - d, y - d), (x + d, y + d)], [(x - d, y + d), (x + d, y - d)]]
    board.lines([circle_run(x, y, r, 32), *cross], 0.6, board.style.fine, 16.0, gid=gid)


def _on_wall(board: Board, room: Room, fixture: Fixture, gid: str) -> None:
    """A light dot in the thickness of the wall, where no piece can hide it; sockets have pins."""
    wall, t = room.walls[fixture.wall or 0], board.style.wall
    middle = fixture.offset + fixture.width / 2
    r = min(t * 0.36, board.mm(3.2))
    ring = Point(wall.point(middle, -t / 2)).buffer(r)
    for share in (-0.4, 0.4) if "socket" in fixture.kind.lower() else ():
        ring = ring.difference(Point(wall.point(middle + r * share, -t / 2)).buffer(r * 0.2))
    board.fill(ring, board.style.paper, 6.6, gid)
