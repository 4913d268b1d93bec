"""What is seen first on entering is neither a side nor a back."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely.geometry import Polygon

from arrange.data.lengths import listed, the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.shapes import nearest_facing
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, entrance

TALL = 1100  # mm; what is as high hides the room. Common practice, no source
NEAR = 1500  # mm in from the door, in which something tall blocks the view; common practice
FAR = 2500  # mm in from the door, in which a side or a back comes first; common practice
HALF = math.tan(math.radians(30))  # of the middle 60 degrees; common practice, no source
THIN = 120  # mm deep at a wall, a mirror: such a side is not seen; common practice, no source
SEEN_THROUGH = {"light", "plant"}
BACKED = {"sofa", "lounge", "desk", "screen"}


class FirstLook(Rule):
    """In the middle 60 degrees from the main door no side or back comes first.

    From the middle of the doorway, straight in. Up to 1.5 m in nothing 1.1 m high or
    more stands there, apart from lamps, plants and what is thin and at a wall; up to 2.5 m
    it shows its front to the door, and no sofa, easy chair, desk or screen its back. Beyond
    that other things come first. What stands between does not count: what is hidden from
    the doorway shows at the next step. Turns go by the nearest quarter. Common practice,
    no source.
    """

    id = "first-look"
    title = "A good first look on entering"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, counting the pieces that have a bad side, in rooms with a door."""
        pieces = sorted(scenario.pieces, key=canonical)
        names = tuple(p.name for p in pieces if _is_tall(p) or _has_back(p))
        if scenario.room.main_door is None or not names:
            return []
        steps = tuple(range(1, len(names) + 1))
        return [Claim(self.id, names, self.weight, steps, counted=True)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each piece is off the floor in view, or shows the door a good side."""
        scenario, good = model.scenario, []
        for name in claim.subjects:
            piece, fair = scenario.piece(name), model.literal(f"{name} fair to see")
            if _is_tall(piece):
                model.off_floor(fair, name, _view(scenario, NEAR))
            away = model.literal()
            model.off_floor(away, name, _view(scenario, FAR))
            shown = [model.faces(name, f) for f in FACINGS if _shows_well(scenario, piece, f)]
            model.one_of([away, *shown], when=[fair])
            good.append(fair)
        return model.tally(good)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The pieces that come first with a bad side."""
        bad = [name for name in claim.subjects if _is_bad(scene, scene.find(name))]
        level = len(claim.subjects) - len(bad)
        door = the(entrance(scene.scenario.room).name)
        if not bad:
            return Measure(
                level, f"Nothing shows its side or back as you come in by {door}", "fair", "fair"
            )
        names = [the(name, first=not i) for i, name in enumerate(bad)]
        verb = "is" if len(bad) == 1 else "are"
        first = f"{listed(names)} {verb} what you see first as you come in by {door}"
        said = f"{first}, and not at {'its' if len(bad) == 1 else 'their'} best"
        return Measure(level, said, listed(bad), "fair")


def _is_tall(piece: Piece) -> bool:
    stands = not piece.flat and piece.bottom < HEAD
    if piece.depth <= THIN and piece.backs:
        return False
    return stands and piece.top >= TALL and not piece.roles & SEEN_THROUGH


def _has_back(piece: Piece) -> bool:
    return bool(piece.roles & BACKED)


def _shows_well(scenario: Scenario, piece: Piece, facing: Facing) -> bool:
    """Whether somebody in the door sees a side of it that may be seen."""
    room = scenario.room
    inwards = nearest_facing(room.walls[entrance(room).wall])
    return facing == OPPOSITE[inwards] or not (_is_tall(piece) or facing == inwards)


def _is_bad(scene: Scene, placed: Placed) -> bool:
    scenario = scene.scenario
    if _is_tall(placed.piece) and scene.stands_on(placed, _view(scenario, NEAR)):
        return True
    well = _shows_well(scenario, placed.piece, placed.facing)
    return not well and scene.stands_on(placed, _view(scenario, FAR))


def _view(scenario: Scenario, depth: int) -> Polygon:
    """The floor in the middle of the view, so far in from the main door."""
    door = entrance(scenario.room)
    wall, middle = scenario.room.walls[door.wall], door.offset + door.width / 2
    ends = (wall.point(middle + side * HALF * depth, depth) for side in (-1, 1))
    return Polygon([wall.point(middle), *ends])
