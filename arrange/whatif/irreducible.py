"""Something that helps, when the cheapest is not found in the time.

Everything gives at once, and then one after another is taken back, the dearest first, as
long as an arrangement is found. What is left is needed, but may be dearer than it must:
a question that found no answer in its time counts as a no.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.changing import changed
from arrange.data.arrangement import Arrangement
from arrange.data.giving import Priced
from arrange.data.scenario import Scenario
from arrange.settling import Settler
from arrange.whatif.sets import Chosen, in_order, within

RESERVE = 0.4  # of the time, for the best arrangement
SHARE = 8  # one question takes at most this part of the time left
LONGEST = 3.0  # s, for one question


def irreducible(
    scenario: Scenario, settler: Settler, offers: Sequence[Priced]
) -> tuple[Chosen, Arrangement] | None:
    """A set that works, with an arrangement of it; None if none is found.

    Nothing of it could be taken back as far as the time went.
    """
    end = settler.left * RESERVE
    known: list[tuple[Chosen, Arrangement]] = []

    def works(some: Iterable[Priced]) -> bool:
        chosen = _plain(some)
        after = changed(scenario, in_order(chosen))
        seconds = min(LONGEST, settler.left / SHARE, settler.left - end)
        if not after.pieces or seconds <= 0:
            return False
        arrangement = settler.settle(after, seconds=seconds).arrangement
        if arrangement is not None:
            known.append((chosen, arrangement))
        return arrangement is not None

    everything = _most(offers)
    mild = tuple(one for one in everything if one.thing[0] != "leave out")
    enough = mild if works(mild) else everything
    for one in sorted(enough, key=_dearest):
        fewer = tuple(other for other in enough if other is not one)
        if works(fewer):
            enough = fewer
    for one in known[-1][0] if known else ():
        lesser = (o for o in offers if o.thing == one.thing and o.degree < one.degree)
        for less in sorted(lesser, key=lambda o: o.degree):
            milder = tuple(less if other is one else other for other in known[-1][0])
            if works(milder):
                break
    return known[-1] if known else None


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
