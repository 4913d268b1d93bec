"""Where a plan is tighter than usual: by sums in the plain room of ``small_rooms``, in mm."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from matplotlib.text import Text
from small_rooms import A, B, D, at, clearance, free, on_wall, only, piece, room, scenario

from arrange.data.arrangement import Arrangement
from arrange.data.result import Result, Suggestion
from arrange.data.room import Door, Window
from arrange.data.swap import Today
from arrange.draw import plan_sheet
from arrange.draw.sheet import today_sheet
from arrange.judge import judge
from arrange.output.records import as_data
from arrange.words.suggest import words
from arrange.words.swap import words_of_today
from arrange.words.tight import Tight, tight_lines, tighter_than_usual

pytestmark = pytest.mark.fast

DOOR = Door("door", B, 1000, 800)
CHEST = piece("chest", 800, 400, clearances=(clearance(400, 800, usual=600),))


def found(case, *placements):
    return tighter_than_usual(case, Arrangement(tuple(placements)))


def before_chest(depth):
    """The chest on the top wall, 2600 up; a box 500 deep so far before it."""
    case = scenario(room(), CHEST, free("box", 800, 500))
    return case, (on_wall(CHEST, room(), A, 1000), at("box", "down", 1000, 2600 - depth - 500))


@pytest.mark.parametrize(
    ("depth", "told"),
    [
        pytest.param(399, None, id="less than the least is a must, not this"),
        pytest.param(400, 400, id="the least"),
        pytest.param(590, 590, id="a centimetre less than usual"),
        pytest.param(591, None, id="less than a centimetre can be said by nobody"),
        pytest.param(600, None, id="the usual"),
    ],
)
def test_free_floor_between_the_least_and_the_usual_is_told(depth, told):
    case, places = before_chest(depth)
    want = () if told is None else (Tight("chest", "front", "in front of", told, 600),)
    assert found(case, *places) == want


def test_who_keeps_to_the_usual_value_is_never_below_it():
    """Then the usual depth is the least, and less of it a broken must."""
    case, places = before_chest(500)
    kept = replace(CHEST, clearances=tuple(c.kept_usual for c in CHEST.clearances))
    assert found(replace(case, pieces=(kept, case.pieces[1])), *places) == ()


def bedroom(**more):
    """A bed with its head on the top wall, 1500 wide; 500 to the wall on one side of it."""
    sides = tuple(clearance(0, 700, sides=(s,), name=s, usual=600) for s in ("left", "right"))
    bed = piece("bed", 1500, 2000, roles=("sleep", "bed"), clearances=sides)
    return only(scenario(room(**more), bed)), bed


@pytest.mark.parametrize(
    ("more", "where"),
    [
        pytest.param({}, "on the left of", id="nothing to tell it by"),
        pytest.param({"windows": (Window("w", D, 500, 900),)}, "at the window side of", id="light"),
        pytest.param({"doors": (Door("d", D, 500, 800),)}, "at the door side of", id="door"),
        pytest.param(
            {"windows": (Window("w", D, 500, 900), Window("v", B, 500, 900))},
            "on the left of", id="a window on either side",
        ),
    ],
)  # fmt: skip
def test_a_side_is_told_by_what_it_looks_at(more, where):
    """500 from the wall on the left, D; as one faces the bed from its foot."""
    case, bed = bedroom(**more)
    (told,) = found(case, on_wall(bed, room(), A, 500))
    assert (told.where, told.free) == (where, 500)
    (line,) = tight_lines([told], "cm")
    seen = " (as you face it)" if "left" in where else ""
    assert line == f"50 cm free {where} the bed{seen}; 60 cm is usual"


def test_a_bed_against_the_wall_has_nothing_free():
    case, bed = bedroom()
    lines = tight_lines(found(case, on_wall(bed, room(), A, 0)), "cm")
    assert lines == ["Nothing free on the left of the bed (as you face it); 60 cm is usual"]


def test_of_two_that_ask_for_the_same_floor_one_is_told():
    """The one that asks for more."""
    case, bed = bedroom()
    more = clearance(0, 900, sides=("left",), name="more", usual=700)
    case = replace(case, pieces=(replace(bed, clearances=(*bed.clearances, more)),))
    told = found(case, on_wall(bed, room(), A, 550))
    assert [(t.clearance, t.free, t.usual) for t in told] == [("more", 550, 700)]


def passage(width, walkway):
    """A box that leaves a passage so wide along wall C to a chest behind it."""
    box, chest = free("box", 400, 3000 - width), replace(CHEST, name="chest")
    case = replace(scenario(room(doors=(DOOR,)), chest, box), walkway=walkway)
    return case, (on_wall(chest, room(), A, 0), at("box", "down", 2000, width))


@pytest.mark.parametrize(
    ("width", "walkway", "told"),
    [
        pytest.param(520, 500, [520], id="52 of the usual 60"),
        pytest.param(525, 500, [520], id="in steps of a centimetre, down"),
        pytest.param(590, 500, [590], id="one less than usual"),
        pytest.param(600, 500, [], id="the usual"),
        pytest.param(600, 600, [], id="asked for as wide as usual: nothing to measure"),
        pytest.param(480, 500, [], id="no way at all is a broken must"),
    ],
)
def test_the_way_is_told_where_it_is_narrower_than_usual(width, walkway, told):
    case, places = passage(width, walkway)
    ways = [t for t in found(case, *places) if not t.clearance and t.piece == "chest"]
    assert [t.free for t in ways] == told
    if told == [520]:
        want = "The way to the chest is 52 cm at its narrowest; 60 cm is usual"
        assert tight_lines(ways, "cm") == [want]


def test_at_most_three_lines_and_the_rest_counted():
    """What is as tight is one line, and only so many names are on it."""
    alike = [Tight(name, "front", "in front of", 500, 600) for name in ("desk", "chest")]
    ways = [Tight(f"shelf {i}", "", "", 550, 600) for i in range(1, 6)]
    others = [Tight("bed", side, f"{side} of", 400, 600) for side in ("a", "b", "c")]
    assert tight_lines([*alike, *ways], "cm") == [
        "50 cm free in front of the desk and the chest; 60 cm is usual",
        "The way to shelf 1, shelf 2 and 3 more is 55 cm at its narrowest; 60 cm is usual",
    ]
    lines = tight_lines([*alike, *ways, *others], "cm")
    assert lines[3:] == ["and 2 more"]
    assert tight_lines([], "cm") == []


def shown(figure):
    return " ".join(" ".join(t.get_text().split()) for t in figure.findobj(Text))


def test_it_stands_on_the_sheet_on_the_screen_and_in_the_file():
    """In inches 500 mm are 19.7, of which 19 1/2 is promised; the file has the millimetres."""
    case, places = before_chest(500)
    case = replace(only(case), unit="in")
    arrangement = Arrangement(places)
    verdict = judge(case, arrangement)
    one = Suggestion(1, arrangement, verdict, True, verdict.standing)
    sentence = "19 1/2 in free in front of the chest; 23 1/2 in is usual"
    assert f"Tighter than usual \N{EN DASH} {sentence}" in shown(plan_sheet(case, one, 1))
    result = Result(case, "proven", (one,), verdict.standing, 1.0, 1.0, 0)
    for everything in (False, True):
        told = " ".join(words(result, Path("x"), ("result.json",), everything=everything).split())
        assert f"Tighter than usual: . {sentence}" in told
    (data,) = as_data(result)["arrangements"]
    (tight,) = data["tighter_than_usual"]
    assert tight == {
        "piece": "chest", "clearance": "front", "free": 500, "usual": 600, "sentence": sentence,
    }  # fmt: skip
    (depth,) = [c["free"] for p in data["pieces"] for c in p["clearances"] if p["name"] == "chest"]
    assert depth == tight["free"]
    today = Today(case, arrangement, verdict)
    assert sentence in shown(today_sheet(today))
    assert sentence in words_of_today(today, Path("x"), ())


def test_no_sentence_has_a_length_nobody_would_say():
    """A scenario in metres, its free floor no whole centimetres."""
    case, places = before_chest(555)
    for unit, said in (("m", "55 cm"), ("cm", "55 cm"), ("mm", "555 mm")):
        (line,) = tight_lines(found(replace(case, unit=unit), *places), unit)
        assert line.startswith(f"{said} free in front of the chest; 60")
        assert not re.search(r"\d\.\d", line)
