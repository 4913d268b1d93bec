"""Why a scenario does not work, and what would have to give."""

from __future__ import annotations

from dataclasses import dataclass

from arrange.data.clash import Clashes
from arrange.data.giving import Given


@dataclass(frozen=True, slots=True)
class Why:
    """The whole answer of ``why``; ``given`` is None where nothing has to give.

    Each set of ``clashes`` has its arithmetic. ``untouchable`` are the names of what
    must not be touched. ``interrupted``: someone asked to stop.
    """

    clashes: Clashes
    given: Given | None
    seed: int
    untouchable: tuple[str, ...] = ()
    interrupted: bool = False
