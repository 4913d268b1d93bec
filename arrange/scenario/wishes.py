"""Reads ``[[wish]]``: what the person asks of a piece. Lengths in mm."""

from __future__ import annotations

from arrange.data.piece import Piece
from arrange.data.room import Room
from arrange.data.scenario import Relation, Wish
from arrange.scenario.faults import Broken
from arrange.scenario.table import Table

RELATIONS: dict[str, Relation] = {
    "near": "near",
    "away_from": "away from",
    "facing": "facing",
    "against": "against",
    "not_against": "not against",
    "in_view_of": "in view of",
    "beside": "beside",
    "aligned_with": "aligned",
}
WITHIN = ("near", "beside")
WALLS_ONLY = ("against", "not_against")
WEIGHT = 10  # as much as the main wishes of the rules: what somebody says themselves counts
WEIGHTS = (1, 20)
EXAMPLE = 'write it like: piece = "desk", near = "window", within = "1 m"'


class Places:
    """Everything a wish can name, by its own name and by what it is."""

    def __init__(self, room: Room, pieces: tuple[Piece, ...], lost: Broken) -> None:
        self.lost = lost
        walls = [w.name for w in room.walls] + [w.part_of for w in room.walls if w.part_of]
        self.walls = list(dict.fromkeys(walls))
        self.pieces = [p.name for p in pieces]
        self.models: dict[str, list[str]] = {}
        for piece in pieces:
            self.models.setdefault(piece.model.casefold(), []).append(piece.name)
        self.sorts = {
            "door": [d.name for d in room.doors],
            "window": [w.name for w in room.windows],
            "radiator": [f.name for f in room.fixtures if f.kind == "radiator"],
            "socket": [f.name for f in room.fixtures if f.kind == "socket"],
        }
        fixed = [*self.sorts["door"], *self.sorts["window"], *(f.name for f in room.fixtures)]
        self.places = [*self.pieces, *fixed, *self.walls]

    def pieces_called(self, word: str) -> list[str]:
        """The piece of that name, or all that were given under it; empty if none."""
        exact = [p for p in self.pieces if p.casefold() == word.casefold()]
        return exact or self.models.get(word.casefold(), [])

    def place(self, word: str, table: Table, key: str) -> str | None:
        """The name of the one place meant; None, with a fault, if that is not clear."""
        known = self.walls if key in WALLS_ONLY else self.places
        exact = [p for p in known if p.casefold() == word.casefold()]
        if exact:
            return exact[0]
        sort = [*self.sorts.get(word.casefold(), []), *self.models.get(word.casefold(), [])]
        sort = [s for s in sort if s in known]
        if len(sort) == 1:
            return sort[0]
        if self.lost.excuses(word):
            return None
        if sort:
            table.fault(key, f"{word!r} could be any of {', '.join(sort)}", "name one of them")
        else:
            table.faults.unknown(table.at(key), word, known, "the place")
        return None


def read_wishes(
    top: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken
) -> tuple[Wish, ...]:
    """Every wish that could be read, one for each piece it is about.

    ``lost`` is what could not be read: a wish that names it is not at fault.
    """
    places = Places(room, pieces, lost)
    return tuple(w for table in top.tables("wish") for w in _wish(table, places))


def _wish(table: Table, places: Places) -> list[Wish]:
    word = table.text("piece")
    names = places.pieces_called(word) if word else []
    if not word and not table.has("piece"):
        table.fault("piece", "no piece given", "say which piece is meant", EXAMPLE)
    elif word and not names and not places.lost.excuses(word):
        table.faults.unknown(table.at("piece"), word, places.pieces, "the piece")
    given = [key for key in RELATIONS if table.has(key)]
    must, weight = table.flag("must"), table.whole("weight", WEIGHT, *WEIGHTS)
    key = given[0] if len(given) == 1 else ""
    distance = _distance(table, key)
    place = places.place(table.text(key), table, key) if key and table.text(key) else None
    table.finish()
    if not key:
        what = f"{' and '.join(given)} given" if given else "nothing is wished"
        table.faults.add(table.where, what, f"one of {', '.join(RELATIONS)} is needed", EXAMPLE)
    if place in names:
        table.fault(key, f'"{place}" is the piece itself', "name another piece or place")
    if place is None or not key:
        return []
    return [
        Wish(RELATIONS[key], name, place, distance, must, weight) for name in names if name != place
    ]


def _distance(table: Table, key: str) -> int | None:
    within = table.mm("within", -1, 0) if table.has("within") else None
    apart = table.mm("at_least", -1, 0) if table.has("at_least") else None
    if within is not None and key and key not in WITHIN:
        table.fault("within", "given without near or beside", "it belongs to those two")
    if apart is not None and key and key != "away_from":
        table.fault("at_least", "given without away_from", "it belongs to that one")
    return within if within is not None else apart
