"""The model's own opinion of a finished arrangement, to hold against the judge's."""

from __future__ import annotations

from ortools.sat.python import cp_model

from arrange.data.arrangement import Arrangement
from arrange.data.result import Verdict
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.solver.model import Model


def model_score(scenario: Scenario, arrangement: Arrangement) -> int | None:
    """The most points the model gives when every piece is held where it stands.

    In tenths of a point; None if the model finds that a must is broken. The
    walkway is not part of this model: the judge alone decides on it.
    """
    model = Model(scenario, alike_in_order=False)
    model.finish()
    model.pin(arrangement)
    model.cp.maximize(model.points)
    solver = cp_model.CpSolver()
    # Otherwise CP-SAT takes Ctrl-C over, and leaves it without a handler.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    status = solver.solve(model.cp)
    if status == cp_model.INFEASIBLE:
        return None
    if status != cp_model.OPTIMAL:
        raise DisagreementError(f"the model gives no score: {solver.status_name(status)}")
    return int(solver.value(model.points))


def confirm(scenario: Scenario, arrangement: Arrangement) -> Verdict:
    """The judge's verdict; DisagreementError unless the model's score equals its score."""
    verdict = judge(scenario, arrangement)
    score = model_score(scenario, arrangement)
    if score != verdict.score:
        raise DisagreementError(
            f"model {score}, judge {verdict.score}: please report this scenario"
        )
    return verdict
