"""Shapes as lists of points, in mm rounded to 0.01."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.walking import polygons

Number = int | float


def number(mm: float) -> Number:
    """A length without needless decimals: whole where it is whole to 0.01 mm.

    >>> number(12.0), number(12.345), number(-0.001)
    (12, 12.35, 0)
    """
    rounded = round(mm, 2)
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
    parts = [
        {
            "outline": ring(p.exterior.coords),
            "holes": sorted(ring(h.coords) for h in p.interiors),
        }
        for p in polygons(shape)
    ]
    return sorted(parts, key=lambda part: part["outline"])
