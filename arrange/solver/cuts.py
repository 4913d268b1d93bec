"""What blocks a path, said as a clause that holds for a whole range of arrangements.

When the judge finds a goal that cannot be reached, a few pieces are to blame. They are
found by leaving the others out (`Cutter`), then each is allowed to move as far as the goal
stays out of reach wherever they stand within their ranges (`Range`, `Stretch`): a body that
may stand anywhere between two places surely covers the part that both cover (its *core*),
and a clearance surely lies in the part that it can sweep. The clause "one of them stands
outside its range" (`Cut`) is then true in every walkable arrangement.

What blocks a path depends on the empty room, on the pieces to blame and on the piece whose
clearance is out of reach, and on nothing else. So a cut holds in other scenarios wherever
these are the same; and where a piece to blame has only grown, for then it covers what it
covered (`Memory`). Lengths in mm.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from shapely import box as shapely_box
from shapely import union_all
from shapely.affinity import translate
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Placement
from arrange.data.piece import Clearance, Piece, Side
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry.ceilings import low_floor
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import leaves, shares_floor, strip_corners
from arrange.geometry.walking import Goal, Walk, empty_floor, opening_zones, openings_to_reach
from arrange.solver.boxes import Literal
from arrange.solver.model import Model
from arrange.solver.piece_variables import facing_offset

FIRST_STEP = 64  # mm
SLACK = 2  # mm; a slanted body is known by whole-mm bounds, so its core is a bit smaller


@dataclass
class Range:
    """Where the lower left corner of one piece may be while it stays turned as it is."""

    placed: Placed
    low: list[int]
    high: list[int]
    open_low: list[bool]
    open_high: list[bool]

    @classmethod
    def at(cls, placed: Placed) -> Range:
        """No freedom at all."""
        here = [placed.x0, placed.y0]
        return cls(placed, here[:], here[:], [False, False], [False, False])

    def core(self) -> BaseGeometry | None:
        """The floor its body covers wherever in the range it stands."""
        if self.placed.placement.facing is None:
            return self.placed.body.buffer(-SLACK, join_style="mitre")
        if not self.placed.piece.fills_its_box:
            return self._shaped_core()
        w, h = self.placed.x1 - self.placed.x0, self.placed.y1 - self.placed.y0
        return _rectangle(self.high[0], self.high[1], self.low[0] + w, self.low[1] + h)

    def _shaped_core(self) -> BaseGeometry | None:
        """As ``core``: what a convex part covers at the four ends it covers at all between."""
        cores: list[BaseGeometry] = []
        for part in self.placed.parts:
            core: BaseGeometry = part
            for x, y in product((self.low[0], self.high[0]), (self.low[1], self.high[1])):
                here = translate(part, x - self.placed.x0, y - self.placed.y0)
                core = core.intersection(here)
            cores += [core] if core.area > 0 else []
        return union_all(cores) if cores else None

    def swept(self, box: tuple[int, int, int, int]) -> Polygon:
        """All floor that a box moving with the piece can cover."""
        return shapely_box(
            self.low[0] + box[0],
            self.low[1] + box[1],
            self.high[0] + box[2],
            self.high[1] + box[3],
        )

    def always(self, box: tuple[int, int, int, int]) -> Polygon | None:
        """The floor that a box moving with the piece covers wherever it stands."""
        return _rectangle(
            self.high[0] + box[0],
            self.high[1] + box[1],
            self.low[0] + box[2],
            self.low[1] + box[3],
        )


def moving_box(
    placed: Placed, clearance: Clearance, side: Side, facing: Facing
) -> tuple[int, int, int, int]:
    """A least strip relative to the lower left corner of its piece."""
    strip = strip_corners(
        placed.piece,
        side,
        clearance.least,
        clearance.skip_start,
        clearance.skip_end,
    )
    x, y = facing_offset(placed.piece, facing, strip)
    a, b = strip[2] - strip[0], strip[3] - strip[1]
    w, h = (a, b) if facing in ("down", "up") else (b, a)
    return x, y, x + w, y + h


@dataclass
class Stretch:
    """One end of one range being moved toward ``limit``.

    Steps are doubled until one fails and halved from then on: what failed once fails for
    good, since other ends only move outwards.
    """

    range: Range
    axis: int
    up: bool
    limit: int
    at_once: bool = False
    step: int = FIRST_STEP
    failed: bool = False

    def on(self, still_holds: Callable[[], bool]) -> bool:
        """One step further, if the test still holds then; whether it is worth going on."""
        ends = self.range.high if self.up else self.range.low
        here = ends[self.axis]
        left = abs(self.limit - here)
        step = left if self.at_once else min(self.step, left)
        ends[self.axis] = here + step if self.up else here - step
        held = step > 0 and still_holds()
        if not held:
            ends[self.axis] = here
        if ends[self.axis] == self.limit:
            (self.range.open_high if self.up else self.range.open_low)[self.axis] = True
            return False
        self.failed = self.failed or not held
        self.step = step // 2 if self.failed else 2 * step
        return self.step > 0 and not self.at_once


def _rectangle(x0: int, y0: int, x1: int, y1: int) -> Polygon | None:
    if x0 >= x1 or y0 >= y1:
        return None
    return shapely_box(x0, y0, x1, y1)


@dataclass(frozen=True)
class Hold:
    """One piece kept within a range: its turn and the bounds that matter."""

    placement: Placement
    any_way_round: bool
    low: tuple[int | None, int | None]
    high: tuple[int | None, int | None]


@dataclass(frozen=True)
class Cut:
    """No walkable arrangement keeps all of these holds at once."""

    holds: tuple[Hold, ...]

    @property
    def pieces(self) -> frozenset[str]:
        """The pieces it speaks of."""
        return frozenset(h.placement.piece for h in self.holds)

    def for_twins(self, twins: Mapping[str, Sequence[str]]) -> list[Cut]:
        """The same cut with other pieces of the same model in the places of its own.

        ``twins`` lists for each piece all that are alike, itself too. Sound because
        alike pieces block and reach alike; the cut itself is among them.
        """
        names = [hold.placement.piece for hold in self.holds]
        found: list[Cut] = []
        for others in product(*(twins[name] for name in names)):
            if len(set(others)) == len(others):
                placed = [
                    replace(hold, placement=replace(hold.placement, piece=other))
                    for hold, other in zip(self.holds, others, strict=True)
                ]
                found.append(Cut(tuple(placed)))
        return found

    def add_to(self, model: Model) -> None:
        """Add the clause to a model of the same scenario."""
        literals: list[Literal] = []
        for hold in self.holds:
            literals += _leaves(model, hold)
        model.one_of(literals)


def _leaves(model: Model, hold: Hold) -> list[Literal]:
    place = model.place(hold.placement.piece)
    literals: list[Literal] = []
    literals += place.turned_otherwise(hold.placement, any_way_round=hold.any_way_round)
    for axis, start in ((0, place.x0), (1, place.y0)):
        low, high = hold.low[axis], hold.high[axis]
        if low is not None:
            literals.append(model.literal())
            model.when(literals[-1], start <= low - 1)
        if high is not None:
            literals.append(model.literal())
            model.when(literals[-1], start >= high + 1)
    return literals


class Cutter:
    """Makes cuts for one scenario; the same seed makes the same cuts.

    Once ``over`` says yes a cut is no longer made as strong as it could be.
    """

    def __init__(self, scenario: Scenario, over: Callable[[], bool] = lambda: False) -> None:
        self.scenario = scenario
        self.over = over
        self.empty = empty_floor(scenario)
        self.openings = {o.name: o for o in openings_to_reach(scenario)}

    def cut(self, scene: Scene, goal: Goal, seed: int) -> Cut:
        """A cut that rules out this arrangement because ``goal`` is out of reach."""
        order = random.Random(seed)  # noqa: S311
        ranges = {p.name: Range.at(p) for p in scene.standing}
        owner = goal.name if goal.clearance else None
        if owner is not None and owner not in ranges:
            ranges[owner] = Range.at(scene.find(owner))
        blame = [p.name for p in scene.standing]
        out_of_reach = self._tester(scene, goal, ranges, blame)
        if not out_of_reach():
            return Cut(tuple(_hold(r, exact=True) for r in ranges.values()))
        names = blame[:]
        order.shuffle(names)
        for name in names:
            if self.over():
                break
            blame.remove(name)
            if not out_of_reach():
                blame.append(name)
        involved = list(dict.fromkeys([*blame, *([owner] if owner else [])]))
        self._widen(ranges, involved, out_of_reach, order)
        return Cut(tuple(_hold(ranges[n], exact=n == owner) for n in involved))

    def _widen(
        self,
        ranges: dict[str, Range],
        involved: list[str],
        out_of_reach: Callable[[], bool],
        order: random.Random,
    ) -> None:
        """Every end a little at a time, so that none takes all the freedom there is."""
        ends = [(n, axis, up) for n in involved for axis in (0, 1) for up in (False, True)]
        order.shuffle(ends)
        x0, y0, x1, y1 = self.scenario.room.bounds
        moving: list[Stretch] = []
        for name, axis, up in ends:
            r = ranges[name]
            if r.placed.placement.facing is None:
                continue
            size = (r.placed.x1 - r.placed.x0, r.placed.y1 - r.placed.y0)[axis]
            limit = (x1, y1)[axis] - size if up else (x0, y0)[axis]
            # Off its wall it can only be on another: nothing between is worth a look.
            backed = r.placed.placement.wall is not None
            across = axis == (1 if r.placed.facing in ("down", "up") else 0)
            moving.append(Stretch(r, axis, up, limit, at_once=backed and across))
        while moving and not self.over():
            moving = [one for one in moving if one.on(out_of_reach)]

    def _tester(
        self, scene: Scene, goal: Goal, ranges: dict[str, Range], blame: list[str]
    ) -> Callable[[], bool]:
        minded = self._minded(scene, goal)
        known: dict[tuple[object, ...], BaseGeometry | None] = {}

        def core_of(name: str) -> BaseGeometry | None:
            one = ranges[name]
            there = (name, *one.low, *one.high)
            if there not in known:  # of all ranges one alone has changed since
                known[there] = one.core()
            return known[there]

        def out_of_reach() -> bool:
            cores = {n: c for n in blame if (c := core_of(n)) is not None}
            walk = Walk(self.empty, list(cores.values()))
            if goal.clearance:
                others = [c for n, c in cores.items() if n in minded]
                zones = self._clearance_zones(scene, goal, ranges[goal.name], others)
            else:
                opening = self.openings[goal.name]
                standing = [(ranges[n].placed.piece, core) for n, core in cores.items()]
                zones = opening_zones(self.scenario, opening, standing)
            return not walk.reaches(replace(goal, zones=zones))

        return out_of_reach

    def _minded(self, scene: Scene, goal: Goal) -> set[str]:
        """The pieces that may not stand in the clearance that is the goal."""
        if not goal.clearance:
            return set()
        piece = scene.find(goal.name).piece
        clearance = next(c for c in piece.clearances if c.name == goal.clearance)
        return {p.name for p in scene.placed if clearance.minds(piece, p.piece)}

    def _clearance_zones(
        self, scene: Scene, goal: Goal, owner: Range, others: Sequence[Polygon]
    ) -> tuple[Polygon, ...]:
        """The strips of the goal, wherever its piece stands, unless surely not free."""
        piece = owner.placed.piece
        clearance = next(c for c in piece.clearances if c.name == goal.clearance)
        facing = owner.placed.placement.facing
        zones: list[Polygon] = []
        if facing is None:
            # Known by whole-mm bounds only: every side counts, drawn a little larger.
            strips = [
                scene.zone(owner.placed, clearance, s, clearance.least) for s in clearance.sides
            ]
            return tuple(s.buffer(SLACK, join_style="mitre") for s in strips)
        fixed = [s for s, low in scene.solid_fixtures if low < clearance.height]
        fixed += low_floor(self.scenario.room, clearance.headroom)
        for side in clearance.sides:
            box = moving_box(owner.placed, clearance, side, facing)
            sure = owner.always(box)
            if sure is not None and (
                leaves(sure, scene.room) or any(shares_floor(sure, o) for o in [*others, *fixed])
            ):
                continue
            zones.append(owner.swept(box))
        return tuple(zones)


def _hold(r: Range, *, exact: bool) -> Hold:
    low = tuple(None if free else v for v, free in zip(r.low, r.open_low, strict=True))
    high = tuple(None if free else v for v, free in zip(r.high, r.open_high, strict=True))
    return Hold(
        r.placed.placement,
        not exact,
        (low[0], low[1]),
        (high[0], high[1]),
    )


@dataclass(frozen=True)
class Learnt:
    """A cut, and the pieces it speaks of as they were."""

    cut: Cut
    pieces: tuple[Piece, ...]

    def holds_in(self, scenario: Scenario) -> bool:
        """Whether it is sure to hold in a scenario of the same room."""
        now = {p.name: p for p in scenario.pieces}
        return all(
            piece.name in now and _blocks_as_well(hold, piece, now[piece.name])
            for hold, piece in zip(self.cut.holds, self.pieces, strict=True)
        )


@dataclass
class Memory:
    """All that was learnt in one run, by the empty room it was learnt in."""

    _rooms: dict[Scenario, dict[Learnt, None]] = field(default_factory=dict)

    def cuts_for(self, scenario: Scenario) -> list[Cut]:
        """The cuts known to hold there."""
        known = self._rooms.get(_emptied(scenario), {})
        return [learnt.cut for learnt in known if learnt.holds_in(scenario)]

    def learn(self, scenario: Scenario, cuts: Iterable[Cut]) -> None:
        """Remember cuts of a search in that scenario."""
        known = self._rooms.setdefault(_emptied(scenario), {})
        for cut in cuts:
            pieces = tuple(scenario.piece(hold.placement.piece) for hold in cut.holds)
            known[Learnt(cut, pieces)] = None


def _emptied(scenario: Scenario) -> Scenario:
    """What the walkway depends on beside the pieces: the room, its rules, the width."""
    return replace(scenario.unfurnished, title="")


def _blocks_as_well(hold: Hold, then: Piece, now: Piece) -> bool:
    """Whether the piece does now, within the hold, all that it did then."""
    then, now = _body(then), _body(now)
    if then == now:
        return True
    if not now.fills_its_box:
        return False  # the corners of a larger one leave floor free that a smaller one covered
    same_otherwise = replace(now, width=then.width, depth=then.depth) == then
    grown = now.width >= then.width and now.depth >= then.depth
    # Ranges are those of a lower left corner: a slanted body would grow to all sides.
    return hold.any_way_round and hold.placement.facing is not None and same_otherwise and grown


def _body(piece: Piece) -> Piece:
    """The piece without what no path depends on."""
    return piece.unpriced
