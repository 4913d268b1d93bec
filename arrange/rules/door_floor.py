"""Doors open and people get through them."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.geometry.shapes import door_floor
from arrange.rules.rule import Region, Rule


class DoorFloor(Rule):
    """The floor in front of every door stays free, as wide as its clear opening.

    It is as deep as the leaf where the door opens in, and never less than the
    walkway: room to swing the leaf and to step in. Source `door-swing-keep`.
    """

    id = "door-floor"
    title = "Doors swing free and can be walked through"
    kind = "must"
    source = "door-swing-keep"

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a door."""
        return [
            Region(
                door_floor(scenario.room, door, scenario.walkway),
                f"stands in the way of {door.name}",
                top=door.height,
            )
            for door in scenario.room.doors
        ]
