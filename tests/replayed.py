"""One arrangement put back into the model with every piece held where it stands."""

from __future__ import annotations

from arrange.budget import REPLAY, Budget
from arrange.data.arrangement import Arrangement
from arrange.data.result import Verdict
from arrange.data.scenario import Scenario
from arrange.solver.session import Replay


def model_score(scenario: Scenario, arrangement: Arrangement) -> int | None:
    """The score there, in tenths; None if a must is broken.

    TimeoutError if that is not decided.
    """
    score = Replay(scenario).score(arrangement, Budget(REPLAY))
    if score == "not decided":
        raise TimeoutError("the model gives no score in the time")
    return None if score == "broken" else score


def confirm(scenario: Scenario, arrangement: Arrangement) -> Verdict:
    """The judge's verdict, with which the model agrees. TimeoutError if that is not decided."""
    verdict, confirmed = Replay(scenario).confirmed(arrangement, Budget(REPLAY))
    if not confirmed:
        raise TimeoutError("the model gives no score in the time")
    return verdict
