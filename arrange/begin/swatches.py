"""Asks for colours that are no piece's: textiles, and paint to hold against the rest."""

from __future__ import annotations

import re

from arrange.begin.answers import Question, Said, Script, ask, declines
from arrange.begin.looks import Row, looks_of
from arrange.begin.looks import told as looks_told
from arrange.begin.notes import Notes, plain
from arrange.data.lengths import the
from arrange.errors import can_be_seen
from arrange.scenario.table import LONGEST_TEXT

MOST = 40  # sentences
SUCH = '"the curtains are pale green" or "paint morning mist is #c8d5d0"'
SENTENCE = re.compile(
    r"(?:the |my |our |some )?(?P<name>.+?)(?:,? (?:is|are|would be|in)|:| =|,) (?P<looks>.+)",
    re.IGNORECASE,
)
PAINT = re.compile(r"(?:(?:wall )?paint|chip|paint chip)(?: called)? (?P<name>.+)", re.IGNORECASE)
PAINTED = re.compile(r"\b(?:paint|chip|walls?|ceiling)\b", re.IGNORECASE)
Told = tuple[str, Row]  # "textile" or "paint", and its table


def swatches(notes: Notes) -> Script[None]:
    """Every textile and paint, a sentence each."""
    text = (
        "Are there colours to go with the rest, of curtains, cushions, a rug that is no piece, or "
        f"paint? One sentence at a time, such as {SUCH}."
    )
    for _ in range(MOST):
        told = yield from ask(_swatch(text))
        if told is None:
            return
        of, row = told
        rows = notes.rows(of)
        rows.append(row)
        if faults := notes.faults():
            rows.pop()
            yield Said(f"That cannot be. {plain(faults[0])}")
            continue
        text = "Another colour?"


def _swatch(text: str) -> Question[Told | None]:
    def read(words: str) -> Told | None:
        return None if declines(words) else swatch_of(words)

    def said(told: Told | None) -> str:
        if told is None:
            return ""
        of, row = told
        what = "paint" if of == "paint" else "a textile"
        return f"{the(row['name'], first=True)}, {what}: {looks_told(row)}."

    example = f"Write what it is and its colour: {SUCH}. Enter for nothing."
    return Question(text, read, example, "nothing", None, said)


def swatch_of(words: str) -> Told:
    """What a sentence says of a textile or a paint; ValueError in a sentence if nothing.

    >>> swatch_of("the curtains are pale green")
    ('textile', {'name': 'curtains', 'colour': '#c7fdb5'})
    >>> swatch_of("paint Morning Mist is #c8d5d0")
    ('paint', {'name': 'Morning Mist', 'colour': '#c8d5d0'})
    """
    found = SENTENCE.fullmatch(words.strip(". "))
    if found is None:
        raise ValueError(f"Say what it is and its colour, please: {SUCH}.")
    name, looks = found["name"].strip(), looks_of(found["looks"].casefold())
    if "colour" not in looks:
        raise ValueError(f'"{found["looks"]}" is no colour that is known here. Such as {SUCH}.')
    if not can_be_seen(name) or len(name) > LONGEST_TEXT:
        raise ValueError("A few words are enough for what it is.")
    of = "paint" if PAINTED.search(name) else "textile"
    chip = PAINT.fullmatch(name)
    return of, {"name": chip["name"] if chip else name, "colour": looks["colour"]}
