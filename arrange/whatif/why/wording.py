"""What can be taken away, in the scenario's own words and unit."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from arrange.data.clash import Clash, Member
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.rules.headroom import Headroom
from arrange.rules.who import the
from arrange.whatif.why.members import clearance_of
from arrange.words import length, listed

STANDS = {"wall": ", with its back to a wall", "corner": ", in a corner", "free": ""}


def told(scenario: Scenario, member: Member, members: Sequence[Member] = ()) -> str:
    """A member in the scenario's own words, in its unit.

    ``members`` is the set it is told in: what a piece is tied to is then said by the
    tie itself.
    """
    if member.kind == "piece":
        return _body(scenario, scenario.piece(member.name), members)
    return _TOLD[member.kind](scenario, member)


def _body(scenario: Scenario, piece: Piece, members: Sequence[Member]) -> str:
    size = f"{length(piece.width, scenario.unit)} x {length(piece.depth, scenario.unit)}"
    tied = piece.anchor is not None and (not members or Member("tie", piece.name) in members)
    return f"{the(piece.name)}, {size}{'' if tied else STANDS[piece.stands]}"


def _clearance(scenario: Scenario, member: Member) -> str:
    c = clearance_of(scenario, member)
    sides = listed(c.sides, "or")
    return f"{length(c.least, scenario.unit)} free at the {sides} of {the(member.name)} {c.purpose}"


def _headroom(scenario: Scenario, member: Member) -> str:
    least = scenario.setting(Headroom.id).least
    need = scenario.piece(member.name).headroom if least is None else least
    return f"{length(need, scenario.unit)} of headroom above {the(member.name)}"


def _tie(scenario: Scenario, member: Member) -> str:
    anchor = scenario.piece(member.name).anchor or ""
    return f"{the(member.name)} stands in its place at {the(anchor)}"


def _held(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} stays where it stands"


def _wish(scenario: Scenario, member: Member) -> str:
    wish = scenario.wishes[int(member.part)]
    reach = "" if wish.distance is None else f" ({length(wish.distance, scenario.unit)})"
    return f"you said: {wish.piece} {wish.relation} {wish.place}{reach}"


def _walkway(scenario: Scenario, _: Member) -> str:
    wide = length(scenario.walkway, scenario.unit)
    return f"a walkway {wide} wide from the door to everything that is used"


def _doors(scenario: Scenario, _: Member) -> str:
    doors = listed([the(d.name) for d in scenario.room.doors])
    return f"{length(scenario.walkway, scenario.unit)} of floor free inside {doors}"


def _swing(scenario: Scenario, member: Member) -> str:
    door = next(d for d in scenario.room.doors if d.name == member.name)
    wide = length(door.width, scenario.unit)
    return f"{the(door.name)} opens into the room: {wide} of floor free to swing"


def _fixture(scenario: Scenario, member: Member) -> str:
    fixture = next(f for f in scenario.room.fixtures if f.name == member.name)
    return f"{length(fixture.keep, scenario.unit)} kept free before {the(fixture.name)}"


def _heat(_: Scenario, member: Member) -> str:
    return f"what can burn keeps its distance from {the(member.name)}"


def _opening(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} can be reached to open it"


def _escape(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} is a way out in an emergency and kept clear"


def _sill(scenario: Scenario, member: Member) -> str:
    window = next(w for w in scenario.room.windows if w.name == member.name)
    sill = length(window.sill, scenario.unit)
    return f"nothing taller than the sill ({sill}) stands across {the(window.name)}"


def _cots(_: Scenario, __: Member) -> str:
    return "cots stand away from the windows"


_TOLD: dict[str, Callable[[Scenario, Member], str]] = {
    "clearance": _clearance,
    "headroom": _headroom,
    "tie": _tie,
    "held": _held,
    "wish": _wish,
    "walkway": _walkway,
    "doors": _doors,
    "swing": _swing,
    "fixture": _fixture,
    "heat": _heat,
    "opening": _opening,
    "escape": _escape,
    "sill": _sill,
    "cots": _cots,
}


def proof(clash: Clash) -> str:
    """What is proven of a set."""
    if clash.minimal:
        return (
            "Proven: all together are impossible (by two solver configurations), and without any "
            "one of them an arrangement exists."
        )
    if clash.confirmed:
        return (
            "Proven: all together are impossible (by two solver configurations). Not yet proven "
            "minimal: some of these may not be needed for that."
        )
    return "Not yet proven: the time ran out before this set was confirmed."
