"""The same room said another way has the same answer; a room that asks for less still works.

`benchmarks/metamorphic.py` does this to many more rooms.
"""

import pytest
from metamorphic import SAME, compare, compare_written, subject

SECONDS = 3.0


@pytest.mark.parametrize("seed", range(12))
def test_a_changed_room_is_answered_alike(seed):
    """Equal verdict and score, or, where it asks for less, no "impossible"."""
    assert not compare(seed, SECONDS).faults


@pytest.mark.parametrize("seed", range(8))
def test_a_file_written_another_way_is_answered_alike(seed):
    """Other units, entries joined, split or backwards."""
    pair = compare_written(seed, SECONDS)
    assert not pair.faults


@pytest.mark.parametrize("seed", range(8))
def test_a_mirror_in_a_mirror_is_the_room(seed):
    """Or the mirror would make another room, and its answers could differ."""
    scenario = subject(seed)
    again = SAME["mirrored"](SAME["mirrored"](scenario))
    assert again == scenario
    assert SAME["mirrored"](scenario) != scenario
