"""Pieces tied in chains, alike pieces told apart, turns that only seem to be alike."""

from __future__ import annotations

from dataclasses import replace

from arrange import assess, read_text, suggest
from arrange.data.result import Suggestion
from arrange.solver.session import best_first

NARROW = """
unit = "cm"
walkway = 40
[room]
size = [100, 400]
[[door]]
wall = "A"
from_left = 10
width = 70
opens = "out"
[[piece]]
kind = "other piece"
name = "small table"
width = 60
depth = 60
height = 50
stands = "free"
[[piece]]
kind = "other piece"
name = "lamp"
width = 40
depth = 40
height = 150
with = "small table"
"""

CHAIN = """
unit = "cm"
walkway = 30
[room]
corners = [[0, 0], [0, 400], [250, 400], [250, 200], [400, 200], [400, 0]]
[[door]]
wall = "F"
from_left = 20
width = 80
opens = "out"
[[piece]]
kind = "sofa"
[[piece]]
kind = "armchair"
[[piece]]
kind = "side table"
with = "armchair"
[[piece]]
kind = "floor lamp"
with = "side table"
"""

ALIKE = """
unit = "cm"
[room]
size = [400, 400]
[[door]]
wall = "A"
from_left = 20
width = 80
[[piece]]
kind = "reading chair"
[[piece]]
kind = "side table"
count = 2
"""


def test_a_square_table_turns_so_that_its_lamp_finds_room():
    """60 + 40 cm side by side need 100 cm: only along the 4 m, so the table must turn."""
    result = suggest(read_text(NARROW), top=1, seconds=20)
    assert result.outcome == "proven"
    (only,) = result.suggestions
    assert only.arrangement.of("small table").facing in ("left", "right")


def test_a_chain_of_tied_pieces_stays_inside_the_room():
    """The lamp goes with the table that goes with the chair that goes with the sofa."""
    scenario = read_text(CHAIN)
    result = suggest(scenario, top=1, seconds=30)
    assert result.suggestions
    assert assess(scenario, result.suggestions[0].arrangement).works


def test_alike_pieces_of_which_one_is_tied_are_told_apart():
    """One side table goes with the chair, the other stands free: different ones are found."""
    result = suggest(read_text(ALIKE), top=2, seconds=20)
    assert len(result.suggestions) == 2


def test_ranking_by_score_keeps_the_bounds_true():
    """The first question could still hold 90: 85 points found later are not proven best."""
    base = suggest(read_text(ALIKE), top=1, seconds=20).suggestions[0]
    first = scored(base, 800, proven=False, bound=900)
    second = scored(base, 850, proven=True, bound=850)
    best, other = best_first([first, second])
    assert (best.verdict.score, best.bound, best.proven) == (850, 900, False)
    assert (other.verdict.score, other.bound, other.proven) == (800, 900, False)


def scored(base: Suggestion, score: int, *, proven: bool, bound: int) -> Suggestion:
    """The suggestion with another score, as a question would hand it in."""
    verdict = replace(base.verdict, score=score)
    return replace(base, verdict=verdict, proven=proven, bound=bound)
