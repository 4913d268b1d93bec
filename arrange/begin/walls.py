"""Asks for the walls: four of them, or any number walked along, and how high the ceiling is."""

from __future__ import annotations

import math
from typing import Any

from arrange.begin.answers import (
    Drawn,
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    a_length_or_none,
    ask,
    declines,
    length_within,
    one_of,
    spoken,
    yes_or_no,
)
from arrange.begin.built_out import bays, breasts, slopes
from arrange.begin.notes import FULL_TURN, Notes, mm, plain
from arrange.data.lengths import measured
from arrange.data.scenario import Unit
from arrange.scenario.outline import MOST_CORNERS, Leg, headings, letter
from arrange.scenario.room import CEILING, CEILINGS, WALL_LENGTHS
from arrange.words.check import survey_words

SHORTEST_SIDE = 1000  # mm of a room with four walls
LEANS = 0.05  # of a diagonal: from there on a corner is some 6 degrees from square
MISSES = 500  # mm from the beginning: so much is another wall, not a slip
EIGHT_FEET = 2438  # mm


def room(notes: Notes) -> Script[None]:
    """The outline, the ceiling, and what changes the outline."""
    four = yes_or_no(
        "Does the room have four walls and four ordinary corners? Leave out a bay or a chimney: "
        "they come later.",
        usual=True,
        example='Answer "no" if it has an L shape, a niche, or a wall that runs at a slant.',
    )
    plain_shape = yield from ask(four)
    yield from (_four_walls(notes) if plain_shape else _walk(notes))
    yield from _told_of_the_tape(notes)
    high = CEILING if notes.unit != "in" else EIGHT_FEET
    ceiling = yield from ask(
        a_length("How high is the ceiling, at its highest?", notes.unit, *CEILINGS, usual=high)
    )
    notes.tables["room"]["ceiling"] = mm(ceiling)
    yield from slopes(notes)
    yield from bays(notes)
    yield from breasts(notes)


FACE = (
    "Stand in the room and face the wall with the main window; without one, face the longest wall. "
    "That is wall A, at the top of the picture."
)


def _four_walls(notes: Notes) -> Script[None]:
    unit, low, high = notes.unit, SHORTEST_SIDE, WALL_LENGTHS[1]
    yield Said(FACE)
    a = yield from ask(a_length("How wide is wall A, the one you are facing?", unit, low, high))
    notes.legs = [Leg("A", a, 90.0)]
    yield Drawn()
    b = yield from ask(a_length("Turn right: that is wall B. How long is it?", unit, low, high))
    notes.legs.append(Leg("B", b, 90.0))
    notes.tables["room"] = {"size": [mm(a), mm(b)]}  # until the others are measured
    yield Drawn()
    c = yield from ask(_opposite("C, behind you as you face wall A", "A", a, unit))
    notes.legs.append(Leg("C", c, 90.0))
    d = yield from ask(_opposite("D, on your left as you face wall A", "B", b, unit))
    notes.legs.append(Leg("D", d, 90.0))
    if (a, b) != (c, d):
        notes.tables["room"] = {"wall": _wall_rows(notes.legs, closing=False)}
    yield from _steadied(notes)
    yield Drawn()
    yield from _diagonals(notes)


def _opposite(where: str, other: str, usual: int, unit: Unit) -> Question[int]:
    return a_length(
        f"How long is wall {where}? Measure it if you can: it shows whether the tape slipped. "
        f"Press Enter if it is as long as wall {other}.",
        unit,
        SHORTEST_SIDE,
        WALL_LENGTHS[1],
        usual=usual,
    )


def _wall_rows(legs: list[Leg], *, closing: bool) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = []
    for leg in legs:
        row: dict[str, Any] = {"name": leg.name, "length": mm(round(leg.length))}
        if leg.turn != 90.0:
            row["turn"] = turn_words(leg.turn)
        rows.append(row)
    return [*rows, {"name": letter(len(legs))}] if closing else rows


def turn_words(turn: float) -> str:
    """A turn in degrees, right positive, as the file writes it.

    >>> turn_words(90.0), turn_words(-90.0), turn_words(45.0), turn_words(-22.5)
    ('right', 'left', 'right 45', 'left 22.5')
    """
    side = "right" if turn > 0 else "left"
    return side if abs(turn) == 90 else f"{side} {abs(turn):g}"


TURNS = (
    ("right", "an ordinary corner: you turn right"),
    ("left", "a corner that stands out into the room: you turn left"),
    ("slant", "a slant"),
)
# What people call such corners.
CORNERS = dict.fromkeys(
    ("r", "right", "90 degrees", "ordinary", "normal", "inner", "inside corner", "square"), 0
)
CORNERS |= dict.fromkeys(("l", "left", "outer", "outside corner", "sticks out", "stands out"), 1)
CORNERS |= dict.fromkeys(("juts out", "comes out", "comes forward", "into the room"), 1)
CORNERS |= dict.fromkeys(("slanted", "slanting", "diagonal", "at an angle", "45 degrees"), 2)


def _walk(notes: Notes) -> Script[None]:
    yield Said(FACE)
    yield Said(
        "Now go round the room clockwise, along every wall, the short ones too. The last wall, "
        "which leads back to where you began, need not be measured."
    )
    while True:
        name = letter(len(notes.legs))
        long = yield from _next_wall(notes, name)
        if long is None:
            notes.tables["room"] = {"wall": _wall_rows(notes.legs, closing=True)}
            yield Drawn()
            break
        turn = yield from _turn(name)
        notes.legs.append(Leg(name, long, turn))
        yield Drawn()
        if _round_once(notes.legs) and (yield from _is_closed(notes)):
            notes.tables["room"] = {"wall": _wall_rows(notes.legs, closing=False)}
            break
    if (yield from _steadied(notes)):
        yield Drawn()
    yield from _walked_checks(notes)


def _next_wall(notes: Notes, name: str) -> Script[int | None]:
    """The length of a wall; None for the last one, which leads back and need not be measured."""
    count, unit = len(notes.legs), notes.unit
    if count < 2:
        facing = "" if count else ", the one you are facing"
        ask_for = f"How long is wall {name}{facing}?"
        return (yield from ask(a_length(ask_for, unit, *WALL_LENGTHS)))
    text = (
        f"How long is wall {name}? Press Enter if it is the last one and leads back to where "
        "you began."
    )
    closing = a_length_or_none(text, unit, *WALL_LENGTHS, nothing="the last one")
    if count < MOST_CORNERS - 1:
        return (yield from ask(closing))

    def only_last(words: str) -> int | None:
        if declines(words):
            return None
        raise ValueError(f"No room has more than {MOST_CORNERS} walls here; press Enter.")

    return (yield from ask(Question(text, only_last, closing.example, closing.usual)))


def _turn(name: str) -> Script[float]:
    corner = yield from ask(
        a_choice(f"And at the right end of wall {name}?", TURNS, usual=0, also=CORNERS)
    )
    if corner != "slant":
        return 90.0 if corner == "right" else -90.0
    angle: float = yield from ask(
        Question(
            "Which way does the next wall turn off, and by how many degrees?",
            _slant,
            'Write it like "right 45": straight on would be 0, an ordinary corner 90.',
            said=lambda turn: f"{turn_words(turn).capitalize()} degrees.",
        )
    )
    return angle


def _slant(words: str) -> float:
    parts = words.casefold().replace("degrees", "").replace("°", "").replace(",", ".").split()
    sign = {"right": 1.0, "r": 1.0, "left": -1.0, "l": -1.0}.get(parts[0]) if parts else None
    try:
        amount = float(parts[-1])
    except (ValueError, IndexError):
        amount = 0.0
    if sign is None or len(parts) != 2 or not 1 <= amount <= 175:
        raise ValueError('Write "right" or "left" and a number from 1 to 175, such as "right 45".')
    return sign * amount


def _round_once(legs: list[Leg]) -> bool:
    return abs(sum(leg.turn for leg in legs) - FULL_TURN) < 1


def _is_closed(notes: Notes) -> Script[bool]:
    """Whether the walk is over. One that misses its beginning by far may go on."""
    _, steps = headings(notes.legs, closing=False)
    gap = max(abs(sum(s[0] for s in steps)), abs(sum(s[1] for s in steps)))
    if gap < MISSES:
        return True
    yield Said(
        f"Wall {notes.legs[-1].name} should end where wall A begins, but is "
        f"{measured(round(gap), notes.unit)} away from it."
    )
    more = yield from ask(yes_or_no("Is there another wall?", usual=True))
    return not more


def _steadied(notes: Notes) -> Script[bool]:
    """Ask for walls anew until they make a room; whether that was needed."""
    changed = False
    while faults := [f for f in notes.look().faults if f.where.startswith("room")]:
        for fault in faults[:2]:
            yield Said(f"These walls do not make a room. {plain(fault)}")
            if fault.hint:
                yield Said(f"{fault.hint[:1].upper()}{fault.hint[1:]}.")
        rows = _walls_as_rows(notes)
        names = [row["name"] for row in rows if "length" in row]
        name = yield from ask(one_of("Which wall shall we correct?", names, what="a wall here"))
        row = next(row for row in rows if row["name"] == name)
        again = yield from ask(a_length(f"How long is wall {name}?", notes.unit, *WALL_LENGTHS))
        row["length"] = mm(again)
        legs = [leg for leg in notes.legs if leg.name == name]
        for leg in legs:
            notes.legs[notes.legs.index(leg)] = Leg(leg.name, again, leg.turn)
        changed = True
    return changed


def _walls_as_rows(notes: Notes) -> list[dict[str, Any]]:
    room = notes.tables["room"]
    if "wall" not in room:
        room.pop("size")
        room["wall"] = _wall_rows(notes.legs, closing=False)
    rows: list[dict[str, Any]] = room["wall"]
    return rows


def _diagonals(notes: Notes) -> Script[None]:
    yield from _checked_by(notes, "A", "C", "the left end of wall A", "the right end of wall B")
    if "check" in notes.tables["room"]:
        yield from _checked_by(notes, "B", "D", "the right end of wall A", "the left end of wall D")


def _checked_by(notes: Notes, start: str, end: str, first: str, last: str) -> Script[None]:
    text = (
        f"Are the corners square? If you can, measure straight across from {first} to {last}. "
        "Press Enter if you cannot."
    )
    if start != "A":
        text = f"And the other way, from {first} to {last}?"
    while True:
        found = yield from ask(
            a_length_or_none(text, notes.unit, *WALL_LENGTHS, nothing="not measured")
        )
        if found is None:
            return
        if not (yield from _meant(notes, found)):
            continue
        if (yield from _noted_check(notes, start, end, found)):
            return


def _meant(notes: Notes, diagonal: int) -> Script[bool]:
    """Whether a diagonal can stand: one that makes the corners far from square is asked about."""
    square = math.hypot(notes.legs[0].length, notes.legs[1].length)
    if abs(diagonal - square) <= LEANS * square:
        return True
    unit = notes.unit
    text = (
        f"With square corners that would be {measured(round(square), unit)}, so "
        f"{spoken(diagonal, unit)} makes the room lean a lot. Is it right all the same?"
    )
    return (yield from ask(yes_or_no(text, usual=False)))


def _walked_checks(notes: Notes) -> Script[None]:
    """Lengths between corners, as many as the person likes."""
    while len(notes.tables["room"].get("check", ())) < MOST_CHECKS:
        walls = [row["name"] for row in notes.tables["room"]["wall"]]
        text = (
            "A length straight across finds slips of the tape. Is there one you measured, from "
            "corner to corner? A corner has the name of the wall that begins there: write "
            f'"A to {walls[len(walls) // 2]} {AS_FAR[notes.unit]}". Press Enter if there is none.'
        )
        found = yield from ask(_across(text, walls, notes.unit))
        if found is None:
            return
        start, end, long = found
        yield from _noted_check(notes, start, end, long)


MOST_CHECKS = 12
AS_FAR: dict[Unit, str] = {"cm": "512", "m": "5.12", "mm": "5120", "in": "16 ft 10"}
Across = tuple[str, str, int]


def _across(text: str, walls: list[str], unit: Unit) -> Question[Across | None]:
    names, such = {name.casefold(): name for name in walls}, f'"A to C {AS_FAR[unit]}"'

    def read(words: str) -> Across | None:
        if declines(words):
            return None
        parts = words.casefold().replace("from ", "").replace("corner ", "").split(maxsplit=3)
        if len(parts) != 4 or parts[1] not in ("to", "-") or {parts[0], parts[2]} - set(names):
            raise ValueError(f"Two corners and a length are needed, such as {such}.")
        if parts[0] == parts[2]:
            raise ValueError("There is nothing to measure from a corner to itself.")
        found = length_within(parts[3], unit, *WALL_LENGTHS)
        return names[parts[0]], names[parts[2]], found

    def said(across: Across | None) -> str:
        return "" if across is None else f"{across[0]} to {across[1]}: {spoken(across[2], unit)}."

    return Question(text, read, f"Write it like {such}.", "none", None, said)


def _told_of_the_tape(notes: Notes) -> Script[None]:
    """What slips there are, that they are spread, and which length to take again."""
    scenario = notes.scenario()
    for sentence in survey_words(scenario) if scenario else ():
        yield Said(sentence)
    asked: set[str] = set()
    while name := _doubted(notes, asked):
        asked.add(name)
        again = yield from ask(
            a_length_or_none(
                f"If you measure wall {name} again, what does the tape say?",
                notes.unit,
                *WALL_LENGTHS,
                nothing="leave it",
            )
        )
        if again is not None:
            row = next(row for row in _walls_as_rows(notes) if row["name"] == name)
            before, row["length"] = row["length"], mm(again)
            if notes.look().faults:
                row["length"] = before
                yield Said(
                    "With that the walls do not make a room at all, so the first length stays."
                )
            yield Drawn()
    yield from _told_apart(notes)


def _told_apart(notes: Notes) -> Script[None]:
    """Ask for what tells corners that are off from a misread length, until it is told or declined.

    Each answer is said before the next question; a scenario without two readings asks nothing.
    """
    while pair := _telling(notes):
        start, end = pair
        text = (
            f"Can you measure straight across, from the left end of wall {start} to the left end "
            f"of wall {end}? That tells whether the room is out of square. Press Enter if you "
            "cannot."
        )
        question = a_length_or_none(text, notes.unit, *WALL_LENGTHS, nothing="not measured")
        long = yield from ask(question)
        if long is None:
            return
        if not (yield from _noted_check(notes, start, end, long)):
            return
        scenario = notes.scenario()
        for sentence in survey_words(scenario) if scenario else ():
            yield Said(sentence)


def _telling(notes: Notes) -> tuple[str, str] | None:
    """The first of the lengths that would tell two readings apart."""
    scenario = notes.scenario()
    readings = scenario.survey.readings if scenario and scenario.survey else None
    return next(iter(readings.measure), None) if readings else None


def _noted_check(notes: Notes, start: str, end: str, long: int) -> Script[bool]:
    """Note a length from corner to corner, unless it goes with nothing; returns whether it does."""
    room = notes.tables["room"]
    checks = room.setdefault("check", [])
    checks.append({"from": start, "to": end, "length": mm(long)})
    faults = notes.look().faults
    if faults:
        checks.pop()
        if not checks:
            room.pop("check")
        yield Said(f"That does not go with the walls. {plain(faults[0])}")
    else:
        yield Drawn()
    return not faults


def _doubted(notes: Notes, asked: set[str]) -> str:
    """A wall whose length the others contradict and that was not asked about; "" if none."""
    scenario = notes.scenario()
    survey = scenario.survey if scenario else None
    doubts = survey.doubts if survey else ()
    if survey and survey.readings:
        doubts = survey.readings.misread
    doubted = [doubt.name.removeprefix("wall ") for doubt in doubts]
    given = {row["name"] for row in notes.tables["room"].get("wall", ())}
    return next((name for name in doubted if name in given - asked), "")
