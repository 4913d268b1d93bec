"""The person's wish that a piece faces something."""

from __future__ import annotations

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Wish
from arrange.geometry.scene import Scene
from arrange.geometry.spots import across, along
from arrange.rules.protocol import L, Verbs
from arrange.rules.wished import OwnWish, boxes, looks


class FacingPlace(OwnWish):
    """The place lies straight ahead of the piece.

    All of its box is beyond the line of the piece's front (touching is allowed)
    and some of it within the width of the piece, going by the nearest quarter
    turn and upright bounding boxes. One part of several is enough.
    """

    id = "facing"
    title = "Facing what you asked for"
    relation = "facing"

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """One of the boxes lies ahead of one of the turns."""
        del step
        piece, choices = model.place(wish.piece), []
        for turn in FACINGS:
            for way in looks(piece.piece, turn):
                (_, front), (left, right) = along(piece, way), across(piece, way)
                for box in boxes(model, wish):
                    choice = model.literal()
                    low, high = across(box, way)
                    model.implies(choice, model.faces(wish.piece, turn))
                    model.when(choice, along(box, way)[0] >= front)
                    model.when(choice, low + 1 <= right, left + 1 <= high)
                    choices.append(choice)
        model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """One of the boxes lies ahead of the piece as it is turned."""
        del step
        placed = scene.find(wish.piece)
        for way in looks(placed.piece, placed.facing):
            (_, front), (left, right) = along(placed, way), across(placed, way)
            for box in boxes(scene, wish):
                low, high = across(box, way)
                if along(box, way)[0] >= front and low < right and left < high:
                    return True
        return False

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """Whether it does."""
        verb = "faces" if held else "does not face"
        return f"{the(wish.piece, first=True)} {verb} {place}"
