"""What a watcher of a long search is told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Progress:
    """What a watcher is told: what is being looked for and how far it is.

    ``score`` and ``bound`` are tenths of a point; ``score`` is -1 before anything
    is found. ``families`` counts the ways found so far, while they are counted.
    """

    stage: str
    rank: int
    score: int
    bound: int
    seconds: float
    families: int = 0


Listener = Callable[[Progress], None]
