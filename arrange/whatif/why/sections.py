"""Straight lines through an arrangement, from wall to wall, and what they meet.

A line makes a sum only if all of it is asked for: bodies, and between them floor of
which someone needs every millimetre. Lengths in mm, all read off the finished shapes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from arrange.data.clash import Crossed, Member, Section
from arrange.data.piece import Clearance
from arrange.geometry import door_floor, fixture_keep, fixture_shape
from arrange.rules.who import the
from arrange.scene import HEAD, Placed, Scene
from arrange.whatif.why.most import Most

EDGE = 0.5  # mm; what is nearer than this is at the same place
WHOLE = 1e-3  # mm; sums are made of whole millimetres only
NARROW = 2  # mm; no line runs between two edges nearer than this


@dataclass(frozen=True)
class Shape:
    """A body, or floor asked for, with its words on a line across and on one up the plan."""

    outline: BaseGeometry
    across: str
    upward: str
    member: Member | None = None
    body: bool = False


@dataclass(frozen=True)
class Part:
    """A stretch of a line, from ``start`` to ``end`` mm."""

    start: float
    end: float
    of: Shape


class Sections:
    """Looks for a line that shows why there is not more than the most."""

    def __init__(self, most: Most) -> None:
        self.most, self.quantity = most, most.quantity
        self.scene = Scene(most.scenario, most.arrangement)
        self.bodies = list(self._bodies())
        self.floors = list(self._floors())

    def best(self) -> Section | None:
        """The line with the fewest parts that makes a sum; of several the roomiest."""
        found: list[tuple[int, float, Section]] = []
        for across in (True, False):
            for at, width in self._places(across):
                section = self._section(across, at)
                if section is not None:
                    rank = len(section.crossed) + bool(section.beside)
                    found.append((rank, -width, section))
        return min(found, key=lambda f: (f[0], f[1], f[2].start))[2] if found else None

    # -- what there is ---------------------------------------------------
    def _bodies(self) -> Iterator[Shape]:
        for placed in self.scene.placed:
            if not placed.piece.flat:
                member = Member("piece", placed.name)
                yield Shape(placed.body, placed.name, placed.name, member, body=True)
        for fixture in self.scene.scenario.room.fixtures:
            if fixture.solid and len(fixture.corners) >= 3 and fixture.bottom < HEAD:
                outline = fixture_shape(fixture)
                yield Shape(outline, fixture.name, fixture.name, body=True)

    def _floors(self) -> Iterator[Shape]:
        """Floor that is surely asked for where it lies."""
        scenario = self.scene.scenario
        for placed in self.scene.placed:
            for clearance in placed.piece.clearances:
                yield from self._clearance(placed, clearance)
        if not scenario.setting("door-floor").off:
            for door in scenario.room.doors:
                floor = door_floor(scenario.room, door, scenario.walkway)
                words = f"inside {the(door.name)}"
                yield Shape(floor, words, words)
        for fixture in scenario.room.fixtures:
            keep = fixture_keep(scenario.room, fixture)
            if not keep.is_empty and not fixture.burns:
                words = f"before {the(fixture.name)}"
                yield Shape(keep, words, words)

    def _clearance(self, placed: Placed, clearance: Clearance) -> Iterator[Shape]:
        """The strip, if it can lie on one side only: where there is a choice it may not count."""
        if clearance.least <= 0 or placed.placement.facing is None:
            return
        sides = self.scene.free_sides(placed, clearance, clearance.least)
        if len(sides) != 1:
            return
        side = sides[0]
        zone = self.scene.zone(placed, clearance, side, clearance.least)
        away = f"at the {side} of {the(placed.name)}"
        beside = f"along the {side} of {the(placed.name)}"
        sideways = placed.facing in ("left", "right")
        deep_across = (side in ("left", "right")) != sideways
        words = (away, beside) if deep_across else (beside, away)
        yield Shape(zone, *words, Member("clearance", placed.name, clearance.name))

    # -- lines -----------------------------------------------------------
    def _places(self, across: bool) -> list[tuple[float, float]]:
        """Where lines differ: the middles between all edges, and how wide apart those are."""
        axis = 1 if across else 0
        outlines = [self.scene.room, *(s.outline for s in (*self.bodies, *self.floors))]
        edges = sorted({round(p[axis], 3) for o in outlines for p in o.exterior.coords})
        return [((a + b) / 2, b - a) for a, b in pairwise(edges) if b - a > NARROW]

    def _section(self, across: bool, at: float) -> Section | None:
        x0, y0, x1, y1 = self.scene.room.bounds
        ends = ((x0 - 9, at), (x1 + 9, at)) if across else ((at, y0 - 9), (at, y1 + 9))
        line = LineString(ends)
        whole = _spans(self.scene.room, line, across)
        tried = [(span, "") for span in whole]
        for floor in self.floors:
            if floor.member is None:
                rest = _spans(self.scene.room.difference(floor.outline), line, across)
                words = f"the floor {floor.across}"
                tried += [(span, words) for span in rest if span not in whole]
        for (low, high), beside in tried:
            crossed = self._crossed(line, across, low, high)
            # Clearances may reach into such floor; bodies may not.
            if crossed and (not beside or (crossed[0].body and crossed[-1].body)):
                start, end = ((low, at), (high, at)) if across else ((at, low), (at, high))
                return Section(start, end, crossed, beside)
        return None

    def _crossed(
        self, line: LineString, across: bool, low: float, high: float
    ) -> tuple[Crossed, ...] | None:
        """What the line meets from wall to wall; None if that makes no sum."""
        bodies = _parts(self.bodies, line, across, low, high)
        floors = _parts(self.floors, line, across, low, high)
        at, parts = low, []
        for body in [*bodies, None]:
            start, end = (high, high) if body is None else (body.start, body.end)
            if start < at - EDGE:
                return None  # one above the other
            if start - at > EDGE:
                gap = self._gap(at, start, floors)
                if gap is None:
                    return None
                parts.append(gap)
            if body is not None:
                parts.append(body)
            at = end
        if any(abs(v - round(v)) > WHOLE for p in parts for v in (p.start, p.end)):
            return None
        crossed = tuple(self._as_asked(p, across) for p in parts)
        lack = sum(c.asked - (c.end - c.start) for c in crossed)
        return crossed if lack == self.quantity.asked - self.most.most else None

    def _gap(self, low: float, high: float, floors: Sequence[Part]) -> Part | None:
        """The floor between two bodies, if someone needs all of it."""
        full = [f for f in floors if abs(f.start - low) < EDGE and abs(f.end - high) < EDGE]
        lacks = [f for f in full if f.of.member == self.quantity.member]
        if full:
            return (lacks or full)[0]
        walks = self.quantity.member.kind == "walkway"
        if walks and abs(high - low - self.most.most) < EDGE:
            words = "to walk through"
            shape = Shape(LineString(), words, words, self.quantity.member)
            return Part(low, high, shape)
        return None

    def _as_asked(self, part: Part, across: bool) -> Crossed:
        """A stretch with the length asked for: more than is there for what lacks."""
        asked, quantity = round(part.end) - round(part.start), self.quantity
        if part.of.member == quantity.member and asked == self.most.most:
            if not quantity.side:
                asked = quantity.asked
            else:
                upright = self.scene.find(quantity.member.name).facing in ("up", "down")
                if (across == upright) == (quantity.side == "width"):
                    asked = quantity.asked
        words = part.of.across if across else part.of.upward
        return Crossed(words, round(part.start), round(part.end), asked, part.of.body)


def _spans(outline: BaseGeometry, line: LineString, across: bool) -> list[tuple[float, float]]:
    """Where a line runs inside a shape, as stretches along it."""
    met = outline.intersection(line)
    axis = 0 if across else 1
    runs = [list(p.coords) for p in getattr(met, "geoms", [met]) if p.length > EDGE]
    return sorted((min(q[axis] for q in r), max(q[axis] for q in r)) for r in runs)


def _parts(
    shapes: Sequence[Shape], line: LineString, across: bool, low: float, high: float
) -> list[Part]:
    """The stretches of a line that lie in the shapes, between two ends."""
    parts = [
        Part(a, b, shape)
        for shape in shapes
        for a, b in _spans(shape.outline, line, across)
        if a > low - EDGE and b < high + EDGE
    ]
    return sorted(parts, key=lambda p: (p.start, p.end, p.of.across))
