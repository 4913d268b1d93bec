"""Big pieces on an axis of the room: centred or flush, never nearly."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, Coordinate, across, along, fixture_spot, gap, wall_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import (
    OPPOSITE,
    beds,
    hearth,
    is_breast,
    largest,
    largest_of,
    main_screen,
    main_seat,
)

WITHIN = 10  # mm off an axis or an edge; common practice, no source
SHARED = 200  # mm by which two things must overlap to be opposite; common practice, no source
WIDE = 600  # mm; a narrower neighbour, a plant, is no edge to be flush with; common practice
ROLES = {"bed", "sofa", "screen"}
KINDS = {"sideboard"}


@dataclass(frozen=True, slots=True)
class Faced:
    """Something a piece can look at: a piece, or a thing that stays where it is.

    ``looks`` are the ways in which the piece would look at it; ``back`` says that it has
    a front too, which must look at the piece.
    """

    name: str
    looks: Sequence[Facing]
    fixed: Bounded | None = None
    back: bool = False


class OnAxis(Rule):
    """A bed, sofa, screen or sideboard stands within 10 mm of the first axis it has.

    The axis is that of what it looks at: of the fire or chimney breast and then of
    the screen (a sofa), of the main seat or the bed (a screen), of the dining table (a
    sideboard), if the two overlap by 20 cm. A piece that looks at nothing of the kind has
    the middle of its wall, of a window or two windows next to one another in it, or of
    the stretch between the openings and corners: which of these makes no difference, as
    designers take any of them. Level 3: on the first axis. Level 2: on a later one, or
    flush with a corner, a window's edge or a neighbour at least 60 cm wide. Nearly is
    nothing, and nothing is earned for standing farther off. A bed for one is as good in a
    corner. Tables have a rule of their own. Common practice, no source.
    """

    id = "on-axis"
    title = "Big pieces on an axis"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each such piece with a wall at its back or something to look at."""
        return [
            self._claim(scenario, piece)
            for piece in scenario.pieces
            if _is_asked(piece) and (piece.backs or _faced(scenario, piece))
        ]

    def _claim(self, scenario: Scenario, piece: Piece) -> Claim:
        others = [f.name for f in _faced(scenario, piece) if f.fixed is None]
        one = piece.is_a("bed") and not piece.is_a("for two")
        steps = (WITHIN,) if one else (WITHIN,) * 3
        return Claim(self.id, (piece.name, *others), self.weight, steps)

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """On the axis of one thing and opposite none before it; or flush."""
        piece = model.scenario.piece(claim.subjects[0])
        first, good = (model.literal(f"{piece.name} {x}") for x in ("on its axis", "in line"))
        axes: list[L] = []
        picks: list[L] = []
        before: list[tuple[Sequence[L], L]] = []
        for faced in _faced(model.scenario, piece):
            here = [_opposite(model, piece.name, faced, facing) for facing in faced.looks]
            axes += [on for _, _, on in here]
            picks += [_unless(model, on, before) for _, _, on in here]
            before += [(looks, apart) for looks, apart, _ in here]
        if piece.backs:
            wall = model.literal(f"{piece.name} on an axis of its wall")
            _on_wall(model, wall, piece, _middles)
            axes.append(wall)
            picks.append(_unless(model, wall, before))
        model.one_of(picks, when=[first])
        if len(claim.steps) > 1:
            model.implies(first, good)
        model.one_of([*axes, *_flush(model, piece)], when=[good])
        return [good] if len(claim.steps) == 1 else [good, good, first]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The first axis it has, how far off it is, and what else it is in line with."""
        placed = scene.find(claim.subjects[0])
        axes = [*_axes_faced(scene, placed), *_axes_of_wall(scene, placed)]
        most, name = len(claim.steps), the(placed.name, first=True)
        if not axes and _flush_with(scene, placed) is None:
            return Measure(0, f"{name} is in line with nothing else", "", "on an axis")
        wanted = f"the middle of {axes[0][1]}" if axes else "on an axis"
        if axes and axes[0][0] <= 2 * WITHIN:
            return Measure(most, f"{name} is centred on {axes[0][1]}", "centred", wanted)
        line = next((f"is centred on {what}" for off, what in axes if off <= 2 * WITHIN), None)
        line = line or _flush_with(scene, placed)
        if line is None:
            off = scene.length(axes[0][0] // 2)
            return Measure(0, f"{name} is {off} off the middle of {axes[0][1]}", off, wanted)
        centred = "" if line.startswith("is centred") else "centred "
        short = f", not {centred}on {axes[0][1]}" if axes and most > 2 else ""
        return Measure(min(most, 2), f"{name} {line}{short}", "in line", wanted)


def _is_asked(piece: Piece) -> bool:
    wanted = bool(piece.roles & ROLES) or piece.kind in KINDS
    return wanted and piece.anchor is None and piece.bottom == 0


# -- what it looks at ----------------------------------------------------
def _faced(scenario: Scenario, piece: Piece) -> list[Faced]:
    """What the piece could look at, first what comes first."""
    if piece.is_a("sofa"):
        screen = main_screen(scenario)
        return [*_fires(scenario), *([] if screen is None else [_other(screen)])]
    if piece.is_a("screen"):
        seat = main_seat(scenario) or largest(beds(scenario))
        return [] if seat is None else [_other(seat)]
    if piece.kind in KINDS:
        table = largest_of(scenario, "dine")
        return [] if table is None else [Faced(table.name, FACINGS)]
    return []


def _other(piece: Piece) -> Faced:
    return Faced(piece.name, FACINGS, back=True)


def _fires(scenario: Scenario) -> list[Faced]:
    """The hearth, else the chimney breasts."""
    room, fire = scenario.room, hearth(scenario)
    if fire is not None:
        wall = None if fire.wall is None else room.walls[fire.wall].facing
        looks = FACINGS if wall is None else (OPPOSITE[wall],)
        return [Faced(fire.name, looks, fixture_spot(room, fire))]
    return [
        Faced(wall.name, (OPPOSITE[wall.facing],), wall_spot(wall))
        for i, wall in enumerate(room.walls)
        if is_breast(room, i) and wall.facing is not None
    ]


def _opposite(model: Verbs[L], name: str, faced: Faced, facing: Facing) -> tuple[Sequence[L], L, L]:
    """Literals: they look at one another; they are not opposite; the one is on the other's axis."""
    piece = model.place(name)
    other: Bounded = faced.fixed or model.place(faced.name)
    looks = [model.faces(name, facing)]
    if faced.back:
        looks.append(model.faces(faced.name, OPPOSITE[facing]))
    on, apart = model.literal(f"{name} on the axis of {faced.name}"), model.literal()
    ahead, right, left = _shared(piece, other, facing)
    aside = _aside(piece, other, facing)
    model.implies(on, *looks)
    model.when(on, ahead >= 0, right >= SHARED, left >= SHARED)
    model.when(on, aside <= 2 * WITHIN, aside >= -2 * WITHIN)
    ways = [model.literal() for _ in range(3)]
    for way, much, least in zip(ways, (ahead, right, left), (0, SHARED, SHARED), strict=True):
        model.when(way, much <= least - 1)
    model.one_of(ways, when=[apart])
    return looks, apart, on


def _unless(model: Verbs[L], on: L, before: Sequence[tuple[Sequence[L], L]]) -> L:
    """A literal: it is on that axis, and opposite nothing that comes before."""
    if not before:
        return on
    pick = model.literal()
    model.implies(pick, on)
    for looks, apart in before:
        model.one_of([apart], when=[pick, *looks])
    return pick


def _shared(
    one: Bounded, two: Bounded, facing: Facing
) -> tuple[Coordinate, Coordinate, Coordinate]:
    """How far ahead of the one the other begins, and how far each reaches past the other's end."""
    ahead = along(two, facing)[0] - along(one, facing)[1]
    (a, b), (c, d) = across(one, facing), across(two, facing)
    return ahead, b - c, d - a


def _aside(one: Bounded, two: Bounded, facing: Facing) -> Coordinate:
    """Twice how far aside of the one's middle the other's is."""
    return sum(across(two, facing)) - sum(across(one, facing))


def _axes_faced(scene: Scene, placed: Placed) -> Iterable[tuple[int, str]]:
    """Twice how far off the axis of each thing it looks at, and the thing."""
    facing = placed.facing
    for faced in _faced(scene.scenario, placed.piece):
        other = faced.fixed or scene.find(faced.name)
        turned = isinstance(other, Placed) and faced.back and other.facing != OPPOSITE[facing]
        ahead, right, left = _shared(placed, other, facing)
        if facing in faced.looks and not turned and ahead >= 0 and min(right, left) >= SHARED:
            yield abs(_aside(placed, other, facing)), the(faced.name)


# -- its wall ------------------------------------------------------------
Marks = Sequence[tuple[int, str]]


def _middles(room: Room, wall: int, width: int) -> Marks:
    """Twice where the middle of a piece comes along a wall, with what that is the middle of."""
    whole = round(room.walls[wall].length)
    windows = sorted((w for w in room.windows if w.wall == wall), key=lambda w: w.offset)
    found = [(whole, "its wall")]
    found += [(2 * w.offset + w.width, the(w.name)) for w in windows]
    for one, two in pairwise(windows):
        found.append((one.offset + two.offset + two.width, f"{the(one.name)} and {the(two.name)}"))
    openings: list[tuple[int, int]] = [
        *((d.offset, d.offset + d.width) for d in room.doors if d.wall == wall),
        *((w.offset, w.offset + w.width) for w in windows),
    ]
    for (_, a), (b, _) in pairwise([(0, 0), *sorted(openings), (whole, whole)]):
        if openings and b - a >= width:
            found.append((a + b, "the free stretch of its wall"))
    return found


def _edges(room: Room, wall: int, width: int) -> Marks:
    """The same for its middle where one of its ends is flush with a corner or a window's edge."""
    whole = round(room.walls[wall].length)
    found = [(width, "is in the corner"), (2 * whole - width, "is in the corner")]
    for w in room.windows:
        if w.wall == wall:
            text = f"is flush with the edge of {the(w.name)}"
            ends = (w.offset, w.offset + w.width)
            found += [(2 * end + side * width, text) for end in ends for side in (-1, 1)]
    return found


def _on_wall(
    model: Verbs[L], literal: L, piece: Piece, marks: Callable[[Room, int, int], Marks]
) -> None:
    """Its middle is within reach of one of the marks of the wall it stands on."""
    model.backed(literal, piece.name)
    for wall in model.wall_choices(piece.name):
        starts = [at - piece.width for at, _ in marks(model.scenario.room, wall, piece.width)]
        ranges = [(-(-(s - 2 * WITHIN) // 2), (s + 2 * WITHIN) // 2) for s in starts]
        model.starts_in(literal, piece.name, wall, ranges)


def _axes_of_wall(scene: Scene, placed: Placed) -> Marks:
    """Twice how far off each axis of its wall it is, the nearest first."""
    return _off(scene, placed, _middles)


def _off(
    scene: Scene, placed: Placed, marks: Callable[[Room, int, int], Marks]
) -> list[tuple[int, str]]:
    stretch = scene.wall_stretch(placed) if placed.piece.backs else None
    if stretch is None:
        return []
    wall, left, _ = stretch
    room, width = scene.scenario.room, placed.piece.width
    found = [(abs(2 * left + width - at), what) for at, what in marks(room, wall, width)]
    return sorted(found, key=lambda one: one[0])


# -- flush ---------------------------------------------------------------
def _neighbours(scenario: Scenario, piece: Piece) -> list[Piece]:
    """What it could stand flush with."""
    others = [p for p in scenario.pieces if p.backs and p.bottom == 0 and not p.flat]
    return [p for p in others if p.name != piece.name and p.width >= WIDE]


def _flush(model: Verbs[L], piece: Piece) -> list[L]:
    """Literals: an end of it is flush with its wall's, or it is close beside a neighbour."""
    if not piece.backs:
        return []
    edge = model.literal(f"{piece.name} flush with an edge")
    _on_wall(model, edge, piece, _edges)
    found = [edge]
    for other in _neighbours(model.scenario, piece):
        beside = model.literal(f"{piece.name} close beside {other.name}")
        model.near(beside, model.place(piece.name), model.place(other.name), WITHIN)
        model.backed(beside, piece.name)
        for wall in model.wall_choices(piece.name):
            there, its = model.on_wall(piece.name, wall), model.on_wall(other.name, wall)
            if there is not None:
                model.one_of([] if its is None else [its], when=[beside, there])
        found.append(beside)
    return found


def _flush_with(scene: Scene, placed: Placed) -> str | None:
    """What it is flush with, in words; None if nothing."""
    edges = _off(scene, placed, _edges)
    if edges and edges[0][0] <= 2 * WITHIN:
        return edges[0][1]
    wall = placed.placement.wall
    for other in _neighbours(scene.scenario, placed.piece) if placed.piece.backs else []:
        there = scene.find(other.name)
        if wall is not None and there.placement.wall == wall and gap(placed, there) <= WITHIN:
            return f"is close beside {the(other.name)}"
    return None
