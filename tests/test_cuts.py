"""A cut never rules out an arrangement that can be walked. Everything proven rests on that."""

import random
from functools import cache

import pytest
from planted import planted
from sampled import sampled
from small_rooms import at, clearance, on_wall, piece, room, scenario
from walkable import cuts_on_the_way, inside, ruled_out, rules_out, searched, walked

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement
from arrange.data.room import Door
from arrange.data.scenario import RuleSetting
from arrange.geometry.scene import Scene
from arrange.judge import breaches
from arrange.solver.engine import solve
from arrange.solver.model import Model
from arrange.solver.search import Search
from arrange.suggesting import suggest

SEEDS = range(1, 9)
STEPS = 120  # moves tried from each arrangement set out from
TRIES = 6  # arrangements made inside each cut


def shown(case, seconds):
    """Every arrangement that a run reports: the best, the next different ones, the families."""
    result = suggest(case, top=3, seconds=seconds, families=True)
    families = result.families.families if result.families else ()
    return [s.arrangement for s in result.suggestions] + [f.arrangement for f in families]


@cache
def all_cuts(room_, seconds=0.5):
    """The cuts that a search makes, and those for 150 random moves that cannot be walked."""
    case = room_.scenario
    cuts = [*searched(case, seconds).made, *cuts_on_the_way(case, room_.arrangement, 150, 1)]
    return list(dict.fromkeys(cuts))


def held_to_account(room_, seconds, steps, seed):
    """No fault of any cut of a room; how many walkable arrangements they were held to."""
    case = room_.scenario
    cuts, reported = all_cuts(room_), shown(case, seconds)
    assert not [a for a in reported if breaches(case, a)]
    walks = [room_.arrangement, *reported]
    for start in [room_.arrangement, *reported[:2]]:
        walks += walked(case, start, steps, seed)
    scenes = [Scene(case, a) for a in walks]
    wrong = [(cut, s.arrangement) for cut in cuts for s in scenes if rules_out(cut, s)]
    assert not wrong, f"{len(wrong)} of {len(cuts) * len(walks)}"
    return len(walks)


@pytest.mark.parametrize("seed", sampled(SEEDS, long=(3,)))
def test_no_cut_rules_out_a_walkable_arrangement(seed):
    """Planted, reported and hundreds of random walkable arrangements satisfy every cut."""
    assert held_to_account(planted(seed), 0.5, STEPS, seed) > 10


def test_the_rooms_make_cuts_enough_to_say_something():
    """Several of the rooms above need cuts, and cuts speak of one piece or several."""
    cuts = [cut for seed in SEEDS for cut in all_cuts(planted(seed))]
    assert len(cuts) > 20
    assert len({len(cut.holds) for cut in cuts}) > 1


@pytest.mark.parametrize("seed", SEEDS)
def test_nothing_inside_a_cut_can_be_walked(seed):
    """The other way round: put the pieces within their holds, the judge always refuses."""
    room_, rng = planted(seed), random.Random(seed)  # noqa: S311
    case = room_.scenario
    for cut in all_cuts(room_)[:30]:
        for _ in range(TRIES):
            arrangement = inside(rng, cut, case, room_.arrangement)
            assert ruled_out(cut, case, arrangement)
            assert breaches(case, arrangement)


@pytest.mark.parametrize("seed", [s for s in SEEDS if s % 2])
def test_the_model_with_every_cut_still_has_the_planted_arrangement(seed):
    """The clause in the model says the same as the numbers: pinned, it is feasible."""
    room_ = planted(seed)
    model = Model(room_.scenario, canonical=False)
    model.finish()
    for cut in all_cuts(room_):
        cut.add_to(model)
    model.pin(room_.arrangement)
    assert solve(model, Budget(20), goal="any").arrangement is not None


def test_the_model_with_a_cut_has_nothing_inside_it():
    """The clause is true of no arrangement that keeps all the holds: pinned, impossible."""
    case, arrangement = blocked()
    search = Search(case, Budget(10))
    scene = Scene(case, arrangement)
    for cut in search.blocked(scene):
        assert ruled_out(cut, case, arrangement)
        model = Model(case, canonical=False)
        model.finish()
        cut.add_to(model)
        model.pin(arrangement)
        assert solve(model, Budget(20), goal="any").status == "none"


def blocked():
    """A chest 3600 wide across a room of 4000, and a shelf behind it that nobody gets to.

    The gap beside the chest is 400, the walkway 600. The wall pieces stand on the
    short ends; the door is at the other end.
    """
    shape = room(((0, 5000), (4000, 5000), (4000, 0), (0, 0)), doors=(Door("door", 2, 100, 800),))
    shelf = piece("shelf", 1000, 300, clearances=(clearance(600),))
    chest = piece("chest", 3600, 400, stands="free", roles=("store",))
    settings = (RuleSetting("clear-floor", off=True),)
    case = scenario(shape, shelf, chest, settings=settings)
    return case, Arrangement((on_wall(shelf, shape, 0, 1500), at("chest", "down", 0, 2500)))


def test_a_cut_is_as_wide_as_it_goes():
    """Derived by hand: x from 0 to 400, and 400 different y, the one seen among them.

    The room is 4000 wide and the chest 3600, so neither gap beside it is ever 600.
    Along the room its places must share at least 1 mm of the chest's depth of 400,
    for that is what surely blocks the way: 400 - 1 mm from the first to the last.
    The shelf behind it may be anywhere on its wall.
    """
    case, arrangement = blocked()
    search = Search(case, Budget(10))
    scene = Scene(case, arrangement)
    cuts = search.blocked(scene)
    assert cuts
    for cut in cuts:
        holds = {h.placement.piece: h for h in cut.holds}
        chest, shelf = holds["chest"], holds["shelf"]
        assert (chest.low[0], chest.high[0]) == (None, None)
        assert chest.low[1] <= 2500 <= chest.high[1] == chest.low[1] + 399
        assert (shelf.low[0], shelf.high[0]) == (None, None)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(13, 113))
def test_many_rooms(seed):
    """As the first test, with longer walks."""
    held_to_account(planted(seed), 5.0, 1000, seed)
