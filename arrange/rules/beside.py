"""The person's wish that a piece stands beside something."""

from __future__ import annotations

from arrange.data.lengths import is_nought, the
from arrange.data.room import Facing
from arrange.data.scenario import Wish
from arrange.geometry.scene import Scene
from arrange.geometry.spots import across, gap
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Measure
from arrange.rules.wished import OwnWish, boxes, place_words

WAYS: tuple[Facing, Facing] = ("up", "right")


class Beside(OwnWish):
    """The gap is at most the distance, and the two stand level with one another.

    They share at least 1 mm across the plan or up the plan: not corner to
    corner. One part of several is enough.
    """

    id = "beside"
    title = "Beside what you asked for"
    relation = "beside"
    usual = 300  # common practice, no source

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """Near one of the boxes and level with it in one direction."""
        del step
        piece, choices = model.place(wish.piece), []
        for box in boxes(model, wish):
            for way in WAYS:
                choice = model.literal()
                (low, high), (start, end) = across(box, way), across(piece, way)
                model.near(choice, piece, box, self.distance(wish))
                model.when(choice, low + 1 <= end, start + 1 <= high)
                choices.append(choice)
        model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """Near one of the boxes and level with it in one direction."""
        del step
        placed = scene.find(wish.piece)
        for box in boxes(scene, wish):
            for way in WAYS:
                (low, high), (start, end) = across(box, way), across(placed, way)
                if gap(placed, box) <= self.distance(wish) and low < end and start < high:
                    return True
        return False

    def describe(self, scene: Scene, wish: Wish) -> Measure:
        """Whether it does, and how far off the nearest of them is."""
        gaps = [gap(scene.find(wish.piece), box) for box in boxes(scene, wish)]
        away = scene.length(min(gaps)) if gaps else "none"
        wanted = scene.length(self.distance(wish))
        who, place = the(wish.piece, first=True), place_words(scene.scenario.room, wish.place)
        if self.held(scene, wish, 0):
            beside = f"right beside {place}" if is_nought(away) else f"beside {place}, {away} away"
            return Measure(0, f"{who} is {beside}", away, wanted)
        off = f", but {away} away" if gaps and not is_nought(away) else ""
        return Measure(0, f"{who} is not beside {place}{off}", away, wanted)
