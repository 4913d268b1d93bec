"""``arrange choose`` from the command line: files, words, exit codes, the money once more."""

import csv
import json
from decimal import Decimal

import pytest
from command_line import names, run

import arrange

pytestmark = pytest.mark.solver

FILE = """
title = "Box room"
[room]
size = [240, 260]
[[door]]
wall = "C"
from_left = 20
width = 75
[money]
budget = 120
currency = "EUR"
hour = 5
[[need]]
name = "a place to write"
[[need]]
name = "books"
may_lack = true
points = 12
[[piece]]
kind = "desk"
name = "old desk"
width = 150
owned = true
sells_for = 20
meets = "a place to write"
[[piece]]
kind = "desk"
name = "narrow desk"
width = 90
depth = 50
price = 80.5
delivery = 9.99
meets = "a place to write"
[[piece]]
kind = "bookcase"
buy = "make over"
price = 10
materials = 12.25
hours = 2
meets = "books"
[[piece]]
kind = "stool"
price = 7
""" + "".join(
    f'[[rule]]\nrule = "{rule}"\noff = true\n'
    for rule in ("balance", "clear-floor", "on-axis", "first-look", "used-together")
)
# By hand: 7 in any case, 32.25 for the bookcase (10 + 12.25 + 2 x 5), 90.49 for the desk less 20.
SUMS = {
    ("old desk",): "7",
    ("old desk", "bookcase"): "39.25",
    ("narrow desk",): "77.49",
    ("narrow desk", "bookcase"): "109.74",
}


@pytest.fixture(scope="module")
def chosen(tmp_path_factory):
    """The command once, with its folder and what it printed."""
    folder = tmp_path_factory.mktemp("choose")
    file = folder / "box.toml"
    file.write_text(FILE, encoding="utf-8")
    out = folder / "plans"
    return out, run("choose", str(file), "--out", str(out), "--top", "2", "--time", "300")


def test_it_writes_a_sheet_a_choice_and_the_account(chosen):
    """And ends as what is found does."""
    out, told = chosen
    assert told.exit_code == 0, told.output
    record = json.loads((out / "choice.json").read_text("utf-8"))
    assert [one["arranged_otherwise"] for one in record["choices"]] == [False, True]
    sheets = ["choice-1.png", "choice-2.png", "sums.png"]
    # The second has the pieces of the first.
    assert names(out) == sorted([*sheets, "choice-1.toml", "choice.csv", "choice.json"])
    room = arrange.read(out / "choice-1.toml")  # one like any other
    chosen_now = record["choices"][0]["candidates"]
    assert {p.model for p in room.pieces} == {*chosen_now, "stool"}  # there in any case


def test_the_sums_written_are_those_by_hand(chosen):
    """In the record and in the table; 108 are to spend, so the dearest is out of reach."""
    out, _ = chosen
    record = json.loads((out / "choice.json").read_text(encoding="utf-8"))
    for one in (*record["choices"], *record["curve"]):
        assert Decimal(str(one["cost"])) == Decimal(SUMS[tuple(one["candidates"])])
    assert record["to_spend"] == 108
    assert all(one["cost"] <= 108 for one in record["choices"])
    rows = list(csv.DictReader((out / "choice.csv").read_text("utf-8-sig").splitlines()))
    first = [row for row in rows if row["choice"] == "1"]
    added = sum((Decimal(row["each"]) * int(row["count"]) for row in first[:-1]), Decimal(0))
    assert added == Decimal(first[-1]["sum"]) == Decimal(str(record["choices"][0]["cost"]))


def test_a_choice_can_be_shopped_for(chosen, tmp_path):
    """Materials, hours and what is sold count, so that the list comes to what the choice does.

    The best choice and its sum by hand: see above. Added again from the table alone.
    """
    out, _ = chosen
    record = json.loads((out / "choice.json").read_text(encoding="utf-8"))
    columns = ("price", "delivery", "materials", "own hours", "paid")
    for number, one in enumerate(record["choices"], start=1):
        folder = tmp_path / str(number)
        told = run("shop", f"{out / 'choice.json'}#{number}", "--out", str(folder), "--time", "20")
        assert told.exit_code == 0, told.output
        assert f"For choice {number} of " in told.output
        rows = list(csv.DictReader((folder / "shop.csv").read_text("utf-8-sig").splitlines()))
        added = sum((Decimal(row[c] or "0") for row in rows for c in columns), Decimal(0))
        assert added == Decimal(SUMS[tuple(one["candidates"])])
        shop = json.loads((folder / "shop.json").read_text(encoding="utf-8"))
        assert Decimal(str(shop["total"])) == added
        assert Decimal(str(shop["left"])) == 108 - added
        assert {row["thing"] for row in rows if row["list"] == "To make over"} <= {"bookcase"}
        running = Decimal(0)
        for row in rows:
            running += sum((Decimal(row[c] or "0") for c in columns), Decimal(0))
            assert not row["total"] or Decimal(row["total"]) == running
            assert not row["total"] or Decimal(row["left to spend"]) == 108 - running
        reasons = {row["thing"]: row["why"] for row in rows if row["width mm"]}
        assert reasons[one["candidates"][0]] == 'for "a place to write"'
        assert reasons.get("bookcase", 'for "books"') == 'for "books"'


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda record: record["choices"].clear(), "no choice #1"),
        (lambda record: record.update(choices=7), "not what arrange choose writes"),
        (lambda record: record["choices"][0].update(plan=None), "not what arrange choose writes"),
        (
            lambda record: record["choices"][0].update(candidates=["none"]),
            "run arrange choose again",
        ),
        (lambda record: record.update(scenario_file="none.toml"), "run arrange choose again"),
    ],
)
def test_a_choice_that_was_edited_is_refused_in_one_sentence(chosen, tmp_path, change, message):
    out, _ = chosen
    record = json.loads((out / "choice.json").read_text(encoding="utf-8"))
    change(record)
    (tmp_path / "choice.json").write_text(json.dumps(record), encoding="utf-8")
    told = run("shop", str(tmp_path / "choice.json"))
    assert (told.exit_code, message in told.stderr) == (2, True), told.output
    assert [path.name for path in tmp_path.iterdir()] == ["choice.json"]


def test_other_commands_refuse_the_file_in_one_sentence(tmp_path):
    """What is open is for this command."""
    file = tmp_path / "box.toml"
    file.write_text(FILE, encoding="utf-8")
    told = run("suggest", str(file))
    assert told.exit_code == 2
    assert "leaves open what to have" in told.output
    closed = run("choose", "scenarios/reading-room.toml")
    assert closed.exit_code == 2
    assert "no needs given" in closed.output


def test_what_nobody_can_pay_for_ends_as_impossible(tmp_path):
    """By the sums, in words that say how much lacks: 7 to pay and 4.50 to spend."""
    file = tmp_path / "box.toml"
    file.write_text(FILE.replace("budget = 120", "budget = 5"), encoding="utf-8")
    told = run("choose", str(file), "--further", "0", "--json")
    assert told.exit_code == 3
    record = json.loads(told.output)
    assert (record["outcome"], record["cheapest"], record["choices"]) == ("too dear", 7.0, [])


@pytest.mark.parametrize("given", ["much", "-1", "nan", "1e9"])
def test_a_further_sum_that_is_none_is_refused(given):
    """In plain words."""
    told = run("choose", "scenarios/choosing/workroom.toml", f"--further={given}")
    assert told.exit_code == 2
    assert given in told.output
