"""What comes out: breaches, reasons, verdicts, suggestions, the whole result; and room to spare.

``Spare`` says how far a measurement could be wrong before an arrangement stops working,
``Progress`` what a watcher of a long search is told. Lengths in mm, points in tenths.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from arrange.data.arrangement import Arrangement
from arrange.data.conflict import Conflict
from arrange.data.piece import Status
from arrange.data.scenario import Scenario

Outcome = Literal["proven", "found", "impossible", "nothing found"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a value comes from: an id of the reference table, its title, its status."""

    id: str
    title: str
    status: Status


@dataclass(frozen=True, slots=True)
class Breach:
    """A must that is broken: which rule, which pieces, and one sentence."""

    rule: str
    subjects: tuple[str, ...]
    sentence: str


@dataclass(frozen=True, slots=True)
class Reason:
    """One line of the score. Points are tenths, so that 100 points are 1000.

    ``measured`` and ``wanted`` are short texts in the scenario's unit.
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
    """The judge's answer on one arrangement. ``score`` is in tenths of a point."""

    breaches: tuple[Breach, ...]
    reasons: tuple[Reason, ...]
    score: int
    gaps: tuple[Gap, ...] = ()

    @property
    def works(self) -> bool:
        """Whether no must is broken."""
        return not self.breaches


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One arrangement that passed the judge. ``proven``: none of those left is better."""

    rank: int
    arrangement: Arrangement
    verdict: Verdict
    proven: bool
    bound: int
    seconds: float = 0.0


@dataclass(frozen=True, slots=True)
class Family:
    """One way the major pieces can stand, with the best arrangement found of it.

    ``key`` is one (model, wall name or "free", facing) for each major piece.
    """

    key: tuple[tuple[str, str, str], ...]
    score: int
    proven: bool
    arrangement: Arrangement


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
    """What ``suggest`` answers. ``bound`` is the most any arrangement can score (tenths).

    ``why`` is a set of things that clash, where it is impossible and the command looked.
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

    ``score`` and ``bound`` are tenths of a point; ``score`` is -1 before anything
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
