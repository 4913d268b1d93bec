"""Planted rooms with what `planted` has not: tied, alike and plain free pieces.

Made like those: every piece is put where the judge passes it before the next one is
drawn. A *stool* goes into a place of a piece that is there; a *twin* is a second piece of
a model that is there; a *plain* piece stands free and looks the same turned round.
"""

from __future__ import annotations

import random
from dataclasses import replace

from planted import GRID, TRIES, Planted, new_piece, new_room, passes, somewhere

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece, Slot
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import frame, slot_place, turn_facing

SIDES = ("front", "left", "right", "left", "right", "back")


def planted_company(seed: int) -> Planted:
    """The room of a seed; at least one of its pieces is tied, alike or plain."""
    rng = random.Random(f"company {seed}")  # noqa: S311
    while True:
        title, walkway = f"company {seed}", rng.choice([500, 600, 600, 750])
        scenario = Scenario(title, new_room(rng), (), unit="mm", walkway=walkway)
        placements: tuple[Placement, ...] = ()
        wanted, company = rng.randint(3, 7), 0
        for number in range(2 * wanted):
            if len(placements) < wanted:
                piece = _drawn(rng, scenario, f"piece {number}")
                grown = _added(rng, scenario, placements, piece)
                if grown is not None:
                    before = scenario.pieces
                    scenario, placements = grown
                    company += _is_company(piece, before)
        if company and len(placements) >= 3:
            return Planted(seed, scenario, Arrangement(placements))


def _is_company(piece: Piece, before: tuple[Piece, ...]) -> bool:
    plain = piece.stands == "free" and not piece.roles and not piece.clearances
    return plain or piece.anchor is not None or piece.model in {p.model for p in before}


def _drawn(rng: random.Random, scenario: Scenario, name: str) -> Piece:
    """A piece of a real kind, or one of the three sorts of company."""
    sort = rng.choice(["kind", "kind", "stool", "stool", "twin", "plain"])
    hosts = [p for p in scenario.pieces if not p.flat]
    if sort == "plain":
        w, d = (rng.randrange(300, 1001, GRID) for _ in range(2))
        return Piece(name, "plain", name, w, rng.choice([w, d]), 700, stands="free")
    if sort == "kind" or not hosts:
        return new_piece(rng, name)
    if sort == "twin":
        return replace(rng.choice(hosts), name=name)
    return _stool(rng, name, rng.choice(hosts))


def _stool(rng: random.Random, name: str, host: Piece) -> Piece:
    """A small piece with two to four places at its host; some are used from in front."""
    size = rng.randrange(300, 501, GRID)
    slots: list[Slot] = []
    for _ in range(rng.randint(2, 4)):
        slot = Slot(
            rng.choice(SIDES),
            rng.choice([0, 500, 1000]),
            rng.choice([0, 20, 50, 100]),
            rng.choice(["same", "toward", "away", "opposite"]),
        )
        if slot not in slots:
            slots.append(slot)
    front = (Clearance("front", ("front",), 300, 450, "to use it"),)
    return Piece(
        name,
        "stool",
        name,
        size,
        rng.choice([size, 400]),
        450,
        stands="free",
        clearances=front if rng.random() < 0.5 else (),
        anchor=host.name,
        slots=tuple(slots),
        roles=frozenset({"store"} if rng.random() < 0.5 else ()),
    )


def _added(
    rng: random.Random, scenario: Scenario, placements: tuple[Placement, ...], piece: Piece
) -> tuple[Scenario, tuple[Placement, ...]] | None:
    """The scenario with the piece, where a place for it was found."""
    grown = replace(scenario, pieces=(*scenario.pieces, piece))
    for _ in range(TRIES):
        if piece.anchor is None:
            placement = somewhere(rng, scenario.room, piece)
        else:
            placement = in_slot(rng, grown, Arrangement(placements), piece)
        if placement is None:
            continue
        tried = (*placements, placement)
        if passes(grown, Arrangement(tried)):
            return grown, tried
    return None


def in_slot(
    rng: random.Random, scenario: Scenario, arrangement: Arrangement, piece: Piece
) -> Placement | None:
    """A random place of a tied piece at its host; walls are upright in planted rooms."""
    host, room = scenario.piece(piece.anchor or ""), scenario.room
    at = arrangement.of(host.name)
    if at.facing is None:
        return None
    return _slot_placement(rng, host, at, room, piece)


def _slot_placement(
    rng: random.Random, host: Piece, at: Placement, room: Room, piece: Piece
) -> Placement:
    a0, b0, a1, b1, quarter = slot_place(host, piece, rng.choice(piece.slots))
    own = frame(host, at, room)
    ends = [own.at(a, b) for a in (a0, a1) for b in (b0, b1)]
    x, y = (round(min(e[k] for e in ends)) for k in (0, 1))
    return Placement(piece.name, turn_facing(at.facing or "down", quarter), x, y)
