"""Budgets: what is left, who may stop them, and how much of it each part may take."""

import math

import pytest

from arrange.budget import Allowance, Budget
from arrange.cli.common import Delivery
from arrange.draw import painters

pytestmark = pytest.mark.fast


@pytest.fixture
def now(monkeypatch):
    """A clock that goes on when told to: ``now[0]`` in seconds."""
    time = [100.0]
    monkeypatch.setattr("arrange.budget.time.monotonic", lambda: time[0])
    return time


def test_a_budget_that_was_asked_to_stop_stays_stopped():
    """Asked yes once, then no: it does not start again."""
    answers = iter([False, True, False, False])
    budget = Budget(1000, lambda: next(answers, False))
    assert budget.left > 0
    assert budget.left == 0
    assert budget.left == 0
    assert budget.stopped
    assert budget.over


def test_time_that_has_run_out_is_over_but_not_stopped(now):
    """10 s from 100: 4 left at 106, none at 110 and 115."""
    budget = Budget(10)
    now[0] = 106
    assert (budget.elapsed, budget.left, budget.over) == (6, 4, False)
    now[0] = 110
    assert (budget.left, budget.over, budget.stopped) == (0, True, False)
    now[0] = 115
    assert budget.left == 0


def test_a_portion_ends_with_the_whole(now):
    """Asked for 30 of 10 s left: 10. It stops when the whole is stopped."""
    asked = [False]
    whole = Budget(20, lambda: asked[0])
    now[0] = 110
    assert [whole.portion(s).left for s in (3, 30, math.inf, -1)] == [3, 10, 10, 0]
    assert whole.share(0.4).left == 4
    part = whole.portion(5)
    asked[0] = True
    assert part.left == 0
    assert part.stopped


def test_a_budget_until_a_part_of_the_whole_is_over(now):
    """Half of 20 s is over at 110: at 104 6 s are left until then, at 112 none."""
    whole = Budget(20)
    now[0] = 104
    assert whole.until(0.5).left == 6
    now[0] = 112
    assert whole.until(0.5).left == 0
    assert whole.until(1.0).left == 8


@pytest.mark.parametrize(
    ("allowance", "more", "seconds"),
    [
        pytest.param(Allowance(), {}, 40, id="all that is left"),
        pytest.param(Allowance(1 / 4), {}, 10, id="a quarter"),
        pytest.param(Allowance(1 / 4), {"parts": 5}, 2, id="a fifth of a quarter"),
        pytest.param(Allowance(1 / 4, least=12), {}, 12, id="12 s at least"),
        pytest.param(Allowance(1 / 4, most=3), {}, 3, id="3 s at most"),
        pytest.param(Allowance(1 / 4), {"keep": 35}, 5, id="35 s kept"),
        pytest.param(Allowance(1 / 4, least=50), {}, 40, id="no more than there is"),
        pytest.param(Allowance(1 / 4), {"keep": 41}, -1, id="nothing but what is kept"),
    ],
)
def test_what_one_part_may_take_of_forty_seconds(now, allowance, more, seconds):
    """By hand, of 60 s after 20."""
    budget = Budget(60)
    now[0] = 120
    assert budget.allow(allowance, **more) == pytest.approx(seconds)


def test_without_a_limit_it_only_counts(now):
    """What a watcher of a search shows."""
    budget = Budget()
    now[0] = 160
    assert (budget.elapsed, budget.left) == (60, math.inf)


@pytest.mark.parametrize(
    ("seconds", "plans", "left"),
    [
        pytest.param(60, 1, 60 - 0.5 - 0.4, id="loading took 0.5 s, a plan takes 0.4"),
        pytest.param(60, 6, 60 - 0.5 - 2.4, id="six plans"),
        pytest.param(4, 6, 4 - 0.5 - 1.0, id="a quarter of the time at most"),
        pytest.param(0.2, 1, 0.002, id="the time was over before: a moment all the same"),
    ],
)
def test_a_command_leaves_time_to_draw_its_plans(seconds, plans, left, now, monkeypatch, tmp_path):
    """By a clock of our own, on which loading what drawing needs takes half a second."""

    def load():
        now[0] += 0.5

    monkeypatch.setattr(painters, "load", load)
    clock = Budget(seconds)
    to = Delivery("room.toml", tmp_path, "png")
    assert to.time(clock, plans) == pytest.approx(left)


def test_what_is_not_drawn_takes_no_time(now):
    """Asked for data on stdout and no folder, all that is left is for the search."""
    clock = Budget(60)
    now[0] += 1
    assert Delivery("room.toml", None, "png", as_json=True).time(clock, 9) == 59
