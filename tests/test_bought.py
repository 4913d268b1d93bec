"""What was bought: recorded in a copy or in place, nothing lost, the rest arranged around it."""

import csv
import io
import json
import os
import stat
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from command_line import ROOM, run

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Resize, changed
from arrange.data.need import Post
from arrange.errors import OutputError, ScenarioError
from arrange.judge import judge, works
from arrange.scenario.editing import NewFile, rewritten
from arrange.scenario.needs import read_open_data, read_open_text
from arrange.scenario.read import parsed, read_data, read_text
from arrange.scenario.recording import InPlace, free_copy
from arrange.shop.looks_right import looks_right_up_to
from arrange.whatif.asking import Request, bought_in, understood

pytestmark = pytest.mark.fast

FILE = """# The spare room
title = "Spare room"

[room]
size = [300, 360] # measured twice

[[door]]
wall = "C"
from_left = 20
width = 80

[money]
budget = 300
currency = "EUR"

# to sleep
[[piece]]
kind = "single bed"
owned = true

[[piece]] # by the window
kind = "chest of drawers"
width = 80 # or so
buy = "second-hand"
price = 75.10
delivery = 20
stands_now = { wall = "A", from_left = 10 }

[[piece]]
kind = "stool"
count = 3
price = 12.50
"""


def bought(*words, text=FILE):
    data = parsed(text, "room.toml")
    return understood(Request(bought=words), read_data(data, "room.toml"), data)


# ------------------------------------------------------------------ what is understood


def test_what_was_bought_is_owned_in_its_size_for_its_sum():
    """Its place of today is forgotten, as ever where the size is another one."""
    chest = bought("chest of drawers=120x50, 60.00").after.piece("chest of drawers")
    assert (chest.width, chest.depth, chest.owned) == (1200, 500, True)
    assert (chest.paid, chest.price, chest.delivery) == (
        Decimal("60.00"),
        Decimal("75.10"),
        Decimal(20),
    )


def test_without_a_size_it_is_as_it_was_planned():
    before, after = read_text(FILE), bought("chest of drawers, 0").after
    assert after.piece("chest of drawers").paid == 0
    assert after.piece("chest of drawers").width == before.piece("chest of drawers").width
    assert after.today == before.today


def test_one_of_several_alike_can_be_bought():
    """The others are still to get, and a name for all of them means each for that sum."""
    one = bought("stool 2=35x35, 5").after
    assert [(p.name, p.width, p.paid) for p in one.pieces if p.kind == "stool"] == [
        ("stool 1", 400, None),
        ("stool 2", 350, Decimal(5)),
        ("stool 3", 400, None),
    ]
    everyone = bought("stool, 5.25").after
    assert [p.paid for p in everyone.pieces if p.kind == "stool"] == [Decimal("5.25")] * 3


def test_nothing_that_an_arrangement_depends_on_is_changed_by_a_sum():
    """Kept plans stay good: the mark is that of the same room."""
    assert bought("chest of drawers, 60").after.mark == read_text(FILE).mark


@pytest.mark.parametrize(
    ("word", "message"),
    [
        ("chest of drawers=120x50", "no sum after the last comma"),
        ("chest of drawers=120x50, EUR 60", "no sum after the last comma"),
        ("chest of drawers=120x50, -60", "no sum after the last comma"),
        ("chest of drawers=120x50, 60.005", "no sum after the last comma"),
        ("chest of drawers=120x50, 60,00", "is not understood"),
        ("chest of drawers=120, 60", "one length given"),
        ("chest=120x50, 60", "the piece 'chest' is not known"),
        ("single bed, 60", "single bed is yours already"),
        ("chest of drawers=12x50, 60", "did you mean"),
        ("chest of drawers=160x310, 60", "did you mean"),
    ],
)
def test_what_is_not_understood_is_told(word, message):
    with pytest.raises(ScenarioError, match=message):
        bought(word)


def test_every_slip_is_told_at_once_and_nothing_is_bought_twice():
    with pytest.raises(ScenarioError) as caught:
        bought("chest of drawers, 60", "chest of drawers, 50", "lamp, 3", "stool")
    assert len(caught.value.faults) == 3


def test_what_is_paid_for_must_be_owned():
    text = FILE.replace("price = 75.10", "paid = 75.10")
    with pytest.raises(ScenarioError, match="add owned = true"):
        read_text(text)


# ------------------------------------------------------------------ what is written


def test_the_copy_has_every_line_of_the_file_but_those_that_changed(tmp_path):
    """Comments and layout stay; it reads as what was asked, sums to the last digit."""
    asked = bought("chest of drawers=120x50, 60.10")
    NewFile(tmp_path / "copy.toml", FILE, asked.tables, asked.after).write()
    text = (tmp_path / "copy.toml").read_text(encoding="utf-8")
    gone = {"width = 80 # or so", 'stands_now = { wall = "A", from_left = 10 }'}
    left = [line for line in FILE.splitlines() if line not in gone]
    new = iter(text.splitlines())
    assert all(line in new for line in left)  # each after the one before it
    assert "width = 120 # or so" in text
    assert tomllib.loads(text, parse_float=Decimal)["piece"][1]["paid"] == Decimal("60.1")


def test_a_copy_gets_a_name_that_is_free(tmp_path):
    source = tmp_path / "room.toml"
    assert free_copy(source).name == "room-bought.toml"
    (tmp_path / "room-bought.toml").touch()
    assert free_copy(source).name == "room-bought-2.toml"
    assert free_copy(tmp_path / "room-bought.toml").name == "room-bought-2.toml"
    (tmp_path / "room-bought-2.toml").symlink_to("nowhere")
    assert free_copy(tmp_path / "room-bought-2.toml").name == "room-bought-3.toml"


def in_place(path):
    """The room in that file with a chest bought, ready to be written over it."""
    text = path.read_bytes().decode("utf-8-sig")
    asked = bought("chest of drawers=120x50, 60", text=text)
    return InPlace(path, text, asked.tables, asked.after)


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "with a byte order mark"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["LF", "CR LF"])
def test_in_place_keeps_rights_links_line_ends_and_marks(tmp_path, mark, ending):
    path, link = tmp_path / "room.toml", tmp_path / "link.toml"
    path.write_bytes(mark + FILE.replace("\n", ending).encode())
    path.chmod(0o640)
    link.symlink_to("room.toml")
    in_place(link).write()
    new = path.read_bytes()
    assert link.is_symlink()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert new.startswith(mark + b"# The spare room")
    assert new.count(b"\r\n") == (new.count(b"\n") if ending == "\r\n" else 0)
    assert read_text(new.decode("utf-8-sig")).piece("chest of drawers").paid == 60
    assert sorted(p.name for p in tmp_path.iterdir()) == ["link.toml", "room.toml"]


def test_a_file_that_was_changed_meanwhile_is_left_alone(tmp_path):
    path = tmp_path / "room.toml"
    path.write_text(FILE, encoding="utf-8")
    ready = in_place(path)
    path.write_text(FILE + "# more\n", encoding="utf-8")
    with pytest.raises(OutputError, match="was changed while we worked on it"):
        ready.write()
    assert path.read_text(encoding="utf-8") == FILE + "# more\n"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_file_that_cannot_be_written_is_as_it_was(tmp_path, monkeypatch, step):
    """A full disk at either step: the old text, and nothing left beside it."""
    path = tmp_path / "room.toml"
    path.write_text(FILE, encoding="utf-8")
    ready = in_place(path)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync") if step == "fsync" else (Path, "replace")), full)
    with pytest.raises(OutputError, match="No space left on device"):
        ready.write()
    assert path.read_text(encoding="utf-8") == FILE
    assert [p.name for p in tmp_path.iterdir()] == ["room.toml"]


def test_what_is_no_plain_file_is_not_written_over(tmp_path):
    asked = bought("chest of drawers, 60")
    with pytest.raises(OutputError, match="not a plain file"):
        InPlace(tmp_path / "none.toml", FILE, asked.tables, asked.after)


# ------------------------------------------------------------------ what is paid, in a choice


OPEN = """# What to write at
[room]
size = [300, 300]
[[door]]
wall = "C"
from_left = 20
width = 80
[money]
budget = 200
[[need]]
name = "to write" # and to draw
[[need]]
name = "to sit"
[[piece]]
kind = "desk"
name = "wide desk" # from the market
price = 60
meets = "to write"
[[piece]]
kind = "desk"
name = "other desk"
owned = true
meets = "to write"
[[piece]]
kind = "desk chair"
price = 25
meets = "to sit"
[[piece]]
kind = "stool"
price = 10
meets = "to sit"
"""


def test_what_is_bought_is_chosen_and_counts():
    """41.50 for the desk, and a seat: 66.50 or 51.50. Without it the other desk would do, too."""
    data = parsed(OPEN, "open")
    before = read_open_data(data, "open")
    assert len(list(before.needs.choices())) == 4
    tables = bought_in(["wide desk=150x75, 41.50"], before.whole, data)
    after = read_open_data(tables.data(), "open")
    assert after.needs.fixed == (Post("paid", "wide desk", Decimal("41.50")),)
    assert {c.candidates: c.cost for c in after.needs.choices()} == {
        ("wide desk", "desk chair"): Decimal("66.50"),
        ("wide desk", "stool"): Decimal("51.50"),
    }
    text = rewritten(OPEN, tables, after, read_open_text)
    left = [line for line in OPEN.splitlines() if line]
    new = iter(text.splitlines())
    assert all(line in new for line in left)
    assert read_open_text(text, "open") == after


# ------------------------------------------------------------------ how large still looks right

NICHE = """
[room]
size = [400, 300]
ceiling = 250
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "bookcase"
width = 80
[[piece]]
kind = "wardrobe"
owned = true
"""


@pytest.mark.slow
def test_what_looks_right_works_and_one_step_more_does_not():
    """A bookcase at the left end of wall A, the wardrobe 150 cm from the corner.

    Judged again by hand: its left end stays in the corner, so it can only grow to the right.
    Up to the size that is told the plan works, has no fault more, and loses two points at most.
    """
    scenario = read_text(NICHE)
    plan = Arrangement(
        (
            Placement("bookcase", "down", 0, 2700, wall=0),
            Placement("wardrobe", "down", 1500, 2400, wall=0),
        )
    )
    assert works(scenario, plan)
    piece = scenario.piece("bookcase")
    most = looks_right_up_to(scenario, plan, piece, "width", Budget())

    def fine(width):
        wider = changed(scenario, [Resize("bookcase", width=width)])
        verdict = judge(wider, plan)
        return (
            verdict.works
            and verdict.faults <= judge(scenario, plan).faults
            and verdict.score >= judge(scenario, plan).score - 20
        )

    assert 800 <= most <= 1500
    assert all(fine(width) for width in range(800, most, 50))
    assert fine(most)
    assert not fine(most + 10)
    assert looks_right_up_to(scenario, plan, piece, "width", Budget(0)) is None


def test_a_coffee_table_is_no_longer_than_two_thirds_of_the_sofa():
    """Of 180 cm: 120 cm, however much room there is (common practice)."""
    scenario = read_text(
        '[room]\nsize = [500, 500]\n[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\n'
        '[[piece]]\nkind = "sofa"\nwidth = 180\nowned = true\n[[piece]]\nkind = "coffee table"\n'
        "width = 100\nfree = true\n"
    )
    sofa = Placement("sofa", "down", 1600, 4050, wall=0)
    plan = Arrangement((sofa, Placement("coffee table", "up", 2000, 3150)))
    assert works(scenario, plan)
    found = looks_right_up_to(scenario, plan, scenario.piece("coffee table"), "width", Budget())
    assert found == 1200


# ------------------------------------------------------------------ the command


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--write", "b.toml"], "say where to record what was --bought"),
        (["--in-place"], "say where to record what was --bought"),
        (["--bought", "stool, 3", "--in-place", "--write", "b.toml"], "give only one of"),
    ],
)
def test_options_that_do_not_go_together(words, message, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("room.toml").write_text(FILE, encoding="utf-8")
    done = run("shop", "room.toml", *words)
    assert (done.exit_code, message in done.stderr) == (2, True)
    assert [p.name for p in Path().iterdir()] == ["room.toml"]


def test_a_plan_or_what_is_piped_in_is_not_recorded_in(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    done = run("shop", "room-plans", "--bought", "stool, 3")
    assert (done.exit_code, "needs the scenario file" in done.stderr) == (2, True)
    done = run("shop", "-", "--bought", "stool, 3", input=FILE)
    assert (done.exit_code, "say where to record it" in done.stderr) == (2, True)
    assert list(Path().iterdir()) == []


def added_again(path):
    """The sum of every sum in the table, and the last running total."""
    rows = list(csv.DictReader(io.StringIO(path.read_text("utf-8-sig"))))
    columns = ("price", "delivery", "materials", "own hours", "paid")
    whole = sum((Decimal(row[c] or "0") for row in rows for c in columns), Decimal(0))
    running = Decimal(0)
    for row in rows:
        running += sum((Decimal(row[c] or "0") for c in columns), Decimal(0))
        assert not row["total"] or Decimal(row["total"]) == running
    return whole


@pytest.mark.solver
def test_a_purchase_is_recorded_and_the_rest_arranged_around_it(tmp_path, monkeypatch):
    """The file is as it was; the copy has a list of its own; a second one counts on."""
    monkeypatch.chdir(tmp_path)
    text = (
        ROOM + '[[piece]]\nkind = "stool"\nprice = 12.55\n[money]\nbudget = 100\nset_aside = 10\n'
    )
    Path("room.toml").write_text(text, encoding="utf-8")
    done = run("shop", "room.toml", "--bought", "bookcase=70x28, 40.40", "--time", "30")
    assert done.exit_code == 0, done.output
    assert "Recorded in room-bought.toml as bought: bookcase, 70 x 28 cm, for 40.40." in done.output
    assert "Of 100, 10 set aside for the unexpected: 37.05 is left." in done.output  # 90 - 52.95
    assert Path("room.toml").read_text(encoding="utf-8") == text
    assert added_again(Path("room-bought-plans/shop.csv")) == Decimal("52.95")
    told = json.loads(Path("room-bought-plans/shop.json").read_text(encoding="utf-8"))
    assert (told["total"], told["left"], told["bought"]) == (52.95, 37.05, ["bookcase"])
    assert [p["list"] for p in told["pieces"]] == ["bought", "new", "new"]
    assert told["pieces"][0]["width"] == 700
    done = run("shop", "room-bought.toml", "--bought", "stool, 10", "--time", "30", "--in-place")
    assert done.exit_code == 0, done.output
    assert read_text(Path("room-bought.toml").read_text(encoding="utf-8")).piece("stool").paid == 10
    assert added_again(Path("room-bought-plans/shop.csv")) == Decimal("50.40")


@pytest.mark.solver
def test_what_fits_nowhere_is_said_with_why_and_what_would_have_to_give(tmp_path, monkeypatch):
    """It is recorded all the same: it is there. Nothing of a list is made up."""
    monkeypatch.chdir(tmp_path)
    Path("room.toml").write_text(ROOM.replace("300, 260", "300, 190"), encoding="utf-8")
    done = run("shop", "room.toml", "--bought", "desk=280x110, 5", "--time", "60")
    assert done.exit_code == 3, done.output
    assert "With it as bought:" in done.output
    assert "It does not fit, and that is proven" in done.output
    assert "You cannot have all of these" in done.output
    assert "What would help: " in done.output
    assert read_text(Path("room-bought.toml").read_text(encoding="utf-8")).piece("desk").paid == 5
    told = json.loads(Path("room-bought-plans/shop.json").read_text(encoding="utf-8"))
    assert told["pieces"] == []
    assert told["why"]["clashes"]


@pytest.mark.solver
def test_the_rest_is_chosen_again_around_what_was_bought(tmp_path, monkeypatch):
    """The file is as it was; the desk is in all that is shown; the list comes to the same sum."""
    monkeypatch.chdir(tmp_path)
    Path("open.toml").write_text(OPEN, encoding="utf-8")
    done = run("choose", "open.toml", "--bought", "wide desk=150x75, 41.50", "--time", "60")
    assert done.exit_code == 0, done.output
    assert (
        "Recorded in open-bought.toml as bought: wide desk, 150 x 75 cm, for 41.50." in done.output
    )
    assert "the wide desk (to write): already bought" in done.output
    assert Path("open.toml").read_text(encoding="utf-8") == OPEN
    told = json.loads(Path("open-bought-plans/choice.json").read_text(encoding="utf-8"))
    assert all("wide desk" in one["candidates"] for one in (*told["choices"], *told["curve"]))
    sums = {"desk chair": 66.5, "stool": 51.5}
    best = told["choices"][0]
    assert best["cost"] == sums[best["candidates"][1]]
    done = run("shop", "open-bought-plans", "--time", "20")
    assert done.exit_code == 0, done.output
    assert added_again(Path("open-bought-plans/shop.csv")) == Decimal(str(best["cost"]))
    assert "What you have bought" in done.output


def test_a_purchase_that_is_not_understood_is_not_written(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("open.toml").write_text(OPEN, encoding="utf-8")
    done = run("choose", "open.toml", "--bought", "wide desk=150x75, much")
    assert (done.exit_code, "no sum after the last comma" in done.stderr) == (2, True)
    done = run("choose", "open.toml", "--in-place")
    assert (done.exit_code, "say where to record" in done.stderr) == (2, True)
    assert [p.name for p in Path().iterdir()] == ["open.toml"]


@pytest.mark.solver
def test_what_fits_nowhere_is_told_where_the_rest_is_open(tmp_path, monkeypatch):
    """With why and what would have to give; the purchase is recorded."""
    monkeypatch.chdir(tmp_path)
    text = OPEN.replace("[300, 300]", "[290, 170]")
    Path("open.toml").write_text(text, encoding="utf-8")
    done = run("choose", "open.toml", "--bought", "wide desk=270x105, 9", "--time", "60")
    assert done.exit_code == 3, done.output
    assert "You cannot have all of these" in done.output
    assert "Impossible, and that is proven" in done.output
    told = json.loads(Path("open-bought-plans/choice.json").read_text(encoding="utf-8"))
    assert (told["bought"], told["recorded"]) == (["wide desk"], "open-bought.toml")
    assert told["why"]["clashes"]


def test_nothing_is_recorded_where_the_list_cannot_be_written(tmp_path, monkeypatch):
    """A file stands where the folder should be: told before anything is written."""
    monkeypatch.chdir(tmp_path)
    Path("room.toml").write_text(FILE, encoding="utf-8")
    Path("taken").touch()
    done = run("shop", "room.toml", "--bought", "stool 1, 3", "--out", "taken")
    assert done.exit_code == 2, done.output
    assert sorted(p.name for p in Path().iterdir()) == ["room.toml", "taken"]


def test_a_copy_that_could_not_be_read_where_it_goes_is_not_written(tmp_path, monkeypatch):
    """Its outline lies beside the old file, not beside the new one."""
    monkeypatch.chdir(tmp_path)
    corners = [[0, 0], [0, 3.6], [3, 3.6], [3, 0], [0, 0]]
    shape = {"type": "Polygon", "coordinates": [corners]}
    Path("room.geojson").write_text(json.dumps(shape), encoding="utf-8")
    text = FILE.replace("size = [300, 360]", 'outline = { geojson = "room.geojson" }')
    Path("room.toml").write_text(text, encoding="utf-8")
    Path("other").mkdir()
    done = run("shop", "room.toml", "--bought", "stool 1, 3", "--write", "other/room.toml")
    assert (done.exit_code, "room.geojson: not found" in done.stderr) == (2, True), done.output
    assert list(Path("other").iterdir()) == []
