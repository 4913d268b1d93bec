"""Asks for the furniture: what, how large, whose, at what price, and where it stands today."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from arrange.begin.along_walls import from_left, taken_names, which_wall
from arrange.begin.answers import (
    NOTHING,
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    a_length_or_none,
    a_text,
    ask,
    handy,
    length_of,
    length_within,
    money,
    size_words,
    sizes,
    spoken,
    within,
    yes_or_no,
)
from arrange.begin.near_words import Meant, meant, takes_no_floor
from arrange.begin.notes import NOTE, Notes, mm, plain
from arrange.data.kinds import OTHER, Kind, believable, kinds
from arrange.data.lengths import listed, measured, the
from arrange.data.piece import SIDES, SIZES
from arrange.data.scenario import Unit
from arrange.scenario.limits import MOST_PIECES
from arrange.scenario.openings import FIXTURES
from arrange.scenario.pieces import MOST_COUNT
from arrange.scenario.table import LONGEST_TEXT

Row = dict[str, Any]
INCH = 25.4  # mm
SCREENS = (300, 3000)  # mm across the corners
CLEAR = (0, 5000)  # mm of floor kept free


def pieces(notes: Notes) -> Script[None]:
    """Every piece, one kind at a time, until there is no more."""
    yield Said(
        "Now the furniture, what you have and what you wish for, one kind at a time. Your own "
        'words will do: "sofa", "2 armchairs", "tv", "old oak desk".'
    )
    text = "What shall stand in the room?"
    while _many(notes) < MOST_PIECES:
        wanted = yield from ask(_what(text, notes))
        if wanted is None:
            return
        yield from _added(notes, wanted)
        text = "What else?"


def _many(notes: Notes) -> int:
    return sum(row.get("count", 1) for row in notes.tables.get("piece", ()))


def _what(text: str, notes: Notes) -> Question[Meant | None]:
    some = bool(notes.tables.get("piece"))
    left = MOST_PIECES - _many(notes)

    def read(words: str) -> Meant | None:
        if some and words.casefold() in NOTHING:
            return None
        if not words.isprintable() or len(words) > LONGEST_TEXT:
            raise ValueError("A few words are enough, such as old oak desk.")
        if takes_no_floor(words):
            raise ValueError(f'"{words}" takes no floor, so it can be left out here.')
        found = meant(words)
        built_in = next((kind for kind in FIXTURES if kind in words.casefold()), None)
        if built_in and not found.guesses:
            raise ValueError(f'"{words}" is built in: go back to add the {built_in} there.')
        if not 1 <= found.count <= min(MOST_COUNT, left):
            raise ValueError(f"From 1 to {min(MOST_COUNT, left)} of them are possible.")
        if found.words.isdigit() or not any(c.isalpha() for c in found.words):
            raise ValueError("Say what it is, such as bookcase.")
        return found

    example = (
        'Write what it is, with how many of them if there are several: "4 dining chairs". A name '
        'of your own goes behind: "armchair called grandma\'s chair".'
    )
    return Question(text, read, example, "that is all" if some else None, None)


def _added(notes: Notes, wanted: Meant) -> Script[None]:
    """Ask all about a piece, until the file takes it."""
    kind = yield from _which_kind(wanted)
    name = yield from _name(notes, wanted, kind)
    while True:
        row = yield from _about(notes, wanted, kind, name)
        rows = notes.rows("piece")
        rows.append(row)
        faults = notes.faults()
        if not faults:
            return
        rows.pop()
        yield Said(f"That does not work yet. {plain(faults[0])} Let us go through it once more.")


def _which_kind(wanted: Meant) -> Script[Kind]:
    """The kind: said back where it has another name, asked where it is not clear."""
    clear = wanted.clear
    if clear is not None:
        if wanted.words.casefold() != clear:
            article = "an" if clear[0] in "aeiou" else "a"
            yield Said(f'Taken as {article} {clear}; say "back" if it is something else.')
        return kinds()[clear]
    options = [(name, name) for name in wanted.guesses]
    options.append((OTHER, "something else"))
    text = f'What is the "{wanted.words}" most like?'
    if len(options) == 1:
        yield Said(f'"{wanted.words}" is not in the list of pieces, so its sizes are needed.')
        return kinds()[OTHER]
    chosen = yield from ask(a_choice(text, options, usual=0))
    return kinds()[chosen]


def _name(notes: Notes, wanted: Meant, kind: Kind) -> Script[str]:
    """What it is called: the person's own words, and no name twice."""
    known = (wanted.sure and bool(wanted.guesses)) or kind.name == OTHER
    name = wanted.name or (wanted.words if known else kind.name)
    taken = {one.casefold() for one in [*taken_names(notes), *_piece_names(notes)]}
    if name.casefold() not in taken:
        return name
    text = f'There is a "{name}" already. What do you call this one?'
    example = f'Write a name of your own: "second {name}".'
    return (yield from ask(a_text(text, example, taken=sorted(taken))))


def _piece_names(notes: Notes) -> list[str]:
    return [str(row["name"]) for row in notes.tables.get("piece", ())]


def _about(notes: Notes, wanted: Meant, kind: Kind, name: str) -> Script[Row]:
    row: Row = {"name": name, "kind": kind.name}
    if wanted.count > 1:
        row["count"] = wanted.count
    each = " each" if wanted.count > 1 else ""
    size = yield from ask(_size(notes.unit, kind, name, wanted.count))
    row |= zip_sizes(size)
    if not size and not kind.own_size:
        usual = size_words((kind.width, kind.depth, kind.height), notes.unit, measured)
        row[NOTE] = f"{name}: usual sizes, {usual}. Measure it."
    if kind.own_size:
        text = "How much floor must be free in front of it, to use it?"
        free = yield from ask(a_length_or_none(text, notes.unit, *CLEAR, nothing="none"))
        row |= {"clearance": {"front": {"least": mm(free)}}} if free else {}
    if kind.screen:
        row |= yield from _screen(kind, each)
    text = f"Do you have {'them' if wanted.count > 1 else 'it'} already?"
    owned = yield from ask(yes_or_no(text, usual=True))
    if owned:
        row["owned"] = True
        row |= yield from _today(notes, name, wanted.count, size[0] if size else kind.width)
    else:
        row |= yield from _to_buy(notes, "each" if wanted.count > 1 else "it")
    row |= yield from _special(notes, kind)
    return row


def zip_sizes(size: tuple[int, ...]) -> Row:
    """Width, depth and height for the file, as many as were said."""
    return {key: mm(value) for key, value in zip(("width", "depth", "height"), size, strict=False)}


def _size(unit: Unit, kind: Kind, name: str, count: int) -> Question[tuple[int, ...]]:
    limits = [believable(kind.name, side) for side in ("width", "depth", "height")]
    usual = None if kind.own_size else (kind.width, kind.depth, kind.height)
    what = f"each {name}" if count > 1 else the(name)
    text = f"How large is {what}: width x depth x height?"
    question = sizes(text, unit, limits if usual else [SIZES] * 3, usual)
    if usual is None:
        return question

    def read(words: str) -> tuple[int, ...]:
        if words.casefold() in ("usual", "do not know", "don't know", "no idea"):
            return ()
        return question.read(words)

    return Question(text, read, question.example, question.usual, question.otherwise, question.said)


def _screen(kind: Kind, each: str) -> Script[Row]:
    usual = round(kind.screen / INCH)

    def read(words: str) -> int:
        number = words.casefold().removesuffix("inches").removesuffix("inch").strip(" \"'in”″")
        bare = number.isascii() and number.isdigit() and len(number) < 4
        return within(
            round(int(number) * INCH) if bare else length_of(words, "in", *SCREENS),
            "in",
            *SCREENS,
        )

    text = f"How large is the screen on it{each}, in inches from corner to corner?"
    screen = yield from ask(
        Question(text, read, "Write the number on its box, such as 55.", str(usual), None)
    )
    return {} if screen is None else {"screen": mm(screen)}


PLACES = (
    ("wall", "with its back to a wall"),
    ("free", "away from the walls"),
    ("no", "elsewhere, or not sure"),
)
LOOKS = tuple((way, f"{way} on the picture") for way in ("up", "down", "left", "right"))


def _today(notes: Notes, name: str, count: int, width: int) -> Script[Row]:
    """Where it stands today, and whether it stays; nothing where the person would not say."""
    found: list[Row] = []
    for number in range(1, count + 1):
        which = "it stand" if count == 1 else f"{name} {number} stand"
        place = yield from ask(
            a_choice(f"Where does {which} today?", PLACES, usual=2, also={"none": 2})
        )
        if place == "no":
            break
        found.append((yield from _spot(notes, place, width)))
    if not found:
        return {}
    row: Row = {"stands_now": found[0] if count == 1 else found}
    if len(found) == count:
        text = f"Must {'it' if count == 1 else 'they'} stay exactly there?"
        if (yield from ask(yes_or_no(text, usual=False))):
            row["stays"] = True
    return row


def _spot(notes: Notes, place: str, width: int) -> Script[Row]:
    if place == "wall":
        wall = yield from ask(which_wall(notes, "Which wall is behind its back?"))
        left = yield from ask(from_left(notes, wall, width, "it is"))
        return {"wall": wall, "from_left": mm(left)}
    room = notes.look().room
    low_x, low_y, high_x, high_y = room.bounds if room else (0, 0, 0, 0)
    text = "How far is its left edge on the picture from the left side of the room?"
    across = yield from ask(a_length(text, notes.unit, 0, high_x - low_x))
    text = "How far is its lower edge on the picture from the bottom of the room?"
    up = yield from ask(a_length(text, notes.unit, 0, high_y - low_y))
    facing = yield from ask(a_choice("Which way does its front look?", LOOKS))
    return {"across": mm(across), "up": mm(up), "facing": facing}


BUY = (("new", "new"), ("second-hand", "second-hand"), ("make over", "something to make over"))


BOUGHT = {"2nd hand": 1, "secondhand": 1, "used": 1, "flea market": 1, "makeover": 2}
BOUGHT |= {"do up": 2, "second hand": 1, "shop": 0}


def _to_buy(notes: Notes, it: str) -> Script[Row]:
    row: Row = {}
    buy = yield from ask(a_choice("How would you get it?", BUY, usual=0, also=BOUGHT))
    if buy != "new":
        row["buy"] = buy
    price = yield from ask(money(f"What does {it} cost, roughly?", "not known yet"))
    if price is not None:
        row["price"] = price[0]
        _note_currency(notes, price[1])
        delivery = yield from ask(money("And what does delivery cost?", "nothing"))
        if delivery is not None:
            row["delivery"] = delivery[0]
    return row


def _note_currency(notes: Notes, currency: str) -> None:
    if currency:
        notes.tables.setdefault("money", {}).setdefault("currency", currency)


# What is said of how a piece is to stand; the first that is found counts.
STANDS = {
    "away": "free",
    "free": "free",
    "middle": "free",
    "corner": "corner",
    "wall": "wall",
    "anywhere": "anywhere",
}
FREE_FLOOR = re.compile(
    r"(?P<depth>.*\d.*?)\s*(?:of )?(?:free |clear |floor )*(?:in |at |on |to )?(?:its |the )?"
    r"(?P<side>front|back|left|right)\b.*"
)


HANGS = re.compile(r"(?:it )?(?:hangs|hung|mounted|raised)(?: up)?(?: at| by)? (?P<high>\d.*)")
HUNG = (50, 3000)  # mm from the floor to its underside
BESIDE = re.compile(
    r"(?:it )?(?:stands? |belongs? |goes? )*(?:beside|next to|with(?! its)|to) (?P<what>.+)"
)
WHERE = {"front": "in front", "back": "behind it", "left": "on its left", "right": "on its right"}
ALONE = ("by itself", "alone", "on its own", "goes with nothing")


def _other(words: str, others: Sequence[str]) -> str:
    """The piece named before that another one stands beside; ValueError if there is none."""
    known = {name.casefold(): name for name in others}
    said = words.removeprefix("the ").removeprefix("my ")
    if said not in known:
        some = f" It can be {listed(others, 'or')}." if others else ""
        raise ValueError(f'No "{said}" was named before.{some}')
    return known[said]


# A round length for examples, in mm.
YARD: dict[Unit, int] = {"mm": 1000, "cm": 1000, "m": 1000, "in": 914}


def _special(notes: Notes, kind: Kind) -> Script[Row]:
    """How it is to stand, and floor to keep free, in a line each."""
    row: Row = {}
    free = spoken(YARD[notes.unit], notes.unit)
    text = (
        f'Is there anything special about it, such as "in a corner", "{free} free in front" or '
        '"away from the walls"?'
    )
    while True:
        found = yield from ask(_special_words(text, notes, kind))
        if not found:
            return row
        clearance = {**row.get("clearance", {}), **found.pop("clearance", {})}
        row |= found
        if clearance:
            row["clearance"] = clearance
        text = "Anything else about it?"


def _special_words(text: str, notes: Notes, kind: Kind) -> Question[Row]:
    unit, others = notes.unit, _piece_names(notes)

    def read(words: str) -> Row:
        return special_of(words, unit, kind, others)

    def said(row: Row) -> str:
        if "stands" in row:
            told = {"corner": "in a corner", "wall": "with its back to a wall"}
            return f"It stands {told.get(row['stands'], 'free')}."
        if "with" in row:
            return f"It stands beside {the(row['with'])}."
        if "bottom" in row:
            return f"Its underside is {spoken(row['bottom'], unit)} above the floor."
        if row.get("free"):
            return "It stands by itself."
        for side in SIDES:
            if side in row.get("clearance", {}):
                deep = spoken(row["clearance"][side]["least"], unit)
                return f"{deep} of floor stays free {WHERE[side]}."
        return ""

    example = 'Write for instance "in a corner" or "100 cm free in front". Enter for nothing.'
    return Question(text, read, example, "nothing", {}, said)


def special_of(words: str, unit: Unit, kind: Kind, others: Sequence[str] = ()) -> Row:
    """How a piece is to stand, or floor it needs, as the file has it; ValueError if neither."""
    word = words.casefold().strip(". ")
    if word in NOTHING:
        return {}
    floor = FREE_FLOOR.fullmatch(word)
    if floor:
        deep = within(length_of(floor["depth"], unit, 50, CLEAR[1]), unit, *CLEAR)
        return {"clearance": {floor["side"]: {"least": mm(deep)}}}
    if hangs := HANGS.fullmatch(word):
        return {"bottom": mm(length_within(hangs["high"], unit, *HUNG))}
    if beside := BESIDE.fullmatch(word):
        return {"with": _other(beside["what"], others)}
    if word in ALONE:
        return {"free": True}
    stands = next((stands for said, stands in STANDS.items() if said in word), None)
    if stands is None:
        free = spoken(handy(800, unit), unit)
        raise ValueError(
            f'"{words}" is not understood. It can be "in a corner", "against a wall", "away from '
            'the walls", "beside the" and another piece, "by itself", "hangs at" a height, or '
            f'floor to keep free, such as "{free} free in front".'
        )
    if kind.flat:
        raise ValueError("A rug or mat lies where it is used.")
    return {"stands": stands}
