"""The screen seen well from the main seat."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import across, along
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, main_screen, main_seat

LEAST = 1524  # mm, `tv-seat-min`
STEPS = (3500, 3000, 2500)  # mm at most; common practice, no source
# `tv-offaxis-rule`: 45 degrees at most, 30 ideal; tangents in thousandths.
SLOPES = (1000, 577, 577)
ANGLES = (45, 30, 30)


class ScreenView(Rule):
    """The main seat and the screen look at each other, at a good distance and angle.

    The distance is between their fronts, at least 1524 mm. The angle is that
    from the middle of the screen's front to the middle of the seat. Level 1: up
    to 3.5 m and 45 degrees, level 2: up to 3 m and 30 degrees, level 3: up to
    2.5 m. The main seat is the first sofa, else the first easy chair.
    """

    id = "screen-view"
    title = "The screen seen well from the main seat"
    source = "tv-offaxis-rule"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim in rooms with a screen and a seat to watch it from."""
        seat, screen = main_seat(scenario), main_screen(scenario)
        if seat is None or screen is None:
            return []
        return [Claim(self.id, (seat.name, screen.name), self.weight, STEPS, (), self.source)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each way the seat can look: the screen opposite, in the band and the cone."""
        seat, screen = (model.place(n) for n in claim.subjects)
        levels = [model.literal(f"screen within {most}") for most in claim.steps]
        for facing in FACINGS:
            looks = model.faces(seat.name, facing)
            model.one_of([model.faces(screen.name, OPPOSITE[facing])], when=[levels[0], looks])
            front = along(screen, facing)[0]
            middle, edge = sum(along(seat, facing)), along(seat, facing)[1]
            aside = sum(across(screen, facing)) - sum(across(seat, facing))
            model.when([levels[0], looks], front - edge >= LEAST)
            for level, most, slope in zip(levels, claim.steps, SLOPES, strict=True):
                cone = slope * (2 * front - middle)
                model.when([level, looks], front - edge <= most)
                model.when([level, looks], 1000 * aside <= cone, -1000 * aside <= cone)
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance between the fronts, and how far off the screen's axis the seat is."""
        seat, screen = (scene.find(n) for n in claim.subjects)
        way = seat.facing
        front = along(screen, way)[0]
        distance = front - along(seat, way)[1]
        depth = 2 * front - sum(along(seat, way))
        aside = abs(sum(across(screen, way)) - sum(across(seat, way)))
        wanted = f"{scene.length(LEAST)} to {scene.length(claim.steps[-1])}"
        if screen.facing != OPPOSITE[way] or distance < 0:
            text = f"{the(seat.name, first=True)} and {the(screen.name)} do not look at each other"
            return Measure(0, text, "", wanted)
        far = scene.length(distance)
        level = 0
        for most, slope in zip(claim.steps, SLOPES, strict=True):
            if not (LEAST <= distance <= most and 1000 * aside <= slope * depth):
                break
            level += 1
        angle = _off_axis(aside, depth)
        text = f"{the(seat.name, first=True)} is {far} from {the(screen.name)}{angle}"
        return Measure(level, text, far, wanted)


def _off_axis(aside: int, depth: int) -> str:
    for angle, slope in zip(ANGLES, SLOPES, strict=True):
        if 1000 * aside > slope * depth:
            return f", more than {angle} degrees off its axis"
    return ""
