"""Nothing to climb on stands at a window, where a child climbs."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.people import asked
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import wall_strip
from arrange.rules.cot_harm import FOOTHOLD
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region


class Climbing(KeepsOff):
    """No piece that a child can climb on stands within 300 mm in front of a window.

    Where somebody climbs who lives or stays here: for cots alone, `cot-window` asks the same
    of every room. What stands on the floor and is 150 to 1000 mm high is climbed on, like a
    foothold beside a cot; what is higher keeps off by the rule on windows. A French window is a
    door. The distance is common practice, no source: the advice of `us-crib-window`, to move
    furniture away from windows, gives no number.
    """

    id = "climbing"
    title = "Nothing to climb on at a window"
    kind = "must"
    takes = ("least",)
    kinds = (RequirementKind("climbing", ROOM, 5, 1),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a window; none where nobody climbs, or the distance is set to 0."""
        need, distance = asked(scenario.people, "window"), off_windows(scenario)
        if need is None or not distance:
            return []
        return [
            Region(
                wall_strip(scenario.room.walls[w.wall], w.offset, w.width, distance),
                f"stands in front of {the(w.name)}, where {need.whose} could climb on it",
                w.name,
                keeps_out=_is_climbed_on,
            )
            for w in scenario.room.windows
            if w.french is None
        ]

    # -- what can be asked of it: it protects a child, so it never gives --
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The distance between all footholds and all windows."""
        return [Requirement("climbing")] if self.regions(scenario) else []

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """All of it, and who climbs."""
        del requirement, among
        need = asked(scenario.people, "window")
        who = f": {need.whose} climbs" if need and " and " not in need.whose else ""
        return f"nothing to climb on stands in front of a window{who}"


def off_windows(scenario: Scenario) -> int:
    """How far off windows footholds are kept, in mm; 0 if nobody climbs, or for off.

    The person's own value, else what is needed.
    """
    need, setting = asked(scenario.people, "window"), scenario.setting(Climbing.id)
    if need is None or setting.off:
        return 0
    return need.least if setting.least is None else setting.least


def _is_climbed_on(piece: Piece) -> bool:
    low, high = FOOTHOLD
    return not piece.bottom and low <= piece.top <= high
