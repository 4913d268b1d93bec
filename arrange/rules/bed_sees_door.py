"""The bed sees the door, but is not in line with it."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import across, along, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds, entrance

PILLOW = 500  # mm from the head of the bed; common practice, no source


class BedSeesDoor(Rule):
    """From the pillow the main door is ahead, and the foot does not point at it.

    Level 1: the middle of the door's opening lies at least 500 mm ahead of the
    bed's head, so that it is seen without turning round. Level 2: besides, the
    bed's width drawn out past its foot does not meet the opening (edges may
    touch). Source `hf-command`, a preference of the trade.
    """

    id = "bed-sees-door"
    title = "The bed sees the door, not in line with it"
    source = "hf-command"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a bed, in rooms with a door."""
        if scenario.room.main_door is None:
            return []
        return [
            Claim(self.id, (bed.name,), self.weight, (1, 2), (), self.source)
            for bed in beds(scenario)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each way the bed can look: the door ahead, and to the left or right of it."""
        bed = model.place(claim.subjects[0])
        room = model.scenario.room
        door = opening_spot(room, entrance(room))
        sees = model.literal(f"{bed.name} sees {door.name}")
        clear, low, high = model.literal(), model.literal(), model.literal()
        model.one_of([low, high], when=[clear])
        for facing in FACINGS:
            looks = model.faces(bed.name, facing)
            head = along(bed, facing)[0]
            model.when([sees, looks], 2 * (head + PILLOW) <= sum(along(door, facing)))
            first, last = across(bed, facing)
            start, end = across(door, facing)
            model.when([low, looks], last <= start)
            model.when([high, looks], first >= end)
        return [sees, clear]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far ahead of the head the door is, and whether the bed points at it."""
        bed = scene.find(claim.subjects[0])
        room = scene.scenario.room
        door = opening_spot(room, entrance(room))
        begin, end = along(door, bed.facing)
        ahead = (begin + end) / 2 - along(bed, bed.facing)[0]
        (first, last), (start, stop) = across(bed, bed.facing), across(door, bed.facing)
        aside = max(start - last, first - stop)
        if ahead < PILLOW:
            level, text = 0, "does not have {} in view"
        elif aside < 0:
            level, text = 1, "points straight at {}"
        else:
            level, text = 2, "has {} in view and does not point at it"
        return Measure(
            level,
            f"{the(bed.name, first=True)} {text.format(the(door.name))}",
            scene.length(aside) + " aside" if level == 2 else "",
            "in view, not in line",
        )
