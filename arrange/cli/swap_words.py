"""The text that a terminal shows of a swap."""

from __future__ import annotations

from pathlib import Path

from arrange.cli.common import wrapped
from arrange.data.swap import Reading, Swap
from arrange.whatif.swap.difference_words import (
    better,
    compared_words,
    moved_words,
    worse,
)
from arrange.whatif.swap.swap_words import (
    MAY_MOVE,
    SCALE,
    WHY,
    headline,
    held_result,
    held_words,
    price_words,
    result_words,
)

MOST = 6  # reasons of each sort; the rest is in swap.json


def words(swap: Swap, folder: Path, files: tuple[str, ...]) -> str:
    """Everything, the answer in a line first."""
    stopped = "Stopped when you asked. " if swap.interrupted else ""
    parts = [swap.before.title, "", wrapped(f"{stopped}{headline(swap)}")]
    if cost := price_words(swap):
        parts.append(wrapped(cost))
    parts += [wrapped(f"Note: {note}.") for note in swap.notes]
    parts += ["", wrapped(f"{MAY_MOVE}: {result_words(swap.free)}.")]
    if swap.kept:
        parts.append(wrapped(f"Kept where they stand: {', '.join(swap.kept)}.", "   "))
    parts += _differences(swap.free)
    told = held_result(swap)
    parts += ["", wrapped(f"If nothing else moves: {told}.")]
    if (held := held_words(swap)) and held not in told:
        parts.append(wrapped(f"That is: {held}.", "   "))
    parts += _differences(swap.held)
    if not swap.same_scale and (swap.free.after.works or swap.held.after.works):
        parts += ["", wrapped(SCALE)]
    if swap.answer == "impossible":
        parts += ["", wrapped(WHY)]
    if files:
        pictures = [f for f in files if not f.endswith(".json")]
        shown = f"Picture: {folder / pictures[0]}; every number in " if pictures else "Written: "
        parts += ["", f"{shown}{files[-1] if pictures else folder / files[-1]}"]
    return "\n".join(parts)


def _differences(reading: Reading) -> list[str]:
    lines = []
    for mark, chosen in (("+", better(reading)), ("-", worse(reading))):
        lines += [wrapped(compared_words(c), f"   {mark} ", "     ") for c in chosen[:MOST]]
        if len(chosen) > MOST:
            lines.append(f"   {mark} and {len(chosen) - MOST} more in swap.json")
    if reading.moved:
        told = "; ".join(moved_words(m) for m in reading.moved)
        lines.append(wrapped(f"Moved: {told}.", "   ", "   "))
    elif reading.after.works and reading.before.works:
        lines.append("   Nothing moved.")
    return lines
