"""The best arrangement of a tiny room by trying every place on its grid.

Written from the words of the rules, without the solver and without `arrange.geometry`:
floor is a set of cells, one bit each. The judge has the last word on the best found,
and on a sample of all others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from brute_tied import AROUND, FACES, VECTORS, Cells, tied_place
from tiny_rooms import STEP

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Room, Wall
from arrange.data.scenario import Scenario, Wish
from arrange.scoring import Share, shares

WIDE, PAD = 20, 6  # cells a row; rooms are at most 7 wide, strips at most 5 deep
SQUARES = (1200, 1500, 1800, 2100, 2400)


def mask(cells: Cells) -> int:
    """A rectangle of cells as bits; a margin all round is never room."""
    x0, y0, x1, y1 = cells
    row = (1 << (x1 + PAD)) - (1 << (x0 + PAD))
    return sum(row << (WIDE * (y + PAD)) for y in range(y0, y1))


@dataclass(frozen=True)
class Spot:
    """One place for a piece: its cells, and each clearance's strips by side and depth."""

    placement: Placement
    box: Cells
    body: int
    strips: tuple[tuple[tuple[int, ...], ...], ...]  # clearance, level (0: least), side


class Grid:
    """Everything about a tiny room in cells."""

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self.room = _room_mask(scenario.room)
        self.shares: tuple[Share, ...] = shares(scenario)
        self.spots = [list(self._spots(p)) for p in scenario.pieces if p.anchor is None]
        self.names = [p.name for p in scenario.pieces]

    def _spots(self, piece: Piece) -> Iterator[Spot]:
        yield from self._allowed(piece, _places(piece, self.scenario.room))

    def _allowed(self, piece: Piece, placements: Iterable[Placement]) -> Iterator[Spot]:
        for placement in placements:
            if min(placement.x, placement.y) < 0:
                continue
            spot = _spot(piece, placement)
            if not spot.body & ~self.room and not self._in_doorway(piece, spot):
                yield spot

    def _choices(self, piece: Piece, done: Sequence[Spot]) -> Iterator[Spot]:
        """Its places, given those of the pieces before it: a tied piece comes after its host."""
        if piece.anchor is None:
            untied = [p.name for p in self.scenario.pieces if p.anchor is None]
            yield from self.spots[untied.index(piece.name)]
            return
        host = done[self.names.index(piece.anchor)]
        turn = FACES.index(host.placement.facing or "down")
        placements = [tied_place(piece, s, host.box, turn, STEP) for s in piece.slots]
        yield from self._allowed(piece, dict.fromkeys(placements))

    def _in_doorway(self, piece: Piece, spot: Spot) -> bool:
        door = self.scenario.room.doors[0]
        if piece.flat or piece.bottom >= door.height:
            return False
        deep = max(self.scenario.walkway, door.width) if door.opens == "in" else 2 * STEP
        wall = self.scenario.room.walls[door.wall]
        return bool(spot.body & mask(_along(wall, door.offset, door.width, 0, deep)))

    def arrangements(self) -> Iterator[tuple[Spot, ...]]:
        """Every combination of places in which no two bodies share space."""

        def extend(done: tuple[Spot, ...]) -> Iterator[tuple[Spot, ...]]:
            if len(done) == len(self.names):
                yield done
                return
            piece = self.scenario.pieces[len(done)]
            for spot in self._choices(piece, done):
                if not any(
                    spot.body & d.body and _meet(piece, p)
                    for d, p in zip(done, self.scenario.pieces, strict=False)
                ):
                    yield from extend((*done, spot))

        yield from extend(())

    def works(self, spots: Sequence[Spot]) -> bool:
        """Whether all least clearances are free and the wishes that must hold do."""
        for i, piece in enumerate(self.scenario.pieces):
            for k, c in enumerate(piece.clearances):
                if c.least and not self._free(spots, i, k, 0):
                    return False
        return all(self._kept(spots, w, w.distance or 0) for w in self.scenario.wishes if w.must)

    def _free(self, spots: Sequence[Spot], owner: int, clearance: int, level: int) -> bool:
        c = self.scenario.pieces[owner].clearances[clearance]
        name, taken = self.names[owner], 0
        for spot, piece in zip(spots, self.scenario.pieces, strict=True):
            own = name in (piece.name, piece.anchor)  # what is tied to it may stand there
            if not own and not piece.flat and piece.bottom < c.height:
                taken |= spot.body
        blocked = taken | ~self.room
        return any(not strip & blocked for strip in spots[owner].strips[clearance][level])

    def score(self, spots: Sequence[Spot]) -> int:
        """Points in tenths."""
        return sum(
            share.points[level - 1] for share in self.shares if (level := self._level(spots, share))
        )

    def _level(self, spots: Sequence[Spot], share: Share) -> int:
        claim, level = share.claim, 0
        while level < len(claim.steps) and self._reached(spots, share, level):
            level += 1
        return level

    def _reached(self, spots: Sequence[Spot], share: Share, level: int) -> bool:
        claim = share.claim
        if claim.rule == "clear-floor":
            return self._square(spots, SQUARES[level] // STEP)
        if claim.rule == "comfortable-clearance":
            owner = self.names.index(claim.subjects[0])
            names = [c.name for c in self.scenario.pieces[owner].clearances]
            return self._free(spots, owner, names.index(claim.about[0]), level + 1)
        return self._kept(spots, self.scenario.wishes[claim.about[0]], claim.steps[level])

    def _square(self, spots: Sequence[Spot], side: int) -> bool:
        free = self.room
        for door in self.scenario.room.doors:
            if door.opens == "in":
                wall = self.scenario.room.walls[door.wall]
                free &= ~mask(_along(wall, door.offset, door.width, 0, door.width))
        for spot, piece in zip(spots, self.scenario.pieces, strict=True):
            if not piece.flat and piece.bottom < 2000:
                free &= ~spot.body
        return any(
            not mask((x, y, x + side, y + side)) & ~free
            for x in range(8 - side)
            for y in range(8 - side)
        )

    def _kept(self, spots: Sequence[Spot], wish: Wish, distance: int) -> bool:
        one = spots[self.names.index(wish.piece)].box
        if wish.place in self.names:
            two = spots[self.names.index(wish.place)].box
        else:
            two = _opening_or_wall(self.scenario.room, wish.place)
        apart = max(two[0] - one[2], one[0] - two[2], two[1] - one[3], one[1] - two[3], 0) * STEP
        return apart <= distance if wish.relation == "near" else apart >= distance

    def arrangement(self, spots: Sequence[Spot]) -> Arrangement:
        """As the product has it."""
        return Arrangement(tuple(s.placement for s in spots))


def _meet(one: Piece, two: Piece) -> bool:
    apart = one.bottom >= two.bottom + two.height or two.bottom >= one.bottom + one.height
    return one.flat == two.flat and not apart


def _room_mask(room: Room) -> int:
    """Rectangle, or L with its upper right quarter missing."""
    xs, ys = sorted({p[0] for p in room.corners}), sorted({p[1] for p in room.corners})
    whole = mask((0, 0, xs[-1] // STEP, ys[-1] // STEP))
    if len(room.corners) == 4:
        return whole
    (x, y) = room.corners[3]
    return whole & ~mask((x // STEP, y // STEP, xs[-1] // STEP, ys[-1] // STEP))


def _along(wall: Wall, offset: int, width: int, start: int, end: int) -> Cells:
    """Cells along a wall from its left end, between two distances off it."""
    face = wall.facing
    if face is None:
        raise ValueError("only upright walls")
    ux, uy = VECTORS[FACES.index(face)]
    # Standing with the back to the wall, left along it is clockwise from the facing.
    ax, ay = -uy, ux
    points = [
        (wall.start[0] + ax * a + ux * b, wall.start[1] + ay * a + uy * b)
        for a in (offset, offset + width)
        for b in (start, end)
    ]
    xs, ys = [p[0] // STEP for p in points], [p[1] // STEP for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _opening_or_wall(room: Room, name: str) -> Cells:
    for door in room.doors:
        if door.name == name:
            return _along(room.walls[door.wall], door.offset, door.width, 0, 0)
    wall = next(w for w in room.walls if w.name == name)
    return _along(wall, 0, int(wall.length), 0, 0)


def _places(piece: Piece, room: Room) -> Iterator[Placement]:
    if piece.stands == "free":
        x1, y1 = (max(p[k] for p in room.corners) for k in (0, 1))
        for i, face in enumerate(FACES):
            sx, sy = (piece.width, piece.depth) if i % 2 == 0 else (piece.depth, piece.width)
            for x in range(0, x1 - sx + 1, STEP):
                for y in range(0, y1 - sy + 1, STEP):
                    yield Placement(piece.name, face, x, y)
        return
    for index, wall in enumerate(room.walls):
        for offset in range(0, int(wall.length) - piece.width + 1, STEP):
            x0, y0, _, _ = _along(wall, offset, piece.width, 0, piece.depth)
            yield Placement(piece.name, wall.facing, x0 * STEP, y0 * STEP, index)


def _spot(piece: Piece, placement: Placement) -> Spot:
    turn = FACES.index(placement.facing or "down")
    w, d = piece.width // STEP, piece.depth // STEP
    sx, sy = (w, d) if turn % 2 == 0 else (d, w)
    x, y = placement.x // STEP, placement.y // STEP
    box = (x, y, x + sx, y + sy)
    strips = tuple(
        tuple(
            tuple(mask(_strip(box, turn, side, c, depth // STEP)) for side in c.sides)
            for depth in (c.least, *(c.least + k * STEP for k in (1, 2, 3)))
        )
        for c in piece.clearances
    )
    return Spot(placement, box, mask(box), strips)


def _strip(box: Cells, turn: int, side: str, c: Clearance, depth: int) -> Cells:
    """The strip on one side; the skipped part is at the back, or at the left."""
    x0, y0, x1, y1 = box
    out = VECTORS[(AROUND.index(side) + turn) % 4]
    begin = "back" if side in ("left", "right") else "left"
    bx, by = VECTORS[(AROUND.index(begin) + turn) % 4]
    skip = c.skip_start // STEP
    x0, x1 = x0 + (skip if bx < 0 else 0), x1 - (skip if bx > 0 else 0)
    y0, y1 = y0 + (skip if by < 0 else 0), y1 - (skip if by > 0 else 0)
    if out[0]:
        return (x1, y0, x1 + depth, y1) if out[0] > 0 else (x0 - depth, y0, x0, y1)
    return (x0, y1, x1, y1 + depth) if out[1] > 0 else (x0, y0 - depth, x1, y0)
