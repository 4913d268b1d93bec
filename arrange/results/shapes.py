"""Shapes as lists of points, in mm: exact ones rounded to 0.001, walkable floor to 0.1."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.walking import polygons

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


def with_holes(shape: BaseGeometry) -> list[dict[str, Any]]:
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
