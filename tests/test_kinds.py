"""The table of household pieces."""

import re

import pytest

from arrange import read_text
from arrange.data.kinds import kind, kinds, names
from arrange.data.sources import value

pytestmark = pytest.mark.fast

EVERY = pytest.mark.parametrize("name", sorted(kinds()))
WALL_OF_A_ROOM = 3000  # mm; a usual piece goes along it


def test_there_are_pieces_for_a_whole_home():
    """At least 45 kinds, with every way of using a room among their roles."""
    roles = {role for k in kinds().values() for role in k.roles}
    assert len(kinds()) >= 45
    assert {"sleep", "store", "seat", "work", "dine", "entrance", "play", "music"} <= roles


@EVERY
def test_sizes_are_those_of_a_household_piece(name):
    """Everything fits under a 2.4 m ceiling and along a 3 m wall."""
    k = kinds()[name]
    assert 0 < k.width <= WALL_OF_A_ROOM
    assert 0 < k.depth <= WALL_OF_A_ROOM
    assert 0 < k.bottom + k.height + k.headroom <= 2400
    assert len(k.short) <= 12


@EVERY
def test_clearances_are_least_before_comfortable(name):
    """Both are lengths, the comfortable one is no smaller, and a strip remains."""
    for c in kinds()[name].clearances:
        assert 0 <= c.least <= c.comfortable <= 2000
        assert c.sides
        assert c.purpose.startswith(("to ", "for ", "so "))
        assert c.skip_start + c.skip_end < kinds()[name].depth


@EVERY
def test_what_a_piece_goes_with_is_in_the_table(name):
    """Ties and goes_with name kinds, and each tie has room for its most."""
    k = kinds()[name]
    assert set(k.goes_with) <= kinds().keys()
    for tie in k.ties:
        assert set(tie.to) <= kinds().keys()
        assert name not in tie.to
        assert 1 <= tie.most <= len(tie.places)


def test_all_but_glass_and_metal_can_burn():
    """Wood, paper, textile and plants: only a mirror may stand near a stove."""
    assert [k.name for k in kinds().values() if not k.burns] == ["hall mirror"]


def test_every_name_means_one_kind():
    """No other name is also a kind's own, or another kind's other name."""
    others = [other for k in kinds().values() for other in k.also]
    assert len(others) == len(set(others))
    assert set(others).isdisjoint(kinds())
    assert all(name == name.casefold() for name in names())


def test_a_kind_is_found_by_its_other_names():
    """Case and blanks do not matter; an unknown one is a KeyError."""
    assert kind(" Couch ").name == "sofa"
    with pytest.raises(KeyError):
        kind("spaceship")


PUBLISHED = [
    ("double bed", "getting in", "usual", "bed-side-access"),
    ("double bed", "left side", "usual", "bed-least-used-side"),
    ("double bed", "left side", "comfortable", "bed-around-min"),
    ("single bed", "getting in", "comfortable", "bed-around-pref"),
    ("chest of drawers", "drawers", "usual", "dresser-front-alt"),
    ("wardrobe", "doors", "comfortable", "bedroom-storage-front"),
    ("desk", "chair", "usual", "desk-use"),
    ("desk", "chair", "comfortable", "desk-chair-zone"),
    ("dining table for four", "front chairs", "usual", "dine-access"),
    ("dining table for four", "back chairs", "comfortable", "dine-nkba-walk"),
]


@pytest.mark.parametrize(("name", "clearance", "which", "id_"), PUBLISHED)
def test_a_published_value_is_the_one_used(name, clearance, which, id_):
    """The number in the kinds table is the one that its source prints, in mm."""
    found = next(c for c in kinds()[name].clearances if c.name == clearance)
    assert getattr(found, which) == int(re.match(r"\d+", value(id_))[0])
    sources = {
        "usual": found.usual_source,
        "comfortable": found.comfortable_source or found.usual_source,
    }
    assert sources[which] == id_


@EVERY
def test_a_named_source_prints_the_number(name):
    """Whatever a clearance cites lies within the range its source prints."""
    for c in kinds()[name].clearances:
        assert c.source == "", "what is bare is common practice"
        cited = ((c.usual_source, c.usual), (c.comfortable_source or c.usual_source, c.comfortable))
        for id_, mm in cited:
            if id_:
                printed = [int(n) for n in re.findall(r"\d{3,4}", value(id_))]
                assert min(printed) <= mm <= max(printed), (c.name, id_)


def test_status_is_the_weaker_of_two_sources():
    """Verified with verified stays so; with common practice it becomes that."""
    bed = kinds()["single bed"].clearances[0]
    shoes = kinds()["shoe cabinet"].clearances[0]
    assert bed.status == "verified"
    assert shoes.status == "common practice"


@pytest.mark.parametrize(
    ("word", "kind", "label"),
    [
        ("twin bed", "single bed", "twin bed"),
        ("bed", "single bed", "bed"),
        ("Nightstand", "bedside table", "Nightstand"),
        ("single bed", "single bed", "bed"),
        ("Single  Bed", "single bed", "bed"),
    ],
)
def test_a_piece_is_called_what_the_person_calls_its_kind(word, kind, label):
    """Also where the table has another name for it; the file's own word is its name."""
    text = '[room]\nsize = [400, 400]\n[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\n'
    (piece,) = read_text(f'unit = "cm"\n{text}[[piece]]\nkind = "{word}"\n').pieces
    name = kind if word.split()[-1] == "Bed" else word
    assert (piece.name, piece.model, piece.kind, piece.short) == (name, name, kind, label)


BEDS = [("full bed", "us-full"), ("queen bed", "us-queen"), ("king bed", "us-king")]


@pytest.mark.parametrize(("name", "id_"), BEDS)
def test_a_bed_by_its_american_name_is_that_mattress_and_a_plain_frame(name, id_):
    """The published mattress in mm, and 50 mm more each way: the least of bed-frame-outside."""
    width, length = (int(mm) for mm in re.findall(r"(\d+) x (\d+) mm", value(id_))[0])
    assert value("bed-frame-outside").startswith("50-")
    assert (kind(name).width, kind(name).depth) == (width + 50, length + 50)
    inches = re.findall(r"(\d+) x (\d+) in", value(id_))[0]
    assert (width, length) == tuple(round(int(n) * 25.4) for n in inches)


@pytest.mark.parametrize("name", [name for name, _ in BEDS])
def test_a_bed_for_two_asks_for_what_every_bed_for_two_asks(name):
    """Only its size is its own: floor, uses, and what stands beside it are the double bed's."""
    one, double = kind(name), kind("double bed")
    assert one.clearances == double.clearances
    assert one.roles == double.roles
    for other in kinds().values():
        for tie in other.ties:
            assert (name in tie.to) == ("double bed" in tie.to)
        assert (name in other.goes_with) == ("double bed" in other.goes_with)


def test_a_queen_bed_is_wider_than_a_double_bed_and_so_named():
    """The person's word is the kind's own now, with bedside tables on both sides."""
    text = """
    [room]
    size = [400, 350]
    [[door]]
    wall = "A"
    from_left = 20
    width = 80
    [[piece]]
    kind = "queen bed"
    [[piece]]
    kind = "bedside table"
    count = 2
    """
    bed, *tables = read_text(text).pieces
    assert (bed.name, bed.kind, bed.width) == ("queen bed", "queen bed", 1574)
    assert [table.anchor for table in tables] == ["queen bed", "queen bed"]
