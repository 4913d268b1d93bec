"""No narrow useless gap between a piece and the next wall."""

from __future__ import annotations

import math
from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule, off_its_wall
from arrange.rules.selectors import backs_on_wall

TIGHT = 20  # mm; no more than the skirting board takes; common practice, no source
USEFUL = 300  # mm; wide enough to clean and to put something there; common practice, no source
SQUARE = 0.2  # of the sine by which a corner may be off square and still be one to stand in
ROLES = {"bed", "store", "tall"}
ANYWHERE = 100_000


class NarrowGaps(Rule):
    """A large piece is within 20 mm of the corner beside it, or 300 mm or more off.

    Between the two lies a gap that cannot be cleaned and holds nothing. It asks this
    of beds, storage and tall pieces on a wall of their own, at both ends of
    the wall where another wall stands square to it. Common practice, no source.
    """

    id = "narrow-gaps"
    title = "No useless narrow gap beside a wall"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each such piece."""
        return [
            Claim(self.id, (piece.name,), self.weight, (USEFUL,))
            for piece in scenario.pieces
            if backs_on_wall(piece) and _is_large(piece)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """On each wall, the left end starts where neither gap is a narrow one."""
        name = claim.subjects[0]
        room, width = model.scenario.room, model.scenario.piece(name).width
        level = model.literal(f"{name} leaves no narrow gap")
        model.backed(level, name)
        for wall in model.wall_choices(name):
            last = room.walls[wall].length - width
            left, right = _corners(room, wall)
            starts = [(0, TIGHT), (USEFUL, ANYWHERE)] if left else [(0, ANYWHERE)]
            end = (math.ceil(last - TIGHT), ANYWHERE)
            ends = [(0, math.floor(last - USEFUL)), end] if right else [(0, ANYWHERE)]
            both = [(max(a, c), min(b, d)) for a, b in starts for c, d in ends]
            model.starts_in(level, name, wall, both)
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The narrow gaps at its two ends, the narrower first."""
        placed = scene.find(claim.subjects[0])
        wanted = f"none, or {scene.length(USEFUL)}"
        stretch = scene.wall_stretch(placed)
        if stretch is None:
            return off_its_wall(placed.name, wanted)
        wall, start, _ = stretch
        last = scene.scenario.room.walls[wall].length - placed.piece.width
        gaps = [float(start), last - start]
        narrow = sorted(
            gap
            for gap, corner in zip(gaps, _corners(scene.scenario.room, wall), strict=True)
            if corner and TIGHT < gap < USEFUL
        )
        shown = scene.length(math.floor(narrow[0]), "down") if narrow else "none"
        text = f"leaves a narrow gap of {shown}" if narrow else "leaves no narrow gap"
        return Measure(
            0 if narrow else 1,
            f"{the(placed.name, first=True)} {text} beside the next wall",
            shown,
            wanted,
        )


def _is_large(piece: Piece) -> bool:
    return piece.bottom == 0 and bool(piece.roles & ROLES)


def _corners(room: Room, wall: int) -> tuple[bool, bool]:
    """Whether another wall stands square to this one, inwards, at its left and right end."""
    here = room.walls[wall]
    (ax, ay), (nx, ny) = here.along, here.inward
    before, after = room.walls[wall - 1], room.walls[(wall + 1) % len(room.walls)]
    square = []
    for (x, y), sign in ((before.along, -1), (after.along, 1)):
        inwards = sign * (x * nx + y * ny) > 0
        square.append(inwards and abs(x * ax + y * ay) <= SQUARE)
    return square[0], square[1]
