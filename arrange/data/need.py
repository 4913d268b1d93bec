"""What a room must offer, what could meet it, and what each way to choose costs.

A *need* is what must be possible in the room ("somewhere for two to sleep"). A *candidate* meets
one need or several, and is one piece or several that are got together. Any one that meets a need
will do, unless the need is *counted* ("eat for six"): then certain sets of them will. A *choice*
is a set of candidates none of which could be left out without a need going unmet that the choice
meets.
Money is decimal; points are tenths.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Item = Literal["price", "delivery", "materials", "hours", "sale", "paid"]
MOST_CHOICES = 50_000  # ways to choose that are looked at
MOST_STEPS = 500_000  # taken in looking for them; also where most of them lead nowhere


class TooManyWaysError(ValueError):
    """There are more ways to choose than can be looked at."""


@dataclass(frozen=True, slots=True)
class Need:
    """What must be possible. ``lack`` is what doing without takes off, in tenths; None: a must.

    ``counted`` is what is counted and how much of it there must be, such as ``("seats", 6)``, in
    mm for a length; None where any candidate that meets it will do. ``ways`` are then the sets of
    candidates that are enough together, by name, none of which holds another.
    """

    name: str
    lack: int | None = None
    counted: tuple[str, int] | None = None
    ways: tuple[frozenset[str], ...] = ()


@dataclass(frozen=True, slots=True)
class Post:
    """One line of the account: a sum for so many of something. A sale is below 0."""

    item: Item
    piece: str
    each: Decimal
    count: int = 1

    @property
    def total(self) -> Decimal:
        """What the line comes to."""
        return self.each * self.count


@dataclass(frozen=True, slots=True)
class Candidate:
    """What could meet needs. ``pieces`` are those that come into the room with it, by name.

    One that was ``bought`` by now is in every choice. ``tags`` are what is said of how it feels.
    ``costs`` are what it takes to have it, ``sale`` what is got for it where it is owned and is
    not chosen. ``area`` is the floor its bodies cover, in mm2.
    """

    name: str
    needs: tuple[str, ...]
    pieces: tuple[str, ...]
    costs: tuple[Post, ...] = ()
    sale: tuple[Post, ...] = ()
    owned: bool = False
    area: int = 0
    bought: bool = False
    tags: frozenset[str] = frozenset()

    @property
    def cost(self) -> Decimal:
        """What it takes to have it."""
        return sum((post.total for post in self.costs), Decimal(0))

    @property
    def gives_up(self) -> Decimal:
        """What having it takes, with what selling it would have brought."""
        return self.cost - sum((post.total for post in self.sale), Decimal(0))


@dataclass(frozen=True, slots=True)
class Choice:
    """Names of candidates in the order of the file, the needs they leave unmet, and the account.

    ``unanswered`` are words for the feel that nothing of it is tagged with.
    """

    candidates: tuple[str, ...]
    lacking: tuple[str, ...]
    account: tuple[Post, ...]
    cost: Decimal  # what all of it comes to; below 0 where sales bring more
    lack: int = 0  # tenths that unmet needs and unanswered words take off
    unanswered: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Needs:
    """All needs and candidates of a file, and the account of what is got in any case.

    ``feel`` are the words for the feel that something of the file is tagged with; each that
    nothing chosen answers takes off ``feel_lack`` tenths. ``tags`` are those of what is there in
    any case.
    """

    needs: tuple[Need, ...]
    candidates: tuple[Candidate, ...]
    fixed: tuple[Post, ...] = ()
    feel: tuple[str, ...] = ()
    feel_lack: int = 0
    tags: frozenset[str] = frozenset()

    def candidate(self, name: str) -> Candidate:
        """The candidate called ``name``; KeyError if there is none."""
        for candidate in self.candidates:
            if candidate.name == name:
                return candidate
        raise KeyError(name)

    def meeting(self, need: str) -> tuple[Candidate, ...]:
        """The candidates that meet a need, in the order of the file."""
        return tuple(c for c in self.candidates if need in c.needs)

    def ways(self, need: Need) -> tuple[tuple[Candidate, ...], ...]:
        """The sets of candidates that meet a need, in the order of the file."""
        if need.counted is None:
            return tuple((candidate,) for candidate in self.meeting(need.name))
        return tuple(tuple(c for c in self.candidates if c.name in way) for way in need.ways)

    def met(self, need: Need, chosen: Sequence[Candidate]) -> bool:
        """Whether these candidates meet a need."""
        if need.counted is None:
            return any(need.name in c.needs for c in chosen)
        names = {c.name for c in chosen}
        return any(way <= names for way in need.ways)

    def choice(self, names: Sequence[str]) -> Choice:
        """The choice of these candidates, with its account."""
        wanted = frozenset(names)
        chosen = [c for c in self.candidates if c.name in wanted]
        lacking = [need for need in self.needs if not self.met(need, chosen)]
        sold = [post for c in self.candidates if c.name not in wanted for post in c.sale]
        tags = self.tags.union(*(c.tags for c in chosen))
        unanswered = tuple(word for word in self.feel if word not in tags)
        account = (*self.fixed, *(post for c in chosen for post in c.costs), *sold)
        return Choice(
            tuple(c.name for c in chosen),
            tuple(need.name for need in lacking),
            account,
            sum((post.total for post in account), Decimal(0)),
            sum(need.lack or 0 for need in lacking) + self.feel_lack * len(unanswered),
            unanswered,
        )

    def choices(self, most: Decimal | None = None) -> Iterator[Choice]:
        """Every choice that meets all musts and costs no more than ``most``, each once.

        What was bought is in all of them. What any other candidate is there for must be a need
        that goes unmet without it: nothing is bought that is not needed. At each need not met yet
        one branch for each way to meet it, and one to do without. So each choice is come by: what
        is picked for its needs, one after another, meets all that it meets, and nothing of it can
        be left out.
        TooManyWaysError beyond ``MOST_CHOICES``, or ``MOST_STEPS`` on the way to them.
        """
        bought = tuple(c for c in self.candidates if c.bought)
        nothing = self.choice(tuple(c.name for c in bought)).cost
        ways = [self.ways(need) for need in self.needs]
        seen: set[frozenset[str]] = set()
        steps = 0

        def rest(
            at: int, chosen: tuple[Candidate, ...], without: tuple[Need, ...], cost: Decimal
        ) -> Iterator[Choice]:
            nonlocal steps
            steps += 1
            if len(seen) > MOST_CHOICES or steps > MOST_STEPS:
                raise TooManyWaysError(f"more than {MOST_CHOICES:,} ways to choose")
            if most is not None and cost > most:
                return
            if at == len(self.needs):
                names = frozenset(c.name for c in chosen)
                if names not in seen and self._all_needed(chosen):
                    seen.add(names)
                    yield self.choice(tuple(names))
                return
            need = self.needs[at]
            if self.met(need, chosen):
                yield from rest(at + 1, chosen, without, cost)
                return
            for way in ways[at]:
                more = tuple(c for c in way if c not in chosen)
                grown = (*chosen, *more)
                if not any(self.met(other, grown) for other in without):
                    dearer = sum((c.gives_up for c in more), cost)
                    yield from rest(at + 1, grown, without, dearer)
            if need.lack is not None:
                yield from rest(at + 1, chosen, (*without, need), cost)

        yield from rest(0, bought, (), nothing)

    def _all_needed(self, chosen: Sequence[Candidate]) -> bool:
        """Whether a need goes unmet without each candidate, or it was bought."""
        counted = [need for need in self.needs if need.counted is not None]
        of_counted = {need.name for need in counted}
        for candidate in chosen:
            others = [c for c in chosen if c is not candidate]
            known = of_counted.union(*(c.needs for c in others))
            if candidate.bought or not known.issuperset(candidate.needs):
                continue
            if not any(self.met(n, chosen) and not self.met(n, others) for n in counted):
                return False
        return True
