"""Places for text on a plan, and the names of pieces and walls written there.

A text goes inside its shape where it fits (``find_inside``), along a line on either side
of it (``write_beside``), or nearby with a thin leader (``write_nearby``). Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, partial

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Room, Vector, Wall
from arrange.draw.board import Board, Numbers, upright
from arrange.draw.symbols import Drawn
from arrange.draw.text import extent, foldings

Leading = tuple[Vector, Vector, Vector]  # the middle of a text, and both ends of its leader
Spot = tuple[Vector, float]  # the middle of a text and its angle in degrees

TRIED = 250  # free places looked at for a label with a leader
COARSE = 2  # cells between places that are looked at where it is crowded
TOGETHER = 64  # of them at a time, nearest first
LONG = 75.0  # points: a name beside its piece is folded rather than longer
TURNED = 1.6  # what reading sideways costs, in points of text size
NEAR = 0.12  # how far from its best spot a name may go, in sides of a square as large
FOLDED = 0.45  # what each further line costs, in points of text size

ACROSS = 1.0  # points: what a cell of a leader costs that lies on another piece


@cache
def _edge(text: str) -> Numbers:
    """Where a leader may leave a text, in shares of its box from its middle: always at a line."""
    widths = [extent(line, 10.0)[0] for line in text.split("\n")]
    top, bottom = widths[0] / max(widths), widths[-1] / max(widths)
    middle = max(widths[(len(widths) - 1) // 2], widths[len(widths) // 2]) / max(widths)
    ends = [(x * wide, y) for x in (-0.25, 0.0, 0.25) for wide, y in ((top, 0.5), (bottom, -0.5))]
    return np.array([*ends, (-0.5 * middle, 0.0), (0.5 * middle, 0.0)])


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text to place: other wordings in order of liking, sizes in points from the largest."""

    texts: tuple[str, ...]
    sizes: tuple[float, ...]
    colour: str
    bold: bool = False
    turns: bool = True  # may be read sideways


@dataclass(frozen=True, slots=True)
class Place:
    """A place found: what is written there, how large, at which angle."""

    centre: Vector
    text: str
    size: float
    angle: float


def sizes_between(largest: float, least: float) -> tuple[float, ...]:
    """Text sizes half a point apart, largest first."""
    steps = round((largest - least) * 2)
    return tuple(largest - i / 2 for i in range(steps + 1))


def find_inside(
    board: Board, shape: Polygon, owner: int, spot: Vector, tilt: float, wanted: Wanted
) -> Place | None:
    """A place for the text wholly inside the visible part of a piece, or None.

    Level text is preferred to turned text, large to small, few lines to many.
    ``tilt`` is the angle in degrees of the piece's width on the plan.
    """
    level = tilt % 90 < 0.5 or tilt % 90 > 89.5
    angles: tuple[float, ...] = (0.0, 90.0) if level else (upright(tilt), upright(tilt + 90))
    if not wanted.turns:
        angles, level = (0.0,), True
    for text in wanted.texts:
        trials = [
            (largest_first + TURNED * (i > 0) + FOLDED * folded.count("\n"), size, folded, angle)
            for size in wanted.sizes
            for largest_first in [wanted.sizes[0] - size]
            for folded in foldings(text)
            for i, angle in enumerate(angles)
        ]
        trials.sort(key=lambda t: (t[0], -t[1]))
        find = _upright_place if level else _tilted_place
        for near in (NEAR * math.sqrt(shape.area), math.inf):
            for _, size, folded, angle in trials:
                box = board.size(folded, size, wanted.bold)
                centre = find(board, shape, owner, spot, box, angle)
                if centre is not None and math.dist(centre, spot) <= near:
                    return Place(centre, folded, size, angle)
    return None


def _upright_place(
    board: Board, shape: Polygon, owner: int, spot: Vector, box: Vector, angle: float
) -> Vector | None:
    w, h = box if angle == 0 else (box[1], box[0])
    x0, y0, x1, y1 = shape.bounds
    if w > x1 - x0 or h > y1 - y0:
        return None
    raster = board.ink
    low = raster.indices(np.array([[x0, y0], [x1, y1]]))
    r0, c0 = int(low[0][0]), int(low[1][0])
    window = (slice(r0, int(low[0][1]) + 1), slice(c0, int(low[1][1]) + 1))
    sums, columns, rows = raster.boxes(w, h, window)
    if not sums.size:
        return None
    middle = board.owner.marks[window][rows // 2 :, columns // 2 :]
    middle = middle[: sums.shape[0], : sums.shape[1]]
    good = (sums < 0.5) & (np.round(middle) == owner)
    if not good.any():
        return None
    found_rows, found_columns = np.nonzero(good)
    xs = raster.bounds[0] + (found_columns + c0 + columns / 2) * raster.cell
    ys = raster.bounds[1] + (found_rows + r0 + rows / 2) * raster.cell
    best = int(np.argmin((xs - spot[0]) ** 2 + (ys - spot[1]) ** 2))
    return float(xs[best]), float(ys[best])


def _tilted_place(
    board: Board, shape: Polygon, owner: int, spot: Vector, box: Vector, angle: float
) -> Vector | None:
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    reach = math.sqrt(shape.area) / 2
    shifts = [i / 6 * reach for i in (0, 1, -1, 2, -2, 3, -3, 4, -4)]
    for u, v in sorted(((u, v) for u in shifts for v in shifts), key=lambda p: math.hypot(*p)):
        at = (spot[0] + u * c - v * s, spot[1] + u * s + v * c)
        if not shape.contains(board.corners(at, box, angle)):
            continue
        points = board.samples(at, box, angle)
        if not board.ink.under(points).any() and (board.owner.under(points) == owner).all():
            return at
    return None


def write_nearby(
    board: Board, target: BaseGeometry, wanted: Wanted, gid: str = "", tip: str = "dot"
) -> bool:
    """Write as near ``target`` as there is room, with a leader to it.

    Places on walls, pieces, lines and other text are refused; the door's swing
    and the walkway are avoided where another place is as good. Where there is
    no free place at all, nothing is written and the answer is False.
    """
    least, crowded = wanted.sizes[-1], False

    @cache
    def small(folded: str) -> Leading | None:
        return _free_place(board, target, folded, least, wanted.bold, COARSE if crowded else 1)

    for text in wanted.texts:
        for size in (wanted.sizes[0], least):
            for folded in _compact(text, size):
                # Where even small text has no place, larger text need not be tried.
                if size == least or (crowded and small(folded) is None):
                    found = small(folded)
                else:
                    found = _free_place(board, target, folded, size, wanted.bold)
                if found is not None:
                    _write_with_leader(board, found, folded, size, wanted, gid, tip)
                    return True
                crowded = True
    return False


def _compact(text: str, size: float) -> list[str]:
    """Ways to write a name beside its piece: short lines before long ones."""
    return sorted(foldings(text, 3), key=lambda folded: extent(folded, size)[0] > LONG)


def _free_place(
    board: Board, target: BaseGeometry, text: str, size: float, bold: bool, step: int = 1
) -> Leading | None:
    """Middle of the text, and both ends of its leader (at the text, at the target).

    Only places ``step`` cells apart are looked at.
    """
    box = board.size(text, size, bold, pad=2.2)
    ink, w, h = board.ink.boxes(*box)
    if not ink.size:
        return None
    rows, columns = (found * step for found in np.nonzero(ink[::step, ::step] < 0.5))
    bare = board.solid.boxes_at(*box, rows, columns) < 0.5
    rows, columns = rows[bare], columns[bare]
    if not rows.size:
        return None
    cell = board.ink.cell
    xs = board.view[0] + (columns + w / 2) * cell
    ys = board.view[1] + (rows + h / 2) * cell
    soft = board.soft.boxes_at(*box, rows, columns) / (w * h)
    middle = target.centroid
    off = np.hypot(
        np.maximum(np.abs(xs - middle.x) - box[0] / 2, 0),
        np.maximum(np.abs(ys - middle.y) - box[1] / 2, 0),
    )
    costs = off + board.mm(30) * soft
    picks = _picked(costs)
    aims = _aims(target)
    edge = _edge(text) * np.asarray(board.size(text, size, bold, pad=0.6))
    best, least = None, math.inf
    for first in range(0, len(picks), TOGETHER):
        some = picks[first : first + TOGETHER]
        if costs[some[0]] >= least:
            break
        ats = np.column_stack((xs[some], ys[some]))
        starts, ends = _leaders(ats, edge, aims)
        sums = costs[some] + _crossings(board, starts, ends)
        i = int(np.argmin(sums))
        if sums[i] < least:
            best, least = (_vector(ats[i]), _vector(starts[i]), _vector(ends[i])), sums[i]
    return best


def _picked(costs: Numbers) -> npt.NDArray[np.int64]:
    """Near places closely, far ones thinly, for the leader that has a text in its way."""
    ranks = np.unique(np.geomspace(1, len(costs), TRIED).astype(np.int64)) - 1
    ranks = np.union1d(ranks, np.arange(0, min(len(costs), 30 * TRIED), 60))
    return np.asarray(np.argsort(costs, kind="stable")[ranks])


def _vector(point: Numbers) -> Vector:
    return float(point[0]), float(point[1])


def _aims(target: BaseGeometry) -> Numbers:
    """Points of the target that a leader may end at: well inside it, not at its ends."""
    if target.area:
        smaller = target.buffer(-math.sqrt(target.area) * 0.25)
        ring = (
            target.centroid if smaller.is_empty else smaller.segmentize(math.sqrt(target.area) / 4)
        )
        return np.asarray(shapely.get_coordinates(ring))
    if target.length:
        shares = np.linspace(0.2, 0.8, 13)
        return np.asarray(shapely.get_coordinates(target.interpolate(shares, normalized=True)))
    return np.asarray(shapely.get_coordinates(target))


def _leaders(centres: Numbers, edge: Numbers, aims: Numbers) -> tuple[Numbers, Numbers]:
    """The shortest line from the ``edge`` of a text at each of the centres to one of ``aims``."""
    starts = centres[:, None, :] + edge
    off = ((starts[:, :, None, :] - aims[None, None, :, :]) ** 2).sum(axis=3)
    nearest = off.reshape(len(centres), -1).argmin(axis=1)
    i, j = np.divmod(nearest, len(aims))
    return starts[np.arange(len(centres)), i], aims[j]


def _crossings(board: Board, starts: Numbers, ends: Numbers) -> Numbers:
    """What each leader costs by what it crosses, lines and pieces; text in its way forbids it."""
    lengths = np.hypot(*(ends - starts).T)
    steps = np.maximum(2, (lengths / board.ink.cell).astype(np.int64) + 1)
    firsts = np.cumsum(steps) - steps
    whose = np.repeat(np.arange(len(steps)), steps)
    share = (np.arange(len(whose)) - firsts[whose]) / (steps[whose] - 1)
    points = starts[whose] + share[:, None] * (ends - starts)[whose]
    under = board.ink.indices(points)  # both rasters have the same cells
    texts = np.add.reduceat(board.texts.marks[under] != 0, firsts, dtype=np.int64)
    inks = np.add.reduceat(board.ink.marks[under] != 0, firsts, dtype=np.int64)
    owners = np.where(board.solid.marks[under] != 0, board.owner.marks[under], 0)
    own = np.repeat(board.owner.under(ends), steps)
    others = np.add.reduceat((owners != 0) & (owners != own), firsts, dtype=np.int64)
    return np.where(texts > 0, math.inf, inks * board.mm(3) + others * board.mm(ACROSS))


def _write_with_leader(
    board: Board,
    found: Leading,
    text: str,
    size: float,
    wanted: Wanted,
    gid: str,
    tip: str,
) -> None:
    at, near, far = found
    board.text(at, text, size, colour=wanted.colour, bold=wanted.bold, gid=gid)
    if math.dist(near, far) > board.mm(1.5):
        board.lines([[near, far]], 0.4, board.style.quiet, 18.0, gid=f"leader:{gid}")
        board.texts.add_line([near, far])
    if tip == "dot":
        dot = Point(far).buffer(board.mm(1.0), quad_segs=4)
        board.fill(dot, board.style.quiet, 18.1)
        board.ink.add_shape(dot)


def write_first(
    board: Board, spots: Callable[[Vector], Iterable[Spot]], wanted: Wanted, gid: str = ""
) -> bool:
    """Write on the first spot that is free, in the first wording and size that has one.

    ``spots`` tells where a box of such a width and height in mm could go, best first.
    False if there is no free place.
    """
    for text in wanted.texts:
        for size in wanted.sizes:
            box = board.size(text, size, wanted.bold)
            # Off the walkway and a door's swing, where there is such a spot.
            for at, angle in sorted(spots(box), key=partial(_on_soft, board, box)):
                if board.free(at, box, angle):
                    colour, bold = wanted.colour, wanted.bold
                    board.text(at, text, size, colour=colour, angle=angle, bold=bold, gid=gid)
                    return True
    return False


def _on_soft(board: Board, box: Vector, spot: Spot) -> bool:
    at, angle = spot
    return bool(board.soft.under(board.samples(at, box, angle)).any())


def write_beside(
    board: Board, start: Vector, end: Vector, wanted: Wanted, gid: str = "", tip: str = ""
) -> None:
    """Write along a line, on either side of it; else nearby with a leader."""
    if not write_first(board, lambda box: _beside(start, end, box, board.mm(1.3)), wanted, gid):
        write_nearby(board, LineString([start, end]), wanted, gid, tip)


def _beside(start: Vector, end: Vector, box: Vector, air: float) -> Iterator[Spot]:
    """Spots along the line, then level ones, ``air`` mm off it; near its middle first."""
    (ux, uy), angle = direction(start, end)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    span, (w, h) = math.dist(start, end), box
    for turn, reach in ((upright(angle), h), (0.0, abs(uy) * w + abs(ux) * h)):
        for slide in (0.0, 0.2, -0.2, 0.35, -0.35):
            for side in (1, -1):
                off = side * (reach / 2 + air)
                x = middle[0] - uy * off + ux * span * slide
                yield (x, middle[1] + ux * off + uy * span * slide), turn


def direction(start: Vector, end: Vector) -> tuple[Vector, float]:
    """Unit vector and angle in degrees from ``start`` to ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    n = math.hypot(dx, dy) or 1.0
    return (dx / n, dy / n), math.degrees(math.atan2(dy, dx))


def draw_names(
    board: Board, placed: list[Drawn], numbers: dict[str, str] | None = None
) -> tuple[str, ...]:
    """The name of every piece: inside it where it fits, else beside it with a leader.

    The large pieces come first, so that a small neighbour's name never takes
    their place. Returns the names for which there was no room anywhere. With ``numbers``
    only major pieces get a leader; the others go by a number, which is added there by their
    name without its own: alike pieces share one, on all plans with these ``numbers``.
    """
    style = board.style
    sizes = sizes_between(style.name_size, style.least_name_size)
    outside = [
        one
        for one in sorted(placed, key=lambda d: (-d.shape.area, d.number))
        if not _write_inside(
            board, one, Wanted(_wordings(one, numbers is None), sizes, style.text), 0.8
        )
    ]
    missing: list[str] = []
    for one in outside:
        wanted = Wanted(_wordings(one), (style.least_name_size,), style.text)
        named = numbers is None or one.piece.major
        if named and write_nearby(board, one.shape, wanted, f"name:{one.piece.name}"):
            continue
        if numbers is None and _write_inside(board, one, wanted, 0.8):
            continue
        if numbers is None or not _write_number(board, one, numbers):
            missing.append(one.piece.name)
    return tuple(missing)


def _write_inside(board: Board, one: Drawn, wanted: Wanted, pad: float) -> bool:
    tilt = math.degrees(math.atan2(one.frame.across[1], one.frame.across[0]))
    place = find_inside(board, one.shape, one.number, one.spot, tilt, wanted)
    if place is None:
        return False
    gid, bold = f"name:{one.piece.name}", wanted.bold
    board.text(place.centre, place.text, place.size, angle=place.angle, bold=bold, gid=gid, pad=pad)
    return True


def _write_number(board: Board, one: Drawn, numbers: dict[str, str]) -> bool:
    """The number that stands for a piece, in it or beside it."""
    called = without_number(one.piece.name)
    number = _number(called, numbers)
    wanted = Wanted((number,), (board.style.least_name_size,), board.style.text, True, turns=False)
    gid = f"name:{one.piece.name}"
    if not (_write_inside(board, one, wanted, 0.2) or write_nearby(board, one.shape, wanted, gid)):
        return False
    numbers[called] = number
    return True


def _number(called: str, numbers: dict[str, str]) -> str:
    """The number that what is called so has on this sheet, or would have."""
    return numbers.get(called, str(len(numbers) + 1))


def name_built_in(
    board: Board, built_in: Iterable[tuple[str, BaseGeometry]], numbers: dict[str, str] | None
) -> None:
    """Beside each thing that is built in what it is; with ``numbers`` one of theirs.

    Where there is no room it goes without.
    """
    style = board.style
    for name, target in built_in:
        called = without_number(name)
        said = called if numbers is None else _number(called, numbers)
        wanted = Wanted((said,), (style.note_size,), style.quiet, bold=numbers is not None)
        if write_nearby(board, target, wanted, f"built in:{name}") and numbers is not None:
            numbers[called] = said


def without_number(name: str) -> str:
    """What alike pieces are called together.

    >>> without_number("bedside table 2"), without_number("2")
    ('bedside table', '2')
    """
    words = name.rsplit(maxsplit=1)
    return words[0] if len(words) == 2 and words[1].isdecimal() else name


def _wordings(one: Drawn, told_apart: bool = False) -> tuple[str, ...]:
    """What a piece may be called; ``told_apart`` keeps the number of all but chairs at a table."""
    name, short = one.piece.name, one.piece.short
    number = name.removeprefix(without_number(name)).strip()
    wordings = [name, f"{short} {number}"] if short and number else [name]
    if short and not (told_apart and number and not one.piece.pulled_up):
        wordings.append(short)
    return tuple(dict.fromkeys(wordings))


def draw_wall_names(board: Board, room: Room) -> None:
    """Each wall's own name outside it, quietly, on the longest stretch that bears it.

    A wall without room outside goes without its name: inside, it would be in the way.
    """
    longest: dict[str, int] = {}
    for i, wall in enumerate(room.walls):
        name = wall.part_of or wall.name
        if name and (name not in longest or wall.length > room.walls[longest[name]].length):
            longest[name] = i
    style = board.style
    for name, i in longest.items():
        write_first(
            board,
            partial(_outside, room.walls[i], style.wall + board.mm(2)),
            Wanted((name,), (style.note_size,), style.quiet),
            f"wall:{name}",
        )


def _outside(wall: Wall, off: float, box: Vector) -> Iterator[Spot]:
    """Spots along a wall, ``off`` mm outside it, its middle first."""
    angle = upright(math.degrees(math.atan2(wall.along[1], wall.along[0])))
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        yield wall.point(wall.length * share, -(off + box[1] / 2)), angle
