"""Asks for what is built in: radiators, cupboards, stairs, sockets, lights, fans and beams."""

from __future__ import annotations

import re
from typing import Any

from arrange.begin.answers import (
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    ask,
    declines,
    handy,
    length_within,
    spoken,
    yes_or_no,
)
from arrange.begin.notes import Notes, mm
from arrange.begin.openings import placed
from arrange.begin.places import called, from_left, long_of, which_wall
from arrange.begin.spelt import in_digits
from arrange.data.lengths import listed, nearest
from arrange.data.room import BOXED, FAN, PENDANT
from arrange.data.scenario import Unit
from arrange.scenario.openings import (
    CLOSET_DOORS,
    DOOR_WIDTHS,
    FIXTURES,
    LOW_ENDS,
    STEPS,
    UNDERSIDES,
)
from arrange.scenario.overhead import DROPS

MOST_FIXTURES = 36
LOWEST = UNDERSIDES[0]
BEAM = "beam"  # no fixture: it is a part of the ceiling
LEAST_BODY = 50  # mm: less is no width of anything built in, and a number alone was metres
Row = dict[str, Any]

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
    "boxed-in corner": "boxed pipe",
    "boxing": "boxed pipe",
    "shaft": "boxed pipe",
    "staircase": "stairs",
    "trapdoor": "hatch",
    "woodburning stove": "stove",
    "sockets": "socket",
    "outlet": "socket",
    "power point": "socket",
    "plug": "socket",
    "switch": "light switch",
    "light": "light point",
    "lamp": "light point",
    "ceiling light": "light point",
    "wall light": "light point",
    "pendant": PENDANT,
    "hanging lamp": PENDANT,
    "hanging light": PENDANT,
    "chandelier": PENDANT,
    "fan": FAN,
    "stair box": BOXED,
    "box over the stairs": BOXED,
    "rafter": BEAM,
    "joist": BEAM,
    "duct": BEAM,
    "lower ceiling": BEAM,
    BEAM: BEAM,
} | {kind: kind for kind in FIXTURES}
POINTS = ("socket", "light switch", "light point")  # no body: where they are is enough
FREE = ("column", "stove", "boxed pipe")  # may stand off the walls
POINT = 10  # mm of a light on the ceiling


def fixtures(notes: Notes) -> Script[None]:
    """What is built in, one at a time."""
    text = (
        "What is built in? Name one at a time: a radiator, heater, stove, fireplace, built-in "
        "cupboard, closet, stairs, a hatch in the floor, column, boxed pipe, socket, light switch, "
        "light, pendant light, ceiling fan or a beam."
    )
    for _ in range(MOST_FIXTURES):
        found = yield from ask(_which_kind(text))
        if found is None:
            return
        yield from _one(notes, *found)
        text = "What else is built in?"


def _one(notes: Notes, kind: str, words: str) -> Script[None]:
    """Where it is counts as told the first time only: what cannot be there is asked for."""
    if kind == BEAM:
        yield from placed(notes, "room.beam", lambda: _beam(notes))
        return
    told = [words]
    yield from placed(notes, "fixture", lambda: _fixture(notes, kind, told.pop() if told else ""))


Found = tuple[str, str]  # the kind, and the words in which it was said


def _which_kind(text: str) -> Question[Found | None]:
    def read(words: str) -> Found | None:
        word = words.casefold().strip(". ")
        if declines(word):
            return None
        if word[:1].isdigit() or word.startswith(("two ", "three ")):
            raise ValueError("One at a time, please: start with the first of them.")
        for article in ("a ", "an ", "the ", "another ", "one "):
            word = word.removeprefix(article)
        for said in (word, word.removesuffix("s"), _longest(word)):
            if said in CALLED:
                return CALLED[said], word
        like = nearest(word, list(CALLED))
        hint = f'; did you mean "{like}"?' if like else "."
        raise ValueError(
            f'"{words}" is not known{hint} It can be {listed([*FIXTURES, BEAM], "or")}.'
        )

    def said(found: Found | None) -> str:
        return "" if found is None else f"{found[0].capitalize()}."

    example = 'Write "radiator", for example, or just press Enter when there is nothing more.'
    return Question(text, read, example, "no more", None, said)


def _longest(words: str) -> str:
    """The longest of the known words in a sentence: "a radiator under the window"."""
    inside = [word for word in CALLED if re.search(rf"\b{re.escape(word)}s?\b", words)]
    return max(inside, key=len, default="")


# Where it is, told together with what it is: "a radiator under the window".
TOLD = re.compile(
    r"\b(?:under(?:neath)?|below|beneath|above|over|next to|beside|by|opposite|across from|in|on"
    r"|at) (?!corner|the corner).+"
)
CENTRED = re.compile(r"(?:under(?:neath)?|below|beneath|above|over|in the middle)\b")


def _told(question: Question[Any], words: str) -> Any:  # noqa: ANN401  whatever it asks for
    """The answer that was given before the question was asked; None if it was not."""
    try:
        return question.read(words) if words else None
    except ValueError:
        return None


def _fixture(notes: Notes, kind: str, words: str) -> Script[Row]:
    if kind == "light point":
        text = "Is the light on the ceiling, or on a wall?"
        if (yield from ask(a_choice(text, (("c", "on the ceiling"), ("w", "on a wall"))))) == "c":
            return (yield from _ceiling_light(notes, {"kind": kind}))
    if kind in (PENDANT, FAN):
        return (yield from _hanging(notes, {"kind": kind}))
    if kind == "hatch":
        return (yield from _free_standing(notes, {"kind": kind}))
    # "A box over the stairs" says what it is, and not where.
    found = TOLD.search(words) if kind != BOXED else None
    place = found[0] if found else ""
    verb = "are" if "stairs" in kind else "is"
    which = which_wall(notes, f"Which wall {verb} the {kind} on?")
    wall: str | None = _told(which, place)
    if wall is not None:
        yield Said(f"So it is on {called(wall)}.")
    elif kind in FREE and not (
        yield from ask(yes_or_no("Does it stand against a wall?", usual=True))
    ):
        return (yield from _free_standing(notes, {"kind": kind}))
    if wall is None:
        wall = yield from ask(which)
    return (yield from _at_wall(notes, kind, wall, place))


def _at_wall(notes: Notes, kind: str, wall: str, place: str) -> Script[Row]:
    """Where on its wall, how large, and what only this kind has."""
    long, usual = long_of(notes, wall), FIXTURES[kind]
    point = kind in POINTS
    width, depth = min(handy(usual.width, notes.unit), long), 0
    if not point:
        width, depth = yield from _size(notes, kind, long)
    where = from_left(notes, wall, width, f"a {kind} is" if point else "it is")
    left: int | None = _told(where, place) if CENTRED.match(place) else None
    if left is None:
        left = yield from ask(where)
    else:
        yield Said(f"Its left edge is {spoken(left, notes.unit)} from the left end of the wall.")
    row: Row = {"kind": kind, "wall": wall, "from_left": mm(left), "width": mm(width)}
    if point:
        return row
    built = yield from _of_its_kind(notes, kind)
    height = yield from _height(notes, kind, int(built.get("low_height", 0)))
    return row | {"depth": mm(depth)} | built | height


def _of_its_kind(notes: Notes, kind: str) -> Script[Row]:
    """The doors of a closet; a top that slopes; of stairs the steps, the railing, what is below."""
    row: Row = {}
    if kind == BOXED:
        row |= yield from _low_end(notes)
    if kind == "closet":
        text = "What doors does it have?"
        row["doors"] = yield from ask(a_choice(text, CLOSET, usual=0))
    if kind == "stairs":
        text = "Where do the steps begin, as you face that wall?"
        row["steps"] = yield from ask(a_choice(text, STEPS_BEGIN, usual=0))
        text = "Do the stairs have a railing or a wall on their other sides?"
        if not (yield from ask(yes_or_no(text, usual=True))):
            row["guarded"] = False
        text = "Is the space below them open, so that something could stand there?"
        if (yield from ask(yes_or_no(text, usual=False))):
            text = "How high is their underside at the upper end?"
            most = int(notes.tables["room"]["ceiling"])
            row["underside"] = mm((yield from ask(a_length(text, notes.unit, LOWEST, most))))
    return row


def _low_end(notes: Notes) -> Script[Row]:
    """Where the box over the stairs is lower, and how high it is there."""
    text = "Is its top level, or lower at one end?"
    end = yield from ask(a_choice(text, LOWER, usual=0, also=LEVEL))
    if end is None:
        return {}
    most = int(notes.tables["room"]["ceiling"]) - LEAST_RISE
    text = "How high above the floor is its top at that end?"
    low = yield from ask(a_length(text, notes.unit, LEAST_BODY, min(most, UNDERSIDES[1])))
    return {"low_height": mm(low), "low_end": end}


LEAST_RISE = 50  # mm: with less a top is level
ENDS = {"front": "at the front, towards the room", "back": "at the back, against the wall"}
LOWER: tuple[tuple[str | None, str], ...] = (
    (None, "level"),
    *((end, f"lower {ENDS.get(end, f'on the {end}, as you face the wall')}") for end in LOW_ENDS),
)
LEVEL = {"no": 0, "flat": 0, "yes": 0}
CLOSET = tuple((doors, f"{doors} doors") for doors in CLOSET_DOORS)
STEPS_BEGIN = tuple((side, f"at the {side}") for side in STEPS)


def _size(notes: Notes, kind: str, most: int) -> Script[tuple[int, int]]:
    usual, unit = FIXTURES[kind], notes.unit
    width = yield from ask(
        a_length(
            "How wide is it?", unit, LEAST_BODY, most, usual=min(handy(usual.width, unit), most)
        )
    )
    text, least = "How far does it stand out from the wall?", 10
    if usual.burns:
        text, least = f"{text} Say 0 if it is set into it.", 0
    depth = yield from ask(a_length(text, unit, least, 5000, usual=handy(usual.depth, unit)))
    return width, depth


def _height(notes: Notes, kind: str, low: int = 0) -> Script[Row]:
    """How high a radiator or stove is: a low piece may stand over or before it.

    ``low`` is how high its top is at its lower end, in mm; 0 where that is level.
    """
    usual, ceiling = FIXTURES[kind], int(notes.tables["room"]["ceiling"])
    if not usual.top:
        return {}
    text = f"How high above the floor is its top{' at the other end' if low else ''}?"
    least = max(usual.bottom, low) + LEAST_RISE
    top = yield from ask(
        a_length(
            text,
            notes.unit,
            least,
            ceiling,
            usual=min(max(handy(usual.top, notes.unit), least), ceiling),
        )
    )
    return {"height": mm(top - usual.bottom)}


def _corner(notes: Notes, what: str, below: str) -> Script[list[int]]:
    """A place in the room, from its left side and its bottom on the picture, in mm."""
    room = notes.look().room
    low_x, low_y, high_x, high_y = room.bounds if room else (0, 0, 0, 0)
    unit = notes.unit
    text = f"Look at the picture: how far is {what} from the left side of the room?"
    x = yield from ask(a_length(text, unit, 0, high_x - low_x))
    text = f"And {below} from the bottom of the room?"
    y = yield from ask(a_length(text, unit, 0, high_y - low_y))
    return [mm(low_x + x), mm(low_y + y)]


def _ceiling_light(notes: Notes, row: Row) -> Script[Row]:
    room = notes.look().room
    assert room is not None  # noqa: S101  walls come before what hangs between them
    low_x, low_y, high_x, high_y = room.bounds
    text = "Does it hang in the middle of the room?"
    at: list[int] = [mm((low_x + high_x) // 20 * 10), mm((low_y + high_y) // 20 * 10)]
    if not (yield from ask(yes_or_no(text, usual=True))):
        at = yield from _corner(notes, "it", "how far is it")
    ceiling = int(notes.tables["room"]["ceiling"])
    return row | {
        "at": at,
        "width": mm(POINT),
        "depth": mm(0),
        "bottom": mm(ceiling - 200),
        "height": mm(200),
    }


def _beam(notes: Notes) -> Script[Row]:
    """A beam, or another strip where the ceiling is lower, right across the room."""
    unit, ceiling = notes.unit, int(notes.tables["room"]["ceiling"])
    wall = yield from ask(which_wall(notes, "Along which wall does it run?"))
    text = "How far is its nearer side from that wall? Write 0 if it touches the wall."
    off = yield from ask(a_length(text, unit, 0, DOOR_WIDTHS[1]))
    width = yield from ask(a_length("How wide is it?", unit, LEAST_BODY, DOOR_WIDTHS[1]))
    low = yield from ask(_under_beam(unit, ceiling))
    row = {"wall": wall, "off_wall": mm(off), "width": mm(width)} | low
    number = len(notes.rows("room.beam")) + 1
    return row if number == 1 else {"name": f"{BEAM} {number}", **row}


BELOW = re.compile(
    r"(?:it )?(?:hangs |is |goes )?(?:down )?(?P<far>\d.*?)"
    r" (?:below|under|down from|lower than|from) (?:the )?(?:ceiling|slope)"
)


def _under_beam(unit: Unit, ceiling: int) -> Question[Row]:
    """How high its underside is, or how far below the ceiling, which may slope with it."""
    deep = spoken(handy(200, unit), unit)
    text = "How high above the floor is its underside?"
    high = a_length(text, unit, LOWEST, ceiling - 1)

    def read(words: str) -> Row:
        if below := BELOW.fullmatch(in_digits(words.casefold().strip(". "))):
            most = min(DROPS[1], ceiling - 1)
            return {"drop": mm(length_within(below["far"], unit, DROPS[0], most))}
        return {"height": mm(high.read(words))}

    def said(row: Row) -> str:
        key = "drop" if "drop" in row else "height"
        return f"{spoken(row[key], unit)}{' below the ceiling' if key == 'drop' else ''}."

    example = (
        f'{high.example} A beam that slopes with the ceiling hangs "{deep} below the ceiling".'
    )
    return Question(text, read, example, said=said)


def _hanging(notes: Notes, row: Row) -> Script[Row]:
    """What hangs low enough to matter: where, how far from side to side, and how low."""
    usual, unit, fan = FIXTURES[row["kind"]], notes.unit, row["kind"] == FAN
    at = yield from _corner(notes, "its hook", "how far is it")
    text = "How far is it from tip to tip of its blades?" if fan else "How wide is the lamp?"
    width = yield from ask(a_length(text, unit, 50, 3000, usual=handy(usual.width, unit)))
    ceiling = int(notes.tables["room"]["ceiling"])
    low = ceiling + usual.bottom if fan else usual.bottom
    text = f"How high above the floor {'are its blades' if fan else 'is its lower edge'}?"
    most = ceiling - 1
    bottom = yield from ask(a_length(text, unit, 500, most, usual=min(handy(low, unit), most)))
    row |= {"at": at, "width": mm(width), "bottom": mm(bottom)}
    return row if fan else row | {"depth": mm(width)}


def _free_standing(notes: Notes, row: Row) -> Script[Row]:
    at = yield from _corner(notes, "its left edge", "how far is its lower edge")
    usual, unit = FIXTURES[row["kind"]], notes.unit
    text = "How wide is it, from left to right on the picture?"
    width = yield from ask(a_length(text, unit, 10, 5000, usual=handy(usual.width, unit)))
    text = "And from top to bottom on the picture?"
    depth = yield from ask(a_length(text, unit, 10, 5000, usual=handy(usual.depth, unit)))
    return row | {"at": at, "width": mm(width), "depth": mm(depth)}
