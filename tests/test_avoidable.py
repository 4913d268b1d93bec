"""Whether a fault could have been avoided: asked of rooms where one sees the answer. Lengths in cm.

A bed for one, 95 by 205, and a door of 80 in the lower wall.
"""

import pytest

import arrange
from arrange.data.arrangement import Arrangement
from arrange.data.result import FULL, Result, Suggestion
from arrange.judge import judge
from arrange.output.records import as_data
from benchmarks.avoidable import SPOKEN_OF, avoided
from benchmarks.taste_counter import Fault, count
from benchmarks.taste_measures import TITLES

FILE = """
title = "Bed and door"
unit = "cm"
[room]
size = [{wide}, 400]
[[door]]
wall = "C"
from_left = {door}
width = 80
[[piece]]
kind = "single bed"
width = 95
stands_now = {{ wall = "A", from_left = {bed} }}
"""


def planned(wide, door, bed):
    """A result whose only plan is the room as it stands."""
    scenario = arrange.read_text(FILE.format(wide=wide, door=door, bed=bed))
    arrangement = Arrangement(scenario.today)
    verdict = judge(scenario, arrangement)
    one = Suggestion(1, arrangement, verdict, proven=False, bound=FULL)
    return Result(scenario, "found", (one,), FULL, 1.0, 1.0, 0)


def straight(result):
    """That the bed lies straight before the door."""
    (fault,) = [f for f in count(as_data(result)) if f.number == 19 and "straight" in f.text]
    return fault


def test_a_bed_that_could_lie_aside():
    """The room is 400 wide, the door near its right end: there is room at the left wall."""
    result = planned(400, 20, 290)
    told = avoided(result, straight(result), 20)
    assert told.how == "found"
    assert told.score > result.suggestions[0].verdict.score
    assert "found at" in told.line


def test_a_bed_that_can_lie_nowhere_else():
    """160 wide, the door in the middle: 40 at either side of it, and the bed is 95 wide."""
    result = planned(160, 40, 30)
    told = avoided(result, straight(result), 20)
    assert (told.how, told.score) == ("impossible", None)


def test_a_fault_that_no_rule_speaks_of():
    """Nothing can be demanded: that is said, and not taken for an answer."""
    result = planned(400, 20, 290)
    made_up = Fault(14, "C", 1, ("single bed",), "12.3 cm off")
    assert avoided(result, made_up, 20).how == "no rule sees it"


@pytest.mark.fast
def test_every_number_has_its_rules():
    """All but two: positions that a tape finds are no rule's, and plans differ by pairs."""
    assert set(SPOKEN_OF) == set(TITLES) - {14, 15}
    known = {rule.id for rule in arrange.rules.RULES}
    assert {rule for rules in SPOKEN_OF.values() for rule in rules} <= known
