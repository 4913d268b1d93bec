"""What would have to give: the cheapest few different changes that make it work.

Sets of changes are grown from the cheapest. Each is asked about (musts only, answers are
remembered) unless a proof is there already that it cannot work, and then grown by what
that proof leaves open. So the first that works is the cheapest of all, the next one the
cheapest of those that differ from it. Every arrangement shown has passed the judge.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Collection, Hashable, Sequence

from arrange.changing import changed
from arrange.data.arrangement import Arrangement
from arrange.data.clash import Clash
from arrange.data.giving import Given, Priced, Proposal
from arrange.data.result import Suggestion
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.scoring import FULL
from arrange.settling import Settler
from arrange.suggesting import suggest
from arrange.whatif.give.barring import Barred
from arrange.whatif.give.candidates import candidates
from arrange.whatif.give.irreducible import irreducible
from arrange.whatif.give.sets import Alike, Chosen, cost_of, covers, in_order, more

AT_ONCE = 6  # more changes at once are another plan
RESERVE = 0.35  # of the time, for the best arrangement of each proposal
SHARE = 4  # one question takes at most this part of the time left
LONGEST = 6.0  # s for the best arrangement of one proposal


def cheapest_changes(
    scenario: Scenario,
    settler: Settler,
    clashes: Sequence[Clash],
    *,
    untouchable: Collection[str] = (),
    most: int = 3,
) -> Given:
    """The cheapest different sets of changes that make an impossible scenario work.

    Parameters
    ----------
    scenario
        One that does not work. If it does, there is nothing to give and no proposal.
    settler
        Answers and limits the time; about a third of what is left goes into the best
        arrangement of each proposal.
    clashes
        Sets that clash, as far as known; they only spare questions.
    untouchable
        Names of what must stay as it is, as for ``candidates``.
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
    offers = candidates(scenario, untouchable)
    search = _Search(scenario, settler, clashes, offers)
    works = settler.settle(scenario, seconds=settler.left / SHARE).works
    if not works:
        search.run(most)
        if not search.found and not search.closed:
            enough = irreducible(scenario, settler, offers)
            search.found += [] if enough is None else [(*enough, False)]
    proposals = tuple(
        _shown(scenario, chosen, settler, len(search.found) - i, known, proven=sure)
        for i, (chosen, known, sure) in enumerate(search.found)
    )
    return Given(scenario, proposals, len(offers), AT_ONCE, search.closed, search.undecided, works)


class _Search:
    """Grows sets from the cheapest, each by what the proof that bars it leaves open.

    Whatever works and has all that a barred set has must also have one of the few offers
    that the proof does not cover. So no set is passed over, and most are never met.
    """

    def __init__(
        self,
        scenario: Scenario,
        settler: Settler,
        clashes: Sequence[Clash],
        offers: Sequence[Priced],
    ) -> None:
        self.scenario, self.settler, self.offers = scenario, settler, offers
        self.barred = Barred(scenario, settler, clashes, offers)
        self.alike = Alike(scenario)
        self.found: list[tuple[Chosen, Arrangement, bool]] = []
        self.undecided = 0
        self.closed = False
        self._seen: set[Hashable] = set()
        self._heap: list[tuple[int, int, int, Chosen]] = []
        self._numbers = itertools.count()

    def run(self, most: int) -> None:
        """Until ``most`` are found, nothing is left, or the time for it is over."""
        self.barred.reserve = end = self.settler.left * RESERVE
        self._push(())
        while self._heap:
            if len(self.found) == most or self.settler.left <= end:
                return
            *_, chosen = heapq.heappop(self._heap)
            if any(covers(chosen, earlier) for earlier, _, _ in self.found):
                continue
            barred = self.barred.ways_on(chosen)
            ways = self._ask(chosen) if barred is None else barred
            if len(chosen) < AT_ONCE:
                for offer in ways:
                    grown = more(chosen, offer)
                    if grown is not None:
                        self._push(grown)
        self.closed = not self.undecided

    def _push(self, chosen: Chosen) -> None:
        key = self.alike.key(chosen)
        if key not in self._seen:
            self._seen.add(key)
            entry = (cost_of(chosen), len(chosen), next(self._numbers), chosen)
            heapq.heappush(self._heap, entry)

    def _ask(self, chosen: Chosen) -> Sequence[Priced]:
        """Settle one set; returns by what it is to be grown."""
        after = changed(self.scenario, in_order(chosen))
        if not after.pieces:  # an empty room is no answer
            return ()
        left = self.settler.left
        settled = self.settler.settle(after, seconds=min(left / SHARE, left - self.barred.reserve))
        if settled.arrangement is not None:
            self.found.append((chosen, settled.arrangement, not self.undecided))
            return ()
        if settled.answer == "impossible":
            self.barred.learn(chosen)
            return self.barred.ways_on(chosen) or ()
        self.undecided += 1
        return self.offers


def _shown(
    scenario: Scenario,
    chosen: Chosen,
    settler: Settler,
    left: int,
    known: Arrangement,
    *,
    proven: bool,
) -> Proposal:
    """A proposal with the best arrangement that the time allows, else the one ``known``.

    ``left`` are to be shown, this one included.
    """
    after = changed(scenario, in_order(chosen))
    seconds = min(LONGEST, settler.left / left)
    if seconds > 0:
        result = suggest(after, top=1, seconds=seconds, seed=settler.seed, stop=settler.stop)
        if result.suggestions:
            return Proposal(chosen, after, result.suggestions[0], proven)
    verdict = judge(after, known)
    if not verdict.works:
        raise DisagreementError("the judge refuses: " + verdict.breaches[0].sentence)
    return Proposal(chosen, after, Suggestion(1, known, verdict, False, FULL), proven)
