"""What could give about the pieces and the floor they need. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator

from arrange.data.change import Drop, LetMove, LowerClearance, Turn, Untie
from arrange.data.giving import Priced
from arrange.data.piece import Clearance, Piece
from arrange.goals import must_reach
from arrange.rules.who import the
from arrange.scenario.kinds import kinds
from arrange.whatif.give import offer_words as words
from arrange.whatif.give.costs import below
from arrange.whatif.give.offering import FRAIL, Offering, dependants, steps_down
from arrange.whatif.give.smaller import change_to, smaller_sizes

TURNED = {"seat", "desk", "dine"}  # of use away from a wall; the head of a bed belongs there
SEATS_OF = {"work seat", "dining seat"}  # of no use apart from the table they go with


class PieceOffers(Offering):
    """One piece after another."""

    def all(self) -> Iterator[Priced]:
        """Everything about the pieces that are not spared."""
        for piece in self.scenario.pieces:
            if piece.name in self.spared or piece.model in self.spared:
                continue
            yield from self._clearances(piece)
            yield from self._piece(piece)
            if piece.name not in self.held:
                yield from self._smaller(piece)
                yield from self._left_out(piece)

    def _clearances(self, piece: Piece) -> Iterator[Priced]:
        for clearance in piece.clearances:
            if clearance.least > 0:
                yield from self._lowered(piece, clearance)

    def _lowered(self, piece: Piece, own: Clearance) -> Iterator[Priced]:
        bare = _of_kind(piece, own)
        least, least_source = (0, "") if bare is None else (bare.least, bare.source)
        steps = [] if own.least <= least else steps_down(own.least, least, self.scenario.unit)
        for degree, to in enumerate(steps, 1):
            note = words.under_own(self.scenario, to, least, least_source)
            yield from self._to(piece, own, to, "own_clearance", note, degree)
        named = None if bare is None else below(bare.source)
        if bare is None or named is None or piece.roles & FRAIL:
            return
        if named.to < min(own.least, bare.least):
            note = words.under_least(self.scenario, bare.least, bare.source, named)
            yield from self._to(piece, own, named.to, "below_clearance", note, len(steps) + 1)

    def _to(
        self, piece: Piece, own: Clearance, to: int, key: str, note: str, degree: int
    ) -> Iterator[Priced]:
        text = words.lowered(self.scenario, piece, own, to)
        return self.priced(
            key,
            (LowerClearance(piece.name, own.name, to),),
            text,
            ("clearance", piece.name, own.name),
            frozenset({piece.name}),
            more=self.costs.steps(own.least - to),
            degree=degree,
            # A smaller strip may be harder to walk up to; none at all is not.
            eases=to == 0 or not (must_reach(own) and self.scenario.walks),
            below=key == "below_clearance",
            note=note,
            like=("clearance", piece.model, own.purpose, f"{own.least}"),
        )

    def _piece(self, piece: Piece) -> Iterator[Priced]:
        name, itself = piece.name, frozenset({piece.name})
        if name in self.held:
            text = f"{the(name)} may move from where it stands now"
            thing = ("move", name)
            yield from self.priced("let_move", (LetMove(name),), text, thing, itself, eases=True)
        if piece.anchor is not None and not piece.roles & SEATS_OF:
            text = words.apart(piece)
            yield from self.priced("untie", (Untie(name),), text, ("untie", name), itself)

        if self._turns(piece):
            text = words.turned(piece)
            yield from self.priced("turn", (Turn(name),), text, ("turn", name), itself)

    def _turns(self, piece: Piece) -> bool:
        """Whether it is of use turned from its wall, and need not be fixed to it."""
        stays = piece.name in self.held or piece.anchor is not None or piece.stands == "free"
        return not stays and bool(piece.roles & TURNED) and not piece.roles & (FRAIL | {"tall"})

    def _smaller(self, piece: Piece) -> Iterator[Priced]:
        key = "smaller_owned" if piece.owned else "smaller"
        for steps, size in enumerate(smaller_sizes(piece, self.scenario.unit), 1):
            yield from self.priced(
                key,
                (change_to(size, piece),),
                words.resized(self.scenario, piece, size.piece, steps),
                ("smaller", piece.name),
                frozenset({piece.name}),
                times=steps,
                degree=steps,
                note=words.standard(size.label, size.source),
            )

    def _left_out(self, piece: Piece) -> Iterator[Priced]:
        others = dependants(self.scenario, piece.name)
        group = [*others, piece]
        if any(p.name in self.held | self.spared or p.model in self.spared for p in group):
            return
        costs = [self._cost_of_leaving(p) for p in group]
        more = sum(c for c in costs[:-1] if c is not None)
        if None in costs:
            return
        key = "leave_out_owned" if piece.owned else "leave_out"
        names = frozenset(p.name for p in group)
        eases = not any(w.must and w.place in _shared(group) for w in self.scenario.wishes)
        yield from self.priced(
            key,
            tuple(Drop(p.name) for p in group),
            words.left_out(piece, others),
            ("leave out", piece.name, *(p.name for p in others)),
            names if eases else None,
            more=more + (costs[-1] or 0) - (self.costs.of(key) or 0),
            eases=eases,
        )

    def _cost_of_leaving(self, piece: Piece) -> int | None:
        cost = self.costs.of("leave_out_owned" if piece.owned else "leave_out")
        extra = self.costs.of("major") if piece.major else 0
        return None if cost is None or extra is None else cost + extra


def _shared(group: list[Piece]) -> set[str]:
    """Names of several pieces alike: fewer of them can be harder to be near to."""
    return {p.model for p in group} - {p.name for p in group}


def _of_kind(piece: Piece, own: Clearance) -> Clearance | None:
    """The clearance as its kind has it; None if its kind needs none there."""
    kind = kinds().get(piece.kind)
    if kind is None:
        return None if own.overridden else own
    return next((c for c in kind.clearances if c.name == own.name and c.least > 0), None)
