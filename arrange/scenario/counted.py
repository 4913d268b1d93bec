"""Needs that are counted: places to eat, to sleep, to hang clothes.

What is counted is what the pieces of a choice offer together, with those that are there in any
case. So a table, its chairs and a bench can be candidates of their own, and which of them are
enough together is found here. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from arrange.data.lengths import measured
from arrange.data.need import Need, Needs
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Unit
from arrange.scenario.faults import Faults
from arrange.scenario.table import Table

MOST_MEETING = 10  # candidates of a counted need: all sets of them are looked at
ON_A_BENCH = 600  # mm of a dining bench for each who sits on it; common practice
BED_FOR_TWO = 1400  # mm: a sofa bed as wide sleeps two; common practice


def seats(scenario: Scenario) -> int:
    """People who find a place at a table to eat at: on chairs, benches and bar stools.

    A seat counts where it stands at a table: a table for four takes four chairs, not six.
    """
    tables = {p.name for p in scenario.pieces if p.is_a("dine")}
    return sum(_sit_on(p) for p in scenario.pieces if p.anchor in tables)


def _sit_on(piece: Piece) -> int:
    if not piece.is_a("dining seat"):
        return 0
    return max(1, piece.width // ON_A_BENCH) if piece.is_a("bench") else 1


def sleepers(scenario: Scenario) -> int:
    """People who find a bed."""
    return sum(_sleep_in(p) for p in scenario.pieces)


def _sleep_in(piece: Piece) -> int:
    if not piece.is_a("sleep"):
        return 0
    unfolds = piece.is_a("sofa") and piece.width >= BED_FOR_TWO
    return 2 if piece.is_a("for two") or piece.kind == "bunk bed" or unfolds else 1


def hanging(scenario: Scenario) -> int:
    """How wide all is together that clothes hang in, from outside to outside."""
    hung_in = (p for p in scenario.pieces if p.is_a("clothes") and p.is_a("tall"))
    return sum(p.width for p in hung_in)


@dataclass(frozen=True)
class Count:
    """One thing to count: how it is read, how it is said, and what to do where it lacks."""

    of: Callable[[Scenario], int]
    verb: str
    most: int
    hint: str
    length: bool = False
    to_write: str = ""  # in the file, where the hint does not say it

    def said(self, amount: int, unit: Unit) -> str:
        """An amount as it is told."""
        if not amount:
            return "nothing" if self.length else "nobody"
        return measured(amount, unit) if self.length else str(amount)


COUNTS = {
    "seats": Count(
        seats,
        "seats",
        24,
        "chairs and benches count only where they find a place at a table",
        to_write=": write meets under them, too, or the same set as under their table",
    ),
    "sleeps": Count(sleepers, "sleeps", 12, "a bed counts for one, or for the two it is made for"),
    "hanging": Count(
        hanging, "hangs", 10_000, "wardrobes and coat racks count by their width", length=True
    ),
}


def counted_in(table: Table) -> tuple[str, int] | None:
    """What a need says is to be counted, and how much of it; None if any candidate will do."""
    given = [key for key in COUNTS if table.has(key)]
    if len(given) > 1:
        table.fault(
            given[1], f"{given[0]} is given, too", "a need counts one thing", "make it two needs"
        )
    found = None
    for key in given:
        count = COUNTS[key]
        read = (
            table.mm(key, 0, 1, count.most) if count.length else table.whole(key, 0, 1, count.most)
        )
        found = found or ((key, read) if read else None)
    return found


def with_ways(
    needs: Needs, scenario: Callable[[Sequence[str]], Scenario], faults: Faults, where: Where
) -> Needs:
    """The needs with the sets of candidates that meet what is counted.

    ``scenario`` gives the room with some candidates alone. What can never be met, and a candidate
    that never helps, are faults.
    """
    made = []
    for need in needs.needs:
        if need.counted is None:
            made.append(need)
            continue
        found = _Counted(needs, need, scenario)
        made.append(replace(need, ways=found.ways))
        for fault in found.faults(where):
            faults.add(*fault)
    return replace(needs, needs=tuple(made))


class Where:
    """Where in the file a need and a candidate stand."""

    def __init__(self, needs: Sequence[str], owners: Sequence[str | None]) -> None:
        self._needs, self._owners = needs, owners

    def need(self, need: Need) -> str:
        """The key that says how much there must be."""
        key = need.counted[0] if need.counted is not None else "name"
        return f"need[{self._needs.index(need.name) + 1}].{key}"

    def piece(self, candidate: str) -> str:
        """The first table of a candidate."""
        return f"piece[{self._owners.index(candidate) + 1}].meets"


class _Counted:
    """One counted need, and which of its candidates are enough together."""

    def __init__(
        self, needs: Needs, need: Need, scenario: Callable[[Sequence[str]], Scenario]
    ) -> None:
        if need.counted is None:
            raise ValueError(f"{need.name} is not counted")
        key, self.amount = need.counted
        self.need, self.count, self._scenario = need, COUNTS[key], scenario
        self.meeting = [c.name for c in needs.meeting(need.name)]
        self.too_many = len(self.meeting) > MOST_MEETING
        self.ways: tuple[frozenset[str], ...] = ()
        for way in self._enough() if not self.too_many else ():
            self.ways = (*self.ways, way)

    def _offered(self, names: Sequence[str]) -> int:
        return self.count.of(self._scenario(names))

    def _enough(self) -> Iterator[frozenset[str]]:
        """All sets that are enough and hold no other such set, the smallest first."""
        for many in range(len(self.meeting) + 1):
            for names in combinations(self.meeting, many):
                known = any(way.issubset(names) for way in self.ways)
                if not known and self._offered(names) >= self.amount:
                    yield frozenset(names)

    def faults(self, where: Where) -> Iterator[tuple[str, str, str, str]]:
        """What is wrong with it, if anything: where, what was given, what is allowed, a hint."""
        room, need, count = self._scenario(()), self.need, self.count
        asked, verb = count.said(self.amount, room.unit), count.verb
        if self.too_many:
            given = f'{len(self.meeting)} candidates meet "{need.name}"'
            hint = "strike out some that you would not have"
            yield where.need(need), given, f"up to {MOST_MEETING} where {verb} are counted", hint
        elif frozenset() in self.ways:
            given = f"what you keep in any case {verb} {asked} already"
            yield where.need(need), given, "nothing is needed for it", "leave this need out"
        elif not self.ways:
            most = count.said(self._offered(self.meeting), room.unit)
            given = f'everything that meets "{need.name}" {verb} {most}'
            yield where.need(need), given, f"you ask for {asked}", count.hint + count.to_write
        else:
            for name in self.meeting:
                if not any(name in way for way in self.ways):
                    alone = count.said(self._offered((name,)), room.unit)
                    given = f'"{name}" {verb} {alone} by itself'
                    allowed = f"it is never needed to get to {asked}"
                    yield where.piece(name), given, allowed, count.hint + count.to_write
