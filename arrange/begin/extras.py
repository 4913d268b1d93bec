"""Asks what else there is to say of doors, windows and what is built in, a sentence each.

Few rooms need it, so it is one question for all of them together.
"""

from __future__ import annotations

import re
from typing import Any

from arrange.begin.answers import (
    Drawn,
    Question,
    Said,
    Script,
    ask,
    declines,
    handy,
    length_within,
    spoken,
)
from arrange.begin.notes import Notes, mm, plain
from arrange.begin.places import SHORT, Fixed, fixed, taken_names
from arrange.begin.spelt import in_digits
from arrange.data.lengths import listed, the
from arrange.data.room import Door, Fixture
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.faults import BREAST
from arrange.scenario.openings import DOOR_HEIGHTS
from arrange.scenario.table import LONGEST_TEXT

Row = dict[str, Any]
MOST = 40  # sentences
FAR = r"(?P<far>\d[\d.,/ '\"]*(?: ?[a-z]{1,11})?(?: \d[\d/]*)?(?: ?(?:in|cm|inches))?)"
HIGH = re.compile(rf"{FAR} (?:high|tall)\b")
FREE = re.compile(rf"{FAR} (?:of )?(?:floor )?(?:free|clear|empty)\b")
ABOVE = re.compile(rf"{FAR} (?:above|over|off|from|up from) the (?:floor|ground)\b")
OFF = re.compile(rf"{FAR} (?:off|away from|from|out from) (?:the|its) wall\b")
LEAVES = re.compile(r"\b(?P<many>[1-9]) (?:\w+ )?(?:doors|door|leaves|leaf|panels)\b")
NAMED = re.compile(r"\b(?:called|named|call it) [\"']?(?P<name>[^\"']+)", re.IGNORECASE)
HALVES = re.compile(r"\bstable\b|\btwo halves\b|\b2 halves\b|\bhalf door\b")
SEAT = re.compile(r"\b(?:bench|stool|seat|pouf|footstool)\b.*\b(?:stand|in front|before)\b")


def extras(notes: Notes) -> Script[None]:
    """What was not asked, until there is nothing more."""
    text = (
        "Is there anything else about the doors, the windows or what is built in? For instance "
        f"{_examples(notes)}."
    )
    for _ in range(MOST):
        found = yield from ask(_extra(text, notes))
        if found is None:
            return
        name, more = found
        row = _row_of(notes, name)
        before = dict(row)
        row |= more
        if faults := notes.look().faults:
            row.clear()
            row |= before
            yield Said(f"That cannot be right. {plain(faults[0])}")
        else:
            yield Drawn()
        text = "Anything else about one of them?"


def _examples(notes: Notes) -> str:
    """Two sentences about what there is."""
    room, unit = notes.look().room, notes.unit
    door = room.doors[0] if room else None
    free, high = spoken(handy(600, unit), unit), spoken(handy(1900, unit), unit)
    such = [f'"{the(door.name)} is {high} high"'] if door else []
    solid = [one for one in (room.fixtures if room else ()) if one.obstructs]
    such += [f'"keep {free} free in front of {the(solid[0].name)}"'] if solid else []
    if any(one.kind == "radiator" for one in solid):
        such.append('"a bench may stand in front of the radiator"')
    return listed(such or ['"the door is a stable door"'], "or")


def _rows(notes: Notes) -> list[tuple[str, Row]]:
    """The tables of all that is in the walls, by its name."""
    room = notes.look().room
    if room is None:
        return []
    built = [row for row in notes.tables.get("fixture", ()) if row["kind"] != BREAST]
    named = [(d.name, row) for d, row in zip(room.doors, notes.rows("door"), strict=True)]
    named += [(w.name, row) for w, row in zip(room.windows, notes.rows("window"), strict=True)]
    return named + [(f.name, row) for f, row in zip(room.fixtures, built, strict=True)]


def _row_of(notes: Notes, name: str) -> Row:
    return next(row for one, row in _rows(notes) if one == name)


def _extra(text: str, notes: Notes) -> Question[tuple[str, Row] | None]:
    known, unit, taken = fixed(notes), notes.unit, {n.casefold() for n in taken_names(notes)}

    def read(words: str) -> tuple[str, Row] | None:
        if declines(words):
            return None
        sentence = in_digits(words.casefold().strip(". "))
        inside = [said for said in known if re.search(rf"\b{re.escape(said)}\b", sentence)]
        if not inside:
            names = dict.fromkeys(one.name for one in known.values())
            raise ValueError(f"Which one is that about? It can be {listed(list(names), 'or')}.")
        one = known[max(inside, key=len)]
        return one.name, _said_of(one, words, unit, taken)

    def said(found: tuple[str, Row] | None) -> str:
        return "" if found is None else f"{the(found[0], first=True)}: {_words(found[1], unit)}."

    example = (
        f"Write a sentence that names one of them: {_examples(notes)}. Just press Enter "
        "for nothing."
    )
    return Question(text, read, example, "nothing", None, said)


def _said_of(one: Fixed, words: str, unit: Unit, taken: set[str]) -> Row:
    """What a sentence says of one of them, as the file has it; ValueError if nothing."""
    sentence = in_digits(words.casefold())

    def length(pattern: re.Pattern[str], low: int, high: int) -> int | None:
        found = pattern.search(sentence)
        return None if found is None else length_within(found["far"], unit, low, high)

    row: Row = {}
    if isinstance(one, Door):
        if high := length(HIGH, *DOOR_HEIGHTS):
            row["height"] = mm(high)
        if HALVES.search(sentence):
            row["stable"] = True
    if isinstance(one, Fixture):
        row |= _of_fixture(one, sentence, unit)
        named = NAMED.search(words)
        name = named["name"].strip(" .") if named else ""
        if name.casefold() in taken:
            raise ValueError(f'There is a "{name}" already; it needs another name.')
        if SHORT < len(name) <= LONGEST_TEXT and can_be_seen(name):
            row["name"] = name
    if not row:
        raise ValueError(_possible(one, unit))
    return row


def _of_fixture(one: Fixture, sentence: str, unit: Unit) -> Row:
    row: Row = {}
    bottom = one.bottom
    for pattern, key, most in ((FREE, "keep_free", 3000), (ABOVE, "bottom", 5000)):
        if found := pattern.search(sentence):
            row[key] = mm(length_within(found["far"], unit, 0, most))
            bottom = row.get("bottom", bottom)
    if found := HIGH.search(sentence):
        row["height"] = mm(length_within(found["far"], unit, bottom + 10, 8000) - bottom)
    if (found := OFF.search(sentence)) and one.wall is not None:
        row["off_wall"] = mm(length_within(found["far"], unit, 0, 3000))
    if one.kind == "closet" and (found := LEAVES.search(sentence)):
        row["leaves"] = int(found["many"])
    if one.kind == "radiator" and SEAT.search(sentence):
        row["seat_before"] = True
    return row


def _possible(one: Fixed, unit: Unit) -> str:
    """What can be said of this one."""
    far = spoken(handy(600, unit), unit)
    if isinstance(one, Door):
        return 'Of a door, its height can be given here, or that it is a "stable door".'
    if isinstance(one, Fixture):
        return (
            f'It can be "{far} free in front", "{far} high", "{far} above the floor", "{far} off '
            'the wall" or "called" and a name.'
        )
    return "There is nothing more to say about a window here; go back to change what you said."


def _words(row: Row, unit: Unit) -> str:
    """What was understood, in a few words."""
    told = []
    for key, words in (
        ("height", "{} high"),
        ("keep_free", "{} free in front"),
        ("bottom", "begins {} above the floor"),
        ("off_wall", "{} off the wall"),
    ):
        if key in row:
            told.append(words.format(spoken(row[key], unit)))
    if row.get("stable"):
        told.append("two halves, one above the other")
    if row.get("seat_before"):
        told.append("a bench or stool may stand in front of it")
    if "leaves" in row:
        told.append(f"{row['leaves']} leaves" if row["leaves"] > 1 else "one leaf")
    if "name" in row:
        told.append(f'called "{row["name"]}"')
    return listed(told)
