"""What may stand in a ``result.json`` that is read back: everything is checked before it is used.

The file may have been edited, cut off, or written by a stranger. Types, ranges, counts and
lengths are checked key by key on what JSON gave, and then what must fit together: walls that
make a room, doors on walls that are there, pieces inside. Nothing is built, measured or drawn
before. Lengths in mm, points out of 100.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any, get_args

from arrange.data.piece import SHAPES, Status
from arrange.data.result import Part
from arrange.data.room import FACINGS, OPENS
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.faults import Faults, quoted, shown
from arrange.scenario.limits import MOST_PIECES
from arrange.scenario.outline import MOST_CORNERS, WIDEST, OutlineError
from arrange.scenario.outline import check as check_outline
from arrange.scenario.table import SEEN

MOST_BYTES = 16_000_000  # the largest of the examples has 250,000
MOST_ARRANGEMENTS = 50
MOST_ROWS = 2000  # reasons, gaps, lines: more than the most pieces can have
NAME, SENTENCE, LINE = 300, 2000, 10_000  # characters
HIGHEST = 20_000  # mm above the floor
LONGEST_SIDE = 20_000  # mm of one piece
BEYOND = 100  # mm outside the room
FORMAT_WORDS = "a result.json that arrange suggest wrote is needed; run it again for a sound one"

Check = Callable[[object, str, Faults], None]


def number(low: float, high: float) -> Check:
    """A finite number from ``low`` to ``high``."""

    def check(value: object, where: str, faults: Faults) -> None:
        real = isinstance(value, int | float) and not isinstance(value, bool)
        if not real or not low <= value <= high:  # type: ignore[operator]  # real says it is one
            wanted = f"a number from {low:g} to {high:g} is needed"
            faults.add(where, f"{shown(value)} given", wanted)

    return check


def whole(low: int, high: int) -> Check:
    """A whole number from ``low`` to ``high``, be it written with a decimal point."""
    in_range = number(low, high)

    def check(value: object, where: str, faults: Faults) -> None:
        before = len(faults)
        in_range(value, where, faults)
        if len(faults) == before and value != int(value):  # type: ignore[call-overload]
            faults.add(where, f"{shown(value)} given", "a whole number is needed")

    return check


def text(most: int, least: int = 1) -> Check:
    """A text on one line, all of which can be seen."""

    def check(value: object, where: str, faults: Faults) -> None:
        if not isinstance(value, str) or len(value.strip()) < least:
            faults.add(where, f"{shown(value)} given", "a line of text is needed")
        elif len(value) > most:
            faults.add(where, f"{len(value)} characters", f"at most {most} are read")
        elif not can_be_seen(value):
            faults.add(where, f"{shown(value)} given", *SEEN)

    return check


def flag(value: object, where: str, faults: Faults) -> None:
    """True or false."""
    if not isinstance(value, bool):
        faults.add(where, f"{shown(value)} given", "true or false is needed")


def one_of(*words: str) -> Check:
    """One of a few words."""

    def check(value: object, where: str, faults: Faults) -> None:
        if not isinstance(value, str) or value not in words:
            faults.add(where, f"{shown(value)} given", f"{quoted(words)} is needed")

    return check


def maybe(inner: Check) -> Check:
    """Null, or what ``inner`` takes."""

    def check(value: object, where: str, faults: Faults) -> None:
        if value is not None:
            inner(value, where, faults)

    return check


def rows(inner: Check, most: int, least: int = 0) -> Check:
    """A list; what is in it is looked at only if there is not too much of it."""

    def check(value: object, where: str, faults: Faults) -> None:
        if not isinstance(value, list):
            faults.add(where, f"{shown(value)} given", "a list is needed")
        elif not least <= len(value) <= most:
            wanted = f"{least} to {most} are read" if least < most else f"{most} are needed"
            faults.add(where, f"{len(value)} given", wanted)
        else:
            for i, one in enumerate(value, 1):
                inner(one, f"{where}[{i}]", faults)

    return check


def table(**keys: Check) -> Check:
    """A record with these keys; a check called ``maybe_x`` is for a key ``x`` that may lack."""

    def check(value: object, where: str, faults: Faults) -> None:
        if not isinstance(value, Mapping):
            faults.add(where, f"{shown(value)} given", "a table of keys is needed")
            return
        for name, inner in keys.items():
            key = name.removeprefix("maybe_")
            at = f"{where}.{key}" if where else key
            if key in value:
                inner(value[key], at, faults)
            elif key == name:
                faults.add(at, "not given", "it is needed")

    return check


COORDINATE = number(-WIDEST, WIDEST)
POINT = rows(COORDINATE, 2, 2)
POINTS_OF_100 = number(0, 100)
HEIGHT = whole(0, HIGHEST)
ON_WALL = {"wall": text(NAME), "from_left": whole(0, WIDEST), "width": whole(1, WIDEST)}

DOOR = table(
    name=text(NAME),
    **ON_WALL,
    maybe_height=HEIGHT,
    maybe_opens=one_of(*OPENS),
    maybe_hinge=one_of("left", "right"),
    maybe_main=flag,
    maybe_leaves=whole(1, 2),
    maybe_stable=flag,
)
ROOM = table(
    outline=rows(POINT, MOST_CORNERS, 3),
    ceiling=whole(1, HIGHEST),
    maybe_slopes=rows(
        table(wall=text(NAME), height=HEIGHT, until=whole(1, WIDEST)),
        MOST_CORNERS,
    ),
    maybe_dormers=rows(
        table(
            name=text(NAME),
            wall=text(NAME),
            from_left=whole(0, WIDEST),
            polygon=rows(POINT, 4, 4),
            height=HEIGHT,
        ),
        MOST_CORNERS,
    ),
    maybe_beams=rows(
        table(
            name=text(NAME),
            wall=text(NAME),
            polygon=rows(POINT, 4, 4),
            height=HEIGHT,
            drop=HEIGHT,
        ),
        MOST_CORNERS,
    ),
    walls=rows(
        table(name=text(NAME), maybe_part_of=text(NAME, 0), left_end=POINT, right_end=POINT),
        MOST_CORNERS,
        3,
    ),
    doors=rows(DOOR, MOST_CORNERS),
    windows=rows(
        table(
            name=text(NAME),
            **ON_WALL,
            maybe_sill=HEIGHT,
            maybe_head=HEIGHT,
            maybe_must_open=flag,
            maybe_escape=flag,
            maybe_french=maybe(DOOR),
            maybe_tilts=flag,
            maybe_curtains=whole(0, WIDEST),
        ),
        MOST_CORNERS,
    ),
    fixtures=rows(
        table(
            name=text(NAME),
            kind=text(NAME),
            wall=maybe(text(NAME)),
            polygon=rows(POINT, MOST_CORNERS),
            maybe_bottom=HEIGHT,
            maybe_top=HEIGHT,
            maybe_solid=flag,
            maybe_doors=one_of("hinged", "folding", "sliding"),
            maybe_leaves=whole(0, 12),
            maybe_steps=one_of("front", "left", "right"),
            maybe_guarded=flag,
            maybe_underside=HEIGHT,
            maybe_low_top=HEIGHT,
            maybe_low_end=one_of("left", "right", "front", "back"),
        ),
        MOST_ROWS,
    ),
)
PLACE_KEYS = {
    "wall": maybe(text(NAME)),
    "facing": text(NAME),
    "slanted": flag,
    "x": maybe(whole(-WIDEST, WIDEST)),
    "y": maybe(whole(-WIDEST, WIDEST)),
    "from_left": maybe(whole(-WIDEST, WIDEST)),
    "off_wall": maybe(whole(-WIDEST, WIDEST)),
    "maybe_quarter_turns": whole(0, 3),
    "maybe_corner": rows(text(NAME), 2, 2),
}
PLACE = table(**PLACE_KEYS)
PIECE = table(
    name=text(NAME),
    kind=text(NAME),
    width=whole(1, LONGEST_SIDE),
    depth=whole(1, LONGEST_SIDE),
    bottom=HEIGHT,
    top=HEIGHT,
    maybe_flat=flag,
    maybe_major=flag,
    maybe_goes_with=maybe(text(NAME)),
    maybe_screen=whole(0, LONGEST_SIDE),
    maybe_shape=one_of(*SHAPES),
    maybe_corner=whole(0, LONGEST_SIDE),
    maybe_arm_side=one_of("left", "right"),
    maybe_arm_width=whole(0, LONGEST_SIDE),
    maybe_back_depth=whole(0, LONGEST_SIDE),
    maybe_headboard=whole(0, LONGEST_SIDE),
    maybe_footboard=whole(0, LONGEST_SIDE),
    maybe_rails=whole(0, LONGEST_SIDE),
    maybe_stays=flag,
    placement=PLACE,
)
REASON = table(
    rule=text(NAME),
    subjects=rows(text(NAME), MOST_PIECES),
    sentence=text(SENTENCE),
    measured=text(SENTENCE, 0),
    wanted=text(SENTENCE, 0),
    won=POINTS_OF_100,
    possible=POINTS_OF_100,
    part=one_of(*get_args(Part)),
    faults=whole(0, MOST_ROWS),
    source=table(id=text(NAME, 0), title=text(SENTENCE, 0), status=one_of(*get_args(Status))),
    maybe_overridden=flag,
)
GAP = table(between=rows(text(NAME), 2, 2), length=whole(0, 2 * WIDEST), ends=rows(POINT, 2, 2))
SPARE = table(
    between=rows(text(NAME), 2, 2),
    direction=one_of("across", "up", "way"),
    chain=text(LINE, 0),
    pieces=rows(text(NAME), MOST_PIECES),
    spare=whole(-2 * WIDEST, 2 * WIDEST),
    at_least=flag,
)
ARRANGEMENT = table(
    rank=whole(1, MOST_ARRANGEMENTS),
    score=POINTS_OF_100,
    proven=flag,
    at_most=POINTS_OF_100,
    fewest_faults=whole(0, MOST_ROWS),
    reasons=rows(REASON, MOST_ROWS),
    pieces=rows(PIECE, MOST_PIECES, 1),
    walkway=table(width=whole(1, 5000)),
    tightest_gaps=rows(GAP, MOST_ROWS),
    maybe_spare=rows(SPARE, MOST_ROWS),
)
TOP = table(
    title=text(NAME),
    unit=one_of(*get_args(Unit)),
    at_most=POINTS_OF_100,
    maybe_scenario_file=maybe(text(SENTENCE, 0)),
    room=ROOM,
)


def check_result(data: Mapping[str, Any], rank: int, file: str) -> None:
    """Whether everything that is read of arrangement ``rank`` (there is one) can be used.

    Raises
    ------
    ScenarioError
        With every fault, each with its key.
    """
    faults = Faults(file)
    TOP(data, "", faults)
    where = f"arrangements[{rank}]"
    one = data["arrangements"][rank - 1]
    ARRANGEMENT(one, where, faults)
    _stop(faults)
    _check_room(data["room"], faults)
    _stop(faults)
    _check_pieces(one["pieces"], where, data["room"], faults)
    _stop(faults)


def _stop(faults: Faults) -> None:
    """With a line before the faults that says what they mean."""
    if len(faults):
        told = Faults(faults.file)
        told.add("", "not what arrange suggest writes", FORMAT_WORDS)
        for fault in faults.found:
            told.add(fault.where, fault.given, fault.allowed, fault.hint)
        told.stop()


Corners = Sequence[tuple[float, float]]


def _check_room(room: Mapping[str, Any], faults: Faults) -> None:
    corners = [tuple(p) for p in room["outline"]]
    _check_ring("room.outline", corners, faults)
    ends = [*corners[1:], corners[0]]
    walls = {}
    for i, wall in enumerate(room["walls"], 1):
        at = f"room.walls[{i}]"
        left, right = tuple(wall["left_end"]), tuple(wall["right_end"])
        if i > len(corners) or (left, right) != (corners[i - 1], ends[i - 1]):
            wanted = f"wall {i} goes from corner {i} of the outline to the next"
            faults.add(at, f"{shown(left)} to {shown(right)} given", wanted)
        if wall["name"] in walls:
            faults.add(f"{at}.name", f"{shown(wall['name'])} given twice", "each name once")
        walls[wall["name"]] = math.dist(left, right)
    if len(room["walls"]) != len(corners):
        given = f"{len(room['walls'])} given"
        faults.add("room.walls", given, f"{len(corners)} are needed, one a corner")
    for key in ("doors", "windows"):
        for i, one in enumerate(room[key], 1):
            _check_opening(f"room.{key}[{i}]", one, walls, faults)
            if one.get("french") is not None:
                _check_opening(f"room.{key}[{i}].french", one["french"], walls, faults)
    _check_overhead(room, walls, faults)
    for i, fixture in enumerate(room["fixtures"], 1):
        at = f"room.fixtures[{i}]"
        _check_wall(at, fixture["wall"], walls, faults)
        if len(fixture["polygon"]) > 1:
            _check_ring(f"{at}.polygon", [tuple(p) for p in fixture["polygon"]], faults)


def _check_ring(where: str, corners: Corners, faults: Faults) -> None:
    """Corners that make a shape, listed either way round, on whole mm."""
    points = [(round(x), round(y)) for x, y in corners]
    area = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )
    try:
        check_outline(points[::-1] if area > 0 else points)
    except OutlineError as error:
        faults.add(where, error.given, error.allowed)
    for axis in zip(*points, strict=True):
        if max(axis) - min(axis) > WIDEST:
            faults.add(where, f"{max(axis) - min(axis)} mm across", f"at most {WIDEST} mm")


def _check_wall(
    where: str, name: str | None, walls: Mapping[str, float], faults: Faults
) -> float | None:
    """The length of the wall of that name; a fault if there is none."""
    if name is not None and name not in walls:
        faults.unknown(f"{where}.wall", name, list(walls), "the wall")
    return None if name is None else walls.get(name)


def _check_overhead(room: Mapping[str, Any], walls: Mapping[str, float], faults: Faults) -> None:
    for i, slope in enumerate(room.get("slopes", ()), 1):
        _check_wall(f"room.slopes[{i}]", slope["wall"], walls, faults)
        if slope["height"] >= room["ceiling"]:
            given = f"{slope['height']} given"
            faults.add(f"room.slopes[{i}].height", given, "a slope begins below the ceiling")
    for i, dormer in enumerate(room.get("dormers", ()), 1):
        at = f"room.dormers[{i}]"
        _check_wall(at, dormer["wall"], walls, faults)
        _check_ring(f"{at}.polygon", [tuple(p) for p in dormer["polygon"]], faults)
        if dormer["height"] > room["ceiling"]:
            given = f"{dormer['height']} given"
            faults.add(f"{at}.height", given, "a dormer is no higher than the ceiling")
    for i, beam in enumerate(room.get("beams", ()), 1):
        at = f"room.beams[{i}]"
        _check_wall(at, beam["wall"], walls, faults)
        _check_ring(f"{at}.polygon", [tuple(p) for p in beam["polygon"]], faults)
        if not 0 < (beam["height"] or beam["drop"]) < room["ceiling"]:
            given = f"{beam['height']} given"
            faults.add(f"{at}.height", given, "a beam is below the ceiling, above the floor")


def _check_opening(
    where: str, one: Mapping[str, Any], walls: Mapping[str, float], faults: Faults
) -> None:
    long = _check_wall(where, one["wall"], walls, faults)
    if long is not None and one["from_left"] + one["width"] > long + 1:
        given = f"it ends {one['from_left'] + one['width']} mm along its wall"
        faults.add(f"{where}.from_left", given, f"the wall is {long:.0f} mm long")


def _check_pieces(
    pieces: Sequence[Mapping[str, Any]], where: str, room: Mapping[str, Any], faults: Faults
) -> None:
    walls = {w["name"]: math.dist(w["left_end"], w["right_end"]) for w in room["walls"]}
    anchors: dict[str, str | None] = {}
    for i, piece in enumerate(pieces, 1):
        at = f"{where}.pieces[{i}]"
        if piece["name"] in anchors:
            faults.add(f"{at}.name", f"{shown(piece['name'])} given twice", "each name once")
        anchors[piece["name"]] = piece.get("goes_with")
        if piece["top"] <= piece["bottom"]:
            given = f"{piece['top']} given"
            faults.add(f"{at}.top", given, f"more than its bottom, {piece['bottom']}, is needed")
        check_place(f"{at}.placement", piece["placement"], room, walls, faults)
    for i, name in enumerate(anchors, 1):
        _check_anchor(f"{where}.pieces[{i}].goes_with", name, anchors, faults)


def check_place(
    where: str,
    place: Mapping[str, Any],
    room: Mapping[str, Any],
    walls: Mapping[str, float],
    faults: Faults,
) -> None:
    """A place on one of the walls, by their lengths, or within the outline of the room."""
    long = _check_wall(where, place["wall"], walls, faults)
    keys = ("from_left", "off_wall") if place["slanted"] else ("x", "y")
    missing = [key for key in keys if place[key] is None]
    for key in missing:
        faults.add(f"{where}.{key}", "not given", "a length in mm is needed")
    if place["slanted"]:
        across = place.get("corner")
        if across is not None:
            _check_corner(where, across, list(walls), faults)
        elif place["wall"] is None:
            faults.add(f"{where}.wall", "not given", "a slanted piece goes with a wall")
        begin, end = (-WIDEST, WIDEST) if across is not None else (0.0, long or 0.0)
        spans = {"from_left": (float(begin), float(end)), "off_wall": (0.0, float(WIDEST))}
    else:
        if place["facing"] not in FACINGS:
            faults.add(f"{where}.facing", f"{shown(place['facing'])} given", quoted(FACINGS))
        xs, ys = zip(*room["outline"], strict=True)
        spans = {"x": (min(xs), max(xs)), "y": (min(ys), max(ys))}
    for key in [key for key in keys if key not in missing]:
        low, high = spans[key]
        if not low - BEYOND <= place[key] <= high + BEYOND:
            wanted = f"{low:g} to {high:g} is in the room"
            faults.add(f"{where}.{key}", f"{place[key]} given", wanted)


def _check_corner(where: str, pair: Sequence[str], names: Sequence[str], faults: Faults) -> None:
    """Two walls that meet there, the left one first."""
    if not all(name in names for name in pair):
        faults.unknown(f"{where}.corner", str(list(pair)), list(names), "the walls")
    elif (names.index(pair[0]) + 1) % len(names) != names.index(pair[1]):
        given = f"{pair[0]} and {pair[1]} do not meet so"
        faults.add(f"{where}.corner", given, "the wall on the left of a corner, then the other")


def _check_anchor(where: str, name: str, anchors: Mapping[str, str | None], faults: Faults) -> None:
    """Ties lead to a piece that is there, and not round in a circle."""
    seen, at = {name}, anchors[name]
    if at is not None and at not in anchors:
        faults.unknown(where, at, list(anchors), "the piece")
    while at is not None and at in anchors:
        if at in seen:
            faults.add(where, f"{shown(name)} is tied to itself", "ties do not run in a circle")
            return
        seen.add(at)
        at = anchors[at]
