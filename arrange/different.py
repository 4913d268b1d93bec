"""When two arrangements of a scenario are different ones to a person. No solver. Lengths in mm.

Among the three largest pieces a bed, sofa, table or desk stands on another wall, is turned, or has
its middle more than a quarter of the room's length away; or storage has its middle more than half
the room away, across it or up the plan. A wardrobe that goes round its corner, while a bookcase
takes its place, leaves the room what it was. Small moves and small things make no other plan
either: in a small bedroom the third largest piece is a chest or an easy chair, and nobody calls a
plan another one for that. So the three are of those that take half a square metre and are no
chairs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import MOVED_SEATS, Piece, canonical
from arrange.data.room import FACINGS, Facing, Vector
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import facing_of, turns
from arrange.geometry.spots import middle2

WallAndFacing = tuple[int | None, Facing]
LARGEST = 3
LARGE = 500_000  # mm2 of floor: what is smaller is moved without a second thought
FIRST = {"bed", "sofa", "dine", "desk"}  # beds, sofas and tables come before larger storage
MOVED = MOVED_SEATS | {"footstool"}  # taken along by hand
CHAIR = 1200  # mm; a narrower seat is a chair, and anybody moves it


def leading(scenario: Scenario) -> list[list[Piece]]:
    """The three largest pieces, alike ones together: they may change places.

    What the person holds in its place cannot tell plans apart, and is passed over.
    """
    held = {placement.piece for placement in scenario.held}
    standing = [
        p
        for p in scenario.pieces
        if not (p.flat or p.bottom >= HEAD or _moved_by_hand(p) or p.name in held)
    ]
    standing.sort(key=lambda p: (not p.roles & FIRST, -p.width * p.depth, canonical(p)))
    standing = [p for p in standing if p.width * p.depth >= LARGE] or standing[:1]
    alike: dict[tuple[object, ...], list[Piece]] = {}
    for piece in standing[:LARGEST]:
        alike.setdefault((piece.kind, piece.width, piece.depth, piece.anchor), []).append(piece)
    return list(alike.values())


def _moved_by_hand(piece: Piece) -> bool:
    return bool(piece.roles & MOVED) or (piece.is_a("seat") and piece.width < CHAIR)


def wall_and_facing(scenario: Scenario, arrangement: Arrangement, piece: Piece) -> WallAndFacing:
    """The wall at its back and the way it looks; what looks the same turned round counts once."""
    placement = arrangement.of(piece.name)
    wall = placement.wall if piece.anchor is None else None
    facing = _facing(scenario, placement)
    return wall, facing if wall is not None else looks(piece, facing)


def _facing(scenario: Scenario, placement: Placement) -> Facing:
    """The way it looks; across one corner always the same one, whichever it counts as."""
    return facing_of(replace(placement, looks=None), scenario.room)


def stands(scenario: Scenario, arrangement: Arrangement, piece: Piece) -> WallAndFacing:
    """As ``wall_and_facing``, but a wall tells plans apart only where the piece needs one.

    An armchair pushed back to the wall behind it makes no other plan.
    """
    if piece.needs_wall:
        return wall_and_facing(scenario, arrangement, piece)
    return None, looks(piece, _facing(scenario, arrangement.of(piece.name)))


def turns_the_room(piece: Piece) -> bool:
    """Whether another wall or another turn of it, in the same place, makes another plan."""
    return bool(piece.roles & FIRST)


def looks(piece: Piece, facing: Facing) -> Facing:
    """The facing, or the one that stands for it if the piece looks the same turned round."""
    different = turns(piece)
    return facing if facing in different else different[FACINGS.index(facing) % len(different)]


def far2(scenario: Scenario, piece: Piece) -> tuple[int, int]:
    """Twice how far its middle goes across and up the plan before that makes another plan."""
    x0, y0, x1, y1 = scenario.room.bounds
    quarter2 = max(x1 - x0, y1 - y0) // 2
    return (quarter2, quarter2) if turns_the_room(piece) else (x1 - x0, y1 - y0)


def is_far(scenario: Scenario, piece: Piece, was2: Vector, now2: Vector) -> bool:
    """Whether between two middles, each twice its coordinates, it has gone so far."""
    gone = (abs(was - now) for was, now in zip(was2, now2, strict=True))
    return any(way > far for way, far in zip(gone, far2(scenario, piece), strict=True))


def ways_to_be_same(alike: list[Piece]) -> Iterator[list[tuple[Piece, Piece]]]:
    """For each order of alike pieces, which of one plan stands for which of the other."""
    for order in permutations(alike):
        yield list(zip(alike, order, strict=True))


def differ(scenario: Scenario, one: Arrangement, two: Arrangement) -> bool:
    """Whether somebody would call them two plans; without any pieces to go by, never."""
    return bool(elsewhere(scenario, one, two))


def elsewhere(scenario: Scenario, one: Arrangement, two: Arrangement) -> list[Piece]:
    """The pieces to go by that stand differently in the second; one of those that are alike."""
    scenes = Scene(scenario, one), Scene(scenario, two)

    def apart(mine: Piece, other: Piece) -> bool:
        turned = stands(scenario, one, mine) != stands(scenario, two, other)
        if turned and turns_the_room(mine):
            return True
        was2, now2 = middle2(scenes[0].find(mine.name)), middle2(scenes[1].find(other.name))
        return is_far(scenario, mine, was2, now2)

    return [
        alike[0]
        for alike in leading(scenario)
        if all(any(apart(*pair) for pair in pairs) for pairs in ways_to_be_same(alike))
    ]
