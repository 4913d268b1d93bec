"""A socket near what needs one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from arrange.data.scenario import Scenario
from arrange.rules.base import Claim, Measure, Rule
from arrange.rules.who import the
from arrange.scene import Scene
from arrange.spots import Spot, fixture_spot, gap

if TYPE_CHECKING:
    from arrange.solver.model import Model

STEPS = (3000, 1500)  # mm: an extension lead, a usual cord; common practice, no source
ROLES = {"needs socket", "light", "screen"}


class SocketsNear(Rule):
    """What needs power is within 3 m, better 1.5 m, of a socket.

    The distance is the larger of the gap across and the gap up the plan to the
    nearest socket. Rooms whose sockets were not measured have nothing to earn.
    Common practice, no source.
    """

    id = "sockets-near"
    title = "A socket near what needs one"
    weight = 2
    takes = ("comfortable",)
    distances = True

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each piece that needs power, in rooms with sockets."""
        if not _sockets(scenario):
            return []
        return [
            Claim(self.id, (piece.name,), self.weight, STEPS)
            for piece in scenario.pieces
            if piece.roles & ROLES
        ]

    def reach(self, model: Model, claim: Claim) -> Sequence[Any]:
        """Near one of the sockets."""
        place = model.place(claim.subjects[0])
        return model.levels_near(place, _sockets(model.scenario), claim.steps)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance to the nearest socket."""
        piece = scene.find(claim.subjects[0])
        nearest = min(_sockets(scene.scenario), key=lambda s: gap(piece, s))
        away = gap(piece, nearest)
        where = f"{scene.length(away)} from" if away else "right at"
        return Measure(
            sum(away <= step for step in claim.steps),
            f"{the(piece.name, first=True)} is {where} {the(nearest.name)}",
            scene.length(away),
            scene.length(claim.steps[-1]),
        )


def _sockets(scenario: Scenario) -> list[Spot]:
    return [fixture_spot(scenario.room, f) for f in scenario.room.fixtures if f.kind == "socket"]
