"""Sets of relaxations, and what is known not to work, so that a set need not be asked about.

Two proofs, each valid for many sets at once:

- a *core*: with these things given, these pieces alone already find no arrangement.
  Every set that does the same to them, or only less of what merely eases, is as
  impossible, whatever it does to other pieces.
- a *conflict* found elsewhere: a set that leaves all its requirements as they are keeps it.

Smaller strips and narrower walkways can be harder to walk up to, so they ease for
certain only where nobody has to walk. Cores are therefore looked for without the
walkway first: what is impossible then is impossible with any walkway.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from arrange.budget import PROOF_QUESTION
from arrange.data.change import Change, Drop, Loosen, Resize, changed
from arrange.data.conflict import Conflict
from arrange.data.repair import Relaxation
from arrange.data.scenario import Scenario
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.requirements import dropping_eases, keep_only, shrinks, without_search

Chosen = tuple[Relaxation, ...]


def more(chosen: Chosen, offer: Relaxation) -> Chosen | None:
    """A set with an offer more, in place of less of the same thing; in a fixed order.

    None if the offer adds nothing, or makes another one of the set idle.
    """
    rest = tuple(one for one in chosen if one.key != offer.key)
    if any(within(offer, one) or within(one, offer) for one in rest):
        return None
    if any(within(offer, one) for one in chosen):
        return None
    grown = (*rest, offer)
    return tuple(sorted(grown, key=lambda one: (one.cost, one.key, one.level)))


def cost_of(chosen: Chosen) -> int:
    """What a set costs altogether."""
    return sum(one.cost for one in chosen)


def within(one: Relaxation, other: Relaxation) -> bool:
    """Whether ``other`` gives all that ``one`` gives: the same thing as far, or its piece whole."""
    if one.key == other.key:
        return one.level <= other.level
    if one.drops:
        return one.drops <= other.drops
    return bool((one.touches or frozenset()) & other.drops)


def covers(chosen: Chosen, earlier: Chosen) -> bool:
    """Whether a set touches all that an earlier one gives: then it is nothing different."""
    return all(
        any(one.like == other.like or within(one, other) for other in chosen) for one in earlier
    )


def in_order(chosen: Chosen) -> tuple[Change, ...]:
    """All changes of a set, in an order in which each finds what it names.

    Wishes go by number, so they are loosened before any is left out with its piece.
    """
    changes = [change for one in chosen for change in one.changes]
    return tuple(sorted(changes, key=lambda c: (not isinstance(c, Loosen), isinstance(c, Drop))))


class Alike:
    """Tells sets apart that differ in more than which of several alike pieces gives."""

    def __init__(self, scenario: Scenario) -> None:
        apart = {name for wish in scenario.wishes for name in (wish.piece, wish.place)}
        apart |= {p.piece for p in (*scenario.held, *scenario.today)}
        apart |= {p.anchor for p in scenario.pieces if p.anchor is not None}
        self._class: dict[str, Hashable] = {
            p.name: p.name if p.name in apart else (p.alike, p.anchor, scenario.asked_of(p))
            for p in scenario.pieces
        }

    def key(self, chosen: Chosen) -> Hashable:
        """Equal for two sets that are the same up to which alike pieces they concern."""
        parts: dict[tuple[str, ...], list[Hashable]] = {}
        for one in chosen:
            pieces = tuple(name for name in one.names if name in self._class)
            rest = tuple(name for name in one.key if name not in pieces)
            parts.setdefault(pieces, []).append((rest, one.level))
        return frozenset(
            Counter(
                (tuple(self._class[name] for name in pieces), frozenset(Counter(done).items()))
                for pieces, done in parts.items()
            ).items()
        )


@dataclass(frozen=True, slots=True)
class _Core:
    """Pieces that find no arrangement with these things given; ``easing`` merely eases."""

    pieces: frozenset[str]
    given: tuple[Relaxation, ...]
    easing: frozenset[Relaxation]

    def rules_out(self, chosen: Chosen) -> bool:
        """Whether a set does to these pieces what was proven not to work, or less."""
        concerned = [one for one in chosen if concerns(one, self.pieces)]
        exact = {one for one in concerned if one in self.given}
        return not any(self.escapes(one) for one in concerned) and all(
            g in exact or g in self.easing for g in self.given
        )

    def escapes(self, offer: Relaxation) -> bool:
        """Whether an offer does something to these pieces that was not looked at."""
        if not concerns(offer, self.pieces):
            return False
        match = next((g for g in self.given if g.key == offer.key), None)
        return match is None or offer.level > match.level


def concerns(one: Relaxation, pieces: Iterable[str]) -> bool:
    """Whether something given changes one of the pieces, or the room."""
    return one.touches is None or not one.touches.isdisjoint(pieces)


class Nogoods:
    """The proofs so far for one scenario and what could give in it."""

    def __init__(
        self,
        scenario: Scenario,
        oracle: FeasibilityOracle,
        conflicts: Sequence[Conflict],
        offers: Sequence[Relaxation],
    ) -> None:
        self.scenario, self.oracle, self.offers = scenario, oracle, offers
        self.reserve = 0.0  # s of the oracle's time that are not to be used
        self._cores: list[_Core] = []
        self._conflicts = [c.requirements for c in conflicts if c.confirmed]
        self._conflicting = [keep_only(scenario, requirements) for requirements in self._conflicts]
        self._kept: dict[Relaxation, list[bool]] = {}

    def ways_on(self, chosen: Chosen) -> list[Relaxation] | None:
        """Offers of which any larger set that works has one; None if no proof bars the set.

        The fewest of all proofs. A larger set has all that this one has, or more of it.
        """
        ways = [
            [one for one in self.offers if core.escapes(one)]
            for core in self._cores
            if core.rules_out(chosen)
        ]
        rows = [self._keeps(one) for one in chosen]
        ways += [
            [one for one in self.offers if not self._keeps(one)[i]]
            for i in range(len(self._conflicts))
            if all(row[i] for row in rows)
        ]
        return min(ways, key=len, default=None)

    def _keeps(self, one: Relaxation) -> list[bool]:
        """For each conflict, whether a change leaves all that is in it as it is."""
        if one not in self._kept:
            after = changed(self.scenario, one.changes)
            row = []
            for requirements, before in zip(self._conflicts, self._conflicting, strict=True):
                row.append(keep_only(after, requirements) == before)
            self._kept[one] = row
        return self._kept[one]

    def learn(self, chosen: Chosen) -> None:
        """A set is proven not to work: find few pieces to which that is due, and how far."""
        walked = changed(self.scenario, in_order(chosen))
        after = without_search(walked)
        unwalked = self._impossible(after)
        kept = self._fewest(after if unwalked else walked)
        pieces = frozenset(p.name for p in kept.pieces)
        given = {one.key: one for one in chosen if concerns(one, pieces)}
        easing = {one for one in given.values() if self._monotone(one, pieces, unwalked=unwalked)}
        more = [one for one in self._most(pieces) if self._monotone(one, pieces, unwalked=unwalked)]
        for group in (more, [m for m in more if m.touches is None], *([m] for m in more)):
            new = {m.key: m for m in group if given.get(m.key) != m}
            if new and self._still(given | new, pieces, unwalked=unwalked):
                given |= new
                easing |= set(new.values())
        self._cores.append(_Core(pieces, tuple(given.values()), frozenset(easing)))

    def _fewest(self, scenario: Scenario) -> Scenario:
        """As few pieces as are impossible by themselves; what is not decided stays."""
        for core in self._cores:
            alone = _only(scenario, core.pieces)
            if alone is not None and self._impossible(alone):
                scenario = alone
                break
        for piece in reversed(scenario.pieces):
            there = any(p.name == piece.name for p in scenario.pieces)
            if there and _may_go(scenario, piece.name):
                fewer = _without(scenario, piece.name)
                if self._impossible(fewer):
                    scenario = fewer
        return scenario

    def _most(self, pieces: frozenset[str]) -> list[Relaxation]:
        """The most of each thing that concerns some pieces, apart from leaving them out."""
        most: dict[tuple[str, ...], Relaxation] = {}
        for one in self.offers:
            if not one.drops and concerns(one, pieces):
                best = most.setdefault(one.key, one)
                most[one.key] = one if one.level > best.level else best
        return list(most.values())

    def _still(
        self, given: dict[tuple[str, ...], Relaxation], pieces: frozenset[str], *, unwalked: bool
    ) -> bool:
        after = changed(self.scenario, in_order(tuple(given.values())))
        alone = _only(after, pieces)
        if alone is None:
            return False
        return self._impossible(without_search(alone) if unwalked else alone)

    def _monotone(self, one: Relaxation, pieces: frozenset[str], *, unwalked: bool) -> bool:
        """Whether, for these pieces alone, a change only takes demands away."""
        if one.monotone or not unwalked:
            return one.monotone
        if one.monotone_unwalked:
            return True
        # A smaller piece fits where the larger one stood, unless others go by its sides.
        alone = _only(without_search(self.scenario), pieces)
        return alone is not None and all(
            isinstance(c, Resize)
            and (not c.width or shrinks(alone, c.piece, "width"))
            and (not c.depth or shrinks(alone, c.piece, "depth"))
            for c in one.changes
        )

    def _impossible(self, scenario: Scenario) -> bool:
        limit = self.oracle.budget.allow(PROOF_QUESTION, keep=self.reserve)
        if limit <= 0:
            return False
        return self.oracle.decide(scenario, seconds=limit).answer == "impossible"


def _group(scenario: Scenario, name: str) -> frozenset[str]:
    """The piece with all that goes with it."""
    return frozenset({name, *scenario.followers([name])})


def _may_go(scenario: Scenario, name: str) -> bool:
    """Whether leaving it out only eases."""
    return dropping_eases(scenario, _group(scenario, name))


def _without(scenario: Scenario, name: str) -> Scenario:
    return changed(scenario, [*(Drop(n) for n in scenario.followers([name])), Drop(name)])


def _only(scenario: Scenario, pieces: Iterable[str]) -> Scenario | None:
    """Those pieces alone; None if one of them cannot be had alone."""
    wanted = set(pieces)
    for name in [p.name for p in scenario.pieces]:
        if name in wanted or all(p.name != name for p in scenario.pieces):
            continue
        if _group(scenario, name) & wanted or not _may_go(scenario, name):
            return None
        scenario = _without(scenario, name)
    return scenario
