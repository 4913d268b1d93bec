"""Every piece keeps the least floor it needs to be used."""

from __future__ import annotations

from collections.abc import Iterable

from arrange.data.result import Breach
from arrange.geometry.scene import Scene
from arrange.rules.rule import Rule


class LeastClearance(Rule):
    """The strip of least depth beside a piece is floor, and free of other pieces.

    Rugs may lie in it, and so may pieces that belong to this one (the chair in
    front of its desk). Where several sides would do, one is enough. The model
    builds every clearance at its least depth by itself.
    """

    id = "least-clearance"
    title = "Least room to use each piece"
    kind = "must"
    always = "give the piece clearance.front = { least = 0 } instead"

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each clearance that no side can give."""
        for placed in scene.placed:
            for clearance in placed.piece.clearances:
                if clearance.least <= 0:
                    continue
                if not scene.free_sides(placed, clearance, clearance.least):
                    yield Breach(
                        self.id,
                        (placed.name,),
                        f"{placed.name} lacks the {scene.length(clearance.least)} it needs "
                        f"{clearance.purpose}",
                    )
