"""Straight upright strips of a finished plan in which nothing of some height stands. No solver.

Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely import box
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.piece import Piece
from arrange.data.room import Facing, Fixture
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, leaves, shares_floor
from arrange.geometry.spots import Bounded, across, looking

NEAR = 10  # mm beyond a strip in which something else ends


def reaches(thing: Piece | Fixture, heights: tuple[int, int]) -> bool:
    """Whether a thing has something above the lower height and below the upper one."""
    low, high = heights
    return thing.top > low and thing.bottom < high


class Outlook:
    """What stands between two heights, but for some pieces."""

    def __init__(self, scene: Scene, heights: tuple[int, int], without: Sequence[str]) -> None:
        self.scene = scene
        self.bodies: list[tuple[str, Polygon]] = [
            (p.name, p.body)
            for p in scene.placed
            if p.name not in without and not p.piece.flat and reaches(p.piece, heights)
        ]
        self.bodies += [
            (f.name, fixture_shape(f))
            for f in scene.scenario.room.obstructions
            if reaches(f, heights)
        ]

    def blocked_by(self, strip: Bounded) -> str | None:
        """The first thing that stands in a strip, "wall" where it leaves the room."""
        shape = _polygon(strip)
        found = (name for name, body in self.bodies if shares_floor(shape, body))
        return next(found, "wall" if leaves(shape, self.scene.room) else None)

    def slides_free(
        self, facing: Facing, ahead: tuple[int, int], aside: tuple[int, int], width: int
    ) -> bool:
        """Whether a strip that wide is free, on whole mm anywhere between two lines.

        ``ahead`` says where it begins and ends going the way ``facing`` looks. If it is free
        anywhere, it is free where it begins at the line or just past something.
        """
        low, high = aside
        if high - low < width:
            return False
        whole = looking(facing, ahead, aside)
        starts = {low, *(s for s in self._ends_in(whole, facing) if low <= s <= high - width)}
        strips = (looking(facing, ahead, (s, s + width)) for s in sorted(starts))
        return any(self.blocked_by(strip) is None for strip in strips)

    def _ends_in(self, strip: Bounded, facing: Facing) -> set[int]:
        """Whole mm about where the parts of each body, and of what is no room, end."""
        shape = _polygon(strip)
        near = shape.buffer(NEAR, join_style="mitre")
        found: set[int] = set()
        for body in [*(body for _, body in self.bodies), near.difference(self.scene.room)]:
            for part in _parts(body.intersection(shape)):
                x0, y0, x1, y1 = part.bounds
                end = math.floor(across(looking("up", (y0, y1), (x0, x1)), facing)[1])
                found |= {end, end + 1}
        return found


def _parts(shape: BaseGeometry) -> list[BaseGeometry]:
    return [p for p in getattr(shape, "geoms", [shape]) if not p.is_empty]


def _polygon(strip: Bounded) -> Polygon:
    return box(strip.x0, strip.y0, strip.x1, strip.y1)
