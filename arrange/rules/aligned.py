"""The person's wish that a piece is in line with something."""

from __future__ import annotations

from arrange.data.lengths import the
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Wish
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, Spot, across, along
from arrange.rules.protocol import L, Verbs
from arrange.rules.wished import OwnWish, boxes

OFF = 20  # mm that the eye does not see; common practice, no source
WAYS: tuple[Facing, Facing] = ("up", "right")


class Aligned(OwnWish):
    """The middles agree in one direction, or two pieces have flush fronts or backs.

    Within 20 mm, between upright bounding boxes. Fronts or backs count for two
    pieces that face the same way. One part of several is enough.
    """

    id = "aligned"
    title = "In line with what you asked for"
    relation = "aligned"

    def hold(self, model: Verbs[L], literal: L, wish: Wish, step: int) -> None:
        """One of the lines agrees with one of the boxes."""
        del step
        piece, choices = model.place(wish.piece), []
        for box in boxes(model, wish):
            for way in WAYS:
                choice = model.literal()
                off = sum(across(piece, way)) - sum(across(box, way))
                model.when(choice, off <= 2 * OFF, off >= -2 * OFF)
                choices.append(choice)
            if isinstance(box, Spot):
                continue
            for way in FACINGS:
                for one, two in zip(along(piece, way), along(box, way), strict=True):
                    choice = model.literal()
                    # What is no spot is a place of the model, whose class no rule imports.
                    turned = box.facings[way]  # type: ignore[attr-defined]
                    model.implies(choice, piece.facings[way], turned)
                    model.when(choice, one - two <= OFF, one - two >= -OFF)
                    choices.append(choice)
        model.one_of(choices, when=[literal])

    def held(self, scene: Scene, wish: Wish, step: int) -> bool:
        """One of the lines agrees with one of the boxes."""
        del step
        placed = scene.find(wish.piece)
        return any(_middles(placed, box) or _flush(placed, box) for box in boxes(scene, wish))

    def sentence(self, wish: Wish, place: str, *, held: bool) -> str:
        """Whether it is."""
        verb = "is" if held else "is not"
        return f"{the(wish.piece, first=True)} {verb} in line with {place}"


def _middles(placed: Placed, box: Bounded) -> bool:
    return any(abs(sum(across(placed, way)) - sum(across(box, way))) <= 2 * OFF for way in WAYS)


def _flush(placed: Placed, box: Bounded) -> bool:
    if not isinstance(box, Placed) or placed.facing != box.facing:
        return False
    ends = zip(along(placed, placed.facing), along(box, placed.facing), strict=True)
    return any(abs(one - two) <= OFF for one, two in ends)
