"""The largest size of one piece that still works, and how sure that is. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario

Dimension = Literal["width", "depth", "height"]
DIMENSIONS: tuple[Dimension, ...] = ("width", "depth", "height")
Sureness = Literal["exact", "at least", "impossible", "not decided"]


@dataclass(frozen=True, slots=True)
class Largest:
    """The largest ``dimension`` of ``piece`` that works, in whole centimetres or inches.

    "exact": ``size`` works, as ``arrangement`` shows in ``scenario``, and every larger one
    is proven impossible, ``next`` by two solver configurations. "at least": ``size`` works,
    and larger ones in ``undecided`` were not decided in the time (their least and greatest).
    "impossible": no size works, proven. "not decided": nothing found, nothing proven.
    ``asked`` counts the questions put to the solver.
    """

    piece: str
    dimension: Dimension
    answer: Sureness
    size: int | None = None
    next: int | None = None
    undecided: tuple[int, int] | None = None
    scenario: Scenario | None = None
    arrangement: Arrangement | None = None
    asked: int = 0
    interrupted: bool = False
