"""Something that helps, when the cheapest is not found in the time.

Everything gives at once, and then one after another is taken back, the dearest first, as
long as an arrangement is found. What is left is needed, but may be dearer than it must.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from arrange.changing import changed
from arrange.data.giving import Priced
from arrange.data.scenario import Scenario
from arrange.settling import Settler
from arrange.whatif.sets import Chosen, in_order, within

SHARE = 8  # one question takes at most this part of the time left
LONGEST = 3.0  # s, for one question


def irreducible(scenario: Scenario, settler: Settler, offers: Sequence[Priced]) -> Chosen | None:
    """A set that works, of which nothing could be taken back; None if none is found."""

    def works(chosen: Chosen) -> bool:
        after = changed(scenario, in_order(chosen))
        seconds = min(LONGEST, settler.left / SHARE)
        return bool(after.pieces) and settler.settle(after, seconds=seconds).works

    enough = _enough(offers, works_of=works)
    if enough is None:
        return None
    for one in sorted(enough, key=_dearest):
        fewer = tuple(other for other in enough if other is not one)
        if works(fewer):
            enough = fewer
    for one in enough:
        lesser = (o for o in offers if o.thing == one.thing and o.degree < one.degree)
        for less in sorted(lesser, key=lambda o: o.degree):
            milder = tuple(less if other is one else other for other in enough)
            if works(milder):
                enough = milder
                break
    return tuple(sorted(enough, key=lambda one: (one.cost, one.thing)))


def _enough(offers: Sequence[Priced], works_of: Callable[[Chosen], bool]) -> Chosen | None:
    """All that can give short of leaving pieces out; then pieces go, the cheapest first."""
    chosen: Chosen = tuple(_most(o for o in offers if o.thing[0] != "leave out"))
    if works_of(chosen):
        return chosen
    for offer in (o for o in offers if o.thing[0] == "leave out"):
        if any(within(offer, one) for one in chosen):
            continue
        chosen = (*(one for one in chosen if not within(one, offer)), offer)
        if works_of(chosen):
            return chosen
    return None


def _most(offers: Iterable[Priced]) -> list[Priced]:
    """Of each thing the offer that gives most."""
    most: dict[tuple[str, ...], Priced] = {}
    for one in offers:
        if one.thing not in most or one.degree > most[one.thing].degree:
            most[one.thing] = one
    return list(most.values())


def _dearest(one: Priced) -> tuple[int, tuple[str, ...]]:
    return -one.cost, one.thing
