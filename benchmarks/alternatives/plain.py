"""The product's model and judge in a plain loop: what its search is worth by itself.

Not what somebody would write in a day: these two opponents are given the product's own
formulation, in which walkways are left out, and its judge, which decides on them.
`lattice.py` is the one that is not. In the *plainer* form of the model the places along
a wall are not worked out beforehand, and everything is kept off what is not floor by
no-overlap; the other form is the model as it is.

Eight workers, CP-SAT's defaults. Every solution found on the way is judged. When the
best one cannot be walked, it is ruled out, with everything that stands and is turned
alike within ``APART`` mm of it, and the next best is asked for. Nothing of the product's
search or of its cuts is used.
"""

from __future__ import annotations

from collections.abc import Callable
from unittest.mock import patch

from ortools.sat.python import cp_model

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.judge import judge
from arrange.solver import model as ours
from arrange.solver import piece_variables
from arrange.solver.floor import FloorConstraints
from arrange.solver.model import Model
from arrange.solver.places import Place
from benchmarks.alternatives.recorder import Recorder, Timeline

WORKERS = 8
APART = 100  # mm; ruling out one exact arrangement at a time would get nowhere


class Heard(cp_model.CpSolverSolutionCallback):
    """Judges every solution as it comes."""

    def __init__(self, model: Model, recorder: Recorder) -> None:
        super().__init__()
        self._model = model
        self._recorder = recorder

    def on_solution_callback(self) -> None:
        """Judge and record."""
        self._recorder.offer(self._model.arrangement(self))


def our_model_made_plainer(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of one run of the loop on the plainer form of the model."""
    return _loop(plainer_model, scenario, seconds, seed)


def our_model(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of the same loop on the product's own model."""
    return _loop(Model, scenario, seconds, seed)


def _loop(
    make: Callable[[Scenario], Model], scenario: Scenario, seconds: float, seed: int
) -> Timeline:
    """The time counts from before the model is made."""
    recorder = Recorder(scenario, seconds)
    model = make(scenario)
    model.finish()
    _solve(model, recorder, seed)
    return recorder.timeline


def plainer_model(scenario: Scenario) -> Model:
    """The product's model with nothing worked out beforehand, not finished yet."""
    with (
        patch.object(piece_variables, "wall_offsets", _anywhere),
        patch.object(ours, "stand", _stand),
    ):
        return Model(scenario)


def solver_for(recorder: Recorder, seed: int) -> cp_model.CpSolver:
    """CP-SAT's defaults, eight workers, the time that is left."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = WORKERS
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = recorder.left
    return solver


def _anywhere(ground: FloorConstraints, piece: Piece, index: int) -> cp_model.Domain:
    """Any whole mm along a wall, or its two ends for a corner piece."""
    span = int(ground.room.walls[index].length + 1e-6) - piece.width
    if span < 0:
        return cp_model.Domain.from_intervals([])
    if piece.stands == "corner":
        return cp_model.Domain.from_values([0, span])
    return cp_model.Domain(0, span)


def _stand(cp: cp_model.CpModel, ground: FloorConstraints, piece: Piece, **how: bool) -> Place:
    """As the product has it, but kept off what does not move by no-overlap."""
    place = piece_variables.stand(cp, ground, piece, **how)
    place.fixed_done = False
    return place


def _solve(model: Model, recorder: Recorder, seed: int) -> None:
    """Solve, judge, rule out, again."""
    model.cp.maximize(model.points)
    while recorder.left > 0:
        solver = solver_for(recorder, seed)
        status = solver.solve(model.cp, Heard(model, recorder))
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
