"""Lengths as people write them, to whole millimetres.

This is the one place where units are converted and rounded.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from fractions import Fraction

from arrange.data.scenario import Unit

MM: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}
NAMES = {"inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "'": "ft"}
SMALLER = {"m": "cm", "ft": "in"}  # the unit of a number written after this one
MARKS = str.maketrans(
    {"’": "'", "′": "'", "‘": "'", "”": '"', "″": '"', "“": '"', "−": "-"}  # noqa: RUF001
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
AMOUNT = r"(?:(?P<over>\d+)/(?P<under>\d+)|(?P<whole>\d+(?:[.,]\d+)?)"
AMOUNT += r"(?:[ -]+(?P<part_over>\d+)/(?P<part_under>\d+))?)"
PART = re.compile(rf"\s*{AMOUNT}\s*(?P<unit>[a-z]+|'|\")?\s*")
# More characters than any length in a room needs; longer ones are a slip.
LONGEST = 40
BIGGEST = 10**9  # more is no length at all, and would fill the screen with digits
EXAMPLES = "write 342, '342 cm', '3.42 m' or '11 ft 4 1/2 in'"


def parse(value: object, unit: Unit) -> int:
    """``value`` in whole mm; a bare number counts in ``unit``.

    Takes numbers, and texts such as ``3.42 m``, ``142 cm``, ``3 m 42``,
    ``11 ft 4 1/2 in`` and ``11' 4 1/2"``. Halves of a millimetre round up. A
    minus sign is understood, so that the caller can refuse it by name.

    Raises
    ------
    ValueError
        If it is no length; the message says what was not understood.

    >>> parse("11 ft 4 1/2 in", "in"), parse("3.42 m", "cm"), parse(142, "cm")
    (3467, 3420, 1420)
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise ValueError(f"not a length: {EXAMPLES}")  # noqa: TRY004  one error for callers
    if isinstance(value, str):
        return _parse_text(value, unit)
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"not a number: {EXAMPLES}")
    if abs(value) >= BIGGEST:
        raise ValueError(f"far too big for a length: {EXAMPLES}")
    return _round(Fraction(Decimal(str(value))) * MM[unit])


def _parse_text(text: str, unit: Unit) -> int:
    words = text.translate(MARKS).strip().casefold()
    if len(words) > LONGEST or not words:
        raise ValueError(f"not a length: {EXAMPLES}")
    minus = words.startswith("-")
    words = words.removeprefix("-")
    total, last, at = Fraction(0), "", 0
    while at < len(words):
        found = PART.match(words, at)
        if found is None or found.end() == at:
            raise ValueError(f"{words[at:]!r} is not understood: {EXAMPLES}")
        here = _unit(found["unit"], last, unit)
        if last and MM[here] >= MM[last]:
            raise ValueError(f"{here} after {last} is not understood: {EXAMPLES}")
        total += _amount(found) * MM[here]
        last, at = here, found.end()
    if total >= BIGGEST:
        raise ValueError(f"far too big for a length: {EXAMPLES}")
    return -_round(total) if minus else _round(total)


def _unit(word: str | None, last: str, unit: Unit) -> str:
    if word is None:
        here = SMALLER.get(last) if last else unit
        if here is None:
            raise ValueError(f"a number without a unit after {last}: {EXAMPLES}")
        return here
    here = NAMES.get(word, word)
    if here not in MM:
        raise ValueError(f"{word!r} is no unit; use mm, cm, m, in or ft")
    return here


def _amount(found: re.Match[str]) -> Fraction:
    if found["over"]:
        return _fraction(found["over"], found["under"])
    whole = found["whole"]
    if re.search(r",\d{3}$", whole):
        raise ValueError(f"{whole!r} could mean two things; write it without a comma")
    amount = Fraction(Decimal(whole.replace(",", ".")))
    if found["part_over"]:
        amount += _fraction(found["part_over"], found["part_under"])
    return amount


def _fraction(over: str, under: str) -> Fraction:
    if int(under) == 0:
        raise ValueError(f"{over}/{under} divides by zero")
    return Fraction(int(over), int(under))


def _round(mm: Fraction) -> int:
    """Nearest whole mm, halves away from zero."""
    return int(mm + Fraction(1, 2)) if mm >= 0 else -int(-mm + Fraction(1, 2))
