"""Would this piece do? A quick answer from plans and proofs that earlier answers kept.

Asked in the shop, so what is cheapest to know comes first:

1. *By the judge.* In each kept plan the piece takes its new size where it stands, all else as
   it is; then near by; then in the plans of largest sizes.
2. *By a kept proof.* The largest size that works is proven: a larger piece does not.
3. *By the solver*, in what is left of the time, from the best kept plan: nothing else moves,
   then what is in the way, then everything.

A proof comes before the solver, which could only find the same, later. What none of them
decides is not known yet. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING, Literal

from arrange.budget import Budget, refuse_no_time
from arrange.data.arrangement import Arrangement, Decision
from arrange.data.change import Resize, changed
from arrange.data.kinds import sensible
from arrange.data.result import FULL, NOTHING, Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import DIMENSIONS, Dimension, in_mm, in_steps
from arrange.data.swap import Answer, Plan, Reading
from arrange.judge import breaches, judge, works
from arrange.whatif.move import GRID, resized_in_place, slid
from arrange.whatif.requirements import shrinks
from arrange.whatif.swap import compared, holding, moved

if TYPE_CHECKING:
    from arrange.solver.feasibility import FeasibilityOracle

# How the piece fits; "" where it does not, or is not known to.
How = Literal["", "as it stands", "near by", "others move", "ties give way", "found"]
NEAR = 400  # mm: farther away it is another place, which the solver finds sooner
NEAR_SHARE = 0.15  # of the time left, for places near by in the best plan
ONE_SHARE = 0.4  # of the time left, for a question that another one may answer as well
LEAST = 0.1  # s; less is not worth loading the solver
# Which sides stay, across and up the plan: the middle is tried first.
WAYS = tuple((across, up) for across in (1, 0, 2) for up in (1, 0, 2))


@dataclass(frozen=True, slots=True)
class Limit:
    """``piece`` works with a ``dimension`` of ``size``, as ``arrangement`` shows if it was kept.

    All other sizes as in the file. ``next`` is proven impossible, and so is any larger one
    that was tried; None where that is not proven.
    """

    piece: str
    dimension: Dimension
    size: int
    next: int | None
    arrangement: Arrangement | None = None


@dataclass(frozen=True, slots=True)
class Kept:
    """What earlier answers about this very scenario left: plans by their numbers, and proofs."""

    plans: tuple[tuple[int, Arrangement], ...] = ()
    limits: tuple[Limit, ...] = ()


@dataclass(frozen=True, slots=True)
class Fits:
    """Whether the room works with ``names`` in their new sizes.

    Attributes
    ----------
    answer, how
        Works, and how: in kept plan number ``plan`` as it stands (and so in plans ``also``),
        a little aside in it, if other pieces move, or if the usual ties of ``apart`` give
        way; "found" where no plan was kept to compare with. Impossible, proven; or not decided.
    reading
        The kept plan and the one that works, with what differs; None where there is none.
    limit
        The kept proof that says no.
    aside
        How far the piece goes in that plan beyond what its size does, across and up the plan.
    broken
        What breaks in kept plan number ``plan`` if the piece just takes its size there.
    """

    names: tuple[str, ...]
    before: Scenario
    after: Scenario
    answer: Decision
    how: How = ""
    plan: int = 0
    also: tuple[int, ...] = ()
    reading: Reading | None = None
    limit: Limit | None = None
    aside: tuple[int, int] = (0, 0)
    broken: tuple[Breach, ...] = ()
    apart: tuple[str, ...] = ()
    interrupted: bool = False

    @property
    def was(self) -> Plan | None:
        """The kept plan, judged again."""
        return self.reading.before.plan if self.reading else None

    @property
    def now(self) -> Plan | None:
        """The plan that works."""
        return self.reading.after.plan if self.reading else None


def fits(
    before: Scenario,
    after: Scenario,
    names: Sequence[str],
    kept: Kept,
    *,
    seconds: float,
    seed: int = 0,
    stop: Callable[[], bool] = lambda: False,
) -> Fits:
    """Whether ``after``, which is ``before`` with ``names`` in other sizes, works.

    Parameters
    ----------
    before, after
        The scenario as it is, and with the new sizes.
    names
        The pieces that change.
    kept
        Plans of ``before`` and proofs about it.
    seconds
        For everything. What it leaves open is "not decided", never guessed.
    seed, stop
        As for ``suggest``.

    Raises
    ------
    ValueError
        If ``seconds`` is not above 0.
    DisagreementError
        If two configurations of the solver do not agree: our bug.
    """
    refuse_no_time(seconds)
    return _Asking(before, after, tuple(names), kept, Budget(seconds, stop), seed).answer()


class _Asking:
    """One question."""

    def __init__(
        self,
        before: Scenario,
        after: Scenario,
        names: tuple[str, ...],
        kept: Kept,
        budget: Budget,
        seed: int,
    ) -> None:
        self.before, self.after, self.names, self.kept = before, after, names, kept
        self.budget, self.seed = budget, seed
        self.open = Fits(names, before, after, "not decided")

    def answer(self) -> Fits:
        """The cheapest way to know comes first."""
        found = self._as_it_stands() or self._near_by()
        if found is not None:
            return found
        self.open = self._in_the_way()
        limit = ruled_out(self.before, self.after, self.names, self.kept.limits)
        if limit is not None:
            self.open = replace(self.open, limit=limit)
            if not self.after.usual_ties:
                return replace(self.open, answer="impossible")
        found = self._solved(self._as_at_the_largest())
        return replace(found, interrupted=self.budget.stopped)

    # -- by the judge --------------------------------------------------------
    def _in_place(
        self, arrangement: Arrangement, before: Scenario | None = None
    ) -> Iterator[Arrangement]:
        """The plan with the pieces in their new sizes, one or the other side kept."""
        tried = set()
        was = before or self.before
        for ways in WAYS:
            one = resized_in_place(was, self.after, self.names, arrangement, ways)
            if one is not None and one not in tried:
                tried.add(one)
                yield one

    def _as_at_the_largest(self) -> Fits | None:
        """In a plan that was kept for a largest size, with the piece in its size there."""
        for limit in self.kept.limits:
            if limit.arrangement is None:
                continue
            then = with_size(self.before, limit.piece, limit.dimension, limit.size)
            there = self._best_in_place(limit.arrangement, then)
            if there is not None:
                return self._yes(self._how, self.open.plan, there)
        return None

    def _best_in_place(
        self, arrangement: Arrangement, before: Scenario | None = None
    ) -> Arrangement | None:
        """Of those that work the one with the most points."""
        good = [one for one in self._in_place(arrangement, before) if works(self.after, one)]
        if len(good) < 2:
            return next(iter(good), None)
        return max(good, key=lambda one: judge(self.after, one, gaps=False).standing)

    def _as_it_stands(self) -> Fits | None:
        found = {
            number: there
            for number, plan in self.kept.plans
            if (there := self._best_in_place(plan)) is not None
        }
        if not found:
            return None
        first, *also = found
        told = self._yes("as it stands", first, found[first])
        return replace(told, also=tuple(also))

    def _near_by(self) -> Fits | None:
        """With the piece, and what goes with it, a little aside in the best plan."""
        if len(self.names) != 1 or self.after.piece(self.names[0]).anchor is not None:
            return None
        (name,) = self.names
        budget = self.budget.share(NEAR_SHARE)
        best = self.kept.plans[:1]
        places = [(number, one) for number, plan in best for one in self._in_place(plan)]
        for dx, dy in _aside():
            for number, there in places:
                if budget.over:
                    return None
                if not _along(there, name, dx, dy):
                    continue
                aside = slid(self.after, there, name, dx, dy)
                if works(self.after, aside):
                    return replace(self._yes("near by", number, aside), aside=(dx, dy))
        return None

    def _in_the_way(self) -> Fits:
        """The first plan, and what breaks in it with the middle of the piece where it was."""
        for number, plan in self.kept.plans[:1]:
            there = next(self._in_place(plan), None)
            broken = breaches(self.after, there) if there else ()
            return replace(self.open, plan=number, broken=broken)
        return self.open

    # -- by the solver -------------------------------------------------------
    def _solved(self, known: Fits | None) -> Fits:
        """From the best kept plan; ``known`` works, but may move more than need be."""
        if self.budget.left < LEAST:
            return known or self.open
        # Loaded late: most answers do without.
        from arrange.solver.feasibility import FeasibilityOracle  # noqa: PLC0415

        oracle = FeasibilityOracle(self.budget.left, self.seed, lambda: self.budget.stopped)
        if self.open.limit is not None:
            return known or self._without_ties(oracle)
        few = self._with_few_moves(oracle)
        if few or known:
            return max(filter(None, (few, known)), key=_standing)
        found = oracle.decide(self.after, sure=True)
        if found.arrangement is not None:
            return self._moving(self.after, found.arrangement)
        if found.answer == "impossible":
            return self._without_ties(oracle)
        return self.open

    def _with_few_moves(self, oracle: FeasibilityOracle) -> Fits | None:
        """The kept plan with all held but a few pieces; None if that is not found soon."""
        for freed in self._freed():
            case = self._holding_all_but(freed)
            found = oracle.decide(case, seconds=oracle.left * ONE_SHARE)
            if found.arrangement is not None:
                return self._moving(case, found.arrangement)
        return None

    def _without_ties(self, oracle: FeasibilityOracle) -> Fits:
        """Only a tie that somebody asked for may make a room impossible."""
        if not self.after.usual_ties:
            return replace(self.open, answer="impossible")
        case = self.after.apart(self.after.usual_ties)
        found = oracle.decide(case, sure=True)
        if found.arrangement is None:
            return replace(self.open, answer=found.answer)
        from arrange.solver.feasibility import with_ties_that_fit  # noqa: PLC0415

        fitting = with_ties_that_fit(self.after, oracle)
        there = oracle.decide(fitting).arrangement or found.arrangement
        self.after = fitting if works(fitting, there) else case
        gone = tuple(p.name for p in self.open.after.pieces if p.tied_by_kind)
        gone = tuple(name for name in gone if self.after.piece(name).anchor is None)
        return replace(self._yes("ties give way", self.open.plan, there), apart=gone)

    def _freed(self) -> Iterator[frozenset[str]]:
        """Which pieces may move beside those asked about: none, then what is in the way."""
        if not self.open.plan:
            return
        own = self._with_company(self.names)
        yield own
        blamed = {name for breach in self.open.broken for name in breach.subjects}
        more = self._with_company([p.name for p in self.after.pieces if p.name in blamed | own])
        if own < more < {p.name for p in self.after.pieces}:
            yield more

    def _with_company(self, names: Sequence[str]) -> frozenset[str]:
        """These pieces, what they are tied to, and all that is tied to that."""
        roots = {self.after.root(name) for name in names}
        return frozenset(p.name for p in self.after.pieces if self.after.root(p.name) in roots)

    def _holding_all_but(self, freed: frozenset[str]) -> Scenario:
        plan = dict(self.kept.plans)[self.open.plan]
        return holding(self.after, [p for p in plan.placements if p.piece not in freed])

    def _moving(self, case: Scenario, found: Arrangement) -> Fits:
        return self._yes(self._how, self.open.plan, self._better(case, found))

    @property
    def _how(self) -> How:
        return "others move" if self.open.plan else "found"

    def _better(self, case: Scenario, found: Arrangement) -> Arrangement:
        """One with more points, if the time left brings one; any will do for the solver."""
        from arrange.solver.search import Search  # noqa: PLC0415

        standing = judge(self.after, found, gaps=False).standing
        best = Search(case, self.budget, self.seed).best()
        if best.arrangement is None:
            return found
        other = self.after.listed(best.arrangement)
        verdict = judge(self.after, other, gaps=False)
        return other if verdict.works and verdict.standing > standing else found

    # -- what is said --------------------------------------------------------
    def _yes(self, how: How, number: int, arrangement: Arrangement) -> Fits:
        """It works; beside the kept plan of that number, if there is one."""
        verdict = judge(self.after, arrangement, gaps=False)
        now = Plan(self.after, arrangement, verdict, FULL)
        reading = Reading(Answer("not decided"), Answer("works", now))
        if number:
            old = dict(self.kept.plans)[number]
            was = Plan(self.before, old, judge(self.before, old, gaps=False), FULL)
            reading = Reading(
                Answer("works", was),
                reading.after,
                compared(was.verdict, verdict),
                moved(was, now),
            )
        return replace(
            self.open, after=self.after, answer="works", how=how, plan=number, reading=reading
        )


def _standing(found: Fits) -> int:
    return found.now.standing if found.now else NOTHING


def _aside() -> Iterator[tuple[int, int]]:
    """Places on a grid round the old one, from near to far."""
    steps = range(-NEAR, NEAR + 1, GRID)
    spots = [(x, y) for x in steps for y in steps if x or y]
    return iter(sorted(spots, key=lambda s: (s[0] ** 2 + s[1] ** 2, s)))


def _along(arrangement: Arrangement, name: str, dx: int, dy: int) -> bool:
    """Whether a step leaves the piece at its wall; any step does without one."""
    place = arrangement.of(name)
    if place.wall is None:
        return True
    return not (dy if place.facing in ("up", "down") else dx)


# -- by a kept proof ---------------------------------------------------------
def ruled_out(
    before: Scenario, after: Scenario, names: Sequence[str], limits: Sequence[Limit]
) -> Limit | None:
    """The proof that ``after`` is impossible, usual ties kept; None if none of them says so.

    A proof is about one dimension, all others as in ``before``. It says so of ``after`` if
    that would still work with each of the others brought back to what it was: then the
    proven size would work.
    """
    for limit in limits:
        if limit.piece not in names or limit.next is None:
            continue
        own: int = getattr(after.piece(limit.piece), limit.dimension)
        if own >= limit.next and _leads_to(before, after, names, limit, limit.next):
            return limit
    return None


def _leads_to(
    before: Scenario, after: Scenario, names: Sequence[str], limit: Limit, fails: int
) -> bool:
    """Whether ``after`` working means that a size proven impossible works, ``fails`` or more."""
    now = after
    for name, dimension in product(names, DIMENSIONS):
        was: int = getattr(before.piece(name), dimension)
        if (name, dimension) == (limit.piece, limit.dimension):
            continue
        if getattr(now.piece(name), dimension) != was:
            smaller = _shrunk(now, name, dimension, was)
            if smaller is None:
                return False
            now = smaller
    own: int = getattr(now.piece(limit.piece), limit.dimension)
    if not _tried(before, limit, own):
        smaller = _shrunk(now, limit.piece, limit.dimension, fails)
        if smaller is None:
            return False
        now, own = smaller, fails
    return now.mark == with_size(before, limit.piece, limit.dimension, own).mark


def _tried(before: Scenario, limit: Limit, own: int) -> bool:
    """Whether that very size is among those that the proof is about."""
    piece, unit = before.piece(limit.piece), before.unit
    most = max(getattr(piece, limit.dimension), sensible(piece.kind, limit.dimension))
    return own <= most and in_mm(in_steps(own, unit), unit) == own


def _shrunk(now: Scenario, name: str, dimension: Dimension, to: int) -> Scenario | None:
    """The piece smaller, where that is sure to work if the larger one does; else None."""
    if to > getattr(now.piece(name), dimension) or not shrinks(now, name, dimension):
        return None
    smaller = with_size(now, name, dimension, to)
    return smaller if shrinks(smaller, name, dimension) else None


def with_size(scenario: Scenario, name: str, dimension: Dimension, mm: int) -> Scenario:
    """The scenario with one dimension of one piece changed."""
    return changed(scenario, [Resize(name, **{dimension: mm})])
