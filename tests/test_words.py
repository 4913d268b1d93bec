"""Numbers and lists in plain words."""

import re
from pathlib import Path

import pytest
from small_rooms import A, on_wall, piece, room, scenario, wish

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import length, listed, measured, nearest
from arrange.data.room import Window
from arrange.judge import judge
from arrange.scenario.read import read
from arrange.whatif.today import assess_today
from arrange.words.tight import tight_lines, tighter_than_usual

pytestmark = pytest.mark.fast


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        pytest.param(1420, "mm", "1420 mm", id="mm"),
        pytest.param(1420, "cm", "142 cm", id="whole cm"),
        pytest.param(1425, "cm", "142.5 cm", id="a decimal only where needed"),
        pytest.param(3420, "m", "3.42 m", id="two decimals of a metre"),
        pytest.param(600, "m", "0.60 m", id="always two"),
        pytest.param(3425, "m", "3.425 m", id="a third only where needed"),
        pytest.param(1422, "in", "56 in", id="56 in are 1422.4 mm"),
        pytest.param(1423, "in", "56 1/32 in", id="the next whole mm needs a finer mark"),
        pytest.param(13, "in", "1/2 in", id="under an inch"),
        # 71 in = 1803.4 mm; 72 in = 1828.8 mm = 6 ft
        pytest.param(1803, "in", "71 in", id="just below six feet"),
        pytest.param(1829, "in", "6 ft", id="at six feet"),
        pytest.param(3467, "in", "11 ft 4 1/2 in", id="feet, inches and a half"),
        pytest.param(1842, "in", "6 ft 1/2 in", id="no inches between feet and the fraction"),
        pytest.param(0, "cm", "0 cm", id="zero"),
        pytest.param(-15, "cm", "-1.5 cm", id="below zero"),
    ],
)
def test_a_length_reads_as_on_a_tape(mm, unit, text):
    """Sensible rounding that never hides a millimetre."""
    assert length(mm, unit) == text


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        pytest.param(1299, "cm", "130 cm", id="whole centimetres"),
        pytest.param(559, "cm", "56 cm", id="a published 22 in"),
        pytest.param(2100, "cm", "210 cm", id="no metres in a file in centimetres"),
        pytest.param(600, "m", "60 cm", id="centimetres below a metre"),
        pytest.param(994, "m", "99 cm", id="just below a metre"),
        pytest.param(995, "m", "1.00 m", id="a metre, rounded"),
        pytest.param(780, "m", "78 cm", id="no zero before the point"),
        pytest.param(2104, "m", "2.10 m", id="two decimals"),
        pytest.param(1299, "mm", "1299 mm", id="who measures in millimetres says them"),
        # 37 1/2 in = 952.5 mm; 83 in = 2108.2 mm = 6 ft 11 in
        pytest.param(950, "in", "37 1/2 in", id="half inches"),
        pytest.param(13, "in", "1/2 in", id="half an inch"),
        pytest.param(5, "in", "0 in", id="less than can be said"),
        pytest.param(1803, "in", "71 in", id="just below six feet"),
        pytest.param(2108, "in", "6 ft 11", id="feet and inches"),
        pytest.param(2121, "in", "6 ft 11 1/2", id="feet, inches and a half"),
        pytest.param(1829, "in", "6 ft", id="six feet"),
        pytest.param(1842, "in", "6 ft 1/2 in", id="half an inch over is not half a foot over"),
    ],
)
def test_a_length_is_told_as_people_say_it(mm, unit, text):
    """Nothing finer than a tape across a room shows."""
    assert measured(mm, unit) == text


@pytest.mark.parametrize(
    ("mm", "unit", "rounded", "text"),
    [
        (1299, "cm", "down", "129 cm"),
        (1290, "cm", "down", "129 cm"),
        (1291, "cm", "up", "130 cm"),
        (559, "in", "down", "22 in"),
        (548, "in", "down", "21 1/2 in"),
        (560, "in", "up", "22 1/2 in"),
        (559, "in", "up", "22 in"),
    ],
)
def test_a_promise_is_rounded_down_and_what_is_too_far_up(mm, unit, rounded, text):
    """22 in are 558.8 mm, of which 559 is the nearest whole millimetre; 21 1/2 in are 546.1."""
    assert measured(mm, unit, rounded) == text


@pytest.mark.parametrize(
    ("items", "text"),
    [([], ""), (["bed"], "bed"), (["bed", "desk"], "bed and desk"), (list("abc"), "a, b and c")],
)
def test_a_list_reads_as_in_a_sentence(items, text):
    """None, one, two and three items."""
    assert listed(items) == text


def test_the_nearest_word_is_offered_only_if_there_is_one():
    """Case does not matter; a word like none of them has no neighbour."""
    assert nearest("Wardrob", ["desk", "wardrobe"]) == "wardrobe"
    assert nearest("xyz", ["desk", "wardrobe"]) is None


# ------------------------------------------------------------------ no gap is no length

DRAWN = sorted((Path(__file__).parent / "drawn").glob("*.toml"))
NOUGHT = re.compile(r"(?<![\d.,/])0 (?:mm|cm|m|in)\b")
BOX, TABLE = piece("box", 600, 600), piece("table", 600, 600)


@pytest.mark.parametrize(
    ("relation", "place", "gap", "told"),
    [
        ("near", "window", 0, "The box is right at the window; you asked for 100 cm or less"),
        ("away from", "window", 0, "The box is right at the window; you asked for 150 cm or more"),
        ("near", "table", 0, "The box is right beside the table; you asked for 100 cm or less"),
        ("near", "table", 4, "The box is 1 cm from the table; you asked for 100 cm or less"),
        (
            "away from",
            "table",
            9,
            "The box is right beside the table; you asked for 150 cm or more",
        ),
        ("beside", "table", 4, "The box is right beside the table"),
        ("beside", "table", 5, "The box is beside the table, 1 cm away"),
        ("near", "A", 0, "The box is right at wall A; you asked for 100 cm or less"),
    ],
)
def test_a_gap_of_nought_is_said_in_words(relation, place, gap, told):
    """The box stands on wall A below the window, the table so many mm beside it.

    What is too far is rounded up, what is too near down, all else to the nearest centimetre.
    """
    shape = room(windows=(Window("window", A, 1000, 1200),))
    case = scenario(shape, BOX, TABLE, wishes=(wish(relation, "box", place),))
    stands = on_wall(BOX, shape, A, 1000), on_wall(TABLE, shape, A, 1600 + gap)
    (reason,) = [
        r for r in judge(case, Arrangement(stands)).reasons if r.rule == relation.replace(" ", "-")
    ]
    assert reason.sentence == told


@pytest.mark.parametrize("path", DRAWN, ids=lambda path: path.stem)
def test_nobody_is_told_of_nought_centimetres(path):
    """In the reasons of every room that was drawn by hand, and in what is tight there."""
    today = assess_today(read(path))
    said = [r.sentence for r in today.verdict.reasons]
    assert len(said) > 10
    found = tighter_than_usual(today.scenario, today.arrangement)
    said += tight_lines(found, today.scenario.unit)
    assert [one for one in said if NOUGHT.search(one)] == []
