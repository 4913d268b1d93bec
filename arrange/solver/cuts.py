"""What blocks a path, said as a clause that holds for a whole range of arrangements.

When the judge finds a goal that cannot be reached, a few pieces are to blame.
They are found by leaving the others out, then each is allowed to move as far as
the goal stays out of reach wherever they stand within their ranges: a body that
may stand anywhere between two places surely covers the part that both cover (its
*core*), and a clearance surely lies in the part that it can sweep. The clause
"one of them stands outside its range" is then true in every walkable arrangement.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from shapely.geometry import Polygon

from arrange.data.arrangement import Placement
from arrange.data.room import Door, Window
from arrange.data.scenario import Scenario
from arrange.geometry import leaves, shares_floor
from arrange.goals import empty_floor, opening_zones, openings_to_reach
from arrange.scene import Scene
from arrange.solver.boxes import Literal
from arrange.solver.floor import zone_minds
from arrange.solver.model import Model
from arrange.solver.ranges import SLACK, Range, Stretch, moving_box
from arrange.walking import Goal, Walk


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

        def out_of_reach() -> bool:
            cores = {n: c for n in blame if (c := ranges[n].core()) is not None}
            walk = Walk(self.empty, list(cores.values()))
            if goal.clearance:
                others = [c for n, c in cores.items() if n in minded]
                zones = self._clearance_zones(scene, goal, ranges[goal.name], others)
            else:
                opening: Door | Window = self.openings[goal.name]
                zones = opening_zones(self.scenario, opening, list(cores.values()))
            return not walk.reaches(Goal(goal.name, goal.purpose, zones, goal.narrow))

        return out_of_reach

    def _minded(self, scene: Scene, goal: Goal) -> set[str]:
        """The pieces that may not stand in the clearance that is the goal."""
        if not goal.clearance:
            return set()
        piece = scene.find(goal.name).piece
        clearance = next(c for c in piece.clearances if c.name == goal.clearance)
        return {p.name for p in scene.placed if zone_minds(piece, clearance, p.piece)}

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
