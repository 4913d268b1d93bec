"""`arrange begin` without a terminal: five rooms told, back, the draft, slips, words, pictures."""

import random
import re
from contextlib import suppress
from functools import cache

import pytest
from told_rooms import ROOMS
from told_trials import TRIALS

import arrange
from arrange.begin.answers import handy, length_of, spoken
from arrange.begin.interview import Interview, answers_in, resumed
from arrange.begin.near_words import meant, takes_no_floor
from arrange.begin.sentences import wish_of
from arrange.begin.sketch import HIGH, WIDE, sketch
from arrange.begin.special import special_of
from arrange.begin.sums import money_of
from arrange.data.kinds import kinds
from arrange.data.lengths import parse
from arrange.errors import ScenarioError
from arrange.scenario.needs import read_open_text
from arrange.scenario.outline import rectangle, walls
from arrange.scenario.read import read_text

pytestmark = pytest.mark.fast

EVERY = ROOMS | TRIALS


def told(room, until=None):
    """The conversation with the answers of a room, or until a question that begins so.

    Where an answer is none, the next one is given to the same question.
    """
    interview = Interview()
    for answer in EVERY[room].answers:
        if until and interview.question.text.startswith(until):
            break
        with suppress(ValueError):
            interview.answer(answer)
    return interview


@cache
def taken(room):
    """The answers of a room that answer a question."""
    return tuple(told(room).answers)


def one_sentence(text):
    """Ends like a sentence, on one line, and is not a traceback in disguise."""
    begun = text[0].isupper() or text[0] in '"-0123456789'
    return begun and text[-1] in ".?" and "\n" not in text


@pytest.fixture(scope="module", params=ROOMS)
def finished(request):
    """Each room told to its end, with the scenario read from the file made of it."""
    interview = told(request.param)
    assert interview.over, interview.question
    return ROOMS[request.param], interview, arrange.read_text(interview.notes.text)


def test_a_room_told_has_the_walls_that_were_measured(finished):
    """To the millimetre, or as near as a slip that was spread."""
    room, _, scenario = finished
    there = {wall.name: round(wall.length) for wall in scenario.room.walls}
    for name, mm in room.walls.items():
        assert abs(there[name] - mm) <= room.slip, name


def test_a_room_told_has_its_doors_and_windows_where_they_are(finished):
    """Each with its distance from the left end of its wall, and its width."""
    room, _, scenario = finished
    plan = scenario.room
    there = {o.name: (o.offset, o.width) for o in (*plan.doors, *plan.windows, *plan.fixtures)}
    for name, place in room.openings.items():
        assert all(abs(a - b) <= 1 for a, b in zip(there[name], place, strict=True)), name


def test_a_room_told_has_its_pieces_as_large_as_was_said(finished):
    """By the names that the person uses."""
    room, _, scenario = finished
    there = {p.name: (p.kind, p.width, p.depth, p.height) for p in scenario.pieces}
    for name, piece in room.pieces.items():
        assert there[name] == piece


def test_a_room_told_knows_the_rest(finished):
    """Use, feel, wishes, money, ways, what stays."""
    room, _, scenario = finished
    found = {
        "use": scenario.use,
        "feel": scenario.feel,
        "wishes": len(scenario.wishes),
        "budget": scenario.money.budget,
        "walkway": scenario.walkway,
        "held": {placement.piece for placement in scenario.held},
        "main": scenario.room.main_door.name,
    }
    assert {key: found[key] for key in room.more} == room.more


def test_the_file_says_what_each_part_is(finished):
    """A comment above every part, and no key that needs a look at the manual to be found."""
    _, interview, _ = finished
    text = interview.notes.text
    for head in re.findall(r"^\[+([a-z]+)\]+$", text, re.MULTILINE):
        before = text[: re.search(rf"^\[+{head}\]+$", text, re.MULTILINE).start()]
        assert before.rstrip().split("\n")[-1].startswith("# "), head


def test_the_particulars_of_the_bedroom():
    """Hinge, sill, money, wishes with their weights, where the wardrobe stands."""
    scenario = arrange.read_text(told("bedroom").notes.text)
    (door,), (window,) = scenario.room.doors, scenario.room.windows
    assert (door.opens, door.hinge, window.sill, window.head) == ("in", "left", 900, 2100)
    assert window.must_open
    assert not window.escape
    bed = scenario.piece("bed")
    assert (bed.owned, bed.buy, bed.price, bed.delivery) == (False, "second-hand", 400, 50)
    assert scenario.money.currency == "EUR"
    wished = [(w.piece, w.relation, w.place, w.distance, w.must, w.weight) for w in scenario.wishes]
    assert wished == [
        ("bed", "away from", "door", 1000, False, 20),
        ("old oak wardrobe", "not against", "C", None, True, 10),
        ("tv", "facing", "bed", None, False, 10),
    ]
    assert scenario.costs.untouchable == ("bed",)
    (today,) = scenario.today
    assert (today.piece, scenario.room.walls[today.wall].name) == ("old oak wardrobe", "D")
    assert scenario.piece("nightstand 1").assumed
    assert not bed.assumed


def test_the_particulars_of_the_other_rooms():
    """A passage that slides, a slant, hinges, a clearance, a corner, a light, a screen."""
    front = arrange.read_text(told("front room").notes.text)
    assert front.room.ceiling == parse("9 ft", "in")
    assert front.room.doors[0].hinge == "right"
    assert front.wishes[0].must
    assert front.wishes[0].place == "fireplace"
    assert str(front.piece("round table").price) == "89.90"
    flat = arrange.read_text(told("flat").notes.text)
    assert [c.least for c in flat.piece("desk").clearances if "front" in c.sides] == [1000]
    assert flat.wishes[0].distance == 1500
    assert flat.wishes[0].place == "east window"
    assert flat.costs.untouchable == ("bookcase", "walkway")
    (light,) = [f for f in flat.room.fixtures if f.kind == "light point"]
    assert light.corners[0] == (3100, 2100)
    assert flat.survey.checks == 1
    nursery = arrange.read_text(told("nursery").notes.text)
    assert nursery.room.doors[0].opens == "sliding"
    assert nursery.piece("dresser").stands == "corner"
    assert nursery.piece("changing table").buy == "make over"
    dining = arrange.read_text(told("dining room").notes.text)
    assert dining.room.walls[2].facing is None
    assert [d.opens for d in dining.room.doors] == ["out", "in"]
    assert dining.piece("chair 1").price == 45


AS_BUILT = """
    Garden room         # name, unit, use, feel, ways, fit



    no
    yes
    yes
    400                 # four walls, ceiling, no slope, no bay, no breast
    500




    no
    no
    no
    2                   # a double door, and one that slides on the wall
    hall door
    C
    140
    20
    in
    yes
    side door
    B
    80
    middle
    it slides along the wall in this room
    right
    hall door
    2                   # a French window, and one with curtains that tilts
    garden door
    A
    160
    middle
    0
    220
    no
    no
    yes
    out
    yes

    D
    100
    middle



    no
    it tilts, curtains 20 cm
    closet
    B
    120
    60
    left
    sliding
    stairs
    D
    90
    200
    right
    left
    no
    yes
    220
    hanging lamp
    200
    300
    40
    160
    a fan
    300
    400
    120
    215
    beam
    C
    250
    20
    220
    box over the stairs
    D
    80
    60
    left
    lower on the right
    45
    110
    hatch
    150
    150
    60
    60
    none

    sofa






    no more



    yes
"""


def test_doors_windows_and_what_is_built_in_as_built():
    """Two leaves, a leaf along the wall, a French window, tilting, curtains, stairs, a hatch."""
    lines = AS_BUILT.strip("\n").split("\n")
    interview = Interview(answers=[line.partition("#")[0].strip() for line in lines[:-1]])
    assert interview.over, interview.question
    room = arrange.read_text(interview.notes.text).room
    hall, side = room.doors[:2]
    assert (hall.leaves, hall.opens, side.opens, side.hinge) == (
        2,
        "in",
        "sliding on the wall",
        "right",
    )
    french, other = room.windows
    assert french.sill == 0
    assert "french = true" in interview.notes.text
    assert (other.tilts, other.curtains) == (True, 200)
    closet, stairs, lamp, fan, box, hatch = room.fixtures
    assert (closet.doors, stairs.steps, stairs.guarded) == ("sliding", "left", False)
    assert stairs.underside == 2200
    assert [(b.box, b.height) for b in room.beams] == [((0, 2500, 4000, 2700), 2200)]
    assert (lamp.kind, lamp.corners[0], lamp.bottom) == ("pendant light", (1800, 2800), 1600)
    assert (fan.kind, fan.width, fan.bottom) == ("ceiling fan", 1200, 2150)
    assert (box.kind, box.width, box.top) == ("boxed stairs", 800, 1100)
    assert (box.low_end, box.low_top) == ("right", 450)
    assert (hatch.kind, hatch.wall) == ("hatch", None)


def test_a_beam_that_cannot_be_leaves_nothing_in_the_file():
    """It would end 510 cm from wall C, in a room 500 deep; then it is asked again."""
    lines = [line.partition("#")[0].strip() for line in AS_BUILT.strip("\n").split("\n")]
    before = lines[: lines.index("beam") + 1]
    interview = Interview(answers=[*before, "C", "490", "20", "220"])
    assert interview.question.text == "Along which wall does it run?"
    assert "It reaches 510 cm in from wall C" in interview.told[-1]
    assert "beam" not in interview.notes.text


@pytest.mark.parametrize(
    ("sill", "asked"), [("20", "Is it a French"), ("20.1", "Does it tilt"), ("25", "Does it tilt")]
)
def test_no_french_window_is_offered_that_the_file_would_refuse(sill, asked):
    """Over a step of more than 20 cm the reader of files lets nobody walk out."""
    interview = told("bedroom", "How high above the floor is its sill?")
    for answer in (sill, "", "", ""):
        interview.answer(answer)
    assert interview.question.text.startswith(asked)
    if asked == "Is it a French":
        interview.answer("yes")
        interview.answer("in")
        interview.answer("yes")
        assert interview.notes.scenario().room.windows[0].french


def test_a_slip_is_spread_and_said():
    """Two walls an inch apart: how much, and which to take again."""
    interview = told("nursery", "Are the corners square?")
    interview.answer("")
    said = " ".join(interview.told)
    assert "end 1 in from where they began" in said
    assert "shared out" in said
    assert "Measure wall A again" in said
    interview.answer("9'5")  # measured again: it was the first one
    assert "9 ft 5" in " ".join(interview.told)
    scenario = interview.notes.scenario()
    assert [round(w.length) for w in scenario.room.walls] == [2870, 3404, 2870, 3404]
    assert interview.question.text.startswith("How high is the ceiling")


def test_walls_that_may_be_out_of_square_are_told_apart_by_the_diagonals():
    """4.10 opposite 3.98, 3.24 deep: both readings, both walls, and then what tells.

    A trapezium with sides alike has diagonals of the root of 3.98 x 4.10 + 3.24 x 3.24: 5.178.
    """
    before = ["Old house", "m", "bedroom", "", "no", "", "yes"]
    interview = Interview(answers=[*before, "4.10", "3.24", "3.98", "3.24", ""])
    said = " ".join(interview.told)
    assert "Either the room is out of square" in said
    for wall in "AC":
        assert interview.question.text.startswith(f"If you measure wall {wall} again")
        interview.answer("")
    assert "from the left end of wall A to the left end of wall C" in interview.question.text
    interview.answer("5.178")
    scenario = interview.notes.scenario()
    assert scenario.survey.readings is None
    off = [abs(angle - 900) for _, angle in scenario.survey.askew]
    assert off == pytest.approx([11] * 4, abs=1)
    assert interview.question.text.startswith("How high is the ceiling")


def test_walls_that_make_no_room_are_corrected():
    """A metre too much cannot be spread: the wall is named, asked again, and then it closes."""
    interview = told("dining room", "How long is wall E?")
    interview.answer("4.5")
    interview.answer("1")
    said = " ".join(interview.told)
    assert "100 cm" in said
    assert interview.question.text == "Is there another wall?"
    interview.answer("no")
    assert "do not make a room" in " ".join(interview.told)
    assert interview.question.text.startswith("Which wall")
    interview.answer("E")
    interview.answer("3,50")
    assert interview.question.text.startswith("A length straight across")
    assert interview.notes.scenario() is not None


@pytest.mark.slow
@pytest.mark.parametrize("room", EVERY)
def test_back_and_again_changes_nothing(room):
    """After every third answer: back, the same answer, and all is as it was."""
    answers = told(room).answers
    interview = Interview()
    for number, answer in enumerate(answers):
        asked = interview.question.text
        interview.answer(answer)
        if number % 3:
            continue
        after = (interview.question.text if interview.question else None, interview.notes.text)
        assert interview.back()
        assert interview.question.text == asked
        interview.answer(answer)
        again = (interview.question.text if interview.question else None, interview.notes.text)
        assert again == after


def test_back_goes_as_far_as_the_first_question():
    """And no further; another answer then makes another room."""
    interview = told("bedroom", "How long is wall C")
    while interview.back():
        pass
    assert interview.question.text == "What do you call the room?"
    assert interview.answers == []
    assert not interview.back()
    interview.answer("Loft")
    assert interview.notes.title == "Loft"


@pytest.mark.slow
@pytest.mark.parametrize("room", EVERY)
def test_a_draft_goes_on_where_it_stopped(room):
    """From anywhere: the answers are read back from the text, and the end is the same file."""
    whole = told(room)
    for stop in range(1, len(whole.answers), 13):
        begun = Interview(answers=whole.answers[:stop])
        again, lost = resumed(answers_in(begun.draft.splitlines()))
        assert (again.answers, lost) == (begun.answers, 0)
        assert again.question.text == begun.question.text
        for answer in whole.answers[stop:]:
            again.answer(answer)
        assert again.notes.text == whole.notes.text


TYPED = sorted(
    {answer for room in ROOMS.values() for answer in room.answers}
    | {"on a wall", "other thing", "middle", "stove", "column", "-5", "1e9", "nan", "½", "x" * 200}
    | {"0", "9", "24", "corner", "away from the walls", "chimney breast"}
)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(20))
def test_whatever_is_typed_ends_in_a_sentence_or_in_the_next_question(seed):
    """Answers to other questions, and Enter: nothing else is raised, and the file can be read."""
    draw = random.Random(seed)  # noqa: S311  no secret
    interview = Interview()
    for _ in range(300):
        if interview.over:
            text = interview.notes.text
            if "[[need]]" in text:  # what to have was left open
                assert read_open_text(text).whole.pieces
            else:
                assert arrange.read_text(text).pieces
            return
        enter = interview.question.usual is not None and draw.random() < 0.3
        try:
            interview.answer("" if enter else draw.choice(TYPED))
        except ValueError as slip:
            told_back = str(slip)
            assert one_sentence(told_back), told_back
    assert interview.over or interview.question.text


def test_a_draft_that_no_longer_fits_keeps_what_does():
    """Somebody changed an answer in the file."""
    answers = told("bedroom").answers
    answers[6] = "as wide as the sea"
    interview, lost = resumed(answers)
    assert len(interview.answers) == 6
    assert lost == len(answers) - 6


@pytest.mark.parametrize("room", EVERY)
def test_every_text_can_be_read_aloud(room):
    """Questions end as questions or sentences, help says how, nothing is left unfilled."""
    interview = Interview()
    for answer in taken(room):
        question = interview.question
        first, *options = question.text.split("\n")
        assert first[0].isupper(), first
        assert first[-1] in "?.", first
        assert not re.search(r"\bNone\b|\{|\}|  |_|\bthe the\b|\ba [aeiou]", first), first
        assert all(re.match(r"  \d+ \S", option) for option in options)
        assert one_sentence(question.example.split(". ")[-1]), question.example
        interview.answer(answer)
        for said in interview.told:
            assert "\n" in said or one_sentence(said), said


@pytest.mark.parametrize("room", EVERY)
def test_nonsense_gets_one_sentence_and_the_question_again(room):
    """No question takes what nobody could mean, but for those that take any name."""
    interview = Interview()
    for answer in taken(room):
        text = interview.question.text
        if not re.search(r"call|What goes in the room|What else\?|How should it feel", text):
            with pytest.raises(ValueError, match=r"[.?]$") as slip:
                interview.answer("%&/ 17 elephants")
            assert one_sentence(str(slip.value)), slip.value
            assert interview.question.text == text
        interview.answer(answer)


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("342", "cm", 3420),
        ("3,42", "cm", 3420),
        ("3.42", "m", 3420),
        ("3 m 42", "cm", 3420),
        ("3 42", "m", 3420),
        ("about 3.5 metres", "cm", 3500),
        ("342 cm wide", "m", 3420),
        ("342", "m", 3420),
        (".6", "cm", 600),
        ("11'4", "in", 3454),
        ("11'4\"", "in", 3454),
        ("11 ft 4", "in", 3454),
        ("11 4", "in", 3454),
        ("11 foot 4 1/2", "in", 3467),
        ("136", "in", 3454),
    ],
)
def test_lengths_as_people_say_them(text, unit, mm):
    """Feet: 136 in x 25.4 = 3454.4; 136.5 x 25.4 = 3467.1."""
    assert length_of(text, unit, 0, 30_000 if text != "342" or unit == "cm" else 20_000) == mm


def test_a_number_that_cannot_be_meant_is_tried_in_another_unit():
    """11 for a wall is feet where it must be over a metre; 3 for a wall is metres."""
    assert length_of("11", "in", 1000) == parse("11 ft", "in")
    assert length_of("3", "cm", 1000) == 3000
    assert length_of("90", "m", 300, 5000) == 900


@pytest.mark.parametrize("mm", [0, 127, 250, 889, 1000, 2855, 3404, 3420])
@pytest.mark.parametrize("unit", ["cm", "m", "in"])
def test_what_is_said_back_is_what_was_understood(mm, unit):
    """Reading it again gives the same millimetres."""
    assert parse(spoken(mm, unit), unit) == mm
    assert abs(handy(mm, unit) - mm) <= 13


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("450", "450", ""),
        ("€ 1.200", "1200", "€"),
        ("1,500", "1500", ""),
        ("89,90 EUR", "89.90", "EUR"),
        ("$1,200.50", "1200.50", "$"),
    ],
)
def test_money_as_people_write_it(text, amount, currency):
    """Signs before or behind, points and commas either way."""
    found = money_of(text)
    assert (str(found[0]), found[1]) == (amount, currency)


@pytest.mark.parametrize(
    ("text", "count", "kind"),
    [
        ("tv", 1, "tv unit"),
        ("a sofa bed", 1, "sofa bed"),
        ("nightstand", 1, "bedside table"),
        ("two nightstands", 2, "bedside table"),
        ("a pair of old armchairs", 2, "armchair"),
        ("my grandmother's dresser", 1, "chest of drawers"),
        ("bookshelves", 1, "bookcase"),
        ("chests of drawers", 1, "chest of drawers"),
        ("4 dining chairs", 4, "dining chair"),
        ("computer desk", 1, "desk"),
    ],
)
def test_near_words_for_pieces(text, count, kind):
    """How many, and which kind, where there can be only one."""
    found = meant(text)
    assert (found.count, found.clear) == (count, kind)


@pytest.mark.parametrize(
    ("text", "first"),
    [("bed", "single bed"), ("wardobe", "wardrobe")],
)
def test_words_that_may_mean_several_are_asked(text, first):
    """The likeliest first; a slip of the keyboard is not taken for granted."""
    found = meant(text)
    assert found.clear is None
    assert found.guesses[0] == first
    assert set(found.guesses) <= set(kinds())


def test_what_takes_no_floor_is_no_piece():
    """A lamp that stands on a table, but not a floor lamp."""
    assert takes_no_floor("2 table lamps")
    assert not takes_no_floor("floor lamp")


PIECES = {"desk": "desk", "bed": "bed", "tv": "tv", "nightstand": "nightstand"}
FAR = {"piece": "bed", "away_from": "door", "at_least": 1000}
PLACES = PIECES | {"window": "window", "door": "door", "wall b": "B", "b wall": "B"}


@pytest.mark.parametrize(
    ("sentence", "wish"),
    [
        ("desk near the window", {"piece": "desk", "near": "window"}),
        ("The desk should stand by the window.", {"piece": "desk", "near": "window"}),
        ("desk within 1.5 m of the window", {"piece": "desk", "near": "window", "within": 1500}),
        (
            "desk near the window, within 150 cm",
            {"piece": "desk", "near": "window", "within": 1500},
        ),
        (
            "bed away from door at least 1 m",
            FAR,
        ),
        ("bed at least 100 from the door", FAR),
        ("bed 1 m away from the door", FAR),
        ("bed not near the door", {"piece": "bed", "away_from": "door"}),
        ("the tv opposite the bed", {"piece": "tv", "facing": "bed"}),
        ("bed not against wall B", {"piece": "bed", "not_against": "B"}),
        ("bed with its back against wall B", {"piece": "bed", "against": "B"}),
        ("desk not on the b wall", {"piece": "desk", "not_against": "B"}),
        ("nightstand next to the bed", {"piece": "nightstand", "beside": "bed"}),
        ("bed in view of the door", {"piece": "bed", "in_view_of": "door"}),
        ("desk in line with the window", {"piece": "desk", "aligned_with": "window"}),
        ("desk against the bed", {"piece": "desk", "beside": "bed"}),
    ],
)
def test_wishes_as_people_say_them(sentence, wish):
    """A piece, a relation, a place, perhaps a distance."""
    assert wish_of(sentence, PIECES, PLACES, "cm") == wish


@pytest.mark.parametrize(
    ("sentence", "named"),
    [
        ("desk pretty", "How should it stand"),
        ("elephant near the window", '"elephant" is not one of your pieces'),
        ("desk near the moon", '"moon" is not in the room'),
        ("tv facing bed, within 2 m", "A distance goes with"),
    ],
)
def test_wishes_not_understood(sentence, named):
    """What was not understood is said."""
    with pytest.raises(ValueError, match=re.escape(named)):
        wish_of(sentence, PIECES, PLACES, "cm")


@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("in a corner", {"stands": "corner"}),
        ("across a corner", {"stands": "across"}),
        ("can stand across a corner, too", {"across_corner": True}),
        ("must be away from the walls", {"stands": "free"}),
        ("with its back to a wall", {"stands": "wall"}),
        ("1 m free in front", {"clearance": {"front": {"least": 1000}}}),
        ("60 cm of floor on the left", {"clearance": {"left": {"least": 600}}}),
        ("it hangs at 150 cm", {"bottom": 1500}),
        ("beside the bed", {"with": "bed"}),
        ("by itself", {"free": True}),
    ],
)
def test_what_is_special_about_a_piece(words, row):
    """How it stands, what floor it needs, how high it hangs, what it goes with."""
    assert special_of(words, "cm", kinds()["bookcase"], ["bed"]) == row


@pytest.mark.parametrize("words", ["peculiar", "beside the moon", "hangs at 9 m"])
def test_what_is_special_but_not_understood(words):
    """One sentence, and nothing is taken for granted."""
    with pytest.raises(ValueError, match=r"\.$"):
        special_of(words, "cm", kinds()["bookcase"], ["bed"])


def test_a_sketch_is_as_wide_as_the_room_and_fits_a_terminal():
    """4 m by 2 m in characters twice as tall as wide: columns and rows as 4 to 1."""
    drawn = sketch(walls(rectangle(4000, 2000)), "cm").split("\n")
    picture = [line[4:] for line in drawn if set(line) & set("+|")]
    assert len(picture[0]) == WIDE
    assert len(picture) == round((WIDE - 1) / 4) + 1
    assert picture[0] == picture[-1] == f"+{'-' * (WIDE - 2)}+"
    assert "A 400 cm, B 200 cm, C 400 cm, D 200 cm" in drawn[-1]


@pytest.mark.parametrize("room", EVERY)
def test_every_sketch_fits_and_names_what_is_there(room):
    """Also while the room is asked for; the last one has its doors by name, windows drawn."""
    interview = Interview()
    for answer in taken(room):
        interview.answer(answer)
        for said in interview.told:
            lines = said.split("\n")
            assert len(lines) == 1 or len(lines) <= HIGH + 6
            assert len(lines) == 1 or max(map(len, lines)) <= 80
    drawing, _ = interview.picture().rsplit("\n", 1)
    assert {":", "="} <= set(drawing)
    doors = interview.notes.scenario().room.doors
    assert all(door.name in drawing for door in doors)


ROOM = '[room]\nsize = [500, 600]\n[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\n'
# What people call their furniture, here and there, and the kind that they mean: first among the
# guesses where the word could mean several.
EVERYDAY = [
    ("tv", "tv unit"),
    ("telly", "tv unit"),
    ("tv stand", "tv unit"),
    ("entertainment center", "tv unit"),
    ("couch", "sofa"),
    ("settee", "sofa"),
    ("chesterfield", "sofa"),
    ("loveseat", "small sofa"),
    ("sectional", "corner sofa"),
    ("sofa bed", "sofa bed"),
    ("sofabed", "sofa bed"),
    ("futon", "sofa bed"),
    ("recliner", "armchair"),
    ("easy chair", "armchair"),
    ("wing chair", "reading chair"),
    ("rocker", "rocking chair"),
    ("ottoman", "footstool"),
    ("pouffe", "pouf"),
    ("nightstand", "bedside table"),
    ("bedside cabinet", "bedside table"),
    ("dresser", "chest of drawers"),
    ("tallboy", "chest of drawers"),
    ("bureau", "chest of drawers"),
    ("closet", "wardrobe"),
    ("armoire", "wardrobe"),
    ("cupboard", "wardrobe"),
    ("linen cupboard", "wardrobe"),
    ("credenza", "sideboard"),
    ("drinks cabinet", "sideboard"),
    ("vitrine", "display cabinet"),
    ("bookshelf", "bookcase"),
    ("shelving unit", "bookcase"),
    ("round table", "round table"),
    ("kitchen table", "dining table for four"),
    ("end table", "side table"),
    ("console", "console table"),
    ("vanity", "dressing table"),
    ("computer desk", "desk"),
    ("office chair", "desk chair"),
    ("bunk beds", "bunk bed"),
    ("king-size bed", "king bed"),
    ("crib", "cot"),
    ("changing station", "changing table"),
    ("standard lamp", "floor lamp"),
    ("pot plant", "plant"),
    ("bar cart", "serving trolley"),
    ("laundry hamper", "laundry basket"),
    ("hat stand", "coat rack"),
    ("dog bed", "pet bed"),
]


@pytest.mark.parametrize(("word", "kind"), EVERYDAY)
def test_an_everyday_word_is_understood_or_asked_about(word, kind):
    """In a conversation and in a file: taken, or the first guess of a question."""
    found = meant(word)
    assert (found.sure, found.guesses[0]) == (True, kind)
    file = f'{ROOM}[[piece]]\nkind = "{word}"\n'
    try:
        assert read_text(file).pieces[0].kind == kind
    except ScenarioError as error:
        (fault,) = error.faults
        assert fault.hint.startswith(f"did you mean '{kind}'")


@pytest.mark.parametrize("word", ["printer", "washing machine", "stereo", "radiator", "yucca"])
def test_what_we_have_no_word_for_is_not_guessed_at(word):
    """A recliner for a printer would be a joke; what to write instead is said."""
    file = f'{ROOM}[[piece]]\nkind = "{word}"\n'
    with pytest.raises(ScenarioError, match=f"'{word}' is not known") as found:
        read_text(file)
    assert "did you mean" not in str(found.value)
    assert "other piece" in str(found.value)
