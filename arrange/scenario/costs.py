"""Reads `[costs]`: what changes cost the person, and what must not be touched."""

from __future__ import annotations

from arrange.data.costs import OwnCosts
from arrange.data.piece import Piece
from arrange.data.room import Room
from arrange.scenario.faults import Broken, shown
from arrange.scenario.table import Table
from arrange.whatif.give.costs import usual

HIGHEST = 1000
WALKWAY = "walkway"
NEVER = "a whole number from 0 to 1000 is needed, or false for never"


def read_costs(top: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken) -> OwnCosts:
    """The person's costs; none where the table is not there or cannot be read."""
    value = top.raw("costs")
    if value is None:
        return OwnCosts()
    table = top.table(value, top.at("costs"))
    if table is None:
        return OwnCosts()
    values = tuple((key, _cost(table, key)) for key in usual() if table.has(key))
    untouchable = _untouchable(table, room, pieces, lost)
    table.finish()
    return OwnCosts(values, untouchable)


def _cost(table: Table, key: str) -> int | None:
    value = table.raw(key)
    if value is False:
        return None
    if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= HIGHEST:
        return value
    table.fault(key, f"{shown(value)} given", NEVER)
    return None


def _untouchable(
    table: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken
) -> tuple[str, ...]:
    value = table.raw("untouchable")
    if value is None:
        return ()
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list) or not all(isinstance(n, str) for n in names):
        table.fault("untouchable", f"{shown(value)} given", 'names are needed, such as ["bed"]')
        return ()
    known = touchable(room, pieces)
    folded = {name.casefold(): name for name in known}
    found = []
    for name in names:
        if name.strip().casefold() in folded:
            found.append(folded[name.strip().casefold()])
        elif not lost.excuses(name):
            table.faults.unknown(table.at("untouchable"), name, known, "the name")
    return tuple(dict.fromkeys(found))


def touchable(room: Room, pieces: tuple[Piece, ...]) -> tuple[str, ...]:
    """Everything that can be named as not to be touched, pieces first."""
    names = [name for piece in pieces for name in (piece.name, piece.model)]
    names += [d.name for d in room.doors] + [w.name for w in room.windows]
    names += [f.name for f in room.fixtures]
    return tuple(dict.fromkeys([*names, WALKWAY]))
