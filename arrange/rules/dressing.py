"""A place to dress: clothes, a mirror, room to stand and light in front."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import along, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import strip_before, use_of

NEAR = 2500  # mm from the mirror to the clothes, and between them; common practice, no source
STAND = 900  # mm before a long mirror: 914 to 1524 are advised (`mirror-stand`)


class Dressing(Rule):
    """A mirror is near the clothes, with floor to stand on, the light before the face.

    In bedrooms, for each mirror. Level 1: it is within 2.5 m of every piece that holds
    clothes, and each of those within 2.5 m of another one. Level 2: besides, 900 mm are free
    before it. Level 3, in rooms with a window: besides, the middle of some window is not
    behind somebody who stands there. Distances are the larger of the gaps across and up the
    plan. Source `mirror-light` for the light, else common practice.
    """

    id = "dressing"
    title = "A place to dress"
    source = "mirror-light"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each mirror, in bedrooms with clothes."""
        if use_of(scenario) != "bedroom" or not _clothes(scenario):
            return []
        steps = (1, 2, 3) if scenario.room.windows else (1, 2)
        return [
            Claim(self.id, (piece.name,), self.weight, steps, (), self.source)
            for piece in scenario.pieces
            if piece.is_a("mirror")
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near all clothes; the strip free; one of the windows no farther than who stands."""
        name, scenario = claim.subjects[0], model.scenario
        mirror, near = model.place(name), model.literal(f"{name} near the clothes")
        places = [model.place(piece.name) for piece in _clothes(scenario)]
        for place in places:
            model.near(near, mirror, place, NEAR)
            others = [other for other in places if other.name != place.name]
            if others:
                model.near_one(near, place, others, NEAR)
        stand = model.strip(name, strip_before(STAND))
        both = model.literal()
        model.implies(both, stand)
        if len(claim.steps) == 2:
            return [near, both]
        lit, choices = model.literal(f"light before {name}"), []
        for window in scenario.room.windows:
            choice, spot = model.literal(), opening_spot(scenario.room, window)
            for facing in FACINGS:
                ahead = 2 * (along(mirror, facing)[1] + STAND) - sum(along(spot, facing))
                model.when([choice, model.faces(name, facing)], ahead >= 0)
            choices.append(choice)
        model.one_of(choices, when=[lit])
        return [near, both, lit]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far the clothes are, and what is before the mirror."""
        mirror, scenario = scene.find(claim.subjects[0]), scene.scenario
        placed = [scene.find(p.name) for p in _clothes(scenario)]
        away, farthest, name = max((gap(mirror, p), p.name, mirror.name) for p in placed)
        if len(placed) > 1:
            apart = [
                (*min((gap(p, q), q.name) for q in placed if q is not p), p.name) for p in placed
            ]
            away, farthest, name = max((away, farthest, name), *apart)
        spots = [opening_spot(scenario.room, w) for w in scenario.room.windows]
        reach = 2 * (along(mirror, mirror.facing)[1] + STAND)
        far, floor = scene.length(away), scene.length(STAND)
        said = the(name if away > NEAR else mirror.name, first=True)
        if away > NEAR:
            level, text = 0, f"is {scene.how_far(away)} {the(farthest)}"
        elif not scene.strip_free(mirror, strip_before(STAND)):
            level, text = (
                1,
                f"is near the clothes, but without {floor} of floor to stand on in front",
            )
        elif not any(reach >= sum(along(s, mirror.facing)) for s in spots):
            level, text = 2, "is near the clothes, with room to stand in front of it"
        else:
            level, text = (
                3,
                "is near the clothes, with room to stand in front of it and daylight on your face",
            )
        if level == 2 and spots:
            text += ", but the daylight comes from behind"
        return Measure(level, f"{said} {text}", far, scene.length(NEAR))


def _clothes(scenario: Scenario) -> list[Piece]:
    return [p for p in sorted(scenario.pieces, key=canonical) if {"clothes", "store"} <= p.roles]
