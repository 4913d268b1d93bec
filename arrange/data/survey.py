"""What the tape brought home, and what was made of it. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Taped:
    """One measured length: as it was ``given`` and as it was ``taken`` for the plan."""

    name: str
    given: int
    taken: int


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measured length that the others contradict.

    ``likely`` is what the others make of it, None where they cannot tell. ``misread`` is
    the number that may have been meant (3.24 for 3.42), 0 if none is like it. ``left_out``
    says that the plan was drawn without this length, since the others are enough.
    """

    name: str
    given: int
    likely: int | None = None
    misread: int = 0
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Survey:
    """A room measured with more lengths than it takes, adjusted.

    ``perimeter`` is the sum of the walls as given and ``short`` by how much the walk round
    them misses its beginning. ``error`` is how far a corner may be off, 95 % of the time.
    ``askew`` are corners that are not square, each with its angle in tenths of a degree as
    seen from inside. Without checks (diagonals and the like) ``checks`` is 0.
    """

    perimeter: int
    short: int
    lengths: tuple[Taped, ...]
    doubts: tuple[Doubt, ...] = ()
    askew: tuple[tuple[str, int], ...] = ()
    checks: int = 0
    error: int = 0

    @property
    def most(self) -> int:
        """The most by which a length that was used is changed."""
        out = {doubt.name for doubt in self.doubts if doubt.left_out}
        return max((abs(t.taken - t.given) for t in self.lengths if t.name not in out), default=0)
