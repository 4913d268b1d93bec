"""Asks who lives or stays in the room and needs something special, and what that is.

Nobody need be named: for a room where nobody does, it is one question.
"""

from __future__ import annotations

import re
from typing import Any

from arrange.begin.answers import (
    Question,
    Script,
    a_choice,
    a_length_or_none,
    a_text,
    ask,
    declines,
    handy,
    length_within,
    spoken,
    yes_of,
    yes_or_no,
)
from arrange.begin.notes import Notes, mm
from arrange.begin.spelt import bare, in_digits
from arrange.data.lengths import measured
from arrange.data.people import keeps_usual
from arrange.data.person import AIDS, TALL, YOUNG, Aid, Person
from arrange.data.scenario import Unit
from arrange.scenario.limits import MOST
from arrange.scenario.people import HEIGHTS, OLDEST
from arrange.scenario.wishes import WALKWAYS, WIDE_WAY

Row = dict[str, Any]
MONTHS_A_YEAR = 12
CHILD = 13  # years: nobody is asked whether somebody older climbs on the furniture
# "My father walks with a stick" is a yes.
SPECIAL = re.compile(
    r"\b(?:stick|cane|crutch|crutches|frame|walker|rollator|wheelchair|child|children|kids?|toddler|baby|twins"
    r"|grandma|granny|grandmother|grandpa|grandfather)\b"
)
AGED = re.compile(r"\b(?:years?|months?|old|aged?)\b")
THEY = r"(?:(?:he|she|they)(?: is| are|'s|'re) )?(?:about |nearly |turning |aged? )*"
MONTHS = re.compile(rf"{THEY}(?P<many>\d{{1,3}})[ -]months?(?:[ -]old)?")
YEARS = re.compile(
    rf"{THEY}(?P<many>\d{{1,3}})(?: 1/2)?(?:[ -]years?)?(?: 1/2)?(?: (?:and )?\d+ months?)?"
    r"(?:[ -]old)?"
)
BABY = re.compile(r"\b(?:baby|newborn|new-born|weeks?|days?)\b")
USES: tuple[tuple[Aid | None, str], ...] = (
    (None, "none of them"),
    *((aid, f"{'' if aid == 'crutches' else 'a '}{aid}") for aid in AIDS),
)
AID_WORDS = {"no": 0, "none": 0, "nothing": 0, "neither": 0, "cane": 1, "walking stick": 1}
AID_WORDS |= {"walker": 3, "rollator": 3, "frame": 3, "wheel chair": 4}


def people(notes: Notes) -> Script[None]:
    """Everybody whom the plan has to know of, and how wide the ways are if that is said."""
    found: bool | int | str = yield from ask(_somebody(notes.unit))
    if isinstance(found, int) and not isinstance(found, bool):
        notes.tables["walkway"] = mm(found)
        return
    while found:
        row = yield from _person(notes, found if isinstance(found, str) else "")
        notes.rows("person").append(row)
        if len(notes.rows("person")) >= MOST["person"]:
            return
        found = yield from ask(yes_or_no("Is there anybody else like that?", usual=False))


def need_room(notes: Notes) -> bool:
    """Whether what was said of them has the whole room keep what published guidance asks."""
    named = [Person(**row) for row in notes.tables.get("person", ())]
    return notes.tables.get("walkway", 0) >= WIDE_WAY or keeps_usual(named) is not None


def _somebody(unit: Unit) -> Question[bool | int | str]:
    """Yes, no, what was said of somebody, or how wide the ways are to be, in mm."""
    text = (
        "Does somebody live or stay here who needs something special, such as a small child, or "
        "somebody with a stick or a wheelchair?"
    )
    wide = f'"{measured(handy(800, unit), unit)}"'

    def read(words: str) -> bool | int | str:
        word = in_digits(words.casefold())
        amount = re.search(r"\d.*", word)
        somebody = SPECIAL.search(word) or AGED.search(word)
        if amount and not somebody:
            return length_within(amount[0], unit, *WALKWAYS)
        found = yes_of(words)
        if found is None and not somebody:
            raise ValueError(
                f'Please answer "yes" or "no", or say how wide walkways must be: {wide}.'
            )
        return found is not False and (word if somebody else True)

    def said(found: bool | int | str) -> str:
        if isinstance(found, bool | str):
            return ""
        return f"Walkways {spoken(found, unit)} wide stay free."

    example = (
        'Answer "yes" or "no". With "yes" a few questions follow about who it is. If you only need '
        f"wide walkways, write how wide: {wide}."
    )
    return Question(text, read, example, "no", False, said)


def _person(notes: Notes, told: str) -> Script[Row]:
    """One of them, of whom so much was ``told``: what is not said is left out of the file."""
    taken = [str(row["name"]) for row in notes.rows("person")]
    name = yield from ask(
        a_text("What do you call them?", 'Any name will do: "Grandma".', taken=taken)
    )
    row: Row = {"name": name}
    age = yield from ask(_age())
    if age is not None:
        row["age"] = age
    tall = f"Are they taller than {measured(handy(TALL, notes.unit), notes.unit)}? If so, how tall?"
    height = yield from ask(a_length_or_none(tall, notes.unit, *HEIGHTS, nothing="no"))
    if height is not None:
        row["height"] = mm(height)
    text = "Do they use one of these?"
    uses = yield from ask(a_choice(text, USES, usual=aid_in(told), also=AID_WORDS))
    if uses is not None:
        row["uses"] = uses
    if age is not None and 0 < age < CHILD:
        row["climbs"] = yield from ask(yes_or_no("Do they climb on things?", usual=age < YOUNG))
    if (yield from ask(yes_or_no("Do they sleep in this room?", usual=False))):
        row["sleeps_here"] = True
        text = "Do they get up at night?"
        if (yield from ask(yes_or_no(text, usual=False))):
            row["up_at_night"] = True
    return row


def aid_in(told: str) -> int:
    """Which of ``USES`` somebody is said to have, by its number; 0 where none is.

    >>> [USES[aid_in(text)][0] for text in ("my father walks with a cane", "a small child")]
    ['stick', None]
    """
    known = {str(aid): i for i, (aid, _) in enumerate(USES) if aid} | AID_WORDS
    return next((i for word, i in known.items() if i and re.search(rf"\b{word}\b", told)), 0)


def _age() -> Question[int | None]:
    """In whole years, as it is counted; None where it is not said."""

    def read(words: str) -> int | None:
        if declines(words):
            return None
        age = age_of(words)
        if age is None or age > OLDEST:
            raise ValueError(f"Write an age from 0 to {OLDEST} years, such as 3 or 81.")
        return age

    example = 'Write their age in years, such as 3 or 81. Roughly will do: "about 80".'
    return Question("How old are they?", read, example, "rather not say", None, _years)


def age_of(words: str) -> int | None:
    """Whole years, as people say an age; None if it is none.

    >>> [age_of(text) for text in ("eighteen months", "about 80", "two and a half", "a baby")]
    [1, 80, 2, 0]
    >>> age_of("2 years and 3 months"), age_of("she is eighty-one"), age_of("17 cats")
    (2, 81, None)
    """
    word = bare(words)
    if months := MONTHS.fullmatch(word):
        return int(months["many"]) // MONTHS_A_YEAR
    if years := YEARS.fullmatch(word):
        return int(years["many"])
    return 0 if BABY.search(word) else None


def _years(age: int | None) -> str:
    return "" if age is None else f"{age} year{'' if age == 1 else 's'} old."
