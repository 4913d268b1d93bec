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
        side = turning_square(model.scenario)
        if side:
            is_clear = model.literal("room to turn")
            model.one_of([is_clear])
            model.clear_square([is_clear], [side], leaf_floors(model.scenario.room))

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One, if there is no such square."""
        side = turning_square(scene.scenario)
        if side and not scene.square_fits(side, leaf_floors(scene.scenario.room)):
            across = scene.length(side)
            said = f"There is no clear floor of {across} by {across} to turn, for {_whose(scene)}"
            yield Breach(self.id, (), said)

    # -- what can be asked of it: somebody needs it, so it never gives ----
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The square, if somebody needs one."""
        return [Requirement("turning")] if turning_square(scenario) else []

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How large, and for whom."""
        del requirement, among
        across, need = measured(turning_square(scenario), scenario.unit), _need(scenario)
        whose = f", for {need.whose}" if need else ""
        return f"a clear floor of {across} by {across} to turn{whose}"


def _need(scenario: Scenario) -> Need | None:
    return asked(scenario.people, "turn")


def _whose(scene: Scene) -> str:
    need = _need(scene.scenario)
    return need.whose if need else ""


def turning_square(scenario: Scenario) -> int:
    """The side of the square that is kept to turn in, in mm; 0 if nobody needs one, or for off.

    The person's own value, else what is needed.
    """
    need, setting = _need(scenario), scenario.setting(TurningSpace.id)
    if need is None or setting.off:
        return 0
    return need.least if setting.least is None else setting.least
