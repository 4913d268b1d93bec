"""Numbers and lists as plain words, in the unit the person measures in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from decimal import Decimal

from arrange.data.scenario import Unit

# From here on inches read better as feet and inches (6 ft).
FEET_FROM_INCHES = 72
# 1/32 in is 0.79 mm: the coarsest tape mark that never hides a whole mm.
FINEST_INCH = 32
_places: ContextVar[int] = ContextVar("places of a metre", default=2)


def length(mm: int, unit: Unit) -> str:
    """A length of ``mm`` millimetres in ``unit``, never hiding a millimetre.

    Centimetres get one decimal and metres a third one only where needed, unless
    ``metres_to_the_millimetre`` asks for it everywhere. Inches
    take the coarsest fraction (halves to 32nds) that still means the same whole
    millimetre, and become feet and inches from 6 ft on.

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
        places = 3 if mm % 10 else _places.get()
        return f"{Decimal(mm) / 1000:.{places}f} m"
    return _inches(mm)


@contextmanager
def metres_to_the_millimetre() -> Iterator[None]:
    """Within it all metres have three decimals, so that one sheet does not mix two and three.

    >>> with metres_to_the_millimetre():
    ...     length(600, "m"), retold("0.60 m of 2 m, floor 3.25 m²")
    ('0.600 m', '0.600 m of 2 m, floor 3.25 m²')
    """
    before = _places.set(3)
    try:
        yield
    finally:
        _places.reset(before)


def retold(text: str) -> str:
    """A sentence that was made earlier, its metres with as many decimals as ``length`` gives."""
    return re.sub(r"(?<![\d.])(\d+\.\d\d)(?= m\b)", r"\g<1>0", text) if _places.get() == 3 else text


def measured(mm: int, unit: Unit) -> str:
    """A length that was measured on a plan: as ``length``, but inches in quarters.

    Nobody reads a thirty-second off a tape across a room. Not for what must be
    exact, such as a message about the scenario's own numbers.

    >>> measured(1500, "in"), measured(228, "in"), measured(1422, "cm")
    ('59 in', '9 in', '142.2 cm')
    """
    if unit != "in":
        return length(mm, unit)
    quarters = (mm * 40 + 127) // 254
    return length((quarters * 254 + 20) // 40, unit)


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


def points(tenths: int) -> str:
    """Tenths of a point as points, always with one decimal.

    >>> points(62), points(1000), points(-5)
    ('6.2', '100.0', '-0.5')
    """
    return f"{'-' if tenths < 0 else ''}{abs(tenths) // 10}.{abs(tenths) % 10}"


def listed(items: Sequence[str], last: str = "and") -> str:
    """Items as a sentence lists them; an empty list is an empty text.

    >>> listed(["bed", "desk", "lamp"])
    'bed, desk and lamp'
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


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
