"""A short way from the kitchen to the table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Door, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Bounded, Coordinate, across, along, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import largest_of, use_of

NEAR = 3000  # mm from the kitchen door; common practice, no source
DRAWERS = 1067  # mm, `dine-drawers`
HIGH = 1100  # mm; what is lower can be served from; common practice, no source
KITCHENS = ("kitchen", "pantry", "scullery", "serving")
FIRST = "one room for all"
USES = {"dining room", "living and dining room", FIRST}


class Serving(Rule):
    """Table and sideboard are within 3 m of the kitchen door, the chairs off the drawers.

    In rooms to eat in. With a door called after a kitchen: the table is within 3 m of it, and
    so is each storage up to 1.1 m high that goes with the table. With a kitchen door or
    without: before each such storage no dining chair stands in the 1067 mm in front of it, so
    that drawers open while people sit. A table's bare end may be nearer, and so may a chair
    aside of the front. Each of these counts once. In one room for all the way with hot plates
    leads past beds and desks, so there a table farther off is a fault of first rank. Distances
    are the larger of the gaps across and up the plan. That no chair stands in the way is the
    walkway's to see to. Source `dine-drawers`.
    """

    id = "serving"
    title = "A short way from the kitchen to the table"
    source = "dine-drawers"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts all of it; in one room for all one more, for the table."""
        table, found = _served(scenario), []
        if table is None:
            return []
        if _ranks_first(scenario):
            way = ("way",)
            found.append(Claim(self.id, (table.name,), self.weight, (NEAR,), way, first_rank=True))
        if things := _things(scenario):
            steps = tuple(thing.wanted for thing in things)
            names = tuple(dict.fromkeys(thing.name for thing in things))
            found.append(Claim(self.id, names, self.weight, steps, (), self.source, counted=True))
        return found

    # -- the model's face ------------------------------------------------
    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each near the door, and every chair off the floor before the drawers."""
        if not claim.counted:
            return [self._near(model, claim.subjects[0])]
        return model.tally(
            [
                self._opens(model, thing.name) if thing.drawers else self._near(model, thing.name)
                for thing in _things(model.scenario)
            ]
        )

    @staticmethod
    def _near(model: Verbs[L], name: str) -> L:
        near, door = model.literal(f"{name} near the kitchen"), _kitchen(model.scenario)
        if door is None:
            return model.never()
        model.near(near, model.place(name), opening_spot(model.scenario.room, door), NEAR)
        return near

    @staticmethod
    def _opens(model: Verbs[L], name: str) -> L:
        """For each chair: beyond the floor in front, behind it, or to the left or right."""
        opens, store = model.literal(f"the drawers of {name} open"), model.place(name)
        for chair in _chairs(model.scenario):
            place = model.place(chair.name)
            for facing in FACINGS:
                ways = [model.literal() for _ in range(4)]
                for way, room_left in zip(ways, _spare(store, place, facing), strict=True):
                    model.when(way, room_left >= 0)
                model.one_of(ways, when=[opens, model.faces(name, facing)])
        return opens

    # -- the judge's face ------------------------------------------------
    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many are right, and what is too far from the door or has too little floor."""
        if not claim.counted:
            return _way(scene, claim.subjects[0])
        measures = [
            _drawers(scene, thing.name) if thing.drawers else _way(scene, thing.name)
            for thing in _things(scene.scenario)
        ]
        wrong = [measure for measure in measures if not measure.level]
        first, level = (wrong or measures)[0], len(measures) - len(wrong)
        return replace(first, level=level)


@dataclass(frozen=True, slots=True)
class _Thing:
    """A piece that is near the kitchen door, or whose drawers open before the chairs."""

    name: str
    drawers: bool = False

    @property
    def wanted(self) -> int:
        """In mm: at most so far from the door, at least so much before the drawers."""
        return DRAWERS if self.drawers else NEAR


def _things(scenario: Scenario) -> list[_Thing]:
    """All that counts, the table first, then each storage; what ranks first is not among it."""
    table = _served(scenario)
    if table is None:
        return []
    stores, found = _stores(scenario, table), []
    if _kitchen(scenario) is not None:
        found += [] if _ranks_first(scenario) else [_Thing(table.name)]
        found += [_Thing(store.name) for store in stores]
    if _chairs(scenario):
        found += [_Thing(store.name, drawers=True) for store in stores]
    return found


def _ranks_first(scenario: Scenario) -> bool:
    return use_of(scenario) == FIRST and _kitchen(scenario) is not None


def _way(scene: Scene, name: str) -> Measure:
    """How far it is from the kitchen door."""
    door, wanted = _kitchen(scene.scenario), scene.length(NEAR)
    if door is None:
        return Measure(0, "There is no kitchen door", "", wanted)
    far = gap(scene.find(name), opening_spot(scene.scenario.room, door))
    said = f"{the(name, first=True)} is {scene.how_far(far, 'right at')} {the(door.name)}"
    return Measure(int(far <= NEAR), said, scene.length(far), wanted)


def _drawers(scene: Scene, name: str) -> Measure:
    store, wanted = scene.find(name), scene.length(DRAWERS)
    near = [
        (along(chair, store.facing)[0] - along(store, store.facing)[1], chair.name)
        for chair in map(scene.find, (p.name for p in _chairs(scene.scenario)))
        if max(_spare(store, chair, store.facing)) < 0
    ]
    if not near:
        said = f"The drawers of {the(name)} can be opened while people sit at the table"
        return Measure(1, said, wanted, wanted)
    away, chair_name = min(near)
    far = scene.length(max(away, 0), "down")
    apart = scene.how_far(max(away, 0), rounded="down")
    said = (
        f"{the(chair_name, first=True)} is {apart} the drawers of {the(name)}; with {wanted} they "
        "open while people sit at the table"
    )
    return Measure(0, said, far, wanted)


def _spare(store: Bounded, chair: Bounded, facing: Facing) -> list[Coordinate]:
    """By how much a chair is beyond the floor before a front, behind it, or to either side."""
    front = along(store, facing)[1]
    begin, end = along(chair, facing)
    (a, b), (c, d) = across(store, facing), across(chair, facing)
    return [begin - front - DRAWERS, front - end, a - d, c - b]


def _kitchen(scenario: Scenario) -> Door | None:
    doors = scenario.room.doors
    return next((d for d in doors if any(k in d.name.lower() for k in KITCHENS)), None)


def _served(scenario: Scenario) -> Piece | None:
    """The table that is served, in rooms to eat in."""
    return largest_of(scenario, "dine") if use_of(scenario) in USES else None


def _chairs(scenario: Scenario) -> list[Piece]:
    return [p for p in scenario.pieces if p.is_a("dining seat")]


def _stores(scenario: Scenario, table: Piece) -> list[Piece]:
    return [
        p
        for p in sorted(scenario.pieces, key=canonical)
        if p.is_a("store") and not p.bottom and p.top <= HIGH and _goes_with(p, table)
    ]


def _goes_with(store: Piece, table: Piece) -> bool:
    return table.kind in store.goes_with or store.kind in table.goes_with
