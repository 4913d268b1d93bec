"""Sheets: the points add up, nothing runs off the paper, the same input gives the same bytes."""

import re
from dataclasses import replace

import draw_rooms as rooms
import pytest
from matplotlib.text import Text

from arrange.data.lengths import points
from arrange.data.result import FAULT, PARTS, Spare
from arrange.draw import STYLE, overview_sheet, plan_sheet, save, survey_sheet
from arrange.draw.overview import differences
from arrange.draw.page import Box, Page
from arrange.draw.sheet import draw_spares
from arrange.draw.survey import corner_to_corner
from arrange.draw.text import foldings, width_of, wrapped
from arrange.words.reasons import AVOIDABLE, HELPLESS, choose, rest_line, standing

pytestmark = pytest.mark.fast

MANY = tuple((i * 3 % 41, 40) for i in range(40))
EVERY = pytest.mark.parametrize("make", rooms.ROOMS.values(), ids=rooms.ROOMS)


def sheet(make=rooms.bedroom, cautions=("Fix tall units to the wall.",), **how):
    scenario, arrangement, gaps = make()
    return plan_sheet(scenario, rooms.suggestion(arrangement, gaps, **how), 5, cautions)


def texts(figure):
    return [t.get_text() for t in figure.findobj(Text) if t.get_text()]


def off_paper(figure):
    """Texts that reach beyond the sheet."""
    renderer = figure.canvas.get_renderer()
    out = []
    for text in figure.findobj(Text):
        if text.get_text():
            extent = text.get_window_extent(renderer)
            if (
                extent.x0 < 0
                or extent.y0 < 0
                or extent.x1 > figure.bbox.x1
                or extent.y1 > figure.bbox.y1
            ):
                out.append(text.get_text())
    return out


@pytest.mark.slow
@EVERY
def test_nothing_runs_off_the_sheet(make):
    """Plan, overview and survey sheets of every awkward room stay on the paper."""
    scenario, arrangement, _ = make()
    one = rooms.suggestion(arrangement, worth=MANY)
    figures = [
        plan_sheet(scenario, one, 1, ("A caution. " * 30,)),
        overview_sheet(scenario, [one, replace(one, rank=2), replace(one, rank=3)]),
        survey_sheet(scenario, ("Nothing fits. " * 20,)),
    ]
    assert [off_paper(f) for f in figures] == [[], [], []]


@pytest.mark.slow
def test_points_shown_and_summed_up_add_to_the_score():
    """Each reason shown plus the rest line gives the score to the tenth."""
    figure = sheet(worth=MANY)
    won = 0.0
    parts = figure.findobj(lambda a: a.get_gid() == "won")
    assert [t.get_text() for t in parts] == ["78.2 of 160.0"]
    reasons = [t.get_text() for t in figure.findobj(Text) if t not in parts]
    for text in reasons:
        shown = re.match(r"(?:and \d+ more with )?(\d+\.\d) of \d+\.\d(?: points|$)", text)
        won += float(shown.group(1)) if shown else 0.0
    assert won == pytest.approx(sum(w for w, _ in MANY) / 10)


def test_best_and_worst_come_first_and_never_twice():
    """By hand: 80 won is best, 50 lost is worst, the small ones are summed up."""
    told = rooms.reasons([(80, 80), (60, 60), (10, 60), (0, 40), (20, 20), (5, 5)])
    chosen = choose(told, 4)
    assert [r.won for r in chosen.won] == [80, 60]
    assert [r.lost for r in chosen.lost] == [50, 40]
    assert rest_line(chosen.rest) == "and 2 more with 2.5 of 2.5 points, in result.json"


@pytest.mark.parametrize(
    ("proven", "rank", "words"),
    [
        (True, 1, "This is the best there is; we checked."),
        (True, 2, "The best that differs from the plans before it; we checked."),
        (False, 1, "The best found in the time; another could score up to 3.5 points more."),
    ],
)
def test_the_sheet_says_how_far_it_is_proven(proven, rank, words):
    """Bound 35 tenths above the score is 3.5 points."""
    _, arrangement, _ = rooms.bedroom()
    assert standing(rooms.suggestion(arrangement, rank=rank, proven=proven)) == words


def faulty(rank=1, bound=None, worth=((80, 80), (10, 60), (0, 40))):
    """A suggestion whose second and third reason are faults of first rank, in two parts."""
    scenario, arrangement, gaps = rooms.bedroom()
    one = rooms.suggestion(arrangement, gaps, rank=rank, worth=worth)
    first, second, third = one.verdict.reasons
    told = first, replace(second, faults=1), replace(third, faults=1, part="opens")
    verdict = replace(one.verdict, reasons=told)
    bound = verdict.standing if bound is None else bound
    return scenario, replace(one, verdict=verdict, bound=bound)


def lowest_first(figure, *wanted):
    """Where texts that begin so stand on the page, each counted from above."""
    page = figure.axes[0]
    every = [t for t in page.texts if t.get_text()]
    found = [next(t for t in every if t.get_text().startswith(w)) for w in wanted]
    return [t.get_position()[1] for t in found]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("rank", "bound", "head"),
    [
        pytest.param(1, None, HELPLESS, id="proven best"),
        pytest.param(1, 1000 - 2 * FAULT, HELPLESS, id="none has fewer, more points may be had"),
        pytest.param(1, 1000 - FAULT, AVOIDABLE, id="one with fewer may exist"),
        pytest.param(2, None, AVOIDABLE, id="best of those unlike the first"),
    ],
)
def test_the_sheet_says_first_what_was_not_avoided(rank, bound, head):
    """Before the parts, and these before the reasons; and whether it is the room's doing."""
    scenario, one = faulty(rank, bound)
    figure = plan_sheet(scenario, one, 2)
    faults = [t.get_text() for t in figure.findobj(Text) if t.get_gid() == "fault"]
    assert len(faults) >= 2
    other = AVOIDABLE if head == HELPLESS else HELPLESS
    shown = " ".join(texts(figure))
    assert head in shown
    assert other not in shown
    heads = head[:20], faults[0], "It works", "How the room opens up", "Earned most"
    places = lowest_first(figure, *heads)
    assert places == sorted(places)
    assert off_paper(figure) == []


@pytest.mark.slow
def test_a_plan_without_faults_has_no_word_of_them():
    """Neither on its sheet nor in the overview."""
    scenario, arrangement, gaps = rooms.bedroom()
    one = rooms.suggestion(arrangement, gaps)
    for figure in (plan_sheet(scenario, one, 1), overview_sheet(scenario, [one])):
        assert not {HELPLESS, AVOIDABLE} & set(texts(figure))


@pytest.mark.slow
def test_the_parts_tell_what_was_won_of_what():
    """By hand: 80 + 10 of 80 + 60 tenths in the first part, 0 of 40 in the other."""
    scenario, one = faulty()
    figure = plan_sheet(scenario, one, 1)
    told = [t for t in figure.findobj(Text) if t.get_gid() in ("part", "won")]
    assert [t.get_text() for t in told] == [
        "It works",
        "9.0 of 14.0",
        "How the room opens up",
        "0.0 of 4.0",
    ]
    overview = texts(overview_sheet(scenario, [one]))
    assert {"Works 9.0 of 14.0", "Opens up 0.0 of 4.0"} <= set(overview)


@pytest.mark.slow
@pytest.mark.parametrize("cautions", [2, 9, 16])
@pytest.mark.parametrize("faults", [0, 3, 12])
def test_a_full_column_does_not_write_over_itself(faults, cautions):
    """However many faults and cautions: faults beyond five are counted, room to spare gives way."""
    scenario, arrangement, gaps = rooms.bedroom()
    bed, *others = scenario.pieces
    tight = tuple(replace(c, least=50, usual=2900) for c in bed.clearances)
    scenario = replace(scenario, pieces=(replace(bed, clearances=tight), *others))
    one = rooms.suggestion(arrangement, gaps, worth=((40, 60),) * 20)
    told = [replace(r, faults=int(i < faults)) for i, r in enumerate(one.verdict.reasons)]
    parts = [replace(r, part=p) for r, p in zip(told, [*PARTS] * 4, strict=True)]
    one = replace(one, verdict=replace(one.verdict, reasons=tuple(parts)))
    figure = plan_sheet(
        scenario, one, 1, tuple(f"Caution {i}: {'word ' * 60}" for i in range(cautions))
    )
    renderer = figure.canvas.get_renderer()
    # Figures have no descenders, for which their box leaves room.
    page = [t for t in figure.axes[0].texts if t.get_text() and t.get_gid() != "score"]
    boxes = [(t.get_text(), t.get_window_extent(renderer)) for t in page]
    assert [(a, b) for i, (a, x) in enumerate(boxes) for b, y in boxes[:i] if x.overlaps(y)] == []
    assert "Tighter than usual" in texts(figure)
    assert off_paper(figure) == []
    assert ("and 7 more" in texts(figure)) == (faults == 12)


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 2, 3, 5, 6])
def test_the_parts_of_an_overview_keep_clear_of_one_another(count):
    """All five, each with points as long as they get, however narrow the cell."""
    scenario, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement, worth=((1000, 1000),) * 5)
    parts = [replace(r, part=p) for r, p in zip(one.verdict.reasons, PARTS, strict=True)]
    one = replace(one, verdict=replace(one.verdict, reasons=tuple(parts)))
    figure = overview_sheet(scenario, [replace(one, rank=i + 1) for i in range(count)])
    renderer = figure.canvas.get_renderer()
    boxes = [t.get_window_extent(renderer) for t in figure.findobj(Text) if t.get_gid() == "part"]
    assert len(boxes) == 5 * count
    assert not [1 for i, a in enumerate(boxes) for b in boxes[:i] if a.overlaps(b)]
    assert off_paper(figure) == []


# Of the sides of a piece the unit is said once: 1.60 x 0.70 m.
NOBODY_SAYS = re.compile(r"\d\.\d+ cm|\d\.\d{3} m\b|(?<! x )\b0\.\d+ m\b|\d/(?:4|8|16|32)\b")


@pytest.mark.slow
@pytest.mark.parametrize("unit", ["cm", "m", "in"])
@EVERY
def test_no_sheet_has_a_length_that_nobody_would_say(make, unit):
    """No decimals of a centimetre, third ones of a metre, quarters of an inch."""
    scenario, arrangement, gaps = make()
    scenario = replace(scenario, unit=unit, walkway=655)
    one = rooms.suggestion(arrangement, gaps)
    for figure in (plan_sheet(scenario, one, 1), survey_sheet(scenario)):
        assert [t for t in texts(figure) if NOBODY_SAYS.search(t)] == []


@pytest.mark.slow
def test_all_cautions_and_the_limit_of_them_are_printed():
    """However many cautions there are, none is left out."""
    cautions = tuple(f"Caution number {i}." for i in range(14))
    shown = texts(sheet(cautions=cautions))
    assert set(cautions) <= set(shown)
    assert any("local codes and licensed practice decide" in t for t in shown)


@pytest.mark.slow
@pytest.mark.parametrize("suffix", [".png", ".svg", ".pdf"])
def test_the_same_sheet_gives_the_same_bytes(tmp_path, suffix):
    """Drawn and saved twice, byte for byte; no date, no program name inside."""
    first = save(sheet(), tmp_path / f"one{suffix}").read_bytes()
    second = save(sheet(), tmp_path / f"two{suffix}").read_bytes()
    assert first == second
    assert b"CreationDate" not in first
    assert b"Software" not in first
    assert sorted(p.name for p in tmp_path.iterdir()) == [f"one{suffix}", f"two{suffix}"]


def test_a_failed_save_leaves_the_old_file_and_nothing_else(tmp_path):
    """A figure that cannot be drawn does not touch what was there."""
    figure, target = Page().figure, tmp_path / "plan.png"
    target.write_text("old")
    figure.draw = None
    with pytest.raises(TypeError):
        save(figure, target)
    assert [(p.name, p.read_text()) for p in tmp_path.iterdir()] == [("plan.png", "old")]


@pytest.mark.slow
def test_letters_the_font_lacks_do_not_stop_the_picture(tmp_path):
    """A name in a script we have no letters for is measured, drawn and saved without a warning."""
    scenario, arrangement, _ = rooms.made(
        "\u5bdd\u5ba4 \U0001f6cf",
        rooms.room([(0, 0), (0, 3000), (3000, 3000), (3000, 0)]),
        [(rooms.piece("\u66f8\u68da", "bookcase", 900, 300), {"facing": "up"})],
    )
    figure = plan_sheet(scenario, rooms.suggestion(arrangement), 1)
    assert save(figure, tmp_path / "plan.png").stat().st_size > 10_000


def test_an_unknown_suffix_is_refused(tmp_path):
    """The message names the three that work."""
    with pytest.raises(ValueError, match=r"written as \.png, \.svg, \.pdf, not \.bmp"):
        save(Page().figure, tmp_path / "plan.bmp")


@pytest.mark.slow
@pytest.mark.parametrize("letters", [20, 78, 140, 400])
def test_the_title_of_the_overview_keeps_clear_of_the_note(letters):
    """A long title becomes smaller, then two lines, and never meets the note or the plans."""
    scenario, arrangement, _ = rooms.bedroom()
    title = ("Bedroom with a view " * 20)[:letters].strip()
    figure = overview_sheet(replace(scenario, title=title), [rooms.suggestion(arrangement)])
    renderer = figure.canvas.get_renderer()
    heads = figure.findobj(lambda a: a.get_gid() == "title")
    note = next(t for t in figure.findobj(Text) if "printed on A4" in t.get_text())
    score = next(t for t in figure.findobj(Text) if t.get_text().startswith("of 100"))
    assert " ".join(t.get_text() for t in heads) == title
    boxes = [t.get_window_extent(renderer) for t in heads]
    assert max(b.x1 for b in boxes) < note.get_window_extent(renderer).x0
    assert min(b.y0 for b in boxes) > score.get_window_extent(renderer).y1
    assert off_paper(figure) == []


@pytest.mark.slow
@pytest.mark.parametrize(("count", "words"), [(1, "1 plan, drawn"), (2, "2 plans, both")])
def test_the_overview_counts_what_it_shows(count, words):
    """One arrangement is not called several."""
    scenario, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement)
    shown = texts(overview_sheet(scenario, [replace(one, rank=i + 1) for i in range(count)]))
    assert sum(t.startswith(words) for t in shown) == 1


@pytest.mark.slow
@pytest.mark.parametrize(("unit", "wide"), [("cm", "75 cm"), ("m", "75 cm"), ("mm", "750 mm")])
def test_the_legend_tells_how_wide_the_way_in_is(unit, wide):
    """The line is drawn narrower than the way, whose width the legend tells."""
    scenario, arrangement, _ = rooms.bedroom()
    scenario = replace(scenario, unit=unit, walkway=750)
    shown = " ".join(texts(plan_sheet(scenario, rooms.suggestion(arrangement), 1)))
    assert f"Soft line: the way in, at least {wide} wide." in shown


def test_differences_name_the_piece_and_both_walls():
    """The bed moves from wall 1 to wall 2; a shift on the same wall says nothing."""
    scenario, first, _ = rooms.bedroom()
    bed, *others = first.placements
    moved = replace(first, placements=(replace(bed, wall=1, facing="down"), *others))
    shifted = replace(first, placements=(replace(bed, y=800), *others))
    assert differences(scenario, first, moved) == ("the Double bed is against wall 2",)
    assert differences(scenario, first, shifted) == ()


def test_the_survey_shows_every_measure_of_the_room():
    """Wall lengths, the chain 1300 + 1500 + 1300 mm, sill and head, corner to corner."""
    scenario, _, _ = rooms.bedroom()
    shown = "\n".join(texts(survey_sheet(scenario, ("The piano fits nowhere.",))))
    for words in (
        "wall 1  340 cm", "wall 2  410 cm", "130 cm", "150 cm", "sill 90 cm, head 210 cm",
        "opens in, hinged left", "13.94 m²", "533 cm", "The piano fits nowhere.",
        "160 x 205 x 70 cm",
    ):  # fmt: skip
        assert words in shown


@pytest.mark.slow
@pytest.mark.parametrize("letters", [20, 78, 140, 400])
def test_the_title_of_the_survey_keeps_clear_of_what_is_beside_and_below(letters):
    """On one line, or on two that are about as long as one another."""
    scenario, _, _ = rooms.bedroom()
    title = ("Bedroom with a view " * 20)[:letters].strip()
    figure = survey_sheet(replace(scenario, title=title))
    renderer = figure.canvas.get_renderer()
    heads = figure.findobj(lambda a: a.get_gid() == "title")
    below = next(t for t in figure.findobj(Text) if t.get_text() == "The room as measured")
    beside = next(t for t in figure.findobj(Text) if t.get_text() == "Check with the tape")
    assert " ".join(t.get_text() for t in heads) == title
    boxes = [t.get_window_extent(renderer) for t in heads]
    assert max(b.x1 for b in boxes) < beside.get_window_extent(renderer).x0
    assert min(b.y0 for b in boxes) > below.get_window_extent(renderer).y1
    if len(boxes) == 2:
        assert min(b.width for b in boxes) > 0.7 * max(b.width for b in boxes)


def luminance(colour):
    """Relative luminance of a colour, as a greyscale print has it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize(("name", "least"), [("text", 10), ("quiet", 6)])
def test_text_is_dark_enough_for_a_greyscale_print(name, least):
    """Contrast with paper, floor, walkway and every tint; common practice, no source."""
    ink = luminance(getattr(STYLE, name))
    for ground in (STYLE.paper, STYLE.floor, STYLE.walkway, *STYLE.tints.values()):
        assert (luminance(ground) + 0.05) / (ink + 0.05) > least


def test_diagonals_stay_inside_the_room():
    """In an L the line from corner 3 to corner 5 would leave the room."""
    scenario, _, _ = rooms.l_shape()
    pairs = {(a, b) for a, b, _ in corner_to_corner(scenario.room, most=99)}
    assert (3, 5) not in pairs
    assert (2, 6) in pairs


def test_lines_are_no_wider_than_asked_even_for_one_long_word():
    """A word wider than the column is broken."""
    lines = wrapped("a " + "x" * 80 + " end", 7.0, 60.0)
    assert max(width_of(line, 7.0) for line in lines) <= 60.0
    assert "".join(lines).replace(" ", "") == "a" + "x" * 80 + "end"


def test_foldings_are_even():
    """Three words in two lines: the longer pair does not stay together."""
    assert foldings("Chest of drawers") == (
        "Chest of drawers",
        "Chest of\ndrawers",
        "Chest\nof\ndrawers",
    )


@pytest.mark.parametrize(
    ("tenths", "words"), [(0, "0.0"), (7, "0.7"), (1000, "100.0"), (-3, "-0.3")]
)
def test_tenths_are_written_as_points(tenths, words):
    """Always one decimal."""
    assert points(tenths) == words


def test_the_exclamation_mark_stands_where_a_centimetre_matters():
    """Less than 1 cm to spare has the mark before it, 4 cm a dash."""
    page = Page()
    tight, roomy = (Spare(("a", "b"), ("bed",), ("bed",), "across", mm, True) for mm in (4, 40))
    draw_spares(page, (tight, roomy), "cm", Box(0, 0, 92, 60))
    marks = [t.get_text() for t in page.ax.texts if len(t.get_text()) == 1]
    assert marks == ["!", "\N{EN DASH}"]
