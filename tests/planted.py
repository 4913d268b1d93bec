"""Random rooms made by placing the pieces first, so that every one of them can be furnished.

A seed gives a room of 2.4 to 5 m, rectangular or L-shaped, a door and a window, and
pieces of real kinds put one after another where the judge passes them. What could
not be placed is left out; a room whose door does not lead to every piece is thrown
away. The planted arrangement is the proof that "impossible" would be wrong. Every
other room is then made tight: the walkway is widened, and clearances deepened, as
far as the planted arrangement bears.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.kinds import kind
from arrange.data.piece import Piece
from arrange.data.room import Door, Point, Room, Wall, Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import extent, turns
from arrange.rules import active_rules

KINDS = (
    "single bed", "double bed", "daybed", "wardrobe", "chest of drawers", "dressing table",
    "bookcase", "low bookcase", "sideboard", "storage trunk", "sofa", "small sofa",
    "armchair", "reading chair", "tv unit", "desk", "dining table for two",
    "dining table for four", "shoe cabinet", "plant", "toy chest", "piano",
)  # fmt: skip
TRIES = 40  # places tried for one piece before it is left out
GRID = 10  # mm
WIDER, WIDEST = 25, 1000  # mm; steps in which a walkway is widened, and how far
DEEPEST = 1500  # mm


@dataclass(frozen=True)
class Planted:
    """A scenario and an arrangement of it that the judge passes."""

    seed: int
    scenario: Scenario
    arrangement: Arrangement


def planted(seed: int) -> Planted:
    """The room of a seed; the same seed makes the same room."""
    rng = random.Random(seed)  # noqa: S311
    while True:
        room = new_room(rng)
        wanted = rng.randint(3, 8)
        scenario = Scenario(
            f"planted {seed}", room, (), unit="mm", walkway=rng.choice([500, 600, 600, 750])
        )
        placements: list[Placement] = []
        for number in range(2 * wanted):
            if len(placements) < wanted:
                scenario, placements = _add(rng, scenario, placements, number)
        arrangement = Arrangement(tuple(placements))
        if len(placements) >= max(3, wanted - 2):
            if seed % 2:
                scenario = _tightened(rng, scenario, arrangement)
            return Planted(seed, scenario, arrangement)


def passes(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether the judge's rules find no breach; the walkway, which takes longest, comes last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.id == "walkway")
    return not any(True for rule in rules for _ in rule.breaches(scene))


def new_room(rng: random.Random) -> Room:
    """A rectangle or an L with one door and one window."""
    width, length = rng.randrange(2400, 5001, GRID), rng.randrange(2400, 5001, GRID)
    corners: tuple[Point, ...] = ((0, 0), (0, length), (width, length), (width, 0))
    if rng.random() < 0.4:
        x, y = rng.randrange(1200, width - 600, GRID), rng.randrange(1200, length - 600, GRID)
        corners = ((0, 0), (0, length), (x, length), (x, y), (width, y), (width, 0))
    ends = (*corners[1:], corners[0])
    walls = tuple(
        Wall("ABCDEFGH"[i], *pair) for i, pair in enumerate(zip(corners, ends, strict=True))
    )
    door_wall, window_wall = rng.sample([i for i, w in enumerate(walls) if w.length >= 1300], 2)
    width = rng.randrange(700, 901, GRID)
    offset = rng.randrange(0, int(walls[door_wall].length) - width + 1, GRID)
    door = Door("door", door_wall, offset, width, rng.choice(["in", "in", "out"]))
    width = rng.randrange(600, min(1600, int(walls[window_wall].length)) + 1, GRID)
    offset = rng.randrange(0, int(walls[window_wall].length) - width + 1, GRID)
    window = Window("window", window_wall, offset, width, must_open=rng.random() < 0.3)
    return Room(corners, walls, 2500, (door,), (window,))


def _add(
    rng: random.Random, scenario: Scenario, placements: list[Placement], number: int
) -> tuple[Scenario, list[Placement]]:
    """The scenario with one more piece, where a place for it was found."""
    piece = new_piece(rng, f"piece {number}")
    grown = replace(scenario, pieces=(*scenario.pieces, piece))
    for _ in range(TRIES):
        placement = somewhere(rng, scenario.room, piece)
        if placement is None:
            continue
        tried = [*placements, placement]
        if passes(grown, Arrangement(tuple(tried))):
            return grown, tried
    return scenario, placements


def _tightened(rng: random.Random, scenario: Scenario, arrangement: Arrangement) -> Scenario:
    """A wider walkway and deeper clearances, each the most that is still passed."""
    for walkway in range(scenario.walkway + WIDER, WIDEST + 1, WIDER):
        wider = replace(scenario, walkway=walkway)
        if not passes(wider, arrangement):
            break
        scenario = wider
    for piece in scenario.pieces:
        if piece.clearances and rng.random() < 0.5:
            scenario = _deepened(scenario, arrangement, piece)
    return scenario


def _deepened(scenario: Scenario, arrangement: Arrangement, piece: Piece) -> Scenario:
    """The first clearance of a piece as deep as there is floor for it, up to 1.5 m."""
    first, *others = piece.clearances
    scene = Scene(scenario, arrangement)
    least = min(scene.free_depth(scene.find(piece.name), first), DEEPEST)
    deeper = replace(first, least=least, comfortable=max(least, first.comfortable))
    changed = replace(piece, clearances=(deeper, *others))
    pieces = tuple(changed if p.name == piece.name else p for p in scenario.pieces)
    tight = replace(scenario, pieces=pieces)
    return tight if passes(tight, arrangement) else scenario


def new_piece(rng: random.Random, name: str) -> Piece:
    """A piece of a real kind, a little larger or smaller than usual."""
    k = kind(rng.choice(KINDS))
    return Piece(
        name,
        k.name,
        name,
        k.width + rng.randrange(-10, 11) * GRID,
        k.depth + rng.randrange(-3, 4) * GRID,
        k.height,
        k.bottom,
        k.stands,
        k.clearances,
        roles=k.roles,
        goes_with=k.goes_with,
        major=k.major,
        flat=k.flat,
        burns=k.burns,
        headroom=k.headroom,
        screen=k.screen,
    )


def somewhere(rng: random.Random, room: Room, piece: Piece) -> Placement | None:
    """A random place against a wall, or free on the floor; often in a corner."""
    if piece.stands == "free":
        facing = rng.choice(turns(piece))
        sx, sy = extent(piece, facing)
        x0, y0, x1, y1 = room.bounds
        if x1 - x0 < sx or y1 - y0 < sy:
            return None
        x, y = rng.randrange(x0, x1 - sx + 1, GRID), rng.randrange(y0, y1 - sy + 1, GRID)
        return Placement(piece.name, facing, x, y)
    index = rng.randrange(len(room.walls))
    wall = room.walls[index]
    span = int(wall.length) - piece.width
    if span < 0 or wall.facing is None:
        return None
    offset = rng.choice([0, span, rng.randint(0, span), rng.randint(0, span)])
    ends = [wall.point(offset + a, b) for a in (0, piece.width) for b in (0, piece.depth)]
    x, y = (round(min(e[k] for e in ends)) for k in (0, 1))
    return Placement(piece.name, wall.facing, x, y, index)
