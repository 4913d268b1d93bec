"""What is written of rooms of all shapes holds, by the page alone.

`benchmarks/rechecked.py` does this to many more rooms.
"""

import json

import pytest
from all_shapes import scenario_text
from recheck import faults
from sampled import sampled

from arrange.output.fields import as_text
from arrange.output.records import as_data
from arrange.scenario.read import read_text
from arrange.suggesting import suggest


@pytest.mark.parametrize("seed", range(7))
def test_what_is_written_of_pieces_that_are_no_rectangles_holds(seed):
    """A room of each shape, with something round in it."""
    result = suggest(read_text(scenario_text(seed, shaped=True)), top=2, seconds=1)
    assert faults(json.loads(as_text(as_data(result)))) == []


@pytest.mark.parametrize("seed", range(7))
def test_what_is_written_of_rooms_with_low_ceilings_holds(seed):
    """A room of each shape: slopes, dormers, beams, lamps, fans and stairs."""
    result = suggest(read_text(scenario_text(seed, high=True)), top=2, seconds=2)
    assert faults(json.loads(as_text(as_data(result)))) == []


@pytest.mark.parametrize("built", [False, True], ids=["plain", "as built"])
@pytest.mark.parametrize("seed", sampled(range(14), long=range(7, 14)))
def test_what_is_written_of_a_room_holds(seed, built):
    """A room of each shape, plain and with openings as built."""
    result = suggest(read_text(scenario_text(seed, built=built)), top=2, seconds=1)
    assert faults(json.loads(as_text(as_data(result)))) == []
