"""The arithmetic of a clash that a person can follow with a tape. Lengths in mm.

For one length of the set after another the most that can be had is found, the others as
asked. The arrangement that has it is searched for a straight line from wall to wall
on which all is asked for: its sum says what lacks. Where there is none, the most that
can be had is said by itself; both are proven, the sum is also read off exact shapes.
"""

from __future__ import annotations

from dataclasses import replace

from shapely import union_all

from arrange.data.arrangement import Arrangement
from arrange.data.clash import Arithmetic, Clash, Crossed, Member, Section
from arrange.data.scenario import Scenario, Unit
from arrange.geometry import door_floor, room_shape
from arrange.rules.headroom import lacking
from arrange.rules.who import the
from arrange.scene import Scene
from arrange.settling import Settler
from arrange.whatif.why.members import clearance_of, restricted
from arrange.whatif.why.most import Most, most_of, quantities
from arrange.whatif.why.sections import Sections
from arrange.words import length, listed

TRIED = 16  # quantities
NO_SUM = "There is no simple sum: these cannot all hold, however the pieces stand (proven)."
NO_SUM_YET = "No sum was found in the time."


def arithmetic(
    scenario: Scenario, clash: Clash, settler: Settler, *, quick: bool = False
) -> Arithmetic:
    """What lacks, in figures; within the time of the settler.

    The sum of a section is what is there plus exactly what lacks. Without a section:
    a sum of heights or of floor, else the most that can be had of one length, else a
    plain sentence. Of several sections the one that lacks least; ``quick`` takes the first.
    """
    high = _heights(scenario, clash)
    if high:
        return Arithmetic("", proven=True, sum=high)
    best: tuple[Most, Section] | None = None
    spare: Most | None = None
    for quantity in quantities(scenario, clash.members)[:TRIED]:
        if settler.left <= 0 or (best is not None and quick):
            break
        # Once there is a sum, only what lacks less is of interest: one question mostly.
        least = 0 if best is None else quantity.asked - _lack(best[0]) + 1
        most = most_of(scenario, clash, quantity, settler, least)
        if most is None:
            continue
        section = Sections(most).best() if most.proven else None
        if section is not None:
            best = (most, section)
        elif spare is None or (not most.proven, _lack(most)) < (not spare.proven, _lack(spare)):
            spare = most
    if best is not None:
        return _of(scenario, *best)
    floor = _floor(scenario, clash)
    if floor:
        return Arithmetic("", proven=True, sum=floor)
    if spare is not None:
        return _of(scenario, spare, None)
    # With no time left, or a set that may be none, nothing is known of a sum.
    return Arithmetic(NO_SUM if clash.confirmed and settler.left > 0 else NO_SUM_YET)


def _lack(most: Most) -> int:
    return most.quantity.asked - most.most


def _of(scenario: Scenario, most: Most, section: Section | None) -> Arithmetic:
    quantity = most.quantity
    return Arithmetic(
        _most_words(scenario, most),
        quantity.member,
        quantity.asked,
        most.most,
        most.proven,
        quantity.side,
        most.arrangement,
        section,
        "" if section is None else sum_words(scenario, section),
    )


def sum_words(scenario: Scenario, section: Section) -> str:
    """The sum along a section: what is asked for, what is there, what lacks."""
    unit = scenario.unit
    parts = " + ".join(part_words(p, unit) for p in section.crossed)
    if len(section.crossed) > 1:
        parts += f" = {length(section.asked, unit)}"
    lack, there = (length(v, unit) for v in (section.asked - section.there, section.there))
    where = f" beside {section.beside}" if section.beside else " there"
    return f"{parts}; the room has {there}{where}, {lack} too little."


def part_words(part: Crossed, unit: Unit) -> str:
    """What one stretch of a section is, and how much is asked for there."""
    asked = length(part.asked, unit)
    return f"{part.what} {asked}" if part.body else f"{asked} {part.what}"


def _most_words(scenario: Scenario, most: Most) -> str:
    """Of what is asked, how much can be had when the rest holds."""
    unit, q = scenario.unit, most.quantity
    if q.member.kind == "clearance":
        c = clearance_of(scenario, q.member)
        what = f"{length(q.asked, unit)} at the {listed(c.sides, 'or')} of {the(q.member.name)}"
    elif q.member.kind == "walkway":
        what = f"{length(q.asked, unit)} of the walkway"
    else:
        what = f"{length(q.asked, unit)} of the {q.side} of {the(q.member.name)}"
    had = f"at most {length(most.most, unit)}" if most.most else "nothing"
    if not most.proven:
        return (
            f"Of the {what} {length(most.most, unit)} can be had with the rest as asked; "
            "whether more can was not decided in the time."
        )
    return f"However the pieces stand, with the rest as asked: of the {what} {had} can be had."


def _heights(scenario: Scenario, clash: Clash) -> str:
    """The sum of heights, where a piece lacks headroom."""
    unit, ceiling = scenario.unit, scenario.room.ceiling
    alone = restricted(scenario, clash.members)
    for name, gap, need in lacking(alone):
        top = scenario.piece(name).top
        return (
            f"{the(name, first=True)} {length(top, unit)} high + {length(need, unit)} of headroom "
            f"= {length(top + need, unit)}; the ceiling is at {length(ceiling, unit)}, "
            f"{length(need - gap, unit)} too low."
        )
    return ""


def _floor(scenario: Scenario, clash: Clash) -> str:
    """The sum of floor, where the bodies and the doors' floor take more than there is."""
    alone = restricted(scenario, clash.members)
    empty = Scene(replace(alone, pieces=(), held=()), Arrangement(()))
    fixed = [shape for shape, low in empty.solid_fixtures if low == 0]
    if Member("doors") in clash.members:
        fixed += [door_floor(alone.room, d, alone.walkway) for d in alone.room.doors]
    room = room_shape(alone.room)
    there = room.difference(union_all(fixed)).area if fixed else room.area
    bodies = [p for p in alone.pieces if not p.flat and p.bottom == 0]
    asked = sum(p.width * p.depth for p in bodies)
    if asked <= there or len(bodies) < 2:
        return ""
    parts = " + ".join(f"{p.name} {_square(p.width * p.depth)}" for p in bodies)
    return f"{parts} = {_square(asked)} of floor; {_square(there)} is free to stand on."


def _square(area: float) -> str:
    """An area of mm2 in square metres."""
    return f"{area / 1e6:.2f} m2"
