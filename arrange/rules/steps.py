"""The steps between what a rule must have and what is comfortable. Lengths in mm."""

from __future__ import annotations

from arrange.data.piece import Clearance

STEP = 40  # mm; smaller steps than this are not felt


def ladder(least: int, comfortable: int, most: int = 3) -> tuple[int, ...]:
    """Up to ``most`` equal steps above ``least``, the last at ``comfortable``.

    Empty if ``comfortable`` is not above ``least``.

    Examples
    --------
    >>> ladder(559, 750)
    (622, 686, 750)
    >>> ladder(600, 650)
    (650,)
    """
    rise = comfortable - least
    if rise <= 0:
        return ()
    n = max(1, min(most, rise // STEP))
    return tuple(least + rise * k // n for k in range(1, n + 1))


def comfort_steps(clearance: Clearance) -> tuple[int, ...]:
    """The depths at which a clearance earns points, from above its least."""
    return ladder(clearance.least, clearance.comfortable)
