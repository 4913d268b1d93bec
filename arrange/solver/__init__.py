"""The constraint model (CP-SAT) and the search: best, next different, every family."""

import sys
from types import ModuleType


def _load_cp_sat() -> None:
    """Load CP-SAT without pandas, in which it offers to keep variables: we have none there.

    pandas takes four fifths of the time. Who asks for it afterwards gets it, and so does
    CP-SAT: what it looks up in pandas from then on loads it.
    """
    if "pandas" in sys.modules:
        return
    absent = ModuleType("pandas")
    vars(absent).update(Index=type("Index", (), {}), Series=type("Series", (), {}))
    sys.modules["pandas"] = absent
    try:
        from ortools.sat.python import cp_model  # noqa: PLC0415
    finally:
        del sys.modules["pandas"]
    vars(cp_model)["pd"] = _Later("pandas")


class _Later(ModuleType):
    """A module that is loaded when something of it is first asked for."""

    def __getattr__(self, name: str) -> object:
        from importlib import import_module  # noqa: PLC0415

        return getattr(import_module(self.__name__), name)


_load_cp_sat()
