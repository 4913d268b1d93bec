"""Awkward rooms of our own invention for the tests of the pictures. Lengths in mm."""

# ruff: noqa: E501  tables of pieces read better one to a line

from matplotlib.text import Text

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece
from arrange.data.result import Gap, Reason, Suggestion, Verdict
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import Scenario
from arrange.data.sources import Source

SOURCE = Source("own", "common practice", "common practice")


def room(corners, **more):
    count = len(corners)
    walls = tuple(
        Wall(f"wall {i + 1}", corners[i], corners[(i + 1) % count], f"wall {i + 1}")
        for i in range(count)
    )
    return Room(tuple(corners), walls, 2450, **more)


def piece(name, kind, width, depth, height=700, **more):
    roles = frozenset(more.pop("roles", ()))
    return Piece(name, kind, more.pop("model", name), width, depth, height, roles=roles, **more)


def clear(sides, least):
    return Clearance("use", sides, least, least + 200, "to use it")


def made(title, shape, placed, unit="cm", gaps=()):
    """A scenario and its arrangement from (piece, placement words) pairs."""
    pieces = tuple(p for p, _ in placed)
    places = tuple(Placement(p.name, **where) for p, where in placed)
    return Scenario(title, shape, pieces, unit=unit), Arrangement(places), tuple(gaps)


def bedroom():
    shape = room(
        [(0, 0), (0, 3400), (4100, 3400), (4100, 0)],
        doors=(Door("door", 3, 200, 800, "in", "left", main=True),),
        windows=(Window("window", 1, 1300, 1500, must_open=True),),
        fixtures=(
            Fixture("radiator", "radiator", ((1400, 3400), (2600, 3400), (2600, 3290), (1400, 3290)),
                    1, 1400, 1200, 110),
            Fixture("socket", "socket", (), 0, 600, 80, 0),
        ),
    )  # fmt: skip
    bed = piece(
        "Double bed", "double bed", 1600, 2050, roles=["sleep"], major=True,
        clearances=(clear(("left", "right"), 500),),
    )  # fmt: skip
    return made(
        "Bedroom", shape,
        [
            (bed, {"facing": "right", "x": 0, "y": 900, "wall": 0}),
            (piece("Bedside table", "bedside table", 450, 400), {"facing": "right", "x": 0, "y": 450}),
            (piece("Wardrobe", "wardrobe", 1500, 600, 2100, major=True),
             {"facing": "left", "x": 3500, "y": 1850, "wall": 2}),
            (piece("Plant", "plant", 250, 250), {"facing": "down", "x": 100, "y": 3100}),
            (piece("Wool rug", "rug", 2000, 1400, 15, flat=True, roles=["rug"]),
             {"facing": "right", "x": 1400, "y": 1000}),
            (piece("Wall shelf", "wall shelf", 900, 220, 250, bottom=1500),
             {"facing": "left", "x": 3880, "y": 850, "wall": 2}),
        ],
        gaps=[Gap((2050, 2200), (3500, 2200), 1450, ("Double bed", "Wardrobe"))],
    )  # fmt: skip


def narrow():
    shape = room([(0, 0), (0, 6000), (1200, 6000), (1200, 0)], doors=(Door("door", 3, 200, 800),))
    return made(
        "Narrow", shape,
        [
            (piece("Desk at the far end", "desk", 1100, 500), {"facing": "down", "x": 50, "y": 5500}),
            *(
                (piece(f"Tiny box {i} with a long name", "basket", 100, 100),
                 {"facing": "left", "x": 1100, "y": 2000 + 160 * i})
                for i in range(5)
            ),
        ],
        "mm",
        [Gap((0, 3300), (1200, 3300), 1200, ("a", "b"))],
    )  # fmt: skip


def l_shape():
    shape = room(
        [(0, 0), (0, 5200), (4200, 5200), (4200, 3000), (6800, 3000), (6800, 0)],
        doors=(
            Door("hall", 5, 400, 900, "in", "right", main=True),
            Door("out", 4, 600, 900, "out"),
        ),
        windows=(Window("big", 0, 1200, 2200),),
    )
    chairs = [
        (piece(f"Dining chair {i + 1}", "dining chair", 450, 500, model="chair"),
         {"facing": "down" if i < 3 else "up", "x": 3700 + 480 * (i % 3), "y": 2020 if i < 3 else 580})
        for i in range(6)
    ]  # fmt: skip
    boxes = [
        (piece(f"Storage cube {i + 1}", "cabinet", 330, 330),
         {"facing": "right", "x": 0, "y": 100 + 340 * i})
        for i in range(13)
    ]  # fmt: skip
    table = (
        piece("Dining table", "dining table", 1600, 900),
        {"facing": "up", "x": 3600, "y": 1100},
    )
    return made("L", shape, [table, *chairs, *boxes], "m")


def slanted():
    shape = room(
        [(0, 0), (0, 3600), (2600, 3600), (4600, 1800), (4600, 0)],
        doors=(Door("door", 4, 1000, 800, "sliding"),),
        windows=(Window("roof", 2, 900, 800),),
    )
    desk = piece("Writing desk", "desk", 1200, 600, clearances=(clear(("front",), 700),))
    return made(
        "Slanted", shape,
        [(desk, {"facing": None, "wall": 2, "offset": 700}),
         (piece("Stool", "stool", 350, 350), {"facing": "up", "x": 0, "y": 0})],
        "in",
    )  # fmt: skip


ROOMS = {"bedroom": bedroom, "narrow": narrow, "l_shape": l_shape, "slanted": slanted}


def reasons(worth):
    """One reason for each (won, possible) in tenths."""
    return tuple(
        Reason(f"rule {i:02}", (), f"Sentence {i} about the room", "", "", won, possible, SOURCE)
        for i, (won, possible) in enumerate(worth)
    )


def suggestion(arrangement, gaps=(), rank=1, proven=True, worth=((80, 80), (10, 60), (0, 40))):
    told = reasons(worth)
    score = sum(r.won for r in told)
    verdict = Verdict((), told, score, gaps)
    return Suggestion(rank, arrangement, verdict, proven, score if proven else score + 35)


def marked(figure, mark):
    """The texts that have ``mark`` at their left on the same line, over the whole figure."""
    texts = [t for t in figure.findobj(Text) if t.get_text().strip()]
    marks = [t for t in texts if t.get_text() == mark]
    found = []
    for one in marks:
        x, y = one.get_position()
        beside = [
            t
            for t in texts
            if t.axes is one.axes and t.get_position()[0] > x and abs(t.get_position()[1] - y) < 0.6
        ]
        found.append(min(beside, key=lambda t: t.get_position()[0] - x).get_text())
    return found
