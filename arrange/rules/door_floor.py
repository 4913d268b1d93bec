"""Doors open and people get through them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from arrange.data.change import Rehang
from arrange.data.conflict import Requirement
from arrange.data.lengths import listed, measured, the
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.room import Door, Fixture, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import (
    door_floor,
    fixture_shape,
    leaf_sweeps,
    shares_floor,
    slide_floors,
)
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import ROOM, AskedFloor, Relaxing, RequirementKind
from arrange.rules.rule import KeepsOff, Region


class DoorFloor(KeepsOff):
    """The floor in front of every door and French window stays free, as wide as its opening.

    It is as deep as the leaf where the door opens in (half of the opening for two leaves,
    half a leaf where they fold), and never less than the walkway: room to swing the leaf
    and to step in. A leaf that slides on the wall needs its width of that wall too, 10 cm
    deep. Common practice, no source: `door-swing-keep` asks for more, a standing depth
    beyond the arc.
    Before a passage more than 120 cm wide, that it can be walked through is enough: to
    which the walkway sees. Something built in may stand on that floor beside the way of
    the leaf; where the leaf would hit it, the room itself is at fault, and no arrangement
    works.
    """

    id = "door-floor"
    title = "Doors swing free and can be walked through"
    kind = "must"
    kinds = (
        RequirementKind("doors", ROOM, 1, dispensable=4),
        RequirementKind("swing", ROOM, 2, dispensable=3),
    )

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a door but a wide passage, one for each leaf that slides on the wall."""
        room = scenario.room
        return [
            Region(
                floor,
                why.format(the(door.name)),
                f"the floor inside {the(door.name)}",
                top=door.height,
            )
            for door in _asking(room)
            for why, floors in (
                ("stands in the way of {}", [door_floor(room, door, scenario.walkway)]),
                ("stands where {} slides", slide_floors(room, door)),
            )
            for floor in floors
        ]

    def build(self, model: Verbs[L]) -> None:
        """Nothing to build beside the regions, unless a leaf hits what is built in."""
        if _hits(model.scenario.room):
            model.must(False)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """Pieces on the floor of a door, and what is built in where a leaf swings."""
        yield from super().breaches(scene)
        for door, fixture in _hits(scene.scenario.room):
            moves = "swings" if door.opens == "in" else "folds" if door.folds else "slides"
            where = f"stands where {the(door.name)} {moves}, so it cannot open"
            said = f"{the(fixture.name, first=True)} {where}"
            yield Breach(self.id, (door.name, fixture.name), said)

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The floor inside all doors, and what a leaf takes beyond that."""
        doors = _asking(scenario.room)
        if not doors or scenario.setting(self.id).off:
            return ()
        swings = [Requirement("swing", d.name) for d in doors if _swings(scenario, d)]
        return (Requirement("doors"), *swings)

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """A swing says nothing without the floor inside the doors."""
        del scenario
        return frozenset({Requirement("doors")} if requirement.kind == "swing" else ())

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A door whose leaves are not kept is hung so that they stay out of the room."""
        if Requirement("doors") not in kept:
            return scenario.switched_off(self.id)

        def made(door: Door) -> Door:
            gone = _swings(whole, door) and Requirement("swing", door.name) not in kept
            return door.outwards() if gone else door

        return replace(scenario, room=scenario.room.with_doors(made))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How much floor, and inside which doors."""
        del among
        doors, unit = _asking(scenario.room), scenario.unit
        if requirement.kind == "doors":
            names = listed([the(d.name) for d in doors])
            return f"{measured(scenario.walkway, unit)} of free floor inside {names}"
        door = next(d for d in doors if d.name == requirement.name)
        if not door.opens_in:
            return f"{the(door.name)} slides on the wall: {measured(door.leaf, unit)} of free wall"
        moves, wide = "fold" if door.folds else "swing", measured(door.reach, unit)
        return f"{the(door.name)} opens into the room: {wide} of free floor to {moves}"

    def asked_floor(self, scene: Scene) -> Iterable[AskedFloor]:
        """The floor inside each door."""
        scenario = scene.scenario
        for door in _asking(scenario.room):
            words = f"inside {the(door.name)}"
            floor = door_floor(scenario.room, door, scenario.walkway)
            yield AskedFloor(floor, words, words)

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """A door rehung so that its leaves stay out: less floor taken, but its floor moves too."""
        for door in ask.scenario.room.all_doors:
            if door.takes_room and ask.touchable(door.name):
                how = "to open outwards" if door.opens_in else "to slide on the other side"
                yield from ask.relaxation(
                    "rehang",
                    (Rehang(door.name),),
                    f"{the(door.name)} is rehung {how}",
                    ("door", door.name),
                    None,
                    monotone_unwalked=True,
                    note="ask first whether it may",
                )


def _asking(room: Room) -> list[Door]:
    """The doors whose whole width is kept free, French windows too."""
    return [door for door in room.all_doors if not door.is_wide]


def _hits(room: Room) -> list[tuple[Door, Fixture]]:
    """Each door with something built in, lower than the door, in the way of its leaf."""
    return [
        (door, fixture)
        for door in room.all_doors
        for fixture in room.obstructions
        if fixture.bottom < door.height
        and any(shares_floor(swept, fixture_shape(fixture)) for swept in leaf_sweeps(room, door))
    ]


def _swings(scenario: Scenario, door: Door) -> bool:
    """Whether its leaves take more of the room than stepping in does."""
    return door.takes_room and (not door.opens_in or door.reach > scenario.walkway)
