"""The search: the best there is, the same each time, "impossible" confirmed, the time kept."""

import subprocess
import sys
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from planted import planted
from small_rooms import clearance, free, piece, room, scenario
from tiny_rooms import tiny

from arrange.budget import Budget
from arrange.data.result import FAULT, NOTHING
from arrange.data.room import Door
from arrange.different import differ
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.scenario.read import read_text
from arrange.solver import outright
from arrange.solver.engine import Answer, solve
from arrange.solver.outright import CLEARED_BY, Clearing, ways_to_try
from arrange.solver.question import Best, Question
from arrange.solver.search import Search
from arrange.suggesting import suggest


@pytest.mark.parametrize("number", [1, 3, 7])
def test_every_seed_proves_the_same_best(number):
    """Seeds change the way, never what is proven."""
    scores = {
        (r.outcome, r.suggestions[0].verdict.score if r.suggestions else -1)
        for r in (suggest(tiny(number), top=1, seconds=60, seed=seed) for seed in range(4))
    }
    assert len(scores) == 1
    assert next(iter(scores))[0] in ("proven", "impossible")


def test_the_same_seed_gives_the_same_arrangements():
    """Every placement of every suggestion, twice."""
    case = tiny(3)
    one, two = (suggest(case, top=3, seconds=60, seed=5) for _ in range(2))
    assert one.suggestions
    assert [s.arrangement for s in one.suggestions] == [s.arrangement for s in two.suggestions]
    assert (one.bound, one.outcome) == (two.bound, two.outcome)


CROWDED = """
from arrange.budget import Budget
from arrange.scenario.read import read_text
from arrange.solver.search import Search
from benchmarks.furnished import furnished
best = Search(read_text(furnished(4)[0]), Budget(300)).best(patience=0.1)
print(best.score, best.arrangement)
"""


def test_a_crowded_room_has_the_same_plan_in_every_process():
    """Its first plan is bettered a part at a time by the solver's own rounds.

    Some of its ways of choosing a part go by the order of a table that differs from process
    to process: they are left out.
    """
    root = Path(__file__).parent.parent
    running = [
        subprocess.Popen([sys.executable, "-c", CROWDED], cwd=root, stdout=subprocess.PIPE)
        for _ in range(2)
    ]
    one, two = (process.communicate()[0] for process in running)
    assert one == two
    assert b"Placement" in one


def test_asking_for_fewer_faults_ends_where_there_is_no_way_to_have_them(monkeypatch):
    """Each free way for none, then each way for one: then the two that there are stay."""
    case = planted(2).scenario
    question = Question(Search(case, Budget(60)), Best(score=100 - 2 * FAULT), (), None)
    asked = []

    def none(*_, **more):
        asked.append(more["goal"])
        return Answer("none", NOTHING)

    monkeypatch.setattr(outright, "solve", none)
    clearing = Clearing(question)
    ways = ways_to_try(question, CLEARED_BY)
    free = [way for way in ways if not way.at_walls]
    assert len(ways) >= len(free) >= len(CLEARED_BY)
    assert clearing.step("improving").status == "none"
    assert clearing.hopeful(2)
    assert clearing.step("improving").status == "none"
    assert asked == ["any"] * (len(free) + len(ways))
    assert not clearing.hopeful(2)
    assert clearing.hopeful(3)


# Its box would have x + y of 250 + 250 at its far corner; the slanted wall is x + y = 490.
POUF = """
title = "Cut corner"
unit = "cm"
[room]
corners = [[0, 0], [0, 300], [190, 300], [320, 170], [320, 0]]
ceiling = 240
[[door]]
wall = "D"
from_left = 50
width = 80
opens = "out"
[[piece]]
name = "pouf"
kind = "pouf"
shape = "round"
width = 250
depth = 250
"""


def test_what_is_round_is_no_box_where_only_so_it_fits():
    """The narrow model that is asked first has nothing; the circle has room."""
    case = read_text(POUF)
    shared = Search(case, Budget(60))
    assert shared.shapes == (True, False)
    boxed, exact = (shared.guided_with(3, boxed=boxed) for boxed in shared.shapes)
    assert solve(boxed.copy(), Budget(60), goal="any").status == "none"
    assert solve(exact.copy(), Budget(60), goal="any").status == "some"
    assert suggest(case, top=1, seconds=60).outcome == "proven"


def test_suggestions_differ_and_come_best_first():
    """Each from each, as a person sees it; none better than the one before."""
    case = planted(2).scenario
    found = suggest(case, top=3, seconds=10).suggestions
    assert len(found) > 1
    assert all(differ(case, a.arrangement, b.arrangement) for a, b in combinations(found, 2))
    scores = [s.verdict.score for s in found]
    assert scores == sorted(scores, reverse=True)
    assert all(judge(case, s.arrangement) == s.verdict for s in found)


def too_much():
    """Two cupboards 2100 long, 1800 deep, 600 of floor before each; a room of 4000 x 3000.

    On facing short walls they take 3600 + 600 of 4000, on facing long walls 3600 of
    3000, side by side 4200 of 4000. On a long and a short wall the second one, 2100 of
    the 3000 up the plan, has the first one's 1800 within its floor.
    """
    front = (clearance(600),)
    pieces = [piece(n, 2100, 1800, clearances=front) for n in ("one", "two")]
    return scenario(room(doors=(Door("door", 2, 3000, 800),)), *pieces)


def split_by_a_passage(walkway):
    """A room 2000 x 1700, its left wall all one passage, and a block 1900 x 1000 to put in.

    The block does not fit beside the 600 mm inside the passage; the room is 1700 up the plan,
    so that 700 are left.
    """
    corners = ((0, 1700), (2000, 1700), (2000, 0), (0, 0))
    passage = Door("passage", 3, 0, 1700, opens="passage")
    return scenario(room(corners, doors=(passage,)), free("block", 1900, 1000), walkway=walkway)


@pytest.mark.parametrize(("walkway", "outcome"), [(700, "proven"), (702, "impossible")])
def test_a_piece_may_stand_in_a_wide_passage_beside_the_way(walkway, outcome):
    """Half a mm on each side of a way is forgiven."""
    case = split_by_a_passage(walkway)
    found = suggest(case, top=1, seconds=60)
    assert found.outcome == outcome
    assert all(judge(case, s.arrangement) == s.verdict for s in found.suggestions)


def test_impossible_is_asked_twice(monkeypatch):
    """A second configuration has the last word on what the first calls impossible."""
    asked = []
    from arrange.solver import feasibility  # noqa: PLC0415  to put a spy there

    real = feasibility.solve

    def spy(model, budget, **options):
        asked.append(options.get("second_opinion", False))
        return real(model, budget, **options)

    monkeypatch.setattr(feasibility, "solve", spy)
    assert suggest(too_much(), top=1, seconds=30).outcome == "impossible"
    assert asked == [True]


def test_configurations_that_disagree_are_our_bug(monkeypatch):
    """The run stops instead of printing either answer."""
    from arrange.solver import feasibility  # noqa: PLC0415

    some = Answer("some", 1000, arrangement=planted(1).arrangement)
    monkeypatch.setattr(feasibility, "solve", lambda *_, **__: some)
    monkeypatch.setattr(feasibility, "breaches", lambda *_: ())
    with pytest.raises(DisagreementError, match="two solver configurations disagree"):
        suggest(too_much(), top=1, seconds=30)


def test_a_search_without_time_asks_nothing():
    """Stopped before it begins: no arrangement, nothing proven."""
    best = Search(planted(1).scenario, Budget(1000, lambda: True)).best()
    assert (best.arrangement, best.proven, best.bound) == (None, False, 1000)
    result = suggest(planted(1).scenario, seconds=1000, stop=lambda: True)
    assert (result.outcome, result.suggestions, result.interrupted) == ("nothing found", (), True)


def test_a_room_without_pieces_is_proven_best_as_it_is():
    """Built in code, for no file may be without pieces."""
    empty = replace(planted(1).scenario, pieces=(), wishes=())
    result = suggest(empty, seconds=20)
    assert result.outcome == "proven"
    assert [s.arrangement.placements for s in result.suggestions] == [()]


def test_someone_asking_to_stop_keeps_what_was_found():
    """The stop comes right after the first find; the limit itself is an hour."""
    case, found = planted(6).scenario, []
    result = suggest(case, seconds=3600, listener=found.append, stop=lambda: bool(found))
    assert result.interrupted
    assert result.seconds < 60
