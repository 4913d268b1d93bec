"""Reads how large a piece is: "210 x 95 x 85", "2 m wide and 60 deep", or one length. In mm."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from arrange.begin.answers import BARE, Question, length_of, length_within, spoken
from arrange.begin.spelt import in_digits
from arrange.data.lengths import listed, measured
from arrange.data.scenario import Unit

TIMES = re.compile(r"\s*(?:x|\u00d7|\bby\b|\*|;)\s*")  # the sign of multiplication, too
Sizes = tuple[int | None, ...]  # width, depth and height in mm; None for one that was not said
SIDE_WORDS = (("width", "wide|across|broad"), ("depth", "deep"), ("height", "high|tall"))
ONE = (
    r"\d[\d.,/ '\"]*(?: ?(?:mm|cm|m|ft|in|met\w+|feet|foot|inch\w*|cent\w+)\b\.?)?"
    r"(?: ?\d[\d/.]*(?: ?(?:cm|in|inch\w*|\"))?)?"
)
LENGTHWISE = "long|in length"  # the depth of a bed, the width of a sofa


def sizes(
    text: str,
    unit: Unit,
    limits: Sequence[tuple[int, int]],
    usual: tuple[int, ...] | None,
    *,
    is_round: bool = False,
) -> Question[Sizes]:
    """Up to three lengths in one line: width x depth x height, in mm.

    An empty line is the ``usual`` sizes where there are some, and gives (). Then some of the
    three may be left out. What ``is_round`` is as deep as it is wide, and shown without.
    """
    three = " x ".join(str(n) for n in (("6 ft 11", "3 ft 1", "2 ft 9") if unit == "in" else ()))
    example = f"For example {three or ('2.10 x 0.95 x 0.85' if unit == 'm' else '210 x 95 x 85')}."

    def read(words: str) -> Sizes:
        said = _sizes_said(words, unit, limits, usual, is_round=is_round)
        if said is not None:
            return said
        found = in_a_row(words, unit, limits, example)
        if usual is None and len(found) == 1:
            raise ValueError(f"Write width, depth and height with x between them. {example}")
        if is_round and (len(found) == 1 or (len(found) == 2 and found[0] != found[1])):
            return (found[0], found[0], *found[1:])
        return found

    shown = None
    if usual is not None:
        shown = size_words((usual[0], *usual[2:]) if is_round else usual, unit, measured)

    def said(mm: Sizes) -> str:
        if is_round and len(mm) > 1 and mm[0] is not None:
            high = f", {spoken(mm[2], unit)} high" if len(mm) > 2 and mm[2] is not None else ""
            return f"{spoken(mm[0], unit)} across{high}."
        return _size_said(mm, unit, usual)

    return Question(text, read, example, shown, (), said)


def in_a_row(
    text: str, unit: Unit, limits: Sequence[tuple[int, int]], example: str
) -> tuple[int, ...]:
    """One to three lengths with x between them; ValueError, with the example, if they are not."""
    parts = [p for p in TIMES.split(in_digits(text.casefold())) if p]
    if not 1 <= len(parts) <= 3:
        raise ValueError(f"Write width, depth and height with x between them. {example}")
    if parts[-1].strip().isalpha():
        raise ValueError(f'"{parts[-1]}" is not a length. {example}')
    ends = re.search(r"[a-z]+\.?$", parts[-1])
    if ends and all(BARE.fullmatch(p) for p in parts[:-1]):
        # "2 x 1 x 0.75 m": the unit at the end is that of all of them, where that can be.
        alike = [f"{p} {ends[0]}" for p in parts[:-1]]
        can_be = zip(alike, limits, strict=False)
        if all(low <= length_of(p, unit) <= high for p, (low, high) in can_be):
            parts = alike + parts[-1:]
    return tuple(length_within(p, unit, *limit) for p, limit in zip(parts, limits, strict=False))


def _sizes_said(
    text: str,
    unit: Unit,
    limits: Sequence[tuple[int, int]],
    usual: tuple[int, ...] | None,
    *,
    is_round: bool,
) -> Sizes | None:
    """Sizes each with its word, "2 m wide and 60 deep"; None if they are not said so."""
    words = in_digits(text.casefold())
    long = 1 if usual and usual[1] > usual[0] else 0
    found: dict[int, int] = {}
    for i, (side, ways) in enumerate(SIDE_WORDS):
        ways = f"{ways}|{LENGTHWISE}" if i == long else ways  # noqa: PLW2901
        before, behind = rf"(?P<far>{ONE}) ?(?:{ways})\b", rf"(?:is |of )?(?P<more>{ONE})"
        pattern = rf"{before}|\b{side}\b\W*{behind}"
        match = re.search(pattern, words)
        if match:
            said = (match["far"] or match["more"]).strip(" ,.")
            found[i] = length_within(said, unit, *limits[i])
            words = words.replace(match[0], " ")
    if not found or re.search(r"\d", words) or (usual is None and len(found) < 2):
        return None
    if is_round and 0 in found:
        found[1] = found[0]
    return tuple(found.get(i) for i in range(max(found) + 1))


def size_words(mm: Sequence[int], unit: Unit, say: Callable[[int, Unit], str] = spoken) -> str:
    """Lengths with x between them, each said by ``say``.

    >>> size_words((2100, 950, 850), "cm"), size_words((2100, 950), "m")
    ('210 x 95 x 85 cm', '2.10 m x 95 cm')
    """
    told = [say(one, unit) for one in mm]
    if unit in ("cm", "mm"):
        told = [one.removesuffix(f" {unit}") for one in told[:-1]] + told[-1:]
    return " x ".join(told)


def _size_said(mm: Sizes, unit: Unit, usual: tuple[int, ...] | None) -> str:
    """Sizes said back; those that are not all there each with its word, the usual ones too."""
    if not mm:
        return ""
    if len(mm) > 1 and None not in mm:
        return f"{size_words([one for one in mm if one is not None], unit)}."
    ways = ("wide", "deep", "high")
    given = [f"{spoken(one, unit)} {way}" for one, way in zip(mm, ways, strict=False) if one]
    mine = {way for one, way in zip(mm, ways, strict=False) if one}
    rest = [
        f"{measured(one, unit)} {way}"
        for one, way in zip(usual or (), ways, strict=False)
        if way not in mine
    ]
    return f"{listed(given)}, and the usual {listed(rest)}." if rest else f"{listed(given)}."
