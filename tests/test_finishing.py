"""The last touch: put back into the model, once built; what it does not decide is not confirmed."""

import time
from dataclasses import replace

import pytest
from planted import planted

from arrange.budget import Budget
from arrange.data.result import Verdict
from arrange.errors import DisagreementError
from arrange.judge import judge
from arrange.solver import session
from arrange.solver.session import Replay
from arrange.suggesting import suggest


def test_one_model_replays_every_suggestion(monkeypatch):
    """Two suggestions, one model built to confirm them."""
    built = []

    class Counted(session.Model):
        def __init__(self, *args, **more):
            built.append(1)
            super().__init__(*args, **more)

    monkeypatch.setattr(session, "Model", Counted)
    case = planted(2).scenario
    found = suggest(case, top=2, seconds=20)
    assert len(found.suggestions) == 2
    assert built == [1]
    for suggestion in found.suggestions:  # with the gaps that are drawn
        assert suggestion.verdict == judge(case, suggestion.arrangement)


def test_a_replay_ends_with_its_work_and_with_its_time():
    """Neither is a score, and neither is a broken must."""
    room = planted(3)
    replay = Replay(room.scenario)
    start = time.monotonic()
    assert replay.score(room.arrangement, Budget(10), work=1e-9) == "not decided"
    assert replay.score(room.arrangement, Budget(10, lambda: True)) in (
        "not decided",
        judge(room.scenario, room.arrangement).score,  # it may be done before it looks
    )
    assert time.monotonic() - start < 5
    assert (
        replay.score(room.arrangement, Budget(10))
        == replay.confirmed(room.arrangement, Budget(10))[0].score
    )


def test_another_score_or_a_broken_must_is_our_bug(monkeypatch):
    """Only "not decided" is let through, and it is not called confirmed."""
    room = planted(1)
    replay = Replay(room.scenario)
    for said in (judge(room.scenario, room.arrangement).score - 1, "broken"):
        monkeypatch.setattr(Replay, "score", lambda *_, said=said: said)
        with pytest.raises(DisagreementError, match="please report this scenario"):
            replay.confirmed(room.arrangement, Budget(10))
    monkeypatch.setattr(Replay, "score", lambda *_: "not decided")
    verdict, confirmed = replay.confirmed(room.arrangement, Budget(10))
    assert isinstance(verdict, Verdict)
    assert confirmed is False


@pytest.mark.parametrize("unsure", [1, 2])
def test_what_the_model_did_not_decide_is_shown_as_not_proven(unsure, monkeypatch):
    """Of two the first, or the second: with the judge's score, a note, and no claim at all."""
    case = planted(1).scenario
    sure = suggest(case, top=2, seconds=20)
    assert [s.proven for s in sure.suggestions] == [True, True]
    before = Replay.score
    scores = [s.verdict.score for s in sure.suggestions]
    assert scores[0] > scores[1]  # so that the two can be told apart below

    def undecided(replay, arrangement, budget):
        score = before(replay, arrangement, budget)
        return "not decided" if score == scores[unsure - 1] else score

    monkeypatch.setattr(Replay, "score", undecided)
    found = suggest(case, top=2, seconds=20)
    expected = [replace(s, seconds=0) for s in sure.suggestions]
    expected[unsure - 1] = replace(expected[unsure - 1], proven=False, bound=1000)
    assert [replace(s, seconds=0) for s in found.suggestions] == expected
    assert found.outcome == ("found" if unsure == 1 else "proven")
    assert found.bound == (1000 if unsure == 1 else sure.bound)
    assert any(f"arrangement {unsure}: its score is the judge's alone" in n for n in found.notes)
