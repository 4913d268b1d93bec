"""Sentences and tables read as a person reads them: what is called better must be better.

Directions are checked by placing a piece and reading where the words say it is. In the plain
room of ``small_rooms`` wall A is at the top, B right, C bottom, D left; x grows to the right.
"""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from small_rooms import A, B, at, clearance, free, on_wall, only, piece, room, scenario

from arrange.cli import main
from arrange.data.arrangement import Arrangement
from arrange.data.comparison import Comparison, Cost, Option, Row
from arrange.data.conflict import Conflict, Requirement
from arrange.data.result import (
    FAULT,
    Families,
    Family,
    Reason,
    Result,
    Spare,
    Suggestion,
    Verdict,
)
from arrange.data.room import Door, Window
from arrange.data.sizes import Ladder, Rung, Size, SizeTable
from arrange.data.sources import Source
from arrange.data.swap import Answer, Compared, Plan, Reading, Stand, Swap
from arrange.draw.overview import differences
from arrange.geometry.scene import Scene
from arrange.geometry.walking import goals
from arrange.judge import judge
from arrange.output.records import as_data, compare_data
from arrange.output.spreadsheets import compare_csv
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.whatif.slack import spares
from arrange.whatif.swap import moved
from arrange.words.cautions import LAST, cautions
from arrange.words.compare import by_difference, cost_words
from arrange.words.compare import words as comparison_words
from arrange.words.places import stands_words, wall_called
from arrange.words.reasons import AVOIDABLE, HELPLESS, choose, reason_rows, said_of_all
from arrange.words.sizes import words_of_ladder
from arrange.words.suggest import families_words
from arrange.words.suggest import words as suggest_words
from arrange.words.swap import better, price_words, stand_words, worse
from arrange.words.swap import words as swap_words
from arrange.words.why import conflict_lines, proof

pytestmark = pytest.mark.fast

SOURCE = Source("own", "common practice", "common practice")
CHEST = piece("chest", 800, 400, major=True)
NOWHERE = Path("out")
FILE = """unit = "mm"
[room]
size = [3000, 3000]
[[door]]
wall = "A"
from_left = 100
width = 800
[[piece]]
kind = "bookcase"
"""


def reason(rule, won, possible, sentence=""):
    return Reason(rule, (), sentence or f"The {rule}", "", "", won, possible, SOURCE)


# ------------------------------------------------------------------ left, right, up, down

TOWARD = {"up": (0, 1), "down": (0, -1), "left": (-1, 0), "right": (1, 0)}


@pytest.mark.parametrize("facing", TOWARD)
def test_the_words_say_which_way_a_piece_faces(facing):
    """Its front is looked for in the room: free floor asked for before it lies that way."""
    chair = free("chair", 500, 500, clearances=(clearance(400),))
    case = only(scenario(room(), chair))
    stands = at("chair", facing, 1800, 1300)
    scene = Scene(case, Arrangement((stands,)))
    placed = scene.find("chair")
    zone = scene.zone(placed, chair.clearances[0], "front", 400)
    dx = zone.centroid.x - placed.body.centroid.x
    dy = zone.centroid.y - placed.body.centroid.y
    assert (dx * TOWARD[facing][0] + dy * TOWARD[facing][1]) == pytest.approx(450)
    sides = {"up": "top", "down": "bottom"}
    plan = f"the {sides.get(facing, facing)} of the plan"
    assert stands_words(case, stands) == f"out in the room, facing {plan}"
    assert stand_words(Stand(facing)) == f"out in the room, facing {plan}"
    other = at("chair", "down" if facing != "down" else "up", 1800, 1300)
    big = only(scenario(room(), replace(chair, major=True)))
    (told,) = differences(big, Arrangement((other,)), Arrangement((stands,)))
    assert told == f"the chair faces {plan}"


@pytest.mark.parametrize(
    ("wide", "facing", "told"),
    [
        (1600, "up", "out in the room, its long side running left to right"),
        (1600, "left", "out in the room, its long side running top to bottom"),
        (800, "up", "out in the room, its long side running top to bottom"),
        (900, "up", "out in the room"),
    ],
)
def test_a_bare_table_faces_nothing(wide, facing, told):
    """900 deep and alike from all sides: where its body is long is what is seen of its turn."""
    table = free("table", wide, 900, roles=("table",))
    case = only(scenario(room(), table))
    stands = at("table", facing, 1000, 1000)
    body = Scene(case, Arrangement((stands,))).find("table").body
    x0, y0, x1, y1 = body.bounds
    runs = {True: "left to right", False: "top to bottom"}[x1 - x0 > y1 - y0]
    assert stands_words(case, stands) == told
    assert wide == 900 or runs in told


@pytest.mark.parametrize(
    ("wall", "name", "said"), [(A, "A", "the wall at the top (A)"), (B, "B", "the right wall (B)")]
)
def test_a_piece_is_told_on_the_wall_it_has_at_its_back(wall, name, said):
    """By where its body is: at the top of the plan, or at the right."""
    case = only(scenario(room(), CHEST))
    stands = on_wall(CHEST, room(), wall, 100)
    body = Scene(case, Arrangement((stands,))).find("chest").body
    assert body.bounds[3 if name == "A" else 2] == {"A": 3000, "B": 4000}[name]
    assert stands_words(case, stands) == f"against {said}"


def test_a_wall_is_called_by_what_is_in_it():
    """The one wall with a window, else with a door, and those across; two alike by letter."""
    window, door = Window("window", A, 1000, 1200), Door("door", B, 500, 800)
    both = room(doors=(door,), windows=(window,))
    assert [wall_called(both, name) for name in "ABCD"] == [
        "the window wall (A)",
        "the door wall (B)",
        "the wall opposite the window (C)",
        "the wall opposite the door (D)",
    ]
    two = room(doors=(door,), windows=(window, Window("other", 2, 1000, 1200)))
    assert [wall_called(two, name) for name in "AB"] == [
        "the wall at the top (A)",
        "the door wall (B)",
    ]
    own = replace(both, walls=tuple(replace(w, name=f"wall to the {w.name}") for w in both.walls))
    assert wall_called(own, "wall to the A") == "the wall to the A"


@pytest.mark.parametrize(("side", "other", "x"), [("left", "right", 1000), ("right", "left", 3400)])
def test_the_side_that_is_told_is_the_side_that_is_free(side, other, x):
    """A bed on the top wall, its sides at 1500 and 3000; a box stands 400 mm off one of them.

    As one faces it from below, its left is the plan's left.
    """
    sides = tuple(clearance(0, 700, sides=(s,), name=s) for s in ("left", "right"))
    bed, box = piece("bed", 1500, 2000, clearances=sides), free("box", 100, 100)
    case = only(scenario(room(), bed, box), "comfortable-clearance")
    stands = (on_wall(bed, room(), A, 1500), at("box", "down", x, 1500))
    scene, rule = Scene(case, Arrangement(stands)), ComfortableClearance()
    told = {c.about[0]: rule.measure(scene, c).sentence for c in rule.claims(case)}
    assert told[side].startswith(f"40 cm free on the {side} of the bed (as you face it)")
    assert f"on the {other} of the bed" in told[other]
    # The same without a wall at its back or a front: nobody could say which side that is.
    stands = (at("bed", "down", 1500, 900), at("box", "down", x, 1500))
    told = {
        c.about[0]: rule.measure(Scene(case, Arrangement(stands)), c).sentence
        for c in rule.claims(case)
    }
    assert told[side].startswith("40 cm free on one side of the bed to use it")
    assert "40 cm" not in told[other]


def test_across_is_between_the_left_and_the_right_wall_and_up_between_the_others():
    """A shelf 3800 long in 4000 leaves 200 across; 400 deep in 3000 far more up the plan."""
    shelf = piece("shelf", 3800, 400)
    case = only(scenario(room(), shelf))
    found = spares(case, Arrangement((on_wall(shelf, room(), A, 100),)))
    across = next(s for s in found if s.direction == "across")
    assert set(across.between) == {"wall D", "wall B"}
    assert across.mm == 200
    for spare in found:
        if spare.direction == "up":
            assert set(spare.between) == {"wall C", "wall A"}


# ------------------------------------------------------------------ better and worse


def lines_marked(text, mark):
    return [line.strip()[2:] for line in text.splitlines() if line.strip().startswith(f"{mark} ")]


def planned(*placements):
    case = only(scenario(room(), CHEST))
    arrangement = Arrangement(tuple(placements))
    return Plan(case, arrangement, judge(case, arrangement), 1000)


GAINS = (
    Compared("a", (), reason("little better", 40, 100), reason("little better", 50, 100)),
    Compared("b", (), reason("much better", 10, 100), reason("much better", 90, 100)),
    Compared("c", (), reason("much worse", 90, 100), reason("much worse", 10, 100)),
    Compared("d", (), reason("little worse", 50, 100), reason("little worse", 40, 100)),
    Compared("e", (), reason("same", 50, 100), reason("same", 50, 100)),
    Compared("f", (), None, reason("new and good", 90, 100)),
    Compared("g", (), None, reason("new and bad", 10, 100)),
)


def swapped(price=None):
    case = only(scenario(room(), CHEST))
    plans = planned(on_wall(CHEST, room(), A, 100)), planned(on_wall(CHEST, room(), A, 900))
    reading = Reading(Answer("works", plans[0]), Answer("works", plans[1]), GAINS)
    return Swap(
        before=case, after=case, changes=(), kept=(), free=reading, held=reading,
        start="best before", holds=(), follows=(), slides=(), same_scale=True, price=price, seed=0,
        seconds=1.0,
    )  # fmt: skip


def test_what_is_better_after_a_swap_has_the_plus_the_largest_change_first():
    """By hand from the points before and after; the new ones come last."""
    text = swap_words(swapped(), NOWHERE, ())
    plus, minus = lines_marked(text, "+"), lines_marked(text, "-")
    heads = [line.split(" (")[0] for line in plus[:3]]
    assert heads == ["The much better", "The little better", "The new and good"]
    heads = [line.split(" (")[0] for line in minus[:3]]
    assert heads == ["The much worse", "The little worse", "The new and bad"]
    assert "The same" not in text
    reading = swapped().free
    assert [c.rule for c in better(reading)] == ["b", "a", "f"]
    assert [c.rule for c in worse(reading)] == ["c", "d", "g"]
    assert "1.0 points before, 9.0 after, of 10.0" in " ".join(text.split())


@pytest.mark.parametrize(("price", "words"), [(40, "40 more"), (-40, "40 less")])
def test_a_dearer_swap_costs_more(price, words):
    """And a cheaper one less; the amount has no sign of its own."""
    assert f"Costs {words} than before" in price_words(swapped(price))


def test_a_wall_may_have_a_stroke_in_its_name():
    """Two walls are told of a corner, whatever they are called."""
    told = stand_words(Stand("down", corner=("hall/kitchen", "wall B")))
    assert told == "across the corner between the hall/kitchen and wall B"


def test_the_rows_of_reasons_have_plus_for_what_was_won():
    """80 of 80 is a gain, 0 of 40 a loss, whichever comes first in the list."""
    told = [reason("bad", 0, 40), reason("good", 80, 80)]
    chosen = choose(told, 4)
    rows = reason_rows(chosen.won, chosen.lost)
    assert [row.strip() for row in rows] == [
        "+ The good (8.0 of 8.0)",
        "- The bad (0.0 of 4.0)",
    ]


def test_reasons_are_told_in_the_order_of_what_they_won_or_lost():
    """Biggest gain first, biggest loss first, in whatever order they come."""
    told = [reason(f"{won}", won, 100) for won in (60, 95, 20, 5, 80, 0)]
    for order in (told, told[::-1]):
        chosen = choose(order, 6)
        assert [r.won for r in chosen.won] == [95, 80, 60]
        assert [r.won for r in chosen.lost] == [0, 5, 20]


def test_what_lost_most_is_told_whatever_it_won():
    """A wish half met lost 50 of 100, more than anything else: it is among what lost most."""
    half, bad = reason("half", 50, 100), reason("bad", 0, 40)
    told = [reason("good", 80, 80), reason("fair", 70, 70), half, bad]
    assert choose(told, 4).lost == (half, bad)
    most = reason("most", 90, 131)
    assert choose([*told, most], 4).lost[:2] == (half, most)  # lost 50 and 41, not 40


def test_what_a_wish_says_is_not_said_twice():
    """The rule of daylight measures the same length; it is added to the rest."""
    rule = reason("daylight", 71, 71, "The chair is 10 cm from the window")
    wish = reason("near", 100, 100, f"{rule.sentence}; you asked for 100 cm or less")
    wish = replace(wish, part="asked")
    chosen = choose([rule, wish], 4)
    assert (chosen.won, chosen.lost, chosen.rest) == ((wish,), (), (rule,))


def test_what_all_plans_earn_is_told_last():
    """It is no reason to take the one rather than the other; what was lost is told all the same."""
    one = [reason("room", 90, 90), reason("view", 60, 60), reason("bad", 0, 40)]
    two = [reason("room", 90, 90), reason("sun", 20, 20), reason("bad", 0, 40)]
    verdicts = [Verdict((), tuple(each), 0) for each in (one, two)]
    of_all = said_of_all(verdicts)
    assert [choose(each, 2, of_all).won[0].rule for each in (one, two)] == ["view", "sun"]
    assert [choose(each, 2, of_all).lost[0].rule for each in (one, two)] == ["bad", "bad"]
    assert said_of_all(verdicts[:1]) == frozenset()


# ------------------------------------------------------------------ options side by side


def option(name, won, cost=None, **more):
    case = only(scenario(room(), CHEST))
    stands = Arrangement((on_wall(CHEST, room(), A, 100),))
    score = more.pop("score", won)
    return Option(
        name, case, "searched", "proven", stands, score, score, cost=cost or Cost(), **more
    )


def side_by_side(*wins):
    """Two options; a row for each pair of tenths out of 100."""
    rows = []
    for number, pair in enumerate(wins):
        best = () if pair[0] == pair[1] else (int(pair[1] > pair[0]),)
        reasons = tuple(reason(f"r{number}", won, 100) for won in pair)
        rows.append(Row(f"r{number}", (), f"Row {number}", reasons, best))
    totals = [sum(pair[i] for pair in wins) for i in (0, 1)]
    options = tuple(option("AB"[i], totals[i]) for i in (0, 1))
    return Comparison(options, tuple(rows), one_scale=True, best=(int(totals[1] > totals[0]),))


def test_the_better_one_in_the_table_has_the_mark():
    """Each row: the mark stands right before the larger number, and before that alone."""
    text = comparison_words(side_by_side((10, 90), (60, 50)), NOWHERE, ())
    rows = {line[:5]: line.split()[-2:] for line in text.splitlines() if line.startswith("Row")}
    assert rows == {"Row 0": ["1.0", ">9.0"], "Row 1": [">6.0", "5.0"]}
    (score,) = [line for line in text.splitlines() if line.startswith("Score, of 100")]
    assert score.split()[-2:] == ["7.0", ">14.0"]
    assert "> marks the best in each row" in text


def test_rows_that_differ_most_come_first_and_the_others_are_counted():
    """80 apart, then 10; one alike, one asked of one option only."""
    case = side_by_side((60, 50), (10, 90), (30, 30))
    alone = Row("alone", (), "Alone", (None, reason("alone", 10, 100)))
    case = replace(case, rows=(*case.rows, alone))
    rows, alike, single = by_difference(case.rows)
    assert [row.title for row in rows] == ["Row 1", "Row 0"]
    assert (alike, single) == (1, 1)
    text = " ".join(comparison_words(case, NOWHERE, ()).split())
    assert "1 row does not differ and 1 row is about one option only" in text


def test_rows_for_which_there_is_no_room_are_counted():
    """Fifteen are shown; of 17 that differ and one that is alike two more differ."""
    case = side_by_side(*((10, 20 + number) for number in range(17)), (50, 50))
    text = comparison_words(case, NOWHERE, ())
    assert sum(line.startswith("Row ") for line in text.splitlines()) == 15
    assert "2 more rows differ and 1 row does not differ" in " ".join(text.split())


@pytest.mark.parametrize(
    ("cost", "words", "cell"),
    [
        (Cost(), "no prices given", ""),
        (Cost(0.0), "0", "0"),
        (Cost(80.5), "80.50", "80.5"),
        (Cost(80.0, ("lamp",)), "80, and 1 without a price", "80"),
    ],
)
def test_nothing_to_buy_is_zero_and_not_blank(cost, words, cell):
    """In words, in the data and in the file for a spreadsheet."""
    one = option("A", 500, cost)
    assert cost_words(one) == words
    both = Comparison((one, one), (), one_scale=True)
    assert compare_data(both)["options"][0]["to_buy"] == cost.total
    rows = {row[0]: row for row in csv.reader(io.StringIO(compare_csv(both))) if row}
    found = rows["to buy"][3]
    assert (found == "") if cell == "" else float(found) == float(cell)


# ------------------------------------------------------------------ how sure, and how many


@pytest.mark.parametrize(
    ("count", "complete", "words"),
    [
        (3, True, "The large pieces can stand in 3 ways in all"),
        (1, True, "The large pieces can stand in one way in all"),
        (3, False, "The large pieces can stand in at least 3 ways"),
    ],
)
def test_all_is_said_only_where_all_were_counted(count, complete, words):
    """The other says that the time ran out."""
    told = families_words(Families((Family((), 1, True, Arrangement(())),) * count, complete))
    assert told.startswith(words)
    assert ("in all" in told) is complete
    assert ("at least" in told) is not complete
    assert ("time ran out" in told) is not complete


@pytest.mark.parametrize(
    ("minimal", "confirmed", "says", "says_not"),
    [
        (True, True, "without any one of them the rest works", "may have no part"),
        (False, True, "Some of them may have no part in it", "the rest works"),
        (False, False, "Not proven yet: the time ran out", "checked in two ways"),
    ],
)
def test_no_more_is_called_proven_than_is(minimal, confirmed, says, says_not):
    """The three states of a set."""
    told = proof(Conflict((Requirement("piece", "bed"),), confirmed, minimal))
    assert says in told
    assert says_not not in told


def test_members_of_a_clash_are_numbered_from_one():
    """In their order, with the set's own number of how many in the head."""
    case = scenario(room(doors=(Door("door", B, 500, 800),)), CHEST, piece("shelf"))
    members = (Requirement("piece", "chest"), Requirement("piece", "shelf"), Requirement("doors"))
    lines = conflict_lines(case, Conflict(members, True, True), 2, 3)
    assert lines[0] == "You cannot have all of these (2 of 3):"
    assert [line.split()[0] for line in lines[1:4]] == ["1", "2", "3"]
    assert "chest" in lines[1]
    assert "shelf" in lines[2]
    assert "door" in lines[3]


@pytest.mark.parametrize("exact", [True, False])
def test_at_least_is_said_in_the_data_where_it_is_said_in_words(exact):
    """``at_least`` is the opposite of exact, and the sentence beside it agrees."""
    spare = Spare(("wall D", "wall B"), ("chest",), ("chest",), "across", 200, exact)
    one = option("A", 500, spare=(spare,))
    (data,) = compare_data(Comparison((one, one), (), one_scale=True))["options"][0]["spare"]
    assert data["at_least"] is not exact
    assert ("at least" in data["sentence"]) is data["at_least"]


def result_of(case, *placements):
    arrangement = Arrangement(tuple(placements))
    verdict = judge(case, arrangement)
    one = Suggestion(1, arrangement, verdict, True, verdict.score)
    return Result(case, "proven", (one,), verdict.score, 1.0, 1.0, 0)


def test_the_count_of_cautions_is_what_is_left_of_them():
    """One is told; with the rest that are counted, and the last, they are all there are."""
    tall = piece("wardrobe", 1000, 600, 2000, roles=("store", "clothes", "tall"))
    case = only(scenario(room(), tall))
    result = result_of(case, on_wall(tall, room(), A, 100))
    every = [c for c in cautions(case, result.suggestions[0].arrangement) if c != LAST]
    assert len(every) == 2
    text = " ".join(suggest_words(result, NOWHERE, ("plan-1.png", "result.json")).split())
    first = " ".join(every[0].partition(" [")[0].split())  # who says so stands on the sheet
    assert f"Take care: {first} There is 1 more on the sheets." in text
    files = "plan-1.png", "result.json"
    told = " ".join(suggest_words(result, NOWHERE, files, everything=True).split())
    assert all(" ".join(one.split()) in told for one in (*every, LAST))
    assert "more on the sheets" not in told
    assert as_data(result)["format"]


# ------------------------------------------------------------------ faults, parts, first screen


def told_of(reasons, *, rank=1, proven=True, bound=None, everything=False):
    """What a terminal shows of one suggestion with these reasons."""
    case = only(scenario(room(), CHEST))
    stands = Arrangement((on_wall(CHEST, room(), A, 100),))
    verdict = Verdict((), tuple(reasons), sum(r.won for r in reasons))
    bound = verdict.standing if bound is None else bound
    one = Suggestion(rank, stands, verdict, proven, bound)
    result = Result(case, "proven" if proven else "found", (one,), bound, 1.0, 1.0, 0)
    return suggest_words(result, NOWHERE, ("plan-1.png", "result.json"), everything=everything)


GOOD = reason("good", 300, 400, "The good thing")
BAD = replace(reason("bad", 0, 100, "The bad thing"), part="sits", faults=1)
WORSE = replace(reason("worse", 0, 100, "The worse thing"), part="sits", faults=1)


def test_the_first_screen_is_short_and_the_rest_is_told_on_request():
    """The answer, the plan with its points, its best and worst, the folder; then all the rest."""
    first = told_of([GOOD, reason("lost", 0, 100, "The lost thing")])
    assert "This is the best there is; we checked." in first
    assert (
        "1. 30.0 of 100 points: the chest against the wall at the top (A)\n"
        "   + The good thing\n   - The lost thing\n" in first
    )
    assert "every caution: --all" in first
    assert "10.0" not in first
    assert "It works" not in first
    told = told_of([GOOD, reason("lost", 0, 100, "The lost thing")], everything=True)
    assert "The lost thing (0.0 of 10.0)" in told
    assert "It works                 ######....  30.0 of 50.0" in told
    assert "--all" not in told


@pytest.mark.parametrize(
    ("more", "head"),
    [
        ({}, HELPLESS),
        ({"proven": False, "bound": 900 - 2 * FAULT}, HELPLESS),
        ({"proven": False, "bound": 900 - FAULT}, AVOIDABLE),
        ({"rank": 2}, AVOIDABLE),
    ],
)
def test_what_was_not_avoided_comes_before_what_is_best(more, head):
    """It is called the room's doing only where no plan has fewer."""
    first = " ".join(told_of([GOOD, BAD, WORSE], **more).split())
    assert f"! {head} The bad thing (and 1 more)" in first
    assert "The good thing" not in first
    told = told_of([GOOD, BAD, WORSE], everything=True, **more)
    rows = [line.strip() for line in told.splitlines()]
    order = [head, "! The bad thing", "! The worse thing"]
    at = rows.index(head)
    assert rows[at : at + 3] == order
    assert rows[at + 3].startswith("It works ")
    assert rows[at + 5].startswith("+ The good thing")


@pytest.mark.parametrize(
    ("bound", "words"),
    [
        (350 - FAULT, "another could score up to 5.0 points more"),
        (350, "there may be one with fewer faults"),
    ],
)
def test_what_is_not_proven_says_how_another_could_be_better(bound, words):
    """Fewer faults rank before any points, so points are told only where there are as few."""
    assert f"Here is the best found in the time; {words}." in told_of(
        [GOOD, BAD], proven=False, bound=bound
    )


def test_options_tell_what_they_did_not_avoid_and_their_parts():
    """30 of 40 points against 20 of 40 in the one part; alike in the other, where none is best."""
    other = replace(GOOD, won=200)
    options = tuple(
        replace(option("AB"[i], 300), reasons=told)
        for i, told in enumerate(((GOOD, BAD), (other, replace(BAD, faults=0))))
    )
    case = Comparison(options, (), one_scale=True, best=(1,))
    text = comparison_words(case, NOWHERE, ())
    assert "! not so good: The bad thing" in text
    rows = {line.split("  ")[0]: line.split("  ")[1:] for line in text.splitlines()}
    cells = {name: [c.strip() for c in rest if c.strip()] for name, rest in rows.items()}
    assert cells["It works"] == [">30.0/40.0", "20.0/40.0"]
    assert cells["How it sits in the room"] == ["0.0/10.0", "0.0/10.0"]
    assert cells["Not so good"] == ["1", "0"]


# ------------------------------------------------------------------ sizes

ANSWERS = [
    ("works", "works", 800),
    ("works", "impossible", 750),
    ("works", "not decided", 500),
    ("not decided", "not decided", None),
    ("impossible", "impossible", None),
]


def ladder_of(*answers):
    case = only(scenario(room(), CHEST))
    stands = Arrangement((on_wall(CHEST, room(), A, 0),))
    rungs = []
    for number, (works, comfortable, score) in enumerate(answers):
        size = Size(f"size {number}", CHEST)
        if score is None:
            rungs.append(Rung(size, works, comfortable))
        else:
            verdict = Verdict((), (), score)
            rungs.append(Rung(size, works, comfortable, stands, verdict, score, (1, 2)))
    table = SizeTable("sizes", tuple(r.size for r in rungs))
    return Ladder(case, "chest", table, tuple(rungs))


def test_the_table_of_sizes_says_what_works_and_what_works_comfortably():
    """Read by its columns: yes, no, not decided, and a dash where nothing works anyway."""
    text = words_of_ladder(ladder_of(*ANSWERS), None, NOWHERE, ())
    head, *rows = [x for x in text.splitlines() if x.startswith(("size ", "size"))][-6:]
    starts = [head.index(word) for word in ("works", "comfortably", "best score", "others")]
    spans = list(zip(starts, (*starts[1:], None), strict=True))
    cells = [[row[a:b].strip() for a, b in spans] for row in rows]
    assert cells == [
        ["yes", "yes", "80.0", "1 of 2"],
        ["yes", "no", "75.0", "1 of 2"],
        ["yes", "not decided", "50.0", "1 of 2"],
        ["not decided", "not decided", "-", "-"],
        ["impossible", "-", "-", "-"],
    ]


@pytest.mark.solver  # the command loads it, though nothing is asked of it
@pytest.mark.parametrize(
    ("answers", "code"),
    [(ANSWERS[:1], 0), (ANSWERS[4:], 3), (ANSWERS[3:4], 4), (ANSWERS[3:], 4), (ANSWERS, 0)],
)
def test_the_exit_code_of_sizes_says_how_sure_it_is(tmp_path, monkeypatch, answers, code):
    """0 one works, 3 each is proven impossible, 4 one is open and none is known to work."""
    file = tmp_path / "room.toml"
    file.write_text(FILE)
    made = ladder_of(*answers)
    monkeypatch.setattr("arrange.whatif.ladder.ladder", lambda *_, **__: made)
    monkeypatch.setattr("arrange.draw.ladder.ladder_sheet", lambda _: None)
    asked = ["swap", str(file), "--sizes", "bookcase=800..900/100", "--json"]
    done = CliRunner().invoke(main, asked)
    assert done.exit_code == code, done.output
    assert len(json.loads(done.output)["sizes"]) == len(answers)


# ------------------------------------------------------------------ limits


@pytest.mark.parametrize("far", [0, 29, 30, 31, 39, 40])
def test_three_centimetres_are_a_move_and_less_is_tidying(far):
    """At 29 mm it is where it was, at 30 it has moved."""
    before = planned(on_wall(CHEST, room(), A, 100))
    after = planned(on_wall(CHEST, room(), A, 100 + far))
    found = moved(before, after)
    assert [m.far for m in found] == ([far] if far >= 30 else [])


@pytest.mark.parametrize(("off", "broken"), [(299, True), (300, False), (150, True)])
def test_what_is_tall_keeps_thirty_centimetres_off_a_window(off, broken):
    """Free before the window on the top wall, 299 and 300 mm off; the sill is at 900."""
    tall = free("cupboard", 600, 400, 1800)
    shape = room(windows=(Window("window", A, 1000, 1500),))
    case = only(scenario(shape, tall))
    stands = Arrangement((at("cupboard", "down", 1200, 3000 - off - 400),))
    assert {b.rule for b in judge(case, stands).breaches} == (
        {"windows-clear"} if broken else set()
    )


@pytest.mark.parametrize(("bottom", "broken"), [(1999, True), (2000, False), (1000, True)])
def test_what_hangs_below_the_head_of_a_door_is_in_its_way(bottom, broken):
    """A door 2000 high: a shelf whose underside is at 1999 is met, at 2000 walked under."""
    shelf = free("shelf", 600, 300, 200, bottom=bottom)
    shape = room(ceiling=2500, doors=(Door("door", A, 1000, 800, height=2000),))
    case = only(scenario(shape, shelf))
    stands = Arrangement((at("shelf", "down", 1100, 2600),))
    assert {b.rule for b in judge(case, stands).breaches} == ({"door-floor"} if broken else set())


def test_at_a_window_that_opens_45_cm_of_floor_are_reached():
    """The zones along it are as deep as that, from the face of the wall."""
    shape = room(
        doors=(Door("door", B, 500, 800, main=True),),
        windows=(Window("window", A, 1000, 1500, must_open=True),),
    )
    case = scenario(shape)
    (goal,) = [g for g in goals(Scene(case, Arrangement(()))) if g.name == "window"]
    for zone in goal.zones:
        _, low, _, high = zone.bounds
        assert (low, high) == (2550, 3000)
