"""How much is lacking in a conflict, in figures that a person can follow with a tape.

For one length of the set after another the most that can be had is found, the others as
asked, by halving: 1 mm more is proven impossible. The arrangement that has it is searched
for a straight line from wall to wall on which all is asked for: bodies, and between them
floor of which someone needs every millimetre. Its sum says what lacks. Where there is
none, the most that can be had is said by itself; both are proven, the sum is also read off
exact shapes. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, union_all
from shapely.geometry.base import BaseGeometry

from arrange.budget import SUM_QUESTION
from arrange.data.arrangement import Arrangement
from arrange.data.change import changed
from arrange.data.conflict import Arithmetic, Conflict, Crossed, Requirement, Section
from arrange.data.lengths import area, measured, short_by, summed
from arrange.data.scenario import Scenario
from arrange.data.sizes import DIMENSIONS
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import fixture_shape, room_shape
from arrange.rules import active_rules, all_regions
from arrange.rules.requirement import Quantity
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.requirements import keep_only, quantities, relaxed, shrinks

TRIED = 16  # quantities


@dataclass(frozen=True, slots=True)
class MaxFeasible:
    """At most ``most`` mm of a quantity, shown by an arrangement of ``scenario``.

    ``scenario`` has only the set's requirements, and the quantity brought down. ``proven``:
    1 mm more is impossible.
    """

    quantity: Quantity
    most: int
    scenario: Scenario
    arrangement: Arrangement
    proven: bool


def with_length(scenario: Scenario, quantity: Quantity, length: int) -> Scenario:
    """The scenario with the quantity at another length; what is held stays so."""
    return changed(scenario, [quantity.change(length)])


def max_feasible(
    scenario: Scenario,
    conflict: Conflict,
    quantity: Quantity,
    oracle: FeasibilityOracle,
    least: int = 0,
) -> MaxFeasible | None:
    """The most of one quantity that can be had; None if there is none at all, or no time.

    With ``least`` only that much or more is looked for, None if it cannot be had. A body that
    is held where it stands has no other size: None.
    """
    alone = keep_only(scenario, conflict.requirements)
    low = max(quantity.least, least)
    if low >= quantity.asked or with_length(alone, quantity, low).held != alone.held:
        return None
    first = oracle.decide(with_length(alone, quantity, low), seconds=SUM_QUESTION)
    if first.arrangement is None:
        return None
    high, shown, proven = quantity.asked, first.arrangement, True
    while high - low > 1:
        low = max(low, min(_had(alone, quantity, low, shown), high - 1))
        if high - low <= 1:
            break
        middle = (low + high) // 2
        answer = oracle.decide(with_length(alone, quantity, middle), seconds=SUM_QUESTION)
        if answer.arrangement is not None:
            low, shown = middle, answer.arrangement
        elif answer.answer == "impossible":
            high = middle
        else:
            proven = False
            break
    proven = proven and _none_above(alone, quantity, low, oracle)
    return MaxFeasible(quantity, low, with_length(alone, quantity, low), shown, proven)


def _none_above(alone: Scenario, quantity: Quantity, low: int, oracle: FeasibilityOracle) -> bool:
    """Whether no greater length works either, now that 1 mm more does not.

    A body that need not work where a larger one does asks for a proof of its own.
    """
    name = quantity.requirement.name
    sides = [d for d in DIMENSIONS if d == quantity.side]
    more = with_length(alone, quantity, low + 1)
    for side in sides:
        if not shrinks(more, name, side):
            case = relaxed(more, name, side)
            return case is not None and (
                oracle.decide(case, seconds=SUM_QUESTION).answer == "impossible"
            )
    return True


def _had(alone: Scenario, quantity: Quantity, low: int, shown: Arrangement) -> int:
    """How much of it an arrangement has, if that can be told and walkways do not mind."""
    if quantity.had is None or alone.walks:
        return low
    return max(low, quantity.had(Scene(with_length(alone, quantity, low), shown)))


EDGE = 0.5  # mm; what is nearer than this is at the same place
WHOLE = 1e-3  # mm; sums are made of whole millimetres only
NARROW = 2  # mm; no line runs between two edges nearer than this


@dataclass(frozen=True)
class Shape:
    """A body, or floor asked for, with its words on a line across and on one up the plan."""

    outline: BaseGeometry
    across: str
    upward: str
    requirement: Requirement | None = None
    body: bool = False


@dataclass(frozen=True)
class Part:
    """A stretch of a line, from ``start`` to ``end`` mm."""

    start: float
    end: float
    of: Shape


class Sections:
    """Looks for a line that shows why there is not more than the most."""

    def __init__(self, most: MaxFeasible) -> None:
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
                requirement = Requirement("piece", placed.name)
                yield Shape(placed.body, placed.name, placed.name, requirement, body=True)
        for fixture in self.scene.scenario.room.obstructions:
            if fixture.bottom < HEAD and not fixture.hangs:
                outline = fixture_shape(fixture)
                yield Shape(outline, fixture.name, fixture.name, body=True)

    def _floors(self) -> Iterator[Shape]:
        """Floor that is surely asked for where it lies; that of pieces first."""
        asked = [f for r in active_rules(self.scene.scenario) for f in r.asked_floor(self.scene)]
        for floor in sorted(asked, key=lambda f: f.requirement is None):
            yield Shape(floor.outline, floor.across, floor.upward, floor.requirement)

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
            if floor.requirement is None:
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
        lacks = [f for f in full if f.of.requirement == self.quantity.requirement]
        if full:
            return (lacks or full)[0]
        words = self.quantity.gap
        if words and abs(high - low - self.most.most) < EDGE:
            shape = Shape(LineString(), words, words, self.quantity.requirement)
            return Part(low, high, shape)
        return None

    def _as_asked(self, part: Part, across: bool) -> Crossed:
        """A stretch with the length asked for: more than is there for what lacks."""
        asked, quantity = round(part.end) - round(part.start), self.quantity
        if part.of.requirement == quantity.requirement and asked == self.most.most:
            if not quantity.side:
                asked = quantity.asked
            else:
                upright = self.scene.find(quantity.requirement.name).facing in ("up", "down")
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


NO_SUM = "You cannot have all of these, however the pieces stand (proven); no simple sum shows it."
NO_SUM_YET = "No sum was found in the time."


def arithmetic(scenario: Scenario, conflict: Conflict, oracle: FeasibilityOracle) -> Arithmetic:
    """What lacks, in figures; within the time of the oracle.

    The sum of a section is what is there plus exactly what lacks. Without a section:
    a sum of heights or of floor, else the most that can be had of one length, else a
    plain sentence. Of several sections the one that lacks least.
    """
    alone = keep_only(scenario, conflict.requirements)
    plain = next(filter(None, (rule.plain_sum(alone) for rule in active_rules(alone))), "")
    if plain:
        return Arithmetic("", proven=True, sum=plain)
    best: tuple[MaxFeasible, Section] | None = None
    spare: MaxFeasible | None = None
    for quantity in quantities(scenario, conflict.requirements)[:TRIED]:
        if oracle.left <= 0:
            break
        # Once there is a sum, only what lacks less is of interest: one question mostly.
        least = 0 if best is None else quantity.asked - _lack(best[0]) + 1
        most = max_feasible(scenario, conflict, quantity, oracle, least)
        if most is None:
            continue
        section = Sections(most).best() if most.proven else None
        if section is not None:
            best = (most, section)
        elif spare is None or (not most.proven, _lack(most)) < (not spare.proven, _lack(spare)):
            spare = most
    if best is not None:
        return _of(scenario, *best)
    if floor := _floor(alone):
        return Arithmetic("", proven=True, sum=floor)
    if spare is not None:
        return _of(scenario, spare, None)
    # With no time left, or a set that may be none, nothing is known of a sum.
    return Arithmetic(NO_SUM if conflict.confirmed and oracle.left > 0 else NO_SUM_YET)


def _lack(most: MaxFeasible) -> int:
    return most.quantity.asked - most.most


def _of(scenario: Scenario, most: MaxFeasible, section: Section | None) -> Arithmetic:
    quantity = most.quantity
    return Arithmetic(
        _most_words(scenario, most),
        quantity.requirement,
        quantity.asked,
        most.most,
        most.proven,
        quantity.side,
        most.arrangement,
        section,
        "" if section is None else sum_words(scenario, section),
    )


def sum_words(scenario: Scenario, section: Section) -> str:
    """The sum along a section, and which way it runs: what is asked for, there, and lacks."""
    unit = scenario.unit
    told = summed([part.asked for part in section.crossed], unit)
    parts = " + ".join(part_words(p, asked) for p, asked in zip(section.crossed, told, strict=True))
    if len(section.crossed) > 1:
        parts += f" = {measured(section.asked, unit)}"
    there = measured(section.there, unit, "down")
    lack = short_by(section.asked, section.there, unit)
    (x0, _), (x1, _) = section.start, section.end
    where = f" beside {section.beside}" if section.beside else " there"
    way = "from top to bottom" if x0 == x1 else "from left to right"
    said = f"{parts}; {way} on the plan the room has only {there}{where}: {lack} too little."
    return said[:1].upper() + said[1:]


def part_words(part: Crossed, asked: str) -> str:
    """What one stretch of a section is, and how much is asked for there."""
    return f"{part.what} {asked}" if part.body else f"{asked} {part.what}"


def _most_words(scenario: Scenario, most: MaxFeasible) -> str:
    """Of what is asked, how much can be had when the rest holds."""
    unit, what = scenario.unit, most.quantity.words
    size = measured(most.most, unit, "down")
    if not most.proven:
        return (
            f"With the rest as you asked, there is room for {size} of the {what}; whether there "
            "is room for more was not decided in the time."
        )
    room = f"room for {size} at most of" if most.most else "no room at all for"
    return f"With the rest as you asked, there is {room} the {what}, however the pieces stand."


def _floor(alone: Scenario) -> str:
    """The sum of floor, where the bodies take more than they may stand on at all."""
    bodies, unit = [p for p in alone.pieces if not p.flat and p.bottom == 0], alone.unit
    kept = [r.shape for r in all_regions(alone) if all(r.holds_off(p) for p in bodies)]
    room = room_shape(alone.room)
    there = room.difference(union_all(kept)).area if kept else room.area
    asked = sum(p.width * p.depth for p in bodies)
    if asked <= there or len(bodies) < 2:
        return ""
    parts = " + ".join(f"{p.name} {area(p.width * p.depth, unit)}" for p in bodies)
    return f"{parts} = {area(asked, unit)} of floor; {area(there, unit)} is free to stand on."
