"""Which reasons of a score are shown where there is no room for all, and how one is said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.lengths import points
from arrange.data.result import Reason


@dataclass(frozen=True, slots=True)
class Chosen:
    """Reasons to show and the rest of them."""

    won: tuple[Reason, ...]
    lost: tuple[Reason, ...]
    rest: tuple[Reason, ...]


def choose(reasons: Sequence[Reason], most: int) -> Chosen:
    """At most ``most`` reasons: those that earned most and those that lost most.

    No reason comes twice. One that lost more than it won is a loss. A side with
    fewer than its half leaves its places to the other.
    """
    counted = [r for r in reasons if r.possible or r.won]
    losses = sorted((r for r in counted if r.lost > r.won), key=lambda r: (-r.lost, r.rule))
    gains = sorted((r for r in counted if r.lost <= r.won), key=lambda r: (-r.won, r.lost, r.rule))
    if len(losses) < most // 2:
        lesser = sorted((r for r in gains if r.lost), key=lambda r: (-r.lost, r.rule))
        moved = lesser[: most // 2 - len(losses)]
        losses += moved
        gains = [r for r in gains if not any(r is m for m in moved)]
    half = max(most - most // 2, most - len(losses))
    won = tuple(gains[: min(half, most)])
    lost = tuple(losses[: most - len(won)])
    shown = [*won, *lost]
    rest = tuple(r for r in counted if not any(r is s for s in shown))
    return Chosen(won, lost, rest)


def reason_words(reason: Reason) -> str:
    """Its sentence, and what it won of what it could."""
    return f"{reason.sentence} ({points(reason.won)} of {points(reason.possible)})"
