"""More room than the least beside each piece, up to what is comfortable."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import listed
from arrange.data.piece import Clearance, Piece, comfort_steps
from arrange.data.scenario import Scenario
from arrange.geometry.scene import DEEPEST, Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import ON_THE_PIECE, Claim, Measure, Rule


class ComfortableClearance(Rule):
    """Points rise in up to three steps from the least depth to the comfortable one.

    The source is that of the comfortable depth: `Clearance.comfortable_source`.
    """

    id = "comfortable-clearance"
    title = "Comfortable room to use each piece"
    elsewhere = ON_THE_PIECE
    takes = ("comfortable",)

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each clearance whose comfortable depth exceeds its least."""
        own = scenario.setting(self.id).comfortable
        found = []
        for piece in scenario.pieces:
            for c in piece.clearances:
                steps = self.depths(scenario, piece, c)
                if not steps:
                    continue
                source = "yours" if own is not None else _source(c)
                theirs = source == "yours"
                subjects, about = (piece.name,), (c.name,)
                found.append(
                    Claim(self.id, subjects, importance(piece), steps, about, source, theirs)
                )
        return found

    def depths(self, scenario: Scenario, piece: Piece, clearance: Clearance) -> tuple[int, ...]:
        """The steps from its least depth to the comfortable one."""
        del piece
        return comfort_steps(clearance, scenario.setting(self.id).comfortable)

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """The levels of the clearance's own strip."""
        return model.depths(claim.subjects[0], claim.about[0])

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The deepest step that one side gives, and the depth that is really free."""
        placed = scene.find(claim.subjects[0])
        clearance = next(c for c in placed.piece.clearances if c.name == claim.about[0])
        level = 0
        while level < len(claim.steps) and scene.free_sides(placed, clearance, claim.steps[level]):
            level += 1
        depth = scene.free_depth(placed, clearance)
        # Deeper floor is not measured.
        free = scene.length(depth, "down") + (" or more" if depth == DEEPEST else "")
        short = depth < clearance.usual
        usual = f"; {scene.length(clearance.usual)} is usual" if short else ""
        return Measure(
            level,
            f"{placed.name}: {free} {_which(placed.piece, clearance)}{clearance.purpose}{usual}",
            free,
            scene.length(claim.steps[-1]),
        )


def _source(clearance: Clearance) -> str:
    return clearance.comfortable_source or clearance.usual_source or clearance.source


# What one uses all day counts for more than what one reaches into now and then; ours.
DAILY, OFTEN, SELDOM = 8, 3, 1
LIVED_IN = frozenset({"bed", "sleep", "sofa", "dine", "desk"})


def importance(piece: Piece) -> int:
    """How much the ease of using a piece counts beside that of the others."""
    if piece.roles & LIVED_IN:
        return DAILY
    return OFTEN if piece.major or piece.roles & {"store", "seat", "screen"} else SELDOM


def _which(piece: Piece, clearance: Clearance) -> str:
    """The side, where the piece has several clearances of one purpose; else nothing."""
    if sum(c.purpose == clearance.purpose for c in piece.clearances) < 2:
        return ""
    seen = " (as you face it)" if {"left", "right"} & set(clearance.sides) else ""
    return f"on the {listed(clearance.sides, 'or')} side{seen} "
