"""One question of the search, and the place where its two sides meet.

A question leaves out what is no other plan than those shown already (`arrange/different.py`),
or keeps to one *family*: all arrangements in which the major pieces stand on the same walls
and look the same ways. All questions about one scenario share its models, and
the cuts found so far.
"""

from __future__ import annotations

import logging
import math
import typing
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece, canonical
from arrange.data.result import FULL, NOTHING, Breach
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.different import (
    WallAndFacing,
    far2,
    leading,
    looks,
    stands,
    turns_the_room,
    wall_and_facing,
    ways_to_be_same,
)
from arrange.errors import DisagreementError
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import nearest_facing, turn_facing
from arrange.geometry.spots import middle2
from arrange.geometry.walking import Goal, empty_floor, goals, walk_of
from arrange.judge import judge
from arrange.rules import RULES
from arrange.solver.boxes import Expr, Literal
from arrange.solver.cuts import Cut, Cutter
from arrange.solver.engine import Answer
from arrange.solver.model import Model
from arrange.solver.places import Stance
from arrange.solver.walkways import add_walkways

Key = tuple[tuple[str, tuple[WallAndFacing, ...]], ...]


def majors(scenario: Scenario) -> list[Piece]:
    """The pieces that tell families apart; all pieces if none is major."""
    return [p for p in scenario.pieces if p.major] or list(scenario.pieces)


def key_of(scenario: Scenario, arrangement: Arrangement) -> Key:
    """Where the major pieces stand: for each group its spots, alike pieces in no order."""

    def spots(pieces: Iterable[Piece]) -> tuple[WallAndFacing, ...]:
        found = (wall_and_facing(scenario, arrangement, piece) for piece in pieces)
        return tuple(sorted(found, key=_order))

    return tuple((name, spots(pieces)) for name, pieces in sorted(_groups(scenario).items()))


def _groups(scenario: Scenario) -> dict[str, tuple[Piece, ...]]:
    """The major pieces by what they are called; alike ones at the same host can be swapped.

    Several entries of the same thing share a group, called by all their names.
    """
    groups: dict[str, tuple[Piece, ...]] = {}
    for group in replace(scenario, pieces=tuple(majors(scenario))).alike_groups():
        ordered = sorted(group, key=canonical)
        name = " or ".join(dict.fromkeys(piece.model for piece in ordered))
        if group[0].anchor is not None:
            name += f" with {group[0].anchor}"
        if name in groups:  # alike by name but not in what they are
            name = " or ".join(piece.name for piece in ordered)
        groups[name] = group
    return groups


def _order(spot: WallAndFacing) -> tuple[int, str]:
    return (-1 if spot[0] is None else spot[0], spot[1])


def exclude(model: Model, keys: Iterable[Key]) -> None:
    """No arrangement of these families any more: some spot has fewer of its pieces."""
    for key in keys:
        fewer: list[Literal] = []
        for count, times in _counts(model, key):
            fewer.append(model.literal())
            model.when(fewer[-1], count <= times - 1)
        model.one_of(fewer)


def set_apart(model: Model, arrangements: Iterable[Arrangement]) -> None:
    """Only arrangements that are other plans than each of these, as `differ` has it."""
    scenario = model.scenario
    for shown in arrangements:
        scene = Scene(scenario, shown)
        otherwise: list[Literal] = []
        for alike in leading(scenario):
            other = model.literal()
            for pairs in ways_to_be_same(alike):
                apart = [_apart(model, scene, mine, its) for its, mine in pairs]
                model.one_of(apart, when=[other])
            otherwise.append(other)
        model.one_of(otherwise)


def _apart(model: Model, scene: Scene, mine: Piece, its: Piece) -> Literal:
    """A piece stands otherwise than another one there: place, or wall or turn if that tells."""
    apart, ways = model.literal(), []
    if turns_the_room(mine):
        ways.append(model.literal())
        wall, facing = stands(model.scenario, scene.arrangement, its)
        anywhere = wall is None and not mine.needs_wall
        there = _turned(model, mine, facing) if anywhere else _literals(model, mine, (wall, facing))
        model.implies(ways[0], *[x.negated() for x in there])
    there2, was2 = middle2(model.place(mine.name)), middle2(scene.find(its.name))
    for at, was, far in zip(there2, was2, far2(model.scenario, mine), strict=True):
        for sign in (1, -1):
            way = model.literal()
            model.when(way, sign * (at - was) >= far + 1)
            ways.append(way)
    model.one_of(ways, when=[apart])
    return apart


def hold_to(model: Model, key: Key) -> None:
    """Only arrangements of this family."""
    for count, times in _counts(model, key):
        model.must(count == times)


def _counts(model: Model, key: Key) -> list[tuple[Expr, int]]:
    """For each spot of the key: how many of its pieces stand so, and how many should."""
    counts: list[tuple[Expr, int]] = []
    groups = _groups(model.scenario)
    for name, spots in key:
        pieces = groups[name]
        for spot, times in sorted(Counter(spots).items(), key=lambda item: _order(item[0])):
            literals = [x for piece in pieces for x in _literals(model, piece, spot)]
            counts.append((sum(literals) if literals else model.number(0, 0), times))
    return counts


def _literals(model: Model, piece: Piece, spot: WallAndFacing) -> list[Literal]:
    """The literals one of which is true if the piece stands in the spot."""
    wall, facing = spot
    if wall is not None:
        literal = model.on_wall(piece.name, wall)
        return [] if literal is None else [literal]
    if not piece.backs:
        return _turned(model, piece, facing)
    free = (s for s in model.place(piece.name).stances if s.wall is None)
    return [s.literal for s in free if looks(piece, _facing(model, s)) == facing]


def _turned(model: Model, piece: Piece, facing: Facing) -> list[Literal]:
    """The literals one of which is true if the piece looks that way, at a wall or not."""
    stances = model.place(piece.name).stances
    if not piece.backs and all(s.corner is None for s in stances):
        return [model.faces(piece.name, f) for f in FACINGS if looks(piece, f) == facing]
    return [s.literal for s in stances if looks(piece, _facing(model, s)) == facing]


def _facing(model: Model, stance: Stance) -> Facing:
    """The way a stance looks; across one corner always the same one, whichever it counts as."""
    line = None if stance.corner is None else model.scenario.room.across(stance.corner)
    return stance.facing if line is None else turn_facing(nearest_facing(line), stance.quarter)


def named(scenario: Scenario, key: Key) -> tuple[tuple[str, str, str], ...]:
    """The key in words: name of the group, wall name or "free", facing; one entry a piece."""
    walls = scenario.room.walls
    return tuple(
        (model, "free" if wall is None else walls[wall].name, facing)
        for model, spots in key
        for wall, facing in spots
    )


CAUSES = 2  # how many sets of pieces to blame are looked into at a time
RECTANGLES = 5  # how many the guided model may use


def growth(scenario: Scenario) -> float:
    """How much more work a room takes than one of ten pieces: the square of their number."""
    return (len(scenario.pieces) / 10) ** 2


@dataclass
class Best:
    """The best so far of one question.

    Both ``score`` and ``bound`` are standings; that nothing has a higher one than ``bound``
    is proven. ``values`` are those of the variables that all models share, to start from.
    """

    arrangement: Arrangement | None = None
    score: int = NOTHING
    bound: int = FULL
    closed: bool = False
    values: Sequence[int] = ()

    @property
    def proven(self) -> bool:
        """Whether nothing better is left (or nothing at all)."""
        return self.closed or (self.arrangement is not None and self.score >= self.bound)


@dataclass(frozen=True)
class Way:
    """How a guided model is narrowed, so that it is quicker to search: what it finds works.

    With so many walkway rectangles, what is round as its box, pieces at walls alone.
    """

    rectangles: int
    boxed: bool = False
    at_walls: bool = False


@dataclass
class Shared:
    """One scenario's models and cuts, the time and the seed; they carry over between questions.

    The pieces are taken in canonical order, so that the order of the file decides nothing;
    ``Scenario.listed`` puts an arrangement back into that order.
    """

    scenario: Scenario
    budget: Budget
    seed: int = 0
    heard: Callable[[Best], None] = lambda _: None
    cuts: list[Cut] = field(default_factory=list)
    build_seconds: float = math.inf  # what building a model took on this machine at its quickest
    _guided: dict[Way, Model] = field(default_factory=dict, init=False)

    def __post_init__(self) -> None:
        self.scenario = self.scenario.in_canonical_order
        self._cutter = Cutter(self.scenario, lambda: self.budget.over)
        self._empty = empty_floor(self.scenario)

    @cached_property
    def open_model(self) -> Model:
        """The model without walkways; every cut found so far is in it."""
        return self._built()

    @property
    def shapes(self) -> tuple[bool, ...]:
        """Whether to take what is round as its box: first so, which is much less to search."""
        places = self.open_model.ground.places.values()
        return (True, False) if any(place.is_round for place in places) else (False,)

    def guided_with(self, rectangles: int = RECTANGLES, *, boxed: bool = False) -> Model:
        """The model with so many walkways as rectangles; built when first asked for.

        ``boxed`` takes what is round as its box: what it finds works, but there may be more.
        """
        way = Way(rectangles, boxed=boxed)
        if way not in self._guided:
            self._guided[way] = self._built(rectangles, boxed=boxed)
        return self._guided[way]

    def _built(self, rectangles: int | None = None, *, boxed: bool = False) -> Model:
        """A model, without walkways or with so many."""
        watch = Budget()
        model = Model(self.scenario)
        if rectangles is not None:
            add_walkways(model, rectangles)
        model.finish(boxed=boxed)
        # The first one built finds nothing remembered of the room, and takes far longer.
        self.build_seconds = min(self.build_seconds, watch.elapsed)
        return model

    def unreached(self, scene: Scene) -> list[Goal]:
        """The goals that no walkway reaches."""
        walk = walk_of(scene, self._empty)
        return [g for g in goals(scene) if not walk.reaches(g)]

    def cuts_for(self, scene: Scene, missed: Sequence[Goal]) -> list[Cut]:
        """Cuts for the first few causes why goals are out of reach."""
        made: list[Cut] = []
        for goal in missed:
            if self.budget.over:
                break
            cut = self._cutter.cut(scene, goal, self.seed)
            if not any(known.pieces <= cut.pieces for known in made):
                made.append(cut)
            if len(made) == CAUSES:
                break
        return made

    def blocked(self, scene: Scene) -> list[Cut]:
        """Cuts for what no walkway reaches in a scene; none if everything can be walked to."""
        return self.cuts_for(scene, self.unreached(scene))

    def keep(self, cuts: Sequence[Cut]) -> None:
        """Put cuts into the model that later questions start from."""
        for cut in cuts:
            if cut not in self.cuts:
                self.cuts.append(cut)
                cut.add_to(self.open_model)


log = logging.getLogger(__name__)

Side = typing.Literal["improving", "bounding"]
SIDES: tuple[Side, ...] = ("improving", "bounding")


def never_refused(breaches: Iterable[Breach]) -> None:
    """DisagreementError if the judge found a must broken that the models keep."""
    seen_to = {rule.id for rule in RULES if not rule.in_model}
    refused = [breach.sentence for breach in breaches if breach.rule not in seen_to]
    if refused:
        raise DisagreementError("the judge refuses what the model allows: " + "; ".join(refused))


class Question:
    """What both sides share: the models of the question, the best, what was found.

    ``start`` is the best of another question, to set out from. ``near`` is the last
    arrangement of the bounding side that cannot be walked, and is worth more than the best:
    something like it might do. ``demanded`` are the levels that claims have to reach, as if
    these wishes were musts. A ``best`` without an arrangement has the score to surpass.

    During a step each side reads ``best`` as it was when the step began, and hands
    in what it finds; ``merge_step`` takes it all in, in an order that is always the same.
    """

    def __init__(
        self,
        search: Shared,
        best: Best,
        excluded: Sequence[Arrangement],
        held: Key | None,
        start: Best | None = None,
        demanded: Mapping[str, int] | None = None,
    ) -> None:
        self.search = search
        self.best = best
        self.start = start
        self.closed = False
        self._excluded = excluded
        self._held = held
        self._demanded = demanded or {}
        self._surpass = best.score if best.arrangement is None else NOTHING
        self._found: dict[Side, list[Best]] = {side: [] for side in SIDES}
        self._cuts: dict[Side, list[Cut]] = {side: [] for side in SIDES}
        self._shown: list[Best] = []
        self._bound = best.bound
        self.near: Answer | None = None
        self._near: Answer | None = None

    @property
    def over(self) -> bool:
        """Whether there is nothing left to do: the time is up, or the question closed."""
        return self.closed or self.search.budget.over

    @property
    def proven_bound(self) -> int:
        """What the bounding side has proven, within its step too."""
        return self._bound

    def model(self, base: Model) -> Model:
        """A copy of a model for this question alone."""
        model = base.copy()
        set_apart(model, self._excluded)
        if self._held is not None:
            hold_to(model, self._held)
        for claim, level in self._demanded.items():
            model.one_of([model.levels[claim][level - 1]])
        model.must(model.points <= self.best.bound)
        if self._surpass > NOTHING:
            model.must(model.points > self._surpass)
        return model

    def hand_in(self, side: Side, answer: Answer) -> int:
        """Offer an arrangement; returns its standing; ``NOTHING`` if it cannot be walked.

        Heard of at once, kept at the settling.
        """
        if answer.arrangement is None:
            return NOTHING
        verdict = judge(self.search.scenario, answer.arrangement, gaps=False)
        never_refused(verdict.breaches)
        if not verdict.works:
            return NOTHING
        found = Best(answer.arrangement, verdict.standing, self._bound, values=answer.values)
        self._found[side].append(found)
        self._shown.append(found)
        if verdict.standing > self.best.score:
            self.search.heard(found)
        return verdict.standing

    def seen(self, side: Side) -> Best:
        """The best that one side knows of: that of the last step, or its own since then."""
        return max([self.best, *self._found[side]], key=lambda found: found.score)

    def restate(self, side: Side, values: Sequence[int]) -> None:
        """Better values to start from, for the arrangement that side handed in last."""
        self._found[side][-1].values = values

    def found(self, side: Side) -> bool:
        """Whether that side has handed in anything during this step."""
        return bool(self._found[side])

    def drop(self, side: Side) -> None:
        """Take no notice of what that side handed in during this step."""
        self._found[side].clear()

    def cuts_for(self, side: Side, arrangement: Arrangement) -> list[Cut]:
        """Cuts for what is out of reach; none if everything can be walked to."""
        scene = Scene(self.search.scenario, arrangement)
        cuts = self.search.blocked(scene)
        self._cuts[side] += cuts
        return cuts

    def come_near(self, answer: Answer) -> None:
        """Offer what cannot be walked as something to set out from; by the bounding side."""
        if answer.points > self.best.score:
            self._near = answer

    def lower(self, bound: int) -> None:
        """Nothing scores more than ``bound``; said by the bounding side alone."""
        self._bound = min(self._bound, bound)

    def close(self) -> None:
        """Nothing better than what the bounding side has is left; ends both steps.

        What the improving side brings in this step is dropped: whether it was in time
        would depend on the machine.
        """
        self.closed = True

    def merge_step(self) -> None:
        """Take in what the step brought."""
        best = self.best
        for side in SIDES:
            if not (self.closed and side == "improving"):
                for found in self._found[side]:
                    if found.score > best.score:
                        best.arrangement, best.score = found.arrangement, found.score
                        best.values = found.values
                self.search.keep(self._cuts[side])
            self._found[side].clear()
            self._cuts[side].clear()
        self.near, self._near = self._near, None
        best.bound = max(self._bound, best.score)
        best.closed = self.closed
        log.debug("score %s bound %s cuts %s", best.score, best.bound, len(self.search.cuts))
        self.search.heard(best)

    def lose_nothing(self) -> None:
        """The best of all that was handed in, also what a step dropped.

        For a search that ran out of time: it depends on the machine in any case.
        """
        for found in self._shown:
            if found.score > self.best.score:
                self.best.arrangement, self.best.score = found.arrangement, found.score
                self.best.values = found.values
