"""What it costs to give something up: a table of our own that the person can change.

The table is data, in ``costs.toml``: common practice, no source. The costs say what is
dearer than what, and nothing more. Lengths in mm.

Safety is not for sale. There is no cost for giving up the escape window or the way to
it, the distance between cots and windows, the distance from what burns, or headroom:
no such change exists and none is ever proposed.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from arrange.data.scenario import Scenario

TABLE = Path(__file__).with_name("costs.toml")
USUAL_WALKWAY = 600  # mm; below it a walkway is narrower than usual
NARROWEST = 450  # mm (`walk-sideways`): a squeeze past sideways
STEP = 50  # mm


@dataclass(frozen=True, slots=True)
class Below:
    """A named value below the least of a kind, and what it is still good for."""

    to: int
    source: str
    how: str


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


@cache
def usual() -> dict[str, int]:
    """The cost of every sort of change, by key, in the order of the table."""
    return {key: row["cost"] for key, row in _table()["cost"].items()}


def words(key: str) -> str:
    """What the cost called ``key`` is for. KeyError if there is none."""
    text: str = _table()["cost"][key]["words"]
    return text


@cache
def below(source_of_least: str) -> Below | None:
    """The named value below a least of that source; None if nothing goes below it."""
    for row in _table()["below"]:
        if row["source_of_least"] == source_of_least:
            return Below(row["to"], row["source"], row["how"])
    return None


class Costs:
    """The costs of one scenario: the table with the person's own over it."""

    def __init__(self, scenario: Scenario) -> None:
        self.own = dict(scenario.costs.values)

    def of(self, key: str) -> int | None:
        """The cost called ``key``; None if such a change is never to be proposed."""
        return self.own[key] if key in self.own else usual()[key]

    def steps(self, lowered: int) -> int:
        """What is added for bringing a length down by ``lowered`` mm."""
        return -(-lowered // STEP) * (self.of("step") or 0)

    def why(self, key: str) -> str:
        """Where the cost called ``key`` comes from, for where it is shown."""
        told = "your own cost" if key in self.own else "our own cost, common practice, no source"
        return f"{words(key)} ({told})"
