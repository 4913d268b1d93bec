"""What `pytest -m fast` leaves out is left out for a reason, and what it runs uses no solver."""

import subprocess
import sys
from pathlib import Path

import pytest
from conftest import SolverUsedError, no_solver

pytestmark = pytest.mark.fast

HERE = Path(__file__).parent
MODULES = {path.stem: path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py")}
FAST = {name for name, text in MODULES.items() if "mark.fast" in text}
# Modules that load without the solver, and have no fast test all the same.
REASONS = {
    "test_alike_impossible": "compares two answers of the solver",
    "test_brute_force": "compares what the solver finds with every place on a grid",
    "test_cli": "runs searches from the command line",
    "test_draw_painters": "starts processes and waits for them",
    "test_outside_rooms": "asks for the smallest room that works",
    "test_rules_musts": "asks model and judge of every row",
    "test_walking_raster": "random rooms for many seconds",
    "test_wishes_light": "asks model and judge of every row",
    "test_wishes_room": "asks model and judge of every row",
    "test_wishes_sitting": "asks model and judge of every row",
    "test_wishes_sleeping": "asks model and judge of every row",
}
IMPORTS = """
import importlib, sys
sys.path[:0] = sys.argv[1:3]
from conftest import NoSolver, SolverUsedError
sys.meta_path.insert(0, NoSolver())
for name in sys.argv[3:]:
    try:
        importlib.import_module(name)
    except SolverUsedError:
        print(name)
"""


def test_every_module_is_fast_or_has_a_reason():
    """Either it cannot be imported without the solver, or the reason is written here."""
    command = [sys.executable, "-c", IMPORTS, str(HERE), str(HERE.parent), *sorted(MODULES)]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    loading = set(run.stdout.split())
    assert not FAST & loading
    assert set(MODULES) - FAST - loading == set(REASONS)


def build_a_model():
    """What a fast test must not do."""
    from ortools.sat.python import cp_model  # noqa: PLC0415

    return cp_model.CpModel()


def test_a_fast_test_cannot_load_the_solver_nor_use_it():
    """Whether or not another test has loaded it before."""
    with no_solver(), pytest.raises(SolverUsedError, match="mark it `solver`"):
        build_a_model()
