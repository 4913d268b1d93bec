"""Changes to a scenario, places that are kept, and whether it works at all."""

from dataclasses import replace

import pytest
from small_rooms import A, at, both_say, clearance, free, on_wall, only, piece, room, scenario, tied

from arrange.data.change import (
    Add,
    Drop,
    GiveUpFixture,
    GiveUpOpening,
    LetMove,
    Loosen,
    LowerClearance,
    NarrowWalkway,
    Rehang,
    Resize,
    changed,
)
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture, Window
from arrange.data.scenario import Wish
from arrange.judge import judge
from arrange.solver.feasibility import FeasibilityOracle

CHEST = piece("chest", 800, 400)


@pytest.mark.parametrize(
    ("placement", "ok"),
    [
        pytest.param(at("stool", "down", 1000, 1000), True, id="where it is to stay"),
        pytest.param(at("stool", "down", 1001, 1000), False, id="1 mm aside"),
        pytest.param(at("stool", "left", 1000, 1000), False, id="turned on the spot"),
    ],
)
def test_what_is_held_stays(placement, ok):
    """A square stool held in the middle of the room."""
    stool = free("stool", 400, 400)
    case = replace(only(scenario(room(), stool)), held=(at("stool", "down", 1000, 1000),))
    both_say(case, [placement], "stays-put", ok)


def test_a_held_piece_that_looks_the_same_turned_is_held_as_it_was_said():
    """A block without a front has two turns in the model, unless its place is said."""
    block = free("block", 600, 400, roles=())
    case = replace(only(scenario(room(), block)), held=(at("block", "right", 1000, 1000),))
    assert FeasibilityOracle(10).decide(case).arrangement.of("block").facing == "right"


def test_a_bigger_anchor_moves_the_places_that_are_centred_on_it():
    """The gap follows from both depths: (900 - 400) / 2 = 250."""
    slot = Slot("under", along=500, gap=0, centred=True)
    case = scenario(room(), piece("desk", 1200, 400), tied("mat", "desk", slot, flat=True))
    after = changed(case, [Resize("desk", depth=900)])
    assert after.piece("mat").slots[0].gap == 250


def test_a_resized_piece_is_no_longer_alike_and_no_longer_held():
    """Two alike chests, one made wider."""
    one, two = (piece(f"chest {i}", 800, 400, kind="chest", model="chest") for i in (1, 2))
    kept = on_wall(one, room(), A, 100)
    case = replace(scenario(room(), one, two), held=(kept,), today=(kept,))
    after = changed(case, [Resize("chest 1", width=900)])
    assert {p.name: p.model for p in after.pieces} == {"chest 1": "chest", "chest 2": "chest 2"}
    assert after.held == after.today == ()
    both = changed(case, [Resize("chest 1", width=900), Resize("chest 2", width=900)])
    assert {p.model for p in both.pieces} == {"chest"}


@pytest.mark.parametrize("width", [0, -5])
def test_a_size_of_nothing_is_refused_in_plain_words(width):
    """Not left as it was, and not left to the solver to stumble over."""
    with pytest.raises(ValueError, match=f"width of chest is {width} mm; more than 0 is needed"):
        changed(scenario(room(), CHEST), [Resize("chest", width, 400)])


def test_dropping_a_piece_frees_what_was_tied_to_it_and_forgets_its_wishes():
    """The table beside the bed stands on its own; nobody asks for a way to the bed."""
    wishes = (Wish("near", "chest", "bed"), Wish("against", "chest", "A"))
    case = scenario(room(), piece("bed"), tied("table", "bed"), CHEST, wishes=wishes)
    after = changed(case, [Drop("bed")])
    assert [p.name for p in after.pieces] == ["table", "chest"]
    assert after.piece("table").anchor is None
    assert after.wishes == wishes[1:]


def test_each_other_change_changes_its_one_thing():
    """Everything else of the scenario is as before."""
    shape = room(
        doors=(Door("door", 2, 500, 800),),
        windows=(Window("window", 0, 500, 800, must_open=True),),
        fixtures=(Fixture("radiator", "radiator", (), 1, 500, 900, 100, keep=300),),
    )
    used = replace(CHEST, clearances=(clearance(700),))
    wish = Wish("against", "chest", "A", must=True)
    case = replace(scenario(shape, used, wishes=(wish,)), held=(at("chest", "down", 0, 0),))
    after = changed(
        case,
        [
            LowerClearance("chest", "front", 500),
            NarrowWalkway(550),
            Rehang("door"),
            GiveUpFixture("radiator"),
            GiveUpOpening("window"),
            Loosen(0),
            LetMove("chest"),
            Add(piece("stool")),
        ],
    )
    assert after.piece("chest").clearances[0].least == 500
    assert (after.walkway, after.walkway_overridden) == (550, True)
    assert after.room.doors[0].opens == "out"
    assert after.room.fixtures[0].keep == 0
    assert not after.room.windows[0].must_open
    assert not after.wishes[0].must
    assert after.held == ()
    assert after.pieces[-1].name == "stool"


@pytest.mark.parametrize(
    ("opens", "after"),
    [("in", "out"), ("folding in", "folding out"), ("sliding on the wall", "sliding")],
)
def test_a_door_is_rehung_as_it_is_built(opens, after):
    """Its leaves stay out of the room; a stable door that slides is none any more."""
    case = scenario(room(doors=(Door("door", 2, 1000, 800, opens),)), CHEST)
    assert changed(case, [Rehang("door")]).room.doors[0].opens == after
    french = Door("balcony", 0, 1000, 800, opens)
    balcony = Window("balcony", 0, 1000, 800, 0, french=french)
    case = scenario(room(windows=(balcony,)), CHEST)
    assert changed(case, [Rehang("balcony")]).room.windows[0].french.opens == after
    stable = scenario(room(doors=(Door("door", 2, 1000, 800, stable=True),)), CHEST)
    assert changed(stable, [Rehang("door")]).room.doors[0].stable
    assert not changed(stable, [Rehang("door", "sliding")]).room.doors[0].stable


@pytest.mark.parametrize(
    "change",
    [
        Resize("x", 1),
        Drop("x"),
        LowerClearance("chest", "x", 1),
        Rehang("x"),
        Loosen(0),
        Add(CHEST),
    ],
    ids=lambda change: type(change).__name__,
)
def test_a_change_of_what_is_not_there_is_refused(change):
    """Unknown names, and a name that is taken."""
    with pytest.raises(KeyError):
        changed(scenario(room(), CHEST), [change])


@pytest.mark.parametrize(("width", "answer"), [(4000, "works"), (4001, "impossible")])
def test_a_wall_piece_as_long_as_the_longest_wall_is_the_last_that_works(width, answer):
    """The walls are 4000 and 3000 long."""
    case = only(scenario(room(), piece("shelf", width, 400)))
    settled = FeasibilityOracle(10).decide(case, sure=True)
    assert settled.answer == answer
    if settled.works:
        assert judge(case, settled.arrangement).works


def test_nothing_is_decided_without_time():
    """Neither works nor impossible."""
    assert FeasibilityOracle(0).decide(scenario(room(), CHEST)).answer == "not decided"


def test_the_same_question_is_asked_once():
    """Prices and titles make no difference."""
    oracle = FeasibilityOracle(10)
    case = only(scenario(room(), CHEST))
    oracle.decide(case)
    oracle.decide(replace(case, title="other"))
    assert oracle.asked == 1
