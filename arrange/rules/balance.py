"""Bulk balanced across the room."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import middle2
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

STEPS = (25, 15)  # per cent of the room's side; common practice, no source
UNIT = 10_000_000  # mm3; bulk is counted in steps of 10 litres


class Balance(Rule):
    """The middle of all bulk is near the middle of the room.

    Bulk is width x depth x height in whole 10 litres; rugs have none. Its middle
    is off by no more than 25 %, better 15 %, of the room's side, across and up the
    plan: in a narrow bedroom the bed, the heaviest thing, stands in a corner. The room's
    middle is that of its bounds. Common practice, no source.
    """

    id = "balance"
    title = "Bulk balanced across the room"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, in rooms with two or more bulky pieces."""
        bulky = sum(_bulk(piece) > 0 for piece in scenario.pieces)
        return [Claim(self.id, (), self.weight, STEPS)] if bulky > 1 else []

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """The sum of bulk times distance from the middle stays within a share of the whole."""
        scenario = model.scenario
        low_x, low_y, high_x, high_y = scenario.room.bounds
        total = sum(_bulk(p) for p in scenario.pieces)
        levels = [model.literal(f"balanced within {step} %") for step in claim.steps]
        for axis, (low, high) in enumerate(((low_x, high_x), (low_y, high_y))):
            lean = sum(_bulk(p) * middle2(model.place(p.name))[axis] for p in scenario.pieces)
            lean -= total * (low + high)
            for level, step in zip(levels, claim.steps, strict=True):
                # Twice, as the middles are.
                most = 2 * step * (high - low) * total // 100
                model.when(level, lean <= most, lean >= -most)
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far the middle of all bulk is from the middle of the room."""
        low_x, low_y, high_x, high_y = scene.scenario.room.bounds
        total = sum(_bulk(p.piece) for p in scene.placed)
        lean_x = sum(_bulk(p.piece) * (p.x0 + p.x1 - low_x - high_x) for p in scene.placed)
        lean_y = sum(_bulk(p.piece) * (p.y0 + p.y1 - low_y - high_y) for p in scene.placed)
        level = sum(
            100 * abs(lean_x) <= 2 * step * (high_x - low_x) * total
            and 100 * abs(lean_y) <= 2 * step * (high_y - low_y) * total
            for step in claim.steps
        )
        off = max((abs(lean_x), lean_x, "x"), (abs(lean_y), lean_y, "y"))
        sides = {"x": ("left", "right"), "y": ("bottom", "top")}[off[2]]
        away = scene.length(round(off[0] / (2 * total)))
        side = sides[off[1] > 0]
        text = f"The bulk of the furniture is {away} off the middle, to the {side} of the plan"
        even = "The furniture is evenly spread over the room"
        return Measure(level, even if level == len(claim.steps) else text, away, "even")


def _bulk(piece: Piece) -> int:
    return 0 if piece.flat else round(piece.width * piece.depth * piece.height / UNIT)
