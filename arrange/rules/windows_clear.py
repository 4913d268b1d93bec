"""Tall pieces do not stand across windows."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.geometry.shapes import wall_strip
from arrange.rules.rule import Region, Rule

DEPTH = 300  # mm of floor before the window; common practice, no source


class WindowsClear(Rule):
    """Nothing higher than the sill stands within 30 cm of a window.

    What is lower than the sill may stand under it. Common practice, no source.
    """

    id = "windows-clear"
    title = "Tall pieces not across windows"
    kind = "must"

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a window, from its sill to its head."""
        room = scenario.room
        return [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, DEPTH),
                f"stands across {w.name}",
                bottom=w.sill,
                top=w.head,
            )
            for w in room.windows
        ]
