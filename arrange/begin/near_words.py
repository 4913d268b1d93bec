"""What piece somebody means: their own words to the table of kinds.

The table knows other names of its kinds. Here is what people say around them: how many, an
article, an adjective, a plural, and words that could mean several kinds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from arrange.begin.answers import COUNTED, COUNTS
from arrange.data.kinds import OTHER, SEVERAL, kinds_meant, names
from arrange.data.lengths import like

MOST_GUESSES = 5
BEGINNING = 4  # letters: a "rocker" may be a rocking chair
NO_FLOOR = (
    *("table lamp", "desk lamp", "bedside lamp", "ceiling lamp", "ceiling light", "pendant"),
    *("curtain", "blind", "picture", "poster", "cushion", "vase", "clock", "wall lamp"),
    *("pinboard", "pin board", "whiteboard", "hook", "noticeboard", "wall light"),
)
COUNT = re.compile(
    rf"(?P<count>\d{{1,2}}|{'|'.join(sorted(COUNTED, key=len, reverse=True))})"
    r"(?: ?x)?\s+(?P<rest>(?!(?:seat(?:er)?|door|drawer|piece|poster|person|tier)\b).+)"
)
TABLE_FOR = re.compile(rf"(?:dining |kitchen )?table for (?P<many>\d|{'|'.join(COUNTS[2:9])})\b")
TABLES = {2: "two", 4: "four", 6: "six", 8: "eight"}
CALLED = re.compile(
    r"(?P<what>.+?),? (?:called|named|known as|(?:that |which )?(?:we|i) call(?: it| her| him)?)"
    r",? (?P<name>.+)"
)
# "sofa bed, 1.90 wide", "round table 1.10 across": how large it is, is asked
SIZED = re.compile(
    r",\s*\d.*$|\s+(?:about |of )?\d[\d.,/ '\"]*"
    r"(?:(?:mm|cm|m|ft|feet|foot|in|inch(?:es)?|met(?:er|re)s?)\b(?: ?\d+)?"
    r"(?: ?(?:wide|across|long|high|deep|tall))?|(?:wide|across|long|high|deep|tall)"
    r"|(?:x|by) ?\d.*)$"
)
JOINING = re.compile(r" (?:with|on|for|to|in|of|that|which|under|from|at|where|beside|by) ")
ARTICLES = ("the ", "my ", "our ", "some ", "another ")


@dataclass(frozen=True, slots=True)
class Meant:
    """How many of which piece, in the person's own words, and the kinds that it may be.

    ``sure`` says that the words are known, and not only like some that are.
    """

    words: str
    count: int
    guesses: tuple[str, ...]
    name: str = ""
    sure: bool = True

    @property
    def clear(self) -> str | None:
        """The kind where there can be only one."""
        return self.guesses[0] if self.sure and len(self.guesses) == 1 else None


def meant(text: str) -> Meant:
    """What is meant by "two old armchairs" or "a tv".

    >>> meant("two old armchairs").count, meant("two old armchairs").clear
    (2, 'armchair')
    >>> meant("a tv").clear, meant("nightstand").clear, meant("wardobe").guesses[0]
    ('tv unit', 'bedside table', 'wardrobe')
    """
    words = SIZED.sub("", " ".join(text.split())).strip(".,; ")
    called = CALLED.fullmatch(words)
    name = called["name"].strip("\"' ") if called else ""
    words = called["what"] if called else words
    folded = words.casefold()
    count = 1
    found = COUNT.fullmatch(folded)
    if found:
        count = int(found["count"]) if found["count"].isdigit() else COUNTED[found["count"]]
        words = words[len(words) - len(found["rest"]) :]
    if table := TABLE_FOR.search(words.casefold()):
        many = COUNTED.get(table["many"]) or int(table["many"])
        seats = next((seats for seats in TABLES if seats >= many), max(TABLES))
        words = f"dining table for {TABLES[seats]}"
    for article in ARTICLES:
        if words.casefold().startswith(article):
            words = words[len(article) :]
    one, guesses, sure = _kinds(_without_the_rest(words))
    return Meant(one, count, guesses, name, sure)


def _without_the_rest(words: str) -> str:
    """What it is, without what is told of it: "telly on a low cabinet".

    >>> _without_the_rest("telly on a low cabinet"), _without_the_rest("chest of drawers")
    ('telly', 'chest of drawers')
    """
    for found in reversed(list(JOINING.finditer(words))):
        parts, head = words.casefold().split(), words[: found.start()]
        ends = [" ".join(parts[i:]) for i in range(len(head.split()))]
        ends += [re.sub(r"^(\S+)s ", r"\1 ", end) for end in ends]  # "chests of drawers"
        if any(end in names() or end in SEVERAL for end in ends):
            return words  # a name goes across: "old chest of drawers"
        if kinds_meant(head)[1]:
            words = head
    return words


def two_kinds(words: str) -> bool:
    """Whether several kinds are named at once: "table and 4 chairs"."""
    first, _, second = words.casefold().partition(" and ")
    return bool(second) and all(kinds_meant(one)[1] for one in (first, second))


def takes_no_floor(words: str) -> bool:
    """Whether what is named stands on something else or hangs: a table lamp, a curtain."""
    return words.casefold().removesuffix("s").endswith(NO_FLOOR)


def _kinds(words: str) -> tuple[str, tuple[str, ...], bool]:
    """The words in the singular, the kinds they may mean, and whether the words are known."""
    one = re.sub(r"^(\S+)s (?=of )", r"\1 ", words)
    known, found = kinds_meant(one if one.casefold() in names() else words)
    if found:
        return known, found, True
    every = [*names(), *SEVERAL]
    similar = like(words, every, MOST_GUESSES, cutoff=0.75)
    begin = words.casefold()[:BEGINNING]
    similar += [word for word in every if len(begin) == BEGINNING and word.startswith(begin)]
    guessed = [kind for word in similar for kind in SEVERAL.get(word, (names().get(word, ""),))]
    likely = dict.fromkeys(g for g in guessed if g and g != OTHER)
    return words, tuple(likely)[:MOST_GUESSES], False
