"""Room, pieces and places from the shapes of a ``result.json``, good for drawing. In mm."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from arrange.data.arrangement import Placement
from arrange.data.piece import Piece
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.scenario.kinds import kinds


def piece_from(data: Mapping[str, Any]) -> Piece:
    """A piece to draw: of its kind it has what the symbol needs."""
    known = kinds().get(data["kind"])
    return Piece(
        data["name"],
        data["kind"],
        data["name"],
        data["width"],
        data["depth"],
        data["top"] - data["bottom"],
        data["bottom"],
        anchor=data["goes_with"],
        roles=known.roles if known else frozenset(),
        major=data["major"],
        flat=data["flat"],
    )


def placement_from(name: str, data: Mapping[str, Any], walls: Mapping[str, int]) -> Placement:
    """Where a piece stands; ``walls`` gives the number of each wall's name."""
    wall = None if data["wall"] is None else walls[data["wall"]]
    if data["slanted"]:
        along, inward, quarter = data["from_left"], data["off_wall"], data["quarter_turns"]
        return Placement(name, None, 0, 0, wall, along, inward, quarter)
    return Placement(name, data["facing"], data["x"], data["y"], wall)


def room_from(data: Mapping[str, Any]) -> Room:
    """The empty room, without what has no body (sockets, light points)."""
    corners = tuple((round(x), round(y)) for x, y in data["outline"])
    walls = tuple(
        Wall(w["name"], _point(w["left_end"]), _point(w["right_end"]), w["part_of"])
        for w in data["walls"]
    )
    index = {w.name: i for i, w in enumerate(walls)}

    def place(one: Mapping[str, Any]) -> tuple[str, int, int, int]:
        return one["name"], index[one["wall"]], one["from_left"], one["width"]

    doors = tuple(
        Door(*place(d), d["opens"], d["hinge"], d["height"], d["main"]) for d in data["doors"]
    )
    windows = tuple(
        Window(*place(w), w["sill"], w["head"], w["must_open"], w["escape"])
        for w in data["windows"]
    )
    fixtures = tuple(_fixture(f, walls, index) for f in data["fixtures"] if f["polygon"])
    return Room(corners, walls, data["ceiling"], doors, windows, fixtures)


def _point(xy: tuple[float, float]) -> tuple[int, int]:
    return round(xy[0]), round(xy[1])


def _fixture(data: Mapping[str, Any], walls: tuple[Wall, ...], index: Mapping[str, int]) -> Fixture:
    """A fixture with a body; sockets and light points are not in a result's shapes."""
    corners = tuple(_point(c) for c in data["polygon"])
    where = None if data["wall"] is None else index[data["wall"]]
    offset = width = depth = 0
    if where is not None:
        wall = walls[where]
        (nx, ny), (ox, oy) = wall.inward, wall.start
        along = [wall.coordinate(x, y) for x, y in corners]
        off = [(x - ox) * nx + (y - oy) * ny for x, y in corners]
        offset, width = round(min(along)), round(max(along) - min(along))
        depth = round(max(off))
    return Fixture(
        data["name"],
        data["kind"],
        corners,
        where,
        offset,
        width,
        depth,
        data["bottom"],
        data["top"],
    )
