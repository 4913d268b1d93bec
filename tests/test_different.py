"""When two arrangements are different plans: judged, asked of the search, and against a grid.

Each row is judged and asked of the model with the second arrangement held: it is possible
only if the two differ. The plain room is 5000 across and 4000 up: a quarter of its length
is 1250, for storage it is half: 2500 across, 2000 up.
"""

from dataclasses import replace
from itertools import combinations

import pytest
from brute_force import Grid
from plain_rooms import LEFT, TOP, at, on_wall, piece, room, scenario
from tiny_rooms import tiny

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.different import differ
from arrange.draw.overview import differences
from arrange.judge import judge
from arrange.solver.engine import solve
from arrange.solver.model import Model
from arrange.solver.question import set_apart
from arrange.suggesting import suggest

BED = piece("bed", 1500, 2000, 500, roles={"bed", "for two"})
TABLE = piece("table", 800, 800, 740, stands="free", roles={"dine"})
CASES = [piece(f"case {i}", 1000, 500, 2000, kind="case", roles={"store"}) for i in (1, 2)]
CHEST = piece("chest", 1000, 500, 800, stands="free", roles={"store"})
STOOL = piece("stool", 900, 900, 450, stands="free", roles={"seat", "dining seat"})
LAMP = piece("lamp", 300, 300, 1500, stands="free", roles={"light"})
PLAN = room()
START = {
    "bed": on_wall(PLAN, BED, LEFT, 1000),
    "table": at(TABLE, 3000, 1000),
    "case 1": on_wall(PLAN, CASES[0], TOP, 2500),
    "case 2": on_wall(PLAN, CASES[1], TOP, 3500),
}
SWAPPED = {
    "case 1": on_wall(PLAN, CASES[0], TOP, 3500),
    "case 2": on_wall(PLAN, CASES[1], TOP, 2500),
}


def both_say(pieces, one, two, **more):
    """What judge and model say, which must be the same; mirrored too."""
    plan = scenario(PLAN, *pieces, **more)
    first, second = (
        Arrangement(tuple(moved.get(p.name, START.get(p.name)) for p in pieces))
        for moved in (one, two)
    )
    told = differ(plan, first, second)
    assert differ(plan, second, first) == told
    model = Model(plan, canonical=False)
    model.pin(second)
    set_apart(model, [first])
    model.finish()
    answer = solve(model, Budget(60), goal="any")
    assert (answer.arrangement is not None) == told
    return told


@pytest.mark.parametrize(
    ("moved", "wanted"),
    [
        pytest.param({}, False, id="the same"),
        pytest.param({"bed": on_wall(PLAN, BED, LEFT, 2250)}, False, id="1250 along its wall"),
        pytest.param({"bed": on_wall(PLAN, BED, LEFT, 2251)}, True, id="1251 along its wall"),
        pytest.param({"bed": on_wall(PLAN, BED, TOP, 0)}, True, id="another wall"),
        pytest.param({"table": at(TABLE, 3000, 2250)}, False, id="a table 1250 up the plan"),
        pytest.param({"table": at(TABLE, 3000, 2251)}, True, id="1251 up the plan"),
        pytest.param({"table": at(TABLE, 3000, 1000, "left")}, False, id="square: turned"),
        pytest.param(SWAPPED, False, id="alike cases change places"),
        pytest.param(
            {"case 1": on_wall(PLAN, CASES[0], LEFT, 3000)}, True, id="one of them far off"
        ),
    ],
)
def test_what_makes_another_plan(moved, wanted):
    """Bed, table and the first case are the three largest."""
    assert both_say([BED, TABLE, *CASES], {}, moved) == wanted


def test_alike_pieces_among_the_three_may_change_places():
    """The two cases and the bed are all there is: swapped is the same, one far off is not."""
    pieces = [BED, *CASES]
    assert not both_say(pieces, {}, SWAPPED)
    assert both_say(pieces, {}, {"case 2": on_wall(PLAN, CASES[1], LEFT, 3000)})


def test_a_fourth_piece_and_what_is_moved_by_hand_make_no_other_plan():
    """A lamp, a stool larger than the chest; the chest, the third largest, does if it goes far."""
    pieces = [BED, TABLE, CHEST, STOOL, LAMP]
    one = {"chest": at(CHEST, 3000, 0), "stool": at(STOOL, 4000, 0), "lamp": at(LAMP, 2500, 0)}
    far = {"stool": at(STOOL, 4000, 3000), "lamp": at(LAMP, 4600, 2000)}
    assert not both_say(pieces, one, {**one, **far})
    assert both_say(pieces, one, {**one, "chest": at(CHEST, 3000, 3400)})


@pytest.mark.parametrize(("offset", "wanted"), [(0, False), (2300, False), (2301, True)])
def test_a_wardrobe_that_goes_round_its_corner_makes_no_other_plan(offset, wanted):
    """Of 1000 by 600, from the top of the left wall to the top wall: half the room is 2500.

    At the left wall its middle is (300, 3500), at the top wall (500 + offset, 3700).
    """
    tall = piece("wardrobe", 1000, 600, 2000, roles={"store"})
    one = {"wardrobe": on_wall(PLAN, tall, LEFT, 3000)}
    round_it = {"wardrobe": on_wall(PLAN, tall, TOP, offset)}
    assert both_say([tall, TABLE], one, round_it) == wanted


def test_a_desk_that_turns_in_its_place_makes_another_plan():
    """Who sits there looks another way: as a bed, a sofa or a table would."""
    desk = piece("desk", 1200, 600, 740, stands="free", roles={"desk"})
    one, turned = {"desk": at(desk, 100, 100)}, {"desk": at(desk, 100, 100, "left")}
    assert both_say([desk], one, turned)


def test_what_takes_less_than_half_a_square_metre_makes_no_other_plan():
    """Bed, table and a chest of 90 x 55 cm are 0.495 m², with 56 cm 0.504 m²."""
    small = piece("small", 900, 550, 800, stands="free", roles={"store"})
    one, other = {"small": at(small, 4000, 0)}, {"small": at(small, 1500, 3000, "left")}
    assert not both_say([BED, TABLE, small], one, other)
    tall = replace(small, depth=560)
    assert both_say([BED, TABLE, tall], one, other)


def test_a_seat_pushed_back_to_its_wall_makes_no_other_plan():
    """Free, 10 cm off the left wall, or at it: the same plan; turned, another one."""
    sofa = replace(piece("sofa", 2000, 900, 800, roles={"seat", "sofa"}), stands="anywhere")
    one, at_wall = {"sofa": at(sofa, 100, 1000, "right")}, {"sofa": on_wall(PLAN, sofa, LEFT, 1000)}
    assert not both_say([sofa], one, at_wall)
    assert both_say([sofa], one, {"sofa": at(sofa, 100, 1000, "down")})


def test_what_is_held_is_passed_over():
    """With the bed held the cases count, of which the second was no more than the fourth."""
    moved = {"case 2": on_wall(PLAN, CASES[1], LEFT, 3000)}
    pieces = [BED, TABLE, *CASES]
    assert not both_say(pieces, {}, moved)
    assert both_say(pieces, {}, moved, held=(START["bed"],))


def test_the_overview_says_how_far():
    """1300 up the left wall; less is no difference."""
    plan = replace(scenario(PLAN, BED), unit="cm")
    first, second, third = (
        Arrangement((on_wall(PLAN, BED, LEFT, offset),)) for offset in (500, 1800, 900)
    )
    assert differences(plan, first, second) == ("the bed stands 130 cm further up the plan",)
    assert differences(plan, first, third) == ()


def test_the_overview_tells_no_turn_that_nobody_sees():
    """A round table looks the same from everywhere, a long one from its front and back."""
    free = {"stands": "free", "major": True}
    long, bench = (piece(name, 1600, 800, 740, **free) for name in ("long", "bench"))
    plan = scenario(PLAN, piece("table", 1000, 1000, 740, **free), long, bench)
    first, other, across = (
        Arrangement(tuple(at(p, 500 + 1500 * i, 500, facing) for i, p in enumerate(plan.pieces)))
        for facing in ("right", "left", "down")
    )
    assert differences(plan, first, other) == ()
    assert differences(plan, first, across) == ("the long and the bench are turned by a quarter",)


@pytest.mark.parametrize("seed", [1, 3, 4, 8])
def test_the_second_is_the_best_that_differs(seed):
    """No arrangement on the grid that differs from the first has more; all listed differ."""
    case = tiny(seed)
    result = suggest(case, top=4, seconds=60)
    shown = [s.arrangement for s in result.suggestions]
    assert all(differ(case, a, b) for a, b in combinations(shown, 2))
    grid = Grid(case)
    others = [grid.arrangement(spots) for spots in grid.arrangements() if grid.works(spots)]
    assert shown or not others
    left = [a for a in others if shown and differ(case, shown[0], a)]
    best = max((judge(case, a, gaps=False).standing for a in left), default=None)
    if best is None:
        assert len(shown) <= 1 or result.suggestions[1].proven
    else:
        assert len(shown) > 1
        assert result.suggestions[1].proven
        assert result.suggestions[1].verdict.standing >= best
