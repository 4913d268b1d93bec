"""Pieces that go with another one stand in one of its places."""

from __future__ import annotations

from collections.abc import Iterable

from arrange.data.piece import Slot
from arrange.data.result import Breach
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import frame, slot_place, turn_facing
from arrange.rules.rule import Rule

NEAR = 0.5  # mm; places are whole mm, so anything nearer is the same place


class InTheirPlace(Rule):
    """A piece tied to another stands exactly in one of its places, turned as that asks.

    Two pieces do not share a place: that is said here in words, bodies would
    meet there anyway. The model offers tied pieces nothing else, so there is
    nothing to build. The places themselves are common practice, no source.
    """

    id = "in-their-place"
    title = "Pieces that belong together stay together"
    kind = "must"
    always = "give the piece free = true instead"

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each tied piece out of place, or in a place already taken."""
        taken: dict[tuple[str, str, Slot], str] = {}
        for placed in scene.placed:
            piece = placed.piece
            if piece.anchor is None:
                continue
            slot = _slot_of(scene, placed)
            if slot is None:
                yield Breach(
                    self.id,
                    (piece.name, piece.anchor),
                    f"{piece.name} does not stand in a place of {piece.anchor}",
                )
                continue
            key = (piece.anchor, piece.model, slot)
            if key in taken:
                yield Breach(
                    self.id,
                    (taken[key], piece.name),
                    f"{taken[key]} and {piece.name} take the same place of {piece.anchor}",
                )
            taken[key] = piece.name


def _slot_of(scene: Scene, placed: Placed) -> Slot | None:
    """The place in which the piece stands, the first one if two are alike."""
    room, host = scene.scenario.room, scene.find(placed.piece.anchor or "")
    own = frame(host.piece, host.placement, room)
    ahead = frame(placed.piece, placed.placement, room).ahead
    for slot in placed.piece.slots:
        a0, b0, a1, b1, quarter = slot_place(host.piece, placed.piece, slot)
        if placed.facing != turn_facing(host.facing, quarter):
            continue
        x, y = own.ahead
        for _ in range(quarter):
            x, y = y, -x
        turned = abs(x - ahead[0]) + abs(y - ahead[1]) < 1e-6
        if turned and placed.body.hausdorff_distance(own.rectangle(a0, b0, a1, b1)) < NEAR:
            return slot
    return None
