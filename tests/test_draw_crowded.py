"""Forty sockets on one wall: what is written of them can be told apart."""

import pytest
from matplotlib.collections import LineCollection
from matplotlib.text import Text
from shapely import STRtree
from shapely.geometry import LineString, box

from arrange.draw import survey_sheet
from arrange.scenario.read import read_text

pytestmark = pytest.mark.fast

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
