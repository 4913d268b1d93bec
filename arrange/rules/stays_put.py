"""Pieces that are to stay where they are stay there."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from arrange.data.change import LetMove
from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import footprint, frame
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import PIECES, Relaxing, RequirementKind
from arrange.rules.rule import Rule

NEAR = 0.5  # mm; places are whole mm, so anything nearer is the same place
SAME_WAY = 1e-6  # between two unit vectors


class StaysPut(Rule):
    """A piece the person wants kept where it stands keeps its footprint and its facing.

    No source: the person's own wish. Places to keep come from ``Scenario.held``.
    """

    id = "stays-put"
    title = "What is to stay stays"
    kind = "must"
    source = "yours"
    always = "let the piece move instead: take it off the list of what stays"
    kinds = (RequirementKind("held", PIECES, 4, dispensable=7),)

    def build(self, model: Verbs[L]) -> None:
        """Hold every kept piece exactly where it stands."""
        for placement in model.scenario.held:
            model.stay(placement)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each kept piece that has moved or turned."""
        room = scene.scenario.room
        for kept in scene.scenario.held:
            placed = scene.find(kept.piece)
            there = footprint(placed.piece, kept, room)
            looks = frame(placed.piece, placed.placement, room).ahead
            looked = frame(placed.piece, kept, room).ahead
            turned = math.dist(looks, looked) > SAME_WAY
            if turned or placed.body.hausdorff_distance(there) >= NEAR:
                yield Breach(
                    self.id,
                    (kept.piece,),
                    f"{the(kept.piece, first=True)} does not stay where it stands",
                )

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every piece that is to stay."""
        held = {p.piece for p in scenario.held}
        return [Requirement("held", p.name) for p in scenario.pieces if p.name in held]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """It says nothing without its piece."""
        del scenario
        return frozenset({Requirement("piece", requirement.name)})

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """What is not kept may move."""
        del whole
        held = tuple(p for p in scenario.held if Requirement("held", p.piece) in kept)
        return replace(scenario, held=held)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """Which piece."""
        del scenario, among
        return f"{the(requirement.name)} stays where it stands"

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """Each piece that is to stay may move."""
        for piece in ask.scenario.pieces:
            if piece.name in ask.held and ask.touchable(piece.name):
                yield from ask.relaxation(
                    "let_move",
                    (LetMove(piece.name),),
                    f"{the(piece.name)} may move from where it stands now",
                    ("move", piece.name),
                    frozenset({piece.name}),
                    monotone=True,
                )

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Unless the piece itself is to stay: its footprint would be another."""
        return dimension == "height" or all(p.piece != piece.name for p in scenario.held)

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario:
        """The piece may move."""
        del dimension
        return replace(scenario, held=tuple(p for p in scenario.held if p.piece != piece.name))

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Always: what is not there stays nowhere."""
        del scenario, names
        return True
