"""Questions, and how each sort of answer is read: lengths, yes or no, numbers, choices, money.

A script of questions is a generator. It yields what is to be asked or said, or that the room
is to be drawn anew, and gets for each question the value of the answer. It knows nothing of
how it is asked. An answer that cannot be read raises ValueError with one sentence for the
person. Lengths are whole mm.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Generic, TypeVar, cast
from unicodedata import category

from arrange.data.lengths import length, listed, measured, nearest, parse
from arrange.data.scenario import Unit
from arrange.scenario.table import LONGEST_MM, LONGEST_TEXT

T = TypeVar("T")

# What somebody says who would as well press Enter.
PASSED = (
    *("skip", "next", "same", "the same", "as usual", "usual", "not sure", "no idea", "dunno"),
    *("don't know", "do not know", "i don't know", "i do not know", "no matter", "never mind"),
)
NOTHING = (
    *("no", "none", "nothing", "n", "-", "nope", "nah", "no more", "nothing else", "nothing more"),
    *("that is all", "that's all", "that is it", "that's it", "all", "done", "finished", "end"),
)
YES, NO = ("yes", "y", "yep", "yeah", "sure"), ("no", "n", "nope", "nah", "none")
COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
COUNTED = {word: i for i, word in enumerate(COUNTS)} | {"a": 1, "an": 1, "a pair of": 2, "none": 0}
LOOSE = re.compile(r"^(?:about|around|roughly|circa|ca\.?|approx\.?|nearly|just|~)\s*")
AFTER = re.compile(r"\s*(?:wide|long|high|deep|tall|across|each|or so|\.)$")
BARE = re.compile(r"\d+(?:[.,]\d{1,2})?")
TIMES = re.compile(r"\s*(?:x|\u00d7|\bby\b|\*|;)\s*")  # the sign of multiplication, too
PAIR = re.compile(r"(\d+) +(\d{1,2}(?:[.,]\d+)?)")
EXAMPLE = {
    "cm": "Write it like 342, 3.42 m or 3 m 42.",
    "m": "Write it like 3.42, 3 m 42 or 342 cm.",
    "in": "Write it like 11'4, 11 ft 4 1/2 or 136 in.",
    "mm": "Write it like 3420, 342 cm or 3.42 m.",
}


@dataclass(frozen=True, slots=True)
class Question(Generic[T]):
    """One thing to ask.

    ``read`` makes the value of what was typed, or raises ValueError with one sentence that
    says what is wrong. ``example`` is shown to who asks for help. ``usual`` is what an empty
    line stands for, in words; None where there is nothing usual. ``said`` says the value back.
    """

    text: str
    read: Callable[[str], T]
    example: str
    usual: str | None = None
    otherwise: T | None = None
    said: Callable[[T], str] | None = None

    def answered(self, text: str) -> T:
        """The value of what was typed. ValueError, in one sentence, where it has none."""
        if text and not (self.usual is not None and text.casefold().strip(". ") in PASSED):
            return self.read(text)
        if self.usual is None:
            raise ValueError(f"There is no usual answer to this one. {self.example}")
        return cast("T", self.otherwise)


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence or two for the person."""

    text: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """The room has changed: it is time to look at it."""


Step = Question[Any] | Said | Drawn
Script = Generator[Step, Any, T]


def ask(question: Question[T]) -> Script[T]:
    """The value of the answer to one question; what was understood is said back."""
    value = cast("T", (yield question))
    if question.said is not None and (told := question.said(value)):
        yield Said(told)
    return value


# What a number without a unit may mean where the usual unit makes no sense.
LIKELY: dict[Unit, tuple[Unit | str, ...]] = {
    "cm": ("m", "mm"),
    "m": ("cm", "mm"),
    "in": ("ft",),
    "mm": ("m", "cm"),
}
METRES_BELOW = Decimal(10)  # "1.2" is 1.20 m, never 1.2 cm: nobody measures a room to the mm


def length_of(text: str, unit: Unit, low: int = 0, high: int = LONGEST_MM) -> int:
    """A length from ``low`` to ``high`` mm as people say it.

    A number alone counts in ``unit``. Where that cannot be meant another unit is
    tried: the value is said back, so nothing is guessed in silence.

    >>> [length_of(t, "cm", 500) for t in ("342", "3,42", "3 m 42", "about 3.5 m")]
    [3420, 3420, 3420, 3500]
    >>> length_of("11'4", "in"), length_of("11 4", "in"), length_of("11", "in", 1000)
    (3454, 3454, 3353)
    """
    words = AFTER.sub("", LOOSE.sub("", text.strip().casefold()))
    words = re.sub(r"(?<!\d)\.(?=\d)", "0.", words)  # ".6 m"
    pair = PAIR.fullmatch(words)
    if pair and unit in ("in", "m"):
        words = f"{pair[1]} {'ft' if unit == 'in' else 'm'} {pair[2]}"
    tries = [words]
    if BARE.fullmatch(words):
        tries += [f"{words} {other}" for other in LIKELY[unit]]
        decimal = re.search(r"[.,]", words) is not None
        if unit == "cm" and decimal and Decimal(words.replace(",", ".")) < METRES_BELOW:
            tries = [f"{words} m", words]
    found = [_parsed(one, unit) for one in tries]
    return next((mm for mm in found if low <= mm <= high), found[0])


def _parsed(text: str, unit: Unit) -> int:
    try:
        return parse(text, unit)
    except (ValueError, OverflowError):
        raise ValueError(f'"{text}" is not a length. {EXAMPLE[unit]}') from None


def spoken(mm: int, unit: Unit) -> str:
    """A length as people say it where that hides no millimetre, else in full.

    >>> spoken(250, "m"), spoken(2855, "cm"), spoken(3404, "in"), spoken(0, "m")
    ('25 cm', '285.5 cm', '11 ft 2', '0 cm')
    """
    said = measured(mm, unit)
    return said if parse(said, unit) == mm else length(mm, unit)


INCH = Decimal("25.4")  # mm


def handy(mm: int, unit: Unit) -> int:
    """A usual length, which is in whole centimetres, in whole inches for who measures in them.

    >>> handy(900, "cm"), handy(900, "in")
    (900, 889)
    """
    return mm if unit != "in" else round(round(mm / INCH) * INCH)


def within(mm: int, unit: Unit, low: int, high: int) -> int:
    """``mm`` if it lies between the two; else ValueError that says which are possible."""
    if mm < low:
        least = measured(low, unit, "up")
        raise ValueError(f"{spoken(mm, unit)} is too short here: it must be at least {least}.")
    if mm > high:
        most = measured(high, unit, "down")
        raise ValueError(f"{spoken(mm, unit)} is too long here: it can be {most} at most.")
    return mm


def length_within(text: str, unit: Unit, low: int, high: int) -> int:
    """A length from ``low`` to ``high`` mm as people say it; ValueError if it is no such length."""
    return within(length_of(text, unit, low, high), unit, low, high)


def a_length(
    text: str,
    unit: Unit,
    low: int = 0,
    high: int = LONGEST_MM,
    *,
    usual: int | None = None,
) -> Question[int]:
    """A length in mm, said back."""

    def read(words: str) -> int:
        return length_within(words, unit, low, high)

    shown = None if usual is None else spoken(usual, unit)
    return Question(text, read, EXAMPLE[unit], shown, usual, lambda mm: f"{spoken(mm, unit)}.")


def a_length_or_none(
    text: str, unit: Unit, low: int, high: int, *, nothing: str
) -> Question[int | None]:
    """A length in mm, said back. ``nothing``: what an empty line means, for no length."""

    def read(words: str) -> int | None:
        if words.casefold() in (*NOTHING, "skip"):
            return None
        return length_within(words, unit, low, high)

    def said(mm: int | None) -> str:
        return "" if mm is None else f"{spoken(mm, unit)}."

    return Question(text, read, EXAMPLE[unit], nothing, None, said)


def yes_or_no(text: str, *, usual: bool | None = None, example: str = "") -> Question[bool]:
    """Yes or no."""

    def read(words: str) -> bool:
        # "yes, it is" and "no thanks" begin with all that counts
        word = re.split(r"[\s,.!]", words.casefold())[0]
        if word not in (*YES, *NO):
            raise ValueError('Please answer "yes" or "no".')
        return word in YES

    shown = None if usual is None else "yes" if usual else "no"
    return Question(text, read, example or 'Answer "yes" or "no".', shown, usual)


def a_number(text: str, low: int, high: int, *, usual: int | None = None) -> Question[int]:
    """A whole number."""

    def read(words: str) -> int:
        word = words.casefold().split()[0]  # "one door"
        number = COUNTED.get(word)
        if number is None and word.isascii() and word.isdigit() and len(word) < 5:
            number = int(word)
        if number is None or not low <= number <= high:
            raise ValueError(f"A number from {low} to {high} is needed here, such as {low or 1}.")
        return number

    return Question(
        text,
        read,
        f"Write a number from {low} to {high}.",
        None if usual is None else str(usual),
        usual,
    )


Option = tuple[T, str]


def a_choice(
    text: str,
    options: Sequence[Option[T]],
    *,
    usual: int | None = None,
    also: dict[str, int] | None = None,
) -> Question[T]:
    """One of several, by number or by its words; ``also`` are other words for some of them.

    ``usual`` is the number, from 0 on, of the one that an empty line stands for.
    """
    words = {shown.casefold(): i for i, (_, shown) in enumerate(options)} | (also or {})
    lines = [f"  {i} {shown}" for i, (_, shown) in enumerate(options, 1)]

    def read(typed: str) -> T:
        return options[_chosen(typed, words, len(options))][0]

    return Question(
        "\n".join([text, *lines]),
        read,
        f"Write a number from 1 to {len(options)}, or the words beside it.",
        None if usual is None else options[usual][1],
        None if usual is None else options[usual][0],
        # Who picks a number is told what it stands for.
        lambda value: _picked(value, options, usual),
    )


SMALL = frozenset(
    "a an at be in into is it its my of on or out please the this to with".split()  # noqa: SIM905
)


def _means(typed: str, shown: str) -> bool:
    """Whether all words that say something in what was typed are in the words shown.

    >>> _means("at a wall", "with its back to a wall"), _means("at it", "at the wall")
    (True, False)
    """
    said = set(re.findall(r"\w+", typed)) - SMALL
    return bool(said) and said <= set(re.findall(r"\w+", shown))


def _picked(value: T, options: Sequence[Option[T]], usual: int | None) -> str:
    """What was picked, said back; nothing for what is usual."""
    if usual is not None and value == options[usual][0]:
        return ""
    words = next(shown for one, shown in options if one == value)
    return f"{words[:1].upper()}{words[1:]}."


def _chosen(typed: str, words: dict[str, int], many: int) -> int:
    word = typed.casefold().strip(". ")
    if word.isascii() and word.isdigit():
        if len(word) < 4 and 1 <= int(word) <= many:
            return int(word) - 1
        raise ValueError(f"The numbers go from 1 to {many}.")
    if word in words:
        return words[word]
    begun = {i for shown, i in words.items() if shown.startswith(word) or f" {word}" in shown}
    begun = begun if len(word) > 1 else set()
    begun = begun or {i for shown, i in words.items() if _means(word, shown)}
    begun = begun or {i for shown, i in words.items() if f" {shown} " in f" {word} "}
    if len(begun) == 1:
        return begun.pop()
    if begun:
        raise ValueError(f'"{typed}" could be more than one of these; choose one by its number.')
    like = nearest(word, list(words))
    hint = f'; did you mean "{like}"?' if like else "."
    raise ValueError(f'"{typed}" could not be matched to one of these{hint}')


def a_text(
    text: str,
    example: str,
    *,
    usual: str | None = None,
    taken: Sequence[str] = (),
) -> Question[str]:
    """A name or a title; none of those ``taken``."""

    def read(words: str) -> str:
        if not words.isprintable():
            raise ValueError("Only letters and signs that can be seen are possible here.")
        if len(words) > LONGEST_TEXT:
            raise ValueError(f"That is too long: {LONGEST_TEXT} letters at most.")
        if words.casefold() in {name.casefold() for name in taken}:
            raise ValueError(f'There is a "{words}" already; another name is needed.')
        return words

    return Question(text, read, example, usual, usual)


def one_of(
    text: str,
    names: Sequence[str],
    *,
    also: dict[str, str] | None = None,
    what: str = "one of these",
) -> Question[str]:
    """One of some names."""
    known = {name.casefold(): name for name in names} | (also or {})

    def read(words: str) -> str:
        word = words.casefold().strip(". ")
        first = word.split(",")[0]  # "C, near the corner"
        for said in (word, first, first.removeprefix("the "), first.removeprefix("wall ")):
            if said in known:
                return known[said]
        like = nearest(word, list(names))
        hint = f'; did you mean "{like}"?' if like else ""
        some = listed(list(names)[:20], "or")
        raise ValueError(f'"{words}" is not {what}{hint or "."} It can be {some}.')

    return Question(text, read, f"Write {listed(list(names)[:20], 'or')}.")


def sizes(
    text: str,
    unit: Unit,
    limits: Sequence[tuple[int, int]],
    usual: tuple[int, ...] | None,
) -> Question[tuple[int, ...]]:
    """Two or three lengths in one line: width x depth x height, in mm.

    An empty line is the ``usual`` sizes where there are some, and gives ().
    """

    def read(words: str) -> tuple[int, ...]:
        parts = [p for p in TIMES.split(words.casefold()) if p]
        if not 2 <= len(parts) <= 3:
            raise ValueError(f"Write width, depth and height with x between them. {example}")
        if parts[-1].strip().isalpha():
            raise ValueError(f'"{parts[-1]}" is not a length. {example}')
        ends = re.search(r"[a-z]+\.?$", parts[-1])
        if ends and all(BARE.fullmatch(p) for p in parts[:-1]):
            # "2 x 1 x 0.75 m": the unit at the end is that of all of them.
            parts = [f"{p} {ends[0]}" for p in parts[:-1]] + parts[-1:]
        pairs = zip(parts, limits, strict=False)
        return tuple(length_within(part, unit, *limit) for part, limit in pairs)

    three = " x ".join(str(n) for n in (("6 ft 11", "3 ft 1", "2 ft 9") if unit == "in" else ()))
    example = f"For example {three or ('2.10 x 0.95 x 0.85' if unit == 'm' else '210 x 95 x 85')}."
    shown = None if usual is None else size_words(usual, unit, measured)
    return Question(text, read, example, shown, (), lambda mm: _size_said(mm, unit))


def size_words(mm: Sequence[int], unit: Unit, say: Callable[[int, Unit], str] = spoken) -> str:
    """Lengths with x between them, each said by ``say``.

    >>> size_words((2100, 950, 850), "cm"), size_words((2100, 950), "m")
    ('210 x 95 x 85 cm', '2.10 m x 95 cm')
    """
    told = [say(one, unit) for one in mm]
    if unit in ("cm", "mm"):
        told = [one.removesuffix(f" {unit}") for one in told[:-1]] + told[-1:]
    return " x ".join(told)


def _size_said(mm: Sequence[int], unit: Unit) -> str:
    return f"{size_words(mm, unit)}." if mm else ""


# A sum with its thousands set apart, by a comma or otherwise, and its cents if it has any.
THOUSANDS = re.compile(r"\d{1,3}(?:(?:,\d{3})+(?P<cents>\.\d\d)?|(?:[.' ]\d{3})+(?:,\d\d)?)")
SUM = re.compile(r"(?P<before>[^\d\s]*)\s*(?P<number>\d[\d.,' ]*)\s*(?P<after>[^\d]*)")
LONGEST_CURRENCY = 4
NO_SUM = 'That is not a sum of money. Write it like "450" or "89.90".'


def money_of(text: str) -> tuple[Decimal, str]:
    """A sum and the currency written beside it, "" without one.

    >>> money_of("1,500"), money_of("€ 89,90"), money_of("1200 EUR")
    ((Decimal('1500'), ''), (Decimal('89.90'), '€'), (Decimal('1200'), 'EUR'))
    """
    found = SUM.fullmatch(text.strip())
    if found is None:
        raise ValueError(NO_SUM)
    number = found["number"].strip()
    apart = THOUSANDS.fullmatch(number)
    if apart:
        # What is no comma for the cents sets the thousands apart.
        number = re.sub("[,' ]" if apart["cents"] else r"[.' ]|,(?=\d{3})", "", number)
    number = number.replace(",", ".")
    currency = (found["before"] + found["after"]).strip()
    if not re.fullmatch(r"\d{1,7}(?:\.\d{1,2})?", number) or not _is_currency(currency):
        raise ValueError(NO_SUM)
    return Decimal(number), currency


def _is_currency(text: str) -> bool:
    """Whether this can stand beside a sum: nothing, a few letters, or a sign for money."""
    signs = all(c.isalpha() or category(c) == "Sc" for c in text)
    return signs and len(text) <= LONGEST_CURRENCY


def money(text: str, nothing: str) -> Question[tuple[Decimal, str] | None]:
    """A sum of money, or nothing."""

    def read(words: str) -> tuple[Decimal, str] | None:
        if words.casefold() in (*NOTHING, "skip", "do not know", "don't know"):
            return None
        return money_of(words)

    return Question(text, read, 'Write it like "450" or "89.90".', nothing, None)
