"""What comes out when pieces are exchanged, and how the room does as it stands today.

Lengths in mm, scores in tenths of a point.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from arrange.data.arrangement import Arrangement, Decision
from arrange.data.change import Change
from arrange.data.result import Reason, Verdict, at_most
from arrange.data.room import Facing
from arrange.data.scenario import Scenario

Move = Literal["changed", "new", "gone", "moved", "turned"]
Start = Literal["today", "best before"]
STILL = 30  # mm; less is tidying, not moving


@dataclass(frozen=True, slots=True)
class Today:
    """The room as it stands: ``scenario`` has only the pieces whose place was given.

    ``left_out`` are the others, which nobody judged. ``apart`` go with another piece
    and do not stand in their usual place there, which is no breach. ``verdict`` may
    have breaches.
    """

    scenario: Scenario
    arrangement: Arrangement
    verdict: Verdict
    left_out: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """One arrangement that passed the judge; none has a higher standing than ``bound``."""

    scenario: Scenario
    arrangement: Arrangement
    verdict: Verdict
    bound: int

    @property
    def score(self) -> int:
        """Its tenths of a point."""
        return self.verdict.score

    @property
    def standing(self) -> int:
        """What plans are ordered by."""
        return self.verdict.standing

    @property
    def most(self) -> int:
        """Tenths that none with as few faults surpasses."""
        return at_most(self.bound, self.verdict)

    @property
    def proven(self) -> bool:
        """Whether none is better."""
        return self.verdict.standing >= self.bound


@dataclass(frozen=True, slots=True)
class Answer:
    """Whether something works; if so, ``plan`` is the best arrangement found."""

    answer: Decision
    plan: Plan | None = None

    @property
    def works(self) -> bool:
        """Whether an arrangement is there."""
        return self.plan is not None


@dataclass(frozen=True, slots=True)
class Compared:
    """One line of the score before and after; None where nobody asks for it."""

    rule: str
    subjects: tuple[str, ...]
    before: Reason | None
    after: Reason | None

    @property
    def gained(self) -> int:
        """Points won after less points won before, in tenths."""
        won = self.after.won if self.after else 0
        return won - (self.before.won if self.before else 0)

    @property
    def improved(self) -> float:
        """The same on the scale of after: what is fully earned in both did not change."""
        if self.before is None or self.after is None or not self.before.possible:
            return float(self.gained)
        return self.after.won - self.before.won * self.after.possible / self.before.possible


@dataclass(frozen=True, slots=True)
class Stand:
    """How a piece stands: which way it faces, and the names of its wall and its companion.

    ``wall`` is the one at its back, ``anchor`` the piece it goes with; "" without one.
    ``corner`` are the two walls of the corner that it stands across.
    """

    facing: Facing
    wall: str = ""
    anchor: str = ""
    corner: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Moved:
    """A piece that no longer is or stands as before; ``piece`` is its name after.

    ``was`` is the name of the piece it is compared with: an alike one if those
    only changed places. ``far`` is how far its middle went, in mm, from ``before``, where
    a new piece has nothing, to ``after``, where one left out has nothing.
    """

    piece: str
    move: Move
    was: str
    far: int = 0
    before: Stand | None = None
    after: Stand | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read the question: the answers before and after, and what differs."""

    before: Answer
    after: Answer
    reasons: tuple[Compared, ...] = ()
    moved: tuple[Moved, ...] = ()


@dataclass(frozen=True, slots=True)
class Note:
    """What else to know of a swap, and the pieces it is about.

    "let go": held until now, they may move because they are changed. "apart": they do not
    stand at ``host`` today, but go there here. The others say why nothing works with all
    that stands today held: a must is broken even before ("broken"), or no place is left
    for the pieces, anywhere ("no place") or at what they go with ("no place there").
    """

    about: Literal["let go", "apart", "broken", "no place", "no place there"]
    pieces: tuple[str, ...] = ()
    host: str = ""


@dataclass(frozen=True, slots=True)
class Swap:
    """What ``swap`` answers.

    In ``free`` everything but the kept pieces may move. In ``held`` nothing else
    moves: ``start`` says whether pieces are held where they stand today or, if
    the file does not say, where the best arrangement before has them;
    ``holds``, ``follows`` and ``slides`` name the pieces that are held, that
    follow a changed one, and the changed ones with the wall they may slide
    along ("" for one that may stand anywhere). ``price`` is what the changes
    cost more, None if nobody gave prices.
    """

    before: Scenario
    after: Scenario
    changes: tuple[Change, ...]
    kept: tuple[str, ...]
    free: Reading
    held: Reading
    start: Start
    holds: tuple[str, ...]
    follows: tuple[str, ...]
    slides: tuple[tuple[str, str], ...]
    same_scale: bool
    price: Decimal | None
    seed: int
    seconds: float
    interrupted: bool = False
    notes: tuple[Note, ...] = ()

    @property
    def answer(self) -> Decision:
        """Whether the room works after the changes if everything else may move."""
        return self.free.after.answer
