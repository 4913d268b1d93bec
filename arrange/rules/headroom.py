"""Room to sit up on a high bed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.rule import Rule

if TYPE_CHECKING:
    from arrange.solver.model import Model


class Headroom(Rule):
    """Above its top a piece keeps the headroom it asks for, below the ceiling.

    For bunk and loft beds 711 mm from the top of the upper mattress
    (`bunk-ceiling`, common practice: 711 to 914 mm). It depends on the room and
    the piece alone: where it fails, no arrangement works.
    """

    id = "headroom"
    title = "Headroom"
    kind = "must"
    takes = ("least",)
    source = "bunk-ceiling"

    def build(self, model: Model) -> None:
        """No arrangement at all if a piece lacks its headroom."""
        if any(True for _ in lacking(model.scenario)):
            model.must(False)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each piece with too little above it."""
        for name, gap, need in lacking(scene.scenario):
            yield Breach(
                self.id,
                (name,),
                f"{name} has {scene.length(gap)} above it, {scene.length(need)} is needed",
            )


def lacking(scenario: Scenario) -> Iterable[tuple[str, int, int]]:
    """Each piece that lacks headroom, with what is above it and what it needs (mm)."""
    least = scenario.setting(Headroom.id).least
    for piece in scenario.pieces:
        if not piece.headroom:
            continue
        need = piece.headroom if least is None else least
        gap = scenario.room.ceiling - piece.top
        if gap < need:
            yield piece.name, gap, need
