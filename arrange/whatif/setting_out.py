"""Setting out: where each piece goes, by two lengths of the tape, and in which order.

A length is taken along the plan from a wall, or where none runs the right way from a
corner, to the nearest side of the piece; where what stands already is in the way of the tape,
from that. At a slanted wall it is taken along that wall.
The order is one in which pieces can be carried in: backwards, each leaves by the door past
those that still stand, the small ones first. Lengths in mm; no solver.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from shapely.geometry import LineString

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Side
from arrange.data.room import FACING_VECTOR, Facing, Room, Vector, Wall
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.shapes import frame, has_front
from arrange.geometry.walking import Floor, Walk, empty_floor

# The sides of a piece at least x, least y, greatest x, greatest y, by where its front looks.
SIDES_AT: dict[Facing, tuple[Side, Side, Side, Side]] = {
    "down": ("left", "front", "right", "back"),
    "left": ("front", "right", "back", "left"),
    "up": ("right", "back", "left", "front"),
    "right": ("back", "left", "front", "right"),
}
NARROWEST = 300  # mm: no hand needs less to carry something by
TOUCH = 1.0  # mm
UNEVEN = 3  # a length that is no whole centimetre is read as well as one so much as long
LEVELS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)  # of a side, where a length may end at it
MUCH = 2  # a neighbour so many times nearer than a wall is measured from instead
REACHED_OVER = 150  # mm; over a radiator the tape is held to the wall

Line = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class Taped:
    """One length of the tape: from ``wall`` to the ``side`` of a piece.

    With ``end`` it is taken along that wall from its left or right end; else square off it.
    With ``neighbour`` it is taken from that piece, which stands already, and ``wall`` is empty.
    """

    side: Side
    wall: str
    length: int
    end: str = ""
    neighbour: str = ""


@dataclass(frozen=True, slots=True)
class SetDown:
    """A piece in the order of setting down: two lengths, and the wall its front looks at.

    ``carried`` says that it can be carried there past what stands already, upright or on
    its side; else it has to be lifted over something. A ``plain`` piece has no front: it has
    its ``long`` side across or up the plan, or no side is longer. Across a ``corner`` the two
    lengths are those from it along its walls to the ends of the back; what is turned like such
    a piece is told by its nearest corners (``askew``).
    """

    piece: str
    across: Taped
    up: Taped
    looks_at: str = ""
    carried: bool = True
    plain: bool = False
    long: Literal["across", "up", ""] = "across"
    corner: bool = False
    askew: bool = False


@lru_cache(maxsize=64)
def setting_out(scenario: Scenario, arrangement: Arrangement) -> tuple[SetDown, ...]:
    """Every piece in an order in which it can be carried in: rugs first, what hangs last."""
    scene = Scene(scenario, arrangement)
    order = _order(scene)
    there = [placed for placed, _ in order]
    return tuple(
        replace(_set_down(scene, placed, there[:i]), carried=ok)
        for i, (placed, ok) in enumerate(order)
    )


def _set_down(scene: Scene, placed: Placed, there: Sequence[Placed]) -> SetDown:
    walls = scene.scenario.room.walls
    askew = placed.placement.corner is not None
    if askew and placed.piece.anchor is None:
        return _at_corner(placed, scene.scenario.room)
    if placed.placement.facing is None and placed.placement.wall is not None:
        return _at_slant(placed, walls[placed.placement.wall])
    across, up = (_handiest(scene, placed, axis, there) for axis in (0, 1))
    wide, high = placed.x1 - placed.x0, placed.y1 - placed.y0
    long: Literal["across", "up", ""] = "across" if wide > high else "up" if high > wide else ""
    return SetDown(
        placed.name,
        across,
        up,
        "" if askew else _looks_at(scene, placed),
        plain=placed.piece.flat or not has_front(placed.piece),
        long=long,
        askew=askew,
    )


def _handy(taped: Taped) -> tuple[bool, int]:
    """Walls before corners, short before long, and whole centimetres before others.

    Not at any price: nobody tapes three metres to a side that is a hand away from another wall.
    """
    return bool(taped.end), taped.length * (UNEVEN if taped.length % 10 else 1)


def _handiest(scene: Scene, placed: Placed, axis: int, there: Sequence[Placed]) -> Taped:
    """The handiest length along an axis, if nothing that stands by then is in the way of it.

    Else that from the next wall that is free, or from what stands beside it, if much nearer.
    """
    found = sorted(_lengths(scene, placed, axis), key=_handy)
    free = [taped for taped in found if not _in_the_way(scene, placed, taped, axis, there)]
    if found[0] in free:
        return found[0]
    beside = _off_neighbour(scene, placed, axis, there)
    if beside is not None and (not free or beside.length * MUCH < free[0].length):
        return beside
    return (*free, found[0])[0]


def _in_the_way(
    scene: Scene, placed: Placed, taped: Taped, axis: int, there: Sequence[Placed]
) -> bool:
    """Whether what stands already crosses the tape wherever along the side it is held."""
    lines = tape_lines(scene, placed, taped, axis)
    return not taped.end and all(crossed(scene, line, axis, there, taped) for line in lines)


def crossed(scene: Scene, line: Line, axis: int, there: Sequence[Placed], taped: Taped) -> bool:
    """Whether some of what stands ``there``, or was built in, is in the way of a tape."""
    own = {taped.neighbour}
    low = [
        p.body for p in there if p.name not in own and not p.piece.flat and p.piece.bottom < HEAD
    ]
    for shape, bottom in scene.solid_fixtures:
        (x0, y0, x1, y1) = shape.bounds
        if bottom < HEAD and (x1 - x0, y1 - y0)[axis] > REACHED_OVER:
            low.append(shape)
    return any(shape.intersection(LineString(line)).length > 1 for shape in low)


def tape_lines(scene: Scene, placed: Placed, taped: Taped, axis: int) -> Iterator[Line]:
    """Where along the side the tape can be held: in the middle of what is opposite first."""
    other, spans = 1 - axis, (placed.span(0), placed.span(1))
    if taped.neighbour:
        beside = scene.find(taped.neighbour)
        ends = list(beside.span(other))
        at = float(beside.span(axis)[beside.span(axis)[0] < spans[axis][0]])
    else:
        wall = next(w for w in scene.scenario.room.walls if w.name == taped.wall)
        ends = sorted((wall.start[other], wall.end[other]))
        at = float(wall.start[axis])
    low, high = max(spans[other][0], ends[0]), min(spans[other][1], ends[1])
    if low >= high:
        low, high = spans[other]
    near = float(spans[axis][at > spans[axis][0]])
    for share in LEVELS:
        level = low + (high - low) * share
        yield ((level, at), (level, near)) if axis else ((at, level), (near, level))


def _off_neighbour(
    scene: Scene, placed: Placed, axis: int, there: Sequence[Placed]
) -> Taped | None:
    """From the nearest of what stands already on either side."""
    (low, high), sides = placed.span(axis), SIDES_AT[placed.facing]
    found: list[Taped] = []
    for one in there:
        stands = one.piece.fills_its_box and one.placement.facing is not None
        # A chair is pushed about all day.
        passed_over = one.piece.flat or one.piece.pulled_up or not stands
        if passed_over or not _beside(placed, one.span(1 - axis), 1 - axis):
            continue
        start, end = one.span(axis)
        if end <= low:
            found.append(Taped(sides[axis], "", low - end, neighbour=one.name))
        elif start >= high:
            found.append(Taped(sides[axis + 2], "", start - high, neighbour=one.name))
    clear = [one for one in found if not _in_the_way(scene, placed, one, axis, there)]
    return min(clear, key=lambda taped: taped.length, default=None)


def _at_corner(placed: Placed, room: Room) -> SetDown:
    """Across a corner: from it along either wall to where the back begins and ends."""
    corner, own = placed.placement.corner or 0, frame(placed.piece, placed.placement, room)
    left, right = room.meeting(corner)
    along_left = left.length - left.coordinate(*own.at(0, 0))
    along_right = right.coordinate(*own.at(placed.piece.width, 0))
    ends = (
        Taped("back", left.name, round(along_left), "right"),
        Taped("back", right.name, round(along_right), "left"),
    )
    across, up = ends if left.facing in ("up", "down") else ends[::-1]
    return SetDown(placed.name, across, up, corner=True)


def _at_slant(placed: Placed, wall: Wall) -> SetDown:
    """At a slanted wall: along it from its nearer end, and off it."""
    along = [wall.coordinate(x, y) for x, y in placed.body.exterior.coords]
    off = [wall.off(x, y) for x, y in placed.body.exterior.coords]
    # Seen from the wall its quarter turn says which side is nearest to the wall.
    turned: tuple[Side, ...] = ("back", "left", "front", "right")
    quarter = placed.placement.quarter % 4
    at_wall, left_end, right_end = (turned[(quarter + i) % 4] for i in (0, 1, 3))
    from_left, from_right = round(min(along)), round(wall.length - max(along))
    if from_left <= from_right:
        first = Taped(left_end, wall.name, from_left, "left")
    else:
        first = Taped(right_end, wall.name, from_right, "right")
    return SetDown(placed.name, first, Taped(at_wall, wall.name, round(min(off))))


def _lengths(scene: Scene, placed: Placed, axis: int) -> list[Taped]:
    """From each straight wall that runs across ``axis``, seen from the piece or not."""
    low, high = placed.span(axis)
    sides = SIDES_AT[placed.facing]
    found: list[tuple[bool, Taped]] = []
    for wall in scene.scenario.room.walls:
        if wall.facing is None or (FACING_VECTOR[wall.facing][axis] == 0):
            continue
        at, inward = wall.start[axis], FACING_VECTOR[wall.facing][axis]
        length, side = (low - at, sides[axis]) if inward > 0 else (at - high, sides[axis + 2])
        if length >= 0:
            found.append((not _opposite(placed, wall, axis), Taped(side, wall.name, length)))
    seen = [taped for hidden, taped in found if not hidden]
    along = [] if seen else _from_end(scene, placed, axis)
    return seen or along or [taped for _, taped in found] or [_from_corner(scene, placed, axis)]


def _from_end(scene: Scene, placed: Placed, axis: int) -> list[Taped]:
    """Along its own wall from where that begins, as in a bay, where no wall is opposite."""
    if placed.placement.wall is None:
        return []
    wall = scene.scenario.room.walls[placed.placement.wall]
    if wall.facing is None or FACING_VECTOR[wall.facing][axis] != 0:
        return []
    (low, high), sides, start = placed.span(axis), SIDES_AT[placed.facing], wall.start[axis]
    if wall.end[axis] > start:
        return [Taped(sides[axis], wall.name, low - start, "left")] if low >= start else []
    return [Taped(sides[axis + 2], wall.name, start - high, "left")] if high <= start else []


def _opposite(placed: Placed, wall: Wall, axis: int) -> bool:
    """Whether a wall and a piece are opposite one another, if only for a hand's breadth."""
    other = 1 - axis
    ends = sorted((wall.start[other], wall.end[other]))
    return _beside(placed, (ends[0], ends[1]), other)


def _beside(placed: Placed, ends: tuple[float, float], axis: int) -> bool:
    """Whether a piece shares a hand's breadth with what reaches so far along an axis."""
    low, high = placed.span(axis)
    return min(high, ends[1]) - max(low, ends[0]) > min(100, high - low - 1)


def _from_corner(scene: Scene, placed: Placed, axis: int) -> Taped:
    """Where every wall is slanted: from a corner, level with it, to the piece's near side."""
    low, high = placed.span(axis)
    sides = SIDES_AT[placed.facing]
    below = [w for w in scene.scenario.room.walls if w.start[axis] <= low]
    if below:
        wall = max(below, key=lambda w: w.start[axis])
        return Taped(sides[axis], wall.name, low - wall.start[axis], "left")
    wall = min(scene.scenario.room.walls, key=lambda w: w.start[axis])
    return Taped(sides[axis + 2], wall.name, wall.start[axis] - high, "left")


def _looks_at(scene: Scene, placed: Placed) -> str:
    """The wall that most of the front looks at straight; "" if only slanted ones are there.

    Of walls alike in that the nearest; one that another hides counts for what is seen of it.
    """
    axis = 0 if placed.facing in ("left", "right") else 1
    ahead, (low, high) = FACING_VECTOR[placed.facing][axis], placed.span(1 - axis)
    found = []
    for wall in scene.scenario.room.walls:
        if wall.facing is None or FACING_VECTOR[wall.facing][axis] != -ahead:
            continue
        front = (placed.x0, placed.y0)[axis] if ahead < 0 else (placed.x1, placed.y1)[axis]
        before = (wall.start[axis] - front) * ahead
        if before >= 0 and _opposite(placed, wall, axis):
            ends = sorted((wall.start[1 - axis], wall.end[1 - axis]))
            part = LineString([(max(low, ends[0]), 0), (min(high, ends[1]), 0)])
            found.append((before, wall.name, part))
    most, looked, hidden = 0.0, "", LineString()
    for _, name, part in sorted(found, key=lambda one: one[:2]):
        seen = part.difference(hidden)
        if seen.length > most:
            most, looked = seen.length, name
        hidden = hidden.union(part)
    return looked


def _order(scene: Scene) -> list[tuple[Placed, bool]]:
    """Rugs, then what stands, large first where the way allows, then what hangs."""
    rugs = [p for p in scene.placed if p.piece.flat]
    hanging = [p for p in scene.placed if p.piece.bottom > 0 and not p.piece.flat]
    standing = [p for p in scene.placed if p not in rugs and p not in hanging]
    floors: dict[int, Floor] = {}
    taken_out: list[tuple[Placed, bool]] = []
    while standing:
        by_size = sorted(standing, key=lambda p: (p.piece.width * p.piece.depth, p.name))
        out = next((p for p in by_size if _leaves(scene, p, standing, floors)), None)
        taken_out.append((out or by_size[0], out is not None))
        standing.remove(taken_out[-1][0])
    return [
        *((p, True) for p in sorted(rugs, key=_floor_taken)),
        *reversed(taken_out),
        *((p, True) for p in sorted(hanging, key=_floor_taken)),
    ]


def _floor_taken(placed: Placed) -> tuple[int, str]:
    return -placed.piece.width * placed.piece.depth, placed.name


def _leaves(scene: Scene, placed: Placed, standing: list[Placed], floors: dict[int, Floor]) -> bool:
    """Whether a way as wide as the piece is thin leads from the door up to where it stands."""
    piece, scenario = placed.piece, scene.scenario
    door = scenario.room.main_door
    thin = max(NARROWEST, min(piece.width, piece.depth, piece.height))
    width = min(thin, door.width) if door is not None else thin
    if width not in floors:
        # What is pushed in under a slope need not be walked up to.
        high = replace(scenario.room, slopes=(), beams=(), dormers=())
        floors[width] = empty_floor(replace(scenario, room=high), width)
    others = [p.body for p in standing if p is not placed and p.piece.bottom < HEAD]
    middles = Walk(floors[width], others).from_door
    return any(middle.distance(placed.body) <= width / 2 + TOUCH for middle in middles)
