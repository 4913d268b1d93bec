"""Room, pieces and places from the shapes of a ``result.json``, good for drawing. In mm.

Reads ``result.json`` back: an arrangement to draw, and to judge again where that can be done.

A result holds the room and the pieces as shapes, and names the scenario file it was made
from. The judge needs that file. Lengths in mm.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.kinds import kinds
from arrange.data.piece import Piece
from arrange.data.result import Gap, Reason, Source
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import Scenario
from arrange.data.spare import Spare
from arrange.errors import Fault, ScenarioError


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


BIGGEST = 50_000_000  # bytes
WANTED = "a result.json that arrange suggest wrote is needed"
FORMAT = 1


@dataclass(frozen=True)
class ReadArrangement:
    """One arrangement of an earlier result. ``scenario`` is good for drawing, not for judging."""

    file: Path
    made_from: str
    scenario: Scenario
    arrangement: Arrangement
    score: int
    at_most: int
    proven: bool
    reasons: tuple[Reason, ...]
    gaps: tuple[Gap, ...]
    spare: tuple[Spare, ...]

    def again(self) -> tuple[Scenario | None, str]:
        """The scenario it was made from; or None and why it cannot be had."""
        from arrange.scenario.read import read  # noqa: PLC0415

        if not self.made_from:
            return None, "the file does not say which scenario it was made from"
        near = self.file.parent
        named = Path(self.made_from)
        for path in (named, near / named, near / named.name, near.parent / named.name):
            if not path.is_file():
                continue
            try:
                scenario = read(path)
            except ScenarioError:
                return None, f"{path} can no longer be read"
            if self._fits(scenario):
                return scenario, ""
            return None, f"{path} has changed since"
        return None, f"{self.made_from} is not there"

    def _fits(self, scenario: Scenario) -> bool:
        """Whether the same pieces are asked for, in the same room."""
        size = {p.name: (p.width, p.depth, p.bottom, p.top) for p in self.scenario.pieces}
        now = {p.name: (p.width, p.depth, p.bottom, p.top) for p in scenario.pieces}
        return size == now and scenario.room.corners == self.scenario.room.corners


def read_result(path: Path, rank: int) -> ReadArrangement:
    """Arrangement number ``rank`` of the result at ``path``.

    Raises
    ------
    ScenarioError
        If there is no such file, it is no result, or it has no such arrangement.
    """
    data = _data(path)
    try:
        listed = data["arrangements"]
        if data["format"] != FORMAT or not isinstance(listed, list):
            raise _no_result(path, f"format {data['format']}")
        if not 1 <= rank <= len(listed):
            raise _refused(path, f"no arrangement #{rank}", _numbers(len(listed)))
        return _arrangement(path, data, listed[rank - 1])
    except (KeyError, TypeError, ValueError, AttributeError, IndexError) as error:
        if isinstance(error, ScenarioError):
            raise
        raise _no_result(path, "not what arrange suggest writes") from None


def _data(path: Path) -> Mapping[str, Any]:
    try:
        if path.stat().st_size > BIGGEST:
            raise _no_result(path, "far too large")
        data = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise _refused(path, "no such file", "check the name") from None
    except OSError as error:
        raise _refused(path, "cannot be read", error.strerror or str(error)) from None
    except (ValueError, RecursionError) as error:
        if isinstance(error, ScenarioError):
            raise
        raise _no_result(path, "not JSON") from None
    if not isinstance(data, dict) or "arrangements" not in data or "format" not in data:
        raise _no_result(path, "no result of arrange suggest")
    return data


def _numbers(count: int) -> str:
    if not count:
        return "it has none"
    return "it has one, #1" if count == 1 else f"it has #1 to #{count}"


def _no_result(path: Path, given: str) -> ScenarioError:
    return _refused(path, given, WANTED)


def _refused(path: Path, given: str, allowed: str) -> ScenarioError:
    return ScenarioError(str(path), (Fault("", given, allowed),))


def _arrangement(path: Path, data: Mapping[str, Any], one: Mapping[str, Any]) -> ReadArrangement:
    room = room_from(data["room"])
    walls = {w.name: i for i, w in enumerate(room.walls)}
    pieces = tuple(piece_from(p) for p in one["pieces"])
    places = tuple(placement_from(p["name"], p["placement"], walls) for p in one["pieces"])
    scenario = Scenario(
        str(data["title"]), room, pieces, unit=data["unit"], walkway=one["walkway"]["width"]
    )
    return ReadArrangement(
        path,
        str(data.get("scenario_file") or ""),
        scenario,
        Arrangement(places),
        _tenths(one["score"]),
        _tenths(data["at_most"]),
        bool(one["proven"]),
        tuple(_reason(r) for r in one["reasons"]),
        tuple(_gap(g) for g in one["tightest_gaps"]),
        tuple(_spare(s) for s in one.get("spare", ())),
    )


def _tenths(points: float) -> int:
    return round(points * 10)


def _reason(data: Mapping[str, Any]) -> Reason:
    told = data["source"]
    return Reason(
        data["rule"],
        tuple(data["subjects"]),
        data["sentence"],
        data["measured"],
        data["wanted"],
        _tenths(data["won"]),
        _tenths(data["possible"]),
        Source(told["id"], told["title"], told["status"]),
        data["overridden"],
    )


def _gap(data: Mapping[str, Any]) -> Gap:
    start, end = data["ends"]
    one, two = data["between"]
    return Gap((start[0], start[1]), (end[0], end[1]), data["length"], (one, two))


def _spare(data: Mapping[str, Any]) -> Spare:
    one, two = data["between"]
    exact = not data["at_least"]
    pieces = tuple(data["pieces"])
    return Spare((one, two), data["chain"], pieces, data["direction"], data["spare"], exact)
