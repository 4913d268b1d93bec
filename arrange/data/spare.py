"""How far a measurement could be wrong before an arrangement stops working. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from arrange.data.lengths import measured
from arrange.data.scenario import Unit

FINEST = 10  # mm that a tape across a room is trusted to


@dataclass(frozen=True, slots=True)
class Spare:
    """Room to spare along one line across the room, or on the way in.

    ``between`` names the two ends, ``chain`` everything on the line in words, ``pieces``
    the pieces on it. ``direction`` is across the plan, up the plan, or the way in.
    ``mm`` is how much longer what is on the line could be in truth (or the span shorter)
    with all pieces still on their walls, turned the same way, as the judge confirms. With
    ``exact`` one cm more works no longer, however the pieces slide; without, ``mm`` is what
    is sure and there may be more. For the way in, ``mm`` is as the pieces stand.
    """

    between: tuple[str, str]
    chain: str
    pieces: tuple[str, ...]
    direction: Literal["across", "up", "way"]
    mm: int
    exact: bool

    def sentence(self, unit: Unit) -> str:
        """The line and what there is to spare, for a person."""
        return f"{self.line}: {self.amount(unit)}"

    @property
    def line(self) -> str:
        """The line in words, without the amount.

        >>> Spare(("wall D", "wall B"), "bed, 60 cm, desk", ("bed",), "across", 0, True).line
        'Across from wall D to wall B (bed, 60 cm, desk)'
        """
        if self.direction == "way":
            return self.chain
        way = "Across" if self.direction == "across" else "Up the plan"
        return f"{way} from {self.between[0]} to {self.between[1]} ({self.chain})"

    def amount(self, unit: Unit) -> str:
        """What there is to spare, in words.

        >>> Spare(("a", "b"), "", (), "up", 30, True).amount("cm")
        '3 cm to spare'
        >>> Spare(("a", "b"), "", (), "up", 4, True).amount("cm")
        '0.4 cm to spare: 1 cm less and it no longer works like this, measure again'
        """
        least = 7 if unit == "in" else 1  # mm that can be said
        if self.direction == "way":
            if not self.mm:
                return "no wider as the pieces stand, measure again"
            return f"{_no_more(self.mm, unit)} wider as the pieces stand"
        if self.mm >= FINEST:
            return f"{'' if self.exact else 'at least '}{_no_more(self.mm, unit)} to spare"
        have = f"{_no_more(self.mm, unit)} to spare" if self.mm >= least else "nothing to spare"
        if self.exact:
            cm = measured(FINEST, "cm" if unit == "m" else unit)
            return f"{have}: {cm} less and it no longer works like this, measure again"
        return f"{have} that is sure: measure again"


def _no_more(mm: int, unit: Unit) -> str:
    """A length that promises no more than there is: quarters of an inch are rounded down.

    >>> _no_more(10, "in"), _no_more(10, "cm")
    ('1/4 in', '1 cm')
    """
    quarters = mm * 40 // 254
    return measured((quarters * 254 + 20) // 40 if unit == "in" else mm, unit)
