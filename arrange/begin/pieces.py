"""Asks for the furniture: what, how large, whose, at what price, and where it stands today."""

from __future__ import annotations

import re
from typing import Any

from arrange.begin.answers import (
    NOTHING,
    Question,
    Said,
    Script,
    a_choice,
    a_length,
    a_length_or_none,
    a_number,
    a_text,
    ask,
    declines,
    handy,
    length_of,
    or_not,
    within,
    yes_or_no,
)
from arrange.begin.near_words import Meant, meant, takes_no_floor, two_kinds
from arrange.begin.notes import NOTE, Notes, mm, plain
from arrange.begin.openings import LEFT_OR_RIGHT
from arrange.begin.places import from_left, taken_names, which_wall
from arrange.begin.sizes import Sizes, size_words, sizes
from arrange.begin.special import CLEAR, special
from arrange.begin.sums import money, money_needed
from arrange.data.kinds import OTHER, Kind, believable, kinds
from arrange.data.lengths import a_or_an, measured, the
from arrange.data.piece import SIZES
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.limits import MOST_PIECES
from arrange.scenario.needs import MOST_HOURS
from arrange.scenario.openings import FIXTURES
from arrange.scenario.pieces import MOST_COUNT
from arrange.scenario.table import LONGEST_TEXT

Row = dict[str, Any]
INCH = 25.4  # mm
SCREENS = (300, 3000)  # mm across the corners


def pieces(notes: Notes) -> Script[None]:
    """Every piece, one kind at a time, until there is no more."""
    yield Said(
        "Now the furniture, what you have and what you wish for, one kind at a time. Your own "
        'words will do: "sofa", "2 armchairs", "tv", "old oak desk".'
    )
    text = "What goes in the room? What you have not decided on yet comes after this."
    while many(notes) < MOST_PIECES:
        wanted = yield from ask(what(text, notes, some=bool(notes.tables.get("piece"))))
        if wanted is None:
            return
        yield from added(notes, wanted)
        text = "What else?"


SHAPED = re.compile(r"\b(?:round|oval)\b")  # "round rug", where the table has a rectangle
NOT_YET = re.compile(
    r"(?:nothing|none|not|no idea|undecided|all open)(?: (?:is|sure))?(?: decided)?(?: yet)?"
)
WISHING = re.compile(r"\b(?:should|must|near|away from|facing|opposite|has to)\b")


def many(notes: Notes) -> int:
    """How many pieces were named."""
    return sum(row.get("count", 1) for row in notes.tables.get("piece", ()))


def what(text: str, notes: Notes, *, some: bool) -> Question[Meant | None]:
    """One kind of piece; nothing more, where there are ``some`` or nothing is decided yet."""
    left = MOST_PIECES - many(notes)
    first = not (some or notes.tables.get("need"))

    def read(words: str) -> Meant | None:
        if declines(words) and (some or first):
            return None
        if first and NOT_YET.fullmatch(words.casefold().strip(". ")):
            return None
        _check_words(words)
        found = meant(words)
        built_in = next((kind for kind in FIXTURES if kind in words.casefold()), None)
        if built_in and not found.guesses:
            raise ValueError(f'"{words}" is built in: go back to add the {built_in} there.')
        if not 1 <= found.count <= min(MOST_COUNT, left):
            raise ValueError(f"You can have 1 to {min(MOST_COUNT, left)} of them.")
        if found.words.isdigit() or not any(c.isalpha() for c in found.words):
            raise ValueError("Say what it is, such as bookcase.")
        return found

    example = (
        'Write what it is, with how many of them if there are several: "4 dining chairs". A name '
        'of your own goes behind: "armchair called grandma\'s chair".'
    )
    if first:
        example += ' If nothing is decided yet, write "nothing".'
    return Question(text, read, example, "that is all" if some else None, None)


def _check_words(words: str) -> None:
    """ValueError where they are no piece, or say more than what it is."""
    if not can_be_seen(words) or len(words) > LONGEST_TEXT:
        raise ValueError("A few words are enough, such as old oak desk.")
    if WISHING.search(words.casefold()):
        raise ValueError(
            "Only what the piece is, please: what you wish for comes after the last piece."
        )
    if two_kinds(words):
        raise ValueError("One kind at a time, please: start with the first of them.")
    if takes_no_floor(words):
        raise ValueError(f'"{words}" takes no floor, so it can be left out here.')


def added(notes: Notes, wanted: Meant, *, need: str = "", part_of: str = "") -> Script[None]:
    """Ask all about a piece, until the file takes it.

    It is a way to have what ``need`` says, or comes with the piece that it is ``part_of``.
    """
    kind = yield from _which_kind(wanted)
    name = yield from _name(notes, wanted, kind)
    more: Row = {"meets": need} if need else {"set": part_of} if part_of else {}
    while True:
        row = yield from _about(notes, wanted, kind, name, open_=bool(more))
        row |= more
        rows = notes.rows("piece")
        rows.append(row)
        faults = notes.faults()
        if not faults:
            break
        rows.pop()
        yield Said(f"That does not work yet. {plain(faults[0])} Let us go through it once more.")
    if need and "dine" in kind.roles:
        row["set"] = name
        text = f"What comes with {the(name)}, such as its chairs?"
        while many(notes) < MOST_PIECES:
            comes = yield from ask(what(text, notes, some=True))
            if comes is None:
                return
            yield from added(notes, comes, part_of=name)
            text = f"What else comes with {the(name)}?"


def _which_kind(wanted: Meant) -> Script[Kind]:
    """The kind: said back where it has another name, asked where it is not clear."""
    clear = wanted.clear
    if clear is not None:
        if clear not in wanted.words.casefold():
            yield Said(f'Taken as {a_or_an(clear)}; say "back" if it is something else.')
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
    taken = all_taken(notes)
    if name.casefold() not in taken:
        return name
    text = f'There is a "{name}" already. What do you call this one?'
    example = f'Write a name of your own: "second {name}".'
    return (yield from ask(a_text(text, example, taken=sorted(taken))))


def all_taken(notes: Notes) -> set[str]:
    """Every name given so far, of the room, of pieces and of needs, in small letters."""
    own = (str(row["name"]) for key in ("piece", "need") for row in notes.tables.get(key, ()))
    return {name.casefold() for name in (*taken_names(notes), *own)}


def _about(notes: Notes, wanted: Meant, kind: Kind, name: str, *, open_: bool) -> Script[Row]:
    row: Row = {"name": name, "kind": kind.name}
    if wanted.count > 1:
        row["count"] = wanted.count
    each = " each" if wanted.count > 1 else ""
    if kind.shape == "rectangle" and (shape := SHAPED.search(wanted.words.casefold())):
        row["shape"] = shape[0]
    size = yield from ask(_size(notes.unit, kind, name, wanted.count, row.get("shape", kind.shape)))
    row |= zip_sizes(size)
    if not {"width", "depth"} <= set(row):
        usual = size_words((kind.width, kind.depth, kind.height), notes.unit, measured)
        some = f"the usual {usual} for what you left out" if size else f"usual sizes, {usual}"
        row[NOTE] = f"{name}: {some}. Measure it."
    if kind.shape == "L":
        row |= yield from _as_an_l(notes.unit, kind, row)
    if kind.own_size:
        text = "How much floor must be free in front of it, to use it?"
        free = yield from ask(a_length_or_none(text, notes.unit, *CLEAR, nothing="none"))
        row |= {"clearance": {"front": {"least": mm(free)}}} if free else {}
    if kind.screen:
        row |= yield from _screen(kind, each)
    text = f"Do you have {'them' if wanted.count > 1 else 'it'} already?"
    owned = yield from ask(yes_or_no(text, usual=True))
    it = "each" if wanted.count > 1 else "it"
    if not owned:
        row |= yield from _to_buy(notes, it, open_=open_)
    elif open_:
        row |= {"owned": True} | (yield from _kept_or_sold(it))
    else:
        row["owned"] = True
        row |= yield from _today(notes, name, wanted.count, row.get("width", kind.width))
    row |= yield from special(notes, kind, row, many=wanted.count > 1)
    return row


def zip_sizes(size: Sizes) -> Row:
    """Width, depth and height for the file, as many as were said."""
    keys = ("width", "depth", "height")
    return {key: mm(one) for key, one in zip(keys, size, strict=False) if one is not None}


def _size(unit: Unit, kind: Kind, name: str, count: int, shape: str) -> Question[Sizes]:
    limits = [believable(kind.name, side) for side in ("width", "depth", "height")]
    usual = None if kind.own_size else (kind.width, kind.depth, kind.height)
    what = f"each {name}" if count > 1 else the(name)
    is_round = shape == "round"
    if is_round and usual:
        usual = (kind.depth, kind.depth, kind.height)
    text = f"How large is {what}: {'across' if is_round else 'width x depth'} x height?"
    return sizes(text, unit, limits if usual else [SIZES] * 3, usual, is_round=is_round)


def _as_an_l(unit: Unit, kind: Kind, row: Row) -> Script[Row]:
    """Where the arm of an L is, how wide that is, and how deep the part along its back."""
    text = "As you stand facing it, on which side does it come forward?"
    arm: Row = {"arm_side": (yield from ask(a_choice(text, ARMS, usual=0, also=LEFT_OR_RIGHT)))}
    for key, whole, usual, text in (
        ("arm_width", row.get("width", kind.width), kind.arm_width, "How wide is that part?"),
        (
            "back_depth",
            row.get("depth", kind.depth),
            kind.back_depth,
            "And how deep is it along its back?",
        ),
    ):
        most = whole - 10
        shown = min(handy(usual, unit), most)
        arm[key] = mm((yield from ask(a_length(text, unit, 100, most, usual=shown))))
    return arm


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


ARMS = (("left", "on the left"), ("right", "on the right"))
PLACES = (
    ("wall", "with its back to a wall"),
    ("free", "away from the walls"),
    ("no", "elsewhere, or not sure"),
)
STANDS_TODAY = dict.fromkeys((*NOTHING, "elsewhere", "no matter", "in another room"), 2)
STANDS_TODAY |= dict.fromkeys(("wall", "against the wall", "against a wall", "at the wall"), 0)
STANDS_TODAY |= dict.fromkeys(("on the wall", "along the wall", "by the wall", "at a wall"), 0)
STANDS_TODAY |= dict.fromkeys(("in the corner", "in a corner", "corner", "under the window"), 0)
STANDS_TODAY |= dict.fromkeys(("nowhere", "in the cellar", "in the shop", "not here"), 2)
STANDS_TODAY |= dict.fromkeys(("free", "in the middle", "middle", "in the room"), 1)
LOOKS = tuple((way, f"{way} on the picture") for way in ("up", "down", "left", "right"))


def _today(notes: Notes, name: str, count: int, width: int) -> Script[Row]:
    """Where it stands today, and whether it stays; nothing where the person would not say."""
    found: list[Row] = []
    for number in range(1, count + 1):
        which = "it stand" if count == 1 else f"{name} {number} stand"
        place = yield from ask(
            a_choice(f"Where does {which} today?", PLACES, usual=2, also=STANDS_TODAY)
        )
        spot = (yield from _spot(notes, place, width)) if place != "no" else None
        if spot is None:
            break
        found.append(spot)
    if not found:
        return {}
    row: Row = {"stands_now": found[0] if count == 1 else found}
    if len(found) == count:
        text = f"Must {'it' if count == 1 else 'they'} stay exactly there?"
        if (yield from ask(yes_or_no(text, usual=False))):
            row["stays"] = True
    return row


def _spot(notes: Notes, place: str, width: int) -> Script[Row | None]:
    """Where it stands today; None where that was not measured after all."""
    if place == "wall":
        which = which_wall(notes, "Which wall is it against?")
        wall = yield from ask(or_not(which, "not sure"))
        if wall is None:
            return None
        where = from_left(notes, wall, width, "it is")
        left = yield from ask(or_not(where, "not measured"))
        return None if left is None else {"wall": wall, "from_left": mm(left)}
    room = notes.look().room
    low_x, low_y, high_x, high_y = room.bounds if room else (0, 0, 0, 0)
    text = "Look at the picture: how far is its left edge from the left side of the room?"
    most, nothing = high_x - low_x, "not measured"
    across = yield from ask(a_length_or_none(text, notes.unit, 0, most, nothing=nothing))
    if across is None:
        return None
    text = "And how far is its lower edge from the bottom of the room?"
    most = high_y - low_y
    up = yield from ask(a_length_or_none(text, notes.unit, 0, most, nothing=nothing))
    if up is None:
        return None
    facing = yield from ask(a_choice("Which way does it face?", LOOKS))
    return {"across": mm(across), "up": mm(up), "facing": facing}


BUY = (("new", "new"), ("second-hand", "second-hand"), ("make over", "something to make over"))


BOUGHT = {"2nd hand": 1, "secondhand": 1, "used": 1, "flea market": 1, "makeover": 2}
BOUGHT |= dict.fromkeys(("makeover", "make it over", "do it up", "paint"), 2)
BOUGHT |= {"do up": 2, "second hand": 1, "shop": 0}


def _to_buy(notes: Notes, it: str, *, open_: bool) -> Script[Row]:
    """How it is come by and what it costs; of what is not decided that must be known."""
    row: Row = {}
    buy = yield from ask(a_choice("How would you get it?", BUY, usual=0, also=BOUGHT))
    if buy != "new":
        row["buy"] = buy
    text = f"What does {it} cost, roughly?"
    price = yield from ask(money_needed(text) if open_ else money(text, "not known yet"))
    if price is not None:
        row["price"] = price[0]
        _note_currency(notes, price[1])
        delivery = yield from ask(money("And what does delivery cost?", "nothing"))
        if delivery is not None:
            row["delivery"] = delivery[0]
    if open_ and buy == "make over":
        row |= yield from _made_over()
    return row


def _kept_or_sold(it: str) -> Script[Row]:
    """Of something owned that may be chosen or not: whether it is made over, what it brings."""
    row: Row = {}
    text = f"Would you make {'them' if it == 'each' else it} over for that?"
    if (yield from ask(yes_or_no(text, usual=False))):
        row |= {"buy": "make over"} | (yield from _made_over())
    text = f"If you choose something else, what would you get for {it}?"
    brings = yield from ask(money(text, "nothing, or it is not sold"))
    if brings is not None:
        row["sells_for"] = brings[0]
    return row


def _made_over() -> Script[Row]:
    """What making something over takes."""
    row: Row = {}
    text = "What would you pay for materials, such as paint or fabric?"
    materials = yield from ask(money(text, "nothing"))
    if materials is not None:
        row["materials"] = materials[0]
    text = "How many hours of your own work is it?"
    hours = yield from ask(a_number(text, 0, MOST_HOURS, usual=0))
    return row | ({"hours": hours} if hours else {})


def _note_currency(notes: Notes, currency: str) -> None:
    if currency:
        notes.tables.setdefault("money", {}).setdefault("currency", currency)
