"""One call to CP-SAT: limits, seed, Ctrl-C, and the status read in one place."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.result import FULL, NOTHING
from arrange.solver.model import Model

Goal = Literal["most points", "any"]
Status = Literal["best", "some", "none", "unknown"]
Preparing = Literal["simplified", "at once", "related"]
LEAST_WORK = 1e-3  # deterministic seconds to count for any solve, so that turns end
# Ways of choosing a part that give other answers for the same seed (OR-tools 9.15).
UNREPEATABLE = [
    f"{way}_lns"
    for way in (
        "packing_precedences",
        "packing_random",
        "packing_slice",
        "packing_square",
        "packing_swap",
        "scheduling_precedences",
    )
]
RELATED = 50  # boxes that must keep apart, to have literals for which of two is where; usual: 10
POLL = 0.05  # s between looks at the clock while a solver runs


@dataclass(frozen=True)
class Answer:
    """What one solve says. ``bound`` is the most points any solution can have.

    ``status``: the best one; some, not proven best; surely none; not known.
    ``arrangement`` and ``points`` are there for "best" and "some" only. ``values`` are those
    of the variables that all models of a scenario share, ``whole`` those of every variable.
    """

    status: Status
    bound: int
    arrangement: Arrangement | None = None
    points: int = NOTHING
    work: float = 0.0
    values: Sequence[int] = ()
    whole: Sequence[int] = ()


def solve(
    model: Model,
    budget: Budget,
    *,
    seed: int = 0,
    work: float | None = None,
    goal: Goal = "most points",
    second_opinion: bool = False,
    from_above: bool = False,
    hint: Sequence[int] = (),
    by_parts: bool = False,
    until: Callable[[], bool] = lambda: False,
    preparing: Preparing = "simplified",
) -> Answer:
    """Maximise the points of a finished model.

    Parameters
    ----------
    model
        The model; its objective is set here.
    budget
        Wall-clock limit; the solve ends within a tenth of a second of it.
    seed
        Same model, same seed, same answer: one worker, and ``work`` (CP-SAT's
        deterministic seconds) rather than time where a solve is to be cut short.
    work
        Deterministic seconds after which the solve is cut short; None: no limit.
    goal
        The most points, or any solution at all: far quicker without points to gain.
    hint
        ``values`` of an earlier answer, or its ``whole`` if its model was made alike.
    by_parts
        Better the solution that is the hint a part at a time: most of it is held, and the
        rest is asked anew, over and over. Proves nothing.
    until
        Looked at now and then; the solve ends soon after it says yes.
    second_opinion
        Another configuration, to confirm that there is no solution: no presolve,
        another seed, linear relaxation on.
    from_above
        Begin with all that can be earned and give up what clashes, instead of beginning
        with any solution and asking for more. Which of the two is sooner at a good one
        differs from room to room.
    preparing
        What happens to the model before it is searched. "at once": nothing; quicker where the
        answer is a quick no, and mostly ``from_above``, too. "related": simplified, with a
        literal for each way in which two boxes can keep apart, in larger groups of boxes than
        usual. Any solution at all is then a matter of little luck; for the most points it is
        neither better nor worse.
    """
    solver = _configured(budget, seed, work, second_opinion=second_opinion)
    _prepared(solver, preparing)
    solver.parameters.optimize_with_core = from_above
    if by_parts:
        _by_parts(solver)
    if goal == "most points":
        model.aim()
    for index, value in enumerate(hint):
        model.cp.add_hint(model.cp.get_int_var_from_proto_index(index), value)
    status = _run(solver, model.cp, lambda: budget.stopped or until())
    if status == cp_model.INFEASIBLE:
        return Answer("none", NOTHING, work=solver.response_proto.deterministic_time)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        if status == cp_model.MODEL_INVALID:
            raise ValueError(model.cp.validate())
        bound = _bound(solver, goal)
        return Answer("unknown", bound, work=solver.response_proto.deterministic_time)
    return Answer(
        "best" if status == cp_model.OPTIMAL and goal == "most points" else "some",
        _bound(solver, goal),
        model.arrangement(solver),
        int(solver.value(model.points)),
        solver.response_proto.deterministic_time,
        tuple(solver.response_proto.solution)[: model.shared],
        tuple(solver.response_proto.solution),
    )


def _bound(solver: cp_model.CpSolver, goal: Goal) -> int:
    """The most points there can be, as far as the solve went.

    Cut short in its presolve it reports 0, which is no bound.
    """
    bound = int(solver.best_objective_bound + 0.5) if goal == "most points" else 0
    return min(bound, FULL) if bound != 0 or solver.response_proto.solution else FULL


def _configured(
    budget: Budget, seed: int, work: float | None, *, second_opinion: bool
) -> cp_model.CpSolver:
    # Measured on the example rooms: one worker without a linear relaxation and
    # without probing proves the best 3 to 10 times sooner than the defaults.
    solver = cp_model.CpSolver()
    p = solver.parameters
    p.num_workers = 1
    p.random_seed = seed + 17 if second_opinion else seed
    p.linearization_level = 1 if second_opinion else 0
    p.cp_model_probing_level = 0
    p.cp_model_presolve = not second_opinion
    p.max_time_in_seconds = max(budget.left, 0.01)
    p.catch_sigint_signal = False
    if work is not None:
        p.max_deterministic_time = work
    if not second_opinion:
        _quicker(p)
    return solver


def _quicker(p: cp_model.SatParameters) -> None:
    # Measured on 28 models of examples and furnished rooms: conflicts explained in whole numbers
    # and not in yes-or-no literals alone, sums and the order of boxes propagated the plain way,
    # clauses not tidied between restarts, one round of simplifying. The middle question is
    # decided in 0.3 of the time that CP-SAT's usual ways take, and any arrangement at all found
    # in 0.3. The second opinion keeps the usual ways.
    p.use_new_integer_conflict_resolution = True
    p.new_linear_propagation = False
    p.use_linear3_for_no_overlap_2d_precedences = False
    p.use_sat_inprocessing = False
    p.max_presolve_iterations = 1


def _prepared(solver: cp_model.CpSolver, preparing: Preparing) -> None:
    p = solver.parameters
    if preparing == "at once":
        p.cp_model_presolve = False
    elif preparing == "related":
        p.no_overlap_2d_boolean_relations_limit = RELATED


def _by_parts(solver: cp_model.CpSolver) -> None:
    p = solver.parameters
    p.use_lns_only = True
    p.interleave_search = True  # its parts take turns by work, so that they are repeatable
    p.ignore_subsolvers.extend(UNREPEATABLE)


def _run(
    solver: cp_model.CpSolver, cp: cp_model.CpModel, until: Callable[[], bool]
) -> cp_model.CpSolverStatus:
    """Solve in a thread of its own, so that it can be stopped from here."""
    answer: list[cp_model.CpSolverStatus] = []
    trouble: list[BaseException] = []

    def work() -> None:
        try:
            answer.append(solver.solve(cp))
        except BaseException as error:  # raised again below
            trouble.append(error)

    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    try:
        while thread.is_alive():
            thread.join(POLL)
            if until():
                solver.stop_search()
    finally:  # whatever is raised here, Ctrl-C too: the solver does not go on by itself
        while thread.is_alive():
            solver.stop_search()
            thread.join(POLL)
    if trouble:
        raise trouble[0]
    return answer[0]
