"""A short way from the kitchen to the table."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import Door
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import largest_of, use_of

NEAR = 3000  # mm from the kitchen door; common practice, no source
DRAWERS = 1067  # mm, `dine-drawers`
HIGH = 1100  # mm; what is lower can be served from; common practice, no source
KITCHENS = ("kitchen", "pantry", "scullery", "serving")
USES = {"dining room", "living and dining room"}


class Serving(Rule):
    """Table and sideboard are within 3 m of the kitchen door, the chairs off the drawers.

    In rooms to dine in with a door called after a kitchen. Level 1: the table is within 3
    m of it. With storage up to 1.1 m high that goes with the table, level 2: that too.
    With dining chairs, level 3: besides, each of them is 1067 mm from the storage, so that
    drawers open while people sit. A table's bare end may be nearer. Distances are the
    larger of the gaps across and up the plan. That no chair stands in the way is the
    walkway's to see to. Source `dine-drawers`.
    """

    id = "serving"
    title = "A short way from the kitchen to the table"
    source = "dine-drawers"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, in rooms to dine in with a kitchen door and a table."""
        table = _table(scenario)
        if use_of(scenario) not in USES or _kitchen(scenario) is None or table is None:
            return []
        stores = tuple(p.name for p in _stores(scenario, table))
        steps = (1, 2, 3) if stores and _chairs(scenario) else (1, 2) if stores else (1,)
        return [Claim(self.id, (table.name, *stores), self.weight, steps, (), self.source)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each near the door; every chair beyond the drawers."""
        name, *stores = claim.subjects
        room, door = model.scenario.room, _kitchen(model.scenario)
        if door is None:
            return [model.never() for _ in claim.steps]
        near, all_near, free = (model.literal() for _ in range(3))
        spot = opening_spot(room, door)
        model.near(near, model.place(name), spot, NEAR)
        for store in stores:
            model.near(all_near, model.place(store), spot, NEAR)
            for chair in _chairs(model.scenario):
                model.beyond(free, model.place(store), model.place(chair.name), DRAWERS)
        return [near, all_near, free][: len(claim.steps)]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """What is too far from the door, or has too little floor before it."""
        door, wanted = _kitchen(scene.scenario), scene.length(NEAR)
        if door is None:
            return Measure(0, "There is no kitchen door", "", wanted)
        spot = opening_spot(scene.scenario.room, door)
        for level, name in enumerate(claim.subjects):
            far = scene.length(gap(scene.find(name), spot))
            if gap(scene.find(name), spot) > NEAR:
                said = f"{the(name, first=True)} is {far} from {the(door.name)}"
                return Measure(min(level, 1), said, far, wanted)
        for name in claim.subjects[1:]:
            chairs = [scene.find(p.name) for p in _chairs(scene.scenario)]
            near = min(((gap(scene.find(name), c), c.name) for c in chairs), default=None)
            if near is not None and near[0] < DRAWERS:
                far = scene.length(near[0])
                said = f"{the(near[1], first=True)} is {far} from the drawers of {the(name)}"
                return Measure(2, said, far, scene.length(DRAWERS))
        name = claim.subjects[0]
        far = scene.length(gap(scene.find(name), spot))
        said = f"{the(name, first=True)} is {far} from {the(door.name)}"
        return Measure(len(claim.steps), said, far, wanted)


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
