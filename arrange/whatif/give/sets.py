"""Sets of things that give: which make sense, which are the same, which differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from arrange.data.change import Change, Drop, Loosen
from arrange.data.giving import Priced
from arrange.data.scenario import Scenario

Chosen = tuple[Priced, ...]


def more(chosen: Chosen, offer: Priced) -> Chosen | None:
    """A set with an offer more, in place of less of the same thing; in a fixed order.

    None if the offer adds nothing, or makes another one of the set idle.
    """
    rest = tuple(one for one in chosen if one.thing != offer.thing)
    if any(within(offer, one) or within(one, offer) for one in rest):
        return None
    if any(within(offer, one) for one in chosen):
        return None
    grown = (*rest, offer)
    return tuple(sorted(grown, key=lambda one: (one.cost, one.thing, one.degree)))


def cost_of(chosen: Chosen) -> int:
    """What a set costs altogether."""
    return sum(one.cost for one in chosen)


def within(one: Priced, other: Priced) -> bool:
    """Whether ``other`` gives all that ``one`` gives: the same thing as far, or its piece whole."""
    if one.thing == other.thing:
        return one.degree <= other.degree
    if other.thing[0] != "leave out":
        return False
    gone = set(other.names)
    if one.thing[0] == "leave out":
        return set(one.names) <= gone
    if one.thing[0] == "wish":
        return bool((one.touches or frozenset()) & gone)
    return one.thing[0] in ("clearance", "move", "untie", "smaller") and one.names[0] in gone


def covers(chosen: Chosen, earlier: Chosen) -> bool:
    """Whether a set touches all that an earlier one gives: then it is nothing different."""
    return all(
        any(one.like == other.like or within(one, other) for other in chosen) for one in earlier
    )


def in_order(chosen: Chosen) -> tuple[Change, ...]:
    """All changes of a set, in an order in which each finds what it names.

    Wishes go by number, so they are loosened before any is left out with its piece.
    """
    changes = [change for one in chosen for change in one.changes]
    return tuple(sorted(changes, key=lambda c: (not isinstance(c, Loosen), isinstance(c, Drop))))


class Alike:
    """Tells sets apart that differ in more than which of several alike pieces gives."""

    def __init__(self, scenario: Scenario) -> None:
        apart = {name for wish in scenario.wishes for name in (wish.piece, wish.place)}
        apart |= {p.piece for p in (*scenario.held, *scenario.today)}
        apart |= {p.anchor for p in scenario.pieces if p.anchor is not None}
        self._class: dict[str, Hashable] = {
            p.name: (p.name, None) if p.name in apart else (p.model, p.anchor)
            for p in scenario.pieces
        }

    def key(self, chosen: Chosen) -> Hashable:
        """Equal for two sets that are the same up to which alike pieces they concern."""
        parts: dict[tuple[str, ...], list[Hashable]] = {}
        for one in chosen:
            pieces = tuple(name for name in one.names if name in self._class)
            rest = tuple(name for name in one.thing if name not in pieces)
            parts.setdefault(pieces, []).append((rest, one.degree))
        return frozenset(
            Counter(
                (tuple(self._class[name] for name in pieces), frozenset(Counter(done).items()))
                for pieces, done in parts.items()
            ).items()
        )
