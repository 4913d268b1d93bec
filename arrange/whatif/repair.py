"""What would have to give: the cheapest few different changes that make it work.

Sets of changes are grown from the cheapest. Each is asked about (musts only, answers are
remembered) unless a proof is there already that it cannot work, and then grown by what
that proof leaves open. So the first that works is the cheapest of all, the next one the
cheapest of those that differ from it. Every arrangement shown has passed the judge.

Whatever the efforts are, leaving out what the room is for is never the first proposal where
another is found, and never comes before another way with no more changes: where it works,
sets that keep the piece are asked first, those as small and then, for the first, all others.

Where none is found in the time, something that helps is found from above: all pieces are
left out, and then taken back in, the dearest first, as long as an arrangement is found.
The same again with all that can give short of that. The cheaper of the two is not proven
cheapest: a question without an answer in its time counts as a no.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Collection, Hashable, Iterable, Sequence

from arrange.budget import (
    BEST_REPAIR,
    BEST_REPAIRS,
    ENOUGH_QUESTION,
    ENOUGH_RESERVE,
    REPAIR_QUESTION,
)
from arrange.data.arrangement import Arrangement
from arrange.data.change import changed
from arrange.data.conflict import Conflict
from arrange.data.repair import Relaxation, Repair, Repairs
from arrange.data.result import FULL, Suggestion
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.rules.selectors import purpose
from arrange.solver.feasibility import FeasibilityOracle
from arrange.suggesting import suggest
from arrange.whatif.nogoods import Alike, Chosen, Nogoods, cost_of, covers, in_order, more, within
from arrange.whatif.requirements import relaxations


def irreducible(
    scenario: Scenario, oracle: FeasibilityOracle, offers: Sequence[Relaxation]
) -> tuple[Chosen, Arrangement] | None:
    """A set that works, with an arrangement of it; None if none is found.

    Nothing of it could be taken back as far as the time went.
    """
    tries = _Tries(scenario, oracle)
    most = _most(offers)
    tries.taken_back(one for one in most if one.drops)
    tries.taken_back(one for one in most if not one.drops)
    best = tries.best()
    for one in () if best is None else best[0]:
        tries.less_of(one, offers)
    return tries.best()


class _Tries:
    """Sets tried, and those found to work with their arrangements."""

    def __init__(self, scenario: Scenario, oracle: FeasibilityOracle) -> None:
        self.scenario, self.oracle = scenario, oracle
        self.end = oracle.left * ENOUGH_RESERVE
        self.known: list[tuple[Chosen, Arrangement]] = []

    def best(self) -> tuple[Chosen, Arrangement] | None:
        """The cheapest found so far that keeps what the room is for, else the cheapest."""
        kept = [one for one in self.known if not gives_up(self.scenario, one[0])]
        return min(kept or self.known, key=_cost, default=None)

    def works(self, some: Iterable[Relaxation]) -> bool:
        """Whether an arrangement is found soon."""
        chosen = _plain(some)
        after = changed(self.scenario, in_order(chosen))
        seconds = self.oracle.budget.allow(ENOUGH_QUESTION, keep=self.end)
        if not after.pieces or seconds <= 0:
            return False
        arrangement = self.oracle.decide(after, seconds=seconds).arrangement
        if arrangement is not None:
            self.known.append((chosen, arrangement))
        return arrangement is not None

    def taken_back(self, start: Iterable[Relaxation]) -> None:
        """Ever smaller parts of what gives: what the room is for, then the dearest, is kept."""
        left = tuple(sorted(start, key=_dearest))
        if not self.works(left) and all(not one.drops for one in left):
            return
        kept = tuple(one for one in left if not gives_up(self.scenario, (one,)))
        if kept != left and self.works(kept):
            left = kept
        size = max(1, len(left) // 2)
        while size:
            at = 0
            while at < len(left):
                fewer = left[:at] + left[at + size :]
                if self.works(fewer):
                    left = fewer
                else:
                    at += size
            size //= 2

    def less_of(self, one: Relaxation, offers: Iterable[Relaxation]) -> None:
        """The least of one thing with which the best set still works."""
        best = self.best()
        lesser = [o for o in offers if o.key == one.key and o.level < one.level]
        for less in sorted(lesser, key=lambda o: o.level):
            rest = best[0] if best is not None else ()
            if self.works(less if other is one else other for other in rest):
                return


def _cost(found: tuple[Chosen, Arrangement]) -> int:
    return cost_of(found[0])


def gives_up(scenario: Scenario, chosen: Chosen) -> bool:
    """Whether a set leaves out what the room is for: its bed, else sofa, table or desk."""
    main = purpose(scenario)
    return main is not None and any(main.name in one.drops for one in chosen)


def _plain(some: Iterable[Relaxation]) -> Chosen:
    """In a fixed order, without what gives nothing beside the rest: a clearance of what goes."""
    chosen = sorted(some, key=lambda one: (one.cost, one.key))
    return tuple(
        one
        for one in chosen
        if not any(other is not one and within(one, other) for other in chosen)
    )


def _most(offers: Iterable[Relaxation]) -> Chosen:
    """Of each thing the offer that gives most."""
    most: dict[tuple[str, ...], Relaxation] = {}
    for one in offers:
        if one.key not in most or one.level > most[one.key].level:
            most[one.key] = one
    return tuple(most.values())


def _dearest(one: Relaxation) -> tuple[int, tuple[str, ...]]:
    return -one.cost, one.key


AT_ONCE = 6  # more changes at once are another plan


def cheapest_repairs(
    scenario: Scenario,
    oracle: FeasibilityOracle,
    conflicts: Sequence[Conflict],
    *,
    untouchable: Collection[str] = (),
    most: int = 3,
) -> Repairs:
    """The cheapest different sets of changes that make an impossible scenario work.

    Parameters
    ----------
    scenario
        One that does not work. If it does, there is nothing to give and no proposal.
    oracle
        Answers and limits the time; about a third of what is left goes into the best
        arrangement of each proposal.
    conflicts
        Conflicts, as far as known; they only spare questions.
    untouchable
        Names of what must stay as it is, as for ``relaxations``.
    most
        How many proposals at most, 1 or more.

    Where none is found in the time, the one proposal is a set found from above: not proven
    cheapest, and it can be larger.

    Two proposals are different unless one touches all that the other touches, and perhaps
    more: the same clearance at another value, the other long side of the same bed, a
    piece left out of which another has a clearance brought down. Among sets that differ
    only in which of several alike pieces gives, the first stands for all.

    Raises
    ------
    ValueError
        If ``most`` is below 1.
    """
    if most < 1:
        raise ValueError(f"most is {most}; ask for 1 or more")
    offers = relaxations(scenario, untouchable)
    search = _Search(Nogoods(scenario, oracle, conflicts, offers))
    works = oracle.decide(scenario, seconds=oracle.budget.allow(REPAIR_QUESTION)).works
    if not works:
        search.run(most)
        if not search.found and not search.closed:
            enough = irreducible(scenario, oracle, offers)
            search.found += [] if enough is None else [(*enough, False)]
    repairs = tuple(
        _shown(scenario, chosen, oracle, len(search.found) - i, known, proven=sure)
        for i, (chosen, known, sure) in enumerate(search.found)
    )
    return Repairs(scenario, repairs, len(offers), AT_ONCE, search.closed, search.undecided, works)


class _Search:
    """Grows sets from the cheapest, each by what the proof that bars it leaves open.

    Whatever works and has all that a barred set has must also have one of the few offers
    that the proof does not cover. So no set is passed over, and most are never met.
    """

    def __init__(self, nogoods: Nogoods) -> None:
        self.nogoods = nogoods
        self.scenario, self.oracle, self.offers = nogoods.scenario, nogoods.oracle, nogoods.offers
        self.alike = Alike(self.scenario)
        self.found: list[tuple[Chosen, Arrangement, bool]] = []
        self.undecided = 0
        self.closed = False
        self._seen: set[Hashable] = set()
        self._heap: list[tuple[int, int, int, Chosen]] = []
        self._numbers = itertools.count()

    def run(self, most: int) -> None:
        """Until ``most`` are found, nothing is left, or the time for it is over."""
        self.nogoods.reserve = end = self.oracle.left * BEST_REPAIRS
        self._push(())
        while self._heap:
            if len(self.found) == most or self.oracle.left <= end:
                return
            *_, chosen = heapq.heappop(self._heap)
            had = len(self.found)
            self._settle(chosen)
            if len(self.found) > had and gives_up(self.scenario, chosen):
                last = self.found.pop()
                self._rather(len(chosen), most, end)
                if not self.found:
                    self._rather(AT_ONCE, 1, end)
                if len(self.found) < most and not self._covered(chosen):
                    self.found.append(last)
        self.closed = not self.undecided

    def _rather(self, changes: int, most: int, end: float) -> None:
        """Find what works with so many changes at most and keeps what the room is for.

        Another is cheaper, so none of these is proven cheapest.
        """
        while len(self.found) < most and self.oracle.left > end:
            small = [
                entry
                for entry in self._heap
                if len(entry[-1]) <= changes and not gives_up(self.scenario, entry[-1])
            ]
            if not small:
                return
            least = min(small)
            self._heap.remove(least)
            heapq.heapify(self._heap)
            had = len(self.found)
            self._settle(least[-1])
            self.found[had:] = [(one, where, False) for one, where, _ in self.found[had:]]

    def _settle(self, chosen: Chosen) -> None:
        """Ask about one set, or know already, and grow it."""
        if self._covered(chosen):
            return
        nogoods = self.nogoods.ways_on(chosen)
        ways = self._ask(chosen) if nogoods is None else nogoods
        if len(chosen) < AT_ONCE:
            for offer in ways:
                grown = more(chosen, offer)
                if grown is not None:
                    self._push(grown)

    def _covered(self, chosen: Chosen) -> bool:
        return any(covers(chosen, earlier) for earlier, _, _ in self.found)

    def _push(self, chosen: Chosen) -> None:
        key = self.alike.key(chosen)
        if key not in self._seen:
            self._seen.add(key)
            entry = (cost_of(chosen), len(chosen), next(self._numbers), chosen)
            heapq.heappush(self._heap, entry)

    def _ask(self, chosen: Chosen) -> Sequence[Relaxation]:
        """Settle one set; returns by what it is to be grown."""
        after = changed(self.scenario, in_order(chosen))
        if not after.pieces:  # an empty room is no answer
            return ()
        seconds = self.oracle.budget.allow(REPAIR_QUESTION, keep=self.nogoods.reserve)
        settled = self.oracle.decide(after, seconds=seconds)
        if settled.arrangement is not None:
            self.found.append((chosen, settled.arrangement, not self.undecided))
            return ()
        if settled.answer == "impossible":
            self.nogoods.learn(chosen)
            return self.nogoods.ways_on(chosen) or ()
        self.undecided += 1
        return self.offers


def _shown(
    scenario: Scenario,
    chosen: Chosen,
    oracle: FeasibilityOracle,
    left: int,
    known: Arrangement,
    *,
    proven: bool,
) -> Repair:
    """A proposal with the best arrangement that the time allows, else the one ``known``.

    ``left`` are to be shown, this one included.
    """
    after = changed(scenario, in_order(chosen))
    budget = oracle.budget
    seconds = budget.allow(BEST_REPAIR, parts=left)
    if seconds > 0:
        result = suggest(
            after, top=1, seconds=seconds, seed=oracle.seed, stop=lambda: budget.stopped
        )
        if result.suggestions:
            return Repair(chosen, after, result.suggestions[0], proven)
    verdict = judge(after, known)
    if not verdict.works:
        raise DisagreementError("the judge refuses: " + verdict.breaches[0].sentence)
    return Repair(chosen, after, Suggestion(1, known, verdict, False, FULL), proven)
