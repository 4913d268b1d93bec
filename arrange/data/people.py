"""Who lives or stays in a room, and what follows for it from how old, how tall and how nimble.

What follows is data, a row each with its source, in ``people.toml``; this module gives it
types, and puts it on pieces. What several persons ask for is the most that one of them asks.
Lengths in mm.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Literal

from arrange.data.kinds import weaker
from arrange.data.lengths import listed
from arrange.data.person import AIDS, Person
from arrange.data.piece import STANDING, Clearance, Piece, tips
from arrange.data.sources import YOURS

TABLE = Path(__file__).with_name("people.toml")
Sets = Literal[
    "walkway",
    "kept to usual",
    "turn",
    "bed side",
    "other bed side",
    "store front",
    "window",
    "at the wall",
    "standing",
    "sitting",
    "lamp at the bed",
    "seat for shoes",
    "caution",
]
# Where people dress; common practice, no source.
DRESSED_IN = {"bedroom", "hall", "child's room", "one room for all"}
# Where somebody gets into a bed, and the sides of a bed for two, by the names of kinds.toml.
BED_SIDE = {"getting in", "ladder side", "bed pulled out"}
OTHER_SIDE = {"left side", "right side"}


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the table; its fields are told at its head."""

    when: tuple[str, ...]
    sets: Sets
    what: str
    least: int = 0
    comfortable: int = 0
    source: str = ""
    comfortable_source: str = ""
    share: int = 0
    plus: int = 0
    any: bool = False
    id: str = ""
    points: int = 0

    def concerns(self, person: Person) -> bool:
        """Whether the row speaks of the person, as far as was said."""
        if self.share and person.height is None:
            return False
        true = [word in person.traits for word in self.when]
        return any(true) if self.any else all(true)

    def asks(self, person: Person) -> int:
        """The length in mm that it asks for the person; 0 where it asks for none."""
        of_height = math.ceil((person.height or 0) * self.share / 1000) + self.plus
        return of_height if self.share else self.least

    def whose(self, person: Person) -> str:
        """Whom it is for: of what people use, that; of nights, the person at night."""
        if self.when[0] in AIDS:
            return person.with_aid
        return f"{person.name} at night" if self.when == ("up at night",) else person.name


@dataclass(frozen=True, slots=True)
class Need:
    """What the persons of a room together ask for in one respect: the most of all, and for whom."""

    least: int
    row: Row
    whose: str


@cache
def rows() -> tuple[Row, ...]:
    """The whole table, in its order."""
    given = tomllib.loads(TABLE.read_text(encoding="utf-8"))["row"]
    return tuple(Row(**{**row, "when": tuple(row["when"])}) for row in given)


def asked(people: Sequence[Person], sets: Sets) -> Need | None:
    """The most that anybody asks for; None where nobody does. All who ask as much are named."""
    found = [
        (row.asks(person), row, row.whose(person))
        for row in rows()
        if row.sets == sets
        for person in people
        if row.concerns(person)
    ]
    if not found:
        return None
    most = max(least for least, _, _ in found)
    names = sorted({whose for least, _, whose in found if least == most})
    return Need(most, next(row for least, row, _ in found if least == most), listed(names))


def who_uses(piece: Piece, people: Sequence[Person]) -> tuple[Person, ...]:
    """Those whose piece it is; everybody where the file does not say."""
    return tuple(p for p in people if not piece.whose or p.name in piece.whose)


def sleeping(piece: Piece) -> bool:
    """Whether a grown person or a child beyond the cot sleeps in it."""
    return piece.is_a("sleep") and not piece.is_a("cot")


# -- on a piece --------------------------------------------------------------
def suited(piece: Piece, people: Sequence[Person], own: Iterable[str] = ()) -> Piece:
    """The piece with what those who use it ask of it.

    What the person said of the piece stays as they said it: clearances with their own
    depth, and ``own``, the keys of the file that they gave ("stands", "headroom").
    """
    users = who_uses(piece, people)
    if not users:
        return piece
    own = set(own)
    piece = _with_floor(piece, users)
    if "stands" not in own and piece.stands == "anywhere" and tips(piece):
        piece = replace(piece, stands="wall") if asked(people, "at the wall") else piece
    sitting = sitting_up(piece, people)
    if sitting and piece.is_a("bunk") and "headroom" not in own:
        piece = replace(piece, headroom=max(piece.headroom, sitting.least))
    return piece


def as_another(piece: Piece, people: Sequence[Person]) -> Piece:
    """A piece that was exchanged for another sort (a bed for one for one for two), for them.

    Its clearances are those of its new kind, so they are kept to usual where all are.
    """
    if keeps_usual(people):
        kept = tuple(c if c.source == YOURS.id else c.kept_usual for c in piece.clearances)
        piece = replace(piece, clearances=kept)
    return _with_floor(piece, who_uses(piece, people))


def sitting_up(piece: Piece, people: Sequence[Person]) -> Need | None:
    """The headroom of who sleeps in the piece and said how tall they are."""
    return asked(who_uses(piece, people), "sitting") if sleeping(piece) else None


def side_of(piece: Piece, clearance: Clearance) -> Sets | None:
    """In which respect of the table a clearance is asked for; None: in none."""
    if sleeping(piece) and clearance.name in BED_SIDE:
        return "bed side"
    if sleeping(piece) and clearance.name in OTHER_SIDE:
        return "other bed side"
    if piece.roles & {"store", "clothes"} and "front" in clearance.sides and clearance.walk:
        return "store front"
    return None


def _with_floor(piece: Piece, users: Sequence[Person]) -> Piece:
    return replace(piece, clearances=tuple(_raised(piece, c, users) for c in piece.clearances))


def _raised(piece: Piece, clearance: Clearance, users: Sequence[Person]) -> Clearance:
    """The clearance at least as deep as they ask, with their source, their name and headroom."""
    standing = asked(users, "standing")
    if standing and clearance.headroom == STANDING:
        clearance = replace(clearance, headroom=standing.least)
    side = side_of(piece, clearance)
    need = asked(users, side) if side else None
    if need is None or clearance.source == YOURS.id or need.least <= clearance.least:
        return clearance
    row = need.row
    usual_source = row.source if need.least >= clearance.usual else clearance.usual_source
    if row.comfortable > clearance.comfortable:
        comfortable, second = row.comfortable, row.comfortable_source
    elif need.least > clearance.comfortable:
        comfortable, second = need.least, row.source
    else:
        comfortable = clearance.comfortable
        second = clearance.comfortable_source or clearance.usual_source
    return replace(
        clearance,
        least=need.least,
        usual=max(need.least, clearance.usual),
        comfortable=comfortable,
        purpose=f"{clearance.purpose}, for {need.whose}",
        source=row.source,
        usual_source=usual_source,
        comfortable_source=second,
        status=weaker(usual_source, second),
        whose=need.whose,
    )


# -- on the room -------------------------------------------------------------
def keeps_usual(people: Sequence[Person]) -> Need | None:
    """Whether all floor is kept to its usual values for somebody."""
    return asked(people, "kept to usual")


def never_below(people: Sequence[Person], piece: Piece, clearance: Clearance) -> int:
    """The depth under which a clearance is never proposed to come down, in mm.

    What is asked for somebody, and the usual value where all is kept to it for somebody. A
    clearance that is less already is the person's own word.
    """
    users, side = who_uses(piece, people), side_of(piece, clearance)
    need = asked(users, side) if side else None
    depths = [need.least] if need else []
    if clearance.source != YOURS.id and keeps_usual(people):
        depths.append(clearance.usual)
    return max((depth for depth in depths if depth <= clearance.least), default=0)


def lamp_or_place(piece: Piece) -> bool:
    """Whether it is a light, or the table beside a bed on which one stands."""
    return bool(piece.roles & {"light", "bedside"})


def sat_on(piece: Piece) -> bool:
    """Whether shoes can be put on from it; a bed is too low or too soft for many."""
    return bool(piece.roles & {"seat", "bench"})


def in_need(people: Sequence[Person], sets: Sets) -> tuple[Row, str] | None:
    """The row that asks for something, and the names of all for whom; None where none does."""
    for row in rows():
        whom = [person.name for person in people if row.sets == sets and row.concerns(person)]
        if whom:
            return row, listed(whom)
    return None


def cautioned(people: Sequence[Person], id_: str) -> str:
    """The names of all whom a caution of the table concerns; "" where it does nobody."""
    row = next(row for row in rows() if row.sets == "caution" and row.id == id_)
    return listed([person.name for person in people if row.concerns(person)])


def climber(people: Sequence[Person]) -> str:
    """The names of who climbs; "" if nobody does."""
    need = asked(people, "window")
    return need.whose if need else ""
