"""How long the sheets of a run will take: what a search leaves of its time limit for them.

The unit is a *trial sheet*: the first that a process draws, that of the empty room, once all is
loaded. It is drawn while the search already runs. What the other sheets take in such units
depends on counts alone: so it was measured on the example rooms, one at a time on two idle
cores. For the command line alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heapreplace

# Trial sheets that one sheet takes: by itself, and for each piece on it.
PLAN = (1.1, 0.085)  # half of it for the room to spare, asked of the judge
PLACING = (1.1, 0.03)
OVERVIEW = 0.3
CELL = (0.15, 0.015)  # of the overview
LOADING = 3.0  # until the trial sheet is drawn
PLAN_OF_LOADING = 0.8  # of what loading takes: a plan on any sheet, drawn by the command itself
GRACE = 0.3  # s of the one by which a run may be late: for drawing; the rest is for all else


def sheets(arrangements: int, pieces: int) -> list[float]:
    """Trial sheets for each sheet of a run, in the order in which they are drawn.

    >>> [round(each, 2) for each in sheets(1, 10)]
    [1.95, 1.4, 0.6]
    """
    plan, place, cell = (own + each * pieces for own, each in (PLAN, PLACING, CELL))
    overview = [OVERVIEW + cell * arrangements] if arrangements else []
    return [*[plan] * arrangements, *[place] * arrangements, *overview]


def together(lengths: Sequence[float], painters: int) -> float:
    """How long they take one after another, each drawn by the painter who is free first.

    >>> together([3, 2, 2], 2), together([3, 2, 2], 1), together([], 2)
    (4.0, 7.0, 0.0)
    """
    free = [0.0] * max(1, painters)
    heapify(free)
    for length in lengths:
        heapreplace(free, free[0] + length)
    return max(free)


def kept_back(arrangements: int, pieces: int, trial: float, painters: int) -> float:
    """Seconds before the limit at which a search has to end, so that all can be drawn.

    ``trial`` are the seconds that a trial sheet takes here. Nothing if that is less than
    ``GRACE``, which a run may take after its limit.

    >>> kept_back(0, 10, 0.25, 2), kept_back(1, 10, 0.0, 2)
    (0.0, 0.0)
    """
    return max(0.0, trial * together(sheets(arrangements, pieces), painters) - GRACE)


def alone(wall: float, cpu: float) -> float:
    """Seconds that what took ``wall`` beside a search takes when the search is over.

    A search works on two cores, and another process that draws still loads. So on two cores
    with nobody else about a sheet has half a core, and waits as long as it works, or twice
    as long where turns are long; any longer wait is for others, who stay.

    >>> alone(0.6, 0.2), alone(0.2, 0.2), alone(1.0, 0.2)
    (0.2, 0.2, 0.6)
    """
    return max(cpu, round(wall - 2 * cpu, 3))
