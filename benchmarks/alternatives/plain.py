"""A plain CP-SAT model: default settings, one solve, walkways checked from outside.

Four quarter turns, back equal to a wall line, one no-overlap for the bodies and one
for each clearance, everything kept off what is not floor by no-overlap too. Points
are said by the rules' own ``reach``, so that the score is the same; for that the
product's ``Model`` is used, with what makes it more than plain taken out: the places
along a wall are not worked out beforehand. Nothing of the product's search is used.

Eight workers, CP-SAT's defaults. Every solution found on the way is judged. When the
best one cannot be walked, it is ruled out, with everything that stands and is turned
alike within ``APART`` mm of it, and the next best is asked for.

``plain_solve_of_ours`` is the same loop on the product's model as it is.
"""

from __future__ import annotations

from unittest.mock import patch

from ortools.sat.python import cp_model

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.judge import judge
from arrange.solver import model as ours
from arrange.solver import standing
from arrange.solver.floor import Ground
from arrange.solver.model import Model
from arrange.solver.places import Place
from benchmarks.alternatives.recorder import Recorder, Timeline

WORKERS = 8
APART = 100  # mm; ruling out one exact arrangement at a time would get nowhere


class _Heard(cp_model.CpSolverSolutionCallback):
    """Judges every solution as it comes."""

    def __init__(self, model: Model, recorder: Recorder) -> None:
        super().__init__()
        self._model = model
        self._recorder = recorder

    def on_solution_callback(self) -> None:
        """Judge and record."""
        self._recorder.offer(self._model.arrangement(self))


def plain(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of one run of the plain model."""
    recorder = Recorder(scenario, seconds)
    with patch.object(standing, "_wall_offsets", _anywhere), patch.object(ours, "stand", _stand):
        model = Model(scenario)
    model.finish()
    _solve(model, recorder, seed)
    return recorder.timeline


def plain_solve_of_ours(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of the same loop on the product's own model."""
    recorder = Recorder(scenario, seconds)
    model = Model(scenario)
    model.finish()
    _solve(model, recorder, seed)
    return recorder.timeline


def _anywhere(ground: Ground, piece: Piece, index: int) -> cp_model.Domain:
    """Any whole mm along a wall, or its two ends for a corner piece."""
    span = int(ground.room.walls[index].length + 1e-6) - piece.width
    if span < 0:
        return cp_model.Domain.from_intervals([])
    if piece.stands == "corner":
        return cp_model.Domain.from_values([0, span])
    return cp_model.Domain(0, span)


def _stand(cp: cp_model.CpModel, ground: Ground, piece: Piece, *, told_apart: bool = True) -> Place:
    """As the product has it, but kept off what does not move by no-overlap."""
    place = standing.stand(cp, ground, piece, told_apart=told_apart)
    place.fixed_done = False
    return place


def _solve(model: Model, recorder: Recorder, seed: int) -> None:
    """Solve, judge, rule out, again."""
    model.cp.maximize(model.points)
    while recorder.left > 0:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = WORKERS
        solver.parameters.random_seed = seed
        solver.parameters.max_time_in_seconds = recorder.left
        status = solver.solve(model.cp, _Heard(model, recorder))
        if status != cp_model.OPTIMAL:
            break
        arrangement = model.arrangement(solver)
        if judge(recorder.scenario, arrangement).works:
            break
        _rule_out(model, arrangement)


def _rule_out(model: Model, arrangement: Arrangement) -> None:
    """Some piece stands or is turned otherwise, or moves by more than ``APART``."""
    choices = []
    for placement in arrangement.placements:
        place = model.place(placement.piece)
        choices += place.turned_otherwise(placement, any_way_round=False)
        if placement.facing is None:
            continue
        for start, now in ((place.x0, placement.x), (place.y0, placement.y)):
            for away in (start <= now - APART, start >= now + APART):
                choices.append(model.literal())
                model.when(choices[-1], away)
    model.one_of(choices)
