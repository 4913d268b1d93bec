"""The one family of errors. Each says when it is raised."""

from __future__ import annotations

from dataclasses import dataclass

MOST_TOLD = 30  # faults; nobody mends more at a time
LONGEST_NAME = 300  # characters of a file's name that are told; no folder takes longer ones
BLANK = frozenset("\u115f\u1160\u2800\u3164\uffa0")  # letters and a sign without any ink


def can_be_seen(text: str) -> bool:
    r"""Whether ``text`` is one line of letters, marks, signs and spaces that show.

    >>> can_be_seen("caf\u00e9 1"), can_be_seen("\u202e"), can_be_seen("\u3164")
    (True, False, False)
    """
    return text.isprintable() and BLANK.isdisjoint(text)


def printable(text: str) -> str:
    r"""``text`` on one line with whatever a terminal would obey written as its escape.

    A file can come from anybody: what it says is shown, never carried out. Letters, marks
    and signs of all languages stay; control characters, and marks that turn the direction
    of writing, do not.

    >>> print(printable("caf\u00e9 \u001b[2J \u202e"))
    café \x1b[2J \u202e
    """
    if can_be_seen(text):
        return text
    return "".join(c if can_be_seen(c) else c.encode("unicode_escape").decode() for c in text)


def shortened(text: str, most: int) -> str:
    """``text``, cut off with three points after ``most`` characters if it is longer.

    >>> shortened("bedroom", 7), shortened("bedroom", 3)
    ('bedroom', 'bed...')
    """
    return text if len(text) <= most else f"{text[:most]}..."


class ArrangeError(Exception):
    """Base of every error that arrange raises on purpose."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with the input.

    ``where`` is the key in the file ("piece[3].width"; empty for all of it), ``given`` what stood
    there, ``allowed`` what may stand there, ``hint`` what to try.
    """

    where: str
    given: str
    allowed: str
    hint: str = ""

    def __str__(self) -> str:
        place = f"{shortened(self.where, LONGEST_NAME)}: " if self.where else ""
        parts = [f"{place}{self.given}; {self.allowed}"]
        if self.hint:
            parts.append(self.hint)
        return "; ".join(parts)


class ScenarioError(ArrangeError, ValueError):
    """The scenario file cannot be used. Carries every fault found in it, and tells the first 30."""

    def __init__(self, file: str, faults: tuple[Fault, ...]) -> None:
        self.file = name = shortened(file, LONGEST_NAME)
        self.faults = faults
        lines = [f"{name}: {fault}" for fault in faults[:MOST_TOLD]]
        if len(faults) > MOST_TOLD:
            lines.append(f"{name}: and {len(faults) - MOST_TOLD} more")
        super().__init__("\n".join(map(printable, lines)))


class OutputError(ArrangeError, OSError):
    """A result could not be written; nothing was left half written."""

    def __init__(self, message: str) -> None:
        super().__init__(printable(message))


class DisagreementError(ArrangeError, RuntimeError):
    """The solver and the judge do not agree: our bug, never the user's."""
