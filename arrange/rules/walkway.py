"""Everything can be reached on a path of the set width."""

from __future__ import annotations

from collections.abc import Iterable

from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.goals import goals, walk_of
from arrange.geometry.scene import Scene
from arrange.rules.rule import Rule


class Walkway(Rule):
    """From the room's door a path of the set width leads to all that must be reached.

    That is one clearance side of every piece, every other door, and every window
    that must open or is the way out (`arrange.goals`). A disc as wide as the path
    is moved over the free floor (`arrange.walking`).

    Nothing is built: as constraints this would cost the proof. The search
    guarantees it instead: it seeds the model with walkway rectangles or cuts,
    and passes on only what this judge has passed. Sources: `bedroom-main-path`
    where somebody sleeps, else `walk-between`; "yours" where the width was set.
    """

    id = "walkway"
    title = "A way to everything"
    kind = "must"
    source = "walk-between"

    def source_in(self, scenario: Scenario) -> str:
        """The id of the source that the width has in this scenario."""
        if scenario.walkway_overridden:
            return "yours"
        sleeps = any(piece.is_a("sleep") for piece in scenario.pieces)
        return "bedroom-main-path" if sleeps else self.source

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each goal that the path does not reach."""
        walk = walk_of(scene)
        width = scene.length(scene.scenario.walkway)
        for goal in goals(scene):
            if not walk.reaches(goal):
                yield Breach(
                    self.id,
                    (goal.name,),
                    f"{goal.name} cannot be reached on a path {width} wide {goal.purpose}",
                )
