"""Collects every fault of a file, so that the person hears of all of them at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.errors import Fault, ScenarioError
from arrange.words import listed, nearest

MANY = 12  # longer lists of allowed words are cut to keep the message readable


class Faults:
    """The faults found so far in ``file``."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.found: list[Fault] = []

    def add(self, where: str, given: str, allowed: str, hint: str = "") -> None:
        """Note one fault; the same one twice counts once."""
        fault = Fault(where, given, allowed, hint)
        if fault not in self.found:
            self.found.append(fault)

    def unknown(self, where: str, word: str, known: Sequence[str], what: str) -> None:
        """Note a word that is not among ``known``, with the nearest one that is."""
        like = nearest(word, known)
        words = list(dict.fromkeys(known))
        many = len(words) > MANY
        hint = f"did you mean {like!r}?" if like else ""
        allowed = f"known: {', '.join(words[:MANY])}{', ...' if many else ''}"
        if not known:
            allowed = "there is none in this file"
        elif like and many:
            allowed = f"it is none of the {len(words)} known ones"
        self.add(where, f"{what} {word!r} is not known", allowed, hint)

    def stop(self) -> None:
        """Raise ScenarioError if anything was found."""
        if self.found:
            raise ScenarioError(self.file, tuple(self.found))


def quoted(words: Iterable[str], last: str = "or") -> str:
    """Words in quotation marks, as a sentence lists them."""
    return listed([f'"{w}"' for w in words], last)
