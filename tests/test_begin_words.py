"""What stopped who typed rooms into `arrange begin` for the first time, and is understood now.

Each question is the one of a trial in ``told_trials``; the words are of those who were stopped.
"""

from contextlib import nullcontext

import pytest
from told_trials import TRIALS

from arrange.begin.answers import a_number, length_of, yes_of
from arrange.begin.interview import Interview
from arrange.begin.near_words import meant
from arrange.begin.sentences import wish_of
from arrange.begin.special import special_of
from arrange.begin.sums import money
from arrange.data.kinds import kinds
from arrange.scenario.read import read_text

pytestmark = pytest.mark.fast


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("two metres fifty", "cm", 2500),
        ("about a metre", "cm", 1000),
        ("a metre and a half", "m", 1500),
        ("half a metre", "cm", 500),
        ("a hundred and twenty", "cm", 1200),
        ("twenty-five", "cm", 250),
        ("2,35 at the highest", "m", 2350),
        ("it's eighty wide, I think", "cm", 800),
        ("seven and a half feet", "in", 2286),
        ("two foot three", "in", 686),
        ("eleven feet and four inches", "in", 3454),
        ("a yard", "in", 914),
        ("a yard and a half", "in", 1372),
        ("8 1/2 feet", "in", 2591),
        ("9 ft. 4 in.", "in", 2845),
        ("3,62 m (measured twice)", "cm", 3620),
        ("a bit over two metres", "cm", 2000),
    ],
)
def test_lengths_in_words(text, unit, mm):
    """Feet: 90 x 25.4 = 2286; 27 in = 685.8; 136 in = 3454.4; 54 in = 1371.6; 112 in = 2844.8."""
    assert length_of(text, unit, 10, 20_000) == mm


@pytest.mark.parametrize(
    ("text", "meant_so"),
    [
        ("yes please", True),
        ("of course", True),
        ("we do", True),
        ("it is", True),
        ("yes we have both", True),
        ("nobody", False),
        ("not yet", False),
        ("no, it's L-shaped", False),
        ("it doesn't", False),
        ("I don\u2019t think so", False),
        ("my father walks with a stick", None),
        ("not sure", None),
        ("perhaps", None),
    ],
)
def test_yes_and_no_as_people_say_them(text, meant_so):
    """What is neither is asked again, or left as usual."""
    assert yes_of(text) is meant_so


def at_the_question(room, begins):
    """The conversation up to a question that begins so."""
    interview = Interview()
    for answer in TRIALS[room].answers:
        if interview.question.text.startswith(begins):
            return interview
        interview.answer(answer)
    raise AssertionError(begins)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        # A door of 80 cm in a wall of 362 cm.
        ("30", 300),
        ("in the left corner", 0),
        ("at the right-hand end", 2820),
        ("30 cm from the right", 2520),
        ("30 cm from the right-hand corner", 2520),
        ("a metre from the left", 1000),
        ("in the middle of the wall", 1410),
        ("30 cm from wall D", 2520),  # at the right end of wall C, as you face it
        ("20 cm from the right wall", 200),  # and the right one, B, at its left end
    ],
)
def test_where_on_a_wall_something_is(text, mm):
    """From either end, by the wall that is next to it, or centred."""
    interview = at_the_question("our bedroom", "How far is its left edge")
    assert interview.question.answered(text) == mm


def at_the_radiator():
    """Where its left edge is asked for: 100 cm on wall A, which has the window."""
    interview = at_the_question("our bedroom", "What is built in?")
    for answer in ("radiator", "A", "a metre", ""):
        interview.answer(answer)
    return interview


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("under the window", 1310),
        ("20 left of the window", 1130 - 200 - 1000),
        ("right of the window", 1130 + 1360),
    ],
)
def test_where_on_a_wall_something_is_by_what_is_there(text, mm):
    """A radiator of 100 cm on a wall of 362 cm, with a window of 136 cm from 113 cm on."""
    interview = at_the_radiator()
    if 0 <= mm <= 2620:
        assert interview.question.answered(text) == mm
    else:
        with pytest.raises(ValueError, match="from 0 cm to 262 cm"):
            interview.question.answered(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [("in the corner", "In which corner?"), ("20 from the window", "On which side of it?")],
)
def test_where_on_a_wall_is_asked_back_where_it_could_be_two_places(text, said):
    """Rather than left taken for granted."""
    interview = at_the_radiator()
    with pytest.raises(ValueError, match=said):
        interview.question.answered(text)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("a radiator", "Which wall"),
        ("a radiator opposite the door", "How wide is it?"),
        ("a radiator on the left wall", "How wide is it?"),
        ("a radiator in the corner", "Which wall"),
        ("a radiator under the stairs", "Which wall"),
    ],
)
def test_where_something_is_built_in_can_be_said_at_once(text, asked):
    """Then the wall is not asked for; a corner or what is not there says no wall."""
    interview = at_the_question("our bedroom", "What is built in?")
    interview.answer(text)
    assert interview.question.text.startswith(asked)


@pytest.mark.parametrize(
    ("text", "wall"),
    [
        ("opposite the door", "A"),
        ("the one across from the door", "A"),
        ("the back wall", "C"),
        ("on the right wall", "B"),
        ("same as the door", "C"),
        ("the window wall", "A"),  # before the window is told: so the walls were begun
        ("opposite wall B", "D"),
    ],
)
def test_which_wall_something_is_on(text, wall):
    """By letter, by side, by what is on it or opposite it; its door is in wall C."""
    interview = at_the_question("our bedroom", "Which wall is the window in?")
    assert interview.question.answered(text) == wall


def test_a_diagonal_that_makes_a_room_lean_is_asked_about():
    """Square corners make 561 cm of 362 and 428; who means it can say so."""
    interview = at_the_question("our bedroom", "Are the corners square?")
    interview.answer("250")
    assert "With square corners that would be 561 cm" in interview.question.text
    interview.answer("no")
    assert interview.question.text.startswith("Are the corners square?")
    interview.answer("5,30")
    interview.answer("yes")
    assert interview.notes.scenario().survey.checks == 1


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("2 m wide", (2000,)),
        ("2 m", (2000,)),
        ("60 deep", (None, 600)),
        ("2 m wide and 60 deep, 2.10 high", (2000, 600, 2100)),
        ("width 180, depth don't know", (1800,)),
        ("180 x 60", (1800, 600)),
        ("180 x 60 x 2.1 m", (1800, 600, 2100)),
        ("1.8 x 0.6 x 2.1 m", (1800, 600, 2100)),
        ("don't know", ()),
    ],
)
def test_sizes_as_people_say_them(text, size):
    """One, two or three of them; what was not said stays usual."""
    interview = at_the_question("our bedroom", "How large is the wardrobe")
    assert interview.question.answered(text) == size


@pytest.mark.parametrize(
    ("text", "kind", "called"),
    [
        ("telly on a low cabinet", "tv unit", "telly"),
        ("an armchair to read in", "armchair", "armchair"),
        ("a corner sofa with the long end on the right", "corner sofa", "corner sofa"),
        ("wardrobe with sliding doors", "sliding wardrobe", "wardrobe with sliding doors"),
        ("sofa for two", "small sofa", "sofa for two"),
        ("old chest of drawers", "chest of drawers", "old chest of drawers"),
        ("two chests of drawers", "chest of drawers", "chest of drawers"),
        ("round table 1.10 across", "round table", "round table"),
        ("desk, 90 by 55", "desk", "desk"),
        ("three seater sofa", "sofa", "three seater sofa"),
        ("table for 5", "dining table for six", "dining table for six"),
        ("sit-stand desk", "standing desk", "sit-stand desk"),
    ],
)
def test_a_piece_with_more_told_of_it(text, kind, called):
    """What it is counts; what is told of it is asked for, or left out."""
    found = meant(text)
    assert (found.clear, found.words) == (kind, called)


def test_a_name_of_ones_own():
    """However that is said."""
    for text in ("bean bag called Hippo", "bean bag, we call it Hippo", "bean bag known as Hippo"):
        assert (meant(text).name, meant(text).clear) == ("Hippo", "bean bag")


PIECES = {
    "bed": "bed",
    "oak bed": "bed",
    "wardrobe": "wardrobe",
    "telly": "telly",
    "dining table for six": "dining table for six",
    "coffee table": "coffee table",
}
PLACES = {
    "door": "door",
    "window": "window",
    "arch to the kitchen": "arch to the kitchen",
    "wall b": "B",
} | PIECES


@pytest.mark.parametrize(
    ("sentence", "wish"),
    [
        ("I want to see the door from the bed", {"piece": "bed", "in_view_of": "door"}),
        ("telly where I can see it from the bed", {"piece": "bed", "in_view_of": "telly"}),
        ("bed where we can see the window", {"piece": "bed", "in_view_of": "window"}),
        (
            "the wardrobe must not be next to the window",
            {"piece": "wardrobe", "away_from": "window"},
        ),
        (
            "the wardrobe shouldn't stand by the window",
            {"piece": "wardrobe", "away_from": "window"},
        ),
        ("I don't want the wardrobe by the window", {"piece": "wardrobe", "away_from": "window"}),
        ("keep the wardrobe away from the door", {"piece": "wardrobe", "away_from": "door"}),
        ("the telly not in front of the window", {"piece": "telly", "away_from": "window"}),
        ("the bed must face the telly", {"piece": "bed", "facing": "telly"}),
        ("put the bed in front of the window", {"piece": "bed", "near": "window"}),
        (
            "dining table close to the kitchen",
            {"piece": "dining table for six", "near": "arch to the kitchen"},
        ),
        ("bed in a corner", {"piece": "bed", "stands": "corner"}),
        ("bed across a corner", {"piece": "bed", "stands": "across"}),
        ("coffee table in the middle of the room", {"piece": "coffee table", "stands": "free"}),
        ("bed with its back to wall B", {"piece": "bed", "against": "B"}),
        ("bed with its back to the wall", {"piece": "bed", "stands": "wall"}),
        ("head of the bed against wall B", {"piece": "bed", "against": "B"}),
        ("no wardrobe next to the bed", {"piece": "wardrobe", "away_from": "bed"}),
        ("bed as far as possible from the door", {"piece": "bed", "away_from": "door"}),
        ("bed close to the window so I can read", {"piece": "bed", "near": "window"}),
        (
            "bed away from the door by at least 50 cm",
            {"piece": "bed", "away_from": "door", "at_least": 500},
        ),
    ],
)
def test_wishes_turned_round(sentence, wish):
    """The piece comes first, whatever comes first in the sentence."""
    assert wish_of(sentence, PIECES, PLACES, "cm") == wish


@pytest.mark.parametrize(
    ("sentence", "said"),
    [
        ("table near the door", 'could be more than one of these: "dining table for six" or'),
        ("nothing in front of the window", "A wish is about one of your pieces"),
        ("bed with its back to the door", "Say what it should face"),
        ("I don't want to see the bed from the door", "something to be out of sight"),
        ("telly not opposite the window", "You can rule out only"),
    ],
)
def test_wishes_that_are_asked_back(sentence, said):
    """One table of two is not taken for granted, nor near for back to back."""
    with pytest.raises(ValueError, match=said):
        wish_of(sentence, PIECES, PLACES, "cm")


@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("80 free in front, better 1 m", {"front": {"least": 800, "comfortable": 1000}}),
        ("no floor needed on the left", {"left": False}),
    ],
)
def test_floor_to_keep_free_or_not(words, row):
    """The least, what would be better, and none."""
    assert special_of(words, "cm", kinds()["bookcase"]) == {"clearance": row}


@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("rounded corners 20 cm", {"shape": "rounded corners", "corner": 200}),
        ("its corners are cut off by 15", {"shape": "cut corners", "corner": 150}),
        ("it's oval", {"shape": "oval"}),
        ("it is the main piece", {"major": True}),
        ("also used for storing toys", {"used_for": ["store", "play"]}),
        ("it gets plenty of space", {"keep_to": "usual"}),
        ("a tight fit will do", {"keep_to": "bare"}),
        ("nothing special", {}),
    ],
)
def test_what_else_a_file_can_say_of_a_piece(words, row):
    """All that a person would say of it, in a sentence."""
    assert special_of(words, "cm", kinds()["desk"]) == row


def test_a_fire_can_be_set_into_its_wall():
    """What does not burn stands out by something; "0" is asked again there."""
    for kind, deep in (("fireplace", [0]), ("radiator", [])):
        interview = at_the_question("our bedroom", "What is built in?")
        for answer in (kind, "A", "60"):
            interview.answer(answer)
        assert ("set into it" in interview.question.text) == (kind == "fireplace")
        with nullcontext() if deep else pytest.raises(ValueError, match="1 cm"):
            interview.answer("0")
        for answer in ("20", "", "") if deep else ():
            interview.answer(answer)
        rows = interview.notes.rows("fixture")
        assert [row["depth"] for row in rows if row["kind"] == kind and "depth" in row] == deep


@pytest.mark.parametrize(
    ("sentence", "key", "value"),
    [
        ("the door is 190 cm high", "height", 1900),
        ("it is a stable door", "stable", True),
        ("keep 30 cm free in front of the radiator", "keep_free", 300),
        ("a bench may stand in front of the radiator", "seat_before", True),
        ("the radiator is 20 cm above the floor", "bottom", 200),
        ("the radiator is 4 cm off the wall", "off_wall", 40),
        ("the radiator is 50 cm high", "height", 350),  # from 15 cm up
    ],
)
def test_what_else_a_file_can_say_of_what_is_fixed(sentence, key, value):
    """One question for all of them; what was said is in the file."""
    interview = at_the_question("our bedroom", "Is there anything else about")
    before, given = interview.notes.text, len(interview.answers)
    interview.answer(sentence)
    assert interview.question.text.startswith("Anything else")
    assert interview.notes.text != before
    rows = [*interview.notes.rows("door"), *interview.notes.rows("fixture")]
    assert [row[key] for row in rows if key in row and row[key] == value]
    interview.answer("")
    for answer in TRIALS["our bedroom"].answers[given + 1 :]:
        interview.answer(answer)
    assert interview.over
    assert read_text(interview.notes.text).room.fixtures


@pytest.mark.parametrize(
    ("text", "many"),
    [
        ("just one", 1),
        ("one, to the hall", 1),
        ("a couple", 2),
        ("there are three", 3),
        ("2 of them", 2),
        ("none at all", 0),
        ("zero", 0),
        ("a roof window", 1),
    ],
)
def test_how_many_as_people_say_it(text, many):
    """The number may stand anywhere."""
    assert a_number("How many?", 0, 12).answered(text) == many


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("600 at most", 600, ""),
        ("about 60 euros", 60, "EUR"),
        ("$350 at most", 350, "$"),
        ("600,-", 600, ""),
        ("1.5k", 1500, ""),
        ("a hundred", 100, ""),
        ("£1,200", 1200, "£"),
    ],
)
def test_sums_as_people_say_them(text, amount, currency):
    """Said back, so that a slip is seen."""
    question = money("What does it cost?", "not known yet")
    value = question.answered(text)
    assert value == (amount, currency)
    assert f"{amount:,}" in question.said(value)


@pytest.mark.parametrize("text", ["table and 4 chairs", "sofa and armchair"])
def test_two_kinds_at_once_are_asked_one_by_one(text):
    """Neither is lost in the other."""
    interview = at_the_question("our bedroom", "What goes in the room?")
    with pytest.raises(ValueError, match="One kind at a time"):
        interview.answer(text)


def test_ways_of_a_width_of_ones_own():
    """A number for an answer to a yes or no."""
    interview = at_the_question("our bedroom", "Does somebody live or stay here")
    interview.answer("yes, 80 cm")
    assert interview.notes.tables["walkway"] == 800
