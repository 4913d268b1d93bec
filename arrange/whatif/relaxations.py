"""What it costs to give something up: a table of our own that the person can change.

The table is data, in ``costs.toml``: common practice, no source. The costs say what is
dearer than what, and nothing more. Lengths in mm.

Safety is not for sale. There is no cost for giving up the escape window or the way to
it, the distance between cots and windows, the distance from what burns, or headroom:
no such change exists and none is ever proposed.

What offers of all sorts have in common: costs, what is spared, round values. Lengths in mm.

The words of what could give, with the numbers a person can check. Lengths in mm.

What could give about the pieces and the floor they need. Lengths in mm.

What could give about the room and the person's own musts. Lengths in mm.

Everything that could give in a scenario, with what it costs. Lengths in mm.

What is about safety is not among it: the escape window and the way to it (so the
walkway is never narrowed in a room that has one), cots off windows, the distance from
what burns, headroom, and the floor beside cots and bunks. A piece turned another way
needs no change: all turns are tried anyway, and a kept piece that may move may turn.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from arrange.data.change import (
    Change,
    Drop,
    GiveUpFixture,
    GiveUpOpening,
    LetMove,
    Loosen,
    LowerClearance,
    NarrowWalkway,
    Rehang,
    Turn,
    Untie,
)
from arrange.data.lengths import length, listed, the
from arrange.data.piece import Clearance, Piece
from arrange.data.repair import Relaxation
from arrange.data.scenario import Scenario, Unit, Wish
from arrange.data.sources import COMMON_PRACTICE, body, source
from arrange.geometry.goals import must_reach
from arrange.scenario.kinds import kinds
from arrange.scenario.sizes import change_to, smaller_sizes

TABLE = Path(__file__).with_name("costs.toml")
USUAL_WALKWAY = 600  # mm; below it a walkway is narrower than usual
NARROWEST = 450  # mm (`walk-sideways`): a squeeze past sideways
COST_STEP = 50  # mm


@dataclass(frozen=True, slots=True)
class Below:
    """A named value below the least of a kind, and what it is still good for."""

    to: int
    source: str
    how: str


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


@cache
def usual() -> dict[str, int]:
    """The cost of every sort of change, by key, in the order of the table."""
    return {name: row["cost"] for name, row in _table()["cost"].items()}


def cost_words(row: str) -> str:
    """What the cost called ``row`` is for. KeyError if there is none."""
    text: str = _table()["cost"][row]["words"]
    return text


@cache
def below(source_of_least: str) -> Below | None:
    """The named value below a least of that source; None if nothing goes below it."""
    for row in _table()["below"]:
        if row["source_of_least"] == source_of_least:
            return Below(row["to"], row["source"], row["how"])
    return None


class Costs:
    """The costs of one scenario: the table with the person's own over it."""

    def __init__(self, scenario: Scenario) -> None:
        self.own = dict(scenario.costs.values)

    def of(self, row: str) -> int | None:
        """The cost called ``row``; None if such a change is never to be proposed."""
        return self.own[row] if row in self.own else usual()[row]

    def steps(self, lowered: int) -> int:
        """What is added for bringing a length down by ``lowered`` mm."""
        return -(-lowered // COST_STEP) * (self.of("step") or 0)

    def why(self, row: str) -> str:
        """Where the cost called ``row`` comes from, for where it is shown."""
        told = "your own cost" if row in self.own else "our own cost, common practice, no source"
        return f"{cost_words(row)} ({told})"


TWO_INCHES = 50.8
STEP = 50
FRAIL = {"cot", "bunk"}  # children: nothing beside these comes down below its least


class Offering:
    """Goes through one scenario; ``spared`` are the names that must not be touched."""

    def __init__(self, scenario: Scenario, spared: frozenset[str]) -> None:
        self.scenario = scenario
        self.spared = spared
        self.costs = Costs(scenario)
        self.held = {p.piece for p in scenario.held}
        self.models = {p.name: p.model for p in scenario.pieces}

    def relaxation(
        self,
        row: str,
        changes: tuple[Change, ...],
        words: str,
        key: tuple[str, ...],
        touches: frozenset[str] | None,
        *,
        more: int = 0,
        times: int = 1,
        level: int = 1,
        monotone: bool = False,
        below: bool = False,
        note: str = "",
        like: tuple[str, ...] = (),
    ) -> Iterator[Relaxation]:
        """One candidate, unless such a change is never to be proposed."""
        cost = self.costs.of(row)
        if cost is None:
            return
        yield Relaxation(
            changes,
            cost * times + more,
            words,
            key,
            level,
            touches,
            monotone,
            below,
            note,
            like or tuple(self.models.get(name, name) for name in key),
            self.costs.why(row),
        )


def dependants(scenario: Scenario, name: str) -> list[Piece]:
    """What goes with a piece, and what goes with that, in file order."""
    names = {name}
    while True:
        more = {p.name for p in scenario.pieces if p.anchor in names} - names
        if not more:
            return [p for p in scenario.pieces if p.name in names and p.name != name]
        names |= more


def steps_down(high: int, low: int, unit: Unit) -> list[int]:
    """Round values below ``high``, from the highest, down to and with ``low``."""
    if high <= low:
        return []
    step = TWO_INCHES if unit == "in" else float(STEP)
    first = int(-(-high // step)) - 1
    values = [round(k * step) for k in range(first, 0, -1)]
    return [v for v in values if low < v < high] + [low]


SAID = {"aligned": "aligned with", "in view of": "with a view of"}


def told(id_: str) -> str:
    """Who says so, in a few words: a body with how sure it is, or that nobody does."""
    found = source(id_)
    if found in (COMMON_PRACTICE, source("yours")):
        return found.title
    if found.status == "common practice":
        return COMMON_PRACTICE.title
    return f"{body(id_)}, from memory" if found.status == "memory" else body(id_)


def lowered(scenario: Scenario, piece: Piece, clearance: Clearance, to: int) -> str:
    """What comes down from what to what, and where."""
    unit = scenario.unit
    sides = listed(clearance.sides, "or")
    where = f"at the {sides}" if sides != "front" else "in front"
    gets = f"{length(to, unit)}" if to else "no free floor"
    return (
        f"{the(piece.name)} gets {gets} instead of {length(clearance.least, unit)} "
        f"{where} {clearance.purpose}"
    )


def under_own(scenario: Scenario, to: int, least: int, least_source: str) -> str:
    """What a value between the person's own and the kind's least means."""
    if least == 0:
        return "your own value; its kind needs none there"
    if to > least:
        return f"your own value; its kind needs {length(least, scenario.unit)} at least"
    return f"the least that its kind needs: {told(least_source)}"


def under_least(scenario: Scenario, least: int, least_source: str, named: Below) -> str:
    """That a value is below the least of the kind, with both sources."""
    needs = f"below the {length(least, scenario.unit)} that its kind needs: {told(least_source)}"
    return f"{needs}; this one is {told(named.source)}: {named.how}"


def narrowed(scenario: Scenario, to: int) -> str:
    """The walkway in another width."""
    wide = length(scenario.walkway, scenario.unit)
    return f"the walkway is {length(to, scenario.unit)} wide instead of {wide}"


def narrow(scenario: Scenario, to: int) -> str:
    """Whether a walkway is narrower than usual."""
    unit = scenario.unit
    usual = length(USUAL_WALKWAY, unit)
    if to >= USUAL_WALKWAY:
        return f"your own value; {usual} is usual"
    squeeze = f"at {length(NARROWEST, unit)} people squeeze past sideways"
    return f"below the usual {usual}; {squeeze}: {told('walk-sideways')}"


def resized(scenario: Scenario, piece: Piece, new: Piece, steps: int) -> str:
    """A piece in a smaller size."""
    unit = scenario.unit

    def size(one: Piece) -> str:
        return f"{length(one.width, unit)} x {length(one.depth, unit)}"

    down = "the next size down" if steps == 1 else f"{steps} sizes down"
    owned = ", in place of the one you have" if piece.owned else ""
    return f"{the(piece.name)} is {size(new)} instead of {size(piece)}, {down}{owned}"


def standard(label: str, source_of_size: str) -> str:
    """The name of a standard size and who says so; nothing for a size of no table."""
    return f"standard size {label}: {told(source_of_size)}" if label else ""


def left_out(piece: Piece, others: list[Piece]) -> str:
    """A piece left out, with what goes with it."""
    names = listed([the(p.name) for p in others])
    go = "go" if len(others) > 1 else "goes"
    also = f", with {names} that {go} with it" if others else ""
    owned = ", though you have it" if piece.owned else ""
    return f"{the(piece.name)} is left out{also}{owned}"


def apart(piece: Piece) -> str:
    """A piece that may stand anywhere; ValueError if it goes with nothing."""
    if piece.anchor is None:
        raise ValueError(f"{piece.name} goes with nothing")
    return f"{the(piece.name)} no longer has to stand with {the(piece.anchor)}"


def turned(piece: Piece) -> str:
    """A piece whose back need not be against a wall."""
    return f"{the(piece.name)} may be turned, or stand off the wall"


def loosened(scenario: Scenario, wish: Wish) -> str:
    """A must of the person's own that need not hold."""
    walls = {n for w in scenario.room.walls for n in (w.name, w.part_of) if n}
    place = f"wall {wish.place}" if wish.place in walls else the(wish.place)
    if wish.relation == "not against":
        return f"{the(wish.piece)} may stand against {place} after all"
    return f"{the(wish.piece)} need not stand {SAID.get(wish.relation, wish.relation)} {place}"


TURNED = {"seat", "desk", "dine"}  # of use away from a wall; the head of a bed belongs there
SEATS_OF = {"work seat", "dining seat"}  # of no use apart from the table they go with


class PieceOffers(Offering):
    """One piece after another."""

    def all(self) -> Iterator[Relaxation]:
        """Everything about the pieces that are not spared."""
        for piece in self.scenario.pieces:
            if piece.name in self.spared or piece.model in self.spared:
                continue
            yield from self._clearances(piece)
            yield from self._piece(piece)
            if piece.name not in self.held:
                yield from self._smaller(piece)
                yield from self._left_out(piece)

    def _clearances(self, piece: Piece) -> Iterator[Relaxation]:
        for clearance in piece.clearances:
            if clearance.least > 0:
                yield from self._lowered(piece, clearance)

    def _lowered(self, piece: Piece, own: Clearance) -> Iterator[Relaxation]:
        bare = _of_kind(piece, own)
        least, least_source = (0, "") if bare is None else (bare.least, bare.source)
        steps = [] if own.least <= least else steps_down(own.least, least, self.scenario.unit)
        for level, to in enumerate(steps, 1):
            note = under_own(self.scenario, to, least, least_source)
            yield from self._to(piece, own, to, "own_clearance", note, level)
        named = None if bare is None else below(bare.source)
        if bare is None or named is None or piece.roles & FRAIL:
            return
        if named.to < min(own.least, bare.least):
            note = under_least(self.scenario, bare.least, bare.source, named)
            yield from self._to(piece, own, named.to, "below_clearance", note, len(steps) + 1)

    def _to(
        self, piece: Piece, own: Clearance, to: int, row: str, note: str, level: int
    ) -> Iterator[Relaxation]:
        text = lowered(self.scenario, piece, own, to)
        return self.relaxation(
            row,
            (LowerClearance(piece.name, own.name, to),),
            text,
            ("clearance", piece.name, own.name),
            frozenset({piece.name}),
            more=self.costs.steps(own.least - to),
            level=level,
            # A smaller strip may be harder to walk up to; none at all is not.
            monotone=to == 0 or not (must_reach(own) and self.scenario.walks),
            below=row == "below_clearance",
            note=note,
            like=("clearance", piece.model, own.purpose, f"{own.least}"),
        )

    def _piece(self, piece: Piece) -> Iterator[Relaxation]:
        name, itself = piece.name, frozenset({piece.name})
        if name in self.held:
            text = f"{the(name)} may move from where it stands now"
            key = ("move", name)
            yield from self.relaxation(
                "let_move", (LetMove(name),), text, key, itself, monotone=True
            )
        if piece.anchor is not None and not piece.roles & SEATS_OF:
            text = apart(piece)
            yield from self.relaxation("untie", (Untie(name),), text, ("untie", name), itself)

        if self._turns(piece):
            text = turned(piece)
            yield from self.relaxation("turn", (Turn(name),), text, ("turn", name), itself)

    def _turns(self, piece: Piece) -> bool:
        """Whether it is of use turned from its wall, and need not be fixed to it."""
        stays = piece.name in self.held or piece.anchor is not None or piece.stands == "free"
        return not stays and bool(piece.roles & TURNED) and not piece.roles & (FRAIL | {"tall"})

    def _smaller(self, piece: Piece) -> Iterator[Relaxation]:
        row = "smaller_owned" if piece.owned else "smaller"
        for steps, size in enumerate(smaller_sizes(piece, self.scenario.unit), 1):
            yield from self.relaxation(
                row,
                (change_to(size, piece),),
                resized(self.scenario, piece, size.piece, steps),
                ("smaller", piece.name),
                frozenset({piece.name}),
                times=steps,
                level=steps,
                note=standard(size.label, size.source),
            )

    def _left_out(self, piece: Piece) -> Iterator[Relaxation]:
        others = dependants(self.scenario, piece.name)
        group = [*others, piece]
        if any(p.name in self.held | self.spared or p.model in self.spared for p in group):
            return
        costs = [self._cost_of_leaving(p) for p in group]
        more = sum(c for c in costs[:-1] if c is not None)
        if None in costs:
            return
        row = "leave_out_owned" if piece.owned else "leave_out"
        names = frozenset(p.name for p in group)
        monotone = not any(w.must and w.place in _shared(group) for w in self.scenario.wishes)
        yield from self.relaxation(
            row,
            tuple(Drop(p.name) for p in group),
            left_out(piece, others),
            ("leave out", piece.name, *(p.name for p in others)),
            names if monotone else None,
            more=more + (costs[-1] or 0) - (self.costs.of(row) or 0),
            monotone=monotone,
        )

    def _cost_of_leaving(self, piece: Piece) -> int | None:
        cost = self.costs.of("leave_out_owned" if piece.owned else "leave_out")
        extra = self.costs.of("major") if piece.major else 0
        return None if cost is None or extra is None else cost + extra


def _shared(group: list[Piece]) -> set[str]:
    """Names of several pieces alike: fewer of them can be harder to be near to."""
    return {p.model for p in group} - {p.name for p in group}


def _of_kind(piece: Piece, own: Clearance) -> Clearance | None:
    """The clearance as its kind has it; None if its kind needs none there."""
    kind = kinds().get(piece.kind)
    if kind is None:
        return None if own.overridden else own
    return next((c for c in kind.clearances if c.name == own.name and c.least > 0), None)


WALKWAY = "walkway"


class RoomOffers(Offering):
    """The walkway, the wishes that must hold, doors, fixtures and windows."""

    def all(self) -> Iterator[Relaxation]:
        """Everything about the room that is not spared and not about safety."""
        yield from self._walkway()
        yield from self._wishes()
        yield from self._doors()
        yield from self._fixtures()
        yield from self._windows()

    def _walkway(self) -> Iterator[Relaxation]:
        scenario = self.scenario
        escape = any(w.escape for w in scenario.room.windows)
        if escape or not scenario.walks or WALKWAY in self.spared:
            return
        usual = USUAL_WALKWAY if scenario.walkway > USUAL_WALKWAY else NARROWEST
        widths = steps_down(scenario.walkway, usual, scenario.unit)
        if usual != NARROWEST:
            widths += steps_down(USUAL_WALKWAY, NARROWEST, scenario.unit)
        for level, to in enumerate(widths, 1):
            below_usual = to < USUAL_WALKWAY
            yield from self.relaxation(
                "below_walkway" if below_usual else "own_walkway",
                (NarrowWalkway(to),),
                narrowed(scenario, to),
                (WALKWAY,),
                None,
                more=self.costs.steps(scenario.walkway - to),
                level=level,
                below=below_usual,
                note=narrow(scenario, to),
            )

    def _wishes(self) -> Iterator[Relaxation]:
        for number, wish in enumerate(self.scenario.wishes):
            about = {wish.piece, wish.place}
            if not wish.must or about & self.spared or self._for_safety(wish):
                continue
            touched = frozenset(p.name for p in self.scenario.pieces if {p.name, p.model} & about)
            key = ("wish", wish.piece, f"{number}")
            text = loosened(self.scenario, wish)
            note = "it stays a wish"
            loose = (Loosen(number),)
            yield from self.relaxation("wish", loose, text, key, touched, monotone=True, note=note)

    def _for_safety(self, wish: Wish) -> bool:
        """What keeps a cot off a window, or anything off what burns."""
        if wish.relation not in ("away from", "not against"):
            return False
        room = self.scenario.room
        burns = any(f.burns and f.name == wish.place for f in room.fixtures)
        cot = any(p.is_a("cot") and wish.piece in (p.name, p.model) for p in self.scenario.pieces)
        return burns or cot

    def _doors(self) -> Iterator[Relaxation]:
        for door in self.scenario.room.doors:
            if door.opens == "in" and door.name not in self.spared:
                text = f"{the(door.name)} is rehung to open outwards"
                key, hung = ("door", door.name), (Rehang(door.name),)
                note = "ask first whether it may"
                yield from self.relaxation("rehang", hung, text, key, None, note=note)

    def _fixtures(self) -> Iterator[Relaxation]:
        for fixture in self.scenario.room.fixtures:
            # For what burns the same number is a distance from fire.
            if not fixture.keep or fixture.burns or fixture.name in self.spared:
                continue
            kept = length(fixture.keep, self.scenario.unit)
            text = f"the {kept} before {the(fixture.name)} need not stay free"
            key, give = ("fixture", fixture.name), (GiveUpFixture(fixture.name),)
            yield from self.relaxation("fixture", give, text, key, None, monotone=True)

    def _windows(self) -> Iterator[Relaxation]:
        for window in self.scenario.room.windows:
            if not window.must_open or window.escape or window.name in self.spared:
                continue
            if self.scenario.walks:
                text = f"nobody can walk up to {the(window.name)} to open it"
                key, up = ("window", window.name), (GiveUpOpening(window.name),)
                yield from self.relaxation("window", up, text, key, None, monotone=True)


def candidates(scenario: Scenario, untouchable: Collection[str] = ()) -> list[Relaxation]:
    """Everything that could give, cheapest first.

    ``untouchable`` names pieces (also by the name given to several), doors, windows,
    fixtures or "walkway"; what the scenario itself says must not be touched is added.
    A piece that is to stay where it stands may only be let move. What would give less
    of a thing and cost more than another offer is left out.
    """
    spared = frozenset(untouchable) | set(scenario.costs.untouchable)
    offers = [*PieceOffers(scenario, spared).all(), *RoomOffers(scenario, spared).all()]
    offers = [
        one
        for one in offers
        if not any(o.key == one.key and o.level > one.level and o.cost < one.cost for o in offers)
    ]
    return sorted(offers, key=lambda one: (one.cost, one.key, one.level))
