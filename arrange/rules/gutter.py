"""No gap beside a large piece that is too wide to close and too narrow to use."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import MOVED_SEATS, Hand, Piece, canonical
from arrange.data.room import FACINGS, Facing, Room, Wall
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, Coordinate, across, along, arm_looks, wall_spot
from arrange.rules.protocol import Condition, L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, is_tall, square_ends

BESIDE = (39, 300)  # mm, ends not included: a gutter at an end; common practice, no source
BEHIND = (110, 440)  # mm: the same behind an easy chair; common practice, no source
# mm: behind a sofa or a desk, which stand at a wall, or with a way behind them that somebody
# can use; and behind any seat before what is used from there. Common practice, no source.
# A piece is free from 40 mm on, and so near the wall it is only the wall again.
WAY_BEHIND = (39, 750)
# mm along which something narrows such a way; common practice, no source. Half the back would be
# too much: a chimney breast behind a third of a sofa makes a dead pocket of the rest.
NARROWED = 200
MOVED = MOVED_SEATS | {"light", "plant"}  # by hand, and so is no gutter
DRESSED = 250  # mm that a curtain, a radiator or a pipe may take of it; common practice, no source
EVEN = 20  # mm by which the gaps of an alcove may differ; common practice, no source
HIGH = 700  # mm; what is higher closes a gap in; common practice, no source
ANYWHERE = 100_000
Ranges = Sequence[tuple[int, int]]


class Gutter(Rule):
    """No gap of 4 to 30 cm beside a bed, a sofa or what is tall, nor 11 to 75 behind a seat.

    Beside it is another wall, or something over 70 cm high on the same wall, along half its side
    or more. Nor is there a gap of 11 to 44 cm behind an easy chair that stands free, or of 4 to
    75 cm behind a sofa or a desk, be it along 20 cm: they stand at the wall, or leave a way
    behind them. What is wider than a chimney breast is at it with half its back within 11 cm. A
    corner sofa has two backs. What is over 70 cm high, and a bed at the back of a desk, is within
    11 cm of such a back or leaves 75, be it along 20 cm: it is used from there. Of two seats the
    one is as a wall behind an easy chair, along half its back; chairs at a table or a desk, lamps
    and plants are moved, and do not count. What is
    beside a desk or an easy chair does not count: one sweeps there by moving it. Equal
    gaps in an alcove are none, nor are gaps up to 25 cm with a window, a radiator or a pipe
    in them. What stands on another wall is kept off by the floor that is needed before it,
    and what is tied to a bed or sofa has its place beside it: neither is measured (but what is
    behind an easy chair that is tied to a sofa is), nor are walls aslant, nor what stands
    across a corner. Tall is what is
    110 cm high and 60 wide. Each piece counts once. Common practice, no source.
    """

    id = "gutter"
    title = "No gap too narrow to use"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for all such pieces."""
        names = tuple(p.name for p in sorted(filter(_is_asked, scenario.pieces), key=canonical))
        return (
            [Claim(self.id, names, self.weight, (1,) * len(names), counted=True)] if names else []
        )

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each piece, every gap is closed or wide."""
        return model.tally([_none_beside(model, name) for name in claim.subjects])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The pieces with a gutter, and the first one."""
        found = [_gutter(scene, scene.find(name)) for name in claim.subjects]
        told = [one for one in found if one is not None]
        text = told[0] if told else "Beside large pieces there is no gap too narrow to use"
        return Measure(len(found) - len(told), text, str(len(told)), "none")


def _is_asked(piece: Piece) -> bool:
    if piece.bottom > 0 or piece.flat:
        return False
    if piece.anchor is not None:
        return piece.is_a("lounge") and _is_free(piece)
    return _has_ends(piece) or _is_free(piece)


def _has_ends(piece: Piece) -> bool:
    """Whether what is beside it counts; a desk or an easy chair is moved with one hand."""
    return bool(piece.roles & {"bed", "sofa"}) or is_tall(piece)


def _is_free(piece: Piece) -> bool:
    return not piece.needs_wall and bool(piece.roles & {"sofa", "lounge", "desk"})


# -- the model's face ----------------------------------------------------
def _none_beside(model: Verbs[L], name: str) -> L:
    good = model.literal(f"no gutter at {name}")
    scenario = model.scenario
    piece = scenario.piece(name)
    for wall in model.wall_choices(name) if _has_ends(piece) else ():
        model.starts_in(good, name, wall, _starts(scenario.room, wall, piece))
        for other in _neighbours(scenario, piece):
            model.starts_from(good, name, other.name, wall, _from(piece, other))
    if not piece.needs_wall:
        on_walls = (model.on_wall(name, wall) for wall in model.wall_choices(name))
        backed = [on for on in on_walls if on is not None]
        backed += model.corner_choices(name).values()
        _off_walls(model, good, piece, backed)
        for other in _behind(scenario, piece):
            _off_back(model, good, piece, other, backed)
    return good


def _off_back(model: Verbs[L], good: L, piece: Piece, other: Piece, backed: Sequence[L]) -> None:
    """Another piece is near its back, far from it, past the end of it, or behind a wall.

    ``backed`` says that a wall is at its back: then nothing beyond it is near.
    """
    seat, place = model.place(piece.name), model.place(other.name)
    (near, wide), along_half = _gutter_before(piece, other)
    for facing in FACINGS:
        for way, half in _backs(piece, facing):
            gap, lengths = _behind_by(seat, way, place)
            shared = half if along_half else NARROWED
            conditions = [gap <= near, gap >= wide, *(length <= shared - 1 for length in lengths)]
            ways = _ways(model, f"{other.name} off the back of {piece.name}", conditions)
            model.one_of([*ways, *backed], when=[good, model.faces(piece.name, facing)])


def _ways(model: Verbs[L], name: str, conditions: Sequence[Condition]) -> list[L]:
    """A literal for each condition."""
    ways = [model.literal(name) for _ in conditions]
    for way, condition in zip(ways, conditions, strict=True):
        model.when(way, condition)
    return ways


def _starts(room: Room, wall: int, piece: Piece) -> Ranges:
    """Where its left end may come along a wall."""
    last = round(room.walls[wall].length) - piece.width
    left, right = _ends(room, wall, piece)
    low: Ranges = [(0, ANYWHERE)] if left is None else [(0, left), (_wide(piece, "left"), ANYWHERE)]
    high: Ranges = [(0, ANYWHERE)]
    if right is not None:
        high = [(0, last - _wide(piece, "right")), (last - right, ANYWHERE)]
    both = [(max(a, c), min(b, d)) for a, b in low for c, d in high]
    if left is not None and right is not None:
        both.append((-(-(last - EVEN) // 2), (last + EVEN) // 2))
    return both


def _from(piece: Piece, other: Piece) -> Ranges:
    """How far from the left end of a neighbour its own may come."""
    near, wide = BESIDE
    return [
        (-ANYWHERE, -piece.width - wide),
        (-piece.width - near, other.width + near),
        (other.width + wide, ANYWHERE),
    ]


def _off_walls(model: Verbs[L], good: L, piece: Piece, backed: Sequence[L]) -> None:
    """Wherever it stands free: near the wall beside or behind it, far from it, or past its end."""
    place, walls = model.place(piece.name), model.scenario.room.walls
    for facing in FACINGS:
        leaning = _leaning(model, piece, facing)
        for index, wall in enumerate(walls):
            asked = None if wall.facing is None else _side(piece, facing, wall.facing)
            if wall.facing is None or asked is None or wall.length < asked[1]:
                continue
            gap, lengths = _behind_by(place, wall.facing, wall_spot(wall))
            (near, wide), shared = asked
            # The third is the length of the wall, which is long enough.
            past = [length <= shared - 1 for length in lengths[:2]]
            ways = _ways(model, f"{piece.name} off wall {index}", [gap <= near, gap >= wide, *past])
            ways += leaning if wall.facing == facing else []
            model.one_of([*ways, *backed], when=[good, model.faces(piece.name, facing)])


def _leaning(model: Verbs[L], piece: Piece, facing: Facing) -> list[L]:
    """For each short wall that looks the same way, whether half its back is close to it."""
    if not _is_free(piece):
        return []
    place, found = model.place(piece.name), []
    for wall in _leant_on(model.scenario.room, piece, facing):
        gap, lengths = _behind_by(place, facing, wall_spot(wall))
        found.append(model.literal(f"{piece.name} leans on a wall"))
        there = [length >= _half(piece) for length in lengths[:2]]
        model.when([found[-1], model.faces(piece.name, facing)], gap >= 0, gap <= BEHIND[0], *there)
    return found


# -- the judge's face ----------------------------------------------------
def _gutter(scene: Scene, placed: Placed) -> str | None:
    """The first gutter at a piece, in words; None if there is none."""
    tied, place = placed.piece.anchor is not None, placed.placement
    if place.corner is not None and not tied:
        return None
    at_wall = place.wall is not None and not tied
    found = _beside(scene, placed) if at_wall else _free(scene, placed)
    if found is None:
        return None
    gap, what = found
    free = scene.length(gap, "down")
    return f"{the(placed.name, first=True)} leaves {free} {what}, too narrow to use"


def _beside(scene: Scene, placed: Placed) -> tuple[int, str] | None:
    stretch = scene.wall_stretch(placed) if _has_ends(placed.piece) else None
    if stretch is None:
        return None
    room, (wall, start, _) = scene.scenario.room, stretch
    last = round(room.walls[wall].length) - placed.piece.width
    if not any(a <= start <= b for a, b in _starts(room, wall, placed.piece)):
        left, _ = _ends(room, wall, placed.piece)
        at_left = left is not None and left < start < _wide(placed.piece, "left")
        return (start if at_left else last - start), "between it and the wall beside it"
    for other in _neighbours(scene.scenario, placed.piece):
        there = scene.wall_stretch(scene.find(other.name))
        if there is not None and there[0] == wall:
            off = start - there[1]
            if not any(a <= off <= b for a, b in _from(placed.piece, other)):
                gap = off - other.width if off > 0 else -off - placed.piece.width
                return gap, f"between it and {the(other.name)}"
    return None


def _free(scene: Scene, placed: Placed) -> tuple[int, str] | None:
    for wall in scene.scenario.room.walls:
        inward = wall.facing
        asked = None if inward is None else _side(placed.piece, placed.facing, inward)
        if inward is None or asked is None:
            continue
        (near, wide), shared = asked
        gap, lengths = _behind_by(placed, inward, wall_spot(wall))
        leans = inward == placed.facing and _leans(scene, placed)
        if near < gap < wide and min(lengths) >= shared and not leans:
            backs = dict(_backs(placed.piece, placed.facing))
            return gap, f"between its {'back' if inward in backs else 'side'} and a wall"
    for other in _behind(scene.scenario, placed.piece):
        (near, wide), along_half = _gutter_before(placed.piece, other)
        for way, half in _backs(placed.piece, placed.facing):
            gap, lengths = _behind_by(placed, way, scene.find(other.name))
            if near < gap < wide and min(lengths) >= (half if along_half else NARROWED):
                return gap, f"between its back and {the(other.name)}"
    return None


def _leans(scene: Scene, placed: Placed) -> bool:
    """Whether half its back is close to a short wall; the rest may be before an alcove."""
    for wall in _leant_on(scene.scenario.room, placed.piece, placed.facing):
        gap, lengths = _behind_by(placed, placed.facing, wall_spot(wall))
        if 0 <= gap <= BEHIND[0] and min(lengths) >= _half(placed.piece):
            return True
    return False


# -- for both ------------------------------------------------------------
def _leant_on(room: Room, piece: Piece, facing: Facing) -> list[Wall]:
    """Walls that are too short for all of its back, but not for half of it."""
    fits = range(_half(piece), piece.width)
    return [wall for wall in room.walls if wall.facing == facing and round(wall.length) in fits]


def _behind_by(
    thing: Bounded, way: Facing, other: Bounded
) -> tuple[Coordinate, tuple[Coordinate, Coordinate, Coordinate]]:
    """The gap to what is behind a thing that looks ``way``, and how far the two overlap across.

    They overlap by the least of three lengths: from each's far end to the other's near one,
    and the whole of the other.
    """
    gap = along(thing, way)[0] - along(other, way)[1]
    (a, b), (c, d) = across(thing, way), across(other, way)
    return gap, (b - c, d - a, d - c)


def _side(piece: Piece, facing: Facing, inward: Facing) -> tuple[tuple[int, int], int] | None:
    """The gutter between its side and a wall that looks ``inward``, and half that side."""
    if facing == OPPOSITE[inward]:
        return None
    if inward in dict(_backs(piece, facing)):
        if not piece.roles & {"seat", "desk"}:
            return None
        ways = piece.roles & {"sofa", "desk"}
        return (WAY_BEHIND, NARROWED) if ways else (BEHIND, _half(piece))
    return (BESIDE, -(-piece.depth // 2)) if _has_ends(piece) else None


def _backs(piece: Piece, facing: Facing) -> list[tuple[Facing, int]]:
    """Which ways those look who have a back of it behind them, and half that back; two of an L."""
    arm = arm_looks(piece, facing)
    at_the_arm = [] if arm is None else [(arm, -(-piece.depth // 2))]
    return [(facing, _half(piece)), *at_the_arm]


def _wide(piece: Piece, end: Hand) -> int:
    """From where on a gap at its left or right end is wide enough to use."""
    return (WAY_BEHIND if piece.shape == "L" and piece.arm_side == end else BESIDE)[1]


def _half(piece: Piece) -> int:
    """Half of its back, rounded up."""
    return -(-piece.width // 2)


def _behind(scenario: Scenario, piece: Piece) -> list[Piece]:
    """What can close in a gap at its back: what is high, and at a desk a bed.

    Easy chairs at the back of a desk are for who comes to see somebody.
    """
    desk = piece.is_a("desk")
    if not (desk or piece.is_a("seat")):
        return []
    half = min(along for _, along in _backs(piece, "up"))
    return [
        p
        for p in scenario.pieces
        if (p.top > HIGH or (desk and p.is_a("bed")))
        and not (p.bottom or p.flat or p.name == piece.name or p.roles & MOVED)
        and not (desk and p.is_a("seat"))
        and (max(p.width, p.depth) >= half or not _gutter_before(piece, p)[1])
    ]


def _gutter_before(piece: Piece, other: Piece) -> tuple[tuple[int, int], bool]:
    """The gutter between its back and another piece, and whether along half its back alone.

    What is no seat is used from there.
    """
    if piece.is_a("seat") and other.is_a("seat"):
        return BEHIND, True
    return (BEHIND[0], WAY_BEHIND[1]), False


def _neighbours(scenario: Scenario, piece: Piece) -> list[Piece]:
    """What can close in a gap at its end: high, and deep enough for half its side."""
    return [
        p
        for p in scenario.pieces
        if p.backs
        and (p.bottom, p.flat, p.name == piece.name) == (0, False, False)
        and p.top > HIGH
        and 2 * p.depth >= piece.depth
    ]


def _ends(room: Room, wall: int, piece: Piece) -> tuple[int | None, int | None]:
    """At each end of a wall the widest gap that counts as closed; None if no wall stands there."""
    count, square = len(room.walls), square_ends(room, wall)
    found: list[int | None] = []
    for side, sign in (((wall - 1) % count, -1), ((wall + 1) % count, 1)):
        if square[sign > 0] and 2 * room.walls[side].length >= piece.depth:
            found.append(DRESSED if _dressed(room, side, sign, piece.depth) else BESIDE[0])
        else:
            found.append(None)
    return found[0], found[1]


def _dressed(room: Room, wall: int, sign: int, deep: int) -> bool:
    """Whether a window, a radiator or a pipe is on a wall, so far from the corner or nearer."""
    whole = round(room.walls[wall].length)
    things = [
        *((w.wall, w.offset, w.width) for w in room.windows),
        *((f.wall, f.offset, f.width) for f in room.fixtures if f.depth and f.solid),
    ]
    starts = [
        offset if sign > 0 else whole - offset - width
        for index, offset, width in things
        if index == wall
    ]
    return any(start < deep for start in starts)
