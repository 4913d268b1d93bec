"""Random tiny rooms in which every length is a whole multiple of one step, 300 mm.

On such a room a grid of that step loses nothing. Where something stands is asked
only through comparisons of two coordinates that differ by a whole number of steps
(inside the room, beside each other, a strip so deep, a clear square so wide, so
near, so far). Take any arrangement and round every coordinate down to the step: if
``a - b >= k * step`` held before, it holds after, since rounding down keeps order
and moves by whole steps with what it is added to. So no must is broken by it and no
level lost: some best arrangement stands on the grid, and the verdict is the grid's.

That is true of the rules kept on here: musts, comfortable clearances (0 or 3 steps
above the least, so that each of the three levels is a step), the clear floor (its
squares are multiples of 300 mm), near and away from (multiples of 600 mm, so that
half as far again and two thirds are whole steps). Every other wish is switched off.
It is not true of walkways, which may pass aslant between two corners; with
``walk`` they are on, and the grid can only be no better than the solver.
"""

from __future__ import annotations

import random

from arrange.data.piece import Clearance, Piece, Side
from arrange.data.room import Door, Point, Room, Wall
from arrange.data.scenario import RuleSetting, Scenario, Wish
from arrange.rules import RULES

STEP = 300  # mm
KEPT = {"comfortable-clearance", "clear-floor", "near", "away-from"}
OFF = tuple(RuleSetting(r.id, off=True) for r in RULES if r.kind == "wish" and r.id not in KEPT)
SIDES: tuple[tuple[Side, ...], ...] = (
    ("front",), ("front",), ("left",), ("right",), ("back",), ("left", "right"), ("front", "back"),
)  # fmt: skip


def tiny(seed: int, *, walk: bool = False) -> Scenario:
    """The room of a seed: 1.2 to 2.1 m, two or three pieces, some of them too much for it."""
    rng = random.Random(seed)  # noqa: S311
    width, length = rng.randint(4, 7), rng.randint(4, 7)
    corners = _corners(rng, width, length)
    ends = (*corners[1:], corners[0])
    walls = tuple(
        Wall("ABCDEF"[i], *pair) for i, pair in enumerate(zip(corners, ends, strict=True))
    )
    door = _door(rng, walls)
    count = rng.choice([2, 3, 3])
    free = rng.randrange(count) if rng.random() < 0.5 else None
    pieces = tuple(_piece(rng, i, free=i == free, walk=walk) for i in range(count))
    wishes = tuple(_wish(rng, pieces) for _ in range(rng.choice([0, 1, 1])))
    room = Room(corners, walls, 2400, (door,))
    return Scenario(f"tiny {seed}", room, pieces, wishes, unit="mm", walkway=600, settings=OFF)


def _corners(rng: random.Random, width: int, length: int) -> tuple[Point, ...]:
    w, h = width * STEP, length * STEP
    if rng.random() < 0.7:
        return ((0, 0), (0, h), (w, h), (w, 0))
    x, y = rng.randint(2, width - 1) * STEP, rng.randint(2, length - 1) * STEP
    return ((0, 0), (0, h), (x, h), (x, y), (w, y), (w, 0))


def _door(rng: random.Random, walls: tuple[Wall, ...]) -> Door:
    index = rng.choice([i for i, w in enumerate(walls) if w.length >= 3 * STEP])
    wide = rng.choice([2, 3])
    offset = rng.randint(0, int(walls[index].length) // STEP - wide) * STEP
    return Door("door", index, offset, wide * STEP, rng.choice(["in", "out"]))


def _piece(rng: random.Random, number: int, *, free: bool, walk: bool) -> Piece:
    width, depth = rng.choice([1, 1, 2, 2, 3, 4]), rng.choice([1, 1, 2])
    flat, hangs = free and rng.random() < 0.15, not free and rng.random() < 0.15
    clearances = tuple(
        _clearance(rng, k, width, depth, walk=walk) for k in range(rng.choice([0, 1, 1, 1, 2]))
    )
    return Piece(
        f"piece {number}",
        "thing",
        f"model {number}",
        width * STEP,
        depth * STEP,
        20 if flat else 700,
        bottom=1300 if hangs else 0,
        stands="free" if free else "wall",
        clearances=clearances,
        flat=flat,
        roles=frozenset({"store"}),
    )


def _clearance(rng: random.Random, number: int, width: int, depth: int, *, walk: bool) -> Clearance:
    sides = rng.choice(SIDES)
    long = width if sides[0] in ("front", "back") else depth
    skip = rng.choice([0, 0, 1]) if long > 1 else 0
    least = rng.choice([1, 1, 2] if walk else [0, 1, 1, 2])
    comfortable = least + rng.choice([0, 3])
    return Clearance(
        f"clearance {number}",
        sides,
        least * STEP,
        comfortable * STEP,
        "to use it",
        skip_start=skip * STEP,
        walk=walk,
        height=rng.choice([1000, 2000]),
    )


def _wish(rng: random.Random, pieces: tuple[Piece, ...]) -> Wish:
    one, two = rng.sample([p.name for p in pieces], 2)
    return Wish(
        rng.choice(["near", "away from"]),
        one,
        rng.choice([two, "door", "A"]),
        rng.choice([600, 1200]),
        must=rng.random() < 0.3,
    )
