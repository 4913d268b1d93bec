"""A short way from the kitchen to the table."""

from __future__ import annotations

from collections.abc import Sequence

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

    In rooms to eat in. With a door called after a kitchen: the table is within 3 m of it
    (level 1), and so is storage up to 1.1 m high that goes with the table (level 2). In one
    room for all the way with hot plates leads past beds and desks, so there a table farther
    off is a fault of first rank. With a kitchen door or without: before each such storage no
    dining chair stands in the 1067 mm in front of it, so that drawers open while people sit.
    A table's bare end may be nearer, and so may a chair aside of the front. Distances are the
    larger of the gaps across and up the plan. That no chair stands in the way is the
    walkway's to see to. Source `dine-drawers`.
    """

    id = "serving"
    title = "A short way from the kitchen to the table"
    source = "dine-drawers"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for the way, in rooms with a kitchen door; one for each storage."""
        table, use = _table(scenario), use_of(scenario)
        if use not in USES or table is None:
            return []
        stores, found = _stores(scenario, table), []
        if _kitchen(scenario) is not None:
            names, steps = (table.name, *(p.name for p in stores)), (1, 2) if stores else (1,)
            first = use == FIRST
            found.append(
                Claim(self.id, names, self.weight, steps, ("way",), self.source, first_rank=first)
            )
        drawers = [
            Claim(self.id, (store.name,), self.weight, (DRAWERS,), ("drawers",), self.source)
            for store in stores
        ]
        return [*found, *drawers] if _chairs(scenario) else found

    # -- the model's face ------------------------------------------------
    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each near the door; or every chair off the floor before the drawers."""
        door = _kitchen(model.scenario)
        if claim.about == ("drawers",):
            return [self._opens(model, claim.subjects[0])]
        if door is None:
            return [model.never() for _ in claim.steps]
        name, *stores = claim.subjects
        near, all_near = (model.literal() for _ in range(2))
        spot = opening_spot(model.scenario.room, door)
        model.near(near, model.place(name), spot, NEAR)
        for store in stores:
            model.near(all_near, model.place(store), spot, NEAR)
        return [near, all_near][: len(claim.steps)]

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
        """What is too far from the door, or has too little floor before it."""
        if claim.about == ("drawers",):
            return _drawers(scene, claim.subjects[0])
        door, wanted = _kitchen(scene.scenario), scene.length(NEAR)
        if door is None:
            return Measure(0, "There is no kitchen door", "", wanted)
        spot = opening_spot(scene.scenario.room, door)
        far = {name: gap(scene.find(name), spot) for name in claim.subjects}
        level, name = len(claim.steps), claim.subjects[0]
        for number, subject in enumerate(claim.subjects):
            if far[subject] > NEAR:
                level, name = min(number, 1), subject
                break
        away = scene.length(far[name])
        said = f"{the(name, first=True)} is {scene.how_far(far[name], 'right at')} {the(door.name)}"
        return Measure(level, said, away, wanted)


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
    far = scene.length(max(away, 0))
    said = (
        f"{the(chair_name, first=True)} is {scene.how_far(max(away, 0))} the drawers of {the(name)}"
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


def _table(scenario: Scenario) -> Piece | None:
    return largest_of(scenario, "dine")


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
