"""Why nothing works: small sets of things that clash, each proven irreducible.

First whole pieces with everything of theirs: single ones, then the fewest that can be
found; so that the models are tiny. Then member by member inside. A set is
*irreducible*: without any one of its members an arrangement exists. It is not always
the one with the fewest members.
"""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.arrangement import Arrangement
from arrange.data.clash import Clash, Clashes, Member, Without
from arrange.data.scenario import Scenario
from arrange.judge import breaches
from arrange.settling import Settler
from arrange.whatif.why.members import effective, members_of
from arrange.whatif.why.questions import PATIENCE, Questions

MOST = 3
MORE = 4  # times the patience with what was not decided, when it comes to the proof
ATTEMPTS = 4  # at a set, each with other pieces first or more patience
LONG = 9  # rounds of ever more patience for the last attempt at a proof
PAIRS = 6  # of the largest pieces are tried in pairs
# What a person would rather not hear of is left out first, if it can be.
DISPENSABLE = (
    ("sill", "cots", "fixture", "heat", "opening", "escape"),
    ("walkway",),
    ("swing",),
    ("doors",),
    ("headroom", "tie"),
    ("wish",),
    ("held",),
)


def clashes(scenario: Scenario, settler: Settler, most: int = MOST) -> Clashes:
    """Up to ``most`` sets of members that clash, without a piece in common.

    The empty room is looked at first: where it is at fault itself, that is said and
    nothing else. If the time of the settler runs out, the set found so far is not
    yet ``minimal``, or there is none; ``answer`` may be "not decided" then.
    """
    empty = scenario.unfurnished
    wrong = tuple(b.sentence for b in breaches(empty, Arrangement(())))
    if wrong:
        return Clashes(scenario, "impossible", wrong)
    whole = settler.settle(scenario, seconds=MORE * PATIENCE)
    if whole.arrangement is not None:
        return Clashes(scenario, "works", complete=True, arrangement=whole.arrangement)
    hunt = Hunt(scenario, settler)
    sets: list[Clash] = []
    left = [p.name for p in scenario.pieces]
    answer = whole
    while len(sets) < most and left and answer.arrangement is None:
        found = hunt.clash(left)
        if found is None:
            break
        sets.append(found)
        gone = {*found.pieces, *scenario.followers(found.pieces)}
        left = [name for name in left if name not in gone]
        answer = hunt.settle(hunt.with_everything(left))
    proven = whole.answer == "impossible" or any(clash.confirmed for clash in sets)
    return Clashes(
        scenario,
        "impossible" if proven else "not decided",
        sets=tuple(sets),
        complete=bool(sets) and answer.arrangement is not None,
    )


class Hunt(Questions):
    """Looks for sets that clash."""

    def __init__(self, scenario: Scenario, settler: Settler) -> None:
        super().__init__(scenario, settler)
        self._last: set[str] = set()  # pieces to look at last

    # -- pieces ----------------------------------------------------------
    def clash(self, names: Sequence[str]) -> Clash | None:
        """A set among these pieces; None if none is found in the time.

        Where one is hard to prove irreducible, others are tried: without its pieces first.
        """
        self.patience, self._last = PATIENCE, set()
        unproven: Clash | None = None
        for _ in range(ATTEMPTS):
            self.members = members_of(self.scenario)
            pieces = self._pieces(names)
            found = None if pieces is None else self._inside(pieces)
            if found is None:
                self.patience *= MORE
            elif found.minimal or self.settler.left <= 0:
                return found
            else:
                unproven = unproven or found
                self._last |= set(found.pieces)
            if self.settler.left <= 0:
                break
        if unproven is None:
            return None
        return self._proven(list(unproven.members), rounds=LONG)

    def _pieces(self, names: Sequence[str]) -> list[str] | None:
        """A few pieces that are impossible together, as few as can be found soon."""
        order = sorted(names, key=lambda n: (n in self._last, -self._size(n)))
        tried: set[str] = set()
        for name in order:
            model = self.scenario.piece(name).model
            if model not in tried and self.clashing(self.with_everything([name])):
                return [name]
            tried.add(model)
        enough = self._enough(order)
        if enough is None:
            return None
        last, others = enough[-1], enough[:-1]
        for other in others[:PAIRS] if len(others) > 1 else ():
            if self.clashing(self.with_everything([last, other])):
                return [last, other]
        return self._fewer(enough, others[::-1])

    def _enough(self, order: Sequence[str]) -> list[str] | None:
        """The first so many pieces that are impossible together; one less is not known to be.

        A few first, for the sake of small sets. Then the walkway is left out if it can
        be: everything is settled far sooner without it.
        """
        low, high = 1, 0
        for step in (2, 4, 6, 8, len(order)):
            count = min(step, len(order))
            if step == 4 and self.clashing(self._unwalked(order)):
                self.members = self._unwalked(order)
            if self.clashing(self.with_everything(order[:count])):
                high = count
                break
            low = count
        if not high:
            return None
        while high - low > 1:
            middle = (low + high) // 2
            if self.clashing(self.with_everything(order[:middle])):
                high = middle
            else:
                low = middle
        return list(order[:high])

    def _unwalked(self, names: Sequence[str]) -> tuple[Member, ...]:
        """All members of these pieces and the room's but the walkway."""
        rest = set(self.with_everything(names)) - {Member("walkway")}
        return effective(self.scenario, rest)

    def _fewer(self, names: list[str], group: Sequence[str]) -> list[str]:
        """``names`` less as much of the group as can be left out, halving the group."""
        if not group or self.settler.left <= 0:
            return names
        rest = [n for n in names if n not in group]
        if rest and self.clashing(self.with_everything(rest)):
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
    def _inside(self, pieces: Sequence[str]) -> Clash | None:
        """The members among all of these pieces and the room's that clash."""
        kept = list(self.with_everything(pieces))
        if not self.clashing(kept):
            return None
        for kinds in DISPENSABLE:
            kept = self._without(kept, [m for m in kept if m.kind in kinds])
        for name in sorted(pieces, key=self._size):
            kept = self._without(
                kept, [m for m in kept if m.kind == "clearance" and m.name == name]
            )
        return self._proven(kept)

    def _without(self, kept: list[Member], group: Sequence[Member]) -> list[Member]:
        """``kept`` less as much of the group as can be left out, halving the group."""
        if not group or self.settler.left <= 0:
            return kept
        rest = [m for m in kept if m not in group]
        if self.clashing(rest):
            return list(effective(self.scenario, rest))
        if len(group) == 1:
            return kept
        middle = len(group) // 2
        kept = self._without(kept, group[:middle])
        return self._without(kept, group[middle:])

    def _proven(self, kept: list[Member], rounds: int = 1) -> Clash:
        """The set with its proofs; what turns out not to be needed is left out.

        Without one of its members a set may be impossible for another reason: a piece whose
        tie was left out stands by itself, and that may be harder. Then it is not minimal.
        """
        shown: dict[Member, Arrangement] = {}
        pending, late = list(kept), list[Member]()
        patience = MORE * self.patience
        while pending and rounds and self.settler.left > 0:
            member = pending.pop(0)
            rest = [m for m in kept if m != member]
            answer = self.settle(rest, patience=patience)
            if answer.arrangement is not None:
                shown[member] = answer.arrangement
            elif answer.answer == "not decided":
                late.append(member)
            elif self.clashing(rest, patience=patience):
                kept = list(effective(self.scenario, rest))
                pending, late, shown = list(kept), [], {}
            if not pending:
                pending, late, patience, rounds = late, [], MORE * patience, rounds - 1
        confirmed = self.clashing(kept, sure=True, patience=max(self.settler.left, PATIENCE))
        minimal = confirmed and len(shown) == len(kept)
        without = tuple(Without(m, shown[m]) for m in kept if m in shown)
        return Clash(tuple(kept), confirmed, minimal, without)
