"""What offers of all sorts have in common: costs, what is spared, round values. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator

from arrange.data.change import Change
from arrange.data.giving import Priced
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Unit
from arrange.whatif.give.costs import Costs

TWO_INCHES = 50.8
STEP = 50
FRAIL = {"cot", "bunk"}  # children: nothing beside these comes down below its least


class Offering:
    """Goes through one scenario; ``spared`` are the names that must not be touched."""

    def __init__(self, scenario: Scenario, spared: frozenset[str]) -> None:
        self.scenario = scenario
        self.spared = spared
        self.costs = Costs(scenario)
        self.held = {p.piece for p in scenario.held}
        self.models = {p.name: p.model for p in scenario.pieces}

    def priced(
        self,
        key: str,
        changes: tuple[Change, ...],
        words: str,
        thing: tuple[str, ...],
        touches: frozenset[str] | None,
        *,
        more: int = 0,
        times: int = 1,
        degree: int = 1,
        eases: bool = False,
        below: bool = False,
        note: str = "",
        like: tuple[str, ...] = (),
    ) -> Iterator[Priced]:
        """One candidate, unless such a change is never to be proposed."""
        cost = self.costs.of(key)
        if cost is None:
            return
        yield Priced(
            changes,
            cost * times + more,
            words,
            thing,
            degree,
            touches,
            eases,
            below,
            note,
            like or tuple(self.models.get(name, name) for name in thing),
            self.costs.why(key),
        )


def dependants(scenario: Scenario, name: str) -> list[Piece]:
    """What goes with a piece, and what goes with that, in file order."""
    names = {name}
    while True:
        more = {p.name for p in scenario.pieces if p.anchor in names} - names
        if not more:
            return [p for p in scenario.pieces if p.name in names and p.name != name]
        names |= more


def steps_down(high: int, low: int, unit: Unit) -> list[int]:
    """Round values below ``high``, from the highest, down to and with ``low``."""
    if high <= low:
        return []
    step = TWO_INCHES if unit == "in" else float(STEP)
    first = int(-(-high // step)) - 1
    values = [round(k * step) for k in range(first, 0, -1)]
    return [v for v in values if low < v < high] + [low]
