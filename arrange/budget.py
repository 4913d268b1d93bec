"""Time limits: one budget for every search, and how the answers share theirs out.

All times are wall-clock seconds by a clock that never goes back. The searches
themselves are cut by the solver's own count of work wherever it can be, so that the same
seed gives the same answer; a budget says when to give up, and what the rest goes into.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass


class Budget:
    """So many seconds from now, or until somebody asks to stop.

    Parameters
    ----------
    seconds
        The limit; unlimited if left out. Zero or less: nothing is left from the start.
    asked
        Looked at often. Once it says yes the budget stays stopped.

    >>> budget = Budget(60)
    >>> budget.share(0.5).left <= 30 < budget.left
    True
    >>> Budget(60, lambda: True).left
    0.0
    """

    def __init__(
        self, seconds: float = math.inf, asked: Callable[[], bool] = lambda: False
    ) -> None:
        self.seconds = seconds
        self._asked = asked
        self._start = time.monotonic()
        self._stopped = False

    def stop(self) -> None:
        """Nothing is left from now on, as if somebody had asked."""
        self._stopped = True

    @property
    def stopped(self) -> bool:
        """Whether somebody asked to stop; running out of time does not count."""
        self._stopped = self._stopped or self._asked()
        return self._stopped

    @property
    def elapsed(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self._start

    @property
    def left(self) -> float:
        """Seconds left, never below 0; 0 once somebody asked to stop."""
        return 0.0 if self.stopped else max(0.0, self.seconds - self.elapsed)

    @property
    def over(self) -> bool:
        """Whether nothing is left."""
        return self.left <= 0

    def portion(self, seconds: float) -> Budget:
        """A budget of so many seconds at most, which stops with this one."""
        return Budget(min(seconds, self.left), lambda: self.stopped)

    def share(self, fraction: float) -> Budget:
        """A budget of that part of what is left."""
        return self.portion(fraction * self.left)

    def until(self, fraction: float) -> Budget:
        """A budget that ends when that part of the whole is over; perhaps it is already."""
        return self.portion(fraction * self.seconds - self.elapsed)

    def allow(self, allowance: Allowance, *, parts: int = 1, keep: float = 0.0) -> float:
        """Seconds for one of so many equal parts, ``keep`` untouched; 0 or less if none."""
        share = allowance.share * self.left / parts
        wanted = min(max(share, allowance.least), allowance.most)
        return min(wanted, self.left - keep)


def refuse_no_time(seconds: float) -> None:
    """ValueError unless the limit that somebody sets for an answer is above 0 seconds."""
    if not seconds > 0:
        raise ValueError(f"seconds is {seconds}; allow more than 0")


@dataclass(frozen=True, slots=True)
class Allowance:
    """What one part of an answer may take.

    ``share`` of what is left by then, but not less than ``least`` seconds (as long as there
    are any) and not more than ``most``.
    """

    share: float = 1.0
    least: float = 0.0
    most: float = math.inf


# What the answers do with their time. Shares are of what is left when the part begins,
# unless it says "of the whole"; seconds are marked s.

# The best different arrangements
FIRST_SHARE = 0.8  # for the best one, if more are asked for
FIRST_KEPT = 0.5  # of the whole, at most, for drawing while there is nothing to draw yet
CONFIRMING = 0.5  # s kept back for the last touch and for judging what was found, but at least ...
CONFIRMING_BUILDS = 4  # ... so often what building a model takes on this machine; half as often
# while nothing is found: the last touch is short where time is
TOUCH = 0.5  # s for the last touch of one arrangement, after the limit or a stop if need be,
TOUCHING = 0.1  # ... or this part of the whole, where that is more and there is time
JUDGING = 0.2  # s that it leaves for judging what was found
REPLAY = 10.0  # s to put one arrangement back into the model, after the limit if need be

# Every way the major pieces can stand
LISTING = 0.3  # at most, for the list of the ways that there may be
BEST_OF_FAMILY = Allowance(4.0)  # few take their part of the rest, so one may take four

# Why nothing works
SEARCHING = 0.5  # of the whole: conflicts are looked for until then
COUNTING = 0.65  # of the whole: what they lack is counted until then; then what would help
SOON = 5.0  # s for one set where ``suggest`` finds that nothing works
SUM_SOON = 30.0  # s for its sum: cut short it would be another one than that of ``why``
CONFLICT_QUESTION = 1.0  # s for one question; what takes longer counts as not decided at first
SUM_QUESTION = 2.0  # s for one question of a sum

# What would have to give
BEST_REPAIRS = 0.35  # kept for the best arrangement of each proposal
BEST_REPAIR = Allowance(most=6.0)  # for each of them
REPAIR_QUESTION = Allowance(1 / 4)  # whether one set of changes works
PROOF_QUESTION = Allowance(1 / 8, most=1.0)  # longer, and the proof is not worth its questions
ENOUGH_RESERVE = 0.4  # of what is left, while a set is looked for from above
ENOUGH_QUESTION = Allowance(1 / 8, most=3.0)  # whether less of that set is enough

# The largest size
SIZE_QUESTION = Allowance(1 / 6, least=2.0)  # a size that others can do without

# The ladder of sizes
WORKING = 0.5  # for what works at most; the rest goes into the scores
WORKING_TIMES = 4  # few questions take their part of it, so one may take more than its own
LENT = 0.15  # of the time for the scores: to try what neighbouring sizes have
LENT_ONE = Allowance(1 / 2, least=0.5)  # for one of these tries

# A swap
BEFORE, AFTER, BACK, NOW = 0.4, 0.65, 0.3, 0.5  # so that the answer comes before its comparison
LEAST_SWAP = 0.05  # s; less is not worth asking

# A comparison
LEAST_OPTION = 0.1  # s for an option whose turn comes after the time is up
