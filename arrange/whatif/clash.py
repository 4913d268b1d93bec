"""Why nothing works: small sets of things that clash, each proven irreducible.

First whole pieces with everything of theirs: single ones, then the fewest that can be
found; so that the models are tiny. Then member by member inside. A set is
*irreducible*: without any one of its members an arrangement exists. It is not always
the one with the fewest members.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from arrange.data.arrangement import Arrangement
from arrange.data.clash import Clash, Clashes, Member, Without
from arrange.data.scenario import Scenario
from arrange.data.settled import Settled
from arrange.judge import breaches
from arrange.rules import active_rules
from arrange.scene import Scene
from arrange.settling import Settler
from arrange.whatif.members import effective, members_of, restricted

MOST = 3
PATIENCE = 4.0  # s for one question; what takes longer counts as not decided at first
PAIRS = 6  # of the largest pieces are tried in pairs
KNOWN = 8  # arrangements remembered, to answer without the solver
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
    empty = replace(scenario, pieces=(), wishes=(), held=(), today=())
    wrong = tuple(b.sentence for b in breaches(empty, Arrangement(())))
    if wrong:
        return Clashes(scenario, "impossible", wrong)
    whole = settler.settle(scenario, seconds=max(settler.left / 3, 0.01))
    if whole.arrangement is not None:
        return Clashes(scenario, "works", complete=True, arrangement=whole.arrangement)
    hunt = Hunt(scenario, settler)
    sets: list[Clash] = []
    left = [p.name for p in scenario.pieces]
    answer = whole
    while len(sets) < most and left and answer.arrangement is None:
        found = hunt.clash(left, surely=answer.answer == "impossible")
        if found is None:
            break
        sets.append(found)
        left = _apart(scenario, left, found.pieces)
        answer = hunt.settle(hunt.with_everything(left))
    proven = whole.answer == "impossible" or any(clash.confirmed for clash in sets)
    return Clashes(
        scenario,
        "impossible" if proven else "not decided",
        sets=tuple(sets),
        complete=bool(sets) and answer.arrangement is not None,
    )


def _apart(scenario: Scenario, names: Sequence[str], gone: Iterable[str]) -> list[str]:
    """The pieces left without those that are gone and what is tied to them."""
    absent = set(gone)
    for _ in scenario.pieces:
        absent |= {p.name for p in scenario.pieces if p.anchor in absent}
    return [n for n in names if n not in absent]


class Hunt:
    """Looks for sets that clash; remembers arrangements to answer by."""

    def __init__(self, scenario: Scenario, settler: Settler) -> None:
        self.scenario, self.settler = scenario, settler
        self.members = members_of(scenario)
        self._known: list[Arrangement] = []

    # -- questions -------------------------------------------------------
    def settle(self, members: Iterable[Member], *, sure: bool = False) -> Settled:
        """Whether these members can all hold; an arrangement shows it."""
        asked = restricted(self.scenario, set(members))
        shown = None if sure else self._shown(asked)
        if shown is not None:
            return Settled("works", shown)
        answer = self.settler.settle(asked, seconds=PATIENCE, sure=sure)
        if answer.arrangement is not None:
            self._known = [answer.arrangement, *self._known][:KNOWN]
        return answer

    def clashing(self, members: Iterable[Member], *, sure: bool = False) -> bool:
        """Whether it is proven that these members cannot all hold, here and in the whole.

        A piece without its tie stands by itself, which may be harder: so the same is
        asked with every tie in place, as in the whole.
        """
        given = set(members)
        if self.settle(given, sure=sure).answer != "impossible":
            return False
        tied = self._tied(given)
        return tied == given or self.settle(tied, sure=sure).answer == "impossible"

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

    # -- pieces ----------------------------------------------------------
    def clash(self, names: Sequence[str], *, surely: bool) -> Clash | None:
        """A set among these pieces; ``surely`` says that all together are impossible."""
        pieces = self._pieces(names, surely=surely)
        return None if pieces is None else self._inside(pieces)

    def _pieces(self, names: Sequence[str], *, surely: bool) -> list[str] | None:
        """A few pieces that are impossible together, none of which can be left out."""
        order = sorted(names, key=self._size, reverse=True)
        tried: set[str] = set()
        for name in order:
            model = self.scenario.piece(name).model
            if model not in tried and self.clashing(self.with_everything([name])):
                return [name]
            tried.add(model)
        last = self._first(order, [], known=len(order) if surely else None)
        if last is None:
            return None
        chosen, order = [order[last - 1]], order[: last - 1]
        for other in order[:PAIRS]:
            if self.clashing(self.with_everything([*chosen, other])):
                return [*chosen, other]
        while order and not (len(chosen) > 1 and self.clashing(self.with_everything(chosen))):
            last = self._first(order, chosen, known=len(order))
            if last is None:
                break
            chosen.append(order[last - 1])
            order = order[: last - 1]
        return chosen

    def _first(self, order: Sequence[str], held: Sequence[str], known: int | None) -> int | None:
        """How many of ``order`` it takes to be impossible together with ``held``.

        ``known``: with so many it is; None if that is to be found out.
        """
        if known is None:
            if not self.clashing(self.with_everything([*held, *order])):
                return None
            known = len(order)
        low, high = 0, known
        while high - low > 1:
            middle = (low + high) // 2
            if self.clashing(self.with_everything([*held, *order[:middle]])):
                high = middle
            else:
                low = middle
        return high

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

    def _proven(self, kept: list[Member]) -> Clash:
        """The set with its proofs; what turns out not to be needed is left out."""
        while True:
            shown: list[Without] = []
            for member in kept:
                rest = [m for m in kept if m != member]
                answer = self.settle(rest)
                if answer.arrangement is not None:
                    shown.append(Without(member, answer.arrangement))
                elif answer.answer == "impossible" and self.clashing(rest):
                    kept = list(effective(self.scenario, rest))
                    break
            else:
                break
        confirmed = self.clashing(kept, sure=True)
        minimal = confirmed and len(shown) == len(kept)
        return Clash(tuple(kept), confirmed, minimal, tuple(shown))


def holds(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether the judge finds no breach; what takes longest is looked at last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.id == "walkway")
    return not any(True for rule in rules for _ in rule.breaches(scene))
