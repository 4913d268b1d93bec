"""Rugs that lie where they belong: under the group, under no door, under whole pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import leaf_floor, whole_bounds
from arrange.geometry.spots import Bounded, Spot, across, along, seated
from arrange.geometry.strips import Outlook
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds, is_tall, main_seat

FRONT = (100, 400)  # mm of the seat's depth that lie on the rug; common practice, no source
MIDDLE = 100  # mm by which its middle may be off the seat's; common practice, no source
PAST = 600  # mm past a table, for the chairs; common practice, no source
SEEN = 3  # tenths of it that are free in one strip; common practice, no source
ON_RUG = (20, 100)  # mm; heights of what stands on a rug
ALONG: tuple[Facing, ...] = ("right", "up")
TABLES = {"dine", "desk"}
MATS = {"play", "exercise"}


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing asked of a rug: of a table, a door's leaf, its seat, or how much one sees."""

    what: Literal["table", "door", "front", "middle", "seen"]
    other: str = ""
    spot: Spot | None = None


class RugPlaced(Rule):
    """A rug lies right by everything it has to do with; each of these counts once.

    A dining table, a desk or something tall stands on it with all its legs or with none.
    It is off the floor that the leaf of a door sweeps. The rug of a seating group (tied
    to a seat, else the largest that is tied to nothing) has 10 to 40 cm of the seat on it, of
    an L of the part along its back, and its middle within 10 cm of the seat's. One that is of
    no seat or table, in a room with a bed, is not lost under that: a strip of 30 % of it, from
    edge to edge, is free. Of mats only the doors are asked. A rug that is too small for its
    dining table is said to be so, and nothing is lost: it cannot lie better. Whether it lies
    across a way is not measured.
    Common practice, no source.
    """

    id = "rug-placed"
    title = "Rugs where they belong"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each rug that something is asked of."""
        found = []
        for rug in filter(_lies, scenario.pieces):
            asked = _asked(scenario, rug)
            others = dict.fromkeys(a.other for a in asked if a.spot is None and a.other)
            names, steps = (rug.name, *others), (1,) * len(asked)
            if asked:
                found.append(Claim(self.id, names, self.weight, steps, counted=True))
        return found

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """A literal for each thing asked."""
        rug = model.scenario.piece(claim.subjects[0])
        return model.tally([_kept(model, rug.name, one) for one in _asked(model.scenario, rug)])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """What is not as asked, the first of it in words."""
        rug = scene.find(claim.subjects[0])
        asked = _asked(scene.scenario, rug.piece)
        wrong = [one for one in asked if not _is_kept(scene, rug, one)]
        text = _words(wrong[0]) if wrong else _small(scene, rug) or "lies where it belongs"
        name = the(rug.name, first=True)
        return Measure(len(asked) - len(wrong), f"{name} {text}", str(len(wrong)), "none")


def _lies(piece: Piece) -> bool:
    return piece.flat and piece.is_a("rug")


def _is_rug(piece: Piece) -> bool:
    return _lies(piece) and not piece.roles & MATS


def _asked(scenario: Scenario, rug: Piece) -> list[Asked]:
    """What is asked of a rug, in an order that the file has no part in."""
    room = scenario.room
    is_rug = _is_rug(rug)
    heavy = [p for p in scenario.pieces if (p.roles & TABLES or is_tall(p)) and is_rug]
    found = [Asked("table", p.name) for p in sorted(heavy, key=canonical) if p.name != rug.anchor]
    for door in room.all_doors:
        if door.opens_in:
            floor = leaf_floor(room, door)
            found.append(Asked("door", door.name, Spot(door.name, *whole_bounds(floor))))
    seat = _seat(scenario, rug)
    if seat is not None:
        found += [Asked("front", seat.name), Asked("middle", seat.name)]
    elif is_rug and beds(scenario) and _dining_table(scenario, rug) is None:
        found.append(Asked("seen"))
    return found


def _dining_table(scenario: Scenario, rug: Piece) -> Piece | None:
    """The dining table that it is tied to, if it is."""
    host = None if rug.anchor is None else scenario.piece(rug.anchor)
    return host if host is not None and host.is_a("dine") else None


def _seat(scenario: Scenario, rug: Piece) -> Piece | None:
    """The seat whose rug it is; None if it is of something else, or a mat."""
    if not _is_rug(rug):
        return None
    if rug.anchor is not None:
        host = scenario.piece(rug.anchor)
        return host if host.is_a("seat") else None
    seat = main_seat(scenario)
    rugs = [p for p in scenario.pieces if _is_rug(p)]
    if seat is None or any(p.anchor == seat.name for p in rugs):
        return None
    first = min((p for p in rugs if p.anchor is None), key=canonical)
    return seat if rug.name == first.name else None


# -- the model's face ----------------------------------------------------
def _kept(model: Verbs[L], name: str, asked: Asked) -> L:
    kept = model.literal(f"{name} right by {asked.other}")
    if asked.what == "seen":
        _seen(model, kept, name)
        return kept
    rug, other = model.place(name), asked.spot or model.place(asked.other)
    if asked.what == "door":
        model.beyond(kept, rug, other, 0)
    elif asked.what == "table":
        on, off = model.literal(), model.literal()
        model.when(on, other.x0 >= rug.x0, other.x1 <= rug.x1)
        model.when(on, other.y0 >= rug.y0, other.y1 <= rug.y1)
        model.beyond(off, rug, other, 0)
        model.one_of([on, off], when=[kept])
    else:
        for facing in FACINGS:
            looks = model.faces(asked.other, facing)
            if asked.what == "front":
                seat = seated(other, model.scenario.piece(asked.other), facing)
                deep = along(seat, facing)[1] - along(rug, facing)[0]
                model.when([kept, looks], deep >= FRONT[0], deep <= FRONT[1])
            else:
                off_axis = sum(across(rug, facing)) - sum(across(other, facing))
                model.when([kept, looks], off_axis <= 2 * MIDDLE, off_axis >= -2 * MIDDLE)
    return kept


def _seen(model: Verbs[L], kept: L, name: str) -> None:
    """A free strip across it or along it."""
    rug, strip = model.place(name), model.open_strip(kept, ON_RUG, [name])
    ways = [model.literal() for _ in range(2)]
    model.one_of(ways, when=[kept])
    for way, looks in zip(ways, ALONG, strict=True):
        (a, b), (c, d) = along(rug, looks), along(strip, looks)
        model.when(way, a == c, b == d)
        (a, b), (c, d) = across(rug, looks), across(strip, looks)
        model.when(way, c >= a, d <= b, 10 * (d - c) >= SEEN * (b - a))


# -- the judge's face ----------------------------------------------------
def _is_kept(scene: Scene, rug: Placed, asked: Asked) -> bool:
    if asked.what == "seen":
        outlook = Outlook(scene, ON_RUG, [rug.name])
        return any(
            outlook.slides_free(looks, along(rug, looks), (low, high), _least(high - low))
            for looks in ALONG
            for low, high in [across(rug, looks)]
        )
    other: Bounded = asked.spot or scene.find(asked.other)
    if asked.what in ("door", "table"):
        ways = (other.x0 - rug.x1, rug.x0 - other.x1, other.y0 - rug.y1, rug.y0 - other.y1)
        on = rug.x0 <= other.x0 and other.x1 <= rug.x1
        on = on and rug.y0 <= other.y0 and other.y1 <= rug.y1
        return max(ways) >= 0 or (on and asked.what == "table")
    host = scene.find(asked.other)
    facing = host.facing
    if asked.what == "front":
        deep: int = along(seated(host, host.piece, facing), facing)[1] - along(rug, facing)[0]
        return FRONT[0] <= deep <= FRONT[1]
    return bool(abs(sum(across(rug, facing)) - sum(across(other, facing))) <= 2 * MIDDLE)


def _least(side: int) -> int:
    """So much of a side is seen at least."""
    return -(-SEEN * side // 10)


def _words(asked: Asked) -> str:
    name = the(asked.other) if asked.other else ""
    return {
        "table": f"lies under some legs of {name} and not under others",
        "door": f"lies where {name} swings over it",
        "front": f"does not lie under the front of {name}",
        "middle": f"is not centred on {name}",
        "seen": "hardly shows: less than 30% of it is free",
    }[asked.what]


def _small(scene: Scene, rug: Placed) -> str:
    """That it is too small for its dining table; "" if it is not."""
    dining = _dining_table(scene.scenario, rug.piece)
    if dining is None:
        return ""
    table = scene.find(dining.name)
    past = min(table.x0 - rug.x0, rug.x1 - table.x1, table.y0 - rug.y0, rug.y1 - table.y1)
    if past >= PAST:
        return ""
    wanted = scene.length(PAST)
    chairs = f"is too small to reach {wanted} past {the(table.name)} for the chairs"
    return f"{chairs}, but that is no fault of the plan"
