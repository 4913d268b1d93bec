"""Outlines in open standards: WKT, GeoJSON and SVG, read strictly and the same as corners."""

import json
import math
import random
import re

import pytest
from shapely.geometry import Polygon

import arrange
from arrange.errors import ScenarioError
from arrange.scenario.outline import OutlineError
from arrange.scenario.read import read, read_text
from arrange.scenario.svg import corners_in, outline_in

pytestmark = pytest.mark.fast

# An L: 320 x 410 with its lower right corner, 120 wide and 150 deep, left out. Clockwise.
L_SHAPE = [(0, 0), (0, 410), (320, 410), (320, 150), (200, 150), (200, 0)]
REST = (
    '\n[[door]]\nwall = "C"\nfrom_left = "20 cm"\nwidth = "80 cm"\n[[piece]]\nkind = "bookcase"\n'
)


def wkt(points):
    """Well-known text of a ring; the first point comes again at the end."""
    return f"POLYGON (({', '.join(f'{x} {y}' for x, y in [*points, points[0]])}))"


def with_outline(given, unit="cm", more=""):
    return f'unit = "{unit}"\n[room]\noutline = {given}\n{more}{REST}'


def with_corners(points, unit="cm"):
    return f'unit = "{unit}"\n[room]\ncorners = {[list(p) for p in points]}\n{REST}'


def faults_of(text, name="room.toml"):
    with pytest.raises(ScenarioError) as told:
        read_text(text, name)
    return told.value.faults


@pytest.mark.parametrize("unit", ["cm", "m", "in"])
def test_well_known_text_makes_the_same_room_as_corners(unit):
    """OGC 06-103r4, 7.2.6: POLYGON ((x y, ...)), its ring closed by its first point."""
    factor = {"cm": 1, "m": 100, "in": 2.5}[unit]
    points = [(x / factor, y / factor) for x, y in L_SHAPE]
    drawn = read_text(with_outline(f'"{wkt(points)}"', unit), "room.toml")
    assert drawn.room == read_text(with_corners(points, unit), "room.toml").room
    assert drawn.room.corners[1] == (0, {"in": 4166}.get(unit, 4100))  # 164 in are 4165.6 mm


def test_walls_are_called_in_the_order_given_whichever_way_round():
    """Anticlockwise from the same corner: A is still from the first to the second."""
    other = [L_SHAPE[0], *L_SHAPE[:0:-1]]  # (0, 0), (200, 0), (200, 150), ...
    # Wall C, from (200, 150) to (320, 150), is as long as the opening wants it.
    room = read_text(with_outline(f'"{wkt(other)}"'), "room.toml").room
    assert set(room.corners) == {(10 * x, 10 * y) for x, y in L_SHAPE}
    ends = {wall.name: {wall.start, wall.end} for wall in room.walls}
    given = [(10 * x, 10 * y) for x, y in other]
    for i, name in enumerate("ABCDEF"):
        assert ends[name] == {given[i], given[(i + 1) % 6]}
    # And each is seen from inside: C looks up into the room from its lower end.
    assert {wall.name: wall.facing for wall in room.walls} == {
        "A": "up", "B": "left", "C": "up", "D": "left", "E": "down", "F": "right",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ('"POLYGON ((0 0, 0 410, 320 410, 320 0, 0 0), (9 9, 9 20, 20 20, 9 9))"', "a hole"),
        ('"POLYGON ((0 0, 320 410, 320 0, 0 410, 0 0))"', "wall A and wall C cross or touch"),
        ('"POLYGON ((0 0, 0 410, 0 410, 320 0, 0 0))"', "corner 3 is the same point as corner 2"),
        ('"POLYGON ((0 0, 0 410, 320 410, 320 0))"', "its last point is not its first"),
        ('"POLYGON EMPTY"', "nothing given"),
        ('"POINT (1 2)"', "a Point given"),
        ('"LINESTRING (0 0, 0 410, 320 410)"', "a LineString given"),
        ('"MULTIPOLYGON (((0 0,0 9,9 9,0 0)),((20 0,20 9,29 9,20 0)))"', "2 shapes given"),
        ('"POLYGON ((0 0, 0 410, 320"', "POLYGON"),
        ('"POLYGON ((0 0, 0 nan, 320 410, 0 0))"', "nan given"),
        ('"POLYGON ((0 0, 0 1e300, 320 410, 0 0))"', "1e+300 given"),
        ('"POLYGON ((0 0, 0 4100, 320 410, 0 0))"', "4100 cm given"),
        ('"room.toml"', "room.toml"),
        ("5", "5 given"),
        ("{}", "given"),
        ('{ svg = "a.svg", geojson = "b.geojson" }', "given"),
        ('{ geojson = "../b.geojson" }', "b.geojson' given"),
        ('{ geojson = "/etc/b.json" }', "given"),
        ('{ geojson = "C:b.json" }', "given"),
        ('{ geojson = "passwd" }', "given"),
        ('{ geojson = "none.geojson" }', "none.geojson: not found"),
        ('{ geojson = "none.geojson", units = "m" }', "units"),
    ],
)
def test_what_is_no_outline_is_one_clear_message(given, says, tmp_path):
    """Its place is told, no reader's own words are, and nothing follows from it."""
    faults = faults_of(with_outline(given), str(tmp_path / "room.toml"))
    told = [f"{fault.where} {fault.given}" for fault in faults]
    assert all(line.startswith("room.outline") for line in told), told
    assert any(says in line for line in told), told


def test_brackets_without_end_are_refused_before_a_reader_goes_down():
    deep = "GEOMETRYCOLLECTION (" * 40
    (fault,) = faults_of(with_outline(f'"{deep}"'))
    assert fault.given == "brackets in brackets"


@pytest.mark.parametrize("key", ["size = [320, 410]", "corners = [[0, 0], [0, 9], [9, 9]]"])
def test_one_way_to_give_the_outline_is_enough(key):
    (fault,) = faults_of(with_outline(f'"{wkt(L_SHAPE)}"', more=key))
    assert "outline" in fault.given
    assert " and " in fault.given


def test_an_outline_leaves_nothing_to_check():
    more = '[[room.check]]\nfrom = "A"\nto = "C"\nlength = 300\n'
    assert "room.check" in [
        f.where for f in faults_of(with_outline(f'"{wkt(L_SHAPE)}"', more=more))
    ]


# -- GeoJSON -----------------------------------------------------------------
def in_folder(folder, file, content, given):
    """A scenario beside a file, read."""
    (folder / file).write_text(content, encoding="utf-8")
    (folder / "room.toml").write_text(with_outline(given), encoding="utf-8")
    return read(folder / "room.toml")


METRES = [[x / 100 + 5, y / 100 - 7] for x, y in L_SHAPE]
POLYGON = {"type": "Polygon", "coordinates": [[*METRES, METRES[0]]]}


@pytest.mark.parametrize(
    "shape",
    [
        POLYGON,
        {"type": "Feature", "properties": {"name": "room"}, "geometry": POLYGON},
        {
            "type": "FeatureCollection",
            "features": [{"type": "Feature", "properties": {}, "geometry": POLYGON}],
        },
        {"type": "MultiPolygon", "coordinates": [POLYGON["coordinates"]]},
    ],
)
def test_geojson_counts_in_metres_from_wherever_it_begins(shape, tmp_path):
    """RFC 7946, 3.1.6: rings are closed. Its lowest leftmost corner becomes 0, 0."""
    room = in_folder(tmp_path, "r.geojson", json.dumps(shape), '{ geojson = "r.geojson" }').room
    assert room == read_text(with_corners(L_SHAPE)).room


def test_geojson_in_another_unit(tmp_path):
    inches = [[x / 2.54, y / 2.54] for x, y in [*L_SHAPE, L_SHAPE[0]]]
    text = json.dumps({"type": "Polygon", "coordinates": [inches]})
    room = in_folder(tmp_path, "r.json", text, '{ geojson = "r.json", unit = "in" }').room
    assert room == read_text(with_corners(L_SHAPE)).room


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not GeoJSON"),
        ("{}", "not GeoJSON"),
        ('{"type": "Polygon"}', "not GeoJSON"),
        ('{"type": "Polygon", "coordinates": [[[0, 0], [0, "4"], [3, 4], [0, 0]]]}', "not GeoJSON"),
        ('{"type": "Polygon", "coordinates": [[[0, 0], [0, NaN], [3, 4], [0, 0]]]}', "not GeoJSON"),
        ("[" * 100_000, "brackets in brackets"),
        ('{"type": "Point", "coordinates": [1, 2]}', "a Point given"),
        # Degrees on a map: 0.00004 of them are 4 m, and as metres they are none.
        (
            '{"type": "Polygon", "coordinates": [[[9, 50], [9, 50.00004], [9.00005, 50.00004], '
            "[9, 50]]]}",
            "0 cm across",
        ),
    ],
)
def test_geojson_that_is_no_room_is_refused(text, says, tmp_path):
    with pytest.raises(ScenarioError) as told:
        in_folder(tmp_path, "r.geojson", text, '{ geojson = "r.geojson" }')
    assert [f.where for f in told.value.faults] == ["room.outline"]
    assert says in told.value.faults[0].given


def test_files_are_read_up_to_a_limit_and_must_be_files(tmp_path):
    """200 kB and a byte; a folder of that name."""
    with pytest.raises(ScenarioError, match=r"r\.geojson: over 200 kB"):
        in_folder(tmp_path, "r.geojson", " " * 200_001, '{ geojson = "r.geojson" }')
    (tmp_path / "d.json").mkdir()
    with pytest.raises(ScenarioError, match=r"d\.json: this is a folder"):
        in_folder(tmp_path, "x", "", '{ geojson = "d.json" }')


# -- path data ---------------------------------------------------------------
SQUARE = [(10.0, 20.0), (40.0, 20.0), (40.0, 60.0), (10.0, 60.0)]


@pytest.mark.parametrize(
    "data",
    [
        "M 10 20 L 40 20 L 40 60 L 10 60 Z",
        "M10,20L40,20,40,60,10,60Z",
        "M10 20 40 20 40 60 10 60z",  # after M an L is meant
        "m10 20 30 0 0 40-30 0z",  # after m an l; a minus parts numbers
        "M 10 20 H 40 V 60 H 10 Z",
        "m 10 20 h 30 v 40 h -30 z",
        "M1e1 2.0E+1H4e1V6e1H1e1Z",
        "M10 20H40V60H10V20",  # back where it began
        "\n M 10 20\n L 40 20\t40 60\n 10 60\n Z \n",
        "M10 20h10 20v40h-30z",  # h twice
        "M10.0.2e2 40 20 40 60 10 60z",  # 10.0 and .2e2
    ],
)
def test_path_data_is_read_as_the_standard_says(data):
    """SVG 1.1 (W3C, 2011), 8.3: the same square of 30 x 40, in the ways it can be written."""
    assert [p for p in corners_in(data) if p != (20.0, 20.0)] == SQUARE


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("M0 0 C 1 1 2 2 3 3 Z", "'C' in the path"),
        ("M0 0 a 5 5 0 0 1 5 5 Z", "'a' in the path"),
        ("M0 0 H9 q 1 1 2 2 Z", "'q' in the path"),
        ("M0 0 H9 V9", "does not close"),
        ("M0 0 H9 V9 Z M1 1 H2 V2 Z", "more than one line"),
        ("M0 0 H9 V9 Z H3", "more than one line"),
        ("M0 0 H9 M 3 3 V9 Z", "more than one line"),
        ("", "does not close"),
        ("L 0 0 9 9 Z", "not understood"),
        ("0 0 9 9", "not understood"),
        ("M 0 0 9 Z", "a number is missing after L"),
        ("M 0", "a number is missing after M"),
        ("M,0 0 9 9 0 9 Z", "a number is missing after M"),
        ("M 0,,0 9 9 0 9 Z", "a number is missing after M"),
        ("M 0 0 9 9 0 9 Z 5", "not understood"),
        ("M 0 0 9 9 nan 9 Z", "'n' in the path"),
        ("M 0 0 1.2.3e Z", "'e' in the path"),
        ("M 0 0 9 - Z", "a number is missing"),
        ("M 0 0 " + "1 " * 6000 + "Z", "path data of"),
        ("M 0 0 9" + " " * 9000 + "z", "a number is missing"),  # at once, not after minutes
    ],
)
def test_path_data_that_is_not_straight_lines_is_refused(data, says):
    with pytest.raises(OutlineError, match=says):
        corners_in(data)


@pytest.mark.parametrize("seed", range(20))
def test_what_another_library_writes_is_read_as_it_meant_it(seed):
    """Shapely writes a polygon as path data of its own; rings of 3 to 40 corners round a point."""
    rng = random.Random(seed)  # noqa: S311
    count = rng.randint(3, 40)
    angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(count))
    ring = [(math.cos(a) * rng.uniform(1, 900), math.sin(a) * rng.uniform(1, 900)) for a in angles]
    data = re.search(r' d="([^"]*)"', Polygon(ring).svg())[1]
    assert corners_in(data) == ring


# -- drawings ----------------------------------------------------------------
def drawing(body, attributes='width="100mm" height="80mm" viewBox="0 0 200 160"'):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {attributes}>{body}</svg>'


RING = "M10 20 H40 V60 H10 Z"
PATH = f'<path id="room" d="{RING}"/>'


@pytest.mark.parametrize(
    ("text", "scale", "across"),
    [
        # 200 units on 100 mm: half a mm each. 30 units at 1:50 are 30 * 0.5 * 50 = 750 mm.
        (drawing(PATH), 50.0, 750),
        (drawing(PATH), 100.0, 1500),
        (drawing(PATH), None, 30),  # in units of the drawing
        # Without a viewBox a unit is a px, and 96 of them are an inch.
        (drawing(PATH, 'width="1in"'), 96.0, 30 * 25.4),
        (drawing(PATH, 'width="72pt" height="144pt" viewBox="0 0 36 72"'), 36.0, 762.0),
        (drawing(f'<g id="room"><g><path d="{RING}"/></g></g>'), None, 30),
        (drawing(f'<path d="C"/><defs><path id="other"/></defs>{PATH}'), None, 30),
    ],
)
def test_a_drawing_is_read_at_its_scale(text, scale, across):
    """CSS 2.1, 4.3.2: 1in = 2.54cm = 72pt = 96px. The plan has y up, a drawing down."""
    points = outline_in(text, "room", scale)
    xs, ys = zip(*points, strict=True)
    assert math.isclose(max(xs) - min(xs), across)
    assert math.isclose((max(ys) - min(ys)) / across, 40 / 30)
    assert max(ys) < 0


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + drawing(PATH), "a DOCTYPE or ENTITY"),
        ('<!doctype svg SYSTEM "file:///etc/passwd">' + drawing(PATH), "a DOCTYPE or ENTITY"),
        (drawing(PATH.replace("M10", "&a;")), "not SVG"),
        (drawing(PATH)[:-3], "not SVG"),
        ("<html/>", "not SVG"),
        ("", "not SVG"),
        (drawing(""), "no path there"),
        (drawing(PATH + PATH), "2 paths there"),
        (drawing(f'<g transform="scale(2)">{PATH}</g>'), "moved by a transform"),
        (drawing(f'<g style="transform: scale(2)">{PATH}</g>'), "moved by a transform"),
        (drawing(f'<svg x="5">{PATH}</svg>'), "moved by a transform"),
        (drawing(PATH, 'viewBox="0 0 200 160"'), "a drawing without a size"),
        (drawing(PATH, 'width="100%" height="9mm" viewBox="0 0 200 160"'), "without a size"),
        (drawing(PATH, 'width="100mm" height="90mm" viewBox="0 0 200 160"'), "stretched"),
        (drawing(PATH, 'width="0mm" height="0mm" viewBox="0 0 200 160"'), "stretched"),
        (drawing(PATH, 'width="1mm" height="1mm" viewBox="0 0 0 0"'), "stretched"),
        (drawing("<g>" * 100 + PATH + "</g>" * 100), "groups more than"),
    ],
)
def test_a_drawing_that_cannot_be_trusted_is_refused(text, says):
    with pytest.raises(OutlineError, match=says):
        outline_in(text, "room", 50.0)


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ('path = "room"', "one of scale and unit"),
        ('path = "room", scale = 50, unit = "cm"', "one of scale and unit"),
        ("scale = 50", "not given"),
        ('path = "room", scale = 0', "0 given"),
        ('path = "room", scale = "2:1"', "2:1"),
        ('path = "room", scale = true', "True given"),
        ('path = "room", scale = inf', "inf given"),
        ('path = "room", unit = "ft"', "ft"),
    ],
)
def test_the_keys_of_a_drawing_are_checked(keys, says, tmp_path):
    with pytest.raises(ScenarioError) as told:
        in_folder(tmp_path, "r.svg", drawing(PATH), f'{{ svg = "r.svg", {keys} }}')
    assert any(says in fault.given for fault in told.value.faults), told.value


def test_a_drawing_makes_the_same_room_as_corners(tmp_path):
    """The L in a drawing with y down, at 1:50 with 1 unit = 0.5 mm (25 mm each), and in cm."""
    data = " ".join(f"{x * 0.4 + 30} {500 - y * 0.4}" for x, y in L_SHAPE)
    text = drawing(f'<path id="room" d="M {data} Z"/>')
    for keys in ("scale = 50", 'scale = "1:50"'):
        given = f'{{ svg = "r.svg", path = "room", {keys} }}'
        assert (
            in_folder(tmp_path, "r.svg", text, given).room == read_text(with_corners(L_SHAPE)).room
        )
    data = " ".join(f"{x} {-y}" for x, y in L_SHAPE)
    text = drawing(f'<path id="room" d="M {data} Z"/>', "")
    given = '{ svg = "r.svg", path = "room", unit = "cm" }'
    assert in_folder(tmp_path, "r.svg", text, given).room == read_text(with_corners(L_SHAPE)).room


def test_a_scenario_read_from_text_may_name_files_too(tmp_path, monkeypatch):
    """From the working folder, as with a scenario that is piped in."""
    (tmp_path / "r.geojson").write_text(json.dumps(POLYGON), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    room = arrange.read_text(with_outline('{ geojson = "r.geojson" }')).room
    assert room == read_text(with_corners(L_SHAPE)).room
