"""The ladder over sizes, its chart, its data and the command."""

import json
from dataclasses import replace

import pytest
from click.testing import CliRunner
from small_rooms import on_wall, only, piece, room, scenario

from arrange import read_text, suggest
from arrange.cli import main
from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Wish
from arrange.data.sizes import Ladder, Rung, Size, SizeTable, range_of_sizes, standard_sizes
from arrange.draw.ladder import ladder_sheet, largest_sheet
from arrange.judge import judge
from arrange.output.sizes import ladder_data, largest_data
from arrange.whatif.ladder import in_size, ladder, made_comfortable
from arrange.whatif.largest import largest
from arrange.words.sizes import ladder_words, largest_words

OFF = "".join(
    f'[[rule]]\nrule = "{rule}"\noff = true\n'
    for rule in ("balance", "clear-floor", "on-axis", "first-look", "bed-sees-door")
)


def bedroom(width):
    """A bed, its head on wall A, in a room so wide; the door at its foot opens out.

    What is needed is held to its usual, published values.
    """
    top = f'unit = "mm"\nkeep_to = "usual"\n[room]\nsize = [{width}, 3300]\n'
    door = '[[door]]\nwall = "C"\nfrom_left = 100\nwidth = 800\nopens = "out"\n'
    bed = '[[piece]]\nkind = "double bed"\nname = "bed"\n'
    wish = '[[wish]]\npiece = "bed"\nagainst = "A"\nmust = true\n'
    return top + door + bed + wish + OFF


# Sides 559 + 305 beside the frame, comfortable 750 and 600. EU frames: 1450, 1650, 1850.
@pytest.mark.parametrize(
    ("width", "best", "comfortable"),
    [
        (1850 + 559 + 305, "180 x 200", "100 x 200"),
        (1850 + 559 + 305 - 1, "160 x 200", "100 x 200"),
        (1450 + 750 + 600, "180 x 200", "140 x 200"),
        (1450 + 750 + 600 - 1, "180 x 200", "100 x 200"),
    ],
)
def test_the_ladder_agrees_with_the_sum(width, best, comfortable):
    """`bed-side-access`, `bed-least-used-side`; `bed-around-pref`, `bed-around-min`."""
    case = read_text(bedroom(width))
    found = ladder(case, "bed", standard_sizes(case.piece("bed"), "eu"), seconds=60)
    assert found.largest.size.label == best
    assert found.largest_comfortable.size.label == comfortable
    for rung in found.rungs:
        sized = in_size(case, "bed", rung.size)
        if rung.works == "works":
            assert judge(sized, rung.arrangement).works
            assert judge(sized, rung.arrangement).score == rung.score <= rung.bound
        else:
            assert rung.works == rung.comfortable == "impossible"
    assert not found.undecided


def test_stopped_early_the_rest_is_not_decided():
    """After the first size nothing more is looked at; nothing is called impossible."""
    case, said = read_text(bedroom(2800)), []
    table = standard_sizes(case.piece("bed"), "eu")
    found = ladder(case, "bed", table, say=said.append, stop=lambda: len(said) > 1)
    assert found.interrupted
    assert found.rungs[0].works == "works"
    assert {r.works for r in found.rungs[2:]} == {"not decided"}
    assert "not decided in the time" in " ".join(ladder_words(found))


def made(*answers, scale=(0, 0, 0, 0)):
    """A ladder with a rung for each of (works, comfortable, score)."""
    chest = piece("chest")
    case = scenario(room(), chest)
    shown = Arrangement((on_wall(chest, room(), 0, 0),))
    verdict = judge(case, shown)
    rungs = []
    for i, (works, comfortable, score) in enumerate(answers):
        size = Size(f"size {i}", chest)
        if score is None:
            rungs.append(Rung(size, works, comfortable))
            continue
        scored = type(verdict)((), (), score)
        rungs.append(Rung(size, works, comfortable, shown, scored, score, (1, 2), scale[i]))
    return Ladder(case, "chest", SizeTable("sizes", tuple(r.size for r in rungs)), tuple(rungs))


MIXED = (
    ("works", "works", 800),
    ("works", "impossible", 750),
    ("works", "not decided", 500),
    ("not decided", "not decided", None),
    ("impossible", "impossible", None),
)


def test_the_fall_is_the_biggest_loss_on_one_scale():
    """750 to 500; with the third on a scale of its own 800 to 750."""
    fall = made(*MIXED, scale=(0, 0, 0)).fall
    assert (fall.before.size.label, fall.after.size.label, fall.loss) == ("size 1", "size 2", 250)
    assert made(*MIXED, scale=(0, 0, 2)).fall.loss == 50
    assert made(("works", "works", 500), ("works", "works", 600)).fall is None


@pytest.mark.parametrize(("bound", "loss"), [(600, 150), (749, 1), (750, None), (1000, None)])
def test_a_score_that_may_still_rise_is_no_fall(bound, loss):
    """750 before and 500 found after, of which only the bound says how low it must stay."""
    found = made(MIXED[1], MIXED[2])
    open_ = replace(found, rungs=(found.rungs[0], replace(found.rungs[1], bound=bound)))
    if loss is None:
        assert open_.fall is None
    else:
        assert (open_.fall.loss, open_.fall.sure) == (loss, False)
        assert f"by at least {loss / 10} points" in " ".join(ladder_words(open_))


def test_a_smaller_size_that_does_not_work_is_said():
    """Nobody expects it."""
    words = " ".join(ladder_words(made(MIXED[4], MIXED[0])))
    assert "Though larger ones work, size 0 does not (proven)" in words
    assert "Though" not in " ".join(ladder_words(made(MIXED[0], MIXED[4])))


def test_a_size_without_time_of_its_own_stands_where_its_neighbour_does(monkeypatch):
    """Only the last size is searched; the others take over where the chest stands there."""
    case = only(scenario(room(), piece("chest", 800, 400), piece("shelf", 1000, 300)))
    kept = tuple(s for s in case.settings if s.rule != "against")
    case = replace(case, settings=kept, wishes=(Wish("against", "chest", "A"),))
    table = range_of_sizes(case.piece("shelf"), (1000, 300), (1400, 300), 200, "mm")
    held = []

    def short(asked, **options):
        held.append([p.piece for p in asked.held])
        found = suggest(asked, **options)
        if asked.held or asked.piece("shelf").width == 1400:
            return found
        return replace(found, suggestions=(), outcome="nothing found")

    monkeypatch.setattr("arrange.whatif.ladder.suggest", short)
    found = ladder(case, "shelf", table, seconds=30)
    assert ["chest"] in held
    assert [r.score for r in found.rungs] == [found.rungs[2].score] * 3
    for rung in found.rungs:
        assert judge(in_size(case, "shelf", rung.size), rung.arrangement) == rung.verdict


def test_the_chart_tells_the_four_answers_apart():
    """Bars of two sorts, a question mark and a cross, beside those of the legend."""
    figure = ladder_sheet(made(*MIXED))
    drawn = [a.get_gid() for ax in figure.axes for a in (*ax.patches, *ax.lines, *ax.texts)]
    assert drawn.count("bar comfortable") == 1 + 1
    assert drawn.count("bar works") == 2 + 1
    assert drawn.count("impossible") == 1 + 1
    assert drawn.count("not decided") == 1 + 1
    texts = [t.get_text() for ax in figure.axes for t in ax.texts]
    assert {f"size {i}" for i in range(5)} <= set(texts)
    assert {"80.0", "75.0", "50.0"} <= set(texts)


def test_what_is_comfortable_is_dark_and_what_only_works_is_pale():
    """Each with its own hatching, so that a greyscale print tells them apart, too."""
    figure = ladder_sheet(made(*MIXED))
    bars = [p for ax in figure.axes for p in ax.patches if str(p.get_gid()).startswith("bar ")]
    looks = {
        sort: {
            (sum(p.get_facecolor()[:3]), p.get_hatch() or "") for p in bars if sort in p.get_gid()
        }
        for sort in ("comfortable", "works")
    }
    ((dark, plain),) = looks["comfortable"]
    ((pale, hatched),) = looks["works"]
    assert dark < 1.5 < pale
    assert hatched
    assert not plain


def test_a_bar_is_as_high_as_its_score():
    """Of one height in all, which 100 points fill: 80 to 75 to 50, in the order of the sizes."""
    figure = ladder_sheet(made(*MIXED))
    bars = [p for ax in figure.axes for p in ax.patches if str(p.get_gid()).startswith("bar ")]
    scores = sorted(rung.score for rung in made(*MIXED).rungs if rung.score is not None)
    heights = sorted(bar.get_height() for bar in bars)[-len(scores) :]
    shares = [height / score for height, score in zip(heights, scores, strict=True)]
    assert shares == pytest.approx([shares[0]] * len(shares))


@pytest.mark.parametrize(("scale", "drawn"), [((0, 0, 0), False), ((0, 0, 2), True)])
def test_the_broken_line_is_explained_where_there_is_one(scale, drawn):
    """The dotted line of the fall is not to be taken for it."""
    figure = ladder_sheet(made(*MIXED, scale=scale))
    lines = [line.get_gid() for ax in figure.axes for line in ax.lines]
    texts = " ".join(t.get_text() for ax in figure.axes for t in ax.texts)
    assert ("scale" in lines, "Broken line" in texts) == (drawn, drawn)


def test_the_data_says_the_same():
    """Labels, answers, points."""
    data = json.loads(json.dumps(ladder_data(made(*MIXED), ("ladder.png",))))
    assert data["largest"] == "size 2"
    assert data["largest_comfortable"] == "size 0"
    assert data["falls_off"]["loss"] == 25.0
    assert [s["works"] for s in data["sizes"]] == [m[0] for m in MIXED]
    assert data["sizes"][0]["others_comfortable"] == {"full": 1, "of": 2}
    assert data["sizes"][4]["score"] is None
    case = read_text(bedroom(2500))
    found = largest(case, "bed", "width")
    said = largest_data(found, case)
    assert (said["answer"], said["size"], said["proven_impossible_from"]) == ("exact", 1630, 1640)
    assert "1630 mm wide and no more: with 1640 mm nothing works (proven)" in largest_words(
        found, case
    )
    assert largest_sheet(found).axes


def test_comfortable_means_the_pieces_own_clearances():
    """Its least is its comfortable; what is not walked to stays so."""
    case = read_text(bedroom(2800))
    after = made_comfortable(case, "bed").piece("bed")
    assert {c.name: c.least for c in after.clearances} == {
        "getting in": 750, "left side": 600, "right side": 600, "foot": 600,
    }  # fmt: skip
    assert [c.walk for c in after.clearances] == [True, True, True, False]


def run(*words):
    """The command line in this process."""
    return CliRunner().invoke(main, ["swap", *words])


def test_the_command_prints_the_table_and_writes_the_chart(tmp_path):
    """One line a size, in the order of the ladder; exit code 0."""
    file = tmp_path / "room.toml"
    file.write_text(bedroom(2600))
    done = run(str(file), "--sizes", "bed", "--time", "30", "--out", str(tmp_path / "out"))
    assert done.exit_code == 0, done.output
    lines = [line for line in done.output.splitlines() if " x 200 " in line and "  " in line]
    assert [line.split("  ")[0] for line in lines if line[0].isdigit()] == [
        "80 x 200", "90 x 200", "100 x 200", "140 x 200", "160 x 200", "180 x 200",
    ]  # fmt: skip
    assert "European mattress sizes, because your file is in mm" in done.output
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == ["ladder.json", "ladder.png"]


def test_the_command_tells_the_largest(tmp_path):
    """2600 - 559 - 305 = 1736 mm."""
    file = tmp_path / "room.toml"
    file.write_text(bedroom(2600))
    done = run(str(file), "--largest", "bed=width", "--json")
    assert done.exit_code == 0, done.output
    assert json.loads(done.output)["size"] == 1730


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--sizes", "bedd"), "did you mean 'bed'"),
        (("--largest", "bed"), "write bed=width"),
        (("--sizes", "bed", "--largest", "bed=width"), "one at a time"),
        (("--sizes", "bed", "--keep", "bed"), "do not go with"),
        (("--sizes", "bed", "--region", "xx"), "xx"),
    ],
)
def test_the_command_refuses_what_it_does_not_understand(tmp_path, words, told):
    """Exit code 2, nothing written."""
    file = tmp_path / "room.toml"
    file.write_text(bedroom(2600))
    done = run(str(file), *words, "--out", str(tmp_path / "out"))
    assert done.exit_code == 2
    assert told in done.output
    assert not (tmp_path / "out").exists()
