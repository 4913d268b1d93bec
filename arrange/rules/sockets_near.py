"""A socket near what needs one."""

from __future__ import annotations

from arrange.data.scenario import Scenario
from arrange.geometry.spots import Spot, fixture_spot
from arrange.rules.spots_near import SpotsNear

STEPS = (3000, 1500)  # mm: an extension lead, a usual cord; common practice, no source
ROLES = frozenset({"needs socket", "light", "screen"})


class SocketsNear(SpotsNear):
    """What needs power is within 3 m, better 1.5 m, of a socket.

    The distance is the larger of the gap across and the gap up the plan to the
    nearest socket. Rooms whose sockets were not measured have nothing to earn.
    Common practice, no source.
    """

    id = "sockets-near"
    title = "A socket near what needs one"
    roles = ROLES
    steps = STEPS

    def spots(self, scenario: Scenario) -> list[Spot]:
        """Every socket that was measured."""
        return [
            fixture_spot(scenario.room, f) for f in scenario.room.fixtures if f.kind == "socket"
        ]
