"""The person's wish that a piece stands near something."""

from __future__ import annotations

from arrange.data.scenario import Wish
from arrange.geometry.scene import Scene
from arrange.geometry.spots import gap
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Measure
from arrange.rules.wished import OwnWish, boxes, told_gap


class Near(OwnWish):
    """The gap to the place, or to one of its parts, is at most the distance.

    Half as far again earns half the points. A wish that must hold asks for the
    distance itself.
    """

    id = "near"
    title = "Near what you asked for"
    relation = "near"
    usual = 1000  # common practice, no source

    def steps(self, wish: Wish) -> tuple[int, ...]:
        """Half as far again, then the distance; one step where both are the same."""
        distance = self.distance(wish)
        far = distance * 3 // 2
        return (far, distance) if far > distance else (distance,)

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """Within the step of one of the boxes."""
        model.near_one(literal, model.place(wish.piece), boxes(model, wish), step)

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """Within the step of one of the boxes."""
        return any(gap(scene.find(wish.piece), box) <= step for box in boxes(scene, wish))

    def describe(self, scene: Scene, wish: Wish) -> Measure:
        """How far it is from the nearest of them."""
        return told_gap(scene, wish, self.distance(wish), ("up", "less", "be near"))
