"""Verdicts, best scores and families against every arrangement on a grid that loses nothing."""

import pytest
from brute_check import compare
from brute_families import listed, ways
from tiny_company import tiny_company
from tiny_rooms import tiny

from arrange.geometry.shapes import turns

WAYS = (1, 3, 5, 6, 9, 17, 23)  # seeds of rooms with company whose families are compared


def check(seeds, *, walk=False, make=tiny):
    """No faults; some rooms work and some do not, or the rooms would show little."""
    done = [c for seed in seeds if (c := compare(seed, make(seed, walk=walk), walk=walk))]
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


def test_tied_alike_and_plain_pieces():
    """The same with pieces in places of others, twins, and pieces without a front."""
    check(range(24), make=tiny_company)
    check(range(1000, 1005), make=tiny_company, walk=True)


def test_the_rooms_with_company_have_all_of_it():
    """Or the tests above would say little: by the pieces of the first 24 rooms."""
    rooms = [tiny_company(seed).pieces for seed in range(24)]
    tied = [[p for p in pieces if p.anchor] for pieces in rooms]
    assert sum(bool(t) for t in tied) >= 6
    assert any(len({p.model for p in t}) < len(t) for t in tied)
    assert any(p.anchor in {q.name for q in t} for t in tied for p in t)
    assert any(
        len({p.model for p in pieces if not p.anchor}) < sum(not p.anchor for p in pieces)
        for pieces in rooms
    )
    assert {len(turns(p)) for pieces in rooms for p in pieces if p.stands == "free"} >= {1, 2, 4}


@pytest.mark.parametrize("seed", WAYS)
def test_the_best_different_ones_and_all_families(seed):
    """As many points, all different, and no family too many or too few, with company."""
    found = listed(seed, tiny_company(seed))
    assert found is not None
    assert found.faults == ()


def test_some_of_them_have_three_different_ones_and_more():
    """And not just one or none."""
    counts = [len(ways(tiny_company(seed))[0]) for seed in WAYS]
    assert sum(count > 3 for count in counts) >= 5


@pytest.mark.long
def test_many_families():
    """Rooms with and without company."""
    for make in (tiny_company, tiny):
        done = [c for seed in range(30, 90) if (c := listed(seed, make(seed)))]
        assert [c for c in done if c.faults] == []
        assert sum(c.families > 3 for c in done) > 10


@pytest.mark.long
def test_many_tiny_rooms_with_company():
    """Tied, alike and plain pieces; half of them with walkways, one-sided."""
    check(range(24, 224), make=tiny_company)
    check(range(1010, 1060), make=tiny_company, walk=True)


@pytest.mark.long
def test_many_tiny_rooms():
    """400 rooms by number, some of them too big to try everything."""
    check(range(24, 424))


@pytest.mark.long
def test_many_tiny_rooms_with_walkways():
    """150 rooms with walkways, one-sided."""
    check(range(1010, 1160), walk=True)
