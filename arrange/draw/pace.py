"""How long the sheets of a run will take: what a search leaves of its time limit for them.

The unit is *loading* what drawing needs, which is done while the search begins and tells how
quick this machine is. What the sheets take in such units depends on counts alone: so it was
measured on the example rooms, one at a time on two idle cores. For the command line alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heapreplace

# Loadings that one sheet takes: by itself, and for each piece on it.
PLAN = (0.4, 0.07)  # a fifth of it for the room to spare, asked of the judge
PLACING = (0.25, 0.04)
OVERVIEW = 0.15
CELL = (0.05, 0.022)  # of the overview
PLAN_OF_LOADING = 0.8  # a plan on any sheet, drawn by the command itself
UNSURE = 0.6  # loadings that a sheet full of small pieces takes longer, once in a run
BESIDE = 1.25  # times as long, each of two at once: cores share caches and more
GRACE = 0.5  # s of the one by which a run may be late: for drawing; the rest is for all else


def sheets(arrangements: int, pieces: int) -> list[float]:
    """Loadings for each sheet of a run, in the order in which they are drawn.

    >>> [round(each, 2) for each in sheets(2, 10)]
    [1.1, 1.1, 0.65, 0.65, 0.69]
    """
    plan, place, cell = (own + each * pieces for own, each in (PLAN, PLACING, CELL))
    overview = [OVERVIEW + cell * arrangements] if arrangements > 1 else []
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


def kept_back(arrangements: int, pieces: int, loading: float, painters: int) -> float:
    """Seconds before the limit at which a search has to end, so that all can be drawn.

    ``loading`` are the seconds that loading takes here. Nothing if drawing takes less than
    ``GRACE``, which a run may take after its limit.

    >>> kept_back(0, 10, 0.25, 2), kept_back(1, 10, 0.0, 2)
    (0.0, 0.0)
    """
    if not arrangements:
        return 0.0
    slower = BESIDE if painters > 1 else 1.0
    long = together(sheets(arrangements, pieces), painters) + UNSURE
    return max(0.0, slower * loading * long - GRACE)


def alone(wall: float, cpu: float) -> float:
    """Seconds that what took ``wall`` beside a search takes when the search is over.

    A search works on two cores. So on two cores with nobody else about a third process waits
    as long as it works, or twice as long where turns are long; any longer wait is for others,
    who stay.

    >>> alone(0.6, 0.2), alone(0.2, 0.2), alone(1.0, 0.2)
    (0.2, 0.2, 0.6)
    """
    return max(cpu, round(wall - 2 * cpu, 3))
