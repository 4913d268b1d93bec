"""Families: every way the major pieces can stand, against every arrangement on a grid."""

from dataclasses import replace

import pytest
from brute_force import Grid
from small_rooms import piece, room, scenario
from tiny_rooms import tiny

from arrange.judge import judge
from arrange.solver.question import key_of, majors, named
from arrange.suggesting import suggest
from arrange.words.suggest import families_words


def by_brute_force(case):
    """Every key of an arrangement that works, with its best score, on a grid that loses nothing."""
    grid = Grid(case)
    found = {}
    for spots in grid.arrangements():
        if grid.works(spots):
            key = named(case, key_of(case, grid.arrangement(spots)))
            found[key] = max(found.get(key, -1), grid.score(spots))
    return found


@pytest.mark.parametrize("seed", [1, 3, 4, 8])
def test_families_are_all_there_are_and_each_has_its_best(seed):
    """No key too many, none too few, and the score of each is the grid's."""
    case = tiny(seed)
    expected = by_brute_force(case)
    result = suggest(case, top=1, seconds=60, families=True)
    if not expected:
        assert result.outcome == "impossible"
        return
    assert result.families is not None
    assert result.families.complete
    found = {family.key: family.score for family in result.families.families}
    assert len(found) == len(result.families.families)
    assert found == expected


def test_families_come_best_first_and_keep_their_word():
    """Scores fall, the judge gives each arrangement the score and the key it is listed with."""
    case = tiny(4)
    result = suggest(case, top=1, seconds=60, families=True)
    listed = result.families.families
    assert [f.score for f in listed] == sorted((f.score for f in listed), reverse=True)
    for family in listed:
        verdict = judge(case, family.arrangement)
        assert (verdict.works, verdict.score) == (True, family.score)
        assert named(case, key_of(case, family.arrangement)) == family.key


def test_without_a_major_piece_all_pieces_tell_families_apart():
    """The tiny rooms have none."""
    case = tiny(4)
    assert majors(case) == list(case.pieces)


def test_the_list_leaves_time_for_the_best_of_each():
    """Eight pieces of different sizes on four walls: far more ways than can be listed.

    A list that may go on takes all the time there is, and leaves none with an arrangement.
    """
    boxes = [piece(f"box {i}", 500 + 20 * i, 400, major=True) for i in range(8)]
    case = scenario(room(), *boxes)
    result = suggest(case, top=1, seconds=6, families=True)
    assert result.families is not None
    assert len(result.families.families) > 3
    assert not result.families.complete
    assert result.seconds < 8


def test_ways_without_an_answer_are_counted_and_not_called_all():
    """The words say how many; nothing of them is claimed."""
    known = suggest(tiny(4), top=1, seconds=60, families=True).families
    assert known.undecided == 0
    short = replace(known, complete=False, undecided=3)
    assert "at least" in families_words(short)
    assert "(3 more were not decided)" in families_words(short)
