"""Alike pieces where nothing can be walked: "impossible" has to survive its second opinion."""

from dataclasses import replace

import pytest
from small_rooms import at, clearance, piece, room, scenario
from tiny_rooms import OFF

from arrange.budget import Budget
from arrange.data.room import Door
from arrange.errors import DisagreementError
from arrange.solver import feasibility
from arrange.solver.cuts import Cut, Hold
from arrange.solver.engine import Answer
from arrange.solver.search import Search
from arrange.suggesting import suggest

SQUARE = ((0, 0), (0, 1200), (1200, 1200), (1200, 0))


def twins_in_the_way(second_model):
    """Two boxes 600 square in a room 1200 square, on a walkway of 900.

    By hand: the middle of a path 900 wide is at least 449.5 off every wall, so within a
    square of 301 about the middle of the room, at most 213 from it. A box of 600 with its
    back on any wall touches the middle of the room, and would have to be 449.5 away from
    the path's. So nobody can walk anywhere, even past one of them.
    """
    shape = room(SQUARE, doors=(Door("door", 1, 0, 600, "out"),))
    one = piece("twin 0", 600, 600, model="twin", clearances=(clearance(300),))
    two = replace(one, name="twin 1", model=second_model)
    return scenario(shape, one, two, walkway=900, settings=OFF)


def test_two_models_are_impossible():
    """The same two pieces told apart."""
    assert suggest(twins_in_the_way("other"), top=1, seconds=60).outcome == "impossible"


@pytest.mark.parametrize("most", [1, 120], ids=["kept in order", "in any order"])
def test_two_of_a_model_are_impossible(most, monkeypatch):
    """Swapping the two changes nothing; the answer must not either."""
    monkeypatch.setattr(feasibility, "MOST_ORDERS", most)
    assert suggest(twins_in_the_way("twin"), top=1, seconds=60).outcome == "impossible"


@pytest.mark.parametrize("count", [5, 6], ids=["in any order", "kept in order"])
def test_alike_pieces_that_can_be_walked_to_are_never_called_impossible(count):
    """Boxes along the walls of a plain room work; the second opinion finds that out.

    Five can stand in 120 orders, six in 720.
    """
    boxes = [piece(f"box {i}", model="box", clearances=(clearance(300),)) for i in range(count)]
    case = scenario(room(doors=(Door("door", 2, 0, 800),)), *boxes, settings=OFF)
    with pytest.raises(DisagreementError, match="two solver configurations disagree"):
        feasibility.surely_impossible(Search(case, Budget(60)))


@pytest.mark.parametrize(("count", "clauses"), [(2, 2), (5, 60), (6, 1), (10, 1)])
def test_a_cut_is_spelled_out_for_alike_pieces_while_they_are_few(count, clauses, monkeypatch):
    """Three holds of five pieces: 5 x 4 x 3 = 60 clauses; from six pieces on one order is kept.

    Six holds of ten pieces would be 151,200 clauses.
    """
    names = [f"box {i}" for i in range(count)]
    case = scenario(room(), *(piece(name, model="box") for name in names), settings=OFF)
    holds = [Hold(at(name, "up", 0, 0), True, (0, 0), (9, 9)) for name in names]
    cut = Cut(tuple(holds[: {2: 2, 5: 3}.get(count, 6)]))
    added = []
    monkeypatch.setattr(Cut, "add_to", lambda one, _: added.append(one))
    monkeypatch.setattr(feasibility, "solve", lambda *_, **__: Answer("none", -1))
    search = Search(case, Budget(60), cuts=[cut])
    assert feasibility.surely_impossible(search)
    assert len(set(added)) == len(added) == clauses
