"""What can be taken away from a scenario, and the scenario in which only some of it holds.

The room itself stays: its outline, ceiling, what is built in, and that bodies do not
share space. That a piece stands with its back to a wall is part of the piece. Lengths
in mm.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from arrange.changing import changed
from arrange.data.clash import Member
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Door, Fixture, Room, Window
from arrange.data.scenario import Scenario, Wish
from arrange.musts import musts_only
from arrange.rules.cot_window import CotWindow
from arrange.rules.door_floor import DoorFloor
from arrange.rules.escape_window import EscapeWindow
from arrange.rules.headroom import Headroom
from arrange.rules.heat import Heat
from arrange.rules.walkway import Walkway
from arrange.rules.windows_clear import WindowsClear

NEVER = 10**6  # mm; a sill so high that nothing stands across its window


def members_of(scenario: Scenario) -> tuple[Member, ...]:
    """Everything that can be taken away: each piece with its own, then the room's."""
    found: list[Member] = []
    for piece in scenario.pieces:
        found += _of_piece(scenario, piece)
    found += [Member("wish", w.piece, str(i)) for i, w in enumerate(scenario.wishes) if w.must]
    return (*found, *_of_room(scenario))


def _of_piece(scenario: Scenario, piece: Piece) -> list[Member]:
    found = [Member("piece", piece.name)]
    found += [Member("clearance", piece.name, c.name) for c in piece.clearances if c.least > 0]
    if piece.headroom and _on(scenario, Headroom.id):
        found.append(Member("headroom", piece.name))
    if piece.anchor is not None:
        found.append(Member("tie", piece.name))
    if any(p.piece == piece.name for p in scenario.held):
        found.append(Member("held", piece.name))
    return found


def _of_room(scenario: Scenario) -> list[Member]:
    room = scenario.room
    found = [Member("walkway")] if scenario.walks else []
    if room.doors and _on(scenario, DoorFloor.id):
        found.append(Member("doors"))
        found += [Member("swing", d.name) for d in room.doors if _swings(scenario, d)]
    for fixture in room.fixtures:
        if fixture.burns and _on(scenario, Heat.id):
            found.append(Member("heat", fixture.name))
        elif fixture.keep and not fixture.burns:
            found.append(Member("fixture", fixture.name))
    for window in room.windows:
        if window.escape and (scenario.walks or _on(scenario, EscapeWindow.id)):
            found.append(Member("escape", window.name))
        if window.must_open and scenario.walks:
            found.append(Member("opening", window.name))
        if _on(scenario, WindowsClear.id):
            found.append(Member("sill", window.name))
    if room.windows and _on(scenario, CotWindow.id) and any(p.is_a("cot") for p in scenario.pieces):
        found.append(Member("cots"))
    return found


def _on(scenario: Scenario, rule: str) -> bool:
    return not scenario.setting(rule).off


def _swings(scenario: Scenario, door: Door) -> bool:
    """Whether its leaf takes more floor than stepping in does."""
    return door.opens == "in" and door.width > scenario.walkway


def needed(scenario: Scenario, member: Member) -> frozenset[str]:
    """The pieces without which a member says nothing; KeyError if there is no such piece."""
    if member.kind == "tie":
        return frozenset({member.name, scenario.piece(member.name).anchor or member.name})
    if member.kind == "wish":
        wish = scenario.wishes[int(member.part)]
        return frozenset({wish.piece}) | _meant(scenario, wish)
    if member.kind in ("piece", "clearance", "headroom", "held"):
        return frozenset({scenario.piece(member.name).name})
    return frozenset()


def _meant(scenario: Scenario, wish: Wish) -> frozenset[str]:
    """The pieces that the place of a wish means; none if it is no piece."""
    exact = {p.name for p in scenario.pieces if p.name == wish.place}
    alike = {p.name for p in scenario.pieces if p.model == wish.place}
    return frozenset((exact or alike) - {wish.piece})


def effective(scenario: Scenario, members: Collection[Member]) -> tuple[Member, ...]:
    """Those members, in the order of ``members_of``, that say something in this company.

    A clearance says nothing without its piece, a tie nothing without both pieces, a
    swing or the walkway nothing without the floor inside the doors, where it begins, a
    window to open nothing without the walkway.
    """
    given = set(members)
    room_asks = bool(scenario.room.doors) and _on(scenario, DoorFloor.id)
    pieces = {m.name for m in given if m.kind == "piece"}
    if room_asks and Member("doors") not in given:
        given = {m for m in given if m.kind not in ("swing", "walkway")}
    if Member("walkway") not in given:
        given = {m for m in given if m.kind != "opening"}
    return tuple(m for m in members_of(scenario) if m in given and needed(scenario, m) <= pieces)


def restricted(scenario: Scenario, members: Collection[Member]) -> Scenario:
    """The scenario in which only these members hold, and no wish earns points.

    Pieces not among them are absent. A piece without its tie stands as its kind does
    by itself. Nobody knows where things stand today.
    """
    held = set(effective(scenario, members))
    pieces = tuple(_piece(p, held) for p in scenario.pieces if Member("piece", p.name) in held)
    room = _room(scenario, held)
    settings = scenario.settings
    for rule, member in (
        (Walkway.id, Member("walkway")),
        (DoorFloor.id, Member("doors")),
        (CotWindow.id, Member("cots")),
    ):
        if member not in held:
            kept = tuple(s for s in settings if s.rule != rule)
            settings = (*kept, replace(scenario.setting(rule), off=True))
    rest = replace(
        scenario,
        room=room,
        pieces=pieces,
        wishes=(),
        settings=settings,
        today=(),
        held=tuple(p for p in scenario.held if Member("held", p.piece) in held),
        expected=None,
    )
    apart = changed(rest, ())
    return musts_only(replace(apart, wishes=_wishes(scenario, apart, held)))


def _piece(piece: Piece, held: set[Member]) -> Piece:
    clearances = tuple(
        c if Member("clearance", piece.name, c.name) in held else replace(c, least=0)
        for c in piece.clearances
    )
    piece = replace(piece, clearances=clearances)
    if Member("headroom", piece.name) not in held:
        piece = replace(piece, headroom=0)
    return piece if Member("tie", piece.name) in held else replace(piece, anchor=None, slots=())


def _room(scenario: Scenario, held: set[Member]) -> Room:
    def door(d: Door) -> Door:
        loose = _swings(scenario, d) and Member("swing", d.name) not in held
        return replace(d, opens="out") if loose else d

    def fixture(f: Fixture) -> Fixture:
        if f.burns:
            return f if Member("heat", f.name) in held else replace(f, burns=False, keep=0)
        return f if Member("fixture", f.name) in held else replace(f, keep=0)

    def window(w: Window) -> Window:
        if Member("sill", w.name) not in held:
            w = replace(w, sill=NEVER, head=NEVER)
        return replace(
            w,
            must_open=Member("opening", w.name) in held,
            escape=Member("escape", w.name) in held,
        )

    room = scenario.room
    return replace(
        room,
        doors=tuple(door(d) for d in room.doors),
        fixtures=tuple(fixture(f) for f in room.fixtures),
        windows=tuple(window(w) for w in room.windows),
    )


def _wishes(scenario: Scenario, after: Scenario, held: set[Member]) -> tuple[Wish, ...]:
    """The musts among ``held`` that still mean the same pieces.

    A name of several alike pieces means fewer once they differ; such a wish would
    ask for more than before, so it is left out.
    """
    return tuple(
        w
        for i, w in enumerate(scenario.wishes)
        if Member("wish", w.piece, str(i)) in held and _meant(scenario, w) == _meant(after, w)
    )


def clearance_of(scenario: Scenario, member: Member) -> Clearance:
    """The clearance that a member speaks of; KeyError if it speaks of none."""
    for clearance in scenario.piece(member.name).clearances:
        if member.kind == "clearance" and clearance.name == member.part:
            return clearance
    raise KeyError(member)
