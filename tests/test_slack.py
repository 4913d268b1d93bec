"""Room to spare, against sums by hand and against the solver's model with every stance held."""

from dataclasses import replace

import pytest
from planted import planted
from small_rooms import A, C, at, clearance, free, on_wall, only, piece, room, scenario

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.change import Resize, changed
from arrange.data.result import Spare
from arrange.data.room import Door
from arrange.geometry.scene import Scene
from arrange.judge import breaches
from arrange.solver.engine import solve
from arrange.solver.model import Model
from arrange.whatif.chains import Chains, slidable
from arrange.whatif.links import Web, ranges
from arrange.whatif.slack import agreed_by_judge, grow_piece, spares
from arrange.words.suggest import amount_words, chain_words, line_words, spare_words, worth_telling


def lines(case, *placements):
    return spares(case, Arrangement(tuple(placements)))


def works_larger(case, arrangement, name, axis, by):
    """Whether the model finds places with one piece larger and every stance held."""
    one = case.piece(name)
    turned = Scene(case, arrangement).find(name).facing in ("left", "right")
    wide = (axis == "across") != turned
    size = {"width": one.width + by} if wide else {"depth": one.depth + by}
    larger = changed(case, [Resize(name, **size)])
    model = Model(larger, canonical=False)
    model.finish()
    for placement in arrangement.placements:
        model.hold_stance(placement)
    answer = solve(model, Budget(20), seed=0, goal="any")
    assert answer.status != "unknown"
    if answer.arrangement is not None:
        assert breaches(larger, answer.arrangement) == ()
    return answer.arrangement is not None


def test_a_row_along_a_wall_has_what_the_wall_leaves():
    # 4000 - 1500 - 1400 - 1030 = 70, in whatever order they stand.
    shape = room()
    row = [piece("bed", 1500, 2000), piece("wardrobe", 1400, 600), piece("desk", 1030, 600)]
    case = only(scenario(shape, *row))
    places = [on_wall(p, shape, A, x) for p, x in zip(row, (0, 1520, 2970), strict=True)]
    first = lines(case, *places)[0]
    assert (first.mm, first.exact, first.direction) == (70, True, "across")
    assert first.pieces == ("bed", "wardrobe", "desk")
    assert first.between == ("wall D", "wall B")
    assert spare_words(first, "cm") == (
        "Between wall D and wall B, past the bed, the wardrobe and the desk: 7 cm to spare"
    )


def test_floor_to_use_a_piece_counts_with_its_least_depth():
    # Up the plan: bed 2000 + foot 600 + chest 400 = 3000: nothing left of 3000.
    shape = room()
    bed = piece("bed", 3400, 2000, clearances=(clearance(600),))
    chest = piece("chest", 3000, 400)
    case = only(scenario(shape, bed, chest))
    first = lines(case, on_wall(bed, shape, A, 100), on_wall(chest, shape, C, 500))[0]
    assert (first.mm, first.exact) == (0, True)
    assert chain_words(first, "cm") == "chest, 60 cm, bed"
    assert amount_words(first, "cm").startswith(
        "nothing to spare: with 1 cm less it no longer works"
    )


def test_what_can_slide_out_of_the_way_does_not_count():
    # Chest and bed's foot leave 50, but the chest can slide past the bed: 3000 - 2000 - 600.
    shape = room()
    bed = piece("bed", 1600, 2000, clearances=(clearance(600),))
    chest = piece("chest", 1000, 350)
    case = only(scenario(shape, bed, chest))
    found = lines(case, on_wall(bed, shape, A, 0), on_wall(chest, shape, C, 2800))
    up = next(s for s in found if s.direction == "up")
    assert (up.mm, up.exact, up.pieces) == (400, True, ("bed",))


def test_what_fills_the_wall_cannot_slide_out_of_the_way():
    # The chest is 2500 wide: beside a bed of 1600 there is no room for it on 4000.
    shape = room()
    bed = piece("bed", 1600, 2000, clearances=(clearance(600),))
    chest = piece("chest", 2500, 350)
    case = only(scenario(shape, bed, chest))
    found = lines(case, on_wall(bed, shape, A, 0), on_wall(chest, shape, C, 1500))
    up = next(s for s in found if s.direction == "up")
    assert (up.mm, up.exact, chain_words(up, "cm")) == (50, True, "chest, 60 cm, bed")


def test_the_way_in_is_measured_as_the_pieces_stand():
    # A free-standing block leaves 650 beside the wall where 600 are asked.
    shape = room(doors=(Door("door", C, 3000, 900, main=True),))
    block = free("block", 3350, 400)
    desk = piece("desk", 1200, 600, clearances=(clearance(700),))
    case = scenario(shape, block, desk)
    case = replace(only(case), settings=())
    found = lines(case, at("block", "down", 0, 1200), on_wall(desk, shape, A, 0))
    way = next(s for s in found if s.direction == "way")
    assert way.mm == 50
    assert "wider than that" in spare_words(way, "cm")


def agree(seed):
    """What is promised works; where it is said to be all, one cm more of anything does not."""
    plant = planted(seed)
    case = only(plant.scenario)
    for spare in spares(case, plant.arrangement):
        assert spare.direction != "way"  # the walkway is off
        way = case, plant.arrangement
        assert any(works_larger(*way, n, spare.direction, spare.mm) for n in spare.pieces)
        if spare.exact:
            for name in spare.pieces:
                assert not works_larger(*way, name, spare.direction, spare.mm + 10)


@pytest.mark.parametrize("seed", range(12))
def test_planted_rooms_against_the_model_with_every_stance_held(seed):
    agree(seed)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(12, 150))
def test_many_planted_rooms_against_the_model_with_every_stance_held(seed):
    agree(seed)


def test_the_planted_rooms_have_many_exact_answers():
    found = [
        s
        for seed in range(12)
        for s in spares(only(planted(seed).scenario), planted(seed).arrangement)
    ]
    assert sum(s.exact for s in found) > len(found) / 5


@pytest.mark.parametrize("seed", range(6))
def test_with_walkways_the_judge_agrees_to_what_is_promised(seed):
    plant = planted(seed)
    web = Web(Scene(plant.scenario, plant.arrangement))
    finder = Chains(web, ranges(web))
    for node, axis in slidable(web):
        chain = finder.best(node, axis)
        mm, name = (
            agreed_by_judge(web, chain, finder.quick(node, axis)),
            web.nodes[node - 1].root.name,
        )
        assert 0 <= mm <= chain.spare
        if mm:
            both = (chain, finder.quick(node, axis))
            ways = [way for c in both if mm <= c.spare for way in grow_piece(web, c, name, mm)]
            assert any(not breaches(*after) for after in ways)


def test_inches_never_promise_more_than_there_is():
    def said(mm, exact):
        return amount_words(Spare(("a", "b"), (), (), "up", mm, exact), "in")

    assert said(10, False) == "perhaps nothing to spare: measure again"  # 0.39 in
    assert said(26, False) == "at least 1 in to spare"  # 1.02 in
    assert said(25, False) == "at least 1/2 in to spare"  # 0.98 in
    assert said(13, True) == "1/2 in to spare"  # 0.51 in
    assert said(5, True).startswith("nothing to spare: with 1/2 in less")
    assert said(0, False) == "perhaps nothing to spare: measure again"


def test_an_empty_room_has_nothing_to_tell():
    assert lines(only(scenario(room()))) == ()


def test_a_line_is_told_as_people_say_it_and_only_where_it_may_be_tight():
    """What touches the same wall at both ends runs along it; 30 cm is told, 1 mm more is not."""
    seat = Spare(("wall D", "wall D"), ("window seat",), ("window seat",), "across", 300, True)
    assert line_words(seat, "cm") == "Along wall D, past the window seat"
    bed = replace(seat, between=("wall A", "the door"), line=("bed", 450), mm=301)
    assert line_words(bed, "cm") == "Between wall A and the door, past the bed with 45 cm to use it"
    assert worth_telling((seat, bed)) == (seat,)
