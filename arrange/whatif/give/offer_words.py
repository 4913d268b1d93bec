"""The words of what could give, with the numbers a person can check. Lengths in mm."""

from __future__ import annotations

from arrange.data.piece import Clearance, Piece
from arrange.data.scenario import Scenario, Wish
from arrange.rules.who import the
from arrange.sources import COMMON_PRACTICE, body, source
from arrange.whatif.give.costs import NARROWEST, USUAL_WALKWAY, Below
from arrange.words import length, listed

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
