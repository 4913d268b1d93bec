"""Colours and looks: of pieces, whose they are and which one leads; of textiles and paint.

People name colours; a file has them as screens do. The names are those of a survey in which some
hundred thousand people named colours on their screens, which matplotlib has with their values. A
name is a rough guide: the value is said back.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import Any

from arrange.begin.answers import Question, Said, Script, ask, declines
from arrange.begin.notes import Notes, plain
from arrange.data.lengths import listed, the
from arrange.errors import can_be_seen
from arrange.scenario.colours import LONGEST_TAG, MOST_TAGS
from arrange.scenario.table import LONGEST_TEXT

Row = dict[str, Any]
IT = r"(?:it |they |its |the )?(?:is |are |'s |'re )?"
COLOURED = re.compile(
    rf"{IT}(?P<sure>colou?r(?:ed)?(?: is| are|:)? |painted |in )?(?:a |all |mostly |mainly )?"
    r"(?P<what>#[0-9a-f]{6}|#[0-9a-f]{3}|[a-z][a-z' -]+?)(?P<named> (?:in )?colou?r)?"
    r"(?:,? and (?:it )?(?P<leads>.+))?"
)
LEADS = re.compile(
    r"(?:it |they )?(?:leads?|sets? (?:the )?(?:colou?rs?|tone|scheme)|(?:is|are) the lead"
    r"|comes? first)(?: (?:of|for|in) .+)?|(?:the |all )?(?:other )?(?:colou?rs?|everything|all)"
    r"(?: else)? (?:should |must |has to |have to )?(?:go(?:es)? with|match(?:es)?|follows?)"
    r" (?:it|them)"
)
FEELS = re.compile(
    r"(?:it |they )?(?:looks?|feels?|seems?)(?: rather| quite| very)?"
    r" (?!(?:at|to|towards?|out|on|into|like|over|away)\b)(?P<words>[a-z].*)"
)
OWNER = (
    r"(?:it |they )?(?:is |are |'s )?(?:only )?(?:used by |for |of |belongs? to )?"
    r"(?P<who>{who})(?:'s?)?(?: (?:own|alone|only|uses it|uses them|sleeps (?:in|on) it"
    r"|sits (?:in|on) it|works at it|bed|chair|desk|place))?"
)
AND = re.compile(r"\s*(?:,|\band\b|/)\s*")


def looks_of(word: str, people: Sequence[str] = ()) -> Row:
    """What a sentence in small letters says of its owner or looks; {} if nothing.

    ValueError where it names a colour that is not known, or says too much.

    >>> looks_of("it is dark blue and sets the colours")
    {'colour': '#00035b', 'lead': True}
    >>> looks_of("it looks calm and warm"), looks_of("it's grandma's", ["Grandma", "Ada"])
    ({'tags': ['calm', 'warm']}, {'whose': 'Grandma'})
    """
    word = word.replace("\u2019", "'").replace("it's ", "it is ").replace("they're ", "they are ")
    if whose := _whose(word, people):
        return {"whose": whose[0] if len(whose) == 1 else whose}
    if LEADS.fullmatch(word):
        return {"lead": True}
    if feels := FEELS.fullmatch(word):
        return {"tags": _tags(feels["words"])}
    return _coloured(word)


def _whose(word: str, people: Sequence[str]) -> list[str]:
    """Those of the people who are named as its owners; none where it says anything else."""
    known = {name.casefold(): name for name in people}
    if not known:
        return []
    one = "|".join(re.escape(name) for name in sorted(known, key=len, reverse=True))
    several = rf"(?:{one})(?:(?:'s?)?(?: and |, )(?:{one}))*"
    found = re.fullmatch(OWNER.replace("{who}", several), word)
    return [known[name] for name in dict.fromkeys(re.findall(one, found["who"]))] if found else []


def _tags(words: str) -> list[str]:
    tags = list(dict.fromkeys(part for part in AND.split(words) if part))
    if len(tags) > MOST_TAGS or max(map(len, tags), default=0) > LONGEST_TAG:
        raise ValueError(f"Up to {MOST_TAGS} plain words, please, such as calm and warm.")
    return tags


def _coloured(word: str) -> Row:
    """Its colour, and whether all other colours follow it."""
    found = COLOURED.fullmatch(word)
    colour = _hex(found["what"]) if found else ""
    if found is None or not colour:
        if found and (found["named"] or found["sure"] in ("colour ", "colour: ", "colour is ")):
            raise ValueError(
                f'"{found["what"]}" is not a colour we know. Use a plain one, such as "dark green" '
                'or "light brown", or a code as on screens, such as "#46647a".'
            )
        return {}
    if found["leads"] is None:
        return {"colour": colour}
    return {"colour": colour, "lead": True} if LEADS.fullmatch(found["leads"]) else {}


def _hex(name: str) -> str:
    """A colour as screens have it; "" for a name that is not known."""
    return name if name.startswith("#") else _named().get(_plain(name), "")


def _plain(name: str) -> str:
    """A name as it is compared: small differences of spelling do not count."""
    return re.sub(r"[^a-z]", "", name.replace("gray", "grey"))


@cache
def _named() -> dict[str, str]:
    from matplotlib.colors import XKCD_COLORS, to_hex  # noqa: PLC0415  slow to load, and few need it

    return {_plain(name.partition(":")[2]): to_hex(value) for name, value in XKCD_COLORS.items()}


def told(row: Row) -> str:
    """What was understood of it, in words; "" if nothing was."""
    if "whose" in row:
        whose = row["whose"]
        return f"only {listed([whose] if isinstance(whose, str) else whose)} uses it"
    if "tags" in row:
        return f"it looks {listed(row['tags'])}"
    colour = f"its colour is {row['colour']} on a screen" if "colour" in row else ""
    leads = "all other colours follow it" if row.get("lead") else ""
    return listed([part for part in (colour, leads) if part])


# -- textiles and paint -------------------------------------------------------
MOST = 40  # sentences
SUCH = '"the curtains are pale green" or "paint morning mist is #c8d5d0"'
SENTENCE = re.compile(
    r"(?:the |my |our |some )?(?P<name>.+?)(?:,? (?:is|are|would be|in)|:| =|,) (?P<looks>.+)",
    re.IGNORECASE,
)
PAINT = re.compile(r"(?:(?:wall )?paint|chip|paint chip)(?: called)? (?P<name>.+)", re.IGNORECASE)
PAINTED = re.compile(r"\b(?:paint|chip|walls?|ceiling)\b", re.IGNORECASE)
Swatch = tuple[str, Row]  # "textile" or "paint", and its table


def swatches(notes: Notes) -> Script[None]:
    """Every textile and paint, a sentence each."""
    text = (
        "Are there other colours to go with these: curtains, cushions, a rug that is not in the "
        f"list, or paint? One sentence at a time, such as {SUCH}."
    )
    for _ in range(MOST):
        found = yield from ask(_swatch(text))
        if found is None:
            return
        of, row = found
        rows = notes.rows(of)
        rows.append(row)
        if faults := notes.faults():
            rows.pop()
            yield Said(f"That cannot be right. {plain(faults[0])}")
            continue
        text = "Another colour?"


def _swatch(text: str) -> Question[Swatch | None]:
    def read(words: str) -> Swatch | None:
        return None if declines(words) else swatch_of(words)

    def said(found: Swatch | None) -> str:
        if found is None:
            return ""
        of, row = found
        what = "paint" if of == "paint" else "a textile"
        return f"{the(row['name'], first=True)}, {what}: {told(row)}."

    example = f"Write what it is and its colour: {SUCH}. Just press Enter for nothing."
    return Question(text, read, example, "nothing", None, said)


def swatch_of(words: str) -> Swatch:
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
        raise ValueError(f'"{found["looks"]}" is not a colour we know. Write it like {SUCH}.')
    if not can_be_seen(name) or len(name) > LONGEST_TEXT:
        raise ValueError("A few words are enough for what it is.")
    of = "paint" if PAINTED.search(name) else "textile"
    chip = PAINT.fullmatch(name)
    return of, {"name": chip["name"] if chip else name, "colour": looks["colour"]}
