"""What choosing answers: the best choice with its plan, others, and what each sum buys."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from arrange.data.need import Choice, Needs
from arrange.data.result import Result, Suggestion, Verdict
from arrange.data.scenario import Money, Scenario

# "too dear": no choice is within the budget, by the prices alone.
ChoiceOutcome = Literal["proven", "found", "impossible", "too dear", "nothing found"]


@dataclass(frozen=True, slots=True)
class Pick:
    """A choice with the best arrangement found of it.

    ``value`` is what choices are ordered by: the standing of its arrangement less what its
    unmet needs take off, in tenths. None of this choice has a higher one than ``bound``;
    ``elsewhere``, none of those in which the main pieces stand differently from what is shown
    before.
    """

    choice: Choice
    result: Result
    value: int
    bound: int
    elsewhere: bool = False

    @property
    def proven(self) -> bool:
        """Whether no arrangement that it is held against has a higher value."""
        return self.value >= self.bound

    @property
    def suggestion(self) -> Suggestion:
        """Its arrangement."""
        return self.result.suggestions[0]

    @property
    def scenario(self) -> Scenario:
        """The room with what was chosen."""
        return self.result.scenario

    @property
    def verdict(self) -> Verdict:
        """The judge's verdict on its arrangement."""
        return self.suggestion.verdict

    @property
    def points(self) -> int:
        """Tenths of its plan, less what its unmet needs take off; faults are told apart."""
        return self.verdict.score - self.choice.lack


@dataclass(frozen=True, slots=True)
class Tally:
    """What became of the choices that cost no more than may be spent.

    ``surpassed``: proven to be no better than the best; ``impossible``: proven to have no
    arrangement; ``open``: neither, nor the best. ``asked`` counts questions to the solver about
    all choices, also dearer ones.
    """

    choices: int
    surpassed: int
    impossible: int
    open: int
    asked: int = 0


@dataclass(frozen=True, slots=True)
class Choosing:
    """The answer. ``picks`` are the best choice, others, and the best one arranged otherwise.

    The best comes first. ``curve`` are the choices that no other one beats on cost and value,
    the cheapest first, up to ``further`` more than may be spent; ``complete`` says that all of
    these are proven and none is missing. ``one_scale`` says that the points of all choices are
    shared out alike. ``cheapest`` is the least that any choice costs.
    """

    needs: Needs
    whole: Scenario
    outcome: ChoiceOutcome
    picks: tuple[Pick, ...]
    curve: tuple[Pick, ...]
    complete: bool
    tally: Tally
    further: Decimal
    seconds: float
    first_seconds: float | None
    seed: int
    interrupted: bool = False
    one_scale: bool = True
    cheapest: Decimal | None = None

    @property
    def money(self) -> Money:
        """The budget of the file."""
        return self.whole.money

    @property
    def spendable(self) -> Decimal | None:
        """What may be spent: the budget less what is set aside; None without a budget."""
        return spendable(self.money)

    @property
    def best(self) -> Pick | None:
        """The best choice found that costs no more than may be spent."""
        return self.picks[0] if self.picks else None


def spendable(money: Money) -> Decimal | None:
    """The budget less what is set aside for surprises, and what comes in; None without a budget."""
    return None if money.budget is None else money.budget - money.kept + money.comes_in
