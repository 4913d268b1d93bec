"""The solver's verdict and best score against every arrangement on a grid that loses nothing."""

import pytest
from brute_check import compare
from tiny_rooms import tiny


def check(seeds, *, walk=False):
    """No faults; some rooms work and some do not, or the rooms would show little."""
    done = [c for seed in seeds if (c := compare(seed, tiny(seed, walk=walk), walk=walk))]
    assert [c for c in done if c.faults] == []
    assert len(done) >= len(seeds) // 2
    assert any(c.grid < 0 for c in done)
    assert sum(c.grid > 0 for c in done) >= len(done) // 3


def test_the_best_on_the_grid_is_the_best_there_is():
    """Equal verdicts and equal scores (see tiny_rooms for why the grid loses nothing)."""
    check(range(24))


def test_with_walkways_the_grid_finds_nothing_better():
    """A path may pass aslant, so the solver may do better than the grid, never worse."""
    check(range(1000, 1007), walk=True)


@pytest.mark.long
def test_many_tiny_rooms():
    """400 rooms by number, some of them too big to try everything."""
    check(range(24, 424))


@pytest.mark.long
def test_many_tiny_rooms_with_walkways():
    """150 rooms with walkways, one-sided."""
    check(range(1010, 1160), walk=True)
