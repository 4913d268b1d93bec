"""Cuts learnt in one scenario that hold in others of the same room.

What blocks a path depends on the empty room, on the pieces to blame and on the piece
whose clearance is out of reach, and on nothing else. So a cut holds wherever these are
the same; and where a piece to blame has only grown, for then it covers what it covered.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.solver.cuts import Cut, Hold


@dataclass(frozen=True)
class Learnt:
    """A cut, and the pieces it speaks of as they were."""

    cut: Cut
    pieces: tuple[Piece, ...]

    def holds_in(self, scenario: Scenario) -> bool:
        """Whether it is sure to hold in a scenario of the same room."""
        now = {p.name: p for p in scenario.pieces}
        return all(
            piece.name in now and _blocks_as_well(hold, piece, now[piece.name])
            for hold, piece in zip(self.cut.holds, self.pieces, strict=True)
        )


@dataclass
class Memory:
    """All that was learnt in one run, by the empty room it was learnt in."""

    _rooms: dict[Scenario, dict[Learnt, None]] = field(default_factory=dict)

    def cuts_for(self, scenario: Scenario) -> list[Cut]:
        """The cuts known to hold there."""
        known = self._rooms.get(_emptied(scenario), {})
        return [learnt.cut for learnt in known if learnt.holds_in(scenario)]

    def learn(self, scenario: Scenario, cuts: Iterable[Cut]) -> None:
        """Remember cuts of a search in that scenario."""
        known = self._rooms.setdefault(_emptied(scenario), {})
        for cut in cuts:
            pieces = tuple(scenario.piece(hold.placement.piece) for hold in cut.holds)
            known[Learnt(cut, pieces)] = None


def _emptied(scenario: Scenario) -> Scenario:
    """What the walkway depends on beside the pieces: the room, its rules, the width."""
    return replace(scenario.unfurnished, title="")


def _blocks_as_well(hold: Hold, then: Piece, now: Piece) -> bool:
    """Whether the piece does now, within the hold, all that it did then."""
    then, now = _body(then), _body(now)
    if then == now:
        return True
    same_otherwise = replace(now, width=then.width, depth=then.depth) == then
    grown = now.width >= then.width and now.depth >= then.depth
    # Ranges are those of a lower left corner: a slanted body would grow to all sides.
    return hold.any_way_round and hold.placement.facing is not None and same_otherwise and grown


def _body(piece: Piece) -> Piece:
    """The piece without what no path depends on."""
    return replace(piece, price=None, owned=False)
