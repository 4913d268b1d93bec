"""Families: every way the major pieces can stand, against every arrangement on a grid."""

import pytest
from brute_force import Grid
from tiny_rooms import tiny

from arrange.judge import judge
from arrange.solver.families import key_of, majors, named
from arrange.suggesting import suggest


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
