"""A room and the pieces in it as records, both ways: shapes, places, walkway, gaps.

Every length is in mm, every angle a quarter turn, every point ``[x, y]`` on the plan with
x to the right and y up. Exact shapes are rounded to 0.001 mm, walkable floor to 0.1. What
is read back is good for drawing: a fixture without a body (a socket) is left out, and a
piece has what its kind says and its symbol needs.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Protocol

import shapely
from shapely import box
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Placement
from arrange.data.kinds import kinds
from arrange.data.piece import Clearance, Piece
from arrange.data.result import Gap, Spare
from arrange.data.room import Beam, Door, Dormer, Facing, Fixture, Room, Slope, Vector, Wall, Window
from arrange.data.scenario import Scenario
from arrange.geometry.across import ways_across
from arrange.geometry.scene import DEEPEST, Placed, Scene
from arrange.geometry.shapes import (
    door_floor,
    facing_of,
    fixture_keep,
    fixture_shape,
    opening_span,
    turn_facing,
)
from arrange.geometry.walking import goals, polygons, walk_of
from arrange.output.fields import About, Data, Made, Reader, Record, read_as
from arrange.rules import all_regions
from arrange.words.suggest import chain_items, chain_words, spare_words

# Arcs of the walkable floor are drawn with chords that are good to 0.2 mm.
GRID = 0.1
Number = int | float


def number(mm: float) -> Number:
    """A length without needless decimals: whole where it is whole to 0.001 mm.

    >>> number(12.0), number(12.3456), number(-0.0001)
    (12, 12.346, 0)
    """
    rounded = round(mm, 3)
    return int(rounded) if rounded == int(rounded) else rounded


def ring(points: Iterable[tuple[float, float]]) -> list[list[Number]]:
    """Points in order; a closed ring is given without repeating its first point."""
    found = [[number(x), number(y)] for x, y in points]
    return found[:-1] if len(found) > 1 and found[0] == found[-1] else found


def outline(shape: Polygon) -> list[list[Number]]:
    """The corners of a polygon without holes; an empty one has none."""
    return ring(shape.exterior.coords)


def with_holes(shape: BaseGeometry) -> list[Data]:
    """Every part of a shape with its outline and its holes, in a fixed order."""
    tidy = shapely.set_precision(shape, GRID).normalize()
    parts = [
        {
            "outline": ring(p.exterior.coords),
            "holes": sorted(ring(h.coords) for h in p.interiors),
        }
        for p in polygons(tidy)
    ]
    return sorted(parts, key=lambda part: part["outline"])


def _points(value: object, about: About) -> tuple[tuple[int, int], ...]:
    """Points to the nearest whole mm."""
    found = read_as(tuple[tuple[float, float], ...], value, about)
    return tuple((round(x), round(y)) for x, y in found)


class _OnWall(Protocol):
    @property
    def wall(self) -> int | None: ...


def _wall(one: _OnWall, about: About) -> str | None:
    return None if one.wall is None else about.room.walls[one.wall].name


def _wall_index(data: Mapping[str, Any], about: About) -> int | None:
    names = [w.name for w in about.room.walls]
    return None if data["wall"] is None else names.index(data["wall"])


def _ends(opening: Door | Window, about: About) -> list[list[Number]]:
    return ring(opening_span(about.room, opening))


def _at(fixture: Fixture, about: About) -> list[Number]:
    """The middle of a fixture, also of a socket on its wall or a light point: no bodies."""
    if not fixture.corners and fixture.wall is not None:
        points = [about.room.walls[fixture.wall].point(fixture.offset + fixture.width / 2)]
    else:
        points = [(float(x), float(y)) for x, y in fixture.corners]
    return [number(sum(axis) / len(points)) for axis in zip(*points, strict=True)]


WALL = Record[Wall](
    Wall,
    "name part_of left_end=start right_end=end length",
    part_of=lambda wall, _: wall.part_of or wall.name,
    length=lambda wall, _: number(wall.length),
    read={
        "start": lambda data, about: _points([data["left_end"]], about)[0],
        "end": lambda data, about: _points([data["right_end"]], about)[0],
    },
)
DOOR = Record[Door](
    Door,
    "name wall from_left=offset width ends height opens hinge main",
    rare="leaves stable",
    wall=_wall,
    ends=_ends,
    main=lambda door, about: door is about.room.main_door,
    read={"wall": _wall_index},
)
WINDOW = Record[Window](
    Window,
    "name wall from_left=offset width ends",
    rare="french tilts curtains",
    wall=_wall,
    ends=_ends,
    read={"wall": _wall_index},
)
FIXTURE = Record[Fixture](
    Fixture,
    "name kind wall at polygon=corners bottom top solid keep_free keep_free_below",
    wall=_wall,
    at=_at,
    polygon=lambda fixture, _: outline(fixture_shape(fixture)),
    keep_free=lambda fixture, about: outline(fixture_keep(about.room, fixture)),
    keep_free_below=lambda fixture, _: fixture.keep_below if fixture.keep else 0,
    leave="keep keep_below burns source seat_before",
    rare="doors leaves steps guarded underside low_top low_end",
    read={
        "wall": _wall_index,
        "corners": lambda data, about: _points(data["polygon"], about),
        "offset": lambda data, about: _on_its_wall(data, about)[0],
        "width": lambda data, about: _on_its_wall(data, about)[1],
        "depth": lambda data, about: _on_its_wall(data, about)[2],
    },
)
SLOPE = Record[Slope](Slope, "wall height until", wall=_wall, read={"wall": _wall_index})


def _box(data: Mapping[str, Any], about: About) -> tuple[int, int, int, int]:
    """What a rectangle covers, of its corners."""
    xs, ys = zip(*_points(data["polygon"], about), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


BEAM = Record[Beam](
    Beam,
    "name wall polygon=box height drop",
    wall=_wall,
    polygon=lambda beam, _: outline(box(*beam.box)),
    read={"wall": _wall_index, "box": _box},
)
DORMER = Record[Dormer](
    Dormer,
    "name wall from_left=offset polygon=box height",
    wall=_wall,
    polygon=lambda dormer, _: outline(box(*dormer.box)),
    read={"wall": _wall_index, "box": _box},
)
ROOM = Record[Room](
    Room,
    "outline=corners ceiling slopes dormers beams walls doors windows fixtures",
    outline=lambda room, _: ring(room.corners),
    read={
        "corners": lambda data, about: _points(data["outline"], about),
        "fixtures": lambda data, about: tuple(
            FIXTURE.read(one, about) for one in data["fixtures"] if one["polygon"]
        ),
    },
)


def _on_its_wall(data: Mapping[str, Any], about: About) -> tuple[int, int, int]:
    """Offset, width and depth of a fixture on its wall; all 0 for one that stands free."""
    index = _wall_index(data, about)
    if index is None:
        return 0, 0, 0
    wall, corners = about.room.walls[index], _points(data["polygon"], about)
    along = [wall.coordinate(x, y) for x, y in corners]
    off = [wall.off(x, y) for x, y in corners]
    return round(min(along)), round(max(along) - min(along)), round(max(off))


def read_room(data: Mapping[str, Any]) -> Room:
    """The empty room. What stands on its walls is read once they are known."""
    nowhere = About(Scenario("", Room((), (), 0), ()))
    walls = tuple(WALL.read(one, nowhere) for one in data["walls"])
    return ROOM.read(data, About(Scenario("", Room((), walls, 0), ())))


def keep_off(scenario: Scenario) -> list[Data]:
    """Floor that some pieces must stay off, and which pieces those are."""
    regions = [
        (r, [p.name for p in scenario.pieces if r.holds_off(p)]) for r in all_regions(scenario)
    ]
    return [
        {"why": region.why, "polygon": outline(region.shape), "pieces": names}
        for region, names in regions
        if names and not region.shape.is_empty
    ]


def _if(field: str, *, slanted: bool) -> Made[Placement]:
    """A number that only one of the two kinds of places has; null for the other."""
    return lambda one, _: getattr(one, field) if (one.facing is None) == slanted else None


def _corner_walls(one: Placement, about: About) -> list[str] | None:
    """The two walls of the corner that a piece stands across, left and right from inside."""
    if one.corner is None:
        return None
    return [wall.name for wall in about.room.meeting(one.corner)]


def _corner(data: Mapping[str, Any], about: About) -> int | None:
    names = [w.name for w in about.room.walls]
    pair = data.get("corner")
    return None if pair is None else names.index(pair[1])


def _looks(data: Mapping[str, Any], about: About) -> Facing | None:
    """As which of the two ways next to it a piece across a corner counts; ValueError if neither."""
    corner = _corner(data, about)
    if corner is None:
        return None
    line, straight = about.room.across(corner), turn_facing(data["facing"], -data["quarter_turns"])
    if line is None or straight not in ways_across(line):
        raise ValueError(f"nothing looks {data['facing']} across the corner of {data['corner']}")
    return straight


def _or_0(key: str) -> Reader:
    return lambda data, about: read_as(int | None, data[key], about) or 0


# ``x`` and ``y`` are the lower left corner of the footprint on the plan; for a piece at a
# slanted wall ``from_left`` and ``off_wall`` say where it is instead, and across a corner they
# count from the corner, along the line at 45 degrees to both walls and off it.
PLACEMENT = Record[Placement](
    Placement,
    "piece wall facing slanted x y from_left=offset off_wall=inward quarter_turns=quarter corner",
    leave="looks",
    rare="corner",
    wall=_wall,
    corner=_corner_walls,
    facing=lambda one, about: facing_of(one, about.room),
    slanted=lambda one, _: one.facing is None,
    x=_if("x", slanted=False),
    y=_if("y", slanted=False),
    from_left=_if("offset", slanted=True),
    off_wall=_if("inward", slanted=True),
    quarter_turns=lambda one, _: one.quarter if one.facing is None else 0,
    read={
        "wall": _wall_index,
        "facing": lambda data, about: (
            None if data["slanted"] else read_as(Facing, data["facing"], about)
        ),
        "x": _or_0("x"),
        "y": _or_0("y"),
        "corner": _corner,
        "looks": _looks,
        "offset": _or_0("from_left"),
        "inward": _or_0("off_wall"),
    },
)


def _own_place(piece: Piece, about: About) -> Data:
    """The placement within the record of its piece, whose name is said there."""
    record = PLACEMENT.write(about.scene.find(piece.name).placement, about)
    del record["piece"]
    return record


def read_placement(data: Mapping[str, Any], about: About) -> Placement:
    """Where a piece stands, from its record."""
    return PLACEMENT.read({"piece": data["name"], **data["placement"]}, about)


# A piece where it stands, with every clearance and the side that serves it.
PLACED = Record[Piece](
    Piece,
    "name kind shape corner arm_side arm_width back_depth width depth bottom top flat major screen "
    "goes_with=anchor headboard footboard rails stays placement footprint clearances",
    rare="headboard footboard rails",
    stays=lambda piece, about: any(held.piece == piece.name for held in about.scenario.held),
    placement=_own_place,
    footprint=lambda piece, about: outline(about.scene.find(piece.name).body),
    clearances=lambda piece, about: [
        _clearance(about.scene, about.scene.find(piece.name), c) for c in piece.clearances
    ],
    read={
        "model": lambda data, _: data["name"],
        "height": lambda data, about: read_as(int, data["top"] - data["bottom"], about),
        "roles": lambda data, _: _roles(data["kind"]),
        "clearances": lambda _, __: (),
    },
    only=True,
    other=True,
)


def _roles(kind: str) -> frozenset[str]:
    known = kinds().get(kind)
    return known.roles if known else frozenset()


def _clearance(scene: Scene, placed: Placed, clearance: Clearance) -> Data:
    """By hand: nearly all of it is measured where the piece stands, and nothing read back.

    The side with the most free floor is the one used; ties go to the first.
    """
    depths = [scene.side_depth(placed, clearance, side) for side in clearance.sides]
    best = max(range(len(depths)), key=lambda i: depths[i])
    side, depth = clearance.sides[best], depths[best]

    def strip(deep: int) -> list[list[Number]]:
        return outline(scene.zone(placed, clearance, side, deep)) if deep else []

    return {
        "name": clearance.name,
        "purpose": clearance.purpose,
        "sides_allowed": clearance.sides,
        "side": side,
        "least": clearance.least,
        "comfortable": clearance.comfortable,
        "free": depth,
        "free_is_capped": depth == DEEPEST,
        "below": clearance.height,
        "headroom": clearance.headroom,
        "walkway": clearance.walk and clearance.least > 0,
        "least_floor": strip(clearance.least),
        "comfortable_floor": strip(clearance.comfortable),
        "source": clearance.source or "common-practice",
        "status": clearance.status,
        "overridden": clearance.overridden,
    }


def walkway(scene: Scene) -> Data:
    """Its width, all floor it can sweep over from the main door, and what it reaches."""
    scenario = scene.scenario
    door = scenario.room.main_door
    walk = walk_of(scene)
    return {
        "width": scenario.walkway,
        "overridden": scenario.walkway_overridden,
        "from": None if door is None else door.name,
        "door_floor": []
        if door is None
        else outline(door_floor(scenario.room, door, scenario.walkway)),
        "region": sorted(
            (part for floor in walk.swept() for part in with_holes(floor)),
            key=lambda part: part["outline"],
        ),
        "reaches": [
            {
                "name": goal.name,
                "clearance": goal.clearance or None,
                "purpose": goal.purpose,
                "reached": walk.reaches(goal),
                "stooping": goal.stoop,
                "zones": [outline(zone) for zone in goal.zones],
            }
            for goal in goals(scene)
        ],
    }


GAP = Record[Gap](
    Gap,
    "between length ends",
    ends=lambda gap, _: ring((gap.start, gap.end)),
    read={
        "start": lambda data, about: read_as(Vector, data["ends"][0], about),
        "end": lambda data, about: read_as(Vector, data["ends"][1], about),
    },
)


def _line(data: Mapping[str, Any], about: About) -> tuple[str | int, ...]:
    """A line is read from its text; for the way in that is made again of the width asked."""
    if data["direction"] == "way":
        return (about.scenario.walkway,)
    names = {*(piece.name for piece in about.scenario.pieces), *map(str, data["pieces"])}
    return chain_items(read_as(str, data["chain"], about), sorted(names))


SPARE = Record[Spare](
    Spare,
    "between direction chain=line pieces spare=mm at_least=exact sentence",
    chain=lambda spare, about: chain_words(spare, about.unit),
    at_least=lambda spare, _: not spare.exact,
    sentence=lambda spare, about: spare_words(spare, about.unit),
    read={
        "line": _line,
        "exact": lambda data, about: not read_as(bool, data["at_least"], about),
    },
)
