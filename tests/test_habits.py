"""Habits of the tests and benchmarks themselves: fast or for a reason not, nothing private touched.

`pytest -m fast` runs what uses no solver. A test or benchmark that needs something of the
program by a private name needs either a public one or a test through the public face.
"""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import SolverUsedError, no_solver

from arrange.rules import RULES
from arrange.rules.wished import OwnWish

pytestmark = pytest.mark.fast

HERE = Path(__file__).parent
TOP = HERE.parent
FILES = sorted([*HERE.glob("*.py"), *(TOP / "benchmarks").rglob("*.py")])
MODULES = {path.stem: path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py")}
FAST = {name for name, text in MODULES.items() if "mark.fast" in text}
# Modules that load without the solver, and have no fast test all the same.
REASONS = {
    "test_all_shapes": "runs searches",
    "test_brute_force": "compares what the solver finds with every place on a grid",
    "test_check": "runs searches",
    "test_choose_cli": "runs the search from the command line",
    "test_cli": "runs searches from the command line",
    "test_compare": "runs searches",
    "test_draw_painters": "starts processes and waits for them",
    "test_hash_seed": "compares the files of runs in processes of their own",
    "test_kills": "starts processes and kills them",
    "test_metamorphic": "runs searches",
    "test_order_of_pieces": "runs searches",
    "test_outside_rooms": "asks for the smallest room that works",
    "test_results": "runs searches",
    "test_rules_musts": "asks model and judge of every row",
    "test_today_off_walls": "runs searches",
    "test_walking_raster": "random rooms for many seconds",
    "test_wishes_at_walls": "asks model and judge of every row",
    "test_wishes_doors": "asks model and judge of every row",
    "test_wishes_groups": "asks model and judge of every row",
    "test_wishes_gutters": "asks model and judge of every row",
    "test_wishes_in_line": "asks model and judge of every row",
    "test_wishes_light": "asks model and judge of every row",
    "test_wishes_past": "asks model and judge of every row",
    "test_wishes_room": "asks model and judge of every row",
    "test_wishes_sitting": "asks model and judge of every row",
    "test_wishes_sleeping": "asks model and judge of every row",
    "test_wishes_outlook": "asks model and judge of every row",
    "test_wishes_view": "asks model and judge of every row",
    "test_wishes_uses": "asks model and judge of every row",
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


@pytest.mark.slow
def test_every_module_is_fast_or_has_a_reason():
    """Either it cannot be imported without the solver, or the reason is written here."""
    command = [sys.executable, "-c", IMPORTS, str(HERE), str(TOP), *sorted(MODULES)]
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


def is_private(name):
    """Whether a name is one that its module keeps to itself."""
    return name.startswith("_") and not name.startswith("__")


def private_names(tree):
    """Private names of others: imported, taken from a module or object, or named to be patched."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("arrange"):
            yield from (alias.name for alias in node.names if is_private(alias.name))
        elif isinstance(node, ast.Attribute) and is_private(node.attr):
            owner = node.value.id if isinstance(node.value, ast.Name) else ""
            if (owner, node.attr) != ("os", "_exit") and owner not in ("self", "cls"):
                yield ast.unparse(node)
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith(PATCHES):
            for given in node.args:
                if isinstance(given, ast.Constant) and isinstance(given.value, str):
                    yield from (part for part in given.value.split(".") if is_private(part))


PRIVATE = re.compile(r"\b_(?!_)\w")
PATCHES = ("setattr", "delattr", "getattr", "patch", "patch.object", "patch.multiple")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_nothing_private_is_imported_or_touched(path):
    """What tests and benchmarks need of the program has a public name and a docstring."""
    text = path.read_text(encoding="utf-8")
    # Most files have no name at all that begins with one underscore.
    assert not PRIVATE.search(text) or not list(private_names(ast.parse(text)))


@pytest.mark.parametrize(
    "line",
    [
        "from arrange.judge import _weigh",
        "import arrange.judge as judge\njudge._weigh(1)",
        "monkeypatch.setattr(judge, '_weigh', None)",
        "monkeypatch.setattr('arrange.judge._weigh', None)",
        "patch.object(judge, '_weigh', None)",
    ],
)
def test_what_is_private_is_noticed(line):
    """Each way to get at a private name."""
    assert PRIVATE.search(line)
    assert list(private_names(ast.parse(line)))


def given_to(*functions):
    """Every text that the tests give to one of these functions."""
    calls = [
        node
        for text in MODULES.values()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in functions
    ]
    return {a.value for call in calls for a in call.args if isinstance(a, ast.Constant)}


@pytest.mark.slow
def test_every_rule_has_a_truth_table():
    """Rows asked of model and judge: a must by ``both_say``, a wish by ``levels``.

    The model does not keep the walkway. What somebody wishes for themselves has rows of its
    own, in the tests of those rules.
    """
    rules = [r for r in RULES if not isinstance(r, OwnWish)]
    musts = {r.id for r in rules if r.kind == "must" and r.in_model}
    wishes = {r.id for r in rules if r.kind == "wish"}
    assert musts - given_to("both_say") == set()
    assert wishes - given_to("levels") == set()
    assert len(musts) > 10
    assert len(wishes) > 25
