"""What keeps what apart in an arrangement: the links of chains across the room. Lengths in mm.

Two patches that may not meet are apart across the plan or up the plan, the one before the
other or the other way round. Each of these four is an *option*, a link with the gap that is
left; below 0, pieces must slide first. Every piece keeps its wall, its turn and its place.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece
from arrange.data.room import Room, Wall
from arrange.scene import Placed, Scene
from arrange.whatif.spare.patches import (
    END,
    Axis,
    Patch,
    Use,
    fixed,
    minded,
    outside,
    regions,
    solid,
    strips,
)

AXES: tuple[Axis, Axis] = (0, 1)
Pair = tuple[Patch, Patch, Use | None]


@dataclass(frozen=True, slots=True)
class Link:
    """One patch beside the next, going across or up the plan, with the gap between."""

    axis: Axis
    low: Patch
    high: Patch
    gap: int


@dataclass(frozen=True, slots=True)
class Need:
    """Two patches that may not meet: one of the options has to stay."""

    options: tuple[Link, ...]
    use: Use | None = None


@dataclass(frozen=True)
class Node:
    """Pieces that slide together. ``root`` is the one the others are tied to.

    ``stays`` says for each direction whether the node cannot slide: "low" or "high"
    is the end that is held by a wall, "both" where it may not move at all.
    """

    root: Placed
    stays: tuple[str, str]


@dataclass
class Web:
    """Everything that keeps the pieces of one arrangement apart.

    ``roomy`` says that something slanted was taken larger than it is, or a piece held
    that could slide: more may be to spare than the links say.
    """

    scene: Scene
    nodes: list[Node] = field(default_factory=list)
    needs: list[Need] = field(default_factory=list)
    patches: list[Patch] = field(default_factory=list)
    roomy: bool = False
    _elsewhere: set[Use | None] = field(default_factory=set)

    def __post_init__(self) -> None:
        scene = self.scene
        numbers = self._number()
        bodies = {
            p.name: Patch(
                (p.x0, p.y0, p.x1, p.y1), numbers[p.name], p.name, (p.x0, p.y0, p.x1, p.y1)
            )
            for p in scene.placed
        }
        self.patches += bodies.values()
        blocked: set[int] = set()
        for one, two, use in self._pairs(bodies, numbers):
            if one.node == two.node:
                continue
            options = ways(one, two)
            now = options[0].gap >= 0
            if now or use in self._elsewhere:
                self.needs.append(Need(options, use))
            else:
                blocked |= {one.node, two.node} - {0}
        self._hold(blocked)

    def _number(self) -> dict[str, int]:
        """The node of every piece, from 1 on."""
        scene, numbers = self.scene, dict[str, int]()
        kept = {p.piece for p in scene.scenario.held}
        roots = {p.name: _root(scene, p) for p in scene.placed}
        bound = {roots[name] for name in kept}
        for name in dict.fromkeys(roots.values()):
            root = scene.find(name)
            stays = ("both", "both") if name in bound else _stays(scene.scenario.room, root)
            self.nodes.append(Node(root, stays))
            self.roomy = self.roomy or root.placement.facing is None
            numbers[name] = len(self.nodes)
        return {name: numbers[root] for name, root in roots.items()}

    def _hold(self, blocked: set[int]) -> None:
        """What touches something slanted stays where it is."""
        for number in blocked:
            self.roomy = True
            self.nodes[number - 1] = Node(self.nodes[number - 1].root, ("both", "both"))

    def _pairs(self, bodies: dict[str, Patch], numbers: dict[str, int]) -> Iterator[Pair]:
        """All patches that may not meet."""
        scene, beyond = self.scene, outside(self.scene)
        for one, two in combinations(scene.placed, 2):
            level = one.piece.bottom < two.piece.top and two.piece.bottom < one.piece.top
            if one.piece.flat == two.piece.flat and level:
                yield bodies[one.name], bodies[two.name], None
        for region, name in regions(scene):
            off = [bodies[p.name] for p in scene.placed if region.holds_off(p.piece)]
            for patch in fixed(region.shape, name):
                yield from ((body, patch, None) for body in off)
        for number, body in enumerate(bodies.values()):
            yield from ((body, edge, None) for edge in beyond)
            if number < len(self.nodes):
                yield from self._wall_ends(number, bodies)
        for strip in strips(scene, numbers):
            self.patches.append(strip.patch)
            if not strip.free:
                self._elsewhere.add(strip.patch.use)
            near = [*beyond, *(bodies[p.name] for p in scene.placed if minded(strip, p))]
            near += solid(scene, strip.clearance)
            yield from ((strip.patch, other, strip.patch.use) for other in near)

    def _wall_ends(self, number: int, bodies: dict[str, Patch]) -> list[Pair]:
        """A piece for the wall keeps its whole back on it."""
        placed = self.nodes[number].root
        wall = wall_of(self.scene.scenario.room, placed.piece, placed.placement)
        if wall is None or placed.placement.facing is None:
            return []
        (ax, ay), (bx, by) = wall.start, wall.end
        body = bodies[placed.name]
        x0, y0, x1, y1 = body.bounds
        if ay == by:
            ends = [(min(ax, bx) - 1, y0, min(ax, bx), y1), (max(ax, bx), y0, max(ax, bx) + 1, y1)]
        else:
            ends = [(x0, min(ay, by) - 1, x1, min(ay, by)), (x0, max(ay, by), x1, max(ay, by) + 1)]
        return [(body, Patch(e, 0, END + wall.name, e), None) for e in ends]


def ways(one: Patch, two: Patch) -> tuple[Link, ...]:
    """The four ways in which two patches can be apart, the widest gap first."""
    found = [
        Link(axis, low, high, high.bounds[axis] - low.bounds[axis + 2])
        for axis in AXES
        for low, high in ((one, two), (two, one))
    ]
    return tuple(sorted(found, key=lambda link: -link.gap))


def _root(scene: Scene, placed: Placed) -> str:
    while placed.piece.anchor is not None:
        placed = scene.find(placed.piece.anchor)
    return placed.name


def wall_of(room: Room, piece: Piece, placement: Placement) -> Wall | None:
    """The wall that a piece for the wall has at its back."""
    if piece.stands == "free" or piece.anchor is not None or placement.wall is None:
        return None
    return room.walls[placement.wall]


def _stays(room: Room, root: Placed) -> tuple[str, str]:
    """The ends of a piece that a wall holds, across and up the plan; empty where it slides."""
    placement, piece = root.placement, root.piece
    if placement.facing is None:
        return "both", "both"
    wall = wall_of(room, piece, placement)
    if wall is None:
        return "", ""
    back = "high" if placement.facing in ("down", "left") else "low"
    corner = ""
    if piece.stands == "corner":
        i = 0 if placement.facing in ("down", "up") else 1
        start = min(wall.start[i], wall.end[i])
        corner = "low" if (root.x0, root.y0)[i] == start else "high"
    return (corner, back) if placement.facing in ("down", "up") else (back, corner)
