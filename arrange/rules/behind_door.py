"""Nothing that is used from its front stands behind an open door."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import listed, the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Door, Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import leaf_floor, wall_strip
from arrange.geometry.spots import Bounded, Coordinate, Spot, across, along, spot_of
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

SHALLOW = 120  # mm; a mirror or shelf this deep is used with the door shut; common practice
STANDING = 400  # mm; somebody before a piece; common practice, no source
SHARE = 3  # tenths of its front that may be behind the door; common practice, no source


class BehindDoor(Rule):
    """No piece has more than 30 % of its front behind an open leaf or in its swing.

    Behind a leaf is the floor that it takes when thrown right back: a square of its
    width beside the hinges; a leaf that folds is not thrown back. In its swing are those who
    stand 400 mm before the front: the floor before the door as deep as the leaf comes in.
    Asked of what is used from its front alone, and of each door that opens in on an upright
    wall; a mirror or shelf up to 120 mm deep can be used with the door shut, and counts for
    less. It goes by bounding boxes and nearest quarter turns. Common practice, no source.
    """

    id = "behind-door"
    title = "Nothing to be used behind an open door"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """Two claims, counting deep and shallow pieces, in rooms with a door that opens in."""
        if not _floors(scenario.room):
            return []
        used = [p for p in sorted(scenario.pieces, key=canonical) if _is_used(p)]
        found = []
        for weight, about, shallow in ((3, (), False), (1, ("shallow",), True)):
            names = tuple(p.name for p in used if (p.depth <= SHALLOW) == shallow)
            steps = tuple(range(1, len(names) + 1))
            if names:
                found.append(Claim(self.id, names, weight, steps, about, counted=True))
        return found

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each piece has its front before or beyond the floor of each leaf, or beside it."""
        free: list[L] = []
        for name in claim.subjects:
            clear, place = model.literal(f"{name} not behind a door"), model.place(name)
            for _, floor, reach in _floors(model.scenario.room):
                ways = [model.literal() for _ in range(5)]
                for facing in FACINGS:
                    looks = model.faces(name, facing)
                    spare = _spare(place, facing, floor, reach)
                    for way, room_left in zip(ways, spare, strict=True):
                        model.when([way, looks], room_left >= 0)
                model.one_of(ways, when=[clear])
            free.append(clear)
        return model.tally(free)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """Which pieces have their fronts behind which door."""
        hidden: dict[str, str] = {}
        for name in claim.subjects:
            placed = scene.find(name)
            for door, floor, reach in _floors(scene.scenario.room):
                if max(_spare(placed, placed.facing, floor, reach)) < 0:
                    hidden.setdefault(name, door.name)
        count = len(claim.subjects) - len(hidden)
        if not hidden:
            return Measure(
                count, "Nothing that you open or use is behind an open door", "none", "none"
            )
        names, doors = list(hidden), set(hidden.values())
        opened = the(doors.pop(), first=True) if len(doors) == 1 else "A door"
        whose = listed([the(name) for name in names])
        return Measure(count, f"{opened} opens in front of {whose}", listed(names), "none")


def _is_used(piece: Piece) -> bool:
    """Whether it is used from its front and from there alone."""
    sides = {side for c in piece.clearances if c.least for side in c.sides}
    stands = piece.anchor is None and not piece.flat and piece.bottom < HEAD
    return stands and sides == {"front"}


def _floors(room: Room) -> list[tuple[Door, Spot, int]]:
    """The floors of each door: its leaves thrown back, and swinging before who stands there.

    The last is how far in front of a front it may not lie, in mm.
    """
    found: list[tuple[Door, Spot, int]] = []
    for door in room.all_doors:
        wall = room.walls[door.wall]
        if not door.opens_in or wall.facing is None:
            continue
        for side in () if door.folds else door.sides:
            square = wall_strip(wall, door.beside(side), door.leaf, door.leaf)
            found.append((door, spot_of(door.name, square), 0))
        found.append((door, spot_of(door.name, leaf_floor(room, door)), STANDING))
    return found


def _spare(piece: Bounded, facing: Facing, floor: Spot, reach: int) -> list[Coordinate]:
    """What is to spare each way in which a front keeps off a floor; one way is enough.

    The front is beyond the floor or before it, or not more than its share lies in it.
    """
    front = along(piece, facing)[1]
    (first, last), (start, end) = across(piece, facing), across(floor, facing)
    begins, ends = along(floor, facing)
    share = SHARE * (last - first)
    return [
        front - ends - 1,
        begins - front - reach,
        share - 10 * (last - start),
        share - 10 * (end - first),
        share - 10 * (end - start),
    ]
