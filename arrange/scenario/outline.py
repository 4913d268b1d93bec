"""The outline of the room: corners, a walk round the walls, or width by length.

Plans have x to the right and y up. Corners run clockwise; the first wall of a
walked room is the top one and runs to the right. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.lengths import length as in_words
from arrange.data.room import Point, Wall
from arrange.data.scenario import Unit
from arrange.errors import ArrangeError

# A tape read by hand is out by a few mm a wall; what is left at the end is spread.
TAPE_SLIP = 5  # mm a wall
STRAIGHT = 2.0  # a closing wall this many degrees off its course is a slip of the tape
MOST_CORNERS = 40
WIDEST = 60_000  # mm from one side of a room to the other


class OutlineError(ArrangeError, ValueError):
    """An outline that is no room; ``allowed`` and ``hint`` belong to the message."""

    def __init__(self, given: str, allowed: str, hint: str = "") -> None:
        self.given, self.allowed, self.hint = given, allowed, hint
        super().__init__(given)


@dataclass(frozen=True, slots=True)
class Leg:
    """One wall on the walk: its length in mm and the turn at its end, right positive."""

    name: str
    length: float
    turn: float


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


def walk(legs: Sequence[Leg], closing: bool, unit: Unit = "mm") -> tuple[Point, ...]:
    """Corners of a room walked round clockwise, the wall on the left hand.

    ``closing`` says that the last wall is left out and runs back to the start. What a
    hand-held tape leaves open, up to ``TAPE_SLIP`` a wall, is spread over the lengths of
    the walls; the angles between them stay as they were given. A message about the gap
    says it in ``unit``.

    Raises
    ------
    OutlineError
        If the walk does not end where it began, or the closing wall is crooked.
    """
    courses: list[float] = []
    course = 0.0
    for leg in legs:
        courses.append(course)
        course += leg.turn
    steps = [
        (leg.length * x, leg.length * y)
        for leg, (x, y) in zip(legs, map(_heading, courses), strict=True)
    ]
    left = (-sum(s[0] for s in steps), -sum(s[1] for s in steps))
    slip = TAPE_SLIP * (len(legs) + closing)
    if closing:
        steps, left = _closing_step(steps, left, course, slip)
    miss = math.hypot(*left)
    if miss > slip:
        otherwise = "" if closing else ", or leave the last wall out and it is drawn for you"
        raise OutlineError(
            f"the walls end {in_words(round(miss), unit)} from where they began",
            "the last wall must end at the first corner",
            f"measure again{otherwise}",
        )
    return _corners(_spread(steps, left))


def _closing_step(
    steps: list[tuple[float, float]], left: tuple[float, float], course: float, slip: float
) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """Add the wall that closes the room; what it misses its course by is left to spread."""
    if math.hypot(*left) < 1:
        return steps, left
    ahead = _heading(course)
    along = left[0] * ahead[0] + left[1] * ahead[1]
    aside = left[0] * ahead[1] - left[1] * ahead[0]
    off = abs(math.degrees(math.atan2(aside, along)))
    straight = course % 90 == 0 and off < STRAIGHT
    if along > 0 and (straight or abs(aside) <= slip):
        step = (along * ahead[0], along * ahead[1])
        return [*steps, step], (left[0] - step[0], left[1] - step[1])
    return [*steps, left], (0.0, 0.0)


def _spread(
    steps: list[tuple[float, float]], left: tuple[float, float]
) -> list[tuple[float, float]]:
    """Lengthen or shorten walls so that nothing is left, each in its own direction.

    By least squares, where a wall may give in proportion to its length: of all ways to
    close the room the one with the least sum of (change squared / length). With right
    angles alone that is each direction for itself, in proportion.
    """
    lengths = [math.hypot(x, y) or 1.0 for x, y in steps]
    xx = sum(x * x / long for (x, _), long in zip(steps, lengths, strict=True))
    xy = sum(x * y / long for (x, y), long in zip(steps, lengths, strict=True))
    yy = sum(y * y / long for (_, y), long in zip(steps, lengths, strict=True))
    det = xx * yy - xy * xy
    if det < 1:  # all in one line, which is no room anyhow
        return steps
    pull = (
        (yy * left[0] - xy * left[1]) / det,
        (xx * left[1] - xy * left[0]) / det,
    )
    stretched = [
        1 + (x * pull[0] + y * pull[1]) / long for (x, y), long in zip(steps, lengths, strict=True)
    ]
    return [(x * by, y * by) for (x, y), by in zip(steps, stretched, strict=True)]


def _corners(steps: list[tuple[float, float]]) -> tuple[Point, ...]:
    points, x, y = [], 0.0, 0.0
    for dx, dy in steps:
        points.append((round(x), round(y)))
        x, y = x + dx, y + dy
    lowest = min(p[0] for p in points), min(p[1] for p in points)
    return tuple((px - lowest[0], py - lowest[1]) for px, py in points)


def check(corners: Sequence[Point]) -> None:
    """Whether ``corners`` make a room.

    Raises
    ------
    OutlineError
        If there are too few or too many, two are the same, walls cross or touch,
        or they run anticlockwise.
    """
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
    if sum(a[0] * b[1] - b[0] * a[1] for a, b in _pairs(corners)) > 0:
        raise OutlineError(
            "the corners run anticlockwise",
            "corners run clockwise as seen on the plan, with y up",
            "list them the other way round",
        )


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
    before, after = offset > 0, offset + width < round(wall.length)
    left, right = (
        (f"{wall.name} left", f"{wall.name} right") if before and after else (wall.name,) * 2
    )
    end = offset + width
    run: list[tuple[str, str, tuple[int, int]]] = []
    if before:
        run += [(left, wall.part_of, (0, 0)), (f"{name} left side", "", (offset, 0))]
    run.append((name, "", (offset, depth)))
    if after:
        run += [(f"{name} right side", "", (end, depth)), (right, wall.part_of, (end, 0))]
    starts = [(w.start, w.name, w.part_of) for w in room]
    if not after:  # the next wall begins at the breast's face
        following = (index + 1) % len(room)
        starts[following] = (_whole(wall, end, depth), *starts[following][1:])
    starts[index : index + 1] = [(_whole(wall, *at), n, part or n) for n, part, at in run]
    ends = [s[0] for s in starts[1:]] + [starts[0][0]]
    return tuple(Wall(n, a, b, part) for (a, n, part), b in zip(starts, ends, strict=True))


def _whole(wall: Wall, along: int, inward: int) -> Point:
    x, y = wall.point(along, inward)
    return round(x), round(y)
