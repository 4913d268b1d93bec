"""The same room said another way, and rooms that ask for less. Lengths in mm.

A room mirrored or turned, with its pieces renamed or written in another order, its file
in other units or with two alike pieces as two entries, is the same room: the verdict and
the best score are the same. A room that asks for less can only be easier: what worked
in it works still.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, replace

from planted_company import planted_company
from tiny_rooms import tiny

from arrange import read_text
from arrange.data.piece import Clearance, Piece, Side, Slot
from arrange.data.result import Result
from arrange.data.room import Point
from arrange.data.scenario import Scenario
from arrange.suggesting import suggest

OTHER_HAND: dict[str, Side] = {"left": "right", "right": "left"}


def mirrored(scenario: Scenario) -> Scenario:
    """The room seen in a mirror, its pieces built the other way round."""
    room = scenario.room
    last = len(room.walls) - 1

    def across(point: Point) -> Point:
        return -point[0], point[1]

    walls = tuple(
        replace(wall, start=across(wall.end), end=across(wall.start))
        for wall in reversed(room.walls)
    )

    def offset(wall: int, from_left: int, width: int) -> int:
        return round(room.walls[wall].length) - from_left - width

    doors = tuple(
        replace(
            door,
            wall=last - door.wall,
            offset=offset(door.wall, door.offset, door.width),
            hinge="right" if door.hinge == "left" else "left",
        )
        for door in room.doors
    )
    windows = tuple(
        replace(
            window,
            wall=last - window.wall,
            offset=offset(window.wall, window.offset, window.width),
        )
        for window in room.windows
    )
    corners = tuple(wall.start for wall in walls)
    there = replace(room, corners=corners, walls=walls, doors=doors, windows=windows)
    pieces = tuple(_other_way_round(piece) for piece in scenario.pieces)
    return replace(scenario, room=there, pieces=pieces)


def _other_way_round(piece: Piece) -> Piece:
    return replace(
        piece,
        clearances=tuple(_clearance(c) for c in piece.clearances),
        slots=tuple(_slot(s) for s in piece.slots),
    )


def _clearance(clearance: Clearance) -> Clearance:
    sides = tuple(OTHER_HAND.get(side, side) for side in clearance.sides)
    if set(clearance.sides) & {"front", "back"}:
        skips = {"skip_start": clearance.skip_end, "skip_end": clearance.skip_start}
        return replace(clearance, sides=sides, **skips)
    return replace(clearance, sides=sides)


def _slot(slot: Slot) -> Slot:
    if slot.side in OTHER_HAND:
        return replace(slot, side=OTHER_HAND[slot.side])
    return replace(slot, along=1000 - slot.along, shift=-slot.shift)


def turned(scenario: Scenario) -> Scenario:
    """The room a quarter turn round, drawn from the next corner on."""
    room = scenario.room

    def about(point: Point) -> Point:
        return point[1], -point[0]

    walls = tuple(replace(w, start=about(w.start), end=about(w.end)) for w in room.walls)
    walls = (*walls[1:], walls[0])
    corners = tuple(wall.start for wall in walls)

    def on(wall: int) -> int:
        return (wall - 1) % len(walls)

    there = replace(
        room,
        corners=corners,
        walls=walls,
        doors=tuple(replace(door, wall=on(door.wall)) for door in room.doors),
        windows=tuple(replace(w, wall=on(w.wall)) for w in room.windows),
    )
    return replace(scenario, room=there)


def renamed(scenario: Scenario) -> Scenario:
    """Every piece under a name that sorts the other way."""
    names = {p.name: f"thing {99 - i}" for i, p in enumerate(scenario.pieces)}

    def name(old: str) -> str:
        return names.get(old, old)

    pieces = tuple(
        replace(
            piece,
            name=name(piece.name),
            anchor=names[piece.anchor] if piece.anchor else None,
            goes_with=tuple(map(name, piece.goes_with)),
            short="",
        )
        for piece in scenario.pieces
    )
    wishes = tuple(replace(w, piece=name(w.piece), place=name(w.place)) for w in scenario.wishes)
    return replace(scenario, pieces=pieces, wishes=wishes)


def reordered(scenario: Scenario) -> Scenario:
    """The pieces and the wishes written from last to first."""
    return replace(scenario, pieces=scenario.pieces[::-1], wishes=scenario.wishes[::-1])


def narrower_way(scenario: Scenario) -> Scenario:
    """A walkway 100 mm narrower."""
    return replace(scenario, walkway=scenario.walkway - 100)


def fewer(scenario: Scenario) -> Scenario:
    """The same without its last piece that stands on its own and that no wish speaks of."""
    anchors = {p.anchor for p in scenario.pieces}
    spoken = {name for w in scenario.wishes for name in (w.piece, w.place)}
    spoken |= {name for p in scenario.pieces for name in p.goes_with}
    free = [p for p in scenario.pieces if p.name not in anchors | spoken and p.anchor is None]
    kept = tuple(p for p in scenario.pieces if p not in free[-1:])
    return replace(scenario, pieces=kept)


def less_floor(scenario: Scenario) -> Scenario:
    """Every clearance asks for a tenth less at the least."""
    pieces = tuple(
        replace(p, clearances=tuple(replace(c, least=c.least * 9 // 10) for c in p.clearances))
        for p in scenario.pieces
    )
    return replace(scenario, pieces=pieces)


def only_hopes(scenario: Scenario) -> Scenario:
    """Every wish that was a must is a wish no more than any other."""
    return replace(scenario, wishes=tuple(replace(w, must=False) for w in scenario.wishes))


def freer(scenario: Scenario) -> Scenario:
    """What stands with its back on a wall may stand away from walls too."""
    pieces = tuple(
        replace(p, stands="anywhere") if p.stands == "wall" else p for p in scenario.pieces
    )
    return replace(scenario, pieces=pieces)


Change = Callable[[Scenario], Scenario]
SAME: dict[str, Change] = {
    "mirrored": mirrored,
    "turned": turned,
    "renamed": renamed,
    "reordered": reordered,
}
EASIER: dict[str, Change] = {
    "a narrower walkway": narrower_way,
    "one piece fewer": fewer,
    "less floor before pieces": less_floor,
    "wishes that were musts": only_hopes,
    "pieces that need no wall": freer,
}


UNITS = {"mm": 10, "cm": 1, "m": 0.01}  # of one cm
WRITTEN = (("mm", True, False), ("m", True, False), ("cm", False, False), ("cm", True, True))
SIZES = {
    "bookcase": (80, 30),
    "chest of drawers": (90, 45),
    "armchair": (70, 75),
    "sideboard": (140, 40),
    "single bed": (90, 200),
}


def written(seed: int, unit: str, joined: bool, backwards: bool) -> str:
    """A scenario file about a small room; two of its pieces are alike."""
    rng = random.Random(seed)  # noqa: S311
    across, up = rng.randrange(200, 300, 5), rng.randrange(200, 300, 5)
    one, *others = rng.sample([*SIZES], rng.randint(1, 2) + 1)

    def n(cm: float) -> float:
        return cm * UNITS[unit]

    def piece(kind: str, more: str) -> str:
        width, depth = SIZES[kind]
        return f'[[piece]]\nkind = "{kind}"\nwidth = {n(width)}\ndepth = {n(depth)}\n{more}\n'

    alike = (
        [piece(one, f'name = "{one}"\ncount = 2')]
        if joined
        else [piece(one, f'name = "{one} {i}"') for i in (1, 2)]
    )
    entries = alike + [piece(kind, "") for kind in others]
    head = f'unit = "{unit}"\n[room]\nsize = [{n(across)}, {n(up)}]\n'
    door = f'[[door]]\nwall = "C"\nfrom_left = {n(20)}\nwidth = {n(80)}\n'
    return head + door + "".join(entries[::-1] if backwards else entries)


@dataclass(frozen=True)
class Pair:
    """A room, the same room changed, and what is wrong with their two answers."""

    seed: int
    change: str
    outcomes: tuple[str, str]
    faults: tuple[str, ...]


def subject(seed: int) -> Scenario:
    """A tiny room, or now and then a furnished one with tied and alike pieces."""
    if seed % 4 == 3:
        return planted_company(seed).scenario
    return tiny(seed, walk=seed % 2 == 0)


def compare(seed: int, seconds: float) -> Pair:
    """Ask about the room of a seed and about a changed one."""
    name = random.Random(seed).choice([*SAME, *EASIER])  # noqa: S311
    scenario = subject(seed)
    one = suggest(scenario, top=1, seconds=seconds)
    other = suggest((SAME | EASIER)[name](scenario), top=1, seconds=seconds)
    faults = differences(one, other) if name in SAME else harder(one, other)
    return Pair(seed, name, (one.outcome, other.outcome), tuple(faults))


def compare_written(seed: int, seconds: float) -> Pair:
    """Ask about the file of a seed as it is, and written another way."""
    way = random.Random(seed).choice(WRITTEN)  # noqa: S311
    plain, other = (
        suggest(read_text(written(seed, *how)), top=1, seconds=seconds)
        for how in (("cm", True, False), way)
    )
    unit, joined, backwards = way
    name = f"written in {unit}, " + ("joined" if joined else "split") + ", backwards" * backwards
    return Pair(seed, name, (plain.outcome, other.outcome), tuple(differences(plain, other)))


def differences(one: Result, other: Result) -> list[str]:
    """What two answers to the same question say differently; undecided is no difference."""
    impossible = [r.outcome == "impossible" for r in (one, other)]
    if any(impossible):
        found = any(r.suggestions for r in (one, other))
        return ["possible and impossible"] if found else []
    faults = []
    for a, b in ((one, other), (other, one)):
        if a.suggestions and a.suggestions[0].verdict.standing > b.bound:
            faults.append(f"{a.suggestions[0].verdict.standing} found, at most {b.bound} elsewhere")
    if one.outcome == other.outcome == "proven":
        scores = [r.suggestions[0].verdict.standing for r in (one, other)]
        if scores[0] != scores[1]:
            faults.append(f"proven best {scores[0]} and {scores[1]}")
    return faults


def harder(one: Result, easier: Result) -> list[str]:
    """Whether the easier room was called impossible though the first one works."""
    if one.suggestions and easier.outcome == "impossible":
        return ["the easier room is called impossible"]
    return []
