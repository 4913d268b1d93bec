"""The bed sees the door, far from it and not in line with it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Door, Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import nearest_facing, opening_span
from arrange.geometry.spots import (
    PILLOW,
    Bounded,
    Coordinate,
    Spot,
    across,
    along,
    middle2,
    opening_spot,
    pillow,
)
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds, entrance

TALL = 1100  # mm; what hides a door from who lies down; common practice, no source
# Across the plan, up it, and evenly between.
DIRECTIONS = [
    (x * sign, y * turn)
    for x, y in ((1, 0), (0, 1), (1, 1), (1, 2), (2, 1))
    for sign in ((1, -1) if x else (1,))
    for turn in ((1, -1) if y else (1,))
]


class BedSeesDoor(Rule):
    """From the pillow the door is in view; the bed is aside of it and far away.

    Level 1: the middle of the main door's opening lies at least 500 mm ahead of the
    mattress's head, so that it is seen without turning round, and nothing tall hides it: each
    piece of 1.1 m or more lies beside the line from the middle of the pillow to that of
    the opening, in one of 16 directions. Level 2: besides, the bed is
    outside the doorway's width, drawn straight into the room (edges may touch). Level 3:
    besides, its middle is as far from that of the doorway as the middle of the room is,
    by the larger of the distances across and up the plan. Level 4, for a door with one leaf
    that swings in with room for the bed on its hinge side: it is on that side, where the
    leaf screens it. Whether its head is under a window is a matter of its own. Source
    `bed-door-study`.
    """

    id = "bed-sees-door"
    title = "The bed sees the door, far off and not in line with it"
    source = "bed-door-study"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a bed, in rooms with a door."""
        if scenario.room.main_door is None:
            return []
        return [
            Claim(self.id, (bed.name,), self.weight, _steps(scenario.room, bed), (), self.source)
            for bed in beds(scenario)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each way the bed can look the door ahead; then aside of it, far off, screened."""
        bed, room = model.place(claim.subjects[0]), model.scenario.room
        door = opening_spot(room, entrance(room))
        sees, clear, far = (model.literal() for _ in range(3))
        for facing in FACINGS:
            ahead = 2 * (along(bed, facing)[0] + _eyes(bed.piece)) <= sum(along(door, facing))
            model.when([sees, model.faces(bed.name, facing)], ahead)
        for name in _screens(model.scenario, bed.name):
            self._beside_the_line(model, sees, bed.name, name)
        (first, last), (start, end) = (across(x, _inwards(room)) for x in (bed, door))
        low, high = model.literal(), model.literal()
        model.when(low, last <= start)
        model.when(high, first >= end)
        model.one_of([low, high], when=[clear])
        least, ways = _room_away(room, door), [model.literal() for _ in FACINGS]
        for way, away in zip(ways, _away(bed, door), strict=True):
            model.when(way, away >= least)
        model.one_of(ways, when=[far])
        if len(claim.steps) == 3:
            return [sees, clear, far]
        screened = model.literal()
        model.implies(screened, low if _screened(room) == "low" else high)
        return [sees, clear, far, screened]

    @staticmethod
    def _beside_the_line(model: Verbs[L], sees: L, bed: str, name: str) -> None:
        room, place = model.scenario.room, model.place(name)
        door2 = middle2(opening_spot(room, entrance(room)))
        for facing in FACINGS:
            eye2, ways = _eye2(model.place(bed), model.scenario.piece(bed), facing), []
            for direction in DIRECTIONS:
                way = model.literal()
                model.when(way, *[s >= 0 for s in _beyond2(place, direction, eye2, door2)])
                ways.append(way)
            model.one_of(ways, when=[sees, model.faces(bed, facing)])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far ahead of the head the door is, and where the bed is from it."""
        bed, room = scene.find(claim.subjects[0]), scene.scenario.room
        door = opening_spot(room, entrance(room))
        (first, last), (start, end) = (across(x, _inwards(room)) for x in (bed, door))
        aside = {"low": start - last, "high": first - end}
        head = along(bed, bed.facing)[0]
        ahead = 2 * (head + _eyes(bed.piece)) <= sum(along(door, bed.facing))
        hidden_by = _hidden_by(scene, bed)
        met = (
            ahead and not hidden_by,
            max(aside.values()) >= 0,
            max(_away(bed, door)) >= _room_away(room, door),
            aside[_screened(room)] >= 0,
        )
        level = 0
        while level < len(claim.steps) and met[level]:
            level += 1
        text = (
            "does not have {} in view",
            "stands in line with {}",
            "has {} in view, but stands in the half of the room nearer to it",
            "has {} in view from the far half of the room",
            "has {} in view from the far half of the room, and the open door screens it",
        )[level]
        if level == 3 < len(claim.steps):
            text += ", but the open door does not screen it"
        said = f"{the(bed.name, first=True)} {text.format(the(door.name))}"
        if ahead and hidden_by:
            said = f"{the(hidden_by, first=True)} hides {the(door.name)} from {the(bed.name)}"
        away = scene.length(max(0, *aside.values())) + " aside" if level > 1 else ""
        return Measure(level, said, away, "in view, far off, not in line")


def _screens(scenario: Scenario, bed: str) -> list[str]:
    """What stands so high that nobody lying down sees over it."""
    high = [p for p in scenario.pieces if p.top >= TALL and not p.is_a("light")]
    return [p.name for p in high if not p.bottom and p.name != bed]


def _hidden_by(scene: Scene, bed: Placed) -> str:
    """The first piece that is in the line from the pillow to the door; "" if none is."""
    room = scene.scenario.room
    eye2 = _eye2(bed, bed.piece, bed.facing)
    door2 = middle2(opening_spot(room, entrance(room)))
    for name in _screens(scene.scenario, bed.name):
        placed = scene.find(name)
        if not any(min(_beyond2(placed, way, eye2, door2)) >= 0 for way in DIRECTIONS):
            return name
    return ""


def _eyes(bed: Piece) -> int:
    """How far ahead of the back of the bed what lies before the pillow begins, in mm."""
    return bed.headboard + PILLOW


def _eye2(bed: Bounded, piece: Piece, facing: Facing) -> tuple[Coordinate, Coordinate]:
    """Twice the middle of the pillow."""
    return middle2(pillow(bed, piece, facing))


def _beyond2(
    box: Bounded,
    direction: tuple[int, int],
    *points2: tuple[Coordinate, Coordinate],
) -> list[Coordinate]:
    """Twice how far a box is beyond each point, going one way; times a constant."""
    dx, dy = direction
    nearest = dx * (box.x0 if dx > 0 else box.x1) + dy * (box.y0 if dy > 0 else box.y1)
    return [2 * nearest - dx * x - dy * y for x, y in points2]


def _inwards(room: Room) -> Facing:
    """The way somebody looks who comes in by the main door (the nearest if aslant)."""
    return nearest_facing(room.walls[entrance(room).wall])


def _away(one: Bounded, two: Bounded) -> list[Coordinate]:
    """Twice the distance of the middles, each way across and up the plan."""
    x, y = (a - b for a, b in zip(middle2(one), middle2(two), strict=True))
    return [x, -x, y, -y]


def _room_away(room: Room, door: Spot) -> int:
    """Twice the distance of the room's middle from the doorway's, the larger way."""
    return int(max(_away(Spot("room", *room.bounds), door)))


def _screened(room: Room) -> Literal["low", "high"]:
    """On which side of the main doorway the hinges are, by the plan's coordinates."""
    door = entrance(room)
    ends = opening_span(room, door)
    hinge, other = ends if door.hinge == "left" else ends[::-1]
    axis = 0 if _inwards(room) in ("up", "down") else 1
    return "low" if hinge[axis] < other[axis] else "high"


def _steps(room: Room, bed: Piece) -> tuple[int, ...]:
    """Three levels, and a fourth where the bed has room on the side of the hinges."""
    return (1, 2, 3, 4) if _has_room_aside(room, entrance(room), bed) else (1, 2, 3)


def _has_room_aside(room: Room, door: Door, bed: Piece) -> bool:
    way = _inwards(room)
    (start, end), (low, high) = (
        across(x, way) for x in (opening_spot(room, door), Spot("room", *room.bounds))
    )
    space = start - low if _screened(room) == "low" else high - end
    return door.opens == "in" and door.leaves == 1 and bool(space >= min(bed.width, bed.depth))
