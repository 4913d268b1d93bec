"""What needs a wall stands with its back on one, or across a corner where it may."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from arrange.data.change import Turn
from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.geometry.across import across_corner, can_cross
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import frame
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import FRAIL, Relaxing
from arrange.rules.rule import KeepsOff
from arrange.rules.selectors import corner_at

NEAR = 0.5  # mm; places are whole mm, so anything nearer is the same place
SLANTED_END = 1.0  # mm; a slanted wall's length is rarely whole, its last mm is not used


TURNED = {"seat", "desk", "dine"}  # of use away from a wall; the head of a bed belongs there


class BacksOnWalls(KeepsOff):
    """A piece for the wall has its whole back on one wall, at that wall's angle.

    A piece for a corner also reaches an end of its wall where the next wall
    meets it inside the room: not the free edge of a chimney breast. Pieces tied
    to another one are exempt; their places decide. One that stands anywhere may, and is
    then as exact. Across a corner the two ends of its back touch the two walls, which are
    straight and meet at a right angle. The model offers wall pieces
    no other way to stand, so only corners are built. Common practice, no source.
    """

    id = "backs-on-walls"
    title = "Backs on walls"
    kind = "must"
    always = 'give the piece stands = "free" instead'
    kinds = ()

    def build(self, model: Verbs[L]) -> None:
        """Corner pieces stand only at those ends of a wall where another wall meets it."""
        room = model.scenario.room
        for piece in model.scenario.pieces:
            if piece.stands != "corner" or piece.anchor is not None:
                continue
            for wall, offset in model.place(piece.name).offsets.items():
                last = room.walls[wall].room_for(piece.width)
                ends = [(0, wall), (last, (wall + 1) % len(room.walls))]
                fitting = [at for at, corner in ends if corner_at(room, corner)]
                on = model.on_wall(piece.name, wall)
                if on is None or len(fitting) == 2:
                    continue
                model.when(on, *[offset == at for at in fitting] or [False])

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each wall or corner piece that stands otherwise."""
        for placed in scene.placed:
            piece = placed.piece
            crosses = placed.placement.corner is not None or piece.stands == "across"
            if piece.anchor is None and crosses:
                if not _across(placed, scene.scenario.room):
                    yield Breach(
                        self.id,
                        (piece.name,),
                        f"{the(piece.name, first=True)} does not stand across a corner",
                    )
                continue
            if not piece.needs_wall and (not piece.backs or placed.placement.wall is None):
                continue
            if not _backed(placed, scene.scenario.room):
                yield Breach(
                    self.id,
                    (piece.name,),
                    f"{the(piece.name, first=True)} does not stand with its back to a wall",
                )
            elif piece.stands == "corner" and not _in_corner(placed, scene.scenario.room):
                yield Breach(
                    self.id,
                    (piece.name,),
                    f"{the(piece.name, first=True)} does not stand in a corner",
                )

    # -- what can be asked of it: a smaller back stays on its wall ---------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """None: that it stands with its back to a wall is part of the piece."""
        del scenario
        return ()

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """A seat, desk or table turned from its wall or corner, unless it must be fixed there."""
        for piece in ask.scenario.pieces:
            across = piece.stands == "across" and piece.anchor is None
            stays = piece.name in ask.held or not (piece.needs_wall or across)
            turns = (piece.roles & TURNED or across) and not piece.roles & (FRAIL | {"tall"})
            if ask.touchable(piece.name) and turns and not stays:
                where = "elsewhere than across a corner" if across else "away from the wall"
                yield from ask.relaxation(
                    "turn",
                    (Turn(piece.name),),
                    f"{the(piece.name)} may be turned, or stand {where}",
                    ("turn", piece.name),
                    frozenset({piece.name}),
                )


def _across(placed: Placed, room: Room) -> bool:
    """Whether it may stand across a corner, and does so exactly."""
    piece, corner = placed.piece, placed.placement.corner
    if corner is None or not piece.crosses or not can_cross(room, piece, corner):
        return False
    return placed.placement == across_corner(piece, corner)


def _along(placed: Placed, room: Room) -> float:
    """How far the left end of its back is from the left end of its wall, in mm."""
    wall = room.walls[placed.placement.wall or 0]
    return wall.coordinate(*frame(placed.piece, placed.placement, room).origin)


def _backed(placed: Placed, room: Room) -> bool:
    index = placed.placement.wall
    if index is None or not 0 <= index < len(room.walls):
        return False
    wall, own = room.walls[index], frame(placed.piece, placed.placement, room)
    inward, along = wall.inward, _along(placed, room)
    square = own.ahead[0] * inward[0] + own.ahead[1] * inward[1] > 1 - 1e-9
    within = along > -NEAR and along + placed.piece.width < wall.length + NEAR
    return square and abs(wall.off(*own.origin)) < NEAR and within


def _in_corner(placed: Placed, room: Room) -> bool:
    index = placed.placement.wall or 0
    wall, along = room.walls[index], _along(placed, room)
    hands = placed.piece.in_corners
    if "left" in hands and along < NEAR and corner_at(room, index):
        return True
    spare = wall.length - along - placed.piece.width
    at_end = spare < SLANTED_END and corner_at(room, (index + 1) % len(room.walls))
    return "right" in hands and at_end
