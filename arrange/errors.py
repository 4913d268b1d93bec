"""The one family of errors. Each says when it is raised."""

from __future__ import annotations

from dataclasses import dataclass


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
        place = f"{self.where}: " if self.where else ""
        parts = [f"{place}{self.given}; {self.allowed}"]
        if self.hint:
            parts.append(self.hint)
        return "; ".join(parts)


class ScenarioError(ArrangeError, ValueError):
    """The scenario file cannot be used. Carries every fault found in it."""

    def __init__(self, file: str, faults: tuple[Fault, ...]) -> None:
        self.file = file
        self.faults = faults
        super().__init__("\n".join(f"{file}: {fault}" for fault in faults))


class OutputError(ArrangeError, OSError):
    """A result could not be written; nothing was left half written."""


class DisagreementError(ArrangeError, RuntimeError):
    """The solver and the judge do not agree: our bug, never the user's."""
