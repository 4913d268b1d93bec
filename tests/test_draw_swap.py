"""The sheets of a swap and of the room as it stands: read back from what was drawn."""

import re
from dataclasses import replace

import pytest
from matplotlib.collections import LineCollection
from matplotlib.colors import to_hex
from small_rooms import A, B, at, free, on_wall, only, piece, room, scenario

import arrange
from arrange.data.change import Resize
from arrange.data.piece import Slot
from arrange.data.room import Door
from arrange.data.swap import Answer, Moved, Plan, Reading, Stand, Swap
from arrange.draw import save
from arrange.draw.sheet import today_sheet
from arrange.draw.swap import CROWD, before_after_sheet, traced
from arrange.judge import judge
from arrange.whatif.swap import compared, moved
from arrange.whatif.today import assess_today
from arrange.words.swap import note_words, today_words

pytestmark = pytest.mark.fast

DOOR = Door("door", 2, 500, 800)
SHELF, CHEST = piece("shelf", 1000, 300), piece("chest", 800, 400, major=True)


def plan(case, *placements):
    arrangement = arrange.Arrangement(tuple(placements))
    return Plan(case, arrangement, judge(case, arrangement), 1000)


def reading(before, after):
    return Reading(
        Answer("works", before),
        Answer("works", after),
        compared(before.verdict, after.verdict),
        moved(before, after),
    )


def swapped(free_reading, held_reading, before, after):
    return Swap(
        before=before, after=after, changes=(), kept=(), free=free_reading, held=held_reading,
        start="best before", holds=(), follows=(), slides=(), same_scale=True, price=None, seed=0,
        seconds=1.0,
    )  # fmt: skip


@pytest.fixture(scope="module")
def example():
    """The chest goes from wall A to wall B, the shelf gets wider, a stool is left out."""
    stool = free("stool", 400, 400)
    shape = room(doors=(DOOR,))
    case = only(scenario(shape, CHEST, SHELF, stool))
    wide = replace(SHELF, width=1400)
    later = only(scenario(shape, CHEST, wide))
    before = plan(
        case,
        on_wall(CHEST, shape, A, 100),
        on_wall(SHELF, shape, A, 1500),
        at("stool", "down", 1500, 1500),
    )
    apart = plan(later, on_wall(CHEST, shape, B, 900), on_wall(wide, shape, A, 1500))
    still = plan(later, on_wall(CHEST, shape, A, 100), on_wall(wide, shape, A, 1300))
    return swapped(reading(before, apart), reading(before, still), case, later)


@pytest.fixture(scope="module")
def sheet(example):
    """The sheet of it, drawn once for all that read it."""
    return before_after_sheet(example)


def gids(axes):
    return [a.get_gid() for a in axes.collections if a.get_gid()]


def texts(figure):
    return " ".join(t.get_text() for ax in figure.axes for t in ax.texts)


def test_every_plan_has_the_same_scale_and_its_own_marks(sheet):
    """Before, after in both readings; on each what moved there and nothing else."""
    before, free_plan, held_plan = sheet.axes[1:]
    scales = {
        round((ax.get_xlim()[1] - ax.get_xlim()[0]) / ax.get_position().width, 6)
        for ax in sheet.axes[1:]
    }
    assert len(scales) == 1
    marks = [{g for g in gids(ax) if re.match("moved|changed|was|gone", g)} for ax in sheet.axes]
    assert marks[1] == {"gone"}
    assert marks[2] == {"moved:chest", "was:chest", "moved:shelf", "changed:shelf", "was:shelf"}
    assert marks[3] == {"moved:shelf", "changed:shelf", "was:shelf"}
    assert [p.get_gid() for p in free_plan.patches if p.get_gid() == "way:chest"] == ["way:chest"]
    assert not [p for p in (*before.patches, *held_plan.patches) if p.get_gid() == "way:chest"]


def test_the_dashed_outline_lies_where_the_piece_was(sheet):
    """The chest before: 100 to 900 along wall A, at the top of a room 3000 up the plan."""
    (was,) = [
        c
        for c in sheet.axes[2].collections
        if isinstance(c, LineCollection) and c.get_gid() == "was:chest"
    ]
    points = was.get_segments()[0]
    assert (points.min(axis=0).round() == (100, 2600)).all()
    assert (points.max(axis=0).round() == (900, 3000)).all()
    assert was.get_linestyle()[0][1] is not None  # dashed: no colour is needed to see it


@pytest.mark.slow
def test_the_key_shows_the_lines_that_are_on_the_plans(sheet):
    """In their colours and dashes: where a piece was is not the line of where it is."""
    page, plans = sheet.axes[0], sheet.axes[2]
    on_plan = {
        name: next(c for c in plans.collections if c.get_gid() == gid)
        for name, gid in (("was", "was:chest"), ("moved", "moved:chest"))
    }
    samples = [line for line in page.lines if len(line.get_xdata()) == 5]  # small rectangles
    dashed = {to_hex(line.get_color()) for line in samples if line.is_dashed()}
    drawn = {to_hex(line.get_color()) for line in samples if not line.is_dashed()}
    assert dashed == {to_hex(on_plan["was"].get_color()[0])}
    assert drawn == {to_hex(on_plan["moved"].get_color()[0])}
    assert dashed != drawn


def test_the_answer_and_what_is_left_out_are_written(sheet):
    """The answer in a line, the key of the marks, the scale."""
    told = texts(sheet)
    assert "it still works" in told or "still works" in told
    assert "Left out: stool." in told
    assert "Changed: shelf." in told
    assert "Moved: chest." in told
    assert "changed or new" in told
    assert re.search(r"1:\d+ printed on A4", told)


def test_a_reading_that_does_not_work_is_told_and_not_drawn(example):
    """Only before is drawn where nothing works after."""
    none = Reading(example.free.before, Answer("impossible"))
    only_free = before_after_sheet(replace(example, held=none))
    assert len(only_free.axes) == 1 + 2
    assert "If nothing else moves: impossible, proven" in texts(only_free)
    neither = before_after_sheet(replace(example, free=none, held=none))
    assert len(neither.axes) == 1 + 1
    assert "does not work (proven)" in texts(neither)
    assert "arrange why" in texts(neither)
    nothing = Reading(Answer("not decided"), Answer("not decided"))
    with pytest.raises(ValueError, match="nothing to draw"):
        before_after_sheet(replace(example, free=nothing, held=nothing))


def test_two_readings_with_one_plan_are_drawn_once(example):
    """Said as what it is."""
    figure = before_after_sheet(replace(example, free=example.held))
    assert len(figure.axes) == 1 + 2
    assert "After: everything else can stay" in texts(figure)
    stand = Stand("down", "wall A")
    along = Moved("chest", "moved", "chest", 150, stand, stand)
    towed = replace(example.held, moved=(*example.held.moved, along))
    figure = before_after_sheet(replace(example, free=towed, held=towed))
    assert "After: only what goes with it moves" in texts(figure)


def test_where_much_moved_only_large_pieces_show_where_they_were():
    """Six small ones and the chest."""
    small = [free(f"stool {i}", 300, 300) for i in range(CROWD + 2)]
    case = only(scenario(room(), CHEST, *small))
    rows = [at(s.name, "down", 100 + 400 * i, 500) for i, s in enumerate(small)]
    moved_on = [replace(r, y=1500) for r in rows]
    before = plan(case, on_wall(CHEST, room(), A, 100), *rows)
    after = plan(case, on_wall(CHEST, room(), A, 900), *moved_on)
    found = moved(before, after)
    assert len(found) == len(small) + 1
    assert [m.piece for m in traced(before, found)] == ["chest"]
    assert len(traced(before, found[:CROWD])) == CROWD


@pytest.mark.slow
@pytest.mark.parametrize("suffix", ["png", "svg", "pdf"])
def test_the_same_swap_gives_the_same_bytes(example, tmp_path, suffix):
    """In every format."""
    paths = [save(before_after_sheet(example), tmp_path / f"{n}.{suffix}") for n in "ab"]
    assert paths[0].read_bytes() == paths[1].read_bytes()


def test_the_sheet_of_today_says_plainly_what_does_not_work():
    """Each broken must as a sentence, its pieces outlined; what was left out is named."""
    shape = room(doors=(DOOR,))
    case = only(scenario(shape, CHEST, SHELF, free("stool", 400, 400)))
    today = (on_wall(CHEST, shape, A, 100), on_wall(SHELF, shape, A, 500))
    assessed = assess_today(replace(case, today=today))
    assert {b.rule for b in assessed.verdict.breaches} == {"bodies-apart"}
    assert assessed.left_out == ("stool",)
    figure = today_sheet(assessed)
    told = texts(figure)
    assert "Does not work today" in told
    for breach in assessed.verdict.breaches:
        assert breach.sentence in " ".join(told.split())
    assert "The stool has no place today and did not count." in told
    marked = {g for ax in figure.axes for g in gids(ax) if g.startswith("moved:")}
    assert marked == {"moved:chest", "moved:shelf"}


def test_the_sheet_of_a_day_on_which_all_is_well():
    """Nothing is outlined and nothing left out."""
    shape = room(doors=(DOOR,))
    case = only(scenario(shape, CHEST))
    assessed = assess_today(replace(case, today=(on_wall(CHEST, shape, A, 100),)))
    figure = today_sheet(assessed)
    assert "Everything essential works." in texts(figure)
    assert not any(g.startswith("moved:") for ax in figure.axes for g in gids(ax))


def test_today_counts_only_what_is_there():
    """A wish about a piece that is not there, and a tie to one, are left out with it."""
    lamp = free("lamp", 300, 300, anchor="chest")
    case = only(scenario(room(), CHEST, lamp))
    assessed = assess_today(replace(case, today=(at("lamp", "down", 1000, 1000),)))
    assert [p.name for p in assessed.scenario.pieces] == ["lamp"]
    assert assessed.scenario.piece("lamp").anchor is None
    assert assessed.verdict.works
    with pytest.raises(arrange.ScenarioError, match="stands_now"):
        assess_today(case)


@pytest.mark.solver
def test_a_chair_pushed_aside_does_not_count_as_broken():
    """It goes with the chest and stands a metre off: said, and no breach."""
    chair = free("chair", 300, 300, anchor="chest", slots=(Slot("front", gap=50),))
    case = only(scenario(room(), CHEST, chair))
    chest = on_wall(CHEST, room(), A, 100)
    aside = replace(case, today=(chest, at("chair", "up", 2000, 500)))
    assessed = assess_today(aside)
    assert assessed.verdict.works
    assert assessed.apart == ("chair",)
    assert "The chair does not stand in its usual place at the chest." in today_words(assessed)
    placed = replace(case, today=(chest, at("chair", "down", 350, 2250)))
    assert assess_today(placed).apart == ()
    found = arrange.swap(aside, [Resize("chest", 900)], seconds=10)
    assert found.held.after.works
    assert any("the chair does not stand at the chest today" in note_words(n) for n in found.notes)
