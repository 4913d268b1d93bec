"""What a script of questions is made of: a question, something said, the room drawn anew.

A script is a generator. It yields what is to be asked or said, and gets for each question the
value of the answer. It knows nothing of how it is asked.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass
from typing import Any, Generic, TypeVar, cast

T = TypeVar("T")

# What somebody says who would as well press Enter.
PASSED = (
    *("skip", "next", "same", "the same", "as usual", "usual", "not sure", "no idea", "dunno"),
    *("don't know", "do not know", "i don't know", "i do not know", "no matter", "never mind"),
)


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
