"""Every sheet is drawn here, and none has text under 7 points at A4."""

import inspect
import pkgutil
from dataclasses import replace
from decimal import Decimal
from functools import cache
from importlib import import_module

import draw_rooms as rooms
import pytest
from matplotlib.text import Text
from small_rooms import A, B, C, clearance, on_wall, only, piece, room, scenario

import arrange.draw
from arrange.data.arrangement import Arrangement
from arrange.data.choosing import Choosing, Pick, Tally
from arrange.data.comparison import Comparison, Option, Row
from arrange.data.conflict import Conflict, Requirement, Without
from arrange.data.need import Candidate, Need, Needs, Post
from arrange.data.repair import Repair, Repairs
from arrange.data.result import Result
from arrange.data.room import Door
from arrange.data.scheme import Scheme, Swatch
from arrange.data.sizes import Ladder, Largest, Rung, Size, SizeTable
from arrange.data.swap import Answer, Plan, Reading, Swap
from arrange.draw.choosing import sums_sheet
from arrange.draw.colours import board_sheet
from arrange.draw.comparison import comparison_sheet
from arrange.draw.ladder import ladder_sheet, largest_sheet
from arrange.draw.overview import overview_sheet
from arrange.draw.printing import laid_out, printed_pages
from arrange.draw.setting_out import placing_sheet
from arrange.draw.sheet import plan_sheet, today_sheet
from arrange.draw.shop import shopping_sheet
from arrange.draw.style import LEAST
from arrange.draw.survey import survey_sheet
from arrange.draw.swap import before_after_sheet, moved_sheet
from arrange.draw.tiles import PAPERS
from arrange.draw.walked import walked_sheet
from arrange.draw.why import conflict_sheet, repair_sheet
from arrange.judge import judge
from arrange.scenario.read import read_text
from arrange.shop.board import board
from arrange.shop.finishing import finishing
from arrange.shop.listing import Entry, Limit, ShoppingList
from arrange.whatif.requirements import relaxations
from arrange.whatif.swap import compared, moved
from arrange.whatif.today import assess_today

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


@cache
def crowd():
    """Sixty small pieces with long names, and forty reasons."""
    case = read_text(CROWD)
    return case, rooms.suggestion(Arrangement(tuple(case.today)), worth=MANY)


def shopping():
    case, one = crowd()
    cost = Decimal("19.90")
    entries = tuple(
        Entry("new", p, "out in the room", Limit(None), Limit(None), cost, cost * (i + 1))
        for i, p in enumerate(case.pieces)
    )
    result = Result(case, "found", (one,), 0, 0.0, None, 0)
    return shopping_sheet(ShoppingList(result, entries, finishing(case, one.arrangement)))


def boarded(count):
    """So many textiles and as many paints, under sixty pieces."""
    case, one = crowd()
    names = [f"number {i} of many colours to choose from" for i in range(count)]
    swatches = tuple(
        Swatch(f"{of} {name}", of, (10.0 + i, 5.0, 5.0))
        for of in ("piece", "textile", "paint")
        for i, name in enumerate(names)
    )
    scheme = Scheme(swatches, swatches[0].name if count else "")
    case = replace(case, feel=("sociable and rather formal", "warm", "a bit like the sea")[:count])
    return board(case, one.arrangement, scheme, "plan 1 of here")


def chosen(count):
    """So many steps of the curve, each with another thing of a long name."""
    names = [f"number {i} of many desks to choose from" for i in range(count)]
    desks = tuple(
        Candidate(name, ("a desk",), ("chest",), (Post("price", name, Decimal(10 + i)),))
        for i, name in enumerate(names)
    )
    needs = Needs((Need("a desk"),), desks)
    picks = []
    for i, name in enumerate(names):
        one = replace(rooms.suggestion(STANDS), verdict=replace(judge(CASE, STANDS), score=900 + i))
        result = Result(CASE, "proven", (one,), 900 + i, 0.0, None, 0)
        picks.append(Pick(needs.choice([name]), result, 900 + i, 900 + i))
    tally = Tally(count, count - 1, 0, 0)
    return Choosing(
        needs, CASE, "proven", (picks[-1],), tuple(picks), True, tally, Decimal(0), 1.0, 1.0, 0
    )


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
    walked_sheet: lambda: [
        walked_sheet("Ell", crowd()[0].room.walls[:many], "in") for many in (1, 2, 3)
    ],
    placing_sheet: lambda: [
        *awkward(lambda case, one: placing_sheet(case, one, 1)),
        placing_sheet(*crowd(), 1),
    ],
    shopping_sheet: lambda: [shopping()],
    board_sheet: lambda: [board_sheet(boarded(n)) for n in (0, 3, 60)],
    sums_sheet: lambda: [sums_sheet(chosen(n)) for n in (2, 60)],
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
