"""How far each piece could slide along its wall or over the floor of the empty room. In mm."""

from __future__ import annotations

from arrange.whatif.spare.links import AXES, Web, wall_of
from arrange.whatif.spare.patches import Axis, Patch

Range = tuple[int, int]


def ranges(web: Web) -> list[tuple[Range, Range]]:
    """For every node, 0 included, how far down and up it can move in each direction.

    Only what nothing can change counts: the room's bounds, the wall at a piece's back,
    and floor to use a piece that has but one side to be on.
    """
    found: list[tuple[Range, Range]] = [((0, 0), (0, 0))]
    for number in range(1, len(web.nodes) + 1):
        patches = [p for p in web.patches if p.node == number and not several_sides(web, p)]
        across, up = (_range(web, number, patches, axis) for axis in AXES)
        found.append((across, up))
    return found


def several_sides(web: Web, patch: Patch) -> bool:
    """Whether the floor of a clearance could lie on another side instead."""
    if patch.use is None:
        return False
    name, clearance, _ = patch.use
    piece = web.scene.find(name).piece
    return any(c.name == clearance and len(c.sides) > 1 for c in piece.clearances)


def _range(web: Web, number: int, patches: list[Patch], axis: Axis) -> Range:
    node, room = web.nodes[number - 1], web.scene.scenario.room
    if node.stays[axis]:
        return 0, 0
    first, last = room.bounds[axis], room.bounds[axis + 2]
    low = max(first - p.bounds[axis] for p in patches)
    high = min(last - p.bounds[axis + 2] for p in patches)
    wall = wall_of(room, node.root.piece, node.root.placement)
    if wall is not None:
        ends = sorted((wall.start[axis], wall.end[axis]))
        root = node.root
        low = max(low, ends[0] - (root.x0, root.y0)[axis])
        high = min(high, ends[1] - (root.x1, root.y1)[axis])
    return low, high
