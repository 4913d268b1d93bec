"""Plans read back from their artists."""

import math
import subprocess
import sys
from dataclasses import replace
from functools import cache
from itertools import combinations

import draw_rooms as rooms
import pytest
from matplotlib.figure import Figure
from matplotlib.text import Text
from shapely import union_all
from shapely.geometry import LineString, Polygon, box

from arrange.data.room import Door, Fixture, Window
from arrange.draw import plot_plan
from arrange.draw.openings import closet_leaves, drawn_leaves
from arrange.draw.plan import printed_scale, wall_body
from arrange.draw.symbols import drawing_order, has_body
from arrange.geometry.shapes import footprint

pytestmark = pytest.mark.fast

EVERY = pytest.mark.parametrize("make", rooms.ROOMS.values(), ids=rooms.ROOMS)


@cache
def drawn(make):
    scenario, arrangement, gaps = make()
    return scenario, arrangement, plot_plan(scenario, arrangement, gaps=gaps)


def text_box(text, axes):
    """The extent of a text in mm of the plan; turned texts give their true corners."""
    turn = text.get_rotation()
    text.set_rotation(0)
    renderer = axes.get_figure(root=True).canvas.get_renderer()
    low, high = text.get_window_extent(renderer).transformed(axes.transData.inverted()).get_points()
    text.set_rotation(turn)
    middle = text.get_position()
    w, h = (high - low) / 2
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    offsets = ((-w, -h), (w, -h), (w, h), (-w, h))
    return Polygon([(middle[0] + x * c - y * s, middle[1] + x * s + y * c) for x, y in offsets])


@pytest.mark.slow
@EVERY
def test_outlines_are_the_footprints_to_the_millimetre(make):
    """Each piece's outline has exactly the corners of its footprint."""
    scenario, arrangement, plan = drawn(make)
    for piece, placement in drawing_order(scenario, arrangement):
        (outline,) = plan.of(f"piece:{piece.name}")
        expected = footprint(piece, placement, scenario.room).exterior.coords
        assert outline.get_segments()[0].tolist() == [pytest.approx(c) for c in expected]


@pytest.mark.slow
@EVERY
def test_every_piece_is_named_once(make):
    """Whatever the room, each name is on the plan, in its own words."""
    scenario, _, plan = drawn(make)
    assert plan.unnamed == ()
    for piece in scenario.pieces:
        (name,) = plan.of(f"name:{piece.name}")
        assert name.get_text().replace("\n", " ") == piece.name


@EVERY
def test_no_text_lies_on_other_text(make):
    """Extents as the renderer measures them never overlap by more than a hair."""
    _, _, plan = drawn(make)
    texts = [t for t in plan.artists if isinstance(t, Text)]
    boxes = [text_box(t, plan.axes) for t in texts]
    for (a, one), (b, other) in combinations(zip(texts, boxes, strict=True), 2):
        shared = one.intersection(other).area
        assert shared < 0.03 * min(one.area, other.area), (a.get_text(), b.get_text())


@EVERY
def test_no_name_crosses_an_outline(make):
    """A name lies wholly inside one outline or wholly outside it."""
    scenario, arrangement, plan = drawn(make)
    shapes = [
        footprint(p, where, scenario.room)
        for p, where in drawing_order(scenario, arrangement)
        if not p.flat
    ]
    names = [a for a in plan.artists if (a.get_gid() or "").startswith("name:")]
    for name in names:
        extent = text_box(name, plan.axes)
        # The letters themselves: the extent has air above and below them.
        letters = extent.buffer(-8)
        for shape in shapes:
            crossed = letters.intersection(LineString(shape.exterior.coords)).length
            assert crossed == 0, name.get_text()


@EVERY
def test_every_text_stays_on_the_axes(make):
    """No text is cut off at the edge."""
    _, _, plan = drawn(make)
    (x0, x1), (y0, y1) = plan.axes.get_xlim(), plan.axes.get_ylim()
    for text in (a for a in plan.artists if isinstance(a, Text)):
        assert box(x0, y0, x1, y1).covers(text_box(text, plan.axes)), text.get_text()


@pytest.mark.slow
@EVERY
def test_a_millimetre_is_as_long_across_as_up(make):
    """The plan is true to scale on axes of any shape."""
    scenario, arrangement, _ = make()
    ax = Figure(figsize=(7, 3)).add_axes((0.1, 0.1, 0.5, 0.8))
    plot_plan(scenario, arrangement, ax)
    zero, right, up = ax.transData.transform([(0, 0), (1000, 0), (0, 1000)])
    assert right[0] - zero[0] == pytest.approx(up[1] - zero[1])


def test_walls_are_cut_outside_the_outline_and_open_at_openings():
    """120 mm walls round 4100 x 3400: (4340 x 3640 - 4100 x 3400) less two openings x 120."""
    scenario, _, _ = rooms.bedroom()
    body = wall_body(scenario.room, 120)
    assert body.area == pytest.approx(4340 * 3640 - 4100 * 3400 - (800 + 1500) * 120)


@pytest.mark.parametrize(
    ("opens", "hinge", "tip"),
    [
        pytest.param("in", "left", (3900, 800), id="in, left"),
        pytest.param("in", "right", (3100, 800), id="in, right"),
        pytest.param("out", "left", (3900, -920), id="out, left, from the outer face"),
    ],
)
def test_a_leaf_turns_about_its_hinge_seen_from_inside(opens, hinge, tip):
    """Facing the bottom wall from inside, left is at x = 4100: 200 mm on, the jamb is at 3900."""
    scenario, _, _ = rooms.bedroom()
    door = type(scenario.room.doors[0])("d", 3, 200, 800, opens, hinge)
    (leaf,) = drawn_leaves(scenario.room.walls[3], door, 120)
    (panel,), (arc,) = leaf.panels, leaf.way
    assert arc[-1] == pytest.approx(tip, abs=1e-6)
    assert panel.area == pytest.approx(38 * 800)


# Facing the bottom wall the left jamb is at x 3900, the right one at 3100; each leaf of two
# is 400 wide, each panel of a leaf that folds half of that.
@pytest.mark.parametrize(
    ("opens", "more", "bounds"),
    [
        pytest.param("in", {"leaves": 2}, [(3862, 0, 3900, 400), (3100, 0, 3138, 400)], id="two"),
        # Folded to 60 degrees: the joint 400 cos 60 = 200 along and 400 sin 60 = 346.4 off the
        # wall, the far edge 400 along; 38 thick inwards, so 38 cos 60 = 19 behind the face.
        pytest.param("folding in", {}, [(3500, -19, 3900, 346.4)], id="folded in"),
        pytest.param("folding out", {}, [(3500, -466.4, 3900, -101)], id="off the outer face"),
        # Pushed back by half: 400 before the jamb to 400 beyond it, 31 to 69 off the wall.
        pytest.param("sliding on the wall", {}, [(3500, 31, 4300, 69)], id="on the wall"),
        pytest.param("sliding", {}, [(3500, -79, 4300, -41)], id="in the middle of the wall"),
        pytest.param("passage", {}, [], id="no leaf"),
    ],
)
def test_leaves_as_built(opens, more, bounds):
    """Where the leaves are drawn, to the thickness of a leaf."""
    scenario, _, _ = rooms.bedroom()
    door = type(scenario.room.doors[0])("d", 3, 200, 800, opens, **more)
    leaves = drawn_leaves(scenario.room.walls[3], door, 120)
    found = [union_all(leaf.panels).bounds for leaf in leaves]
    assert len(found) == len(bounds)
    for one, by_hand in zip(found, bounds, strict=True):
        assert one == pytest.approx(by_hand, abs=0.1)


@pytest.mark.parametrize(
    ("doors", "bounds"),
    [
        # On the bottom wall of 4100 from the left end, x 4100: the closet is x 3900 to 2700,
        # its face at y 600, and its leaves are 600 wide.
        pytest.param("hinged", [(3862, 600, 3900, 1200), (2700, 600, 2738, 1200)], id="hinged"),
        pytest.param("sliding", [(3300, 562, 3900, 600), (2700, 524, 3300, 562)], id="tracks"),
    ],
)
def test_a_closet_has_its_leaves_at_its_face(doors, bounds):
    """A pair of them."""
    scenario, _, _ = rooms.bedroom()
    wall = scenario.room.walls[3]
    closet = Fixture("closet", "closet", (), 3, 200, 1200, 600, doors=doors, leaves=2)
    found = [union_all(leaf.panels).bounds for leaf in closet_leaves(wall, closet)]
    assert found == [pytest.approx(one, abs=1e-6) for one in bounds]


def test_what_is_built_in_shows_on_the_plan():
    """French window and curtains, a closet's rail and leaves, steps of stairs, a fire set in."""
    french = Door("balcony", 1, 1500, 1200, leaves=2)
    shape = rooms.room([(0, 0), (0, 3000), (5000, 3000), (5000, 0)])
    closet = ((300, 0), (300, 600), (1500, 600), (1500, 0))
    stairs = ((3000, 0), (3000, 2000), (3900, 2000), (3900, 0))
    fixtures = (
        Fixture("fire", "fireplace", (), 2, 1000, 600, 0, burns=True),
        Fixture("closet", "closet", closet, 3, 3500, 1200, 600, leaves=2),
        Fixture("stairs", "stairs", stairs, 3, 1100, 900, 2000),
    )
    window = Window("balcony", 1, 1500, 1200, 0, french=french, curtains=200)
    shape = replace(shape, windows=(window,), fixtures=fixtures)
    stool = rooms.piece("stool", "stool", 400, 400), {"facing": "up", "x": 2000, "y": 1500}
    scenario, arrangement, _ = rooms.made("T", shape, [stool])
    plan = plot_plan(scenario, arrangement)
    parts = ("door:balcony", "swing:balcony", "curtain:balcony", "rail:closet", "leaf:closet")
    assert [len(plan.of(part)) for part in parts] == [2, 2, 2, 1, 2]
    (recess,) = plan.of("recess:fire")
    x0, y0, x1, y1 = recess.get_path().get_extents().extents
    assert (x0, y0, y1) == (5000, 1400, 2000)  # wall C runs down the right: 3000 - 1000 - 600
    assert x1 > 5000
    # A line every 250 of the 2000, the edges left out.
    (steps,) = plan.of("steps:stairs")
    assert len(steps.get_segments()) == 7


def test_a_stable_door_shows_its_upper_half_half_open():
    """At 45 degrees, 800 long: its tip 566 along and 566 off the wall, from x 3900."""
    scenario, _, _ = rooms.bedroom()
    door = type(scenario.room.doors[0])("d", 3, 200, 800, stable=True)
    (leaf,) = drawn_leaves(scenario.room.walls[3], door, 120)
    assert leaf.half.exterior.coords[1] == pytest.approx((3900 - 566, 566), abs=1)
    assert leaf.half.area == pytest.approx(38 * 800)


def test_gap_and_overall_sizes_are_written_in_the_scenarios_unit():
    """145 cm between bed and wardrobe, 410 and 340 cm overall, as given by hand."""
    _, _, plan = drawn(rooms.bedroom)
    texts = {a.get_text() for a in plan.artists if isinstance(a, Text)}
    assert {"145 cm", "410 cm", "340 cm"} <= texts


def test_the_freer_of_two_sides_is_hatched():
    """A shelf beside the bed on one side sends the hatching to the other side."""
    scenario, arrangement, plan = drawn(rooms.bedroom)
    (hatching,) = plan.of("clearances")
    ys = [y for run in hatching.get_segments() for _, y in run]
    # The bed covers y 900 to 2500; the bedside table stands below it, so 500 mm lie above.
    assert 2500 <= min(ys) <= max(ys) <= 3000
    assert not has_body(scenario.room.fixtures[1])
    assert arrangement.of("Double bed").y == 900


def test_a_walkway_ends_in_the_doorway():
    """A band that runs out of the door is cut at the outer face of the wall."""
    scenario, arrangement, _ = rooms.bedroom()
    plan = plot_plan(scenario, arrangement, walkway=LineString([(3500, -900), (2900, 2000)]))
    (band,) = plan.of("walkway")
    assert band.get_path().vertices[:, 1].min() == pytest.approx(-120)


def test_a_name_with_dollars_is_written_as_it_is():
    """Formula marks in names are plain letters."""
    scenario, arrangement, _ = rooms.made(
        "T", rooms.room([(0, 0), (0, 3000), (3000, 3000), (3000, 0)]),
        [(rooms.piece("$x_1$ box", "cabinet", 900, 900), {"facing": "up"})],
    )  # fmt: skip
    plan = plot_plan(scenario, arrangement)
    (name,) = plan.of("name:$x_1$ box")
    assert not name.get_parse_math()


@pytest.mark.parametrize(
    ("exact", "printed"),
    [(50, 50), (50.2, 55), (100.1, 110), (500, 500), (501, 600), (730, 800)],
)
def test_a_plan_is_printed_at_the_next_scale_at_which_it_still_fits(exact, printed):
    """One to so many; a point of paper is 25.4 / 72 mm. A smaller number is a larger plan."""
    assert printed_scale(72 / 25.4 / exact) == printed


def test_importing_the_pictures_loads_no_matplotlib():
    """Commands that draw nothing start fast."""
    code = "import sys, arrange, arrange.draw; sys.exit('matplotlib' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
