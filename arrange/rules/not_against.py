"""The person's wish that a piece does not stand against a wall."""

from __future__ import annotations

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Wish
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.wished import (
    OwnWish,
    against_wall,
    clear_of,
    protects,
    the_wall,
    walls_called,
)


class NotAgainst(OwnWish):
    """The piece does not have its back on the wall, nor on any part of it.

    Its side may touch the wall. A piece that stands free or goes with another
    one touches it with no side; at a slanted wall such a piece never counts.
    """

    id = "not-against"
    title = "Not against the wall you named"
    relation = "not against"

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """Against none of the walls."""
        del step
        room = model.scenario.room
        for wall in walls_called(room, wish.place):
            if model.scenario.piece(wish.piece).backs:
                on = model.on_wall(wish.piece, wall)
                if on is not None:
                    model.forbid(literal, on)
            elif room.walls[wall].facing is not None:
                choices = []
                for constraint in clear_of(room, wall, model.place(wish.piece)):
                    choices.append(model.literal())
                    model.when(choices[-1], constraint)
                model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """Against none of the walls."""
        del step
        walls = walls_called(scene.scenario.room, wish.place)
        return not any(against_wall(scene, wish.piece, wall) for wall in walls)

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """Whether it keeps off."""
        del place  # always a wall
        verb = "is not" if held else "is"
        return f"{the(wish.piece, first=True)} {verb} against {the_wall(wish.place)}"

    def for_safety(self, scenario: Scenario, wish: Wish) -> bool:
        """What keeps a cot off a window, or anything off what burns."""
        return protects(scenario, wish)

    def lasts_for(self, piece: Piece, wish: Wish) -> bool:
        """A piece for the wall keeps its back where it is."""
        return piece.backs and wish.piece == piece.name
