"""The escape window can be reached in an emergency."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD
from arrange.geometry.shapes import wall_strip
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region

STEP_ON = 450  # mm; up to seat height people step on it; common practice, no source


class EscapeWindow(KeepsOff):
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
    kinds = (RequirementKind("escape", ROOM, 4, 0),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region for each window marked as a way out."""
        room, least = scenario.room, scenario.setting(self.id).least
        depth = scenario.walkway if least is None else least
        return [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, depth),
                f"stands in the way to {the(w.name)}, the way out in an emergency",
                w.name,
                bottom=STEP_ON,
                top=HEAD,
            )
            for w in room.windows
            if w.escape and depth
        ]

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """That people get out by each such window: it is kept clear, and walked to."""
        asked = scenario.walks or not scenario.setting(self.id).off
        return [Requirement("escape", w.name) for w in scenario.room.windows if w.escape and asked]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A window that is not kept is no way out."""
        gone = {r.name for r in self.requirements(whole) if r not in kept}
        windows = tuple(
            replace(w, escape=False) if w.name in gone else w for w in scenario.room.windows
        )
        return replace(scenario, room=replace(scenario.room, windows=windows))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """Which one."""
        del scenario, among
        return f"{the(requirement.name)} is a way out in an emergency and is kept clear"
