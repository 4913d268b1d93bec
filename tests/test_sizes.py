"""Sizes a piece could be had in: standard ones and ranges, and how people ask for them."""

import tomllib

import pytest
from file_rooms import room_file

from arrange import ScenarioError, read_text
from arrange.data.kinds import kinds
from arrange.data.piece import Piece
from arrange.data.sizes import (
    REGIONS,
    TABLE,
    NoSizesError,
    families,
    range_of_sizes,
    standard_sizes,
    usual_region,
)  # fmt: skip
from arrange.data.sources import ids, value
from arrange.whatif.asking import dimension_asked, sizes_asked

pytestmark = pytest.mark.fast

ROWS = [
    row for table in tomllib.loads(TABLE.read_text("utf-8"))["size"].values()
    for row in table["rows"]
]  # fmt: skip


def bedroom():
    """A bed in a room measured in centimetres."""
    return read_text(room_file(280, 330) + '[[piece]]\nkind = "double bed"\nname = "bed"\n')


def as_piece(name):
    """A piece of that kind as usually sold."""
    k = kinds()[name]
    return Piece(
        name, name, name, k.width, k.depth, k.height, clearances=k.clearances, roles=k.roles
    )


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r["label"])
def test_every_size_with_a_source_is_the_published_one(row):
    """Width and depth, or the two of a list, stand in the published value as numbers."""
    if "source" not in row:
        return
    assert row["source"] in ids()
    published = value(row["source"])
    if row["source"] == "adm-d-dine":
        assert row["depth"] == 800  # "800 x 800 / 1000 / ...": the first is the depth of all
    if row["source"] == "eu-single":  # also 800 and 1000 wide
        assert row["width"] in (800, 900, 1000)
    else:
        assert str(row["width"]) in published
    assert str(row["depth"]) in published


def test_every_kind_of_a_family_exists_and_stands_in_one_family():
    """So that a kind has one ladder."""
    named = [k for f in families() for k in f.kinds]
    assert set(named) <= set(kinds())
    assert len(named) == len(set(named))


@pytest.mark.parametrize("region", REGIONS)
def test_a_bed_is_its_mattress_and_the_least_frame(region):
    """50 mm more each way (`bed-frame-outside`, common practice), the narrowest first."""
    table = standard_sizes(as_piece("double bed"), region)
    rows = {r["label"]: r for r in ROWS if r.get("region") == region}
    assert len(table.sizes) == len(rows)
    for size in table.sizes:
        row = rows[size.label]
        assert (size.piece.width, size.piece.depth) == (row["width"] + 50, row["depth"] + 50)
        assert size.piece.is_a("for two") is (row["sleeps"] == 2)
    widths = [s.piece.width for s in table.sizes]
    assert widths == sorted(widths)
    assert any("common practice" in note for note in table.notes)


def test_a_bed_for_one_is_got_into_from_one_side():
    """The floor that the kinds of the table ask; what the person said of it stays."""
    one, *_, last = standard_sizes(as_piece("double bed"), "eu").sizes
    assert {c.name for c in one.piece.clearances} == {"getting in", "foot"}
    assert {"left side", "right side"} <= {c.name for c in last.piece.clearances}


def test_a_bunk_bed_has_no_mattress_for_two_and_a_daybed_lies_across():
    """Singles alone; the length of a daybed is its width."""
    assert all(s.piece.width < 1200 for s in standard_sizes(as_piece("bunk bed"), "us").sizes)
    daybed = standard_sizes(as_piece("daybed"), "eu").sizes
    assert [(s.piece.width, s.piece.depth) for s in daybed] == [
        (2050, 850), (2050, 950), (2050, 1050),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("label", "ends"), [("for 2", 0), ("for 3", 1), ("for 4", 0), ("for 5", 1), ("for 6", 2)]
)
def test_diners_sit_along_the_sides_and_the_rest_at_the_ends(label, ends):
    """600 mm a diner (`dine-place-neufert`): 1350 // 600 = 2 a side, so 5 need one end."""
    sizes = {s.label: s.piece for s in standard_sizes(as_piece("dining table for six"), "eu").sizes}
    clear = {c.name: c.sides for c in sizes[label].clearances}
    at_ends = {n: sides for n, sides in clear.items() if set(sides) <= {"left", "right"}}
    assert len(at_ends) == ends
    if ends == 1:
        assert set(*at_ends.values()) == {"left", "right"}


def test_a_range_steps_from_the_first_to_the_last():
    """Depths in proportion; 140 to 180 in steps of 15 ends at 170."""
    table = range_of_sizes(as_piece("double bed"), (1400, 1900), (1800, 2100), 150, "cm")
    assert [(s.piece.width, s.piece.depth) for s in table.sizes] == [
        (1400, 1900), (1550, 1975), (1700, 2050),
    ]  # fmt: skip


def test_the_region_goes_by_the_unit():
    """Inches are American, all else European."""
    assert [usual_region(u) for u in ("in", "cm", "mm", "m")] == ["us", "eu", "eu", "eu"]


@pytest.mark.parametrize(
    ("word", "told"),
    [
        ("bedd", "did you mean 'bed'"),
        ("sofa", "known: bed"),
        ("bed=140", "write FROM..TO"),
        ("bed=180..140/10", "from the narrowest"),
        ("bed=10..2000/1", "at most 40"),
        ("bed=x..180/10", "write FROM..TO"),
        ("bed=140..180/0", "above 0"),
    ],
)
def test_sizes_that_are_not_understood_are_refused(word, told):
    """One message with what is known."""
    with pytest.raises(ScenarioError, match=told):
        sizes_asked(word, None, bedroom())


@pytest.mark.parametrize(
    ("word", "first", "last", "count"),
    [
        ("bed=140..200/10", (1400, 2050), (2000, 2050), 7),
        ("bed=140x190..180x210/20", (1400, 1900), (1800, 2100), 3),
        ("bed=4 ft 7 in..60 1/2 in/1/2 in", (1397, 2050), (1537, 2050), 12),
        ("Bed = 1.4 m..1.6 m", (1400, 2050), (1600, 2050), 5),
    ],
)
def test_ranges_as_people_write_them(word, first, last, count):
    """Bare numbers in the file's unit, or lengths with their own."""
    _, table = sizes_asked(word, None, bedroom())
    ends = [(s.piece.width, s.piece.depth) for s in (table.sizes[0], table.sizes[-1])]
    assert ends == [first, last]
    assert len(table.sizes) == count


def test_a_kind_without_standard_sizes_says_how_to_give_a_range():
    """And a dimension that is none lists the three."""
    with pytest.raises(NoSizesError, match=r"no standard sizes are known for rug .*=60\.\.120"):
        standard_sizes(as_piece("rug"), "eu")
    with pytest.raises(ScenarioError, match="bed=width, bed=depth or bed=height"):
        dimension_asked("bed=weight", bedroom())
