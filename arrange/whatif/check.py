"""Which pieces cannot fit whatever happens: each one alone in the empty room.

A piece that finds no place in the empty room finds none in a full one. A piece
that goes with another is looked at together with that one. No points count
here, only the musts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.result import Alone, Cause, Checked, Outcome
from arrange.data.scenario import Scenario, Wish
from arrange.judge import breaches
from arrange.scoring import musts_only
from arrange.suggesting import suggest

DEFAULT_SECONDS = 30.0


def check(
    scenario: Scenario,
    *,
    seconds: float = DEFAULT_SECONDS,
    stop: Callable[[], bool] = lambda: False,
) -> Checked:
    """Whether each piece finds a place in the empty room, with the floor it needs.

    ``seconds`` is for all pieces together; those it leaves out are "not decided".
    A piece whose companion cannot fit is "not looked at". Alike pieces are
    looked at once.
    """
    empty = scenario.unfurnished
    wrong = tuple(b.sentence for b in breaches(empty, Arrangement(())))
    if wrong:
        # The same fault would be found again with every piece.
        waiting = tuple(Alone(p.name, "not looked at") for p in scenario.pieces)
        return Checked(scenario, wrong, waiting)
    run = _Run(scenario, Budget(seconds, stop))
    return Checked(scenario, (), tuple(run.finding(p) for p in scenario.pieces))


class _Run:
    """Answers on single pieces, remembered."""

    def __init__(self, scenario: Scenario, budget: Budget) -> None:
        self.scenario = scenario
        self.budget = budget
        self._outcomes: dict[Scenario, Outcome] = {}
        self._findings: dict[str, Alone] = {}

    def finding(self, piece: Piece) -> Alone:
        if piece.name not in self._findings:
            self._findings[piece.name] = self._look(piece)
        return self._findings[piece.name]

    def _look(self, piece: Piece) -> Alone:
        group = _with_companions(self.scenario, piece)
        for other in group[1:]:
            if self.finding(other).answer != "fits":
                return Alone(piece.name, "not looked at", (other.name,))
        alone = _alone(self.scenario, group)
        outcome = self._outcome(alone)
        if outcome == "impossible":
            others = tuple(p.name for p in group[1:])
            return Alone(piece.name, "cannot fit", others, *self._cause(alone))
        if outcome == "nothing found":
            return Alone(piece.name, "not decided")
        return Alone(piece.name, "fits")

    def _outcome(self, scenario: Scenario) -> Outcome:
        """Names do not matter, so that alike pieces are solved once."""
        anonymous = _anonymous(scenario)
        if anonymous not in self._outcomes:
            if self.budget.left <= 0:
                return "nothing found"
            self._outcomes[anonymous] = self._asked(scenario)
        return self._outcomes[anonymous]

    def _asked(self, scenario: Scenario) -> Outcome:
        """Whether anything works, which is quick; a no is the whole search's to say."""
        # The solver takes a while to import.
        from arrange.solver.feasibility import FeasibilityOracle  # noqa: PLC0415

        oracle = FeasibilityOracle(self.budget.left, stop=lambda: self.budget.stopped)
        if oracle.decide(scenario).works:
            return "found"
        if oracle.left <= 0:
            return "nothing found"
        return suggest(
            scenario, top=1, seconds=oracle.left, stop=lambda: self.budget.stopped
        ).outcome

    def _cause(self, alone: Scenario) -> tuple[Cause, tuple[Wish, ...]]:
        """What would have to give, from the least that is asked to the most."""
        calm = replace(alone, wishes=())
        if alone.wishes and self._works(calm):
            return "wishes", alone.wishes
        if self._outcome(_bare(calm)) == "impossible":
            return "body", ()
        usable = self._outcome(_unwalked(calm))
        if usable == "impossible":
            return "floor", ()
        return "" if usable == "nothing found" else "way", ()

    def _works(self, scenario: Scenario) -> bool:
        return self._outcome(scenario) in ("proven", "found")


def _with_companions(scenario: Scenario, piece: Piece) -> list[Piece]:
    """The piece, what it goes with, what that goes with, ..."""
    group = [piece]
    while group[-1].anchor is not None:
        group.append(scenario.piece(group[-1].anchor))
    return group


def _alone(scenario: Scenario, group: list[Piece]) -> Scenario:
    """Only these pieces, only the musts."""
    names = {p.name for p in group}
    # A name given to several pieces may ask something of those left out.
    absent = {n for p in scenario.pieces for n in (p.name, p.model)} - names
    wishes = tuple(
        w for w in scenario.wishes if w.must and w.piece in names and w.place not in absent
    )
    held = tuple(p for p in scenario.held if p.piece in names)
    alone = replace(scenario, pieces=tuple(group), wishes=wishes, held=held, title="alone")
    return musts_only(alone)


def _anonymous(scenario: Scenario) -> Scenario:
    names = {p.name: f"piece {i}" for i, p in enumerate(scenario.pieces)}
    pieces = tuple(
        replace(
            p.unpriced,
            name=names[p.name],
            model=names[p.name],
            short="",
            goes_with=(),
            anchor=None if p.anchor is None else names[p.anchor],
        )
        for p in scenario.pieces
    )
    wishes = tuple(
        replace(w, piece=names[w.piece], place=names.get(w.place, w.place)) for w in scenario.wishes
    )
    held = tuple(replace(p, piece=names[p.piece]) for p in scenario.held)
    return replace(scenario, pieces=pieces, wishes=wishes, held=held, today=())


def _bare(scenario: Scenario) -> Scenario:
    """The bodies alone, without floor to use them."""
    return replace(scenario, pieces=tuple(replace(p, clearances=()) for p in scenario.pieces))


def _unwalked(scenario: Scenario) -> Scenario:
    """With the floor to use the pieces, but no way there."""
    return replace(
        scenario,
        pieces=tuple(
            replace(p, clearances=tuple(replace(c, walk=False) for c in p.clearances))
            for p in scenario.pieces
        ),
    )
