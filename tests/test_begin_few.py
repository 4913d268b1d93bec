"""What few rooms need and begin asks for: people, dormers, beams in a slope, looks, low ends.

Each answer is read back from the file that it becomes, in mm.
"""

import pytest
from told_trials import TRIALS

from arrange.begin.interview import Interview
from arrange.begin.looks import looks_of
from arrange.begin.special import special_of
from arrange.data.colour import from_hex
from arrange.data.kinds import kinds
from arrange.scenario.read import read_text

pytestmark = pytest.mark.fast

SOMEBODY = "Does somebody live or stay here"
DORMER = "Is there a dormer"


def told(room, instead):
    """A trial with other answers where a question begins so, the first time it is asked."""
    before, left, given = Interview(answers=TRIALS[room].answers), dict(instead), []
    for question, answer in zip(before.asked, before.answers, strict=True):
        begun = next((b for b in left if question.startswith(b)), None)
        given += left.pop(begun) if begun else [answer]
    interview = Interview(answers=given)
    assert (interview.over, left) == (True, {}), interview.question
    return interview, read_text(interview.notes.text)


def at(room, begins, answers=()):
    """The conversation up to a question that begins so, and some answers on."""
    interview = Interview()
    for answer in TRIALS[room].answers:
        if interview.question.text.startswith(begins):
            break
        interview.answer(answer)
    for answer in answers:
        interview.answer(answer)
    return interview


GRANDMA = ["yes", "Grandma", "81", "no", "a walking stick", "yes", "yes"]
LEO = ["yes", "Leo", "eighteen months", "", "", "yes", "no"]


def test_people_are_in_the_file_as_told():
    """A walking stick is a stick; eighteen months are a year, and a child of one climbs."""
    interview, scenario = told("our bedroom", {SOMEBODY: [*GRANDMA, *LEO, "no"], "Is a tight": []})
    found = [
        (p.name, p.age, p.height, p.uses, p.climbs, p.up_at_night, p.sleeps_here)
        for p in scenario.people
    ]
    assert found == [
        ("Grandma", 81, None, "stick", False, True, True),
        ("Leo", 1, None, None, True, False, False),
    ]
    lines = interview.notes.text.split("\n")
    assert lines[lines.index("[[person]]") - 1].startswith("# ")


def test_what_was_said_of_somebody_is_what_enter_keeps():
    """The stick of the first answer, unless another answer takes it away; nobody else has it."""
    jo, ann = ["Jo is 76 and walks with a stick", "Jo", "76", ""], ["Ann", "70", "", "", "no"]
    for answer, uses in (("", "stick"), ("1", None)):
        people = [*jo, answer, "no", "yes", *ann, "no"]
        _, scenario = told("our bedroom", {SOMEBODY: people, "Is a tight": []})
        assert {p.name: p.uses for p in scenario.people} == {"Jo": uses, "Ann": None}


def test_how_tall_somebody_is_in_their_own_unit():
    """6 ft 5 = 77 in x 25.4 = 1955.8 mm."""
    tall = ["yes", "Tom", "", "6 ft 5", "", "no", "no"]
    _, scenario = told("l room", {SOMEBODY: tall})
    (tom,) = scenario.people
    assert (tom.name, tom.age, tom.height, tom.uses) == ("Tom", None, 1956, None)


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("no", "Is a tight fit"),
        ("nobody", "Is a tight fit"),
        ("", "Is a tight fit"),
        ("my father walks with a stick", "What do you call them?"),
        ("yes, a 2 year old", "What do you call them?"),
        ("2 small children", "What do you call them?"),
        ("yes, 80 cm", "Is a tight fit"),
        ("a metre", "Does the room have four"),
    ],
)
def test_the_one_question_before_all_about_people(words, asked):
    """A width is for the ways alone; ways of 90 cm have everything keep what is usual."""
    interview = at("our bedroom", SOMEBODY, [words])
    assert interview.question.text.startswith(asked), interview.question.text


def test_an_age_that_nobody_has_is_asked_again():
    """And a name is used once."""
    interview = at("our bedroom", SOMEBODY, ["yes", "Ada"])
    with pytest.raises(ValueError, match="from 0 to 120"):
        interview.answer("812")
    for answer in ("5", "", "", "", "", "yes"):
        interview.answer(answer)
    with pytest.raises(ValueError, match='There is a "ada" already'):
        interview.answer("ada")


def test_a_dormer_is_where_it_was_told():
    """In the slope from wall A, which rises from 110 cm to 235 cm over 2 m."""
    answers = ["yes", "1,20", "0.3", "2.20", "", "no"]
    interview, scenario = told("attic", {DORMER: answers})
    (dormer,) = scenario.room.dormers
    # The slope is 2200 high (2200 - 1100) x 2000 / 1250 = 1760 from the wall
    assert (dormer.height, dormer.offset) == (2200, 300)
    assert dormer.box == (300, 3050 - 1760, 1500, 3050)
    lines = interview.notes.text.split("\n")
    assert lines[lines.index("[[room.dormer]]") - 1].startswith("# ")


def test_a_window_in_a_dormer_may_have_to_open():
    """It is upright, so that it is asked; of one in the slope, as in the trial, nobody is."""
    opens = "Do you have to get to it, to open it?"
    before = Interview(answers=TRIALS["attic"].answers)
    assert opens not in before.asked
    interview = at("attic", DORMER, ["yes", "1,20", "middle", "2.20", "", "no"])
    after = next(i for i, asked in enumerate(before.asked) if asked.startswith(DORMER)) + 1
    for answer in before.answers[after:]:
        if interview.question.text == opens:
            break
        interview.answer(answer)
    assert interview.question.text == opens


def test_a_dormer_set_back_and_one_that_cannot_be():
    """A metre up the slope the ceiling is 1725 mm: a dormer of 150 cm is none."""
    low = ["yes", "1.2", "middle", "1.50", "1 m"]
    interview = at("attic", DORMER, low)
    assert "That dormer cannot be" in interview.told[-1]
    assert interview.question.text == "Is there a dormer in the slope?"
    _, scenario = told("attic", {DORMER: [*low, "yes", "1.2", "0.3", "2.2", "1 m", "no"]})
    (dormer,) = scenario.room.dormers
    assert dormer.box == (300, 3050 - 1760, 1500, 3050 - 1000)


def test_a_beam_that_slopes_with_the_ceiling():
    """It is so far below it, all along."""
    beam = ["a beam", "left", "1 m", "0.2", "15 cm below the ceiling", "a pipe in the corner"]
    _, scenario = told("attic", {"What is built in?": beam})
    (beam,) = scenario.room.beams
    assert (beam.drop, beam.box) == (150, (1000, 0, 1200, 3050))


@pytest.mark.parametrize(
    ("answers", "ends"),
    [
        (["level", "110"], (0, 1100)),
        (["lower on the left", "40", "110"], (400, 1100)),
        (["at the back", "0,6", "1,2"], (600, 1200)),
    ],
)
def test_boxed_stairs_may_be_lower_at_one_end(answers, ends):
    """How high at either end."""
    box = ["box over the stairs", "D", "80", "60", "left", *answers]
    box.append("a radiator under the window")
    _, scenario = told("our bedroom", {"What is built in?": box})
    found = next(f for f in scenario.room.fixtures if f.kind == "boxed stairs")
    assert (found.low_top, found.top) == ends
    if found.low_top:
        assert found.low_end == ("left" if ends[0] == 400 else "back")


def test_colours_tags_and_whose_it_is():
    """The bed leads, in a colour of which the file knows the value."""
    bed = ["dark green and it sets the colours", "looks calm and warm", "Grandma uses it", ""]
    instead = {SOMEBODY: [*GRANDMA, "no"], "Is a tight": [], "Is there anything special": bed}
    interview, scenario = told("our bedroom", instead)
    assert scenario.piece("oak bed").whose == ("Grandma",)
    (swatch,) = [s for s in scenario.scheme.swatches if s.name == "oak bed"]
    assert (swatch.lab, swatch.tags) == (from_hex("#033500"), ("calm", "warm"))
    assert scenario.scheme.lead == "oak bed"
    assert 'colour = "#033500"' in interview.notes.text


def test_one_piece_leads_and_it_has_a_colour():
    """What leads without one is asked for it; a second one is told of the first."""
    begins = "Is there anything special"
    interview = at("our bedroom", begins)
    with pytest.raises(ValueError, match="Give its colour too, please"):
        interview.answer("it sets the colours")
    for answer in ("brown", "it sets the colours", "", "rug", "", "", ""):
        interview.answer(answer)
    with pytest.raises(
        ValueError, match=("Only one piece can set the colours, and the oak bed does")
    ):
        interview.answer("red and sets the colours")


@pytest.mark.parametrize(
    ("words", "row"),
    [
        # Values of the survey, as matplotlib's own page of colours lists them.
        ("it is navy blue", {"colour": "#001146"}),
        ("light gray", {"colour": "#d8dcd6"}),
        ("its colour is teal", {"colour": "#029386"}),
        ("#46647A", {"colour": "#46647a"}),
        ("painted white", {"colour": "#ffffff"}),
        ("beige, and everything else should match it", {"colour": "#e6daa6", "lead": True}),
        ("it feels cosy, soft and warm", {"tags": ["cosy", "soft", "warm"]}),
        ("it's Ada's", {"whose": "Ada"}),
        ("Ada sleeps in it", {"whose": "Ada"}),
        ("for Ada and Grandma Jo", {"whose": ["Ada", "Grandma Jo"]}),
        ("belongs to Grandma Jo", {"whose": "Grandma Jo"}),
        # These are no colours and no owners.
        ("it's oval", {"shape": "oval"}),
        ("it looks away from the wall", {"stands": "free"}),
        ("in a corner", {"stands": "corner"}),
        ("away from the walls", {"stands": "free"}),
    ],
)
def test_looks_and_owners_as_people_say_them(words, row):
    """Beside what else may be said of a piece."""
    assert special_of(words, "cm", kinds()["desk"], (), ("Ada", "Grandma Jo")) == row


def test_a_colour_that_is_not_known_is_asked_back():
    """Rather than left out."""
    with pytest.raises(ValueError, match='"glimmer" is not a colour we know'):
        looks_of("its colour is glimmer")
    with pytest.raises(ValueError, match="Up to 6 plain words"):
        looks_of("looks a, b, c, d, e, f and g")
