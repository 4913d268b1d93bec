"""What a moved piece gains and loses, or why it cannot stand there, in a line or two."""

from __future__ import annotations

from arrange.data.lengths import listed, measured, points
from arrange.data.scenario import Scenario, Unit
from arrange.data.swap import Reading
from arrange.whatif.move import Move
from arrange.words.swap import better, worse

MOST = 2  # sentences of each sort


def move_words(scenario: Scenario, moved: Move, reading: Reading) -> str:
    """The answer in a line; where it is no, the nearest place that works."""
    if not moved.works:
        told = [breach.sentence for breach in moved.verdict.breaches[:MOST]]
        return f"No. {'. '.join(told)}. {near_words(scenario, moved)}"
    return f"Fine, {score_words(moved)}{_why(reading)}."


def score_words(moved: Move) -> str:
    """How the score changes."""
    faults = moved.verdict.faults - moved.before.faults
    gained = moved.verdict.score - moved.before.score
    if faults:
        return (
            f"but with {faults} more fault{'s' if faults > 1 else ''}"
            if faults > 0
            else f"with {-faults} fault{'s' if faults < -1 else ''} less"
        )
    if not gained:
        return f"{points(moved.verdict.score)} points as before"
    return f"{points(abs(gained))} points {'more' if gained > 0 else 'less'}"


def _why(reading: Reading) -> str:
    lost = [c.after.sentence for c in worse(reading)[:MOST] if c.after]
    won = [c.after.sentence for c in better(reading)[:MOST] if c.after]
    told = (("Worse", lost), ("Better", won))
    return "".join(f". {which}: {'; '.join(each)}" for which, each in told if each)


def near_words(scenario: Scenario, moved: Move) -> str:
    """Where near by it would work."""
    if moved.near is None:
        return "Nowhere close by works while everything else stays where it is."
    across, up = moved.near_by
    steps = [
        way
        for way in (
            _step(across, "right", "left", scenario.unit),
            _step(up, "up", "down", scenario.unit),
        )
        if way
    ]
    return f"It would work {listed(steps)} from there."


def _step(mm: int, ahead: str, back: str, unit: Unit) -> str:
    return f"{measured(abs(mm), unit)} {ahead if mm > 0 else back}" if mm else ""
