"""The benchmark's own arithmetic: who counts as how much slower."""

import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

import pytest
from small_rooms import free, piece, room, scenario

from benchmarks import report
from benchmarks.versus import ALTERNATIVES, Row, table


def row(**theirs):
    """Ours has 70.0 at 0.5 s and 80.0 at 2 s; the limit is 60 s."""
    return Row("room", "proven", 800, [(0.5, 700), (2.0, 800)], 60.0, dict(theirs))


def test_the_ratio_is_their_time_by_ours_to_the_same_score():
    """70.0 at 6 s is 6 / 0.5; 70.1 needs our second; 80.1 we never had."""
    found = row(same=[(1.0, 600), (6.0, 700)], more=[(6.0, 701)], better=[(9.0, 801)])
    assert found.ratio("same") == 12
    assert found.ratio("more") == 3
    assert found.ratio("better") == 0


def test_nothing_found_counts_as_the_limit_by_our_first():
    """60 / 0.5 at least; where we found nothing either, nothing can be said."""
    assert row(them=[]).ratio("them") == 120
    assert Row("room", "nothing found", 1000, [], 60.0, {"them": []}).ratio("them") is None


def test_the_table_says_that_a_bound_is_one(monkeypatch):
    """In its cell, and in the median that it counts in: of 12 and 120 that is 66."""
    monkeypatch.setattr("benchmarks.versus.ALTERNATIVES", {"them": None})
    text = "\n".join(table([row(them=[]), row(them=[(6.0, 700)])]))
    assert "| nothing | 0.5 s (first) | > 120.0 |" in text
    assert "| 70.0 at 6.0 s | 0.5 s | 12.0 |" in text
    assert "median ratio at least 66.0 over 2 examples, 1 of them with the lower bound" in text


def test_a_changed_tree_is_stamped_so(monkeypatch):
    """The short commit, and whether anything but the results differs from it."""
    state = {"status": "", "rev-parse": "abc1234"}

    def run(words, **_):
        return subprocess.CompletedProcess(words, 0, stdout=state[words[1]] + "\n")

    monkeypatch.setattr(report.subprocess, "run", run)
    assert report.commit() == "abc1234"
    state["status"] = " M arrange/judge.py"
    assert report.commit() == "abc1234 with changes"


@pytest.mark.parametrize("name", ALTERNATIVES)
def test_every_opponent_finds_something_in_a_small_room(name):
    """They build on the product's own model and judge, and break when these change."""
    case = scenario(room(), piece("chest"), free("chair"))
    assert ALTERNATIVES[name](case, 1.0, 0)
