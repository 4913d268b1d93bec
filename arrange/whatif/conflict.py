"""What can be taken away from a scenario, and the scenario in which only some of it holds.

The room itself stays: its outline, ceiling, what is built in, and that bodies do not
share space. That a piece stands with its back to a wall is part of the piece. Lengths
in mm.

Questions of whether some members of a scenario can all hold; arrangements are remembered.

Why nothing works: small sets of things that clash, each proven irreducible.

First whole pieces with everything of theirs: single ones, then the fewest that can be
found; so that the models are tiny. Then member by member inside. A set is
*irreducible*: without any one of its members an arrangement exists. It is not always
the one with the fewest members.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from arrange.budget import CLASH_QUESTION
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.change import changed
from arrange.data.conflict import Conflict, Conflicts, Requirement, Without
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Door, Fixture, Room, Window
from arrange.data.scenario import Scenario, Wish
from arrange.geometry.scene import Scene
from arrange.judge import breaches
from arrange.rules import active_rules
from arrange.rules.cot_window import CotWindow
from arrange.rules.door_floor import DoorFloor
from arrange.rules.escape_window import EscapeWindow
from arrange.rules.headroom import Headroom
from arrange.rules.heat import Heat
from arrange.rules.walkway import Walkway
from arrange.rules.windows_clear import WindowsClear
from arrange.scoring import musts_only
from arrange.solver.feasibility import FeasibilityOracle

NEVER = 10**6  # mm; a sill so high that nothing stands across its window


def requirements_of(scenario: Scenario) -> tuple[Requirement, ...]:
    """Everything that can be taken away: each piece with its own, then the room's."""
    found: list[Requirement] = []
    for piece in scenario.pieces:
        found += _of_piece(scenario, piece)
    found += [Requirement("wish", w.piece, str(i)) for i, w in enumerate(scenario.wishes) if w.must]
    return (*found, *_of_room(scenario))


def _of_piece(scenario: Scenario, piece: Piece) -> list[Requirement]:
    found = [Requirement("piece", piece.name)]
    found += [Requirement("clearance", piece.name, c.name) for c in piece.clearances if c.least > 0]
    if piece.headroom and _on(scenario, Headroom.id):
        found.append(Requirement("headroom", piece.name))
    if piece.anchor is not None:
        found.append(Requirement("tie", piece.name))
    if any(p.piece == piece.name for p in scenario.held):
        found.append(Requirement("held", piece.name))
    return found


def _of_room(scenario: Scenario) -> list[Requirement]:
    room = scenario.room
    found = [Requirement("walkway")] if scenario.walks else []
    if room.doors and _on(scenario, DoorFloor.id):
        found.append(Requirement("doors"))
        found += [Requirement("swing", d.name) for d in room.doors if _swings(scenario, d)]
    for fixture in room.fixtures:
        if fixture.burns and _on(scenario, Heat.id):
            found.append(Requirement("heat", fixture.name))
        elif fixture.keep and not fixture.burns:
            found.append(Requirement("fixture", fixture.name))
    for window in room.windows:
        if window.escape and (scenario.walks or _on(scenario, EscapeWindow.id)):
            found.append(Requirement("escape", window.name))
        if window.must_open and scenario.walks:
            found.append(Requirement("opening", window.name))
        if _on(scenario, WindowsClear.id):
            found.append(Requirement("sill", window.name))
    if room.windows and _on(scenario, CotWindow.id) and any(p.is_a("cot") for p in scenario.pieces):
        found.append(Requirement("cots"))
    return found


def _on(scenario: Scenario, rule: str) -> bool:
    return not scenario.setting(rule).off


def _swings(scenario: Scenario, door: Door) -> bool:
    """Whether its leaf takes more floor than stepping in does."""
    return door.opens == "in" and door.width > scenario.walkway


def needed(scenario: Scenario, requirement: Requirement) -> frozenset[str]:
    """The pieces without which a member says nothing; KeyError if there is no such piece."""
    if requirement.kind == "tie":
        return frozenset(
            {requirement.name, scenario.piece(requirement.name).anchor or requirement.name}
        )
    if requirement.kind == "wish":
        wish = scenario.wishes[int(requirement.part)]
        return frozenset({wish.piece}) | _meant(scenario, wish)
    if requirement.kind in ("piece", "clearance", "headroom", "held"):
        return frozenset({scenario.piece(requirement.name).name})
    return frozenset()


def _meant(scenario: Scenario, wish: Wish) -> frozenset[str]:
    """The pieces that the place of a wish means; none if it is no piece."""
    exact = {p.name for p in scenario.pieces if p.name == wish.place}
    alike = {p.name for p in scenario.pieces if p.model == wish.place}
    return frozenset((exact or alike) - {wish.piece})


def non_vacuous(
    scenario: Scenario, requirements: Collection[Requirement]
) -> tuple[Requirement, ...]:
    """Those members, in the order of ``requirements_of``, that say something in this company.

    A clearance says nothing without its piece, a tie nothing without both pieces, a
    swing or the walkway nothing without the floor inside the doors, where it begins, a
    window to open nothing without the walkway.
    """
    given = set(requirements)
    room_asks = bool(scenario.room.doors) and _on(scenario, DoorFloor.id)
    pieces = {m.name for m in given if m.kind == "piece"}
    if room_asks and Requirement("doors") not in given:
        given = {m for m in given if m.kind not in ("swing", "walkway")}
    if Requirement("walkway") not in given:
        given = {m for m in given if m.kind != "opening"}
    return tuple(
        m for m in requirements_of(scenario) if m in given and needed(scenario, m) <= pieces
    )


def keep_only(scenario: Scenario, requirements: Collection[Requirement]) -> Scenario:
    """The scenario in which only these members hold, and no wish earns points.

    Pieces not among them are absent. A piece without its tie stands as its kind does
    by itself. Nobody knows where things stand today.
    """
    held = set(non_vacuous(scenario, requirements))
    pieces = tuple(_piece(p, held) for p in scenario.pieces if Requirement("piece", p.name) in held)
    room = _room(scenario, held)
    settings = scenario.settings
    for rule, requirement in (
        (Walkway.id, Requirement("walkway")),
        (DoorFloor.id, Requirement("doors")),
        (CotWindow.id, Requirement("cots")),
    ):
        if requirement not in held:
            kept = tuple(s for s in settings if s.rule != rule)
            settings = (*kept, replace(scenario.setting(rule), off=True))
    rest = replace(
        scenario,
        room=room,
        pieces=pieces,
        wishes=(),
        settings=settings,
        today=(),
        held=tuple(p for p in scenario.held if Requirement("held", p.piece) in held),
        expected=None,
    )
    apart = changed(rest, ())
    return musts_only(replace(apart, wishes=_wishes(scenario, apart, held)))


def _piece(piece: Piece, held: set[Requirement]) -> Piece:
    clearances = tuple(
        c if Requirement("clearance", piece.name, c.name) in held else replace(c, least=0)
        for c in piece.clearances
    )
    piece = replace(piece, clearances=clearances)
    if Requirement("headroom", piece.name) not in held:
        piece = replace(piece, headroom=0)
    return (
        piece if Requirement("tie", piece.name) in held else replace(piece, anchor=None, slots=())
    )


def _room(scenario: Scenario, held: set[Requirement]) -> Room:
    def door(d: Door) -> Door:
        loose = _swings(scenario, d) and Requirement("swing", d.name) not in held
        return replace(d, opens="out") if loose else d

    def fixture(f: Fixture) -> Fixture:
        if f.burns:
            return f if Requirement("heat", f.name) in held else replace(f, burns=False, keep=0)
        return f if Requirement("fixture", f.name) in held else replace(f, keep=0)

    def window(w: Window) -> Window:
        if Requirement("sill", w.name) not in held:
            w = replace(w, sill=NEVER, head=NEVER)
        return replace(
            w,
            must_open=Requirement("opening", w.name) in held,
            escape=Requirement("escape", w.name) in held,
        )

    room = scenario.room
    return replace(
        room,
        doors=tuple(door(d) for d in room.doors),
        fixtures=tuple(fixture(f) for f in room.fixtures),
        windows=tuple(window(w) for w in room.windows),
    )


def _wishes(scenario: Scenario, after: Scenario, held: set[Requirement]) -> tuple[Wish, ...]:
    """The musts among ``held`` that still mean the same pieces.

    A name of several alike pieces means fewer once they differ; such a wish would
    ask for more than before, so it is left out.
    """
    return tuple(
        w
        for i, w in enumerate(scenario.wishes)
        if Requirement("wish", w.piece, str(i)) in held and _meant(scenario, w) == _meant(after, w)
    )


def clearance_of(scenario: Scenario, requirement: Requirement) -> Clearance:
    """The clearance that a member speaks of; KeyError if it speaks of none."""
    for clearance in scenario.piece(requirement.name).clearances:
        if requirement.kind == "clearance" and clearance.name == requirement.part:
            return clearance
    raise KeyError(requirement)


KNOWN = 8  # arrangements remembered, to answer without the solver


class Questions:
    """Asks about members of one scenario; remembers arrangements to answer by."""

    def __init__(self, scenario: Scenario, oracle: FeasibilityOracle) -> None:
        self.scenario, self.oracle = scenario, oracle
        self.requirements = requirements_of(scenario)
        self.patience = CLASH_QUESTION
        self._known: list[Arrangement] = []

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

        A piece without its tie stands by itself, which may be harder: so the same is
        asked with every tie in place, as in the whole.
        """
        given = set(requirements)
        if self.decide(given, sure=sure, patience=patience).answer != "impossible":
            return False
        tied = self._tied(given)
        if tied == given:
            return True
        return self.decide(tied, sure=sure, patience=patience).answer == "impossible"

    def _shown(self, asked: Scenario) -> Arrangement | None:
        names = [p.name for p in asked.pieces]
        for known in self._known:
            placed = {p.piece: p for p in known.placements}
            if all(name in placed for name in names):
                part = Arrangement(tuple(placed[name] for name in names))
                if holds(asked, part):
                    return part
        return None

    def _tied(self, requirements: set[Requirement]) -> set[Requirement]:
        """The members with all that their pieces are tied to, and the ties."""
        tied = set(requirements)
        for piece in self.scenario.pieces * 2:
            if piece.anchor is not None and Requirement("piece", piece.name) in tied:
                tied |= {Requirement("tie", piece.name), Requirement("piece", piece.anchor)}
        return tied

    def with_everything(self, names: Iterable[str]) -> tuple[Requirement, ...]:
        """All members that say something when only these pieces are there."""
        absent = {p.name for p in self.scenario.pieces} - set(names)
        gone = {Requirement("piece", name) for name in absent}
        return non_vacuous(self.scenario, set(self.requirements) - gone)


def holds(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether the judge finds no breach; what takes longest is looked at last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.id == "walkway")
    return not any(True for rule in rules for _ in rule.breaches(scene))


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


def conflicts(scenario: Scenario, oracle: FeasibilityOracle, most: int = MOST) -> Conflicts:
    """Up to ``most`` sets of members that clash, without a piece in common.

    The empty room is looked at first: where it is at fault itself, that is said and
    nothing else. If the time of the settler runs out, the set found so far is not
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


class ConflictFinder(Questions):
    """Looks for sets that clash."""

    def __init__(self, scenario: Scenario, oracle: FeasibilityOracle) -> None:
        super().__init__(scenario, oracle)
        self._last: set[str] = set()  # pieces to look at last

    # -- pieces ----------------------------------------------------------
    def conflict(self, names: Sequence[str]) -> Conflict | None:
        """A set among these pieces; None if none is found in the time.

        Where one is hard to prove irreducible, others are tried: without its pieces first.
        """
        self.patience, self._last = CLASH_QUESTION, set()
        unproven: Conflict | None = None
        for _ in range(ATTEMPTS):
            self.requirements = requirements_of(self.scenario)
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
        tried: set[str] = set()
        for name in order:
            model = self.scenario.piece(name).model
            if model not in tried and self.conflicting(self.with_everything([name])):
                return [name]
            tried.add(model)
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

        A few first, for the sake of small sets. Then the walkway is left out if it can
        be: everything is settled far sooner without it.
        """
        low, high = 1, 0
        for step in (2, 4, 6, 8, len(order)):
            count = min(step, len(order))
            if step == 4 and self.conflicting(self._unwalked(order)):
                self.requirements = self._unwalked(order)
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

    def _unwalked(self, names: Sequence[str]) -> tuple[Requirement, ...]:
        """All members of these pieces and the room's but the walkway."""
        rest = set(self.with_everything(names)) - {Requirement("walkway")}
        return non_vacuous(self.scenario, rest)

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
        for kinds in DISPENSABLE:
            kept = self._without(kept, [m for m in kept if m.kind in kinds])
        for name in sorted(pieces, key=self._size):
            kept = self._without(
                kept, [m for m in kept if m.kind == "clearance" and m.name == name]
            )
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
