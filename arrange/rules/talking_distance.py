"""Seats near enough to talk."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import main_seat, other_seats
from arrange.rules.spots_near import to_the_nearest

# 2438 mm is `talk-seats-max`, chairs apart at most to talk; 1829 mm is `sit-facing-max`,
# the usual upper limit for talk between facing pieces. Both are gaps, not circles.
STEPS = (2438, 1829)


class TalkingDistance(Rule):
    """Every seat is within 2438 mm, better 1829 mm, of the main seat.

    The main seat is the first sofa, else the first easy chair. The distance is
    the larger of the gap across and the gap up the plan between their bounds.
    Seats at desks and tables, benches, and seats tied to the main seat (they
    are beside it anyway) do not count. There is no least distance: 1.2 m from one head to
    the other is kept by the seats themselves.
    """

    id = "talking-distance"
    title = "Seats within talking distance"
    source = "sit-facing-max"
    takes = ("comfortable",)
    distances = True

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a seat that is not the main one."""
        main = main_seat(scenario)
        return [
            Claim(self.id, (seat.name, main.name), self.weight, STEPS, (), self.source)
            for seat in other_seats(scenario)
            if main is not None and main.name != seat.anchor and seat.name != main.anchor
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near the main seat."""
        seat, main = (model.place(n) for n in claim.subjects)
        return model.levels_near(seat, [main], claim.steps)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance between the two seats."""
        return to_the_nearest(scene, claim, [scene.find(claim.subjects[1])])
