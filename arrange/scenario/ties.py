"""Ties pieces to what they stand beside: a coffee table to its sofa. Lengths in mm."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from arrange.data.piece import Piece, Slot
from arrange.scenario.faults import Broken
from arrange.scenario.kinds import Kind, Place, Tie
from arrange.scenario.pieces import Entry

# Where a piece stands beside another one that its kind has no places for.
BESIDE = (
    Place(Slot("left", along=0, gap=50)),
    Place(Slot("right", along=0, gap=50)),
)


def tie(entries: list[Entry], lost: Broken) -> tuple[Piece, ...]:
    """All pieces in the order of the file, each with its anchor and slots if it has one.

    Without a word from the person a piece goes to the first kind of its table
    that is in the room and has a place left; alike anchors take turns. ``lost``
    is what could not be read: an anchor among it is no fault.
    """
    flat = [(e, piece) for e in entries for piece in e.pieces]
    pieces = [piece for _, piece in flat]
    taken: Counter[tuple[str, str]] = Counter()
    tied = []
    for entry, piece in flat:
        if entry.beside:
            found = _asked(entry, piece, pieces, taken, lost)
        elif entry.free:
            found = None
        else:
            found = _usual(entry.kind, piece, pieces, taken)
        if found is None:
            tied.append(piece)
            continue
        anchor, places = found
        taken[anchor.name, piece.kind] += 1
        slots = tuple(place.beside(anchor, piece) for place in places)
        tied.append(replace(piece, anchor=anchor.name, slots=slots))
    _check_circles(entries, tied)
    return tuple(tied)


def _usual(
    kind: Kind, piece: Piece, pieces: list[Piece], taken: Counter[tuple[str, str]]
) -> tuple[Piece, tuple[Place, ...]] | None:
    for tie_ in kind.ties:
        hosts = [p for p in pieces if p.kind in tie_.to and p.name != piece.name]
        free = [p for p in hosts if taken[p.name, piece.kind] < tie_.most]
        if free:
            return min(free, key=lambda p: taken[p.name, piece.kind]), tie_.places
    return None


def _asked(
    entry: Entry,
    piece: Piece,
    pieces: list[Piece],
    taken: Counter[tuple[str, str]],
    lost: Broken,
) -> tuple[Piece, tuple[Place, ...]] | None:
    word = entry.beside.casefold()
    others = [p for p in pieces if p.name != piece.name and p.model != piece.model]
    hosts = [p for p in others if p.name.casefold() == word]
    hosts = hosts or [p for p in others if p.model.casefold() == word]
    if not hosts and lost.excuses(word):
        return None
    if not hosts:
        known = [p.name for p in others]
        entry.table.faults.unknown(entry.table.at("with"), entry.beside, known, "the piece")
        return None
    anchor = min(hosts, key=lambda p: taken[p.name, piece.kind])
    return anchor, _places(entry.kind.ties, anchor)


def _places(ties: tuple[Tie, ...], anchor: Piece) -> tuple[Place, ...]:
    fitting = [t for t in ties if anchor.kind in t.to]
    if fitting:
        return fitting[0].places
    return ties[0].places if ties and not anchor.roles.isdisjoint({"dine"}) else BESIDE


def _check_circles(entries: list[Entry], pieces: list[Piece]) -> None:
    anchor = {p.name: p.anchor for p in pieces}
    tables = {p.name: e.table for e in entries for p in e.pieces}
    for piece in pieces:
        at, steps = piece.anchor, 0
        while at is not None and at != piece.name and steps <= len(pieces):
            at, steps = anchor[at], steps + 1
        if at == piece.name:
            given = f'"{piece.name}" is tied to itself by way of "{piece.anchor}"'
            tables[piece.name].fault("with", given, "ties must not run in a circle")
            return
