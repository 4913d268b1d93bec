"""``arrange why`` on the command line: answers, files, data, and what is refused."""

import json

import pytest
from command_line import ROOM, names, run

from arrange.draw.why import conflict_sheet
from arrange.scenario.read import read_text
from arrange.whatif.why import why

# 300 wide it stands along A or C only: 200 deep and 75 before it, in 260 between them.
WIDE = (
    '[[piece]]\nname = "bench"\nkind = "other piece"\nwidth = 300\ndepth = 200\nheight = 50\n'
    'clearance.front = { least = 75, purpose = "to use it" }\n'
)
ALONE = ROOM.partition("[[piece]]")[0] + WIDE


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "room.toml"
    path.write_text(ALONE)
    return path


def test_what_clashes_is_listed_with_its_sum_and_what_would_have_to_give(file, tmp_path):
    out = tmp_path / "out"
    answer = run("why", str(file), "--out", str(out), "--most", "1")
    assert answer.exit_code == 3, answer.output
    assert "It does not fit, and that is proven" in answer.output
    assert "1  the bench, 300 x 200 cm, with its back to a wall" in answer.output
    assert "all of them together are impossible" in " ".join(answer.output.split())
    assert "fixing only what is in this list may not be enough" in " ".join(answer.output.split())
    assert "What would help" in answer.output
    assert names(out) == ["clash-1.png", "ways-out.png", "why.json"]
    data = json.loads((out / "why.json").read_text())
    assert data["files"] == ["clash-1.png", "ways-out.png", "why.json"]


def test_data_hold_what_the_page_says(file):
    answer = run("why", str(file), "--json", "--most", "1")
    assert answer.exit_code == 3
    data = json.loads(answer.output)
    assert (data["answer"], data["faults_of_the_room"]) == ("impossible", [])
    (conflict,) = data["clashes"]
    assert conflict["confirmed"]
    assert conflict["minimal"]
    assert [w["member"] for w in conflict["without"]] == list(
        range(1, len(conflict["members"]) + 1)
    )
    section = conflict["arithmetic"]["section"]
    lacks = conflict["arithmetic"]["asked"] - conflict["arithmetic"]["at_most"]
    assert section["asked"] - section["there"] == lacks > 0
    assert sum(c["asked"] for c in section["crossed"]) == section["asked"]
    assert data["would_have_to_give"]["proposals"]


def test_a_room_that_works_needs_no_explanation(tmp_path):
    path = tmp_path / "room.toml"
    path.write_text(ROOM)
    answer = run("why", str(path), "--out", str(tmp_path / "out"))
    assert answer.exit_code == 0
    assert "It works" in answer.output
    assert not (tmp_path / "out").exists()


def test_what_must_not_be_touched_is_known_or_refused(file, tmp_path):
    out = tmp_path / "out"
    answer = run("why", str(file), "--keep-as-is", "sofa", "--out", str(out))
    assert answer.exit_code == 2
    assert "sofa is not in the file; there are bench, door, walkway" in answer.output
    assert not out.exists()


def test_what_must_not_be_touched_is_not_touched(file):
    answer = run("why", str(file), "--keep-as-is", "bench", "--json", "--most", "2")
    data = json.loads(answer.output)
    assert data["untouchable"] == ["bench"]
    touched = [g["names"] for p in data["would_have_to_give"]["proposals"] for g in p["gives"]]
    assert not any("bench" in named for named in touched)


def test_without_time_it_is_not_decided(file):
    answer = run("why", str(file), "--time", "0.000001", "--json")
    assert answer.exit_code == 4
    assert json.loads(answer.output)["clashes"] == []


def test_nothing_is_changed_in_the_file(file):
    run("why", str(file), "--json", "--most", "1")
    assert file.read_text() == ALONE


def test_suggest_names_the_first_clash(file, tmp_path):
    answer = run("suggest", str(file), "--out", str(tmp_path / "out"))
    assert answer.exit_code == 3
    assert "You cannot have all of these:" in answer.output
    assert "arrange why tells what clashes" in answer.output
    data = json.loads((tmp_path / "out" / "result.json").read_text())
    assert data["why"]["members"][0]["words"].startswith("the bench, 300 x 200 cm")


def test_the_sheet_shows_the_sum_and_what_lacks():
    """Every member is listed, every stretch has its length, what lacks is marked."""
    found = why(read_text(ALONE), most=1, seconds=60).conflicts
    (conflict,) = found.sets
    figure = conflict_sheet(found.scenario, conflict)
    gids = [artist.get_gid() for axes in figure.axes for artist in axes.get_children()]
    texts = [t.get_text() for axes in figure.axes for t in axes.texts]
    assert gids.count("section") == 1
    assert gids.count("section:text") >= len(conflict.arithmetic.section.crossed)
    assert "lack" in gids or conflict.arithmetic.requirement.kind == "walkway"
    listed = " ".join(texts)
    assert "the bench, 300 x 200 cm" in listed
    assert "cm of" in listed
