"""No two pieces share space."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import combinations

from shapely.geometry import Polygon

from arrange.data.change import Drop, Resize
from arrange.data.conflict import Requirement
from arrange.data.lengths import listed, measured, sized, the
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import change_to, smaller_sizes
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import frame
from arrange.rules.requirement import NEVER, PIECES, Quantity, Relaxing, RequirementKind, who_says
from arrange.rules.rule import KeepsOff
from arrange.rules.selectors import purpose

SLENDER = 50  # mm; a body thinner than this is no piece
STANDS = {
    "wall": ", with its back to a wall",
    "corner": ", in a corner",
    "free": "",
    "anywhere": "",
    "across": ", across a corner",
}


class BodiesApart(KeepsOff):
    """Footprints may touch but not overlap, unless one piece is above the other.

    A rug lies under anything that stands on it, but not under another rug; nothing
    stands on a mat to play on; a shelf hangs over what is lower than its underside.
    The model keeps bodies apart by itself, so there is nothing to build.
    """

    id = "bodies-apart"
    title = "Pieces do not share space"
    kind = "must"
    always = "two pieces cannot be in one place"
    kinds = (RequirementKind("piece", PIECES, 0, dispensable=NEVER),)

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each pair that shares space."""
        for one, two in combinations(scene.placed, 2):
            if one.piece.shares_space_with(two.piece) and scene.overlap(one.body, two.body):
                yield Breach(
                    self.id,
                    (one.name, two.name),
                    f"{the(one.name, first=True)} and {the(two.name)} stand in the same place",
                )

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The body of every piece: without it the piece is not there."""
        return [Requirement("piece", piece.name) for piece in scenario.pieces]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """Pieces that are not kept are absent, wherever they stood."""
        del whole
        there = tuple(p for p in scenario.pieces if Requirement("piece", p.name) in kept)
        names = {p.name for p in there}
        held = tuple(p for p in scenario.held if p.piece in names)
        return replace(scenario, pieces=there, held=held)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """The piece with its size and where it stands; a tie in the set says that itself."""
        piece, unit = scenario.piece(requirement.name), scenario.unit
        told = not among or Requirement("tie", piece.name) in among
        stands = "" if piece.anchor is not None and told else STANDS[piece.stands]
        return f"{the(piece.name)}, {_size(piece, unit)}{stands}"

    def quantities(self, scenario: Scenario, requirement: Requirement) -> Sequence[Quantity]:
        """Its width and its depth; the largest piece first, and only after all else."""
        piece = scenario.piece(requirement.name)
        area = -piece.width * piece.depth
        return [
            Quantity(
                requirement,
                size,
                max(SLENDER, piece.least_side(side)),
                f"{measured(size, scenario.unit)} of the {side} of {the(piece.name)}",
                partial(_in_size, piece.name, side),
                side,
                (2, area, piece.name, number),
                outline=partial(_outline, piece.name, side),
            )
            for number, (side, size) in enumerate((("width", piece.width), ("depth", piece.depth)))
        ]

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """A piece a size smaller, or left out with what goes with it."""
        for piece in ask.scenario.pieces:
            if ask.touchable(piece.name) and piece.name not in ask.held:
                yield from _smaller(ask, piece)
                yield from _left_out(ask, piece)


def _in_size(name: str, side: str, mm: int) -> Resize:
    return Resize(name, width=mm) if side == "width" else Resize(name, depth=mm)


def _outline(name: str, side: str, scene: Scene, mm: int) -> Polygon:
    """The body from its left back corner, with one side so long."""
    placed = scene.find(name)
    own = frame(placed.piece, placed.placement, scene.scenario.room)
    wide = mm if side == "width" else placed.piece.width
    return own.rectangle(0, 0, wide, mm if side == "depth" else placed.piece.depth)


def _size(piece: Piece, unit: Unit) -> str:
    return sized((piece.width, piece.depth), unit)


def _smaller(ask: Relaxing, piece: Piece) -> Iterator[Relaxation]:
    unit = ask.scenario.unit
    has = ask.owned(piece)
    owned = ", in place of the one you have" if has else ""
    for steps, size in enumerate(smaller_sizes(piece, unit), 1):
        down = "the next size down" if steps == 1 else f"{steps} sizes down"
        new = _size(size.piece, unit)
        yield from ask.relaxation(
            "smaller_owned" if has else "smaller",
            (change_to(size, piece),),
            f"{the(piece.name)} is {new} instead of {_size(piece, unit)}, {down}{owned}",
            ("smaller", piece.name),
            frozenset({piece.name}),
            times=steps,
            level=steps,
            note=f"standard size {size.label}" if size.label else "",
            source=who_says(size.source) if size.label else "",
        )


def _left_out(ask: Relaxing, piece: Piece) -> Iterator[Relaxation]:
    """The piece with all that goes with it; whether that only eases, the other rules say."""
    others = [ask.scenario.piece(n) for n in ask.scenario.followers([piece.name])]
    group = [*others, piece]
    if any(not ask.touchable(p.name) or p.name in ask.held for p in group):
        return
    costs = [_of_leaving(ask, p) for p in group]
    if None in costs:
        return
    effort = "leave_out_owned" if ask.owned(piece) else "leave_out"
    also = ""
    if others:
        go = "go" if len(others) > 1 else "goes"
        also = f", with {listed([the(p.name) for p in others])} that {go} with it"
    though = ", though you have it" if ask.owned(piece) else ""
    yield from ask.relaxation(
        effort,
        tuple(Drop(p.name) for p in group),
        f"{the(piece.name)} is left out{also}{though}",
        ("leave out", piece.name, *(p.name for p in others)),
        None,
        more=sum(c for c in costs if c is not None) - (ask.efforts.of(effort) or 0),
        drops=frozenset(p.name for p in group),
    )


def _of_leaving(ask: Relaxing, piece: Piece) -> int | None:
    """Most for the piece the room is for: it is what a person would give up last."""
    keys = ["leave_out_owned" if ask.owned(piece) else "leave_out"]
    keys += ["major"] if piece.major else []
    keys += ["purpose"] if piece == purpose(ask.scenario) else []
    efforts = [ask.efforts.of(key) for key in keys]
    known = [effort for effort in efforts if effort is not None]
    return sum(known) if len(known) == len(keys) else None
