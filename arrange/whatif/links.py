"""What keeps what apart in a finished arrangement: patches of floor, and the links between them.

A *patch* is upright floor: the body of a piece, the strip of a clearance, or floor that does
not move. Pieces tied to others slide with them: they have one *node*; node 0 is all that
stays. Two patches that may not meet are apart across the plan or up the plan, the one before
the other or the other way round: four options, each a *link* with the gap that is left;
below 0, pieces must slide first. Every piece keeps its wall, its turn and its place. The
``Web`` has all of this for one arrangement, and ``ranges`` says how far each piece could
slide along its wall or over the floor of the empty room. Lengths in mm; no solver.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations, pairwise
from typing import Literal

from shapely import box, constrained_delaunay_triangles
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Placement
from arrange.data.lengths import the
from arrange.data.piece import Clearance, Piece, Side
from arrange.data.room import Room, Wall
from arrange.geometry.ceilings import low_parts
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import fixture_shape, whole_bounds
from arrange.rules import active_rules
from arrange.rules.rule import Region
from arrange.rules.wished import the_wall

Axis = Literal[0, 1]  # across the plan, up the plan
AXES: tuple[Axis, Axis] = (0, 1)
Bounds = tuple[int, int, int, int]
Range = tuple[int, int]  # how far down and up
Use = tuple[str, str, Side]  # a piece, a clearance of it, a side
OUTSIDE = "the wall"
END = "the end of "  # a wall that a piece must not stand beyond
FRAME = 10_000  # mm of outside round the room


@dataclass(frozen=True, slots=True)
class Patch:
    """Upright floor: its bounds, the node it slides with, what it is called.

    ``body`` are the bounds of the piece itself, ``use`` names the piece, clearance and
    side of a strip.
    """

    bounds: Bounds
    node: int
    name: str
    body: Bounds
    use: Use | None = None

    def beyond(self, axis: Axis, *, high: bool) -> int:
        """How far a strip reaches beyond its piece at one end; 0 for a body."""
        i = axis + 2 * high
        return max(0, (self.bounds[i] - self.body[i]) * (1 if high else -1))


Pair = tuple[Patch, Patch, Use | None]


@dataclass(frozen=True)
class Strip:
    """The floor of a clearance on one side; ``free`` says whether nothing is on it now."""

    patch: Patch
    owner: Placed
    clearance: Clearance
    free: bool


def fixed(shape: BaseGeometry, name: str) -> list[Patch]:
    """Floor that stays, as upright patches; what is slanted is taken larger than it is."""
    found: list[Patch] = []
    for part in getattr(shape, "geoms", [shape]):
        if not isinstance(part, Polygon) or part.area < 1:
            continue
        x0, y0, x1, y1 = part.bounds
        upright = part.area > (x1 - x0) * (y1 - y0) - 1
        shapes = [part] if upright else constrained_delaunay_triangles(part).geoms
        found += [Patch(whole_bounds(s), 0, name, whole_bounds(s)) for s in shapes]
    return found


def outside(scene: Scene) -> list[Patch]:
    """What is not room, cut at every corner and joined along each row."""
    corners = scene.scenario.room.corners
    x0, y0, x1, y1 = scene.scenario.room.bounds
    xs = sorted({x0 - FRAME, x1 + FRAME, *(x for x, _ in corners)})
    ys = sorted({y0 - FRAME, y1 + FRAME, *(y for _, y in corners)})
    found: list[Patch] = []
    for low, high in pairwise(ys):
        row: list[Bounds] = []
        for left, right in pairwise(xs):
            if box(left, low, right, high).difference(scene.room).area < 1:
                continue
            if row and row[-1][2] == left:
                row[-1] = (row[-1][0], low, right, high)
            else:
                row.append((left, low, right, high))
        found += [Patch(b, 0, OUTSIDE, b) for b in row]
    return found


def regions(scene: Scene) -> Iterator[tuple[Region, str]]:
    """Floor that pieces must stay off, with the name of what it belongs to."""
    for rule in active_rules(scene.scenario):
        for region in rule.regions(scene.scenario):
            yield region, region.name or rule.title


def strips(scene: Scene, nodes: dict[str, int]) -> Iterator[Strip]:
    """The least floor of every clearance on every side where it could be."""
    for placed in scene.placed:
        for clearance in placed.piece.clearances:
            if clearance.least <= 0 or placed.placement.facing is None:
                continue
            free = clearance.sides
            if len(free) > 1:
                free = scene.free_sides(placed, clearance, clearance.least)
            for side in clearance.sides:
                zone = scene.zone(placed, clearance, side, clearance.least)
                use = (placed.name, clearance.name, side)
                own = whole_bounds(placed.body)
                patch = Patch(whole_bounds(zone), nodes[placed.name], placed.name, own, use)
                yield Strip(patch, placed, clearance, side in free)


def minded(strip: Strip, other: Placed) -> bool:
    """Whether a piece must keep off the strip, as the judge says."""
    return strip.clearance.minds(strip.owner.piece, other.piece)


def solid(scene: Scene, clearance: Clearance) -> list[Patch]:
    """What a clearance may not reach into: bodies of fixtures, floor under too low a ceiling."""
    room = scene.scenario.room
    shapes = [(fixture_shape(f), f.name) for f in room.obstructions if f.bottom < clearance.height]
    shapes += [(low.shape, low.name) for low in low_parts(room, clearance.headroom)]
    return [patch for shape, name in shapes for patch in fixed(shape, name)]


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

    ``roomy`` says that something slanted or round was taken larger than it is, or a piece held
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
        roots = {p.name: scene.scenario.root(p.name) for p in scene.placed}
        bound = {roots[name] for name in kept}
        for name in dict.fromkeys(roots.values()):
            root = scene.find(name)
            stays = ("both", "both") if name in bound else _stays(scene.scenario.room, root)
            self.nodes.append(Node(root, stays))
            self.roomy = self.roomy or root.placement.facing is None
            numbers[name] = len(self.nodes)
        self.roomy = self.roomy or any(not p.piece.fills_its_box for p in scene.placed)
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
        name = wall.part_of or wall.name
        end = END + (the_wall(name) if len(name) <= 2 else the(name))
        return [(body, Patch(e, 0, end, e), None) for e in ends]


def ways(one: Patch, two: Patch) -> tuple[Link, ...]:
    """The four ways in which two patches can be apart, the widest gap first."""
    found = [
        Link(axis, low, high, high.bounds[axis] - low.bounds[axis + 2])
        for axis in AXES
        for low, high in ((one, two), (two, one))
    ]
    return tuple(sorted(found, key=lambda link: -link.gap))


def wall_of(room: Room, piece: Piece, placement: Placement) -> Wall | None:
    """The wall that a piece for the wall has at its back."""
    if not piece.backs or placement.wall is None:
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
