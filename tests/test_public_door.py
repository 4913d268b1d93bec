"""The one public door: its names are there, stay what they are, and nothing else leaks out."""

import importlib
import pkgutil
import subprocess
import sys

import pytest

import arrange

pytestmark = pytest.mark.fast

FUNCTIONS = {
    "assess",
    "assess_today",
    "choose",
    "compare",
    "ladder",
    "largest",
    "plot_plan",
    "range_of_sizes",
    "read",
    "read_open",
    "read_text",
    "standard_sizes",
    "suggest",
    "swap",
    "why",
}
# Of the language: the future import, and what keeps heavy imports to the type checker.
OF_THE_LANGUAGE = {"annotations", "TYPE_CHECKING"}


@pytest.fixture(scope="module")
def everything():
    """Every module of the package, imported."""
    found = pkgutil.walk_packages(arrange.__path__, "arrange.")
    names = [m.name for m in found if not m.name.endswith("__main__")]
    for name in names:
        importlib.import_module(name)
    return names


@pytest.mark.solver
def test_every_name_is_what_it_should_be_after_everything_is_imported(everything):
    """`arrange.judge(...)` once was a module, as soon as that module had been imported."""
    assert "arrange.judge" in everything
    for name in arrange.__all__:
        thing = getattr(arrange, name)
        assert callable(thing)
        assert isinstance(thing, type) == (name not in FUNCTIONS), name


@pytest.mark.solver
def test_no_public_name_is_also_a_module(everything):
    """A submodule would take the place of the name when it is imported."""
    assert not {f"arrange.{name}" for name in arrange.__all__} & set(everything)


@pytest.mark.solver
def test_assess_is_the_judge(everything):
    """The function itself, under the name that no module has."""
    assert "arrange.judge" in everything
    assert arrange.assess is importlib.import_module("arrange.judge").judge


@pytest.mark.solver
def test_nothing_else_leaks(everything):
    """Beside the public names there are the package's own modules and nothing more."""
    modules = {name.split(".")[1] for name in everything}
    public = {name for name in vars(arrange) if not name.startswith("_")}
    assert public - modules - set(arrange.__all__) <= OF_THE_LANGUAGE
    assert dir(arrange) == sorted(arrange.__all__)


def test_the_names_are_sorted_once_each():
    """`__all__` is read by people too."""
    assert arrange.__all__ == sorted(set(arrange.__all__))


def test_a_name_that_is_not_there_is_refused():
    """As of any module."""
    with pytest.raises(AttributeError, match="module 'arrange' has no attribute 'sugest'"):
        _ = arrange.sugest


@pytest.mark.parametrize("heavy", ["shapely", "matplotlib", "ortools"])
def test_the_door_itself_is_light(heavy):
    """Importing the package alone loads none of the heavy libraries."""
    code = f"import sys, arrange; sys.exit({heavy!r} in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
