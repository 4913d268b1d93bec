"""Something to put a cup on, in reach of every seat."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, across, along, gap, seated
from arrange.rules.groups import coffee_tables, easy_seats
from arrange.rules.protocol import Condition, L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

REACH = 600  # mm; `surface-reach-mm`
# `coffee-gap-mag`: 356 to 457 mm from the seat, in whole cm outwards. Not 450 at most: legs
# are comfortable from 457 on, so that no place would have both.
LEAST, MOST = 350, 460
LARGE = {"dine", "desk", "dress", "hobby"}


class CupInReach(Rule):
    """Each easy seat has a table within 60 cm; the coffee table is 35 to 46 cm before one.

    Tables to put a cup on are coffee, side, console and bedside tables. The distance is the
    larger of the gap across and the gap up the plan. The middle of a coffee table lies
    before the seat it is tied to, or before any. Nobody moves a coffee table to a chair to
    read in: that counts only where there is a table of another kind, not tied to a bed.
    """

    id = "cup-in-reach"
    title = "Something to put a cup on"
    source = "surface-reach-mm"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts the seats and the coffee tables."""
        things = (*_seats(scenario), *coffee_tables(scenario))
        if not _tables(scenario) or not _seats(scenario):
            return []
        names, steps = tuple(p.name for p in things), (REACH,) * len(things)
        return [Claim(self.id, names, self.weight, steps, (), self.source, counted=True)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each seat near one of the tables, each coffee table before one of the seats."""
        del claim
        scenario = model.scenario
        tables = [model.place(p.name) for p in _tables(scenario)]
        good: list[L] = []
        for seat in _seats(scenario):
            good.append(model.literal(f"a cup at {seat.name}"))
            model.near_one(good[-1], model.place(seat.name), tables, REACH)
        for table in coffee_tables(scenario):
            before = [self._before(model, table, seat) for seat in _served(scenario, table)]
            good.append(model.literal(f"{table.name} before a seat"))
            model.one_of(before, when=[good[-1]])
        return model.tally(good)

    @staticmethod
    def _before(model: Verbs[L], table: Piece, seat: Piece) -> L:
        before = model.literal(f"{table.name} before {seat.name}")
        for facing in FACINGS:
            before_it = seated(model.place(seat.name), seat, facing)
            ends = _conditions(model.place(table.name), before_it, facing)
            model.when([before, model.faces(seat.name, facing)], *ends)
        return before

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many are as they should be, and the first that is not."""
        wrong = [*_seats_without(scene), *_coffee_tables_off(scene)]
        things = len(claim.steps)
        level = things - len(wrong)
        text = wrong[0] if wrong else "Every seat has something to put a cup on"
        wanted = f"within {scene.length(REACH)}"
        return Measure(level, text, f"{level} of {things}", wanted)


def _tables(scenario: Scenario) -> list[Piece]:
    """Tables to put a cup on; none if all of them belong to beds."""
    small = [p for p in scenario.pieces if p.roles & {"table", "bedside"} and not p.roles & LARGE]
    return small if any(_at_hand(scenario, p) for p in small) else []


def _at_hand(scenario: Scenario, table: Piece) -> bool:
    return table.anchor is None or scenario.piece(table.anchor).is_a("seat")


def _seats(scenario: Scenario) -> list[Piece]:
    others = any(_at_hand(scenario, p) and not p.is_a("coffee") for p in _tables(scenario))
    return [seat for seat in easy_seats(scenario) if others or not seat.is_a("read")]


def _served(scenario: Scenario, table: Piece) -> list[Piece]:
    """The seats that a coffee table may stand before."""
    seats = _seats(scenario)
    return [seat for seat in seats if seat.name == table.anchor] or seats


def _conditions(table: Bounded, seat: Bounded, facing: Facing) -> Sequence[Condition]:
    """What makes a coffee table stand before a seat that looks that way, as far as it should."""
    away = along(table, facing)[0] - along(seat, facing)[1]
    middle, (low, high) = sum(across(table, facing)), across(seat, facing)
    return away >= LEAST, away <= MOST, middle >= 2 * low, middle <= 2 * high


def _seats_without(scene: Scene) -> list[str]:
    tables = [scene.find(p.name) for p in _tables(scene.scenario)]
    found: list[str] = []
    for seat in (scene.find(p.name) for p in _seats(scene.scenario)):
        nearest = min(tables, key=lambda table: gap(seat, table))
        away = gap(seat, nearest)
        if away > REACH:
            where = f"{the(nearest.name)} is {scene.length(away)} away"
            found.append(f"{the(seat.name, first=True)} has no table in reach: {where}")
    return found


def _coffee_tables_off(scene: Scene) -> list[str]:
    found: list[str] = []
    for table in (scene.find(p.name) for p in coffee_tables(scene.scenario)):
        seats = [scene.find(p.name) for p in _served(scene.scenario, table.piece)]
        if not any(all(_conditions(table, _sat_in(seat), seat.facing)) for seat in seats):
            found.append(_off(scene, table, min(seats, key=lambda seat: gap(table, seat))))
    return found


def _sat_in(seat: Placed) -> Bounded:
    return seated(seat, seat.piece, seat.facing)


def _off(scene: Scene, table: Placed, seat: Placed) -> str:
    away = along(table, seat.facing)[0] - along(_sat_in(seat), seat.facing)[1]
    if away < 0 or not all(_conditions(table, _sat_in(seat), seat.facing)[2:]):
        return f"{the(table.name, first=True)} does not stand in front of {the(seat.name)}"
    return f"{the(table.name, first=True)} is {scene.how_far(away)} the front of {the(seat.name)}"
