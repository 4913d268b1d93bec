"""Pieces that are used together stand close together."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.piece import Piece, canonical
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.spots_near import to_the_nearest

STEPS = (2500, 1500, 600)  # mm; common practice, no source
WEIGHT = 3  # beside books; common practice, no source
BOOKS = (4000,)  # mm; one walks over to fetch a book and sits down; common practice, no source
# Roles of two pieces between which a rule of its own measures.
SEATS, TABLES = {"seat"}, {"coffee", "side"}
ELSEWHERE = (
    (SEATS, {"screen"} | TABLES),
    ({"sofa", "lounge"}, {"sofa", "lounge"}),
    ({"light"}, SEATS | {"bed", "desk"}),
    ({"bedside"}, {"bed"}),
    ({"clothes", "dress"}, {"clothes", "dress"}),
    ({"store"}, {"dine"}),
    ({"entrance"}, {"entrance"}),
    ({"cot"}, {"lounge", "child"}),
)


class UsedTogether(Rule):
    """A piece is within 2.5 m, 1.5 m, 60 cm of one of those that it goes with.

    Books are fetched from time to time: 4 m is near enough, at a third of the weight.

    What goes with what is part of each kind of piece; where both kinds name each
    other, the one whose first piece is the larger speaks. The distance is the larger
    of the gap across and the gap up the plan, to the nearest piece of that kind.
    Pieces tied to each other, or to the same piece, are together already. What other
    rules say better is left to them: seat and screen, seats among themselves and with
    their tables, lamps, bedside tables, what one dresses at, what is served from, what
    stands at the front door, what a child is cared for at. Common practice, no source.
    """

    id = "used-together"
    title = "What is used together stands together"
    takes = ("comfortable",)
    distances = True

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each piece and each kind it goes with, if that is in the room."""
        found: list[Claim] = []
        order = {piece.name: i for i, piece in enumerate(scenario.pieces)}
        spoken: set[tuple[str, str]] = set()
        for piece in sorted(scenario.pieces, key=canonical):
            for kind in piece.goes_with:
                if (kind, piece.kind) in spoken or not _partners(scenario, piece, kind):
                    continue
                spoken.add((piece.kind, kind))
                books = any(_is_books(piece, p) for p in _partners(scenario, piece, kind))
                steps, weight = (BOOKS, self.weight) if books else (STEPS, WEIGHT)
                found.append(Claim(self.id, (piece.name,), weight, steps, (kind,)))
        return sorted(found, key=lambda claim: order[claim.subjects[0]])

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near one of the pieces of that kind."""
        scenario = model.scenario
        piece = scenario.piece(claim.subjects[0])
        others = [model.place(p.name) for p in _partners(scenario, piece, claim.about[0])]
        return model.levels_near(model.place(piece.name), others, claim.steps)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The distance to the nearest piece of that kind."""
        piece = scene.scenario.piece(claim.subjects[0])
        partners = _partners(scene.scenario, piece, claim.about[0])
        return to_the_nearest(scene, claim, [scene.find(p.name) for p in partners])


def _partners(scenario: Scenario, piece: Piece, kind: str) -> list[Piece]:
    """The pieces of that kind; none if one of them is tied to this one already."""
    others = [p for p in scenario.pieces if p.kind == kind and p.name != piece.name]
    if any(_tied(piece, p) or _said_elsewhere(piece, p) for p in others):
        return []
    return others


def _is_books(one: Piece, two: Piece) -> bool:
    return one.is_a("books") or two.is_a("books")


def _tied(one: Piece, two: Piece) -> bool:
    same = one.anchor is not None and one.anchor == two.anchor
    return same or one.anchor == two.name or two.anchor == one.name


def _said_elsewhere(one: Piece, two: Piece) -> bool:
    """Whether another rule says how far the two may be apart."""
    pairs = ((one.roles, two.roles), (two.roles, one.roles))
    return any(a & mine and b & its for a, b in pairs for mine, its in ELSEWHERE)
