"""The empty room as data. Lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import Scenario
from arrange.geometry import fixture_keep, fixture_shape, opening_span
from arrange.results.shapes import number, outline, ring
from arrange.rules import all_regions


def room_data(room: Room) -> dict[str, Any]:
    """Outline, walls, doors, windows and what is built in."""
    return {
        "outline": ring(room.corners),
        "ceiling": room.ceiling,
        "walls": [_wall(w) for w in room.walls],
        "doors": [_door(room, d) for d in room.doors],
        "windows": [_window(room, w) for w in room.windows],
        "fixtures": [_fixture(room, f) for f in room.fixtures],
    }


def keep_off_data(scenario: Scenario) -> list[dict[str, Any]]:
    """Floor that some pieces must stay off, and which pieces those are."""
    regions = [
        (r, [p.name for p in scenario.pieces if r.holds_off(p)]) for r in all_regions(scenario)
    ]
    return [
        {"why": region.why, "polygon": outline(region.shape), "pieces": names}
        for region, names in regions
        if names and not region.shape.is_empty
    ]


def _wall(wall: Wall) -> dict[str, Any]:
    return {
        "name": wall.name,
        "part_of": wall.part_of or wall.name,
        "left_end": list(wall.start),
        "right_end": list(wall.end),
        "length": number(wall.length),
    }


def _opening(room: Room, opening: Door | Window) -> dict[str, Any]:
    return {
        "name": opening.name,
        "wall": room.walls[opening.wall].name,
        "from_left": opening.offset,
        "width": opening.width,
        "ends": ring(opening_span(room, opening)),
    }


def _door(room: Room, door: Door) -> dict[str, Any]:
    return {
        **_opening(room, door),
        "height": door.height,
        "opens": door.opens,
        "hinge": door.hinge,
        "main": door is room.main_door,
    }


def _window(room: Room, window: Window) -> dict[str, Any]:
    return {
        **_opening(room, window),
        "sill": window.sill,
        "head": window.head,
        "must_open": window.must_open,
        "escape": window.escape,
    }


def _fixture(room: Room, fixture: Fixture) -> dict[str, Any]:
    return {
        "name": fixture.name,
        "kind": fixture.kind,
        "wall": None if fixture.wall is None else room.walls[fixture.wall].name,
        "polygon": outline(fixture_shape(fixture)),
        "bottom": fixture.bottom,
        "top": fixture.top,
        "solid": fixture.solid,
        "keep_free": outline(fixture_keep(room, fixture)),
        "keep_free_below": fixture.keep_below if fixture.keep else 0,
    }
