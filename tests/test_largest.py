"""The exact largest size against hand arithmetic and against asking every size by itself."""

import random
from dataclasses import replace
from pathlib import Path

import pytest
from planted import planted
from small_rooms import (
    A,
    B,
    C,
    at,
    clearance,
    free,
    on_wall,
    only,
    piece,
    room,
    scenario,
    tied,
    wish,
)  # fmt: skip

import arrange
from arrange.data.arrangement import Arrangement
from arrange.data.kinds import believable
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture
from arrange.data.sizes import Largest, NoSizesError, in_mm, in_steps, range_of_sizes
from arrange.judge import judge
from arrange.scenario.read import read_text
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.largest import Sizes, grown, largest
from arrange.whatif.move import resized_in_place
from arrange.whatif.requirements import relaxed, shrinks, without_search
from arrange.words.sizes import largest_words

FAULTS = Path(__file__).with_name("faults")

CHEST = piece("chest", 800, 400)


def scan(case, name, dimension, seconds=20):
    """The last whole centimetre that works, each one asked by itself; None if none does."""
    sizes, best = Sizes(case, name, dimension), None
    low, high = sizes.span
    for steps in range(low, high + 1):
        answer = FeasibilityOracle(seconds).decide(sizes.at(steps)).answer
        assert answer != "not decided"
        if answer == "works":
            best = sizes.mm(steps)
    return best


def test_a_wall_piece_grows_to_the_longest_wall():
    """The walls are 4000 and 3000 long; 4010 is proven not to fit."""
    found = largest(only(scenario(room(), CHEST)), "chest", "width")
    assert (found.answer, found.size, found.next) == ("exact", 4000, 4010)
    assert found.scenario.piece("chest").width == 4000
    assert judge(found.scenario, found.arrangement).works


def test_two_pieces_of_which_one_grows():
    """Both held to wall A: 4000 - 800 = 3200."""
    wishes = [wish("against", n, "A", must=True) for n in ("chest", "other")]
    case = only(scenario(room(), CHEST, piece("other", 500, 400), wishes=wishes), "against")
    found = largest(case, "other", "width")
    assert (found.answer, found.size, found.next) == ("exact", 3200, 3210)


def test_a_file_in_inches_counts_in_whole_inches():
    """157 in are 3987.8 mm, 158 in 4013.2 mm; the wall is 4000."""
    case = replace(only(scenario(room(), CHEST)), unit="in")
    found = largest(case, "chest", "width")
    assert (found.answer, found.size, found.next) == ("exact", 3988, 4013)


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_steps_and_lengths_agree(unit):
    """The greatest whole step that is not longer than a length."""
    for mm in range(1, 3000, 7):
        steps = in_steps(mm, unit)
        assert in_mm(steps, unit) <= mm < in_mm(steps + 1, unit)


def test_a_height_grows_to_the_ceiling():
    """2500 over the floor; a shelf over the piece is passed elsewhere."""
    shelf = piece("shelf", 800, 250, 300, bottom=1400)
    found = largest(only(scenario(room(), CHEST, shelf)), "chest", "height")
    assert (found.answer, found.size, found.next) == ("exact", 2500, 2510)


def test_what_works_in_no_size_is_impossible():
    """The other piece is too long for every wall."""
    case = only(scenario(room(), CHEST, piece("bar", 4001, 100)))
    found = largest(case, "chest", "width")
    assert (found.answer, found.size, found.undecided) == ("impossible", None, None)


def test_a_must_that_only_a_long_piece_can_keep():
    """It must be within 100 mm of a socket at each end of wall A, 4000 long.

    The sockets are 10 wide: 4000 - 2 * (10 + 100) = 3780 is the least that works.

    Every size that halving would try in the longer room below that fails.
    """
    tall = room(((0, 5000), (4000, 5000), (4000, 0), (0, 0)))
    sockets = tuple(
        Fixture(n, "socket", (), A, at_, 10, solid=False) for n, at_ in (("s1", 0), ("s2", 3990))
    )
    wishes = [wish("near", "chest", s, 100, must=True) for s in ("s1", "s2")]
    wishes.append(wish("against", "chest", "A", must=True))
    case = scenario(replace(tall, fixtures=sockets), CHEST, wishes=wishes)
    case = only(case, "against", "near")
    oracle = FeasibilityOracle(20)
    sizes = Sizes(case, "chest", "width")
    assert [oracle.decide(sizes.at(s)).answer for s in (377, 378, 400, 401)] == [
        "impossible", "works", "works", "impossible",
    ]  # fmt: skip
    assert not shrinks(sizes.at(400), "chest", "width")
    found = largest(case, "chest", "width")
    assert (found.answer, found.size, found.next) == ("exact", 4000, 4010)


def test_where_the_piece_was_held_does_not_matter():
    """Held, or standing today, at its own size only."""
    case = only(scenario(room(), CHEST))
    kept = on_wall(CHEST, room(), B, 0)
    found = largest(replace(case, held=(kept,), today=(kept,)), "chest", "width")
    assert found.size == 4000


def test_what_others_keep_is_kept():
    """A bar held on wall A leaves 1500 there, and wall C is barred; walls B and D have 3000."""
    bars = [piece("bar a", 2500, 400), piece("bar c", 3000, 400)]
    held = (on_wall(bars[0], room(), A, 0), on_wall(bars[1], room(), C, 0))
    case = only(scenario(room(), CHEST, *bars))
    # Beside the bars along wall B: 3000 - 400 on one side only, the far ends are free there.
    assert largest(replace(case, held=held), "chest", "width").size == scan(
        replace(case, held=held), "chest", "width"
    )


def test_without_time_nothing_is_claimed():
    """Neither a size nor a proof."""
    case = only(scenario(room(), CHEST))
    found = largest(case, "chest", "width", seconds=1e-9)
    assert (found.answer, found.size, found.next) == ("not decided", None, None)
    assert found.undecided == (10, 4000)


def test_stopped_it_says_so():
    """As soon as somebody asks."""
    found = largest(only(scenario(room(), CHEST)), "chest", "width", stop=lambda: True)
    assert found.interrupted
    assert found.answer == "not decided"


def test_wrong_questions_are_refused():
    """An unknown piece, another dimension, no time."""
    case = scenario(room(), CHEST)
    with pytest.raises(KeyError):
        largest(case, "stool", "width")
    with pytest.raises(ValueError, match="no dimension"):
        largest(case, "chest", "weight")
    with pytest.raises(ValueError, match="more than 0"):
        largest(case, "chest", "width", seconds=0)


def small(seed, least=1100, most=1400):
    """A small room with two to four pieces, some with clearances, some free, some tied.

    With a walkway if the seed is divisible by 5.
    """
    rng = random.Random(seed)  # noqa: S311  repeatable, no secret
    wide, long = rng.randrange(least, most, 10), rng.randrange(least, most, 10)
    shape = room(((0, 0), (0, long), (wide, long), (wide, 0)), doors=(Door("door", C, 100, 700),))
    pieces = []
    for i in range(rng.randint(2, 4)):
        make = free if rng.random() < 0.3 else piece
        clear = [clearance(rng.randrange(100, least // 3, 10))] if rng.random() < 0.6 else []
        if rng.random() < 0.4:
            clear.append(clearance(rng.randrange(50, least // 5, 10), sides=("left",), name="left"))
        size = rng.randrange(least // 6, least // 2, 10), rng.randrange(least // 6, least // 4, 10)
        pieces.append(make(f"p{i}", *size, clearances=tuple(clear)))
    if rng.random() < 0.5:
        pieces.append(tied("stool", "p0", Slot("front", gap=20), Slot("left", gap=50), size=250))
    case = scenario(shape, *pieces)
    return case if seed % 5 == 0 else only(case)


@pytest.mark.parametrize("seed", [1, 2, 4])
@pytest.mark.parametrize("dimension", ["width", "depth"])
def test_the_largest_is_that_of_a_plain_scan(seed, dimension):
    """Small random rooms: tied pieces, pieces that stand free, clearances at the side."""
    case = small(seed)
    found = largest(case, "p0", dimension)
    assert found.answer in ("exact", "impossible")
    assert found.size == scan(case, "p0", dimension)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(5, 16))
@pytest.mark.parametrize("dimension", ["width", "depth"])
def test_the_largest_is_that_of_a_plain_scan_in_larger_rooms(seed, dimension):
    """Rooms of about 2 m, some with a walkway."""
    case = small(seed, 1800, 2400)
    found = largest(case, "p0", dimension, seconds=120)
    assert found.answer in ("exact", "impossible")
    assert found.size == scan(case, "p0", dimension, seconds=60)


@pytest.mark.long
@pytest.mark.parametrize("seed", [1, 2, 8, 14, 20])
def test_the_largest_is_that_of_a_plain_scan_in_planted_rooms(seed):
    """Rooms of real kinds with a walkway, as in benchmarks/largest.py."""
    case = planted(seed).scenario
    name = random.Random(seed).choice(case.pieces).name  # noqa: S311
    found = largest(case, name, "width", seconds=120)
    assert found.answer == "exact"
    assert found.size == scan(case, name, "width", seconds=60)


def shrunk_in_place(before, after, name, arrangement):
    """The arrangement with the piece made smaller, one of its sides or its middle kept."""
    made = [resized_in_place(before, after, [name], arrangement, (way, way)) for way in range(3)]
    names = {p.name for p in after.pieces}
    return [Arrangement(tuple(p for p in m.placements if p.piece in names)) for m in made if m]


@pytest.mark.parametrize("seed", range(12))
def test_what_is_relaxed_allows_more_and_stays_so_when_smaller(seed):
    """By the judge alone: planted arrangements, each piece shrunk in its place.

    In the relaxed scenario the arrangement still works, and so it does with the piece
    smaller; where ``shrinks`` says so, the scenario itself works as well.
    """
    plant, rng = planted(seed), random.Random(seed)  # noqa: S311
    case = plant.scenario
    for one in case.pieces:
        for dimension in ("width", "depth"):
            sizes = Sizes(case, one.name, dimension)
            least = max(sizes.span[0], 61)
            if sizes.now < least:
                continue
            steps = rng.randint(least, sizes.now)
            smaller = sizes.at(steps)
            for walkway in (False, True):
                eased = relaxed(smaller, one.name, dimension)
                eased = eased if walkway else without_search(eased)
                tried = shrunk_in_place(case, smaller, one.name, plant.arrangement)
                assert any(judge(eased, a).works for a in tried), (one.name, dimension, steps)
            if shrinks(smaller, one.name, dimension):
                assert any(judge(smaller, a).works for a in tried), (one.name, dimension, steps)


@pytest.mark.parametrize(
    ("case", "sure"),
    [
        pytest.param(scenario(room(), CHEST), True, id="alone"),
        pytest.param(scenario(room(), CHEST, tied("stool", "chest")), False, id="with a tied one"),
        pytest.param(
            scenario(room(), CHEST, wishes=[wish("near", "chest", "A", must=True)]),
            False,
            id="a must to be near",
        ),
        pytest.param(
            scenario(room(), CHEST, wishes=[wish("against", "chest", "A", must=True)]),
            True,
            id="a must to be against a wall",
        ),
        pytest.param(
            scenario(room(), CHEST, wishes=[wish("near", "chest", "A")]), True, id="a mere wish"
        ),
        pytest.param(
            scenario(room(), replace(CHEST, clearances=(clearance(601),))), True, id="wide strip"
        ),
        pytest.param(
            scenario(room(), replace(CHEST, clearances=(clearance(599),))),
            False,
            id="strip narrower than the walkway",
        ),
        pytest.param(
            scenario(
                room(),
                replace(CHEST, clearances=(clearance(700, sides=("left",), walk=False),)),
                piece("shelf", 800, 250, 300, bottom=1400),
            ),
            False,
            id="a strip beside it, and a shelf that may hang over it",
        ),
    ],
)
def test_when_smaller_is_sure_to_work(case, sure):
    """Each condition by itself."""
    assert shrinks(case, "chest", "width") is sure
    assert shrinks(case, "chest", "height")


def test_a_relaxed_scenario_leaves_out_what_is_tied_and_whatever_names_it():
    """A stool tied to the chest, a cushion tied to the stool, a lamp that must be near both."""
    lamp = piece("lamp", 300, 300)
    wishes = [wish("near", "lamp", n, must=True) for n in ("chest", "stool", "A")]
    case = scenario(
        room(), CHEST, tied("stool", "chest"), tied("cushion", "stool"), lamp, wishes=wishes
    )
    assert set(case.followers(["chest"])) == {"stool", "cushion"}
    eased = relaxed(case, "chest", "width")
    assert [p.name for p in eased.pieces] == ["chest", "lamp"]
    assert [w.place for w in eased.wishes if w.must] == ["A"]
    assert eased.walks
    assert not without_search(eased).walks


def test_a_piece_grows_in_its_place_as_far_as_the_judge_lets_it():
    """It stands from 500 to 1300 on wall A, between a peg to 200 and a bar from 2000 on.

    To the right 700 more, to the left 300, to both 300 each: 800 + 700 is the most.
    """
    bars = [piece("bar", 1000, 400), piece("peg", 200, 400)]
    case = only(scenario(room(), CHEST, *bars))
    places = [on_wall(b, room(), A, o) for b, o in zip(bars, (2000, 0), strict=True)]
    arrangement = Arrangement((on_wall(CHEST, room(), A, 500), *places))
    sizes = Sizes(case, "chest", "width")
    steps, found = grown(sizes.at, "chest", 80, 400, arrangement)
    assert steps == 150
    assert judge(sizes.at(150), found).works


def test_what_is_tied_goes_along():
    """A stool on the chest's right side moves outward with it."""
    case = only(scenario(room(), CHEST, tied("stool", "chest", Slot("right", along=0, gap=50))))
    start = Arrangement((on_wall(CHEST, room(), A, 1000), at("stool", "down", 1850, 2600)))
    # As you face a piece that looks down the plan: its right is to the right, 1800 + 50.
    assert judge(case, start).works
    sizes = Sizes(case, "chest", "width")
    steps, found = grown(sizes.at, "chest", 80, 400, start)
    assert steps > 80
    assert judge(sizes.at(steps), found).works


@pytest.mark.parametrize(("side", "size"), [("width", 2400), ("depth", 600)])
def test_no_size_is_tried_that_nobody_sells(side, size):
    """A bookcase three times as wide as usual (80 cm), or twice as deep (30 cm), and no larger.

    Was: 360 cm wide and 280 cm deep "and no more, proven", which no file may have.
    """
    case = arrange.read(FAULTS / "lone-bookcase.toml")
    found = largest(case, "bookcase", side, seconds=30)
    assert (found.answer, found.size, found.next, found.undecided) == ("at least", size, None, None)
    assert largest_words(found, case).endswith("the largest size we tried.")
    assert believable("bookcase", side)[1] >= size


def test_a_range_of_sizes_that_no_bed_has_is_refused():
    """One message, with what is tried; was: a bed of 1 cm "works comfortably"."""
    bed = piece("bed", 950, 2050, kind="single bed")
    said = "no single bed is 1 cm to 2 cm wide: give sizes from 19 cm to 475 cm"
    with pytest.raises(NoSizesError, match=said):
        range_of_sizes(bed, (10, bed.depth), (20, bed.depth), 10, "cm")
    assert len(range_of_sizes(bed, (700, bed.depth), (900, bed.depth), 100, "cm").sizes) == 3


TIED = """
[room]
size = [320, 320]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "double bed"
name = "bed"
[[piece]]
kind = "bedside table"
count = {count}
{more}
"""


@pytest.mark.parametrize(
    ("count", "more", "told"),
    [
        pytest.param(1, "", "bedside table beside the bed, as is usual: if it may", id="usual"),
        pytest.param(2, "", "beside the bed, as is usual: if they may stand apart", id="two"),
        pytest.param(1, 'with = "bed"', "", id="asked for"),
    ],
)
def test_a_proof_says_on_which_usual_ties_it_rests(count, more, told):
    """Where the tables may stand anywhere a wider bed may work; what was asked for stays."""
    case = read_text(TIED.format(count=count, more=more))
    for said in (
        Largest("bed", "width", "exact", 2000, 2010),
        Largest("bed", "width", "impossible"),
    ):
        words = largest_words(said, case)
        assert "(proven)." in words
        assert (told in words) if told else ("usual" not in words)
    open_ended = Largest("bed", "width", "not decided")
    assert "usual" not in largest_words(open_ended, case)
