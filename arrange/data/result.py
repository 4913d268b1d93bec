"""What comes out: breaches, reasons, verdicts, suggestions, the whole result; and room to spare.

``Spare`` says how far a measurement could be wrong before an arrangement stops working,
``Progress`` what a watcher of a long search is told, ``Checked`` what a look at the file and
the empty room finds. Lengths in mm, points in tenths.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from arrange.data.arrangement import Arrangement
from arrange.data.conflict import Conflict
from arrange.data.scenario import Scenario, Wish
from arrange.data.sources import Source

Outcome = Literal["proven", "found", "impossible", "nothing found"]
# What a score is made of, in the order in which it is told.
Part = Literal["works", "together", "sits", "opens", "asked"]
PARTS: dict[Part, str] = {
    "works": "It works",
    "together": "What belongs together",
    "sits": "How it sits in the room",
    "opens": "How the room opens up",
    "asked": "What you asked for",
}
FULL = 1000  # tenths of a point that an arrangement can have at most
FAULT = FULL + 1  # tenths that a fault of first rank takes off the standing: more than all points
NOTHING = -1_000_000  # the standing of what is not there: below all others


def parted(standing: int) -> tuple[int, int]:
    """A standing as faults of first rank and points in tenths.

    >>> parted(873), parted(873 - FAULT), parted(0 - 2 * FAULT)
    ((0, 873), (1, 873), (2, 0))
    """
    faults = (FULL - standing) // FAULT
    return faults, standing + FAULT * faults


@dataclass(frozen=True, slots=True)
class Breach:
    """A must that is broken: which rule, which pieces, and one sentence."""

    rule: str
    subjects: tuple[str, ...]
    sentence: str


@dataclass(frozen=True, slots=True)
class Reason:
    """One line of the score. Points are tenths, so that 100 points are 1000.

    ``measured`` and ``wanted`` are short texts in the scenario's unit. ``faults`` counts
    what a good plan never has: fewer of them rank higher, whatever the points.
    """

    rule: str
    subjects: tuple[str, ...]
    sentence: str
    measured: str
    wanted: str
    won: int
    possible: int
    source: Source
    overridden: bool = False
    part: Part = "works"
    faults: int = 0

    @property
    def lost(self) -> int:
        """Tenths of a point not won."""
        return self.possible - self.won


Key = tuple[str, tuple[str, ...], int]


def keyed(reasons: Iterable[Reason]) -> dict[Key, Reason]:
    """Reasons by rule and subjects; several about the same are counted, in their order."""
    seen: Counter[tuple[str, tuple[str, ...]]] = Counter()
    found: dict[Key, Reason] = {}
    for reason in reasons:
        about = reason.rule, reason.subjects
        found[*about, seen[about]] = reason
        seen[about] += 1
    return found


@dataclass(frozen=True, slots=True)
class Gap:
    """A measured gap between two things, for the plan: its ends in mm and its name."""

    start: tuple[float, float]
    end: tuple[float, float]
    length: int
    between: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Verdict:
    """The judge's answer on one arrangement. ``score`` is in tenths of a point.

    ``standing`` orders arrangements: fewer faults of first rank first, then more points.
    """

    breaches: tuple[Breach, ...]
    reasons: tuple[Reason, ...]
    score: int
    gaps: tuple[Gap, ...] = ()

    @property
    def works(self) -> bool:
        """Whether no must is broken."""
        return not self.breaches

    @property
    def faults(self) -> int:
        """How many faults of first rank there are."""
        return sum(reason.faults for reason in self.reasons)

    @property
    def standing(self) -> int:
        """What arrangements are ordered by; see ``parted``."""
        return self.score - FAULT * self.faults

    @property
    def parts(self) -> dict[Part, tuple[int, int]]:
        """For each part of the score that can earn points: tenths won, tenths possible."""
        sums: dict[Part, tuple[int, int]] = {}
        for part in PARTS:
            own = [reason for reason in self.reasons if reason.part == part]
            if any(reason.possible for reason in own):
                sums[part] = sum(r.won for r in own), sum(r.possible for r in own)
        return sums


def at_most(bound: int, verdict: Verdict) -> int:
    """Tenths that no arrangement with as few faults of first rank surpasses.

    ``bound`` is a standing that nothing surpasses.
    """
    faults, most = parted(bound)
    return most if faults >= verdict.faults else FULL


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One arrangement that passed the judge. ``proven``: none of those left is better.

    ``bound`` is a standing: none of those left has a higher one.
    """

    rank: int
    arrangement: Arrangement
    verdict: Verdict
    proven: bool
    bound: int
    seconds: float = 0.0

    @property
    def most(self) -> int:
        """Tenths that none of those left with as few faults surpasses."""
        return at_most(self.bound, self.verdict)


@dataclass(frozen=True, slots=True)
class Family:
    """One way the major pieces can stand, with the best arrangement found of it.

    ``key`` is one (model, wall name or "free", facing) for each major piece.
    """

    key: tuple[tuple[str, str, str], ...]
    score: int
    proven: bool
    arrangement: Arrangement
    faults: int = 0


@dataclass(frozen=True, slots=True)
class Families:
    """All families found; ``complete`` says that there are no others.

    ``undecided`` counts ways to stand that were listed, but for which neither an
    arrangement nor a proof that there is none was found in the time.
    """

    families: tuple[Family, ...]
    complete: bool
    undecided: int = 0


@dataclass(frozen=True, slots=True)
class Result:
    """What ``suggest`` answers. ``bound`` is a standing that nothing surpasses.

    ``why`` is a conflict, where it is impossible and the command looked.
    """

    scenario: Scenario
    outcome: Outcome
    suggestions: tuple[Suggestion, ...]
    bound: int
    seconds: float
    first_seconds: float | None
    seed: int
    interrupted: bool = False
    families: Families | None = None
    notes: tuple[str, ...] = ()
    why: Conflict | None = None


FINEST = 10  # mm that a tape across a room is trusted to


@dataclass(frozen=True, slots=True)
class Spare:
    """Room to spare along one line across the room, or on the way in.

    ``between`` names the two ends, ``line`` what is met between them, in order: names of
    pieces, and mm of floor that they need. Of a line that was read from a file there is one
    text instead; for the way in it is the width asked. ``pieces`` are those on the line.
    ``direction`` is across the plan, up the plan, or the way in.
    ``mm`` is how much longer what is on the line could be in truth (or the span shorter)
    with all pieces still on their walls, turned the same way, as the judge confirms. With
    ``exact`` one cm more works no longer, however the pieces slide; without, ``mm`` is what
    is sure and there may be more. For the way in, ``mm`` is as the pieces stand.
    """

    between: tuple[str, str]
    line: tuple[str | int, ...]
    pieces: tuple[str, ...]
    direction: Literal["across", "up", "way"]
    mm: int
    exact: bool


@dataclass(frozen=True, slots=True)
class Progress:
    """What a watcher is told: what is being looked for and how far it is.

    ``score`` and ``bound`` are standings; ``score`` is ``NOTHING`` before anything
    is found. ``families`` counts the ways found so far, while they are counted. ``after``
    is how many seconds the best so far had taken when it was found.
    """

    stage: str
    rank: int
    score: int
    bound: int
    seconds: float
    families: int = 0
    after: float = 0.0


Listener = Callable[[Progress], None]


Answer = Literal["fits", "cannot fit", "not decided", "not looked at"]
Cause = Literal["", "wishes", "body", "floor", "way"]


@dataclass(frozen=True, slots=True)
class Alone:
    """What is known of one piece alone in the room.

    ``others`` are what it goes with: looked at together with it, or the one that was not
    looked at or cannot fit. ``cause`` says what is too much where it cannot fit, from the
    least that is asked to the most: its body, the floor to use it, the way there, or the
    ``wishes`` that must hold; "" where that was not found out.
    """

    piece: str
    answer: Answer
    others: tuple[str, ...] = ()
    cause: Cause = ""
    wishes: tuple[Wish, ...] = ()


@dataclass(frozen=True, slots=True)
class Checked:
    """The answer on every piece; ``room`` has the faults of the empty room, in sentences."""

    scenario: Scenario
    room: tuple[str, ...]
    findings: tuple[Alone, ...]

    @property
    def fine(self) -> bool:
        """Whether every piece fits alone."""
        return not self.room and all(f.answer == "fits" for f in self.findings)

    @property
    def impossible(self) -> bool:
        """Whether something is proven not to fit."""
        return bool(self.room) or any(f.answer == "cannot fit" for f in self.findings)
