"""Asks for what the walls hold: doors and open passages, windows, and what is built in."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from arrange.begin.along_walls import a_name, from_left, long_of, which_wall
from arrange.begin.answers import (
    NOTHING,
    Drawn,
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    a_number,
    ask,
    handy,
    length_within,
    spoken,
    yes_or_no,
)
from arrange.begin.notes import Notes, mm, plain
from arrange.data.lengths import listed, nearest
from arrange.data.scenario import Unit
from arrange.scenario.limits import MOST
from arrange.scenario.openings import (
    CLOSET_DOORS,
    CURTAINS,
    DOOR_HEIGHT,
    DOOR_WIDTHS,
    FIXTURES,
    HEAD,
    SILL,
    STEP,
    STEPS,
    TWO_LEAVES,
    WINDOW_WIDTHS,
)

MOST_FIXTURES = 36
LEAST_BODY = 50  # mm: less is no width of anything built in, and a number alone was metres
LEAST_GLASS = 300  # mm from sill to head
Row = dict[str, Any]


def doors(notes: Notes) -> Script[None]:
    """Every door and open passage, and by which people come in."""
    many = yield from ask(
        a_number(
            "How many doors does the room have? Open passages count.", 1, MOST["door"], usual=1
        )
    )
    for number in range(1, many + 1):
        yield from _placed(notes, "door", lambda i=number: _door(notes, i, many))  # type: ignore[misc]
    if many > 1:
        rows = notes.rows("door")
        main = yield from ask(
            a_choice(
                "Which one do people come in by, from the rest of the home?",
                [(row["name"], row["name"]) for row in rows],
                usual=0,
            )
        )
        next(row for row in rows if row["name"] == main)["main"] = True


def _placed(notes: Notes, key: str, script: Callable[[], Script[Row]]) -> Script[None]:
    """Add what a script asks for, again and again until the room takes it."""
    while True:
        row = yield from script()
        rows = notes.rows(key)
        rows.append(row)
        faults = notes.look().faults
        if not faults:
            yield Drawn()
            return
        rows.pop()
        yield Said(f"It cannot be there. {plain(faults[0])} Once more, then.")


OPENS = (
    ("in", "into this room"),
    ("out", "out of this room"),
    ("sliding", "it slides into the wall, or along its other side"),
    ("passage", "an open passage, without a leaf"),
    ("sliding on the wall", "it slides along the wall in this room"),
    ("folding in", "it folds into this room"),
    ("folding out", "it folds out of this room"),
)
WAYS = dict.fromkeys(("in", "inside", "inwards", "into the room"), 0)
WAYS |= dict.fromkeys(("out", "outside", "outwards", "out of the room"), 1)
WAYS |= {"it slides": 2, "sliding": 2, "slides": 2, "passage": 3, "arch": 3, "no door": 3}
WAYS |= {"no leaf": 3, "it folds": 5, "folding": 5}
HINGES = (("left", "on the left"), ("right", "on the right"))


def _which(notes: Notes, what: str, number: int, many: int, such: str) -> Script[tuple[Row, str]]:
    """Which of several openings it is, with its name in the row, and the wall it is in."""
    row: Row = {}
    if many > 1:
        text = f'{what.capitalize()} {number} of {many}: what do you call it, such as "{such}"?'
        named = a_name(notes, text, f'Write a name: "{such}".', f"{what} {number}")
        row["name"] = yield from ask(named)
    this = row.get("name", f"the {what}")
    this = this if this.startswith(("the ", f"{what} ")) else f"the {this}"
    wall = yield from ask(which_wall(notes, f"Which wall is {this} in?"))
    return row, wall


def _door(notes: Notes, number: int, many: int) -> Script[Row]:
    row, wall = yield from _which(notes, "door", number, many, "hall door")
    most = min(DOOR_WIDTHS[1], long_of(notes, wall))
    text = "How wide is its clear opening, from one side of the frame to the other?"
    width = yield from ask(a_length(text, notes.unit, DOOR_WIDTHS[0], most))
    left = yield from ask(from_left(notes, wall, width, "the door is"))
    row |= {"wall": wall, "from_left": mm(left), "width": mm(width)}
    opens = yield from ask(a_choice("Which way does it open?", OPENS, usual=0, also=WAYS))
    ceiling = int(notes.tables["room"]["ceiling"])
    if ceiling < DOOR_HEIGHT:
        row["height"] = mm(ceiling)
    if opens != "in":
        row["opens"] = opens
    if opens == "passage":
        return row
    if width >= TWO_LEAVES and (
        yield from ask(yes_or_no("Is it a double door, with two leaves?", usual=False))
    ):
        return row | {"leaves": 2}
    if opens == "sliding on the wall":
        row["hinge"] = yield from ask(a_choice("To which side does it slide?", HINGES, usual=0))
    elif opens != "sliding":
        text = "On which side are its hinges, as you look at it from inside the room?"
        hinge = yield from ask(a_choice(text, HINGES, usual=0))
        row["hinge"] = hinge
    return row


def windows(notes: Notes) -> Script[None]:
    """Every window."""
    many = yield from ask(a_number("How many windows are there?", 0, MOST["window"], usual=1))
    for number in range(1, many + 1):
        yield from _placed(notes, "window", lambda i=number: _window(notes, i, many))  # type: ignore[misc]


def _window(notes: Notes, number: int, many: int) -> Script[Row]:
    row, wall = yield from _which(notes, "window", number, many, "garden window")
    unit = notes.unit
    most = min(WINDOW_WIDTHS[1], long_of(notes, wall))
    width = yield from ask(
        a_length("How wide is it, with its frame?", unit, min(WINDOW_WIDTHS[0], most), most)
    )
    left = yield from ask(from_left(notes, wall, width, "the window is"))
    row |= {"wall": wall, "from_left": mm(left), "width": mm(width)}
    ceiling = int(notes.tables["room"]["ceiling"])
    text = "How high above the floor is its sill? Write 0 if it goes down to the floor."
    sill = yield from ask(
        a_length(
            text,
            unit,
            0,
            ceiling - LEAST_GLASS,
            usual=min(handy(SILL, unit), ceiling - LEAST_GLASS),
        )
    )
    row["sill"] = mm(sill)
    low = sill + LEAST_GLASS
    text = "And its upper edge, measured from the floor?"
    head = yield from ask(
        a_length(text, unit, low, ceiling, usual=max(min(handy(HEAD, unit), ceiling), low))
    )
    row["head"] = mm(head)
    text = "Must you be able to walk up to it, to open it?"
    if (yield from ask(yes_or_no(text, usual=False))):
        row["must_open"] = True
    text = "Is it a way out in a fire?"
    if (yield from ask(yes_or_no(text, usual=False))):
        row["escape"] = True
    return row | (yield from _more_of_a_window(notes, row))


def _more_of_a_window(notes: Notes, row: Row) -> Script[Row]:
    """A French window, a window that tilts, and curtains, which all take room."""
    if row["sill"] <= STEP:
        text = "Is it a French window, a door onto a balcony or into the garden?"
        if (yield from ask(yes_or_no(text, usual=True))):
            row.pop("must_open", None)
            opens = yield from ask(
                a_choice("Which way does it open?", OPENS[:3], usual=0, also=WAYS_OUT)
            )
            return {"french": True} | ({} if opens == "in" else {"opens": opens})
    free = spoken(handy(200, notes.unit), notes.unit)
    text = (
        'Does it tilt into the room at its top, or does it have long curtains? Write "it tilts", '
        f'or "curtains {free}" for the width of wall over which each hangs when it is drawn back.'
    )
    example = f'Write "it tilts" or "curtains {free}".'
    neither: Row = {}
    question = Question(
        text, lambda words: _window_words(words, notes.unit), example, "neither", neither
    )
    return (yield from ask(question))


WAYS_OUT = {word: i for word, i in WAYS.items() if i < 3}


def _window_words(words: str, unit: Unit) -> Row:
    word = words.casefold().strip(". ")
    if word in (*NOTHING, "neither"):
        return {}
    found: Row = {"tilts": True} if re.search(r"\btilt", word) else {}
    curtain = re.search(r"curtains?\D*(?P<wide>\d.*)", word)
    if curtain:
        found["curtains"] = mm(length_within(curtain["wide"], unit, 0, CURTAINS))
    if not found:
        raise ValueError('It can be "it tilts", "curtains" with a length, or both.')
    return found


# What people call fixtures, to the kinds of the file.
CALLED = {
    "radiator": "radiator",
    "heating": "radiator",
    "electric heater": "heater",
    "wood stove": "stove",
    "woodburner": "stove",
    "open fire": "fireplace",
    "hearth": "fireplace",
    "fire": "fireplace",
    "cupboard": "built-in cupboard",
    "built-in wardrobe": "built-in cupboard",
    "fitted cupboard": "built-in cupboard",
    "fitted wardrobe": "built-in cupboard",
    "pillar": "column",
    "post": "column",
    "pipe": "boxed pipe",
    "pipes": "boxed pipe",
    "outlet": "socket",
    "power point": "socket",
    "plug": "socket",
    "switch": "light switch",
    "light": "light point",
    "lamp": "light point",
    "ceiling light": "light point",
    "wall light": "light point",
} | {kind: kind for kind in FIXTURES}
POINTS = ("socket", "light switch", "light point")  # no body: where they are is enough
FREE = ("column", "stove", "boxed pipe")  # may stand off the walls
POINT = 10  # mm of a light on the ceiling


def fixtures(notes: Notes) -> Script[None]:
    """What is built in, one at a time."""
    text = (
        "What is built in? Name one at a time: a radiator, heater, stove, fireplace, built-in "
        "cupboard, closet, stairs, a hatch in the floor, column, boxed pipe, socket, light switch "
        "or light."
    )
    for _ in range(MOST_FIXTURES):
        kind = yield from ask(_which_kind(text))
        if kind is None:
            return
        yield from _placed(notes, "fixture", lambda k=kind: _fixture(notes, k))  # type: ignore[misc]
        text = "What else is built in?"


def _which_kind(text: str) -> Question[str | None]:
    def read(words: str) -> str | None:
        word = words.casefold().strip(". ")
        if word in NOTHING:
            return None
        if word[:1].isdigit() or word.startswith(("two ", "three ")):
            raise ValueError("One at a time, please: the first of them to begin with.")
        for article in ("a ", "an ", "the ", "another ", "one "):
            word = word.removeprefix(article)
        for said in (word, word.removesuffix("s"), _longest(word)):
            if said in CALLED:
                return CALLED[said]
        like = nearest(word, list(CALLED))
        hint = f'; did you mean "{like}"?' if like else "."
        raise ValueError(f'"{words}" is not known{hint} It can be {listed(list(FIXTURES), "or")}.')

    def said(kind: str | None) -> str:
        return "" if kind is None else f"{kind.capitalize()}."

    example = 'Write "radiator", for example, and press Enter alone when there is no more.'
    return Question(text, read, example, "no more", None, said)


def _longest(words: str) -> str:
    """The longest of the known words in a sentence: "a radiator under the window"."""
    inside = [word for word in CALLED if re.search(rf"\b{re.escape(word)}s?\b", words)]
    return max(inside, key=len, default="")


def _fixture(notes: Notes, kind: str) -> Script[Row]:
    row: Row = {"kind": kind}
    usual = FIXTURES[kind]
    if kind == "light point":
        text = "Is the light on the ceiling, or on a wall?"
        if (yield from ask(a_choice(text, (("c", "on the ceiling"), ("w", "on a wall"))))) == "c":
            return (yield from _ceiling_light(notes, row))
    if kind == "hatch":
        return (yield from _free_standing(notes, row))
    if kind in FREE:
        text = "Does it stand at a wall?"
        if not (yield from ask(yes_or_no(text, usual=True))):
            return (yield from _free_standing(notes, row))
    verb = "are" if kind == "stairs" else "is"
    wall = yield from ask(which_wall(notes, f"Which wall {verb} the {kind} on?"))
    if kind in POINTS:
        most = long_of(notes, wall)
        width = min(usual.width, most)
        left = yield from ask(from_left(notes, wall, width, f"a {kind} is"))
        return row | {"wall": wall, "from_left": mm(left), "width": mm(width)}
    width, depth = yield from _size(notes, kind, long_of(notes, wall))
    left = yield from ask(from_left(notes, wall, width, "it is"))
    row |= {"wall": wall, "from_left": mm(left), "width": mm(width), "depth": mm(depth)}
    if kind == "closet":
        text = "What doors does it have?"
        row["doors"] = yield from ask(a_choice(text, CLOSET, usual=0))
    if kind == "stairs":
        text = "Where do the steps begin, as you face that wall?"
        row["steps"] = yield from ask(a_choice(text, STEPS_BEGIN, usual=0))
        text = "Do the stairs have a railing or a wall at their other sides?"
        if not (yield from ask(yes_or_no(text, usual=True))):
            row["guarded"] = False
    return row | (yield from _height(notes, kind))


CLOSET = tuple((doors, f"{doors} doors") for doors in CLOSET_DOORS)
STEPS_BEGIN = tuple((side, f"at the {side}") for side in STEPS)


def _size(notes: Notes, kind: str, most: int) -> Script[tuple[int, int]]:
    usual, unit = FIXTURES[kind], notes.unit
    width = yield from ask(
        a_length(
            "How wide is it?", unit, LEAST_BODY, most, usual=min(handy(usual.width, unit), most)
        )
    )
    text = "How far does it stand out from the wall?"
    depth = yield from ask(a_length(text, unit, 10, 5000, usual=handy(usual.depth, unit)))
    return width, depth


def _height(notes: Notes, kind: str) -> Script[Row]:
    """How high a radiator or stove is: a low piece may stand over or before it."""
    usual, ceiling = FIXTURES[kind], int(notes.tables["room"]["ceiling"])
    if not usual.top:
        return {}
    text = "How high above the floor is its top?"
    top = yield from ask(
        a_length(
            text,
            notes.unit,
            usual.bottom + 50,
            ceiling,
            usual=min(handy(usual.top, notes.unit), ceiling),
        )
    )
    return {"height": mm(top - usual.bottom)}


def _corner(notes: Notes, what: str) -> Script[list[int]]:
    """A place in the room, from its left side and its bottom on the picture, in mm."""
    room = notes.look().room
    low_x, low_y, high_x, high_y = room.bounds if room else (0, 0, 0, 0)
    unit = notes.unit
    x = yield from ask(
        a_length(f"How far is {what} from the left side of the picture?", unit, 0, high_x - low_x)
    )
    y = yield from ask(a_length("And from the bottom of the picture?", unit, 0, high_y - low_y))
    return [mm(low_x + x), mm(low_y + y)]


def _ceiling_light(notes: Notes, row: Row) -> Script[Row]:
    room = notes.look().room
    assert room is not None  # noqa: S101  walls come before what hangs between them
    low_x, low_y, high_x, high_y = room.bounds
    text = "Does it hang in the middle of the room?"
    at: list[int] = [mm((low_x + high_x) // 20 * 10), mm((low_y + high_y) // 20 * 10)]
    if not (yield from ask(yes_or_no(text, usual=True))):
        at = yield from _corner(notes, "it")
    ceiling = int(notes.tables["room"]["ceiling"])
    return row | {
        "at": at,
        "width": mm(POINT),
        "depth": mm(0),
        "bottom": mm(ceiling - 200),
        "height": mm(200),
    }


def _free_standing(notes: Notes, row: Row) -> Script[Row]:
    at = yield from _corner(notes, "its left edge")
    usual, unit = FIXTURES[row["kind"]], notes.unit
    text = "How wide is it, from left to right on the picture?"
    width = yield from ask(a_length(text, unit, 10, 5000, usual=handy(usual.width, unit)))
    text = "And from top to bottom on the picture?"
    depth = yield from ask(a_length(text, unit, 10, 5000, usual=handy(usual.depth, unit)))
    return row | {"at": at, "width": mm(width), "depth": mm(depth)}
