"""Small things stand in a corner, at a window or beside something larger."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.spots import Bounded, Coordinate, Spot, along, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import corner_at

NEAR = 300  # mm to the corner, the window or the larger piece; common practice, no source
SMALL = 700  # mm wide and deep at most; common practice, no source
LARGE = 600  # mm wide at least is what they stand beside; common practice, no source
# What has a place of its own by other rules, and what nothing small is set beside.
NOT_ASKED = {"seat", "table", "bedside", "rug", "footstool", "mirror", "dress", "music", "screen"}
NO_HOST = {"rug", "coffee", "dine", "dining seat", "light", "plant", "work seat"}
LAMP_HOST = {"side", "bedside"}


class Tucked(Rule):
    """A plant, a lamp, a basket or a trolley is within 30 cm of what it can lean on.

    That is a corner of the room that turns inwards, a window, or a piece at least 60 cm wide, not
    before its front: the middle of the small thing lies no farther ahead. A lamp may stand
    at a side or bedside table and at a bed as well, but a window is no place for it. Each
    thing counts. A plant at the foot of a bed or a lamp out in the room is a thing to walk
    into. What has floor of its own to keep free is not small. The distance is the larger
    of the gaps across and up the plan. Common practice, no source.
    """

    id = "tucked"
    title = "Small things in corners and beside larger ones"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts them."""
        found = sorted((p for p in scenario.pieces if _is_small(p)), key=canonical)
        steps = (NEAR,) * len(found)
        names = tuple(piece.name for piece in found)
        return [Claim(self.id, names, self.weight, steps, counted=True)] if found else []

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each near a corner or window, or beside one of the larger pieces."""
        return model.tally([_kept(model, name) for name in claim.subjects])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many are, and the first that is not."""
        wrong = [name for name in claim.subjects if not _beside(scene, scene.find(name))]
        level, total = len(claim.subjects) - len(wrong), len(claim.subjects)
        counted, wanted = f"{level} of {total}", f"within {scene.length(NEAR)}"
        if wrong:
            name = the(wrong[0], first=True)
            text = f"{name} stands by itself, neither in a corner nor beside anything"
        elif total == 1:
            name, there = claim.subjects[0], _beside(scene, scene.find(claim.subjects[0]))
            text = f"{the(name, first=True)} stands {there}"
        else:
            text = "Small things stand in corners or beside larger ones"
        return Measure(level, text, counted, wanted)


def _is_small(piece: Piece) -> bool:
    stands = piece.bottom == 0 and not piece.flat and not piece.clearances
    small = max(piece.width, piece.depth) <= SMALL
    if piece.is_a("light"):
        return stands and piece.bottom < HEAD
    known = bool(piece.roles) and not piece.roles & NOT_ASKED
    return stands and small and known and piece.anchor is None


def _hosts(scenario: Scenario, thing: Piece) -> list[Piece]:
    """What it may stand beside."""
    lamp = thing.is_a("light")
    return [
        p
        for p in scenario.pieces
        if p.bottom == 0
        and not p.flat
        and not p.roles & NO_HOST
        and (lamp or not p.is_a("bed") or p.is_a("seat"))
        and (p.width >= LARGE or (lamp and p.roles & LAMP_HOST))
        and p.name != thing.name
        and not _is_small(p)
    ]


def _spots(room: Room, thing: Piece) -> list[Spot]:
    """The corners that turn inwards; for all but lamps the windows too."""
    found = []
    for index, wall in enumerate(room.walls):
        if corner_at(room, index):
            x, y = (round(value) for value in wall.start)
            found.append(Spot("in a corner", x, y, x, y))
    if not thing.is_a("light"):
        spots = [opening_spot(room, w) for w in room.windows]
        found += [Spot(f"at {the(s.name)}", s.x0, s.y0, s.x1, s.y1) for s in spots]
    return found


def _behind_front(thing: Bounded, host: Bounded, facing: Facing) -> Coordinate:
    """Twice how far its middle is behind the front of what it stands beside."""
    return 2 * along(host, facing)[1] - sum(along(thing, facing))


def _kept(model: Verbs[L], name: str) -> L:
    """The model's face."""
    scenario, kept = model.scenario, model.literal(f"{name} tucked in")
    thing = model.place(name)
    ways = [model.literal() for _ in _spots(scenario.room, thing.piece)]
    for way, spot in zip(ways, _spots(scenario.room, thing.piece), strict=True):
        model.near(way, thing, spot, NEAR)
    for piece in _hosts(scenario, thing.piece):
        host, way = model.place(piece.name), model.literal()
        model.near(way, thing, host, NEAR)
        for facing in FACINGS:
            looks = [way, model.faces(piece.name, facing)]
            model.when(looks, _behind_front(thing, host, facing) >= 0)
        ways.append(way)
    model.one_of(ways, when=[kept])
    return kept


def _beside(scene: Scene, thing: Placed) -> str:
    """The judge's face: where it stands, in words; empty if nowhere."""
    for spot in _spots(scene.scenario.room, thing.piece):
        if gap(thing, spot) <= NEAR:
            return spot.name
    for piece in _hosts(scene.scenario, thing.piece):
        host = scene.find(piece.name)
        if gap(thing, host) <= NEAR and _behind_front(thing, host, host.facing) >= 0:
            return f"beside {the(piece.name)}"
    return ""
