"""One piece of a finished plan put elsewhere: where it ends, what is said, what is offered."""

from dataclasses import replace
from pathlib import Path

import pytest
from command_line import names, run

from arrange.data.arrangement import Arrangement
from arrange.data.result import Result, Suggestion
from arrange.data.swap import Answer, Compared, Reading
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.output.fields import as_text
from arrange.output.records import as_data
from arrange.scenario.read import read, read_text
from arrange.whatif.move import MoveError, move
from arrange.words.swap import move_words

pytestmark = pytest.mark.fast

# A square room of 4 x 4 m. The desk stands in the middle of wall A, the trunk free below it.
ROOM = """
[room]
size = [400, 400]
[[door]]
wall = "C"
from_left = 20
width = 80
[[fixture]]
kind = "column"
at = [0, 0]
width = 40
depth = 40
[[piece]]
kind = "desk"
width = 120
depth = 60
stands_now = { wall = "A", from_left = 140 }
[[piece]]
kind = "desk chair"
stands_now = { across = 175, up = 290, facing = "up" }
[[piece]]
kind = "storage trunk"
width = 90
depth = 50
stands = "free"
stands_now = { across = 100, up = 100, facing = "down" }
[[piece]]
kind = "plant"
stands_now = { wall = "D", from_left = 300 }
"""


def room():
    scenario = read_text(ROOM)
    return scenario, Arrangement(tuple(scenario.today))


def bounds(scenario, arrangement, name):
    placed = Scene(scenario, arrangement).find(name)
    return placed.x0 // 10, placed.y0 // 10, placed.x1 // 10, placed.y1 // 10


@pytest.mark.parametrize(
    ("how", "where"),
    [
        ("20 cm left", (80, 100, 170, 150)),
        ("20 cm to the right", (120, 100, 210, 150)),
        ("up 0.3 m", (100, 130, 190, 180)),
        ("1 ft down", (100, 69, 190, 119)),
        # About its middle, 145 and 125: 50 x 90 then.
        ("turned left", (120, 80, 170, 170)),
        ("turn round", (100, 100, 190, 150)),
        ("onto wall B", (350, 80, 400, 170)),
        # From the left end of wall B, which is at the top: 400 - 30 - 90 = 280 to 370.
        ("against wall b, 30 cm from left", (350, 280, 400, 370)),
    ],
)
def test_a_piece_ends_where_it_was_sent(how, where):
    """By hand, in whole cm: left, low, right, high."""
    scenario, arrangement = room()
    found = move(scenario, arrangement, "storage trunk", how, seconds=0)
    assert bounds(scenario, found.arrangement, "storage trunk") == where
    others = [p for p in arrangement.placements if p.piece != "storage trunk"]
    assert [p for p in found.arrangement.placements if p.piece != "storage trunk"] == others


def test_what_goes_with_a_piece_goes_along():
    """The chair keeps its place at the desk: 20 cm left as well, and round at another wall."""
    scenario, arrangement = room()
    assert scenario.in_tow("desk") == ("desk chair",)
    chair, desk = (bounds(scenario, arrangement, n) for n in ("desk chair", "desk"))
    found = move(scenario, arrangement, "desk", "20 cm left")
    assert bounds(scenario, found.arrangement, "desk chair")[0] == chair[0] - 20
    at_b = move(scenario, arrangement, "desk", "onto wall B", seconds=0).arrangement
    before = desk[1] - chair[3]
    assert bounds(scenario, at_b, "desk")[0] - bounds(scenario, at_b, "desk chair")[2] == before


@pytest.mark.solver
def test_a_free_piece_keeps_its_freedom_at_a_wall():
    """The trunk need not stay at wall B: its place on the plan holds it, so it can be held."""
    from arrange.suggesting import suggest  # noqa: PLC0415  loads the solver
    from arrange.whatif.swap import holding  # noqa: PLC0415

    scenario, arrangement = room()
    at_b = move(scenario, arrangement, "storage trunk", "onto wall B", seconds=0).arrangement
    trunk = at_b.of("storage trunk")
    assert trunk.wall is None
    held = suggest(holding(scenario, [trunk]), top=1, seconds=20)
    assert held.suggestions[0].arrangement.of("storage trunk") == trunk


SLANTED = """
[room]
corners = [[0, 0], [0, 250], [150, 400], [400, 400], [400, 0]]
[[door]]
wall = "E"
from_left = 20
width = 80
[[piece]]
kind = "desk"
width = 120
depth = 60
stands_now = { wall = "D", from_left = 140 }
[[piece]]
kind = "storage trunk"
stands = "free"
stands_now = { across = 100, up = 100, facing = "down" }
"""


def test_a_free_piece_has_no_place_at_a_slanted_wall():
    """From (0, 250) to (150, 400); the desk has a back to follow it."""
    scenario = read_text(SLANTED)
    arrangement = Arrangement(scenario.today)
    with pytest.raises(MoveError, match="slanted, and storage trunk stands free"):
        move(scenario, arrangement, "storage trunk", "onto wall B")
    assert move(scenario, arrangement, "desk", "onto wall B").arrangement.of("desk").wall == 1


def test_what_is_lost_and_won_is_told_as_it_is_written():
    """Two sentences, each begun with a capital; a TV stays a TV."""
    scenario, arrangement = room()
    found = move(scenario, arrangement, "storage trunk", "20 cm left")
    (one, *_) = found.verdict.reasons
    better = replace(one, won=0, possible=50), replace(one, won=50, possible=50)
    lines = (
        Compared("a", (), better[1], replace(better[0], sentence="TV 20 cm off wall B")),
        Compared("b", (), better[0], replace(better[1], sentence="IV in sight")),
    )
    reading = Reading(Answer("works"), Answer("works"), lines)
    told = move_words(scenario, found, reading)
    assert told.endswith(". Worse: TV 20 cm off wall B. Better: IV in sight.")


def test_the_verdict_is_the_judges():
    """Both verdicts come from the judge, and a wall piece slid along its wall keeps it."""
    scenario, arrangement = room()
    found = move(scenario, arrangement, "desk", "30 cm right")
    assert found.works
    assert found.arrangement.of("desk").wall == arrangement.of("desk").wall
    assert found.before == judge(scenario, arrangement)
    assert found.verdict == judge(scenario, found.arrangement)


def test_what_does_not_work_comes_with_the_nearest_place_that_does():
    """The trunk goes to 10, 10 and stands in the column, which reaches to 40, 40.

    Its lid needs 40 cm of floor in front, below it: 30 cm up. That floor meets the column
    until it is 30 cm farther right as well. On a grid of 5 cm nothing nearer is free.
    """
    scenario, arrangement = room()
    there = move(scenario, arrangement, "storage trunk", "90 cm left", seconds=0).arrangement
    found = move(scenario, there, "storage trunk", "90 cm down", seconds=60)
    assert not found.works
    assert found.near is not None
    assert judge(scenario, found.near).works
    assert found.near_by == (300, 300)
    assert bounds(scenario, found.near, "storage trunk") == (40, 40, 130, 90)


def test_two_pieces_trade_places():
    """Plant and trunk, middle on middle; the plant had a wall at its back, the trunk gets it."""
    scenario, arrangement = room()
    found = move(scenario, arrangement, "storage trunk", "swapped with the plant", seconds=0)
    plant, trunk = (bounds(scenario, arrangement, n) for n in ("plant", "storage trunk"))
    moved = bounds(scenario, found.arrangement, "storage trunk")
    assert moved[0] == plant[0]  # at wall D
    assert moved[1] + moved[3] == pytest.approx(plant[1] + plant[3], abs=1)
    other = bounds(scenario, found.arrangement, "plant")
    assert other[0] + other[2] == trunk[0] + trunk[2]


@pytest.mark.parametrize(
    ("how", "told"),
    [
        ("somewhere nicer", "is not understood"),
        ("far left", "is not understood"),
        ("onto wall Q", "there is no 'wall q'"),
        ("swapped with the piano", "there is no other piece called 'piano'"),
        ("left", "is not understood"),
    ],
)
def test_what_is_not_understood_is_said(how, told):
    scenario, arrangement = room()
    with pytest.raises(MoveError, match=told) as refused:
        move(scenario, arrangement, "storage trunk", how)
    assert refused.value.hint


def test_no_such_piece():
    scenario, arrangement = room()
    with pytest.raises(KeyError):
        move(scenario, arrangement, "sofa", "20 cm left")


@pytest.fixture
def planned(tmp_path, monkeypatch):
    """A folder with the room and its plan as it stands today, which no search has a part in."""
    monkeypatch.chdir(tmp_path)
    Path("room.toml").write_text(ROOM, encoding="utf-8")
    scenario = read("room.toml")
    arrangement = Arrangement(tuple(scenario.today))
    verdict = judge(scenario, arrangement)
    one = Suggestion(1, arrangement, verdict, False, verdict.standing)
    result = Result(scenario, "found", (one,), 0, 0.0, None, 0)
    Path("plans").mkdir()
    Path("plans", "result.json").write_text(as_text(as_data(result)), encoding="utf-8")
    return tmp_path / "plans"


@pytest.mark.solver
def test_a_version_is_kept_held_and_taken_away_again(planned):
    """All of it from what lies in the folder; what does not work is not kept."""
    before = names(planned)
    refused = run("move", "plans", "storage trunk", "5 m up")
    assert refused.exit_code == 3
    assert refused.stdout.startswith("No. ")
    assert names(planned) == before

    done = run("move", "plans", "storage trunk", "onto wall B")
    assert done.exit_code == 0, done.output
    assert names(planned) == sorted([*before, "version.json", "version.png"])
    kept = run("suggest", "room.toml", "--from", "plans/version.json", "--hold", "Storage trunk")
    assert kept.exit_code == 0, kept.output

    again = run("move", "plans/version.json", "storage trunk", "20 cm up")
    assert again.exit_code == 0, again.output
    kept = {n for n in names(planned) if n.endswith(".json")}
    (later,) = kept - {*before, "version.json"}
    gone = run("move", "plans", "--undo")
    assert gone.stdout == f"{later} is gone; it was made from version.json.\n"
    gone = run("move", "plans/version.json", "--undo")
    assert gone.stdout == "version.json is gone; it was made from result.json.\n"
    assert names(planned) == before
    assert run("move", "plans", "--undo").exit_code == 2
    assert names(planned) == before


@pytest.mark.solver
def test_what_an_earlier_plan_cannot_hold_is_told(planned):
    """A piece that it has not, a piece that nobody has, and another room."""
    more = ROOM + '[[piece]]\nkind = "armchair"\n'
    (planned.parent / "more.toml").write_text(more, encoding="utf-8")
    (planned.parent / "wide.toml").write_text(ROOM.replace("[400, 4", "[450, 4"), encoding="utf-8")
    for file, piece, told in (
        ("more.toml", "armchair", "result.json has no armchair to hold in its place"),
        ("room.toml", "plnt", "there is no piece called 'plnt'; did you mean 'plant'?"),
        ("wide.toml", "plant", "result.json is a plan of another room"),
    ):
        done = run("suggest", file, "--from", "plans", "--hold", piece)
        assert done.exit_code == 2
        assert told in " ".join(done.stderr.split())
