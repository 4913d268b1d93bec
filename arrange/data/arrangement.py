"""Where every piece stands, and whether any arrangement works at all. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from typing import Literal

from arrange.data.room import Facing


@dataclass(frozen=True, slots=True, order=True)
class Placement:
    """One piece in its place.

    A piece in a quarter turn has ``facing`` and the lower left corner ``x``,
    ``y`` of its footprint on the plan; ``wall`` is the wall its back touches, if
    any. A piece that goes with a slanted wall has ``facing`` None: seen from
    inside, its footprint starts ``offset`` mm from the left end of ``wall`` and
    ``inward`` mm off it, and ``quarter`` counts clockwise quarter turns from
    facing straight into the room.

    One that goes with a piece across a corner has ``facing`` None, too, and ``corner`` says
    at which corner of the outline: in place of the wall it goes by the line through that
    corner at 45 degrees to both walls (``Room.across``), ``offset`` counted from the corner.
    Such a piece looks half this way and half that. What goes by quarter turns may take it for
    either: ``looks`` says for which one of the two ways that line would face. No other place.
    """

    piece: str
    facing: Facing | None
    x: int = 0
    y: int = 0
    wall: int | None = None
    offset: int = 0
    inward: int = 0
    quarter: int = 0
    corner: int | None = field(default=None, metadata={"later": True})
    looks: Facing | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Every piece placed, in the order of the scenario's pieces."""

    placements: tuple[Placement, ...]

    def of(self, piece: str) -> Placement:
        """Where ``piece`` stands; KeyError if it is not in the arrangement."""
        for placement in self.placements:
            if placement.piece == piece:
                return placement
        raise KeyError(piece)


Decision = Literal["works", "impossible", "not decided"]


class Finding(IntEnum):
    """How much an answer has found, the more the higher."""

    NOTHING = 0
    PROOF = 1  # that there is no arrangement
    ARRANGEMENT = 2


# How much was found by what an answer is called, here and in a file.
FINDINGS = {
    **dict.fromkeys(
        ("works", "broken", "proven", "found", "exact", "at least"), Finding.ARRANGEMENT
    ),
    **dict.fromkeys(("impossible", "too dear"), Finding.PROOF),
    **dict.fromkeys(("not decided", "nothing found"), Finding.NOTHING),
}


@dataclass(frozen=True, slots=True)
class Feasibility:
    """Works, with an arrangement that shows it; impossible, proven; or not decided."""

    answer: Decision
    arrangement: Arrangement | None = None

    @property
    def works(self) -> bool:
        """Whether an arrangement is there."""
        return self.arrangement is not None
