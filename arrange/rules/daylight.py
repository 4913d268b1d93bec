"""Daylight where people work and read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from arrange.data.scenario import Scenario
from arrange.rules.base import Claim, Measure, Rule
from arrange.rules.who import the
from arrange.scene import Scene
from arrange.spots import Spot, gap, opening_spot

if TYPE_CHECKING:
    from arrange.solver.model import Model

STEPS = (2000, 1000)  # mm to the nearest window; common practice, no source
ROLES = {"desk", "read"}


class Daylight(Rule):
    """Desks and reading chairs stand within 2 m, better 1 m, of a window.

    The distance is the larger of the gap across and the gap up the plan between
    the bounds of the piece and of the window's opening; the nearest window
    counts. Common practice, no source.
    """

    id = "daylight"
    title = "Daylight on desk and reading chair"
    weight = 4
    takes = ("comfortable",)
    distances = True

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each desk and reading chair, in rooms with a window."""
        if not scenario.room.windows:
            return []
        return [
            Claim(self.id, (piece.name,), self.weight, STEPS)
            for piece in scenario.pieces
            if piece.roles & ROLES
        ]

    def reach(self, model: Model, claim: Claim) -> Sequence[Any]:
        """Near one of the windows."""
        return model.levels_near(
            model.place(claim.subjects[0]), _windows(model.scenario), claim.steps
        )

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance to the nearest window."""
        piece = scene.find(claim.subjects[0])
        nearest = min(_windows(scene.scenario), key=lambda w: gap(piece, w))
        away = gap(piece, nearest)
        where = f"{scene.length(away)} from" if away else "right at"
        return Measure(
            sum(away <= step for step in claim.steps),
            f"{the(piece.name, first=True)} is {where} {the(nearest.name)}",
            scene.length(away),
            scene.length(claim.steps[-1]),
        )


def _windows(scenario: Scenario) -> list[Spot]:
    return [opening_spot(scenario.room, w) for w in scenario.room.windows]
