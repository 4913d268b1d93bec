"""What rules share that want a piece near one of some spots or pieces."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from arrange.data.lengths import Rounding, the
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Spot, gap
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule


class SpotsNear(Rule):
    """Pieces of some ``roles`` stand within ``steps`` mm of the nearest spot.

    The distance is the larger of the gap across and the gap up the plan between
    the bounds of the piece and of the spot. Subclasses say which spots count.
    """

    roles: ClassVar[frozenset[str]] = frozenset()
    steps: tuple[int, ...] = ()
    takes = ("comfortable",)
    distances = True

    def spots(self, scenario: Scenario) -> list[Spot]:
        """The spots that count; none means that there is nothing to earn."""
        raise NotImplementedError(self.id)

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each piece of the roles, in rooms with such spots."""
        if not self.spots(scenario):
            return []
        return [
            Claim(self.id, (piece.name,), self.weight, self.steps)
            for piece in scenario.pieces
            if piece.roles & self.roles
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near one of the spots."""
        place = model.place(claim.subjects[0])
        return model.levels_near(place, self.spots(model.scenario), claim.steps)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance to the nearest spot."""
        return to_the_nearest(scene, claim, self.spots(scene.scenario), "right at")


def to_the_nearest(
    scene: Scene, claim: Claim, spots: Sequence[Spot | Placed], beside: str = "right beside"
) -> Measure:
    """How far the first piece of a claim is from the nearest of some spots or pieces."""
    piece = scene.find(claim.subjects[0])
    nearest = min(spots, key=lambda spot: gap(piece, spot))
    away = gap(piece, nearest)
    level, best = sum(away <= step for step in claim.steps), claim.steps[-1]
    rounded, better = what_is_better(scene, away, best)
    where = f"is {scene.how_far(away, beside, rounded)} {the(nearest.name)}"
    said = f"{the(piece.name, first=True)} {where}{better}"
    return Measure(level, said, scene.length(away, rounded), scene.length(best))


def what_is_better(scene: Scene, away: int, best: int) -> tuple[Rounding, str]:
    """How to round a gap in mm, and of one too far what is better: else a loss reads as praise."""
    return ("up", f"; {scene.length(best)} or less is better") if away > best else ("near", "")
