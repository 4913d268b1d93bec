"""The choices in play: what is found and proven of each, and what each has to surpass.

A choice is of no more interest once it is proven that it has no value above its *mark*: what
another one has for as little money. Which those are, which choices are shown, and whether
anything is left open follow from what is known of each. No search in here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby

from arrange.data.arrangement import Arrangement
from arrange.data.choosing import ChoiceOutcome, Tally, spendable
from arrange.data.need import Choice, TooManyWaysError
from arrange.data.result import FULL, NOTHING
from arrange.data.scenario import Scenario
from arrange.errors import Fault, ScenarioError
from arrange.scenario.needs import OpenScenario
from arrange.scoring import scale_of
from arrange.solver.question import Best


@dataclass
class Case:
    """One choice: what is found of it and what is proven. Values, in tenths.

    ``works`` is None while it is not known whether it has any arrangement; ``touched`` is the
    best, once it had its last touch.
    """

    choice: Choice
    area: int
    low: int = NOTHING
    high: int = FULL
    best: Best | None = None
    touched: Best | None = None
    works: bool | None = None
    efforts: int = 0
    scenario: Scenario | None = None

    def __post_init__(self) -> None:
        self.high = FULL - self.choice.lack

    def standing(self, value: int) -> int:
        """The standing that an arrangement of this choice has with that value."""
        return value + self.choice.lack

    def rule_out(self) -> None:
        """It has no arrangement."""
        self.works, self.high = False, NOTHING

    @property
    def arrangement(self) -> Arrangement:
        """The best arrangement found. ValueError if there is none."""
        if self.best is None or self.best.arrangement is None:
            raise ValueError("nothing is found of this choice")
        return self.best.arrangement


class Choices:
    """Every choice that may come into the answer, the cheapest first; those within the budget.

    Raises
    ------
    ScenarioError
        If the file leaves too many ways to choose (``MOST_CHOICES``).
    """

    def __init__(self, file: OpenScenario, further: Decimal) -> None:
        self.file, self.further = file, further
        self.limit = spendable(file.whole.money)
        self.every = self._cases()
        self.within = [c for c in self.every if self.limit is None or c.choice.cost <= self.limit]

    def _cases(self) -> list[Case]:
        needs = self.file.needs
        most = None if self.limit is None else self.limit + self.further
        try:
            found = list(needs.choices(most))
        except TooManyWaysError as error:
            hint = "strike out candidates that you would not have, or decide one need yourself"
            fault = Fault("need", str(error), "fewer can be compared", hint)
            raise ScenarioError(self.file.whole.source_file, (fault,)) from None
        areas = {c.name: c.area for c in needs.candidates}
        cases = [Case(one, sum(areas[name] for name in one.candidates)) for one in found]
        return sorted(cases, key=lambda c: (c.choice.cost, c.choice.candidates))

    # What a choice has to surpass, to be worth anything to the answer.

    @property
    def best(self) -> Case | None:
        """The best choice within the budget found so far; of equal ones the cheapest."""
        found = [c for c in self.within if c.best is not None]
        return max(found, key=lambda c: (c.low, -c.choice.cost), default=None)

    def _marks(self, cases: Sequence[Case], *, for_less: bool) -> list[int]:
        """For each case the value that it must surpass, or nobody needs to know more of it.

        To be the best: that of the best; where it costs less, one as high will do.
        ``for_less``: whatever is to be had for as little money. ``cases`` come the cheapest first.
        """
        best = self.best
        if not for_less:
            if best is None:
                return [NOTHING] * len(cases)
            return [best.low - (c.choice.cost < best.choice.cost) for c in cases]
        marks: list[int] = []
        most = NOTHING
        for _, group in groupby(cases, key=lambda c: c.choice.cost):
            alike = list(group)
            most = max(most, *(c.low for c in alike))
            marks += [most] * len(alike)
        return marks

    def still_open(self, cases: Sequence[Case], *, for_less: bool) -> list[tuple[Case, int]]:
        """Those that may surpass their mark, with it."""
        marks = self._marks(cases, for_less=for_less)
        return [(c, m) for c, m in zip(cases, marks, strict=True) if c.high > m]

    # What is said of all of them.

    @property
    def outcome(self) -> ChoiceOutcome:
        """What is known of those within the budget, taken together."""
        if not self.within:
            return "too dear"
        if self.best is not None:
            return "found" if self.still_open(self.within, for_less=False) else "proven"
        impossible = all(case.works is False for case in self.within)
        return "impossible" if impossible else "nothing found"

    def tally(self, asked: int) -> Tally:
        """What became of those within the budget, after so many questions."""
        open_ = [case for case, _ in self.still_open(self.within, for_less=False)]
        impossible = sum(case.works is False for case in self.within)
        mine = int(self.best is not None and self.best not in open_)
        surpassed = len(self.within) - impossible - len(open_) - mine
        return Tally(len(self.within), surpassed, impossible, len(open_), asked)

    def shown(self, top: int) -> list[Case]:
        """The best choice and others found within the budget, best first."""
        found = [c for c in self.within if c.best is not None]
        found.sort(key=lambda c: (-c.low, c.choice.cost, c.choice.candidates))
        return found[:top]

    def curve(self) -> list[Case]:
        """The choices that no other one found beats on cost and value, the cheapest first."""
        points: list[Case] = []
        found = [c for c in self.every if c.best is not None]
        for case in sorted(found, key=lambda c: (c.choice.cost, -c.low, c.choice.candidates)):
            if not points or case.low > points[-1].low:
                points.append(case)
        return points

    @property
    def one_scale(self) -> bool:
        """Whether the points of all that were looked into are shared out alike."""
        return len({scale_of(c.scenario) for c in self.every if c.scenario is not None}) <= 1

    @property
    def cheapest(self) -> Decimal | None:
        """The least that any choice costs; None where there are too many to tell."""
        if self.every:
            return self.every[0].choice.cost
        try:
            return min(choice.cost for choice in self.file.needs.choices())
        except TooManyWaysError:
            return None
