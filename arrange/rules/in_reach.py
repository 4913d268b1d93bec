"""What people need is in reach."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import gap, pillow
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds, strip_before

ARM = 300  # mm from the pillow end; common practice, no source
SMALL = 300  # mm of floor before something small; common practice, no source


class InReach(Rule):
    """A bedside table is within 300 mm of a pillow, and small storage has floor before it.

    The walkway sees to all that has floor of its own to be used from, the side of a bed
    too. This asks for the rest: bedside tables that are not tied to a bed stand near the
    first 500 mm of a mattress, from where they are reached lying down, be it beside a wall;
    and storage without floor of its own has a strip 300 mm deep free before its front. What
    hangs is reached over what stands below. Common practice, no source.
    """

    id = "in-reach"
    title = "What people need is in reach"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each loose bedside table and each piece of small storage."""
        found: list[Claim] = []
        for piece in scenario.pieces:
            if piece.is_a("bedside"):
                if piece.anchor is None and beds(scenario):
                    found.append(self._claim(piece, ARM, "pillow"))
            elif _is_small_storage(piece):
                found.append(self._claim(piece, SMALL, "floor"))
        return found

    def _claim(self, piece: Piece, step: int, about: str) -> Claim:
        return Claim(self.id, (piece.name,), self.weight, (step,), (about,), first_rank=True)

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near the pillow end of one of the beds, whichever way it looks; or the strip is free."""
        name = claim.subjects[0]
        if claim.about[0] == "floor":
            return [model.strip(name, strip_before(claim.steps[0]))]
        level, choices = model.literal(f"{name} in reach"), []
        for bed in beds(model.scenario):
            for facing in FACINGS:
                choice = model.literal()
                model.implies(choice, model.faces(bed.name, facing))
                head = pillow(model.place(bed.name), bed, facing)
                model.near(choice, model.place(name), head, claim.steps[0])
                choices.append(choice)
        model.one_of(choices, when=[level])
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far the nearest pillow is, or whether there is floor before it."""
        piece, wanted = scene.find(claim.subjects[0]), scene.length(claim.steps[0])
        if claim.about[0] == "floor":
            free = scene.strip_free(piece, strip_before(claim.steps[0]))
            text = "floor to stand on" if free else f"less than {wanted} of floor"
            said = f"{the(piece.name, first=True)} has {text} in front of it"
            return Measure(int(free), said, "free" if free else "not free", wanted)
        placed = [scene.find(bed.name) for bed in beds(scene.scenario)]
        away, name = min((gap(piece, pillow(b, b.piece, b.facing)), b.name) for b in placed)
        far = scene.length(away)
        said = f"{the(piece.name, first=True)} is {scene.how_far(away)} the pillow of {the(name)}"
        return Measure(int(away <= claim.steps[0]), said, far, wanted)


def _is_small_storage(piece: Piece) -> bool:
    """Whether it is opened or filled, with no floor of its own to do so from."""
    own = any(c.least and c.walk for c in piece.clearances)
    return piece.is_a("store") and not own and not piece.bottom and piece.anchor is None
