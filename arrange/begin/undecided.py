"""Asks what is not decided yet: what must be possible in the room, and all that it could be.

What is said here becomes ``[[need]]`` and pieces that meet it; then the first plan is that of
``arrange choose``.
"""

from __future__ import annotations

import re
from typing import Any

from arrange.begin.answers import (
    COUNTED,
    COUNTS,
    Question,
    Said,
    Script,
    a_choice,
    ask,
    declines,
    length_of,
    yes_or_no,
)
from arrange.begin.near_words import Meant
from arrange.begin.notes import Notes, mm, plain
from arrange.begin.pieces import Row, added, all_taken, many, what
from arrange.data.kinds import SEVERAL, names
from arrange.data.lengths import a_or_an
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.counted import COUNTS as COUNTING
from arrange.scenario.limits import MOST_PIECES
from arrange.scenario.table import LONGEST_TEXT

MOST_NEEDS = 20
SUCH = '"somewhere to sleep", "hanging space", "a table to eat at for 4", "a desk" or "a lamp"'
MISSED = (
    ("much", "very much"),
    ("usual", "somewhat"),
    ("little", "a little"),
)
MISS = dict.fromkeys(("a lot", "lots", "badly", "much", "very"), 0)
MISS |= dict.fromkeys(("quite", "medium", "normal", "as usual", "so so"), 1)
MISS |= dict.fromkeys(("a bit", "bit", "not much", "not very much", "hardly"), 2)
PEOPLE = {
    "seats": re.compile(
        r"\b(?:eat|eats|eating|dine|dines|dining|meals?|supper|dinner|breakfast)\b"
    ),
    "sleeps": re.compile(r"\b(?:sleep|sleeps|sleeping|beds?)\b"),
}
NUMBER = rf"\d{{1,2}}|{'|'.join(COUNTS[1:])}"
FOR_SO_MANY = re.compile(
    rf"\bfor (?P<many>{NUMBER})\b(?! (?:[a-z]*days?|nights?|weeks?|hours?|months?)\b)"
    rf"|\b(?P<who>{NUMBER}) (?:people|persons|of us|friends|guests|children|kids)\b"
    rf"|\b(?P<they>{NUMBER}) (?:can |could |may )?(?:eat|sleep)\b"
)
HUNG = re.compile(
    r"\b(?:hang|hanging|hangs)\b.*?(?P<wide>\d[\d.,]* ?(?:mm|cm|m|ft|feet|in|inch(?:es)?)\b)"
)
# What going without takes off the points of a plan, as people would say it.
TAKES_OFF: dict[str, Row] = {"much": {"points": 20}, "usual": {}, "little": {"points": 4}}


def undecided(notes: Notes) -> Script[None]:
    """Everything that could be had in more than one way, one need at a time."""
    text = (
        "Is there something you need but have not decided on yet? Then say what you need, such as "
        f"{SUCH}, and we compare everything it could be, with what it costs."
    )
    while many(notes) < MOST_PIECES and len(notes.tables.get("need", ())) < MOST_NEEDS:
        name = yield from ask(_need(text, notes))
        if name is None:
            return
        row: Row = {"name": name}
        notes.rows("need").append(row)
        yield from _all_it_could_be(notes, name)
        yield from enough(notes, row)
        text = "Is anything else not decided yet?"
        if not (yield from ask(yes_or_no(f'Could you do without "{name}"?', usual=False))):
            continue
        row["may_lack"] = True
        how = a_choice("How much would you miss it?", MISSED, usual=1, also=MISS)
        row |= TAKES_OFF[(yield from ask(how))]


def _need(text: str, notes: Notes) -> Question[str | None]:
    some = bool(notes.tables.get("piece"))

    def read(words: str) -> str | None:
        if declines(words):
            if not some:
                raise ValueError("Then there is nothing to arrange yet. What do you need there?")
            return None
        name = words.strip(".,;: ")
        for before in ("i need ", "we need ", "need "):
            if name.casefold().startswith(before):
                name = name[len(before) :]
        if not (name[:1].isalpha() and can_be_seen(name) and len(name) <= LONGEST_TEXT):
            raise ValueError(f"A few words are enough, such as {SUCH}.")
        if name.casefold() in (*names(), *SEVERAL):  # what meets it may be called so
            name = a_or_an(name)
        if name.casefold() in all_taken(notes):
            raise ValueError(f'There is a "{name}" already: say what you need in other words.')
        return name

    example = f"Write for instance {SUCH}; we ask next what it could be."
    return Question(text, read, example, "nothing" if some else None, None)


def _all_it_could_be(notes: Notes, need: str, *, more: bool = False) -> Script[None]:
    """Every way to meet a need: a piece of its own, or one that was named for another need."""
    text = (
        f'What could you use for "{need}"? One thing at a time: what you have, could buy or could '
        "make over."
    )
    found = int(more)
    if more:
        text = f'What else could you use for "{need}"?'
    while many(notes) < MOST_PIECES:
        wanted = yield from ask(_way(text, notes, need, some=found > 0))
        if wanted is None:
            return
        if isinstance(wanted, Meant):
            yield from added(notes, wanted, need=need)
        else:
            wanted["meets"] = [*_needs_of(wanted), need]
            yield Said(f'That is the same "{wanted["name"]}", then.')
        text = f'What else could you use for "{need}"?'
        found += 1


def counted_of(need: str, unit: Unit) -> tuple[str, int] | None:
    """What somebody says that a need is for, and how much of it; None where they do not.

    >>> counted_of("a table to eat at for 4", "cm"), counted_of("somewhere for two to sleep", "cm")
    (('seats', 4), ('sleeps', 2))
    >>> counted_of("hanging space 1.2 m", "cm"), counted_of("a desk for two", "cm")
    (('hanging', 1200), None)
    """
    words = need.casefold()
    if hung := HUNG.search(words):
        return "hanging", length_of(hung["wide"], unit)
    found = FOR_SO_MANY.search(words)
    if found is None:
        return None
    said = found["many"] or found["who"] or found["they"]
    number = COUNTED.get(said) or int(said)
    key = next((key for key, about in PEOPLE.items() if about.search(words)), None)
    return None if key is None or not number else (key, number)


def enough(notes: Notes, row: Row) -> Script[None]:
    """Count what was named for a need that says for how many it is, and ask on where it lacks."""
    counted = counted_of(row["name"], notes.unit)
    if counted is None or counted[1] > COUNTING[counted[0]].most:
        return
    key, amount = counted
    count = COUNTING[key]
    asked = count.said(amount, notes.unit)
    while True:
        row[key] = mm(amount) if count.length else amount
        faults = notes.faults()
        if not faults:
            yield Said(f"We compare whatever {count.verb} {asked} together.")
            return
        del row[key]
        yield Said(f"{plain(faults[0])} {count.hint[:1].upper()}{count.hint[1:]}.")
        more = yes_or_no("Is there anything else you could use for it?", usual=True)
        if many(notes) >= MOST_PIECES or not (yield from ask(more)):
            yield Said("Then it is not counted.")
            return
        yield from _all_it_could_be(notes, row["name"], more=True)


def _needs_of(row: Row) -> list[str]:
    met = row["meets"]
    return [met] if isinstance(met, str) else list(met)


def _way(text: str, notes: Notes, need: str, *, some: bool) -> Question[Meant | Row | None]:
    """What was named for another need is meant by its name; all else is a piece to be added."""
    rows: list[dict[str, Any]] = notes.tables.get("piece", [])
    known = {
        str(row["name"]).casefold(): row
        for row in rows
        if "meets" in row and need not in _needs_of(row)
    }
    question = what(text, notes, some=some)

    def read(words: str) -> Meant | Row | None:
        word = words.casefold().strip(". ")
        same = known.get(word) or known.get(word.removeprefix("the "))
        return same if same is not None else question.read(words)

    return Question(text, read, question.example, question.usual)
