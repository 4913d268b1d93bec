"""The words for how a room should feel."""

import pytest
from small_rooms import PLAIN, at, free, only, piece, room, scenario, wish

from arrange.data.arrangement import Arrangement
from arrange.data.result import PARTS
from arrange.data.room import Door, Window
from arrange.judge import judge
from arrange.rules import RULES
from arrange.rules.wished import OwnWish
from arrange.scoring import FEEL, MOST, ORDINARY, WEIGHTS, feel_factor, words_without_effect

pytestmark = pytest.mark.fast


@pytest.mark.parametrize("word", sorted(FEEL))
def test_every_word_changes_known_wishes(word):
    """No factor for a rule that is not there, that is a must, or that changes nothing."""
    wishes = {rule.id for rule in RULES if rule.kind == "wish"}
    assert set(FEEL[word]) <= wishes | set(PARTS)
    assert all(f in (2, 3, 5, 6, 8) for f in FEEL[word].values())
    assert any(f > ORDINARY for f in FEEL[word].values())
    assert word == word.casefold().strip()


def test_every_wish_of_ours_has_its_part_and_weight():
    """One that the table of weights does not have would count next to nothing, unseen."""
    ours = {r.id for r in RULES if r.kind == "wish" and not isinstance(r, OwnWish)}
    assert set(WEIGHTS) == ours, "a row in WEIGHTS of arrange/scoring.py for each wish"
    assert set(MOST) <= ours


def test_the_table_has_a_dozen_words_and_no_two_the_same_but_snug_and_cosy():
    """Fifteen words; only the two spellings of one feeling share a row."""
    assert 12 <= len(FEEL) <= 16
    alike = [w for w in FEEL if sum(FEEL[w] == row for row in FEEL.values()) > 1]
    assert alike == ["snug", "cosy"]


def _with(*words):
    return scenario(room(PLAIN), piece("chest"), feel=words)


def test_the_strongest_change_wins():
    """Snug halves the clear floor, airy doubles it: doubling is the greater step."""
    assert feel_factor(_with(), "clear-floor") == 4
    assert feel_factor(_with("snug"), "clear-floor") == 2
    assert feel_factor(_with("airy"), "clear-floor") == 8
    assert feel_factor(_with("snug", "airy"), "clear-floor") == 8
    assert feel_factor(_with("airy"), "bedside-pair") == ORDINARY


def test_unknown_words_are_named_as_without_effect():
    """A colour word says nothing about the floor."""
    case = _with("turquoise", "calm")
    assert words_without_effect(case) == ("turquoise",)
    assert feel_factor(case, "balance") == FEEL["calm"]["balance"]


@pytest.mark.solver
def test_a_word_moves_points_between_wishes_in_both_faces():
    """One wish takes 10 points, the first look and the straight way share 90 as 4 to 3.

    900 * 4 / 7 = 514.3 and 385.7: by largest remainders 514 and 386. Open doubles the first
    weight and adds half to the other, 8 to 4.5: 900 * 8 / 12.5 = 576 and 324. The clear floor
    has its 5 points at the most, whatever the word: the others share 85, 4 to 3 of 850 485.7
    and 364.3.
    """
    from replayed import confirm  # noqa: PLC0415  fast tests load no solver

    asked = wish("near", "chair", "box", 4000, weight=8)
    pieces = (free("chair"), free("box", 500, 500), free("chest", height=1200))
    doors, windows = (Door("door", 2, 1500, 1000),), (Window("window", 0, 1500, 1000),)
    shape = room(PLAIN, doors=doors, windows=windows)
    placed = Arrangement(
        (
            at("chair", "down", 0, 0),
            at("box", "down", 3000, 0),
            at("chest", "down", 0, 2600),
        )
    )
    for feel, floor, expected in (
        ((), (), {100, 386, 514}),
        (("open",), (), {100, 324, 576}),
        ((), ("clear-floor",), {100, 50, 364, 486}),
        (("snug",), ("clear-floor",), {100, 50, 364, 486}),
    ):
        case = scenario(shape, *pieces, wishes=[asked], feel=feel)
        case = only(case, "first-look", "straight-way", "near", *floor)
        confirm(case, placed)
        assert {r.possible for r in judge(case, placed).reasons} == expected
