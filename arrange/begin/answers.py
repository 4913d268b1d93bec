"""Questions, and how each sort of answer is read: lengths, yes or no, numbers, choices, names.

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

from arrange.begin.spelt import bare, in_digits
from arrange.data.lengths import length, listed, measured, nearest, parse
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.table import LONGEST_MM, LONGEST_TEXT

T = TypeVar("T")

# What somebody says who would as well press Enter.
PASSED = re.compile(
    r"(?:sorry,? )?(?:(?:i|we) )?(?:(?:really|just) )?(?:skip|next|dunno|whatever|usual|as usual"
    r"|normal|standard|(?:about |just |exactly )?(?:the )?same(?: again)?(?: as .+)?"
    r"|no (?:idea|matter|clue)|never mind|(?:am |are |'m )?not (?:so |quite |really )?sure(?: yet)?"
    r"|(?:can't|cannot|can not|won't|rather not)(?: do| get at| reach)?"
    r"|(?:don't|do not|can't|cannot) (?:really )?(?:know|mind|care|say|tell|remember|measure)"
    r"(?: it| that)?(?: yet| any more)?|(?:have not|haven't|not) (?:measured|looked|decided)"
    r"(?: it| that)?(?: yet)?)"
)
NOTHING = (
    *("no", "none", "nothing", "n", "-", "nope", "nah", "no more", "nothing else", "nothing more"),
    *("that is all", "that's all", "that is it", "that's it", "all", "done", "finished", "end"),
    *("nothing special", "nothing in particular", "not really", "no thanks", "no thank you"),
    *("that was all", "not at all", "neither", "not any", "not any more", "no others", "no other"),
)
YES = (
    *("yes", "y", "yep", "yeah", "yup", "sure", "ok", "okay", "right", "correct", "definitely"),
    *("certainly", "absolutely", "please", "indeed", "course", "already"),
)
NO = ("no", "n", "nope", "nah", "none", "nobody", "not", "never", "neither", "nothing")
SAID_NO = re.compile(r"\b(?:no|not|never|nobody|no one)\b|n't\b")
SAID_YES = re.compile(
    r"(?:of course|(?:i|we|it|they|he|she|there|that|both|all)(?: both| all)? ?"
    r"(?:do|does|is|are|'s|'re|'m|am|have|has|did|can|must|should|think so))\b"
)
COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
COUNTED = {word: i for i, word in enumerate(COUNTS)} | {"a": 1, "an": 1, "a pair of": 2, "none": 0}
COUNTED |= {"a couple of": 2, "zero": 0}
BARE = re.compile(r"\d+(?:[.,]\d{1,2})?")
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
        if text and not (self.usual is not None and passes(text)):
            return self.read(text)
        if self.usual is None:
            raise ValueError(f"This one has no usual answer. {self.example}")
        return cast("T", self.otherwise)


def passes(text: str) -> bool:
    """Whether somebody leaves the answer to us.

    >>> passes("Not sure."), passes("same as the other one"), passes("no")
    (True, True, False)
    """
    return PASSED.fullmatch(text.casefold().replace("\u2019", "'").strip(". ")) is not None


def declines(text: str) -> bool:
    """Whether somebody says that there is nothing, or nothing more."""
    return text.casefold().replace("\u2019", "'").strip(". !") in NOTHING


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
    words = bare(text)
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
    found = [_parsed(one, unit, text) for one in tries]
    return next((mm for mm in found if low <= mm <= high), found[0])


def _parsed(words: str, unit: Unit, typed: str) -> int:
    try:
        return parse(words, unit)
    except (ValueError, OverflowError):
        raise ValueError(f'"{typed}" is not a length. {EXAMPLE[unit]}') from None


def spoken(mm: int, unit: Unit) -> str:
    """A length as people say it where that hides no millimetre, else in full.

    In inches one may be hidden: whole inches that are kept in mm add up to a little more or less.

    >>> spoken(250, "m"), spoken(2855, "cm"), spoken(3404, "in"), spoken(0, "m")
    ('25 cm', '285.5 cm', '11 ft 2', '0 cm')
    >>> spoken(3657, "in"), spoken(3658, "in"), spoken(971, "in")
    ('12 ft', '12 ft', '38 1/4 in')
    """
    said = measured(mm, unit)
    hidden = abs(parse(said, unit) - mm)
    return said if hidden <= (1 if unit == "in" else 0) else length(mm, unit)


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
    return or_not(a_length(text, unit, low, high), nothing)


def or_not(question: Question[T], nothing: str) -> Question[T | None]:
    """The same question, which can be left open: ``nothing`` says what an empty line means."""

    def read(words: str) -> T | None:
        return None if declines(words) else question.read(words)

    def said(value: T | None) -> str:
        return "" if value is None or question.said is None else question.said(value)

    return Question(question.text, read, question.example, nothing, None, said)


def yes_or_no(text: str, *, usual: bool | None = None, example: str = "") -> Question[bool]:
    """Yes or no."""

    def read(words: str) -> bool:
        found = yes_of(words)
        if found is None:
            raise ValueError('Please answer "yes" or "no".')
        return found

    shown = None if usual is None else "yes" if usual else "no"
    return Question(text, read, example or 'Answer "yes" or "no".', shown, usual)


def yes_of(text: str) -> bool | None:
    """Whether this says yes or no; None where it says neither.

    >>> yes_of("yes, it is"), yes_of("no thanks"), yes_of("it doesn't"), yes_of("we do")
    (True, False, False, True)
    >>> yes_of("not really"), yes_of("not sure"), yes_of("my father walks with a stick")
    (False, None, None)
    """
    said = text.casefold().replace("\u2019", "'")
    # "yes, it is" and "no thanks" begin with all that counts
    word = re.split(r"[\s,.!]", said)[0]
    if passes(said):
        return None
    if word in (*YES, *NO):
        return word in YES
    if SAID_NO.search(said):
        return False
    return True if SAID_YES.match(said) else None


def a_number(text: str, low: int, high: int, *, usual: int | None = None) -> Question[int]:
    """A whole number."""

    def read(words: str) -> int:
        number = 0 if declines(words) else _counted(words.casefold())
        if number is None or not low <= number <= high:
            raise ValueError(f"Write a number from {low} to {high} here, such as {low or 1}.")
        return number

    return Question(
        text,
        read,
        f"Write a number from {low} to {high}.",
        None if usual is None else str(usual),
        usual,
    )


def _counted(words: str) -> int | None:
    """How many somebody says: "just one", "a window", "a couple"; None where no number is."""
    if re.match(r"(?:just )?(?:a )?(?:pair|couple)\b", words):
        return 2
    first, *more = re.split(r"[\s,]+", words)
    if first in COUNTED and (more or first not in ("a", "an")):
        return COUNTED[first]
    found = [first] if first.isdigit() else re.findall(r"[-\d.,/]+", in_digits(words))
    digits = found[0].rstrip(".,") if len(found) == 1 else ""
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) < 5 else None


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
    begun = begun or _inside(word, words)
    if len(begun) == 1:
        return begun.pop()
    if begun:
        raise ValueError(f'"{typed}" could be more than one of these; choose one by its number.')
    like = nearest(word, list(words))
    hint = f'; did you mean "{like}"?' if like else "."
    raise ValueError(f'"{typed}" could not be matched to one of these{hint}')


def _inside(typed: str, words: dict[str, int]) -> set[int]:
    """What is meant by words somewhere in what was typed; longer ones hide those within them."""
    said = [shown for shown in words if re.search(rf"\b{re.escape(shown)}\b", typed)]
    return {words[one] for one in said if not any(one != other and one in other for other in said)}


def a_text(
    text: str,
    example: str,
    *,
    usual: str | None = None,
    taken: Sequence[str] = (),
) -> Question[str]:
    """A name or a title; none of those ``taken``."""

    def read(words: str) -> str:
        if not can_be_seen(words):
            raise ValueError("Use only letters and signs that can be seen.")
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
