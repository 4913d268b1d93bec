"""Upright boxes on the plan in whole mm, and how they lie to one another. No solver.

A *spot* is the box of something that does not move: an opening in its wall, a
fixture. Pieces, in the model as on a finished plan, have the same four bounds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from shapely.geometry import LineString, Polygon

from arrange.data.piece import Piece
from arrange.data.room import Door, Facing, Fixture, Room, Wall, Window
from arrange.geometry.shapes import opening_span

# Whole mm: a number on a plan, an expression in a model. Both faces of a rule do the same
# arithmetic with them, and no type describes the expressions of every solver.
Coordinate = Any

PILLOW = 500  # mm from the head of a bed; common practice, no source


class Bounded(Protocol):
    """Anything with whole-mm bounds: numbers on a plan, expressions in a model."""

    @property
    def x0(self) -> Coordinate:
        """Its left edge."""

    @property
    def y0(self) -> Coordinate:
        """Its lower edge."""

    @property
    def x1(self) -> Coordinate:
        """Its right edge."""

    @property
    def y1(self) -> Coordinate:
        """Its upper edge."""


@dataclass(frozen=True, slots=True)
class Spot:
    """The bounds of something that stays where it is. A line where it has no depth."""

    name: str
    x0: int
    y0: int
    x1: int
    y1: int


@dataclass(frozen=True, slots=True)
class Bounds:
    """A box whose edges are numbers on a plan or expressions in a model."""

    x0: Coordinate
    y0: Coordinate
    x1: Coordinate
    y1: Coordinate


def around(things: Sequence[Bounded]) -> Bounds:
    """The smallest box that covers all of them, on a plan."""
    return Bounds(
        min(t.x0 for t in things),
        min(t.y0 for t in things),
        max(t.x1 for t in things),
        max(t.y1 for t in things),
    )


def opening_spot(room: Room, opening: Door | Window) -> Spot:
    """An opening on its wall; without depth on a straight wall."""
    return _spot(opening.name, *opening_span(room, opening))


def fixture_spot(room: Room, fixture: Fixture) -> Spot:
    """A fixture's body; for one without a body, its width on the wall."""
    if fixture.wall is not None and not fixture.depth:
        wall = room.walls[fixture.wall]
        ends = wall.point(fixture.offset), wall.point(fixture.offset + fixture.width)
        return _spot(fixture.name, *ends)
    return _spot(fixture.name, *fixture.corners)


def wall_spot(wall: Wall) -> Spot:
    """A wall; without depth if it is straight."""
    return _spot(wall.name, wall.start, wall.end)


def spot_of(name: str, shape: Polygon) -> Spot:
    """The bounds of a shape on the floor."""
    return _spot(name, *shape.exterior.coords)


def _spot(name: str, *points: tuple[float, float]) -> Spot:
    x0, y0, x1, y1 = LineString([*points, points[0]]).bounds
    low = (math.floor(x0 + 1e-3), math.floor(y0 + 1e-3))
    return Spot(name, *low, math.ceil(x1 - 1e-3), math.ceil(y1 - 1e-3))


def gap(one: Bounded, two: Bounded) -> int:
    """The larger of the gap across and the gap up the plan; 0 if they touch or overlap.

    >>> gap(Spot("a", 0, 0, 10, 10), Spot("b", 15, 22, 20, 30))
    12
    """
    across = max(two.x0 - one.x1, one.x0 - two.x1)
    up = max(two.y0 - one.y1, one.y0 - two.y1)
    return int(max(0, across, up))


def along(thing: Bounded, facing: Facing) -> tuple[Coordinate, Coordinate]:
    """Where the thing begins and ends, going the way ``facing`` looks.

    >>> along(Spot("a", 0, 0, 10, 30), "down")
    (-30, 0)
    """
    if facing in ("up", "down"):
        return (thing.y0, thing.y1) if facing == "up" else (-thing.y1, -thing.y0)
    return (thing.x0, thing.x1) if facing == "right" else (-thing.x1, -thing.x0)


def across(thing: Bounded, facing: Facing) -> tuple[Coordinate, Coordinate]:
    """Where the thing begins and ends across the way ``facing`` looks (up or right)."""
    return (thing.x0, thing.x1) if facing in ("up", "down") else (thing.y0, thing.y1)


def looking(
    facing: Facing, ahead: tuple[Coordinate, Coordinate], aside: tuple[Coordinate, Coordinate]
) -> Bounds:
    """The box that begins and ends there along and across the way ``facing`` looks.

    >>> looking("down", (-30, 0), (0, 10))
    Bounds(x0=0, y0=0, x1=10, y1=30)
    """
    begin, end = ahead if facing in ("up", "right") else (-ahead[1], -ahead[0])
    if facing in ("up", "down"):
        return Bounds(aside[0], begin, aside[1], end)
    return Bounds(begin, aside[0], end, aside[1])


def pillow(bed: Bounded, piece: Piece, facing: Facing) -> Bounds:
    """Where the heads of the sleepers lie: the first ``PILLOW`` mm of the mattress.

    >>> plain = Piece("", "", "", 900, 2000, 500)
    >>> pillow(Spot("a bed", 0, 0, 900, 2000), plain, "down")
    Bounds(x0=0, y0=1500, x1=900, y1=2000)
    >>> framed = Piece("", "", "", 900, 2000, 500, headboard=100, rails=60)
    >>> pillow(Spot("a bed", 0, 0, 900, 2000), framed, "down")
    Bounds(x0=30, y0=1400, x1=870, y1=1900)
    """
    head = along(bed, facing)[0] + piece.headboard
    (low, high), rail = across(bed, facing), piece.rails // 2
    return looking(facing, (head, head + PILLOW), (low + rail, high - rail))


def seated(seat: Bounded, piece: Piece, facing: Facing) -> Bounded:
    """Where those sit who look as the seat does: of an L the part along its back, beside the arm.

    >>> sofa = Piece("", "", "", 250, 200, 80, shape="L", arm_width=90, back_depth=80)
    >>> seated(Spot("", 0, 0, 250, 200), sofa, "down")
    Bounds(x0=90, y0=120, x1=250, y1=200)
    >>> seated(Spot("", 0, 0, 200, 250), sofa, "left")
    Bounds(x0=120, y0=0, x1=200, y1=160)
    """
    return seats(seat, piece, facing)[0][0]


def seats(seat: Bounded, piece: Piece, facing: Facing) -> tuple[tuple[Bounded, Facing], ...]:
    """Where people sit, and which way they look there: on an L out of both of its parts.

    >>> sofa = Piece("", "", "", 250, 200, 80, shape="L", arm_width=90, back_depth=80)
    >>> along_the_back, on_the_arm = seats(Spot("", 0, 0, 250, 200), sofa, "down")
    >>> on_the_arm
    (Bounds(x0=0, y0=0, x1=90, y1=120), 'right')
    """
    way = arm_looks(piece, facing)
    if way is None:
        return ((seat, facing),)
    (back, front), (low, high) = along(seat, facing), across(seat, facing)
    edge = back + piece.back_depth
    if way in ("right", "up"):
        rest = low + piece.arm_width
        by_the_back, arm = (rest, high), (low, rest)
    else:
        rest = high - piece.arm_width
        by_the_back, arm = (low, rest), (rest, high)
    return (
        (looking(facing, (back, edge), by_the_back), facing),
        (looking(facing, (edge, front), arm), way),
    )


def arm_looks(piece: Piece, facing: Facing) -> Facing | None:
    """Which way those on the arm of an L look; None without an arm.

    >>> arm_looks(Piece("", "", "", 250, 200, 80, shape="L", arm_width=90, back_depth=80), "left")
    'down'
    """
    if piece.shape != "L":
        return None
    upright = facing in ("up", "down")
    if (piece.arm_side == "left") == (facing in ("down", "right")):
        return "right" if upright else "up"
    return "left" if upright else "down"


def middle2(box: Bounded) -> tuple[Coordinate, Coordinate]:
    """Twice its middle, across and up the plan, so that it stays whole.

    >>> middle2(Spot("a", 0, 0, 10, 15))
    (10, 15)
    """
    return box.x0 + box.x1, box.y0 + box.y1


def sight(one: Bounded, way: Facing, two: Bounded, turned: Facing) -> tuple[Coordinate, Coordinate]:
    """From the middle of a front that looks ``way`` to that of one that is ``turned``.

    Returns twice how far ahead that is, and twice how far to the right or up the plan.

    >>> sight(Spot("a", 0, 0, 20, 10), "up", Spot("b", 6, 30, 20, 35), "down")
    (40, 6)
    >>> sight(Spot("a", 0, 0, 20, 10), "up", Spot("b", 50, 30, 60, 40), "left")
    (50, 80)
    """
    ahead, aside = -2 * along(one, way)[1], -sum(across(one, way))
    front = along(two, turned)[1]
    if turned in ("down", "left"):
        front = -front
    if (way in ("up", "down")) != (turned in ("up", "down")):
        return sum(along(two, way)) + ahead, 2 * front + aside
    if way in ("down", "left"):
        front = -front
    return 2 * front + ahead, sum(across(two, way)) + aside
