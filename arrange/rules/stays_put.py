"""Pieces that are to stay where they are stay there."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from arrange.data.result import Breach
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import footprint, frame
from arrange.rules.rule import Rule

if TYPE_CHECKING:
    from arrange.solver.model import Model

NEAR = 0.5  # mm; places are whole mm, so anything nearer is the same place
SAME_WAY = 1e-6  # between two unit vectors


class StaysPut(Rule):
    """A piece the person wants kept where it stands keeps its footprint and its facing.

    No source: the person's own wish. Places to keep come from ``Scenario.held``.
    """

    id = "stays-put"
    title = "What is to stay stays"
    kind = "must"
    source = "yours"
    always = "let the piece move instead: take it off the list of what stays"

    def build(self, model: Model) -> None:
        """Hold every kept piece exactly where it stands."""
        for placement in model.scenario.held:
            model.stay(placement)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each kept piece that has moved or turned."""
        room = scene.scenario.room
        for kept in scene.scenario.held:
            placed = scene.find(kept.piece)
            there = footprint(placed.piece, kept, room)
            looks = frame(placed.piece, placed.placement, room).ahead
            looked = frame(placed.piece, kept, room).ahead
            turned = math.dist(looks, looked) > SAME_WAY
            if turned or placed.body.hausdorff_distance(there) >= NEAR:
                yield Breach(self.id, (kept.piece,), f"{kept.piece} does not stay where it stands")
