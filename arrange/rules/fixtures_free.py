"""What is built in keeps its place and the floor it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from arrange.data.change import GiveUpFixture
from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, the
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation
from arrange.data.room import Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_keep, fixture_shape
from arrange.geometry.stairs import higher_than
from arrange.rules.requirement import ROOM, AskedFloor, Relaxing, RequirementKind
from arrange.rules.rule import KeepsOff, Region

EDGE = 600  # mm off the edge of stairs without a guard; common practice, no source
LOW_SEAT = 500  # mm; a bench or stool that leaves the air its way. Common practice, no source


class FixturesFree(KeepsOff):
    """Nothing stands in a fixture, or on the floor kept free in front of it.

    Radiators are not boxed in (`radiator-gap`), built-in cupboards open. A
    clearance may not reach into the body of a fixture either. Rugs lie on floor that
    is kept free, on a hatch and below a radiator, but not through what stands on the floor
    itself. A seat up to 50 cm high with nothing at its back may stand before a radiator
    where the person says so. Seats, beds, tables and toys keep 60 cm off stairs without a
    guard: people sit, lie, climb and play there. Common practice, no source. Over boxed stairs
    hangs what begins higher than they are there.
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
                whole = Region(
                    body,
                    f"stands in {the(fixture.name)}",
                    fixture.name,
                    bottom=fixture.bottom,
                    top=fixture.low_top or fixture.top,
                    blocks_use=True,
                    rugs_too=fixture.bottom == 0,
                )
                regions += [whole, *_above_low_end(scenario, fixture, whole)]
            if fixture.is_lid:
                why = f"stands on {the(fixture.name)}"
                regions.append(Region(body, why, fixture.name, top=fixture.keep_below))
            if not fixture.guarded:
                edge = body.buffer(EDGE, join_style="mitre")
                why = f"stands at the edge of {the(fixture.name)}, which has no railing"
                regions.append(Region(edge, why, fixture.name, keeps_out=_is_climbed))
            if not keep.is_empty and not fixture.burns:
                regions.append(
                    Region(
                        keep,
                        f"boxes in {the(fixture.name)}",
                        fixture.name,
                        top=fixture.keep_below,
                        keeps_out=partial(_boxes_in, seat_before=fixture.seat_before),
                    )
                )
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
        return f"{measured(fixture.keep, scenario.unit)} kept free in front of {the(fixture.name)}"

    def asked_floor(self, scene: Scene) -> Iterable[AskedFloor]:
        """The floor kept free before each fixture."""
        room = scene.scenario.room
        for fixture in room.fixtures:
            keep = fixture_keep(room, fixture)
            if not keep.is_empty and not fixture.burns:
                words = f"in front of {the(fixture.name)}"
                yield AskedFloor(keep, words, words)

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """The floor before a fixture not kept free; nothing about what burns, nor stairs."""
        for fixture in ask.scenario.room.fixtures:
            gives = fixture.keep and not fixture.burns and fixture.kind != "stairs"
            if gives and ask.touchable(fixture.name):
                kept = measured(fixture.keep, ask.scenario.unit)
                yield from ask.relaxation(
                    "fixture",
                    (GiveUpFixture(fixture.name),),
                    f"the {kept} in front of {the(fixture.name)} need not stay free",
                    ("fixture", fixture.name),
                    None,
                    monotone=True,
                )


def _above_low_end(scenario: Scenario, box: Fixture, whole: Region) -> Iterator[Region]:
    """The parts of sloping boxed stairs that are higher than where a piece begins, one a height."""
    begins = sorted({p.bottom for p in scenario.pieces if box.low_top <= p.bottom < box.top})
    for bottom in begins if box.low_top else ():
        yield replace(
            whole,
            shape=higher_than(scenario.room, box, bottom),
            bottom=bottom,
            top=bottom + 1,
            keeps_out=partial(_begins_at, bottom=bottom),
            blocks_use=False,
            rugs_too=False,
        )


def _begins_at(piece: Piece, *, bottom: int) -> bool:
    return piece.bottom == bottom


def _boxes_in(piece: Piece, *, seat_before: bool) -> bool:
    """Whether a fixture would be boxed in by it: by a low seat only if it lets none before it."""
    return not (seat_before and piece.is_a("seat") and piece.top <= LOW_SEAT)


def _is_climbed(piece: Piece) -> bool:
    """Whether somebody sits, lies, plays or climbs on it."""
    return bool(piece.roles & {"seat", "sleep", "table", "play"})
