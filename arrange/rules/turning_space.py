"""Room to turn for who uses a wheelchair or a walking frame."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.data.conflict import Requirement
from arrange.data.lengths import measured
from arrange.data.people import Need, asked
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import leaf_floors
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff


class TurningSpace(KeepsOff):
    """Somewhere an upright square of floor is clear, as large as somebody needs to turn.

    1200 mm for a walking frame (`din-turn`), 1500 mm for a wheelchair (`din-turn-wc`).
    Rugs and pieces hung above 2 m do not count, no door opens into it, and the ceiling over
    it is no lower than 1900 mm. Whether the way leads there is not asked: where it does
    not, a caution says so.
    """

    id = "turning-space"
    title = "Room to turn"
    kind = "must"
    takes = ("least",)
    source = "din-turn-wc"
    kinds = (RequirementKind("turning", ROOM, 6, dispensable=2),)

    def build(self, model: Verbs[L]) -> None:
        """A square of that side, clear of bodies and leaves."""
        side = _side(model.scenario)
        if side:
            is_clear = model.literal("room to turn")
            model.one_of([is_clear])
            model.clear_square([is_clear], [side], leaf_floors(model.scenario.room))

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One, if there is no such square."""
        side = _side(scene.scenario)
        if side and not scene.square_fits(side, leaf_floors(scene.scenario.room)):
            across = scene.length(side)
            said = f"There is no clear floor of {across} by {across} to turn, for {_whose(scene)}"
            yield Breach(self.id, (), said)

    # -- what can be asked of it: somebody needs it, so it never gives ----
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The square, if somebody needs one."""
        off = scenario.setting(self.id).off
        return [Requirement("turning")] if _side(scenario) and not off else []

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How large, and for whom."""
        del requirement, among
        across, need = measured(_side(scenario), scenario.unit), _need(scenario)
        whose = f", for {need.whose}" if need else ""
        return f"a clear floor of {across} by {across} to turn{whose}"


def _need(scenario: Scenario) -> Need | None:
    return asked(scenario.people, "turn")


def _whose(scene: Scene) -> str:
    need = _need(scene.scenario)
    return need.whose if need else ""


def _side(scenario: Scenario) -> int:
    """The side of the square in mm: the person's own, else what is needed; 0 for nobody."""
    need, least = _need(scenario), scenario.setting(TurningSpace.id).least
    if need is None:
        return 0
    return need.least if least is None else least
