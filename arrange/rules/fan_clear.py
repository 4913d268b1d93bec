"""What reaches up to the blades of a ceiling fan keeps off them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FAN, Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import fixture_shape
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region

DISTANCE = 457  # mm from the blades to a wall (`fan-wall`)


class FanClear(KeepsOff):
    """What is higher than the blades of a ceiling fan keeps 457 mm off them, and high beds do.

    `fan-wall` gives that distance for a wall, so a tall cupboard keeps it as well. A bunk or
    loft bed stays out from under a fan (`fan-bunk`); no source says how far, so the same
    distance is taken: common practice. Anything lower stands where it likes, under it too.
    """

    id = "fan-clear"
    title = "Clear of the blades of a fan"
    kind = "must"
    takes = ("least",)
    source = "fan-wall"
    kinds = (RequirementKind("fans", ROOM, 5),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a fan, for what is as high as its blades and for high beds."""
        least = scenario.setting(self.id).least
        distance = DISTANCE if least is None else least
        return [
            Region(
                fixture_shape(fan).buffer(distance, join_style="mitre"),
                f"is too near the blades of {the(fan.name)}",
                fan.name,
                keeps_out=partial(_reaches_up, blades=fan.bottom),
            )
            for fan in _fans(scenario)
        ]

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The distance of all pieces from all fans."""
        fans = [fan.bottom for fan in _fans(scenario)]
        speaks = any(_reaches_up(p, blades=blades) for p in scenario.pieces for blades in fans)
        return [Requirement("fans")] if speaks and not scenario.setting(self.id).off else []

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """All of it."""
        del scenario, requirement, among
        return "tall pieces and high beds stay clear of the fan"


def _fans(scenario: Scenario) -> list[Fixture]:
    return [f for f in scenario.room.hung if f.kind == FAN]


def _reaches_up(piece: Piece, *, blades: int) -> bool:
    """Whether it is higher than the blades, or somebody sits up on top of it."""
    return piece.top > blades or piece.is_a("bunk")
