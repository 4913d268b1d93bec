"""Something that helps, when the cheapest is not found in the time.

All pieces are left out, and then taken back in, the dearest first, as long as an
arrangement is found. The same again with all that can give short of that. The cheaper of
the two is not proven cheapest: a question without an answer in its time counts as a no.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.changing import changed
from arrange.data.arrangement import Arrangement
from arrange.data.giving import Priced
from arrange.data.scenario import Scenario
from arrange.settling import Settler
from arrange.whatif.give.sets import Chosen, cost_of, in_order, within

RESERVE = 0.4  # of the time, for the best arrangement
SHARE = 8  # one question takes at most this part of the time left
LONGEST = 3.0  # s, for one question


def irreducible(
    scenario: Scenario, settler: Settler, offers: Sequence[Priced]
) -> tuple[Chosen, Arrangement] | None:
    """A set that works, with an arrangement of it; None if none is found.

    Nothing of it could be taken back as far as the time went.
    """
    tries = _Tries(scenario, settler)
    most = _most(offers)
    tries.taken_back(one for one in most if one.thing[0] == "leave out")
    tries.taken_back(one for one in most if one.thing[0] != "leave out")
    best = tries.best()
    for one in () if best is None else best[0]:
        tries.less_of(one, offers)
    return tries.best()


class _Tries:
    """Sets tried, and those found to work with their arrangements."""

    def __init__(self, scenario: Scenario, settler: Settler) -> None:
        self.scenario, self.settler = scenario, settler
        self.end = settler.left * RESERVE
        self.known: list[tuple[Chosen, Arrangement]] = []

    def best(self) -> tuple[Chosen, Arrangement] | None:
        """The cheapest found so far."""
        return min(self.known, key=_cost, default=None)

    def works(self, some: Iterable[Priced]) -> bool:
        """Whether an arrangement is found soon."""
        chosen = _plain(some)
        after = changed(self.scenario, in_order(chosen))
        left = self.settler.left
        seconds = min(LONGEST, left / SHARE, left - self.end)
        if not after.pieces or seconds <= 0:
            return False
        arrangement = self.settler.settle(after, seconds=seconds).arrangement
        if arrangement is not None:
            self.known.append((chosen, arrangement))
        return arrangement is not None

    def taken_back(self, start: Iterable[Priced]) -> None:
        """Ever smaller parts of what gives, the dearest first."""
        left = tuple(sorted(start, key=_dearest))
        if not self.works(left) and all(one.thing[0] != "leave out" for one in left):
            return
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

    def less_of(self, one: Priced, offers: Iterable[Priced]) -> None:
        """The least of one thing with which the best set still works."""
        best = self.best()
        lesser = [o for o in offers if o.thing == one.thing and o.degree < one.degree]
        for less in sorted(lesser, key=lambda o: o.degree):
            rest = best[0] if best is not None else ()
            if self.works(less if other is one else other for other in rest):
                return


def _cost(found: tuple[Chosen, Arrangement]) -> int:
    return cost_of(found[0])


def _plain(some: Iterable[Priced]) -> Chosen:
    """In a fixed order, without what gives nothing beside the rest: a clearance of what goes."""
    chosen = sorted(some, key=lambda one: (one.cost, one.thing))
    return tuple(
        one
        for one in chosen
        if not any(other is not one and within(one, other) for other in chosen)
    )


def _most(offers: Iterable[Priced]) -> Chosen:
    """Of each thing the offer that gives most."""
    most: dict[tuple[str, ...], Priced] = {}
    for one in offers:
        if one.thing not in most or one.degree > most[one.thing].degree:
            most[one.thing] = one
    return tuple(most.values())


def _dearest(one: Priced) -> tuple[int, tuple[str, ...]]:
    return -one.cost, one.thing
