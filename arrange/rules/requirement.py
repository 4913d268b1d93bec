"""What a rule says can be asked of it: what it requires, how that could give, in what lengths.

Conflicts, ways out, largest sizes and room to spare go by what the rules declare here and
in their own files, and know no rule by its name. Lengths in mm; imports no solver.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.change import Change
from arrange.data.conflict import Requirement
from arrange.data.piece import Piece
from arrange.data.repair import Efforts, Relaxation
from arrange.data.scenario import Scenario, Unit
from arrange.data.sources import COMMON_PRACTICE, body, source
from arrange.geometry.scene import Scene

TWO_INCHES = 50.8
STEP = 50
# Groups of requirements, in the order in which they are read.
PIECES, WISHES, ROOM = range(3)
# How gladly a kind is left out of a conflict, where it can be: the lowest first, what a
# person would rather not hear of. 1 what the room has (a sill, a radiator), 2 the walkway,
# 3 and 4 doors, 5 ties, 6 wishes, 7 what stays, then floor to use a piece, piece by piece.
PIECE_BY_PIECE, NEVER = 8, 9
FRAIL = frozenset({"cot", "bunk"})  # children: nothing beside these comes down below its least


@dataclass(frozen=True, slots=True)
class RequirementKind:
    """A sort of requirement.

    ``id`` is one of its own; ``why.json`` has it. ``group`` and ``reading`` say where it is
    read: among those of one piece, of the wishes, of the room; there first by ``reading``,
    then by the thing it belongs to, then by ``within``; numbers may be shared.
    ``dispensable`` says when it is left out of a conflict: the lowest first, NEVER for what
    all else is about. ``eases`` says whether taking it away only eases.
    """

    id: str
    group: int
    reading: int = 0
    within: int = 0
    dispensable: int = 1
    eases: bool = True


@dataclass(frozen=True, slots=True)
class Quantity:
    """A length that a requirement asks for, and how to bring it down.

    Of ``asked`` mm ``least`` are left at the least. ``side`` is which one of a piece's
    body, else "". ``words`` say what it is a length of. ``order``: the lowest is looked at
    first. ``had`` measures how much of it an arrangement has, where that can be told
    without walking; ``gap`` are the words for a gap that is as wide as it, if it is one
    between bodies that somebody walks through. ``outline`` is what so many mm of it cover
    in an arrangement, None if that is nowhere in particular.
    """

    requirement: Requirement
    asked: int
    least: int
    words: str
    change: Callable[[int], Change]
    side: str = ""
    order: tuple[object, ...] = ()
    had: Callable[[Scene], int] | None = None
    outline: Callable[[Scene, int], Polygon] | None = None
    gap: str = ""


@dataclass(frozen=True, slots=True)
class AskedFloor:
    """Floor that is surely asked for where it lies, in words for a line across and one up.

    ``requirement`` is there where it belongs to a piece; the rest belongs to the room, and
    a line may end at it.
    """

    outline: BaseGeometry
    across: str
    upward: str
    requirement: Requirement | None = None


class Relaxing:
    """What rules need to say how one scenario could give; ``spared`` must not be touched."""

    def __init__(self, scenario: Scenario, spared: frozenset[str] = frozenset()) -> None:
        self.scenario = scenario
        self.spared = spared
        self.efforts = Efforts(dict(scenario.costs.values))
        self.held = {p.piece for p in scenario.held}
        self._here = {p.piece for p in scenario.today}
        self._models = {p.name: p.model for p in scenario.pieces}

    def touchable(self, name: str) -> bool:
        """Whether a piece, door, window or fixture, or the model of a piece, may be changed."""
        return name not in self.spared and self._models.get(name) not in self.spared

    def owned(self, piece: Piece) -> bool:
        """Whether the person has the piece: it says so, or it stands there today."""
        return piece.owned or piece.name in self._here

    def relaxation(
        self,
        effort: str,
        changes: tuple[Change, ...],
        words: str,
        key: tuple[str, ...],
        touches: frozenset[str] | None,
        *,
        more: int = 0,
        times: int = 1,
        level: int = 1,
        monotone: bool = False,
        monotone_unwalked: bool = False,
        drops: frozenset[str] = frozenset(),
        below: bool = False,
        note: str = "",
        source: str = "",
        like: tuple[str, ...] = (),
    ) -> Iterator[Relaxation]:
        """One way to give, by the name of its effort; nothing if it is never to be proposed."""
        cost = self.efforts.of(effort)
        if cost is None:
            return
        yield Relaxation(
            changes,
            cost * times + more,
            words,
            key,
            level,
            touches,
            monotone,
            monotone or monotone_unwalked,
            drops,
            below,
            note,
            like or tuple(self._models.get(name, name) for name in key),
            self.efforts.reason(effort),
            source,
        )


def steps_down(high: int, low: int, unit: Unit) -> list[int]:
    """Round values below ``high``, from the highest, down to and with ``low``."""
    if high <= low:
        return []
    step = TWO_INCHES if unit == "in" else float(STEP)
    first = int(-(-high // step)) - 1
    values = [round(k * step) for k in range(first, 0, -1)]
    return [v for v in values if low < v < high] + [low]


def who_says(id_: str) -> str:
    """Who says so, in a few words: a body with how sure it is, or that nobody does."""
    found = source(id_)
    if found in (COMMON_PRACTICE, source("yours")):
        return found.title
    if found.status == "common practice":
        return COMMON_PRACTICE.title
    return f"{body(id_)}, from memory" if found.status == "memory" else body(id_)
