"""Exact shapes of a room and of placed pieces (shapely). Lengths in mm.

Everything here is independent of the solver: the judge, the pictures and ``result.json``
are made from these shapes. A slot puts what is tied beside another piece; beside a piece
at a slanted wall, what is tied is placed along that wall.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from shapely import box
from shapely.geometry import Polygon

from arrange.data.arrangement import Placement
from arrange.data.piece import SIDES, Clearance, Piece, Side, Slot
from arrange.data.room import (
    FACING_VECTOR,
    FACINGS,
    Door,
    Facing,
    Fixture,
    Point,
    Room,
    Vector,
    Wall,
    Window,
)
from arrange.geometry.outlines import edge, outline, rectangles

DEPTH = 0.01  # mm; rounding on slanted walls stays below
CURTAIN = 150  # mm off the wall that a curtain drawn back takes; common practice, no source
SWING_CHORDS = 32  # of the arc of a door's leaf
LEAF_ON_WALL = 100  # mm off the wall that a leaf sliding on it takes; common practice, no source
NOTHING = 1e-9  # mm2; an area that is none


@dataclass(frozen=True, slots=True)
class Frame:
    """A piece's own directions on the plan.

    ``origin`` is the back left corner, ``across`` the unit vector from left to
    right, ``ahead`` the unit vector from back to front.
    """

    origin: Vector
    across: Vector
    ahead: Vector

    def at(self, a: float, b: float) -> Vector:
        """The plan point ``a`` to the right and ``b`` to the front of the origin."""
        return (
            self.origin[0] + self.across[0] * a + self.ahead[0] * b,
            self.origin[1] + self.across[1] * a + self.ahead[1] * b,
        )

    def rectangle(self, a0: float, b0: float, a1: float, b1: float) -> Polygon:
        """The rectangle between two corners given in this frame."""
        return Polygon([self.at(a0, b0), self.at(a1, b0), self.at(a1, b1), self.at(a0, b1)])


def _turned(vector: Vector, quarters: int) -> Vector:
    """``vector`` after that many clockwise quarter turns."""
    x, y = vector
    for _ in range(quarters % 4):
        x, y = y, -x
    return x, y


def frame(piece: Piece, placement: Placement, room: Room) -> Frame:
    """The directions of ``piece`` where ``placement`` puts it."""
    if placement.facing is None:
        return _slanted_frame(piece, placement, leans_on(placement, room))
    ahead = FACING_VECTOR[placement.facing]
    across = (-ahead[1], ahead[0])
    sx, sy = extent(piece, placement.facing)
    # The back left corner is the one furthest against both directions.
    x = placement.x + (sx if across[0] + ahead[0] < 0 else 0)
    y = placement.y + (sy if across[1] + ahead[1] < 0 else 0)
    return Frame((x, y), across, ahead)


def _slanted_frame(piece: Piece, placement: Placement, wall: Wall) -> Frame:
    ea, eb = (
        (piece.width, piece.depth) if placement.quarter % 2 == 0 else (piece.depth, piece.width)
    )
    ahead = _turned(wall.inward, placement.quarter)
    across = _turned(wall.along, placement.quarter)
    # Corner of the box that lies furthest against both directions of the piece.
    corners = [
        wall.point(placement.offset + da, placement.inward + db) for da in (0, ea) for db in (0, eb)
    ]
    back = tuple(a + b for a, b in zip(across, ahead, strict=True))
    origin = min(corners, key=lambda c: c[0] * back[0] + c[1] * back[1])
    return Frame(origin, across, ahead)


def leans_on(placement: Placement, room: Room) -> Wall:
    """The wall, or the line across a corner, by which a piece in no quarter turn stands."""
    if placement.corner is not None:
        line = room.across(placement.corner)
    else:
        line = None if placement.wall is None else room.walls[placement.wall]
    if line is None:
        raise ValueError("a piece in no quarter turn needs a wall, or a square corner")
    return line


def against_wall(piece: Piece, walls: Sequence[Wall], index: int, offset: int) -> Placement:
    """The piece with its back to wall ``index``, ``offset`` mm from its left end.

    One that need not stay there is held to its place on the plan, not to the wall.
    """
    wall = walls[index]
    if wall.facing is None:
        return Placement(piece.name, None, wall=index, offset=offset)
    (x, y), (u, v) = wall.point(offset), wall.point(offset + piece.width, piece.depth)
    corner = round(min(x, u)), round(min(y, v))
    return Placement(piece.name, wall.facing, *corner, wall=index if piece.backs else None)


def extent(piece: Piece, facing: str) -> tuple[int, int]:
    """Size of the footprint along x and y, in mm, when it faces ``facing``."""
    if facing in ("down", "up"):
        return piece.width, piece.depth
    return piece.depth, piece.width


def footprint(piece: Piece, placement: Placement, room: Room) -> Polygon:
    """The body of the piece on the floor."""
    own = frame(piece, placement, room)
    if piece.fills_its_box:
        return own.rectangle(0, 0, piece.width, piece.depth)
    return Polygon([own.at(a, b) for a, b in outline(piece)])


def convex_parts(piece: Piece, placement: Placement, room: Room) -> list[Polygon]:
    """The body as convex shapes that may touch."""
    own = frame(piece, placement, room)
    parts = [own.rectangle(*rectangle) for rectangle in rectangles(piece)]
    return parts or [footprint(piece, placement, room)]


def box_of(piece: Piece, placement: Placement, room: Room) -> Polygon:
    """The rectangle as wide and as deep as the piece that its body fills, or lies in."""
    return frame(piece, placement, room).rectangle(0, 0, piece.width, piece.depth)


def strip_span(piece: Piece, side: Side, skip_start: int = 0, skip_end: int = 0) -> tuple[int, int]:
    """From where to where a strip beside the piece runs along that side, in its own frame."""
    _, start, end = edge(piece, side)
    return start + skip_start, end - skip_end


def strip_corners(
    piece: Piece, side: Side, depth: int, skip_start: int = 0, skip_end: int = 0
) -> tuple[int, int, int, int]:
    """A strip beside the piece as (a0, b0, a1, b1) in the piece's own frame."""
    at = edge(piece, side)[0]
    start, end = strip_span(piece, side, skip_start, skip_end)
    if side == "front":
        return start, at, end, at + depth
    if side == "back":
        return start, at - depth, end, at
    if side == "left":
        return at - depth, start, at, end
    return at, start, at + depth, end


def clearance_zone(
    piece: Piece, placement: Placement, room: Room, clearance: Clearance, side: Side, depth: int
) -> Polygon:
    """The strip of floor ``depth`` mm deep that ``clearance`` asks for on ``side``."""
    corners = strip_corners(piece, side, depth, clearance.skip_start, clearance.skip_end)
    return frame(piece, placement, room).rectangle(*corners)


def slot_place(anchor: Piece, piece: Piece, slot: Slot) -> tuple[int, int, int, int, int]:
    """Where ``slot`` puts ``piece``, in the anchor's frame.

    Returns
    -------
    (a0, b0, a1, b1, quarter)
        Its box in whole mm, and how many clockwise quarter turns it faces away
        from the anchor's own facing.
    """
    quarter = _slot_quarter(slot)
    ea, eb = (piece.width, piece.depth) if quarter % 2 == 0 else (piece.depth, piece.width)
    w, d = anchor.width, anchor.depth
    a0 = (w - ea) * slot.along // 1000 + slot.shift
    b0 = (d - eb) * slot.along // 1000 + slot.shift
    if slot.side == "front":
        b0 = d + slot.gap
    elif slot.side == "back":
        b0 = -slot.gap - eb
    elif slot.side == "left":
        a0 = -slot.gap - ea
    elif slot.side == "right":
        a0 = w + slot.gap
    else:
        b0 = slot.gap
    if anchor.shape == "L" and slot.side == "front":
        at, start, end = edge(anchor, "front")
        a0, b0 = start + (end - start - ea) * slot.along // 1000 + slot.shift, at + slot.gap
        # Who sits on the arm keeps the floor for the legs, even if it then reaches past the end.
        legs = max((c.least for c in anchor.clearances if _from_arm(anchor) in c.sides), default=0)
        a0 = max(a0, start + legs) if anchor.arm_side == "left" else min(a0, end - ea - legs)
    return a0, b0, a0 + ea, b0 + eb, quarter


def _from_arm(anchor: Piece) -> Side:
    """The side to which the arm of an L looks."""
    return "right" if anchor.arm_side == "left" else "left"


def _slot_quarter(slot: Slot) -> int:
    if slot.facing == "same" or slot.side == "under":
        return 0
    if slot.facing == "opposite":
        return 2
    # Clockwise on the plan, front (0) -> left -> back -> right of a person facing it.
    away = {"front": 0, "left": 1, "back": 2, "right": 3}[slot.side]
    return away if slot.facing == "away" else (away + 2) % 4


def wall_strip(wall: Wall, offset: float, width: float, depth: float, start: float = 0) -> Polygon:
    """A rectangle along a wall, from ``start`` to ``depth`` mm off it."""
    return Polygon(
        [
            wall.point(offset, start),
            wall.point(offset + width, start),
            wall.point(offset + width, depth),
            wall.point(offset, depth),
        ]
    )


def door_floor(room: Room, door: Door, walkway: int) -> Polygon:
    """The floor a door needs: its clear width, as deep as its leaves come in or the walkway."""
    depth = door.floor_depth(walkway)
    return wall_strip(room.walls[door.wall], door.offset, door.width, depth)


def leaf_floor(room: Room, door: Door) -> Polygon:
    """The floor before a door as deep as its leaves come in: as wide as one, half if it folds."""
    return wall_strip(room.walls[door.wall], door.offset, door.width, door.reach)


def leaf_floors(room: Room) -> tuple[Polygon, ...]:
    """That floor before each door that opens in."""
    return tuple(leaf_floor(room, door) for door in room.all_doors if door.opens_in)


def slide_floors(room: Room, door: Door) -> tuple[Polygon, ...]:
    """The floor along the wall that each leaf takes which slides on it; none of other doors."""
    if door.opens != "sliding on the wall":
        return ()
    wall, leaf = room.walls[door.wall], door.leaf
    return tuple(wall_strip(wall, door.beside(side), leaf, LEAF_ON_WALL) for side in door.sides)


def leaf_sweeps(room: Room, door: Door) -> tuple[Polygon, ...]:
    """The floor of the room that each leaf passes over as it opens.

    A quarter circle where it turns. Of two panels that fold, the first turns by the jamb
    and the second has its far edge in the track: its own edge draws out a branch of an
    astroid. Drawn with chords, good to 0.4 mm a metre.
    """
    if not door.opens_in:
        return slide_floors(room, door)
    wall, swept = room.walls[door.wall], []
    for side in door.sides:
        at, way = (door.offset, 1) if side == "left" else (door.offset + door.width, -1)
        outline = _folding_edge(door.leaf) if door.folds else _turning_edge(door.leaf)
        swept.append(Polygon([wall.point(at), *(wall.point(at + way * a, b) for a, b in outline)]))
    return tuple(swept)


def _turning_edge(leaf: int) -> list[Vector]:
    """The way of a leaf's free edge: along the wall from the hinges, and off the wall; mm."""
    turns = [math.pi / 2 * step / SWING_CHORDS for step in range(SWING_CHORDS + 1)]
    return [(leaf * math.cos(t), leaf * math.sin(t)) for t in turns]


def _folding_edge(leaf: int) -> list[Vector]:
    """The outline of all that two folding panels pass over, from the track to the hinges; mm.

    With the first panel at an angle t from the wall, the second lies on the line from
    (p cos t, p sin t) to (2p cos t, 0), p being half the leaf. Up to 45 degrees these lines
    touch the curve (2p cos^3 t, 2p sin^3 t); from there on the joint goes farthest.
    """
    panel = leaf / 2
    turns = [math.pi / 2 * step / SWING_CHORDS for step in range(SWING_CHORDS + 1)]
    return [
        (leaf * math.cos(t) ** 3, leaf * math.sin(t) ** 3)
        if t <= math.pi / 4
        else (panel * math.cos(t), panel * math.sin(t))
        for t in turns
    ]


def curtain_floors(room: Room, window: Window) -> tuple[Polygon, ...]:
    """The floor under its curtains when they are drawn back, as far as the wall goes."""
    wall = room.walls[window.wall]
    end = window.offset + window.width
    low, high = max(window.offset - window.curtains, 0), min(end + window.curtains, wall.length)
    spans = [(a, b) for a, b in ((low, window.offset), (end, high)) if b > a]
    return tuple(wall_strip(wall, a, b - a, CURTAIN) for a, b in spans)


def opening_span(room: Room, opening: Door | Window) -> tuple[Vector, Vector]:
    """The two ends of an opening on its wall, left end first."""
    wall = room.walls[opening.wall]
    return wall.point(opening.offset), wall.point(opening.offset + opening.width)


def fixture_shape(fixture: Fixture) -> Polygon:
    """The body of a fixture on the floor; empty for a socket or light point."""
    if len(fixture.corners) < 3:
        return Polygon()
    return Polygon(fixture.corners)


def fixture_keep(room: Room, fixture: Fixture) -> Polygon:
    """The floor kept free in front of a fixture, empty if it needs none.

    On all sides of one that stands free, its own floor included.
    """
    if not fixture.keep:
        return Polygon()
    if fixture.wall is None:
        return fixture_shape(fixture).buffer(fixture.keep, join_style="mitre")
    wall, deep = room.walls[fixture.wall], fixture.depth
    if fixture.steps != "front":
        left = fixture.steps == "left"
        near = fixture.offset + (0 if left else fixture.width)
        far = near + (-fixture.keep if left else fixture.keep)
        # Its first side is where the steps begin, as the opening is of a door's floor.
        return Polygon(
            [wall.point(a, b) for a, b in ((near, 0), (near, deep), (far, deep), (far, 0))]
        )
    return wall_strip(
        wall,
        fixture.offset,
        fixture.width,
        fixture.depth + fixture.keep,
        start=fixture.depth,
    )


@lru_cache(256)
def room_shape(room: Room) -> Polygon:
    """The floor of the empty room."""
    return Polygon(room.corners)


def whole_bounds(shape: Polygon) -> tuple[int, int, int, int]:
    """Bounding box on whole mm: rounded outward, forgiving rounding of 0.001 mm."""
    x0, y0, x1, y1 = shape.bounds
    return (
        math.floor(x0 + 1e-3),
        math.floor(y0 + 1e-3),
        math.ceil(x1 - 1e-3),
        math.ceil(y1 - 1e-3),
    )


def shares_floor(a: Polygon, b: Polygon) -> bool:
    """Whether two shapes overlap; touching edges or corners do not count.

    They overlap when one reaches more than ``DEPTH`` into the other, however
    small the shared area: so says the solver's model, which parts them by lines.
    """
    if not a.intersects(b):
        return False
    area = a.intersection(b).area
    if area <= NOTHING or area > DEPTH * a.length:
        return bool(area > NOTHING)
    pairs = ((a.buffer(-DEPTH, join_style="mitre"), b), (a, b.buffer(-DEPTH, join_style="mitre")))
    return any(one.intersection(two).area > NOTHING for one, two in pairs)


def leaves(body: Polygon, room: Polygon) -> bool:
    """Whether a shape reaches more than ``DEPTH`` out of the room."""
    area = body.difference(room).area
    if area <= NOTHING or area > DEPTH * body.length:
        return bool(area > NOTHING)
    return bool(body.difference(room.buffer(DEPTH, join_style="mitre")).area > NOTHING)


def rectangle(corner: Point, size: Point) -> Polygon:
    """An upright rectangle from its lower left corner and its size."""
    return box(corner[0], corner[1], corner[0] + size[0], corner[1] + size[1])


def nearest_facing(wall: Wall) -> Facing:
    """The quarter turn closest to the way a piece on ``wall`` faces; ties go clockwise."""
    nx, ny = wall.inward
    return max(FACINGS, key=lambda f: round(nx * FACING_VECTOR[f][0] + ny * FACING_VECTOR[f][1], 6))


def turn_facing(facing: Facing, quarters: int) -> Facing:
    """``facing`` after that many clockwise quarter turns."""
    return FACINGS[(FACINGS.index(facing) + quarters) % 4]


def facing_of(placement: Placement, room: Room) -> Facing:
    """The quarter turn of a placed piece, the nearest one if it is in none."""
    if placement.facing is not None:
        return placement.facing
    straight = placement.looks or nearest_facing(leans_on(placement, room))
    return turn_facing(straight, placement.quarter)


def turns(piece: Piece) -> tuple[Facing, ...]:
    """The quarter turns that make a difference for a piece that stands free.

    A piece alike from front and back needs only half of them: nothing sits,
    looks or opens to one side.
    """
    fronted = piece.roles & {"seat", "screen", "desk", "sleep", "store", "mirror", "play"}
    fronted |= {"L"} & {piece.shape}
    needs = {side: _need(piece, side) for side in SIDES}
    if fronted or needs["front"] != needs["back"] or needs["left"] != needs["right"]:
        return FACINGS
    if piece.width == piece.depth and needs["front"] == needs["left"]:
        return ("down",)
    return ("down", "left")


def has_front(piece: Piece) -> bool:
    """Whether anybody could tell its front from its back: not of a table, round or long."""
    return len(turns(piece)) == len(FACINGS)


def _need(piece: Piece, side: Side) -> list[tuple[object, ...]]:
    return [
        (c.least, c.comfortable, c.skip_start, c.skip_end, c.height, len(c.sides))
        for c in piece.clearances
        if side in c.sides
    ]


Stood = tuple[Piece, Placement]  # a piece and where it stands


def in_slot(piece: Piece, host: Stood, slot: Slot, room: Room) -> Placement:
    """Where ``slot`` beside ``host`` puts the piece, to the nearest whole mm."""
    anchor, stands = host
    a0, b0, a1, b1, quarter = slot_place(anchor, piece, slot)
    corners = list(frame(anchor, stands, room).rectangle(a0, b0, a1, b1).exterior.coords)
    if stands.facing is not None:
        low = round(min(x for x, _ in corners)), round(min(y for _, y in corners))
        return Placement(piece.name, turn_facing(stands.facing, quarter), *low)
    wall = leans_on(stands, room)
    along = min(wall.coordinate(x, y) for x, y in corners)
    off = min(wall.off(x, y) for x, y in corners)
    turned = (stands.quarter + quarter) % 4
    there = replace(stands, piece=piece.name, offset=round(along), inward=round(off))
    return replace(there, quarter=turned)


def slot_number(one: Stood, host: Stood, room: Room) -> int | None:
    """Which of its slots a piece stands in, the first of equals; None if it is in none."""
    piece, placement = one
    for number, slot in enumerate(piece.slots):
        if _spot(in_slot(piece, host, slot, room)) == _spot(placement):
            return number
    return None


def in_same_slot(one: Stood, host: Stood, new: Piece, moved: Stood, room: Room) -> Placement | None:
    """Where a tied piece goes when its host has moved or another size: the same one of its slots.

    ``new`` is the piece as it is then, and ``moved`` its host. None if it stood in no slot, or
    in one that it has no more.
    """
    number = slot_number(one, host, room)
    if number is None or number >= len(new.slots):
        return None
    return in_slot(new, moved, new.slots[number], room)


def _spot(placement: Placement) -> object:
    """The place whatever wall is behind: what is tied need not know of one."""
    if placement.facing is not None:
        return placement.facing, placement.x, placement.y
    return replace(placement, piece="")
