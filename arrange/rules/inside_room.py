"""Every piece stands inside the room, below the ceiling."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.ceilings import low_parts
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import leaves
from arrange.rules.rule import KeepsOff, Region


class InsideRoom(KeepsOff):
    """Footprints lie within the outline; tops stay below the ceiling.

    A footprint may touch a wall. The model keeps bodies and clearances off
    everything outside the outline by itself, so there is nothing to build. Under a sloping
    ceiling and under beams a piece keeps off the floor over which they are lower than its top.
    """

    id = "inside-room"
    title = "Inside the room"
    kind = "must"
    always = "a piece belongs inside the room"
    kinds = ()

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region for each slope and beam, and each height that a piece has."""
        return [
            Region(
                low.shape,
                f"does not fit under {low.name}",
                low.name,
                keeps_out=partial(_is_as_high, top=top),
                rugs_too=True,
            )
            for top in sorted({piece.top for piece in scenario.pieces})
            for low in low_parts(scenario.room, top)
        ]

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each piece that leaves the outline or meets the ceiling."""
        yield from super().breaches(scene)
        for placed in scene.placed:
            if leaves(placed.body, scene.room):
                yield Breach(
                    self.id,
                    (placed.name,),
                    f"{the(placed.name, first=True)} is not inside the room",
                )
            if placed.piece.top > scene.scenario.room.ceiling:
                yield Breach(
                    self.id,
                    (placed.name,),
                    f"{the(placed.name, first=True)} is taller than the room",
                )

    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """None: the room itself stays as it is."""
        del scenario
        return ()


def _is_as_high(piece: Piece, *, top: int) -> bool:
    return piece.top == top
