"""A good plan with one thing done to it that a decorator never draws: the score says so.

Each pair is one line of ``made_worse.PAIRS``. The judged standing falls by more than any
step of clear floor can gain, and the reason that lost names what is wrong. Every rule that no
definition speaks of has a line as well, so that no rule is without one.
"""

import re
from collections import Counter
from functools import cache
from itertools import pairwise

import pytest
from good_rooms import ROOMS
from made_worse import OTHERS, PAIRS, RULES_OF, UNLIKE

from arrange.judge import judge
from arrange.rules import RULES
from arrange.scoring import shares

pytestmark = pytest.mark.fast

KINDS = {rule.id: rule.kind for rule in RULES}
LEAST_PAIRS = 4  # for each definition


def judged(room, moves=""):
    return judge(room.scenario, room.moved(moves), gaps=False)


@cache
def good(name):
    """The verdict on a room as it is, once for all that is done to it."""
    return judged(ROOMS[name])


@cache
def largest_step(name, rule="clear-floor"):
    """The most tenths that one more step of a rule gains in a room."""
    claims = shares(ROOMS[name].scenario)
    worth = [(0, *share.points) for share in claims if share.claim.rule == rule]
    return max(b - a for points in worth for a, b in pairwise(points))


@pytest.mark.parametrize("name", ROOMS)
def test_a_good_room_works(name):
    """No must is broken, and nothing of first rank is wrong."""
    verdict = good(name)
    assert (verdict.breaches, verdict.faults) == ((), 0)


@pytest.mark.slow
@pytest.mark.parametrize("pair", PAIRS, ids=lambda p: f"{p[0]} {p[1]}: {p[2]}")
def test_a_room_made_worse_is_judged_worse(pair):
    """By more than a step of clear floor; one reason of the definition's lost, and says it."""
    number, name, moves, *words = pair
    room = ROOMS[name]
    before, after = good(name), judged(room, moves)
    assert after.breaches == ()
    assert before.standing - after.standing > largest_step(name)
    assert_said(lost(before, after, RULES_OF[number]), words)


def lost(before, after, rules):
    """The sentences of the reasons of some rules that earn less than before, or are faults now."""
    return [
        two.sentence
        for one, two in zip(before.reasons, after.reasons, strict=True)
        if two.rule in rules and (two.won, -two.faults) < (one.won, -one.faults)
    ]


def assert_said(sentences, words):
    """One of the sentences has all the words in their order."""
    said = ".*".join(rf"\b{re.escape(word)}\b" for word in words)
    assert any(re.search(said, sentence, re.IGNORECASE) for sentence in sentences), sentences


@pytest.mark.parametrize("pair", OTHERS, ids=lambda p: f"{p[0]} {p[1]}: {p[3]}")
def test_every_other_rule_knows_worse_from_good(pair):
    """A must is broken and says so; a wish earns less, and the plan is worth less."""
    rule, name, more, moves, *words = pair
    room = ROOMS[name].having(more)
    before, after = judged(room), judged(room, moves)
    assert before.breaches == ()
    if KINDS[rule] == "must":
        assert_said([b.sentence for b in after.breaches if b.rule == rule], words)
    else:
        assert after.breaches == ()
        assert before.standing > after.standing
        assert_said(lost(before, after, {rule}), words)


def test_tables_that_are_not_alike_are_worth_less_than_a_pair():
    """They are tied to their bed, so no move makes them worse: the second is another one."""
    rule, name, alike, unlike, places, *words = UNLIKE
    before, after = (judged(ROOMS[name].having(more), places) for more in (alike, unlike))
    assert before.breaches == after.breaches == ()
    assert before.standing > after.standing
    assert_said(lost(before, after, {rule}), words)


def test_every_definition_is_tried():
    """At least four pairs for each that has a rule, all of them different."""
    tried = Counter(number for number, *_ in PAIRS)
    assert tried.keys() == RULES_OF.keys()
    assert min(tried.values()) >= LEAST_PAIRS
    assert len({pair[:3] for pair in PAIRS}) == len(PAIRS)
    assert len(PAIRS) >= 100


def test_every_rule_is_tried():
    """Each that is registered: by a definition, or by a line of its own."""
    alone = [rule for rule, *_ in (*OTHERS, UNLIKE)]
    assert len(alone) == len(set(alone))
    assert set(alone).isdisjoint(set().union(*RULES_OF.values()))
    assert {*alone, *set().union(*RULES_OF.values())} == set(KINDS)
