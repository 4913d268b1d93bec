"""What it means that a piece stands against a wall. Lengths in mm; no solver."""

from __future__ import annotations

from typing import Any

from arrange.data.piece import Piece
from arrange.data.room import Facing, Room
from arrange.rules.wished import wall_spot
from arrange.scene import Scene
from arrange.spots import Bounded, across, along


def by_its_back(piece: Piece) -> bool:
    """Whether the piece is one that stands with its back on a wall."""
    return piece.stands != "free" and piece.anchor is None


def _lines(room: Room, wall: int, thing: Bounded) -> tuple[Any, Any, tuple[Any, Any], Any]:
    """The wall's line, the thing's nearest line, and both their ends along the wall."""
    facing: Facing | None = room.walls[wall].facing
    if facing is None:
        raise ValueError("a slanted wall has no line that upright boxes touch")
    spot = wall_spot(room, wall)
    near, own = along(spot, facing)[0], along(thing, facing)[0]
    return near, own, across(spot, facing), across(thing, facing)


def touch(room: Room, wall: int, thing: Bounded) -> tuple[Any, Any, Any]:
    """What all must hold for a box to touch a straight wall from inside."""
    line, own, (low, high), (start, end) = _lines(room, wall, thing)
    return own == line, low + 1 <= end, start + 1 <= high


def clear_of(room: Room, wall: int, thing: Bounded) -> tuple[Any, Any, Any, Any]:
    """Of which one must hold for a box not to touch it."""
    line, own, (low, high), (start, end) = _lines(room, wall, thing)
    return own >= line + 1, own <= line - 1, end <= low, start >= high


def against_wall(scene: Scene, name: str, wall: int) -> bool:
    """Whether a placed piece stands against a wall: by its back, or by any side."""
    placed = scene.find(name)
    if by_its_back(placed.piece):
        return placed.placement.wall == wall
    room = scene.scenario.room
    return room.walls[wall].facing is not None and all(touch(room, wall, placed))


def wall_words(name: str) -> str:
    """The wall's name, with the word wall if it does not say so itself."""
    return name if "wall" in name.casefold() or len(name) > 2 else f"wall {name}"
