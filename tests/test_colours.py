"""Colours: the difference on the published pairs, photos from anybody, the ranking, the board."""

import io
import json
import random
import struct
import zlib
from pathlib import Path

import colour
import numpy as np
import pytest
from command_line import names, run
from matplotlib.image import imsave

from arrange.data.arrangement import Arrangement
from arrange.data.colour import difference, from_hex, from_rgb, to_hex
from arrange.data.scheme import Photo, Scheme, Swatch
from arrange.errors import ScenarioError
from arrange.scenario import photo as photos
from arrange.scenario.needs import read_open_data
from arrange.scenario.photo import head_of, pixels
from arrange.scenario.read import parsed, read_text
from arrange.shop.board import board, groups, remarks, short_words, words
from arrange.shop.colours import colour_of, main_colours, ranked

pytestmark = pytest.mark.fast

# G. Sharma, W. Wu, E. Dalal, "The CIEDE2000 color-difference formula", Color Research & Application
# 30(1), 2005, Table 1: all 34 rows.
PUBLISHED = [
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 3.1571, -77.2803), (50.0, 0.0, -82.7485), 2.8615),
    ((50.0, 2.8361, -74.02), (50.0, 0.0, -82.7485), 3.4412),
    ((50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -1.1848, -84.8006), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -0.9009, -85.5211), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0009), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.001), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0012), 7.2195),
    ((50.0, -0.001, 2.49), (50.0, 0.0009, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.001, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.0011, -2.49), 4.7461),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((50.0, 2.5, 0.0), (61.0, -5.0, 29.0), 22.8977),
    ((50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.903),
    ((50.0, 2.5, 0.0), (58.0, 24.0, 15.0), 19.4535),
    ((50.0, 2.5, 0.0), (50.0, 3.1736, 0.5854), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2972, 0.0), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 1.8634, 0.5757), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2592, 0.335), 1.0),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.263),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.248, -4.962), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.694), (23.0331, 14.973, -42.5619), 2.0373),
    ((36.4612, 47.858, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.441), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.135), (0.9033, -0.0636, -0.5514), 0.9082),
]


# ------------------------------------------------------------------ the measure


@pytest.mark.parametrize(("one", "two", "told"), PUBLISHED)
def test_the_difference_is_the_published_one(one, two, told):
    """To the fourth place, either way round."""
    assert difference(one, two) == pytest.approx(told, abs=5e-5)
    assert difference(two, one) == pytest.approx(told, abs=5e-5)


def test_all_pairs_of_the_table_are_there():
    assert len({pair[:2] for pair in PUBLISHED}) == 34


def test_nothing_differs_from_itself():
    """Greys, black and white, and colours that no screen can show."""
    for lab in [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (50.0, 0.0, 0.0), (40.0, 120.0, -120.0)]:
        assert difference(lab, lab) == 0


# Of the primaries of sRGB under D65; from memory, two decimals as they are commonly told.
PRIMARIES = {
    "#ffffff": (100.0, 0.0, 0.0),
    "#000000": (0.0, 0.0, 0.0),
    "#ff0000": (53.24, 80.09, 67.20),
    "#00ff00": (87.73, -86.18, 83.18),
    "#0000ff": (32.30, 79.19, -107.86),
}


@pytest.mark.parametrize("text", PRIMARIES)
def test_the_primaries_are_where_they_are_told_to_be(text):
    assert from_hex(text) == pytest.approx(PRIMARIES[text], abs=0.03)  # by the digits of the matrix


def test_lab_is_that_of_another_way_to_work_it_out():
    """With numpy, written for the pictures (tests/colour.py), in a thousand colours."""
    chosen = random.Random(1)  # noqa: S311  for tests
    for _ in range(1000):
        text = f"#{chosen.randrange(2**24):06x}"
        assert from_hex(text) == pytest.approx(colour.lab(colour.linear(text)), abs=1e-9)
        assert to_hex(from_hex(text)) == text


def test_what_no_screen_shows_is_shown_as_near_as_can_be():
    assert to_hex((100.0, 0.0, 0.0)) == "#ffffff"
    assert to_hex((150.0, 0.0, 0.0)) == "#ffffff"
    assert to_hex((50.0, 128.0, 128.0)).startswith("#ff00")


@pytest.mark.parametrize("text", ["8a5a33", "#8a5a3", "#8a5a3g", "", "red", "#8a5a33ff"])
def test_what_is_no_colour_is_refused(text):
    with pytest.raises(ValueError, match="is not a colour"):
        from_hex(text)


# ------------------------------------------------------------------ photos


@pytest.fixture(autouse=True)
def forgotten():
    """Photos are remembered by their names; those of a test are its own."""
    pixels.cache_clear()


def scene(noise=0.02):
    """Wall above, floor below, something blue before both: 46, 40 and 14 per cent of it."""
    image = np.zeros((900, 1200, 3))
    image[:] = (0.85, 0.82, 0.75)
    image[500:] = (0.45, 0.30, 0.20)
    image[300:600, 200:700] = (0.10, 0.35, 0.45)
    return np.clip(image + np.random.default_rng(3).normal(0, noise, image.shape), 0, 1)


WALL, FLOOR, BLUE = (
    from_rgb(0.85, 0.82, 0.75),
    from_rgb(0.45, 0.30, 0.20),
    from_rgb(0.1, 0.35, 0.45),
)


@pytest.mark.slow
@pytest.mark.parametrize("ending", ["png", "jpg"])
def test_the_main_colours_of_a_photo_are_found_with_their_shares(tmp_path, ending):
    """By hand, of 1200 x 900: the blue 500 x 300; above it 1200 x 500 less 500 x 200; the rest."""
    file = tmp_path / f"room.{ending}"
    imsave(file, scene())
    found = main_colours(Photo(str(file)))
    shares = [500_000, 430_000, 150_000]
    assert [one.share for one in found] == pytest.approx([s / 1_080_000 for s in shares], abs=0.02)
    for one, lab in zip(found, (WALL, FLOOR, BLUE), strict=True):
        assert difference(one.lab, lab) < 1.5


@pytest.mark.slow
def test_one_points_at_a_place(tmp_path):
    """From the left and from the top; at an edge, too."""
    file = str(tmp_path / "room.png")
    imsave(file, scene())
    for at, lab in {
        (0.4, 0.5): BLUE,
        (0.4, 0.1): WALL,
        (1.0, 1.0): FLOOR,
        (0.0, 0.0): WALL,
    }.items():
        assert difference(colour_of(Swatch("it", "piece", photo=Photo(file, at))), lab) < 1.5


@pytest.mark.slow
def test_the_same_photo_has_the_same_colours_and_its_mirror_nearly(tmp_path):
    one, two = str(tmp_path / "one.png"), str(tmp_path / "two.png")
    imsave(one, scene(0.05))
    imsave(two, np.ascontiguousarray(scene(0.05)[:, ::-1]))
    found = main_colours(Photo(one))
    pixels.cache_clear()
    assert main_colours(Photo(one)) == found
    for a, b in zip(found, main_colours(Photo(two)), strict=True):
        assert difference(a.lab, b.lab) < 1


@pytest.mark.slow
def test_what_shines_through_does_not_count(tmp_path):
    """A blue thing cut out: nothing but blue, whatever is written where it is transparent."""
    file = str(tmp_path / "cut.png")
    image = np.concatenate((scene(), np.zeros((900, 1200, 1))), axis=2)
    image[310:590, 210:690, 3] = 1
    imsave(file, image)
    (only,) = main_colours(Photo(file))
    assert difference(only.lab, BLUE) < 1.5


def test_a_photo_of_one_colour_has_one(tmp_path):
    file = str(tmp_path / "one.png")
    imsave(file, np.full((3, 5, 3), 0.2))
    (only,) = main_colours(Photo(file))
    assert only.share == 1
    assert to_hex(only.lab) == "#333333"  # 51


def jpeg(turn=None, order="<"):
    """A small photo, red at its upper left and blue elsewhere, held as ``turn`` says."""
    image = np.zeros((16, 32, 3), dtype=np.uint8)
    image[:, :, 2] = 255
    image[:8, :8] = (255, 0, 0)
    out = io.BytesIO()
    imsave(out, image, format="jpg")
    data = out.getvalue()
    if turn is None:
        return data
    mark = {"<": b"II", ">": b"MM"}[order]
    tiff = mark + struct.pack(f"{order}HIH", 42, 8, 1)
    tiff += struct.pack(f"{order}HHIHH", 0x0112, 3, 1, turn, 0) + bytes(4)
    part = b"Exif\0\0" + tiff
    return data[:2] + b"\xff\xe1" + struct.pack(">H", len(part) + 2) + part + data[2:]


# Where what is stored at the upper left is to be seen (EXIF 2.3, orientation; from memory):
# 1 row 0 at the top, 6 at the right, 3 at the bottom, 8 at the left; 2, 7, 4, 5 their mirrors.
CORNERS = {
    1: ("top", "left"), 2: ("top", "right"), 3: ("bottom", "right"), 4: ("bottom", "left"),
    5: ("top", "left"), 6: ("top", "right"), 7: ("bottom", "right"), 8: ("bottom", "left"),
}  # fmt: skip


@pytest.mark.parametrize("order", ["<", ">"])
@pytest.mark.parametrize("turn", CORNERS)
def test_a_photo_stands_as_the_camera_was_held(tmp_path, turn, order):
    file = tmp_path / "room.jpg"
    file.write_bytes(jpeg(turn, order))
    found = pixels(str(file))
    assert found.shape[:2] == ((16, 32) if turn < 5 else (32, 16))
    up, side = CORNERS[turn]
    y, x = {"top": 2, "bottom": -3}[up], {"left": 2, "right": -3}[side]
    assert found[y, x, 0] > 200
    assert found[-3 if up == "top" else 2, x, 0] < 60
    assert found[y, -3 if side == "left" else 2, 0] < 60


@pytest.mark.parametrize("turn", [0, 9, 60000])
def test_a_turn_that_is_none_is_no_turn(tmp_path, turn):
    file = tmp_path / "room.jpg"
    file.write_bytes(jpeg(turn))
    assert pixels(str(file)).shape[:2] == (16, 32)


@pytest.mark.slow
def test_a_large_photo_is_brought_down(tmp_path):
    """To means of squares: of black and white in turn, grey."""
    file = str(tmp_path / "large.png")
    rows, columns = np.indices((1400, 2800))
    imsave(file, np.repeat(((rows + columns) % 2)[:, :, None], 3, axis=2).astype(float))
    found = pixels(file)
    assert found.shape == (350, 700, 4)
    assert set(np.unique(found[:, :, :3])) == {128}


def png(width, height, kind=2):
    """The head of a PNG that claims to be so large, and almost nothing after it."""
    head = struct.pack(">IIBBBBB", width, height, 8, kind, 0, 0, 0)

    def chunk(name, data):
        return (
            struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        )

    rows = zlib.compress(bytes(100))
    return photos.PNG + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


BROKEN = {
    "huge": (png(60_000, 60_000), "60000 x 60000 pixels"),
    "long": (png(100, 15_000), "100 x 15000 pixels"),
    "cut off": (png(100, 100), "broken, or cut off"),
    "no size": (png(0, 100), "not a PNG or JPEG file"),
    "empty": (b"", "not a PNG or JPEG file"),
    "text": (b"<svg/>", "not a PNG or JPEG file"),
    "a gif": (b"GIF89a" + bytes(40), "not a PNG or JPEG file"),
    "half a JPEG": (jpeg()[:100], "not a PNG or JPEG file"),
    "most of a JPEG": (jpeg()[:-40], "broken, or cut off"),
    "a JPEG without end": (b"\xff\xd8" + b"\xff" * 5000, "not a PNG or JPEG file"),
    "a part of no length": (b"\xff\xd8\xff\xe0\0\0" + bytes(50), "not a PNG or JPEG file"),
    "colours for printing": (jpeg().replace(b"\0\x10\0\x20\x03", b"\0\x10\0\x20\x04"), "CMYK"),
}


@pytest.mark.parametrize("case", BROKEN)
def test_what_cannot_be_read_is_told_in_one_sentence(tmp_path, monkeypatch, case):
    """Before anything is decoded where the head says so."""
    data, message = BROKEN[case]
    file = tmp_path / "room.jpg"
    file.write_bytes(data)
    if "broken" not in message:
        monkeypatch.setattr("matplotlib.image.imread", None)  # would be told as broken
    with pytest.raises(ScenarioError, match=message) as caught:
        pixels(str(file))
    assert len(caught.value.faults) == 1
    assert str(caught.value).count("\n") == 0


def test_files_too_large_or_gone_are_told(tmp_path, monkeypatch):
    file = tmp_path / "room.png"
    with pytest.raises(ScenarioError, match="cannot be read"):
        pixels(str(file))
    monkeypatch.setattr(photos, "LARGEST", 100)
    file.write_bytes(bytes(101))
    with pytest.raises(ScenarioError, match="over 0 MB"):
        pixels(str(file))


def test_no_head_of_random_letters_is_a_surprise():
    """Whatever comes: a head, or none, never another error."""
    for seed in range(3000):
        random_ = random.Random(seed)  # noqa: S311  for tests
        data = bytearray(jpeg(6) if seed % 2 else png(40, 30))
        for _ in range(random_.randrange(1, 12)):
            data[random_.randrange(2, len(data))] = random_.randrange(256)
        head = head_of(bytes(data[: random_.randrange(len(data))]))
        assert head is None or (head.width > 0 and 1 <= head.turn <= 8)


# ------------------------------------------------------------------ the file

FILE = """
title = "Sitting room"
feel = ["calm", "snug", "bright"]
[room]
size = [400, 400]
[[door]]
wall = "C"
from_left = 20
width = 80
[[piece]]
kind = "sofa"
colour = "#195973"
lead = true
stands_now = { wall = "A", from_left = 60 }
[[piece]]
kind = "armchair"
count = 2
colour = { lab = [45, 20, 30] }
stands_now = [{ wall = "D", from_left = 60 }, { wall = "D", from_left = 160 }]
[[piece]]
kind = "plant"
stands_now = { wall = "B", from_left = 0 }
[[textile]]
name = "curtains"
colour = "#d8cfc0"
[[paint]]
name = "chip 1"
colour = "#f3efe6"
[[paint]]
name = "chip 2"
colour = "#2f5d6b"
"""


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('"#195973"', '"blue"', "'blue' given"),
        ('"#195973"', "7", "keys with values are needed"),
        ('"#195973"', "{}", "given; write"),
        ('"#195973"', '{ lab = [1, 2, 3], photo = "a.png" }', "given; write"),
        ('"#195973"', "{ lab = [101, 0, 0] }", "L from 0 to 100"),
        ('"#195973"', "{ lab = [50, 0] }", "L from 0 to 100"),
        ('"#195973"', "{ lab = [50, nan, 0] }", "L from 0 to 100"),
        ('"#195973"', "{ lab = [50, 0, 0], at = [0, 0] }", "'at' is not known"),
        ('"#195973"', '{ photo = "none.png" }', "none.png: not found"),
        ('"#195973"', '{ photo = "/etc/hosts.png" }', "beside the scenario"),
        ('"#195973"', '{ photo = "../a.png" }', "beside the scenario"),
        ('"#195973"', '{ photo = "C:/a.png" }', "beside the scenario"),
        ('"#195973"', '{ photo = "a.gif" }', "beside the scenario"),
        ('"#195973"', '{ photo = "none.png", at = [0.5, 2] }', "two numbers from 0 to 1"),
        ('colour = "#195973"\n', "", "the piece that leads needs one"),
        ("count = 2", "count = 2\nlead = true", "both lead"),
        ('name = "curtains"\n', "", "no name given"),
        ('colour = "#d8cfc0"', "", "no colour given"),
        ('"chip 2"', '"Chip 1"', "is the name of 2 colours"),
        ('"chip 2"', '"sofa"', "is the name of 2 colours"),
        ('colour = "#f3efe6"', 'colour = "#f3efe6"\nprice = 3', "'price' is not known"),
    ],
)
def test_slips_are_told(old, new, message):
    assert old in FILE
    with pytest.raises(ScenarioError, match=message):
        read_text(FILE.replace(old, new, 1))


def test_a_folder_a_pipe_or_a_huge_file_is_no_photo(tmp_path):
    (tmp_path / "a.png").mkdir()
    with (tmp_path / "b.png").open("wb") as file:
        file.truncate(photos.LARGEST + 1)
    for name, message in (("a.png", "not found"), ("b.png", "12 MB; at most 12 MB")):
        text = FILE.replace('"#195973"', f'{{ photo = "{name}" }}')
        with pytest.raises(ScenarioError, match=message):
            read_text(text, str(tmp_path / "room.toml"))


def test_colours_change_nothing_that_an_arrangement_depends_on():
    """The same mark, the same scenario: kept plans stay good."""
    plain = (
        "\n".join(
            line for line in FILE.splitlines() if not line.startswith(("colour", "lead", "name"))
        )
        .replace("[[textile]]", "")
        .replace("[[paint]]", "")
    )
    one, two = read_text(FILE), read_text(plain)
    assert one == two
    assert one.mark == two.mark
    assert [p.alike for p in one.pieces] == [p.alike for p in two.pieces]


# ------------------------------------------------------------------ the ranking


def test_everything_is_ranked_as_by_asking_for_each_pair():
    """Twenty random swatches of each sort: what differs least from the lead comes first."""
    random_ = random.Random(5)  # noqa: S311  for tests

    def some():
        return random_.uniform(0, 100), random_.uniform(-60, 60), random_.uniform(-60, 60)

    swatches = [
        Swatch(f"{of} {i}", of, some()) for of in ("paint", "textile", "piece") for i in range(20)
    ]
    lead = Swatch("lead", "piece", some())
    found = ranked(Scheme((*swatches, lead), "lead"), ["lead", *(f"piece {i}" for i in range(10))])
    assert found.lead.swatch is lead
    assert [s.swatch.of for s in found.ranked] == ["piece"] * 20 + ["textile"] * 20 + ["paint"] * 20
    assert [s.chosen for s in found.ranked[:20]] == [True] * 10 + [False] * 10
    for of, chosen in (("piece", True), ("piece", False), ("textile", True), ("paint", True)):
        own = [s.swatch for s in found.ranked if s.swatch.of == of and s.chosen == chosen]
        assert own == sorted(own, key=lambda s: difference(s.lab, lead.lab))


@pytest.mark.slow
def test_what_leads_by_a_photo_leads_by_all_its_main_colours(tmp_path):
    """A chip of any of them is near; where it points at one, of that alone."""
    file = str(tmp_path / "rug.png")
    imsave(file, scene())
    chips = [
        Swatch("wall", "paint", WALL),
        Swatch("floor", "paint", FLOOR),
        Swatch("blue", "paint", BLUE),
    ]
    whole = Swatch("rug", "piece", photo=Photo(file))
    found = ranked(Scheme((whole, *chips), "rug"), ["rug"])
    assert len(found.main) == 3
    assert all(one.difference < 1.5 for one in found.ranked)
    pointing = Swatch("rug", "piece", photo=Photo(file, (0.4, 0.5)))
    found = ranked(Scheme((pointing, *chips), "rug"), ["rug"])
    assert [one.difference < 1.5 for one in found.ranked] == [True, False, False]


def made(text=FILE):
    scenario = read_text(text)
    return board(scenario, Arrangement(scenario.today), scenario.scheme, "plan 1 of here")


def test_the_board_says_what_leads_and_that_paint_is_decided_last():
    """By its heads and by a sentence; the paint chips nearest first."""
    found = made()
    heads = [head for head, _ in groups(found)]
    assert heads == ["Pieces", "Textiles", "Paint, decided last"]
    told = words(found, Path("plans"), ())
    assert "Paint is decided last: when the pieces are there." in told
    assert "- #195973  sofa: the others follow it" in told
    assert "It should feel calm, snug and bright." in told
    assert told.index("chip 2") < told.index("chip 1")
    value = difference(from_hex("#2f5d6b"), from_hex("#195973"))
    assert f"chip 2: nearly the same as the sofa (difference {value:.1f})" in told
    paint = groups(found)[-1][1]
    assert short_words(found, paint[0]) == f"#2f5d6b, nearly the same: {value:.1f}"


def test_without_a_lead_nothing_is_ranked_and_that_is_said():
    found = made(FILE.replace("lead = true\n", ""))
    assert [s.difference for _, seen in groups(found) for s in seen] == [None] * 5
    assert remarks(found)[0].startswith("No piece leads")
    assert remarks(found)[-1].startswith("Paint is decided last")
    text = FILE.split("[[textile]]", maxsplit=1)[0].replace("feel", "# feel")
    kept = [line for line in text.splitlines() if not line.startswith(("colour", "lead"))]
    bare = made("\n".join(kept))
    assert remarks(bare)[0].startswith("No colours yet")
    assert "No words for how it should feel yet" in words(bare, Path("plans"), ())


def test_in_an_open_file_all_candidates_are_ranked():
    """Those of the choice first; where the lead is not chosen nothing leads."""
    text = FILE.replace("[[piece]]", '[[piece]]\nowned = true\nmeets = "to sit"')
    text = f'[[need]]\nname = "to sit"\n{"".join(text.partition("[room]")[1:])}'
    found = read_open_data(parsed(text, "open"), "open")
    whole = found.whole.scheme
    assert [s.name for s in whole.of("piece")] == ["sofa", "armchair"]
    assert [
        (s.swatch.name, s.chosen) for s in ranked(whole, ["sofa"]).of("piece", chosen=False)
    ] == [("armchair", False)]
    assert ranked(whole, ["armchair"]).lead is None


# ------------------------------------------------------------------ the command


@pytest.mark.solver
def test_the_command_makes_a_page_a_plan(tmp_path, monkeypatch):
    """With pictures, for the plan that is named; what is broken is told, and nothing written."""
    monkeypatch.chdir(tmp_path)
    imsave("sofa.jpg", scene())
    text = FILE.replace(
        'colour = "#195973"', 'picture = "sofa.jpg"\ncolour = { photo = "sofa.jpg" }'
    )
    Path("room.toml").write_text(text, encoding="utf-8")
    done = run("suggest", "room.toml", "--top", "1", "--time", "20", "--out", "plans")
    assert done.exit_code == 0, done.output
    before = set(names(Path("plans")))
    done = run("board", "plans")
    assert done.exit_code == 0, done.output
    assert set(names(Path("plans"))) - before == {"board.png", "board.json"}
    told = json.loads(Path("plans/board.json").read_text(encoding="utf-8"))
    assert (told["lead"], len(told["lead_colours"]), told["feel"]) == (
        "sofa",
        3,
        ["calm", "snug", "bright"],
    )
    assert [s["of"] for s in told["swatches"]] == ["piece", "piece", "textile", "paint", "paint"]
    assert told["remarks"][-1] == "Paint is decided last: when the pieces are there."
    first = Path("plans/board.png").read_bytes()
    assert run("board", "plans").exit_code == 0
    assert Path("plans/board.png").read_bytes() == first
    pixels.cache_clear()
    Path("sofa.jpg").write_bytes(jpeg()[:-40])
    done = run("board", "plans", "--out", "other")
    assert (done.exit_code, "sofa.jpg: broken, or cut off" in done.stderr) == (2, True)
    assert not Path("other").exists()
