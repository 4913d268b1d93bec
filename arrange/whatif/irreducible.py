"""Something that helps, when the cheapest is not found in the time.

Everything gives at once, and then one after another is taken back, the dearest first, as
long as an arrangement is found. What is left is needed, but may be dearer than it must.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

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

    everything = _most(offers)
    mild = tuple(one for one in everything if one.thing[0] != "leave out")
    enough = mild if works(mild) else everything
    for one in sorted(enough, key=_dearest):
        fewer = tuple(other for other in enough if other is not one)
        if works(_plain(fewer)):
            enough = fewer
    enough = _plain(enough)
    if not works(enough):  # not a single piece found a place
        return None
    for one in enough:
        lesser = (o for o in offers if o.thing == one.thing and o.degree < one.degree)
        for less in sorted(lesser, key=lambda o: o.degree):
            milder = tuple(less if other is one else other for other in enough)
            if works(milder):
                enough = milder
                break
    return tuple(sorted(enough, key=lambda one: (one.cost, one.thing)))


def _plain(chosen: Chosen) -> Chosen:
    """Without what gives nothing beside the rest: a clearance of a piece that is left out."""
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
