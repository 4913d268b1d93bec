"""What openings and closets look like on a plan: leaves and their ways, panes, curtains, steps.

By general drawing practice: a leaf at right angles with the arc of its edge, panels half
folded, a sliding leaf half pushed back with an arrow, dashes for what is above the cut.
Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from shapely.geometry import Point, Polygon

from arrange.data.room import Door, Fixture, Room, Vector, Wall, Window
from arrange.draw.board import Board
from arrange.geometry.shapes import LEAF_ON_WALL, curtain_floors, wall_strip

FOLD = 60  # of a curtain drawn back, as drawn, mm
LEAF = 38  # thickness of a door leaf as drawn, mm
ARC_STEPS = 28
FOLDED = math.radians(60)  # of two panels to the wall, as drawn
OVERHEAD = (4.0, 2.5)  # dashes, in points, of what is above the cut
RAIL = 0.5  # of a closet's depth, where its rail hangs as drawn
SET_IN = 0.75  # of the thickness of a wall as drawn, for a fire set into it
TREAD = 250  # from step to step as drawn, mm


def draw_window(board: Board, room: Room, window: Window) -> None:
    """A window as parallel lines between the faces of its wall; a French one as a door."""
    wall, t = room.walls[window.wall], board.style.wall
    a, b = window.offset, window.offset + window.width

    def run(inward: float) -> list[Vector]:
        return [wall.point(a, inward), wall.point(b, inward)]

    board.lines([run(0), run(-t)], 0.8, board.style.line, 6.5, gid=f"window:{window.name}")
    for floor in curtain_floors(room, window):
        board.lines([_folds(floor)], 0.6, board.style.line, 6.5, gid=f"curtain:{window.name}")
    if window.french is not None:
        draw_door(board, room, window.french)
        return
    board.lines([run(-t * 0.4), run(-t * 0.6)], 0.5, board.style.line, 6.5)


def _folds(floor: Polygon) -> list[Vector]:
    """A curtain drawn back over a strip of floor along its wall: a wave in the middle of it."""
    (ax, ay), (bx, by), _, (dx, dy) = list(floor.exterior.coords)[:4]
    steps = 2 * max(round(math.hypot(bx - ax, by - ay) / FOLD), 1)
    return [
        (
            ax + (bx - ax) * i / steps + (dx - ax) * (0.3 if i % 2 else 0.7),
            ay + (by - ay) * i / steps + (dy - ay) * (0.3 if i % 2 else 0.7),
        )
        for i in range(steps + 1)
    ]


@dataclass(frozen=True, slots=True)
class DrawnLeaf:
    """One leaf of a door on the plan: its panels, open, and the lines of its way.

    ``half`` is the upper leaf of a stable door, half open.
    """

    panels: tuple[Polygon, ...]
    way: tuple[list[Vector], ...] = ()
    half: Polygon | None = None


def drawn_leaves(wall: Wall, door: Door, thickness: int) -> list[DrawnLeaf]:
    """The leaves of a door as a plan shows them; none of a passage.

    Left and right are seen from inside, facing the wall. A door that opens outward
    turns about the outer face of the wall.
    """
    make = _sliding_leaf if not door.reach else _folding_leaf if door.folds else _hinged_leaf
    return [make(wall, door, side, thickness) for side in door.sides]


Side = Literal["left", "right"]


def _jamb(door: Door, side: Side) -> tuple[int, int]:
    """Where along the wall the jamb of a leaf is, and which way the opening lies from it."""
    return (door.offset, 1) if side == "left" else (door.offset + door.width, -1)


def _panel(start: Vector, end: Vector, thick: float = LEAF) -> list[Vector]:
    """A panel from one point to another, ``thick`` mm to the right of that line."""
    (ax, ay), (bx, by) = start, end
    n = math.dist(start, end) / thick
    dx, dy = (by - ay) / n, (ax - bx) / n
    return [start, end, (bx + dx, by + dy), (ax + dx, ay + dy)]


def _hinged_leaf(wall: Wall, door: Door, side: Side, thickness: int) -> DrawnLeaf:
    (hinge, toward), leaf = _jamb(door, side), door.leaf
    into, base = (1, 0) if door.opens_in else (-1, -thickness)

    def at(a: float, b: float) -> Vector:
        return wall.point(hinge + toward * a, base + into * b)

    turns = [math.pi / 2 * i / ARC_STEPS for i in range(ARC_STEPS + 1)]
    arc = [at(leaf * math.cos(turn), leaf * math.sin(turn)) for turn in turns]
    panel = Polygon([at(a, b) for a, b in _panel((0, 0), (0, leaf))])
    slant = leaf * math.sqrt(0.5)
    half = Polygon([at(a, b) for a, b in _panel((0, 0), (slant, slant))])
    return DrawnLeaf((panel,), (arc,), half if door.stable else None)


def _folding_leaf(wall: Wall, door: Door, side: Side, thickness: int) -> DrawnLeaf:
    """Two panels, each half a leaf, folded so far that they leave half of it open."""
    (hinge, toward), panel = _jamb(door, side), door.leaf / 2
    into, base = (1, 0) if door.opens_in else (-1, -thickness)
    joint = (panel * math.cos(FOLDED), panel * math.sin(FOLDED))
    outlines = _panel((0, 0), joint), _panel(joint, (2 * joint[0], 0))
    return DrawnLeaf(
        tuple(
            Polygon([wall.point(hinge + toward * a, base + into * b) for a, b in outline])
            for outline in outlines
        )
    )


def _sliding_leaf(wall: Wall, door: Door, side: Side, thickness: int) -> DrawnLeaf:
    """Pushed back by half, in the wall or on its face, with an arrow the way it goes."""
    (jamb, toward), leaf = _jamb(door, side), door.leaf
    on_wall = door.opens == "sliding on the wall"
    low = (LEAF_ON_WALL - LEAF) / 2 if on_wall else (-thickness - LEAF) / 2
    ends = (-leaf / 2, leaf / 2)
    corners = ((ends[0], low), (ends[1], low), (ends[1], low + LEAF), (ends[0], low + LEAF))
    reach, barb = leaf * 0.28, leaf * 0.07
    off = LEAF_ON_WALL + LEAF if on_wall else thickness * 0.5 + LEAF

    def at(a: float, b: float) -> Vector:
        return wall.point(jamb + toward * a, b)

    middle, tip = leaf / 2, leaf / 2 - reach
    arrow = (
        [at(middle + reach, off), at(tip, off)],
        [at(tip + barb, off + barb * 0.6), at(tip, off), at(tip + barb, off - barb * 0.6)],
    )
    return DrawnLeaf((Polygon([at(*c) for c in corners]),), arrow)


def draw_door(board: Board, room: Room, door: Door) -> None:
    """A door: its threshold, and its leaves with arcs or arrows; what is above a passage."""
    wall, style = room.walls[door.wall], board.style
    a, b = door.offset, door.offset + door.width
    sill = [[wall.point(a, i), wall.point(b, i)] for i in (0, -style.wall)]
    gid = f"door:{door.name}"
    if door.opens == "passage":
        board.lines(sill, 0.6, style.line, 6.2, dash=OVERHEAD, gid=gid)
        return
    board.lines(sill, 0.4, style.fine, 6.2)
    for leaf in drawn_leaves(wall, door, style.wall):
        for panel in leaf.panels:
            board.fill(panel, style.paper, 7.0, gid, edge=style.edge, width=0.8)
            board.ink.add_shape(panel)
        if not door.reach:
            board.lines(leaf.way, 0.5, style.line, 7.0)
        for arc in leaf.way if door.reach else ():
            board.lines([arc], 0.55, style.line, 4.5, gid=f"swing:{door.name}")
            board.soft.add_shape(Polygon([leaf.panels[0].exterior.coords[0], *arc]), 1.0)
        if leaf.half is not None:
            board.outline(leaf.half, 0.55, style.line, 6.9, dash=OVERHEAD, gid=gid)


def draw_built_in(board: Board, room: Room, fixture: Fixture) -> None:
    """The rail and leaves of a closet, the steps of stairs, the recess of a fire set in."""
    if fixture.wall is None:
        return
    wall = room.walls[fixture.wall]
    if fixture.burns and not fixture.depth:
        _draw_recess(board, wall, fixture)
    if fixture.kind not in ("closet", "stairs"):
        return
    if fixture.kind == "stairs":
        _draw_steps(board, wall, fixture)
        return
    style, deep = board.style, fixture.depth
    ends = fixture.offset, fixture.offset + fixture.width
    rail = [wall.point(a, deep * RAIL) for a in ends]
    board.lines([rail], 0.5, style.line, 5.7, dash=OVERHEAD, gid=f"rail:{fixture.name}")
    for leaf in closet_leaves(wall, fixture):
        for panel in leaf.panels:
            board.fill(panel, style.paper, 5.8, f"leaf:{fixture.name}", edge=style.edge, width=0.6)
            board.ink.add_shape(panel)
        board.lines(leaf.way, 0.45, style.line, 4.5, gid=f"swing:{fixture.name}")


def _draw_recess(board: Board, wall: Wall, fixture: Fixture) -> None:
    """In the thickness of the wall, with the ring of a fire."""
    style, t = board.style, board.style.wall
    recess = wall_strip(wall, fixture.offset, fixture.width, 0, start=-SET_IN * t)
    board.fill(recess, style.paper, 6.6, f"recess:{fixture.name}")
    middle = Point(wall.point(fixture.offset + fixture.width / 2, -SET_IN * t / 2))
    ring = middle.buffer(0.3 * SET_IN * t).exterior.coords
    board.lines([list(ring)], 0.6, style.line, 6.7)


def closet_leaves(wall: Wall, fixture: Fixture) -> list[DrawnLeaf]:
    """The leaves of a closet at its face: hinged in pairs, sliding in two tracks."""
    (nx, ny), deep = wall.inward, fixture.depth
    ends = [(x + nx * deep, y + ny * deep) for x, y in (wall.start, wall.end)]
    start, end = ((round(x), round(y)) for x, y in ends)
    face = replace(wall, start=start, end=end)
    count = fixture.leaves
    edges = [fixture.offset + fixture.width * i // count for i in range(count + 1)]
    found = []
    for i, (low, high) in enumerate(pairwise(edges)):
        if fixture.doors == "sliding":
            track = -LEAF * (1 + i % 2)
            corners = ((low, track), (high, track), (high, track + LEAF), (low, track + LEAF))
            found.append(DrawnLeaf((Polygon([face.point(*c) for c in corners]),)))
            continue
        side: Side = "left" if i % 2 == 0 else "right"
        opens: Literal["in", "folding in"] = "in" if fixture.doors == "hinged" else "folding in"
        found += drawn_leaves(face, Door("", 0, low, high - low, opens, side), LEAF)
    return found


def _draw_steps(board: Board, wall: Wall, fixture: Fixture) -> None:
    """A line each step, and an arrow from where they begin."""
    front = fixture.steps == "front"
    run, wide = (fixture.depth, fixture.width) if front else (fixture.width, fixture.depth)

    def at(onward: float, aside: float) -> Vector:
        if front:
            return wall.point(fixture.offset + aside, fixture.depth - onward)
        ahead = onward if fixture.steps == "left" else fixture.width - onward
        return wall.point(fixture.offset + ahead, aside)

    steps = [[at(s, 0), at(s, wide)] for s in range(TREAD, run, TREAD)]
    tip, barb = run - TREAD / 2, min(wide, run) * 0.08
    arrow = [
        [at(TREAD / 2, wide / 2), at(tip, wide / 2)],
        [at(tip - barb, wide / 2 - barb), at(tip, wide / 2), at(tip - barb, wide / 2 + barb)],
    ]
    board.lines(steps, 0.5, board.style.line, 5.7, gid=f"steps:{fixture.name}")
    board.lines(arrow, 0.5, board.style.line, 5.8)
