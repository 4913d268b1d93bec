"""Room to spare in words: the line across the room, and what there is to spare on it."""

from __future__ import annotations

from itertools import groupby

from arrange.data.lengths import measured
from arrange.data.scenario import Unit
from arrange.data.spare import FINEST, Spare


def spare_words(spare: Spare, unit: Unit) -> str:
    """The line and what there is to spare, for a person."""
    return f"{line_words(spare, unit)}: {amount_words(spare, unit)}"


def line_words(spare: Spare, unit: Unit) -> str:
    """The line in words, without the amount.

    >>> line = Spare(("wall D", "wall B"), ("bed", 600, "desk"), ("bed",), "across", 0, True)
    >>> line_words(line, "cm")
    'Across from wall D to wall B (bed, 60 cm, desk)'
    """
    chain = chain_words(spare, unit)
    if spare.direction == "way":
        return chain
    way = "Across" if spare.direction == "across" else "Up the plan"
    return f"{way} from {spare.between[0]} to {spare.between[1]} ({chain})"


def chain_words(spare: Spare, unit: Unit) -> str:
    """Everything on the line, without the two ends; the way in from its beginning."""
    told = (one if isinstance(one, str) else measured(one, unit) for one in spare.line)
    chain = ", ".join(text for text, _ in groupby(told))
    if spare.direction == "way":
        return f"The way in from {spare.between[0]} to {spare.between[1]}, {chain} asked"
    return chain


def amount_words(spare: Spare, unit: Unit) -> str:
    """What there is to spare.

    >>> amount_words(Spare(("a", "b"), (), (), "up", 30, True), "cm")
    '3 cm to spare'
    >>> amount_words(Spare(("a", "b"), (), (), "up", 4, True), "cm")
    '0.4 cm to spare: 1 cm less and it no longer works like this, measure again'
    """
    least = 7 if unit == "in" else 1  # mm that can be said
    have = f"{_no_more(spare.mm, unit)} to spare" if spare.mm >= least else "nothing to spare"
    if spare.direction == "way":
        if not spare.mm:
            return "no wider as the pieces stand, measure again"
        return f"{_no_more(spare.mm, unit)} wider as the pieces stand"
    if spare.mm >= FINEST:
        return have if spare.exact else f"at least {have}"
    if spare.exact:
        cm = measured(FINEST, "cm" if unit == "m" else unit)
        return f"{have}: {cm} less and it no longer works like this, measure again"
    return f"{have} that is sure: measure again"


def _no_more(mm: int, unit: Unit) -> str:
    """A length that promises no more than there is: quarters of an inch are rounded down.

    >>> _no_more(10, "in"), _no_more(10, "cm")
    ('1/4 in', '1 cm')
    """
    quarters = mm * 40 // 254
    return measured((quarters * 254 + 20) // 40 if unit == "in" else mm, unit)
