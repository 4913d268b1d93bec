"""What is built in keeps its place and the floor it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from arrange.data.change import GiveUpFixture
from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, the
from arrange.data.repair import Relaxation
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_keep, fixture_shape
from arrange.rules.requirement import ROOM, AskedFloor, Relaxing, RequirementKind
from arrange.rules.rule import KeepsOff, Region


class FixturesFree(KeepsOff):
    """Nothing stands in a fixture, or on the floor kept free in front of it.

    Radiators are not boxed in (`radiator-gap`), built-in cupboards open. A
    clearance may not reach into the body of a fixture either. Rugs lie on floor that
    is kept free and below a radiator, but not through what stands on the floor itself.
    """

    id = "fixtures-free"
    title = "Fixtures reachable, radiators not boxed in"
    kind = "must"
    elsewhere = 'set it on the fixture: keep_free = "20 cm"'
    always = "give the fixture keep_free = 0 instead"
    source = "radiator-gap"
    kinds = (RequirementKind("fixture", ROOM, 3),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """A region for each body and one for each strip kept free."""
        regions: list[Region] = []
        for fixture in scenario.room.fixtures:
            body, keep = fixture_shape(fixture), fixture_keep(scenario.room, fixture)
            if fixture.solid and not body.is_empty:
                regions.append(
                    Region(
                        body,
                        f"stands in {fixture.name}",
                        fixture.name,
                        bottom=fixture.bottom,
                        top=fixture.top,
                        blocks_use=True,
                        rugs_too=fixture.bottom == 0,
                    )
                )
            if not keep.is_empty and not fixture.burns:
                why = f"boxes in {fixture.name}"
                regions.append(Region(keep, why, fixture.name, top=fixture.keep_below))
        return regions

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The floor before each fixture; its body stays. For what burns the floor is a distance."""
        fixtures = scenario.room.fixtures
        return [Requirement("fixture", f.name) for f in fixtures if f.keep and not f.burns]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A fixture that is not kept needs no floor before it."""
        gone = {r.name for r in self.requirements(whole) if r not in kept}
        fixtures = tuple(
            replace(f, keep=0) if f.name in gone else f for f in scenario.room.fixtures
        )
        return replace(scenario, room=replace(scenario.room, fixtures=fixtures))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How much floor."""
        del among
        fixture = next(f for f in scenario.room.fixtures if f.name == requirement.name)
        return f"{measured(fixture.keep, scenario.unit)} kept free before {the(fixture.name)}"

    def asked_floor(self, scene: Scene) -> Iterable[AskedFloor]:
        """The floor kept free before each fixture."""
        room = scene.scenario.room
        for fixture in room.fixtures:
            keep = fixture_keep(room, fixture)
            if not keep.is_empty and not fixture.burns:
                words = f"before {the(fixture.name)}"
                yield AskedFloor(keep, words, words)

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """The floor before a fixture not kept free; nothing about what burns."""
        for fixture in ask.scenario.room.fixtures:
            if fixture.keep and not fixture.burns and ask.touchable(fixture.name):
                kept = measured(fixture.keep, ask.scenario.unit)
                yield from ask.relaxation(
                    "fixture",
                    (GiveUpFixture(fixture.name),),
                    f"the {kept} before {the(fixture.name)} need not stay free",
                    ("fixture", fixture.name),
                    None,
                    monotone=True,
                )
