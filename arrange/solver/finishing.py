"""The last touch: every piece where a tape finds it, as far as no point is lost.

The search leaves a piece anywhere within its leeway. People put things into corners, let them
touch, centre them, or measure whole steps (`arrange/geometry/tape.py`). So the arrangement
found is asked for once more, with every piece on its wall and turned as it is, with at least
as high a standing, and with as few places as can be that no tape finds; near by first, and
what need not move does not. Then, if a piece can go into a corner of its wall at no price, it
does. It is asked of the model without walkways. Where the judge says that something can no
longer be reached, cuts are learnt from that, and it is asked again. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import fixture_shape
from arrange.geometry.tape import (
    AXES,
    CLOSED,
    FAR,
    Axis,
    bodies_about,
    gaps,
    loose,
    marks_middle,
    measured,
    steps,
    tied,
    window_middles,
)
from arrange.judge import judge
from arrange.solver.boxes import Expr, Literal
from arrange.solver.cuts import Cut
from arrange.solver.engine import solve
from arrange.solver.model import Model
from arrange.solver.places import Place

WORK = 0.3  # deterministic seconds of one try
# How often to ask without what could not be walked; and when every place is taped already.
ROUNDS, TAPED_ROUNDS = 5, 2
# mm that a piece may move, in turn until none is loose: half a step is enough as a rule.
FREEDOMS = (30, 100, 250)
# What a place that a tape finds counts, a corner, and not having moved.
TAPED, CORNER, KEPT = 50, 5, 1
PRICE = 10  # tenths of a point that a taped place may cost in an arrangement not proven best
NEAR = 300  # mm; gaps to what is farther off are not looked at for being narrow
BESIDE = 50  # mm; so much of two sides is opposite one another where one is measured off the other
LEVEL = 2  # twice the mm by which a middle may be off


Blocked = Callable[[Scene], Sequence[Cut]]


def tidied(
    model: Model,
    arrangement: Arrangement,
    budget: Budget,
    seed: int = 0,
    *,
    blocked: Blocked = lambda _: (),
    at_a_price: bool,
) -> Found:
    """The arrangement with fewer places that no tape finds, if there is one at hand.

    ``model`` is one without walkways; it is left as it is. ``blocked`` gives cuts for what is
    out of reach in a scene. The judge gives what is returned at least as much, or,
    ``at_a_price``, a point less at most for each place put right.
    """
    best = Found(model.copy(), arrangement, blocked)
    for freedom in FREEDOMS:
        if best.loose:
            best = best.better(budget, seed, freedom) or best
    if best.loose and at_a_price:
        best = best.better(budget, seed, FREEDOMS[-1], PRICE) or best
    return best.better(budget, seed, None) or best


class Found:
    """An arrangement of a model, judged, and how many of its places no tape finds."""

    def __init__(self, model: Model, arrangement: Arrangement, blocked: Blocked) -> None:
        self.arrangement = arrangement
        self._model = model  # what is learnt is added to it
        self._blocked = blocked
        self._scene = Scene(model.scenario, arrangement)
        self.verdict = judge(model.scenario, arrangement, gaps=False)
        self.loose = len(loose(self._scene))
        self._values: Sequence[int] | None = None

    def better(
        self, budget: Budget, seed: int, freedom: int | None, price: int = 0
    ) -> Found | None:
        """Another one, at least as tidy, at most so many tenths lower for each place put right."""
        if budget.over:
            return None
        asked = self._model.copy()
        asked.must(asked.points >= self.verdict.standing - price * self.loose)
        Touch(asked, self._scene).ask(freedom, weigh_points=price > 0)
        hint = self._start(budget, seed)
        for _ in range(ROUNDS if self.loose else TAPED_ROUNDS):
            if budget.over:
                return None
            answer = solve(asked.copy(), budget, seed=seed, work=WORK, goal="any", hint=hint)
            if answer.arrangement is None:
                return None
            other = Found(self._model, answer.arrangement, self._blocked)
            cuts = () if other.verdict.works else self._blocked(other._scene)
            if not cuts:
                return other if other._replaces(self, price) else None
            for cut in cuts:
                cut.add_to(asked)
                cut.add_to(self._model)
        return None

    def _start(self, budget: Budget, seed: int) -> Sequence[int]:
        """The variables of the model where all stands as it does; asked for once."""
        if self._values is None:
            pinned = self._model.copy()
            pinned.pin(self.arrangement)
            pinned.must(pinned.points >= self.verdict.standing)
            self._values = solve(pinned, budget, seed=seed, work=WORK, goal="any").values
        return self._values

    def _replaces(self, before: Found, price: int) -> bool:
        """Whether all can be reached, and the tape has gained what the points have lost."""
        gained, verdict = before.loose - self.loose, self.verdict
        more = verdict.standing - before.verdict.standing
        return (
            gained >= 0
            and (gained > 0 or more > 0 or not price)
            and verdict.works
            and verdict.faults <= before.verdict.faults
            and more >= -price * gained
        )


Side = tuple[Expr, Expr]  # where something begins and ends along an axis


@dataclass(frozen=True)
class Body:
    """What a piece can stand beside: across and up the plan, as it may move and as it stands."""

    sides: tuple[Side, Side]
    spans: tuple[tuple[int, int], tuple[int, int]]


class Touch:
    """Asks a model for places that a tape finds, near an arrangement."""

    def __init__(self, model: Model, scene: Scene) -> None:
        self._model = model
        self._scene = scene
        self._steps = [(s, s) for s in steps(model.scenario.unit, FAR)]
        self._worth: list[tuple[int, Literal]] = []

    def ask(self, freedom: int | None, *, weigh_points: bool) -> None:
        """Hold every stance, and each piece within ``freedom`` of its place; aim at the tape."""
        model = self._model
        for placed in self._scene.placed:
            model.hold_stance(placed.placement)
            place = model.place(placed.name)
            if freedom is not None and placed.placement.facing is not None:
                model.must(
                    place.x0 >= placed.x0 - freedom,
                    place.x0 <= placed.x0 + freedom,
                    place.y0 >= placed.y0 - freedom,
                    place.y0 <= placed.y0 + freedom,
                )
            self._into_corner(place, placed)
            self._keep(place, placed)
        for placed in measured(self._scene):
            for axis in AXES:
                self._count(TAPED, self._choices(placed, axis))
        for ways in self._open_gaps():
            self._count(TAPED, ways)
        worth = sum(weight * literal for weight, literal in self._worth)
        tenth = TAPED // PRICE
        model.cp.maximize(worth + tenth * model.points if weigh_points else worth)

    def _count(self, weight: int, ways: Sequence[Literal]) -> None:
        if ways:
            literal = self._model.literal()
            self._model.one_of(ways, when=[literal])
            self._worth.append((weight, literal))

    def _into_corner(self, place: Place, placed: Placed) -> None:
        wall = placed.placement.wall
        if place.piece.anchor is not None or wall is None or wall not in place.offsets:
            return
        offset = place.offsets[wall]
        last = self._model.scenario.room.walls[wall].room_for(place.piece.width)
        ways = [self._model.literal() for _ in range(2)]
        self._model.when(ways[0], offset == 0)
        self._model.when(ways[1], offset == last)
        self._count(CORNER, ways)

    def _keep(self, place: Place, placed: Placed) -> None:
        if place.piece.anchor is None and placed.placement.facing is not None:
            for now, before in ((place.x0, placed.x0), (place.y0, placed.y0)):
                literal = self._model.literal()
                self._model.when(literal, now == before)
                self._count(KEPT, [literal])

    # -- where a tape finds it --------------------------------------------
    def _choices(self, placed: Placed, axis: Axis) -> list[Literal]:
        """A literal for each way in which a tape can find a piece along an axis."""
        low, high = self._side(placed.name, axis)
        found = [self._off(placed, axis, *line) for line in self._walls(axis)]
        start, end = placed.span(axis)
        below, above = gaps(self._scene, placed, axis, bodies_about(self._scene, placed))
        for body in self._about(placed):
            first, last = body.spans[axis]
            nearest = abs(start - below - last) <= 1 or abs(end + above - first) <= 1
            for line, way in ((body.sides[axis][1], 1), (body.sides[axis][0], -1)):
                across = body.sides[1 - axis]
                found.append(self._off(placed, axis, line, way, across, touching=not nearest))
        for middle in self._middles(placed, axis):
            literal = self._model.literal()
            apart = low + high - middle
            self._model.when(literal, apart <= LEVEL, apart >= -LEVEL)
            found.append(literal)
        return found

    def _off(
        self,
        placed: Placed,
        axis: Axis,
        line: Expr,
        way: int,
        across: Side,
        *,
        touching: bool = False,
    ) -> Literal:
        """Opposite a line and whole steps off it, or touching: above it (``way`` 1) or below."""
        literal = self._model.literal()
        low, high = self._side(placed.name, axis)
        self._model.among(
            literal, low - line if way > 0 else line - high, self._steps[: 1 if touching else None]
        )
        first, last = self._side(placed.name, 1 - axis)
        self._model.when(literal, last - across[0] >= BESIDE, across[1] - first >= BESIDE)
        return literal

    def _walls(self, axis: Axis) -> Iterator[tuple[int, int, Side]]:
        """The straight walls across an axis: where, the way into the room, from where to where."""
        for wall in self._scene.scenario.room.walls:
            if wall.facing is None or not round(wall.inward[axis]):
                continue
            ends = sorted(round(end[1 - axis]) for end in (wall.start, wall.end))
            yield round(wall.start[axis]), round(wall.inward[axis]), (ends[0], ends[1])

    def _about(self, placed: Placed) -> Iterator[Body]:
        """What stands along the plan about a piece, without what is tied to it."""
        for other in self._scene.standing:
            mine = other is placed or other.piece.anchor == placed.name
            if not mine and other.placement.facing is not None:
                sides = self._side(other.name, 0), self._side(other.name, 1)
                yield Body(sides, (other.span(0), other.span(1)))
        for fixture in (f for f in self._scene.scenario.room.obstructions if not f.hangs):
            x0, y0, x1, y1 = (round(v) for v in fixture_shape(fixture).bounds)
            yield Body(((x0, x1), (y0, y1)), ((x0, x1), (y0, y1)))

    def _middles(self, placed: Placed, axis: Axis) -> Iterator[Expr]:
        """Twice the middles that it can be in line with, or stand in to be centred."""
        for other in self._scene.placed:
            if other is not placed and marks_middle(other.piece):
                low, high = self._side(other.name, axis)
                yield low + high
        yield from (round(2 * m) for m in window_middles(self._scene, axis))
        start, end = placed.span(axis)
        for about in ((), bodies_about(self._scene, placed)):
            below, above = gaps(self._scene, placed, axis, about)
            yield self._edge(placed, axis, start - below) + self._edge(placed, axis, end + above)

    def _edge(self, placed: Placed, axis: Axis, at: float) -> Expr:
        """The side of a neighbour that is there now and moves with it; else the line itself."""
        first, last = placed.span(1 - axis)
        for body in self._about(placed):
            start, end = body.spans[1 - axis]
            if at in body.spans[axis] and start < last and end > first:
                return body.sides[axis][body.spans[axis].index(round(at))]
        return round(at)

    # -- gaps closed or open ----------------------------------------------
    def _open_gaps(self) -> Iterator[list[Literal]]:
        """For each piece and what is near it, how the gap between them can be none or clear."""
        for placed in (*measured(self._scene), *tied(self._scene)):
            for axis in AXES:
                for line, way, across in self._walls(axis):
                    if abs(placed.span(axis)[way < 0] - line) < NEAR:
                        yield self._clear_of_wall(placed, axis, line, way, across)
        for placed in measured(self._scene):
            for body in self._about(placed):
                off = [_apart(placed.span(axis), body.spans[axis]) for axis in AXES]
                if max(off) < NEAR:
                    sides = [self._side(placed.name, axis) for axis in AXES]
                    pairs = zip(sides, body.sides, strict=True)
                    yield [way for one, two in pairs for way in self._clear_of(one, two)]

    def _clear_of(self, one: Side, two: Side) -> list[Literal]:
        """Touching or clear, the one before the other or after it."""
        found = []
        for low, high in ((one, two), (two, one)):
            literal = self._model.literal()
            self._model.among(literal, high[0] - low[1], [(0, 0), (CLOSED, FAR)])
            found.append(literal)
        return found

    def _clear_of_wall(
        self, placed: Placed, axis: Axis, line: int, way: int, across: Side
    ) -> list[Literal]:
        """Touching or clear of a wall, or not opposite it."""
        low, high = self._side(placed.name, axis)
        first, last = self._side(placed.name, 1 - axis)
        clear, before, after = (self._model.literal() for _ in range(3))
        off = low - line if way > 0 else line - high
        self._model.among(clear, off, [(-FAR, 0), (CLOSED, FAR)])
        self._model.when(before, last <= across[0])
        self._model.when(after, first >= across[1])
        return [clear, before, after]

    def _side(self, name: str, axis: int) -> Side:
        place = self._model.place(name)
        return (place.x0, place.x1) if axis == 0 else (place.y0, place.y1)


def _apart(one: tuple[int, int], two: tuple[int, int]) -> int:
    """The gap between two spans on one line; 0 or less where they meet."""
    return max(one[0] - two[1], two[0] - one[1])
