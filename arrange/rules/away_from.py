"""The person's wish that a piece keeps away from something."""

from __future__ import annotations

from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Wish
from arrange.geometry.scene import Scene
from arrange.geometry.spots import gap
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Measure
from arrange.rules.wished import OwnWish, boxes, protects, told_gap


class AwayFrom(OwnWish):
    """The gap to the place, and to every part of it, is at least the distance.

    Two thirds of it earn half the points. A wish that must hold asks for the
    distance itself. At a distance of 0 the two may touch.
    """

    id = "away-from"
    title = "Away from what you asked for"
    relation = "away from"
    usual = 1500  # common practice, no source

    def steps(self, wish: Wish) -> tuple[int, ...]:
        """Two thirds of the distance, then all of it; one step where both are the same."""
        distance = self.distance(wish)
        part = distance * 2 // 3
        return (part, distance) if part < distance else (distance,)

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """At least the step from every box."""
        for box in boxes(model, wish):
            if step:
                model.beyond(literal, model.place(wish.piece), box, step)

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """At least the step from every box."""
        return all(gap(scene.find(wish.piece), box) >= step for box in boxes(scene, wish))

    def describe(self, scene: Scene, wish: Wish) -> Measure:
        """How far it is from the nearest of them."""
        return told_gap(scene, wish, self.distance(wish), ("down", "more", "keep from"))

    def for_safety(self, scenario: Scenario, wish: Wish) -> bool:
        """What keeps a cot off a window, or anything off what burns."""
        return protects(scenario, wish)

    def lasts_for(self, piece: Piece, wish: Wish) -> bool:
        """A smaller piece is as far off; what is away from it need not be."""
        return {wish.piece, wish.place} & {piece.name, piece.model} == {piece.name}
