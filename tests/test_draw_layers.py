"""SVG plans: a group with an id a layer, one a piece, true to scale; an outline read again."""

import re
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from draw_rooms import bedroom, l_shape, made, narrow, piece, room, slanted
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.image import imread

from arrange.draw.board import PLAN
from arrange.draw.floor import ways
from arrange.draw.layers import LAYERS, layer_of
from arrange.draw.page import save
from arrange.draw.plan import FULL_MARGINS, PlanOptions, draw_plan, printed_board
from arrange.draw.style import STYLE
from arrange.geometry.shapes import room_shape
from arrange.scenario.read import read

pytestmark = pytest.mark.fast

SVG = "{http://www.w3.org/2000/svg}"
NAME = re.compile(r"[A-Za-z_][\w.-]*", re.ASCII)  # of an XML id, as far as ours go
PT = 25.4 / 72  # mm; CSS 2.1, 4.3.2
ROOMS = {"bedroom": bedroom, "narrow": narrow, "L": l_shape, "slanted": slanted}
NUMBER = r"-?\d+(?:\.\d+)?"


def drawn(case, *, walkway=False):
    """The figure of a plan at a printed scale, and that scale."""
    scenario, arrangement, gaps = case
    figure = Figure(figsize=(200 / 25.4, 170 / 25.4), dpi=150)
    FigureCanvasAgg(figure)
    ax = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    board, ratio = printed_board(ax, scenario.room, STYLE, FULL_MARGINS)
    way = ways(scenario, arrangement) if walkway else None
    draw_plan(board, scenario, arrangement, PlanOptions(gaps, walkway=way))
    return figure, ratio


def written(case, file, **more):
    figure, ratio = drawn(case, **more)
    save(figure, file)
    return ET.parse(file).getroot(), ratio  # noqa: S314  our own


def by_id(root, name):
    (found,) = [one for one in root.iter() if one.get("id") == name]
    return found


def box(group):
    """Left, upper, right and lower edge of all paths in a group, in units of the drawing."""
    data = " ".join(path.get("d") for path in group.iter(f"{SVG}path"))
    numbers = [float(n) for n in re.findall(NUMBER, data)]
    xs, ys = numbers[::2], numbers[1::2]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.slow
@pytest.mark.parametrize("name", ROOMS)
def test_each_layer_is_a_group_with_an_id_in_the_order_of_painting(name, tmp_path):
    root, _ = written(ROOMS[name](), tmp_path / "plan.svg", walkway=name == "bedroom")
    plan = by_id(root, PLAN)
    layers = [one.get("id") for one in plan if one.get("id") in LAYERS]
    assert layers == [layer for layer in LAYERS if layer in layers]
    assert {"floor", "walls", "openings", "pieces", "labels"} <= set(layers)
    if name == "bedroom":
        assert {"fixtures", "ways"} <= set(layers)
    assert all(one.get("id") in LAYERS for one in plan)  # nothing is drawn outside them
    ids = [one.get("id") for one in root.iter() if one.get("id") is not None]
    assert len(ids) == len(set(ids))
    assert all(NAME.fullmatch(one) for one in ids)
    assert "<!DOCTYPE" not in (tmp_path / "plan.svg").read_text(encoding="utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("name", ROOMS)
def test_each_piece_has_a_group_called_by_its_name(name, tmp_path):
    case = ROOMS[name]()
    root, _ = written(case, tmp_path / "plan.svg")
    groups = [g for g in root.iter(f"{SVG}g") if (g.get("id") or "").startswith("piece-")]
    titles = {title.text for group in groups for title in group.findall(f"{SVG}title")}
    assert titles == {one.name for one in case[0].pieces}
    for one in case[0].pieces:
        slug = re.sub(r"[^a-z0-9]+", "-", one.name.casefold())
        assert by_id(root, f"piece-{slug}").find(f"{SVG}title").text == one.name


def test_a_piece_measures_what_it_is_at_the_scale_of_the_plan(tmp_path):
    """The bed faces right: 2050 across the plan and 1600 up it, its back at x = 0."""
    root, ratio = written(bedroom(), tmp_path / "plan.svg")
    mm = PT * ratio
    assert root.get("width") == f"{float(root.get('viewBox').split()[2]):.6f}pt"
    left, upper, right, lower = box(by_id(root, "piece-double-bed-outline"))
    assert (right - left) * mm == pytest.approx(2050, abs=0.01)
    assert (lower - upper) * mm == pytest.approx(1600, abs=0.01)
    wall, _, _, floor = box(by_id(root, "room-outline"))
    assert (left - wall) * mm == pytest.approx(0, abs=0.01)
    assert (floor - lower) * mm == pytest.approx(900, abs=0.01)


def test_names_that_would_be_one_id_are_kept_apart(tmp_path):
    """What is no letter of an id is left out; the title has the name as it is."""
    names = ["Désk <1>", "desk 1", "desk-1", "机", "椅"]
    placed = [
        (piece(one, "desk", 600, 400), {"facing": "up", "x": 700 * i, "y": 0})
        for i, one in enumerate(names)
    ]
    case = made("Names", room([(0, 0), (0, 3000), (4000, 3000), (4000, 0)]), placed)
    root, _ = written(case, tmp_path / "plan.svg")
    groups = {g.find(f"{SVG}title").text: g.get("id") for g in by_id(root, "pieces")}
    assert set(groups) == set(names)
    assert len(set(groups.values())) == 5
    assert {groups[n] for n in names[:3]} == {"piece-desk-1", "piece-desk-1-2", "piece-desk-1-3"}


@pytest.mark.slow
def test_the_same_plan_is_the_same_file(tmp_path):
    """And a figure that was saved once is as it was: the second file is the first."""
    figure, _ = drawn(bedroom())
    before = [artist.get_gid() or "" for artist in figure.axes[0].get_children()]
    first = save(figure, tmp_path / "a.svg").read_bytes()
    assert [artist.get_gid() or "" for artist in figure.axes[0].get_children()] == before
    assert save(figure, tmp_path / "b.svg").read_bytes() == first
    again, _ = drawn(bedroom())
    assert save(again, tmp_path / "c.svg").read_bytes() == first


@pytest.mark.slow
@pytest.mark.parametrize("name", ROOMS)
def test_the_layers_paint_the_same_picture(name, tmp_path):
    """Pixels of the plan painted by z, and layer by layer: none differs by a fifth."""
    figure, _ = drawn(ROOMS[name](), walkway=name == "bedroom")
    one = imread(save(figure, tmp_path / "a.png"))
    (ax,) = [ax for ax in figure.axes if ax.get_gid() == PLAN]
    artists = [artist for artist in ax.get_children() if artist is not ax.patch]
    artists.sort(key=lambda a: (LAYERS.index(layer_of(a)), a.get_zorder()))
    for z, artist in enumerate(artists, start=1):
        artist.set_zorder(z)
    other = imread(save(figure, tmp_path / "b.png"))
    assert np.abs(one - other).max() < 0.2


@pytest.mark.slow
@pytest.mark.parametrize("name", ROOMS)
def test_the_outline_of_a_plan_can_be_read_again(name, tmp_path):
    """As drawn at 1:50 or whatever fits: the same corners, the lowest leftmost at 0."""
    case = ROOMS[name]()
    _, ratio = written(case, tmp_path / "plan.svg")
    text = f"""
[room]
outline = {{ svg = "plan.svg", path = "room-outline", scale = {ratio} }}
[[door]]
wall = "A"
from_left = 10
width = 70
[[piece]]
kind = "plant"
"""
    (tmp_path / "room.toml").write_text(text, encoding="utf-8")
    again = read(tmp_path / "room.toml").room
    shape = room_shape(case[0].room)
    x0, y0, *_ = shape.bounds
    assert {(round(x - x0), round(y - y0)) for x, y in case[0].room.corners} == set(again.corners)
    assert room_shape(again).area == pytest.approx(shape.area)
