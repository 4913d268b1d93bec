"""The main seat looks at what the room is about."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Spot, across, along, fixture_spot, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import fire, largest_window, main_screen, main_seat, sits_together

# As for a screen (`tv-offaxis-rule`): 45 degrees at most, 30 ideal; tangents in thousandths.
SLOPES = (1000, 577)


class FocalPoint(Rule):
    """The main seat looks at the fireplace or stove, else at the largest window.

    A room without a hearth but with a screen has its focus there, and another
    rule speaks of it: nothing to earn here, nor for an easy chair by itself. The
    middle of the focal point lies in front of the seat, within 45 degrees (level 1)
    or 30 degrees (level 2) of straight ahead, seen from the middle of the seat.
    Common practice, no source.
    """

    id = "focal-point"
    title = "The main seat looks at the focal point"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim in rooms where people sit together and have something to look at."""
        seat, focus = main_seat(scenario), _focus(scenario)
        if seat is None or focus is None or not sits_together(scenario):
            return []
        return [Claim(self.id, (seat.name,), self.weight, (45, 30), (focus.name,))]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each way the seat can look: the focal point in the cone before it."""
        seat = model.place(claim.subjects[0])
        focus = _known(_focus(model.scenario))
        levels = [model.literal(f"{seat.name} looks at {focus.name}") for _ in claim.steps]
        for facing in FACINGS:
            looks = model.faces(seat.name, facing)
            ahead = sum(along(focus, facing)) - sum(along(seat, facing))
            aside = sum(across(focus, facing)) - sum(across(seat, facing))
            for level, slope in zip(levels, SLOPES, strict=True):
                model.when([level, looks], 1000 * aside <= slope * ahead)
                model.when([level, looks], -1000 * aside <= slope * ahead)
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """Where the focal point lies, seen from the seat."""
        seat, focus = scene.find(claim.subjects[0]), _known(_focus(scene.scenario))
        ahead = sum(along(focus, seat.facing)) - sum(along(seat, seat.facing))
        aside = abs(sum(across(focus, seat.facing)) - sum(across(seat, seat.facing)))
        level = sum(1000 * aside <= slope * ahead for slope in SLOPES)
        text = ("does not look at", "looks a little past", "looks at")[level]
        return Measure(
            level, f"{the(seat.name, first=True)} {text} {the(focus.name)}", "", "straight ahead"
        )


def _focus(scenario: Scenario) -> Spot | None:
    room = scenario.room
    hearth = fire(scenario)
    if hearth is not None:
        return fixture_spot(room, hearth)
    window = largest_window(scenario)
    if window is None or main_screen(scenario) is not None:
        return None
    return opening_spot(room, window)


def _known(spot: Spot | None) -> Spot:
    if spot is None:
        raise ValueError("a claim on the focal point of a room without one")
    return spot
