"""Somewhere to arrive in a hall."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import wall_strip
from arrange.geometry.spots import Bounded, Spot, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import entrance, use_of

WIDE, DEEP = 900, 1200  # mm of floor inside the door: `hall-width` has 1300 by 900
PUT_DOWN = 1500  # mm from the door to where keys and bags go; common practice, no source
HANDY = (600, 1100)  # mm; heights at which things are put down standing; common practice
BESIDE = 600  # mm from where one sits to the shoes; common practice, no source


class Arriving(Rule):
    """A hall has free floor inside its door, a place to put things, a seat by the shoes.

    The floor, 900 mm wide and 1200 mm deep in the middle of the main door (moved along
    its wall where a corner is nearer), is of first rank: without it nobody gets in with
    bags. A top 600 to 1100 mm high is within 1.5 m of the door; a seat is within 600 mm of
    shoe storage. These two earn points alone: a hall without can be lived with. Source
    `hall-width`, else common practice.
    """

    id = "arriving"
    title = "Somewhere to arrive"
    source = "hall-width"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """Up to three claims, in halls with a door."""
        if use_of(scenario) != "hall" or scenario.room.main_door is None:
            return []
        floor = Claim(self.id, (), self.weight, (DEEP,), ("floor",), self.source, first_rank=True)
        found = [floor]
        if _places(scenario):
            found.append(Claim(self.id, (), self.weight, (PUT_DOWN,), ("put down",)))
        if _seats(scenario) and _shoes(scenario):
            found.append(Claim(self.id, (), self.weight, (BESIDE,), ("shoes",)))
        return found

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Everything that stands is off the floor; or one piece is near enough."""
        scenario, level = model.scenario, model.literal(f"arriving: {claim.about[0]}")
        if claim.about[0] == "floor":
            for piece in scenario.pieces:
                if not piece.flat and piece.bottom < HEAD:
                    model.off_floor(level, piece.name, _floor(scenario))
            return [level]
        choices = []
        for one, others in _pairs(scenario, claim):
            choice = model.literal()
            spot: Bounded = model.place(one.name) if one else _door(scenario)
            model.near_one(choice, spot, [model.place(p.name) for p in others], claim.steps[0])
            choices.append(choice)
        model.one_of(choices, when=[level])
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """What stands on the floor; or the nearest piece, and how far it is."""
        scenario, wanted = scene.scenario, scene.length(claim.steps[0])
        door = the(entrance(scenario.room).name)
        if claim.about[0] == "floor":
            on = [p.name for p in scene.standing if scene.stands_on(p, _floor(scenario))]
            size = f"{scene.length(WIDE)} by {scene.length(DEEP)}"
            free = f"There is {size} of free floor just inside {door}"
            said = f"{the(on[0], first=True)} stands where people come in" if on else free
            return Measure(int(not on), said, on[0] if on else size, size)
        away, name, other = min(
            (
                gap(scene.find(one.name) if one else _door(scenario), scene.find(p.name)),
                p.name,
                one.name if one else "",
            )
            for one, others in _pairs(scenario, claim)
            for p in others
        )
        far = scene.length(away)
        to = the(other) if other else door
        said = f"{the(name, first=True)} is {scene.how_far(away)} {to}"
        return Measure(int(away <= claim.steps[0]), said, far, wanted)


def _pairs(scenario: Scenario, claim: Claim) -> list[tuple[Piece | None, list[Piece]]]:
    """What is to be near one of which; the door in place of None."""
    if claim.about[0] == "put down":
        return [(None, _places(scenario))]
    return [(seat, _shoes(scenario)) for seat in _seats(scenario)]


def _door(scenario: Scenario) -> Spot:
    return opening_spot(scenario.room, entrance(scenario.room))


def _floor(scenario: Scenario) -> Polygon:
    door = entrance(scenario.room)
    wall = scenario.room.walls[door.wall]
    wide = WIDE if door.is_wide else max(WIDE, door.width)
    start = min(door.offset + (door.width - wide) / 2, wall.length - wide)
    return wall_strip(wall, max(start, 0), wide, DEEP)


def _places(scenario: Scenario) -> list[Piece]:
    low, high = HANDY
    return [
        p
        for p in scenario.pieces
        if p.roles & {"table", "store"} and low <= p.top <= high and not p.flat
    ]


def _seats(scenario: Scenario) -> list[Piece]:
    return [p for p in scenario.pieces if p.is_a("seat")]


def _shoes(scenario: Scenario) -> list[Piece]:
    return [p for p in scenario.pieces if {"store", "entrance"} <= p.roles]
