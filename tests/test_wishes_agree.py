"""Model and judge agree on every claim of random furnished rooms."""

from collections import Counter

import pytest
from agreement import (
    agree,
    best_score,
    crossing,
    judged_levels,
    modelled_levels,
    random_scenario,
    room_with_alike_pieces,
    thrown,
    with_openings_as_built,
    with_people,
)
from plain_rooms import piece, room, scenario
from sampled import sampled

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance
from arrange.rules import RULES
from arrange.rules.wished import OwnWish

# Rules that count pieces: seldom is every one of them astray.
COUNTED = {"behind-door", "first-look"}


def check(seed, built=lambda scenario, _: scenario):
    """Both faces agree on a random room; which (rule, level) came up."""
    scenario = built(random_scenario(seed), seed)
    judged = agree(scenario, thrown(scenario, seed))
    return Counter((key.split("/")[0], level) for key, level in judged.items())


@pytest.mark.parametrize("seed", sampled(range(16), long=(6,)))
def test_model_and_judge_agree_on_a_random_room(seed):
    """Every claim's level and the whole score, straight and slanted walls alike."""
    assert check(seed)


@pytest.mark.parametrize("seed", range(12))
def test_model_and_judge_agree_on_openings_as_built(seed):
    """Doors of every sort, French windows, curtains."""
    assert check(seed, with_openings_as_built)


@pytest.mark.parametrize("seed", range(12))
def test_model_and_judge_agree_where_somebody_turns_or_climbs(seed):
    """What the model takes keeps the square to turn in and the floor before the windows."""
    assert check(seed, with_people)


@pytest.mark.parametrize("seed", [7, 19])
def test_model_and_judge_agree_on_pieces_across_corners(seed):
    """A bed, and a desk with its chair turned with it."""
    assert check(seed, crossing)


@pytest.mark.long
def test_model_and_judge_agree_on_many_random_rooms():
    """And every wish was both earned and missed somewhere, so none is asked in vain.

    Tied tables always make a pair, and the rooms are too large to lack clear floor.
    """
    seen = Counter()
    for seed in range(1000, 1300):
        seen += check(seed)
    wishes = {r.id for r in RULES if r.kind == "wish" and not isinstance(r, OwnWish)}
    missed = {rule for rule, level in seen if level == 0} - COUNTED
    assert missed == wishes - COUNTED - {"bedside-pair", "clear-floor"}
    assert {rule for rule, level in seen if level > 0} == wishes


@pytest.mark.parametrize("seed", range(8))
def test_alike_pieces_in_order_lose_no_points(seed):
    """The best score is the same whether alike pieces may be swapped or not."""
    scenario = room_with_alike_pieces(seed)
    assert best_score(scenario, canonical=True) == best_score(scenario, canonical=False)


def test_a_clearance_that_leans_beyond_the_corner_of_the_room_is_no_floor():
    """An armchair that may stand anywhere, on a slanted wall 131 from the wall above.

    The wall leans 410 over 3620, so that it is 3643.1 long. The chair's left end is 131 x 0.9937 =
    130.2 down from 3620, its front 900 x 0.1125 = 101.3 up again: 28.9 below the wall above.
    That is 256 of floor before it at 0.1125 each, and the first step asks for 305.
    """
    corners = ((0, 0), (0, 3620), (4840, 3620), (4430, 0))
    legs = Clearance("legs", ("front",), 250, 457, "for legs", usual=305)
    chair = piece("armchair", 850, 900, 900, stands="anywhere", clearances=(legs,))
    plan = scenario(room(corners), chair, only="comfortable-clearance")
    there = Arrangement((Placement("armchair", None, wall=2, offset=131),))
    (level,) = judged_levels(plan, there).values()
    assert modelled_levels(plan, there) == judged_levels(plan, there)
    assert level == 0
