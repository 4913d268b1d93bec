"""Random rooms that are known to work: the answer may never say otherwise."""

import pytest
from planted import planted
from planted_check import examine

from arrange.judge import judge


def test_a_planted_room_repeats_and_works():
    """One seed, one room; the judge passes what was planted."""
    for seed in (1, 2):
        one, two = planted(seed), planted(seed)
        assert one == two
        assert judge(one.scenario, one.arrangement).works


@pytest.mark.parametrize("seed", range(40))
def test_a_planted_room_is_answered_truly(seed):
    """Not impossible, judged as said, and no bound below what was planted."""
    finding = examine(planted(seed), seconds=0.5)
    assert not finding.faults


@pytest.mark.long
@pytest.mark.parametrize("seed", range(40, 240))
def test_many_planted_rooms_are_answered_truly(seed):
    """As above, with time to prove the best."""
    finding = examine(planted(seed), seconds=10)
    assert not finding.faults
