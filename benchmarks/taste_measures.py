"""The twenty-five things a decorator never draws, each as one function over a plan.

Definitions and figures are our own judgement, held against furnished rooms; a docstring gives
its definition in short, with what is left out and why. Ranks: A first of all, B, C. Lengths in
mm inside, in cm in what is said.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations, permutations
from typing import NamedTuple

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from benchmarks.taste_plan import (
    BEDS,
    BEDSIDES,
    COTS,
    DESKS,
    DINING,
    DINING_CHAIRS,
    FAR,
    FIRES,
    HALL,
    HEATERS,
    LAMPS,
    LIGHTEST,
    LOUNGE,
    LOW,
    LOW_TABLES,
    MIRRORS,
    MOVED_CHAIRS,
    OVER_SEAT,
    SMALL,
    SOFAS,
    STORES,
    SURFACES,
    WARDROBES,
    Opening,
    Plan,
    Thing,
    Vector,
    Wall,
    between,
    dot,
    overlap,
    plus,
    taped,
    towards,
    unit,
)


class Found(NamedTuple):
    """One fault of a plan: its rank, the pieces it is about, and what is wrong with figures."""

    rank: str
    pieces: tuple[str, ...]
    text: str


Measure = Callable[[Plan], Iterator[Found]]
CLOSE = 20.0  # mm; within this of an axis, or flush
GAP_CLOSED = 40.0  # mm
LIVING = ("living", "living and dining", "one room")


def cm(mm: float) -> str:
    """A length as it is said: 1234 mm is "123.4 cm", 800 mm "80 cm"."""
    return f"{round(mm / 10, 1):g} cm"


def found(rank: str, text: str, *things: Thing) -> Found:
    """A fault about these pieces."""
    return Found(rank, tuple(t.name for t in things), text)


# ---------------------------------------------------------------- 1 to 5


def _off(seat: Thing, target: Vector, facing: Vector | None) -> float:
    """How far the target is off the seat's facing, and the seat off the target's: the worse."""
    way = towards(seat.front, target)
    back = 0.0 if facing is None else between(facing, (-way[0], -way[1]))
    return max(between(seat.ahead, way), back)


def _view_range(screen: Thing) -> tuple[float, float]:
    """Nearest and farthest for full points: 1.2 to 2.2 diagonals, else 150 to 300.

    43 inches is what a piece has that said nothing, so it counts as unknown.
    """
    if screen.screen and screen.screen != round(43 * 25.4):
        return 1.2 * screen.screen, 2.2 * screen.screen
    return 1500, 3000


def _eye(bed: Thing) -> Vector:
    """Where the head lies."""
    return plus(bed.back, (250, bed.ahead))


def viewers(plan: Plan) -> list[Thing]:
    """Who looks at the screen: the widest sofas, else the beds, else the widest seats."""
    for kinds in (SOFAS, BEDS, LOUNGE):
        if seats := plan.of(kinds):
            widest = max(s.width for s in seats)
            return seats if kinds is BEDS else [s for s in seats if s.width == widest]
    return []


def view(plan: Plan) -> Iterator[Found]:
    """From the main seat the screen or fire is within 45 degrees of its facing, and it of theirs.

    Distance front to front 1.2 to 2.2 diagonals, 150 to 300 where the size is unknown; a sixth
    more or 15 % less loses points and is no fault. From a bed the screen within 45 degrees of its
    axis. With fire and screen one is ahead, the other within 60. *Not*: rooms with neither.
    """
    seats = viewers(plan)
    if not seats:
        return
    screen = next(iter(plan.screens), None)
    fires = [f for f in plan.fixtures if f.kind in FIRES and f.at is not None]
    if seats[0].kind in BEDS:
        if screen is not None:
            offs = {b.name: between(b.ahead, towards(_eye(b), screen.middle)) for b in seats}
            bed = min(seats, key=lambda b: offs[b.name])
            if offs[bed.name] > 45:
                text = f"the screen is {offs[bed.name]:.0f} degrees off the axis"
                yield found("A", text, bed, screen)
        return
    marks = [(screen.middle, screen.ahead)] if screen else []
    marks += [(f.at, f.wall.inward if f.wall else None) for f in fires if f.at]
    if not marks:
        return
    seat = min(seats, key=lambda s: min(_off(s, at, facing) for at, facing in marks))
    angles = sorted(_off(seat, at, facing) for at, facing in marks)
    if angles[0] > 45 or angles[-1] > (60 if len(marks) > 1 else 45):
        worst = angles[0] if angles[0] > 45 else angles[-1]
        what = (screen,) if screen else ()
        yield found("A", f"seat and view are {worst:.0f} degrees off facing", seat, *what)
    elif screen is not None:
        near, far = _view_range(screen)
        gap = seat.edge("front").distance(screen.edge("front"))
        if not near * 0.85 <= gap <= far * 7 / 6:
            said = f"{cm(gap)} from seat to screen, {cm(near)} to {cm(far)} wanted"
            yield found("A", said, seat, screen)


def line(plan: Plan) -> Iterator[Found]:
    """Between the middle 60 % of the seat's front and 80 % of the screen nothing is over 60 high.

    By more than 5. A way from door to door across it is B. Left to the view where that is a
    fault already.
    """
    seats, screen = viewers(plan), next(iter(plan.screens), None)
    if not seats or screen is None or any(view(plan)):
        return
    seat = min(seats, key=lambda s: _off(s, screen.middle, screen.ahead))
    side = "front" if seat.kind not in BEDS else "back"
    ends = [*seat.edge(side, 0.6).coords, *screen.edge("front", 0.8).coords]
    shape = shapely.MultiPoint(ends).convex_hull
    for thing in plan.things:
        if thing in (seat, screen) or thing.flat or thing.top <= LOW or thing.bottom >= 1200:
            continue
        if not thing.shape.intersection(shape).buffer(-25).is_empty:
            text = f"it stands {cm(thing.top)} high in the line from seat to screen"
            yield found("A", text, thing, seat, screen)
    for one, other, way in plan.lanes:
        if way.intersection(shape).length > 50:
            text = f"the way from {one.name} to {other.name} crosses the line to the screen"
            yield found("B", text, seat, screen)


def behind_door(plan: Plan) -> Iterator[Found]:
    """No more than 30 % of a front lies behind the open leaf, nor of its floor in the swing.

    Behind: from the hinge away from the opening, as far as the side wall or the leaf's width,
    and as far in as the leaf is wide. *Not*: a mirror or shelf up to 12 deep (C).
    """
    for door in plan.doors:
        if door.hinge is None:
            continue
        at, away = door.hinge
        reach = min(door.width, plan.ray(plus(at, (1, away), (5, door.wall.inward)), away, []) + 1)
        inward = door.wall.inward
        behind = Polygon(
            [at, plus(at, (reach, away)), plus(at, (reach, away), (door.width, inward)),
             plus(at, (door.width, inward))]
        )  # fmt: skip
        for thing in plan.things:
            if (
                thing.flat
                or thing.kind in MOVED_CHAIRS
                or thing.bottom >= door.data.get("height", 2000)
            ):
                continue
            edge = thing.edge("front")
            hidden = edge.intersection(behind.buffer(1)).length / edge.length
            used = thing.strip("front", 450) if thing.kind in STORES | HALL | MIRRORS else Polygon()
            swept = used.intersection(door.swing).area / used.area if used.area else 0.0
            if max(hidden, swept) > 0.3:
                rank = "C" if thing.depth <= 120 else "B"
                where = (
                    "of its front is behind" if hidden > 0.3 else "of its floor is in the swing of"
                )
                yield found(rank, f"{max(hidden, swept):.0%} {where} {door.name}", thing)


def _gutter_at(plan: Plan, thing: Thing, side: str, low: float, high: float) -> float | None:
    """How wide the gutter beside a side is; None without one. ``high`` itself is none."""
    moved = (*plan.of(SMALL), *plan.of(MOVED_CHAIRS))
    others = plan.obstacles(thing, *moved, over=OVER_SEAT)
    far = plan.profile(thing, side, others)
    inside = (far >= low) & (far < high)
    if inside.mean() < 0.5:
        return None
    wide = float(np.median(far[inside]))
    strip = thing.strip(side, wide)
    small = shapely.union_all([t.shape for t in plan.things if t is not thing and not t.flat])
    pipes = shapely.union_all(
        [f.shape for f in plan.fixtures if f.kind in ("radiator", "boxed pipe")]
    )
    if strip.intersection(small).area >= 0.7 * strip.area:
        return None
    return None if wide < 250 and strip.buffer(1).intersects(pipes) else wide


def gutter(plan: Plan) -> Iterator[Found]:
    """No gap of 4 to 30 at a bed's long side, a sofa's end or a tall side; 11 to 44 behind seats.

    To a wall or something over 70 high, along half the length. *Not*: equal both sides within
    2; filled to 70 %; a radiator or pipe there (to 25). Curtains are not known. Lamps, plants
    and mirrors have no sides where anything is lost. Chairs at a table or a desk are pulled out
    and pushed in, and close no gap.
    """
    told: set[frozenset[str]] = set()
    for thing in plan.things:
        if thing.flat or thing.bottom >= OVER_SEAT or thing.kind in SMALL | MIRRORS:
            continue
        if thing.kind in BEDS | SOFAS or thing.tall:
            wide = {s: _gutter_at(plan, thing, s, GAP_CLOSED, 300) for s in ("left", "right")}
            left, right = wide["left"], wide["right"]
            if left and right and abs(left - right) <= CLOSE:
                continue
            for side, gap in wide.items():
                beside = _beside(plan, thing, side) if gap else None
                pair = frozenset({thing.name, beside.name if beside else f"{side} of {thing.name}"})
                if gap and pair not in told:
                    told.add(pair)
                    others = (beside,) if beside else ()
                    yield found("B", f"a gutter of {cm(gap)} on its {side} side", thing, *others)
        if thing.kind in LOUNGE and (gap := _gutter_at(plan, thing, "back", 110, 440)):
            yield found("B", f"a gutter of {cm(gap)} behind it", thing)


def _beside(plan: Plan, thing: Thing, side: str) -> Thing | None:
    strip = thing.strip(side, 300)
    near = [
        t for t in plan.things
        if t is not thing and t.kind not in SMALL and t.stands and t.top > OVER_SEAT
        and strip.intersection(t.shape).area > 1000
    ]  # fmt: skip
    return min(near, key=lambda t: t.shape.distance(thing.shape), default=None)


def _used_sides(thing: Thing) -> tuple[str, ...]:
    if thing.kind in BEDS and thing.kind != "daybed":
        return "left", "right"
    fronts = STORES | LOUNGE | DESKS | MIRRORS | HALL | {"piano", "changing table", "daybed"}
    return (
        ("front",)
        if thing.kind in fronts - {"laundry basket"}
        else ("front", "back", "left", "right")
    )


def _reached_sides(thing: Thing, floor: BaseGeometry) -> list[str]:
    """The sides it is used from that the floor walked on comes within 10 cm of."""
    share = (
        (500 / thing.depth, 1.0) if thing.kind in BEDS and thing.kind != "daybed" else (0.0, 1.0)
    )
    return [
        s
        for s in _used_sides(thing)
        if thing.strip(s, 100, share if s in ("left", "right") else (0.0, 1.0))
        .intersection(floor)
        .area
        > 100
    ]


def reach(plan: Plan) -> Iterator[Found]:
    """A way of 45 comes within 10 of each piece's side of use; one of 30 within 50 of small things.

    The 50 to beds and main seats may pinch to 45, so 45 is asked throughout. Chairs that are
    moved anyway are in nobody's way. A bed for two may have one side, at a cost. Bedside tables
    stand within 30 of the pillow end; nothing is stored in the only strip beside a bed.
    """
    floor, narrow = plan.swept(450), plan.swept(300)
    for thing in plan.things:
        if not thing.stands or thing.kind in MOVED_CHAIRS | BEDSIDES or thing.bottom > OVER_SEAT:
            continue
        sides = _reached_sides(thing, floor)
        if thing.kind in SMALL:
            sides = ["any"] if thing.shape.distance(narrow) <= 500 else []
        if not sides:
            yield found("A", "no way leads to a side it is used from", thing)
        elif len(sides) == 1 and thing.kind in BEDS and sides[0] in ("left", "right"):
            strip = thing.strip(sides[0], 400, (500 / thing.depth, 1.0))
            for store in plan.of(STORES - BEDSIDES):
                if store.stands and store.shape.intersection(strip).area > 1000:
                    yield found("A", "it stands in the only strip beside the bed", store, thing)
    for table in plan.of(BEDSIDES):
        far, bed = min(
            ((b.pillow.distance(table.shape), b.name) for b in plan.of(BEDS)), default=(0, "")
        )
        if far > 300:
            yield Found("A", (table.name, bed), f"{cm(far)} from the pillow end")


# ---------------------------------------------------------------- 6 to 10


def _facing_piece(plan: Plan, thing: Thing) -> Thing | None:
    """What a seat, bed, screen or sideboard has before it: screen, main seat or dining table."""
    if thing.kind == "sideboard":
        tables = [t for t in plan.of(DINING) if thing.local(t.middle)[1] > 0
                  and overlap(t.span(thing.across), thing.span(thing.across)) >= 200]  # fmt: skip
        return min(tables, key=lambda t: math.dist(t.middle, thing.middle), default=None)
    others = viewers(plan) if thing in plan.screens else plan.screens
    ahead = [o for o in others if o is not thing and between(thing.ahead, o.ahead) > 175
             and abs(thing.local(o.middle)[0]) < thing.width / 2 + o.width / 2]  # fmt: skip
    return min(ahead, key=lambda o: math.dist(o.middle, thing.middle), default=None)


def _stretch(plan: Plan, thing: Thing, wall: Wall, *, windows: bool) -> tuple[float, float]:
    """The free wall round a piece: to the next corner, opening or tall piece."""
    low, high = wall.spot(thing)
    blocks = [d.span for d in plan.doors if d.wall.name == wall.name]
    blocks += [w.span for w in plan.windows if windows and w.wall.name == wall.name]
    blocks += [
        wall.spot(t)
        for t in plan.things
        if t is not thing and t.tall and plan.wall_behind(t) is not None
        and LineString([wall.left, wall.right]).distance(t.shape) < 100
    ]  # fmt: skip
    start = max((b for a, b in blocks if b <= low + 1), default=0.0)
    end = min((a for a, b in blocks if a >= high - 1), default=wall.length)
    return start, end


def _axes(plan: Plan, thing: Thing, wall: Wall | None) -> Iterator[tuple[str, float]]:
    """Names of the axes a piece can be on, and how far off its middle is, along its width."""
    if (faced := _facing_piece(plan, thing)) is not None:
        yield faced.name, abs(thing.local(faced.middle)[0])
    for one in plan.of({"rug"}):
        if one.shape.intersects(thing.strip("front", 300)) and thing.kind in SOFAS:
            yield one.name, abs(thing.local(one.middle)[0])
    for fire in plan.fixtures:
        if fire.kind in FIRES and fire.at and wall is not None:
            yield fire.name, abs(thing.local(fire.at)[0])
    if wall is not None:
        low, high = wall.spot(thing)
        yield from ((n, abs(at - (low + high) / 2)) for n, at in _wall_axes(plan, thing, wall))


def _wall_axes(plan: Plan, thing: Thing, wall: Wall) -> Iterator[tuple[str, float]]:
    """The axes of the wall behind a piece: windows, free wall, wall; from the wall's left end."""
    behind = [w for w in plan.windows if w.wall.name == wall.name]
    for window in behind:
        if overlap(window.span, wall.spot(thing)) > 0:
            yield window.name, sum(window.span) / 2
    for one, other in combinations(behind, 2):
        yield f"{one.name} and {other.name}", (sum(one.span) + sum(other.span)) / 4
    for windows in (False, True):
        yield "the free wall", sum(_stretch(plan, thing, wall, windows=windows)) / 2
    yield f"wall {wall.name}", wall.length / 2
    parts = [w for w in plan.walls if w.part_of == wall.part_of]
    start = dot(wall.left, wall.along)
    ends = [dot(p, wall.along) - start for w in parts for p in (w.left, w.right)]
    yield f"wall {wall.part_of}", (min(ends) + max(ends)) / 2


def _flush(plan: Plan, thing: Thing, wall: Wall | None) -> bool:
    """Whether an end touches a corner, an opening's edge or a neighbour, or lines up with one."""
    sides = [plan.profile(thing, s, plan.obstacles(thing)).min() for s in ("left", "right")]
    if min(sides) <= CLOSE:
        return True
    if wall is None:
        return False
    low, high = wall.spot(thing)
    edges = [e for o in (*plan.doors, *plan.windows) if o.wall.name == wall.name for e in o.span]
    return any(abs(end - e) <= CLOSE for end in (low, high) for e in edges)


def nearly(plan: Plan) -> Iterator[Found]:
    """Bed, sofa, screen, sideboard, coffee table: on an axis, flush, or clearly off; not 2 to 15.

    Axes: the piece it faces (a sideboard its table), its rug, fire, window or pair of windows,
    free wall, wall. A
    coffee table has its seat's. The nearest axis counts, and two that miss one another once.
    Dining tables have a measure of their own.
    """
    told: set[frozenset[str]] = set()
    for thing in plan.things:
        if thing.kind in BEDS | SOFAS | {"sideboard"} or thing in plan.screens:
            wall = plan.wall_behind(thing)
            axes = sorted(
                ((off, name) for name, off in _axes(plan, thing, wall)), key=lambda a: a[0]
            )
            pair = frozenset({thing.name, axes[0][1]}) if axes else frozenset()
            astray = axes and CLOSE <= axes[0][0] <= 150 and not _flush(plan, thing, wall)
            if astray and pair not in told:
                told.add(pair)
                yield found("C", f"{cm(axes[0][0])} off the middle of {axes[0][1]}", thing)
        elif thing.kind == "coffee table":
            seat = plan.named(thing.host) or getattr(plan.group_of(thing), "main", None)
            if seat is None or seat.kind not in LOUNGE:
                continue
            right, ahead = seat.local(thing.middle)
            half = thing.span(seat.across)
            flush = abs(seat.width / 2 - abs(right) - (half[1] - half[0]) / 2) <= CLOSE
            if ahead > 0 and CLOSE <= abs(right) <= 150 and not flush:
                yield found("C", f"{cm(abs(right))} off the middle of {seat.name}", thing, seat)


def _chairs_of(plan: Plan, table: Thing) -> list[Thing]:
    group = next((g for g in plan.groups if g.main is table), None)
    return [t for t in group.members if t is not table] if group else []


def _pulled_out(plan: Plan, table: Thing, chairs: Sequence[Thing]) -> Iterator[Thing]:
    """The chairs that have no 58 cm from the table's edge behind them."""
    others = plan.obstacles(table, *chairs)
    for chair in chairs:
        side = min(
            ("front", "back", "left", "right"),
            key=lambda s: table.edge(s).distance(Point(chair.middle)),
        )
        _, _, out = table.side(side)
        gap = chair.shape.distance(table.edge(side))
        start = plus(chair.back, (1, out))
        room = gap + chair.depth + plan.ray(start, out, others)
        if (
            between(chair.ahead, (-out[0], -out[1])) < 5
            and room < 580 - 1
            and chair.kind in DINING_CHAIRS
        ):
            yield chair


def table(plan: Plan) -> Iterator[Found]:
    """A dining table's middle within 30 of its light, else within 20 % of its zone's middle.

    Its long side along the zone's, in rooms to eat in alone: where people sit or sleep besides,
    that rectangle changes with every chair, and a table lies well either way. 58 from its edge
    for each chair. Zone: the largest free
    rectangle round it and its chairs. *Not*: two seats at a wall, a bench, one-room flats
    (chairs still pull out).
    """
    for one in plan.of(DINING - {"bar table"}):
        chairs = _chairs_of(plan, one)
        if stuck := list(_pulled_out(plan, one, chairs)):
            yield found("B", "no 58 cm to pull the chair out", one, *stuck)
        at_wall = one.kind == "dining table for two" and plan.profile(one, "back", []).min() < 100
        if plan.purpose == "one room" or at_wall or any(c.kind == "dining bench" for c in chairs):
            continue
        hull = shapely.union_all([t.shape for t in (one, *chairs)])
        zone = plan.zone(hull, (one, *chairs)) or plan.zone(one.shape, (one, *chairs))
        if zone is None:
            continue
        yield from _centred(plan, one, zone)


def _centred(plan: Plan, one: Thing, zone: tuple[float, float, float, float]) -> Iterator[Found]:
    left, low, right, high = zone
    wide, deep = right - left, high - low
    x, y = one.middle
    lights = [f for f in plan.fixtures if f.kind == "light point" and f.at
              and left <= f.at[0] <= right and low <= f.at[1] <= high]  # fmt: skip
    if lights:
        light = min(lights, key=lambda f: math.dist(f.at or (0, 0), one.middle))
        off = math.dist(light.at or (0, 0), one.middle)
        if off > 300:
            yield found("B", f"{cm(off)} off {light.name}", one)
        return
    off_x, off_y = x - (left + right) / 2, y - (low + high) / 2
    if abs(off_x) > 0.2 * wide or abs(off_y) > 0.2 * deep:
        text = f"{cm(math.hypot(off_x, off_y))} off the middle of its {cm(wide)} x {cm(deep)}"
        yield found("B", text, one)
    spans = [b - a for a, b in (one.span((1, 0)), one.span((0, 1)))]
    alone = not plan.of(SOFAS | BEDS) and len(plan.of(LOUNGE)) < 2
    long = alone and min(wide, deep) * 1.2 < max(wide, deep) and min(spans) * 1.2 < max(spans)
    if long and (wide > deep) != (spans[0] > spans[1]):
        yield found("B", "its long side lies across its part of the room", one)


def _rug_of(plan: Plan, rug: Thing) -> Thing | None:
    """What a rug lies at: what it is tied to, else what stands on it, else the nearest seat."""
    if (host := plan.named(rug.host)) is not None:
        return host
    on = [t for t in plan.of(DINING | BEDS | SOFAS) if t.shape.intersects(rug.shape)]
    near = [t for t in plan.of(LOUNGE) if t.shape.distance(rug.shape) < 500]
    return max([*on, *near], key=lambda t: t.shape.intersection(rug.shape).area, default=None)


def _beyond(rug: Thing, host: Thing) -> list[tuple[float, float]]:
    """How far a rug reaches beyond a table, to either side along both directions."""
    spans = [(rug.span(v), host.span(v)) for v in (host.across, host.ahead)]
    return [(table_[0] - mine[0], mine[1] - table_[1]) for mine, table_ in spans]


def _holds(rug: Thing, host: Thing) -> bool:
    """Whether it is large enough to reach 60 beyond the table all round."""
    return all(sum(pair) >= 1200 for pair in _beyond(rug, host))


def _on_rug(plan: Plan, rug: Thing, host: Thing | None) -> Iterator[Found]:
    legs_off = DINING | DESKS if host is None or host.kind not in DINING else DESKS
    for one in plan.of(legs_off):
        legs = [one.local(p) for p in one.shape.exterior.coords[:4]]
        inset = [plus(one.middle, (0.9 * a, one.across), (0.9 * b, one.ahead)) for a, b in legs]
        on = sum(rug.shape.contains(Point(p)) for p in inset)
        if 0 < on < len(inset):
            yield found("C", f"{on} of its legs on the rug", one, rug)
    standing = shapely.union_all([t.shape for t in plan.things if t.stands and t.bottom < 100])
    covered = rug.shape.intersection(standing).area / rug.shape.area
    small = host is not None and host.kind in DINING and not _holds(rug, host)
    if covered > 0.7 and not small:
        yield found("C", f"{covered:.0%} covered", rug)
    for door in plan.doors:
        if rug.shape.exterior.intersection(door.swing).length > 50:
            yield found("C", f"its edge lies in the swing of {door.name}", rug)


def rug(plan: Plan) -> Iterator[Found]:
    """Rugs: no desk or table half on, not 70 % covered, the main seat's front 10 to 40 on it.

    Middle within 10 of the group's, 60 beyond a dining table, edge in no leaf's swing. A runner
    (over twice as long as wide) across no way. *Not*: rugs too small for that.
    """
    for one in plan.of({"rug"}):
        host = _rug_of(plan, one)
        yield from _on_rug(plan, one, host)
        if host is not None and host.kind in LOUNGE:
            across, _ = host.local(one.middle)
            spans = one.span(host.ahead), one.span(host.across)
            on = dot(host.front, host.ahead) - spans[0][0]
            if not 99 <= on <= 401:
                yield found("C", f"the seat is {cm(on)} on the rug, 10 to 40 wanted", one, host)
            if abs(across) > 100:
                yield found("C", f"its middle is {cm(abs(across))} off the group's", one, host)
        elif host is not None and host.kind in DINING:
            least = min(map(min, _beyond(one, host)))
            if _holds(one, host) and least < 599:
                yield found("C", f"{cm(least)} beyond the table", one, host)
        if max(one.width, one.depth) > 2 * min(one.width, one.depth):
            for first, second, way in plan.lanes:
                if way.crosses(one.shape):
                    yield found("C", f"across the way from {first.name} to {second.name}", one)


def _light_needed(plan: Plan, one: Thing) -> list[tuple[float, Thing, bool]]:
    """Seats, pillows and desks: how far from a lamp, which, and whether it is before them."""
    rows = []
    for host in plan.of(LOUNGE | BEDS | DESKS):
        far = (host.pillow if host.kind in BEDS else host.shape).distance(one.shape)
        right, ahead = host.local(one.middle)
        before = ahead > host.depth / 2 and abs(right) < host.width / 2 and host.kind not in DESKS
        rows.append((far, host, before))
    return sorted(rows, key=lambda row: row[0])


def lamp(plan: Plan) -> Iterator[Found]:
    """A lamp within 60 of a seat, pillow or desk, beside or behind it; one each before two.

    *Not*: a pair at a sofa or bed; rooms where nobody sits or lies. Near a cot it is counted there.
    """
    lit: dict[str, list[Thing]] = {}
    reached: set[str] = set()
    for one in plan.of(LAMPS):
        rows = _light_needed(plan, one)
        near = [row for row in rows if row[0] <= 600]
        reached |= {host.name for _, host, _ in near}
        if rows and not near:
            text = f"nobody within 60 cm of it, {rows[0][1].name} {cm(rows[0][0])} away"
            yield found("C", text, one)
        elif near and all(before for *_, before in near):
            yield found("C", f"it stands before {near[0][1].name}", one, near[0][1])
        elif near:
            lit.setdefault(near[0][1].name, []).append(one)
    dark = [t for t in plan.of(LOUNGE | DESKS) if t.name not in reached]
    pairs = {t.name for t in plan.of(SOFAS | BEDS)}
    for name, lamps in lit.items():
        if len(lamps) > 1 and dark and name not in pairs:
            yield found("C", f"two lamps where {dark[0].name} has none", *lamps, dark[0])


def _mirrored(plan: Plan, one: Thing, other: Thing) -> bool:
    """Whether two alike pieces stand equally either side of an axis of something that matters."""
    for along in ((1.0, 0.0), (0.0, 1.0)):
        across = (along[1], along[0])
        level = abs(dot(one.middle, across) - dot(other.middle, across)) <= CLOSE
        mirrored = abs(dot(one.ahead, along) + dot(other.ahead, along)) < 0.01
        if not level or not (
            mirrored and abs(dot(one.ahead, across) - dot(other.ahead, across)) < 0.01
        ):
            continue
        middle = (dot(one.middle, along) + dot(other.middle, along)) / 2
        marks = [t.middle for t in plan.of(SOFAS | BEDS | DINING | DESKS | LOW_TABLES | {"rug"})]
        marks += [t.middle for t in plan.screens]
        marks += [o.middle for o in (*plan.windows, *plan.doors)]
        marks += [f.at for f in plan.fixtures if f.at and f.kind in FIRES]
        marks += [
            plus(w.left, (w.length / 2, w.along))
            for w in plan.walls
            if abs(dot(w.along, along)) > 0.9
        ]
        if any(abs(dot(m, along) - middle) <= CLOSE for m in marks):
            return True
    return False


def _side_by_side(one: Thing, other: Thing) -> bool:
    right, ahead = one.local(other.middle)
    alike = between(one.ahead, other.ahead) < 1
    return alike and abs(ahead) <= 10 and abs(abs(right) - (one.width + other.width) / 2) <= 10


def like_with_like(plan: Plan) -> Iterator[Found]:
    """Alike pieces stand side by side within 1, or mirrored on an axis within 2.

    Stores, seats and lamps of one kind and height. *Not*: in different zones (each nearest
    another group), or with different pieces, as a side table with each of two seats; bedside
    tables; plants, which are set about; chairs at tables and desks.
    """
    kinds = STORES | LOUNGE | LAMPS | WARDROBES | {"side table", "wall shelf"}
    sets: dict[tuple[str, float, str | None], list[Thing]] = {}
    for one in plan.of(kinds - BEDSIDES):
        sets.setdefault((one.kind, one.top, one.host), []).append(one)
    for alike in sets.values():
        left, runs = list(alike), []
        while left:
            run = [left.pop(0)]
            for one in run:
                near = [o for o in left if _side_by_side(one, o) or _mirrored(plan, one, o)]
                run += near
                left = [o for o in left if o not in near]
            runs.append(run)
        homes = [plan.group_of(run[0]) for run in runs]
        apart = [
            (a, b) for (a, x), (b, y) in combinations(zip(runs, homes, strict=True), 2) if x is y
        ]
        if apart:
            yield found("C", "neither side by side nor a pair on an axis", *alike)


# ---------------------------------------------------------------- 11 to 15


def _blocked_ahead(plan: Plan, thing: Thing, deep: float) -> float | None:
    """How near a wall or tall piece is before the middle of a front; None where none is."""
    tall = [t.shape for t in plan.things if t is not thing and t.tall and t.kind not in LAMPS]
    far = plan.profile(thing, "front", tall)[6:14]
    nearest = float(np.median(far))
    return nearest if nearest < deep else None


def facing(plan: Plan) -> Iterator[Found]:
    """No seat with a wall or tall piece nearer than 90 before it, or away from its group.

    Armchairs: within 250 of the group, turned at most 60 from its middle; a chair to read in
    only where no other seat is there to talk from, since it stands by itself for its light. A
    back within 200 and 45 degrees of the main door with nothing behind is C. *Not*: hall and
    dressing seats.
    """
    for seat in plan.of(LOUNGE | {"bed bench"}):
        if (gap := _blocked_ahead(plan, seat, 900)) is not None:
            yield found("B", f"{cm(gap)} before a wall or something tall", seat)
        yield from _back_to_door(plan, seat)
    sofas = plan.of(SOFAS)
    for chair in plan.of(LOUNGE - SOFAS):
        if not sofas or plan.purpose not in (*LIVING, "other") or _reads_alone(plan, chair):
            continue
        gap = min(s.shape.distance(chair.shape) for s in sofas)
        group = plan.group_of(chair)
        if gap > 2500:
            yield found("B", f"{cm(gap)} from the sofa", chair)
        elif group is not None and len(group.members) > 1:
            others = [m for m in group.members if m is not chair and not _reads_alone(plan, m)]
            rest = shapely.union_all([m.shape for m in others]).envelope.centroid
            turned = between(chair.ahead, towards(chair.middle, (rest.x, rest.y)))
            if turned > 60 and chair is not group.main:
                yield found("B", f"turned {turned:.0f} degrees away from its group", chair)


def _reads_alone(plan: Plan, seat: Thing) -> bool:
    """Whether a seat is to read in, while there are others to talk from."""
    others = [s for s in plan.of(LOUNGE) if s is not seat and s is not plan.main_seat]
    return seat.kind == "reading chair" and bool(others)


def _back_to_door(plan: Plan, seat: Thing) -> Iterator[Found]:
    door = plan.main_door
    if door is None or seat.kind not in LOUNGE:
        return
    way = towards(seat.back, door.middle)
    behind = (-seat.ahead[0], -seat.ahead[1])
    if math.hypot(*way) > 2000 or between(behind, way) > 45:
        return
    gap = float(np.median(plan.profile(seat, "back", plan.obstacles(seat))))
    behind_it = seat.strip("back", 200)
    covered = [t for t in plan.things if t is not seat and t.stands
               and t.shape.intersection(behind_it).area > 0.2 * behind_it.area]  # fmt: skip
    if gap < 900 and not covered and gap > GAP_CLOSED:
        yield found("C", f"its back to {door.name}, {cm(math.hypot(*way))} away", seat)


def daylight(plan: Plan) -> Iterator[Found]:
    """A desk's middle within 200 of a window, no window straight behind who sits there.

    A screen not within 30 degrees of facing or backing a window nearer than 300. A window ahead
    of a desk only earns less. Marks for shaded, north or curtain are not in the file.
    """
    if not plan.windows:
        return
    for desk in plan.of(DESKS):
        looks = (-desk.ahead[0], -desk.ahead[1])
        near = [(Point(desk.middle).distance(LineString(_ends(w))), w) for w in plan.windows]
        far, _ = min(near, key=lambda row: row[0])
        if far > 2000:
            yield found("B", f"its middle is {cm(far)} from the next window", desk)
        elif all(between(looks, towards(desk.front, w.middle)) > 135 for d, w in near if d <= 2000):
            yield found("B", "the light comes from behind", desk)
    for screen in plan.screens:
        for window in plan.windows:
            way = towards(screen.middle, window.middle)
            off = between(screen.ahead, way)
            if math.hypot(*way) < 3000 and min(off, 180 - off) <= 30:
                how = "faces" if off <= 30 else "backs"
                text = f"it {how} {window.name}, {cm(math.hypot(*way))} away"
                yield found("B", text, screen)


def _ends(window: Opening) -> list[Vector]:
    return [plus(window.wall.left, (at, window.wall.along)) for at in window.span]


def _near_cot(plan: Plan, shape: Polygon) -> Iterator[tuple[float, str]]:
    """What does harm near a cot, and how far off it is."""
    for window in plan.windows:
        yield shape.distance(LineString(_ends(window))), window.name
    for heater in plan.fixtures:
        if heater.kind in HEATERS:
            yield shape.distance(heater.shape), heater.name
    for one in plan.of(LAMPS):
        yield shape.distance(one.shape), one.name
    powered = [*plan.of(LAMPS | DESKS | {"record cabinet"}), *plan.screens]
    for socket in plan.fixtures:
        if socket.kind == "socket" and socket.at:
            at = Point(socket.at)
            if any(t.shape.distance(at) < 600 for t in powered):
                yield shape.distance(at), socket.name


def cot(plan: Plan) -> Iterator[Found]:
    """Within 90 of a cot no window, heater or lamp; over it plus 30 no shelf; within 45 no step.

    A step is a top 15 to 100 high. To a wall 0 (up to 2: nothing is caught in that), or 30 and
    more. Cords and which sockets are in use are not in the file: a socket counts where something
    that needs power stands within 60.
    """
    for bed in plan.of(COTS):
        for far, name in _near_cot(plan, bed.shape):
            if far < 900:
                yield Found("A", (bed.name, name), f"{cm(far)} from {name}, 90 wanted")
        for one in plan.things:
            far = bed.shape.distance(one.shape)
            step = one.bottom < OVER_SEAT and 150 <= one.top <= 1000 and one.kind not in LAMPS
            if one is not bed and one.bottom >= bed.top and far < 300:
                yield found("A", f"{one.name} hangs over it", bed, one)
            elif one is not bed and step and far < 450:
                yield found("A", f"{cm(far)} from a top {cm(one.top)} high", bed, one)
        for side in ("front", "back", "left", "right"):
            gap = plan.profile(bed, side, []).min()
            if CLOSE < gap < 299:
                yield found("A", f"{cm(gap)} from a wall, 0 or 30 wanted", bed)


def _measured_off(value: float, steps: Sequence[float]) -> bool:
    return any(min(value % s, s - value % s) <= 1 for s in steps)


def _taped(plan: Plan, thing: Thing, pair: tuple[str, str], bodies: Sequence[BaseGeometry]) -> bool:
    """Whether a tape finds its place along one axis."""
    steps = (50.8, 50.0) if plan.unit == "in" else (50.0,)
    gaps = [float(plan.profile(thing, s, bodies).min()) for s in pair]
    walls = [float(plan.profile(thing, s, []).min()) for s in pair]
    if any(_measured_off(g, steps) for g in (*gaps, *walls)):
        return True
    if abs(gaps[0] - gaps[1]) <= 10 or abs(walls[0] - walls[1]) <= 10:
        return True
    along = thing.side(pair[0])[2]
    marks = [t.middle for t in plan.of(SOFAS | BEDS | DINING | DESKS | {"rug"}) if t is not thing]
    marks += [o.middle for o in plan.windows] + [s.middle for s in plan.screens if s is not thing]
    return any(abs(dot(m, along) - dot(thing.middle, along)) <= 10 for m in marks)


def tape(plan: Plan) -> Iterator[Found]:
    """Each place touching, centred within 1, or a whole 5 off a wall or neighbour; no gap under 4.

    *Not*: what is tied to another piece, rugs, what hangs, what stands on a slant.
    """
    for thing in plan.things:
        slanted = min(abs(c) for c in thing.ahead) > 0.01
        if not thing.stands or slanted or thing.host is not None or thing.bottom:
            continue
        company = [t for t in plan.things if t.host == thing.name]
        bodies = plan.obstacles(thing, *company)
        off = [
            pair
            for pair in (("left", "right"), ("back", "front"))
            if not _taped(plan, thing, pair, bodies)
        ]
        if off:
            gap = min(float(plan.profile(thing, s, bodies).min()) for s in off[0])
            yield found("C", f"{gap / 10:.1f} cm off, and neither centred nor a whole 5", thing)
            continue
        for side in ("left", "right"):
            gap = float(plan.profile(thing, side, bodies).min())
            if 1 < gap < GAP_CLOSED:
                yield found("C", f"a gap of {gap / 10:.1f} cm on its {side} side", thing)


ROOM_MAKERS = BEDS | SOFAS | DINING | DESKS


def _three_largest(plan: Plan) -> list[list[Thing]]:
    """The three largest pieces in sets of alike ones: beds, sofas and tables first.

    Those that the person holds in their place are the same in every plan, and are not asked.
    """
    order = sorted(
        (t for t in plan.things if t.stands and not t.stays and t.kind not in MOVED_CHAIRS),
        key=lambda t: (t.kind not in ROOM_MAKERS, -t.width * t.depth, t.name),
    )[:3]
    sets: dict[tuple[str, float, float], list[Thing]] = {}
    for t in order:
        sets.setdefault((t.kind, t.width, t.depth), []).append(t)
    return list(sets.values())


def same_plan(one: Plan, other: Plan) -> bool:
    """Whether the three largest have the same place within 25 % of the room, wall and turn.

    Storage has half the room across or up the plan: what only went round its corner was called
    another plan at first, and nobody saw it.
    """
    x0, y0, x1, y1 = one.room.bounds
    far = 0.25 * max(x1 - x0, y1 - y0)

    def alike(a: Thing, b: Thing) -> bool:
        if a.kind not in ROOM_MAKERS:
            (x, y), (u, v) = a.middle, b.middle
            return 2 * abs(x - u) <= x1 - x0 and 2 * abs(y - v) <= y1 - y0
        same = a.wall == b.wall and between(a.ahead, b.ahead) < 1
        return same and math.dist(a.middle, b.middle) <= far

    return all(
        any(
            all(map(alike, mine, theirs))
            for theirs in permutations([other.named(t.name) or t for t in mine])
        )
        for mine in _three_largest(one)
    )


def different(plans: Sequence[Plan]) -> Iterator[tuple[int, Found]]:
    """Of a list: of the three largest one has another wall, turn, or place 25 % of the room away.

    Beds, sofas and tables first, storage only across the room; alike pieces may change places.
    Told of the later plan.
    """
    for i, later in enumerate(plans):
        for earlier in plans[:i]:
            if same_plan(later, earlier):
                names = [t.name for alike in _three_largest(later) for t in alike]
                yield later.number, Found("C", tuple(names), f"the same as plan {earlier.number}")
                break


# ---------------------------------------------------------------- 16 to 20


def past(plan: Plan) -> Iterator[Found]:
    """No way from door to door goes through a group, nor between a seat and its coffee table.

    Through: 30 cm or more of the shortest way lies among its pieces. A in living rooms, else B.
    """
    rank = "A" if plan.purpose in LIVING else "B"
    for one, other, way in plan.lanes:
        for group in plan.groups:
            inside = way.intersection(group.hull).length
            if len(group.members) > 1 and inside >= 300:
                text = (
                    f"the way from {one.name} to {other.name} runs {cm(inside)} through the group"
                )
                yield found(rank, text, *group.members)


def cup(plan: Plan) -> Iterator[Found]:
    """Each seat has a surface within 60; the coffee table stands 35 to 45 from its main seat.

    *Not*: more seats without one than there are coffee, side and console tables left over. A
    bedroom with a chair and no such table was counted first; nothing in its list could help.
    """
    surfaces = [t for t in plan.of(SURFACES) if 300 <= t.top <= 1000]
    seats = plan.of(LOUNGE)
    far = {s.name: min((t.shape.distance(s.shape) for t in surfaces), default=FAR) for s in seats}
    without = [s for s in seats if far[s.name] > 600]
    left = len(plan.of(LOW_TABLES | {"console table"})) - (len(seats) - len(without))
    for seat in without[: max(left, 0)]:
        yield found(
            "C", f"no place for a cup within 60 cm, the next {cm(far[seat.name])} away", seat
        )
    for group in plan.seating:
        before = [
            t
            for t in group.members
            if t.kind == "coffee table" and group.main.local(t.middle)[1] > 0
        ]
        for table_ in before:
            gap = table_.shape.distance(group.main.edge("front"))
            if not 349 <= gap <= 451:
                yield found("C", f"{cm(gap)} from the seat, 35 to 45 wanted", table_, group.main)


def closer_inside(plan: Plan) -> Iterator[Found]:
    """The widest gap inside a group is smaller than its gap to the next group.

    *Not*: groups of one piece, which have no inside.
    """
    for group in plan.groups:
        others = [g for g in plan.groups if g is not group]
        if len(group.members) < 2 or not others:
            continue
        nearest = min(others, key=lambda g: g.shape.distance(group.shape))
        gap = nearest.shape.distance(group.shape)
        if group.widest_gap >= gap:
            text = f"gaps to {cm(group.widest_gap)} inside, {cm(gap)} to {nearest.main.name}"
            yield found("B", text, group.main, nearest.main)


def _sees(plan: Plan, eye: Vector, ahead: Vector, door: Opening) -> bool:
    """Whether the door is before somebody at ``eye`` and nothing tall stands between."""
    tall = shapely.union_all(
        [t.shape for t in plan.things if t.tall and not t.shape.contains(Point(eye))]
    )
    floor = plan.room.buffer(5)
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        at = plus(door.wall.left, (door.left + share * door.width, door.wall.along))
        sight = LineString([eye, at])
        if (
            between(ahead, towards(eye, at)) <= 100
            and floor.covers(sight)
            and not sight.intersects(tall)
        ):
            return True
    return False


def bed_and_door(plan: Plan) -> Iterator[Found]:
    """The pillow sees the door; the bed is in the farther half, and not straight before it.

    Farther: its middle is as far off as the middle of the room or farther, across or up the
    plan. The pillow was measured first: a bed with its head on the door's wall lies with its
    foot far inside the room, and no more of it is near. Not with the head under a window. Seen:
    up to 100 degrees off the axis, nothing tall between. *Not*: cots.
    """
    door = plan.main_door
    for bed in plan.of(BEDS):
        eye = _eye(bed)
        wall = plan.wall_behind(bed, 300)
        for window in plan.windows:
            if wall is not None and window.wall.name == wall.name:
                under = overlap(window.span, wall.spot(bed))
                if under >= 200:
                    yield found("B", f"its head is {cm(under)} under {window.name}", bed)
        if door is None:
            continue
        if not _sees(plan, eye, bed.ahead, door):
            yield found("B", f"{door.name} is not seen from the pillow", bed)
        straight = door.strip(FAR).intersection(bed.shape)
        x0, y0, x1, y1 = straight.bounds if not straight.is_empty else (0, 0, 0, 0)
        if min(x1 - x0, y1 - y0) > 50:
            yield found("B", f"it lies straight before {door.name}", bed)
        x0, y0, x1, y1 = plan.room.bounds
        far, half = (_off_either_way(door.middle, at)
                     for at in (bed.middle, ((x0 + x1) / 2, (y0 + y1) / 2)))  # fmt: skip
        if far < half - LIGHTEST:
            yield found("B", f"its middle is {cm(far)} from {door.name}, in the nearer half", bed)


def _off_either_way(start: Vector, end: Vector) -> float:
    """How far two points are from one another, the larger of across and up the plan."""
    return max(map(abs, towards(start, end)))


def talk(plan: Plan) -> Iterator[Found]:
    """Other seats within 244 of the main seat (8 feet), and turned to it.

    From seat to seat, the larger of across and up the plan. From middle to middle was counted
    first, 120 to 240: an armchair at the end of the rug is 265 from the middle of a sofa of 220
    and at talking distance of who sits at its end, and 120 are kept by the seats themselves.
    Turned: facings 60 to 180 degrees apart. Straight opposite counts as turned, since quarter
    turns have nothing between 90 and 180. Seats out of the group are counted in `facing`; a
    chair to read in need not be turned where others are there to talk from.
    """
    for group in plan.seating:
        for seat in group.members:
            if seat is group.main or seat.kind not in LOUNGE:
                continue
            far = taped(seat.shape, group.main.shape)
            angle = between(seat.ahead, group.main.ahead)
            if far > 2440:
                yield found(
                    "B", f"{cm(far)} from {group.main.name}, 244 at most wanted", seat, group.main
                )
            elif angle < 60 and not _reads_alone(plan, seat):
                yield found("B", f"it is not turned to {group.main.name}", seat, group.main)


# ---------------------------------------------------------------- 21 to 25


def _first_seen(plan: Plan, door: Opening) -> tuple[Thing, str] | None:
    """The nearest piece in the middle 60 degrees, and the side of it that is seen most."""
    eye = plus(door.middle, (20, door.wall.inward))
    straight = math.degrees(math.atan2(door.wall.inward[1], door.wall.inward[0]))
    seen: dict[str, list[tuple[float, str]]] = {}
    for turn in range(-30, 31, 2):
        sight = LineString([eye, plus(eye, (FAR, unit(straight + turn)))])
        hits = [(Point(eye).distance(sight.intersection(t.shape)), t) for t in plan.things
                if not t.flat and t.bottom < 1500 and sight.intersects(t.shape)]  # fmt: skip
        wall = plan.ray(eye, unit(straight + turn), [])
        far, thing = min(hits, key=lambda h: h[0], default=(FAR, None))
        if thing is not None and far < wall + 1:
            at = plus(eye, (far, unit(straight + turn)))
            side = min(
                ("front", "back", "left", "right"), key=lambda s: thing.edge(s).distance(Point(at))
            )
            seen.setdefault(thing.name, []).append((far, side))
    wide = {name: rows for name, rows in seen.items() if len(rows) >= 6}
    if not wide:
        return None
    name = min(wide, key=lambda n: min(wide[n]))
    sides = [side for _, side in wide[name]]
    thing = plan.named(name)
    return thing and (thing, max(sorted(set(sides)), key=sides.count))


def first_look(plan: Plan) -> Iterator[Found]:
    """From the main door the first thing seen is no tall side, no seat's back, no desk's cables.

    The first thing: the nearest that fills a fifth of the middle 60 degrees.
    """
    door = plan.main_door
    first = door and _first_seen(plan, door)
    if not first or not door:
        return
    thing, side = first
    if (thing.tall and side != "front" and thing.kind not in LAMPS | {"plant"}) or (
        thing.kind in LOUNGE | DESKS and side == "back"
    ):
        yield found("B", f"from {door.name} its {side} is seen first", thing)


def dressing(plan: Plan) -> Iterator[Found]:
    """In a bedroom wardrobe, chest and mirror within 250 of one another, 90 to stand at one.

    Before a mirror the light comes from ahead or the side: some window is not straight behind
    who looks (over 120 degrees). The nearest alone was asked first; where one is behind and
    another ahead, one sees oneself in the light of that.
    """
    if plan.purpose not in ("bedroom", "one room"):
        return
    robes, chests = plan.of(WARDROBES), plan.of({"chest of drawers"})
    mirrors = plan.of(MIRRORS)
    for one in (*chests, *mirrors):
        far = min((taped(w.shape, one.shape) for w in robes), default=0.0)
        if far > 2500:
            yield found("C", f"{cm(far)} from the wardrobe", one)
    for robe in robes:
        every = [robe, *chests, *mirrors]
        free = [float(plan.profile(t, "front", plan.obstacles(t)).min()) for t in every]
        if max(free) < 900:
            yield found("C", f"{cm(max(free))} to stand and dress, 90 wanted", robe)
            break
    for mirror in mirrors:
        stands = plus(mirror.front, (600, mirror.ahead))
        looks = (-mirror.ahead[0], -mirror.ahead[1])
        off, name = min(
            ((between(looks, towards(stands, w.middle)), w.name) for w in plan.windows),
            default=(0.0, ""),
        )
        if off > 120:
            yield found("C", f"{name} is {off:.0f} degrees behind who looks", mirror)


def serving(plan: Plan) -> Iterator[Found]:
    """Kitchen door to table and to sideboard within 300; 107 from its front to the chairs.

    300 across and up the plan, as a tape has it. *Not*: without a kitchen door (the 107 still
    are) or a sideboard. In one-room flats the table counts under zones.
    """
    for one in plan.of(DINING):
        chairs = _chairs_of(plan, one)
        if (door := plan.kitchen_door) is not None and plan.purpose != "one room":
            for thing in (one, *plan.of({"sideboard"})):
                if (far := taped(door.strip(1), thing.shape)) > 3000:
                    yield found("B", f"{cm(far)} from {door.name}", thing)
        for board in plan.of({"sideboard"}):
            drawers = board.strip("front", 1060)
            near = [c for c in chairs if c.shape.intersection(drawers).area > 100]
            if near:
                gap = min(c.shape.distance(board.shape) for c in near)
                yield found("B", f"{cm(gap)} from chairs to drawers, 107 wanted", board, *near)


def zones(plan: Plan) -> Iterator[Found]:
    """In a one-room flat no two groups' rectangles overlap; the bed is farthest from the entrance.

    It lies sideways to the door or is screened. Kitchen door to table within 300.
    """
    if plan.purpose != "one room":
        return
    for one, other in combinations(plan.groups, 2):
        x0, y0, x1, y1 = one.rectangle.intersection(other.rectangle).bounds or (0, 0, 0, 0)
        deep = min(x1 - x0, y1 - y0)
        if deep > 50 and one.main.stands:
            text = f"the rectangles of two groups overlap by {cm(deep)}"
            yield found("A", text, one.main, other.main)
    yield from _bed_in_flat(plan)
    if (kitchen := plan.kitchen_door) is not None:
        for one in plan.of(DINING):
            if (far := taped(kitchen.strip(1), one.shape)) > 3000:
                yield found("A", f"{cm(far)} from {kitchen.name}", one)


def _bed_in_flat(plan: Plan) -> Iterator[Found]:
    door = plan.main_door
    if door is None:
        return
    at = Point(door.middle)
    far: Mapping[str, float] = {g.main.name: g.shape.centroid.distance(at) for g in plan.groups}
    for bed in plan.of(BEDS):
        nearer = [n for n, d in far.items() if d > far[bed.name] + 100]
        if nearer:
            yield found("A", f"{nearer[0]} is farther from {door.name}", bed)
        way = towards(bed.middle, door.middle)
        off = min(between(bed.ahead, way), 180 - between(bed.ahead, way))
        sight = LineString([bed.middle, door.middle])
        screened = any(t.tall and t.shape.intersects(sight) for t in plan.things if t is not bed)
        if off < 30 and not screened:
            yield found("A", f"it points at {door.name}, {off:.0f} degrees off", bed)


def _room_to_arrive(plan: Plan, door: Opening) -> bool:
    """Whether 90 by 120 are free inside a door, lengthwise or across, before most of it."""
    bodies = shapely.union_all(plan.obstacles())
    inward, along = door.wall.inward, door.wall.along
    for wide, deep in ((900, 1200), (1200, 900)):
        for shift in range(600 - wide, int(door.width) - 599, 50):
            left = plus(door.wall.left, (door.left + shift, along))
            right = plus(left, (wide, along))
            place = Polygon([left, right, plus(right, (deep, inward)), plus(left, (deep, inward))])
            if plan.room.buffer(1).covers(place) and place.intersection(bodies).area < 100:
                return True
    return False


def _hall(plan: Plan) -> Iterator[Found]:
    door = plan.main_door
    if door is None:
        return
    if not _room_to_arrive(plan, door):
        yield Found("A", (), f"no 90 by 120 cm free inside {door.name}")
    for one in plan.of(HALL | STORES):
        if one.depth > 350 and any(way.distance(one.shape) < 900 for *_, way in plan.lanes):
            yield found("A", f"{cm(one.depth)} deep along the way", one)
    put_down = [t for t in plan.of(HALL | SURFACES) if t.kind != "coat rack"]
    far = min((t.shape.distance(door.strip(1)) for t in put_down), default=0.0)
    if far > 1500:
        yield found("B", f"{cm(far)} from {door.name} to put things down", *put_down)
    pairs = [
        (taped(bench.shape, shoes.shape), bench, shoes)
        for bench in plan.of({"hall bench"})
        for shoes in plan.of({"shoe cabinet"})
    ]
    far, *two = min(pairs, key=lambda pair: pair[0], default=(0.0,))
    if far > 600:
        yield found("B", f"{cm(far)} from {two[1].name}", *two)


def _care(plan: Plan) -> Iterator[Found]:
    for bed in plan.of(COTS):
        for one in plan.of(LOUNGE | {"changing table"}):
            if (far := taped(bed.shape, one.shape)) > 2500:
                yield found("B", f"{cm(far)} from {bed.name}", one, bed)
        for chair in plan.of(LOUNGE)[:1]:
            if between(chair.ahead, towards(chair.middle, bed.middle)) > 90:
                yield found("B", f"it does not see {bed.name}", chair, bed)
            if plan.main_door and not _sees(plan, chair.middle, chair.ahead, plan.main_door):
                yield found("B", f"it does not see {plan.main_door.name}", chair)


def _office(plan: Plan) -> Iterator[Found]:
    for desk in plan.of(DESKS):
        sits = plus(desk.front, (400, desk.ahead))
        if plan.main_door is not None:
            off = between(desk.ahead, towards(sits, plan.main_door.middle))
            behind = plan.profile(desk, "front", []).min()
            if off < 45 and behind > 1200:
                yield found("B", f"who sits there has {plan.main_door.name} behind", desk)
        stores = plan.of(STORES | {"wall shelf"})
        if stores and (far := min(s.shape.distance(desk.shape) for s in stores)) > 1500:
            yield found("B", f"{cm(far)} to the next storage", desk)


def arriving(plan: Plan) -> Iterator[Found]:
    """Hall (A): 90 by 120 free inside the door, at most 35 deep along the way; things at hand.

    A place to put things down within 150 and a seat beside shoes (60) are B: without them a hall
    can be lived with; of two shoe cabinets one is enough. Nursery (B): cot,
    changing table and chair within 250, the chair sees cot and door. Office (B): nobody sits
    with the door straight behind and room to come up; storage within 150.
    """
    by_purpose: Mapping[str, Measure] = {"hall": _hall, "nursery": _care, "office": _office}
    if (counted := by_purpose.get(plan.purpose)) is not None:
        yield from counted(plan)


MEASURES: Mapping[int, Measure] = {
    1: view, 2: line, 3: behind_door, 4: gutter, 5: reach, 6: nearly, 7: table, 8: rug, 9: lamp,
    10: like_with_like, 11: facing, 12: daylight, 13: cot, 14: tape, 16: past, 17: cup,
    18: closer_inside, 19: bed_and_door, 20: talk, 21: first_look, 22: dressing, 23: serving,
    24: zones, 25: arriving,
}  # fmt: skip
TITLES: Mapping[int, str] = {
    1: "view", 2: "line", 3: "behind the door", 4: "gutter", 5: "reach", 6: "nearly", 7: "table",
    8: "rug", 9: "lamp", 10: "like with like", 11: "facing", 12: "daylight", 13: "cot", 14: "tape",
    15: "different", 16: "past, not through", 17: "cup", 18: "closer inside", 19: "bed and door",
    20: "talk", 21: "first look", 22: "dressing", 23: "serving", 24: "zones",
    25: "arriving, care, office",
}  # fmt: skip
