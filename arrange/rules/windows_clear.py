"""Tall pieces do not stand across windows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, the
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import wall_strip
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region

UNSEEN = 10**6  # mm; a sill so high that nothing stands across its window
DEPTH = 300  # mm of floor before the window; common practice, no source


class WindowsClear(KeepsOff):
    """Nothing higher than the sill stands within 30 cm of a window.

    What is lower than the sill may stand under it. Common practice, no source.
    """

    id = "windows-clear"
    title = "Tall pieces not across windows"
    kind = "must"
    kinds = (RequirementKind("sill", ROOM, 4, 2),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a window, from its sill to its head."""
        room = scenario.room
        return [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, DEPTH),
                f"stands across {w.name}",
                w.name,
                bottom=w.sill,
                top=w.head,
            )
            for w in room.windows
        ]

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """That nothing tall stands across each window."""
        windows = () if scenario.setting(self.id).off else scenario.room.windows
        return [Requirement("sill", w.name) for w in windows if w.sill < UNSEEN]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A window that is not kept clear has its sill out of everybody's way."""
        del whole
        windows = tuple(
            w if Requirement("sill", w.name) in kept else replace(w, sill=UNSEEN, head=UNSEEN)
            for w in scenario.room.windows
        )
        return replace(scenario, room=replace(scenario.room, windows=windows))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How high things may be."""
        del among
        window = next(w for w in scenario.room.windows if w.name == requirement.name)
        sill = measured(window.sill, scenario.unit)
        return f"nothing taller than the sill ({sill}) stands across {the(window.name)}"
