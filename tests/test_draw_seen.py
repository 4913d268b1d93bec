"""Sheets read as a person reads them: what is where, which way it points, what is marked better.

Positions, colours and words come from the artists, never from the functions that draw. In
the plain room of ``small_rooms`` wall A is at the top (y 3000), B right, C bottom, D left.
"""

import math
from dataclasses import replace

import draw_rooms as rooms
import numpy as np
import pytest
from draw_rooms import marked
from matplotlib.collections import LineCollection
from matplotlib.colors import to_hex
from matplotlib.patches import PathPatch
from matplotlib.text import Text
from shapely.geometry import Point, Polygon, box
from small_rooms import A, B, C, D, at, clearance, free, on_wall, only, piece, room, scenario

import arrange
from arrange.data.change import Resize
from arrange.data.comparison import Comparison, Option, Row
from arrange.data.result import Reason
from arrange.data.room import Door, Fixture, Window
from arrange.data.sources import Source
from arrange.data.swap import Answer, Compared, Moved, Plan, Reading, Stand, Swap
from arrange.draw import STYLE, overview_sheet, plan_sheet, plot_plan
from arrange.draw.board import PLAN
from arrange.draw.comparison import BEST, comparison_sheet
from arrange.draw.labels import without_number
from arrange.draw.sheet import today_sheet
from arrange.draw.swap import MINUS, before_after_sheet
from arrange.judge import judge
from arrange.whatif.today import assess_today

pytestmark = [pytest.mark.fast, pytest.mark.slow]

WALLS = pytest.mark.parametrize("wall", [A, B, C, D], ids="ABCD")
SOURCE = Source("own", "common practice", "common practice")
# Into the room from each wall, and to the left of someone who faces the wall from inside.
INWARD = {A: (0, -1), B: (-1, 0), C: (0, 1), D: (1, 0)}
LEFT = {A: (-1, 0), B: (0, 1), C: (1, 0), D: (0, -1)}

TOWARD = {"up": (0, 1), "down": (0, -1), "left": (-1, 0), "right": (1, 0)}


def plan_of(case, *placements, **more):
    return plot_plan(case, arrange.Arrangement(tuple(placements)), **more)


def points_of(artist):
    """All points of a patch or of lines, mm of the plan."""
    if isinstance(artist, LineCollection):
        return np.vstack(artist.get_segments())
    path = artist.get_path()
    return path.vertices[path.codes != path.CLOSEPOLY] if path.codes is not None else path.vertices


def spread(points, direction):
    """The least and the greatest along a direction."""
    along = np.asarray(points) @ np.asarray(direction)
    return along.min(), along.max()


def opening_at(wall):
    """Where 500 to 1300 mm from the left end of a wall lie, along its left-to-right direction."""
    right = (-LEFT[wall][0], -LEFT[wall][1])
    corner = {A: (0, 3000), B: (4000, 3000), C: (4000, 0), D: (0, 0)}[wall]
    start = corner[0] * right[0] + corner[1] * right[1]
    return right, (start + 500, start + 1300)


# ------------------------------------------------------------------ the shell


@WALLS
def test_a_window_is_as_wide_as_measured_and_in_its_place(wall):
    """800 mm, 500 from the left end, between the two faces of its wall."""
    shape = room(windows=(Window("window", wall, 500, 800),))
    (lines,) = plan_of(scenario(shape)).of("window:window")
    right, ends = opening_at(wall)
    for segment in lines.get_segments():
        assert spread(segment, right) == pytest.approx(ends)
    deep = spread(points_of(lines), INWARD[wall])
    face = spread([shape.walls[wall].start], INWARD[wall])[0]
    assert deep == pytest.approx((face - STYLE.wall, face))


@WALLS
@pytest.mark.parametrize("hinge", ["left", "right"])
def test_a_sliding_leaf_is_on_the_side_it_slides_to(wall, hinge):
    """It covers half the opening and reaches 400 mm past it, there and not on the other side."""
    shape = room(doors=(Door("door", wall, 500, 800, "sliding", hinge),))
    plan = plan_of(scenario(shape))
    (leaf,) = plan.of("door:door")
    right, (low, high) = opening_at(wall)
    expected = (low - 400, low + 400) if hinge == "left" else (high - 400, high + 400)
    assert spread(points_of(leaf), right) == pytest.approx(expected)
    arrows = [
        a
        for a in plan.artists
        if isinstance(a, LineCollection) and [len(s) for s in a.get_segments()] == [2, 3]
    ]
    (arrow,) = arrows
    shaft, head = arrow.get_segments()
    tip = head[1] @ np.asarray(right)
    tail = min(shaft, key=lambda p: -math.dist(p, head[1])) @ np.asarray(right)
    assert bool(tip < tail) is (hinge == "left")


@WALLS
def test_the_arrow_of_the_way_in_points_into_the_room(wall):
    """Its one tip is nearer to the floor than its two other corners, and all are outside."""
    shape = room(doors=(Door("door", wall, 500, 800, main=True),))
    (arrow,) = plan_of(scenario(shape)).of("way in")
    corners = {tuple(p) for p in points_of(arrow).round(3)}
    floor = box(0, 0, 4000, 3000)
    tip, *base = sorted(corners, key=lambda p: floor.distance(Point(p)))
    assert len(base) == 2
    off = [floor.distance(Point(p)) for p in base]
    assert STYLE.wall < floor.distance(Point(tip)) < min(off) - 1
    assert off[0] == pytest.approx(off[1], abs=0.01)
    right, ends = opening_at(wall)
    assert spread([tip], right)[0] == pytest.approx(sum(ends) / 2)


@pytest.mark.parametrize(
    ("unit", "long", "told"),
    [("mm", 1000, "1 m"), ("cm", 1000, "1 m"), ("m", 1000, "1 m"), ("in", 3 * 304.8, "3 ft")],
)
def test_the_scale_bar_is_as_long_as_it_says(unit, long, told):
    """A metre is 1000 mm, a foot 304.8; the dark half ends in the middle."""
    plan = plan_of(scenario(room(), unit=unit))
    halves = plan.of("scale bar")
    spans = sorted(spread(points_of(half), (1, 0)) for half in halves)
    assert spans[-1][1] - spans[0][0] == pytest.approx(long)
    assert spans[0][1] - spans[0][0] == pytest.approx(long / 2)
    (text,) = plan.of("scale")
    assert text.get_text().split("  ")[0].strip() == told


@WALLS
def test_a_socket_is_drawn_in_its_place(wall):
    """80 mm wide, 500 from the left: its middle is at 540, in the thickness of the wall."""
    outlet = Fixture("socket", "socket", (), wall, 500, 80, 0, 250, 350, solid=False)
    shape = room(fixtures=(outlet,))
    (dot,) = plan_of(scenario(shape)).of("fixture:socket")
    right, (start, _) = opening_at(wall)
    low, high = spread(points_of(dot), right)
    assert (low + high) / 2 == pytest.approx(start + 40, abs=2)
    low, high = spread(points_of(dot), INWARD[wall])
    face = spread([shape.walls[wall].start], INWARD[wall])[0]
    assert face - STYLE.wall < low < high < face


# ------------------------------------------------------------------ pieces and gaps


@WALLS
def test_the_pillows_are_at_the_head_which_is_at_the_wall(wall):
    """A bed of two on each wall: both pillows in the quarter that is nearest to the wall."""
    bed = piece("bed", 1600, 2000, 500, kind="double bed", roles=("sleep",))
    shape = room()
    stands = on_wall(bed, shape, wall, 500)
    plan = plan_of(scenario(shape, bed), stands)
    (outline,) = plan.of("piece:bed")
    body = Polygon(outline.get_segments()[0])
    rings = [
        Polygon(s)
        for a in plan.artists
        if isinstance(a, LineCollection) and a.get_gid() == "part:bed"
        for s in a.get_segments()
        if len(s) > 20 and math.dist(s[0], s[-1]) < 0.01 and body.buffer(1).contains(Polygon(s))
    ]
    assert len(rings) == 2
    face = spread([shape.walls[wall].start], INWARD[wall])[0]
    for ring in rings:
        low, high = spread(ring.exterior.coords, INWARD[wall])
        assert 0 <= low - face < high - face < 500


@pytest.mark.parametrize(
    ("side", "x0", "x1"), [pytest.param("left", 500, 1600, id="left"),
                           pytest.param("right", 2600, 3700, id="right")]
)  # fmt: skip
def test_a_gap_is_measured_on_the_side_it_is_about(side, x0, x1):
    """The chest on the top wall faces down: as one faces it, its left is at the plan's left.

    It covers x 1600 to 2600; a shelf stands 1100 mm off on the side in question.
    """
    need = clearance(600, 600, sides=(side,))
    chest = piece("chest", 1000, 400, clearances=(need,))
    other = piece("shelf", 300, 400)
    shape = room()
    stands = (
        on_wall(chest, shape, A, 1600),
        at("shelf", "down", x1 if side == "right" else x0 - 300, 2600, A),
    )
    case = only(scenario(shape, chest, other))
    gaps = judge(case, arrange.Arrangement(stands)).gaps
    (gap,) = [g for g in gaps if g.between[0] == "chest"]
    plan = plan_of(case, *stands, gaps=gaps)
    (line, *_) = plan.of(f"gap:{'|'.join(gap.between)}")
    xs = [p[0] for p in (gap.start, gap.end)]
    assert (min(xs), max(xs)) == pytest.approx((x0, x1))
    low, high = spread(line.get_segments()[0], (1, 0))
    assert (low, high) == pytest.approx((x0, x1), abs=60)  # it goes on past its ticks
    assert 2600 <= gap.start[1] <= 3000


@pytest.mark.parametrize(("share", "told"), [(49, False), (51, True)])
def test_no_length_runs_to_a_sliver(share, told):
    """A shelf 1100 mm before the chest, 500 more than it needs, opposite so much of its front."""
    chest = piece("chest", 1000, 400, clearances=(clearance(600, 600),))
    other = piece("shelf", 300, 400)
    stands = on_wall(chest, room(), A, 1600), at("shelf", "down", 2600 - share, 1100, A)
    case = only(scenario(room(), chest, other))
    gaps = judge(case, arrange.Arrangement(stands)).gaps
    assert bool([g for g in gaps if "shelf" in g.between]) == told


# ------------------------------------------------------------------ before and after

CHEST = piece("chest", 800, 400, major=True)


def reason(rule, won, possible, sentence="", **more):
    return Reason(rule, (), sentence or rule, "", "", won, possible, SOURCE, **more)


def planned(case, *placements):
    arrangement = arrange.Arrangement(tuple(placements))
    return Plan(case, arrangement, judge(case, arrangement), 1000)


@pytest.fixture(scope="module")
def moved_right():
    """The sheet of a chest that slides 2000 mm right along wall A; one reason better, one worse."""
    case = only(scenario(room(), CHEST))
    before = planned(case, on_wall(CHEST, room(), A, 100))
    after = planned(case, on_wall(CHEST, room(), A, 2100))
    worth = {"It is lighter": (20, 90), "It is darker": (80, 10), "It is as it was": (50, 50)}
    reasons = tuple(
        Compared(said, (), *(reason(said, won, 100, said) for won in both))
        for said, both in worth.items()
    )
    stand = Stand("down", "A")
    moves = (Moved("chest", "moved", "chest", 2000, stand, stand),)
    reading = Reading(Answer("works", before), Answer("works", after), reasons, moves)
    swap = Swap(
        before=case, after=case, changes=(Resize("chest", 800),), kept=(), free=reading,
        held=reading, start="best before", holds=(), follows=(), slides=(), same_scale=True,
        price=None, seed=0, seconds=1.0,
    )  # fmt: skip
    return before_after_sheet(swap)


def test_the_arrow_goes_from_the_old_place_to_the_new(moved_right):
    """From 500 to 2500 mm along the top wall; only its end has a head."""
    (arrow,) = [p for ax in moved_right.axes for p in ax.patches if p.get_gid() == "way:chest"]
    points = arrow.get_path().vertices
    assert tuple(points[0]) == pytest.approx((500, 2800), abs=1)
    assert points[:, 0].max() == pytest.approx(2500, abs=40)
    assert type(arrow.get_arrowstyle()).__name__ == "CurveFilledB"


def test_what_is_better_has_a_plus_and_what_is_worse_a_minus(moved_right):
    """90 of 100 after 20 is better; 10 after 80 is worse; what is alike is not told."""
    (better,), (worse,) = marked(moved_right, "+"), marked(moved_right, MINUS)
    assert better.startswith("It is lighter")
    assert worse.startswith("It is darker")
    told = " ".join(t.get_text() for t in moved_right.findobj(Text))
    assert "2.0 \N{RIGHTWARDS ARROW} 9.0 of 10.0" in told
    assert "8.0 \N{RIGHTWARDS ARROW} 1.0 of 10.0" in told
    assert "as it was" not in told


# ------------------------------------------------------------------ reasons on the sheets

WORTH = ((90, 90), (5, 70), (60, 60), (0, 30))


def test_the_sheet_puts_what_earned_above_what_lost_each_under_its_title():
    """By hand: 90 and 60 earned most, in that order; 65 and 30 lost most."""
    case, arrangement, gaps = rooms.bedroom()
    figure = plan_sheet(case, rooms.suggestion(arrangement, gaps, worth=WORTH), 1)
    wanted = ["Earned most", "Sentence 0 about the room", "Sentence 2 about the room",
              "Lost most", "Sentence 1 about the room", "Sentence 3 about the room"]  # fmt: skip
    found = [t for t in figure.findobj(Text) if t.get_text() in wanted]
    # The page's axes grow downward.
    assert [t.get_text() for t in sorted(found, key=lambda t: t.get_position()[1])] == wanted


def test_the_bar_of_a_reason_is_as_full_as_it_earned():
    """The bar of each part and of each reason: the dark share of the whole, by hand 1/2 and 1/4.

    Bars are as long as what they can earn: 40 beside 60. Both lost 30, so the lesser is first.
    """
    case, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement, worth=((30, 60), (10, 40)))
    half, quarter = one.verdict.reasons
    told = replace(one.verdict, reasons=(half, replace(quarter, part="sits")))
    figure = plan_sheet(case, replace(one, verdict=told), 1)
    page = figure.axes[0]
    dark = [p for p in page.patches if to_hex(p.get_facecolor()) == STYLE.accent]
    frames = [p for p in page.patches if to_hex(p.get_facecolor()) == STYLE.paper
              and to_hex(p.get_edgecolor()) == STYLE.fine]  # fmt: skip
    shares, lengths = [], []
    for bar in dark:
        (frame,) = [f for f in frames if f.get_xy() == pytest.approx(bar.get_xy())]
        shares.append(bar.get_width() / frame.get_width())
        lengths.append(frame.get_width())
    assert sorted(shares) == pytest.approx([0.25, 0.25, 0.5, 0.5])
    assert lengths[1] / lengths[0] == pytest.approx(40 / 60)
    assert lengths[3] / lengths[2] == pytest.approx(60 / 40)


def test_the_overview_marks_what_was_won_and_what_was_lost():
    """Plus before what earned most, minus before what lost most."""
    case, arrangement, _ = rooms.bedroom()
    figure = overview_sheet(case, [rooms.suggestion(arrangement, worth=WORTH)])
    assert [t.split(" about")[0] for t in marked(figure, "+")] == ["Sentence 0", "Sentence 2"]
    assert [t.split(" about")[0] for t in marked(figure, MINUS)] == ["Sentence 1", "Sentence 3"]


def longest_blank(figure):
    """The highest band across a sheet that has nothing in it, as a share of its height."""
    figure.canvas.draw()
    used = (np.asarray(figure.canvas.buffer_rgba())[:, :, :3] < 250).any(axis=(1, 2))
    edges = np.flatnonzero(np.concatenate(([True], used, [True])))
    return (np.diff(edges).max() - 1) / len(used)


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
def test_the_overview_uses_its_sheet(count):
    """However many plans: nowhere is a fifth of the sheet left blank from side to side.

    The margins are 12 of 210 mm; in the old layout two fifths were blank below five plans.
    """
    case, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement, worth=WORTH)
    shown = [replace(one, rank=i + 1) for i in range(count)]
    assert longest_blank(overview_sheet(case, shown)) < 0.2


@pytest.mark.slow
def test_every_piece_of_an_overview_is_named_or_numbered():
    """What a number means stands at the foot; alike pieces share one."""
    case, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement, worth=WORTH)
    figure = overview_sheet(case, [replace(one, rank=i + 1) for i in range(6)])
    (key,) = [t.get_text() for t in figure.findobj(Text) if t.get_gid() == "numbers"]
    meant = dict(part.split(" ", 1) for part in key.removeprefix("On the plans: ")[:-1].split(", "))
    plans = [ax for ax in figure.axes if ax.get_gid() == PLAN]
    assert len(plans) == 6
    for plan in plans:
        told = {
            t.get_gid().removeprefix("name:"): t.get_text().replace("\n", " ")
            for t in plan.texts
            if (t.get_gid() or "").startswith("name:")
        }
        assert told.keys() == {p.name for p in case.pieces}
        for name, text in told.items():
            short = case.piece(name).short
            assert text in (name, short) or meant[text] == without_number(name)


# ------------------------------------------------------------------ options side by side


def compared(*scores):
    """Two options or more that differ in one row; the first number of each is what it won."""
    case = only(scenario(room(), CHEST))
    stands = arrange.Arrangement((on_wall(CHEST, room(), A, 100),))
    options = tuple(
        Option(f"{i}.toml", case, "searched", "proven", stands, won, won)
        for i, won in enumerate(scores)
    )
    best = tuple(i for i, won in enumerate(scores) if won == max(scores))
    row = Row("rule", ("chest",), "A rule", tuple(reason("rule", w, 1000) for w in scores), best)
    return Comparison(options, (row,), one_scale=True, best=best)


@pytest.mark.slow
@pytest.mark.parametrize("count", [2, 4, 6])
def test_each_plan_of_a_comparison_stands_above_its_own_column(count):
    """Left of it no further than its score, right of it short of the next one's."""
    figure = comparison_sheet(compared(*range(100, 100 + count)))
    width = figure.get_size_inches()[0] * 25.4
    lefts = sorted(
        t.get_position()[0]
        for t in figure.findobj(Text)
        if t.get_text() in list("ABCDEF") and t.get_size() > 12
    )
    plans = sorted(
        (ax.get_position().x0 * width, ax.get_position().x1 * width)
        for ax in figure.axes
        if ax.get_gid() == PLAN
    )
    assert len(plans) == len(lefts) == count
    for (low, high), left, after in zip(plans, lefts, [*lefts[1:], width], strict=True):
        assert left - 0.1 <= low < high < after


def test_the_better_one_has_the_triangle_is_bold_and_the_other_is_not():
    """80 against 30 points: the triangle is by 80, in its head and in its row."""
    figure = comparison_sheet(compared(300, 800))
    texts = [t for t in figure.findobj(Text) if t.get_text()]
    heads = [t for t in texts if t.get_gid() == "score"]
    assert sorted(t.get_text() for t in heads) == sorted(["30.0", f"{BEST}80.0"])
    cells = {t.get_text(): t for t in texts if t.get_gid() == "cell"}
    assert cells["80.0"].get_fontproperties().get_weight() == "bold"
    assert cells["30.0"].get_fontproperties().get_weight() != "bold"
    (mark,) = [t for t in texts if t.get_text() == BEST]
    x, y = cells["80.0"].get_position()
    assert abs(mark.get_position()[1] - y) < 1
    assert 0 < x - mark.get_position()[0] < 5


def test_an_option_that_does_not_work_has_a_small_score_and_the_colour_of_loss():
    """The second breaks a must: no score makes up for that, so it does not stand out."""
    both = compared(300, 800)
    well, broken = both.options
    broken = replace(broken, state="broken", broken=("The chest stands in the door",))
    figure = comparison_sheet(replace(both, options=(well, broken), best=(0,)))
    texts = [t for t in figure.findobj(Text) if t.get_text()]
    good, bad = (next(t for t in texts if t.get_text() == f) for f in (f"{BEST}30.0", "80.0"))
    assert good.get_fontsize() > bad.get_fontsize()
    assert to_hex(good.get_color()) == STYLE.accent
    assert to_hex(bad.get_color()) != STYLE.accent
    lost = [t.get_position()[0] for t in texts if to_hex(t.get_color()) == STYLE.loss]
    assert lost
    assert min(lost) > bad.get_position()[0] - 20 > good.get_position()[0] + 20


def test_what_does_not_work_is_told_in_the_colour_of_loss():
    """The head of a broken day, and not that of one on which all is well."""
    shelf = piece("shelf", 1000, 300)
    case = only(scenario(room(), CHEST, shelf))
    well = (on_wall(CHEST, room(), A, 100), on_wall(shelf, room(), A, 1500))
    broken = (well[0], on_wall(shelf, room(), A, 500))
    colours = {}
    for name, stands in (("well", well), ("broken", broken)):
        figure = today_sheet(assess_today(replace(case, today=stands)))
        (head,) = figure.findobj(lambda a: a.get_gid() == "works")
        colours[name] = to_hex(head.get_color())
    assert colours["broken"] == STYLE.loss
    assert colours["well"] != STYLE.loss


def test_a_piece_turned_each_way_shows_its_front_on_that_side():
    """The line of a chest's front is near the side it faces."""
    for facing, (dx, dy) in TOWARD.items():
        chest = free("chest", 800, 400, kind="chest of drawers")
        plan = plan_of(scenario(room(), chest), at("chest", facing, 1500, 1500))
        (outline,) = plan.of("piece:chest")
        middle = np.asarray(Polygon(outline.get_segments()[0]).centroid.coords[0])
        body = Polygon(outline.get_segments()[0]).buffer(1)
        fronts = [
            np.mean(s, axis=0)
            for a in plan.artists
            if isinstance(a, LineCollection) and (a.get_gid() or "").startswith("part:")
            for s in a.get_segments()
            if len(s) == 2 and body.contains(Point(s[0])) and body.contains(Point(s[1]))
        ]
        assert len(fronts) == 1
        assert (fronts[0] - middle) @ np.asarray((dx, dy)) > 100, facing


def test_patches_are_what_these_tests_take_them_for():
    """The fills of a plan are path patches: if not, the points above are read wrongly."""
    plan = plan_of(scenario(room(doors=(Door("door", C, 500, 800, main=True),))))
    assert all(isinstance(p, PathPatch) for gid in ("way in", "scale bar") for p in plan.of(gid))
