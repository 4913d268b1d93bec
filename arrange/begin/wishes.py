"""Asks what the room is for, how it should feel, what is wished of the pieces and what it may cost.

A wish is read as a sentence: a piece, how it should stand, and to what.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from arrange.begin.along_walls import sided
from arrange.begin.answers import (
    NOTHING,
    Question,
    Said,
    Script,
    a_choice,
    a_number,
    ask,
    handy,
    length_within,
    money,
    spoken,
    yes_or_no,
)
from arrange.begin.notes import Notes, mm, plain
from arrange.begin.pieces import YARD
from arrange.data.kinds import names as kind_names
from arrange.data.lengths import listed, nearest, the
from arrange.data.scenario import Unit, Use
from arrange.scenario.table import LONGEST_MM
from arrange.scenario.wishes import LONGEST_FEEL, MOST_FEEL, RELATIONS, USES, WALLS_ONLY, WIDE_WAY
from arrange.scoring import FEEL

Row = dict[str, Any]
MOST_WISHES = 60
WIDE_INCHES = 914  # mm, 36 in


# What people call rooms.
CALLED: dict[str, Use] = {
    "study": "office",
    "home office": "office",
    "lounge": "living room",
    "sitting room": "living room",
    "guest room": "bedroom",
    "kids room": "child's room",
    "children's room": "child's room",
    "corridor": "hall",
    "entrance": "hall",
    "studio": "one room for all",
    "flat": "one room for all",
}


def purpose(notes: Notes) -> Script[None]:
    """What happens in the room, how it should feel, and who has to get through."""
    options = [*((use, use) for use in USES), (None, "something else")]
    use = yield from ask(
        a_choice(
            "What is the room for?",
            options,
            usual=len(USES),
            also={word: USES.index(use) for word, use in CALLED.items()},
        )
    )
    if use is not None:
        notes.tables["use"] = use
    feel = yield from ask(_feel())
    if feel:
        notes.tables["feel"] = list(feel)
    text = "Does anybody need wide ways through the room, with a wheelchair or a walking frame?"
    if (yield from ask(yes_or_no(text, usual=False))):
        notes.tables["walkway"] = mm(WIDE_INCHES if notes.unit == "in" else WIDE_WAY)
        return
    text = "Is a tight fit all right, as long as everything can be used?"
    example = (
        'With "no" everything keeps at least the space that published guidance asks for; fewer '
        "plans are then possible."
    )
    if not (yield from ask(yes_or_no(text, usual=True, example=example))):
        notes.tables["keep_to"] = "usual"


def _feel() -> Question[tuple[str, ...]]:
    def read(words: str) -> tuple[str, ...]:
        if words.casefold() in NOTHING:
            return ()
        parts = re.split(r"[\s,;]+|\band\b", words.casefold().strip(". "))
        found = tuple(dict.fromkeys(p for p in parts if p and p != "and"))
        if not found or not words.isprintable() or max(map(len, found)) > LONGEST_FEEL:
            raise ValueError('Plain words are needed here, such as "calm, airy".')
        if len(found) > MOST_FEEL:
            raise ValueError(f"Up to {COUNT_WORDS[MOST_FEEL]} words, please: the main ones.")
        return found

    def said(found: tuple[str, ...]) -> str:
        idle = [word for word in found if word not in FEEL]
        if not idle:
            return f"{listed(found).capitalize()}." if found else ""
        verb = "have" if len(idle) > 1 else "has"
        return f"{listed(found).capitalize()}. On the floor plan {listed(idle)} {verb} no effect."

    text = f"How should it feel? Up to three words, such as {listed(sorted(FEEL), 'or')}."
    return Question(text, read, 'Write "calm, airy", for example.', "no matter", (), said)


COUNT_WORDS = {3: "three"}


def wishes(notes: Notes) -> Script[None]:
    """What is wished of the pieces, a sentence each."""
    first, last = _example(notes), str(notes.tables["piece"][-1]["name"])
    far = spoken(YARD[notes.unit], notes.unit)
    text = (
        f'What do you wish for? One sentence at a time, such as "{first} near the window", '
        f'"{last} away from the door, at least {far}" or "{first} not '
        'against wall B".'
    )
    for _ in range(MOST_WISHES):
        row = yield from ask(_wish(text, notes))
        if row is None:
            return
        rows = notes.rows("wish")
        rows.append(row)
        faults = notes.faults()
        if faults:
            rows.pop()
            yield Said(f"That cannot be asked for. {plain(faults[0])}")
            continue
        matter = yield from ask(a_choice("How much does it matter?", MATTERS, usual=2))
        row |= COUNTS_AS[matter]
        text = "What else do you wish for?"


MATTERS = (
    ("must", "it must be so"),
    ("much", "very much"),
    ("usual", "as much as usual"),
    ("little", "a little"),
)


# How much that is in the file.
COUNTS_AS: dict[str, Row] = {
    "must": {"must": True},
    "much": {"weight": 20},
    "usual": {},
    "little": {"weight": 4},
}


def _example(notes: Notes) -> str:
    return str(notes.tables["piece"][0]["name"])


# What people say for each relation; the first that is found counts, so the longer come first.
SAID: tuple[tuple[str, str], ...] = (
    ("not_against", r"(?:not|never) (?:against|on|at|along)|off"),
    ("away_from", r"(?:far )?away from|far from|not (?:too )?(?:near|close to|next to|by)|from"),
    ("in_view_of", r"in (?:view|sight) of|with a view (?:of|to)|(?:can |should )?sees?"),
    (
        "facing",
        r"(?:turned |looking |looks? |facing )?(?:towards?|to face)|facing|faces"
        r"|look(?:s|ing)? (?:at|to)|opposite",
    ),
    ("aligned_with", r"(?:in line|aligned|lined up) (?:with|to)|cent(?:er|re)d on"),
    ("beside", r"beside|next to|at the side of"),
    ("against", r"(?:with its back )?against|along|on"),
    ("near", r"near(?:er)?(?: to)?|close to|by|at|under|within reach of"),
)
UNIT = r"(?:mm|cm|centimet(?:er|re)s?|met(?:er|re)s?|m|ft|feet|foot|inch(?:es)?|in)\b"
MARK = r"(?:'|′|\"|″)"  # noqa: RUF001  as people write feet and inches
AMOUNT = rf"\d[\d.,/ ]*(?:{MARK}|{UNIT})?(?: ?\d[\d./ ]*(?:cm|inches|in|{MARK})?)?"
NEAR = re.compile(
    r",? ?\b(?:within|(?:at|the) most|no (?:more|further|farther) than|less than|up to) "
    rf"(?P<far>{AMOUNT})(?: ?(?:away from|away|of|from))?"
)
FAR = re.compile(
    rf",? ?(?:\b(?:at least|more than|no less than|by) )?(?P<far>{AMOUNT})"
    r" ?(?P<word>away from|away|from)?"
)
FILLING = re.compile(
    r"\b(?:should|shall|must|has to|have to|to|be|stands?|standing|is|please|the|my|our|a|an|it"
    r"|i want|i would like|i'd like)\b"
)


def _wish(text: str, notes: Notes) -> Question[Row | None]:
    pieces, places = _named(notes)
    unit = notes.unit

    def read(words: str) -> Row | None:
        if words.casefold().strip(". ") in NOTHING:
            return None
        return wish_of(words, pieces, places, unit)

    def said(row: Row | None) -> str:
        return "" if row is None else f"{wish_words(row, unit)}."

    example = 'A piece, how it should stand, and to what: "desk near the window".'
    return Question(text, read, example, "that is all", None, said)


def wish_of(words: str, pieces: Mapping[str, str], places: Mapping[str, str], unit: Unit) -> Row:
    """A wish as the file has it. ``pieces`` and ``places`` are what people say, to names.

    Raises
    ------
    ValueError
        If it names no piece, nothing that is in the room, or no relation between them.
    """
    sentence, key, far = _distance(" ".join(words.casefold().split()).strip(". "), unit)
    before, relation, after = _related(sentence)
    first = _known(before, pieces, "one of your pieces")
    place = _known(after, places, "in the room")
    if relation == "against" and place in pieces.values():
        relation = "beside"  # nobody stands a piece against another with its back
    walls_only = relation in WALLS_ONLY and not _is_wall(place, places)
    if walls_only:
        relation = "near" if relation == "against" else "away_from"
    row: Row = {"piece": first, relation: place}
    if far is not None:
        wanted = "at_least" if relation == "away_from" else "within"
        if relation not in ("near", "beside", "away_from") or key not in ("", wanted):
            raise ValueError(
                'A distance goes with "near", "beside" or "away from": '
                f'"desk within {spoken(handy(1500, unit), unit)} of the window".'
            )
        row[wanted] = mm(far)
    return row


def _related(sentence: str) -> tuple[str, str, str]:
    """What stands before the relation, the relation, and what stands behind it."""
    for relation, said in SAID:
        found = re.search(rf"\b(?:{said})\b", sentence)
        if found and found.start() > 0:
            return sentence[: found.start()], relation, sentence[found.end() :]
    raise ValueError(
        "How should it stand? Near, away from, facing, against, not against, beside, in view of "
        'or in line with something: "desk near the window".'
    )


def _distance(sentence: str, unit: Unit) -> tuple[str, str, int | None]:
    """The sentence without a distance, which key that must be ("" where either), and it in mm."""
    for pattern, key, relation in ((NEAR, "within", " near "), (FAR, "at_least", " away from ")):
        for found in pattern.finditer(sentence):
            amount = found["far"].strip(" ,.")
            at_end = not sentence[found.end() :].strip()
            has_word = key == "within" or re.match(r",? ?(?:at least|more|no less|by)\b", found[0])
            followed = key == "at_least" and found["word"]
            if not (has_word or followed):
                continue
            mm_ = length_within(amount, unit, 50, LONGEST_MM)
            told = " " if at_end else relation
            left = f"{sentence[: found.start()]}{told}{sentence[found.end() :]}"
            return " ".join(left.split()), key, mm_
    return sentence, "", None


def _is_wall(place: str, places: Mapping[str, str]) -> bool:
    return any(name == place and said.startswith("wall ") for said, name in places.items())


def _known(words: str, known: Mapping[str, str], what: str) -> str:
    plain_words = " ".join(FILLING.sub(" ", words).split()).strip(" ,.")
    for said in (" ".join(words.split()), plain_words, plain_words.removesuffix("s")):
        if said in known:
            return known[said]
    like = nearest(plain_words, list(known)) if plain_words else None
    hint = f'; did you mean "{like}"?' if like else "."
    some = listed([f'"{name}"' for name in dict.fromkeys(known.values())][:14], "or")
    raise ValueError(f'"{plain_words or words.strip()}" is not {what}{hint} It can be {some}.')


def _named(notes: Notes) -> tuple[dict[str, str], dict[str, str]]:
    """What pieces, and all that a wish can be about, are called by people; to their names."""
    pieces = _piece_words(notes.tables.get("piece", ()))
    places = dict(pieces)
    seen = notes.look()
    for name in seen.wall_names:
        places |= {f"wall {name}".casefold(): name, f"{name} wall".casefold(): name}
        places.setdefault(name.casefold(), name)
    places |= {word: wall for word, wall in sided(notes).items() if word.endswith("wall")}
    room = seen.room
    if room is not None:
        fixed = [
            *((d.name, "door") for d in room.doors),
            *((w.name, "window") for w in room.windows),
        ]
        fixed += [(f.name, f.kind) for f in room.fixtures]
        for name, sort in fixed:
            places.setdefault(name.casefold(), name)
            if sum(kind == sort for _, kind in fixed) == 1:
                places.setdefault(sort.casefold(), name)
    return pieces, places


def _piece_words(rows: Sequence[Row]) -> dict[str, str]:
    """Names, and the words of the table of kinds where they can mean one entry only."""
    words = {str(row["name"]).casefold(): str(row["name"]) for row in rows}
    for row in rows:
        name = str(row["name"])
        for number in range(1, row.get("count", 1) + 1 if row.get("count", 1) > 1 else 1):
            words[f"{name} {number}".casefold()] = f"{name} {number}"
        if sum(other["kind"] == row["kind"] for other in rows) == 1:
            alike = [word for word, kind in kind_names().items() if kind == row["kind"]]
            for word in (*alike, *(word.split()[-1] for word in alike)):
                words.setdefault(word, name)
    return words


def wish_words(row: Row, unit: Unit) -> str:
    """A wish as it was understood.

    >>> wish_words({"piece": "desk", "near": "window", "within": mm(1500)}, "cm")
    'The desk near the window, within 150 cm'
    """
    key = next(key for key in RELATIONS if key in row)
    relation = {"aligned_with": "in line with"}.get(key, key.replace("_", " "))
    place = row[key]
    where = the(place) if len(place) > 2 else f"wall {place}"
    told = f"{the(row['piece'], first=True)} {relation} {where}"
    if "within" in row:
        told += f", within {spoken(row['within'], unit)}"
    if "at_least" in row:
        told += f", at least {spoken(row['at_least'], unit)}"
    return told


def cost(notes: Notes) -> Script[None]:
    """What it may all cost, and what must not be given up."""
    known = any("price" in row for row in notes.tables.get("piece", ()))
    some = any(not row.get("owned") for row in notes.tables.get("piece", ()))
    if some or known:
        budget = yield from ask(money("What may everything together cost?", "rather not say"))
        if budget is not None:
            table = notes.tables.setdefault("money", {})
            table["budget"] = budget[0]
            if budget[1]:
                table["currency"] = budget[1]
            text = "How much of it do you keep back for the unexpected, in per cent?"
            table["set_aside"] = yield from ask(a_number(text, 0, 90, usual=10))
    kept = yield from ask(_untouchable(notes))
    if kept:
        notes.tables["costs"] = {"untouchable": list(kept)}


def _untouchable(notes: Notes) -> Question[tuple[str, ...]]:
    """What stays as it is, whatever does not fit."""
    pieces = _piece_words(notes.tables.get("piece", ()))
    known = pieces | {"walkway": "walkway", "way": "walkway", "walkways": "walkway"}

    def read(words: str) -> tuple[str, ...]:
        if words.casefold() in NOTHING:
            return ()
        parts = [p for p in re.split(r"\s*(?:,|;|\band\b)\s*", words.casefold().strip(". ")) if p]
        return tuple(dict.fromkeys(_known(part, known, "one of your pieces") for part in parts))

    def said(kept: tuple[str, ...]) -> str:
        names = [the(name, first=i == 0) for i, name in enumerate(kept)]
        return f"{listed(names)} will not be given up." if kept else ""

    text = (
        "If it does not all fit: what must not be given up or made smaller? Names with commas "
        "between them."
    )
    example = f'Write for instance "{_example(notes)}".'
    return Question(text, read, example, "nothing", (), said)
