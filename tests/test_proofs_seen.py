"""What is called proven was really asked of the solver, a second time where that is said."""

from dataclasses import replace

import pytest
from draw_rooms import marked, suggestion
from matplotlib.text import Text
from small_rooms import A, C, D, clearance, on_wall, only, piece, room, scenario

import arrange
import arrange.solver.feasibility as oracle_module
from arrange.data.change import Resize, changed
from arrange.data.conflict import Conflict, Requirement, Without
from arrange.data.room import Door, Slope
from arrange.draw.sheet import plan_sheet
from arrange.draw.why import conflict_sheet
from arrange.solver.feasibility import Feasibility, FeasibilityOracle
from arrange.whatif.lacking import arithmetic
from arrange.whatif.largest import largest
from arrange.whatif.requirements import keep_only
from arrange.whatif.why import conflicts

DOOR = Door("door", C, 500, 800, "in")
# 2500 deep at a wall and 600 to step in at the door, in 3000; turned it does not fit at all.
DEEP = only(scenario(room(doors=(DOOR,)), piece("bench", 3900, 2500)))


@pytest.fixture
def asked(monkeypatch):
    """The scenarios that were put to the solver, each with whether it was a second opinion."""
    seen, solve = [], oracle_module.solve

    def spied(model, *args, second_opinion=False, **more):
        seen.append(second_opinion)
        return solve(model, *args, second_opinion=second_opinion, **more)

    monkeypatch.setattr(oracle_module, "solve", spied)
    return seen


def test_sure_asks_a_second_configuration_and_else_none_is_asked(asked):
    """The plain question once without, and with ``sure`` at least once more with it."""
    assert FeasibilityOracle(30).decide(DEEP).answer == "impossible"
    assert asked
    assert not any(asked)
    assert FeasibilityOracle(30).decide(DEEP, sure=True).answer == "impossible"
    assert asked[-1] is True


def test_a_clash_called_confirmed_was_asked_twice(asked):
    """The sentence says "by two solver configurations": one of the questions was the second."""
    (clash,) = conflicts(DEEP, FeasibilityOracle(60), 1).sets
    assert clash.confirmed
    assert True in asked


def test_the_next_size_called_impossible_was_asked_twice(asked):
    """2200 deep is the most that the leaf of 800 leaves of 3000; 2210 is proven by two."""
    found = largest(DEEP, "bench", "depth", seconds=60)
    assert (found.answer, found.size, found.next) == ("exact", 2200, 2210)
    assert True in asked


def test_without_a_second_opinion_nothing_is_confirmed(monkeypatch):
    """Where the second configuration does not decide, neither does the program."""
    monkeypatch.setattr(oracle_module, "surely_impossible", lambda _: False)
    assert FeasibilityOracle(30).decide(DEEP).answer == "impossible"
    assert FeasibilityOracle(30).decide(DEEP, sure=True).answer == "not decided"
    assert not any(c.confirmed for c in conflicts(DEEP, FeasibilityOracle(5), 1).sets)


class NeverWorks(FeasibilityOracle):
    """Decides as the oracle does, but never finds an arrangement."""

    def decide(self, *args, **more):
        """As the oracle, "not decided" where it finds one."""
        found = super().decide(*args, **more)
        return Feasibility("not decided") if found.answer == "works" else found


def test_a_set_is_minimal_only_with_an_arrangement_without_each_member():
    """Confirmed all the same: that they clash is another question."""
    (whole,) = conflicts(DEEP, FeasibilityOracle(60), 1).sets
    assert whole.minimal
    assert len(whole.without) == len(whole.requirements)
    (clash,) = conflicts(DEEP, NeverWorks(10), 1).sets
    assert clash.confirmed
    assert clash.without == ()
    assert not clash.minimal


def test_the_floor_of_the_door_is_in_the_sum():
    """600 inside the door and 2500 of the bench are 3100, in a room of 3000: 100 too little."""
    (clash,) = conflicts(DEEP, FeasibilityOracle(60), 1).sets
    figures = arithmetic(DEEP, clash, FeasibilityOracle(60))
    parts = [(p.what, p.asked) for p in figures.section.crossed]
    assert sorted(parts) == [("bench", 2500), ("inside the door", 600)]
    assert figures.section.asked == 600 + 2500
    assert figures.section.there == 3000
    assert "inside the door" in figures.sum
    assert "10 cm too little" in figures.sum
    assert figures.most == 3000 - 600
    alone = keep_only(DEEP, clash.requirements)
    fits = changed(alone, [Resize("bench", depth=figures.most)])
    assert FeasibilityOracle(30).decide(fits).answer == "works"


def test_the_members_of_a_clash_are_numbered_from_one_in_their_order():
    """The number stands before its own member, and the head says which set of how many it is."""
    one, two = piece("chest", 2500, 400), piece("shelf", 2600, 400)
    case = only(scenario(room(doors=(Door("door", C, 500, 800),)), one, two))
    members = (Requirement("piece", "chest"), Requirement("piece", "shelf"), Requirement("doors"))
    stands = arrange.Arrangement((on_wall(one, room(), A, 100),))
    clash = Conflict(members, True, True, (Without(members[1], stands),))
    figure = conflict_sheet(case, clash, 2, 3)
    told = [marked(figure, str(n))[0] for n in (1, 2, 3)]
    assert "chest" in told[0]
    assert "shelf" in told[1]
    assert "door" in told[2]
    assert not marked(figure, "0")
    assert not marked(figure, "4")
    heads = [t.get_text() for t in figure.findobj(Text)]
    assert "You cannot have all of these (2 of 3)" in heads


@pytest.mark.parametrize("slopes", [(), (Slope(D, 1000, 1500),)], ids=["level", "sloping"])
@pytest.mark.parametrize("walks", [False, True], ids=["no way", "a way"])
def test_the_key_of_a_clash_is_that_of_a_plan(slopes, walks):
    """The same sentences on both sheets, of what is drawn there: hatching, line and tint."""
    chest = piece("chest", 2500, 400, clearances=(clearance(600),))
    shelf = piece("shelf", 2600, 400)
    shape = room(doors=(Door("door", C, 500, 800),), slopes=slopes)
    case = scenario(shape, chest, shelf) if walks else only(scenario(shape, chest, shelf))
    used = Requirement("clearance", "chest", "front")
    way = (used, Requirement("walkway")) if walks else (used,)
    pieces = (Requirement("piece", "chest"), Requirement("piece", "shelf"))
    members = (Requirement("doors"), *way, *pieces)
    stands = arrange.Arrangement((on_wall(chest, shape, A, 1200),))
    clash = Conflict(members, True, True, (Without(members[-1], stands),))
    alone = replace(case, pieces=(chest,))
    clashing, plain = conflict_sheet(case, clash), plan_sheet(alone, suggestion(stands), 1)
    for sheet in (clashing, plain):
        hatched = sheet.findobj(lambda a: a.get_gid() == "clearances")
        assert bool(_sentence(sheet, "Hatched")) is bool(hatched)
    for word, drawn, there in (
        ("Soft line", "walkway", walks),
        ("Tinted", "slope", bool(slopes)),
    ):
        told = _sentence(clashing, word)
        assert bool(told) is there
        assert not there or told == _sentence(plain, word)
        assert bool(clashing.findobj(lambda a, g=drawn: a.get_gid() == g)) is there
    assert not _sentence(clashing, "Shaded band")


def _sentence(figure, word):
    """The sentence that begins so on a sheet; its lines follow each other, "" if there is none."""
    written = " ".join(t.get_text() for t in figure.findobj(Text))
    _, found, after = written.partition(f"{word}: ")
    return f"{found}{after.partition('.')[0]}." if found else ""
