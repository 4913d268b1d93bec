"""A plan read from ``result.json`` alone, and what can be measured on it.

For `benchmarks/taste_counter.py`, which counts what a decorator never draws. It knows nothing
of the program: what kind of piece is a seat, a screen or a lamp stands here, by the names of
the kinds in the file. Lengths in mm, angles in degrees, x to the right and y up the plan.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import combinations, pairwise
from typing import Any

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

Vector = tuple[float, float]
Span = tuple[float, float]

SOFAS = frozenset({"sofa", "small sofa", "sofa bed", "corner sofa"})
LOUNGE = SOFAS | {"armchair", "reading chair", "rocking chair"}
COTS = frozenset({"cot"})
BEDS_FOR_TWO = frozenset({"double bed", "full bed", "queen bed", "king bed"})
BEDS = BEDS_FOR_TWO | {"single bed", "daybed", "bunk bed", "loft bed"}
BEDSIDES = frozenset({"bedside table"})
DINING = frozenset(
    {
        "dining table for two",
        "dining table for four",
        "dining table for six",
        "dining table for eight",
        "round table",
        "oval table",
        "bar table",
    }
)
DINING_CHAIRS = frozenset({"dining chair", "dining bench", "bar stool"})
DESKS = frozenset({"desk", "corner desk", "standing desk", "child's desk", "sewing table"})
WORK_CHAIRS = frozenset({"desk chair", "child's chair", "stool"})
MOVED_CHAIRS = DINING_CHAIRS | WORK_CHAIRS | {"footstool"}
SCREENS = frozenset({"tv unit"})
LAMPS = frozenset({"floor lamp", "table lamp"})
LOW_TABLES = frozenset({"coffee table", "round coffee table", "side table"})
WARDROBES = frozenset({"wardrobe", "sliding wardrobe"})
CASES = frozenset({"bookcase", "low bookcase", "display cabinet", "sideboard", "chest of drawers"})
STORES = (
    WARDROBES
    | CASES
    | SCREENS
    | {
        "storage trunk",
        "record cabinet",
        "filing cabinet",
        "shoe cabinet",
        "toy chest",
        "changing table",
        "serving trolley",
        "laundry basket",
    }
)
MIRRORS = frozenset({"hall mirror", "dressing table"})
SURFACES = (
    LOW_TABLES
    | DINING
    | DESKS
    | BEDSIDES
    | {"console table", "sideboard", "low bookcase", "record cabinet", "chest of drawers"}
)
HALL = frozenset({"shoe cabinet", "coat rack", "hall bench", "console table"})
SMALL = frozenset(
    {"floor lamp", "plant", "laundry basket", "footstool", "side table", "pet bed", "wall shelf"}
)
ELLS = frozenset({"corner sofa", "corner desk"})
FIRES = frozenset({"fireplace", "stove"})
HEATERS = FIRES | {"heater", "radiator"}
TALL, LOW, OVER_SEAT, WALKED_UNDER = 1100, 600, 700, 2000  # mm above the floor
LIGHTEST = 1.0  # mm; what is nearer than this touches
FAR = 10_000.0  # mm


def unit(angle: float) -> Vector:
    """The unit vector at an angle from the x axis."""
    return math.cos(math.radians(angle)), math.sin(math.radians(angle))


def plus(point: Vector, *steps: tuple[float, Vector]) -> Vector:
    """A point moved by so much along each direction."""
    x, y = point
    return x + sum(d * v[0] for d, v in steps), y + sum(d * v[1] for d, v in steps)


def between(first: Vector, second: Vector) -> float:
    """The angle between two directions, 0 to 180; 0 for one without a length."""
    lengths = math.hypot(*first) * math.hypot(*second)
    if not lengths:
        return 0.0
    cosine = (first[0] * second[0] + first[1] * second[1]) / lengths
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def towards(start: Vector, end: Vector) -> Vector:
    """The direction from one point to another, of its full length."""
    return end[0] - start[0], end[1] - start[1]


def dot(first: Vector, second: Vector) -> float:
    """The scalar product."""
    return first[0] * second[0] + first[1] * second[1]


def taped(one: BaseGeometry, other: BaseGeometry) -> float:
    """The larger of the gap across and the gap up the plan, as a tape along the walls has it."""
    a, b, c, d = one.bounds
    e, f, g, h = other.bounds
    return max(e - c, a - g, f - d, b - h, 0.0)


def overlap(first: Span, second: Span) -> float:
    """By how much two spans on one line overlap; negative for the gap between them."""
    return min(first[1], second[1]) - max(first[0], second[0])


@dataclass(frozen=True)
class Thing:
    """A piece where it stands. ``ahead`` is where its front looks, ``across`` its right side.

    Sides are named as somebody who faces the front sees them.
    """

    name: str
    kind: str
    width: float
    depth: float
    bottom: float
    top: float
    flat: bool
    host: str | None
    screen: float
    stays: bool
    wall: str | None
    shape: Polygon
    ahead: Vector

    @property
    def across(self) -> Vector:
        """The unit vector towards its right side."""
        return -self.ahead[1], self.ahead[0]

    @cached_property
    def middle(self) -> Vector:
        """The middle of its footprint, of an L that of the box round it."""
        right, ahead = (sum(self.span(way)) / 2 for way in (self.across, self.ahead))
        return plus((0.0, 0.0), (right, self.across), (ahead, self.ahead))

    @property
    def front(self) -> Vector:
        """The middle of its front."""
        start, end, _ = self.side("front")
        return (start[0] + end[0]) / 2, (start[1] + end[1]) / 2

    @cached_property
    def seat(self) -> tuple[Span, float]:
        """From where to where its front goes along ``across``, and how far ahead of the middle.

        Of an L that is the part along the back, beside the arm.
        """
        half, deep = self.width / 2, self.depth / 2
        free = box_of(self, (-half, half), (-deep, deep)).difference(self.shape)
        if free.area < self.width * self.depth / 10 or self.kind not in ELLS:
            return (-half, half), deep
        spots = [self.local((x, y)) for x, y in free.convex_hull.exterior.coords]
        right, ahead = zip(*spots, strict=True)
        return (min(right), max(right)), min(ahead)

    @property
    def back(self) -> Vector:
        """The middle of its back."""
        return plus(self.middle, (-self.depth / 2, self.ahead))

    @property
    def tall(self) -> bool:
        """Whether it stands on the floor and is 110 cm or more."""
        return self.top >= TALL and self.bottom < OVER_SEAT

    @property
    def stands(self) -> bool:
        """Whether somebody walking meets it: no rug, and not hung over their head."""
        return not self.flat and self.bottom < WALKED_UNDER

    def side(self, name: str) -> tuple[Vector, Vector, Vector]:
        """The two ends of a side and the direction out of it; left and right from the back."""
        if name == "front":
            (low, high), far = self.seat
            ends = (plus(self.middle, (a, self.across), (far, self.ahead)) for a in (low, high))
            return next(ends), next(ends), self.ahead
        out, along, half, reach = {
            "back": ((-self.ahead[0], -self.ahead[1]), self.across, self.width / 2, self.depth / 2),
            "left": (
                (-self.across[0], -self.across[1]),
                self.ahead,
                self.depth / 2,
                self.width / 2,
            ),
            "right": (self.across, self.ahead, self.depth / 2, self.width / 2),
        }[name]
        edge = plus(self.middle, (reach, out))
        return plus(edge, (-half, along)), plus(edge, (half, along)), out

    def strip(self, name: str, deep: float, share: Span = (0.0, 1.0)) -> Polygon:
        """The floor beside a side, so deep, over a share of its length."""
        start, end, out = self.side(name)
        line = towards(start, end)
        p, q = (plus(start, (s, line)) for s in share)
        return Polygon([p, q, plus(q, (deep, out)), plus(p, (deep, out))])

    def edge(self, name: str, share: float = 1.0) -> LineString:
        """The middle part of a side."""
        start, end, _ = self.side(name)
        cut = (1 - share) / 2
        line = towards(start, end)
        return LineString([plus(start, (cut, line)), plus(start, (1 - cut, line))])

    @property
    def pillow(self) -> Polygon:
        """The end of a bed where the heads lie, 50 cm deep."""
        return box_of(
            self, (-self.width / 2, self.width / 2), (-self.depth / 2, -self.depth / 2 + 500)
        )

    def local(self, point: Vector) -> Vector:
        """A point as (to the right of the middle, before the middle)."""
        way = towards(self.middle, point)
        return dot(way, self.across), dot(way, self.ahead)

    def span(self, along: Vector) -> Span:
        """From where to where it reaches along a direction."""
        reach = [dot((x, y), along) for x, y in self.shape.exterior.coords]
        return min(reach), max(reach)


def box_of(thing: Thing, right: Span, ahead: Span) -> Polygon:
    """A box in the directions of a piece, measured from its middle."""
    corners = [
        (right[0], ahead[0]),
        (right[1], ahead[0]),
        (right[1], ahead[1]),
        (right[0], ahead[1]),
    ]
    return Polygon([plus(thing.middle, (a, thing.across), (b, thing.ahead)) for a, b in corners])


@dataclass(frozen=True)
class Wall:
    """A wall from its left end as seen from inside, and the direction into the room."""

    name: str
    part_of: str
    left: Vector
    right: Vector

    @property
    def length(self) -> float:
        """Its length."""
        return math.dist(self.left, self.right)

    @property
    def along(self) -> Vector:
        """The unit vector from its left end to its right end."""
        way = towards(self.left, self.right)
        return way[0] / self.length, way[1] / self.length

    @property
    def inward(self) -> Vector:
        """The unit vector into the room."""
        return self.along[1], -self.along[0]

    def spot(self, thing: Thing) -> Span:
        """From where to where a piece reaches along it, from its left end."""
        low, high = thing.span(self.along)
        start = dot(self.left, self.along)
        return low - start, high - start


@dataclass(frozen=True)
class Opening:
    """A door or a window: ``left`` and ``width`` of it on its wall."""

    name: str
    wall: Wall
    left: float
    width: float
    data: Mapping[str, Any]

    @property
    def middle(self) -> Vector:
        """The middle of the opening, in the wall."""
        return plus(self.wall.left, (self.left + self.width / 2, self.wall.along))

    @property
    def span(self) -> Span:
        """From where to where on its wall."""
        return self.left, self.left + self.width

    def strip(self, deep: float, start: float = 0.0) -> Polygon:
        """The floor straight before it."""
        p = plus(self.wall.left, (self.left, self.wall.along), (start, self.wall.inward))
        q = plus(p, (self.width, self.wall.along))
        inward = self.wall.inward
        return Polygon([p, q, plus(q, (deep, inward)), plus(p, (deep, inward))])

    @property
    def hinge(self) -> tuple[Vector, Vector] | None:
        """For a leaf that opens into the room: where it hangs, and away from the opening."""
        if self.data.get("opens", "in") != "in":
            return None
        at_left = self.data.get("hinge", "left") == "left"
        at = plus(self.wall.left, (self.left + (0 if at_left else self.width), self.wall.along))
        sign = -1 if at_left else 1
        return at, (sign * self.wall.along[0], sign * self.wall.along[1])

    @property
    def swing(self) -> Polygon:
        """The floor that the leaf sweeps over; empty if it does not open into the room."""
        if self.hinge is None:
            return Polygon()
        at, away = self.hinge
        shut = math.degrees(math.atan2(-away[1], -away[0]))
        inward = self.wall.inward
        turn = 90 if between(unit(shut + 90), inward) < 45 else -90
        arc = [plus(at, (self.width, unit(shut + turn * k / 12))) for k in range(13)]
        return Polygon([at, *arc])


@dataclass(frozen=True)
class Fixture:
    """Something built in; ``shape`` is empty for a socket or a light point."""

    name: str
    kind: str
    wall: Wall | None
    at: Vector | None
    shape: Polygon
    bottom: float
    top: float
    solid: bool


@dataclass(frozen=True)
class Group:
    """Pieces used together round ``main``; ``sort`` is sit, eat, sleep or work."""

    sort: str
    main: Thing
    members: tuple[Thing, ...]

    @cached_property
    def shape(self) -> BaseGeometry:
        """All of it."""
        return shapely.union_all([m.shape for m in self.members])

    @property
    def hull(self) -> BaseGeometry:
        """All of it and what lies between."""
        return self.shape.convex_hull

    @property
    def rectangle(self) -> Polygon:
        """The rectangle round it, along the plan."""
        return box(*self.shape.bounds)

    @property
    def widest_gap(self) -> float:
        """The widest gap that has to be crossed inside it."""
        inside, rest, widest = {0}, set(range(1, len(self.members))), 0.0
        while rest:
            gap, nearest = min(
                (self.members[i].shape.distance(self.members[j].shape), j)
                for i in inside
                for j in rest
            )
            widest = max(widest, gap)
            inside.add(nearest)
            rest.remove(nearest)
        return widest


@dataclass(frozen=True)
class Plan:
    """One arrangement in its room."""

    number: int
    room: Polygon
    walls: tuple[Wall, ...]
    doors: tuple[Opening, ...]
    windows: tuple[Opening, ...]
    fixtures: tuple[Fixture, ...]
    things: tuple[Thing, ...]
    wishes: tuple[Mapping[str, Any], ...] = field(default=())
    unit: str = "cm"

    def of(self, kinds: Collection[str]) -> list[Thing]:
        """The pieces of these kinds, in the order of the file."""
        return [t for t in self.things if t.kind in kinds]

    def named(self, name: str | None) -> Thing | None:
        """The piece of that name."""
        return next((t for t in self.things if t.name == name), None)

    @property
    def screens(self) -> list[Thing]:
        """What a screen stands on."""
        return [t for t in self.things if t.kind in SCREENS or t.screen]

    @property
    def main_door(self) -> Opening | None:
        """The door people come in by."""
        return next((d for d in self.doors if d.data.get("main")), next(iter(self.doors), None))

    @property
    def kitchen_door(self) -> Opening | None:
        """A door whose name says that it leads to a kitchen."""
        return next((d for d in self.doors if "kitchen" in d.name.lower()), None)

    def wall(self, name: str | None) -> Wall | None:
        """The wall of that name."""
        return next((w for w in self.walls if w.name == name), None)

    def wall_behind(self, thing: Thing, within: float = 100.0) -> Wall | None:
        """The wall at the back of a piece, be it said in the file or near enough."""
        if (said := self.wall(thing.wall)) is not None:
            return said
        for wall in self.walls:
            line = LineString([wall.left, wall.right])
            if between(wall.inward, thing.ahead) < 5 and line.distance(Point(thing.back)) <= within:
                return wall
        return None

    @cached_property
    def purpose(self) -> str:
        """What the room is for, from what is in it."""
        bed, sit, eat = self.of(BEDS), self.of(SOFAS), self.of(DINING)
        work = self.of(DESKS)
        child = self.of({"bunk bed", "loft bed", "toy chest", "child's desk", "play mat"})
        rows = (
            ("nursery", self.of(COTS)),
            ("one room", bed and ((sit and (eat or work)) or (eat and work))),
            ("child", bed and child),
            ("bedroom", bed),
            ("living and dining", eat and (self.of(LOUNGE) or self.screens)),
            ("living", self.of(LOUNGE) or self.screens),
            ("dining", eat),
            ("office", work),
            ("hall", self.of(HALL)),
        )
        return next((name for name, there in rows if there), "other")

    # ------------------------------------------------------------ groups

    @cached_property
    def main_seat(self) -> Thing | None:
        """The widest seat, in the order of the file among equals."""
        return max(self.of(LOUNGE), key=lambda t: t.width, default=None)

    @cached_property
    def seating(self) -> list[Group]:
        """Seats within 250 cm of one another, with the tables and footstools near them."""
        left, found = self.of(LOUNGE), []
        while left:
            together = [left.pop(0)]
            for seat in together:
                near = [s for s in left if s.shape.distance(seat.shape) <= 2500]
                together += near
                left = [s for s in left if s not in near]
            main = max(together, key=lambda t: t.width)
            found.append(Group("sit", main, tuple(together)))
        return [self._with_tables(g, found) for g in found]

    def _with_tables(self, group: Group, every: Sequence[Group]) -> Group:
        own = []
        for table in self.of(LOW_TABLES | {"footstool"}):
            nearest = min(every, key=lambda g: g.shape.distance(table.shape))
            if nearest is group and group.shape.distance(table.shape) <= 1000:
                own.append(table)
        return Group("sit", group.main, (*group.members, *own))

    @cached_property
    def groups(self) -> list[Group]:
        """Everything that is used together."""
        found = list(self.seating)
        rows = (("eat", DINING, DINING_CHAIRS, 700), ("sleep", BEDS, BEDSIDES | {"bed bench"}, 300),
                ("work", DESKS, WORK_CHAIRS, 700))  # fmt: skip
        for sort, mains, others, within in rows:
            hosts = self.of(mains)
            for host in hosts:
                company = [
                    t for t in self.of(others)
                    if (t.host == host.name or t.host is None)
                    and t.shape.distance(host.shape) <= within
                    and host is min(hosts, key=lambda h: h.shape.distance(t.shape))
                ]  # fmt: skip
                found.append(Group(sort, host, (host, *company)))
        return found

    def group_of(self, thing: Thing) -> Group | None:
        """The group a piece belongs to, or else stands nearest to; None without any."""
        own = [g for g in self.groups if thing in g.members]
        near = own or sorted(self.groups, key=lambda g: g.shape.distance(thing.shape))
        return next(iter(near), None)

    # ------------------------------------------------------------ gaps and rays

    def obstacles(self, *without: Thing, over: float = 0.0) -> list[BaseGeometry]:
        """Bodies higher than ``over``, built in or not, that somebody walking meets."""
        names = {t.name for t in without}
        found: list[BaseGeometry] = [
            t.shape for t in self.things if t.stands and t.top > over and t.name not in names
        ]
        return found + [
            f.shape
            for f in self.fixtures
            if f.solid and not f.shape.is_empty and f.bottom < WALKED_UNDER and f.top > over
        ]

    def profile(self, thing: Thing, side: str, others: Iterable[BaseGeometry]) -> Any:  # noqa: ANN401  an array
        """The distances from points along a side to the next wall or other body, straight out."""
        start, end, out = thing.side(side)
        line = towards(start, end)
        points = [plus(start, ((k + 0.5) / 20, line)) for k in range(20)]
        return self._met(points, out, others)

    def ray(self, start: Vector, way: Vector, others: Iterable[BaseGeometry]) -> float:
        """How far it is from a point to the next wall or body."""
        return float(self._met([start], way, others)[0])

    def _met(self, points: Sequence[Vector], way: Vector, others: Iterable[BaseGeometry]) -> Any:  # noqa: ANN401  an array
        rays = shapely.linestrings([(p, plus(p, (FAR, way))) for p in points])
        met = shapely.intersection(rays[:, None], [self.room.exterior, *others])
        off = shapely.distance(shapely.points(points)[:, None], met)  # nan where nothing is met
        return np.where(np.isnan(off), FAR, off).min(axis=1)

    # ------------------------------------------------------------ ways

    def free_floor(self, *, chairs: bool = True) -> BaseGeometry:
        """The floor nobody's body takes; without ``chairs`` those that are moved anyway do not."""
        skipped = () if chairs else self.of(MOVED_CHAIRS)
        return self.room.difference(shapely.union_all(self.obstacles(*skipped)))

    def swept(self, wide: float) -> BaseGeometry:
        """The floor that a disc of that width sweeps over on its way in from the main door."""
        door = self.main_door
        if door is None:
            return self.room
        free = self.free_floor(chairs=False).buffer(-wide / 2 + LIGHTEST)
        parts = [p for p in getattr(free, "geoms", [free]) if not p.is_empty]
        before = door.strip(wide)
        return shapely.union_all([p for p in parts if p.distance(before) < 1]).buffer(wide / 2)

    def way(self, start: Vector, end: Vector) -> LineString | None:
        """The shortest way for a disc of 60 cm, else of 50; None if there is none."""
        for wide in (600, 500):
            region = self.room.difference(shapely.union_all(self.obstacles())).buffer(
                -wide / 2 + LIGHTEST, quad_segs=2
            )
            if (found := shortest(region, start, end)) is not None:
                return found
        return None

    @cached_property
    def lanes(self) -> list[tuple[Opening, Opening, LineString]]:
        """The way between each two doors."""
        found = []
        for one, other in combinations(self.doors, 2):
            ends = [plus(d.middle, (305, d.wall.inward)) for d in (one, other)]
            if (way := self.way(*ends)) is not None:
                found.append((one, other, way))
        return found

    # ------------------------------------------------------------ zones

    def zone(
        self, inside: BaseGeometry, own: Collection[Thing]
    ) -> tuple[float, float, float, float] | None:
        """The largest free rectangle along the plan that holds ``inside``; None if none does."""
        bodies = self.obstacles(*own)
        outer = box(*self.room.bounds)
        blocked = [g for g in (outer.difference(self.room), *bodies) if not g.is_empty]
        xs, ys = (
            sorted({round(c[i]) for g in (self.room, *blocked) for c in shapely.get_coordinates(g)})
            for i in (0, 1)
        )
        cx, cy = ([(a + b) / 2 for a, b in pairwise(v)] for v in (xs, ys))
        union = shapely.union_all(blocked)
        grid = shapely.contains_xy(union, *np.meshgrid(cx, cy, indexing="ij"))
        x0, y0, x1, y1 = inside.bounds
        best: tuple[float, tuple[float, float, float, float]] | None = None
        for i, left in enumerate(xs):
            for j in range(i + 1, len(xs)):
                if left > x0 + 1 or xs[j] < x1 - 1:
                    continue
                taken = grid[i:j].any(axis=0)
                low = max(
                    (ys[k + 1] for k in range(len(taken)) if taken[k] and cy[k] < y0), default=ys[0]
                )
                high = min(
                    (ys[k] for k in range(len(taken)) if taken[k] and cy[k] > y1), default=ys[-1]
                )
                if any(taken[k] and y0 <= cy[k] <= y1 for k in range(len(taken))):
                    continue
                if low > y0 + 1 or high < y1 - 1:
                    continue
                area = (xs[j] - left) * (high - low)
                if best is None or area > best[0]:
                    best = area, (left, low, xs[j], high)
        return best and best[1]


def shortest(region: BaseGeometry, start: Vector, end: Vector) -> LineString | None:
    """The shortest way inside a region between what lies within 60 cm of two points."""
    ends = []
    for point in (start, end):
        near = shapely.shortest_line(Point(point), region)
        if near is None or near.length > 600:
            return None
        ends.append(near.coords[1])
    parts = getattr(region, "geoms", [region])
    room = next((p for p in parts if all(p.distance(Point(e)) < 1 for e in ends)), None)
    if room is None:
        return None
    wide = room.buffer(0.5)
    corners = shapely.get_coordinates(room.simplify(2))
    nodes = np.vstack([ends, np.unique(corners, axis=0)])
    i, j = np.triu_indices(len(nodes), 1)
    shapely.prepare(wide)
    lines = shapely.linestrings(np.stack([nodes[i], nodes[j]], axis=1))
    seen = shapely.covers(wide, lines)
    near_to: dict[int, list[tuple[int, float]]] = {k: [] for k in range(len(nodes))}
    for a, b, long in zip(i[seen], j[seen], shapely.length(lines[seen]), strict=True):
        near_to[int(a)].append((int(b), float(long)))
        near_to[int(b)].append((int(a), float(long)))
    return _dijkstra(nodes, near_to)


def _dijkstra(nodes: Any, near_to: Mapping[int, list[tuple[int, float]]]) -> LineString | None:  # noqa: ANN401  an array
    best, came, queue = {0: 0.0}, {0: 0}, [(0.0, 0)]
    while queue:
        far, at = heapq.heappop(queue)
        if at == 1:
            path = [1]
            while path[-1]:
                path.append(came[path[-1]])
            return LineString([nodes[k] for k in reversed(path)])
        for to, step in near_to[at]:
            if far + step < best.get(to, math.inf):
                best[to], came[to] = far + step, at
                heapq.heappush(queue, (far + step, to))
    return None


# ---------------------------------------------------------------- reading


def _thing(piece: Mapping[str, Any], walls: Mapping[str, Wall]) -> Thing:
    place = piece["placement"]
    if place.get("slanted"):
        corner = place.get("corner")
        facing = [walls[name].inward for name in corner or (place["wall"],)]
        long = math.hypot(sum(x for x, _ in facing), sum(y for _, y in facing))
        ahead = sum(x for x, _ in facing) / long, sum(y for _, y in facing) / long
        for _ in range(place.get("quarter_turns", 0)):
            ahead = ahead[1], -ahead[0]
    else:
        ahead = {"down": (0.0, -1.0), "left": (-1.0, 0.0), "up": (0.0, 1.0), "right": (1.0, 0.0)}[
            place["facing"]
        ]
    return Thing(
        *(piece[k] for k in ("name", "kind", "width", "depth", "bottom", "top")),
        piece.get("flat", False),
        piece.get("goes_with"),
        piece.get("screen", 0),
        piece.get("stays", False),
        place["wall"],
        Polygon(piece["footprint"]),
        ahead,
    )


def _opening(data: Mapping[str, Any], walls: Mapping[str, Wall]) -> Opening:
    return Opening(data["name"], walls[data["wall"]], data["from_left"], data["width"], data)


def _fixture(data: Mapping[str, Any], walls: Mapping[str, Wall]) -> Fixture:
    shape = Polygon(data["polygon"]) if len(data["polygon"]) > 2 else Polygon()
    at = data.get("at") or ((shape.centroid.x, shape.centroid.y) if not shape.is_empty else None)
    return Fixture(
        data["name"], data["kind"], walls.get(data["wall"] or ""), at and (at[0], at[1]), shape,
        data["bottom"], data["top"], data["solid"],
    )  # fmt: skip


def plans(record: Mapping[str, Any]) -> list[Plan]:
    """The plans of a ``result.json``, best first; the one of a ``today.json`` has number 1."""
    room = record["room"]
    walls = {
        w["name"]: Wall(
            w["name"], w.get("part_of") or w["name"], tuple(w["left_end"]), tuple(w["right_end"])
        )
        for w in room["walls"]
    }
    alone = [{"rank": 1, "pieces": record["pieces"]}] if "pieces" in record else []
    return [
        Plan(
            one["rank"],
            Polygon(room["outline"]),
            tuple(walls.values()),
            tuple(_opening(d, walls) for d in room["doors"]),
            tuple(_opening(d, walls) for d in room["windows"]),
            tuple(_fixture(d, walls) for d in room["fixtures"]),
            tuple(_thing(p, walls) for p in one["pieces"]),
            tuple(record.get("wishes") or ()),
            record.get("unit", "cm"),
        )
        for one in record.get("arrangements", alone)
    ]
