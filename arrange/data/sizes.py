"""One piece in many sizes: a ladder of them, or the largest that works. Lengths in mm.

Of each size: whether it works, whether it works comfortably, and what it scores in tenths
of a point.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from arrange.data.arrangement import Arrangement, Decision
from arrange.data.piece import Piece
from arrange.data.result import FULL, Verdict, at_most
from arrange.data.scenario import Scenario

Dimension = Literal["width", "depth", "height"]
DIMENSIONS: tuple[Dimension, ...] = ("width", "depth", "height")
Sureness = Literal["exact", "at least", "impossible", "not decided"]


@dataclass(frozen=True, slots=True)
class Size:
    """A size a piece could be had in. ``piece`` is the piece in that size, in mm outside.

    ``source`` is an id of the table of sources, empty for a size of the person's own.
    """

    label: str
    piece: Piece
    source: str = ""


@dataclass(frozen=True, slots=True)
class SizeTable:
    """Sizes in rising order, what they are, and in plain words what was assumed."""

    title: str
    sizes: tuple[Size, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rung:
    """One size of a ladder.

    ``works`` and ``comfortable`` are answers on their own, each "impossible" only where
    proven. ``verdict`` is the judge's on the best ``arrangement`` found, its score
    proven best if ``bound`` (a standing) is no higher. ``others`` counts, in that arrangement,
    the comfortable clearances of all other pieces that have their full points, of how many.
    Scores of rungs with the same ``scale`` can be compared: they share out the hundred
    points alike. A bed for one and a bed for two do not.
    """

    size: Size
    works: Decision
    comfortable: Decision
    arrangement: Arrangement | None = None
    verdict: Verdict | None = None
    bound: int = FULL
    others: tuple[int, int] = (0, 0)
    scale: int = 0

    @property
    def score(self) -> int | None:
        """The best score found, in tenths; None where nothing was found."""
        return None if self.verdict is None else self.verdict.score

    @property
    def most(self) -> int:
        """Tenths that no arrangement of this size with as few faults surpasses."""
        return FULL if self.verdict is None else at_most(self.bound, self.verdict)

    @property
    def proven(self) -> bool:
        """Whether no arrangement of this size scores more."""
        return self.verdict is not None and self.bound <= self.verdict.standing


@dataclass(frozen=True, slots=True)
class Fall:
    """Where the score falls off most from one size to the next that works, in tenths.

    ``loss`` is what is proven: it may be more unless both scores are proven best (``sure``).
    """

    before: Rung
    after: Rung
    loss: int
    sure: bool


@dataclass(frozen=True, slots=True)
class Ladder:
    """The answer on every size of one piece. ``interrupted``: somebody stopped it."""

    scenario: Scenario
    piece: str
    table: SizeTable
    rungs: tuple[Rung, ...]
    interrupted: bool = False

    @property
    def largest(self) -> Rung | None:
        """The last size that works; None if none is known to."""
        return _last(self.rungs, [r.works == "works" for r in self.rungs])

    @property
    def largest_comfortable(self) -> Rung | None:
        """The last size that works comfortably; None if none is known to."""
        return _last(self.rungs, [r.comfortable == "works" for r in self.rungs])

    @property
    def undecided(self) -> tuple[Rung, ...]:
        """Sizes of which it is not known whether they work."""
        return tuple(r for r in self.rungs if r.works == "not decided")

    @property
    def fall(self) -> Fall | None:
        """The step that surely loses most, from one size to the next of its scale.

        None if no step surely loses any: a score that is not proven best may rise to its bound.
        """
        last: dict[int, Rung] = {}
        falls = []
        for rung in (r for r in self.rungs if r.score is not None):
            if (one := last.get(rung.scale)) is not None:
                loss = (one.score or 0) - (rung.most)
                falls.append(Fall(one, rung, loss, one.proven and rung.proven))
            last[rung.scale] = rung
        worst = max(falls, key=lambda f: f.loss, default=None)
        return worst if worst is not None and worst.loss > 0 else None


def _last(rungs: Sequence[Rung], wanted: Sequence[bool]) -> Rung | None:
    found = [rung for rung, is_wanted in zip(rungs, wanted, strict=True) if is_wanted]
    return found[-1] if found else None


@dataclass(frozen=True, slots=True)
class Largest:
    """The largest ``dimension`` of ``piece`` that works, in whole centimetres or inches.

    "exact": ``size`` works, as ``arrangement`` shows in ``scenario``, and every larger one
    is proven impossible, ``next`` by two solver configurations. "at least": ``size`` works,
    and larger ones in ``undecided`` were not decided in the time (their least and greatest);
    without ``undecided`` it is the largest that was tried, as no larger piece is usual.
    "impossible": no size works, proven. "not decided": nothing found, nothing proven.
    ``asked`` counts the questions put to the solver.
    """

    piece: str
    dimension: Dimension
    answer: Sureness
    size: int | None = None
    next: int | None = None
    undecided: tuple[int, int] | None = None
    scenario: Scenario | None = None
    arrangement: Arrangement | None = None
    asked: int = 0
    interrupted: bool = False
