"""What can be taken away: each member alone is what its rule asks for."""

from collections import Counter
from dataclasses import replace

import pytest
from small_rooms import A, C, at, clearance, on_wall, piece, room, scenario, tied, wish

from arrange.data.arrangement import Arrangement
from arrange.data.conflict import Requirement
from arrange.data.person import Person
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture, Window
from arrange.judge import breaches
from arrange.rules import RULES
from arrange.whatif.requirements import declared, describe, keep_only, non_vacuous

pytestmark = pytest.mark.fast

PLAIN = room()
DOOR = Door("door", C, 500, 800, "in")  # its floor: x 2700 to 3500, y 0 to 800
WINDOW = Window("window", A, 1000, 1000, sill=900)
CHEST = piece("chest", 1000, 500, 1200)
FRONT = replace(CHEST, clearances=(clearance(700),))
BOX = piece("box", 500, 500, 500, stands="free", roles=("seat",))
COT = piece("cot", 600, 600, 800, roles=("cot",))
WHEELS = Person("Ada", uses="wheelchair")
STOOL = tied("stool", "chest", Slot("left", along=0, gap=50))


def before_a(kind, *, burns, keep):
    """Something built in on wall A from x 1000 to 2000, 100 deep."""
    corners = ((1000, 3000), (2000, 3000), (2000, 2900), (1000, 2900))
    return Fixture(kind, kind, corners, A, 1000, 1000, 100, 0, 600, keep, burns=burns)


# 1000 from side to side in the middle of the room, as a square: x 1500 to 2500, y 1000 to 2000.
FAN = Fixture(
    "fan", "ceiling fan", ((1500, 1000), (1500, 2000), (2500, 2000), (2500, 1000)),
    bottom=2200, top=2500,
)  # fmt: skip


def on_a(one, offset):
    return on_wall(one, PLAIN, A, offset)


RADIATOR = room(fixtures=(before_a("radiator", burns=False, keep=300),))
STOVE = room(fixtures=(before_a("stove", burns=True, keep=500),))
CASES = [
    pytest.param(
        Requirement("clearance", "chest", "front"),
        scenario(PLAIN, FRONT, BOX),
        [on_a(CHEST, 1000), at("box", "down", 1200, 1900)],
        id="clearance",
    ),
    pytest.param(
        Requirement("headroom", "chest"),
        scenario(PLAIN, replace(CHEST, headroom=1400)),
        [on_a(CHEST, 0)],
        id="headroom",
    ),
    pytest.param(
        Requirement("tie", "stool"),
        scenario(PLAIN, CHEST, STOOL),
        [on_a(CHEST, 0), at("stool", "down", 3000, 1000)],
        id="tie",
    ),
    pytest.param(
        Requirement("held", "chest"),
        scenario(PLAIN, CHEST, held=(on_a(CHEST, 0),)),
        [on_a(CHEST, 1)],
        id="held",
    ),
    pytest.param(
        Requirement("wish", "chest", "1"),
        scenario(
            PLAIN,
            CHEST,
            wishes=(wish("near", "chest", "B"), wish("against", "chest", "C", must=True)),
        ),
        [on_a(CHEST, 0)],
        id="wish",
    ),
    pytest.param(
        Requirement("walkway"),
        scenario(
            room(doors=(DOOR,)),
            FRONT,
            piece("wall", 3000, 300, stands="free", roles=("seat",)),
            walkway=700,
        ),
        [on_a(CHEST, 0), at("wall", "down", 600, 1300)],
        id="walkway",
    ),
    pytest.param(
        Requirement("doors"),
        scenario(room(doors=(replace(DOOR, opens="out"),)), BOX),
        [at("box", "down", 2800, 500)],
        id="doors",
    ),
    pytest.param(
        Requirement("swing", "door"),
        scenario(room(doors=(DOOR,)), BOX),
        [at("box", "down", 2800, 700)],
        id="swing",
    ),
    pytest.param(
        Requirement("fixture", "radiator"),
        scenario(RADIATOR, BOX),
        [at("box", "down", 1200, 2200)],
        id="fixture",
    ),
    pytest.param(
        Requirement("heat", "stove"),
        scenario(STOVE, replace(BOX, burns=True)),
        [at("box", "down", 1200, 1950)],
        id="heat",
    ),
    pytest.param(
        Requirement("opening", "window"),
        scenario(
            room(doors=(DOOR,), windows=(replace(WINDOW, must_open=True),)),
            replace(BOX, width=1000, height=950),
        ),
        [at("box", "down", 1000, 2500)],
        id="opening",
    ),
    pytest.param(
        Requirement("escape", "window"),
        scenario(room(doors=(DOOR,), windows=(replace(WINDOW, escape=True),)), BOX),
        [at("box", "down", 1000, 2300)],
        id="escape",
    ),
    pytest.param(
        Requirement("sill", "window"),
        scenario(room(windows=(WINDOW,)), CHEST),
        [on_a(CHEST, 500)],
        id="sill",
    ),
    pytest.param(
        Requirement("cots"),
        scenario(room(windows=(WINDOW,)), COT),
        [on_a(COT, 1000)],
        id="cots",
    ),
    pytest.param(
        Requirement("fans"),
        scenario(room(fixtures=(FAN,)), replace(BOX, height=2201)),
        [at("box", "down", 1000, 1500)],
        id="fans",
    ),
    pytest.param(
        Requirement("climbing"),
        scenario(room(windows=(WINDOW,)), BOX, people=(Person("Mo", climbs=True),)),
        [at("box", "down", 1000, 2500)],
        id="climbing",
    ),
    pytest.param(
        Requirement("turning"),
        scenario(PLAIN, replace(BOX, width=4000, depth=1501), people=(WHEELS,)),
        [at("box", "down", 0, 1499)],
        id="turning",
    ),
]


@pytest.mark.parametrize(("requirement", "asked", "placements"), CASES)
def test_what_is_taken_away_no_longer_holds_and_all_else_does(requirement, asked, placements):
    """Each arrangement breaks one must: refused by all members, passed without that one."""
    arrangement = Arrangement(tuple(placements))
    every = tuple(declared(asked))
    assert requirement in every
    assert breaches(keep_only(asked, every), arrangement)
    assert not breaches(keep_only(asked, set(every) - {requirement}), arrangement)


# Each leaf takes more of the room than stepping in does, or none of it as far as is known.
@pytest.mark.parametrize(
    ("opens", "more", "said"),
    [
        pytest.param("in", {"leaves": 2, "width": 1300}, "65 cm of free floor to swing", id="two"),
        pytest.param("in", {"leaves": 2, "width": 1200}, "", id="two of no more than the walkway"),
        pytest.param("folding in", {"width": 1400}, "70 cm of free floor to fold", id="folds"),
        pytest.param("folding in", {"width": 1200}, "", id="panels of no more than the walkway"),
        pytest.param("sliding on the wall", {}, "on the wall: 80 cm of free wall", id="on it"),
        pytest.param("sliding", {}, "", id="into the wall"),
        pytest.param("passage", {}, "", id="no leaf"),
    ],
)
def test_what_a_door_as_built_requires_of_the_room(opens, more, said):
    """And hung outwards it requires no more than to be walked through."""
    asked = scenario(room(doors=(replace(DOOR, opens=opens, **more),)), BOX)
    swing = Requirement("swing", "door")
    every = tuple(declared(asked))
    assert (swing in every) == bool(said)
    if said:
        assert describe(asked, swing, every).endswith(said)
        rest = keep_only(asked, set(every) - {swing})
        assert swing not in declared(rest)
        assert Requirement("doors") in declared(rest)


def test_a_french_window_requires_what_a_door_does():
    """Its floor among those of the doors, its swing by its own name; nothing of a sill."""
    french = replace(DOOR, name="balcony", wall=0, width=1400, leaves=2)
    balcony = Window("balcony", 0, 500, 1400, 0, french=french)
    asked = scenario(room(doors=(DOOR,), windows=(balcony,)), BOX)
    every = tuple(declared(asked))
    said = [describe(asked, r, every) for r in every if r.kind in ("doors", "swing", "sill")]
    assert said == [
        "60 cm of free floor inside the door and the balcony",
        "the door opens into the room: 80 cm of free floor to swing",
        "the balcony opens into the room: 70 cm of free floor to swing",
    ]
    swing = Requirement("swing", "balcony")
    rest = keep_only(asked, set(every) - {swing})
    assert rest.room.windows[0].french.opens == "out"
    assert rest.room.doors == (DOOR,)


def test_curtains_are_told_with_the_sill():
    """And go with it."""
    hung = replace(WINDOW, curtains=200)
    asked = scenario(room(windows=(hung,)), CHEST)
    sill = Requirement("sill", "window")
    assert describe(asked, sill, (sill,)).endswith(
        "stands across the window, nor taller than the sill where the curtains of the window hang"
    )
    beside = Arrangement((on_a(CHEST, WINDOW.offset + WINDOW.width),))
    assert breaches(asked, beside)
    assert not breaches(keep_only(asked, set(declared(asked)) - {sill}), beside)


def test_a_wide_passage_is_no_door_that_is_kept_free():
    """Beside another door; and alone there is nothing to require of it."""
    passage = replace(DOOR, name="arch", offset=2000, width=1500, opens="passage")
    asked = scenario(room(doors=(DOOR, passage)), BOX)
    said = describe(asked, Requirement("doors"), tuple(declared(asked)))
    assert said == "60 cm of free floor inside the door"
    assert Requirement("doors") not in declared(scenario(room(doors=(passage,)), BOX))


def test_every_kind_of_requirement_but_a_body_has_a_case():
    """A new kind needs a row in CASES: an arrangement that breaks it and nothing else."""
    declared = {kind.id for rule in RULES if rule.binding for kind in rule.kinds}
    assert {case.values[0].kind for case in CASES} == declared - {"piece"}


def test_without_its_piece_nothing_of_it_is_left():
    asked = scenario(PLAIN, FRONT, STOOL, held=(on_a(CHEST, 0),))
    rest = keep_only(asked, set(declared(asked)) - {Requirement("piece", "chest")})
    assert [p.name for p in rest.pieces] == ["stool"]
    assert rest.piece("stool").anchor is None
    assert rest.held == ()


def test_requirements_that_say_nothing_alone_are_vacuous():
    asked = scenario(room(doors=(DOOR,), windows=(replace(WINDOW, must_open=True),)), FRONT, STOOL)
    given = {
        Requirement("clearance", "chest", "front"),
        Requirement("tie", "stool"),
        Requirement("piece", "stool"),
        Requirement("swing", "door"),
        Requirement("opening", "window"),
    }
    assert non_vacuous(asked, given) == (Requirement("piece", "stool"),)


def test_twins_that_differ_are_no_longer_alike():
    """Else the solver would keep only one order of them."""
    twins = [replace(FRONT, name=f"chest {i}", model="chest") for i in (1, 2)]
    asked = scenario(PLAIN, *twins)
    rest = keep_only(asked, set(declared(asked)) - {Requirement("clearance", "chest 2", "front")})
    assert rest.pieces[0].model != rest.pieces[1].model


def test_requirements_are_told_piece_by_piece_then_the_wishes_then_the_room():
    asked = scenario(
        room(doors=(DOOR,), windows=(replace(WINDOW, must_open=True),)),
        FRONT,
        STOOL,
        wishes=(wish("near", "chest", "door", 500), wish("against", "chest", "A", must=True)),
        held=(on_a(CHEST, 0),),
    )
    assert [describe(asked, m, tuple(declared(asked))) for m in declared(asked)] == [
        "the chest, 100 x 50 cm, with its back to a wall",
        "70 cm free in front of the chest to use it",
        "the chest stays where it stands",
        "the stool, 40 x 40 cm",
        "the stool stands in its place at the chest",
        "the chest stands against wall A, as you said",
        "a walkway 60 cm wide from the door to everything that is used",
        "60 cm of free floor inside the door",
        "the door opens into the room: 80 cm of free floor to swing",
        "the window can be reached to open it",
        "nothing taller than 10 cm above the sill (90 cm), except a seat, stands across the window",
    ]


# Two of everything that a requirement can belong to: taking one away leaves the other.
TWO_OF_EACH = scenario(
    room(
        doors=(DOOR, replace(DOOR, name="other door", offset=2000)),
        windows=(
            replace(WINDOW, must_open=True, escape=True),
            replace(WINDOW, name="other window", offset=2500, must_open=True, escape=True),
        ),
        fixtures=(
            FAN,
            *(
                replace(before_a(kind, burns=burns, keep=300), name=name)
                for kind, name, burns in (
                    ("radiator", "radiator", False),
                    ("radiator", "other radiator", False),
                    ("stove", "stove", True),
                    ("stove", "other stove", True),
                )
            ),
        ),
    ),
    *(
        replace(one, name=f"{one.name} {i}", model=f"{one.name} {i}", headroom=100)
        for one in (FRONT, COT)
        for i in (1, 2)
    ),
    piece("loft", roles=("bunk",)),
    piece("other loft", roles=("bunk",)),
    *(tied(f"stool {i}", "chest 1", Slot(side, gap=50)) for i, side in ((1, "left"), (2, "right"))),
    wishes=(
        wish("against", "chest 1", "A", must=True),
        wish("against", "chest 2", "A", must=True),
        wish("near", "cot 1", "chest 1", must=True),
        wish("near", "cot 2", "chest 2", must=True),
    ),
    held=(at("chest 1", "down", 0, 2500, A), at("chest 2", "down", 1500, 2500, A)),
    people=(WHEELS, Person("Mo", climbs=True)),
)


def named(requirements):
    """What they are about: wishes are counted anew where some are gone."""
    return sorted((r.kind, r.name, "" if r.kind == "wish" else r.part) for r in requirements)


@pytest.mark.parametrize("gone", tuple(declared(TWO_OF_EACH)), ids=str)
def test_what_is_taken_away_takes_nothing_with_it_but_what_rests_on_it(gone):
    """The scenario that is left requires all the rest, and no more than that."""
    rest = set(declared(TWO_OF_EACH)) - {gone}
    kept = non_vacuous(TWO_OF_EACH, rest)
    assert named(tuple(declared(keep_only(TWO_OF_EACH, rest)))) == named(kept)


ONCE = {"walkway", "doors", "cots", "fans", "climbing", "turning"}


def test_there_are_two_of_every_kind_but_those_the_room_has_once():
    """Else the test above would not see a rule that keeps all or none of its own."""
    count = Counter(r.kind for r in declared(TWO_OF_EACH))
    assert {kind for kind, n in count.items() if n == 1} == ONCE
    known = {kind.id for rule in RULES if rule.binding for kind in rule.kinds}
    assert set(count) == known, "a kind that no rule's requirement has here: add two of it"
