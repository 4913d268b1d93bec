"""Cuts lent to another scenario rule out nothing that can be walked there either."""

import random
from dataclasses import replace
from functools import cache

import pytest
from planted import planted
from sampled import sampled
from walkable import cuts_on_the_way, rules_out, searched, walked

from arrange.budget import Budget
from arrange.data.arrangement import Feasibility
from arrange.data.change import Drop, LowerClearance, Resize, changed
from arrange.geometry.scene import Scene
from arrange.judge import breaches
from arrange.solver.cuts import Memory
from arrange.solver.feasibility import FeasibilityOracle, decide
from arrange.suggesting import suggest

DAILY = (5, 9, 11)
SEEDS = (3, *DAILY)  # rooms in which paths are blocked often
STEPS = 80  # moves tried from each arrangement set out from


@cache
def learnt(seed):
    """What a search, and 150 random moves that cannot be walked, taught of a planted room."""
    room = planted(seed)
    memory = Memory()
    memory.learn(room.scenario, searched(room.scenario, 0.5).made)
    memory.learn(room.scenario, cuts_on_the_way(room.scenario, room.arrangement, 150, 1))
    return memory


def bigger(seed):
    """The room of a seed with one piece 5 to 40 cm wider and deeper, and its name."""
    rng = random.Random(seed)  # noqa: S311
    case = planted(seed).scenario
    one = rng.choice([p for p in case.pieces if not p.flat])
    more = [rng.randint(50, 400) for _ in "ab"]
    return changed(case, [Resize(one.name, one.width + more[0], one.depth + more[1])]), one


@cache
def walks(seed):
    """Walkable arrangements of the room with the bigger piece, if it has any."""
    case, found = bigger(seed)[0], []
    for one in suggest(case, top=2, seconds=5).suggestions:
        found += [one.arrangement, *walked(case, one.arrangement, STEPS, seed)]
    return found


@pytest.mark.parametrize("seed", sampled(SEEDS, long=(3,)))
def test_a_grown_piece_blocks_what_it_blocked(seed):
    """Every cut that is lent agrees with hundreds of walkable arrangements of the bigger one."""
    case, _ = bigger(seed)
    lent = learnt(seed).cuts_for(case)
    scenes = [Scene(case, a) for a in walks(seed)]
    assert not [s for s in scenes if breaches(case, s.arrangement)]
    wrong = [(cut, s.arrangement) for cut in lent for s in scenes if rules_out(cut, s)]
    assert not wrong, len(wrong)


def test_the_rooms_put_something_to_the_test():
    """Cuts are lent in most of them, of grown pieces too, and there are places to walk."""
    counts, grown = [], 0
    for seed in DAILY:
        case, one = bigger(seed)
        lent = learnt(seed).cuts_for(case)
        grown += sum(one.name in cut.pieces for cut in lent)
        counts.append(len(lent) * len(walks(seed)))
    assert sum(count > 0 for count in counts) >= 2, counts
    assert grown > 5


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_not_surely_alike_is_not_lent(seed):
    """Another walkway, another clearance, a smaller piece, a piece less."""
    case, memory = planted(seed).scenario, learnt(seed)
    known = memory.cuts_for(case)
    assert known
    assert memory.cuts_for(replace(case, walkway=case.walkway - 10)) == []
    for piece in case.pieces:
        speaks = [cut for cut in known if piece.name in cut.pieces]
        kept = [cut for cut in known if cut not in speaks]
        smaller = changed(case, [Resize(piece.name, piece.width - 1, piece.depth + 50)])
        assert memory.cuts_for(smaller) == kept
        assert memory.cuts_for(changed(case, [Drop(piece.name)])) == kept
        for clearance in piece.clearances[:1]:
            asked = LowerClearance(piece.name, clearance.name, clearance.least - 10)
            assert memory.cuts_for(changed(case, [asked])) == kept


@pytest.mark.parametrize("seed", range(1, 7))
def test_answers_are_the_same_with_and_without_a_memory(seed):
    """A room too full by one piece, with a memory of all that was asked before."""
    case, one = bigger(seed)
    oracle = FeasibilityOracle(30)
    for more in (-100, 0, 100, 200):
        asked = changed(case, [Resize(one.name, case.piece(one.name).width + more)])
        with_it = oracle.decide(asked, sure=True)
        alone = decide(asked, Budget(10), sure=True)
        assert with_it.answer == alone.answer != Feasibility("not decided").answer
