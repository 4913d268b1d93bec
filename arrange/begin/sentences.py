"""Reads a wish as people say it: a piece, how it should stand, to what, and perhaps how far.

Nothing here asks: a sentence and the names that are known go in, a row of the file comes out.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from typing import Any

from arrange.begin.answers import handy, length_within, spoken
from arrange.begin.notes import mm
from arrange.begin.spelt import in_digits
from arrange.data.lengths import listed, nearest, the
from arrange.data.scenario import Unit
from arrange.scenario.table import LONGEST_MM
from arrange.scenario.wishes import RELATIONS, WALLS_ONLY

Row = dict[str, Any]
STANDS = "stands"  # a row with it is no wish, but says how the piece stands
# What people say for each relation. The first in the sentence counts, and of two that begin
# there the first in this list, so the longer come first.
SAID: tuple[tuple[str, str], ...] = (
    ("not_against", r"(?:not|never) (?:against|on|at|along)|off"),
    (
        "away_from",
        r"(?:far )?away from|far from|clear of"
        r"|not (?:too |anywhere |right )?"
        r"(?:near|close to|next to|beside|by|in front of|under(?:neath)?"
        r"|below|in)|from",
    ),
    (
        "in_view_of",
        r"in (?:view|sight) of|with a view (?:of|to|over)|(?:can |should )?sees?"
        r"|overlook(?:s|ing)?",
    ),
    (
        "facing",
        r"(?:turned |looking |looks? |facing )?(?:towards?|to face)|facing|faces?"
        r"|look(?:s|ing)? (?:at|to|out of|out at)|opposite(?: to)?|across from",
    ),
    (
        "aligned_with",
        r"(?:in line|aligned|lined up|level) (?:with|to)"
        r"|(?:centred|centered) (?:on|under|below|in front of|opposite)|in the middle of",
    ),
    (
        "beside",
        r"beside|next to|alongside|(?:at|on|to) (?:the|each|either|both) sides? of"
        r"|to the (?:left|right) of",
    ),
    ("against", r"with its back (?:to|against)|against|along|on"),
    (
        "near",
        r"near(?:er)?(?: to)?|close(?:r)? to|by|at|under(?:neath)?|in front of|within reach of",
    ),
)
UNIT = r"(?:mm|cm|centimet(?:er|re)s?|met(?:er|re)s?|m|ft|feet|foot|inch(?:es)?|in)\b"
MARK = r"(?:'|′|\"|″)"  # noqa: RUF001  as people write feet and inches
AMOUNT = rf"\d[\d.,/ ]*(?:{MARK}|{UNIT})?(?: ?\d[\d./ ]*(?:cm|inches|in|{MARK})?)?"
NEAR = re.compile(
    r",? ?\b(?:within|(?:at|the) most|no (?:more|further|farther) than|less than|up to) "
    rf"(?P<far>{AMOUNT})(?: ?(?:away from|away|of|from))?"
)
FAR = re.compile(
    rf",? ?(?:\b(?:by )?(?:at least|more than|no less than) |\bby )?(?P<far>{AMOUNT})"
    r" ?(?P<word>away from|away|from)?"
)
FILLING = re.compile(
    r"\b(?:should|shall|must|has to|have to|needs? to|ought to|will|can|to|be|stands?|standing|is"
    r"|are|goes?|go|please|the|my|our|a|an|it|them|keep|put|place|leave|have|get|want|like|love"
    r"|placed|somewhere|with|so that|all|both|each|i'd|we'd|i|we|would|ideally|always)\b"
)
# "the wardrobe must not be next to the window": "not" comes to stand before the relation.
NOT = re.compile(
    r"\b(?:(?:must|should|shall|may|can|do|does|would|will|is|are|need)(?: not|n't)|cannot|never"
    r"|not)(?: (?:be|stand|go|come|get|have to be|placed|put|standing|to be|to stand))*\b"
)
UNWANTED = re.compile(r"^(?:i|we) (?:do not|don't|never) (?:want|like)(?: to have)? (?P<rest>.+)")
FROM_IT = re.compile(r"\b(?:see|view of|sight of) (?P<seen>.+?) from (?P<piece>(?!it\b).+)")
WHERE_SEEN = re.compile(
    r"(?P<piece>.+?),? (?:where|so that|so) (?:i|we|you|one) (?:can |could )?see (?P<seen>.+?)"
    r"(?: from (?:it|there))?$"
)
MUST = re.compile(r"\b(?:must|has to|have to|never|cannot|can't|mustn't|under no circumstances)\b")
CORNER = re.compile(r"(?P<piece>.+?) (?:in|into) (?:a|the|some|one) corner(?: of the room)?")
FREE = re.compile(
    r"(?P<piece>.+?) (?:in the middle(?: of the room)?|away from (?:all|the) walls"
    r"|free of the walls)"
)
AT_WALL = re.compile(
    r"(?P<piece>.+?) (?:with (?:its|the) back (?:to|against)|against) (?:a|the) wall"
)
ACROSS = re.compile(r"(?P<piece>.+?) across (?:a|the|some|one) corner(?: of the room)?")
STOOD = ((ACROSS, "across"), (CORNER, "corner"), (FREE, "free"), (AT_WALL, "wall"))
UNSEEN = re.compile(r"\bout of (?:sight|view)\b|(?:\bnot|n't|\bnever) (?:want to )?see\b")
AS_POSSIBLE = re.compile(r"\bas (?P<how>far|close|near)(?: away)? as possible (?:from|to)\b")
REASON = re.compile(r",? (?:so|because|since) (?:that )?(?:i|we|you|one|it|there)\b.*")
HEAD_OF = re.compile(r"^(?:the )?(?:head|headboard|back) of (?=.)")
BACK = re.compile(r"\bbacks? (?:turned )?(?:to|towards|on) (.+)")
OPENINGS = frozenset(("door", "window", "wall", "doors", "windows"))


def insisted(sentence: str) -> bool:
    """Whether a sentence says that it must be so."""
    return MUST.search(sentence.casefold()) is not None


def wish_of(words: str, pieces: Mapping[str, str], places: Mapping[str, str], unit: Unit) -> Row:
    """A wish as the file has it. ``pieces`` and ``places`` are what people say, to names.

    A piece that is to stand in a corner, or free of the walls, comes with ``stands``: that is
    said of the piece itself.

    Raises
    ------
    ValueError
        If it names no piece, nothing that is in the room, or no relation between them.
    """
    said = in_digits(" ".join(words.casefold().replace("\u2019", "'").split()).strip(". !"))
    for pattern, stands in STOOD:
        if found := pattern.fullmatch(said):
            piece = known(NOT.sub(" ", found["piece"]), pieces, "one of your pieces")
            if not NOT.search(found["piece"]):
                return {"piece": piece, STANDS: stands}
    if (back := BACK.search(said)) and not _is_wall(known(back[1], places, "in the room"), places):
        raise ValueError(
            'You cannot wish for which way its back faces. Say what it should face: "armchair '
            'facing the window".'
        )
    sentence, key, far = _distance(_plainly(said), unit)
    before, relation, after = _related(sentence)
    if before.rstrip().endswith(" not"):
        raise ValueError(
            'You can rule out only "near", "beside" and "against": "telly not near the window".'
        )
    first = known(before, pieces, "one of your pieces")
    place = known(after, places, "in the room")
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


def _plainly(sentence: str) -> str:
    """The sentence turned round so that the piece comes first, and "not" before the relation."""
    if sentence.startswith("nothing "):
        raise ValueError(
            "A wish is about one of your pieces. To keep a place clear, name what should stay away "
            'from it: "wardrobe away from the window".'
        )
    if UNSEEN.search(sentence):
        raise ValueError(
            "You cannot wish for something to be out of sight; say where it should stand."
        )
    if found := UNWANTED.match(sentence):
        return _negated(found["rest"])
    if sentence.startswith("no "):
        return _negated(sentence.removeprefix("no "))
    if found := FROM_IT.search(sentence):
        seen, piece = found["seen"], found["piece"]
        before = sentence[: found.start()]
        if seen == "it" and (where := re.match(r"(?P<what>.+?),? (?:where|so)\b", before)):
            seen = where["what"]
        return f"{piece} in view of {seen}"
    if found := WHERE_SEEN.fullmatch(sentence):
        return f"{found['piece']} in view of {found['seen'].removesuffix(' from it')}"
    sentence = AS_POSSIBLE.sub(_as_possible, REASON.sub("", HEAD_OF.sub("", sentence)))
    return NOT.sub("not", sentence)


def _as_possible(found: re.Match[str]) -> str:
    return "away from" if found["how"] == "far" else "near"


def _negated(sentence: str) -> str:
    """What is not wanted, "the wardrobe by the window", as "the wardrobe not by the window"."""
    before, _, after = _related(sentence)
    relation = sentence[len(before) : len(sentence) - len(after)]
    return f"{before}not {relation}{after}"


def _related(sentence: str) -> tuple[str, str, str]:
    """What stands before the first relation, the relation, and what stands behind it."""
    places = [(re.search(rf"\b(?:{said})\b", sentence), relation) for relation, said in SAID]
    found = [(at.start(), i, at) for i, (at, _) in enumerate(places) if at and at.start() > 0]
    if found:
        _, number, at = min(found, key=lambda one: one[:2])
        return sentence[: at.start()], SAID[number][0], sentence[at.end() :]
    raise ValueError(
        "How should it stand? Near, away from, facing, against, not against, beside, in view of or "
        'in line with something: "desk near the window".'
    )


def _distance(sentence: str, unit: Unit) -> tuple[str, str, int | None]:
    """The sentence without a distance, which key that must be ("" where either), and it in mm."""
    for pattern, key, relation in ((NEAR, "within", " near "), (FAR, "at_least", " away from ")):
        for found in pattern.finditer(sentence):
            amount = found["far"].strip(" ,.")
            at_end = not sentence[found.end() :].strip()
            has_word = key == "within" or re.match(r",? ?(?:at least|more|no less|by )", found[0])
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


def known(words: str, names: Mapping[str, str], what: str) -> str:
    """The one that somebody means: by its name, or by words that only its name has.

    Raises
    ------
    ValueError
        If it is none of them, or could be more than one.

    >>> known("the dining table", {"dining table for six": "a", "coffee table": "b"}, "here")
    'a'
    """
    plain_words = " ".join(FILLING.sub(" ", words).split()).strip(" ,.")
    named = re.sub(r"^(?:the|my|our|a|an) ", "", " ".join(words.split()).strip(" ,."))
    for said in (" ".join(words.split()), named, plain_words, plain_words.removesuffix("s")):
        if said in names:
            return names[said]
    found = _by_a_few_words(plain_words, names)
    if len(found) == 1:
        return found[0]
    every = dict.fromkeys(names.values())
    all_names = [name if len(name) > 1 else f"wall {name}" for name in every]
    shown = listed(_quoted(_without_numbered(found or all_names)), "or")
    if found:
        raise ValueError(f'"{plain_words}" could be more than one of these: {shown}.')
    like = nearest(plain_words, list(names)) if plain_words else None
    hint = f'; did you mean "{like}"?' if like else "."
    raise ValueError(f'"{plain_words or words.strip()}" is not {what}{hint} It can be {shown}.')


MOST_SHOWN = 20


def _quoted(names: Sequence[str]) -> list[str]:
    return [f'"{name}"' for name in names][:MOST_SHOWN]


def _without_numbered(names: Sequence[str]) -> list[str]:
    """The names without "chair 2" where there is "chair"."""
    return [name for name in names if re.sub(r" \d+$", "", name) not in set(names) - {name}]


def _by_a_few_words(words: str, names: Mapping[str, str]) -> list[str]:
    """All whose name has every word that was said, of "door" and the like but one more.

    The person's own names come before other words for the same kind of piece.
    """
    said = _single(words)
    telling = (said - _single(" ".join(OPENINGS))) or said
    if not said:
        return []
    for own in (True, False):
        shown = {name.casefold() if own else other: name for other, name in names.items()}
        found = {name: None for other, name in shown.items() if telling <= _single(other)}
        if found:
            return _without_numbered(list(found))
    return []


def _single(text: str) -> set[str]:
    """The words of a text, without the s of more than one."""
    return {word.removesuffix("s") for word in re.findall(r"[\w'-]+", text)}


def wish_words(row: Row, unit: Unit, several: Collection[str] = ()) -> str:
    """A wish as it was understood. ``several`` are names that stand for more than one piece.

    >>> wish_words({"piece": "desk", "near": "window", "within": mm(1500)}, "cm")
    'The desk near the window, within 150 cm'
    """

    def many(name: str) -> str:
        return f"{name}s" if name in several and not name.endswith("s") else name

    if STANDS in row:
        how = {
            "corner": "in a corner",
            "wall": "with its back to a wall",
            "across": "across a corner",
        }
        stood = how.get(row[STANDS], "away from the walls")
        return f"{the(many(row['piece']), first=True)} {stood}"
    key = next(key for key in RELATIONS if key in row)
    relation = {"aligned_with": "in line with"}.get(key, key.replace("_", " "))
    place = row[key]
    where = the(many(place)) if len(place) > 2 else f"wall {place}"
    told = f"{the(many(row['piece']), first=True)} {relation} {where}"
    if "within" in row:
        told += f", within {spoken(row['within'], unit)}"
    if "at_least" in row:
        told += f", at least {spoken(row['at_least'], unit)}"
    return told
