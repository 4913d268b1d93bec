"""What one choice is worth, asked as of a file that leaves nothing open."""

from __future__ import annotations

from arrange.data.need import Choice
from arrange.data.result import NOTHING
from arrange.scenario.needs import OpenScenario
from arrange.solver.session import Session


def value_by_itself(file: OpenScenario, choice: Choice, seconds: float = 120.0) -> int:
    """What a choice is worth, by the search for the best arrangement of a file written for it.

    ``NOTHING`` if it is proven impossible. AssertionError where that is not proven in the time.
    """
    session = Session(file.scenario(choice.candidates), seconds, 0, None)
    found = session.different(1)
    if session.outcome == "impossible":
        return NOTHING
    assert session.outcome == "proven", f"{choice.candidates}: {session.outcome}"
    return found[0].verdict.standing - choice.lack
