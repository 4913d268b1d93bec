"""Pieces that go with another one stand in one of its places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from arrange.data.change import Drop, Untie, changed
from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import MOVED_SEATS, Piece, Slot
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import box_of, frame, slot_place, turn_facing
from arrange.rules.requirement import PIECES, Relaxing, RequirementKind
from arrange.rules.rule import Rule

NEAR = 0.5  # mm; places are whole mm, so anything nearer is the same place


class InTheirPlace(Rule):
    """A piece tied to another stands exactly in one of its places, turned as that asks.

    Two pieces do not share a place: that is said here in words, bodies would
    meet there anyway. The model offers tied pieces nothing else, so there is
    nothing to build. The places themselves are common practice, no source.
    """

    id = "in-their-place"
    title = "Pieces that belong together stay together"
    kind = "must"
    always = "give the piece free = true instead"
    keeps_ties = True
    # Loose, a piece stands as its kind does by itself, and that may be harder.
    kinds = (RequirementKind("tie", PIECES, 3, dispensable=5, eases=False),)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each tied piece out of place, or in a place already taken."""
        taken: dict[tuple[str, str, Slot], str] = {}
        for placed in scene.placed:
            piece = placed.piece
            if piece.anchor is None:
                continue
            slot = _slot_of(scene, placed)
            if slot is None:
                yield Breach(
                    self.id,
                    (piece.name, piece.anchor),
                    f"{the(piece.name, first=True)} does not stand in a usual place at "
                    f"{the(piece.anchor)}",
                )
                continue
            key = (piece.anchor, piece.model, slot)
            if key in taken:
                yield Breach(
                    self.id,
                    (taken[key], piece.name),
                    f"{the(taken[key], first=True)} and {the(piece.name)} take the same place at "
                    f"{the(piece.anchor)}",
                )
            taken[key] = piece.name

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every tie."""
        return [Requirement("tie", p.name) for p in scenario.pieces if p.anchor is not None]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """A tie says nothing without both pieces."""
        host = scenario.piece(requirement.name).anchor or requirement.name
        return frozenset(Requirement("piece", name) for name in (requirement.name, host))

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A piece whose tie is not kept stands as its kind does by itself."""
        del whole
        pieces = tuple(
            p if Requirement("tie", p.name) in kept else p.untied for p in scenario.pieces
        )
        return replace(scenario, pieces=pieces)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """What stands where."""
        del among
        host = scenario.piece(requirement.name).anchor or ""
        return f"{the(requirement.name)} stands in its place at {the(host)}"

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """A piece that stands apart from what it goes with."""
        for piece in ask.scenario.pieces:
            if piece.anchor is None or not ask.touchable(piece.name) or piece.roles & MOVED_SEATS:
                continue
            yield from ask.relaxation(
                "untie",
                (Untie(piece.name),),
                f"{the(piece.name)} no longer has to stand with {the(piece.anchor)}",
                ("untie", piece.name),
                frozenset({piece.name}),
            )

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """A height always; the places of a tied piece, and of what is tied to it, move."""
        tied = piece.anchor is not None or bool(scenario.followers([piece.name]))
        return dimension == "height" or not tied

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario | None:
        """The piece free of its tie, and nothing there that is tied to it.

        None for a tied piece where something may stand aslant: free, it could not stand as there.
        """
        del dimension
        aslant = any(w.facing is None for w in scenario.room.walls)
        if piece.anchor is not None and (aslant or any(p.crosses for p in scenario.pieces)):
            return None
        gone = scenario.followers([piece.name])
        rest = changed(scenario, [Drop(name) for name in gone])
        loose = tuple(
            replace(p.untied, stands="free") if p.name == piece.name and p.anchor is not None else p
            for p in rest.pieces
        )
        return replace(rest, pieces=loose)

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """If nothing stays that was tied to one of them: it would stand free."""
        return names >= set(scenario.followers(names))


def _slot_of(scene: Scene, placed: Placed) -> Slot | None:
    """The place in which the piece stands, the first one if two are alike."""
    room, host = scene.scenario.room, scene.find(placed.piece.anchor or "")
    own = frame(host.piece, host.placement, room)
    ahead = frame(placed.piece, placed.placement, room).ahead
    there = box_of(placed.piece, placed.placement, room)
    for slot in placed.piece.slots:
        a0, b0, a1, b1, quarter = slot_place(host.piece, placed.piece, slot)
        if placed.facing != turn_facing(host.facing, quarter):
            continue
        x, y = own.ahead
        for _ in range(quarter):
            x, y = y, -x
        turned = abs(x - ahead[0]) + abs(y - ahead[1]) < 1e-6
        if turned and there.hausdorff_distance(own.rectangle(a0, b0, a1, b1)) < NEAR:
            return slot
    return None
