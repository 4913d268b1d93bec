"""What the flow as a whole tells beside the arrangements."""

from __future__ import annotations

import pytest

from arrange import read_text, suggest

ONE_WAY = """
title = "One way only"
unit = "cm"

[room]
size = [300, 300]
ceiling = 240

[[door]]
wall = "C"
from_left = 20
width = 80

[[piece]]
name = "wardrobe"
kind = "wardrobe"

[[wish]]
piece = "wardrobe"
against = "A"
must = true
"""


def test_fewer_than_asked_for_says_that_there_are_no_others():
    """The wardrobe must stand on A: a second different arrangement does not exist."""
    result = suggest(read_text(ONE_WAY, "one-way.toml"), top=3, seconds=20)
    assert len(result.suggestions) == 1
    assert result.notes[0] == "3 asked for, 1 found: no other different arrangement exists"


def test_as_many_as_asked_for_needs_no_word():
    """Nothing to explain when the number is met."""
    assert suggest(read_text(ONE_WAY, "one-way.toml"), top=1, seconds=20).notes == ()


@pytest.mark.fast
@pytest.mark.parametrize(("top", "seconds"), [(0, 1.0), (1, 0.0)])
def test_asking_for_nothing_is_refused(top, seconds):
    """At least one arrangement, and some time."""
    with pytest.raises(ValueError, match=r"ask for 1 or more|allow more than 0"):
        suggest(read_text(ONE_WAY, "one-way.toml"), top=top, seconds=seconds)


@pytest.mark.parametrize(
    ("kind", "outcome"), [("chest of drawers", "impossible"), ("plant", "proven")]
)
def test_a_room_narrower_than_its_walkway_is_an_answer(kind, outcome):
    """Nothing to walk to but the door, or a chest that nobody gets to (it once crashed)."""
    text = f"""
    walkway = 80
    [room]
    size = [300, 75]
    [[door]]
    wall = "D"
    from_left = 2
    width = 70
    opens = "out"
    [[piece]]
    kind = "{kind}"
    width = 60
    depth = 10
    """
    assert suggest(read_text(text), seconds=10).outcome == outcome
