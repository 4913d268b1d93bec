"""Options side by side: rows, better ones, prices, earlier results, the sheet, the command."""

import csv
import io
import json
from dataclasses import replace

import pytest
from command_line import ROOM, SLAB, names, run

import arrange
from arrange.comparing import cost, side_by_side
from arrange.data.result import Reason
from arrange.data.sources import Source
from arrange.draw.comparison import comparison_sheet
from arrange.output.fields import as_text
from arrange.output.reading import read_result
from arrange.output.records import as_data, compare_data
from arrange.output.spreadsheets import compare_csv
from arrange.words.compare import notes_words, remark_words, words

SOURCE = Source("common-practice", "common practice", "common practice")
PRICED = ROOM.replace('kind = "bookcase"\n', 'kind = "bookcase"\nprice = 80.5\n')
STANDS = 'stands_now = {{ wall = "{}", from_left = 0 }}\n'
TODAY = ROOM.replace('"bookcase"\n', '"bookcase"\n' + STANDS.format("A"))
TODAY = TODAY.replace("width = 110\n", "width = 110\n" + STANDS.format("D"))


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A folder with two scenarios, one that cannot work, and an earlier result."""
    path = tmp_path_factory.mktemp("compare")
    (path / "room.toml").write_text(PRICED)
    (path / "large.toml").write_text(ROOM.replace("300, 260", "620, 480").replace("110", "160"))
    (path / "today.toml").write_text(TODAY)
    (path / "full.toml").write_text(ROOM + SLAB)
    scenario = arrange.read(path / "room.toml")
    result = arrange.suggest(scenario, top=2)
    (path / "plans").mkdir()
    (path / "plans" / "result.json").write_text(as_text(as_data(result)))
    return path


@pytest.fixture(scope="module")
def four(folder):
    asked = ["room.toml", "large.toml", "full.toml", "plans/result.json#2"]
    return arrange.compare([folder / a for a in asked], seconds=60)


def reason(rule, won, possible, *subjects):
    return Reason(rule, subjects, "so", "1", "2", won, possible, SOURCE)


def option(four, *reasons):
    return replace(four.options[0], reasons=reasons, score=sum(r.won for r in reasons))


def test_each_option_is_what_it_was_asked_as(four):
    assert [o.origin for o in four.options] == ["searched", "searched", "searched", "judged again"]
    assert [o.state for o in four.options] == ["proven", "proven", "impossible", "proven"]
    assert [o.works for o in four.options] == [True, True, False, True]
    assert four.options[2].score is None
    assert four.works


def test_a_searched_option_has_the_score_of_suggest(folder, four):
    best = arrange.suggest(arrange.read(folder / "room.toml"), top=2)
    assert four.options[0].score == best.suggestions[0].verdict.score
    assert four.options[3].score == best.suggestions[1].verdict.score


def test_the_judge_agrees_with_every_arrangement_shown(four):
    for one in four.options:
        if one.arrangement is not None:
            verdict = arrange.assess(one.scenario, one.arrangement)
            assert verdict.works
            assert verdict.score == one.score


def test_rows_join_the_same_rule_and_subject(four):
    left = option(four, reason("near", 10, 100, "bed"), reason("balance", 50, 100))
    right = option(four, reason("balance", 20, 100), reason("near", 30, 100, "desk"))
    rows = {(r.rule, r.subjects): r for r in side_by_side([left, right]).rows}
    assert rows["balance", ()].best == (0,)
    assert rows["near", ("bed",)].reasons[1] is None
    assert rows["near", ("bed",)].best == ()  # only one is asked
    assert len(rows) == 3


def test_the_better_one_goes_by_the_share_of_the_points(four):
    left, right = option(four, reason("balance", 30, 100)), option(four, reason("balance", 20, 40))
    right = replace(right, scale=("another",))
    compared = side_by_side([left, right])
    assert compared.rows[0].best == (1,)
    assert not compared.one_scale
    assert compared.best == ()
    assert "100 points do not mean the same" in remark_words(compared)


def test_what_only_rounding_makes_differ_is_alike(four):
    # Half of 3.9 and half of 3.7 points, rounded down: 1.9 and 1.8.
    left, right = option(four, reason("balance", 19, 39)), option(four, reason("balance", 18, 37))
    assert side_by_side([left, right]).rows[0].best == ()
    third = option(four, reason("balance", 9, 37))
    assert side_by_side([left, right, third]).rows[0].best == (0, 1)


def test_scores_compare_on_one_scale(four):
    left, right = option(four, reason("balance", 30, 100)), option(four, reason("balance", 20, 100))
    assert side_by_side([left, right]).best == (0,)
    assert side_by_side([left, left]).best == ()  # alike: none is better
    assert remark_words(side_by_side([left, right])) == ""


def test_several_claims_of_one_rule_and_subject_stay_apart(four):
    two = [reason("near", 10, 50, "bed"), reason("near", 20, 50, "bed")]
    rows = side_by_side([option(four, *two), option(four, *two[::-1])]).rows
    assert [r.best for r in rows] == [(1,), (0,)]


def test_prices_add_up_and_gaps_in_them_are_said(folder):
    scenario = arrange.read(folder / "room.toml")
    assert (cost(scenario).total, cost(scenario).unpriced) == (80.5, ("desk",))
    owned = replace(scenario, pieces=tuple(replace(p, owned=True) for p in scenario.pieces))
    assert (cost(owned).total, cost(owned).unpriced) == (0.0, ())
    bare = replace(scenario, pieces=tuple(replace(p, price=None) for p in scenario.pieces))
    assert cost(bare).total is None


def test_today_is_judged_as_it_stands(folder):
    compared = arrange.compare([f"{folder}/today.toml:today", folder / "today.toml"], seconds=60)
    today, best = compared.options
    assert today.origin == "today"
    assert today.score == arrange.assess_today(arrange.read(folder / "today.toml")).verdict.score
    assert today.score <= best.score


def test_a_result_is_only_read_where_its_scenario_is_gone_or_changed(folder, tmp_path):
    data = json.loads((folder / "plans" / "result.json").read_text())
    (tmp_path / "result.json").write_text(json.dumps(data))
    alone, _ = arrange.compare([tmp_path, tmp_path / "result.json#2"]).options
    assert alone.origin == "read"
    assert notes_words(alone) == ("shown as it was, not checked again: room.toml is not there",)
    assert alone.score == round(data["score"] * 10)
    (tmp_path / "room.toml").write_text(ROOM.replace("300, 260", "310, 260"))
    changed, _ = arrange.compare([tmp_path, tmp_path / "result.json#2"]).options
    assert changed.origin == "read"
    assert "has changed since" in notes_words(changed)[0]


def test_what_is_read_back_is_what_was_written(folder):
    scenario = arrange.read(folder / "room.toml")
    first = arrange.suggest(scenario, top=1).suggestions[0]
    read = read_result(folder / "plans" / "result.json", 1)
    assert read.suggestion.arrangement == first.arrangement
    assert read.suggestion.verdict.reasons == first.verdict.reasons
    assert read.scenario.room.corners == scenario.room.corners
    assert read.scenario.room.doors == tuple(replace(d, main=True) for d in scenario.room.doors)


def test_the_csv_opens_in_a_spreadsheet(four):
    table = list(csv.reader(io.StringIO(compare_csv(four))))
    assert all(len(row) == 3 + 4 for row in table)
    assert table[0] == ["what", "about", "of points", "A", "B", "C", "D"]
    score = next(row for row in table if row[0] == "score")
    assert [float(s) * 10 if s else None for s in score[3:]] == [o.score for o in four.options]
    rows = table[-len(four.rows) :]
    for cells, row in zip(rows, four.rows, strict=True):
        assert cells[0] == row.title
        won = [None if not c else round(float(c) * 10) for c in cells[3:]]
        assert won == [None if r is None else r.won for r in row.reasons]


def test_a_cell_is_never_a_formula(four):
    for sign in ("=", "+", "-", "@", "\uff1d"):  # some take the wide one for the first
        bad = replace(four.options[0], asked=f"{sign}1+1.toml")
        assert f"'{sign}1+1.toml" in compare_csv(side_by_side([bad, four.options[1]]))


def test_the_json_says_which_is_which(four):
    data = compare_data(four, ("compare.png", "compare.csv"))
    assert json.loads(as_text(data)) == data
    assert [o["option"] for o in data["options"]] == ["A", "B", "C", "D"]
    assert data["options"][2]["state"] == "impossible"
    assert data["options"][2]["placements"] == []
    for row in data["rows"]:
        assert len(row["reasons"]) == 4
        assert set(row["best"]) <= set("ABCD")


@pytest.mark.parametrize("count", [2, 3, 4, 6])
def test_all_plans_on_the_sheet_are_at_one_scale(four, count):
    options = (four.options * 2)[:count]
    figure = comparison_sheet(side_by_side(options))
    plans = figure.axes[1:]
    assert len(plans) == count
    figure.canvas.draw()
    widths = [ax.get_window_extent().width / (ax.get_xlim()[1] - ax.get_xlim()[0]) for ax in plans]
    assert max(widths) / min(widths) < 1.001
    words_on = [{t.get_text() for t in ax.texts if t.get_gid() == "no-arrangement"} for ax in plans]
    impossible = [one.state == "impossible" for one in options]
    assert words_on == [{"Impossible"} if i else set() for i in impossible]


def test_the_terminal_table_fits_100_columns(four, tmp_path):
    six = side_by_side((four.options * 2)[:6])
    text = words(six, tmp_path, ("compare.png", "compare.csv"))
    told = [line for line in text.splitlines() if not line.startswith("Picture")]
    assert max(map(len, told)) <= 100
    assert "it does not fit, and that is proven" in text


def test_the_command_writes_sheet_table_and_data(folder, tmp_path, monkeypatch):
    monkeypatch.chdir(folder)
    out = tmp_path / "out"
    done = run("compare", "room.toml", "full.toml", "--out", str(out), "--time", "60")
    assert done.exit_code == 0, done.output
    assert names(out) == ["compare.csv", "compare.json", "compare.png"]
    assert "the best there is; we checked" in done.output
    only = run("compare", "full.toml", "full.toml", "--json", "--time", "60")
    assert only.exit_code == 3
    assert json.loads(only.output)["works"] is False


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (["room.toml"], ["1 option; 2 to 6 can be compared"]),
        (["room.toml"] * 7, ["7 options; 2 to 6 can be compared"]),
        (["no.toml", "no.json"], ["no.toml: not found", "no.json: not found"]),
        (["bad.json", "room.toml"], ["bad.json: not what arrange suggest writes"]),
        (["text.json", "room.toml"], ["text.json: not JSON"]),
        (["plans/result.json#9", "room.toml"], ["no arrangement #9; it has #1 to #2"]),
        (["room.toml:today", "room.toml"], ["no piece says where it stands today"]),
    ],
)
def test_bad_input_is_told_at_once_and_nothing_written(folder, monkeypatch, asked, told):
    monkeypatch.chdir(folder)
    (folder / "bad.json").write_text('{"a": 1}')
    (folder / "text.json").write_text("hello")
    before = names(folder)
    done = run("compare", *asked)
    assert done.exit_code == 2
    assert all(text in done.output for text in told)
    assert names(folder) == before


def test_nothing_found_in_time_is_not_impossible(folder):
    busy = arrange.compare([folder / "large.toml", folder / "full.toml"], stop=lambda: True)
    assert busy.interrupted
    assert all(o.state == "nothing found" for o in busy.options)
    assert all(o.arrangement is None for o in busy.options)
