"""Nobody comes in behind who sits at a desk; what is worked with is at hand."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Bounded, Coordinate, Spot, across, along, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import use_of

NEAR = 1500  # mm from desk to storage; common practice, no source


class DeskOutlook(Rule):
    """In an office no door is behind who sits at a desk, and storage is within 1.5 m.

    Level 1: seen from the middle of the desk's front, where one sits, the middle of no
    doorway lies within 45 degrees of straight behind: one sits with the back to a wall, or
    the side to the door. Level 2, where there is storage: besides, a piece of it is within
    1.5 m, by the larger of the gaps across and up the plan. Common practice, no source.
    """

    id = "desk-outlook"
    title = "No door behind whoever sits at a desk, storage at hand"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a desk, in offices with a door."""
        if use_of(scenario) != "office" or not scenario.room.doors:
            return []
        return [
            Claim(self.id, (p.name,), self.weight, (1, 2) if _stores(scenario, p) else (1,))
            for p in scenario.pieces
            if p.is_a("desk")
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each doorway is ahead, or more aside than behind; a store is near."""
        name, scenario = claim.subjects[0], model.scenario
        desk, clear = model.place(name), model.literal(f"no door behind {name}")
        for door in _doors(scenario):
            ways = [model.literal() for _ in range(3)]
            for facing in FACINGS:
                looks = model.faces(name, facing)
                for way, spare in zip(ways, _spare(desk, facing, door), strict=True):
                    model.when([way, looks], spare >= 0)
            model.one_of(ways, when=[clear])
        if len(claim.steps) == 1:
            return [clear]
        stores = [model.place(p.name) for p in _stores(scenario, desk.piece)]
        return [clear, *model.levels_near(desk, stores, (NEAR,))]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The first door behind the desk, or the nearest storage."""
        desk, scenario = scene.find(claim.subjects[0]), scene.scenario
        said = the(desk.name, first=True)
        for door in _doors(scenario):
            if max(_spare(desk, desk.facing, door)) < 0:
                text = f"Whoever sits at {the(desk.name)} has {the(door.name)} behind them"
                return Measure(0, text, the(door.name), "no door behind")
        stores = [scene.find(p.name) for p in _stores(scenario, desk.piece)]
        if not stores:
            return Measure(1, f"{said} has no door behind it", "no door behind", "no door behind")
        away, name = min((gap(desk, p), p.name) for p in stores)
        far, level = scene.length(away), 1 + (away <= NEAR)
        text = f"{said} has no door behind it and is {scene.how_far(away)} {the(name)}"
        return Measure(level, text, far, scene.length(NEAR))


def _doors(scenario: Scenario) -> list[Spot]:
    return [opening_spot(scenario.room, door) for door in scenario.room.doors]


def _stores(scenario: Scenario, desk: Piece) -> list[Piece]:
    return [p for p in scenario.pieces if p.is_a("store") and p.name != desk.name]


def _spare(desk: Bounded, facing: Facing, door: Spot) -> list[Coordinate]:
    """What is to spare each way in which a doorway is not behind; one way is enough."""
    behind = sum(along(door, facing)) - 2 * along(desk, facing)[1]
    aside = sum(across(door, facing)) - sum(across(desk, facing))
    return [-behind, aside - behind, -aside - behind]
