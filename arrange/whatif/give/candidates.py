"""Everything that could give in a scenario, with what it costs. Lengths in mm.

What is about safety is not among it: the escape window and the way to it (so the
walkway is never narrowed in a room that has one), cots off windows, the distance from
what burns, headroom, and the floor beside cots and bunks. A piece turned another way
needs no change: all turns are tried anyway, and a kept piece that may move may turn.
"""

from __future__ import annotations

from collections.abc import Collection

from arrange.data.giving import Priced
from arrange.data.scenario import Scenario
from arrange.whatif.give.piece_offers import PieceOffers
from arrange.whatif.give.room_offers import RoomOffers


def candidates(scenario: Scenario, untouchable: Collection[str] = ()) -> list[Priced]:
    """Everything that could give, cheapest first.

    ``untouchable`` names pieces (also by the name given to several), doors, windows,
    fixtures or "walkway"; what the scenario itself says must not be touched is added.
    A piece that is to stay where it stands may only be let move. What would give less
    of a thing and cost more than another offer is left out.
    """
    spared = frozenset(untouchable) | set(scenario.costs.untouchable)
    offers = [*PieceOffers(scenario, spared).all(), *RoomOffers(scenario, spared).all()]
    offers = [
        one
        for one in offers
        if not any(
            o.thing == one.thing and o.degree > one.degree and o.cost < one.cost for o in offers
        )
    ]
    return sorted(offers, key=lambda one: (one.cost, one.thing, one.degree))
