"""Records by the fields of a class: both ways, what differs declared once, nothing half right."""

import json
import math
from dataclasses import dataclass, make_dataclass, replace
from pathlib import Path
from typing import Literal

import pytest
from small_rooms import A, C, at, on_wall, piece, room, scenario

from arrange.data.arrangement import Arrangement
from arrange.data.result import Gap, Reason, Spare
from arrange.data.room import Door, Window
from arrange.data.sources import Source
from arrange.output.fields import About, Record, as_text, plain
from arrange.output.reading import read_result
from arrange.output.records import as_data
from arrange.output.rooms import GAP, PLACED, SPARE, read_placement, read_room
from arrange.scenario.read import read
from arrange.suggesting import suggest
from arrange.words.suggest import spare_words

pytestmark = pytest.mark.fast

SCENARIOS = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))
ABOUT = About(scenario(room()))


@dataclass(frozen=True)
class Shelf:
    """A class as it could be in the program."""

    name: str
    deep: int
    worth: int
    wood: Literal["oak", "pine"]
    span: tuple[float, float] = (0, 1)
    lamp: str | None = None


SHELF = Record(
    Shelf, "depth=deep name worth twice", points="worth", twice=lambda shelf, _: 2 * shelf.deep
)


def there_and_back(record, one):
    return record.read(json.loads(as_text(record.write(one, ABOUT))), ABOUT)


def test_a_record_has_its_columns_first_and_then_every_other_field():
    assert SHELF.write(Shelf("top", 300, 62, "oak"), ABOUT) == {
        "depth": 300,
        "name": "top",
        "worth": 6.2,
        "twice": 600,
        "wood": "oak",
        "span": [0, 1],
        "lamp": None,
    }


@pytest.mark.parametrize("lamp", [None, "small"])
def test_what_is_written_is_read_back(lamp):
    one = Shelf("top", 300, 62, "oak", (0.5, 2.0), lamp)
    assert there_and_back(SHELF, one) == one


def test_a_field_that_is_added_is_written_and_read_back_without_a_word():
    wider = make_dataclass(
        "Wider", [("name", str), ("inner", tuple[Shelf, ...]), ("deep", int)], frozen=True
    )
    record = Record(wider, "depth=deep")
    one = wider("case", (Shelf("top", 300, 0, "pine"),), 400)
    assert list(record.write(one, ABOUT)) == ["depth", "name", "inner"]
    assert there_and_back(record, one) == one


def test_a_column_of_no_field_is_a_slip_that_is_told():
    with pytest.raises(TypeError, match="Shelf has no hight"):
        Record(Shelf, "height=hight", other=True)
    with pytest.raises(TypeError, match="Shelf has no cost, price"):
        Record(Shelf, "name", leave="price", points="cost", other=True)


def test_what_is_rare_is_written_where_it_is_not_as_usual():
    record = Record(Shelf, "name deep worth wood", rare="lamp span", other=True)
    usual, odd = (Shelf("top", 300, 62, "oak", span) for span in ((0, 1), (0, 2)))
    assert list(record.write(usual, ABOUT)) == ["name", "deep", "worth", "wood"]
    assert list(record.write(odd, ABOUT)) == ["name", "deep", "worth", "wood", "span"]
    assert [there_and_back(record, one) for one in (usual, odd)] == [usual, odd]


def test_an_older_file_may_lack_what_has_a_default():
    data = SHELF.write(Shelf("top", 300, 62, "oak", (2, 3)), ABOUT)
    del data["span"]
    assert SHELF.read(data, ABOUT).span == (0, 1)
    del data["wood"]
    with pytest.raises(KeyError):
        SHELF.read(data, ABOUT)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("depth", "300"),
        ("depth", True),
        ("depth", 300.5),
        ("depth", math.inf),
        ("depth", math.nan),
        ("depth", 10**400),
        ("depth", None),
        ("name", 5),
        ("name", ["top"]),
        ("worth", "6.2"),
        ("worth", math.nan),
        ("wood", "ash"),
        ("wood", ["oak"]),
        ("span", 5),
        ("span", [1]),
        ("span", [1, 2, 3]),
        ("span", [1, math.inf]),
        ("lamp", 5),
    ],
)
def test_what_does_not_fit_its_field_is_refused(key, value):
    data = SHELF.write(Shelf("top", 300, 62, "oak"), ABOUT) | {key: value}
    with pytest.raises((TypeError, ValueError)):
        SHELF.read(data, ABOUT)


def test_a_whole_number_may_have_a_decimal_point():
    data = SHELF.write(Shelf("top", 300, 62, "oak"), ABOUT) | {"depth": 300.0}
    assert SHELF.read(data, ABOUT).deep == 300


def test_what_json_cannot_say_is_never_written():
    with pytest.raises(TypeError, match="nothing that a file can hold"):
        plain({"a": object()}, ABOUT)
    with pytest.raises(ValueError, match="not JSON compliant"):
        as_text({"a": math.inf})


def test_reasons_and_gaps_are_read_back_as_they_were():
    reason = Reason(
        "near", ("bed",), "so", "1 m", "2 m", 19, 62, Source("a", "b", "memory"), overridden=True
    )
    assert there_and_back(Record.of(Reason), reason) == reason
    gap = Gap((0, 1.5), (600, 1.5), 600, ("bed", "desk"))
    assert there_and_back(GAP, gap) == gap


@pytest.mark.parametrize(
    "spare",
    [
        Spare(("wall D", "wall B"), ("bed", 600, "desk, old"), ("bed",), "across", 40, exact=True),
        Spare(("door", "bed"), (600,), (), "way", 20, exact=False),
    ],
)
def test_a_line_that_is_read_back_says_the_same(spare):
    back = there_and_back(SPARE, spare)
    assert spare_words(back, "cm") == spare_words(spare, "cm")
    assert (back.between, back.pieces, back.mm, back.exact) == (
        spare.between, spare.pieces, spare.mm, spare.exact
    )  # fmt: skip


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_the_room_that_is_read_back_has_the_same_record(path):
    case = read(path)
    record = plain(case.room, About(case))
    back = read_room(json.loads(as_text(record)))
    again = plain(back, About(scenario(back)))
    bodies = [f for f in record["fixtures"] if f["polygon"]]
    for fixture in (*bodies, *again["fixtures"]):  # what is kept free is not drawn from a file
        del fixture["keep_free"], fixture["keep_free_below"]
    assert again == record | {"fixtures": bodies}


def test_doors_as_built_are_read_back_as_they_are():
    opens = ("in", "folding in", "folding out", "sliding on the wall", "passage")
    doors = tuple(Door(f"door {o}", A, 500 * i, 400, o) for i, o in enumerate(opens))
    doors += (Door("double", C, 0, 1200, leaves=2), Door("stable", C, 1500, 800, stable=True))
    shape = room(doors=doors)
    record = plain(shape, About(scenario(shape)))
    assert [("leaves" in d, "stable" in d) for d in record["doors"][-3:]] == [
        (False, False), (True, False), (False, True)
    ]  # fmt: skip
    back = read_room(json.loads(as_text(record)))
    assert [replace(d, main=False) for d in back.doors] == list(doors)


def test_windows_as_built_are_read_back_as_they_are():
    windows = (
        Window("plain", A, 0, 500),
        Window("tilting", A, 600, 500, tilts=True, curtains=200),
        Window("balcony", A, 2000, 1200, 0, french=Door("balcony", A, 2000, 1200, leaves=2)),
    )
    shape = room(doors=(Door("door", C, 0, 800),), windows=windows)
    record = plain(shape, About(scenario(shape)))
    rare = [[key for key in ("french", "tilts", "curtains") if key in w] for w in record["windows"]]
    assert rare == [[], ["tilts", "curtains"], ["french"]]
    assert read_room(json.loads(as_text(record))).windows == windows


def test_a_piece_that_is_read_back_has_what_its_symbol_needs():
    shape, desk = room(), piece("desk", 1200, 600, bottom=100, kind="desk", major=True)
    case = scenario(shape, desk)
    about = About(case, Arrangement((on_wall(desk, shape, A, 300),)))
    data = json.loads(as_text(PLACED.write(desk, about)))
    back = PLACED.read(data, about)
    assert (back.width, back.depth, back.bottom, back.top) == (1200, 600, 100, 900)
    assert back.major
    assert "desk" in back.roles
    placed = about.arrangement.of("desk")
    assert read_placement(data, about) == placed == at("desk", "down", 300, 2400, wall=A)


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    path = tmp_path_factory.mktemp("fields") / "result.json"
    path.write_text(as_text(as_data(suggest(scenario(room(), piece("desk", 1200, 600)), top=1))))
    return path


@pytest.mark.solver
@pytest.mark.parametrize(
    ("where", "value"),
    [
        (("room", "outline", 0, 0), "0"),
        (("room", "outline", 0, 0), math.inf),
        (("room", "walls", 0, "left_end"), [0]),
        (("room", "ceiling"), math.nan),
        (("room", "doors"), None),
        (("unit",), "furlong"),
        (("at_most",), "99"),
        (("arrangements", 0), []),
        (("arrangements", 0, "walkway", "width"), "wide"),
        (("arrangements", 0, "score"), None),
        (("arrangements", 0, "reasons"), {}),
        (("arrangements", 0, "pieces", 0, "width"), "120 cm"),
        (("arrangements", 0, "pieces", 0, "placement", "wall"), "Z"),
        (("arrangements", 0, "pieces", 0, "placement", "x"), 1.5),
        (("arrangements", 0, "pieces", 0, "placement", "facing"), "north"),
        (("arrangements", 0, "spare"), 5),
    ],
)
def test_a_result_with_one_wrong_value_is_no_result(written, tmp_path, where, value):
    data = json.loads(written.read_text())
    at_last = data
    for step in where[:-1]:
        at_last = at_last[step]
    at_last[where[-1]] = value
    bad = tmp_path / "result.json"
    bad.write_text(json.dumps(data))
    assert read_result(written, 1).scenario.pieces[0].name == "desk"
    with pytest.raises(ValueError, match="not what arrange suggest writes"):
        read_result(bad, 1)
