"""The room as it stands today, judged as it is."""

from __future__ import annotations

from arrange.changing import changed
from arrange.data.arrangement import Arrangement
from arrange.data.change import Drop
from arrange.data.scenario import Scenario
from arrange.data.swap import Today
from arrange.errors import Fault, ScenarioError

WRITE = (
    'add to a piece stands_now = { wall = "A", from_left = 40 } or '
    'stands_now = { across = 120, up = 80, facing = "down" }'
)


def assess_today(scenario: Scenario) -> Today:
    """Judge what the file says stands in the room now.

    Pieces without a place are left out, with the wishes about them and the ties
    to them: points are shared out among what is there, so that the score is not
    on the scale of the whole scenario unless every piece stands.

    Raises
    ------
    ScenarioError
        If no piece has a place today; the message says what to write.
    """
    from arrange.judge import judge  # noqa: PLC0415

    if not scenario.today:
        nothing = "no piece says where it stands today"
        raise ScenarioError(scenario.source_file, (Fault("piece", nothing, WRITE),))
    known = {p.piece: p for p in scenario.today}
    missing = tuple(p.name for p in scenario.pieces if p.name not in known)
    standing = changed(scenario, [Drop(name) for name in missing])
    there = Arrangement(tuple(known[p.name] for p in standing.pieces))
    return Today(standing, there, judge(standing, there), missing)
