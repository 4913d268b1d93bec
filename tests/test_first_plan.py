"""A first arrangement comes at once, the same each time, judged, and is never lost."""

from pathlib import Path

import pytest
from planted import planted
from sampled import sampled

from arrange import read
from arrange.budget import Budget
from arrange.data.result import NOTHING, Breach, Verdict
from arrange.judge import judge
from arrange.solver import question
from arrange.solver.search import Search
from arrange.suggesting import suggest

FAULTS = Path(__file__).with_name("faults")
EXAMPLES = Path(__file__).parent.parent / "scenarios"
NAMES = ("bay-room", "living-dining", "one-room-flat", "small-double-bedroom", "study-bedroom")


def first_of(case, seed=0):
    """The first arrangement, before anybody looks for a better one."""
    return Search(case, Budget(60), seed).best(patience=0)


def test_a_tight_room_with_a_known_arrangement_has_one_found():
    """Made by placing seven pieces first; was: nothing found in 20 s."""
    case, found = read(FAULTS / "tight-but-possible.toml"), []

    def heard(best):
        if best.arrangement is not None:
            found.append(best.arrangement)

    Search(case, Budget(60, lambda: bool(found)), heard=heard).best()
    assert found
    assert judge(case, found[0]).works


@pytest.mark.parametrize("name", sampled(NAMES, long=("living-dining",)))
def test_the_first_plan_is_the_same_each_time_and_works(name):
    """Two cores look for it; which is quicker on the day makes no difference."""
    case = read(EXAMPLES / f"{name}.toml")
    one, two = first_of(case), first_of(case)
    assert one.arrangement == two.arrangement
    assert one.arrangement is not None
    verdict = judge(case, one.arrangement)
    assert verdict.works
    assert verdict.standing == one.score


def test_a_room_where_nothing_fits_is_known_at_once():
    """Without walkways there is no arrangement: no better one need be looked for."""
    best = first_of(read(EXAMPLES / "too-much.toml"))
    assert (best.arrangement, best.closed) == (None, True)


def test_what_the_judge_does_not_pass_is_no_plan(monkeypatch):
    """The first answer is called unwalkable: another one is looked for, and that one counts."""
    refused, heard = [], []

    def strict(scenario, arrangement, *, gaps=True):
        verdict = judge(scenario, arrangement, gaps=gaps)
        if not refused:
            refused.append(arrangement)
        if arrangement == refused[0]:
            broken = Breach("walkway", (), "nobody gets there")
            return Verdict((broken,), verdict.reasons, verdict.score, ())
        return verdict

    monkeypatch.setattr(question, "judge", strict)
    best = Search(planted(2).scenario, Budget(60), heard=heard.append).best(patience=0)
    assert best.arrangement is not None
    assert refused[0] not in [best.arrangement, *(each.arrangement for each in heard)]


@pytest.mark.parametrize("finds", [1, 2])
def test_what_was_shown_is_never_lost(finds):
    """Stopped after so many finds: what comes out is as good as the best that was told."""
    told = []
    case = read(EXAMPLES / "one-room-flat.toml")
    result = suggest(
        case,
        top=1,
        seconds=20,
        listener=lambda progress: told.append(progress.score),
        stop=lambda: len({score for score in told if score > NOTHING}) >= finds,
    )
    assert result.suggestions[0].verdict.standing >= max(told) > NOTHING
