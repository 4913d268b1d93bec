"""Random rooms that are known to work: the answer may never say otherwise."""

import pytest
from planted import planted
from planted_check import examine
from planted_company import planted_company
from sampled import sampled

from arrange.judge import judge


def test_a_planted_room_repeats_and_works():
    """One seed, one room; the judge passes what was planted."""
    for seed in (1, 2):
        one, two = planted(seed), planted(seed)
        assert one == two
        assert judge(one.scenario, one.arrangement).works


@pytest.mark.parametrize("seed", sampled(range(40), long=range(26, 40)))
def test_a_planted_room_is_answered_truly(seed):
    """Not impossible, judged as said, and no bound below what was planted."""
    finding = examine(planted(seed), seconds=0.5)
    assert not finding.faults


@pytest.mark.parametrize("seed", range(16))
def test_a_planted_room_with_company_is_answered_truly(seed):
    """The same with tied, alike and plain free pieces."""
    finding = examine(planted_company(seed), seconds=0.5)
    assert not finding.faults


def test_the_planted_rooms_with_company_have_all_of_it():
    """Or the test above would say little."""
    rooms = [planted_company(seed).scenario.pieces for seed in range(16)]
    assert sum(any(p.anchor for p in pieces) for pieces in rooms) > 4
    assert sum(len({p.model for p in pieces}) < len(pieces) for pieces in rooms) > 3
    assert sum(any(p.kind == "plain" for p in pieces) for pieces in rooms) > 4


@pytest.mark.long
@pytest.mark.parametrize("seed", range(40, 240))
def test_many_planted_rooms_are_answered_truly(seed):
    """As above, with time to prove the best."""
    finding = examine(planted(seed), seconds=10)
    assert not finding.faults
