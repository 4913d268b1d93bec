"""Ties pieces to what they stand beside: a coffee table to its sofa. Lengths in mm.

What the person ties stays so; other ties are marked as the table's own, which give way
where nothing would work with them. All else goes by the table of kinds, the largest first, and
only where there is room for it: whoever finds no place beside a host that leaves the others
tied there theirs goes to another fitting host, else stands free as its kind does by itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from arrange.data.kinds import Kind, Place, Tie, kinds
from arrange.data.piece import Clearance, Piece, Side, Slot, canonical
from arrange.geometry.shapes import slot_place, strip_corners
from arrange.scenario.faults import Broken
from arrange.scenario.pieces import Entry

Box = tuple[int, int, int, int]  # two corners in the host's own directions, in mm
TABLES = {"dine", "coffee", "desk", "side"}
MOST_TRIED = 20_000  # places looked into for one host; beyond it the solver may find out

# Where a piece stands beside another one that its kind has no places for.
BESIDE = (
    Place(Slot("left", along=0, gap=50)),
    Place(Slot("right", along=0, gap=50)),
)


def tie(entries: list[Entry], lost: Broken) -> tuple[Piece, ...]:
    """All pieces in the order of the file, each with its anchor and slots if it has one.

    Without a word from the person a piece goes to the first kind of its table
    that is in the room and has a place left; alike anchors take turns. Who comes first
    depends on what the pieces are, not on the order of the file. ``lost``
    is what could not be read: an anchor among it is no fault.
    """
    flat = [(e, piece) for e in entries for piece in e.pieces]
    pieces = sorted((piece for _, piece in flat), key=canonical)
    taken: Counter[tuple[str, str]] = Counter()
    tied = {piece.name: piece for piece in pieces}
    for entry, piece in sorted(flat, key=lambda each: (not each[0].beside, canonical(each[1]))):
        if entry.beside:
            found = _asked(entry, piece, pieces, taken, lost)
        elif entry.free:
            found = None
        else:
            found = _usual(entry.kind, piece, tied.values(), taken)
        if found is not None:
            anchor, places = found
            taken[anchor.name, piece.kind] += 1
            at = _at(anchor, piece, places)
            tied[piece.name] = replace(at, tied_by_kind=not entry.beside)
    in_order = [tied[piece.name] for _, piece in flat]
    _check_circles(entries, in_order)
    return tuple(in_order)


def _at(anchor: Piece, piece: Piece, places: Iterable[Place]) -> Piece:
    slots = tuple(place.beside(anchor, piece) for place in places)
    return replace(piece, anchor=anchor.name, slots=slots)


def _usual(
    kind: Kind, piece: Piece, tied: Iterable[Piece], taken: Counter[tuple[str, str]]
) -> tuple[Piece, tuple[Place, ...]] | None:
    """The usual host of the kind that has a place left; None if there is none."""
    there = list(tied)
    for tie_ in kind.ties:
        hosts = [p for p in there if p.kind in tie_.to and p.name != piece.name]
        free = [p for p in hosts if taken[p.name, piece.kind] < tie_.most]
        for host in sorted(free, key=lambda p: taken[p.name, piece.kind]):
            others = [p for p in there if p.anchor == host.name]
            places = _wanted(tie_.places, host, piece)
            if places and stand_together(host, [*others, _at(host, piece, places)]):
                return host, places
    return None


def _wanted(places: tuple[Place, ...], table: Piece, chair: Piece) -> tuple[Place, ...]:
    """The places at the sides of a table where the person wants chairs.

    None stands where the floor to pull it out was given up; a bench does, as at a wall.
    """
    if not table.is_a("dine") or not chair.is_a("dining seat") or chair.is_a("bench"):
        return places
    usual, own = (
        {side for c in clearances if len(c.sides) == 1 for side in c.sides}
        for clearances in (kinds()[table.kind].clearances, table.clearances)
    )
    return tuple(place for place in places if place.slot.side not in usual - own)


def stand_together(host: Piece, tied: Sequence[Piece]) -> bool:
    """Whether all that is tied to one host can stand in their places at the same time.

    Bodies keep apart, and out of the floor that one of the others needs in any case. With
    more ways to stand than ``MOST_TRIED`` nothing is ruled out.
    """
    # Alike pieces are tried in one order only: else eight chairs have 40,320.
    waiting = sorted(tied, key=canonical)
    tried = 0

    def rest(done: list[tuple[Piece, int, Slot]]) -> bool:
        nonlocal tried
        tried += 1
        if len(done) == len(waiting) or tried > MOST_TRIED:
            return True
        piece = waiting[len(done)]
        first = 0
        if done and (done[-1][0].alike, done[-1][0].slots) == (piece.alike, piece.slots):
            first = done[-1][1] + 1
        return any(
            all(_apart(host, piece, slot, other, taken) for other, _, taken in done)
            and rest([*done, (piece, i, slot)])
            for i, slot in enumerate(piece.slots[first:], start=first)
        )

    return rest([])


def _apart(host: Piece, one: Piece, slot: Slot, two: Piece, other: Slot) -> bool:
    """Whether two pieces in these places of one host leave each other what they need."""
    if one.shares_space_with(two) and _overlap(_body(host, one, slot), _body(host, two, other)):
        return False
    return _leaves_floor(host, one, slot, two, other) and _leaves_floor(host, two, other, one, slot)


def _leaves_floor(host: Piece, owner: Piece, slot: Slot, other: Piece, place: Slot) -> bool:
    """Whether ``other`` stays out of one side at least of each clearance of ``owner``."""
    body = _body(host, other, place)
    return not any(
        clearance.least
        and clearance.minds(owner, other)
        and all(
            _overlap(body, _strip(host, owner, slot, side, clearance)) for side in clearance.sides
        )
        for clearance in owner.clearances
    )


def _body(host: Piece, piece: Piece, slot: Slot) -> Box:
    return slot_place(host, piece, slot)[:4]


def _strip(host: Piece, piece: Piece, slot: Slot, side: Side, clearance: Clearance) -> Box:
    """The least strip of a clearance on a side of a piece in a place of its host."""
    a0, b0, a1, b1, quarter = slot_place(host, piece, slot)
    p0, q0, p1, q1 = strip_corners(
        piece, side, clearance.least, clearance.skip_start, clearance.skip_end
    )
    match quarter:
        case 0:
            return a0 + p0, b0 + q0, a0 + p1, b0 + q1
        case 1:  # its front is on the host's left
            return a1 - q1, b0 + p0, a1 - q0, b0 + p1
        case 2:
            return a1 - p1, b1 - q1, a1 - p0, b1 - q0
        case _:
            return a0 + q0, b1 - p1, a0 + q1, b1 - p0


def _overlap(one: Box, two: Box) -> bool:
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


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
    if not hosts and word in (piece.name.casefold(), piece.model.casefold()):
        given = f'"{entry.beside}" is the piece itself'
        entry.table.fault("with", given, "name the piece that it goes with")
        return None
    if not hosts:
        known = [p.name for p in others]
        entry.table.faults.unknown(entry.table.at("with"), entry.beside, known, "the piece")
        return None
    anchor = min(hosts, key=lambda p: taken[p.name, piece.kind])
    places = _places(entry.kind.ties, anchor)
    return anchor, _wanted(places, anchor, piece) or places


def _places(ties: tuple[Tie, ...], anchor: Piece) -> tuple[Place, ...]:
    fitting = [t for t in ties if anchor.kind in t.to]
    if fitting:
        return fitting[0].places
    under = [t for t in ties if t.places[0].slot.side == "under"]
    if under:
        # A rug: under the front of whatever is sat on, in the middle under any table.
        if anchor.is_a("seat"):
            return under[0].places
        return under[-1].places if anchor.roles & TABLES else BESIDE
    return ties[0].places if ties and anchor.is_a("dine") else BESIDE


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
