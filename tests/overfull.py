"""Random rooms of ten pieces with more in them than goes in, for explaining why.

A seed gives a room as `planted.py` makes them, with ten pieces of real kinds; some
rooms have a radiator or a stove, a second door, a way out by the window, a stool tied
to a piece, a piece that stays where it stands, or wishes that must hold. Where the
room still works one piece after another grows, until the solver says that nothing
works, and then three more. That verdict is not the test: every explanation is verified by itself.
"""

from __future__ import annotations

import random
from dataclasses import replace

from planted import GRID, new_piece, new_room, somewhere

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece, Slot
from arrange.data.room import Door, Fixture, Room
from arrange.data.scenario import Scenario, Wish
from arrange.judge import breaches
from arrange.solver.feasibility import FeasibilityOracle

PIECES = 10
GROWS = 300  # mm, the most that a side grows at a time
BEYOND = 3  # pieces that grow once more: over-full, not just full
BESIDE = tuple(Slot(side, along=500, gap=50) for side in ("left", "right", "front"))


def overfull(seed: int, pieces: int = PIECES, seconds: float = 2.0) -> Scenario:
    """The room of a seed; the same seed makes the same room unless a solve times out."""
    rng = random.Random(seed)  # noqa: S311
    scenario = _new(rng, seed, pieces)
    scenario = _full(rng, scenario, seconds)
    over = scenario
    for _ in range(BEYOND):
        over = _grown(rng, over)
    # A held piece that grows is let go, and the room may have been full for its place alone.
    return over if over.held == scenario.held else _full(rng, over, seconds)


def _full(rng: random.Random, scenario: Scenario, seconds: float) -> Scenario:
    """The room with one piece after another grown, until nothing works."""
    while FeasibilityOracle(seconds).decide(scenario).answer != "impossible":
        scenario = _grown(rng, scenario)
    return scenario


def _new(rng: random.Random, seed: int, count: int) -> Scenario:
    """Pieces and room, whatever fits; the empty room itself is in order."""
    while True:
        room = _fitted_out(rng, new_room(rng))
        empty = Scenario(f"over-full {seed}", room, (), unit="mm", walkway=rng.choice([500, 600]))
        if not breaches(empty, Arrangement(())):
            break
    pieces = [new_piece(rng, f"piece {i}") for i in range(count)]
    if rng.random() < 0.3:
        pieces[-1] = _stool(pieces[0].name)
    full = replace(empty, pieces=tuple(pieces))
    if rng.random() < 0.3:
        full = replace(full, wishes=_wishes(rng, full))
    if rng.random() < 0.2:
        place = somewhere(rng, room, pieces[1])
        full = full if place is None else replace(full, held=(place,))
    return full


def _stool(anchor: str) -> Piece:
    return Piece(
        "stool", "stool", "stool", 400, 400, 450, stands="free", anchor=anchor, slots=BESIDE,
        roles=frozenset({"seat"}),
    )  # fmt: skip


def _wishes(rng: random.Random, scenario: Scenario) -> tuple[Wish, ...]:
    """One or two musts of the person's own."""
    one, two, three = rng.sample([p.name for p in scenario.pieces], 3)
    wall = rng.choice(scenario.room.walls).name
    offered = (
        Wish("against", one, wall, must=True),
        Wish("near", two, three, 1000, must=True),
        Wish("away from", three, "door", 1500, must=True),
    )
    return tuple(rng.sample(offered, rng.choice([1, 2])))


def _fitted_out(rng: random.Random, room: Room) -> Room:
    """A second door, a radiator or a stove, a way out by the window; now and then."""
    if rng.random() < 0.2:
        room = replace(room, windows=tuple(replace(w, escape=True) for w in room.windows))
    walls = [i for i, w in enumerate(room.walls) if w.length >= 1500]
    taken = {d.wall for d in room.doors} | {w.wall for w in room.windows}
    free = [i for i in walls if i not in taken]
    if free and rng.random() < 0.2:
        other = Door("other door", free[0], 100, 800, "in", "right")
        room = replace(room, doors=(*room.doors, other))
        free = free[1:]
    if free and rng.random() < 0.3:
        room = replace(room, fixtures=(_heater(rng, room, free[0]),))
    return room


def _heater(rng: random.Random, room: Room, index: int) -> Fixture:
    wall, depth, width = room.walls[index], 120, 800
    offset = rng.randrange(0, int(wall.length) - width + 1, GRID)
    ends = [(offset, 0), (offset + width, 0), (offset + width, depth), (offset, depth)]
    corners = tuple((round(x), round(y)) for x, y in (wall.point(*end) for end in ends))
    stove = rng.random() < 0.3
    name, keep = ("stove", 600) if stove else ("radiator", 100)
    return Fixture(name, name, corners, index, offset, width, depth, 0, 600, keep, burns=stove)


def _grown(rng: random.Random, scenario: Scenario) -> Scenario:
    """One piece that stands on the floor wider and deeper."""
    standing = [p for p in scenario.pieces if not p.flat and p.anchor is None]
    old = rng.choice(standing)
    wider, deeper = (rng.randrange(GRID, GROWS + 1, GRID) for _ in range(2))
    new = replace(old, width=old.width + wider, depth=old.depth + deeper)
    held = tuple(p for p in scenario.held if p.piece != old.name)
    pieces = tuple(new if p is old else p for p in scenario.pieces)
    return replace(scenario, pieces=pieces, held=held)
