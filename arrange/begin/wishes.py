"""Asks what the room is for, how it should feel, what is wished and what it may all cost."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from arrange.begin.answers import (
    Question,
    Said,
    Script,
    a_choice,
    a_number,
    ask,
    declines,
    spoken,
    yes_or_no,
)
from arrange.begin.notes import Notes, plain
from arrange.begin.people import need_room, people
from arrange.begin.places import called, fixed, sided, wall_opposite
from arrange.begin.sentences import STANDS, insisted, known, wish_of, wish_words
from arrange.begin.special import YARD
from arrange.begin.sums import money
from arrange.data.kinds import kinds
from arrange.data.kinds import names as kind_names
from arrange.data.lengths import listed, the
from arrange.data.room import Door
from arrange.data.scenario import Use
from arrange.errors import Fault, can_be_seen
from arrange.scenario.wishes import LONGEST_FEEL, MOST_FEEL, USES
from arrange.scoring import FEEL

Row = dict[str, Any]
MOST_WISHES = 60


# What people call rooms, and what they do there.
CALLED: dict[str, Use] = {
    "study": "office",
    "home office": "office",
    "workroom": "office",
    "work": "office",
    "working": "office",
    "lounge": "living room",
    "sitting room": "living room",
    "family room": "living room",
    "front room": "living room",
    "parlour": "living room",
    "den": "living room",
    "snug": "living room",
    "tv room": "living room",
    "living": "living room",
    "relax": "living room",
    "live": "living room",
    "live and eat": "living and dining room",
    "living and eating": "living and dining room",
    "living and dining": "living and dining room",
    "living/dining room": "living and dining room",
    "living dining room": "living and dining room",
    "eat": "dining room",
    "eating": "dining room",
    "dining": "dining room",
    "sleep": "bedroom",
    "sleeping": "bedroom",
    "guest room": "bedroom",
    "spare room": "bedroom",
    "kids room": "child's room",
    "kid's room": "child's room",
    "kids' room": "child's room",
    "children's room": "child's room",
    "playroom": "child's room",
    "baby's room": "nursery",
    "baby": "nursery",
    "corridor": "hall",
    "hallway": "hall",
    "entrance": "hall",
    "landing": "hall",
    "studio": "one room for all",
    "flat": "one room for all",
    "bedsit": "one room for all",
    "everything": "one room for all",
}
# What people say for a feel that the plan knows by another word.
FEELS = {
    "cozy": "cosy",
    "homely": "cosy",
    "warm": "cosy",
    "light": "bright",
    "sunny": "bright",
    "spacious": "airy",
    "uncluttered": "airy",
    "peaceful": "quiet",
    "tranquil": "calm",
    "calming": "calm",
    "soothing": "calm",
    "tidy": "orderly",
    "neat": "orderly",
    "social": "sociable",
    "friendly": "sociable",
    "focussed": "focused",
    "relaxing": "relaxed",
    "fun": "playful",
    "elegant": "formal",
}


def purpose(notes: Notes) -> Script[None]:
    """What happens in the room, how it should feel, and who has to get through."""
    use = yield from ask(_use())
    if use is not None:
        notes.tables["use"] = use
    feel = yield from ask(_feel())
    if feel:
        notes.tables["feel"] = list(feel)
    yield from people(notes)
    if need_room(notes):
        return
    text = "Is a tight fit all right, as long as everything can be used?"
    example = (
        'With "no" everything keeps at least the space that published guidance asks for; fewer '
        "plans are then possible."
    )
    if not (yield from ask(yes_or_no(text, usual=True, example=example))):
        notes.tables["keep_to"] = "usual"


def _use() -> Question[Use | None]:
    """What the room is for; None for something that is not in the list."""
    options: list[tuple[Use | None, str]] = [(use, use) for use in USES]
    options.append((None, "something else"))
    also = {word: USES.index(use) for word, use in CALLED.items()}
    question = a_choice("What is the room for?", options, usual=len(USES), also=also)

    def read(words: str) -> Use | None:
        try:
            return question.read(words)
        except ValueError as error:
            raise ValueError(f'{error} "Something else" will do as well.') from None

    return replace(question, read=read)


def _feel() -> Question[tuple[str, ...]]:
    def read(words: str) -> tuple[str, ...]:
        if declines(words):
            return ()
        parts = re.split(r"[\s,;/]+", words.casefold().strip(". !"))
        found = tuple(dict.fromkeys(FEELS.get(p, p) for p in parts if p and p not in WEAK))
        if not found or not can_be_seen(words) or max(map(len, found)) > LONGEST_FEEL:
            raise ValueError('Plain words are needed here, such as "calm, airy".')
        if {"not", "never", "no"} & set(found):
            raise ValueError("How it should feel, please, not how it should not.")
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
# Words around those that count.
WEAK = frozenset(("a", "and", "bit", "but", "feel", "it", "quite", "rather", "really", "very"))


def wishes(notes: Notes) -> Script[None]:
    """What is wished of the pieces, a sentence each."""
    text = f"What do you wish for? One sentence at a time, such as {_such(notes)}."
    for _ in range(MOST_WISHES):
        wished = yield from ask(_wish(text, notes))
        if wished is None:
            return
        row, must = wished
        fault = _kept(notes, row)
        if fault is not None:
            yield Said(f"That cannot be asked for. {plain(fault)}")
            continue
        text = "What else do you wish for?"
        if STANDS not in row:
            usual = 0 if must else 2
            how = a_choice("How much does it matter?", MATTERS, usual=usual, also=MATTER)
            matter = yield from ask(how)
            row |= COUNTS_AS[matter]


def _such(notes: Notes) -> str:
    """Examples that can be typed as they are: of pieces, openings and walls that there are."""
    room, last = notes.look().room, str(notes.tables["piece"][-1]["name"])
    first, far = _example(notes), spoken(YARD[notes.unit], notes.unit)
    assert room is not None  # noqa: S101  walls and doors come before the pieces
    door = room.doors[0].name
    window = room.windows[0].name if room.windows else door
    wall = notes.look().wall_names[1]
    return (
        f'"{first} near {the(window)}", "{last} away from {the(door)}, at least {far}" or '
        f'"{first} not against {called(wall)}"'
    )


def _kept(notes: Notes, row: Row) -> Fault | None:
    """Take a wish up, or how a piece stands; what is wrong with it where that cannot be."""
    if STANDS not in row:
        rows = notes.rows("wish")
        rows.append(row)
        if faults := notes.faults():
            rows.pop()
            return faults[0]
        return None
    piece = next(one for one in notes.tables["piece"] if one["name"] == row["piece"])
    before = piece.get(STANDS)
    piece[STANDS] = row[STANDS]
    faults = notes.faults()
    if faults and before is None:
        piece.pop(STANDS)
    elif faults:
        piece[STANDS] = before
    return faults[0] if faults else None


MATTERS = (
    ("must", "it is a must"),
    ("much", "very much"),
    ("usual", "as much as usual"),
    ("little", "a little"),
)
MATTER = dict.fromkeys(("essential", "absolutely", "it has to", "has to be"), 0)
MATTER |= dict.fromkeys(("a lot", "lots", "very", "important", "very important", "quite a lot"), 1)
MATTER |= dict.fromkeys(("quite", "medium", "normal", "so so"), 2)
MATTER |= dict.fromkeys(
    ("a bit", "bit", "not much", "not very much", "it would be nice", "nice"), 3
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


def _check_stands(notes: Notes, name: str) -> None:
    """ValueError where it cannot be said of a piece how it stands."""
    kind = next((row["kind"] for row in notes.tables["piece"] if row["name"] == name), None)
    if kind is None:
        raise ValueError("You can say that of all of them together, not of one of them.")
    if kinds()[kind].flat:
        raise ValueError("A rug or mat lies where it is used.")


FACING_WALL = re.compile(
    r"(?:the )?wall (?:opposite|across from|facing)(?: to)? (?P<what>.+)", re.IGNORECASE
)


def _with_walls(notes: Notes, words: str) -> str:
    """The sentence with "the wall opposite the door" by the name of that wall."""
    found = FACING_WALL.search(words)
    wall = wall_opposite(notes, found["what"].casefold().strip(". ")) if found else ""
    return f"{words[: found.start()]}wall {wall}" if found and wall else words


ARTICLE = re.compile(r"^(?:an?|the|some) ")
Wished = tuple[Row, bool]  # the row, and whether the sentence says that it must be so


def _wish(text: str, notes: Notes) -> Question[Wished | None]:
    pieces, places = _named(notes)
    unit = notes.unit
    several = {row["name"] for row in notes.tables["piece"] if row.get("count", 1) > 1}
    needs = {row["name"] for row in notes.tables.get("need", ())}

    def read(words: str) -> Wished | None:
        if declines(words):
            return None
        row = wish_of(_with_walls(notes, words), pieces, places, unit)
        if STANDS in row:
            _check_stands(notes, row["piece"])
        return row, insisted(words)

    def said(wished: Wished | None) -> str:
        if wished is None:
            return ""
        row = wished[0]
        if row["piece"] in needs:
            row = row | {"piece": f'one for "{row["piece"]}"'}
        return f"{wish_words(row, unit, several)}."

    example = 'A piece, how it should stand, and to what: "desk near the window".'
    return Question(text, read, example, "that is all", None, said)


def _named(notes: Notes) -> tuple[dict[str, str], dict[str, str]]:
    """What pieces, and all that a wish can be about, are called by people; to their names."""
    pieces = _piece_words(notes.tables.get("piece", ()))
    pieces |= _need_words(notes)
    places: dict[str, str] = {}
    seen = notes.look()
    for said, one in fixed(notes).items():
        places[said] = one.name
        if isinstance(one, Door) and one.opens == "passage":
            places.setdefault(f"{said} door", one.name)
    for name in seen.wall_names:
        places |= {f"wall {name}".casefold(): name, f"{name} wall".casefold(): name}
        places.setdefault(name.casefold(), name)
    places |= {word: wall for word, wall in sided(notes).items() if word.endswith("wall")}
    places |= {word: name for word, name in pieces.items() if word not in places}
    return pieces, places


def _need_words(notes: Notes) -> dict[str, str]:
    """What is not decided, by its need and by the kinds of what could meet it: "the bed".

    What the person gave a name of its own is meant by that name.
    """
    words: dict[str, str] = {}
    for row in notes.tables.get("piece", ()):
        if isinstance(need := row.get("meets"), str):
            alike = {word for word, kind in kind_names().items() if kind == row["kind"]}
            words |= dict.fromkeys((*alike, *(word.split()[-1] for word in alike)), need)
    for row in notes.tables.get("need", ()):
        name = str(row["name"])
        words |= {name.casefold(): name, ARTICLE.sub("", name.casefold()): name}
    sure = _piece_words([r for r in notes.tables.get("piece", ()) if "meets" not in r])
    return {word: need for word, need in words.items() if word not in sure}


def _piece_words(rows: Sequence[Row]) -> dict[str, str]:
    """Names, and the words of the table of kinds where they can mean one entry only."""
    words = {str(row["name"]).casefold(): str(row["name"]) for row in rows}
    meant: dict[str, set[str]] = {}
    for row in rows:
        name = str(row["name"])
        for number in range(1, row.get("count", 1) + 1 if row.get("count", 1) > 1 else 1):
            words[f"{name} {number}".casefold()] = f"{name} {number}"
        alike = [word for word, kind in kind_names().items() if kind == row["kind"]]
        for word in (*alike, *(word.split()[-1] for word in alike)):
            meant.setdefault(word, set()).add(name)
    for word, some in meant.items():
        if len(some) == 1:
            words.setdefault(word, *some)
    return words


def cost(notes: Notes) -> Script[None]:
    """What it may all cost, and what must not be given up."""
    known = any("price" in row for row in notes.tables.get("piece", ()))
    some = any(not row.get("owned") for row in notes.tables.get("piece", ()))
    if some or known:
        budget = yield from ask(
            money("How much can you spend on everything together?", "rather not say")
        )
        if budget is not None:
            table = notes.tables.setdefault("money", {})
            table["budget"] = budget[0]
            if budget[1]:
                table["currency"] = budget[1]
            text = "How much of it do you keep back for the unexpected, in per cent?"
            table["set_aside"] = yield from ask(a_number(text, 0, 90, usual=10))
    if any("hours" in row for row in notes.tables.get("piece", ())):
        hour = yield from ask(money("What is an hour of your own work worth to you?", "nothing"))
        if hour is not None:
            notes.tables.setdefault("money", {})["hour"] = hour[0]
    kept = yield from ask(_untouchable(notes))
    if kept:
        notes.tables["costs"] = {"untouchable": list(kept)}


def _untouchable(notes: Notes) -> Question[tuple[str, ...]]:
    """What stays as it is, whatever does not fit."""
    pieces = _piece_words(notes.tables.get("piece", ()))
    names = {said: one.name for said, one in fixed(notes).items()} | pieces
    names |= {"walkway": "walkway", "way": "walkway", "walkways": "walkway"}

    def read(words: str) -> tuple[str, ...]:
        if declines(words):
            return ()
        parts = [p for p in re.split(r"\s*(?:,|;|\band\b)\s*", words.casefold().strip(". ")) if p]
        return tuple(dict.fromkeys(known(part, names, "one of your pieces") for part in parts))

    def said(kept: tuple[str, ...]) -> str:
        names = [the(name, first=i == 0) for i, name in enumerate(kept)]
        return f"{listed(names)} will not be given up." if kept else ""

    text = (
        "If it does not all fit: what must not be given up, made smaller or changed? Names with "
        "commas between them; a door or the walkway may be among them."
    )
    example = f'Write for instance "{_example(notes)}".'
    return Question(text, read, example, "nothing", (), said)
