"""``arrange swap`` and ``arrange today`` on the command line."""

import json

import pytest
from command_line import ROOM, names, process, run

import arrange
from arrange.cli import main


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty working folder with room.toml in it, a bookcase that stands today."""
    monkeypatch.chdir(tmp_path)
    place = 'kind = "bookcase"\nowned = true\nstands_now = { wall = "A", from_left = 0 }\n'
    (tmp_path / "room.toml").write_text(ROOM.replace('kind = "bookcase"\n', place))
    return tmp_path


def test_a_swap_writes_a_picture_and_every_number(folder):
    """The answer comes first; nothing on stderr where nobody watches; the file is as before."""
    text = (folder / "room.toml").read_text()
    done = process("swap", "room.toml", "desk=120x60", "--price", "desk=80", cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[0] == "Box room"
    assert lines[2].startswith("A desk of 120 x 60 cm at 80 still works: ")
    assert "If everything else may move: " in done.stdout
    assert "If nothing else moves: " in done.stdout
    assert "bookcase stays where it stands today" in done.stdout
    plans = folder / "room-plans"
    assert names(plans) == ["before-after.png", "swap.json"]
    assert (plans / "before-after.png").read_bytes().startswith(b"\x89PNG")
    data = json.loads((plans / "swap.json").read_text())
    assert data["answer"] == "works"
    assert data["sentence"] == lines[2]
    assert data["files"] == ["before-after.png", "swap.json"]
    assert data["nothing_else_moves"]["held"] == ["bookcase"]
    assert (folder / "room.toml").read_text() == text


def test_two_runs_write_the_same_bytes(folder):
    """Pictures and numbers; there are no times in them."""
    for out in ("one", "two"):
        done = run("swap", "room.toml", "desk=120x60", "--out", out, "--format", "svg")
        assert done.exit_code == 0, done.output
    assert names(folder / "one") == ["before-after.svg", "swap.json"]
    for name in names(folder / "one"):
        assert (folder / "one" / name).read_bytes() == (folder / "two" / name).read_bytes()


def test_impossible_has_its_own_exit_code_and_points_to_why(folder):
    """By hand: the desk leaves a strip of 100 by 260; 76 of it to sit, 30 for the bookcase.

    76 is what is usual; with the bare 60 it would work.
    """
    file = folder / "room.toml"
    file.write_text('keep_to = "usual"' + file.read_text())
    done = run("swap", "room.toml", "desk=255x200", "--out", "out")
    assert done.exit_code == 3, done.output
    assert "A desk of 255 x 200 cm does not work (proven)." in done.output
    assert "arrange why" in done.output
    assert "on quite the same scale" not in " ".join(done.output.split())
    assert names(folder / "out") == ["before-after.png", "swap.json"]
    data = json.loads((folder / "out" / "swap.json").read_text())
    assert data["answer"] == "impossible"
    assert data["everything_else_may_move"]["after"]["plan"] is None


def test_not_decided_has_its_own_exit_code(folder):
    """And is not called impossible."""
    done = run("swap", "room.toml", "desk=120x60", "--time", "0.01", "--json")
    assert done.exit_code == 4
    assert json.loads(done.stdout)["answer"] == "not decided"
    assert names(folder) == ["room.toml"]


def test_the_changed_scenario_is_written_as_a_new_file(folder):
    """It reads as what was asked; the old one stays."""
    done = run("swap", "room.toml", "desk=120x60", "--write", "new.toml", "--json")
    assert done.exit_code == 0, done.output
    assert arrange.read("new.toml").piece("desk").width == 1200
    assert arrange.read("room.toml").piece("desk").width == 1100
    for target in ("new.toml", "room.toml"):
        before = (folder / target).read_text()
        again = run("swap", "room.toml", "desk=130x60", "--write", target)
        assert again.exit_code == 2
        assert "will not be overwritten" in again.output
        assert (folder / target).read_text() == before
    assert names(folder) == ["new.toml", "room.toml"]


@pytest.mark.fast
@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["dsk=120x60"], "known: bookcase, desk"),
        (["desk=120"], "desk=120: one length given"),
        (["desk=120x"], "desk=120x: a length is missing"),
        (["--add", "spaceship=80x85"], "--add spaceship=80x85: the kind"),
        (["--add", "stool=40"], "--add stool=40: one length given"),
        (["--price", "desk=dear"], "--price desk=dear: 'dear' given"),
        ([], "nothing to swap"),
        (["--keep", "bookcase"], "nothing to swap"),
        (["desk=120x60", "--keep", "desk"], "cannot be kept"),
        (["desk=120x60", "--kind", "desk=spaceship"], "the kind of piece"),
        (["desk=120x60", "--time", "0"], "out of range"),
    ],
)
def test_bad_input_is_one_message_and_writes_nothing(folder, args, said):
    """Exit code 2."""
    done = run("swap", "room.toml", *args)
    assert done.exit_code == 2, done.output
    assert said in done.output
    assert names(folder) == ["room.toml"]


def test_from_stdin(folder):
    """The file's name stands in for nothing."""
    text = (folder / "room.toml").read_text()
    done = run("swap", "-", "desk=120x60", "--json", input=text)
    assert done.exit_code == 0, done.output
    assert json.loads(done.stdout)["answer"] == "works"


@pytest.mark.usefixtures("folder")
def test_the_kept_piece_is_named():
    """And stays where it stands today, also if all else may move."""
    done = run("swap", "room.toml", "desk=120x60", "--keep", "bookcase", "--json")
    data = json.loads(done.stdout)
    assert data["kept"] == ["bookcase"]
    for reading in ("everything_else_may_move", "nothing_else_moves"):
        pieces = {p["name"]: p for p in data[reading]["after"]["plan"]["pieces"]}
        assert pieces["bookcase"]["placement"]["wall"] == "A"
        assert pieces["bookcase"]["placement"]["x"] == 0


# -------------------------------------------------------------------------------------- as it is


def test_today_is_judged_and_drawn(folder):
    """What has no place is left out, and that is said."""
    done = run("today", "room.toml")
    assert done.exit_code == 0, done.output
    assert "Everything essential works." in done.output
    assert "The desk has no place today and did not count." in done.output
    assert names(folder / "room-plans") == ["today.json", "today.png"]
    data = json.loads((folder / "room-plans" / "today.json").read_text())
    assert data["works"] is True
    assert data["left_out"] == ["desk"]
    assert [p["name"] for p in data["pieces"]] == ["bookcase"]
    assert data["score"] == pytest.approx(sum(r["won"] for r in data["reasons"]))


def test_what_is_broken_today_is_listed_and_still_a_report(folder):
    """The bookcase stands in the door's way."""
    text = (folder / "room.toml").read_text()
    text = text.replace('wall = "A", from_left = 0', 'wall = "C", from_left = 10')
    (folder / "room.toml").write_text(text)
    done = run("today", "room.toml", "--json")
    assert done.exit_code == 0
    data = json.loads(done.stdout)
    assert data["works"] is False
    assert "door-floor" in {b["rule"] for b in data["broken"]}
    words = run("today", "room.toml", "--out", "t").output
    for breach in data["broken"]:
        assert breach["sentence"] in " ".join(words.split())


def test_with_nothing_measured_it_says_what_to_write(folder):
    """Exit code 2, nothing written."""
    (folder / "room.toml").write_text(ROOM)
    done = run("today", "room.toml")
    assert done.exit_code == 2
    assert "stands_now = { wall" in done.output
    assert names(folder) == ["room.toml"]


@pytest.mark.fast
@pytest.mark.parametrize("command", ["swap", "today"])
def test_the_help_says_what_it_does(command):
    """Every option has words."""
    done = run(command, "--help")
    assert done.exit_code == 0
    assert main.commands[command].help
    assert all(p.help for p in main.commands[command].params if p.param_type_name == "option")


def test_a_later_run_takes_the_place_of_its_own_picture_only(folder):
    """The sheet of today stays when the swap is drawn again in another format."""
    for args in (
        ("today", "room.toml", "--out", "out"),
        ("swap", "room.toml", "desk=120x60", "--out", "out"),
        ("swap", "room.toml", "desk=120x60", "--out", "out", "--format", "svg"),
    ):
        assert run(*args).exit_code == 0
    assert names(folder / "out") == ["before-after.svg", "swap.json", "today.json", "today.png"]


# ------------------------------------------------------------------------ nothing lost, or twice


@pytest.mark.fast
@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["desk=120x60", "desk=110x60"], "two sizes are given for desk: desk=120x60 and "),
        (["desk=120x60", " Desk =110x60"], "two sizes are given for desk"),
        (["desk=120x60", "desk=120x60"], "desk=120x60 and desk=120x60; give one"),
        (
            ["--kind", "desk=stool", "--kind", "desk=armchair"],
            "two kinds are given for desk: --kind desk=stool and --kind desk=armchair; give one",
        ),
        (["--price", "desk=8", "--price", "desk=9"], "two prices are given for desk"),
        (["--add", "stool", "stool=40x40", "stool=30x30"], "two sizes are given for stool"),
        (["--sizes", "desk", "--sizes", "bookcase"], "--sizes is given twice; give it once"),
        (["--largest", "desk=width", "--largest", "desk=depth"], "--largest is given twice"),
        (["--sizes", "bookcase", "--region", "eu", "--region=us"], "--region is given twice"),
    ],
)
def test_what_is_given_twice_is_refused(folder, args, said):
    """Only one of the two would have counted."""
    done = run("swap", "room.toml", *args)
    assert done.exit_code == 2, done.output
    assert said in done.stderr
    assert names(folder) == ["room.toml"]


@pytest.mark.fast
def test_one_of_several_alike_and_all_of_them_is_twice(folder):
    """For the one that is meant by both."""
    text = (folder / "room.toml").read_text().replace('kind = "desk"', 'kind = "desk"\ncount = 2')
    (folder / "room.toml").write_text(text)
    done = run("swap", "room.toml", "desk=100x60", "desk 2=110x60")
    assert done.exit_code == 2
    assert "two sizes are given for desk 2: desk=100x60 and desk 2=110x60" in done.stderr


def test_a_second_swap_goes_beside_the_first(folder):
    """Both pictures and both records; the same one again finds its own."""
    first = run("swap", "room.toml", "desk=120x60", "--out", "out")
    assert (first.exit_code, first.stderr) == (0, "")
    before = {p.name: p.read_bytes() for p in (folder / "out").iterdir()}
    for _ in range(2):
        done = run("swap", "room.toml", "--without", "desk", "--out", "out")
        assert done.exit_code == 0, done.output
        assert done.stderr == (
            "out/swap.json answers another question and stays as it is; "
            "this answer is in swap-2.json.\n"
        )
        assert "Picture: out/before-after-2.png; every number in swap-2.json" in done.stdout
        assert names(folder / "out") == [
            *("before-after-2.png", "before-after.png", "swap-2.json", "swap.json"),
        ]
    assert {name: (folder / "out" / name).read_bytes() for name in before} == before
    data = json.loads((folder / "out" / "swap-2.json").read_text())
    assert data["files"] == ["before-after-2.png", "swap-2.json"]


@pytest.mark.parametrize(
    ("args", "stem"),
    [(("--largest", "desk=width"), "largest"), (("--sizes", "desk=100..110/10"), "ladder")],
)
def test_sizes_after_other_changes_are_another_question(folder, args, stem):
    """The record tells which changes were made before."""
    for changes in ((), ("--without", "bookcase")):
        done = run("swap", "room.toml", *changes, *args, "--out", "out", "--format", "svg")
        assert done.exit_code == 0, done.output
    assert names(folder / "out") == [
        *(f"{stem}-2.json", f"{stem}-2.svg", f"{stem}.json", f"{stem}.svg"),
    ]
    told = [json.loads((folder / "out" / f"{stem}{n}.json").read_text()) for n in ("", "-2")]
    assert [one["changes"] for one in told] == [[], [{"change": "Drop", "piece": "bookcase"}]]


def test_a_swap_that_was_not_decided_leaves_the_one_that_was(folder):
    """A thousandth of a second is enough to prove nothing."""
    run("swap", "room.toml", "desk=120x60", "--out", "out")
    before = {p.name: p.read_bytes() for p in (folder / "out").iterdir()}
    done = run("swap", "room.toml", "desk=120x60", "--out", "out", "--time", "0.001")
    assert done.exit_code == 4, done.output
    assert "out/swap.json is from a run that found more, so it stays" in done.stderr
    assert {name: (folder / "out" / name).read_bytes() for name in before} == before
    assert json.loads((folder / "out" / "swap-none.json").read_text())["answer"] == "not decided"
