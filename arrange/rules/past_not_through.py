"""Ways from door to door lead past the seats, not through them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from shapely import LineString, Polygon

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import Door, Point, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.spots import Bounded, Coordinate, gap
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import main_screen, main_seat, other_seats, use_of

FARTHEST = 2438  # mm from the main seat; farther seats are not of its group (`talk-seats-max`)
LIVING = ("living room", "living and dining room")


class PastNotThrough(Rule):
    """The direct way from one door to another does not run between the seats and their table.

    The way is the shortest in the empty room, from 60 cm (the width of the walkway) inside
    the one door to the same inside the other: straight, or round corners that all turn one
    way; a room where it winds has nothing to earn. The main seat, its coffee table and the
    seats within 2438 mm of it all have their middles on one side of it, or beyond one of
    its ends (level 1). Only sides count: who walks there goes round a sofa's end that
    stands in the way, which is past the seats. Level 2: the screen is on that side too, and
    the way is free of standing pieces, as wide as the walkway: else other furniture could
    send people through the seats after all. The shortest way among the furniture would be
    a question that the search cannot ask. In a living room a miss is a fault of first rank.
    """

    id = "past-not-through"
    title = "Ways lead past the seats, not through"
    source = "past-not-through"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each two doors, where the seats are more than one piece."""
        group = _group(scenario)
        screen = main_screen(scenario)
        if len(group) < 2:
            return []
        names = tuple(p.name for p in (*group, *([screen] if screen is not None else [])))
        rank = use_of(scenario) in LIVING
        return [
            Claim(self.id, names, self.weight, (1, 2), way.doors, self.source, first_rank=rank)
            for way in _ways(scenario)
        ]

    # -- the model's face ------------------------------------------------
    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """One of the sides, or one of the ends, for all of the group."""
        scenario, way = model.scenario, _way(model.scenario, claim)
        levels = [model.literal(f"past the seats from {way.doors[0]}") for _ in claim.steps]
        sides = [(model.literal(), side) for side in way.sides]
        model.one_of([chosen for chosen, _ in sides], when=[levels[0]])
        main, *others = _group(scenario)
        for piece in (main, *others):
            when: list[L] = []
            if piece.is_a("seat") and piece is not main:
                far, member = model.literal(), model.literal()
                model.one_of([far, member], when=[levels[0]])
                model.beyond(far, model.place(piece.name), model.place(main.name), FARTHEST + 1)
                when = [member]
            for chosen, side in sides:
                self._lies(model, [chosen, *when], side, piece)
        screen = main_screen(scenario)
        if screen is not None:
            for chosen, side in sides:
                self._lies(model, [chosen, levels[1]], side, screen)
        for strip in way.strips(scenario.walkway):
            for piece in scenario.pieces:
                if not piece.flat and piece.bottom < HEAD:
                    model.off_floor(levels[1], piece.name, strip)
        return levels

    @staticmethod
    def _lies(model: Verbs[L], when: Sequence[L], side: _Side, piece: Piece) -> None:
        place = model.place(piece.name)
        if side.all_of:
            model.when(when, *[condition(place) >= 0 for condition in side.tests])
            return
        choices = [model.literal() for _ in side.tests]
        model.one_of(choices, when=when)
        for choice, condition in zip(choices, side.tests, strict=True):
            model.when(choice, condition(place) >= 0)

    # -- the judge's face ------------------------------------------------
    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """Whether all of the group lie together, and the screen with them."""
        way = _way(scene.scenario, claim)
        main, *others = [scene.find(p.name) for p in _group(scene.scenario)]
        group = [main, *(p for p in others if not p.piece.is_a("seat") or _near(p, main))]
        together = [side for side in way.sides if all(side.holds(p) for p in group)]
        leads = f"The way from {the(way.doors[0])} to {the(way.doors[1])}"
        if not together:
            side = next(side for side in way.sides if side.holds(main))
            apart = next(p for p in group if not side.holds(p))
            text = f"{leads} runs between {the(main.name)} and {the(apart.name)}"
            return Measure(0, text, "through", "past")
        screen = main_screen(scene.scenario)
        if screen and not any(side.holds(scene.find(screen.name)) for side in together):
            text = f"{leads} passes the seats, but runs between them and {the(screen.name)}"
            return Measure(1, text, "in front of the screen", "past")
        for strip in way.strips(scene.scenario.walkway):
            for placed in scene.standing:
                if scene.stands_on(placed, strip):
                    text = f"{leads} passes the seats, but {the(placed.name)} is in the way"
                    return Measure(1, text, "not free", "past")
        return Measure(2, f"{leads} passes the seats", "past", "past")


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a way, or what is beyond an end: where all tests, or one, are 0 or more."""

    tests: tuple[Callable[[Bounded], Coordinate], ...]
    all_of: bool = True

    def holds(self, placed: Placed) -> bool:
        """Whether the middle of a placed piece lies there."""
        found = [test(placed) >= 0 for test in self.tests]
        return all(found) if self.all_of else any(found)


@dataclass(frozen=True, slots=True)
class _Way:
    """A way between two doors. ``points2`` are twice its points, in mm."""

    doors: tuple[str, str]
    points2: tuple[Point, ...]

    def strips(self, width: int) -> list[Polygon]:
        """The floor of its legs, so many mm wide."""
        legs = pairwise((x / 2, y / 2) for x, y in self.points2)
        return [LineString(leg).buffer(width / 2, cap_style="flat") for leg in legs]

    @property
    def sides(self) -> tuple[_Side, ...]:
        """Left of it, right of it, behind its beginning and beyond its end.

        Where it bends to the left, what is left of it is left of all its parts, and what
        is right of it is right of one of them.
        """
        legs = list(pairwise(self.points2))
        lefts = tuple(_beside(a, b, 1) for a, b in legs)
        rights = tuple(_beside(a, b, -1) for a, b in legs)
        bend = sum(_turn(*three) for three in pairwise(legs))
        (first, second), (last, end) = legs[0], legs[-1]
        return (
            _Side(lefts, bend >= 0),
            _Side(rights, bend <= 0),
            _Side((_beyond(second, first),)),
            _Side((_beyond(last, end),)),
        )


def _beside(a: Point, b: Point, sign: int) -> Callable[[Bounded], Coordinate]:
    """How far left (sign 1) or right of a line a middle is; times a constant."""
    dx, dy = sign * (b[0] - a[0]), sign * (b[1] - a[1])
    return lambda box: dx * (box.y0 + box.y1 - a[1]) - dy * (box.x0 + box.x1 - a[0])


def _beyond(a: Point, b: Point) -> Callable[[Bounded], Coordinate]:
    """How far beyond b, coming from a, a middle is; times a constant."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    return lambda box: dx * (box.x0 + box.x1 - b[0]) + dy * (box.y0 + box.y1 - b[1])


def _turn(one: tuple[Point, Point], two: tuple[Point, Point]) -> int:
    """1 where the second leg turns left off the first, -1 where right."""
    (ax, ay), (bx, by) = ((q[0] - p[0], q[1] - p[1]) for p, q in (one, two))
    cross = ax * by - ay * bx
    return (cross > 0) - (cross < 0)


def _group(scenario: Scenario) -> list[Piece]:
    """The main seat, then its coffee tables and the seats to talk from."""
    main = main_seat(scenario)
    if main is None:
        return []
    seats = list(other_seats(scenario))
    hosts = {None, main.name, *(seat.name for seat in seats)}
    tables = [p for p in scenario.pieces if p.is_a("coffee") and p.anchor in hosts]
    return [main, *sorted([*tables, *seats], key=canonical)]


def _near(seat: Placed, main: Placed) -> bool:
    return gap(seat, main) <= FARTHEST


def _way(scenario: Scenario, claim: Claim) -> _Way:
    return next(way for way in _ways(scenario) if way.doors == claim.about)


def _ways(scenario: Scenario) -> list[_Way]:
    """The ways between each two doors that are straight or bend one way only."""
    room, found = scenario.room, []
    for one, two in combinations(room.all_doors, 2):
        start, end = (_inside(room, door, scenario.walkway) for door in (one, two))
        points = _shortest(room, start, end)
        legs = list(pairwise(points))
        turns = {_turn(*three) for three in pairwise(legs)} - {0}
        if legs and start != end and len(turns) < 2:
            found.append(_Way((one.name, two.name), tuple(points)))
    return found


def _inside(room: Room, door: Door, depth: int) -> Point:
    """Twice the point straight in from the middle of a door."""
    x, y = room.walls[door.wall].point(door.offset + door.width / 2, depth)
    return round(2 * x), round(2 * y)


def _shortest(room: Room, start: Point, end: Point) -> list[Point]:
    """Twice the points of the shortest way in the empty room; empty if there is none."""
    floor = Polygon([(2 * x, 2 * y) for x, y in room.corners]).buffer(2, join_style="mitre")
    nodes = [start, *((2 * x, 2 * y) for x, y in _standing_out(room)), end]
    best: dict[Point, tuple[float, list[Point]]] = {start: (0.0, [start])}
    waiting = [start]
    while waiting:
        here = min(waiting, key=lambda node: best[node][0])
        waiting.remove(here)
        for node in nodes:
            line = LineString([here, node])
            length = best[here][0] + line.length
            if node != here and length < best.get(node, (1e9,))[0] - 1e-6 and floor.covers(line):
                best[node] = length, [*best[here][1], node]
                waiting.append(node)
    return best[end][1] if end in best else []


def _standing_out(room: Room) -> list[Point]:
    """The corners that stand out into the room, round which a way can lead."""
    corners, count = room.corners, len(room.corners)
    legs = [(corners[i - 1], corners[i]) for i in range(count)]
    return [corners[i] for i in range(count) if _turn(legs[i], legs[(i + 1) % count]) > 0]
