"""One change to a scenario: what a person could do or buy instead. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from arrange.data.piece import Piece


@dataclass(frozen=True, slots=True)
class Resize:
    """A piece in another size; what is None stays as it is."""

    piece: str
    width: int | None = None
    depth: int | None = None
    height: int | None = None


@dataclass(frozen=True, slots=True)
class Reprice:
    """A piece at another price."""

    piece: str
    price: float | None


@dataclass(frozen=True, slots=True)
class Exchange:
    """Another piece in the place of ``piece``, under the same name."""

    piece: str
    new: Piece


@dataclass(frozen=True, slots=True)
class Drop:
    """A piece left out."""

    piece: str


@dataclass(frozen=True, slots=True)
class Add:
    """A piece more; ``new`` is complete, with its tie if it has one."""

    new: Piece


@dataclass(frozen=True, slots=True)
class Untie:
    """A piece that no longer has to stand beside what it goes with."""

    piece: str


@dataclass(frozen=True, slots=True)
class Turn:
    """A piece for the wall that may be turned: its back need not be against a wall."""

    piece: str


@dataclass(frozen=True, slots=True)
class LowerClearance:
    """A clearance whose least is brought down to ``to``."""

    piece: str
    clearance: str
    to: int


@dataclass(frozen=True, slots=True)
class NarrowWalkway:
    """A walkway of another width."""

    to: int


@dataclass(frozen=True, slots=True)
class Rehang:
    """A door that opens outwards, or slides."""

    door: str
    opens: str = "out"


@dataclass(frozen=True, slots=True)
class GiveUpFixture:
    """The floor before a fixture no longer kept free."""

    fixture: str


@dataclass(frozen=True, slots=True)
class GiveUpOpening:
    """A window that need not be opened; its floor is no longer to be reached."""

    window: str


@dataclass(frozen=True, slots=True)
class Loosen:
    """A must of the person's own that becomes a mere wish. Counted from 0."""

    wish: int


@dataclass(frozen=True, slots=True)
class LetMove:
    """A piece that no longer has to stay where it stands."""

    piece: str


Change = (
    Resize
    | Reprice
    | Exchange
    | Drop
    | Add
    | Untie
    | Turn
    | LowerClearance
    | NarrowWalkway
    | Rehang
    | GiveUpFixture
    | GiveUpOpening
    | Loosen
    | LetMove
)
