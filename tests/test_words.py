"""Numbers and lists in plain words."""

import pytest

from arrange.data.lengths import length, listed, measured, nearest

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
