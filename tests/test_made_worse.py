"""A good plan with one thing done to it that a decorator never draws: the score says so.

Each pair is one line of ``made_worse.PAIRS``. The judged standing falls by more than any
step of clear floor can gain, and the reason that lost names what is wrong.
"""

import re
from collections import Counter
from itertools import pairwise

import pytest
from good_rooms import ROOMS
from made_worse import PAIRS, RULES_OF

from arrange.judge import judge
from arrange.rules import RULE_IDS
from arrange.scoring import shares

pytestmark = pytest.mark.fast

LEAST_PAIRS = 4  # for each definition


def judged(room, moves=""):
    return judge(room.scenario, room.moved(moves), gaps=False)


def largest_step(scenario, rule="clear-floor"):
    """The most tenths that one more step of a rule gains."""
    worth = [(0, *share.points) for share in shares(scenario) if share.claim.rule == rule]
    return max(b - a for points in worth for a, b in pairwise(points))


@pytest.mark.parametrize("name", ROOMS)
def test_a_good_room_works(name):
    """No must is broken, and nothing of first rank is wrong."""
    verdict = judged(ROOMS[name])
    assert (verdict.breaches, verdict.faults) == ((), 0)


@pytest.mark.parametrize("pair", PAIRS, ids=lambda p: f"{p[0]} {p[1]}: {p[2]}")
def test_a_room_made_worse_is_judged_worse(pair):
    """By more than a step of clear floor; one reason of the definition's lost, and says it."""
    number, name, moves, *words = pair
    room = ROOMS[name]
    before, after = judged(room), judged(room, moves)
    assert after.breaches == ()
    assert before.standing - after.standing > largest_step(room.scenario)
    lost = [
        two.sentence
        for one, two in zip(before.reasons, after.reasons, strict=True)
        if two.rule in RULES_OF[number] and (two.won, -two.faults) < (one.won, -one.faults)
    ]
    said = ".*".join(rf"\b{re.escape(word)}\b" for word in words)
    assert any(re.search(said, sentence, re.IGNORECASE) for sentence in lost), lost


def test_every_definition_is_tried():
    """At least four pairs for each that has a rule, all of them different."""
    tried = Counter(number for number, *_ in PAIRS)
    assert tried.keys() == RULES_OF.keys()
    assert min(tried.values()) >= LEAST_PAIRS
    assert len({pair[:3] for pair in PAIRS}) == len(PAIRS)
    assert set().union(*RULES_OF.values()) <= set(RULE_IDS)
    assert len(PAIRS) >= 100
