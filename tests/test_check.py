"""Which pieces cannot fit whatever happens, and why."""

from pathlib import Path

import pytest
from file_rooms import room_file

from arrange.data.result import Alone, Checked
from arrange.scenario.read import read, read_text
from arrange.suggesting import suggest
from arrange.whatif.check import check
from arrange.words.check import finding_words, impossible_words, words

# 2.4 m x 2 m, door at the right end of the bottom wall, opening out: no swing inside.
# Ways 60 wide, as is usual.
CLOSET = 'keep_to = "usual"\n' + room_file(240, 200, opens="out")


def thing(width, depth, more="", name="thing"):
    """A piece of any size, 50 high, with its back to a wall."""
    return (
        f'[[piece]]\nname = "{name}"\nkind = "other piece"\nwidth = {width}\ndepth = {depth}\n'
        f"height = 50\n{more}\n"
    )


def answers(text, **more):
    return {f.piece: f.answer for f in check(read_text(text), **more).findings}


def only_sentence(text):
    found = check(read_text(text))
    told = impossible_words(found)
    assert len(told) == 1, found
    return told[0]


def test_pieces_that_fit_alone_are_fine_even_if_not_together():
    """Five alike things of 100 x 90 take more floor than there is, but each one fits."""
    found = check(read_text(CLOSET + thing(100, 90, "count = 5")))
    assert found.fine
    assert impossible_words(found) == ()


@pytest.mark.parametrize(("depth", "fits"), [(140, True), (141, False)])
def test_a_body_is_refused_from_the_first_centimetre_too_many(depth, fits):
    """The door's floor takes 60 of the 200 below wall A; on B and D it takes as much.

    A thing 240 wide spans the room, so that 140 in depth are left before the door.
    """
    found = check(read_text(CLOSET + thing(240, depth)))
    assert found.fine is fits
    if not fits:
        assert "it is too large wherever it may stand" in impossible_words(found)[0]
        assert impossible_words(found)[0].startswith(
            "The thing (240 x 141 x 50 cm) has nowhere to stand"
        )


def test_floor_to_use_a_piece_counts():
    """The body fits 20 deep, but not with 185 before it: 205 is more than 200 and no less wide."""
    sentence = only_sentence(
        CLOSET + thing(210, 20, 'clearance.front = { least = 185, purpose = "to lie before it" }')
    )
    assert sentence.endswith("the floor needed to use it: 185 cm in front of it to lie before it.")


def test_a_wish_that_must_hold_counts_and_is_named():
    """A thing of 230 fits along walls A and C of 240, not along B of 200."""
    wish = '[[wish]]\npiece = "thing"\nagainst = "B"\nmust = true\n'
    assert check(read_text(CLOSET + thing(230, 30))).fine
    sentence = only_sentence(CLOSET + thing(230, 30) + wish)
    assert sentence.endswith("as long as you ask for this: the thing stands against wall B.")


def test_a_wish_that_may_be_lost_does_not_count():
    """Only musts make a piece impossible."""
    wish = '[[wish]]\npiece = "thing"\nagainst = "B"\n'
    assert check(read_text(CLOSET + thing(230, 30) + wish)).fine


def test_a_way_that_cannot_be_is_told():
    """King bed in 250 x 310: 272 across with both sides, and lengthways no 60 wide way passes."""
    found = check(read(Path(__file__).parent.parent / "scenarios" / "too-much.toml"))
    assert "no walkway 60 cm wide would lead to every side" in impossible_words(found)[0]
    told = {f.piece: f.answer for f in found.findings}
    assert told["bed"] == "cannot fit"
    assert told["bedside table 1"] == "not looked at"
    assert told["wardrobe"] == "fits"


def test_a_room_that_fails_without_pieces_is_told_once():
    """A solid column before the second door: the first sentence is about the room."""
    text = CLOSET + (
        '[[door]]\nname = "far door"\nwall = "A"\nfrom_left = 20\nwidth = 80\nopens = "out"\n'
        '[[fixture]]\nkind = "column"\nat = [0, 95]\nwidth = 240\ndepth = 10\n'
    )
    found = check(read_text(text + thing(50, 30)))
    assert impossible_words(found)[0].startswith("Even without any furniture: ")
    assert "far door" in impossible_words(found)[0]
    assert {f.answer for f in found.findings} == {"not looked at"}


def test_out_of_time_is_not_impossible():
    """Without any time nothing is decided, and nothing is said to be impossible."""
    found = check(read_text(CLOSET + thing(230, 190)), seconds=0)
    assert impossible_words(found) == ()
    assert not found.fine
    assert "may fit or not: the time ran out" in finding_words(found.findings[0], found.scenario)


def test_being_asked_to_stop_leaves_the_rest_undecided():
    """Ctrl-C is no proof either."""
    text = CLOSET + thing(100, 50)
    assert answers(text, stop=lambda: True) == {"thing": "not decided"}


@pytest.mark.parametrize("more", [thing(240, 141), thing(230, 190)])
def test_what_cannot_fit_alone_makes_the_whole_impossible(more):
    """The solver with everything in the room agrees."""
    text = CLOSET + more + thing(40, 30, name="box")
    assert check(read_text(text)).impossible
    assert suggest(read_text(text), top=1, seconds=60).outcome == "impossible"


def test_chairs_that_go_with_one_table_are_told_together():
    """Four lines that say the same are read as a fault of four chairs."""
    text = """
[room]
size = [400, 500]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "dining table for four"
[[piece]]
kind = "dining chair"
count = 4
"""
    case = read_text(text)
    table = case.pieces[0].name
    waiting = tuple(Alone(p.name, "not looked at", others=(table,)) for p in case.pieces[1:])
    told = " ".join(words(Checked(case, (), waiting)).split())
    assert f"Dining chairs 1 to 4 go with the {table} and were not looked at by themselves." in told
