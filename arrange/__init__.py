"""Suggests furniture arrangements for one room, proves what it says and draws the plans.

>>> import arrange
>>> scenario = arrange.read("scenarios/small-double-bedroom.toml")  # doctest: +SKIP
>>> result = arrange.suggest(scenario, top=3)  # doctest: +SKIP
>>> arrange.plot_plan(scenario, result.suggestions[0].arrangement)  # doctest: +SKIP
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece, Slot
from arrange.data.result import (
    Breach,
    Families,
    Family,
    Gap,
    Reason,
    Result,
    Source,
    Suggestion,
    Verdict,
)
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import RuleSetting, Scenario, Wish
from arrange.errors import ArrangeError, DisagreementError, Fault, OutputError, ScenarioError
from arrange.progress import Progress

if TYPE_CHECKING:
    from arrange.draw import plot_plan
    from arrange.judge import judge
    from arrange.scenario.read import read, read_text
    from arrange.suggesting import suggest

# What needs shapely, matplotlib or the solver is loaded when it is first used.
_LATER = {
    "judge": "arrange.judge",
    "plot_plan": "arrange.draw",
    "read": "arrange.scenario.read",
    "read_text": "arrange.scenario.read",
    "suggest": "arrange.suggesting",
}

__version__ = "0.1.0"

__all__ = [
    "ArrangeError",
    "Arrangement",
    "Breach",
    "Clearance",
    "DisagreementError",
    "Door",
    "Families",
    "Family",
    "Fault",
    "Fixture",
    "Gap",
    "OutputError",
    "Piece",
    "Placement",
    "Progress",
    "Reason",
    "Result",
    "Room",
    "RuleSetting",
    "Scenario",
    "ScenarioError",
    "Slot",
    "Source",
    "Suggestion",
    "Verdict",
    "Wall",
    "Window",
    "Wish",
    "judge",
    "plot_plan",
    "read",
    "read_text",
    "suggest",
]


def __getattr__(name: str) -> Any:  # noqa: ANN401
    """Load a function of the public door when it is first used."""
    if name not in _LATER:
        raise AttributeError(f"module 'arrange' has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415

    return getattr(import_module(_LATER[name]), name)
