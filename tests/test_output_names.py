"""Nothing that was found is lost: which names a set of files gets beside an earlier one."""

import json

import pytest

from arrange.output.files import RESULT, RUN, Folder

pytestmark = pytest.mark.fast

SWAPPED = {"title": "Room", "answer": "works", "changes": [{"change": "Drop", "piece": "rug"}]}


def put(folder, data, *pictures, name="swap.json", mark="new"):
    """Write pictures with a mark and a record of that data."""
    return Folder(folder).write(
        [(picture, lambda path: path.write_text(mark)) for picture in pictures],
        [(name, lambda names: {**data, "files": list(names[:-1])})],
    )


def suggest(folder, outcome, *pictures, file="bedroom.toml", mark="new"):
    """As ``arrange suggest`` writes."""
    data = {"title": "Room", "outcome": outcome, "scenario_file": file}
    return Folder(folder).write(
        [(picture, lambda path: path.write_text(mark)) for picture in pictures],
        [(RUN, lambda _: mark), (RESULT, lambda names: {**data, "files": list(names[:-2])})],
    )


def contents(folder):
    return {p.name: p.read_text() for p in sorted(folder.iterdir())}


@pytest.mark.parametrize("found", ["proven", "found"])
@pytest.mark.parametrize("less", ["impossible", "nothing found"])
def test_a_run_that_finds_no_arrangement_leaves_those_of_an_earlier_one(tmp_path, found, less):
    """It goes beside them, and says so; with as much found again it goes."""
    folder = tmp_path / "plans"
    suggest(folder, found, "plan-1.png", "overview.png", mark="old")
    before = contents(folder)
    written = suggest(folder, less)
    assert written.names == ("run-none.json", "result-none.json")
    assert written.removed == ()
    assert written.told == (
        f"{folder}/result.json is from a run that found more, so it stays as it is, with its "
        "pictures; this answer is in result-none.json.",
    )
    after = contents(folder)
    assert json.loads(after["result-none.json"])["outcome"] == less
    assert {name: after[name] for name in before} == before
    written = suggest(folder, "found", "plan-1.png")
    assert written.told == ()
    assert written.removed == ("overview.png", "result-none.json", "run-none.json")
    assert sorted(contents(folder)) == ["plan-1.png", RESULT, RUN]


# The answer there, the new one, and whether the new one takes its place.
ROWS = [
    ("nothing found", "nothing found", True),
    ("nothing found", "impossible", True),
    ("nothing found", "found", True),
    ("impossible", "nothing found", False),
    ("impossible", "impossible", True),
    ("impossible", "found", True),
    ("found", "proven", True),
    ("proven", "found", True),
]


@pytest.mark.parametrize(("old", "new", "replaces"), ROWS)
def test_as_much_or_more_takes_the_place_of_what_was_there(tmp_path, old, new, replaces):
    """An arrangement is more than a proof that there is none, and that more than nothing."""
    suggest(tmp_path, old)
    assert suggest(tmp_path, new).names[-1] == (RESULT if replaces else "result-none.json")
    assert json.loads((tmp_path / RESULT).read_text())["outcome"] == (new if replaces else old)


@pytest.mark.parametrize(
    ("name", "more", "less"),
    [
        ("swap.json", {"answer": "works"}, {"answer": "not decided"}),
        ("why.json", {"answer": "impossible"}, {"answer": "not decided"}),
        ("largest.json", {"answer": "at least"}, {"answer": "not decided"}),
        (
            "ladder.json",
            {"sizes": [{"works": "not decided"}, {"works": "works"}]},
            {"sizes": [{"works": "not decided"}, {"works": "impossible"}]},
        ),
        (
            "compare.json",
            {"options": [{"asked": "a.toml", "state": "found"}]},
            {"options": [{"asked": "a.toml", "state": "nothing found"}]},
        ),
    ],
)
def test_every_kind_of_answer_is_kept_from_one_that_found_less(tmp_path, name, more, less):
    put(tmp_path, more, "largest.png", name=name, mark="old")
    before = contents(tmp_path)
    stem = name.removesuffix(".json")
    assert put(tmp_path, less, "largest.png", name=name).names == (
        "largest-none.png",
        f"{stem}-none.json",
    )
    after = contents(tmp_path)
    assert {one: after[one] for one in before} == before
    assert put(tmp_path, more, "largest.png", name=name).names == ("largest.png", name)
    assert sorted(contents(tmp_path)) == sorted(["largest.png", name])


def test_another_question_gets_names_of_its_own_and_the_same_one_finds_them_again(tmp_path):
    """Three swaps, then the second once more with another picture."""
    questions = [{**SWAPPED, "changes": [{"change": "Drop", "piece": p}]} for p in "abc"]
    for number, question in enumerate(questions, start=1):
        told = put(tmp_path, question, "before-after.png", mark=f"{number}").told
        assert told == (
            (
                f"{tmp_path}/swap.json answers another question and stays as it is; this answer "
                f"is in swap-{number}.json.",
            )
            if number > 1
            else ()
        )
    again = put(tmp_path, questions[1], "before-after.svg", mark="again")
    assert again.names == ("before-after-2.svg", "swap-2.json")
    assert again.removed == ("before-after-2.png",)
    there = contents(tmp_path)
    assert there["before-after.png"] == "1"
    assert there["before-after-3.png"] == "3"
    assert there["before-after-2.svg"] == "again"
    assert json.loads(there["swap-2.json"])["files"] == ["before-after-2.svg"]


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("swap.json", {"kept": ["bed"]}),
        ("swap.json", {"title": "Another room"}),
        ("largest.json", {"piece": "desk"}),
        ("largest.json", {"dimension": "depth"}),
        ("ladder.json", {"sizes_of": "widths from 140 cm to 200 cm"}),
        ("ladder.json", {"changes": [{"change": "Drop", "piece": "rug"}]}),
        ("why.json", {"untouchable": ["bed"]}),
        ("compare.json", {"options": [{"asked": "b.toml", "state": "found"}]}),
    ],
)
def test_what_makes_another_question(tmp_path, name, change):
    asked = {"title": "Room", "kept": [], "piece": "bed", "dimension": "width", "changes": []}
    asked |= {"sizes_of": "beds", "untouchable": [], "options": [{"asked": "a.toml"}]}
    put(tmp_path, asked, name=name)
    assert put(tmp_path, {**asked, "sentence": "more"}, name=name).names == (name,)
    stem = name.removesuffix(".json")
    assert put(tmp_path, {**asked, **change}, name=name).names == (f"{stem}-2.json",)


def test_suggestions_for_another_file_do_not_take_the_place_of_the_first(tmp_path):
    """By the name of the file: its folder and its title may change."""
    suggest(tmp_path, "found", "plan-1.png", mark="bedroom")
    written = suggest(tmp_path, "found", "plan-1.png", file="kitchen.toml")
    assert written.names == ("plan-1-2.png", "run-2.json", "result-2.json")
    assert (tmp_path / "plan-1.png").read_text() == "bedroom"
    again = suggest(tmp_path, "found", "plan-1.png", file="rooms/bedroom.toml")
    assert again.names == ("plan-1.png", RUN, RESULT)


def test_a_numbered_name_that_somebody_has_taken_is_left_to_them(tmp_path):
    """A picture of theirs called before-after-2.png: number three is used."""
    put(tmp_path, SWAPPED, "before-after.png")
    (tmp_path / "before-after-2.png").write_text("mine")
    written = put(tmp_path, {**SWAPPED, "changes": []}, "before-after.png")
    assert written.names == ("before-after-3.png", "swap-3.json")
    assert (tmp_path / "before-after-2.png").read_text() == "mine"


def test_less_of_another_question_goes_beside_its_own_earlier_answer(tmp_path):
    other = {**SWAPPED, "changes": []}
    put(tmp_path, SWAPPED)
    put(tmp_path, other)
    written = put(tmp_path, {**other, "answer": "not decided"}, "before-after.png")
    assert written.names == ("before-after-2-none.png", "swap-2-none.json")
    assert len(written.told) == 1
    assert "swap-2.json is from a run that found more" in written.told[0]


@pytest.mark.parametrize("odd", ["{", "[]", '{"outcome": [], "sizes": 3, "options": [7]}'])
def test_an_odd_record_is_in_nobodys_way(tmp_path, odd):
    """No error, whatever stands in it."""
    (tmp_path / RESULT).write_text(odd)
    assert suggest(tmp_path, "found").names[-1] in (RESULT, "result-2.json")


def test_two_files_of_one_name_are_not_taken_for_one(tmp_path, monkeypatch):
    """a/room.toml and b/room.toml are both there; one that is gone may have been moved."""
    monkeypatch.chdir(tmp_path)
    for place in ("a", "b"):
        (tmp_path / place).mkdir()
        (tmp_path / place / "room.toml").touch()
    folder = tmp_path / "plans"
    suggest(folder, "found", "plan-1.png", file="a/room.toml")
    assert "plan-1-2.png" in suggest(folder, "found", "plan-1.png", file="b/room.toml").names
    assert "plan-1.png" in suggest(folder, "found", "plan-1.png", file="./a/room.toml").names
    assert "plan-1.png" in suggest(folder, "found", "plan-1.png", file="gone/room.toml").names
