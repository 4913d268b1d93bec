"""The person's wish that a piece stands against a wall."""

from __future__ import annotations

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Wish
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.wished import OwnWish, against_wall, the_wall, touch, walls_called


class Against(OwnWish):
    """The piece has its back on the wall, or on a part of it.

    A piece that stands free or goes with another one counts when any side of it
    touches a straight wall for at least 1 mm.
    """

    id = "against"
    title = "Against the wall you asked for"
    relation = "against"

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """Against one of the walls."""
        del step
        choices, room = [], model.scenario.room
        for wall in walls_called(room, wish.place):
            if model.scenario.piece(wish.piece).backs:
                on = model.on_wall(wish.piece, wall)
                choices += [] if on is None else [on]
            elif room.walls[wall].facing is not None:
                choice = model.literal()
                model.when(choice, *touch(room, wall, model.place(wish.piece)))
                choices.append(choice)
        model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """Against one of the walls."""
        del step
        walls = walls_called(scene.scenario.room, wish.place)
        return any(against_wall(scene, wish.piece, wall) for wall in walls)

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """Whether it is."""
        del place  # always a wall
        verb = "is" if held else "is not"
        return f"{the(wish.piece, first=True)} {verb} against {the_wall(wish.place)}"

    def lasts_for(self, piece: Piece, wish: Wish) -> bool:
        """A piece for the wall keeps its back where it is."""
        return piece.backs and wish.piece == piece.name
