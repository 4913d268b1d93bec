"""Whether a piece of another size fits, from kept plans and proofs: yes, no, or not known yet."""

import json
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest
from command_line import run
from planted import planted
from sampled import sampled
from small_rooms import at, free, piece, room, scenario, tied

from arrange.cli.fits import LEAST, Clock
from arrange.data.arrangement import Arrangement
from arrange.data.change import Resize, changed
from arrange.data.piece import Slot
from arrange.data.result import FULL, Result, Suggestion
from arrange.data.sizes import Largest
from arrange.judge import judge, works
from arrange.output.fields import as_text
from arrange.output.kept import read_kept
from arrange.output.records import as_data
from arrange.output.sizes import fits_data, largest_data
from arrange.scenario.read import read_text
from arrange.whatif.fits import Fits, Kept, Limit, fits, ruled_out
from arrange.words.fits import fits_words, in_the_way_words, words

pytestmark = pytest.mark.fast
MOMENT = 1e-9  # s: all is over before the solver could be loaded


def resized(case, name, **sizes):
    return changed(case, [Resize(name, **sizes)])


def ask(case, plan, name, seconds=MOMENT, limits=(), **sizes):
    """The answer for one piece in another size, from one kept plan."""
    kept = Kept(((1, plan),) if plan else (), tuple(limits))
    return fits(case, resized(case, name, **sizes), [name], kept, seconds=seconds)


# A chest of 60 x 40 at wall A from x = 1.00 m, and another 40 cm to the right of it.
PLAIN_ROOM = room()
TWO = scenario(PLAIN_ROOM, piece("chest"), piece("trunk"), walkway=500)
PLAN = Arrangement((at("chest", "down", 1000, 2600, 0), at("trunk", "down", 2000, 2600, 0)))


@pytest.mark.parametrize(
    ("width", "lows"),
    [
        (600, {1000}),
        # On either side of its middle, at 1300; to its right; to its left, from 1600.
        (1000, {800, 1000, 600}),
        # 600 to 2000, up to the trunk; 200 to 1600. To its right the trunk is in the way.
        (1400, {600, 200}),
        (1402, {198}),
        (1600, {0}),
    ],
)
def test_a_piece_grows_in_its_place_up_to_its_neighbour(width, lows):
    """Nothing else moves; its back stays at the wall."""
    found = ask(TWO, PLAN, "chest", width=width)
    assert (found.answer, found.how, found.plan) == ("works", "as it stands", 1)
    place = found.now.arrangement.of("chest")
    assert found.now.arrangement.of("trunk") == PLAN.of("trunk")
    assert place.x in lows
    assert (place.y, place.wall) == (2600, 0)


def test_near_by_is_no_farther_than_it_has_to_be():
    """170 cm from 1600 to the left end 10 cm beyond the corner: 10 cm right. 1 mm more: 15 cm.

    On either side of its middle it would have to go 15 cm left, off the trunk.
    """
    found = ask(TWO, PLAN, "chest", seconds=60, width=1700)
    assert (found.answer, found.how, found.aside) == ("works", "near by", (100, 0))
    assert found.now.arrangement.of("chest").x == 0
    assert fits_words(found).startswith(
        "Yes, in plan 1 with the chest 10 cm to the right; all else stays"
    )
    found = ask(TWO, PLAN, "chest", seconds=60, width=1701)
    assert abs(found.aside[0]) == 150
    assert found.now.arrangement.of("trunk") == PLAN.of("trunk")


def test_what_is_in_the_way_is_told_and_not_called_impossible():
    """2010 mm beside a trunk that stands 2000 mm from the corner; nobody asked the solver."""
    found = ask(TWO, PLAN, "chest", width=2010)
    assert (found.answer, found.plan) == ("not decided", 1)
    assert {"chest", "trunk"} <= {name for b in found.broken for name in b.subjects}
    assert fits_words(found).startswith("Not known yet: ")
    assert in_the_way_words(found).startswith("As plan 1 stands: ")


def test_the_plans_that_take_it_are_told_by_their_numbers():
    """In plan 2 it stands between the corner and the trunk; in plan 3 as in plan 1."""
    close = Arrangement((at("chest", "down", 0, 2600, 0), at("trunk", "down", 600, 2600, 0)))
    kept = Kept(((1, PLAN), (2, close), (3, PLAN)))
    found = fits(TWO, resized(TWO, "chest", width=900), ["chest"], kept, seconds=MOMENT)
    assert (found.plan, found.also) == (1, (3,))
    assert "It also fits in plan 3 as it stands" in fits_words(found)


# On its left as you face it, which is at the left on the plan as well: 400 wide, 50 off 1000.
LEFT = 550


def test_what_is_tied_goes_along():
    """A table 5 cm to the left of the chest keeps its gap."""
    case = scenario(PLAIN_ROOM, piece("chest"), tied("table", "chest"), walkway=500)
    before = Arrangement((at("chest", "down", 1000, 2600, 0), at("table", "down", LEFT, 2600)))
    assert works(case, before)
    found = ask(case, before, "chest", width=800)
    assert found.answer == "works"
    chest, table = (found.now.arrangement.of(name) for name in ("chest", "table"))
    assert chest.x - (table.x + 400) == 50


def test_all_of_one_name_grow_each_in_its_place_beside_its_anchor():
    """Two stools of 40 cm, 5 cm off the chest, as 50 cm ones: 5 cm off it still."""
    stools = [
        replace(tied(f"stool {i}", "chest", Slot(side, along=0, gap=50)), model="stool")
        for i, side in ((1, "left"), (2, "right"))
    ]
    case = scenario(PLAIN_ROOM, piece("chest"), *stools, walkway=500)
    # The right of the chest as you face it is at the right on the plan: 1000 + 600 + 50.
    plan = Arrangement(
        (
            at("chest", "down", 1000, 2600, 0),
            at("stool 1", "down", LEFT, 2600),
            at("stool 2", "down", 1650, 2600),
        )
    )
    assert works(case, plan)
    names = ["stool 1", "stool 2"]
    after = changed(case, [Resize(name, width=500, depth=500) for name in names])
    found = fits(case, after, names, Kept(((1, plan),)), seconds=MOMENT)
    assert (found.answer, found.how) == ("works", "as it stands")
    assert [found.now.arrangement.of(name).x for name in names] == [450, 1650]


# Proven: 140 cm wide works, 141 cm does not.
WIDEST = Limit("chest", "width", 1400, 1410)


@pytest.mark.parametrize(
    ("sizes", "says"),
    [
        ({"width": 1400}, False),
        ({"width": 1409}, False),  # between the two nothing is proven
        ({"width": 1410}, True),
        ({"width": 1415}, True),
        ({"width": 3900}, True),
        ({"width": 1410, "depth": 400}, True),
        ({"width": 1410, "depth": 500}, True),  # deeper is no easier
        ({"width": 1410, "depth": 399}, False),  # shallower may be
        ({"width": 1410, "height": 900}, True),
        ({"width": 1410, "height": 799}, False),
        ({"depth": 1500}, False),  # another dimension
    ],
)
def test_a_proof_says_no_to_what_is_no_easier(sizes, says):
    """The file has 60 x 40 cm, 80 cm high."""
    after = resized(TWO, "chest", **sizes)
    assert (ruled_out(TWO, after, ["chest"], [WIDEST]) is not None) == says
    other = Limit("trunk", "width", 1400, 1410)
    assert ruled_out(TWO, after, ["chest"], [other]) is None
    open_ = replace(WIDEST, next=None)
    assert ruled_out(TWO, after, ["chest"], [open_]) is None


def test_a_proof_about_what_is_round_says_no_to_that_size_alone():
    """A smaller circle is no part of a larger one, so nothing follows for sizes in between."""
    case = scenario(PLAIN_ROOM, free("table", 800, 800, shape="round"))
    limit = Limit("table", "width", 1400, 1410)

    def said(mm):
        return ruled_out(case, resized(case, "table", width=mm, depth=mm), ["table"], [limit])

    # Its depth grows with it, so it is not the table of the proof with one dimension changed.
    assert said(1410) is None


def test_no_is_said_at_once_and_only_where_no_usual_tie_could_give_way():
    found = ask(TWO, None, "chest", width=1500, limits=[WIDEST])
    assert (found.answer, found.limit) == ("impossible", WIDEST)
    assert "140 cm wide at most, proven" in fits_words(found)
    stool = replace(tied("stool", "trunk"), tied_by_kind=True)
    case = replace(TWO, pieces=(*TWO.pieces, stool))
    found = ask(case, None, "chest", width=1500, limits=[WIDEST])
    assert (found.answer, found.limit) == ("not decided", WIDEST)
    assert "with the stool where they usually stand" in fits_words(found)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(8))
def test_a_quick_yes_is_one_by_the_judge(seed):
    """Planted rooms, each piece 10 cm wider: where it says yes, what it shows works."""
    plant = planted(seed)
    case, plan = plant.scenario, plant.arrangement
    for one in case.pieces:
        sizes = {"width": one.width + 100}
        after = resized(case, one.name, **sizes)
        found = ask(case, plan, one.name, **sizes)
        assert found.answer in ("works", "not decided")
        if found.now is not None:
            assert works(after, found.now.arrangement)
            assert found.now.verdict == judge(after, found.now.arrangement, gaps=False)


@pytest.mark.solver
@pytest.mark.parametrize("seed", sampled(range(6), long=(3, 5)))
def test_the_answer_is_never_another_than_that_of_the_solver_alone(seed):
    """Planted rooms, their largest piece half as wide again and twice: yes, no and open."""
    from arrange.solver.feasibility import FeasibilityOracle  # noqa: PLC0415  loads the solver

    plant = planted(seed)
    case, plan = plant.scenario, plant.arrangement
    name = max(case.pieces, key=lambda p: p.width * p.depth).name
    oracle = FeasibilityOracle(60)
    for factor in (1.5, 2):
        sizes = {"width": round(case.piece(name).width * factor)}
        after = resized(case, name, **sizes)
        found = ask(case, plan, name, seconds=20, **sizes)
        sure = oracle.decide(after.apart(after.usual_ties), sure=True).answer
        assert found.answer in (sure, "not decided")
        if found.now is not None:
            assert works(found.after, found.now.arrangement)


@pytest.mark.solver
def test_others_move_where_they_have_to():
    """350 x 265 cm leave 35 cm before it and 50 cm beside it: there the trunk, 40 deep, goes."""
    found = ask(TWO, PLAN, "chest", seconds=20, width=3500, depth=2650)
    assert (found.answer, found.how) == ("works", "others move")
    assert [one.piece for one in found.reading.moved] == ["chest", "trunk"]
    assert fits_words(found).startswith("Yes, if the trunk moves: ")


@pytest.mark.solver
def test_the_piece_itself_goes_elsewhere_before_others_do():
    """350 cm beside a trunk in the middle of wall A: at wall C there are 400 cm."""
    found = ask(TWO, PLAN, "chest", seconds=20, width=3500)
    assert found.now.arrangement.of("trunk") == PLAN.of("trunk")
    assert fits_words(found).startswith("Yes, elsewhere: the chest ")
    assert "; all else stays as in plan 1." in fits_words(found)


@pytest.mark.solver
def test_what_nothing_works_with_is_impossible_by_two_configurations():
    """A chest 390 cm wide and 290 cm deep in a room of 4 x 3 m beside a trunk."""
    found = ask(TWO, PLAN, "chest", seconds=20, width=3900, depth=2900)
    assert (found.answer, found.limit) == ("impossible", None)
    assert fits_words(found) == (
        "No: nothing works with it, whatever else moves; we checked twice."
    )


@pytest.mark.solver
def test_a_usual_tie_gives_way_before_anything_is_impossible():
    """Tied to the left of the chest a stool of 40 cm leaves 355 cm of 400; free it is in front."""
    stool = replace(tied("stool", "chest"), tied_by_kind=True)
    case = scenario(PLAIN_ROOM, piece("chest"), stool, walkway=500)
    plan = Arrangement((at("chest", "down", 1000, 2600, 0), at("stool", "down", LEFT, 2600)))
    assert works(case, plan)
    found = ask(case, plan, "chest", seconds=20, width=3800)
    assert (found.answer, found.how, found.apart) == ("works", "ties give way", ("stool",))
    assert fits_words(found).startswith(
        "Yes, but only if the stool does not stand in its usual place"
    )


# -- what is kept ------------------------------------------------------------
TEXT = """
[room]
size = [400, 400]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "desk"
width = 120
depth = 60
stands_now = { wall = "A", from_left = 140 }
[[piece]]
kind = "desk chair"
stands_now = { across = 175, up = 290, facing = "up" }
"""


def written(folder, text=TEXT):
    """A folder with one kept plan, the largest width of the desk, and the scenario."""
    case, plan, files = answers(text)
    folder.mkdir(exist_ok=True)
    for name, content in files.items():
        (folder / name).write_text(content, encoding="utf-8")
    return case, plan


@cache
def answers(text):
    """The scenario of a text, its one plan, and the files of both answers."""
    case = read_text(text, "room.toml")
    plan = Arrangement(case.today)
    best = Suggestion(1, plan, judge(case, plan), proven=False, bound=FULL)
    result = Result(case, "found", (best,), FULL, 0.0, None, 0)
    wide = resized(case, "desk", width=1600)
    places = Arrangement(tuple(replace(p, x=p.x - 200 * (p.piece == "desk")) for p in case.today))
    most = Largest("desk", "width", "exact", 1600, 1610, None, wide, places)
    files = {"result.json": as_data(result), "largest.json": largest_data(most, case)}
    return case, plan, {name: as_text(data) for name, data in files.items()}


def test_kept_plans_and_proofs_are_read_back(tmp_path):
    case, plan = written(tmp_path)
    found = read_kept(tmp_path, case, ["desk"])
    assert found.kept.plans == ((1, plan),)
    (limit,) = found.kept.limits
    assert (limit.piece, limit.dimension, limit.size, limit.next) == ("desk", "width", 1600, 1610)
    assert limit.arrangement.of("desk").x == plan.of("desk").x - 200
    assert not found.stale
    assert not found.unread
    assert read_kept(tmp_path, case, ["desk chair"]).kept.limits == ()


def test_equal_scenarios_have_one_mark():
    """Whether a size was measured or assumed makes no difference to what works."""
    case = read_text(TEXT.replace("depth = 60\n", "").replace("width = 120\n", ""))
    desk = case.piece("desk")
    measured = TEXT.replace("depth = 60", f"depth = {desk.depth // 10}")
    other = read_text(measured.replace("width = 120", f"width = {desk.width // 10}"))
    assert case.pieces == other.pieces
    assert case.mark == other.mark
    assert resized(case, "desk", width=desk.width + 10).mark != case.mark


@pytest.mark.parametrize(
    ("change", "stale"),
    [
        (lambda case: case, ()),
        (lambda case: replace(case, title="Study"), ()),
        (lambda case: priced(case, "99.50"), ()),
        (lambda case: replace(case, walkway=610), ("result.json", "largest.json")),
        (lambda case: replace(case, feel=("calm",)), ("result.json", "largest.json")),
        (lambda case: resized(case, "desk", width=1210), ("result.json", "largest.json")),
    ],
)
def test_what_is_of_another_state_of_the_file_is_left_aside(tmp_path, change, stale):
    """Titles and prices make no difference to what works."""
    case, _ = written(tmp_path)
    found = read_kept(tmp_path, change(case), ["desk"])
    assert found.stale == stale
    assert bool(found.kept.plans) == (not stale)
    assert bool(found.kept.limits) == (not stale)


def priced(case, price):
    return replace(case, pieces=tuple(replace(p, price=Decimal(price)) for p in case.pieces))


@pytest.mark.parametrize(
    "change",
    [
        lambda _: "{",
        lambda _: "[]",
        lambda text: text.replace('"size": 1600', '"size": "1600"'),
        lambda text: text.replace('"size": 1600', '"size": 1e400'),
        lambda text: text.replace('"size": 1600', '"size": NaN'),
        lambda text: text.replace('"dimension": "width"', '"dimension": "girth"'),
        lambda text: text.replace('"wall": "A"', '"wall": "Z"'),
        lambda text: text.replace('"piece": "desk chair"', '"piece": "horse"'),
    ],
)
def test_a_file_nobody_can_trust_is_left_aside(tmp_path, change):
    """Cut off, of other types, of walls and pieces that are not there."""
    case, _ = written(tmp_path)
    file = tmp_path / "largest.json"
    text = file.read_text(encoding="utf-8")
    file.write_text(change(text), encoding="utf-8")
    assert change(text) != text
    found = read_kept(tmp_path, case, ["desk"])
    assert found.unread == ("largest.json",)
    assert found.kept.limits == ()
    assert found.kept.plans


def test_another_question_and_other_rules_are_no_proof(tmp_path):
    case, _ = written(tmp_path)
    file = tmp_path / "largest.json"
    data = json.loads(file.read_text(encoding="utf-8"))
    file.write_text(json.dumps({**data, "changes": [{"change": "Drop"}]}), encoding="utf-8")
    found = read_kept(tmp_path, case, ["desk"])
    assert (found.kept.limits, found.stale, found.unread) == ((), (), ())
    other = {**data, "versions": {**data["versions"], "arrange": "0.0.1"}}
    file.write_text(json.dumps(other), encoding="utf-8")
    assert read_kept(tmp_path, case, ["desk"]).stale == ("largest.json",)


def test_the_list_to_shop_with_is_a_proof_for_what_is_alone(tmp_path):
    """Of two alike one was asked about, perhaps under other wishes."""
    case, _ = written(tmp_path)
    entry = {
        "piece": "desk",
        "widest": 1600,
        "widest_proven": True,
        "deepest": 900,
        "deepest_proven": False,
    }
    made = {"made_of": case.mark, "versions": {"arrange": "0.1.0"}}
    (tmp_path / "largest.json").unlink()
    (tmp_path / "shop.json").write_text(json.dumps({**made, "pieces": [entry]}), encoding="utf-8")
    assert read_kept(tmp_path, case, ["desk"]).kept.limits == (Limit("desk", "width", 1600, 1610),)
    again = replace(case.piece("desk"), name="desk 2")
    twins = replace(case, pieces=(*case.pieces, again))
    made["made_of"] = twins.mark
    (tmp_path / "shop.json").write_text(json.dumps({**made, "pieces": [entry]}), encoding="utf-8")
    assert read_kept(tmp_path, twins, ["desk"]).kept.limits == ()


def test_the_plan_of_the_largest_takes_what_is_smaller(tmp_path):
    """The kept plan is full to the left and right of the desk; the other one is not."""
    case, _ = written(tmp_path)
    limits = read_kept(tmp_path, case, ["desk"]).kept.limits
    found = fits(case, resized(case, "desk", width=1500), ["desk"], Kept((), limits), seconds=1e-9)
    assert (found.answer, found.how) == ("works", "found")
    assert works(found.after, found.now.arrangement)


# -- the command -------------------------------------------------------------
@pytest.mark.parametrize(
    ("old", "took", "used", "left"),
    [
        # 0.25 s of the processor went before; 0.3 s are kept for what comes after the question.
        (0.25, 0.5, 0.5, 2 - 0.5 - 0.25 - 0.3),
        (40.0, 0.5, 0.5, 2 - 0.5 - 0.3 - 0.3),  # called by another program: that began long ago
        (0.25, 0.5, 0.8, 2 - 0.5 - 0.25 - 0.3),  # two threads at once are not slower than one
        # Twice as long as the processor worked: so twice as long before and after, too.
        (0.25, 0.6, 0.3, 2 - 0.6 - 2 * 0.55),
        (0.25, 1.5, 0.3, LEAST),
    ],
)
def test_on_a_busy_machine_less_time_is_left_for_the_question(old, took, used, left, monkeypatch):
    """The whole answer is to be there in two seconds, whatever else the machine does."""
    now = {"monotonic": 100.0, "process_time": old}
    monkeypatch.setattr("arrange.cli.fits.time.monotonic", lambda: now["monotonic"])
    monkeypatch.setattr("arrange.cli.fits.time.process_time", lambda: now["process_time"])
    clock = Clock()
    now["monotonic"] += took
    now["process_time"] += used
    assert clock.left(2.0) == pytest.approx(left)


def test_the_command_answers_with_the_exit_code_of_the_others(tmp_path, monkeypatch):
    """0 yes, 3 proven, 4 not known yet; 2 for what is not understood."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(TEXT, encoding="utf-8")
    written(tmp_path / "room-plans")
    yes = run("fits", "room.toml", "desk=130x60", "--time", "0.001")
    assert (yes.exit_code, yes.output.split(".")[0]) == (0, "Yes, in plan 1 as it stands")
    assert "Whether it can be carried in is not judged: the door is 80 cm wide." in yes.output
    assert run("fits", "room.toml", "desk=4 ft 4 x 24in", "--time", "0.001").exit_code == 0
    open_ = run("fits", "room.toml", "desk=390x350", "--time", "0.001")
    assert open_.exit_code == 4
    assert "arrange swap room.toml desk=390x350 decides it, given time." in open_.output
    told = json.loads(run("fits", "room.toml", "desk=130x60", "--json").output)
    assert (told["answer"], told["how"], told["plan"]) == ("works", "as it stands", 1)
    assert told["sizes"][0]["width"] == 1300
    bad = run("fits", "room.toml", "desk=wide")
    assert bad.exit_code == 2
    assert run("fits", "room.toml", "sofa=200x90").exit_code == 2


def test_a_kept_proof_says_no_at_the_shop(tmp_path, monkeypatch):
    """160 cm is the most by the kept answer; nobody asks the solver. Its depth is assumed."""
    monkeypatch.chdir(tmp_path)
    alone = TEXT[: TEXT.index('[[piece]]\nkind = "desk chair"')].replace("depth = 60\n", "")
    # Of wall A 340 cm are left beside it.
    alone += '[[fixture]]\nkind = "boxed pipe"\nwall = "A"\nfrom_left = 0\nwidth = 60\ndepth = 60\n'
    (tmp_path / "room.toml").write_text(alone, encoding="utf-8")
    written(tmp_path / "room-plans", alone)
    deep = read_text(alone).piece("desk").depth // 10
    for size, code in ((f"350x{deep}", 3), (f"350x{deep + 5}", 3), (f"350x{deep - 5}", 4)):
        found = run("fits", "room.toml", f"desk={size}", "--time", "0.001")
        assert found.exit_code == code, size
        assert found.output.startswith("No: the desk can be 160 cm wide at most" * (code == 3))


def test_a_changed_file_is_told_and_its_plans_are_not_used(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    written(tmp_path / "room-plans")
    (tmp_path / "room.toml").write_text(TEXT.replace("400, 400", "400, 390"), encoding="utf-8")
    found = run("fits", "room.toml", "desk=130x60", "--time", "0.001")
    assert found.exit_code == 4
    assert "result.json and largest.json are from an earlier version of your file" in found.output


@pytest.mark.solver
def test_without_kept_answers_the_solver_is_asked(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(TEXT, encoding="utf-8")
    found = run("fits", "room.toml", "desk=180x80", "--time", "30")
    assert found.exit_code == 0
    assert found.output.startswith("Yes: we found a plan with it")
    none = run("fits", "room.toml", "desk=390x350", "--time", "30")
    assert (none.exit_code, none.output[:3]) == (3, "No:")


def test_what_is_said_is_in_the_record():
    found = Fits(("chest",), TWO, TWO, "not decided")
    assert fits_data(found)["sentence"] == fits_words(found)
    assert "decides it" in words(found, "arrange swap")
