"""How large a piece may be in its place in a plan, and the plan still look right. Lengths in mm.

Right is: the judge finds no fault that a good plan never has and that was not there before, and
the plan loses no more than is felt; and it is no longer than the trade allows beside what it
goes with. Sizes are tried one step after another, from what was planned on, so that all below
the one that is told look right as well. No solver.
"""

from __future__ import annotations

from collections.abc import Sequence

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.change import Resize, changed
from arrange.data.kinds import sensible
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension, in_mm, in_steps
from arrange.judge import judge, works
from arrange.whatif.move import resized_in_place

LOSS = 20  # tenths of a point that nobody feels; our own judgement
STRIDE = {"in": 2}  # steps at a time before single ones: 2 in, else 5 cm
USUAL_STRIDE = 5
SOFA_PART = (2, 3)  # of the sofa's length, for a coffee table; common practice
WAYS = (0, 1, 2)  # which of its sides stays: one, the middle, the other


def looks_right_up_to(
    scenario: Scenario,
    arrangement: Arrangement,
    piece: Piece,
    side: Dimension,
    budget: Budget,
) -> int | None:
    """The largest ``side``, in whole steps of the file's unit, at which the plan looks right.

    Pieces that are alike grow together, up to what is sensible for the kind. None where it does
    not look right as it is planned, stands aslant, or the time is over.
    """
    names = [p.name for p in scenario.pieces if p.alike == piece.alike]
    before = judge(scenario, arrangement, gaps=False)
    low = in_steps(getattr(piece, side), scenario.unit)
    cap = min(sensible(piece.kind, side), _cap(scenario, piece, side))
    high = in_steps(cap, scenario.unit)

    last = [WAYS[0]]

    def right(steps: int) -> bool:
        if budget.over:
            return False
        size = {side: in_mm(steps, scenario.unit)}
        after = changed(scenario, [Resize(name, **size) for name in names])
        for way in sorted(WAYS, key=lambda one: one != last[0]):  # as before, most likely
            there = resized_in_place(scenario, after, names, arrangement, (way, way))
            if there is None or not works(after, there):
                continue
            verdict = judge(after, there, gaps=False)
            less = before.score - verdict.score
            if verdict.faults <= before.faults and less <= LOSS:
                last[0] = way
                return True
        return False

    if high < low or not right(low):
        return None
    stride = STRIDE.get(scenario.unit, USUAL_STRIDE)
    found = low
    for step in (stride, 1):
        while found + step <= high and right(found + step):
            found += step
    return None if budget.over else in_mm(found, scenario.unit)


def _cap(scenario: Scenario, piece: Piece, side: Dimension) -> int:
    """What the trade allows beside what it goes with, in mm; no limit for most pieces."""
    sofas = _sofas(scenario)
    if piece.kind not in ("coffee table", "round coffee table") or not sofas:
        return 10**6
    longest = max(sofa.width for sofa in sofas)
    return longest * SOFA_PART[0] // SOFA_PART[1] if side == "width" else 10**6


def _sofas(scenario: Scenario) -> Sequence[Piece]:
    return [p for p in scenario.pieces if p.is_a("sofa")]
