"""What got better and worse and what moved, in words for the terminal and for a narrow column."""

from __future__ import annotations

from arrange.data.swap import Compared, Moved, Reading
from arrange.words import listed, points

NOTICED = 0.9  # tenths of a point: what rounding to whole tenths can do is no change


def better(reading: Reading) -> tuple[Compared, ...]:
    """The reasons that earn a larger share after, the largest gain first.

    New ones come last, if they earn most of their points; what is asked no more is
    neither better nor worse.
    """
    found = [c for c in reading.reasons if c.before and c.after and c.improved >= NOTICED]
    new = [
        c for c in reading.reasons if c.before is None and c.after and c.after.won > c.after.lost
    ]
    return _sorted(found + new)


def worse(reading: Reading) -> tuple[Compared, ...]:
    """The reasons that earn a smaller share after, the largest loss first; then new ones."""
    found = [c for c in reading.reasons if c.before and c.after and c.improved <= -NOTICED]
    new = [
        c for c in reading.reasons if c.before is None and c.after and c.after.lost >= c.after.won
    ]
    return _sorted(found + new)


def _sorted(found: list[Compared]) -> tuple[Compared, ...]:
    def key(one: Compared) -> tuple[bool, float]:
        return one.before is None or one.after is None, -abs(one.improved)

    return tuple(sorted(found, key=key))


def compared_words(one: Compared) -> str:
    """One reason before and after: the sentence now, what was measured, the points."""
    old, new = one.before, one.after
    if new is None:
        worth = points(old.won) if old else ""
        return f"{old.sentence if old else ''} (before; asked no more; {worth} points before)"
    if old is None:
        return f"{new.sentence} (not asked before; {points(new.won)} of {points(new.possible)})"
    measured = ""
    if old.measured and new.measured and old.measured != new.measured:
        measured = f"{old.measured} before, {new.measured} after; "
    possible = points(new.possible)
    was, now = points(old.won), points(new.won)
    return f"{new.sentence} ({measured}{was} points before, {now} after, of {possible})"


def compared_briefly(one: Compared) -> str:
    """The same for a narrow column: arrows between before and after."""
    old, new = one.before, one.after
    if old is None or new is None:
        return compared_words(one)
    changed = old.measured and new.measured and old.measured != new.measured
    measured = f"{old.measured} \N{RIGHTWARDS ARROW} {new.measured}; " if changed else ""
    won = f"{points(old.won)} \N{RIGHTWARDS ARROW} {points(new.won)} of {points(new.possible)}"
    return f"{new.sentence} ({measured}{won})"


def moves_briefly(moved: tuple[Moved, ...]) -> list[str]:
    """What is new, changed and moved, by name alone: the plan shows the rest."""
    sorts = {"New": ("new",), "Changed": ("changed",), "Moved": ("moved", "turned")}
    found = []
    for word, moves in sorts.items():
        names = [m.piece for m in moved if m.move in moves]
        found += [f"{word}: {listed(names)}."] if names else []
    return found


def moved_words(one: Moved) -> str:
    """One piece and what became of it.

    >>> moved_words(Moved("desk", "moved", "desk", 420, "on wall A, 42 cm further"))
    'desk: on wall A, 42 cm further'
    """
    if one.move == "gone":
        return f"{one.piece}: left out"
    if one.move == "new":
        return f"{one.piece}: new, {one.words}"
    if one.move == "changed":
        return f"{one.piece}: changed, {one.words}"
    return f"{one.piece}: {one.words}"
