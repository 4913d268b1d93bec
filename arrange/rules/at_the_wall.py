"""Beds for one and desks stand at the wall, so that the middle of the room stays free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from arrange.data.lengths import listed, the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, Coordinate, across, along, opening_spot, wall_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, beds, use_of

CLOSE = 100  # mm off a wall that still is at it; common practice, no source
BACKS = 150  # mm between two backs that stand together; common practice, no source
HELPED = 800  # mm of walkway from which somebody may need both sides of a bed; common practice


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a piece: a long side, any side but the front, or the back at a wall."""

    what: Literal["side", "touch", "back"]
    piece: Piece


class AtTheWall(Rule):
    """A bed for one has a long side at a wall, a desk its back; each counts.

    A side is at a wall within 10 cm, along half of it or more. Twin beds in a bedroom and
    beds in a room with wide walkways are free to stand in the room: a pair is centred, and
    who helps needs both sides. A desk counts twice: for an end or its back at a wall, and
    for its back; so one that juts into the room has half. Back to back with a sofa it is as good
    as at the wall, back to back with another desk as good as with its back there. In an
    office a desk is only asked to have its back at a wall or to look at a door, within 45
    degrees: there it may have the middle of the room. Walls aslant are not measured. Common
    practice, no source.
    """

    id = "at-the-wall"
    title = "Single beds and desks against a wall"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts what is asked of all of them."""
        asked = _asked(scenario)
        names = tuple(dict.fromkeys(one.piece.name for one in asked))
        steps = (CLOSE,) * len(asked)
        return [Claim(self.id, names, self.weight, steps, counted=True)] if asked else []

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each thing asked, one of the ways in which it is so."""
        del claim
        return model.tally([_kept(model, one) for one in _asked(model.scenario)])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many are as asked, and the first that is not."""
        asked = _asked(scene.scenario)
        wrong = [one for one in asked if not _is_kept(scene, one)]
        level, wanted = len(asked) - len(wrong), f"within {scene.length(CLOSE)}"
        if wrong:
            return Measure(level, _words(wrong[0]), f"{level} of {len(asked)}", wanted)
        return Measure(level, _praise(scene, claim, asked), f"{level} of {len(asked)}", wanted)


def _asked(scenario: Scenario) -> list[Asked]:
    """Everything asked, in an order that the file has no part in."""
    found = [Asked("side", bed) for bed in _single(scenario)]
    desks = sorted((p for p in scenario.pieces if _is_desk(p)), key=canonical)
    if use_of(scenario) == "office":
        return [*found, *(Asked("back", desk) for desk in desks)]
    return [*found, *(Asked(what, desk) for desk in desks for what in ("touch", "back"))]


def _is_desk(piece: Piece) -> bool:
    return piece.is_a("desk") and piece.anchor is None and piece.bottom == 0


def _single(scenario: Scenario) -> list[Piece]:
    """The beds that are asked."""
    found = [p for p in beds(scenario) if not p.is_a("for two") and p.anchor is None]
    twins = use_of(scenario) == "bedroom" and len(found) > 1
    return [] if twins or scenario.walkway >= HELPED else sorted(found, key=canonical)


def _partners(scenario: Scenario, asked: Asked) -> list[Piece]:
    """What its back may stand against instead of a wall."""
    if asked.what == "side":
        return []
    roles = {"sofa"} if asked.what == "touch" else {"sofa", "desk"}
    others = [p for p in scenario.pieces if p.roles & roles and p.name != asked.piece.name]
    return [p for p in others if p.width >= _half_width(asked.piece)]


def _half_width(piece: Piece) -> int:
    return -(-piece.width // 2)


# -- for both faces ------------------------------------------------------
def _half(asked: Asked, facing: Facing, inward: Facing) -> int | None:
    """Half the side that it would have at a wall that looks ``inward``; None if none is asked."""
    ends = facing not in (inward, OPPOSITE[inward])
    piece = asked.piece
    if ends:
        return None if asked.what == "back" else -(-piece.depth // 2)
    if facing == OPPOSITE[inward] or asked.what == "side":
        return None
    return _half_width(piece)


def _spare(
    piece: Bounded, behind: Bounded, facing: Facing, half: int, most: int
) -> Sequence[Coordinate]:
    """What is to spare of each thing that puts it at most so far before a wall or a back.

    All are at least 0 where it is. ``facing`` is the way that wall or back looks from it.
    """
    gap = along(piece, facing)[0] - along(behind, facing)[1]
    (a, b), (c, d) = across(piece, facing), across(behind, facing)
    return gap, most - gap, b - c - half, d - a - half


def _spare_to_door(piece: Bounded, door: Bounded, facing: Facing) -> Sequence[Coordinate]:
    """The same of what has somebody who sits at its front look at a door."""
    ahead = 2 * along(piece, facing)[1] - sum(along(door, facing))
    aside = sum(across(door, facing)) - sum(across(piece, facing))
    return ahead - aside, ahead + aside


def _walls(
    scenario: Scenario, asked: Asked, facing: Facing
) -> Sequence[tuple[Bounded, Facing, int]]:
    """The walls it could stand at so, which way they look, and half the side it has there."""
    found = []
    for wall in scenario.room.walls:
        half = None if wall.facing is None else _half(asked, facing, wall.facing)
        if wall.facing is not None and half is not None and wall.length >= half:
            found.append((wall_spot(wall), wall.facing, half))
    return found


def _doors(scenario: Scenario) -> list[Bounded]:
    """The doors that somebody at a desk may look at instead."""
    if use_of(scenario) != "office":
        return []
    return [opening_spot(scenario.room, door) for door in scenario.room.doors]


# -- the model's face ----------------------------------------------------
def _kept(model: Verbs[L], asked: Asked) -> L:
    scenario, name = model.scenario, asked.piece.name
    place, kept = model.place(name), model.literal(f"{name} {asked.what} at the wall")
    ways: list[L] = []

    def way(spares: Sequence[Coordinate], *looks: L) -> None:
        ways.append(model.literal())
        model.implies(ways[-1], *looks)
        model.when(ways[-1], *(spare >= 0 for spare in spares))

    half_width = _half_width(asked.piece)
    for facing in FACINGS:
        looks = model.faces(name, facing)
        for wall, inward, half in _walls(scenario, asked, facing):
            way(_spare(place, wall, inward, half, CLOSE), looks)
        for partner in _partners(scenario, asked):
            turned = model.faces(partner.name, OPPOSITE[facing])
            there = model.place(partner.name)
            way(_spare(place, there, facing, half_width, BACKS), looks, turned)
        for door in _doors(scenario) if asked.what == "back" else []:
            way(_spare_to_door(place, door, facing), looks)
    model.one_of(ways, when=[kept])
    return kept


# -- the judge's face ----------------------------------------------------
def _is_kept(scene: Scene, asked: Asked) -> bool:
    placed = scene.find(asked.piece.name)
    scenario, facing = scene.scenario, placed.facing
    if _is_at_wall(scene, asked):
        return True
    if any(_back_to_back(placed, scene.find(p.name)) for p in _partners(scenario, asked)):
        return True
    doors = _doors(scenario) if asked.what == "back" else []
    return any(min(_spare_to_door(placed, door, facing)) >= 0 for door in doors)


def _is_at_wall(scene: Scene, asked: Asked) -> bool:
    placed = scene.find(asked.piece.name)
    walls = _walls(scene.scenario, asked, placed.facing)
    return any(min(_spare(placed, *wall, CLOSE)) >= 0 for wall in walls)


def _back_to_back(placed: Placed, other: Placed) -> bool:
    if other.facing != OPPOSITE[placed.facing]:
        return False
    spares = _spare(placed, other, placed.facing, _half_width(placed.piece), BACKS)
    return bool(min(spares) >= 0)


def _words(asked: Asked) -> str:
    name = the(asked.piece.name, first=True)
    return {
        "side": f"{name} has no long side against a wall",
        "touch": f"{name} stands in the middle of the room",
        "back": f"{name} juts out into the room",
    }[asked.what]


def _praise(scene: Scene, claim: Claim, asked: Sequence[Asked]) -> str:
    names = [the(name, first=not i) for i, name in enumerate(claim.subjects)]
    if use_of(scene.scenario) == "office":
        verb, it = ("has", "it") if len(names) == 1 else ("have", "them")
        return f"{listed(names)} {verb} a wall behind {it} or a door in view"
    verb = "stands" if len(names) == 1 else "stand"
    paired = not all(_is_at_wall(scene, one) for one in asked)
    return f"{listed(names)} {verb} against the wall{' or back to back' if paired else ''}"
