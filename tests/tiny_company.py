"""Random tiny rooms with what `tiny_rooms` has not: tied, alike and plain free pieces.

The grid loses nothing here either: a piece tied to another stands a whole number of
steps from it, so rounding down moves both alike. Some pieces are *tied* to the one before
them by a few places (flush, gap of no or one step), some are *alike* (one model, one set
of clearances), some stand *free* without any use that tells front from back.
"""

from __future__ import annotations

import random
from dataclasses import replace

from tiny_rooms import OFF, STEP, _clearance, _corners, _door, _wish

from arrange.data.piece import Piece, Slot
from arrange.data.room import Room, Wall
from arrange.data.scenario import Scenario

LIMIT = 6  # steps; a room is no longer than this


def tiny_company(seed: int, *, walk: bool = False) -> Scenario:
    """The room of a seed: two to four pieces, at least one of them tied, alike or plain."""
    rng = random.Random(f"company {seed}")  # noqa: S311
    width, length = rng.randint(4, LIMIT), rng.randint(4, LIMIT)
    corners = _corners(rng, width, length)
    ends = (*corners[1:], corners[0])
    walls = tuple(
        Wall("ABCDEF"[i], *pair) for i, pair in enumerate(zip(corners, ends, strict=True))
    )
    door = _door(rng, walls)
    pieces = rng.choice([_tied, _tied, _alike, _alike_tied, _plain, _plain])(rng, walk)
    pieces = _some_major(rng, pieces)
    wishes = tuple(_wish(rng, pieces) for _ in range(rng.choice([0, 0, 1])))
    room = Room(corners, walls, 2400, (door,))
    return Scenario(f"company {seed}", room, pieces, wishes, unit="mm", walkway=600, settings=OFF)


def _some_major(rng: random.Random, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Half the rooms have major pieces: one model is."""
    if rng.random() < 0.5:
        return pieces
    model = rng.choice(pieces).model
    return tuple(replace(p, major=p.model == model) for p in pieces)


def _tied(rng: random.Random, walk: bool) -> tuple[Piece, ...]:
    """A piece, one tied to it, and sometimes one tied to that or standing by itself."""
    host = _thing(rng, "host", walk, stands=rng.choice(["wall", "wall", "free"]))
    satellite = _to(rng, _thing(rng, "satellite", walk, small=True), host)
    more = rng.choice(["", "", "chained", "apart"])
    if more == "chained":
        return host, satellite, _to(rng, _thing(rng, "third", walk, small=True), satellite)
    if more == "apart":
        return host, satellite, _thing(rng, "third", walk, small=True)
    return host, satellite


def _alike(rng: random.Random, walk: bool) -> tuple[Piece, ...]:
    """Two or three of one model on walls, or two that stand free; sometimes another piece."""
    stands = rng.choice(["wall", "wall", "free"])
    one = _thing(rng, "twin 0", walk, stands=stands, small=True, model="twin")
    count = 3 if stands == "wall" and rng.random() < 0.3 else 2
    twins = tuple(replace(one, name=f"twin {k}") for k in range(count))
    other = (_thing(rng, "other", walk),) if count == 2 and rng.random() < 0.5 else ()
    return (*other, *twins)


def _alike_tied(rng: random.Random, walk: bool) -> tuple[Piece, ...]:
    """Two of one model in the places of one other piece, or one with each of two alike."""
    host = _thing(rng, "host 0", walk, stands="wall", model="host")
    one = _to(rng, _thing(rng, "twin 0", walk, small=True, model="twin"), host, most=4)
    if rng.random() < 0.7:
        return host, one, replace(one, name="twin 1")
    second = replace(host, name="host 1")
    return host, second, one, replace(one, name="twin 1", anchor="host 1")


def _plain(rng: random.Random, walk: bool) -> tuple[Piece, ...]:
    """One or two free pieces that look the same turned round, and one on a wall."""
    sizes = [(2, 1), (1, 1), (2, 2), (3, 1), (1, 2), (3, 2)]
    plains = []
    for k in range(rng.choice([1, 1, 2])):
        w, d = rng.choice(sizes)
        piece = Piece(f"plain {k}", "plain", f"plain {k}", w * STEP, d * STEP, 700, stands="free")
        plains.append(piece)
    return (*plains, _thing(rng, "other", walk, stands="wall"))


def _thing(
    rng: random.Random,
    name: str,
    walk: bool,
    *,
    stands: str = "wall",
    small: bool = False,
    model: str = "",
) -> Piece:
    """A piece that has a front, with no clearance or one, seldom two."""
    width, depth = rng.choice([1, 1, 2] if small else [1, 2, 2, 3]), rng.choice([1, 1, 2])
    clearances = tuple(
        _clearance(rng, k, width, depth, walk=walk) for k in range(rng.choice([0, 1, 1, 1, 2]))
    )
    return Piece(
        name,
        "thing",
        model or name,
        width * STEP,
        depth * STEP,
        700,
        stands="free" if stands == "free" else "wall",
        clearances=clearances,
        roles=frozenset({"store"}),
    )


def _to(rng: random.Random, piece: Piece, host: Piece, most: int = 3) -> Piece:
    """The piece tied to its host by two or more different places."""
    slots: list[Slot] = []
    for _ in range(rng.randint(2, most)):
        slot = Slot(
            rng.choice(["front", "left", "right", "left", "right", "back"]),
            rng.choice([0, 1000]),
            rng.choice([0, 0, STEP]),
            rng.choice(["same", "same", "opposite", "toward", "away"]),
            rng.choice([0, 0, 0, STEP, -STEP]),
        )
        if slot not in slots:
            slots.append(slot)
    return replace(piece, anchor=host.name, slots=tuple(slots))
