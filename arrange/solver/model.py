"""The constraint model of one scenario, and the verbs that rules speak to it.

A verb is one way: whenever its literal is true, what it stands for holds; the other way
round is the objective's work. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import replace
from itertools import pairwise

from ortools.sat.python import cp_model
from shapely.geometry import Polygon

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece
from arrange.data.result import FAULT, FULL
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import leans_on, nearest_facing
from arrange.geometry.spots import Bounded, Bounds
from arrange.rules import Rule, active_rules, all_regions
from arrange.scoring import Share, shares
from arrange.solver.boxes import (
    FORGIVEN,
    PLAN,
    Box,
    Expr,
    Literal,
    all_of,
    directions,
    fixed,
)
from arrange.solver.clearance_variables import add_zone
from arrange.solver.floor import FloorConstraints, Strip
from arrange.solver.piece_variables import either, stand, tie
from arrange.solver.places import Place, Zone


class Verbs:
    """The verbs that wishes speak: near, along a wall, off some floor."""

    cp: cp_model.CpModel
    ground: FloorConstraints

    def always(self) -> Literal:
        """A literal that is true."""
        return self.cp.new_constant(1)

    def never(self) -> Literal:
        """A literal that is false."""
        return self.cp.new_constant(0)

    def near(self, literal: Literal, one: Bounded, two: Bounded, distance: Expr) -> None:
        """The gap across and the gap up the plan are at most ``distance`` mm."""
        for gap in (two.x0 - one.x1, one.x0 - two.x1, two.y0 - one.y1, one.y0 - two.y1):
            self.cp.add(gap <= distance).only_enforce_if(literal)

    def near_one(
        self, literal: Literal, one: Bounded, others: Sequence[Bounded], distance: Expr
    ) -> None:
        """``near`` to one of the others at least."""
        if len(others) == 1:
            self.near(literal, one, others[0], distance)
            return
        choices = [self.cp.new_bool_var("") for _ in others]
        for choice, other in zip(choices, others, strict=True):
            self.near(choice, one, other, distance)
        self.cp.add_bool_or([*choices, literal.negated()])

    def levels_near(
        self, one: Bounded, others: Sequence[Bounded], steps: Sequence[int]
    ) -> list[Literal]:
        """A literal a step: ``near_one`` within that many mm."""
        levels: list[Literal] = [self.cp.new_bool_var("") for _ in steps]
        for level, distance in zip(levels, steps, strict=True):
            self.near_one(level, one, others, distance)
        return levels

    def backed(self, literal: Literal, name: str) -> None:
        """Its back is on some wall."""
        place = self.ground.places[name]
        if not place.piece.needs_wall or place.piece.crosses:
            self.cp.add_bool_or([*place.walls.values(), literal.negated()])

    def corner_choices(self, name: str) -> dict[int, Literal]:
        """The corners across which a piece can stand, and whether it does."""
        return self.ground.places[name].corners

    def starts_in(
        self, literal: Literal, name: str, wall: int, ranges: Sequence[tuple[int, int]]
    ) -> None:
        """If its back is on that wall, its left end comes in one of the ranges (mm along)."""
        place = self.ground.places[name]
        if wall not in place.offsets:
            return
        when = [literal, place.walls[wall]]
        domain = cp_model.Domain.from_intervals([[a, b] for a, b in ranges if a <= b])
        if domain.is_empty():
            self.cp.add_bool_or([x.negated() for x in when])
            return
        self.cp.add_linear_expression_in_domain(place.offsets[wall], domain).only_enforce_if(*when)

    def among(self, literal: Literal, coordinate: Expr, ranges: Sequence[tuple[int, int]]) -> None:
        """A coordinate, or a sum of some, comes in one of the ranges (mm)."""
        domain = cp_model.Domain.from_intervals([[a, b] for a, b in ranges if a <= b])
        self.cp.add_linear_expression_in_domain(coordinate, domain).only_enforce_if(literal)

    def starts_from(
        self, literal: Literal, name: str, other: str, wall: int, ranges: Sequence[tuple[int, int]]
    ) -> None:
        """If both have their back on that wall, how far the one starts from the other (mm)."""
        one, two = self.ground.places[name], self.ground.places[other]
        if wall not in one.offsets or wall not in two.offsets:
            return
        when = [literal, one.walls[wall], two.walls[wall]]
        domain = cp_model.Domain.from_intervals([[a, b] for a, b in ranges if a <= b])
        between = one.offsets[wall] - two.offsets[wall]
        self.cp.add_linear_expression_in_domain(between, domain).only_enforce_if(*when)

    def wall_choices(self, name: str) -> tuple[int, ...]:
        """The walls a piece can have its back on."""
        return tuple(self.ground.places[name].offsets)

    def off_floor(self, literal: Literal, name: str, convex: Polygon) -> None:
        """The body of a piece shares no floor with a convex shape; touching is allowed."""
        shape = fixed(convex)
        for box in self.ground.places[name].bodies:
            choices: list[Literal] = []
            # A set of numbers: unlike one of words it has the same order in every run.
            for direction in {_rounded(d) for d in [*directions(box), *directions(shape)]}:
                choice = self.cp.new_bool_var("")
                back = (-direction[0], -direction[1])
                shared = box.reach(direction) + shape.reach(back)
                self.cp.add(shared <= FORGIVEN).only_enforce_if(choice)
                choices.append(choice)
            self.cp.add_bool_or([*choices, *[w.negated() for w in (literal, *box.when)]])


def _rounded(direction: tuple[float, float]) -> tuple[float, float]:
    """Directions that differ by rounding alone become one."""
    return round(direction[0], 9) + 0.0, round(direction[1], 9) + 0.0


Constraint = cp_model.BoundedLinearExpression | bool


class Model(Verbs):
    """Variables of every piece and clearance, the musts, and the points.

    Rules use the verbs (``place``, ``zone``, ``when``, ``near``, ``beyond``,
    ``any_of`` ...) and the coordinates of ``Place``; they never import a solver.
    """

    def __init__(self, scenario: Scenario, *, canonical: bool = True) -> None:
        self.scenario = scenario
        self._canonical = canonical
        self.cp = cp_model.CpModel()
        self.ground = FloorConstraints(scenario.room, all_regions(scenario))
        self._zones: dict[tuple[str, str], Zone] = {}
        self._around: dict[tuple[str, ...], Bounds] = {}
        self.levels: dict[str, list[Literal]] = {}
        self.shares: tuple[Share, ...] = shares(scenario)
        for piece in _anchors_first(scenario.pieces):
            self._add_piece(piece)
        if canonical:
            self._order_twins()
        rules = active_rules(scenario)
        for piece in scenario.pieces:
            for clearance in piece.clearances:
                place = self.place(piece.name)
                steps = _depths(rules, scenario, piece, clearance)
                zone = add_zone(self.cp, self.ground, place, clearance, steps)
                self._zones[piece.name, clearance.name] = zone
        for rule in rules:
            rule.build(self)
        self._add_points({rule.id: rule for rule in rules})
        self.shared = len(self.cp.proto.variables)

    def finish(self, *, boxed: bool = False) -> None:
        """Add what keeps everything apart; nothing can be added to the floor after.

        ``boxed`` asks more: what is round keeps the corners of its box free, too.
        """
        self.ground.finish(self.cp, boxed=boxed)

    # -- verbs for rules -------------------------------------------------
    def place(self, name: str) -> Place:
        """The variables of the piece called ``name``."""
        return self.ground.places[name]

    def depths(self, piece: str, clearance: str) -> Sequence[Literal]:
        """For each depth at which a clearance earns points, whether its strip is so deep."""
        return self._zones[piece, clearance].levels

    def literal(self, name: str = "") -> Literal:
        """A fresh yes-or-no variable."""
        return self.cp.new_bool_var(name)

    def number(self, low: int, high: int, name: str = "") -> cp_model.IntVar:
        """A fresh whole number between two bounds, both included."""
        return self.cp.new_int_var(low, high, name)

    def must(self, *constraints: Constraint) -> None:
        """Each constraint always holds."""
        for constraint in constraints:
            self.cp.add(constraint)

    def when(self, literal: Literal | Sequence[Literal], *constraints: Constraint) -> None:
        """Each constraint holds whenever the literal (or all of them) is true."""
        literals = literal if isinstance(literal, list | tuple) else [literal]
        for constraint in constraints:
            self.cp.add(constraint).only_enforce_if(*literals)

    def one_of(self, literals: Sequence[Literal], when: Sequence[Literal] = ()) -> None:
        """At least one literal is true whenever all of ``when`` are."""
        self.cp.add_bool_or([*literals, *[x.negated() for x in when]])

    def implies(self, literal: Literal, *others: Literal) -> None:
        """The others are true whenever the literal is."""
        for other in others:
            self.cp.add_implication(literal, other)

    def forbid(self, *literals: Literal) -> None:
        """The literals are never true all at once."""
        self.cp.add_bool_or([x.negated() for x in literals])

    def both(self, *literals: Literal) -> Literal:
        """A literal that is true exactly when all of them are."""
        return all_of(self.cp, literals)

    def either(self, literals: Sequence[Literal]) -> Literal:
        """A literal that is true exactly when one of the exclusive literals is."""
        return either(self.cp, list(literals))

    def faces(self, name: str, facing: Facing) -> Literal:
        """Whether a piece looks that way (the nearest quarter turn if aslant)."""
        return self.place(name).facings[facing]

    def on_wall(self, name: str, wall: int) -> Literal | None:
        """Whether a piece has its back on a wall; None if it never can."""
        return self.place(name).walls.get(wall)

    def beyond(self, literal: Literal, one: Bounded, two: Bounded, distance: Expr) -> None:
        """When true, the gap across or the gap up the plan is at least ``distance``."""
        choices = [self.literal() for _ in range(4)]
        self.when(choices[0], two.x0 - one.x1 >= distance)
        self.when(choices[1], one.x0 - two.x1 >= distance)
        self.when(choices[2], two.y0 - one.y1 >= distance)
        self.when(choices[3], one.y0 - two.y1 >= distance)
        self.one_of(choices, when=[literal])

    def around(self, names: Sequence[str]) -> Bounded:
        """A box that covers these pieces: the smallest one, or a larger. Made once."""
        key = tuple(names)
        if len(key) == 1:
            return self.place(key[0])
        if key not in self._around:
            x0, y0, x1, y1 = self.scenario.room.bounds
            box = Bounds(*[self.number(*ends) for ends in ((x0, x1), (y0, y1)) * 2])
            for place in (self.place(name) for name in key):
                self.must(box.x0 <= place.x0, box.y0 <= place.y0)
                self.must(place.x1 <= box.x1, place.y1 <= box.y1)
            self._around[key] = box
        return self._around[key]

    def tally(self, literals: Sequence[Literal]) -> Sequence[Literal]:
        """A literal a count: the first k of them are true only if k of ``literals`` are."""
        levels = [self.literal() for _ in literals]
        self.must(sum(levels) <= sum(literals))
        return levels

    def strip(self, name: str, clearance: Clearance) -> Literal:
        """Whether the strip of a wished clearance is free to its comfortable depth."""
        key = (name, clearance.name)
        if key not in self._zones:
            steps = (clearance.comfortable,)
            self._zones[key] = add_zone(self.cp, self.ground, self.place(name), clearance, steps)
        return self._zones[key].levels[-1]

    def clear_square(
        self, levels: Sequence[Literal], sides: Sequence[int], off: Sequence[Polygon] = ()
    ) -> None:
        """Some upright square of floor is free, its side going by the highest true level.

        It shares no floor with the shapes ``off`` which it is.
        """
        x0, y0, x1, y1 = self.scenario.room.bounds
        a, b = self.number(x0, x1), self.number(y0, y1)
        side: Expr = sides[0]
        for level, low, high in zip(levels[1:], sides, sides[1:], strict=False):
            side = side + (high - low) * level
        size = self.number(sides[0], sides[-1])
        self.must(size == side)
        c, d = self.number(x0, x1), self.number(y0, y1)
        square = Box(a, b, c, d, PLAN, (levels[0],), (size, size))
        self.ground.squares.append((square, tuple(off)))

    def open_strip(
        self, literal: Literal, heights: tuple[int, int], without: Sequence[str]
    ) -> Bounds:
        """A fresh upright box; when true it lies in the room, and nothing stands in it.

        Nothing but the pieces ``without`` that reaches between two heights in mm.
        """
        low_x, low_y, high_x, high_y = self.scenario.room.bounds
        x0, x1 = self.number(low_x, high_x), self.number(low_x, high_x)
        y0, y1 = self.number(low_y, high_y), self.number(low_y, high_y)
        sizes = self.number(0, high_x - low_x), self.number(0, high_y - low_y)
        box = Box(x0, y0, x1, y1, PLAN, (literal,), sizes)
        self.ground.strips.append(Strip(box, heights, frozenset(without)))
        return Bounds(x0, y0, x1, y1)

    # -- building --------------------------------------------------------
    def _add_piece(self, piece: Piece) -> None:
        if piece.anchor is not None:
            tie(self.cp, self.ground, piece, self.place(piece.anchor))
        else:
            hosts = {p.anchor for p in self.scenario.pieces}
            wished = {n for w in self.scenario.wishes for n in (w.piece, w.place)}
            held = {p.piece for p in self.scenario.held}
            told_apart = bool(piece.clearances) or piece.name in hosts | wished | held
            clearly_free = self._canonical and piece.name not in held
            stand(self.cp, self.ground, piece, told_apart=told_apart, clearly_free=clearly_free)

    def _order_twins(self) -> None:
        """Alike pieces are interchangeable: only one order of them is kept."""
        for group in self.scenario.interchangeable():
            for one, two in pairwise(group):
                if self._earnings(one) == self._earnings(two):
                    _in_order(self.cp, self.place(one.name), self.place(two.name))

    def _earnings(self, piece: Piece) -> list[tuple[object, ...]]:
        return sorted(
            (s.claim.rule, s.claim.about, s.points)
            for s in self.shares
            if piece.name in s.claim.subjects
        )

    def _add_points(self, rules: dict[str, Rule]) -> None:
        total: Expr = 0
        for share in self.shares:
            levels = list(rules[share.claim.rule].reach(self, share.claim))
            self.levels[share.claim.key] = levels
            for harder, easier in zip(levels[1:], levels, strict=False):
                self.cp.add_implication(harder, easier)
            before = -FAULT * share.claim.faults(0)
            total = total + before
            for level, (k, points) in zip(levels, enumerate(share.points, 1), strict=True):
                worth = points - FAULT * share.claim.faults(k)
                total = total + (worth - before) * level
                before = worth
        least = -FAULT * sum(share.claim.faults(0) for share in self.shares)
        self.points = self.cp.new_int_var(least, FULL, "points")
        self.cp.add(self.points == total)

    def aim(self) -> None:
        """Have the solver look for what is best: the one place that says what that is."""
        self.cp.maximize(self.points)

    def pin(self, arrangement: Arrangement) -> None:
        """Hold every piece where the arrangement puts it."""
        for placement in arrangement.placements:
            there = placement
            if there.corner is not None and there.looks is None:
                line = leans_on(there, self.scenario.room)
                there = replace(there, looks=nearest_facing(line))
            self.place(placement.piece).pin(self.cp, there)

    def stay(self, placement: Placement) -> None:
        """Hold one piece where it stands, whichever way it counts as looking there."""
        self.place(placement.piece).pin(self.cp, replace(placement, looks=None))

    def keep_to_walls(self) -> None:
        """Each piece that may stand at a wall does."""
        for piece in self.scenario.pieces:
            place = self.place(piece.name)
            if piece.backs and place.walls:
                self.cp.add_bool_or([*place.walls.values(), *place.corners.values()])

    def hold_stance(self, placement: Placement) -> None:
        """Keep a piece on its wall, turn and slot, free to move otherwise."""
        self.cp.add_bool_or(self.place(placement.piece).stances_as(placement))

    def forbid_stances(self, placements: Sequence[Placement]) -> None:
        """Not all of these pieces on these walls and turned this way at once."""
        otherwise: list[Literal] = []
        for placement in placements:
            place = self.place(placement.piece)
            same = {id(x) for x in place.stances_as(placement)}
            otherwise += [s.literal for s in place.stances if id(s.literal) not in same]
        self.cp.add_bool_or(otherwise)

    def copy(self) -> Model:
        """A model of its own with the same variables; what is added there stays there."""
        twin = copy(self)
        twin.cp = self.cp.clone()
        return twin

    # -- reading ---------------------------------------------------------
    def arrangement(self, value: cp_model.CpSolver) -> Arrangement:
        """Read where everything stands from a solver that has a solution."""
        return Arrangement(tuple(self.place(p.name).placement(value) for p in self.scenario.pieces))


def _anchors_first(pieces: Sequence[Piece]) -> list[Piece]:
    done: list[Piece] = []
    names: set[str] = set()
    waiting = list(pieces)
    while waiting:
        ready = [p for p in waiting if p.anchor is None or p.anchor in names]
        if not ready:
            raise ValueError(f"pieces tied in a circle: {[p.name for p in waiting]}")
        done += ready
        names |= {p.name for p in ready}
        waiting = [p for p in waiting if p.name not in names]
    return done


def _depths(
    rules: Sequence[Rule], scenario: Scenario, piece: Piece, clearance: Clearance
) -> tuple[int, ...]:
    """The depths in mm at which the one rule that speaks of them gives points."""
    asked = [steps for rule in rules if (steps := rule.depths(scenario, piece, clearance))]
    if len(asked) > 1:
        raise ValueError(f"two rules name depths for {piece.name} {clearance.name}")
    return asked[0] if asked else ()


def _in_order(cp: cp_model.CpModel, one: Place, two: Place) -> None:
    if one.slots and two.slots:
        first = sum(i * s for i, s in enumerate(one.slots))
        second = sum(i * s for i, s in enumerate(two.slots))
        cp.add(first + 1 <= second)
        return
    first = sum(i * s.literal for i, s in enumerate(one.stances))
    second = sum(i * s.literal for i, s in enumerate(two.stances))
    cp.add(first <= second)
    for s, t in zip(one.stances, two.stances, strict=True):
        both = [s.literal, t.literal]
        if s.wall is not None and s.wall in one.offsets:
            cp.add(one.offsets[s.wall] <= two.offsets[s.wall]).only_enforce_if(*both)
        else:
            wide = 100_000
            cp.add(one.x0 * wide + one.y0 <= two.x0 * wide + two.y0).only_enforce_if(*both)
