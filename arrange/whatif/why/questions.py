"""Questions of whether some members of a scenario can all hold; arrangements are remembered."""

from __future__ import annotations

from collections.abc import Iterable

from arrange.data.arrangement import Arrangement
from arrange.data.clash import Member
from arrange.data.scenario import Scenario
from arrange.data.settled import Settled
from arrange.rules import active_rules
from arrange.scene import Scene
from arrange.settling import Settler
from arrange.whatif.why.members import effective, members_of, restricted

PATIENCE = 1.0  # s for one question; what takes longer counts as not decided at first
KNOWN = 8  # arrangements remembered, to answer without the solver


class Questions:
    """Asks about members of one scenario; remembers arrangements to answer by."""

    def __init__(self, scenario: Scenario, settler: Settler) -> None:
        self.scenario, self.settler = scenario, settler
        self.members = members_of(scenario)
        self.patience = PATIENCE
        self._known: list[Arrangement] = []

    def settle(
        self, members: Iterable[Member], *, sure: bool = False, patience: float | None = None
    ) -> Settled:
        """Whether these members can all hold; an arrangement shows it."""
        patience = self.patience if patience is None else patience
        asked = restricted(self.scenario, set(members))
        shown = None if sure else self._shown(asked)
        if shown is not None:
            return Settled("works", shown)
        answer = self.settler.settle(asked, seconds=patience, sure=sure)
        if answer.arrangement is not None:
            self._known = [answer.arrangement, *self._known][:KNOWN]
        return answer

    def clashing(
        self, members: Iterable[Member], *, sure: bool = False, patience: float | None = None
    ) -> bool:
        """Whether it is proven that these members cannot all hold, here and in the whole.

        A piece without its tie stands by itself, which may be harder: so the same is
        asked with every tie in place, as in the whole.
        """
        given = set(members)
        if self.settle(given, sure=sure, patience=patience).answer != "impossible":
            return False
        tied = self._tied(given)
        if tied == given:
            return True
        return self.settle(tied, sure=sure, patience=patience).answer == "impossible"

    def _shown(self, asked: Scenario) -> Arrangement | None:
        names = [p.name for p in asked.pieces]
        for known in self._known:
            placed = {p.piece: p for p in known.placements}
            if all(name in placed for name in names):
                part = Arrangement(tuple(placed[name] for name in names))
                if holds(asked, part):
                    return part
        return None

    def _tied(self, members: set[Member]) -> set[Member]:
        """The members with all that their pieces are tied to, and the ties."""
        tied = set(members)
        for piece in self.scenario.pieces * 2:
            if piece.anchor is not None and Member("piece", piece.name) in tied:
                tied |= {Member("tie", piece.name), Member("piece", piece.anchor)}
        return tied

    def with_everything(self, names: Iterable[str]) -> tuple[Member, ...]:
        """All members that say something when only these pieces are there."""
        absent = {p.name for p in self.scenario.pieces} - set(names)
        gone = {Member("piece", name) for name in absent}
        return effective(self.scenario, set(self.members) - gone)


def holds(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether the judge finds no breach; what takes longest is looked at last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.id == "walkway")
    return not any(True for rule in rules for _ in rule.breaches(scene))
