"""The groups that a room falls into: what stands together and is used as one. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.piece import Piece, canonical
from arrange.data.scenario import Scenario
from arrange.rules.selectors import beds


@dataclass(frozen=True, slots=True)
class Group:
    """A main piece and what stands with it, the main piece first."""

    main: Piece
    others: tuple[Piece, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its pieces."""
        return self.main.name, *(piece.name for piece in self.others)


def easy_seats(scenario: Scenario) -> list[Piece]:
    """Seats to rest on: sofas, easy chairs, daybeds; the largest first."""
    found = [
        p for p in scenario.pieces if p.roles & {"sofa", "lounge"} or {"bed", "seat"} <= p.roles
    ]
    return sorted(found, key=lambda piece: (not piece.is_a("sofa"), canonical(piece)))


def groups(scenario: Scenario) -> list[Group]:
    """Beds with their tables, the seating, tables with their chairs, desks with theirs."""
    pieces = sorted(scenario.pieces, key=canonical)
    found = [Group(p, _tied(scenario, p, "bedside")) for p in pieces if p in beds(scenario)]
    found += _seating(scenario)
    at = [p for p in pieces if p.roles & {"dine", "desk"}]
    return [*found, *(Group(p, _tied(scenario, p, "seat")) for p in at)]


def coffee_tables(scenario: Scenario) -> list[Piece]:
    """Coffee tables, the largest first."""
    return sorted((p for p in scenario.pieces if p.is_a("coffee")), key=canonical)


def _seating(scenario: Scenario) -> list[Group]:
    """The easy seats and their tables. A chair to read in stands by itself."""
    seats = [seat for seat in easy_seats(scenario) if not seat.is_a("read")]
    if not seats:
        return []
    side = [table for seat in seats for table in _tied(scenario, seat, "side")]
    return [Group(seats[0], (*seats[1:], *coffee_tables(scenario), *side))]


def _tied(scenario: Scenario, host: Piece, role: str) -> tuple[Piece, ...]:
    return tuple(p for p in scenario.pieces if p.anchor == host.name and p.is_a(role))


def hubs(group: Group) -> Sequence[Piece]:
    """What the others of a group gather round: its main piece, and a coffee table."""
    return [group.main, *[piece for piece in group.others if piece.is_a("coffee")]]
