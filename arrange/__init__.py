"""Suggests furniture arrangements for one room, proves what it says and draws the plans.

>>> import arrange
>>> scenario = arrange.read("scenarios/small-double-bedroom.toml")  # doctest: +SKIP
>>> result = arrange.suggest(scenario, top=3)  # doctest: +SKIP
>>> arrange.plot_plan(scenario, result.suggestions[0].arrangement)  # doctest: +SKIP
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece, Slot
from arrange.data.result import (
    Breach,
    Families,
    Family,
    Gap,
    Progress,
    Reason,
    Result,
    Suggestion,
    Verdict,
)
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import RuleSetting, Scenario, Wish
from arrange.data.sources import Source
from arrange.errors import ArrangeError, DisagreementError, Fault, OutputError, ScenarioError

if TYPE_CHECKING:
    from arrange.comparing import compare
    from arrange.data.change import Add, Drop, Exchange, Reprice, Resize
    from arrange.data.sizes import (
        Ladder,
        Largest,
        Rung,
        Size,
        SizeTable,
        range_of_sizes,
        standard_sizes,
    )
    from arrange.data.swap import Swap, Today
    from arrange.draw import plot_plan
    from arrange.judge import judge as assess
    from arrange.scenario.needs import read_open
    from arrange.scenario.read import read, read_text
    from arrange.suggesting import suggest
    from arrange.whatif.choosing import choose
    from arrange.whatif.ladder import ladder
    from arrange.whatif.largest import largest
    from arrange.whatif.swap import swap
    from arrange.whatif.today import assess_today
    from arrange.whatif.why import why

# What needs shapely, matplotlib, the solver or a table is loaded when it is first used. No name
# here may be that of a module of this package: importing that would hide the function.
_LATER = {
    "assess": ("arrange.judge", "judge"),
    "assess_today": ("arrange.whatif.today", "assess_today"),
    "choose": ("arrange.whatif.choosing", "choose"),
    "compare": ("arrange.comparing", "compare"),
    "ladder": ("arrange.whatif.ladder", "ladder"),
    "largest": ("arrange.whatif.largest", "largest"),
    "plot_plan": ("arrange.draw", "plot_plan"),
    "range_of_sizes": ("arrange.data.sizes", "range_of_sizes"),
    "read": ("arrange.scenario.read", "read"),
    "read_open": ("arrange.scenario.needs", "read_open"),
    "read_text": ("arrange.scenario.read", "read_text"),
    "standard_sizes": ("arrange.data.sizes", "standard_sizes"),
    "suggest": ("arrange.suggesting", "suggest"),
    "swap": ("arrange.whatif.swap", "swap"),
    "why": ("arrange.whatif.why", "why"),
    **dict.fromkeys(("Add", "Drop", "Exchange", "Reprice", "Resize"), ("arrange.data.change", "")),
    **dict.fromkeys(("Ladder", "Largest", "Rung", "Size", "SizeTable"), ("arrange.data.sizes", "")),
    **dict.fromkeys(("Swap", "Today"), ("arrange.data.swap", "")),
}

__version__ = "0.1.0"

__all__ = [
    "Add",
    "ArrangeError",
    "Arrangement",
    "Breach",
    "Clearance",
    "DisagreementError",
    "Door",
    "Drop",
    "Exchange",
    "Families",
    "Family",
    "Fault",
    "Fixture",
    "Gap",
    "Ladder",
    "Largest",
    "OutputError",
    "Piece",
    "Placement",
    "Progress",
    "Reason",
    "Reprice",
    "Resize",
    "Result",
    "Room",
    "RuleSetting",
    "Rung",
    "Scenario",
    "ScenarioError",
    "Size",
    "SizeTable",
    "Slot",
    "Source",
    "Suggestion",
    "Swap",
    "Today",
    "Verdict",
    "Wall",
    "Window",
    "Wish",
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
]


def __dir__() -> list[str]:
    """The public names."""
    return __all__


def __getattr__(name: str) -> object:
    """Load a name of the public door when it is first used."""
    if name not in _LATER:
        raise AttributeError(f"module 'arrange' has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415

    module, there = _LATER[name]
    found: object = getattr(import_module(module), there or name)
    return found
