"""Placed pieces as data: where they stand and the floor they need. Lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.data.arrangement import Placement
from arrange.data.piece import Clearance
from arrange.data.result import Gap
from arrange.data.room import Room
from arrange.geometry import facing_of
from arrange.results.shapes import outline, ring
from arrange.scene import DEEPEST, Placed, Scene


def piece_data(scene: Scene, placed: Placed) -> dict[str, Any]:
    """One piece where it stands, with every clearance and the side that serves it."""
    piece = placed.piece
    return {
        "name": piece.name,
        "kind": piece.kind,
        "width": piece.width,
        "depth": piece.depth,
        "bottom": piece.bottom,
        "top": piece.top,
        "flat": piece.flat,
        "major": piece.major,
        "goes_with": piece.anchor,
        "placement": placement_data(scene.scenario.room, placed.placement),
        "footprint": outline(placed.body),
        "clearances": [_clearance(scene, placed, c) for c in piece.clearances],
    }


def placement_data(room: Room, placement: Placement) -> dict[str, Any]:
    """The wall at its back if any, the way it faces and its place.

    ``x`` and ``y`` are the lower left corner of its footprint on the plan; for a
    piece at a slanted wall ``from_left`` and ``off_wall`` say where it is instead.
    """
    straight = placement.facing is not None
    return {
        "wall": None if placement.wall is None else room.walls[placement.wall].name,
        "facing": facing_of(placement, room),
        "slanted": not straight,
        "x": placement.x if straight else None,
        "y": placement.y if straight else None,
        "from_left": None if straight else placement.offset,
        "off_wall": None if straight else placement.inward,
        "quarter_turns": 0 if straight else placement.quarter,
    }


def _clearance(scene: Scene, placed: Placed, clearance: Clearance) -> dict[str, Any]:
    """The side with the most free floor is the one used; ties go to the first."""
    depths = [scene.side_depth(placed, clearance, side) for side in clearance.sides]
    best = max(range(len(depths)), key=lambda i: depths[i])
    side, depth = clearance.sides[best], depths[best]

    def strip(deep: int) -> list[Any]:
        return outline(scene.zone(placed, clearance, side, deep)) if deep else []

    return {
        "name": clearance.name,
        "purpose": clearance.purpose,
        "sides_allowed": list(clearance.sides),
        "side": side,
        "least": clearance.least,
        "comfortable": clearance.comfortable,
        "free": depth,
        "free_is_capped": depth == DEEPEST,
        "below": clearance.height,
        "walkway": clearance.walk and clearance.least > 0,
        "least_floor": strip(clearance.least),
        "comfortable_floor": strip(clearance.comfortable),
        "source": clearance.source or "common-practice",
        "status": clearance.status,
        "overridden": clearance.overridden,
    }


def gap_data(gap: Gap) -> dict[str, Any]:
    """A measured gap: its ends, its length and the two things it lies between."""
    return {
        "between": list(gap.between),
        "length": gap.length,
        "ends": ring((gap.start, gap.end)),
    }
