"""The walkway of an arrangement as data: its floor and what it reaches. Lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.geometry import door_floor
from arrange.goals import goals, walk_of
from arrange.results.shapes import outline, with_holes
from arrange.scene import Scene


def walkway_data(scene: Scene) -> dict[str, Any]:
    """Its width, all floor it can sweep over from the main door, and what it reaches."""
    scenario = scene.scenario
    door = scenario.room.main_door
    walk = walk_of(scene)
    return {
        "width": scenario.walkway,
        "overridden": scenario.walkway_overridden,
        "from": None if door is None else door.name,
        "door_floor": []
        if door is None
        else outline(door_floor(scenario.room, door, scenario.walkway)),
        "region": with_holes(walk.region()),
        "reaches": [
            {
                "name": goal.name,
                "clearance": goal.clearance or None,
                "purpose": goal.purpose,
                "reached": walk.reaches(goal),
                "zones": [outline(zone) for zone in goal.zones],
            }
            for goal in goals(scene)
        ],
    }
