"""The empty room on the plan: cut walls, doors with their swing, windows. Lengths in mm."""

from __future__ import annotations

import math

from matplotlib.artist import Artist
from shapely import unary_union
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Door, Room, Vector, Wall, Window
from arrange.draw.board import Board
from arrange.geometry import room_shape, wall_strip

LEAF = 38  # thickness of a door leaf as drawn, mm
ARC_STEPS = 28


def wall_body(room: Room, thickness: int) -> BaseGeometry:
    """The walls as cut: outside the outline, ``thickness`` mm, openings left out."""
    floor = room_shape(room)
    outer = Polygon(floor.exterior).buffer(thickness, join_style="mitre", mitre_limit=3.0)
    openings: tuple[Door | Window, ...] = (*room.doors, *room.windows)
    holes = [
        wall_strip(room.walls[o.wall], o.offset, o.width, 1, start=-thickness * 1.6)
        for o in openings
    ]
    return outer.difference(unary_union([floor, *holes]))


def draw_shell(board: Board, room: Room) -> list[Artist]:
    """Floor, walls, doors and windows."""
    style = board.style
    floor = room_shape(room)
    body = wall_body(room, style.wall)
    drawn: list[Artist] = [board.fill(floor, style.floor, 0.0, gid="floor")]
    drawn.append(
        board.fill(
            body, style.cut, 6.0, gid="walls", edgecolor=style.edge, linewidth=style.cut_width
        )
    )
    outer = floor.buffer(style.wall, join_style="mitre", mitre_limit=3.0)
    board.solid.add_shape(outer.difference(floor))
    board.ink.add_shape(outer.difference(floor))
    for window in room.windows:
        drawn += draw_window(board, room, window)
    for door in room.doors:
        drawn += draw_door(board, room, door)
    return drawn


def draw_window(board: Board, room: Room, window: Window) -> list[Artist]:
    """A window as parallel lines between the faces of its wall."""
    wall, t = room.walls[window.wall], board.style.wall
    a, b = window.offset, window.offset + window.width

    def run(inward: float) -> list[Vector]:
        return [wall.point(a, inward), wall.point(b, inward)]

    faces = board.lines([run(0), run(-t)], 0.8, board.style.line, 6.5, gid=f"window:{window.name}")
    glass = board.lines([run(-t * 0.4), run(-t * 0.6)], 0.5, board.style.line, 6.5)
    return [faces, glass]


def leaf_and_arc(wall: Wall, door: Door, thickness: int) -> tuple[Polygon, list[Vector]]:
    """The open leaf of a hinged door and the arc of its free edge.

    ``hinge`` is seen from inside, facing the wall. A door that opens outward
    turns about the outer face of the wall.
    """
    into = 1 if door.opens == "in" else -1
    base = 0 if door.opens == "in" else -thickness
    left = door.hinge == "left"
    hinge = door.offset if left else door.offset + door.width
    toward = 1 if left else -1
    leaf = Polygon(
        [
            wall.point(hinge, base),
            wall.point(hinge + toward * LEAF, base),
            wall.point(hinge + toward * LEAF, base + into * door.width),
            wall.point(hinge, base + into * door.width),
        ]
    )
    turns = [math.pi / 2 * i / ARC_STEPS for i in range(ARC_STEPS + 1)]
    arc = [
        wall.point(
            hinge + toward * door.width * math.cos(turn), base + into * door.width * math.sin(turn)
        )
        for turn in turns
    ]
    return leaf, arc


def draw_door(board: Board, room: Room, door: Door) -> list[Artist]:
    """A door: its threshold, and leaf with arc, or a sliding leaf with an arrow."""
    wall, style = room.walls[door.wall], board.style
    a, b = door.offset, door.offset + door.width
    sill = [[wall.point(a, i), wall.point(b, i)] for i in (0, -style.wall)]
    drawn: list[Artist] = [board.lines(sill, 0.4, style.fine, 6.2)]
    if door.opens == "sliding":
        return drawn + _sliding_leaf(board, wall, door)
    leaf, arc = leaf_and_arc(wall, door, style.wall)
    drawn.append(
        board.fill(leaf, style.paper, 7.0, f"door:{door.name}", edgecolor=style.edge, linewidth=0.8)
    )
    drawn.append(board.lines([arc], 0.55, style.line, 4.5, gid=f"swing:{door.name}"))
    board.ink.add_shape(leaf)
    sector = Polygon([leaf.exterior.coords[0], *arc])
    board.soft.add_shape(sector, 1.0)
    return drawn


def _sliding_leaf(board: Board, wall: Wall, door: Door) -> list[Artist]:
    style, t = board.style, board.style.wall
    away = -1 if door.hinge == "left" else 1
    middle = -t / 2
    a, b = door.offset + away * door.width / 2, door.offset + door.width * (1 + away / 2)
    corners = [(a, middle - LEAF / 2), (b, middle - LEAF / 2), (b, middle + LEAF / 2)]
    leaf = Polygon([wall.point(*c) for c in (*corners, (a, middle + LEAF / 2))])
    centre = door.offset + door.width / 2
    reach, barb, off = door.width * 0.28, door.width * 0.07, t * 0.5 + LEAF
    tip = centre + away * reach
    arrow = [
        [wall.point(centre - away * reach, off), wall.point(tip, off)],
        [
            wall.point(tip - away * barb, off + barb * 0.6),
            wall.point(tip, off),
            wall.point(tip - away * barb, off - barb * 0.6),
        ],
    ]
    return [
        board.fill(
            leaf, style.paper, 7.0, f"door:{door.name}", edgecolor=style.edge, linewidth=0.8
        ),
        board.lines(arrow, 0.5, style.line, 7.0),
    ]
