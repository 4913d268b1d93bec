"""Reads ``outline`` of ``[room]``: well-known text, or a GeoJSON or SVG file beside the scenario.

WKT (OGC 06-103r4) and GeoJSON (RFC 7946) are read by shapely. Walls are called A, B, C, ... in
the order in which the outline goes round, whichever way that is. Lengths in mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from pathlib import Path, PureWindowsPath
from typing import TYPE_CHECKING, cast

from arrange.data.lengths import MM, length
from arrange.data.room import Point
from arrange.data.scenario import Unit
from arrange.errors import ScenarioError
from arrange.scenario.faults import shown
from arrange.scenario.limits import text_of
from arrange.scenario.outline import OutlineError, area, check_ring, letter, whole
from arrange.scenario.table import LONGEST_MM, Table

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

# Bytes: of a drawing, of which a plan of ours has 300,000, and of one list of corners.
LARGEST_SVG, LARGEST_GEOJSON = 4_000_000, 200_000
DEEPEST = 30  # brackets in brackets
NARROWEST = 500  # mm from side to side
SCALES = (1.0, 1000.0)
UNITS: tuple[Unit, ...] = ("mm", "cm", "m", "in")
WAYS = (
    'write "POLYGON ((0 0, 0 410, 320 410, 320 0, 0 0))", { geojson = "room.geojson" }, or '
    '{ svg = "room.svg", path = "room", scale = 50 }'
)
OPEN = "closed linestring"  # in the reader's own words, where a ring is left open
UNCLOSED = ("its last point is not its first", "the first point is written again at the end")
RATIO = re.compile(r"1\s*:\s*(\d{1,4}(?:\.\d{1,3})?)")
Drawn = tuple[tuple[Point, ...], tuple[str, ...]]
NOTHING: Drawn = ((), ())


def read_drawn(room: Table) -> Drawn:
    """The corners, clockwise, and the names of the walls; nothing, with faults, if it is none.

    Raises
    ------
    OutlineError
        If it is no outline of a room.
    """
    if room.has("check"):
        hint = "give the walls as [[room.wall]] tables, and the checks find the corners"
        room.fault("check", "given with outline", "an outline leaves nothing to check", hint)
    value = room.raw("outline")
    if isinstance(value, str):
        return _well_known(room, value)
    table = room.table(value, room.at("outline")) if isinstance(value, dict) else None
    given = [key for key in ("geojson", "svg") if table is not None and table.has(key)]
    if table is None or len(given) != 1:
        room.fault("outline", f"{shown(value)} given", WAYS)
        return NOTHING
    read = _geojson if given == ["geojson"] else _svg
    before = len(room.faults)
    points = read(table)
    table.finish()
    if len(room.faults) > before:
        return NOTHING
    if not all(math.isfinite(number) for point in points for number in point):
        raise OutlineError("a number far too large", "each corner is two numbers")
    corners = whole(points)
    across = max(max(axis) for axis in zip(*corners, strict=True))
    if across < NARROWEST:
        hint = "degrees on a map are not read, metres on a plan are; check unit or scale"
        given_ = f"the room is {length(across, room.unit)} across"
        raise OutlineError(given_, f"{length(NARROWEST, room.unit)} is the least", hint)
    return clockwise(corners)


def clockwise(corners: Sequence[Point]) -> Drawn:
    """The corners clockwise, with walls named in the order given. OutlineError as ``check``.

    >>> clockwise([(0, 0), (4, 0), (4, 3)])
    (((0, 0), (4, 3), (4, 0)), ('C', 'B', 'A'))
    """
    check_ring(corners)
    names = tuple(letter(i) for i in range(len(corners)))
    if area(corners) <= 0:
        return tuple(corners), names
    # The wall from the first to the second corner now runs from the last one to the first.
    return (corners[0], *reversed(corners[1:])), names[::-1]


# -- shapes that shapely reads -----------------------------------------------
def _well_known(room: Table, text: str) -> Drawn:
    import numpy as np  # noqa: PLC0415  for drawn rooms alone
    import shapely  # noqa: PLC0415

    _check_depth(text)
    try:
        with np.errstate(all="ignore"):  # what is no number is refused below
            shape = shapely.from_wkt(text)
    except (shapely.GEOSException, ValueError) as error:
        if OPEN in str(error):
            raise OutlineError(*UNCLOSED) from None
        room.fault("outline", f"{shown(text)} given", WAYS)
        return NOTHING
    high = LONGEST_MM
    points = [
        tuple(room.as_mm(number, "outline", 10**9, -high, high) for number in point)
        for point in _ring(shape)
    ]
    if any(10**9 in point for point in points):
        return NOTHING
    return clockwise(cast("list[Point]", points))


def _geojson(table: Table) -> list[tuple[float, float]]:
    import shapely  # noqa: PLC0415  for drawn rooms alone

    text = _text(table, "geojson", (".geojson", ".json"), LARGEST_GEOJSON)
    mm = float(MM[table.choice("unit", UNITS, "m")])
    if text is None:
        return []
    _check_depth(text)
    try:
        shape = shapely.from_geojson(text)
    except (shapely.GEOSException, ValueError) as error:
        is_open = OPEN in str(error)
        said = UNCLOSED if is_open else ("not GeoJSON", "a file with one Polygon is needed")
        raise OutlineError(*said) from None
    return [(x * mm, y * mm) for x, y in _ring(shape)]


def _check_depth(text: str) -> None:
    """Refuse brackets in brackets without end, before a reader goes down into them."""
    depth = 0
    for mark in re.finditer(r"[(\[{]|[)\]}]", text):
        depth += 1 if mark[0] in "([{" else -1
        if depth > DEEPEST:
            raise OutlineError("brackets in brackets", "an outline is one list of corners")


def _ring(shape: BaseGeometry | None) -> list[tuple[float, float]]:
    """The corners of the one polygon in a shape; the last, which repeats the first, left out."""
    while shape is not None and shape.geom_type in ("GeometryCollection", "MultiPolygon"):
        parts = list(shape.geoms)
        if len(parts) != 1:
            raise OutlineError(f"{len(parts)} shapes given", "a room is one Polygon")
        shape = parts[0]
    if shape is None or shape.geom_type != "Polygon" or shape.is_empty:
        what = "nothing" if shape is None or shape.is_empty else f"a {shape.geom_type}"
        raise OutlineError(f"{what} given", "a room is one Polygon")
    if len(shape.interiors):
        hint = "a column is a [[fixture]]; a hole in the floor cannot be given"
        raise OutlineError("a Polygon with a hole", "a room has one outline", hint)
    return [(x, y) for x, y, *_ in shape.exterior.coords[:-1]]


# -- drawings ----------------------------------------------------------------
def _svg(table: Table) -> list[tuple[float, float]]:
    from arrange.scenario.svg import outline_in  # noqa: PLC0415  for drawn rooms alone

    text = _text(table, "svg", (".svg",), LARGEST_SVG)
    name = table.text("path")
    if not table.has("path"):
        table.fault("path", "not given", "the id of the path that is the outline is needed")
    scale, unit = _scale(table), table.choice("unit", UNITS, "cm")
    if table.has("scale") == table.has("unit"):
        allowed = 'scale = 50 for a drawing at 1:50, or unit = "cm" if a unit of it is a centimetre'
        table.fault("scale", "one of scale and unit is needed", allowed)
    if text is None or not name or (scale is None and not table.has("unit")):
        return []
    points = outline_in(text, name, scale)
    mm = 1.0 if scale is not None else float(MM[unit])
    return [(x * mm, y * mm) for x, y in points]


def _scale(table: Table) -> float | None:
    """50 for 1:50, however it is written; None, with a fault, if it is none."""
    value = table.raw("scale")
    if value is None:
        return None
    found = RATIO.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is not None:
        value = float(found[1])
    good = isinstance(value, int | float) and not isinstance(value, bool)
    if good and SCALES[0] <= cast("float", value) <= SCALES[1]:
        return float(cast("float", value))
    allowed = f"a number from {SCALES[0]:g} to {SCALES[1]:g} is needed, such as 50 for 1:50"
    table.fault("scale", f"{shown(table.raw('scale'))} given", allowed)
    return None


def _text(table: Table, key: str, endings: Sequence[str], most: int) -> str | None:
    """The text of the file named, which lies beside the scenario; None, with a fault, if not."""
    name = table.text(key)
    path = Path(name)
    inside = not path.is_absolute() and not PureWindowsPath(name).drive and ".." not in path.parts
    if not name or not inside or path.suffix.casefold() not in endings:
        allowed = f"the name of a file ({' or '.join(endings)}) beside the scenario is needed"
        table.fault(key, f"{shown(table.raw(key))} given", allowed)
        return None
    try:
        return text_of(Path(table.faults.file).parent / path, most)
    except ScenarioError as error:
        told = error.faults[0].given
        table.fault(
            key, f"{name}: {told}", "a file beside the scenario is needed", "check its name"
        )
        return None
