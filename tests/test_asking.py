"""What somebody asks to be swapped, in words; and the changed file. Lengths in the file in cm."""

import tomllib

import pytest

import arrange
from arrange.data.change import Add, Drop, Exchange, Reprice, Resize, changed
from arrange.data.kinds import kind, kinds
from arrange.errors import OutputError, ScenarioError
from arrange.scenario.editing import NewFile, rewritten
from arrange.whatif.asking import Request, alike, understood

pytestmark = pytest.mark.fast

TEXT = """# Our room.
title = "Room" # a title
unit = "cm"

[room]
size = [500, 420]

[[door]]
wall = "C"
from_left = 20
width = 80

# the table
[[piece]]
kind = "dining table for four" # oak
width = 135 # without its leaf

# its chairs
[[piece]]
name = "chair"
kind = "dining chair"
count = 4
[piece.clearance.front]
least = 0

[[piece]] # both white
kind = "bookcase"
count = 2
owned = true
stands_now = [
  { wall = "A", from_left = 20 }, # the left one
  { wall = "A", from_left = 120 },
]

[[piece]]
name = "bed"
kind = "single bed"
price = 200

[[wish]] # a wish
piece = "bookcase"
away_from = "door"

[[wish]]
piece = "bed"
near = "bookcase 2"
"""


def ask(text=TEXT, **words):
    """The request understood."""
    return understood(Request(**words), arrange.read_text(text, "room.toml"), tomllib.loads(text))


@pytest.mark.parametrize(
    ("words", "changes"),
    [
        ({"sizes": ["bed=100x210"]}, [Resize("bed", 1000, 2100)]),
        ({"sizes": ["Bed = 100 x 210"]}, [Resize("bed", 1000, 2100)]),
        ({"sizes": ["bed=1 m x 6 ft 8 in"]}, [Resize("bed", 1000, 2032)]),
        ({"sizes": ["bed=100.5x205x60"]}, [Resize("bed", 1005, height=600)]),
        ({"prices": ["bed=250.5"]}, [Reprice("bed", 250.5)]),
        (
            {"sizes": ["bed=100x205"], "prices": ["bed=250"]},
            [Resize("bed", 1000), Reprice("bed", 250.0)],
        ),
        ({"sizes": ["bookcase=60x30"]}, [Resize("bookcase 1", 600), Resize("bookcase 2", 600)]),
        ({"sizes": ["bookcase 2=60x30"]}, [Resize("bookcase 2", 600)]),
        ({"without": ["chair 4", "bed"]}, [Drop("chair 4"), Drop("bed")]),
        ({"sizes": ["bed=95x205"]}, []),
    ],
)
def test_the_words_become_changes(words, changes):
    """By hand; a bare number counts in the file's unit."""
    assert list(ask(**words).changes) == changes


def test_another_kind_comes_in_its_usual_size_with_its_own_needs():
    """And keeps the name, which wishes speak of."""
    (change,) = ask(kinds=["bed=double bed"]).changes
    usual = kind("double bed")
    assert isinstance(change, Exchange)
    assert (change.new.name, change.new.kind) == ("bed", "double bed")
    assert (change.new.width, change.new.depth) == (usual.width, usual.depth)
    assert change.new.clearances == usual.clearances
    assert change.new.price is None
    (sized,) = ask(kinds=["bed=double bed"], sizes=["bed=150x200"]).changes
    assert (sized.new.width, sized.new.depth) == (1500, 2000)


def test_a_piece_more_goes_with_what_it_usually_goes_with():
    """A bedside table stands at the bed; a second bookcase kind gets a name of its own."""
    found = ask(add=["bedside table", "desk=120x60", "bookcase"]).changes
    assert [type(c) for c in found] == [Add, Add, Add]
    assert [c.new.name for c in found] == ["bedside table", "desk", "bookcase 3"]
    assert found[0].new.anchor == "bed"
    assert (found[1].new.width, found[1].new.depth) == (1200, 600)


def test_what_was_tied_to_a_piece_left_out_stands_free():
    """As the change says, and as the changed file reads."""
    asked = ask(without=["dining table for four"])
    assert [p.anchor for p in asked.after.pieces if p.kind == "dining chair"] == [None] * 4
    assert list(asked.changes) == [Drop("dining table for four")]


ODD = [
    {"sizes": ["bed=100x210"]},
    {"sizes": ["bookcase 2=120x30"], "prices": ["bookcase 1=20"]},
    {"sizes": ["bookcase=60x30"]},
    {"without": ["bookcase 1"]},
    {"without": ["bookcase 2"]},
    {"without": ["bookcase"]},
    {"without": ["chair 2"]},
    {"without": ["dining table for four"]},
    {"kinds": ["dining table for four=dining table for six"]},
    {"kinds": ["chair 1=dining bench", "bed=double bed"]},
    {"add": ["armchair=80x80", "plant", "rug"], "prices": ["armchair=90"]},
    {"sizes": ["bed=90x200"], "without": ["chair 4", "bookcase 1"], "add": ["desk"]},
    {"prices": ["chair=15"]},
]


@pytest.mark.parametrize("words", ODD, ids=str)
def test_the_changed_file_reads_as_what_was_asked(words):
    """Three ways to the same scenario: the tables, the text, the changes."""
    asked = ask(**words)
    new = rewritten(TEXT, asked.tables, asked.after)
    assert arrange.read_text(new, "room.toml") == asked.after
    before = arrange.read_text(TEXT, "room.toml")
    assert alike(changed(before, asked.changes), asked.after)
    assert new != TEXT


@pytest.mark.parametrize("words", ODD, ids=str)
def test_comments_and_what_was_not_asked_stay(words):
    """Every remark that stands on a line of its own or behind what was not changed."""
    new = rewritten(TEXT, ask(**words).tables, ask(**words).after)
    for remark in ("# Our room.", "# a title", "# the table", "# its chairs"):
        assert remark in new
    lines = new.splitlines()
    assert lines[: lines.index("# the table")] == TEXT.splitlines()[: lines.index("# the table")]


def test_a_changed_value_keeps_the_remark_behind_it():
    """Only the value is another."""
    asked = ask(sizes=["dining table for four=160x80"])
    new = rewritten(TEXT, asked.tables, asked.after)
    assert "width = 160 # without its leaf" in new
    others = [a for a, b in zip(TEXT.splitlines(), new.splitlines(), strict=False) if a != b]
    assert others[0] == "width = 135 # without its leaf"


def test_line_ends_are_kept():
    """A file from another system."""
    text = TEXT.replace("\n", "\r\n")
    asked = ask(sizes=["bed=100x210"])
    new = rewritten(text, asked.tables, asked.after)
    assert new.count("\r\n") == new.count("\n")


INLINE = """
piece = [{ kind = "bookcase" }]
door = [{ wall = "C", from_left = 20, width = 80 }]
room = { size = [300, 300] }
"""


def test_a_file_written_another_way_is_swapped_but_not_rewritten():
    """Refused rather than guessed at."""
    asked = ask(INLINE, sizes=["bookcase=60x30"])
    assert list(asked.changes) == [Resize("bookcase", 600)]
    with pytest.raises(OutputError, match="by hand"):
        rewritten(INLINE, asked.tables, asked.after)


def test_nothing_is_written_over(tmp_path):
    """Not an existing file, not even one that came in between."""
    target = tmp_path / "new.toml"
    asked = ask(sizes=["bed=100x210"])
    ready = NewFile(target, TEXT, asked.tables, asked.after)
    target.write_text("mine")
    with pytest.raises(OutputError):
        ready.write()
    with pytest.raises(OutputError):
        NewFile(target, TEXT, asked.tables, asked.after)
    assert target.read_text() == "mine"
    with pytest.raises(OutputError):
        NewFile(tmp_path / "no" / "new.toml", TEXT, asked.tables, asked.after)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"sizes": ["beed=100x200"]}, ["'beed'", "dining table for four", "'bed'"]),
        ({"sizes": ["xyz=100x200"]}, ["bed", "chair 1", "bookcase 2"]),
        ({"sizes": ["bed"]}, ["PIECE=WIDTHxDEPTH"]),
        ({"sizes": ["bed=100"]}, ["one length given", "180x210"]),
        ({"sizes": ["bed=100xabc"]}, ["'abc'"]),
        ({"sizes": ["bed=10x20"]}, ["width", "usually about"]),
        ({"sizes": ["bed=430x430"]}, ["the whole room is"]),
        ({"kinds": ["bed=sofaa"]}, ["sofa"]),
        ({"prices": ["bed=-3"]}, ["no currency sign"]),
        ({"prices": ["bed=$3"]}, ["no currency sign"]),
        ({"without": ["bedd"], "keep": ["chairr"]}, ["--without bedd", "--keep chairr"]),
        ({"add": ["rocket"]}, ["the kind of piece 'rocket'"]),
        ({"without": ["bed"], "sizes": ["bed=90x200"]}, ["left out and changed"]),
    ],
)
def test_what_is_not_understood_is_told_all_at_once(words, said):
    """What was given, and what is known."""
    with pytest.raises(ScenarioError) as caught:
        ask(**words)
    for part in said:
        assert part in str(caught.value)


OTHER_NAMES = sorted((word, one.name) for one in kinds().values() for word in one.also)


@pytest.mark.parametrize(("word", "name"), OTHER_NAMES, ids=[word for word, _ in OTHER_NAMES])
def test_a_piece_is_asked_for_by_the_name_its_kind_has_in_the_file(word, name):
    """A twin bed, where the table of kinds has a single bed: was a KeyError, our bug."""
    size = "width = 60\ndepth = 40\nheight = 50\n" if kind(name).own_size else ""
    text = TEXT.partition("# the table")[0] + f'[[piece]]\nkind = "{word}"\n{size}'
    scenario = arrange.read_text(text, "room.toml")
    (said,) = (piece.name for piece in scenario.pieces)
    assert said.casefold() == word
    asked = understood(Request(prices=(f"{said}=100",)), scenario, tomllib.loads(text))
    assert asked.changes == (Reprice(said, 100),)
    assert arrange.read_text(rewritten(text, asked.tables, asked.after), "room.toml") == asked.after
