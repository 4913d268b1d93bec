"""Walkways as a few rectangles: a sufficient condition that CP-SAT is quick with.

Each rectangle is free floor at least a path wide, hangs on the main door or on
an earlier rectangle, and every goal hangs on a rectangle or on the door. Two of
them connect when their overlap lets a disc of the path's width through: wide
enough one way, or cut at a corner whose two inner points are far enough apart.

What satisfies this is walkable. What does not may still be: the search never
calls a room impossible on this condition alone. Where something built in stands on a
door's floor, or a door, closet or the floor before it is aslant, or a last step is taken
stooping, the condition is too kind: the judge decides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.room import Door, Fixture, Wall, Window
from arrange.geometry.shapes import door_floor, fixture_keep, whole_bounds
from arrange.geometry.walking import (
    OVER,
    WINDOW_DEPTH,
    clearance_width,
    must_reach,
    opening_width,
    openings_to_reach,
    stooping,
    window_need,
    window_span,
)
from arrange.solver.boxes import PLAN, Box, Literal
from arrange.solver.clearance_variables import upright_strip
from arrange.solver.model import Model
from arrange.solver.places import Zone

DIAGONAL = 14143  # a + b >= 1.4143 w lets a disc of diameter w past a corner


@dataclass(frozen=True)
class Node:
    """A rectangle to connect: its box, the width that must pass, how far off is gone stooping."""

    name: str
    box: Box
    width: int
    stoop: int = 0


def add_walkways(model: Model, count: int) -> None:
    """Require that ``count`` rectangles (some may be unused) connect every goal.

    Nothing if the rule is switched off, or if there is no door to come in by.
    """
    scenario = model.scenario
    main = scenario.room.main_door
    if main is None or not scenario.walks:
        return
    entry = _door_node(model, main)
    x0, y0, x1, y1 = scenario.room.bounds
    if scenario.walkway > min(x1 - x0, y1 - y0):
        count = 0  # no rectangle as wide as that has room: what is used is used from the door
    rects = [_rectangle(model, k) for k in range(count)]
    for k, rect in enumerate(rects):
        parents = [entry, *rects[:k]]
        _hang(model, rect, parents)
    # Past a door narrower than the way nothing is used from the door itself: the disc
    # comes in there only where it has floor of its own.
    parents = rects if entry.width < scenario.walkway else [entry, *rects]
    for node in _goal_nodes(model):
        _hang(model, node, parents)


def _rectangle(model: Model, k: int) -> Node:
    x0, y0, x1, y1 = model.scenario.room.bounds
    width = model.scenario.walkway
    a, c = model.number(x0, x1, f"way {k} x0"), model.number(x0, x1, f"way {k} x1")
    b, d = model.number(y0, y1, f"way {k} y0"), model.number(y0, y1, f"way {k} y1")
    sizes = (model.number(width, x1 - x0), model.number(width, y1 - y0))
    box = Box(a, b, c, d, PLAN, (), sizes)
    model.ground.free_boxes.append(box)
    return Node(f"way {k}", box, width)


def _door_node(model: Model, door: Door) -> Node:
    """All the floor inside a door; inside a wide passage some of it that nothing stands on."""
    scenario = model.scenario
    width = opening_width(scenario, door)
    wall = scenario.room.walls[door.wall]
    if not door.is_wide or wall.facing is None:
        floor = door_floor(scenario.room, door, scenario.walkway)
        return Node(door.name, Box(*whole_bounds(floor)), width)
    box = _stretch(model, wall, (door.offset, door.offset + door.width), (width, scenario.walkway))
    model.ground.free_boxes.append(box)
    return Node(door.name, box, width)


def _goal_nodes(model: Model) -> list[Node]:
    scenario = model.scenario
    # A zone without a box fits nowhere: the model is impossible without any way there.
    zones = [z for z in model.ground.zones if must_reach(z.clearance) and z.boxes]
    nodes = [_zone_node(model, z) for z in zones]
    for opening in openings_to_reach(scenario):
        if isinstance(opening, Door):
            if opening is scenario.room.main_door and opening.is_wide:
                continue  # the way begins on free floor inside it
            nodes.append(_door_node(model, opening))
        elif isinstance(opening, Fixture):
            floor = Box(*whole_bounds(fixture_keep(scenario.room, opening)))
            nodes.append(Node(opening.name, floor, opening_width(scenario, opening)))
        elif (node := window_node(model, opening)) is not None:
            nodes.append(node)
    return nodes


def _zone_node(model: Model, zone: Zone) -> Node:
    c = zone.clearance
    width = min(model.scenario.walkway, clearance_width(zone.piece, c))
    box = upright_strip(model.cp, zone, c.least) if zone.steps else zone.boxes[0]
    stoop = stooping(model.scenario.room, c)
    return Node(f"{zone.piece.name} {c.name}", box or zone.boxes[0], width, stoop)


def window_node(model: Model, window: Window) -> Node | None:
    """The floor inside a window that must open, as a node to be reached.

    As wide as somebody needs to get there, anywhere along the window or beside it, free of
    all that nobody reaches over. None for a window in a slanted wall: rectangles do not lie
    along those, and the judge looks at it alone.
    """
    wall = model.scenario.room.walls[window.wall]
    if wall.facing is None:
        return None
    need = window_need(window, model.scenario.walkway)
    span = window_span(model.scenario.room, window)
    box = _stretch(model, wall, span, (need, WINDOW_DEPTH))
    model.ground.free_of_higher.append((box, 0 if window.escape else OVER))
    return Node(window.name, box, opening_width(model.scenario, window))


def _stretch(model: Model, wall: Wall, span: tuple[int, int], size: tuple[int, int]) -> Box:
    """A box of variables along an upright wall within ``span``, at least ``size``; mm."""
    (low, high), (need, depth) = span, size
    x0, y0, x1, y1 = model.scenario.room.bounds
    a, c = model.number(x0, x1), model.number(x0, x1)
    b, d = model.number(y0, y1), model.number(y0, y1)
    (px, py), (qx, qy) = wall.point(low), wall.point(high, depth)
    low_x, high_x = round(min(px, qx)), round(max(px, qx))
    low_y, high_y = round(min(py, qy)), round(max(py, qy))
    if wall.facing in ("down", "up"):
        model.must(a >= low_x, c <= high_x, c - a >= need, b == low_y, d == high_y)
        sizes = (model.number(need, high - low), model.number(depth, depth))
    else:
        model.must(b >= low_y, d <= high_y, d - b >= need, a == low_x, c == high_x)
        sizes = (model.number(depth, depth), model.number(need, high - low))
    return Box(a, b, c, d, PLAN, (), sizes)


def _hang(model: Model, node: Node, parents: Sequence[Node]) -> None:
    """The node connects to one of the parents."""
    choices: list[Literal] = []
    for parent in parents:
        choice = model.literal(f"{node.name} from {parent.name}")
        _connect(model, choice, parent, node)
        choices.append(choice)
    model.one_of(choices)


def _grown(box: Box, mm: int) -> Box:
    return Box(box.a0 - mm, box.b0 - mm, box.a1 + mm, box.b1 + mm, box.axes) if mm else box


def _connect(model: Model, choice: Literal, one: Node, two: Node) -> None:
    width = min(one.width, two.width)
    a, b = one.box, _grown(two.box, two.stoop)
    ways = [model.literal() for _ in range(3)]
    model.when(choice, b.a1 >= a.a0, a.a1 >= b.a0, b.b1 >= a.b0, a.b1 >= b.b0)
    model.when(
        ways[0],
        b.a1 - a.a0 >= width,
        a.a1 - b.a0 >= width,
    )
    model.when(ways[1], b.b1 - a.b0 >= width, a.b1 - b.b0 >= width)
    wide, high = model.number(0, 2 * width), model.number(0, 2 * width)
    model.when(
        ways[2],
        wide <= b.a1 - a.a0,
        wide <= a.a1 - b.a0,
        wide <= a.a1 - a.a0,
        wide <= b.a1 - b.a0,
        high <= b.b1 - a.b0,
        high <= a.b1 - b.b0,
        high <= a.b1 - a.b0,
        high <= b.b1 - b.b0,
        10_000 * (wide + high) >= DIAGONAL * width,
    )
    model.one_of(ways, when=[choice])
