"""Sets of things that give, from the cheapest: which make sense, which are the same."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Hashable, Iterator, Sequence

from arrange.data.change import Change, Drop, Loosen
from arrange.data.giving import Priced
from arrange.data.scenario import Scenario

Chosen = tuple[Priced, ...]


def by_cost(offers: Sequence[Priced], most: int) -> Iterator[Chosen]:
    """Every set of 1 to ``most`` of the offers, cheapest first; ``offers`` cheapest first.

    Ties come in a fixed order. Sets of which one part makes another idle are left out.
    """
    heap: list[tuple[int, int, tuple[int, ...]]] = []

    def push(numbers: tuple[int, ...]) -> None:
        cost = sum(offers[i].cost for i in numbers)
        heapq.heappush(heap, (cost, len(numbers), numbers))

    if offers and most > 0:
        push((0,))
    while heap:
        _, count, numbers = heapq.heappop(heap)
        last = numbers[-1]
        if last + 1 < len(offers):
            push((*numbers[:-1], last + 1))
            if count < most:
                push((*numbers, last + 1))
        chosen = tuple(offers[i] for i in numbers)
        if not _idle(chosen):
            yield chosen


def _idle(chosen: Chosen) -> bool:
    """Whether one of a set gives nothing beside another."""
    return any(
        one is not other and (one.thing == other.thing or within(one, other))
        for one in chosen
        for other in chosen
    )


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
