"""An open view on entering."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import wall_strip
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import entrance

DEEP = 1500  # mm in from the door; common practice, no source
TALL = 1200  # mm; what is higher hides the room. Common practice, no source


class EnteringView(Rule):
    """Nothing higher than 1.2 m stands in the first 1.5 m straight in from the main door.

    As wide as the opening; what hangs above 2 m does not count. Common practice,
    no source.
    """

    id = "entering-view"
    title = "An open view on entering"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, in rooms with a door and something tall."""
        if scenario.room.main_door is None or not _tall(scenario, TALL):
            return []
        return [Claim(self.id, (), self.weight, (TALL,))]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Every tall piece is off that floor."""
        level = model.literal("view on entering")
        for piece in _tall(model.scenario, claim.steps[0]):
            model.off_floor(level, piece.name, _floor(model.scenario))
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The tall pieces on that floor."""
        floor, scenario = _floor(scene.scenario), scene.scenario
        names = [p.name for p in _tall(scenario, claim.steps[0])]
        tall = [name for name in names if scene.stands_on(scene.find(name), floor)]
        door = entrance(scenario.room).name
        if tall:
            text = f"{the(tall[0], first=True)} blocks the view on entering by {the(door)}"
        else:
            text = f"The view on entering by {the(door)} is open"
        return Measure(0 if tall else 1, text, tall[0] if tall else "open", "open")


def _tall(scenario: Scenario, height: int) -> list[Piece]:
    return [p for p in scenario.pieces if p.top > height and p.bottom < HEAD and not p.flat]


def _floor(scenario: Scenario) -> Polygon:
    door = entrance(scenario.room)
    return wall_strip(scenario.room.walls[door.wall], door.offset, door.width, DEEP)
