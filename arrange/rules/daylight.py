"""Daylight where people work and read."""

from __future__ import annotations

from arrange.data.scenario import Scenario
from arrange.geometry.spots import Spot, opening_spot
from arrange.rules.spots_near import SpotsNear

STEPS = (2000, 1000)  # mm to the nearest window; common practice, no source
ROLES = frozenset({"desk", "read"})


class Daylight(SpotsNear):
    """Desks and reading chairs stand within 2 m, better 1 m, of a window.

    The distance is the larger of the gap across and the gap up the plan between
    the bounds of the piece and of the window's opening; the nearest window
    counts. Common practice, no source.
    """

    id = "daylight"
    title = "Daylight on desk and reading chair"
    roles = ROLES
    steps = STEPS

    def spots(self, scenario: Scenario) -> list[Spot]:
        """Every window."""
        return [opening_spot(scenario.room, w) for w in scenario.room.windows]
