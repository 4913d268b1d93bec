"""Lengths as people write them."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from arrange.data.lengths import length, measured, parse, short_by, summed

pytestmark = pytest.mark.fast

UNITS = ("mm", "cm", "m", "in")


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        pytest.param(142, "cm", 1420, id="a bare number counts in the unit of the file"),
        pytest.param(3.42, "m", 3420, id="a fraction of a metre"),
        pytest.param("3.42 m", "cm", 3420, id="the written unit wins"),
        pytest.param("3,42 m", "cm", 3420, id="a decimal comma"),
        pytest.param("3 m 42", "mm", 3420, id="centimetres after metres"),
        pytest.param("142CM", "mm", 1420, id="capitals, no space"),
        # 11 ft = 3352.8 mm, 4.5 in = 114.3 mm, together 3467.1 mm
        pytest.param("11 ft 4 1/2 in", "cm", 3467, id="feet, inches and a half"),
        pytest.param("11' 4 1/2\"", "cm", 3467, id="marks for feet and inches"),
        pytest.param("11’ 4½″", "cm", 3467, id="typographic marks"),  # noqa: RUF001
        pytest.param("11' 4-1/2", "cm", 3467, id="inches after feet need no mark"),
        pytest.param("1/2 in", "cm", 13, id="12.7 mm rounds to 13"),
        pytest.param(0.25, "cm", 3, id="half a millimetre rounds up"),
        pytest.param("2.4 mm", "cm", 2, id="below half a millimetre rounds down"),
        pytest.param("-3", "cm", -30, id="a minus sign is understood"),
    ],
)
def test_a_length_becomes_whole_millimetres(text, unit, mm):
    """Every way of writing means the millimetres worked out by hand."""
    assert parse(text, unit) == mm


@pytest.mark.parametrize(
    ("value", "message"),
    [
        pytest.param("", "not a length", id="empty"),
        pytest.param("wide", "not understood", id="a word"),
        pytest.param("3 yd", "'yd' is not a unit; use mm, cm, m, in or ft", id="unknown unit"),
        pytest.param("3 cm 2 m", "m after cm", id="big after small"),
        pytest.param("3 in 2", "without a unit after in", id="number after the smallest unit"),
        pytest.param("1/0 in", "divides by zero", id="zero under the line"),
        pytest.param("1,200 mm", "could mean two things", id="comma before three digits"),
        pytest.param("9" * 41, "not a length", id="absurdly long"),
        pytest.param(True, "not a length", id="true"),
        pytest.param(None, "not a length", id="nothing"),
        pytest.param([1], "not a length", id="a list"),
        pytest.param(float("nan"), "not a number", id="not a number"),
        pytest.param(float("inf"), "not a number", id="infinite"),
    ],
)
def test_what_is_no_length_says_why(value, message):
    """The message names what was not understood."""
    with pytest.raises(ValueError, match=message):
        parse(value, "cm")


@given(st.integers(-50_000, 50_000), st.sampled_from(UNITS))
def test_words_and_lengths_are_inverse(mm, unit):
    """What we print reads back as the same whole millimetre, in every unit."""
    assert parse(length(mm, unit), "cm") == mm


@given(st.text(max_size=50), st.sampled_from(UNITS))
def test_any_text_is_a_length_or_refused(text, unit):
    """No text makes anything but whole millimetres or a ValueError with a message."""
    message = "none"
    try:
        mm = parse(text, unit)
    except ValueError as error:
        mm, message = 0, str(error)
    assert isinstance(mm, int)
    assert message


# What is read off a tape across a room, in mm: a centimetre, half an inch.
STEPS = {"mm": 1, "cm": 10, "m": 10, "in": 12.7}


@given(st.integers(0, 20_000), st.sampled_from(UNITS))
def test_what_is_said_is_near_and_promises_in_the_right_direction(mm, unit):
    """Rounded down no longer than it is, up no shorter, near no more than half a step off.

    Half a millimetre is forgiven: half inches are no whole millimetres.
    """
    near, down, up = (parse(measured(mm, unit, way), unit) for way in ("near", "down", "up"))
    step = STEPS[unit]
    assert abs(near - mm) <= step / 2 + 0.5
    assert mm - step - 0.5 <= down <= mm + 0.5
    assert mm - 0.5 <= up <= mm + step + 0.5
    assert down <= near <= up


@given(st.integers(0, 20_000), st.sampled_from(UNITS))
def test_nobody_is_told_more_than_a_tape_shows(mm, unit):
    """No decimals of a centimetre, two of a metre and those from a metre on, halves of an inch."""
    said = measured(mm, unit)
    shapes = {
        "mm": r"\d+ mm",
        "cm": r"\d+ cm",
        "m": r"\d\d? cm|[1-9]\d*\.\d\d m",
        "in": r"\d+ in|(\d+ )?1/2 in|\d+ ft|\d+ ft 1/2 in|\d+ ft \d+( 1/2)?",
    }
    assert re.fullmatch(shapes[unit], said)


def test_what_is_said_of_less_than_nothing():
    """The sign stays before the number."""
    assert measured(-129, "cm") == "-13 cm"


@given(st.lists(st.integers(0, 5000), max_size=6), st.sampled_from(UNITS))
def test_a_sum_as_told_adds_up(parts, unit):
    """To the whole as it is told, no part more than a step off.

    Half inches are counted: as millimetres each is half a one off.
    """
    told, step = summed(parts, unit), STEPS[unit]
    counts = [round(parse(one, unit) / step) for one in told]
    assert sum(counts) == round(parse(measured(sum(parts), unit), unit) / step)
    assert all(abs(c * step - mm) <= step for c, mm in zip(counts, parts, strict=True))


@pytest.mark.parametrize(
    ("asked", "there", "unit", "lack"),
    [
        (2700, 2500, "cm", "20 cm"),
        (2704, 2696, "cm", "1 cm"),  # told as 270 and 269
        (2702, 2700, "cm", "less than 1 cm"),
        (2702, 2700, "mm", "2 mm"),
        (2134, 2108, "in", "1 1/2 in"),  # 7 ft; 6 ft 10 1/2, rounded down: 82.99 in
    ],
)
def test_what_lacks_is_the_difference_of_what_is_told(asked, there, unit, lack):
    """What is there is rounded down, and a lack of less than a step is not called none."""
    assert short_by(asked, there, unit) == lack
