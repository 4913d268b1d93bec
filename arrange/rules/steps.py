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


def comfort_steps(clearance: Clearance, comfortable: int | None = None) -> tuple[int, ...]:
    """The depths at which a clearance earns points, from above its least.

    ``comfortable`` is the person's depth for the whole room: it stands for that of
    every clearance but those that have values of the person's own already.
    """
    return ladder(clearance.least, comfort(clearance, comfortable))


def comfort(clearance: Clearance, comfortable: int | None) -> int:
    """The depth that earns full points."""
    if comfortable is None or clearance.overridden:
        return clearance.comfortable
    return comfortable


def nearer(steps: tuple[int, ...], comfortable: int | None) -> tuple[int, ...]:
    """Distances, farthest first, that end with the person's own for full points.

    >>> nearer((2500, 1500, 600), 1000), nearer((2000, 1000), 3000), nearer((5, 3), None)
    ((2500, 1500, 1000), (3000,), (5, 3))
    """
    if comfortable is None:
        return steps
    return (*(s for s in steps if s > comfortable), comfortable)
