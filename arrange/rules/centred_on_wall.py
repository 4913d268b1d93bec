"""Big pieces centred on their wall or under its window."""

from __future__ import annotations

import math
from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule, off_its_wall
from arrange.rules.selectors import backs_on_wall

WITHIN = 20  # mm off the middle; common practice, no source
ROLES = {"for two", "sofa", "screen"}
KINDS = {"sideboard"}


class CentredOnWall(Rule):
    """A double bed, sofa, screen or sideboard stands within 20 mm of the middle.

    The middle of its back against the middle of its wall, from corner to corner
    (a wall ends where a chimney breast begins), or of a window in that wall.
    Common practice, no source.
    """

    id = "centred-on-wall"
    title = "Big pieces centred on a wall or window"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each such piece with a wall at its back."""
        return [
            Claim(self.id, (piece.name,), self.weight, (WITHIN,))
            for piece in scenario.pieces
            if backs_on_wall(piece) and _wants_the_middle(piece)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """On each wall, the left end comes half the width before a middle."""
        name, within = claim.subjects[0], claim.steps[0]
        width = model.scenario.piece(name).width
        level = model.literal(f"{name} centred")
        model.backed(level, name)
        for wall in model.wall_choices(name):
            ranges = [
                (math.ceil(middle - within - width / 2), math.floor(middle + within - width / 2))
                for middle, _ in _middles(model.scenario, wall)
            ]
            model.starts_in(level, name, wall, ranges)
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The nearest middle and how far off it the piece stands."""
        placed, within = scene.find(claim.subjects[0]), claim.steps[0]
        stretch = scene.wall_stretch(placed)
        if stretch is None:
            return off_its_wall(placed.name, scene.length(within))
        wall, left, right = stretch
        here = (left + right) / 2
        middle, what = min(_middles(scene.scenario, wall), key=lambda m: abs(m[0] - here))
        off = abs(middle - here)
        shown = scene.length(math.floor(off), "up" if off > within else "near")
        text = f"is centred on {what}" if off <= within else f"is {shown} off the middle of {what}"
        return Measure(
            int(off <= within),
            f"{the(placed.name, first=True)} {text}",
            shown,
            scene.length(within),
        )


def _wants_the_middle(piece: Piece) -> bool:
    return bool(piece.roles & ROLES) or piece.kind in KINDS


def _middles(scenario: Scenario, wall: int) -> list[tuple[float, str]]:
    """Middles along a wall to the half mm, with what they are the middle of."""
    whole = round(scenario.room.walls[wall].length) / 2
    windows = [w for w in scenario.room.windows if w.wall == wall]
    return [(whole, "its wall"), *[(w.offset + w.width / 2, the(w.name)) for w in windows]]
