"""Seats that do not stare at a wall, nor turn their back to the door."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import wall_strip
from arrange.geometry.spots import across, along, looking, opening_spot
from arrange.geometry.strips import Outlook
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import entrance

# All common practice, no source; mm.
OUTLOOK = 900  # free of walls and tall pieces before a seat
TALL = (1099, 1200)  # what is 1.1 m high or higher and does not hang above the eye
MIDDLE = 60  # hundredths of a seat's front that look out
LANE = 900  # behind a seat, beyond the door's own floor
BEHIND = 2000  # farther from the door a back stops nobody (`sofa-back-door`)
BESIDE = 600  # beside a doorway, the usual way in
CLOSE = 150  # between a back and what stands behind it
LOW = 1100  # the top of a table or low case to stand behind a seat
BACKED = {"table", "store", "desk"}
NOT_EASY = {"dining seat", "entrance", "work seat"}


class SeatOutlook(Rule):
    """Before a sofa, easy chair or bed bench 90 cm are free of walls and tall pieces.

    Before the middle 60 % of its front; tall is from 1.1 m. Seats in a hall, at a desk, a
    dining or a dressing table do not count. Besides, and for less: a sofa or easy chair that may
    stand free has not the main door right behind its back, within 45 degrees, nearer than
    the door's own floor and a lane of 90 cm beyond it; a wall or a corner at its back mends
    that, or a table, desk or low case right behind the middle of it. The lane alone would always be
    there where the door's floor is, so it begins beyond. Nor does it stand within 60 cm beside
    the doorway, as deep as the door's own floor: whoever comes in would brush past it. Common
    practice, no source.
    """

    id = "seat-outlook"
    title = "No seat stares at a wall, turns its back to the door or stands right beside it"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for all outlooks, one for all backs; both count seats."""
        pieces = sorted(scenario.pieces, key=canonical)
        seats = [p.name for p in pieces if _looks_out(p)]
        backs = [p.name for p in pieces if _may_turn_its_back(p)]
        found = [(seats, 3, OUTLOOK, "outlook")] if seats else []
        if backs and scenario.room.main_door is not None:
            found.append((backs, 1, _near(scenario), "back"))
        return [
            Claim(self.id, tuple(names), weight, (step,) * len(names), (about,), counted=True)
            for names, weight, step, about in found
        ]

    # -- the model's face ------------------------------------------------
    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """As many levels as seats are as they should be."""
        asked = self._out if claim.about == ("outlook",) else self._back
        return model.tally([asked(model, name) for name in claim.subjects])

    @staticmethod
    def _out(model: Verbs[L], name: str) -> L:
        """A free strip before the middle of the front."""
        free, seat = model.literal(f"{name} looks out"), model.place(name)
        strip = model.open_strip(free, TALL, [name])
        half2 = 2 * _half(seat.piece)
        for way in FACINGS:
            looks = [free, model.faces(name, way)]
            (begin, end), (low, high) = along(strip, way), across(strip, way)
            front, middle2 = along(seat, way)[1], sum(across(seat, way))
            model.when(looks, begin == front, end == front + OUTLOOK)
            model.when(looks, 2 * low <= middle2 - half2, 2 * high >= middle2 + half2)
        return free

    @staticmethod
    def _back(model: Verbs[L], name: str) -> L:
        """The door ahead, far behind or well aside, or a wall or something low in between.

        And off the floor beside the doorway.
        """
        scenario, seat = model.scenario, model.place(name)
        door = opening_spot(scenario.room, entrance(scenario.room))
        good, ahead, far, low_side, high_side, at_wall = (model.literal() for _ in range(6))
        model.backed(at_wall, name)
        backing = [(model.literal(), p) for p in _backing(scenario, name)]
        for way in FACINGS:
            looks = model.faces(name, way)
            back, middle2 = along(seat, way)[0], sum(across(seat, way))
            behind2 = 2 * back - sum(along(door, way))
            aside2 = sum(across(door, way)) - middle2
            model.when([ahead, looks], behind2 <= 0)
            model.when([far, looks], behind2 >= 2 * _near(scenario))
            model.when([low_side, looks], aside2 <= -behind2 - 1)
            model.when([high_side, looks], aside2 >= behind2 + 1)
            for stands, piece in backing:
                place = model.place(piece.name)
                end, (low, high) = along(place, way)[1], across(place, way)
                model.when([stands, looks], end <= back, end >= back - CLOSE)
                model.when([stands, looks], 2 * low <= middle2, 2 * high >= middle2)
        choices = [ahead, far, low_side, high_side, at_wall, *[stands for stands, _ in backing]]
        choices += model.corner_choices(name).values()
        model.one_of(choices, when=[good])
        model.off_floor(good, name, _beside(scenario))
        return good

    # -- the judge's face ------------------------------------------------
    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many seats are as they should be, and what is wrong with the first other."""
        out = claim.about == ("outlook",)
        wrong = [
            text
            for name in claim.subjects
            if (text := (_stares if out else _turns)(scene, scene.find(name)))
        ]
        one = len(claim.subjects) == 1
        who = the(claim.subjects[0], first=True) if one else "Every seat" if out else "No seat"
        praise = f"{who} {_good(out=out, one=one)}"
        level = len(claim.subjects) - len(wrong)
        sentence = wrong[0] if wrong else praise
        counted = f"{level} of {len(claim.subjects)}"
        return Measure(level, sentence, counted, scene.length(claim.steps[0]))


def _good(*, out: bool, one: bool) -> str:
    """What is said of one seat that is as it should be, or of all."""
    if out:
        return "looks out freely"
    if one:
        return "does not have its back to the main door, nor is it right beside it"
    return "has its back to the main door or stands right beside it"


def _looks_out(piece: Piece) -> bool:
    easy = piece.roles & {"sofa", "lounge", "bench"}
    return piece.is_a("seat") and bool(easy) and not piece.roles & NOT_EASY


def _may_turn_its_back(piece: Piece) -> bool:
    return not piece.needs_wall and _looks_out(piece) and not piece.is_a("bench")


def _half(seat: Piece) -> int:
    return seat.width * MIDDLE // 200


def _near(scenario: Scenario) -> int:
    """How far behind a back the door is near, in mm."""
    floor = entrance(scenario.room).floor_depth(scenario.walkway)
    return min(BEHIND, floor + LANE)


def _beside(scenario: Scenario) -> Polygon:
    """The floor before the main door and beside it."""
    door = entrance(scenario.room)
    wall, deep = scenario.room.walls[door.wall], door.floor_depth(scenario.walkway)
    return wall_strip(wall, door.offset - BESIDE, door.width + 2 * BESIDE, deep)


def _backing(scenario: Scenario, seat: str) -> list[Piece]:
    """What would do right behind a seat."""
    return [
        p
        for p in scenario.pieces
        if p.roles & BACKED and p.top <= LOW and not (p.bottom or p.is_a("seat") or p.name == seat)
    ]


def _stares(scene: Scene, seat: Placed) -> str:
    """What a seat stares at, in a sentence; empty if it looks out freely."""
    way, half2 = seat.facing, 2 * _half(seat.piece)
    front, middle2 = along(seat, way)[1], sum(across(seat, way))
    aside = (middle2 - half2) // 2, -((-middle2 - half2) // 2)
    strip = looking(way, (front, front + OUTLOOK), aside)
    blocked = Outlook(scene, TALL, [seat.name]).blocked_by(strip)
    if blocked is None:
        return ""
    close = scene.length(OUTLOOK)
    return f"{the(seat.name, first=True)} faces {the(blocked)} less than {close} away"


def _turns(scene: Scene, seat: Placed) -> str:
    """How a seat turns its back to the door or is beside it, in a sentence; empty if neither."""
    way, room = seat.facing, scene.scenario.room
    door = opening_spot(room, entrance(room))
    if scene.stands_on(seat, _beside(scene.scenario)):
        return f"{the(seat.name, first=True)} stands right beside {the(door.name)}"
    back, middle2 = along(seat, way)[0], sum(across(seat, way))
    behind2 = 2 * back - sum(along(door, way))
    aside2 = abs(sum(across(door, way)) - middle2)
    if behind2 <= 0 or behind2 >= 2 * _near(scene.scenario) or aside2 > behind2:
        return ""
    place = seat.placement
    if seat.piece.anchor is None and not (place.wall is None and place.corner is None):
        return ""
    for piece in _backing(scene.scenario, seat.name):
        placed = scene.find(piece.name)
        low, high = across(placed, way)
        if 0 <= back - along(placed, way)[1] <= CLOSE and 2 * low <= middle2 <= 2 * high:
            return ""
    far = scene.length(behind2 // 2)
    return f"{the(seat.name, first=True)} has its back to {the(door.name)}, {far} behind it"
