"""Seats turned to one another."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import along
from arrange.rules.protocol import L, PieceVariables, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, main_seat, other_seats


class SeatsTurned(Rule):
    """A seat and the main seat stand at right angles, or at least face each other.

    They do not look the same way, and the middle of each is not behind the back
    of the other. Directions go by the nearest quarter turn: of the 60 to 150 degrees that
    are best for talk these are the right angles (level 2); face to face, as two sofas
    at a fire stand, is level 1. The same seats count as for talking, and those tied to
    the main seat too; a chair to read in stands by itself, unless no other seat is there
    to talk from.
    """

    id = "seats-turned"
    title = "Seats turned to one another"
    source = "talk-angle"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a seat that is not the main one."""
        main = main_seat(scenario)
        seats = other_seats(scenario)
        if len(seats) > 1:
            seats = [seat for seat in seats if not seat.is_a("read")]
        return [
            Claim(self.id, (seat.name, main.name), self.weight, (180, 90), (), self.source)
            for seat in seats
            if main is not None
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Not the same way, nor for more opposite ways, and each before the other's back."""
        seat, main = (model.place(n) for n in claim.subjects)
        turned = model.literal(f"{seat.name} and {main.name} turned to one another")
        square = model.literal(f"{seat.name} and {main.name} at right angles")
        for facing in FACINGS:
            looks = model.faces(seat.name, facing)
            model.forbid(turned, looks, model.faces(main.name, facing))
            model.forbid(square, looks, model.faces(main.name, OPPOSITE[facing]))
        self._in_front(model, turned, seat, main)
        self._in_front(model, turned, main, seat)
        return [turned, square]

    @staticmethod
    def _in_front(
        model: Verbs[L], turned: L, one: PieceVariables[L], two: PieceVariables[L]
    ) -> None:
        for facing in FACINGS:
            back = along(one, facing)[0]
            model.when([turned, model.faces(one.name, facing)], sum(along(two, facing)) >= 2 * back)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How the two look at one another."""
        seat, main = (scene.find(n) for n in claim.subjects)
        if seat.facing == main.facing:
            level, text = 0, f"faces the same way as {the(main.name)}"
        elif not (_sees(seat, main) and _sees(main, seat)):
            level, text = 0, f"is turned away from {the(main.name)}"
        elif seat.facing == OPPOSITE[main.facing]:
            level, text = 1, f"and {the(main.name)} face each other straight across"
        else:
            level, text = 2, f"and {the(main.name)} are turned towards each other"
        return Measure(level, f"{the(seat.name, first=True)} {text}", "", "at right angles")


def _sees(one: Placed, two: Placed) -> bool:
    """Whether the middle of two is not behind the back of one."""
    begin, end = along(two, one.facing)
    return bool((begin + end) / 2 >= along(one, one.facing)[0])
