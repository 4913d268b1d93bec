"""Sentences that say before and after, now and before, and lengths to the millimetre."""

import pytest

from arrange.data.lengths import length
from arrange.data.result import Reason
from arrange.data.sources import Source
from arrange.data.swap import Compared, Moved, Stand
from arrange.words.swap import compared_words, where_it_went

pytestmark = pytest.mark.fast


def reason(won, measured):
    """A reason with so many tenths of 120."""
    source = Source("common-practice", "common practice, no source", "common practice")
    return Reason("daylight", ("desk",), "The desk has light", measured, "", won, 120, source)


def test_points_and_measures_before_come_before_those_after():
    """From 3.0 to 9.0 of 12.0 points, from 2 m to 1 m."""
    told = compared_words(Compared("daylight", ("desk",), reason(30, "2 m"), reason(90, "1 m")))
    assert told == (
        "The desk has light (2 m before, 1 m after; 3.0 points before, 9.0 after, of 12.0)"
    )


@pytest.mark.parametrize("move", ["moved", "changed"])
def test_where_a_piece_stands_now_comes_before_where_it_stood(move):
    """From wall A to wall B."""
    one = Moved("desk", move, "desk", 900, Stand("down", "A"), Stand("left", "B"))
    assert where_it_went(one, "cm") == "now on wall B, before on wall A"


def test_no_millimetre_of_a_length_is_hidden():
    """Every last digit, in centimetres."""
    told = [length(1420 + mm, "cm") for mm in range(10)]
    assert told == ["142 cm", *(f"142.{mm} cm" for mm in range(1, 10))]
