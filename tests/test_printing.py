"""Plans on paper: read back from the PDF and measured, to 0.2 mm at scale."""

import json
from dataclasses import replace
from functools import cache
from itertools import combinations, islice, pairwise
from pathlib import Path

import pytest
from command_line import run
from draw_rooms import bedroom, suggestion
from matplotlib.text import Text
from pdf_lines import sheets
from shapely.geometry import box

from arrange.cli.print import PAPERS as NAMED
from arrange.data.arrangement import Arrangement
from arrange.data.result import Result
from arrange.draw.cutouts import cut_outs, draw_cut_outs
from arrange.draw.page import Page, save_booklet
from arrange.draw.painters import pictures
from arrange.draw.printing import PaperError, laid_out, printed_pages, usual_scale
from arrange.draw.style import STYLE
from arrange.draw.text import extent
from arrange.draw.tiles import FOOT, HEAD, OVERLAP, PAPERS, SIDE, tiled
from arrange.geometry.shapes import clearance_zone, footprint
from arrange.output.fields import as_text
from arrange.output.records import as_data
from arrange.scenario.read import read, read_text
from arrange.words.suggest import words

pytestmark = pytest.mark.fast

NEAR = 0.2  # mm of paper
DRAWN = sorted((Path(__file__).parent / "drawn").glob("*.toml"))
ROOM = """
title = "Study"
[room]
size = [320, 410]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "desk"
width = 140
depth = 70
stands_now = { wall = "A", from_left = 100 }
[[piece]]
kind = "rug"
width = 200
depth = 140
stands_now = { across = 60, up = 100, facing = "up" }
"""


@pytest.fixture(scope="module")
def study():
    scenario = read_text(ROOM)
    return scenario, Arrangement(tuple(scenario.today))


def printed(path, scenario, arrangement, ratio, paper):
    """What was laid out, and the pages as they are in the file at ``path``."""
    made = laid_out(scenario, arrangement, ratio, PAPERS[paper])
    return made, sheets(save_booklet(printed_pages(made), path))


@pytest.fixture(scope="module")
def of_study(study, tmp_path_factory):
    """Prints the study at a scale on a paper, each once."""
    folder = tmp_path_factory.mktemp("study")

    @cache
    def at(ratio, paper):
        return printed(folder / f"{ratio}-{paper}.pdf", *study, ratio, paper)

    return at


def crop_window(sheet):
    """What the crop marks stand round: left, low, right, high."""
    marks = [line for line in sheet.stroked(STYLE.edge) if sorted(line.size)[0] < 0.01]
    short = [line for line in marks if max(line.size) == pytest.approx(5, abs=0.01)]
    assert len(short) == 8
    upright = sorted({round(line.bounds[0], 3) for line in short if line.size[0] < 0.01})
    level = sorted({round(line.bounds[1], 3) for line in short if line.size[1] < 0.01})
    assert len(upright) == len(level) == 2
    return upright[0], level[0], upright[1], level[1]


def floor(sheet):
    """The one floor of a drawing."""
    (found,) = sheet.filled(STYLE.floor)
    return found


@pytest.mark.slow
@pytest.mark.parametrize("paper", PAPERS)
def test_the_bars_are_as_long_as_they_say(of_study, paper):
    """Across and up the sheet, 100 mm; nothing else that long is a straight line there."""
    _, pages = of_study(50, paper)
    straight = [line for line in pages[0].lines if line.stroke and min(line.size) < 0.01]
    long = [line for line in straight if max(line.size) > 50]
    assert sorted(max(line.size) for line in long) == pytest.approx([100, 100], abs=NEAR)
    assert {line.size[0] > 50 for line in long} == {True, False}
    # The strokes across it stand every 10 mm.
    (level,) = [line for line in long if line.size[0] > 50]
    at = sorted(line.bounds[0] for line in straight if abs(line.bounds[1] - level.bounds[1]) < 3.1)
    assert [b - a for a, b in pairwise(at) if b - a > 0.01] == pytest.approx([10] * 10, abs=NEAR)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("paper", "width", "height"),
    # ISO 216; Letter 8 1/2 x 11 in.
    [("A4", 297, 210), ("A3", 420, 297), ("Letter", 279.4, 215.9)],
)
def test_pages_are_as_large_as_the_paper(of_study, paper, width, height):
    _, pages = of_study(50, paper)
    for page in pages:
        size = sorted((page.width, page.height), reverse=True)
        assert size == pytest.approx([width, height], abs=0.01)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("ratio", "width", "height"),
    [
        (20, 160, 205),  # 3200 / 20 and 4100 / 20
        (24, 133.33, 170.83),
        (25, 128, 164),
        (50, 64, 82),
    ],
)
def test_the_room_is_to_scale(of_study, ratio, width, height):
    """The floor from wall to wall, on each sheet of the empty room and of the plan."""
    made, pages = of_study(ratio, "A4")
    count = made.room.sheets + made.plan.sheets
    for page in pages[1 : 1 + count]:
        assert floor(page).size == pytest.approx((width, height), abs=NEAR)


@pytest.mark.slow
@pytest.mark.parametrize("ratio", [24, 50])
@pytest.mark.parametrize("path", DRAWN[:1], ids=lambda p: p.stem)
def test_every_piece_is_there_at_scale_once(tmp_path, path, ratio):
    """The heavy outlines of the cut-outs, and the dashed floor they need."""
    scenario = read(path)
    made, pages = printed(tmp_path / "print.pdf", scenario, None, ratio, "A4")
    first = 1 + made.room.sheets
    assert all(cuts.tiling.sheets == 1 for cuts in made.cuts)
    cuts = [line for page in pages[first:] for line in page.lines]
    solid = [line.size for line in cuts if line.stroke == STYLE.edge and min(line.size) > 1]
    pieces = [(piece.width / ratio, piece.depth / ratio) for piece in scenario.pieces]
    assert_alike(solid, pieces)
    dashed = [line.size for line in cuts if line.stroke == STYLE.accent and line.dashed]
    strips = [
        _strip(piece, clearance, side, ratio)
        for piece in scenario.pieces
        for clearance in piece.clearances
        if clearance.least
        for side in clearance.sides
    ]
    assert strips
    assert_alike(dashed, strips)


def _strip(piece, clearance, side, ratio):
    """Width and height of a strip beside a piece with its front down the sheet."""
    left_out, least = clearance.skip_start + clearance.skip_end, clearance.least
    if side in ("front", "back"):
        return (piece.width - left_out) / ratio, least / ratio
    return least / ratio, (piece.depth - left_out) / ratio


def assert_alike(found, wanted):
    """The same sizes, each as often; a piece that was turned to fit may lie either way."""
    assert len(found) == len(wanted)
    left = sorted(wanted)
    for size in found:
        match = next(w for w in left if sorted(w) == pytest.approx(sorted(size), abs=NEAR))
        left.remove(match)
    assert not left


@pytest.mark.slow
def test_joined_sheets_meet(tmp_path):
    """From one sheet to its neighbour the room moves on by a window less the overlap.

    So what is cut off at the corner marks of the one and laid on the dashed line of the other
    goes on where it left off. Nothing is painted outside the window.
    """
    made, pages = printed(tmp_path / "print.pdf", read(DRAWN[0]), None, 20, "A4")
    tiling = made.room
    assert tiling.rows > 1
    window = tiling.window
    at = []
    for number, page in enumerate(pages[1 : 1 + tiling.sheets]):
        left, low, right, high = crop_window(page)
        assert right - left == pytest.approx(window.width, abs=NEAR)
        assert high - low == pytest.approx(window.height, abs=NEAR)
        assert floor(page).clip == pytest.approx((left, low, right, high), abs=NEAR)
        x, _, _, y = floor(page).bounds
        row, column = divmod(number, tiling.columns)
        # In the joined drawing, from its upper left corner.
        at.append(
            (
                x - left + column * (window.width - OVERLAP),
                high - y + row * (window.height - OVERLAP),
            )
        )
        glue = [line for line in page.stroked(STYLE.accent) if line.dashed]
        edges = (row + 1 < tiling.rows) + (column + 1 < tiling.columns)
        assert len(glue) == edges
        for line in glue:
            x0, y0, _, _ = line.bounds
            across = line.size[1] < 0.01
            off = y0 - low if across else right - x0
            assert off == pytest.approx(OVERLAP, abs=NEAR)
    assert all(one == pytest.approx(at[0], abs=NEAR) for one in at)


# A4 lying has a window of 297 - 26 by 210 - 38 mm: 271 x 172; upright 184 x 259.
@pytest.mark.parametrize(
    ("width", "height", "landscape", "columns", "rows"),
    [
        (271, 172, True, 1, 1),
        (184, 259, False, 1, 1),
        # Two of 271 less the strip of 10 are 532; upright it would take 3 columns.
        (532, 172, True, 2, 1),
        (533, 172, True, 3, 1),
        # Upright two of 259 less 10 are 508.
        (184, 508, False, 1, 2),
        (272, 100, True, 2, 1),
        (20, 20, True, 1, 1),
    ],
)
def test_as_few_sheets_as_will_do(width, height, landscape, columns, rows):
    assert (2 * SIDE, HEAD + FOOT) == (26, 38)
    found = tiled(PAPERS["A4"], width, height)
    assert (found.landscape, found.columns, found.rows) == (landscape, columns, rows)


@pytest.mark.parametrize("ratio", [20, 50])
@pytest.mark.parametrize("path", DRAWN, ids=lambda p: p.stem)
def test_cut_outs_lie_apart_and_on_their_sheet(path, ratio):
    """All pieces, with the floor they need, each on one sheet."""
    scenario = read(path)
    cuts = cut_outs(scenario, ratio, PAPERS["A4"])
    named = [place.piece for sheet in cuts for place in sheet.places]
    assert sorted(named) == sorted(piece.name for piece in scenario.pieces)
    for sheet in cuts:
        page = box(0, 0, sheet.tiling.width * ratio, sheet.tiling.height * ratio)
        shapes = []
        for place in sheet.places:
            piece = scenario.piece(place.piece)
            zones = [
                clearance_zone(piece, place, scenario.room, clearance, side, clearance.least)
                for clearance in piece.clearances
                for side in clearance.sides
            ]
            every = [footprint(piece, place, scenario.room), *zones]
            shapes.append(every)
            assert all(page.contains(shape) for shape in every)
        for one, other in combinations(shapes, 2):
            assert min(a.distance(b) for a in one for b in other) > ratio  # a millimetre


@pytest.mark.slow
@pytest.mark.parametrize("path", DRAWN, ids=lambda p: p.stem)
def test_every_cut_out_has_its_name(path):
    """In it or beneath it, clear of all others; in type of 7 points at least."""
    scenario, ratio = read(path), 50
    for cuts in cut_outs(scenario, ratio, PAPERS["A4"]):
        page = Page(STYLE, *cuts.tiling.page)
        draw_cut_outs(page.axes(cuts.tiling.board(0, 0)), scenario, cuts, ratio, STYLE)
        named = {t.get_gid(): t for t in page.figure.findobj(Text) if t.get_gid()}
        texts = {place.piece: named[f"name:{place.piece}"] for place in cuts.places}
        for place in cuts.places:
            piece, text = scenario.piece(place.piece), texts[place.piece]
            assert " ".join(text.get_text().split()) == piece.name
            assert text.get_fontsize() >= 7
            area = written(text, ratio)
            touched = {
                other.piece
                for other in cuts.places
                if footprint(scenario.piece(other.piece), other, scenario.room).intersects(area)
            }
            assert touched <= {piece.name}
            others = [written(t, ratio) for name, t in texts.items() if name != piece.name]
            assert not any(area.intersects(other) for other in others)


def written(text, ratio):
    """The place a name takes on its sheet, in mm of the room."""
    (x, y), size = text.get_position(), text.get_fontsize()
    width, height = (side * 25.4 / 72 * ratio / 2 for side in extent(text.get_text(), size))
    if text.get_rotation() == 90:
        width, height = height, width
    return box(x - width, y - height, x + width, y + height)


def test_a_piece_longer_than_the_paper_goes_on_several_sheets():
    """A carpet of 6 x 4.5 m is 300 x 225 mm at 1:20: too long for A4 either way.

    Upright two columns are 358 mm wide, and one row is 259 high.
    """
    scenario = read_text(
        ROOM.replace("[320, 410]", "[700, 700]").replace("200\ndepth = 140", "600\ndepth = 450")
    )
    sizes = [sheet.tiling.sheets for sheet in cut_outs(scenario, 20, PAPERS["A4"])]
    assert sizes == [1, 2]
    assert [s.tiling.sheets for s in cut_outs(scenario, 20, PAPERS["A3"])] == [1]


def test_a_room_that_takes_too_much_paper_is_refused():
    """30 x 30 m at 1:20 are 1.5 x 1.5 m of paper; at 1:50 it is 0.6 x 0.6 m."""
    scenario = read_text(ROOM.replace("[320, 410]", "[3000, 3000]"))
    with pytest.raises(PaperError, match="at 1:20 this room takes"):
        laid_out(scenario, None, 20, PAPERS["A4"])
    assert laid_out(scenario, None, 50, PAPERS["A4"]).room.sheets > 9


def test_the_usual_scale_is_the_largest_on_one_sheet(study):
    """The study is 160 x 205 mm at 1:20, its lengths take more than A4 has left; A3 has it all."""
    scenario, _ = study
    assert usual_scale(scenario, PAPERS["A3"]) == 20
    assert usual_scale(scenario, PAPERS["A4"]) == 25
    large = read_text(ROOM.replace("[320, 410]", "[900, 900]"))
    assert usual_scale(large, PAPERS["A3"]) == 50
    feet = [replace(room, unit="in") for room in (scenario, large)]
    assert [usual_scale(room, PAPERS["Letter"]) for room in feet] == [24, 50]


@pytest.mark.slow
@pytest.mark.parametrize("length", [10, 60, 200])
def test_a_long_title_never_runs_into_the_page_number(study, length):
    """What is drawn is told in any case; the first page has the whole title."""
    scenario = replace(study[0], title=" ".join(["word"] * (length // 5)))
    for figure in islice(printed_pages(laid_out(scenario, None, 50, PAPERS["A4"])), 1, None):
        texts = {t.get_gid(): t for t in figure.findobj(Text) if t.get_gid() in ("title", "page")}
        title, page = texts["title"], texts["page"]
        assert title.get_text().lower().endswith(("the empty room", "the pieces to cut out"))
        assert page.get_text().startswith("page ")
        ends = SIDE + bold_width(title)
        assert ends < page.get_position()[0] - bold_width(page)


def bold_width(text):
    """In mm of paper."""
    return extent(text.get_text(), text.get_fontsize(), bold=True)[0] * 25.4 / 72


@pytest.mark.slow
def test_the_same_bytes_every_time(tmp_path, study):
    made = laid_out(*study, 50, PAPERS["A4"])
    one, two = (
        save_booklet(printed_pages(made), tmp_path / name).read_bytes()
        for name in ("a.pdf", "b.pdf")
    )
    assert one == two


def test_what_cannot_be_drawn_to_the_end_leaves_no_file(tmp_path, study):
    def breaks():
        yield next(printed_pages(laid_out(*study, 50, PAPERS["A4"])))
        raise RuntimeError("no more")

    with pytest.raises(RuntimeError):
        save_booklet(breaks(), tmp_path / "print.pdf")
    assert not list(tmp_path.iterdir())


@pytest.mark.slow
def test_a_booklet_has_every_sheet_of_a_run_in_reading_order(tmp_path):
    """The overview, then each plan and where its pieces go: line for line as in files of their own.

    All lie on A4 (ISO 216).
    """
    scenario, arrangement, gaps = bedroom()
    told = tuple(suggestion(arrangement, gaps, rank=rank) for rank in (1, 2))
    result = Result(scenario, "proven", told, 900, 1.0, 0.5, 0)
    alone = {}
    for name, job in pictures(result, "pdf"):
        job(tmp_path / name)
        (alone[name],) = sheets(tmp_path / name)
    ((name, job),) = pictures(result, "booklet")
    assert name == "booklet.pdf"
    job(tmp_path / name)
    pages = sheets(tmp_path / name)
    order = ["overview.pdf", "plan-1.pdf", "place-1.pdf", "plan-2.pdf", "place-2.pdf"]
    assert [page.lines for page in pages] == [alone[name].lines for name in order]
    assert pages[1].lines != pages[2].lines
    for page in pages:
        assert (page.width, page.height) == pytest.approx((297, 210), abs=0.01)


def test_a_booklet_of_a_run_is_told_where_it_is():
    scenario, arrangement, gaps = bedroom()
    result = Result(scenario, "proven", (suggestion(arrangement, gaps),), 900, 1.0, 0.5, 0)
    told = words(result, Path("plans"), ("booklet.pdf", "run.json", "result.json"))
    assert "All sheets in one: plans/booklet.pdf; every number in result.json" in told


@pytest.fixture
def finished(tmp_path, monkeypatch):
    """A folder as suggest writes it, with two arrangements, beside its scenario."""
    monkeypatch.chdir(tmp_path)
    Path("study.toml").write_text(ROOM, encoding="utf-8")
    scenario = read("study.toml")
    arrangement = Arrangement(tuple(scenario.today))
    told = tuple(suggestion(arrangement, rank=rank) for rank in (1, 2))
    data = as_data(Result(scenario, "proven", told, 900, 1.0, 0.5, 0))
    Path("study-plans").mkdir()
    Path("study-plans/result.json").write_text(as_text(data), encoding="utf-8")
    return tmp_path / "study-plans"


@pytest.mark.slow
def test_the_command_prints_a_plan(finished):
    """All pages in one file beside the result, at the scale and on the paper asked for."""
    found = run("print", "study-plans", "--scale", "1:50", "--paper", "a4")
    assert found.exit_code == 0, found.output
    assert "study-plans/print.pdf: 4 pages of A4 at 1:50." in found.output
    pages = sheets(finished / "print.pdf")
    assert len(pages) == 4
    assert floor(pages[2]).size == pytest.approx((64, 82), abs=NEAR)
    # The desk of 140 x 70 cm is 28 x 14 mm on its plan.
    desk = [line.size for line in pages[2].stroked(STYLE.line)]
    assert any(size == pytest.approx((28, 14), abs=NEAR) for size in desk)


@pytest.mark.slow
def test_another_arrangement_has_a_file_of_its_own(finished):
    assert run("print", "study-plans").exit_code == 0
    assert run("print", "study-plans#2").exit_code == 0
    assert sorted(p.name for p in finished.iterdir()) == ["print-2.pdf", "print.pdf", "result.json"]


@pytest.mark.slow
def test_a_room_without_a_plan_is_printed_too(finished):
    """The empty room and the pieces; no plan."""
    found = run("print", "study.toml", "--scale", "1/2 in", "--paper", "letter")
    assert "3 pages of Letter at 1:24" in found.output
    assert len(sheets(finished / "print.pdf")) == 3


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (["study-plans", "--scale", "1:30"], "1:30 is not one of the scales"),
        (["study-plans#3"], "no arrangement #3"),
        (["study-plans", "--paper", "A5"], "'A5' is not one of"),
    ],
)
def test_what_cannot_be_printed_is_told(finished, asked, told):
    found = run("print", *asked)
    assert found.exit_code == 2
    assert told in found.output
    assert json.loads((finished / "result.json").read_text(encoding="utf-8"))
    assert not (finished / "print.pdf").exists()


def test_the_papers_are_those_there_are():
    """Named twice, so that help need not load what draws."""
    assert tuple(PAPERS) == NAMED
