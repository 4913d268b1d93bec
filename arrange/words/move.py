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
        return f"No: {'; '.join(told)}. {near_words(scenario, moved)}"
    return f"Fine, {score_words(moved)}{_why(reading)}."


def score_words(moved: Move) -> str:
    """How the score changes."""
    faults = moved.verdict.faults - moved.before.faults
    gained = moved.verdict.score - moved.before.score
    if faults:
        return f"but {faults} more to avoid" if faults > 0 else f"and {-faults} fewer to avoid"
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
        return "No place near by works with all else where it stands."
    return f"From there {steps_words(moved.near_by, scenario.unit)} it would work."


def steps_words(by: tuple[int, int], unit: Unit) -> str:
    """How far something goes across and up the plan, in mm; at least one of them not 0.

    >>> steps_words((-200, 50), "cm")
    '20 cm left and 5 cm up'
    """
    steps = (_step(by[0], "right", "left", unit), _step(by[1], "up", "down", unit))
    return listed([way for way in steps if way])


def _step(mm: int, ahead: str, back: str, unit: Unit) -> str:
    return f"{measured(abs(mm), unit)} {ahead if mm > 0 else back}" if mm else ""
