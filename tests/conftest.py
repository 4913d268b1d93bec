"""Fast tests use no solver: `pytest -m fast` runs them alone, and here they are held to it.

A module says `pytestmark = pytest.mark.fast`, or a test is marked by itself. A test that needs
the solver in a module that is fast otherwise is marked `solver`. One that takes long without it
is marked `slow`: it is left out of the quick run, and held to use no solver all the same.
"""

import gc
import sys
from contextlib import contextmanager
from unittest.mock import patch

import pytest

MODEL = "ortools.sat.python.cp_model"


class SolverUsedError(ImportError):
    """A fast test loaded the solver or called it."""


class NoSolver:
    """Refuses to import the solver: stands before all other finders."""

    def find_spec(self, name, path=None, target=None):
        """SolverUsedError for the solver; any other module is left to the next finder."""
        del path, target
        if name.partition(".")[0] == "ortools":
            raise SolverUsedError(f"a fast test loads {name}: mark it `solver`, or import later")


def refuse(*_, **__):
    """Stands in place of the solver's classes while a fast test runs."""
    raise SolverUsedError("a fast test calls the solver: mark it `solver`")


@contextmanager
def no_solver():
    """The solver cannot be imported; where other tests have loaded it, it cannot be used."""
    finder = NoSolver()
    sys.meta_path.insert(0, finder)
    try:
        if MODEL in sys.modules:
            with patch.multiple(sys.modules[MODEL], CpModel=refuse, CpSolver=refuse):
                yield
        else:
            yield
    finally:
        sys.meta_path.remove(finder)


def only_fast(config):
    """Whether fast tests alone were asked for."""
    return config.option.markexpr == "fast"


def marked(item, *names):
    """Whether a test, its class or its module has one of the marks."""
    return any(item.get_closest_marker(name) for name in names)


def is_without_solver(item):
    """Whether a test is marked fast and nothing that says it needs the solver."""
    return marked(item, "fast") and not marked(item, "solver", "long")


def is_fast(item):
    """Whether a test is marked fast and nothing that says otherwise."""
    return is_without_solver(item) and not marked(item, "slow")


def pytest_configure(config):
    """With `-m fast` the solver is out of reach from the start."""
    if only_fast(config):
        sys.meta_path.insert(0, NoSolver())


def pytest_ignore_collect(collection_path, config):
    """With `-m fast` modules without a fast test are not even imported."""
    if only_fast(config) and collection_path.suffix == ".py":
        return "mark.fast" not in collection_path.read_text(encoding="utf-8") or None
    return None


def pytest_collection_modifyitems(config, items):
    """With `-m fast` those marked `solver`, `slow` or `long` in a fast module are left out."""
    if only_fast(config):
        config.hook.pytest_deselected(items=[item for item in items if not is_fast(item)])
        items[:] = filter(is_fast, items)


def pytest_collection_finish():
    """What is loaded by now stays: to look through it for garbage again and again is a tenth."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item):
    """A fast test that uses the solver fails, whatever else is run."""
    if is_without_solver(item):
        with no_solver():
            return (yield)
    return (yield)
