"""What comes out: breaches, reasons, verdicts, suggestions, the whole result."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
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
