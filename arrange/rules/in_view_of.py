"""The person's wish to have something in view from a piece."""

from __future__ import annotations

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Wish
from arrange.geometry.scene import Scene
from arrange.geometry.spots import along
from arrange.rules.protocol import L, Verbs
from arrange.rules.wished import OwnWish, boxes, looks


class InViewOf(OwnWish):
    """The place lies in the half of the room that the piece looks into.

    Its middle is further ahead than the middle of the piece, by at least half a
    mm, going by the nearest quarter turn and upright bounding boxes. What stands
    between does not count. One part of several is enough.
    """

    id = "in-view-of"
    title = "In view of what you asked for"
    relation = "in view of"

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """One of the boxes has its middle ahead of the piece's, for one of the turns."""
        del step
        piece, choices = model.place(wish.piece), []
        for turn in FACINGS:
            for way in looks(piece.piece, turn):
                back, front = along(piece, way)
                for box in boxes(model, wish):
                    choice = model.literal()
                    near, far = along(box, way)
                    model.implies(choice, model.faces(wish.piece, turn))
                    model.when(choice, near + far >= back + front + 1)
                    choices.append(choice)
        model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """One of the boxes has its middle ahead of the piece's."""
        del step
        placed = scene.find(wish.piece)
        return any(
            sum(along(box, way)) > sum(along(placed, way))
            for way in looks(placed.piece, placed.facing)
            for box in boxes(scene, wish)
        )

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """Whether it is."""
        where = "in view" if held else "behind it, out of view"
        return f"From {the(wish.piece)}, {place} is {where}"
