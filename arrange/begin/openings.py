"""Asks for what the walls hold: doors, open passages and windows."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from arrange.begin.answers import (
    Drawn,
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    a_number,
    ask,
    declines,
    handy,
    length_within,
    spoken,
    yes_or_no,
)
from arrange.begin.notes import Notes, mm, plain
from arrange.begin.places import a_name, from_left, long_of, which_wall
from arrange.data.lengths import listed
from arrange.data.scenario import Unit
from arrange.scenario.limits import MOST
from arrange.scenario.openings import (
    CURTAINS,
    DOOR_HEIGHT,
    DOOR_HEIGHTS,
    DOOR_WIDTHS,
    HEAD,
    SILL,
    SLOPING,
    STEP,
    TWO_LEAVES,
    WINDOW_WIDTHS,
)

MOST_FIXTURES = 36
LEAST_BODY = 50  # mm: less is no width of anything built in, and a number alone was metres
LEAST_GLASS = 300  # mm from sill to head
HANGING = 200  # mm of wall that a curtain drawn back covers. Common practice, no source
Row = dict[str, Any]


def doors(notes: Notes) -> Script[None]:
    """Every door and open passage, and by which people come in."""
    many = yield from ask(
        a_number(
            "How many doors does the room have? Open passages count.", 1, MOST["door"], usual=1
        )
    )
    for number in range(1, many + 1):
        yield from placed(notes, "door", lambda i=number: _door(notes, i, many))  # type: ignore[misc]
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


def placed(notes: Notes, key: str, script: Callable[[], Script[Row]]) -> Script[None]:
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
    ("passage", "an open passage, with no door in it"),
    ("sliding on the wall", "it slides along the wall in this room"),
    ("folding in", "it folds into this room"),
    ("folding out", "it folds out of this room"),
)
WAYS = dict.fromkeys(("in", "inside", "inwards", "into the room"), 0)
WAYS |= dict.fromkeys(("in towards me", "towards me", "inward"), 0)
WAYS |= dict.fromkeys(("out", "outside", "outwards", "outward", "out of the room", "away"), 1)
WAYS |= dict.fromkeys(("it slides", "sliding", "slides", "into the wall", "pocket door"), 2)
WAYS |= dict.fromkeys(("passage", "arch", "archway", "no door", "no leaf", "open"), 3)
WAYS |= dict.fromkeys(("opening", "just an opening", "gap"), 3)
WAYS |= dict.fromkeys(("hall", "into the hall", "landing", "corridor", "hallway"), 1)
WAYS |= dict.fromkeys(("along the wall", "slides along the wall", "on a rail"), 4)
WAYS |= dict.fromkeys(("slides on a rail", "barn door"), 4)
WAYS |= dict.fromkeys(("it folds", "folding", "folds", "bifold", "concertina"), 5)
HINGES = (("left", "on the left"), ("right", "on the right"))
SLIDES = (("left", "to the left"), ("right", "to the right"))
LEFT_OR_RIGHT = {"left": 0, "right": 1, "l": 0, "r": 1}


def _which(notes: Notes, what: str, number: int, many: int, such: str) -> Script[tuple[Row, str]]:
    """Which of several openings it is, with its name in the row, and the wall it is in."""
    row: Row = {}
    if many > 1:
        text = f'{what.capitalize()} {number} of {many}: what do you call it? For example "{such}".'
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
    row |= yield from _door_height(notes)
    if opens != "in":
        row["opens"] = opens
    if opens == "passage":
        return row
    if width >= TWO_LEAVES and (
        yield from ask(yes_or_no("Is it a double door, with two leaves?", usual=False))
    ):
        return row | {"leaves": 2}
    if opens == "sliding on the wall":
        row["hinge"] = yield from ask(
            a_choice("To which side does it slide?", SLIDES, usual=0, also=LEFT_OR_RIGHT)
        )
    elif opens != "sliding":
        text = "On which side are its hinges, as you look at it from inside the room?"
        hinge = yield from ask(a_choice(text, HINGES, usual=0, also=LEFT_OR_RIGHT))
        row["hinge"] = hinge
    return row


def _door_height(notes: Notes) -> Script[Row]:
    """How high a door is, asked where the ceiling may leave it less than is usual."""
    ceiling, room = int(notes.tables["room"]["ceiling"]), notes.look().room
    if room is None or not room.slopes:
        return {"height": mm(ceiling)} if ceiling < DOOR_HEIGHT else {}
    text = "How high is the door opening?"
    least, most = DOOR_HEIGHTS[0], max(ceiling, DOOR_HEIGHTS[0])
    usual = min(handy(DOOR_HEIGHT, notes.unit), most)
    return {"height": mm((yield from ask(a_length(text, notes.unit, least, most, usual=usual))))}


def windows(notes: Notes) -> Script[None]:
    """Every window."""
    many = yield from ask(a_number("How many windows are there?", 0, MOST["window"], usual=1))
    for number in range(1, many + 1):
        yield from placed(notes, "window", lambda i=number: _window(notes, i, many))  # type: ignore[misc]


def _window(notes: Notes, number: int, many: int) -> Script[Row]:
    row, wall = yield from _which(notes, "window", number, many, "garden window")
    unit = notes.unit
    most = min(WINDOW_WIDTHS[1], long_of(notes, wall))
    width = yield from ask(
        a_length("How wide is it, with its frame?", unit, min(WINDOW_WIDTHS[0], most), most)
    )
    left = yield from ask(from_left(notes, wall, width, "the window is"))
    row |= {"wall": wall, "from_left": mm(left), "width": mm(width)}
    row |= yield from _sill_and_head(notes)
    if _under_slope(notes, row):
        text = "It is under the slope, so whether you can walk up to open it cannot be judged yet."
        yield Said(text)
        return row
    text = "Do you have to get to it, to open it?"
    if (yield from ask(yes_or_no(text, usual=False))):
        row["must_open"] = True
    text = "Is it a way out in a fire?"
    if (yield from ask(yes_or_no(text, usual=False))):
        row["escape"] = True
    return row | (yield from _more_of_a_window(notes, row))


def _sill_and_head(notes: Notes) -> Script[Row]:
    """How high it begins and ends; windows of one room are mostly alike, so as the last one."""
    unit, ceiling = notes.unit, int(notes.tables["room"]["ceiling"])
    before = [*notes.rows("window")][-1:]
    sill, head = handy(SILL, unit), handy(HEAD, unit)
    if before and before[0]["sill"] > STEP:
        sill, head = before[0]["sill"], before[0]["head"]
    highest = ceiling - LEAST_GLASS
    text = "How high above the floor is its sill? Write 0 if it goes down to the floor."
    sill = yield from ask(a_length(text, unit, 0, highest, usual=min(sill, highest)))
    low = sill + LEAST_GLASS
    text = "And its upper edge, measured from the floor?"
    usual = max(min(head, ceiling), low if low <= head else handy(low, unit))
    head = yield from ask(a_length(text, unit, low, ceiling, usual=usual))
    return {"sill": mm(sill), "head": mm(head)}


def _under_slope(notes: Notes, row: Row) -> bool:
    """Whether the reader of files would refuse that somebody must get to this window."""
    rows = notes.rows("window")
    rows.append(row | {"must_open": True})
    slips = [fault for fault in notes.look().faults if SLOPING in fault.given]
    rows.pop()
    return bool(slips)


def _more_of_a_window(notes: Notes, row: Row) -> Script[Row]:
    """A French window, a window that tilts, and curtains, which all take room."""
    if row["sill"] <= STEP:
        text = "Is it a French window, a door onto a balcony or into the garden?"
        if (yield from ask(yes_or_no(text, usual=True))):
            row.pop("must_open", None)
            return {"french": True} | (yield from _as_a_door(row["width"]))
    free = spoken(handy(HANGING, notes.unit), notes.unit)
    text = (
        'Does it tilt into the room at its top, or does it have long curtains? Write "it tilts", '
        f'or "curtains {free}" for how much wall each one covers when it is drawn back.'
    )
    example = f'Write "it tilts" or "curtains {free}".'
    neither: Row = {}

    def said(row: Row) -> str:
        wide = spoken(row["curtains"], notes.unit) if row.get("curtains") else ""
        told = ["it tilts"] if row.get("tilts") else []
        told += [f"its curtains cover {wide} of wall on each side"] if wide else []
        return f"{listed(told)[:1].upper()}{listed(told)[1:]}." if told else ""

    question = Question(
        text, lambda words: _window_words(words, notes.unit), example, "neither", neither, said
    )
    return (yield from ask(question))


def _as_a_door(width: int) -> Script[Row]:
    """How a French window opens: with two leaves where it is wide, unless it has one."""
    opens = yield from ask(a_choice("Which way does it open?", OPENS[:3], usual=0, also=WAYS_OUT))
    row: Row = {} if opens == "in" else {"opens": opens}
    if opens == "sliding":
        return row
    if width >= TWO_LEAVES:
        text = "Does it have two leaves, one to each side?"
        if (yield from ask(yes_or_no(text, usual=True))):
            return row
        row["leaves"] = 1
    text = "On which side are its hinges, as you look at it from inside the room?"
    row["hinge"] = yield from ask(a_choice(text, HINGES, usual=0, also=LEFT_OR_RIGHT))
    return row


WAYS_OUT = {word: i for word, i in WAYS.items() if i < 3}


def _window_words(words: str, unit: Unit) -> Row:
    word = words.casefold().strip(". ")
    if declines(words):
        return {}
    found: Row = {"tilts": True} if re.search(r"\btilt", word) else {}
    curtain = re.search(r"curtains?\D*(?P<wide>\d.*)", word)
    if curtain:
        found["curtains"] = mm(length_within(curtain["wide"], unit, 0, CURTAINS))
    elif re.search(r"\bcurtains?\b", word):
        found["curtains"] = mm(handy(HANGING, unit))
    if not found:
        raise ValueError('It can be "it tilts", "curtains" with a length, or both.')
    return found
