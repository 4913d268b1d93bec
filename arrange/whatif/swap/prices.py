"""What changes cost more, or less, as far as prices are given."""

from __future__ import annotations

from collections.abc import Iterable

from arrange.data.change import Add, Change, Drop, Exchange, Reprice
from arrange.data.scenario import Scenario


def price_difference(before: Scenario, after: Scenario, changes: Iterable[Change]) -> float | None:
    """The prices after less those before, over the pieces that a price was given for.

    A piece that was left out counts with what it would have cost; one that is
    owned already costs nothing. None if no price is known of anything changed,
    and for a piece whose price before or after is missing: it is not guessed.
    """
    names: list[str] = []
    for change in changes:
        if isinstance(change, Reprice | Drop | Exchange):
            names.append(change.piece)
        elif isinstance(change, Add):
            names.append(change.new.name)
    found: list[float] = []
    for name in dict.fromkeys(names):
        old, new = _cost(before, name), _cost(after, name)
        if old is None or new is None:
            continue
        found.append(new - old)
    return sum(found) if found and any(found) else None


def _cost(scenario: Scenario, name: str) -> float | None:
    """0 for what is not there or owned; None if nobody said."""
    piece = next((p for p in scenario.pieces if p.name == name), None)
    if piece is None:
        return 0.0
    if piece.price is None:
        return 0.0 if piece.owned else None
    return piece.price
