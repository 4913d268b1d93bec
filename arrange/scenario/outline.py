"""The outline of the room: corners, a walk round the walls, or width by length.

Plans have x to the right and y up. Corners run clockwise; the first wall of a
walked room is the top one and runs to the right. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.room import Point, Wall
from arrange.errors import ArrangeError

TAPE_SLIP = 20  # mm by which a closing wall may miss its course for want of care
STRAIGHT = 8.0  # a closing wall this many degrees off its course is a slip, or corners that are off
MOST_CORNERS = 40
WIDEST = 60_000  # mm from one side of a room to the other


class OutlineError(ArrangeError, ValueError):
    """An outline that is no room; ``allowed`` and ``hint`` belong to the message."""

    def __init__(self, given: str, allowed: str, hint: str = "") -> None:
        self.given, self.allowed, self.hint = given, allowed, hint
        super().__init__(given)


@dataclass(frozen=True, slots=True)
class Leg:
    """One wall on the walk: its length in mm and the turn at its end, right positive.

    ``sd`` is the standard deviation of the length in mm, 0 for the usual one. The turn is
    ``square`` if it was measured, and not only looks so.
    """

    name: str
    length: float
    turn: float
    sd: float = 0.0
    square: bool = False


def letter(index: int) -> str:
    """The usual name of wall ``index``: A to Z, then A2, B2, ..."""
    lap, at = divmod(index, 26)
    return chr(ord("A") + at) + (str(lap + 1) if lap else "")


def rectangle(width: int, length: int) -> tuple[Point, ...]:
    """Corners of a room ``width`` across the plan and ``length`` up it."""
    return (0, length), (width, length), (width, 0), (0, 0)


def walls(corners: Sequence[Point], names: Sequence[str] = ()) -> tuple[Wall, ...]:
    """The walls between ``corners``, named ``names`` or else A, B, C ..."""
    ends = [*corners[1:], corners[0]]
    called = [*names, *(letter(i) for i in range(len(names), len(corners)))]
    return tuple(Wall(name, a, b, name) for name, a, b in zip(called, corners, ends, strict=False))


def _heading(degrees: float) -> tuple[float, float]:
    """Unit vector after turning clockwise from rightwards; exact in quarter turns."""
    if degrees % 90 == 0:
        exact = ((1.0, 0.0), (0.0, -1.0), (-1.0, 0.0), (0.0, 1.0))
        return exact[int(degrees // 90) % 4]
    angle = math.radians(degrees)
    return math.cos(angle), -math.sin(angle)


def headings(legs: Sequence[Leg], closing: bool) -> tuple[list[float], list[tuple[float, float]]]:
    """The course of each wall in degrees clockwise from rightwards, and the steps in mm.

    The course of a wall that was not measured (``closing``) is told where it runs as the
    turns say, or nearly so; else it goes wherever the beginning is, and has none.
    """
    courses = [0.0]
    for leg in legs:
        courses.append(courses[-1] + leg.turn)
    last = courses.pop()
    steps = [
        (leg.length * x, leg.length * y)
        for leg, (x, y) in zip(legs, map(_heading, courses), strict=True)
    ]
    left = (-sum(s[0] for s in steps), -sum(s[1] for s in steps))
    if closing and _as_turned(left, last):
        courses.append(last)
    return courses, steps


def _as_turned(left: tuple[float, float], course: float) -> bool:
    """Whether what is ``left`` to go runs along ``course``, but for slips of the tape."""
    ahead = _heading(course)
    along = left[0] * ahead[0] + left[1] * ahead[1]
    aside = left[0] * ahead[1] - left[1] * ahead[0]
    straight = course % 90 == 0 and abs(math.degrees(math.atan2(aside, along))) < STRAIGHT
    return along > 0 and (straight or abs(aside) <= TAPE_SLIP)


def whole(points: Sequence[Sequence[float]]) -> tuple[Point, ...]:
    """Points as corners in whole mm, the lowest and leftmost at 0."""
    # First to hundredths, so that the two ends of a straight wall are rounded alike.
    left, low = (min(p[axis] for p in points) for axis in (0, 1))
    return tuple((round(round(x - left, 2)), round(round(y - low, 2))) for x, y in points)


def check(corners: Sequence[Point]) -> None:
    """Whether ``corners`` make a room.

    Raises
    ------
    OutlineError
        If there are too few or too many, two are the same, walls cross or touch,
        or they run anticlockwise.
    """
    check_ring(corners)
    if area(corners) > 0:
        raise OutlineError(
            "the corners run anticlockwise",
            "corners run clockwise as seen on the plan, with y up",
            "list them the other way round",
        )


def check_ring(corners: Sequence[Point]) -> None:
    """As ``check``, whichever way round the corners run."""
    if not 3 <= len(corners) <= MOST_CORNERS:
        raise OutlineError(
            f"{len(corners)} corners given", f"3 to {MOST_CORNERS} corners make a room"
        )
    for i, corner in enumerate(corners):
        if corner in corners[:i]:
            first = corners.index(corner) + 1
            raise OutlineError(
                f"corner {i + 1} is the same point as corner {first}",
                "each corner is listed once",
                "leave the repeated one out; the last wall closes by itself",
            )
    _check_crossing(corners)


def area(corners: Sequence[Point]) -> int:
    """Twice the area, in mm2: above 0 if the corners run anticlockwise, with y up."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in _pairs(corners))


def _pairs(corners: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))


def _check_crossing(corners: Sequence[Point]) -> None:
    sides = _pairs(corners)
    for j in range(len(sides)):
        for i in range(j):
            if _clash(sides[i], sides[j], (j - i) in (1, len(sides) - 1)):
                raise OutlineError(
                    f"wall {letter(i)} and wall {letter(j)} cross or touch",
                    "walls meet at corners only",
                    "list the corners in order round the room",
                )


def _side(a: Point, b: Point, p: Point) -> int:
    turn = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    return (turn > 0) - (turn < 0)


def _clash(one: tuple[Point, Point], two: tuple[Point, Point], neighbours: bool) -> bool:
    """Whether two walls meet elsewhere than in the corner that neighbours share."""
    (a, b), (c, d) = one, two
    if neighbours:
        middle = b if b in two else a
        far, other = (a if middle == b else b), (d if middle == c else c)
        if _side(middle, far, other):
            return False
        # In one line: they overlap if both run off to the same side.
        return (far[0] - middle[0]) * (other[0] - middle[0]) + (far[1] - middle[1]) * (
            other[1] - middle[1]
        ) > 0
    turns = _side(a, b, c), _side(a, b, d), _side(c, d, a), _side(c, d, b)
    if turns[0] != turns[1] and turns[2] != turns[3]:
        return True
    return any(
        not turn and _between(side, p)
        for turn, side, p in zip(turns, (one, one, two, two), (c, d, a, b), strict=True)
    )


def _between(side: tuple[Point, Point], p: Point) -> bool:
    (ax, ay), (bx, by) = side
    return min(ax, bx) <= p[0] <= max(ax, bx) and min(ay, by) <= p[1] <= max(ay, by)


def cut_breast(
    room: Sequence[Wall], index: int, name: str, offset: int, width: int, depth: int
) -> tuple[Wall, ...]:
    """The walls once a chimney breast stands on wall ``index``, all in mm.

    Its faces become walls of their own; what is left of the broken wall on
    either side keeps the wall's name in ``part_of``. A breast that begins or
    ends in a corner of the room leaves no wall there.
    """
    wall = room[index]
    end = offset + width
    run: list[Step] = [(name, (offset, depth))]
    if offset > 0:
        run.insert(0, (f"{name} left side", (offset, 0)))
    if end < round(wall.length):
        run.append((f"{name} right side", (end, depth)))
        return _broken(room, index, offset, run, end)
    # The next wall begins at the breast's face.
    return _broken(room, index, offset, run, end, _whole(wall, end, depth))


def bay_parts(name: str) -> tuple[str, str, str]:
    """What the three walls of a bay are called, from left to right as seen from inside."""
    return f"{name} left", name, f"{name} right"


def add_bay(
    room: Sequence[Wall], index: int, name: str, offset: int, width: int, depth: int, front: int
) -> tuple[Wall, ...]:
    """The walls once a bay is built out of wall ``index``, all in mm.

    ``width`` is the opening in the wall, ``front`` the wall opposite it, in the middle.
    """
    left, middle, right = bay_parts(name)
    start = offset + (width - front) // 2
    run = [
        (left, (offset, 0)),
        (middle, (start, -depth)),
        (right, (start + front, -depth)),
    ]
    return _broken(room, index, offset, run, offset + width)


Step = tuple[str, tuple[int, int]]


def _broken(
    room: Sequence[Wall],
    index: int,
    offset: int,
    run: Sequence[Step],
    end: int,
    following: Point | None = None,
) -> tuple[Wall, ...]:
    """The walls with ``run`` in wall ``index`` from ``offset`` to ``end``: names and starts.

    What is left of the broken wall on either side keeps its name in ``part_of``.
    ``following`` is where the next wall begins, if that changes.
    """
    wall = room[index]
    before, after = offset > 0, end < round(wall.length)
    left, right = (
        (f"{wall.name} left", f"{wall.name} right") if before and after else (wall.name,) * 2
    )
    steps = [(name, name, at) for name, at in run]
    if before:
        steps.insert(0, (left, wall.part_of, (0, 0)))
    if after:
        steps.append((right, wall.part_of, (end, 0)))
    starts = [(w.start, w.name, w.part_of) for w in room]
    if following is not None:
        nearest = (index + 1) % len(room)
        starts[nearest] = (following, *starts[nearest][1:])
    starts[index : index + 1] = [(_whole(wall, *at), name, part) for name, part, at in steps]
    ends = [s[0] for s in starts[1:]] + [starts[0][0]]
    return tuple(Wall(n, a, b, part) for (a, n, part), b in zip(starts, ends, strict=True))


def _whole(wall: Wall, along: int, inward: int) -> Point:
    x, y = wall.point(along, inward)
    return round(x), round(y)
