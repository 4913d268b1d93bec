"""What the person says about changes: what they cost, and what must not be touched."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class OwnCosts:
    """The person's own costs by key, as the table of costs has them.

    None says that a change of this sort is never to be proposed. ``untouchable``
    names pieces, doors, windows, fixtures or the walkway that stay as they are.
    """

    values: tuple[tuple[str, int | None], ...] = ()
    untouchable: tuple[str, ...] = ()
