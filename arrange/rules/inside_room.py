"""Every piece stands inside the room, below the ceiling."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.data.conflict import Requirement
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import leaves
from arrange.rules.rule import KeepsOff


class InsideRoom(KeepsOff):
    """Footprints lie within the outline; tops stay below the ceiling.

    A footprint may touch a wall. The model keeps bodies and clearances off
    everything outside the outline by itself, so there is nothing to build.
    """

    id = "inside-room"
    title = "Inside the room"
    kind = "must"
    always = "a piece belongs inside the room"
    kinds = ()

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each piece that leaves the outline or meets the ceiling."""
        for placed in scene.placed:
            if leaves(placed.body, scene.room):
                yield Breach(self.id, (placed.name,), f"{placed.name} is not inside the room")
            if placed.piece.top > scene.scenario.room.ceiling:
                yield Breach(self.id, (placed.name,), f"{placed.name} is taller than the room")

    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """None: the room itself stays as it is."""
        del scenario
        return ()
