"""result.json: an arrangement can be checked from it alone, and it never repeats differently."""

import json
import math
from pathlib import Path

import pytest
from recheck import (
    IN_THE_WAY,
    ROUNDING,
    blocked,
    in_one_place,
    on_kept_floor,
    outside,
    walkway_faults,
)
from shapely.geometry import Point, Polygon

from arrange.judge import judge
from arrange.output.fields import FORMAT, as_text
from arrange.output.records import as_data, run_data
from arrange.scenario.read import read_text
from arrange.suggesting import suggest

PAGE = Path(__file__).parent.parent / "scenarios" / "RESULT.md"

STUDY = """
title = "Box room"
[room]
size = [300, 260]
[[door]]
wall = "C"
from_left = 20
width = 75
[[window]]
wall = "A"
from_left = 90
width = 110
must_open = true
[[fixture]]
kind = "radiator"
wall = "A"
from_left = 100
width = 90
[[piece]]
kind = "desk"
width = 120
depth = 60
[[piece]]
kind = "desk chair"
[[piece]]
kind = "wardrobe"
[[rule]]
rule = "balance"
off = true
[[rule]]
rule = "clear-floor"
off = true
[[rule]]
rule = "used-together"
off = true
"""
# Two slanted walls; the bookcase has to stand on one of them, the shelf may hang anywhere.
BAY = """
title = "Bay"
[room]
corners = [[0, 0], [0, 200], [100, 300], [300, 300], [400, 200], [400, 0]]
[[door]]
wall = "F"
from_left = 20
width = 80
[[piece]]
kind = "bookcase"
major = true
[[piece]]
kind = "wall shelf"
[[piece]]
kind = "rug"
[[wish]]
piece = "bookcase"
against = "B"
must = true
"""


@pytest.fixture(scope="module", params=[STUDY, BAY], ids=["study", "bay"])
def result(request):
    """Two suggestions for a small room."""
    found = suggest(read_text(request.param), top=2, seconds=60)
    assert found.outcome == "proven"
    return found


@pytest.fixture
def data(result):
    """What a reader has: only the text."""
    return json.loads(as_text(as_data(result)))


def test_an_arrangement_can_be_checked_from_the_file_alone(data):
    """Every must that is a matter of floor holds, by shapely on the written polygons."""
    assert data["arrangements"]
    for arrangement in data["arrangements"]:
        assert outside(data, arrangement) == []
        assert on_kept_floor(data, arrangement) == []
        assert in_one_place(arrangement) == []
        assert blocked(data, arrangement) == []
        assert walkway_faults(data, arrangement) == []
        won = sum(r["won"] for r in arrangement["reasons"])
        assert won == pytest.approx(arrangement["score"])
        assert sum(r["possible"] for r in arrangement["reasons"]) == pytest.approx(100)


def test_the_checks_notice_a_piece_that_is_pushed_out_of_place(data):
    """The same checks fail when a footprint is written 2 mm further into its neighbour or wall."""
    arrangement = data["arrangements"][0]
    piece = next(p for p in arrangement["pieces"] if p["placement"]["wall"])
    wall = next(w for w in data["room"]["walls"] if w["name"] == piece["placement"]["wall"])
    (ax, ay), (bx, by) = wall["left_end"], wall["right_end"]
    out = ((ay - by) / wall["length"], (bx - ax) / wall["length"])  # left of the wall's way
    piece["footprint"] = [[x + 2 * out[0], y + 2 * out[1]] for x, y in piece["footprint"]]
    assert outside(data, arrangement) == [piece["name"]]
    other = next(p for p in arrangement["pieces"] if p is not piece and not p["flat"])
    other.update(footprint=piece["footprint"], bottom=piece["bottom"], top=piece["top"])
    assert in_one_place(arrangement) != []


def test_the_checks_notice_a_way_that_is_not_there(data):
    """A region cut off from the door or laid over a piece is found out."""
    arrangement = data["arrangements"][0]
    body = next(p for p in arrangement["pieces"] if not p["flat"] and p["bottom"] < IN_THE_WAY)
    arrangement["walkway"]["region"] = [{"outline": body["footprint"], "holes": []}]
    faults = walkway_faults(data, arrangement)
    assert "on a piece" in faults
    assert "not at the door" in faults


def strip(piece, clearance, deep):
    """The least floor of a clearance drawn out to another depth."""
    body = Polygon(piece["footprint"])
    near = [p for p in clearance["least_floor"] if body.distance(Point(p)) < ROUNDING]
    assert len(near) == 2
    drawn = []
    for x, y in clearance["least_floor"]:
        bx, by = min(near, key=lambda n: math.dist(n, (x, y)))
        share = deep / clearance["least"]
        drawn.append((bx + (x - bx) * share, by + (y - by) * share))
    return drawn


def test_free_depths_are_what_the_footprints_leave(data):
    """A strip as deep as ``free`` passes check 4; one 2 mm deeper does not."""
    looked = 0
    for arrangement in data["arrangements"]:
        for piece in arrangement["pieces"]:
            for c in [c for c in piece["clearances"] if c["least"] and not c["free_is_capped"]]:
                least = c["least_floor"]
                c["least_floor"] = strip(piece, c, c["free"])
                assert blocked(data, arrangement) == []
                c["least_floor"] = strip(piece, c | {"least_floor": least}, c["free"] + 2)
                assert blocked(data, arrangement) == [(piece["name"], c["name"])]
                c["least_floor"] = least
                looked += 1
    assert looked >= 1


def test_a_slanted_piece_lies_along_its_wall():
    """The footprint has two corners on the slanted wall: x - y + 2000 = 0 there."""
    found = as_data(suggest(read_text(BAY), top=1, seconds=60))
    bookcase = found["arrangements"][0]["pieces"][0]
    assert bookcase["placement"]["slanted"]
    assert bookcase["placement"]["wall"] == "B"
    on_wall = [p for p in bookcase["footprint"] if abs(p[0] - p[1] + 2000) < ROUNDING]
    assert len(on_wall) == 2


# ------------------------------------------------------------------------------------- the rest


def test_the_same_scenario_gives_the_same_bytes(result):
    """A second run differs in nothing but its times, which are not in the data."""
    again = suggest(result.scenario, top=2, seconds=60)
    assert as_text(as_data(again)) == as_text(as_data(result))
    assert "second" not in as_text(as_data(result))


def test_scores_and_outcome_are_those_of_the_judge(result, data):
    """Points are tenths of the judge's score; the gap of a proven result is 0."""
    assert data["format"] == FORMAT
    assert data["outcome"] == "proven"
    assert data["gap"] == 0
    for told, suggestion in zip(data["arrangements"], result.suggestions, strict=True):
        verdict = judge(result.scenario, suggestion.arrangement)
        assert told["score"] == verdict.score / 10
        assert [r["sentence"] for r in told["reasons"]] == [r.sentence for r in verdict.reasons]
        assert told["cautions"][-1].startswith("These are reminders and not an approval")


def test_times_stand_apart(result):
    """run.json has the seconds: in all, to the first, for each suggestion."""
    run = run_data(result, 60)
    assert run["seconds_allowed"] == 60
    assert 0 < run["seconds_to_first"] <= run["seconds"]
    assert len(run["seconds_each"]) == len(result.suggestions)


def test_families_are_listed_with_where_the_major_pieces_stand():
    """The bay's bookcase has to stand on B: one way, and no other."""
    data = as_data(suggest(read_text(BAY), top=1, seconds=60, families=True))
    told = data["families"]
    assert (told["count"], told["complete"]) == (1, True)
    assert told["families"][0]["stands"] == [{"model": "bookcase", "wall": "B", "facing": "down"}]
    assert [p["piece"] for p in told["families"][0]["placements"]] == [
        "bookcase",
        "wall shelf",
        "rug",
    ]


def test_impossible_has_no_score_and_no_arrangement():
    """Null, not 0: a score nobody reached is not a low score."""
    text = STUDY + '[[piece]]\nname = "slab"\nkind = "other piece"\n'
    text += "width = 300\ndepth = 250\nheight = 50\n"
    data = as_data(suggest(read_text(text), top=1, seconds=60))
    assert data["outcome"] == "impossible"
    assert data["arrangements"] == []
    assert (data["score"], data["at_most"], data["gap"]) == (None, None, None)


def test_every_key_is_described_on_the_page(data):
    """RESULT.md names every key that can be met, as code."""
    page = PAGE.read_text(encoding="utf-8")

    def keys(value):
        if isinstance(value, dict):
            return set(value) | {k for v in value.values() for k in keys(v)}
        if isinstance(value, list):
            return {k for v in value for k in keys(v)}
        return set()

    libraries = set(data["versions"])
    missing = {k for k in keys(data) - libraries if f"`{k}`" not in page and f".{k}`" not in page}
    assert missing == set()
