"""Forty sockets on one wall, sixty pieces in a room: what is written of them can be told apart."""

import re
from decimal import Decimal

import pytest
from draw_rooms import suggestion
from matplotlib import rc_context
from matplotlib.collections import LineCollection
from matplotlib.text import Text
from shapely import STRtree
from shapely.geometry import LineString, box

from arrange.data.arrangement import Arrangement
from arrange.data.result import Result
from arrange.draw import plan_sheet, survey_sheet
from arrange.draw.setting_out import placing_sheet
from arrange.draw.shop import shopping_sheet
from arrange.scenario.read import read_text
from arrange.shop.finishing import finishing
from arrange.shop.listing import Entry, Limit, ShoppingList

pytestmark = [pytest.mark.fast, pytest.mark.slow]  # of no solver, and large sheets

SOCKETS = "".join(
    f'[[fixture]]\nkind = "socket"\nwall = "A"\nfrom_left = {10 + i * 9}\n' for i in range(40)
)
ROOM = f"""
[room]
size = [400, 300]
[[door]]
wall = "C"
from_left = 20
width = 80
{SOCKETS}
[[piece]]
kind = "single bed"
"""


@pytest.fixture(scope="module")
def figure():
    return survey_sheet(read_text(ROOM), ())


def boxes(figure, prefix):
    """The texts whose mark begins so, each with its box on the paper (points of the screen)."""
    renderer = figure.canvas.get_renderer()
    found = {}
    with rc_context({"text.hinting": "none"}):  # as it is saved
        for text in figure.findobj(Text):
            if text.get_text() and str(text.get_gid() or "").startswith(prefix):
                extent = text.get_window_extent(renderer)
                found[text.get_gid()] = box(*extent.extents)
    return found


def leaders(figure):
    """The thin lines from texts to what they are about, by the text's own mark."""
    return {
        line.get_gid().removeprefix("leader:"): LineString(
            line.get_transform().transform(line.get_segments()[0])
        )
        for line in figure.findobj(LineCollection)
        if str(line.get_gid() or "").startswith("leader:")
    }


def test_a_quarter_of_them_at_least_has_a_note(figure):
    """There is no room for all; some must be there for the tests below to say anything."""
    assert len(boxes(figure, "note:socket")) >= 10


def test_no_note_lies_on_another(figure):
    found = list(boxes(figure, "note:").values())
    pairs = STRtree(found).query(found, predicate="overlaps")
    assert pairs.size == 0


def test_no_leader_goes_through_a_note_of_another(figure):
    notes = boxes(figure, "note:")
    lines = leaders(figure)
    assert len(lines) >= 10
    through = [
        (own, other)
        for own, line in lines.items()
        for other, text in notes.items()
        if other != own and line.intersection(text.buffer(-1)).length > 0
    ]
    assert through == []


# Sixty pieces, the most that a file may hold, with names as long as people give.
FULL = """title = "A room full of things"
[money]
budget = 5000
currency = "EUR"
[room]
size = [430, 330]
[[door]]
wall = "C"
from_left = 20
width = 80
"""
FULL += "".join(
    f"""
[[piece]]
kind = "plant"
name = "number {i} of many plants to find"
stands_now = {{ across = {42 * (i % 10)}, up = {85 + 40 * (i // 10)}, facing = "down" }}
stays = true
stands = "free"
price = 19.90
"""
    for i in range(60)
)


@pytest.fixture(scope="module")
def crowd():
    scenario = read_text(FULL)
    return scenario, suggestion(Arrangement(tuple(scenario.today)))


def off_or_over(figure):
    """Texts that leave the page, and pairs that lie on each other by more than half a point."""
    renderer = figure.canvas.get_renderer()
    written = [t for t in figure.findobj(Text) if t.get_text().strip()]
    found = [box(*t.get_window_extent(renderer).extents) for t in written]
    page = box(*figure.bbox.extents)
    off = [t.get_text() for t, one in zip(written, found, strict=True) if not page.covers(one)]
    inner = [one.buffer(-figure.dpi / 144) for one in found]
    first, second = STRtree(inner).query(inner, predicate="intersects")
    pairs = zip(first, second, strict=True)
    over = [(written[i].get_text(), written[j].get_text()) for i, j in pairs if i < j]
    return off, over


def told(figure, gid):
    return [t.get_text() for t in figure.findobj(Text) if t.get_gid() == gid]


def test_the_placing_sheet_of_sixty_pieces_counts_those_it_has_no_room_for(crowd):
    """A number stands before each that is told; with the rest they are sixty."""
    figure = placing_sheet(*crowd, 1)
    assert off_or_over(figure) == ([], [])
    rows = [t for t in told(figure, "set down") if ":" in t]
    assert 10 < len(rows) < 60
    assert told(figure, "more") == [f"and {60 - len(rows)} more"]
    key = " ".join(t.get_text() for t in figure.findobj(Text) if t.axes is figure.axes[0])
    assert re.search(r"No room on the plan to name: number \d+ .* and \d+ more\.", key)


def test_the_plan_sheet_of_sixty_pieces_does_not_write_over_itself(crowd):
    """With as many cautions as a room full of children's furniture has."""
    figure = plan_sheet(*crowd, 1, tuple(f"Caution number {i} of many." for i in range(14)))
    off, over = off_or_over(figure)
    assert off == []
    # Names on the plan are placed by their ink, closer than their boxes.
    assert [pair for pair in over if any("Caution" in t or "Take care" in t for t in pair)] == []


def test_the_shopping_list_of_sixty_pieces_counts_those_it_has_no_room_for(crowd):
    """What it comes to is told whole, and the words of caution stay."""
    scenario, one = crowd
    cost = Decimal("19.90")
    entries = [
        Entry("new", p, "out in the room", Limit(None), Limit(None), cost, cost * (i + 1))
        for i, p in enumerate(scenario.pieces)
    ]
    result = Result(scenario, "found", (one,), 0, 0.0, None, 0)
    items = finishing(scenario, one.arrangement)
    figure = shopping_sheet(ShoppingList(result, tuple(entries), items))
    assert off_or_over(figure) == ([], [])
    pieces = [t for t in told(figure, "entry") if t.startswith("number ")]
    assert 10 < len(pieces) < 60
    assert f"and {60 - len(pieces)} more" in told(figure, "more")
    assert "Together EUR 1,194." in told(figure, "money")
    assert told(figure, "caution")
