"""Facts about CP-SAT that the solver leans on, each shown on a model of a few lines.

If one of these fails after an upgrade of OR-Tools, look at the module named in
its docstring before trusting any proof.
"""

import threading

import pytest
from ortools.sat.python import cp_model


def quiet(**parameters):
    """One worker unless told otherwise."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    for name, value in parameters.items():
        setattr(solver.parameters, name, value)
    return solver


def squares(sizes, width, height):
    """Squares in a rectangle; every corner a variable, the sum of corners the objective."""
    cp = cp_model.CpModel()
    xs = [cp.new_int_var(0, width - s, f"x{s}") for s in sizes]
    ys = [cp.new_int_var(0, height - s, f"y{s}") for s in sizes]
    cp.add_no_overlap_2d(
        [cp.new_fixed_size_interval_var(x, s, "") for x, s in zip(xs, sizes, strict=True)],
        [cp.new_fixed_size_interval_var(y, s, "") for y, s in zip(ys, sizes, strict=True)],
    )
    return cp, xs, ys


def read(solver, variables):
    return [solver.value(v) for v in variables]


@pytest.mark.parametrize("limit", [None, 0.02])
def test_one_worker_with_a_seed_repeats_itself(limit):
    """The same solution three times, also when deterministic work is cut short (engine)."""
    answers = []
    for _ in range(3):
        cp, xs, ys = squares([9, 8, 7, 6, 5, 4, 3, 2], 18, 22)
        cp.maximize(sum((i + 1) * x - y for i, (x, y) in enumerate(zip(xs, ys, strict=True))))
        solver = quiet(random_seed=5, linearization_level=0, cp_model_probing_level=0)
        if limit is not None:
            solver.parameters.max_deterministic_time = limit
        status = solver.solve(cp)
        found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        answers.append((status, read(solver, xs + ys) if found else None))
    assert answers[0] == answers[1] == answers[2]


def test_deterministic_work_is_reported_and_obeyed():
    """Work is measured even when a solve is cut short: turns are counted in it (search)."""
    cp, xs, _ = squares(range(2, 16), 36, 36)
    cp.maximize(sum((-1) ** i * x for i, x in enumerate(xs)))
    solver = quiet(max_deterministic_time=0.05, linearization_level=0, cp_model_probing_level=0)
    solver.solve(cp)
    assert 0 < solver.response_proto.deterministic_time < 1


def test_the_bound_of_a_solve_cut_short_is_not_below_the_best():
    """The best bound holds for every solution, so it may be carried on (search)."""
    cp, xs, ys = squares([9, 8, 7, 6, 5, 4], 17, 20)
    weights = [3, -2, 5, -4, 1, 2]
    cp.maximize(sum(w * (x + 2 * y) for w, x, y in zip(weights, xs, ys, strict=True)))
    short = quiet(max_deterministic_time=0.01, linearization_level=0)
    short.solve(cp)
    whole = quiet()
    assert whole.solve(cp) == cp_model.OPTIMAL
    assert short.best_objective_bound >= whole.objective_value


def test_reading_a_value_without_a_solution_raises_nothing():
    """So values may be read only behind the status (engine.solve)."""
    cp = cp_model.CpModel()
    x = cp.new_int_var(0, 5, "x")
    cp.add(x >= 3)
    cp.add(x <= 2)
    solver = quiet()
    assert solver.solve(cp) == cp_model.INFEASIBLE
    assert isinstance(solver.value(x), int)


def lone_box_and(a0, a1):
    """Whether a box of no width over a0..a1 goes with a 10 x 10 box at the origin."""
    cp = cp_model.CpModel()
    xs = [
        cp.new_fixed_size_interval_var(0, 10, ""),
        cp.new_fixed_size_interval_var(a0, a1 - a0, ""),
    ]
    ys = [cp.new_fixed_size_interval_var(0, 10, ""), cp.new_fixed_size_interval_var(2, 5, "")]
    cp.add_no_overlap_2d(xs, ys)
    return quiet().solve(cp) != cp_model.INFEASIBLE


@pytest.mark.parametrize(
    ("at", "allowed"),
    [
        pytest.param(-1, True, id="outside"),
        pytest.param(0, True, id="on the edge"),
        pytest.param(5, False, id="inside"),
        pytest.param(10, True, id="on the far edge"),
    ],
)
def test_a_box_of_no_width_may_lie_on_an_edge_but_not_inside(at, allowed):
    """A clearance of depth 0 is such a box; it lies on its own piece's edge (zones)."""
    assert lone_box_and(at, at) is allowed


def test_an_absent_optional_box_blocks_nothing():
    """Boxes are there only while their literals hold (boxes.Box.interval)."""
    cp = cp_model.CpModel()
    there = cp.new_bool_var("there")
    size = cp.new_fixed_size_interval_var
    maybe = [cp.new_optional_fixed_size_interval_var(0, 10, there, "") for _ in range(2)]
    cp.add_no_overlap_2d([size(0, 10, ""), maybe[0]], [size(0, 10, ""), maybe[1]])
    solver = quiet()
    assert solver.solve(cp) == cp_model.OPTIMAL
    assert not solver.boolean_value(there)


def test_touching_boxes_do_not_overlap():
    """Pieces may stand edge to edge (floor)."""
    cp, _, _ = squares([3, 2], 5, 3)
    assert quiet().solve(cp) == cp_model.OPTIMAL
    cp, _, _ = squares([3, 2], 4, 3)
    assert quiet().solve(cp) == cp_model.INFEASIBLE


def test_a_clone_keeps_variables_and_what_is_added_stays_in_it():
    """A copied model is narrowed for a repair while the first goes on (Model.copy)."""
    cp = cp_model.CpModel()
    x = cp.new_int_var(0, 9, "x")
    twin = cp.clone()
    twin.add(x <= 4)
    for model, best in ((twin, 4), (cp, 9)):
        model.maximize(x)
        solver = quiet()
        solver.solve(model)
        assert solver.value(x) == best


def test_a_model_can_be_solved_narrowed_and_solved_again():
    """Cuts and a rising floor are added between solves; the objective is set anew (search)."""
    cp = cp_model.CpModel()
    x = cp.new_int_var(0, 9, "x")
    for most in (9, 6, 2):
        cp.add(x <= most)
        cp.maximize(x)
        solver = quiet()
        assert solver.solve(cp) == cp_model.OPTIMAL
        assert solver.value(x) == most
    cp.add(x >= 3)
    assert quiet().solve(cp) == cp_model.INFEASIBLE


@pytest.mark.parametrize("second", [False, True])
def test_both_configurations_agree_on_a_small_impossible_packing(second):
    """Squares 1 to 4 do not fit 5 x 6, by either configuration used for proofs (session)."""
    cp, _, _ = squares([1, 2, 3, 4], 5, 6)
    p = {"linearization_level": 1, "cp_model_presolve": False, "cp_model_probing_level": 0}
    solver = quiet(**p) if second else quiet(linearization_level=0, cp_model_probing_level=0)
    assert solver.solve(cp) == cp_model.INFEASIBLE


class Count(cp_model.CpSolverSolutionCallback):
    """Counts solutions by their values."""

    def __init__(self, variables):
        super().__init__()
        self.variables, self.seen = variables, set()

    def on_solution_callback(self):
        """Remember the values."""
        self.seen.add(tuple(self.value(v) for v in self.variables))


def test_one_worker_enumerates_every_solution():
    """12 ordered pairs of different numbers from four; more workers have lost some."""
    cp = cp_model.CpModel()
    pair = [cp.new_int_var(0, 3, "a"), cp.new_int_var(0, 3, "b")]
    cp.add(pair[0] != pair[1])
    count = Count(pair)
    assert quiet(enumerate_all_solutions=True).solve(cp, count) == cp_model.OPTIMAL
    assert len(count.seen) == 12


def four_rules():
    """Rules 0 and 1 clash; the two others do not."""
    cp = cp_model.CpModel()
    a, b = cp.new_int_var(0, 9, "a"), cp.new_int_var(0, 9, "b")
    rules = [cp.new_bool_var(f"rule {i}") for i in range(4)]
    cp.add(a <= b - 1).only_enforce_if(rules[0])
    cp.add(b <= a - 1).only_enforce_if(rules[1])
    cp.add(a >= 2).only_enforce_if(rules[2])
    cp.add(b >= 3).only_enforce_if(rules[3])
    cp.add_assumptions(rules)
    return cp, a, rules


def core_of(cp, rules):
    solver = quiet()
    assert solver.solve(cp) == cp_model.INFEASIBLE
    blamed = set(solver.sufficient_assumptions_for_infeasibility())
    return {i for i, rule in enumerate(rules) if rule.index in blamed}


def test_assumptions_name_the_rules_that_clash():
    """Without an objective the core leaves out what is not to blame."""
    cp, _, rules = four_rules()
    assert core_of(cp, rules) == {0, 1}


def test_with_an_objective_the_core_still_holds_the_clash():
    """With an objective it may blame everything, so cores are asked for without one."""
    cp, a, rules = four_rules()
    cp.maximize(a)
    assert core_of(cp, rules) >= {0, 1}


def test_a_stopped_search_ends_soon():
    """Ctrl-C is turned into stop_search from the main thread (engine)."""
    cp, xs, ys = squares(range(2, 25), 71, 72)
    cp.maximize(sum((-1) ** i * (x + y) for i, (x, y) in enumerate(zip(xs, ys, strict=True))))
    solver = quiet(max_time_in_seconds=60)
    thread = threading.Thread(target=solver.solve, args=(cp,), daemon=True)
    thread.start()
    thread.join(0.5)
    solver.stop_search()
    thread.join(10)
    assert not thread.is_alive()


def test_a_domain_with_gaps_is_kept():
    """Offsets along a wall are listed as intervals with gaps (obstacles.free_offsets)."""
    cp = cp_model.CpModel()
    blocked = cp_model.Domain.from_intervals([[3, 5], [8, 8]])
    free = cp_model.Domain(0, 9).intersection_with(blocked.complement())
    x = cp.new_int_var_from_domain(free, "x")
    count = Count([x])
    quiet(enumerate_all_solutions=True).solve(cp, count)
    assert sorted(v for (v,) in count.seen) == [0, 1, 2, 6, 7, 9]


@pytest.mark.parametrize("work", [1e-5, 1e-4, 1e-3, 3e-3, 1e-2, 3e-2])
def test_a_bound_of_a_solve_cut_short_is_a_bound_or_zero(work):
    """Without a solution too; 0 where it did not get through its presolve (engine).

    Fourteen squares, the most that their corners can give is less than 36 each.
    """
    cp, xs, _ = squares(range(2, 16), 36, 36)
    cp.maximize(sum(xs))
    solver = quiet(max_deterministic_time=work, linearization_level=0, cp_model_probing_level=0)
    status = solver.solve(cp)
    most = sum(36 - s for s in range(2, 16))
    assert status in (cp_model.UNKNOWN, cp_model.FEASIBLE)
    if status == cp_model.UNKNOWN:
        assert solver.best_objective_bound == 0 or 300 < solver.best_objective_bound <= most
