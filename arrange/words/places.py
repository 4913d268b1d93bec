"""Where in the room a piece stands, as one points: a wall by what is in it, or the way it faces."""

from __future__ import annotations

from arrange.data.arrangement import Placement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import has_front, turn_facing
from arrange.rules.wished import PART, the_wall

TURNED = {
    "up": "the top of the plan",
    "down": "the bottom of the plan",
    "left": "the left of the plan",
    "right": "the right of the plan",
}

FREE = "out in the room"
# By the way they look into the room.
SIDES: dict[Facing, str] = {
    "down": "the wall at the top",
    "left": "the right wall",
    "up": "the wall at the bottom",
    "right": "the left wall",
}


def wall_called(room: Room, name: str) -> str:
    """A wall as people say it; a letter says which one it is on the plan.

    A name of the person's own is kept. The one wall with windows, else the one with doors, is
    called by them, and so is the wall across from it; any other by where it is on the plan.
    Where that would fit two walls the letter alone is said.
    """
    if len(name) > 2:
        return the_wall(name)
    own = [i for i, wall in enumerate(room.walls) if name in (wall.name, wall.part_of)]
    for what, found in (
        ("window", {w.wall for w in room.windows}),
        ("door", {d.wall for d in room.all_doors}),
    ):
        if len({room.walls[i].part_of or room.walls[i].name for i in found}) != 1:
            continue
        if found & set(own):
            return f"the {what} wall ({name})"
        facing = room.walls[min(found)].facing
        across = None if facing is None else turn_facing(facing, 2)
        if across is not None and _facing(room, across) == {name}:
            return f"the wall opposite the {what} ({name})"
    for facing, told in SIDES.items():
        if _facing(room, facing) == {name}:
            return f"{told} ({name})"
    return f"wall {name}"


def whole_wall(name: str) -> str:
    """The wall that a part belongs to: nobody is told to face half of one.

    >>> whole_wall("A right"), whole_wall("chimney breast left side")
    ('wall A', 'the left side of the chimney breast')
    """
    part = PART.fullmatch(name)
    half = part is not None and not part["side"].endswith("side")
    return the_wall(part["whole"]) if part and half else the_wall(name)


def _facing(room: Room, facing: Facing) -> set[str]:
    return {wall.part_of or wall.name for wall in room.walls if wall.facing == facing}


def stands_words(scenario: Scenario, placement: Placement) -> str:
    """At which wall, corner or other piece it stands; free, how it faces, or its long side runs."""
    if placement.corner is not None and scenario.piece(placement.piece).anchor is None:
        return across_words(scenario.room, placement.corner)
    if placement.wall is None:
        piece = scenario.piece(placement.piece)
        if piece.anchor is not None:
            return f"at {the(piece.anchor)}"
        return f"{FREE}{_turned(piece, placement)}"
    wall = scenario.room.walls[placement.wall]
    return f"against {wall_called(scenario.room, wall.part_of or wall.name)}"


def across_words(room: Room, corner: int) -> str:
    """What stands across a corner of the room, by its two walls, the left one first."""
    met = room.meeting(corner)
    left, right = (wall_called(room, wall.part_of or wall.name) for wall in met)
    return f"across the corner between {left} and {right}"


def _turned(piece: Piece, placement: Placement) -> str:
    """Which way a piece is turned, as far as anybody can see it: a round lamp faces nothing."""
    if has_front(piece):
        return f", facing {TURNED.get(placement.facing or '', 'a corner')}"
    if piece.width == piece.depth or placement.facing is None:
        return ""
    across = (piece.width > piece.depth) == (placement.facing in ("up", "down"))
    return f", its long side running {'left to right' if across else 'top to bottom'}"
