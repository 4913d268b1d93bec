"""Lengths, points, names and lists as people write and read them.

Inside everything is whole millimetres and tenths of a point. This is the one place
where units are converted and rounded: ``measured`` says millimetres as the person would,
``length`` exactly, ``parse`` reads what the person wrote.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from arrange.data.scenario import Unit

# From here on inches read better as feet and inches (6 ft).
FEET_FROM_INCHES = 72
SQUARE_FOOT = 304.8**2  # mm2
HALF_INCH = 127  # tenths of a millimetre
# 1/32 in is 0.79 mm: the coarsest tape mark that never hides a whole mm.
FINEST_INCH = 32
OWN = ("the ", "my ", "our ", "your ")
NOBODYS = "child's "  # kinds of pieces are called so
# What has a plural by an s alone, before its number.
NUMBERED = re.compile(r"(?P<stem>(?!.* of )\D*[^\W\dsxzhyf]) (?P<number>\d{1,4})")
Rounding = Literal["near", "down", "up"]


def length(mm: int, unit: Unit) -> str:
    """A length of ``mm`` millimetres in ``unit``, never hiding a millimetre.

    For messages about what somebody wrote; whatever else is told to a person is
    ``measured``. Centimetres get one decimal and metres a third
    one only where needed. Inches take the coarsest fraction (halves to 32nds) that still
    means the same whole millimetre, and become feet and inches from 6 ft on.

    >>> length(1420, "cm"), length(1425, "cm"), length(3420, "m"), length(1422, "in")
    ('142 cm', '142.5 cm', '3.42 m', '56 in')
    """
    if mm < 0:
        return "-" + length(-mm, unit)
    if unit == "mm":
        return f"{mm} mm"
    if unit == "cm":
        return f"{mm // 10} cm" if mm % 10 == 0 else f"{mm // 10}.{mm % 10} cm"
    if unit == "m":
        return f"{Decimal(mm) / 1000:.{3 if mm % 10 else 2}f} m"
    return _inches(mm)


def measured(mm: int, unit: Unit, rounded: Rounding = "near") -> str:
    """A length as a person says it; for plans, sentences and terminals.

    Whole centimetres; in a file in metres two decimals from a metre on; half inches, and
    feet from six feet on; whole millimetres for who measures in them. Nobody reads a tape
    across a room any finer, and the exact millimetres are in the files. What promises free
    floor is rounded ``down``, what is too far away ``up``.

    >>> measured(1299, "cm"), measured(780, "m"), measured(2100, "m"), measured(2108, "in")
    ('130 cm', '78 cm', '2.10 m', '6 ft 11')
    >>> measured(559, "cm", "down"), measured(4, "cm", "up"), measured(950, "in")
    ('55 cm', '1 cm', '37 1/2 in')
    """
    if mm < 0:
        return "-" + measured(-mm, unit, rounded)
    return _said(_count(mm, unit, rounded), unit)


def sized(sides: Sequence[int], unit: Unit, rounded: Rounding = "near") -> str:
    """The sides of a piece as a shop says them: the unit once, and inches without feet.

    >>> sized((1800, 2100), "cm"), sized((991, 2032, 495), "in"), sized((1400, 800), "m")
    ('180 x 210 cm', '39 x 80 x 19 1/2 in', '1.40 x 0.80 m')
    """
    counts = [_count(mm, unit, rounded) for mm in sides]
    told, named = [str(count) for count in counts], "mm" if unit == "mm" else "cm"
    if unit == "in":
        told, named = [_halves(count) for count in counts], "in"
    elif unit == "m" and max(counts) >= 100:
        told, named = [f"{count // 100}.{count % 100:02}" for count in counts], "m"
    return f"{' x '.join(told)} {named}"


def is_nought(told: str) -> bool:
    """Whether a length as told is none at all.

    >>> is_nought(measured(4, "cm")), is_nought(measured(6, "in")), is_nought("0.5 m")
    (True, True, False)
    """
    return told.startswith("0 ")


def summed(parts: Sequence[int], unit: Unit) -> list[str]:
    """Lengths of a sum as people say them, so that they add up to the ``measured`` whole.

    >>> summed([2065, 305, 600], "cm"), measured(2065 + 305 + 600, "cm")
    (['207 cm', '30 cm', '60 cm'], '297 cm')
    """
    ends = [_count(sum(parts[:i]), unit) for i in range(len(parts) + 1)]
    return [_said(end - start, unit) for start, end in pairwise(ends)]


def short_by(asked: int, there: int, unit: Unit) -> str:
    """What lacks of ``asked``, where ``there`` is told rounded down: the difference as told.

    >>> short_by(2704, 2596, "cm"), short_by(2702, 2700, "cm")
    ('11 cm', 'less than 1 cm')
    """
    lack = _count(asked, unit) - _count(there, unit, "down")
    return _said(lack, unit) if lack > 0 else f"less than {_said(1, unit)}"


def wider_by(asked: int, more: int, unit: Unit) -> str:
    """How much wider than ``asked`` something ``more`` than that is: the difference as told.

    >>> wider_by(500, 10, "in"), measured(500, "in"), measured(510, "in", "down")
    ('1/2 in', '19 1/2 in', '20 in')
    """
    return _said(max(0, _count(asked + more, unit, "down") - _count(asked, unit)), unit)


def _count(mm: int, unit: Unit, rounded: Rounding = "near") -> int:
    """How many of the smallest lengths that are said in a unit."""
    if unit == "mm":
        return mm
    return _steps(mm * 10, HALF_INCH, rounded) if unit == "in" else _steps(mm, 10, rounded)


def _said(count: int, unit: Unit) -> str:
    """So many of the smallest lengths that are said in a unit."""
    if unit == "in":
        return _feet(count)
    if unit == "m" and count >= 100:
        return f"{count // 100}.{count % 100:02} m"
    return f"{count} mm" if unit == "mm" else f"{count} cm"


def _steps(amount: int, step: int, rounded: Rounding) -> int:
    """Whole steps in ``amount``, in the units of ``step``."""
    if rounded == "near":
        return (2 * amount + step) // (2 * step)
    if rounded == "down":
        return amount // step
    # 12 in are kept as 305 mm, a little more than they are: that is not yet 12 1/2.
    slack = 5 if step == HALF_INCH else 0
    return -((slack - amount) // step)


def _halves(count: int) -> str:
    """Half inches as inches: "19 1/2"."""
    whole, over = divmod(count, 2)
    half = "1/2" if over else ""
    return " ".join(filter(None, (str(whole) if whole or not half else "", half)))


def _feet(halves: int) -> str:
    whole, over = divmod(halves, 2)
    half = "1/2" if over else ""
    if whole < FEET_FROM_INCHES:
        return f"{_halves(halves)} in"
    feet, rest = divmod(whole, 12)
    if not rest:
        # Without its unit a half would be read as half a foot.
        return f"{feet} ft {half} in" if half else f"{feet} ft"
    return f"{feet} ft {rest} {half}".rstrip()


def _inches(mm: int) -> str:
    whole, over, parts = _fraction(mm)
    inches = f"{whole}" if not over else f"{whole} {over}/{parts}" if whole else f"{over}/{parts}"
    if whole < FEET_FROM_INCHES:
        return f"{inches} in"
    feet, rest = divmod(whole, 12)
    if not rest and not over:
        return f"{feet} ft"
    tail = f"{over}/{parts}" if not rest else f"{rest} {over}/{parts}" if over else f"{rest}"
    return f"{feet} ft {tail} in"


def _fraction(mm: int) -> tuple[int, int, int]:
    """Whole inches, and the fraction over a power of two, that mean ``mm``."""
    parts = 1
    while True:
        # Nearest count of 1/parts in: mm * parts * 10 / 254, rounded half up.
        count = (mm * parts * 20 + 254) // 508
        back = (count * 254 * 2 + parts * 10) // (parts * 20)
        if back == mm or parts == FINEST_INCH:
            return count // parts, count % parts, parts
        parts *= 2


def area(square_mm: float, unit: Unit) -> str:
    """A floor area in m2, or square feet where the person measures in inches.

    >>> area(13_940_000, "cm"), area(9_290_304, "in")
    ('13.94 m²', '100.0 sq ft')
    """
    if unit == "in":
        return f"{square_mm / SQUARE_FOOT:.1f} sq ft"
    return f"{square_mm / 1e6:.2f} m²"


def points(tenths: int) -> str:
    """Tenths of a point as points, always with one decimal.

    >>> points(62), points(1000), points(-5)
    ('6.2', '100.0', '-0.5')
    """
    return f"{'-' if tenths < 0 else ''}{abs(tenths) // 10}.{abs(tenths) % 10}"


def money(amount: Decimal) -> str:
    """A sum of money as people write it: whole, or with two decimals; no currency.

    >>> money(Decimal("1249.0")), money(Decimal("19.5")), money(Decimal("-5"))
    ('1,249', '19.50', '-5')
    """
    return f"{amount:,.0f}" if amount == int(amount) else f"{amount:,.2f}"


def listed(items: Sequence[str], last: str = "and") -> str:
    """Items as a sentence lists them; an empty list is an empty text.

    >>> listed(["bed", "desk", "lamp"])
    'bed, desk and lamp'
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def gathered(names: Sequence[str], least: int = 3) -> list[str]:
    """Names in their order, ``least`` or more that differ by a number alone told as one.

    >>> gathered(["desk", "dining chair 2", "dining chair 1", "dining chair 3"])
    ['desk', 'dining chairs 1 to 3']
    >>> gathered(["stool 1", "stool 2"], 2), gathered(["bench 1", "bench 2", "bench 3"])
    (['stools 1 and 2'], ['bench 1', 'bench 2', 'bench 3'])
    """
    parts = {name: found for name in names if (found := NUMBERED.fullmatch(name))}
    told: dict[str, None] = {}
    for name in names:
        stem = parts[name]["stem"] if name in parts else ""
        numbers = sorted(int(p["number"]) for p in parts.values() if p["stem"] == stem)
        low, high = (numbers[0], numbers[-1]) if numbers else (0, 0)
        whole = len(numbers) >= least and high - low + 1 == len(numbers)
        joined = "and" if len(numbers) == 2 else "to"
        told[f"{stem}s {low} {joined} {high}" if whole else name] = None
    return list(told)


def the(name: str, *, first: bool = False) -> str:
    """The name as a sentence says it; ``first`` at its beginning.

    Numbered pieces and what belongs to someone take no article.

    >>> the("desk"), the("desk", first=True), the("armchair 1", first=True), the("my desk")
    ('the desk', 'The desk', 'Armchair 1', 'my desk')
    >>> the("Robin's desk"), the("child's desk")
    ("Robin's desk", "the child's desk")
    """
    of_someone = "'s " in name and not name.lower().startswith(NOBODYS)
    own = name[-1:].isdigit() or of_someone or name.lower().startswith(OWN)
    text = name if own else f"the {name}"
    return text[:1].upper() + text[1:] if first else text


VOWELS = (*"aeiou", "hour", "heir", "l-", "l ", "8")  # by sound, at the beginning of a name
CONSONANTS = ("u-", "uni", "use", "usual", "util", "eu", "one")


def a_or_an(name: str) -> str:
    """The name with "a" or "an", as it sounds.

    >>> [a_or_an(name) for name in ("desk", "old desk", "used sofa", "L-shaped sofa")]
    ['a desk', 'an old desk', 'a used sofa', 'an L-shaped sofa']
    """
    low = name.casefold()
    return f"{'an' if low.startswith(VOWELS) and not low.startswith(CONSONANTS) else 'a'} {name}"


def nearest(word: str, known: Sequence[str]) -> str | None:
    """The known word most like ``word``, or None if none is like it."""
    found = like(word, known, 1)
    return found[0] if found else None


def like(word: str, known: Sequence[str], most: int, cutoff: float = 0.6) -> list[str]:
    """The known words most like ``word``, the nearest first; ``cutoff`` 1 asks for itself."""
    from difflib import get_close_matches  # noqa: PLC0415  only for a person's slips

    lowered = {k.casefold(): k for k in reversed(known)}
    found = get_close_matches(word.strip().casefold(), list(lowered), n=most, cutoff=cutoff)
    return [lowered[f] for f in found]


MM: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}
NAMES = {"inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "'": "ft"}
NAMES |= {
    f"{many}{end}": unit
    for many, unit in (("millimet", "mm"), ("centimet", "cm"), ("met", "m"))
    for end in ("re", "res", "er", "ers")
}
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
        raise ValueError(f"{word!r} is not a unit; use mm, cm, m, in or ft")
    return here


def _amount(found: re.Match[str]) -> Fraction:
    if found["over"]:
        return _fraction_of(found["over"], found["under"])
    whole = found["whole"]
    if re.search(r",\d{3}$", whole):
        raise ValueError(f"{whole!r} could mean two things; write it without a comma")
    amount = Fraction(Decimal(whole.replace(",", ".")))
    if found["part_over"]:
        amount += _fraction_of(found["part_over"], found["part_under"])
    return amount


def _fraction_of(over: str, under: str) -> Fraction:
    if int(under) == 0:
        raise ValueError(f"{over}/{under} divides by zero")
    return Fraction(int(over), int(under))


def _round(mm: Fraction) -> int:
    """Nearest whole mm, halves away from zero."""
    return int(mm + Fraction(1, 2)) if mm >= 0 else -int(-mm + Fraction(1, 2))
