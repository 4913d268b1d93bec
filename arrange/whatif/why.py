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

from arrange.budget import CLASH_QUESTION, COUNTING, SEARCHING, SOON, SUM_SOON, Budget
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.conflict import Conflict, Conflicts, Requirement, Without
from arrange.data.piece import Piece
from arrange.data.repair import Why
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.judge import breaches, works
from arrange.rules.requirement import NEVER, PIECE_BY_PIECE
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.lacking import arithmetic
from arrange.whatif.requirements import declared, keep_only, kind_of, non_vacuous

DEFAULT_SECONDS = 60.0
MOST = 3  # conflicts, and repairs
KNOWN = 8  # arrangements remembered, to answer without the solver
MORE = 4  # times the patience with what was not decided, when it comes to the proof
ATTEMPTS = 4  # at a set, each with other pieces first or more patience
LONG = 9  # rounds of ever more patience for the last attempt at a proof
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
    if not seconds > 0:
        raise ValueError(f"seconds is {seconds}; allow more than 0")
    from arrange.whatif.repair import cheapest_repairs  # noqa: PLC0415

    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, seed)
    oracle.budget = budget.until(SEARCHING)
    listener("looking for what clashes")
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


def with_why(result: Result, seconds: float, stop: Callable[[], bool]) -> Result:
    """An impossible result with one set that clashes, if one is found soon.

    ``seconds`` is what is left of the time; no more than 5 of them are taken for the set,
    and up to 30 for its sum, which is the one that ``why`` gives.
    """
    budget = Budget(seconds, stop)
    oracle = FeasibilityOracle(seconds, result.seed, stop)
    oracle.budget = budget.portion(SOON)
    if oracle.left <= 0:
        return result
    found = conflicts(result.scenario, oracle, 1)
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
    """Up to ``most`` sets of members that clash, without a piece in common.

    The empty room is looked at first: where it is at fault itself, that is said and
    nothing else. If the time of the oracle runs out, the set found so far is not
    yet ``minimal``, or there is none; ``answer`` may be "not decided" then.
    """
    empty = scenario.unfurnished
    wrong = tuple(b.sentence for b in breaches(empty, Arrangement(())))
    if wrong:
        return Conflicts(scenario, "impossible", wrong)
    whole = oracle.decide(scenario, seconds=MORE * CLASH_QUESTION)
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
        answer = finder.decide(finder.with_everything(left))
    proven = whole.answer == "impossible" or any(conflict.confirmed for conflict in sets)
    return Conflicts(
        scenario,
        "impossible" if proven else "not decided",
        sets=tuple(sets),
        complete=bool(sets) and answer.arrangement is not None,
    )


class ConflictFinder:
    """Asks about requirements of one scenario; remembers arrangements to answer by."""

    def __init__(self, scenario: Scenario, oracle: FeasibilityOracle) -> None:
        self.scenario, self.oracle = scenario, oracle
        self.rules = declared(scenario)
        self.requirements = tuple(self.rules)
        self.patience = CLASH_QUESTION
        self._known: list[Arrangement] = []
        self._last: set[str] = set()  # pieces to look at last

    # -- questions -------------------------------------------------------
    def decide(
        self,
        requirements: Iterable[Requirement],
        *,
        sure: bool = False,
        patience: float | None = None,
    ) -> Feasibility:
        """Whether these members can all hold; an arrangement shows it."""
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
        """Whether it is proven that these members cannot all hold, here and in the whole.

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

    def with_everything(self, names: Iterable[str]) -> tuple[Requirement, ...]:
        """All members that say something when only these pieces are there."""
        absent = {p.name for p in self.scenario.pieces} - set(names)
        gone = {Requirement("piece", name) for name in absent}
        return non_vacuous(self.scenario, set(self.requirements) - gone)

    # -- pieces ----------------------------------------------------------
    def conflict(self, names: Sequence[str]) -> Conflict | None:
        """A set among these pieces; None if none is found in the time.

        Where one is hard to prove irreducible, others are tried: without its pieces first.
        """
        self.patience, self._last = CLASH_QUESTION, set()
        unproven: Conflict | None = None
        for _ in range(ATTEMPTS):
            self.requirements = tuple(self.rules)
            pieces = self._pieces(names)
            found = None if pieces is None else self._inside(pieces)
            if found is None:
                self.patience *= MORE
            elif found.minimal or self.oracle.left <= 0:
                return found
            else:
                unproven = unproven or found
                self._last |= set(found.pieces)
            if self.oracle.left <= 0:
                break
        if unproven is None:
            return None
        return self._proven(list(unproven.requirements), rounds=LONG)

    def _pieces(self, names: Sequence[str]) -> list[str] | None:
        """A few pieces that are impossible together, as few as can be found soon."""
        order = sorted(names, key=lambda n: (n in self._last, -self._size(n)))
        tried: set[Piece] = set()
        for name in order:
            alike = self.scenario.piece(name).alike
            if alike not in tried and self.conflicting(self.with_everything([name])):
                return [name]
            tried.add(alike)
        enough = self._enough(order)
        if enough is None:
            return None
        last, others = enough[-1], enough[:-1]
        for other in others[:PAIRS] if len(others) > 1 else ():
            if self.conflicting(self.with_everything([last, other])):
                return [last, other]
        return self._fewer(enough, others[::-1])

    def _enough(self, order: Sequence[str]) -> list[str] | None:
        """The first so many pieces that are impossible together; one less is not known to be.

        A few first, for the sake of small sets. Then what no model keeps is left out if
        it can be: everything is decided far sooner without the walkway.
        """
        low, high = 1, 0
        for step in (2, 4, 6, 8, len(order)):
            count = min(step, len(order))
            if step == 4 and self.conflicting(self._modelled(order)):
                self.requirements = self._modelled(order)
            if self.conflicting(self.with_everything(order[:count])):
                high = count
                break
            low = count
        if not high:
            return None
        while high - low > 1:
            middle = (low + high) // 2
            if self.conflicting(self.with_everything(order[:middle])):
                high = middle
            else:
                low = middle
        return list(order[:high])

    def _modelled(self, names: Sequence[str]) -> tuple[Requirement, ...]:
        """All requirements of these pieces and the room's that a model keeps by itself."""
        every = self.with_everything(names)
        return non_vacuous(self.scenario, [r for r in every if self.rules[r].in_model])

    def _fewer(self, names: list[str], group: Sequence[str]) -> list[str]:
        """``names`` less as much of the group as can be left out, halving the group."""
        if not group or self.oracle.left <= 0:
            return names
        rest = [n for n in names if n not in group]
        if rest and self.conflicting(self.with_everything(rest)):
            return rest
        if len(group) == 1:
            return names
        middle = len(group) // 2
        return self._fewer(self._fewer(names, group[:middle]), group[middle:])

    def _size(self, name: str) -> int:
        """Floor that a piece takes with the floor to use it, in mm2."""
        p = self.scenario.piece(name)
        if p.flat:
            return 0
        deepest = max((c.least for c in p.clearances), default=0)
        return (p.width + deepest) * (p.depth + deepest)

    # -- members ---------------------------------------------------------
    def _inside(self, pieces: Sequence[str]) -> Conflict | None:
        """The members among all of these pieces and the room's that clash."""
        kept = list(self.with_everything(pieces))
        if not self.conflicting(kept):
            return None
        rank = {r: kind_of(rule, r).dispensable for r, rule in self.rules.items()}
        for dispensable in sorted(set(rank.values()) - {PIECE_BY_PIECE, NEVER}):
            kept = self._without(kept, [r for r in kept if rank[r] == dispensable])
        for name in sorted(pieces, key=self._size):
            own = [r for r in kept if rank[r] == PIECE_BY_PIECE and r.name == name]
            kept = self._without(kept, own)
        return self._proven(kept)

    def _without(self, kept: list[Requirement], group: Sequence[Requirement]) -> list[Requirement]:
        """``kept`` less as much of the group as can be left out, halving the group."""
        if not group or self.oracle.left <= 0:
            return kept
        rest = [m for m in kept if m not in group]
        if self.conflicting(rest):
            return list(non_vacuous(self.scenario, rest))
        if len(group) == 1:
            return kept
        middle = len(group) // 2
        kept = self._without(kept, group[:middle])
        return self._without(kept, group[middle:])

    def _proven(self, kept: list[Requirement], rounds: int = 1) -> Conflict:
        """The set with its proofs; what turns out not to be needed is left out.

        Without one of its members a set may be impossible for another reason: a piece whose
        tie was left out stands by itself, and that may be harder. Then it is not minimal.
        """
        shown: dict[Requirement, Arrangement] = {}
        pending, late = list(kept), list[Requirement]()
        patience = MORE * self.patience
        while pending and rounds and self.oracle.left > 0:
            requirement = pending.pop(0)
            rest = [m for m in kept if m != requirement]
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
            kept, sure=True, patience=max(self.oracle.left, CLASH_QUESTION)
        )
        minimal = confirmed and len(shown) == len(kept)
        without = tuple(Without(m, shown[m]) for m in kept if m in shown)
        return Conflict(tuple(kept), confirmed, minimal, without)
