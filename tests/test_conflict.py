"""Why nothing works: irreducible sets, verified by another routine, and their arithmetic."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from conflict_check import faults, sum_faults
from overfull import overfull
from small_rooms import C, D, at, clearance, free, piece, room, scenario, tied, wish

from arrange.data.conflict import Conflict, Requirement
from arrange.data.piece import Slot
from arrange.data.room import Door, Fixture
from arrange.data.scenario import RuleSetting
from arrange.scenario.read import read
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.lacking import arithmetic
from arrange.whatif.requirements import declared, quantities
from arrange.whatif.why import conflicts, why

SCENARIOS = Path(__file__).parent.parent / "scenarios"
ROOM = room()  # 4000 x 3000
DOOR = Door("door", C, 500, 800, "in")
SEEDS = (1, 6, 7)


def explained(asked, most=3):
    """Every set, verified; and the arithmetic of the first, verified."""
    found = conflicts(asked, FeasibilityOracle(60), most)
    assert faults(found) == []
    figures = arithmetic(asked, found.sets[0], FeasibilityOracle(60))
    assert sum_faults(asked, found.sets[0], figures) == []
    return found, figures


def test_the_example_that_is_too_much_is_explained():
    """The bed with a way to both sides of it; the sums are those of the file's own remark."""
    asked = read(SCENARIOS / "too-much.toml")
    found, figures = explained(asked)
    (conflict,) = found.sets
    assert found.complete
    assert conflict.pieces == ("bed",)
    assert figures.section is not None
    # Across: 210 + a walkway of 60 in 250; or 30.5 + 185 + 55.9 in 250.
    assert (figures.section.asked, figures.section.there) in {(2700, 2500), (2714, 2500)}


@pytest.mark.parametrize("seed", SEEDS)
def test_over_full_rooms_are_explained(seed):
    """A sample of `python -m benchmarks.conflicts`."""
    explained(overfull(seed), most=1)


def test_a_body_and_its_clearance_by_hand():
    """3500 wide it stands along A or C only: 2000 + 1200 in the 3000 between them."""
    bench = piece("bench", 3500, 2000, clearances=(clearance(1200),))
    found, figures = explained(scenario(ROOM, bench, piece("box", 300, 300)))
    (conflict,) = found.sets
    assert conflict.requirements == (
        Requirement("piece", "bench"),
        Requirement("clearance", "bench", "front"),
    )
    assert (figures.asked, figures.most, figures.proven) == (1200, 1000, True)
    assert (figures.section.asked, figures.section.there) == (3200, 3000)
    assert {(c.what, c.asked) for c in figures.section.crossed} == {
        ("bench", 2000),
        ("at the front of the bench", 1200),
    }
    words = (
        "= 320 cm; from top to bottom on the plan the room has only 300 cm there: 20 cm too little."
    )
    assert words in figures.sum


@pytest.mark.parametrize(("depth", "conflict"), [(1500, False), (1501, True)])
def test_two_bodies_flip_at_the_millimetre(depth, conflict):
    """Each is 3500 wide, so both stand along the 4000: twice 1500 is the 3000 there is."""
    long = scenario(ROOM, piece("one", 3500, 1500), piece("two", 3500, depth))
    if not conflict:
        assert conflicts(long, FeasibilityOracle(30)).answer == "works"
        return
    found, figures = explained(long)
    assert found.sets[0].pieces == ("one", "two")
    assert figures.asked - figures.most == figures.section.asked - figures.section.there == 1


def test_sets_apart_from_each_other_are_all_told():
    """Two pieces, each too wide for any wall, and one that is not to blame."""
    asked = scenario(ROOM, piece("one", 4100, 300), piece("box"), piece("two", 4200, 200))
    found, _ = explained(asked)
    assert sorted(conflict.pieces for conflict in found.sets) == [("one",), ("two",)]
    assert found.complete


def test_no_more_sets_than_asked_for():
    asked = scenario(ROOM, piece("one", 4100, 300), piece("two", 4200, 200))
    found, _ = explained(asked, most=1)
    assert len(found.sets) == 1
    assert not found.complete


def test_what_stays_and_what_was_wished_are_named():
    """A chest kept on the spot where a must keeps it away from a wall."""
    chest = piece("chest", 800, 400, stands="free", roles=("seat",))
    asked = scenario(
        ROOM,
        chest,
        wishes=(wish("away from", "chest", "A", 1000, must=True),),
        held=(at("chest", "down", 1000, 2500),),
    )
    found, _ = explained(asked)
    assert set(found.sets[0].requirements) == {
        Requirement("piece", "chest"),
        Requirement("held", "chest"),
        Requirement("wish", "chest", "0"),
    }


def test_a_tie_is_named_where_it_is_to_blame():
    """In the middle of a piece as long as the wall there is no floor at its left."""
    chest = piece("chest", 4000, 400)
    stool = tied("stool", "chest", Slot("left", along=0, gap=50))
    # Along B and D it does not fit; along A and C the stool would stand in the wall.
    found, _ = explained(scenario(ROOM, chest, stool))
    assert set(found.sets[0].requirements) == {
        Requirement("piece", "chest"),
        Requirement("piece", "stool"),
        Requirement("tie", "stool"),
    }


def test_a_loose_piece_is_no_proof_about_a_tied_one():
    """A stool tied to a desk may stand in the desk's own floor; loose it may not.

    Loose it has no place at all here, tied it has: so that must not be told as a clash.
    """
    small = room(((0, 0), (0, 1500), (1000, 1500), (1000, 0)))
    desk = piece("desk", 1000, 500, clearances=(clearance(1000),))
    stool = tied("stool", "desk", Slot("front", along=500, gap=100))
    off = (RuleSetting("walkway", off=True),)
    assert (
        conflicts(scenario(small, desk, stool, settings=off), FeasibilityOracle(30)).answer
        == "works"
    )
    found, _ = explained(scenario(small, desk, stool, piece("shelf", 900, 300), settings=off))
    assert found.sets[0].pieces != ("desk", "stool")


def test_a_way_that_is_too_narrow_makes_the_walkway_a_member():
    """A slab from wall to wall but for 500 stands between the door and the wardrobe's doors."""
    slab = piece("slab", 3500, 300, stands="free", roles=("seat",))
    asked = scenario(
        room(doors=(DOOR,)),
        slab,
        piece("wardrobe", 1000, 600, clearances=(clearance(600),)),
        held=(at("slab", "down", 0, 1200), at("wardrobe", "down", 0, 2400, wall=0)),
    )
    found, figures = explained(asked)
    assert Requirement("walkway") in found.sets[0].requirements
    assert figures.most == 500
    assert figures.section.asked == 4100


def test_a_bed_too_high_is_told_by_its_height():
    """190 + 71.1 are more than 250; `bunk-ceiling` says 711 mm (common practice)."""
    bunk = piece("bunk", 1000, 2000, 1900, headroom=711)
    found, figures = explained(scenario(ROOM, bunk))
    assert found.sets[0].requirements == (
        Requirement("piece", "bunk"),
        Requirement("headroom", "bunk"),
    )
    lengths = [float(n) for n in re.findall(r"([\d.]+) cm", figures.sum)]
    assert lengths == [190, 71, 261, 250, 11]
    assert all(word in figures.sum for word in ("bunk", "headroom", "ceiling", "too low"))


def test_a_room_at_fault_itself_is_told_as_such():
    """A column before the other door: no piece is to blame."""
    column = Fixture("column", "column", ((0, 1600), (900, 1600), (900, 0), (0, 0)), top=2500)
    other = Door("other door", 3, 500, 800, "in")
    found = conflicts(
        scenario(room(doors=(DOOR, other), fixtures=(column,)), piece("box")), FeasibilityOracle(9)
    )
    assert found.answer == "impossible"
    assert found.room
    assert found.sets == ()


def test_what_works_needs_no_explanation():
    answer = why(scenario(ROOM, piece("box")), seconds=20)
    assert answer.conflicts.answer == "works"
    assert answer.conflicts.arrangement is not None
    assert answer.conflicts.sets == ()
    assert answer.repairs is None


def test_without_time_nothing_is_claimed():
    """No set is called minimal, nothing impossible, before it is proven."""
    found = conflicts(overfull(1), FeasibilityOracle(0.0))
    assert found.answer == "not decided"
    assert found.sets == ()
    assert not found.complete


def test_what_is_left_is_asked_with_the_walkway_too():
    """Three slabs are found without it; the chest behind the screen needs it.

    Two slabs 2700 x 1400 lie above one another in 4000 x 3000; a third beside them would
    need 2700 + 1400 = 4100.
    """
    chest = piece("chest", 800, 400, clearances=(clearance(500),))
    slabs = [free(f"slab {i}", 2700, 1400) for i in (1, 2, 3)]
    held = (at("chest", "left", 3600, 1000, wall=1), at("screen", "down", 1500, 0))
    shape = room(doors=(Door("door", D, 200, 800),))
    asked = scenario(shape, *slabs, chest, free("screen", 200, 3000), held=held)
    found = conflicts(asked, FeasibilityOracle(60))
    assert faults(found) == []
    assert [set(c.pieces) for c in found.sets] == [
        {"slab 1", "slab 2", "slab 3"},
        {"chest", "screen"},
    ]
    assert Requirement("walkway") in found.sets[1].requirements
    assert found.complete
    assert conflicts(asked, FeasibilityOracle(60), 1).complete is False


def test_a_set_cut_short_is_not_called_minimal():
    """Stopped after so many questions: whatever there is, only what is proven is said so."""
    asked = overfull(6)
    for questions in (5, 12, 20, 25):
        oracle = FeasibilityOracle(60)
        oracle.stop = lambda oracle=oracle, questions=questions: oracle.asked > questions
        found = conflicts(asked, oracle, 1)
        for conflict in found.sets:
            complete = replace(found, sets=(conflict,))
            assert not conflict.minimal or faults(complete) == []
            assert set(conflict.requirements) <= set(declared(asked))


def test_the_same_twice():
    assert conflicts(overfull(1), FeasibilityOracle(60), 1) == conflicts(
        overfull(1), FeasibilityOracle(60), 1
    )


@pytest.mark.parametrize("wrong", [{"most": 0}, {"seconds": 0}])
def test_wrong_numbers_are_refused(wrong):
    with pytest.raises(ValueError, match=r"ask for|allow more"):
        why(scenario(ROOM, piece("box")), **wrong)


def test_a_bed_is_not_thought_shorter_than_what_its_sides_leave_out():
    """No sum asks for less than 10 mm beside what is left out (seed 108 once crashed)."""
    bed = piece("bed", 900, 2000, clearances=(clearance(600, sides=("left",), skip_start=850),))
    case = scenario(room(), bed)
    requirements = [
        Requirement("piece", "bed"),
        Requirement("clearance", "bed", bed.clearances[0].name),
    ]
    least = {
        q.side: q.least for q in quantities(case, requirements) if q.requirement.kind == "piece"
    }
    assert least == {"width": 50, "depth": 860}


def test_without_time_for_a_sum_none_is_denied_and_nothing_is_called_proven():
    """A slab longer than the room is wide: no sum of heights or floor, none is looked for."""
    case = scenario(room(), piece("slab", 4500, 500))
    conflict = replace(
        conflicts(case, FeasibilityOracle(30, 0)).sets[0], confirmed=False, minimal=False
    )
    told = arithmetic(case, conflict, FeasibilityOracle(0.001, 0, lambda: True))
    assert told.sentence == "No sum was found in the time."
    assert (told.sum, told.proven) == ("", False)


@pytest.mark.parametrize(
    ("unit", "told"),
    [
        (
            "cm",
            "slab 6.00 m² + board 8.75 m² = 14.75 m² of floor; 12.00 m² is free to stand on.",
        ),
        # A foot is 304.8 mm, its square 92 903.04 mm2: 6 000 000 / 92 903.04 = 64.58, and so on.
        (
            "in",
            "slab 64.6 sq ft + board 94.2 sq ft = 158.8 sq ft of floor; 129.2 sq ft is free to "
            "stand on.",
        ),
    ],
)
def test_a_sum_of_floor_is_told_in_the_unit_of_the_tape(unit, told):
    """2 x 3 and 2.5 x 3.5 m in a room of 4 x 3; no time is left for a sum of lengths."""
    slab, board = piece("slab", 3000, 2000), piece("board", 3500, 2500)
    case = scenario(room(), slab, board, unit=unit)
    both = tuple(Requirement("piece", name) for name in ("slab", "board"))
    figures = arithmetic(
        case,
        Conflict(both, confirmed=True, minimal=True),
        FeasibilityOracle(0.001, 0, lambda: True),
    )
    assert figures.sum == told
