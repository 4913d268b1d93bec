"""Reads a piece's own clearances over those of its kind. Lengths in mm.

``clearance.front = { least = 80 }`` changes the clearances on that side, or adds
one; the key may also be a clearance's name. ``clearance.front = false`` drops it.
"""

from __future__ import annotations

from dataclasses import replace

from arrange.data.piece import SIDES, Clearance
from arrange.scenario.kinds import Kind
from arrange.scenario.table import Table
from arrange.words import length

DEEPEST = 5000
DEFAULT_LEAST = 600


def read_clearances(piece: Table, kind: Kind) -> tuple[Clearance, ...]:
    """The kind's clearances with the person's changes, each marked as overridden."""
    value = piece.raw("clearance")
    if value is None:
        return kind.clearances
    table = piece.table(value, piece.at("clearance"))
    if table is None:
        return kind.clearances
    found = list(kind.clearances)
    for key in table.data:
        _change(table, key, found)
    return tuple(found)


def _change(table: Table, key: str, found: list[Clearance]) -> None:
    meant = _meant(key, found)
    value = table.raw(key)
    if not meant and key not in SIDES:
        known = [*SIDES, *(c.name for c in found)]
        table.faults.unknown(table.at(key), key, known, "the clearance")
    elif value is False:
        for clearance in meant:
            found.remove(clearance)
    else:
        inner = table.table(value, table.at(key))
        if inner is None:
            return
        for clearance in meant or [_new(key)]:
            changed = _changed(inner, clearance)
            if clearance in found:
                found[found.index(clearance)] = changed
            else:
                found.append(changed)
        inner.finish()


def _meant(key: str, found: list[Clearance]) -> list[Clearance]:
    """By name, else of that side alone, else of that side among others."""
    return (
        [c for c in found if c.name == key]
        or [c for c in found if c.sides == (key,)]
        or [c for c in found if key in c.sides]
    )


def _new(side: str) -> Clearance:
    sides = tuple(s for s in SIDES if s == side)
    return Clearance(side, sides, DEFAULT_LEAST, DEFAULT_LEAST, "as you asked")


def _changed(table: Table, old: Clearance) -> Clearance:
    least = table.mm("least", old.least, 0, DEEPEST)
    comfortable = table.mm("comfortable", max(least, old.comfortable), 0, DEEPEST)
    if comfortable < least:
        given = f"{length(comfortable, table.unit)} is below the least"
        allowed = f"at least {length(least, table.unit)} is needed"
        table.fault("comfortable", given, allowed)
    walk = table.flag("walkway") if table.has("walkway") else old.walk
    return replace(
        old,
        least=least,
        comfortable=comfortable,
        walk=walk,
        purpose=table.text("purpose", old.purpose),
        source="yours",
        comfortable_source="",
        status="yours",
        overridden=True,
    )
