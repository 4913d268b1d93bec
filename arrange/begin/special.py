"""Asks what is special about a piece: how it stands, its shape, floor to keep free.

Few pieces need it, so it is one question, and each sentence is read for what it can say.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from arrange.begin.answers import (
    Question,
    Script,
    ask,
    declines,
    handy,
    length_of,
    length_within,
    spoken,
    within,
)
from arrange.begin.looks import looks_of
from arrange.begin.looks import told as looks_told
from arrange.begin.notes import Notes, mm
from arrange.begin.sizes import in_a_row, size_words
from arrange.begin.spelt import in_digits
from arrange.data.kinds import Kind
from arrange.data.lengths import listed, measured, the
from arrange.data.piece import SIDES
from arrange.data.scenario import Unit

Row = dict[str, Any]
CLEAR = (0, 5000)  # mm of floor kept free
CORNERS = (10, 2000)  # mm of a corner that is cut off or rounded
# What is said of how a piece is to stand; the first that is found counts.
STANDS = {
    "away": "free",
    "free": "free",
    "middle": "free",
    "corner": "corner",
    "wall": "wall",
    "anywhere": "anywhere",
}
ACROSS = re.compile(r"\bacross (?:a|the|some|any|one) corner\b")
MAY = re.compile(r"\b(?:may|can|could|might|also|too|if)\b")
AMOUNT = r"\d[\d.,/ '\"]*(?: ?[a-z]{1,11})?(?: \d[\d/]*)?(?: ?(?:cm|inches|in|\"))?"
FREE_FLOOR = re.compile(
    r"(?:keep |leave |needs? |with |i want |we want )*(?P<depth>\d.*?)\s*(?:of )?"
    r"(?:free |clear |floor |space |room )*(?:in |at |on |to )?(?:its |the )?"
    r"(?P<side>front|back|left|right)\b(?: of it| side)?"
    r"(?:,? (?:or )?(?:better|ideally|preferably|best) (?P<better>\d.*))?"
)
NO_FLOOR = re.compile(
    r"(?:no|nothing)(?: floor| space| room)?(?: is)?(?: free| needed| kept free)*"
    r"(?: in| on| at| to)?(?: its| the)? (?P<side>front|back|left|right)\b.*"
)
MATTRESS = re.compile(
    r"(?:.*\b)?mattress\b(?: is| of| measures|:)*(?: about)? (?P<size>\d.*)"
    r"|\D*(?P<before>\d.*?) mattress"
)
HEADBOARD = re.compile(
    r"(?:.*\b)?headboard\b(?: is| of|:)*(?: about)? (?P<thick>\d.*?)(?: thick| deep)?"
    r"|\D*(?P<before>\d.*?)(?: thick| deep)? headboard"
)
LYING = ((300, 4000), (500, 4000))  # mm of a mattress, its width and its length
THICK = (5, 1500)  # mm of a headboard
HANGS = re.compile(
    r"(?:it )?(?:is )?(?:hangs?|hung|mounted|raised|fixed|starts)(?: up)?(?: on the wall)?"
    r"(?: at| by|,)? (?P<high>\d.*)"
)
HUNG = (50, 3000)  # mm from the floor to its underside
BESIDE = re.compile(
    r"(?:it )?(?:stands? |belongs? |goes? )*(?:beside|next to|with(?! its)|to) (?P<what>.+)"
)
WHERE = {"front": "in front", "back": "behind it", "left": "on its left", "right": "on its right"}
ALONE = ("by itself", "alone", "on its own", "goes with nothing")
SHAPED = re.compile(
    rf"\b(?P<how>rounded|cut)(?: off)? corners?(?: of| by)?(?: (?P<far>{AMOUNT}))?"
    rf"|\bcorners (?:are |is )?(?P<way>rounded|cut)(?: off)?(?: by| of)?(?: (?P<amount>{AMOUNT}))?"
)
SHAPES = {"oval": "oval", "round": "round", "circular": "round", "rectangular": "rectangle"}
ARM = re.compile(r"\b(?:long|longer|end|arm|chaise|part|side|leg|wing)\b.*\b(?P<side>left|right)\b")
MAIN = re.compile(r"\b(?:main|most important) (?:piece|thing)\b|\bmatters most\b")
TIGHT = re.compile(r"\b(?:tight|squeeze|bare(?:ly)?|just fits?)\b")
AMPLE = re.compile(r"\b(?:plenty|generous|comfortabl[ey]|ample)\b")
USED = re.compile(r"\b(?:used?|also|good) (?:also )?(?:for|to|as)\b(?P<what>.+)")
USES = {
    "stor": "store",
    "work": "work",
    "writ": "work",
    "eat": "dine",
    "din": "dine",
    "meals": "dine",
    "read": "read",
    "dress": "dress",
    "music": "music",
    "play": "play",
    "toys": "play",
    "sew": "hobby",
    "craft": "hobby",
    "hobb": "hobby",
    "clothes": "clothes",
    "books": "books",
}
SAID_USE = {
    "store": "storage",
    "work": "work",
    "dine": "meals",
    "read": "reading",
    "dress": "dressing",
    "music": "music",
    "play": "play",
    "hobby": "hobbies",
    "clothes": "clothes",
    "books": "books",
}
# A round length for examples, in mm.
YARD: dict[Unit, int] = {"mm": 1000, "cm": 1000, "m": 1000, "in": 914}


def special(notes: Notes, kind: Kind, known: Row, *, many: bool) -> Script[Row]:
    """How it is to stand, and floor to keep free, a sentence each. ``known`` is what was said."""
    row: Row = {}
    free, it = spoken(YARD[notes.unit], notes.unit), "them" if many else "it"
    such = ['"in a corner"', f'"{free} free in front"', '"dark blue"']
    if _has_head(kind):
        usual = [length // 50 * 50 - 50 for length in (kind.width, kind.depth)]
        such[1:] = ['"dark blue"', f'"the mattress is {size_words(usual, notes.unit, measured)}"']
    if somebody := notes.tables.get("person"):
        such.append(f'"{somebody[0]["name"]} uses {it}"')
    text = f"Is there anything special about {it}, such as {listed(such, 'or')}?"
    while True:
        found = yield from ask(_special_words(text, notes, kind, known | row))
        if not found:
            return row
        clearance = {**known.get("clearance", {}), **row.get("clearance", {})}
        clearance |= found.pop("clearance", {})
        row |= found
        if clearance:
            row["clearance"] = clearance
        text = f"Anything else about {it}?"


def _special_words(text: str, notes: Notes, kind: Kind, known: Row) -> Question[Row]:
    unit = notes.unit
    pieces = notes.tables.get("piece", ())
    others = [str(row["name"]) for row in pieces]
    people = [str(row["name"]) for row in notes.tables.get("person", ())]
    leads = [str(row["name"]) for row in pieces if row.get("lead")]

    def read(words: str) -> Row:
        row = special_of(words, unit, kind, others, people)
        if "lead" in row and leads:
            raise ValueError(f"Only one piece can set the colours, and {the(leads[0])} does.")
        if "lead" in row and "colour" not in known | row:
            raise ValueError(
                'Give its colour too, please, such as "dark blue and sets the colours".'
            )
        return row

    def said(row: Row) -> str:
        told = _told(row, unit)
        return f"{told[:1].upper()}{told[1:]}." if told else ""

    free = spoken(YARD[unit], unit)
    whose = f', "{people[0]} uses it"' if people else ""
    example = (
        f'Write for instance "in a corner", "{free} free in front", "dark blue"{whose} or "looks '
        'calm and warm". Just press Enter for nothing.'
    )
    return Question(text, read, example, "nothing", {}, said)


STANDING = {"corner": "in a corner", "wall": "with its back to a wall"}
CUT = {"cut corners": "its corners are cut", "rounded corners": "its corners are rounded"}
# What was understood, by the key that it has in the file.
TOLD: dict[str, Callable[[Row, Unit], str]] = {
    "mattress": lambda row, unit: f"its mattress is {size_words(row['mattress'], unit)}",
    "headboard": lambda row, unit: f"its headboard is {spoken(row['headboard'], unit)} thick",
    "stands": lambda row, _: f"it stands {STANDING.get(row['stands'], 'free')}",
    "with": lambda row, _: f"it stands beside {the(row['with'])}",
    "bottom": lambda row, unit: f"its underside is {spoken(row['bottom'], unit)} above the floor",
    "arm_side": lambda row, _: f"it comes forward on the {row['arm_side']}, as you face it",
    "corner": lambda row, unit: f"{CUT[row['shape']]} by {spoken(row['corner'], unit)}",
    "shape": lambda row, _: f"it is {row['shape']}",
    "keep_to": lambda row, _: (
        "the least space will do for it" if row["keep_to"] == "bare" else "it gets more room"
    ),
    "free": lambda *_: "it stands by itself",
    "major": lambda *_: "it counts as one of the main pieces",
    "used_for": lambda row, _: f"it is used for {listed([SAID_USE[u] for u in row['used_for']])}",
}


def _told(row: Row, unit: Unit) -> str:
    """What was understood, without a full stop; nothing for nothing."""
    for key, told in TOLD.items():
        if key in row:
            return told(row, unit)
    for side in SIDES:
        if side in row.get("clearance", {}):
            return _floor_told(row["clearance"][side], side, unit)
    return looks_told(row)


def _floor_told(asked: Row | bool, side: str, unit: Unit) -> str:
    if not isinstance(asked, dict):
        return f"no floor is kept free {WHERE[side]}"
    told = f"{spoken(asked['least'], unit)} of floor stays free {WHERE[side]}"
    better = asked.get("comfortable")
    return f"{told}, ideally {spoken(better, unit)}" if better else told


def special_of(
    words: str, unit: Unit, kind: Kind, others: Sequence[str] = (), people: Sequence[str] = ()
) -> Row:
    """How a piece is to stand, floor it needs, its looks, as the file has it; else ValueError."""
    if declines(words):
        return {}
    word = in_digits(words.casefold().strip(". "))
    framed, floor, shape = (read(word, unit, kind) for read in (_framed, _floor, _shape))
    for found in (framed, floor, shape, _use(word), looks_of(word, people)):
        if found:
            return found
    if hangs := HANGS.fullmatch(word):
        return {"bottom": mm(length_within(hangs["high"], unit, *HUNG))}
    if beside := BESIDE.fullmatch(word):
        return {"with": _other(beside["what"], others)}
    if word in ALONE:
        return {"free": True}
    row = _stands(word)
    if not row:
        free = spoken(handy(800, unit), unit)
        raise ValueError(
            f'"{words}" is not understood. It can be "in a corner", "across a corner", "against a '
            'wall", "away from the walls", "beside the" and another piece, "by itself", "hangs '
            'at" a height, "round", "oval", "the main piece", "dark blue", "looks calm", or floor '
            f'to keep free, such as "{free} free in front".'
        )
    if kind.flat:
        raise ValueError("A rug or mat lies where it is used.")
    return row


def _stands(word: str) -> Row:
    """How it is to stand, or may stand besides; nothing where that is not said."""
    if ACROSS.search(word):
        return {"across_corner": True} if MAY.search(word) else {"stands": "across"}
    stands = next((stands for said, stands in STANDS.items() if said in word), None)
    return {} if stands is None else {"stands": stands}


def _has_head(kind: Kind) -> bool:
    """Whether it is a bed with its head at its back, so that its mattress can be given."""
    return "bed" in kind.roles and "seat" not in kind.roles


def _framed(word: str, unit: Unit, kind: Kind) -> Row:
    """How large the mattress of a bed is, or how thick its headboard; {} if neither is said."""
    mattress, headboard = MATTRESS.fullmatch(word), HEADBOARD.fullmatch(word)
    if (mattress or headboard) and not _has_head(kind):
        raise ValueError("That goes only for a bed with its head at its back.")
    if "mattress" in word and "headboard" in word:
        raise ValueError("One of the two at a time, please: the mattress, then the headboard.")
    if headboard:
        thick = headboard["thick"] or headboard["before"]
        return {"headboard": mm(length_within(thick, unit, *THICK))}
    if not mattress:
        return {}
    example = f"For example {size_words((1400, 2000), unit, measured)}."
    size = in_a_row(mattress["size"] or mattress["before"], unit, LYING, example)
    if len(size) != 2:
        raise ValueError(f"Width and length of the mattress, please. {example}")
    return {"mattress": [mm(one) for one in size]}


def _floor(word: str, unit: Unit, _: Kind) -> Row:
    """Floor to keep free on one side, and how much would be better; {} if that is not said."""
    if none := NO_FLOOR.fullmatch(word):
        return {"clearance": {none["side"]: False}}
    floor = FREE_FLOOR.fullmatch(word)
    if floor is None:
        return {}
    deep = within(length_of(floor["depth"], unit, 50, CLEAR[1]), unit, *CLEAR)
    asked: Row = {"least": mm(deep)}
    if floor["better"]:
        asked["comfortable"] = mm(length_within(floor["better"], unit, deep, CLEAR[1]))
    return {"clearance": {floor["side"]: asked}}


def _shape(word: str, unit: Unit, kind: Kind) -> Row:
    """Its outline from above; {} if that is not said."""
    if kind.shape == "L" and (arm := ARM.search(word)):
        return {"arm_side": arm["side"]}
    if found := SHAPED.search(word):
        shape = f"{found['how'] or found['way']} corners"
        far = found["far"] or found["amount"]
        if far is None:
            deep = spoken(handy(200, unit), unit)
            raise ValueError(f'How much of each corner? Write for instance "{shape} {deep}".')
        return {"shape": shape, "corner": mm(length_within(far, unit, *CORNERS))}
    said = [shape for name, shape in SHAPES.items() if re.search(rf"\b{name}\b", word)]
    return {"shape": said[0]} if said and kind.shape != "L" else {}


def _use(word: str) -> Row:
    """What it is for, how much it matters, how much room it gets; {} if none is said."""
    if MAIN.search(word):
        return {"major": True}
    if found := USED.search(word):
        uses = [use for begin, use in USES.items() if re.search(rf"\b{begin}", found["what"])]
        if uses:
            return {"used_for": list(dict.fromkeys(uses))}
        raise ValueError(f"It can be used for {listed(list(SAID_USE.values()), 'or')}.")
    if TIGHT.search(word):
        return {"keep_to": "bare"}
    return {"keep_to": "usual"} if AMPLE.search(word) else {}


def _other(words: str, others: Sequence[str]) -> str:
    """The piece named before that another one stands beside; ValueError if there is none."""
    known = {name.casefold(): name for name in others}
    said = words.removeprefix("the ").removeprefix("my ")
    if said not in known:
        some = f" It can be {listed(others, 'or')}." if others else ""
        raise ValueError(f'You have not named a "{said}" yet.{some}')
    return known[said]
