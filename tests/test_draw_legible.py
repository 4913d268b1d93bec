"""Colours that mean something are told apart by everybody, and no text is under 7 points at A4."""

import inspect
import pkgutil
from dataclasses import replace
from decimal import Decimal
from importlib import import_module

import draw_rooms as rooms
import pytest
from colour import SEEN, ciede2000, contrast, lab, least_difference, linear, ways_to_see
from matplotlib.text import Text
from small_rooms import A, B, C, clearance, on_wall, only, piece, room, scenario

import arrange.draw
from arrange.data.arrangement import Arrangement
from arrange.data.comparison import Comparison, Option, Row
from arrange.data.conflict import Conflict, Requirement, Without
from arrange.data.repair import Repair, Repairs
from arrange.data.result import Result
from arrange.data.room import Door
from arrange.data.sizes import Ladder, Largest, Rung, Size, SizeTable
from arrange.data.swap import Answer, Plan, Reading, Swap
from arrange.draw import STYLE
from arrange.draw.comparison import comparison_sheet
from arrange.draw.grid import overview_sheet
from arrange.draw.ladder import ladder_sheet, largest_sheet
from arrange.draw.printing import laid_out, printed_pages
from arrange.draw.setting_out import placing_sheet
from arrange.draw.sheet import plan_sheet, today_sheet
from arrange.draw.shop import shopping_sheet
from arrange.draw.style import LEAST
from arrange.draw.survey import survey_sheet
from arrange.draw.swap import before_after_sheet, moved_sheet
from arrange.draw.tiles import PAPERS
from arrange.draw.why import TINT, conflict_sheet, repair_sheet
from arrange.judge import judge
from arrange.scenario.read import read_text
from arrange.shop.finishing import finishing
from arrange.shop.listing import Entry, Limit, ShoppingList
from arrange.whatif.requirements import relaxations
from arrange.whatif.swap import compared, moved
from arrange.whatif.today import assess_today

pytestmark = pytest.mark.fast

# ------------------------------------------------------------------ the measure itself

# G. Sharma, W. Wu, E. Dalal, "The CIEDE2000 color-difference formula", Color Research & Application
# 30(1), 2005, Table 1: rows 1, 4, 7, 9, 11, 13, 15, 17, 19, 25, 29, 31, 33 of 34.
PUBLISHED = [
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0009), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    ((50.0, -0.001, 2.49), (50.0, 0.0009, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.0011, -2.49), 4.7461),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.9030),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((22.7233, 20.0904, -46.694), (23.0331, 14.973, -42.5619), 2.0373),
    ((90.8027, -2.0831, 1.441), (91.1528, -1.6435, 0.0447), 1.4441),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
]


@pytest.mark.parametrize(("one", "two", "difference"), PUBLISHED)
def test_the_difference_is_the_published_one(one, two, difference):
    """To the fourth place, either way round."""
    assert ciede2000(one, two) == pytest.approx(difference, abs=5e-5)
    assert ciede2000(two, one) == pytest.approx(difference, abs=5e-5)


@pytest.mark.parametrize("way", SEEN)
def test_nobody_sees_a_tint_in_white_or_grey(way):
    """Each row of a matrix adds up to 1: a digit recalled wrongly would show here."""
    assert [sum(row) for row in SEEN[way]] == pytest.approx([1.0] * 3, abs=2e-5)


def test_contrast_and_lightness_of_black_and_white():
    """21 to 1 by definition (WCAG); L* 0 and 100, and the mid grey #777777 at 4.48."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # from memory
    assert lab(linear("#ffffff")) == pytest.approx((100.0, 0.0, 0.0), abs=0.01)
    assert lab(linear("#000000")) == pytest.approx((0.0, 0.0, 0.0), abs=0.01)


def test_red_and_green_that_only_differ_in_hue_are_found():
    """A red and a green that deuteranopes confuse are far apart for all others."""
    full = ciede2000(lab(linear("#a52019")), lab(linear("#58641d")))
    least, way = least_difference("#b5493b", "#6d7a33")
    assert full > 30
    assert least < 10
    assert way != "full"


# ------------------------------------------------------------------ text on its ground

GROUNDS = {
    "paper": STYLE.paper,
    "floor": STYLE.floor,
    "walkway": STYLE.walkway,
    "low": STYLE.low,
    "given up": TINT,
    **STYLE.tints,
}
INKS = {"text": STYLE.text, "quiet": STYLE.quiet, "accent": STYLE.accent, "loss": STYLE.loss}


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("ink", INKS)
def test_text_stands_out_from_what_it_is_written_on(ink, ground):
    """4.5 to 1 and more: WCAG 2.2, 1.4.3, level AA."""
    assert contrast(INKS[ink], GROUNDS[ground]) >= 4.5


# ------------------------------------------------------------------ areas and lines

# What meets on a sheet and means something different. A difference of 2 to 3 is just seen in the
# middle of a sheet; we ask for more, by the size of what is to be told apart: our own values.
AREA, LINE = 4.0, 8.0
MEETING = [
    pytest.param(STYLE.walkway, STYLE.floor, AREA, id="the way and the floor"),
    pytest.param(STYLE.walkway, STYLE.tints["rug"], AREA, id="the way over a rug"),
    pytest.param(STYLE.walkway, STYLE.low, AREA, id="the way below a slope"),
    pytest.param(STYLE.low, STYLE.floor, AREA, id="below a slope and the floor"),
    pytest.param(TINT, STYLE.floor, AREA, id="floor that is given up"),
    pytest.param(STYLE.accent, STYLE.paper, LINE, id="a bar and what it lacks"),
    pytest.param(STYLE.cut, STYLE.floor, LINE, id="walls"),
    pytest.param(STYLE.cut, STYLE.paper, LINE, id="walls and windows"),
    *(
        pytest.param(line, ground, LINE, id=f"{name} on {where}")
        for name, line in (
            ("hatch", STYLE.hatch),
            ("outline", STYLE.edge),
            ("symbol", STYLE.line),
            ("gap", STYLE.accent),
            ("what lacks", STYLE.loss),
        )
        for where, ground in (
            ("the floor", STYLE.floor),
            ("a rug", STYLE.tints["rug"]),
            ("the way", STYLE.walkway),
            ("low floor", STYLE.low),
        )
    ),
    *(
        pytest.param(STYLE.edge, tint, LINE, id=f"outline of {name}")
        for name, tint in STYLE.tints.items()
    ),
]


@pytest.mark.parametrize(("one", "two", "least"), MEETING)
def test_what_meets_on_a_sheet_is_told_apart_by_everybody(one, two, least):
    """In colour, in grey and with each of three kinds of colour blindness."""
    difference, way = least_difference(one, two)
    assert difference >= least, way


def test_what_lacks_and_what_is_there_differ_by_more_than_their_lightness():
    """Blue and brown are for all who see colours; in grey what lacks is dashed or hatched."""
    one, two = (ways_to_see(colour) for colour in (STYLE.accent, STYLE.loss))
    seen = {name: ciede2000(one[name], two[name]) for name in one if name != "grey"}
    assert min(seen.values()) >= LINE, seen


# ------------------------------------------------------------------ sizes of text

DOOR = Door("door", C, 500, 800, main=True)
CHEST = piece("chest", 800, 400, major=True, clearances=(clearance(600),))
SHELF = piece("shelf", 1000, 300)
SHAPE = room(doors=(DOOR,))
CASE = only(scenario(SHAPE, CHEST, SHELF))
STANDS = Arrangement((on_wall(CHEST, SHAPE, A, 100), on_wall(SHELF, SHAPE, A, 1500)))
APART = Arrangement((on_wall(CHEST, SHAPE, B, 900), on_wall(SHELF, SHAPE, A, 1500)))
MANY = tuple((i * 3 % 41, 40) for i in range(40))
CAUTIONS = tuple(f"Caution number {i} has a sentence of about this length." for i in range(14))


def plan(arrangement):
    return Plan(CASE, arrangement, judge(CASE, arrangement), 1000)


def reading():
    before, after = plan(STANDS), plan(APART)
    return Reading(
        Answer("works", before),
        Answer("works", after),
        compared(before.verdict, after.verdict),
        moved(before, after),
    )


def swapped():
    one = reading()
    return Swap(
        before=CASE, after=CASE, changes=(), kept=(), free=one, held=one, start="best before",
        holds=(), follows=(), slides=(), same_scale=True, price=None, seed=0, seconds=1.0,
    )  # fmt: skip


def options(count):
    """So many options that differ in more rows than a sheet has."""
    worth = rooms.reasons(MANY)
    shown = tuple(
        Option(f"option-{i}.toml", CASE, "searched", "found", STANDS, 300, 500, worth)
        for i in range(count)
    )
    rows = tuple(
        Row(r.rule, ("chest",), f"Row {i} with a title of some length", (r,) * count, (i % count,))
        for i, r in enumerate(worth)
    )
    return Comparison(shown, rows, one_scale=False, best=(0,))


def ladder(count):
    """More sizes than are wide bars: scores of four digits each."""
    verdict = replace(judge(CASE, STANDS), reasons=())
    rungs = tuple(
        Rung(Size(f"size {i}", CHEST), "works", "works", STANDS, verdict, 1000 - i, (1, 2), 0)
        for i in range(count)
    )
    return Ladder(CASE, "chest", SizeTable("sizes", tuple(r.size for r in rungs)), rungs)


def clash():
    members = (Requirement("piece", "chest"), Requirement("piece", "shelf"), Requirement("doors"))
    return Conflict(members, True, True, (Without(members[1], Arrangement(STANDS.placements[:1])),))


def repairs():
    """Four proposals, each with more changes than have room beside its plan."""
    gives = tuple(relaxations(CASE)) * 4
    assert len(gives) > 10
    one = Repair(gives, CASE, rooms.suggestion(STANDS), True)
    return Repairs(CASE, (one,) * 4, 5, 4, closed=True)


CROWD = '[room]\nsize = [430, 330]\n[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\n'
CROWD += "".join(
    f"""
[[piece]]
kind = "plant"
name = "number {i} of many plants to find"
price = 19.90
stands_now = {{ across = {42 * (i % 10)}, up = {85 + 40 * (i // 10)}, facing = "down" }}
stays = true
stands = "free"
"""
    for i in range(60)
)


def crowd():
    """Sixty small pieces with long names, and forty reasons."""
    case = read_text(CROWD)
    return case, rooms.suggestion(Arrangement(tuple(case.today)), worth=MANY)


def shopping():
    case, one = crowd()
    cost = Decimal("19.90")
    entries = tuple(
        Entry("new", p, "free in the room", Limit(None), Limit(None), cost, cost * (i + 1))
        for i, p in enumerate(case.pieces)
    )
    result = Result(case, "found", (one,), 0, 0.0, None, 0)
    return shopping_sheet(ShoppingList(result, entries, finishing(case, one.arrangement)))


def awkward(draw):
    """A sheet of each awkward room."""
    made = (make() for make in rooms.ROOMS.values())
    return [draw(case, rooms.suggestion(stands, gaps, worth=MANY)) for case, stands, gaps in made]


def several(case, one):
    return overview_sheet(case, [replace(one, rank=i) for i in range(1, 13)])


def on_paper():
    """A plan to scale with its pieces to cut out, each page."""
    case, one = crowd()
    return list(printed_pages(laid_out(case, one.arrangement, 20, PAPERS["A4"])))


PAPER_SIZES = {(297, 210), (420, 297)}
LARGEST = Largest("chest", "width", "exact", 800, 810, None, CASE, STANDS)
SHEETS = {
    plan_sheet: lambda: [
        *awkward(lambda case, one: plan_sheet(case, one, 1, CAUTIONS)),
        plan_sheet(*crowd(), 1, CAUTIONS),
    ],
    today_sheet: lambda: [today_sheet(assess_today(crowd()[0]))],
    overview_sheet: lambda: [*awkward(several), several(*crowd())],
    survey_sheet: lambda: [
        *awkward(lambda case, one: survey_sheet(case, (f"{one.rank} does not fit.",) * 9)),
        survey_sheet(crowd()[0], ()),
    ],
    placing_sheet: lambda: [
        *awkward(lambda case, one: placing_sheet(case, one, 1)),
        placing_sheet(*crowd(), 1),
    ],
    shopping_sheet: lambda: [shopping()],
    before_after_sheet: lambda: [before_after_sheet(swapped())],
    moved_sheet: lambda: [moved_sheet("Fine, 5 points more.", reading())],
    comparison_sheet: lambda: [comparison_sheet(options(n)) for n in (2, 4)],
    ladder_sheet: lambda: [ladder_sheet(ladder(n)) for n in (3, 30)],
    largest_sheet: lambda: [largest_sheet(LARGEST)],
    conflict_sheet: lambda: [conflict_sheet(CASE, clash(), 2, 3)],
    repair_sheet: lambda: [repair_sheet(repairs())],
    printed_pages: on_paper,
}


def test_every_sheet_there_is_has_its_row():
    """Whoever adds a sheet adds it above."""
    modules = [m.name for m in pkgutil.iter_modules(arrange.draw.__path__)]
    found = {
        value
        for name in modules
        for value in vars(import_module(f"arrange.draw.{name}")).values()
        if inspect.isfunction(value) and value.__name__.endswith("_sheet")
    }
    drawn = {sheet for sheet in found if not sheet.__name__.startswith("_")}
    assert drawn == set(SHEETS) - {printed_pages}


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.__name__)
def test_no_text_is_smaller_than_seven_points_at_a4(sheet):
    """Every text of every figure on the paper that it is for: A4, or A3 where the sheet says so."""
    for figure in SHEETS[sheet]():
        wide, high = sorted(figure.get_size_inches() * 25.4, reverse=True)
        assert (round(wide), round(high)) in PAPER_SIZES
        written = [t for t in figure.findobj(Text) if t.get_text().strip()]
        assert written
        small = {t.get_text(): t.get_fontsize() for t in written}
        small = {text: size for text, size in small.items() if size < LEAST}
        assert small == {}


def test_the_least_size_is_the_one_we_say():
    """Common practice in print for notes, no source."""
    assert LEAST == 7.0
