"""Last touch: the same points, on the same walls, but in tidier places.

The search leaves a piece anywhere within its leeway. People put things into
corners or measure whole centimetres, so of all arrangements that score as much
with every piece on its wall, one with many such places is taken. Lengths in mm.
"""

from __future__ import annotations

from arrange.data.arrangement import Arrangement
from arrange.solver.boxes import Expr, Literal
from arrange.solver.engine import Answer, Clock, solve
from arrange.solver.model import Model
from arrange.solver.places import Place

WHOLE = 10  # mm; tapes are read in whole centimetres
WORK = 0.15  # deterministic seconds; without an answer the arrangement stays as it is
CORNER, ROUND = 3, 1  # what a piece in a corner and a whole centimetre count


def tidy(model: Model, arrangement: Arrangement, score: int, clock: Clock, seed: int) -> Answer:
    """Ask for a tidier arrangement with every stance held and at least ``score`` points.

    ``model`` is used up. The answer may hold no arrangement.
    """
    for placement in arrangement.placements:
        model.hold_stance(placement)
    model.must(model.points >= score)
    worth: list[tuple[Literal, int]] = []
    for piece in model.scenario.pieces:
        if piece.anchor is None:
            worth += _places(model, model.place(piece.name))
    model.cp.maximize(sum(weight * literal for literal, weight in worth))
    return solve(model, clock, seed=seed, work=WORK, goal="any")


def _places(model: Model, place: Place) -> list[tuple[Literal, int]]:
    """What is tidy about where one untied piece stands."""
    if not place.offsets:
        x0, y0, _, _ = place.bounds
        return [(_whole(model, place.x0 - x0), ROUND), (_whole(model, place.y0 - y0), ROUND)]
    worth: list[tuple[Literal, int]] = []
    for wall, offset in place.offsets.items():
        last = int(model.scenario.room.walls[wall].length + 1e-6) - place.piece.width
        first, end = model.literal(), model.literal()
        model.when(first, offset == 0)
        model.when(end, offset == last)
        model.implies(first, place.walls[wall])
        model.implies(end, place.walls[wall], first.negated())
        worth += [(first, CORNER), (end, CORNER), (_whole(model, offset), ROUND)]
    return worth


def _whole(model: Model, length: Expr) -> Literal:
    """Whether a length is whole centimetres."""
    literal = model.literal()
    count = model.number(0, 10_000)
    model.when(literal, length == WHOLE * count)
    return literal
