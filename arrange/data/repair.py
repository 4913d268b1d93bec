"""What would have to give: ways to relax a scenario with their effort, and what makes it work.

``Why`` is the whole answer of why nothing works and what would have to give.
"""

from __future__ import annotations

from dataclasses import dataclass

from arrange.data.change import Change
from arrange.data.conflict import Conflicts
from arrange.data.result import Suggestion
from arrange.data.scenario import Scenario


@dataclass(frozen=True, slots=True)
class Relaxation:
    """One thing that could give: the changes it takes, what it costs, and the words.

    ``key`` says what is touched: a sort of change and names. ``level`` counts how
    far, so that of one thing more is given at a higher level. ``touches`` names the
    pieces changed (what goes with one of them follows), None if the room is.
    ``monotone``: it takes demands away and alters nothing else, so what worked before
    works after; ``monotone_unwalked``: where nobody has to walk. ``drops`` are the pieces
    it leaves out. ``below`` says that it goes below a least value that is published or usual,
    which ``note`` then says with its source. ``like`` is equal for things that a person
    would call the same: the two long sides of a bed. ``reason`` says why it costs what it
    costs, for where the cost is shown.
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
