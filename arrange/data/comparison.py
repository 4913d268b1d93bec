"""Options side by side. Lengths in mm, scores in tenths of a point."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from arrange.data.arrangement import Arrangement
from arrange.data.result import Gap, Reason, Spare
from arrange.data.scenario import Scenario

Origin = Literal["searched", "today", "judged again", "read"]
State = Literal["proven", "found", "works", "broken", "impossible", "nothing found"]
LETTERS = "ABCDEF"


@dataclass(frozen=True, slots=True)
class Cost:
    """What is still to buy: the prices given, added up, and what has none.

    ``total`` is None if no price is known at all; ``unpriced`` names the pieces to buy
    without a price.
    """

    total: Decimal | None = None
    unpriced: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unjudged:
    """Why an earlier arrangement could not be judged again, and which scenario ``file`` was meant.

    "unnamed": the result does not say which; "unreadable", "changed" and "missing" are
    what became of the file since.
    """

    why: Literal["unnamed", "unreadable", "changed", "missing"]
    file: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    """One option. ``scenario`` and ``arrangement`` are what its plan is drawn from.

    ``origin`` says where the arrangement comes from: searched for now, as things stand
    today, from an earlier result and judged again, or only read from one. ``broken``
    are the musts it breaks, which only today's arrangement can. ``at_most`` is the most
    that any arrangement of this scenario can score. Without an arrangement the score
    is None and there are no reasons. Scores compare among options of one ``scale``.
    ``left_out`` are pieces of which nobody said where they stand today.
    """

    asked: str
    scenario: Scenario
    origin: Origin
    state: State
    arrangement: Arrangement | None = None
    score: int | None = None
    at_most: int | None = None
    reasons: tuple[Reason, ...] = ()
    broken: tuple[str, ...] = ()
    gaps: tuple[Gap, ...] = ()
    spare: tuple[Spare, ...] = ()
    cost: Cost = Cost()
    left_out: tuple[str, ...] = ()
    unjudged: Unjudged | None = None
    scale: tuple[object, ...] = ()

    @property
    def faults(self) -> int:
        """How many faults of first rank it has."""
        return sum(reason.faults for reason in self.reasons)

    @property
    def works(self) -> bool:
        """Whether there is an arrangement that breaks no must."""
        return self.arrangement is not None and not self.broken


@dataclass(frozen=True, slots=True)
class Row:
    """One rule and what it speaks of, with each option's reason or None.

    ``best`` are the options that do best here, going by the share of the points won;
    none if all that have the row do alike. ``part`` tells rows of one rule and subject
    apart: "to go round the foot".
    """

    rule: str
    subjects: tuple[str, ...]
    title: str
    reasons: tuple[Reason | None, ...]
    best: tuple[int, ...] = ()
    part: str = ""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two to six options, their reasons in rows.

    ``one_scale`` says whether all that have a score share out their points alike: only
    then do the scores compare, and ``best`` names the highest of those with fewest faults.
    """

    options: tuple[Option, ...]
    rows: tuple[Row, ...]
    one_scale: bool
    best: tuple[int, ...] = ()
    interrupted: bool = False

    @property
    def works(self) -> bool:
        """Whether at least one option works."""
        return any(option.works for option in self.options)
