"""The escape window can be reached in an emergency."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD
from arrange.geometry.shapes import wall_strip
from arrange.rules.rule import Region, Rule

STEP_ON = 450  # mm; up to seat height people step on it; common practice, no source


class EscapeWindow(Rule):
    """Nothing higher than a seat stands on the floor before an escape window.

    That floor is as wide as the window and as deep as the walkway is wide. What
    hangs above 2 m does not count. Source `escape-clear`: no heavy furniture
    across the escape window; depth and height are common practice, no source.
    """

    id = "escape-window"
    title = "Escape window kept clear"
    kind = "must"
    takes = ("least",)
    source = "escape-clear"

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region for each window marked as a way out."""
        room, least = scenario.room, scenario.setting(self.id).least
        depth = scenario.walkway if least is None else least
        return [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, depth),
                f"stands in the way to {w.name}, the way out in an emergency",
                bottom=STEP_ON,
                top=HEAD,
            )
            for w in room.windows
            if w.escape and depth
        ]
