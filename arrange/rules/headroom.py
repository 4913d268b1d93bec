"""Room to sit up on a high bed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, short_by, summed, the
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import PIECES, RequirementKind
from arrange.rules.rule import KeepsOff


class Headroom(KeepsOff):
    """Above its top a piece keeps the headroom it asks for, below the ceiling.

    For bunk and loft beds 711 mm from the top of the upper mattress
    (`bunk-ceiling`, common practice: 711 to 914 mm). It depends on the room and
    the piece alone: where it fails, no arrangement works.
    """

    id = "headroom"
    title = "Headroom"
    kind = "must"
    takes = ("least",)
    source = "bunk-ceiling"
    kinds = (RequirementKind("headroom", PIECES, 2, dispensable=5),)

    def build(self, model: Verbs[L]) -> None:
        """No arrangement at all if a piece lacks its headroom."""
        if any(True for _ in lacking(model.scenario)):
            model.must(False)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each piece with too little above it."""
        for name, gap, need in lacking(scene.scenario):
            yield Breach(
                self.id,
                (name,),
                f"{name} has {scene.length(gap, 'down')} above it, {scene.length(need)} is needed",
            )

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every piece that asks for headroom."""
        off = scenario.setting(self.id).off
        return [Requirement("headroom", p.name) for p in scenario.pieces if p.headroom and not off]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """It says nothing without its piece."""
        del scenario
        return frozenset({Requirement("piece", requirement.name)})

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """What is not kept asks for none."""
        del whole
        pieces = tuple(
            p if Requirement("headroom", p.name) in kept else replace(p, headroom=0)
            for p in scenario.pieces
        )
        return replace(scenario, pieces=pieces)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How much, above what."""
        del among
        least = scenario.setting(self.id).least
        need = scenario.piece(requirement.name).headroom if least is None else least
        return f"{measured(need, scenario.unit)} of headroom above {the(requirement.name)}"

    def plain_sum(self, scenario: Scenario) -> str:
        """The sum of heights of the first piece that lacks headroom."""
        unit, ceiling = scenario.unit, scenario.room.ceiling
        for name, _, need in lacking(scenario):
            top = scenario.piece(name).top
            high, above = summed([top, need], unit)
            return (
                f"{the(name, first=True)} {high} high + {above} of headroom = "
                f"{measured(top + need, unit)}; the ceiling is at "
                f"{measured(ceiling, unit, 'down')}, {short_by(top + need, ceiling, unit)} too low."
            )
        return ""


def lacking(scenario: Scenario) -> Iterable[tuple[str, int, int]]:
    """Each piece that lacks headroom, with what is above it and what it needs (mm)."""
    least = scenario.setting(Headroom.id).least
    for piece in scenario.pieces:
        if not piece.headroom:
            continue
        need = piece.headroom if least is None else least
        gap = scenario.room.ceiling - piece.top
        if gap < need:
            yield piece.name, gap, need
