"""How much effort it is to give something up: a table of our own that the person can change.

The table is data, in ``efforts.toml``: common practice, no source. The numbers say what
takes more doing than what, and nothing more. Lengths in mm.

Safety is not for sale. There is no number for giving up the escape window or the way to
it, the distance between cots and windows, the distance from what burns, or headroom:
no such change exists and none is ever proposed.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

TABLE = Path(__file__).with_name("efforts.toml")
LOWERED = 50  # mm by which a length comes down for one more "step"


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
def usual() -> Mapping[str, int]:
    """The effort of every sort of change, by key, in the order of the table."""
    return {key: row["cost"] for key, row in _table()["cost"].items()}


def effort_words(key: str) -> str:
    """What the effort called ``key`` is for. KeyError if there is none."""
    text: str = _table()["cost"][key]["words"]
    return text


@cache
def below(source_of_least: str) -> Below | None:
    """The named value below a least of that source; None if nothing goes below it."""
    for row in _table()["below"]:
        if row["source_of_least"] == source_of_least:
            return Below(row["to"], row["source"], row["how"])
    return None


@dataclass(frozen=True, slots=True)
class Efforts:
    """The efforts of one scenario: the table with the person's own over it."""

    own: Mapping[str, int | None]

    def of(self, key: str) -> int | None:
        """The effort called ``key``; None if such a change is never to be proposed."""
        return self.own[key] if key in self.own else usual()[key]

    def of_lowering(self, mm: int) -> int:
        """What is added for bringing a length down by so many mm."""
        return -(-mm // LOWERED) * (self.of("step") or 0)

    def reason(self, key: str) -> str:
        """Where the effort called ``key`` comes from, for where it is shown."""
        whose = "your own cost" if key in self.own else "our own cost, common practice, no source"
        return f"{effort_words(key)} ({whose})"
