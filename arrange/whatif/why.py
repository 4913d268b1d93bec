"""Why nothing works and what would have to give: the whole answer, within one time limit.

The first half of it are conflicts: small sets of requirements that cannot all hold, each
proven irreducible. First whole pieces with everything of theirs: single ones, then the fewest
that can be found; so that the models are tiny. Then requirement by requirement inside. A set
is *irreducible*: without any one of them an arrangement exists. It is not always the one with
the fewest. The second half are repairs (``arrange.whatif.repair``).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from arrange.budget import (
    CONFLICT_QUESTION,
    COUNTING,
    SEARCHING,
    SOON,
    SUM_SOON,
    Budget,
    refuse_no_time,
)
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.conflict import Conflict, Conflicts, Requirement, Without
from arrange.data.piece import Piece
from arrange.data.repair import Why
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.judge import breaches, works
from arrange.rules.requirement import NEVER, PIECE_BY_PIECE
from arrange.solver.feasibility import FeasibilityOracle, with_ties_that_fit
from arrange.whatif.lacking import arithmetic
from arrange.whatif.requirements import declared, keep_only, kind_of, non_vacuous

DEFAULT_SECONDS = 60.0
T = TypeVar("T")  # a piece by its name, or a requirement
MOST = 3  # conflicts, and repairs
KNOWN = 8  # arrangements remembered, to answer without the solver
MORE = 4  # times the patience with what was not decided, when it comes to the proof
ATTEMPTS = 4  # at a set, each with other pieces first or more patience
LONG = 9  # rounds of ever more patience for the last attempt at a proof
FEW = (2, 4, 6, 8)  # pieces tried together before all are
PAIRS = 6  # of the largest pieces are tried in pairs


def why(
    scenario: Scenario,
    *,
    most: int = MOST,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    untouchable: Collection[str] = (),
    listener: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Why:
    """Why nothing works, with the arithmetic, and the cheapest changes that would help.

    Parameters
    ----------
    scenario
        As ``read`` returns it. If it works, the answer says so and shows it.
    most
        How many sets, and how many proposals of changes, at most; 1 or more.
    seconds
        Time limit for everything, kept within a second.
    seed
        Same scenario, same seed: same answer, unless the time ran out.
    untouchable
        Names of pieces, doors, windows, fixtures, or "walkway", that no proposal may
        change.
    listener
        Told in words what is being looked at.
    stop
        Asked often; once it says yes the answer is what is known so far.

    Raises
    ------
    ValueError
        If ``most`` is below 1 or ``seconds`` is not above 0.
    DisagreementError
        If two solver configurations, or the solver and the judge, do not agree: our bug.
    """
    if most < 1:
        raise ValueError(f"most is {most}; ask for 1 or more")
    refuse_no_time(seconds)
    from arrange.whatif.repair import cheapest_repairs  # noqa: PLC0415

    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, seed)
    oracle.budget = budget.until(SEARCHING)
    listener("looking for what clashes")
    scenario = _without_usual_ties(scenario, oracle)
    found = conflicts(scenario, oracle, most)
    if found.answer != "works" and not (found.sets or found.room):
        oracle.budget = budget  # better one set late than none
        found = conflicts(scenario, oracle, most)
    oracle.budget = budget.until(COUNTING)
    listener("counting what lacks")
    found = with_arithmetic(found, oracle)
    oracle.budget = budget
    repairs = None
    if found.sets:
        listener("looking for what would have to give")
        repairs = cheapest_repairs(scenario, oracle, found.sets, untouchable=untouchable, most=most)
    return Why(found, repairs, seed, tuple(untouchable), budget.stopped)


def _without_usual_ties(scenario: Scenario, oracle: FeasibilityOracle) -> Scenario:
    """The scenario with no tie but those asked for, if it is them that decide.

    A usual tie gives way by itself, so it is no reason why nothing works.
    """
    if not scenario.usual_ties or oracle.decide(scenario).works:
        return scenario
    fitting = with_ties_that_fit(scenario, oracle)
    return scenario.apart(scenario.usual_ties) if fitting == scenario else fitting


def with_why(result: Result, seconds: float, stop: Callable[[], bool]) -> Result:
    """An impossible result with one conflict, if one is found soon.

    ``seconds`` is what is left of the time; no more than 5 of them are taken for the set,
    and up to 30 for its sum, which is the one that ``why`` gives.
    """
    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, result.seed, stop)
    oracle.budget = budget.portion(SOON)
    if oracle.left <= 0:
        return result
    found = conflicts(result.scenario.apart(result.scenario.usual_ties), oracle, 1)
    oracle.budget = budget.portion(SUM_SOON)
    found = with_arithmetic(found, oracle)
    return replace(result, why=found.sets[0]) if found.sets else result


def with_arithmetic(found: Conflicts, oracle: FeasibilityOracle) -> Conflicts:
    """The sets with what lacks in figures, as far as the time goes."""
    scenario = found.scenario
    sets = tuple(
        replace(conflict, arithmetic=arithmetic(scenario, conflict, oracle))
        for conflict in found.sets
    )
    return replace(found, sets=sets)


def conflicts(scenario: Scenario, oracle: FeasibilityOracle, most: int = MOST) -> Conflicts:
    """Up to ``most`` conflicts, without a piece in common.

    The empty room is looked at first: where it is at fault itself, that is said and
    nothing else. If the time of the oracle runs out, the set found so far is not
    yet ``minimal``, or there is none; ``answer`` may be "not decided" then.
    """
    empty = scenario.unfurnished
    wrong = tuple(b.sentence for b in breaches(empty, Arrangement(())))
    if wrong:
        return Conflicts(scenario, "impossible", wrong)
    whole = oracle.decide(scenario, seconds=MORE * CONFLICT_QUESTION)
    if whole.arrangement is not None:
        return Conflicts(scenario, "works", complete=True, arrangement=whole.arrangement)
    finder = ConflictFinder(scenario, oracle)
    sets: list[Conflict] = []
    left = [p.name for p in scenario.pieces]
    answer = whole
    while len(sets) < most and left and answer.arrangement is None:
        found = finder.conflict(left)
        if found is None:
            break
        sets.append(found)
        gone = {*found.pieces, *scenario.followers(found.pieces)}
        left = [name for name in left if name not in gone]
        answer = finder.decide(finder.of_pieces(left))
    proven = whole.answer == "impossible" or any(conflict.confirmed for conflict in sets)
    return Conflicts(
        scenario,
        "impossible" if proven else "not decided",
        sets=tuple(sets),
        complete=bool(sets) and answer.arrangement is not None,
    )


class ConflictFinder:
    """Asks about requirements of one scenario; remembers arrangements to answer by.

    ``patience`` is how many seconds one question may take; it grows with every attempt.
    """

    def __init__(self, scenario: Scenario, oracle: FeasibilityOracle) -> None:
        self.scenario, self.oracle = scenario, oracle
        self.rules = declared(scenario)
        self.patience = CONFLICT_QUESTION
        self._known: list[Arrangement] = []

    # -- questions -------------------------------------------------------
    def decide(
        self,
        requirements: Iterable[Requirement],
        *,
        sure: bool = False,
        patience: float | None = None,
    ) -> Feasibility:
        """Whether these requirements can all hold; an arrangement shows it."""
        patience = self.patience if patience is None else patience
        asked = keep_only(self.scenario, set(requirements))
        shown = None if sure else self._shown(asked)
        if shown is not None:
            return Feasibility("works", shown)
        answer = self.oracle.decide(asked, seconds=patience, sure=sure)
        if answer.arrangement is not None:
            self._known = [answer.arrangement, *self._known][:KNOWN]
        return answer

    def conflicting(
        self,
        requirements: Iterable[Requirement],
        *,
        sure: bool = False,
        patience: float | None = None,
    ) -> bool:
        """Whether it is proven that these cannot all hold, by themselves and in the whole.

        Taking away a requirement may be no relief: a piece without its tie stands by itself,
        which may be harder. So the same is asked with all such in place, as in the whole.
        """
        given = set(requirements)
        if self.decide(given, sure=sure, patience=patience).answer != "impossible":
            return False
        restored = self._restored(given)
        if restored == given:
            return True
        return self.decide(restored, sure=sure, patience=patience).answer == "impossible"

    def _shown(self, asked: Scenario) -> Arrangement | None:
        names = [p.name for p in asked.pieces]
        for known in self._known:
            placed = {p.piece: p for p in known.placements}
            if all(name in placed for name in names):
                part = Arrangement(tuple(placed[name] for name in names))
                if works(asked, part):
                    return part
        return None

    def _restored(self, requirements: set[Requirement]) -> set[Requirement]:
        """With all back, of the pieces that are there, whose absence does not merely ease."""
        whole = set(requirements)
        while True:
            more = {
                back
                for r, rule in self.rules.items()
                if not kind_of(rule, r).eases and Requirement("piece", r.name) in whole
                for back in (r, *rule.rests_on(self.scenario, r))
            }
            if more <= whole:
                return whole
            whole |= more

    def of_pieces(
        self, names: Iterable[str], among: Collection[Requirement] | None = None
    ) -> tuple[Requirement, ...]:
        """Those ``among`` the requirements (all) that say something with only these pieces."""
        absent = {p.name for p in self.scenario.pieces} - set(names)
        gone = {Requirement("piece", name) for name in absent}
        return non_vacuous(self.scenario, set(self.rules if among is None else among) - gone)

    # -- a conflict ------------------------------------------------------
    def conflict(self, names: Sequence[str]) -> Conflict | None:
        """A conflict among these pieces; None if none is found in the time.

        Where one is hard to prove irreducible, others are tried: without its pieces first.
        """
        self.patience = CONFLICT_QUESTION
        unproven: Conflict | None = None
        met: set[str] = set()
        for _ in range(ATTEMPTS):
            found = self._attempt(sorted(names, key=lambda n: (n in met, -self._size(n))))
            if found is None:
                self.patience *= MORE
            elif found.minimal or self.oracle.left <= 0:
                return found
            else:
                unproven = unproven or found
                met |= set(found.pieces)
            if self.oracle.left <= 0:
                break
        if unproven is None:
            return None
        return self._proven(list(unproven.requirements), rounds=LONG)

    def _attempt(self, order: Sequence[str]) -> Conflict | None:
        """A conflict of a few pieces, the first ones rather than the last."""
        alone = self._alone(order)
        if alone is not None:
            return self._inside([alone], self.of_pieces([alone]))
        among = self._among(order)
        pieces = self._together(order, among)
        return None if pieces is None else self._inside(pieces, self.of_pieces(pieces, among))

    # -- pieces ----------------------------------------------------------
    def _alone(self, order: Sequence[str]) -> str | None:
        """The first piece that is impossible by itself, with everything it asks for."""
        tried: set[Piece] = set()
        for name in order:
            alike = self.scenario.piece(name).alike
            if alike not in tried and self.conflicting(self.of_pieces([name])):
                return name
            tried.add(alike)
        return None

    def _among(self, order: Sequence[str]) -> tuple[Requirement, ...]:
        """The requirements to look among: those that a model keeps by itself, if they conflict.

        Everything is decided far sooner without the walkway. But it is the largest two
        pieces that make the smallest conflicts, with all they ask for.
        """
        every = self.of_pieces(order)
        if self.conflicting(self.of_pieces(order[:2])):
            return every
        modelled = non_vacuous(self.scenario, [r for r in every if self.rules[r].in_model])
        return modelled if self.conflicting(modelled) else every

    def _together(self, order: Sequence[str], among: Sequence[Requirement]) -> list[str] | None:
        """A few pieces that are impossible together, as few as can be found soon."""
        first = self._first(order, among)
        if first is None:
            return None
        *others, last = first
        for other in others[:PAIRS] if len(others) > 1 else ():
            if self.conflicting(self.of_pieces([last, other], among)):
                return [last, other]

        def rest(names: list[str]) -> list[str] | None:
            return names if names and self.conflicting(self.of_pieces(names, among)) else None

        return self._less(first, others[::-1], rest)

    def _first(self, order: Sequence[str], among: Sequence[Requirement]) -> list[str] | None:
        """The first so many pieces that are impossible together; one less is not known to be.

        A few first, for the sake of small sets.
        """

        def impossible(count: int) -> bool:
            return self.conflicting(self.of_pieces(order[:count], among))

        low = 1
        for step in (*FEW, len(order)):
            high = min(step, len(order))
            if impossible(high):
                break
            low = high
        else:
            return None
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if impossible(middle) else (middle, high)
        return list(order[:high])

    def _size(self, name: str) -> int:
        """Floor that a piece takes with the floor to use it, in mm2."""
        p = self.scenario.piece(name)
        if p.flat:
            return 0
        deepest = max((c.least for c in p.clearances), default=0)
        return (p.width + deepest) * (p.depth + deepest)

    # -- requirements ----------------------------------------------------
    def _inside(self, pieces: Sequence[str], among: Sequence[Requirement]) -> Conflict | None:
        """The conflict among these requirements, of these pieces and the room's."""
        kept = list(among)
        if not self.conflicting(kept):
            return None

        def rest(requirements: list[Requirement]) -> list[Requirement] | None:
            if not self.conflicting(requirements):
                return None
            return list(non_vacuous(self.scenario, requirements))

        rank = {r: kind_of(rule, r).dispensable for r, rule in self.rules.items()}
        for dispensable in sorted(set(rank.values()) - {PIECE_BY_PIECE, NEVER}):
            kept = self._less(kept, [r for r in kept if rank[r] == dispensable], rest)
        for name in sorted(pieces, key=self._size):
            own = [r for r in kept if rank[r] == PIECE_BY_PIECE and r.name == name]
            kept = self._less(kept, own, rest)
        return self._proven(kept)

    def _less(
        self, kept: list[T], group: Sequence[T], rest: Callable[[list[T]], list[T] | None]
    ) -> list[T]:
        """``kept`` less as much of the group as can be left out, halving the group.

        ``rest`` says what is then left, or None where that would be no conflict any more.
        """
        if not group or self.oracle.left <= 0:
            return kept
        left = rest([one for one in kept if one not in group])
        if left is not None:
            return left
        if len(group) == 1:
            return kept
        middle = len(group) // 2
        kept = self._less(kept, group[:middle], rest)
        return self._less(kept, group[middle:], rest)

    def _proven(self, kept: list[Requirement], rounds: int = 1) -> Conflict:
        """The set with its proofs; what turns out not to be needed is left out.

        Without one of its requirements a set may be impossible for another reason: a piece whose
        tie was left out stands by itself, and that may be harder. Then it is not minimal.
        """
        shown: dict[Requirement, Arrangement] = {}
        pending, late = list(kept), list[Requirement]()
        patience = MORE * self.patience
        while pending and rounds and self.oracle.left > 0:
            requirement = pending.pop(0)
            rest = [r for r in kept if r != requirement]
            answer = self.decide(rest, patience=patience)
            if answer.arrangement is not None:
                shown[requirement] = answer.arrangement
            elif answer.answer == "not decided":
                late.append(requirement)
            elif self.conflicting(rest, patience=patience):
                kept = list(non_vacuous(self.scenario, rest))
                pending, late, shown = list(kept), [], {}
            if not pending:
                pending, late, patience, rounds = late, [], MORE * patience, rounds - 1
        confirmed = self.conflicting(
            kept, sure=True, patience=max(self.oracle.left, CONFLICT_QUESTION)
        )
        minimal = confirmed and len(shown) == len(kept)
        without = tuple(Without(r, shown[r]) for r in kept if r in shown)
        return Conflict(tuple(kept), confirmed, minimal, without)
