"""What would have to give: ways to relax a scenario with their effort, and what makes it work.

The effort of giving something up is a table of our own that the person can change. The table
is data, in ``efforts.toml``: common practice, no source. The numbers say what takes more doing
than what, and nothing more. Lengths in mm.

Safety is not for sale. There is no number for giving up the escape window or the way to
it, the distance between cots and windows, the distance from what burns, or headroom:
no such change exists and none is ever proposed.

``Why`` is the whole answer of why nothing works and what would have to give.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from arrange.data.change import Change
from arrange.data.conflict import Conflicts
from arrange.data.result import Suggestion
from arrange.data.scenario import Scenario

TABLE = Path(__file__).with_name("efforts.toml")
LOWERED = 50  # mm by which a length comes down for one more "step"


@dataclass(frozen=True, slots=True)
class Below:
    """A named value below the least of a kind, and what it is still good for."""

    to: int
    source: str
    how: str


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


@cache
def usual() -> Mapping[str, int]:
    """The effort of every sort of change, by key, in the order of the table."""
    return {key: row["cost"] for key, row in _table()["cost"].items()}


def effort_words(key: str) -> str:
    """What the effort called ``key`` is for. KeyError if there is none."""
    text: str = _table()["cost"][key]["words"]
    return text


@cache
def below(source_of_least: str) -> Below | None:
    """The named value below a least of that source; None if nothing goes below it."""
    for row in _table()["below"]:
        if row["source_of_least"] == source_of_least:
            return Below(row["to"], row["source"], row["how"])
    return None


@dataclass(frozen=True, slots=True)
class Efforts:
    """The efforts of one scenario: the table with the person's own over it."""

    own: Mapping[str, int | None]

    def of(self, key: str) -> int | None:
        """The effort called ``key``; None if such a change is never to be proposed."""
        return self.own[key] if key in self.own else usual()[key]

    def of_lowering(self, mm: int) -> int:
        """What is added for bringing a length down by so many mm."""
        return -(-mm // LOWERED) * (self.of("step") or 0)

    def reason(self, key: str) -> str:
        """Where the effort called ``key`` comes from, for where it is shown."""
        whose = "your own effort" if key in self.own else "our own judgement, no source"
        return f"{effort_words(key)} ({whose})"


@dataclass(frozen=True, slots=True)
class Relaxation:
    """One thing that could give: the changes it takes, what it costs, and the words.

    ``key`` says what is touched: a sort of change and names. ``level`` counts how
    far, so that of one thing more is given at a higher level. ``touches`` names the
    pieces changed (what goes with one of them follows), None if the room is.
    ``monotone``: it takes demands away and alters nothing else, so what worked before
    works after; ``monotone_unwalked``: where nobody has to walk. ``drops`` are the pieces
    it leaves out. ``below`` says that it goes below a least value that is published or usual,
    which ``note`` then says. ``like`` is equal for things that a person
    would call the same: the two long sides of a bed. ``reason`` says why it costs what it
    costs, for where the cost is shown. ``source`` is who says what the note says, for sheets
    and records.
    """

    changes: tuple[Change, ...]
    cost: int
    words: str
    key: tuple[str, ...]
    level: int = 1
    touches: frozenset[str] | None = frozenset()
    monotone: bool = False
    monotone_unwalked: bool = False
    drops: frozenset[str] = frozenset()
    below: bool = False
    note: str = ""
    like: tuple[str, ...] = ()
    reason: str = ""
    source: str = ""

    @property
    def sentence(self) -> str:
        """The words with the note in brackets."""
        return f"{self.words} ({self.note})" if self.note else self.words

    @property
    def kind(self) -> str:
        """The sort of change."""
        return self.key[0]

    @property
    def names(self) -> tuple[str, ...]:
        """The pieces, doors, windows or fixtures it names, first of all the one changed."""
        return self.key[1:]


@dataclass(frozen=True, slots=True)
class Repair:
    """A set of changes that makes it work, with the best arrangement found of it.

    ``scenario`` is the one after the changes. ``cheapest`` is proven: among the
    candidates no cheaper set makes it work, apart from those that give all that an
    earlier proposal gives.
    """

    gives: tuple[Relaxation, ...]
    scenario: Scenario
    suggestion: Suggestion
    cheapest: bool

    @property
    def cost(self) -> int:
        """What all its changes cost together."""
        return sum(one.cost for one in self.gives)

    @property
    def changes(self) -> tuple[Change, ...]:
        """All its changes, in the order in which they were made."""
        return tuple(change for one in self.gives for change in one.changes)


@dataclass(frozen=True, slots=True)
class Repairs:
    """The cheapest different proposals, cheapest first.

    ``candidates`` counts what could give at all, ``at_once`` how many of them were
    tried together at most. ``closed``: every set up to that number was looked at or
    ruled out, so there are no other proposals of this kind. ``undecided`` counts sets
    on which there was no answer in the time. ``works``: nothing has to give at all.
    """

    scenario: Scenario
    repairs: tuple[Repair, ...]
    candidates: int
    at_once: int
    closed: bool
    undecided: int = 0
    works: bool = False


@dataclass(frozen=True, slots=True)
class Why:
    """The whole answer of ``why``; ``repairs`` is None where nothing has to give.

    Each set of ``conflicts`` has its arithmetic. ``untouchable`` are the names of what
    must not be touched. ``interrupted``: someone asked to stop.
    """

    conflicts: Conflicts
    repairs: Repairs | None
    seed: int
    untouchable: tuple[str, ...] = ()
    interrupted: bool = False
