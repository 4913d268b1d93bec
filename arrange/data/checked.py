"""What a look at the file and the empty room finds: the answer on each piece alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from arrange.data.scenario import Scenario, Wish

Answer = Literal["fits", "cannot fit", "not decided", "not looked at"]
Cause = Literal["", "wishes", "body", "floor", "way"]


@dataclass(frozen=True, slots=True)
class Alone:
    """What is known of one piece alone in the room.

    ``others`` are what it goes with: looked at together with it, or the one that was not
    looked at or cannot fit. ``cause`` says what is too much where it cannot fit, from the
    least that is asked to the most: its body, the floor to use it, the way there, or the
    ``wishes`` that must hold; "" where that was not found out.
    """

    piece: str
    answer: Answer
    others: tuple[str, ...] = ()
    cause: Cause = ""
    wishes: tuple[Wish, ...] = ()


@dataclass(frozen=True, slots=True)
class Checked:
    """The answer on every piece; ``room`` has the faults of the empty room, in sentences."""

    scenario: Scenario
    room: tuple[str, ...]
    findings: tuple[Alone, ...]

    @property
    def fine(self) -> bool:
        """Whether every piece fits alone."""
        return not self.room and all(f.answer == "fits" for f in self.findings)

    @property
    def impossible(self) -> bool:
        """Whether something is proven not to fit."""
        return bool(self.room) or any(f.answer == "cannot fit" for f in self.findings)
