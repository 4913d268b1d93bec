"""The floor of the model: what stands on it, what must stay free, what may not meet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from ortools.sat.python import cp_model
from shapely import box as upright_box
from shapely import union_all
from shapely.geometry import Polygon

from arrange.data.piece import STANDING, Piece
from arrange.data.room import Room
from arrange.geometry.ceilings import low_floor, not_walked
from arrange.geometry.scene import HEAD
from arrange.geometry.shapes import fixture_shape, room_shape
from arrange.geometry.strips import reaches
from arrange.rules.rule import Region
from arrange.solver.boxes import (
    CACHED,
    PLAN,
    Box,
    FixedShape,
    Hull,
    convex_parts,
    in_no_overlap,
    keep_apart,
)
from arrange.solver.places import Place, Zone

BEYOND = 5000  # mm of "not the room" drawn round the outline
ROOMS = 256  # whose surroundings are remembered


@dataclass(frozen=True)
class Strip:
    """A box that nothing reaching between two heights in mm may share floor with."""

    box: Box
    heights: tuple[int, int]
    without: frozenset[str]

    def minds(self, piece: Piece) -> bool:
        """Whether the piece may not stand there."""
        return piece.name not in self.without and not piece.flat and reaches(piece, self.heights)


@dataclass
class FloorConstraints:
    """Room, regions, bodies and zones; ``finish`` adds what keeps them apart."""

    room: Room
    regions: Sequence[Region]
    places: dict[str, Place] = field(default_factory=dict)
    zones: list[Zone] = field(default_factory=list)
    free_boxes: list[Box] = field(default_factory=list)
    squares: list[tuple[Box, tuple[Polygon, ...]]] = field(default_factory=list)
    free_of_higher: list[tuple[Box, int]] = field(default_factory=list)
    strips: list[Strip] = field(default_factory=list)

    @property
    def outside(self) -> Polygon:
        """Everything near the room that is not room."""
        return outside_of(self.room)

    def off_limits(self, piece: Piece) -> list[Polygon]:
        """Shapes the body of ``piece`` must stay off."""
        return [self.outside, *[r.shape for r in self.regions if r.holds_off(piece)]]

    def not_usable(self, height: int, headroom: int) -> list[Polygon]:
        """Shapes that a clearance must stay off: free below a height, under so much ceiling."""
        return [
            self.outside,
            *[r.shape for r in self.regions if r.blocks_use and r.bottom < height],
            *low_floor(self.room, headroom),
        ]

    def in_the_way(self) -> list[Polygon]:
        """Shapes that a way must stay off: a beam that is ducked under is not among them."""
        return [
            self.outside,
            *[r.shape for r in self.regions if r.blocks_use and r.bottom < HEAD],
            *not_walked(self.room, STANDING),
        ]

    def parts(self, shapes: Sequence[Polygon]) -> tuple[FixedShape, ...]:
        """The shapes within the room's bounding box, as convex parts that do not overlap."""
        return _parts(tuple(shapes), self.room.bounds)

    def add_body(self, place: Place) -> None:
        """Remember a placed piece."""
        self.places[place.name] = place

    def finish(self, cp: cp_model.CpModel, *, boxed: bool) -> None:
        """Keep bodies apart, and zones free of bodies and of what is not floor.

        ``boxed`` has what is round keep the corners of its box.
        """
        bodies = list(self.places.values())
        for place in bodies:
            place.boxed = boxed
        standing = [p for p in bodies if p.piece.bottom == 0 and not p.piece.flat]
        _apart_all(cp, [b for p in standing for b in p.bodies])
        for i, one in enumerate(bodies):
            for two in bodies[i + 1 :]:
                if (one in standing and two in standing) or not one.piece.shares_space_with(
                    two.piece
                ):
                    continue
                _apart_each(cp, one.bodies, two.bodies)
        for place in bodies:
            if place.fixed_done:
                continue
            self._off(cp, place.bodies, self.off_limits(place.piece))
        for zone in self.zones:
            self._finish_zone(cp, zone, standing, bodies)
        self._finish_free(cp, standing)

    def _finish_free(self, cp: cp_model.CpModel, standing: list[Place]) -> None:
        """Keep boxes that must be free off what stands or hangs there."""
        for box in self.free_boxes:
            self._off(cp, [box], self.in_the_way())
            self._clear(cp, box)
        for box, off in self.squares:
            self._off(cp, [box], [*self.not_usable(HEAD, STANDING), *off])
            self._clear(cp, box)
        for box, height in self.free_of_higher:
            self._clear(cp, box, height)
        for strip in self.strips:
            self._open(cp, strip, standing)

    def _finish_zone(
        self, cp: cp_model.CpModel, zone: Zone, standing: list[Place], bodies: list[Place]
    ) -> None:
        if not zone.static_done:
            c = zone.clearance
            self._off(cp, zone.boxes, self.not_usable(c.height, c.headroom))
        others = [p for p in bodies if zone.clearance.minds(zone.piece, p.piece)]
        low = [b for p in others if p in standing for b in p.bodies]
        _apart_from(cp, zone.boxes, low)
        for place in others:
            if place not in standing:
                _apart_each(cp, zone.boxes, place.bodies)

    def _clear(self, cp: cp_model.CpModel, box: Box, height: int = 0) -> None:
        """Keep a box off every piece that stands or hangs low, and is higher than that."""
        pieces = [p for p in self.places.values() if not p.piece.flat and p.piece.top > height]
        low = [p for p in pieces if p.piece.bottom < HEAD]
        standing = [b for p in low if p.piece.bottom == 0 for b in p.bodies]
        _apart_from(cp, [box], standing)
        for place in low:
            if place.piece.bottom > 0:
                _apart_each(cp, [box], place.bodies)

    def _open(self, cp: cp_model.CpModel, strip: Strip, standing: list[Place]) -> None:
        """Keep a strip in the room and off everything of its heights."""
        high = [f for f in self.room.obstructions if reaches(f, strip.heights)]
        self._off(cp, [strip.box], [self.outside, *map(fixture_shape, high)])
        minded = [p for p in self.places.values() if strip.minds(p.piece)]
        _apart_from(cp, [strip.box], [b for p in minded if p in standing for b in p.bodies])
        for place in minded:
            if place not in standing:
                _apart_each(cp, [strip.box], place.bodies)

    def _off(
        self, cp: cp_model.CpModel, bodies: Sequence[Box | Hull], shapes: Sequence[Polygon]
    ) -> None:
        """Keep bodies off shapes. What leans may reach beyond the room's bounding box."""
        within = self.parts(shapes)
        upright = [p.upright for p in within if p.upright is not None]
        for body in bodies:
            leans = isinstance(body, Box) and body.axes is not PLAN
            parts = _everywhere(tuple(shapes)) if leans else within
            box = in_no_overlap(body)
            if box is not None and upright:
                xs = [box.interval(cp, 0)]
                ys = [box.interval(cp, 1)]
                for x0, y0, x1, y1 in upright:
                    xs.append(cp.new_fixed_size_interval_var(x0, x1 - x0, ""))
                    ys.append(cp.new_fixed_size_interval_var(y0, y1 - y0, ""))
                cp.add_no_overlap_2d(xs, ys)
            for part in parts:
                if box is not body or part.upright is None:
                    keep_apart(cp, body, part)


@lru_cache(ROOMS)
def outside_of(room: Room) -> Polygon:
    """Everything near a room that is not room."""
    x0, y0, x1, y1 = room.bounds
    near = upright_box(x0 - BEYOND, y0 - BEYOND, x1 + BEYOND, y1 + BEYOND)
    return near.difference(room_shape(room))


@lru_cache(CACHED)
def _parts(
    shapes: tuple[Polygon, ...], bounds: tuple[int, int, int, int]
) -> tuple[FixedShape, ...]:
    within = upright_box(*bounds)
    return tuple(convex_parts(union_all([s.intersection(within) for s in shapes])))


@lru_cache(CACHED)
def _everywhere(shapes: tuple[Polygon, ...]) -> tuple[FixedShape, ...]:
    """The same, as far beyond the room as anything in it reaches."""
    return tuple(convex_parts(union_all(list(shapes))))


def _in_no_overlap(bodies: Iterable[Box | Hull]) -> list[Box]:
    return [box for box in map(in_no_overlap, bodies) if box is not None]


def _is_upright(*bodies: Box | Hull) -> bool:
    """Whether no-overlap says all there is to say about them."""
    return all(isinstance(body, Box) and body.axes is PLAN for body in bodies)


def _apart_all(cp: cp_model.CpModel, bodies: list[Box | Hull]) -> None:
    plan = _in_no_overlap(bodies)
    cp.add_no_overlap_2d([b.interval(cp, 0) for b in plan], [b.interval(cp, 1) for b in plan])
    for i, one in enumerate(bodies):
        for two in bodies[i + 1 :]:
            alone = isinstance(one, Hull) and isinstance(two, Hull) and one.name == two.name
            if not _is_upright(one, two) and not alone:
                keep_apart(cp, one, two)


def _apart_from(cp: cp_model.CpModel, boxes: Sequence[Box], others: list[Box | Hull]) -> None:
    """Each box off all the others, which are apart from one another already."""
    plan = _in_no_overlap(others)
    for box in boxes:
        if box.axes is PLAN and plan:
            xs, ys = ([b.interval(cp, axis) for b in [box, *plan]] for axis in (0, 1))
            cp.add_no_overlap_2d(xs, ys)
        _apart_each(cp, [box], [b for b in others if not _is_upright(box, b)])


def _apart_each(
    cp: cp_model.CpModel, ones: Iterable[Box | Hull], twos: Sequence[Box | Hull]
) -> None:
    for one in ones:
        for two in twos:
            if isinstance(one, Box) and isinstance(two, Box) and _is_upright(one, two):
                cp.add_no_overlap_2d(
                    [one.interval(cp, 0), two.interval(cp, 0)],
                    [one.interval(cp, 1), two.interval(cp, 1)],
                )
            else:
                keep_apart(cp, one, two)
