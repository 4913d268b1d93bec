"""Cots stand away from windows."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import wall_strip
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region

DISTANCE = 300  # mm; common practice, no source


class CotWindow(KeepsOff):
    """No cot stands within 300 mm in front of a window, whatever its sill.

    The distance is common practice, no source: the advice of `cot-window` (climbing,
    falls and blind cords) gives no number. Other beds are only cautioned.
    """

    id = "cot-window"
    title = "Cots away from windows"
    kind = "must"
    takes = ("least",)
    kinds = (RequirementKind("cots", ROOM, 5),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a window, for cots only; none where the distance is set to 0."""
        room, least = scenario.room, scenario.setting(self.id).least
        distance = DISTANCE if least is None else least
        return [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, distance),
                f"stands in front of {the(w.name)}, where a child could climb or reach cords",
                w.name,
                keeps_out=_is_cot,
            )
            for w in room.windows
            if distance
        ]

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The distance between all cots and all windows."""
        speaks = scenario.room.windows and any(p.is_a("cot") for p in scenario.pieces)
        return [Requirement("cots")] if speaks and not scenario.setting(self.id).off else []

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """All of it."""
        del scenario, requirement, among
        return "cots stand away from the windows"


def _is_cot(piece: Piece) -> bool:
    return piece.is_a("cot")
