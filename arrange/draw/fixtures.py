"""What is built in: radiators, stoves, columns, cupboards, sockets, light points. Lengths in mm."""

from __future__ import annotations

import math

from matplotlib.artist import Artist
from shapely.geometry import Point, Polygon

from arrange.data.room import Fixture, Room, Vector
from arrange.draw.board import Board, Polyline
from arrange.geometry import fixture_shape

LAMP_OFF_WALL = 90  # middle of a wall lamp as drawn, mm
HEATERS = ("radiator", "heater", "convector")
FIRES = ("stove", "fire", "burner", "hearth")
MASONRY = ("column", "pillar", "chimney", "pipe", "duct", "boxed", "shaft", "pier")


def is_like(kind: str, words: tuple[str, ...]) -> bool:
    """Whether a kind's name contains one of ``words``."""
    return any(word in kind.lower() for word in words)


def has_body(fixture: Fixture) -> bool:
    """Whether the fixture takes floor; a socket or light point does not."""
    return bool(fixture_shape(fixture).area >= 1)


def draw_fixture(board: Board, fixture: Fixture) -> list[Artist]:
    """A fixture with a body, by its nature; an unknown kind gets a crossed outline."""
    shape = fixture_shape(fixture)
    style, gid = board.style, f"fixture:{fixture.name}"
    masonry = is_like(fixture.kind, MASONRY)
    fill = style.cut if masonry else style.paper
    drawn: list[Artist] = [
        board.fill(shape, fill, 5.5, gid, edgecolor=style.edge, linewidth=0.8),
    ]
    ring = list(shape.exterior.coords)
    if is_like(fixture.kind, HEATERS):
        drawn.append(board.lines(_bars(shape, board.mm(3.0)), 0.5, style.line, 5.6))
    elif is_like(fixture.kind, FIRES):
        drawn.append(board.lines(_flame(shape), 0.6, style.line, 5.6))
    elif not masonry:
        drawn.append(board.lines([ring[0:3:2], ring[1:4:2]], 0.4, style.fine, 5.6, ink=False))
    board.ink.add_line(ring)
    board.solid.add_shape(shape)
    if masonry or is_like(fixture.kind, HEATERS):
        board.ink.add_shape(shape)
    return drawn


def _long_sides(shape: Polygon) -> tuple[Polyline, Polyline]:
    ring = list(shape.exterior.coords)[:4]
    if math.dist(ring[0], ring[1]) >= math.dist(ring[1], ring[2]):
        return (ring[0], ring[1]), (ring[3], ring[2])
    return (ring[1], ring[2]), (ring[0], ring[3])


def _between(run: Polyline, share: float) -> Vector:
    (ax, ay), (bx, by) = run
    return ax + (bx - ax) * share, ay + (by - ay) * share


def _bars(shape: Polygon, step: float) -> list[Polyline]:
    """Bars across the length of a radiator, ``step`` mm apart."""
    one, other = _long_sides(shape)
    count = max(2, round(math.dist(*one) / step))
    return [(_between(one, i / count), _between(other, i / count)) for i in range(1, count)]


def _flame(shape: Polygon) -> list[Polyline]:
    """A ring in the middle of a stove or fireplace."""
    c, radius = shape.centroid, math.sqrt(shape.area) * 0.22
    turns = [math.tau * i / 24 for i in range(25)]
    return [[(c.x + radius * math.cos(t), c.y + radius * math.sin(t)) for t in turns]]


def anchor_point(room: Room, fixture: Fixture) -> Vector | None:
    """Where a fixture without a body is on the plan."""
    if fixture.wall is not None:
        inward = LAMP_OFF_WALL if "light point" in fixture.kind.lower() else 0
        return room.walls[fixture.wall].point(fixture.offset + fixture.width / 2, inward)
    if fixture.corners:
        return fixture.corners[0][0], fixture.corners[0][1]
    return None


def draw_point(board: Board, room: Room, fixture: Fixture) -> list[Artist]:
    """A socket or light point; nothing if the person did not say where."""
    point = anchor_point(room, fixture)
    if point is None:
        return []
    gid = f"fixture:{fixture.name}"
    if "light point" in fixture.kind.lower():
        return [_cross_in_circle(board, point, gid)]
    if fixture.wall is None:
        dot = Point(point).buffer(board.mm(2.0))
        return [board.fill(dot, board.style.fine, 9.0, gid)]
    return [_on_wall(board, room, fixture, gid)]


def _cross_in_circle(board: Board, point: Vector, gid: str) -> Artist:
    r = board.mm(4.2)
    x, y = point
    turns = [math.tau * i / 32 for i in range(33)]
    d = r * math.sqrt(0.5)
    runs: list[Polyline] = [
        [(x + r * math.cos(t), y + r * math.sin(t)) for t in turns],
        [(x - d, y - d), (x + d, y + d)],
        [(x - d, y + d), (x + d, y - d)],
    ]
    return board.lines(runs, 0.6, board.style.fine, 16.0, gid=gid)


def _on_wall(board: Board, room: Room, fixture: Fixture, gid: str) -> Artist:
    """A light dot in the thickness of the wall, where no piece can hide it; sockets have pins."""
    wall, t = room.walls[fixture.wall or 0], board.style.wall
    middle = fixture.offset + fixture.width / 2
    r = min(t * 0.36, board.mm(3.2))
    ring = Point(wall.point(middle, -t / 2)).buffer(r)
    for share in (-0.4, 0.4) if "socket" in fixture.kind.lower() else ():
        ring = ring.difference(Point(wall.point(middle + r * share, -t / 2)).buffer(r * 0.2))
    return board.fill(ring, board.style.paper, 6.6, gid)
