"""Poses of pieces, and how far they are from being allowed, in whole numbers.

A pose is where a piece stands: on a wall at an offset, free in a quarter turn, or in
a slot of the piece it goes with. `Layout.overlap` adds up, in tenths of square
metres, the floor that must not be shared; it sees upright boxes only. What stands
aslant is left to the judge.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from shapely import box as upright_box

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import (
    extent,
    facing_of,
    frame,
    room_shape,
    slot_place,
    strip_corners,
    turn_facing,
    turns,
)
from arrange.rules import all_regions
from arrange.solver.boxes import convex_parts

Box = tuple[int, int, int, int]
# What `overlap` and the poses see to, where all walls and regions are upright.
SEEN_TO = {
    "inside-room", "bodies-apart", "door-floor", "windows-clear", "fixtures-free",
    "least-clearance", "backs-on-walls", "in-their-place",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pose:
    """On ``wall`` at ``a`` mm; free at (``a``, ``b``) facing ``facing``; or in ``slot``."""

    wall: int | None = None
    facing: Facing | None = None
    a: int = 0
    b: int = 0
    slot: int = 0


Poses = dict[str, Pose]


class Layout:
    """What does not change while pieces move."""

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        room = scenario.room
        self.bounds = room.bounds
        regions = all_regions(scenario)
        outside = upright_box(*room.bounds).difference(room_shape(room))
        self.outside = _upright([outside])
        self.off = {
            p.name: [*self.outside, *_upright([r.shape for r in regions if r.holds_off(p)])]
            for p in scenario.pieces
        }
        shapes = [outside, *[r.shape for r in regions]]
        self.exact = all(part.upright for shape in shapes for part in convex_parts(shape))
        self.no_use = [*self.outside, *_upright([r.shape for r in regions if r.blocks_use])]
        names = {p.name: p for p in scenario.pieces}
        self.order = sorted(scenario.pieces, key=lambda p: _depth(names, p))
        self.meeting = {
            (p.name, q.name)
            for p in scenario.pieces
            for q in scenario.pieces
            if p.shares_space_with(q)
        }
        self.walls = {p.name: self._walls(p) for p in scenario.pieces}

    def _walls(self, piece: Piece) -> list[int]:
        return [i for i, w in enumerate(self.scenario.room.walls) if w.length >= piece.width]

    def random_pose(self, rng: random.Random, piece: Piece) -> Pose:
        """Anywhere at all; wall pieces often at an end of their wall."""
        if piece.anchor is not None:
            return Pose(slot=rng.randrange(len(piece.slots)))
        if piece.stands != "free" and self.walls[piece.name]:
            wall = rng.choice(self.walls[piece.name])
            span = self.span(piece, wall)
            at = rng.choice([0, span] if piece.stands == "corner" else [0, span, None, None, None])
            return Pose(wall, a=rng.randint(0, span) if at is None else at)
        facing = rng.choice(turns(piece))
        sx, sy = extent(piece, facing)
        x0, y0, x1, y1 = self.bounds
        x, y = rng.randint(x0, max(x0, x1 - sx)), rng.randint(y0, max(y0, y1 - sy))
        return Pose(None, facing, x, y)

    def span(self, piece: Piece, wall: int) -> int:
        """The greatest offset of a piece along a wall."""
        return int(self.scenario.room.walls[wall].length + 1e-6) - piece.width

    def placements(self, poses: Poses) -> dict[str, Placement]:
        """Where the posed pieces stand; those tied to others follow them."""
        placed: dict[str, Placement] = {}
        for piece in self.order:
            if piece.name in poses:
                placed[piece.name] = self._placement(piece, poses[piece.name], placed)
        return placed

    def _placement(self, piece: Piece, pose: Pose, placed: dict[str, Placement]) -> Placement:
        if piece.anchor is not None:
            return self._tied(piece, pose, placed[piece.anchor])
        if pose.wall is None:
            return Placement(piece.name, pose.facing, pose.a, pose.b)
        wall = self.scenario.room.walls[pose.wall]
        if wall.facing is None:
            return Placement(piece.name, None, wall=pose.wall, offset=pose.a)
        ends = [wall.point(pose.a + a, b) for a in (0, piece.width) for b in (0, piece.depth)]
        x, y = (round(min(e[k] for e in ends)) for k in (0, 1))
        return Placement(piece.name, wall.facing, x, y, pose.wall)

    def _tied(self, piece: Piece, pose: Pose, host: Placement) -> Placement:
        anchor = self.scenario.piece(piece.anchor or "")
        a0, b0, a1, b1, quarter = slot_place(anchor, piece, piece.slots[pose.slot])
        if host.facing is None:
            return Placement(
                piece.name,
                None,
                wall=host.wall,
                offset=host.offset + a0,
                inward=host.inward + b0,
                quarter=quarter,
            )
        own = frame(anchor, host, self.scenario.room)
        points = [own.at(a, b) for a in (a0, a1) for b in (b0, b1)]
        x, y = (round(min(p[k] for p in points)) for k in (0, 1))
        return Placement(piece.name, turn_facing(host.facing, quarter), x, y)

    def arrangement(self, placed: dict[str, Placement]) -> Arrangement:
        """All pieces, in the scenario's order."""
        return Arrangement(tuple(placed[p.name] for p in self.scenario.pieces))

    def overlap(self, placed: dict[str, Placement], most: float = math.inf) -> float:
        """Floor shared that must not be, in tenths of square metres; 0 if there is none.

        Stops adding once there is more than ``most``.
        """
        pieces = [p for p in self.scenario.pieces if p.name in placed]
        bodies = {p.name: self._body(p, placed[p.name]) for p in pieces if placed[p.name].facing}
        total = 0
        for i, piece in enumerate(pieces):
            body = bodies.get(piece.name)
            if body is None:
                continue
            if total > most * 1e5:
                break
            total += _outside(body, self.bounds)
            total += sum(_shared(body, part) for part in self.off[piece.name])
            for other in pieces[i + 1 :]:
                if other.name in bodies and (piece.name, other.name) in self.meeting:
                    total += _shared(body, bodies[other.name])
            total += self._zones(piece, placed[piece.name], bodies)
        return total / 1e5

    @staticmethod
    def _body(piece: Piece, placement: Placement) -> Box:
        sx, sy = extent(piece, placement.facing or "down")
        return placement.x, placement.y, placement.x + sx, placement.y + sy

    def _zones(self, piece: Piece, placement: Placement, bodies: dict[str, Box]) -> int:
        total = 0
        for c in piece.clearances:
            if not c.least:
                continue
            minding = [
                bodies[p.name]
                for p in self.scenario.pieces
                if p.name in bodies and c.minds(piece, p)
            ]
            own = frame(piece, placement, self.scenario.room)
            least = None
            for side in c.sides:
                a0, b0, a1, b1 = strip_corners(piece, side, c.least, c.skip_start, c.skip_end)
                (px, py), (qx, qy) = own.at(a0, b0), own.at(a1, b1)
                zone = (int(min(px, qx)), int(min(py, qy)), int(max(px, qx)), int(max(py, qy)))
                bad = _outside(zone, self.bounds)
                bad += sum(_shared(zone, part) for part in [*self.no_use, *minding])
                least = bad if least is None else min(least, bad)
            total += least or 0
        return total

    def facing(self, placement: Placement) -> Facing:
        """The nearest quarter turn."""
        return facing_of(placement, self.scenario.room)


def _depth(names: dict[str, Piece], piece: Piece) -> int:
    return 0 if piece.anchor is None else 1 + _depth(names, names[piece.anchor])


def _upright(shapes: list) -> list[Box]:
    parts = [part for shape in shapes for part in convex_parts(shape)]
    return [part.upright for part in parts if part.upright is not None]


def _shared(a: Box, b: Box) -> int:
    wide = min(a[2], b[2]) - max(a[0], b[0])
    high = min(a[3], b[3]) - max(a[1], b[1])
    return wide * high if wide > 0 and high > 0 else 0


def _outside(a: Box, room: Box) -> int:
    return (a[2] - a[0]) * (a[3] - a[1]) - _shared(a, room)
