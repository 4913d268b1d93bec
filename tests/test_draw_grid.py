"""Several plans on one sheet: how the cells lie and where their words go."""

import draw_rooms as rooms
import pytest

pytest.importorskip("matplotlib")

from arrange.draw.grid import Cell, Layout, Paragraph, Setting, best_layout, draw_grid
from arrange.draw.page import Bit, Box, Page
from arrange.draw.plan import PlanOptions
from arrange.draw.style import STYLE

pytestmark = pytest.mark.fast

LONG = "A sentence that is much too long for one line of a narrow cell, said twice over. " * 2


def cell(width, depth, *paragraphs):
    """An empty room of that size in mm, with a score line."""
    shape = rooms.room([(0, 0), (0, depth), (width, depth), (width, 0)])
    scenario, arrangement, _ = rooms.made("Room", shape, [])
    title, score, note = Bit("1", 12.0), Bit("50.0", 12.0), Bit("of 100", 7.0)
    options = PlanOptions(small=True)
    return Cell(title, score, note, scenario, arrangement, options, paragraphs)


@pytest.mark.parametrize(
    ("size", "columns"),
    [
        # Walls are 120 mm, margins 8.47 mm, the head 9 mm, no text 1.5 mm.
        # A plan has 96.5 x 89.5 mm side by side, 200 x 36 mm one above the other, less margins.
        # Side by side 88.03 / 4240 = 0.0208; one above the other 27.53 / 2240 = 0.0123.
        pytest.param((4000, 2000), 2, id="side by side"),
        # Side by side 88.03 / 8240 = 0.0107; one above the other 27.53 / 1240 = 0.0222.
        pytest.param((8000, 1000), 1, id="one above the other"),
    ],
)  # fmt: skip
def test_the_cells_lie_so_that_the_plans_are_largest(size, columns):
    """Two cells on 200 x 100 mm, by hand for a wide room and for a very wide one."""
    layout = best_layout([cell(*size)] * 2, Box(0, 0, 200, 100), Setting(), STYLE)
    assert layout.columns == columns


def test_the_text_is_as_large_as_leaves_the_plan_its_room():
    """The first size is taken where it fits, the last where none does."""
    setting, place = Setting((9.0, 7.0, 5.0)), Box(0, 0, 60, 90)
    few = best_layout([cell(3000, 3000, Paragraph("Short."))], place, setting, STYLE)
    many = best_layout([cell(3000, 3000, *[Paragraph(LONG)] * 5)], place, setting, STYLE)
    assert (few.size, many.size) == (9.0, 5.0)


@pytest.mark.parametrize("first", [False, True])
@pytest.mark.parametrize("beside", [0.0, 50.0])
def test_words_and_plan_do_not_share_their_place(first, beside):
    """Above or below the plan, at its left or at its right: as the setting says."""
    layout = Layout(Box(10, 20, 200, 120), 1, 200, 120, 30, 6.5, beside, first)
    plan = layout.plan
    words = layout.words(plan.height)
    one, other = (words, plan) if first else (plan, words)
    if beside:
        assert one.left + one.width <= other.left
        assert other.left + other.width <= layout.width
    else:
        assert one.top + one.height <= other.top
        # The height of a text has 1.5 mm of air in it.
        assert other.top + other.height <= layout.height + 1


def test_all_plans_have_one_scale_and_the_head_tells_it():
    """Rooms of two sizes: the larger one decides for both."""
    page = Page()
    draw_grid(page, "Rooms", [cell(3000, 3000), cell(6000, 4000)], page.below(30))
    scales = {
        round((ax.get_xlim()[1] - ax.get_xlim()[0]) / (ax.get_position().width * page.width), 6)
        for ax in page.figure.axes[1:]
    }
    (scale,) = scales
    assert f"1:{scale:.0f} printed on A4" in [text.get_text() for text in page.ax.texts]


def test_a_note_that_would_run_into_the_next_cell_is_left_out():
    """Title and score stay."""
    page, one = Page(), cell(3000, 3000)
    wide = Cell(one.title, one.score, Bit(LONG, 7.0), one.scenario, one.arrangement, one.options)
    draw_grid(page, "Rooms", [wide, one], Box(12, 30, 200, 100))
    texts = [text.get_text() for text in page.ax.texts]
    assert texts.count("50.0") == 2
    assert texts.count("of 100") == 1
    assert LONG not in texts


@pytest.mark.parametrize("size", [10.5, 7.0])
def test_the_parts_of_a_score_stay_in_their_column(size):
    """36 mm beside a plan hold "Together 24.0 of 27.1" at 7 points, not at 10.5."""
    parts = (("Together", 240, 271), ("Asked for", 150, 150))
    setting = Setting((size,), (36.0,))
    layout = best_layout(
        [cell(2500, 4000, Paragraph(parts=parts))] * 2, Box(0, 0, 270, 150), setting, STYLE
    )
    assert (layout.beside == 36.0) == (size == 7.0)
    page = Page()
    draw_grid(page, "T", [cell(2500, 4000, Paragraph(parts=parts))] * 2,
              Box(12, 40, 270, 150), setting=setting)  # fmt: skip
    told = [t for t in page.ax.texts if t.get_gid() == "part"]
    page.figure.canvas.draw()
    inverse = page.ax.transData.inverted()
    boxes = [t.get_window_extent().transformed(inverse) for t in told]
    assert len(boxes) == 4
    assert max(box.x1 for box in boxes) <= 282
    assert not any(a.overlaps(b) for i, a in enumerate(boxes) for b in boxes[:i])
