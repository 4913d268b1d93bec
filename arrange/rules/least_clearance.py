"""Every piece keeps the least floor it needs to be used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from shapely.geometry import Polygon

from arrange.data.change import LowerClearance
from arrange.data.conflict import Requirement
from arrange.data.kinds import kinds
from arrange.data.lengths import listed, measured, the
from arrange.data.people import never_below
from arrange.data.piece import Clearance, Piece, Side
from arrange.data.repair import Relaxation, below
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.walking import must_reach
from arrange.rules.requirement import (
    FRAIL,
    PIECE_BY_PIECE,
    PIECES,
    AskedFloor,
    Quantity,
    Relaxing,
    RequirementKind,
    steps_down,
    who_says,
)
from arrange.rules.rule import ON_THE_PIECE, Rule

MOVED: dict[Dimension, frozenset[Side]] = {
    "width": frozenset({"left", "right"}),
    "depth": frozenset({"front", "back"}),
    "height": frozenset(),
}


class LeastClearance(Rule):
    """The strip of least depth beside a piece is floor, and free of other pieces.

    Rugs may lie in it, and so may pieces that belong to this one (the chair in
    front of its desk). Where several sides would do, one is enough. The model
    builds every clearance at its least depth by itself.
    """

    id = "least-clearance"
    title = "Least room to use each piece"
    elsewhere = ON_THE_PIECE
    kind = "must"
    always = "give the piece clearance.front = { least = 0 } instead"
    kinds = (RequirementKind("clearance", PIECES, 1, dispensable=PIECE_BY_PIECE),)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each clearance that no side can give."""
        for placed in scene.placed:
            for clearance in placed.piece.clearances:
                if clearance.least <= 0:
                    continue
                if not scene.free_sides(placed, clearance, clearance.least):
                    who, least = the(placed.name, first=True), scene.length(clearance.least)
                    said = f"{who} lacks the {least} it needs {clearance.purpose}"
                    yield Breach(self.id, (placed.name,), said)

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """Every clearance that has a least depth."""
        return [
            Requirement("clearance", piece.name, c.name)
            for piece in scenario.pieces
            for c in piece.clearances
            if c.least > 0
        ]

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """A clearance says nothing without its piece."""
        del scenario
        return frozenset({Requirement("piece", requirement.name)})

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A clearance that is not kept has no least depth."""
        del whole

        def piece(p: Piece) -> Piece:
            own = tuple(
                c if Requirement("clearance", p.name, c.name) in kept else replace(c, least=0)
                for c in p.clearances
            )
            return replace(p, clearances=own)

        return replace(scenario, pieces=tuple(piece(p) for p in scenario.pieces))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How much, on which sides and what for."""
        del among
        c, whose = _clearance_of(scenario, requirement), the(requirement.name)
        wide = measured(c.least, scenario.unit)
        return f"{wide} free {c.where} {whose}{c.as_faced} {c.purpose}"

    def quantities(self, scenario: Scenario, requirement: Requirement) -> Sequence[Quantity]:
        """Its depth, down to nothing; the deepest first."""
        c = _clearance_of(scenario, requirement)
        name, part = requirement.name, requirement.part
        asked = measured(c.least, scenario.unit)
        return [
            Quantity(
                requirement,
                c.least,
                0,
                f"{asked} {c.where} {the(name)}",
                lambda mm: LowerClearance(name, part, mm),
                order=(0, -c.least, name, part),
                had=lambda scene: scene.free_depth(scene.find(name), c),
                outline=lambda scene, mm: _deepest(scene, name, c, mm),
            )
        ]

    def asked_floor(self, scene: Scene) -> Iterable[AskedFloor]:
        """Each strip that can lie on one side only: where there is a choice it may not count."""
        for placed in scene.placed:
            for clearance in placed.piece.clearances:
                if clearance.least > 0 and placed.placement.facing is not None:
                    sides = scene.free_sides(placed, clearance, clearance.least)
                    if len(sides) == 1:
                        yield _floor(scene, placed, clearance, sides[0])

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """Each clearance brought down, to its kind's least and then to a value named below it."""
        for piece in ask.scenario.pieces:
            for clearance in piece.clearances if ask.touchable(piece.name) else ():
                if clearance.least > 0:
                    yield from _lowered(ask, piece, clearance)

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Unless a strip of its own moves to where something shares the body's floor alone.

        All that others need is there as before: there is more free floor, never less. Its
        own strip beside the moved side lies on the old strip and on floor that the old
        body had; that is free, unless something hangs over the piece, or the piece over
        it, or the ceiling slopes down over it. Strips beside the other sides get shorter, a
        part of what they were.
        """
        return not _moving_under(scenario, piece, dimension)

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario:
        """Without the strips of the piece that may not last."""
        unsure = _moving_under(scenario, piece, dimension)
        own = tuple(c for c in piece.clearances if c not in unsure)
        pieces = tuple(
            replace(p, clearances=own) if p.name == piece.name else p for p in scenario.pieces
        )
        return replace(scenario, pieces=pieces)

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Always: what is not there needs no floor and takes none."""
        del scenario, names
        return True


def _clearance_of(scenario: Scenario, requirement: Requirement) -> Clearance:
    """The clearance that a requirement speaks of; KeyError if it speaks of none."""
    for clearance in scenario.piece(requirement.name).clearances:
        if clearance.name == requirement.part:
            return clearance
    raise KeyError(requirement)


def _floor(scene: Scene, placed: Placed, clearance: Clearance, side: Side) -> AskedFloor:
    zone = scene.zone(placed, clearance, side, clearance.least)
    away = f"at the {side} of {the(placed.name)}"
    beside = f"along the {side} of {the(placed.name)}"
    sideways = placed.facing in ("left", "right")
    deep_across = (side in ("left", "right")) != sideways
    words = (away, beside) if deep_across else (beside, away)
    return AskedFloor(zone, *words, Requirement("clearance", placed.name, clearance.name))


def _deepest(scene: Scene, name: str, clearance: Clearance, mm: int) -> Polygon:
    """The strip so deep on the side that gives most."""
    placed = scene.find(name)
    side = max(clearance.sides, key=lambda s: scene.side_depth(placed, clearance, s))
    return scene.zone(placed, clearance, side, mm)


def _moving_under(scenario: Scenario, piece: Piece, dimension: Dimension) -> set[Clearance]:
    """Clearances on a moving side, if something may share floor with the body alone."""
    moving = {c for c in piece.clearances if MOVED[dimension].intersection(c.sides) and c.least}
    deep = max([HEAD, *(c.height for c in moving)])
    shared = [
        p
        for p in scenario.pieces
        if p.name != piece.name
        and not p.flat
        and p.bottom < deep
        and not piece.shares_space_with(p)
    ]
    fixed = [
        f
        for f in scenario.room.fixtures
        if f.solid and f.bottom < deep and (f.bottom >= piece.top or f.top <= piece.bottom)
    ]
    return moving if shared or fixed or not scenario.room.is_level else set()


# -- bringing a clearance down ---------------------------------------------
def _lowered(ask: Relaxing, piece: Piece, own: Clearance) -> Iterator[Relaxation]:
    """To what is usual for its kind, then below that, down to what is bare."""
    kind, unit = _of_kind(piece, own), ask.scenario.unit
    usual, its_source = (0, "") if kind is None else (kind.usual, kind.usual_source)
    steps = [] if own.least <= usual else steps_down(own.least, usual, unit)
    for level, to in enumerate(steps, 1):
        who = ""
        if usual == 0:
            note = "your own value; its kind needs none there"
        elif to > usual:
            note = f"your own value; {measured(usual, unit)} is usual for its kind"
        else:
            note, who = "what is usual for its kind", who_says(its_source)
        yield from _brought_down(ask, piece, own, to, "own_clearance", note, who, level)
    if kind is None or piece.roles & FRAIL:
        return
    who = who_says(its_source)
    needs = f"below {measured(usual, unit)}, which is usual for its kind"
    named = below(its_source)
    if named is not None and kind.least < named.to < min(own.least, usual):
        who_else = who_says(named.source)
        note, whose = f"{needs}: {named.how}", listed(list(dict.fromkeys((who, who_else))))
        level = len(steps) + 1
        yield from _brought_down(ask, piece, own, named.to, "below_clearance", note, whose, level)
    if kind.least < min(own.least, usual):
        note = f"{needs}; with less it cannot be used" if kind.least else needs
        level = len(steps) + 2
        yield from _brought_down(ask, piece, own, kind.least, "below_clearance", note, who, level)


def _brought_down(
    ask: Relaxing,
    piece: Piece,
    own: Clearance,
    to: int,
    effort: str,
    note: str,
    who: str,
    level: int,
) -> Iterator[Relaxation]:
    unit = ask.scenario.unit
    if to < never_below(ask.scenario.people, piece, own):
        return  # somebody needs it
    gets = measured(to, unit) if to else "nothing"
    instead = f"instead of {measured(own.least, unit)} {own.purpose}"
    yield from ask.relaxation(
        effort,
        (LowerClearance(piece.name, own.name, to),),
        f"{gets} is kept free {own.where} {the(piece.name)}{own.as_faced}, {instead}",
        ("clearance", piece.name, own.name),
        frozenset({piece.name}),
        more=ask.efforts.of_lowering(own.least - to),
        level=level,
        # A smaller strip may be harder to walk up to; none at all is not.
        monotone=to == 0 or not (must_reach(own) and ask.scenario.walks),
        monotone_unwalked=True,
        below=effort == "below_clearance",
        note=note,
        source=who,
        like=("clearance", piece.model, own.purpose, f"{own.least}"),
    )


def _of_kind(piece: Piece, own: Clearance) -> Clearance | None:
    """The clearance as its kind has it; None if its kind needs none there."""
    kind = kinds().get(piece.kind)
    if kind is None:
        return None if own.overridden else own
    return next((c for c in kind.clearances if c.name == own.name and c.usual > 0), None)
